package rule

import (
	"slices"
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/rule/sample"
)

func keys(list []diag.Phrase) []string {
	var k []string
	for _, p := range list {
		k = append(k, p.Key)
	}
	return k
}

// the gives the one finding of a rule.
func the(t *testing.T, d *diag.Diagnosis, rule string) diag.Finding {
	t.Helper()
	i := slices.IndexFunc(d.Findings, func(f diag.Finding) bool { return f.Rule == rule })
	if i < 0 {
		t.Fatalf("%s did not fire; fired: %v", rule, found(d))
	}
	return d.Findings[i]
}

func TestFindingsStandByUrgencyThenClass(t *testing.T) {
	for _, c := range sample.Cases() {
		findings := Diagnose(c.Test).Findings
		for i := 1; i < len(findings); i++ {
			a, b := findings[i-1], findings[i]
			if a.Urgency.Rank() < b.Urgency.Rank() {
				t.Errorf("%s: %s (%s) stands before %s (%s)", c.Name, a.Rule, a.Urgency, b.Rule, b.Urgency)
			}
			if a.Urgency == b.Urgency && byName(a.Rule).Class > byName(b.Rule).Class {
				t.Errorf("%s: %s stands before %s", c.Name, a.Rule, b.Rule)
			}
		}
	}
}

func TestMethodCapsConfidenceAndSuppressesNothing(t *testing.T) {
	readings := []float64{160, 160, 160, 100}
	recorded := Diagnose(sample.Dry("inline-4", readings))
	bare := Diagnose(sample.Dry("inline-4", readings, func(t *diag.Test) { t.Conditions, t.Gauges = diag.Conditions{}, diag.Gauges{} }))
	if got := the(t, recorded, "one-low"); got.Confidence != diag.Fair || len(got.Doubts) > 0 {
		t.Errorf("method recorded: %s, doubts %v; want fair without doubts", got.Confidence, keys(got.Doubts))
	}
	got := the(t, bare, "one-low")
	if got.Confidence != diag.Weak || !slices.Contains(keys(got.Doubts), "method-incomplete") {
		t.Errorf("method not recorded: %s, doubts %v; want weak for it", got.Confidence, keys(got.Doubts))
	}
	if got.Urgency != the(t, recorded, "one-low").Urgency {
		t.Error("the missing method changed the urgency")
	}
}

func TestDoubtedTestIsRepeatedFirst(t *testing.T) {
	d := Diagnose(sample.Dry("inline-4", []float64{160, 152, 143, 130}, sample.Order("1", "2", "3", "4")))
	f := the(t, d, "one-low")
	if f.Confidence != diag.Weak || f.Next == nil || f.Next.Key != "repeat-with-charger" {
		t.Errorf("confidence %s, next %+v; want weak, and the test repeated with a charger", f.Confidence, f.Next)
	}
}

func TestADoubtStaysWithItsSection(t *testing.T) {
	about := func(section string) sample.Change {
		return sample.Noted(diag.Notice{Rule: "unit-suspect", Facts: diag.Facts{
			"section": section, "value": diag.Number{Value: 1}, "unit": "kPa", "looks": "bar"}})
	}
	readings := []float64{160, 160, 160, 100}
	if f := the(t, Diagnose(sample.Dry("inline-4", readings, about("compression"))), "one-low"); f.Confidence != diag.Weak {
		t.Errorf("the unit of the compression in doubt: %s, want weak", f.Confidence)
	}
	if f := the(t, Diagnose(sample.Dry("inline-4", readings, about("fuel-pressure"))), "one-low"); f.Confidence != diag.Fair {
		t.Errorf("the unit of the fuel pressure in doubt: %s, want fair", f.Confidence)
	}
}

func TestEvenByLessThanTheGaugeTellsIsWeak(t *testing.T) {
	for _, test := range []struct {
		lowest float64
		want   diag.Confidence
	}{{148, diag.Weak}, {158, diag.Fair}} {
		d := Diagnose(sample.Dry("inline-5", []float64{160, 163, test.lowest, 162, 161}))
		if f := the(t, d, "even-no-minimum"); f.Confidence != test.want {
			t.Errorf("lowest %v of 163: %s, want %s", test.lowest, f.Confidence, test.want)
		}
	}
}

func TestASecondKindOfReadingOutlivesADoubtedFirst(t *testing.T) {
	d := Diagnose(sample.Dry("inline-4", []float64{160, 152, 143, 130}, sample.Order("1", "2", "3", "4"), sample.Leak("4", 40, "exhaust")))
	f := the(t, d, "exhaust-valve-agrees")
	if f.Confidence != diag.Fair || f.Next == nil || f.Next.Key == "repeat-with-charger" {
		t.Errorf("confidence %s, next %+v; want fair, and its own next check", f.Confidence, f.Next)
	}
}
