package known_test

import (
	"testing"

	"gaugesheet/diag/known"
)

// A condition reads in one way: what a 'not' takes in stands in brackets, and what
// has a name is said whole once.
func TestConditionsInWords(t *testing.T) {
	plain := func(words string) known.Condition { return known.Is(words, nil) }
	worn := known.All(plain("low"), plain("better with oil")).Called("worn")
	for want, c := range map[string]known.Condition{
		"not low":                 known.Not(plain("low")),
		"not (low or high)":       known.Not(plain("low or high")),
		"not (no plug looked at)": known.Not(plain("no plug looked at")),
		"hot, (low or high)":      known.All(plain("hot"), known.Any(plain("low"), plain("high"))),
		"(worn (low, better with oil), old) or not worn":        known.Any(known.All(worn, plain("old")), known.Not(worn)),
		"two of: worn (low, better with oil); not worn; smokes": known.TwoOf(worn, known.Not(worn), plain("smokes")),
	} {
		if got := c.String(); got != want {
			t.Errorf("it reads %q, want %q", got, want)
		}
	}
}
