package rule

import (
	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// oneFault are findings of two kinds of tests that are one fault, and are told as one.
var oneFault = []Rule{
	{
		Name: "glazed-by-light-load", Title: "Glazed walls in a diesel that uses oil, smokes or is short of power",
		Why:    "A diesel that hardly ever works stays cool inside: fuel and oil that are not burned glaze the walls, lacquer the rings and drip from the exhaust. It is worked hard for some hours before anything is opened; much of it burns off, and what stays is for the hone.",
		Source: "common practice, no source", Class: Together, About: diag.AboutCylinders,
		Of: oneSet("the cylinders in which a glazed wall was seen", (*known.Case).GlazedSeen), When: known.GlazedDiesel,
		Kind: OfSight, For: append(speaks(Heard+Known, "light-load"), speaks(Known, "oil-control-rings")...), Say: seen(diag.CheckAgain), Headline: "light-load",
		SaysBetterThan: []string{"seen-glazed", "seen-carbon"}, InsteadOf: []string{"sealing-sound-look-elsewhere"},
	},
	{
		Name: "glazed-and-uses-oil", Title: "Glazed walls in an engine that uses oil",
		Why:    "A wall polished like glass holds no film, and the rings let the oil past while they seal the gas. Where oil is used and nothing reads low, what was seen is the reason until another is shown.",
		Source: "common practice, no source", Class: Together, About: diag.AboutCylinders,
		Of: oneSet("the cylinders in which a glazed wall was seen", (*known.Case).GlazedSeen), When: known.GlazedAndOily,
		Kind: OfSight, For: append(speaks(Sight, "oil-control-rings"), speaks(DryUp, "guides-or-seals")...), Say: seen(diag.CheckAgain), Headline: "glazed-and-oily",
		SaysBetterThan: []string{"seen-glazed"},
	},
	{
		Name: "blow-by-of-glaze", Title: "More blow-by than is allowed, and glazed walls that explain it",
		Why:    "Rings do not seal on glass, nor do those that lacquer holds in their grooves: gas goes down past them while a gauge still reads well. What was seen comes before whatever else fills a crankcase, and what is done for the wall is done before anything is taken apart.",
		Source: "common practice, no source", Class: Together, About: diag.AboutCylinders, TiesSystems: []string{known.Crankcase}, Needs: needsTest(known.Crankcase),
		Of: oneSet("the cylinders in which a glazed wall was seen, half of all at least", glazedMostly), When: known.All(pressesInside, known.Any(known.GlazedDiesel, known.GlazedAndOily)),
		Kind: OfCrankcase, Weigh: func(c *known.Case, _ known.Subject) []Voice {
			glazed := "oil-control-rings"
			if c.Spec.Diesel() {
				glazed = "light-load"
			}
			return append(speaks(Known, glazed), speaks(DryUp, "rings", "wear")...)
		}, Against: denies(Known, "glaze-explains-it", "breather", "turbo-seal", "air-compressor"),
		Say: func(c *known.Case, s known.Subject) diag.Finding {
			f := seen(diag.CheckAgain)(c, s)
			if c.Spec.Diesel() {
				f.Headline = "light-load"
			}
			return f
		}, Headline: "glazed-and-oily", Keeps: true,
		SaysBetterThan: []string{"crankcase-pressure-high", "crankcase-pressure-where-vacuum-belongs", "seen-glazed", "glazed-and-uses-oil"},
	},
	{
		Name: "crankcase-draws-oil", Title: "Strong vacuum in the crankcase, and oily plugs over cylinders that hold their pressure",
		Why:    "A vent valve that stays open, or whose diaphragm is torn, joins the crankcase to the intake, and oil goes with the air, most to the cylinders that are nearest. It is put right before guides or rings are thought of.",
		Source: "common practice, no source", Class: Together, About: diag.AboutCylinders, TiesSystems: []string{known.Crankcase}, Needs: []known.Need{known.NeedsPlugs, known.NeedsTest(known.Crankcase)},
		Of: oneSet("the cylinders whose plugs are wet with oil", (*known.Case).OilyPlugs), When: known.All(known.CrankcaseSucks, known.NotLow),
		Kind: OfCrankcase, For: append(speaks(Heard+Known, "vent-valve-open"), as(OfPlugs, speaks(DryUp, "vent-valve-open"))...), Against: denies(Known, "crankcase-is-drawn", "guides-or-seals", "oil-control-rings", "rings"),
		Say: func(c *known.Case, s known.Subject) diag.Finding {
			f := crankcaseAt(known.CrankcaseLeast)(c, s)
			f.Urgency = diag.ActSoon // the shaft seals are sucked in
			return f
		}, Headline: "crankcase-draws-oil", SaysBetterThan: []string{"crankcase-vacuum-strong", "guides-or-breather", "oil-wet"},
	},
	{
		Name: "boost-low", Title: "Boost under its limit",
		Why:    "Boost that does not come is most often a hose, a clamp or a cooler that lets it out, the likelier where the trunk was off; then what the charger draws through, its control, and the charger itself.",
		Source: "limits: the job's own; meanings: common practice, no source", Class: Together, About: diag.AboutSystem, Ties: []diag.About{diag.AboutEngine}, Of: ofSystem(diag.OtherReadings), When: known.BoostLow,
		Kind: OfFurther, For: append(speaks(Heard, "boost-leak"), speaks(DryUp, "air-filter", "restricted-exhaust")...), Say: func(c *known.Case, _ known.Subject) diag.Finding {
			m, clear := c.BoostShort()
			return measuredFinding(m, clear, diag.ActSoon)
		}, Headline: "boost-low", SaysBetterThan: []string{"sealing-sound-look-elsewhere"},
	},
	{
		Name: "oil-feeds-the-idle", Title: "Fuel in the oil, and trims that take much out at idle alone",
		Why:    "Fuel that evaporates out of warm oil is drawn in by the crankcase's vent. It is most of what an idling engine gets and little at speed. The oil is changed, and what lets the fuel in is looked for; no valve or sensor is at fault for it.",
		Source: "common practice, no source", Class: Together, About: diag.AboutMixture, TiesSystems: []string{known.Oil}, Needs: []known.Need{known.NeedsTest(known.Trims)}, Of: theEngine, When: known.OilFeedsIdle,
		Kind: OfTrims, For: speaks(Heard, "fuel-in-oil"), Against: denies(Known, "oil-feeds-it", "purge-valve", "temperature-signal", "air-filter", "regulator-stuck", "air-meter"),
		Weigh: func(c *known.Case, s known.Subject) []Voice {
			return append(where(known.BreatherCures.Holds(c, s), as(OfSight, speaks(Heard, "fuel-in-oil"))), railLeaks(c)...)
		}, Say: func(c *known.Case, _ known.Subject) diag.Finding {
			idle, fast, _ := c.RichAtIdle()
			return diag.Finding{Urgency: diag.ActSoon, Confidence: diag.Fair, Facts: diag.Facts{"idle": known.Percent(idle.Sum, 0).String(), "fast": known.Percent(fast.Sum, 0).String(), "at": fast.Speed}}
		}, Headline: "oil-smells", SaysBetterThan: []string{"trim-rich", "rich-everywhere", "all-sooty"},
	},
}

// glazedMostly are the cylinders of which a glazed wall was seen, where it was in half of all
// at least: one alone fills no crankcase.
func glazedMostly(c *known.Case) []string {
	if glazed := c.GlazedSeen(); 2*len(glazed) >= len(c.Every()) {
		return glazed
	}
	return nil
}

// regenerates speaks for the filter of a diesel's exhaust, which is burned clean by fuel that
// is injected late: broken off again and again, as in town, much of that runs down the bores.
func regenerates(c *known.Case) []Voice {
	coded, there := c.ExhaustFilter()
	coded, there = coded && c.Spec.Diesel(), there && c.Spec.Diesel()
	return append(where(coded, as(OfCodes, speaks(Known, "filter-regeneration"))), where(there, speaks(Known, "filter-regeneration"))...)
}
