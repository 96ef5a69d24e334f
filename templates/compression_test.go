package templates_test

import (
	"maps"
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/engine"
	"gaugesheet/diag/quantity"
	"gaugesheet/diag/rule"
	"gaugesheet/diag/rule/sample"
	"gaugesheet/diag/story"
	"gaugesheet/templates"
)

// pressures are tests in which cranking pressure says all that it can say.
func pressures() []*diag.Test {
	dry, spec := sample.Dry, sample.Spec
	even, low3 := []float64{160, 158, 159, 157}, []float64{150, 151, 100, 149}
	four := func(v float64) []float64 { return []float64{v, v + 1, v, v - 1} }
	ratio := func(r float64) sample.Change { return spec(func(s *diag.Spec) { s.Ratio = r }) }
	geometry := spec(func(s *diag.Spec) { s.Ratio, s.InletClosesDeg, s.StrokeMM, s.RodMM = 9.5, 60, 86, 145 })
	usual := func(t *diag.Test) {
		t.Compression.Standard = &diag.Standard{Low: 170, High: 190, Unit: quantity.PSI, Entered: "170-190 psi"}
	}
	set := spec(func(s *diag.Spec) { s.Deactivates = []string{"1", "4", "6", "7"} })
	limit := func(kind diag.LimitKind, v float64, unit quantity.Unit) sample.Change {
		return sample.Limit(diag.Limit{Kind: kind, Of: diag.OfHighest, Value: v, Unit: unit})
	}
	high := sample.Method(func(c *diag.Conditions) { m := 1981.2; c.AltitudeM = &m })
	shut := sample.Method(func(c *diag.Conditions) { c.Throttle = "closed" })
	soaked := sample.Plug("fuel-wet", "1", "2", "3", "4")
	unit := sample.Noted(diag.Notice{Rule: "unit-suspect", Facts: diag.Facts{"section": "compression", "value": diag.Number{Value: 12, Unit: quantity.PSI}, "unit": "psi", "looks": "bar"}})
	return []*diag.Test{
		dry("inline-4", four(120), sample.Minimum(128), func(t *diag.Test) { t.Gauges.Compression.ReadsAt = [2]float64{100, 118} }),
		dry("inline-4", []float64{0, 5, 0, 3}), dry("inline-4", []float64{0, 5, 0, 3}, soaked), dry("inline-4", four(12), unit),
		dry("inline-4", four(90), sample.Minimum(128)), dry("inline-4", []float64{70, 45, 30, 50}, sample.Minimum(100)),
		dry("inline-4", four(60)), dry("inline-4", four(60), usual), dry("inline-4", four(60), ratio(10)), dry("inline-4", four(60), ratio(7)), dry("inline-4", four(60), high), dry("inline-4", four(60), shut),
		dry("inline-4", four(110), usual), dry("inline-4", four(110), sample.Wet(map[string]float64{"1": 150, "2": 151, "3": 150, "4": 149}), sample.Complains("oil use"), sample.Leak("1", 40, "crankcase"), sample.Leak("2", 38, "crankcase")),
		dry("single", []float64{60}), dry("inline-4", []float64{60}), dry("V8", []float64{60, 62}), dry("inline-4", four(180), sample.Diesel), dry("inline-4", []float64{70, 45, 60, 50}),
		dry("inline-4", four(110), geometry), dry("inline-4", four(120), ratio(10)), dry("single", []float64{118}, ratio(10)),
		dry("inline-4", four(118), sample.After("2025-11-02", dry("inline-4", four(160)))), dry("inline-4", four(118), sample.Worked("timing belt", dry("inline-4", four(160)))),
		dry("V6", []float64{110, 150, 112, 152, 108, 151}), dry("V6", []float64{110, 150, 112, 152, 108, 151}, sample.Codes("P0016")), dry("V6", []float64{132, 150, 131, 152, 133, 151}), dry("V6", []float64{5, 150, 0, 152, 4, 151}),
		sample.DryOf(engine.Spec{Layout: "flat-4", Numbering: engine.AcrossBanks, FirstBank: "left", SeparateBarrels: true}, []float64{110, 150, 112, 151}),
		dry("inline-4", []float64{0, 0, 120, 120}), dry("V8", []float64{0, 150, 0}), dry("inline-4", []float64{0, 120, 0, 120}), dry("inline-4", []float64{0, 0, 0, 120}), dry("V8", []float64{0, 0, 0}), dry("V8", []float64{0, 0}),
		dry("V8", []float64{0, 150, 151, 0, 150, 0, 0, 149}, set), dry("V8", []float64{95, 150, 151, 95, 150, 152, 150, 149}, set),
		dry("inline-4", []float64{145, 150, 0, 140}), dry("inline-2", []float64{0, 140}), dry("single", []float64{8}), dry("inline-4", []float64{0}),
		dry("inline-4", []float64{160, 90, 95, 158}), dry("inline-6", []float64{150, 100, 105, 98, 151, 149}), dry("inline-4", []float64{90, 160, 95, 158}),
		dry("inline-4", low3), dry("V2", []float64{180, 120}), dry("inline-4", []float64{120, 150, 150, 150}, sample.Over("2", "3", "4")), dry("inline-2", []float64{100, 150}, sample.Over("2")),
		dry("inline-4", []float64{160, 161, 160, 130}, sample.SpreadOfHighest(25)),
		dry("inline-4", []float64{140, 141, 140, 108}, sample.Minimum(128)), dry("inline-4", []float64{140, 141, 126, 127}, sample.Minimum(128)), dry("single", []float64{70}, sample.Minimum(90)), dry("inline-4", []float64{132, 131, 132, 130}, sample.Minimum(128)),
		dry("inline-4", []float64{160, 159, 161, 147}, limit(diag.Difference, 8, quantity.PSI)), dry("inline-4", []float64{160, 159, 161, 152}, limit(diag.Difference, 8, quantity.PSI)), dry("inline-4", []float64{160, 159, 161, 147}, limit(diag.Lowest, 97, quantity.Percent)),
		dry("inline-4", []float64{160, 159, 161, 147}, limit(diag.BelowMean, 4, quantity.PSI)), dry("inline-4", []float64{160, 159, 147, 148}, limit(diag.FromMean, 3, quantity.PSI)), dry("inline-4", []float64{160, 159, 161, 140}),
		dry("inline-4", []float64{160, 159, 161, 140}, sample.SpreadOfHighest(25)), dry("inline-8", []float64{160, 159, 161, 142, 150, 148, 155, 153}), dry("inline-8", []float64{160, 159, 161, 142, 150, 148, 155, 153}, sample.Minimum(120)),
		dry("inline-4", []float64{150, 152, 190, 149}), dry("inline-4", []float64{150, 152, 190, 149}, sample.Plug("coolant", "3")), dry("inline-4", four(240), geometry),
		dry("inline-4", []float64{150, 152, 110, 149}, sample.First(90, 91, 40, 90)), dry("inline-4", []float64{150, 152, 60, 149}, sample.First(90, 91, 40, 90)), dry("inline-4", []float64{150, 152, 105, 149}, sample.First(90, 91, 88, 90)),
		dry("inline-4", []float64{150, 152, 148, 149}, sample.First(142, 141, 140, 139)), dry("inline-6", []float64{150, 100, 148, 105, 151, 149}, sample.First(90, 35, 91, 38, 90, 89)),
		dry("inline-2", []float64{75, 78}, sample.TwoStroke, sample.Complains("hard start")), dry("inline-4", even, sample.Minimum(128)), dry("inline-4", even, sample.Minimum(128), usual), dry("single", []float64{120}, sample.Minimum(90)), dry("inline-5", []float64{160, 163, 150, 162, 161}, sample.SpreadOfHighest(10), sample.Minimum(110)),
		dry("inline-4", even), dry("inline-2", []float64{160, 158}), dry("inline-4", four(178), geometry), dry("inline-4", four(178), ratio(9.5)), dry("inline-4", even, usual), dry("inline-4", four(260), usual), dry("inline-5", []float64{160, 163, 150, 162, 161}, sample.SpreadOfHighest(10)),
		dry("inline-4", four(75), soaked), dry("inline-4", four(12), sample.Method(func(c *diag.Conditions) { c.Throttle = "closed" }), sample.Spec(func(s *diag.Spec) { s.Runs = "well" })), dry("inline-4", four(75), sample.Leak("1", 6), sample.Leak("2", 5)), dry("inline-4", low3, sample.Complains("no start")),
		dry("inline-4", even, sample.Minimum(128), sample.Complains("misfire")), dry("inline-4", even, sample.Complains("misfire")), dry("inline-4", even, sample.Minimum(128), sample.Complains("coolant loss")),
	}
}

