package rule

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// foundRules are on what the technician found on the engine as a whole.
var foundRules = []Rule{
	{
		Name: "coolant-in-oil", Title: "Coolant was found in the oil, or oil in the coolant",
		Why: "Coolant in the oil takes the film from every bearing: an engine that runs on it needs a crankshaft soon. It gets there through the head gasket, a crack, a cooler of the oil, or on most V engines past the gaskets of the intake manifold. " +
			"A light film under the filler cap alone is water from the air of short trips, and is not meant.",
		Source: byEye, Class: Single, About: diag.AboutEngine,
		Of: theEngine, When: known.Mixed,
		Kind: OfSight, TiesSystems: []string{known.Cooling}, For: append(pathToCoolant(Sight, Known), Voice{Cause: "oil-cooler", Weight: rarer}), Weigh: intakeCarries, Say: foundSays(diag.DoNotRun), Headline: "coolant-in-oil",
		InsteadOf: []string{"sealing-sound-look-elsewhere"},
	},
	{
		Name: "coolant-signs-agree", Title: "Two signs agree that coolant is burnt or pushed out",
		Why: "Coolant that is missed may have gone through a hose. Where it steams out of the exhaust, has left rust there or bubbles as the engine runs as well, it goes through a gasket or a crack. " +
			"Even pressure does not speak against it: a leak of a drop an hour lowers no reading.",
		Source: "common practice, no source", Class: Together, About: diag.AboutEngine, TiesSystems: []string{known.Cooling},
		Of: theEngine, When: known.All(known.OfEngine("two at least of: coolant is lost; white smoke other than at the start, of a rotary that loses coolant at the start too; rust, steam or a sweet smell at the exhaust; bubbles in the coolant or hard hoses; overheating beside these bubbles",
			func(c *known.Case) bool { return c.CoolantSigns() > 1 }), known.OfEngine("no cylinder low", func(c *known.Case) bool { return len(c.LowSet()) == 0 }), known.Not(known.CoolantEntering)),
		Kind: OfSight, For: append(pathToCoolant(Known, DryUp), speaks(Hint, "egr-cooler")...), Say: foundSays(diag.ActSoon), Headline: "coolant-signs-agree",
		InsteadOf: []string{"sealing-sound-look-elsewhere"},
	},
	{
		Name: "coolant-at-head-joint", Title: "Coolant was seen outside at the joint of the head",
		Why: "Coolant runs down and shows where it drips, not where it gets out: a hose, the thermostat's housing or the intake above wet the joint of the head too. Wiped dry and pumped up cold, the system shows within minutes which it is; " +
			"a gasket is not condemned for a stain.",
		Source: byEye, Class: Single, About: diag.AboutEngine, TiesSystems: []string{known.Cooling},
		Of: theEngine, When: known.HeadJointWet,
		Kind: OfSight, For: append(speaks(DryUp, "coolant-leak-outside"), speaks(Hint, "warped-or-cracked-head")...), Say: func(c *known.Case, s known.Subject) diag.Finding {
			if c.CoolantGoes() {
				return foundSays(diag.ActSoon)(c, s)
			}
			return foundSays(diag.CheckAgain)(c, s)
		}, Headline: "coolant-at-head-joint", InsteadOf: []string{"sealing-sound-look-elsewhere"},
	},
	{
		Name: "metal-in-oil", Title: "Metal was found in the oil or its filter",
		Why: "Metal in the oil comes from a bearing, a piston, a camshaft or its drive, and goes round with it. The engine is not run until the oil is strained and it is known which metal it is: " +
			"a magnet takes iron, and leaves the soft metal of bearings and pistons.",
		Source: byEye, Class: Single, About: diag.AboutEngine,
		Of: theEngine, When: known.MetalInOil,
		Kind: OfSight, For: append(speaks(Sight, "bottom-end"), common("piston", "valve-motion", "timing-drive")...), Say: foundSays(diag.DoNotRun), Headline: "metal-in-oil",
	},
	{
		Name: "metal-and-low-pressure", Title: "Low oil pressure, and metal in the oil",
		Why: "Pressure that has gone says that there is room where there should be none; metal in the oil says what made the room. Together they are a bearing, whatever the oil: fresh oil and another look into the filter would tell nothing, " +
			"and each turn takes more of the crankshaft. The oil pan comes off.",
		Source: "common practice, no source", Class: Together, About: diag.AboutEngine, TiesSystems: []string{known.Oil}, Needs: oilTest,
		Of: theEngine, When: known.All(known.MetalInOil, known.OilLowAtAll),
		Kind: OfSight, For: []Voice{{Cause: "worn-bearings", Weight: Sight + Heard}, {Cause: "bottom-end", Weight: Hint}}, Say: metalAndLow, Headline: "metal-and-low-pressure",
		SaysBetterThan: []string{"metal-in-oil", "oil-pressure-low", "no-oil-pressure", "oil-pressure-under-the-rule-of-thumb", "oil-pressure-falls-hot", "sound-above-low-below"},
	},
	{
		Name: "valve-drive-gone", Title: "What drives the valves is said to have broken",
		Why: "An engine whose belt or chain broke or jumped does not start, and nothing else needs to be tested to know why. Its valves stand where they stopped, and in most engines each turn of the starter " +
			"drives a piston against one. It is looked at by hand, with the cover off, before it is turned.",
		Source: "common practice, no source", Class: Together, About: diag.AboutEngine, Ties: []diag.About{diag.AboutCylinders},
		Of: theEngine, When: known.DriveToldGone,
		Kind: OfHistory, Weigh: func(c *known.Case, _ known.Subject) []Voice {
			return slices.Concat(speaks(2*Heard, "timing-drive"), where(c.Spec.Interference != diag.No, speaks(Known, "bent-valve")))
		},
		Say: foundSays(diag.DoNotRun), Headline: "valve-drive-gone",
		SaysBetterThan: []string{"all-low", "below-minimum", "fuel-wet", "all-fuel-wet"}, InsteadOf: []string{"complaint-not-explained", "no-start-not-explained"},
	},
	{
		Name: "engine-does-not-turn", Title: "The engine was found not to turn",
		Why: "A starter that cannot turn an engine may be weak; or it stands against liquid in a cylinder, rings that rusted to the walls, or something that broke. Forced on, it bends a rod or breaks what only stuck. " +
			"With the cylinders open it is turned by hand, which tells the starter from the engine.",
		Source: "common practice, no source", Class: Single, About: diag.AboutEngine,
		Of: theEngine, When: known.EngineStuck,
		Kind: OfSight, Weigh: weighStuck, Say: stuckSays, Headline: "engine-does-not-turn", InsteadOf: []string{"sealing-sound-look-elsewhere", "complaint-not-explained"},
	},
	{
		Name: "lost-inside", Title: "Something may have fallen into the engine",
		Why: "A screw, a washer or the porcelain of a plug that is not found lies where it fell: in a cylinder it marks the piston, bends a valve or holds it off its seat. " +
			"One turn of the starter can do that, so that it is looked for first, with a lamp, a camera and a magnet or suction.",
		Source: "common practice, no source", Class: Together, About: diag.AboutCylinders,
		Of: Scope{Words: "the cylinders that it names, or else the low ones, or the engine", Of: func(c *known.Case) []known.Subject {
			names, told := c.LostInside()
			if !told {
				return nil
			}
			return []known.Subject{{Cylinders: names}}
		}}, When: fellInside,
		Kind: OfHistory, For: speaks(2*Heard, "foreign-object"), Say: foundSays(diag.DoNotRun), Headline: "lost-inside",
		SaysBetterThan: []string{"one-low", "exhaust-valve-agrees", "inlet-valve-agrees"}, InsteadOf: []string{"sealing-sound-look-elsewhere"},
	},
	{
		Name: "water-drawn-in", Title: "The engine drew in water, and is low or sounds or starts badly since",
		Why: "Water does not give way: a piston that meets it stops, and its connecting rod bends. A rod that is bent lets its piston come up less high, so that its cylinder reads low with nothing that leaks, " +
			"often beside another that drank with it. It can break at any time and go through the block. How high each piston comes, turned by hand, shows it.",
		Source: "common practice, no source", Class: Together, About: diag.AboutCylinders,
		Of: lowOnesOrEngine, When: known.All(known.DrewWater, known.Not(known.OfEngine("a rotary", func(c *known.Case) bool { return c.Rotary() })),
			known.Any(known.LockedByWater, known.OfEngine("a cylinder low, or a complaint of noise, misfiring, low power or no start", func(c *known.Case) bool {
				return len(c.LowSet()) > 0 || c.Complains("noise", "misfire", "low power", "no start")
			}))),
		Kind: OfHistory, Weigh: func(c *known.Case, s known.Subject) []Voice {
			return slices.Concat(speaks(Known, "bent-rod", "coolant-or-fuel-in-bore"), where(len(s.Cylinders) > 0, speaks(Heard, "bent-rod")))
		},
		Say: foundSays(diag.DoNotRun), Headline: "water-drawn-in",
		SaysBetterThan: []string{"one-low", "neighbours-low", "scattered-low", "most-low", "bank-low", "low-but-tight", "low-since-noise"}, InsteadOf: []string{"sealing-sound-look-elsewhere"},
	},
	{
		Name: "blow-by-of-one", Title: "More blow-by than is allowed, and one cylinder that explains it", Class: Together, TiesSystems: []string{known.Crankcase}, Needs: needsTest(known.Crankcase),
		Why:    "Gas in the crankcase says that some cylinder lets it past, and not which. Where one is scored or holed, or is low and loses its air there, that is the one, and the ventilation is not to blame.",
		Source: "common practice, no source", About: diag.AboutCylinders,
		Of: eachCylinder, When: known.All(known.CrankcaseHigh, known.Not(known.UnderFloor), known.Any(known.SeenThere("a scored wall", known.ScoredWords), known.SeenThere("a holed, broken or melted piston", known.GonePiston),
			known.All(known.Low, known.AirAt(known.AtCrankcase)))),
		Kind: OfCrankcase, For: append(speaks(Known, "rings", "scored-bore"), speaks(DryUp, "piston")...), Against: denies(Known, "one-explains-it", "breather", "wear", "turbo-seal"),
		Say: seen(diag.ActSoon), Headline: "blow-by-of-one",
		SaysBetterThan: append([]string{"crankcase-pressure-high", "crankcase-pressure-where-vacuum-belongs", "below-minimum"}, lowAlone...),
	},
	{
		Name: "blow-by-and-low", Title: "More gas in the crankcase than there should be, and several cylinders short of pressure", Class: Together, TiesSystems: []string{known.Crankcase}, Needs: append(needsTest(known.Crankcase), known.NeedsCompression),
		Why:    "A blocked ventilation lets gas stand in the crankcase and takes nothing from the pressure on the pistons. Where both are wrong, what is missing above has gone below: rings that are worn, stuck or dry, or bores.",
		Source: "common practice, no source", About: diag.AboutCylinders,
		Of: oneSet("the cylinders that are low or under a minimum, two at least, or the only one of an engine", shortTogether),
		When: known.All(pressesInside, known.Not(known.UnderFloor), known.OfEngine("none of them heard at a valve, and not all tight", func(c *known.Case) bool {
			short := shortTogether(c)
			return !tightThroughout(c) && !c.LosesAt(short, known.AtExhaust) && !c.LosesAt(short, known.AtInlet)
		})),
		Kind: OfCrankcase, Weigh: func(c *known.Case, _ known.Subject) []Voice {
			return append(speaks(Known, "rings", "wear"), where(c.Stood(), speaks(Known+rarer, "dry-bores", "stuck-rings"))...)
		}, Against: denies(Known, "low-as-well", "breather", "turbo-seal", "gauge-reads-low"),
		Say: seen(diag.CheckAgain), Headline: "blow-by-of-one", Keeps: true,
		SaysBetterThan: []string{"crankcase-pressure-high", "crankcase-pressure-where-vacuum-belongs"},
	},
	{
		Name: "fuel-in-oil-found", Title: "Fuel was found in the oil",
		Why: "Fuel thins the oil until it carries no bearing. It comes past the rings from an injector that does not shut, a choke that stays closed or a float that sticks, or through the diaphragm of a pump that the engine drives. " +
			"The oil is changed once it is known from where, or it is thin again in a week.",
		Source: byEye, Class: Single, About: diag.AboutEngine,
		Of: theEngine, When: known.All(known.FoundSo("fuel in the oil", known.FuelInOil), known.Not(known.OilSmells), known.Not(inHose), known.Not(byInjector)),
		Kind: OfSight, Weigh: fuelFound, Say: fuelInOilSays, Headline: "fuel-in-oil-found",
		InsteadOf: []string{"sealing-sound-look-elsewhere"},
	},
	{
		Name: "dust-past-filter", Title: "Dust was found on the engine's side of its air filter",
		Why: "What gets past the filter laps rings and walls away, mostly within one dusty season, and the valves' guides with them. Whatever is done about the wear, the filter, its seat and the duct behind it come first, " +
			"or what is new wears the same way.",
		Source: byEye, Class: Single, About: diag.AboutCylinders,
		Of: Scope{Words: "the cylinders that are low and lose past their rings, or the engine", Of: func(c *known.Case) []known.Subject {
			if !known.DustDrawnIn.HoldsIn(c) {
				return nil
			}
			return []known.Subject{{Cylinders: c.Those(func(n string) bool { return pastItsRings.HoldsOf(c, n) })}}
		}}, When: known.DustDrawnIn,
		Kind: OfSight, Weigh: func(_ *known.Case, s known.Subject) []Voice {
			return where(len(s.Cylinders) > 0, append(speaks(Known, "rings", "wear"), speaks(DryUp, "scored-bore")...))
		}, Say: func(c *known.Case, s known.Subject) diag.Finding {
			return diag.Finding{Urgency: diag.ActSoon, Confidence: diag.Fair, Facts: diag.Facts{"worn": len(s.Cylinders) > 0}}
		}, Headline: "dust-past-filter",
	},
	{
		Name: "seen-fuel-outside", Title: "Fuel was seen to get out of the engine or its lines",
		Why:    "Fuel that drips or sprays is lit by a spark, a hot exhaust or the starter. The engine is not run, and nothing electric is switched, until it is tight.",
		Source: byEye, Class: Single, About: diag.AboutEngine,
		Of: theEngine, When: known.FuelSeenOutside,
		Kind: OfSight, For: speaks(Heard, "fuel-leak-outside"), Say: foundSays(diag.DoNotRun), Headline: "fuel-outside", Apart: true,
		InsteadOf: []string{"sealing-sound-look-elsewhere"},
	},
	{
		Name: "seen-turbo-worn", Title: "A turbocharger that is loose on its shaft or lets oil out was found",
		Why: "The turbocharger's shaft runs in oil at many times the speed of the engine. Once it is loose its seals pass oil, which the engine burns as blue smoke under load; a diesel can then run on its own oil and not be stopped. " +
			"A film of oil behind it comes from the crankcase's vent and is usual.",
		Source: byEye, Class: Single, About: diag.AboutEngine,
		Of: theEngine, When: known.All(turboWorn, known.Not(known.OfEngine("no turbocharger", func(c *known.Case) bool { return c.Spec.Charging == "natural" || c.Spec.Charging == "supercharged" }))),
		Kind: OfSight, For: append(speaks(Heard, "turbo-seal"), speaks(rarer, "breather")...), Say: foundSays(diag.ActSoon), Headline: "turbo-worn",
		InsteadOf: []string{"sealing-sound-look-elsewhere"},
	},
	{
		Name: "seen-crankcase-leaks", Title: "The crankcase of a two-stroke was found not to hold air",
		Why: "A two-stroke draws its mixture through its crankcase. Air that leaks in there, past a seal of the crankshaft, a joint or the reeds, leans the mixture: it idles fast, and at full load the piston gets too hot and seizes, " +
			"although the cylinders seal well.",
		Source: byEye, Class: Single, About: diag.AboutCylinders,
		Of: leanOrEngine, When: known.All(known.CrankcasePlaced, known.TwoStroke),
		Kind: OfSight, Ties: []diag.About{diag.AboutMixture}, TiesSystems: []string{known.CrankcaseHold}, Weigh: func(c *known.Case, _ known.Subject) []Voice {
			return leakPlaced(c)
		}, Say: crankcasePlacedSays, Headline: "crankcase-leaks",
		SaysBetterThan: []string{"one-white", "lean-all", "crankcase-hold-falls"}, InsteadOf: []string{"sealing-sound-look-elsewhere"},
	},
}

