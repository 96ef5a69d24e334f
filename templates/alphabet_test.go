package templates_test

import (
	"maps"
	"regexp"
	"slices"
	"strings"
	"testing"

	"gaugesheet/templates"
)

var latin = regexp.MustCompile(`[A-Za-z]+`)

// signs are the letters of units and of formulas, which are the same in every
// language.
var signs = map[string]bool{"inHg": true, "psi": true, "kPa": true, "bar": true, "kgf": true, "cm": true, "mm": true, "ml": true, "cc": true, "rpm": true, "min": true, "km": true, "m": true}

// usersOwn are the words of the samples that stand for what a user wrote: names,
// a method, work done, a source, limits and volumes as entered.
var usersOwn = regexp.MustCompile(`(front|rear) tank|\((hot|cold)\)|workshop manual|cranked by hand|(head gasket, )?timing belt|1M8GDM9AXKP04278\w|, (hot|cold)(:|$)|psi after 5 min|(at (least|most) )?[0-9]+.ml in [0-9]+.(s|min)`)

// inGreek is a text in another alphabet: what stays Latin in what is said comes
// from elsewhere.
func inGreek(text string) string {
	return latin.ReplaceAllStringFunc(text, func(word string) string {
		if signs[word] {
			return word
		}
		return strings.Map(func(r rune) rune {
			if r >= 'a' {
				return 'α' + (r-'a')%24
			}
			return 'Α' + (r-'A')%17
		}, word)
	})
}

// What is said of a diagnosis has no word that the diagnosis brings: only
// numbers, units, names, and what the job's user wrote.
func TestNoWordComesFromTheDiagnosis(t *testing.T) {
	c, err := templates.Reworded("en", inGreek)
	if err != nil {
		t.Fatal(err)
	}
	found := map[string]string{}
	for _, s := range sampled() {
		for _, a := range audiences {
			texts := said(t, c, s.d, a)
			for _, st := range s.d.Stories {
				one, err := c.Story(st, a)
				if err != nil {
					t.Error(err)
				}
				texts = append(texts, one.Because)
			}
			for _, text := range texts {
				for _, word := range latin.FindAllString(usersOwn.ReplaceAllString(text, ""), -1) {
					if len(word) > 1 && !signs[word] && found[word] == "" {
						found[word] = s.name + ": " + text
					}
				}
			}
		}
	}
	for _, word := range slices.Sorted(maps.Keys(found)) {
		t.Errorf("%q: %s", word, found[word])
	}
}
