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

// noColon says how a line without its colon is written.
func (l line) noColon() (fault, bool) {
	const message = "the line has no colon with a space behind it"
	if strings.HasPrefix(l.comment, "#") && startsWithFigure(l.comment[1:]) { // cyl #1: 140
		return l.fault(len(l.text)+1, "a # begins a comment", "leave the # out: '"+short(l.text+" "+l.comment[1:])+"'")
	}
	if before, after, wide := strings.Cut(l.text, wideColon); wide {
		return l.written(len(before), "a wide colon", strings.TrimSpace(before+": "+strings.TrimSpace(after)))
	}
	if hint := limitsHint(l.text, keysOf(keysOf(fileKeys, "compression"), "limits")); hint != "" { // min 24 bar
		return l.fault(0, "limits without their key", hint+", under the test that they are for")
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
	case l.indent == 0 && conditionsLine(l.text):
		return l.written(0, message, "conditions: "+l.text)
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
	if called := keysCalled(key); len(called) > 0 && !known { // moteur chaud
		name, known = called[0], true
		key = name
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
			return k.name + ": {" + key + ": " + value + "}"
		}
	}
	if !known && l.indent == 0 && strings.Contains(l.text, " ") && !strings.ContainsAny(l.text, "=") && !startsWithFigure(value) && value[0] != '{' && value[0] != '[' {
		return ""
	}
	return key + ": " + value
}

// conditionsLine reports a line that says how the test was done: throttle open, all plugs
// out, warm.
func conditionsLine(text string) bool {
	said := 0
	put := func(_, _ string, _ int) bool { said++; return true }
	words(keyOf(fileKeys, "conditions"), text, put)
	return said > 1 && 2*said >= len(separate(text, ",;"))
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
