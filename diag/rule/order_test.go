package rule

import (
	"math"
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

// TestAFoldedFindingIsNoMoreUrgent: where a combination says it better, the
// urgency is the combination's.
func TestAFoldedFindingIsNoMoreUrgent(t *testing.T) {
	folded := 0
	for _, c := range sample.Cases() {
		d := Diagnose(c.Test)
		for _, f := range d.Folded {
			folded++
			if f.Urgency.Rank() > d.Urgency.Rank() {
				t.Errorf("%s: %s, said by %s, is %s; the sheet %s", c.Name, f.Rule, f.SaidBy, f.Urgency, d.Urgency)
			}
		}
	}
	if folded == 0 {
		t.Error("no sample folds a finding")
	}
}

// TestTheSheetIsAsUrgentAsWhatItAsks: a sheet that asks to test again says
// check again, and one that asks for nothing proposes no check.
func TestTheSheetIsAsUrgentAsWhatItAsks(t *testing.T) {
	for _, c := range sample.Cases() {
		d := Diagnose(c.Test)
		if d.Urgency == diag.NoAction && asksToTest(d.Next) {
			t.Errorf("%s: no action, and yet %s", c.Name, d.Next.Key)
		}
		if d.Urgency == diag.NoAction && d.Next != nil && slices.Contains([]string{"advice-none", "advice-no-figure"}, d.Advice.Key) {
			t.Errorf("%s: %s, and yet %s", c.Name, d.Advice.Key, d.Next.Key)
		}
	}
}

func TestStrongNeedsBothKindsUndoubted(t *testing.T) {
	readings := []float64{150, 151, 100, 149}
	leak := sample.Leak("3", 40, "exhaust")
	said := func(changes ...sample.Change) diag.Finding {
		d := Diagnose(sample.Dry("inline-4", readings, append(changes, leak)...))
		all := append(slices.Clone(d.Findings), d.Folded...)
		return all[slices.IndexFunc(all, func(f diag.Finding) bool { return f.Rule == "leaks-at-exhaust" })]
	}
	if f := said(); f.Confidence != diag.Strong {
		t.Errorf("both recorded: %s, want strong", f.Confidence)
	}
	f := said(func(t *diag.Test) { t.Conditions.Throttle, t.Conditions.Strokes = "", 0 })
	if f.Confidence != diag.Fair || !slices.Contains(keys(f.Doubts), "method-incomplete") {
		t.Errorf("how compression was tested is not known: %s, doubts %v; want fair for it", f.Confidence, keys(f.Doubts))
	}
	seen := said(func(t *diag.Test) { t.Conditions.Throttle = "" }, sample.Seen("3", "exhaust valve burnt"))
	if seen.Confidence != diag.Strong {
		t.Errorf("a look into the bore leans on no compression: %s, want strong", seen.Confidence)
	}
}

func TestAnotherUnitKeepsFindingsProvisional(t *testing.T) {
	d := Diagnose(sample.Dry("inline-4", []float64{12, 11.5, 6, 12.5}, sample.OtherUnit))
	for _, f := range d.Findings {
		if f.Confidence != diag.Weak || f.Urgency.Rank() > diag.CheckAgain.Rank() {
			t.Errorf("%s: %s, %s", f.Rule, f.Urgency, f.Confidence)
		}
	}
	if d.Verdict.Key != "unit-suspect" {
		t.Errorf("verdict %s", d.Verdict.Key)
	}
}

func TestOneHighAmongOthersThatMayBeLow(t *testing.T) {
	high := func(v float64, changes ...sample.Change) []string {
		return keys(the(t, Diagnose(sample.Dry("inline-4", []float64{v, 100, 101, 99}, changes...)), "one-high").Causes)
	}
	if got := high(160); got[0] != "others-low" {
		t.Errorf("far above the others: %v", got)
	}
	if got := high(115); got[0] == "others-low" || !slices.Contains(got, "others-low") {
		t.Errorf("a little above the others: %v", got)
	}
	if got := high(160, sample.Minimum(80)); slices.Contains(got, "others-low") {
		t.Errorf("others that a minimum clears: %v", got)
	}
}

func TestTheLimitOfAnotherTimeIsNamed(t *testing.T) {
	limit := diag.FuelLimit{For: "hold", Low: 30, High: math.Inf(1), Minutes: 5, Entered: "at least 30 psi after 5 min"}
	at := func(v float64) *diag.Test {
		return sample.Of("inline-4", sample.Fuel("port, return line", diag.Circuit{
			KeyOn: sample.PSI(41), Hold: []diag.HoldReading{{Minutes: 3, Reading: sample.Read(v)}}, Limits: []diag.FuelLimit{limit}}))
	}
	f := the(t, Diagnose(at(25)), "falls-off-fast")
	if f.Variant != "" || f.Facts["limit"] != "at least 30\u00a0psi after 5\u00a0min" {
		t.Errorf("variant %q, limit %q", f.Variant, f.Facts["limit"])
	}
	if got := found(Diagnose(at(33))); slices.Contains(got, "falls-off-fast") || slices.Contains(got, "falls-off-slowly") {
		t.Errorf("above the limit before its time: %v", got)
	}
}
