package rule_test

import (
	"fmt"
	"slices"
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/engine"
	"gaugesheet/diag/known"
	"gaugesheet/diag/quantity"
	"gaugesheet/diag/rule"
	"gaugesheet/diag/rule/sample"
)

func spec(alter func(*diag.Spec)) sample.Change { return sample.Spec(alter) }

func metres(m float64) sample.Change {
	return sample.Method(func(c *diag.Conditions) { c.AltitudeM = &m })
}

func onset(how string) sample.Change {
	return sample.Known(func(h *diag.History) { h.Onset = how })
}

func belt(s *diag.Spec) { s.TimingDrive, s.Interference = "belt", diag.Yes }

// v8 is an eight of two banks numbered across them that shuts 1, 4, 6, 7 down.
func deactivating(s *diag.Spec) { s.Deactivates = []string{"1", "4", "6", "7"} }

func standard(low, high float64) sample.Change {
	return func(t *diag.Test) {
		t.Compression.Standard = &diag.Standard{Low: low, High: high, Unit: quantity.PSI, Entered: fmt.Sprintf("%.0f-%.0f psi", low, high)}
	}
}

func readInKPa(t *diag.Test) {
	for name, r := range t.Compression.Dry {
		r.Values = slices.Clone(r.Values)
		for i, v := range r.Values {
			r.Values[i], _ = quantity.Convert(v, quantity.PSI, quantity.KPa)
		}
		t.Compression.Dry[name] = r
	}
	t.Compression.Unit = quantity.KPa
	t.Gauges.Compression = &diag.Gauge{Name: "dial K", High: 7000, Division: 34.47}
}

func of4(v float64) []float64 { return []float64{v, v, v, v} }

