package rule

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/engine"
	"gaugesheet/diag/quantity"
	"gaugesheet/diag/rule/sample"

	"github.com/google/go-cmp/cmp"
)

// badness orders the grades from good to bad; what cannot be told lies between.
var badness = map[diag.Grade]int{diag.Even: 0, diag.Watch: 1, diag.GradeTooClose: 2, diag.Low: 3, diag.VeryLow: 4, diag.NoPressure: 5}

// readings are n random ones, some of them low, none of them high.
func readings(r *rand.Rand, n int) []float64 {
	v := make([]float64, n)
	for i := range v {
		v[i] = 150 + float64(r.IntN(11))
		if r.IntN(3) == 0 {
			v[i] = float64(r.IntN(150))
		}
	}
	return v
}

func TestRaisingTowardsTheMedianNeverMakesAGradeWorse(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 400 {
		before := readings(r, 4)
		i := r.IntN(4)
		after := slices.Clone(before)
		after[i] += (median(before) - before[i]) * r.Float64()
		if after[i] <= before[i] {
			continue
		}
		name := fmt.Sprint(i + 1)
		a, b := diag.Assess(sample.Dry("inline-4", before)), diag.Assess(sample.Dry("inline-4", after))
		was, is := a.Compression.Cylinder(name).Grade, b.Compression.Cylinder(name).Grade
		if was == diag.High || is == diag.High {
			continue
		}
		if badness[is] > badness[was] {
			t.Errorf("%v -> %v: cylinder %s went from %s to %s", before, after, name, was, is)
		}
	}
}

// seenIn is what a diagnosis found without its numbers.
func seenIn(d *diag.Diagnosis) []string {
	var list []string
	for _, n := range d.Notices {
		list = append(list, fmt.Sprint(n.Rule, n.Variant, n.Cylinders))
	}
	for _, f := range d.Findings {
		list = append(list, fmt.Sprint(f.Rule, f.Variant, f.Cylinders, f.Urgency, f.Confidence, keys(f.Causes), keys(f.Against), keys(f.Doubts)))
	}
	return list
}

func TestTheUnitChangesNoFinding(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 100 {
		v := readings(r, 6)
		psi := sample.Dry("V6", v, sample.Minimum(100))
		for _, unit := range []quantity.Unit{quantity.KPa, quantity.Bar, quantity.KgfPerCm2} {
			factor, err := quantity.Convert(1, quantity.PSI, unit)
			if err != nil {
				t.Fatal(err)
			}
			scaled := make([]float64, len(v))
			for i := range v {
				scaled[i] = v[i] * factor
			}
			other := sample.Dry("V6", scaled, sample.Minimum(100))
			other.Compression.Unit = unit
			other.Gauges.Compression.Division *= factor
			other.Gauges.Compression.High *= factor
			if diff := cmp.Diff(seenIn(Diagnose(psi)), seenIn(Diagnose(other))); diff != "" {
				t.Fatalf("%v psi against %s (-psi +%s):\n%s", v, unit, unit, diff)
			}
		}
	}
}

func TestRenumberingChangesOnlyLabels(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	names := map[string]string{}
	var renamed []string
	for i := 1; i <= 6; i++ {
		renamed = append(renamed, fmt.Sprintf("cyl%d", i))
		names[fmt.Sprintf("cyl%d", i)] = fmt.Sprint(i)
	}
	for range 100 {
		v := readings(r, 6)
		a := Diagnose(sample.Dry("inline-6", v))
		b := Diagnose(sample.DryOf(engine.Spec{Layout: "inline-6", Names: renamed}, v))
		for i := range b.Findings {
			for j, n := range b.Findings[i].Cylinders {
				b.Findings[i].Cylinders[j] = names[n]
			}
		}
		if diff := cmp.Diff(seenIn(a), seenIn(b)); diff != "" {
			t.Fatalf("%v:\n%s", v, diff)
		}
	}
}

