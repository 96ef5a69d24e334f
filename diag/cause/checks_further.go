package cause

import (
	"slices"

	"gaugesheet/diag/known"
)

// furtherChecks are on what the further tests found.
var furtherChecks = []Check{
	{Name: "cold-start-and-drive", Titles: []string{"a cold start and a drive"}, Minutes: 60, Labour: 40, Whole: true, Way: Runs, Fits: func(c *known.Case, _ []string) bool {
		return !c.Flies() && (known.MemoryCleared.HoldsIn(c) || known.HotForBuyer.HoldsIn(c))
	}, Words: []string{"cold start seen", "started cold and driven", "driven until the monitors were ready"},
		Outcomes: []Outcome{
			{Name: "something shows", For: []string{"ignition", "injection"}, Sure: 0.5, Words: []string{"smoke", "knock", "code came back", "codes came back"}, After: []string{"it smokes, knocks, misses or stores a code"}},
			{Name: "nothing shows", Else: true, Words: []string{"nothing", "no codes"}}}},
	{Name: "read-again", Titles: []string{"reading it again"}, OfTest: true, Minutes: 10, Whole: true, Fits: furtherOutside, Words: []string{"read again by a second gauge", "limit looked up and read again"},
		Outcomes: []Outcome{
			{Name: "another figure", For: []string{"limit-wrong", "reading-wrong"}, Words: []string{"another"}},
			{Name: "it stands", For: []string{"past-limit"}, Else: true, Words: []string{"stands", "same"}}}},
	{Name: "exhaust-filter-readings", Titles: []string{"the particulate filter's readings", "the particulate filter by the scan tool"}, Minutes: 15, Whole: true, Way: Runs, Fits: func(c *known.Case, _ []string) bool { return c.FilterMayBlock() }, Answers: (*known.Case).FilterFull,
		Words: []string{"particulate filter by the scan tool", "difference of pressure across the filter", "filter differential pressure", "soot load read", "dpf pressure read", "soot load"},
		Outcomes: []Outcome{
			{Name: "full of soot", For: []string{"exhaust-filter"}, Words: []string{"soot load high", "full", "loaded"}, After: []string{"a high difference and much soot"}},
			{Name: "full of ash", For: []string{"exhaust-filter"}, Sure: 0.4, Words: []string{"ash"}, After: []string{"a high difference and little soot"}},
			{Name: "lets the gas through", Else: true, Words: []string{"low", "within", "right"}, After: []string{"a low difference"}}}},
	{Name: "exhaust-joint", Titles: []string{"opening the exhaust"}, Minutes: 30, Whole: true, Way: Opens | Runs, Still: true, Fits: backPressureRead, Words: []string{"exhaust loosened", "exhaust joint loosened", "front pipe loosened"},
		Outcomes: []Outcome{
			{Name: "pulls better", For: []string{"restricted-exhaust"}, Words: []string{"better"}, After: []string{"it starts"}},
			{Name: "no change", Else: true, Words: []string{"same"}}}},
	{Name: "starter-circuit", Minutes: 20, Whole: true, Way: Starter, Fits: starterInDoubt, Words: []string{"voltage drop measured", "cables measured"},
		Outcomes: []Outcome{
			{Name: "a cable drops it", For: []string{"starter-cables"}, Words: []string{"cable"}},
			{Name: "the battery falls", For: []string{"battery", "weak-cranking"}, Fits: func(c *known.Case) bool { return !known.SlowByResistance.HoldsIn(c) }, Words: []string{"battery"}},
			{Name: "both are good", For: []string{"starter", "tight-engine", "low-compression"}, Else: true, Words: []string{"good"}}}},
	{Name: "starter-circuit-by-hand", Titles: []string{"turning it by hand"}, Minutes: 15, Whole: true, Way: Hand, Fits: func(c *known.Case, _ []string) bool { return c.Has(known.NeedsTest(known.Starting)) }, Words: []string{"turned by hand for drag"},
		Outcomes: []Outcome{
			{Name: "turns hard", For: []string{"tight-engine"}, Words: []string{"hard", "stiff"}},
			{Name: "turns freely", For: []string{"starter", "starter-cables", "battery"}, Else: true, Words: []string{"freely", "free"}}}},
	{Name: "timing-light", Further: true, Titles: []string{"ignition timing"}, Minutes: 15, Whole: true, Way: Runs, Mends: []string{"late-ignition", "early-ignition"}, Fits: sparking, YieldsTo: pointsBeforeTiming, Made: timingSeen, Words: []string{"timing set", "timing light used"},
		Outcomes: []Outcome{
			{Name: "it was late", For: []string{"late-ignition", "advance", "points"}, Words: []string{"late"}},
			{Name: "it was early", For: []string{"early-ignition", "points"}, Words: []string{"early"}},
			{Name: "it was right", Else: true, Words: []string{"right"}}}},
	{Name: "work-it-hard", Titles: []string{"hours under load"}, Minutes: 240, Labour: 20, Whole: true, Way: Runs, Mends: []string{"light-load"}, Fits: mayWorkHard,
		Answers: known.GlazedDiesel.HoldsIn, Words: []string{"load bank", "run under load", "worked under load"},
		Outcomes: []Outcome{
			{Name: "it clears", For: []string{"light-load"}, Words: []string{"clears", "cleared", "less smoke", "better"}, After: []string{"less"}},
			{Name: "no change", Else: true, Words: []string{"same", "as before"}, After: []string{"as before"}}}},
	{Name: "true-tdc", Titles: []string{"top dead center by a piston stop"}, Minutes: 30, Whole: true, Way: Hand, Mends: []string{"timing-mark"}, Fits: holds(known.BaseRight),
		Answers: known.VacuumLow.HoldsIn, Words: []string{"piston stop", "true tdc", "damper ring checked", "timing mark checked"},
		Outcomes: []Outcome{
			{Name: "the mark is off", For: []string{"timing-mark"}, Words: []string{"off", "slipped", "moved", "away", "walked"}, After: []string{"elsewhere"}},
			{Name: "the mark is right", Else: true, Words: []string{"right", "agrees", "good"}, After: []string{"stands there"}}}},
	{Name: "points-set", Titles: []string{"points and timing"}, Minutes: 30, Whole: true, Way: Hand | Opens, Mends: []string{"points", "late-ignition", "early-ignition"},
		Fits: pointsRead, Answers: pointsOff, Words: []string{"points set", "points adjusted", "points gap set", "dwell set"},
		Outcomes: []Outcome{
			{Name: "the gap was off", For: []string{"points"}, Words: []string{"off", "wide", "narrow", "closed"}},
			{Name: "only the timing was off", For: []string{"late-ignition", "early-ignition"}, Words: []string{"timing", "late", "early"}},
			{Name: "both were right", Else: true, Words: []string{"right"}}}},
	{Name: "leak-mended-and-pumped", Titles: []string{"mending the leak"}, Minutes: 60, Labour: 45, Whole: true, Way: Opens | Parts, Mends: []string{"coolant-leak-outside"}, Fits: both(coolingRead, notAtHead), Words: []string{"coolant leak mended", "leak mended", "hose replaced", "water pump replaced"},
		Outcomes: []Outcome{
			{Name: "it holds now", For: []string{"coolant-leak-outside"}, Words: []string{"holds"}},
			{Name: "it still falls", Else: true, Words: []string{"falls"}}}},
	{Name: "joint-dried-and-pumped", Titles: []string{"the head's joint, dried and pumped up"}, Minutes: 15, Whole: true, Fits: func(c *known.Case, _ []string) bool {
		return closedCircuit(c) && known.CoolantAtHead.HoldsIn(c)
	}, Words: []string{"joint dried", "dried and pumped up", "wiped dry and pumped up", "seep dried"},
		Outcomes: []Outcome{
			{Name: "out of the joint", For: []string{"head-gasket", "warped-or-cracked-head"}, Words: []string{"from the joint", "at the joint"}},
			{Name: "from above", For: []string{"coolant-leak-outside", "intake-coolant-gasket"}, Words: []string{"from higher up", "runs down", "from a hose"}},
			{Name: "it stays dry", Else: true, Words: []string{"stayed dry", "dry"}}}},
	{Name: "pan-off-and-pumped", Titles: []string{"oil pan off, and the cooling system pumped up", "sump off, and the cooling system pumped up", "a look from below", "a look from below under pressure"}, Coolant: true, Minutes: 120, Labour: 90, Whole: true, Way: Opens, Fits: func(c *known.Case, _ []string) bool {
		return closedCircuit(c) && c.MayHaveWetLiners() && (c.OilMixed() || known.CoolantBelow.HoldsIn(c)) && !known.LinerKnown.HoldsIn(c)
	}, Answers: func(c *known.Case) bool {
		return known.CoolantBelow.HoldsIn(c) || c.OilMixed() && (known.CoolingInside.HoldsIn(c) || known.CoolingFalls.HoldsIn(c))
	}, Words: []string{"looked at from below", "looked from below", "oil pan off and pumped up", "pan off and pumped up"},
		Outcomes: []Outcome{
			{Name: "at the foot of a liner", For: []string{"liner-seal"}, Words: []string{"foot", "at liner", "from liner", "bottom of liner", "liner weeps"}},
			{Name: "down the inside of a liner", For: []string{"head-gasket", "cracked-bore", "warped-or-cracked-head"}, Words: []string{"inside of", "down the bore", "from the bore", "past the piston"}},
			{Name: "elsewhere", For: []string{"oil-cooler", "intake-coolant-gasket"}, Words: []string{"oil cooler", "front cover", "timing cover"}},
			{Name: "nothing drips", Else: true, Words: []string{"dry", "nothing"}}}},
	{Name: "new-cap", Titles: []string{"a new pressure cap"}, Minutes: 5, Whole: true, Way: Parts, Mends: []string{"pressure-cap"}, Fits: coolingRead, Words: []string{"cap replaced", "another cap"},
		Outcomes: []Outcome{
			{Name: "opens at its mark", For: []string{"pressure-cap"}, Words: []string{"at its mark", "right"}},
			{Name: "opens as before", Else: true, Words: []string{"before", "same"}, After: []string{"it opens where the old one did"}}}},
	{Name: "thermostat-in-water", Minutes: 30, Whole: true, Way: Opens, Mends: []string{"thermostat"}, Fits: coolingRead, Words: []string{"thermostat replaced", "new thermostat"},
		Outcomes: []Outcome{
			{Name: "the new one opens right", For: []string{"thermostat"}, Words: []string{"right"}, After: []string{"it opens at its mark"}},
			{Name: "no change", Else: true, Words: []string{"same"}, After: []string{"it opens where the old one did"}}}},
	{Name: "cooling-look", Titles: []string{"a look at the cooling"}, Minutes: 15, Whole: true, Way: Runs, Fits: func(c *known.Case, cylinders []string) bool { // coolant that is lost inside may stand in a cylinder
		return heatComplained(c, cylinders) && !known.CoolingFalls.HoldsIn(c)
	}, Words: []string{"cooling looked at", "cooling system looked at"},
		Outcomes: []Outcome{
			{Name: "low and wet", For: []string{"coolant-leak-outside"}, Sure: 0.8, Fits: closedCircuit, Words: []string{"low", "wet"}},
			{Name: "little flows", For: []string{"coolant-flow"}, Sure: 0.8, Words: []string{"flow", "blocked", "slips"}},
			{Name: "the hose stays cool", For: []string{"thermostat"}, Sure: 0.8, Fits: func(c *known.Case) bool { return !known.ThermostatGood.HoldsIn(c) }, Words: []string{"cool", "cold"}, After: []string{"gets hot all the same"}},
			{Name: "all as it should be", Else: true, Words: []string{"right"}, After: []string{"all is as it should be"}}}},
	{Name: "fins-look", Titles: []string{"a look at the cooling fins", "cooling fins and fan"}, Minutes: 15, Whole: true, Way: Hand, Mends: []string{"clogged-fins"}, Words: []string{"fins cleaned", "fins looked at", "cowling off"}, Fits: func(c *known.Case, _ []string) bool {
		return c.AirCooled() && c.Complains(overheat)
	}, Answers: func(c *known.Case) bool { return c.AirCooled() && c.Complains(overheat) },
		Outcomes: []Outcome{
			{Name: "clogged or broken", For: []string{"clogged-fins"}, Sure: 0.9, Words: []string{"clogged", "blocked", "packed", "broken", "missing", "nest"}, After: []string{"fins or screen clogged, a fan vane or a baffle gone"}},
			{Name: "clean and whole", Else: true, Words: []string{"clean", "whole", "good"}}}},
	{Name: "exhaust-look", Titles: []string{"a look along the exhaust", "the exhaust from end to end"}, Minutes: 20, Whole: true, Way: Hand, Words: []string{"exhaust looked over", "exhaust looked at", "exhaust checked for leaks"}, Fits: func(c *known.Case, _ []string) bool {
		return known.ExhaustBreathed.HoldsIn(c)
	}, Answers: known.ExhaustBreathed.HoldsIn,
		Outcomes: []Outcome{
			{Name: "it leaks", For: []string{"exhaust-leak"}, Sure: 0.8, Words: []string{"leak", "soot", "crack", "hole", "loose"}, After: []string{"a trail of soot, a crack, a hole or an open joint"}},
			{Name: "tight to its end", Else: true, Words: []string{"tight", "sound", "good"}}}},
	{Name: "oil-cooler-test", Titles: []string{"testing the oil cooler"}, Minutes: 30, Whole: true, Way: Opens, Fits: coolingRead, Answers: oilInCoolant, Words: []string{"oil cooler tested", "oil cooler pressed"},
		Outcomes: []Outcome{
			{Name: "it leaks", For: []string{"oil-cooler"}, Words: []string{"leaks"}, After: []string{"bubbles come"}},
			{Name: "it is tight", Else: true, Words: []string{"tight", "holds"}}}},
	{Name: "egr-cooler-look", Titles: []string{"a look into the exhaust-gas cooler"}, Minutes: 40, Whole: true, Way: Hand | Opens, Fits: func(c *known.Case, _ []string) bool { return c.MayCoolItsExhaust() }, Words: []string{"egr cooler", "exhaust gas cooler"},
		Outcomes: []Outcome{
			{Name: "coolant in it", For: []string{"egr-cooler"}, Words: []string{"coolant", "wet", "leaks", "cracked"}},
			{Name: "dry", Else: true, Words: []string{"dry", "tight"}}}},
	{Name: "injector-bench", Further: true, Titles: []string{"injector on a bench"}, Minutes: 90, Fuel: true, Way: Opens, Fits: func(c *known.Case, _ []string) bool {
		return c.Spec.Diesel() && (c.Has(known.NeedsTest(known.DieselTests)) || !c.AnyLow(c.Read()) && c.AllLow() == nil || c.Found(known.FuelInOil...))
	},
		Made:  readIn(known.DieselTests, "nozzles opening", "nozzles drip"),
		Words: []string{"injector bench tested", "injectors bench tested", "injector on the bench", "nozzle tested"},
		Outcomes: []Outcome{
			{Name: "out of limits", For: []string{"diesel-injector"}, Words: []string{"bad", "worn", "drips"}},
			{Name: "within limits", Else: true, Words: []string{"good"}}}},
	{Name: "glow-plug-test", Further: true, Titles: []string{"the glow plugs", "testing the glow plugs"}, Minutes: 15, Whole: true, Fits: func(c *known.Case, _ []string) bool {
		return c.Spec.Diesel() && (c.Complains(hardStart) || c.WillNotStart() || c.Smokes("white"))
	}, Made: readIn(known.DieselTests, "glow"), Words: []string{"glow plugs tested", "glow plugs measured", "glow plugs checked"},
		Outcomes: []Outcome{
			{Name: "one is open", For: []string{"glow-plug"}, Words: []string{"open", "dead"}},
			{Name: "nothing arrives", For: []string{"glow-feed"}, Words: []string{"no voltage", "no feed", "nothing arrives"}},
			{Name: "all sound", Else: true, Words: []string{"sound", "good", "alike"}, After: []string{"all are alike, and fed"}}}},
	{Name: "renew-glow-plug", Minutes: 40, Way: Opens | Parts | Runs, Mends: []string{"glow-plug"}, Fits: func(c *known.Case, _ []string) bool { return c.Spec.Diesel() }, Words: []string{"new glow plug", "glow plug renewed", "glow plugs renewed", "glow plug replaced"},
		Outcomes: []Outcome{
			{Name: "starts well", For: []string{"glow-plug"}, Words: []string{"well"}},
			{Name: "no change", Else: true, Words: []string{"same"}}}},
	{Name: "clean-and-flow", Titles: []string{"cleaning the injectors"}, Minutes: 60, Labour: 40, Way: Opens, Mends: []string{"dirty-injectors"}, Fits: func(c *known.Case, _ []string) bool {
		return injectorsOut(c) && !known.InjectorsCleaned.HoldsIn(c)
	}, Words: []string{"injectors cleaned", "cleaned and flowed again"},
		Outcomes: []Outcome{
			{Name: "gives what the others give", For: []string{"dirty-injectors"}, Words: []string{"right", "same as the others"}},
			{Name: "still apart", For: []string{"own-injector"}, Else: true, Words: []string{"apart", "less", "more"}}}},
	{Name: "refit-and-run", Titles: []string{"running on the cleaned injectors"}, Minutes: 30, Whole: true, Way: Runs, Mends: []string{"dirty-injectors"}, Fits: holds(known.InjectorsCleaned), Words: []string{"injectors refitted and run"},
		Outcomes: []Outcome{
			{Name: "runs well", For: []string{"dirty-injectors"}, Words: []string{"well", "gone"}},
			{Name: "no change", Else: true, Words: []string{"same"}}}},
	{Name: "breather-clear", Titles: []string{"crankcase ventilation"}, Minutes: 20, Whole: true, Way: Runs | Opens, Mends: []string{"breather"}, Fits: func(c *known.Case, _ []string) bool {
		return c.Has(known.NeedsTest(known.Crankcase)) && !quietVent(c) && !known.CrankcaseDraws.HoldsIn(c) // there is a pressure that it may let go
	}, Words: []string{"breather cleared", "ventilation cleared"},
		Outcomes: []Outcome{
			{Name: "it falls", For: []string{"breather"}, Words: []string{"falls", "fell"}},
			{Name: "stays high", For: []string{"rings", "wear", "turbo-seal", "blower-seals", "air-compressor", "piston"}, Else: true, Words: []string{"stays", "high"}}}},
	{Name: "compressor-unloaded", Titles: []string{"crankcase with the air compressor unloaded"}, Minutes: 15, Whole: true, Way: Runs, Answers: known.CrankcaseHigh.HoldsIn, Fits: func(c *known.Case, _ []string) bool {
		return c.BrakesByAir() && c.Has(known.NeedsTest(known.Crankcase))
	}, Words: []string{"compressor unloaded", "compressor cut out"},
		Outcomes: []Outcome{
			{Name: "it falls", For: []string{"air-compressor"}, Sure: 0.8, Words: []string{"falls", "fell", "drops"}},
			{Name: "it stays", Else: true, Words: []string{"stays", "stayed", "same"}}}},
	{Name: "turbo-look", Titles: []string{"the turbocharger"}, Minutes: 15, Whole: true, Fits: func(c *known.Case, _ []string) bool { return charged(c) },
		Answers: func(c *known.Case) bool { return c.Smokes("blue", "load", "always") }, YieldsTo: ventBeforeTurbo, Words: []string{"turbo looked at", "turbo play felt", "oil in the intake hose"},
		Outcomes: []Outcome{
			{Name: "oil lies in it", For: []string{"turbo-seal"}, Sure: 0.8, Words: []string{"oil in it", "pools", "play"}},
			{Name: "dry and firm", Else: true, Clears: true, Words: []string{"dry", "firm", "no play"}}}},
	{Name: "blower-look", Titles: []string{"blower and air box"}, Minutes: 30, Whole: true, Way: Opens, Fits: func(c *known.Case, _ []string) bool {
		return blown(c) && (known.CrankcaseHigh.HoldsIn(c) || c.UsesOil())
	},
		Answers: known.CrankcaseHigh.HoldsIn, YieldsTo: ventBeforeTurbo, Words: []string{"blower looked at", "air box looked at", "air box drains looked at"},
		Outcomes: []Outcome{
			{Name: "oil on its ends", For: []string{"blower-seals"}, Sure: 0.8, Words: []string{"oil on", "streaks", "wet with oil"}},
			{Name: "a drain is plugged", For: []string{"air-box-drains"}, Words: []string{"plugged", "drain blocked"}},
			{Name: "dry and clear", Else: true, Clears: true, Words: []string{"dry", "clear"}}}},
	{Name: "boost-hoses-look", Titles: []string{"the boost hoses"}, Minutes: 10, Whole: true, Mends: []string{"boost-leak"}, Fits: losesBoost, Words: []string{"boost hoses looked at", "boost leak test", "boost hoses checked", "charge hoses checked", "intake pressed up"},
		Outcomes: []Outcome{
			{Name: "one is split or loose", For: []string{"boost-leak"}, Words: []string{"split", "loose", "leaks", "off"}},
			{Name: "all are sound", Else: true, Words: []string{"sound", "tight"}}}},
	{Name: "springs-and-guides", Titles: []string{"valve springs"}, Minutes: 60, Whole: true, Way: Opens, Answers: springsFloat, Fits: func(c *known.Case, _ []string) bool { return c.HasValves() && c.Has(known.NeedsTest(known.Vacuum)) }, Words: []string{"springs tested", "valve springs checked"},
		Outcomes: []Outcome{
			{Name: "weak or broken", For: []string{"valve-springs"}, Words: []string{"weak", "broken"}},
			{Name: "springs good", Else: true, Clears: true, Words: []string{"good"}}}},
}