// TestFloors: what nearly any engine of a kind gives where no figure is known.
// 100 psi for a petrol engine of four strokes is one maker's published figure
// and common practice; 250 psi for a diesel is common practice, no source.
func TestFloors(t *testing.T) {
	two := []float64{60, 62}
	runSealing(t, []sealingCase{
		{name: "three of four far down, and it will not start", test: sample.Dry("inline-4", []float64{58, 167, 77, 74}, sample.Complains("no start")), fires: "most-far-down 1,3,4", first: "timing-drive", soon: diag.DoNotRun},
		{name: "the same of valves that cannot meet pistons", test: sample.Dry("inline-4", []float64{58, 167, 77, 74}, sample.Complains("no start"), spec(func(s *diag.Spec) { s.Interference = diag.No })), not: "most-far-down", fires: "most-low"},
		{name: "60 in all four", test: sample.Dry("inline-4", of4(60)), fires: "all-low 1,2,3,4", not: "even-no-minimum sealing-sound-look-elsewhere nearly-even", first: "cam-timing", soon: diag.ActSoon},
		{name: "the same in kPa", test: sample.Dry("inline-4", of4(60), readInKPa), fires: "all-low 1,2,3,4", not: "even-no-minimum", soon: diag.ActSoon},
		{name: "90 in all four", test: sample.Dry("inline-4", of4(90)), fires: "all-low", not: "even-no-minimum", soon: diag.CheckAgain},
		{name: "a diesel that stopped at 120", test: sample.Dry("inline-4", []float64{120, 130, 110, 125}, sample.Diesel, sample.Complains("no start")), fires: "all-low", first: "cam-timing", next: "cam-timing-marks"},
		{name: "a diesel at 230 that does not start", test: sample.Dry("inline-4", []float64{230, 222, 231, 226}, sample.Diesel, sample.Complains("no start")), fires: "all-low", first: "wear"},
		{name: "a diesel at 120 that wore out over months", test: sample.Dry("inline-4", []float64{120, 130, 110, 125}, sample.Diesel, sample.Complains("no start", "oil use")), fires: "all-low", first: "wear"},
		{name: "two dead, the others low, and no start", test: sample.Dry("inline-4", []float64{40, 0, 0, 45}, sample.Complains("no start")), fires: "neighbours-without-pressure 2,3", first: "timing-drive", soon: diag.DoNotRun, next: "turn-engine-check-cam"},
		{name: "two dead of three low in a row, and no start", test: sample.Dry("inline-4", []float64{0, 40, 0, 60}, sample.Diesel, sample.Complains("no start")), fires: "neighbours-low 1,2,3", first: "timing-drive", soon: diag.DoNotRun, next: "turn-engine-check-cam"},
		{name: "two dead and the others good", test: sample.Dry("inline-4", []float64{150, 0, 0, 148}, sample.Complains("no start")), fires: "neighbours-without-pressure 2,3", first: "head-gasket"},
		{name: "a diesel under its floor, one known only by a bound under it", test: sample.Dry("inline-6", []float64{177, 185, 186, 191, 180, 188}, sample.Diesel, sample.Over("3"), sample.Complains("hard start")), fires: "all-low", not: "complaint-not-explained", soon: diag.ActSoon},
		{name: "a diesel under its floor, one known to be good", test: sample.Dry("inline-6", []float64{177, 185, 400, 191, 180, 188}, sample.Diesel, sample.Over("3"), sample.Complains("hard start")), not: "all-low"},
		{name: "an eight in line at 70 and no start", test: sample.Dry("inline-8", slices.Concat(of4(70), of4(72)), sample.Complains("no start")), fires: "all-low", not: "sealing-sound-look-elsewhere no-start-not-explained", soon: diag.ActSoon},
		{name: "115, up with oil, past the rings and burning oil", test: sample.Dry("inline-4", of4(115), sample.Wet(map[string]float64{"1": 150, "2": 151, "3": 152, "4": 150}), sample.Complains("oil use"), sample.Leak("1", 40, "crankcase"), sample.Leak("2", 38, "crankcase")), fires: "all-low; low-everywhere-and-leaks", not: "sound-but-leaks even-no-minimum", first: "wear", soon: diag.ActSoon},
		{name: "115, up with oil, and nothing else", test: sample.Dry("inline-4", of4(115), sample.Wet(map[string]float64{"1": 150, "2": 151, "3": 152, "4": 150})), fires: "even-no-minimum", not: "all-low"},
		{name: "150, up with oil, past the rings and burning oil", test: sample.Dry("inline-4", of4(150), sample.Wet(map[string]float64{"1": 195, "2": 196, "3": 197, "4": 195}), sample.Complains("oil use"), sample.Leak("1", 40, "crankcase"), sample.Leak("2", 38, "crankcase")), not: "all-low"},
		{name: "101 is above it", test: sample.Dry("inline-4", of4(101)), fires: "even-no-minimum", not: "all-low"},
		{name: "a diesel at 180", test: sample.Dry("inline-4", of4(180), sample.Diesel), fires: "all-low", not: "even-no-minimum", soon: diag.ActSoon},
		{name: "a diesel at 230", test: sample.Dry("inline-6", []float64{230, 228, 231, 229, 230, 232}, sample.Diesel), fires: "all-low", soon: diag.CheckAgain},
		{name: "a diesel at 265 that starts hard and burns oil", test: sample.Dry("inline-4", of4(265), sample.Diesel, sample.Complains("hard start", "oil use")), fires: "all-low", not: "even-no-minimum sealing-sound-look-elsewhere", first: "wear", soon: diag.CheckAgain},
		{name: "one that starts hard", test: sample.Dry("inline-4", of4(265), sample.Diesel, sample.Complains("hard start")), fires: "sealing-sound-look-elsewhere", not: "all-low"},
		{name: "a diesel at 320 that starts hard and burns oil", test: sample.Dry("inline-4", of4(320), sample.Diesel, sample.Complains("hard start", "oil use")), fires: "sealing-sound-look-elsewhere", not: "all-low"},
		{name: "a diesel at 380", test: sample.Dry("inline-4", of4(380), sample.Diesel), fires: "even-no-minimum", not: "all-low"},
		{name: "85 at 1980 m", test: sample.Dry("inline-4", of4(85), metres(1981.2)), fires: "even-no-minimum", not: "all-low"},
		{name: "75 at 1980 m", test: sample.Dry("inline-4", of4(75), metres(1981.2)), fires: "all-low", soon: diag.CheckAgain},
		{name: "85 of a ratio of 6", test: sample.Dry("inline-4", of4(85), spec(func(s *diag.Spec) { s.Ratio = 6 })), fires: "even-no-minimum", not: "all-low"},
		{name: "60 of a ratio of 6", test: sample.Dry("inline-4", of4(60), spec(func(s *diag.Spec) { s.Ratio = 6 })), fires: "all-low", soon: diag.CheckAgain},
		{name: "120 of a ratio of 10", test: sample.Dry("inline-4", of4(120), spec(func(s *diag.Spec) { s.Ratio = 10 })), fires: "all-low", not: "even-no-minimum", soon: diag.CheckAgain},
		{name: "90 of a ratio of 10", test: sample.Dry("inline-4", of4(90), spec(func(s *diag.Spec) { s.Ratio = 10 })), fires: "all-low", not: "even-no-minimum", soon: diag.CheckAgain},
		{name: "175 of a ratio of 10", test: sample.Dry("inline-4", of4(175), spec(func(s *diag.Spec) { s.Ratio = 10 })), fires: "even-no-minimum", not: "all-low all-high"},
		{name: "far above the book's usual figure", test: sample.Dry("inline-4", []float64{228, 231, 226, 230}, standard(170, 185)), fires: "all-high", first: "gauge-reads-high", soon: diag.CheckAgain},
		{name: "a little above the book's usual figure", test: sample.Dry("inline-4", []float64{200, 203, 199, 201}, standard(170, 185)), fires: "even-no-minimum", not: "all-high"},
		{name: "a ratio says nothing with variable timing", test: sample.Dry("inline-4", of4(120), spec(func(s *diag.Spec) { s.Ratio, s.VariableTiming = 10, diag.Yes })), fires: "even-no-minimum", not: "all-low"},
		// Under about 60 psi a two-stroke hardly runs, 90 and more is usual: common practice, no source.
		{name: "a two-stroke over its floor", test: sample.Dry("inline-2", two, sample.TwoStroke), fires: "even-no-minimum", not: "all-low"},
		{name: "a two-stroke at 55", test: sample.Dry("inline-3", []float64{55, 56, 55}, sample.TwoStroke), fires: "all-low", not: "even-no-minimum", first: "wear", soon: diag.CheckAgain},
		{name: "a two-stroke at 45 and no start", test: sample.Dry("inline-2", []float64{46, 44}, sample.TwoStroke, sample.Complains("no start")), fires: "all-low", not: "complaint-not-explained", soon: diag.ActSoon},
		{name: "a two-stroke of one cylinder at 40", test: sample.Dry("single", []float64{40}, sample.TwoStroke), fires: "all-low", soon: diag.ActSoon},
		{name: "a two-stroke at 55 with a minimum of 50", test: sample.Dry("inline-2", []float64{55, 56}, sample.TwoStroke, sample.Minimum(45)), not: "all-low"},
		{name: "a two-stroke diesel at 230", test: sample.Dry("inline-3", []float64{230, 231, 230}, sample.TwoStroke, sample.Diesel), fires: "all-low", soon: diag.CheckAgain},
		{name: "a decompressor at work", test: sample.Dry("V2", two, spec(func(s *diag.Spec) { s.Decompressor = "automatic" })), not: "all-low even-no-minimum"},
		{name: "a shut throttle is named first", test: sample.Dry("inline-4", of4(60), sample.Method(func(c *diag.Conditions) { c.Throttle = "closed" })), fires: "all-low", first: "throttle-or-choke", soon: diag.CheckAgain},
		{name: "a fuel not stated", test: sample.Dry("inline-4", of4(60), spec(func(s *diag.Spec) { s.Fuel = "" })), fires: "all-low", not: "even-no-minimum"},
		{name: "a fuel not stated, but it has plugs", test: sample.Dry("inline-4", of4(60), spec(func(s *diag.Spec) { s.Fuel = "" }), sample.Plug("normal", "1")), fires: "all-low"},
		{name: "a single at 60", test: sample.Dry("single", []float64{60}), fires: "all-low 1", soon: diag.ActSoon},
		{name: "a single at 60, decompressor not said", test: sample.Dry("single", []float64{60}, spec(func(s *diag.Spec) { s.Decompressor = "" })), fires: "all-low 1", first: "decompressor"},
		{name: "one read of four at 60", test: sample.Dry("inline-4", []float64{60}), not: "all-low"},
		{name: "two read of four at 60", test: sample.Dry("inline-4", []float64{60, 61}), fires: "all-low 1,2", soon: diag.ActSoon},
		{name: "the book's usual figure is lower", test: sample.Dry("inline-8", slices.Concat(of4(88), of4(86)), standard(90, 100)), fires: "even-no-minimum", not: "all-low"},
		{name: "under the book's usual figure", test: sample.Dry("inline-4", of4(150), standard(170, 190)), fires: "even-no-minimum", not: "all-low below-minimum", soon: diag.NoAction},
		{name: "far under the book's usual figure", test: sample.Dry("inline-4", of4(60), standard(170, 190)), fires: "all-low", soon: diag.ActSoon},
		{name: "a maker's figure goes before", test: sample.Dry("inline-8", slices.Concat(of4(80), of4(81)), sample.Minimum(60)), fires: "even-above-minimum", not: "all-low"},
	})
}

