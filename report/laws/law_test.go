package laws_test

import (
	"flag"
	"fmt"
	"os"
	"runtime"
	"runtime/debug"
	"slices"
	"strings"
	"sync"
	"testing"
)

var (
	jobCount = flag.Int("jobs", 2000, "how many random jobs are held against the laws")
	firstJob = flag.Uint64("seed", 1, "seed of the first random job")
	examples = flag.Int("examples", 3, "how many failing jobs are printed for a law")
	onlyLaw  = flag.String("law", "", "beginning of the names of the laws to look at; all where empty")
)

// A law is what must hold for every job.
type law struct {
	name string
	says string
	// least is how often it has to be put to the test in 2000 jobs, so that one
	// that never applies is noticed.
	least int
	// every is the share of the jobs that it is asked of: one in so many, for
	// laws that diagnose a job several times over. 0 is all of them.
	every uint64
	check func(*subject, *tally)
}

// A tally counts what became of a law.
type tally struct {
	law      *law
	checked  int
	failed   int // jobs
	missing  int // jobs that lack what the law speaks of
	lacks    string
	examples []string

	subject *subject
	now     []string // what was found wrong with this job
}

// saw counts an occasion on which the law was put to the test.
func (k *tally) saw() { k.checked++ }

// fail records that the law does not hold for the job.
func (k *tally) fail(format string, args ...any) {
	k.now = append(k.now, fmt.Sprintf(format, args...))
}

// notThere records that the JSON lacks something that the law speaks of.
func (k *tally) notThere(what string) { k.missing, k.lacks = k.missing+1, what }

func (k *tally) ask(s *subject) {
	k.subject, k.now = s, nil
	k.law.check(s, k)
	if len(k.now) == 0 {
		return
	}
	k.failed++
	if len(k.examples) < *examples {
		k.examples = append(k.examples, fmt.Sprintf("seed %d: %s\n%s", s.seed, strings.Join(k.now[:min(len(k.now), 4)], "\n    "), s.tree))
	}
}

func (k *tally) add(o *tally) {
	k.checked, k.failed, k.missing = k.checked+o.checked, k.failed+o.failed, k.missing+o.missing
	if o.lacks != "" {
		k.lacks = o.lacks
	}
	k.examples = append(k.examples, o.examples...)
}

// A bench makes jobs and holds them against the laws. Each worker has one.
type bench struct {
	tallies []*tally
	refused int
	made    int
	broken  []string // jobs that were read, yet not put into words
	why     map[string]int
}

func newBench(laws []*law) *bench {
	b := &bench{why: map[string]int{}}
	for _, l := range laws {
		b.tallies = append(b.tallies, &tally{law: l})
	}
	return b
}

// mostTries is how often a job that is refused is made anew.
const mostTries = 20

// subject makes the job of a seed, again until the reader takes it.
func (b *bench) subject(seed uint64) *subject {
	for try := range mostTries {
		t := makeJob(seed, try)
		b.made++
		s, err := subjectOf(seed, t)
		if err == nil {
			return s
		}
		if _, is := err.(refused); !is {
			b.broken = append(b.broken, fmt.Sprintf("seed %d: %v\n%s", seed, err, t))
			return nil
		}
		b.refused++
		b.why[err.Error()]++
	}
	return nil
}

func (b *bench) run(seed uint64) {
	s := b.subject(seed)
	if s == nil {
		return
	}
	for _, k := range b.tallies {
		if k.law.every == 0 || seed%k.law.every == 0 {
			k.ask(s)
		}
	}
}

