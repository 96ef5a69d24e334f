package rule_test

import (
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
	"gaugesheet/diag/rule/sample"
)

func vacuum(parts ...func(*diag.Measured)) sample.Change {
	return sample.Test("vacuum", quantity.InHg, parts...)
}

func needle(does string) func(*diag.Measured) { return sample.Ticked("idle needle", does) }

func idling(inHg float64) func(*diag.Measured) { return sample.At("idle", "", inHg) }

// TestVacuum: what the needle says. The patterns are those of common training
// texts, the band is 17 to 21 inHg at sea level: common practice, no source.
// By how much thin air lowers it is the standard atmosphere's.
func TestVacuum(t *testing.T) {
	even := []float64{150, 151, 149, 150}
	high := sample.Method(func(c *diag.Conditions) { m := 1500.0; c.AltitudeM = &m })
	steady, weak := needle("steady"), sample.Complains("low power")
	lowAll := []float64{85, 86, 84, 85}
	tight := func(t *diag.Test) {
		for _, n := range t.Engine.Names() {
			sample.Leak(n, 5)(t)
		}
	}
	spark := func(degrees float64) sample.Change {
		return sample.Test("timing", quantity.Degree, sample.At("base", "700 rpm", degrees), sample.Permits("base", "", 5, 7))
	}
	runSealing(t, []sealingCase{
		{name: "right", test: sample.Of("inline-4", vacuum(steady, idling(19))), fires: "vacuum-right", not: "vacuum-low-and-steady"},
		{name: "more than an engine draws", test: sample.Of("inline-4", vacuum(steady, idling(26))), fires: "vacuum-high", not: "vacuum-right", first: "reading-wrong", soon: diag.CheckAgain, next: "read-again"},
		{name: "strong and no more", test: sample.Of("inline-4", vacuum(steady, idling(22))), not: "vacuum-high"},
		{name: "too much for the mountain", test: sample.Of("inline-4", vacuum(steady, idling(22)), high), fires: "vacuum-high"},
		{name: "low and steady", test: sample.Of("inline-4", vacuum(steady, idling(14))), fires: "vacuum-low-and-steady", first: "air-leak", soon: diag.CheckAgain},
		{name: "a little low is the ignition first", test: sample.Of("inline-4", vacuum(steady, idling(15.5))), fires: "vacuum-low-and-steady", first: "late-ignition"},
		{name: "nearer than the gauge can tell", test: sample.Of("inline-4", vacuum(steady, idling(16.5))), not: "vacuum-low-and-steady vacuum-right"},
		{name: "low at sea level, right on a mountain", test: sample.Of("inline-4", vacuum(steady, idling(14)), high), fires: "vacuum-right", not: "vacuum-low-and-steady"},
		{name: "under the job's own limit", test: sample.Of("inline-4", vacuum(steady, idling(14), sample.Permits("idle", "", 18, sample.NoMost))), fires: "vacuum-low-and-steady", soon: diag.ActSoon},
		{name: "a diesel has no throttle", test: sample.Of("inline-4", sample.Diesel, vacuum(steady, idling(3))), not: "vacuum-low-and-steady"},
		{name: "drops at a beat", test: sample.Of("inline-4", vacuum(needle("drops regularly"), idling(17))), fires: "vacuum-drops-regularly", first: "own-spark"},
		{name: "drops, cylinders even", test: sample.Dry("inline-4", even, vacuum(needle("drops regularly"), idling(17))), fires: "vacuum-drop-without-low-cylinder", first: "own-spark"},
		{name: "drops at a beat, one low", test: sample.Dry("inline-4", []float64{150, 151, 100, 149}, vacuum(needle("drops regularly"), idling(17))), fires: "beat-agrees 3; one-low 3", first: "exhaust-valve"},
		{name: "drops at a beat, two low", test: sample.Dry("inline-6", []float64{150, 101, 150, 151, 100, 149}, vacuum(needle("drops regularly"), idling(17))), fires: "beat-agrees 2,5", first: "exhaust-valve"},
		{name: "drops at a beat, one low that oil leaves low", test: sample.Dry("inline-4", []float64{150, 151, 100, 149}, sample.Wet(map[string]float64{"3": 101, "1": 154}), vacuum(needle("drops regularly"), idling(17))), fires: "valve-agrees 3; wet-no-rise 3", first: "exhaust-valve"},
		{name: "drops at a beat, one low that oil lifts", test: sample.Dry("inline-4", []float64{150, 151, 100, 149}, sample.Wet(map[string]float64{"3": 140, "1": 154}), vacuum(needle("drops regularly"), idling(17))), fires: "beat-agrees 3", not: "valve-agrees", first: "rings"},
		{name: "a steady needle, one low that oil leaves low", test: sample.Dry("inline-4", []float64{150, 151, 100, 149}, sample.Wet(map[string]float64{"3": 101, "1": 154}), vacuum(steady, idling(19))), fires: "wet-no-rise 3", not: "valve-agrees"},
		{name: "drops at a beat, two low that oil leaves low", test: sample.Dry("inline-4", []float64{150, 99, 100, 149}, sample.Wet(map[string]float64{"2": 100, "3": 101, "1": 154}), vacuum(needle("drops regularly"), idling(17))), fires: "beat-agrees 2,3", not: "valve-agrees", first: "head-gasket"},
		{name: "low and steady, two of four low", test: sample.Dry("inline-4", []float64{150, 95, 151, 96}, vacuum(needle("steady"), idling(14))), fires: "vacuum-short-of-cylinders 2,4"},
		{name: "low and steady by more than one of eight draws", test: sample.Dry("V8", []float64{150, 151, 149, 95, 150, 152, 150, 149}, vacuum(needle("steady"), idling(12))), fires: "vacuum-low-and-steady", not: "vacuum-short-of-cylinders"},
		{name: "drops at a beat, most low", test: sample.Dry("inline-6", []float64{150, 101, 102, 101, 100, 149}, vacuum(needle("drops regularly"), idling(17))), fires: "vacuum-drops-regularly", not: "beat-agrees"},
		{name: "drops at a beat, two low beside each other", test: sample.Dry("inline-6", []float64{150, 150, 101, 100, 151, 149}, vacuum(needle("drops regularly"), idling(17))), fires: "beat-agrees 3,4", first: "head-gasket"},
		{name: "drops now and then", test: sample.Of("inline-4", vacuum(needle("drops now and then"), idling(18))), fires: "vacuum-drops-now-and-then"},
		{name: "drops now and then, and the repeats of one lie far apart", test: sample.Dry("inline-4", []float64{111, 110, 112, 111}, sample.Repeats("3", 70, 111), vacuum(needle("drops now and then"), idling(18))), fires: "repeats-and-needle", first: "sticking-valve"},
		{name: "floats", test: sample.Of("inline-4", vacuum(needle("floats"), idling(14))), fires: "vacuum-floats"},
		{name: "floats, and the trims are lean", test: sample.Of("inline-4", vacuum(needle("floats"), idling(14)), sample.Test("trims", quantity.Percent, sample.At("trim long", "idle", 20), sample.At("trim long", "2500 rpm", 5))), fires: "vacuum-floats-by-mixture; trim-lean-at-idle-only", first: "air-leak"},
		{name: "floats where it should be", test: sample.Of("inline-4", vacuum(needle("floats"), idling(19))), not: "vacuum-floats"},
		{name: "quivers", test: sample.Of("inline-4", vacuum(needle("quivers"), idling(18))), fires: "vacuum-quivers", first: "guides-or-seals", soon: diag.CheckAgain},
		{name: "swings narrower and quicker", test: sample.Of("inline-4", vacuum(needle("drops regularly"), idling(17), sample.Ticked("with-speed", "swings quicker and smaller"))), fires: "vacuum-swings-quicker", first: "air-leak"},
		{name: "does not change with speed", test: sample.Of("inline-4", vacuum(steady, idling(19), sample.Ticked("with-speed", "no change"))), not: "vacuum-swings-quicker vacuum-swings-wider vacuum-quivers"},
		{name: "swings wider", test: sample.Of("inline-4", vacuum(needle("quivers"), idling(17), sample.Ticked("with-speed", "swings wider"))), fires: "vacuum-swings-wider", first: "valve-springs"},
		{name: "steadies", test: sample.Of("inline-4", vacuum(needle("quivers"), idling(17), sample.Ticked("with-speed", "steadies"))), fires: "vacuum-steadies"},
		{name: "falls when held", test: sample.Of("inline-4", vacuum(steady, idling(19), sample.At("held", "2500 rpm", 19), sample.At("held later", "2500 rpm", 11))), fires: "vacuum-falls-when-held", not: "vacuum-right", first: "restricted-exhaust"},
		{name: "holds", test: sample.Of("inline-4", vacuum(steady, idling(19), sample.At("held", "2500 rpm", 20), sample.At("held later", "2500 rpm", 20))), not: "vacuum-falls-when-held", fires: "vacuum-right"},
		{name: "two signs of a blocked exhaust", test: sample.Of("inline-4", weak, vacuum(steady, idling(19), sample.At("held", "2500 rpm", 19), sample.At("held later", "2500 rpm", 11)),
			sample.Test("back-pressure", quantity.PSI, sample.At("pressure", "2500 rpm", 6), sample.Permits("pressure", "2500 rpm", sample.NoLeast, 3))), fires: "blocked-exhaust-agrees", first: "restricted-exhaust"},
		{name: "two signs, the second over every rule", test: sample.Of("inline-4", weak, vacuum(steady, idling(19), sample.At("held", "2500 rpm", 19), sample.At("held later", "2500 rpm", 11)),
			sample.Test("back-pressure", quantity.PSI, sample.At("pressure", "2500 rpm", 6))), fires: "blocked-exhaust-agrees", first: "restricted-exhaust", sure: diag.Strong},
		{name: "low at idle alone, and the trims near zero", test: sample.Of("inline-4", vacuum(steady, idling(12.5), sample.At("held", "2500 rpm", 19)), adds(1, 2)), fires: "vacuum-low-and-steady", first: "egr-open", next: "egr-shut"},
		{name: "low at idle alone", test: sample.Of("inline-4", vacuum(steady, idling(12.5), sample.At("held", "2500 rpm", 19))), fires: "vacuum-low-and-steady", first: "air-leak"},
		{name: "falls when held, and the banks are opposed", test: sample.Of("V6", vacuum(steady, idling(19), sample.At("held", "2500 rpm", 19), sample.At("held later", "2500 rpm", 11)), sample.Test("trims", quantity.Percent, sample.At("trim long", "2500 rpm bank 1", -18), sample.At("trim long", "2500 rpm bank 2", 16))), fires: "bank-exhaust-blocked", not: "trim-rich", first: "restricted-exhaust", next: "exhaust-joint"},
		{name: "right at idle, and falls when held", test: sample.Of("inline-4", vacuum(steady, idling(19), sample.At("held", "2500 rpm", 19), sample.At("held later", "2500 rpm", 11))), fires: "vacuum-falls-when-held", next: "exhaust-joint"},
		{name: "does not recover", test: sample.Of("inline-4", vacuum(steady, idling(19), sample.At("snap shut", "", 19.5))), fires: "snap-does-not-recover"},
		{name: "recovers", test: sample.Of("inline-4", vacuum(steady, idling(19), sample.At("snap shut", "", 24))), not: "snap-does-not-recover"},
		{name: "little on the starter", test: sample.Of("inline-4", vacuum(sample.At("cranking", "", 1)), sample.Method(func(c *diag.Conditions) { v := 220.0; c.CrankingRPM = &v })), fires: "cranking-vacuum-low"},
		{name: "little on the starter, turning slowly", test: sample.Of("inline-4", vacuum(sample.At("cranking", "", 1)), sample.Method(func(c *diag.Conditions) { v := 90.0; c.CrankingRPM = &v })), not: "cranking-vacuum-low"},
		{name: "low by a late spark", test: sample.Dry("inline-4", even, weak, vacuum(steady, idling(14)), spark(1)), fires: "late-ignition-agrees", first: "late-ignition", sure: diag.Strong, soon: diag.ActSoon},
		{name: "low by a slack chain", test: sample.Dry("inline-4", even, weak, vacuum(steady, idling(14)), sample.Test("timing", quantity.Degree, sample.At("chain-slack", "", 13), sample.Permits("chain-slack", "", 0, 6))), fires: "late-cam-agrees", first: "worn-chain", soon: diag.ActSoon},
		{name: "low, the spark right", test: sample.Dry("inline-4", even, weak, vacuum(steady, idling(14)), spark(6)), fires: "vacuum-low-sealing-sound", not: "late-ignition-agrees"},
		{name: "low on an engine without injection, the spark right", test: sample.Dry("inline-4", even, weak, sample.Fuel("carburettor", diag.Circuit{Idle: sample.PSI(4.5), Limits: []diag.FuelLimit{sample.Range("idle", 4, 6)}}), vacuum(steady, idling(14)), spark(6)), fires: "low-vacuum-on-the-mark; vacuum-low-sealing-sound", first: "timing-mark", next: "true-tdc"},
		{name: "right, and the spark right", test: sample.Dry("inline-4", even, weak, vacuum(steady, idling(19)), spark(6)), not: "low-vacuum-on-the-mark timing-mark-off"},
		{name: "a mark that has slipped", test: sample.Dry("inline-4", even, weak, spark(6), sample.Found("damper ring has slipped on its rubber")), fires: "timing-mark-off", first: "timing-mark", soon: diag.ActSoon},
		{name: "low all over and a late spark", test: sample.Dry("inline-4", lowAll, sample.Minimum(128), vacuum(steady, idling(14)), spark(1)), fires: "timing-late", not: "late-ignition-agrees"},
		{name: "low by air that gets in", test: sample.Dry("inline-4", even, vacuum(steady, idling(14)), adds(18, 3)), fires: "air-leak-agrees", first: "air-leak", sure: diag.Strong, soon: diag.ActSoon, next: "smoke-test"},
		{name: "low, and the trims add at speed", test: sample.Dry("inline-4", even, vacuum(steady, idling(14)), adds(8, 16)), fires: "trim-lean-at-speed", not: "air-leak-agrees"},
		{name: "the trims made are not asked for again", test: sample.Dry("inline-4", even, sample.Complains("lean running"), adds(18, 3)), fires: "trim-lean-at-idle-only", next: "smoke-test"},
		{name: "right, and nothing was allowed", test: sample.Of("inline-4", vacuum(steady, idling(19)), func(t *diag.Test) { t.Untested = []diag.Untested{{Test: "compression", State: diag.Declined}} }), fires: "tests-declined", first: "-"},
		{name: "low, the cylinders even", test: sample.Dry("inline-4", even, vacuum(steady, idling(14))), fires: "vacuum-low-sealing-sound", not: "late-timing-agrees"},
		{name: "late timing", test: sample.Dry("inline-4", lowAll, sample.Minimum(128), tight, vacuum(steady, idling(14))), fires: "late-timing-agrees", first: "cam-timing", sure: diag.Strong},
		{name: "low all over and leaking is wear", test: sample.Dry("inline-4", lowAll, sample.Minimum(128), sample.Leak("1", 40, "crankcase"), sample.Leak("2", 42, "crankcase"), sample.Leak("3", 41, "crankcase"), sample.Leak("4", 40, "crankcase"), vacuum(steady, idling(14))), not: "late-timing-agrees"},
	})
}

