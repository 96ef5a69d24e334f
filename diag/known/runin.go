package known

import (
	"slices"
	"strings"

	"gaugesheet/diag/quantity"
)

// How much an engine has run by which its rings have commonly bedded in: judgement, no
// source.
const (
	runInHours = 25
	runInKM    = 1500
	runInMiles = 1000
)

var (
	notRunIn = []string{"not yet run in", "not run in", "still running in", "being run in", "not bedded in", "not yet bedded in", "not yet broken in", "not broken in", "break in not finished"}
	newRings = []string{"new rings", "new piston rings", "rings renewed", "rings replaced", "new pistons", "new cylinders", "rebored", "re-ringed", "engine overhaul", "engine overhauled", "top overhaul",
		"major overhaul", "overhaul of the engine", "engine rebuilt", "engine rebuild", "rebuilt engine", "rebuilt", "newly overhauled", "freshly overhauled"}
	overhauls = []string{"overhaul", "overhauled"}
	// notTheBores are what else is overhauled or rebuilt.
	notTheBores = []string{"carburet", "injector", "pump", "gearbox", "transmission", "head", "brake", "alternator", "magneto", "starter", "turbo", "distributor", "suspension"}
)

// RingsNotRunIn is an engine whose rings are new: by what was done, by what is said of it, or
// by how little it has run.
var RingsNotRunIn = OfEngine("new rings, an overhaul, said not to be run in, or at most 25 h, 1,500 km or 1,000 mi run", func(c *Case) bool { return !c.Rotary() && (c.newlyBuilt() || c.hardlyRun()) })

// newlyBuilt reads the words: a text that says 'not yet' is about what is still to come, and
// so is no work done, which is why it is looked for as it stands.
func (c *Case) newlyBuilt() bool {
	said := func(text string) bool { return SpeaksOf(strings.ToLower(text), notRunIn...) }
	if slices.ContainsFunc(c.History.WorkDone, said) || slices.ContainsFunc(c.History.Findings, said) || c.WorkDone(newRings...) {
		return true
	}
	return slices.ContainsFunc(c.Works(), func(w Work) bool { return w.Says(overhauls...) && !SpeaksOf(w.Text, notTheBores...) })
}

// hardlyRun reports a distance or hours that are said to be the true ones and are few.
func (c *Case) hardlyRun() bool {
	v, err := quantity.Parse(c.History.Distance)
	if c.History.Distance == "" || err != nil {
		return false
	}
	switch _, unit, _ := strings.Cut(c.History.Distance, " "); unit {
	case "h":
		return v.Number <= runInHours
	case "km":
		return v.Number <= runInKM
	case "mi":
		return v.Number <= runInMiles
	}
	return false
}
