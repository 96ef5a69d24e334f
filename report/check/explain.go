package check

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/rule"
	"gaugesheet/report/job"
	"gaugesheet/templates"
)

// Explain writes how a job's findings came about: its readings, every rule in
// the order in which it was tried, why it fired or did not, and what overrode
// what. With a cylinder, only what concerns it. The error is the writer's, or
// names a cylinder that the engine does not have.
func Explain(w io.Writer, j *job.Job, cylinder string) error {
	t := j.Test()
	if names := t.Engine.Names(); cylinder != "" && !slices.Contains(names, cylinder) {
		return &UnknownCylinder{Name: cylinder, Known: names}
	}
	d := rule.Diagnose(t)
	s, err := speak(d, d.Findings, templates.Workshop)
	if err != nil {
		return err
	}
	p := &printer{}
	p.head(j)
	p.readings(d, cylinder)
	p.title("Rules, in the order in which they are tried")
	rules := map[string]rule.Rule{}
	for _, r := range rule.All() {
		rules[r.Name] = r
	}
	for _, tried := range rule.Explain(t) {
		p.tried(tried, rules[tried.Rule], d, s, cylinder)
	}
	p.title("What is said, in this order")
	for i, f := range d.Findings {
		p.wrapped(fmt.Sprintf("  %d. ", i+1), fmt.Sprintf("%s: %s (%s, %s)", f.Rule, s.findings[i].Says, f.Urgency, f.Confidence))
	}
	if len(d.Findings) == 0 {
		p.line("  nothing was found")
	}
	_, err = io.WriteString(w, p.String())
	return err
}

// UnknownCylinder is a cylinder that the engine does not have.
type UnknownCylinder struct {
	Name  string
	Known []string
}

func (e *UnknownCylinder) Error() string {
	return fmt.Sprintf("the engine has no cylinder '%s', expected one of: %s", e.Name, strings.Join(e.Known, ", "))
}

func (p *printer) tried(t rule.Tried, r rule.Rule, d *diag.Diagnosis, s *spoken, cylinder string) {
	if t.Outcome == rule.NotSeen {
		p.wrapped("  - ", fmt.Sprintf("%s: not seen; it fires when %s", t.Rule, trimmed(r.Trigger)))
		return
	}
	if t.Outcome != rule.Fired {
		p.wrapped("  - ", fmt.Sprintf("%s: %s", t.Rule, t.Outcome))
		return
	}
	said := false
	for i, f := range d.Findings {
		if f.Rule == t.Rule && concerns(f.Cylinders, cylinder) {
			p.wrapped("  * ", fmt.Sprintf("%s fired: %s. %s", t.Rule, s.findings[i].Says, s.findings[i].Because))
			said = true
		}
	}
	for i, n := range d.Notices {
		if n.Rule == t.Rule && concerns(n.Cylinders, cylinder) {
			p.wrapped("  * ", fmt.Sprintf("%s fired: %s", t.Rule, s.notices[i]))
			said = true
		}
	}
	if !said {
		p.wrapped("  - ", fmt.Sprintf("%s: fired, but not for cylinder %s", t.Rule, cylinder))
		return
	}
	if r.Why != "" {
		p.wrapped("      why: ", r.Why)
	}
}

// trimmed is a trigger as the end of a sentence.
func trimmed(trigger string) string { return strings.TrimSuffix(trigger, ".") }

func concerns(cylinders []string, cylinder string) bool {
	return cylinder == "" || len(cylinders) == 0 || slices.Contains(cylinders, cylinder)
}