// TestAllLowCauses: what is known of the test first, then the timing, then wear.
func TestAllLowCauses(t *testing.T) {
	rpm := func(v float64) sample.Change {
		return sample.Method(func(c *diag.Conditions) { c.CrankingRPM = &v })
	}
	volts := func(v float64) sample.Change {
		return sample.Method(func(c *diag.Conditions) { c.Battery.CrankingV = &v })
	}
	runSealing(t, []sealingCase{
		{name: "turned slowly", test: sample.Dry("inline-4", of4(85), rpm(110)), fires: "all-low", first: "weak-cranking"},
		{name: "a flat battery", test: sample.Dry("inline-6", slices.Concat(of4(85), []float64{84, 86}), volts(8.4)), fires: "all-low", first: "weak-cranking"},
		{name: "the choke shut", test: sample.Dry("inline-4", of4(85), sample.Method(func(c *diag.Conditions) { c.Choke = "closed" })), fires: "all-low", first: "throttle-or-choke"},
		{name: "a gauge that reads a sixth low", test: sample.Dry("inline-4", of4(115), sample.Minimum(128), func(t *diag.Test) { t.Gauges.Compression.ReadsAt = [2]float64{102, 120} }), fires: "all-low", first: "gauge-reads-low"},
		{name: "a needle that falls back", test: sample.Dry("inline-4", of4(85), sample.Method(func(c *diag.Conditions) { c.Needle = "falls back" })), fires: "all-low", first: "gauge-valve-leaks"},
		{name: "in thin air", test: sample.Dry("inline-4", of4(118), sample.Minimum(128), metres(1981.2)), fires: "all-low", first: "altitude"},
		{name: "suddenly, by a belt", test: sample.Dry("inline-4", of4(70), onset("sudden at full load"), spec(belt)), fires: "all-low", first: "timing-drive"},
		{name: "over months, and it burns oil", test: sample.Dry("inline-4", of4(75), onset("slow over months"), sample.Complains("oil use")), fires: "all-low", first: "wear"},
		{name: "tight", test: sample.Dry("inline-4", of4(75), sample.Leak("1", 6), sample.Leak("2", 5)), fires: "low-everywhere-but-tight; all-low", first: "cam-timing", soon: diag.ActSoon},
		{name: "air past the rings of them all", test: sample.Dry("inline-4", of4(75), sample.Leak("1", 45, "crankcase"), sample.Leak("2", 48, "crankcase"), sample.Leak("3", 44, "crankcase"), sample.Leak("4", 46, "crankcase")), fires: "all-low", first: "wear"},
		{name: "new rings", test: sample.Dry("inline-4", of4(75), sample.Done("new rings")), fires: "all-low", first: "cam-timing"},
		{name: "flooded", test: sample.Dry("inline-4", of4(75), sample.Plug("fuel-wet", "1", "2", "3", "4")), fires: "washed-and-low; all-low", first: "washed-bore", soon: diag.CheckAgain},
	})
}

