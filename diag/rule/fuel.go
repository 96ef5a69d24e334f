package rule

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
	"gaugesheet/diag/quantity"
)

// fuelRules read the pressures of each fuel circuit: how high they are, what
// the regulator's hose does to them, and what is held after switching off.
var fuelRules = slices.Concat(fuelLevelRules, fuelPumpRules, fuelHoseRules, fuelHoldRules)

// fuelSigns are what is known of the fuel supply beside a pressure that is out.
var fuelSigns = []Sign{
	{Needs: []known.Need{known.NeedsFuel}, When: known.FuelGaugeMadeLow, Kind: OfTest, About: "fuel", For: speaks(Sight, "fuel-gauge-reads-low")},
	{Needs: []known.Need{known.NeedsFuel}, When: known.FuelGaugeMadeHigh, Kind: OfTest, About: "fuel", For: speaks(Sight, "fuel-gauge-reads-high")},
	{Needs: []known.Need{known.NeedsFuel}, When: known.FuelGaugeMadeHigh, Kind: OfTest, About: "mixture", For: speaks(Sight, "fuel-gauge-reads-high")},
	{Needs: []known.Need{known.NeedsFuel}, When: known.FuelGaugeWasLow, Kind: OfTest, About: "any", Against: denies(2*Heard, "gauge-was-low", "fuel-gauge-reads-high")},
	{Needs: []known.Need{known.NeedsFuel}, When: known.FuelGaugeWasHigh, Kind: OfTest, About: "any", Against: denies(2*Heard, "gauge-was-high", "fuel-gauge-reads-low")},
	{When: someCircuit("the pressure climbs with the return closed, and the pump is not known to deliver too little", climbsAndDelivers), Kind: OfFuel, About: "any",
		Against: denies(Heard, "return-climbs", pushCauses...)},
	{When: known.All(someCircuit("the pressure climbs with the return closed, and the pump is not known to deliver too little", climbsAndDelivers), known.Not(needleOfFuelFlutters)), Kind: OfFuel, About: "any",
		Against: denies(Heard, "return-climbs", "air-in-fuel")}, // which lets the pressure climb, and the needle shows it
	{When: someCircuit("the pressure does not climb with the return closed", staysLow), Kind: OfFuel, About: "any",
		Against: denies(Heard, "return-does-not-climb", "regulator-open")},
	{When: delivers, Kind: OfFuel, About: "any",
		Against: denies(DryUp, "volume-enough", "pump", "pump-voltage", "fuel-filter", "supply-restricted")},
	{When: known.OfEngine("the pump is heard", func(c *known.Case) bool { return c.PumpHeard() == diag.Yes }), Kind: OfSight, About: "any",
		Against: denies(Known, "pump-heard", "pump-circuit")},
	{When: known.PumpVoltsLow, Kind: OfSight, About: "fuel", For: append(speaks(Heard, "pump-voltage"), speaks(Hint, "pump-circuit")...)},
	{When: known.PumpVoltsRight, Kind: OfSight, About: "any", Against: denies(Heard, "pump-has-its-volts", "pump-voltage", "pump-circuit")},
	{When: known.OfEngine("no fuel in the regulator's hose", func(c *known.Case) bool { return c.FuelInHose("no") && !c.FuelInHose("yes") }), Kind: OfSight, About: "any",
		Against: denies(Heard, "hose-dry", "regulator-diaphragm")},
	{When: held, Kind: OfFuel, About: "any", Against: append(denies(Heard, "pressure-held", "pump-check-valve"), denies(DryUp, "pressure-held", "high-pressure-pump")...)}, // whose plunger leaks as it runs
	{When: known.All(held, known.Not(lowSideOnly)), Kind: OfFuel, About: "any", Against: denies(Heard, "pressure-held", "leaking-injector")},
	{Needs: []known.Need{known.NeedsFuel}, When: known.All(known.Complaint("hard start"), known.Unwatched), Kind: OfHistory, About: "engine", For: speaks(Known, "pump-check-valve", "leaking-injector")},
	{When: someCircuit("the regulator follows the manifold", regulatorFollows), Kind: OfFuel, About: "any",
		Against: append(denies(Known, "regulator-follows", "vacuum-hose", "no-vacuum-signal", "not-referenced"), denies(DryUp, "regulator-follows", "regulator-stuck")...)},
	// What is unusual proves nothing; where the mixture errs to the same side it is the first thought.
	{Needs: []known.Need{known.NeedsFuel}, When: known.All(underUsual, readsLean, known.Not(delivers)), Kind: OfHistory, About: "mixture", For: falling(Known, "fuel-filter", "pump", "regulator-open")},
	{Needs: []known.Need{known.NeedsFuel}, When: known.All(underUsual, readsLean, delivers), Kind: OfHistory, About: "mixture", For: speaks(Known+rarer, "regulator-open")},
	{Needs: []known.Need{known.NeedsFuel}, When: known.All(overUsual, readsRich), Kind: OfHistory, About: "mixture", For: falling(Heard, "regulator-stuck", "return-blocked")},
	{When: known.OfEngine("the pump is new", func(c *known.Case) bool {
		return c.WorkDone("new fuel pump", "new pump", "fuel pump renewed", "fuel pump replaced", "fuel pump fitted")
	}), Kind: OfHistory, About: "any", For: speaks(Hint, "wrong-pump")},
	{When: known.OfEngine("the regulator is new, and no fuel was found in its hose", func(c *known.Case) bool { return c.WorkDone(known.NewRegulator...) && !c.FuelInHose("yes") }), Kind: OfHistory, About: "any",
		Against: denies(Sight, "regulator-new", "regulator-diaphragm", "regulator-open", "regulator-stuck")},
}

var delivers = someCircuit("the pump delivers what it should", known.Circuit.VolumeEnough)

