package story

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/cause"
	"gaugesheet/diag/known"
	"gaugesheet/diag/rule"
)

// readings are the readings that a kind of test rests on.
var readings = map[rule.Kind][]known.Need{
	rule.OfCompression: {known.NeedsCompression, known.NeedsWet, known.NeedsFirst},
	rule.OfEarlier:     {known.NeedsEarlier, known.NeedsCompression},
	rule.OfLeakage:     {known.NeedsLeakage},
	rule.OfFuel:        {known.NeedsFuel},
	rule.OfRotors:      {known.NeedsRotors},
	rule.OfPlugs:       {known.NeedsPlugs},
}

// judge sets how sure a story is. Strong are two kinds of tests that agree on
// the first cause with none against it; weak is what rests on one doubtful
// reading, or is contradicted and was not seen; three that agree are never weak.
func (s *story) judge(c *known.Case) {
	lead := s.lead()
	kinds := s.book.agreeing(s.book.first())
	s.Confidence, s.Doubts = diag.Fair, slices.Clone(lead.finding.Doubts)
	if len(kinds) >= 2 { // then it is not by the plugs alone
		s.Doubts = slices.DeleteFunc(s.Doubts, func(p diag.Phrase) bool { return p.Key == "colour-only" })
	}
	if len(kinds) >= 2 && len(s.Against) == 0 && !s.book.rivalled(kinds) {
		s.Confidence = diag.Strong
	}
	if len(s.Against) > 0 && len(kinds) < 2 && !s.book.seen(s.book.first()) {
		s.Confidence = diag.Weak
	}
	switch {
	case lead.finding.Confidence == diag.Weak && len(kinds) < 2:
		s.Confidence = diag.Weak
	case lead.finding.Confidence == diag.Weak, lead.rule.Class == rule.Together && lead.finding.Confidence == diag.Fair, len(s.Causes) == 0:
		s.Confidence = atMost(s.Confidence, lead.finding.Confidence)
		if lead.finding.Confidence == diag.Weak {
			s.Confidence = diag.Fair
		}
	}
	if both := s.soundBy(); len(both) > 1 {
		s.Confidence, kinds = diag.Strong, both
		for _, k := range both {
			s.SoundBy = append(s.SoundBy, string(k))
		}
	}
	s.doubtGrade(c, kinds)
	s.doubt(c, kinds)
	if len(kinds) >= 3 && s.Confidence == diag.Weak {
		s.Confidence = diag.Fair
	}
	if s.seenWhole(c) {
		s.Confidence = atMost(s.Confidence, diag.Fair)
		s.Doubts = append(s.Doubts, diag.Phrase{Key: "seen-whole"})
	}
	if s.lowThroughout() && c.Noticed("all-low-check-the-test") { // the same page asks for the test first
		s.Confidence = atMost(s.Confidence, diag.Fair)
	}
}

// soundBy are the kinds of test by which a story says that all is well without a doubt of
// their own; none where anything else is told in it, or its leading one is doubtful.
func (s *story) soundBy() []rule.Kind {
	var kinds []rule.Kind
	for _, m := range s.members {
		certain := m.finding.Confidence == diag.Fair && len(m.finding.Doubts) == 0
		if m.rule.Class != rule.Sound || m == s.lead() && !certain {
			return nil
		}
		if certain && !slices.Contains(kinds, m.rule.Kind) {
			kinds = append(kinds, m.rule.Kind)
		}
	}
	return kinds
}

// seenWhole reports a story of rings or a piston of cylinders that were looked into and
// showed nothing, and that oil did not bring up: whatever agrees, what it is was not seen.
func (s *story) seenWhole(c *known.Case) bool {
	first := cause.Named(s.book.first())
	return s.About == diag.AboutCylinders && len(s.Cylinders) > 0 && first != nil && first.Unseen &&
		!slices.ContainsFunc(s.Cylinders, func(n string) bool { return !known.WholeAbove.HoldsOf(c, n) || c.WetEvidence(n) == known.WetRises })
}

// doubtGrade says where what a story asks for hangs on a grade that a psi or two
// would change, and is weak by that where no other kind of test agrees.
func (s *story) doubtGrade(c *known.Case, kinds []rule.Kind) {
	told := slices.ContainsFunc(s.Doubts, func(p diag.Phrase) bool { return p.Key == "near-limit" })
	if told || s.About != diag.AboutCylinders || s.Urgency == diag.NoAction || !c.NearGrade(s.Cylinders) || slices.ContainsFunc(s.members, func(m *member) bool { return asksWithout(c, s, m) }) {
		return
	}
	s.Doubts = append(s.Doubts, diag.Phrase{Key: "near-grade"})
	if len(kinds) < 2 {
		s.Confidence = diag.Weak
	}
}

// asksWithout reports a member of a story that would ask for as much whatever
// the cylinders' grade: by no compression reading, and of air lost by more of it
// than a tester gives of sound ones.
func asksWithout(c *known.Case, s *story, m *member) bool {
	if m.finding.Urgency.Rank() < s.Urgency.Rank() || slices.Contains(m.rule.Needs, known.NeedsCompression) {
		return false
	}
	return m.rule.Kind != rule.OfLeakage || slices.ContainsFunc(s.Cylinders, func(n string) bool { l := c.Leak(n); return l != nil && c.LeakTooHigh(l) })
}

