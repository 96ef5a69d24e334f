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
	p := &printer{words: s.words}
	p.opening(j)
	p.readings(j.Test(), d, cylinder)
	p.title(p.say("terminal.tried", nil))
	for _, one := range tried {
		p.tried(one, d, findings, s, cylinder)
	}
	p.title(p.say("terminal.ledgers", nil))
	for i := range d.Stories {
		p.ledger(i, &d.Stories[i], s.stories[i], cylinder)
	}
	if len(d.Stories) == 0 {
		p.line("  %s", p.say("terminal.nothing-found", nil))
	}
	return p.write(w)
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
		p.wrapped("  - ", p.say("terminal.outcome", diag.Facts{"rule": t.Rule, "outcome": string(t.Outcome)}))
		return
	}
	said := false
	for i, f := range findings {
		if f.Rule == t.Rule && concerns(f.Cylinders, cylinder) {
			p.wrapped("  * ", p.say("terminal.fired", diag.Facts{"rule": t.Rule, "says": s.findings[i].Says + ". " + s.findings[i].Because}))
			said = true
		}
	}
	for i, n := range d.Notices {
		if n.Rule == t.Rule && concerns(n.Cylinders, cylinder) {
			p.wrapped("  * ", p.say("terminal.fired", diag.Facts{"rule": t.Rule, "says": s.notices[i]}))
			said = true
		}
	}
	switch r := rule.Named(t.Rule); {
	case said && r != nil:
		p.wrapped("      "+p.say("terminal.when", nil)+" ", r.Trigger())
		p.wrapped("      "+p.say("terminal.why", nil)+" ", r.Why)
	case cylinder != "":
		p.wrapped("  - ", p.say("terminal.fired-elsewhere", diag.Facts{"rule": t.Rule, "cylinder": cylinder}))
	default:
		p.wrapped("  - ", p.say("terminal.stands-instead", diag.Facts{"rule": t.Rule}))
	}
}

// ledger prints a story with every voice for or against its causes.
func (p *printer) ledger(i int, st *diag.Story, said templates.SaidStory, cylinder string) {
	if !concerns(st.Cylinders, cylinder) {
		return
	}
	p.wrapped(fmt.Sprintf("  %d. ", i+1), p.say("terminal.story", diag.Facts{"about": string(st.About), "urgency": p.term("urgency", string(st.Urgency)), "confidence": p.term("confidence", string(st.Confidence)), "says": said.Says}))
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
				p.wrapped("       ", p.say("terminal.voice", diag.Facts{"weight": fmt.Sprintf("%+d", e.Weight), "by": e.By, "kind": p.kindOf(e)}))
			}
		}
	}
	if st.Next != nil {
		p.wrapped("     "+p.say("terminal.next", nil)+" ", st.Next.Key)
	}
}

func (p *printer) kindOf(e diag.Entry) string {
	if e.Kind == "" {
		return p.say("terminal.common", nil)
	}
	return e.Kind
}

func concerns(cylinders []string, cylinder string) bool {
	return cylinder == "" || len(cylinders) == 0 || slices.Contains(cylinders, cylinder)
}
