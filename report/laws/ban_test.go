package laws_test

import (
	"slices"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/cause"
	engineknown "gaugesheet/diag/known"
	"gaugesheet/diag/rule"
)

// bansCheck holds the next check of a story that stops the engine against what it stops it
// for: an outcome of the check speaks for the first cause, for one that comes near it or for
// a fault of the test, or it says why the first cause came about. Where liquid may lie in a
// cylinder, or the oil is in question, that itself is the reason, whatever it comes from. A
// look inside and a turn by hand come before an engine is given up of which all that speaks of
// the first cause was made; so does what a fault of the test cannot be told without the starter.
func bansCheck(s *subject, k *tally) {
	for _, one := range s.d.Stories {
		if one.Urgency != diag.DoNotRun || one.Next == nil || len(one.Causes) == 0 || len(one.Members) == 0 || one.About == diag.AboutTest {
			continue
		}
		if lead := rule.Named(one.Members[0].Rule); lead.Class == rule.TestItself {
			continue
		}
		if slices.Contains([]string{"borescope", "ports-look", "turn-by-hand"}, one.Next.Key) || cause.Named(one.Causes[0].Key).Test {
			continue
		}
		if first := one.Causes[0].Key; first == "fault-in-each" || !toldAtRest(s, first, one.Cylinders) { // which is whatever the others are; or nothing tells of it but the starter
			continue
		}
		k.saw()
		first, net := one.Causes[0].Key, map[string]int{}
		for _, e := range one.Ledger {
			net[e.Cause] += e.Weight
		}
		about := func(name string) bool { // the first too where what speaks against it weighs as much
			return name == first || 2*net[name] > net[first] || cause.Named(name).Test
		}
		check := cause.CheckNamed(one.Next.Key)
		speaks := slices.ContainsFunc(check.Outcomes, func(o cause.Outcome) bool { return slices.ContainsFunc(o.For, about) })
		if !speaks && !slices.ContainsFunc(check.Mends, about) && !slices.Contains(check.Why, first) {
			k.fail("a story on %v stops the engine for %s and suspects %s; %s tells nothing of it", one.Cylinders, one.Members[0].Rule, first, check.Name)
		}
	}
}

// toldAtRest reports a cause of which some check tells that fits this engine, as O3 asks of
// every check, and neither runs it nor uses its starter.
func toldAtRest(s *subject, name string, cylinders []string) bool {
	about, c := cause.SetOf(name), engineknown.New(s.job.Test())
	return slices.ContainsFunc(cause.Checks, func(k cause.Check) bool { return k.Concerns(&about) && k.Allowed(c, cylinders, diag.DoNotRun) })
}

// lookInside holds a headline that says so to its word: the next check is a look, unless
// one was made or the engine gives no way in.
func lookInside(s *subject, k *tally) {
	next := s.out.Verdict.NextCheck
	first, _, _ := strings.Cut(s.out.Verdict.Sentence, ";") // what is only as urgent has its own check
	if next == nil || !strings.Contains(first, "look inside before running") || s.tree.has("borescope") {
		return
	}
	k.saw()
	if !slices.Contains([]string{"borescope", "ports-look"}, next.Name) {
		k.fail("the headline is %q, and the next check %s", s.out.Verdict.Sentence, next.Name)
	}
}
