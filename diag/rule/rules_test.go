package rule

import (
	"slices"
	"testing"

	"gaugesheet/diag/rule/sample"
)

func TestRulesAreComplete(t *testing.T) {
	seen := map[string]bool{}
	for _, r := range All() {
		if seen[r.Name] {
			t.Errorf("%s stands twice", r.Name)
		}
		seen[r.Name] = true
		if r.Title == "" || r.Trigger == "" || len(r.Why) < 80 || r.Source == "" {
			t.Errorf("%s: title, trigger, a paragraph of why, or source missing", r.Name)
		}
		if (r.Findings == nil) == (r.Notices == nil) {
			t.Errorf("%s: one of findings and notices must be set", r.Name)
		}
		if (r.Doubt == "") != (len(r.Doubts) == 0) {
			t.Errorf("%s: a doubt needs the readings that it is cast on", r.Name)
		}
	}
	for _, r := range All() {
		for _, better := range r.YieldsTo {
			if !seen[better] {
				t.Errorf("%s yields to %s, which is no rule", r.Name, better)
			}
			if byName(better) != nil && slices.Contains(byName(better).YieldsTo, r.Name) {
				t.Errorf("%s and %s yield to each other: both would vanish", r.Name, better)
			}
		}
	}
}

// TestEveryRuleIsSampled asks of the families sampled here that each rule and
// each of its variants comes up in a sample.
func TestEveryRuleIsSampled(t *testing.T) {
	said := map[string]bool{}
	for _, c := range sample.Cases() {
		d := Diagnose(c.Test)
		for _, f := range d.Findings {
			said[f.Rule+"/"+f.Variant] = true
		}
		for _, n := range d.Notices {
			said[n.Rule+"/"+n.Variant] = true
		}
	}
	for _, family := range [][]Rule{testRules, compressionRules, wetRules, rotorRules, earlierRules} {
		for _, r := range family {
			for _, v := range append([]string{""}, r.Variants...) {
				if !said[r.Name+"/"+v] {
					t.Errorf("no sample says %s, variant %q", r.Name, v)
				}
			}
		}
	}
}

// TestKeysAreInTheVocabulary compares what the samples say with what
// Vocabulary promises the catalogue of words.
func TestKeysAreInTheVocabulary(t *testing.T) {
	vocabulary := Vocabulary()
	for _, c := range sample.Cases() {
		d := Diagnose(c.Test)
		for _, f := range d.Findings {
			r := byName(f.Rule)
			if r == nil || f.Variant != "" && !slices.Contains(r.Variants, f.Variant) {
				t.Errorf("%s: variant %q of %s is not declared", c.Name, f.Variant, f.Rule)
			}
			for section, phrases := range map[string][]string{"causes": keys(f.Causes), "against": keys(f.Against), "doubts": keys(f.Doubts)} {
				for _, k := range phrases {
					if !slices.Contains(vocabulary[section], k) {
						t.Errorf("%s: %s of %s: %q is not in the vocabulary", c.Name, section, f.Rule, k)
					}
				}
			}
			if f.Next != nil && !slices.Contains(vocabulary["checks"], f.Next.Key) {
				t.Errorf("%s: the check %q of %s is not in the vocabulary", c.Name, f.Next.Key, f.Rule)
			}
		}
	}
}

func TestExplain(t *testing.T) {
	tried := Explain(sample.Dry("inline-4", []float64{160, 161, 160, 130}, sample.SpreadOfHighest(25)))
	want := map[string]Outcome{
		"one-out-of-tight-pack": Fired,
		"one-low":               "yielded to one-out-of-tight-pack",
		"wet-rise":              "needs wet test",
		"neighbours-low":        NotSeen,
	}
	got := map[string]Outcome{}
	for _, x := range tried {
		got[x.Rule] = x.Outcome
	}
	for rule, outcome := range want {
		if got[rule] != outcome {
			t.Errorf("%s: %q, want %q", rule, got[rule], outcome)
		}
	}
	if len(tried) != len(All()) {
		t.Errorf("%d rules tried of %d", len(tried), len(All()))
	}
}

func BenchmarkDiagnose(b *testing.B) {
	test := sample.Dry("V8", []float64{70, 120, 70, 120, 118, 121, 119, 120}, sample.Minimum(100),
		sample.Wet(map[string]float64{"1": 75, "2": 124}), sample.First(30, 60, 31, 62, 60, 61, 59, 60))
	for b.Loop() {
		Diagnose(test)
	}
}
