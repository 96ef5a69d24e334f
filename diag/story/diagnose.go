// Package story makes one story of all that was found on one subject: it joins
// what the rules recognise, weighs the causes over all evidence, says how sure
// and how urgent that is, picks the one check that settles most for the least,
// tries out where its outcomes lead, and gives the verdict; it knows every rule,
// cause and check, and no words and no pages.
package story

import (
	"maps"
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/cause"
	"gaugesheet/diag/known"
	"gaugesheet/diag/rule"
)

// Diagnose does the sums on a test and says what they point to: the stories in
// the order in which they are to be said, the one next check with the plan
// behind it, and the verdict by the name of its words with their facts.
func Diagnose(t *diag.Test) *diag.Diagnosis {
	c, d := diagnose(cause.Known(t), diag.NoAction)
	d.Plan = plan(c, d, secondSteps)
	return d
}

// UpToNext is Diagnose for who shows the next check and where its outcomes lead,
// and nothing of the step behind it.
func UpToNext(t *diag.Test) *diag.Diagnosis {
	c, d := diagnose(cause.Known(t), diag.NoAction)
	d.Plan = plan(c, d, 0)
	return d
}

// WithoutPlan is Diagnose without trying out where the checks lead.
func WithoutPlan(t *diag.Test) *diag.Diagnosis {
	_, d := diagnose(cause.Known(t), diag.NoAction)
	return d
}

// Explain is WithoutPlan with what came of every rule in turn.
func Explain(t *diag.Test) (*diag.Diagnosis, []rule.Tried) {
	c, d := diagnose(cause.Known(t), diag.NoAction)
	return d, rule.Explain(c)
}

// diagnose tells the stories of a test and concludes from them.
func diagnose(c *known.Case, atLeast diag.Urgency) (*known.Case, *diag.Diagnosis) {
	d := c.Sums
	d.NextFor, d.Chambers, d.Flies = -1, diag.ChambersOf(c.Engine), c.Flies()
	desk := desks.Get().(*desk)
	told, at := desk.stories(c, atLeast)
	for _, s := range told {
		s.chooseCheck(c, at)
		s.setRepair(c)
	}
	waitForTest(told)
	if c.Sums.Urgency == diag.DoNotRun {
		stopNotices(c.Sums.Notices)
		for _, s := range told {
			stopNotices(s.Notices)
		}
	}
	for _, s := range told {
		d.Stories = append(d.Stories, s.finish())
		for i, m := range d.Stories[len(d.Stories)-1].Members {
			if i == 0 {
				d.Findings = append(d.Findings, m)
			} else {
				d.Folded = append(d.Folded, m)
			}
		}
	}
	d.Breathed = known.ExhaustBreathed.HoldsIn(c)
	d.Glows = known.ExhaustGlows.HoldsIn(c)
	if d.Urgency == diag.ActSoon && told[0].ofMisfire() {
		d.RawFuel = known.SendsFuelRaw.HoldsIn(c)
	}
	chooseForSheet(c, d)
	conclude(c, d)
	cautions(c, d)
	desk.clear(told)
	return c, d
}

// stopNotices has remarks on the test say that the engine must not turn, so that none of
// them asks for a reading that the starter takes. Their facts may be those of other trials.
func stopNotices(list []diag.Notice) {
	for i := range list {
		facts := make(diag.Facts, len(list[i].Facts)+1)
		maps.Copy(facts, list[i].Facts)
		facts["stopped"] = true
		list[i].Facts = facts
	}
}

// stories are those of a test in the order in which they are told, without
// their checks. Checks are to be such as are allowed at the urgency that comes
// with them: atLeast, or the sheet's own where that is greater.
func (d *desk) stories(c *known.Case, atLeast diag.Urgency) ([]*story, diag.Urgency) {
	told := answerComplaints(c, leaveExplained(c, d.tell(c)))
	askForRefused(c, told)
	liftHot(c, told)
	liftRaw(c, told)
	liftMissing(c, told)
	liftWhole(c, told) // to what the others have come to
	order(c, told)
	if within := tellWithin(told); len(within) < len(told) {
		told = within
		order(c, told) // one may have become as urgent as what it took in
	}
	agreeOnOrder(told)
	c.Sums.Urgency = diag.NoAction
	for _, s := range told {
		c.Sums.Urgency = worse(c.Sums.Urgency, s.Urgency)
	}
	return told, worse(atLeast, c.Sums.Urgency)
}

// worse is the more urgent of two.
func worse(a, b diag.Urgency) diag.Urgency {
	if b.Rank() > a.Rank() || a == "" {
		return b
	}
	return a
}

// order puts stories in the order of saying: by urgency, the test before the
// engine at the same urgency, the whole engine before its parts, unless it is a
// weak word beside a strong one of these, what explains a complaint before what does not, then by class, the surer first, then as the
// rules are listed, then by how far off its readings are, then by the engine's cylinders.
func order(c *known.Case, told []*story) {
	strong := slices.ContainsFunc(told, func(s *story) bool { return s.About == diag.AboutCylinders && s.Confidence == diag.Strong })
	answered := answeredBeside(told)
	before := slices.ContainsFunc(told, func(s *story) bool { return s.upperLast() == 0 })
	sortBy(told, func(s *story) sortKey {
		part := s.partLast(c)
		if strong && s.Confidence == diag.Weak {
			part = 1
		}
		return sortKey{
			-s.Urgency.Rank(),
			s.testLast(answered),
			s.notFound(before),
			s.upperLast(),
			part,
			s.strangeLast(c),
			int(s.class()),
			-sureness(s.Confidence),
			s.order(),
			-s.howFar(c),
			c.Place(s.Cylinders),
		}
	})
}

// A sortKey is by what things are put in order, the first that differs deciding.
type sortKey [11]int

// sortBy puts things in order by their keys, each asked for once; what has the same
// keys stays as it is.
func sortBy[T any](list []T, key func(T) sortKey) {
	if len(list) < 2 {
		return
	}
	type keyed struct {
		of  T
		key sortKey
	}
	all := make([]keyed, len(list))
	for i, of := range list {
		all[i] = keyed{of, key(of)}
	}
	slices.SortStableFunc(all, func(a, b keyed) int { return slices.Compare(a.key[:], b.key[:]) })
	for i := range all {
		list[i] = all[i].of
	}
}

// notFound is 0 for a story whose cause a check has shown, which is told before
// what is only likely. What is low throughout, and not by a weak word, does not stand back
// for a fault that was found in a part of it, unless something comes before all work.
func (s *story) notFound(before bool) int {
	if s.book != nil && len(s.book.found()) > 0 || !before && s.lowThroughout() && s.Confidence != diag.Weak {
		return 0
	}
	return 1
}

// sureness orders confidences, the least sure first.
func sureness(c diag.Confidence) int {
	return slices.Index([]diag.Confidence{diag.Weak, diag.Fair, diag.Strong}, c)
}

func atMost(confidence, limit diag.Confidence) diag.Confidence {
	if sureness(confidence) > sureness(limit) {
		return limit
	}
	return confidence
}
