package rule_test

import (
	"slices"
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/rule/sample"
	"gaugesheet/diag/story"
)

// TestNothingUnspokenFor: a cause is weighed where something of the job speaks
// for it, and is no part of a list where nothing does. What speaks for which is
// common practice, no source.
func TestNothingUnspokenFor(t *testing.T) {
	low := []float64{75, 74, 76, 75}
	wasted := sample.Spec(func(s *diag.Spec) { s.SharedCoils = [][]string{{"1", "4"}, {"2", "3"}} })
	wastedV6 := sample.Spec(func(s *diag.Spec) { s.SharedCoils = [][]string{{"1", "4"}, {"2", "5"}, {"3", "6"}} })
	v6 := []string{"normal", "sooty", "normal", "normal", "sooty", "normal"}
	for _, tt := range []struct {
		name, cause string
		test        *diag.Test
		spoken      bool
	}{
		{"all low by itself", "washed-bore", sample.Dry("inline-4", low), false},
		{"all low and uneven", "washed-bore", sample.Dry("inline-4", []float64{60, 85, 72, 70}), false},
		{"all low and up with oil", "washed-bore", sample.Dry("inline-4", low, withOil(105, 104, 106, 105)), false},
		{"all low and one wet plug", "washed-bore", sample.Dry("inline-4", low, sample.Looks("fuel-wet", "normal", "normal", "normal")), true},
		{"all low and rich", "washed-bore", sample.Dry("inline-4", low, sample.Complains("rich running")), true},
		{"all low after a no-start", "washed-bore", sample.Dry("inline-4", low, sample.Complains("no start")), true},
		{"soot on one shared coil", "plug-age", sample.Of("inline-4", sample.Looks("sooty", "normal", "normal", "sooty"), wasted), false},
		{"soot on one shared coil, worn plugs", "plug-age", sample.Of("inline-4", sample.Looks("worn", "worn", "worn", "worn"), wasted), true},
		{"soot on one plug of each bank", "shared-runner", sample.Of("V6", sample.Looks(v6...), wastedV6), false},
		{"a melted plug and no pressure", "bent-valve", sample.Dry("inline-4", []float64{145, 140, 150, 0}, sample.Plug("melted", "4")), false},
		{"a melted plug and no pressure", "exhaust-valve", sample.Dry("inline-4", []float64{145, 140, 150, 0}, sample.Plug("melted", "4")), true},
		{"a bent plug and no pressure", "bent-valve", sample.Dry("inline-4", []float64{145, 140, 150, 0}, sample.Plug("damaged", "4")), true},
		{"air to the outside", "exhaust-valve", sample.Dry("inline-4", []float64{150, 152, 100, 151}, sample.Leak("3", 40, "outside")), false},
		{"air to the outside and past a valve", "exhaust-valve", sample.Dry("inline-4", []float64{150, 152, 100, 151}, sample.Leak("3", 40, "exhaust", "outside")), true},
	} {
		if spoken := net(tt.test, tt.cause) > 0; spoken != tt.spoken {
			t.Errorf("%s: %s spoken for: %v, expected %v", tt.name, tt.cause, spoken, tt.spoken)
		}
	}
}

// withOil is the wet test of a row of four.
func withOil(a, b, c, d float64) sample.Change {
	return sample.Wet(map[string]float64{"1": a, "2": b, "3": c, "4": d})
}

// net is what speaks for a cause less what speaks against it, in the story in
// which most does.
func net(test *diag.Test, name string) int {
	most := 0
	for _, s := range story.WithoutPlan(test).Stories {
		sum := 0
		for _, e := range s.Ledger {
			if e.Cause == name {
				sum += e.Weight
			}
		}
		most = max(most, sum)
	}
	return most
}

// TestStoodBeforeWear: oil lifts dry bores and stuck rings as it does worn ones,
// so that an engine that stood is not worn until it has run (common practice, no
// source).
func TestStoodBeforeWear(t *testing.T) {
	risen := []sample.Change{sample.Minimum(130), withOil(138, 135, 144, 139)}
	runSealing(t, []sealingCase{
		{name: "stood", test: sample.Dry("inline-4", []float64{98, 95, 102, 97}, append(risen, sample.Stood(24))...), fires: "stood-engine; all-low", first: "dry-bores"},
		{name: "in use", test: sample.Dry("inline-4", []float64{98, 95, 102, 97}, risen...), fires: "all-low", first: "wear"},
	})
}

// TestNotRunWithALeakingInlet: fire past an intake valve can light the mixture
// in the manifold, so that such an engine is not run to see whether it recovers
// (common practice, no source). One that stood and only reads low is.
func TestNotRunWithALeakingInlet(t *testing.T) {
	stood := []float64{155, 130, 160, 150, 168, 118, 158, 152}
	if runsAgain(sample.Dry("V8", stood, sample.Stood(48), sample.Leak("6", 30, "inlet"))) {
		t.Error("an engine with air at its inlet is run")
	}
	if !runsAgain(sample.Dry("inline-4", []float64{98, 95, 102, 97}, sample.Minimum(130), withOil(138, 135, 144, 139), sample.Stood(24))) {
		t.Error("an engine that stood is not run and tested again")
	}
}

// runsAgain reports a story that asks to run the engine and to test it again.
func runsAgain(test *diag.Test) bool {
	return slices.ContainsFunc(story.WithoutPlan(test).Stories, func(s diag.Story) bool { return s.Next != nil && s.Next.Key == "run-and-retest" })
}

// TestUsualTenthIsNoLimit: the usual 10 % is custom. A set that is past it by less
// than the gauge can tell is a little low and outside nothing; clear of it, with
// one that stands apart, it is told (common practice, no source).
func TestUsualTenthIsNoLimit(t *testing.T) {
	runSealing(t, []sealingCase{
		{name: "too close to tell", test: sample.Dry("inline-4", []float64{161, 181, 181, 174}, coarse), fires: "a-little-low 1", not: "outside-limit", soon: diag.CheckAgain},
		{name: "clear of it", test: sample.Dry("inline-4", []float64{181, 181, 180, 156}), fires: "outside-limit 4", not: "a-little-low"},
		{name: "a limit of the job, too close to tell", test: sample.Dry("inline-4", []float64{161, 181, 181, 174}, coarse, sample.SpreadOfHighest(10)), fires: "outside-limit 1"},
	})
}

// coarse is a dial of which no more is known than how far it can be out.
func coarse(t *diag.Test) {
	t.Gauges.Compression = &diag.Gauge{Name: "coarse", High: 300, Division: 10}
}
