package job

import (
	"slices"

	"gaugesheet/diag/quantity"
	"gaugesheet/templates"
)

// A form is how the value of a key is written.
type form uint8

const (
	asText        form = iota
	asTexts            // a list of texts
	asWord             // one of the key's words
	asWordList         // a list of the key's words
	asYesNo            // yes or no
	asWhole            // a whole number
	asBare             // a number without a unit
	asDate             // 2026-05-14
	asClock            // 09:40
	asAmount           // a number with its unit
	asReading          // a pressure, in the section's unit or its own
	asReadings         // readings by cylinder
	asNames            // a list of cylinders
	asFileName         // a file beside the job file
	asFileNames        // a list of them
	asGroup            // further keys
	asTestSection      // further keys, or a word such as not tested
	asGroups           // a list of sets of further keys
	asByName           // a set of keys of the user's own, each with further keys
	asSpecial          // described by the key's own schema

	// Of the further tests:
	asMeasured  // a reading, perhaps with its speed behind 'at', or {reading: ..., at: ...} with further keys
	asAtSpeeds  // readings by speed: {2000 rpm: 34}; with keys, a set of them by speed
	asAtTimes   // readings by time: {5 min: 36}
	asByBank    // a set of keys by bank
	asAllTexts  // texts by cylinder
	asPermitted // a permitted range
)

// A key is one key of the job file: the single source of the reader's lists of
// keys and words, and of the JSON Schema.
type key struct {
	name      string
	form      form
	doc       string
	words     []string          // for asWord and asWordList
	says      string            // the vocabulary of other words for them
	keys      []key             // for forms with further keys
	example   string            // as YAML
	perName   bool              // the example goes by cylinder
	apart     bool              // one that is worn reads many times the others
	insteadOf string            // the key whose place it takes
	paired    func(*node) *node // of a section: takes cylinders that stand in it apart into its keys
	bare      string            // of a section: the key under which cylinders go that stand in the section itself
	said      saidAs            // of a section: how it is told in one line, nil for no such way

	// Of the further tests: the units that a reading may be in, its values being
	// in the first, none where they are those of its section; whether it may be
	// below zero; that the key stands for every speed that is written in its
	// place; and what a single figure permits.
	units   []quantity.Unit
	signed  bool
	zero    bool // of a limit: it may be nothing, beyond which pressure begins
	speeds  bool
	permits permitted
	limits  string // the reading that it limits, where it has another name; several with commas
	schema  string // for asSpecial: JSON Schema, without the description
}

var (
	pressureUnits = []string{"psi", "kPa", "bar", "MPa", "kgf/cm2"}
	sheetWords    = templates.JobKinds()
	paperWords    = []string{"letter", "a4", "legal"}
	languageWords = templates.Languages()
	complaints    = []string{"misfire", "no start", "hard start", "rich running", "lean running", "low power", "oil use",
		"coolant loss", "overheating", "noise", "stood"}
	temperatures = []string{"cold", "warm", "hot"}
	looks        = []string{"normal", "worn", "sooty", "fuel-wet", "oil-wet", "ash", "white", "blistered", "melted", "detonation",
		"coolant", "bridged", "damaged", "tracked"}
	places      = []string{"exhaust", "inlet", "crankcase", "coolant", "neighbour", "outside", "valve cover", "nowhere"}
	fuelSystems = []string{"carburettor", "throttle body", "port, return line", "port, no return", "direct, low side", dieselSupply}
	fuels       = []string{"petrol", "diesel", "lpg", "cng", "ethanol", "two-stroke mix"}
	smokeColors = []string{"blue", "white", "black"}
	smokes      = append(slices.Clone(smokeColors), "none")
	smokeTimes  = []string{"start", "idle", "load", "overrun", "always"}
)

// dieselSupply is the kind of fuel system that only a diesel has.
const dieselSupply = "diesel, lift pump"

// otherSpellings are keys as American English has them, or of one where there may be several.
var otherSpellings = map[string]string{"authorized": "authorised", "color": "colour", "intake-closes": "inlet-closes", "intake": "inlet", "lift-intake": "lift-inlet", "hot-idle": "idle", "complaint": "complaints"}

