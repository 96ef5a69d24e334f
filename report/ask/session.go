package ask

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"gaugesheet/diag"
	"gaugesheet/diag/engine"
	"gaugesheet/report/job"
	"gaugesheet/templates"
)

// A Session asks for one job.
type Session struct {
	Next   func() (string, error) // the next line that is typed; an error where there is none any more
	Out    io.Writer              // for questions and answers to them
	Reader job.Reader             // as it reads the file that comes of it
	Shop   string                 // the shop profile as the job file names it, "" for none
	Echo   bool                   // write what was typed behind the question, where no terminal does

	draft  draft
	job    *job.Job // the draft as read
	engine *engine.Engine
	queue  []*question
	was    map[string]string // what was typed for each question
	later  map[string]bool   // the questions that were left open, to be answered in the file
	begun  map[string]bool   // the questions before which was said what there is to say
	unit   string            // of the pressures typed last
	asked  int

	refused job.Problems // what is wrong with the line typed last
}

// A Result is what came of a session.
type Result struct {
	File  []byte // the job file; nil where nothing was entered
	Job   *job.Job
	Lacks job.Problems // what it lacks for a sheet, where Job is nil
	Asked int          // how many questions were asked
	Ended bool         // all questions were asked; false where the user stopped before
}

// The answers that are none.
var (
	errBack = errors.New("back")
	errQuit = errors.New("quit")
	errSaid = errors.New("said already what is wrong")
)

// A question asks for one line of the job.
type question struct {
	path  string // of its key; its name where it is none
	say   string
	hint  string                  // what may be typed, in brackets; "" for what the key says
	hints func(s *Session) string // the same, where it goes by the engine
	must  bool                    // there is no going on without it
	later string                  // what is said where it is left open first, and may be once more; "" for nothing
	// state is the section that may be 'not tested' as a whole, "" for none.
	state string
	when  func(s *Session) bool // nil for always
	take  func(s *Session, line string) ([]entry, error)
	show  func(s *Session, typed []entry) // nil for the usual way of saying what was understood
	after func(s *Session, line string)   // nil for nothing: what follows from the answer
	begin func(s *Session)                // nil for nothing: what is said before it is asked first, and of '?'
	tells bool                            // what was understood is said also of a text
	help  string                          // beside what the key says
	words string                          // the path of the key whose words it takes, where that is another
}

// A step is where the session was before a question, to go back to.
type step struct {
	draft draft
	queue []*question
	at    int
}

const opening = `Type each answer and press Enter. Enter alone, or -, where it is not known.
not tested: where that test was not made.   back: the question before.
?: what can be answered.                    quit: stop, and keep what was entered.
`

// Run asks until there is nothing more to ask, or the user stops. The engine is
// asked for where it is "".
func (s *Session) Run(layout string) Result {
	s.was, s.begun, s.later = map[string]string{}, map[string]bool{}, map[string]bool{}
	if s.Shop != "" {
		s.takeShop()
	}
	fmt.Fprint(s.Out, opening)
	s.queue = mainQuestions()
	if layout != "" {
		if entries, err := takeEngine(s, layout); err == nil && s.try(entries) {
			s.was["engine.layout"] = layout
			engineShown(s, entries)
			s.queue = s.queue[1:]
		}
	}
	ended := s.askAll()
	return s.result(ended)
}

// takeShop begins with the shop profile, where it is sound.
func (s *Session) takeShop() {
	begun := draft{at("shop", s.Shop)}
	text := string(begun.file()) + "engine: {layout: single}\n"
	if _, problems := s.Reader.ReadForBlank("job.yaml", []byte(text)); len(problems) > 0 {
		fmt.Fprintf(s.Out, "%s is not used, it has errors:\n", s.Shop)
		s.complain(problems)
		return
	}
	s.draft = begun
}

// askAll asks the questions of the queue; false where the user stopped.
func (s *Session) askAll() bool {
	var past []step
	for i := 0; i < len(s.queue); {
		q := s.queue[i]
		if q.when != nil && !q.when(s) {
			i++
			continue
		}
		before := step{s.draft, s.queue, i}
		switch err := s.put(q); {
		case errors.Is(err, errBack):
			if len(past) == 0 {
				s.say("This is the first question.")
				continue
			}
			last := past[len(past)-1]
			past = past[:len(past)-1]
			s.draft, s.queue, i = last.draft, last.queue, last.at
			s.read(s.draft)
			continue
		case err != nil:
			return false
		}
		past = append(past, before)
		i++
	}
	return true
}

// put asks one question until its answer is taken or there is none.
func (s *Session) put(q *question) error {
	if q.begin != nil && !s.begun[q.path] {
		q.begin(s)
		s.begun[q.path] = true
	}
	for left := false; ; {
		line, err := s.ask(q)
		switch {
		case err != nil:
			return err
		case line == "?":
			s.explain(q)
		case line == "" && q.later != "" && !left:
			left = true
			s.say(q.later)
		case line == "" && q.later != "":
			s.later[q.path] = true
			s.read(s.draft)
			return nil
		case line == "" && q.must:
			s.say("There is no going on without it: " + q.help)
		case line == "":
			return nil
		default:
			if done, err := s.answer(q, line); done || err != nil {
				return err
			}
		}
	}
}

