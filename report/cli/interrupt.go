package cli

import (
	"context"
	"os"
	"os/signal"
	"syscall"
	"time"
)

// patience is how long an interrupted run may take to end what it is at.
const patience = time.Second

// interrupted gives a context that the first interrupt ends. A run that does not
// end by itself then, since it waits for its input or for a disk, is ended; a
// second interrupt ends it at once.
func interrupted() (ctx context.Context, stop func()) {
	ctx, cancel := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	done := make(chan bool)
	go func() {
		select {
		case <-done:
			return
		case <-ctx.Done():
		}
		cancel() // from now on a signal does what it does to any program
		select {
		case <-done:
		case <-time.After(patience):
			written.clear()
			os.Exit(NoAccess)
		}
	}()
	return ctx, func() { close(done); cancel() }
}
