package rule

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// leakLevelRules weigh how much a cylinder loses, beside its compression.
var leakLevelRules = []Rule{
	{
		Name: "low-everywhere-and-leaks", Title: "Low in every cylinder, and all lose much air past their rings",
		Why: "Two tests that know nothing of each other say the same: every cylinder makes too little pressure, and every one that was tried loses its air past the piston. " +
			"Throttle, gauge and valve timing would have left them tight. What is left is wear of rings and bores, or bores that ran or were washed dry.",
		Source: "common practice, no source", Class: Together, About: diag.AboutEngine, TiesSystems: []string{known.Crankcase}, Needs: []known.Need{known.NeedsCompression, known.NeedsLeakage},
		Of: theEngine, When: known.All(known.UnderFloor, allPastRings),
		Kind: OfLeakage, Weigh: func(*known.Case, known.Subject) []Voice {
			return slices.Concat([]Voice{{Cause: "wear", Weight: Heard}, {Cause: "wear", Weight: Known, Kind: OfCompression}}, speaks(DryUp, "stuck-rings", "dry-bores", "washed-bore"), notTheTest())
		},
		Say: lowAndLeaks, Headline: "low-and-leaks-everywhere",
		SaysBetterThan: []string{"all-low", "below-minimum", "leaks-to-crankcase", "leakage-high"},
	},
	{
		Name: "leaks-everywhere-and-agrees", Title: "All lose much air past their rings, and another test of the rings says the same",
		Why: "A leakage tester may read high on every cylinder, and so does a cold engine; neither fills the crankcase, nor lifts the cylinders with oil, nor burns it. Where a second test of the rings " +
			"agrees it is wear of rings and bores, though no figure calls the pressure low.",
		Source: "common practice, no source", Class: Together, About: diag.AboutEngine, Ties: []diag.About{diag.AboutCylinders},
		TiesSystems: []string{known.Crankcase}, Needs: []known.Need{known.NeedsCompression, known.NeedsLeakage},
		Of: oneSet("the cylinders that were tried for leakage", leakTried),
		When: known.All(known.Not(known.UnderFloor), noneLow, allPastRings, known.Not(known.StoodLong),
			known.OfEngine("gas in the crankcase over its limit, every cylinder up with oil and its dose right or its own burnt, or its own burnt and less pressure the more is lost", (*known.Case).RingsAgree)),
		Kind: OfLeakage, Weigh: wearByTests, Say: leaksAndAgrees, Headline: "worn-by-tests",
		SaysBetterThan: []string{"leaks-to-crankcase", "leakage-high", "sound-but-leaks", "leaks-but-serviceable", "crankcase-pressure-high",
			"crankcase-pressure-where-vacuum-belongs", "wet-rise-everywhere", "nearly-even", "even-no-minimum", "oil-wet"},
	},
	{
		Name: "low-everywhere-and-blows-by", Title: "Low in every cylinder, better with oil or burning it, and too much gas in the crankcase",
		Why: "Every cylinder makes too little pressure, oil brings it back for a few strokes or, in a diesel into which none goes, the engine burns its own, and more gas passes into the crankcase than its limit allows. " +
			"Throttle, gauge and valve timing do none of the last two. What is left is wear of rings and bores, or bores that ran or were washed dry.",
		Source: "common practice, no source", Class: Together, About: diag.AboutEngine, TiesSystems: []string{known.Crankcase}, Needs: []known.Need{known.NeedsCompression, known.NeedsTest(known.Crankcase)},
		Of: theEngine, When: known.All(known.UnderFloor, known.Any(allRise, dieselBurnsOil), known.CrankcaseHigh),
		Kind: OfCrankcase, Weigh: func(*known.Case, known.Subject) []Voice {
			return slices.Concat([]Voice{{Cause: "wear", Weight: Heard}, {Cause: "wear", Weight: Known, Kind: OfCompression}}, speaks(DryUp, "stuck-rings"), notTheTest())
		},
		Say: lowAndBlowsBy, Headline: "low-and-leaks-everywhere",
		SaysBetterThan: []string{"all-low", "below-minimum", "wet-rise-everywhere", "crankcase-pressure-high"},
	},
	{
		Name: "low-everywhere-and-burns-oil", Title: "Low in every cylinder, better with oil, and it burns oil",
		Why: "Every cylinder makes too little pressure, oil brings it back for a few strokes, and the engine uses oil or smokes blue when it works. " +
			"Throttle, gauge and valve timing do none of the last two. What is left is wear of rings and bores.",
		Source: "common practice, no source", Class: Together, About: diag.AboutEngine, Needs: []known.Need{known.NeedsCompression, known.NeedsWet},
		Of: theEngine, When: known.All(known.Any(known.OfEngine("it uses oil", (*known.Case).UsesOil), smoke("blue smoke under load or always", "blue", "load", "always")), known.UnderFloor, allRise,
			known.Not(known.StoodLong), known.OfEngine("not flooded", func(c *known.Case) bool { return !c.Flooded() && !c.SaidFlooded() })),
		Kind: OfRunning, Weigh: func(c *known.Case, _ known.Subject) []Voice {
			return slices.Concat([]Voice{{Cause: "wear", Weight: Known, Kind: OfCompression}}, where(c.Smokes("blue", "load", "always"), speaks(Known, "wear")), as(OfHistory, speaks(DryUp, "wear", "rings")), as(OfRunning, denies(Known, "burns-oil", "gauge-reads-low", "cam-timing", "weak-cranking")))
		},
		Say: lowAndBurnsOil, Headline: "worn-and-burns-oil",
		SaysBetterThan: []string{"all-low", "below-minimum", "wet-rise-everywhere"},
	},
	{
		Name: "low-but-tight", Title: "Low compression in a cylinder that loses hardly any air",
		Why: "With the valves closed the cylinder holds its air, so rings, valves and gasket seal. What is left is that too little air gets in, or that it is let out again: " +
			"a worn cam lobe, a rocker or lifter that does not move its valve in full, valve timing, a blocked port, a bent rod whose piston comes up less high, or the compression test itself.",
		Source: "common practice, no source", Class: Together, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsCompression, known.NeedsLeakage},
		Of: eachCylinder, When: known.All(short, known.Tight, known.Not(placed), known.Any(known.Single, known.NoneDead)),
		Kind: OfLeakage, Weigh: tightCauses, Say: lowButTight, Keeps: true, Headline: "low-but-tight", Variants: []string{twoStrokeVariant},
		SaysBetterThan: []string{"one-low", "one-out-of-tight-pack", "scattered-low"},
	},
	{
		Name: "low-by-the-gauge-alone", Title: "A cylinder that nothing but the compression gauge calls low",
		Why: "It holds its air, the engine runs without a complaint, and the gauge's needle fell back, or another test finds that every cylinder does its work. A hose whose valve leaks, or an adapter that was not tight, reads like that; " +
			"a lobe that is worn so far is felt. It is read again before anything is looked for inside.",
		Source: "common practice, no source", Class: Together, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsCompression, known.NeedsLeakage},
		Of: eachCylinder, When: known.All(short, known.Tight, known.Not(placed), lowByGaugeAlone),
		Kind: OfLeakage, For: append(speaks(Heard, "adapter-leak"), speaks(DryUp, "valve-motion")...), Say: byGaugeAlone, Headline: "low-but-tight",
		SaysBetterThan: []string{"low-but-tight", "one-low", "one-out-of-tight-pack", "scattered-low"},
	},
	{
		Name: "loss-explains-little", Title: "A cylinder that loses too little of its test air for the pressure that it lacks",
		Why: "What takes all the pressure of a stroke past the piston, or at a place that stands open at rest, lets nearly all the test air out. A leak of less than half is felt in the reading and does not end it, and a small one is hardly felt. " +
			"What is left is how the valves move: one that hangs as it turns, a rocker or lifter that let go, a worn lobe, a camshaft that stands still; or the compression reading itself.",
		Source: "reckoned from the flow through a tester's orifice of 1 mm; the reading: common practice, no source", Class: Together, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsCompression, known.NeedsLeakage},
		Of: eachCylinder, When: known.All(known.LossTooSmall, known.Not(known.Tight), known.Any(known.Single, known.NoneDead)),
		Kind: OfLeakage, Weigh: stillCauses, Against: denies(Heard, "loss-too-small", "rings", "scored-bore", "piston", "holed-piston", "broken-ring-land", "head-gasket", "warped-or-cracked-head"),
		Say: lowButTight, Keeps: true, Headline: "loss-explains-little",
		SaysBetterThan: []string{"one-without-pressure", "one-low", "one-out-of-tight-pack", "scattered-low"},
	},
	{
		Name: "leaks-but-serviceable", Title: "Good compression, some loss past the rings",
		Why:    "Rings with gaps lose some air at rest and still make good pressure at speed. Without oil use this is watched, and is not by itself a reason for a rebuild.",
		Source: "common practice, no source", Class: Together, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsCompression, known.NeedsLeakage},
		Of: eachCylinder, When: serviceable,
		Kind: OfLeakage, For: common("rings"), Weigh: func(c *known.Case, _ known.Subject) []Voice {
			return where(known.LosesAlike.HoldsIn(c), speaks(DryUp, "tester-scale"))
		}, Say: serviceableLoss, Headline: "leaks-but-serviceable", Variants: []string{"over-limit"},
	},
	{
		Name: "sound-but-leaks", Title: "Good compression, and yet a high leakage past the rings or at no place noted",
		Why: "The two tests look at the same seal in different ways: cranking is quick and the oil on the rings helps; the leakage test stands still for as long as one " +
			"likes. Ring gaps in line, a cold engine or the tester's own scale give a high figure on a sound engine, so the test is repeated before anything is dismantled. " +
			"The scale does so to all cylinders alike; where others hold their air on it, and nobody noted where this one's goes, that is asked first.",
		Source: "common practice, no source", Class: Together, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsCompression, known.NeedsLeakage},
		Of: eachCylinder, When: soundLeak,
		Kind: OfLeakage, Weigh: soundLeakCauses, Against: denies(Hint, "even-compression", "rings"),
		Say: soundLeakFound, Headline: "sound-but-leaks", Variants: []string{"unplaced"},
	},
	{
		Name: "leakage-high", Title: "A cylinder loses too much air, and the place was not written down",
		Why: "How much air a cylinder loses is half of the test; where it goes is the other half. A percentage without a place does not tell a valve " +
			"from a ring, and it compares only with figures of the same tester.",
		Source: "FAA AC 43.13-1B, para 8-14: a loss of more than 25 % makes a cylinder suspect; the bands here are common practice, no source",
		Class:  Single, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsLeakage},
		Of: eachCylinder, When: known.All(tooHigh, known.Not(placed), known.Not(soundLeak), known.Not(rotorEngine)),
		Kind: OfLeakage, Weigh: placeUnknown, Say: placelessLoss, Headline: "leakage-high",
	},
	{
		Name: "rotor-leaks", Title: "A rotor's chamber loses too much air",
		Why: "A rotary has no valves. What keeps its chambers apart are the apex seals at the tips, the side seals along the faces and the corner seals between them; air at a port has passed one of them. " +
			"A percentage says less than the pressures of the three faces, since no figure for it is commonly published.",
		Source: "common practice, no source", Class: Single, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsLeakage},
		Of: eachCylinder, When: known.All(rotorEngine, tooHigh),
		Kind: OfLeakage, For: append(speaks(Known, "side-seal"), common("apex-seal", "corner-seal", "rotor-wear")...), Say: highLoss, Headline: "rotor-leaks",
	},
	{
		Name: "combustion-gas-in-coolant", Title: "Combustion gas in the coolant",
		Why:    "Combustion gas reaches the coolant only through the gasket, the head or a bore; in a rotary past the coolant seals of a housing, or through a crack in it. Even compression does not clear an engine of that: the leak may open only when it is hot.",
		Source: "common practice, no source", Class: Group, About: diag.AboutCylinders,
		Of:   withCoolant,
		When: known.All(known.GasFound, known.Not(known.AirCooled)),
		Kind: OfCoolant, For: pathToCoolant(Heard, Known),
		Say: func(c *known.Case, s known.Subject) diag.Finding {
			shown := len(s.Cylinders) > 0 && !slices.ContainsFunc(s.Cylinders, func(n string) bool { return !showsCoolant(c, n) })
			return diag.Finding{Urgency: withGas(c), Facts: diag.Facts{"rotary": c.Rotary(), "goes": c.CoolantGoes(), "hot": !c.Complains("coolant loss") && c.CoolantHot(), "shown": shown}}
		},
		Headline: "coolant-signs",
	},
	{
		Name: "leakage-good", Title: "Every cylinder read holds its air well",
		Why: "A small loss that is alike in every cylinder is what ring gaps alone give. It says that rings, valves and gasket seal with the engine at rest; " +
			"it says nothing of how the valves move.",
		Source: "common practice, no source", Class: Sound, About: diag.AboutEngine, Needs: []known.Need{known.NeedsLeakage},
		Of: theEngine, When: known.All(
			known.OfEngine("every loss within its limit, or 20 % at most where none is given", littleLost),
			known.OfEngine("no place of air that is worth saying, but a little past the rings", func(c *known.Case) bool { return !slices.ContainsFunc(c.Every(), worthSaying(c)) }),
			known.OfEngine("no cylinder short of pressure", func(c *known.Case) bool { return len(c.Short()) == 0 }), known.Not(known.UnderFloor),
			known.OfEngine("the test not in doubt, nor a loss left open", func(c *known.Case) bool {
				return !c.Noticed("leakage-reads-nothing") && len(c.Those(c.LossLeftOpen)) == 0
			})),
		Kind: OfLeakage, Say: leakageGood, Headline: "leakage-good", Variants: []string{"serviceable", "within", "close"},
	},
}