// answer takes a line for a question; done tells that it was sound.
func (s *Session) answer(q *question, line string) (done bool, err error) {
	entries, err := s.understand(q, line)
	var again *typedAnew
	switch {
	case errors.As(err, &again):
		return s.answer(q, again.line)
	case errors.Is(err, errSaid), errors.Is(err, errBack): // back out of a further question of this one
		return false, nil
	case errors.Is(err, errQuit):
		return false, err
	case err != nil:
		s.say(err.Error())
		return false, nil
	}
	if !s.try(entries) {
		s.offer(q, line, s.refused)
		return false, nil
	}
	s.was[q.path] = line
	s.shown(q, entries)
	if q.after != nil {
		q.after(s, line)
	}
	return true, nil
}

// ask gives the line typed for a question, "" for none.
func (s *Session) ask(q *question) (string, error) {
	s.asked++
	prompt := q.say
	if hint := q.hinted(s); hint != "" {
		prompt += " (" + hint + ")"
	}
	was := s.was[q.path]
	if given := s.byProfile(q.path); was == "" && given != "" {
		prompt += " [" + given + ", by the shop profile]"
	} else if was != "" {
		prompt += " [" + was + "]"
	}
	line, err := s.line(prompt)
	switch {
	case err != nil:
		return "", err
	case line == "":
		return was, nil
	case line == notRecorded:
		delete(s.was, q.path)
		return "", nil
	}
	return line, nil
}

// byProfile is what the shop profile gives for every job at a path, which holds
// where nothing else is typed; "" for nothing.
func (s *Session) byProfile(path string) string {
	if s.job == nil || s.draft.has(path) {
		return ""
	}
	return s.job.Entered(strings.Split(path, ".")...)
}

// line asks for a line, and knows the words that are no answers.
func (s *Session) line(prompt string) (string, error) {
	fmt.Fprint(s.Out, prompt+": ")
	line, err := s.Next()
	line = strings.TrimSpace(line)
	if s.Echo {
		fmt.Fprintln(s.Out, line)
	}
	switch {
	case err != nil:
		fmt.Fprintln(s.Out)
		return "", errQuit
	case fold(line) == "back" || line == "<":
		return "", errBack
	case fold(line) == "quit" || fold(line) == "q" || fold(line) == "exit":
		return "", errQuit
	}
	return line, nil
}

// understand takes a line for what it means to the question.
func (s *Session) understand(q *question, line string) ([]entry, error) {
	if q.state != "" && isState(line) {
		return []entry{at(q.state, line)}, nil
	}
	return q.take(s, line)
}

// isState reports a line that says that a test was not made.
func isState(line string) bool { return job.NotMade(line) }

// try reads the draft with further entries, and keeps it where it is sound.
func (s *Session) try(entries []entry) bool {
	candidate := s.draft.with(entries)
	problems := s.read(candidate)
	if s.refused = problems; len(problems) > 0 {
		s.complain(problems)
		s.read(s.draft)
		return false
	}
	noted := s.notices(s.draft)
	s.draft = candidate
	s.read(candidate)
	for _, n := range s.notices(candidate) {
		if !slices.Contains(noted, n) {
			s.say("Look again: " + n)
		}
	}
	return true
}

// read reads a draft as for the bench, where readings may be missing.
func (s *Session) read(d draft) job.Problems {
	if !d.has("engine.layout") {
		s.job, s.engine = nil, nil
		return nil
	}
	if s.leftOpen(d) { // cylinders are called by their numbers in every numbering
		d = d.with(entriesOf(engine.Choices(s.engine.Layout)[0]))
	}
	j, problems := s.Reader.ReadForBlank("job.yaml", d.file())
	if j != nil {
		s.job, s.engine = j, j.Test().Engine
	}
	return problems
}

// notices are what is noted of the readings of a draft as they stand: a unit
// that cannot be, numbers that contradict.
func (s *Session) notices(d draft) []string {
	if len(d) == 0 || s.read(d) != nil || s.job == nil {
		return nil
	}
	words, err := templates.Words(s.job.Language.Value)
	if err != nil {
		return nil
	}
	var out []string
	for _, n := range s.job.Test().Noted {
		if text, err := words.Of(diag.ChambersOf(s.engine)).Notice(n, templates.Workshop); err == nil {
			out = append(out, text)
		}
	}
	return out
}

// complain says what is wrong with an answer, in the words of the job file's
// reader.
func (s *Session) complain(problems job.Problems) {
	const most = 3
	for i, p := range problems {
		if i == most {
			s.say(fmt.Sprintf("... and %d more", len(problems)-most))
			break
		}
		s.say(p.Message)
		if p.Hint != "" {
			s.say("  hint: " + p.Hint)
		}
	}
}

// say writes a line that answers what was typed.
func (s *Session) say(text string) { fmt.Fprintln(s.Out, "  "+text) }

// result is what has been entered.
func (s *Session) result(ended bool) Result {
	r := Result{Asked: s.asked, Ended: ended}
	if !s.draft.has("engine") {
		return r
	}
	r.File = s.draft.file()
	r.Job, r.Lacks = s.Reader.Read("job.yaml", r.File)
	return r
}

// today is the day by the reader's clock in the form of the job file.
func (s *Session) today(days int) string {
	return s.Reader.Today.AddDate(0, 0, days).Format(time.DateOnly)
}
