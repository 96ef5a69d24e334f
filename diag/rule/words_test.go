package rule_test

import (
	"strings"
	"testing"
	"unicode/utf8"

	"gaugesheet/diag"
	"gaugesheet/diag/story"
	"gaugesheet/templates"
)

// The most letters of what the owner reads of a finding, so that it fits the
// sheet: the sentence, and why.
const (
	mostSays    = 100
	mostBecause = 280
)

// TestWordsOfTheTestAndWhatIsTold: every notice and finding on the test itself,
// oil, earlier tests, repairs and what is told can be said to both readers, in
// sentences that fit.
func TestWordsOfTheTestAndWhatIsTold(t *testing.T) {
	words, err := templates.Words("en")
	if err != nil {
		t.Fatal(err)
	}
	tests := map[string]*diag.Test{}
	for _, list := range [][]sealingCase{oilCases(), earlierCases(), repairCases(), liquidCases(), toldCases()} {
		for _, tt := range list {
			tests[tt.name] = tt.test
		}
	}
	for _, tt := range noticeCases() {
		tests[tt.name] = tt.test
	}
	for name, test := range tests {
		d := story.WithoutPlan(test)
		for audience, a := range map[string]templates.Audience{"customer": templates.Customer, "workshop": templates.Workshop} {
			say := func(what, text string, err error, most int) {
				if err != nil {
					t.Errorf("%s, %s: %v", name, audience, err)
					return
				}
				if text == "" || strings.Contains(text, "<no value>") || strings.Contains(text, "  ") || strings.Contains(text, "%!") || strings.Contains(text, "()") {
					t.Errorf("%s, %s: %s is badly said: %q", name, audience, what, text)
				}
				if n := utf8.RuneCountInString(text); most > 0 && n > most && a == templates.Customer {
					t.Errorf("%s: %s takes %d letters, at most %d: %q", name, what, n, most, text)
				}
			}
			for _, n := range d.Notices {
				text, err := words.Notice(n, a)
				say(n.Rule, text, err, 0)
			}
			for _, s := range d.Stories {
				for _, f := range s.Members {
					said, err := words.Finding(f, a)
					say(f.Rule, said.Says, err, mostSays)
					say(f.Rule, said.Because, err, mostBecause)
				}
			}
			verdict, err := words.Verdict(d.Verdict, a)
			say("verdict", verdict, err, 0)
		}
	}
}
