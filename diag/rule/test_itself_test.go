package rule_test

import (
	"slices"
	"strings"
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
	"gaugesheet/diag/rule/sample"
	"gaugesheet/diag/story"
)

var (
	even4  = []float64{160, 158, 159, 157}
	under4 = []float64{98, 97, 99, 96}
)

func method(alter func(*diag.Conditions)) sample.Change { return sample.Method(alter) }

func number(v float64) *float64 { return &v }

// remarks lists the notices of a diagnosis, each with its variant.
func remarks(d *diag.Diagnosis) []string {
	var list []string
	for _, n := range d.Notices {
		name := n.Rule
		if n.Variant != "" {
			name += "/" + n.Variant
		}
		list = append(list, name)
	}
	return list
}

// TestNoticesOnTheTest: what is remarked of how a test was made, and what is
// not. The readings and bounds are common practice, no source.
func TestNoticesOnTheTest(t *testing.T) {
	for _, tt := range noticeCases() {
		t.Run(tt.name, func(t *testing.T) {
			got := remarks(story.WithoutPlan(tt.test))
			for _, want := range strings.Fields(tt.gives) {
				if !slices.Contains(got, want) {
					t.Errorf("no notice %s: %v", want, got)
				}
			}
			for _, not := range strings.Fields(tt.givesNone) {
				if slices.Contains(got, not) {
					t.Errorf("a notice %s", not)
				}
			}
		})
	}
}

// A noticeCase is a test with the notices that it gives, and does not give.
type noticeCase struct {
	name      string
	test      *diag.Test
	gives     string
	givesNone string
}

