package rule

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// Sources of what is said of oil pressure.
const (
	byOilLimit = "limits: the job's own; meanings: common practice, no source"
	byOilThumb = "common practice, no source: 10 psi for each 1000 rpm, hot"
)

var oilTest = needsTest(known.Oil)

// oilRules are on oil pressure, the only look at the bottom end among these
// tests.
var oilRules = []Rule{
	{
		Name: "no-oil-pressure", Title: "No oil pressure with the engine running",
		Why:    "Bearings live on a film of oil that pressure keeps up; without it they are gone in minutes. A running engine that shows none is stopped at once, whether the oil, the pick-up, the pump's drive or the gauge is to blame.",
		Source: byOilLimit, Class: TestItself, About: diag.AboutSystem, Needs: oilTest, Of: ofSystem(known.Oil), When: known.OilNone,
		Kind: OfOil, Weigh: weighOil, Say: noOil, Headline: "no-oil-pressure", SaysBetterThan: []string{"oil-pressure-low", "oil-pressure-under-the-rule-of-thumb", "oil-pressure-falls-hot", "oil-pressure-by-dash-only", "oil-pressure-does-not-rise", "oil-pressure-falls-with-speed"},
	},
	{
		Name: "oil-over-full", Title: "The sump is over full",
		Why:    "What raises the level is fuel or coolant. Fuel thins the oil; coolant in a bearing is no oil at all, and a crankshaft that beats into the level throws it into the cylinders and the breather.",
		Source: byOilLimit, Class: TestItself, About: diag.AboutSystem, Needs: oilTest, Of: ofSystem(known.Oil), When: known.All(known.OilOverFull, known.Not(known.OilRaisedByCoolant)),
		Kind: OfSight, Weigh: weighOverFull, Say: overFull, Headline: "oil-over-full", Variants: []string{"fuel"},
	},
	{
		Name: "oil-level-low", Title: "The oil stands too low",
		Why:    "Pressure stays right until the pick-up draws air, in a bend or on a hill, and is gone at once then. An engine that uses oil and stands low is filled up before it runs again, whatever else is found.",
		Source: byOilLimit, Class: Single, About: diag.AboutSystem, Needs: oilTest, Of: ofSystem(known.Oil), When: known.OilLevelLow,
		Kind: OfSight, For: speaks(Sight, "too-little-oil"), Say: func(c *known.Case, _ known.Subject) diag.Finding {
			return diag.Finding{Urgency: diag.CheckAgain, Confidence: diag.Fair, Facts: diag.Facts{"uses": c.UsesOil()}}
		}, Headline: "oil-level-low",
	},
	{
		Name: "oil-smells-of-fuel", Title: "Oil that smells of fuel",
		Why:    "Fuel in the oil thins it before the pressure shows it. The oil is changed before the engine works hard again, and where the fuel comes from is looked for: past the rings of a cylinder that does not fire, out of an injector that leaks, or out of a fuel pump that stands on the engine.",
		Source: byOilLimit, Class: Single, About: diag.AboutSystem, Needs: oilTest, Of: ofSystem(known.Oil),
		When: known.All(known.OilSmells, known.Not(known.OilOverFull), known.Not(known.OilLowAtAll), known.Not(known.OilNone)),
		Kind: OfSight, Weigh: weighSmell, Say: func(*known.Case, known.Subject) diag.Finding {
			return diag.Finding{Urgency: diag.CheckAgain, Confidence: diag.Fair, Facts: diag.Facts{}}
		}, Headline: "oil-smells",
	},
	{
		Name: "oil-pressure-low", Title: "Oil pressure under its limit",
		Why:    "Oil pressure falls with the clearance of the bearings, a worn pump, a relief valve that does not shut, oil that is thin, old or thinned by fuel, and with too little of it. Fresh oil of the right grade tells the oil from the engine.",
		Source: byOilLimit, Class: Single, About: diag.AboutSystem, Needs: oilTest, Of: ofSystem(known.Oil), When: known.All(known.OilUnderLimit, known.Not(known.OilNone)),
		Kind: OfOil, Weigh: weighOil, Say: oilLow, Headline: "oil-pressure-low", SaysBetterThan: []string{"oil-pressure-under-the-rule-of-thumb", "oil-pressure-falls-hot"},
	},
	{
		Name: "oil-pressure-under-the-rule-of-thumb", Title: "Oil pressure under the rule of thumb, without a maker's figure",
		Why:    "Ten psi for each thousand revolutions serves many engines and not all: some makers are content with half of it. Before a word on bearings the maker's figure is needed, but under half of the rule, or with a noise, nobody waits for it.",
		Source: byOilThumb, Class: Single, About: diag.AboutSystem, Needs: oilTest, Of: ofSystem(known.Oil), When: known.All(known.OilUnderRule, known.Not(known.OilUnderLimit), known.Not(known.OilNone)),
		Kind: OfOil, Weigh: weighThumb, Say: oilThumb, Headline: "oil-pressure-thumb", SaysBetterThan: []string{"oil-pressure-falls-hot"},
	},
	{
		Name: "oil-pressure-near", Title: "Oil pressure too near its least to call, and more that tells of it",
		Why:    "A gauge is off by a little, and no rule fits every engine: a reading just over or just under what is asked clears no bearing and condemns none. Where the lamp comes on or the engine knocks, or it reads under the rule at idle and at speed, it is not passed over either: the level, a second gauge and the maker's figure cost minutes.",
		Source: byOilThumb + "; a quarter over it: judgement", Class: Single, About: diag.AboutSystem, Needs: oilTest, Of: ofSystem(known.Oil), When: known.All(known.OilNear, known.Any(known.OilComplained, known.OilTwiceUnder), known.Not(known.OilWithin), known.Not(known.OilNone)),
		Kind: OfOil, Weigh: weighNear, Say: oilNear, Headline: "oil-pressure-near",
	},
	{
		Name: "oil-pressure-does-not-rise", Title: "Oil pressure that does not rise with the speed",
		Why:    "A pump delivers more the faster it turns. Pressure that stays where it was at twice the speed leaks away at a relief valve that is stuck open, or the pump draws air.",
		Source: byOilLimit, Class: Single, About: diag.AboutSystem, Needs: oilTest, Of: ofSystem(known.Oil), When: known.All(known.OilDoesNotRise, known.Not(known.OilFallsFast)),
		Kind: OfOil, For: []Voice{{Cause: "oil-relief-valve", Weight: Known}, {Cause: "oil-pump", Weight: DryUp}, {Cause: "too-little-oil", Weight: Hint}}, Say: oilStays, Headline: "oil-pressure-stays",
	},
	{
		Name: "oil-pressure-falls-with-speed", Title: "Oil pressure that falls as the speed rises",
		Why:    "A pump that gets its oil delivers more the faster it turns, and a relief valve keeps what is there. Pressure that falls as the engine turns faster is a pump that draws less than it asks for: a strainer that is clogged, a joint or a pipe of the pick-up that lets air in, too little oil, or oil beaten to foam.",
		Source: byOilLimit, Class: Single, About: diag.AboutSystem, Needs: oilTest, Of: ofSystem(known.Oil), When: known.All(known.OilFallsFast, known.Not(known.OilNone)),
		Kind: OfOil, For: append(speaks(Known, "oil-pick-up"), speaks(Hint, "too-little-oil")...), Against: denies(DryUp, "falls-with-speed", "worn-bearings", "thin-oil", "oil-relief-valve"), Say: oilDrops, Headline: "oil-pressure-falls",
	},
	{
		Name: "oil-pressure-falls-hot", Title: "Oil pressure that falls far as the engine warms up",
		Why:    "Thick cold oil hides clearance. An engine that is fine when cold and low when hot has room at its bearings, or oil that thins too much.",
		Source: byOilLimit, Class: Single, About: diag.AboutSystem, Needs: oilTest, Of: ofSystem(known.Oil), When: known.OilFallsHot,
		Kind: OfOil, For: []Voice{{Cause: "thin-oil", Weight: Hint}, {Cause: "worn-bearings", Weight: Hint}}, Say: oilHot, Headline: "oil-pressure-low",
	},
	{
		Name: "oil-pressure-high", Title: "Oil pressure over its limit",
		Why:    "More than the book allows with hot oil is a relief valve that sticks shut, or oil of a thicker grade. It can burst a filter.",
		Source: byOilLimit, Class: Single, About: diag.AboutSystem, Needs: oilTest, Of: ofSystem(known.Oil), When: known.OilOverLimit,
		Kind: OfOil, Weigh: weighHighOil, Say: oilHigh, Headline: "oil-pressure-high",
	},
	{
		Name: "oil-pressure-above-usual", Title: "Oil pressure above what nearly any engine has",
		Why:    "The relief valve holds hot oil under about 80 psi at idle and 100 psi at speed in nearly any engine. Above that it sticks, the oil is thick or cold, or the gauge is wrong. It can burst a filter.",
		Source: "common practice, no source", Class: Single, About: diag.AboutSystem, Needs: oilTest, Of: ofSystem(known.Oil), When: known.All(known.OilOverUsual, known.Not(known.OilOverLimit)),
		Kind: OfOil, Weigh: weighAboveUsual, Say: oilAboveUsual, Headline: "oil-pressure-high",
	},
	{
		Name: "oil-pressure-by-dash-only", Title: "Oil pressure by what the vehicle shows",
		Why:    "Senders and dash gauges drift, and many show a normal that is made up. Before anything is opened the pressure is read on a gauge screwed into the gallery.",
		Source: "common practice, no source", Class: Information, About: diag.AboutSystem, Needs: oilTest, Of: ofSystem(known.Oil),
		When: known.All(known.Not(known.OilByOwnGauge), known.Any(known.OilLowAtAll, known.OilOverLimit, known.OilOverUsual)),
		Kind: OfOil, Weigh: weighDash, Say: byDash, Headline: "oil-pressure-low",
	},
	{
		Name: "oil-pressure-right", Title: "Oil pressure within its limits",
		Why:    "Pressure within the maker's figures, hot, says that the bearings, the pump and the oil are as they should be. It says nothing of how well the cylinders seal.",
		Source: byOilLimit, Class: Sound, About: diag.AboutSystem, Needs: oilTest, Of: ofSystem(known.Oil), When: known.OilWithin,
		Kind: OfOil, Against: denies(Heard, "oil-pressure-is-right", "worn-bearings", "oil-pump", "bottom-end"), Say: oilRight, Headline: "oil-pressure-right",
	},
	{
		Name: "oil-shown-low", Title: "The dash shows too little oil pressure where a gauge that was screwed in shows enough",
		Why:    "A gauge in place of the sender shows what the bearings get. Where that is right, hot and at idle, and the lamp or the dash says otherwise, it is the sender, the screen under it, its wire or the display that is wrong, and no bearing or pump is bought. Without the maker's figures a quarter over the rule of thumb clears it too: a lamp comes on at far less.",
		Source: byOilThumb, Class: Together, About: diag.AboutSystem, Needs: oilTest, Of: ofSystem(known.Oil), When: known.All(known.OilProved, known.OilShownLow),
		Kind: OfOil, For: speaks(Heard, "dash-reads-low"), Weigh: func(c *known.Case, _ known.Subject) []Voice {
			return where(oilResult(c).Word("oil level") == "", speaks(commonest, "too-little-oil"))
		}, Against: denies(Heard, "oil-pressure-is-right", "worn-bearings", "oil-pump", "oil-pick-up", "oil-relief-valve", "thin-oil", "bottom-end"), Say: oilShownLow, Headline: "oil-shown-low", SaysBetterThan: []string{"oil-pressure-right"},
	},
	{
		Name: "bottom-end-first", Title: "Oil pressure is low while work on the head or the rings is proposed",
		Why:    "Money spent on a head or rings is lost over worn bearings. Where oil pressure is under its limit the bottom end is looked at before the top is opened.",
		Source: "common practice, no source", Class: Together, About: diag.AboutSystem, Needs: oilTest, Of: ofSystem(known.Oil),
		When: known.All(known.OilUnderLimit, workAbove), Kind: OfOil, Say: bottomEndFirst, Headline: "bottom-end-first", Before: true,
	},
	{
		Name: "sound-above-low-below", Title: "The cylinders are even while the oil pressure is low",
		Why:    "Compression and leakage look at the top of the engine. That they are good says nothing of the bearings below.",
		Source: "common practice, no source", Class: Together, About: diag.AboutSystem, Needs: append([]known.Need{known.NeedsCompression}, oilTest...), Of: ofSystem(known.Oil),
		When: known.All(known.OilLowAtAll, pressureSound), Kind: OfOil, Say: soundAbove, Headline: "oil-pressure-low", Keeps: true,
	},
	{
		Name: "oil-thinned-by-fuel", Title: "Low oil pressure with oil that smells of fuel",
		Why:    "Fuel that gets past the rings or out of a leaking injector thins the oil, and pressure falls with it. The oil is changed and the pressure read again before bearings are named.",
		Source: "common practice, no source", Class: Together, About: diag.AboutSystem, Needs: oilTest, Of: ofSystem(known.Oil), When: known.All(known.OilLowAtAll, known.OilSmells),
		Kind: OfOil, For: speaks(Sight, "fuel-in-oil"), Weigh: func(c *known.Case, _ known.Subject) []Voice {
			return slices.Concat(drivenPumpLeaks(c), hoseLeaks(c), injectorLeaks(c), railLeaks(c), regenerates(c))
		}, Say: thinned, Headline: "oil-thinned", Keeps: true,
	},
}

