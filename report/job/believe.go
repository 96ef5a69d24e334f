package job

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
)

// A belief is what readings of one kind in a further test can be at all, and
// what they usually are, so that a slip of the hand is told and answered. The
// figures are common practice with a wide margin, no source, but for a vacuum,
// which is not more than the air has, and percentages.
type belief struct {
	section, name      string // the reading, or the beginning of its name; "" for all
	unit               quantity.Unit
	least, most        float64
	usually, usualMost float64
}

// beliefs are in order: the first that fits counts.
var beliefs = []belief{
	{"oil-pressure", "oil at", quantity.Celsius, -60, 200, 10, 140},
	{"oil-pressure", "", quantity.PSI, 0, 250, 5, 110},
	{"vacuum", "", quantity.InHg, 0, 32, 1, 26},
	{"cooling", "thermostat", quantity.Celsius, 0, 130, 65, 100},
	{"cooling", "warm", quantity.Celsius, -60, 150, 10, 125},
	{"cooling", "coolant", quantity.Celsius, -90, 30, -60, 5},
	{"cooling", "", quantity.PSI, 0, 60, 3, 30},
	{"valves", "lift", quantity.Millimetre, 0, 40, 2, 18},
	{"valves", "", quantity.Millimetre, 0, 3, 0.03, 0.8},
	{"balance", "", quantity.RPM, 0, 12_000, 300, 4000},
	{"magnetos", "at", quantity.RPM, 0, 6000, 1000, 3000},
	{"magnetos", "", quantity.RPM, 0, 3000, 20, 300},
	{"heads", "at", quantity.RPM, 0, 6000, 600, 3000},
	{"heads", "", quantity.Celsius, -60, 400, 40, 280},
	{"crankcase-hold", "", quantity.PSI, 0, 60, 3, 15},
	{"injectors", "ohms", quantity.Ohm, 0, 1000, 0.2, 25},
	{"injectors", "bench", quantity.Bar, 0, 400, 1, 10},
	{"injectors", "pressure-drop", quantity.KPa, 0, 3000, 50, 700},
	{"injectors", "", quantity.MlPerMin, 0, 20_000, 20, 2000},
	{"trims", "", quantity.Percent, -100, 100, -50, 50},
	{"exhaust-gas", "gas co2", quantity.Percent, 0, 25, 2, 17},
	{"exhaust-gas", "gas co", quantity.Percent, 0, 20, 0, 10},
	{"exhaust-gas", "gas o2", quantity.Percent, 0, 25, 0, 21},
	{"exhaust-gas", "gas hc", quantity.PartsMillion, 0, 50_000, 0, 5000},
	{"exhaust-gas", "gas nox", quantity.PartsMillion, 0, 20_000, 0, 4000},
	{"crankcase", "flow", quantity.LPerMin, 0, 5000, 5, 500},
	{"crankcase", "", quantity.InH2O, -150, 150, -10, 30},
	{"starting", "battery at", quantity.Celsius, -60, 100, -30, 60},
	{"starting", "battery", quantity.Volt, 0, 60, 5, 30},
	{"starting", "cranking", quantity.RPM, 0, 2000, 60, 500},
	{"starting", "draw", quantity.Ampere, 0, 3000, 30, 1500},
	{"back-pressure", "", quantity.PSI, 0, 100, 0.1, 15},
	{"timing", "dwell", quantity.Degree, 0, 180, 15, 90},
	{"timing", "points-gap", quantity.Millimetre, 0, 3, 0.1, 0.8},
	{"timing", "", quantity.Degree, -90, 90, -20, 50},
	{"diesel", "glow", quantity.Ohm, 0, 10_000, 0.1, 10},
	{"diesel", "nozzles", quantity.Bar, 0, 4000, 60, 500},
	{"diesel", "inlet-vacuum", quantity.InHg, 0, 32, 0.5, 20},
	{"diesel", "smoke", quantity.PerMetre, 0, 50, 0, 5},
	{"diesel", "return", quantity.Millilitre, 0, 5000, 1, 200},
}

// beliefIn gives the belief in a reading, in a unit; ok is false where there is
// none.
func beliefIn(section, name string, unit quantity.Unit) (b belief, ok bool) {
	for _, b := range beliefs {
		if b.section != section || quantity.DimensionOf(b.unit) != quantity.DimensionOf(unit) || b.name != "" && name != b.name && !begins(name, b.name) {
			continue
		}
		for _, v := range []*float64{&b.least, &b.most, &b.usually, &b.usualMost} {
			*v, _ = quantity.Convert(*v, b.unit, unit)
		}
		return b, true
	}
	return belief{}, false
}

// unitsLike gives the units of a further test in which its numbers would be usual
// ones, at most two.
func (s *scale) unitsLike() []quantity.Unit {
	middle, ok := s.middle()
	var out []quantity.Unit
	for _, u := range s.units {
		b, known := beliefIn(s.name, "", u)
		if ok && known && middle >= b.usually && middle <= b.usualMost && len(out) < 2 {
			out = append(out, u)
		}
	}
	return out
}

func begins(name, words string) bool {
	return len(name) > len(words) && name[:len(words)] == words && name[len(words)] == ' '
}

