package job

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"gaugesheet/diag/quantity"
)

// isCylinder reports whether the engine has the cylinder, or may have it where
// the engine is not known.
func (r *reader) isCylinder(name string) bool {
	if r.cylinderNames != nil {
		return slices.Contains(r.cylinderNames, name)
	}
	v, err := strconv.Atoi(name)
	return err == nil && v >= 1 && v <= 16
}

// checkCylinder reports a cylinder that the engine does not have.
func (r *reader) checkCylinder(name, label string, pos Pos) bool {
	if r.cylinderNames == nil || slices.Contains(r.cylinderNames, name) {
		return true
	}
	r.report(pos, r.cylinderHint(name), "'%s' has %s '%s', the engine has %s", label, r.cylinderWord, short(name), allOf(r.cylinderNames))
	return false
}

// cylinderHint offers how a cylinder is named, for a key that names none.
func (r *reader) cylinderHint(name string) string {
	if hint := r.placeHint(name); hint != "" {
		return hint
	}
	last := strings.TrimLeft(strings.TrimSpace(strings.TrimLeft(strings.ToLower(name), "abcdefghijklmnopqrstuvwxyz#. ")), "0")
	switch {
	case fold(name) == "all" || fold(name) == "rest" || fold(name) == "other":
		return "'others' stands for all that are not named"
	case r.sideHint(name) != "":
		return r.sideHint(name)
	case fold(name) == "dose" || fold(name) == "oil":
		return "the dose stands beside the readings: 'oil: 5 ml'"
	case strings.Contains(name, ";"):
		return "values within braces are separated by commas, and a decimal has a point: {1: 11.2, 2: 11.0}"
	case strings.ContainsAny(name, "-,&+/") || strings.Contains(fold(name), " and "):
		return "name each by itself; 'others' stands for all that are not named"
	case last != name && slices.Contains(r.cylinderNames, last):
		return "write " + last
	}
	if near := meant(name, r.cylinderNames); near != "" || strings.ContainsAny(name, "0123456789") {
		return near
	}
	return "name it as the engine does, such as '" + r.cylinderNames[0] + "'; 'others' stands for all that are not named"
}

// sideHint answers a side that is named by who sits there.
func (r *reader) sideHint(name string) string {
	if len(r.bankList) < 2 {
		return ""
	}
	if _, answer := vocabularyOf("first bank").find(name, nil); answer != "" { // bank 1
		return answer
	}
	side := strings.TrimRight(name, " 0123456789")
	_, answer := vocabularyOf("first bank").find(side, nil)
	if number := strings.TrimSpace(name[len(side):]); answer != "" && number != "" {
		return answer + ", with the number: 'L" + number + "' or 'R" + number + "'"
	}
	return answer
}

// others is the key that stands for all cylinders not named.
const others = "others"

// byCylinder reads values by cylinder, or as a list in numerical order with an
// entry for each.
func byCylinder[T any](r *reader, n *node, label string, read func(n *node, label, cylinder string) (T, bool)) map[string]T {
	if text := r.oneText(n); text != nil {
		n = text
	}
	if n.kind == scalar && len(r.cylinderNames) == 1 && isReading(n.text) { // there is no other
		one := *n
		n = &node{kind: mapping, pos: n.pos, entries: []entry{{r.cylinderNames[0], n.pos, &one}}}
	}
	if n.kind == scalar {
		if hint := r.barHint(n.text); hint != "" {
			r.report(n.pos, hint, "'%s' is '%s', which may be in the order of the numbers or of the banks", label, short(n.text))
			return nil
		}
		if typed := r.typedReadings(n); typed != nil {
			typed.plain, typed.tag = false, ""
			*n = *typed
		} else if losses := r.lossesInLine(n, label); losses != nil {
			n = losses
		} else if told := r.toldWhole(n, label); told != nil {
			n = told
		}
	}
	r.gathered(n)
	if named := r.namesFirst(n); named != nil {
		n = named
	}
	switch n.kind {
	case mapping:
		return cylinderMap(r, n, label, read)
	case list:
		return cylinderList(r, n, label, read)
	}
	if hint := r.placeOfRow(n, label); hint != "" {
		r.report(n.pos, hint, "'%s' is '%s', expected values by %s", label, short(n.text), r.cylinderWord)
	} else if told := r.toldPartly(n, label); told != nil {
		return cylinderMap(r, told, label, read)
	}
	return nil
}

