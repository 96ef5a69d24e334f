package story

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/cause"
	"gaugesheet/diag/known"
	"gaugesheet/diag/rule"
)

const (
	// leastSettled is how likely a check must be to tell two of a story's causes
	// apart before it is worth proposing.
	leastSettled = 0.10
	// setUp is what every check costs beside its own minutes.
	setUp = 5
	// weighed is how many causes of a story count when checks are compared.
	weighed = 7
)

// chooseCheck picks the check that settles most for the least: among those that
// fit the engine, are allowed at this urgency and were not made, the one that
// tells most of the weight of the causes apart for each minute, harmless before
// invasive. Where none tells them apart, one that would prove the first cause.
func (s *story) chooseCheck(c *known.Case, at diag.Urgency) {
	s.Next = nil
	if s.About == diag.AboutTest {
		s.Next = s.repeatCheck(c, at)
		return
	}
	shares := s.book.shares()
	if s.Urgency == diag.NoAction || enough(c, shares) {
		return
	}
	if len(shares) == 0 {
		s.Next = s.askRefused(c, at)
		return
	}
	if s.putRight(c) || s.mendsFound(c, at) {
		return
	}
	best := s.askSeep(c, at)
	if found := s.book.found(); best == nil && (len(found) < 2 || !cause.OneWork(found)) { // what opens one shows the others
		best = s.openChecks(c, shares, at).pick(s, c, shares, at)
		if best == nil {
			best = s.askWhy(c, at)
		}
	}
	if best == nil {
		best = s.askPlace(c, at)
	}
	if best != nil && best.YieldsTo != nil {
		if before := s.firstOf(c, []string{best.YieldsTo(c)}, at); before != nil && !(c.History.ForSale && before.Is(opening)) && surest(c, before, s.book.first()) > 0 {
			best = before
		}
	}
	if best != nil {
		s.Next = best.Ask(c, s.cylindersFor(best), at)
		first := s.book.first()
		s.Next.Facts["beside"], s.Next.Facts["opened"] = diag.Names(s.Cylinders), s.book.seen(first) && cause.Opened(c, first)
	}
}

// mendsFound has what the technician found be put right next, with what brought it about, where
// that is what a story suspects first: nobody looks for what was found. Of an engine that must not
// run that is the work, and no check.
func (s *story) mendsFound(c *known.Case, at diag.Urgency) bool {
	first, k := s.book.first(), cause.CheckNamed("mend-found")
	if s.About == diag.AboutCylinders || !rule.FoundAs(c, first) || k.IsMade(c, nil) {
		return false
	}
	if s.Urgency == diag.DoNotRun {
		return cause.RepairOf(c, first) != ""
	}
	if !k.Allowed(c, nil, at) {
		return false
	}
	s.Next = k.Ask(c, nil, at)
	return true
}

// askWhy is a check on what brought about what was seen, so that new parts do not go
// the same way; nil for none, and where work has failed to cure it: then it comes apart, and
// the reason is looked for with it.
func (s *story) askWhy(c *known.Case, at diag.Urgency) *cause.Check {
	first := s.book.first()
	if first == "" || !s.book.seen(first) || s.workFailed(c) {
		return nil
	}
	if foundWhy(c, first) {
		return nil
	}
	for i := range cause.Checks {
		k := &cause.Checks[i]
		if slices.Contains(k.Why, first) && k.Allowed(c, s.cylindersOf(c), at) && !k.IsMade(c, s.cylindersFor(k)) {
			return k
		}
	}
	return nil
}

// foundWhy reports a cause of which the technician found what brought it about: it is put right with
// it, and not looked for.
func foundWhy(c *known.Case, first string) bool {
	return slices.ContainsFunc(cause.Checks, func(k cause.Check) bool {
		return slices.Contains(k.Why, first) && slices.ContainsFunc(k.Mends, func(name string) bool { return rule.FoundAs(c, name) })
	})
}

