package job

import (
	"cmp"
	"slices"
	"strings"

	"gaugesheet/diag/quantity"
)

// noSection reports a value, or a list, in the place of a set of keys.
func (r *reader) noSection(n *node, name string, keys []key) {
	known := keyNames(keys)
	r.report(n.pos, r.sectionHint(r.uncut(n), name, keys), "%s is %s, expected keys such as %s", orFile(name), describe(n), allOf(known[:min(3, len(known))]))
}

// fileHint answers a file that is one text.
func (r *reader) fileHint(n *node) string {
	if n.pos.Line <= len(r.lines) {
		if strings.Contains(r.lines[n.pos.Line-1], "：") {
			return "write each colon as ':' with a space behind it, not as the wide '：'"
		}
		first := lineOf(strings.TrimSpace(r.lines[n.pos.Line-1]), n.pos.Line)
		if key, value := first.split(); value != "" && isKeyWord(key) {
			return "write '" + short(key+": "+value) + "', each key on a line of its own"
		}
	}
	return notesHint
}

// aloneUnder are the keys to which a value mostly belongs that stands in the
// place of its section, where others are as well possible.
var aloneUnder = map[string]string{"compression.limits": "minimum", "cooling.cap": "rated", "cooling.thermostat": "rated", "fuel-pressure.limits": "key-on", "fuel-pressure": "key-on", "oil-pressure": "idle", "vacuum": "idle", "back-pressure": "idle", "timing": "base",
	"gauges.compression": "range", "gauges.fuel": "range"}

// aloneUnits are the units in which such a value mostly is.
var aloneUnits = map[string]string{"fuel-pressure": "psi", "oil-pressure": "psi", "vacuum": "inHg", "back-pressure": "psi", "timing": "deg", "cooling.cap": "psi", "heads": "F", "compression": "psi", "valves": "mm", "crankcase": "inH2O", "crankcase-hold": "psi", "injectors": "ml/min", "gauges.compression": "psi", "gauges.fuel": "psi"}

// leadingFigure is the figure that a text begins with, in some unit where it has
// none, and the words behind it.
func leadingFigure(text, unit string) (figure, words string) {
	if len(text) > longestSaid {
		return "", text
	}
	fields := strings.Fields(text)
	for n := len(fields); n > 0; n-- {
		figure = strings.TrimRight(strings.Join(fields[:n], " "), ",;")
		p, err := quantity.ScanAs(figure, quantity.Pressure)
		if _, one := p.Single(); !one && !p.Only(quantity.To, quantity.PlusMinus) {
			continue
		}
		if err != nil || !strings.ContainsAny(figure, "0123456789") {
			continue
		}
		last := p.Parts[len(p.Parts)-1].Value.Unit
		figure = inchesOf(figure, unit)
		if last == quantity.None {
			figure = strings.TrimSpace(figure + " " + unit)
		}
		return figure, strings.Join(fields[n:], " ")
	}
	return "", text
}

// aloneHint says where a value belongs that stands in the place of its section.
func (r *reader) aloneHint(name, text string, keys []key) string {
	hint := r.aloneAnswer(name, text, keys)
	told, placed := sectionTold(strings.TrimPrefix(name, "before."), text, keys)
	usual := strings.Contains(hint, "if that is what it is") && placed < 2
	if strings.Contains(hint, "goes into 'notes'") || !strings.Contains(hint, "write '") || strings.HasPrefix(hint, "write what was read") || strings.Contains(hint, "if that is what it is") && !usual {
		hint = cmp.Or(told, hint)
	}
	return hint
}

