package rule_test

import (
	"strings"
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/rule/sample"
	"gaugesheet/diag/story"
)

// TestOil: what oil tells, and where it tells nothing. The thresholds are
// common practice; that oil lifts rings and not valves: US Army TM
// 10-3930-647-14&P, para 4-40.
func TestOil(t *testing.T) {
	runSealing(t, oilCases())
	for _, name := range []string{"only the low ones oiled, both up", "no control, no rise: weak", "a flat engine: weak", "a two-stroke: weak"} {
		for _, tt := range oilCases() {
			if tt.name != name {
				continue
			}
			rule, _, _ := strings.Cut(tt.fires, " ")
			if _, f := storyWith(story.WithoutPlan(tt.test), rule); f == nil || f.Confidence != diag.Weak {
				t.Errorf("%s: %+v", name, f)
			}
		}
	}
}

func oilCases() []sealingCase {
	wet := func(layout string, dry []float64, oiled map[string]float64, changes ...sample.Change) *diag.Test {
		return sample.Dry(layout, dry, append(changes, sample.Wet(oiled))...)
	}
	one := []float64{150, 100, 149, 151}
	return []sealingCase{
		{name: "the low one comes up, the control hardly", test: wet("inline-4", one, map[string]float64{"2": 140, "1": 153}), fires: "wet-rise 2", not: "wet-no-rise wet-partial wet-rise-everywhere", first: "rings"},
		{name: "the low one stays, the control hardly rises", test: wet("inline-4", one, map[string]float64{"2": 102, "1": 153}), fires: "wet-no-rise 2", not: "wet-rise wet-partial", first: "exhaust-valve"},
		{name: "a control that itself rose says nothing of the low one", test: wet("inline-4", one, map[string]float64{"2": 126, "1": 195}), fires: "wet-dose-too-large", not: "wet-no-rise wet-rise wet-partial"},
		{name: "all oiled, all up alike", test: wet("inline-4", one, map[string]float64{"1": 165, "2": 116, "3": 163, "4": 166}), fires: "wet-rise-everywhere", not: "wet-rise wet-no-rise wet-partial"},
		{name: "only the low ones oiled, both up", test: wet("V8", []float64{150, 149, 100, 102, 151, 150, 149, 152}, map[string]float64{"3": 135, "4": 137}), fires: "wet-rise 3,4", not: "wet-rise-everywhere"},
		{name: "no control, no rise: weak", test: wet("inline-6", []float64{150, 100, 149, 151, 152, 150}, map[string]float64{"2": 101}), fires: "wet-no-rise 2"},
		{name: "a flat engine: weak", test: wet("flat-4", one, map[string]float64{"2": 140, "1": 153}), fires: "wet-rise 2"},
		{name: "a two-stroke: weak", test: wet("inline-2", []float64{120, 80}, map[string]float64{"2": 82, "1": 122}, sample.TwoStroke), fires: "wet-no-rise 2"},
		{name: "in part", test: wet("inline-4", one, map[string]float64{"2": 120, "1": 152}), fires: "wet-partial 2", not: "wet-rise wet-no-rise"},
		{name: "a diesel: not used", test: wet("inline-4", []float64{400, 250, 398, 402}, map[string]float64{"2": 390}, sample.Diesel), fires: "no-oil-in-diesel", not: "wet-rise wet-partial wet-no-rise wet-rise-everywhere"},
		{name: "without pressure and no rise: a hole or a hanging valve", test: wet("inline-4", []float64{150, 5, 149, 151}, map[string]float64{"2": 6, "1": 152}), fires: "wet-no-rise 2", not: "wet-rise"},
		{name: "all low, all up", test: wet("inline-4", under4, map[string]float64{"1": 128, "2": 127, "3": 130, "4": 126}, sample.Minimum(128)), fires: "wet-rise-everywhere; all-low", not: "wet-rise-nowhere wet-rise"},
		{name: "all low, none up", test: wet("inline-4", under4, map[string]float64{"1": 99, "2": 98, "3": 101, "4": 97}, sample.Minimum(128)), fires: "wet-rise-nowhere; all-low", not: "wet-rise-everywhere wet-no-rise"},
	}
}

// TestOilInAnEngineLowThroughout: what lifts every cylinder speaks for wear,
// what lifts none for the valve timing and against wear.
func TestOilInAnEngineLowThroughout(t *testing.T) {
	place := func(d *diag.Diagnosis, cause string) int {
		s, _ := storyWith(d, "all-low")
		if s == nil {
			t.Fatal("all-low did not fire")
		}
		for i, p := range s.Causes {
			if p.Key == cause {
				return i
			}
		}
		return 99
	}
	dry := sample.Dry("inline-4", under4, sample.Minimum(128))
	up := sample.Dry("inline-4", under4, sample.Minimum(128), sample.Wet(map[string]float64{"1": 128, "2": 127, "3": 130, "4": 126}))
	none := sample.Dry("inline-4", under4, sample.Minimum(128), sample.Wet(map[string]float64{"1": 99, "2": 98, "3": 101, "4": 97}))
	if place(story.WithoutPlan(up), "wear") > place(story.WithoutPlan(dry), "wear") {
		t.Error("a rise of all does not speak for wear")
	}
	if place(story.WithoutPlan(none), "wear") != 99 {
		t.Error("no rise of any leaves wear among the likeliest")
	}
	if place(story.WithoutPlan(none), "cam-timing") > 1 {
		t.Error("no rise of any does not speak for the valve timing")
	}
}

// TestOilAgainstAir: air at a place outweighs what oil did.
func TestOilAgainstAir(t *testing.T) {
	d := story.WithoutPlan(sample.Dry("inline-4", []float64{150, 100, 149, 151}, sample.Wet(map[string]float64{"2": 140, "1": 153}), sample.Leak("2", 40, "exhaust"), sample.Leak("1", 6)))
	s, _ := storyWith(d, "wet-rise")
	if s == nil || s.Causes[0].Key != "exhaust-valve" || s.Confidence == diag.Strong || len(s.Against) == 0 {
		t.Errorf("%+v", s)
	}
}

// TestWornAndBurnsOil: low in all, up with oil, and oil burnt are wear by tests of
// different kinds: common practice, no source.
func TestWornAndBurnsOil(t *testing.T) {
	low := []float64{88, 90, 86, 89}
	rise := sample.Wet(map[string]float64{"1": 125, "2": 128, "3": 122, "4": 126})
	runSealing(t, []sealingCase{
		{name: "oil use", test: sample.Dry("inline-4", low, sample.Minimum(120), rise, sample.Complains("oil use")), fires: "low-everywhere-and-burns-oil; all-low", first: "wear", soon: diag.ActSoon},
		{name: "no oil use", test: sample.Dry("inline-4", low, sample.Minimum(120), rise), fires: "all-low", not: "low-everywhere-and-burns-oil"},
		{name: "oil use, and oil changes nothing", test: sample.Dry("inline-4", low, sample.Minimum(120), sample.Wet(map[string]float64{"1": 89, "2": 92, "3": 87, "4": 90}), sample.Complains("oil use")), fires: "all-low", not: "low-everywhere-and-burns-oil"},
		{name: "oil use of an engine that stood", test: sample.Dry("inline-4", low, sample.Minimum(120), rise, sample.Complains("oil use"), sample.Stood(20)), not: "low-everywhere-and-burns-oil"},
	})
}