// shortTogether are cylinders short of pressure, where that is no single one of several.
func shortTogether(c *known.Case) []string {
	short := c.Those(func(n string) bool { return c.Grade(n).IsLow() || slices.Contains(c.UnderMinimum(), n) })
	if len(short) == 1 && c.Several() {
		return nil
	}
	return short
}

// stuckSays: one that was tried by hand needs no more of that.
func stuckSays(c *known.Case, s known.Subject) diag.Finding {
	f := foundSays(diag.DoNotRun)(c, s)
	f.Facts["stiff"], f.Facts["tried"] = known.TurnsStiffly.Holds(c, s), known.TurnsHard.Holds(c, s)
	switch {
	case known.TurnsStiffly.Holds(c, s):
		f.Headline = "engine-turns-hard"
	case known.TurnsHard.Holds(c, s):
		f.Headline = "engine-stuck-by-hand"
	}
	return f
}

// weighStuck weighs what keeps an engine from turning: what stood has its rings rusted
// in, a starter that draws its full current is not the reason.
func weighStuck(c *known.Case, s known.Subject) []Voice {
	holds := []string{"tight-engine", "starter", "coolant-or-fuel-in-bore", "foreign-object"}
	if known.TurnsHard.Holds(c, s) { // with the starter out of it
		holds = slices.DeleteFunc(holds, func(k string) bool { return k == "starter" })
	}
	return slices.Concat(common(holds...),
		where(c.Stood(), as(OfHistory, speaks(Known, "stuck-rings"))),
		where(c.Complains("coolant loss", "overheating") || c.CoolantGas == "positive", as(OfHistory, speaks(Known, "coolant-or-fuel-in-bore"))),
		where(known.DrawsMuch.Holds(c, s), as(OfHistory, speaks(DryUp, "tight-engine"))),
		where(known.TurnsHard.Holds(c, s), speaks(Heard, "tight-engine")))
}

