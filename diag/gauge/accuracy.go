// Package gauge knows how far a gauge can be trusted: its accuracy, the
// uncertainty that accuracy and repeatability give to a reading or to a
// comparison of readings, and whether a value can be told from a limit; it knows
// nothing of engines.
package gauge

import (
	"fmt"
	"math"
	"strings"

	"gaugesheet/diag/quantity"
)

// Accuracy is how far a gauge may be out. The zero Accuracy is one that was
// not recorded.
type Accuracy struct {
	// Percent of span in the lower quarter, middle half and upper quarter of
	// the scale; the quarter marks belong to the middle half.
	lower, middle, upper float64
	ofReading            float64 // percent of the reading
}

// Known reports whether an accuracy was recorded.
func (a Accuracy) Known() bool { return a != Accuracy{} }

// NeedsRange reports whether the half-width depends on the gauge's range.
func (a Accuracy) NeedsRange() bool { return a.middle > 0 }

// assumedPercent of the reading stands for an accuracy that was not recorded:
// common practice, no source.
const assumedPercent = 3

const mostPercent = 25 // beyond it the figure is a slip, not a gauge

// Grades of ASME B40.100, percent of span. A and B are as published (B: US
// Army subcourse SM0486, p. 55); the others are from memory.
var grades = map[string]Accuracy{
	"4a": ofSpan(0.1, 0.1),
	"3a": ofSpan(0.25, 0.25),
	"2a": ofSpan(0.5, 0.5),
	"1a": ofSpan(1, 1),
	"a":  ofSpan(2, 1),
	"b":  ofSpan(3, 2),
	"c":  ofSpan(4, 3),
	"d":  ofSpan(5, 5),
}

// Classes of EN 837-1, percent of span over the whole scale, from memory.
var classes = []float64{0.1, 0.25, 0.6, 1, 1.6, 2.5, 4}

func ofSpan(outer, middle float64) Accuracy {
	return Accuracy{lower: outer, middle: middle, upper: outer}
}

// AccuracyError reports an accuracy that is not written in one of the four forms.
type AccuracyError struct {
	Found, Expected, Hint string
}

func (e *AccuracyError) Error() string {
	return fmt.Sprintf("found %q, expected %s", e.Found, e.Expected)
}

// ParseAccuracy reads '2 % of span', '2 % of reading', 'grade B' (ASME
// B40.100: 4A 3A 2A 1A A B C D) or 'class 1.6' (EN 837-1). The error is an
// *AccuracyError.
func ParseAccuracy(text string) (Accuracy, error) {
	clean := strings.ToLower(strings.Join(strings.Fields(text), " "))
	if name, ok := strings.CutPrefix(clean, "grade "); ok {
		if a, ok := grades[name]; ok {
			return a, nil
		}
		return Accuracy{}, &AccuracyError{Found: text, Expected: "grade 4A, 3A, 2A, 1A, A, B, C or D (ASME B40.100)"}
	}
	for _, class := range []string{"class ", "kl ", "kl. ", "cl ", "cl. ", "klasse ", "classe ", "clase "} { // as dials and shops have it
		if name, ok := strings.CutPrefix(clean, class); ok {
			return parseClass(text, name)
		}
	}
	if number, ok := strings.CutSuffix(clean, " of span"); ok {
		p, err := parsePercent(text, number)
		return ofSpan(p, p), err
	}
	if number, ok := strings.CutSuffix(clean, " of reading"); ok {
		p, err := parsePercent(text, number)
		return Accuracy{ofReading: p}, err
	}
	return Accuracy{}, &AccuracyError{
		Found:    text,
		Expected: "'2 % of span', '2 % of reading', 'grade B' or 'class 1.6'",
		Hint:     basisHint(clean),
	}
}

func parseClass(text, name string) (Accuracy, error) {
	v, err := quantity.Parse(name)
	for _, class := range classes {
		if err == nil && v.Unit == quantity.None && v.Number == class {
			return ofSpan(class, class), nil
		}
	}
	return Accuracy{}, &AccuracyError{Found: text, Expected: "class 0.1, 0.25, 0.6, 1, 1.6, 2.5 or 4 (EN 837-1)"}
}

func parsePercent(text, number string) (float64, error) {
	v, err := quantity.Parse(number)
	if err != nil || v.Unit != quantity.Percent || !(v.Number > 0 && v.Number <= mostPercent) {
		return 0, &AccuracyError{Found: text, Expected: fmt.Sprintf("a percentage of more than 0, at most %d %%", mostPercent)}
	}
	return v.Number, nil
}

// basisHint helps with a percentage that does not say of what.
func basisHint(clean string) string {
	number, _, _ := strings.Cut(clean, "%")
	v, err := quantity.Parse(number + "%")
	if err != nil || !strings.Contains(clean, "%") {
		return ""
	}
	return fmt.Sprintf("write %v %% of span (of the whole scale) or %v %% of reading", v.Number, v.Number)
}

// Gauge is one gauge as far as its uncertainty goes. All its figures are in
// one unit, that of the readings.
type Gauge struct {
	Accuracy  Accuracy
	Low, High float64 // ends of the scale; both 0 where not recorded
	Division  float64 // smallest division, 0 where not recorded
	// Offset is what the gauge was found to read too much at its last check.
	// No reading is corrected by it; it widens the uncertainty.
	Offset float64
}

// HalfWidth gives the most by which the gauge's scale may be out at this
// reading, by its accuracy alone. Where no accuracy was recorded, or one of
// span without the range, it is 3 percent of the reading.
func (g Gauge) HalfWidth(reading float64) float64 {
	a, span := g.Accuracy, g.High-g.Low
	switch {
	case a.ofReading > 0:
		return a.ofReading / 100 * math.Abs(reading)
	case !a.Known() || !(span > 0):
		return assumedPercent / 100.0 * math.Abs(reading)
	case reading < g.Low+span/4:
		return a.lower / 100 * span
	case reading > g.High-span/4:
		return a.upper / 100 * span
	}
	return a.middle / 100 * span
}

// Standard gives the standard uncertainty of the gauge's scale at a reading:
// half-width / sqrt 3, a rectangular distribution (JCGM 100:2008, 4.3.7), and
// the offset that was not corrected joined to it by root of squares.
func (g Gauge) Standard(reading float64) float64 {
	return math.Hypot(g.HalfWidth(reading)/math.Sqrt(3), g.Offset)
}
