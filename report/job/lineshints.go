package job

import (
	"slices"
	"strings"
	"unicode"
)

// wideColon is the colon of a keyboard for Chinese or Japanese.
const wideColon = "\uff1a"

// pairsIn writes cylinders with their values on one line, '1: tan, 2: oily', as
// braces have them; "" for any other text.
func pairsIn(text string) string {
	var names, values []typed
	for _, piece := range separate(text, ",;|") {
		name, value, ok := strings.Cut(piece.text, ":")
		if name = cylinderWord(name); !ok || !isWhole(name) || strings.TrimSpace(value) == "" || strings.Contains(value, ": ") {
			return ""
		}
		names, values = append(names, typed{text: name}), append(values, typed{text: strings.TrimSpace(value)})
	}
	if len(names) < 2 {
		return ""
	}
	return paired(names, values)
}

// written is a fault of a line that is answered with the whole line as it was meant, by
// which the rest of the file can be read in the same run.
func (l line) written(behind int, message, text string) (fault, bool) {
	f, _ := l.fault(behind, message, "write '"+short(text)+"'")
	f.instead = strings.Repeat(" ", l.indent) + text
	return f, true
}

// mostlyKeyed reports faults of which most begin with a key and lack no more than its colon:
// notes as they stand on paper, of which each line can be told.
func mostlyKeyed(faults []fault) bool {
	keyed := 0
	for _, f := range faults {
		if f.instead != "" && !strings.HasPrefix(f.instead, "#") {
			keyed++
		}
	}
	return keyed > 2 && 2*keyed >= len(faults)
}

// linesOfNotes are what each line without a colon lacks to be one of a job file.
func (r *reader) linesOfNotes() []fault {
	var out []fault
	for i, text := range r.lines {
		if len(text) > longestLine || len(out) == mostLineFaults {
			return nil
		}
		if l := lineOf(strings.TrimRight(text, "\r"), i+1); l.text != "" && !l.colon && l.indent == 0 {
			if f, ok := l.noColon(); ok {
				out = append(out, f)
			}
		}
	}
	return out
}

// noColon says how a line without its colon is written.
func (l line) noColon() (fault, bool) {
	const message = "the line has no colon with a space behind it"
	if strings.HasPrefix(l.comment, "#") && startsWithFigure(l.comment[1:]) { // cyl #1: 140
		f, _ := l.fault(len(l.text)+1, "a # begins a comment", "leave the # out: '"+short(l.text+" "+l.comment[1:])+"'")
		plain := lineOf(strings.Repeat(" ", l.indent)+l.text+" "+strings.ReplaceAll(l.comment, "#", ""), l.number)
		if again, ok := plain.noColon(); ok && !plain.colon {
			f.instead = again.instead
		}
		return f, true
	}
	if before, after, wide := strings.Cut(l.text, wideColon); wide {
		return l.written(len(before), "a wide colon", strings.TrimSpace(before+": "+strings.TrimSpace(after)))
	}
	if hint := limitsHint(l.text, keysOf(keysOf(fileKeys, "compression"), "limits")); hint != "" { // min 24 bar
		f, _ := l.fault(0, "limits without their key", hint+", under the test that they are for")
		f.instead = "# " + l.text
		return f, true
	}
	key, value := l.split()
	switch {
	case value == "" && isKeyWord(key):
		return l.written(len(l.text), "the line has no colon", key+":")
	case value == "":
		return l.fault(len(l.text), "the line has no colon", "write a key, a colon, a space and the value, such as 'unit: psi'")
	case isHeading(value):
		f, _ := l.fault(0, "a line that is only a heading", "begin it with '#': '# "+short(l.text)+"'")
		f.instead = "# " + l.text
		return f, true
	case l.indent == 0 && banksLine(l.text) != "":
		f, _ := l.fault(0, "a line without its key", "which cylinders stand on which side belongs to the engine: 'engine: {"+banksLine(l.text)+", ...}'")
		f.instead = "# " + l.text
		return f, true
	case l.indent == 0 && !isKeyWord(key) && isEngine(l.text): // 50cc 2 stroke single
		return l.written(0, message, "engine: "+l.text)
	case l.indent == 0 && !isKeyWord(key) && len(complaintsIn(l.text)) > 0 && !strings.ContainsAny(l.text, "0123456789"):
		return l.written(0, message, "job: "+l.text)
	case l.indent == 0 && conditionsLine(l.text):
		return l.written(0, message, "conditions: "+strings.TrimPrefix(strings.TrimPrefix(l.text, "tested "), "done "))
	}
	if strings.HasPrefix(value, "{") || strings.HasPrefix(value, "[") { // {unit:psi,dry:[150]}
		value = tightColon().ReplaceAllString(value, "$1: $2")
	}
	if write := l.keyed(key, value); write != "" {
		return l.written(len(key), message, write)
	}
	f, _ := l.fault(len(key), message, "what was measured begins with its key, such as 'compression:'; a remark is written 'notes: "+short(l.text)+"'")
	f.instead = "# " + l.text
	return f, true
}

