package rule

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// dangerRules are on what the technician saw of parts that nothing measures: no sheet gives an
// all-clear over a line that speaks of damage.
var dangerRules = []Rule{
	{
		Name: "seen-grave", Title: "What stops an engine wherever it sits was written among the findings",
		Why: "A timing belt that loses its teeth, a bearing down to its copper, a hose of the oil cooler that has burst, a bolt of the head that is broken: readings that are good today say nothing of the next minute. " +
			"An aircraft stops for an exhaust, a mount or an intake that is cracked as well.",
		Source: "common practice, no source", Class: Single, About: diag.AboutEngine,
		Of: theEngine, When: known.SeenGrave, Kind: OfSight, Say: writtenSays(diag.DoNotRun), Headline: "seen-grave", Repair: "as-seen", Apart: true,
		InsteadOf: []string{"sealing-sound-look-elsewhere"},
	},
	{
		Name: "seen-elsewhere", Title: "Damage or a leak was written among the findings, and nothing else here judges it",
		Why: "What somebody saw is printed as it was written. Good readings beside it are no all-clear for what they do not measure: whoever saw it says what it means, and it is put right or looked at again. " +
			"What is slight, old or put right asks for nothing.",
		Source: "common practice, no source", Class: Single, About: diag.AboutEngine,
		Of: theEngine, When: known.SeenElsewhere, Kind: OfSight, Say: writtenSays(diag.CheckAgain), Headline: "seen-elsewhere", Rest: true,
	},
}

// writtenSays is the finding on lines as they were written.
func writtenSays(urgency diag.Urgency) func(*known.Case, known.Subject) diag.Finding {
	return func(c *known.Case, _ known.Subject) diag.Finding {
		lines, _ := c.SeenUnjudged()
		return diag.Finding{Urgency: urgency, Confidence: diag.Fair, Facts: diag.Facts{"said": known.InShort(lines), "flies": c.Flies()}}
	}
}

// withoutRest leaves out what is told only where nothing else that was found presses as much.
func withoutRest(c *known.Case, hits []Hit) []Hit {
	if !slices.ContainsFunc(hits, func(h Hit) bool { return h.Rule.Rest }) {
		return hits
	}
	presses := func(h Hit) int {
		if h.Rule.Say == nil {
			return diag.CheckAgain.Rank()
		}
		return h.Rule.Say(c, h.Subject).Urgency.Rank()
	}
	most := 0
	for _, h := range hits {
		if !h.Rule.Rest {
			most = max(most, presses(h))
		}
	}
	return slices.DeleteFunc(hits, func(h Hit) bool { return h.Rule.Rest && presses(h) <= most })
}
