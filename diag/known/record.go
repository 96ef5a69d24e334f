package known

import (
	"math"
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/gauge"
	"gaugesheet/diag/quantity"
)

// What is missed only where something else depends on it, by its name in the
// catalogue of words.
const (
	RangeMissing     = "gauge range"
	FuelRangeMissing = "fuel gauge range"
	AirMissing       = "altitude"
)

// NotRecorded lists what was not written down of a test made on the starter;
// turning is whether it is known how the engine was turned, and its name.
func (c *Case) NotRecorded(turning bool, name string, limits []diag.LimitResult) diag.Names {
	var missing diag.Names
	ask := func(known bool, what string) {
		if !known {
			missing = append(missing, what)
		}
	}
	ask(c.Gauges.Compression != nil, "gauge")
	ask(c.Conditions.Engine != "" || c.Conditions.CoolantC != nil, "engine temperature")
	ask(c.Spec.Diesel() || c.Conditions.Throttle == "open" || c.Conditions.Throttle == "closed", "throttle")
	ask(turning, name)
	ask(!LacksRange(c.Gauges.Compression), RangeMissing)
	ask(!slices.ContainsFunc(limits, func(l diag.LimitResult) bool { return l.Uncorrected }), AirMissing)
	return missing
}

// LacksRange reports a gauge whose accuracy is a part of a span that was not
// recorded.
func LacksRange(g *diag.Gauge) bool {
	return g != nil && g.Accuracy != nil && g.Accuracy.NeedsRange() && !(g.High > g.Low)
}

// DryRead reports that compression was read dry, if only as a lower bound.
func (c *Case) DryRead() bool {
	return c.AnyCylinder(func(r *diag.CylinderResult) bool { return len(r.DryReadings) > 0 })
}

// BoundsOnly lists the cylinders known only to read more than a figure.
func (c *Case) BoundsOnly() []string {
	return c.CylindersThat(func(r *diag.CylinderResult) bool { return len(r.DryReadings) > 0 && r.Kind == diag.AtLeast })
}

// BoundsOpen lists the lower bounds that leave open whether a cylinder is low:
// Under a stated minimum, or under what is even beside the others.
func (c *Case) BoundsOpen() []string {
	s := c.Cranking()
	return slices.DeleteFunc(c.BoundsOnly(), func(name string) bool {
		r := c.Cylinder(name)
		if r.Dry == nil {
			return false
		}
		if *r.Dry < evenShare*s.Reference {
			return false
		}
		return !slices.ContainsFunc(s.Limits, func(l diag.LimitResult) bool {
			least, err := quantity.Convert(*r.Dry, s.Unit, l.Unit)
			return l.Rule == string(diag.Minimum) && err == nil && least < l.Limit
		})
	})
}

// evenShare is the part of the reference from which a cylinder is even.
const evenShare = 0.9

// OnlyWet reports a compression test of which nothing but readings after oil
// is there.
func (c *Case) OnlyWet() bool {
	return !c.DryRead() && c.AnyCylinder(func(r *diag.CylinderResult) bool { return r.Wet != nil || r.WetDisagree })
}

// WholeSection is the section all of whose readings, two at least or that of a
// single that runs, may stand in another unit by a notice of it; "" where the notice is of single readings, or
// no unit would make them likely.
func (c *Case) WholeSection(n diag.Notice) string {
	section, _ := n.Facts["section"].(string)
	if n.Rule != "unit-suspect" || n.Variant == "range-with-dot" || len(n.Cylinders) > 0 {
		return ""
	}
	if n.Facts["looks"] == nil || section == "compression" && c.Cranking().N < 2 && !c.Test.RunsOnOne() {
		return ""
	}
	return section
}

// UnitSuspect reports that the compression of the whole engine may stand in
// another unit than is written.
func (c *Case) UnitSuspect() bool {
	s := c.Cranking()
	nothing := s.WithoutPressure() && (s.Lowest <= 0 || c.NotStarting()) // nothing is nothing in any unit
	return !nothing && c.UnitNoted()
}