// keyed is a line with its colon and, where it says how the test was done, under its
// section; "" where it begins with no word for a key.
func (l line) keyed(key, value string) string {
	name, known := fold(key), isKeyWord(key)
	if isAnswered(key) { // lift pump 55 psi
		return key + ": " + value
	}
	section := key
	if called := keysCalled(key); len(called) > 0 && !known { // moteur chaud
		name, known = called[0], keyOf(keysOf(fileKeys, "compression"), called[0]).form != asReadings || strings.ContainsAny(value, "0123456789") // cold start bad
		section = name
	}
	for _, k := range fileKeys { // engine warm
		if k.form != asGroup {
			continue
		}
		if one, figure := counted(k, l.text); one != "" { // 8 cranks
			return k.name + ": {" + one + ": " + figure + "}"
		}
		one := keyOf(k.keys, name)
		if word, answer := vocabularyOf(one.says).find(value, one.words); word != "" || answer != "" && k.name == "conditions" {
			return k.name + ": {" + section + ": " + value + "}"
		}
	}
	if !known && l.indent == 0 && strings.Contains(l.text, " ") && !strings.ContainsAny(l.text, "=") && !startsWithFigure(value) && value[0] != '{' && value[0] != '[' {
		return ""
	}
	return key + ": " + value
}

// isEngine reports a text that says how an engine's cylinders stand, with more of it.
func isEngine(text string) bool {
	n := alone(keyOf(fileKeys, "engine"), &node{text: text, plain: true, tag: "!!str"})
	return n != nil && n.get("layout") != nil && isLayout(n.get("layout").text)
}

// isAnswered reports a name for a key of the file that has an answer of its own.
func isAnswered(name string) bool {
	return slices.ContainsFunc(keyAnswers, func(a keyAnswer) bool { return a.section == "" && slices.Contains(a.words, plainWords(name)) })
}

// conditionsLine reports a line that says how the test was done: throttle open, all plugs
// out, warm.
func conditionsLine(text string) bool {
	said := 0
	text = strings.TrimPrefix(strings.TrimPrefix(text, "tested "), "done ")
	put := func(_, _ string, _ int) bool { said++; return true }
	words(keyOf(fileKeys, "conditions"), text, put)
	return said > 0 && 2*said >= len(separate(text, ",;")) && (said > 1 || !strings.Contains(text, " "))
}

// banksLine writes which cylinders stand on which side, 'cyl 1 front right, 2 front left, 3
// rear right', as the key of the engine; "" for any other text.
func banksLine(text string) string {
	sides := vocabularyOf("first bank")
	banks, order := map[string][]string{}, []string{}
	for _, piece := range separate(text, ",;") {
		number, side := "", ""
		for _, w := range strings.Fields(piece.text) {
			if isWhole(cylinderWord(w)) && number == "" {
				number = cylinderWord(w)
			}
			if found, _ := sides.find(w, []string{"left", "right"}); found != "" && len(w) > 1 {
				side = found
			}
		}
		if number == "" || side == "" {
			return ""
		}
		if banks[side] == nil {
			order = append(order, side)
		}
		banks[side] = append(banks[side], number)
	}
	if len(order) != 2 {
		return ""
	}
	return "banks: {" + order[0] + ": [" + strings.Join(banks[order[0]], ", ") + "], " + order[1] + ": [" + strings.Join(banks[order[1]], ", ") + "]}"
}

// isHeading reports what stands behind the name of a test in a line that is only a
// heading, Compression test 1998 pickup, and no readings.
func isHeading(text string) bool {
	fields := strings.Fields(fold(text))
	if len(fields) == 0 || !slices.Contains([]string{"test", "tests", "report", "sheet", "results", "readings", "check"}, fields[0]) {
		return false
	}
	return len(fields) == 1 || strings.ContainsFunc(fields[len(fields)-1], unicode.IsLetter) && !isReading(fields[len(fields)-2]+" "+fields[len(fields)-1])
}

// openedFault finds a key whose colon is left out before its brace: engine {layout: V8}.
func (l line) openedFault() (fault, bool) {
	key, _, ok := strings.Cut(l.key, "{")
	if key = strings.TrimSpace(key); !l.colon || !ok || !isKeyWord(key) {
		return fault{}, false
	}
	return l.written(len(key), "the key has no colon before its brace", key+": "+strings.TrimSpace(l.text[len(key):]))
}

// tightColon is a colon without a space behind it, between a key and its value.
var tightColon = lazily(`([A-Za-z0-9]):([^ :])`)

// listFault finds a list with dashes on the line of its key, findings: - belt frayed - weep at the pump.
func (l line) listFault() (fault, bool) {
	if !l.colon || !strings.HasPrefix(l.value, "- ") {
		return fault{}, false
	}
	var items []string
	for _, item := range strings.Split(l.value[2:], " - ") {
		items = append(items, inQuotes(strings.Trim(item, " -")))
	}
	return l.fault(strings.Index(l.text, l.value), "a list begins on the line of its key", "write it in brackets: '"+short(l.key)+": ["+strings.Join(items, ", ")+"]'")
}
