package layout

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Text is cut into atoms once and put together to lines from them: each is a
// part of one run, known by its place, so that no letters are copied before
// the lines stand. A text is laid out many times before a page fits.

// An atom is a part of a run that no line end parts.
type atom struct {
	run, from, to int32 // the bytes from..to of a run
	kind          atomKind
	sticks        bool // no line ends before it
	width         Length
}

type atomKind uint8

const (
	letters atomKind = iota
	spaces
	lineFeed
)

// separator stands between parts that run on; where a line ends between them,
// that parts them.
const separator = "·"

// cut cuts runs into atoms, in the room of a slice that is given.
func cut(m Measurer, runs []Run, room []atom) []atom {
	c := cutter{runs: runs, atoms: room[:0]}
	for i, run := range runs {
		for at := 0; at < len(run.Text); {
			r, size := utf8.DecodeRuneInString(run.Text[at:])
			c.take(int32(i), int32(at), int32(size), r)
			at += size
			at += c.rest(run.Text[at:])
		}
	}
	c.glue()
	for i := range c.atoms {
		a := &c.atoms[i]
		if a.kind != lineFeed {
			a.width = m.Width(runs[a.run].Text[a.from:a.to], runs[a.run].Face)
		}
	}
	return c.atoms
}

type cutter struct {
	runs  []Run
	atoms []atom
	last  rune // before the one that is taken
}

// rest adds the letters that go on in a word without a place to break, and
// tells how many bytes they are: most of a text, taken at once.
func (c *cutter) rest(text string) int {
	if c.last <= ' ' || c.last >= utf8.RuneSelf || c.last == '-' || c.last == '/' {
		return 0
	}
	n := 0
	for n < len(text) && text[n] > ' ' && text[n] < 0x7f && text[n] != '-' && text[n] != '/' {
		n++
	}
	if n > 0 {
		c.atoms[len(c.atoms)-1].to += int32(n)
		c.last = rune(text[n-1])
	}
	return n
}

// take adds a character of a run.
func (c *cutter) take(run, at, size int32, r rune) {
	kind := kindOf(r)
	n := len(c.atoms)
	goesOn := n > 0 && kind != lineFeed && kind == c.atoms[n-1].kind && !(kind == letters && !c.runs[run].Whole && c.mayBreak(r))
	if !goesOn || c.atoms[n-1].run != run {
		c.atoms = append(c.atoms, atom{run: run, from: at, kind: kind, sticks: goesOn})
		n++
	}
	c.atoms[n-1].to = at + size
	c.last = r
}

func kindOf(r rune) atomKind {
	switch {
	case r == '\n':
		return lineFeed
	case unicode.IsSpace(r) && !fixedSpace(r):
		return spaces
	}
	return letters
}

func fixedSpace(r rune) bool { return r == '\u00A0' || r == '\u202F' || r == '\u2007' }

// mayBreak tells whether a line may end before a letter that follows another
// one: after a hyphen, a dash or a slash, but not in signs, ranges and
// fractions (-4, 40-44, 72/80) or in a unit (kgf/cm2).
func (c *cutter) mayBreak(r rune) bool {
	if unicode.IsDigit(r) || r == '.' {
		return false
	}
	switch c.last {
	case '-', '\u2010':
		return utf8.RuneCountInString(c.text(c.atoms[len(c.atoms)-1])) > 2 // not in "O-ring"
	case '\u2013', '\u2014':
		return true
	case '/':
		word := c.text(c.atoms[len(c.atoms)-1])
		if words := strings.FieldsFunc(word, fixedSpace); len(words) > 0 { // of "188 ml/min" the unit
			word = words[len(words)-1]
		}
		return utf8.RuneCountInString(word) > longestUnit
	}
	return false
}

func (c *cutter) text(a atom) string { return c.runs[a.run].Text[a.from:a.to] }

// longestUnit is how many letters a word has that may be a number's unit.
const longestUnit = 4

