package rule

import "gaugesheet/diag/known"

// withinSigns are what readings that keep their limits take off the list: who measured a thing
// and found it right is not told to look for it. They deny what was measured and nothing beside it.
var withinSigns = []Sign{
	{Needs: needsTest(known.Timing), When: known.CamRight, Kind: OfTiming, About: "any", Against: append(denies(4*Heard, "cam-is-right", "cam-timing", "timing-drive"), denies(Known, "cam-is-right", "cam-phaser")...)},
	{Needs: needsTest(known.Timing), When: known.ChainTaut, Kind: OfTiming, About: "any", Against: denies(Heard, "chain-is-taut", "worn-chain")},
	{Needs: needsTest(known.Timing), When: known.AdvanceRight, Kind: OfTiming, About: "any", Against: denies(Heard, "advance-is-right", "advance")},
	{Needs: needsTest(known.Timing), When: known.PointsRight, Kind: OfTiming, About: "any", Against: denies(Heard, "points-are-right", "points")},
	{Needs: needsTest(known.Starting), When: known.TurnsFast, Kind: OfStarting, About: "any", Against: denies(Heard, "turns-fast-enough", "weak-cranking", "battery", "starter", "starter-cables")},
	{Needs: needsTest(known.Starting), When: known.All(known.Any(known.BatteryHolds, known.SlowByResistance), known.Not(known.TurnsFast)), Kind: OfStarting, About: "any", Against: denies(Heard, "battery-holds", "battery")},
	{Needs: needsTest(known.DieselTests), When: known.GlowRight, Kind: OfStarting, About: "any", Against: denies(Known, "glow-is-right", "glow-plug")},
	{Needs: needsTest(known.DieselTests), When: known.NozzlesRight, Kind: OfFuel, About: "any", Against: denies(Known, "nozzles-are-right", "diesel-injector")},
	{Needs: needsTest(known.DieselTests), When: known.ReturnsRight, Kind: OfFuel, About: "any", Against: denies(DryUp, "returns-are-right", "diesel-injector")}, // its spray may be bad all the same
	{Needs: needsTest(known.DieselTests), When: known.ReturnsEven, Kind: OfFuel, About: "any", Against: denies(Hint, "returns-are-even", "diesel-injector")},
	{Needs: needsTest(known.DieselTests), When: known.SuctionRight, Kind: OfFuel, About: "any", Against: denies(Heard, "suction-is-right", "supply-restricted")},
	{Needs: needsTest(known.Cooling), When: known.CapRight, Kind: OfCooling, About: "any", Against: denies(Heard, "cap-is-right", "pressure-cap")},
}
