package story_test

import (
	"slices"
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/rule/sample"
	"gaugesheet/diag/story"
)

// TestNearGrade: what hangs on a psi or two says so, and is weak where no other
// kind of test agrees; a grade that is clear, or borne out, is not doubted.
func TestNearGrade(t *testing.T) {
	for _, tt := range []struct {
		name    string
		third   float64
		changes []sample.Change
		near    bool
		sure    diag.Confidence
	}{
		{"low by a psi", 134, nil, true, diag.Weak},
		{"low by far", 100, nil, false, diag.Fair},
		{"low by a psi, air lost at the exhaust within what is allowed", 134, []sample.Change{sample.Leak("3", 17, "exhaust"), sample.Leak("1", 9, "crankcase"), sample.Leak("2", 9, "crankcase"), sample.Leak("4", 9, "crankcase")}, true, ""},
		{"low by a psi, and far too much air lost", 134, []sample.Change{sample.Leak("3", 45, "exhaust")}, false, ""},
	} {
		d := story.WithoutPlan(sample.Dry("inline-4", []float64{160, 159, tt.third, 158}, tt.changes...))
		i := slices.IndexFunc(d.Stories, func(s diag.Story) bool { return slices.Contains(s.Cylinders, "3") })
		if i < 0 {
			t.Fatalf("%s: nothing is said of cylinder 3", tt.name)
		}
		s := d.Stories[i]
		if near := slices.ContainsFunc(s.Doubts, func(p diag.Phrase) bool { return p.Key == "near-grade" }); near != tt.near || tt.sure != "" && s.Confidence != tt.sure {
			t.Errorf("%s: said to be near the line %v, %s; want %v, %s", tt.name, near, s.Confidence, tt.near, tt.sure)
		}
	}
}
