package job

var compressionKeys = []key{
	{name: "unit", form: asWord, words: pressureUnits, doc: "Unit of bare numbers in this section."},
	{name: "order", form: asNames, doc: "The cylinders in the order in which they were tested.", example: "[1, 3, 5, 7, 2, 4, 6, 8]"},
	{name: "first", form: asReadings, doc: "First stroke, by cylinder.", perName: true, example: "{1: 92, 3: 95}"},
	{name: "dry", form: asReadings, doc: "Reading by cylinder.", perName: true, example: "{1: 160, 2: [158, 160], 3: 62, 4: about 155, 6: not tested}"},
	{name: "again", form: asReadings, doc: "Tested again at the end, by cylinder.", perName: true, example: "{1: 158}"},
	{name: "wet", form: asReadings, doc: "Reading after oil was put in, by cylinder.", perName: true, example: "{3: 90, 1: 172}"},
	{name: "oil", form: asAmount, doc: "Dose of oil for the wet test, with its unit.", example: "5 ml"},
	{name: "wet-in-words", form: asText, doc: "The wet test in words, where no figures were taken."},
	{name: "strokes", form: asSpecial, doc: "Strokes by cylinder, where another number than under conditions.", perName: true, example: "{3: 8}",
		schema: `{"type": "object", "additionalProperties": {"type": "integer"}}`},
	{name: "running", form: asByName, keys: runningKeys, doc: "Compression with the engine running, by cylinder.", perName: true, example: "{1: {idle: 75, snap: 130}}"},
	{name: "limits", form: asGroup, keys: compressionLimitKeys, doc: "Limits, each judged on its own. Without any: spread 10 % of highest, common practice."},
}

var runningKeys = []key{
	{name: "idle", form: asReading, doc: "At idle.", example: "75"},
	{name: "snap", form: asReading, doc: "At a snap of the throttle.", example: "130"},
}

var compressionLimitKeys = []key{
	{name: "minimum", form: asReading, doc: "Lowest permitted pressure.", example: "128 psi"},
	{name: "lowest", form: asAmount, doc: "Lowest reading as a percentage of the highest (lowest, mean, median).", example: "75 % of highest"},
	{name: "spread", form: asAmount, doc: "Highest less lowest as a percentage of the highest (lowest, mean, median).", example: "10 % of highest"},
	{name: "difference", form: asReading, doc: "Permitted difference of highest and lowest.", example: "25 psi"},
	{name: "below-mean", form: asReading, doc: "How far a reading may lie below the mean.", example: "20 %"},
	{name: "from-mean", form: asReading, doc: "How far a reading may lie from the mean, either way.", example: "50 psi"},
	{name: "standard", form: asReading, doc: "The book's usual figure of a new engine, no limit: under it is a remark.", example: "170-190 psi"},
	{name: "from", form: asWord, words: []string{"sea level"}, doc: "The limits hold at sea level, and are corrected for the altitude of the test."},
	{name: "cranking", form: asAmount, doc: "The cranking speed that the limits are for.", example: "250 rpm"},
	{name: "source", form: asText, doc: "Where the limits come from.", example: `"workshop manual, p. 112"`},
}

var leakageKeys = []key{
	{name: "engine", form: asWord, words: temperatures, says: "temperature", doc: "Temperature of the engine, where another than under conditions."},
	{name: "limit", form: asAmount, doc: "Permitted loss in percent.", example: "20 %"},
	{name: "dry", form: asSpecial, keys: leakKeys, doc: "By cylinder: a loss, or what was held of what was supplied.",
		perName: true, example: "{3: {loss: 34 %, at: [exhaust]}, 5: {held: 72, of: 80}, 6: 72/80}", schema: leakSchema},
	{name: "wet", form: asSpecial, keys: leakKeys, doc: "The same after oil was put in.", perName: true, example: "{3: {loss: 30 %, at: [exhaust]}}", schema: leakSchema},
	{name: "loss", form: asReadings, insteadOf: "dry", doc: "Loss in percent by cylinder, short for 'dry' where nothing else is known.", perName: true, example: "{1: 8, 2: 10}"},
}

const leakSchema = `{"anyOf": [{"type": "object", "additionalProperties": {"anyOf": [{"type": "string"}, {"$ref": "#/$defs/leak"}]}},
	{"type": "array", "items": {"anyOf": [{"type": "string"}, {"$ref": "#/$defs/leak"}]}}]}`

var leakKeys = []key{
	{name: "loss", form: asReading, doc: "Percent of the supply that is lost.", example: "34 %"},
	{name: "held", form: asReading, doc: "Pressure held, with 'of'.", example: "72"},
	{name: "of", form: asReading, doc: "Pressure supplied.", example: "80"},
	{name: "at", form: asWordList, words: places, says: "place of a leak", doc: "Where the air comes out.", example: "[exhaust]"},
	{name: "most", form: asWord, words: places[:len(places)-1], says: "place of a leak", doc: "Where most of it comes out.", example: "exhaust"},
}

