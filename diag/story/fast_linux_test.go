package story_test

import (
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
// that other work on the machine does not.
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
		best := time.Hour
		for range 12 {
			began := spent(t)
			for _, test := range tests {
				one.diagnose(test)
			}
			best = min(best, (spent(t)-began)/time.Duration(len(tests)))
		}
		t.Log(one.name, best)
		if best > one.most {
			t.Errorf("a diagnosis %s takes %v on average, more than %v", one.name, best, one.most)
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
