package story_test

import (
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/rule/sample"
	"gaugesheet/diag/story"
)

// TestTestLeads: what is known to be wrong with a test leads and makes what it
// may explain wait, and nothing else: common practice, no source.
func TestTestLeads(t *testing.T) {
	volts := 8.8
	sagging := sample.Method(func(k *diag.Conditions) { k.Battery.CrankingV = &volts })
	bar := func(t *diag.Test) {
		t.Noted = append(t.Noted, diag.Notice{Rule: "unit-suspect", Facts: diag.Facts{"section": "compression", "value": "11 psi", "looks": "bar"}})
	}
	low, half, nothing := []float64{118, 120, 117, 119}, []float64{62, 64, 60, 63}, []float64{11, 11.5, 11.2, 11.4}
	for _, tt := range []struct {
		name   string
		test   *diag.Test
		about  diag.About
		urgent diag.Urgency
	}{
		{"a battery that sags, and a little low", sample.Dry("inline-4", low, sample.Minimum(130), sagging), diag.AboutTest, diag.CheckAgain},
		{"a battery that sags, and half of what it should be", sample.Dry("inline-4", half, sample.Minimum(130), sagging), diag.AboutEngine, diag.ActSoon},
		{"charged, and no better", sample.Dry("inline-4", low, sample.Minimum(130), sagging, sample.Done("charge-and-repeat done: they stay")), diag.AboutEngine, diag.ActSoon},
		{"a battery that sags, and one low beside the others", sample.Dry("inline-4", []float64{150, 151, 90, 149}, sagging), diag.AboutCylinders, diag.ActSoon},
		{"fewer strokes on the low one", sample.Dry("inline-4", []float64{150, 152, 95, 151}, strokes(2)), diag.AboutTest, diag.CheckAgain},
		{"fewer strokes on the low one, which holds its air", sample.Dry("inline-4", []float64{150, 152, 95, 151}, strokes(2), sample.Leak("3", 5), sample.Leak("1", 6)), diag.AboutTest, diag.CheckAgain},
		{"more strokes on the low one", sample.Dry("inline-4", []float64{150, 152, 95, 151}, strokes(9), sample.Leak("3", 40, "exhaust")), diag.AboutCylinders, diag.ActSoon},
		{"fewer strokes on the low one, and air at a valve", sample.Dry("inline-4", []float64{150, 152, 95, 151}, strokes(2), sample.Leak("3", 40, "exhaust")), diag.AboutCylinders, diag.ActSoon},
		{"another unit in an engine that runs", sample.Dry("inline-4", nothing, bar), diag.AboutTest, diag.CheckAgain},
		{"next to nothing in an engine that does not start", sample.Dry("inline-4", nothing, bar, sample.Complains("no start")), diag.AboutEngine, diag.DoNotRun},
	} {
		d := story.WithoutPlan(tt.test)
		if s := d.Stories[0]; s.About != tt.about || s.Urgency != tt.urgent {
			t.Errorf("%s: about %s, %s; want about %s, %s", tt.name, s.About, s.Urgency, tt.about, tt.urgent)
		}
		if also, _ := d.Verdict.Facts["also"].([]diag.Also); tt.about == diag.AboutTest && len(also) > 0 {
			t.Errorf("%s: the headline names %v beside the test", tt.name, also)
		}
	}
}

// strokes gives cylinder 3 another number of strokes than the others' six.
func strokes(n int) sample.Change {
	return func(t *diag.Test) { t.Compression.Strokes = map[string]int{"3": n} }
}

// TestTheTestExplainsNoComplaint: how an engine was tested makes it start no worse, where
// something found on it does.
func TestTheTestExplainsNoComplaint(t *testing.T) {
	volts, rpm := 8.3, 105.0
	shut := sample.Method(func(k *diag.Conditions) {
		k.Throttle, k.Battery.CrankingV, k.CrankingRPM = "closed", &volts, &rpm
	})
	d := story.WithoutPlan(sample.Dry("inline-4", []float64{92, 88, 95, 86}, sample.Minimum(125), sample.Complains("hard start"), shut))
	explained := 0
	for _, s := range d.Stories {
		explained += len(s.Explains)
		if s.About == diag.AboutTest && len(s.Explains) > 0 {
			t.Errorf("how it was tested explains %v", s.Explains)
		}
	}
	if explained == 0 {
		t.Error("nothing explains the hard starting")
	}
}
