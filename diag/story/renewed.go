package story

import (
	"slices"

	"gaugesheet/diag/cause"
	"gaugesheet/diag/known"
	"gaugesheet/diag/rule"
)

// renewed enters what the work done speaks against: a part that is new has not
// worn out, and where the readings are what they were before it, it was not what
// was wrong. A joint seals only as well as it was made: that it was renewed says
// little, and nothing where coolant goes or cylinders side by side are low, of
// which it is the commonest cause, the more after work on it.
func (b *ledger) renewed(s *story) {
	cylinders := s.ofCylinders()
	same := b.unchanged(cylinders)
	for _, p := range cause.Renewed(b.c, cylinders) {
		weight := -rule.Known
		if p.Joint && len(cylinders) > 0 && !slices.ContainsFunc(cylinders, func(n string) bool { return !b.c.Uncured(n) }) {
			b.facesOf(p)
		}
		switch {
		case p.Joint && (b.c.LosesCoolant() || len(cylinders) > 1):
			continue
		case p.Joint:
			weight = -rule.Hint
		case same:
			weight = -rule.Heard
		}
		for _, name := range p.Among {
			if b.knows(name) && !b.pointedOut(name) && b.firstSaid("renewed, of several: "+p.Words[0], name) {
				b.add(rule.Voice{Cause: name, Weight: -rule.Hint, Says: "part-renewed"}, rule.OfHistory, "the work done: "+p.Words[0]+" renewed", nil)
			}
		}
		for _, name := range p.Causes {
			if b.knows(name) && b.firstSaid("renewed", name) {
				if !same && b.foundOnIt(name) { // a new part can be bad, or badly set
					b.add(rule.Voice{Cause: name, Weight: -rule.Hint, Says: "part-renewed"}, rule.OfHistory, "the work done: "+p.Words[0]+" renewed", nil)
					continue
				}
				if !p.Joint && !b.pointedOut(name) { // however many readings could come of it
					weight = min(weight, -b.net(name))
				}
				b.add(rule.Voice{Cause: name, Weight: weight, Says: "part-renewed"}, rule.OfHistory, "the work done: "+p.Words[0]+" renewed", nil)
			}
		}
	}
}

// pointedOut reports a cause for which something was seen, heard or measured there, and not
// only what is common.
func (b *ledger) pointedOut(name string) bool {
	return slices.ContainsFunc(b.account(name).kinds, func(h heaviest) bool { return h.weight >= rule.Known })
}

// foundOnIt reports a cause that was seen or measured on the part itself today, which that
// it is new does not undo.
func (b *ledger) foundOnIt(name string) bool {
	on := []rule.Kind{rule.OfSight, rule.OfInjectors, rule.OfTiming, rule.OfDiesel}
	return slices.ContainsFunc(b.account(name).kinds, func(h heaviest) bool { return h.weight >= rule.Heard && slices.Contains(on, h.kind) })
}

// facesOf speaks for what a new joint seals against, where it has not cured what it was
// put in for.
func (b *ledger) facesOf(p *cause.Part) {
	for _, name := range p.Faces {
		if slices.ContainsFunc(p.Causes, b.weighs) && b.firstSaid("faces", name) {
			b.add(rule.Voice{Cause: name, Weight: rule.Known}, rule.OfHistory, "the work done: "+p.Words[0]+" renewed, and not cured", nil)
		}
	}
}

// unchanged reports cylinders that read after the work what they read before.
func (b *ledger) unchanged(cylinders []string) bool {
	of := b.c.Repaired()
	return len(cylinders) > 0 && !slices.ContainsFunc(cylinders, func(n string) bool { return of[n] != known.Unchanged })
}