// lowOnesOrEngine asks of the low cylinders together, or where none is of the engine,
// once it drew in water.
var lowOnesOrEngine = Scope{Words: "the low cylinders, or the engine", Of: func(c *known.Case) []known.Subject {
	if !known.DrewWater.HoldsIn(c) {
		return nil
	}
	return []known.Subject{{Cylinders: c.LowSet()}}
}}

// fuelFound names where fuel gets into the oil of this kind of engine.
func fuelFound(c *known.Case, _ known.Subject) []Voice {
	from := []string{"leaking-injector", "pump-diaphragm", "flooding"}
	switch {
	case c.Spec.Diesel():
		from = []string{"diesel-injector", "leaking-injector"}
	case c.Carburetted():
		from = []string{"carburettor", "pump-diaphragm", "flooding"}
	}
	return append(speaks(Sight, "fuel-in-oil"), speaks(Known, from...)...)
}

// fuelInOilSays: oil that has risen over its mark by fuel is no oil any more.
func fuelInOilSays(c *known.Case, s known.Subject) diag.Finding {
	f := foundSays(diag.ActSoon)(c, s)
	f.Facts["over"] = known.FuelRaisesOil.Holds(c, s)
	if f.Facts["over"] == true {
		f.Urgency = diag.DoNotRun
	}
	return f
}

