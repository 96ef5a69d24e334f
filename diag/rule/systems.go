package rule

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

const byCrankcase = "common practice, no source; 1 inH2O and 6 inH2O of vacuum are judgement"

// pressesUnlimited is pressure in the crankcase of an engine whose manifold draws on it.
var pressesUnlimited = known.All(known.CrankcasePresses, known.OfEngine("petrol, without a blower", func(c *known.Case) bool {
	return !c.Spec.Diesel() && !c.Ported() && (c.Spec.Charging == "" || c.Spec.Charging == "natural")
}))

// blowsBy weighs what fills a crankcase. One whose ventilation is off or blocked for
// the test has nothing left to block; where every cylinder holds its pressure by a figure
// of the book, or its air, what is driven by the engine and drains into it comes before
// rings.
func blowsBy(c *known.Case, _ known.Subject) []Voice {
	rings, driven := []string{"rings", "wear"}, []string{"turbo-seal"}
	scavenged := airBox(c)
	switch {
	case scavenged && c.BrakesByAir():
		driven = []string{"blower-seals", "air-compressor"}
	case scavenged:
		driven = []string{"blower-seals"}
	case c.BrakesByAir():
		driven = []string{"air-compressor", "turbo-seal"}
	}
	list := slices.Concat(rings, driven)
	if scavenged || c.Spec.Charging == "turbo" || c.BrakesByAir() {
		if c.Sound() && c.PressureByFigure() || tightThroughout(c) {
			list = slices.Concat(driven, rings)
		}
	}
	if tightThroughout(c) { // what the cylinders hold did not come past them: the gauge or its limit, where nothing else drains there
		list = append(list, "reading-wrong")
	}
	switch {
	case ventOff(c):
		return common(list...)
	case known.VentHolds.HoldsIn(c): // the gas that there is was measured, and is little
		return append(speaks(Known, "breather"), speaks(rarer, append(driven, "reading-wrong")...)...)
	}
	return common(append([]string{"breather"}, list...)...)
}

// airBox is an engine whose blower fills an air box, which leaks into the crankcase.
func airBox(c *known.Case) bool { return c.HasValves() && !c.InletValves() }

// ventOff is a crankcase of which the ventilation was taken off, or blocked, for the test.
func ventOff(c *known.Case) bool { return !known.VentInPlace.HoldsIn(c) }

// overInside is how far the crankcase's worst reading is over its limit, and what is left
// to be looked at.
func overInside(c *known.Case, s known.Subject) diag.Finding {
	f := worstOver(known.Crankcase, diag.ActSoon)(c, s)
	f.Facts["blown"] = airBox(c)
	f.Facts["vented"], f.Facts["braked"], f.Facts["tight"], f.Facts["cleared"] = !ventOff(c), c.BrakesByAir(), tightThroughout(c), known.VentCleared.HoldsIn(c)
	if tightThroughout(c) { // it is not known to get in
		f.Headline = "crankcase-presses"
	}
	return f
}

