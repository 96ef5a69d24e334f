package known

import (
	"regexp"
	"slices"
	"strings"
	"sync"

	"gaugesheet/diag/sight"
)

// Work is something that the job says was done or found, by its words.
type Work struct {
	Text      string    // in plain form: lower case, hyphens as spaces, one spelling
	Cylinders []string  // that it names; none where it names none
	renews    []string  // its clauses that say that parts are new
	cleans    []string  // its clauses that say that parts are clean again
	putRight  bool      // what was seen is there no more
	inside    bool      // of an engine of one cylinder it is about that one without naming it
	sight     string    // what it may say was seen in a cylinder; "" for nothing
	speaks    *spoken   // of what, once it was asked
	new       *spoken   // which parts, once it was asked
	noise     *heard    // of a noise, once it was asked
	lash      *lashSaid // of the setting of clearances, likewise
	lost      *asked    // of something lost in a cylinder, likewise
}

// An asked is a question that a work answers once, also for the trials of the plan.
type asked struct{ known, yes bool }

func (a *asked) by(ask func() bool) bool {
	if !a.known {
		a.known, a.yes = true, ask()
	}
	return a.yes
}

// spoken are the things of a vocabulary that a work speaks of, by their places; nil
// until it was asked.
type spoken struct{ of []int }

// by asks once; it is always the same that is asked.
func (s *spoken) by(ask func() []int) []int {
	if s.of == nil {
		s.of = append([]int{}, ask()...)
	}
	return s.of
}

// Works lists what the job's work done and findings say. What is denied or
// still to come ("not available", "declined", "needs ...") is left out.
func (c *Case) Works() []Work {
	if c.works != nil {
		return c.works
	}
	c.works = make([]Work, 0, len(c.History.WorkDone)+len(c.History.Findings))
	for _, lines := range [][]string{c.History.WorkDone, c.History.Findings} {
		for _, text := range lines {
			if work := c.workOf(text); work.Text != "" {
				c.works = append(c.works, work)
			}
		}
	}
	if c.Before != nil {
		c.workOf(c.Before.Done)
	}
	return c.works
}

// workOf reads one line of what was done or found, once; without words where the
// line only says what was not done.
func (c *Case) workOf(text string) Work {
	work, known := c.parsed[text]
	if known {
		return work
	}
	if done := doneParts(text); done != "" {
		work = newWork(done, c.namedIn(done))
	}
	if c.parsed == nil {
		c.parsed = map[string]Work{}
	}
	c.parsed[text] = work
	return work
}

func newWork(done string, cylinders []string) Work {
	w := workWithoutSight(done, cylinders)
	w.sees(ofInside(w.Text))
	return w
}

func workWithoutSight(done string, cylinders []string) Work {
	text := plainWords(done)
	return Work{Text: text, Cylinders: cylinders, renews: renewing(text), cleans: cleaning(text), putRight: mended(text), speaks: &spoken{}, new: &spoken{}, noise: &heard{}, lash: &lashSaid{}, lost: &asked{}}
}

// sees sets what a work may say was seen in a cylinder.
func (w *Work) sees(text string) {
	w.sight = sight.Within(text)
	w.inside = len(w.Cylinders) == 0 && w.sight != "" && (strings.Contains(w.sight, "cylinder") || namesInside(w.sight)) && !elsewhere.MatchString(strings.ReplaceAll(w.Text, "exhaust side", "one side")) // of a piston, which lies in it
}

// Wrote remembers a line of work done that the program wrote itself, about these
// cylinders: it says what was done, and need not be read for that.
func (c *Case) Wrote(text string, cylinders []string) {
	c.Works()
	if _, known := c.parsed[text]; !known {
		if c.parsed == nil {
			c.parsed = map[string]Work{}
		}
		w := workWithoutSight(text, cylinders)
		if SpeaksOf(w.Text, LiquidWords...) || SpeaksOf(w.Text, BentRod...) { // the other sights are entered as a look into the cylinder
			w.sees(ofInside(w.Text))
			w.sight = w.Text
		}
		c.parsed[text] = w
	}
}

