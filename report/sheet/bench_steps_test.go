package sheet

import (
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/engine"
	"gaugesheet/diag/known"
)

// Every column of the table is written down in a step that the sheet of the
// same engine has, and steps with a column stand in the order of the columns.
func TestBenchColumnsHaveTheirStep(t *testing.T) {
	for _, preset := range engine.Known() {
		e, problems := engine.New(preset.Spec)
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		for _, fuel := range []string{"", "petrol", "diesel", "two-stroke mix"} {
			for _, twoStroke := range []bool{false, true} {
				b := bench{known.New(&diag.Test{Engine: e, Spec: diag.Spec{Fuel: fuel, TwoStroke: twoStroke}})}
				last, n := "", 0
				for _, c := range benchColumns {
					if !b.fitting(c.fits) {
						continue
					}
					n++
					letter := b.letter(c.step)
					if letter == "" || letter < last {
						t.Errorf("%s, %q, two-stroke %v: column %s is of step %q, after %q", e.Layout, fuel, twoStroke, c.key, letter, last)
					}
					last = letter
				}
				if n < 5 {
					t.Errorf("%s, %q: %d columns", e.Layout, fuel, n)
				}
			}
		}
	}
}
