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
