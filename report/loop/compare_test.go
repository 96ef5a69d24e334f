package loop_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"gaugesheet/diag/cause"
)

// How many of the further tests are among the first readings, beside those that a
// fault brings with it.
const (
	allFurther = 1.0
	noFurther  = -1.0 // nor those that the fault brings
)

// leastPaired is the part of the engines by which more of them may be found with
// four tests alone than with all tests, before it is called worse: a further test draws
// other figures for what is read after it.
const leastPaired = 0.03

// ofFurther are checks that make, or look at, a further test.
func ofFurther(k *cause.Check) bool { return k.Baseline || slices.Contains(byTrims, k.Name) }

func never[C any](C, []string) bool { return false }

// fourTestsOnly takes the further tests out of what a sheet may ask for, until the
// test ends.
func fourTestsOnly(t *testing.T) (back func()) {
	t.Helper()
	before := slices.Clone(cause.Checks)
	for i := range cause.Checks {
		if ofFurther(&cause.Checks[i]) {
			cause.Checks[i].Fits = never
		}
	}
	return func() { copy(cause.Checks, before) }
}

// TestFurtherTestsHelp follows the sheets of the same engines twice: with
// compression, plugs, fuel pressure and leakage and nothing else, and with every
// further test that fits the engine among the first readings. What the further
// tests are for is to find more, and sooner.
func TestFurtherTestsHelp(t *testing.T) {
	follow := func(further float64) (usual, shown total) {
		for i := range faults {
			f := &faults[i]
			if !strings.Contains(f.name, *only) || testing.Short() && i%3 > 0 {
				continue
			}
			row := followed(t, f, further)
			if slices.ContainsFunc(furtherFaults, func(x fault) bool { return x.name == f.name }) {
				shown.rows = append(shown.rows, row)
			} else {
				usual.rows = append(usual.rows, row)
			}
		}
		return usual, shown
	}
	back := fourTestsOnly(t)
	four, fourShown := follow(noFurther)
	back()
	all, allShown := follow(allFurther)
	t.Log("\n" + compared(four, all) + "\nfaults that only a further test shows:\n" + compared(fourShown, allShown))
	a, b := four.sum(), all.sum()
	for _, is := range []struct {
		what      string
		four, all int
	}{{"at once", a.atOnce, b.atOnce}, {"in the end", a.inTheEnd, b.inTheEnd}} {
		if float64(is.four-is.all) > leastPaired*float64(a.engines) {
			t.Errorf("of %d engines %d are found %s with four tests and %d with all of them", a.engines, is.four, is.what, is.all)
		}
	}
}

// compared sets two tables beside one another.
func compared(four, all total) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%-22s %4s   %-17s %-17s %-13s %-13s\n", "fault", "n", "at once", "in end", "checks", "minutes")
	line := func(name string, x, y *tally) {
		n := float64(x.engines)
		fmt.Fprintf(&b, "%-22s %4d %7s %7s   %7s %7s   %5.1f %5.1f   %5.0f %5.0f\n", name, x.engines, x.percent(x.atOnce), y.percent(y.atOnce),
			x.percent(x.inTheEnd), y.percent(y.inTheEnd), float64(x.checks)/n, float64(y.checks)/n, x.minutes/n, y.minutes/n)
	}
	for i := range four.rows {
		line(four.rows[i].fault.name, &four.rows[i], &all.rows[i])
	}
	if len(four.rows) > 0 {
		line("all", four.sum(), all.sum())
	}
	return b.String()
}
