package cause

import (
	"slices"

	"gaugesheet/diag/known"
)

// airBelowTheHead is an engine whose head lifts off in less than an hour, of which these
// cylinders blow their air into the chamber beside the bore, by their gasket or past a broken
// land: oil on the rings stopped none of it.
func airBelowTheHead(c *known.Case, cylinders []string) bool {
	return c.PushrodChamber() && slices.ContainsFunc(cylinders, func(n string) bool {
		flat := c.OilStopsNothing(n) && c.BoreSeenWhole(n)
		return c.LeaksAt(n, known.AtCrankcase) && (flat || c.MayPassTheGasket(n) && c.WorkDone(listened...))
	})
}

// listened are the words by which it is said that air was listened for under the valve cover.
var listened = []string{"listen under cover", "listened under the valve cover", "listened under the rocker cover"}

// airMayPassGasket is an engine of which these cylinders blow their air into the crankcase, by
// the rings or by what leads down to it past the gasket: not where a good wall was seen, and the
// head comes off for either.
func airMayPassGasket(c *known.Case, cylinders []string) bool {
	if len(cylinders) == 0 {
		cylinders = slices.DeleteFunc(slices.Clone(c.Every()), func(n string) bool { return !c.MayPassTheGasket(n) })
	}
	return len(cylinders) > 0 && !airBelowTheHead(c, cylinders) && !slices.ContainsFunc(cylinders, func(n string) bool { return !c.MayPassTheGasket(n) })
}

// coverBeforeCamera is what tells a gasket that lets air into the crankcase from rings, neither of
// which a camera sees.
func coverBeforeCamera(c *known.Case) string {
	if slices.ContainsFunc(c.Every(), c.MayPassTheGasket) {
		return "listen-under-cover"
	}
	return ""
}

// oilLeftIt are cylinders whose air goes where a gasket may let it, and that oil did not help: more
// of it tells nothing new.
func oilLeftIt(c *known.Case, cylinders []string) bool {
	return len(cylinders) > 0 && !slices.ContainsFunc(cylinders, func(n string) bool { return !c.MayPassTheGasket(n) || !c.OilLeavesIt(n) })
}

// headChecks look under a head that comes off as fast as a cover.
var headChecks = []Check{
	{Name: "listen-under-cover", Titles: []string{"listening under the valve cover"}, Minutes: 15, Way: Hand | Air, Fits: airMayPassGasket, Words: listened,
		Outcomes: []Outcome{
			{Name: "beside the pushrods", For: []string{"head-gasket", "warped-or-cracked-head"}, Words: []string{"pushrods", "pushrod", "tunnel", "gallery", "chain"}, After: []string{"it blows out beside the pushrods or the chain"}},
			{Name: "at the dipstick", For: []string{"rings", "broken-ring-land", "piston", "holed-piston", "scored-bore", "stuck-rings", "wear"}, Words: []string{"breather", "dipstick"}, After: []string{"it blows out at the breather"}},
			{Name: "alike", Else: true, Words: []string{"alike", "both"}, After: []string{"it is the same at both"}}}},
	{Name: "head-off", Titles: []string{"a look under the head"}, Minutes: 45, Way: Opens, Fits: airBelowTheHead, Words: []string{"head taken off", "head lifted"},
		Outcomes: []Outcome{
			{Name: "gasket burned through", For: []string{"head-gasket", "warped-or-cracked-head"}, Words: []string{"burned through", "burnt through", "blown", "gasket burned"}, After: []string{"the gasket is burned through, or the head is not flat"}},
			{Name: "marks on piston or wall", For: []string{"scored-bore", "holed-piston", "piston", "broken-ring-land"}, Sure: 0.7, Words: []string{"scored", "holed", "broken land", "marks"}, After: []string{"the piston or the wall is marked"}},
			{Name: "both whole", Else: true, Words: []string{"whole", "sound"}, After: []string{"gasket, piston and wall are whole"}}}},
}
