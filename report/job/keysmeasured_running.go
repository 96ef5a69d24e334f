package job

import "gaugesheet/diag/quantity"

var balanceSection = measuredSection{
	name: "balance", units: speedsRead, doc: "Cylinder balance: one cylinder off at a time, the engine running.",
	keys: []key{
		{name: "at", form: asMeasured, units: speedsRead, doc: "The speed with all cylinders working.", example: "1000 rpm"},
		{name: "off-by", form: asWord, words: []string{"lead", "coil", "injector", "scan tool", "line nut"}, says: "switched off by", doc: "How each cylinder was switched off."},
		{name: "idle-control", form: asWord, words: []string{"held", "working", "not sure"}, says: "idle control", doc: "Whether the idle control was held still."},
		{name: "again", form: asMeasured, units: speedsRead, doc: "The speed with all working, read again at the end.", example: "995 rpm"},
		{name: "speed", form: asReadings, perName: true, doc: "The speed with that cylinder off.", example: "{1: 930, 2: 900, 3: 992}"},
		{name: "drop", form: asReadings, perName: true, insteadOf: "speed", doc: "By how much the speed fell.", example: "{1: 70, 2: 100, 3: 8}"},
	},
}

var injectorSection = measuredSection{
	name: "injectors", units: flows, doc: "The injectors on a bench, or by what each takes off the pressure of the rail.",
	keys: []key{
		unitKey(flows),
		{name: "bench", form: asGroup, doc: "How they were run.", keys: []key{
			{name: "pressure", form: asMeasured, units: pressuresRead, doc: "Pressure of the bench.", example: "3.0 bar"},
			{name: "fluid", form: asText, doc: "What they were run with.", example: "test fluid"},
			{name: "pulse", form: asText, doc: "How they were pulsed.", example: "steady"},
		}},
		{name: "before", form: asReadings, perName: true, doc: "Flow as they came.", example: "{1: 188, 2: 212}"},
		{name: "after", form: asReadings, perName: true, doc: "Flow after cleaning.", example: "{1: 209, 2: 212}"},
		{name: "leak", form: asAllTexts, perName: true, doc: "What dripped, by cylinder.", example: "{1: 3 drops in 60 s, others: none}"},
		{name: "spray", form: asAllTexts, perName: true, words: []string{"cone", "one stream", "one-sided", "drips", "nothing"}, says: "spray", doc: "How it sprays, by cylinder.", example: "{1: one stream, others: cone}"},
		{name: "ohms", form: asReadings, units: ohms, perName: true, words: []string{"open"}, doc: "Resistance of the coil, by cylinder; open where it has none.", example: "{1: 14.2, others: 14.1}"},
		{name: "pressure-drop", form: asGroup, units: pressuresRead, doc: "What the rail's pressure fell to as each was pulsed.", keys: []key{
			unitKey(pressuresRead),
			{name: "from", form: asMeasured, doc: "The pressure before.", example: "379"},
			{name: "to", form: asReadings, perName: true, doc: "The pressure after, by cylinder.", example: "{1: 280, 2: 310}"},
		}},
		limitsFrom(key{name: "spread", units: percents, permits: atMost, example: "5 % of highest"},
			key{name: "from-mean", units: pressuresRead, permits: atMost, example: "10 kPa"},
			key{name: "before", example: "200-220"}, key{name: "after", example: "200-220"},
			key{name: "ohms", units: ohms, example: "13.8-15.2"}),
	},
}

var trimSection = measuredSection{
	name: "trims", units: percents, doc: "Fuel trims in percent; plus adds fuel.",
	keys: []key{
		{name: "trim", speeds: true, form: asByBank, doc: "By speed and bank.", example: "{bank 1: {short: 4, long: 14}}", keys: []key{
			{name: "short", form: asMeasured, doc: "Short-term trim.", example: "4"},
			{name: "long", form: asMeasured, doc: "Long-term trim.", example: "14"},
		}},
	},
}

