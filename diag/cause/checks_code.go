package cause

import (
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// codeCauses and codeChecks are of a stored code that nothing which was read explains: what it
// names is found by the maker's plan for it, and whether that is worth while by its coming back.
var codeCauses = []Cause{{Name: "coded-part", Vague: true, Fits: func(c *known.Case) bool { return len(CodesOpen(c)) > 0 }}}

var codeChecks = []Check{
	{Name: "code-again", Titles: []string{"the stored code again", "stored code cleared and driven"}, Minutes: 40, Labour: 20, Whole: true, Way: Runs, Fits: func(c *known.Case, _ []string) bool { return len(CodesOpen(c)) > 0 && !c.Flies() },
		Words: []string{"code cleared", "codes cleared", "code noted and cleared"},
		Outcomes: []Outcome{
			{Name: "it comes back", For: []string{"coded-part"}, Words: []string{"comes back", "came back", "back again", "set again"}, After: []string{"it is stored again"}},
			{Name: "it stays away", Else: true, Words: []string{"stays away", "stayed away", "not come back", "did not come back"}, After: []string{"none is stored"}}}},
}

// CodesOpen are the stored codes that are a complaint by themselves, of misfiring apart.
func CodesOpen(c *known.Case) []string {
	var list []string
	for _, x := range c.Complaints() {
		if code, stored := strings.CutPrefix(x, diag.CodeComplaint); stored {
			list = append(list, code)
		}
	}
	return list
}
