package cli

import (
	"context"
	"fmt"
	"io"
	"maps"
	"os"
	"slices"
	"strings"
	"sync"
	"time"

	"gaugesheet/diag"
	"gaugesheet/report/job"
	"gaugesheet/templates"
)

// lookEvery is how often watched files are looked at. A file has to be the same
// twice before it is read, so that no half-written one is.
const lookEvery = 250 * time.Millisecond

// watch draws jobs, and draws each again when it or a file that it draws on
// changes, until it is interrupted.
func (c *Command) watch(args []string, template string, d drawing) error {
	switch {
	case slices.Contains(args, standard) || d.output == standard:
		return wrongUse("--watch is for files, not for standard input or output")
	case d.index != "":
		return wrongUse("--watch draws sheets one by one, --index is of a whole run").withHint("give one of them")
	}
	tasks, err := c.plan(args, d)
	if err != nil {
		return err
	}
	ctx, stop := interrupted()
	defer stop()
	d.opened = &opened{files: map[string][]string{}}
	w := &watcher{command: c, args: args, template: template, drawing: d, known: map[string]*watched{}}
	c.complain("watching; Ctrl-C ends it")
	w.draw(tasks)
	return w.run(ctx, lookEvery)
}

// opened are the files that jobs drew on, by job.
type opened struct {
	mutex sync.Mutex
	files map[string][]string
}

// of gives an opener that notes what it is asked for, there or not.
func (o *opened) of(name string, open job.Opener) job.Opener {
	o.mutex.Lock()
	o.files[name] = nil
	o.mutex.Unlock()
	return func(file string) ([]byte, error) {
		o.mutex.Lock()
		o.files[name] = append(o.files[name], besidePath(name, file))
		o.mutex.Unlock()
		return open(file)
	}
}

func (o *opened) by(name string) []string {
	o.mutex.Lock()
	defer o.mutex.Unlock()
	return slices.Clone(o.files[name])
}

// A stamp tells one state of a file from another; the zero stamp is of no file.
type stamp struct {
	size     int64
	modified time.Time
}

func stampOf(name string) stamp {
	info, err := os.Stat(name)
	if err != nil {
		return stamp{}
	}
	return stamp{info.Size(), info.ModTime()}
}

// A watched job is one that was drawn from files as they were then.
type watched struct {
	drawn map[string]stamp // as they were read
	last  map[string]stamp // as they were looked at last
	said  *said
}

// A watcher draws jobs again when their files change.
type watcher struct {
	command  *Command
	args     []string
	template string
	drawing  drawing
	known    map[string]*watched
}

func (w *watcher) run(ctx context.Context, every time.Duration) error {
	tick := time.NewTicker(every)
	defer tick.Stop()
	for {
		select {
		case <-ctx.Done():
			return nil
		case <-tick.C:
			w.look()
		}
	}
}

// look draws what has changed since it was drawn and is no longer changing.
func (w *watcher) look() {
	quiet := *w.command
	quiet.Stderr = io.Discard
	tasks, err := quiet.plan(w.args, w.drawing)
	if err != nil { // a folder that is being written to; it is looked at again
		return
	}
	var changed []task
	for _, t := range tasks {
		now := w.stamps(t)
		one := w.known[t.job]
		switch {
		case one == nil:
			w.known[t.job] = &watched{last: now}
		case maps.Equal(now, one.last) && !maps.Equal(now, one.drawn):
			changed = append(changed, t)
		default:
			one.last = now
		}
	}
	w.draw(changed)
}

// stamps are those of a job's file and of all that it draws on.
func (w *watcher) stamps(t task) map[string]stamp {
	out := map[string]stamp{t.job: stampOf(t.job)}
	for _, name := range w.drawing.opened.by(t.job) {
		out[name] = stampOf(name)
	}
	if w.template != "" {
		out[w.template] = stampOf(w.template)
	}
	return out
}

// draw draws tasks one after the other and says what changed in their verdicts.
func (w *watcher) draw(tasks []task) {
	c := w.command
	if w.template != "" && len(tasks) > 0 { // it may be what changed
		if err := c.readTemplate(&w.drawing, w.template); err != nil {
			w.settle(tasks)
			return
		}
	}
	for _, t := range tasks {
		before := w.stamps(t)
		o := c.drawOne(t, w.drawing)
		one := w.known[t.job]
		if one == nil {
			one = &watched{}
			w.known[t.job] = one
		}
		one.drawn = w.stamps(t)
		maps.Copy(one.drawn, before) // what changed meanwhile is drawn again
		one.last = one.drawn
		if o.messages != "" {
			visible{c.Stderr}.Write([]byte(o.messages))
			continue
		}
		c.say("wrote %s", t.sheet) // a line that cannot be written stops nothing
		for _, line := range o.said.since(one.said) {
			c.say("  %s", line)
		}
		one.said = o.said
	}
}

// settle takes tasks as drawn that cannot be until their template is mended.
func (w *watcher) settle(tasks []task) {
	for _, t := range tasks {
		if one := w.known[t.job]; one != nil {
			one.drawn = w.stamps(t)
			one.last = one.drawn
		}
	}
}

// said is what a sheet says in short.
type said struct {
	verdict  string
	findings []string
}

// saidOf gives a diagnosis in short, in words.
func saidOf(d *diag.Diagnosis, language string) *said {
	words, err := templates.Words(language)
	if err != nil {
		return nil
	}
	words = words.Of(d.Chambers)
	s := &said{}
	if sentence, err := words.Verdict(d.Verdict, templates.Workshop); err == nil {
		s.verdict = onLine("%s; urgency: %s", sentence, d.Urgency)
	}
	for i, story := range d.Stories {
		if one, err := words.Story(d.Stories[i], templates.Workshop); err == nil {
			s.findings = append(s.findings, onLine("%s (%s)", strings.TrimRight(one.Says, "."), story.Urgency))
		}
	}
	return s
}

// onLine is a text in which spaces are spaces, as a terminal has them.
func onLine(format string, args ...any) string {
	return strings.ReplaceAll(fmt.Sprintf(format, args...), "\u00a0", " ")
}

// since says what is another than it was before.
func (s *said) since(before *said) []string {
	switch {
	case s == nil:
		return nil
	case before == nil:
		return []string{s.verdict}
	}
	var out []string
	if s.verdict != before.verdict {
		out = append(out, "verdict: "+s.verdict, "  it was: "+before.verdict)
	}
	for _, f := range s.findings {
		if !slices.Contains(before.findings, f) {
			out = append(out, "new: "+f)
		}
	}
	for _, f := range before.findings {
		if !slices.Contains(s.findings, f) {
			out = append(out, "gone: "+f)
		}
	}
	if len(out) == 0 {
		out = append(out, "the verdict is as before")
	}
	return out
}
