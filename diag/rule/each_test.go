package rule_test

import (
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
	"gaugesheet/diag/quantity"
	"gaugesheet/diag/rule"
	"gaugesheet/diag/rule/sample"
)

// TestEachCylinder: clearance and lift, balance, injectors, a diesel's returns.
// That clearance comes before a valve is condemned: TM 1-1500-204-23-1; the rest
// common practice, no source.
func TestEachCylinder(t *testing.T) {
	low3 := []float64{150, 151, 95, 149}
	even := []float64{150, 151, 149, 150}
	valves := func(parts ...func(*diag.Measured)) sample.Change {
		return sample.Test("valves", quantity.Millimetre, parts...)
	}
	off := func(drops ...float64) sample.Change {
		return sample.Test("balance", quantity.RPM, sample.Ticked("idle-control", "held"), sample.Each("drop", drops...))
	}
	flows := func(parts ...func(*diag.Measured)) sample.Change {
		return sample.Test("injectors", quantity.MlPerMin, parts...)
	}
	diesel := func(parts ...func(*diag.Measured)) sample.Change {
		return sample.Test("diesel", quantity.Millilitre, parts...)
	}
	before := func(then sample.Change, now ...sample.Change) *diag.Test {
		t := sample.Dry("inline-4", even, now...)
		t.Before = &diag.Before{Done: "lash set", Test: sample.Dry("inline-4", even, then)}
		return t
	}
	drops := func(from, apart float64, to ...float64) sample.Change {
		return sample.Test("injectors", quantity.KPa, sample.At("pressure-drop from", "", from), sample.Each("pressure-drop to", to...), sample.Permits("from-mean", "", sample.NoLeast, apart))
	}
	done := func(work string) sample.Change {
		return sample.Known(func(h *diag.History) { h.WorkDone = append(h.WorkDone, work) })
	}
	carbs := sample.Known(func(h *diag.History) { h.Vehicle = "motorcycle with four carburettors" })
	white1 := []string{"white", "normal", "normal", "normal"}
	within := sample.Permits("exhaust", "", 0.25, 0.35)
	missing := sample.Test("exhaust-gas", quantity.None, sample.InUnit("gas co", "idle", 0.3, quantity.Percent), sample.InUnit("gas co2", "idle", 12.5, quantity.Percent),
		sample.InUnit("gas o2", "idle", 3.5, quantity.Percent), sample.InUnit("gas hc", "idle", 900, quantity.PartsMillion))
	runSealing(t, []sealingCase{
		{name: "held open on a low one", test: sample.Dry("inline-4", low3, valves(sample.TickedOf("exhaust", "3", "none"))), fires: "valve-held-open 3", first: "valve-lash", soon: diag.ActSoon},
		{name: "tight on a low one", test: sample.Dry("inline-4", low3, valves(sample.Each("exhaust", 0.3, 0.3, 0.1, 0.3), within)), fires: "valve-held-open 3", first: "valve-lash"},
		{name: "tight on a low one and on others", test: sample.Dry("inline-4", low3, valves(sample.Each("exhaust", 0.12, 0.15, 0.1, 0.3), within)), fires: "clearances-tight-together 1,2,3", first: "valve-lash", next: "set-and-retest"},
		{name: "tight on a sound one", test: sample.Dry("inline-4", even, valves(sample.Each("exhaust", 0.3, 0.3, 0.1, 0.3), within)), fires: "clearance-tight 3", not: "valve-held-open"},
		{name: "tight on most, on gas", test: sample.Dry("inline-4", even, sample.Spec(func(s *diag.Spec) { s.Fuel = "lpg" }), sample.Known(func(h *diag.History) { h.Onset = "slow over months" }), valves(sample.Each("exhaust", 0.2, 0.1, 0.12, 0.3), within)), fires: "clearance-tight 1,2,3", first: "valve-recession", next: "set-and-look-again"},
		{name: "tight on most, on petrol", test: sample.Dry("inline-4", even, valves(sample.Each("exhaust", 0.2, 0.1, 0.12, 0.3), within)), fires: "clearance-tight 1,2,3", first: "valve-lash", next: "set-and-look-again"},
		{name: "tight at both valves of most, on gas", test: sample.Dry("inline-4", even, sample.Spec(func(s *diag.Spec) { s.Fuel = "cng" }), valves(sample.Each("exhaust", 0.2, 0.1, 0.12, 0.3), sample.Each("inlet", 0.1, 0.2, 0.2, 0.2), within, sample.Permits("inlet", "", 0.15, 0.25))), fires: "clearance-tight 1,2,3", first: "valve-lash"},
		{name: "none again after it was set twice", test: sample.Dry("inline-4", low3, sample.Leak("3", 45, "exhaust"), done("exhaust clearance of 3 set twice in 600 miles"), valves(sample.TickedOf("exhaust", "3", "none"))), fires: "clearance-closes-again 3", first: "valve-stretch", soon: diag.DoNotRun, sure: diag.Strong},
		{name: "tight again after it was set", test: sample.Dry("inline-4", even, done("valves adjusted 500 miles ago"), valves(sample.Each("exhaust", 0.3, 0.3, 0.1, 0.3), within)), fires: "clearance-closes-again 3", first: "valve-stretch", soon: diag.ActSoon},
		{name: "all tight after one setting", test: sample.Dry("inline-4", even, done("valves adjusted 500 miles ago"), valves(sample.Each("exhaust", 0.1, 0.1, 0.1, 0.1), within)), fires: "clearance-tight 1,2,3,4", first: "valve-lash", not: "clearance-closes-again"},
		{name: "set, and not said when", test: sample.Dry("inline-4", low3, done("valve lash of 3 set"), valves(sample.TickedOf("exhaust", "3", "none"))), fires: "valve-held-open 3", not: "clearance-closes-again", first: "valve-lash", next: "set-and-retest"},
		{name: "set by the sheet's own check", test: sample.Dry("inline-4", low3, done("set and retest done on 3: it stays low, for 2 weeks"), valves(sample.TickedOf("exhaust", "3", "none"))), not: "clearance-closes-again"},
		{name: "tight on one, on gas", test: sample.Dry("inline-4", even, sample.Spec(func(s *diag.Spec) { s.Fuel = "lpg" }), valves(sample.Each("exhaust", 0.3, 0.3, 0.12, 0.3), within)), fires: "clearance-tight 3", first: "valve-lash"},
		{name: "loose", test: sample.Dry("inline-4", even, valves(sample.Each("exhaust", 0.3, 0.3, 0.55, 0.3), within)), fires: "clearance-loose 3", first: "valve-loose"},
		{name: "clearance right", test: sample.Dry("inline-4", low3, valves(sample.Each("exhaust", 0.3, 0.3, 0.3, 0.3), within)), not: "valve-held-open clearance-tight clearance-loose"},
		{name: "a worn lobe", test: sample.Dry("inline-4", even, valves(sample.Each("lift inlet", 9.2, 9.1, 6.1, 9.2))), fires: "lift-low 3", first: "valve-motion"},
		{name: "a worn lobe, low and tight", test: sample.Dry("inline-4", low3, sample.Leak("3", 6), sample.Leak("1", 7), valves(sample.Each("lift inlet", 9.2, 9.1, 6.1, 9.2))), fires: "lobe-agrees 3", first: "valve-motion", sure: diag.Strong},
		{name: "closing up", test: before(valves(sample.Each("exhaust", 0.30, 0.30, 0.30, 0.30)), valves(sample.Each("exhaust", 0.30, 0.29, 0.18, 0.30))), fires: "clearance-closing-up 3", first: "valve-recession", soon: diag.CheckAgain},
		{name: "tightest, as it was", test: before(valves(sample.Each("exhaust", 0.30, 0.30, 0.18, 0.30)), valves(sample.Each("exhaust", 0.30, 0.29, 0.18, 0.30))), not: "clearance-closing-up"},
		{name: "all closed alike", test: before(valves(sample.Each("exhaust", 0.30, 0.30, 0.30, 0.30)), valves(sample.Each("exhaust", 0.20, 0.20, 0.20, 0.20))), not: "clearance-closing-up"},
		{name: "lobes alike", test: sample.Dry("inline-4", even, valves(sample.Each("lift inlet", 9.2, 9.1, 9.0, 9.2))), not: "lift-low"},
		{name: "not missed", test: sample.Of("inline-4", off(90, 85, 4, 88)), fires: "pulls-nothing 3"},
		{name: "a diesel's that is not missed and holds", test: sample.Dry("inline-4", []float64{400, 405, 400, 402}, sample.Diesel, off(90, 85, 4, 88)), fires: "pulls-nothing 3", first: "diesel-injector", next: "injector-bench"},
		{name: "hardly missed", test: sample.Of("inline-4", off(90, 85, 25, 88)), fires: "pulls-little 3", not: "pulls-nothing"},
		{name: "a miss, and a cylinder not missed", test: sample.Dry("inline-4", even, missing, off(90, 85, 4, 88)), fires: "miss-agrees 3", first: "own-spark"},
		{name: "a miss, and a low cylinder not missed", test: sample.Dry("inline-4", low3, missing, off(90, 85, 4, 88)), fires: "pulls-little-and-low 3; gas-miss", not: "miss-agrees"},
		{name: "one not missed, and fuel added", test: sample.Dry("inline-4", even, sample.Complains("misfire"), sample.Test("trims", quantity.Percent, sample.At("trim long", "idle bank 1", 12), sample.At("trim long", "2500 rpm bank 1", 11)), off(95, 115, 0, 115)), fires: "lean-by-idle-cylinder 3", first: "own-spark", next: "swap-coil"},
		{name: "all missed alike, and fuel added", test: sample.Dry("inline-4", even, sample.Complains("misfire"), sample.Test("trims", quantity.Percent, sample.At("trim long", "idle bank 1", 12), sample.At("trim long", "2500 rpm bank 1", 11)), off(95, 115, 98, 115)), not: "lean-by-idle-cylinder"},
		{name: "one lobe worn, and the gas of a miss", test: sample.Dry("inline-4", even, sample.Complains("misfire"), missing, valves(sample.Each("lift inlet", 9.2, 9.1, 6.1, 9.2))), fires: "lean-by-idle-cylinder 3", first: "valve-motion"},
		{name: "a miss, all missed alike", test: sample.Dry("inline-4", even, missing, off(90, 85, 84, 88)), fires: "gas-miss", not: "miss-agrees"},
		{name: "hardly missed, and low", test: sample.Dry("inline-4", low3, off(90, 85, 25, 88)), fires: "pulls-little-and-low 3"},
		{name: "hardly missed, and sound", test: sample.Dry("inline-4", even, off(90, 85, 25, 88)), fires: "pulls-little 3", first: "own-spark"},
		{name: "hardly missed, and white alone", test: looks("inline-4", white1, off(40, 150, 155, 150)), fires: "pulls-little-and-white 1", first: "own-injector"},
		{name: "hardly missed, and white, with carburettors", test: looks("inline-4", white1, carbs, off(40, 150, 155, 150)), fires: "pulls-little-and-white 1", first: "air-leak", next: "intake-joint-wetted"},
		{name: "hardly missed, and another is white", test: looks("inline-4", white1, carbs, off(150, 40, 155, 150)), fires: "pulls-little 2; one-white 1", not: "pulls-little-and-white"},
		{name: "hardly missed, and wet", test: looks("inline-4", []string{"fuel-wet", "normal", "normal", "normal"}, carbs, off(40, 150, 155, 150)), fires: "pulls-little 1", not: "pulls-little-and-white", first: "own-spark", next: "swap-coil"},
		{name: "hardly missed, and all white", test: looks("inline-4", four("white"), off(40, 150, 155, 150)), fires: "pulls-little 1", not: "pulls-little-and-white"},
		{name: "a bank hardly missed", test: sample.Of("V6", off(50, 150, 45, 155, 55, 150)), fires: "bank-pulls-little 1,3,5", not: "pulls-little"},
		{name: "a bank hardly missed, and white", test: looks("V6", []string{"white", "normal", "white", "normal", "white", "normal"}, off(50, 150, 45, 155, 55, 150)), fires: "bank-pulls-little 1,3,5", not: "pulls-little", first: "manifold-gasket"},
		{name: "two of a bank hardly missed", test: sample.Of("V6", off(50, 150, 45, 150, 155, 150)), fires: "pulls-little 1,3", not: "bank-pulls-little"},
		{name: "all missed alike", test: sample.Of("inline-4", off(90, 85, 84, 88)), not: "pulls-little pulls-nothing"},
		{name: "the idle control at work", test: sample.Of("inline-4", sample.Test("balance", quantity.RPM, sample.Ticked("idle-control", "working"), sample.Each("drop", 90, 85, 4, 88))), fires: "balance-not-valid", not: "pulls-nothing"},
		{name: "gives little", test: sample.Of("inline-4", flows(sample.Each("before", 188, 212, 206, 209))), fires: "injector-low 1", first: "dirty-injectors"},
		{name: "gives much", test: sample.Of("inline-4", flows(sample.Each("before", 230, 206, 207, 209))), fires: "injector-rich 1", first: "own-injector"},
		{name: "alike", test: sample.Of("inline-4", flows(sample.Each("before", 205, 206, 207, 209))), not: "injector-low injector-rich"},
		{name: "coils alike", test: sample.Of("inline-4", flows(sample.Each("ohms", 14, 14.1, 15, 13.2))), not: "injector-ohms"},
		{name: "a coil apart", test: sample.Of("inline-4", flows(sample.Each("ohms", 14, 14.1, 3.1, 14.2))), fires: "injector-ohms 3", first: "own-injector"},
		{name: "drips", test: sample.Of("inline-4", flows(sample.TickedOf("leak", "1", "3 drops in 60 s"), sample.TickedOf("leak", "2", "none"))), fires: "injector-leaks 1", first: "leaking-injector"},
		{name: "a stream", test: sample.Of("inline-4", flows(sample.TickedOf("spray", "1", "one stream"), sample.TickedOf("spray", "2", "cone"))), fires: "injector-spray-poor 1"},
		{name: "little, and not missed", test: sample.Of("inline-4", flows(sample.Each("before", 170, 212, 206, 209)), off(20, 85, 90, 88)), fires: "lean-by-injector 1", first: "own-injector", sure: diag.Strong},
		{name: "gives little after cleaning as before it", test: sample.Of("inline-4", flows(sample.Each("before", 188, 212, 206, 209), sample.Each("after", 190, 212, 208, 210))), fires: "injector-low 1; injector-cleaned", first: "own-injector", next: ""},
		{name: "cleaned", test: sample.Of("inline-4", flows(sample.Each("before", 188, 212, 206, 209), sample.Each("after", 209, 212, 210, 211))), fires: "injector-cleaned", not: "injector-low", soon: diag.NoAction},
		{name: "past its limit before cleaning, and within after", test: sample.Of("inline-4", flows(sample.Each("before", 188, 212, 206, 209), sample.Each("after", 209, 212, 210, 211), sample.Permits("before", "", 200, 220))),
			fires: "injector-cleaned", not: "test-outside-limit", soon: diag.NoAction},
		{name: "past its limit before cleaning, and not read since", test: sample.Of("inline-4", flows(sample.Each("before", 188, 212, 206, 209), sample.Permits("before", "", 200, 220))), fires: "injector-low 1", not: "test-outside-limit", soon: diag.ActSoon},
		{name: "past its limit, and no further from the others than they are apart", test: sample.Of("inline-4", flows(sample.Each("before", 196, 201, 202, 203), sample.Permits("before", "", 200, 220))), fires: "test-outside-limit", not: "injector-low"},
		{name: "cleaned for a misfire", test: sample.Dry("inline-4", even, sample.Minimum(128), sample.Complains("misfire"), flows(sample.Each("before", 188, 212, 206, 209), sample.Each("after", 209, 212, 210, 211))), fires: "injector-cleaned", not: "sealing-sound-look-elsewhere", first: "dirty-injectors", soon: diag.CheckAgain, next: "refit-and-run"},
		{name: "cleaned, though they were alike", test: sample.Dry("inline-4", even, sample.Minimum(128), sample.Complains("misfire"), flows(sample.Each("before", 208, 212, 209, 209), sample.Each("after", 210, 212, 210, 211))), fires: "injector-cleaned; sealing-sound-look-elsewhere", first: "-"},
		// The two tables on the drop of the rail's pressure in circulation (common
		// practice): 379 kPa and 20 kPa from the average, 365 kPa and 10 kPa.
		{name: "first table", test: sample.Of("inline-4", drops(379, 20, 280, 310, 340, 317)), fires: "injector-rich 1; injector-low 3", not: "one-injector-drags-the-mean"},
		{name: "second table, by its mean", test: sample.Of("inline-6", drops(365, 10, 245, 200, 245, 240, 245, 255)), fires: "one-injector-drags-the-mean; injector-rich 2", not: "injector-low"},
		{name: "adds little", test: sample.Of("inline-4", sample.Diesel, sample.Test("diesel", quantity.None, sample.Each("contribution", 0.3, 0.4, -1.9, 0.2))), fires: "contributes-little 3", first: "diesel-injector"},
		{name: "adds alike", test: sample.Of("inline-4", sample.Diesel, sample.Test("diesel", quantity.None, sample.Each("contribution", 0.3, 0.4, -0.2, 0.2))), not: "contributes-little"},
		{name: "gives back much", test: sample.Of("inline-4", sample.Diesel, diesel(sample.Each("return cylinders", 12, 11, 48, 12))), fires: "return-high 3", first: "diesel-injector", next: "injector-bench"},
		{name: "two give back much", test: sample.Of("inline-5", sample.Diesel, diesel(sample.Each("return cylinders", 12, 11, 48, 12, 60))), fires: "return-high 3,5", next: "injector-bench"},
		{name: "gives back much, and low: two faults, sealing first", test: sample.Dry("inline-4", []float64{420, 425, 270, 418}, sample.Diesel, diesel(sample.Each("return cylinders", 3, 3, 12, 3))), fires: "one-low 3; return-high 3", first: "exhaust-valve"},
		{name: "gives back alike", test: sample.Of("inline-4", sample.Diesel, diesel(sample.Each("return cylinders", 12, 11, 14, 12))), not: "return-high"},
		{name: "all give back much", test: sample.Of("inline-4", sample.Diesel, diesel(sample.Each("return cylinders", 60, 61, 58, 62), sample.Permits("return cylinders", "", sample.NoLeast, 40))), fires: "all-return-high", not: "return-high"},
		{name: "an injector's coil open", test: sample.Of("inline-4", sample.Test("injectors", quantity.Ohm, sample.Each("ohms", 14.2, 14.1, 14.3), sample.TickedOf("ohms", "4", "open"))), fires: "injector-open 4", first: "own-injector"},
		{name: "an injector's coil of another resistance", test: sample.Of("inline-4", sample.Test("injectors", quantity.Ohm, sample.Each("ohms", 14.2, 14.1, 14.3, 9))), not: "injector-open"},
		{name: "glow plug open", test: sample.Of("inline-4", sample.Diesel, diesel(sample.TickedOf("glow", "2", "open"))), fires: "glow-open 2", first: "glow-plug", next: "renew-glow-plug"},
		{name: "glow plugs by the meter", test: sample.Of("inline-4", sample.Diesel, diesel(sample.Each("glow", 0.7, 1000, 0.8, 6))), fires: "glow-open 2,4", first: "glow-plug", next: "renew-glow-plug"},
		{name: "glow plugs alike", test: sample.Of("inline-4", sample.Diesel, diesel(sample.Each("glow", 0.7, 0.9, 0.8, 1.1))), not: "glow-open"},
		{name: "nozzles drip", test: sample.Of("inline-4", sample.Diesel, sample.Test("diesel", quantity.Bar, sample.Ticked("nozzles drip", "2 drops in 10 s from 3"))), fires: "nozzles-drip", first: "diesel-injector", soon: diag.ActSoon},
		{name: "nozzles dry", test: sample.Of("inline-4", sample.Diesel, sample.Test("diesel", quantity.Bar, sample.Ticked("nozzles drip", "none in 10 s"))), not: "nozzles-drip"},
		{name: "nozzle", test: sample.Of("inline-4", sample.Diesel, sample.Test("diesel", quantity.Bar, sample.Each("nozzles opening", 180, 181, 150, 180), sample.Permits("nozzles opening", "", 175, 185))), fires: "nozzle-low 3"},
		{name: "the pump pulls hard", test: sample.Of("inline-6", sample.Diesel, sample.Test("diesel", quantity.InHg, sample.At("inlet-vacuum", "", 14), sample.Permits("inlet-vacuum", "", 0, 6))), fires: "suction-too-high", not: "test-outside-limit", first: "supply-restricted", soon: diag.ActSoon},
		{name: "the pump pulls lightly", test: sample.Of("inline-6", sample.Diesel, sample.Test("diesel", quantity.InHg, sample.At("inlet-vacuum", "", 3), sample.Permits("inlet-vacuum", "", 0, 6))), not: "suction-too-high test-outside-limit"},
	})
}

