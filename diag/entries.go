package diag

import (
	"math"
	"slices"
	"strings"

	"gaugesheet/diag/quantity"
)

// Entries are the numbers of one section as they were written.
type entries struct {
	section string
	unit    quantity.Unit
	list    []entry
	minimum *Limit // that the readings are held against, nil for none
}

// An entry is one number as it was written.
type entry struct {
	cylinder string
	circuit  string
	reading  string // which of the section's readings
	aside    bool   // says nothing of the unit where there are others
	number   float64
	unit     quantity.Unit // its own, or the section's
	own      bool
	decimals int
	value    float64 // in the section's unit
	least    bool    // it says "that much or more"
}

// add takes the numbers of a reading apart: its repeats, or the ends of a band.
// The entry says whose reading it is.
func (s *entries) add(e entry, r Reading) {
	if r.State != Tested {
		return
	}
	values := r.Values
	if r.Kind == Band && len(values) == 1 {
		values = []float64{values[0] - r.HalfWidth, values[0] + r.HalfWidth}
	}
	e.unit, e.decimals, e.least = s.unit, quantity.DefaultDecimals(s.unit), r.Kind == AtLeast
	if r.Entered != "" {
		e.decimals = decimalsIn(r.Entered)
	}
	if r.Unit != quantity.None && quantity.DimensionOf(r.Unit) == quantity.DimensionOf(s.unit) {
		e.unit, e.own = r.Unit, true
	}
	for _, v := range values {
		if !finite(v) {
			continue
		}
		e.value = v
		e.number, _ = inUnit(v, s.unit, e.unit) // both are pressures
		s.list = append(s.list, e)
	}
}

// decimalsIn is the most decimals of any number in a text.
func decimalsIn(text string) int {
	most := 0
	for _, after := range strings.Split(strings.ReplaceAll(text, ",", "."), ".")[1:] { // 8,3 is 8.3
		most = max(most, len(after)-len(strings.TrimLeft(after, "0123456789")))
	}
	return most
}

// mostCompared is how many readings are compared each with all others; no test
// has as many.
const mostCompared = 500

// unitSuspects notes figures that are probably not in the unit that they are
// said to be in.
func (s *entries) unitSuspects(u Usual) []Notice {
	aside := func(e entry) bool { return e.aside }
	if main := slices.DeleteFunc(slices.Clone(s.list), aside); len(main) > 0 {
		s = &entries{s.section, s.unit, main, s.minimum}
	}
	if whole := s.allSuspect(u); whole != nil {
		return whole
	}
	if len(s.list) > mostCompared {
		return nil
	}
	return s.apart(u)
}

// unread is a pressure in kPa that no gauge for engines can show.
const unread = 10

// allSuspect notes that all readings lie where none can be, and the unit in
// which they would be likely.
func (s *entries) allSuspect(u Usual) []Notice {
	var most *entry // whatever the order in which they are listed
	for i, x := range s.list {
		kpa, ok := inUnit(x.value, s.unit, quantity.KPa)
		if !ok || x.value > 0 && kpa >= u.low && kpa <= u.high {
			return nil
		}
		if x.value > 0 && (most == nil || x.value > most.value) {
			most = &s.list[i]
		}
	}
	if most == nil {
		return nil
	}
	likely := slices.DeleteFunc(u.UnitsLike(s.middle()), func(unit quantity.Unit) bool { return unit == most.unit })
	if u.cranking && !s.agree() && !s.minimumToo(u, likely) {
		likely = nil
	}
	n := s.suspect(*most)
	n.Cylinders, n.Variant = nil, "improbable"
	if len(likely) > 0 {
		n.Variant, n.Facts["looks"] = "", string(likely[0])
	} else if kpa := s.kilopascals(most.value); kpa > unread && kpa < u.low {
		return nil // a weak engine, which is for the findings to say
	}
	return []Notice{n}
}

// minimumToo reports that the minimum, too, is a figure that no book gives in
// its unit and that is likely in the unit that the readings look like: so the book
// was copied in the same wrong unit, however much the readings scatter.
func (s *entries) minimumToo(u Usual, likely []quantity.Unit) bool {
	if s.minimum == nil || len(likely) == 0 {
		return false
	}
	kpa, ok := inUnit(s.minimum.Value, s.minimum.Unit, quantity.KPa)
	return ok && kpa < u.likely[0] && slices.Contains(u.UnitsLike(s.minimum.Value), likely[0])
}

func (s *entries) suspect(x entry) Notice {
	n := Notice{Rule: "unit-suspect", Facts: Facts{
		"section": s.section,
		"value":   Number{Value: x.number, Decimals: x.decimals, Unit: x.unit},
		"unit":    string(x.unit),
	}}
	if x.cylinder != "" {
		n.Cylinders = []string{x.cylinder}
	}
	return n
}

