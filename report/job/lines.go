package job

import (
	"slices"
	"strings"

	"gaugesheet/diag/quantity"
)

// mostLineFaults is how many faulty lines are told in one run.
const mostLineFaults = 12

// farthest is how many lines behind one are looked at.
const farthest = 200

// lineFaults find the lines on which a file that is no YAML goes wrong, and say
// what to type there: YAML itself names a line behind it, or the first of all.
// There are none where the fault is of no known kind.
func (r *reader) lineFaults() []fault {
	var s lineScan
	var out []fault
	lines, plain := 0, 0
	for i, text := range r.lines {
		if len(text) > longestLine {
			return nil
		}
		l := lineOf(strings.TrimRight(text, "\r"), i+1)
		if s.skips(l) {
			continue
		}
		if l.text != "" {
			lines++
		}
		if l.text != "" && !l.colon && !(strings.Contains(l.text, "=") && keyed(l.text)) {
			plain++
		}
		if len(out) < mostLineFaults {
			if f, ok := s.faultIn(l, r.lines[i+1:min(i+1+farthest, len(r.lines))]); ok {
				out = append(out, f)
				l.value = "" // what follows from it is not told
				if !l.colon && keyed(l.text) {
					l.colon, l.value = true, l.text // the next line without a colon is one more
				}
			}
		}
		s.take(l)
	}
	if notes := r.linesOfNotes(); len(out) > 0 && 2*plain > lines && mostlyKeyed(notes) {
		return notes
	}
	if len(out) > 0 && 2*plain > lines {
		return []fault{faultAt(out[0].at, "most lines have no key and colon, expected a job file", notesHint)}
	}
	return out
}

// notesHint answers notes that are typed as they stand on paper.
const notesHint = "'gaugesheet start --ask' asks for all of it, one thing after the other; by hand a job begins such as 'engine: {layout: inline-4, fuel: petrol}'"

// dressedFault finds a key that stands in brackets, quotes or stars, or has a point
// behind it, in the place of its colon: (dry) 150, Dry. {1: 150}, **engine**: {...}.
func (l line) dressedFault() (fault, bool) {
	first, rest, ok := strings.Cut(l.text, " ")
	bare := strings.Trim(first, "()[]<>*_\"'“”‘’.:;,")
	if !ok || bare == "" || bare == strings.TrimSuffix(first, ":") || !isKeyWord(bare) || strings.HasPrefix(first, "-") || (first[0] == '"' || first[0] == '\'') && strings.HasSuffix(first, first[:1]+":") {
		return fault{}, false
	}
	return l.written(0, "the key '"+short(first)+"' has signs that are not its own", fold(bare)+": "+strings.TrimLeft(rest, ":=- "))
}

// faultIn finds the fault of a line; those behind it are given too.
func (s *lineScan) faultIn(l line, behind []string) (fault, bool) {
	for _, find := range []func() (fault, bool){l.blankFault, l.markFault, l.tableFault, l.remarkFault, l.dashFault, l.listFault, l.dressedFault, func() (fault, bool) { return l.quoteFault(behind) }, l.signFault, l.overFault, l.endFault, l.behindFault, l.openedFault, l.twoKeysFault,
		func() (fault, bool) { return s.indentFault(l) }, func() (fault, bool) { return s.colonFault(l, behind) }} {
		if f, ok := find(); ok {
			return f, true
		}
	}
	return fault{}, false
}

// A line of a file, taken apart at its first colon.
type line struct {
	number     int
	indent     int
	text       string // without indentation, dash and comment
	comment    string
	at         int // the column at which the text begins, counted from 0
	key, value string
	colon      bool // a key, a colon, and behind it a space or nothing
}

func lineOf(text string, number int) line {
	l := line{number: number}
	body := strings.TrimLeft(text, " ")
	l.indent = len(text) - len(body)
	l.at = l.indent
	for strings.HasPrefix(body, "- ") {
		rest := strings.TrimLeft(body[2:], " ")
		l.at += len(body) - len(rest)
		body = rest
	}
	l.text = body
	if strings.HasPrefix(body, "#") {
		l.text, l.comment = "", body
	} else if i := strings.Index(body, " #"); i >= 0 && !strings.ContainsAny(body[:i], `"'`) {
		l.text, l.comment = strings.TrimRight(body[:i], " "), body[i+1:]
	}
	l.text = strings.TrimRight(l.text, " ")
	if i := colonIn(l.text); i >= 0 {
		l.key, l.value, l.colon = l.text[:i], strings.TrimSpace(l.text[i+1:]), true
	}
	return l
}

