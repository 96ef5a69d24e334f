package known

import (
	"math"
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
)

// Parts of one engine are alike: what no limit is given for is held against its sisters.
// All of these are judgement, no source.
const (
	dropPart   = 0.20 // a drop of the rail's pressure, as a part of the median, at which an injector stands apart
	dropLeast  = 1.0  // psi, under which two drops are not told apart
	dropsDead  = 0.15 // of the median, up to which an injector gives next to nothing
	ohmsPart   = 0.30 // the resistance of a coil from the median of the set
	heaterPart = 2.5  // times the second lowest of the set: a glow plug that hardly heats
	heaterHigh = 8.0  // ohm, over which one of any voltage hardly heats
)

// dropApart is how far a drop of the rail's pressure may lie from the median where no limit
// from the mean is given, in a unit.
func dropApart(median float64, unit quantity.Unit) float64 {
	least, err := quantity.Convert(dropLeast, quantity.PSI, unit)
	if err != nil {
		return math.Inf(1)
	}
	return math.Max(dropPart*median, least)
}

// InjectorDead is an injector whose pulse takes next to nothing off the rail's pressure, or
// that gives next to nothing on the bench.
var InjectorDead = OfAll("a drop of the rail's pressure, or a flow, of 15 % of the median at most", func(c *Case, n string) bool {
	drop, middle, _, byDrop := c.RailDrop(n)
	p, ok := c.flowPart(n)
	return byDrop && middle > 0 && drop <= dropsDead*middle || ok && p <= dropsDead
})

// InjectorOpen is an injector whose coil lets no current through.
var InjectorOpen = OfAll("an injector whose coil is open", func(c *Case, n string) bool { return c.wordOfCylinder(Injectors, "ohms", n) == "open" })

// InjectorOhmsApart is an injector's coil whose resistance is past its limit
// while not all others are, or without a limit far from the median of the set.
var InjectorOhmsApart = OfAll("an injector's resistance past its limit, which not all of the others are past; or, none being given, 30 % from the median of three or more", (*Case).injectorOhmsApart)

func (c *Case) injectorOhmsApart(name string) bool {
	r := c.Measured(Injectors)
	if r == nil {
		return false
	}
	m := r.Of("ohms", name)
	if m == nil {
		return false
	}
	if m.Limited() {
		others := c.Those(func(n string) bool { return n != name && r.Of("ohms", n) != nil })
		keep := slices.ContainsFunc(others, func(n string) bool { past, _ := Past(r.Of("ohms", n)); return !past })
		past, _ := Past(m)
		return past && (keep || len(others) == 0) // where all are past it, the limit is another engine's
	}
	values := c.byCylinder(Injectors, "ohms")
	return len(values) > 2 && math.Abs(m.Value-medianOf(values)) > ohmsPart*medianOf(values)
}

// InjectorOhms is what an injector's coil was read at, as entered, and the median of the set
// without it, "" where none was read.
func (c *Case) InjectorOhms(name string) (entered, others string) {
	r := c.Measured(Injectors)
	values := c.byCylinder(Injectors, "ohms")
	if m := r.Of("ohms", name); m != nil {
		entered = diag.Number{Value: m.Value, Decimals: quantity.DecimalsRead(m.Value, 0), Unit: m.Unit}.String()
	}
	if delete(values, name); len(values) == 0 {
		return entered, ""
	}
	middle := medianOf(values)
	return entered, diag.Number{Value: middle, Decimals: quantity.DecimalsRead(middle, 1), Unit: quantity.Ohm}.String()
}

// GlowHigh is a glow plug whose resistance lets too little current through.
var GlowHigh = OfAll("a glow plug over its limit; or, none being given, over 2.5 times the second lowest of three or more, or over 8 ohm; and not open", func(c *Case, n string) bool { return c.glowHigh(n) != nil })

func (c *Case) glowHigh(name string) *diag.MeasuredReading {
	r := c.Measured(DieselTests)
	if r == nil || c.glowOpen(name) {
		return nil
	}
	m := r.Of("glow", name)
	if m == nil {
		return nil
	}
	high := m.Value > heaterHigh
	if m.Limited() {
		high, _ = Over(m)
	} else if values := c.byCylinder(DieselTests, "glow"); len(values) > 2 && !high {
		var sorted []float64
		for _, v := range values {
			sorted = append(sorted, v)
		}
		slices.Sort(sorted)
		high = m.Value > heaterPart*sorted[1]
	}
	if !high {
		return nil
	}
	return m
}

// GlowReads is what such a glow plug reads, "" where it is open.
func (c *Case) GlowReads(name string) string {
	m := c.glowHigh(name)
	if m == nil {
		return ""
	}
	return diag.Number{Value: m.Value, Decimals: quantity.DecimalsRead(m.Value, 0), Unit: m.Unit}.String()
}