func noticeCases() []noticeCase {
	battery := func(volts, rest float64) sample.Change {
		return method(func(k *diag.Conditions) {
			k.Battery.CrankingV = number(volts)
			if rest > 0 {
				k.Battery.RestV = number(rest)
			}
		})
	}
	return []noticeCase{
		{name: "a test by the book", test: sample.Dry("inline-4", even4), givesNone: "slow-cranking battery-sags not-standard-method gauge-doubted engine-facts-missing read-not-told"},
		{name: "readings after oil and no others", test: sample.Dry("inline-4", nil, sample.Wet(map[string]float64{"1": 165, "2": 168, "3": 166, "4": 167})), gives: "only-after-oil"},
		{name: "readings after oil beside dry ones", test: sample.Dry("inline-4", even4, sample.Wet(map[string]float64{"1": 165, "2": 168, "3": 166, "4": 167})), givesNone: "only-after-oil"},
		{name: "110 a minute", test: sample.Dry("inline-4", even4, method(func(k *diag.Conditions) { k.CrankingRPM = number(110) })), gives: "slow-cranking", givesNone: "battery-sags"},
		{name: "250 a minute", test: sample.Dry("inline-4", even4, method(func(k *diag.Conditions) { k.CrankingRPM = number(250) })), givesNone: "slow-cranking"},
		{name: "a flat battery, the other plugs in, and low power", test: sample.Dry("inline-4", even4, sample.Complains("low power"), battery(8.4, 12.2), method(func(k *diag.Conditions) { k.PlugsOut = "one at a time" })), gives: "test-decides-nothing"},
		{name: "the same, and nobody complains", test: sample.Dry("inline-4", even4, battery(8.4, 12.2), method(func(k *diag.Conditions) { k.PlugsOut = "one at a time" })), gives: "battery-sags", givesNone: "test-decides-nothing"},
		{name: "a flat battery alone, and low power", test: sample.Dry("inline-4", even4, sample.Complains("low power"), battery(8.4, 12.2)), gives: "battery-sags", givesNone: "test-decides-nothing"},
		{name: "8.4 V on the starter", test: sample.Dry("V6", []float64{150, 151, 149, 150, 152, 148}, battery(8.4, 12.2)), gives: "battery-sags"},
		{name: "10.6 V on the starter", test: sample.Dry("inline-4", even4, battery(10.6, 12.6)), givesNone: "battery-sags"},
		{name: "a 24 V system at 18 V", test: sample.Dry("inline-6", []float64{28, 28, 27, 28, 28, 27}, sample.Diesel, battery(18, 25)), gives: "battery-sags"},
		{name: "a 24 V system at 21 V", test: sample.Dry("inline-4", even4, battery(21, 25.4)), givesNone: "battery-sags"},
		{name: "a 6 V system at 5 V", test: sample.Dry("inline-4", even4, battery(5.0, 6.3)), givesNone: "battery-sags"},
		{name: "choke on", test: sample.Dry("inline-2", []float64{90, 92}, method(func(k *diag.Conditions) { k.Choke = "closed" })), gives: "not-standard-method/choke-closed", givesNone: "not-standard-method/throttle-closed"},
		{name: "choke open", test: sample.Dry("inline-2", []float64{90, 92}, method(func(k *diag.Conditions) { k.Choke = "open" })), givesNone: "not-standard-method/choke-closed"},
		{name: "a diesel has no throttle to shut", test: sample.Dry("inline-4", []float64{400, 405, 398, 402}, sample.Diesel, method(func(k *diag.Conditions) { k.Throttle = "closed" })), givesNone: "not-standard-method/throttle-closed"},
		{name: "the adapter hissed in one", test: sample.Dry("inline-4", []float64{150, 152, 100, 151}, method(func(k *diag.Conditions) { k.Method = "adapter hissed in cylinder 3" })), gives: "adapter-leaked"},
		{name: "an adapter, and nothing said of it", test: sample.Dry("inline-4", []float64{150, 152, 100, 151}, method(func(k *diag.Conditions) { k.Method = "long adapter used in cylinder 3" })), givesNone: "adapter-leaked"},
		{name: "an adapter that did not leak", test: sample.Dry("inline-4", []float64{150, 152, 100, 151}, method(func(k *diag.Conditions) { k.Method = "adapter in cylinder 3 checked, no leak" })), givesNone: "adapter-leaked"},
		{name: "the gauge is doubted", test: sample.Dry("inline-4", even4, func(t *diag.Test) { t.Gauges.Compression.Doubt = "it was dropped" }), gives: "gauge-doubted"},
		{name: "a doubted gauge that was not used", test: sample.Of("inline-4", sample.Leak("1", 8), func(t *diag.Test) { t.Gauges.Compression = &diag.Gauge{Doubt: "it was dropped"} }), givesNone: "gauge-doubted"},
		{name: "1600 m up, and the minimum would be met", test: sample.Dry("inline-4", []float64{112, 114, 113, 115}, sample.Minimum(130), method(func(k *diag.Conditions) { k.AltitudeM = number(1600) })),
			gives: "altitude-not-corrected"},
		{name: "1600 m up, and it would not be met", test: sample.Dry("inline-4", []float64{82, 84, 83, 85}, sample.Minimum(130), method(func(k *diag.Conditions) { k.AltitudeM = number(1600) })), givesNone: "altitude-not-corrected"},
		{name: "near the sea", test: sample.Dry("inline-4", []float64{112, 114, 113, 115}, sample.Minimum(130), method(func(k *diag.Conditions) { k.AltitudeM = number(100) })), givesNone: "altitude-not-corrected"},
		{name: "1600 m up and corrected", test: sample.Dry("inline-4", []float64{112, 114, 113, 115}, sample.Limit(diag.Limit{Kind: diag.Minimum, Value: 130, Unit: quantity.PSI, FromSeaLevel: true}),
			method(func(k *diag.Conditions) { k.AltitudeM = number(1600) })), givesNone: "altitude-not-corrected"},
		{name: "one kept to himself", test: sample.Dry("inline-4", even4, func(t *diag.Test) { t.Compression.Dry["3"] = diag.Reading{State: diag.NotTold} }), gives: "read-not-told too-few-cylinders"},
		{name: "a lower bound", test: sample.Dry("inline-4", even4, sample.Over("1")), gives: "lower-bound"},
		{name: "a place without a figure is read", test: sample.Of("single", only("1", "crankcase")), givesNone: "too-few-cylinders"},
		{name: "one low, and the lifters not recorded", test: sample.Dry("inline-4", []float64{150, 110, 149, 151}), gives: "engine-facts-missing"},
		{name: "a low two-stroke has no lifters", test: sample.Dry("inline-2", []float64{120, 80}, sample.TwoStroke, func(t *diag.Test) { t.Spec.Cooling = "air" }), givesNone: "engine-facts-missing"},
		{name: "air at both valves", test: sample.Of("inline-4", sample.Leak("1", 60, "inlet", "exhaust")), gives: "leaks-at-both-valves"},
		{name: "a two-stroke has none", test: sample.Of("inline-2", sample.TwoStroke, sample.Leak("1", 60, "inlet", "exhaust")), givesNone: "leaks-at-both-valves"},
		{name: "all leak and all are under the minimum", test: sample.Dry("inline-2", []float64{80, 82}, sample.Minimum(120), sample.Leak("1", 40, "crankcase"), sample.Leak("2", 38, "crankcase")), givesNone: "all-leak-to-crankcase"},
		{name: "all leak and none is low", test: sample.Dry("inline-2", []float64{150, 152}, sample.Minimum(120), sample.Leak("1", 40, "crankcase"), sample.Leak("2", 38, "crankcase")), gives: "all-leak-to-crankcase"},
		{name: "tight after oil that brought it up", test: sample.Dry("inline-4", []float64{150, 100, 149, 151}, sample.Wet(map[string]float64{"2": 140, "1": 152}), sample.Leak("2", 6)), gives: "leak-down-after-oil"},
		{name: "tight, and oil did nothing", test: sample.Dry("inline-4", []float64{150, 100, 149, 151}, sample.Wet(map[string]float64{"2": 101, "1": 152}), sample.Leak("2", 6)), givesNone: "leak-down-after-oil"},
		{name: "nothing is nothing in any unit", test: sample.Dry("inline-4", []float64{0, 3, 2, 3}, sample.OtherUnit), givesNone: "unit-suspect"},
		{name: "twelve everywhere", test: sample.Dry("inline-4", []float64{12, 12.2, 11.9, 12}, sample.OtherUnit), gives: "unit-suspect"},
		{name: "a sound cylinder beside dead ones", test: sample.Dry("inline-4", []float64{150, 2, 3, 2}, sample.Noted(diag.Notice{Rule: "unit-suspect", Cylinders: []string{"1"},
			Facts: diag.Facts{"section": "compression", "value": diag.Number{Value: 150, Unit: quantity.PSI}, "unit": "psi", "looks": "kPa"}})), givesNone: "unit-suspect"},
		{name: "beyond the gauge", test: sample.Dry("inline-4", even4, sample.Noted(diag.Notice{Rule: "reading-beyond-gauge", Cylinders: []string{"2"}, Facts: diag.Facts{
			"section": "compression", "value": diag.Number{Value: 1450, Unit: quantity.PSI}, "range": "0-1000 psi"}})), gives: "reading-beyond-gauge"},
	}
}

