package cause

import (
	"slices"

	"gaugesheet/diag/known"
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
