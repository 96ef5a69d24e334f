package story

import (
	"math"
	"slices"
	"strings"
	"sync"

	"gaugesheet/diag"
	"gaugesheet/diag/cause"
	"gaugesheet/diag/known"
	"gaugesheet/diag/rule"
)

// unexplained is the rule that answers what no story does.
var unexplained = sync.OnceValue(func() *rule.Rule {
	all := rule.All()
	return rule.Named(all[slices.IndexFunc(all, func(r rule.Rule) bool { return r.Unexplained })].Name)
})

// answerComplaints notes in each story which of the job's complaints its causes
// explain, and adds those that none does to the story of the engine.
func answerComplaints(c *known.Case, told []*story) []*story {
	var open []string
	for _, complaint := range c.Complaints() {
		by := explainers(c, told, complaint)
		if len(by) == 0 && c.WorkWasFor(complaint) { // the finding on the work says so
			continue
		}
		if _, code := strings.CutPrefix(complaint, diag.CodeComplaint); !code { // which is told with the causes that it speaks for
			for _, s := range by {
				s.Explains = append(s.Explains, complaint)
			}
		}
		if len(by) == 0 {
			open = append(open, complaint)
		}
	}
	if len(open) == 0 {
		return told
	}
	m := &member{rule: unexplained(), order: math.MaxInt} // after every rule that is tried
	m.say(c)
	if m.finding.Facts == nil {
		m.finding.Facts = diag.Facts{}
	}
	m.finding.Facts["complaints"] = diag.Names(open)
	// what would tell is mostly found on an engine that turns or runs
	m.finding.Facts["stopped"] = slices.ContainsFunc(told, func(s *story) bool { return s.Urgency == diag.DoNotRun })
	if !slices.Contains(open, "misfire") { // the code is of no concern to the others
		m.finding.Facts["coded"], m.finding.Facts["unread"] = diag.Names(nil), diag.Names(nil)
	}
	if !slices.Contains(open, "oil use") { // nor its figure
		m.finding.Facts["oilUse"] = ""
	}
	for _, s := range told {
		if s.About == diag.AboutEngine {
			s.answerNot(c, told, m, open)
			return told
		}
	}
	s := &story{}
	s.About = diag.AboutEngine
	s.answerNot(c, told, m, open)
	return append(told, s)
}

// explainers are the stories that explain a complaint. What only looks elsewhere
// is none where another is.
func explainers(c *known.Case, told []*story, complaint string) []*story {
	var found, elsewhere []*story
	for _, s := range told {
		switch {
		case !s.explains(c, complaint):
		case s.opens() >= 0, s.About == diag.AboutTest: // how it was tested makes no engine start badly; a battery found so may
			elsewhere = append(elsewhere, s)
		default:
			found = append(found, s)
		}
	}
	if len(found) == 0 {
		return elsewhere
	}
	return found
}

// opens is the place of the member that looks elsewhere for what is open, -1 for
// none.
func (s *story) opens() int {
	return slices.IndexFunc(s.members, func(m *member) bool { return m.rule.Open })
}

// explains reports a story that asks for something and whose shown causes, one
// at least, explain a complaint. A misfire that a code puts on one cylinder is
// not explained by another.
func (s *story) explains(c *known.Case, complaint string) bool {
	if s.Urgency == diag.NoAction || s.book != nil && s.book.kept { // what checks denied explains nothing
		return false
	}
	if code, stored := strings.CutPrefix(complaint, diag.CodeComplaint); stored {
		return s.book != nil && slices.Contains(s.codes(), code)
	}
	if named := c.MisfireOf(); complaint == "misfire" && len(named) > 0 && len(s.Cylinders) > 0 &&
		!slices.ContainsFunc(named, func(n string) bool { return slices.Contains(s.Cylinders, n) }) {
		return false
	}
	if s.missed(c, complaint) || !c.Several() && s.lowThroughout() && (complaint == "misfire" || slices.Contains(unfelt, complaint)) { // its only cylinder
		return true
	}
	if s.onlyNear(c) {
		return false
	}
	if slices.Contains(unfelt, complaint) && s.aLittleLow(c) || s.notFelt(complaint) {
		return false
	}
	if complaint == known.SpittingBack && c.ExhaustAlone(s.Cylinders) { // which opens to the other side
		return false
	}
	return s.blowsAcross(c, complaint) || slices.ContainsFunc(s.Causes, func(p diag.Phrase) bool { return cause.Explained(p.Key, complaint) })
}

// unfelt are the complaints that one cylinder a little under the others makes nobody have: the
// others pull, and start the engine.
var unfelt = []string{"low power", "hard start", "no start"}

// onlyNear reports a story of cylinders that the gauge puts so near to a figure that they may
// be under it, while what was read is not: that is a doubt and no reason of anything.
func (s *story) onlyNear(c *known.Case) bool {
	doubts := s.asksOnlyBy(func(m *member) bool { return m.rule.Absolute && m.finding.Confidence == diag.Weak })
	return doubts && len(c.UnderMinimum()) == 0 && c.AllLow() == nil && !c.AnyLow(s.Cylinders)
}

// asksOnlyBy reports a story that asks for something, and by such findings alone.
func (s *story) asksOnlyBy(is func(*member) bool) bool {
	asks := false
	for _, m := range s.members {
		if m.finding.Urgency == diag.NoAction {
			continue
		}
		if !is(m) {
			return false
		}
		asks = true
	}
	return asks
}

