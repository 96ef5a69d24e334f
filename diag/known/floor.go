package known

import (
	"slices"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/air"
	"gaugesheet/diag/engine"
	"gaugesheet/diag/quantity"
)

// A Floor is the pressure under which nearly any engine of a kind is low where
// no maker's figure is known, and the pressure under which it is seen to soon,
// in the unit of the readings.
type Floor struct {
	Low, Soon float64
	Enough    float64    // from which the pressure is known to be enough
	Facts     diag.Facts // what it was brought down for
}

// Floors in psi at sea level. 100 psi is one maker's figure and common practice
// for a petrol engine of four strokes; the others are common practice, no source.
const (
	petrolFloor, petrolSoon = 100.0, 80.0
	dieselFloor, dieselSoon = 250.0, 200.0
	// A two-stroke hardly runs under its floor and usually gives 90 and more;
	// what it reads between the two condemns nothing and clears nothing.
	twoStrokeFloor, twoStrokeSoon, twoStrokeUsual = 60.0, 50.0, 90.0
	// usualShare is how far above its floor, as a part of it, a four-stroke usually reads at least:
	// one that reads less and burns its oil may be worn alike.
	usualShare = 1.2
	// floorRatio is the compression ratio down to which the floor of a petrol
	// engine holds; older engines of less give less.
	floorRatio = 8.0
	// lowRatio is a compression ratio that side-valve engines and old aircraft engines
	// commonly have. Common practice, no source.
	lowRatio = 5.0
	// standardShare is the part of a book's usual figure under which makers'
	// minimums do not lie: published pairs give 0.70 to 0.93.
	standardShare = 0.75
)

// Floor is the floor of this engine, nil where there is none: a rotary,
// or an engine of which nothing tells that it is lit by a spark.
func (c *Case) Floor() *Floor {
	if !c.Spec.Diesel() && !c.SparkLit() {
		return nil
	}
	return c.lowestFloor()
}

// lowestFloor is the floor of an engine whose fuel may not have been written down: then that
// of the kind that gives less, under which it is low whichever it is.
func (c *Case) lowestFloor() *Floor {
	low, soon, usual := petrolFloor, petrolSoon, 0.0
	facts := diag.Facts{"thin": "", "ratio": "", "lowRatio": ""}
	switch {
	case c.Rotary():
		return nil
	case c.Spec.Diesel():
		low, soon = dieselFloor, dieselSoon
	case c.Spec.TwoStroke: // its ratio is often given from where the port closes, and tells nothing here
		low, soon, usual = twoStrokeFloor, twoStrokeSoon, twoStrokeUsual
	case c.Spec.Ratio > 1 && c.Spec.Ratio < floorRatio:
		share := air.RatioShare(c.Spec.Ratio, floorRatio)
		low, soon = low*share, soon*share
		facts["ratio"] = quantity.Format(c.Spec.Ratio, 1)
	case c.Spec.ValveGear == "side valves" && c.MayBeOfLowRatio() && !c.readsTooLowForAny(): // of the others the ratio is looked up
		share := air.RatioShare(lowRatio, floorRatio)
		low, soon, usual = low*share, soon*share, low
		facts["lowRatio"] = quantity.Format(lowRatio, 0)
	}
	if thin := c.AirPressureRatio(); thin != 1 {
		low, soon, usual = low*thin, soon*thin, usual*thin
		facts["thin"] = Percent(100*thin, 0).String()
	}
	if s := c.Cranking().Standard; s != nil {
		if book, err := quantity.Convert(s.Low, s.Unit, quantity.PSI); err == nil && book*standardShare < low {
			low, soon = book*standardShare, book*standardShare*soon/low
		}
	}
	unit := c.Cranking().Unit
	perPSI, err := quantity.Convert(1, quantity.PSI, unit)
	if err != nil {
		return nil
	}
	return &Floor{Low: low * perPSI, Soon: soon * perPSI, Enough: max(low, usual) * perPSI, Facts: facts}
}