var (
	// short is a cylinder that lacks pressure; the only one of an engine has no
	// grade and is short under its minimum.
	short = known.OfAll("graded low, or an engine's only cylinder under its minimum", func(c *known.Case, n string) bool {
		r := c.Cylinder(n)
		return r != nil && c.ShortOfPressure(r)
	})
	rotorEngine = known.OfEngine("a rotary", func(c *known.Case) bool { return c.Rotary() })
	placed      = known.OfAll("air at a place that is worth saying", func(c *known.Case, n string) bool { return c.PlaceNoted(n) })
	// tooHigh is over a limit, over 20 % without one, or apart from the others.
	tooHigh = known.OfAll("a loss over the limit given, or over 20 % (aircraft: 25 %) where none is given, or more than 10 points over the median of three or more",
		func(c *known.Case, n string) bool { return c.HighLoss(n) })
	// soundLeak is a high loss that the compression says nothing of.
	soundLeak = known.All(known.Sealing, known.Not(known.UnderFloor), known.OfAll("a high loss at the crankcase or at no named place", pastRingsHigh), known.Not(serviceable)).Called("a leak of which the compression shows nothing")
	// serviceable is a loss past the rings that good pressure makes bearable.
	serviceable = known.All(known.Sealing, known.Not(known.UnderFloor),
		known.OfAll("20 to 30 % lost to the crankcase alone, not within a limit, or little more where all lose as much", func(c *known.Case, n string) bool {
			l := c.Leak(n)
			return l != nil && *l.Loss >= known.WornLoss && (*l.Loss <= known.ActLoss || alikeLoss(c, *l.Loss)) && l.Verdict != diag.Within && !c.LossIsBound(n) && slices.Equal(l.At, []string{known.AtCrankcase})
		}),
		known.Not(known.Plug("oil-wet")), known.OfEngine("no oil use told of", func(c *known.Case) bool { return !c.UsesOil() && !c.Smokes("blue") })).Called("a loss that good pressure makes bearable")
	// commonLoss is what a used engine commonly loses past its rings.
	commonLoss = known.All(known.AirAt(known.AtCrankcase), known.OfAll("its loss measured and not too high, or how much is not told and its pressure even with the others", func(c *known.Case, n string) bool {
		l := c.Leak(n)
		if l == nil || c.LossIsBound(n) { // air at the oil filler is heard of any engine
			return slices.Contains([]diag.Grade{diag.Even, diag.High}, c.Grade(n)) && (l == nil || !c.LeakTooHigh(l))
		}
		return !c.LeakTooHigh(l)
	}), known.Not(short), known.Not(serviceable)).Called("a loss common on a used engine")
	// allPastRings is an engine that loses too much in every cylinder tried.
	allPastRings = known.OfEngine("every loss that was read, two at least, too high and at the crankcase or at no named place", (*known.Case).AllPastRings)
)

