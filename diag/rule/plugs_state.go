package rule

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// plugStateRules are on plugs that are wet, dirty, worn, or as they should be.
var plugStateRules = []Rule{
	{
		Name: "oil-wet", Title: "A plug wet with oil",
		Why: "Oil gets to a plug from below, past the rings, or from above, down the valve guides, or with the air, through the breather. The plug alone does not say which; " +
			"compression dry and wet, or the leakage test, does. A two-stroke burns its oil with the fuel: there the mixture or the spark comes first, and a crankshaft seal that lets gear oil in.",
		Source: plugManual, Class: Single, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsPlugs},
		Of: eachCylinder, When: known.BurningPlug("oil-wet"),
		Kind: OfPlugs, Weigh: oilyPlug, Say: oilWet, Headline: "plugs-oily", Variants: []string{allVariant, twoStrokeVariant, glowVariant},
	},
	{
		Name: "fuel-wet", Title: "A plug wet with fuel",
		Why: "Fuel arrived and did not burn: no spark, too much fuel, or a cylinder that does not seal. On a cylinder of low compression the fuel may itself have washed " +
			"the oil from the rings, so the reading counts only when the bore is dry and oiled again.",
		Source: "common practice, no source", Class: Single, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsPlugs},
		Of: eachCylinder, When: known.All(known.BurningPlug("fuel-wet"), sparkPlugs, known.OfEngine("not every plug looked at so", func(c *known.Case) bool { return !c.EveryPlugWet() })),
		Kind: OfPlugs, Weigh: wetPlug, Say: fuelWet, Headline: "plugs-fuel-wet", Variants: []string{"low"},
	},
	{
		Name: "all-fuel-wet", Title: "Every plug wet with fuel",
		Why: "Fuel arrived everywhere and burnt nowhere: the engine is flooded, or no plug has a spark. Fuel also washes the oil from the rings, so that compression taken like this " +
			"reads low until the cylinders are dry and oiled again.",
		Source: "common practice, no source", Class: Group, About: diag.AboutMixture, Needs: []known.Need{known.NeedsPlugs},
		Of: oneSet("the plugs, every one looked at fuel-wet", func(c *known.Case) []string {
			if !c.EveryPlugWet() {
				return nil
			}
			return c.PlugsLooking("fuel-wet")
		}), When: sparkPlugs,
		Kind: OfPlugs, For: common("flooding", "weak-spark", "ignition", "rich-mixture"), Headline: "plugs-fuel-wet", Implies: []string{"fuel-wet"},
		Say: func(c *known.Case, s known.Subject) diag.Finding {
			f := plugsFound(diag.CheckAgain)(c, s)
			f.Facts["read"] = c.Sums.Plugs.N // with those that have no pressure
			return f
		},
	},
	{
		Name: "ash-deposits", Title: "Ash on a plug",
		Why: "Ash is what oil and additives leave when they burn. While it is powdery it does no harm; glazed, it conducts when hot and shorts the plug. On every plug, or with oil use, " +
			"it is oil that burns, and where that comes from is found out.",
		Source: plugCourse, Class: Single, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsPlugs},
		Of: eachCylinder, When: known.All(known.Plug("ash"), sparkPlugs),
		Kind: OfPlugs, Weigh: ashCauses, Say: ashFound, Headline: "plugs-ash", Look: "ash", Variants: []string{"oil"},
	},
	{
		Name: "plugs-worn", Title: "Worn plugs",
		Why:    "Rounded electrodes and a wide gap ask more of the coil, until it fails to fire under load. It is normal wear, and cheap to put right.",
		Source: "common practice, no source", Class: Information, About: diag.AboutMixture, Needs: []known.Need{known.NeedsPlugs},
		Of:   oneSet("the worn plugs", func(c *known.Case) []string { return c.PlugsLooking("worn") }),
		When: sparkPlugs, Kind: OfPlugs, For: speaks(Known, "plug-age"), Say: wornPlugs, Headline: "plugs-worn", Look: "worn",
	},
	{
		Name: "gap-out", Title: "A plug's gap outside its limits",
		Why: "A wide gap has worn and asks more of the coil; wide on one plug only, it tells of heat or spark in that cylinder. A gap that is narrow did not wear so: " +
			"it was not set, the plug is the wrong one, or it was dropped.",
		Source: "common practice, no source", Class: Information, About: diag.AboutMixture, Needs: []known.Need{known.NeedsPlugs},
		Of: sets("the plugs whose gap is too wide, and those whose gap is too narrow", func(c *known.Case) [][]string {
			return [][]string{c.PlugsGapped(known.GapWide), c.PlugsGapped(known.GapNarrow)}
		}), When: sparkPlugs,
		Kind: OfPlugs, Weigh: gapCauses, Say: gapFound(diag.CheckAgain), Headline: "plugs-worn", Variants: []string{string(known.GapWide), string(known.GapNarrow)},
	},
	{
		Name: "plugs-normal", Title: "Plugs look normal",
		Why:    "A light tan or grey insulator with little deposit is what good burning leaves. It tells of the last minutes of running; it does not measure the seal.",
		Source: plugManual, Class: Sound, About: diag.AboutMixture, Needs: []known.Need{known.NeedsPlugs},
		Of: oneSet("the plugs, every one looked at normal", func(c *known.Case) []string {
			if normal := c.Looking("normal"); len(normal) == c.Sums.Plugs.N {
				return normal
			}
			return nil
		}),
		When: known.All(sparkPlugs, known.OfEngine("no gap outside its limits", func(c *known.Case) bool {
			return !slices.ContainsFunc(c.Every(), func(n string) bool { return c.GapOf(n) != known.GapRight })
		})),
		Kind: OfPlugs, Headline: "plugs-normal",
		Say: func(c *known.Case, s known.Subject) diag.Finding {
			f := plugsFound(diag.NoAction)(c, s)
			f.Facts["new"] = c.PlugsNew()
			return f
		},
	},
}