// weighOil: the oil is cheaper than the engine and comes first where something
// is known of it.
func weighOil(c *known.Case, s known.Subject) []Voice {
	list := common("worn-bearings", "thin-oil", "oil-pump", "oil-relief-valve")
	list = append(list, where(known.OilFallsFast.HoldsIn(c), speaks(commonest, "oil-pick-up"))...)
	if known.OilClimbs.HoldsIn(c) && !known.OilFallsFast.HoldsIn(c) { // past a valve that stays open it does not
		list = append(list, denies(Hint, "rises-with-speed", "oil-relief-valve")...)
	}
	if known.OilClogged.HoldsIn(c) { // what floats in the oil ends at the strainer
		list = append(list, as(OfSight, speaks(Heard+Known, "oil-pick-up"))...)
	}
	switch oilResult(c).Word("oil level") {
	case "low":
		list = append(list, speaks(Sight, "too-little-oil")...)
	case "": // nobody looked, and it is the first thing to look at
		list = append(list, speaks(commonest, "too-little-oil")...)
	}
	if known.OilSmells.Holds(c, s) {
		list = slices.Concat(list, speaks(Known, "fuel-in-oil"), drivenPumpLeaks(c), hoseLeaks(c))
	}
	if known.OilNone.Holds(c, s) && (known.OnOwnGauge(oilResult(c)) || c.Complains("noise")) { // a quiet engine by its dash is the sender's before the pump's
		list = append(list, speaks(Known, "oil-pump")...)
		list = append(list, speaks(DryUp, "too-little-oil")...)
	}
	return list
}