func pastRingsHigh(c *known.Case, n string) bool {
	l := c.Leak(n)
	return l != nil && c.RingLoss(l)
}

// showsCoolant reports a cylinder with a sign of coolant of its own.
func showsCoolant(c *known.Case, n string) bool {
	return c.Looks(n, "coolant") || c.LeaksAt(n, known.AtCoolant) || c.Seen(n, known.WashedCrown...) || c.CoolantEnters(n)
}

// alikeSpan is by how many points losses may differ that are one matter of all
// cylinders: judgement, no source.
const alikeSpan = 10

// alikeLoss reports a loss over what is acted on in an engine all of whose cylinders
// lose much, and the least of them no more than that: a line between them would
// make two of what is one.
func alikeLoss(c *known.Case, loss float64) bool {
	least := loss
	for _, l := range c.Leaks() {
		least = min(least, *l.Loss)
	}
	return c.Noticed("all-leak-to-crankcase") && least <= known.ActLoss && loss <= least+alikeSpan
}

// withGas is how urgent combustion gas in the coolant is: an engine that only shows
// it can be driven home with an eye on the level, one that loses or boils its coolant
// is not started again.
func withGas(c *known.Case) diag.Urgency {
	if c.CoolantGoes() {
		return diag.DoNotRun
	}
	return diag.ActSoon
}

