package story_test

import (
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/rule/sample"
	"gaugesheet/diag/story"
)

// pairLow is a V8 with two low neighbours, first strokes, a wet test, a minimum
// and work done before.
func pairLow() *diag.Test {
	t := sample.Dry("V8", []float64{70, 120, 70, 120, 118, 121, 119, 120}, sample.Minimum(100),
		sample.Wet(map[string]float64{"1": 75, "2": 124}), sample.First(30, 60, 31, 62, 60, 61, 59, 60))
	t.History.WorkDone = []string{"new plugs", "valve lash done: right"}
	return t
}

func BenchmarkWithoutPlan(b *testing.B) {
	t := pairLow()
	for b.Loop() {
		story.WithoutPlan(t)
	}
}

func BenchmarkDiagnose(b *testing.B) {
	t := pairLow()
	for b.Loop() {
		story.Diagnose(t)
	}
}