// pick is the one of these that is asked for, nil for none: what mends the first
// cause where that is as good as known, what settles most, what proves the first
// cause; and where there is none of these, a look before an engine that must not
// be run is given up, or the shortest that concerns another cause.
func (k candidates) pick(s *story, c *known.Case, shares []share, at diag.Urgency) *cause.Check {
	looked, alone := len(s.book.found()) > 0, s.leftOver(shares)
	best, mends, stops := k.best, k.proof != nil && s.mendsFirst(k.proof), s.stopsFor(c, at)
	switch {
	case !mends && s.measured() && cause.RepairOf(c, s.book.first()) != "":
		return k.opens(s.book.first())
	case !mends && s.oilFirst(c, at): // dry bores read low until it was changed, whatever is looked at before
		return k.mending(c, "oil")
	case !mends && (s.proven(c, shares) || s.oneWork(shares)) && cause.RepairOf(c, s.book.first()) != "": // the work is next
		return nil
	case stops != nil:
		return stops
	case mends && (best == nil || s.asGoodAsProven(shares) || s.measuredOff()):
		best = k.proof
	case !alone && s.stoppedBySight() && best != nil && surest(c, best, s.book.first()) == 0 && k.opens(s.book.first()) != nil: // it is stopped for that, and not for a lesser thing
		best = k.opens(s.book.first())
	case !alone && s.passesOver(c, best, k.proof, shares): // the clear first suspect is looked at before a lesser one
		best = k.proof
	case alone: // checks have ruled out the others
		best = nil
	case best == nil && !looked: // what was found is not looked for again
		best = k.proof
	case best == nil && k.proof != nil && s.opensUnsure(c) && !k.proof.Is(cause.Opens):
		best = k.proof
	}
	if best == nil && !alone && s.Urgency == diag.DoNotRun && s.lead().rule.Kind != rule.OfSight && (!looked || answered(c) == 0) && !s.comesApart(c) {
		best = s.firstOf(c, looks, at)
	}
	if best == nil && !alone && !looked && len(shares) > 1 && !s.comesApart(c) {
		best = shortestOf(c, k.open, shares[1:])
	}
	return best
}

// opensUnsure reports a cause that was seen, for which the engine would be opened, with no
// reading that bears it out: a mark may be older than the trouble.
func (s *story) opensUnsure(c *known.Case) bool {
	first := s.book.first()
	return cause.Opened(c, first) && s.Urgency != diag.DoNotRun && s.Confidence != diag.Strong && s.book.seen(first)
}

// comesApart reports a story of which some cause was seen for which the engine is opened,
// whatever leads it: then nothing that is looked at before changes what is done. Where liquid
// may lie in a cylinder it is let out first, by hand.
func (s *story) comesApart(c *known.Case) bool {
	return !c.LiquidLies(s.Cylinders) && slices.ContainsFunc(s.book.accounts, func(a account) bool {
		return cause.Opened(c, a.cause) && s.book.heaviest(a.cause, rule.OfSight) >= rule.Heard
	})
}

// oilFirst reports a story of bores that fuel has washed, in an engine that is stopped: fresh
// oil comes before any other look at them.
func (s *story) oilFirst(c *known.Case, at diag.Urgency) bool {
	return at == diag.DoNotRun && cause.RepairOf(c, s.book.first()) == "oil"
}

// mending is the shortest check that puts right a cause for which a repair is made, nil for
// none.
func (k candidates) mending(c *known.Case, repair string) *cause.Check {
	var best *cause.Check
	for _, check := range k.open {
		if slices.ContainsFunc(check.Mends, func(name string) bool { return cause.RepairOf(c, name) == repair }) && (best == nil || check.Minutes < best.Minutes) {
			best = check
		}
	}
	return best
}

// opens is the shortest check that takes apart what shows a cause, nil for none: then that
// is the work.
func (k candidates) opens(first string) *cause.Check {
	var best *cause.Check
	about := cause.SetOf(first)
	for _, check := range k.open {
		if check.Is(cause.Opens) && check.Proves(&about) && (best == nil || check.Minutes < best.Minutes) {
			best = check
		}
	}
	return best
}

// mendsFirst reports a check that puts the first cause right, or another for which the
// same is done first.
func (s *story) mendsFirst(k *cause.Check) bool {
	first := s.book.first()
	return slices.ContainsFunc(k.Mends, func(name string) bool { return name == first || cause.SetFirst(name, first) && s.book.weighs(name) })
}

// shortestOf is the shortest of some checks that concerns the likeliest cause
// for which there is one, nil for none.
func shortestOf(c *known.Case, open []*cause.Check, shares []share) *cause.Check {
	var best *cause.Check
	for i := range shares {
		name := shares[i].cause
		for _, k := range open {
			if (best == nil || k.Minutes < best.Minutes) && (surest(c, k, name) > 0 || slices.Contains(k.Mends, name)) {
				best = k
			}
		}
		if best != nil {
			break
		}
	}
	return best
}

// looks are what is done first with an engine that must not be run, where no
// check tells its causes apart: look in, and turn it by hand.
var looks = []string{"borescope", "ports-look", "turn-by-hand"}

// setOf are the causes of some shares.
func setOf(shares []share) (set cause.Set) {
	for i := range shares {
		set.Add(shares[i].cause)
	}
	return set
}

// mendFirst puts a check that mends the first cause before any that only
// proves it.
const mendFirst = 10000

// asGoodAsProven reports a story of which one cause has most of the weight, by
// more than a weak sign: then it is mended, and not asked again.
func (s *story) asGoodAsProven(shares []share) bool {
	return shares[0].part >= 0.6 && s.Confidence != diag.Weak
}

// measuredOff reports a story whose first cause was measured to be there: a clearance
// that is none, an injector that gives little on a bench. It is put right before anything
// else is asked.
func (s *story) measuredOff() bool {
	first := s.book.first()
	return s.book.heaviest(first, rule.OfClearance) >= rule.Known || s.book.heaviest(first, rule.OfInjectors) >= rule.Heard
}

