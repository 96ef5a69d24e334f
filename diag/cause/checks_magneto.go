package cause

import (
	"gaugesheet/diag/known"
	"gaugesheet/diag/quantity"
)

// magnetoCauses are what two magnetos and their plugs can lack.
var magnetoCauses = []Cause{
	{Name: "magneto-plug", Fits: twoMagnetos, Explains: sparkly},
	{Name: "magneto-lead", Fits: twoMagnetos, Explains: sparkly},
	{Name: "magneto", Fits: twoMagnetos, Explains: sparkly},
	{Name: "magneto-ground", Fits: twoMagnetos},
}

func twoMagnetos(c *known.Case) bool { return c.TwoMagnetos() }

// sparksInDoubt is an engine with two magnetos that runs as one does that lacks sparks, and of
// which nothing says where. A valve that sticks until it is warm is no spark.
func sparksInDoubt(c *known.Case, _ []string) bool {
	return c.TwoMagnetos() && c.Complains(misfire, lowPower) && !c.AnyLow(c.Read()) && !known.RoughCold.HoldsIn(c)
}

// magnetosUneven is one of which a magneto check has found that one loses too much.
func magnetosUneven(c *known.Case, _ []string) bool {
	return c.TwoMagnetos() && known.MagnetosUneven.HoldsIn(c)
}

// coldKnown is an engine with a head of which it is known that it stays cold.
func coldKnown(c *known.Case, cylinders []string) bool {
	return c.TwoMagnetos() && len(c.Those(c.HeadIsCold)) > 0 && len(cylinders) < len(c.Every())
}

// drops enters what the speed fell by on each magneto alone, in rpm.
func drops(left, right float64) func(*Trial) {
	return func(t *Trial) {
		t.measure(known.Magnetos, "left", "", left, quantity.RPM)
		t.measure(known.Magnetos, "right", "", right, quantity.RPM)
	}
}

// headsRead enters heads that are all as warm as is usual, but for the first, of which it
// is a part, on the magneto on which the speed falls more.
func headsRead(part float64) func(*Trial) {
	return func(t *Trial) {
		t.measureEach(known.Heads, "temperature", 320, part, quantity.Fahrenheit)
		if on := t.Case.WorseMagneto(); on != "" {
			t.tick(known.Heads, "magneto", on)
		}
	}
}

// magnetoChecks look for what two magnetos and their plugs lack. None of them turns the
// propeller by hand while a magneto may fire.
var magnetoChecks = []Check{
	{Name: "magneto-check", Titles: []string{"the magneto check"}, Baseline: true, Minutes: 5, Whole: true, Way: Runs, Fits: sparksInDoubt, Answers: func(c *known.Case) bool { return sparksInDoubt(c, nil) }, Made: measuredTest(known.Magnetos), Words: []string{"magnetos checked", "mag check", "mag drop"},
		Outcomes: []Outcome{
			{Name: "one falls far more", For: []string{"ignition", "weak-spark", "own-spark", "coil-or-lead", "magneto-plug", "magneto-lead", "magneto"}, Sure: 0.9, Enter: drops(240, 70), Words: []string{"uneven", "falls far", "rough on"}},
			{Name: "one does not fall", For: []string{"magneto-ground"}, Sure: 0.9, Enter: drops(0, 70), Words: []string{"no drop", "does not fall"}},
			{Name: "both alike", Else: true, Enter: drops(70, 70), Words: []string{"alike", "even", "within"}, After: []string{"both fall a little and alike"}}}},
	{Name: "burn-plugs-clean", Titles: []string{"burning the plugs clean"}, Minutes: 10, Whole: true, Way: Runs, Mends: []string{"magneto-plug"}, Fits: magnetosUneven, Words: []string{"plugs burned clean", "burned clean", "leaned run-up"},
		Outcomes: []Outcome{
			{Name: "both alike now", For: []string{"magneto-plug"}, Well: true, Sure: 0.5, Words: []string{"alike", "even", "cleared", "within"}},
			{Name: "still uneven", Else: true, Words: []string{"uneven", "same", "still"}}}},
	{Name: "cold-cylinder", Titles: []string{"the cold cylinder", "which head stays cold"}, Baseline: true, Minutes: 20, Whole: true, Way: Runs, Fits: func(c *known.Case, _ []string) bool {
		return magnetosUneven(c, nil) && len(c.Every()) > 2
	}, Made: measuredTest(known.Heads), Words: []string{"cold cylinder check", "heads felt", "head temperatures read"},
		Outcomes: []Outcome{
			{Name: "one head is cold", For: []string{"magneto-plug", "magneto-lead", "own-spark", "coil-or-lead", "own-injector"}, Sure: 0.9, Enter: headsRead(0.6), Words: []string{"cold"}, After: []string{"one head stays cold"}},
			{Name: "all alike", Else: true, Enter: headsRead(1), Words: []string{"alike", "even"}, After: []string{"all are about as warm"}}}},
	{Name: "plug-and-lead-swap", Titles: []string{"its plug and plug wire", "its spark plug and plug wire"}, Minutes: 25, Way: Opens, Fits: coldKnown, Words: []string{"plug and lead swapped", "plug and lead tested"},
		Outcomes: []Outcome{
			{Name: "the plug is bad", For: []string{"magneto-plug", "own-spark"}, Words: []string{"plug is fouled", "plug fouled", "plug bad", "cracked", "oiled"}, After: []string{"the plug is fouled, worn or cracked"}},
			{Name: "the lead leaks", For: []string{"magneto-lead", "coil-or-lead"}, Words: []string{"lead leaks", "wire leaks", "wire bad", "open"}, After: []string{"the wire leaks or is open"}},
			{Name: "both are good", Else: true, Words: []string{"good", "sound"}}}},
	{Name: "magneto-ground-test", Titles: []string{"the magneto's ground wire", "ground wires and switch"}, Minutes: 15, Whole: true, Fits: holds(known.MagnetoLive),
		Answers: known.MagnetoLive.HoldsIn, Words: []string{"ground lead measured", "ground wire measured", "p lead measured", "switch measured"},
		Outcomes: []Outcome{
			{Name: "lead or switch is open", For: []string{"magneto-ground"}, Words: []string{"open", "broken", "loose", "off its terminal"}, After: []string{"it stays open with the switch off"}},
			{Name: "each is grounded", Else: true, Words: []string{"grounded", "good", "closed"}, After: []string{"each is grounded with the switch off"}}}},
	{Name: "magneto-look", Titles: []string{"the magneto itself"}, Minutes: 60, Whole: true, Way: Opens, Fits: func(c *known.Case, _ []string) bool {
		return c.TwoMagnetos() && c.Measured(known.Magnetos) != nil
	}, Words: []string{"magneto opened", "magneto looked at", "magneto timing checked", "magneto overhauled"},
		Outcomes: []Outcome{
			{Name: "worn or out of time", For: []string{"magneto"}, Words: []string{"worn", "out of time", "late", "early", "burned", "cracked"}},
			{Name: "right", Else: true, Words: []string{"right", "good"}, After: []string{"it is right", "points, coil and timing are right"}}}},
}
