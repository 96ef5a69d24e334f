package job

import (
	"cmp"
	"slices"
	"strings"

	"gaugesheet/diag/quantity"
)

// What stands in the place of a section's keys is answered with the keys that it is of.

// needleBeside answers a reading with what its needle did, '18 inHg, steady'; "" for words
// that tell nothing of it.
func needleBeside(section, under, figure, words string, keys []key) string {
	k := keyOf(keys, under)
	name := keyTaking(key{keys: k.keys}, strings.Trim(words, " ,;()"))
	if k.form != asMeasured || name == "" {
		return ""
	}
	return "write '" + section + ": {" + under + ": {reading: " + short(figure) + ", " + name + ": " + fold(strings.Trim(words, " ,;()")) + "}}'"
}

// wordBefore answers a word that has a key of its own in front of a figure, 'lift pump 6
// psi'; "" for any other text.
func wordBefore(section, text string, keys []key) string {
	at := strings.IndexAny(text, "0123456789")
	if at < 1 || at > longestShown || aloneUnder[section] == "" {
		return ""
	}
	name := keyTaking(key{keys: keys}, strings.Trim(text[:at], " ,:="))
	figure, rest := leadingFigure(text[at:], aloneUnits[section])
	if hint := needleBeside(section, aloneUnder[section], figure, text[:at], keys); hint != "" && rest == "" && figure != "" { // steady 18
		return hint
	}
	if name == "" || figure == "" || rest != "" {
		return ""
	}
	k := keyOf(keys, name)
	word, _ := vocabularyOf(k.says).find(strings.Trim(text[:at], " ,:="), k.words)
	if strings.Contains(word, ",") {
		word = `"` + word + `"`
	}
	return "write '" + section + ": {" + name + ": " + word + ", " + aloneUnder[section] + ": " + figure + "}', if that is what it is"
}

// speedKey is the key under which a section's readings stand by speed, and a figure at a
// speed as it stands there: at 2000 rpm; "" where it has none, or where no speed is named.
func speedKey(words, figure string, keys []key) (name, value string) {
	speed, ok := strings.CutPrefix(fold(words), "at ")
	if fold(words) == "idle" {
		ok = true
	}
	speed = strings.TrimSpace(strings.TrimSuffix(speed, "rpm"))
	idle := speed == "idle" && keyOf(keys, "idle").name == ""
	if !ok || !isWhole(speed) && !idle {
		return "", ""
	}
	if !idle {
		speed += " rpm"
	}
	for _, k := range keys {
		switch {
		case k.form == asAtSpeeds:
			return k.name, "{" + speed + ": " + figure + "}"
		case k.speeds:
			return speed, figure
		}
	}
	return "", ""
}

// figuresUnit is the first unit that figures name, "" for none.
func figuresUnit(pairs []string) string {
	for _, p := range pairs {
		_, figure, _ := strings.Cut(p, ": ")
		if v, err := quantity.Parse(strings.Trim(figure, "{}")); err == nil && v.Unit != quantity.None {
			return string(v.Unit)
		}
	}
	return ""
}

// isBare reports a figure without a unit behind the name of its key.
func isBare(pair string) bool {
	figure := strings.TrimRight(pair[strings.LastIndexByte(pair, ' ')+1:], "}")
	return isFigures(figure)
}

// watchedHint writes a pressure that was watched, '15 psi fell to 9 in 5 min', as the keys
// of its group; "" where that has none, and for any other text.
func watchedHint(name, text string, keys []key) string {
	if keyOf(keys, "pumped-to").name == "" || keyOf(keys, "hold").name == "" {
		return ""
	}
	watched := fellTo(&node{kind: scalar, text: text})
	if watched == nil {
		return ""
	}
	held := watched.get("hold").entries[0]
	return "write '" + name + ": {pumped-to: " + watched.get("pumped-to").text + ", hold: {" + held.key + ": " + held.value.text + "}}'"
}

// watchedWithin is such a pressure of a group of the section, the pressure test of the cooling
// system; "" for any other text.
func watchedWithin(section, text string, keys []key) string {
	for _, k := range keys {
		if hint := watchedHint(k.name, text, k.keys); k.form == asGroup && hint != "" {
			return "write '" + section + ": {" + strings.Trim(strings.TrimPrefix(hint, "write "), "'") + "}'"
		}
	}
	return ""
}

// pairedRow writes a row in which every second figure is the next cylinder, 1 360, 2 355,
// as values by cylinder; "" for any other.
func (r *reader) pairedRow(name, text string, keys []key) string {
	row := listKeyOf(keys)
	figures, unit := unitBehind(text, keys)
	names, values := r.asPairs(figures)
	if row == "" || names == nil {
		return ""
	}
	if unit == "" && keyOf(keys, "unit").name != "" {
		unit = "unit: " + cmp.Or(aloneUnits[name], "...") + ", "
	}
	return "write '" + name + ": {" + unit + row + ": " + paired(names, values) + "}', if that is what they are"
}

