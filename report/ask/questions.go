package ask

import (
	"fmt"
	"slices"
	"strings"

	"gaugesheet/diag/engine"
	"gaugesheet/diag/quantity"
	"gaugesheet/report/job"
)

// mainQuestions are those of every job, in the order of the bench: the engine,
// what is wrong, fuel pressure while it still runs, the plugs as they come out,
// how it was cranked, compression with its limits.
func mainQuestions() []*question {
	return []*question{
		{path: "engine.layout", say: "Engine", hint: "such as V8, inline-4, flat six", must: true, take: takeEngine, show: engineShown,
			help: "how many cylinders, and how they stand: 'gaugesheet engines' lists them all."},
		{path: "numbering", say: "Which is it", hints: numberingHint, when: unnumbered, take: takeNumbering, show: numberingShown, help: numberingHelp,
			later: "No sheet is drawn without it. " + numberingHelp + " Enter once more goes on, and the job file then lacks only that."},
		{path: "engine.fuel", say: "Fuel", when: notSaid("engine.fuel"), take: asWord("engine.fuel")},
		{path: "job.number", say: "Job number", hint: "such as W-2041", take: asText("job.number")},
		{path: "job.date", say: "Date of the test", hint: "t for today, y for yesterday, or such as 2026-05-14", take: asDate("job.date"), tells: true},
		{path: "vehicle.description", say: "Vehicle", hint: "such as 2009 panel van", take: asText("vehicle.description")},
		{path: "job.complaints", say: "What is wrong with it", take: takeComplaints, show: complaintsShown},
		{path: "fuel-pressure.key-on", state: "fuel-pressure", say: "Fuel pressure", hint: "key on, idle, hose off, snap: as many as were read, such as 41 33 42 psi", take: fuelLine, show: inUnit},
		{path: "fuel-pressure.limits.key-on", say: "Permitted with the key on", hint: "such as 35-45", when: read("fuel-pressure"), take: asText("fuel-pressure.limits.key-on")},
		{path: "plugs.looks", state: "plugs", say: "Spark plugs", hint: "normal for all, or such as normal 3=oil-wet; ? lists the words", when: hasPlugs, take: takePlugs, show: byCylinderShown, help: plugHelp, words: "plugs.looks.look"},
		{path: "conditions.engine", say: "Engine during the compression test", take: asWord("conditions.engine")},
		{path: "conditions.throttle", say: "Throttle", when: hasPlugs, take: asWord("conditions.throttle")},
		{path: "conditions.plugs-out", say: "Plugs out", when: hasPlugs, take: asWord("conditions.plugs-out")},
		{path: "conditions.strokes", say: "Strokes on each cylinder", hint: "such as 6", when: hasCylinders, take: asText("conditions.strokes")},
		{path: "compression.dry", state: "compression", say: "Compression", hints: inOrder("such as 150 148 ... psi"), when: hasCylinders, take: cylinderValues("compression", "compression.dry"), show: compressionShown, help: readingHelp},
		{path: "rotors.faces", state: "rotors", say: "Compression of the faces", hint: "three for each rotor, such as 7.4 7.2 7.3 7.0 6.9 5.1 kgf/cm2", when: hasRotors, take: takeFaces, show: inUnit, help: "three for each rotor, in the order read."},
		{path: "compression.limits.minimum", say: "Least compression by the book", hint: "such as 128 psi", when: read("compression"), take: asText("compression.limits.minimum")},
		{path: "compression.limits.spread", say: "How far apart they may lie by the book", hint: "such as 10 %, 25 psi, or lowest 75 %", when: read("compression"), take: takeSpread, show: inUnit},
		{path: "rotors.limits.minimum", say: "Least compression by the book", hint: "such as 6.9 kgf/cm2", when: read("rotors"), take: asText("rotors.limits.minimum")},
		{path: "source", say: "Which book, which page", hint: "such as workshop manual, p. 112", when: hasLimits, take: takeSource},
		elseQuestion(),
	}
}

const readingHelp = `one reading for each in the order of the numbers: 150 148 110 149 psi. Or by name: 1=150 3=110.
  about 155, 150-155, over 300, [158 160] for two readings of one; - for one that was not read;
  not tested, could not test (plug seized) with commas between: 150, not tested, 110, 149.`

const numberingHelp = `How the cylinders are numbered stands on the engine or in its manual.`

const plugHelp = `one word for all, such as normal; all in order; or those that differ: normal 3=oil-wet 5=sooty.`

func unnumbered(s *Session) bool {
	if s.engine == nil || !s.engine.IsTwoBank() || s.draft.has("engine.banks") {
		return false
	}
	open := len(engine.Choices(s.engine.Layout)) > 0 && engine.Choices(s.engine.Layout)[0].Numbering != "" && !s.draft.has("engine.numbering")
	return open || !s.draft.has("engine.first-bank")
}

func hasCylinders(s *Session) bool { return s.engine.Kind != engine.Rotary }

func hasRotors(s *Session) bool { return s.engine.Kind == engine.Rotary }