// wornPlugs asks for nothing where nothing is complained of: new plugs are due at the next
// service, as they are in any engine.
func wornPlugs(c *known.Case, s known.Subject) diag.Finding {
	f := plugsSeen(diag.CheckAgain)(c, s)
	f.Facts["due"] = !c.Ails()
	if !c.Ails() {
		f.Urgency = diag.NoAction
	}
	return f
}

// allOily reports oil on every plug looked at, two at least.
func allOily(c *known.Case) bool {
	return c.Several() && c.PatternOf(c.Looking("oil-wet")) == known.OnAll
}

func oilyPlug(c *known.Case, _ known.Subject) []Voice {
	switch {
	case c.Rotary(): // it is fed oil to burn
		return common("oil-burning", "too-much-oil")
	case c.Ported():
		return common("wrong-mix", "weak-spark", "rich-mixture", "crankcase-seal")
	case allOily(c):
		return common("breather", "too-much-oil", "rings", "guides-or-seals")
	}
	return common("rings", "guides-or-seals", "breather")
}

func oilWet(c *known.Case, s known.Subject) diag.Finding {
	f := plugsFound(diag.ActSoon)(c, s)
	switch {
	case glowPlugs(c):
		f.Variant, f.Headline = glowVariant, "glow-plug-oily"
	case c.Ported():
		f.Variant, f.Urgency = twoStrokeVariant, diag.CheckAgain
	case allOily(c) && len(s.Cylinders) == len(c.Looking("oil-wet")):
		f.Variant = allVariant
	}
	released := c.Spec.Decompressor == "automatic"
	switch {
	case ranDown(c, s.Cylinders) && !c.UsesOil() && !c.Smokes("blue", "load", "always"):
		f.Urgency = diag.NoAction
	case c.AnyLow(s.Cylinders):
	case everyLossWithin(c), // what is lost past the rings is within the limit
		!slices.ContainsFunc(s.Cylinders, func(n string) bool { return !losesLittle(c, n) }), // or little where the oil is
		released && !c.Smokes("blue", "load", "always"),                                      // nothing was read that speaks of its rings
		c.PuffAtStart() && !c.UsesOil():
		f.Urgency = diag.CheckAgain
	}
	if c.AnyLow(s.Cylinders) {
		f.Confidence = diag.Fair
	}
	f.Facts["released"] = released // then a compression test tells nothing
	return f
}

