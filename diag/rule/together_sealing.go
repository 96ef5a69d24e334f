package rule

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// sealingTogether look at two kinds of readings of one cylinder, or of some:
// where these agree more can be said than from either.
var sealingTogether = []Rule{
	{
		Name: "piston-contact", Title: "A low cylinder whose plug was hit",
		Why: "Something touched the plug, and the cylinder does not hold pressure: the two have most likely one cause inside the cylinder. Every further turn may add to the damage, " +
			"so it is looked into before the engine is cranked again.",
		Source: "common practice, no source", Class: Together, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsCompression, known.NeedsPlugs},
		Of: eachCylinder, When: known.All(known.Low, known.Any(known.Plug("damaged"), gapClosed)),
		Kind: OfPlugs, For: speaks(Sight, "foreign-object", "piston-contact"), Weigh: brokenInside,
		Say: agreed(diag.DoNotRun, diag.Strong), Headline: "piston-contact", LooksIn: true,
		SaysBetterThan: []string{"plug-damaged", "gap-closed", "one-low", "one-out-of-tight-pack", "scattered-low"},
	},
	{
		Name: "knock-and-low", Title: "A low cylinder whose plug shows knock",
		Why: "Specks of metal on a plug have come off the piston. Where the cylinder has lost pressure as well, knock or heat has most likely burnt or broken the piston or its ring lands, " +
			"and what is loose wears the rest. It is looked into before the engine is cranked or run again, and why it ran hot or lean is found before it runs on new parts.",
		Source: "common practice, no source", Class: Together, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsCompression, known.NeedsPlugs},
		Of: eachCylinder, When: known.All(known.Any(known.Plug("detonation"), known.MetalOnPlug), sparkPlugs, known.Any(known.Low, short, onlyOneLow)),
		Kind: OfPlugs, For: append(speaks(Heard, "holed-piston"), speaks(DryUp, "piston", "broken-ring-land")...),
		Say: knockAndLow, Headline: "knock-and-low", LooksIn: true,
		SaysBetterThan: []string{"detonation-signs", "one-low", "one-out-of-tight-pack", "scattered-low"},
	},
	{
		Name: "gave-way-suddenly", Title: "A cylinder that lost its pressure suddenly, past its piston",
		Why: "Rings wear slowly. What lets go at once, most often under load, is a ring land, a piston that has burnt through, or one that has seized and scuffed, and pieces of it may lie in the engine. " +
			"It is looked into before the engine is turned or run again, and why it ran hot or lean is found before it runs on new parts.",
		Source: "common practice, no source", Class: Together, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsCompression},
		Of: eachCylinder, When: known.All(known.SuddenOnset, known.Not(known.SeenThere("a scored wall, or a holed, broken or melted piston", slices.Concat(known.ScoredWords, known.GonePiston))),
			known.Not(known.WholeAbove), // it has been looked into
			known.Any(known.All(known.Low, known.Any(gushesPast, oneOfPorted)), onlyOfPorted)),
		Kind: OfCompression, Weigh: gaveWay,
		Say: knockAndLow, Headline: "gave-way-suddenly", LooksIn: true,
		SaysBetterThan: []string{"one-low", "one-out-of-tight-pack", "scattered-low", "leaks-to-crankcase"},
	},
	{
		Name: "ported-ran-hot", Title: "A two-stroke's cylinder that is low, and that ran lean or hot",
		Why: "A two-stroke is oiled and cooled by what it draws: lean or hot it scuffs its piston against the exhaust port within seconds, and the next run tears the wall. That shows at once through the port, with nothing turned. " +
			"Where the air got in, the crankcase pumped up tells afterwards.",
		Source: "common practice, no source", Class: Together, About: diag.AboutCylinders, Ties: []diag.About{diag.AboutMixture}, Needs: []known.Need{known.NeedsCompression},
		Of: eachCylinder, When: known.All(known.RanHot, known.Any(known.All(known.Low, known.NoneDead), onlyOfPorted), known.Not(known.SeenThere("a scored wall, or a holed, broken or melted piston", slices.Concat(known.ScoredWords, known.GonePiston)))),
		Kind: OfCompression, For: append(speaks(Heard, "scored-bore"), speaks(Known, "rings", "piston")...),
		Say: func(c *known.Case, s known.Subject) diag.Finding {
			f := knockAndLow(c, s)
			f.Confidence, f.Facts["white"], f.Facts["powerhead"] = diag.Fair, slices.ContainsFunc(s.Cylinders, c.PlugRanLean), c.Powerhead()
			return f
		}, Headline: "ported-ran-hot", LooksIn: true,
		SaysBetterThan: []string{"one-low", "one-out-of-tight-pack", "scattered-low", "neighbours-low", "below-minimum", "all-low", "one-white", "lean-all"},
	},
	{
		Name: "valve-met-piston", Title: "A cylinder that is low since the engine was over-revved, or since the drive of its valves failed",
		Why: "A valve that floats, or that nothing closes in time, is hit by its piston and bends. It leaks from that moment on, and its head may break off and go through piston and wall. " +
			"Dirt on a seat, a seat that sinks and a clearance that closes up come slowly.",
		Source: "common practice, no source", Class: Together, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsCompression},
		Of: eachCylinder, When: known.All(short, known.Any(known.Not(known.UnderFloor), known.Single), somePressure, known.MetByTheStory, mayLeakAtValve),
		Kind: OfCompression, Weigh: valveMet,
		Against: append(denies(Heard, "came-with-the-overspeed", "carbon-on-seat", "valve-recession"), denies(Known, "came-with-the-overspeed", "valve-lash", "rings")...),
		Say:     lowSinceMet, Headline: "valve-met-piston", LooksIn: true,
		SaysBetterThan: []string{"one-low", "one-out-of-tight-pack", "scattered-low", "inlet-valve-agrees", "exhaust-valve-agrees", "leaks-at-inlet", "leaks-at-exhaust"},
	},
	{
		Name: "coolant-in-cylinder", Title: "Coolant gets into a cylinder",
		Why: "A plug that steam has cleaned is a sign; a second sign makes it a finding, be it a test or what the engine does: it loses coolant, smokes white, overheats, does not start. Coolant in a " +
			"bore does not compress: if enough collects, the next turn of the starter can bend a rod. It is turned by hand with the plugs out, and drained, before anything else.",
		Source: "common practice, no source", Class: Together, About: diag.AboutCylinders,
		Of: eachCylinder, When: known.CoolantEnters,
		Kind: OfPlugs, For: pathToCoolant(Known, Known), Weigh: coolantVoices,
		Say: coolantInCylinder, Headline: "coolant-in-cylinder",
		SaysBetterThan: []string{"coolant-washed", "leaks-to-coolant", "combustion-gas-in-coolant", "one-low", "one-out-of-tight-pack", "scattered-low"},
	},
	{
		Name: "gasket-agrees", Title: "Low neighbours that leak into each other",
		Why:    "Pressure says that both are low, the leakage test says that air crosses between them, and oil on the rings changes nothing. All three point to the joint between the two.",
		Source: "TM 10-3930-647-14&P and TM 5-4210-230-14&P-1: two adjacent cylinders low, head gasket; the cross-leak: common practice, no source",
		Class:  Together, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsCompression, known.NeedsLeakage},
		Of:   lowRuns,
		When: known.All(known.AirAtHalf(known.AtNeighbour), known.Not(known.OfAny("one of them up with oil", risesWithOil))),
		Kind: OfLeakage, For: speaks(Known, "head-gasket", "warped-or-cracked-head"),
		Say: gasketAgrees, Headline: "gasket-agrees",
		SaysBetterThan: []string{"neighbours-low", "neighbours-without-pressure", "leaks-to-neighbour", "wet-no-rise", "does-not-build"},
	},
	{
		Name: "exhaust-valve-agrees", Title: "A low cylinder whose air goes out at the exhaust",
		Why: "Oil helps rings and not valves, and the air is heard where only the exhaust valve could let it out. Lash that is too small holds a sound valve open and sounds the same, " +
			"so it is set before the head comes off.",
		Source: "TM 10-3930-647-14&P (no rise with oil: valves) and TM 5-3805-260-24 (air at the exhaust: exhaust valve)",
		Class:  Together, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsCompression, known.NeedsLeakage},
		Of:   eachCylinder,
		When: known.All(known.Low, known.Valves, known.AirAt(known.AtExhaust), known.Not(known.AirAt(known.AtInlet)), known.Any(known.OilFlat, known.OilNotTried)),
		Kind: OfLeakage, For: speaks(Hint, "exhaust-valve", "valve-lash", "carbon-on-seat"),
		Say: valveAgrees, Headline: "exhaust-valve-agrees",
		SaysBetterThan: []string{"one-low", "one-out-of-tight-pack", "scattered-low", "neighbours-low", "leaks-at-exhaust", "wet-no-rise", "does-not-build"},
	},
	{
		Name: "inlet-valve-agrees", Title: "A low cylinder whose air goes out at the inlet",
		Why: "Oil helps rings and not valves, and the air is heard where only the inlet valve could let it out. Carbon on the seat and lash that is too small sound the same and cost less, " +
			"so they come before the head.",
		Source: "TM 10-3930-647-14&P (no rise with oil: valves) and TM 5-3805-260-24 (air at the air cleaner: intake valve)",
		Class:  Together, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsCompression, known.NeedsLeakage},
		Of:   eachCylinder,
		When: known.All(known.Low, known.InletValved, known.AirAt(known.AtInlet), known.Not(known.AirAt(known.AtExhaust)), known.Any(known.OilFlat, known.OilNotTried)),
		Kind: OfLeakage, For: speaks(Hint, "inlet-valve", "carbon-on-seat", "valve-lash"),
		Say: valveAgrees, Headline: "inlet-valve-agrees",
		SaysBetterThan: []string{"one-low", "one-out-of-tight-pack", "scattered-low", "neighbours-low", "leaks-at-inlet", "wet-no-rise", "does-not-build"},
	},
	{
		Name: "rings-agree", Title: "A low cylinder that leaks past its rings",
		Why:    "Oil lifts the reading, oil reaches the plug, air reaches the crankcase: each by itself has other explanations, two together leave the rings, the piston or the bore.",
		Source: "TM 10-3930-647-14&P (rise with oil: rings) and TM 10-3930-653-14&P (oil past the rings); the combination: common practice, no source",
		Class:  Together, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsCompression},
		Of: eachCylinder,
		When: known.All(known.Low, known.Any(
			known.TwoOf(known.OilRises, known.Plug("oil-wet"), pastRings),
			known.All(pastRings, known.OilNotTried, known.Not(known.LossTooSmall)))),
		Kind: OfLeakage, For: speaks(Hint, "rings", "scored-bore", "piston"),
		Say: ringsAgree, Headline: "rings-agree",
		SaysBetterThan: []string{"one-low", "one-out-of-tight-pack", "scattered-low", "neighbours-low", "wet-rise", "builds-slowly", "leaks-to-crankcase", "leaks-at-exhaust", "oil-wet"},
	},
	{
		Name: "guides-or-breather", Title: "An oily plug in a cylinder with good compression",
		Why:    "Rings that seal air well seldom let much oil up, except the oil-control rings alone. Oil then comes from above or with the air: valve guides, their seals, the breather.",
		Source: "common practice, no source", Class: Together, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsCompression, known.NeedsPlugs},
		Of: eachCylinder, When: known.All(known.BurningPlug("oil-wet"), known.NotLow, overMinimum, known.Valves, known.Any(known.Not(known.AirAt(known.AtCrankcase)), lossesWithin), known.Not(known.UnderFloor)),
		Kind: OfPlugs, For: speaks(Known, "guides-or-seals", "breather", "oil-control-rings"),
		Weigh: func(c *known.Case, _ known.Subject) []Voice { // what all draw in comes with the air
			return where(c.Spec.Charging == "turbo" && len(c.PlugsLooking("oil-wet", "ash")) == len(c.Every()), speaks(Known+Hint, "turbo-seal"))
		},
		Say: guidesOrBreather, Headline: "guides-or-breather",
		SaysBetterThan: []string{"oil-wet"},
	},
	{
		Name: "deactivated-set-fouls", Title: "The cylinders that foul with oil are those that are shut down at light load",
		Why: "A cylinder that is shut down with its valves shut is cold and draws a vacuum, into which oil comes past its rings; its oil-control rings coke up, and what feeds its lifters may throw oil at its bore. " +
			"The vent and the guides would not pick that very set.",
		Source: "common practice, no source", Class: Together, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsCompression, known.NeedsPlugs},
		Of: oneSet("the cylinders that are shut down at light load", (*known.Case).DeactivatedFoul), When: known.All(known.Valves, known.NotLow),
		Kind: OfPlugs, For: append(speaks(Heard, "oil-control-rings"), as(OfHistory, speaks(Known, "oil-control-rings"))...), Against: denies(Hint, "only-that-set", "breather", "guides-or-seals"),
		Say: agreed(diag.CheckAgain, diag.Fair), Headline: "deactivated-fouls",
		SaysBetterThan: []string{"oil-wet", "guides-or-breather", "ash-deposits"},
	},
	{
		Name: "sooty-and-low", Title: "A sooty plug in a low cylinder",
		Why:    "A cylinder that does not seal burns poorly and soots its plug. Injector and coil would be changed in vain: the seal comes first.",
		Source: "common practice, no source", Class: Together, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsCompression, known.NeedsPlugs},
		Of: eachCylinder, When: known.All(known.Plug("sooty"), known.Low, known.OfEngine("not every plug sooty", notAllSooty)),
		Kind: OfPlugs, For: speaks(Hint, "low-compression"),
		Say: agreed(diag.CheckAgain, diag.Fair), Headline: "one-low",
		SaysBetterThan: []string{"one-sooty", "some-sooty", "bank-sooty"},
	},
	{
		Name: "wet-with-fuel-and-sealing", Title: "A fuel-wet plug in a cylinder that seals",
		Why:    "The cylinder compresses and the fuel arrives, so what is missing is the spark, or an injector brings too much. Swapping two coils shows which in minutes.",
		Source: "common practice, no source", Class: Together, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsCompression, known.NeedsPlugs},
		Of: eachCylinder,
		When: known.All(known.BurningPlug("fuel-wet"), known.Sealing, known.OfAll("its neighbours not low", func(c *known.Case, n string) bool { return !c.AnyLow(c.NeighboursOf(n)) }),
			known.OfEngine("not every plug wet", func(c *known.Case) bool { return c.PatternOf(c.Looking("fuel-wet")) != known.OnAll })),
		Kind: OfPlugs, For: speaks(Known, "own-spark", "own-injector"),
		Say: agreed(diag.CheckAgain, diag.Fair), Headline: "wet-and-sealing",
		SaysBetterThan: []string{"fuel-wet"},
	},
}

