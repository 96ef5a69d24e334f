package known

import (
	"math"
	"slices"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
)

// Figures for what is measured cylinder by cylinder. Limits of the job go before
// all of them.
const (
	injectorPart = 0.05 // part from the median: judgement, no source
	// contributesApart: times as far from the median as the others mostly lie.
	contributesApart = 3.0 // judgement, no source
	// contributesLeast: what a figure is at least, in whatever the scan tool counts in. Under
	// it the computer evens out what injectors differ from new.
	contributesLeast = 1.0 // judgement, no source: makers' limits lie at 2 to 4 mg or mm3 a stroke
	returnTimes      = 3.0 // times the smallest: common practice, no source
	returnsAlike     = 1.5 // times the smallest: judgement, no source
)

// NoClearance are the valves of a cylinder without any clearance: "inlet",
// "exhaust".
func (c *Case) NoClearance(name string) []string {
	r := c.Measured(Clearance)
	var list []string
	for _, valve := range []string{"exhaust", "inlet"} {
		if r != nil && (&diag.Measured{Words: r.Words}).WordOf(valve, name) == NoClearanceWord {
			list = append(list, valve)
		}
	}
	return list
}

// ClearanceOff is the clearance of a cylinder that is past its limit, the
// exhaust valve first; nil for none.
func (c *Case) ClearanceOff(name string, is func(*diag.MeasuredReading) (bool, bool)) (*diag.MeasuredReading, bool) {
	r := c.Measured(Clearance)
	for _, valve := range []string{"exhaust", "inlet"} {
		if m := r.Of(valve, name); m != nil {
			if past, clear := is(m); past {
				return m, clear
			}
		}
	}
	return nil, false
}

// ExhaustTight lists the cylinders of which the exhaust valve has too little
// clearance, or none.
func (c *Case) ExhaustTight() []string {
	r := c.Measured(Clearance)
	return c.Those(func(n string) bool {
		if slices.Contains(c.NoClearance(n), "exhaust") {
			return true
		}
		tight, _ := Under(r.Of("exhaust", n))
		return tight
	})
}

// MostExhaustTight reports that this is so of most cylinders, two at least: these were
// not all set wrong.
func (c *Case) MostExhaustTight() bool {
	short := len(c.ExhaustTight())
	return short > 1 && 2*short > len(c.Every())
}

// InjectorsMended reports injectors that were further apart than they should be
// before they were cleaned, and are not after.
func (c *Case) InjectorsMended() bool {
	before, ok := c.InjectorSpread("before")
	after, also := c.InjectorSpread("after")
	return ok && also && before > 100*injectorPart && after <= 100*injectorPart
}

// ClosingUp is the clearance of a cylinder's exhaust valve that is less than every
// other's and less than it was before, by more than the gauge can be off each
// time; nil for none.
func (c *Case) ClosingUp(name string) (now, was *diag.MeasuredReading) {
	now = c.Measured(Clearance).Of("exhaust", name)
	before := c.beforeWork()
	if now == nil || before == nil {
		return nil, nil
	}
	was = c.Then(before).Measured(Clearance).Same(now)
	if was == nil || now.Value >= was.Value-now.Uncertainty-was.Uncertainty {
		return nil, nil
	}
	values := c.byCylinder(Clearance, "exhaust")
	for n, v := range values {
		if n != name && v <= now.Value+now.Uncertainty {
			return nil, nil
		}
	}
	if len(values) < 3 {
		return nil, nil
	}
	return now, was
}

// Flow is an injector's flow as it is now, and the median of all; after cleaning
// where that was read. False where fewer than three were read.
func (c *Case) Flow(name string) (flow, median float64, ok bool) {
	values := c.byCylinder(Injectors, "after")
	if len(values) == 0 {
		values = c.byCylinder(Injectors, "before")
	}
	v, read := values[name]
	if !read || len(values) < 3 {
		return 0, 0, false
	}
	return v, medianOf(values), true
}

