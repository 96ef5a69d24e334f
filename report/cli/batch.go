package cli

import (
	"context"
	"fmt"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"strings"
	"sync"

	"gaugesheet/diag/story"
	"gaugesheet/report/job"
	"gaugesheet/report/sheet"
	"gaugesheet/templates"
)

// An outcome is what became of one task. It holds no page and no job, so that
// many of them take little room.
type outcome struct {
	task
	code     int
	messages string // for standard error, complete
	found    job.Problems
	row      []string
	said     *said // what its sheet says, where the run is watched
	skipped  bool  // an interrupt came first
}

// draw draws all tasks, says what became of each in their order, and gives
// the worst of their codes.
func (c *Command) draw(tasks []task, d drawing) error {
	var index *index
	if d.index != "" {
		if err := mayReplace(d.index, d.force, isIndex); err != nil {
			return err
		}
		if dir := filepath.Dir(d.index); !isFolder(dir) {
			return noAccess("%s: cannot be written: there is no folder '%s'", d.index, dir)
		}
		index = newIndex()
	}
	if len(tasks) > 1 { // a page leaves much behind at once: collect less often, which costs some ten megabytes and saves a quarter of the time
		defer debug.SetGCPercent(debug.SetGCPercent(400))
	}
	ctx, stop := interrupted()
	defer stop()
	shown := c.progress(len(tasks))
	sum := summary{total: len(tasks)}
	var failed error
	for o := range c.drawAll(ctx, tasks, d) {
		sum.add(o)
		shown.done(o)
		if index != nil && o.row != nil {
			if err := index.add(o.row); err != nil && failed == nil {
				failed = noAccess("%s: %v", d.index, err)
			}
		}
	}
	shown.end()
	c.sayAgain(shown.told)
	if index != nil && failed == nil && sum.drawn > 0 {
		failed = c.putIndex(d, index)
	}
	if len(tasks) > 1 {
		c.sum(sum)
	}
	if failed != nil {
		return failed
	}
	return ended(sum.code)
}

// putIndex writes the index. One that has more lines, of a run of more jobs or
// of one that was not interrupted, stays.
func (c *Command) putIndex(d drawing, x *index) error {
	if less := x.less(d.index); less != "" && !d.force {
		return noAccess("%s: was left as it is: %s", d.index, less).withHint("name another file, or replace it with --force")
	}
	return c.put(d.index, x.bytes())
}

// drawAll draws the tasks on all cores and gives what became of them in the
// order of the tasks. After an interrupt no further one is begun.
func (c *Command) drawAll(ctx context.Context, tasks []task, d drawing) <-chan outcome {
	workers := min(runtime.GOMAXPROCS(0), len(tasks))
	turns := make(chan chan outcome, 4*workers) // one for each task that was begun, in order
	begin := make(chan func(), workers)
	go func() {
		defer close(turns)
		defer close(begin)
		for _, t := range tasks {
			place := make(chan outcome, 1)
			turns <- place
			begin <- func() {
				if ctx.Err() != nil {
					place <- outcome{task: t, skipped: true}
					return
				}
				place <- c.drawOne(t, d)
			}
		}
	}()
	var working sync.WaitGroup
	for range workers {
		working.Go(func() {
			for work := range begin {
				work()
			}
		})
	}
	outcomes := make(chan outcome)
	go func() {
		defer close(outcomes)
		for place := range turns {
			outcomes <- <-place
		}
		working.Wait()
	}()
	return outcomes
}

// drawOne makes one sheet.
func (c *Command) drawOne(t task, d drawing) outcome {
	o := outcome{task: t}
	if t.sheet != standard {
		if err := mayReplace(t.sheet, d.force, drawnHere); err != nil {
			return o.failed(err)
		}
	}
	open := besides(t.job)
	if d.opened != nil {
		open = d.opened.of(t.job, open)
	}
	j, problems, err := c.readJobWith(t.job, d.options.Kind == templates.Bench, open)
	switch {
	case err != nil:
		return o.failed(err)
	case len(problems) > 0:
		return o.problems(problems)
	}
	diagnose := story.UpToNext
	if d.options.ShowsPlan(j) {
		diagnose = story.Diagnose
	}
	diagnosis := diagnose(j.Test())
	page, err := sheet.New(j, diagnosis, d.options)
	if err != nil {
		return o.bad(t.job, err)
	}
	data, err := d.file(page)
	if err != nil {
		return o.bad(t.job, err)
	}
	if err := c.put(t.sheet, data); err != nil {
		return o.failed(err)
	}
	o.row = indexRow(j, diagnosis, t, page.Language())
	if d.opened != nil {
		o.said = saidOf(diagnosis, page.Language())
	}
	return o
}

func (o outcome) failed(err error) outcome {
	o.code = NoAccess
	o.messages = "gaugesheet: " + err.Error() + "\n"
	if f, ok := err.(*failure); ok && f.hint != "" {
		o.messages += "  hint: " + f.hint + "\n"
	}
	return o
}

func (o outcome) problems(problems job.Problems) outcome {
	var b strings.Builder
	problems.Print(&b, true)
	o.code, o.messages, o.found = BadJob, b.String(), problems
	return o
}

// refuse says what is wrong with the one job of a command, and ends it.
func (c *Command) refuse(problems job.Problems) error {
	o := outcome{}.problems(problems)
	visible{c.Stderr}.Write([]byte(o.messages))
	return ended(o.code)
}

// bad is a job that cannot be put on its page.
func (o outcome) bad(name string, err error) outcome {
	o.code, o.messages = BadJob, fmt.Sprintf("%s:1:1: %v\n", called(name), err)
	return o
}

// A summary is what became of all tasks.
type summary struct {
	total, drawn, skipped int
	code                  int
	bad                   []string
}

func (s *summary) add(o outcome) {
	switch {
	case o.skipped:
		s.skipped++
		s.code = NoAccess
	case o.code == Done:
		s.drawn++
	default:
		s.code = max(s.code, o.code)
		s.bad = append(s.bad, called(o.job))
	}
}

// sum says what became of several jobs.
func (c *Command) sum(s summary) {
	c.complain("%s, of %d jobs", sheetsWritten(s.drawn), s.total)
	if s.skipped > 0 {
		c.complain("interrupted: %d jobs were not begun", s.skipped)
	}
	if len(s.bad) > 0 {
		c.complain("no sheet for:")
		for _, name := range s.bad {
			c.complain("  %s", name)
		}
	}
}

// progress shows how far a run is: a bar on a terminal, a line for each sheet
// elsewhere.
type progress struct {
	c    *Command
	bar  *bar // nil where there is none
	told *told
}

func (c *Command) progress(total int) progress {
	p := progress{c: c, told: &told{jobs: map[string]int{}, says: map[string]string{}}}
	if total > 1 && isTerminal(c.Stderr) {
		p.bar = &bar{w: c.Stderr, total: total}
	}
	return p
}

// done shows one more task. What a bar or a line cannot show does not stop
// the run.
func (p progress) done(o outcome) {
	if o.found != nil {
		o.messages = p.told.fresh(o.found, called(o.job))
	}
	if p.bar != nil {
		if o.messages != "" {
			p.bar.clear()
		}
		defer p.bar.add()
	}
	switch {
	case o.messages != "":
		visible{p.c.Stderr}.Write([]byte(o.messages))
	case o.code == Done && !o.skipped && o.sheet != standard && p.bar == nil:
		p.c.say("wrote %s", o.sheet)
	}
}

func (p progress) end() {
	if p.bar != nil {
		p.bar.clear()
	}
}
