package job

import "gaugesheet/diag/engine"

var engineKeys = []key{
	{name: "layout", form: asText, doc: "One of " + engine.LayoutForms + ".", example: "V8"},
	{name: "numbering", form: asWord, words: []string{engine.AcrossBanks, engine.BankByBank}, says: "numbering",
		doc: "How the cylinders of an engine of two banks are numbered: across banks (1-3-5-7 / 2-4-6-8) or bank by bank (1-2-3-4 / 5-6-7-8). Never guessed."},
	{name: "first-bank", form: asWord, words: []string{"left", "right", "front", "rear"}, says: "first bank",
		doc: "The bank that cylinder 1 is on, by vehicle side. Required with 'numbering'."},
	{name: "banks", form: asSpecial, insteadOf: "numbering", doc: "Instead of 'numbering' and 'first-bank': the cylinders of each bank, front to rear.",
		example: "{left: [1, 3, 5, 7], right: [2, 4, 6, 8]}",
		schema:  `{"anyOf": [{"type": "object", "additionalProperties": {"anyOf": [{"type": "array", "items": {"type": ["integer", "string"]}}, {"type": ["integer", "string"]}]}}, {"type": "string"}]}`},
	{name: "heads", form: asSpecial, doc: "The cylinders under each head gasket, where that is not one for each bank; 'separate' for separate barrels.",
		example: "[[1, 2], [3, 4]]",
		schema:  `{"anyOf": [{"const": "separate"}, {"type": "array", "items": {"type": "array", "minItems": 1, "items": {"type": ["integer", "string"]}}}]}`},
	{name: "firing-order", form: asSpecial, doc: "The cylinders in firing order.", example: "1-8-4-3-6-5-7-2",
		schema: `{"anyOf": [{"type": ["string", "integer"]}, {"type": "array", "items": {"type": ["integer", "string"], "minLength": 1}}]}`},
	{name: "mount", form: asWord, words: engine.Mounts, says: "mount", doc: "How the engine sits in the vehicle."},
	{name: "fuel", form: asWord, words: fuels, says: "fuel", doc: "What it burns; petrol, gasoline and gas are the same, and so are ethanol and E85.", example: "petrol"},
	{name: "cycle", form: asWord, words: []string{"four-stroke", "two-stroke"}, says: "cycle", doc: "Working cycle; four-stroke where not given."},
	{name: "charging", form: asWord, words: []string{"natural", "turbo", "supercharged"}, says: "charging", doc: "How it takes in air."},
	{name: "displacement", form: asAmount, doc: "Swept volume of all cylinders: L, ml or cu in.", example: "4.7 L"},
	{name: "compression-ratio", form: asBare, doc: "Compression ratio, 9.2 for 9.2:1.", example: "9.2"},
	{name: "bore", form: asAmount, doc: "Bore: mm or in.", example: "94 mm"},
	{name: "stroke", form: asAmount, doc: "Stroke: mm or in.", example: "84 mm"},
	{name: "rod", form: asAmount, doc: "Length of the connecting rod: mm or in.", example: "155 mm"},
	{name: "inlet-closes", form: asAmount, doc: "Closing of the inlet valve in degrees after bottom dead centre, at the seat.", example: "62 deg"},
	{name: "variable-timing", form: asYesNo, doc: "Whether the inlet valve timing is variable."},
	{name: "decompressor", form: asWord, words: []string{"none", "automatic", "held off"}, says: "decompressor", doc: "Decompressor."},
	{name: "camshafts", form: asWord, words: camshafts, says: "camshafts", doc: "How many camshafts there are."},
	{name: "lifters", form: asWord, words: []string{"hydraulic", "solid"}, says: "lifters", doc: "Valve lifters."},
	{name: "valve-gear", form: asWord, words: []string{"side valves", "overhead valves"}, says: "valve gear", doc: "Where the valves stand: beside the cylinder or above it."},
	{name: "timing-drive", form: asWord, words: []string{"belt", "chain", "gears"}, says: "timing drive", doc: "What drives the camshafts."},
	{name: "interference", form: asYesNo, doc: "Whether valves and pistons can meet."},
	{name: "cooling", form: asWord, words: []string{"liquid", "air"}, says: "cooling", doc: "How it is cooled."},
	{name: "deactivates", form: asNames, doc: "The cylinders that are shut down together at light load.", example: "[1, 4, 6, 7]"},
	{name: "shared-coils", form: asSpecial, doc: "The cylinders that one ignition coil fires together.", example: "[[1, 4], [2, 3]]",
		schema: `{"type": "array", "items": {"type": "array", "minItems": 2, "items": {"type": ["integer", "string"]}}}`},
	{name: "inverted", form: asYesNo, doc: "Whether the cylinders hang down, so that liquid collects in them."},
	{name: "hybrid", form: asYesNo, doc: "Whether the vehicle is a hybrid, with high voltage and an engine that starts by itself."},
	{name: "runs", form: asWord, words: []string{"well", "rough", "does not run", "not tried"}, says: "runs", doc: "How it runs as it came in."},
	{name: "cylinders", form: asSpecial, keys: placeKeys, doc: "Names of the cylinders in numerical order; for a custom layout the place and head of each.",
		example: "[{name: front, x: 0, y: 0, head: 1}]",
		schema:  `{"type": "array", "items": {"anyOf": [{"type": ["string", "integer"]}, {"$ref": "#/$defs/place"}]}}`},
}

