package rule

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
	"gaugesheet/diag/quantity"
)

// plugColourRules read the mixture from the colour of the plugs and the way in
// which they lie: what plugs of one look share is where the cause is looked for.
var plugColourRules = []Rule{
	{
		Name: "plug-wrong-heat", Title: "Plugs of another heat range than the book's, and they show it",
		Why: "A plug that is hotter than the engine asks for burns white, blisters and melts; one that is colder does not burn itself clean and soots. The right plug is fitted and looked at again " +
			"before the mixture is accused. Makers number heat ranges in opposite directions: which of the two is hotter is looked up.",
		Source: "common practice, no source", Class: Group, About: diag.AboutMixture, Needs: []known.Need{known.NeedsPlugs},
		Of: oneSet("the plugs fitted are not of the book's heat range; hotter (or which is hotter not recorded): those white, blistered or melted; colder (or not recorded): those sooty", func(c *known.Case) []string {
			names, _ := c.WrongHeat()
			return names
		}), When: sparkPlugs,
		Kind: OfPlugs, For: speaks(Heard, "wrong-heat-range"), Say: func(c *known.Case, _ known.Subject) diag.Finding {
			_, hot := c.WrongHeat()
			h := c.Test.Plugs.HeatRange
			number := func(v float64) string { return diag.Number{Value: v, Decimals: quantity.DecimalsRead(v, 0)}.String() }
			return diag.Finding{Urgency: diag.CheckAgain, Confidence: diag.Fair, Facts: diag.Facts{"fitted": number(h.Fitted), "book": number(h.Book), "hot": hot, "told": h.Higher != ""}}
		}, Headline: "plug-wrong-heat", SaysBetterThan: []string{"all-sooty", "lean-all", "some-sooty", "some-white"},
	},
	{
		Name: "all-sooty", Title: "Dry soot on every plug",
		Why: "Dry soot is fuel that did not burn. Where every plug has it, the cause is something that all cylinders share: too much fuel, too little air, a weak spark, " +
			"or an engine that never gets warm. It is a matter of mixture or spark; oil would be wet.",
		Source: plugManual + plugPattern, Class: Group, About: diag.AboutMixture, Needs: []known.Need{known.NeedsPlugs},
		Of: plugsOf("sooty", "the plugs, every one looked at sooty, more than half of them", known.OnAll), When: sparkPlugs,
		Kind: OfPlugs, Weigh: allSooty,
		Say: ofLastRun(plugsFound(diag.CheckAgain)), Headline: "plugs-sooty", Look: "sooty",
	},
	{
		Name: "bank-sooty", Title: "Dry soot on the plugs of one bank",
		Why: "Pump, tank and regulator serve both banks alike, so what fouls one bank belongs to it alone: its sensor, a leak of its exhaust ahead of the sensor, " +
			"its injectors, its cam timing, its side of the carburettor.",
		Source: "common practice, no source", Class: Group, About: diag.AboutMixture, Needs: []known.Need{known.NeedsPlugs},
		Of: plugsOf("sooty", "the plugs of one bank, sooty, and none of the other, two at least looked at in each", known.OnBank), When: sootOfItsOwn,
		Kind: OfPlugs, For: common("bank-sensor", "bank-exhaust-leak", "own-injector", "manifold-distribution", "cam-timing"),
		Say: plugsFound(diag.CheckAgain), Headline: "plugs-sooty", Look: "sooty",
	},
	{
		Name: "one-sooty", Title: "Dry soot on one plug",
		Why:    "What one cylinder does not share with the rest is its own spark, its own injector and its own seal. Soot from there is looked for in these three.",
		Source: plugManual + plugPattern, Class: Single, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsPlugs},
		Of: eachCylinder, When: known.All(onlyPlug("sooty"), sootOfItsOwn),
		Kind: OfPlugs, Weigh: oneSooty, Say: leftAlone(onePlug("sooty")), Headline: "plugs-sooty", Look: "sooty", Variants: []string{aloneVariant, notOnly},
	},
	{
		Name: "some-sooty", Title: "Dry soot on some plugs",
		Why: "Plugs that look alike have something in common. The two at the ends of a row lie farthest from the throttle; two neighbours may share a runner, " +
			"a coil or a gasket; others may only have the same fault each.",
		Source: "common practice, no source", Class: Group, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsPlugs},
		Of:   plugsOf("sooty", "several sooty plugs that low pressure does not explain, not all and not just one bank", known.OnSome, known.OnEnds, known.OnNeighbours),
		When: sootOfItsOwn, Kind: OfPlugs, Weigh: shareOut("sooty", "own-spark", "own-injector", "shared-runner"),
		Say: leftAlone(somePlugs("sooty")), Headline: "plugs-sooty", Look: "sooty", Variants: []string{string(known.OnEnds), string(known.OnNeighbours), mostVariant},
	},
	{
		Name: "shared-coil", Title: "Plugs that one coil fires are sooty or wet together",
		Why: "Where one coil fires two cylinders, its failure shows on the plugs of both and on no other. Two cylinders seldom fail at once for reasons of their own when they lie " +
			"apart and have only the coil in common.",
		Source: "common practice, no source", Class: Group, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsPlugs},
		Of: sets("cylinders that share a coil", func(c *known.Case) [][]string { return c.Spec.SharedCoils }),
		When: known.All(known.BurningPlug("sooty", "fuel-wet"), known.OfAll("not low", func(c *known.Case, n string) bool { return !c.Grade(n).IsLow() }), twoOrMore,
			known.Is("other plugs looked at, none of them so", func(c *known.Case, s known.Subject) bool {
				return c.ColourOthers(s.Cylinders) > 0 && len(c.Looking("sooty", "fuel-wet")) == len(s.Cylinders)
			})),
		Kind: OfPlugs, For: slices.Concat(speaks(Sight, "shared-coil"), common("coil-or-lead"), speaks(DryUp, "coil-feed")), Against: denies(Heard, "coil-mate-alike", "own-spark", "own-injector"),
		Say: plugsFound(diag.CheckAgain), Headline: "shared-coil",
		SaysBetterThan: []string{"some-sooty", "one-sooty", "fuel-wet", "wet-with-fuel-and-sealing"},
	},
	{
		Name: "lean-all", Title: "Every plug white",
		Why: "White, clean insulators show hot burning, most often with too little fuel for the air. On every plug the cause is shared: fuel pressure, an air leak, the air meter, " +
			"or plugs of the wrong heat range, which come first where the plugs are new.",
		Source: plugManual + plugPattern, Class: Group, About: diag.AboutMixture, Needs: []known.Need{known.NeedsPlugs},
		Of: plugsOf("white", "the plugs, every one looked at white, more than half of them", known.OnAll), When: known.All(sparkPlugs, known.Not(gasFuel)),
		Kind: OfPlugs, Weigh: leanEverywhere,
		Say: leaning(ofLastRun(plugsFound(diag.CheckAgain))), Headline: "plugs-white",
	},
	{
		Name: "white-on-gas", Title: "White plugs in an engine that runs on gas",
		Why:    "Gas burns without soot and leaves the plugs white. There white says nothing of the mixture.",
		Source: "common practice, no source", Class: Information, About: diag.AboutMixture, Needs: []known.Need{known.NeedsPlugs},
		Of: plugsOf("white", "the plugs that look white, several or every one looked at", known.OnAll, known.OnSome, known.OnEnds, known.OnNeighbours), When: known.All(sparkPlugs, gasFuel),
		Kind: OfPlugs, Weigh: func(c *known.Case, _ known.Subject) []Voice {
			return where(len(c.PlugsGapped(known.GapWide))+len(c.PlugsGapped(known.GapNarrow)) == 0, speaks(Known, "gas-fuel")) // no cause of what the gaps do
		}, Say: plugsFound(diag.NoAction), Headline: "plugs-normal",
	},
	{
		Name: "one-white", Title: "One plug white",
		Why:    "One lean cylinder among others has an air leak at its own port or an injector that gives too little. A loose plug runs hot as well, and looks the same.",
		Source: plugManual + plugPattern, Class: Single, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsPlugs},
		Of: eachCylinder, When: known.All(onlyPlug("white"), sparkPlugs),
		Kind: OfPlugs, For: common("air-leak", "own-injector"), Weigh: whiteAlone,
		Say: oneWhite, Headline: "plugs-white", Variants: []string{aloneVariant, notOnly},
	},
	{
		Name: "some-white", Title: "Some plugs white",
		Why:    "Lean cylinders that lie together share a runner or a joint of the manifold; those at the ends of a row lie farthest from the throttle.",
		Source: "common practice, no source", Class: Group, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsPlugs},
		Of: plugsOf("white", "several white plugs, not all and not just one bank", known.OnSome, known.OnEnds, known.OnNeighbours), When: known.All(sparkPlugs, known.Not(gasFuel)),
		Kind: OfPlugs, Weigh: shareOut("white", "air-leak", "own-injector", "shared-runner"), TiesSystems: []string{known.CrankcaseHold},
		Say: leaning(somePlugs("white")), Headline: "plugs-white", Variants: []string{string(known.OnEnds), string(known.OnNeighbours), mostVariant, twoStrokeVariant},
	},
}

