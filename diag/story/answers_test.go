package story_test

import (
	"slices"
	"strings"
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/rule/sample"
	"gaugesheet/diag/story"
)

// What checks showed stands above what was guessed from readings; common
// practice, no source: who looked knows.
func TestAnswers(t *testing.T) {
	white := sample.Looks("white", "white", "white", "white")
	exhaust := sample.Leak("2", 30, "exhaust")
	for _, c := range []struct {
		name        string
		test        *diag.Test
		first, none string
		next        string // "none": no check of the cylinder or engine is left to make
	}{
		{name: "a valve that was seen to move less", test: sample.Dry("inline-4", []float64{160, 95, 158, 161}, exhaust, sample.Done("watch-valve-gear done on 2: one moves less")), first: "valve-motion", next: "none"},
		{name: "valves that move alike", test: sample.Dry("inline-4", []float64{160, 95, 158, 161}, sample.Leak("2", 6), sample.Done("watch-valve-gear done on 2: all move alike")), none: "valve-motion collapsed-lifter"},
		{name: "timing that is off", test: sample.Dry("inline-4", []float64{92, 90, 91, 93}, sample.Minimum(130), sample.Done("cam-timing-marks done: off")), first: "cam-timing"},
		{name: "timing that is right", test: sample.Dry("inline-4", []float64{92, 90, 91, 93}, sample.Minimum(130), sample.Done("cam-timing-marks done: right")), none: "cam-timing timing-drive"},
		{name: "no smoke came out", test: sample.Dry("inline-4", []float64{150, 151, 149, 150}, sample.Complains("lean running"), white, sample.Done("smoke-test done: none comes out")), none: "air-leak manifold-gasket injector-seals"},
		{name: "smoke came out", test: sample.Dry("inline-4", []float64{150, 151, 149, 150}, sample.Complains("lean running"), white, sample.Done("smoke-test done: smoke comes out")), first: "air-leak"},
		{name: "oil that told nothing rules nothing out", test: sample.Dry("inline-4", []float64{92, 90, 91, 93}, sample.Minimum(130), sample.Done("repeat-wet done: tells nothing"), sample.Done("cam-timing-marks done: right")), first: "wear"},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := story.WithoutPlan(c.test)
			s := d.Stories[0]
			var causes []string
			for _, x := range s.Causes {
				causes = append(causes, x.Key)
			}
			if c.first != "" && (len(causes) == 0 || causes[0] != c.first) {
				t.Errorf("causes %v, want %s first", causes, c.first)
			}
			for _, none := range strings.Fields(c.none) {
				if slices.Contains(causes, none) {
					t.Errorf("causes %v, want no %s", causes, none)
				}
			}
			if c.next == "none" && s.Next != nil {
				t.Errorf("asks for %s", s.Next.Key)
			}
		})
	}
}

// A single cylinder is its engine: what is found in it is one story with what the
// engine reads.
func TestSingleIsOneStory(t *testing.T) {
	d := story.WithoutPlan(sample.Dry("single", []float64{60}, sample.Minimum(120), sample.Leak("1", 70, "exhaust")))
	low := slices.DeleteFunc(slices.Clone(d.Stories), func(s diag.Story) bool { return s.Urgency == diag.NoAction || s.About == diag.AboutTest })
	if len(low) != 1 || len(low[0].Causes) == 0 || low[0].Causes[0].Key != "exhaust-valve" {
		t.Errorf("want one story, with the exhaust valve first: %+v", low)
	}
}