// doubt takes off what notices on the test make doubtful. It never takes a
// finding away; what rests on readings that were not doubted stays fair. What oil
// lifts far was read twice in the same way, whatever of that was not written down.
func (s *story) doubt(c *known.Case, kinds []rule.Kind) {
	if len(kinds) == 0 {
		kinds = []rule.Kind{s.lead().rule.Kind}
	}
	for _, n := range c.Sums.Notices {
		r := rule.Named(n.Rule)
		if r == nil || r.Doubt == "" || !shares(n.Cylinders, s.Cylinders) || r.Shifts && s.comparesCylinders() || r.Between != nil && c.OilLiftsFar(s.Cylinders) || tellsAllTheSame(n, s.Cylinders) {
			continue
		}
		if r.Between != nil && s.comparesCylinders() {
			left, any := r.Between(n)
			if !any || len(kinds) > 1 && c.FarBelowOthers(s.Cylinders) { // which nothing that was not written down makes of one cylinder
				continue
			}
			n = left
		}
		if r.OfSound != nil && (s.lead().rule.Class == rule.Sound || c.Sound()) {
			left, any := r.OfSound(c, n)
			if !any {
				continue
			}
			n = left
		}
		doubted := 0
		for _, k := range kinds {
			if slices.ContainsFunc(readings[k], func(need known.Need) bool { return slices.Contains(doubtedBy(r, n), need) }) {
				doubted++
			}
		}
		if s.urgentBy(doubtedBy(r, n)) && !repeated(c, r, n) {
			s.unsettle(c, r, n)
			if s.Urgency == diag.CheckAgain && r.MakesUp != nil && r.MakesUp(c, n, s.Cylinders) {
				s.waits = true
				s.madeUp = s.madeUp || s.onlyDry()
			}
		}
		if doubted == 0 || s.About == diag.AboutCylinders && len(kinds)-doubted >= 2 { // two kinds agree on these that nobody doubts
			continue
		}
		limit, far := diag.Fair, r.Between != nil && c.FarUnderLimit(n)
		switch {
		case far && doubted < len(kinds):
			continue
		case doubted == len(kinds) && !far:
			limit = diag.Weak
		}
		s.Confidence = atMost(s.Confidence, limit)
		s.Doubts = append(s.Doubts, diag.Phrase{Key: r.Doubt, Facts: n.Facts})
	}
}

// tellsAllTheSame reports cylinders that a notice leaves out of its doubt, by the fact
// "tells".
func tellsAllTheSame(n diag.Notice, cylinders []string) bool {
	tells, _ := n.Facts["tells"].(diag.Names)
	return len(tells) > 0 && len(cylinders) > 0 && !slices.ContainsFunc(cylinders, func(name string) bool { return !slices.Contains(tells, name) })
}

// onlyDry reports a story of dry readings and of no other.
func (s *story) onlyDry() bool {
	return !slices.ContainsFunc(s.members, func(m *member) bool {
		if m.rule.Kind == rule.OfHistory { // what is told explains them and was no reading
			return false
		}
		return m.rule.Kind != rule.OfCompression || slices.ContainsFunc(m.rule.Needs, func(n known.Need) bool { return n != known.NeedsCompression })
	})
}

// urgentBy reports a story in which whatever asks for more than checking again
// rests on some readings alone. What only explains what others found, and what
// is told of the engine's past, asks for nothing by itself.
func (s *story) urgentBy(doubted []known.Need) bool {
	return !slices.ContainsFunc(s.members, func(m *member) bool {
		r := m.rule
		if r.Keeps || r.Kind == rule.OfHistory || m.finding.Urgency.Rank() <= diag.CheckAgain.Rank() {
			return false
		}
		return len(r.Needs) == 0 || slices.ContainsFunc(r.Needs, func(need known.Need) bool { return !slices.Contains(doubted, need) })
	})
}

// comparesCylinders reports a story that holds cylinders against each other, and
// would be as urgent by that alone: what moves all readings alike leaves it as it
// is.
func (s *story) comparesCylinders() bool {
	return s.About == diag.AboutCylinders && slices.ContainsFunc(s.members, func(m *member) bool {
		return !m.rule.Absolute && !m.rule.Keeps && m.finding.Urgency.Rank() >= s.Urgency.Rank()
	})
}

// unsettle takes the urgency down to checking again where the test that it
// rests on proved to be at fault. In another unit an engine without pressure may
// be a sound one, if it reads anything; by any other fault of the test it is not.
func (s *story) unsettle(c *known.Case, r *rule.Rule, n diag.Notice) {
	otherUnit := c.WholeSection(n) != "" && !c.ReadsNothing(s.Cylinders) && !(c.NotStarting() && c.NothingRead())
	if otherUnit && s.Urgency != diag.NoAction || r.Unsettles != nil && r.Unsettles(n) && (s.Urgency == diag.ActSoon || s.Urgency == diag.CheckAgain && s.restsOn(r, n)) {
		s.Urgency, s.waits = diag.CheckAgain, true
	}
}

// sections are the readings of the sections of a job, which notices from
// reading the job name as the fact "section".
var sections = map[string][]known.Need{
	"compression":   {known.NeedsCompression, known.NeedsWet, known.NeedsFirst, known.NeedsEarlier},
	"leakage":       {known.NeedsLeakage},
	"rotors":        {known.NeedsRotors},
	"fuel-pressure": {known.NeedsFuel},
}

// doubtedBy are the readings that a notice casts doubt on: those of its own
// section where it names one.
func doubtedBy(r *rule.Rule, n diag.Notice) []known.Need {
	if far, _ := n.Facts["far"].(bool); far { // what reads so much less is not lowered by that alone
		return nil
	}
	section, named := n.Facts["section"].(string)
	if !named {
		return r.Doubts
	}
	return slices.DeleteFunc(slices.Clone(r.Doubts), func(d known.Need) bool { return !slices.Contains(sections[section], d) })
}

// shares reports two sets of cylinders with one in common; a set that names
// none stands for the whole engine.
func shares(a, b []string) bool {
	if len(a) == 0 || len(b) == 0 {
		return true
	}
	return slices.ContainsFunc(a, func(name string) bool { return slices.Contains(b, name) })
}