// missed reports a complaint that an engine has without the work of a cylinder of this story,
// whatever the reason is that it does none.
func (s *story) missed(c *known.Case, complaint string) bool {
	if s.About != diag.AboutCylinders || s.madeUp || s.waits || complaint != "misfire" && complaint != "low power" && !(complaint == known.WhiteSmoke && c.Spec.Diesel()) {
		return false
	}
	return slices.ContainsFunc(s.Cylinders, func(n string) bool {
		g := c.Grade(n)
		return g == diag.NoPressure || g == diag.VeryLow || known.PullsNothing.HoldsOf(c, n)
	})
}

// blowsAcross reports a noise that gas makes which blows across a gasket from one cylinder to
// another, or out beside one that loses much of its air there; one that was heard below is
// another.
func (s *story) blowsAcross(c *known.Case, complaint string) bool {
	first := s.book.first()
	return complaint == "noise" && s.About == diag.AboutCylinders && (first == "head-gasket" || first == "plug-or-adapter-thread") && !known.NoiseBelow.HoldsIn(c) &&
		slices.ContainsFunc(s.Cylinders, func(n string) bool {
			g := c.Grade(n)
			return c.HighLoss(n) && (c.LeaksAt(n, known.AtOutside) || first == "head-gasket" && known.HeadJointBlows.HoldsIn(c)) || first == "head-gasket" && c.LeaksAt(n, known.AtNeighbour) && (g == diag.NoPressure || g == diag.VeryLow)
		})
}

// notFelt reports a story of nothing but what brings about none of these complaints.
func (s *story) notFelt(complaints ...string) bool {
	return s.asksOnlyBy(func(m *member) bool { return m.rule.Felt != nil && !shares(m.rule.Felt, complaints) })
}

// aLittleLow reports a story of cylinders, not all of them, that read a little
// less than the others and lose no more air: nobody feels that.
func (s *story) aLittleLow(c *known.Case) bool {
	if slices.ContainsFunc(s.members, func(m *member) bool {
		return m.finding.Urgency != diag.NoAction && slices.Contains(felt, m.rule.Kind)
	}) {
		return false
	}
	return s.About == diag.AboutCylinders && slices.Contains(s.needsOf(), known.NeedsCompression) && len(s.Cylinders) < len(c.Every()) && len(s.Cylinders) > 0 && !slices.ContainsFunc(s.Cylinders, func(n string) bool {
		g := c.Grade(n)
		return g != diag.Even && g != diag.Watch && g != diag.GradeTooClose || c.HighLoss(n) || c.PlaceNoted(n)
	})
}

// felt are the kinds of tests that find what a cylinder does as the engine runs, or what moves
// and feeds it: whatever it reads on the starter, it pulls less.
var felt = []rule.Kind{rule.OfRunning, rule.OfBalance, rule.OfClearance, rule.OfInjectors, rule.OfDiesel}

// leaveExplained takes out what looks elsewhere for a complaint that another
// story explains, and names the first complaint that none does.
func leaveExplained(c *known.Case, told []*story) []*story {
	others := slices.DeleteFunc(slices.Clone(told), func(s *story) bool { return s.opens() >= 0 })
	return slices.DeleteFunc(told, func(s *story) bool {
		at := s.opens()
		if at < 0 {
			return false
		}
		for _, complaint := range c.Complaints() {
			explained := slices.ContainsFunc(others, func(other *story) bool { return other.explains(c, complaint) })
			if !explained && c.Sealable(complaint) {
				s.members[at].finding.Facts["complaint"] = complaint
				return false
			}
		}
		s.members = slices.Delete(s.members, at, at+1)
		for _, m := range s.members {
			m.better = ""
		}
		s.compose(c)
		return len(s.members) == 0
	})
}

// ofComplaint is what commonly causes a complaint, or a stored code.
func ofComplaint(c *known.Case, complaint string) []string {
	if code, stored := strings.CutPrefix(complaint, diag.CodeComplaint); stored {
		return rule.OfCode(c, code)
	}
	return cause.OfComplaint(c, complaint)
}

// answerNot makes a complaint that nothing explains part of the engine's
// story, with what commonly causes it.
func (s *story) answerNot(c *known.Case, told []*story, m *member, open []string) {
	s.members = append(s.members, m)
	ill := s.Urgency.Rank() > diag.NoAction.Rank()
	if s.book == nil {
		s.book = s.weigh(c)
	}
	if !ill || s.book.kept {
		weighed := s.book.brought
		for _, complaint := range open {
			for _, v := range ofComplaint(c, complaint) {
				s.book.add(rule.Voice{Cause: v, Weight: 50}, rule.OfHistory, "a complaint of "+complaint, nil)
			}
		}
		if c.DryRead() && !c.PressureEnough() && !c.SealsAtRest() && slices.ContainsFunc(open, func(x string) bool { return cause.Explained("wear", x) }) {
			s.book.add(rule.Voice{Cause: "wear", Weight: 50}, rule.OfHistory, "pressure not known to be enough", nil)
		}
		s.book.signs(s, &weighed) // and answers, of these causes too
		s.book.answers(s)
		s.book.renewed(s)
		s.book.cleared(s, told)
		s.book.keepLeast()
		s.Causes, s.Against = s.book.top(), s.against()
	}
	s.sort()
	s.Urgency = worse(s.Urgency, m.finding.Urgency)
	s.judge(c)
}