// groupRow writes a row of figures as the key of a group that goes by cylinder; "" where
// there is none.
func (r *reader) groupRow(name, text string, keys []key) string {
	in := ""
	if at := strings.IndexAny(text, "0123456789"); at > 0 && !strings.ContainsAny(text[:at], ",;:") && denials(wordsOf(text[:at]), nil) == 0 && isRow(strings.Join(strings.Fields(text[at:])[:min(3, len(strings.Fields(text[at:])))], " ")) { // leak off 12 11 45 12
		text = text[at:]
	}
	if k := keyOf(keys, "in"); k.name != "" {
		in = "in: ..., "
		if m := howLong().FindStringSubmatch(text); m != nil { // 20 22 65 21 ml after 1 minute cranking
			text, in = m[1], "in: "+m[2]+", "
			if m[3] != "" {
				in += "at: " + fold(m[3]) + ", "
			}
		}
	}
	figures, unit := unitBehind(text, keys)
	row := listKeyOf(keys)
	if row == "" || !r.isRowOfAll(figures) || isTest(name) {
		return ""
	}
	return "write '" + name + ": {" + unit + in + row + ": [" + strings.Join(figuresOf(figures), ", ") + "]}'"
}

// howLong is over how long a row was read, and at what.
var howLong = lazily(`(?i)^(.*?),? (?:after|in|over|for) (\d+ ?(?:s|sec|secs|seconds?|min|mins|minutes?))(?:,? (?:at |of |while )?(cranking|idle))?$`)

// inThenOut are the clearances of both valves in one piece: in 6 ex 8 thou.
var inThenOut = lazily(`(?i)(\d{1,2} )?\b(in|int|inlet|intake) ([\d./]+(?: ?(?:thou|mm|in))?) (?:and |/ ?)?(ex|exh|exhaust) `)

// valvesLine writes clearances that stand in one text, 'in 12 thou, ex 12 thou, 3 exhaust
// none', as the keys of the valves; "" for any other.
func (r *reader) valvesLine(text string) string {
	if pairs := r.valvePairs(text); pairs != "" {
		return pairs
	}
	by, order, unit := map[string][]string{}, []string{}, ""
	var left []string
	for _, t := range separate(inThenOut().ReplaceAllString(text, "$1$2 $3, $1$4 "), ",;") {
		name, rest, ok := r.leadingCylinder(t.text)
		if !ok {
			name, rest = others, t.text
		}
		side, figure, _ := strings.Cut(withoutAll(strings.TrimSpace(rest)), " ")
		switch plain := fold(side); {
		case plain == "in" || plain == "inlet" || plain == "intake" || plain == "int":
			side = "inlet"
		case plain == "ex" || plain == "exh" || plain == "exhaust":
			side = "exhaust"
		default:
			if len(order) == 0 {
				return ""
			}
			left = append(left, t.text)
			continue
		}
		switch v, err := quantity.Parse(figure); {
		case err == nil && v.Unit == quantity.None && v.Number >= 2: // 6, beside 8 thou
			figure += " thou"
		case err == nil && v.Unit == quantity.None && v.Number > 0 && v.Number < 0.05: // .006
			unit = "unit: in, "
		case err == nil && v.Unit == quantity.None && v.Number < 1:
			unit = "unit: mm, "
		case fold(figure) == "tight" || fold(figure) == "none" || fold(figure) == "zero":
			figure = "none"
		case err != nil || quantity.DimensionOf(v.Unit) != quantity.Length:
			return ""
		}
		if by[side] == nil {
			order = append(order, side)
		}
		by[side] = append(by[side], name+": "+figure)
	}
	for i, side := range order {
		order[i] = side + ": {" + strings.Join(by[side], ", ") + "}"
	}
	hint := "write 'valves: {" + unit + strings.Join(order, ", ") + "}'"
	if len(left) > 0 {
		hint += "; " + allOf(quoted(left)) + " with its cylinder: exhaust: {" + r.firstName() + ": none, ...}"
	}
	return hint
}

// readElsewhere are the keys of another section to which a row belongs by what its unit
// measures: opening pressures of injectors.
var readElsewhere = map[string]map[quantity.Dimension]string{"injectors": {quantity.Pressure: "diesel: {nozzles: {opening: ", quantity.Resistance: "injectors: {ohms: "}}

// rowElsewhere writes such a row; "" for any other text.
func rowElsewhere(name, text string) string {
	at := strings.LastIndexByte(strings.TrimSpace(text), ' ')
	if at < 0 || !isRow(text[:at]) {
		return ""
	}
	v, err := quantity.Parse("1 " + text[at+1:])
	to := readElsewhere[name][quantity.DimensionOf(v.Unit)]
	if err != nil || to == "" {
		return ""
	}
	figures := figuresOf(text[:at])
	for i := range figures {
		figures[i] += " " + string(v.Unit)
	}
	return "write '" + to + "[" + strings.Join(figures, ", ") + "]" + strings.Repeat("}", strings.Count(to, "{")) + "', if that is what they are"
}