// leanOrEngine asks of the cylinders whose plugs show the lean mixture, or where none
// does of the engine.
var leanOrEngine = Scope{Words: "the cylinders whose plugs are white, blistered or melted, or the engine", Of: func(c *known.Case) []known.Subject {
	if lean := c.Looking("white", "blistered", "melted"); len(lean) > 0 {
		return []known.Subject{{Cylinders: lean}}
	}
	return wholeEngine
}}

// turboWorn leaves out a film of oil.
var turboWorn = known.OfEngine("play in the turbocharger, or oil behind it that is more than a film, among the technician's findings", func(c *known.Case) bool {
	return c.Found(known.TurboWorn...) && !c.Found(known.OilFilm...)
})

// foundSays is the finding on what was found.
func foundSays(urgency diag.Urgency) func(*known.Case, known.Subject) diag.Finding {
	return func(c *known.Case, _ known.Subject) diag.Finding {
		return diag.Finding{Urgency: urgency, Confidence: diag.Fair, Facts: diag.Facts{
			"lost": c.Complains("coolant loss"), "smoke": c.Smokes("white", "load", "always", "idle"), "burnt": c.Found(known.CoolantBurnt...), "bubbles": c.Found(known.GasInCoolant...), "rotary": c.Rotary(), "diesel": c.Spec.Diesel()}}
	}
}

