package check

import (
	"fmt"
	"io"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/report/job"
	"gaugesheet/templates"
)

// Text writes what a job's readings say in words, for a terminal.
func Text(w io.Writer, j *job.Job, d *diag.Diagnosis) error {
	s, err := speak(j, d, nil, templates.Workshop)
	if err != nil {
		return err
	}
	p := &printer{words: s.words}
	p.opening(j)
	p.verdict(d, s)
	p.list("terminal.notices", s.notices)
	p.readings(j.Test(), d, "")
	p.stories(d, s)
	if d.Next != nil {
		p.title(p.say("terminal.next-check", nil))
		p.check(*s.next, "  ")
	}
	p.notTested(d)
	p.list("terminal.cautions", s.cautions)
	return p.write(w)
}

// columns is how wide the words are set.
const columns = 78

// A printer sets words in lines.
type printer struct {
	strings.Builder
	words *templates.Catalogue
	err   error // the first word that the catalogue lacks
}

// say gives a fixed word with its facts in place.
func (p *printer) say(key string, facts diag.Facts) string {
	return p.keep(p.words.Label(key, facts))
}

// keep is a text, and keeps the first that the catalogue lacks.
func (p *printer) keep(text string, err error) string {
	if p.err == nil {
		p.err = err
	}
	return plain(text)
}

// term is a word of one of the program's lists.
func (p *printer) term(list, word string) string {
	if word == "" {
		return ""
	}
	return p.say(list+"."+word, nil)
}

// write hands over what was said. The error is the writer's, or names words
// that the catalogue lacks.
func (p *printer) write(w io.Writer) error {
	if p.err != nil {
		return p.err
	}
	_, err := io.WriteString(w, p.String())
	return err
}

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
	p.title(p.say(title, nil))
	for _, item := range items {
		p.wrapped("  - ", item)
	}
}

func (p *printer) opening(j *job.Job) {
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
	p.line("%s", p.say("terminal.urgency", diag.Facts{"urgency": p.term("urgency", string(d.Urgency)), "until": p.words.UrgentUntil(d)}))
}

func (p *printer) stories(d *diag.Diagnosis, s *spoken) {
	if len(d.Stories) == 0 {
		return
	}
	p.title(p.say("terminal.findings", nil))
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
	}{{"terminal.causes", said.Causes}, {"terminal.against", said.Against}} {
		if len(part.texts) > 0 {
			p.wrapped(indent+"  ", p.say(part.mark, nil)+" "+strings.Join(part.texts, "; "))
		}
	}
	sure := p.say("terminal.sure", diag.Facts{"confidence": p.term("confidence", string(st.Confidence))})
	p.wrapped(indent+"  ", strings.Join(append([]string{sure}, said.Doubts...), "; "))
	p.line("%s  %s (%s)", indent, p.term("urgency", string(st.Urgency)), strings.Join(rulesOf(*st), ", "))
	if said.Next != nil {
		p.wrapped(indent+"  "+p.say("terminal.next", nil)+" ", said.Next.Do)
	} else if st.Repair != "" {
		p.wrapped(indent+"  "+p.say("terminal.next", nil)+" ", p.say("repair."+st.Repair, diag.Facts{"Cylinders": diag.Names(st.Cylinders)}))
	}
}

func (p *printer) check(c templates.SaidCheck, indent string) {
	p.wrapped(indent, c.Do)
	for _, o := range c.Outcomes {
		p.wrapped(indent+"- ", o.If+": "+o.Then)
	}
	p.wrapped(indent+p.say("terminal.takes", nil)+"  ", c.Effort)
}

func (p *printer) notTested(d *diag.Diagnosis) {
	if len(d.NotTested) == 0 {
		return
	}
	p.title(p.say("terminal.not-tested", nil))
	for _, u := range d.NotTested {
		p.wrapped("  - ", untestedName(u)+": "+p.state(u.State, u.Reason))
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
func (p *printer) state(s diag.State, reason string) string {
	return p.keep(p.words.Because(s, reason))
}
