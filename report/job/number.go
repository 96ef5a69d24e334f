package job

import (
	"errors"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
)

// A scale reads the numbers of one section: pressures in its unit, or percent.
type scale struct {
	pressures
	r        *reader
	label    string // of the section, in messages
	unit     quantity.Unit
	given    bool            // the unit is known
	cylinder string          // being read
	own      quantity.Unit   // of the number read last, where it named one
	units    []quantity.Unit // that it takes; none for pressures and percent
	signed   bool            // it may be below zero

	bareAt  Pos       // the first bare number, where the unit is not known
	samples []sample  // numbers that tell the unit
	written []written // all readings
	beyond  []written // readings and limits more than can be
}

// A written number is one with its place.
type written struct {
	node  *node
	label string
	as    quantity.Value // as written, in its own unit or the section's
	own   bool           // it names its unit
	value float64        // in the section's unit
}

// A sample is one number as it was written.
type sample struct {
	cylinder string
	text     string
	number   float64
	unit     quantity.Unit // its own, or the section's
	own      bool
	value    float64 // in the section's unit
}

const (
	pressureExpected = "a pressure such as 120, 11.2 bar, about 120, 145-155 or over 300"
	percentExpected  = "a percentage such as 34 %"
)

func (s *scale) expected() string {
	switch {
	case len(s.units) > 1 || len(s.units) == 1 && s.unit != quantity.None:
		return "a number in " + s.unitsTaken()
	case len(s.units) == 1:
		return "a number"
	case s.unit == quantity.Percent:
		return percentExpected
	}
	return pressureExpected
}

// unitNames are units as messages have them.
func unitNames(units []quantity.Unit) []string {
	var names []string
	for _, u := range units {
		if u != quantity.None {
			names = append(names, string(u))
		}
	}
	return names
}

var (
	twoUnits  = lazily(`^(.+?)\s*\((.*)\)$`)
	twoSlash  = lazily(`^([0-9]+(?:\.[0-9]+)?) ?/ ?([0-9]+(?:\.[0-9]+)?)( ?[^0-9/ ].*)?$`)
	ishForm   = lazily(`(?i)^([0-9]+(?:\.[0-9]+)?) ?['’]? ?-?ish$`)
	nearWords = lazily(`(?i)^(?:around|circa|ca\.?|approx\.?|approximately|roughly|abt\.?|nearly|≈|c\.) ?(.+)$`)
	overWords = lazily(`(?i)^(?:>=?|≥|more than|above|at least|off the scale|pegged at) ?(.+)$`)
	underWord = lazily(`(?i)^(?:<=?|≤|less than|below|under|at most) ?(.+)$`)
	toWords   = lazily(`(?i)^(.+[0-9].*?) (?:to|up to|and) ([0-9].*)$`)
	dashList  = lazily(`^[0-9.]+(?: ?[-–] ?[0-9.]+){2,}$`)
)

// single reads one number, with two units where both are given.
func (s *scale) single(n *node, text, label string) (float64, bool) {
	text = strings.TrimSpace(text)
	if s.signed {
		text = strings.TrimPrefix(text, "+")
	}
	if strings.HasPrefix(text, "+") {
		s.r.report(n.pos, "rose by "+text[1:]+"? write the reading itself, without a sign", "'%s' is '%s', which may be a rise or a reading", label, short(n.text))
		return 0, false
	}
	if s.unit != quantity.Percent && strings.HasSuffix(text, ")") {
		if m := twoUnits().FindStringSubmatch(text); m != nil {
			return s.double(n, m[1], m[2], label)
		}
	}
	if hint := s.misread(text); hint != "" {
		s.r.report(n.pos, hint, "'%s' is '%s', expected %s", label, short(n.text), s.expected())
		return 0, false
	}
	v, err := quantity.Parse(text)
	if err != nil {
		expected, hint := parseProblem(err)
		if strings.HasPrefix(expected, "a number") || strings.HasPrefix(expected, "a unit") {
			expected = s.expected()
		}
		s.r.report(n.pos, hint, "'%s' is '%s', expected %s", label, short(n.text), expected)
		return 0, false
	}
	return s.take(n, v, text, label)
}

// take converts a number to the section's unit and checks that it can be.
func (s *scale) take(n *node, v quantity.Value, text, label string) (float64, bool) {
	own := v.Unit != quantity.None
	switch {
	case !own && !s.given:
		if s.bareAt == (Pos{}) {
			s.bareAt = n.pos
		}
	case own && !s.takes(v.Unit):
		s.r.report(n.pos, "", "'%s' is in %s, expected %s", label, v.Unit, s.unitsTaken())
		return 0, false
	}
	value, err := v.In(s.unit)
	if err != nil {
		s.r.unreadable(n, label, err)
		return 0, false
	}
	if v.Number < 0 && !s.signed {
		s.r.report(n.pos, "", "'%s' is '%s', below 0 %s, which no gauge reads", label, short(n.text), s.unit)
		return 0, false
	}
	if own {
		s.own = v.Unit
	} else {
		v.Unit = s.unit
	}
	if s.unit == quantity.Percent && value > 100 && !s.signed {
		s.r.report(n.pos, "", "'%s' is '%s', above 100 %%, which is impossible", label, short(n.text))
		return 0, false
	}
	as := written{n, label, v, own, value}
	s.written = append(s.written, as)
	if (own || s.given) && value > s.mostHere() {
		s.beyond = append(s.beyond, as) // reported when all are known
		return value, true
	}
	s.samples = append(s.samples, sample{s.cylinder, text, v.Number, v.Unit, own, value})
	return value, true
}