// aloneAnswer is the answer to a text in the place of a section's keys in one of the ways that are usual for it.
func (r *reader) aloneAnswer(name, text string, keys []key) string {
	last := name[strings.LastIndexByte(name, '.')+1:]
	if name == "job" && len(text) <= longestSaid {
		return jobHint(text)
	}
	if hint := limitsHint(text, keys); hint != "" && last == "limits" {
		return hint
	}
	under := aloneUnder[name]
	if name == "compression.limits" && strings.Contains(text, "%") {
		under = "spread"
	} else if p, err := quantity.ScanAs(text, quantity.Pressure); name == "compression.limits" && err == nil && p.Only(quantity.To) && len(p.Parts) == 2 {
		under = "standard" // 128-170
	}
	if hint := cmp.Or(watchedWithin(last, text, keys), inWordsOfTest(last, text, keys), fuelRow(last, text), namedFigures(last, text, keys), watchedHint(last, text, keys), wordBefore(last, text, keys), wordAlone(last, text, keys)); hint != "" {
		return hint
	}
	if figure, words := leadingFigure(text, cmp.Or(aloneUnits[name], aloneUnits[last])); under != "" && figure != "" {
		return figureAlone(last, under, figure, words, keys)
	}
	if isTest(last) && (name == last || name == "before."+last) {
		figures, unit := unitBehind(text, keys)
		if row := cmp.Or(listKeyOf(keys), byCylinderIn[last]); row != "" && r.isRowOfAll(figures) && (unit != "" || listKeyOf(keys) != "") {
			text = figures
			if unit == "" && keyOf(keys, "unit").name != "" {
				unit = "unit: " + cmp.Or(aloneUnits[last], "...") + ", "
			}
			return "write '" + last + ": {" + unit + row + ": [" + strings.Join(figuresOf(text), ", ") + "]}', if that is what they are"
		}
		return "write what was read, such as '" + last + ": " + testExample(last, keys) + "', or 'not tested' where nothing was"
	}
	if hint := cmp.Or(r.groupRow(last, text, keys), partHint(last, text, keys)); hint != "" {
		return hint
	}
	if hint, placed := sectionTold(strings.TrimPrefix(name, "before."), text, keys); placed > 0 {
		return hint
	}
	if hint := groupForm(last, text, keys); strings.HasPrefix(hint, "write '") {
		return hint
	}
	for _, k := range keys {
		if k.form == asMeasured && k.example != "" && !strings.ContainsAny(text, "0123456789") { // pressure-test: good
			return "write what was read, such as '" + last + ": {" + k.name + ": " + k.example + ", ...}'; what was only seen goes into 'findings'"
		}
	}
	if name == "before" {
		return "write which test it was, such as 'before: {compression: {unit: psi, dry: " + cmp.Or(rowOf(figuresBehind(behindName(text), keysUnder("compression"))), "{1: 60}") + "}}'"
	}
	return groupForm(last, text, keys)
}

// unknownKey reports a key that its section does not have, and has what was
// probably meant read in its place, so that what is wrong inside it is said in
// the same run.
func (r *reader) unknownKey(n *node, i int, name string, keys []key) {
	e := n.entries[i]
	known := keyNames(keys)
	where := ""
	if name != "" {
		where = " in '" + name + "'"
	}
	if r.tornKey(n, i, name, where, keys) {
		return
	}
	if r.unitKey(n, i, name, where, keys) || r.suppliedRow(e, where) || r.unitBesideName(e, where) || r.valueAlone(n, i, where, keys) || r.cutText(n, i, where, keys) {
		return
	}
	if hint := cmp.Or(r.answered(n, e, name, keys), r.ownHint(n, e, name, keys)); hint != "" {
		r.report(e.pos, hint, "unknown key '%s'%s", short(e.key), where)
		return
	}
	is := keyMeant(e, name, known)
	meant, hint := is.name, is.hint
	if r.clockKey(n, i, meant, where) {
		return
	}
	if is.section != "" && name == "" {
		r.outside(n, i, is.section, keys)
		return
	}
	if meant == "" || is.section != "" || n.get(meant) != nil {
		r.report(e.pos, hint, "unknown key '%s'%s", short(e.key), where)
		return
	}
	k := keyOf(keys, meant)
	if word, _ := vocabularyOf(k.says).find(e.key, k.words); word != "" && saysYes(e.value) { // turbo: yes
		hint = "write '" + meant + ": " + word + "'"
		e.value = &node{pos: e.value.pos, text: word, plain: true, tag: "!!str"}
	}
	if rest, ok := strings.CutPrefix(e.key, meant+" "); ok && len(k.keys) == 0 && e.value.kind == scalar && e.value.text == "" { // {number W-1, ...}
		hint = "write '" + meant + ": " + short(rest) + "'"
		e.value = &node{pos: e.pos, text: rest, plain: true, tag: "!!str"}
	}
	one := &node{kind: mapping, entries: []entry{{meant, e.pos, e.value}}}
	r.spell(one, keys)
	value := one.entries[0].value
	if len(k.keys) > 0 && (k.form == asGroup || k.form == asTestSection) && value.kind != mapping && !r.isStated(value) {
		r.report(e.pos, cmp.Or(r.lineOfSection(value, name, k), r.readingsHint(labelOf(name, meant), value), hint), "unknown key '%s'%s", short(e.key), where)
		return
	}
	r.report(e.pos, hint, "unknown key '%s'%s", short(e.key), where)
	n.entries[i] = one.entries[0]
}