// weighHighOil: oil thicker than the book's costs a change of oil; a gauge of the
// workshop's own shows what is there.
func weighHighOil(c *known.Case, _ known.Subject) []Voice {
	return append(common("thick-oil", "oil-relief-valve"), where(!known.OnOwnGauge(oilResult(c)), speaks(Known, "oil-sender"))...)
}

// weighDash: a display that shows nothing over an engine that nobody hears is likelier wrong.
func weighDash(c *known.Case, _ known.Subject) []Voice {
	if known.OilHardlyShown(oilResult(c)) && !c.Complains("noise") {
		return speaks(Sight, "oil-sender")
	}
	return speaks(Known, "oil-sender")
}

// weighAboveUsual: without the maker's figure the reading itself may be wrong.
func weighAboveUsual(c *known.Case, s known.Subject) []Voice {
	return append(weighHighOil(c, s), speaks(Hint, "reading-wrong")...)
}

// weighThumb: without the maker's figure the rule itself may be wrong, but not under half of
// it, nor where the engine is heard to lack its oil.
func weighThumb(c *known.Case, s known.Subject) []Voice {
	switch {
	case known.OilStarves.Holds(c, s), c.Complains("noise"), known.NoiseBelow.Holds(c, s):
		return weighOil(c, s)
	case known.OilUnderHalf.Holds(c, s), known.OilComplained.Holds(c, s):
		return append(speaks(Hint, "maker-asks-less"), weighOil(c, s)...)
	}
	return append(speaks(Known, "maker-asks-less"), weighOil(c, s)...)
}

