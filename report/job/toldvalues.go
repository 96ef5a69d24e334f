package job

import (
	"slices"
	"strings"

	"gaugesheet/diag/quantity"
)

// keyAt is the key of the file that a label names, 'injectors.spray'; the zero one for none.
func keyAt(label string) key {
	k := key{keys: fileKeys}
	for _, name := range strings.Split(strings.TrimPrefix(label, "before."), ".") {
		next := keyOf(k.keys, name)
		if next.name == "" && len(k.keys) > 0 && (k.perName || k.form == asByName || k.form == asByBank) { // a cylinder, a circuit, a bank
			continue
		}
		k = next
	}
	return k
}

// isReadingsKey reports a label whose values by cylinder are figures.
func isReadingsKey(label string) bool {
	k := keyAt(label)
	return k.form == asReadings || label == "leakage.dry" || label == "leakage.wet"
}

// valuesOf gives what reads a value by cylinder that stands under a label, and writes it as it is to be; nil where
// any words are one.
func valuesOf(label string) func(string) (string, bool) {
	k := keyAt(label)
	switch {
	case label == "plugs.looks":
		return wordsOfKey(keyOf(plugKeys, "look"))
	case label == "leakage.dry" || label == "leakage.wet" || label == "leakage.loss":
		return func(text string) (string, bool) {
			figure, _ := leakParts(text)
			return text, isFigureAlone(figure) || isHeld(figure)
		}
	case label == "balance.drop":
		return func(text string) (string, bool) {
			if figure := dropFigure(fold(text)); figure == "0" || isFigureAlone(figure) {
				return figure, true
			}
			return text, isFigureAlone(text)
		}
	case k.form == asAllTexts && len(k.words) > 0:
		return wordsOfKey(k)
	case k.form == asReadings:
		pressure := vocabularyOf("pressure")
		return func(text string) (string, bool) {
			if word := strings.TrimPrefix(strings.TrimPrefix(strings.TrimSuffix(fold(text), " circuit"), "dead "), "completely "); slices.Contains(k.words, "open") && (word == "open" || slices.Contains(openWords, word)) {
				return "open", true
			}
			return text, isFigureAlone(text) || slices.Contains(k.words, fold(text)) || pressure.answers(text, pressure.Words)
		}
	}
	if isFree(label) {
		return func(string) (string, bool) { return "", false }
	}
	return nil
}

// isFree reports a label whose values by cylinder are any words.
func isFree(label string) bool {
	k := keyAt(label)
	return label == "borescope" || k.form == asAllTexts && len(k.words) == 0
}

// isFigureAlone reports a reading, or that there is none, with nothing that tells why behind it but in brackets.
func isFigureAlone(text string) bool {
	if _, reason, stated := parseState(text); stated {
		return reason == "" || strings.HasSuffix(text, ")")
	}
	v, err := quantity.ParseAs(text, quantity.Pressure)
	return isReading(text) && !twoFigures().MatchString(text) && (err != nil || quantity.DimensionOf(v.Unit) != quantity.Time && v.Unit != quantity.CubicInch) // 150s, and 70 in 3
}

// twoFigures are figures with a space between, which are two readings sooner than thousands.
var twoFigures = lazily(`\d \d{3}\b`)

// wordsOfKey reads the words of a key, and those that are answered.
func wordsOfKey(k key) func(string) (string, bool) {
	vocabulary := vocabularyOf(k.says)
	return func(text string) (string, bool) {
		text = strings.ReplaceAll(text, " n ", " and ")
		_, _, stated := parseState(text)
		return text, vocabulary.answers(text, k.words) || stated && isFigureAlone(text)
	}
}

// linksOf are further words between a cylinder and what is told of it under a label.
func linksOf(label string) []string {
	switch {
	case strings.HasPrefix(label, "balance."):
		return []string{"off", "out", "pulled", "unplugged", "disconnected", "killed", "shorted", "lead off", "coil off", "pulling", "pulling lead off", "pulling the lead off", "pulling", "lead off", "with lead off", "with the lead off", "drop", "drops", "dropped", "down", "falls", "fell"}
	case isReadingsKey(label) && !strings.HasPrefix(label, "leakage."):
		return []string{"ok", "okay", "good", "fine", "low", "weak", "bad", "poor", "down at", "up at"}
	case strings.HasPrefix(label, "leakage."):
		return []string{"leaks", "leaking", "leaked", "lost", "loses", "losing", "leak"}
	}
	return nil
}
