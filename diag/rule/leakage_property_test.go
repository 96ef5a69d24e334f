package rule_test

import (
	"fmt"
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/rule/sample"
	"gaugesheet/diag/story"
)

// TestMoreLossIsNeverLessUrgent raises the loss of one cylinder in steps, on
// engines of several kinds, with and without a limit, sound and low: what is
// asked for never becomes milder, and a loss outside its limit always asks for
// something.
func TestMoreLossIsNeverLessUrgent(t *testing.T) {
	sets := map[string][]sample.Change{
		"plain": nil, "limit": {func(t *diag.Test) { limit := 25.0; t.Leakage.Limit = &limit }},
		"cold": {sample.Method(func(k *diag.Conditions) { k.Engine = "cold" })}, "two-stroke": {sample.TwoStroke}, "gas": {onGas}, "air-cooled": {airCooled},
	}
	dry := map[string][]float64{"not tested": nil, "even": {150, 151, 149, 150, 150, 149}, "low": {150, 90, 151, 149, 150, 149}}
	layouts := []string{"V6", "single", "inline-4"}
	if testing.Short() {
		layouts = layouts[:1]
	}
	for _, layout := range layouts {
		for set, changes := range sets {
			for how, readings := range dry {
				for _, at := range []string{"exhaust", "inlet", "crankcase", "coolant", "neighbour", "outside", "nowhere", ""} {
					before := diag.NoAction
					for _, loss := range []float64{2, 8, 9.9, 10.1, 15, 19.9, 20, 21, 24, 29.9, 31, 45, 61, 79} {
						name := fmt.Sprintf("%s, %s, %s, %g %% at %q", layout, set, how, loss, at)
						test := sample.Dry(layout, readings, append([]sample.Change{leakOn(layout, loss, at)}, changes...)...)
						if len(readings) == 0 {
							test.Compression = nil
						}
						d := story.WithoutPlan(test)
						atValve := at == "exhaust" || at == "inlet"
						if loss > 65 && atValve && how == "even" && set != "two-stroke" { // it cannot be: the valve stood open in that test
							continue
						}
						if d.Urgency.Rank() < before.Rank() {
							t.Errorf("%s: %s, and less lost was %s: %s", name, d.Urgency, before, d.Verdict.Key)
						}
						before = d.Urgency
						for _, l := range d.Leakage.Cylinders {
							if l.Verdict == diag.Outside && d.Urgency == diag.NoAction {
								t.Errorf("%s: outside its limit and no action", name)
							}
						}
					}
				}
			}
		}
	}
}

// leakOn gives the second cylinder, or the only one, a loss and the others
// little.
func leakOn(layout string, loss float64, at string) sample.Change {
	return func(t *diag.Test) {
		names := t.Engine.Names()
		which := min(1, len(names)-1)
		for i, n := range names {
			switch {
			case i != which:
				sample.Leak(n, 6)(t)
			case at == "":
				sample.Leak(n, loss)(t)
			default:
				sample.Leak(n, loss, at)(t)
			}
		}
	}
}
