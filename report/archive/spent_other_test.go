//go:build !unix

package archive

import "time"

var began = time.Now()

// spent is the time that has passed: these systems do not tell a process's own.
func spent() time.Duration { return time.Since(began) }