func TestEvidenceNeverLowersItsCause(t *testing.T) {
	evidence := []struct {
		cause string
		add   sample.Change
	}{
		{"exhaust-valve", sample.Leak("3", 40, "exhaust")},
		{"inlet-valve", sample.Leak("3", 40, "inlet")},
		{"rings", sample.Leak("3", 40, "crankcase")},
		{"head-gasket", sample.Leak("3", 40, "coolant")},
		{"rings", sample.Wet(map[string]float64{"1": 152, "3": 140})},
		{"exhaust-valve", sample.Wet(map[string]float64{"1": 152, "3": 101})},
		{"rings", sample.Plug("oil-wet", "3")},
		{"head-gasket", sample.Plug("coolant", "3")},
		{"scored-bore", sample.Seen("3", "scored")},
		{"stuck-valve", sample.Stood(12)},
		{"rings", sample.First(90, 91, 30, 90)},
		{"head-gasket", func(t *diag.Test) { t.CoolantGas = "positive" }},
		{"head-gasket", func(t *diag.Test) { t.History.Complaints = []string{"coolant loss"} }},
	}
	rank := func(cause string, changes ...sample.Change) int {
		test := sample.Dry("inline-4", []float64{150, 151, 100, 149}, changes...)
		c := &Case{Test: test, Sums: diag.Assess(test)}
		w := c.weighSingle()
		c.evidence(w, "3")
		if i := slices.Index(w.sorted(), cause); i >= 0 {
			return i
		}
		return len(w.order)
	}
	for _, first := range evidence {
		for _, second := range evidence {
			if a, b := rank(second.cause, first.add), rank(second.cause, first.add, second.add); b > a {
				t.Errorf("evidence of %s, beside that of %s, took it from place %d to %d", second.cause, first.cause, a, b)
			}
		}
	}
}

// TestAnythingMayBeMissing runs every sample with parts of it taken away.
func TestAnythingMayBeMissing(t *testing.T) {
	Diagnose(nil)
	for _, c := range sample.Cases() {
		for _, take := range []sample.Change{
			func(t *diag.Test) { t.Compression = nil },
			func(t *diag.Test) { t.Leakage = nil },
			func(t *diag.Test) { t.Rotors = nil },
			func(t *diag.Test) { t.Engine = nil },
			func(t *diag.Test) { t.Gauges = diag.Gauges{} },
			func(t *diag.Test) {
				if t.Compression != nil {
					section := *t.Compression
					section.Dry = nil
					t.Compression = &section
				}
			},
			func(t *diag.Test) {
				if t.Compression != nil {
					section := *t.Compression
					section.Order = []string{"nobody", "1"}
					t.Compression = &section
				}
			},
		} {
			test := *c.Test
			take(&test)
			Diagnose(&test)
		}
	}
}

// TestRandomTestsKeepTheRules asks of engines nobody has seen what holds for
// all: declared variants, declared keys, order, at most three causes, no
// cylinder that the engine does not have, and the same again from the same.
func TestRandomTestsKeepTheRules(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	vocabulary := Vocabulary()
	for range 300 {
		test := sample.Random(r)
		d := Diagnose(test)
		if diff := cmp.Diff(seenIn(d), seenIn(Diagnose(test))); diff != "" {
			t.Fatalf("two diagnoses of one test differ:\n%s", diff)
		}
		last := diag.DoNotRun.Rank()
		for _, f := range d.Findings {
			rule := byName(f.Rule)
			if rule == nil || f.Variant != "" && !slices.Contains(rule.Variants, f.Variant) {
				t.Errorf("variant %q of %s is not declared", f.Variant, f.Rule)
			}
			if f.Urgency.Rank() > last {
				t.Errorf("%s stands after something less urgent", f.Rule)
			}
			last = f.Urgency.Rank()
			for section, used := range map[string][]string{"causes": keys(f.Causes), "against": keys(f.Against), "doubts": keys(f.Doubts)} {
				for _, k := range used {
					if !slices.Contains(vocabulary[section], k) {
						t.Errorf("%s of %s: %q is not in the vocabulary", section, f.Rule, k)
					}
				}
			}
			for _, name := range f.Cylinders {
				if test.Engine.Index(name) < 0 {
					t.Errorf("%s names cylinder %q", f.Rule, name)
				}
			}
		}
	}
}
