package cause

import "gaugesheet/diag/known"

// systemCauses are what the further tests find beside what lets oil pressure be
// wrong.
var systemCauses = []Cause{
	{Name: "past-limit", Vague: true},
	{Name: "reading-wrong", Test: true},
	{Name: "late-ignition", Fits: sparked, Explains: []string{lowPower, overheat, hardStart}},
	{Name: "light-load", Fits: diesel, Explains: []string{oilUse, lowPower, hardStart, whiteSmoke}},
	{Name: "filter-regeneration", Fits: regenerates, Explains: []string{lowPower, noise}},
	{Name: "timing-mark", Fits: sparkedValves, Explains: []string{lowPower, overheat, hardStart, noise}},
	{Name: "flywheel-key", Fits: flywheelKey, Explains: []string{noStart, hardStart, misfire, lowPower}},
	{Name: "bent-crank", Fits: known.StruckDead.HoldsIn, Explains: []string{noise, noStart, hardStart}},
	{Name: "wet-exhaust", Fits: wetExhaust, Explains: []string{noStart, hardStart, misfire, stood}},
	{Name: "advance", Fits: sparked, Explains: []string{lowPower}},
	{Name: "points", Fits: sparked, Explains: sparkly},
	{Name: "valve-springs", Fits: valved, Explains: []string{noise, misfire, lowPower}},
	{Name: "valve-loose", Fits: lashed, Explains: []string{noise, lowPower, hardStart}},
	{Name: "egr-open", Fits: func(c *known.Case) bool { return c.MayRecirculate() }, Explains: []string{misfire, lowPower, blackSmoke}},
	{Name: "coolant-leak-outside", Fits: wet, Explains: []string{coolantLoss, overheat}},
	{Name: "air-in-coolant", Fits: wet, Explains: []string{overheat}},
	{Name: "intake-coolant-gasket", Fits: func(c *known.Case) bool {
		return wet(c) && (c.IntakeMayCarryCoolant() || known.CoolantAtIntake.HoldsIn(c))
	}, Explains: []string{coolantLoss, overheat, misfire, lean}},
	{Name: "oil-cooler", Fits: wet, Explains: []string{coolantLoss, oilUse}},
	{Name: "egr-cooler", Fits: func(c *known.Case) bool { return c.MayCoolItsExhaust() }, Explains: []string{coolantLoss, whiteSmoke}},
	{Name: "pressure-cap", Fits: wet, Explains: []string{coolantLoss, overheat}},
	{Name: "coolant-flow", Fits: wet, Explains: []string{overheat}},
	{Name: "clogged-fins", Fits: airCooled, Explains: []string{overheat, lowPower}},
	{Name: "thermostat", Fits: wet, Explains: []string{overheat, rich}},
	{Name: "gas-supply", Fits: func(c *known.Case) bool { return c.GasFuel() }, Explains: append([]string{rich, noStart}, leanly...), Advice: "advice-supply"},
	{Name: "vent-valve-open", Fits: valved, Explains: append([]string{oilUse, noise, rich}, leanly...)},
	{Name: "boost-leak", Fits: charged, Explains: []string{lowPower, rich, blackSmoke}},
	{Name: "blower-seals", Fits: blown, Explains: []string{oilUse}},
	{Name: "air-box-drains", Fits: blown, Explains: []string{oilUse}},
	{Name: "turbo-seal", Fits: mayBeCharged, Explains: []string{oilUse}},
	{Name: "air-compressor", Fits: func(c *known.Case) bool { return c.BrakesByAir() }, Explains: []string{oilUse}},
	{Name: "starter", Explains: []string{noStart, hardStart}},
	{Name: "starter-cables", Explains: []string{noStart, hardStart}},
	{Name: "battery", Explains: []string{noStart, hardStart}},
	{Name: "tight-engine", Explains: []string{noStart, hardStart}},
	{Name: "diesel-injector", Explains: []string{rich, hardStart, misfire, lowPower, noStart, noise, blackSmoke, whiteSmoke}},
	{Name: "glow-feed", Fits: diesel, Explains: []string{hardStart, noStart, whiteSmoke}},
	{Name: "glow-plug", Explains: []string{hardStart, noStart, misfire, whiteSmoke}},
}