// weighNear: what may be right is read again before the engine is doubted.
func weighNear(c *known.Case, _ known.Subject) []Voice {
	own, r := known.OnOwnGauge(oilResult(c)), oilResult(c)
	// A lamp comes on at far less than what is near a limit.
	shown := own && known.OilShownLow.HoldsIn(c) && known.OilOverLamp.HoldsIn(c)
	return slices.Concat(where(!own, speaks(Known, "oil-sender")), where(shown, speaks(Known, "dash-reads-low")), where(r.Word("oil level") == "", speaks(commonest, "too-little-oil")), where(r.Word("oil level") == "low", speaks(Sight, "too-little-oil")),
		speaks(DryUp, "worn-bearings"), speaks(DryUp-rarer, "thin-oil"), where(!known.OilNearLeast(r).Limited(), speaks(Hint, "maker-asks-less")))
}

func weighOverFull(c *known.Case, s known.Subject) []Voice {
	if known.OilSmells.Holds(c, s) {
		return slices.Concat(speaks(Sight, "fuel-in-oil"), drivenPumpLeaks(c), hoseLeaks(c), injectorLeaks(c), railLeaks(c), regenerates(c),
			where(c.OilMixed(), speaks(DryUp, "coolant-in-oil")),
			where(c.DryRead() && floodedOil.Holds(c, s), speaks(Heard, "washed-bore"))) // which the same fuel did
	}
	return slices.Concat(speaks(commonest, "coolant-in-oil"), speaks(commonest-rarer, "fuel-in-oil"), where(c.ToldRich(), speaks(DryUp, "fuel-in-oil")))
}

