package rule_test

import (
	"slices"
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/rule/sample"
	"gaugesheet/diag/story"
)

// What a cylinder without pressure, or one that loses nearly all its air at a
// valve, comes from where a piston may have met a valve, and where it cannot have:
// common practice, no source.
func TestValvesThatMetPistons(t *testing.T) {
	dead, low, three := []float64{160, 158, 0, 161}, []float64{160, 158, 40, 161}, sample.Leak("3", 92, "inlet")
	belted, free := sample.Spec(belt), sample.Spec(func(s *diag.Spec) { s.TimingDrive, s.Interference = "belt", diag.No })
	runSealing(t, []sealingCase{
		{name: "dead, the inlet gapes, the belt broke", test: sample.Dry("inline-4", dead, three, belted, onset("sudden when the timing belt broke")), fires: "inlet-valve-agrees 3", first: "bent-valve", sure: diag.Strong, soon: diag.DoNotRun},
		{name: "dead, the exhaust gapes, interference not said", test: sample.Dry("inline-4", dead, sample.Leak("3", 90, "exhaust"), onset("the belt snapped")), fires: "exhaust-valve-agrees 3", first: "bent-valve", soon: diag.DoNotRun},
		{name: "low, loses nearly all at the inlet, sudden, a chain", test: sample.Dry("inline-4", low, three, onset("sudden"), sample.Spec(func(s *diag.Spec) { s.TimingDrive = "chain" })), fires: "inlet-valve-agrees 3", first: "bent-valve"},
		{name: "dead, sudden, no leakage test", test: sample.Dry("inline-4", dead, belted, onset("sudden")), fires: "one-without-pressure 3", first: "bent-valve", soon: diag.DoNotRun},
		{name: "dead, a diesel, sudden", test: sample.Dry("inline-4", []float64{400, 405, 0, 402}, sample.Diesel, onset("sudden"), sample.Spec(func(s *diag.Spec) { s.TimingDrive = "belt" })), fires: "one-without-pressure 3", first: "bent-valve"},
		{name: "they cannot meet", test: sample.Dry("inline-4", dead, three, free, onset("sudden when the timing belt broke")), fires: "inlet-valve-agrees 3", first: "inlet-valve"},
		{name: "it came slowly", test: sample.Dry("inline-4", low, three, belted, onset("slow over months")), fires: "inlet-valve-agrees 3", first: "inlet-valve"},
		{name: "a small leak bends nothing", test: sample.Dry("inline-4", []float64{160, 158, 120, 161}, sample.Leak("3", 30, "inlet"), belted, onset("sudden")), fires: "inlet-valve-agrees 3", first: "inlet-valve"},
		{name: "the fan belt", test: sample.Dry("inline-4", low, three, onset("when the fan belt broke")), fires: "inlet-valve-agrees 3", first: "inlet-valve"},
	})
}

// A valve through which nearly all goes does not close as the engine warms up,
// and cold pistons and rings do: common practice, no source.
func TestColdLossAtAValve(t *testing.T) {
	cold := sample.Method(func(c *diag.Conditions) { c.Engine = "cold" })
	for _, tt := range []struct {
		name        string
		loss        float64
		at          string
		provisional bool
	}{
		{"nearly all at the inlet", 92, "inlet", false},
		{"a part at the inlet", 40, "inlet", true},
		{"nearly all past the rings", 74, "crankcase", true},
	} {
		d := story.WithoutPlan(sample.Dry("inline-4", []float64{160, 158, 90, 161}, cold, sample.Leak("3", tt.loss, tt.at)))
		said := slices.ContainsFunc(d.Stories, func(s diag.Story) bool {
			return slices.ContainsFunc(s.Doubts, func(p diag.Phrase) bool { return p.Key == "leakage-cold" })
		})
		if said != tt.provisional {
			t.Errorf("%s: provisional %v, want %v", tt.name, said, tt.provisional)
		}
	}
}

// Metal on the plug of a low cylinder is the piston's: common practice, no source.
func TestKnockInALowCylinder(t *testing.T) {
	third := sample.Looks("normal", "normal", "detonation", "normal")
	runSealing(t, []sealingCase{
		{name: "low", test: sample.Dry("inline-4", []float64{160, 158, 70, 161}, third), fires: "knock-and-low 3; detonation-signs 3", first: "holed-piston", soon: diag.DoNotRun},
		{name: "low, a two-stroke", test: sample.Dry("inline-2", []float64{121, 74}, sample.TwoStroke, sample.Looks("normal", "detonation")), fires: "knock-and-low 2", first: "holed-piston", soon: diag.DoNotRun},
		{name: "an only cylinder under its minimum", test: sample.Dry("single", []float64{60}, sample.Minimum(100), sample.Looks("detonation")), fires: "knock-and-low 1", first: "holed-piston", soon: diag.DoNotRun},
		{name: "an only cylinder, too low for any", test: sample.Dry("single", []float64{40}, sample.TwoStroke, sample.Looks("detonation")), fires: "knock-and-low 1", first: "holed-piston", soon: diag.DoNotRun},
		{name: "an only cylinder that does", test: sample.Dry("single", []float64{125}, sample.TwoStroke, sample.Looks("detonation")), fires: "detonation-signs 1", not: "knock-and-low", soon: diag.ActSoon},
		{name: "it seals", test: sample.Dry("inline-4", []float64{160, 158, 159, 161}, third), fires: "detonation-signs 3", not: "knock-and-low", first: "knock", soon: diag.ActSoon},
		{name: "another one is low", test: sample.Dry("inline-4", []float64{160, 90, 159, 161}, third), fires: "detonation-signs 3", not: "knock-and-low"},
		{name: "a diesel has no spark plug", test: sample.Dry("inline-4", []float64{400, 405, 250, 402}, sample.Diesel, third), not: "knock-and-low detonation-signs"},
	})
}

