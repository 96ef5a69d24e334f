package diag_test

import (
	"math"
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/rule/sample"
)

func runs(idle, snap float64) diag.Running {
	i, s := sample.Read(idle), sample.Read(snap)
	return diag.Running{Idle: &i, Snap: &s}
}

// Worked by hand: a cylinder is compared with its own cranking reading, and its
// share with the median of the others'.
func TestRunningShares(t *testing.T) {
	test := sample.Dry("inline-4", []float64{200, 100, 200, 160}, sample.Running(map[string]diag.Running{
		"1": runs(100, 160), "2": runs(50, 80), "3": runs(90, 100), "4": runs(80, 120),
	}))
	shares := diag.RunningShares(test, diag.Assess(test).Compression)
	want := map[string][2]float64{"1": {50, 80}, "2": {50, 80}, "3": {45, 50}, "4": {50, 75}}
	if len(shares) != len(want) {
		t.Fatalf("%d cylinders with shares, want %d", len(shares), len(want))
	}
	for _, s := range shares {
		if math.Abs(*s.Idle-want[s.Name][0]) > 1e-9 || math.Abs(*s.Snap-want[s.Name][1]) > 1e-9 {
			t.Errorf("cylinder %s: %.1f and %.1f, want %v", s.Name, *s.Idle, *s.Snap, want[s.Name])
		}
	}
	points, middle := diag.OverOthers(shares, "3", diag.OnSnap)
	if points == nil || math.Abs(*points+30) > 1e-9 || math.Abs(*middle-80) > 1e-9 { // 50 beside 80, 80, 75
		t.Errorf("cylinder 3 stands %v from %v, want -30 from 80", points, middle)
	}
}

// Two cylinders are no median, and a cylinder without pressure has no share.
func TestTooFewRunningShares(t *testing.T) {
	test := sample.Dry("inline-4", []float64{150, 0, 150, 150}, sample.Running(map[string]diag.Running{"1": runs(75, 120), "2": runs(0, 0), "3": runs(75, 60)}))
	shares := diag.RunningShares(test, diag.Assess(test).Compression)
	if len(shares) != 2 {
		t.Fatalf("%d cylinders with shares, want 2", len(shares))
	}
	if points, _ := diag.OverOthers(shares, "3", diag.OnSnap); points != nil {
		t.Errorf("one of two compared with a median: %v", *points)
	}
}
