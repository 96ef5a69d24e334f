package rule

import "gaugesheet/diag/known"

// trimSigns are what the trims at idle and at speed, held against each other, say of where
// too much fuel comes from. What leaks fuel by itself, or sends too much through every
// injector, is most of an idle's fuel and little of what it burns at speed; what counts more
// air than the engine gets grows with the air: common practice, no source.
var trimSigns = []Sign{
	// Plugs wear out in every engine: a worn one has no computer take fuel out, and one of many
	// has it add hardly any.
	{Needs: needsTest(known.Trims), When: known.TrimRich, Kind: OfTrims, About: "mixture", Against: denies(Heard, "mixture-is-off", "plug-age")},
	{Needs: needsTest(known.Trims), When: known.All(known.TrimAdds, known.Not(mostWorn)), Kind: OfTrims, About: "mixture", Against: denies(Heard, "mixture-is-off", "plug-age")},
	{Needs: needsTest(known.Trims), When: known.TrimRichFast, Kind: OfTrims, About: "mixture", For: speaks(Known, "air-meter"),
		Against: denies(Heard, "trims-rich-at-speed", "regulator-diaphragm", "purge-valve", "leaking-injector", "fuel-in-oil", "vacuum-hose", "regulator-stuck", "return-blocked", "temperature-signal")},
	{Needs: needsTest(known.Trims), When: known.All(known.TrimRichFast, turbocharged, sparkLit), Kind: OfTrims, About: "mixture", For: speaks(Heard, "boost-leak")},
	{Needs: needsTest(known.Trims), When: known.TrimRichIdle, Kind: OfTrims, About: "mixture", For: speaks(Hint, "regulator-diaphragm", "purge-valve", "leaking-injector"),
		Against: denies(Known, "trims-rich-at-idle", "air-meter", "boost-leak")},
	// Air that is lost behind the meter has had its fuel already.
	{When: known.All(turbocharged, sparkLit, smoke("black smoke under load", "black", "load")), Kind: OfHistory, About: "mixture", For: speaks(Known, "boost-leak")},
	{When: known.All(turbocharged, known.ChargeHosesOff), Kind: OfHistory, About: "mixture", For: speaks(Known, "boost-leak")},
	{When: known.All(turbocharged, known.ChargeHosesOff, known.Complaint("low power", "rich running")), Kind: OfHistory, About: "engine", For: speaks(Known, "boost-leak")},
}

// mostWorn are worn plugs in more than half of those looked at.
var mostWorn = known.OfEngine("most plugs worn", func(c *known.Case) bool { return 2*len(c.Looking("worn")) > len(c.PlugsRead()) })

var turbocharged = known.OfEngine("a turbocharger", func(c *known.Case) bool { return c.Spec.Charging == "turbo" })
