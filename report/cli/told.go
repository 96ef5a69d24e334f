package cli

import (
	"strings"

	"gaugesheet/report/job"
)

// told is what a run over many jobs has said of the files that several of them
// draw on: a shop profile that is missing is missing for each, and is told once.
type told struct {
	order []string // what is shared, as it was met
	jobs  map[string]int
	says  map[string]string
}

// fresh gives the messages of a job's problems, without those that were told of
// another job.
func (t *told) fresh(problems job.Problems, name string) string {
	var left job.Problems
	for _, p := range problems {
		shared := p.Shared(name)
		if shared != "" {
			if t.jobs[shared]++; t.jobs[shared] > 1 {
				continue
			}
			t.order, t.says[shared] = append(t.order, shared), p.Message
		}
		left = append(left, p)
	}
	var b strings.Builder
	left.Print(&b, true)
	return b.String()
}

// sayAgain says of how many more jobs each shared problem is.
func (c *Command) sayAgain(t *told) {
	for _, shared := range t.order {
		if more := t.jobs[shared] - 1; more > 0 {
			c.complain("%s: so in %d more of the jobs", t.says[shared], more)
		}
	}
}