// placeOfRow answers a text that stands in the place of values by cylinder, "" where what it tells of them is to be
// made out.
func (r *reader) placeOfRow(n *node, label string) string {
	if _, _, ok := parseState(n.text); ok {
		return fmt.Sprintf("of the whole test, write '%s: %s'", sectionOf(label), n.text)
	}
	if hint := cmp.Or(r.heldOfAll(n.text, label), r.twiceEach(n.text)); hint != "" {
		return hint
	}
	ofTime := func(p quantity.Part) bool { return quantity.DimensionOf(p.Value.Unit) == quantity.Time } // 60 second
	if p, err := quantity.Scan(n.text); err == nil && len(p.Parts) > 2 && !twoFigures().MatchString(n.text) && p.Only(quantity.Next, quantity.Slash, quantity.To, quantity.And) && !slices.ContainsFunc(p.Parts, ofTime) {
		return "write [" + strings.Join(p.Texts(), ", ") + "]"
	}
	return r.loneHint(n.text, label)
}

// oneText gives the text that a list is really, {all good} within braces, and [1 150,
// 2 148] with the cylinder in each entry; nil for any other.
func (r *reader) oneText(n *node) *node {
	if n.kind != list || len(n.items) == 0 {
		return nil
	}
	named := true
	for _, item := range n.items {
		if item.kind != scalar {
			return nil
		}
		name, _, _ := strings.Cut(item.text, " ")
		named = named && name != item.text && r.isCylinder(strings.TrimRight(name, "=:)"))
	}
	text := inOne(&node{braced: true, items: n.items})
	if alike := n.braced && len(n.items) != len(r.cylinderNames); !named && !alike {
		return nil
	}
	if names, _ := r.asPairs(text.text); names == nil && len(n.items) > 1 {
		return nil
	}
	return text
}

// sectionOf is the section of a key by its label, 'compression.dry'.
func sectionOf(label string) string {
	if i := strings.LastIndexByte(label, '.'); i >= 0 {
		label = label[:i]
	}
	return label[strings.LastIndexByte(label, '.')+1:]
}

// decimalComma reports whether entry i is not an entry but the decimals of the
// one before, as in {3: 12,5}, and gives the value that they belong to.
func decimalComma(entries []entry, i int) (*node, bool) {
	if i == 0 || !isEmpty(entries[i].value) {
		return nil, false
	}
	whole, decimals := entries[i-1].value, entries[i]
	digits := func(s string) bool { return s != "" && strings.Trim(s, "0123456789") == "" }
	figures := func(s string) bool { // perhaps with a unit
		_, err := quantity.Parse(s)
		return startsWithFigure(s) && err == nil
	}
	next := Pos{Line: whole.pos.Line, Col: whole.pos.Col + len(whole.text) + len(",")}
	return whole, whole.kind == scalar && digits(whole.text) && figures(decimals.key) && decimals.pos == next
}