// TestDeadSets: which cylinders died together says what they share.
func TestDeadSets(t *testing.T) {
	runSealing(t, []sealingCase{
		{name: "one of four, the others not read", test: sample.Dry("inline-4", []float64{145}, sample.Unread("2", "3", "4"), sample.Repeats("1", 0)), fires: "one-without-pressure 1", not: "all-low", soon: diag.DoNotRun},
		{name: "45 psi, the others not read, and it misses", test: sample.Dry("inline-4", []float64{45}, sample.Complains("misfire")), fires: "low-by-itself 1", not: "all-low one-low", soon: diag.ActSoon},
		{name: "45 psi, the others not read, a minimum stated", test: sample.Dry("inline-4", []float64{45}, sample.Complains("misfire"), sample.Minimum(120)), not: "low-by-itself"},
		{name: "120 psi, the others not read, and it misses", test: sample.Dry("inline-4", []float64{120}, sample.Complains("misfire")), not: "low-by-itself"},
		{name: "45 psi where the fuel is not known", test: sample.Dry("inline-4", []float64{45}, sample.Complains("misfire"), spec(func(s *diag.Spec) { s.Fuel = "" })), fires: "low-by-itself"},
		{name: "next to nothing, alone", test: sample.Dry("V8", []float64{20}), fires: "one-without-pressure 1", soon: diag.DoNotRun},
		{name: "an automatic decompressor lets it out", test: sample.Dry("V2", []float64{20}, spec(func(s *diag.Spec) { s.Decompressor = "automatic" })), not: "one-without-pressure"},
		{name: "one beside others known to read more", test: sample.Dry("inline-4", []float64{0, 150, 150, 150}, sample.Over("2", "3", "4")), fires: "one-without-pressure 1", soon: diag.DoNotRun},
		{name: "two neighbours of six", test: sample.Dry("inline-6", []float64{150, 0, 0, 150, 151, 149}), fires: "neighbours-without-pressure 2,3", not: "several-without-pressure", first: "head-gasket", soon: diag.DoNotRun},
		{name: "two neighbours that stood", test: sample.Dry("inline-6", []float64{150, 0, 0, 150, 151, 149}, sample.Stood(30)), fires: "neighbours-without-pressure", first: "stuck-valve"},
		{name: "two neighbours after a belt", test: sample.Dry("inline-4", []float64{150, 0, 0, 150}, onset("sudden"), spec(belt)), fires: "neighbours-without-pressure", first: "bent-valve"},
		{name: "3, 5 and 6 of six", test: sample.Dry("inline-6", []float64{150, 150, 0, 151, 0, 0}), fires: "several-without-pressure 3,5,6", not: "neighbours-without-pressure one-without-pressure", first: "timing-drive", soon: diag.DoNotRun},
		{name: "three in a row", test: sample.Dry("inline-4", []float64{0, 0, 0, 150}), fires: "several-without-pressure 1,2,3", not: "neighbours-without-pressure", first: "timing-drive"},
		{name: "three in a row of a two-stroke", test: sample.Dry("inline-4", []float64{0, 0, 0, 130}, sample.TwoStroke), fires: "several-without-pressure", first: "holed-piston"},
		{name: "half of an eight, not said what it shuts down", test: sample.Dry("V8", []float64{0, 150, 151, 0, 150, 0, 0, 149}), fires: "several-without-pressure 1,4,6,7", not: "deactivated-set-dead", first: "deactivation-lifter"},
		{name: "the set that is shut down", test: sample.Dry("V8", []float64{0, 150, 151, 0, 150, 0, 0, 149}, spec(deactivating)), fires: "deactivated-set-dead 1,4,6,7", not: "several-without-pressure neighbours-without-pressure", first: "deactivation-lifter", soon: diag.DoNotRun},
		{name: "four of six low", test: sample.Dry("inline-6", []float64{160, 120, 122, 118, 121, 158}), fires: "most-low 2,3,4,5", first: "wear"},
		{name: "three of six low", test: sample.Dry("inline-6", []float64{160, 159, 158, 118, 121, 120}), not: "most-low"},
		{name: "a part of it, low", test: sample.Dry("V8", []float64{95, 150, 151, 95, 150, 152, 150, 149}, spec(deactivating)), fires: "deactivated-set-dead 1,4", not: "scattered-low", first: "deactivation-lifter", soon: diag.ActSoon},
		{name: "more than that set", test: sample.Dry("V8", []float64{0, 0, 151, 0, 150, 0, 0, 149}, spec(deactivating)), fires: "several-without-pressure", not: "deactivated-set-dead"},
		{name: "a bank of an engine of one camshaft", test: sample.Dry("V6", []float64{110, 150, 112, 152, 108, 151}, spec(func(s *diag.Spec) { s.Camshafts = "one" })), fires: "bank-low 1,3,5", first: "restricted-inlet", soon: diag.ActSoon},
		{name: "a bank of an engine of a camshaft each", test: sample.Dry("V6", []float64{110, 150, 112, 152, 108, 151}, spec(func(s *diag.Spec) { s.Camshafts = "two per bank" })), fires: "bank-low", first: "cam-timing"},
		{name: "a bank with a code", test: sample.Dry("V6", []float64{110, 150, 112, 152, 108, 151}, sample.Codes("P0016")), fires: "bank-low-with-cam-code 1,3,5; bank-low", first: "cam-timing", sure: diag.Strong},
		{name: "a code, and valves that can meet pistons, by more than a tooth", test: sample.Dry("V6", []float64{90, 150, 92, 152, 88, 151}, sample.Codes("P0016"), spec(func(s *diag.Spec) { s.Interference = diag.Yes })), fires: "bank-low-with-cam-code 1,3,5", first: "cam-timing", soon: diag.DoNotRun, next: "cam-timing-marks"},
		{name: "a code, and valves that can meet pistons, by a worn chain", test: sample.Dry("V6", []float64{124, 150, 123, 152, 125, 151}, sample.Codes("P0016"), spec(func(s *diag.Spec) { s.Interference = diag.Yes })), fires: "bank-low-with-cam-code 1,3,5", first: "cam-timing", soon: diag.ActSoon},
		{name: "a code, one camshaft", test: sample.Dry("V6", []float64{110, 150, 112, 152, 108, 151}, sample.Codes("P0016"), spec(func(s *diag.Spec) { s.Camshafts = "one" })), fires: "bank-low", not: "bank-low-with-cam-code"},
		{name: "a bank of separate barrels", test: sample.DryOf(engine.Spec{Layout: "flat-6", Numbering: engine.AcrossBanks, FirstBank: "left", SeparateBarrels: true}, []float64{110, 150, 112, 152, 108, 151}), fires: "bank-low 1,3,5"},
	})
}

