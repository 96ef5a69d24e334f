package story

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/cause"
	"gaugesheet/diag/rule"
)

// tellWithin takes what one story explains out of those beside it: it is told within that
// story, as what the fault there does, and is no second matter of its own.
func tellWithin(told []*story) []*story {
	for j := len(told) - 1; j >= 0; j-- {
		b := told[j]
		for _, a := range told {
			if a != b && a.brings(b) {
				a.takeIn(b)
				told = slices.Delete(told, j, j+1)
				break
			}
		}
	}
	return told
}

// takeIn adds the findings of a story to those of this one, behind its own. Where both
// suspect the same first and nothing speaks against it, it is as sure as the surer.
func (s *story) takeIn(b *story) {
	if first := b.suspected(0); first == s.suspected(0) && len(s.Against) == 0 && sureness(b.Confidence) > sureness(s.Confidence) {
		s.Confidence, s.Doubts = b.Confidence, b.Doubts
	}
	s.members = append(s.members, b.members...)
	s.Urgency = worse(s.Urgency, b.Urgency)
	if len(s.Cylinders) == 0 {
		s.With = appendNew(appendNew(s.With, b.Cylinders), b.With)
	}
}

// brings reports a story that explains another: what it suspects first brings about all that
// the other tells, and the other explains nothing that this one does not.
func (s *story) brings(b *story) bool {
	first := s.suspected(0)
	if first == nil || s.looksElsewhere() || s.isApart() || b.isApart() || slices.ContainsFunc(b.Explains, func(x string) bool { return !slices.Contains(s.Explains, x) }) {
		return false
	}
	switch {
	case b.onlyBrought(first.Name):
		return true
	case first.Vague: // it says what is so, which a bare figure says as well, and not why
		return false
	}
	if len(s.Cylinders) == 0 && len(b.Cylinders) > 0 && b.heard() && !s.witnessed(b.book.first(), byEar...) { // which is known of these alone
		return false
	}
	if b.Urgency.Rank() > s.Urgency.Rank() || !s.placeOf(b) || len(s.Cylinders) > 0 && b.About == diag.AboutEngine && !cause.Shared(first.Name) {
		return false
	}
	for i := range b.Causes {
		if other := b.suspected(i); other.Name == first.Name || cause.Worn(other.Name, first.Name) {
			return i == 0 || s.names(b)
		}
	}
	return false
}

// heard reports a story whose first cause was heard or seen in its cylinders.
func (s *story) heard() bool { return s.witnessed(s.book.first(), byEar...) }

// byEar are the kinds of tests that hear or see a cause where it is.
var byEar = []rule.Kind{rule.OfLeakage, rule.OfSight}

// isApart reports a story that neither explains another nor is explained by one: of the
// test, of what asks for nothing, of what waits for the test or looks elsewhere.
func (s *story) isApart() bool {
	return s.About == diag.AboutTest || s.Urgency == diag.NoAction || s.waits || s.madeUp || s.opens() >= 0 || s.book.kept ||
		slices.ContainsFunc(s.members, func(m *member) bool { return m.rule.Unexplained })
}

// looksElsewhere reports a story that only says, by what the pressures leave, where to look
// beside them: what it suspects is what is common, and explains no reading of its own.
func (s *story) looksElsewhere() bool {
	return s.lead().rule.Class == rule.Elsewhere && s.lead().rule.Kind == rule.OfCompression
}

// suspected is one of the causes that a story shows, nil where it has not so many.
func (s *story) suspected(i int) *cause.Cause {
	if i >= len(s.Causes) {
		return nil
	}
	return cause.Named(s.Causes[i].Key)
}

// onlyBrought reports a story of nothing but what a cause brings about by itself.
func (s *story) onlyBrought(name string) bool {
	return !slices.ContainsFunc(s.members, func(m *member) bool { return !s.brought(m, name) })
}

func (s *story) brought(m *member, name string) bool {
	switch m.rule.Brought {
	case rule.ByFault:
		return !slices.ContainsFunc(rule.PastLimits(s.book.c, m.subject.System), func(r *diag.MeasuredReading) bool {
			return !cause.BringsPast(s.book.c, name, m.subject.System, r)
		})
	case rule.ByHeat:
		return cause.HeatsExhaust(name)
	case rule.ByMiss:
		return cause.Explained(name, "misfire")
	case rule.WithMiss:
		return s.lead().rule.Brought == rule.ByMiss
	}
	return false
}

// placeOf reports a story that tells where what another tells lies: of all the cylinders that
// the other or any of its findings names, or of the engine or its fuel where that names some,
// and not of less.
func (s *story) placeOf(b *story) bool {
	if len(s.Cylinders) == 0 && len(b.Cylinders) > 0 {
		return s.About != diag.AboutSystem
	}
	return !slices.ContainsFunc(b.everyCylinder(), func(n string) bool { return !slices.Contains(s.Cylinders, n) })
}

// names reports a story that is surer of where and why than another, which suspects the same
// behind something else, of no cylinder.
func (s *story) names(b *story) bool {
	return len(b.Cylinders) == 0 && s.Confidence != diag.Weak && b.Confidence != diag.Strong && len(b.book.found()) == 0
}
