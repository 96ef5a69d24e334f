package known

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/engine"
	"gaugesheet/diag/quantity"
)

// What of the engine is asked for where it would change the answer, by the
// names that the catalogue of words has for them.
const (
	LiftersMissing      = "lifters"
	CamshaftsMissing    = "camshafts"
	CoolingMissing      = "cooling"
	DecompressorMissing = "decompressor"
	DisplacementMissing = "displacement"
	FuelMissing         = "fuel"
	DeactivatesMissing  = "deactivation"
	DriveMissing        = "timing drive"
)

// EngineFactsMissing lists what is not recorded of the engine and would change
// what its readings mean; none where they leave nothing open.
func (c *Case) EngineFactsMissing() diag.Names {
	var missing diag.Names
	if c.UnitSuspect() {
		return nil
	}
	ask := func(matters, known bool, what string) {
		if matters && !known {
			missing = append(missing, what)
		}
	}
	short := c.Short()
	some, all := len(short) > 0, c.AllLow() != nil
	ask(c.Has(NeedsCompression) && (all || some || c.dieselsWouldBeLow()), c.Spec.Fuel != "", FuelMissing)
	ask(c.HasValves() && some && !c.Dead() && !c.Flooded() && !c.TurnsSlowly() && c.valvesOpen(short), c.Spec.Lifters != "", LiftersMissing)
	ask(c.HasValves() && c.LowBank() >= 0, c.Spec.Camshafts != "", CamshaftsMissing)
	ask(MayBeDeactivated.HoldsIn(c), false, DeactivatesMissing)
	ask(c.HasValves() && c.Dead(), c.Spec.TimingDrive != "", DriveMissing)
	ask(c.SmallEngine() && !c.ReadHigherBefore() && (all || some || c.Dead()), c.Spec.Decompressor != "", DecompressorMissing)
	ask(c.mayBeAirCooled() && (some || all), c.Spec.Cooling != "", CoolingMissing)
	ask(c.OilTells() && some && !c.Has(NeedsWet) && !c.Has(NeedsLeakage) && c.pressureInAll(short), c.Spec.DisplacementML > 0, DisplacementMissing)
	return missing
}

// dieselsWouldBeLow reports an engine of which no plug was looked at and whose
// pressure is good for one lit by a spark, or high, and low for a diesel.
func (c *Case) dieselsWouldBeLow() bool {
	s := c.Cranking()
	highest, err := quantity.Convert(s.Highest, s.Unit, quantity.PSI)
	return err == nil && s.N > 0 && !c.Has(NeedsPlugs) && !c.Rotary() && highest > mostUsualBySpark && highest < dieselPSI
}

// mostUsualBySpark is a cranking pressure, in psi, that few engines lit by a spark
// exceed: common practice, no source.
const mostUsualBySpark = 200

// valvesOpen reports low cylinders whose valves are not ruled out: neither
// rings by oil nor a place of air that is not a valve speaks for another cause.
func (c *Case) valvesOpen(names []string) bool {
	return slices.ContainsFunc(names, func(n string) bool {
		return c.Grade(n) != diag.NoPressure && c.WetEvidence(n) != WetRises && !c.LeaksAt(n, AtCrankcase) && !c.LeaksAt(n, AtCoolant) && !c.LeaksAt(n, AtNeighbour)
	})
}

// pressureInAll reports cylinders of which none is so far down that oil would
// not tell.
func (c *Case) pressureInAll(names []string) bool {
	return !slices.ContainsFunc(names, c.Far)
}

// mayBeAirCooled reports a kind of engine that is built both ways.
func (c *Case) mayBeAirCooled() bool {
	if c.Rotary() || c.Engine.Kind == engine.Radial || c.TestedAsAircraft() || c.Afloat() { // the water that it floats in cools it
		return false
	}
	return c.Spec.TwoStroke || len(c.Engine.Cylinders) <= 2 || c.Engine.Kind == engine.Flat
}