// colonIn finds the first colon that ends a key; -1 where there is none.
func colonIn(text string) int {
	if text == "" || strings.ContainsRune("{[\"'", rune(text[0])) {
		return -1
	}
	for i := range text {
		if text[i] == ':' && (i+1 == len(text) || text[i+1] == ' ') {
			return i
		}
	}
	return -1
}

func (l line) fault(behind int, message, hint string) (fault, bool) {
	before := l.text[:min(max(behind, 0), len(l.text))]
	return faultAt(Pos{l.number, l.at + len([]rune(before)) + 1}, message, hint), true
}

// blankFault finds an indentation with other signs than spaces.
func (l line) blankFault() (fault, bool) {
	if l.text == "" && l.comment == "" || !strings.ContainsAny(l.text[:min(3, len(l.text))], "\t\u00a0") {
		return fault{}, false
	}
	trimmed := strings.TrimLeft(l.text, "\t \u00a0\u3000")
	if trimmed == l.text || trimmed == "" {
		return fault{}, false
	}
	return l.fault(0, "the line begins with a tab or another blank that is no space", "indent with spaces: two for each step")
}

// quoteFault finds a quote that is opened before a value and not closed.
func (l line) quoteFault(behind []string) (fault, bool) {
	if l.value == "" || l.value[0] != '\'' && l.value[0] != '"' {
		return fault{}, false
	}
	quote := l.value[:1]
	if strings.Contains(l.value[1:], quote) {
		return l.earlyQuoteFault()
	}
	for _, later := range behind { // it may go on over some lines
		if strings.HasSuffix(strings.TrimRight(later, " \r"), quote) && colonIn(strings.TrimSpace(later)) < 0 {
			return fault{}, false
		}
	}
	hint := "close the quote: " + l.key + ": " + short(l.value) + quote
	if quote == "'" { // '98 pickup
		hint = `write ` + l.key + `: "` + short(l.value) + `" where the sign belongs to the text, else close the quote`
	}
	return l.fault(strings.Index(l.text, l.value), "a quote is opened and not closed", hint)
}

// signFault finds a value that begins with a sign that means something else.
func (l line) signFault() (fault, bool) {
	if l.value == "" || !strings.ContainsRune("@`%&!>|*", rune(l.value[0])) {
		return fault{}, false
	}
	rest := strings.TrimSpace(l.value[1:])
	at := strings.LastIndex(l.text, l.value)
	switch l.value[0] {
	case '>', '|':
		if strings.Trim(rest, "+-0123456789") == "" && !(l.value[0] == '>' && startsWithFigure(rest)) {
			return fault{}, false // a text of several lines
		}
		if strings.Contains(rest, "|") { // | 150 | 148 |
			return l.fault(at, "a row of a table", "leave the upright lines out: '"+short(l.key+": "+strings.Join(strings.Fields(strings.ReplaceAll(l.value, "|", " ")), " "))+"'")
		}
		if startsWithFigure(rest) {
			return l.fault(at, "a value begins with the sign '"+l.value[:1]+"'", "write 'over "+short(rest)+"'")
		}
	case '!', '&', '*':
		if rest != "" && l.value[1] != ' ' && strings.Trim(fold(rest), "abcdefghijklmnopqrstuvwxyz0123456789-_") == "" {
			return fault{}, false
		}
	}
	return l.fault(at, "a value begins with the sign '"+l.value[:1]+"'", "put the text into quotes: "+l.key+`: "`+short(l.value)+`"`)
}

