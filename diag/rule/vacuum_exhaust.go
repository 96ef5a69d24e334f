package rule

import (
	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// backAndVacuum is as urgent as the back-pressure by itself, and sooner where the engine
// lacks the power that it costs.
func backAndVacuum(c *known.Case, _ known.Subject) diag.Finding {
	m := c.BackPressureFar()
	if known.BackPressureHigh.HoldsIn(c) {
		m, _ = known.WorstOf(c.Measured(known.BackPressure), known.Over)
	}
	f := measuredFinding(m, true, diag.CheckAgain)
	if known.BackPressureHigh.HoldsIn(c) || c.Complains("low power") {
		f.Urgency = diag.ActSoon
	}
	f.Facts["vacuum"] = c.Measured(known.Vacuum).Reading("idle").Number().String()
	return f
}
