package known

import (
	"slices"

	"gaugesheet/diag/engine"
)

// CoolantShows reports that something speaks of coolant in these cylinders, or
// of gas in the coolant: a complaint, smoke, a plug, what was seen, bubbles, or
// the test for gas.
func (c *Case) CoolantShows(cylinders []string) bool {
	if c.CoolantGas == "positive" || c.Complains("coolant loss", "overheating") || c.History.Smoke.Colour == "white" {
		return true
	}
	return slices.ContainsFunc(cylinders, func(n string) bool {
		return c.Looks(n, "coolant") || c.LeaksAt(n, AtCoolant) || c.Seen(n, WashedCrown...)
	})
}

// CoolantEnters reports a cylinder that coolant seems to get into, so that liquid
// may lie in it: its plug was touched by coolant and a second sign agrees. Where
// all plugs look alike the fuel may have done it, and only a sign of that very
// cylinder, or gas in the coolant, counts. A rotor that reads low, with gas in the
// coolant, needs no plug: what parts its chambers from the coolant is a seal in
// its own housing.
func (c *Case) CoolantEnters(name string) bool {
	if c.AirCooled() {
		return false
	}
	if c.CrownWashed(name) && (c.CoolantGas == "positive" || c.LeaksAt(name, AtCoolant) || c.CoolantMissed() || c.CoolantHot()) {
		return true
	}
	if !c.Rotary() && !c.Looks(name, "coolant") {
		return false
	}
	low := c.Grade(name).IsLow() || c.rotorLow(name)
	gas := c.CoolantGas == "positive"
	switch {
	case c.Rotary() && gas && low:
		return true
	case !c.Looks(name, "coolant"):
		return false
	case low || gas || c.LeaksAt(name, AtCoolant), c.Seen(name, RustOnWall...), c.Seen(name, RustOnValve...): // it left its rust
		return true
	}
	return !c.AllPlugsWashed() && (c.CoolantMissed() || c.CoolantHot() || c.AllLow() != nil || c.WillNotStart() || LockedUp.HoldsIn(c))
}

// CrownWashed reports a crown that was seen to be washed clean, and that not every
// one that was looked at was: fuel washes all.
func (c *Case) CrownWashed(name string) bool {
	if !c.Seen(name, WashedCrown...) {
		return false
	}
	others := slices.DeleteFunc(slices.Clone(c.Every()), func(n string) bool { return n == name || !c.Looked(n) })
	return len(others) == 0 || slices.ContainsFunc(others, func(n string) bool { return !c.Seen(n, WashedCrown...) })
}

// GasTestWeak reports a test for combustion gas that was made on a cold engine,
// or drawn for too short a time, so that finding none proves little.
func (c *Case) GasTestWeak() bool {
	g := c.GasTest
	return g.Engine == "cold" || g.Minutes > 0 && g.Minutes < gasTestLeast
}

// CoolantMissed reports that the engine is said to lose coolant, or to smoke white.
func (c *Case) CoolantMissed() bool { return c.LosesCoolant() || c.Smokes("white") }

// CoolantHot reports an engine that overheats, which gas in its hoses does.
func (c *Case) CoolantHot() bool { return c.Complains("overheating") }

// RunsHot reports an engine that can be run and is said to get too hot: it ruins
// itself.
func (c *Case) RunsHot() bool { return c.CoolantHot() && c.Starts() }

// CoolantGoes reports an engine that loses its coolant, boils it or burns it: with
// gas in it as well there is a way through, and one more start or one more trip
// may bend a rod or warp a head.
func (c *Case) CoolantGoes() bool {
	return !c.AirCooled() && (c.Complains("coolant loss") || c.CoolantHot() || c.Smokes("white", "load", "always", "idle"))
}

// GasAndGoes is gas found in the coolant of such an engine: there is a way through, though it
// may open only hot and under load.
var GasAndGoes = All(GasFound, OfEngine("its coolant goes, boils or is burned", (*Case).CoolantGoes))

// IntakeMayCarryCoolant reports an engine with its banks in a V, between which the
// intake manifold mostly carries coolant from head to head, above the oil.
func (c *Case) IntakeMayCarryCoolant() bool {
	return !c.AirCooled() && c.HasValves() && c.Engine.Kind == engine.V && len(c.Engine.Cylinders) > 2
}

// OilMixed reports coolant that was found in the oil, or oil in the coolant.
func (c *Case) OilMixed() bool {
	return remembered(&c.mixed, func() bool { return oilMixed.HoldsIn(c) })
}

// Mixed is an engine whose oil and coolant have mixed. Gray oil is that of an engine which loses
// its coolant; by itself it may be metal.
var Mixed = OfEngine("not cooled by air, and coolant in the oil or oil in the coolant, or gray oil of an engine that loses coolant, among the technician's findings", (*Case).OilMixed)

var oilMixed = All(Not(AirCooled), Any(OfEngine("coolant in the oil or oil in the coolant among the technician's findings, and not under its filler cap alone", func(c *Case) bool {
	return c.findingSays(func(text string) bool { return saysMixed(stillSo(text)) })
}),
	All(Complaint("coolant loss"), FoundSo("gray oil", []string{"oil grey", "oil gray", "grey oil", "gray oil", "oil is grey", "oil is gray", "oil has gone grey", "oil has gone gray", "oil went grey", "oil went gray", "oil looks grey", "oil looks gray"}))))

// underCap is where the water of short trips gathers, inOil where it does not.
var underCap, inOil = []string{"filler cap", "oil cap", "oil filler", "under the cap"}, []string{"dipstick", "sump", "oil pan", "drain", "oil and", "in the oil"}

// saysMixed reports words of coolant in the oil or the reverse.
func saysMixed(text string) bool {
	return SpeaksOf(text, CoolantInOil...) && (!SpeaksOf(text, underCap...) || SpeaksOf(text, inOil...))
}

// WillNotStart reports an engine that does not start, or does not run.
func (c *Case) WillNotStart() bool { return c.Complains("no start") || c.Spec.Runs == "does not run" }

// CoolantEntersAny reports that coolant seems to get into some cylinder.
func (c *Case) CoolantEntersAny() bool {
	return slices.ContainsFunc(c.Every(), c.CoolantEnters)
}

// AllPlugsWashed reports several plugs that all look washed, which one leak into
// the coolant does not do.
func (c *Case) AllPlugsWashed() bool {
	washed := len(c.PlugsLooking("coolant"))
	return c.Several() && washed > 1 && washed == c.Sums.Plugs.N && c.PlugsSpeakForAll()
}

// rotorLow reports a rotor of which some face reads low.
func (c *Case) rotorLow(name string) bool {
	r, ok := c.Rotor(name)
	return ok && (len(r.LowFaces) > 0 || r.UnderFloor())
}
