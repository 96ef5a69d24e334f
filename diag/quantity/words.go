package quantity

import (
	"slices"
	"strings"
	"unicode"
)

// apart are words that spellings hold run together, as spaces in them do not
// matter: inches of mercury, pounds per square inch.
var apart = []string{"inches", "inch", "in", "of", "mercury", "hg", "degrees", "degree", "deg", "pounds", "lbs", "lbf", "per", "square", "sq", "cm", "revs", "minute", "fluid", "fl", "oz", "cu", "cubic", "us"}

// Spellings are the ways in which a unit is written beside its name, in lower case
// and without spaces.
func Spellings(u Unit) []string {
	out := slices.Clone(byUnit[u].spellings)
	for spelling, loose := range looseSpellings {
		if loose.unit == u && loose.factor == 1 {
			out = append(out, spelling)
		}
	}
	slices.Sort(out)
	return out
}

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
	for _, word := range apart {
		if slices.ContainsFunc(out, func(w string) bool { return w != word && strings.Contains(w, word) }) {
			add(word)
		}
	}
	for _, b := range slices.Concat(boundsBefore, boundsAfter) {
		add(b.words)
	}
	for _, j := range joinsBetween {
		add(j.words)
	}
	add("between from")
	slices.Sort(out)
	return out
}
