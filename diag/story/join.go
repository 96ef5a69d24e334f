package story

import (
	"fmt"
	"slices"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
	"gaugesheet/diag/rule"
)

// A member is a rule with all that it holds for in one story.
type member struct {
	rule    *rule.Rule
	order   int // of the rule among all
	subject known.Subject
	finding diag.Finding
	better  string // the rule that says it better, "" for none
}

// A story is one while it is put together.
type story struct {
	diag.Story
	members []*member
	book    *ledger
	waits   bool // for the test to be made again, which proved to be at fault
}

func (s *story) lead() *member { return s.members[0] }

func (s *story) class() rule.Class {
	if len(s.members) == 0 {
		return rule.TestItself
	}
	return s.lead().rule.Class
}

func (s *story) order() int {
	if len(s.members) == 0 {
		return -1
	}
	return s.lead().order
}

// testLast is 0 for a story about the test, which is told before the engine's,
// and for liquid in a cylinder, which bends the engine at the next turn.
func (s *story) testLast() int {
	if s.About == diag.AboutTest || s.Urgency == diag.DoNotRun && s.class() == rule.TestItself {
		return 0
	}
	return 1
}

// partLast is 0 for a story about what all cylinders have in common, which is
// told before what parts of the engine have.
func (s *story) partLast(c *known.Case) int {
	if c.AllLow() != nil && s.lowThroughout() {
		return 0
	}
	return 1
}

// upperLast is 0 for a story of the bottom end that comes before work on what is
// above it.
func (s *story) upperLast() int {
	if slices.ContainsFunc(s.members, func(m *member) bool { return m.rule.Before }) {
		return 0
	}
	return 1
}

// strangeLast is 0 for a story that explains a complaint, which is told before
// one that explains none.
func (s *story) strangeLast() int {
	if len(s.Explains) > 0 {
		return 0
	}
	return 1
}

// sets joins things that belong together: the cylinders of the engine, the
// engine itself, the mixture, the test, and each fuel circuit.
type sets struct {
	parent []int
	index  map[string]int
	names  []string
}

func newSets(c *known.Case) *sets {
	s := &sets{index: map[string]int{}}
	for _, n := range c.Every() {
		s.node("cylinder " + n)
	}
	return s
}

func (s *sets) node(name string) int {
	if i, ok := s.index[name]; ok {
		return i
	}
	i := len(s.parent)
	s.index[name], s.parent, s.names = i, append(s.parent, i), append(s.names, name)
	return i
}

func (s *sets) root(i int) int {
	for s.parent[i] != i {
		i = s.parent[i]
	}
	return i
}

func (s *sets) join(a, b int) {
	if a, b = s.root(a), s.root(b); a != b {
		s.parent[max(a, b)] = min(a, b)
	}
}

// nodeOf is the thing that a hit is about; of a hit about several cylinders the
// first.
func (s *sets) nodeOf(about diag.About, subject known.Subject) int {
	switch about {
	case diag.AboutCylinders:
		if len(subject.Cylinders) > 0 {
			return s.node("cylinder " + subject.Name())
		}
		return s.node(string(diag.AboutEngine))
	case diag.AboutFuel:
		if subject.Circuit != nil {
			return s.node("fuel " + subject.Circuit.Name)
		}
		return s.node("fuel ")
	case diag.AboutSystem:
		return s.node("system " + diag.SystemKey(subject.System, subject.Part))
	}
	return s.node(string(about))
}

// joinHits joins what rules tie together: the cylinders of a group, and
// whatever else a combination is about.
func (s *sets) joinHits(hits []rule.Hit) {
	for _, h := range hits {
		n := s.nodeOf(h.Rule.About, h.Subject)
		if h.Rule.About == diag.AboutCylinders && !h.Rule.Of.Each {
			for _, name := range h.Subject.Cylinders {
				s.join(n, s.node("cylinder "+name))
			}
		}
		for _, section := range h.Rule.TiesSystems {
			s.join(n, s.node("system "+section))
		}
		for _, about := range h.Rule.Ties {
			s.join(n, s.nodeOf(about, h.Subject))
			if about == diag.AboutCylinders {
				for _, name := range h.Subject.Cylinders {
					s.join(n, s.node("cylinder "+name))
				}
			}
		}
	}
}

// joinAlike joins cylinders of which the very same is known, each by itself.
func (s *sets) joinAlike(c *known.Case, hits []rule.Hit) {
	grouped := map[int]int{}
	for i := range s.parent {
		grouped[s.root(i)]++
	}
	known := map[string]*strings.Builder{}
	for _, h := range hits {
		if h.Rule.About != diag.AboutCylinders || !h.Rule.Of.Each || len(h.Subject.Cylinders) == 0 {
			continue
		}
		n := h.Subject.Name()
		if grouped[s.root(s.node("cylinder "+n))] > 1 {
			continue
		}
		if known[n] == nil {
			known[n] = &strings.Builder{}
		}
		fmt.Fprintf(known[n], "%d ", h.Order)
	}
	first := map[string]string{}
	for _, n := range c.Every() {
		if known[n] == nil {
			continue
		}
		key := known[n].String()
		if other, ok := first[key]; ok {
			s.join(s.node("cylinder "+other), s.node("cylinder "+n))
			continue
		}
		first[key] = n
	}
}

// tell makes the stories of what the rules recognised.
func tell(c *known.Case, hits []rule.Hit) []*story {
	s := newSets(c)
	s.joinHits(hits)
	s.joinAlike(c, hits)
	s.joinWhole(c, hits)
	byRoot := map[int]*story{}
	var told []*story
	for _, h := range hits {
		root := s.root(s.nodeOf(h.Rule.About, h.Subject))
		one := byRoot[root]
		if one == nil {
			one = &story{}
			byRoot[root], told = one, append(told, one)
		}
		one.add(h)
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

// joinWhole joins a story of all the cylinders that were read with that of the
// engine as a whole, where the engine as a whole is at fault; what is seen of the
// plugs alone is another matter than how the engine seals or keeps time.
func (s *sets) joinWhole(c *known.Case, hits []rule.Hit) {
	ill := slices.ContainsFunc(hits, func(h rule.Hit) bool {
		return h.Rule.About == diag.AboutEngine && (h.Rule.Class == rule.Group || h.Rule.Class == rule.Together)
	})
	names := c.Read()
	if !ill || len(names) == 0 {
		return
	}
	root := s.root(s.node("cylinder " + names[0]))
	for _, n := range names {
		if s.root(s.node("cylinder "+n)) != root {
			return
		}
	}
	if slices.ContainsFunc(hits, func(h rule.Hit) bool {
		return h.Rule.About == diag.AboutCylinders && h.Rule.Kind != rule.OfPlugs && s.root(s.nodeOf(h.Rule.About, h.Subject)) == root
	}) {
		s.join(root, s.node(string(diag.AboutEngine)))
	}
}

// add takes a hit in; what holds for several cylinders, each by itself, is one
// member.
func (s *story) add(h rule.Hit) {
	if h.Rule.Of.Each {
		for _, m := range s.members {
			if m.rule == h.Rule {
				m.subject.Cylinders = append(slices.Clone(m.subject.Cylinders), h.Subject.Cylinders...)
				return
			}
		}
	}
	s.members = append(s.members, &member{rule: h.Rule, order: h.Order, subject: h.Subject})
}
