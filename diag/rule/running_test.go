package rule_test

import (
	"slices"
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/cause"
	"gaugesheet/diag/known"
	"gaugesheet/diag/rule/sample"
	"gaugesheet/diag/story"
)

// ran gives idle and snap readings in the order of the engine's cylinders.
func ran(pairs ...[2]float64) sample.Change {
	return func(t *diag.Test) {
		readings := map[string]diag.Running{}
		for i, name := range t.Engine.Names() {
			if i < len(pairs) {
				idle, snap := sample.Read(pairs[i][0]), sample.Read(pairs[i][1])
				readings[name] = diag.Running{Idle: &idle, Snap: &snap}
			}
		}
		sample.Running(readings)(t)
	}
}

// TestRunning: each cylinder as a part of its own cranking reading. About half
// at idle and four fifths on the snap are usual; a low snap is the inlet side, a
// high one the exhaust side: common practice, no source.
func TestRunning(t *testing.T) {
	good, even := [2]float64{75, 120}, []float64{150, 151, 149, 150}
	misfire, weak := sample.Complains("misfire"), sample.Complains("low power")
	keeps := ran([2]float64{80, 150}, [2]float64{80, 149}, [2]float64{82, 148}, [2]float64{80, 150})
	runSealing(t, []sealingCase{
		{name: "low on the snap", test: sample.Dry("inline-4", even, misfire, ran(good, good, good, [2]float64{60, 70})), fires: "breathes-in-poorly 4", not: "sealing-sound-look-elsewhere", first: "valve-motion", soon: diag.ActSoon},
		{name: "just within 15 points", test: sample.Dry("inline-4", even, misfire, ran(good, good, good, [2]float64{75, 99})), fires: "sealing-sound-look-elsewhere", not: "breathes-in-poorly running-even"},
		{name: "two low, the two sound ones are not high", test: sample.Dry("inline-4", even, misfire, ran(good, good, [2]float64{60, 60}, [2]float64{60, 60})), fires: "breathes-in-poorly", not: "breathes-out-poorly"},
		{name: "low, tight and low on the snap", test: sample.Dry("inline-4", []float64{150, 151, 100, 149}, sample.Leak("3", 6), sample.Leak("1", 7), ran(good, good, [2]float64{35, 60}, good)),
			fires: "breathes-in-poorly 3", first: "valve-motion"},
		{name: "a lobe on the exhaust side", test: sample.Dry("inline-4", even, misfire, ran(good, good, good, [2]float64{90, 148})), fires: "breathes-out-poorly 4", not: "running-even", first: "valve-motion"},
		{name: "a lobe, and a needle that beats", test: sample.Dry("inline-4", even, misfire, ran(good, good, good, [2]float64{90, 148}), vacuum(needle("drops regularly"), idling(16))), fires: "beat-and-breath 4", not: "vacuum-drop-without-low-cylinder", first: "valve-motion"},
		{name: "a needle that beats, and all breathe alike", test: sample.Dry("inline-4", even, misfire, ran(good, good, good, good), vacuum(needle("drops regularly"), idling(16))), fires: "vacuum-drop-without-low-cylinder", not: "beat-and-breath"},
		{name: "all keep their gas", test: sample.Dry("inline-4", even, weak, sample.Minimum(128), keeps), fires: "breathes-out-poorly", first: "restricted-exhaust", soon: diag.ActSoon},
		{name: "a blower does the same", test: sample.Dry("inline-4", even, weak, keeps, spec(func(s *diag.Spec) { s.Charging = "turbo" })), not: "breathes-out-poorly"},
		{name: "a gauge that held its highest reading", test: sample.Dry("inline-4", even, weak, ran([2]float64{150, 150}, [2]float64{150, 150}, [2]float64{149, 150}, [2]float64{150, 150})), not: "breathes-out-poorly"},
		{name: "a diesel has no throttle", test: sample.Dry("inline-4", []float64{400, 402, 398, 401}, weak, sample.Diesel, ran([2]float64{300, 400}, [2]float64{300, 400}, [2]float64{300, 400}, [2]float64{300, 400})), not: "breathes-out-poorly"},
		{name: "alike", test: sample.Dry("inline-4", even, misfire, ran(good, good, good, good)), fires: "running-even"},
		{name: "alike, and one low", test: sample.Dry("inline-4", []float64{150, 151, 100, 149}, sample.Leak("3", 6), ran(good, good, [2]float64{50, 80}, good)), fires: "low-but-tight", not: "breathes-in-poorly"},
	})
}

// TestRunningSpeaksAgainstMotion: a low cylinder that breathes as the others do
// has no lobe or lifter among its causes.
func TestRunningSpeaksAgainstMotion(t *testing.T) {
	good := [2]float64{75, 120}
	for name, with := range map[string]bool{"read": true, "not read": false} {
		test := sample.Dry("inline-4", []float64{150, 151, 100, 149}, sample.Leak("3", 6))
		if with {
			ran(good, good, [2]float64{50, 80}, good)(test)
		}
		s, _ := storyWith(story.WithoutPlan(test), "low-but-tight")
		if s == nil {
			t.Fatal("no story of a low cylinder that is tight")
		}
		first := s.Causes[0].Key == "valve-motion" || s.Causes[0].Key == "collapsed-lifter"
		if first == with {
			t.Errorf("%s: causes %v", name, s.Causes)
		}
	}
}

// TestRunningIsTried: each outcome of the check, entered into a test, is seen by
// the rules as what it is.
func TestRunningIsTried(t *testing.T) {
	c := known.New(sample.Dry("inline-4", []float64{150, 151, 149, 150}, sample.Minimum(128), sample.Complains("misfire")))
	k := cause.CheckNamed("running-compression")
	want := map[string]string{"low on the snap": "breathes-in-poorly", "high on the snap": "breathes-out-poorly", "like the others": "running-even"}
	for i := range k.Outcomes {
		o := &k.Outcomes[i]
		for _, cylinders := range [][]string{nil, {"3"}} {
			d := story.WithoutPlan(cause.Try(c, k, o, cylinders).Test)
			s, f := storyWith(d, want[o.Name])
			if s == nil {
				t.Errorf("%s on %v: %s not found", o.Name, cylinders, want[o.Name])
				continue
			}
			if o.Name != "like the others" && !slices.Contains(o.For, s.Causes[0].Key) {
				t.Errorf("%s on %v: first cause %s, not one of %v (%v)", o.Name, cylinders, s.Causes[0].Key, o.For, f.Cylinders)
			}
			if d.Next != nil && d.Next.Key == k.Name {
				t.Errorf("%s on %v: asks for the same again", o.Name, cylinders)
			}
		}
	}
}
