package story_test

import (
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
	"gaugesheet/diag/rule/sample"
	"gaugesheet/diag/story"
)

// TestLiveMagneto: a test on the starter that is made again, before which hands are at the
// plugs, has their wires taken off where a magneto may fire with its switch off, and says
// nothing of them where none does.
func TestLiveMagneto(t *testing.T) {
	volts := 8.4
	for right, live := range map[float64]bool{0: true, 70: false} {
		d := story.WithoutPlan(sample.Dry("single", []float64{85}, sample.Minimum(120), sample.Stood(8),
			sample.Method(func(k *diag.Conditions) { k.Battery.CrankingV = &volts }),
			sample.Test("magnetos", quantity.RPM, sample.At("at", "", 1700), sample.At("left", "", 60), sample.At("right", "", right))))
		found := false
		for _, s := range d.Stories {
			if s.Next != nil && s.Next.Key == "charge-and-repeat" {
				found = true
				if says := s.Next.Facts["live"] == true; says != live {
					t.Errorf("right magneto alone takes %v rpm off: the wires come off: %v, want %v", right, says, live)
				}
			}
		}
		if !found {
			t.Errorf("right magneto alone takes %v rpm off: the test is not made again", right)
		}
	}
}
