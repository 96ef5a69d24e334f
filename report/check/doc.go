// Package check says what a job's readings say as data for other programs and in
// words for a terminal, and knows no pages.
package check

import (
	"strings"

	"gaugesheet/diag"
	"gaugesheet/report/job"
	"gaugesheet/templates"
)

// spoken is a diagnosis in words.
type spoken struct {
	words    *templates.Catalogue
	stories  []templates.SaidStory
	plan     []templates.SaidStep
	findings []templates.Said // in the order of the findings
	notices  []string
	sentence string
	advice   string
	cautions []string
	next     *templates.SaidCheck
	expected string // what the expected band was worked out from

	before         *diag.Diagnosis // the sums on what was read before the work; nil for none
	expectedBefore string
}

// speak says a diagnosis in the language of its job.
func speak(j *job.Job, d *diag.Diagnosis, findings []diag.Finding, a templates.Audience) (*spoken, error) {
	words, err := templates.Words(j.Language.Value)
	if err != nil {
		return nil, err
	}
	words = words.Of(d.Chambers)
	v := &voice{audience: a}
	s := &spoken{
		words:    words,
		stories:  each(v, d.Stories, words.Story, plainStory),
		plan:     each(v, d.Plan, words.Step, plainStep),
		findings: each(v, findings, words.Finding, plainFinding),
		notices:  each(v, d.Notices, words.Notice, plain),
		cautions: each(v, d.Cautions, words.Caution, plain),
		sentence: one(v, d.Verdict, words.Verdict, plain),
	}
	if d.Advice.Key != "" {
		s.advice = one(v, d.Advice, words.Verdict, plain)
	}
	if d.Next != nil {
		next := one(v, *d.Next, words.Check, plainCheck)
		s.next = &next
	}
	s.expected = v.basis(words, j.Test(), d)
	if b := j.Test().Before; b != nil && b.Test != nil {
		s.before = diag.Assess(b.Test)
		s.expectedBefore = v.basis(words, b.Test, s.before)
	}
	return s, v.err
}

// A voice speaks to somebody, up to the first thing that cannot be said.
type voice struct {
	audience templates.Audience
	err      error
}

// one says one thing.
func one[T, S any](v *voice, x T, say func(T, templates.Audience) (S, error), plain func(S) S) S {
	var none S
	if v.err != nil {
		return none
	}
	said, err := say(x, v.audience)
	if v.err = err; err != nil {
		return none
	}
	return plain(said)
}

// basis says what the expected band was worked out from; nothing where there is
// none.
func (v *voice) basis(words *templates.Catalogue, t *diag.Test, d *diag.Diagnosis) string {
	if d.Compression == nil || d.Compression.Expected == nil {
		return ""
	}
	return one(v, d.Compression.Expected, func(b *diag.Expected, _ templates.Audience) (string, error) {
		return words.Expected(b, t.Conditions)
	}, plain)
}

// each says every entry of a list.
func each[T, S any](v *voice, list []T, say func(T, templates.Audience) (S, error), plain func(S) S) []S {
	var all []S
	for _, x := range list {
		all = append(all, one(v, x, say, plain))
	}
	return all
}

// plain is a text without the spaces that hold a line of a page together:
// another program looks for '150 psi' with the space of the keyboard.
func plain(s string) string { return strings.ReplaceAll(s, "\u00a0", " ") }

func plainAll(list []string) []string {
	for i := range list {
		list[i] = plain(list[i])
	}
	return list
}

func plainFinding(s templates.Said) templates.Said {
	return templates.Said{
		Says: plain(s.Says), Because: plain(s.Because),
		Causes: plainAll(s.Causes), Against: plainAll(s.Against), Doubts: plainAll(s.Doubts),
		Next: plainNext(s.Next),
	}
}

func plainStory(s templates.SaidStory) templates.SaidStory {
	s.Says, s.Because = plain(s.Says), plain(s.Because)
	s.Causes, s.Against, s.Doubts, s.Next = plainAll(s.Causes), plainAll(s.Against), plainAll(s.Doubts), plainNext(s.Next)
	return s
}

func plainStep(s templates.SaidStep) templates.SaidStep {
	for i := range s.Leads {
		s.Leads[i].If, s.Leads[i].Then = plain(s.Leads[i].If), plain(s.Leads[i].Then)
	}
	s.Check = plainCheck(s.Check)
	return s
}

func plainNext(c *templates.SaidCheck) *templates.SaidCheck {
	if c == nil {
		return nil
	}
	said := plainCheck(*c)
	return &said
}

func plainCheck(c templates.SaidCheck) templates.SaidCheck {
	said := templates.SaidCheck{Name: plain(c.Name), For: plain(c.For), Do: plain(c.Do), IfSo: plain(c.IfSo), IfNot: plain(c.IfNot), Effort: plain(c.Effort)}
	for _, o := range c.Outcomes {
		said.Outcomes = append(said.Outcomes, templates.SaidOutcome{Name: o.Name, If: plain(o.If), Then: plain(o.Then)})
	}
	return said
}
