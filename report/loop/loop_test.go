package loop_test

import (
	"flag"
	"fmt"
	"hash/fnv"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
)

var (
	engines = flag.Int("engines", 3, "engines of each fault")
	further = flag.Float64("further", 0.25, "how likely each further test is among the first readings")
	only    = flag.String("fault", "", "only faults whose name contains this")
	steps   = flag.Bool("steps", false, "print every step, and the job that it ends with")
)

const (
	mostChecks  = 8 // the loop ends here
	manyChecks  = 6 // more than this is going in circles
	worstListed = 12
)

// What is borne for now, as parts of the engines. The rate of faults found is
// never part of it.
const (
	stuckBorne = 0.005 // sheets that go in circles
	unfitBorne = 0.0   // checks that do not fit the engine
)

// TestFollowTheSheet draws engines with one known fault each, follows their
// sheets to the end, and prints how far that led.
func TestFollowTheSheet(t *testing.T) {
	var all total
	for i := range faults {
		f := &faults[i]
		if !strings.Contains(f.name, *only) {
			continue
		}
		all.rows = append(all.rows, followed(t, f, *further))
	}
	t.Log("\n" + all.table())
	sum := all.sum()
	if n := float64(sum.engines); float64(sum.stuck())/n > stuckBorne || float64(len(sum.unfit))/n > unfitBorne {
		t.Errorf("%d of %d sheets go in circles and %d checks do not fit: more than is borne (%.2f and %.2f of an engine)", sum.stuck(), sum.engines, len(sum.unfit), stuckBorne, unfitBorne)
	}
}

// followed is what became of one fault on engine after engine. How likely each
// further test is among the first readings is said.
func followed(t *testing.T, f *fault, further float64) tally {
	row := tally{fault: f}
	of := families
	if f.among != nil {
		of = f.among
	}
	fits := slices.DeleteFunc(slices.Clone(of), func(x family) bool { return !canHave(f, x) })
	if len(fits) == 0 {
		t.Fatalf("no engine can have %s", f.name)
	}
	count := *engines
	if testing.Short() {
		count = 1
	}
	for n := range count {
		r, err := follow(f, fits, n, further)
		if err != nil {
			t.Fatalf("%s, engine %d: %v", f.name, n, err)
		}
		if *steps {
			t.Log(r.story())
		}
		row.add(r)
	}
	return row
}

// canHave reports that some engine of a family can have a fault.
func canHave(f *fault, of family) bool {
	r := rand.New(rand.NewPCG(1, 1))
	for range 20 {
		if f.fits == nil || f.fits(newMachine(r, of)) {
			return true
		}
	}
	return false
}

// A run is one engine followed to the end.
type run struct {
	bench   *bench
	steps   []step
	end     *sheet // the last one; nil where the reader refused the job
	refused string
	again   string // the check that was asked for twice
	unknown []string
	unfit   []string
	minutes float64
	first   string // the job file at first
	last    string
}

// A step is a sheet and the check that it asked for.
type step struct {
	sheet *sheet
	check *nextCheck
	text  string
}

// follow draws the engine of a fault by its number and follows its sheets. How
// likely each further test is among the first readings comes with it.
func follow(f *fault, fits []family, n int, further float64) (*run, error) {
	h := fnv.New64a()
	h.Write([]byte(f.name))
	rng := rand.New(rand.NewPCG(h.Sum64(), uint64(n)))
	m := newMachine(rng, fits[rng.IntN(len(fits))])
	for f.fits != nil && !f.fits(m) {
		m = newMachine(rng, fits[rng.IntN(len(fits))])
	}
	b := newBench(rng, m, f)
	b.firstReadings(further)
	r := &run{bench: b}
	for {
		text := b.job.yaml(fact)
		s, refused, err := read(text)
		if err != nil {
			return nil, fmt.Errorf("%w\n%s", err, text)
		}
		if r.last = text; r.first == "" {
			r.first = text
		}
		if refused != nil {
			r.refused, r.end = refused.Error(), nil
			if !b.test.unit { // what the simulator writes is readable but for a wrong unit
				return nil, fmt.Errorf("refused: %w\n%s", refused, text)
			}
			return r, nil
		}
		r.end = s
		c := s.Verdict.Next
		r.steps = append(r.steps, step{s, c, text})
		if c == nil || len(r.steps) > mostChecks {
			return r, nil
		}
		if r.asked(c) {
			r.again = c.Name
			return r, nil
		}
		if why := b.unfit(c, s.Verdict.Urgency); why != "" {
			r.unfit = append(r.unfit, c.Name+": "+why)
		}
		if !b.carryOut(c) {
			r.unknown = append(r.unknown, c.Name)
		}
		r.minutes += c.Minutes
	}
}

