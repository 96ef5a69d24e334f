package sample

import (
	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
)

// geometry is a ratio and an inlet closing that make about 160 to 200 psi.
var geometry = Spec(func(s *diag.Spec) {
	s.Ratio, s.InletClosesDeg, s.StrokeMM, s.RodMM = 9.5, 60, 86, 145
})

func wholeRows() []Row {
	even := []float64{160, 158, 159, 157}
	return []Row{
		{Name: "even above the minimum", Test: Dry("inline-4", []float64{152, 150, 148, 153}, Minimum(128)), Fires: []string{"even-above-minimum"}, Not: []string{"even-no-minimum", "near-minimum", "a-little-low", "outside-limit"}},
		{Name: "even, no minimum", Test: Dry("inline-4", even), Fires: []string{"even-no-minimum"}, Not: []string{"even-above-minimum", "all-low", "all-high"}},
		{Name: "even at 90 in an old engine of low ratio", Test: Dry("inline-8", []float64{90, 90, 90, 90, 90, 90, 90, 90}), Fires: []string{"even-no-minimum"}, Not: []string{"all-low", "below-minimum"}},
		{Name: "even and inside the expected band", Test: Dry("inline-4", []float64{178, 176, 180, 175}, geometry), Fires: []string{"even-no-minimum"}, Not: []string{"all-low", "all-high"}},
		{Name: "even, two cylinders", Test: Dry("inline-2", []float64{97, 97}, TwoStroke), Fires: []string{"even-no-minimum"}},
		{Name: "a single above its minimum", Test: Dry("single", []float64{120}, Minimum(90)), Fires: []string{"even-above-minimum"}},
		{Name: "a single under its minimum", Test: Dry("single", []float64{70}, Minimum(90)), Fires: []string{"below-minimum"}, Not: []string{"even-above-minimum", "all-low"}},
		{Name: "just above the minimum", Test: Dry("inline-4", []float64{132, 131, 132, 130}, Minimum(128)), Fires: []string{"near-minimum"}, Not: []string{"even-above-minimum", "below-minimum"}},
		{Name: "just under the minimum", Test: Dry("inline-4", []float64{140, 141, 140, 127}, Minimum(128)), Fires: []string{"below-minimum"}, Not: []string{"even-above-minimum", "all-low", "near-minimum"}},
		{Name: "clearly under the minimum", Test: Dry("inline-4", []float64{140, 141, 140, 108}, Minimum(128)), Fires: []string{"below-minimum", "one-low"}, Not: []string{"all-low"}},
		{Name: "all under the minimum, even", Test: Dry("inline-4", []float64{90, 88, 91, 89}, Minimum(128)), Fires: []string{"all-low", "all-low-check-the-test"}, Not: []string{"below-minimum", "even-no-minimum"}},
		{Name: "all under the minimum, even, and losing much air past the rings", Test: Dry("inline-4", []float64{90, 88, 91, 89}, Minimum(128), Leak("1", 40, "crankcase"), Leak("2", 42, "crankcase"), Leak("3", 41, "crankcase"), Leak("4", 40, "crankcase")), Fires: []string{"all-low"}, Not: []string{"all-low-check-the-test"}},
		{Name: "all under the minimum as read by a gauge that reads low", Test: Dry("inline-4", []float64{120, 118, 121, 119}, Minimum(128), func(t *diag.Test) { t.Gauges.Compression.ReadsAt = [2]float64{100, 118} }), Fires: []string{"all-low", "gauge-reads-off"}},
		{Name: "all under the minimum, uneven", Test: Dry("inline-4", []float64{70, 45, 30, 50}, Minimum(100)), Fires: []string{"all-low"}, Not: []string{"all-low-check-the-test", "below-minimum"}},
		{Name: "uneven without a minimum is not all low", Test: Dry("inline-4", []float64{70, 45, 30, 50}), Not: []string{"all-low"}},
		{Name: "all under the minimum, new rings", Test: Dry("inline-4", []float64{88, 86, 90, 85}, Minimum(128), func(t *diag.Test) { t.History.WorkDone = []string{"new rings and pistons"} }), Fires: []string{"all-low"}},
		{Name: "all under the expected band", Test: Dry("inline-4", []float64{110, 112, 111, 109}, geometry), Fires: []string{"all-low", "all-low-check-the-test"}},
		{Name: "all above the expected band", Test: Dry("inline-4", []float64{240, 238, 241, 239}, geometry), Fires: []string{"all-high"}},
		{Name: "variable timing says nothing of high", Test: Dry("inline-4", []float64{240, 238, 241, 239}, geometry, Spec(func(s *diag.Spec) { s.VariableTiming = diag.Yes })), Not: []string{"all-high", "all-low"}},
		{Name: "corrected for altitude", Test: Dry("inline-4", []float64{130, 131, 132, 129}, Limit(diag.Limit{Kind: diag.Minimum, Value: 142, Unit: quantity.PSI, FromSeaLevel: true}),
			Method(func(c *diag.Conditions) { m := 1981.2; c.AltitudeM = &m })), Fires: []string{"even-above-minimum"}, Not: []string{"all-low", "below-minimum"}},
		{Name: "a sea-level limit at an unknown height", Test: Dry("inline-4", []float64{130, 131, 132, 129}, Limit(diag.Limit{Kind: diag.Minimum, Value: 142, Unit: quantity.PSI, FromSeaLevel: true})), Fires: []string{"all-low"}},
		{Name: "outside a stated difference", Test: Dry("inline-4", []float64{445, 440, 405, 435}, Diesel, Limit(diag.Limit{Kind: diag.Difference, Value: 25, Unit: quantity.PSI})), Fires: []string{"outside-limit"}, Not: []string{"one-low", "even-no-minimum"}},
		{Name: "past the usual spread as read", Test: Dry("inline-4", []float64{120, 120, 115, 107}, TwoStroke), Fires: []string{"outside-limit"}, Not: []string{"one-low", "even-no-minimum", "a-little-low"}},
		{Name: "a little low inside a stated limit", Test: Dry("inline-4", []float64{120, 120, 115, 105}, SpreadOfHighest(25)), Fires: []string{"a-little-low"}, Not: []string{"outside-limit", "one-low", "even-no-minimum"}},
		{Name: "one high", Test: Dry("inline-4", []float64{150, 152, 190, 149}, Plug("oil-wet", "1")), Fires: []string{"one-high"}, Not: []string{"one-low", "scattered-low", "outside-limit"}},
		{Name: "one far above, or the others low", Test: Dry("inline-4", []float64{160, 100, 101, 99}), Fires: []string{"one-high"}, Not: []string{"one-low", "scattered-low"}},
		{Name: "even, too close to a stated limit", Test: Dry("inline-5", []float64{160, 163, 150, 162, 161}, SpreadOfHighest(10)), Fires: []string{"even-no-minimum"}},
		{Name: "even and above the minimum, too close to a stated limit", Test: Dry("inline-5", []float64{160, 163, 150, 162, 161}, SpreadOfHighest(10), Minimum(110)), Fires: []string{"even-above-minimum"}},
		{Name: "two neighbours far under a good third", Test: Dry("inline-3", []float64{180, 95, 92}), Fires: []string{"neighbours-low"}, Not: []string{"one-high"}},
		{Name: "one as its ratio gives, the others under it", Test: Dry("inline-4", []float64{201, 135, 140, 138}, Spec(func(s *diag.Spec) { s.Ratio = 10.6 })), Fires: []string{"most-low"}, Not: []string{"one-high"}},
		{Name: "one over what its ratio gives", Test: Dry("inline-4", []float64{201, 151, 148, 150}, Spec(func(s *diag.Spec) { s.Ratio = 8 })), Fires: []string{"one-high"}, Not: []string{"most-low"}},
		{Name: "one far above that holds oil", Test: Dry("inline-3", []float64{180, 95, 92}, Plug("oil-wet", "1")), Fires: []string{"one-high"}, Not: []string{"neighbours-low"}},
		{Name: "one far above what a sound engine gives", Test: Dry("inline-4", []float64{150, 152, 290, 149}), Fires: []string{"one-high"}, Not: []string{"most-low"}},
		{Name: "not high enough", Test: Dry("inline-4", []float64{150, 152, 160, 149}), Not: []string{"one-high"}},
	}
}