// mostVariant is of plugs that most of the engine's look like.
const mostVariant = "most"

var twoOrMore = known.Is("two of them at least", func(_ *known.Case, s known.Subject) bool { return len(s.Cylinders) > 1 })

// ofLastRun asks for nothing where an engine stood for long and has not run since, or does not start
// at all: the colour of its plugs is as old as its last run.
func ofLastRun(say func(*known.Case, known.Subject) diag.Finding) func(*known.Case, known.Subject) diag.Finding {
	return func(c *known.Case, s known.Subject) diag.Finding {
		f := say(c, s)
		asOld := known.StoodLong.HoldsIn(c) && c.Spec.Runs == "not tried" || c.WillNotStart()
		if asOld && !c.ToldRich() && !leansOut.HoldsIn(c) {
			f.Urgency = diag.NoAction
		}
		return f
	}
}

// allSooty says little of its own where the mixture is known from a complaint,
// a code or the fuel pressure as well: "rich" is then no cause any more.
func allSooty(c *known.Case, _ known.Subject) []Voice {
	if c.ToldRich() || c.Has(known.NeedsFuel) {
		return speaks(Hint, "weak-spark", "short-trips", "wrong-mix")
	}
	return append(sootEverywhere(),
		where(c.Ported() && c.Complains("low power"), speaks(commonest, "restricted-exhaust"))...) // what burns its oil cokes its port
}