// notSaid tells whether a key was not given with an earlier answer.
func notSaid(path string) func(s *Session) bool {
	return func(s *Session) bool { return !s.draft.has(path) || s.was[path] != "" }
}

func isDiesel(s *Session) bool { return s.draft.value("engine.fuel") == "diesel" }

// hasPlugs tells an engine with spark plugs, and with a throttle, from a diesel.
func hasPlugs(s *Session) bool { return !isDiesel(s) }

// read tells whether a section has something below its unit.
func read(section string) func(s *Session) bool {
	return func(s *Session) bool {
		return slices.ContainsFunc(s.draft, func(e entry) bool { return len(e.path) > 1 && e.path[0] == section && e.path[1] != "unit" })
	}
}

func hasLimits(s *Session) bool {
	return s.draft.has("compression.limits") || s.draft.has("rotors.limits") || s.draft.has("fuel-pressure.limits")
}

// takeEngine takes a layout, with its numbering where that is said too. It is
// asked for first: what was typed of another engine has no place any more.
func takeEngine(s *Session, line string) ([]entry, error) {
	chosen, rest := choiceIn(line)
	if chosen.Numbering == "" || chosen.FirstBank == "" {
		chosen, rest = engine.Choice{}, line
	}
	line = rest
	spec, problem := engine.SpecFor(line)
	entries := []entry{at("engine.layout", spec.Layout)}
	if problem != nil { // the reader knows more names of engines, and takes what else is said of one
		entries = nil
		for _, said := range job.EngineWords(sized(line)) {
			entries = append(entries, at("engine."+said[0], said[1]))
		}
		if !slices.ContainsFunc(entries, func(e entry) bool { return e.path[len(e.path)-1] == "layout" }) {
			return nil, fmt.Errorf("how many cylinders has it, and how do they stand? Such as V8, inline-4, flat six")
		}
	}
	if len(spec.Custom) > 0 {
		return nil, fmt.Errorf("an engine of your own layout needs the place of each cylinder: 'gaugesheet start custom' writes a job file for it")
	}
	if chosen.Numbering != "" {
		s.was["numbering"] = chosen.Numbering + ", " + chosen.FirstBank
		entries = append(entries, entriesOf(chosen)...)
	} else if spec.Numbering != "" {
		s.was["numbering"] = spec.Numbering
	}
	s.draft = slices.DeleteFunc(slices.Clone(s.draft), func(e entry) bool { return e.path[0] == "engine" })
	return entries, nil
}

// sized gives a number that is too large to be of cylinders the unit that it is
// in, twin 650. What was understood is shown.
func sized(line string) string {
	fields := strings.Fields(line)
	for i, f := range fields {
		if unit := job.SizeUnit(f, line); unit != "" && (i+1 == len(fields) || !isUnit(fields[i+1])) {
			fields[i] = strings.TrimRight(f, ",") + " " + unit
			return strings.Join(fields, " ")
		}
	}
	return line
}

// engineShown says the layout as the program calls it, and draws what is to be
// chosen from.
func engineShown(s *Session, entries []entry) {
	s.draft = s.draft.with([]entry{at("engine.layout", s.engine.Layout)})
	said := "= " + s.engine.Layout
	for _, e := range entries {
		if name := e.path[len(e.path)-1]; name != "layout" {
			said += ", " + name + " " + shownValue(e.value)
		}
	}
	s.say(said)
	if unnumbered(s) {
		s.say("How are its cylinders numbered, and on which side of the vehicle is number 1?")
		for _, line := range engine.DrawChoices(s.engine.Layout) {
			s.say(line)
		}
		s.say("Of an engine that sits crosswise write front or rear for left or right.")
	}
}

func isUnit(text string) bool {
	v, err := quantity.Parse("1 " + text)
	return err == nil && v.Unit != quantity.None
}

var fuelFields = []field{{"fuel-pressure.key-on", "key on"}, {"fuel-pressure.idle", "idle"}, {"fuel-pressure.hose-off", "hose off"}, {"fuel-pressure.snap", "snap"}}

func fuelLine(s *Session, line string) ([]entry, error) {
	return several("fuel-pressure", fuelFields...)(s, line)
}

// inUnit shows values with the unit that they are in.
func inUnit(s *Session, entries []entry) {
	var parts []string
	for _, e := range entries {
		if name := e.path[len(e.path)-1]; name != "unit" {
			parts = append(parts, strings.ReplaceAll(name, "-", " ")+" "+strings.Trim(e.value, `"`))
		}
	}
	s.say(strings.TrimSpace("= " + strings.Join(parts, ", ") + " " + unitOf(entries)))
}

func byCylinderShown(s *Session, entries []entry) { s.byCylinder(entries) }

