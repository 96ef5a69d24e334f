package rule

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

const (
	byPump = "common practice, no source: how far a pumped-up system may fall is judgement"
	byCap  = "common practice, no source: a cap within 10 % of its mark"
)

// coolingRules are on the cooling system: pumped up cold, its cap, its
// thermostat and what the coolant looks like.
var coolingRules = systemRule(known.Cooling, OfCooling, byPump, []Rule{
	{
		Name: "coolant-pressure-falls", Title: "The pumped-up cooling system loses pressure, and nothing is wet outside",
		Why:  "Coolant that goes nowhere to be seen goes inside: past the gasket, through a crack, a cooler or a liner. Left overnight with the plugs out it shows where.",
		When: known.All(known.CoolingFalls, known.Not(known.AirCooled)), For: append(pathToCoolant(Known, DryUp), speaks(Hint, "egr-cooler")...), Weigh: func(c *known.Case, _ known.Subject) []Voice {
			return where(c.OilMixed(), speaks(Known+Hint, "intake-coolant-gasket")) // past which it runs down into the oil
		}, Say: coolingFalls, Headline: "coolant-pressure-falls",
	},
	{
		Name: "coolant-outside", Title: "Coolant comes out outside",
		Why:  "A hose, the pump or the radiator that leaks is put right, and the system pumped up again, before a gasket is accused.",
		When: known.All(known.CoolingOutside, known.Not(known.AirCooled)), Weigh: outsideAt, Say: coolantOutside, Headline: "coolant-outside", Variants: []string{"intake", "head"},
	},
	{
		Name: "intake-gasket-agrees", Title: "Coolant comes out at the intake manifold, and air gets in behind the throttle",
		Why: "One gasket keeps the coolant in and the air out where an intake manifold carries both. Where both pass it, that gasket has gone: it is not looked for at a hose, nor at a vacuum line. " +
			"Coolant that passes it inside runs down into the oil.",
		Class: Together, Ties: []diag.About{diag.AboutMixture}, When: known.All(known.CoolantAtIntake, known.Any(known.TrimAir, known.VacuumLow)),
		For: append(speaks(Heard, "intake-coolant-gasket"), Voice{Cause: "intake-coolant-gasket", Weight: Heard, Kind: OfTrims}), Say: thisSure(diag.Strong, seenCooling(diag.ActSoon)), Headline: "intake-gasket", SaysBetterThan: []string{"coolant-outside", "air-leak-agrees", "trim-lean-at-idle-only", "vacuum-low-and-steady", "vacuum-low-sealing-sound"},
	},
	{
		Name: "cooling-system-holds", Title: "The pumped-up cooling system holds",
		Why:   "A system that holds its pressure cold has no leak that is open cold. One that opens only hot, or only under combustion, it does not clear. An engine cooled by the water around it has no closed system to hold.",
		Class: Information, When: known.All(known.CoolingHolds, known.Not(known.AirCooled), known.Not(known.RawWater)), Weigh: func(c *known.Case, _ known.Subject) []Voice {
			return where(!known.GasFound.HoldsIn(c), noPathToCoolant(DryUp, "cooling-system-held"))
		}, Say: seenCooling(diag.NoAction), Headline: "cooling-holds",
	},
	{
		Name: "gas-in-coolant", Title: "Gas bubbles in the coolant",
		Why:  "Bubbles that keep coming are air that was left in, or gas from a cylinder. The test of the coolant for combustion gas tells the two apart.",
		When: known.All(known.CoolingBubbles, known.Not(known.GasFound), known.Not(known.AirCooled)), For: append(pathToCoolant(DryUp, Hint), speaks(Hint, "air-in-coolant")...), Say: seenCooling(diag.CheckAgain), Headline: "gas-in-coolant",
	},
	{
		Name: "oil-in-coolant", Title: "Oil in the coolant",
		Why:  "Oil reaches the coolant through an oil cooler, or past a gasket or a crack between an oil gallery and a water passage.",
		When: known.All(known.CoolingOil, known.Not(known.AirCooled)), For: append(speaks(Known, "oil-cooler"), pathToCoolant(DryUp, Hint)...), Say: seenCooling(diag.ActSoon), Headline: "oil-in-coolant",
	},
	{
		Name: "cap-weak", Title: "The pressure cap opens too early or too late", Source: byCap, Of: ofPart(known.Cooling, "cap"),
		Why:  "A cap that opens early lets the coolant boil and run out; one that opens late bursts a hose.",
		When: known.All(known.CapWeak, known.Not(known.AirCooled)), For: speaks(Heard, "pressure-cap"), Say: capWeak, Headline: "cap-weak",
	},
	{
		Name: "warm-climbs", Title: "The engine gets hotter and hotter once it is warm", Source: "common practice, no source",
		Why:  "An engine that is warm stays where its thermostat holds it. One that goes on climbing gives off too little heat: a thermostat that stays shut, coolant that does not flow, or gas of a cylinder that drives it out.",
		When: known.All(known.WarmClimbs, known.Not(known.AirCooled)), For: append(common("thermostat", "coolant-flow"), append(pathToCoolant(Hint, rarer), speaks(Hint, "coolant-leak-outside", "air-in-coolant")...)...), Say: seenCooling(diag.ActSoon), Headline: "warm-climbs",
	},
	{
		Name: "never-warm", Title: "The engine never gets warm", Source: "common practice, no source",
		Why:  "A thermostat that does not shut lets the radiator cool an engine that has no heat to spare: it stays rich, wears its bores and fouls its plugs.",
		When: known.All(known.NeverWarm, known.Not(known.AirCooled)), For: speaks(Sight, "thermostat"), Say: seenCooling(diag.CheckAgain), Headline: "never-warm",
	},
	{
		Name: "coolant-rusty", Title: "Rust in the coolant", Source: "common practice, no source",
		Why:  "Coolant that is brown has lost what kept it from eating the engine. What it took off settles in the radiator and stops the flow there.",
		When: known.All(known.CoolantRusty, known.Not(known.AirCooled)), For: speaks(Hint, "coolant-flow"), Say: func(c *known.Case, _ known.Subject) diag.Finding {
			f := diag.Finding{Urgency: diag.NoAction, Confidence: diag.Weak, Facts: diag.Facts{}} // it is renewed at the next service
			if c.Complains("overheating") || c.CoolantHot() {
				f.Urgency = diag.CheckAgain
			}
			return f
		}, Headline: "coolant-rusty",
	},
	{
		Name: "thermostat-off", Title: "The thermostat opens where it should not", Source: "common practice, no source: 3 C from its mark, open 12 C above it", Of: ofPart(known.Cooling, "thermostat"),
		Why:  "A thermostat that opens early keeps the engine cold and rich; one that opens late, or not fully, lets it overheat.",
		When: known.All(known.ThermostatBad, known.Not(known.AirCooled)), For: speaks(Heard, "thermostat"), Say: thermostatOff, Headline: "thermostat-off",
	},
	{
		Name: "thermostat-agrees", Title: "The thermostat opens where it should not, and the engine runs as warm as that makes it", Source: "common practice, no source",
		Of: ofPart(known.Cooling, "thermostat"), TiesSystems: []string{known.Cooling},
		Why:   "A thermostat that opened early in the water keeps the engine cold on the road, one that opened late lets it climb. The one says why of the other: it is one fault, and one part.",
		Class: Together, When: known.All(known.Any(known.All(known.NeverWarm, known.ThermostatEarly), known.All(known.WarmClimbs, known.ThermostatBad, known.Not(known.ThermostatEarly))), known.Not(known.AirCooled)),
		For: speaks(Known, "thermostat"), Say: thermostatOff, Headline: "thermostat-off", SaysBetterThan: []string{"thermostat-off", "never-warm", "warm-climbs"},
	},
})