// middle is the median of what was written, as far as it is not 0.
func (s *entries) middle() float64 {
	var numbers []float64
	for _, x := range s.list {
		if x.number > 0 {
			numbers = append(numbers, x.number)
		}
	}
	slices.Sort(numbers)
	return numbers[len(numbers)/2]
}

// agreed is the part of the middle within which readings agree.
const agreed = 0.25

// agree reports that two readings at least, and half of them, agree with the
// one in the middle. Written in another unit those of an engine still do; what
// is left of an engine that makes no pressure scatters.
func (s *entries) agree() bool {
	if len(s.list) < 2 {
		return true
	}
	middle, near := s.middle(), 0
	for _, x := range s.list {
		if math.Abs(x.number-middle) <= agreed*middle {
			near++
		}
	}
	return near >= 2 && 2*near >= len(s.list)
}

// apart notes each reading that lies far from the others, or where no gauge
// shows anything, while its number would lie among the others in another unit.
func (s *entries) apart(u Usual) []Notice {
	var out []Notice
	for i, x := range s.list {
		rest := s.valuesBut(i)
		if x.value <= 0 || len(rest) == 0 {
			continue
		}
		middle := rest[len(rest)/2]
		otherUnit := !s.dead(i, middle, u) && s.unitAmong(x, middle, len(rest), u) != quantity.None
		if meant, ok := s.digitLost(i, rest); ok && !otherUnit {
			n := s.suspect(x)
			n.Variant, n.Facts["meant"] = "digit", Number{Value: meant, Decimals: max(x.decimals-1, 0), Unit: x.unit}
			out = append(out, n)
			continue
		}
		hidden := u.cranking && s.kilopascals(x.value) < unread
		if usual := s.kilopascals(middle); usual < u.low || !hidden && usual > u.high {
			continue // it is the others that are in doubt, or as little as it
		}
		if !hidden && x.value >= middle/4 && x.value <= middle*4 {
			continue
		}
		if s.dead(i, middle, u) {
			continue
		}
		n := s.suspect(x)
		switch looks := s.unitAmong(x, middle, len(rest), u); {
		case looks != quantity.None:
			n.Facts["looks"] = string(looks)
		case !hidden:
			continue
		default:
			n.Variant = "improbable"
			if likely := u.UnitsLike(x.number); len(likely) > 0 {
				n.Variant, n.Facts["looks"] = "", string(likely[0])
			}
		}
		out = append(out, n)
	}
	return out
}

// digitLost gives what a reading was probably meant to be that is a tenth or a
// hundredth of the others: a cylinder at 15 among others at 150 may be dead, or a
// figure was lost in writing. Of the others all have to agree, or three and more
// than half, so that some may be low. One that was read again, and was as little then, was not.
func (s *entries) digitLost(i int, rest []float64) (meant float64, ok bool) {
	const apart, off = 0.25, 0.1 // how far the others may lie from their middle, and what was meant from it
	x, middle := s.list[i], rest[len(rest)/2]
	part := 10.0
	if x.value < middle/50 {
		part = 100
	}
	near := 0
	for _, v := range rest {
		if math.Abs(v-middle) <= apart*middle {
			near++
		}
	}
	if near < len(rest) && (near < 3 || 2*near <= len(rest)) || math.Abs(part*x.value-middle) > off*middle {
		return 0, false
	}
	for j, e := range s.list {
		if j != i && e.cylinder == x.cylinder && e.circuit == x.circuit && e.value < middle/4 {
			return 0, false
		}
	}
	return part * x.number, true
}

// dead reports a reading that is far too little beside the others and may well
// be what the gauge showed: as whole a number as theirs, which bar and the like
// are not read in, or one of several that no other unit explains. So reads a
// cylinder without pressure beside sound ones.
func (s *entries) dead(i int, middle float64, u Usual) bool {
	x := s.list[i]
	if !u.cranking || x.own || x.value >= middle/4 {
		return false
	}
	whole := x.unit == quantity.PSI && !slices.ContainsFunc(s.list, func(e entry) bool { return e.decimals > 0 })
	return whole || slices.ContainsFunc(s.list, func(e entry) bool {
		return e.cylinder != x.cylinder && e.value < middle/4 && (e.value <= 0 || s.unitAmong(e, middle, len(s.list)-1, u) == quantity.None)
	})
}

// kilopascals gives a pressure of the section in kPa.
func (s *entries) kilopascals(v float64) float64 {
	out, _ := inUnit(v, s.unit, quantity.KPa) // both are pressures
	return out
}

// among is how far from the middle of the others a reading may lie to be one
// of them, as a part of it.
const among = 0.35

