package cause

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// extentChecks say how far damage goes that was seen, before work on it is priced.
var extentChecks = []Check{
	{Name: "scope-the-rest", Titles: []string{"a look into the other cylinders"}, Minutes: 15, MinutesOf: restTakes, Whole: true, Why: []string{"scored-bore"}, Fits: restUnseen, Words: []string{"others borescoped", "rest borescoped", "other cylinders borescoped", "looked into the others"},
		Outcomes: []Outcome{
			{Name: "more are scored", For: []string{"scored-bore"}, Sure: 0.5, Enter: sawRest("scored"), Words: []string{"more", "others scored", "scored too"}},
			{Name: "the others are clean", Else: true, Enter: sawRest("good"), Words: []string{"clean", "alone", "good"}}}},
}

// sightChecks have what was seen said in words that can be judged.
var sightChecks = []Check{
	{Name: "second-look", Titles: []string{"a second look at what was seen"}, Minutes: 15, Fits: func(c *known.Case, cylinders []string) bool {
		return pistons(c, nil) && slices.ContainsFunc(cylinders, func(n string) bool { return len(c.SeenNotJudged(n)) > 0 })
	},
		Outcomes: []Outcome{
			{Name: "scored", For: []string{"scored-bore", "rings", "pitted-bore", "cracked-bore"}, Sure: 0.8, Enter: saw(diag.Bore{Wall: "scored"}), Words: []string{"wall", "rust"}},
			{Name: "holed", For: []string{"holed-piston", "piston", "broken-ring-land"}, Sure: 0.8, Enter: saw(diag.Bore{Crown: "holed"}), Words: []string{"piston"}},
			{Name: "valve", For: []string{"exhaust-valve", "inlet-valve"}, Sure: 0.8, Fits: valved, Enter: saw(diag.Bore{Valves: "burnt"}), Words: []string{"burnt", "seat"}},
			{Name: "nothing", Else: true, Words: []string{"sound", "good", "harmless"}}}},
}

// reasonChecks look for what brought about damage that was seen.
var reasonChecks = []Check{
	{Name: "own-fuel-look", Titles: []string{"what feeds that cylinder"}, Minutes: 30, Way: Opens, Why: []string{"piston", "holed-piston", "scored-bore"}, Fits: leanedAlone, Mends: []string{"carburettor"}, Words: []string{"its jets looked at", "its carburetor looked at", "its carburetor opened", "its carburettor opened", "its float bowl"},
		Outcomes: []Outcome{
			{Name: "it got too little", For: []string{"carburettor"}, Sure: 0.8, Words: []string{"blocked", "low", "dirt", "water", "varnish"}},
			{Name: "it was fed", Else: true, Words: []string{"clear", "nothing", "good"}, After: []string{"nothing is wrong there"}}}},
	{Name: "flow-look", Titles: []string{"a look at what cools the engine"}, Minutes: 30, Whole: true, Way: Hand | Opens, Why: []string{"scored-bore", "piston", "holed-piston", "stuck-rings"}, Fits: func(c *known.Case, cylinders []string) bool { // an outboard's impeller wears out unseen
		return (heatComplained(c, cylinders) || c.Powerhead() && !c.AirCooled()) && !known.CoolingFalls.HoldsIn(c)
	}, Mends: []string{"coolant-flow", "thermostat"}, Words: []string{"impeller looked at", "impeller out", "water pump looked at", "water pump opened", "impeller replaced", "new impeller"},
		Outcomes: []Outcome{
			{Name: "little could flow", For: []string{"coolant-flow"}, Sure: 0.8, Words: []string{"worn", "broken", "blocked", "vanes", "slips", "clogged"}},
			{Name: "the thermostat stays shut", For: []string{"thermostat"}, Sure: 0.8, Fits: func(c *known.Case) bool { return !known.ThermostatGood.HoldsIn(c) }, Words: []string{"shut", "stuck"}, After: []string{"the thermostat does not open in hot water"}},
			{Name: "nothing is wrong there", Else: true, Words: []string{"good", "nothing"}}}},
}

// leanedAlone is a two-stroke with a carburettor for each cylinder of which a piston burnt through or
// melted in some and not in all, or scored its wall under a plug that alone shows a lean mixture, and
// nobody tells of heat: one pump cools them all, and what one has to itself leaned it. One whose crankcase is reached from outside has held its pressure before.
func leanedAlone(c *known.Case, cylinders []string) bool {
	some := len(cylinders) > 0 && len(cylinders) < len(c.Every())
	if c.AnySeen(cylinders, known.ScoredWords) && !c.AnySeen(cylinders, known.GonePiston) && !c.LeanAlone(cylinders) {
		return false
	}
	return some && !heatComplained(c, nil) && (c.Powerhead() && c.Carburetted() || c.Ported() && c.CarburettorEach() && known.CrankcaseHolds.HoldsIn(c))
}

// restUnseen is an engine with a scored wall in a cylinder that still holds its pressure,
// while nobody has looked into others: how deep and how many decides what is done, and a
// camera sees it. One that is low comes apart whatever the others show.
func restUnseen(c *known.Case, cylinders []string) bool {
	scored := slices.ContainsFunc(c.Every(), func(n string) bool { return c.Seen(n, known.ScoredWords...) })
	return scored && pistons(c, nil) && c.Several() && len(unseen(c)) > 0 && !c.AnyLow(c.Read()) && !slices.ContainsFunc(c.Every(), c.HighLoss) && !c.OwnHeads(c.Every())
}

// unseen are the cylinders into which nobody has looked.
func unseen(c *known.Case) []string { return c.Those(func(n string) bool { return !c.Looked(n) }) }

// restTakes is the time of a look into each of them.
func restTakes(c *known.Case, _ []string) int { return lookTakes(c, unseen(c)) }

// sawRest enters what is seen of their walls.
func sawRest(wall string) func(*Trial) {
	return func(t *Trial) {
		t.Cylinders = unseen(t.Case)
		saw(diag.Bore{Wall: wall})(t)
	}
}

// restOf are those for the words of a check that looks into them, nil for any other.
func restOf(k *Check, c *known.Case) []string {
	if len(k.Why) == 0 {
		return nil
	}
	return unseen(c)
}