// coolantInside is on cylinders: coolant was seen in them under pressure.
var coolantInside = []Rule{{
	Name: "coolant-wet-in-cylinder", Title: "Coolant runs into a cylinder under pressure",
	Why:    "Coolant that stands on a piston does not give: the next turn of the starter bends a rod. The plugs stay out and the engine is turned by hand alone.",
	Source: byPump, Class: TestItself, About: diag.AboutCylinders, Needs: needsTest(known.Cooling),
	Of: Scope{Words: "the cylinders that were wet", Of: func(c *known.Case) []known.Subject {
		return []known.Subject{{Cylinders: c.WetCylinders()}}
	}}, When: known.All(known.CoolingInside, known.Not(known.AirCooled)),
	Kind: OfCooling, For: pathToCoolant(Heard, Known), Say: func(*known.Case, known.Subject) diag.Finding {
		return diag.Finding{Urgency: diag.DoNotRun, Confidence: diag.Fair, Facts: diag.Facts{}}
	}, Headline: "coolant-wet", SaysBetterThan: []string{"coolant-washed", "coolant-in-cylinder"},
}, {
	Name: "coolant-leak-agrees", Title: "Combustion gas in the coolant, and a cooling system that loses its pressure inside",
	Why: "Gas goes one way and coolant the other, through the same gap. Nothing is wet outside, so that the coolant goes into a cylinder, the oil or the exhaust: " +
		"enough of it in a cylinder bends a rod at the next start. It is found with the plugs out before the engine runs again.",
	Source: byPump, Class: Together, About: diag.AboutCylinders, TiesSystems: []string{known.Cooling}, Needs: needsTest(known.Cooling),
	Of: withCoolant, When: known.All(known.CoolingFalls, known.CoolingDry, known.GasFound, known.Not(known.AirCooled)),
	Kind: OfCooling, For: pathToCoolant(Known, DryUp), Say: func(c *known.Case, s known.Subject) diag.Finding {
		f := coolingFalls(c, s)
		f.Urgency, f.Confidence = diag.DoNotRun, diag.Strong
		return f
	}, Headline: "coolant-leak", SaysBetterThan: []string{"combustion-gas-in-coolant", "coolant-pressure-falls"},
}}