// TestTrimsAndGas: trims judge the mixture now. A sample under 6 % of carbon is
// void: 40 CFR 85.2213 (a)(3); the band of lambda: Directive 2014/45/EU annex I,
// from memory; the rest common practice, no source.
func TestTrimsAndGas(t *testing.T) {
	trims := func(parts ...func(*diag.Measured)) sample.Change {
		return sample.Test("trims", quantity.Percent, parts...)
	}
	sum := func(at string, percent float64) func(*diag.Measured) { return sample.At("trim long", at, percent) }
	gas := func(co, co2, o2, hc float64) sample.Change {
		return sample.Test("exhaust-gas", quantity.None, sample.InUnit("gas co", "idle", co, quantity.Percent), sample.InUnit("gas co2", "idle", co2, quantity.Percent),
			sample.InUnit("gas o2", "idle", o2, quantity.Percent), sample.InUnit("gas hc", "idle", hc, quantity.PartsMillion))
	}
	runSealing(t, []sealingCase{
		{name: "air at idle, and one white", test: looks("inline-4", []string{"white", "normal", "normal", "normal"}, trims(sum("idle bank 1", 18), sum("2500 rpm bank 1", 3))), fires: "air-at-one-runner 1; trim-lean-at-idle-only", first: "air-leak", next: "smoke-test"},
		{name: "air at idle, and all white", test: looks("inline-4", four("white"), trims(sum("idle bank 1", 18), sum("2500 rpm bank 1", 3))), fires: "trim-lean-at-idle-only", not: "air-at-one-runner"},
		{name: "air at idle, and one weak", test: sample.Of("inline-4", trims(sum("idle bank 1", 18), sum("2500 rpm bank 1", 3)), sample.Test("balance", quantity.RPM, sample.Ticked("idle-control", "held"), sample.Each("drop", 90, 85, 25, 88))), fires: "air-at-one-runner 3; trim-lean-at-idle-only", first: "air-leak"},
		{name: "short at speed too, and one weak", test: sample.Of("inline-4", trims(sum("idle bank 1", 18), sum("2500 rpm bank 1", 15)), sample.Test("balance", quantity.RPM, sample.Ticked("idle-control", "held"), sample.Each("drop", 90, 85, 25, 88))), fires: "pulls-little 3", not: "air-at-one-runner"},
		{name: "air at idle", test: sample.Of("inline-4", trims(sum("idle bank 1", 18), sum("2500 rpm bank 1", 3))), fires: "trim-lean-at-idle-only", not: "trim-lean-at-speed", first: "air-leak", soon: diag.ActSoon},
		{name: "air at idle, and some at speed", test: sample.Of("inline-4", trims(sum("idle bank 1", 25), sum("2500 rpm bank 1", 7))), fires: "trim-lean-at-idle-only", not: "trim-lean-throughout", first: "air-leak"},
		{name: "lean, read at idle alone", test: sample.Of("inline-4", trims(sum("idle bank 1", 18))), fires: "trim-lean-read-once", not: "trim-lean-at-idle-only"},
		{name: "a little, read at idle alone", test: sample.Of("inline-4", trims(sum("idle bank 1", 8))), not: "trim-lean-read-once"},
		{name: "short throughout", test: sample.Of("inline-4", trims(sum("idle bank 1", 18), sum("2500 rpm bank 1", 14))), fires: "trim-lean-throughout", not: "trim-lean-at-speed trim-lean-at-idle-only", first: "air-meter"},
		{name: "short at speed", test: sample.Of("inline-4", trims(sum("idle bank 1", 4), sum("2500 rpm bank 1", 16))), fires: "trim-lean-at-speed", not: "trim-lean-at-idle-only", first: "fuel-filter"},
		{name: "takes out", test: sample.Of("inline-4", trims(sum("idle bank 1", -14))), fires: "trim-rich"},
		{name: "takes out of the bank with the sooty plug", test: looks("V6", []string{"normal", "normal", "sooty", "normal", "normal", "normal"}, trims(sum("idle bank 1", -22), sum("idle bank 2", 2))), fires: "sooty-where-trims-are-rich 3; trim-rich", first: "own-injector", soon: diag.ActSoon},
		{name: "adds to the bank with the white plug", test: looks("V6", []string{"normal", "normal", "white", "normal", "normal", "normal"}, trims(sum("idle bank 1", 18), sum("2500 rpm bank 1", 20), sum("idle bank 2", 2), sum("2500 rpm bank 2", 1))), fires: "white-where-trims-are-lean 3; trim-lean-at-speed", first: "own-injector", soon: diag.ActSoon},
		{name: "adds at idle alone", test: looks("V6", []string{"normal", "normal", "white", "normal", "normal", "normal"}, trims(sum("idle bank 1", 18), sum("2500 rpm bank 1", 3), sum("idle bank 2", 2), sum("2500 rpm bank 2", 1))), fires: "air-at-one-runner 3", not: "white-where-trims-are-lean"},
		{name: "adds, and all plugs are white", test: looks("inline-4", []string{"white", "white", "white", "white"}, trims(sum("idle bank 1", 18), sum("2500 rpm bank 1", 20))), fires: "trim-lean-at-speed", not: "white-where-trims-are-lean"},
		{name: "takes out of the other bank", test: looks("V6", []string{"normal", "normal", "sooty", "normal", "normal", "normal"}, trims(sum("idle bank 1", 2), sum("idle bank 2", -22))), fires: "one-sooty 3", not: "sooty-where-trims-are-rich"},
		{name: "takes out, and all plugs are sooty", test: looks("inline-4", []string{"sooty", "sooty", "sooty", "sooty"}, trims(sum("idle bank 1", -22))), fires: "trim-rich", not: "sooty-where-trims-are-rich"},
		{name: "banks opposed", test: sample.Of("V6", trims(sum("idle bank 1", 14), sum("idle bank 2", -15))), fires: "banks-opposed", not: "trim-rich", first: "sensors-crossed", next: "sensor-banks"},
		{name: "banks apart", test: sample.Of("V6", trims(sum("idle bank 1", 12), sum("idle bank 2", 1))), fires: "trims-apart", soon: diag.CheckAgain},
		{name: "cleared, and nothing learned since", test: sample.Of("inline-4", sample.Found("codes cleared by the seller"), sample.Test("trims", quantity.Percent, sample.At("trim short", "idle bank 1", 2), sample.At("trim long", "idle bank 1", 0))), fires: "trims-unlearned", not: "trims-right"},
		{name: "codes not cleared", test: sample.Of("inline-4", sample.Found("codes not cleared"), sample.Test("trims", quantity.Percent, sample.At("trim short", "idle bank 1", 2), sample.At("trim long", "idle bank 1", 0))), fires: "trims-right", not: "trims-unlearned came-in-cleared"},
		{name: "came in cleared", test: sample.Dry("inline-4", []float64{170, 171, 169, 172}, sample.Found("monitors not ready")), fires: "came-in-cleared", next: "cold-start-and-drive"},
		{name: "calm", test: sample.Of("inline-4", trims(sum("idle bank 1", 3), sum("2500 rpm bank 1", 2))), fires: "trims-right", not: "trim-rich trims-apart"},
		{name: "thinned", test: sample.Of("inline-4", gas(0.3, 5, 12, 80)), fires: "gas-diluted", not: "gas-lean gas-rich"},
		{name: "rich", test: sample.Of("inline-4", gas(3.372, 12.71, 0.81, 95)), fires: "gas-rich", first: "rich-mixture"},
		{name: "lean", test: sample.Of("inline-4", gas(0.002, 11.47, 4.40, 4)), fires: "gas-lean"},
		{name: "right", test: sample.Of("inline-4", gas(0.305, 15.33, 0.06, 27)), fires: "gas-right", not: "gas-rich gas-lean gas-miss"},
		{name: "old soot", test: sample.Of("inline-4", sample.Looks("sooty", "sooty", "sooty", "sooty"), gas(0.305, 15.33, 0.06, 27)), fires: "old-soot", first: "short-trips"},
		{name: "soot, and rich now", test: sample.Of("inline-4", sample.Looks("sooty", "sooty", "sooty", "sooty"), gas(3.372, 12.71, 0.81, 95)), fires: "all-sooty", not: "old-soot"},
		{name: "a miss", test: sample.Of("inline-4", gas(0.3, 12.5, 3.5, 900)), fires: "gas-miss"},
		{name: "gas lean, trims take out", test: sample.Of("inline-4", gas(0.002, 11.47, 4.40, 4), trims(sum("idle bank 1", -14))), fires: "gas-and-trim-disagree", first: "bank-exhaust-leak"},
	})
}

// An injector that the bench finds even, and a pulse on the rail does not, is
// judged by the pulse and says so.
func TestWhichReadingJudgesAnInjector(t *testing.T) {
	test := sample.Of("inline-4", sample.Test("injectors", quantity.KPa, sample.Each("after", 209, 212, 210, 211),
		sample.At("pressure-drop from", "", 379), sample.Each("pressure-drop to", 280, 310, 309, 311), sample.Permits("from-mean", "", sample.NoLeast, 20)))
	c := known.New(test)
	for _, h := range rule.Run(c) {
		if h.Rule.Name == "injector-rich" {
			if f := h.Rule.Say(c, h.Subject); f.Facts["drop"] != true || f.Facts["value"] != "99\u00a0kPa" {
				t.Errorf("the finding gives %v, want the 99 kPa of the pulse", f.Facts)
			}
			return
		}
	}
	t.Error("an injector that takes 99 kPa where the others take 69 is not found")
}