// rowOf is a row of figures as a list, "" for any other text.
func rowOf(text string) string {
	if !isRow(text) {
		return ""
	}
	return "[" + strings.Join(figuresOf(text), ", ") + "]"
}

// wordAlone answers a word in the place of a section that one of its keys answers or takes,
// smoke: grey, smoke: none; "" for any other.
func wordAlone(name, text string, keys []key) string {
	for _, k := range keys {
		if k.form != asWord || k.says == "" || saysYes(&node{text: text}) || slices.Contains(k.words, string(quantity.PSI)) {
			continue
		}
		word, answer := vocabularyOf(k.says).find(text, k.words)
		switch {
		case word != "":
			return "write '" + name + ": {" + k.name + ": " + word + "}'"
		case answer != "":
			return answer + ": '" + name + ": {" + k.name + ": ...}'"
		}
	}
	return ""
}

// byUnit is the key that readings by cylinder belong to by the unit that they name, ohms of
// injectors; of a diesel's plugs, which are glow plugs, with its test. It is "" where none
// names a unit, and where several keys take it.
func (r *reader) byUnit(n *node, section string, isOne func(string) bool) string {
	var unit quantity.Unit
	for _, e := range n.entries {
		if v, err := quantity.Parse(e.value.text); isOne(e.key) && err == nil && v.Unit != quantity.None {
			unit = v.Unit
		}
	}
	if unit == quantity.None {
		return ""
	}
	if section == "plugs" && unit == quantity.Ohm {
		return "diesel.glow"
	}
	to := ""
	for _, k := range keysOf(fileKeys, section) {
		if k.form == asReadings && slices.Contains(k.units, unit) {
			if to != "" {
				return ""
			}
			to = k.name
		}
	}
	return to
}

// heldHint answers what was held of what was supplied, 78/80 76/80 40/80, where readings of
// pressure are expected; "" for any other text.
func (r *reader) heldHint(text string) string {
	p, err := quantity.ScanAs(text, quantity.Pressure)
	if err != nil || len(p.Parts) != 2*len(r.cylinderNames) || len(p.Parts) < 4 {
		return ""
	}
	var all []string
	for i := 0; i < len(p.Parts); i += 2 {
		held, of := p.Parts[i].Value.Number, p.Parts[i+1].Value.Number
		if p.Joins[i] != quantity.Slash || of != p.Parts[1].Value.Number || held > of {
			return ""
		}
		all = append(all, p.Parts[i].Text+"/"+p.Parts[i+1].Text)
	}
	return "what was held of what was supplied goes under 'leakage': write 'leakage: {dry: [" + strings.Join(all, ", ") + "]}'"
}

// partHint writes a text of which a part says which keys it is of, and asks for the
// key of the rest: conditions: warm, open, 6; "" for any other text.
func partHint(section, text string, keys []key) string {
	if len(text) > longestSaid {
		return ""
	}
	var known, said []string
	words(key{name: section, keys: keys}, text, func(name, text string, _ int) bool {
		known, said = append(known, name+": "+short(text)), append(said, text)
		return true
	})
	var left []string
	for _, t := range separate(text, ",;") {
		if !slices.ContainsFunc(said, func(s string) bool { return strings.Contains(fold(t.text), fold(s)) }) {
			left = append(left, t.text)
		}
	}
	if len(known) == 0 || len(left) == 0 {
		return ""
	}
	such := ""
	for _, k := range keys {
		if k.form == asWhole && isWhole(left[0]) {
			such = ", such as '" + k.name + ": " + left[0] + "'"
		}
	}
	return "write '" + section + ": {" + strings.Join(known, ", ") + ", ...}', and in the place of '...' what " + allOf(quoted(left)) + " is, with its key" + such
}

// fuelRow writes pressures of fuel in the order of the bench, 41/33/42 psi, with their
// names; "" for any other text.
func fuelRow(section, text string) string {
	if section != "fuel-pressure" {
		return ""
	}
	if p, err := quantity.ScanAs(text, quantity.Pressure); err == nil && len(p.Parts) > 1 && len(p.Parts) <= 4 && p.Only(quantity.Slash, quantity.Next) {
		var all []string
		for i, name := range []string{"key-on", "idle", "hose-off", "snap"}[:len(p.Parts)] {
			all = append(all, name+": "+plainNumber(p.Parts[i].Value.Number))
		}
		return "write 'fuel-pressure: {unit: " + cmp.Or(string(p.Parts[len(p.Parts)-1].Value.Unit), "psi") + ", " + strings.Join(all, ", ") + "}', if that is what they are"
	}
	return ""
}

// figureAlone answers a figure, with the words behind it, in the place of the keys of a
// section.
func figureAlone(section, under, figure, words string, keys []key) string {
	if hint := needleBeside(section, under, figure, words, keys); hint != "" {
		return hint
	}
	side := isSide(words) // 8 BTDC
	if side {
		figure += " " + fold(words)
	}
	hint := "write '" + section + ": {" + under + ": " + short(figure) + "}', if that is what it is"
	if words != "" && !side {
		hint += "; '" + short(words) + "' goes into 'notes'"
	}
	return hint
}
