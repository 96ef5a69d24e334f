package known

import (
	"slices"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
)

// TurnsSlowly reports a cranking speed under which readings sag.
func (c *Case) TurnsSlowly() bool {
	rpm := c.CrankingSpeed()
	return rpm > 0 && rpm < SlowCranking || c.Conditions.CrankingRPM != nil && rpm == 0 // it did not turn at all
}

// HeldByHand reports a gauge that was pressed into the plug hole by hand, by the method's
// words.
func (c *Case) HeldByHand() bool {
	return c.Conditions.Method != "" && SpeaksOf(plainWords(c.Conditions.Method), "push in", "pushed in", "press in", "pressed in", "held by hand", "hand held", "rubber cone")
}

// CrankingSpeed is the speed of the test in rpm, 0 where not recorded.
func (c *Case) CrankingSpeed() float64 {
	switch {
	case c.Conditions.CrankingRPM != nil:
		return *c.Conditions.CrankingRPM
	case c.Test.Rotors != nil:
		return c.Test.Rotors.CrankingRPM
	}
	return 0
}

// sagging is the part of a battery's nominal voltage under which it has sagged
// on the starter: 9.6 V of 12, the limit of the usual load test (from memory).
const sagging = 0.8

// BatterySags reports a battery whose voltage on the starter fell under the
// limit of a load test, with that limit in volts. Whether it is of 6, 12 or 24 V
// goes by its voltage at rest, or on the starter where that was not read.
func (c *Case) BatterySags() (least float64, sags bool) {
	cranking := c.Conditions.Battery.CrankingV
	if cranking == nil {
		return 0, false
	}
	least = sagging * c.batteryNominal()
	return least, *cranking < least-1e-9
}

// heldUp is the part of a battery's nominal voltage that is left on the starter of an engine
// which it turns slowly, where it is not the battery that falls short: 10.5 V of 12;
// judgement, no source.
const heldUp = 0.875

// SlowByResistance is an engine that turns too slowly while its battery hardly falls and its
// starter draws no more than it may: the current does not get there, or the starter does
// nothing with it. A charger changes nothing of that.
var SlowByResistance = OfEngine("turned under 150 rpm or under its limit, the battery at 10.5 V or more on the starter (of a 6 V or 24 V system in proportion) and not under its limit, and the starter not said to draw more than its limit", func(c *Case) bool {
	least, sags := c.BatterySags()
	if least == 0 || sags || *c.Conditions.Battery.CrankingV < least*heldUp/sagging-1e-9 || !c.TurnsUnder() {
		return false
	}
	return !DrawsMuch.HoldsIn(c) && !BatteryUnder.HoldsIn(c)
})

// TurnsUnder reports an engine that its starter turns too slowly by its limit, or without one.
func (c *Case) TurnsUnder() bool {
	under, _ := Under(c.Measured(Starting).Reading("cranking"))
	return under || c.TurnsSlowly()
}

// ThrottleShut reports a petrol engine cranked with its throttle closed, and
// ChokeShut with its choke on.
func (c *Case) ThrottleShut() bool { return c.Conditions.Throttle == "closed" && c.Spec.Throttled() }

// ChokeShut reports a choke that was on in the test.
func (c *Case) ChokeShut() bool {
	return !c.Spec.Diesel() && SpeaksOf(c.Conditions.Choke, "closed", "shut", "on")
}

// highGround is the altitude in metres from which thin air lowers a reading by
// more than a gauge can be off: some 6 %.
const highGround = 500

// AltitudeTells reports cylinders under a stated minimum that does not say
// whether it is one for sea level, tested so high up that it matters; explains
// where the minimum would be met if it were.
func (c *Case) AltitudeTells() (matters, explains bool) {
	m := c.Minimum()
	ratio := c.AirPressureRatio()
	high := c.Conditions.AltitudeM != nil && *c.Conditions.AltitudeM >= highGround || c.Conditions.BarometerKPa != nil && ratio < 0.945
	if m == nil || !high || m.Corrected || m.Verdict == diag.NotJudged || m.Verdict == diag.Within {
		return false, false
	}
	lowest, err := quantity.Convert(c.Cranking().Lowest, c.Cranking().Unit, m.Unit)
	return err == nil, err == nil && lowest >= m.Limit*ratio
}

