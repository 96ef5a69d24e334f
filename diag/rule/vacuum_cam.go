package rule

import (
	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// lateCam ties a low needle to valves that were measured late.
var lateCam = systemRule(known.Vacuum, OfVacuum, byNeedle, []Rule{
	{
		Name: "late-cam-agrees", Title: "Low and steady vacuum, and a camshaft or its chain measured off",
		Why:   "Valves that open and shut late pull less vacuum in every cylinder alike. The marks or the slack of the chain have shown them late: that is put right first, and the vacuum read again before any air is looked for.",
		Class: Together, TiesSystems: []string{known.Timing}, Needs: needsTest(known.Timing), When: known.All(known.VacuumLow, known.CamLate, known.Not(known.LateBase), known.Not(known.UnderFloor)),
		Weigh: func(c *known.Case, _ known.Subject) []Voice {
			return append(where(known.ChainSlack(c.Measured(known.Timing)), speaks(Known, "worn-chain")), speaks(DryUp, "cam-timing")...)
		}, Say: vacuumAt(diag.CheckAgain), Headline: "late-timing", Keeps: true, SaysBetterThan: []string{"vacuum-low-and-steady", "vacuum-low-sealing-sound"},
	},
})
