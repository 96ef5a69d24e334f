package quantity

import (
	"slices"
	"strings"
	"testing"
	"unicode"
)

// Whatever Scan takes is written with these words, for the dimension of its
// unit: Words lists them for patterns elsewhere.
func TestWords(t *testing.T) {
	for _, text := range []string{"about 120 psi", "150 lbs", "12 kg/cm2", "145 psi to 155 psi", "over 300 kPa", "39 psi plus or minus 3", "at least 30 psi", "18 inches of mercury", "120 psi or so"} {
		if _, err := ScanAs(text, Pressure); err != nil {
			t.Fatal(err)
		}
		for _, word := range strings.FieldsFunc(strings.ToLower(text), func(c rune) bool { return !unicode.IsLetter(c) }) {
			if !slices.Contains(Words(Pressure), word) {
				t.Errorf("'%s' of '%s' is missing", word, text)
			}
		}
	}
	if words := Words(Pressure); slices.Contains(words, "rpm") || slices.Contains(words, "furlongs") || !slices.IsSorted(words) {
		t.Errorf("%v", words)
	}
}