// TestBarrelsHaveNoGasketBetween: nor is one named for a bank of them.
func TestBarrelsHaveNoGasketBetween(t *testing.T) {
	barrels := sample.DryOf(engine.Spec{Layout: "flat-6", Numbering: engine.AcrossBanks, FirstBank: "left", SeparateBarrels: true}, []float64{110, 150, 112, 152, 108, 151})
	heads := sample.Dry("flat-6", []float64{110, 150, 112, 152, 108, 151})
	for what, test := range map[string]*diag.Test{"barrels": barrels, "heads": heads} {
		c := known.New(test)
		r := rule.Named("bank-low")
		gasket := slices.ContainsFunc(r.Weigh(c, r.Of.Of(c)[0]), func(v rule.Voice) bool { return v.Cause == "head-gasket" && v.Weight > 0 })
		if gasket != (what == "heads") {
			t.Errorf("%s: head gasket %v", what, gasket)
		}
	}
}

// TestLowBesideBounds: 120 beside three of '150+' is low by a fifth at least.
func TestLowBesideBounds(t *testing.T) {
	runSealing(t, []sealingCase{
		{name: "a fifth at least", test: sample.Dry("inline-4", []float64{120, 150, 150, 150}, sample.Over("2", "3", "4")), fires: "one-low 1", soon: diag.CheckAgain},
		{name: "a third at least", test: sample.Dry("inline-4", []float64{100, 150, 150, 150}, sample.Over("2", "3", "4")), fires: "one-low 1", soon: diag.ActSoon},
		{name: "nothing known", test: sample.Dry("inline-4", []float64{145, 150, 150, 150}, sample.Over("2", "3", "4")), not: "one-low a-little-low even-no-minimum"},
		{name: "a bank beside bounds", test: sample.Dry("V6", []float64{110, 150, 112, 150, 108, 150}, sample.Over("2", "4", "6")), fires: "bank-low 1,3,5"},
	})
}