// TestAllLowAsksTheTestFirst: a known fault of the test is the first cause of
// an engine that is low throughout, and what is not known of it is no more
// than a hint. Never another gauge for a fault that is not the gauge's.
func TestAllLowAsksTheTestFirst(t *testing.T) {
	low := func(changes ...sample.Change) *diag.Test {
		return sample.Dry("inline-4", under4, append([]sample.Change{sample.Minimum(128)}, changes...)...)
	}
	for _, tt := range []struct {
		name, first string
		test        *diag.Test
	}{
		{"110 a minute", "weak-cranking", low(method(func(k *diag.Conditions) { k.CrankingRPM = number(110) }))},
		{"8.4 V", "weak-cranking", low(method(func(k *diag.Conditions) { k.Battery.CrankingV = number(8.4) }))},
		{"choke on", "throttle-or-choke", low(method(func(k *diag.Conditions) { k.Choke = "on" }))},
		{"the needle falls back", "gauge-valve-leaks", low(method(func(k *diag.Conditions) { k.Needle = "falls back" }))},
		{"a gauge that reads low", "gauge-reads-low", low(func(t *diag.Test) { t.Gauges.Compression.ReadsAt = [2]float64{70, 100} })},
		{"thin air", "altitude", sample.Dry("inline-4", []float64{112, 114, 113, 115}, sample.Minimum(130), method(func(k *diag.Conditions) { k.AltitudeM = number(1600) }))},
		{"a minimum that the ratio does not give", "limit-wrong", sample.Dry("inline-4", []float64{150, 149, 151, 150}, sample.Minimum(185), sample.Spec(func(s *diag.Spec) { s.Ratio = 8.5 }))},
	} {
		t.Run(tt.name, func(t *testing.T) {
			d := story.WithoutPlan(tt.test)
			s, _ := storyWith(d, "all-low")
			if s == nil {
				t.Fatal("all-low did not fire")
			}
			if len(s.Causes) == 0 || s.Causes[0].Key != tt.first {
				t.Errorf("first cause %v, want %s: %v", s.Causes, tt.first, s.Ledger)
			}
			if d.Next != nil && d.Next.Key == "second-gauge" && !strings.HasPrefix(tt.first, "gauge") {
				t.Errorf("asks for a second gauge where %s is known", tt.first)
			}
		})
	}
}

