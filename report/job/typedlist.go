package job

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"gaugesheet/diag/quantity"
)

// evenly writes a list with plain spaces in the place of others and of bullets,
// and without the round brackets around it, each sign staying in its place.
func evenly(text string) string {
	text = withBlanks(text)
	for _, word := range []string{", and ", "; and "} { // 150, 148, and 149
		text = strings.ReplaceAll(text, word, word[:1]+strings.Repeat(" ", len(word)-1))
	}
	for _, sign := range []string{" · ", " * ", " . ", " + ", " & ", "-->", "->", "=>"} { // an arrow is no 'over'
		text = strings.ReplaceAll(text, sign, strings.Repeat(" ", len([]rune(sign))))
	}
	text = cylinderBar().ReplaceAllString(text, "$1$2 $3")
	if strings.HasPrefix(text, "(") && strings.HasSuffix(text, ")") && strings.Count(text, "(") == 1 {
		text = " " + text[1:len(text)-1]
	}
	return text
}

// everySecond reports figures of which every second is the number of a cylinder, 3 150 4 148, and the others are many times
// that: they are no row.
func everySecond(text string, cylinders int) bool {
	fields := strings.FieldsFunc(text, func(c rune) bool { return c == ' ' || c == ',' || c == ';' })
	seen := map[string]bool{}
	for i := 0; i+1 < len(fields); i += 2 {
		name, _ := strconv.Atoi(fields[i])
		value, err := strconv.ParseFloat(fields[i+1], 64)
		if name < 1 || name > cylinders || seen[fields[i]] || err != nil || value < 5*float64(cylinders) {
			return false
		}
		seen[fields[i]] = true
	}
	return len(fields) > 3 && len(fields)%2 == 0
}

// withBlanks writes bullets, arrows and other blanks as plain spaces.
func withBlanks(text string) string {
	return strings.Map(func(c rune) rune {
		if strings.ContainsRune("\t\u00a0\u2007\u2009\u202f•▪◦‣●→", c) {
			return ' '
		}
		return c
	}, text)
}

// dashedPair is a cylinder and its reading with a dash between, 5 - 145.
var dashedPair = lazily(`^(\d{1,2}) - (\d+(?:\.\d+)?)$`)

// cylinderBar is a bar between a cylinder and what was read of it, as in a table: 1|150
// 2|148.
var cylinderBar = lazily(`(^| )(\d{1,2})\|(\d)`)

// scanned reads readings that only their units, slashes or dashes separate,
// '140 psi 142 psi' and '140/142/138', where there is one for each cylinder.
func scanned(text string, cylinders int) []typed {
	p, err := quantity.ScanAs(text, quantity.Pressure)
	if err != nil || len(p.Parts) != cylinders && cylinders > 0 || len(p.Parts) < 2 || cylinders == 0 && len(p.Parts) < 3 {
		return nil
	}
	tied := cylinders != 1 && cylinders != 2 && (p.Only(quantity.Slash) || p.Only(quantity.To))
	if !tied && !p.Only(quantity.Next) {
		return nil
	}
	var out []typed
	for _, part := range p.Parts {
		if part.Bound != quantity.Exact {
			return nil
		}
		out = append(out, typed{part.Text, part.At})
	}
	return out
}

// mostly gives a list with an entry for each cylinder of which most are readings,
// so that of the others each is answered where it stands.
func mostly(text string, cylinders int) []typed {
	if cylinders < 3 {
		return nil
	}
	for _, list := range typedLists(strings.ReplaceAll(text, " / ", " , ")) {
		readings, strange := 0, false
		for _, t := range list {
			if isReading(t.text) {
				readings++
			} else if _, answer := vocabularyOf("state of a test").find(t.text, nil); answer != "" { // n/a
				continue
			} else if strings.ContainsRune(t.text, ' ') || strings.ContainsAny(t.text, "=:()/") || cylinderWord(t.text) == others || tellsWord(t.text) {
				strange = true
			}
		}
		if len(list) == cylinders && cylinders-readings <= max(1, cylinders/4) && !strange {
			return list
		}
	}
	return nil
}

// unitForAll gives each of the bare numbers of a list the unit that only its
// last or first one has, '140 142 138 141 psi'.
func unitForAll(list []typed) []typed {
	unit := ""
	for i, t := range list {
		v, err := quantity.ParseAs(t.text, quantity.Pressure)
		switch {
		case err != nil:
			return list
		case v.Unit == quantity.None:
		case i > 0 && i < len(list)-1 || unit != "":
			return list
		default:
			unit = string(v.Unit)
		}
	}
	if unit == "" || len(list) < 2 {
		return list
	}
	out := slices.Clone(list)
	for i, t := range out {
		if isFigures(t.text) {
			out[i].text += " " + unit
		}
	}
	return out
}