// ventBeforeTurbo is the crankcase ventilation, where the crankcase is over its limit with it
// connected: that pressure drives oil past a turbocharger's sound seals, so that oil found in
// it tells nothing until the pressure is gone.
func ventBeforeTurbo(c *known.Case) string {
	if known.CrankcaseHigh.HoldsIn(c) && known.VentInPlace.HoldsIn(c) {
		return "breather-clear"
	}
	return ""
}

// mayWorkHard is a diesel with glazed walls of which nothing is known that work would harm.
func mayWorkHard(c *known.Case, _ []string) bool {
	return known.GlazedDiesel.HoldsIn(c) && !c.Complains(noise, overheat, coolantLoss) && !known.OilShort.HoldsIn(c) && !known.OilOverFull.HoldsIn(c)
}

// losesBoost is an engine with a turbocharger that lacks power, smokes black as it pulls, or
// gets the more fuel too much the faster it turns.
func losesBoost(c *known.Case, _ []string) bool {
	return charged(c) && (c.Complains(lowPower, rich) || c.Smokes("black", "load") || known.TrimRichFast.HoldsIn(c))
}

// springsFloat is an engine whose needle swings wider with speed and of which a cylinder
// does not fill or pull as the others do, its valves not found to open too little.
func springsFloat(c *known.Case) bool {
	if !known.VacuumSwings.HoldsIn(c) {
		return false
	}
	floats := known.All(known.Any(known.BreathesInPoorly, known.PullsLittle, known.PullsNothing), known.Not(known.LiftsLittle), known.LiftRight)
	return slices.ContainsFunc(c.Every(), func(n string) bool { return floats.HoldsOf(c, n) })
}