// UnitNoted reports a notice that the compression of the whole engine looks like
// another unit, and nobody who read it off the gauge.
func (c *Case) UnitNoted() bool {
	return !c.Test.UnitReadOff() && slices.ContainsFunc(c.Noted, func(n diag.Notice) bool { return c.WholeSection(n) == "compression" })
}

// ReadsNothing reports one of some cylinders to read 0, which is nothing in any
// unit.
func (c *Case) ReadsNothing(names []string) bool {
	return slices.ContainsFunc(names, func(n string) bool {
		r := c.Cylinder(n)
		return r != nil && r.Dry != nil && *r.Dry <= 0
	})
}

// ReadsOff reports a gauge that was out at its own check by more than it may be.
func ReadsOff(g *diag.Gauge) bool {
	reads, at := g.ReadsAt[0], g.ReadsAt[1]
	allowed := offPercent * at / 100
	if g.Accuracy != nil {
		allowed = max(allowed, gauge.Gauge{Accuracy: *g.Accuracy, Low: g.Low, High: g.High}.HalfWidth(at))
	}
	return at > 0 && math.Abs(reads-at) > allowed*(1+1e-9)
}

// offPercent is how far a gauge may be out at its own check, in percent of the
// true pressure: common practice, no source.
const offPercent = 5

// How far sound readings lie apart in as many tests as not, and how far hardly ever where
// four of them stand in order, which one set in 24 does by chance: judgement, no source.
const (
	fallOfMany = 0.05
	fallOfFour = 0.08
)

// FallsSteadily reports readings that fall in the order in which these cylinders
// were tested, as a battery does that runs down.
func (c *Case) FallsSteadily(names []string) bool {
	if len(names) < 4 {
		return false
	}
	first, last := *c.Cylinder(names[0]).Dry, *c.Cylinder(names[len(names)-1]).Dry
	fall := first - last
	least := fallOfMany
	if len(names) == 4 {
		least = fallOfFour
	}
	if fall <= c.ClearDifference() || fall < least*first {
		return false
	}
	rises, little, pairs := 0, 0, 0
	for i := range names {
		for _, earlier := range names[:i] {
			pairs++
			switch before, now := *c.Cylinder(earlier).Dry, *c.Cylinder(names[i]).Dry; {
			case before < now && now <= before*littleRise:
				little++
			case before < now:
				rises++
			}
		}
		if i > 0 && *c.Cylinder(names[i-1]).Dry-*c.Cylinder(names[i]).Dry > steadyStep*fall {
			return false
		}
	}
	if len(names) >= manyTested { // of many, a few that scatter hide no fall
		return (rises+little)*10 <= pairs
	}
	return rises == 0 && (little == 0 || little == 1 && len(names) >= someTested)
}

// OnTheFall reports cylinders that lie on the line of readings that fall in the order in
// which they were tested: none is down from the one before it by twice what each is down by
// in the mean. Where the first was tested again at the end, it fell by no less than they are
// down by.
func (c *Case) OnTheFall(order, names []string) bool {
	if len(order) < 2 || len(names) == 0 {
		return false
	}
	dry := func(i int) float64 { return *c.Cylinder(order[i]).Dry }
	last, steps := dry(len(order)-1), len(order)-1
	again := c.Cylinder(order[0]).Again
	if again != nil {
		last, steps = *again, len(order)
	}
	step := (dry(0) - last) / float64(steps)
	return !slices.ContainsFunc(names, func(n string) bool {
		i := slices.Index(order, n)
		return i < 0 || again != nil && dry(i) < last-c.ClearDifference() || i > 0 && dry(i-1)-dry(i) > max(2*step, c.ClearDifference())
	})
}

// Of six or seven one pair may be out of order, by a reading's own scatter: by
// chance fewer than one set in a hundred is, and falls by so much besides.
const (
	someTested = 6
	littleRise = 1.01
)

// manyTested is the number of cylinders from which one pair in ten may be out of
// order: by chance that is the order of fewer than one set of eight in a thousand.
const manyTested = 8

// steadyStep is the largest part of the whole fall that one step of a steady
// fall takes; one dead cylinder at the end is no steady fall.
const steadyStep = 0.6
