package rule

import (
	"slices"
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
	"gaugesheet/diag/rule/sample"
)

func TestVerdicts(t *testing.T) {
	even, low := []float64{150, 152, 148, 151}, []float64{150, 152, 90, 151}
	decompressed := sample.Spec(func(s *diag.Spec) { s.Decompressor = "automatic" })
	closed := sample.Method(func(k *diag.Conditions) { k.Throttle = "closed" })
	limits := []diag.FuelLimit{sample.Range("key-on", 38, 44)}
	fuel := func(v float64) sample.Change {
		return sample.Fuel("port, return line", diag.Circuit{KeyOn: sample.PSI(v), Limits: limits})
	}
	tests := []struct {
		name, verdict, advice string
		urgency               diag.Urgency
		more                  int
		test                  *diag.Test
	}{
		{"above the minimum", "even-above-minimum", "advice-none", diag.NoAction, 0, sample.Dry("inline-4", even, sample.Minimum(128))},
		{"no figure", "even-no-minimum", "advice-no-figure", diag.NoAction, 0, sample.Dry("inline-4", even)},
		{"even, and too close to the limit", "too-close", "advice-repeat", diag.CheckAgain, 0, sample.Dry("inline-5", []float64{160, 163, 147.5, 162, 161})},
		{"even, and too close to a stated limit", "too-close", "advice-repeat", diag.CheckAgain, 0, sample.Dry("inline-5", []float64{160, 163, 150, 162, 161}, sample.Limit(diag.Limit{Kind: diag.Spread, Of: diag.OfHighest, Value: 10, Unit: quantity.Percent}))},
		{"even, and near the usual 10 percent", "even-no-minimum", "advice-no-figure", diag.NoAction, 0, sample.Dry("inline-5", []float64{160, 163, 150, 162, 161})},
		{"one low", "one-low", "advice-valve", diag.ActSoon, 0, sample.Dry("inline-4", low)},
		{"valve", "exhaust-valve-agrees", "advice-valve", diag.ActSoon, 0, sample.Dry("inline-4", low, sample.Leak("3", 34, "exhaust"))},
		{"two things", "one-low", "advice-valve", diag.ActSoon, 1, sample.Dry("inline-4", low, sample.Plug("sooty", "4"), sample.Plug("normal", "1", "2", "3"))},
		{"some cylinders", "too-few-cylinders", "advice-complete", diag.CheckAgain, 0, sample.Dry("inline-4", even, sample.Unread("4"))},
		{"some rotors", "too-few-rotors", "advice-complete", diag.CheckAgain, 0, sample.Faces([][3]float64{{7.4, 7.2, 7.3}, {}}, sample.RotorUnread("2"))},
		{"leakage of some, nothing else", "too-few-cylinders", "advice-complete", diag.CheckAgain, 0, sample.Of("inline-4", sample.Leak("1", 5), sample.Leak("2", 6))},
		{"one known only to read more", "lower-bound-some", "advice-lower-bound", diag.NoAction, 0, sample.Dry("inline-4", []float64{300, 290, 280, 285}, sample.Over("1"))},
		{"all known only to read more, over the minimum", "above-minimum", "advice-none", diag.NoAction, 0,
			sample.Dry("inline-4", []float64{300, 300, 300, 300}, sample.Over("1", "2", "3", "4"), sample.Minimum(250))},
		{"all known only to read more, no minimum", "lower-bound", "advice-lower-bound", diag.NoAction, 0,
			sample.Dry("inline-4", []float64{300, 300, 300, 300}, sample.Over("1", "2", "3", "4"))},
		{"a lower bound under the minimum", "lower-bound-some", "advice-repeat", diag.CheckAgain, 0,
			sample.Dry("inline-4", []float64{100, 150, 152, 151}, sample.Over("1"), sample.Minimum(120))},
		{"oil only", "wet-only", "advice-next-check", diag.CheckAgain, 0, sample.Dry("inline-2", nil, sample.Wet(map[string]float64{"1": 150, "2": 140}))},
		{"repeats of all disagree", "not-judged-some", "advice-test-again", diag.CheckAgain, 0,
			sample.Dry("inline-2", nil, sample.Repeats("1", 150, 120), sample.Repeats("2", 150, 120))},
		{"another unit everywhere", "unit-suspect", "advice-unit", diag.CheckAgain, 0, sample.Dry("inline-4", []float64{12, 11.5, 12, 12.5}, sample.OtherUnit)},
		{"another unit, read as even", "unit-suspect", "advice-unit", diag.CheckAgain, 0, sample.Dry("inline-4", []float64{75, 78, 76, 80}, sample.OtherUnit)},
		{"decompressor", "not-judged-decompressor", "advice-next-check", diag.NoAction, 0, sample.Dry("inline-4", even, decompressed)},
		{"throttle closed", "not-judged-throttle-closed", "advice-test-again", diag.CheckAgain, 0, sample.Dry("inline-4", even, closed)},
		{"single", "not-judged-single-cylinder", "advice-next-check", diag.NoAction, 0, sample.Dry("single", []float64{120})},
		{"melted", "plugs-melted", "advice-do-not-run", diag.DoNotRun, 0, sample.Of("inline-4", sample.Looks("normal", "melted", "normal", "normal"))},
		{"leakage only", "leakage-good", "advice-none", diag.NoAction, 0, sample.Of("inline-4", sample.Leak("1", 5), sample.Leak("2", 6), sample.Leak("3", 4), sample.Leak("4", 5))},
		{"plugs only", "plugs-normal", "advice-none", diag.NoAction, 0, sample.Of("inline-4", sample.Looks("normal", "normal", "normal", "normal"))},
		{"fuel only, low", "fuel-pressure-low", "advice-supply", diag.ActSoon, 0, sample.Of("inline-4", fuel(31))},
		{"fuel only, right", "fuel-right", "advice-none", diag.NoAction, 0, sample.Of("inline-4", fuel(41))},
		{"fuel only, close", "fuel-too-close", "advice-weak", diag.CheckAgain, 0, sample.Of("inline-4", fuel(37.5))},
		{"rotors", "rotors-even", "advice-none", diag.NoAction, 0, sample.Faces([][3]float64{{7.4, 7.2, 7.3}, {7.3, 7.4, 7.2}})},
		{"a complaint that nothing explains", "not-explained", "advice-next-check", diag.NoAction, 0, sample.Of("inline-4", fuel(41), sample.Complains("misfire"))},
		{"all low: repeat", "all-low", "advice-repeat", diag.ActSoon, 0, sample.Dry("inline-4", []float64{100, 102, 98, 101}, sample.Minimum(128))},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			d := Diagnose(tt.test)
			more, _ := d.Advice.Facts["more"].(int)
			if d.Verdict.Key != tt.verdict || d.Advice.Key != tt.advice || d.Urgency != tt.urgency || more != tt.more {
				t.Errorf("%s, %s, %s, %d more; want %s, %s, %s, %d more; found %v", d.Verdict.Key, d.Advice.Key, d.Urgency, more,
					tt.verdict, tt.advice, tt.urgency, tt.more, found(d))
			}
		})
	}
}

// TestEveryRuleHasAVerdict asks that each rule that finds something can lead
// the sheet, except those that never ask for anything.
func TestEveryRuleHasAVerdict(t *testing.T) {
	never := []string{"ash-deposits", "falls-off-slowly", "rises-after-key-off", "first-stroke-high", "wet-rise-everywhere"}
	for _, r := range All() {
		if r.Findings != nil && verdictOf[r.Name] == "" && !slices.Contains(never, r.Name) {
			t.Errorf("%s has no verdict of its own", r.Name)
		}
	}
}
