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
		"a gas":         sample.Test("exhaust-gas", quantity.Percent, sample.At("gas co", "idle", 4.1), sample.Permits("gas co", "", sample.NoLeast, 1.2)),
		"another thing": sample.Test(diag.OtherReadings, quantity.Volt, sample.At("charging voltage", "", 12.9), sample.Permits("charging voltage", "", 13.8, 14.6)),
		"each cylinder": sample.Test("injectors", quantity.Ohm, sample.Each("ohms", 19.9, 19.8, 20.1, 19.7), sample.Permits("ohms", "", 13.8, 15.2)),
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
	lash := func(was string) *diag.Test {
		within := sample.Permits("exhaust", "", 0.06, 0.10)
		t := sample.Of("inline-4", sample.Test("valves", quantity.Millimetre, sample.Each("exhaust", 0.08, 0.08, 0.08, 0.08), within))
		t.Before = &diag.Before{Done: "valve clearances set", Test: sample.Of("inline-4", sample.Test("valves", quantity.Millimetre, func(m *diag.Measured) {
			if was != "" {
				m.Words = append(m.Words, diag.Word{Name: "exhaust", Cylinder: "2", Value: was})
			}
			m.Readings = append(m.Readings, diag.Measurement{Name: "exhaust", Cylinder: "1", Unit: quantity.Millimetre, Reading: diag.Reading{State: diag.Tested, Values: []float64{0.07}, Entered: "0.07"}})
		}))}
		return t
	}
	runSealing(t, []sealingCase{
		{name: "put right", test: before(3, 22), fires: "test-repaired-and-proved", not: "test-same-after-repair", soon: diag.NoAction},
		{name: "the same", test: before(3, 4), fires: "test-same-after-repair", not: "test-repaired-and-proved", soon: diag.ActSoon},
		{name: "no clearance before the work", test: lash("none"), fires: "test-repaired-and-proved", soon: diag.NoAction},
		{name: "no word of it before the work", test: lash(""), not: "test-repaired-and-proved"},
		{name: "good before too", test: before(20, 22), not: "test-repaired-and-proved test-same-after-repair"},
		{name: "within", test: sample.Of("inline-4", sample.Test("timing", quantity.Degree, sample.At("dwell", "", 29), sample.Permits("dwell", "", 26, 32))), not: "test-outside-limit"},
		{name: "nearer than the gauge can tell", test: sample.Of("inline-4", sample.Test("cooling", quantity.PSI, sample.At("cap opens", "", 12.9), sample.Permits("cap opens", "", 13, 17))), fires: "test-outside-limit", soon: diag.CheckAgain},
		{name: "one with a rule of its own", test: sample.Of("inline-4", sample.Test("timing", quantity.Degree, sample.At("dwell", "", 40), sample.Permits("dwell", "", 26, 32))), fires: "dwell-off", not: "test-outside-limit"},
		{name: "no limit, no word", test: sample.Of("inline-4", sample.Test("timing", quantity.Degree, sample.At("dwell", "", 60))), not: "test-outside-limit"},
	})
}
