package rule_test

import (
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/rule/sample"
)

// TestFound: what the technician found counts by words from a list, and not
// where it is denied or was put right: common practice, no source.
func TestFound(t *testing.T) {
	findings := func(list ...string) sample.Change {
		return sample.Known(func(h *diag.History) { h.Findings = list })
	}
	gasThen := func(now string) []sample.Change {
		return []sample.Change{gasIn(now), func(t *diag.Test) {
			before := *t
			before.CoolantGas = "positive"
			t.Before = &diag.Before{Done: "head gasket renewed", Test: &before}
		}}
	}
	low := []float64{150, 152, 95, 151}
	whiteAt := func(when ...string) sample.Change {
		return func(t *diag.Test) { t.History.Smoke = diag.Smoke{Colour: "white", When: when} }
	}
	blueAt := func(when ...string) sample.Change {
		return sample.Known(func(h *diag.History) { h.Smoke.Colour, h.Smoke.When = "blue", when })
	}
	runSealing(t, []sealingCase{
		{name: "coolant in the oil", test: sample.Dry("inline-4", evenFour, findings("coolant in the oil")), fires: "coolant-in-oil", first: "head-gasket", soon: diag.DoNotRun, next: "cooling-pressure-test"},
		{name: "coolant in the oil of a V8, no gas in the coolant", test: sample.Dry("V8", []float64{150, 148, 151, 149, 150, 152, 149, 151}, findings("coolant in the oil"), gasIn("negative")), fires: "coolant-in-oil", first: "intake-coolant-gasket", soon: diag.DoNotRun, next: "cooling-pressure-test"},
		{name: "coolant in the oil of an engine in line, no gas in the coolant", test: sample.Dry("inline-4", evenFour, findings("coolant in the oil"), gasIn("negative")), fires: "coolant-in-oil", first: "head-gasket", soon: diag.DoNotRun},
		{name: "water that drips from a liner", test: sample.Dry("inline-4", evenFour, findings("water drips from the foot of liner 3")), fires: "coolant-below 3", not: "sealing-sound-look-elsewhere", first: "liner-seal", soon: diag.DoNotRun},
		{name: "coolant that runs into the oil pan, no liners spoken of", test: sample.Dry("inline-4", evenFour, findings("coolant drips into the oil pan")), fires: "coolant-below", first: "head-gasket", soon: diag.DoNotRun},
		{name: "a liner that is dry", test: sample.Dry("inline-4", evenFour, findings("no water at the liners")), not: "coolant-below"},
		{name: "no coolant in the oil", test: sample.Dry("inline-4", evenFour, findings("no coolant in the oil")), fires: "even-no-minimum", not: "coolant-in-oil"},
		{name: "coolant lost and rust in the port", test: sample.Dry("inline-4", evenFour, sample.Complains("coolant loss"), findings("rust in the exhaust port")), fires: "coolant-signs-agree", not: "sealing-sound-look-elsewhere", first: "head-gasket", soon: diag.ActSoon, next: "coolant-gas-test"},
		{name: "coolant lost and nothing else", test: sample.Dry("inline-4", evenFour, sample.Complains("coolant loss")), fires: "sealing-sound-look-elsewhere", not: "coolant-signs-agree"},
		{name: "coolant outside at the joint of the head", test: sample.Dry("inline-4", evenFour, sample.Complains("coolant loss"), findings("coolant weeps at the head joint")), fires: "coolant-at-head-joint", not: "sealing-sound-look-elsewhere", first: "head-gasket", soon: diag.ActSoon, next: "joint-dried-and-pumped"},
		{name: "coolant outside at the joint of the head, and gas in it", test: sample.Dry("inline-4", evenFour, gasIn("positive"), findings("coolant weeps at the head joint")), fires: "combustion-gas-in-coolant", not: "coolant-at-head-joint"},
		{name: "coolant signs of an engine cooled by air", test: sample.Dry("flat-4", evenFour, airCooled, findings("bubbles in the coolant", "rust in the exhaust port")), fires: "even-no-minimum", not: "coolant-signs-agree"},
		{name: "an engine that does not turn", test: sample.Of("inline-4", findings("engine does not turn, starter only clicks"), sample.Complains("no start")), fires: "engine-does-not-turn", first: "tight-engine", soon: diag.DoNotRun, next: "turn-by-hand"},
		{name: "an engine that no bar turns", test: sample.Of("inline-4", findings("does not turn, even by bar"), sample.Complains("noise")), fires: "engine-does-not-turn", first: "tight-engine", soon: diag.DoNotRun},
		{name: "an engine that cannot be turned", test: sample.Of("inline-4", findings("cannot be turned by hand"), sample.Complains("no start")), fires: "engine-does-not-turn", soon: diag.DoNotRun},
		{name: "an engine that is stiff with its plugs out", test: sample.Of("inline-4", findings("very stiff to turn by hand, plugs out"), sample.Complains("no start")), fires: "engine-does-not-turn", first: "tight-engine", soon: diag.DoNotRun},
		{name: "one that was stiff", test: sample.Of("inline-4", findings("stiff to turn by hand at first, turns freely now"), sample.Complains("no start")), not: "engine-does-not-turn"},
		{name: "a pump that is stiff", test: sample.Of("inline-4", findings("water pump stiff to turn by hand"), sample.Complains("no start")), not: "engine-does-not-turn"},
		{name: "an engine that its starter hardly turns, and a wet plug", test: sample.Of("inline-4", dragged(60, 12.6), sample.Plug("fuel-wet", "2"), sample.Complains("no start")), fires: "liquid-may-hold", first: "coolant-or-fuel-in-bore", soon: diag.DoNotRun, next: "turn-by-hand"},
		{name: "the same with a battery that was flat", test: sample.Of("inline-4", dragged(60, 11.9), sample.Plug("fuel-wet", "2"), sample.Complains("no start")), not: "liquid-may-hold", fires: "cranked-too-slowly", first: "weak-cranking"},
		{name: "the same that turns fast", test: sample.Of("inline-4", dragged(160, 12.6), sample.Plug("fuel-wet", "2"), sample.Complains("no start")), not: "liquid-may-hold"},
		{name: "fuel out of a cylinder that is not named", test: sample.Of("inline-4", findings("petrol ran out of one cylinder"), sample.Complains("no start")), fires: "liquid-may-hold", soon: diag.DoNotRun, next: "turn-by-hand"},
		{name: "mist out of the holes", test: sample.Of("inline-4", findings("fuel mist came out of the plug holes as it was cranked"), sample.Complains("no start")), not: "liquid-may-hold"},
		{name: "an engine that turns freely", test: sample.Dry("inline-4", evenFour, findings("engine turns freely by hand")), not: "engine-does-not-turn"},
		{name: "metal in the oil", test: sample.Dry("inline-4", evenFour, findings("metal in the oil filter")), fires: "metal-in-oil", first: "bottom-end", soon: diag.DoNotRun},
		{name: "belt told to have snapped", test: sample.Of("inline-4", sample.Plug("normal", "1", "2", "3", "4"), sample.Complains("no start"), func(t *diag.Test) { t.History.Onset = "the cambelt snapped" }), fires: "valve-drive-gone", not: "complaint-not-explained", first: "timing-drive", soon: diag.DoNotRun, next: "turn-engine-check-cam"},
		{name: "a neighbour to the low ones, and steam", test: sample.Dry("inline-4", []float64{150, 92, 95, 151}, sample.Complains("coolant loss"), findings("steam from the exhaust")), fires: "neighbours-low", not: "coolant-signs-agree", first: "head-gasket", next: "coolant-gas-test"},
		{name: "gas before the work and none after", test: sample.Dry("inline-4", evenFour, gasThen("negative")...), fires: "gas-gone-after-repair", not: "gas-still-after-repair combustion-gas-in-coolant", soon: diag.NoAction},
		{name: "gas before the work and after it", test: sample.Dry("inline-4", evenFour, gasThen("positive")...), fires: "gas-still-after-repair", not: "gas-gone-after-repair", first: "warped-or-cracked-head", soon: diag.ActSoon},
		{name: "gas before the work, not tested since", test: sample.Dry("inline-4", evenFour, gasThen("")...), fires: "even-no-minimum", not: "gas-still-after-repair gas-gone-after-repair"},
		{name: "a broken rocker on the low one", test: sample.Dry("inline-4", low, findings("cylinder 3 exhaust rocker broken")), fires: "seen-valve-gear 3", first: "valve-motion"},
		{name: "a valve stuck", test: sample.Dry("inline-4", low, findings("cylinder 3: the exhaust valve is stuck open")), fires: "seen-valve-gear 3", first: "stuck-valve"},
		{name: "the turbo has play", test: sample.Dry("inline-4", evenFour, findings("play in the turbo shaft")), fires: "seen-turbo-worn", first: "turbo-seal", soon: diag.ActSoon},
		{name: "oil where the compressor blows out", test: sample.Dry("inline-4", evenFour, sample.Complains("oil use"), findings("oil in the compressor outlet, its shaft is slack")), fires: "seen-turbo-worn", first: "turbo-seal"},
		{name: "oil in the compressor of the air conditioning", test: sample.Dry("inline-4", evenFour, findings("air conditioning compressor wet with its oil")), not: "seen-turbo-worn"},
		{name: "a turbo diesel blue on the overrun", test: sample.Dry("inline-4", []float64{400, 402, 399, 401}, sample.Diesel, sample.Spec(func(s *diag.Spec) { s.Charging = "turbo" }), blueAt("overrun")), fires: "blue-from-above", first: "turbo-seal"},
		{name: "a turbo diesel blue at the start", test: sample.Dry("inline-4", []float64{400, 402, 399, 401}, sample.Diesel, sample.Spec(func(s *diag.Spec) { s.Charging = "turbo" }), blueAt("start")), fires: "blue-from-above", first: "guides-or-seals"},
		{name: "the turbo has none", test: sample.Dry("inline-4", evenFour, findings("no play in the turbo, trace of oil in the boost hose")), fires: "even-no-minimum", not: "seen-turbo-worn"},
		{name: "rust on the seat of the low one", test: sample.Dry("inline-4", low, findings("cylinder 3: rust on the exhaust seat")), fires: "seen-rust 3", first: "sticking-valve", soon: diag.ActSoon},
		{name: "rust on the wall of a sound one", test: sample.Dry("inline-4", evenFour, findings("cylinder 3: light rust on the wall")), fires: "seen-rust 3", first: "stuck-rings", soon: diag.CheckAgain},
		{name: "no rust", test: sample.Dry("inline-4", low, findings("cylinder 3: no rust on valves or wall")), fires: "one-low", not: "seen-rust"},
		{name: "a flat engine puffs at the start", test: sample.Dry("flat-4", evenFour, blueAt("start")), fires: "puff-at-start", soon: diag.NoAction},
		{name: "a flat engine smokes at the start and as it slows", test: sample.Dry("flat-4", evenFour, blueAt("start", "overrun")), fires: "even-no-minimum", not: "puff-at-start"},
		{name: "steam at the start", test: sample.Dry("inline-4", evenFour, whiteAt("start")), fires: "steam-at-start", not: "complaint-not-explained", soon: diag.NoAction},
		{name: "white smoke that stays", test: sample.Dry("inline-4", evenFour, whiteAt("start", "load")), fires: "complaint-not-explained", not: "steam-at-start", soon: diag.CheckAgain, next: "coolant-gas-test"},
		{name: "a diesel white at the start", test: sample.Dry("inline-4", []float64{400, 402, 399, 401}, sample.Diesel, whiteAt("start")), fires: "complaint-not-explained", not: "steam-at-start", soon: diag.CheckAgain, next: "glow-plug-test"},
		{name: "an upright engine puffs at the start", test: sample.Dry("inline-4", evenFour, blueAt("start")), fires: "even-no-minimum", not: "puff-at-start"},
		{name: "the oil smells of fuel", test: sample.Dry("inline-4", evenFour, findings("oil smells of petrol")), fires: "fuel-in-oil-found", first: "fuel-in-oil", soon: diag.ActSoon},
		{name: "so much fuel that the oil is over full", test: sample.Dry("inline-4", evenFour, findings("oil level two fingers over full and smells of petrol")), fires: "fuel-in-oil-found", first: "fuel-in-oil", soon: diag.DoNotRun},
		{name: "no fuel in the oil", test: sample.Dry("inline-4", evenFour, findings("no fuel in the oil, oil does not smell of petrol")), fires: "even-no-minimum", not: "fuel-in-oil-found"},
		{name: "a crank seal leaks", test: sample.Dry("inline-2", []float64{120, 121}, sample.TwoStroke, findings("left crank seal leaks")), fires: "seen-crankcase-leaks", first: "crankcase-seal", soon: diag.DoNotRun, next: "crankcase-hold"},
		{name: "a crank seal of a four-stroke leaks", test: sample.Dry("inline-4", evenFour, findings("rear crank seal leaks oil")), fires: "even-no-minimum", not: "seen-crankcase-leaks"},
		{name: "a split hose on an engine that misses", test: sample.Dry("inline-4", evenFour, sample.Complains("misfire"), findings("vacuum hose behind the manifold is split")), fires: "fault-found", not: "sealing-sound-look-elsewhere", first: "air-leak", soon: diag.CheckAgain, next: "mend-found"},
		{name: "coked intake valves", test: sample.Dry("inline-4", evenFour, sample.Complains("misfire"), findings("thick carbon on the backs of the intake valves")), fires: "fault-found", first: "inlet-deposits", next: "mend-found"},
		{name: "a hose that was split and is new", test: sample.Dry("inline-4", evenFour, sample.Complains("misfire"), findings("split vacuum hose replaced")), fires: "sealing-sound-look-elsewhere", not: "fault-found"},
		{name: "no hose split", test: sample.Dry("inline-4", evenFour, sample.Complains("misfire"), findings("no vacuum hose split or off")), fires: "sealing-sound-look-elsewhere", not: "fault-found"},
		{name: "a split hose, nothing complained of", test: sample.Dry("inline-4", evenFour, findings("vacuum hose split")), fires: "fault-found", first: "air-leak", soon: diag.CheckAgain, next: "mend-found"},
		{name: "what a fault only does, nothing complained of", test: sample.Dry("inline-4", evenFour, findings("a hiss as the tank cap is opened")), fires: "even-no-minimum", not: "fault-found", soon: diag.NoAction},
		{name: "a tank that draws, and no power", test: sample.Dry("inline-4", evenFour, sample.Complains("low power"), findings("a hiss as the tank cap is opened")), fires: "fault-found", first: "supply-restricted"},
		{name: "a choke that stays on", test: sample.Dry("inline-4", evenFour, sample.Fuel(carb, diag.Circuit{Idle: psi(4)}), findings("choke flap does not open when it is warm")), fires: "fault-found", first: "carburettor"},
		{name: "a choke that opens", test: sample.Dry("inline-4", evenFour, findings("choke not stuck, opens when warm", "throttle plate clean, no deposits", "fan comes on as it should", "no bubbles in the fuel line")), fires: "even-no-minimum", not: "fault-found", soon: diag.NoAction},
		{name: "a miss that goes with its coil", test: sample.Dry("inline-4", evenFour, sample.Complains("misfire"), findings("no spark on 3, its coil moved to another cylinder and the miss went with it")), fires: "fault-found", first: "coil-or-lead"},
		{name: "a miss that goes with an injector", test: sample.Dry("inline-4", evenFour, sample.Complains("misfire"), findings("injector moved to another cylinder and the miss went with it")), not: "fault-found"},
		{name: "a gummed throttle", test: sample.Dry("inline-4", evenFour, findings("heavy black deposits round the throttle plate")), fires: "fault-found", first: "throttle-deposits", next: "mend-found"},
		{name: "an injection pump a tooth out", test: sample.Dry("inline-4", []float64{400, 402, 399, 401}, sample.Diesel, findings("injection pump drive one tooth late")), fires: "fault-found", first: "injection"},
		{name: "a distributor a tooth out", test: sample.Dry("inline-4", evenFour, findings("distributor is in one tooth late")), fires: "fault-found", first: "late-ignition"},
		{name: "air in a diesel's line, its lift pump right", test: sample.Dry("inline-4", []float64{400, 402, 399, 401}, sample.Diesel, sample.Complains("hard start"), findings("air bubbles run through the clear fuel hose")), fires: "fault-found", first: "air-in-fuel"},
		{name: "a split hose and a low cylinder", test: sample.Dry("inline-4", low, sample.Complains("misfire"), findings("vacuum hose split")), fires: "one-low", not: "fault-found"},
		{name: "water in the intake and two low", test: sample.Dry("inline-4", []float64{128, 132, 181, 183}, sample.Complains("misfire", "noise"), findings("water in the air filter box")), fires: "water-drawn-in 1,2", first: "bent-rod", soon: diag.DoNotRun, next: "piston-height"},
		{name: "hydrolocked, and it knocks", test: sample.Dry("inline-4", evenFour, sample.Complains("noise"), findings("hydrolocked in a ford")), fires: "water-drawn-in", not: "sealing-sound-look-elsewhere", first: "bent-rod", soon: diag.DoNotRun},
		{name: "a piston that stands lower", test: sample.Dry("inline-4", []float64{150, 112, 149, 151}, findings("piston 2 stands 1.4 mm lower than the others at top dead centre")), fires: "seen-bent-rod 2", first: "bent-rod", soon: diag.DoNotRun},
		{name: "no piston that stands lower", test: sample.Dry("inline-4", []float64{150, 112, 149, 151}, findings("piston 2 does not stand lower than the others")), fires: "one-low 2", not: "seen-bent-rod"},
		{name: "a valve of another kind stuck", test: sample.Dry("inline-4", low, findings("PCV valve by cylinder 3 is stuck, its wastegate valve bent")), fires: "one-low 3", not: "seen-valve-gear"},
		{name: "a relief valve stuck", test: sample.Dry("inline-4", low, findings("oil pressure relief valve stuck")), fires: "one-low 3", not: "seen-valve-gear"},
		{name: "dents outside", test: sample.Dry("inline-4", low, findings("exhaust pipe dented below cylinder 3", "fins of cylinder 3 full of mud", "lead of cylinder 3 burnt through")), fires: "one-low 3", not: "seen-marked"},
		{name: "a dented oil pan, one cylinder", test: sample.Dry("single", []float64{60}, findings("oil pan dented and scraped", "water in the tool box", "connecting rod of the linkage bent")), fires: "all-low", not: "seen-marked"},
		{name: "a pushrod that is bent", test: sample.Dry("inline-4", []float64{150, 112, 149, 151}, findings("bent pushrod on cylinder 2")), fires: "seen-valve-gear 2", not: "seen-bent-rod"},
		{name: "low but tight, and a sudden knock", test: sample.Dry("inline-4", []float64{150, 112, 149, 151}, sample.Leak("2", 7), sample.Leak("1", 6), sample.Complains("noise"), onset("suddenly")), fires: "low-since-noise 2", first: "bent-rod", soon: diag.DoNotRun, next: "piston-height"},
		{name: "low, and a sudden knock", test: sample.Dry("inline-4", []float64{150, 112, 149, 151}, sample.Complains("noise"), onset("suddenly")), fires: "low-since-noise 2", soon: diag.DoNotRun, next: "leak-down"},
		{name: "low but tight, and a noise for months", test: sample.Dry("inline-4", []float64{150, 112, 149, 151}, sample.Leak("2", 7), sample.Leak("1", 6), sample.Complains("noise"), onset("slowly over months")), fires: "low-but-tight 2", not: "low-since-noise", first: "valve-motion"},
		{name: "a valve that leaks, and a sudden noise", test: sample.Dry("inline-4", []float64{150, 112, 149, 151}, sample.Leak("2", 45, "exhaust"), sample.Complains("noise"), onset("suddenly")), fires: "exhaust-valve-agrees 2", not: "low-since-noise"},
		{name: "a plug whose porcelain is missing", test: sample.Dry("inline-4", []float64{70, 165, 166, 163}, sample.Leak("1", 60, "exhaust"), sample.Done("plug of 1 broke and its porcelain was not all found")), fires: "lost-inside 1", first: "foreign-object", soon: diag.DoNotRun, next: "borescope"},
		{name: "a nut dropped into a two-stroke", test: sample.Dry("inline-2", []float64{140, 142}, sample.TwoStroke, findings("a nut dropped into the plug hole of 2")), fires: "lost-inside 2", first: "foreign-object", soon: diag.DoNotRun},
		{name: "a nut that fell and was taken out", test: sample.Dry("inline-4", evenFour, findings("a nut dropped into the plug hole of 2, removed")), not: "lost-inside"},
		{name: "a plug that broke and was all found", test: sample.Dry("inline-4", evenFour, sample.Done("new plugs, bolts tightened")), not: "lost-inside"},
		{name: "dust behind the filter of one that oil brings up", test: sample.Dry("single", []float64{69}, sample.Minimum(110), sample.Wet(map[string]float64{"1": 118}), findings("dust behind the element")), fires: "dust-past-filter 1", first: "rings", soon: diag.ActSoon},
		{name: "dust behind the filter, and even", test: sample.Dry("inline-4", evenFour, findings("fine dust in the intake hose")), fires: "dust-past-filter", soon: diag.ActSoon},
		{name: "dust on the element, where it belongs", test: sample.Dry("inline-4", evenFour, findings("dust on the air filter")), fires: "even-no-minimum", not: "dust-past-filter"},
		{name: "no water in the intake", test: sample.Dry("inline-4", []float64{128, 132, 181, 183}, findings("no water in the air filter")), fires: "neighbours-low", not: "water-drawn-in"},
		{name: "water in the intake, and nothing wrong", test: sample.Dry("inline-4", evenFour, findings("a little water in the air box")), fires: "even-no-minimum", not: "water-drawn-in"},
		{name: "fuel that drips out", test: sample.Dry("inline-4", evenFour, sample.Minimum(120), findings("petrol drips onto the exhaust manifold")), fires: "seen-fuel-outside", soon: diag.DoNotRun},
		{name: "headaches", test: sample.Dry("inline-4", evenFour, sample.Minimum(120), findings("driver gets headaches")), fires: "exhaust-breathed", first: "exhaust-leak", soon: diag.DoNotRun},
		{name: "exhaust in the cab", test: sample.Dry("inline-4", evenFour, sample.Minimum(120), findings("exhaust manifold gasket blows into the cab")), fires: "exhaust-breathed", soon: diag.ActSoon},
		{name: "an engine that sounds sick", test: sample.Dry("inline-4", evenFour, sample.Minimum(120), findings("engine sounds sick, exhaust noise in the cab")), not: "exhaust-breathed"},
		{name: "a catalyst that glows", test: sample.Dry("inline-4", evenFour, sample.Minimum(120), findings("cat glows red")), fires: "exhaust-glows", first: "restricted-exhaust", soon: diag.ActSoon},
		{name: "a catalyst that glows since another was renewed", test: sample.Dry("inline-4", evenFour, sample.Minimum(120), findings("cat glows red since the coil was replaced")), fires: "exhaust-glows", first: "restricted-exhaust", soon: diag.ActSoon},
		{name: "a catalyst that glowed and was put right", test: sample.Dry("inline-4", evenFour, sample.Minimum(120), findings("cat glowed red, put right")), not: "exhaust-glows"},
		{name: "a glow plug lamp", test: sample.Dry("inline-4", evenFour, sample.Minimum(120), findings("oil lamp glows, no glowing exhaust")), not: "exhaust-glows"},
		{name: "no fuel drips out", test: sample.Dry("inline-4", evenFour, sample.Minimum(120), findings("no fuel drips anywhere", "smells of fuel")), not: "seen-fuel-outside"},
		{name: "oil in a plug's well", test: sample.Dry("inline-4", evenFour, sample.Complains("misfire"), findings("plug well of 2 full of oil")), fires: "fault-found", not: "liquid-in-cylinder", first: "moisture-at-plug", soon: diag.CheckAgain},
		{name: "a cylinder full of oil", test: sample.Dry("inline-4", evenFour, sample.Complains("misfire"), findings("cylinder 2 full of oil")), fires: "liquid-in-cylinder 2", not: "fault-found", soon: diag.DoNotRun},
		{name: "a rocker broken and renewed", test: sample.Dry("inline-4", low, findings("cylinder 3 broken rocker replaced")), fires: "one-low", first: "exhaust-valve"},
		{name: "a broken rocker on another", test: sample.Dry("inline-4", low, findings("cylinder 1 exhaust rocker broken")), fires: "one-low", first: "exhaust-valve"},
	})
}

