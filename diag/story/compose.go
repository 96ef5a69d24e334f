package story

import (
	"cmp"
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/cause"
	"gaugesheet/diag/known"
	"gaugesheet/diag/rule"
)

// compose makes a story of its members: what it is about, which of them leads,
// the causes, how sure, how urgent.
func (s *story) compose(c *known.Case) {
	s.about(c)
	for _, m := range s.members {
		m.say(c)
	}
	s.drop()
	s.fold()
	s.sort()
	if len(s.members) == 0 {
		return
	}
	s.stoppedBySystem()
	s.book = s.weigh(c)
	s.settle()
	s.Urgency = diag.NoAction
	for _, m := range s.members {
		s.Urgency = worse(s.Urgency, m.finding.Urgency)
	}
	s.unsayProof(c)
	s.book.press(s.members, s.Urgency)
	s.open()
	s.Causes, s.Against, s.madeUp = nil, nil, false // of an earlier turn
	if s.suspects() {
		s.Causes, s.Against = s.ownCauses(s.book.top()), s.against()
	}
	s.judge(c)
	if s.madeUp { // no part is suspected for what the test makes of a sound cylinder
		s.Causes, s.Against = nil, nil
	}
}

// suspects reports a story with causes to tell: what asks for nothing has none but those
// that what leads it speaks for.
func (s *story) suspects() bool {
	return s.Urgency != diag.NoAction || s.book.speaks(s.lead().rule.Name, "")
}

// ownCauses leaves of the causes of a story that asks for nothing those for which its findings
// speak: what else is told of the engine is no reason to suspect more of what is left alone.
func (s *story) ownCauses(all []diag.Phrase) []diag.Phrase {
	if s.Urgency != diag.NoAction {
		return all
	}
	return slices.DeleteFunc(all, func(p diag.Phrase) bool {
		return !slices.ContainsFunc(s.members, func(m *member) bool { return s.book.speaks(m.rule.Name, p.Key) })
	})
}

// open puts a finding that speaks for the likeliest cause in front of one that
// speaks for others only and presses no more: what a story says first and what
// it suspects first belong together. What was measured stays before a look.
func (s *story) open() {
	lead, first := s.lead(), s.book.first()
	if first == "" || !s.book.speaks(lead.rule.Name, "") || s.book.speaks(lead.rule.Name, first) {
		return
	}
	for i, m := range s.members {
		if m.better == "" && m.finding.Urgency == lead.finding.Urgency && s.part(m) <= s.part(lead) && looksLast(m) <= looksLast(lead) && s.book.speaks(m.rule.Name, first) {
			s.members = slices.Insert(slices.Delete(s.members, i, i+1), 0, m)
			return
		}
	}
}

// about sets what the story is about: cylinders where it is tied to any, else
// the engine, the mixture, the fuel.
func (s *story) about(c *known.Case) {
	var names []string
	abouts := map[diag.About]bool{}
	for _, m := range s.members {
		about := m.rule.About
		if about == diag.AboutCylinders && (len(m.subject.Cylinders) == 0 || ofNone(m.rule, m.subject, c.UnitSuspect(), len(c.Every()))) { // of none in particular
			about = diag.AboutEngine
		}
		abouts[about] = true
		for _, about := range m.rule.Ties {
			abouts[about] = true
		}
		if m.subject.Circuit != nil {
			s.Circuit = m.subject.Circuit.Name
		}
		if m.rule.About == diag.AboutSystem {
			s.System, s.Part = m.subject.System, m.subject.Part
		}
	}
	for _, about := range []diag.About{diag.AboutEngine, diag.AboutCylinders, diag.AboutMixture, diag.AboutFuel, diag.AboutSystem, diag.AboutTest} {
		if abouts[about] {
			s.About = about
			break
		}
	}
	if s.About != diag.AboutCylinders && s.About != diag.AboutMixture {
		return
	}
	for _, m := range s.members { // a story of cylinders is not about the plugs that it is tied to
		for _, n := range m.subject.Cylinders {
			if m.rule.About == s.About && !slices.Contains(names, n) {
				names = append(names, n)
			}
		}
	}
	c.InOrder(names)
	s.Cylinders = names
}

// circuit is the fuel circuit that a story is about, nil for none.
func (s *story) circuit() *known.Circuit {
	for _, m := range s.members {
		if s.About == diag.AboutFuel && m.subject.Circuit != nil {
			return m.subject.Circuit
		}
	}
	return nil
}

func (m *member) say(c *known.Case) {
	m.finding = diag.Finding{Urgency: diag.CheckAgain, Confidence: diag.Fair}
	if m.rule.Say != nil {
		m.finding = m.rule.Say(c, m.subject)
	}
	f := &m.finding
	f.Rule = m.rule.Name
	if f.Cylinders == nil {
		f.Cylinders = m.subject.Cylinders
	}
	if m.subject.Circuit != nil {
		f.Circuit = m.subject.Circuit.Name
	}
	if f.Headline == "" {
		f.Headline = m.rule.Headline
	}
	if f.Urgency == "" || m.madeAgain(c) {
		f.Urgency = diag.NoAction
	}
	if f.Confidence == "" {
		f.Confidence = diag.Fair
	}
}