// adds is a computer that adds so much at idle and at speed.
func adds(idle, fast float64) sample.Change {
	return sample.Test("trims", quantity.Percent, sample.At("trim long", "idle bank 1", idle), sample.At("trim long", "2500 rpm bank 1", fast))
}

// TestCooling: a system pumped up, its cap and thermostat. TM 9-2320-series
// manuals test caps and thermostats so; how far each may be off is common
// practice, no source.
func TestCooling(t *testing.T) {
	pumped := func(seen string, held float64) sample.Change {
		return sample.Test("cooling", quantity.PSI, sample.At("pressure-test pumped-to", "", 15), sample.At("pressure-test hold", "5 min", held), sample.Ticked("pressure-test seen", seen))
	}
	air := sample.Spec(func(s *diag.Spec) { s.Cooling = "air" })
	mark := func(name string, v float64) func(*diag.Measured) {
		return sample.InUnit(name, "", v, quantity.Fahrenheit)
	}
	runSealing(t, []sealingCase{
		{name: "falls inside", test: sample.Of("inline-4", pumped("dry", 9)), fires: "coolant-pressure-falls", first: "head-gasket", soon: diag.ActSoon},
		{name: "falls by a pound", test: sample.Of("inline-4", pumped("dry", 14.2)), fires: "cooling-system-holds", not: "coolant-pressure-falls"},
		{name: "wet outside", test: sample.Of("inline-4", pumped("outside at the pump", 9)), fires: "coolant-outside", not: "coolant-pressure-falls", first: "coolant-leak-outside"},
		{name: "drips, and no word of outside", test: sample.Of("inline-4", pumped("drips from the water pump", 9)), fires: "coolant-outside", not: "coolant-pressure-falls", first: "coolant-leak-outside"},
		{name: "at the joint of the head", test: sample.Of("inline-4", pumped("weeps at the head gasket below cylinder 3", 9)), fires: "coolant-outside", not: "coolant-wet-in-cylinder", first: "head-gasket"},
		{name: "at the intake manifold", test: sample.Of("flat-4", pumped("outside at the intake manifold", 9)), fires: "coolant-outside", not: "intake-gasket-agrees", first: "intake-coolant-gasket"},
		{name: "at the intake manifold, and air", test: sample.Of("V6", pumped("outside at the intake manifold", 9), adds(18, 3)), fires: "intake-gasket-agrees", first: "intake-coolant-gasket", sure: diag.Strong, soon: diag.ActSoon},
		{name: "at a hose, and air", test: sample.Of("V6", pumped("outside at a hose", 9), adds(18, 3)), fires: "coolant-outside; trim-lean-at-idle-only", not: "intake-gasket-agrees"},
		{name: "wet in two, in other words", test: sample.Of("inline-4", pumped("coolant in cylinders 2 and 3", 9)), fires: "coolant-wet-in-cylinder 2,3", soon: diag.DoNotRun},
		{name: "wet in a cylinder", test: sample.Of("inline-4", pumped("wet in 3", 9)), fires: "coolant-wet-in-cylinder 3", first: "head-gasket", soon: diag.DoNotRun},
		{name: "falls, and gas in the coolant", test: sample.Dry("inline-4", []float64{170, 171, 169, 170}, gasIn("positive"), pumped("dry", 11)), fires: "coolant-leak-agrees; combustion-gas-in-coolant; coolant-pressure-falls", first: "head-gasket", sure: diag.Strong, soon: diag.DoNotRun},
		{name: "gas in the coolant, and it holds", test: sample.Dry("inline-4", []float64{170, 171, 169, 170}, gasIn("positive"), pumped("dry", 15)), fires: "combustion-gas-in-coolant", not: "coolant-leak-agrees", soon: diag.ActSoon},
		{name: "falls, wet at a hose, and gas in the coolant", test: sample.Dry("inline-4", []float64{170, 171, 169, 170}, gasIn("positive"), pumped("outside at a hose", 11)), fires: "combustion-gas-in-coolant", not: "coolant-leak-agrees"},
		{name: "cooled by air", test: sample.Of("inline-4", air, pumped("wet in 3", 9)), not: "coolant-wet-in-cylinder"},
		{name: "bubbles", test: sample.Of("inline-4", sample.Test("cooling", quantity.PSI, sample.Ticked("coolant look", "gas bubbles"))), fires: "gas-in-coolant", soon: diag.CheckAgain},
		{name: "oil", test: sample.Of("inline-4", sample.Test("cooling", quantity.PSI, sample.Ticked("coolant look", "oil"))), fires: "oil-in-coolant", first: "oil-cooler"},
		{name: "weak cap", test: sample.Of("inline-4", sample.Test("cooling", quantity.PSI, sample.At("cap rated", "", 15), sample.At("cap opens", "", 11))), fires: "cap-weak", first: "pressure-cap"},
		{name: "cap at its mark", test: sample.Of("inline-4", sample.Test("cooling", quantity.PSI, sample.At("cap rated", "", 15), sample.At("cap opens", "", 14.5))), not: "cap-weak"},
		{name: "thermostat early, and never warm", test: sample.Of("inline-4", sample.Test("cooling", quantity.PSI, mark("thermostat rated", 180), mark("thermostat starts", 150), sample.Ticked("warm then", "never warm"))), fires: "thermostat-agrees", first: "thermostat"},
		{name: "thermostat late, and never warm", test: sample.Of("inline-4", sample.Test("cooling", quantity.PSI, mark("thermostat rated", 180), mark("thermostat starts", 192), sample.Ticked("warm then", "never warm"))), fires: "thermostat-off; never-warm", not: "thermostat-agrees"},
		{name: "thermostat late", test: sample.Of("inline-4", sample.Test("cooling", quantity.PSI, mark("thermostat rated", 180), mark("thermostat starts", 192))), fires: "thermostat-off", first: "thermostat"},
		{name: "climbs once warm", test: sample.Of("inline-4", sample.Test("cooling", quantity.PSI, sample.Ticked("warm then", "climbs"))), fires: "warm-climbs", first: "thermostat", soon: diag.ActSoon},
		{name: "climbs, cooled by air", test: sample.Of("inline-4", sample.Spec(func(s *diag.Spec) { s.Cooling = "air" }), sample.Test("cooling", quantity.PSI, sample.Ticked("warm then", "climbs"))), not: "warm-climbs"},
		{name: "never warm", test: sample.Of("inline-4", sample.Test("cooling", quantity.PSI, sample.Ticked("warm then", "never warm"))), fires: "never-warm", first: "thermostat", soon: diag.CheckAgain},
		{name: "warm and steady", test: sample.Of("inline-4", sample.Test("cooling", quantity.PSI, sample.Ticked("warm then", "steady"), sample.Ticked("coolant look", "clean"))), not: "never-warm warm-climbs coolant-rusty"},
		{name: "rust", test: sample.Of("inline-4", sample.Test("cooling", quantity.PSI, sample.Ticked("coolant look", "rust"))), fires: "coolant-rusty", soon: diag.NoAction},
		{name: "rust in an engine that gets too hot", test: sample.Of("inline-4", sample.Complains("overheating"), sample.Test("cooling", quantity.PSI, sample.Ticked("coolant look", "rust"))), fires: "coolant-rusty", soon: diag.ActSoon},
		{name: "thermostat at its mark", test: sample.Of("inline-4", sample.Test("cooling", quantity.PSI, mark("thermostat rated", 180), mark("thermostat starts", 181), mark("thermostat open", 200))), not: "thermostat-off"},
	})
}

