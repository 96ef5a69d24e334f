package templates_test

import (
	"fmt"
	"strings"
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/cause"
	"gaugesheet/diag/known"
)

// Who makes a check notes what came of it in the words that the page has for it: its name
// or that of the check, a colon, and the outcome as it is printed. It is understood as that
// outcome, of every engine that the check fits and for both readers.
func TestOutcomesAreUnderstoodAsTheyArePrinted(t *testing.T) {
	c := words(t)
	failed := map[string]bool{}
	for engineName, test := range enginesTried() {
		one := known.New(test)
		asked := map[string]bool{} // most outcomes are said alike to both readers
		for i := range cause.Checks {
			k := &cause.Checks[i]
			names := one.Engine.Names()[:1]
			if k.Whole || k.OfSet {
				names = nil
			}
			for reader, a := range audiences {
				said, err := c.Check(*k.Ask(one, names, diag.ActSoon), a)
				if err != nil {
					t.Fatalf("%s, %s: %v", engineName, k.Name, err)
				}
				for _, o := range said.Outcomes {
					for _, called := range []string{strings.ReplaceAll(k.Name, "-", " ") + " done", said.Name} {
						text := called + ": " + o.If
						if same := k.Name + ", " + o.Name + ", " + text; asked[same] {
							continue
						} else {
							asked[same] = true
						}
						got := k.Answer(noted(one, text), names)
						found := ""
						if got != nil {
							found = got.Name
						}
						if problem := fmt.Sprintf("%q is understood as the outcome %q of %s, it is %q", text, found, k.Name, o.Name); found != o.Name && !failed[problem] {
							failed[problem] = true
							t.Errorf("%s, %s: %s", engineName, reader, problem)
						}
					}
				}
			}
		}
	}
}

// noted is a case of which the job says that this was done.
func noted(one *known.Case, text string) *known.Case {
	with := *one.Test
	with.History.WorkDone = []string{text}
	return one.Noting(&with)
}