// overFault finds a closing sign more than were opened.
func (l line) overFault() (fault, bool) {
	if !l.colon || l.value == "" || l.value[0] != '{' && l.value[0] != '[' || strings.ContainsAny(l.text, `"'`) || balance(l.text) >= 0 {
		return fault{}, false
	}
	last := l.text[len(l.text)-1:]
	return l.fault(len(l.text)-1, "found '"+last+"', which closes nothing", "delete the last '"+last+"'")
}

// endFault finds a sign behind the brace or bracket that ends a value.
func (l line) endFault() (fault, bool) {
	for _, end := range []string{"};", "];", "},", "],"} {
		if l.colon && strings.HasSuffix(l.text, end) {
			return l.fault(len(l.text)-1, "found '"+end[1:]+"' behind the value", "delete the '"+end[1:]+"': each key stands on a line of its own, and nothing stands between them")
		}
	}
	return fault{}, false
}

// twoKeysFault finds a second colon in a value that is no quoted text.
func (l line) twoKeysFault() (fault, bool) {
	second := colonIn(l.value)
	if !l.colon || second < 0 {
		return fault{}, false
	}
	from := strings.LastIndex(l.text, l.value)
	if before, after := strings.TrimSpace(l.value[:second]), strings.TrimSpace(l.value[second+1:]); startsWithFigure(before) && !strings.ContainsAny(before, " ;|") && isFigures(after) { // 9,2 : 1
		return l.fault(from+second, "a colon with a space behind it", "write '"+short(l.key)+": "+before+":"+after+"'")
	}
	word := l.value[:second]
	word = strings.TrimSpace(word[strings.LastIndexAny(word, ",;")+1:])
	outer := keyOf(fileKeys, fold(l.key))
	if word != strings.TrimSpace(l.value[:second]) || (len(outer.keys) > 0 || outer.name == "" && isKeyWord(word)) && isKeyWord(word) {
		inner := strings.TrimSpace(l.value[second+1:])
		hint := "write '" + short(word+": "+inner) + "' on a line of its own"
		if word == strings.TrimSpace(l.value[:second]) {
			hint += ", two spaces further in than '" + short(l.key) + ":'"
		}
		return l.fault(from+second, "two keys on one line", hint)
	}
	if list := pairsIn(l.value); list != "" { // 1: 150 | 2: 148
		return l.fault(from+second, "values by cylinder on the line of their key", "put them into braces: "+short(l.key)+": "+list)
	}
	return l.fault(from+second, "a text has a colon and a space in it", "such a text needs quotes: "+short(l.key)+`: "`+short(l.value)+`"`)
}

// isKeyWord reports a word that is a key somewhere in a job file, or is called
// so by many.
func isKeyWord(word string) bool {
	name := strings.NewReplacer(" ", "-", "_", "-").Replace(fold(word))
	return keyOf(fileKeys, name).name != "" || len(placesOf(name)) > 0
}

// lineScan is what the lines so far have opened.
type lineScan struct {
	levels  []int // indentations of the keys that a line may stand beside
	inText  int   // the indentation of the key whose text of several lines is read; -1 for none
	texting bool
	flow    int  // braces and brackets that are open
	before  line // the last that was neither blank nor a comment
}

// skips reports a line that has no key of its own: a blank one, one of a text of
// several lines, or one within braces.
func (s *lineScan) skips(l line) bool {
	if s.texting && (l.text == "" || l.indent > s.inText) {
		return true
	}
	s.texting = false
	if s.flow > 0 {
		s.flow = max(0, s.flow+balance(l.text))
		return true
	}
	return l.text == "" && l.comment == "" || l.text == "---" || l.text == "..."
}

// balance counts the braces and brackets that a line opens and does not close.
func balance(text string) int {
	return strings.Count(text, "{") + strings.Count(text, "[") - strings.Count(text, "}") - strings.Count(text, "]")
}

func (s *lineScan) take(l line) {
	if l.text == "" {
		return
	}
	s.flow = max(0, balance(l.text))
	if l.value != "" && strings.ContainsRune("|>", rune(l.value[0])) {
		s.texting, s.inText = true, l.indent
	}
	if l.colon {
		s.levels = slices.DeleteFunc(s.levels, func(level int) bool { return level >= l.indent })
		s.levels = append(s.levels, l.indent)
	}
	s.before = l
}

