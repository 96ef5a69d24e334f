package job

import (
	"cmp"
	"slices"
	"strings"
	"unicode"

	"gaugesheet/diag/quantity"
)

// lineOfSection writes what stands in one line behind a name that means a section, 'oil
// press: 10 psi hot idle', as that section; "" where that cannot be told, so that the name
// alone is answered.
func (r *reader) lineOfSection(value *node, under string, k key) string {
	if value.kind != scalar {
		return ""
	}
	value = r.uncut(value)
	if hint := cmp.Or(lampSaid(k.name, value.text), plugsSaid(k.name, value.text), gaugeSaid(k.name, value.text)); hint != "" {
		return hint
	}
	hint := r.sectionHint(value, labelOf(under, k.name), k.keys)
	if at := strings.Index(value.text, ", "); k.name == "compression" && under == "" && at > 0 && conditionsLine(value.text[at+2:]) { // 150 148 62 150 psi, throttle open
		first := *value
		first.text = value.text[:at]
		if readings := r.readingsHint(k.name, &first); readings != "" {
			return strings.TrimSuffix(readings, ", with the gauge's unit") + " and 'conditions: " + short(value.text[at+2:]) + "'"
		}
	}
	if !strings.HasPrefix(hint, "write '"+k.name+": {") {
		return ""
	}
	return hint
}

// sectionHint says what to type for a value, or a list, that stands in the place of a set
// of keys.
func (r *reader) sectionHint(n *node, name string, keys []key) string {
	hint := ""
	if whole := alone(key{name: name, keys: keys}, n); whole != nil && r.isUncut(n) { // ALL GOOD BUT #3 WET
		return "leave the # out: '" + name + ": " + short(n.text) + "'"
	}
	if n.kind == scalar && name == "compression" {
		hint = r.heldHint(n.text)
	}
	if n.kind == scalar && name == "leakage" && (strings.ContainsFunc(n.text, unicode.IsLetter) || strings.Contains(n.text, "/") && r.namesFirstPiece(n.text)) {
		hint = r.leakLine(n.text)
	}
	hint = cmp.Or(hint, r.readingsHint(name, n))
	if n.kind == scalar && hint == "" && len(n.text) <= longestSaid {
		hint = r.rowHint(n.text, name, keys)
	}
	if n.kind == scalar && hint == "" && name == "compression" {
		hint = r.statedBefore(n)
	}
	switch {
	case hint != "":
		return hint
	case name == "" && n.kind == list:
		return "begin each line with its key, without a dash before it: 'engine: {layout: inline-4}'"
	case name == "":
		return r.fileHint(n)
	case n.kind == scalar && len(keys) > 0:
		return r.aloneHint(name, n.text, keys)
	case onlyTexts(n) && len(keys) > 0:
		return r.aloneHint(name, strings.Join(textsOf(n), ", "), keys)
	}
	return ""
}

// rowHint writes a row, or what stands behind each cylinder, that is in the place of a test's
// keys; "" for any other text.
func (r *reader) rowHint(text, name string, keys []key) string {
	last := name[strings.LastIndexByte(name, '.')+1:]
	switch {
	case name == "leakage":
		return cmp.Or(r.leakLine(text), r.toldInSection(name, text, keys))
	case name == "valves":
		return cmp.Or(r.pairedRow(name, text, keys), rowElsewhere(name, text), r.keyedRow(name, text, keys), r.valvesLine(text), r.valvesTold(text))
	case isTest(name) && name != "compression":
		return cmp.Or(r.dropsInLine(name, text), r.pairedRow(name, text, keys), rowElsewhere(name, text), r.keyedRow(name, text, keys), r.toldInSection(name, text, keys))
	case name == "compression":
		if hint := cmp.Or(r.readingsHint(name, &node{text: text}), r.statedBefore(&node{text: text})); hint == "" {
			return r.toldInSection(name, text, keys)
		}
	}
	names, values := r.asPairs(figuresBehind(text, keys))
	if names == nil || listKeyOf(keys) == "" || isTest(name) {
		return ""
	}
	_, unit := unitBehind(text, keys) // return: 1 12 2 11 ml
	if keyOf(keys, "in").name != "" {
		unit += "in: ..., "
	}
	return "write '" + last + ": {" + unit + listKeyOf(keys) + ": " + paired(names, values) + "}'"
}

// uncut is a text with what a # right before a figure has cut off it, without the sign.
func (r *reader) uncut(n *node) *node {
	rest, _ := r.cutOff(n)
	if rest == "" {
		return n
	}
	out := *n
	out.text += " " + strings.ReplaceAll(rest, "#", "")
	return &out
}

// saidWhole reports a text that a # cuts short where a section is expected, and that is
// answered with what stands behind the sign.
func (r *reader) saidWhole(e entry, k key) bool {
	return (k.form == asGroup || k.form == asTestSection) && strings.HasPrefix(r.sectionHint(r.uncut(e.value), k.name, k.keys), "write '")
}

