package job

import (
	"cmp"
	"slices"
	"strings"

	"gaugesheet/diag/quantity"
)

// A typed value is one of several in a text, with the character at which it
// stands.
type typed struct {
	text string
	at   int
}

// separate takes a text apart at some signs and the spaces around them.
func separate(text, signs string) []typed {
	var out []typed
	begin := 0
	runes := append([]rune(text), 0)
	for i, c := range runes {
		if i < len(runes)-1 && !strings.ContainsRune(signs, c) {
			continue
		}
		piece := string(runes[begin:i])
		if trimmed := strings.TrimSpace(piece); trimmed != "" {
			lead := len([]rune(piece)) - len([]rune(strings.TrimLeft(piece, " ")))
			out = append(out, typed{trimmed, begin + lead})
		}
		begin = i + 1
	}
	return out
}

// mostTyped is how many bytes of a text are taken for a list of readings: those of
// the most cylinders there are, each with its reason for not being tested.
const mostTyped = 4000

// typedLists are the ways in which a text may be taken for a list: at commas and
// the like, at spaces, at both.
func typedLists(text string) [][]typed {
	if len(text) > mostTyped {
		return nil
	}
	var out [][]typed
	for _, signs := range []string{",;|", " ;|", ",;| "} {
		if list := separate(text, signs); len(list) > 1 {
			out = append(out, trimmedCommas(list))
		}
	}
	return out
}

// trimmedCommas drops commas that are left at the ends of values.
func trimmedCommas(list []typed) []typed {
	for i := range list {
		list[i].text = strings.TrimRight(list[i].text, ",")
	}
	return slices.DeleteFunc(list, func(t typed) bool { return t.text == "" })
}

// fewAsList reads a text of one reading or more as a list, be they as few as no list by itself
// has; nil for any other text.
func fewAsList(text string) []typed {
	const more = 2 // three are always a list
	row := asList(text+strings.Repeat(" 1", more), 0)
	if len(row) <= more {
		return nil
	}
	return row[:len(row)-more]
}

// asList reads a text of several readings as a list; nil for any other text. The
// number of cylinders, where it is known, tells how commas are meant.
func asList(text string, cylinders int) []typed {
	if text = bullets(evenly(text)); everySecond(text, cylinders) {
		return nil
	}
	var best []typed
	for _, list := range typedLists(text) {
		if slices.ContainsFunc(list, func(t typed) bool { return !isReading(t.text) }) {
			continue
		}
		if len(list) == cylinders {
			return list
		}
		if best == nil || len(list) > len(best) && len(best) < 3 {
			best = list
		}
	}
	if list := scanned(text, cylinders); list != nil {
		return list
	}
	if list := mostly(text, cylinders); list != nil {
		return list
	}
	if len(best) < 3 && len(best) != cylinders { // two may be repeats
		return nil
	}
	return best
}

// bullets blanks the dashes of a list that was written without spaces behind
// them, which would be signs: -150 -148.
func bullets(text string) string {
	fields := strings.Fields(text)
	for _, f := range fields {
		if len(f) < 2 || f[0] != '-' || f[1] < '0' || f[1] > '9' {
			return text
		}
	}
	if len(fields) < 2 {
		return text
	}
	return strings.ReplaceAll(text, "-", " ")
}

// isReading reports a text that can be one reading, or says that there is none.
func isReading(text string) bool {
	if _, _, stated := parseState(text); stated || saysNoPressure(text) {
		return true
	}
	p, err := quantity.ScanAs(text, quantity.Pressure)
	return err == nil && (len(p.Parts) == 1 || len(p.Parts) == 2 && p.Only(quantity.To, quantity.PlusMinus, quantity.Bracket))
}

// asPairs reads '1=150 2=148', '1: 150, 2: 148', '1) 150 2) 148' and, where the
// cylinders stand in order, '1 150 2 148' as values by cylinder; nil for any
// other text.
func (r *reader) asPairs(text string) (names, values []typed) {
	text = strings.ReplaceAll(evenly(text), " is ", " :  ") // as long as it was: 1 is 150
	for _, list := range typedLists(text) {
		names, values = nil, nil
		for i := 0; i < len(list); i++ {
			name, value, ok := cutPair(list[i])
			if ok && value.text == "" && i+1 < len(list) { // 1= 150
				i++
				value = list[i]
			}
			if !ok || !isReading(value.text) || !r.isCylinder(cylinderWord(name.text)) {
				names = nil
				break
			}
			name.text = cylinderWord(name.text)
			names, values = append(names, name), append(values, value)
		}
		if len(names) > 0 {
			return names, values
		}
	}
	if names, values = r.commaPairs(separate(text, ",;")); names != nil {
		return names, values
	}
	if names, values = r.pairsInOrder(separate(text, ",; ")); names == nil {
		names, values = r.dashPairs(text)
	}
	if names == nil {
		names, values = r.wordPairs(text)
	}
	if names == nil {
		names, values = r.ledPairs(text)
	}
	return names, values
}