// indentFault finds a key that stands neither beside nor under one above it.
func (s *lineScan) indentFault(l line) (fault, bool) {
	if !l.colon || len(s.levels) == 0 || l.at != l.indent {
		return fault{}, false
	}
	last := s.levels[len(s.levels)-1]
	switch {
	case l.indent > last && s.before.colon && s.before.value != "" && s.before.indent == last:
		hint := "indent '" + short(l.key) + ":' as far as '" + short(s.before.key) + ":'"
		if v, err := quantity.Parse("1 " + s.before.value); err == nil && v.Unit != quantity.None { // compression: psi, with the cylinders under it
			hint = "write '" + short(s.before.key) + ":' by itself, and 'unit: " + short(s.before.value) + "' as the first line under it"
		}
		return l.fault(0, "the line is indented further than the one above, whose key has a value already", hint)
	case l.indent < last && !slices.Contains(s.levels, l.indent):
		return l.fault(0, "the line is indented as far as no line above", "indent '"+short(l.key)+":' as far as the keys that it belongs to")
	}
	return fault{}, false
}

// colonFault finds a line without a key among others that have one.
func (s *lineScan) colonFault(l line, behind []string) (fault, bool) {
	if l.colon || l.text == "" || l.at != l.indent || strings.ContainsRune("{}[]\"'", rune(l.text[0])) {
		return fault{}, false
	}
	if strings.HasPrefix(l.comment, "#") && startsWithFigure(l.comment[1:]) {
		return l.noColon()
	}
	beside := s.before.colon && s.before.indent == l.indent && s.before.value != ""
	for _, next := range behind {
		if after := lineOf(next, 0); after.text != "" {
			beside = beside || after.colon && (after.indent == l.indent || after.indent > l.indent && isKeyWord(l.text))
			break
		}
	}
	if !beside && !keyed(l.text) {
		return fault{}, false
	}
	if s.continuesText(l) {
		return l.fault(0, "the line has no key of its own", "where it goes on with the text above, indent it by two spaces more than '"+short(s.before.key)+":'")
	}
	if s.before.colon && s.before.value == "" && s.before.indent == l.indent && !keyed(l.text) && !isKeyWord(l.text) { // engine:, and inline-4 below it
		return l.fault(0, "the line stands below '"+short(s.before.key)+":' and has no key", "write it on one line: '"+short(s.before.key+": "+l.text)+"'")
	}
	return l.noColon()
}

// keyed reports a line that is a key and its value in all but the colon: '1 = 30
// bar', 'engine hot'.
func keyed(text string) bool {
	name, value, ok := strings.Cut(text, "=")
	if name = strings.TrimSpace(name); ok && strings.TrimSpace(value) != "" {
		return isWhole(cylinderWord(name)) || isKeyWord(name)
	}
	first, rest, ok := strings.Cut(text, " ")
	return ok && (isKeyWord(first) && startsWithFigure(rest) || keyOf(fileKeys, fold(first)).name != "" || len(keysCalled(first)) > 0 && keyOf(fileKeys, keysCalled(first)[0]).name != "")
}

// split takes a line without a colon apart where its key probably ends.
func (l line) split() (key, value string) {
	fields := strings.Fields(l.text)
	for n := min(len(fields)-1, 3); n > 0; n-- { // fuel pressure
		if words := strings.Join(fields[:n], " "); (isKeyWord(words) || n > 1 && (len(keysCalled(words)) > 0 || isAnswered(words))) && !strings.ContainsAny(fields[n][:1], "=:") {
			return words, strings.Join(fields[n:], " ")
		}
	}
	for _, sign := range []string{" = ", "=", ":", " - ", " {", " ["} {
		if before, after, ok := strings.Cut(l.text, sign); ok && before != "" && after != "" {
			if sign[len(sign)-1] == '{' || sign[len(sign)-1] == '[' {
				after = sign[1:] + after
			}
			return strings.TrimSpace(before), strings.TrimSpace(after)
		}
	}
	if len(fields) < 2 {
		return l.text, ""
	}
	return strings.TrimRight(fields[0], ",;"), strings.Join(fields[1:], " ")
}
