package story

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/cause"
	"gaugesheet/diag/known"
	"gaugesheet/diag/rule"
)

// places are the checks that show which cylinder lets gas or coolant through, that which
// shows it by itself first.
var places = []string{"cooling-pressure-test", "leak-down", "borescope"}

// headOpen reports a story of a gasket or a head, in an engine of several heads, that names
// no cylinder or all of them, nor saw coolant at a head's joint: however sure it is what has
// gone, nobody knows yet which head comes off.
func (s *story) headOpen(c *known.Case) bool {
	some := len(s.Cylinders) > 0 && len(s.Cylinders) < len(c.Every())
	return len(c.Engine.Heads) > 1 && !some && cause.SameWork(s.book.first(), "head-gasket") && !known.CoolantAtHead.HoldsIn(c)
}

// askPlace is the check that shows which head it is, or of an aircraft engine's losses that
// were read once whether they stay: all else waits for that. nil where that is known or none
// is left to be made.
func (s *story) askPlace(c *known.Case, at diag.Urgency) *cause.Check {
	switch {
	case s.headOpen(c):
		return s.firstOf(c, places, at)
	case len(s.book.found()) == 0 && cause.ReadAgainFirst(c, s.Cylinders) && !s.settled(c, s.book.shares()):
		return s.firstOf(c, []string{"leak-down-again"}, at)
	}
	return nil
}

// otherTests are those that prove a gasket by themselves, whatever is wet outside.
var otherTests = []rule.Kind{rule.OfCompression, rule.OfLeakage, rule.OfCoolant, rule.OfCheck}

// askSeep is the check that shows where coolant at a head's joint comes from, nil where that
// is not what a gasket or a head is suspected for, or it was made.
func (s *story) askSeep(c *known.Case, at diag.Urgency) *cause.Check {
	first := s.book.first()
	if !known.CoolantAtHead.HoldsIn(c) || !cause.SameWork(first, "head-gasket") ||
		slices.ContainsFunc(otherTests, func(k rule.Kind) bool { return s.book.heaviest(first, k) >= rule.Known }) {
		return nil
	}
	return s.firstOf(c, []string{"joint-dried-and-pumped"}, at)
}

// firstOf is the first of some checks that fits and was not made, nil for none.
func (s *story) firstOf(c *known.Case, names []string, at diag.Urgency) *cause.Check {
	for _, name := range names {
		if k := cause.CheckNamed(name); k != nil && k.Allowed(c, s.Cylinders, at) && !k.IsMade(c, s.cylindersFor(k)) {
			return k
		}
	}
	return nil
}

// stopsFor is the look for which a story stops the engine, into the cylinders or at what
// its headline tells of; nil where it stops it for something else, or none may be had or is
// left to be made.
func (s *story) stopsFor(c *known.Case, at diag.Urgency) *cause.Check {
	stops := s.lead().rule.StopsFor
	switch {
	case s.Urgency != diag.DoNotRun:
		return nil
	case s.lead().rule.LooksIn:
		stops = looks[:len(looks)-1]
	}
	return s.firstOf(c, stops, at)
}
