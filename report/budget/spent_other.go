//go:build !unix

package budget

import "time"

var began = time.Now()

// processor is the time that has passed: these systems do not tell a process's own.
func processor() time.Duration { return time.Since(began) }
