package story

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/cause"
	"gaugesheet/diag/known"
	"gaugesheet/diag/rule"
)

// repeatsTest reports a check that repeats the test rather than looks into the
// engine.
func repeatsTest(name string) bool {
	k := cause.CheckNamed(name)
	return k != nil && k.Again
}

// aboutTest is the story of a test that has to be made again before the engine
// is judged: nil where nothing that was found rests on what is doubtful.
func aboutTest(c *known.Case, told []*story) *story {
	test := &story{}
	for _, n := range c.Sums.Notices {
		r := rule.Named(n.Rule)
		if r == nil || repeatOf(c, r, n) == "" || settledBy(c, r, n) {
			continue
		}
		urgency := diag.Urgency("")
		trouble, mild := false, diag.NoAction
		if c.SaysNothing() { // a test that says nothing comes before what can wait as long
			mild = diag.CheckAgain
		}
		for _, s := range told {
			trouble = trouble || (s.Urgency.Rank() > mild.Rank() || s.answers(c)) && !s.waitsFor(c, n)
			if s.Urgency != diag.NoAction && s.restsOn(r, n) {
				urgency = worse(urgency, s.Urgency)
			}
		}
		switch {
		case urgency == diag.DoNotRun && r.Slip && len(n.Cylinders) > 0 && !repeated(c, r, n): // asking costs a minute, and nothing turns for it
		case urgency == diag.DoNotRun: // a dead cylinder is looked into first
			urgency = diag.CheckAgain
		case urgency == "" && !trouble && r.Alone != nil && r.Alone(c, n) && !repeated(c, r, n):
			urgency = diag.CheckAgain
		case urgency == "":
			continue
		}
		test.Notices = append(test.Notices, n)
		test.members = append(test.members, &member{rule: r, finding: diag.Finding{Rule: r.Name, Urgency: urgency}})
		test.Urgency = worse(test.Urgency, urgency)
	}
	if len(test.members) == 0 {
		return nil
	}
	test.About, test.Confidence = diag.AboutTest, diag.Fair
	test.book = test.weigh(c)
	test.Causes = test.book.top()
	if enough(c, nil) && test.repeatCheck(c, test.Urgency) == nil { // it was made again as often as it may be
		return nil
	}
	return test
}

// answers reports a story that asks for something and explains what the owner complains of,
// in an engine whose decompressor let the pressure out: that is how it is built and no fault
// of the test, as a throttle is that was held shut.
func (s *story) answers(c *known.Case) bool {
	return c.Spec.Decompressor == "automatic" && s.Urgency != diag.NoAction &&
		slices.ContainsFunc(c.History.Complaints, func(complaint string) bool { return s.explains(c, complaint) })
}

// waitsFor reports a story of a plug's colour alone beside half an engine or more that was
// not read: what all cylinders give is known before one plug is followed up.
func (s *story) waitsFor(c *known.Case, n diag.Notice) bool {
	k := cause.CheckNamed(repeatOf(c, rule.Named(n.Rule), n))
	half := 2*len(n.Cylinders) >= len(c.Every())
	return k != nil && k.Rest && half && s.Urgency == diag.CheckAgain && s.looksAlone()
}

// looksAlone reports a story that asks for something by the look of plugs and nothing else.
func (s *story) looksAlone() bool {
	return s.asksOnlyBy(func(m *member) bool { return m.rule.Kind == rule.OfPlugs })
}

// repeated reports that the check which makes a test good was made.
func repeated(c *known.Case, r *rule.Rule, n diag.Notice) bool {
	k := cause.CheckNamed(repeatOf(c, r, n))
	return k != nil && k.IsMade(c, n.Cylinders)
}

// settledBy reports that the check which makes a test good was made, and that no
// other comes after it.
func settledBy(c *known.Case, r *rule.Rule, n diag.Notice) bool {
	k := cause.CheckNamed(repeatOf(c, r, n))
	return k != nil && k.Then == "" && k.IsMade(c, n.Cylinders)
}

// repeatOf is the check that makes good what a notice doubts, "" for none.
func repeatOf(c *known.Case, r *rule.Rule, n diag.Notice) string {
	if r.RepeatOf != nil {
		return r.RepeatOf(c, n)
	}
	return r.Repeat
}

