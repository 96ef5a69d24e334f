package known_test

import (
	"slices"
	"testing"

	"gaugesheet/diag/known"
)

// TestVocabulary: what a text speaks of is found by whole words, also behind what is
// no letter, not where it is denied, and not as a part of a longer name.
func TestVocabulary(t *testing.T) {
	v := known.NewVocabulary([]known.Phrases{
		known.Plain("leak-down", "leakage test"), known.Plain("borescope"), known.Plain("leak"), known.Plain("no start", "won't start"), known.Plain("(seen)"), known.Plain(""),
	})
	for _, tt := range []struct {
		text   string
		places []int
	}{
		{"borescope and leak down done", []int{0, 1}},
		{"a leak, and leak down done", []int{0, 2}},
		{"leakage test: even", []int{0}},
		{"borescopes", nil},
		{"no leak found", nil},
		{"coolant:leak/borescope", []int{1, 2}},
		{"it won't start", []int{3}},
		{"wear (seen) at 3", []int{4}},
		{"", nil},
	} {
		if got := v.In(tt.text); !slices.Equal(got, tt.places) {
			t.Errorf("%q speaks of %v, expected %v", tt.text, got, tt.places)
		}
	}
}
