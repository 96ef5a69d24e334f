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
		return c.LeaksAt(n, known.AtCrankcase) && (c.LeaksAsMuchOiled(n) || flat)
	})
}

// headChecks look under a head that comes off as fast as a cover.
var headChecks = []Check{
	{Name: "head-off", Titles: []string{"a look under the head"}, Minutes: 45, Way: Opens, Fits: airBelowTheHead, Words: []string{"head taken off", "head lifted"},
		Outcomes: []Outcome{
			{Name: "gasket burned through", For: []string{"head-gasket", "warped-or-cracked-head"}, Words: []string{"burned through", "burnt through", "blown", "gasket burned"}, After: []string{"the gasket is burned through, or the head is not flat"}},
			{Name: "marks on piston or wall", For: []string{"scored-bore", "holed-piston", "piston", "broken-ring-land"}, Sure: 0.7, Words: []string{"scored", "holed", "broken land", "marks"}, After: []string{"the piston or the wall is marked"}},
			{Name: "both whole", Else: true, Words: []string{"whole", "sound"}, After: []string{"gasket, piston and wall are whole"}}}},
}
