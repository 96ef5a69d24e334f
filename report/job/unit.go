package job

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
)

// scaleFor makes the scale of a section of pressures. Where the section names
// no unit, and its readings carry one, the first of these is its unit.
func (r *reader) scaleFor(s *section, name string, most float64, readingKeys ...string) *scale {
	out := &scale{r: r, name: name, unit: quantity.PSI, most: most, mostUnit: quantity.Bar}
	if s.get("unit") != nil {
		out.unit, out.given = r.unit(s)
		if !out.given {
			out.bareAt = reported
		}
		return out
	}
	for _, key := range readingKeys {
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
	v, err := quantity.Parse("1 " + n.text)
	if err == nil && slices.Contains(pressureUnits, string(v.Unit)) {
		return v.Unit, true
	}
	hint := meant(n.text, pressureUnits)
	if hint == "" && err != nil {
		_, hint = parseProblem(err)
		hint = strings.Replace(hint, "write 1 ", "write ", 1)
	}
	r.report(n.pos, hint, "'%s' is '%s', expected %s", s.label("unit"), short(n.text), anyOf(pressureUnits))
	return quantity.PSI, false
}

var trailingUnit = lazily(`(?i)[0-9+] ?(psig?|kpa|bars?|mpa|kgf?/cm(?:\^?2|²))(?:$|[ )\-])`)

// firstUnit finds the first unit of pressure in a value.
func firstUnit(n *node) quantity.Unit {
	if n == nil {
		return quantity.None
	}
	if m := trailingUnit().FindStringSubmatch(n.text); n.kind == scalar && m != nil {
		v, err := quantity.Parse("1 " + m[1])
		if err == nil {
			return v.Unit
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

// A guess knows what pressures are usual, to offer the unit that numbers look
// like. The figures are common practice, with a wide margin.
type guess struct {
	low, high float64 // kPa: what happens at all
	likely    [2]float64
	units     []quantity.Unit // in the order in which they are offered
	cranking  bool            // cylinders or rotors, which read much alike
}

var usualUnits = []quantity.Unit{quantity.PSI, quantity.Bar, quantity.KPa, quantity.KgfPerCm2, quantity.MPa}

func compressionGuess(spec diag.Spec) guess {
	if spec.Diesel() {
		return guess{250, 8000, [2]float64{1000, 5000}, usualUnits, true}
	}
	return guess{150, 3000, [2]float64{330, 2000}, usualUnits, true}
}

func rotorGuess() guess {
	return guess{100, 1800, [2]float64{350, 1200},
		[]quantity.Unit{quantity.KgfPerCm2, quantity.PSI, quantity.KPa, quantity.Bar, quantity.MPa}, true}
}

func fuelGuess(system string) guess {
	ranges := map[string]guess{
		"carburettor":       {low: 4, high: 120, likely: [2]float64{14, 60}},
		"throttle body":     {low: 15, high: 350, likely: [2]float64{60, 250}},
		"port, return line": {low: 50, high: 900, likely: [2]float64{170, 500}},
		"port, no return":   {low: 50, high: 900, likely: [2]float64{250, 600}},
		"direct, low side":  {low: 50, high: 1500, likely: [2]float64{250, 800}},
	}
	g, known := ranges[system]
	if !known {
		g = guess{low: 4, high: 400_000, likely: [2]float64{150, 700}}
	}
	g.units = usualUnits
	return g
}

// unitsLike gives the units in which a number would be likely, best first.
func (g guess) unitsLike(number float64) []quantity.Unit {
	var out []quantity.Unit
	for _, u := range g.units {
		if kpa, err := quantity.Convert(number, u, quantity.KPa); err == nil && kpa >= g.likely[0] && kpa <= g.likely[1] {
			out = append(out, u)
		}
	}
	return out
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

// finish reports bare numbers without a unit, and notes figures that are
// probably not in the unit that they are said to be in.
func (s *scale) finish(g guess) {
	switch {
	case s.bareAt == reported:
		return
	case s.bareAt == (Pos{}):
		if whole := s.suspect(g); len(s.samples) <= mostCompared {
			if !whole {
				s.apart(g)
			}
			s.dotted()
		}
		return
	}
	likely := []quantity.Unit{s.unit} // that of the readings that carry one
	if !slices.ContainsFunc(s.samples, func(x sample) bool { return x.own }) {
		middle, _ := s.middle()
		likely = g.unitsLike(middle)
	}
	s.r.report(s.bareAt, unitHint(likely), "'%s' has numbers without a unit, expected 'unit' to name %s", s.name, anyOf(pressureUnits))
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

// unread is a pressure in kPa that no gauge for engines can show.
const unread = 10

// suspect notes that all readings lie where none can be, and the unit in which
// they would be likely. It tells whether that is so.
func (s *scale) suspect(g guess) bool {
	var first *sample
	for i, x := range s.samples {
		kpa, err := quantity.Convert(x.value, s.unit, quantity.KPa)
		if err != nil || (x.value > 0 && kpa >= g.low && kpa <= g.high) {
			return false
		}
		if x.value > 0 && first == nil {
			first = &s.samples[i]
		}
	}
	if first == nil {
		return false
	}
	middle, _ := s.middle()
	likely := slices.DeleteFunc(g.unitsLike(middle), func(u quantity.Unit) bool { return u == first.unit })
	facts := s.facts(first)
	variant := "improbable"
	if len(likely) > 0 {
		variant = ""
		facts["looks"] = string(likely[0])
	} else if kpa, _ := quantity.Convert(first.value, s.unit, quantity.KPa); kpa > unread && kpa < g.low {
		return false // a weak engine, which is for the diagnosis to say
	}
	s.r.notice("unit-suspect", variant, nil, facts)
	return true
}

func (s *scale) facts(x *sample) diag.Facts {
	return diag.Facts{
		"section": s.name,
		"value":   diag.Number{Value: x.number, Decimals: decimals(x.text), Unit: x.unit},
		"unit":    string(x.unit),
	}
}

// apart notes each reading that lies far from the others, or where no gauge
// shows anything, while its number would lie among the others in another unit.
func (s *scale) apart(g guess) {
	for i, x := range s.samples {
		rest := s.valuesBut(i)
		if x.value <= 0 || len(rest) == 0 {
			continue
		}
		middle := rest[len(rest)/2]
		hidden := g.cranking && s.kilopascals(x.value) < unread
		if usual := s.kilopascals(middle); !hidden && (usual < g.low || usual > g.high) {
			continue // it is the others that are in doubt
		}
		if !hidden && x.value >= middle/4 && x.value <= middle*4 {
			continue
		}
		facts, variant := s.facts(&s.samples[i]), ""
		switch looks := s.unitAmong(x, middle, len(rest), g); {
		case looks != quantity.None:
			facts["looks"] = string(looks)
		case !hidden:
			continue
		default:
			variant = "improbable"
			if likely := g.unitsLike(x.number); len(likely) > 0 {
				variant, facts["looks"] = "", string(likely[0])
			}
		}
		s.r.notice("unit-suspect", variant, cylinderOf(x), facts)
	}
}

// kilopascals gives a pressure of the section in kPa.
func (s *scale) kilopascals(v float64) float64 {
	out, _ := quantity.Convert(v, s.unit, quantity.KPa) // both are pressures
	return out
}

// among is how far from the middle of the others a reading may lie to be one
// of them, as a part of it.
const among = 0.35

// unitAmong gives the unit in which a number would lie among the others; none
// where there is no such unit, or where it may well be what the gauge showed.
func (s *scale) unitAmong(x sample, middle float64, others int, g guess) quantity.Unit {
	units := g.units
	switch {
	case x.own && x.unit != s.unit:
		units = []quantity.Unit{s.unit} // what its neighbours go by
	case !g.cranking || !x.own && (others < 2 || x.value < middle && onDivision(x)):
		return quantity.None
	}
	for _, u := range units {
		as, err := quantity.Convert(x.number, u, s.unit)
		if err == nil && u != x.unit && abs(as-middle) <= among*middle {
			return u
		}
	}
	return quantity.None
}

// onDivision tells whether a number is one that a dial in its unit is divided
// into: so a cylinder that hardly seals is read.
func onDivision(x sample) bool {
	division := map[quantity.Unit]float64{quantity.PSI: 5, quantity.Bar: 0.5, quantity.KgfPerCm2: 0.5}[x.unit]
	return division > 0 && math.Mod(x.number, division) == 0
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