// SpeaksOf gives those of some things of which some work speaks, whatever cylinders
// it is about: their places, sorted. The things are always the same ones, so that
// what a work speaks of is looked up once, also for the trials of the plan.
func (c *Case) SpeaksOf(things *Vocabulary) []int {
	if c.spoken != nil {
		return c.spoken
	}
	c.spoken = []int{}
	works := c.Works()
	for i := range works {
		w := &works[i]
		c.spoken = append(c.spoken, w.speaks.by(func() []int { return things.In(w.Text) })...)
	}
	slices.Sort(c.spoken)
	c.spoken = slices.Compact(c.spoken)
	return c.spoken
}

// denied are words that say that a thing was not done, or is still to be done.
// Words that deny a result ("was not leaking") are not among them.
var denied = regexp.MustCompile(`\b(` + strings.Join([]string{
	`not (?:been )?(?:available|done|made|tested|possible|tried|checked|fitted|opened|removed|looked at|carried out|to hand|allowed|wanted|ordered|started|yet)`,
	`(?:hasn|haven|wasn|weren|isn)['’]?t (?:been )?(?:available|done|made|tested|checked|tried|possible|looked at)`,
	`(?:could not|couldn['’]?t|cannot|can['’]?t|did not|didn['’]?t|would not|wouldn['’]?t) (?:do|be|test|check|look|try|make|fit|open|remove|get|reach|have|find time|allow|want)`,
	`unable`, `declined`, `refused`, `unavailable`, `no time`, `left out`, `untested`, `unchecked`,
	`(?:still|yet|left) to (?:be|do)`, `to be (?:done|made|tested|checked|tried|repeated|looked at|fitted|booked)`, `to do`, `to follow`, `recommend\w*`, `will be`,
	`should be (?:done|made|tested|checked|tried|repeated|looked at)`, `advise[ds]?`, `planned`, `booked`, `scheduled`, `quoted? for`, `waiting for`, `awaiting`, `next (?:visit|time|step)`, `needs?`, `pending`,
}, `|`) + `)\b`)

// partEnds is where one thing that was written ends and the next begins: not a
// comma or an "and" within a list of cylinders.
var partEnds = regexp.MustCompile(`[;\n]|\.(?:\s|$)|,\s+(?:but |and )?|\s+but\s+|\s+(?:and )?then\s+`)

// doneParts gives what of a text was done, in lower case; "" for nothing.
func doneParts(text string) string {
	text = strings.ToLower(strings.Join(strings.Fields(text), " "))
	if !denied.MatchString(text) {
		return text
	}
	var parts []string
	from := 0
	for _, at := range append(partEnds.FindAllStringIndex(text, -1), []int{len(text), len(text)}) {
		if at[1] < len(text) && startsWithNumber(text[at[1]:]) && text[at[0]] == ',' {
			continue
		}
		if part := strings.TrimSpace(text[from:at[0]]); part != "" && !denied.MatchString(part) {
			parts = append(parts, part)
		}
		from = at[1]
	}
	return strings.Join(parts, ", ")
}

func startsWithNumber(text string) bool { return text != "" && text[0] >= '0' && text[0] <= '9' }

// spellings are words that people write in more than one way, with the way in
// which they are looked for.
var spellings = strings.NewReplacer(
	"leakdown", "leak down", "leak off test", "leak down test", "cylinder leakage", "leakage", "boroscope", "borescope", "bore scope", "borescope", "endoscope", "borescope",
	"tappet clearance", "valve clearance", "tappets", "valve lash", "valve lashes", "valve lash", "clearances", "clearance", "spark plugs", "plugs", "spark plug", "plug",
	"push rod", "pushrod", "rocker cover", "valve cover", "rocker box", "valve cover", "compression-test", "compression test", "’", "'")

// hyphens are taken for spaces.
var hyphens = strings.NewReplacer("-", " ", "–", " ", "_", " ")

