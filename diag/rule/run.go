package rule

import (
	"gaugesheet/diag/known"
)

// A Hit is a rule that holds, of what.
type Hit struct {
	Rule    *Rule
	Order   int // of the rule among All
	Subject known.Subject
}

// Run tries every rule in turn. Notices are added to the case, so that later
// rules see those of earlier ones; the findings come back as hits.
func Run(c *known.Case) []Hit { return RunInto(nil, c) }

// RunInto is Run that appends the hits to a list.
func RunInto(hits []Hit, c *known.Case) []Hit {
	rules := everyRule()
	for i := range rules {
		r := &rules[i]
		if c.Missing(r.Needs) != "" {
			continue
		}
		if r.Notices != nil {
			c.Sums.Notices = append(c.Sums.Notices, r.Notices(c)...)
			continue
		}
		if !r.When.MayHold(c) {
			continue
		}
		for _, s := range r.Of.Of(c) {
			if r.When.HoldsFor(c, s) {
				hits = append(hits, Hit{Rule: r, Order: i, Subject: s})
			}
		}
	}
	return withoutRest(c, hits)
}

// An Outcome is what came of trying a rule: Fired, or in words what it lacked.
type Outcome string

// Fired is the outcome of a rule that holds for something.
const Fired Outcome = "fired"

// A Tried is a rule and what came of it.
type Tried struct {
	Rule    string
	Outcome Outcome
}

// Explain tells of every rule, in the order in which they are tried, what came
// of it; of one that did not fire what the nearest subject lacked.
func Explain(c *known.Case) []Tried {
	rules := everyRule()
	tried := make([]Tried, len(rules))
	for i := range rules {
		tried[i] = Tried{rules[i].Name, rules[i].explain(c)}
	}
	implied := impliedBy(rules, tried)
	for i := range tried {
		if implied[tried[i].Rule] {
			tried[i].Outcome = Fired
		}
	}
	return tried
}