// leaksToCoolant is as urgent as gas in the coolant is.
func leaksToCoolant(c *known.Case, s known.Subject) diag.Finding {
	f := leakAt(true, false)(c, s)
	if c.CoolantGoes() {
		f.Urgency = diag.DoNotRun
	}
	return f
}

// lowAndBurnsOil is as urgent as what it explains, and soon where that is clear.
func lowAndBurnsOil(c *known.Case, s known.Subject) diag.Finding {
	f := allLow(c, s)
	if c.AllLow().Clear && f.Urgency == diag.CheckAgain && !c.ThrottleShut() {
		f.Urgency = diag.ActSoon
	}
	blue := c.Smokes("blue", "load", "always")
	sure := diag.Fair
	if blue && c.OilLiftsFar(nil) { // an eye and a gauge that say the same
		sure = diag.Strong
	}
	return diag.Finding{Urgency: f.Urgency, Confidence: sure, Facts: diag.Facts{"read": c.Span(c.Spread(c.Read())), "smoke": blue, "use": c.UsesOil(), "of": len(c.Every())}}
}

func lowAndBlowsBy(c *known.Case, s known.Subject) diag.Finding {
	f := worstOver(known.Crankcase, diag.ActSoon)(c, known.Subject{System: known.Crankcase})
	f.Facts["values"], f.Facts["burns"] = c.Span(c.Cranking().Lowest, c.Cranking().Highest), c.Spec.Diesel()
	f.Confidence = diag.Strong
	return f
}

