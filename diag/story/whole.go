package story

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
	"gaugesheet/diag/rule"
)

// liftWhole makes an engine that is low throughout as urgent as the cylinder of
// it that is to be seen to soonest, one without pressure set aside: what is so
// of all is said first.
func liftWhole(c *known.Case, told []*story) {
	low := c.AllLow()
	if low == nil || low.Variant == "expected" || low.Variant == "ratio" || low.Variant == "floor" && c.LeftByDecompressor() { // what geometry suggests, or a decompressor may leave, hurries nobody
		return
	}
	soon := slices.ContainsFunc(told, func(s *story) bool {
		return s.About == diag.AboutCylinders && s.Urgency.Rank() >= diag.ActSoon.Rank()
	})
	for _, s := range told {
		if soon && s.About == diag.AboutEngine && s.lowThroughout() && s.mayWait() {
			s.Urgency = diag.ActSoon
		}
	}
}

// liftHot makes what may be why an engine gets too hot as urgent as that is: it
// ruins itself, whichever of these it is.
func liftHot(c *known.Case, told []*story) {
	for _, s := range told {
		if c.RunsHot() && !s.waits && s.Urgency == diag.CheckAgain && slices.Contains(s.Explains, "overheating") {
			s.Urgency = diag.ActSoon
		}
	}
}

// liftRaw makes what a misfire comes from as urgent as that is where fuel goes unburned into
// the catalyst, whichever rule found it: the story of the cylinder that sends it, or where
// none does what else the misfire comes from.
func liftRaw(c *known.Case, told []*story) {
	if !slices.ContainsFunc(told, (*story).mayWait) || !known.SendsFuelRaw.HoldsIn(c) {
		return
	}
	raw := func(s *story) bool {
		return s.About == diag.AboutCylinders && slices.ContainsFunc(s.Cylinders, c.SendsRaw)
	}
	sent := slices.ContainsFunc(told, func(s *story) bool { return s.ofMisfire() && raw(s) })
	for _, s := range told {
		if s.mayWait() && s.ofMisfire() && (!sent || raw(s)) {
			s.Urgency = diag.ActSoon
		}
	}
}

// liftMissing makes a low cylinder as urgent as the misfire is that it explains.
func liftMissing(c *known.Case, told []*story) {
	for _, s := range told {
		if s.mayWait() && s.About == diag.AboutCylinders && slices.Contains(s.Explains, "misfire") && slices.ContainsFunc(s.Cylinders, c.MissesByPressure) {
			s.Urgency = diag.ActSoon
		}
	}
}

// mayWait reports a story that is to be checked again, and does not wait for its test.
func (s *story) mayWait() bool { return s.Urgency == diag.CheckAgain && !s.waits }

// ofMisfire reports a story that explains the misfire, or says that nothing does.
func (s *story) ofMisfire() bool {
	return slices.Contains(s.Explains, "misfire") || slices.ContainsFunc(s.members, func(m *member) bool {
		open, _ := m.finding.Facts["complaints"].(diag.Names)
		return m.rule.Unexplained && slices.Contains(open, "misfire")
	})
}

// lowThroughout reports a story in which all cylinders have something in common,
// by their pressure.
func (s *story) lowThroughout() bool {
	return s.About == diag.AboutEngine && slices.ContainsFunc(s.members, func(m *member) bool {
		return m.rule.About == diag.AboutEngine && m.rule.Class <= rule.Group && slices.Contains(m.rule.Needs, known.NeedsCompression)
	})
}

// agreeOnOrder puts the causes that a story of the engine and those of its
// cylinders have in common in one order: that of the first of them to be told, or of the
// cylinders in which one of these was heard or seen.
func agreeOnOrder(told []*story) {
	for i, whole := range told {
		if whole.About != diag.AboutEngine {
			continue
		}
		leads := slices.IndexFunc(told[:i], whole.partOf)
		if leads < 0 {
			leads = slices.IndexFunc(told, whole.heardIn)
		}
		if leads >= 0 {
			whole.follow(told[leads].Causes)
		}
		for j, part := range told {
			if j != leads && part != whole && whole.partOf(part) {
				part.follow(whole.Causes)
			}
		}
	}
}

// heardIn reports a story of some of this one's cylinders whose first cause was heard or seen
// in them, of those that are told of this one as well, in which it was not.
func (s *story) heardIn(part *story) bool {
	if part == s || part.book == nil || s.book == nil || !s.partOf(part) {
		return false
	}
	first := part.book.first()
	return slices.ContainsFunc(s.Causes, func(p diag.Phrase) bool { return p.Key == first }) && part.heard() && !s.witnessed(first, byEar...)
}

// partOf reports a story that names some of the cylinders that this one names.
func (s *story) partOf(part *story) bool {
	names := part.named()
	return slices.ContainsFunc(s.named(), func(n string) bool { return slices.Contains(names, n) })
}

// named are the cylinders that the leading finding of a story names, and those that the story
// is about where that names none of them.
func (s *story) named() []string {
	if len(s.members) == 0 {
		return nil
	}
	return appendNew(slices.Clone(s.lead().finding.Cylinders), s.Cylinders)
}

// follow puts those of a story's causes that are among others in their order,
// in the places that they have.
func (s *story) follow(order []diag.Phrase) {
	at := func(p diag.Phrase) int {
		return slices.IndexFunc(order, func(o diag.Phrase) bool { return o.Key == p.Key })
	}
	var places []int
	var common []diag.Phrase
	for i, p := range s.Causes {
		if at(p) >= 0 {
			places, common = append(places, i), append(common, p)
		}
	}
	slices.SortStableFunc(common, func(a, b diag.Phrase) int { return at(a) - at(b) })
	for i, p := range common {
		s.Causes[places[i]] = p
	}
}

// warn puts what warns of harm at the next start behind what leads: a page tells few more.
func (s *story) warn() {
	if i := slices.IndexFunc(s.members, func(m *member) bool { return m.rule.Warns && m.better == "" }); i > 1 {
		m := s.members[i]
		s.members = slices.Insert(slices.Delete(s.members, i, i+1), 1, m)
	}
}
