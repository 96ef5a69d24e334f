package known

import (
	"regexp"
	"slices"
	"strings"
)

// Work is something that the job says was done or found, by its words.
type Work struct {
	Text      string   // lower case, hyphens as spaces
	Cylinders []string // that it names; none where it names none
}

// denied are words that say that a thing was not done after all.
var denied = regexp.MustCompile(`\b(not available|not done|not made|not tested|not possible|not tried|not checked|not yet|could not|couldn't|declined|refused|unavailable|no time|to be done|still to do|recommended|will be)\b`)

// Works lists what the job's work done and findings say. What is denied ("not
// available", "declined") is left out.
func (c *Case) Works() []Work {
	if c.works == nil {
		c.works = []Work{}
		for _, text := range slices.Concat(c.History.WorkDone, c.History.Findings) {
			text = strings.ReplaceAll(strings.ToLower(text), "-", " ")
			if !denied.MatchString(text) {
				c.works = append(c.works, Work{text, c.namedIn(text)})
			}
		}
	}
	return c.works
}

// named finds "cylinder 3", "cylinders 2 and 3", "on 3", "#3", "3 swapped".
var named = regexp.MustCompile(`(?:\b(?:cylinders?|cyl|no|nr|number|on|of|in|from|with|to|between|plug|coil|rotor)\.?\s+|#\s*)((?:[\p{L}\d]+)(?:\s*(?:,|and|&|\+|with|/)\s*[\p{L}\d]+)*)`)

// namedIn lists the cylinders of this engine that a text names.
func (c *Case) namedIn(text string) []string {
	var names []string
	for _, m := range named.FindAllStringSubmatch(text, -1) {
		for _, word := range strings.FieldsFunc(m[1], func(r rune) bool { return strings.ContainsRune(" ,&+/", r) }) {
			for _, n := range c.Engine.Names() {
				if strings.EqualFold(n, word) && !slices.Contains(names, n) {
					names = append(names, n)
				}
			}
		}
	}
	c.InOrder(names)
	return names
}

// DoneOn gives the first work whose text has one of these words and that is
// about all of these cylinders: it names them, or names none. nil for none.
func (c *Case) DoneOn(cylinders []string, words ...string) *Work {
	works := c.Works()
	for i := range works {
		w := &works[i]
		if !slices.ContainsFunc(words, func(x string) bool { return has(w.Text, x) }) {
			continue
		}
		missing := slices.ContainsFunc(cylinders, func(n string) bool { return !slices.Contains(w.Cylinders, n) })
		if len(w.Cylinders) == 0 || !missing {
			return w
		}
	}
	return nil
}

// WorkDone reports work that the job says was done, by its words.
func (c *Case) WorkDone(words ...string) bool { return c.DoneOn(nil, words...) != nil }

// has reports words in a text as whole words.
func has(text, words string) bool {
	words = strings.ReplaceAll(strings.ToLower(words), "-", " ")
	for from := 0; ; {
		at := strings.Index(text[from:], words)
		if at < 0 {
			return false
		}
		at += from
		end := at + len(words)
		if (at == 0 || !letter(text[at-1])) && (end == len(text) || !letter(text[end])) {
			return true
		}
		from = at + 1
	}
}

func letter(b byte) bool { return b >= 'a' && b <= 'z' || b >= '0' && b <= '9' }

// Says reports a text, such as work done, that has one of these words.
func (w *Work) Says(words ...string) bool {
	return w != nil && slices.ContainsFunc(words, func(x string) bool { return has(w.Text, x) })
}