// sootEverywhere is what blackens plugs alike, where nothing more is known of the mixture.
func sootEverywhere() []Voice {
	return common("carburettor", "temperature-signal", "air-filter", "short-trips", "weak-spark", "wrong-mix", "rich-mixture")
}

// oneSooty leaves the seal out where its pressure is known to be good.
func oneSooty(c *known.Case, s known.Subject) []Voice {
	own := "own-injector"
	if c.CarburettorEach() {
		own = "carburettor"
	}
	if !slices.ContainsFunc(s.Cylinders, func(n string) bool { return !c.HoldsWell(n) }) {
		return common("own-spark", own)
	}
	return common("own-spark", own, "low-compression")
}

// shareOut are the causes of plugs that look alike, by the way in which they lie.
func shareOut(look string, each ...string) func(*known.Case, known.Subject) []Voice {
	return func(c *known.Case, _ known.Subject) []Voice {
		set, at := lie(c, look)
		if mostOf(c, look) {
			return sharedByMost(c, look)
		}
		if look == "white" && c.Powerhead() {
			return append(common("carburettor"), falling(commonest-rarer, append([]string{"too-hot"}, each...)...)...)
		}
		if look == "white" && c.Ported() { // which breathes through its crankcase
			return append(common("crankcase-seal"), falling(commonest-rarer, append([]string{"carburettor"}, each...)...)...)
		}
		if c.CarburettorEach() { // no runner or manifold is shared
			return common(each[0], "carburettor")
		}
		switch at {
		case known.OnEnds:
			return common("manifold-distribution", "own-injector")
		case known.OnNeighbours:
			return common("shared-runner", "own-injector")
		}
		apart := slices.ContainsFunc(set, func(n string) bool { return c.Engine.BankOf(n) != c.Engine.BankOf(set[0]) })
		if apart && c.Engine.IsTwoBank() { // no runner or joint serves both banks
			return common(slices.DeleteFunc(slices.Clone(each), func(name string) bool { return name == "shared-runner" })...)
		}
		return common(each...)
	}
}