// pressureRules are the rules on cranking pressure.
var pressureRules = []string{
	"none-anywhere", "all-low", "bank-low", "neighbours-without-pressure", "several-without-pressure", "deactivated-set-dead", "neighbours-low", "scattered-low", "one-without-pressure",
	"one-low", "one-out-of-tight-pack", "below-minimum", "near-minimum", "outside-limit", "a-little-low", "one-high", "all-high", "builds-slowly", "does-not-build", "first-stroke-high",
	"even-above-minimum", "even-no-minimum", "nearly-even", "washed-and-low", "low-everywhere-but-tight", "bank-low-with-cam-code", "no-start-not-explained", "sealing-sound-look-elsewhere",
}

// TestPressuresCanBeSaid says every wording on cranking pressure to both
// readers, and the headline of every rule.
func TestPressuresCanBeSaid(t *testing.T) {
	c := words(t)
	said := map[string]bool{}
	tests := pressures()
	r := rand.New(rand.NewPCG(4, 4))
	for range 300 {
		tests = append(tests, sample.Random(r))
	}
	for _, test := range tests {
		d := story.WithoutPlan(test)
		for i := range d.Stories {
			for _, f := range d.Stories[i].Members {
				if !slices.Contains(pressureRules, f.Rule) {
					continue
				}
				key := strings.TrimSuffix(f.Rule+"/"+f.Variant, "/")
				said[key] = true
				sayPressure(t, c, f)
				if !c.Has("verdicts", f.Headline) {
					t.Errorf("%s leads to the verdict %q, which has no words", f.Rule, f.Headline)
				}
			}
		}
	}
	for _, name := range pressureRules {
		for _, v := range append(slices.Clone(rule.Named(name).Variants), "") {
			if key := strings.TrimSuffix(name+"/"+v, "/"); !said[key] {
				t.Errorf("%s was never said", key)
			}
		}
	}
}