// weighSmell is what lets fuel into oil whose pressure is right.
func weighSmell(c *known.Case, _ known.Subject) []Voice {
	return slices.Concat(speaks(Known, "fuel-in-oil"), drivenPumpLeaks(c), hoseLeaks(c), injectorLeaks(c), railLeaks(c), regenerates(c), where(c.Injected() && !c.Spec.Diesel(), speaks(Hint, "leaking-injector")))
}

// drivenPumpLeaks speaks for the diaphragm of a pump that stands on the engine: what
// gets past it runs into the sump.
func drivenPumpLeaks(c *known.Case) []Voice {
	leaks := c.Fuel != nil && c.Fuel.Pump == "mechanical" && !c.Spec.Diesel() && known.OilSmells.HoldsIn(c)
	return where(leaks, append(speaks(Sight+rarer, "pump-diaphragm"), speaks(Hint, "carburettor")...))
}

// railLeaks speaks for the pump that the camshaft drives on a petrol engine with direct
// injection: past the seal of its plunger fuel runs straight into the sump, and after it
// come the injectors.
func railLeaks(c *known.Case) []Voice {
	leaks := c.FuelSystem() == known.DirectLow && !c.Spec.Diesel()
	return where(leaks, append(speaks(Known, "high-pressure-pump"), speaks(DryUp, "leaking-injector")...))
}

