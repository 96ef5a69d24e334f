package rule

import (
	"slices"

	"gaugesheet/diag/known"
)

// washedAndGas is a cylinder that coolant has washed the plug of, in an engine that presses its
// gas into the coolant: both meet there, whatever it loses at rest.
var washedAndGas = known.All(known.GasFound, known.OfAll("a plug with coolant on it", func(c *known.Case, n string) bool { return c.Looks(n, "coolant") }))

// What a leakage test speaks for and against beside what its rules find.
var leakageSigns = []Sign{
	{
		When: known.All(known.Tight, known.Not(placed), known.Not(oiled)), Kind: OfLeakage, About: "cylinders",
		Against: append(denies(Sight, "holds-air", "exhaust-valve", "inlet-valve", "bent-valve", "stuck-valve", "carbon-on-seat", "rings", "stuck-rings", "scored-bore",
			"piston", "holed-piston", "broken-ring-land", "wear", "dry-bores", "washed-bore"), denies(DryUp, "holds-air", "fault-in-each")...),
	},
	{ // a clearance that has closed up says that the seat sinks, however well it still seals
		When: known.All(known.Tight, known.Not(placed), known.Not(oiled), known.Not(known.ClearanceTight), known.Not(known.ValveHeldOpen)), Kind: OfLeakage, About: "cylinders",
		Against: denies(Sight, "holds-air", "valve-recession"),
	},
	{ // coolant that was there got in past something: what seeps in overnight lets no air out in minutes, and what opens hot holds cold
		When: known.All(known.Tight, known.Not(placed), known.Not(oiled), known.Not(known.CoolantThere), known.Not(washedAndGas), known.Not(known.GasAndGoes)), Kind: OfLeakage, About: "cylinders",
		Against: denies(DryUp, "holds-air", "head-gasket", "warped-or-cracked-head"),
	},
	{ // it lifts a valve as the piston comes up, and lets go of it where leakage is tested
		When: known.All(known.ReleasesItself, known.Low, known.Tight, known.Not(placed)), Kind: OfLeakage, About: "cylinders", For: speaks(Heard+rarer, "decompressor-stuck"),
	},
	{ // oil on the rings hides what leaks past them, not what leaks past a valve
		When: known.All(known.Tight, known.Not(placed), oiled), Kind: OfLeakage, About: "cylinders",
		Against: append(denies(Sight, "holds-air", "exhaust-valve", "inlet-valve", "bent-valve", "stuck-valve", "carbon-on-seat", "valve-recession"),
			denies(Hint, "holds-air", "rings", "stuck-rings", "scored-bore", "piston", "wear", "dry-bores", "washed-bore", "head-gasket", "warped-or-cracked-head")...),
	},
	{
		When: known.All(tooHigh, known.Not(atValve), known.Not(known.LossTooSmall)), Kind: OfLeakage, About: "cylinders",
		Against: denies(Known, "loses-air", "valve-motion", "collapsed-lifter", "deactivation-lifter", "cam-timing", "restricted-inlet", "throttle-or-choke", "weak-cranking"),
	},
	{ // timing can hold a valve open as well; what draws in too little cannot
		When: known.All(tooHigh, atValve, known.Not(known.LossTooSmall)), Kind: OfLeakage, About: "cylinders",
		Against: denies(Known, "loses-air", "restricted-inlet", "throttle-or-choke", "weak-cranking", "cold-engine"),
	},
	{ // what a gauge reads is no riddle where all that it is read of lets its air out at a valve
		When: known.All(known.OfEngine("every cylinder whose pressure was read loses 30 % and more at a valve, and none at its crankcase", allOutAtValves)), Kind: OfLeakage, About: "any",
		Against: append(denies(Known, "loses-air", "gauge-reads-low", "gauge-valve-leaks", "not-run-in", "dry-bores", "low-ratio"), denies(DryUp, "loses-air", "cam-timing", "wear")...),
	},
	{ // what cannot be pressed together does not burn, whatever spark and fuel it gets
		When: openAtRest, Kind: OfLeakage, About: "cylinders",
		Against: denies(Heard, "leak-explains", "own-spark", "own-injector", "diesel-injector", "coil-or-lead"),
	},
	{
		When: known.All(atValve, known.Not(known.AirAt(known.AtCrankcase))), Kind: OfLeakage, About: "cylinders",
		Against: denies(DryUp, "air-elsewhere", "rings", "stuck-rings", "scored-bore", "wear"),
	},
	{
		When: known.All(atValve, known.Not(known.AirAt(known.AtCoolant)), known.Not(known.AirAt(known.AtNeighbour)), known.Not(known.GasFound), known.Not(known.CoolantEnters)), Kind: OfLeakage, About: "cylinders",
		Against: denies(DryUp, "air-elsewhere", "head-gasket", "warped-or-cracked-head", "cracked-bore"),
	},
	{
		When: known.All(known.Valves, known.AirAt(known.AtExhaust), known.Not(known.AirAt(known.AtInlet))), Kind: OfLeakage, About: "cylinders",
		Against: denies(Known, "air-elsewhere", "inlet-valve"),
	},
	{
		When: known.All(known.InletValved, known.AirAt(known.AtInlet), known.Not(known.AirAt(known.AtExhaust))), Kind: OfLeakage, About: "cylinders",
		Against: denies(Known, "air-elsewhere", "exhaust-valve"),
	},
	{ // where coolant gets in, a valve that loses a little is not why
		When: known.All(oneValve, known.Not(known.CoolantEnters)), Kind: OfLeakage, About: "cylinders",
		Against: denies(DryUp, "air-elsewhere", "head-gasket", "warped-or-cracked-head"),
	},
	{ // one figure taken cold may be three times that of the warm engine
		When: known.All(known.OfEngine("the leakage taken cold", func(c *known.Case) bool { return c.LeakageCold() }), tooHigh, known.Not(known.All(known.Valves, gaping))), Kind: OfLeakage, About: "cylinders",
		For: speaks(Known, "cold-engine"),
	},
	{
		When: known.OfAll("most of its air at the crankcase", func(c *known.Case, n string) bool {
			return c.LeaksAt(n, known.AtCrankcase) && c.LostAt(n) == known.AtCrankcase
		}), Kind: OfLeakage, About: "cylinders",
		Against: denies(DryUp, "air-elsewhere", "exhaust-valve", "inlet-valve", "valve-lash", "stuck-valve", "bent-valve"),
	},
	{ // what goes there alone does not go past a valve as well
		When: pastPistonAlone, Kind: OfLeakage, About: "cylinders",
		Against: append(denies(DryUp, "air-elsewhere", "exhaust-valve", "inlet-valve", "valve-lash", "stuck-valve", "bent-valve"), denies(Known, "air-elsewhere", "carbon-on-seat", "valve-recession", "sticking-valve")...),
	},
	{
		When: known.OfAll("most of its air at the crankcase, of an engine whose pushrods do not run beside the bore, or not pass its gasket where oil stopped none of it or it was heard under the valve cover", func(c *known.Case, n string) bool {
			below := c.ValveTrainBelow() && c.MayPassTheGasket(n)
			return c.LeaksAt(n, known.AtCrankcase) && c.LostAt(n) == known.AtCrankcase && !c.PushrodChamber() && !below
		}), Kind: OfLeakage, About: "cylinders",
		Against: denies(DryUp, "air-elsewhere", "head-gasket", "warped-or-cracked-head"),
	},
	{
		When: known.OfAll("its air escapes to the outside, most of it or nowhere else", func(c *known.Case, n string) bool {
			return c.LeaksAt(n, known.AtOutside) && c.LostAt(n) == known.AtOutside
		}), Kind: OfLeakage, About: "cylinders",
		Against: append(denies(Known, "air-elsewhere", "exhaust-valve", "inlet-valve", "valve-lash", "carbon-on-seat", "valve-recession", "stuck-valve", "sticking-valve", "bent-valve"),
			denies(Known, "air-elsewhere", "rings", "stuck-rings", "scored-bore", "piston", "holed-piston", "broken-ring-land", "wear")...),
	},
	{
		When: known.OfAll("most of its air goes into the cylinder beside it, or nowhere else", func(c *known.Case, n string) bool {
			return c.LeaksAt(n, known.AtNeighbour) && c.LostAt(n) == known.AtNeighbour
		}), Kind: OfLeakage, About: "cylinders",
		Against: append(denies(DryUp, "air-elsewhere", "exhaust-valve", "inlet-valve", "valve-lash", "carbon-on-seat", "valve-recession", "stuck-valve", "sticking-valve", "bent-valve"),
			denies(DryUp, "air-elsewhere", "rings", "stuck-rings", "scored-bore", "piston", "holed-piston", "broken-ring-land", "wear")...),
	},
	{ // no valve and no ring lies on that way
		When: pastGasketAlone, Kind: OfLeakage, About: "cylinders",
		Against: append(denies(Known, "air-elsewhere", "exhaust-valve", "inlet-valve", "valve-lash", "carbon-on-seat", "valve-recession", "stuck-valve", "sticking-valve", "bent-valve"),
			denies(Known, "air-elsewhere", "rings", "stuck-rings", "scored-bore", "piston", "holed-piston", "broken-ring-land", "wear", "fault-in-each")...),
	},
	{
		When: known.OfAll("loses half as much with oil, or less", func(c *known.Case, n string) bool { return c.LossWithOil(n) <= 0.5 }),
		Kind: OfLeakage, About: "cylinders", For: speaks(Wet, "rings"),
	},
	{
		When: leaksAsMuchOiled, Kind: OfLeakage, About: "cylinders", Against: denies(DryUp, "leaks-with-oil-too", "rings", "scored-bore", "stuck-rings", "wear"),
	},
	{ // more than a vent that is blocked drives up
		When: known.All(leaksAsMuchOiled, pastPistonAlone), Kind: OfLeakage, About: "cylinders", Against: denies(DryUp, "loses-air", "breather", "too-much-oil", "guides-or-seals"),
	},
	{ // what a score lets past is too wide for oil as well, worn rings are not
		When: known.All(leaksAsMuchOiled, known.Not(oilOffRings)), Kind: OfLeakage, About: "cylinders", Against: denies(DryUp, "leaks-with-oil-too", "rings", "stuck-rings", "wear"),
	},
	{ // rings that let so much past take oil, and leave a wall that shows it: what is left is the joint of the head
		When: known.All(pastGasketBelow, known.OfAll("oil stopped none of it, and its wall was seen good", func(c *known.Case, n string) bool { return c.OilStopsNothing(n) && c.BoreSeenWhole(n) })),
		Kind: OfLeakage, About: "cylinders",
		For: speaks(Heard, "head-gasket"), Against: denies(Known, "leaks-with-oil-too", "rings", "stuck-rings", "wear"),
	},
	{
		When: known.All(known.GasFound, known.Not(known.AirCooled)), Kind: OfCoolant, About: "cylinders",
		For: pathToCoolant(Known, DryUp),
	},
	{
		When: known.All(known.NoGasFound, known.Not(known.AirAt(known.AtNeighbour)), known.Not(besideLow), known.Not(known.CoolantThere)), Kind: OfCoolant, About: "cylinders",
		Against: noPathToCoolant(DryUp, "no-gas-in-coolant"),
	},
	{
		When: known.NoGasFound, Kind: OfCoolant, About: "engine",
		Against: noPathToCoolant(DryUp, "no-gas-in-coolant"),
	},
	{
		When: known.ThermostatGood, Kind: OfCooling, About: "any",
		Against: denies(Heard, "thermostat-opens", "thermostat"),
	},
	{
		When: known.CoolingHolds, Kind: OfCooling, About: "engine",
		Against: denies(Heard, "cooling-system-held", "coolant-leak-outside"),
	},
	{ // what opens only hot or under combustion it does not clear, and gas was seen to get through
		When: known.All(known.CoolingHolds, known.Not(known.GasFound)), Kind: OfCooling, About: "engine",
		Against: noPathToCoolant(DryUp, "cooling-system-held"),
	},
}

