package laws_test

import (
	"slices"
	"strings"
)

// forkLaws hold what a sheet says of each outcome of its next check: where it leads.
var forkLaws = []law{
	{name: "O3 a fork tells its outcomes apart", least: 1000, says: "no two outcomes of a check say the same", check: thensDiffer},
	{name: "O4 a test found at fault is not repeated", least: 150, says: "after a repeat that shows the first test at fault no further repeat of it is planned", check: repeatEnds},
	{name: "O4 what was mended is not mended again", least: 100, says: "the clearance that a check sets is not set again by the next", check: setOnce},
	{name: "O1 what is left was suspected", least: 10, says: "what an outcome is said to leave is among the causes of the story that the check is for", check: leftSuspected},
}

// leftSuspected reads what the outcomes of the plan say is likeliest then.
func leftSuspected(s *subject, k *tally) {
	for _, p := range s.out.Plan {
		for _, o := range p.Outcomes {
			if _, left, found := strings.Cut(o.Then, "; likeliest then: "); found {
				k.saw()
				suspected := func(said string) bool { return said == left || strings.HasPrefix(said, left+" (") } // of some cylinders, by number or by name
				if !slices.ContainsFunc(s.out.Stories[s.d.NextFor].Causes, suspected) {
					k.fail("%s leaves %q, and the story suspects %q", p.Check, left, s.out.Stories[s.d.NextFor].Causes)
				}
			}
		}
	}
}

// thensDiffer compares the outcomes of the next check of each sheet.
func thensDiffer(s *subject, k *tally) {
	next := s.out.Verdict.NextCheck
	if next == nil || len(next.Outcomes) < 2 {
		return
	}
	k.saw()
	said := map[string]string{}
	for _, o := range next.Outcomes {
		if before, twice := said[o.Then]; twice {
			k.fail("%s says %q of %q and of %q", next.Name, o.Then, before, o.If)
		}
		said[o.Then] = o.If
	}
}

// atFault are the outcomes of repeats that show the first test to have been at fault.
var atFault = []string{"readings come up", "the first falls again", "reads higher", "reads lower", "loses less", "another unit", "reads otherwise"}

func repeatEnds(s *subject, k *tally) {
	repeats := set("repeat-method charge-and-repeat repeat-with-charger second-gauge look-at-the-gauge second-fuel-gauge leak-down-again")
	for _, p := range s.d.Plan {
		if !repeats[p.Check.Key] {
			continue
		}
		for _, lead := range p.Leads {
			if !slices.Contains(atFault, lead.Outcome) {
				continue
			}
			k.saw()
			if lead.Next != nil && repeats[lead.Next.Key] {
				k.fail("%s: after %q comes %s", p.Check.Key, lead.Outcome, lead.Next.Key)
			}
		}
	}
}

func setOnce(s *subject, k *tally) {
	for _, p := range s.d.Plan {
		for _, lead := range p.Leads {
			if p.Check.Key != "valve-lash" || lead.Outcome != "tight" {
				continue
			}
			k.saw()
			if lead.Next != nil && slices.Contains([]string{"set-and-retest", "set-and-look-again"}, lead.Next.Key) {
				k.fail("%s on %v: after %q comes %s", p.Check.Key, p.Check.Cylinders, lead.Outcome, lead.Next.Key)
			}
		}
	}
}