// asked reports that the check was asked for before, on the same cylinders.
func (r *run) asked(c *nextCheck) bool {
	return slices.ContainsFunc(r.steps[:len(r.steps)-1], func(s step) bool {
		return s.check.Name == c.Name && (slices.Equal(s.check.Cylinders, c.Cylinders) || len(s.check.Cylinders) == 0)
	})
}

// checks is how many were made.
func (r *run) checks() int {
	n := 0
	for _, s := range r.steps {
		if s.check != nil {
			n++
		}
	}
	if r.again != "" || len(r.steps) > mostChecks {
		n-- // the last was asked for and not made
	}
	return n
}

// names reports that a sheet names the fault first.
func (r *run) names(s *sheet) bool {
	f := r.bench.fault
	if f.name == sound.name {
		return s.Verdict.Urgency == noAction && s.Verdict.Next == nil
	}
	if lead := s.lead(); len(lead) > 0 && slices.Contains(f.causes, lead[0]) {
		return true
	}
	return s.noticed(f.notices) && s.Verdict.Next != nil && repeats(s.Verdict.Next.Name)
}

// repeats reports a check that tests the test.
func repeats(name string) bool {
	return slices.Contains([]string{"repeat-with-charger", "repeat-method", "charge-and-repeat", "second-gauge", "warm-retest", "look-at-the-gauge", "leak-down"}, name)
}

// foundAtOnce reports that the first sheet names the fault first; a job that
// the reader refuses for its unit is one too.
func (r *run) foundAtOnce() bool {
	if len(r.steps) == 0 {
		return r.refused != ""
	}
	return r.names(r.steps[0].sheet)
}

// foundInTheEnd reports that the last sheet names it first, or, of a fault of
// the test, that it went with the test.
func (r *run) foundInTheEnd() bool {
	if r.end == nil {
		return true
	}
	if r.names(r.end) {
		return true
	}
	return r.bench.fault.inTest && len(r.steps) > 1 && r.end.Verdict.Next == nil && r.end.Verdict.Urgency == noAction
}

func (r *run) amongThree() bool {
	if r.foundInTheEnd() {
		return true
	}
	lead := r.end.lead()
	return slices.ContainsFunc(lead[:min(3, len(lead))], func(c string) bool { return slices.Contains(r.bench.fault.causes, c) })
}

// hidden reports a fault of the test of which nobody complains: where the engine
// passes all the same, or no book says what it should read, it does no harm.
func (b *bench) hidden() bool { return b.fault.inTest && len(b.job.complaints) == 0 }

// stuck says how a run goes in circles, "" where it does not.
func (r *run) stuck() string {
	switch {
	case r.again != "":
		return "asks again for " + r.again
	case r.checks() > manyChecks:
		return fmt.Sprintf("asks for %d checks", r.checks())
	case r.bench.hidden() && r.end != nil && r.end.Verdict.Urgency == noAction:
		return ""
	case r.end != nil && r.end.Verdict.Next == nil && !r.foundInTheEnd() && r.bench.fault.name != sound.name && len(r.end.lead()) == 0:
		return "ends without a check or a cause"
	}
	return ""
}
