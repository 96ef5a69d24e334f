package rule

import (
	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// exhaustGlows is on what is seen of an exhaust that is far too hot.
var exhaustGlows = []Rule{{
	Name: "exhaust-glows", Title: "An exhaust or a catalyst that glows",
	Why: "An exhaust glows where fuel burns in it: what a cylinder did not burn, a spark that comes late, a mixture that is wrong, or gas that cannot leave past what is blocked. " +
		"Whichever it is, it sets dry grass, undercoating and hoses alight, so that it is driven no more until that was put right.",
	Source: byEye, Class: Single, About: diag.AboutSystem, Of: ofSystem(known.BackPressure), When: known.ExhaustGlows,
	Kind: OfSight, Weigh: func(c *known.Case, _ known.Subject) []Voice {
		if c.Spec.Diesel() {
			return append(speaks(Known, "restricted-exhaust"), common("boost-leak", "diesel-injector", "air-filter")...)
		}
		return append(speaks(Known, "restricted-exhaust"), common("ignition", "late-ignition", "injection")...)
	}, Say: func(c *known.Case, _ known.Subject) diag.Finding {
		return diag.Finding{Urgency: diag.ActSoon, Confidence: diag.Fair, Facts: diag.Facts{"diesel": c.Spec.Diesel()}}
	}, Headline: "exhaust-glows", Brought: ByHeat,
}}

// backAndVacuum is as urgent as the back-pressure by itself, and sooner where the engine
// lacks the power that it costs.
func backAndVacuum(c *known.Case, _ known.Subject) diag.Finding {
	m := c.BackPressureFar()
	if known.BackPressureHigh.HoldsIn(c) {
		m, _ = known.WorstOf(c.Measured(known.BackPressure), known.Over)
	}
	f := measuredFinding(m, true, diag.CheckAgain)
	if known.BackPressureHigh.HoldsIn(c) || c.Complains("low power") {
		f.Urgency = diag.ActSoon
	}
	f.Facts["vacuum"] = c.Measured(known.Vacuum).Reading("idle").Told()
	return f
}

// backsUp is what holds the gas back; of a filter that a code calls full two tests say so.
func backsUp(weight int) func(*known.Case, known.Subject) []Voice {
	return func(c *known.Case, _ known.Subject) []Voice {
		return append(speaks(weight, "restricted-exhaust"), as(OfCodes, where(c.FilterFull(), speaks(DryUp, "exhaust-filter")))...)
	}
}

// filtered says of an exhaust whether it has a filter that may hold the gas back, and what was
// done about it.
func filtered(c *known.Case, f diag.Finding) diag.Finding {
	f.Facts["filter"], f.Facts["full"], f.Facts["cleaned"] = c.FilterMayBlock(), c.FilterFull(), c.FilterMayBlock() && c.FilterCleaned()
	return f
}