// believe reports those readings of a scale, from one on, that cannot be.
func (w *measuring) believe(s *scale, from int, k key, to place) bool {
	b, known := beliefIn(w.out.Name, to.name, s.unit)
	if !known {
		return true
	}
	sound := true
	for _, one := range s.written[min(from, len(s.written)):] {
		if one.value >= b.least-1e-9 && one.value <= b.most*(1+1e-9) || !one.own && !s.given {
			continue
		}
		sound = false
		side, edge := "more than can be, at most", b.most
		if one.value < b.least {
			side, edge = "less than can be, at least", b.least
		}
		fell := ""
		if to.name == "drop" && one.value < 0 { // -70
			fell = "the figure is how far it fell: leave the minus out"
		}
		w.r.doubt(one, cmp.Or(fell, b.meant(one, s, k), "look at the figure and its unit again"), side+" "+inUnit(edge, s.unit))
	}
	return sound
}

// doubt reports a reading that is not believed, with what is wrong about it.
func (r *reader) doubt(one written, hint, why string) {
	r.report(one.node.pos, hint, "'%s' is '%s', %s", one.label, short(one.node.text), why)
}

// inUnit writes a figure with the decimals that are usual in its unit.
func inUnit(v float64, unit quantity.Unit) string {
	return quantity.Format(v, quantity.DefaultDecimals(unit)) + " " + string(unit)
}

// meant offers what a reading that cannot be was probably meant to be.
func (b belief) meant(one written, s *scale, k key) string {
	usual := func(v float64) bool { return v >= b.usually && v <= b.usualMost }
	if one.value < b.least && usual(-one.value) {
		return s.meantBelow(one.as)
	}
	var all []string
	for _, part := range []float64{10, 100, 1000} {
		if v, err := quantity.Convert(one.as.Number/part, one.as.Unit, s.unit); err == nil && usual(v) {
			all = append(all, one.divided(part))
			break
		}
	}
	units := k.units
	if len(units) == 0 {
		units = s.units
	}
	for _, u := range units {
		if v, err := quantity.Convert(one.as.Number, u, s.unit); err == nil && u != one.as.Unit && usual(v) && len(all) < 2 {
			all = append(all, one.divided(1)+" "+string(u))
		}
	}
	if len(all) == 0 {
		return ""
	}
	return "did you mean " + anyOf(all) + "?"
}

// slipped reports a reading of a further test that is some ten times those of the
// other cylinders, and would be one of them without a slip of the hand.
func (w *measuring) slipped(s *scale, from int) {
	all := s.written[min(from, len(s.written)):]
	for i, one := range all {
		var rest []float64
		for j, other := range all {
			if j != i && other.value > 0 {
				rest = append(rest, other.value)
			}
		}
		if len(rest) < 2 {
			return
		}
		slices.Sort(rest)
		middle := rest[len(rest)/2]
		if one.value < 5*middle || rest[len(rest)-1] > 2*rest[0] {
			continue
		}
		for _, m := range s.slips(one) {
			if math.Abs(m.value-middle) <= alike*middle {
				w.r.doubt(one, "did you mean "+m.text+"?", "far more than those of the other "+w.r.cylinderWord+"s")
				break
			}
		}
	}
}

// falls are the keys of readings that say by how much a speed fell.
var falls = []string{"drop", "left", "right"}

// overItsSpeed reports a fall of the speed that is more than the speed that it fell from.
func (w *measuring) overItsSpeed() {
	for _, m := range w.out.Readings {
		from, read := m.Value()
		if m.Name != "at" || m.Unit != quantity.RPM || !read {
			continue
		}
		for _, one := range w.scale.written {
			_, key, _ := strings.Cut(one.label, ".")
			key, _, _ = strings.Cut(key, ".")
			switch left := from - one.value; {
			case !slices.Contains(falls, key):
			case left < 0:
				w.r.doubt(one, "look at both figures again", "more than the speed that it fell from, "+inUnit(from, quantity.RPM))
			case left > 0 && left < from/3:
				w.r.doubt(one, "if that is the speed that was left, it fell by "+plainNumber(left), "nearly the whole speed that it fell from, "+inUnit(from, quantity.RPM))
			}
		}
	}
}

// offMeasured reports readings of a further test that its gauge cannot have
// shown.
func (r *reader) offMeasured(m *diag.Measured) {
	g := m.Gauge
	if g == nil || g.High <= g.Low {
		return
	}
	for _, s := range r.measured[m.Name] {
		high, err := quantity.Convert(g.High, m.Unit, s.unit)
		if err != nil || quantity.DimensionOf(s.unit) != quantity.Pressure {
			continue
		}
		top := inUnit(high, s.unit)
		for _, one := range s.written {
			if one.value > high*(1+1e-9) {
				r.doubt(one, "write 'over "+top+"' where the needle went past the end, else look at the figure and its unit again", "and its gauge reads to "+top)
			}
		}
	}
}

// pumpedEmpty are tests that are made with a vacuum too.
var pumpedEmpty = []string{"crankcase-hold"}

// meantBelow offers what a figure below zero was meant to be: without its sign, and, where the
// test is made with a vacuum too, with the word that says so.
func (s *scale) meantBelow(v quantity.Value) string {
	bare := "did you mean " + plainNumber(-v.Number) + "? it is written without a sign"
	if !slices.Contains(pumpedEmpty, s.name) {
		return bare
	}
	return bare + "; of a vacuum say 'under: vacuum'"
}
