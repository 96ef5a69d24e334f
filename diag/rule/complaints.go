package rule

import (
	"maps"
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// complaintsOpen says that some complaints are open; which, the story knows.
func complaintsOpen(c *known.Case, _ known.Subject) diag.Finding {
	coded := c.MisfireOf()
	read := c.ReadAny()
	urgency := diag.CheckAgain
	if c.RunsHot() || c.FaltersInTheAir() || slices.Contains(c.Complaints(), known.OilLight) && !known.OilProved.HoldsIn(c) {
		urgency = diag.ActSoon
	}
	facts := testsMade(c)
	maps.Copy(facts, diag.Facts{
		"reading": fires(c), "alone": aloneUnjudged(c), "sealed": sealed(c), "flies": c.Flies() && c.HasValves(), "magnetos": c.Measured(known.Magnetos) != nil, "ported": c.Ported(),
		"coded": diag.Names(coded), "unread": diag.Names(slices.DeleteFunc(slices.Clone(coded), func(n string) bool { return slices.Contains(read, n) })),
		"complaints": diag.Names(c.Complaints()), "valves": c.HasValves(), "diesel": c.Spec.Diesel(), "carburetted": c.Carburetted(), "airCooled": c.AirCooled(), "rotary": c.Rotary(), "oilRead": c.Has(known.NeedsTest(known.Oil)), "oilUse": oilOver(c), "oilUsual": oilUsual(c)})
	return diag.Finding{Urgency: urgency, Confidence: diag.Weak, Facts: facts}
}

// testsMade are the tests that would tell of a complaint and that the job has: nobody is sent
// to make them.
func testsMade(c *known.Case) diag.Facts {
	facts := diag.Facts{"fed": len(c.Circuits()) > 0, "volume": false, "held": false, "hose": c.FuelInHose("no"), "timed": c.Measured(known.Timing) != nil, "exhaust": c.Measured(known.BackPressure) != nil,
		"trims": c.Measured(known.Trims) != nil, "gasTested": (c.CoolantGas == "negative" || c.CoolantGas == "positive") && !c.GasTestWeak(), "pumped": false}
	for _, k := range c.Circuits() {
		facts["volume"], facts["held"] = facts["volume"] == true || k.Volume != nil, facts["held"] == true || len(k.Hold) > 0
	}
	if r := c.Measured(known.Cooling); r != nil {
		facts["pumped"] = r.Reading("pressure-test hold") != nil
	}
	return facts
}