// starterInDoubt is an engine whose starter was measured, or that it turned too
// slowly in its tests.
func starterInDoubt(c *known.Case, _ []string) bool {
	return c.Has(known.NeedsTest(known.Starting)) || (known.CameUpWithCharger.HoldsIn(c) || known.SlowAndStartsBadly.HoldsIn(c))
}

// backPressureRead is an engine whose exhaust was measured: ahead of it, or by the
// vacuum while the speed was held.
func backPressureRead(c *known.Case, _ []string) bool {
	return c.Has(known.NeedsTest(known.BackPressure)) || c.Measured(known.Vacuum).Reading("held later") != nil
}

// oilInCoolant is an engine with oil in its coolant: pumping up the coolant tells
// little of where oil, at several times its pressure, gets in.
func oilInCoolant(c *known.Case) bool { return known.CoolingOil.HoldsIn(c) }

// pointsRead is an engine with contact points: their gap or dwell was read, and not found right.
func pointsRead(c *known.Case, _ []string) bool {
	r := c.Measured(known.Timing)
	return !c.Spec.Diesel() && r != nil && !known.PointsRight.HoldsIn(c) && (r.Reading("dwell") != nil || r.Reading("points-gap") != nil)
}

// pointsBeforeTiming: every change of the points' gap moves the spark, so that a timing set
// before them is set twice. A wide gap makes it early, a small one late.
func pointsBeforeTiming(c *known.Case) string {
	if pointsOff(c) {
		return "points-set"
	}
	return ""
}

