package job

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
)

// mostHere is the pressure beyond which nothing is believed, in the section's
// unit.
func (s *scale) mostHere() float64 {
	switch {
	case len(s.units) > 0:
		return math.Inf(1)
	case s.unit == quantity.Percent:
		return 100
	}
	usual, _ := quantity.Convert(s.usual.Most, quantity.PSI, s.unit)
	if most, _ := quantity.Convert(s.most, quantity.Bar, s.unit); math.IsInf(s.usual.Most, 1) || most < usual {
		usual = most
	}
	return usual * (1 + 1e-9)
}

// tooMuch reports what is more than can be. Where all readings are, and their
// numbers would be usual ones in another unit, that is one mistake.
func (s *scale) tooMuch() {
	if len(s.beyond) == 0 {
		return
	}
	first := s.beyond[0]
	own := func(w written) bool { return w.own }
	if more := len(s.beyond) - 1; more > 0 && !slices.ContainsFunc(s.beyond, own) && !slices.ContainsFunc(s.samples, func(x sample) bool { return x.value > 0 }) {
		if likely := s.otherUnits(first.as); len(likely) > 0 {
			hint := unitHint(likely)
			if tenth := first.as.Number / 10; quantity.DefaultDecimals(first.as.Unit) > 0 && slices.Contains(s.usual.UnitsLike(tenth), first.as.Unit) {
				hint += "; where a point was left out write " + plainNumber(tenth) + " and so on"
			}
			s.r.report(first.node.pos, hint, "'%s' is '%s', and %d more are like it: more than %s %s (at most %s)",
				first.label, short(first.node.text), more, s.of, s.verb, s.mostIn(first.as.Unit))
			return
		}
	}
	for _, w := range s.beyond {
		s.r.doubt(w, cmp.Or(s.meantBy(w), "look at the figure and its unit again"+s.orDiesel(w)), fmt.Sprintf("more than %s %s (at most %s)", s.of, s.verb, s.mostIn(w.as.Unit)))
	}
}

// mostOfDiesel is the cranking pressure in psi that a diesel may give.
const mostOfDiesel = 700

// orDiesel offers another fuel where the pressure is one that a diesel gives.
func (s *scale) orDiesel(w written) string {
	psi, err := quantity.Convert(w.as.Number, w.as.Unit, quantity.PSI)
	if err == nil && s.of == "a petrol engine" && psi <= mostOfDiesel {
		return "; of a diesel write 'fuel: diesel' under 'engine'"
	}
	return ""
}

// mostIn writes the most that is believed in a unit.
func (s *scale) mostIn(unit quantity.Unit) string {
	most, _ := quantity.Convert(s.mostHere(), s.unit, unit)
	return inUnit(most, unit)
}

// otherUnits gives the units in which a number would be a usual one.
func (s *scale) otherUnits(v quantity.Value) []quantity.Unit {
	return slices.DeleteFunc(s.usual.UnitsLike(v.Number), func(u quantity.Unit) bool { return u == v.Unit })
}

// A meaning is what a figure may have been meant to be.
type meaning struct {
	text  string
	value float64 // in the section's unit
}

// meantBy offers what was probably meant by a figure that cannot be: a point
// that slipped, a figure typed twice or two in the wrong order, or another unit.
// Beside other readings it is the first of these that is about as they are, else
// the nearest to them, and "" where none would be one of them.
func (s *scale) meantBy(w written) string {
	var all []meaning
	rest := s.middleRead()
	if fields := strings.Fields(w.node.text); len(fields) == 2 && isFigures(fields[0]) && isFigures(fields[1]) && s.isUsualText(fields[0]) && s.isUsualText(fields[1]) {
		return "two readings of one " + s.r.cylinderWord + " are '[" + fields[0] + ", " + fields[1] + "]'; for a reading between the two write " + fields[0] + "-" + fields[1]
	}
	if rest > 0 {
		for _, m := range s.slips(w) {
			if math.Abs(m.value-rest) <= alike*rest {
				return "did you mean " + m.text + "?"
			}
		}
	}
	for _, part := range []float64{10, 100} {
		less := w.as.Number / part
		if slices.Contains(s.usual.UnitsLike(less), w.as.Unit) {
			all = append(all, meaning{w.divided(part), w.value / part})
			break
		}
	}
	for _, u := range s.otherUnits(w.as) {
		if v, err := quantity.Convert(w.as.Number, u, s.unit); err == nil {
			all = append(all, meaning{w.divided(1) + " " + string(u), v})
			break
		}
	}
	if rest > 0 {
		apart := func(m meaning) float64 { return math.Abs(m.value - rest) }
		all = slices.DeleteFunc(all, func(m meaning) bool { return apart(m) > rest/2 })
		slices.SortStableFunc(all, func(a, b meaning) int { return cmp.Compare(apart(a), apart(b)) })
		all = all[:min(len(all), 1)]
	}
	switch len(all) {
	case 0:
		return ""
	case 1:
		return "did you mean " + all[0].text + "?"
	}
	return "did you mean " + all[0].text + " or " + all[1].text + "?"
}

