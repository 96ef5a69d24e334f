package job

var magnetoSection = measuredSection{
	name: "magnetos", units: speedsRead, said: bothDrops, doc: "Magneto check: how far the speed falls on each magneto alone.",
	keys: []key{
		{name: "at", form: asMeasured, units: speedsRead, doc: "The speed on both magnetos.", example: "1800 rpm"},
		{name: "left", form: asMeasured, doc: "How far it falls on the left magneto alone, the right switched off; 0 where it does not fall.", example: "90"},
		{name: "right", form: asMeasured, doc: "How far it falls on the right magneto alone, the left switched off.", example: "48"},
		limitsFrom(key{name: "drop", limits: "left, right", units: speedsRead, permits: atMost, doc: "The most that it may fall on either.", example: "150"},
			key{name: "difference", units: speedsRead, permits: atMost, doc: "The most that the two may differ by.", example: "50"}),
	},
}

// Temperatures are compared as figures in degrees Fahrenheit, whatever unit they are
// typed in: see known.HeadCold.
var headSection = measuredSection{
	name: "heads", units: warmths, bare: "temperature", doc: "Temperatures of the cylinder heads, by cylinder: {unit: F, 1: 331, 2: 325}.",
	keys: []key{
		unitKey(warmths),
		{name: "magneto", form: asWord, words: []string{"left", "right", "both"}, says: "magneto", doc: "The magneto that the engine ran on."},
		{name: "at", form: asMeasured, units: speedsRead, doc: "The speed that it ran at.", example: "1400 rpm"},
		{name: "temperature", form: asReadings, perName: true, doc: "By cylinder; the cylinders may stand in the section itself.", example: "{1: 331, 2: 325}"},
		limitsFrom(key{name: "temperature", permits: atMost, example: "at most 435 F"}),
	},
}

var crankcaseHoldSection = measuredSection{
	name: "crankcase-hold", units: lowPressures, said: fellTo, doc: "A two-stroke's crankcase pumped up, or empty, its ports closed: 6 psi to 5.5 in 10 min, vacuum 12 inHg to 11 in 5 min.",
	keys: []key{
		unitKey(lowPressures),
		{name: "under", form: asWord, words: []string{"pressure", "vacuum"}, says: "held under", doc: "Whether it was pumped up, or empty; in inHg it was pumped empty."},
		{name: "pumped-to", form: asMeasured, doc: "What it was pumped to, without a sign.", example: "6"},
		{name: "hold", form: asAtTimes, doc: "What it still held, by time.", example: "{10 min: 5.5}"},
		{name: "seen", form: asText, doc: "Where it leaked.", example: "bubbles at the flywheel side"},
		limitsFrom(key{name: "fall", permits: atMost, doc: "The most that it may fall.", example: "at most 0.5 psi"}),
	},
}
