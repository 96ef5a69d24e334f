package rule

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// What the further tests speak for and against in the stories of other readings.
var systemSigns = []Sign{
	// Little gas past the rings says that what a leakage test counts there is the
	// tester's, or the gaps of sound rings.
	{Needs: needsTest(known.Crankcase), When: known.CrankcaseQuiet, Kind: OfCrankcase, About: "cylinders", Against: littleBlowBy},
	{Needs: needsTest(known.Crankcase), When: known.All(known.CrankcaseQuiet, known.OfAny("some of them lose too much air", func(c *known.Case, n string) bool { return c.HighLoss(n) })),
		Kind: OfCrankcase, About: "cylinders", For: speaks(Known, "tester-scale")},
	{Needs: needsTest(known.Crankcase), When: known.CrankcaseQuiet, Kind: OfCrankcase, About: "engine", Against: littleBlowBy},
	{Needs: needsTest(known.Crankcase), When: known.CrankcaseDraws, Kind: OfCrankcase, About: "any", Against: denies(Known, "crankcase-draws", "breather")},
	// Air that is held, and pressure that is even and enough, speak for the
	// ventilation where the crankcase presses.
	{Needs: []known.Need{known.NeedsLeakage}, When: known.OfEngine("hardly any air lost", tightThroughout), Kind: OfLeakage, About: "system", Against: denies(Heard, "holds-air", "rings", "wear", "piston")},
	{Needs: []known.Need{known.NeedsCompression}, When: pressureSound, Kind: OfCompression, About: "system", Against: denies(DryUp, "pressure-is-even", "rings", "wear", "piston")},
	// Gas past a piston says nothing of why it gets past: rings that are worn, that
	// stick or that run dry let it by alike.
	{Needs: needsTest(known.Crankcase), When: pressesInside, Kind: OfCrankcase, About: "engine", For: speaks(DryUp, pastPiston...)},
	{Needs: needsTest(known.Crankcase), When: pressesInside, Kind: OfCrankcase, About: "cylinders", For: speaks(DryUp, pastPiston...)},
	// What has stood gums up in its guides.
	{Needs: needsTest(known.Vacuum), When: known.All(known.VacuumStrays, known.CameOfStanding), Kind: OfHistory, About: "system", For: speaks(Known, "sticking-valve")},
	// A clearance that is right takes itself off the list; one that is not comes first.
	{Needs: needsTest(known.Clearance), When: known.ClearanceRight, Kind: OfClearance, About: "cylinders", Against: denies(2*Heard, "clearance-is-right", "valve-lash")},
	// One that is wide holds no valve open: it hangs in its guide, its seat has come loose, or what moves it is bent or worn.
	{Needs: needsTest(known.Clearance), When: known.ClearanceWide, Kind: OfClearance, About: "cylinders", Against: denies(2*Heard, "clearance-is-wide", "valve-lash")},
	{Needs: needsTest(known.Clearance), When: known.All(known.ClearanceWide, known.Low, known.Not(known.Tight)), Kind: OfClearance, About: "cylinders",
		For: append(speaks(DryUp, "stuck-valve"), speaks(Hint, "valve-motion", "bent-valve")...)},
	{Needs: needsTest(known.Clearance), When: known.HangsWide, Kind: OfClearance, About: "cylinders", For: append(speaks(2*Heard, "stuck-valve"), speaks(Known, "valve-motion")...),
		Against: denies(DryUp, "clearance-is-wide", "exhaust-valve", "inlet-valve")},
	{Needs: needsTest(known.Clearance), When: known.All(known.ClearanceWide, known.Low, known.Tight), Kind: OfClearance, About: "cylinders", For: speaks(Known, "valve-motion")},
	// How the manifold draws tells late valves from wear and from a gauge, where all
	// cylinders read low.
	{Needs: needsTest(known.Vacuum), When: known.All(known.UnderFloor, known.VacuumLow), Kind: OfVacuum, About: "engine", For: speaks(Known, "cam-timing"), Against: denies(DryUp, "vacuum-is-low", "gauge-reads-low", "gauge-valve-leaks", "throttle-or-choke")},
	// What chokes the inlet raises it.
	{Needs: needsTest(known.Vacuum), When: known.All(known.UnderFloor, known.VacuumLow), Kind: OfVacuum, About: "engine", Against: denies(Known, "vacuum-is-low", "restricted-inlet")},
	{Needs: needsTest(known.Vacuum), When: known.All(known.UnderFloor, known.VacuumRight), Kind: OfVacuum, About: "engine", For: speaks(Known, "gauge-reads-low"), Against: denies(Known, "vacuum-is-right", "cam-timing", "timing-drive", "cam-phaser", "restricted-exhaust", "air-leak", "manifold-gasket")},
	{Needs: needsTest(known.Vacuum), When: known.All(known.UnderFloor, known.VacuumRecovers), Kind: OfVacuum, About: "engine", For: speaks(Known, "wear")},
	{Needs: needsTest(known.Vacuum), When: known.All(known.UnderFloor, known.VacuumFalls), Kind: OfVacuum, About: "engine", For: speaks(Known, "restricted-exhaust")},
	{Needs: needsTest(known.Vacuum), When: known.All(known.VacuumRight, known.Not(known.UnderFloor)), Kind: OfVacuum, About: "engine", Against: denies(DryUp, "vacuum-is-right", "cam-timing", "worn-chain", "timing-drive", "late-ignition", "restricted-exhaust", "air-leak", "wear")},
	{Needs: needsTest(known.Vacuum), When: known.VacuumHolds, Kind: OfVacuum, About: "any", Against: denies(DryUp, "vacuum-holds", "restricted-exhaust")},
	{Needs: needsTest(known.Vacuum), When: known.All(known.VacuumRight, known.Not(known.UnderFloor)), Kind: OfVacuum, About: "cylinders", Against: denies(DryUp, "vacuum-is-right", "cam-timing", "worn-chain", "wear")},
	{Needs: needsTest(known.Vacuum), When: known.All(known.VacuumDrops, known.Not(known.Low)), Kind: OfVacuum, About: "cylinders", For: speaks(Hint, "exhaust-valve", "inlet-valve")},
	{Needs: needsTest(known.BackPressure), When: known.BackPressureRight, Kind: OfExhaust, About: "any", Against: denies(Heard, "exhaust-is-free", "restricted-exhaust")},
	// What holds cold may open hot or under combustion: where its gas was found in the
	// coolant, that clears nothing.
	{Needs: needsTest(known.Cooling), When: known.All(known.CoolingHolds, known.Not(known.GasFound), known.Not(known.AirAt(known.AtNeighbour)), known.Not(lowBeside)),
		Kind: OfCooling, About: "cylinders", Against: noPathToCoolant(Hint, "cooling-system-held")},
	// The water of a boat's exhaust comes from the other side of the valve, and a gasket
	// that let in this much would not hold pressure.
	{Needs: needsTest(known.Cooling), When: known.All(known.CoolingHolds, known.WaterFromExhaust), Kind: OfCooling, About: "cylinders", For: speaks(Hint, "wet-exhaust"), Against: noPathToCoolant(DryUp, "cooling-system-held")},
	{Needs: needsTest(known.Cooling), When: known.CoolingFalls, Kind: OfCooling, About: "cylinders", For: pathToCoolant(DryUp, Hint)},
	// Coolant that goes inside and leaves no gas in the coolant goes where no cylinder
	// presses: through the cooler of the exhaust gas, where there is one.
	{When: known.All(known.NoGasFound, known.Any(known.Complaint("coolant loss"), known.CoolingFalls), known.Not(known.CoolingOutside), known.Not(known.CoolantOutside), known.Not(known.CoolingOil), known.Not(known.OfEngine("coolant in the oil", (*known.Case).OilMixed))), Kind: OfCoolant, About: "any", For: speaks(Known, "egr-cooler")},
	{Needs: needsTest(known.Trims), When: known.TrimsGood, Kind: OfTrims, About: "mixture", Against: denies(Known, "trims-are-right", "rich-mixture", "lean-mixture", "air-leak", "purge-valve", "air-meter")},
	// What is told of the idle alone: a mixture that needs no correction, a spark in
	// its place and cylinders that all pull leave burned gas that gets in.
	{Needs: needsTest(known.Trims), When: known.IdleTrimsGood, Kind: OfTrims, About: "system", Against: denies(Known, "trims-are-right", "rich-mixture", "lean-mixture", "air-leak", "manifold-gasket", "air-meter", "purge-valve")},
	{Needs: append(needsTest(known.Trims), known.NeedsTest(known.Vacuum)), When: known.All(known.IdleTrimsGood, known.Any(known.IdleShort, known.IdleAlone)), Kind: OfTrims, About: "system", For: speaks(DryUp, "egr-open")},
	{Needs: needsTest(known.Vacuum), When: known.All(known.OfEngine("a stored code of too much exhaust gas led back (P0402)", func(c *known.Case) bool { return c.Coded("P0402") }),
		known.Any(known.IdleShort, known.IdleAlone, known.VacuumFloats, known.VacuumSteadies)), Kind: OfCodes, About: "system", For: speaks(DryUp, "egr-open")},
	{Needs: needsTest(known.Vacuum), When: known.IdleAlone, Kind: OfVacuum, About: "system", For: speaks(2*rarer, "egr-open"), Against: denies(DryUp, "right-at-speed", "cam-timing", "restricted-exhaust", "wear", "rings")},
	{Needs: needsTest(known.Vacuum), When: known.IdleRight, Kind: OfVacuum, About: "system", Against: denies(DryUp, "idle-is-right", "egr-open")},
	// Two that are idle together and have a coil in common seldom have reasons of their own.
	{Needs: needsTest(known.Balance), When: known.All(known.MateIdle, known.Not(known.Low)), Kind: OfBalance, About: "cylinders", For: append(speaks(Known, "shared-coil"), speaks(Hint, "coil-feed")...),
		Against: denies(Known, "coil-mate-idle", "own-spark", "own-injector")},
	{Needs: needsTest(known.Balance), When: known.SetIdle, Kind: OfBalance, About: "cylinders", For: speaks(Heard, "deactivation-lifter"),
		Against: denies(DryUp, "set-idle", "own-spark", "own-injector", "coil-or-lead", "head-gasket")},
	{When: known.All(known.MateCoded, known.Not(known.Low)), Kind: OfCodes, About: "cylinders", Against: denies(DryUp, "coil-mate-coded", "own-spark", "own-injector")},
	{Needs: needsTest(known.Timing), When: known.BaseRight, Kind: OfTiming, About: "any", Against: append(denies(Heard, "timing-is-right", "late-ignition"), denies(Known, "timing-is-right", "early-ignition")...)},
	{Needs: needsTest(known.Balance), When: known.BalanceEven, Kind: OfBalance, About: "system", Against: append(denies(Known, "balance-is-even", "own-spark", "own-injector", "coil-or-lead", "exhaust-valve", "inlet-valve", "head-gasket"), denies(Hint, "balance-is-even", "ignition")...)},
	// A valve that hardly opens, and a cylinder without its bearing's oil, pull less or knock
	// less as they are cut out.
	{Needs: needsTest(known.Balance), When: known.All(known.BalanceEven, known.Complaint("noise")), Kind: OfBalance, About: "engine",
		Against: denies(Known, "balance-is-even", "valve-motion", "collapsed-lifter", "deactivation-lifter", "valve-lash")},
	{Needs: needsTest(known.Trims), When: known.TrimsGood, Kind: OfTrims, About: "engine", Against: denies(DryUp, "trims-are-right", "rich-mixture", "lean-mixture", "air-leak", "air-meter", "fuel-filter", "pump", "low-fuel-pressure", "supply-restricted", "leaking-injector", "temperature-signal")},
	{Needs: needsTest(known.Cooling), When: known.All(known.CoolingHolds, known.CoolingDry), Kind: OfCooling, About: "engine", Against: denies(Known, "cooling-system-held", "coolant-leak-outside")},
	{Needs: needsTest(known.Cooling), When: known.All(known.CoolingHolds, known.CoolingDry, known.Not(known.GasFound)), Kind: OfCooling, About: "engine", Against: noPathToCoolant(Hint, "cooling-system-held")},
	// Bubbles that were seen are the gas that the test found.
	{Needs: needsTest(known.Cooling), When: known.All(known.CoolingBubbles, known.GasFound), Kind: OfCooling, About: "any", For: pathToCoolant(Known, DryUp)},
	{Needs: []known.Need{known.NeedsLeakage}, When: known.OfEngine("hardly any air lost", tightThroughout), Kind: OfLeakage, About: "engine", Against: denies(Known, "holds-air", "wear", "rings")},
	{Needs: []known.Need{known.NeedsLeakage}, When: known.All(known.OfEngine("hardly any air lost", tightThroughout), known.Not(known.GasAndGoes)), Kind: OfLeakage, About: "engine", Against: noPathToCoolant(Hint, "holds-air")}, // what opens hot holds cold
	// One pump, one air meter and one purge valve serve both banks; sensors that were
	// exchanged drive them apart.
	{Needs: needsTest(known.Trims), When: known.All(known.TrimsCross, known.Not(known.SootOfLeaned)), Kind: OfTrims, About: "mixture", For: speaks(Heard, "sensors-crossed")},
	{Needs: needsTest(known.Trims), When: known.TrimsCross, Kind: OfTrims, About: "mixture",
		Against: denies(Heard, "other-bank-shares", "air-meter", "fuel-filter", "pump", "low-fuel-pressure", "supply-restricted", "regulator-diaphragm", "purge-valve", "air-leak", "bank-exhaust-leak")},
	// Air that gets to a sensor makes the computer add fuel: where it takes fuel out, none does
	// but behind the sensor, which thins the gas,
	// and what is black in spite of that gets more than was asked for.
	{Needs: needsTest(known.Trims), When: known.All(known.TrimOnlyRich, known.Not(known.GasLean)), Kind: OfTrims, About: "mixture", For: speaks(DryUp, "own-injector"), Against: denies(Heard, "trims-take-out", "bank-exhaust-leak", "air-leak", "manifold-gasket", "injector-seals")},
	{Needs: needsTest(known.Gas), When: known.GasRight, Kind: OfGas, About: "mixture", Against: denies(Known, "gas-is-right", "rich-mixture", "lean-mixture")},
	{Needs: needsTest(known.Gas), When: known.GasRich, Kind: OfGas, About: "mixture", For: speaks(Hint, "rich-mixture")},
	{Needs: needsTest(known.Timing), When: known.CamLate, Kind: OfTiming, About: "engine", For: speaks(Heard, "cam-timing")},
	{Needs: needsTest(known.Clearance), When: known.LiftsLittle, Kind: OfClearance, About: "cylinders", For: speaks(Heard, "valve-motion")},
	// A spring that lets its valve float shows at speed: in the needle, and in the cylinder
	// that does not fill or does not pull. The lift by hand is right there.
	{Needs: needsTest(known.Vacuum), When: known.All(known.VacuumSwings, known.Any(known.BreathesInPoorly, known.PullsLittle, known.PullsNothing), known.Not(known.LiftsLittle)), Kind: OfVacuum, About: "cylinders", For: speaks(Known, "valve-springs")},
	{Needs: needsTest(known.Clearance), When: known.LiftRight, Kind: OfClearance, About: "cylinders", Against: append(denies(Heard, "lift-is-right", "valve-motion"), denies(Known, "lift-is-right", "collapsed-lifter", "deactivation-lifter")...)},
	// One camshaft moves the valves of more than one cylinder: what it does late it does
	// late in all of them.
	{Needs: []known.Need{known.NeedsCompression}, When: loneOfItsCamshaft, Kind: OfCompression, About: "cylinders", Against: denies(Heard, "camshaft-shared", "cam-timing", "cam-phaser", "timing-drive", "worn-chain")},
	// A valve that was measured or read not to move as it should accounts for a cylinder
	// that does no work: its spark and its fuel are looked at after that.
	{Needs: needsTest(known.Balance), When: known.All(known.Any(known.LiftsLittle, known.BreathesInPoorly, known.BreathesOutPoorly), known.Any(known.PullsLittle, known.PullsNothing), known.BalanceTells), Kind: OfBalance, About: "cylinders",
		For: speaks(Hint, "valve-motion"), Against: denies(Known, "valve-explains", "own-spark", "own-injector", "diesel-injector", "coil-or-lead")},
	// A rail that does not come up is what an injector that gives back too much does to it.
	{Needs: needsTest(known.DieselTests), When: known.All(known.ReturnsMuch, known.Not(known.Low), known.OfEngine("a stored code P0087", func(c *known.Case) bool { return c.Coded("P0087") })), Kind: OfCodes, About: "cylinders", For: speaks(DryUp, "diesel-injector")},
	// What stands where it should, and presses as it should, is not short of oil; a rod may knock all the same.
	{Needs: needsTest(known.Oil), When: known.OilLevelRight, Kind: OfOil, About: "any", Against: denies(Heard, "oil-level-is-right", "too-little-oil")},
	{Needs: needsTest(known.Oil), When: known.OilWithin, Kind: OfOil, About: "engine", Against: denies(Known, "oil-pressure-is-right", "bottom-end", "worn-bearings", "too-little-oil", "oil-pick-up")},
	// A starter that works as hard on a cylinder as on the others gives its gauge the lie, less
	// where a tester of its own finds the leak as well: two that lie alike are rare.
	{Needs: append(needsTest(known.Starting), known.NeedsCompression), When: known.All(known.Low, known.PeakAlike, known.Not(leakFound)), Kind: OfStarting, About: "cylinders", For: append(speaks(Heard, "adapter-leak"), speaks(Known, "gauge-reads-low")...),
		Against: denies(DryUp, "starter-alike", sealsOfLow...)},
	{Needs: append(needsTest(known.Starting), known.NeedsCompression), When: known.All(known.Low, known.PeakAlike, leakFound), Kind: OfStarting, About: "cylinders",
		Against: denies(Hint, "starter-alike", sealsOfLow...)},
	{Needs: needsTest(known.Starting), When: known.All(known.PeakLow, known.Not(known.Low)), Kind: OfStarting, About: "cylinders", For: speaks(Hint, "exhaust-valve", "rings")},
}

