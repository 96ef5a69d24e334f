package known

import (
	"regexp"
	"slices"
	"strings"
)

// A Subject is what a condition is asked of and a rule speaks about: some
// cylinders (or rotors), a fuel circuit, what a further test looks at, or, where
// all are empty, the engine as a whole.
type Subject struct {
	Cylinders []string
	Circuit   *Circuit
	System    string // the key of a further test, "oil-pressure"
	Part      string // of that system, where it is judged by itself: "cap"
}

// Name is the first cylinder of the subject; "" where it has none.
func (s Subject) Name() string {
	if len(s.Cylinders) == 0 {
		return ""
	}
	return s.Cylinders[0]
}

// A Condition is something that can be asked of a case, with the words that
// say it. What a rule prints as its trigger is what it asks.
type Condition struct {
	words  string
	join   string // "and", "or", "two of", "not", "called"; "" for a plain condition
	parts  []Condition
	before []test // what it asks of the case alone, whatever the subject
	of     []test // and of the subject
}

type test func(*Case, Subject) bool

// Called gives a condition a short name: words that have it more than once say it
// whole the first time.
func (n Condition) Called(name string) Condition {
	return Condition{words: name, join: "called", parts: []Condition{n}, before: n.before, of: n.of}
}

// Is is a condition with its words, such as "graded low".
func Is(words string, holds func(*Case, Subject) bool) Condition {
	return Condition{words: words, of: []test{holds}}
}

// ofCase is a condition that asks nothing of the subject.
func ofCase(words string, holds func(*Case) bool) Condition {
	return Condition{words: words, before: []test{func(c *Case, _ Subject) bool { return holds(c) }}}
}

// All holds where every part does; a part that asks nothing adds no words.
func All(parts ...Condition) Condition {
	parts = slices.DeleteFunc(slices.Clone(parts), func(p Condition) bool { return p.words == "" && p.asksNothing() && p.parts == nil })
	if len(parts) == 1 {
		return parts[0]
	}
	n := Condition{join: "and", parts: parts}
	for _, p := range parts {
		n.before, n.of = append(n.before, p.before...), append(n.of, p.of...)
	}
	return n
}

// Any holds where one part does.
func Any(parts ...Condition) Condition { return joined("or", parts, 1) }

// TwoOf holds where two parts do.
func TwoOf(parts ...Condition) Condition { return joined("two of", parts, 2) }

func joined(join string, parts []Condition, need int) Condition {
	return oneOf(join, parts, func(c *Case, s Subject) bool {
		met := 0
		for i := range parts {
			if parts[i].holds(c, s) {
				met++
			}
			if left := len(parts) - i - 1; met >= need || met+left < need {
				break
			}
		}
		return met >= need
	})
}

// Not holds where the condition does not.
func Not(of Condition) Condition {
	return oneOf("not", []Condition{of}, func(c *Case, s Subject) bool { return !of.holds(c, s) })
}

// oneOf is a condition of parts that is asked as one: of the case alone where none of them
// asks anything of the subject.
func oneOf(join string, parts []Condition, holds test) Condition {
	n := Condition{join: join, parts: parts}
	if slices.ContainsFunc(parts, func(p Condition) bool { return len(p.of) > 0 }) {
		n.of = []test{holds}
	} else {
		n.before = []test{holds}
	}
	return n
}

func (n *Condition) asksNothing() bool { return len(n.before)+len(n.of) == 0 }

// Holds asks the condition of a subject. A condition without a test always
// holds.
func (n Condition) Holds(c *Case, s Subject) bool { return n.holds(c, s) }

func (n *Condition) holds(c *Case, s Subject) bool { return n.MayHold(c) && n.HoldsFor(c, s) }

// MayHold asks what the condition asks of the case alone: where that is not so, it holds
// for no subject.
func (n *Condition) MayHold(c *Case) bool { return every(n.before, c, Subject{}) }

// HoldsFor asks of a subject what is left of a condition that may hold.
func (n *Condition) HoldsFor(c *Case, s Subject) bool { return every(n.of, c, s) }

// A Gate is what is asked of the case alone before a sign is asked of any story, by its place
// among all gates: a case answers it once.
type Gate struct {
	Needs     []Need
	When      *Condition
	Place, Of int
}

// Opens reports a case that has what a gate needs and of which its condition may hold.
func (c *Case) Opens(g *Gate) bool {
	if c.gates == nil {
		c.gates = make([]asked, g.Of)
	}
	return c.gates[g.Place].by(func() bool { return c.Missing(g.Needs) == "" && g.When.MayHold(c) })
}

func every(tests []test, c *Case, s Subject) bool {
	for _, holds := range tests {
		if !holds(c, s) {
			return false
		}
	}
	return true
}

// HoldsIn asks it of the engine as a whole.
func (n Condition) HoldsIn(c *Case) bool { return n.holds(c, Subject{}) }

// HoldsOf asks it of one cylinder or rotor.
func (n Condition) HoldsOf(c *Case, name string) bool {
	for _, s := range c.EachCylinder() {
		if s.Name() == name {
			return n.holds(c, s)
		}
	}
	return n.holds(c, Subject{Cylinders: []string{name}})
}

// runsOn finds words of which a 'not' before them would take in the first part
// alone, or undo another.
var runsOn = regexp.MustCompile(`^no |[,;]| or `)

// String is the condition in words.
func (n Condition) String() string { return n.say(map[string]bool{}) }

// say is the condition in words, where the named ones that were told are not told
// again.
func (n Condition) say(told map[string]bool) string {
	if n.join == "called" {
		if told[n.words] {
			return n.words
		}
		told[n.words] = true
		return n.words + " (" + n.parts[0].say(told) + ")"
	}
	var parts []string
	for _, p := range n.parts {
		words := p.say(told)
		apart := len(p.parts) > 1 && p.join != n.join && p.join != "two of" || n.join == "not" && p.join == "" && runsOn.MatchString(words)
		if apart {
			words = "(" + words + ")"
		}
		parts = append(parts, words)
	}
	switch n.join {
	case "and":
		return strings.Join(parts, ", ")
	case "or":
		return strings.Join(parts, " or ")
	case "two of":
		return "two of: " + strings.Join(parts, "; ")
	case "not":
		return "not " + parts[0]
	}
	return n.words
}

// Lacks gives the words of the parts that keep the condition from holding, and
// how many of its parts hold; none where it holds.
func (n Condition) Lacks(c *Case, s Subject) (lacks []string, held int) {
	if n.Holds(c, s) {
		return nil, 1
	}
	if n.join != "and" && n.join != "called" {
		return []string{n.String()}, 0
	}
	for _, p := range n.parts {
		l, h := p.Lacks(c, s)
		lacks, held = append(lacks, l...), held+h
	}
	return lacks, held
}
