package story

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/cause"
	"gaugesheet/diag/known"
	"gaugesheet/diag/rule"
)

// answers enters what checks showed of which the job has the outcome in words.
// A fault that was found is brought into the story of its cylinders; what was
// looked for in vain is ruled out as far as the check would have shown it.
func (b *ledger) answers(s *story) {
	if len(b.c.History.WorkDone)+len(b.c.History.Findings) == 0 {
		return
	}
	for _, k := range cause.Told(b.c) {
		o := k.Answer(b.c, s.cylindersOf(b.c))
		if o == nil || o.Mute {
			continue
		}
		said := "the check " + k.Name + ": " + o.Name
		found, others := proof, -rule.Known
		if o.Else {
			found, others = rule.Heard, -proof
		}
		// A fault that the story does not know yet is brought in where it knows
		// none that would have shown the same.
		bringIn := !o.Else && s.subjectOf(k) && !slices.ContainsFunc(o.For, b.weighs)
		for _, name := range o.For {
			if (bringIn && s.rests(name) || b.knows(name)) && b.firstSaid(said, name) {
				b.add(rule.Voice{Cause: name, Weight: found}, rule.OfCheck, said, nil)
			}
		}
		if o.Well && slices.ContainsFunc(o.For, b.weighs) {
			b.rulesOutBut(o, said)
		}
		for _, other := range k.Open(b.c) { // what it could not have shown here it has not ruled out
			for _, name := range other.For {
				if !b.knows(name) || slices.Contains(o.For, name) || !b.firstSaid(said, name) {
					continue
				}
				weight := int(float64(others) * other.Shows())
				leaks := b.heaviest(name, rule.OfCoolant) >= rule.DryUp || k.Coolant && b.c.LosesAt(s.Cylinders, known.AtNeighbour) && b.heaviest(name, rule.OfLeakage) >= rule.DryUp
				if o.Else && leaks { // to the coolant, or from one cylinder into the next, all the same
					b.add(rule.Voice{Cause: name, Weight: -rule.Hint, Says: "check-says-otherwise"}, rule.OfCheck, said, nil)
					continue
				}
				if o.Else && other.Shows() == 1 && b.heaviest(name, rule.OfSight) < rule.Sight { // it would have shown, so it is not there
					weight = min(weight, -b.net(name))
				}
				b.add(rule.Voice{Cause: name, Weight: weight, Says: "check-says-otherwise"}, rule.OfCheck, said, nil)
			}
		}
	}
}

// rulesOutBut enters that what a check did not put right was not there, where the
// engine read well once it had been made.
func (b *ledger) rulesOutBut(o *cause.Outcome, said string) {
	for i := range b.accounts {
		name := b.accounts[i].cause
		if !slices.Contains(o.For, name) && b.net(name) > 0 && b.firstSaid(said, name) {
			b.add(rule.Voice{Cause: name, Weight: -max(proof, b.net(name)), Says: "check-says-otherwise"}, rule.OfCheck, said, nil)
		}
	}
}

// weighs reports a cause for which more speaks than against.
func (b *ledger) weighs(name string) bool { return b.net(name) > 0 }

// An answer is what one check has said of one cause.
type answer struct{ said, cause string }

// firstSaid reports the first time that an answer speaks of a cause.
func (b *ledger) firstSaid(said, name string) bool {
	one := answer{said, name}
	if slices.Contains(b.heard, one) {
		return false
	}
	b.heard = append(b.heard, one)
	return true
}

// subjectOf reports a check that is made on what the story is about; a test
// that is made again bears on every cylinder.
func (s *story) subjectOf(k *cause.Check) bool {
	switch s.About {
	case diag.AboutCylinders:
		return !k.Whole || k.Again && !k.Fuel
	case diag.AboutFuel:
		return k.Fuel
	case diag.AboutSystem:
		return k.Whole || k.Again
	case diag.AboutEngine, diag.AboutMixture:
		return k.Whole && !k.Fuel
	}
	return false
}

// rests reports a cause that a check may bring into a story: a fault of the test into
// one of how the cylinders read, which is what it lowers.
func (s *story) rests(name string) bool {
	k := cause.Named(name)
	return k == nil || !k.Test || s.About == diag.AboutCylinders || s.About == diag.AboutEngine
}

// found are the causes that a check has shown, where the likeliest is one.
func (b *ledger) found() []string {
	if !b.shown(b.first()) {
		return nil
	}
	return slices.DeleteFunc(slices.Clone(b.sorted()), func(name string) bool { return !b.shown(name) })
}

// denied reports a cause of which a check has said that it is not there.
func (b *ledger) denied(name string) bool {
	return slices.ContainsFunc(b.entries, func(e diag.Entry) bool {
		return e.Cause == name && e.Kind == string(rule.OfCheck) && e.Weight < 0
	})
}

// shown reports a cause that a check has shown, or that was seen.
func (b *ledger) shown(name string) bool {
	return b.seen(name) || slices.ContainsFunc(b.entries, func(e diag.Entry) bool {
		return e.Cause == name && e.Kind == string(rule.OfCheck) && e.Weight >= proof
	})
}

// seen reports a fault that was itself seen in every cylinder of the story, and
// not only a mark that it may have left, where nothing that was measured takes
// from it.
func (b *ledger) seen(name string) bool {
	return b.net(name) >= rule.Heard && b.heaviest(name, rule.OfSight) >= rule.Heard && slices.ContainsFunc(b.entries, func(e diag.Entry) bool {
		return e.Cause == name && e.Kind == string(rule.OfSight) && e.Weight >= rule.Heard
	})
}