// unitAmong gives the unit in which a number would lie among the others; none
// where there is no such unit, or where it may well be what the gauge showed.
func (s *entries) unitAmong(x entry, middle float64, others int, u Usual) quantity.Unit {
	units := u.units
	switch {
	case x.own && x.unit != s.unit:
		units = []quantity.Unit{s.unit} // what its neighbours go by
	case !u.cranking || !x.own && (others < 2 || x.value < middle && onDivision(x)):
		return quantity.None
	}
	for _, unit := range units {
		as, ok := inUnit(x.number, unit, s.unit)
		if ok && unit != x.unit && math.Abs(as-middle) <= among*middle {
			return unit
		}
	}
	return quantity.None
}

// onDivision tells whether a number is one that a dial in its unit is divided
// into: so a cylinder that hardly seals is read.
func onDivision(x entry) bool {
	division := map[quantity.Unit]float64{quantity.PSI: 5, quantity.Bar: 0.5, quantity.KgfPerCm2: 0.5}[x.unit]
	return division > 0 && math.Mod(x.number, division) == 0
}

// valuesBut gives the other readings above 0 in order of size.
func (s *entries) valuesBut(skip int) []float64 {
	var out []float64
	for i, x := range s.list {
		if i != skip && x.value > 0 {
			out = append(out, x.value)
		}
	}
	slices.Sort(out)
	return out
}

// beyond notes each reading above the top of the gauge's scale, or at it: a needle at its
// stop shows no more, however much there is. What says so itself is
// taken for what it says, unless nothing else was read and no minimum is met by it.
// The cylinders of one test have one note, from the lowest such reading to the highest.
func (s *entries) beyond(g *Gauge) []Notice {
	var out []Notice
	nothingElse := s.minimum == nil && !slices.ContainsFunc(s.list, func(x entry) bool { return !x.least })
	for _, x := range s.list {
		if !g.endsAt(x.value, x.least && !nothingElse) {
			continue
		}
		n := s.suspect(x)
		n.Rule, n.Facts["reading"], n.Facts["circuit"] = "reading-beyond-gauge", x.reading, x.circuit
		n.Facts["range"], n.Facts["cylinders"] = g.scale(s.unit), Names(n.Cylinders)
		if x.value <= g.High*(1+tiny) {
			n.Facts["stop"] = true
		}
		if !joined(out, n) {
			out = append(out, n)
		}
	}
	return out
}

// joined puts a reading beyond the gauge into the note on others of its test.
func joined(notes []Notice, n Notice) bool {
	alike := func(o Notice) bool {
		return len(n.Cylinders) > 0 && !slices.ContainsFunc([]string{"reading", "circuit", "stop", "unit"}, func(f string) bool { return o.Facts[f] != n.Facts[f] })
	}
	i := slices.IndexFunc(notes, alike)
	if i < 0 {
		return false
	}
	o, value := &notes[i], n.Facts["value"].(Number)
	low, _ := o.Facts["value"].(Number)
	high, several := o.Facts["to"].(Number)
	if !several {
		high = low
	}
	if value.Value < low.Value {
		low = value
	}
	if value.Value > high.Value {
		high = value
	}
	if !slices.Contains(o.Cylinders, n.Cylinders[0]) {
		o.Cylinders = append(o.Cylinders, n.Cylinders[0])
	}
	o.Facts["value"], o.Facts["to"], o.Facts["cylinders"] = low, high, Names(o.Cylinders)
	return true
}

// scale writes the gauge's range, with decimals only where its ends have some.
func (g *Gauge) scale(unit quantity.Unit) string {
	end := func(v float64) Number {
		n := Number{Value: v, Unit: unit}
		if math.Abs(v-math.Round(v)) > 1e-6 {
			n.Decimals = max(quantity.DefaultDecimals(unit), 1)
		}
		return n
	}
	low := end(g.Low)
	return quantity.Format(low.Value, low.Decimals) + "-" + end(g.High).String()
}

// endsAt reports a pressure above the top of the gauge's scale, in the unit of the section;
// or at it, unless it is only said to be that much at least.
func (g *Gauge) endsAt(v float64, least bool) bool {
	return g != nil && g.High > g.Low && (v > g.High*(1+tiny) || !least && v >= g.High*(1-tiny))
}

// beyond reports a reading of which the gauge cannot have shown all.
func (g *Gauge) beyond(r Reading) bool {
	return slices.ContainsFunc(r.Values, func(v float64) bool { return g.endsAt(v, r.Kind == AtLeast) })
}

// AsWritten is an entry without the brackets of a list: repeats as they stand on a page.
func AsWritten(entered string) string { return strings.Trim(entered, "[]") }
