package loop_test

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"
)

// A tally is what came of the engines of one fault.
type tally struct {
	fault                          *fault
	engines                        int
	atOnce, inTheEnd, three, named int
	checks                         int
	minutes                        float64
	again, many, silent            int
	asked                          int // sound engines that something is asked of
	unfit, unknown, circles        []string
	kinds                          map[string][2]int // by family: engines, and those found in the end
	example                        *run              // the first that was not found
}

func (t *tally) add(r *run) {
	t.engines++
	count := func(is bool, n *int) {
		if is {
			*n++
		}
	}
	count(r.foundAtOnce(), &t.atOnce)
	count(r.foundInTheEnd(), &t.inTheEnd)
	count(r.amongThree(), &t.three)
	count(r.amongThree() || r.end.named(r.bench.fault.causes), &t.named)
	t.checks += r.checks()
	t.minutes += r.minutes
	how := r.stuck()
	if how != "" {
		t.circles = append(t.circles, how)
	}
	switch {
	case strings.HasPrefix(how, "asks again"):
		t.again++
	case strings.HasPrefix(how, "asks for"):
		t.many++
	case how != "":
		t.silent++
	}
	count(r.bench.fault.name == sound.name && !r.foundAtOnce(), &t.asked)
	for _, u := range r.unfit {
		t.unfit = append(t.unfit, u+" ("+r.bench.machine.name+")")
	}
	t.unknown = append(t.unknown, r.unknown...)
	if t.kinds == nil {
		t.kinds = map[string][2]int{}
	}
	k := t.kinds[r.bench.machine.name]
	k[0]++
	count(r.foundInTheEnd(), &k[1])
	t.kinds[r.bench.machine.name] = k
	if t.example == nil && !r.foundInTheEnd() {
		t.example = r
	}
}

func (t *tally) stuck() int { return t.again + t.many + t.silent }

func (t *tally) percent(n int) string {
	return fmt.Sprintf("%.0f %%", 100*float64(n)/float64(t.engines))
}

func (t *tally) line(name string) string {
	n := float64(t.engines)
	return fmt.Sprintf("%-22s %4d %7s %7s %7s %7s %7.1f %8.0f %6d %5d %7d %6d\n", name, t.engines, t.percent(t.atOnce), t.percent(t.inTheEnd), t.percent(t.three), t.percent(t.named),
		float64(t.checks)/n, t.minutes/n, t.again, t.many, t.silent, len(t.unfit))
}

// A total is the table.
type total struct{ rows []tally }

func (a *total) sum() *tally {
	sum := &tally{kinds: map[string][2]int{}}
	for i := range a.rows {
		r := &a.rows[i]
		sum.engines += r.engines
		sum.atOnce, sum.inTheEnd, sum.three, sum.named = sum.atOnce+r.atOnce, sum.inTheEnd+r.inTheEnd, sum.three+r.three, sum.named+r.named
		sum.checks, sum.minutes = sum.checks+r.checks, sum.minutes+r.minutes
		sum.again, sum.many, sum.silent, sum.asked = sum.again+r.again, sum.many+r.many, sum.silent+r.silent, sum.asked+r.asked
		sum.unfit, sum.unknown, sum.circles = append(sum.unfit, r.unfit...), append(sum.unknown, r.unknown...), append(sum.circles, r.circles...)
		for name, k := range r.kinds {
			sum.kinds[name] = [2]int{sum.kinds[name][0] + k[0], sum.kinds[name][1] + k[1]}
		}
	}
	return sum
}

