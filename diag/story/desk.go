package story

import (
	"slices"
	"sync"

	"gaugesheet/diag/known"
	"gaugesheet/diag/rule"
)

// A desk is what stories are put together on, to be used for one case after the
// other: most are trials, of which nobody needs the stories once it is known where
// they lead.
type desk struct {
	hits    []rule.Hit
	members []member
	told    []story
}

var desks = sync.Pool{New: func() any { return &desk{} }}

// clear gives a desk, and the ledgers of the stories that were told on it, to the
// next case.
func (d *desk) clear(told []*story) {
	for _, s := range told {
		s.putBack()
	}
	clear(d.hits)
	clear(d.members)
	clear(d.told)
	desks.Put(d)
}

// tell makes the stories of what the rules recognise.
func (d *desk) tell(c *known.Case) []*story {
	d.hits = rule.RunInto(d.hits[:0], c)
	hits := d.hits
	d.members = slices.Grow(d.members[:0], len(hits)) // so that none moves as others are added
	d.told = slices.Grow(d.told[:0], len(hits))
	s := newSets(c)
	s.joinHits(c, hits)
	s.joinAlike(c, hits)
	s.joinWhole(c, hits)
	byRoot := make([]*story, len(s.parent))
	var told []*story
	for _, h := range hits {
		root := s.root(s.nodeOfHit(h))
		one := byRoot[root]
		if one == nil {
			d.told = append(d.told, story{})
			one = &d.told[len(d.told)-1]
			byRoot[root], told = one, append(told, one)
		}
		one.add(d, h)
	}
	for _, one := range told {
		one.giveAway(told)
	}
	told = slices.DeleteFunc(told, func(one *story) bool {
		one.compose(c)
		return len(one.members) == 0
	})
	if test := aboutTest(c, told); test != nil {
		told = append(told, test)
	}
	return told
}

// giveAway moves what the members of another story say better of the very same cylinders to
// that one: what they explain is no matter of its own.
func (s *story) giveAway(told []*story) {
	s.members = slices.DeleteFunc(s.members, func(m *member) bool {
		for _, other := range told {
			if other != s && other.saysAllBetter(m) {
				m.given, other.members = true, append(other.members, m)
				return true
			}
		}
		return false
	})
}

// saysAllBetter reports a story whose members say better what another's member says of
// each of its cylinders.
func (s *story) saysAllBetter(m *member) bool {
	return len(m.subject.Cylinders) > 0 && !slices.ContainsFunc(m.subject.Cylinders, func(n string) bool {
		return !slices.ContainsFunc(s.members, func(better *member) bool {
			return slices.Contains(better.rule.SaysBetterThan, m.rule.Name) && slices.Contains(better.subject.Cylinders, n)
		})
	})
}

// add takes a hit in; what holds for several cylinders, each by itself, is one
// member.
func (s *story) add(d *desk, h rule.Hit) {
	if h.Rule.Of.Each {
		for _, m := range s.members {
			if m.rule == h.Rule {
				m.subject.Cylinders = append(slices.Clone(m.subject.Cylinders), h.Subject.Cylinders...)
				return
			}
		}
	}
	d.members = append(d.members, member{rule: h.Rule, order: h.Order, subject: h.Subject})
	s.members = append(s.members, &d.members[len(d.members)-1])
}
