package rule

import (
	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// exhaustBreathed is on exhaust that people breathe.
var exhaustBreathed = []Rule{{
	Name: "exhaust-breathed", Title: "Exhaust gets to where people breathe",
	Why: "Carbon monoxide has no smell and kills before anybody is warned: a headache, sleepiness and sickness are its first signs, and an alarm that goes off is not its own fault until that was shown. " +
		"In a cab, a cabin or a hall it gathers from any exhaust that leaks, and from an engine that runs rich within minutes. So the engine is run outdoors alone until exhaust and mixture are right, and not at all where somebody fell ill.",
	Source: "common practice, no source", Class: Single, About: diag.AboutEngine, Of: theEngine, When: known.ExhaustBreathed,
	Kind: OfSight, Say: func(c *known.Case, _ known.Subject) diag.Finding {
		f := diag.Finding{Urgency: diag.ActSoon, Confidence: diag.Fair, Facts: diag.Facts{"ill": known.ExhaustMadeIll.HoldsIn(c), "diesel": c.Spec.Diesel()}}
		if f.Facts["ill"] == true {
			f.Urgency = diag.DoNotRun
		}
		return f
	}, For: speaks(Known, "exhaust-leak"), Weigh: func(c *known.Case, _ known.Subject) []Voice {
		if c.Spec.Diesel() {
			return nil
		}
		return speaks(DryUp, "rich-mixture")
	}, Headline: "exhaust-breathed", Before: true, InsteadOf: []string{"sealing-sound-look-elsewhere"},
}}