// madeAgain reports a finding that only asks for a test to be made again, where
// that was done.
func (m *member) madeAgain(c *known.Case) bool {
	if m.rule.Repeat == "" || m.rule.Notices != nil {
		return false
	}
	k := cause.CheckNamed(m.rule.Repeat)
	return k != nil && k.IsMade(c, m.finding.Cylinders)
}

// covers reports that one member speaks for every cylinder of another.
func (m *member) covers(other *member) bool {
	if len(m.finding.Cylinders) == 0 || len(other.finding.Cylinders) == 0 {
		return true
	}
	return !slices.ContainsFunc(other.finding.Cylinders, func(n string) bool { return !slices.Contains(m.finding.Cylinders, n) })
}

func (m *member) overlaps(other *member) bool {
	if len(m.finding.Cylinders) == 0 || len(other.finding.Cylinders) == 0 {
		return true
	}
	return slices.ContainsFunc(other.finding.Cylinders, func(n string) bool { return slices.Contains(m.finding.Cylinders, n) })
}

// drop leaves out what another member stands instead of.
func (s *story) drop() {
	s.members = slices.DeleteFunc(s.members, func(m *member) bool {
		return slices.ContainsFunc(s.members, func(better *member) bool {
			return better != nil && slices.Contains(better.rule.InsteadOf, m.rule.Name) && better.overlaps(m)
		})
	})
}

// fold marks what other members say better, and gives it their urgency where
// that is lower: who weighs more readings together knows better how soon.
func (s *story) fold() {
	for _, m := range s.members {
		var open []string // the cylinders that no other says better, once some does
		first := ""
		for _, better := range s.members {
			if better.saysBetter(m) {
				m.better = better.rule.Name
				break
			}
			if better == m || !slices.Contains(better.rule.SaysBetterThan, m.rule.Name) {
				continue
			}
			if first == "" {
				open = slices.Clone(m.finding.Cylinders)
			}
			before := len(open)
			open = slices.DeleteFunc(open, func(n string) bool { return slices.Contains(better.finding.Cylinders, n) })
			if first == "" && len(open) < before {
				first = better.rule.Name
			}
			if len(open) == 0 {
				m.better = first
			}
		}
	}
}

// settle gives what another member says better the urgency of that one where it
// is lower: who weighs more readings together knows better how soon. A member
// that only explains what others found is as urgent as the most urgent of them.
func (s *story) settle() {
	s.lower(func(better *member) bool { return !better.rule.Keeps })
	rest := diag.Urgency("")
	for _, m := range s.members {
		if !m.rule.Keeps {
			rest = worse(rest, m.finding.Urgency)
		}
	}
	for _, m := range s.members {
		if m.rule.Keeps && rest != "" {
			m.finding.Urgency = rest
		}
	}
	s.lower(func(*member) bool { return true })
}

// lower gives members the urgency of those that say them better, where that is
// lower.
func (s *story) lower(counts func(better *member) bool) {
	for settled := false; !settled; {
		settled = true
		for _, m := range s.members {
			for _, better := range s.members {
				if counts(better) && better.finding.Urgency.Rank() < m.finding.Urgency.Rank() && (better.rule.Name == m.better || better.saysBetter(m)) {
					m.finding.Urgency, settled = better.finding.Urgency, false
				}
			}
		}
	}
}

// saysBetter reports that one member weighs all that another weighs, and more,
// though a third may be the one that says it on the page.
func (m *member) saysBetter(other *member) bool {
	return m != other && slices.Contains(m.rule.SaysBetterThan, other.rule.Name) && m.covers(other)
}

// part is 0 for a member that speaks for every cylinder of the story and 1 for
// one that speaks for some: that one does not lead, or the headline would hide
// the others.
func (s *story) part(m *member) int {
	all := s.Cylinders
	if s.About == diag.AboutEngine {
		all = s.everyCylinder()
	}
	if len(m.finding.Cylinders) > 0 && slices.ContainsFunc(all, func(n string) bool { return !slices.Contains(m.finding.Cylinders, n) }) {
		return 1
	}
	return 0
}

// looksLast is 0 for what was measured, which is told before the look of plugs, and
// before how the engine came here where that asks for nothing, and for what is understood.
func looksLast(m *member) int {
	if m.rule.Apart && m.rule.About == diag.AboutCylinders || m.rule.Kind == rule.OfPlugs && m.rule.Class >= rule.Group || m.rule.Kind == rule.OfHistory && m.finding.Urgency == diag.NoAction {
		return 1
	}
	return 0
}

