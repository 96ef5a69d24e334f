package rule

import (
	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// oilShownLow says the reading at idle, where lamps come on. Of a gauge of which nothing was said
// it is less sure.
func oilShownLow(c *known.Case, _ known.Subject) diag.Finding {
	f := diag.Finding{Urgency: diag.CheckAgain, Confidence: diag.Fair, Facts: measuredFacts(oilResult(c).Reading("idle"))}
	f.Facts["screwed"] = known.OilOnScrewedIn.HoldsIn(c)
	if !known.OilOnScrewedIn.HoldsIn(c) {
		f.Confidence = diag.Weak
	}
	return f
}

// keptOff is an engine that stays off until a gauge is on: its dash shows next to nothing at
// any speed, over oil that is not known to stand low.
func keptOff(c *known.Case) bool {
	r := oilResult(c)
	return known.OilHardlyShown(r) && !known.OilRightAtSpeed(r) && r.Word("oil level") != "low"
}

// byDashUrgency is how soon what the dash shows of low oil pressure is to be settled.
func byDashUrgency(c *known.Case) diag.Urgency {
	r := oilResult(c)
	_, clear := known.OilLow(r)
	switch {
	case known.OilStarves.HoldsIn(c), known.NoiseBelow.HoldsIn(c), !known.OilRightAtSpeed(r) && (known.OilHardlyShown(r) || clear && c.Complains("noise")):
		return diag.DoNotRun
	case known.OilHardlyShown(r), known.OilUnderHalf.HoldsIn(c):
		return diag.ActSoon
	}
	return diag.CheckAgain
}

func byDash(c *known.Case, _ known.Subject) diag.Finding {
	r := oilResult(c)
	f := diag.Finding{Urgency: diag.CheckAgain, Confidence: diag.Fair, Facts: diag.Facts{"gauge": r.Word("gauge"), "off": keptOff(c)}}
	if keptOff(c) {
		f.Urgency, f.Headline = byDashUrgency(c), "oil-off-until-gauge"
	}
	return f
}
