//go:build unix

package budget

import (
	"syscall"
	"time"
)

// processor is the processor time that this process has taken, which a busy machine
// hardly changes.
func processor() time.Duration {
	var u syscall.Rusage
	syscall.Getrusage(syscall.RUSAGE_SELF, &u)
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}