// A blade that hits something twists what it hangs on; a car that hits a kerb has none.
// Common practice, no source.
func TestStoppedByABlow(t *testing.T) {
	of := func(vehicle, onset string) sample.Change {
		return func(t *diag.Test) { t.History.Vehicle, t.History.Onset = vehicle, onset }
	}
	runSealing(t, []sealingCase{
		{name: "a mower", test: sample.Dry("single", []float64{92}, of("lawn mower", "the blade hit a stump"), sample.Complains("no start")), fires: "stopped-by-a-blow", first: "flywheel-key", soon: diag.DoNotRun, next: "flywheel-key-look"},
		{name: "a mower that stopped by itself", test: sample.Dry("single", []float64{92}, of("lawn mower", "stopped while mowing"), sample.Complains("no start")), not: "stopped-by-a-blow"},
		{name: "a car", test: sample.Dry("inline-4", evenFour, of("small car", "hit a stone"), sample.Complains("misfire")), not: "stopped-by-a-blow"},
	})
}

// dragged is an engine that the starter turns at a speed, its battery pulled to 8.6 V from what it
// rested at.
func dragged(rpm, rest float64) sample.Change {
	return func(t *diag.Test) {
		cranking := 8.6
		t.Conditions.CrankingRPM, t.Conditions.Battery = &rpm, diag.Battery{RestV: &rest, CrankingV: &cranking}
	}
}