// timingSeen is an engine whose spark is known to come at its moment: it was read so, or
// found so when its points were looked at.
func timingSeen(c *known.Case, cylinders []string) bool {
	early := known.MuchAdvance.HoldsIn(c) && !known.BaseRight.HoldsIn(c) // by its own limit at speed, and at idle none was given
	return !early && keptIn(known.Timing, "base")(c, cylinders) || known.PointsFoundRight.HoldsIn(c)
}

func pointsOff(c *known.Case) bool { return known.DwellOff.HoldsIn(c) }

// notAtHead is coolant that was not seen at the joint of the head, whose gasket no hose mends.
func notAtHead(c *known.Case, _ []string) bool { return !known.CoolantAtHead.HoldsIn(c) }

func coolingRead(c *known.Case, _ []string) bool {
	return !c.AirCooled() && c.Has(known.NeedsTest(known.Cooling))
}

// injectorsOut is an engine of which the injectors were out to be measured.
func injectorsOut(c *known.Case) bool { return c.Has(known.NeedsTest(known.Injectors)) && c.Injected() }

// heatComplained is an engine with coolant that is said to get too hot.
func heatComplained(c *known.Case, _ []string) bool {
	return !c.AirCooled() && (c.Complains(overheat) || known.WarmClimbs.HoldsIn(c))
}

// furtherOutside is a job with a reading of a further test past its limit, or one that
// says nothing of it.
func furtherOutside(c *known.Case, _ []string) bool {
	if len(c.ReadingsLeftOpen()) > 0 {
		return true
	}
	for i := range c.Sums.Measured {
		if r, _ := known.WorstOf(&c.Sums.Measured[i], known.Past); r != nil {
			return true
		}
	}
	return known.OilOverUsual.HoldsIn(c) || known.VacuumHigh.HoldsIn(c)
}