// crankcaseRules are on the pressure in the crankcase with the engine running.
var crankcaseRules = systemRule(known.Crankcase, OfCrankcase, byCrankcase, []Rule{
	{
		Name: "crankcase-pressure-high", Title: "More gas in the crankcase than its limit allows",
		Why: "Gas that blows past the rings has to leave by the ventilation. The ventilation is cleared first, since it is cheap; then it is the rings, a turbocharger's seal, a vacuum pump or the compressor of air brakes, which all drain into it. " +
			"Where no cylinder is short of pressure these come before the rings.",
		When: known.CrankcaseHigh, Weigh: blowsBy, Say: overInside, Headline: "crankcase-high", SaysBetterThan: []string{"crankcase-pressure-where-vacuum-belongs"},
	},
	{
		Name: "crankcase-pressure-where-vacuum-belongs", Title: "Pressure in a crankcase whose ventilation is connected",
		Why:  "A connected ventilation draws a little vacuum. Pressure in its place is a ventilation that is blocked, or more blow-by than it takes.",
		When: pressesUnlimited, For: common("breather", "rings", "wear"), Say: crankcaseAt(known.CrankcaseWorst), Headline: "crankcase-presses",
	},
	{
		Name: "crankcase-state-unknown", Title: "Crankcase pressure without a word on the ventilation",
		Why:   "With the ventilation connected the figure shows what it copes with; with it blocked what the rings let past. Without that word it says nothing.",
		Class: Information, When: known.CrankcaseUnknown, Say: calm, Headline: "see-findings",
	},
	{
		Name: "crankcase-vacuum-strong", Title: "Strong vacuum in the crankcase",
		Why:  "A ventilation valve that sticks open, or a blocked supply of fresh air, draws the crankcase empty and seals inward.",
		When: known.CrankcaseSucks, For: append(speaks(Known, "vent-valve-open"), common("breather")...), Say: crankcaseAt(known.CrankcaseLeast), Headline: "crankcase-vacuum",
	},
	{
		Name: "crankcase-draws-air", Title: "Strong vacuum in the crankcase, and air that the engine was not meant to have",
		Why:   "A vent valve that stays open joins the crankcase to the intake: the crankcase is drawn empty and sucks air past every seal, which the meter has not seen. Both go back to the one valve.",
		Class: Together, Ties: []diag.About{diag.AboutMixture}, TiesSystems: []string{known.Vacuum}, When: known.All(known.CrankcaseSucks, known.Any(known.TrimAir, known.VacuumLow, known.Complaint("lean running")), known.Not(known.UnderFloor)),
		For: speaks(Heard+Known, "vent-valve-open"), Against: denies(Known, "crankcase-is-drawn", "air-leak", "manifold-gasket", "injector-seals"), Say: func(c *known.Case, s known.Subject) diag.Finding {
			f := crankcaseAt(known.CrankcaseLeast)(c, s)
			f.Urgency = diag.ActSoon // the shaft seals are sucked in
			return f
		}, Headline: "crankcase-draws-air", SaysBetterThan: []string{"crankcase-vacuum-strong", "air-leak-agrees", "trim-lean-at-idle-only", "vacuum-low-and-steady", "vacuum-low-sealing-sound"},
	},
})

// backPressureRules are on the exhaust. Published limits contradict each other,
// so that without one of the job's only what none of them lets pass is told.
var backPressureRules = systemRule(known.BackPressure, OfExhaust, "limits: the job's own", []Rule{
	{
		Name: "exhaust-blocked", Title: "Back-pressure over its limit",
		Why:  "Burnt gas that cannot leave makes room for less fresh gas. A catalyst that has broken up and a crushed or collapsed pipe do it.",
		When: known.BackPressureHigh, Weigh: backsUp(Heard), Say: func(c *known.Case, s known.Subject) diag.Finding {
			return filtered(c, worstOver(known.BackPressure, diag.ActSoon)(c, s))
		}, Headline: "exhaust-blocked",
	},
	{
		Name: "back-pressure-over-rules", Title: "Back-pressure over all rules in circulation",
		Why:    "No limit was given, and the rules that go about contradict each other; this is more than the widest of them lets pass.",
		Source: "common practice, no source: 3 psi up to 2500 rpm; on a diesel TM 5-3805-260-24: 34 inH2O", When: known.BackPressureOverRules, Weigh: backsUp(Known),
		Say: func(c *known.Case, _ known.Subject) diag.Finding {
			f := measuredFinding(c.BackPressureFar(), true, diag.CheckAgain)
			f.Confidence, f.Doubts = diag.Weak, []diag.Phrase{{Key: "no-maker-figure"}}
			return filtered(c, f)
		}, Headline: "exhaust-blocked",
	},
	{
		Name: "back-pressure-right", Title: "Back-pressure within its limit",
		Why:   "The exhaust lets the gas go. Rules on how much is right contradict each other; what the tightest of them lets pass at speed is right by all.",
		Class: Information, When: known.BackPressureRight, Against: denies(Heard, "exhaust-is-free", "restricted-exhaust"), Say: calm, Headline: "see-findings",
	},
})

