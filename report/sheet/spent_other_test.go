//go:build !unix

package sheet_test

import "time"

var began = time.Now()

// spent is the time that passed, where processor time is not told.
func spent() time.Duration { return time.Since(began) }