// MayBeOfLowRatio reports an engine of a kind that is built with far lower ratios than
// others, of which nobody said what it has: one with side valves, a radial or inverted
// one or one tested as aircraft are, a small one cooled by air, one of a vehicle so old. What
// nearly any engine gives says little of such.
func (c *Case) MayBeOfLowRatio() bool {
	if c.Spec.Ratio > 1 || c.Spec.Diesel() || c.Spec.TwoStroke || c.Rotary() {
		return false
	}
	old := c.Spec.ValveGear == "side valves" || c.Engine.Kind == engine.Radial || c.Spec.Inverted == diag.Yes || c.TestedAsAircraft() ||
		c.VehicleYear() > 0 && c.VehicleYear() < higherSince
	return old || c.Spec.ValveGear == "" && c.SmallEngine() && c.AirCooled()
}

// higherSince is the first year from which hardly any engine was built with less than 7 to 1:
// common practice, no source.
const higherSince = 1955

// readsTooLowForAny reports an engine that does what too little pressure makes an
// engine do, while no cylinder is low beside the others and may be why, or of which it is
// known that it loses what it lacks.
func (c *Case) readsTooLowForAny() bool {
	return c.Complains("low power", "hard start", "no start", "oil use") && len(c.LowSet()) == 0 || c.lostNotLacking()
}

// lostNotLacking reports a low pressure that does not come of the ratio: oil brings it
// up, or half of the cylinders and more let their air out.
func (c *Case) lostNotLacking() bool {
	leaks := 0
	for _, n := range c.Read() {
		if c.HighLoss(n) {
			leaks++
		}
	}
	return c.oilBringsUp() || leaks > 0 && 2*leaks >= len(c.Read())
}

// oilBringsUp reports a reading that oil lifts by more than its own volume does: the
// ratio is not why it was low.
func (c *Case) oilBringsUp() bool {
	return slices.ContainsFunc(c.WetTested(), func(n string) bool {
		r := c.Cylinder(n)
		return *r.Wet >= (1+RawRise/100.0)*(*r.Dry)
	})
}

// ratioOpen reports an engine that reads what one of a low ratio gives, of a kind that
// may have such a ratio, and that only complaints call low.
func (c *Case) ratioOpen(floor *Floor) bool {
	return c.MayBeOfLowRatio() && floor.Facts["lowRatio"] == "" && !c.lostNotLacking() && c.Cranking().Highest >= floor.Low*air.RatioShare(lowRatio, floorRatio)
}

// SparkLit reports an engine lit by a spark: by its fuel, or where that is not
// stated by something that only such an engine has.
func (c *Case) SparkLit() bool {
	switch c.Spec.Fuel {
	case "petrol", "lpg", "cng", "ethanol", "two-stroke mix":
		return true
	case "":
		return c.Has(NeedsPlugs) || c.Conditions.Choke != "" || c.Conditions.IgnitionDisabled != "" || len(c.Spec.SharedCoils) > 0 ||
			slices.Contains([]string{Carburettor, ThrottleBody}, c.FuelSystem())
	}
	return false
}

// underFloor reports readings all under the floor, nil for none. A band worked
// out from the whole geometry knows the engine better, and so does the test that
// the floor is not for.
func (c *Case) underFloor() *AllLowBasis {
	s, floor := c.Cranking(), c.Floor()
	if floor == nil && c.Spec.Fuel == "" {
		floor = c.lowestFloor()
	}
	if floor == nil || s.Highest >= floor.Low {
		return nil
	}
	if e := s.Expected; e != nil && !e.ByRatio && s.Highest >= e.Low {
		return nil
	}
	facts := diag.Facts{"floor": c.TradeFigure(floor.Low), "diesel": c.Spec.Diesel(), "twoStroke": c.Spec.TwoStroke, "throttle": c.Conditions.Throttle == "closed",
		"usual": c.TradeFigure(floor.Enough), "expected": "", "standard": "", "ratioOpen": c.ratioOpen(floor)}
	for key, fact := range floor.Facts {
		facts[key] = fact
	}
	if e := s.Expected; e != nil {
		facts["expected"] = c.Span(e.Low, e.High)
	}
	if s.Standard != nil {
		facts["standard"] = s.Standard.Entered
	}
	basis := &AllLowBasis{"floor", s.Highest < floor.Low-s.HighestU, s.Highest < floor.Soon, s.Highest / floor.Low, facts}
	if facts["ratioOpen"] == true {
		basis.Clear, basis.Far = false, false
	}
	return basis
}