// crankcasePlacedSays names the place where the pumped-up crankcase was seen to leak.
// leakPlaced is what leaks where it was seen to, and nothing beside it.
func leakPlaced(c *known.Case) []Voice {
	first, others := "crankcase-seal", []string{"clutch-side-seal", "reed-valve", "air-leak"}
	switch {
	case known.CrankcaseToGearbox.HoldsIn(c):
		first, others = "clutch-side-seal", []string{"crankcase-seal", "reed-valve", "air-leak"}
	case known.ReedLeaks.HoldsIn(c):
		first, others = "reed-valve", []string{"crankcase-seal", "clutch-side-seal", "air-leak"}
	}
	return append(speaks(Heard, first), denies(2*Heard, "place-seen", others...)...)
}

func crankcasePlacedSays(c *known.Case, s known.Subject) diag.Finding {
	f := foundSays(diag.DoNotRun)(c, s)
	f.Facts["at"] = c.Measured(known.CrankcaseHold).Word("seen")
	return f
}

// metalAndLow is as sure as two tests that agree, where the gauge is the workshop's own.
func metalAndLow(c *known.Case, s known.Subject) diag.Finding {
	f := foundSays(diag.DoNotRun)(c, s)
	f.Facts["noise"] = c.Complains("noise")
	if known.OilByOwnGauge.Holds(c, s) {
		f.Confidence = diag.Strong
	}
	return f
}