// hoseLeaks speaks for the diaphragm of a regulator past which fuel was found to go: what
// the engine draws in so washes down into the sump.
func hoseLeaks(c *known.Case) []Voice {
	return where(c.FuelInHose("yes"), speaks(Sight+rarer, "regulator-diaphragm"))
}

func oilResult(c *known.Case) *diag.MeasuredResult { return c.Measured(known.Oil) }

func noOil(c *known.Case, _ known.Subject) diag.Finding {
	r := oilResult(c)
	f := measuredFinding(known.NoOilReading(r), true, diag.DoNotRun)
	if f.Facts["dash"] = !known.OnOwnGauge(r); !known.OnOwnGauge(r) {
		f.Headline = "oil-off-until-gauge"
	}
	return f
}

func overFull(c *known.Case, s known.Subject) diag.Finding {
	f := diag.Finding{Urgency: diag.DoNotRun, Confidence: diag.Fair, Facts: diag.Facts{"fuel": known.OilSmells.Holds(c, s), "airCooled": c.AirCooled()}}
	if known.OilSmells.Holds(c, s) {
		f.Variant = "fuel"
	}
	return f
}

func oilLow(c *known.Case, _ known.Subject) diag.Finding {
	low, clear := known.OilLow(oilResult(c))
	f := measuredFinding(low, clear, diag.ActSoon)
	if clear && known.OnOwnGauge(oilResult(c)) && (c.Complains("noise") || known.NoiseBelow.HoldsIn(c)) {
		f.Urgency = diag.DoNotRun // what is left of the bearings goes with every minute
	}
	return shownBy(c, f)
}

// shownBy is a finding of low oil pressure with the urgency that its gauge lends it: on one
// of the workshop's own what is under half of any maker's figure stops the engine; what the
// vehicle itself shows is doubted, and where that is next to nothing the engine stays off
// until a gauge is on.
func shownBy(c *known.Case, f diag.Finding) diag.Finding {
	r := oilResult(c)
	if known.OnOwnGauge(r) {
		if known.OilStarves.HoldsIn(c) {
			f.Urgency, f.Confidence = diag.DoNotRun, diag.Fair
		}
		return f
	}
	f.Confidence = diag.Weak
	if r.Word("oil level") != "low" { // then the lamp has said why
		f.Urgency = byDashUrgency(c)
	}
	if keptOff(c) {
		f.Headline = "oil-off-until-gauge"
	}
	return f
}

func oilThumb(c *known.Case, _ known.Subject) diag.Finding {
	m := known.OilUnderThumb(oilResult(c))
	f := diag.Finding{Urgency: diag.CheckAgain, Confidence: diag.Weak, Facts: measuredFacts(m)}
	f.Facts["thumb"], f.Facts["starves"] = known.Thumb(m).String(), known.OilStarves.HoldsIn(c)
	if known.OilStarves.HoldsIn(c) {
		f.Headline = "oil-pressure-low"
	}
	half := known.OilUnderHalf.HoldsIn(c)
	f.Facts["half"], f.Facts["knocks"] = half, known.NoiseBelow.HoldsIn(c)
	switch told := known.OilComplained.HoldsIn(c); {
	case known.NoiseBelow.HoldsIn(c), half && told: // two that agree
		f.Urgency, f.Headline = diag.DoNotRun, "oil-pressure-low"
	case half, told, c.Complains("noise"):
		f.Urgency, f.Headline = diag.ActSoon, "oil-pressure-low"
	}
	return shownBy(c, f)
}