var (
	// atAValve is a cylinder whose air goes past a valve.
	atAValve = known.Any(known.AirAt(known.AtInlet), known.AirAt(known.AtExhaust))
	// mayLeakAtValve is one of which no air was heard that says otherwise.
	mayLeakAtValve = known.All(known.Not(known.Tight), known.Not(known.AirAt(known.AtNeighbour)), known.Any(known.Not(known.AirAt(known.AtCrankcase)), atAValve))
	somePressure   = known.OfAll("some pressure", func(c *known.Case, n string) bool { return c.Grade(n) != diag.NoPressure })
	gapClosed      = known.OfAll("its gap pushed shut", func(c *known.Case, n string) bool { return c.GapClosed(n) })
	// onlyOneLow is an engine's only cylinder that is low for nearly any of its kind.
	onlyOneLow = known.All(known.UnderFloor, known.OfEngine("one cylinder alone", func(c *known.Case) bool { return !c.Several() }))
	gushesPast = known.OfAll("more lost to the crankcase than rings let past", func(c *known.Case, n string) bool {
		return c.LeaksAt(n, known.AtCrankcase) && losesATorrent(c, []string{n})
	})
	// oneOfPorted is a low cylinder of a two-stroke without valves whose others are not
	// low; nothing but its piston keeps its pressure from it.
	oneOfPorted = known.OfAll("one of a two-stroke without valves, by itself, and no air found elsewhere", func(c *known.Case, n string) bool {
		return c.Ported() && c.Several() && len(c.LowSet()) == 1 && c.Grade(n).IsLow() && c.Grade(n) != diag.NoPressure &&
			!c.LeaksAt(n, known.AtNeighbour) && !c.LeaksAt(n, known.AtCoolant) && !c.LeaksAt(n, known.AtOutside)
	})
	// onlyOfPorted is the only cylinder of such an engine, low for its kind.
	onlyOfPorted = known.OfEngine("a two-stroke without valves of one cylinder, low for its kind or under its minimum", func(c *known.Case) bool {
		return c.Ported() && !c.Several() && !c.Dead() && !c.Flooded() && (c.AllLow() != nil || len(c.Short()) > 0)
	})
	// pastRings is air past the rings: at the crankcase, or at the exhaust of an
	// engine whose piston opens the port.
	pastRings = known.OfAll("air at the crankcase, or at the exhaust of a two-stroke", func(c *known.Case, n string) bool {
		return c.LeaksAt(n, known.AtCrankcase) || c.Ported() && c.LeaksAt(n, known.AtExhaust)
	})
	// lossesWithin is an engine that loses no more than its book lets it anywhere:
	// the air at the crankcase is then what rings commonly let by.
	lossesWithin = known.OfEngine("every loss that was read within its limit", everyLossWithin)
	lowRuns      = sets("low neighbours under one head gasket", lowNeighbours)
)