// fellInside is an engine into which something may have fallen.
var fellInside = known.OfEngine("a broken plug of which a part is missing, or a small part that fell in, among the work done or the findings", func(c *known.Case) bool { _, told := c.LostInside(); return told })

// foundSigns are what the technician found beside a pattern, by words from a
// list: it says what to look at first.
var foundSigns = []Sign{
	{When: known.All(known.OfEngine("two signs that agree on coolant burnt or pushed out", func(c *known.Case) bool { return c.CoolantSigns() > 1 }), known.Low), Kind: OfSight, About: "cylinders",
		For: pathToCoolant(Known, DryUp)},
	// It is the commonest way for water into an engine afloat, seen by nobody: it goes
	// first and makes nothing sure. Of liquid that lies there its own rule says it.
	{When: known.All(known.WaterFromExhaust, known.Not(liquidLies)), Kind: OfHistory, About: "cylinders", For: speaks(2*Heard, "wet-exhaust")},
	{When: known.All(known.WaterFromExhaust, known.WaterBeside), Kind: OfHistory, About: "cylinders", For: speaks(commonest, "wet-exhaust")}, // one manifold is over both, as one gasket is under them
	{When: known.All(known.WaterFromExhaust, known.RiserLeaks), Kind: OfSight, About: "cylinders", For: speaks(Heard, "wet-exhaust")},
	{When: known.All(known.FoundSo("rust, steam or a sweet smell at the exhaust", known.CoolantBurnt), known.Not(known.AirCooled), known.Not(known.RiserLeaks)), Kind: OfSight, About: "any", For: pathToCoolant(DryUp, Hint)},
	{When: known.All(known.FoundSo("bubbles in the coolant or hard hoses", known.GasInCoolant), known.Not(known.AirCooled)), Kind: OfSight, About: "any", For: pathToCoolant(Known, DryUp)},
	{When: known.All(known.FoundSo("a crankcase or crankshaft seal that leaks", known.CrankcaseLeaks), known.TwoStroke), Kind: OfSight, About: "mixture", For: speaks(Heard, "crankcase-seal")},
	{When: known.CrankcaseToGearbox, Kind: OfSight, About: "any", For: speaks(Heard, "clutch-side-seal")}, // which wets its plug with the gearbox's oil
	{When: known.All(known.IdleHangs, known.TwoStroke), Kind: OfRunning, About: "any", For: append(speaks(DryUp, "crankcase-seal", "air-leak"), speaks(Hint, "lean-mixture", "carburettor", "reed-valve")...)},
	{When: known.FoundSo("fuel in the oil", known.FuelInOil), Kind: OfSight, About: "any", For: speaks(DryUp, "washed-bore", "leaking-injector", "fuel-in-oil", "flooding")},
	{When: known.FoundSo("a choked intake", known.ChokedInlet), Kind: OfSight, About: "engine", For: speaks(Known, "restricted-inlet")},
	{When: known.FoundSo("a choked intake", known.ChokedInlet), Kind: OfSight, About: "mixture", For: speaks(Known, "air-filter")},
	{When: known.FoundSo("a vacuum hose or manifold that lets air in", known.HoseOff), Kind: OfSight, About: "mixture", For: speaks(Known, "air-leak", "manifold-gasket")},
	{When: known.CoolantAtIntake, Kind: OfSight, About: "any", For: speaks(Sight, "intake-coolant-gasket")},
	{When: known.CoolantAtHead, Kind: OfSight, About: "any", For: speaks(Sight, "head-gasket")},
	// What let the air past is what was seen there; rings do not wear while an engine stands.
	{When: known.All(rustyWall, known.AirAt(known.AtCrankcase), known.Not(known.CoolantThere)), Kind: OfLeakage, About: "cylinders", For: append(speaks(Sight, "stuck-rings"), speaks(Hint, "scored-bore")...)},
	{When: known.All(rustyWall, known.StoodLong), Kind: OfHistory, About: "cylinders", For: speaks(Known, "stuck-rings")},
	// Its foot, or a hole that the coolant ate, lets it into the oil; what comes out on top of it has passed the head's gasket.
	{When: known.All(known.Mixed, known.WetLiners), Kind: OfSight, About: "any", For: append(speaks(Sight, "liner-seal"), speaks(Known, "oil-cooler")...)},
	{When: known.All(known.Mixed, known.WetLiners), Kind: OfHistory, About: "any", For: speaks(Hint+rarer, "liner-seal")},
	{When: known.LinerKnown, Kind: OfCooling, About: "any", Against: denies(Sight, "comes-at-the-liner", "head-gasket", "warped-or-cracked-head", "cracked-bore", "oil-cooler", "coolant-leak-outside")},
	{When: known.All(known.Mixed, known.WetLiners, known.CoolingInside), Kind: OfCooling, About: "cylinders", For: speaks(Heard+Known, "liner-seal")},
	{When: known.All(known.Mixed, known.WetLiners, known.NoGasFound), Kind: OfHistory, About: "any", For: speaks(DryUp, "liner-seal", "oil-cooler")},
	{When: known.All(known.FoundSo("tar or gas around an injector", known.InjectorTar), known.Diesel, tooHigh, known.Not(placed)), Kind: OfSight, About: "cylinders", For: speaks(Heard, "injector-seat")},
	{When: known.All(known.HeadJointBlows, tooHigh), Kind: OfSight, About: "cylinders", For: speaks(Sight, "head-gasket")},
	{When: known.All(known.HeadJointBlows, tooHigh, screwedOn), Kind: OfSight, About: "cylinders", For: speaks(Sight, "warped-or-cracked-head")},
	{When: known.All(known.HeadJointBlows, known.Complaint("noise")), Kind: OfSight, About: "engine", For: speaks(Sight, "head-gasket")},
	{When: known.FoundSo("oil or water in the plug wells", known.OilyWells), Kind: OfSight, About: "mixture", For: speaks(DryUp, "coil-or-lead", "own-spark", "moisture-at-plug")},
	{When: known.FoundSo("an exhaust that blows", known.BlownOutlet), Kind: OfSight, About: "mixture", For: speaks(DryUp, "bank-exhaust-leak")},
}

var rustyWall = known.SeenThere("rust on the wall", known.RustOnWall)

// screwedOn is an engine without a gasket between head and barrel.
var screwedOn = known.OfEngine("an aircraft engine cooled by air, whose heads are screwed on their barrels", (*known.Case).HeadScrewedOn)

// intakeCarries speaks for the gaskets of an intake manifold that carries coolant above
// the oil: before the head's where every cylinder holds its pressure and no gas was
// found, after it else.
func intakeCarries(c *known.Case, _ known.Subject) []Voice {
	sealed := c.SealingRead() && len(c.LowSet()) == 0 && c.AllLow() == nil && c.CoolantGas != "positive" && !c.CoolantEntersAny()
	switch {
	case sealed && c.OneCamshaft(): // its heads are bridged by a manifold over the valley
		return speaks(Heard-1, "intake-coolant-gasket") // not as if it had been seen there
	case sealed:
		return speaks(Sight+rarer, "intake-coolant-gasket")
	}
	return speaks(Sight-rarer, "intake-coolant-gasket")
}