func (a *total) table() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%-22s %4s %7s %7s %7s %7s %7s %8s %6s %5s %7s %6s\n", "fault", "n", "at once", "in end", "in 3", "named", "checks", "minutes", "again", "many", "silent", "unfit")
	for i := range a.rows {
		b.WriteString(a.rows[i].line(a.rows[i].fault.name))
	}
	sum := a.sum()
	b.WriteString(sum.line("all"))
	fmt.Fprintf(&b, "\nat once: the first sheet names the fault first (sound: asks for nothing). in end: the last one does. in 3: among its three. named: anywhere on it.\n")
	fmt.Fprintf(&b, "again: the same check asked for twice. many: more than %d checks. silent: no check and no cause while there is a fault.\n", manyChecks)
	fmt.Fprintf(&b, "sound engines asked to do something: %d\n", sum.asked)
	b.WriteString("\nfound in the end, by engine:\n")
	for _, f := range slices.Concat(families, flyers) {
		if k := sum.kinds[f.name]; k[0] > 0 {
			fmt.Fprintf(&b, "%5d of %4d  %s\n", k[1], k[0], f.name)
		}
	}
	counted(&b, "sheets that go in circles", sum.circles)
	counted(&b, "checks that do not fit", sum.unfit)
	counted(&b, "checks that the simulator has no answer for", sum.unknown)
	a.worst(&b)
	return b.String()
}

// counted lists lines with how often each is there, the most frequent first.
func counted(b *strings.Builder, title string, lines []string) {
	if len(lines) == 0 {
		return
	}
	count := map[string]int{}
	for _, l := range lines {
		count[l]++
	}
	keys := slices.Sorted(maps.Keys(count))
	slices.SortStableFunc(keys, func(x, y string) int { return count[y] - count[x] })
	fmt.Fprintf(b, "\n%s: %d\n", title, len(lines))
	for _, k := range keys {
		fmt.Fprintf(b, "%5d  %s\n", count[k], k)
	}
}

// worst lists the faults that are found least, each with one job.
func (a *total) worst(b *strings.Builder) {
	rows := slices.DeleteFunc(slices.Clone(a.rows), func(t tally) bool { return t.example == nil })
	slices.SortStableFunc(rows, func(x, y tally) int {
		return cmp.Compare(float64(x.inTheEnd)/float64(x.engines), float64(y.inTheEnd)/float64(y.engines))
	})
	b.WriteString("\nThe worst, each with one engine:\n")
	for i := range rows[:min(len(rows), worstListed)] {
		t := &rows[i]
		fmt.Fprintf(b, "\n== %s: found in %d of %d\n%s", t.fault.name, t.inTheEnd, t.engines, t.example.story())
	}
}

// story tells what the sheets said of one engine, step by step, and the job
// that it ended with.
func (r *run) story() string {
	var b strings.Builder
	m := r.bench.machine
	fmt.Fprintf(&b, "%s with %s on %v%s\n", m.name, r.bench.fault.name, r.bench.onNames(), notRunning(m))
	for i, s := range r.steps {
		fmt.Fprintf(&b, "  %d. %s (%s) causes %v", i+1, s.sheet.Verdict.Sentence, s.sheet.Verdict.Urgency, s.sheet.lead())
		if s.check != nil {
			fmt.Fprintf(&b, " -> %s %v", s.check.Name, s.check.Cylinders)
		}
		b.WriteString("\n")
	}
	if how := r.stuck(); how != "" {
		fmt.Fprintf(&b, "  stuck: %s\n", how)
	}
	for _, u := range r.unfit {
		fmt.Fprintf(&b, "  unfit: %s\n", u)
	}
	if r.refused != "" {
		fmt.Fprintf(&b, "  refused: %s\n", r.refused)
	}
	for line := range strings.Lines(r.last) {
		b.WriteString("    | " + line)
	}
	return b.String()
}

func notRunning(m *machine) string {
	if m.starts {
		return ""
	}
	return ", does not run"
}

// onNames are the cylinders that the fault is on, as the job numbers them.
func (b *bench) onNames() []string {
	names := make([]string, 0, len(b.hit))
	for _, i := range b.hit {
		names = append(names, b.cylinderName(i))
	}
	return slices.Compact(names)
}