var placeKeys = []key{
	{name: "name", form: asText, doc: "Name or number of the cylinder."},
	{name: "x", form: asBare, doc: "Place to the right, in any one scale."},
	{name: "y", form: asBare, doc: "Place to the rear, in the same scale."},
	{name: "head", form: asWhole, doc: "Number of its cylinder head, from 1."},
}

var conditionKeys = []key{
	{name: "engine", form: asWord, words: temperatures, says: "temperature", doc: "Temperature of the engine during the test."},
	{name: "coolant", form: asAmount, doc: "Temperature of the coolant: C or F.", example: "18 C"},
	{name: "throttle", form: asWord, words: []string{"open", "closed", "not sure"}, says: "throttle", doc: "Throttle while cranking."},
	{name: "plugs-out", form: asWord, words: []string{"all", "one at a time"}, says: "plugs out", doc: "Which spark plugs were out."},
	{name: "strokes", form: asWhole, doc: "Compression strokes on each cylinder.", example: "6"},
	{name: "cranking", form: asAmount, doc: "Cranking speed in rpm.", example: "210 rpm"},
	{name: "battery", form: asGroup, doc: "The battery.", keys: []key{
		{name: "rest", form: asAmount, doc: "Volts at rest.", example: "12.6 V"},
		{name: "cranking", form: asAmount, doc: "Volts while cranking.", example: "10.8 V"},
		{name: "charger", form: asYesNo, doc: "Whether a charger was connected."},
	}},
	{name: "altitude", form: asAmount, doc: "Altitude of the shop: ft or m.", example: "400 ft"},
	{name: "barometer", form: asAmount, insteadOf: "altitude", doc: "Station pressure, not reduced to sea level: inHg, hPa or kPa.", example: "25.1 inHg"},
	{name: "choke", form: asText, doc: "Choke while cranking.", example: "open"},
	{name: "needle", form: asWord, words: []string{"holds", "falls back", "flutters"}, says: "needle", doc: "What the needle did after the test."},
	{name: "method", form: asText, doc: "Anything unusual in how the test was done."},
	{name: "ignition-disabled", form: asText, doc: "How the ignition was disabled."},
	{name: "fuel-disabled", form: asText, doc: "How the fuel was disabled."},
}

var gaugesKeys = []key{
	{name: "compression", form: asSpecial, keys: gaugeKeys, doc: "The compression gauge: its name in the shop profile, or its keys.",
		example: "{name: dial A, range: 0-300 psi, accuracy: 2 % of span, division: 5 psi}", schema: gaugeSchema},
	{name: "leakage", form: asSpecial, keys: gaugeKeys, doc: "The leakage tester: its name in the shop profile, or its keys.",
		example: "{supply: 100 psi, orifice: 0.040 in}", schema: gaugeSchema},
	{name: "fuel", form: asSpecial, keys: gaugeKeys, doc: "The fuel-pressure gauge: its name in the shop profile, or its keys.",
		example: "{range: 0-100 psi, accuracy: grade B}", schema: gaugeSchema},
	{name: "oil", form: asSpecial, keys: gaugeKeys, doc: "The oil-pressure gauge.", example: "{range: 0-100 psi, accuracy: grade B}", schema: gaugeSchema},
	{name: "vacuum", form: asSpecial, keys: gaugeKeys, doc: "The vacuum gauge.", example: "{range: 0-30 inHg, accuracy: 2 % of span}", schema: gaugeSchema},
	{name: "cooling", form: asSpecial, keys: gaugeKeys, doc: "The gauge of the cooling system's tester.", example: "{range: 0-30 psi, accuracy: 3 % of span}", schema: gaugeSchema},
	{name: "crankcase", form: asSpecial, keys: gaugeKeys, doc: "The gauge or water column for the crankcase.", example: "{range: 0-20 inH2O, accuracy: 2 % of span}", schema: gaugeSchema},
	{name: "back-pressure", form: asSpecial, keys: gaugeKeys, doc: "The gauge for the exhaust.", example: "{range: 0-10 psi, accuracy: 2 % of span}", schema: gaugeSchema},
}

const gaugeSchema = `{"anyOf": [{"type": "string"}, {"$ref": "#/$defs/gauge"}]}`

var gaugeKeys = []key{
	{name: "name", form: asText, doc: "Name of the gauge."},
	{name: "range", form: asSpecial, doc: "The scale, from and to, with its unit.", example: "0-300 psi", schema: `{"type": "string"}`},
	{name: "accuracy", form: asText, doc: "'2 % of span', '2 % of reading', 'grade B' (ASME B40.100) or 'class 1.6' (EN 837-1).", example: "2 % of span"},
	{name: "division", form: asAmount, doc: "Smallest division, with its unit.", example: "5 psi"},
	{name: "valve", form: asText, doc: "Where the check valve is: at plug, at gauge.", example: "at plug"},
	{name: "hose-volume", form: asAmount, doc: "Volume of the hose between plug hole and valve: ml or cu in.", example: "4 ml"},
	{name: "checked", form: asDate, doc: "Date of the last check of the gauge.", example: "2026-01-10"},
	{name: "reads", form: asSpecial, doc: "What the gauge reads at a true pressure.", example: "120 at 121", schema: `{"type": "string"}`},
	{name: "supply", form: asAmount, doc: "Leakage tester: supply pressure.", example: "100 psi"},
	{name: "orifice", form: asAmount, doc: "Leakage tester: diameter of the orifice, mm or in.", example: "0.040 in"},
	{name: "doubt", form: asText, doc: "Why its readings are doubted.", example: "reads about 15 % low"},
	{name: "good-reading", form: asText, doc: "Leakage tester: what it reads on a sound cylinder or its master orifice."},
}
