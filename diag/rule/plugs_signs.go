package rule

import (
	"slices"

	"gaugesheet/diag/known"
)

// What plugs, and a look into the cylinder, speak for and against beside what
// their rules find.
var plugSigns = []Sign{
	// Two that do nothing since the leads were off have each other's.
	{When: known.All(known.LeadsTouched, twoDoNothing, known.Not(known.Low)), Kind: OfHistory, About: "cylinders", For: speaks(Heard+Known, "leads-crossed")},
	{When: known.All(known.MateLikely, known.Not(known.Low), known.Complaint("misfire", known.RoughRunning)), Kind: OfHistory, About: "cylinders", For: speaks(Known, "shared-coil")},
	{When: known.All(known.MateLikely, known.Not(known.Low), known.Not(known.Complaint("misfire", known.RoughRunning))), Kind: OfHistory, About: "cylinders", For: speaks(Known-3*rarer, "shared-coil")},
	{When: known.All(known.LeadsTouched, known.Complaint("misfire", "no start", "hard start"), noneLow), Kind: OfHistory, About: "engine", For: speaks(Known, "leads-crossed")},
	{
		When: known.All(known.Plug("damaged"), short), Kind: OfPlugs, About: "cylinders",
		For: append(speaks(Known, "holed-piston"), speaks(Hint, "bent-valve", "broken-ring-land")...),
	},
	{ // what melts a plug burns through the piston, or a valve, and bends nothing
		When: known.All(known.Plug("melted"), short), Kind: OfPlugs, About: "cylinders",
		For:     append(speaks(Known, "holed-piston"), speaks(Known+Hint, "exhaust-valve")...),
		Against: denies(Known, "plug-melted", "bent-valve", "stuck-valve", "sticking-valve", "valve-motion"),
	},
	{
		When: known.All(known.BurningPlug("oil-wet"), short), Kind: OfPlugs, About: "cylinders",
		For: append(speaks(DryUp, "rings", "oil-in-bore"), speaks(Hint, "broken-ring-land", "scored-bore")...),
	},
	{ // where oil is used, and one cylinder's plug is wet with it, it is used there: by what oil seals no more where it brings nothing up
		When: known.All(known.Plug("oil-wet"), known.Low, known.OilFlat, usesOil, known.Valves), Kind: OfPlugs, About: "cylinders",
		For: append(speaks(Heard, "broken-ring-land"), speaks(Known, "rings", "piston", "scored-bore")...),
	},
	{
		When: known.All(known.BurningPlug("oil-wet"), known.ReadsHigh), Kind: OfPlugs, About: "cylinders",
		For: speaks(Known, "oil-in-bore"),
	},
	{
		When: known.Plug("detonation", "blistered"), Kind: OfPlugs, About: "cylinders",
		For: speaks(Hint, "piston", "broken-ring-land", "holed-piston", "exhaust-valve"),
	},
	{ // a piston that broke does not press as the others do
		Needs: []known.Need{known.NeedsCompression}, When: known.Sealing, Kind: OfCompression, About: "cylinders",
		Against: denies(Sight, "pressure-is-even", "piston", "broken-ring-land", "holed-piston"),
	},
	{ // knock that one plug shows breaks the land of whichever cylinder is weakest
		Needs: []known.Need{known.NeedsLeakage}, When: known.All(lowPastPiston, known.OfEngine("a plug with signs of knock", func(c *known.Case) bool { return len(c.PlugsLooking("detonation")) > 0 })),
		Kind: OfPlugs, About: "cylinders", For: speaks(Known, "broken-ring-land"),
	},
	{ // rings wear slowly
		Needs: []known.Need{known.NeedsLeakage}, When: known.All(lowPastPiston, known.SuddenOnset), Kind: OfHistory, About: "cylinders",
		For: speaks(Known, "broken-ring-land"),
	},
	{ // of oil on the plug of a cylinder that gushes past its piston
		Needs: []known.Need{known.NeedsLeakage}, When: known.All(lowPastPiston, known.OfAll("it loses too much", (*known.Case).HighLoss)), Kind: OfLeakage, About: "cylinders",
		Against: denies(Known, "goes-past-the-piston", "breather", "guides-or-seals", "oil-additive"),
	},
	{
		When: known.BurningPlug("white"), Kind: OfPlugs, About: "cylinders",
		For: speaks(Hint, "exhaust-valve"), // a lean cylinder burns its exhaust valve
	},
	{
		When: known.OfAll("its plug shows that the heat range is not the book's", func(c *known.Case, n string) bool {
			names, _ := c.WrongHeat()
			return slices.Contains(names, n)
		}), Kind: OfPlugs, About: "cylinders", For: speaks(Heard, "wrong-heat-range"),
	},
	{
		When: known.OfEngine("plugs of a longer reach than the book's", func(c *known.Case) bool { return c.Test.Plugs != nil && c.Test.Plugs.Reach == "longer" }), Kind: OfPlugs, About: "cylinders",
		For: speaks(DryUp, "wrong-plug-reach"),
	},
	{
		When: known.OfEngine("plugs of the book's reach", func(c *known.Case) bool { return c.Test.Plugs != nil && c.Test.Plugs.Reach == "same" }), Kind: OfPlugs, About: "cylinders",
		Against: denies(Heard, "reach-is-right", "wrong-plug-reach"),
	},
	{
		When: known.HeatRangeRight, Kind: OfPlugs, About: "any",
		Against: denies(Heard, "heat-range-is-right", "wrong-heat-range"),
	},
	{
		When: known.BurningPlug("normal", "worn"), Kind: OfPlugs, About: "cylinders",
		Against: denies(Hint, "plug-normal", "oil-in-bore", "oil-control-rings", "guides-or-seals", "own-spark", "coolant-or-fuel-in-bore", "washed-bore", "foreign-object", "piston-contact"),
	},
	{ // what was measured of an injector no plug refutes
		When: known.All(known.BurningPlug("normal", "worn"), known.Not(known.Any(known.InjectorOpen, known.InjectorDead, known.InjectorDrips))), Kind: OfPlugs, About: "cylinders",
		Against: denies(Hint, "plug-normal", "own-injector"),
	},
	{ // an injector that was seen to drip wets its plug, whatever its spark
		Needs: needsTest(known.Injectors), When: known.All(known.InjectorDrips, known.BurningPlug("fuel-wet", "sooty"), known.Not(known.Low)), Kind: OfInjectors, About: "cylinders",
		For: speaks(Known, "leaking-injector"), Against: append(denies(Known, "injector-wets-it", "own-spark", "coil-or-lead"), denies(DryUp, "injector-wets-it", "own-injector")...),
	},
	{
		When: known.SeenThere("a good wall", known.GoodWall), Kind: OfSight, About: "cylinders",
		Against: append(denies(Sight, "seen-good", "scored-bore"), denies(Hint, "seen-good", "dry-bores")...),
	},
	{
		When: known.SeenThere("a good crown", known.GoodCrown), Kind: OfSight, About: "cylinders",
		Against: denies(Sight, "seen-good", "holed-piston", "piston-contact", "foreign-object", "carbon", "coolant-or-fuel-in-bore", "oil-in-bore"),
	},
	{ // a piston that came apart or seized marks its wall or its crown; worn rings and a crack below a land do not
		When: known.WholeAbove, Kind: OfSight, About: "cylinders",
		Against: append(denies(Known, "seen-good", "piston"), denies(Sight, "seen-good", "holed-piston")...),
	},
	{
		When: known.SeenThere("good valves or seats", known.GoodValves), Kind: OfSight, About: "cylinders",
		Against: append(denies(Sight, "seen-good", "bent-valve", "carbon-on-seat"), denies(DryUp, "seen-good", "exhaust-valve", "inlet-valve", "stuck-valve", "valve-recession")...),
	},
	{
		When: known.OfAll("liquid seen in it, and not oil by its plug", func(c *known.Case, n string) bool { return c.LiquidSeenIn(n) && !c.Looks(n, "oil-wet") }), Kind: OfSight, About: "cylinders",
		For: speaks(Sight, "coolant-or-fuel-in-bore"),
	},
}

// twoDoNothing are two or more cylinders that are not missed when they are cut out, or whose
// plugs are wet with fuel, and that hold their pressure.
var twoDoNothing = known.OfEngine("two or more cylinders that hold their pressure and are not missed with their spark off, or have a plug wet with fuel or sooty", func(c *known.Case) bool {
	idle := known.Any(known.PullsNothing, known.PullsLittle, known.Plug("fuel-wet", "sooty"))
	return len(c.Those(func(n string) bool {
		return !c.Grade(n).IsLow() && idle.HoldsOf(c, n)
	})) > 1
})

// noneLow is an engine of which no cylinder that was read is low.
var noneLow = known.OfEngine("no cylinder low", func(c *known.Case) bool { return c.DryRead() && len(c.LowSet()) == 0 && c.AllLow() == nil })

// lowPastPiston is a low cylinder whose air is heard to go past its piston.
var lowPastPiston = known.All(known.Low, known.AirAt(known.AtCrankcase))