// pairsInOrder reads numbers of which every second is the next cylinder.
func (r *reader) pairsInOrder(list []typed) (names, values []typed) {
	if len(list) < 4 || len(list) != 2*len(r.cylinderNames) {
		return nil, nil
	}
	if half := len(list) / 2; slices.EqualFunc(list[:half], r.cylinderNames, func(t typed, name string) bool { return t.text == name }) && !slices.ContainsFunc(list[half:], func(t typed) bool { return !isReading(t.text) }) {
		return list[:half], list[half:] // a row of the cylinders, and one of the readings
	}
	for i, t := range list {
		switch {
		case i%2 == 1 && isReading(t.text):
			values = append(values, t)
		case i%2 == 0 && t.text == r.cylinderNames[i/2]:
			names = append(names, t)
		default:
			return nil, nil
		}
	}
	return names, values
}

// cutPair takes '1=150' apart.
func cutPair(t typed) (name, value typed, ok bool) {
	i := strings.IndexAny(t.text, "=:)@")
	if i < 1 && strings.HasSuffix(t.text, ".") { // 1. 150
		i = len(t.text) - 1
	}
	if i < 1 {
		return name, value, false
	}
	rest := strings.TrimLeft(t.text[i+1:], " ")
	return typed{strings.TrimSpace(t.text[:i]), t.at}, typed{rest, t.at + len([]rune(t.text)) - len([]rune(rest))}, true
}

// listed writes values as the file should have them.
func listed(list []typed) string {
	texts := make([]string, len(list))
	for i, t := range list {
		texts[i] = t.text
		if whole, part, ok := strings.Cut(t.text, ","); ok && isWhole(whole) && isWhole(part) { // 27,5
			texts[i] = whole + "." + part
		}
	}
	return "[" + strings.Join(texts, ", ") + "]"
}

func paired(names, values []typed) string {
	texts := make([]string, len(names))
	for i := range names {
		texts[i] = names[i].text + ": " + values[i].text
	}
	return "{" + strings.Join(texts, ", ") + "}"
}

// typedReadings gives the readings by cylinder that stand in one text, as a list
// or a mapping; nil where it is no such text.
func (r *reader) typedReadings(n *node) *node {
	if rows := r.bankRows(n); rows != nil {
		return rows
	}
	if rows := cmp.Or(r.groupRows(n), r.restBehind(n)); rows != nil {
		return rows
	}
	if names, values := r.asPairs(n.text); names != nil {
		out := &node{kind: mapping, pos: n.pos}
		for i := range names {
			out.entries = append(out.entries, entry{names[i].text, r.within(n, names[i].at), r.piece(n, values[i])})
		}
		return out
	}
	return r.typedFor(n, len(r.cylinderNames))
}

// typedFor gives the list that stands in one text, for some cylinders.
func (r *reader) typedFor(n *node, cylinders int) *node {
	typedOnes := asList(n.text, cylinders)
	if typedOnes == nil {
		return nil
	}
	out := &node{kind: list, pos: n.pos}
	for _, t := range unitForAll(typedOnes) {
		out.items = append(out.items, r.piece(n, t))
	}
	return out
}

// piece is a value of a text as a node of its own.
func (r *reader) piece(n *node, t typed) *node {
	tag := "!!str"
	if isFigures(t.text) {
		tag = "!!float"
	}
	return &node{pos: r.within(n, t.at), text: t.text, plain: true, tag: tag}
}

// joinList puts a list together that was written within braces without
// brackets of its own, {dry: 150, 148, 152}: its later numbers stand there as
// keys without values. So do the decimals of 9,2.
func joinList(n *node, keys []key) {
	var out []entry
	for i, e := range n.entries {
		last := len(out) - 1
		if last < 0 || !isEmpty(e.value) || !startsWithFigure(e.key) {
			out = append(out, e)
			continue
		}
		if whole := out[last].value.get("reading"); whole != nil && isThousands(whole.text+","+leadingNumber(e.key), ",") && out[last].key == "odometer" { // {odometer: 98,400 miles}
			whole.text += "," + e.key
			continue
		}
		if !isReading(e.key) {
			out = append(out, e)
			continue
		}
		if k := keyOf(keys, out[last].key); k.name == "" || k.form != asReadings {
			if whole, comma := decimalComma(n.entries, i); comma && (k.name != "" || isWhole(whole.text)) {
				joined := *whole
				joined.text += "," + e.key
				out[last].value = &joined
			} else {
				out = append(out, e)
			}
			continue
		}
		item := &node{pos: e.pos, text: e.key, plain: true, tag: "!!int"}
		switch before := out[last].value; {
		case before.kind == scalar && isReading(before.text):
			out[last].value = &node{kind: list, pos: before.pos, items: []*node{before, item}}
		case before.kind == list && before.joined:
			before.items = append(before.items, item)
		default:
			out = append(out, e)
			continue
		}
		out[last].value.joined = true
	}
	n.entries = out
}