// TestLimitsPassedAreSaid: a limit of the job that is passed has a finding about
// it, whatever kind it is; the usual 10 % asks only for what stands apart.
func TestLimitsPassedAreSaid(t *testing.T) {
	psi := func(kind diag.LimitKind, v float64) sample.Change {
		return sample.Limit(diag.Limit{Kind: kind, Value: v, Unit: quantity.PSI})
	}
	per := func(kind diag.LimitKind, v float64) sample.Change {
		return sample.Limit(diag.Limit{Kind: kind, Of: diag.OfHighest, Value: v, Unit: quantity.Percent})
	}
	set := []float64{160, 159, 161, 147}
	runSealing(t, []sealingCase{
		{name: "difference", test: sample.Dry("inline-4", set, psi(diag.Difference, 8)), fires: "outside-limit 4", not: "a-little-low even-no-minimum", soon: diag.CheckAgain},
		{name: "spread", test: sample.Dry("inline-4", set, per(diag.Spread, 4)), fires: "outside-limit 4", soon: diag.CheckAgain},
		{name: "lowest", test: sample.Dry("inline-4", set, per(diag.Lowest, 97)), fires: "outside-limit 4", soon: diag.CheckAgain},
		{name: "from the mean, above", test: sample.Dry("inline-4", []float64{160, 159, 147, 148}, psi(diag.FromMean, 3)), fires: "outside-limit", soon: diag.CheckAgain},
		{name: "below the mean", test: sample.Dry("inline-4", set, psi(diag.BelowMean, 4)), fires: "outside-limit 4", soon: diag.CheckAgain},
		{name: "said by the low one", test: sample.Dry("inline-4", []float64{160, 159, 161, 120}, psi(diag.Difference, 8)), fires: "one-low 4", not: "outside-limit"},
		{name: "said by the bank", test: sample.Dry("V6", []float64{132, 150, 131, 152, 133, 151}, psi(diag.Difference, 8)), fires: "bank-low", not: "outside-limit"},
		{name: "kept", test: sample.Dry("inline-4", set, psi(diag.Difference, 25)), fires: "even-no-minimum", not: "outside-limit"},
		{name: "the usual 10 percent, scattered", test: sample.Dry("inline-8", []float64{160, 159, 161, 142, 150, 148, 155, 153}), fires: "nearly-even", not: "outside-limit a-little-low", soon: diag.NoAction},
		{name: "the usual 10 percent, one apart", test: sample.Dry("inline-4", []float64{160, 159, 161, 140}), fires: "outside-limit 4", not: "nearly-even", soon: diag.CheckAgain},
		{name: "nearly even above a minimum", test: sample.Dry("inline-8", []float64{160, 159, 161, 142, 150, 148, 155, 153}, sample.Minimum(120)), fires: "nearly-even", not: "a-little-low", soon: diag.NoAction},
		{name: "a little low inside the maker's limit", test: sample.Dry("inline-4", []float64{160, 159, 161, 140}, per(diag.Spread, 25)), fires: "a-little-low 4", soon: diag.NoAction},
	})
}

