package rule

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// heldRules are on an engine that something holds as its starter turns it.
var heldRules = []Rule{
	{
		Name: "liquid-may-hold", Title: "The engine hardly turns, and something speaks of liquid in a cylinder",
		Why: "Liquid does not give way: a cylinder full of fuel or coolant stops the piston, the starter pulls a good battery down and hardly turns the engine, or stops with a blow. Each further try bends a connecting rod, which nothing but taking the engine apart puts right. " +
			"With the plugs out, turned by hand, the liquid comes out and tells what it is.",
		Source: "common practice, no source", Class: Together, About: diag.AboutEngine, Ties: []diag.About{diag.AboutCylinders}, TiesSystems: []string{known.Starting},
		Of: wetAndHeld, When: known.LiquidHolds,
		Kind: OfStarting, Weigh: liquidHolds, Say: heldSays, Headline: "liquid-may-hold", StopsFor: []string{"turn-by-hand"},
		SaysBetterThan: []string{"engine-does-not-turn", "starter-turns-slowly", "starter-draws-much", "cranked-too-slowly", "fuel-wet", "coolant-washed"},
		InsteadOf:      []string{"sealing-sound-look-elsewhere", "complaint-not-explained", "no-start-not-explained"},
	},
}

// wetAndHeld asks of the cylinders whose plugs are wet, or that liquid was seen in, or where
// there are none of the engine.
var wetAndHeld = Scope{Words: "the cylinders whose plugs are wet or that liquid came out of, or the engine", Of: func(c *known.Case) []known.Subject {
	if !known.LiquidHolds.HoldsIn(c) {
		return nil
	}
	wet := c.WetAndHeld()
	if len(wet) == 0 {
		wet = c.Those(func(n string) bool { return c.LiquidIn(n) == known.LiquidSeen })
	}
	return []known.Subject{{Cylinders: wet}}
}}

// liquidHolds: what lets it in comes after that it is there, by what is wet, lost or smells.
func liquidHolds(c *known.Case, s known.Subject) []Voice {
	fuel := known.FuelInTheOil.Holds(c, s) || len(s.Cylinders) > 0 && c.Looks(s.Name(), "fuel-wet")
	from := "leaking-injector"
	switch {
	case c.Spec.Diesel():
		from = "diesel-injector"
	case c.Carburetted():
		from = "carburettor"
	}
	return slices.Concat(speaks(Heard+Sight, "coolant-or-fuel-in-bore"), speaks(Hint, "tight-engine", "starter"),
		where(known.CoolantMissed.HoldsIn(c), speaks(Known, "head-gasket")), where(fuel, speaks(Known, from)))
}

func heldSays(c *known.Case, s known.Subject) diag.Finding {
	f := diag.Finding{Urgency: diag.DoNotRun, Confidence: diag.Fair, Facts: diag.Facts{
		"plug": len(c.WetAndHeld()) > 0, "out": known.LiquidCameOut.HoldsIn(c), "coolant": known.CoolantMissed.HoldsIn(c), "full": known.OilOverFull.HoldsIn(c),
		"rpm": "", "volts": "", "stuck": known.EngineStuck.HoldsIn(c)}}
	if c.Conditions.CrankingRPM != nil {
		f.Facts["rpm"] = diag.Number{Value: *c.Conditions.CrankingRPM, Unit: "rpm"}.String()
	}
	return f
}
