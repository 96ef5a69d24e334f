package job

import "gaugesheet/diag/quantity"

// Units of the further tests, the one that values are kept in first.
var (
	pressuresRead = []quantity.Unit{quantity.PSI, quantity.KPa, quantity.Bar, quantity.MPa, quantity.KgfPerCm2}
	suctions      = []quantity.Unit{quantity.InHg, quantity.KPa, quantity.HPa, quantity.MmHg}
	waters        = []quantity.Unit{quantity.InH2O, quantity.MmH2O, quantity.KPa, quantity.HPa}
	lowPressures  = []quantity.Unit{quantity.PSI, quantity.KPa, quantity.Bar, quantity.HPa, quantity.InHg, quantity.InH2O}
	clearances    = []quantity.Unit{quantity.Millimetre, quantity.Inch}
	flows         = []quantity.Unit{quantity.MlPerMin, quantity.LPerMin}
	gasFlows      = []quantity.Unit{quantity.LPerMin, quantity.M3PerHour, quantity.CuFtPerMin}
	ohms          = []quantity.Unit{quantity.Ohm}
	amperes       = []quantity.Unit{quantity.Ampere}
	volts         = []quantity.Unit{quantity.Volt}
	warmths       = []quantity.Unit{quantity.Celsius, quantity.Fahrenheit}
	spans         = []quantity.Unit{quantity.Minute, quantity.Second, quantity.Hour}
	speedsRead    = []quantity.Unit{quantity.RPM}
	angles        = []quantity.Unit{quantity.Degree}
	percents      = []quantity.Unit{quantity.Percent}
	millions      = []quantity.Unit{quantity.PartsMillion}
	bares         = []quantity.Unit{quantity.None}
	leakVolumes   = []quantity.Unit{quantity.Millilitre}
	absorptions   = []quantity.Unit{quantity.PerMetre}
)

// atSpeed are the keys of a reading that was taken at a speed.
var atSpeed = []key{
	{name: "reading", form: asSpecial, doc: "The reading.", schema: readingSchema},
	{name: "at", form: asText, doc: "The speed at which it was taken.", example: "750 rpm"},
}

const readingSchema = `{"$ref": "#/$defs/reading"}`

// limitsFrom closes the keys of a section's limits.
func limitsFrom(keys ...key) key {
	for i := range keys {
		keys[i].form = asPermitted
		if keys[i].doc == "" {
			keys[i].doc = "Permitted: a range, 'at least ...' or 'at most ...'."
		}
	}
	return key{name: "limits", form: asGroup, doc: "Limits, each judged on its own.", keys: append(keys,
		key{name: "from", form: asWord, words: []string{"sea level"}, doc: "The limits hold at sea level."},
		key{name: "source", form: asText, doc: "Where the limits come from.", example: `"workshop manual, p. 112"`})}
}

func unitKey(units []quantity.Unit) key {
	return key{name: "unit", form: asWord, words: unitNames(units), doc: "Unit of bare numbers in this section."}
}

// FurtherTests are the sections of the further tests, in the order of the bench.
func FurtherTests() []string {
	var names []string
	for _, s := range measuredSections {
		names = append(names, s.name)
	}
	return names
}

// measuredSections are the further tests, in bench order. To add one, add it
// here.
var measuredSections = []measuredSection{
	oilPressureSection, startingSection, vacuumSection, balanceSection, magnetoSection, headSection, injectorSection, trimSection, gasSection, crankcaseSection,
	crankcaseHoldSection, backPressureSection, coolingSection, valveSection, timingSection, dieselSection,
}

// otherReadingKeys are those of a reading of any other kind.
var otherReadingKeys = []key{
	{name: "name", form: asText, doc: "What was measured.", example: "charging voltage"},
	{name: "reading", form: asText, doc: "What it read, with its unit.", example: "14.2 V"},
	{name: "limit", form: asText, doc: "Permitted: a range, 'at least ...' or 'at most ...'.", example: "13.8-14.6 V"},
	{name: "note", form: asText, doc: "Anything else about it."},
}