// mostOf reports a look that most of the plugs have that were read, four at least: one that
// is clean does not make of a matter of all cylinders one of each. Where the engine misfires,
// and nothing tells that it runs so, each may have its own fault.
func mostOf(c *known.Case, look string) bool {
	set, _ := lie(c, look)
	read := len(c.PlugsRead())
	return read >= 4 && 4*len(set) >= 3*read && (toldByMore(c, look) || !c.CarburettorEach() && !c.Ported() && !slices.Contains(c.Complaints(), "misfire"))
}

// toldByMore reports a mixture that more than the plugs speak of.
func toldByMore(c *known.Case, look string) bool {
	if look == "sooty" {
		return c.ToldRich() || known.GasRich.HoldsIn(c)
	}
	return c.LeanSign() != "" || known.GasLean.HoldsIn(c)
}

// sharedByMost are the causes of what most plugs share, as they are where all do.
func sharedByMost(c *known.Case, look string) []Voice {
	switch {
	case look == "white":
		return leanEverywhere(c, known.Subject{})
	case toldByMore(c, look) || right(c):
		return everywhereVoices(c, known.Subject{})
	}
	return sootEverywhere()
}

// sootOfItsOwn is soot that fuel in the regulator's hose does not explain: the
// hose ends at some runner, and the plugs nearest to it are the first to foul.
var sootOfItsOwn = known.All(sparkPlugs, known.Not(inHose))

// whiteAlone: a two-stroke breathes through its crankcase, and what leaks in past a
// seal of the crankshaft leans the cylinder beside it.
func whiteAlone(c *known.Case, s known.Subject) []Voice {
	plug := heatRange(c)
	if c.ColourOthers(s.Cylinders) > 0 { // which were fitted with it, and are not white: what is left is one that sits loose
		plug = speaks(Hint, "wrong-heat-range")
	}
	return slices.Concat(plug, drawsAir(c), where(c.CarburettorEach(), speaks(commonest-rarer, "carburettor")))
}

// drawsAir is what leans a two-stroke, or makes it hot, in one cylinder: its crankcase lets air in; of an
// outboard, whose crankcases lie inside its block, its carburetor gives too little, or its water.
func drawsAir(c *known.Case) []Voice {
	switch {
	case c.Powerhead():
		return append(speaks(Known, "carburettor"), speaks(commonest, "too-hot")...)
	case c.Ported():
		return speaks(Known, "crankcase-seal")
	}
	return nil
}

// oneWhite stops an engine that runs lean by a second sign as well and whose oil comes
// with the fuel: lean is then short of oil too, and the piston seizes within minutes.
func oneWhite(c *known.Case, s known.Subject) diag.Finding {
	return leaning(onePlug("white"))(c, s)
}

// leaning is a finding of white plugs as urgent as they are where the engine leans out.
func leaning(say func(*known.Case, known.Subject) diag.Finding) func(*known.Case, known.Subject) diag.Finding {
	return func(c *known.Case, s known.Subject) diag.Finding {
		f := say(c, s)
		if f.Facts == nil {
			f.Facts = diag.Facts{}
		}
		f.Facts["seizes"] = leansOut.Holds(c, s)
		if f.Facts["seizes"] == true {
			f.Urgency = diag.DoNotRun
		}
		return f
	}
}

// leansOut is a two-stroke that is lean by more than its plugs.
var leansOut = known.All(known.TwoStroke, known.Any(known.Complaint("lean running"), known.IdleHangs, known.OfEngine("a code of a mixture too lean", func(c *known.Case) bool { return c.Coded("P0171", "P0174") })))

// leanEverywhere is what makes every plug white. A two-stroke draws its mixture through
// its crankcase, and mostly has no pump whose pressure could be low.
func leanEverywhere(c *known.Case, _ known.Subject) []Voice {
	voices := common("low-fuel-pressure", "air-leak", "crankcase-seal")
	if c.Ported() && !c.Powerhead() {
		voices = append(common("crankcase-seal", "air-leak"), speaks(Hint, "low-fuel-pressure")...)
	}
	return slices.Concat(voices, heatRange(c), where(c.Carburetted(), speaks(commonest-rarer, "carburettor")))
}