// dieselBurnsOil is a diesel, which oil is never put into to try, that uses its own or
// smokes blue under load.
var dieselBurnsOil = known.All(known.Diesel, known.Any(known.OfEngine("it uses oil", (*known.Case).UsesOil), smoke("blue smoke under load or always", "blue", "load", "always")))

func littleLost(c *known.Case) bool {
	leaks := c.Leaks()
	return len(leaks) > 0 && !slices.ContainsFunc(leaks, func(l *diag.LeakResult) bool { return c.LeakTooHigh(l) || c.LossIsBound(l.Name) })
}

// tightCauses are what leaves a cylinder low that seals at rest. Oil left in it
// makes that less sure.
func tightCauses(c *known.Case, s known.Subject) []Voice {
	if lowByGaugeAlone.Holds(c, s) { // whose own rule speaks
		return nil
	}
	weight := Heard
	if oiled.Holds(c, s) {
		weight = DryUp
	}
	if c.Ported() {
		return slices.Concat(speaks(weight*4/5, "adapter-leak"), speaks(weight*3/5, "restricted-inlet", "restricted-exhaust"),
			speaks(weight*2/5, "reed-valve", "crankcase-seal"), where(known.RodMayBeBent.Holds(c, s), speaks(weight*2/5, "bent-rod")))
	}
	whole := c.LowBank()
	bank := whole >= 0 && len(s.Cylinders) > 1 && !slices.ContainsFunc(s.Cylinders, func(n string) bool { return c.Engine.BankOf(n) != whole })
	if bank && !c.OneCamshaft() {
		return append(speaks(weight, "cam-timing"), speaks(weight*2/5, "valve-motion", "restricted-inlet")...)
	}
	return slices.Concat(speaks(weight, "valve-motion"), speaks(weight*3/5, "collapsed-lifter"), speaks(weight*2/5, "cam-timing", "adapter-leak"), where(known.RodMayBeBent.Holds(c, s), speaks(weight*2/5, "bent-rod")))
}

// stillCauses are what leaves a cylinder without pressure that leaks too little for that.
func stillCauses(c *known.Case, s known.Subject) []Voice {
	return append(tightCauses(c, s), speaks(Hint, "stuck-valve")...)
}