func cylinderMap[T any](r *reader, n *node, label string, read func(n *node, label, cylinder string) (T, bool)) map[string]T {
	out := map[string]T{}
	if len(n.entries) == 0 && !r.blank {
		r.report(n.pos, "leave the key out where nothing was read", "'%s' is empty", label)
	}
	r.hiddenEntries(n, label)
	if r.namedOnce(n, label) {
		return out
	}
	r.nameCylinders(n, label)
	for i, e := range n.entries {
		if r.runTogetherKeys(n.entries, i, label) {
			return out
		}
		if r.repeatAlone(n, i, label) {
			continue
		}
		if e.key == others && !slices.Contains(r.cylinderNames, others) || !r.checkCylinder(e.key, label, e.pos) {
			continue
		}
		if v, ok := read(e.value, label+"."+e.key, e.key); ok {
			out[e.key] = v
		}
	}
	rest := n.get(others)
	if rest == nil || slices.Contains(r.cylinderNames, others) {
		return out
	}
	filled := false
	for _, name := range r.cylinderNames {
		if n.get(name) != nil {
			continue
		}
		v, ok := read(rest, label+"."+others, name)
		if !ok {
			return out // reported once, not for every cylinder
		}
		filled = true
		out[name] = v
	}
	if !filled && r.cylinderNames != nil {
		r.report(n.keyPos(others), "leave it out", "'%s.%s' stands for no %s: each has its own value", label, others, r.cylinderWord)
	}
	return out
}

// namedOnce reports values of which only the first has its cylinder, {1: 150, 148,
// 152, 149}.
func (r *reader) namedOnce(n *node, label string) bool {
	if len(n.entries) < 2 || len(n.entries) != len(r.cylinderNames) || !r.isCylinder(n.entries[0].key) || n.entries[0].value.kind != scalar {
		return false
	}
	values := []string{short(n.entries[0].value.text)}
	for _, e := range n.entries[1:] {
		if !isEmpty(e.value) || r.hasColon(e) || !isReading(e.key) || r.isCylinder(e.key) {
			return false
		}
		values = append(values, short(e.key))
	}
	r.report(n.pos, "in the order of the numbers, without names: ["+strings.Join(values, ", ")+"]", "'%s' names %s %s alone", label, r.cylinderWord, short(n.entries[0].key))
	return true
}

// repeatAlone reports a second reading of a cylinder that stands behind it without
// brackets, {1: 150, 148, 2: 152}.
func (r *reader) repeatAlone(n *node, i int, label string) bool {
	e := n.entries[i]
	if i == 0 || !isEmpty(e.value) || !isReading(e.key) || !startsWithFigure(e.key) || r.isCylinder(e.key) || r.hasColon(e) {
		return false
	}
	before := n.entries[i-1]
	if before.value.kind != scalar || !isReading(before.value.text) || before.pos.Line != e.pos.Line {
		return false
	}
	r.report(e.pos, "two readings of one "+r.cylinderWord+" stand in brackets: '"+before.key+": ["+short(before.value.text)+", "+short(e.key)+"]'", "'%s' has a reading without its %s, '%s'", label, r.cylinderWord, short(e.key))
	return true
}

// runTogetherKeys reports cylinders that were named with one value for all of
// them, {1,3: 150}, and a text whose comma the braces take for the end of a value.
func (r *reader) runTogetherKeys(entries []entry, i int, label string) bool {
	e := entries[i]
	if !isEmpty(e.value) || e.value.tag == "!!str" && !e.value.plain { // '' for the same again
		return false
	}
	if name, value := r.namedValue(e.key, isReading); name != "" && !isFigures(e.key) { // {3: 90, the rest about 150}
		r.report(e.pos, "write '"+name+": "+value+"'", "'%s' has '%s' without a colon", label, short(e.key))
		return true
	}
	if i > 0 && !r.isCylinder(e.key) && e.key != others && entries[i-1].value.kind == scalar && strings.ContainsFunc(e.key, unicode.IsLetter) && e.pos.Line == entries[i-1].pos.Line {
		before := entries[i-1]
		r.report(e.pos, "put the text into quotes: "+before.key+`: "`+short(before.value.text+", "+e.key)+`"`, "'%s.%s' has a comma in it, at which it ends within braces", label, before.key)
		return true
	}
	var names []string
	for j := i; j < len(entries) && entries[j].pos.Line == e.pos.Line && r.isCylinder(entries[j].key); j++ {
		names = append(names, entries[j].key)
		if value := entries[j].value; !isEmpty(value) {
			if value.kind != scalar || j == i || r.hasColon(e) {
				return false
			}
			for k := range names {
				names[k] += ": " + short(value.text)
			}
			r.report(e.pos, "name each with its value: {"+strings.Join(names, ", ")+"}; or say which you mean for those without: not tested, could not test (why)", "'%s' has one value for several %ss", label, r.cylinderWord)
			return true
		}
	}
	return false
}