// TestElsewhereNeedsReason: even is not good.
func TestElsewhereNeedsReason(t *testing.T) {
	even := []float64{160, 158, 159, 157}
	misfire := sample.Complains("misfire")
	declined := func(t *diag.Test) { t.Leakage = &diag.Leakage{State: diag.Declined, Reason: "cost"} }
	runSealing(t, []sealingCase{
		{name: "above the minimum", test: sample.Dry("inline-4", even, sample.Minimum(128), misfire), fires: "sealing-sound-look-elsewhere", soon: diag.CheckAgain, first: "ignition"},
		{name: "above the floor", test: sample.Dry("inline-4", even, misfire), fires: "sealing-sound-look-elsewhere"},
		{name: "no complaint", test: sample.Dry("inline-4", even, sample.Minimum(128)), fires: "even-above-minimum", not: "sealing-sound-look-elsewhere"},
		{name: "leakage declined", test: sample.Dry("inline-4", even, sample.Minimum(128), misfire, declined), fires: "even-above-minimum", not: "sealing-sound-look-elsewhere"},
		{name: "under the floor", test: sample.Dry("inline-4", of4(70), misfire), fires: "all-low", not: "sealing-sound-look-elsewhere"},
		{name: "a fuel not stated", test: sample.Dry("inline-4", even, misfire, spec(func(s *diag.Spec) { s.Fuel = "" })), fires: "even-no-minimum", not: "sealing-sound-look-elsewhere"},
		{name: "a two-stroke between its floor and what is usual", test: sample.Dry("inline-2", []float64{75, 76}, misfire, sample.TwoStroke), fires: "even-no-minimum", not: "sealing-sound-look-elsewhere"},
		{name: "a two-stroke at what is usual", test: sample.Dry("inline-2", []float64{120, 121}, misfire, sample.TwoStroke), fires: "sealing-sound-look-elsewhere"},
		{name: "under what the ratio makes likely", test: sample.Dry("inline-4", []float64{160, 149, 150, 150}, misfire, spec(func(s *diag.Spec) { s.Ratio = 11 })), not: "sealing-sound-look-elsewhere"},
		{name: "one leaks", test: sample.Dry("inline-4", even, sample.Minimum(128), misfire, sample.Leak("2", 35, "exhaust")), not: "sealing-sound-look-elsewhere"},
		{name: "no start with one low", test: sample.Dry("inline-4", []float64{150, 150, 60, 151}, sample.Complains("no start")), fires: "one-low; no-start-not-explained", soon: diag.ActSoon},
		{name: "no start with all low", test: sample.Dry("inline-4", of4(25), sample.Complains("no start")), fires: "all-low", not: "no-start-not-explained sealing-sound-look-elsewhere"},
	})
}

