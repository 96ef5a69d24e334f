//go:build unix

package sheet_test

import (
	"syscall"
	"time"
)

// spent is the processor time that the process took so far, which tells how
// much work something is on a machine with much else to do, too.
func spent() time.Duration {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		return 0
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}