func lowRows() []Row {
	return []Row{
		{Name: "one low", Test: Dry("inline-4", []float64{160, 160, 160, 100}), Fires: []string{"one-low"}, Not: []string{"neighbours-low", "scattered-low", "even-no-minimum", "outside-limit", "below-minimum"}},
		{Name: "one low of two", Test: Dry("V2", []float64{180, 120}), Fires: []string{"one-low"}, Not: []string{"bank-low"}},
		{Name: "one low, estimated", Test: Dry("inline-4", []float64{150, 150, 110, 150}, func(t *diag.Test) {
			r := Read(110)
			r.Kind = diag.Estimate
			t.Compression.Dry["3"] = r
		}), Fires: []string{"one-low"}},
		{Name: "neighbours in a row", Test: Dry("inline-4", []float64{160, 90, 95, 158}), Fires: []string{"neighbours-low"}, Not: []string{"one-low", "scattered-low"}},
		{Name: "neighbours of a V8 numbered across", Test: Dry("V8", []float64{70, 120, 70, 120, 120, 120, 120, 120}), Fires: []string{"neighbours-low"}, Not: []string{"scattered-low", "bank-low", "one-low"}},
		{Name: "1 and 2 of a V8 are no neighbours", Test: Dry("V8", []float64{70, 70, 120, 120, 120, 120, 120, 120}), Fires: []string{"scattered-low"}, Not: []string{"neighbours-low"}},
		{Name: "three in a row", Test: Dry("inline-6", []float64{150, 100, 105, 98, 151, 149}), Fires: []string{"neighbours-low"}},
		{Name: "a pair and one more", Test: Dry("inline-6", []float64{100, 105, 150, 151, 100, 149}), Fires: []string{"neighbours-low", "one-low"}, Not: []string{"scattered-low"}},
		{Name: "separate barrels share no gasket", Test: DryOf(separate("inline-4"), []float64{160, 90, 95, 158}), Fires: []string{"scattered-low"}, Not: []string{"neighbours-low"}},
		{Name: "low ones apart", Test: Dry("inline-4", []float64{90, 160, 95, 158}), Fires: []string{"scattered-low"}, Not: []string{"one-low", "neighbours-low"}},
		{Name: "a bank low", Test: Dry("V6", []float64{110, 150, 112, 152, 108, 151}), Fires: []string{"bank-low"}, Not: []string{"neighbours-low", "scattered-low", "one-low", "outside-limit"}},
		{Name: "a bank a little low", Test: Dry("V6", []float64{132, 150, 131, 152, 133, 151}), Fires: []string{"bank-low"}, Not: []string{"a-little-low", "outside-limit"}},
		{Name: "one of a bank low, the rest a little", Test: Dry("V6", []float64{132, 150, 90, 152, 133, 151}), Fires: []string{"one-low", "a-little-low"}, Not: []string{"bank-low"}},
		{Name: "two of a bank of three low", Test: Dry("V6", []float64{110, 150, 112, 152, 151, 151}), Fires: []string{"neighbours-low"}, Not: []string{"bank-low"}},
		{Name: "a flat twin has no bank to compare", Test: Dry("flat-2", []float64{110, 150}), Fires: []string{"one-low"}, Not: []string{"bank-low"}},
		{Name: "a bank without pressure", Test: Dry("V6", []float64{5, 150, 0, 152, 4, 151}), Fires: []string{"bank-low"}, Not: []string{"neighbours-without-pressure", "several-without-pressure"}},
		{Name: "out of a tight set, inside the limit", Test: Dry("inline-4", []float64{160, 161, 160, 130}, SpreadOfHighest(25)), Fires: []string{"one-out-of-tight-pack"}, Not: []string{"one-low", "outside-limit"}},
		{Name: "low, inside the limit, set not tight", Test: Dry("inline-4", []float64{160, 140, 158, 130}, SpreadOfHighest(25)), Fires: []string{"one-low"}, Not: []string{"one-out-of-tight-pack"}},
		{Name: "low, no limit stated", Test: Dry("inline-4", []float64{160, 161, 160, 130}), Fires: []string{"one-low"}, Not: []string{"one-out-of-tight-pack"}},
		{Name: "neighbours low, no gas in the coolant", Test: Dry("inline-4", []float64{145, 95, 96, 146}, func(t *diag.Test) { t.CoolantGas = "negative" }), Fires: []string{"neighbours-low"}},
		{Name: "stood, neighbours low", Test: Dry("inline-4", []float64{145, 95, 96, 146}, Stood(36)), Fires: []string{"neighbours-low"}},
	}
}