// fileKeys are the keys of a job file.
var fileKeys = slices.Concat([]key{
	{name: "format", form: asWhole, doc: "Version of this format; 1 is the only one so far.", example: "1"},
	{name: "sheet", form: asWord, words: sheetWords, says: "sheet", doc: "Which sheet to draw; customer where not given."},
	{name: "paper", form: asWord, words: paperWords, says: "paper", doc: "Paper size; the shop profile's, or letter, where not given."},
	{name: "language", form: asWord, words: languageWords, says: "language",
		doc: "The sheet's language: en American English, en-GB British. The shop profile's where not given, else by its paper: A4 British, others American."},
	{name: "job", form: asGroup, keys: jobKeys, doc: "The job that the test was done for."},
	{name: "shop", form: asSpecial, keys: shopKeys, doc: "The shop: a file of these keys beside the job file, or the keys themselves.",
		schema: `{"anyOf": [{"type": "string"}, {"$ref": "#/$defs/shop"}]}`},
	{name: "customer", form: asGroup, keys: personKeys, doc: "Whom the sheet is for."},
	{name: "seller", form: asGroup, keys: personKeys, doc: "Who sells the vehicle, for a pre-purchase sheet."},
	{name: "independence", form: asText, doc: "Who pays for the inspection and what interest the inspector has in the sale."},
	{name: "vehicle", form: asGroup, keys: vehicleKeys, doc: "The vehicle that the engine is in."},
	{name: "engine", form: asGroup, keys: engineKeys, doc: "The engine. Required."},
	{name: "conditions", form: asGroup, keys: conditionKeys, doc: "How the test was done."},
	{name: "gauges", form: asGroup, keys: gaugesKeys, doc: "The gauges used, one for each kind of test."},
	{name: "compression", form: asTestSection, keys: compressionKeys, doc: "Cranking compression. Not for rotary engines."},
	{name: "leakage", form: asTestSection, keys: leakageKeys, doc: "Cylinder leakage in percent of the supply."},
	{name: "plugs", form: asTestSection, keys: plugsKeys, doc: "The spark plugs as read."},
	{name: "rotors", form: asTestSection, keys: rotorsKeys, doc: "Compression of a rotary engine, by face."},
	{name: "fuel-pressure", form: asTestSection, keys: fuelKeys, doc: "Fuel pressure."},
}, measuredFileKeys(), []key{
	{name: "other-readings", form: asGroups, doc: "Anything else that was measured, printed as it is and judged by its own limit alone.", keys: otherReadingKeys,
		example: "[{name: charging voltage, reading: 14.2 V, limit: 13.8-14.6 V}]"},
	{name: "before", form: asSpecial, keys: beforeKeys, doc: "The readings before the work that this test proves: the same keys as the sections.",
		example: "{done: new rings, date: 2026-04-02, compression: {unit: psi, dry: {1: 95}}}", schema: `{"$ref": "#/$defs/before"}`},
	{name: "smoke", form: asGroup, doc: "Smoke from the exhaust.", keys: []key{
		{name: "colour", form: asWord, words: smokes, says: "smoke colour", doc: "Its colour."},
		{name: "when", form: asWordList, words: smokeTimes, says: "time of smoke", doc: "When it is seen.", example: "[start, overrun]"},
	}},
	{name: "borescope", form: asSpecial, keys: boreKeys, doc: "What was seen through the borescope, by cylinder: in free words, or by part.",
		example: "{3: {wall: scored, crown: carbon, valves: good, seat: good, note: at the front}}", perName: true,
		schema: `{"anyOf": [{"type": "string"}, {"type": "object", "additionalProperties": {"anyOf": [{"type": "string"}, {"$ref": "#/$defs/bore"}]}},
			{"type": "array", "items": {"anyOf": [{"type": "string"}, {"$ref": "#/$defs/bore"}]}}]}`},
	coolantGasKey,
	{name: "photos", form: asGroups, keys: photoKeys, doc: "Photos that belong to the job.", example: "[{name: P4, shows: plug 3}]"},
	{name: "findings", form: asTexts, doc: "What the technician saw and wants said, in the technician's words.", example: "[play in the fan bearing]"},
	{name: "recommended", form: asTexts, doc: "Work recommended."},
	{name: "declined", form: asTexts, doc: "Work declined by the customer."},
	{name: "not-tested", form: asSpecial, doc: "What was not tested, and why.", example: "{valve clearance: cover not taken off}",
		schema: `{"anyOf": [{"type": "object", "additionalProperties": {"type": "string"}}, {"type": "array", "items": {"type": "string"}}, {"type": "string"}]}`},
	{name: "notes", form: asText, doc: "Anything else, printed as it is."},
	{name: "earlier", form: asFileNames, doc: "Earlier job files of the same engine, to compare with.", example: "[2025-11-02.yaml]"},
})