var gasKeys = []key{
	{name: "co", form: asMeasured, units: percents, doc: "Carbon monoxide.", example: "0.4 %"},
	{name: "hc", form: asMeasured, units: millions, doc: "Hydrocarbons, as hexane.", example: "120 ppm"},
	{name: "co2", form: asMeasured, units: percents, doc: "Carbon dioxide.", example: "14.6 %"},
	{name: "o2", form: asMeasured, units: percents, doc: "Oxygen.", example: "0.9 %"},
	{name: "nox", form: asMeasured, units: millions, doc: "Nitrogen oxides.", example: "60 ppm"},
}

var gasSection = measuredSection{
	name: "exhaust-gas", doc: "The exhaust gas.",
	keys: []key{
		{name: "taken", form: asWord, words: []string{"before catalyst", "tailpipe"}, says: "taken at", doc: "Where it was taken."},
		{name: "gas", speeds: true, form: asGroup, doc: "By speed.", example: "{co: 0.4 %, hc: 120 ppm, co2: 14.6 %, o2: 0.9 %}", keys: gasKeys},
		limitsFrom(key{name: "co", limits: "gas co", units: percents, permits: atMost, example: "1.2 %"}, key{name: "hc", limits: "gas hc", units: millions, permits: atMost, example: "220 ppm"},
			key{name: "co2", limits: "gas co2", units: percents, example: "13 %"}, key{name: "o2", limits: "gas o2", units: percents, permits: atMost, example: "1 %"},
			key{name: "nox", limits: "gas nox", units: millions, permits: atMost, example: "100 ppm"}, key{name: "lambda", units: bares, example: "0.97-1.03"}),
	},
}

var crankcaseSection = measuredSection{
	name: "crankcase", units: waters, gauge: "crankcase", doc: "Pressure in the crankcase, the engine running; minus is vacuum.",
	keys: []key{
		unitKey(waters),
		{name: "ventilation", form: asWord, words: []string{"connected", "blocked", "off"}, says: "ventilation", doc: "The crankcase ventilation during the test."},
		{name: "restrictor", form: asText, doc: "What the gas had to pass.", example: "none"},
		{name: "readings", form: asAtSpeeds, signed: true, doc: "By speed.", example: "{idle: -1.0, 2500 rpm: 3.5}"},
		{name: "flow", form: asMeasured, units: gasFlows, keys: atSpeed, doc: "Gas that blows by.", example: "4.1 m3/h at 2000 rpm"},
		limitsFrom(key{name: "readings", speeds: true, zero: true, permits: atMost, example: "at most 4"}, key{name: "flow", units: gasFlows, permits: atMost, example: "at most 6 m3/h"}),
	},
}

var startingSection = measuredSection{
	name: "starting", doc: "Starter and battery, the engine cranked.",
	keys: []key{
		{name: "battery", form: asGroup, doc: "The battery.", keys: []key{
			{name: "rest", form: asMeasured, units: volts, doc: "At rest.", example: "12.6 V"},
			{name: "cranking", form: asMeasured, units: volts, doc: "While cranking.", example: "10.6 V"},
			{name: "after", form: asMeasured, units: spans, doc: "How long it had cranked.", example: "15 s"},
			{name: "at", form: asMeasured, units: warmths, signed: true, doc: "Its temperature.", example: "72 F"},
		}},
		{name: "cranking", form: asMeasured, units: speedsRead, doc: "Cranking speed.", example: "215 rpm"},
		{name: "draw", form: asMeasured, units: amperes, doc: "Current that the starter draws.", example: "165 A"},
		{name: "peaks", form: asReadings, units: bares, perName: true, doc: "Peaks of the starter's current, by cylinder, in any one unit.", example: "{1: 180, 2: 178, 3: 131, 4: 181}"},
		limitsFrom(key{name: "draw", units: amperes, permits: atMost, example: "180-220 A"}, key{name: "battery", limits: "battery cranking", units: volts, example: "at least 9.6 V"},
			key{name: "cranking", units: speedsRead, example: "at least 200 rpm"}),
	},
}

var backPressureSection = measuredSection{
	name: "back-pressure", units: lowPressures, gauge: "back-pressure", doc: "Pressure in the exhaust ahead of the catalyst or silencer.",
	keys: []key{
		unitKey(lowPressures),
		{name: "at", form: asText, doc: "Where it was taken.", example: "before catalyst"},
		{name: "pressure", speeds: true, form: asMeasured, doc: "By speed.", example: "1.6"},
		limitsFrom(key{name: "pressure", speeds: true, permits: atMost, example: "at most 3 psi"}),
	},
}