// LoneUnderFloor is the only cylinder read of several, where it is under what nearly
// any engine of its kind gives, a complaint fits it, no minimum is stated and nothing that was noted of
// the test explains it; nil for none. One without any pressure has a name of its own.
func (c *Case) LoneUnderFloor() *AllLowBasis {
	s := c.Cranking()
	if s.N != 1 || !c.Several() || c.Minimum() != nil || s.HighestBound > 0 || c.NothingRead() || c.Dead() || c.UnitSuspect() || c.ThrottleShut() || c.Spec.Decompressor == "automatic" ||
		!c.Complains("misfire", "low power", "hard start", "oil use") {
		return nil
	}
	return c.underFloor()
}

// underUsual reports an engine between its floor and what its kind usually gives that
// does what too little pressure makes an engine do, nil for none: the two together
// say what neither says alone. Of a four-stroke that takes a sign of worn rings besides: sound ones
// of a low ratio read as little.
func (c *Case) underUsual() *AllLowBasis {
	s, floor := c.Cranking(), c.Floor()
	if floor == nil || s.Expected != nil || s.Standard != nil || !c.Complains("low power", "hard start", "no start") {
		return nil
	}
	usual, reads := floor.Enough, s.Highest+s.HighestU
	if !c.Ported() {
		usual, reads = usualShare*floor.Low, s.Highest
		if !c.BurnsOil() && !c.BlowsBy() {
			return nil
		}
	}
	if usual <= floor.Low || reads >= usual {
		return nil
	}
	facts := diag.Facts{"usual": c.TradeFigure(usual), "throttle": c.Conditions.Throttle == "closed", "thin": floor.Facts["thin"], "ratio": floor.Facts["ratio"],
		"diesel": c.Spec.Diesel(), "twoStroke": c.Ported(), "burns": c.BurnsOil()}
	return &AllLowBasis{"usual", false, false, s.Highest / usual, facts}
}

// UnderStandard reports a lowest reading under the book's usual figure.
func (c *Case) UnderStandard() bool {
	s := c.Cranking()
	if s.Standard == nil || s.N == 0 {
		return false
	}
	usual, err := quantity.Convert(s.Standard.Low, s.Standard.Unit, s.Unit)
	return err == nil && s.Lowest < usual
}

// farAboveStandard is by how much, as a part, every cylinder is above the book's usual
// figure before that is told: judgement, no source.
const farAboveStandard = 0.15

// broughtAbove is that for an engine whose compression the work done has raised.
const broughtAbove = 0.05

// FarAboveStandard reports a lowest reading above the book's usual figure, or the middle of
// its range, by more than that, and than the gauge may err.
func (c *Case) FarAboveStandard() bool {
	s := c.Cranking()
	if s.Standard == nil || s.N == 0 {
		return false
	}
	most, err := quantity.Convert(s.Standard.High, s.Standard.Unit, s.Unit)
	least, also := quantity.Convert(s.Standard.Low, s.Standard.Unit, s.Unit)
	above := farAboveStandard
	if c.BroughtHigher() { // which says why
		above = broughtAbove
	}
	// The upper end of a range has what engines differ in it already.
	usual := max((least+most)/2*(1+above), most*(1+broughtAbove))
	return err == nil && also == nil && most > 0 && s.Lowest > usual+s.HighestU
}

