package ask

import (
	"regexp"
	"sync"
)

// lazily makes a pattern when it is first used, so that a run that asks nothing
// does not wait for it.
func lazily(expression string) func() *regexp.Regexp {
	return sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(expression) })
}