// tornKey answers a key whose colon has no space behind it, or is left out.
func (r *reader) tornKey(n *node, i int, name, where string, keys []key) bool {
	e, known := n.entries[i], keyNames(keys)
	if before, after, ok := strings.Cut(e.key, ":"); ok && isEmpty(e.value) && slices.Contains(known, fold(before)) { // {layout:V8}
		after = strings.TrimSpace(after)
		r.report(e.pos, "write '"+fold(before)+": "+short(after)+"', with a space behind the colon", "'%s'%s has no space behind its colon", short(e.key), where)
		n.entries[i] = entry{fold(before), e.pos, &node{pos: e.pos, text: after, plain: true, tag: "!!str"}}
		return true
	}
	if i := strings.LastIndexByte(e.key, ' '); i > 0 && isEmpty(e.value) && startsWithFigure(e.key[i+1:]) { // {vac off 42}
		if is := keyMeant(entry{e.key[:i], e.pos, e.value}, name, known); is.name != "" && is.section == "" {
			r.report(e.pos, "write '"+is.name+": "+e.key[i+1:]+"'", "'%s'%s has no colon", short(e.key), where)
			return true
		}
	}
	return false
}

// moved has a key of the file read where it belongs.
func (r *reader) moved(n *node, e entry, is meantKey) {
	if e.value.kind == mapping {
		return
	}
	to := n.get(is.section)
	if to == nil {
		to = &node{kind: mapping, pos: e.pos}
		n.entries = append(n.entries, entry{is.section, e.pos, to})
	}
	if to.kind != mapping || to.get(is.name) != nil || isEmpty(e.value) {
		return
	}
	to.entries = append(to.entries, entry{is.name, e.pos, e.value})
	r.spell(to, keysOf(fileKeys, is.section))
}

func saysYes(n *node) bool {
	word, _ := vocabularyOf("yes or no").find(n.text, []string{"yes"})
	return n.kind == scalar && word != ""
}

func (r *reader) isStated(n *node) bool {
	_, _, stated := parseState(n.text)
	return n.kind == scalar && stated
}

// outdented reports keys that stand beside the section that they belong to, which
// has no value, and drops them: who knows no YAML does not know that they are
// indented.
func (r *reader) outdented(n *node, keys []key) {
	var out []entry
	for i := 0; i < len(n.entries); i++ {
		e := n.entries[i]
		out = append(out, e)
		inner := keysOf(keys, e.key)
		if !isEmpty(e.value) || len(inner) == 0 {
			continue
		}
		end := i + 1
		for end < len(n.entries) && keyOf(keys, n.entries[end].key).name == "" && keyOf(inner, fold(n.entries[end].key)).name != "" {
			end++
		}
		if end == i+1 {
			continue
		}
		first := n.entries[i+1]
		r.report(first.pos, "indent what belongs to '"+e.key+":' by two spaces: '  "+first.key+": ...'", "'%s' stands beside '%s', which has no value, expected it below and indented", short(first.key), e.key)
		out = out[:len(out)-1]
		i = end - 1
	}
	n.entries = out
}

// hidden reports what a # right before a figure has turned into a comment, in the
// place of a key's value or below it.
func (r *reader) hidden(e entry, label string) bool {
	if e.key == "accent" { // which is answered with its quotes
		return false
	}
	if n := e.pos.Line; e.key == "unit" && n >= 1 && n <= len(r.lines) && strings.HasSuffix(strings.TrimSpace(r.lines[n-1]), ": #") {
		r.report(e.pos, "write '"+e.key+": psi'", "# begins a comment, so '%s' has no value", label)
		*e.value = node{pos: e.pos, text: "psi", plain: true, tag: "!!str"}
		return true
	}
	for number := e.pos.Line; number >= 1 && number <= len(r.lines) && number <= e.pos.Line+1 && len(r.lines[number-1]) <= longestLine; number++ {
		text := r.lines[number-1]
		i := strings.Index(text, "#")
		if number == e.pos.Line && (i < 0 || strings.TrimSpace(text[min(i, len(text)):]) == "") {
			continue
		}
		if i < 0 || i+1 >= len(text) || !startsWithFigure(text[i+1:]) || number > e.pos.Line && strings.TrimSpace(text[:i]) != "" {
			return false
		}
		plain := strings.ReplaceAll(strings.TrimSpace(text[i:]), "#", "")
		r.report(Pos{number, len([]rune(text[:i])) + 1}, "leave the # out: '"+short(plain)+"'", "# begins a comment, so '%s' has no value", label)
		return true
	}
	return false
}

// cutShort reports a text that a # right before a figure ends, 'valve #3 sticks'.
func (r *reader) cutShort(e entry, label string) bool {
	rest, at := r.cutOff(e.value)
	if rest == "" {
		return false
	}
	r.report(at, "put the text into quotes: "+e.key+`: "`+short(e.value.text+" "+rest)+`"`, "# begins a comment, so '%s' ends before it", label)
	return true
}

