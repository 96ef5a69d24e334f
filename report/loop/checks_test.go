package loop_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"gaugesheet/diag/cause"
)

// TestEveryCheckHasAnAnswer holds the simulator to the catalogue of checks: it
// makes each of them, and what it notes as work done is one of the outcomes.
func TestEveryCheckHasAnAnswer(t *testing.T) {
	for _, c := range cause.Checks {
		if answers[c.Name] == nil {
			t.Errorf("the simulator has no answer for %s: give it one in answers_test.go or answers_fuel_test.go", c.Name)
			continue
		}
		names := make([]string, len(c.Outcomes))
		for i, o := range c.Outcomes {
			names[i] = o.Name
		}
		for i := range faults {
			b := drawn(&faults[i], uint64(i))
			if a := answers[c.Name](b, nil); a.words != nil && !slices.ContainsFunc(a.words, func(w string) bool { return slices.Contains(names, w) }) {
				t.Errorf("%s on %s with %s: none of %q is an outcome, which are %q", c.Name, b.machine.name, faults[i].name, a.words, names)
				break
			}
		}
	}
}

// drawn is some engine with a fault, its first readings taken.
func drawn(f *fault, seed uint64) *bench {
	rng := rand.New(rand.NewPCG(seed, 7))
	m := newMachine(rng, pick(rng, families))
	for f.fits != nil && !f.fits(m) {
		m = newMachine(rng, pick(rng, families))
	}
	b := newBench(rng, m, f)
	b.firstReadings(*further)
	return b
}
