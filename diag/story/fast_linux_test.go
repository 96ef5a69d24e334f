package story_test

import (
	"encoding/json"
	"math/rand/v2"
	"syscall"
	"testing"
	"time"

	"gaugesheet/diag"
	"gaugesheet/diag/rule/sample"
	"gaugesheet/diag/story"
)

// TestFast keeps a diagnosis fast enough to run a folder of jobs in a blink: a
// millisecond without the plan, two with it. It counts the processor's time, so
// that other work on the machine does not. Where other work makes the processor
// itself slow, it is held against the standard library's JSON at the same moment;
// one round of several that keeps the limit is enough.
func TestFast(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 10))
	tests := make([]*diag.Test, 60)
	for i := range tests {
		tests[i] = sample.Random(r)
	}
	for _, one := range []struct {
		name     string
		diagnose func(*diag.Test) *diag.Diagnosis
		most     time.Duration
	}{{"without the plan", story.WithoutPlan, time.Millisecond}, {"with the plan", story.Diagnose, 2 * time.Millisecond}} {
		best, fast := time.Hour, false
		for range 12 {
			began := spent(t)
			for _, test := range tests {
				one.diagnose(test)
			}
			ended := spent(t)
			for _, test := range tests {
				writeAndRead(t, test)
			}
			took, beside := (ended-began)/time.Duration(len(tests)), (spent(t)-ended)/time.Duration(len(tests))
			best = min(best, took)
			if fast = took <= max(one.most, one.most*beside/quietJSON); fast {
				break
			}
		}
		t.Log(one.name, best)
		if !fast {
			t.Errorf("a diagnosis %s takes %v on average, more than %v", one.name, best, one.most)
		}
	}
}

// quietJSON is what writeAndRead takes where a machine of two cores does nothing
// else, and a diagnosis with the plan 1.3 ms.
const quietJSON = 200 * time.Microsecond

// writeAndRead has the standard library write the readings of compression as
// JSON and read them, ten times.
func writeAndRead(t *testing.T, test *diag.Test) {
	t.Helper()
	for range 10 {
		data, err := json.Marshal(test.Compression)
		if err != nil {
			t.Fatal(err)
		}
		var read any
		if err := json.Unmarshal(data, &read); err != nil {
			t.Fatal(err)
		}
	}
}

// spent is the processor's time that this program has had so far.
func spent(t *testing.T) time.Duration {
	t.Helper()
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		t.Fatal(err)
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}
