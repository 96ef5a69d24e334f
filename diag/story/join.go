package story

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/cause"
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
	given   bool   // by another story to that which explains it: it points to nothing more
}

// A story is one while it is put together.
type story struct {
	diag.Story
	members []*member
	book    *ledger
	waits   bool // for the test to be made again, which proved to be at fault
	madeUp  bool // of nothing but readings that the fault of the test makes of sound cylinders
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
// and for liquid in a cylinder, which bends the engine at the next turn; where what the owner
// complains of is answered beside the test, that comes first.
func (s *story) testLast(answered bool) int {
	if s.About == diag.AboutTest && !answered || s.Urgency == diag.DoNotRun && s.class() == rule.TestItself {
		return 0
	}
	return 1
}

// answeredBeside reports that a complaint is explained by readings in which a doubt of the
// book's figure has no part, while that explains none. A test that was at fault itself comes
// first all the same.
func answeredBeside(told []*story) bool {
	i := slices.IndexFunc(told, func(s *story) bool { return s.About == diag.AboutTest })
	if i < 0 || len(told[i].Explains) > 0 {
		return false
	}
	doubt := cause.Named(told[i].book.first())
	return doubt != nil && doubt.Book && slices.ContainsFunc(told, func(s *story) bool {
		first := cause.Named(s.book.first())
		return s.Urgency == told[i].Urgency && len(s.Explains) > 0 && first != nil && !first.Test && !s.touchedBy(told[i])
	})
}

// touchedBy reports a story whose leading finding rests on a reading that this test makes
// doubtful.
func (s *story) touchedBy(test *story) bool {
	for i, n := range test.Notices {
		doubts := doubtedBy(test.members[i].rule, n)
		if s.waits || slices.ContainsFunc(s.accusedBy(), func(need known.Need) bool { return slices.Contains(doubts, need) }) {
			return true
		}
	}
	return false
}

// partLast is 0 for a story about what all cylinders have in common, or of what was seen of
// the engine and stops it, which is told before what parts of the engine have.
func (s *story) partLast(c *known.Case) int {
	if c.AllLow() != nil && s.lowThroughout() || s.About == diag.AboutEngine && s.stoppedBySight() {
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

// strangeLast is 0 for a story that explains a complaint, or proves a repair, which is told before
// one that does neither, and this before a doubt of the gauge, a cylinder that is a little
// low and what makes nobody complain of this, and what is not understood last.
func (s *story) strangeLast(c *known.Case) int {
	switch {
	case s.Urgency != diag.DoNotRun && s.lead().rule.Beside != "": // what is not understood is told behind what is
		return 3
	case len(s.Explains) > 0 && !s.waits, s.Urgency == diag.NoAction && s.lead().rule.Class == rule.Sound && s.lead().rule.Kind == rule.OfEarlier:
		return 0
	case len(c.Complaints()) > 0 && (s.onlyNear(c) || s.notFelt(c.Complaints()...) || s.aLittleLow(c) && c.Complains(unfelt...)):
		return 2
	}
	return 1
}

// howFar is how far off the readings of a story of cylinders are on which its leading
// finding rests, in thousandths: of what is wrong alike in several the worst is told first.
func (s *story) howFar(c *known.Case) int {
	needs := s.needsOf()
	if s.About != diag.AboutCylinders || len(needs) == 0 {
		return 0
	}
	return int(1000 * c.HowFar(needs[0], s.lead().finding.Cylinders))
}

// sets joins things that belong together: the cylinders of the engine, the
// engine itself, the mixture, the test, and each fuel circuit.
type sets struct {
	parent    []int
	cylinders []string        // the first of all things
	others    []string        // and those after them
	mixes     string          // the first cylinder that its own hit ties to the mixture
	told      map[string]bool // cylinders of which something is told that is not apart; nil where nothing is apart
	doubted   bool            // the figures of a whole section are in another unit than they say
}

func newSets(c *known.Case) *sets {
	s := &sets{cylinders: c.Every(), doubted: c.UnitSuspect(), parent: make([]int, len(c.Every()), len(c.Every())+8)}
	for i := range s.parent {
		s.parent[i] = i
	}
	return s
}

// cylinder is a cylinder by its name.
func (s *sets) cylinder(name string) int {
	if i := slices.Index(s.cylinders, name); i >= 0 {
		return i
	}
	return s.node("cylinder " + name)
}

// node is any other thing by its name.
func (s *sets) node(name string) int {
	if i := slices.Index(s.others, name); i >= 0 {
		return len(s.cylinders) + i
	}
	s.others, s.parent = append(s.others, name), append(s.parent, len(s.parent))
	return len(s.parent) - 1
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
			return s.cylinder(subject.Name())
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

// nodeOfHit is the thing that a hit is about. What all cylinders are by figures in a unit that
// is in doubt says nothing of any of them, and does not join what else is known of some.
func (s *sets) nodeOfHit(h rule.Hit) int {
	if s.ofNone(h) {
		return s.node(string(diag.AboutEngine))
	}
	if h.Rule.Apart && !s.spokenOf(h.Subject) {
		return s.node("apart " + h.Rule.Name)
	}
	return s.nodeOf(h.Rule.About, h.Subject)
}

// spokenOf reports cylinders of which something else is told.
func (s *sets) spokenOf(subject known.Subject) bool {
	return slices.ContainsFunc(subject.Cylinders, func(n string) bool { return s.told[n] })
}

// otherMatter reports a cylinder that the mixture ties to another, of which one is short of
// pressure and the other is not: what both do to the mixture makes no one matter of them.
func (s *sets) otherMatter(c *known.Case, about diag.About, h rule.Hit) bool {
	if about != diag.AboutMixture || h.Rule.About != diag.AboutCylinders || len(h.Subject.Cylinders) != 1 {
		return false
	}
	name := h.Subject.Name()
	if s.mixes == "" {
		s.mixes = name
	}
	return c.AnyLow([]string{name}) != c.AnyLow([]string{s.mixes})
}

// ofNone reports a hit of all cylinders by a figure of the book, in a unit that is in doubt.
func (s *sets) ofNone(h rule.Hit) bool { return ofNone(h.Rule, h.Subject, s.doubted, len(s.cylinders)) }

func ofNone(r *rule.Rule, subject known.Subject, doubted bool, all int) bool {
	return doubted && r.About == diag.AboutCylinders && r.Absolute && len(subject.Cylinders) == all
}

// joinHits joins what rules tie together: the cylinders of a group, and
// whatever else a combination is about.
func (s *sets) joinHits(c *known.Case, hits []rule.Hit) {
	s.tell(hits)
	for _, h := range hits {
		n := s.nodeOfHit(h)
		if h.Rule.About == diag.AboutCylinders && !h.Rule.Of.Each && !s.ofNone(h) {
			for _, name := range h.Subject.Cylinders {
				s.join(n, s.cylinder(name))
			}
		}
		for _, section := range h.Rule.TiesSystems {
			s.join(n, s.node("system "+section))
		}
		for _, about := range h.Rule.Ties {
			if s.otherMatter(c, about, h) {
				continue
			}
			s.join(n, s.nodeOf(about, h.Subject))
			if about == diag.AboutCylinders {
				for _, name := range h.Subject.Cylinders {
					s.join(n, s.cylinder(name))
				}
			}
		}
	}
}

// tell notes of which cylinders something is told, where anything is apart.
func (s *sets) tell(hits []rule.Hit) {
	if !slices.ContainsFunc(hits, func(h rule.Hit) bool { return h.Rule.Apart && len(h.Subject.Cylinders) > 0 }) {
		return
	}
	s.told = map[string]bool{}
	for _, h := range hits {
		if h.Rule.About == diag.AboutCylinders && !h.Rule.Apart && !s.ofNone(h) {
			for _, n := range h.Subject.Cylinders {
				s.told[n] = true
			}
		}
	}
}

// joinAlike joins cylinders of which the very same is known, each by itself, and about
// as much of it.
func (s *sets) joinAlike(c *known.Case, hits []rule.Hit) {
	grouped := make([]int, len(s.parent))
	for i := range s.parent {
		grouped[s.root(i)]++
	}
	rules := make([][]int, len(s.cylinders)) // that hold for each, and for it alone
	for _, h := range hits {
		if h.Rule.About != diag.AboutCylinders || !h.Rule.Of.Each || len(h.Subject.Cylinders) == 0 {
			continue
		}
		if n := slices.Index(s.cylinders, h.Subject.Name()); n >= 0 && grouped[s.root(n)] == 1 {
			rules[n] = append(rules[n], h.Order)
		}
	}
	for i, of := range rules {
		if of == nil {
			continue
		}
		for first, o := range rules[:i] {
			if slices.Equal(o, of) && asFar(c, of, s.cylinders[first], s.cylinders[i]) {
				s.join(first, i)
				break
			}
		}
	}
}

// muchFarther is how many times as far off a reading of one cylinder is before it is
// another matter than that of a second, of which the same is known: judgement, no source.
const muchFarther = 4

// asFar reports two cylinders for which these rules hold and of which neither is much
// farther off than the other in the further tests that the rules rest on.
func asFar(c *known.Case, rules []int, one, other string) bool {
	for _, order := range rules {
		for _, need := range rule.At(order).Needs {
			if c.Measured(string(need)) == nil {
				continue
			}
			a, b := c.HowFar(need, []string{one}), c.HowFar(need, []string{other})
			if max(a, b) > muchFarther*min(a, b) && max(a, b) > 0.1 {
				return false
			}
		}
	}
	return true
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
	root := s.root(s.cylinder(names[0]))
	for _, n := range names {
		if s.root(s.cylinder(n)) != root {
			return
		}
	}
	if slices.ContainsFunc(hits, func(h rule.Hit) bool {
		return h.Rule.About == diag.AboutCylinders && h.Rule.Kind != rule.OfPlugs && s.root(s.nodeOfHit(h)) == root
	}) {
		s.join(root, s.node(string(diag.AboutEngine)))
	}
}

// stoppedBySystem makes a story that is tied to the mixture, and led by a reading of a system
// that stops the engine, one of that system: that is what is said of it first.
func (s *story) stoppedBySystem() {
	mixture := s.About == diag.AboutMixture || s.About == diag.AboutFuel
	if lead := s.lead(); mixture && lead.rule.About == diag.AboutSystem && lead.finding.Urgency == diag.DoNotRun {
		s.About = diag.AboutSystem
	}
}
