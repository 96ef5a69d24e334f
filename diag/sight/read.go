// Package sight knows the words in which people write of a look into a cylinder, of its parts and
// of damage to them, and nothing of engines. It reads which part, what has come to it, and whether that is denied; what they come to together stands in one table, and what it cannot make out it
// gives back, so that nothing that was seen is passed over without a word.
package sight

import (
	"regexp"
	"slices"
	"strings"
)

// A Look is what was made out of some words.
type Look struct {
	Says   []string // in the house's words
	Unread []string // clauses of which nothing was made out, as they were written
	Aside  []string // of these, what names no part and no damage beside clauses that do: "I would be glad of it"
	Harm   bool     // one of these has a word of damage
	Inside bool     // some clause names a part of a cylinder
}

// clauseEnds are where one thing that was seen ends and the next begins.
var clauseEnds = regexp.MustCompile(`[;,:?!()\n]+|\.(?:\s|$)|\s(?:but|except for|except|although|though|apart from|other than|save for|however|yet|whereas|while)\s`)

// Read makes out what some words say was seen; into is whether somebody looked into a cylinder,
// and every word of it is about that. Of other lines only what names a part counts.
func Read(text string, into bool) Look {
	var look Look
	r := &reader{look: &look, into: into}
	for _, clause := range clausesOf(text) {
		r.clause(clause)
	}
	if !r.told {
		look.Aside = nil
	}
	slices.Sort(look.Says)
	look.Says = slices.Compact(look.Says)
	return look
}

func clausesOf(text string) []string {
	text = likeWords.Replace(strings.ToLower(strings.Join(strings.Fields(text), " ")))
	var list []string
	from := 0
	for _, at := range append(clauseEnds.FindAllStringIndex(text, -1), []int{len(text), len(text)}) {
		if part := strings.TrimSpace(text[from:at[0]]); part != "" {
			list = append(list, part)
		}
		from = at[1]
	}
	return list
}

// A reader goes through the clauses: one may take its part from the one before, or its denial.
type reader struct {
	look   *Look
	into   bool
	parts  []word // of the clause before
	denied bool   // it was
	undone func() // takes back what it said
	told   bool   // some clause says something
}

// clause reads one.
func (r *reader) clause(text string) {
	c := parse(text)
	if slices.ContainsFunc(c.of(isPart), func(w word) bool { return !outlying[w.part] && w.part != "pot" }) {
		r.look.Inside = true
	}
	if r.undo(c) {
		return
	}
	r.undone = nil
	says, open := r.judge(c)
	r.look.Says = append(r.look.Says, says...)
	said := slices.ContainsFunc(c.words, func(w word) bool { return w.kind == isPart || w.kind == isHarm || w.kind == isSound })
	r.told = r.told || said
	if open {
		harm := len(c.live()) > 0 || c.soundDenied
		if !said && !c.anyDenied {
			r.look.Aside = append(r.look.Aside, text)
		}
		r.look.Unread, r.look.Harm = append(r.look.Unread, text), r.look.Harm || harm
	}
	r.denied = c.anyDenied && len(c.live()) == 0
	if parts := c.of(isPart); len(parts) > 0 || len(c.of(isHarm)) > 0 {
		r.parts = parts
	}
}

// undo takes back what the clause before said, where this one says 'none' or 'replaced' behind it.
func (r *reader) undo(c *clause) bool {
	denies := func(w word) bool { return w.kind == isDeny || w.kind == isIdle && listed(mendWords, w.text) }
	only := !slices.ContainsFunc(c.words, func(w word) bool { return !denies(w) && w.kind != isFill })
	return only && slices.ContainsFunc(c.words, denies) && r.takeBack()
}

func (r *reader) takeBack() bool {
	if r.undone == nil {
		return false
	}
	r.undone()
	r.undone = nil
	return true
}

// ways are parts by which one looks in.
var ways = map[part]bool{"hole": true, "nozzle": true, "port": true, "pot": true}

// vague are harms that say something of a look into a cylinder, and of a line of work or findings
// may mean what was measured or done.
var vague = []harm{"leak", "mark", "line", "wear", "oil", "fuel", "water", "wet", "flood", "pool", "metal", "loose", "carbon", "wash", "heat"}

// judge is what a clause says, and whether something in it is left open.
func (r *reader) judge(c *clause) (says []string, open bool) {
	if r.denied && c.listsOn() { // "no scoring, rust or pits"
		c.denyAll()
	}
	before, unread, harm := len(r.look.Says), len(r.look.Unread), r.look.Harm
	r.undone = func() { r.look.Says, r.look.Unread, r.look.Harm = r.look.Says[:before], r.look.Unread[:unread], harm }
	for _, h := range c.live() {
		if !r.into && slices.Contains(vague, c.words[h].harm) {
			continue
		}
		said, ok := c.fits(h, r.parts, r.into)
		switch {
		case ok:
			says = append(says, said...)
		case c.weak(h):
		default:
			open = true
		}
	}
	switch {
	case open && len(says) > 0: // the surer of two words of one thing
		open = false
	case open || len(says) > 0:
	case c.soundDenied, c.hides() && !c.honed(r.parts):
		open = true
	case c.honed(r.parts): // whatever else is said of marks that are there
	case len(c.of(isSound)) > 0, c.anyDenied, c.mended:
	case len(c.live()) > 0: // words that are weak beside a light one
	default:
		open = c.unknown() && !(len(c.of(isIdle)) > 0 && !slices.ContainsFunc(c.of(isPart), func(w word) bool { return !ways[w.part] }))
	}
	return says, open
}
