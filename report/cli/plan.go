package cli

import (
	"fmt"
	"os"
	"path/filepath"
)

// A task is a job file and the sheet that it becomes.
type task struct{ job, sheet string }

// plan says which sheet each job becomes, and refuses what cannot come out
// right before anything is drawn.
func (c *Command) plan(args []string, d drawing) ([]task, error) {
	jobs, several, err := c.inputs(args)
	if err != nil {
		return nil, err
	}
	output, err := d.where(len(jobs), several)
	if err != nil {
		return nil, err
	}
	taken := map[string]string{}
	if d.index != "" {
		taken[oneSpelling(d.index)] = "the index"
	}
	tasks := make([]task, len(jobs))
	for i, job := range jobs {
		tasks[i] = task{job.path, output(job)}
		if tasks[i].sheet == standard {
			if isTerminal(c.Stdout) {
				return nil, wrongUse("standard output is a terminal, which shows no sheet").withHint("send it into a file, or name one with -o")
			}
			continue
		}
		where := oneSpelling(tasks[i].sheet)
		if other, twice := taken[where]; twice {
			return nil, noAccess("%s and %s would both be written to %s; nothing was drawn", other, called(job.path), tasks[i].sheet).
				withHint("draw them into two folders")
		}
		taken[where] = called(job.path)
	}
	return tasks, d.makeFolders(tasks, several)
}

// where gives the function that names the sheet of a job.
func (d drawing) where(jobs int, several bool) (func(input) string, error) {
	switch {
	case d.output == "":
		return func(job input) string { return besideJob(job.path, d.ending()) }, nil
	case d.output == standard && several:
		return nil, wrongUse("-o - writes one sheet to standard output, found %d jobs", jobs).withHint("name a folder with -o")
	case d.output == standard:
		return func(input) string { return standard }, nil
	case d.intoFolder(several):
		return func(job input) string { return filepath.Join(d.output, withExtension(job.name, d.ending())) }, nil
	case several:
		return nil, wrongUse("-o %s is one file, found %d jobs", d.output, jobs).withHint("name a folder with -o")
	}
	return func(input) string { return d.output }, oneFile(d.output)
}

// intoFolder tells whether -o names a folder: of several jobs whatever is not
// named like a sheet is one.
func (d drawing) intoFolder(several bool) bool {
	return isFolder(d.output) || several && !isSheetFile(d.output)
}

// makeFolders makes the folder that -o names, and those in it that keep the
// order of a folder of jobs.
func (d drawing) makeFolders(tasks []task, several bool) error {
	if d.output == "" || d.output == standard || !d.intoFolder(several) {
		return nil
	}
	for _, t := range tasks {
		dir := filepath.Dir(t.sheet)
		if err := os.MkdirAll(dir, 0o777); err != nil {
			return noAccess("%s: cannot be made: %v", dir, reason(err))
		}
	}
	return nil
}

// besideJob names the sheet of a job where nothing else is said.
func besideJob(job, ending string) string {
	if job == standard {
		return standard
	}
	return withExtension(job, ending)
}

// sheetsWritten is the end of a run of several jobs.
func sheetsWritten(n int) string {
	if n == 1 {
		return "1 sheet written"
	}
	return fmt.Sprintf("%d sheets written", n)
}