// measuredFileKeys are the keys of these sections in a job file.
func measuredFileKeys() []key {
	var out []key
	for _, s := range measuredSections {
		out = append(out, key{name: s.name, form: asTestSection, keys: s.keys, doc: s.doc, bare: s.bare, said: s.said, paired: s.paired})
	}
	return out
}

var oilPressureSection = measuredSection{
	name: "oil-pressure", units: pressuresRead, gauge: "oil", doc: "Oil pressure.",
	keys: []key{
		unitKey(pressuresRead),
		{name: "gauge", form: asWord, words: []string{"screwed in", "dash", "scan tool"}, says: "gauge read", doc: "What it was read on: a gauge in place of the sender, or what the vehicle shows."},
		{name: "oil", form: asGroup, doc: "The oil in the engine.", keys: []key{
			{name: "grade", form: asText, doc: "Its grade.", example: "10W-40"},
			{name: "at", form: asMeasured, units: warmths, doc: "Its temperature.", example: "185 F"},
			{name: "level", form: asWord, words: []string{"low", "right", "over full"}, says: "oil level", doc: "The level in the sump."},
			{name: "smell", form: asWord, words: []string{"none", "fuel"}, says: "smell of oil", doc: "What it smells of."},
		}},
		{name: "cranking", form: asMeasured, doc: "While the starter turns the engine.", example: "8"},
		{name: "cold-idle", form: asMeasured, keys: atSpeed, doc: "At idle, just started.", example: "45"},
		{name: "idle", form: asMeasured, keys: atSpeed, doc: "At idle, hot.", example: "{reading: 16, at: 750 rpm}"},
		{name: "at-speed", form: asAtSpeeds, doc: "Hot, by speed.", example: "{2000 rpm: 34, 3000 rpm: 46}"},
		limitsFrom(key{name: "cranking", example: "at least 5"}, key{name: "cold-idle", example: "at least 40 psi"}, key{name: "idle", example: "at least 10 psi"}, key{name: "at-speed", speeds: true, example: "44-78 psi"}),
	},
}

var needles = []string{"steady", "drops regularly", "drops now and then", "floats", "quivers", "not watched"}

var vacuumSection = measuredSection{
	name: "vacuum", units: suctions, gauge: "vacuum", doc: "Manifold vacuum, below the air's pressure.",
	keys: []key{
		unitKey(suctions),
		{name: "engine", form: asWord, words: temperatures, says: "temperature", doc: "Temperature of the engine."},
		{name: "idle", form: asMeasured, doc: "At idle, with what the needle did.", example: "{reading: 18.5, at: 700 rpm, needle: drops regularly, by: 4}", keys: append(atSpeed[:len(atSpeed):len(atSpeed)],
			key{name: "needle", form: asWord, words: needles, says: "vacuum needle", doc: "What the needle did, watched for a minute."},
			key{name: "by", form: asMeasured, doc: "How far it moved.", example: "4"})},
		{name: "with-speed", form: asWord, words: []string{"steadies", "swings wider", "swings quicker and smaller", "no change"}, says: "needle with speed", doc: "What the needle did as the speed rose."},
		{name: "snap", form: asGroup, doc: "On a quick opening and shutting of the throttle.", keys: []key{
			{name: "open", form: asMeasured, doc: "The least, as the throttle opened.", example: "2"},
			{name: "shut", form: asMeasured, doc: "The most, as it shut.", example: "24"},
		}},
		{name: "held", form: asMeasured, doc: "Held at a speed.", example: "{at: 2500 rpm, reading: 19, later: 11, after: 20 s}", keys: append(atSpeed[:len(atSpeed):len(atSpeed)],
			key{name: "later", form: asMeasured, doc: "What it read later.", example: "11"},
			key{name: "after", form: asMeasured, units: spans, doc: "How much later.", example: "20 s"})},
		{name: "cranking", form: asMeasured, doc: "While the starter turns the engine, throttle shut.", example: "{reading: 4, needle: steady}", keys: append(atSpeed[:len(atSpeed):len(atSpeed)],
			key{name: "needle", form: asWord, words: needles, says: "vacuum needle", doc: "What the needle did."})},
		limitsFrom(key{name: "idle", example: "17-21 inHg"}, key{name: "cranking", example: "at least 4"}),
	},
}