var jobKeys = []key{
	{name: "number", form: asText, doc: "Job number.", example: `"W-2041"`},
	{name: "date", form: asDate, doc: "Date of the test, ISO 8601.", example: "2026-05-14"},
	{name: "technician", form: asText, doc: "Who did the test."},
	{name: "reason", form: asText, doc: "Why the engine was tested."},
	{name: "complaints", form: asWordList, words: complaints, says: "complaint", doc: "What is wrong with the vehicle; a customer's own sentence is understood where such a word stands in it; other words are printed as they are, and as not answered by these tests.", example: "[misfire, oil use]"},
	{name: "onset", form: asText, doc: "How the complaint came on.", example: "slow over months"},
	{name: "oil-use", form: asText, doc: "Oil used over a distance.", example: "1 l in 1000 km"},
	{name: "ordered-by", form: asText, doc: "Who asked for the test; before a purchase, the buyer."},
	{name: "invoice", form: asText, doc: "Number of the invoice.", example: `"3310"`},
	{name: "place", form: asText, doc: "Where the test was done."},
	{name: "started", form: asClock, doc: "When the test began, 24 hours.", example: `"09:40"`},
	{name: "authorised", form: asGroup, doc: "Who allowed the work.", keys: []key{
		{name: "by", form: asText, doc: "Who."},
		{name: "when", form: asText, doc: "When."},
		{name: "how", form: asText, doc: "How: in writing, by telephone."},
	}},
	{name: "valid", form: asGroup, doc: "How long the sheet is good for.", keys: []key{
		{name: "days", form: asWhole, doc: "Days from the date of the test.", example: "60"},
		{name: "distance", form: asAmount, doc: "Distance driven since the test: km, mi or h.", example: "2000 km"},
	}},
}

var shopKeys = []key{
	{name: "name", form: asText, doc: "Name of the shop.", example: "Harrow Mills Engine Works"},
	{name: "address", form: asText, doc: "Address."},
	{name: "phone", form: asText, doc: "Telephone."},
	{name: "email", form: asText, doc: "E-mail."},
	{name: "registration", form: asText, doc: "Registration or licence of the shop."},
	{name: "logo", form: asFileName, doc: "PNG or JPEG file beside the file that names it.", example: "logo.png"},
	{name: "accent", form: asText, doc: "The sheet's one colour, in quotes.", example: `"#2e6b57"`},
	{name: "paper", form: asWord, words: paperWords, says: "paper", doc: "Paper size where the job gives none."},
	{name: "language", form: asWord, words: languageWords, says: "language", doc: "Language where the job gives none."},
	{name: "disclaimer", form: asText, doc: "The shop's own words at the foot of the sheet."},
	{name: "font", form: asText, doc: "Name of the sheet's typeface."},
	{name: "defaults", form: asSpecial, doc: "What holds for every job unless the job says otherwise: any keys of a job.",
		example: "{job: {technician: R. Okafor}, conditions: {plugs-out: all}}", schema: `{"type": "object"}`},
	{name: "gauges", form: asByName, keys: gaugeKeys, doc: "The shop's gauges by name; a job names them under 'gauges'.", example: "{dial A: {range: 0-300 psi, accuracy: 2 % of span}}"},
}

var personKeys = []key{
	{name: "name", form: asText, doc: "Name."},
	{name: "address", form: asText, doc: "Address."},
	{name: "phone", form: asText, doc: "Telephone."},
	{name: "email", form: asText, doc: "E-mail."},
}

var vehicleKeys = []key{
	{name: "description", form: asText, doc: "The vehicle in a few words. What they tell of its engine (diesel, hybrid, two-stroke, air-cooled, turbo) counts where no key says it.", example: "2009 panel van, long wheelbase"},
	{name: "vin", form: asText, doc: "Vehicle identification number as read. A wrong check digit is a notice, not an error."},
	{name: "vin-read-at", form: asText, doc: "Where the number was read.", example: "screen plate"},
	{name: "plate", form: asText, doc: "Registration plate."},
	{name: "engine-number", form: asText, doc: "Number on the engine."},
	{name: "odometer", form: asGroup, doc: "Distance or hours run.", keys: []key{
		{name: "reading", form: asAmount, doc: "With its unit: mi, km or h.", example: "143210 mi"},
		{name: "status", form: asWord, words: []string{"actual", "not actual", "unknown"}, says: "odometer status", doc: "Whether the reading is the true distance."},
	}},
	{name: "vin-matches", form: asText, doc: "Which places the number agrees in."},
	{name: "state-on-arrival", form: asText, doc: "How the vehicle came in."},
	{name: "codes", form: asTexts, doc: "Diagnostic trouble codes found.", example: "[P0303]"},
	{name: "stood", form: asSpecial, doc: "How long the engine stood unused.", example: "8 months",
		schema: `{"type": "string", "pattern": "^[0-9.]+ *(days?|weeks?|months?|years?)$"}`},
	{name: "driver-side", form: asWord, words: []string{"left", "right"}, says: "driver side", doc: "Side of the steering wheel, only for the label 'driver side'."},
	{name: "work-done", form: asTexts, doc: "Work done before; never proposed again as a next check.", example: "[new plugs]"},
}

var photoKeys = []key{
	{name: "name", form: asText, doc: "Short name, as readings refer to it.", example: "P4"},
	{name: "shows", form: asText, doc: "What it shows."},
	{name: "file", form: asFileName, doc: "The photo's file beside the job file; it stands upright on the page as its camera says."},
}