// unitOfKey takes the unit off a key that has it behind its name or in brackets, 'oil psi' and
// 'leakdown (%)'.
func unitOfKey(name string) (rest, unit string) {
	words := strings.FieldsFunc(name, func(c rune) bool { return strings.ContainsRune(" ()[],", c) })
	if len(words) < 2 || len(name) > longestSaid {
		return name, ""
	}
	last := words[len(words)-1]
	v, err := quantity.Parse("1 " + last)
	if err != nil || v.Unit == quantity.None || len(last) == 1 && last != "%" || slices.Contains([]string{"in", "min", "at"}, fold(last)) && !strings.Contains(name, "("+last) {
		return name, ""
	}
	return strings.Join(words[:len(words)-1], " "), last
}

// suppliedInKey is the pressure that a tester was supplied with, in a key: leak down @100psi.
var suppliedInKey = lazily(`(?i)^(.*?) ?(?:@|at) ?(\d+) ?(?:psi|kpa|bar)$`)

// suppliedRow answers a row of leakage with its supply in the key, by which it may be held or
// lost; it is false for any other.
func (r *reader) suppliedRow(e entry, where string) bool {
	m := suppliedInKey().FindStringSubmatch(e.key)
	if m == nil || where != "" || !slices.Contains(keysCalled(m[1]), "leakage") || !r.isRowOfAll(e.value.text) {
		return false
	}
	held, lost := figuresOf(e.value.text), strings.Join(figuresOf(e.value.text), ", ")
	for i := range held {
		held[i] += "/" + m[2]
	}
	r.report(e.pos, "write 'leakage: {dry: ["+strings.Join(held, ", ")+"]}' if that was held of "+m[2]+", 'leakage: {loss: ["+lost+"]}' if it is percent lost", "unknown key '%s'", short(e.key))
	return true
}

// unitBesideName answers a section in one line whose unit stands with its name, 'fuel psi:
// idle 55, key on 60', with the section; it is false for any other key.
func (r *reader) unitBesideName(e entry, where string) bool {
	rest, unit := unitOfKey(e.key)
	if unit == "" || where != "" || e.value.kind != scalar || isEmpty(e.value) {
		return false
	}
	is := keyMeant(entry{rest, e.pos, e.value}, "", keyNames(fileKeys))
	name := strings.ReplaceAll(fold(rest), " ", "-")
	if keyOf(fileKeys, name).name == "" {
		name = is.name
	}
	value := *r.uncut(e.value)
	value.text = besideFigure(value.text, unit)
	if is.section != "" && keyOf(fileKeys, name).name == "" { // glow plugs ohms
		if plain := belongs(is.name, e.value, []string{is.section}); !strings.Contains(plain, "...") {
			r.report(e.pos, plain, "unknown key '%s'", short(e.key))
			return true
		}
		return false
	}
	k := keyOf(fileKeys, name)
	hint := r.lineOfSection(&value, "", k)
	if hint == "" && keyOf(k.keys, "unit").name == "" {
		return false
	}
	hint = cmp.Or(hint, "did you mean '"+k.name+"'? its unit stands below it: 'unit: "+unit+"'")
	r.report(e.pos, hint, "unknown key '%s'", short(e.key))
	return true
}

// besideFigure puts a unit behind the figures of a row, or behind each bare figure of another
// text. A percentage needs none.
func besideFigure(text, unit string) string {
	if unit == "%" {
		return text
	}
	if isRow(text) && !strings.Contains(text, "/") || isFigures(text) {
		return text + " " + unit
	}
	fields := strings.Fields(text)
	for i, f := range fields {
		figure := strings.TrimRight(f, ",;")
		if whole, part, ok := strings.Cut(figure, ","); ok && isWhole(whole) && isWhole(part) { // 3,0
			figure = whole + "." + part
		}
		if isFigures(figure) && isFigureWord(fields, i) && !isUnitWord(fields, i+1) && (i+1 == len(fields) || !isFigureWord(fields, i+1)) {
			fields[i] = figure + " " + unit + f[len(figure):]
		}
	}
	return strings.Join(fields, " ")
}

// namesAhead are the cylinders of an engine that is not read yet, by its layout; none where
// they may have names of their own.
func namesAhead(root *node) []string {
	engine := root.get("engine")
	if engine == nil || engine.get("cylinders") != nil || engine.get("banks") != nil {
		return nil
	}
	if engine.kind == scalar {
		return namesOf(engine)
	}
	return namesOf(engine.get("layout"))
}

// statedBefore writes readings of compression behind a word for how warm the engine was, 'cold
// 150 148 90 psi', with both; "" for any other text.
func (r *reader) statedBefore(n *node) string {
	word, rest, _ := strings.Cut(n.text, " ")
	warm, _ := vocabularyOf("temperature").find(strings.TrimRight(word, ",:"), temperatures)
	if warm == "" || len(n.text) > longestSaid {
		return ""
	}
	behind := *n
	behind.text = rest
	readings := r.readingsHint("compression", &behind)
	if readings == "" {
		return ""
	}
	return strings.TrimSuffix(readings, ", with the gauge's unit") + " and 'conditions: {engine: " + warm + "}'"
}

// isUncut reports a text that is not as its line has it, a # having cut it.
func (r *reader) isUncut(n *node) bool {
	return n.kind == scalar && n.pos.Line >= 1 && n.pos.Line <= len(r.lines) && !strings.Contains(r.lines[n.pos.Line-1], n.text) && strings.Contains(r.lines[n.pos.Line-1], "#")
}
