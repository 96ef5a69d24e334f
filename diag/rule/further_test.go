package rule_test

import (
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
	"gaugesheet/diag/rule/sample"
)

// TestPastItsLimit: whatever a limit of the job is of, a reading past it is said.
func TestPastItsLimit(t *testing.T) {
	for name, change := range map[string]sample.Change{
		"battery":       sample.Test("starting", quantity.Volt, sample.At("battery cranking", "", 8.9), sample.Permits("battery cranking", "", 9.6, sample.NoMost)),
		"dwell":         sample.Test("timing", quantity.Degree, sample.At("dwell", "", 40), sample.Permits("dwell", "", 26, 32)),
		"another thing": sample.Test(diag.OtherReadings, quantity.Volt, sample.At("charging voltage", "", 12.9), sample.Permits("charging voltage", "", 13.8, 14.6)),
		"one cylinder":  sample.Test("valves", quantity.Millimetre, sample.Each("exhaust", 0.30, 0.31, 0.12, 0.30), sample.Permits("exhaust", "", 0.25, 0.35)),
	} {
		runSealing(t, []sealingCase{{name: name, test: sample.Of("inline-4", change), fires: "test-outside-limit", soon: diag.ActSoon}})
	}
	before := func(then, now float64) *diag.Test {
		test := func(v float64) sample.Change {
			return sample.Test("oil-pressure", quantity.PSI, sample.At("idle", "", v), sample.Permits("idle", "", 10, sample.NoMost), sample.Ticked("gauge", "screwed in"))
		}
		t := sample.Of("inline-4", test(now))
		t.Before = &diag.Before{Done: "relief valve renewed", Test: sample.Of("inline-4", test(then))}
		return t
	}
	runSealing(t, []sealingCase{
		{name: "put right", test: before(3, 22), fires: "test-repaired-and-proved", not: "test-same-after-repair", soon: diag.NoAction},
		{name: "the same", test: before(3, 4), fires: "test-same-after-repair", not: "test-repaired-and-proved", soon: diag.ActSoon},
		{name: "good before too", test: before(20, 22), not: "test-repaired-and-proved test-same-after-repair"},
		{name: "within", test: sample.Of("inline-4", sample.Test("timing", quantity.Degree, sample.At("dwell", "", 29), sample.Permits("dwell", "", 26, 32))), not: "test-outside-limit"},
		{name: "nearer than the gauge can tell", test: sample.Of("inline-4", sample.Test("vacuum", quantity.InHg, sample.At("idle", "", 16.5), sample.Permits("idle", "", 17, 21))), fires: "test-outside-limit", soon: diag.CheckAgain},
		{name: "no limit, no word", test: sample.Of("inline-4", sample.Test("timing", quantity.Degree, sample.At("dwell", "", 60))), not: "test-outside-limit"},
	})
}