// dashPairs reads '1-140 2-142' and '1 - 140', where every cylinder is named and
// in order.
func (r *reader) dashPairs(text string) (names, values []typed) {
	fields := separate(strings.NewReplacer(" - ", " = ", "–", "-").Replace(text), ",; ")
	for i := 0; i < len(fields); i++ {
		name, value := fields[i], typed{}
		before, after, ok := strings.Cut(name.text, "-")
		if !ok {
			before, after, ok = strings.Cut(name.text, "/") // 1/150 2/148
		}
		if ok {
			name, value = typed{before, name.at}, typed{after, name.at + len(before) + 1}
		} else if i+2 < len(fields) && fields[i+1].text == "=" {
			value = fields[i+2]
			i += 2
		}
		if len(names) >= len(r.cylinderNames) || cylinderWord(name.text) != r.cylinderNames[len(names)] || !isReading(value.text) {
			return nil, nil
		}
		name.text = cylinderWord(name.text)
		names, values = append(names, name), append(values, value)
	}
	if len(names) != len(r.cylinderNames) || len(names) < 2 {
		return nil, nil
	}
	return names, values
}

// wordPairs reads 'right 130' and 'left 135, right 90': readings behind cylinders
// whose names are words.
func (r *reader) wordPairs(text string) (names, values []typed) {
	for _, t := range separate(text, ",;") {
		name, value, ok := strings.Cut(t.text, " ")
		if bank, isBank := r.bankNamed(name); isBank && len(bank.Cylinders) == 1 {
			name = bank.Cylinders[0]
		} else if name = r.cylinderMeant(name); !slices.Contains(r.cylinderNames, name) && name != others {
			return nil, nil
		}
		if !ok || startsWithFigure(t.text) || !isReading(strings.TrimSpace(value)) {
			return nil, nil
		}
		names = append(names, typed{name, t.at})
		values = append(values, typed{strings.TrimSpace(value), t.at + len([]rune(t.text)) - len([]rune(strings.TrimSpace(value)))})
	}
	return names, values
}

// gathered brings other ways of writing a list or a set of readings to one: a
// list in a list, a set for each cylinder, readings in braces or without commas.
func (r *reader) gathered(n *node) {
	cylinders := len(r.cylinderNames)
	switch {
	case cylinders < 2:
	case n.kind == list && len(n.items) == 1 && n.items[0].kind == list && len(n.items[0].items) == cylinders:
		n.items = n.items[0].items
	case n.kind == list && slices.ContainsFunc(n.items, func(item *node) bool { return item.kind == scalar && strings.Contains(item.text, ";") }): // [11,2; 11,0]
		if typed := r.typedReadings(&node{pos: n.pos, text: strings.Join(textsOf(n), ",")}); typed != nil {
			*n = *typed
		}
	case n.kind == list && len(n.items) == 1 && n.items[0].kind == scalar:
		if typed := r.typedReadings(n.items[0]); typed != nil {
			*n = *typed
		}
	case n.kind == list:
		sets := &node{kind: mapping, pos: n.pos}
		for _, item := range n.items {
			item = r.rowOf(item)
			if item.kind != mapping || len(item.entries) != 1 || !r.isCylinder(r.cylinderMeant(item.entries[0].key)) {
				return
			}
			sets.entries = append(sets.entries, item.entries[0])
		}
		if len(sets.entries) > 0 {
			*n = *sets
		}
	case n.kind == mapping && len(n.entries) == 1 && isEmpty(n.entries[0].value) && strings.Contains(n.entries[0].key, " "): // {1:150 2:148 3:62}
		if names, _ := r.asPairs(n.entries[0].key); names != nil {
			*n = *r.typedReadings(&node{pos: n.entries[0].pos, text: n.entries[0].key, plain: true, tag: "!!str"})
		}
	case n.kind == mapping:
		values := &node{kind: list, pos: n.pos}
		for _, e := range n.entries {
			if !isEmpty(e.value) || !isReading(e.key) || r.isCylinder(e.key) {
				return
			}
			values.items = append(values.items, &node{pos: e.pos, text: e.key, plain: true, tag: "!!float"})
		}
		if len(values.items) > 1 {
			*n = *values
		}
	}
}

// rowOf gives a row of a table, {cylinder: 1, reading: 150}, as a reading under its
// cylinder; anything else as it is.
func (r *reader) rowOf(n *node) *node {
	if n.kind != mapping || len(n.entries) != 2 || n.entries[0].value.kind != scalar {
		return n
	}
	name, read := n.entries[0], n.entries[1]
	called := slices.Contains([]string{"cylinder", "cyl", "no", "number", "nr", "hole", "name"}, fold(name.key))
	if known := r.cylinderMeant(name.value.text); called && slices.Contains(r.cylinderNames, known) {
		return &node{kind: mapping, pos: n.pos, entries: []entry{{known, name.value.pos, read.value}}}
	}
	return n
}