// GaugeOff is how far a gauge was out at its own check in percent of the true
// pressure, less than 0 where it reads low; 0 where that is within what is
// allowed or was not checked.
func GaugeOff(g *diag.Gauge) float64 {
	if g == nil || !ReadsOff(g) {
		return 0
	}
	return 100 * (g.ReadsAt[0] - g.ReadsAt[1]) / g.ReadsAt[1]
}

// SmallEngine reports an engine of one or two cylinders that may have a
// decompressor which nobody wrote down.
func (c *Case) SmallEngine() bool {
	return c.HasValves() && !c.Spec.Diesel() && len(c.Engine.Cylinders) <= 2 && len(c.Engine.Cylinders) > 0
}

// LeftByDecompressor reports a machine's small engine of which nobody said whether it has a
// decompressor, and that reads what one leaves of its pressure, with a cylinder under the other
// that may be all that ails it.
func (c *Case) LeftByDecompressor() bool {
	return len(c.LowSet()) > 0 && MayBeReleased.HoldsIn(c)
}

// MayBeReleased is a machine's small engine, as it is pulled over by hand, of which nobody said
// whether it has a decompressor, and that reads what one leaves.
var MayBeReleased = OfEngine("a machine's small engine that reads two fifths or more of what nearly any engine of its kind gives, and of which nobody said whether it has a decompressor", func(c *Case) bool {
	least := c.Released()
	return least > 0 && c.Cranking().Highest >= least && c.FlywheelMagneto() && DecompressorUnknown.HoldsIn(c)
})

// releasedShare is the part of what nearly any engine of its kind gives that a cranking test shows
// at least with an automatic decompressor at work: common practice, no source.
const releasedShare = 0.40

// Released is that pressure for this engine, in the unit of its readings; 0 where nothing tells.
func (c *Case) Released() float64 {
	floor := c.lowestFloor()
	if floor == nil {
		return 0
	}
	return releasedShare * floor.Low
}

// ReleasesTooMuch is an engine that reads less than its automatic decompressor leaves, and seals
// where nothing holds a valve open: it does not let go.
var ReleasesTooMuch = All(ReleasesItself, OfEngine("it seals at rest and reads less than two fifths of what nearly any engine of its kind gives", func(c *Case) bool {
	least := c.Released()
	return c.DryRead() && !c.UnitSuspect() && c.Cranking().Highest < least && c.SealsAtRest()
}))

// MayHaveDecompressor reports such an engine, or a small two-stroke: some have a
// decompressor of their own kind, a valve or a port in the cylinder.
func (c *Case) MayHaveDecompressor() bool {
	n := len(c.Engine.Cylinders)
	return c.SmallEngine() || c.Spec.TwoStroke && !c.Spec.Diesel() && n > 0 && n <= 2
}

// OilBefore lists the cylinders that were low, came up with oil, and
// then, or before, lost so little in the leakage test that oil on the rings
// could be why: the job does not say which came first.
func (c *Case) OilBefore() []string {
	return c.Those(func(n string) bool {
		r, l := c.Cylinder(n), c.Leak(n)
		up := c.WetEvidence(n) == WetRises || c.WetEvidence(n) == WetPartly
		return r != nil && r.Wet != nil && up && l != nil && *l.Loss < WornLoss
	})
}

// Refused is what the job says of tests that were not made.
type Refused struct {
	Tests  []string // by name, in the order of the sheet
	States []diag.State
	Reason string // the first that was given
	Each   []Refusal
}

// A Refusal is one of them with what the job says of it.
type Refusal struct {
	Test, State, Reason string
}

// Alike reports that the job says the very same of each.
func (r *Refused) Alike() bool {
	return !slices.ContainsFunc(r.Each, func(x Refusal) bool { return x.State != r.Each[0].State || x.Reason != r.Each[0].Reason })
}