// RailDrops are by how much each injector, pulsed, took the rail's pressure down,
// in the unit of the drops, and how far one may lie from the rest by the job's
// limit, or without one where it stands apart from them; ok is false where fewer than three
// were read.
func (c *Case) RailDrops() (drops map[string]float64, apart float64, ok bool) {
	r := c.Measured(Injectors)
	from, to := r.Reading("pressure-drop from"), c.byCylinder(Injectors, "pressure-drop to")
	if from == nil || len(to) < 3 {
		return nil, 0, false
	}
	unit := r.Reading("pressure-drop to").Unit
	start, err := quantity.Convert(from.Value, from.Unit, unit)
	if err != nil {
		return nil, 0, false
	}
	for n, v := range to {
		to[n] = start - v
	}
	for _, l := range c.Test.MeasuredTest(Injectors).Limits {
		if l.For == "from-mean" && !math.IsInf(l.High, 0) {
			apart, err = quantity.Convert(l.High, l.Unit, unit)
			return to, apart, err == nil
		}
	}
	return to, dropApart(medianOf(to), unit), true
}

// RailDrop is one injector's drop and the median of all.
func (c *Case) RailDrop(name string) (drop, median, apart float64, ok bool) {
	drops, apart, ok := c.RailDrops()
	drop, read := drops[name]
	if !ok || !read {
		return 0, 0, 0, false
	}
	return drop, medianOf(drops), apart, true
}

// DropLimited reports that the job limits how far a drop may lie from the mean of all.
func (c *Case) DropLimited() bool {
	return slices.ContainsFunc(c.Test.MeasuredTest(Injectors).Limits, func(l diag.Range) bool { return l.For == "from-mean" })
}

// DraggedByMean are the injectors that lie too far from the mean of the drops and
// not from their median, or the other way round: one bad injector has moved the
// mean.
func (c *Case) DraggedByMean() (names []string, mean, median float64) {
	drops, apart, ok := c.RailDrops()
	if !ok || !c.DropLimited() {
		return nil, 0, 0
	}
	for _, v := range drops {
		mean += v / float64(len(drops))
	}
	median = medianOf(drops)
	for _, n := range c.Every() {
		v, read := drops[n]
		if read && (math.Abs(v-mean) > apart+1e-9) != (math.Abs(v-median) > apart+1e-9) {
			names = append(names, n)
		}
	}
	return names, mean, median
}

// Contributes is what a cylinder adds as the scan tool gives it, the median of
// all, and whether it stands below the others: under zero by 1 or more and by more than the others
// mostly are off it, and farther under the median than three times as far as the others mostly lie from it.
func (c *Case) Contributes(name string) (v, median float64, little bool) {
	values := c.byCylinder(DieselTests, "contribution")
	v, read := values[name]
	if !read || len(values) < 4 {
		return 0, 0, false
	}
	median = medianOf(values)
	apart, size := map[string]float64{}, map[string]float64{}
	for n, x := range values {
		apart[n], size[n] = math.Abs(x-median), math.Abs(x)
	}
	return v, median, v <= -contributesLeast && -v > medianOf(size) && median-v > contributesApart*medianOf(apart)+1e-9
}

// Few reports an engine of so few cylinders that none has a middle to lie beside:
// the others are named instead.
func (c *Case) Few() bool { return len(c.Every()) < 4 }

// spreadLimit is the most that injectors may differ, as a part of the highest.
func (c *Case) spreadLimit() float64 {
	for i := range c.Test.Measured {
		m := &c.Test.Measured[i]
		if m.Name != Injectors {
			continue
		}
		for _, l := range m.Limits {
			if l.For == "spread" && l.Unit == quantity.Percent && !math.IsInf(l.High, 0) {
				return l.High / 100
			}
		}
	}
	return injectorPart
}

func (c *Case) flowPart(name string) (part float64, ok bool) {
	v, middle, ok := c.Flow(name)
	if !ok || middle <= 0 {
		return 0, false
	}
	return v / middle, true
}

// FlowApart reports an injector whose flow lies further from the median than the
// limit on their spread.
func (c *Case) FlowApart(name string) bool {
	p, ok := c.flowPart(name)
	return ok && math.Abs(p-1) > c.spreadLimit()
}

