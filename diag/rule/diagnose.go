package rule

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/engine"
)

// Diagnose does the sums on a test and says what they point to: notices on the
// test itself, findings in the order in which they are to be said, the one
// next check, and the verdict in a sentence's name and facts.
func Diagnose(t *diag.Test) *diag.Diagnosis {
	d, _ := run(t)
	return d
}

// hit is a finding with the rule that found it.
type hit struct {
	rule    *Rule
	place   int // of the rule among All
	finding diag.Finding
	yielded string // the rule that it yields to, "" where it stands
	folds   bool   // it stays true and is listed as said by that rule
}

// run tries every rule in turn. Later rules see the notices of earlier ones.
func run(t *diag.Test) (*diag.Diagnosis, []Tried) {
	t = whole(t)
	d := diag.Assess(t)
	c := &Case{Test: t, Sums: d}
	rules := everyRule()
	tried := make([]Tried, len(rules))
	var hits []hit
	said := map[string][][]string{} // rule -> cylinders of what it found
	for i := range rules {
		r := &rules[i]
		tried[i] = Tried{Rule: r.Name, Outcome: NotSeen}
		if missing := c.missing(r.Needs); missing != "" {
			tried[i].Outcome = Outcome("needs " + string(missing))
			continue
		}
		if r.Notices != nil {
			for _, n := range r.Notices(c) {
				d.Notices = append(d.Notices, n)
				said[r.Name] = append(said[r.Name], n.Cylinders)
				tried[i].Outcome = Fired
			}
		}
		if r.Findings != nil {
			for _, f := range r.Findings(c) {
				hits = append(hits, hit{rule: r, place: i, finding: f})
				said[r.Name] = append(said[r.Name], f.Cylinders)
				tried[i].Outcome = Fired
			}
		}
	}
	hits = yield(hits, said, tried)
	doubt(c, hits)
	settle(hits)
	sortHits(c, hits)
	for _, h := range hits {
		if h.yielded != "" {
			h.finding.SaidBy = h.yielded
			d.Folded = append(d.Folded, h.finding)
			continue
		}
		d.Findings = append(d.Findings, h.finding)
	}
	d.NextFor = -1
	chooseNext(c, d)
	conclude(c, d)
	cautions(c, d)
	return d, tried
}

// whole gives a test that rules can read without asking what is there: one
// without an engine has an engine without cylinders.
func whole(t *diag.Test) *diag.Test {
	if t == nil {
		t = &diag.Test{}
	}
	if t.Engine == nil {
		t = new(*t)
		t.Engine = &engine.Engine{}
	}
	return t
}

// yield marks what another rule says better, and notes it in tried. What a
// combination says better, or a rule that overriddenBy names, stays true and is
// folded into it; what any other rule says better is dropped.
func yield(hits []hit, said map[string][][]string, tried []Tried) []hit {
	kept := map[int]bool{}
	for i := range hits {
		hits[i].yielded, hits[i].folds = yieldsTo(hits[i], said)
		if hits[i].yielded == "" {
			kept[hits[i].place] = true
		}
	}
	for _, h := range hits {
		if h.yielded != "" && !kept[h.place] {
			tried[h.place].Outcome = Outcome("yielded to " + h.yielded)
		}
	}
	return slices.DeleteFunc(hits, func(h hit) bool {
		return h.yielded != "" && !h.folds
	})
}

// combines reports a rule that puts several kinds of readings together.
func combines(r *Rule) bool { return r.Class == Together || r.Class == Elsewhere }

func yieldsTo(h hit, said map[string][][]string) (better string, folds bool) {
	for _, better := range h.rule.YieldsTo {
		for _, cylinders := range said[better] {
			if overlap(h.finding.Cylinders, cylinders) {
				return better, combines(byName(better))
			}
		}
	}
	return override(&h.finding, said), true
}

// overlap reports whether two sets of cylinders have one in common; a set
// that names none stands for the whole engine.
func overlap(a, b []string) bool {
	if len(a) == 0 || len(b) == 0 {
		return true
	}
	return slices.ContainsFunc(a, func(name string) bool { return slices.Contains(b, name) })
}