// boreKeys are what a camera shows of one cylinder.
var boreKeys = []key{
	{name: "wall", form: asWord, words: []string{"scored", "glazed", "rust", "pitted", "good"}, says: "cylinder wall", doc: "The cylinder wall."},
	{name: "crown", form: asWord, words: []string{"washed", "carbon", "holed", "melted", "marked", "good"}, says: "piston crown", doc: "The crown of the piston."},
	{name: "valves", form: asWord, words: []string{"burnt", "bent", "carbon", "rust", "good"}, says: "valves seen", doc: "The valves."},
	{name: "seat", form: asWord, words: []string{"burnt", "carbon", "rust", "good"}, says: "valves seen", doc: "The valve seats."},
	{name: "note", form: asText, doc: "Anything else that was seen."},
}

// beforeKeys are the readings before the work.
var beforeKeys = append([]key{
	{name: "done", form: asText, doc: "The work that was done since.", example: "new rings"},
	{name: "date", form: asDate, doc: "Date of these readings, ISO 8601.", example: "2026-04-02"},
	{name: "conditions", form: asGroup, keys: conditionKeys, doc: "How they were taken, where otherwise than the test."},
	{name: "compression", form: asTestSection, keys: compressionKeys, doc: "Cranking compression."},
	{name: "leakage", form: asTestSection, keys: leakageKeys, doc: "Cylinder leakage."},
	{name: "plugs", form: asTestSection, keys: plugsKeys, doc: "The spark plugs as read."},
	{name: "rotors", form: asTestSection, keys: rotorsKeys, doc: "Compression of a rotary engine, by face."},
	{name: "fuel-pressure", form: asTestSection, keys: fuelKeys, doc: "Fuel pressure."},
	coolantGasKey,
}, measuredFileKeys()...)

var gasWords = []string{"positive", "negative", "not tested"}

// gasTestKeys are the long form of the test for gas: its result and how it was
// made.
var gasTestKeys = []key{
	{name: "result", form: asWord, words: gasWords, says: "gas test", doc: "The result."},
	{name: "engine", form: asWord, words: []string{"hot", "cold"}, says: "engine at a gas test", doc: "Temperature of the engine."},
	{name: "minutes", form: asBare, doc: "How long the test ran, in minutes.", example: "5"},
	{name: "fluid", form: asText, doc: "Color of the fluid at the end.", example: "blue"},
}

var coolantGasKey = key{name: "coolant-gas-test", form: asSpecial, words: gasWords, says: "gas test", keys: gasTestKeys, example: "negative",
	doc: "Test of the coolant for combustion gas: its result, or that and how it was made.",
	schema: `{"anyOf": [{"enum": ["positive", "negative", "not tested"]}, {"type": "object", "additionalProperties": false, "properties": {
		"result": {"enum": ["positive", "negative", "not tested"]}, "engine": {"enum": ["hot", "cold", "warm"]}, "minutes": {"type": ["number", "string"]}, "fluid": {"type": "string"}}}]}`}

var plugsKeys = []key{
	{name: "fitted", form: asText, doc: "When the plugs were fitted.", example: "3 months ago"},
	{name: "gap", form: asSpecial, doc: "Gap by the book.", example: "1.1 mm +/- 0.1", schema: `{"type": "string"}`},
	{name: "heat-range", form: asGroup, keys: heatKeys, doc: "Heat range of the plugs beside the book's.", example: "{fitted: 6, book: 5}"},
	{name: "reach", form: asWord, words: []string{"same", "longer", "shorter"}, says: "reach", doc: "Reach of the plugs against the book's."},
	{name: "looks", form: asSpecial, keys: plugKeys, doc: "How each plug looks, by cylinder; or 'all'.", perName: true, example: "{1: normal, 3: {look: oil-wet, gap: 1.3 mm}}",
		schema: `{"anyOf": [{"type": "object", "additionalProperties": {"anyOf": [{"type": "string"}, {"$ref": "#/$defs/plug"}]}},
			{"type": "array", "items": {"anyOf": [{"type": "string"}, {"$ref": "#/$defs/plug"}]}}]}`},
}

var heatKeys = []key{
	{name: "fitted", form: asBare, doc: "The number of the plugs fitted.", example: "6"},
	{name: "book", form: asBare, doc: "The number that the book asks for.", example: "5"},
	{name: "higher", form: asWord, words: []string{"hotter", "colder"}, doc: "What a higher number is: makers number both ways."},
}

var plugKeys = []key{
	{name: "look", form: asWord, words: looks, says: "look of a plug", doc: "How the plug looks."},
	{name: "gap", form: asReading, doc: "Gap as found: mm or in; a bare number is in the unit of the gap by the book.", example: "1.3 mm"},
	{name: "photo", form: asText, doc: "Name of its photo.", example: "P4"},
	{name: "note", form: asText, doc: "Anything else about it."},
}