func lowButTight(c *known.Case, s known.Subject) diag.Finding {
	f := diag.Finding{Urgency: diag.ActSoon, Facts: c.LeakFacts(s.Cylinders)}
	if c.Several() { // that it holds its air makes it no more urgent than it was
		f.Urgency = urgencyOf(c, s.Cylinders)
	}
	f.Facts["dead"] = !slices.ContainsFunc(s.Cylinders, func(n string) bool { return c.Grade(n) != diag.NoPressure })
	f.Facts["percent"], f.Facts["sound"] = partOfBest(c, s.Cylinders), c.LikeSound(s.Cylinders)
	f.Facts["rod"] = known.RodMayBeBent.Holds(c, s)
	if c.Ported() {
		f.Variant = twoStrokeVariant
	}
	judgeLeak(c, s.Cylinders, &f)
	return f
}

// partOfBest is what cylinders read in percent of the reference, from and to;
// "" where an engine has no others.
func partOfBest(c *known.Case, names []string) string {
	if !c.Several() {
		return ""
	}
	var parts []float64
	for _, n := range names {
		parts = append(parts, c.PartOfReference(c.Cylinder(n)).Value)
	}
	return known.Percents(slices.Min(parts), slices.Max(parts))
}

func serviceableLoss(c *known.Case, s known.Subject) diag.Finding {
	f := lossFound(diag.CheckAgain)(c, s)
	if worst := c.WorstLeak(s.Cylinders); worst != nil && c.LeakTooHigh(worst) && c.Sums.Leakage.Limit != nil {
		f.Variant = "over-limit"
	}
	return f
}

// placeUnknown is what a loss without a place may be: a hint beside what other
// tests say.
func placeUnknown(c *known.Case, s known.Subject) []Voice {
	if c.Ported() {
		return common("rings", "head-gasket")
	}
	return speaks(Hint, "leak-place-unknown")
}

func highLoss(c *known.Case, s known.Subject) diag.Finding {
	return lossFound(leakUrgency(c, s.Cylinders, false))(c, s)
}

// placelessLoss is a high loss of which nobody knows where it goes; one that its limit
// allows is more than the others', and not too much.
func placelessLoss(c *known.Case, s known.Subject) diag.Finding {
	f := highLoss(c, s)
	if c.Sums.Leakage.Limit != nil && f.Facts["verdict"] != string(diag.Outside) {
		f.Headline = "leakage-apart"
	}
	return f
}

// worthSaying is a cylinder of whose air a place was heard, and not only a little at
// the crankcase.
func worthSaying(c *known.Case) func(string) bool {
	return func(name string) bool {
		return c.PlaceNoted(name) && !commonLoss.HoldsOf(c, name)
	}
}

func leakageGood(c *known.Case, _ known.Subject) diag.Finding {
	names := leakTried(c)
	f := lossFound(diag.NoAction)(c, known.Subject{Cylinders: names})
	if slices.ContainsFunc(f.Doubts, func(p diag.Phrase) bool { return p.Key == "leakage-within-limit" }) { // which is what it says
		f.Confidence, f.Doubts = diag.Fair, nil
	}
	f.Facts["loss"], f.Facts["cold"] = c.LossAsNoted(c.WorstLeak(names).Name), c.LeakageCold()
	switch limit := c.Sums.Leakage.Limit; {
	case *c.WorstLeak(names).Loss <= known.GoodLoss:
	case limit == nil:
		f.Variant, f.Headline = "serviceable", "leakage-serviceable"
	default:
		f.Variant, f.Headline = "within", "leakage-within"
	}
	if slices.ContainsFunc(c.Leaks(), func(l *diag.LeakResult) bool { return l.Verdict == diag.TooClose }) {
		f.Variant, f.Confidence = "close", diag.Weak
		f.Doubts = append(f.Doubts, diag.Phrase{Key: "leakage-near-limit"})
	}
	return f
}

func lowAndLeaks(c *known.Case, _ known.Subject) diag.Finding {
	names := leakTried(c)
	f := diag.Finding{Urgency: diag.ActSoon, Facts: c.LeakFacts(names)}
	judgeLeak(c, names, &f)
	if f.Confidence == diag.Fair { // two tests agree
		f.Confidence = diag.Strong
	}
	f.Facts["values"] = c.Span(c.Spread(c.Read()))
	return f
}

// notTheTest speaks against what makes a sound engine read low, where a test that does
// not use the gauge says the same of it.
func notTheTest() []Voice {
	return denies(Heard, "lost-past-rings", "limit-wrong", "gauge-reads-low", "altitude", "low-ratio", "throttle-or-choke", "weak-cranking", "cam-timing")
}