// waitForTest gives every story that waits for the test to be made again the
// check that does so.
func waitForTest(told []*story) {
	i := slices.IndexFunc(told, func(s *story) bool { return s.About == diag.AboutTest })
	if i < 0 || told[i].Next == nil {
		return
	}
	first := slices.ContainsFunc(told[i].members, func(m *member) bool { return m.rule.ComplaintsWait })
	for _, s := range told {
		if s.waits || first && slices.ContainsFunc(s.members, func(m *member) bool { return m.rule.Unexplained }) {
			s.Next = told[i].Next
		}
	}
}

// restsOn reports a story whose leading finding rests on readings that a notice
// makes doubtful, and on no others.
func (s *story) restsOn(r *rule.Rule, n diag.Notice) bool {
	if !shares(n.Cylinders, s.Cylinders) || r.Shifts && s.comparesCylinders() {
		return false
	}
	needs := s.accusedBy()
	doubts := doubtedBy(r, n)
	return len(needs) > 0 && !slices.ContainsFunc(needs, func(need known.Need) bool { return !slices.Contains(doubts, need) })
}

// accusedBy are the kinds of readings that the leading finding rests on; of one
// that only explains what others found, or only doubts it, as that an engine stood, those
// that these rest on.
func (s *story) accusedBy() []known.Need {
	if len(s.members) == 0 || !s.lead().rule.Keeps && s.class() != rule.TestItself {
		return s.needsOf()
	}
	var needs []known.Need
	for _, m := range s.members {
		if !m.rule.Keeps && m.rule.Class != rule.TestItself && m.finding.Urgency != diag.NoAction {
			needs = append(needs, m.rule.Needs...)
		}
	}
	return needs
}

// repeatCheck is the check that makes a test good: that of the first notice
// that is allowed and was not made.
func (s *story) repeatCheck(c *known.Case, at diag.Urgency) *diag.Check {
	for _, due := range s.turnsFirst(c) {
		n := due.Notice
		k := cause.CheckNamed(repeatOf(c, due.rule, n))
		if k != nil && k.Then != "" && k.IsMade(c, n.Cylinders) {
			k = cause.CheckNamed(k.Then)
		}
		if k == nil || !k.Allowed(c, n.Cylinders, at) || k.IsMade(c, n.Cylinders) || enough(c, nil) {
			continue
		}
		asked := k.Ask(c, n.Cylinders, at)
		for key, fact := range n.Facts {
			if _, own := asked.Facts[key]; !own {
				asked.Facts[key] = fact
			}
		}
		return asked
	}
	return nil
}

// A due is a notice with its rule.
type due struct {
	diag.Notice
	rule *rule.Rule
}

// turnsFirst are a test's notices; ahead of a second gauge, which with the battery as it
// is reads as wrong as the first, those on an engine that turned too slowly.
func (s *story) turnsFirst(c *known.Case) []due {
	list := make([]due, 0, len(s.Notices)+1)
	for i, n := range s.Notices {
		r := s.members[i].rule
		if k := cause.CheckNamed(repeatOf(c, r, n)); len(list) == 0 && k != nil && k.Gauge {
			for _, other := range c.Sums.Notices {
				if slow := rule.Named(other.Rule); slow != nil && slow.TurnsSlowly {
					list = append(list, due{other, slow})
				}
			}
		}
		list = append(list, due{n, r})
	}
	return list
}

// askForRefused lets the tests that were refused be asked for where nothing
// else that was read asks for anything: what was looked at says nothing then of
// how the engine seals.
func askForRefused(c *known.Case, told []*story) {
	if c.MainRefused() == nil || slices.ContainsFunc(told, func(s *story) bool { return s.Urgency != diag.NoAction }) {
		return
	}
	for _, s := range told {
		for _, m := range s.members {
			if m.rule.Repeat != "" && m.rule.Notices == nil {
				m.finding.Urgency, s.Urgency = diag.CheckAgain, diag.CheckAgain
			}
		}
		if s.Urgency != diag.NoAction {
			s.sort()
			s.judge(c)
		}
	}
}

// askRefused is the test that a story of refused tests asks for, or the look that one of words
// which nobody made out does; nil where it asks for none: somebody who has the figures is asked
// for them.
func (s *story) askRefused(c *known.Case, at diag.Urgency) *diag.Check {
	k, of := cause.CheckNamed(s.lead().rule.Repeat), s.lead().finding.Cylinders
	if k == nil || s.lead().finding.Variant == "not-told" || !k.Allowed(c, of, at) || k.IsMade(c, of) {
		return nil
	}
	return k.Ask(c, of, at)
}
