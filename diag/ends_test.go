package diag_test

import (
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/rule/sample"
)

// TestEndsOfABound: what is known only not to be more than a figure is reckoned at both of its
// ends, and oil gives it no rise.
func TestEndsOfABound(t *testing.T) {
	test := sample.Dry("inline-4", []float64{150, 152, 45, 149}, sample.Minimum(120), func(t *diag.Test) {
		t.Compression.Dry["3"] = diag.Reading{State: diag.Tested, Kind: diag.Band, Values: []float64{45}, HalfWidth: 45, Entered: "0-90"}
		t.Compression.Wet = map[string]diag.Reading{"3": {State: diag.Tested, Values: []float64{120}}}
	})
	r := diag.Assess(test).Compression
	if ends := r.EndsOf("3"); ends == nil || *ends != [2]float64{0, 90} {
		t.Errorf("3 lies between %v, want 0 and 90", ends)
	}
	if r.EndsOf("1") != nil {
		t.Error("1 was read and has no ends")
	}
	if l := r.Limits[0]; l.Verdict != diag.Outside || l.Ends == nil || *l.Ends != [2]float64{0, 90} {
		t.Errorf("the minimum is %s, found %v, want outside by 0 to 90", l.Verdict, l.Ends)
	}
	if rise := r.Cylinder("3").WetRise; rise != nil {
		t.Errorf("it rose by %v, which nobody knows", *rise)
	}
	if a, b := r.Ends[0].SpreadPercentOfHighest, r.Ends[1].SpreadPercentOfHighest; a != 100 || b > 41 || b < 40 {
		t.Errorf("the spread lies between %v and %v %%, want 100 and 41", a, b)
	}
}