var (
	oiled = known.OfAll("oil put into it before, which brought it up", func(c *known.Case, n string) bool { return slices.Contains(c.OilBefore(), n) })
	// A gasket that is open between two bores alone lets no gas into the coolant.
	besideLow = known.OfAll("low beside a low one, under one gasket", func(c *known.Case, n string) bool {
		return slices.ContainsFunc(lowNeighbours(c), func(run []string) bool { return slices.Contains(run, n) })
	})
	// pastPistonAlone is a cylinder that was listened to, and whose air goes past its piston.
	pastPistonAlone = known.All(tooHigh, known.OfAll("its air at the crankcase and at no other place", leavesBy(known.AtCrankcase)))
	// pastGasketBelow is one of an engine whose gasket may blow into what leads down to the
	// crankcase.
	pastGasketBelow = known.All(tooHigh, known.OfAll("most of its air at the crankcase, of an engine whose pushrods pass its head's joint", func(c *known.Case, n string) bool {
		return c.LeaksAt(n, known.AtCrankcase) && c.LostAt(n) == known.AtCrankcase && (c.PushrodChamber() || c.ValveTrainBelow())
	}))
	// pastGasketAlone is one whose air goes into the cylinder beside it.
	pastGasketAlone = known.All(tooHigh, known.OfAll("its air in the cylinder beside it and at no other place", leavesBy(known.AtNeighbour)))
	openAtRest      = known.OfAll("60 % or more lost, its pressure not read or low", func(c *known.Case, n string) bool {
		l := c.Leak(n)
		return l != nil && *l.Loss >= known.TorrentLoss && !c.Noticed("leaks-at-both-valves") && !c.Grade(n).IsGood()
	})
	gaping   = known.OfAll("more than 60 % lost, at a valve", gapes)
	oneValve = known.Any(known.All(known.Valves, known.AirAt(known.AtExhaust), known.Not(known.AirAt(known.AtInlet))), known.All(known.InletValved, known.AirAt(known.AtInlet), known.Not(known.AirAt(known.AtExhaust))))
	atValve  = known.All(known.Valves, known.Any(known.AirAt(known.AtExhaust), known.All(known.AirAt(known.AtInlet), known.InletValved)))
)