// takePlugs takes how the plugs look: a word for all, for each, or for those
// that differ.
func takePlugs(s *Session, line string) ([]entry, error) {
	const shortest = 2 // letters: one is too easily the answer to another question
	k := keyAt("plugs.looks.look")
	line = s.placed(line)
	values := namedWords(line, s.engine.Names())
	if values == nil {
		line = strings.TrimPrefix(fold(line), "all ")
		var err error
		if values, err = byName(line, s.engine.Names(), true); err != nil {
			if !isWord(k, line) {
				return nil, err
			}
			values = []value{{others, line}}
		}
	}
	var out []entry
	for _, v := range values {
		word := v.text
		switch {
		case isState(word):
		case len(word) < shortest:
			return nil, fmt.Errorf("'%s' is too short for how a plug looks; ? lists the words", word)
		default:
			var err error
			if word, err = oneWord(k, v.text); err != nil {
				return nil, err
			}
		}
		name := v.name
		if name == others && len(values) == 1 {
			name = "all"
		}
		out = append(out, entry{under("plugs.looks", name), scalar(word)})
	}
	return out, nil
}

// filling are words that say nothing beside cylinders and how they are.
var filling = []string{"and", "but", "except", "with", "the", "is", "are", "all", "for", "in", "at"}

// namedWords takes 'ok 3 oily', 'all good but 3 and 5 oily' and '1-4 sooty'
// apart: what stands before the first cylinder is for all others. It is nil
// where no cylinder is named, or each with a sign behind it.
func namedWords(line string, names []string) []value {
	var out []value
	var of, said []string
	flush := func() {
		for _, name := range of {
			out = append(out, value{name, strings.Join(said, " ")})
		}
		if of == nil && len(said) > 0 {
			out = append(out, value{others, strings.Join(said, " ")})
		}
		of, said = nil, nil
	}
	for _, w := range strings.Fields(strings.NewReplacer(",", " ", ";", " ", "+", " ", "#", " ").Replace(line)) {
		found := cylindersIn(w, names)
		if slices.Contains([]string{others, "other", "rest"}, fold(w)) {
			found = []string{others}
		}
		switch {
		case found != nil:
			if len(said) > 0 {
				flush()
			}
			of = append(of, found...)
		case !slices.Contains(filling, fold(w)):
			said = append(said, w)
		}
	}
	if of == nil && len(out) == 0 || strings.Contains(line, "=") {
		return nil
	}
	flush()
	return out
}

// cylindersIn gives the cylinders that a word names: one, or a range such as
// 1-4. A number is one, whether the engine has it or not.
func cylindersIn(word string, names []string) []string {
	if slices.Contains(names, word) || strings.Trim(word, "0123456789") == "" {
		return []string{word}
	}
	from, to, found := strings.Cut(word, "-")
	i, j := slices.Index(names, from), slices.Index(names, to)
	if !found || i < 0 || j < i {
		return nil
	}
	return names[i : j+1]
}

// takeFaces takes three readings for each rotor.
func takeFaces(s *Session, line string) ([]entry, error) {
	return s.withUnit("rotors", line, func(line string) ([]entry, error) {
		values := list(strings.NewReplacer(",", " ", ";", " ", "/", " ").Replace(line))
		names := s.engine.Names()
		if len(values) != 3*len(names) {
			return nil, fmt.Errorf("found %d readings, expected 3 for each of %d rotors", len(values), len(names))
		}
		var out []entry
		for i, name := range names {
			out = append(out, entry{under("rotors.faces", name), flow(values[3*i : 3*i+3])})
		}
		return out, nil
	})
}

// takeSpread takes how far apart readings may lie: a percentage of the highest,
// a pressure, or the lowest as a percentage of the highest.
func takeSpread(_ *Session, line string) ([]entry, error) {
	const half = 50 // percent: no book lets readings lie further apart
	if rest, found := strings.CutPrefix(fold(line), "lowest "); found {
		return []entry{at("compression.limits.lowest", rest)}, nil
	}
	number, _, percent := strings.Cut(line, "%")
	if !percent {
		return []entry{at("compression.limits.difference", line)}, nil
	}
	var most float64
	if _, err := fmt.Sscan(strings.TrimSpace(number), &most); err == nil && most > half {
		return nil, fmt.Errorf("highest less lowest up to %s %%? Where the lowest is to be at least that much of the highest, type lowest %s %%", strings.TrimSpace(number), strings.TrimSpace(number))
	}
	return []entry{at("compression.limits.spread", line)}, nil
}

// inOrder is a hint with the cylinders in the order in which they are typed.
func inOrder(example string) func(s *Session) string {
	return func(s *Session) string {
		names := s.engine.Names()
		order := strings.Join(names, " ")
		if n := len(names); n > 4 && order == strings.Join(numbersTo(n), " ") {
			order = "1 to " + names[n-1]
		}
		if len(names) == 1 {
			return example
		}
		return "in the order " + order + ", " + example
	}
}

func numbersTo(n int) []string {
	out := make([]string, n)
	for i := range out {
		out[i] = fmt.Sprint(i + 1)
	}
	return out
}

// takeSource takes where the limits come from, for each section that has some.
func takeSource(s *Session, line string) ([]entry, error) {
	var out []entry
	for _, section := range []string{"compression", "rotors", "fuel-pressure"} {
		if s.draft.has(section + ".limits") {
			out = append(out, at(section+".limits.source", line))
		}
	}
	return out, nil
}
