// Package check says what a job's readings say as data for other programs and in
// words for a terminal, and knows no pages.
package check

import (
	"fmt"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/report/job"
	"gaugesheet/templates"
)

// spoken is a diagnosis in words.
type spoken struct {
	stories  []templates.SaidStory
	plan     []templates.SaidStep
	findings []templates.Said // in the order of the findings
	notices  []string
	sentence string
	advice   string
	cautions []string
	next     *templates.SaidCheck
	expected string // what the expected band was worked out from
}

// speak says a diagnosis in the language of its job.
func speak(j *job.Job, d *diag.Diagnosis, findings []diag.Finding, a templates.Audience) (*spoken, error) {
	words, err := templates.Words(j.Language.Value)
	if err != nil {
		return nil, err
	}
	words = words.Of(d.Rotary)
	s := &spoken{}
	if s.stories, err = each(d.Stories, func(x diag.Story) (templates.SaidStory, error) {
		said, err := words.Story(x, a)
		return plainStory(said), err
	}); err != nil {
		return nil, err
	}
	if s.plan, err = each(d.Plan, func(x diag.Step) (templates.SaidStep, error) {
		said, err := words.Step(x, a)
		return plainStep(said), err
	}); err != nil {
		return nil, err
	}
	if s.findings, err = each(findings, func(x diag.Finding) (templates.Said, error) {
		said, err := words.Finding(x, a)
		return plainFinding(said), err
	}); err != nil {
		return nil, err
	}
	if s.notices, err = each(d.Notices, func(x diag.Notice) (string, error) {
		said, err := words.Notice(x, a)
		return plain(said), err
	}); err != nil {
		return nil, err
	}
	if s.cautions, err = each(d.Cautions, func(key string) (string, error) {
		said, err := words.Caution(key, a)
		return plain(said), err
	}); err != nil {
		return nil, err
	}
	if s.sentence, err = words.Verdict(d.Verdict, a); err != nil {
		return nil, err
	}
	if d.Advice.Key != "" {
		if s.advice, err = words.Verdict(d.Advice, a); err != nil {
			return nil, err
		}
	}
	if c := d.Compression; c != nil && c.Expected != nil {
		if s.expected, err = words.Expected(c.Expected, j.Test().Conditions); err != nil {
			return nil, err
		}
		s.expected = plain(s.expected)
	}
	if d.Next != nil {
		next, err := words.Check(*d.Next, a)
		if err != nil {
			return nil, fmt.Errorf("next check: %w", err)
		}
		s.next = plainCheck(&next)
	}
	s.sentence, s.advice = plain(s.sentence), plain(s.advice)
	return s, nil
}

// each says every entry of a list, up to the first that cannot be said.
func each[T, S any](list []T, say func(T) (S, error)) ([]S, error) {
	var all []S
	for _, x := range list {
		said, err := say(x)
		if err != nil {
			return nil, err
		}
		all = append(all, said)
	}
	return all, nil
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
		Next: plainCheck(s.Next),
	}
}

func plainStory(s templates.SaidStory) templates.SaidStory {
	s.Says, s.Because = plain(s.Says), plain(s.Because)
	s.Causes, s.Against, s.Doubts, s.Next = plainAll(s.Causes), plainAll(s.Against), plainAll(s.Doubts), plainCheck(s.Next)
	return s
}

func plainStep(s templates.SaidStep) templates.SaidStep {
	for i := range s.Leads {
		s.Leads[i].If, s.Leads[i].Then = plain(s.Leads[i].If), plain(s.Leads[i].Then)
	}
	s.Check = *plainCheck(&s.Check)
	return s
}

func plainCheck(c *templates.SaidCheck) *templates.SaidCheck {
	if c == nil {
		return nil
	}
	said := templates.SaidCheck{Name: plain(c.Name), For: plain(c.For), Do: plain(c.Do), IfSo: plain(c.IfSo), IfNot: plain(c.IfNot), Effort: plain(c.Effort)}
	for _, o := range c.Outcomes {
		said.Outcomes = append(said.Outcomes, templates.SaidOutcome{Name: o.Name, If: plain(o.If), Then: plain(o.Then)})
	}
	return &said
}
