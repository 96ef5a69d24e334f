package rule_test

import (
	"testing"
	"time"

	"gaugesheet/diag"
	"gaugesheet/diag/rule/sample"
	"gaugesheet/diag/story"
)

// before adds the readings before the work.
func before(then *diag.Test) sample.Change {
	return func(t *diag.Test) {
		then.Engine, then.Spec, then.Gauges, then.Conditions = t.Engine, t.Spec, t.Gauges, t.Conditions
		t.Before = &diag.Before{Done: "valves ground in", Date: time.Date(2025, 5, 13, 0, 0, 0, 0, time.UTC), Test: then}
	}
}

// TestEarlier: a change counts beyond both readings' uncertainty and beyond a
// tenth (SAE 2011-01-2427, from memory: small changes cannot be seen).
func TestEarlier(t *testing.T) { runSealing(t, earlierCases()) }

func earlierCases() []sealingCase {
	was := func(v ...float64) sample.Change { return sample.After("2025-05-13", sample.Dry("inline-4", v)) }
	even := []float64{160, 158, 159, 157}
	return []sealingCase{
		{name: "a quarter less on one", test: sample.Dry("inline-4", []float64{120, 158, 159, 157}, was(160, 158, 159, 157)), fires: "changed-since-earlier 1", not: "no-change-shown"},
		{name: "beyond the gauge, within a tenth", test: sample.Dry("inline-4", []float64{148, 158, 159, 157}, was(160, 158, 159, 157)), fires: "no-change-shown", not: "changed-since-earlier"},
		{name: "the same", test: sample.Dry("inline-4", even, was(160, 158, 159, 157)), fires: "no-change-shown", not: "changed-since-earlier"},
		{name: "another temperature is not compared", test: sample.Dry("inline-4", []float64{120, 158, 159, 157}, was(160, 158, 159, 157), method(func(k *diag.Conditions) { k.Engine = "cold" })),
			fires: "one-low", not: "changed-since-earlier no-change-shown"},
		{name: "risen", test: sample.Dry("inline-4", even, was(120, 158, 159, 157)), fires: "changed-since-earlier 1", soon: diag.NoAction},
		{name: "loses 12 points more", test: sample.Of("inline-4", sample.Leak("1", 20, "crankcase"), sample.Leak("2", 8), sample.After("2025-05-13", sample.Of("inline-4", sample.Leak("1", 8), sample.Leak("2", 8)))),
			fires: "leakage-changed 1"},
		{name: "loses 8 points more", test: sample.Of("inline-4", sample.Leak("1", 16), sample.Leak("2", 8), sample.After("2025-05-13", sample.Of("inline-4", sample.Leak("1", 8), sample.Leak("2", 8)))),
			fires: "leakage-good", not: "leakage-changed"},
	}
}

func repairCases() []sealingCase {
	four := func(v ...float64) *diag.Test { return sample.Dry("inline-4", v) }
	lost := func(percent float64, at ...string) *diag.Test {
		return sample.Of("inline-4", sample.Leak("1", 6), sample.Leak("2", percent, at...), sample.Leak("3", 7), sample.Leak("4", 6))
	}
	return []sealingCase{
		{name: "low, and sound now", test: sample.Dry("inline-4", []float64{150, 148, 149, 151}, before(four(150, 95, 149, 151))), fires: "repaired-and-proved 2", not: "same-after-repair better-after-repair worse-after-repair", soon: diag.NoAction},
		{name: "low, and as low now", test: sample.Dry("inline-4", []float64{150, 98, 149, 151}, before(four(150, 95, 149, 151))), fires: "same-after-repair 2", not: "repaired-and-proved better-after-repair"},
		{name: "better, and still low", test: sample.Dry("inline-4", []float64{150, 120, 149, 151}, before(four(150, 95, 149, 151))), fires: "better-after-repair 2", not: "repaired-and-proved same-after-repair"},
		{name: "two are better, and one of them still low", test: sample.Dry("inline-4", []float64{150, 120, 149, 151}, before(four(130, 95, 149, 151))), fires: "better-after-repair 2", not: "same-after-repair"},
		{name: "another one is worse", test: sample.Dry("inline-4", []float64{150, 148, 110, 151}, before(four(150, 95, 149, 151))), fires: "worse-after-repair 3; repaired-and-proved 2", not: "same-after-repair"},
		{name: "all low before, all sound now", test: sample.Dry("V6", []float64{150, 148, 149, 151, 150, 152}, sample.Minimum(120), before(sample.Dry("V6", []float64{90, 88, 91, 89, 90, 92}, sample.Minimum(120)))),
			fires: "repaired-and-proved 1,2,3,4,5,6", not: "same-after-repair"},
		{name: "nothing was wrong and nothing changed", test: sample.Dry("inline-4", []float64{150, 148, 149, 151}, before(four(152, 147, 150, 149))), fires: "even-no-minimum", not: "repaired-and-proved same-after-repair better-after-repair worse-after-repair"},
		{name: "air lost, and tight now", test: sample.Of("inline-4", sample.Leak("1", 6), sample.Leak("2", 7), sample.Leak("3", 7), sample.Leak("4", 6), before(lost(42, "exhaust"))), fires: "repaired-and-proved 2"},
		{name: "air lost as before", test: sample.Of("inline-4", sample.Leak("1", 6), sample.Leak("2", 38, "exhaust"), sample.Leak("3", 7), sample.Leak("4", 6), before(lost(42, "exhaust"))), fires: "same-after-repair 2"},
		{name: "a rise in pressure, and the air goes as before", test: sample.Dry("inline-4", []float64{150, 148, 149, 151}, sample.Leak("1", 6), sample.Leak("2", 40, "exhaust"), sample.Leak("3", 5),
			before(sample.Dry("inline-4", []float64{150, 95, 149, 151}, sample.Leak("1", 6), sample.Leak("2", 42, "exhaust"), sample.Leak("3", 5)))), fires: "same-after-repair 2", not: "repaired-and-proved"},
		{name: "cold before and warm after", test: sample.Dry("inline-4", []float64{150, 148, 149, 151}, before(sample.Dry("inline-4", []float64{150, 95, 149, 151})),
			func(t *diag.Test) { t.Before.Test.Conditions.Engine = "cold" }), fires: "before-not-compared", not: "repaired-and-proved"},
	}
}

// TestRepair: what the readings before and after the work prove.
func TestRepair(t *testing.T) {
	runSealing(t, repairCases())
}

// TestFuelRepair: the same for a fuel pressure, by its own limit.
func TestFuelRepair(t *testing.T) {
	rail := func(key float64) sample.Change {
		return sample.Fuel("port, return line", diag.Circuit{KeyOn: sample.PSI(key), Limits: []diag.FuelLimit{sample.Range("key-on", 38, 44)}})
	}
	for _, tt := range []struct {
		then, now float64
		fires     string
	}{
		{then: 28, now: 41, fires: "fuel-repaired-and-proved"}, {then: 28, now: 28.5, fires: "fuel-same-after-repair"},
		{then: 28, now: 34, fires: "fuel-repaired-and-proved"}, {then: 34, now: 28, fires: "fuel-same-after-repair"}, {then: 41, now: 41},
	} {
		d := story.WithoutPlan(sample.Of("inline-4", rail(tt.now), before(sample.Of("inline-4", rail(tt.then)))))
		for _, name := range []string{"fuel-repaired-and-proved", "fuel-same-after-repair"} {
			if s, _ := storyWith(d, name); (s != nil) != (name == tt.fires) {
				t.Errorf("%v to %v: %s fired: %v", tt.then, tt.now, name, s != nil)
			}
		}
	}
}
