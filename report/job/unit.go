package job

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
)

// Pressures say what the readings of a section are, for its messages and its
// bounds of belief.
type pressures struct {
	name  string
	usual diag.Usual
	of    string  // what the pressures are of, "a petrol engine"
	verb  string  // what it does with them, "can give"
	most  float64 // bar: beyond it nothing is believed, whatever it is
	keys  []string
}

// scaleFor makes the scale of a section of pressures. Where the section names
// no unit, and its readings carry one, the first of these is its unit.
func (r *reader) scaleFor(s *section, p pressures) *scale {
	out := &scale{r: r, pressures: p, label: s.name, unit: quantity.PSI}
	r.scales[p.name] = out
	if s.get("unit") != nil {
		out.unit, out.given = r.unit(s)
		if !out.given {
			out.bareAt = reported
		}
		return out
	}
	for _, key := range p.keys {
		if u := firstUnit(s.get(key)); u != quantity.None {
			out.unit = u
			break
		}
	}
	return out
}

// unit reads a section's unit, in any spelling that names it.
func (r *reader) unit(s *section) (quantity.Unit, bool) {
	n := s.scalar("unit")
	if n == nil {
		return quantity.PSI, false
	}
	v, err := quantity.ParseAs("1 "+n.text, quantity.Pressure)
	if err == nil && v.Number == 1 && slices.Contains(pressureUnits, string(v.Unit)) {
		return v.Unit, true
	}
	hint := ""
	if other, plain := v.In(quantity.KPa); err == nil && plain == nil && v.Number == 1 && v.Unit != quantity.None {
		hint = "write the readings in kPa: 100 " + string(v.Unit) + " are " + quantity.Format(other*100, 0) + " kPa"
	}
	hint = cmp.Or(hint, meant(n.text, pressureUnits))
	if hint == "" && err != nil {
		_, hint = parseProblem(err)
		hint = strings.Replace(hint, "write 1 ", "write ", 1)
	}
	r.report(n.pos, hint, "'%s' is '%s', expected %s", s.label("unit"), short(n.text), anyOf(pressureUnits))
	return quantity.PSI, false
}

// firstUnit finds the first unit of pressure in a value.
func firstUnit(n *node) quantity.Unit {
	if n == nil {
		return quantity.None
	}
	if n.kind == scalar {
		p, _ := quantity.ScanAs(n.text, quantity.Pressure)
		for _, part := range p.Parts {
			if slices.Contains(pressureUnits, string(part.Value.Unit)) {
				return part.Value.Unit
			}
		}
	}
	for _, item := range n.items {
		if u := firstUnit(item); u != quantity.None {
			return u
		}
	}
	for _, e := range n.entries {
		if u := firstUnit(e.value); u != quantity.None {
			return u
		}
	}
	return quantity.None
}

// middle gives the median of what was written, as far as it is not 0.
func (s *scale) middle() (float64, bool) {
	var numbers []float64
	for _, x := range s.samples {
		if x.number > 0 {
			numbers = append(numbers, x.number)
		}
	}
	if len(numbers) == 0 {
		return 0, false
	}
	slices.Sort(numbers)
	return numbers[len(numbers)/2], true
}

// finish reports bare numbers without a unit and figures that cannot be, and
// notes those whose point may stand for 'to'.
func (s *scale) finish() {
	s.tooMuch()
	switch {
	case s.bareAt == reported:
		return
	case s.bareAt == (Pos{}):
		if len(s.samples) <= mostCompared {
			s.dotted()
		}
		return
	}
	if len(s.units) > 0 {
		hint := unitHint(s.unitsLike())
		if test, _, _ := strings.Cut(s.label, "."); isTest(test) && keyOf(keysOf(fileKeys, test), "unit").name == "" && len(s.samples) > 0 { // {points-gap: .015}
			hint = "write the unit beside the number: " + s.samples[0].text + " " + string(s.units[min(1, len(s.units)-1)]) + ", or " + string(s.units[0])
		}
		s.r.report(s.bareAt, hint, "'%s' has numbers without a unit, expected 'unit' to name %s", s.label, anyOf(unitNames(s.units)))
		return
	}
	likely := []quantity.Unit{s.unit} // that of the readings that carry one
	if !slices.ContainsFunc(s.samples, func(x sample) bool { return x.own }) {
		middle, _ := s.middle()
		likely = s.usual.UnitsLike(middle)
	}
	s.r.report(s.bareAt, unitHint(likely), "'%s' has numbers without a unit, expected 'unit' to name %s", s.label, anyOf(pressureUnits))
}

// mostCompared is how many readings are compared each with all others; no test
// has as many.
const mostCompared = 500

// reported stands for the first bare number where the unit is given, but wrong.
var reported = Pos{-1, -1}

func unitHint(likely []quantity.Unit) string {
	switch len(likely) {
	case 0:
		return "write 'unit: ...', or the unit beside each number"
	case 1:
		return fmt.Sprintf("the numbers look like %s: write 'unit: %s'", likely[0], likely[0])
	}
	return fmt.Sprintf("the numbers look like %s, or %s: write 'unit: %s' if the gauge says so", likely[0], likely[1], likely[0])
}

func (s *scale) facts(x *sample) diag.Facts {
	return diag.Facts{
		"section": s.name,
		"value":   diag.Number{Value: x.number, Decimals: decimals(x.text), Unit: x.unit},
		"unit":    string(x.unit),
	}
}

// valuesBut gives the other readings above 0 in order of size.
func (s *scale) valuesBut(skip int) []float64 {
	var out []float64
	for i, x := range s.samples {
		if i != skip && x.value > 0 {
			out = append(out, x.value)
		}
	}
	slices.Sort(out)
	return out
}

func cylinderOf(x sample) []string {
	if x.cylinder == "" {
		return nil
	}
	return []string{x.cylinder}
}

var dottedForm = lazily(`^([0-9]{2,3})\.([0-9]{2,3})$`)

// dotted notes '85.90' among readings near 88, where the point may stand for
// 'to'. The reading is taken as it is written.
func (s *scale) dotted() {
	for i, x := range s.samples {
		m := dottedForm().FindStringSubmatch(x.text)
		if m == nil || x.own {
			continue
		}
		low, _ := strconv.ParseFloat(m[1], 64)
		high, _ := strconv.ParseFloat(m[2], 64)
		if low >= high || high > 1.3*low || len(m[1]) > len(m[2]) || s.writesDecimals(i) {
			continue
		}
		rest := s.valuesBut(i)
		if len(rest) > 0 && (rest[len(rest)/2] < 0.8*low || rest[len(rest)/2] > 1.25*high) {
			continue
		}
		facts := s.facts(&s.samples[i])
		facts["low"] = diag.Number{Value: low, Unit: s.unit}
		facts["high"] = diag.Number{Value: high, Unit: s.unit}
		s.r.notice("unit-suspect", "range-with-dot", cylinderOf(x), facts)
	}
}

// writesDecimals reports whether the other readings have two decimals or more
// that cannot be the end of a range.
func (s *scale) writesDecimals(skip int) bool {
	for i, x := range s.samples {
		if i != skip && decimals(x.text) >= 2 && !dottedRange(x.text) {
			return true
		}
	}
	return false
}

func dottedRange(text string) bool {
	low, high, _ := strings.Cut(text, ".")
	a, errA := strconv.Atoi(low)
	b, errB := strconv.Atoi(high)
	return errA == nil && errB == nil && a < b
}
