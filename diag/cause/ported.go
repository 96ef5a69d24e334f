package cause

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
	"gaugesheet/diag/quantity"
)

// What a look into the exhaust port goes by in the work done: as a page calls it, in
// other words, and all of these with its name.
var (
	portTitles = []string{"a look into the exhaust port", "look through the exhaust port"}
	portWords  = []string{"exhaust port looked at", "looked in at the exhaust", "port decoked"}
	portLooked = slices.Concat([]string{"exhaust port look"}, portTitles, portWords)
)

// pistonUnjudged is a two-stroke that starts badly and of which nothing says
// whether its pressure is enough: what a piston looks like says it at once.
func pistonUnjudged(c *known.Case) bool {
	return c.Ported() && c.DryRead() && !c.PressureByFigure() && c.Complains(hardStart, noStart)
}

// pistonInDoubt is such an engine, or one with a low cylinder: whether a piston is scored is
// seen through the port before it works hard again.
func pistonInDoubt(c *known.Case) bool {
	return pistonUnjudged(c) || c.Ported() && c.AnyLow(c.Read())
}

// lookInFirst is such an engine of one cylinder that nobody has looked into yet: with its
// ports in the wall it is looked at, and not blown up. So is a low cylinder that oil raised:
// air tells its rings from its wall no better than oil did.
func lookInFirst(c *known.Case, cylinders []string) bool {
	if c.WorkDone(portLooked...) {
		return false
	}
	return pistonUnjudged(c) && !c.Several() || c.Ported() && slices.ContainsFunc(cylinders, func(n string) bool {
		wet := c.WetEvidence(n)
		return (wet == known.WetRises || wet == known.WetPartly || wet == known.WetUnclear) && !c.Looked(n)
	})
}

// portLookTakes is the time of a look into the exhaust ports: the silencer of a saw is
// held by two screws.
func portLookTakes(c *known.Case, _ []string) int {
	if !c.Several() && c.FlywheelMagneto() {
		return 10
	}
	return 20
}

// crankcaseFell enters a crankcase that was pumped up to 6 psi and watched for ten
// minutes, by what it fell.
func crankcaseFell(by float64) func(*Trial) {
	return func(t *Trial) {
		t.measure(known.CrankcaseHold, "pumped-to", "", 6, quantity.PSI)
		m := t.section(known.CrankcaseHold)
		m.Readings = append(m.Readings, diag.Measurement{Name: "hold", At: "10 min", Unit: quantity.PSI, Reading: reading(6 - by)})
	}
}

// openCrankcase is a two-stroke whose crankcase and ports are reached from outside.
func openCrankcase(c *known.Case, _ []string) bool { return c.Ported() && !c.Powerhead() }

// heldByPressureAlone is a crankcase that held what was pumped in, which shows no seal whose lip a
// vacuum lifts, and of which nobody says that it was pumped empty.
func heldByPressureAlone(c *known.Case, _ []string) bool {
	return openCrankcase(c, nil) && known.CrankcaseHolds.HoldsIn(c) && !known.CrankcaseEmptied.HoldsIn(c)
}

// leaksOpen is a crankcase that fell and can be reached: pumped up, soap shows the place, but of a lip
// that only a vacuum lifts.
func leaksOpen(c *known.Case, _ []string) bool {
	return known.CrankcaseLets.HoldsIn(c) && !c.Powerhead()
}

// fellUnderPressure and fellUnderVacuum are how it was tested.
func fellUnderPressure(c *known.Case) bool { return !fellUnderVacuum(c) }
func fellUnderVacuum(c *known.Case) bool   { return known.UnderVacuum(c.Measured(known.CrankcaseHold)) }

// leanAndHeld is such a one of an engine that runs lean.
func leanAndHeld(c *known.Case) bool {
	return heldByPressureAlone(c, nil) && (c.LeanSign() != "" || len(c.PlugsLooking("white")) > 0 || known.IdleHangs.HoldsIn(c))
}