// sealsOfLow are what lets the pressure of one cylinder out.
var sealsOfLow = []string{"exhaust-valve", "inlet-valve", "rings", "head-gasket", "warped-or-cracked-head", "valve-lash", "holed-piston", "stuck-valve", "valve-motion"}

// leakFound is a cylinder that loses too much air at a place inside the engine.
var leakFound = known.OfAll("it loses too much air, heard inside the engine", func(c *known.Case, n string) bool {
	return c.HighLoss(n) && c.PlaceNoted(n) && !c.LeaksAt(n, known.AtOutside)
})

// loneOfItsCamshaft is a low cylinder whose camshaft moves the valves of others that hold
// their pressure: the only low one, or one of fewer than those of its bank that are even.
var loneOfItsCamshaft = known.All(known.Low, known.OfAll("the only low one, beside others of its bank that were read, or one of fewer than those of its bank that are even", func(c *known.Case, n string) bool {
	bank, low, even, others := c.Engine.BankOf(n), 0, 0, 0
	for _, o := range c.Read() {
		switch {
		case c.Engine.BankOf(o) != bank:
		case c.Grade(o).IsLow():
			low++
		case c.Grade(o) == diag.Even && c.AllLow() == nil:
			even++
		}
		if o != n && c.Engine.BankOf(o) == bank {
			others++
		}
	}
	return len(c.LowSet()) == 1 && others > 0 || even > low
}))

// pastPiston are the ways past a piston, with which its gas comes into the crankcase.
var pastPiston = []string{"rings", "wear", "stuck-rings", "piston", "scored-bore", "holed-piston", "broken-ring-land", "dry-bores", "washed-bore"}

// littleBlowBy is what a quiet crankcase says against these, and against a ventilation that lets
// nothing out.
var littleBlowBy = denies(Known, "little-blow-by", append([]string{"breather"}, pastPiston...)...)

// pressesInside is gas in the crankcase past its limit, or pressure where a connected
// ventilation should draw.
var pressesInside = known.Any(known.CrankcaseHigh, pressesUnlimited)

// lowBeside is a cylinder beside which another is low: what may leak from one into
// the other never comes to the coolant.
var lowBeside = known.OfAll("a low cylinder beside it", func(c *known.Case, n string) bool {
	return slices.ContainsFunc(c.NeighboursOf(n), func(other string) bool { return c.Grade(other).IsLow() })
})
