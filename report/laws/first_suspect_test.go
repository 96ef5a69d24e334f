package laws_test

import (
	"maps"
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/rule"
)

// firstSuspect holds a story against its ledger, which is not part of the output:
// where a finding stops the engine and speaks for causes, one of them is
// suspected first, or one that was seen, or that a check has shown.
func firstSuspect(s *subject, k *tally) {
	for _, one := range s.d.Stories {
		speaks, net := map[string]bool{}, map[string]int{}
		for _, e := range one.Ledger {
			net[e.Cause] += e.Weight
			presses := slices.ContainsFunc(one.Members, func(f diag.Finding) bool { return f.Rule == e.By && f.Urgency == one.Urgency })
			if e.Weight > 0 && presses {
				speaks[e.Cause] = true
			}
		}
		maps.DeleteFunc(speaks, func(cause string, _ bool) bool { return net[cause] <= 0 }) // denied by something else
		if len(one.Causes) == 0 || len(speaks) == 0 || one.Urgency == diag.NoAction {
			continue
		}
		k.saw()
		first := one.Causes[0].Key
		beside := func(e diag.Entry) bool { // by a finding that presses less, and not seen
			f := slices.IndexFunc(one.Members, func(f diag.Finding) bool { return f.Rule == e.By })
			return f >= 0 && e.Kind != string(rule.OfSight) && (one.Urgency == diag.DoNotRun || one.Members[f].Urgency == diag.NoAction)
		}
		other := func(e diag.Entry) bool { return e.Cause == first && e.Weight > 0 && !beside(e) }
		if !speaks[first] && !slices.ContainsFunc(one.Ledger, other) {
			k.fail("a story on %v is %q for %s and suspects first %s, for which only findings beside it speak", one.Cylinders, one.Urgency, one.Members[0].Rule, first)
		}
	}
}