// withCoolant are the cylinders that show coolant, else low neighbours, else the
// engine.
var withCoolant = Scope{Words: "the cylinders that show coolant, or else low neighbours under one head gasket, or the engine", Of: func(c *known.Case) []known.Subject {
	if c.CoolantGas != "positive" { // the condition asks no more
		return wholeEngine
	}
	shows := c.Those(func(n string) bool { return showsCoolant(c, n) })
	if runs := lowNeighbours(c); len(shows) == 0 && len(runs) == 1 { // one gasket that lets gas out beside them
		shows = runs[0]
	}
	return []known.Subject{{Cylinders: shows}}
}}

// coolingFalls: what falls slowly in an engine that misses nothing may be lost at the tester.
func coolingFalls(c *known.Case, _ known.Subject) diag.Finding {
	r := c.Measured(known.Cooling)
	from, to := known.HeldCooling(r)
	f := diag.Finding{Urgency: diag.ActSoon, Confidence: diag.Fair, Facts: diag.Facts{"from": from.Told(), "value": to.Told(), "after": to.At, "slow": known.CoolingSeeps(r)}}
	if known.CoolingSeeps(r) && !c.CoolantMissed() {
		f.Urgency, f.Confidence = diag.CheckAgain, diag.Weak
	}
	return f
}

func seenCooling(u diag.Urgency) func(*known.Case, known.Subject) diag.Finding {
	return func(c *known.Case, _ known.Subject) diag.Finding {
		return diag.Finding{Urgency: u, Confidence: diag.Fair, Facts: diag.Facts{"seen": c.Measured(known.Cooling).Word("pressure-test seen"), "opens": known.ThermostatGood.HoldsIn(c) || c.WorkDone("thermostat"),
			"pumped": c.WorkDone("water pump", "coolant pump"), "gas": known.GasFound.HoldsIn(c)}}
	}
}

func capWeak(c *known.Case, _ known.Subject) diag.Finding {
	rated, opens := known.CapOff(c.Measured(known.Cooling))
	return diag.Finding{Urgency: diag.ActSoon, Confidence: diag.Fair, Facts: diag.Facts{"rated": rated.Told(), "value": opens.Told(), "early": opens.Value < rated.Value}}
}

func thermostatOff(c *known.Case, _ known.Subject) diag.Finding {
	rated, off := known.ThermostatOff(c.Measured(known.Cooling))
	return diag.Finding{Urgency: diag.ActSoon, Confidence: diag.Fair,
		Facts: diag.Facts{"rated": rated.Told(), "value": off.Told(), "starts": off.Name == "thermostat starts", "early": known.ThermostatEarly.HoldsIn(c)}}
}

// outsideAt speaks for what leaks at the place that was seen: a gasket where it comes out
// at its joint, and a hose, the pump or the radiator else.
func outsideAt(c *known.Case, _ known.Subject) []Voice {
	switch leak := speaks(Hint, "coolant-leak-outside"); {
	case known.CoolantAtIntake.HoldsIn(c):
		return append(speaks(Sight, "intake-coolant-gasket"), leak...)
	case known.CoolantAtHead.HoldsIn(c):
		return slices.Concat(speaks(Sight, "head-gasket"), speaks(DryUp, "warped-or-cracked-head"), leak)
	}
	return speaks(Sight, "coolant-leak-outside")
}

func coolantOutside(c *known.Case, s known.Subject) diag.Finding {
	f := seenCooling(diag.ActSoon)(c, s)
	switch {
	case known.CoolantAtIntake.Holds(c, s):
		f.Variant = "intake"
	case known.CoolantAtHead.Holds(c, s):
		f.Variant = "head"
	}
	return f
}
