package rule

import (
	"slices"

	"gaugesheet/diag/known"
)

// What plugs, and a look into the cylinder, speak for and against beside what
// their rules find.
var plugSigns = []Sign{
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
	{
		When: known.All(known.BurningPlug("oil-wet"), known.ReadsHigh), Kind: OfPlugs, About: "cylinders",
		For: speaks(Known, "oil-in-bore"),
	},
	{
		When: known.Plug("detonation", "blistered"), Kind: OfPlugs, About: "cylinders",
		For: speaks(Hint, "piston", "broken-ring-land", "holed-piston", "exhaust-valve"),
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
		When: known.OfEngine("plugs of the book's heat range", func(c *known.Case) bool {
			return c.Test.Plugs != nil && c.Test.Plugs.HeatRange.Given && c.Test.Plugs.HeatRange.Fitted == c.Test.Plugs.HeatRange.Book
		}), Kind: OfPlugs, About: "any",
		Against: denies(Heard, "heat-range-is-right", "wrong-heat-range"),
	},
	{
		When: known.BurningPlug("normal", "worn"), Kind: OfPlugs, About: "cylinders",
		Against: denies(Hint, "plug-normal", "oil-in-bore", "oil-control-rings", "guides-or-seals", "own-spark", "own-injector", "coolant-or-fuel-in-bore", "washed-bore", "foreign-object", "piston-contact"),
	},
	{
		When: known.SeenThere("a good wall", known.GoodWall), Kind: OfSight, About: "cylinders",
		Against: append(denies(Sight, "seen-good", "scored-bore"), denies(Hint, "seen-good", "dry-bores")...),
	},
	{
		When: known.SeenThere("a good crown", known.GoodCrown), Kind: OfSight, About: "cylinders",
		Against: denies(Sight, "seen-good", "holed-piston", "piston-contact", "foreign-object", "carbon", "coolant-or-fuel-in-bore", "oil-in-bore"),
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
