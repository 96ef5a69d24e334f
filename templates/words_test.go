package templates_test

import (
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/cause"
	"gaugesheet/diag/rule"
	"gaugesheet/diag/rule/sample"
	"gaugesheet/diag/story"
	"gaugesheet/templates"
)

// sampled are the samples of rules with what is diagnosed of each, made once; one of three
// with -short.
var sampled = sync.OnceValue(func() []diagnosedSample {
	var list []diagnosedSample
	for i, s := range sample.Rows() {
		if testing.Short() && i%3 > 0 {
			continue
		}
		list = append(list, diagnosedSample{s.Name, story.Diagnose(s.Test)})
	}
	return list
})

type diagnosedSample struct {
	name string
	d    *diag.Diagnosis
}

func words(t *testing.T) *templates.Catalogue {
	t.Helper()
	c, err := templates.Words("en")
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// rulesWords are the keys of findings and notices that the rules may give.
func rulesWords() (findings, notices []string) {
	for _, r := range rule.All() {
		list := &findings
		if r.Notices != nil {
			list = &notices
		}
		*list = append(*list, r.Name)
		for _, v := range r.Variants {
			*list = append(*list, r.Name+"/"+v)
		}
	}
	return findings, notices
}

// The catalogue has words for every rule, cause and check, and for no other;
// of the rest those that stand as a text somewhere in the diagnosis.
func TestCatalogueAndRulesAgree(t *testing.T) {
	c := words(t)
	wanted := map[string][]string{}
	wanted["findings"], wanted["notices"] = rulesWords()
	for _, k := range cause.Causes {
		wanted["causes"] = append(wanted["causes"], k.Name)
	}
	for _, k := range cause.Checks {
		wanted["steps"] = append(wanted["steps"], k.Name)
	}
	for section, keys := range wanted {
		have := c.Keys(section)
		for _, k := range keys {
			if !slices.Contains(have, k) {
				t.Errorf("%s: no words for %q", section, k)
			}
		}
		for _, k := range have {
			if !slices.Contains(keys, k) {
				t.Errorf("%s: words for %q, which no rule uses", section, k)
			}
		}
	}
	texts := textsIn(t, "../diag")
	for _, section := range []string{"against", "doubts", "verdicts", "cautions"} {
		for _, k := range c.Keys(section) {
			if !texts[k] && !strings.HasPrefix(k, "not-judged-") {
				t.Errorf("%s: words for %q, which nothing says", section, k)
			}
		}
	}
	for _, r := range rule.All() {
		if r.Headline != "" && !c.Has("verdicts", r.Headline) {
			t.Errorf("%s leads to the verdict %q, which has no words", r.Name, r.Headline)
		}
		if r.Doubt != "" && !c.Has("doubts", r.Doubt) {
			t.Errorf("%s casts the doubt %q, which has no words", r.Name, r.Doubt)
		}
	}
}

func TestEveryCauseHasWords(t *testing.T) {
	c := words(t)
	for _, k := range cause.Causes {
		for reader, a := range audiences {
			said, err := c.Cause(diag.Phrase{Key: k.Name}, a)
			switch {
			case err != nil:
				t.Errorf("%s: %v", k.Name, err)
			case said == "" || strings.HasSuffix(said, ".") || strings.Contains(said, "{{") || strings.Contains(said, "no value"):
				t.Errorf("%s, %s: a cause is a noun phrase, found %q", k.Name, reader, said)
			case a == templates.Customer && len([]rune(said)) > 90:
				t.Errorf("%s: %d characters are too long to follow 'Most likely first:': %q", k.Name, len([]rune(said)), said)
			}
		}
		if k.Advice != "" && !c.Has("verdicts", k.Advice) {
			t.Errorf("%s leads to the advice %q, which has no words", k.Name, k.Advice)
		}
	}
}

// The line under a verdict says what it points to and how sure that is. What
// to do is said once, by the next check.
func TestAdviceAsksForNothingButTheNextCheck(t *testing.T) {
	c := words(t)
	asks := regexp.MustCompile(`(?i)\b(repeat|retest|test again|dry the|oil it|run it|borescope|leak-down|lash|charge|swap|renew|cranking speed|face peaks)\b`)
	for _, key := range c.Keys("verdicts") {
		if !strings.HasPrefix(key, "advice-") {
			continue
		}
		for _, sure := range []string{"", "weak", "fair", "strong"} {
			for _, check := range []bool{false, true} {
				facts := diag.Facts{"sure": sure, "check": check, "more": 2, "rotary": false}
				for _, a := range audiences {
					said, err := c.Verdict(diag.Phrase{Key: key, Facts: facts}, a)
					if err != nil {
						t.Fatal(err)
					}
					if found := asks.FindString(said); found != "" {
						t.Errorf("%s asks for %q: %q", key, found, said)
					}
					if !check && strings.Contains(strings.ToLower(said), "next check") && key != "advice-next-check" {
						t.Errorf("%s speaks of a next check where there is none: %q", key, said)
					}
					if strings.Contains(said, "..") || strings.Contains(said, "  ") || strings.Contains(said, " ;") {
						t.Errorf("badly said: %q", said)
					}
				}
			}
		}
	}
}

// verdictFacts are the facts that a diagnosis gives to whatever verdict it
// comes to.
func verdictFacts(names diag.Names, of int) diag.Facts {
	return diag.Facts{"rotary": false, "Cylinders": names, "of": of, "read": of, "compared": of, "circuit": "", "bank": "", "numbered": len(names) == 1 && of > 2, "complaint": "misfire", "complaints": diag.Names{"misfire"}, "raw": of == 2, "looks": "sooty", "own": of == 1, "reading": "exhaust-gas gas hc"}
}

func TestEveryVerdictCanBeSaid(t *testing.T) {
	c := words(t)
	for _, key := range c.Keys("verdicts") {
		if strings.HasPrefix(key, "advice-") {
			continue
		}
		for _, facts := range []diag.Facts{verdictFacts(diag.Names{"1"}, 1), verdictFacts(diag.Names{"3"}, 4), verdictFacts(diag.Names{"2", "3"}, 4), verdictFacts(nil, 6)} {
			for reader, a := range audiences {
				said, err := c.Verdict(diag.Phrase{Key: key, Facts: facts}, a)
				named := facts["Cylinders"].(diag.Names) != nil // a verdict on cylinders always names them
				if err != nil || said == "" || strings.HasSuffix(said, ".") || named && strings.Contains(said, "  ") || strings.Contains(said, "no value") {
					t.Errorf("%s, %s: %q, %v", key, reader, said, err)
				}
				if len([]rune(said)) > 125 {
					t.Errorf("%s, %s: %d characters are no headline: %q", key, reader, len([]rune(said)), said)
				}
			}
		}
	}
}

func TestEveryCautionCanBeSaid(t *testing.T) {
	c := words(t)
	for _, key := range c.Keys("cautions") {
		for reader, a := range audiences {
			if said, err := c.Caution(key, a); err != nil || !strings.HasSuffix(said, ".") || len([]rune(said)) > 160 {
				t.Errorf("%s, %s: a caution is a sentence or two, found %d characters: %q, %v", key, reader, len([]rune(said)), said, err)
			}
		}
	}
}

func TestVerdictsWithFactsThatMayBeMissing(t *testing.T) {
	c := words(t)
	facts := diag.Facts{"complaints": diag.Names{"oil use", "noise"}, "complaint": ""}
	said, err := c.Verdict(diag.Phrase{Key: "not-explained", Facts: facts}, templates.Customer)
	if want := "The tests made do not explain the oil use, nor the noise"; err != nil || said != want {
		t.Errorf("got %q, %v, want %q", said, err, want)
	}
	said, err = c.Verdict(diag.Phrase{Key: "test-first", Facts: diag.Facts{"of": 4}}, templates.Customer)
	if want := "The test itself comes first, before the engine is judged"; err != nil || said != want {
		t.Errorf("got %q, %v, want %q", said, err, want)
	}
}

var audiences = map[string]templates.Audience{"customer": templates.Customer, "workshop": templates.Workshop}

// said gives everything that the sheet for an audience says of a diagnosis.
func said(t *testing.T, c *templates.Catalogue, d *diag.Diagnosis, a templates.Audience) []string {
	t.Helper()
	var all []string
	for _, f := range d.Findings {
		s, err := c.Finding(f, a)
		if err != nil {
			t.Errorf("%s: %v", f.Rule, err)
		}
		all = append(append(append(append(all, s.Says, s.Because), s.Causes...), s.Against...), s.Doubts...)
		if s.Next != nil {
			all = append(all, s.Next.Do, s.Next.IfSo, s.Next.IfNot, s.Next.Effort)
		}
	}
	for _, n := range d.Notices {
		s, err := c.Notice(n, a)
		if err != nil {
			t.Errorf("%s: %v", n.Rule, err)
		}
		all = append(all, s)
	}
	for _, p := range []diag.Phrase{d.Verdict, d.Advice} {
		if p.Key == "" {
			continue
		}
		s, err := c.Verdict(p, a)
		if err != nil {
			t.Error(err)
		}
		all = append(all, s)
	}
	return all
}

func TestEverySampleCanBeSaid(t *testing.T) {
	c := words(t)
	for _, s := range sampled() {
		for name, a := range audiences {
			t.Run(s.name+"/"+name, func(t *testing.T) {
				for _, text := range said(t, c, s.d, a) {
					if strings.Contains(text, "<no value>") || strings.Contains(text, "NaN") || strings.Contains(text, "  ") || strings.Contains(text, "%!") {
						t.Errorf("badly said: %q", text)
					}
				}
			})
		}
	}
}

func TestRandomTestsCanBeSaid(t *testing.T) {
	c := words(t)
	r := rand.New(rand.NewPCG(1, 2))
	count := 300
	if testing.Short() {
		count = 60
	}
	for range count {
		d := story.Diagnose(sample.Random(r))
		for _, a := range audiences {
			for _, text := range said(t, c, d, a) {
				if strings.Contains(text, "<no value>") || strings.Contains(text, "NaN") || strings.Contains(text, "  ") || strings.Contains(text, "%!") {
					t.Errorf("badly said: %q", text)
				}
			}
		}
	}
}

// never are words that promise or condemn more than readings can.
var never = []string{"guarantee", "perfect", "mint", "safe to buy", "is blown", "pass/fail", " a pass", "passed the test", "failed the test", "sealed for life"}

// frightening are words that a lay reader is better spared.
var frightening = []string{"disaster", "destroyed", "catastroph", "dangerous", "ruined"}

func TestCustomerWording(t *testing.T) {
	c := words(t)
	var names []string
	for _, r := range rule.All() {
		if strings.Contains(r.Name, "-") {
			names = append(names, r.Name)
		}
	}
	for _, s := range sampled() {
		for _, text := range said(t, c, s.d, templates.Customer) {
			for _, n := range names {
				if strings.Contains(text, n) {
					t.Errorf("%s: names the rule %s: %q", s.name, n, text)
				}
			}
			for _, w := range append(never, frightening...) {
				if strings.Contains(strings.ToLower(text), w) {
					t.Errorf("%s: says %q: %q", s.name, w, text)
				}
			}
		}
		for _, f := range s.d.Findings {
			said, err := c.Finding(f, templates.Customer)
			if err != nil {
				continue // said by TestEverySampleCanBeSaid
			}
			if n := len([]rune(said.Says)); n > 100 || strings.HasSuffix(said.Says, ".") {
				t.Errorf("%s: one short sentence without a final dot, found %d characters: %q", f.Rule, n, said.Says)
			}
			if n := len([]rune(said.Because)); n > 250 {
				t.Errorf("%s: %d characters: %q", f.Rule, n, said.Because)
			}
		}
	}
}

func TestMissingFactIsAnError(t *testing.T) {
	c := words(t)
	if _, err := c.Finding(diag.Finding{Rule: "one-low", Cylinders: []string{"3"}}, templates.Customer); err == nil {
		t.Error("words were said without their facts")
	}
	if _, err := c.Finding(diag.Finding{Rule: "no-such-rule"}, templates.Customer); err == nil {
		t.Error("a finding without words was said")
	}
}