// TestLiquidBeforeCarbon: what can break the engine is named first.
func TestLiquidBeforeCarbon(t *testing.T) {
	high := []float64{150, 151, 190, 149}
	runSealing(t, []sealingCase{
		{name: "high alone", test: sample.Dry("inline-4", high, sample.Minimum(128)), fires: "one-high 3", first: "oil-in-bore"},
		{name: "two high of eight", test: sample.Dry("V8", []float64{150, 148, 178, 145, 149, 151, 176, 147}, sample.Minimum(128)), fires: "one-high 3,7", not: "most-low scattered-low", first: "oil-in-bore", soon: diag.CheckAgain},
		{name: "two high of eight, one with an oily plug", test: sample.Dry("V8", []float64{150, 148, 178, 145, 149, 151, 176, 147}, sample.Plug("oil-wet", "3")), fires: "one-high 3,7", first: "oil-in-bore"},
		{name: "four good of eight", test: sample.Dry("V8", []float64{100, 148, 101, 145, 99, 151, 100, 147}), not: "one-high"},
		{name: "a washed plug", test: sample.Dry("inline-4", high, sample.Plug("coolant", "3")), fires: "one-high", first: "coolant-or-fuel-in-bore"},
		{name: "coolant lost", test: sample.Dry("inline-4", high, sample.Complains("coolant loss")), fires: "one-high", first: "coolant-or-fuel-in-bore"},
		{name: "an oily plug", test: sample.Dry("inline-4", high, sample.Plug("oil-wet", "3")), fires: "one-high", first: "oil-in-bore"},
	})
}
