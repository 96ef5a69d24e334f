package rule_test

import (
	"slices"
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/cause"
	"gaugesheet/diag/rule"
	"gaugesheet/diag/rule/sample"
	"gaugesheet/diag/story"
)

// TestCodes: a stored code orders the causes of what is wrong. The codes are
// those of SAE J2012, from memory; what each points to is common practice.
func TestCodes(t *testing.T) {
	rich := func(codes ...string) *diag.Test {
		return sample.Of("V6", sample.Complains("rich running"), sample.Codes(codes...),
			sample.Fuel("port, return line", diag.Circuit{KeyOn: sample.PSI(40), Idle: sample.PSI(33), FuelInHose: "no", Limits: []diag.FuelLimit{sample.Range("key-on", 38, 44)}}))
	}
	sound := func(complaint string, codes ...string) *diag.Test {
		return sample.Dry("inline-4", []float64{150, 151, 149, 150}, sample.Minimum(120), sample.Complains(complaint), sample.Codes(codes...))
	}
	low := func(codes ...string) *diag.Test {
		return sample.Dry("inline-4", []float64{150, 151, 90, 150}, sample.Complains("misfire"), sample.Codes(codes...))
	}
	for _, tt := range []struct {
		name, finding string
		test          *diag.Test
		first         string // likeliest cause; "" is not asked
		none          string // a cause that has no place in the story
	}{
		{"rich, no code", "rich-pressure-right", rich(), "leaking-injector", ""},
		{"rich, the engine's temperature", "rich-pressure-right", rich("P0117"), "temperature-signal", ""},
		{"rich, the purge valve stands open", "rich-pressure-right", rich("P0496"), "purge-valve", ""},
		{"rich, a code that says no more", "rich-pressure-right", rich("P0172", "P0175"), "leaking-injector", ""},
		{"weak, no code", "sealing-sound-look-elsewhere", sound("low power"), "", "temperature-signal"},
		{"weak, the air meter", "sealing-sound-look-elsewhere", sound("low power", "P0101"), "air-meter", ""},
		{"no start, no code", "sealing-sound-look-elsewhere", sound("no start"), "ignition", ""},
		{"no start, the injectors' circuit", "sealing-sound-look-elsewhere", sound("no start", "P0201"), "injection", ""},
		{"no start, the crankshaft's sensor", "sealing-sound-look-elsewhere", sound("no start", "P0335", "P0201"), "ignition", ""},
		{"a low cylinder is not a sensor's", "one-low", low("P0117", "P0101"), "exhaust-valve", "temperature-signal"},
	} {
		s, _ := storyWith(story.WithoutPlan(tt.test), tt.finding)
		if s == nil {
			t.Errorf("%s: no story with %s", tt.name, tt.finding)
			continue
		}
		if len(s.Causes) == 0 || tt.first != "" && s.Causes[0].Key != tt.first {
			t.Errorf("%s: first cause of %v, want %s", tt.name, s.Causes, tt.first)
		}
		if slices.ContainsFunc(s.Ledger, func(e diag.Entry) bool { return e.Cause == tt.none }) {
			t.Errorf("%s: %s is weighed", tt.name, tt.none)
		}
	}
}

// TestCodesWeighLittle: a code names a circuit and proves no part. It weighs no
// more than what is known of how an engine was tested, and for causes that are.
func TestCodesWeighLittle(t *testing.T) {
	seen := 0
	for _, g := range rule.Signs() {
		if g.Kind != rule.OfCodes {
			continue
		}
		seen++
		for _, v := range g.For {
			if v.Weight > rule.Known || v.Weight <= 0 || cause.Named(v.Cause) == nil {
				t.Errorf("%s: %s weighs %d", g.When, v.Cause, v.Weight)
			}
		}
	}
	if seen < 20 {
		t.Errorf("%d signs of codes", seen)
	}
}

// TestCamOutOfStep: a code on a camshaft that does not stand where the crankshaft
// says is a finding, also where the pressure looks right: common practice, no
// source.
func TestCamOutOfStep(t *testing.T) {
	drive := func(of string) sample.Change { return spec(func(s *diag.Spec) { s.TimingDrive = of }) }
	runSealing(t, []sealingCase{
		{name: "a chain that rattles", test: sample.Dry("inline-4", evenFour, sample.Codes("P0016"), drive("chain"), sample.Complains("noise")), fires: "cam-out-of-step", first: "worn-chain", soon: diag.ActSoon},
		{name: "a belt that came suddenly", test: sample.Dry("inline-4", evenFour, sample.Codes("P0017"), drive("belt"), onset("sudden")), fires: "cam-out-of-step", first: "cam-timing", soon: diag.ActSoon, next: "cam-timing-marks"},
		{name: "of an engine by bank", test: sample.Dry("V6", []float64{150, 151, 149, 152, 150, 148}, sample.Codes("P0009"), drive("chain")), fires: "cam-out-of-step", first: "worn-chain"},
		{name: "a code of a misfire", test: sample.Dry("inline-4", evenFour, sample.Codes("P0301"), drive("chain")), not: "cam-out-of-step"},
		{name: "a bank low with it says it better", test: sample.Dry("V6", []float64{110, 150, 112, 152, 108, 151}, sample.Codes("P0016")), fires: "bank-low-with-cam-code", not: "cam-out-of-step"},
	})
}