func noneRows() []Row {
	return []Row{
		{Name: "one without pressure", Test: Dry("inline-4", []float64{145, 150, 0, 140}), Fires: []string{"one-without-pressure"}, Not: []string{"one-low", "none-anywhere"}},
		{Name: "a single without pressure", Test: Dry("single", []float64{8}), Fires: []string{"one-without-pressure"}, Not: []string{"none-anywhere"}},
		{Name: "a dead diesel cylinder", Test: Dry("inline-4", []float64{348, 350, 349, 5}, Diesel), Fires: []string{"one-without-pressure"}},
		{Name: "two neighbours without pressure", Test: Dry("inline-4", []float64{0, 0, 120, 120}), Fires: []string{"neighbours-without-pressure"}, Not: []string{"neighbours-low", "several-without-pressure", "too-few-cylinders"}},
		{Name: "the same, repeated", Test: Dry("inline-4", []float64{0, 0, 120, 120}, Repeats("1", 0, 0), Repeats("2", 0, 0)), Fires: []string{"neighbours-without-pressure"}},
		{Name: "a pair of which one has some", Test: Dry("inline-4", []float64{0, 60, 120, 120}), Fires: []string{"neighbours-low"}, Not: []string{"neighbours-without-pressure", "one-without-pressure"}},
		{Name: "several without pressure", Test: Dry("inline-4", []float64{0, 120, 0, 120}), Fires: []string{"several-without-pressure"}, Not: []string{"scattered-low"}},
		{Name: "none anywhere", Test: Dry("inline-4", []float64{0, 5, 0, 3}), Fires: []string{"none-anywhere"}, Not: []string{"even-no-minimum", "one-low", "scattered-low", "several-without-pressure"}},
		{Name: "none anywhere, a decompressor not ruled out", Test: Dry("inline-2", []float64{12, 14}, TwoStroke, Spec(func(s *diag.Spec) { s.Decompressor = "" })), Fires: []string{"none-anywhere"}},
		{Name: "none anywhere, the unit in doubt", Test: Dry("inline-4", []float64{12, 12, 11.5, 12}, Noted(diag.Notice{Rule: "unit-suspect",
			Facts: diag.Facts{"section": "compression", "value": diag.Number{Value: 12, Unit: quantity.PSI}, "unit": "psi", "looks": "bar"}})), Fires: []string{"none-anywhere", "unit-suspect"}},
		{Name: "none anywhere, flooded", Test: Dry("inline-5", []float64{0, 0, 0, 0, 0}, Plug("fuel-wet", "1", "2", "3", "4", "5")), Fires: []string{"none-anywhere"}},
	}
}