// InjectorFound reports an injector that was seen or measured to be poor by itself.
func (c *Case) InjectorFound() bool {
	return len(c.Those(func(n string) bool {
		return c.FlowApart(n) || SpraysPoorly.HoldsOf(c, n) || InjectorDrips.HoldsOf(c, n)
	})) > 0
}

// InjectorSpread is how far apart the injectors are, in percent of the highest,
// by the readings of a name; false where fewer than two were read.
func (c *Case) InjectorSpread(of string) (percent float64, ok bool) {
	values := c.byCylinder(Injectors, of)
	if len(values) < 2 {
		return 0, false
	}
	low, high := math.Inf(1), math.Inf(-1)
	for _, v := range values {
		low, high = math.Min(low, v), math.Max(high, v)
	}
	if high <= 0 {
		return 0, false
	}
	return 100 * (high - low) / high, true
}

// wordOfCylinder is what was seen of a cylinder in a further test.
func (c *Case) wordOfCylinder(section, name, cylinder string) string {
	r := c.Measured(section)
	if r == nil {
		return ""
	}
	return strings.ToLower((&diag.Measured{Words: r.Words}).WordOf(name, cylinder))
}

// Return is an injector's return, and the smallest and the median of all.
func (c *Case) Return(name string) (v, least, middle float64, ok bool) {
	values := c.byCylinder(DieselTests, "return cylinders")
	v, read := values[name]
	if !read || len(values) < 2 {
		return 0, 0, 0, false
	}
	least = math.Inf(1)
	for _, x := range values {
		least = math.Min(least, x)
	}
	return v, least, medianOf(values), true
}

func over(c *Case, section, name, cylinder string) bool {
	m := c.Measured(section).Of(name, cylinder)
	past, _ := Over(m)
	return past
}

// ClearanceFoundOff reports that a valve of each of these cylinders was measured
// and found outside its clearance.
func (c *Case) ClearanceFoundOff(cylinders []string) bool {
	return len(cylinders) > 0 && !slices.ContainsFunc(cylinders, func(n string) bool {
		m, _ := c.ClearanceOff(n, Past)
		return m == nil && len(c.NoClearance(n)) == 0
	})
}

// ClearanceKnown reports that the clearance of each of these cylinders was found
// off, or that of both its valves was measured: looking once more tells nothing.
func (c *Case) ClearanceKnown(cylinders []string) bool {
	if len(cylinders) == 0 {
		cylinders = c.Every()
	}
	r := c.Measured(Clearance)
	return r != nil && !slices.ContainsFunc(cylinders, func(n string) bool {
		both := r.Of("inlet", n) != nil && r.Of("exhaust", n) != nil
		return !both && !c.ClearanceFoundOff([]string{n})
	})
}

