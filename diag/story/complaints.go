package story

import (
	"math"
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/cause"
	"gaugesheet/diag/known"
	"gaugesheet/diag/rule"
)

// notExplained is the rule that answers what no story does.
const notExplained = "complaint-not-explained"

// answerComplaints notes in each story which of the job's complaints its causes
// explain, and adds those that none does to the story of the engine.
func answerComplaints(c *known.Case, told []*story) []*story {
	var open []string
	for _, complaint := range c.Complaints() {
		answered := false
		for _, s := range told {
			if s.explains(complaint) {
				s.Explains = append(s.Explains, complaint)
				answered = true
			}
		}
		if !answered {
			open = append(open, complaint)
		}
	}
	r := rule.Named(notExplained)
	if len(open) == 0 || r == nil {
		return told
	}
	m := &member{rule: r, place: math.MaxInt} // after every rule that is tried
	m.say(c)
	if m.finding.Facts == nil {
		m.finding.Facts = diag.Facts{}
	}
	m.finding.Facts["complaints"] = diag.Names(open)
	for _, s := range told {
		if s.About == diag.AboutEngine {
			s.answerNot(c, m, open)
			return told
		}
	}
	s := &story{}
	s.About = diag.AboutEngine
	s.answerNot(c, m, open)
	return append(told, s)
}

// explains reports a story that asks for something and whose shown causes, one
// at least, explain a complaint.
func (s *story) explains(complaint string) bool {
	if s.Urgency == diag.NoAction {
		return false
	}
	return slices.ContainsFunc(s.Causes, func(p diag.Phrase) bool { return cause.Explained(p.Key, complaint) })
}

// answerNot makes a complaint that nothing explains part of the engine's
// story, with what commonly causes it.
func (s *story) answerNot(c *known.Case, m *member, open []string) {
	s.members = append(s.members, m)
	ill := s.Urgency.Rank() > diag.NoAction.Rank()
	if s.book == nil {
		s.book = s.weigh(c)
	}
	if !ill {
		for _, complaint := range open {
			for _, v := range cause.OfComplaint(complaint) {
				s.book.add(rule.Voice{Cause: v, Weight: 50}, rule.OfHistory, "a complaint of "+complaint, nil)
			}
		}
		if c.DryRead() && !c.PressureEnough() && slices.ContainsFunc(open, func(x string) bool { return cause.Explained("wear", x) }) {
			s.book.add(rule.Voice{Cause: "wear", Weight: 50}, rule.OfHistory, "pressure not known to be enough", nil)
		}
		s.book.answers(s) // of these causes too
		s.book.keepLeast()
		s.Causes, s.Against = s.book.top(nil), s.book.against()
	}
	s.sort()
	s.Urgency = worse(s.Urgency, m.finding.Urgency)
	s.judge(c)
}