// cutOff is what a # right before a figure has cut off a text, and where; "" where it has
// cut off nothing.
func (r *reader) cutOff(v *node) (rest string, at Pos) {
	if v.kind != scalar || !v.plain || v.text == "" || v.pos.Line < 1 || v.pos.Line > len(r.lines) || len(r.lines[v.pos.Line-1]) > longestLine {
		return "", Pos{}
	}
	text := strings.TrimRight(r.lines[v.pos.Line-1], "\r ")
	from := r.within(v, len([]rune(v.text))).Col - 1
	runes := []rune(text)
	if from < 0 || from >= len(runes) || string(runes[max(0, from-len([]rune(v.text))):from]) != v.text {
		return "", Pos{}
	}
	rest = strings.TrimLeft(string(runes[from:]), " ")
	if len(rest) < 2 || rest[0] != '#' || !startsWithFigure(rest[1:]) {
		return "", Pos{}
	}
	return rest, Pos{v.pos.Line, len(runes) - len([]rune(rest)) + 1}
}

// knownOrAnswered reports a word of a key, or one that there is an answer to.
func knownOrAnswered(k key, text string) bool {
	word, answer := vocabularyOf(k.says).find(text, k.words)
	return word != "" || answer != ""
}

// temperatureHint answers a temperature in the place of a word for one.
func temperatureHint(text string, k key) string {
	if v, err := quantity.ParseAs(text, quantity.Temperature); err == nil && k.says == "temperature" && strings.ContainsAny(text, "0123456789") && quantity.DimensionOf(v.Unit) == quantity.Temperature {
		return "a temperature has a key of its own: 'coolant: " + short(text) + "'"
	}
	return ""
}

// twoWordsHint answers two of a key's words in the place of one.
func twoWordsHint(v Vocabulary, text string, words []string) string {
	var all []string
	for _, part := range strings.FieldsFunc(strings.ReplaceAll(fold(text), " and ", "/"), func(c rune) bool { return strings.ContainsRune("/,+&;", c) }) {
		part = strings.TrimSpace(part)
		word, answer := v.find(part, words)
		switch {
		case word != "":
			all = append(all, word)
		case answer != "":
			all = append(all, part+" ("+answer+")")
		default:
			return ""
		}
	}
	if len(distinct(all)) < 2 {
		return ""
	}
	return "write one: " + anyOf(all) + ", as it was in this test"
}

// isRow reports figures beside each other.
func isRow(text string) bool {
	fields := figuresOf(text)
	return len(fields) > 2 && !slices.ContainsFunc(fields, func(f string) bool { return !isFigures(f) })
}

// isRowOfAll is such a row with a figure for each cylinder.
func (r *reader) isRowOfAll(text string) bool {
	return isRow(text) && (r.cylinderNames == nil || len(figuresOf(text)) == len(r.cylinderNames))
}

// figuresOf are the parts of what was written beside each other.
func figuresOf(text string) []string {
	return strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(" ,;/", r) })
}

// listKeyOf is the one key of a section that is read of each cylinder, "" where there is none or
// there are several.
func listKeyOf(keys []key) string {
	name := ""
	for _, k := range keys {
		if k.form == asReadings {
			if name != "" && k.name != "drop" {
				return ""
			}
			name = k.name
		}
	}
	return name
}

func isTest(name string) bool { return slices.Contains(testSections(), name) }

// testExample is a section with the first reading that it may have, and a unit where it
// takes one.
func testExample(section string, keys []key) string {
	if section == "plugs" {
		return "{looks: {1: normal, 4: sooty}}"
	}
	unit := ""
	for _, k := range keys {
		if k.name == "unit" && len(k.words) > 0 {
			unit = "unit: " + k.words[0] + ", "
		}
	}
	under := aloneUnder[section]
	if under == "" && keyOf(keys, "dry").name != "" { // which is read first, and mostly alone
		under = "dry"
	}
	first := func(k key) bool { return under == "" || k.name == under }
	for _, k := range keys {
		if k.speeds && k.example != "" && strings.HasPrefix(k.example, "{") { // trims, exhaust gas
			return "{idle: " + k.example + "}"
		}
	}
	for _, k := range keys {
		if k.example != "" && k.name != "at" && first(k) && slices.Contains([]form{asReading, asReadings, asMeasured}, k.form) {
			return "{" + unit + k.name + ": " + k.example + "}"
		}
	}
	return "{" + unit + keyNames(keys)[0] + ": ...}"
}