// Conditions on what is measured cylinder by cylinder.
var (
	ValveHeldOpen   = OfAll("no clearance at a valve", func(c *Case, n string) bool { return len(c.NoClearance(n)) > 0 })
	ClearanceTight  = OfAll("a valve clearance under its limit", func(c *Case, n string) bool { m, _ := c.ClearanceOff(n, Under); return m != nil })
	ClearanceLoose  = OfAll("a valve clearance over its limit", func(c *Case, n string) bool { m, _ := c.ClearanceOff(n, Over); return m != nil })
	ClearanceCloses = OfAll("an exhaust clearance less than all others, of three or more, and less than it was before", func(c *Case, n string) bool { now, _ := c.ClosingUp(n); return now != nil })
	ClearanceRight  = OfAll("its valve clearances within their limits; only one of its valves where its air is heard there and not at the other", (*Case).clearanceRight)
	LiftsLittle     = OfAll("a valve that opens less than its limit, or more than 10 % less than the median of three or more or 20 % less than the only other one", func(c *Case, n string) bool { return c.LiftLow(n) != nil })
	InjectorLow     = OfAll("injector flow under the median by more than the limit on their spread, or 5 %; or a drop of the rail's pressure under the median by more than the limit from the mean, or without one by a fifth and 1 psi",
		func(c *Case, n string) bool {
			p, ok := c.flowPart(n)
			drop, middle, apart, byDrop := c.RailDrop(n)
			return ok && p < 1-c.spreadLimit() || byDrop && drop < middle-apart-1e-9
		})
	InjectorRich = OfAll("injector flow over the median by more than the limit on their spread, or 5 %; or a drop of the rail's pressure over the median by more than the limit from the mean, or without one by a fifth and 1 psi",
		func(c *Case, n string) bool {
			p, ok := c.flowPart(n)
			drop, middle, apart, byDrop := c.RailDrop(n)
			return ok && p > 1+c.spreadLimit() || byDrop && drop > middle+apart+1e-9
		})
	MeanDragged = OfEngine("drops of the rail's pressure with a limit from their mean, and an injector that the mean and the median judge otherwise", func(c *Case) bool {
		names, _, _ := c.DraggedByMean()
		return len(names) > 0
	})
	ContributesLittle = OfAll("adds less than its share by the scan tool, by 1 or more and by more than the others mostly are off theirs, and lies over three times as far under the median as the others mostly lie from it, of four or more", func(c *Case, n string) bool {
		_, _, little := c.Contributes(n)
		return little
	})
	InjectorDrips = OfAll("an injector that drips", func(c *Case, n string) bool {
		leak := c.wordOfCylinder(Injectors, "leak", n)
		return leak != "" && leak != "none" && leak != "dry" && !strings.HasPrefix(leak, "0 ") && !strings.HasPrefix(leak, "no") || c.wordOfCylinder(Injectors, "spray", n) == "drips"
	})
	SpraysPoorly = OfAll("an injector that does not spray a cone", func(c *Case, n string) bool {
		s := c.wordOfCylinder(Injectors, "spray", n)
		return s == "one stream" || s == "one-sided" || s == "nothing"
	})
	ApartAfterCleaning = OfAll("its injector's flow still apart after cleaning", func(c *Case, n string) bool { // how it sprays is written once, and may be of before
		return c.Measured(Injectors).Of("after", n) != nil && c.FlowApart(n)
	})
	InjectorsCleaned = OfEngine("injector flow before and after cleaning", func(c *Case) bool {
		_, before := c.InjectorSpread("before")
		_, after := c.InjectorSpread("after")
		return before && after
	})
	ReturnsMuch = OfAll("injector return over its limit, or without one over three times the smallest", func(c *Case, n string) bool {
		v, least, _, ok := c.Return(n)
		m := c.Measured(DieselTests).Of("return cylinders", n)
		if m != nil && m.Limited() {
			return over(c, DieselTests, "return cylinders", n)
		}
		return ok && v > returnTimes*least && v > 1
	})
	ReturnsEven = OfEngine("every injector's return read, without a limit, and none over one and a half times the smallest", func(c *Case) bool {
		names := c.Every()
		for _, n := range names {
			v, least, _, ok := c.Return(n)
			if !ok || v > returnsAlike*least || c.Measured(DieselTests).Of("return cylinders", n).Limited() {
				return false
			}
		}
		return len(names) > 1
	})
	AllReturnMuch = OfEngine("every injector's return over its limit", func(c *Case) bool {
		names := c.Every()
		for _, n := range names {
			if !over(c, DieselTests, "return cylinders", n) {
				return false
			}
		}
		return len(names) > 1
	})
	SuctionHigh = OfTest(DieselTests, "vacuum ahead of the lift pump over its limit", func(r *diag.MeasuredResult) bool {
		over, _ := Over(r.Reading("inlet-vacuum"))
		return over
	})
	GlowOpen    = OfAll("a glow plug that is open, or reads over 50 ohm", (*Case).glowOpen)
	NozzlesDrip = OfTest(DieselTests, "nozzles that drip", func(r *diag.MeasuredResult) bool {
		drip := strings.ToLower(r.Word("nozzles drip"))
		return drip != "" && !strings.HasPrefix(drip, "no") && !strings.HasPrefix(drip, "dry") && !strings.HasPrefix(drip, "0 ")
	})
	NozzleLow = OfAll("a nozzle that opens under its limit", func(c *Case, n string) bool {
		under, _ := Under(c.Measured(DieselTests).Of("nozzles opening", n))
		return under
	})
)
