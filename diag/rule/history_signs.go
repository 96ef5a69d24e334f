package rule

import (
	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// historySigns are what is told of an engine beside its readings. It tips the
// balance between causes and makes nothing sure.
var historySigns = []Sign{
	{When: known.All(stoodAndLow, known.Not(mostLow)), Kind: OfHistory, About: "cylinders", For: append(speaks(Known, "stuck-valve"), speaks(DryUp, "stuck-rings", "dry-bores")...)},
	{When: known.All(stoodAndLow, known.RanSinceItStood), Kind: OfHistory, About: "cylinders", Against: denies(Heard, "ran-before-the-test", "dry-bores")},
	{When: known.All(known.StoodLong, known.OfAll("a little low", func(c *known.Case, n string) bool { return c.Grade(n) == diag.Watch })), Kind: OfHistory, About: "cylinders", For: speaks(Known, "dry-bores", "stuck-rings")},
	{When: known.All(stoodAndLow, mostLow), Kind: OfHistory, About: "cylinders", For: append(speaks(Known, "dry-bores", "stuck-rings"), speaks(DryUp, "stuck-valve")...)},
	// Rings that have stood leak until they are oiled and have run.
	{When: known.All(known.StoodLong, pastItsRings), Kind: OfHistory, About: "cylinders", For: speaks(Heard, "dry-bores", "stuck-rings")},
	{When: known.All(known.OfEngine("every plug looked at wet with fuel", allSoaked), pastItsRings), Kind: OfPlugs, About: "cylinders", For: speaks(Heard, "washed-bore")},
	// Of one cylinder it may as well be wet because it does not fire; an engine that
	// is told to run rich gets too much of it there.
	{When: known.All(known.Plug("fuel-wet"), toldRich, pastItsRings), Kind: OfPlugs, About: "cylinders", For: speaks(Known, "washed-bore")},
	// A low cylinder of an engine that is told to run rich may be washed by its own injector;
	// its plug, that would tell, was not looked at.
	{When: known.All(known.Low, known.Not(known.Diesel), toldRich, plugUnread), Kind: OfHistory, About: "cylinders", For: speaks(DryUp, "washed-bore")},
	{When: known.All(known.Low, known.Not(known.Diesel), toldRich, plugUnread, pastItsRings), Kind: OfHistory, About: "cylinders", For: speaks(Known, "washed-bore")},
	{When: known.All(known.StoodLong, rotaryEngine), Kind: OfHistory, About: "cylinders", For: speaks(Known, "stuck-seals")},

	// What is run as it is has its bores oiled and its rings moved.
	{When: known.InUse, Kind: OfHistory, About: "any", Against: append(denies(Heard, "is-in-use", "dry-bores"), denies(Known, "is-in-use", "stuck-rings")...)},

	{When: known.All(known.InUse, known.Not(toldRich), known.OfEngine("no plug wet with fuel", func(c *known.Case) bool { return len(c.PlugsLooking("fuel-wet")) == 0 })), Kind: OfHistory, About: "engine", Against: denies(Known, "is-in-use", "washed-bore")},

	// A rocker, a pushrod or a spring lets go from one stroke to the next, as a piston does.
	{When: known.All(known.Dead, cameSuddenly), Kind: OfHistory, About: "cylinders", For: speaks(Hint, "valve-motion")},
	{When: cameSuddenly, Kind: OfHistory, About: "any", For: speaks(Hint, "holed-piston", "head-gasket", "broken-ring-land", "exhaust-valve", "bent-valve", "timing-drive"),
		Against: denies(Hint, "came-suddenly", "wear", "carbon", "valve-recession")},
	{When: cameSlowly, Kind: OfHistory, About: "any", For: speaks(Hint, "wear", "carbon", "rings", "valve-recession", "carbon-on-seat"),
		Against: denies(Hint, "came-slowly", "holed-piston", "timing-drive", "bent-valve", "broken-ring-land")},

	// Rings that are new let oil up and air down until they have bedded in.
	{When: known.All(usesOil, known.RingsNotRunIn), Kind: OfHistory, About: "engine", For: speaks(Heard, "not-run-in"), Against: denies(Hint, "new-rings", "oil-control-rings", "wear")},
	{When: known.All(known.AirAt(known.AtCrankcase), known.RingsNotRunIn), Kind: OfHistory, About: "cylinders", For: speaks(Known, "not-run-in"), Against: denies(Hint, "new-rings", "wear", "stuck-rings")},
	{When: usesOil, Kind: OfHistory, About: "any", For: speaks(Hint, "rings", "oil-control-rings", "guides-or-seals", "wear", "broken-ring-land")},
	{When: smoke("blue smoke at the start or on the overrun", "blue", "start", "overrun"), Kind: OfHistory, About: "any", For: speaks(DryUp, "guides-or-seals"),
		Against: denies(Hint, "smoke-says-guides", "oil-control-rings")},
	{When: smokesAtWork, Kind: OfHistory, About: "any", For: speaks(DryUp, "rings", "oil-control-rings", "wear", "scored-bore"),
		Against: denies(Hint, "smoke-says-rings", "guides-or-seals")},
	// A turbocharger's seal smokes as it is pressed, as rings do.
	{When: known.All(smokesAtWork, turbocharged), Kind: OfHistory, About: "any", For: speaks(commonest, "turbo-seal")},
	// A crankcase that presses drives oil past a sound one.
	{When: known.All(smokesAtWork, turbocharged, known.CrankcaseHigh, known.VentInPlace), Kind: OfHistory, About: "any", For: speaks(commonest, "breather")},
	{When: known.All(losesCoolant, known.Not(known.AirCooled)), Kind: OfHistory, About: "any", For: append(pathToCoolant(Hint, Hint), speaks(Hint, "coolant-or-fuel-in-bore")...)},
	{When: known.All(known.Diesel, smoke("black smoke", "black")), Kind: OfHistory, About: "engine", For: speaks(Known, "air-filter", "diesel-injector", "boost-leak"), Against: denies(Hint, "smoke-says-fuel", "glow-plug")},
	{When: known.All(known.Diesel, smoke("white smoke at the start", "white", "start"), known.Complaint("hard start", "no start")), Kind: OfHistory, About: "any", For: speaks(DryUp, "glow-plug", "diesel-injector"), Against: denies(Hint, "smoke-says-fuel-comes", "air-in-fuel", "fuel-filter")},
	{When: smoke("black smoke", "black"), Kind: OfHistory, About: "any", For: speaks(Hint, "rich-mixture", "leaking-injector", "regulator-diaphragm", "air-filter", "washed-bore")},
	{When: known.All(known.Complaint("overheating"), known.TwoStroke, known.Low), Kind: OfHistory, About: "cylinders", For: speaks(DryUp, "scored-bore", "stuck-rings")}, // whose pistons seize by it
	{When: known.All(known.Complaint("overheating"), known.Not(known.AirCooled)), Kind: OfHistory, About: "any", For: speaks(Hint, "head-gasket", "warped-or-cracked-head", "coolant-seal", "cracked-housing", "too-hot")},
	// What costs least is looked at first, where nothing is lost and nothing was found in the coolant.
	{When: known.All(known.Complaint("overheating"), known.Not(known.AirCooled), known.Not(known.Complaint("coolant loss")), known.Not(known.GasFound), known.Not(known.UnderFloor), known.Not(known.CoolingFalls)),
		Kind: OfHistory, About: "engine", For: speaks(DryUp, "coolant-flow", "thermostat")},
	{When: known.All(known.Complaint("low power"), thinAir), Kind: OfHistory, About: "engine", For: speaks(Known, "thin-air")},
	{When: known.All(known.Complaint("overheating"), known.Not(known.AirCooled), known.UnderFloor, known.OfEngine("not even", func(c *known.Case) bool {
		return c.Cranking().LowestPercentOfHighest < known.EvenTogether
	})), Kind: OfHistory, About: "engine", For: append(speaks(Known, "warped-or-cracked-head", "head-gasket"), speaks(DryUp, "scored-bore", "rings")...)},
	// What stops a flywheel dead turns it on the crankshaft, and the spark with it.
	{When: known.All(known.KeyMayBeSheared, known.Complaint("no start", "hard start", "misfire", "low power"), known.Not(known.UnderFloor)), Kind: OfHistory, About: "engine", For: speaks(Heard, "flywheel-key")},
	{When: known.All(known.KeyMayBeSheared, known.Complaint("no start", "hard start", "misfire", "low power")), Kind: OfHistory, About: "mixture", For: speaks(Heard, "flywheel-key")},
	{When: known.KicksBack, Kind: OfRunning, About: "mixture", For: speaks(Known, "flywheel-key")},
	{When: known.KicksBack, Kind: OfRunning, About: "engine", For: speaks(Known, "flywheel-key")},
	{When: known.All(known.ReleasesItself, known.Low), Kind: OfHistory, About: "cylinders", For: speaks(Known, "decompressor-stuck")},
	{When: known.All(known.SinceDriveRenewed, known.Complaint("no start", "hard start", "low power", "misfire", known.RoughRunning), known.Not(known.OfEngine("a figure of the book's that is kept", (*known.Case).PressureByFigure))), Kind: OfHistory, About: "engine", For: speaks(Known, "cam-timing")},
	{When: known.ReleasesTooMuch, Kind: OfHistory, About: "engine", For: speaks(Heard, "decompressor-stuck")},
	{When: known.RoughCold, Kind: OfHistory, About: "engine", For: speaks(Heard, "sticking-valve")}, // lead and heat gum up its guide
	// What is left of old fuel narrows the jets of a carburetor.
	{When: known.All(known.FuelOld, carburetted, known.Complaint("misfire", known.RoughRunning, "low power", "lean running", known.SpittingBack)), Kind: OfHistory, About: "mixture", For: append(speaks(Known, "carburettor"), speaks(Hint, "bad-fuel")...)},
	{When: known.All(known.FuelOld, carburetted, known.Complaint("misfire", known.RoughRunning, "low power", "lean running", known.SpittingBack)), Kind: OfHistory, About: "engine", For: append(speaks(Known, "carburettor"), speaks(Hint, "bad-fuel")...)},
	{When: known.CameAfterFilling, Kind: OfHistory, About: "any", For: speaks(Heard+Known, "bad-fuel")},
	{When: known.All(fellInside, known.Low), Kind: OfHistory, About: "cylinders", For: speaks(DryUp, "bent-valve", "piston-contact")},
	// What a cylinder knocks with changes as it does no work; what does not is none of theirs.
	{When: known.NoiseUnmoved, Kind: OfHistory, About: "any", Against: append(denies(Known, "noise-stays", "bottom-end", "piston", "diesel-injector", "injector-seat"),
		denies(Hint, "noise-stays", "valve-motion", "collapsed-lifter", "valve-lash", "carbon", "early-ignition")...)},
	{When: known.NoiseAtSide, Kind: OfHistory, About: "any", Against: denies(Known, "heard-beside", "bottom-end", "piston", "valve-motion",
		"collapsed-lifter", "valve-lash", "timing-drive", "worn-chain", "carbon", "early-ignition")},
	{When: known.Complaint("noise"), Kind: OfHistory, About: "any", For: speaks(Hint, "valve-motion", "collapsed-lifter", "valve-lash", "piston-contact", "foreign-object", "bottom-end")},
}

var (
	carburetted  = known.OfEngine("an engine with a carburetor", (*known.Case).Carburetted)
	rotaryEngine = known.OfEngine("a rotary", func(c *known.Case) bool { return c.Rotary() })
	stoodAndLow  = known.All(known.StoodLong, known.Low)
	mostLow      = known.OfEngine("most of the cylinders low, and none without pressure", func(c *known.Case) bool {
		return !c.Cranking().WithoutPressure() && 2*len(c.LowSet()) > len(c.Read())
	})
	pastItsRings = known.OfAll("low, and its air goes to the crankcase or it came up with oil", func(c *known.Case, n string) bool {
		low := c.AllLow() != nil || c.Cylinder(n) != nil && c.ShortOfPressure(c.Cylinder(n))
		return low && (c.LeaksAt(n, known.AtCrankcase) && c.LostAt(n) == known.AtCrankcase || c.WetEvidence(n) == known.WetRises)
	})
	plugUnread   = known.OfAll("its plug not looked at", func(c *known.Case, n string) bool { return c.Plug(n) == nil })
	cameSuddenly = known.SuddenOnset
	cameSlowly   = known.OfEngine("it came on slowly", func(c *known.Case) bool { return c.CameSlowly() })
	usesOil      = known.OfEngine("it uses oil", func(c *known.Case) bool { return c.UsesOil() })
	losesCoolant = known.OfEngine("it loses coolant, or smokes white under load", func(c *known.Case) bool { return c.LosesCoolant() && c.CoolantGas != "positive" })
)

// thinShare is the share of the sea's air that an engine without a charger misses
// as soon as it works: some 5000 ft up. Judgement, no source.
const thinShare = 0.85

var thinAir = known.OfEngine("no charger, and less than 85 % of the sea's air where it was tested", func(c *known.Case) bool {
	return (c.Spec.Charging == "" || c.Spec.Charging == "natural") && c.AirPressureRatio() < thinShare
})

// smokesAtWork is the smoke of oil that the rings, or what presses it out, let past.
var smokesAtWork = smoke("blue smoke under load or always", "blue", "load", "always")

func smoke(words, colour string, when ...string) known.Condition {
	return known.OfEngine(words, func(c *known.Case) bool { return c.Smokes(colour, when...) })
}

// turnedTooSlowly: where the battery holds, or the starter draws more than it may, its own
// test says why it turns slowly, and no charger makes it faster.
func turnedTooSlowly(c *known.Case, s known.Subject) []Voice {
	switch {
	case known.CameUpWithCharger.Holds(c, s):
	case known.SlowByResistance.Holds(c, s):
		return append(speaks(Known, "starter-cables"), speaks(Hint, "starter")...)
	case known.SlowByDrag.Holds(c, s):
		return speaks(Hint, "starter", "tight-engine", "coolant-or-fuel-in-bore")
	}
	return append(speaks(Heard, "weak-cranking"), speaks(Hint, "battery", "starter-cables", "starter")...)
}