// glue has numbers stay with their units, and separators with what follows
// them so that no line ends in one; a separator that nothing follows falls
// away.
func (c *cutter) glue() {
	for i := 1; i+1 < len(c.atoms); i++ {
		before, a, after := c.atoms[i-1], &c.atoms[i], c.atoms[i+1]
		if a.kind == spaces && before.kind == letters && after.kind == letters {
			a.sticks = c.isSeparator(i-1) || c.isUnit(before, after) || c.namesNumber(before, after) || c.isInitial(before)
		}
	}
	last := true // nothing follows in the line
	for i := len(c.atoms) - 1; i >= 0; i-- {
		switch a := &c.atoms[i]; {
		case a.kind == lineFeed:
			last = true
		case last && c.isSeparator(i):
			a.to = a.from
		case a.kind == letters:
			last = false
		}
	}
	c.atoms = slices.DeleteFunc(c.atoms, func(a atom) bool { return a.from == a.to })
}

// isSeparator tells whether an atom is a separator that stands by itself.
func (c *cutter) isSeparator(i int) bool {
	a := c.atoms[i]
	return a.kind == letters && c.text(a) == separator && (i == 0 || c.atoms[i-1].kind != letters)
}

// isUnit tells whether a word may be the unit of the number before it: short,
// and no number itself. That it may be another short word does no harm, but behind a
// number that is held to the word before it, which says what it is of ("cylinder 4"):
// nothing is measured there.
func (c *cutter) isUnit(number, unit atom) bool {
	last, _ := utf8.DecodeLastRuneInString(c.text(number))
	text := c.text(unit)
	first, _ := utf8.DecodeRuneInString(text)
	if !unicode.IsDigit(last) || unicode.IsDigit(first) || text == separator || c.isNamed(number) {
		return false
	}
	n := utf8.RuneCountInString(text)
	if end, _ := utf8.DecodeLastRuneInString(text); unicode.IsPunct(end) && end != '%' {
		n--
	}
	return n <= longestUnit || text[:min(4, len(text))] == "kgf/"
}

// isInitial tells whether a word is a letter that stands for a name.
func (c *cutter) isInitial(a atom) bool {
	text := c.text(a)
	first, size := utf8.DecodeRuneInString(text)
	return text[size:] == "." && unicode.IsUpper(first)
}

// isNamed tells whether a number is held to a word before it.
func (c *cutter) isNamed(number atom) bool {
	words := strings.FieldsFunc(c.text(number), fixedSpace)
	if len(words) < 2 {
		return false
	}
	before, _ := utf8.DecodeLastRuneInString(words[len(words)-2])
	return unicode.IsLetter(before)
}

// longestName is how many characters a word has that may say what a number is of.
const longestName = 3

// namesNumber tells whether a word may say what the number after it is of: a short
// one in capitals or with a dot, as in "TM 10", "U 8" and "p. 40".
func (c *cutter) namesNumber(name, number atom) bool {
	first, _ := utf8.DecodeRuneInString(c.text(number))
	text := c.text(name)
	if at := strings.LastIndexFunc(text, fixedSpace); at >= 0 { // of "(c) TM" the paper
		_, size := utf8.DecodeRuneInString(text[at:])
		text = text[at+size:]
	}
	text = strings.TrimLeft(text, "(")
	if !unicode.IsDigit(first) || text == "" || utf8.RuneCountInString(text) > longestName {
		return false
	}
	return text[len(text)-1] == '.' && unicode.IsLower(rune(text[0])) || strings.IndexFunc(text, func(r rune) bool { return !unicode.IsUpper(r) }) < 0
}

// plainSpaces are a text's spaces as they are set: a tab is one too.
func plainSpaces(s string) string {
	if strings.IndexFunc(s, oddSpace) < 0 {
		return s
	}
	return strings.Map(func(r rune) rune {
		if oddSpace(r) {
			return ' '
		}
		return r
	}, s)
}

func oddSpace(r rune) bool { return r != ' ' && kindOf(r) == spaces }
