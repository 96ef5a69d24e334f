package sight

import (
	"regexp"
	"slices"
	"strings"
	"sync"
)

// A kind of word.
type kind uint8

const (
	isUnknown kind = iota
	isPart
	isHarm
	isSound
	isDeny
	isIdle
	isFill
)

// A word is one, or several that belong together, with what it means.
type word struct {
	text   string
	kind   kind
	part   part
	harm   harm
	light  bool // it makes what follows light
	place  bool // of a part: it only says where
	denied bool
}

// A clause is the words of one, and what is so of them together.
type clause struct {
	words       []word
	anyDenied   bool
	soundDenied bool // "not good"
	mended      bool
}

// meanings are all words of the tables, longest names first where they overlap.
type meanings struct {
	whole map[string]word
	begin []word // of which text is the beginning
	most  int    // words in the longest name
}

var lexicon = sync.OnceValue(func() *meanings {
	m := &meanings{whole: map[string]word{}}
	add := func(list string, w word) {
		for _, name := range strings.Split(list, "|") {
			w.text = name
			if stem, begins := strings.CutSuffix(name, "*"); begins {
				w.text, m.most = stem, max(m.most, strings.Count(stem, " ")+1)
				if !strings.Contains(stem, " ") {
					m.begin = append(m.begin, w)
					continue
				}
				for _, end := range []string{"", "s", "ed", "ing"} { // of several words the last one ends in one of these
					m.whole[stem+end] = w
				}
				continue
			}
			m.whole[name] = w // a later table goes before an earlier one
			m.most = max(m.most, strings.Count(name, " ")+1)
		}
	}
	add(fillWords, word{kind: isFill})
	add(idleWords, word{kind: isIdle})
	add(mendWords, word{kind: isIdle})
	add(soundWords, word{kind: isSound})
	for p, list := range partWords {
		add(list, word{kind: isPart, part: p})
	}
	for h, list := range harmWords {
		add(list, word{kind: isHarm, harm: h})
	}
	for _, list := range []string{placeWords, ownWords, otherGaskets} {
		add(list, word{kind: isFill})
	}
	add(lightWords, word{kind: isFill, light: true})
	add("fine|normal|usual", word{kind: isSound, light: true})
	add(denyWords+"|"+askedWords, word{kind: isDeny})
	return m
})

// parse reads the words of a clause, the longest names first.
func parse(text string) *clause {
	m := lexicon()
	c := &clause{}
	said := strings.Fields(text)
	for i := 0; i < len(said); {
		w, long := m.at(said[i:])
		c.words = append(c.words, w)
		i += long
	}
	c.places()
	c.bares()
	c.denials()
	c.mended = slices.ContainsFunc(c.words, func(w word) bool { return w.kind == isIdle && listed(mendWords, w.text) }) && !slices.ContainsFunc(c.words, func(w word) bool { return w.text == "again" || w.text == "still" })
	if c.mended {
		c.denyAll()
	}
	return c
}

func listed(list, name string) bool { return slices.Contains(strings.Split(list, "|"), name) }

// at is the name with which some words begin, and of how many it is.
func (m *meanings) at(said []string) (word, int) {
	for long := min(m.most, len(said)); long > 0; long-- {
		if w, known := m.whole[strings.Join(said[:long], " ")]; known {
			return w, long
		}
	}
	one := strings.Trim(said[0], "'*#+")
	best := word{text: one}
	for _, w := range m.begin {
		if strings.HasPrefix(one, w.text) {
			best = w
			best.text = one
		}
	}
	if strings.ContainsAny(one, "0123456789") || len(one) < 2 {
		best.kind = isFill
	}
	return best, 1
}

// of are the words of a kind.
func (c *clause) of(k kind) []word {
	var list []word
	for _, w := range c.words {
		if w.kind == k {
			list = append(list, w)
		}
	}
	return list
}

// live are the places of the harms that are not denied.
func (c *clause) live() []int {
	var list []int
	for i, w := range c.words {
		if w.kind == isHarm && !w.denied {
			list = append(list, i)
		}
	}
	return list
}

// unknown reports a word of which nothing is known.
func (c *clause) unknown() bool {
	return slices.ContainsFunc(c.words, func(w word) bool { return w.kind == isUnknown })
}

// hides reports words that are not known, of a part of which nothing else is said: "wall good
// and valve frizzled".
func (c *clause) hides() bool {
	part, unknown, said := false, false, false
	for _, w := range append(c.words, word{text: "and"}) {
		switch {
		case w.text == "and" || w.text == "with":
			if part && unknown && !said {
				return true
			}
			part, unknown, said = false, false, false
		case w.kind == isPart:
			part = true
		case w.kind == isUnknown:
			unknown = true
		default:
			said = said || w.kind != isFill
		}
	}
	return false
}

// honed reports a clause on nothing but the marks of honing, or that goes on with them, which are
// there: no wall that is worn has any.
func (c *clause) honed(before []word) bool {
	parts := c.of(isPart)
	if len(parts) == 0 {
		parts = before
	}
	return len(parts) > 0 && parts[0].part == "hone" && !c.anyDenied && !slices.ContainsFunc(parts, func(w word) bool { return w.part != "hone" && w.part != "wall" && w.part != "pot" && !w.place })
}

// places marks the parts that only say where something is: "a crack from the seat to the
// plug hole", "smeared on the wall at the port".
func (c *clause) places() {
	where := false
	for i := range c.words {
		w := &c.words[i]
		switch {
		case listed(placeWords, w.text):
			where = true
		case listed(ownWords, w.text) && w.text != "the" && w.text != "a" && w.text != "an" && w.text != "its":
			where = false
		case w.kind == isPart:
			w.place = where
			if i+1 < len(c.words) && c.words[i+1].text == "and" && where { // between the two
				continue
			}
			where = false
		case w.kind == isHarm:
			where = false
		}
	}
}