// runAll holds the jobs against the laws on all processors and adds up.
func runAll(laws []*law, count int) *bench {
	workers := runtime.GOMAXPROCS(0)
	benches := make([]*bench, workers)
	var wait sync.WaitGroup
	for w := range workers {
		benches[w] = newBench(laws)
		wait.Add(1)
		go func() {
			defer wait.Done()
			for i := w; i < count; i += workers {
				benches[w].run(*firstJob + uint64(i))
			}
		}()
	}
	wait.Wait()
	sum := newBench(laws)
	for _, b := range benches {
		for i, k := range b.tallies {
			sum.tallies[i].add(k)
		}
		sum.made, sum.refused = sum.made+b.made, sum.refused+b.refused
		sum.broken = append(sum.broken, b.broken...)
		for why, n := range b.why {
			sum.why[why] += n
		}
	}
	return sum
}

// TestMain lets memory grow: what lives is small beside what thousands of jobs
// throw away.
func TestMain(m *testing.M) {
	debug.SetGCPercent(600)
	os.Exit(m.Run())
}

// jobs is how many random jobs a test takes that takes at most so many: few
// where time is short.
func jobs(most int) int {
	most = min(most, *jobCount)
	if testing.Short() {
		most = min(most, max(most/100, 10))
	}
	return most
}

// TestLaws holds random jobs against all laws.
func TestLaws(t *testing.T) {
	count := jobs(*jobCount)
	var laws []*law
	for _, l := range slices.Concat(safetyLaws, truthLaws, changeLaws, storyLaws, checkLaws, followLaws, forkLaws, numberLaws, forcedLaws, pageLaws, seenLaws) {
		if strings.HasPrefix(l.name, *onlyLaw) {
			laws = append(laws, &l)
		}
	}
	b := runAll(laws, count)
	t.Logf("%d jobs; the reader refused %d of %d made", count, b.refused, b.made)
	if b.refused*10 > b.made {
		t.Errorf("the reader refused %d of %d jobs, more than one in ten", b.refused, b.made)
	}
	if testing.Verbose() {
		for why, n := range b.why {
			t.Logf("refused %d times: %s", n, why)
		}
	}
	for _, broken := range b.broken {
		t.Error(broken)
	}
	for _, k := range b.tallies {
		k.report(t, count)
	}
	t.Log(table(b.tallies))
}

// report fails a law that does not hold, lacks what it speaks of, or was never
// put to the test.
func (k *tally) report(t *testing.T, count int) {
	least := k.law.least * count / 2000
	var wrong []string
	if k.failed > 0 {
		wrong = append(wrong, fmt.Sprintf("law %s does not hold for %d jobs: %s", k.law.name, k.failed, k.law.says))
		wrong = append(wrong, k.examples[:min(len(k.examples), *examples)]...)
	}
	if k.missing > 0 {
		wrong = append(wrong, fmt.Sprintf("law %s cannot be asked of %d jobs: not there yet: %s", k.law.name, k.missing, k.lacks))
	} else if count >= 1000 && k.checked < least { // fewer jobs are too few to say
		wrong = append(wrong, fmt.Sprintf("law %s was put to the test %d times in %d jobs, expected %d at least", k.law.name, k.checked, count, least))
	}
	if len(wrong) == 0 {
		if pending[k.law.name] {
			t.Logf("law %s holds: take it off the list of pending laws", k.law.name)
		}
		return
	}
	text := strings.Join(wrong, "\n  ")
	if pending[k.law.name] {
		if testing.Verbose() {
			t.Log("pending: " + text)
		}
		return
	}
	t.Error(text)
}

func table(tallies []*tally) string {
	var b strings.Builder
	fmt.Fprintf(&b, "\n%-44s %9s %7s %9s\n", "law", "checked", "failed", "not there")
	for _, k := range tallies {
		mark := ""
		if pending[k.law.name] {
			mark = "  pending"
		}
		fmt.Fprintf(&b, "%-44s %9d %7d %9d%s\n", k.law.name, k.checked, k.failed, k.missing, mark)
	}
	return b.String()
}

// vary reads and diagnoses a changed job; nil where the reader refuses it.
func (s *subject) vary(t *tree) *subject {
	other, err := subjectOf(s.seed, t)
	if err != nil {
		return nil
	}
	return other
}
