package check

import (
	"fmt"
	"io"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/report/job"
	"gaugesheet/templates"
)

// Text writes what a job's readings say in words, for a terminal. The error is
// the writer's, or names words that the catalogue lacks.
func Text(w io.Writer, j *job.Job, d *diag.Diagnosis) error {
	s, err := speak(j, d, nil, templates.Workshop)
	if err != nil {
		return err
	}
	p := &printer{}
	p.head(j)
	p.verdict(d, s)
	p.list("About the test", s.notices)
	p.readings(j.Test(), d, "")
	p.stories(d, s)
	if d.Next != nil {
		p.title("Next check")
		p.check(*s.next, "  ")
	}
	p.notTested(d)
	p.list("Cautions", s.cautions)
	_, err = io.WriteString(w, p.String())
	return err
}

// columns is how wide the words are set.
const columns = 78

// A printer sets words in lines.
type printer struct{ strings.Builder }

func (p *printer) line(format string, args ...any) { fmt.Fprintf(p, format+"\n", args...) }

func (p *printer) title(text string) { p.line("\n%s", text) }

// wrapped sets a text after a mark, the further lines under its beginning.
func (p *printer) wrapped(mark, text string) {
	if text == "" {
		return
	}
	indent := strings.Repeat(" ", len([]rune(mark)))
	line := mark
	for i, word := range strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == '\n' || r == '\t' }) {
		if i > 0 && len([]rune(line))+1+len([]rune(word)) > columns {
			p.line("%s", line)
			line = indent + word
			continue
		}
		if i > 0 {
			line += " "
		}
		line += word
	}
	p.line("%s", line)
}

func (p *printer) list(title string, items []string) {
	if len(items) == 0 {
		return
	}
	p.title(title)
	for _, item := range items {
		p.wrapped("  - ", item)
	}
}

func (p *printer) head(j *job.Job) {
	var parts []string
	for _, t := range []job.Text{j.Number, j.Date.Entered, j.Vehicle.Description} {
		if t.Given() {
			parts = append(parts, t.Value)
		}
	}
	engine := j.Test().Engine
	parts = append(parts, engine.Layout)
	p.wrapped("", strings.Join(parts, ", "))
}

func (p *printer) verdict(d *diag.Diagnosis, s *spoken) {
	p.line("")
	p.wrapped("", s.sentence)
	p.wrapped("", s.advice)
	p.line("urgency: %s", d.Urgency)
}

func (p *printer) stories(d *diag.Diagnosis, s *spoken) {
	if len(d.Stories) == 0 {
		return
	}
	p.title("Findings")
	for i := range d.Stories {
		p.story(fmt.Sprintf("  %d. ", i+1), &d.Stories[i], s.stories[i])
	}
}

func (p *printer) story(mark string, st *diag.Story, said templates.SaidStory) {
	p.wrapped(mark, said.Says)
	indent := strings.Repeat(" ", len(mark))
	p.wrapped(indent, said.Because)
	for _, part := range []struct {
		mark  string
		texts []string
	}{
		{"points to, likeliest first: ", said.Causes}, {"speaks against: ", said.Against}, {"how sure: " + string(st.Confidence) + "; ", said.Doubts},
	} {
		switch {
		case len(part.texts) > 0:
			p.wrapped(indent+"  ", part.mark+strings.Join(part.texts, "; "))
		case strings.HasPrefix(part.mark, "how sure"):
			p.wrapped(indent+"  ", strings.TrimSuffix(part.mark, "; "))
		}
	}
	p.line("%s  %s (%s)", indent, st.Urgency, strings.Join(rulesOf(*st), ", "))
	if said.Next != nil {
		p.wrapped(indent+"  next: ", said.Next.Do)
	}
}

func (p *printer) check(c templates.SaidCheck, indent string) {
	p.wrapped(indent, c.Do)
	for _, o := range c.Outcomes {
		p.wrapped(indent+"- ", o.If+": "+o.Then)
	}
	p.wrapped(indent+"takes:  ", c.Effort)
}

func (p *printer) notTested(d *diag.Diagnosis) {
	if len(d.NotTested) == 0 {
		return
	}
	p.title("Not tested")
	for _, u := range d.NotTested {
		p.wrapped("  - ", untestedName(u)+": "+state(u.State, u.Reason))
	}
}

// untestedName is a test that was not made, with the part of it that it was.
func untestedName(u diag.Untested) string {
	name := u.Test
	for _, part := range append([]string{u.Circuit, u.Reading}, u.Cylinders...) {
		if part != "" {
			name += " " + part
		}
	}
	return name
}

// state is a state with its reason where there is one.
func state(s diag.State, reason string) string {
	if reason == "" {
		return string(s)
	}
	return string(s) + " (" + reason + ")"
}