// brokenInside: what hit the plug of a cylinder without pressure was mostly a part
// of it, and a valve is the part that also lets the pressure go. A plug that only
// reaches too far takes no pressure away.
func brokenInside(c *known.Case, s known.Subject) []Voice {
	if hasDead(c, s.Cylinders) {
		return speaks(Sight, "bent-valve", "holed-piston")
	}
	return speaks(Hint, "wrong-plug-reach", "bent-valve")
}

func lowNeighbours(c *known.Case) [][]string {
	var runs [][]string
	for _, run := range c.Engine.NeighbourRuns(c.LowSet()) {
		if len(run) > 1 {
			runs = append(runs, run)
		}
	}
	return runs
}

func everyLossWithin(c *known.Case) bool {
	leaks := c.Leaks()
	return len(leaks) > 0 && !slices.ContainsFunc(leaks, func(l *diag.LeakResult) bool { return l.Verdict != diag.Within || c.LeakTooHigh(l) })
}

func risesWithOil(c *known.Case, n string) bool { return c.WetOutcome(n) == known.WetRises }

func notAllSooty(c *known.Case) bool { return len(c.PlugsLooking("sooty")) < c.Sums.Plugs.N }

// agreed is a finding on which two kinds of readings agree; one without
// pressure makes it a matter of not running.
func agreed(urgency diag.Urgency, sure diag.Confidence) func(*known.Case, known.Subject) diag.Finding {
	return func(c *known.Case, s known.Subject) diag.Finding {
		f := diag.Finding{Urgency: urgency, Confidence: sure, Facts: comparison(c, s.Cylinders)}
		if hasDead(c, s.Cylinders) {
			f.Urgency = diag.DoNotRun
		}
		return f
	}
}

