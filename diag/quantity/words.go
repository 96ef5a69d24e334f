package quantity

import (
	"slices"
	"strings"
	"unicode"
)

// Words are the words that figures of some dimensions are written with, in
// lower case and sorted: those of their units in every spelling, and those that
// stand before, between and behind numbers. A spelling with other signs in it,
// such as kg/cm2, gives each of its words.
func Words(dimensions ...Dimension) []string {
	var out []string
	add := func(text string) {
		for _, word := range strings.FieldsFunc(strings.ToLower(text), func(c rune) bool { return !unicode.IsLetter(c) }) {
			if !slices.Contains(out, word) {
				out = append(out, word)
			}
		}
	}
	for _, d := range definitions {
		if !slices.Contains(dimensions, d.dimension) {
			continue
		}
		add(string(d.unit))
		for _, s := range d.spellings {
			add(s)
		}
	}
	for spelling, loose := range looseSpellings {
		if slices.Contains(dimensions, loose.dimension) {
			add(spelling)
		}
	}
	for _, b := range slices.Concat(boundsBefore, boundsAfter) {
		add(b.words)
	}
	for _, j := range joinsBetween {
		add(j.words)
	}
	slices.Sort(out)
	return out
}