func oilNear(c *known.Case, _ known.Subject) diag.Finding {
	r := oilResult(c)
	m := known.OilNearLeast(r)
	f := diag.Finding{Urgency: diag.CheckAgain, Confidence: diag.Weak, Facts: measuredFacts(m)}
	if known.NoiseBelow.HoldsIn(c) || known.OilShownLow.HoldsIn(c) {
		f.Urgency = diag.ActSoon // as a light is that nothing explains
	}
	f.Facts["dash"], f.Facts["thumb"], f.Facts["limited"] = !known.OnOwnGauge(r), known.Thumb(m).String(), m.Limited()
	return f
}

func oilStays(c *known.Case, _ known.Subject) diag.Finding {
	slow, fast := known.OilStays(oilResult(c))
	f := diag.Finding{Urgency: diag.CheckAgain, Confidence: diag.Fair, Facts: measuredFacts(fast)}
	f.Facts["from"], f.Facts["slow"] = slow.Told(), slow.At
	return f
}

// oilDrops stops an engine that is fed less the faster it turns no sooner than its pressure does,
// and is settled before it works hard.
func oilDrops(c *known.Case, _ known.Subject) diag.Finding {
	slow, fast := known.OilDrops(oilResult(c))
	f := diag.Finding{Urgency: diag.ActSoon, Confidence: diag.Fair, Facts: measuredFacts(fast)}
	if !known.OnOwnGauge(oilResult(c)) {
		f.Urgency, f.Confidence = diag.CheckAgain, diag.Weak
	}
	f.Facts["from"], f.Facts["slow"] = slow.Number().String(), slow.At
	return f
}

func oilHot(c *known.Case, _ known.Subject) diag.Finding {
	r := oilResult(c)
	hot := r.Reading("idle")
	f := diag.Finding{Urgency: diag.CheckAgain, Confidence: diag.Fair, Facts: measuredFacts(hot)}
	f.Facts["cold"] = r.Reading("cold-idle").Told()
	return f
}

func oilHigh(c *known.Case, _ known.Subject) diag.Finding {
	over, clear := known.WorstOf(oilResult(c), known.Over)
	return measuredFinding(over, clear, diag.CheckAgain)
}

func oilAboveUsual(c *known.Case, _ known.Subject) diag.Finding {
	return diag.Finding{Urgency: diag.CheckAgain, Confidence: diag.Weak, Facts: measuredFacts(known.OilAboveUsual(oilResult(c)))}
}

func oilRight(c *known.Case, _ known.Subject) diag.Finding {
	m := known.OilJudged(oilResult(c))
	f := diag.Finding{Urgency: diag.NoAction, Confidence: diag.Fair, Facts: measuredFacts(m)}
	f.Facts["screwed"] = known.OilOnScrewedIn.HoldsIn(c)
	return f
}

func bottomEndFirst(c *known.Case, _ known.Subject) diag.Finding {
	low, clear := known.OilLow(oilResult(c))
	f := measuredFinding(low, clear, diag.ActSoon) // before anything is taken apart, whatever the gauge
	if !known.OnOwnGauge(oilResult(c)) {
		f.Confidence = diag.Weak
	}
	return f
}

func soundAbove(c *known.Case, _ known.Subject) diag.Finding {
	return diag.Finding{Urgency: diag.CheckAgain, Confidence: diag.Fair, Facts: diag.Facts{}}
}

func thinned(c *known.Case, _ known.Subject) diag.Finding {
	return diag.Finding{Urgency: diag.CheckAgain, Confidence: diag.Fair, Facts: diag.Facts{}}
}

// workAbove is an engine on whose head or rings work may be proposed.
var workAbove = known.OfEngine("some cylinder graded low, every one low, or one that loses too much of its test air", func(c *known.Case) bool {
	return len(c.LowSet()) > 0 || c.AllLow() != nil || leaky(c)
})

// pressureSound is an engine whose compression is even in every cylinder.
var pressureSound = known.OfEngine("every cylinder read and even, and no limit passed", (*known.Case).Sound)