func (s *scale) takes(u quantity.Unit) bool {
	if len(s.units) > 0 {
		return slices.Contains(s.units, u)
	}
	if s.unit == quantity.Percent {
		return u == quantity.Percent
	}
	for _, known := range pressureUnits {
		if string(u) == known {
			return true
		}
	}
	return false
}

func (s *scale) unitsTaken() string {
	if len(s.units) > 0 {
		return anyOf(unitNames(s.units))
	}
	if s.unit == quantity.Percent {
		return "percent"
	}
	return anyOf(pressureUnits)
}

// double reads a number given in two units; the first counts.
func (s *scale) double(n *node, first, second, label string) (float64, bool) {
	a, errA := quantity.Parse(first)
	b, errB := quantity.Parse(second)
	if errA != nil || errB != nil || b.Unit == quantity.None {
		s.r.report(n.pos, "a remark goes into 'notes'; in brackets stands the same pressure in another unit, as in '24 bar (360 psi)'",
			"'%s' is '%s', expected %s", label, short(n.text), s.expected())
		return 0, false
	}
	value, ok := s.take(n, a, first, label)
	if !ok {
		return 0, false
	}
	if !s.takes(b.Unit) {
		s.r.report(n.pos, "", "'%s' is in %s, expected %s", label, b.Unit, s.unitsTaken())
		return 0, false
	}
	if a.Unit == quantity.None {
		a.Unit = s.unit
	}
	s.contradiction(a, b, first, second)
	return value, true
}

// widestApart is how far two figures for one pressure may differ, in percent.
const widestApart = 2

func (s *scale) contradiction(a, b quantity.Value, first, second string) {
	other, err := quantity.Convert(b.Number, b.Unit, a.Unit)
	if err != nil || a.Number == other {
		return
	}
	apart := 100 * abs(other-a.Number) / max(a.Number, other)
	if apart <= widestApart {
		return
	}
	var cylinders []string
	if s.cylinder != "" {
		cylinders = []string{s.cylinder}
	}
	s.r.notice("units-contradict", "", cylinders, diag.Facts{
		"section":   s.name,
		"value":     diag.Number{Value: a.Number, Decimals: decimals(first), Unit: a.Unit},
		"other":     diag.Number{Value: b.Number, Decimals: decimals(second), Unit: b.Unit},
		"converted": diag.Number{Value: other, Decimals: quantity.DefaultDecimals(a.Unit), Unit: a.Unit},
		"percent":   diag.Number{Value: apart, Decimals: 1, Unit: quantity.Percent},
	})
}

func abs(v float64) float64 { return max(v, -v) }

// decimals counts the decimals that a number is written with.
func decimals(text string) int {
	_, after, found := strings.Cut(text, ".")
	if !found {
		return 0
	}
	return len(after) - len(strings.TrimLeft(after, "0123456789"))
}

// isFigures tells whether a text is a number and nothing else, as most readings
// are: no words and signs need be looked for.
func isFigures(text string) bool {
	return text != "" && strings.Trim(text, "0123456789.") == "" && strings.Count(text, ".") <= 1
}

// misread offers what a notation that is not taken probably means; "" where
// it is none of those known.
func (s *scale) misread(text string) string {
	if isFigures(text) {
		return ""
	}
	if m := twoSlash().FindStringSubmatch(text); m != nil {
		return s.slashHint(m[1], m[2])
	}
	if m := ishForm().FindStringSubmatch(text); m != nil {
		return "write 'about " + m[1] + "'"
	}
	for _, form := range []struct {
		pattern *regexp.Regexp
		hint    string
	}{{nearWords(), "write 'about %'"}, {overWords(), "write 'over %'"}} {
		if m := form.pattern.FindStringSubmatch(text); m != nil {
			return strings.Replace(form.hint, "%", m[1], 1)
		}
	}
	if m := underWord().FindStringSubmatch(text); m != nil {
		return "a reading has no upper bound alone: write 'about " + m[1] + "', '0-" + m[1] + "', or 0 for no pressure"
	}
	if m := toWords().FindStringSubmatch(text); m != nil {
		return "write '" + m[1] + "-" + m[2] + "' for a reading between the two"
	}
	if dashList().MatchString(text) {
		return "readings of several cylinders are a list: [" + strings.Join(strings.FieldsFunc(text, func(c rune) bool { return strings.ContainsRune("-– ", c) }), ", ") + "]"
	}
	for _, name := range []string{"state of a test", "pressure"} {
		if _, answer := vocabularyOf(name).find(text, nil); answer != "" {
			return answer
		}
	}
	if near := nearest(text, stateWords); near != "" {
		return "did you mean '" + near + "'?"
	}
	return ""
}

// slashHint offers the readings of '145/148' and '1/180'. It is empty for a
// fraction of a unit, such as 1/2.
func (s *scale) slashHint(first, second string) string {
	a, _ := strconv.ParseFloat(first, 64)
	b, _ := strconv.ParseFloat(second, 64)
	if s.unit == quantity.Percent {
		if a > b {
			return ""
		}
		return "held of supplied stands by itself under 'dry': " + first + "/" + second
	}
	if b <= 10 && a < b {
		return ""
	}
	repeats := "two readings of one cylinder are '[" + first + ", " + second + "]'"
	if s.r.isCylinder(first) && b > 10*a {
		return "cylinder " + first + " reading " + second + " is '" + first + ": " + second + "'; " + repeats
	}
	return repeats + "; of two cylinders, each stands by its own; held of supplied goes under 'leakage'"
}

// parseProblem takes apart what the quantity reader did not take.
func parseProblem(err error) (expected, hint string) {
	var problem *quantity.ParseError
	if errors.As(err, &problem) {
		return problem.Expected, problem.Hint
	}
	var conversion *quantity.ConversionError
	if errors.As(err, &conversion) {
		return "a number with a unit that fits", conversion.Reason
	}
	return "a number", ""
}