// supplyCauses are what keeps fuel from reaching the rail; a pump that can do
// more than the regulator lets it has none of them.
var supplyCauses = append([]string{"air-in-fuel"}, pushCauses...)

// pushCauses are those that keep a pump from building pressure up.
var pushCauses = []string{"pump", "fuel-filter", "pump-voltage", "supply-restricted", "pump-circuit", "low-fuel-pressure"}

// someCircuit is a condition on the circuit that a story is about, and where it is
// about none on any: what one tank's line shows says nothing of the other's.
func someCircuit(words string, is func(known.Circuit) bool) known.Condition {
	return known.Is(words, func(c *known.Case, s known.Subject) bool {
		if s.Circuit != nil {
			return is(*s.Circuit)
		}
		return c.SomeCircuit(is)
	})
}

func climbs(k known.Circuit) bool {
	climbs, known := k.Climbs()
	return known && climbs
}

// climbsAndDelivers leaves out a pump that delivers too little, by its volume or
// by the pressure when the engine asks for more: one that is tired, or behind a
// clogged filter, still fills a closed line.
func climbsAndDelivers(k known.Circuit) bool { return climbs(k) && !k.VolumeShort() && k.Sags() == nil }

// staysLow is a steady pressure under its limit, or none, that closing the
// return does not lift.
func staysLow(k known.Circuit) bool {
	climbs, tried := k.Climbs()
	low, _ := k.Worst(known.Below)
	return tried && !climbs && (low != nil || k.PumpDead() != nil)
}

func regulatorFollows(k known.Circuit) bool {
	rise, _, full, ok := k.Rise()
	return ok && rise >= full
}

// fuelFinding is a finding on one reading with the facts that its words use;
// one that is not clear of uncertainty is to be checked again.
func fuelFinding(k known.Circuit, r *diag.FuelReading, clear bool) diag.Finding {
	f := diag.Finding{Urgency: diag.ActSoon, Confidence: diag.Fair, Facts: readingFacts(k, r)}
	if !clear {
		f.Urgency, f.Confidence, f.Doubts, f.Headline = diag.CheckAgain, diag.Weak, []diag.Phrase{{Key: "fuel-near-limit"}}, "fuel-too-close"
	}
	return f
}

func readingFacts(k known.Circuit, r *diag.FuelReading) diag.Facts {
	c := k.Case
	facts := diag.Facts{"value": c.FuelNumber(r.Value), "reading": r.Name, "limit": limitAsEntered(c, r), "verdict": string(r.Verdict),
		"uncertainty": diag.Number{Value: r.Uncertainty, Decimals: max(1, c.Sums.Fuel.Decimals), Unit: c.Sums.Fuel.Unit},
		"carburettor": c.FuelSystem() == known.Carburettor, "electric": c.MayBeElectricPump(), "short": "", "flow": "", "pinched": "", "idle": "", "from": "", "against": ""}
	if r.LimitLow != nil && *r.LimitLow > 0 && r.Value < *r.LimitLow {
		facts["short"] = known.Percent(100*(1 - r.Value / *r.LimitLow), 0).String()
	}
	if at := r.Name == "key-on" || r.Name == "idle"; at && k.InjectorFlowPercent != nil { // reckoned from these
		facts["flow"] = known.Percent(*k.InjectorFlowPercent, 0).String()
	}
	if pinched := k.Reading("return-pinched"); pinched != nil && pinched != r {
		facts["pinched"] = c.FuelNumber(pinched.Value).String()
	}
	if idle := k.Reading("idle"); idle != nil {
		facts["idle"] = c.FuelNumber(idle.Value).String()
	}
	return facts
}

// atLeast is the sign before a lower limit.
const atLeast = "≥\u00a0"

// limitAsEntered is the limit as the job has it, else in signs, "" for none.
func limitAsEntered(c *known.Case, r *diag.FuelReading) string {
	switch {
	case r.LimitEntered != "":
		return r.LimitEntered
	case r.LimitLow != nil && r.LimitHigh != nil:
		return quantity.Format(*r.LimitLow, c.Sums.Fuel.Decimals) + "–" + c.FuelNumber(*r.LimitHigh).String()
	case r.LimitLow != nil:
		return atLeast + c.FuelNumber(*r.LimitLow).String()
	case r.LimitHigh != nil:
		return "≤\u00a0" + c.FuelNumber(*r.LimitHigh).String()
	}
	return ""
}

// Conditions on a circuit.
var (
	someFuel    = known.OfCircuit("some steady pressure (1 psi or more)", func(k known.Circuit) bool { return k.PumpDead() == nil })
	noFuel      = known.OfCircuit("every steady reading under 1 psi", func(k known.Circuit) bool { return k.PumpDead() != nil })
	pressureLow = known.OfCircuit("key-on, idle or hose-off pressure under its lower limit", func(k known.Circuit) bool {
		r, _ := k.Worst(known.Below)
		return r != nil
	})
	pressureHigh = known.OfCircuit("key-on, idle, hose-off or snap pressure over its upper limit", func(k known.Circuit) bool {
		r, _ := k.TooHigh()
		return r != nil
	})
	sags = known.OfCircuit("the snap reading under its limit or, where it has none or the steady pressure is low as well, more than 10 % under hose-off (under idle where there is no such hose)",
		func(k known.Circuit) bool { return k.Sags() != nil })
	notHeld = known.OfCircuit("a held pressure under its limit at its time or before it; without a limit more than 5 psi lost within 5 minutes, or all of it within one, where the system is not built to let go",
		func(k known.Circuit) bool { return k.FallsFast() != nil })
	mayHaveHose = known.OfCircuit("a regulator that may have a hose to the manifold", known.Circuit.MayBeReferenced)
)