// leadingCylinder takes the cylinder off that a text begins with.
func (r *reader) leadingCylinder(text string) (name, rest string, ok bool) {
	fields := strings.Fields(text)
	for n := 1; n <= 2 && n < len(fields); n++ {
		name = r.cylinderMeant(strings.TrimRight(strings.Join(fields[:n], " "), ":="))
		if slices.Contains(r.cylinderNames, name) {
			return name, strings.Join(fields[n:], " "), true
		}
	}
	return "", "", false
}

// headed takes the words off that stand before the first figure of a text of
// several, the heading of a table.
func headed(text string) (heading, rest string) {
	i := strings.IndexAny(text, "0123456789")
	if i < 2 || text[i-1] != ' ' {
		return "", text
	}
	return strings.TrimSpace(text[:i]), text[i:]
}

// namesFirstPiece reports a text whose first part begins with its cylinder.
func (r *reader) namesFirstPiece(text string) bool {
	first, _, _ := strings.Cut(text, ",")
	_, _, ok := r.leadingCylinder(first)
	return ok
}

// roseBy is by how much something rose, or lay apart from another.
var roseBy = lazily(`\b(?:up|rose|gained|jumped|down|dropped|fell|lost) (?:by )?(?:about )?\d|\d[a-z ]*\b(?:(?:lower|less|higher|more|worse|better) than|below|above|under|over|down|up|lower|higher) ?(?:on |the |that |of |from )*(?:cyl|no|#|rest|others|average|[a-z]+ one|\d|$|,)`)

// loneHint answers a single value where one for each cylinder is expected.
func (r *reader) loneHint(text, label string) string {
	key := label[strings.LastIndexByte(label, '.')+1:]
	plain := fold(text)
	if hint := r.groupHint(text); hint != "" {
		return hint
	}
	if heading, rest := headed(text); heading != "" && !slices.Contains(cylinderNoun, fold(heading)) && r.typedReadings(&node{pos: Pos{}, text: rest}) != nil {
		if strings.Contains(fold(heading), "order") || strings.Contains(fold(heading), "firing") { // which is not that of the numbers
			return "a list goes by the order of the numbers: write each behind its " + r.cylinderWord + ", such as " + key + ": {" + r.firstName() + ": 150, ...}"
		}
		return "leave the heading '" + heading + "' out"
	}
	if hint := cmp.Or(r.pairHint(plain, key), r.oilInRow(text, key), r.notedRow(text, key)); hint != "" {
		return hint
	}
	if figure := evenRow(plain); figure != "" {
		return "write " + key + ": {" + others + ": " + figure + "}, if all of them read that"
	}
	if isReading(text) {
		first := r.firstName()
		return "of which " + r.cylinderWord + "? such as " + key + ": {" + first + ": " + short(text) + "}; for all of them {" + others + ": " + short(text) + "}"
	}
	if roseBy().MatchString(plain) { // 3 came up 40
		return "write the reading itself, not by how much it rose or fell: " + key + ": {" + r.firstName() + ": ...}"
	}
	if _, answer := vocabularyOf("pressure").find(withoutAll(plain), nil); answer != "" && byCylinderIn["compression"] == key { // all good
		return answer
	}
	if key == "wet" && !strings.ContainsAny(text, "0123456789") {
		return "write wet-in-words: " + short(text)
	}
	return ""
}

// evenRow is the figure of 'even 150s' and '150s all round', "" for any other text.
func evenRow(plain string) string {
	text := withoutAll(plain)
	for _, word := range []string{"even ", "mid ", "solid ", "steady "} {
		text = strings.TrimPrefix(text, word)
	}
	figure := strings.TrimRight(text, "s'")
	if figure == text || !isFigures(figure) {
		return ""
	}
	return figure
}

// pairHint answers a cylinder, or the number of them, beside a figure.
func (r *reader) pairHint(plain, key string) string {
	if number, figure, ok := strings.Cut(strings.ReplaceAll(plain, " ", ""), "x"); ok && isFigures(number) && isFigures(figure) { // 4 x 150
		for _, pair := range [][2]string{{number, figure}, {figure, number}} {
			if pair[0] == strconv.Itoa(len(r.cylinderNames)) && len(pair[1]) > 1 {
				return "write " + key + ": {" + others + ": " + pair[1] + "}"
			}
		}
	}
	if first, figure, ok := strings.Cut(plain, " "); ok && slices.Contains(r.cylinderNames, first) && isFigures(figure) { // wet: 3 140
		return "write " + key + ": {" + first + ": " + figure + "}, if " + first + " is the " + r.cylinderWord
	}
	if m := dashedPair().FindStringSubmatch(plain); m != nil && slices.Contains(r.cylinderNames, m[1]) { // wet: 5 - 145
		return "write " + key + ": {" + m[1] + ": " + m[2] + "}, if " + m[1] + " is the " + r.cylinderWord
	}
	return ""
}

// firstName is the first cylinder.
func (r *reader) firstName() string {
	if len(r.cylinderNames) > 0 {
		return r.cylinderNames[0]
	}
	return "1"
}