func startsWithFigure(text string) bool { return text != "" && text[0] >= '0' && text[0] <= '9' }

// readingsHint answers readings that stand where their section's keys should.
func (r *reader) readingsHint(name string, n *node) string {
	section := name[strings.LastIndexByte(name, '.')+1:]
	text, unit := "", "psi"
	if hint := cmp.Or(r.withOilHint(section, n), r.sidesHint(section, n), sideRows(section, n)); hint != "" {
		return hint
	}
	if first, rest, ok := strings.Cut(n.text, " "); ok && n.kind == scalar && section == "compression" && !strings.ContainsAny(first, "0123456789") { // psi 1-390 2-385
		if v, err := quantity.ParseAs("1 "+first, quantity.Pressure); err == nil && v.Unit != quantity.None {
			unit = string(v.Unit)
			n = &node{kind: scalar, pos: n.pos, text: rest, plain: n.plain, tag: n.tag}
		}
	}
	switch {
	case n.kind == scalar:
		if names, values := r.asPairs(n.text); names != nil {
			text = paired(names, values)
		} else if found := asList(n.text, len(r.cylinderNames)); found != nil {
			text = listed(found)
			if v, err := quantity.ParseAs(found[len(found)-1].text, quantity.Pressure); err == nil && v.Unit != quantity.None { // at the end, for all
				unit = string(v.Unit)
				found[len(found)-1].text = plainNumber(v.Number)
				text = listed(found)
			}
		} else if parts := strings.Split(n.text, "/"); len(parts) > 2 && startsWithFigure(n.text) && !strings.Contains(n.text, " ") { // one of them is no figure, which is said of it there
			text = "[" + strings.Join(parts, ", ") + "]"
		}
	case n.kind == list && len(n.items) > 0 && n.items[0].kind == scalar && isFigures(n.items[0].text):
		text = entered(n)
	}
	switch {
	case text == "" && section == "compression" && n.kind == scalar && isReading(n.text) && startsWithFigure(n.text): // 85 lbs
		first := r.firstName()
		return "write 'compression: {unit: " + unit + ", dry: {" + first + ": " + short(n.text) + "}}'" + r.ifOfThat() + ", with the gauge's unit"
	case text == "":
		return ""
	case section == "compression":
		return "write 'compression: {unit: " + unit + ", dry: " + text + "}', with the gauge's unit"
	case section == "leakage":
		return "write 'leakage: {loss: " + text + "}', in percent lost"
	}
	return ""
}

// ifOfThat is the doubt about whose reading it is, where there are several.
func (r *reader) ifOfThat() string {
	if len(r.cylinderNames) == 1 {
		return ""
	}
	return ", if it is of that " + r.cylinderWord
}

// missingSpaces gives entries such as {1:155}, which YAML takes for keys without
// values, their values.
func (r *reader) missingSpaces(entries []entry) []entry {
	for i, e := range entries {
		name, value, found := strings.Cut(e.key, ":")
		if !found {
			name, value, found = strings.Cut(e.key, "=")
		}
		name, value = cylinderWord(name), strings.TrimSpace(value)
		if found && isEmpty(e.value) && isReading(value) && r.isCylinder(name) {
			at := Pos{e.pos.Line, e.pos.Col + len([]rune(e.key)) - len([]rune(value))}
			entries[i] = entry{name, e.pos, &node{pos: at, text: value, plain: true, tag: "!!float"}}
		}
	}
	return entries
}

// hiddenEntries reports readings that a '#' right before the cylinder turns
// into comments, in line with the others, where nothing else is given for that
// cylinder.
func (r *reader) hiddenEntries(n *node, label string) {
	if len(n.entries) == 0 {
		return
	}
	comment := func(line int) (name, value string, col int, ok bool) {
		if line < 1 || line > len(r.lines) || len(r.lines[line-1]) > longestLine {
			return "", "", 0, false
		}
		text := strings.TrimLeft(r.lines[line-1], " ")
		if !strings.HasPrefix(text, "#") {
			return "", "", 0, false
		}
		name, value, _ = strings.Cut(text[1:], ":")
		return name, strings.TrimSpace(value), len(r.lines[line-1]) - len(text) + 1, true
	}
	first, last := n.entries[0].pos.Line, n.entries[len(n.entries)-1].pos.Line
	for ; ; first-- {
		if _, _, _, ok := comment(first - 1); !ok {
			break
		}
	}
	for ; ; last++ {
		if _, _, _, ok := comment(last + 1); !ok {
			break
		}
	}
	for line := first; line <= last; line++ {
		name, value, col, ok := comment(line)
		if ok && col == n.entries[0].pos.Col && value != "" && slices.Contains(r.cylinderNames, name) && n.get(name) == nil {
			r.report(Pos{line, col}, "write '"+name+": "+short(value)+"'", "# begins a comment, so '%s' has nothing for %s %s", label, r.cylinderWord, name)
		}
	}
}