// losesLittle is a cylinder of which the leakage test found no more than a sound one loses.
func losesLittle(c *known.Case, name string) bool {
	loss, read := c.Loss(name)
	return read && (!known.Beyond(loss, known.GoodLoss) || commonLoss.HoldsOf(c, name))
}

func wetPlug(c *known.Case, s known.Subject) []Voice {
	switch {
	case c.AnyRotorLow(s.Cylinders): // what does not seal does not burn, and no spark lowers a face
		return append(speaks(Hint, "flooding"), speaks(rarer, "own-spark", "own-injector")...)
	case c.AnyLow(s.Cylinders):
		return common("washed-bore", "own-spark", "own-injector")
	}
	return common("own-spark", "own-injector")
}

func fuelWet(c *known.Case, s known.Subject) diag.Finding {
	f := plugsFound(diag.CheckAgain)(c, s)
	if c.AnyLow(s.Cylinders) {
		f.Variant = "low"
	}
	return f
}

// burnsOil reports ash that oil has left: with oil use, or on every plug.
func burnsOil(c *known.Case) bool {
	ash := c.PlugsLooking("ash", "oil-wet")
	return c.UsesOil() || c.Smokes("blue") || c.Several() && len(ash) == c.Sums.Plugs.N && len(ash) > 1
}

func ashCauses(c *known.Case, _ known.Subject) []Voice {
	if !burnsOil(c) {
		return common("oil-additive", "oil-burning")
	}
	return common("guides-or-seals", "oil-control-rings", "rings", "breather", "oil-burning", "oil-additive")
}

func ashFound(c *known.Case, s known.Subject) diag.Finding {
	f := plugsSeen(diag.NoAction)(c, s)
	if !c.Smokes("blue") { // which shows it too
		f.Confidence, f.Doubts = diag.Weak, []diag.Phrase{{Key: "plug-look-alone"}}
	}
	if burnsOil(c) {
		f.Variant, f.Urgency = "oil", diag.CheckAgain
	}
	return f
}

func gapCauses(c *known.Case, s known.Subject) []Voice {
	if c.GapOf(s.Name()) == known.GapNarrow {
		return append(speaks(Known, "gap-not-set"), common("wrong-plug")...)
	}
	if len(c.PlugsGapped(known.GapWide)) == 1 { // the others of its age have not worn so
		return append(speaks(Known, "plug-age"), common("gap-not-set")...)
	}
	return append(speaks(Known, "plug-age"), speaks(Hint, "gap-not-set")...) // nobody sets all of them wide
}

// gapFound is a finding on gaps, with each as measured beside the book's.
func gapFound(urgency diag.Urgency) func(*known.Case, known.Subject) diag.Finding {
	return func(c *known.Case, s known.Subject) diag.Finding {
		f := diag.Finding{Urgency: urgency, Confidence: diag.Fair, Facts: plugFacts(c, s.Cylinders)}
		each := diag.Names{}
		for _, n := range s.Cylinders {
			if p := c.Plug(n); p != nil {
				each = append(each, n+": "+p.GapText)
			}
		}
		f.Facts["each"], f.Facts["book"] = each, c.Plugs.GapEntered
		if c.Plugs.GapEntered == "" {
			f.Facts["book"] = diag.Number{Value: c.Plugs.GapMM, Decimals: 2, Unit: "mm"}.String()
		}
		if gap := c.GapOf(s.Name()); gap != known.GapShut {
			f.Variant = string(gap)
		}
		return f
	}
}