// portedChecks look at what lets a two-stroke breathe: its crankcase, ports and reeds.
var portedChecks = []Check{
	{Name: "crankcase-hold", Titles: []string{"pressure test of the crankcase", "crankcase pressure test"}, Minutes: 20, Whole: true, Why: []string{"scored-bore", "holed-piston", "piston", "crankcase-seal"}, Words: []string{"crankcase pressure"}, Fits: openCrankcase, Further: true, Made: readIn(known.CrankcaseHold, "hold"),
		Outcomes: []Outcome{{Name: "falls", For: []string{"crankcase-seal", "reed-valve"}, Enter: crankcaseFell(2)}, {Name: "holds", Else: true, Enter: crankcaseFell(0)}}},
	{Name: "crankcase-vacuum", Titles: []string{"vacuum test of the crankcase", "crankcase vacuum test"}, Minutes: 10, Whole: true, Words: []string{"crankcase vacuum"}, Fits: heldByPressureAlone, Answers: leanAndHeld, Further: true, Made: holds(known.CrankcaseEmptied),
		Outcomes: []Outcome{
			{Name: "vacuum falls", For: []string{"crankcase-seal", "clutch-side-seal"}, Words: []string{"falls", "fell", "lost", "does not hold"}, After: []string{"it falls"}},
			{Name: "vacuum holds", Else: true, Words: []string{"holds", "held"}, After: []string{"it holds"}}}},
	{Name: "exhaust-port-look", Titles: portTitles, Minutes: 20, Way: Hand | Opens, Mends: []string{"restricted-exhaust", "power-valve"}, Fits: openCrankcase, // of an outboard the ports lie behind a water jacket

		Answers: pistonInDoubt, MinutesOf: portLookTakes, Words: portWords,
		Outcomes: []Outcome{
			{Name: "narrowed by carbon", For: []string{"restricted-exhaust"}, Words: []string{"carbon", "coked", "blocked"}},
			{Name: "the flap sticks", For: []string{"power-valve"}, Words: []string{"gummed", "power valve sticks", "power valve stuck"}, After: []string{"its flap or slide does not move freely"}},
			{Name: "marks on piston or rings", For: []string{"rings", "scored-bore", "piston", "broken-ring-land", "stuck-rings", "holed-piston"}, Sure: 0.6, Words: []string{"scored", "scuffed", "melted"}, After: []string{"marks on the piston, or a ring that does not spring back", "marks"}},
			{Name: "open and clean", For: []string{"washed-bore"}, Else: true, Words: []string{"clean"}}}},
	{Name: "reed-look", Titles: []string{"the reeds", "look at the reeds"}, Minutes: 15, Whole: true, Answers: known.SpitsBack.HoldsIn, Way: Opens, Fits: func(c *known.Case, _ []string) bool { return c.Ported() }, Words: []string{"reeds looked at", "reed valve looked at"},
		Outcomes: []Outcome{
			{Name: "one stands off", For: []string{"reed-valve"}, Words: []string{"chipped", "stands off", "gap", "cracked"}},
			{Name: "all lie flat", Else: true, Words: []string{"flat", "good"}}}},
	{Name: "crankcase-soap", Titles: []string{"where the crankcase leaks", "soapy water on the crankcase"}, Minutes: 10, Whole: true, Fits: leaksOpen, Answers: known.CrankcaseLets.HoldsIn, Made: holds(known.CrankcasePlaced), Words: []string{"crankcase soaped", "seals soaped"},
		Outcomes: []Outcome{
			{Name: "bubbles at a seal or joint", For: []string{"crankcase-seal"}, Words: []string{"bubbles at", "seal", "joint", "gasket"}, After: []string{"bubbles at a shaft seal or a joint"}},
			{Name: "none there", For: []string{"reed-valve"}, Fits: fellUnderPressure, Else: true, Words: []string{"none", "no bubbles"}},
			{Name: "only under vacuum", For: []string{"crankcase-seal"}, Fits: fellUnderVacuum, Else: true, Words: []string{"only vacuum", "holds pressure"}, After: []string{"none there, and it holds pressure"}}}},
}
