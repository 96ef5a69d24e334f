package rule_test

import (
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/rule/sample"
	"gaugesheet/diag/story"
)

// Work that took much of the leak away and left the pressure low is told as both; one
// that changed neither is not.
func TestWorkThatCuredAPart(t *testing.T) {
	low := []float64{150, 151, 96, 152}
	after := func(then, now float64) *diag.Test {
		return sample.Dry("inline-4", []float64{151, 150, 100, 152}, sample.Leak("3", now), sample.Worked("valves of 3 ground in", sample.Dry("inline-4", low, sample.Leak("3", then))))
	}
	for _, k := range []struct {
		name      string
		then, now float64
		eased     bool
	}{{"much less", 46, 30, true}, {"as much", 46, 44, false}} {
		d := story.WithoutPlan(after(k.then, k.now))
		told := false
		for _, s := range d.Stories {
			for _, f := range s.Members {
				if f.Rule == "same-after-repair" {
					told = true
					if f.Facts["eased"] != k.eased {
						t.Errorf("%s: eased is %v, expected %v", k.name, f.Facts["eased"], k.eased)
					}
				}
			}
		}
		if !told {
			t.Errorf("%s: not told that the work did not cure it", k.name)
		}
	}
}
