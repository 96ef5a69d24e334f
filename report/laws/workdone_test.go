package laws_test

import (
	"maps"
	"slices"
	"strings"
)

// freeTextIsNotRead writes into free texts what would be found if they were
// read.
func freeTextIsNotRead(s *subject, k *tally) {
	bait := "Leak-down done, wet test done, valve lash done, borescope done: coolant standing in cylinder 1. No start, misfire, oil use, overheating; stood 3 years. Head gasket blown, P0301."
	base := s.tree.with("Seen on Tuesday.", "notes")
	base.set("Asked for", "job", "reason")
	base.set([]string{"Look again in spring"}, "recommended")
	loud := base.with(bait, "notes")
	loud.set(bait, "job", "reason")
	loud.set([]string{bait, "head gasket, rings, exhaust valve"}, "recommended")
	a, b := s.vary(base), s.vary(loud)
	if a == nil || b == nil {
		return
	}
	k.saw()
	if what := differ(a, b); what != "" {
		k.fail("with other notes, reason and recommendation: %s", what)
	}
	if s.tree.has("conditions", "method") {
		a, b := s.vary(s.tree.with("as usual here", "conditions", "method")), s.vary(s.tree.with(bait, "conditions", "method"))
		if a != nil && b != nil {
			if what := differ(a, b); what != "" {
				k.fail("with another method: %s", what)
			}
		}
	}
}

// doneIsNotProposed says of the first check proposed, by name, that it was done,
// in four ways.
func doneIsNotProposed(s *subject, k *tally) {
	proposed := slices.Sorted(maps.Keys(s.out.proposed()))
	if len(proposed) == 0 {
		return
	}
	name := proposed[0]
	spaced := strings.ReplaceAll(name, "-", " ")
	for _, entry := range []string{name + " done", spaced + " done", strings.ToUpper(spaced[:1]) + spaced[1:] + " done"} {
		t := s.tree.clone()
		t.add([]string{"vehicle", "work-done"}, entry)
		k.proposedThen(s, t, name, "work-done: "+entry)
	}
	t := s.tree.clone()
	t.add([]string{"findings"}, spaced+" done")
	k.proposedThen(s, t, name, "findings: "+spaced+" done")
}

func (k *tally) proposedThen(s *subject, t *tree, name, entry string) {
	other := s.vary(t)
	if other == nil {
		return
	}
	k.saw()
	if at, still := other.out.proposed()[name]; still {
		k.fail("%s still proposes %s after %q", at, name, entry)
	}
}

// notDone says of the next check that it could not be made.
func notDone(s *subject, k *tally) {
	name := checkName(s.out.Verdict.NextCheck)
	if name == "" {
		return
	}
	for _, how := range []string{" not available", " not done"} {
		t := s.tree.clone()
		t.add([]string{"vehicle", "work-done"}, strings.ReplaceAll(name, "-", " ")+how)
		other := s.vary(t)
		if other == nil {
			continue
		}
		k.saw()
		if got := checkName(other.out.Verdict.NextCheck); got != name {
			k.fail("the next check was %s and is %q after %q", name, got, name+how)
		}
	}
}

func coilElsewhere(s *subject, k *tally) {
	c := s.out.Verdict.NextCheck
	if checkName(c) != "swap-coil" || len(c.Cylinders) != 1 || len(s.names()) < 3 {
		return
	}
	k.saw()
	for _, name := range s.names() {
		t := s.tree.clone()
		t.add([]string{"vehicle", "work-done"}, "coil on "+name+" swapped")
		other := s.vary(t)
		if other == nil {
			continue
		}
		same := other.out.Verdict.NextCheck != nil && checkName(other.out.Verdict.NextCheck) == "swap-coil" && slices.Equal(other.out.Verdict.NextCheck.Cylinders, c.Cylinders)
		if here := name == c.Cylinders[0]; here == same {
			k.fail("the coil of %s is asked for; after 'coil on %s swapped' that is so: %v", c.Cylinders[0], name, same)
		}
	}
}
