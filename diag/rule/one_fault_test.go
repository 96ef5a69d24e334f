package rule_test

import (
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
	"gaugesheet/diag/rule/sample"
)

// TestOneFault: what two kinds of tests find of one fault is told as one, and not where one
// of the two finds nothing: common practice, no source.
func TestOneFault(t *testing.T) {
	glazed, good := saw("1", diag.Bore{Wall: "glazed"}), saw("1", diag.Bore{Wall: "good"})
	oily := sample.Complains("oil use")
	diesel, petrol := []float64{380, 378, 382, 379}, []float64{150, 151, 149, 150}
	boost := func(bar float64) sample.Change {
		return sample.Test(diag.OtherReadings, quantity.Bar, sample.At("boost at full load", "", bar), sample.Permits("boost at full load", "", 1.2, sample.NoMost))
	}
	turbo := sample.Spec(func(s *diag.Spec) { s.Charging = "turbo" })
	vent := func(inches float64) sample.Change {
		return sample.Test("crankcase", quantity.InH2O, sample.Ticked("ventilation", "connected"), sample.At("readings", "idle", inches))
	}
	presses := sample.Test("crankcase", quantity.InH2O, sample.Ticked("ventilation", "off"), sample.At("readings", "2500 rpm", 8), sample.Permits("readings", "2500 rpm", sample.NoLeast, 4))
	trims := sample.Test("trims", quantity.Percent, sample.At("trim long", "idle bank 1", -27), sample.At("trim long", "2500 rpm bank 1", -6))
	smells := func(of string) sample.Change { return oil(sample.Ticked("oil smell", of)) }
	runSealing(t, []sealingCase{
		{name: "a glazed diesel that uses oil", test: sample.Dry("inline-4", diesel, sample.Diesel, glazed, oily), fires: "glazed-by-light-load 1; seen-glazed 1", first: "light-load", not: "glazed-and-uses-oil", soon: diag.CheckAgain, next: "work-it-hard"},
		{name: "a diesel whose walls are good", test: sample.Dry("inline-4", diesel, sample.Diesel, good, oily), not: "glazed-by-light-load"},
		{name: "a glazed petrol engine that uses oil", test: sample.Dry("inline-4", petrol, glazed, oily), fires: "glazed-and-uses-oil 1", first: "oil-control-rings", not: "glazed-by-light-load", soon: diag.CheckAgain},
		{name: "a glazed petrol engine that uses none", test: sample.Dry("inline-4", petrol, glazed), fires: "seen-glazed 1", not: "glazed-and-uses-oil"},
		{name: "glazed walls and gas in the crankcase", test: sample.Dry("single", []float64{150}, glazed, oily, presses), fires: "blow-by-of-glaze 1; crankcase-pressure-high", first: "oil-control-rings", soon: diag.ActSoon},
		{name: "good walls and gas in the crankcase", test: sample.Dry("single", []float64{150}, good, oily, presses), fires: "crankcase-pressure-high", not: "blow-by-of-glaze"},
		{name: "oily plugs and a crankcase drawn empty", test: sample.Dry("inline-4", petrol, sample.Plug("oil-wet", "1"), vent(-14)), fires: "crankcase-draws-oil 1; crankcase-vacuum-strong", first: "vent-valve-open", soon: diag.ActSoon},
		{name: "oily plugs and a crankcase drawn as it should be", test: sample.Dry("inline-4", petrol, sample.Plug("oil-wet", "1"), vent(-1)), not: "crankcase-draws-oil"},
		{name: "boost short", test: sample.Of("inline-4", turbo, sample.Complains("low power"), boost(0.4)), fires: "boost-low", not: "test-outside-limit", first: "boost-leak", soon: diag.ActSoon},
		{name: "boost short, its charger told by the reading", test: sample.Of("inline-4", sample.Complains("low power"), boost(0.4)), fires: "boost-low", not: "test-outside-limit", first: "boost-leak", soon: diag.ActSoon},
		{name: "boost as it should be", test: sample.Of("inline-4", turbo, sample.Complains("low power"), boost(1.3)), not: "boost-low test-outside-limit"},
		{name: "fuel in the oil and a rich idle", test: sample.Of("inline-4", trims, smells("fuel")), fires: "oil-feeds-the-idle; trim-rich", first: "fuel-in-oil", soon: diag.ActSoon},
		{name: "a rich idle over clean oil", test: sample.Of("inline-4", trims, smells("none")), fires: "trim-rich", not: "oil-feeds-the-idle"},
	})
}
