package sample

import (
	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
)

func methodRows() []Row {
	even := []float64{160, 158, 159, 157}
	bare := func(t *diag.Test) {
		t.Conditions, t.Gauges = diag.Conditions{}, diag.Gauges{}
	}
	dieselRead := Test("diesel", quantity.Ohm, Each("glow", 0.6, 0.7, 0.6, 0.6))
	return []Row{
		{Name: "method recorded", Test: Dry("inline-4", even), Not: []string{"method-incomplete", "not-standard-method", "falls-in-test-order", "too-few-cylinders", "repeats-disagree", "strokes-differ", "needle-falls-back"}},
		{Name: "nothing recorded of the method", Test: Dry("inline-4", even, bare), Fires: []string{"method-incomplete", "even-no-minimum"}},
		{Name: "throttle not sure", Test: Dry("inline-4", even, Method(func(c *diag.Conditions) { c.Throttle = "not sure" })), Fires: []string{"method-incomplete"}},
		{Name: "a diesel is not asked for its throttle", Test: Dry("inline-4", []float64{400, 405, 398, 402}, Diesel, Method(func(c *diag.Conditions) { c.Throttle = "" })), Not: []string{"method-incomplete"}},
		{Name: "throttle closed", Test: Dry("inline-4", even, Minimum(128), Method(func(c *diag.Conditions) { c.Throttle = "closed" })),
			Fires: []string{"not-standard-method"}, Not: []string{"method-incomplete", "even-above-minimum", "below-minimum", "even-no-minimum"}},
		{Name: "other plugs in, unusual method", Test: Dry("inline-4", even, Method(func(c *diag.Conditions) { c.PlugsOut, c.Method = "one at a time", "cranked by hand" })), Fires: []string{"not-standard-method"}},
		{Name: "decompressor at work", Test: Dry("single", []float64{70}, Spec(func(s *diag.Spec) { s.Decompressor = "automatic" })),
			Fires: []string{"not-standard-method"}, Not: []string{"one-without-pressure", "even-no-minimum", "too-few-cylinders"}},
		{Name: "glow plugs in a petrol engine", Test: Dry("inline-4", even, dieselRead), Fires: []string{"fuel-contradicted"}},
		{Name: "glow plugs in a diesel", Test: Dry("inline-4", []float64{400, 405, 398, 402}, Diesel, dieselRead), Not: []string{"fuel-contradicted"}},
		{Name: "falls in test order", Test: Dry("inline-4", []float64{160, 156, 151, 147}, Order("1", "2", "3", "4")), Fires: []string{"falls-in-test-order"}},
		{Name: "falls in another order", Test: Dry("inline-4", []float64{160, 151, 156, 147}, Order("1", "3", "2", "4")), Fires: []string{"falls-in-test-order"}},
		{Name: "falls by number, the order not recorded", Test: Dry("inline-6", []float64{160, 156, 152, 149, 146, 143}), Fires: []string{"falls-in-test-order"}},
		{Name: "four fall by number, the order not recorded", Test: Dry("inline-4", []float64{160, 156, 151, 147}), Not: []string{"falls-in-test-order"}},
		{Name: "falls, and the first came back", Test: Dry("inline-4", []float64{160, 156, 151, 147}, Order("1", "2", "3", "4"), Again("1", 159)), Not: []string{"falls-in-test-order"}},
		{Name: "falls, and the first fell too", Test: Dry("inline-4", []float64{160, 156, 151, 147}, Order("1", "2", "3", "4"), Again("1", 146)), Fires: []string{"falls-in-test-order"}},
		{Name: "one dead cylinder tested last is no steady fall", Test: Dry("inline-4", []float64{160, 158, 157, 62}, Order("1", "2", "3", "4")), Fires: []string{"one-low"}, Not: []string{"falls-in-test-order"}},
		{Name: "four that fall by 5 %, as one sound set in many does", Test: Dry("inline-4", []float64{412, 405, 400, 391}, Order("1", "2", "3", "4")), Not: []string{"falls-in-test-order"}},
		{Name: "six that fall by 6 %", Test: Dry("inline-6", []float64{160, 158, 157, 154, 153, 150}, Order("1", "2", "3", "4", "5", "6")), Fires: []string{"falls-in-test-order"}},
		{Name: "falls by less than the gauge tells", Test: Dry("inline-4", []float64{160, 159, 158, 157}, Order("1", "2", "3", "4")), Not: []string{"falls-in-test-order"}},
		{Name: "repeats apart", Test: Dry("inline-4", even, Repeats("3", 140, 158)), Fires: []string{"repeats-disagree"}, Not: []string{"even-no-minimum", "one-low", "too-few-cylinders"}},
		{Name: "repeats apart and low", Test: Dry("inline-4", even, Repeats("3", 84, 98)), Fires: []string{"repeats-disagree", "low-by-every-repeat"}, Not: []string{"one-low"}},
		{Name: "repeats close", Test: Dry("inline-4", even, Repeats("3", 156, 158)), Not: []string{"repeats-disagree"}},
		{Name: "strokes differ", Test: Dry("inline-4", []float64{160, 158, 120, 157}, func(t *diag.Test) { t.Compression.Strokes = map[string]int{"3": 3} }), Fires: []string{"strokes-differ", "one-low"}},
		{Name: "the same strokes written out", Test: Dry("inline-4", even, func(t *diag.Test) { t.Compression.Strokes = map[string]int{"3": 6} }), Not: []string{"strokes-differ"}},
		{Name: "needle falls back", Test: Dry("inline-4", even, Method(func(c *diag.Conditions) { c.Needle = "falls back" })), Fires: []string{"needle-falls-back"}},
		{Name: "a long hose on a small cylinder", Test: Dry("inline-4", even, small(6, "at gauge")), Fires: []string{"hose-lowers-readings"}},
		{Name: "the valve at the plug end of it", Test: Dry("inline-4", even, small(6, "at plug end")), Not: []string{"hose-lowers-readings"}},
		{Name: "a short hose", Test: Dry("inline-4", even, small(0.5, "at gauge")), Not: []string{"hose-lowers-readings"}},
		{Name: "gauge off at its check", Test: Dry("inline-4", even, func(t *diag.Test) { t.Gauges.Compression.ReadsAt = [2]float64{112, 120} }), Fires: []string{"gauge-reads-off"}},
		{Name: "gauge right at its check", Test: Dry("inline-4", even, func(t *diag.Test) { t.Gauges.Compression.ReadsAt = [2]float64{118, 120} }), Not: []string{"gauge-reads-off"}},
		{Name: "four of eight read", Test: Dry("V8", []float64{100, 160, 155, 158}), Fires: []string{"too-few-cylinders"}, Not: []string{"even-no-minimum"}},
		{Name: "one could not be read", Test: Dry("inline-4", even, Unread("4")), Fires: []string{"too-few-cylinders"}, Not: []string{"even-no-minimum", "even-above-minimum"}},
		{Name: "one read of four", Test: Dry("flat-4", []float64{25}), Fires: []string{"too-few-cylinders"}, Not: []string{"one-low", "one-without-pressure", "none-anywhere"}},
		{Name: "a single has no others", Test: Dry("single", []float64{120}), Not: []string{"too-few-cylinders", "even-no-minimum", "one-low"}},
		{Name: "an accuracy of a span that is not known", Test: Dry("inline-4", even, func(t *diag.Test) {
			t.Gauges.Compression.Accuracy, t.Gauges.Compression.High = accuracy("1 % of span"), 0
		}), Fires: []string{"method-incomplete"}},
		{Name: "an accuracy of the reading needs no range", Test: Dry("inline-4", even, func(t *diag.Test) {
			t.Gauges.Compression.Accuracy, t.Gauges.Compression.High = accuracy("1 % of reading"), 0
		}), Not: []string{"method-incomplete"}},
		{Name: "a fuel gauge of a class without a range", Test: Of("inline-4", Fuel("port, return line", diag.Circuit{KeyOn: PSI(41)}), func(t *diag.Test) {
			t.Gauges.Fuel = &diag.Gauge{Name: "dial F", Accuracy: accuracy("class 1.6")}
		}), Fires: []string{"method-incomplete"}},
		{Name: "a limit for sea level at an unknown height", Test: Dry("inline-4", even, Limit(diag.Limit{Kind: diag.Minimum, Value: 120, Unit: quantity.PSI, FromSeaLevel: true})),
			Fires: []string{"method-incomplete", "even-above-minimum"}},
		{Name: "a limit for sea level at a known height", Test: Dry("inline-4", even, Limit(diag.Limit{Kind: diag.Minimum, Value: 120, Unit: quantity.PSI, FromSeaLevel: true}),
			Method(func(c *diag.Conditions) { m := 300.0; c.AltitudeM = &m })), Not: []string{"method-incomplete"}},
		{Name: "one low, read once", Test: Dry("inline-4", []float64{160, 158, 112, 157}), Fires: []string{"read-once", "one-low"}},
		{Name: "one low, read twice", Test: Dry("inline-4", []float64{160, 158, 112, 157}, Repeats("3", 112, 110)), Fires: []string{"one-low"}, Not: []string{"read-once"}},
		{Name: "one low, and it loses air", Test: Dry("inline-4", []float64{160, 158, 112, 157}, Leak("3", 40)), Not: []string{"read-once"}},
		{Name: "one high, read once, that makes others low", Test: Dry("inline-6", []float64{410, 495, 400, 300, 405, 415}, Diesel), Fires: []string{"read-once"}},
		{Name: "one far under its low bank, all three of it sooty", Test: Dry("V6", []float64{56, 84, 86, 122, 120, 122}, Plug("sooty", "1", "2", "3")), Fires: []string{"read-once"}},
		{Name: "a low bank, all three of it sooty", Test: Dry("V6", []float64{86, 84, 86, 122, 120, 122}, Plug("sooty", "1", "2", "3")), Not: []string{"read-once"}},
		{Name: "one over five low ones that lie close together", Test: Dry("inline-6", []float64{101, 103, 100, 112, 101, 102}, Minimum(120)), Fires: []string{"read-once"}},
		{Name: "low ones that scatter", Test: Dry("inline-6", []float64{101, 106, 100, 110, 98, 102}, Minimum(120)), Not: []string{"read-once"}},
		{Name: "nothing apart, read once", Test: Dry("inline-4", even), Not: []string{"read-once"}},
		{Name: "one known only to read more", Test: Dry("inline-4", []float64{300, 290, 280, 285}, Over("1")), Fires: []string{"lower-bound"}, Not: []string{"repeats-disagree", "too-few-cylinders", "even-no-minimum"}},
		{Name: "a lower bound under the minimum decides nothing", Test: Dry("inline-4", []float64{100, 150, 152, 151}, Over("1"), Minimum(120)),
			Fires: []string{"lower-bound"}, Not: []string{"near-minimum", "below-minimum", "even-above-minimum"}},
		{Name: "repeats of next to nothing agree", Test: Dry("inline-4", []float64{150, 151, 0, 149}, Repeats("3", 2, 0)), Fires: []string{"one-without-pressure"}, Not: []string{"repeats-disagree"}},
		{Name: "a leakage known only to be more", Test: Of("single", Leak("1", 15), func(t *diag.Test) {
			limit, leak := 20.0, t.Leakage.Dry["1"]
			leak.Kind, leak.Entered = diag.AtLeast, "15+ %"
			t.Leakage.Limit, t.Leakage.Dry["1"] = &limit, leak
		}), Fires: []string{"reading-left-open"}, Not: []string{"leakage-good", "leakage-high"}},
		{Name: "leakage alone, not of all", Test: Of("inline-4", Leak("1", 5), Leak("2", 6)), Fires: []string{"too-few-cylinders", "leakage-good"}},
		{Name: "leakage of the low one after a whole compression test", Test: Dry("inline-4", []float64{150, 151, 100, 149}, Leak("3", 30, "exhaust")), Not: []string{"too-few-cylinders"}},
		{Name: "another unit everywhere", Test: Dry("inline-4", []float64{12, 11.5, 12, 12.5}, OtherUnit), Fires: []string{"unit-suspect"}},
		{Name: "nothing is nothing in any unit", Test: Dry("inline-4", []float64{10, 5, 0, 8}, OtherUnit), Fires: []string{"none-anywhere"}, Not: []string{"unit-suspect"}},
		{Name: "noted while reading", Test: Dry("inline-4", even,
			Noted(diag.Notice{Rule: "unit-suspect", Facts: diag.Facts{"section": "compression", "value": diag.Number{Value: 5.8, Decimals: 1, Unit: quantity.KPa}, "unit": "kPa", "looks": "kgf/cm2"}}),
			Noted(diag.Notice{Rule: "unit-suspect", Variant: "improbable", Facts: diag.Facts{"section": "compression", "value": diag.Number{Value: 5.8, Decimals: 1, Unit: quantity.KPa}, "unit": "kPa"}}),
			Noted(diag.Notice{Rule: "unit-suspect", Variant: "range-with-dot", Facts: diag.Facts{"section": "compression", "value": diag.Number{Value: 85.9, Decimals: 2}, "unit": "psi",
				"low": diag.Number{Value: 85, Unit: quantity.PSI}, "high": diag.Number{Value: 90, Unit: quantity.PSI}}}),
			Noted(diag.Notice{Rule: "units-contradict", Facts: diag.Facts{"section": "compression", "value": diag.Number{Value: 24, Unit: quantity.Bar}, "other": diag.Number{Value: 360, Unit: quantity.PSI},
				"converted": diag.Number{Value: 24.8, Decimals: 1, Unit: quantity.Bar}, "percent": diag.Number{Value: 3.4, Decimals: 1, Unit: quantity.Percent}}}),
			Noted(diag.Notice{Rule: "vin-check-digit", Facts: diag.Facts{"vin": "1M8GDM9AXKP042788", "found": "1", "expected": "X"}}),
			Noted(diag.Notice{Rule: "vin-check-digit", Variant: "character", Facts: diag.Facts{"vin": "1M8GDM9AXKP04278O", "problem": "O"}})),
			Fires: []string{"unit-suspect", "units-contradict", "vin-check-digit"}},
		{Name: "written twice", Test: Dry("inline-4", even, Noted(diag.Notice{Rule: "written-twice", Facts: diag.Facts{"what": "conditions-cranking",
			"value": diag.Number{Value: 180, Unit: quantity.RPM}, "other": diag.Number{Value: 250, Unit: quantity.RPM}}})), Fires: []string{"written-twice"}},
		{Name: "minimum above what the ratio gives", Test: Dry("inline-4", []float64{137, 133, 119, 133}, Minimum(170), Spec(func(s *diag.Spec) { s.Ratio = 9.9 })), Fires: []string{"limit-implausible", "all-low"}},
		{Name: "minimum of a usual size", Test: Dry("inline-4", even, Minimum(128), Spec(func(s *diag.Spec) { s.Ratio = 9.2 })), Not: []string{"limit-implausible"}},
		{Name: "minimum far below", Test: Dry("inline-4", even, Minimum(40), Spec(func(s *diag.Spec) { s.Ratio = 9.2 })), Fires: []string{"limit-implausible"}},
		{Name: "minimum beyond any petrol engine, the ratio not known", Test: Dry("inline-3", []float64{149, 147, 150}, Minimum(216)), Fires: []string{"limit-implausible"}},
		{Name: "minimum that a petrol engine may have", Test: Dry("inline-3", []float64{179, 177, 180}, Minimum(161)), Not: []string{"limit-implausible"}},
		{Name: "a difference of most of the pressure", Test: Dry("inline-4", even, Limit(diag.Limit{Kind: diag.Difference, Value: 114, Unit: quantity.PSI})), Fires: []string{"limit-implausible"}},
		{Name: "lowest at 7 % of the highest", Test: Dry("inline-4", even, Limit(diag.Limit{Kind: diag.Lowest, Of: "highest", Value: 7, Unit: quantity.Percent})), Fires: []string{"limit-implausible"}},
		{Name: "lowest at 75 % of the highest", Test: Dry("inline-4", even, Limit(diag.Limit{Kind: diag.Lowest, Of: "highest", Value: 75, Unit: quantity.Percent})), Not: []string{"limit-implausible"}},
		{Name: "a leakage limit of 2 %", Test: Of("inline-4", Leak("1", 6), func(t *diag.Test) { v := 2.0; t.Leakage.Limit, t.Leakage.LimitEntered = &v, "2 %" }), Fires: []string{"limit-implausible"}},
		{Name: "a leakage limit of 20 %", Test: Of("inline-4", Leak("1", 6), func(t *diag.Test) { v := 20.0; t.Leakage.Limit, t.Leakage.LimitEntered = &v, "20 %" }), Not: []string{"limit-implausible"}},
		{Name: "variable timing is not asked", Test: Dry("inline-4", even, Minimum(40), Spec(func(s *diag.Spec) { s.Ratio, s.VariableTiming = 9.2, diag.Yes })), Not: []string{"limit-implausible"}},
		{Name: "air at both valves", Test: Dry("inline-4", even, Leak("2", 60, "inlet", "exhaust")), Fires: []string{"leaks-at-both-valves"}},
		{Name: "everything lost with good compression", Test: Dry("inline-4", even, Leak("2", 92, "exhaust")), Fires: []string{"leaks-at-both-valves"}},
		{Name: "air at one valve", Test: Dry("inline-4", even, Leak("2", 30, "exhaust")), Not: []string{"leaks-at-both-valves", "leakage-reads-nothing", "all-leak-to-crankcase"}},
		{Name: "no leakage at all", Test: Dry("inline-4", even, Leak("2", 0)), Fires: []string{"leakage-reads-nothing"}},
		{Name: "no leakage on a low cylinder", Test: Dry("inline-4", []float64{160, 90, 158, 157}, Leak("2", 0)), Not: []string{"leakage-reads-nothing"}},
		{Name: "all leak to the crankcase", Test: Dry("inline-4", even, Leak("1", 24, "crankcase"), Leak("2", 26, "crankcase"), Leak("3", 22, "crankcase"), Leak("4", 25, "crankcase")), Fires: []string{"all-leak-to-crankcase"}},
		{Name: "all leak to the crankcase, one low", Test: Dry("inline-4", []float64{160, 158, 100, 157}, Leak("1", 24, "crankcase"), Leak("2", 26, "crankcase"), Leak("3", 42, "crankcase"), Leak("4", 25, "crankcase")), Not: []string{"all-leak-to-crankcase"}},
		{Name: "liquid with a high reading", Test: Dry("inline-4", []float64{150, 151, 190, 149}, Plug("coolant", "3")), Fires: []string{"liquid-in-cylinder", "one-high"}},
		{Name: "a fuel-wet plug alone is no liquid", Test: Dry("inline-4", even, Plug("fuel-wet", "3")), Not: []string{"liquid-in-cylinder"}},
		{Name: "an oil-wet plug with a high reading is oil", Test: Dry("inline-4", []float64{150, 151, 190, 149}, Plug("oil-wet", "3")), Fires: []string{"one-high"}, Not: []string{"liquid-in-cylinder"}},
		{Name: "liquid seen", Test: Dry("inline-4", even, Seen("3", "coolant on the piston")), Fires: []string{"liquid-in-cylinder"}},
	}
}

// small is an engine of 150 ml a cylinder at 12 to 1, and the hose of the gauge.
func small(hoseML float64, valve string) Change {
	return func(t *diag.Test) {
		t.Spec.DisplacementML, t.Spec.Ratio = 600, 12
		t.Gauges.Compression.HoseVolumeML, t.Gauges.Compression.Valve = hoseML, valve
	}
}
