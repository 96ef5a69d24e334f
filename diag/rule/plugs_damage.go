package rule

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// plugDamageRules are on plugs that something has happened to.
var plugDamageRules = []Rule{
	{
		Name: "plug-melted", Title: "Electrodes melted away",
		Why: "Electrodes melt when the charge lights too early on something that glows. What melts a plug also melts a piston, and the metal has gone somewhere: " +
			"the engine stays off until somebody has looked into the cylinder. The tip of a diesel's glow plug melts under an injector that drips.",
		Source: plugCourse + " (burnt electrodes: pre-ignition)", Class: Single, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsPlugs},
		Of: eachCylinder, When: known.Plug("melted"),
		Kind: OfPlugs, For: append(speaks(Known, "early-ignition"), common("lean-mixture")...),
		Weigh: func(c *known.Case, s known.Subject) []Voice { // where it is low as well, some of the piston went too
			meters := "injection"
			if c.Carburetted() {
				meters = "carburettor"
			}
			return slices.Concat(speaks(commonest-rarer, meters), where(c.Powerhead(), speaks(commonest, "too-hot")), heatRange(c), speaks(commonest-2*rarer, "holed-piston", "apex-seal"), where(c.AnyLow(s.Cylinders), speaks(Known, "holed-piston")))
		},
		Say: plugsSeen(diag.DoNotRun), Headline: "plugs-melted", LooksIn: true, Variants: []string{glowVariant},
	},
	{
		Name: "plug-damaged", Title: "A plug bent or broken",
		Why: "A bent strap or a closed gap is where something hit the plug: the piston, a plug that reaches too far, or a loose part in the cylinder. " +
			"Turning the engine further may make it worse.",
		Source: "common practice, no source", Class: Single, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsPlugs},
		Of: eachCylinder, When: known.Plug("damaged"),
		Kind: OfPlugs, Weigh: plugHit, Say: plugsSeen(diag.DoNotRun), Headline: "plugs-damaged", LooksIn: true, Variants: []string{glowVariant},
	},
	{
		Name: "gap-closed", Title: "A plug's gap pushed shut",
		Why: "A gap does not close by wear. Under a third of the book's, something pushed it shut: the piston, a loose part in the cylinder, or a fall on the floor before it was fitted. " +
			"Until that is known the engine is not turned on the starter.",
		Source: "common practice, no source", Class: Single, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsPlugs},
		Of: eachCylinder, When: known.All(gapClosed, sparkPlugs),
		Kind: OfPlugs, Weigh: plugHit, Say: gapFound(diag.DoNotRun), Headline: "gap-closed", LooksIn: true,
		SaysBetterThan: []string{"plug-damaged"}, Implies: []string{"gap-out"},
	},
	{
		Name: "detonation-signs", Title: "Signs of knock on a plug",
		Why:    "Specks of metal and a cracked nose come from knocking combustion. It breaks ring lands and pistons before it is heard, so the cylinder is looked into.",
		Source: "common practice, no source", Class: Single, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsPlugs},
		Of: eachCylinder, When: known.All(known.Plug("detonation"), sparkPlugs),
		Kind: OfPlugs, For: append(speaks(Known, "knock"), common("early-ignition", "carbon", "broken-ring-land")...), Say: plugsSeen(diag.ActSoon), Headline: "plugs-hot",
	},
	{
		Name: "overheated", Title: "A plug that ran too hot",
		Why: "A blistered or glazed insulator has been hotter than the plug stands: ignition too early, cooling, a lean mixture, or a plug of the wrong heat range, " +
			"which comes first where it is new. Left alone it ends in melted electrodes.",
		Source: plugManual + "; " + plugCourse, Class: Single, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsPlugs},
		Of: eachCylinder, When: known.All(known.Plug("blistered"), sparkPlugs),
		Kind: OfPlugs, For: common("early-ignition", "too-hot", "lean-mixture"), Weigh: func(c *known.Case, _ known.Subject) []Voice {
			return append(heatRange(c), drawsAir(c)...)
		},
		Say: plugsSeen(diag.ActSoon), Headline: "plugs-hot",
	},
	{
		Name: "coolant-washed", Title: "A plug that coolant has touched",
		Why: "Steam cleans a plug and its piston crown, or leaves a pale crust. One plug that is cleaner than all the others is the clue, and a coolant test settles it. " +
			"Where every plug looks so it is more likely the fuel, or the plugs are new.",
		Source: "common practice, no source", Class: Single, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsPlugs},
		Of: eachCylinder, When: known.All(known.Plug("coolant"), known.Not(known.AirCooled)),
		Kind: OfPlugs, Weigh: washedPlug, Say: coolantWashed, Headline: "coolant-signs", Variants: []string{allVariant},
	},
	{
		Name: "plug-bridged", Title: "A plug with its gap bridged",
		Why:    "A lump across the gap stops the spark at once. Lumps come off when a fouled engine is worked hard, and where they came from is seen in the bore.",
		Source: "TM 5-4210-230-14&P-1 (core bridging)", Class: Single, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsPlugs},
		Of: eachCylinder, When: known.All(known.Plug("bridged"), sparkPlugs),
		Kind: OfPlugs, For: append(speaks(Known, "loose-deposit"), common("oil-burning")...), Say: plugsSeen(diag.CheckAgain), Headline: "plugs-worn",
	},
	{
		Name: "plug-tracked", Title: "Spark has run down the outside of a plug",
		Why:    "A dark line on the insulator is the way that the spark took outside the cylinder. It comes back with the next plug unless the boot is renewed with it.",
		Source: "common practice, no source", Class: Single, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsPlugs},
		Of: eachCylinder, When: known.All(known.Plug("tracked"), sparkPlugs),
		Kind: OfPlugs, For: append(speaks(Known, "coil-or-lead"), common("moisture-at-plug")...), Say: plugsSeen(diag.CheckAgain), Headline: "plugs-worn",
	},
	{
		Name: "tracked-over-a-wide-gap", Title: "Spark has run down the outside of a plug whose gap is too wide",
		Why: "A wide gap asks for more voltage than the insulator and the boot hold, and the spark goes the shorter way, outside. " +
			"New plugs with the gap right and a new boot are one repair; a new boot alone is burnt through again.",
		Source: "common practice, no source", Class: Together, About: diag.AboutCylinders, Ties: []diag.About{diag.AboutMixture}, Needs: []known.Need{known.NeedsPlugs},
		Of: oneSet("the plugs whose gap is too wide, one of them tracked", func(c *known.Case) []string {
			if wide := c.PlugsGapped(known.GapWide); len(trackedOf(c, wide)) > 0 {
				return wide
			}
			return nil
		}), When: sparkPlugs,
		Kind: OfPlugs, For: speaks(Heard, "plug-age"), Say: func(c *known.Case, s known.Subject) diag.Finding {
			tracked := trackedOf(c, s.Cylinders)
			f := diag.Finding{Urgency: diag.CheckAgain, Confidence: diag.Fair, Facts: diag.Facts{"tracked": diag.Names(tracked)}}
			if slices.ContainsFunc(tracked, func(n string) bool { return slices.Contains(c.MisfireOf(), n) }) {
				f.Urgency = diag.ActSoon // what does not burn there burns in the exhaust
			}
			return f
		}, Headline: "plugs-worn",
		Against: denies(DryUp, "wide-gap-explains", "coil-or-lead", "moisture-at-plug"), SaysBetterThan: []string{"gap-out", "plug-tracked"},
	},
}

