package templates

import (
	"fmt"
	"maps"
	"slices"

	"gopkg.in/yaml.v3"

	"gaugesheet/diag"
)

// SaidOutcome is one of the things that a check can show, and what it would
// mean: "Air at the oil filler", "piston rings or cylinder wall".
type SaidOutcome struct{ Name, If, Then string }

// Line is an outcome as one sentence.
func (o SaidOutcome) Line() string { return o.If + ": " + o.Then + "." }

// stepText is a check that has all its outcomes by name. Each text is one for
// both readers or one for each.
type stepText struct {
	Name, For, Do, Effort entry[text]
	Outcomes              map[string]outcomeText
}

type outcomeText struct{ If, Then entry[text] }

// UnmarshalYAML takes a mapping of name, for, do, outcomes and, where the
// minutes alone would mislead, effort.
func (s *stepText) UnmarshalYAML(node *yaml.Node) error {
	type plain stepText
	return decodeStrict(node, []string{"name", "for", "do", "outcomes"}, (*plain)(s), "effort")
}

// UnmarshalYAML takes a mapping of exactly if and then.
func (o *outcomeText) UnmarshalYAML(node *yaml.Node) error {
	type plain outcomeText
	return decodeStrict(node, []string{"if", "then"}, (*plain)(o))
}

// usualEffort is the label that says how long a check takes by its minutes.
const usualEffort = "step.effort"

// check says a check with those of its outcomes that this engine can show, in
// their order.
func (s *speaker) check(check diag.Check) *SaidCheck {
	t := lookedUp[stepText](s, "steps", check.Key)
	own := checkFacts(check)
	facts := s.with(own)
	say := func(e entry[text]) string { return s.put(check.Key, e.of(s.a), facts) }
	said := s.checkBriefly(check)
	said.Do = say(t.Do)
	if first, _ := own["handFirst"].(bool); first {
		said.Do = s.label("step.hand-first", nil) + " " + said.Do
	}
	if live, _ := own["live"].(bool); live {
		said.Do = s.label("step.live", nil) + " " + said.Do
	}
	if agreed, _ := own["consent"].(bool); agreed {
		said.Do = s.label("step.consent", nil) + " " + said.Do
	}
	for _, name := range check.Outcomes {
		o, ok := t.Outcomes[name]
		if !ok && s.err == nil {
			s.err = fmt.Errorf("steps: no words for the outcome %q of %q", name, check.Key)
		}
		said.Outcomes = append(said.Outcomes, SaidOutcome{Name: name, If: say(o.If), Then: say(o.Then)})
	}
	if n := len(said.Outcomes); n > 0 {
		said.IfSo, said.IfNot = said.Outcomes[0].Line(), said.Outcomes[n-1].Line()
	}
	return said
}

// checkBriefly says a check's name, what it is for and how long it takes.
func (s *speaker) checkBriefly(check diag.Check) *SaidCheck {
	t := lookedUp[stepText](s, "steps", check.Key)
	facts := s.with(checkFacts(check))
	say := func(e entry[text]) string { return s.put(check.Key, e.of(s.a), facts) }
	said := &SaidCheck{Name: say(t.Name), For: say(t.For), Effort: say(t.Effort)}
	if said.Effort == "" {
		said.Effort = s.put(usualEffort, lookedUp[text](s, "labels", usualEffort), facts)
	}
	return said
}

func checkFacts(check diag.Check) diag.Facts {
	facts := make(diag.Facts, len(check.Facts)+2)
	facts["Cylinders"], facts["minutes"] = diag.Names(check.Cylinders), check.Minutes
	maps.Copy(facts, check.Facts)
	if check.Shown {
		facts["Cylinders"] = slices.Repeat(diag.Names{shownOne}, len(check.Cylinders))
	}
	return facts
}

// OutcomesOf lists the outcomes that a check has words for, sorted; none where
// the catalogue has no such check.
func (c *Catalogue) OutcomesOf(check string) ([]string, error) {
	t, ok, err := lookup[stepText](c, "steps", check)
	if err != nil || !ok {
		return nil, err
	}
	return sorted(t.Outcomes), nil
}
