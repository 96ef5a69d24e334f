package story_test

import (
	"fmt"
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/cause"
	"gaugesheet/diag/engine"
	know "gaugesheet/diag/known"
	"gaugesheet/diag/quantity"
	"gaugesheet/diag/rule"
	"gaugesheet/diag/rule/sample"
	"gaugesheet/diag/story"

	"github.com/google/go-cmp/cmp"
)

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

func keys(phrases []diag.Phrase) []string {
	var list []string
	for _, p := range phrases {
		list = append(list, p.Key)
	}
	return list
}

// told is what a diagnosis says without its numbers.
func told(d *diag.Diagnosis) []string {
	list := []string{d.Verdict.Key, string(d.Urgency)}
	for _, n := range d.Notices {
		list = append(list, fmt.Sprint(n.Rule, n.Variant, n.Cylinders))
	}
	for _, s := range d.Stories {
		next := ""
		if s.Next != nil {
			next = s.Next.Key
		}
		list = append(list, fmt.Sprint(s.About, s.Cylinders, s.Circuit, s.Urgency, s.Confidence, keys(s.Causes), keys(s.Against), next))
		for _, f := range s.Members {
			list = append(list, fmt.Sprint("  ", f.Rule, f.Variant, f.Cylinders, f.Urgency, f.SaidBy))
		}
	}
	return list
}

// unlessShort is how often a property is tried, few times where the tests have to be quick.
func unlessShort(often, few int) int {
	if testing.Short() {
		return few
	}
	return often
}

func TestTheUnitChangesNothing(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range unlessShort(100, 25) {
		v := readings(r, 6)
		psi := told(story.Diagnose(sample.Dry("V6", v, sample.Minimum(100))))
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
			if diff := cmp.Diff(psi, told(story.Diagnose(other))); diff != "" {
				t.Fatalf("%v psi against %s (-psi +%s):\n%s", v, unit, unit, diff)
			}
		}
	}
}

func TestRenumberingChangesOnlyLabels(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	var renamed []string
	for i := 1; i <= 6; i++ {
		renamed = append(renamed, fmt.Sprintf("cyl%d", i))
	}
	plain := func(names []string) []string {
		var list []string
		for _, n := range names {
			list = append(list, n[len(n)-1:])
		}
		return list
	}
	for range unlessShort(100, 25) {
		v := readings(r, 6)
		a := story.Diagnose(sample.Dry("inline-6", v))
		b := story.Diagnose(sample.DryOf(engine.Spec{Layout: "inline-6", Names: renamed}, v))
		for i := range b.Stories {
			s := &b.Stories[i]
			s.Cylinders = plain(s.Cylinders)
			for j := range s.Members {
				s.Members[j].Cylinders = plain(s.Members[j].Cylinders)
			}
		}
		for i := range b.Notices {
			b.Notices[i].Cylinders = plain(b.Notices[i].Cylinders)
		}
		if diff := cmp.Diff(told(a), told(b)); diff != "" {
			t.Fatalf("%v:\n%s", v, diff)
		}
	}
}

// TestAnythingMayBeMissing runs every sample with parts of it taken away.
func TestAnythingMayBeMissing(t *testing.T) {
	story.Diagnose(nil)
	rows := sample.Rows()
	if testing.Short() {
		rows = rows[:len(rows)/5]
	}
	for _, c := range rows {
		for i := range reflect.TypeFor[diag.Test]().NumField() {
			test := *c.Test
			if part := reflect.ValueOf(&test).Elem().Field(i); !part.IsZero() {
				part.SetZero()
				story.Diagnose(&test)
			}
		}
	}
}

// TestStoriesKeepTheRules asks of engines nobody has seen what holds for all:
// one lead a story, declared variants, causes that fit and are at most three,
// checks that fit and were not made, order, and the same again from the same.
func TestStoriesKeepTheRules(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	for range unlessShort(500, 60) {
		test := sample.Random(r)
		d := story.Diagnose(test)
		if diff := cmp.Diff(told(d), told(story.Diagnose(test))); diff != "" {
			t.Fatalf("two diagnoses of one test differ:\n%s", diff)
		}
		c := know.New(test)
		last := diag.DoNotRun.Rank()
		seen := map[string]bool{}
		for _, s := range d.Stories {
			if s.Urgency.Rank() > last {
				t.Errorf("a story of %v stands after something less urgent", s.Cylinders)
			}
			last = s.Urgency.Rank()
			if len(s.Causes) > 3 {
				t.Errorf("%d causes", len(s.Causes))
			}
			for _, k := range keys(s.Causes) {
				if !cause.Fit(c, k) {
					t.Errorf("the cause %s does not fit %s", k, test.Engine.Layout)
				}
			}
			if s.About == diag.AboutCylinders {
				for _, n := range s.Cylinders {
					if seen[n] {
						t.Errorf("two stories about cylinder %s", n)
					}
					seen[n] = true
				}
			}
			if s.Next != nil {
				k := cause.CheckNamed(s.Next.Key)
				if k == nil || !k.Allowed(c, s.Cylinders, d.Urgency) || k.IsMade(c, s.Next.Cylinders) {
					t.Errorf("the check %s is not one to propose at %s", s.Next.Key, d.Urgency)
				}
			}
			for i, f := range s.Members {
				of := rule.Named(f.Rule)
				if of == nil || f.Variant != "" && !slices.Contains(of.Variants, f.Variant) {
					t.Errorf("variant %q of %s is not declared", f.Variant, f.Rule)
				}
				if (i == 0) != (f.SaidBy == "") {
					t.Errorf("%s at place %d is said by %q", f.Rule, i, f.SaidBy)
				}
			}
		}
	}
}

// TestOnlyWhatWasMadeSpeaks: a kind of test that speaks for a cause was made: what
// a sheet says of how sure it is names none that stands among what was not tested.
func TestOnlyWhatWasMadeSpeaks(t *testing.T) {
	r := rand.New(rand.NewPCG(31, 7))
	needs := map[rule.Kind]know.Need{rule.OfLeakage: know.NeedsLeakage, rule.OfPlugs: know.NeedsPlugs, rule.OfFuel: know.NeedsFuel, rule.OfRotors: know.NeedsRotors}
	asked := 0
	for i := range unlessShort(600, 150) {
		test := sample.Random(r)
		if i%2 == 0 { // low by itself, up with oil, and oil on its plug: rings without a leak-down
			low := []float64{159, 156, 158, 157}
			low[r.IntN(4)] = 90 + float64(r.IntN(30))
			at := fmt.Sprint(1 + slices.Index(low, slices.Min(low)))
			test = sample.Dry("inline-4", low, sample.Wet(map[string]float64{at: 154}), sample.Plug("oil-wet", at))
		}
		c := know.New(test)
		for _, s := range story.WithoutPlan(test).Stories {
			for _, e := range s.Ledger {
				need, ofTest := needs[rule.Kind(e.Kind)]
				if !ofTest || e.Weight <= 0 {
					continue
				}
				asked++
				if !c.Has(need) {
					t.Fatalf("%s speaks for %s as %s, which was not made", e.By, e.Cause, e.Kind)
				}
			}
		}
	}
	if asked < 500 {
		t.Errorf("asked %d times only", asked)
	}
}