// trackedOf are those of some plugs down whose outside spark has run.
func trackedOf(c *known.Case, names []string) []string {
	return slices.DeleteFunc(c.Looking("tracked"), func(n string) bool { return !slices.Contains(names, n) })
}

// plugHit is what hits a plug. A new one may be of the wrong reach, or was
// dropped.
func plugHit(c *known.Case, s known.Subject) []Voice {
	voices := append(speaks(Known, "foreign-object", "piston-contact"), speaks(commonest-2*rarer, "wrong-plug-reach")...)
	if c.PlugsNew() {
		voices = append(voices, speaks(DryUp, "wrong-plug-reach")...)
		if c.GapClosed(s.Name()) {
			voices = append(voices, speaks(DryUp, "dropped-plug")...)
		}
	}
	return voices
}

func washedPlug(c *known.Case, _ known.Subject) []Voice {
	if c.AllPlugsWashed() {
		return append(common("oil-additive", "head-gasket", "coolant-seal"), denies(Hint, "others-alike", "head-gasket", "coolant-seal")...)
	}
	return pathToCoolant(Known, commonest)
}

func coolantWashed(c *known.Case, s known.Subject) diag.Finding {
	f := plugsFound(diag.ActSoon)(c, s)
	if c.AllPlugsWashed() {
		f.Variant, f.Urgency, f.Headline = allVariant, diag.CheckAgain, "plugs-alike"
		if c.LosesCoolant() {
			f.Urgency, f.Headline = diag.ActSoon, ""
		}
	}
	return f
}
