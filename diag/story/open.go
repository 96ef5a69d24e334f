package story

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/cause"
	"gaugesheet/diag/known"
)

// candidates are the checks that a story may ask for.
type candidates struct {
	open []*cause.Check // all that may be made
	best *cause.Check   // that settles most for each minute, nil for none
	// proof is the quickest that proves the first cause, or mends it, nil for none.
	proof *cause.Check
}

// openChecks are the checks that a story may ask for. Of one that stops the engine these
// are such as speak of what it is stopped for, where there is one: until that was looked
// at, an answer on anything else leaves the engine as it stood; and where the likeliest has
// a repair, that is next.
func (s *story) openChecks(c *known.Case, shares []share, at diag.Urgency) candidates {
	about := setOf(shares)
	if s.Urgency == diag.DoNotRun {
		if k := s.mayAsk(c, shares, s.reasons(shares), at); len(k.open) > 0 {
			return k
		}
		if s.book.stops == "" && cause.RepairOf(c, s.book.first()) != "" {
			return candidates{}
		}
		about = s.pressing(about)
	}
	return s.mayAsk(c, shares, about, at)
}

// reasons are what an engine is stopped for: the likeliest cause and those that come near
// it, a fault of the test that would have made up what stops it, and all that liquid may
// come from.
func (s *story) reasons(shares []share) cause.Set {
	pressing := s.pressing(setOf(shares))
	if s.book.stops != "" {
		return pressing
	}
	var set cause.Set
	for i := range shares {
		x := &shares[i]
		if 2*x.part > shares[0].part || pressing.Has(x.cause) && cause.Named(x.cause).Test {
			set.Add(x.cause)
		}
	}
	return set
}

// mayAsk looks at every check that concerns some of a story's causes, fits the engine, is
// allowed and was not made. Of a seller's engine none that opens anything is among them while
// another is left that tells of the first cause: that needs the owner's consent.
func (s *story) mayAsk(c *known.Case, shares []share, about cause.Set, at diag.Urgency) candidates {
	if c.History.ForSale {
		but := opening
		if first := cause.Named(s.book.first()); first != nil && first.Marks != "" && c.Spec.Interference != diag.No { // nor is it run for want of that
			but |= cause.Runs | cause.Starter
		}
		if k := s.askedBut(c, shares, about, at, but); k.proof != nil || k.best != nil && surest(c, k.best, s.book.first()) > 0 {
			return k
		}
	}
	return s.askedBut(c, shares, about, at, 0)
}

// opening are the ways of checks that take something off or apart.
const opening = cause.Opens | cause.Parts | cause.Covers

// askedBut looks at all of these but those of some ways.
func (s *story) askedBut(c *known.Case, shares []share, about cause.Set, at diag.Urgency, but cause.Way) candidates {
	k := candidates{open: make([]*cause.Check, 0, 16)}
	most, cheapest := 0.0, 0.0
	first := s.book.first()
	atMarks := s.marksFirst(c)
	cylinders := s.cylindersOf(c)
	for i := range cause.Checks {
		check := &cause.Checks[i]
		if !check.Concerns(&about) || check.Is(but) || atMarks && check.Is(cause.Runs|cause.Starter) {
			continue
		}
		names := cylinders
		if check.Whole {
			names = nil
		}
		if !check.Allowed(c, cylinders, at) || check.IsMade(c, names) {
			continue
		}
		k.open = append(k.open, check)
		labour := float64(check.LabourFor(c, names))
		if settled := settles(check.Open(c), shares); settled >= leastSettled {
			if gain := settled * ease(check, at) * s.worth(c, check) / (labour + setUp); gain > most {
				k.best, most = check, gain
			}
		}
		sure := surest(c, check, first)
		minutes := labour / max(sure, 0.1)
		if s.mendsFirst(check) {
			minutes -= mendFirst
		}
		if (sure > 0 || minutes < 0) && (k.proof == nil || minutes < cheapest) {
			k.proof, cheapest = check, minutes
		}
	}
	return k
}

// pressing are the causes that what stops the engine speaks for, as what tells only of
// what was found beside it waits; all of the story's where nothing does.
func (s *story) pressing(all cause.Set) cause.Set {
	var set cause.Set
	some := false
	for i := range s.book.entries {
		if e := &s.book.entries[i]; e.Weight > 0 && slices.Contains(s.book.urgent, e.By) {
			set.Add(e.Cause)
			some = true
		}
	}
	if !some {
		return all
	}
	return set
}

// marksFirst reports a story that suspects the camshaft's timing first in an engine whose
// valves can meet its pistons, while nobody has compared the marks: one more tooth bends
// them, so that nothing runs the engine before that was done by hand.
func (s *story) marksFirst(c *known.Case) bool {
	first := cause.Named(s.book.first())
	if first == nil || first.Marks == "" || c.Spec.Interference != diag.Yes {
		return false
	}
	marks := cause.CheckNamed(first.Marks)
	return marks.Allowed(c, s.Cylinders, diag.DoNotRun) && !marks.IsMade(c, nil)
}

// workFailed reports a story of cylinders of which the work that was done on them changed
// nothing for the better.
func (s *story) workFailed(c *known.Case) bool {
	failed := append(c.RepairedTo(known.Unchanged), c.RepairedTo(known.Worse)...)
	return slices.ContainsFunc(s.Cylinders, func(n string) bool { return slices.Contains(failed, n) })
}