// lying are harms that lie on a part and are none of it.
var lying = []harm{"carbon", "rust", "oil", "mark", "heat", "dark"}

// bares gives what is gone to what it was said of: the nearest name before it that no place
// is, or else the one behind it. Where that only lay on a part, it left it bare; and where that
// is cracked, or flakes off, nothing is said of the part.
func (c *clause) bares() {
	for i := range c.words {
		w := &c.words[i]
		at := -1
		switch {
		case w.harm == "missing":
			at = c.goneOf(i)
		case w.harm == "bare": // of deposits
			at = c.crustNear(i, 1)
		case slices.Contains(ofCrust, w.harm):
			if at = c.crustNear(i, -1); at < 0 {
				at = c.crustNear(i, 1)
			}
			if at < 0 {
				continue
			}
			w.denied = true
			continue
		}
		for ; at >= 0 && c.lies(at); at-- { // "oil film"
			w.harm, c.words[at].denied = "bare", true
			w.denied = fellOff.MatchString(w.text)    // as carbon does by itself
			if at > 1 && c.words[at-1].text == "of" { // "a flake of carbon"
				c.words[at-2].denied = true
			}
		}
	}
}

var fellOff = regexp.MustCompile(`\b(?:f[ae]ll\w*|off|away|drop\w*)\b`)

// ofCrust are harms that what lies on a part may have, and the part not.
var ofCrust = []harm{"crack", "broken", "chip", "peel", "hole", "score", "burn", "erode"}

// crustNear is the place of the crust that stands next before a word or behind it, with no other
// name or 'and' between; -1 for none.
func (c *clause) crustNear(at, step int) int {
	for i := at + step; i >= 0 && i < len(c.words); i += step {
		w := c.words[i]
		switch {
		case w.harm == "carbon" || listed(layWords, w.text):
			return i
		case w.kind != isFill, step > 0 && !listed("in|of|the|a|an|its|some", w.text), listed("and|or|with|but", w.text) || listed(placeWords, w.text) || step < 0 && listed(onWords, w.text):
			return -1
		}
	}
	return -1
}

// lies reports a word of what lies on a part.
func (c *clause) lies(at int) bool {
	return slices.Contains(lying, c.words[at].harm) || listed(layWords, c.words[at].text)
}

// goneOf is the place of what a word says is gone, -1 for none.
func (c *clause) goneOf(at int) int {
	for i := at - 1; i >= 0; i-- {
		if c.words[i].text == "it" && i > 0 && c.words[i-1].text == "of" { // half of the part
			return -1
		}
		if c.lies(i) || c.words[i].kind == isPart && !c.onIt(i) || c.words[i].kind == isUnknown {
			return i
		}
	}
	for i := at + 1; i < len(c.words) && c.words[i].text != "and"; i++ {
		if c.lies(i) || c.words[i].kind == isPart {
			return i
		}
	}
	return -1
}

// onIt reports a part behind a word that says where something is: "on the valve face".
func (c *clause) onIt(at int) bool {
	for i := at - 1; i >= 0 && c.words[i].kind == isFill; i-- {
		if listed(onWords, c.words[i].text) || listed(placeWords, c.words[i].text) || c.words[i].text == "of" {
			return true
		}
	}
	return false
}

// namesValve reports a clause that speaks of a valve.
func (c *clause) namesValve() bool {
	return slices.ContainsFunc(c.words, func(w word) bool { return w.part == "valve" || w.part == "ivalve" })
}

// oneSided reports a clause that speaks of one side of something, or of a part of its edge.
func (c *clause) oneSided() bool {
	return slices.ContainsFunc(c.words, func(w word) bool { return listed(sideWords, w.text) })
}

// reach is how many words behind it a denial still denies.
const reach = 5

func (c *clause) denials() {
	left := 0
	for i := range c.words {
		w := &c.words[i]
		number := w.text == "no" && i+1 < len(c.words) && strings.ContainsAny(c.words[i+1].text[:1], "0123456789")
		switch {
		case w.kind == isDeny && number:
		case w.kind == isDeny:
			left, c.anyDenied = reach, true
			for k := max(0, i-2); k < i; k++ { // "cracks: none", "scoring not found"
				if c.words[k].kind == isHarm && c.endsWith(i) {
					c.words[k].denied = true
				}
			}
		case left > 0 && w.harm == "carbon" && c.oneSided() && c.namesValve(): // and there alone
			w.harm, left = "bare", reach
		case left > 0 && w.kind == isHarm:
			w.denied, left = true, reach
		case left > 0 && w.kind == isSound && !w.light:
			c.soundDenied = true
		case left > 0 && w.kind == isPart && w.part == "hone": // no hone marks left
			w.kind, w.harm, left = isHarm, "glaze", 0
		default:
			left--
		}
	}
}

// endsWith reports a denial behind which nothing more is named: "cracks none seen".
func (c *clause) endsWith(at int) bool {
	return !slices.ContainsFunc(c.words[at+1:], func(w word) bool { return w.kind != isFill })
}

// listsOn reports a clause that only goes on with a list of harms.
func (c *clause) listsOn() bool {
	joined := slices.ContainsFunc(c.words, func(w word) bool { return w.text == "or" || w.text == "nor" })
	return joined && !slices.ContainsFunc(c.words, func(w word) bool { return w.kind != isHarm && w.kind != isFill })
}

func (c *clause) denyAll() {
	for i := range c.words {
		c.words[i].denied = c.words[i].kind == isHarm || c.words[i].denied
	}
	c.anyDenied = true
}