// sort puts the members in order, the leading one first: what nothing says
// better, by urgency, what was measured before what was looked at, class, how
// sure, and as the rules are listed.
func (s *story) sort() {
	folded := func(m *member) int {
		if m.better != "" {
			return 1
		}
		return 0
	}
	ill := s.lowThroughout()
	// What is said of a whole engine is not led by what holds for a part of it,
	// unless that stops it.
	whole := func(m *member, part int) int {
		switch {
		case s.About == diag.AboutEngine && m.rule.Class == rule.Elsewhere && ill: // what was found is told before what is left open
			return 1
		case s.About == diag.AboutEngine && m.finding.Urgency != diag.DoNotRun:
			return part
		}
		return 0
	}
	sortBy(s.members, func(m *member) sortKey {
		part := s.part(m)
		return sortKey{
			whole(m, part),
			folded(m),
			-m.finding.Urgency.Rank(),
			part,
			looksLast(m),
			int(m.rule.Class),
			-sureness(m.finding.Confidence),
			m.order,
		}
	})
	// Where the first is folded as well (two that each say the other better),
	// it leads all the same.
	if len(s.members) > 0 {
		s.members[0].better = ""
		s.warn()
	}
}

// finish is the story as a diagnosis holds it: every member with the causes of
// the story, so that no two can be read against each other.
func (s *story) finish() diag.Story {
	for i := range s.Causes {
		s.Causes[i].Facts = s.book.facts(s.Causes[i].Key, s.Cylinders)
	}
	out := s.Story
	out.Ledger = slices.Clone(s.book.entries)
	out.Tests, out.Codes = s.tests(), s.codes()
	out.Sound = s.sound() && (!slices.Contains(s.needsOf(), known.NeedsCompression) || s.book.c.PressureByFigure())
	if s.About == diag.AboutTest { // it is told by its notices
		return out
	}
	for i, m := range s.members {
		f := m.finding
		f.Causes, f.Against, f.Next = s.Causes, s.Against, s.Next
		if i == 0 {
			f.Confidence, f.Doubts = s.Confidence, s.Doubts
			f.Urgency = s.Urgency // what a folded member asks for is asked by the one that leads
		} else {
			f.SaidBy, f.Better = cmp.Or(m.better, s.lead().rule.Name), m.better != ""
			// no member is surer, or asks sooner, than the story that it is part of
			f.Confidence = atMost(f.Confidence, s.Confidence)
			if f.Urgency.Rank() > s.Urgency.Rank() {
				f.Urgency = s.Urgency
			}
		}
		out.Members = append(out.Members, f)
	}
	for i, m := range s.members {
		out.Members = append(out.Members, m.implied(out.Members[i])...)
	}
	return out
}

// implied are the findings of the rules that say less of what a member found.
func (m *member) implied(by diag.Finding) []diag.Finding {
	list := make([]diag.Finding, len(m.rule.Implies))
	for i, name := range m.rule.Implies {
		f := by
		f.Rule, f.Variant, f.SaidBy, f.Better, f.Doubts = name, "", m.rule.Name, true, nil
		f.Headline = ""
		list[i] = f
	}
	return list
}

// needsOf are the kinds of readings that the leading finding rests on.
func (s *story) needsOf() []known.Need {
	if len(s.members) == 0 {
		return nil
	}
	return s.lead().rule.Needs
}

// testOf is the test that a kind of reading belongs to.
var testOf = map[known.Need]string{
	known.NeedsCompression: "compression", known.NeedsWet: "compression", known.NeedsFirst: "compression", known.NeedsEarlier: "compression",
	known.NeedsLeakage: "leakage", known.NeedsPlugs: "plugs", known.NeedsRotors: "rotors", known.NeedsFuel: "fuel pressure",
}

// tests are the tests that the findings of a story rest on.
func (s *story) tests() []string {
	var list []string
	for _, m := range s.members {
		if t := m.subject.System; t != "" && !slices.Contains(list, t) && m.finding.Urgency != diag.NoAction {
			list = append(list, t)
		}
		for _, need := range m.rule.Needs {
			if t := cmp.Or(testOf[need], string(need)); !slices.Contains(list, t) && m.finding.Urgency != diag.NoAction {
				list = append(list, t)
			}
		}
	}
	return list
}

// codes are the stored codes that were counted for one of the causes shown.
func (s *story) codes() []string {
	var causes []string
	for _, e := range s.book.entries {
		shown := slices.ContainsFunc(s.Causes, func(p diag.Phrase) bool { return p.Key == e.Cause })
		if e.Kind == string(rule.OfCodes) && e.Weight > 0 && shown {
			causes = append(causes, e.Cause)
		}
	}
	if len(causes) == 0 {
		return nil
	}
	return rule.StoredFor(s.book.c, causes)
}

// sound reports a story in which nothing is wrong.
func (s *story) sound() bool {
	return len(s.members) > 0 && s.Urgency == diag.NoAction && s.class() == rule.Sound
}
