// Package budget holds what reading a file may take, whatever the file, and
// measures it, for tests only; it knows nothing of what is measured.
package budget

import (
	"runtime"
	"runtime/debug"
	"runtime/metrics"
	"sync/atomic"
	"testing"
	"time"
)

// What reading one file may take.
const (
	Time   = 2 * time.Second // of the processor
	Memory = 300 << 20       // bytes that are in use at once
)

// limit is the program's own, in bytes: beyond it memory is freed before more
// is taken.
const limit = 256 << 20

// A Spent is what something took.
type Spent struct {
	Time   time.Duration // of the processor
	Memory uint64        // bytes that were in use at once, at most
}

// Of runs a function and tells what it took. Memory is what a collection leaves
// alone, since how much waits to be freed is a matter of how busy the machine is.
func Of(what func()) Spent {
	defer debug.SetMemoryLimit(debug.SetMemoryLimit(limit))
	runtime.GC()
	var most atomic.Uint64
	done := make(chan bool)
	go watch(&most, done)
	defer close(done) // also where the function ends the test
	start := processor()
	what()
	return Spent{processor() - start, most.Load()}
}

func watch(most *atomic.Uint64, done chan bool) {
	sample := []metrics.Sample{{Name: "/gc/heap/live:bytes"}, {Name: "/memory/classes/heap/stacks:bytes"}}
	tick := time.NewTicker(5 * time.Millisecond)
	defer tick.Stop()
	for {
		select {
		case <-done:
			return
		case <-tick.C:
			metrics.Read(sample)
			most.Store(max(most.Load(), sample[0].Value.Uint64()+sample[1].Value.Uint64()))
		}
	}
}

// Held runs a function and fails the test where it takes more than is allowed.
func Held(t testing.TB, what func()) {
	t.Helper()
	s := Of(what)
	if s.Time > Time {
		t.Errorf("it took %v", s.Time)
	}
	if s.Memory > Memory {
		t.Errorf("it took %d MiB", s.Memory>>20)
	}
}
