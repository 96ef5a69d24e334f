package check

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/rule"
	"gaugesheet/diag/story"
	"gaugesheet/report/job"
	"gaugesheet/templates"
)

// Explain writes how a job's stories came about: its readings, every rule in
// the order in which it was tried, why it fired or what it lacked, and the
// ledger of each story. With a cylinder, only what concerns it. The error is
// the writer's, or names a cylinder that the engine does not have.
func Explain(w io.Writer, j *job.Job, cylinder string) error {
	t := j.Test()
	if names := t.Engine.Names(); cylinder != "" && !slices.Contains(names, cylinder) {
		return &UnknownCylinder{Name: cylinder, Known: names}
	}
	d, tried := story.Explain(t)
	findings := allFindings(d)
	s, err := speak(j, d, findings, templates.Workshop)
	if err != nil {
		return err
	}
	p := &printer{}
	p.head(j)
	p.readings(j.Test(), d, cylinder)
	p.title("Rules, in the order in which they are tried")
	for _, one := range tried {
		p.tried(one, d, findings, s, cylinder)
	}
	p.title("What is said, in this order, and why these causes")
	for i := range d.Stories {
		p.ledger(i, &d.Stories[i], s.stories[i], cylinder)
	}
	if len(d.Stories) == 0 {
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

func (p *printer) tried(t rule.Tried, d *diag.Diagnosis, findings []diag.Finding, s *spoken, cylinder string) {
	if t.Outcome != rule.Fired {
		p.wrapped("  - ", fmt.Sprintf("%s: %s", t.Rule, t.Outcome))
		return
	}
	said := false
	for i, f := range findings {
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
	switch r := rule.Named(t.Rule); {
	case said && r != nil:
		p.wrapped("      when: ", r.Trigger())
		p.wrapped("      why: ", r.Why)
	case cylinder != "":
		p.wrapped("  - ", fmt.Sprintf("%s: fired, but not for cylinder %s", t.Rule, cylinder))
	default:
		p.wrapped("  - ", fmt.Sprintf("%s: fired, and another rule stands instead of it", t.Rule))
	}
}

// ledger prints a story with every voice for or against its causes.
func (p *printer) ledger(i int, st *diag.Story, said templates.SaidStory, cylinder string) {
	if !concerns(st.Cylinders, cylinder) {
		return
	}
	p.wrapped(fmt.Sprintf("  %d. ", i+1), fmt.Sprintf("%s (%s, %s): %s", st.About, st.Urgency, st.Confidence, said.Says))
	sums := map[string]int{}
	var order []string
	for _, e := range st.Ledger {
		if _, seen := sums[e.Cause]; !seen {
			order = append(order, e.Cause)
		}
		sums[e.Cause] += e.Weight
	}
	slices.SortStableFunc(order, func(a, b string) int { return sums[b] - sums[a] })
	for _, cause := range order {
		p.wrapped("     ", fmt.Sprintf("%s: %d", cause, sums[cause]))
		for _, e := range st.Ledger {
			if e.Cause == cause {
				p.wrapped("       ", fmt.Sprintf("%+d by %s (%s)", e.Weight, e.By, kindOf(e)))
			}
		}
	}
	if st.Next != nil {
		p.wrapped("     next: ", st.Next.Key)
	}
}

func kindOf(e diag.Entry) string {
	if e.Kind == "" {
		return "common"
	}
	return e.Kind
}

func concerns(cylinders []string, cylinder string) bool {
	return cylinder == "" || len(cylinders) == 0 || slices.Contains(cylinders, cylinder)
}