var timingSection = measuredSection{
	name: "timing", doc: "Ignition timing, dwell and cam timing.",
	keys: []key{
		{name: "base", form: asMeasured, units: angles, signed: true, keys: atSpeed, doc: "Base timing.", example: "6 deg before at 700 rpm"},
		{name: "advance", form: asAtSpeeds, units: angles, signed: true, doc: "Advance by speed.", example: "{2500 rpm: 28 deg}"},
		{name: "vacuum-line", form: asWord, words: []string{"on", "off"}, says: "vacuum line", doc: "The distributor's vacuum line during the test."},
		{name: "dwell", form: asMeasured, units: angles, doc: "Dwell.", example: "29 deg"},
		{name: "points-gap", form: asMeasured, units: clearances, doc: "Gap of the points.", example: "0.016 in"},
		{name: "cam", form: asMeasured, units: angles, signed: true, doc: "Cam timing against its mark.", example: "4 deg late"},
		{name: "chain-slack", form: asMeasured, units: angles, doc: "Turn of the crankshaft before the camshaft follows.", example: "9 deg"},
		limitsFrom(key{name: "base", units: angles, signed: true, example: "5-7 deg before"}, key{name: "advance", units: angles, speeds: true, example: "26-30 deg"},
			key{name: "dwell", units: angles, example: "26-32 deg"}, key{name: "points-gap", units: clearances, example: "0.014-0.018 in"},
			key{name: "cam", units: angles, signed: true, permits: atMost, example: "3 deg"}, key{name: "chain-slack", units: angles, permits: atMost, example: "at most 8 deg"}),
	},
}

var dieselSection = measuredSection{
	name: "diesel", doc: "A diesel's injectors and glow plugs.",
	keys: []key{
		{name: "return", form: asGroup, units: leakVolumes, doc: "What the injectors give back.", keys: []key{
			unitKey(leakVolumes),
			{name: "in", form: asMeasured, units: []quantity.Unit{quantity.Second, quantity.Minute}, doc: "Over how long.", example: "15 s"},
			{name: "at", form: asText, doc: "Cranking, or at which speed.", example: "cranking"},
			{name: "cylinders", form: asReadings, perName: true, apart: true, doc: "By cylinder.", example: "{1: 12, 2: 11}"},
		}},
		{name: "glow", form: asReadings, units: ohms, perName: true, words: []string{"open"}, doc: "Resistance of the glow plugs, by cylinder, in ohms; open where it has none.", example: "{1: 0.6, 2: open}"},
		{name: "contribution", form: asReadings, units: bares, signed: true, perName: true, doc: "What each cylinder adds, as the scan tool gives it: minus for less than its share.", example: "{1: +0.4, 2: -0.2}"},
		{name: "nozzles", form: asGroup, doc: "The nozzles on a bench.", keys: []key{
			{name: "opening", form: asReadings, units: []quantity.Unit{quantity.Bar, quantity.MPa, quantity.PSI}, perName: true, doc: "Opening pressure, by cylinder.", example: "{1: 180 bar}"},
			{name: "drip", form: asText, doc: "Whether they drip.", example: "none in 10 s"},
		}},
		{name: "inlet-vacuum", form: asMeasured, units: suctions, doc: "Vacuum at the inlet of the lift pump.", example: "6 inHg"},
		{name: "smoke", form: asMeasured, units: absorptions, doc: "Smoke, by light absorbed.", example: "1.1 1/m"},
		limitsFrom(key{name: "return", limits: "return cylinders", units: leakVolumes, permits: atMost, example: "at most 40"}, key{name: "glow", units: ohms, example: "0.4-0.9"},
			key{name: "opening", limits: "nozzles opening", units: []quantity.Unit{quantity.Bar, quantity.MPa, quantity.PSI}, example: "175-185 bar"},
			key{name: "inlet-vacuum", units: suctions, permits: atMost, example: "at most 6 inHg"}, key{name: "smoke", units: absorptions, permits: atMost, example: "at most 1.5 1/m"}),
	},
}