// gaveWay is what lets go of a sudden: in a two-stroke the piston itself, which
// seizes before its lands break.
func gaveWay(c *known.Case, _ known.Subject) []Voice {
	if c.Ported() {
		return append(speaks(Known, "piston"), speaks(commonest, "scored-bore", "rings", "holed-piston")...)
	}
	return append(speaks(Sight, "broken-ring-land"), append(speaks(Known, "holed-piston", "piston"), denies(Hint, "came-suddenly", "rings")...)...)
}

// valveMet speaks for a valve that was hit: by what is told, by the pressure, and by its air.
func valveMet(c *known.Case, s known.Subject) []Voice {
	return slices.Concat(speaks(Known, "bent-valve"), as(OfHistory, speaks(Heard, "bent-valve")), where(atAValve.Holds(c, s), as(OfLeakage, speaks(Heard, "bent-valve"))))
}

func lowSinceMet(c *known.Case, s known.Subject) diag.Finding {
	f := knockAndLow(c, s)
	f.Confidence, f.Facts["sped"] = diag.Fair, c.OverSped()
	return f
}

func knockAndLow(c *known.Case, s known.Subject) diag.Finding {
	f := agreed(diag.DoNotRun, diag.Strong)(c, s)
	f.Facts["several"] = c.Several()
	return f
}