// timingRules are on ignition timing, dwell and cam timing, against the job's
// limits alone.
var timingRules = systemRule(known.Timing, OfTiming, "limits: the job's own; meanings: common practice, no source", []Rule{
	{
		Name: "timing-late", Title: "Ignition timing late",
		Why:  "A spark that comes late burns in the exhaust: little power, much heat, low vacuum.",
		When: known.All(sparkLit, known.LateBase), Weigh: weighBase, Say: timed("base", diag.ActSoon), Headline: "timing-late",
	},
	{
		Name: "timing-early", Title: "Ignition timing early",
		Why:  "A spark that comes early burns against the rising piston: it knocks, and takes pistons and plugs with it.",
		When: known.All(sparkLit, known.EarlyBase), For: speaks(Heard, "early-ignition"), Say: timed("base", diag.ActSoon), Headline: "timing-early",
	},
	{
		Name: "advance-missing", Title: "The ignition does not advance as it should",
		Why:  "Weights that seize, springs that are wrong or a vacuum unit that leaks leave the spark behind as the speed rises.",
		When: known.All(sparkLit, known.NoAdvance), For: speaks(Heard, "advance"), Say: timed("advance", diag.ActSoon), Headline: "timing-late",
	},
	{
		Name: "advance-too-far", Title: "The ignition advances more than it should",
		Why: "A spark that is right at idle and comes early at speed is of weights whose springs are weak or broken; one that is early at speed by what it is early at idle was set so. " +
			"It burns against the rising piston and harms pistons under load, also where nobody hears it knock.",
		When: known.All(sparkLit, known.MuchAdvance), Weigh: func(c *known.Case, s known.Subject) []Voice {
			if known.BaseRight.Holds(c, s) { // what is set is right, and what moves it is not
				return append(speaks(Heard, "advance"), speaks(Hint, "early-ignition")...)
			}
			return append(speaks(Heard, "early-ignition"), speaks(Known, "advance")...)
		}, Say: func(c *known.Case, s known.Subject) diag.Finding {
			f := timed("advance", diag.ActSoon)(c, s)
			f.Facts["set"] = known.BaseRight.Holds(c, s)
			return f
		}, Headline: "timing-early",
	},
	{
		Name: "dwell-off", Title: "Dwell or the gap of the points is off",
		Why:  "The points are set before the timing: every change of their gap moves the spark.",
		When: known.All(sparkLit, known.DwellOff), Weigh: func(c *known.Case, s known.Subject) []Voice {
			return append(speaks(Heard, "points"), where(known.PointsMoveSpark.Holds(c, s), speaks(Known, "points"))...)
		}, Say: timed("dwell", diag.ActSoon), Headline: "dwell-off",
	},
	{
		Name: "cam-late", Title: "Cam timing off its mark, or a slack chain",
		Why: "A chain that has stretched or jumped opens and shuts every valve late: low even compression, low vacuum, little power. Nobody needs a book to see that a tooth is off; where valves can meet pistons " +
			"the engine is not run until it is put right, for the next tooth bends them.",
		When: known.CamLate, Weigh: weighCam, Say: camOff, Headline: "late-timing",
	},
})

// weighBase: where a soft key holds the flywheel, and the magneto with it, nothing else
// moves the spark by much.
func weighBase(c *known.Case, s known.Subject) []Voice {
	switch {
	case known.KeyMayBeSheared.Holds(c, s):
		return append(speaks(Heard, "flywheel-key"), speaks(DryUp, "late-ignition")...)
	case c.FlywheelMagneto():
		return append(speaks(Heard, "flywheel-key"), speaks(Known, "late-ignition")...)
	}
	return speaks(Heard, "late-ignition")
}

// camOff is the timing of the valves with what the next tooth may do.
func camOff(c *known.Case, s known.Subject) diag.Finding {
	f := timed("cam", diag.ActSoon)(c, s)
	failing := c.Interferes() && c.Coded(stepCodes...) && chainNoisy(c) // by all signs its drive is going, and what it may come to bends the valves
	if (known.CamMayMeet.Holds(c, s) || failing) && f.Urgency == diag.ActSoon {
		f.Urgency = diag.DoNotRun
	}
	return f
}

// weighCam: a chain that is slacker than it may be, or is heard, has worn; a camshaft off its mark
// has slipped, by a tooth or by its adjuster.
func weighCam(c *known.Case, _ known.Subject) []Voice {
	slack := known.ChainSlack(c.Measured(known.Timing))
	cam, _ := known.PastOrFar(c.Measured(known.Timing).Reading("cam"))
	unread := cam && c.Measured(known.Timing).Reading("chain-slack") == nil // what let it come late is not known
	chain := where(c.Spec.TimingDrive == "chain", speaks(Known, "worn-chain"))
	heard := where(unread && chainNoisy(c) && c.Spec.TimingDrive == "chain", speaks(2*Heard, "worn-chain")) // which says why it stands late
	return slices.Concat(heard, where(cam, append(speaks(Heard, "cam-timing"), denies(Heard, "timing-explains", "wear", "rings")...)), where(unread, append(chain, speaks(Hint, "worn-chain", "timing-drive", "cam-phaser")...)), where(slack, append(speaks(Heard+Known, "worn-chain"), speaks(Known, "cam-timing")...)))
}