// MainRefused gives the main tests that the job says were not made, where none
// of them was: nil where a compression, a rotor or a leakage test was made, or
// where nothing is said of them.
func (c *Case) MainRefused() *Refused {
	if c.DryRead() || c.OnlyWet() || c.Has(NeedsLeakage) || c.Has(NeedsRotors) {
		return nil
	}
	out := &Refused{}
	note := func(test string, state diag.State, reason string) {
		if !Unset(state) || state == diag.NotApplicable || slices.Contains(out.Tests, test) {
			return
		}
		out.Tests, out.States = append(out.Tests, test), append(out.States, state)
		out.Each = append(out.Each, Refusal{test, string(state), reason})
		if out.Reason == "" {
			out.Reason = reason
		}
	}
	if s := c.Compression; s != nil {
		note("compression", c.Cranking().State, s.Reason)
	}
	if s := c.Test.Rotors; s != nil {
		note("compression", s.State, s.Reason)
	}
	if s := c.Leakage; s != nil {
		note("leakage", c.Sums.Leakage.State, s.Reason)
	}
	for _, u := range c.Untested {
		silent := u.State == diag.NotTested && u.Reason == "" // the job does not speak of it
		if (u.Test == "compression" || u.Test == "leakage" || u.Test == "rotors") && !silent {
			note(u.Test, u.State, u.Reason)
		}
	}
	if len(out.Tests) == 0 {
		return nil
	}
	return out
}

// Declined reports that all of them were declined.
func (r *Refused) Declined() bool {
	return !slices.ContainsFunc(r.States, func(s diag.State) bool { return s != diag.Declined })
}

// Verdict is the key of the verdict that the engine is not judged for it.
func (r *Refused) Verdict() string {
	switch r.States[0] {
	case diag.NotTold:
		return "tests-not-told"
	case diag.Declined:
		return "tests-declined"
	}
	return "tests-not-made"
}

// RestRefused reports a compression test of which cylinders were left out, each of them
// because it was declined, or half the engine and more because it could not be reached
// while a complaint can be followed up without them: to ask for them again is no check. One
// plug that would not come out is tried again, as is the rest where nothing else is asked.
func (c *Case) RestRefused() bool {
	if !c.Several() || !c.DryRead() {
		return false
	}
	left := c.Those(func(n string) bool { return len(c.Compression.Dry[n].Values) == 0 })
	return len(left) > 0 && !slices.ContainsFunc(left, func(n string) bool {
		s := c.Compression.Dry[n].State
		return s != diag.Declined && (s != diag.CouldNot || 2*len(left) < len(c.Every()) || len(c.Complaints()) == 0)
	})
}

// OutOfReach reports a cylinder whose compression could not be read.
func (c *Case) OutOfReach(name string) bool {
	return c.DryRead() && c.Compression.Dry[name].State == diag.CouldNot
}

// SeizedShut reports a cylinder that was not read in an engine of which it is told that a plug
// or an injector did not come out: it is not tested before that is freed.
func (c *Case) SeizedShut(name string) bool {
	if !c.DryRead() || len(c.Compression.Dry[name].Values) > 0 {
		return false
	}
	if c.Found(seizedPlugs...) {
		return true
	}
	return slices.ContainsFunc(c.Sums.NotTested, func(u diag.Untested) bool {
		return u.Reason != "" && SpeaksOf(strings.ToLower(u.Reason), seizedPlugs...)
	})
}

var seizedPlugs = append(pairs("plug|plugs|injector|injectors", "seized|stuck|rusted in|rusted solid|frozen|will not come out|won't come out|would not come out|does not come out|cannot be removed|will not move|broke off"), "seized in the head", "stuck in the head")

// MissesUnread are the cylinders that a stored misfire names and whose compression
// was not read.
func (c *Case) MissesUnread() []string {
	if !c.DryRead() {
		return nil
	}
	return slices.DeleteFunc(slices.Clone(c.MisfireOf()), func(n string) bool { return len(c.Compression.Dry[n].Values) > 0 })
}

// AnythingRead reports that some reading was taken, or something was seen.
func (c *Case) AnythingRead() bool {
	for _, n := range []Need{NeedsCompression, NeedsWet, NeedsFirst, NeedsLeakage, NeedsPlugs, NeedsRotors, NeedsFuel} {
		if c.Has(n) {
			return true
		}
	}
	return len(c.Borescope)+len(c.Bores) > 0 || c.CoolantGas == "positive" || c.CoolantGas == "negative"
}

// NotTold lists the cylinders whose compression, or the rotors whose faces,
// somebody read and kept to himself.
func (c *Case) NotTold() []string {
	return c.Those(func(n string) bool {
		if c.Compression != nil && c.Compression.Dry[n].State == diag.NotTold {
			return true
		}
		if c.Leakage != nil && c.Leakage.Dry[n].State == diag.NotTold {
			return true
		}
		return c.Test.Rotors != nil && slices.ContainsFunc(c.Test.Rotors.Rotors, func(r diag.Rotor) bool { return r.Name == n && r.State == diag.NotTold })
	})
}