func hasDead(c *known.Case, names []string) bool {
	for _, n := range names {
		if c.Grade(n) == diag.NoPressure {
			return true
		}
	}
	return false
}

// comparison are the facts on some low cylinders: what they read, their part of
// the reference, what they lost and what they read with oil, each as one figure
// or as the least and the most.
func comparison(c *known.Case, names []string) diag.Facts {
	var dry, part, loss, wet []float64
	for _, n := range names {
		if r := c.Cylinder(n); r != nil && r.Dry != nil {
			dry, part = append(dry, *r.Dry), append(part, c.PartOfReference(r).Value)
			if ends := c.Cranking().EndsOf(n); ends != nil { // known only not to be more: from end to end
				dry, part = append(dry[:len(dry)-1], ends[:]...), append(part[:len(part)-1], c.Part(ends[0], c.Cranking().Reference).Value, c.Part(ends[1], c.Cranking().Reference).Value)
			}
			if r.Wet != nil {
				wet = append(wet, *r.Wet)
			}
		}
		if lost, ok := c.Loss(n); ok {
			loss = append(loss, lost)
		}
	}
	return diag.Facts{"value": between(dry, c.Span), "percent": between(part, known.Percents), "loss": between(loss, known.Percents), "wet": between(wet, c.Span)}
}