// startingRules are on the starter's current as a whole; that of cylinders is
// below.
var startingRules = systemRule(known.Starting, OfStarting, "limits: the job's own; meanings: common practice, no source", []Rule{
	{
		Name: "starter-turns-slowly", Title: "The battery or the cranking speed under its limit while the starter turns",
		Why:  "A battery that falls as the starter turns is flat or worn out, or what draws on it drags. What was read while the engine turned so slowly is low by it.",
		When: known.TurnsUnder, Weigh: func(c *known.Case, s known.Subject) []Voice {
			switch {
			case known.SlowByResistance.Holds(c, s):
				return []Voice{{Cause: "starter-cables", Weight: Heard}, {Cause: "starter", Weight: DryUp}}
			case known.SlowByDrag.Holds(c, s):
				return slices.Concat(speaks(Known, "starter", "tight-engine"), where(known.BatteryUnder.Holds(c, s), speaks(Hint, "battery")), speaks(Hint, "coolant-or-fuel-in-bore"))
			}
			falls := known.BatteryUnder.Holds(c, s)
			return slices.Concat(speaks(Known, "weak-cranking"), where(falls, speaks(Known, "battery")), where(!falls, speaks(Hint, "battery")), common("starter-cables", "starter"))
		}, Say: func(c *known.Case, _ known.Subject) diag.Finding {
			m, clear := known.TurnsUnderLimit(c.Measured(known.Starting))
			f := measuredFinding(m, clear, diag.ActSoon)
			f.Facts["volts"] = m.Name != "cranking"
			f.Facts["read"] = c.Has(known.NeedsCompression) || c.Has(known.NeedsRotors)
			f.Facts["resists"], f.Facts["drags"], f.Facts["much"] = known.SlowByResistance.HoldsIn(c), known.SlowByDrag.HoldsIn(c), known.DrawsMuch.HoldsIn(c)
			if known.SlowByDrag.HoldsIn(c) {
				f.Headline = "starter-drags"
			}
			return f
		}, Headline: "cranked-too-slowly", SaysBetterThan: []string{"test-outside-limit"},
	},
	{
		Name: "starter-draws-much", Title: "The starter draws more than its limit",
		Why:  "A high current at a low speed is drag: a tight engine, the wrong oil, or a starter that rubs.",
		When: known.DrawsMuch, For: append(common("starter", "tight-engine"), speaks(Hint, "coolant-or-fuel-in-bore")...), Say: readingOf(known.Starting, "draw", diag.ActSoon), Headline: "starter-draws", SaysBetterThan: []string{"test-outside-limit"},
	},
	{
		Name: "starter-draws-little", Title: "The starter draws less than its limit",
		Why:  "A low current at a low speed is resistance: battery, cables, earth or contacts. At a good speed it is an engine that does not compress.",
		When: known.DrawsLittle, Weigh: func(c *known.Case, _ known.Subject) []Voice {
			if c.TurnsUnder() { // it compresses, or it would be quick
				return common("starter-cables", "starter", "battery")
			}
			return common("low-compression", "starter-cables")
		}, Say: func(c *known.Case, s known.Subject) diag.Finding {
			f := readingOf(known.Starting, "draw", diag.CheckAgain)(c, s)
			f.Facts["slow"] = c.TurnsUnder()
			return f
		}, Headline: "starter-draws", SaysBetterThan: []string{"test-outside-limit"},
	},
})

// peakRules compare the cylinders by the starter's current. Wear that is alike in
// all is invisible to it.
var peakRules = []Rule{
	{
		Name: "relative-low", Title: "A cylinder that asks less of the starter than the others",
		Why:    "The starter works against each compression in turn. A peak that is lower than the others is a cylinder that holds less: the one to put a gauge on. That all are alike says nothing of how good they are.",
		Source: "common practice, no source: 20 % under the median", Class: Single, About: diag.AboutCylinders, Needs: needsTest(known.Starting),
		Of: eachCylinder, When: known.PeakLow, Kind: OfStarting, Weigh: holdsLess, Say: ofEach(peak), Headline: "relative-low",
	},
	{
		Name: "relative-high", Title: "A cylinder that asks more of the starter than the others",
		Why:    "A peak well over the others is a cylinder with something in it: oil, fuel or coolant, which does not give. Cranking stops until that is known.",
		Source: "common practice, no source: 20 % over the median", Class: Single, About: diag.AboutCylinders, Needs: needsTest(known.Starting),
		Of: eachCylinder, When: known.PeakHigh, Kind: OfStarting, Weigh: holdsMore, Say: ofEach(peakHigh), Headline: "relative-high", Variants: []string{"dry"},
	},
}

