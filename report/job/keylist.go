package job

import "slices"

// A Key is one key of the job file, as help and questions show it.
type Key struct {
	Name    string
	Doc     string // what it holds, a sentence
	Written string // how its value is written: "a number with its unit"
	Words   []Word // the words that it may be, where it is one of a list
	Example string // a value for it, as YAML
	// InsteadOf is the key whose place it takes, "" for none.
	InsteadOf string
	// ByCylinder tells that the value, or what stands under it, goes by cylinder.
	ByCylinder bool
	// Keys are those below it. Those of As stand there instead: the same keys
	// have been listed under that path already.
	Keys []Key
	As   string
}

// A Word is a word of the job file with others that are taken for it.
type Word struct {
	Name string
	Also []string // the usual ones first
}

// Keys gives the keys of a job file in the order of the bench sheet.
func Keys() []Key {
	l := lister{listed: map[*key]string{}}
	var ordered []key
	for _, name := range benchOrder {
		ordered = append(ordered, keyOf(fileKeys, name))
	}
	return l.keys(ordered, "")
}

// A lister lists keys, and remembers under which path a set of them stands.
type lister struct{ listed map[*key]string }

func (l lister) keys(keys []key, path string) []Key {
	out := make([]Key, 0, len(keys))
	for _, k := range keys {
		one := Key{Name: k.written(), Doc: k.doc, Written: writtenAs[k.form], Words: k.wordsWithOthers(), Example: k.shown(joinPath(path, k.written())),
			InsteadOf: k.insteadOf, ByCylinder: k.perName}
		if k.form == asWord && len(k.words) == 0 {
			one.Written = writtenAs[asText]
		}
		out = append(out, one)
	}
	for _, instead := range []bool{false, true} { // what stands instead of another comes second
		for i, k := range keys {
			if (k.insteadOf != "") == instead {
				out[i].Keys, out[i].As = l.below(k, joinPath(path, out[i].Name))
			}
		}
	}
	return out
}

// below lists the keys under a key. Those of 'before' are the sections again.
func (l lister) below(k key, path string) ([]Key, string) {
	switch {
	case len(k.keys) == 0:
		return nil, ""
	case k.name == "before" && k.form == asSpecial:
		return l.keys(slices.DeleteFunc(slices.Clone(k.keys), func(sub key) bool { return keyOf(fileKeys, sub.name).name != "" }), path), "the sections of the file"
	}
	if first, again := l.listed[&k.keys[0]]; again {
		return nil, "'" + first + "'"
	}
	l.listed[&k.keys[0]] = path
	return l.keys(k.keys, path), ""
}

func joinPath(path, name string) string {
	if path == "" {
		return name
	}
	return path + "." + name
}

// writtenAs says how values of each form are written.
var writtenAs = map[form]string{
	asText: "words", asTexts: "a list of texts", asWord: "one of", asWordList: "one or more of", asYesNo: "yes or no", asWhole: "a whole number", asBare: "a number",
	asDate: "a date, year-month-day", asClock: "hours and minutes in quotes", asAmount: "a number with its unit", asReading: "a reading",
	asReadings: "readings by cylinder, or a list in numerical order", asNames: "a list of cylinders", asFileName: "a file beside the job file",
	asFileNames: "a list of files beside the job file", asGroup: "keys of its own", asTestSection: "keys of its own, or 'not tested', 'could not test (why)', 'declined'",
	asGroups: "a list of sets of keys", asByName: "sets of keys, each under a name", asMeasured: "a reading", asAtSpeeds: "readings by speed",
	asAtTimes: "readings by time", asByBank: "sets of keys by bank", asAllTexts: "words by cylinder", asPermitted: "a permitted range",
}

// mostShown is how many other words are shown for a word.
const mostShown = 4

// Usual are the most usual other words for it.
func (w Word) Usual() []string { return w.Also[:min(len(w.Also), mostShown)] }

// wordsWithOthers are a key's words, each with those that stand for it.
func (k key) wordsWithOthers() []Word {
	var out []Word
	for _, w := range k.words {
		others := vocabularyOf(k.says).others([]string{w})
		out = append(out, Word{Name: w, Also: others})
	}
	return out
}

// shown is the example of a key, or one that its form gives; "" for a key that
// is shown by those under it.
func (k key) shown(path string) string {
	switch {
	case k.example != "":
		return k.example
	case (k.form == asWord || k.form == asWordList) && len(k.words) > 0:
		return k.words[0]
	case k.form == asYesNo:
		return "no"
	case k.form == asReading:
		return "120"
	}
	if words, ok := freeWords[path]; ok {
		return words
	}
	return freeWords[k.name]
}

// freeWords are examples of keys that hold words of one's own, by name, or by
// path where another of that name holds something else.
var freeWords = map[string]string{
	"independence": "Paid by the buyer; no interest in the sale", "recommended": "[new drive belt]", "declined": "[coolant flush]",
	"notes": "Idle rough until warm.", "technician": "R. Okafor", "reason": "Bought untested", "ordered-by": "the buyer", "place": "at the seller's yard",
	"by": "the owner", "when": "2026-05-13", "how": "by telephone", "name": "A. Mbeki", "address": "4 Mill Lane", "phone": "555 0142", "email": "office@example.com",
	"registration": "No. 1047", "disclaimer": "Estimates hold for 30 days.", "font": "Liberation Sans", "vin": "1Z9HM4120W0P31207", "plate": "TEST 41",
	"engine-number": "E 20417", "vin-matches": "plate and screen agree", "state-on-arrival": "cold, no warning lights; codes not cleared",
	"shows": "plug 3", "file": "photo-4.jpg", "wet-in-words": "slightly better on all", "note": "as it came out", "source": `"workshop manual, p. 112"`,
	"method": "push-in gauge held by hand", "ignition-disabled": "coil feed unplugged", "fuel-disabled": "pump relay out", "good-reading": "5 %",
	"shop.name": "Harrow Mills Engine Works", "shop.gauges.name": "dial A", "engine.cylinders.name": "front left",
	"x": "0", "y": "1", "head": "1", "reading": "16", "shop": "shop.yaml",
}