// What an over-speed does to a valve is done at once: common practice, no source.
func TestValveMetPiston(t *testing.T) {
	low := []float64{152, 150, 70, 151}
	gear := onset("after a missed gear")
	runSealing(t, []sealingCase{
		{name: "a missed gear", test: sample.Dry("inline-4", low, gear), fires: "valve-met-piston 3", first: "bent-valve", soon: diag.DoNotRun},
		{name: "air at the exhaust", test: sample.Dry("inline-4", low, gear, sample.Leak("3", 55, "exhaust")), fires: "valve-met-piston 3; leaks-at-exhaust 3", first: "bent-valve", soon: diag.DoNotRun},
		{name: "past its piston", test: sample.Dry("inline-4", low, gear, sample.Leak("3", 55, "crankcase")), not: "valve-met-piston"},
		{name: "it holds its air", test: sample.Dry("inline-4", low, gear, sample.Leak("3", 6)), not: "valve-met-piston"},
		{name: "a belt that broke", test: sample.Dry("inline-4", low, onset("the timing belt broke")), fires: "valve-met-piston 3", first: "bent-valve", soon: diag.DoNotRun},
		{name: "and no valve can meet a piston", test: sample.Dry("inline-4", low, onset("the timing belt broke"), func(t *diag.Test) { t.Spec.Interference = diag.No }), not: "valve-met-piston"},
		{name: "nobody tells of it", test: sample.Dry("inline-4", low, onset("suddenly")), not: "valve-met-piston"},
	})
}

// What gives way at once is a piston or a ring land, and no worn ring: common
// practice, no source.
func TestGaveWaySuddenly(t *testing.T) {
	atOnce, slowly := onset("sudden at full load"), onset("slow over months")
	low := []float64{165, 45, 162}
	runSealing(t, []sealingCase{
		{name: "most of its air past the piston", test: sample.Dry("inline-3", low, atOnce, sample.Leak("2", 80, "crankcase")), fires: "gave-way-suddenly 2; leaks-to-crankcase 2", first: "broken-ring-land", soon: diag.DoNotRun},
		{name: "a diesel", test: sample.Dry("inline-4", []float64{400, 405, 150, 402}, sample.Diesel, atOnce, sample.Leak("3", 85, "crankcase")), fires: "gave-way-suddenly 3", first: "broken-ring-land", soon: diag.DoNotRun},
		{name: "metal in the plug's note", test: sample.Dry("inline-3", low, sample.Looks("normal", "oil-wet", "normal"), plugNote("2", "grey specks of metal on the insulator")), fires: "knock-and-low 2", first: "holed-piston", soon: diag.DoNotRun},
		{name: "of a two-stroke by itself", test: sample.Dry("inline-2", []float64{122, 70}, sample.TwoStroke, atOnce), fires: "gave-way-suddenly 2", first: "piston", soon: diag.DoNotRun},
		{name: "a two-stroke that came to it slowly", test: sample.Dry("inline-2", []float64{122, 70}, sample.TwoStroke, slowly), not: "gave-way-suddenly"},
		{name: "both of a two-stroke", test: sample.Dry("inline-2", []float64{55, 52}, sample.TwoStroke, atOnce), not: "gave-way-suddenly"},
		{name: "of a two-stroke with a white plug", test: sample.Dry("inline-2", []float64{122, 70}, sample.TwoStroke, sample.Looks("normal", "white")), fires: "ported-ran-hot 2", first: "scored-bore", soon: diag.DoNotRun},
		{name: "of a two-stroke with a normal plug", test: sample.Dry("inline-2", []float64{122, 70}, sample.TwoStroke, sample.Looks("normal", "normal")), not: "ported-ran-hot"},
		{name: "as much as rings let past", test: sample.Dry("inline-3", low, atOnce, sample.Leak("2", 35, "crankcase")), not: "gave-way-suddenly"},
		{name: "through a valve", test: sample.Dry("inline-3", low, atOnce, sample.Leak("2", 80, "exhaust")), not: "gave-way-suddenly"},
		{name: "slowly", test: sample.Dry("inline-3", low, slowly, sample.Leak("2", 80, "crankcase")), not: "gave-way-suddenly"},
	})
}

func plugNote(name, note string) sample.Change {
	return func(t *diag.Test) {
		p := t.Plugs.ByCylinder[name]
		p.Note = note
		t.Plugs.ByCylinder[name] = p
	}
}

// What was worked on last is looked at first: common practice, no source.
func TestLowSinceTheTimingWasDone(t *testing.T) {
	low := []float64{118, 120, 117, 119}
	runSealing(t, []sealingCase{
		{name: "belt renewed", test: sample.Dry("inline-4", low, sample.Minimum(145), sample.Done("timing belt renewed")), fires: "all-low", first: "cam-timing", next: "cam-timing-marks"},
		{name: "nothing done", test: sample.Dry("inline-4", low, sample.Minimum(145)), fires: "all-low", next: "second-gauge"},
	})
}