var (
	figuresWithin = lazily(`\d+(?:\.\d+)?`)
	bothEnds      = lazily(`^\d+(?:\.\d+)?\s*(?:-|–|\.\.)\s*\d+(?:\.\d+)?$`)
)

// divided writes a number without its unit, a part of it, and with it both ends of a
// range: 350-450.
func (w written) divided(by float64) string {
	text := strings.TrimSpace(w.node.text)
	if !bothEnds().MatchString(text) {
		return plainNumber(w.as.Number / by)
	}
	return figuresWithin().ReplaceAllStringFunc(text, func(figure string) string {
		v, _ := strconv.ParseFloat(figure, 64)
		return plainNumber(v / by)
	})
}

// alike is how far from the middle of the others a figure may be, as a part of
// it, to have been meant as one of them.
const alike = 0.15

// slips are what a figure with a slip of the hand in it may have been, likeliest
// first: a nought too many, a figure typed twice, one too many, two in the wrong
// order, a point left out.
func (s *scale) slips(w written) []meaning {
	text := plainNumber(w.as.Number)
	var out []meaning
	add := func(digits string) {
		v, err := strconv.ParseFloat(digits, 64)
		if err == nil && v > 0 && v != w.as.Number {
			out = append(out, meaning{plainNumber(v), w.value / w.as.Number * v})
		}
	}
	if slices.ContainsFunc(s.samples, func(x sample) bool { return decimals(x.text) > 0 }) {
		add(plainNumber(w.as.Number / 10))
	}
	if strings.HasSuffix(text, "0") && !strings.Contains(text, ".") {
		add(strings.TrimSuffix(text, "0"))
	}
	for _, twice := range []bool{true, false} {
		for i := range text {
			if (i > 0 && text[i] == text[i-1]) == twice {
				add(text[:i] + text[i+1:])
			}
		}
	}
	for i := 1; i < len(text); i++ {
		add(text[:i-1] + text[i:i+1] + text[i-1:i] + text[i+1:])
	}
	add(plainNumber(w.as.Number / 10))
	add(plainNumber(w.as.Number / 100))
	return out
}

// middleRead is the median of the readings that can be, in the section's unit;
// 0 where there are none.
func (s *scale) middleRead() float64 {
	rest := s.valuesBut(-1)
	if len(rest) == 0 {
		return 0
	}
	return rest[len(rest)/2]
}

// farBeyond is how far above the top of its gauge's scale a reading cannot be:
// a needle may be read a little past the last mark, and no further.
const farBeyond = 1.5

// offTheGauge reports readings far above the scale of their gauge, which is in
// the section's unit.
func (s *scale) offTheGauge(g *diag.Gauge) {
	if s == nil || g == nil || g.High <= g.Low || s.bareAt != (Pos{}) {
		return
	}
	var off []written
	inside := false
	for _, w := range s.written {
		switch {
		case w.value > s.mostHere(): // reported as such
		case w.value > farBeyond*g.High:
			off = append(off, w)
		default:
			inside = inside || w.value > 0
		}
	}
	if len(off) == 0 {
		return
	}
	name := "its gauge"
	if g.Name != "" {
		name = "the gauge '" + short(g.Name) + "'"
	}
	top := inUnit(g.High, s.unit)
	if more := len(off) - 1; more > 0 && !inside {
		s.r.report(off[0].node.pos, "look at the range of the gauge and its unit again", "'%s' is '%s', and %d more are like it: %s reads to %s",
			off[0].label, short(off[0].node.text), more, name, top)
		return
	}
	for _, w := range off {
		s.r.doubt(w, cmp.Or(s.meantBy(w), "look at the figure, its unit and the range of the gauge again"), "and "+name+" reads to "+top)
	}
}

// crankedBy names, for messages, what the compression is of.
func crankedBy(spec diag.Spec, spark bool) string {
	switch {
	case spec.Diesel():
		return "a diesel"
	case spec.Fuel == "two-stroke mix":
		return "a two-stroke engine"
	case spec.Fuel == "petrol":
		return "a petrol engine"
	case spec.Fuel != "":
		return fmt.Sprintf("an engine on %s", spec.Fuel)
	case spark:
		return "a spark-ignition engine"
	}
	return "any engine"
}
