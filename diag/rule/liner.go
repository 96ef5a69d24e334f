package rule

import (
	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// linerRules are on coolant that was seen below the cylinders.
var linerRules = []Rule{{
	Name: "coolant-below", Title: "Coolant was seen at the foot of a liner, or running into the oil pan",
	Why: "A liner that stands in the coolant is sealed from the oil by rings at its foot. Where these are old, or the coolant has eaten a hole into the liner, it drips into the oil pan, cold and at rest, and nothing is wet outside. " +
		"Compression stays even and no gas gets into the coolant: the head's gasket is not part of that way. Whatever lets it in, coolant takes the film from the bearings.",
	Source: "common practice, no source", Class: Single, About: diag.AboutCylinders, Ties: []diag.About{diag.AboutEngine}, TiesSystems: []string{known.Cooling, known.Oil},
	Of: Scope{Words: "the cylinders whose liner is named, or the engine", Of: func(c *known.Case) []known.Subject {
		return []known.Subject{{Cylinders: c.LinerWet()}}
	}},
	When: known.CoolantBelow, Kind: OfCooling, Weigh: weighLiner, Say: coolantBelow, Headline: "coolant-below",
	SaysBetterThan: []string{"coolant-in-oil", "oil-over-full"}, InsteadOf: []string{"sealing-sound-look-elsewhere"},
}}

// weighLiner speaks for a liner where one was named, or the engine may have them, and else for
// what else lies between coolant and oil.
func weighLiner(c *known.Case, _ known.Subject) []Voice {
	switch {
	case known.LinerKnown.HoldsIn(c): // it was seen there
		return append(as(OfSight, speaks(Heard, "liner-seal")), speaks(Hint, "cracked-bore")...)
	case c.MayHaveWetLiners():
		return append(speaks(Heard, "liner-seal"), speaks(DryUp, "oil-cooler", "head-gasket", "cracked-bore")...)
	}
	return append(pathToCoolant(Known, Known), speaks(Known, "oil-cooler")...)
}

func coolantBelow(c *known.Case, _ known.Subject) diag.Finding {
	return diag.Finding{Urgency: diag.DoNotRun, Confidence: diag.Fair, Facts: diag.Facts{"seen": c.CoolantSeenBelow()}}
}
