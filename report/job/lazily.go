package job

import (
	"regexp"
	"sync"
)

// lazily is a regular expression that is compiled when it is first used: one
// run uses few of them, and compiling all takes longer than reading a job.
func lazily(expression string) func() *regexp.Regexp {
	return sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(expression) })
}
