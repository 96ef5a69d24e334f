package rule

import (
	"strings"

	"gaugesheet/diag/known"
)

// impliedBy lists the rules that fired and imply others by name.
func impliedBy(rules []Rule, tried []Tried) map[string]bool {
	implied := map[string]bool{}
	for i := range rules {
		if tried[i].Outcome == Fired {
			for _, name := range rules[i].Implies {
				implied[name] = true
			}
		}
	}
	return implied
}

// explain is what came of one rule in a case whose notices are all given.
func (r *Rule) explain(c *known.Case) Outcome {
	if missing := c.Missing(r.Needs); missing != "" {
		return Outcome("needs " + string(missing))
	}
	if r.Notices != nil {
		if c.Noticed(r.Name) {
			return Fired
		}
		return Outcome("not seen: " + r.Asks)
	}
	nearest, most := []string(nil), -1
	var who known.Subject
	for _, s := range r.Of.Of(c) {
		lacks, held := r.When.Lacks(c, s)
		if len(lacks) == 0 {
			return Fired
		}
		if held > most {
			nearest, most, who = lacks, held, s
		}
	}
	switch {
	case nearest == nil && r.Of.Words != "":
		return Outcome("there is no such thing here: " + r.Of.Words)
	case nearest == nil:
		return "not seen"
	case len(who.Cylinders) == 1 && r.Of.Each:
		return Outcome("cylinder " + who.Name() + " came closest; lacks: " + strings.Join(nearest, ", "))
	}
	return Outcome("lacks: " + strings.Join(nearest, ", "))
}