var coolingSection = measuredSection{
	name: "cooling", units: pressuresRead, gauge: "cooling", doc: "The cooling system.",
	keys: []key{
		{name: "cap", form: asGroup, units: pressuresRead, doc: "The pressure cap.", keys: []key{
			{name: "rated", form: asMeasured, doc: "What it is marked.", example: "15 psi"},
			{name: "opens", form: asMeasured, doc: "Where it opened.", example: "14.5 psi"},
		}},
		{name: "pressure-test", form: asGroup, units: pressuresRead, doc: "The cold system pumped up and watched.", keys: []key{
			unitKey(pressuresRead),
			{name: "pumped-to", form: asMeasured, doc: "What it was pumped to.", example: "18"},
			{name: "hold", form: asAtTimes, doc: "What it still held, by time.", example: "{2 min: 18, 5 min: 17, 12 h: 9}"},
			{name: "plugs-out", form: asYesNo, doc: "Whether the plugs were out."},
			{name: "seen", form: asText, doc: "Where it was wet: dry, outside at ..., wet in 3, oil.", example: "wet in 3"},
		}},
		{name: "thermostat", form: asGroup, units: warmths, doc: "The thermostat in hot water.", keys: []key{
			{name: "rated", form: asMeasured, doc: "What it is marked.", example: "180 F"},
			{name: "starts", form: asMeasured, doc: "Where it began to open.", example: "181 F"},
			{name: "open", form: asMeasured, doc: "Where it was fully open.", example: "200 F"},
		}},
		{name: "warm", form: asGroup, doc: "How the engine warmed up.", keys: []key{
			{name: "reaches", form: asMeasured, units: warmths, doc: "The temperature that it reached.", example: "195 F"},
			{name: "after", form: asMeasured, units: spans, doc: "How long it took.", example: "12 min"},
			{name: "then", form: asWord, words: []string{"steady", "climbs", "never warm"}, says: "warming", doc: "What it did then."},
		}},
		{name: "coolant", form: asGroup, doc: "The coolant.", keys: []key{
			{name: "look", form: asWord, words: []string{"clean", "rust", "oil", "gas bubbles"}, says: "look of coolant", doc: "How it looks."},
			{name: "freezes", form: asMeasured, units: warmths, signed: true, doc: "Where it freezes.", example: "-30 F"},
		}},
	},
}

var valveSection = measuredSection{
	name: "valves", units: clearances, paired: bothValves, doc: "Valve clearance and lift. The inlet valve's before the exhaust valve's, a cylinder to a line, is understood too: {unit: mm, 1: 0.10/0.28, 2: 0.12/0.28}.",
	keys: []key{
		unitKey(clearances),
		{name: "engine", form: asWord, words: temperatures, says: "temperature", doc: "Temperature of the engine."},
		{name: "inlet", form: asReadings, words: []string{"none"}, perName: true, doc: "Clearance of the inlet valves, by cylinder, [0.20, 0.18] for two valves of one; none where there was none.",
			example: "{1: 0.20, 2: 0.20}"},
		{name: "exhaust", form: asReadings, words: []string{"none"}, perName: true, doc: "Clearance of the exhaust valves, by cylinder.", example: "{1: 0.30, 3: none}"},
		{name: "lift", form: asGroup, doc: "How far the valves open.", keys: []key{
			{name: "inlet", form: asReadings, perName: true, doc: "Lift of the inlet valves, by cylinder.", example: "{3: 6.1}"},
			{name: "exhaust", form: asReadings, perName: true, doc: "Lift of the exhaust valves, by cylinder.", example: "{3: 9.0}"},
		}},
		limitsFrom(key{name: "inlet", example: "0.15-0.25"}, key{name: "exhaust", example: "0.25-0.35"}, key{name: "lift-inlet", limits: "lift inlet", example: "9.2"}, key{name: "lift-exhaust", limits: "lift exhaust", example: "9.0"}),
	},
}