// holdsLess are the voices of a cylinder that holds less by the starter's current.
// Where its compression was read and is low, that says no more of why than the
// reading does.
func holdsLess(c *known.Case, s known.Subject) []Voice {
	if known.Low.Holds(c, s) {
		return nil
	}
	return []Voice{{Cause: "exhaust-valve", Weight: Hint}, {Cause: "rings", Weight: Hint - rarer}, {Cause: "inlet-valve", Weight: Hint - rarer}, {Cause: "valve-motion", Weight: Hint - 2*rarer}} // one that fills badly seals
}

func calm(*known.Case, known.Subject) diag.Finding {
	return diag.Finding{Urgency: diag.NoAction, Confidence: diag.Fair, Facts: diag.Facts{}}
}

// worstOver is the reading that is clearest over its limit.
func worstOver(section string, u diag.Urgency) func(*known.Case, known.Subject) diag.Finding {
	return func(c *known.Case, _ known.Subject) diag.Finding {
		m, clear := known.WorstOf(c.Measured(section), known.Over)
		return measuredFinding(m, clear, u)
	}
}

// readingOf is one reading of a test.
func readingOf(section, name string, u diag.Urgency) func(*known.Case, known.Subject) diag.Finding {
	return func(c *known.Case, _ known.Subject) diag.Finding {
		m := c.Measured(section).Reading(name)
		_, clear := known.Past(m)
		return measuredFinding(m, clear, u)
	}
}

// timed is the reading of the timing that is clearest past its limit, the named
// one first.
func timed(name string, u diag.Urgency) func(*known.Case, known.Subject) diag.Finding {
	also := map[string]string{"dwell": "points-gap", "cam": "chain-slack"}
	return func(c *known.Case, _ known.Subject) diag.Finding {
		m, clear := known.WorstOf(c.Measured(known.Timing), func(m *diag.MeasuredReading) (bool, bool) {
			if m.Name != name && m.Name != also[name] {
				return false, false
			}
			return known.PastOrFar(m)
		})
		f := measuredFinding(m, clear, u)
		f.Facts["reading"] = known.Timing + " " + m.Name
		return f
	}
}

func crankcaseAt(of func(*diag.MeasuredResult) (*diag.MeasuredReading, float64)) func(*known.Case, known.Subject) diag.Finding {
	return func(c *known.Case, _ known.Subject) diag.Finding {
		m, _ := of(c.Measured(known.Crankcase))
		return diag.Finding{Urgency: diag.CheckAgain, Confidence: diag.Fair, Facts: measuredFacts(m)}
	}
}

func peak(c *known.Case, s known.Subject) diag.Finding {
	p, _ := c.Peak(s.Name())
	return diag.Finding{Urgency: diag.CheckAgain, Confidence: diag.Weak, Facts: diag.Facts{"percent": known.Percent(p, 0), "few": c.Few()}}
}

func peakHigh(c *known.Case, s known.Subject) diag.Finding {
	f := peak(c, s)
	f.Urgency = diag.DoNotRun
	if turned := c.NoLiquidCame(s.Name()); turned || readsHighAndDry(c, s) {
		f.Variant, f.Urgency, f.Facts["turned"] = "dry", diag.CheckAgain, turned
	}
	return f
}

// holdsMore are the voices of a cylinder that asks more of the starter. Where its
// compression was read and is high, that says no more of why than the reading does.
func holdsMore(c *known.Case, s known.Subject) []Voice {
	if readsHighAndDry(c, s) {
		return speaks(rarer, "carbon", "coolant-or-fuel-in-bore")
	}
	return []Voice{{Cause: "coolant-or-fuel-in-bore", Weight: Known}, {Cause: "carbon", Weight: Hint}}
}

// readsHighAndDry are cylinders whose compression is high, with nothing that speaks of
// liquid: no wet plug, no coolant that is missed.
func readsHighAndDry(c *known.Case, s known.Subject) bool {
	return !slices.ContainsFunc(s.Cylinders, func(n string) bool { return !c.StandsHigh(n) || c.LiquidIn(n) != "" })
}
