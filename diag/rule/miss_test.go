package rule_test

import (
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
	"gaugesheet/diag/rule/sample"
)

// TestAMissReadsLean: common practice, no source.
func TestAMissReadsLean(t *testing.T) {
	adds := func(idle, fast float64) sample.Change {
		return sample.Test("trims", quantity.Percent, sample.At("trim long", "idle bank 1", idle), sample.At("trim long", "2500 rpm bank 1", fast))
	}
	misfire, wet := sample.Complains("misfire"), []string{"normal", "fuel-wet", "normal", "normal"}
	runSealing(t, []sealingCase{
		{name: "one too low to fire", test: sample.Dry("inline-4", []float64{175, 175, 70, 172}, misfire, adds(12, 13)), fires: "lean-by-low-cylinder 3; one-low 3", first: "exhaust-valve", soon: diag.ActSoon, next: "leak-down"},
		{name: "one low that fires", test: sample.Dry("inline-4", []float64{175, 175, 145, 172}, misfire, adds(12, 18)), fires: "trim-lean-at-speed", not: "lean-by-low-cylinder"},
		{name: "one too low, and no misfire", test: sample.Dry("inline-4", []float64{175, 175, 70, 172}, adds(12, 13)), not: "lean-by-low-cylinder"},
		{name: "one plug wet", test: looks("inline-4", wet, misfire, adds(12, 12)), fires: "lean-by-missing-plug 2", first: "own-spark", next: "swap-coil"},
		{name: "one plug wet, and no misfire", test: looks("inline-4", wet, adds(12, 12)), not: "lean-by-missing-plug"},
		{name: "two plugs wet", test: looks("inline-4", []string{"normal", "fuel-wet", "normal", "fuel-wet"}, misfire, adds(12, 12)), fires: "lean-by-missing-plug 2,4"},
		{name: "dead injector, and fuel added", test: sample.Of("inline-4", adds(18, 15), sample.Test("injectors", quantity.MlPerMin, sample.Each("before", 0, 208, 206, 209))), fires: "lean-by-dead-injector 1", first: "own-injector"},
		{name: "injectors alike, and fuel added", test: sample.Of("inline-4", adds(18, 15), sample.Test("injectors", quantity.MlPerMin, sample.Each("before", 205, 208, 206, 209))), not: "lean-by-dead-injector"},
		{name: "all sooty, and fuel added", test: looks("inline-4", []string{"sooty", "sooty", "sooty", "sooty"}, adds(18, 15)), fires: "sooty-where-trims-are-lean 1,2,3,4", first: "bank-exhaust-leak", soon: diag.ActSoon},
		{name: "two sooty, and fuel added", test: looks("inline-4", []string{"sooty", "sooty", "normal", "normal"}, adds(18, 15)), not: "sooty-where-trims-are-lean"},
		{name: "three plugs wet", test: looks("inline-4", []string{"fuel-wet", "fuel-wet", "normal", "fuel-wet"}, misfire, adds(12, 12)), not: "lean-by-missing-plug"},
		{name: "air at idle alone", test: looks("inline-4", wet, misfire, adds(18, 3)), not: "lean-by-missing-plug"},
		{name: "a needle that beats, and one plug wet", test: looks("inline-4", wet, misfire, vacuum(needle("drops regularly"), idling(18))), fires: "beat-and-plug 2", first: "own-spark", next: "swap-coil"},
		{name: "a needle that beats, and no plug wet", test: looks("inline-4", four("normal"), misfire, vacuum(needle("drops regularly"), idling(18))), fires: "vacuum-drops-regularly", not: "beat-and-plug"},
	})
}

// TestExhaustAndVacuum: 3 psi, the widest rule in circulation: common practice, no source.
func TestExhaustAndVacuum(t *testing.T) {
	back := func(psi float64) sample.Change {
		return sample.Test("back-pressure", quantity.PSI, sample.At("pressure", "2500 rpm", psi))
	}
	runSealing(t, []sealingCase{
		{name: "both", test: sample.Of("inline-4", back(8.7), vacuum(needle("steady"), idling(15.5))), fires: "back-pressure-and-vacuum", first: "restricted-exhaust"},
		{name: "a free exhaust", test: sample.Of("inline-4", back(1), vacuum(needle("steady"), idling(15.5))), fires: "vacuum-low-and-steady", not: "back-pressure-and-vacuum", first: "late-ignition"},
		{name: "the vacuum right", test: sample.Of("inline-4", back(8.7), vacuum(needle("steady"), idling(19))), fires: "back-pressure-over-rules", not: "back-pressure-and-vacuum"},
	})
}

// TestInjectorCoils: the limit is the job's.
func TestInjectorCoils(t *testing.T) {
	coils := func(second float64) sample.Change {
		return sample.Test("injectors", quantity.Ohm, sample.Each("ohms", 14.1, second), sample.Permits("ohms", "", 13, 15.5))
	}
	runSealing(t, []sealingCase{
		{name: "open", test: sample.Of("inline-4", sample.Complains("misfire"), coils(900)), fires: "injector-ohms 2", not: "test-outside-limit", first: "own-injector", soon: diag.ActSoon},
		{name: "right", test: sample.Of("inline-4", sample.Complains("misfire"), coils(14.3)), not: "injector-ohms test-outside-limit"},
	})
}

// TestRingsLeakEverywhere: common practice, no source.
func TestRingsLeakEverywhere(t *testing.T) {
	even := []float64{150, 152, 148, 151}
	lose := func(more ...sample.Change) []sample.Change {
		return append([]sample.Change{sample.Leak("1", 40, "crankcase"), sample.Leak("2", 42, "crankcase"), sample.Leak("3", 38, "crankcase"), sample.Leak("4", 41, "crankcase")}, more...)
	}
	up := sample.Wet(map[string]float64{"1": 195, "2": 197, "3": 193, "4": 196})
	presses := sample.Test("crankcase", quantity.InH2O, sample.Ticked("ventilation", "off"), sample.At("readings", "2500 rpm", 8), sample.Permits("readings", "2500 rpm", sample.NoLeast, 4))
	runSealing(t, []sealingCase{
		{name: "and the crankcase presses", test: sample.Dry("inline-4", even, lose(presses)...), fires: "leaks-everywhere-and-agrees", not: "all-leak-to-crankcase", first: "wear", sure: diag.Strong, soon: diag.ActSoon},
		{name: "up with oil, and it burns oil", test: sample.Dry("inline-4", even, lose(up, sample.Complains("oil use"))...), fires: "leaks-everywhere-and-agrees", first: "wear", soon: diag.ActSoon},
		{name: "up with oil of an unknown dose", test: sample.Dry("inline-4", even, lose(up)...), not: "leaks-everywhere-and-agrees"},
		{name: "and nothing else", test: sample.Dry("inline-4", even, lose()...), not: "leaks-everywhere-and-agrees", first: "tester-scale"},
	})
}