// TestSystems: crankcase, exhaust, timing and starter. Without a limit of the job
// hardly anything is said of them: published limits contradict each other.
func TestSystems(t *testing.T) {
	crankcase := func(parts ...func(*diag.Measured)) sample.Change {
		return sample.Test("crankcase", quantity.InH2O, parts...)
	}
	timing := func(parts ...func(*diag.Measured)) sample.Change {
		return sample.Test("timing", quantity.Degree, parts...)
	}
	connected := sample.Ticked("ventilation", "connected")
	exhaust := func(psi float64) sample.Change {
		return sample.Test("back-pressure", quantity.PSI, sample.At("pressure", "2500 rpm", psi), sample.Permits("pressure", "2500 rpm", sample.NoLeast, 3))
	}
	draw := func(a float64) sample.Change {
		return sample.Test("starting", quantity.Ampere, sample.At("draw", "", a), sample.Permits("draw", "", 150, 220))
	}
	peaks := func(values ...float64) sample.Change {
		return sample.Test("starting", quantity.None, sample.Each("peaks", values...))
	}
	pressing := crankcase(connected, sample.At("readings", "2500 rpm", 8), sample.Permits("readings", "2500 rpm", sample.NoLeast, 4))
	runSealing(t, []sealingCase{
		{name: "two under the minimum, and over its limit", test: sample.Dry("inline-4", []float64{118, 122, 146, 140}, sample.Minimum(130), pressing), fires: "blow-by-and-low", first: "rings"},
		{name: "two under the minimum as it stood, and over its limit", test: sample.Dry("inline-4", []float64{118, 122, 146, 140}, sample.Minimum(130), sample.Stood(18), pressing), fires: "blow-by-and-low", first: "stuck-rings"},
		{name: "two under the minimum past a valve, and over its limit", test: sample.Dry("inline-4", []float64{118, 122, 146, 140}, sample.Minimum(130), sample.Leak("1", 35, "exhaust"), pressing), fires: "crankcase-pressure-high", not: "blow-by-and-low"},
		{name: "none under the minimum, and over its limit", test: sample.Dry("inline-4", []float64{148, 152, 146, 150}, sample.Minimum(130), pressing), fires: "crankcase-pressure-high", not: "blow-by-and-low"},
		{name: "one low past its rings, and over its limit", test: sample.Dry("inline-4", []float64{150, 151, 95, 150}, sample.Leak("3", 45, "crankcase"), crankcase(sample.Ticked("ventilation", "connected"), sample.At("readings", "2500 rpm", 8), sample.Permits("readings", "2500 rpm", sample.NoLeast, 4))),
			fires: "blow-by-of-one 3", first: "rings"},
		{name: "one low past its valve, and over its limit", test: sample.Dry("inline-4", []float64{150, 151, 95, 150}, sample.Leak("3", 45, "exhaust"), crankcase(sample.Ticked("ventilation", "connected"), sample.At("readings", "2500 rpm", 8), sample.Permits("readings", "2500 rpm", sample.NoLeast, 4))),
			fires: "crankcase-pressure-high", not: "blow-by-of-one"},
		{name: "low, up with oil, and over its limit", test: sample.Dry("inline-4", []float64{90, 91, 89, 90}, sample.Minimum(130), sample.Wet(map[string]float64{"1": 128, "2": 130, "3": 126, "4": 129}), crankcase(sample.Ticked("ventilation", "off"), sample.At("readings", "2500 rpm", 8), sample.Permits("readings", "2500 rpm", sample.NoLeast, 4))),
			fires: "low-everywhere-and-blows-by", first: "wear", sure: diag.Strong, soon: diag.ActSoon},
		{name: "a diesel low throughout that burns oil, and over its limit", test: sample.Dry("inline-4", []float64{290, 300, 285, 295}, sample.Diesel, sample.Minimum(350), sample.Complains("oil use"), crankcase(sample.Ticked("ventilation", "connected"), sample.At("readings", "2500 rpm", 8), sample.Permits("readings", "2500 rpm", sample.NoLeast, 4))),
			fires: "low-everywhere-and-blows-by", first: "wear", soon: diag.ActSoon},
		{name: "a diesel low throughout that uses no oil, and over its limit", test: sample.Dry("inline-4", []float64{290, 300, 285, 295}, sample.Diesel, sample.Minimum(350), crankcase(sample.Ticked("ventilation", "connected"), sample.At("readings", "2500 rpm", 8), sample.Permits("readings", "2500 rpm", sample.NoLeast, 4))),
			fires: "crankcase-pressure-high", not: "low-everywhere-and-blows-by"},
		{name: "low, no better with oil, and over its limit", test: sample.Dry("inline-4", []float64{90, 91, 89, 90}, sample.Minimum(130), sample.Wet(map[string]float64{"1": 92, "2": 93, "3": 91, "4": 92}), crankcase(sample.Ticked("ventilation", "off"), sample.At("readings", "2500 rpm", 8), sample.Permits("readings", "2500 rpm", sample.NoLeast, 4))),
			fires: "crankcase-pressure-high", not: "low-everywhere-and-blows-by"},
		{name: "over its limit, the ventilation off", test: sample.Of("inline-4", crankcase(sample.Ticked("ventilation", "off"), sample.At("readings", "2500 rpm", 8), sample.Permits("readings", "2500 rpm", sample.NoLeast, 4))), fires: "crankcase-pressure-high", first: "rings"},
		{name: "over its limit", test: sample.Of("inline-4", crankcase(connected, sample.At("readings", "2500 rpm", 8), sample.Permits("readings", "2500 rpm", sample.NoLeast, 4))), fires: "crankcase-pressure-high", first: "breather", soon: diag.ActSoon},
		{name: "pressure where vacuum belongs", test: sample.Of("inline-4", crankcase(connected, sample.At("readings", "2500 rpm", 3.5))), fires: "crankcase-pressure-where-vacuum-belongs", soon: diag.CheckAgain},
		{name: "a diesel's is not judged so", test: sample.Of("inline-4", sample.Diesel, crankcase(connected, sample.At("readings", "2500 rpm", 3.5))), not: "crankcase-pressure-where-vacuum-belongs"},
		{name: "ventilation not said", test: sample.Of("inline-4", crankcase(sample.At("readings", "2500 rpm", 3.5))), fires: "crankcase-state-unknown", not: "crankcase-pressure-where-vacuum-belongs"},
		{name: "drawn empty", test: sample.Of("inline-4", crankcase(connected, sample.At("readings", "idle", -9))), fires: "crankcase-vacuum-strong"},
		{name: "a little vacuum", test: sample.Of("inline-4", crankcase(connected, sample.At("readings", "idle", -1))), not: "crankcase-vacuum-strong crankcase-pressure-where-vacuum-belongs"},
		{name: "over every rule, no limit", test: sample.Of("inline-4", sample.Test("back-pressure", quantity.PSI, sample.At("pressure", "2500 rpm", 5.2))), fires: "back-pressure-over-rules", first: "restricted-exhaust", soon: diag.CheckAgain},
		{name: "over one rule and not the other", test: sample.Of("inline-4", sample.Test("back-pressure", quantity.PSI, sample.At("pressure", "2500 rpm", 2.5))), not: "back-pressure-over-rules exhaust-blocked"},
		{name: "blocked exhaust", test: sample.Of("inline-4", exhaust(6)), fires: "exhaust-blocked", first: "restricted-exhaust", soon: diag.ActSoon},
		{name: "free exhaust", test: sample.Of("inline-4", exhaust(1)), fires: "back-pressure-right", not: "exhaust-blocked"},
		{name: "late", test: sample.Of("inline-4", timing(sample.At("base", "700 rpm", 1), sample.Permits("base", "", 5, 7))), fires: "timing-late", first: "late-ignition"},
		{name: "early", test: sample.Of("inline-4", timing(sample.At("base", "700 rpm", 12), sample.Permits("base", "", 5, 7))), fires: "timing-early", first: "early-ignition"},
		{name: "much advance", test: sample.Of("inline-4", timing(sample.At("advance", "2500 rpm", 38), sample.Permits("advance", "2500 rpm", 26, 30))), fires: "advance-too-far", not: "advance-missing", first: "early-ignition"},
		{name: "advance within", test: sample.Of("inline-4", timing(sample.At("advance", "2500 rpm", 28), sample.Permits("advance", "2500 rpm", 26, 30))), not: "advance-too-far"},
		{name: "no advance", test: sample.Of("inline-4", timing(sample.At("advance", "2500 rpm", 12), sample.Permits("advance", "2500 rpm", 26, 30))), fires: "advance-missing", first: "advance"},
		{name: "dwell", test: sample.Of("inline-4", timing(sample.At("dwell", "", 40), sample.Permits("dwell", "", 26, 32))), fires: "dwell-off", first: "points"},
		{name: "a slack chain", test: sample.Of("inline-4", timing(sample.At("chain-slack", "", 13), sample.Permits("chain-slack", "", 0, 6))), fires: "cam-late", first: "worn-chain"},
		{name: "cam late", test: sample.Of("inline-4", timing(sample.At("cam", "", -8), sample.Permits("cam", "", -3, 3))), fires: "cam-late", first: "cam-timing"},
		{name: "cam late, and all low alike", test: sample.Dry("inline-4", []float64{92, 95, 90, 93}, sample.Minimum(150), timing(sample.At("cam", "", -14), sample.Permits("cam", "", -3, 3))), fires: "late-cam-and-low", first: "cam-timing", soon: diag.ActSoon},
		{name: "cam early, and all low alike", test: sample.Dry("inline-4", []float64{92, 95, 90, 93}, sample.Minimum(150), timing(sample.At("cam", "", 14), sample.Permits("cam", "", -3, 3))), fires: "all-low", not: "late-cam-and-low"},
		{name: "set right", test: sample.Of("inline-4", timing(sample.At("base", "700 rpm", 6), sample.Permits("base", "", 5, 7))), not: "timing-late timing-early"},
		{name: "the battery falls under its limit", test: sample.Of("inline-4", sample.Test("starting", quantity.Volt, sample.At("battery cranking", "", 8.4), sample.Permits("battery cranking", "", 9.6, sample.NoMost))), fires: "starter-turns-slowly", first: "weak-cranking", soon: diag.ActSoon},
		{name: "the battery keeps its limit", test: sample.Of("inline-4", sample.Test("starting", quantity.Volt, sample.At("battery cranking", "", 10.4), sample.Permits("battery cranking", "", 9.6, sample.NoMost))), not: "starter-turns-slowly"},
		{name: "drawn empty, and air at idle", test: sample.Of("inline-4", adds(22, 3), crankcase(connected, sample.At("readings", "idle", -12))), fires: "crankcase-draws-air", first: "vent-valve-open", soon: diag.ActSoon, next: "vent-hose-pinch"},
		{name: "drawn empty, and nothing else", test: sample.Of("inline-4", crankcase(connected, sample.At("readings", "idle", -12))), fires: "crankcase-vacuum-strong", not: "crankcase-draws-air", first: "vent-valve-open"},
		{name: "air at idle, and a crankcase as it should be", test: sample.Of("inline-4", adds(22, 3), crankcase(connected, sample.At("readings", "idle", -1))), not: "crankcase-draws-air"},
		{name: "draws much", test: sample.Of("inline-4", draw(300)), fires: "starter-draws-much"},
		{name: "draws little", test: sample.Of("inline-4", draw(90)), fires: "starter-draws-little"},
		{name: "one peak low", test: sample.Of("inline-4", peaks(180, 178, 131, 181)), fires: "relative-low 3", soon: diag.CheckAgain},
		{name: "one peak high", test: sample.Of("inline-4", peaks(180, 178, 260, 181)), fires: "relative-high 3", first: "coolant-or-fuel-in-bore", soon: diag.DoNotRun},
		{name: "one peak high, and its pressure with it", test: sample.Dry("inline-4", []float64{178, 176, 226, 179}, peaks(180, 178, 260, 181)), fires: "relative-high 3", soon: diag.CheckAgain},
		{name: "one peak high, its pressure with it and its plug wet", test: sample.Dry("inline-4", []float64{178, 176, 226, 179}, sample.Plug("coolant", "3"), peaks(180, 178, 260, 181)), fires: "relative-high 3", first: "coolant-or-fuel-in-bore", soon: diag.DoNotRun},
		{name: "one peak high, turned by hand since", test: sample.Of("inline-4", peaks(180, 178, 260, 181), sample.Done("turn-by-hand done: it turns freely")), fires: "relative-high 3", soon: diag.CheckAgain},
		{name: "the gauge says one is low, the starter does not", test: sample.Dry("inline-4", []float64{178, 110, 176, 179}, peaks(150, 149, 151, 150)), fires: "one-low 2", first: "adapter-leak", next: "second-gauge"},
		{name: "the gauge and a leakage tester say one is low, the starter does not", test: sample.Dry("inline-4", []float64{178, 110, 176, 179}, peaks(150, 149, 151, 150), sample.Leak("2", 45, "crankcase")), fires: "one-low 2", first: "rings"},
		{name: "gauge and starter agree on the low one", test: sample.Dry("inline-4", []float64{178, 110, 176, 179}, peaks(150, 110, 151, 150)), fires: "one-low 2; relative-low 2", first: "exhaust-valve"},
		{name: "all alike", test: sample.Of("inline-4", peaks(180, 178, 176, 181)), not: "relative-low relative-high even-above-minimum"},
	})
}