// plainWords brings a text to the form in which words are looked for.
func plainWords(text string) string {
	return spellings.Replace(strings.Join(strings.Fields(hyphens.Replace(strings.ToLower(text))), " "))
}

// Phrases are words in the plain form in which a work's text is.
type Phrases []string

// Plain brings words to their plain form, once for the many times that they are
// looked for.
func Plain(words ...string) Phrases {
	plain := make(Phrases, len(words))
	for i, x := range words {
		plain[i] = plainWords(x)
	}
	return plain
}

// plainOf remembers the plain form of words that the program itself looks for:
// they are few and asked for again and again.
var plainOf sync.Map

func plainPhrase(words string) string {
	if plain, ok := plainOf.Load(words); ok {
		return plain.(string)
	}
	plain := plainWords(words)
	plainOf.Store(words, plain)
	return plain
}

// Without is a work without some names, so that what is said of it is not read
// from how it is called.
func (w *Work) Without(names ...string) *Work {
	text := w.Text
	for _, name := range names {
		text = strings.ReplaceAll(text, plainPhrase(name), " ")
	}
	return &Work{Text: text}
}

// DoneOn gives the first work whose text has one of these words and that is
// about all of these cylinders: it names them, or names none. nil for none.
func (c *Case) DoneOn(cylinders []string, words ...string) *Work {
	works := c.Works()
	if len(works) == 0 {
		return nil
	}
	plain := make([]string, 0, 16)
	for _, x := range words {
		plain = append(plain, plainPhrase(x))
	}
	for i := range works {
		if w := &works[i]; saysAny(w.Text, plain) && w.on(cylinders) {
			return w
		}
	}
	return nil
}

// DoneOf is DoneOn of a thing by its place in the vocabulary that SpeaksOf was asked.
func (c *Case) DoneOf(cylinders []string, place int) *Work {
	works := c.Works()
	for i := range works {
		if w := &works[i]; w.speaks != nil && slices.Contains(w.speaks.of, place) && w.on(cylinders) {
			return w
		}
	}
	return nil
}

// WorkDone reports work that the job says was done, by its words.
func (c *Case) WorkDone(words ...string) bool { return c.DoneOn(nil, words...) != nil }

// Says reports a text, such as work done, that has one of these words and does
// not deny it.
func (w *Work) Says(words ...string) bool {
	return w != nil && slices.ContainsFunc(words, func(x string) bool { return has(w.Text, plainPhrase(x)) })
}

// has reports words in a plain text as whole words, not denied just before.
func has(text, words string) bool { return placeOf(text, words, 0) >= 0 }

// placeOf is where a text has words so, from a place on; -1 for nowhere.
func placeOf(text, words string, from int) int {
	for words != "" {
		at := strings.Index(text[from:], words)
		if at < 0 {
			break
		}
		at += from
		end := at + len(words)
		if (at == 0 || !letter(text[at-1])) && (end == len(text) || !letter(text[end])) && !afterNo(text[:at]) {
			return at
		}
		from = at + 1
	}
	return -1
}

// afterNo reports a text that ends in a word that denies what follows.
func afterNo(text string) bool {
	text = strings.TrimRight(text, " ")
	for _, no := range []string{"no", "not", "without", "isn't", "neither", "nor", "rather than"} {
		if rest, ends := strings.CutSuffix(text, no); ends && (rest == "" || !letter(rest[len(rest)-1])) {
			return true
		}
	}
	return false
}

func letter(b byte) bool { return b >= 'a' && b <= 'z' || b >= '0' && b <= '9' || b >= 0x80 }

// TooTight are words of a valve without the clearance that it should have.
var TooTight = []string{"tight", "too tight", "none", "no clearance", "no gap", "no lash", "too little", "zero", "closed up"}

// LashFoundTight reports that the job says of these cylinders that a valve had
// too little clearance, or none.
func (c *Case) LashFoundTight(cylinders []string) bool {
	w := c.DoneOn(cylinders, "valve lash", "valve clearance", "exhaust clearance", "inlet clearance", "intake clearance", "lash checked", "clearance checked")
	return w.Says(TooTight...)
}
