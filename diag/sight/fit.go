package sight

import (
	"slices"
	"strings"
)

// fits is what a harm of a clause comes to with the part that it is said of: the nearest of
// the clause that the table has with it, of those before where it names none, or none.
func (c *clause) fits(at int, before []word, into bool) ([]string, bool) {
	h := c.words[at].harm
	if c.outdone(at) {
		return nil, true
	}
	near := c.byNearness(at)
	if len(near) == 0 {
		near = before
	}
	if h == "caught" { // of what was named before, in what is named now
		near = append(near, before...)
	}
	if !into {
		if len(near) > 0 && outlying[near[0].part] {
			return nil, false
		}
		near = slices.DeleteFunc(near, func(w word) bool { return outlying[w.part] })
	}
	if h == "crack" && len(near) > 0 && !slices.ContainsFunc(near, func(w word) bool { return !w.place || !headed[w.part] }) {
		return []string{CrackedHead}, true // between places of a head
	}
	if h == "object" && len(near) > 0 && c.liesOn(near[0]) {
		return []string{LooseThing}, true
	}
	for _, places := range []bool{false, true} {
		for _, w := range near {
			if w.place == places {
				if says := lookUp(c.meant(w), c.asHeat(h, w)); says != "" {
					return append(c.graded(at, says), c.crumb(says)...), true
				}
			}
		}
	}
	if !into {
		return nil, false
	}
	if says := lookUp("", h); says != "" && len(near) == 0 {
		return c.graded(at, says), true
	}
	if says := lookUp("*", h); says != "" {
		return c.graded(at, says), true
	}
	return nil, false
}

// crumb is what carbon on a seat comes to as well where it is a piece by itself.
func (c *clause) crumb(says string) []string {
	if says == "carbon on the seat" && slices.ContainsFunc(c.live(), func(i int) bool { return c.words[i].harm == "object" }) {
		return []string{CarbonCrumb}
	}
	return nil
}

// liesOn reports a part on or in which a thing lies, and of which it is none: but a ring, of
// which pieces lie about.
func (c *clause) liesOn(w word) bool {
	on := false
	for _, x := range c.words {
		switch {
		case x.kind == isPart && x.part == w.part && x.text == w.text:
			return on && w.part != "ring"
		case listed(onWords, x.text):
			on = true
		case !listed("the|a|an|its|top|edge", x.text):
			on = false
		}
	}
	return false
}

// owns reports the part at a place to be one that another belongs to, which is named before it.
func (c *clause) owns(at int) bool {
	for i := at - 1; i > 0; i-- {
		switch {
		case c.words[i].text == "of":
			return slices.ContainsFunc(c.words[:i], func(w word) bool { return w.kind == isPart })
		case c.words[i].kind != isFill:
			return false
		}
	}
	return false
}

// byNearness are the parts of a clause, those nearest to a word first; the room of the
// cylinder last.
func (c *clause) byNearness(at int) []word {
	type near struct {
		word
		far int
	}
	var list []near
	for i, w := range c.words {
		if w.kind != isPart {
			continue
		}
		far := 2 * (i - at)
		if far < 0 {
			far = -far - 1 // "valve burned": what stands before goes first
		}
		switch {
		case w.part == "pot":
			far += 100
		case c.owns(i): // "the land of a piston"
			far += 50
		}
		list = append(list, near{w, far})
	}
	slices.SortStableFunc(list, func(a, b near) int { return a.far - b.far })
	words := make([]word, len(list))
	for i := range list {
		words[i] = list[i].word
	}
	return words
}

// asHeat is a harm of a valve as it is where it is on one side alone: what is black, or bare,
// there and nowhere else was hot.
func (c *clause) asHeat(h harm, of word) harm {
	if (h == "dark" || h == "bare") && (of.part == "valve" || of.part == "ivalve" || of.part == "vside" || of.part == "vhead") && c.oneSided() {
		return "heat"
	}
	return h
}

// meant is the part that a name stands for: a crumb, and what is caught under an inlet valve, are
// at its seat and not on its back.
func (c *clause) meant(w word) part {
	if w.part == "ivalve" && (w.place || slices.ContainsFunc(c.live(), func(i int) bool { return c.words[i].harm == "object" })) {
		return "valve"
	}
	return w.part
}

// lookUp is the row of the table for a part and a harm, "" for none.
func lookUp(p part, h harm) string {
	for i := range table {
		r := &table[i]
		if (string(p) == r.parts || p != "" && slices.Contains(strings.Fields(r.parts), string(p))) && slices.Contains(strings.Fields(r.harms), string(h)) {
			return r.says
		}
	}
	if alsoIs[p] != "" {
		return lookUp(alsoIs[p], h)
	}
	return ""
}

// harmsBeside are those beside which another says no more of the same thing: a piece of a
// ring that is missing is a piece.
var harmsBeside = map[harm][]harm{
	"missing": {"object", "glaze", "rust"},
	"broken":  {"object"},
	"object":  {"carbon", "rust", "oil", "fuel", "water", "pool", "hit"},
	"wet":     {"oil", "fuel", "water", "pool", "wash", "flood"},
	"fuel":    {"flood", "wash"},
	"oil":     {"flood", "carbon", "burn"},
	"water":   {"wash"},
	"pool":    {"wash", "flood"},
	"mark":    {"score", "seize", "smear", "hit", "burn", "rust", "pit", "carbon", "heat", "bare"},
	"line":    {"score", "crack", "heat"},
	"rust":    {"pit", "hole", "peel"},
	"pit":     {"hole"},
	"heat":    {"burn", "crack", "carbon", "melt", "rust", "oil"},
	"dark":    {"burn", "crack", "carbon", "melt", "rust", "oil", "heat", "bare"},
	"bare":    {"heat", "burn", "crack"},
	"loose":   {"object"},
	"wear":    {"glaze", "score", "hit"},
	"bad":     {"crack", "broken", "missing", "chip", "hole", "burn", "melt", "erode", "pit", "rust", "score", "seize", "smear", "bend", "hit", "blow", "wear", "heat", "glaze", "carbon", "leak", "warp"},
	"metal":   {"smear", "object", "melt", "score"},
	"caught":  {"object", "score"},
	"stick":   {"seize", "object"},
}

// outdone reports a harm beside which another of its clause says more.
func (c *clause) outdone(at int) bool {
	more := harmsBeside[c.words[at].harm]
	return slices.ContainsFunc(c.live(), func(i int) bool { return i != at && slices.Contains(more, c.words[i].harm) })
}

// lightReach is how many words behind one that says 'light' it is said of.
const lightReach = 3

// lightly reports a harm that is called light.
func (c *clause) lightly(at int) bool {
	return slices.ContainsFunc(c.words[max(0, at-lightReach):at], func(w word) bool { return w.light })
}

// usual are harms that, where they are called light, are what any engine shows that has run.
var usual = []harm{"mark", "line", "carbon", "oil", "wear", "wet", "heat", "dark"}

// weak reports a harm that says nothing where it is light, or that is none by itself.
func (c *clause) weak(at int) bool {
	return slices.Contains(usual, c.words[at].harm) && c.lightly(at)
}

// graded is what a row says of a harm that may be light.
func (c *clause) graded(at int, says string) []string {
	if c.weak(at) || says == elsewhere {
		return nil
	}
	list := strings.Split(says, "; ")
	if slices.Contains(list, "wall scored") {
		if c.lightly(at) {
			return append(list, LightScore)
		}
		return append(list, DeepScore)
	}
	return list
}