// argues is how a finding would argue for a cause of its own, which only its
// story does.
var argues = regexp.MustCompile(`points? to|first the|mostly the|likely`)

func sayPressure(t *testing.T, c *templates.Catalogue, f diag.Finding) {
	f.Causes, f.Next = nil, nil
	for _, name := range slices.Sorted(maps.Keys(audiences)) {
		a := audiences[name]
		s, err := c.Finding(f, a)
		if err != nil {
			t.Errorf("%s/%s to the %s: %v", f.Rule, f.Variant, name, err)
			continue
		}
		for _, text := range []string{s.Says, s.Because} {
			if text == "" || strings.Contains(text, "  ") || strings.Contains(text, "..") || strings.Contains(text, "<no") || strings.Contains(text, "NaN") || strings.Contains(text, "Inf") {
				t.Errorf("%s/%s to the %s is badly said: %q", f.Rule, f.Variant, name, text)
			}
			if f.Rule != "no-start-not-explained" && argues.MatchString(text) && !strings.Contains(text, "makes likely") {
				t.Errorf("%s/%s to the %s argues for a cause: %q", f.Rule, f.Variant, name, text)
			}
		}
		if a == templates.Customer && len(f.Cylinders) <= 6 && (len([]rune(s.Says)) > 100 || len([]rune(s.Because)) > 250 || strings.HasSuffix(s.Says, ".")) {
			t.Errorf("%s/%s is too long for its line: %q, %q", f.Rule, f.Variant, s.Says, s.Because)
		}
	}
}
