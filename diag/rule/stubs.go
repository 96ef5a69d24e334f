package rule

import "gaugesheet/diag"

// Stands in until the families of leakage, plugs, fuel and combinations, and
// the choice of the next check, are written; then this file goes.
var (
	leakageRules  []Rule
	plugRules     []Rule
	fuelRules     []Rule
	togetherRules []Rule

	leakageVocabulary  map[string][]string
	plugVocabulary     map[string][]string
	fuelVocabulary     map[string][]string
	togetherVocabulary map[string][]string
	closingVocabulary  map[string][]string // checks, verdicts, cautions
)

// chooseNext sets d.Next and d.NextFor from the findings in order.
func chooseNext(c *Case, d *diag.Diagnosis) {}

// conclude sets d.Verdict, d.Advice and d.Urgency.
func conclude(c *Case, d *diag.Diagnosis) {}

// cautions sets d.Cautions.
func cautions(c *Case, d *diag.Diagnosis) {}

// minutesFor gives roughly how long a check takes.
func minutesFor(check string) int { return 0 }

// done reports whether the job says that a check was made already.
func (c *Case) done(check string) bool { return false }