// between writes the least and the most of some figures, "" for none.
func between(values []float64, write func(low, high float64) string) string {
	if len(values) == 0 {
		return ""
	}
	return write(slices.Min(values), slices.Max(values))
}

// coolantVoices say of an engine that does not start that liquid may be why.
func coolantVoices(c *known.Case, _ known.Subject) []Voice {
	return where(c.WillNotStart() && !c.Rotary(), as(OfHistory, speaks(DryUp, "coolant-or-fuel-in-bore")))
}

// coolantInCylinder is less sure where nothing but the plug is of this cylinder.
func coolantInCylinder(c *known.Case, s known.Subject) diag.Finding {
	f := agreed(diag.DoNotRun, diag.Strong)(c, s)
	low, bubbles, gas := c.AnyLow(s.Cylinders), c.LosesAt(s.Cylinders, known.AtCoolant), c.CoolantGas == "positive"
	washed := len(c.PlugsLooking("coolant")) > 0
	f.Facts["crown"] = !washed && c.CrownWashed(s.Name())
	if !washed || !low && !bubbles && !gas {
		f.Confidence = diag.Fair
	}
	f.Facts["low"], f.Facts["bubbles"], f.Facts["gas"], f.Facts["washed"] = low, bubbles, gas, washed
	f.Facts["missed"], f.Facts["hot"], f.Facts["noStart"], f.Facts["allLow"] = c.CoolantMissed() && !gas, c.CoolantHot(), c.WillNotStart(), c.AllLow() != nil
	f.Facts["locked"] = known.LockedUp.HoldsIn(c)
	f.Facts["rotary"], f.Facts["raw"] = c.Rotary(), c.RawWaterCooled()
	f.Facts["water"] = waterRusts(c, s.Cylinders)
	return f
}