// hasColon reports a cylinder that has its colon, {1: , 2: 150}, and nothing
// behind it: it is not named together with the next one.
func (r *reader) hasColon(e entry) bool {
	if e.pos.Line < 1 || e.pos.Line > len(r.lines) || len(r.lines[e.pos.Line-1]) > longestLine {
		return false
	}
	line := []rune(r.lines[e.pos.Line-1])
	at := e.pos.Col - 1 + len([]rune(e.key))
	return at < len(line) && strings.HasPrefix(strings.TrimLeft(string(line[at:]), `'" `), ":")
}

// nameCylinders brings what is written for the cylinders of a mapping to their
// names, and what YAML took apart together.
func (r *reader) nameCylinders(n *node, label string) {
	var out []entry
	first := map[string]Pos{}
	entries := r.byBanks(r.missingSpaces(n.entries))
	names := make([]string, len(entries))
	for i, e := range entries {
		names[i] = e.key
	}
	names = r.named(names)
	for i, e := range entries {
		e.key = names[i]
		if before, twice := first[e.key]; twice {
			what := r.cylinderWord + " " + short(e.key)
			if e.key == others {
				what = "values for all other " + r.cylinderWord + "s"
			}
			r.report(e.pos, "keep one of the two", "'%s' has %s twice: in line %d and here", label, what, before.Line)
			continue
		}
		first[e.key] = e.pos
		out = append(out, e)
	}
	n.entries = out
}

func cylinderList[T any](r *reader, n *node, label string, read func(n *node, label, cylinder string) (T, bool)) map[string]T {
	names := r.cylinderNames
	if names == nil {
		for i := range n.items {
			names = append(names, strconv.Itoa(i+1))
		}
	}
	if points := decimalCommas(n, len(r.cylinderNames)); points != nil {
		n.items = points
	}
	if len(n.items) != len(names) {
		r.report(n.pos, cmp.Or(runTogether(textsOf(n), len(names)), fmt.Sprintf("write '%s' where there is no reading; a list inside the list is repeats of one %s", stateWords[0], r.cylinderWord)),
			"'%s' lists %d values, the engine has %d %ss", label, len(n.items), len(names), r.cylinderWord)
		return nil
	}
	out := map[string]T{}
	for i, item := range n.items {
		if v, ok := read(item, label+"."+names[i], names[i]); ok {
			out[names[i]] = v
		}
	}
	return out
}

// cylinders reads a section's list of cylinders.
func (s *section) cylinders(key string) []string {
	n := s.get(key)
	if n == nil {
		return nil
	}
	label := s.label(key)
	if names := typedNames(n); names != nil {
		whole := n
		n = &node{kind: list, pos: n.pos}
		for _, name := range names {
			n.items = append(n.items, &node{pos: whole.pos, text: name, plain: true, tag: "!!str"})
		}
	}
	if n.kind != list {
		return s.r.nameList(n, label)
	}
	var out []string
	for i, name := range s.r.named(textsOf(n)) {
		item := n.items[i]
		if item.kind == scalar {
			item.text = name
		}
		switch {
		case item.kind != scalar || isEmpty(item):
			s.r.report(item.pos, "", "'%s' has %s in it, expected a %s", label, describe(item), s.r.cylinderWord)
		case !s.r.checkCylinder(item.text, label, item.pos):
		case slices.Contains(out, item.text):
			s.r.report(item.pos, "", "'%s' has %s %s twice", label, s.r.cylinderWord, item.text)
		default:
			out = append(out, item.text)
		}
	}
	return out
}
