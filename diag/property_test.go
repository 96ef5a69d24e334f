package diag_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	. "gaugesheet/diag"
	"gaugesheet/diag/engine"
	"gaugesheet/diag/quantity"
)

// randomSet is 2 to 8 whole readings in psi, mostly even, some of them low,
// gone, high, estimated or read twice.
func randomSet(t *testing.T, r *rand.Rand) *Test {
	t.Helper()
	values := make([]float64, 2+r.IntN(7))
	for i := range values {
		values[i] = float64(150 + r.IntN(25))
		switch r.IntN(8) {
		case 0:
			values[i] = float64(r.IntN(150))
		case 1:
			values[i] += float64(r.IntN(60))
		}
	}
	test := limited(cranked(t, values...),
		psi(Minimum, 128), percent(Lowest, 75, OfHighest), percent(Spread, 10, OfHighest), percent(Spread, 12, OfMedian),
		psi(Difference, 25), percent(BelowMean, 20, ""), psi(BelowMean, 20), psi(FromMean, 30))
	for name, reading := range test.Compression.Dry {
		v := reading.Values[0]
		switch r.IntN(10) {
		case 0:
			test.Compression.Dry[name] = Reading{State: Tested, Kind: Estimate, Values: []float64{v}}
		case 1:
			test.Compression.Dry[name] = read(v, v+float64(r.IntN(12)))
		case 2:
			test.Compression.Dry[name] = Reading{State: Tested, Kind: Band, Values: []float64{v}, HalfWidth: float64(1 + r.IntN(8))}
		}
	}
	if r.IntN(2) == 0 {
		test.Gauges.Compression = gradeB(t)
		test.Gauges.Compression.Division = []float64{0, 1, 5}[r.IntN(3)]
		test.Gauges.Compression.ReadsAt = [2]float64{120, 121}
	}
	return test
}

// inUnit is the same test with every figure read in another unit; the limits
// stay as the book has them.
func inUnit(t *testing.T, test *Test, unit quantity.Unit) *Test {
	t.Helper()
	to := func(v float64) float64 {
		got, err := quantity.Convert(v, quantity.PSI, unit)
		if err != nil {
			t.Fatal(err)
		}
		return got
	}
	other, section := *test, *test.Compression
	section.Unit, section.Dry = unit, map[string]Reading{}
	for name, r := range test.Compression.Dry {
		values := slices.Clone(r.Values)
		for i := range values {
			values[i] = to(values[i])
		}
		r.Values, r.HalfWidth = values, to(r.HalfWidth)
		section.Dry[name] = r
	}
	other.Compression = &section
	if g := test.Gauges.Compression; g != nil {
		scaled := *g
		scaled.Low, scaled.High, scaled.Division = to(g.Low), to(g.High), to(g.Division)
		scaled.ReadsAt = [2]float64{to(g.ReadsAt[0]), to(g.ReadsAt[1])}
		other.Gauges.Compression = &scaled
	}
	return &other
}

func TestNoVerdictDependsOnTheUnit(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 1))
	for range 500 {
		test := randomSet(t, r)
		want := Assess(test).Compression
		for _, unit := range []quantity.Unit{quantity.KPa, quantity.Bar, quantity.MPa, quantity.KgfPerCm2} {
			got := Assess(inUnit(t, test, unit)).Compression
			for i, l := range got.Limits {
				if w := want.Limits[i]; l.Verdict != w.Verdict || l.Cylinder != w.Cylinder || l.PastAsRead != w.PastAsRead {
					t.Errorf("%v in %s: %+v, in psi %+v", test.Compression.Dry, unit, l, w)
				}
			}
			for i, p := range got.Published {
				if p.Verdict != want.Published[i].Verdict {
					t.Errorf("%v in %s: %+v, in psi %+v", test.Compression.Dry, unit, p, want.Published[i])
				}
			}
			if !slices.Equal(grades(got), grades(want)) {
				t.Errorf("%v in %s: %v, in psi %v", test.Compression.Dry, unit, grades(got), grades(want))
			}
		}
	}
}

func TestRenumberingChangesOnlyLabels(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 2))
	for range 300 {
		test := randomSet(t, r)
		n := len(test.Compression.Dry)
		renamed, section := *test, *test.Compression
		names := make([]string, n)
		section.Dry = map[string]Reading{}
		for i, p := range r.Perm(n) {
			names[i] = fmt.Sprint(p + 1)
			section.Dry[names[i]] = test.Compression.Dry[fmt.Sprint(i+1)]
		}
		renamed.Compression = &section
		renamed.Engine = made(t, engine.Spec{Layout: fmt.Sprintf("inline-%d", n), Banks: []engine.BankSpec{{Name: "row", Cylinders: names}}})
		want, got := Assess(test).Compression, Assess(&renamed).Compression
		for i, name := range names {
			a, b := want.Cylinder(fmt.Sprint(i+1)), got.Cylinder(name)
			if a.Grade != b.Grade || !near(a.PercentOfRef, b.PercentOfRef, 1e-9) {
				t.Errorf("%v: cylinder %d is %s, as %s %s", test.Compression.Dry, i+1, a.Grade, name, b.Grade)
			}
		}
		for i := range want.Limits {
			a, b := want.Limits[i], got.Limits[i]
			if a.Verdict != b.Verdict || !near(a.Value, b.Value, 1e-9) || !near(a.Uncertainty, b.Uncertainty, 1e-9) {
				t.Errorf("%v: %+v, renumbered %+v", test.Compression.Dry, a, b)
			}
		}
		if !near(want.Mean, got.Mean, 1e-9) || want.Median != got.Median || want.Highest != got.Highest || want.Lowest != got.Lowest {
			t.Errorf("%v: the statistics changed", test.Compression.Dry)
		}
	}
}

// recovery ranks grades from worst to best. Too close to call is no worse and
// no better than watch: both lie between low and even.
var recovery = map[Grade]int{NoPressure: 1, VeryLow: 2, Low: 3, Watch: 4, GradeTooClose: 4, Even: 5}

func TestRaisingALowCylinderNeverWorsensIt(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 3))
	raised := 0
	for range 300 {
		test := randomSet(t, r)
		c := Assess(test).Compression
		for _, low := range c.Cylinders {
			reading := test.Compression.Dry[low.Name]
			if !low.Grade.IsLow() || len(reading.Values) != 1 {
				continue
			}
			raised++
			last := recovery[low.Grade]
			for v := reading.Values[0] + 1; v <= c.Median; v++ {
				reading.Values = []float64{v}
				test.Compression.Dry[low.Name] = reading
				grade := Assess(test).Compression.Cylinder(low.Name).Grade
				now := recovery[grade]
				if now < last {
					t.Errorf("%v: raising cylinder %s to %v makes it %s", test.Compression.Dry, low.Name, v, grade)
				}
				last = now
			}
			break
		}
	}
	if raised < 50 {
		t.Errorf("only %d low cylinders were raised", raised)
	}
}