// PressureEnough reports that the pressure is known to be enough, and not only
// even: every minimum kept, or the book's usual figure, the expected band, or the
// floor reached.
func (c *Case) PressureEnough() bool {
	s := c.Cranking()
	if s.N == 0 || s.WithoutPressure() || c.AllLow() != nil {
		return false
	}
	stated, kept := false, true
	for _, l := range s.Limits {
		if l.Rule == string(diag.Minimum) {
			stated, kept = true, kept && l.Verdict == diag.Within
		}
	}
	switch {
	case stated:
		return kept
	case s.Standard != nil:
		return !c.UnderStandard()
	case s.Expected != nil:
		return s.Lowest >= s.Expected.Low
	}
	floor := c.Floor()
	return floor != nil && s.Lowest >= floor.Enough
}

// PressureByFigure reports pressure that is enough by a figure for this very engine: a
// minimum, what the book calls usual, or the band of its dimensions. Over what nearly any
// engine gives, one can still have lost a fifth.
func (c *Case) PressureByFigure() bool {
	return c.PressureEnough() && (c.Minimum() != nil || c.Cranking().Standard != nil || c.Cranking().Expected != nil)
}

// mainTests are the tests without which nothing is called sound, in the words of
// a list of what was not tested.
var mainTests = []string{"compression", "rotors", "leakage", "fuel pressure"}

// MainTestsMade reports that none of the job's main tests was declined, could
// not be made or was left out. A test that the job does not speak of is none of
// its tests.
func (c *Case) MainTestsMade() bool {
	var states []diag.State
	if s := c.Compression; s != nil {
		states = append(states, s.State)
	}
	if s := c.Leakage; s != nil {
		states = append(states, s.State)
	}
	if s := c.Test.Rotors; s != nil {
		states = append(states, s.State)
	}
	if s := c.Fuel; s != nil {
		states = append(states, s.State)
	}
	for _, u := range c.Untested {
		spoken := u.State != diag.NotTested || u.Reason != ""
		if spoken && len(u.Cylinders) == 0 && u.Reading == "" && slices.Contains(mainTests, strings.ReplaceAll(u.Test, "-", " ")) {
			states = append(states, u.State)
		}
	}
	return !slices.ContainsFunc(states, func(s diag.State) bool { return Unset(s) && s != diag.NotApplicable })
}

// SealingRead reports a test of how the cylinders seal, compression, by face or
// by cylinder, or leakage, and that none of compression was left half done.
func (c *Case) SealingRead() bool {
	if s := c.Sums.Compression; s != nil && !s.Complete {
		return false
	}
	if s := c.Sums.Rotors; s != nil && !s.Complete {
		return false
	}
	return c.DryRead() || c.Has(NeedsLeakage) || c.Has(NeedsRotors)
}

// ReleasesItself is an engine that lets its pressure out by itself while the starter turns it.
var ReleasesItself = OfEngine("an automatic decompressor", func(c *Case) bool { return c.Spec.Decompressor == "automatic" })

// DecompressorUnknown is a small engine of which nobody said whether it lets its
// pressure off as it is started, and that never read more than it does now.
var DecompressorUnknown = OfEngine("one or two cylinders, not read a tenth higher before, and whether a decompressor is fitted not said", func(c *Case) bool {
	return c.SmallEngine() && c.Spec.Decompressor == "" && !c.ReadHigherBefore()
})

// ReadHigherBefore reports an engine that read a tenth more in an earlier test, or before
// the work: what it is built like is not why it reads less now.
func (c *Case) ReadHigherBefore() bool {
	tests := make([]*diag.Test, 0, len(c.Earlier)+1)
	for i := range c.Earlier {
		tests = append(tests, c.Earlier[i].Test)
	}
	if c.Before != nil {
		tests = append(tests, c.Before.Test)
	}
	return slices.ContainsFunc(tests, func(t *diag.Test) bool {
		changes, reason := diag.ChangesSince(c.Test, t)
		return reason == "" && slices.ContainsFunc(changes, func(ch diag.Change) bool { return Moved(ch) < 0 })
	})
}
