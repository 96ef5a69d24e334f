package rule

import "gaugesheet/diag"

// An Outcome is what came of trying a rule: Fired, NotSeen, "needs " and the
// reading that it lacks, or "yielded to " and the rule that says it better.
type Outcome string

// The outcomes that carry no more than themselves.
const (
	Fired   Outcome = "fired"
	NotSeen Outcome = "not seen"
)

// Tried is a rule and what came of it.
type Tried struct {
	Rule    string
	Outcome Outcome
}

// Explain tells of every rule, in the order in which they are tried, what came
// of it in this test.
func Explain(t *diag.Test) []Tried {
	_, tried := run(t)
	return tried
}