var rotorsKeys = []key{
	{name: "unit", form: asWord, words: pressureUnits, doc: "Unit of bare numbers in this section."},
	{name: "cranking", form: asAmount, doc: "Cranking speed in rpm.", example: "250 rpm"},
	{name: "faces", form: asSpecial, doc: "Three faces of each rotor in the order read.", example: "{front: [7.4, 7.2, 7.3], rear: [7.0, 6.9, 5.1]}",
		schema: `{"anyOf": [{"type": "object", "additionalProperties": {"type": ["string", "array"]}}, {"type": "array", "items": {"type": ["string", "array"]}}]}`},
	{name: "limits", form: asGroup, doc: "Limits.", keys: []key{
		{name: "minimum", form: asReading, doc: "Lowest permitted pressure of a face.", example: "6.9 kgf/cm2"},
		{name: "between-faces", form: asReading, doc: "Permitted difference between the faces of one rotor.", example: "1.5 kgf/cm2"},
		{name: "between-rotors", form: asReading, doc: "Permitted difference between rotors.", example: "1.0 kgf/cm2"},
		{name: "source", form: asText, doc: "Where the limits come from."},
	}},
}

var fuelKeys = append([]key{
	{name: "unit", form: asWord, words: pressureUnits, doc: "Unit of bare numbers in this section."},
	{name: "system", form: asWord, words: fuelSystems, says: "fuel system", doc: "Kind of fuel system."},
	{name: "pump", form: asWord, words: []string{"electric", "mechanical"}, says: "pump", doc: "What drives the pump."},
	{name: "pump-heard", form: asYesNo, doc: "Whether the pump is heard when the ignition is switched on."},
	{name: "circuits", form: asByName, keys: circuitKeys, insteadOf: "key-on", doc: "Several rails, tanks or pumps by name, each with the keys below."},
}, circuitKeys...)

var circuitKeys = []key{
	{name: "key-on", form: asReading, doc: "Pump running, engine off.", example: "41"},
	{name: "idle", form: asReading, doc: "At idle.", example: "33"},
	{name: "hose-off", form: asReading, doc: "At idle, the regulator's vacuum hose off.", example: "42"},
	{name: "snap", form: asReading, doc: "At a snap of the throttle.", example: "38"},
	{name: "return-pinched", form: asReading, doc: "Return line pinched.", example: "85"},
	{name: "manifold-vacuum", form: asAmount, doc: "Vacuum at idle: inHg, kPa or hPa below the atmosphere.", example: "18 inHg"},
	{name: "hold", form: asSpecial, doc: "Pressure by the time since switching off.", example: "{1 min: 40, 5 min: 36}",
		schema: `{"type": "object", "additionalProperties": {"type": ["string", "number", "array"]}}`},
	{name: "volume", form: asSpecial, doc: "Volume delivered in a time.", example: "500 ml in 30 s", schema: `{"type": "string"}`},
	{name: "fuel-in-hose", form: asWord, words: []string{"yes", "no", "not looked"}, says: "fuel in the hose", doc: "Fuel in the regulator's vacuum hose."},
	{name: "limits", form: asGroup, keys: fuelLimitKeys, doc: "Permitted pressures; beside 'circuits', of every circuit without one of its own."},
}

var fuelLimitKeys = []key{
	{name: "key-on", form: asAmount, doc: "'35-45 psi', '39 psi +/- 3', 'at least 30 psi' or 'at most 45 psi'.", example: "35-45 psi"},
	{name: "idle", form: asAmount, doc: "As for key-on.", example: "30-36 psi"},
	{name: "hose-off", form: asAmount, doc: "As for key-on.", example: "39 psi +/- 3"},
	{name: "snap", form: asAmount, doc: "As for key-on.", example: "at most 50 psi"},
	{name: "return-pinched", form: asAmount, doc: "As for key-on.", example: "at least 70 psi"},
	{name: "hold", form: asSpecial, doc: "With the time; a list where there are several.", example: "at least 30 psi after 5 min",
		schema: `{"anyOf": [{"type": "string"}, {"type": "array", "items": {"type": "string"}}]}`},
	{name: "volume", form: asSpecial, doc: "Volume to be delivered in a time.", example: "at least 500 ml in 30 s", schema: `{"type": "string"}`},
	{name: "source", form: asText, doc: "Where the limits come from."},
}

// keyOf gives a key of the list; the zero key where there is none.
func keyOf(keys []key, name string) key {
	for _, k := range keys {
		if k.name == name && !k.speeds {
			return k
		}
	}
	for _, k := range keys {
		if k.speeds && isSpeed(name) {
			return k
		}
	}
	return key{}
}

// written is how a key stands in a file: one that stands for every speed, as a
// speed.
func (k key) written() string {
	if k.speeds {
		return "2500 rpm"
	}
	return k.name
}

// keysOf gives the keys under a key of the list.
func keysOf(keys []key, name string) []key { return keyOf(keys, name).keys }

func keyNames(keys []key) []string {
	out := make([]string, len(keys))
	for i, k := range keys {
		out[i] = k.written()
	}
	return out
}

// exampleOf gives the example of a key of the list.
func exampleOf(keys []key, name string) string { return keyOf(keys, name).example }