// stoppedBySight reports a story that stops the engine by what was seen.
func (s *story) stoppedBySight() bool {
	return s.Urgency == diag.DoNotRun && s.lead().rule.Kind == rule.OfSight
}

// passesOver reports a check that tells nothing of a first cause that is as good as proven,
// nor of what the same work shows, however quick it is, beside one that would show it and
// takes nothing apart but covers.
func (s *story) passesOver(c *known.Case, best, proof *cause.Check, shares []share) bool {
	first := s.book.first()
	return best != nil && proof != nil && s.asGoodAsProven(shares) && surest(c, proof, first) > 0 && !proof.Is(cause.Opens|cause.Parts|cause.Oils) &&
		!slices.ContainsFunc(shares, func(x share) bool {
			near := x.cause == first || cause.OneFault(x.cause, first) || cause.Bore(x.cause) && cause.Bore(first)
			return near && surest(c, best, x.cause) > 0
		})
}

// byLimit are the kinds of tests that measure a cause itself against its limit: where
// the camshaft stands, what holds the exhaust back, and what a diesel's injector gives back
// or opens at.
var byLimit = []rule.Kind{rule.OfTiming, rule.OfExhaust, rule.OfDiesel}

// measured reports a story whose first cause was measured to be there, past its limit, with
// nothing against it. What is asked next is what shows why it is, and that is the work. Of a
// whole that was measured its likeliest part was not.
func (s *story) measured() bool {
	first := s.book.first()
	return !cause.IsPart(first) && len(s.Against) == 0 && s.Confidence != diag.Weak && (s.book.onlyBy(rule.OfInjectors, first) ||
		s.witnessed(first, byLimit...))
}

// onlyBy reports a cause that a kind of test speaks for, and for no other: injectors on a
// bench that were cleaned there.
func (b *ledger) onlyBy(kind rule.Kind, first string) bool {
	return b.heaviest(first, kind) >= rule.Heard && !slices.ContainsFunc(b.sorted(), func(name string) bool { return name != first && b.heaviest(name, kind) > 0 })
}

// leftOver reports a story of which checks, two at least, have ruled out causes
// until one was left that no other comes near.
func (s *story) leftOver(shares []share) bool {
	var ruledOut []string
	for _, e := range s.book.entries {
		if e.Kind == string(rule.OfCheck) && e.Weight < 0 && !slices.Contains(ruledOut, e.By) {
			ruledOut = append(ruledOut, e.By)
		}
	}
	return len(ruledOut) > 1 && (len(shares) == 1 || s.Confidence != diag.Weak && shares[0].part >= 5*shares[1].part)
}

// cylindersFor are the cylinders that a check is made on for this story.
func (s *story) cylindersFor(k *cause.Check) []string {
	if k.Whole {
		return nil
	}
	return s.cylindersOf(s.book.c)
}

// cylindersOf are the cylinders that a story is about; of an engine that has only one, and of
// which something is told, that one, though the story be of the engine.
func (s *story) cylindersOf(c *known.Case) []string {
	if s.About == diag.AboutEngine && !c.Several() && len(s.ofCylinders()) > 0 {
		return c.Every()
	}
	return s.Cylinders
}

// How much more a check is worth that puts right what it finds, and that would
// prove the first cause rather than rule out another.
const (
	mends  = 1.6
	proven = 1.5
)

// ofDead is how much more the first look at a cylinder without pressure is worth.
const ofDead = 2

// worth is that for the causes of this story.
func (s *story) worth(c *known.Case, k *cause.Check) float64 {
	w := 1.0
	if k.DeadFirst && (c.AllDead(s.Cylinders) || c.Stood() && slices.ContainsFunc(s.Cylinders, func(n string) bool { return c.Grade(n) == diag.NoPressure })) {
		w *= ofDead
	}
	if k.Answers != nil && k.Answers(c) {
		w *= mends
	}
	if slices.ContainsFunc(s.Causes, func(p diag.Phrase) bool { return slices.Contains(k.Mends, p.Key) }) {
		w *= mends
	}
	if first := cause.SetOf(s.book.first()); k.Proves(&first) {
		w *= proven
	}
	return w
}

// ease is how gladly a check is made beside its time: what takes apart, costs
// parts or fouls the plugs comes later.
func ease(k *cause.Check, at diag.Urgency) float64 {
	e := 1.0
	if at == diag.DoNotRun && k.Is(cause.Air) {
		e = airEase // what is loose inside may do harm as the crankshaft turns
	}
	for _, of := range eases {
		if k.Is(of.way) {
			e *= of.part
		}
	}
	return e
}

const airEase = 0.7

var eases = []struct {
	way  cause.Way
	part float64
}{{cause.Opens, 0.75}, {cause.Parts, 0.25}, {cause.Oils, 0.7}, {cause.Runs, 0.9}}