// waterRusts reports water in a cylinder that rusts it as it stands, into which oil may
// go: raw water, or any where rust was seen.
func waterRusts(c *known.Case, names []string) bool {
	return c.OilAllowed() && slices.ContainsFunc(names, func(n string) bool {
		return c.WaterIn(n) && (c.WetExhaust() || c.Seen(n, known.RustOnWall...) || c.Seen(n, known.RustOnValve...))
	})
}

func gasketAgrees(c *known.Case, s known.Subject) diag.Finding {
	f := agreed(diag.ActSoon, diag.Strong)(c, s)
	f.Facts["read"], f.Facts["oil"], f.Facts["torched"] = c.Span(c.Spread(s.Cylinders)), c.AllWet(s.Cylinders, known.WetFlat), false
	stopIfTorched(c, s, &f)
	return f
}

// valveAgrees keeps provisional what rests on a cold leakage figure.
func valveAgrees(c *known.Case, s known.Subject) diag.Finding {
	f := agreed(diag.ActSoon, diag.Strong)(c, s)
	f.Facts["flat"] = c.AllWet(s.Cylinders, known.WetFlat)
	// What is bent or burnt is not set right by a clearance or by cleaning a seat.
	f.Facts["headOff"] = metPiston(c, s.Cylinders) || slices.ContainsFunc(s.Cylinders, func(n string) bool { return c.Seen(n, slices.Concat(known.BurntValve, known.BentValve)...) })
	f.Facts["wide"] = known.ClearanceWide.Holds(c, s)
	f.Facts["lash"] = c.LashCanBeSet() && !known.ClearanceRight.Holds(c, s)
	coldLeak(c, s, &f)
	return f
}

// coldLeak keeps a finding that rests on a cold leakage figure provisional.
func coldLeak(c *known.Case, s known.Subject, f *diag.Finding) {
	if provisional(c, s.Cylinders) {
		f.Confidence = diag.Fair
		f.Doubts = append(f.Doubts, diag.Phrase{Key: "leakage-cold"})
	}
}

func ringsAgree(c *known.Case, s known.Subject) diag.Finding {
	f := agreed(diag.ActSoon, diag.Strong)(c, s)
	n := s.Name()
	rise, oily, air := c.WetEvidence(n) == known.WetRises, c.Looks(n, "oil-wet"), pastRings.Holds(c, s)
	f.Facts["rise"], f.Facts["oily"], f.Facts["air"] = rise, oily, air
	if air && !(rise && oily) {
		coldLeak(c, s, &f)
	}
	return f
}

// overMinimum is a cylinder that no stated minimum calls low.
var overMinimum = known.OfAll("not under a stated minimum", func(c *known.Case, n string) bool { return !slices.Contains(c.UnderMinimum(), n) })

func guidesOrBreather(c *known.Case, s known.Subject) diag.Finding {
	f := agreed(diag.CheckAgain, diag.Fair)(c, s)
	f.Facts["read"] = c.Span(c.Spread(s.Cylinders))
	leaked := slices.ContainsFunc(s.Cylinders, func(n string) bool { _, read := c.Loss(n); return read })
	f.Facts["leaked"], f.Facts["within"] = leaked, c.LosesAt(s.Cylinders, known.AtCrankcase)
	return f
}