var (
	mayPassGasket    = known.OfAll("its air goes to the crankcase where a gasket may let it in, and was heard under the valve cover or stays with oil", func(c *known.Case, n string) bool { return c.MayPassTheGasket(n) })
	leaksAsMuchOiled = known.OfAll("loses as much with oil", func(c *known.Case, n string) bool { return c.LeaksAsMuchOiled(n) })
	oilOffRings      = known.OfEngine("oil does not lie on the rings", func(c *known.Case) bool { return c.WetIsIndirect() })
)

// outAtValve is the loss at a valve from which it is why a cylinder is low, whatever its
// gauge: judgement, no source.
const outAtValve = 30.0

// allOutAtValves reports that each cylinder whose compression was read was heard to lose so
// much at a valve, and nowhere below.
func allOutAtValves(c *known.Case) bool {
	read := c.Read()
	return len(read) > 0 && c.HasValves() && !c.LeakageCold() && !slices.ContainsFunc(read, func(n string) bool {
		l := c.Leak(n)
		return l == nil || l.Loss == nil || *l.Loss < outAtValve || c.LeaksAt(n, known.AtCrankcase) || !c.LeaksAt(n, known.AtExhaust) && !c.LeaksAt(n, known.AtInlet)
	})
}

// leavesBy asks whether air was heard at one place of a cylinder, and nowhere else.
func leavesBy(place string) func(*known.Case, string) bool {
	return func(c *known.Case, n string) bool {
		l := c.Leak(n)
		return l != nil && len(l.At) == 1 && l.At[0] == place
	}
}