// TestProvenSagLeavesCylindersAlone: where the first cylinder, tested again,
// reads clearly lower, the test leads and no cylinder is accused.
func TestProvenSagLeavesCylindersAlone(t *testing.T) {
	d := story.WithoutPlan(sample.Dry("inline-4", []float64{168, 138, 160, 118}, sample.Order("1", "3", "2", "4"), sample.Again("1", 140)))
	if len(d.Stories) == 0 || d.Stories[0].About != diag.AboutTest {
		t.Fatalf("the test does not lead: %+v", d.Verdict)
	}
	if d.Urgency != diag.CheckAgain || d.Verdict.Key != "test-tires" || d.Next == nil || d.Next.Key != "repeat-with-charger" {
		t.Errorf("urgency %s, verdict %s, next %+v", d.Urgency, d.Verdict.Key, d.Next)
	}
	for _, s := range d.Stories {
		if s.About == diag.AboutCylinders && s.Confidence != diag.Weak {
			t.Errorf("%v is %s", s.Cylinders, s.Confidence)
		}
	}
	dead := story.WithoutPlan(sample.Dry("inline-4", []float64{168, 138, 160, 0}, sample.Order("1", "3", "2", "4"), sample.Again("1", 140)))
	if dead.Urgency != diag.DoNotRun {
		t.Errorf("a cylinder without pressure is %s", dead.Urgency)
	}
}

// TestFarBelowOnTheFall: what reads as the fall of the test makes a sound one read is not named as
// far below the others; what reads less than the first one, tested again, is.
func TestFarBelowOnTheFall(t *testing.T) {
	shut := func(t *diag.Test) { t.Conditions.Throttle = "closed" }
	for _, row := range []struct {
		name  string
		test  *diag.Test
		apart string
	}{
		{"the last as the first again", sample.Dry("inline-4", []float64{150, 137, 124, 110}, shut, sample.Order("1", "2", "3", "4"), sample.Again("1", 108)), ""},
		{"no first again", sample.Dry("inline-4", []float64{150, 137, 124, 110}, shut, sample.Order("1", "2", "3", "4")), ""},
		{"one under the fall", sample.Dry("inline-4", []float64{150, 137, 60, 115}, shut, sample.Order("1", "2", "3", "4"), sample.Again("1", 108)), "3"},
		{"no fall", sample.Dry("inline-4", []float64{150, 148, 151, 110}, shut, sample.Order("1", "2", "3", "4"), sample.Again("1", 149)), "4"},
	} {
		for _, n := range story.WithoutPlan(row.test).Notices {
			if n.Rule != "not-standard-method" {
				continue
			}
			if names, _ := n.Facts["apart"].(diag.Names); strings.Join(names, ",") != row.apart {
				t.Errorf("%s: %v apart, expected %q", row.name, names, row.apart)
			}
		}
	}
}
