package rule

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// oilUseRules weigh the oil that an engine is told to use in a figure.
var oilUseRules = []Rule{
	{
		Name: "oil-use-usual", Title: "Oil use in a figure that is usual", Class: Information, About: diag.AboutEngine,
		Why: "Every engine uses some oil: what wets the walls and the valve stems is burnt. A car that uses up to about 0.3 l in 1000 km, a truck half a liter, an aircraft engine a quart in four hours, has nothing wrong for that alone. " +
			"What tells wear is a level that falls faster than it did. A figure that is told is answered, whether or not somebody complains of it.",
		Source: "common practice, no source; makers allow more",
		Of:     theEngine, When: known.OfEngine("oil use told in a figure that is usual of its kind, cylinders read, rings run in, no blue smoke, no plug wet with oil, not more than half of them with ash, and no crankcase pressure over its limit", (*known.Case).OilUseUsual),
		Kind: OfHistory, Say: func(c *known.Case, _ known.Subject) diag.Finding {
			f := oilFigure(c, diag.NoAction)
			f.Facts["sound"] = !readsLow(c) && !slices.ContainsFunc(c.Every(), c.HighLoss)
			f.Facts["asked"] = slices.Contains(c.History.Complaints, "oil use")
			return f
		}, Headline: "oil-use-usual",
	},
	{
		Name: "oil-runs-short", Title: "Oil use many times what is usual", Class: Single, About: diag.AboutEngine,
		Why:    "An engine that burns liters between two services is short of oil before anybody looks, and bearings go first. Whatever lets the oil past, its level is looked at from fill-up to fill-up until that is put right.",
		Source: "common practice, no source",
		Of:     theEngine, When: known.All(known.OilRunsShort, known.Valves, known.OfEngine("its cylinders read", (*known.Case).SealingRead)), Kind: OfHistory, Weigh: oilGoes,
		Say: func(c *known.Case, _ known.Subject) diag.Finding { return oilFigure(c, diag.ActSoon) }, Headline: "oil-runs-short",
	},
}

// oilFigure gives a figure of oil use beside what is usual.
func oilFigure(c *known.Case, urgency diag.Urgency) diag.Finding {
	u := c.OilUsed()
	return diag.Finding{Urgency: urgency, Confidence: diag.Fair, Facts: diag.Facts{"told": u.Told, "usual": u.Usual, "hourly": u.Hourly, "sound": false, "flies": c.Flies()}}
}

// oilGoes is by which way much oil goes: past the rings or the valve stems, through a vent that
// takes it along, or through a turbocharger.
func oilGoes(c *known.Case, _ known.Subject) []Voice {
	return slices.Concat(where(c.Spec.Charging == "turbo", speaks(commonest, "turbo-seal")), common("oil-control-rings", "guides-or-seals"),
		where(!known.CrankcaseQuiet.HoldsIn(c) && !known.CrankcaseDraws.HoldsIn(c), speaks(commonest-2*rarer, "breather")))
}

// oilOver is a figure of oil use that is more than is usual, and oilUsual what is; "" for none.
func oilOver(c *known.Case) string {
	if u := c.OilUsed(); u != nil && u.Is != "usual" {
		return u.Told
	}
	return ""
}

func oilUsual(c *known.Case) string {
	if u := c.OilUsed(); u != nil {
		return u.Usual
	}
	return ""
}
