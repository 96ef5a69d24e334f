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
	return l.fault(len(key), "the key has no colon before its brace", "write '"+short(key+": "+strings.TrimSpace(l.text[len(key):]))+"'")
}
