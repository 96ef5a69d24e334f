// Package known holds what is known of an engine, a test with its sums done and
// the questions that rules and checks ask of it, and knows no rules, no causes and
// no checks. Conditions carry their words, so that what runs is what is printed.
package known

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/engine"
	"gaugesheet/diag/sight"
)

// A Case is a test with its sums done: what rules look at.
type Case struct {
	*diag.Test
	Sums *diag.Diagnosis // sections only, and the notices so far

	works         []Work                // read when first asked for
	parsed        map[string]Work       // a text of the job and what was read in it
	spoken        []int                 // the checks of which any work speaks, looked up when first asked for
	seen          map[string]string     // a cylinder: all that was seen in it
	looks         map[string]sight.Look // some words, and what was made out of them
	names         []string              // of every cylinder, listed when first asked for
	each          []Subject             // every cylinder by itself, made when first asked for
	wet           []string              // those that were read dry and wet, looked up when first asked for
	healthy       *float64              // the middle of those that are not low, worked out when first asked for
	plugs         []string              // those that were read, looked up when first asked for
	read          []string              // the cylinders whose compression was read, looked up when first asked for
	liquid        map[string]Liquid     // a cylinder: why liquid may lie in it, once it was asked
	groups        *Groups               // of low cylinders, put together when first asked for
	called        [][]string            // the words of each cylinder's name, taken apart when first asked for
	repair        *repairs              // read when first asked for
	burns         *burning              // what its fuel tells, worked out when first asked for
	allLow        *allLowFound          // once it was asked
	faults        *faultsFound          // read when first asked for
	nowhere       *[]string             // see SeenNowhere
	driveFailed   *bool
	coolantWet    *[]string      // where coolant was seen, in words
	lined         *bool          // it may have wet liners
	wetBelow      *string        // what was written of coolant that was seen below
	mixed         *bool          // oil and coolant have mixed
	vehicle       string         // what it is described as, in plain form, once it was asked
	direct        *bool          // see calledDirect
	exhaustFilter *exhaustFilter // see ExhaustFilter
	sayings       *[]string
	exhaust       *[2]bool // that people fell ill of it, that they breathe it, by what is told
	lit           *bool    // see Distributor
	oilUsed       **OilUse // see OilUsed
	stand         []string // the complaints that stand, once it was asked
	then          map[*diag.Test]*Case
	gates         []asked // see Opens

	supposed bool // what a check might show, not what was read
}

// New does the sums on a test.
func New(t *diag.Test) *Case {
	t = withSightsTold(Whole(t))
	c := &Case{Test: t, Sums: diag.Assess(t)}
	c.Test = c.withGasHeard()
	c.Test = c.withCharger()
	return c
}

// After does the sums on a test that differs from this one in what a check
// showed; what was read in the job's words is not read again.
func (c *Case) After(t *diag.Test) *Case {
	return c.after(&Case{Test: t, Sums: diag.SumsAfter(t, c.Test, c.Sums)})
}

// Noting is After for a test in which only words were added, so that the sums
// stay as they are, but for a unit that the words say is right.
func (c *Case) Noting(t *diag.Test) *Case {
	if t.UnitReadOff() != c.UnitReadOff() {
		return c.After(t)
	}
	s := c.Sums
	return c.after(&Case{Test: t, Sums: &diag.Diagnosis{
		Compression: s.Compression, Leakage: s.Leakage, Plugs: s.Plugs, Rotors: s.Rotors, Fuel: s.Fuel, Measured: s.Measured, NotTested: s.NotTested, NextFor: -1}})
}

func (c *Case) after(after *Case) *Case {
	c.Works()
	if c.looks == nil {
		c.looks = map[string]sight.Look{}
	}
	after.supposed = true
	after.parsed, after.looks, after.then, after.called, after.faults, after.driveFailed, after.vehicle, after.direct = c.parsed, c.looks, c.then, c.words(), c.foundFaults(), c.driveFailed, c.vehicle, c.direct
	return after
}

// Every lists the names of all cylinders, of a rotary engine the rotors'. It is
// the same list every time, to be read and not changed.
func (c *Case) Every() []string {
	if c.names == nil {
		c.names = c.Engine.Names()
	}
	return c.names
}

// Those lists the cylinders of which something is so, in the engine's order.
func (c *Case) Those(is func(name string) bool) []string {
	var names []string
	for _, n := range c.Every() {
		if is(n) {
			names = append(names, n)
		}
	}
	return names
}

// remembered is what a question came to, asked only once.
func remembered[T any](kept **T, ask func() T) T {
	if *kept == nil {
		answer := ask()
		*kept = &answer
	}
	return **kept
}

// EachCylinder is every cylinder by itself: what most rules are asked of.
func (c *Case) EachCylinder() []Subject {
	if c.each == nil {
		names := c.Every()
		c.each = make([]Subject, len(names))
		for i := range names {
			c.each[i].Cylinders = names[i : i+1 : i+1]
		}
	}
	return c.each
}

// ByItself gives some cylinders as subjects, each by itself.
func (c *Case) ByItself(names []string) []Subject {
	subjects := make([]Subject, 0, len(names))
	for _, s := range c.EachCylinder() {
		if slices.Contains(names, s.Name()) {
			subjects = append(subjects, s)
		}
	}
	return subjects
}

// Then does the sums on an earlier test, once.
func (c *Case) Then(earlier *diag.Test) *Case {
	if c.then == nil {
		c.then = map[*diag.Test]*Case{}
	}
	if c.then[earlier] == nil {
		c.then[earlier] = New(earlier)
	}
	return c.then[earlier]
}

// notCranked stands for the compression of a job that has none.
var notCranked = &diag.CompressionResult{}

// Cranking is the compression test with its sums; one without readings where
// the job has none.
func (c *Case) Cranking() *diag.CompressionResult {
	if c.Sums.Compression == nil {
		return notCranked
	}
	return c.Sums.Compression
}

// A Need is a kind of reading that a rule cannot do without.
type Need string

// The needs.
const (
	NeedsCompression Need = "compression"
	NeedsWet         Need = "wet test"
	NeedsFirst       Need = "first strokes"
	NeedsLeakage     Need = "leakage"
	NeedsPlugs       Need = "plugs"
	NeedsRotors      Need = "rotors"
	NeedsFuel        Need = "fuel pressure"
	NeedsEarlier     Need = "an earlier test"
	NeedsSight       Need = "something seen in a cylinder" // by a camera or in the job's words
)

// NeedsTest is the need of a further test, by the key of its section.
func NeedsTest(section string) Need { return Need(section) }

// Missing gives the first kind of reading that the case lacks, "" for none.
func (c *Case) Missing(needs []Need) Need {
	for _, n := range needs {
		if !c.Has(n) {
			return n
		}
	}
	return ""
}

// Has reports whether a kind of reading was taken.
func (c *Case) Has(n Need) bool {
	switch n {
	case NeedsCompression:
		return c.Cranking().N > 0
	case NeedsWet:
		return c.AnyCylinder(func(r *diag.CylinderResult) bool { return r.Wet != nil && r.Dry != nil })
	case NeedsFirst:
		return c.AnyCylinder(func(r *diag.CylinderResult) bool { return r.First != nil && r.Dry != nil })
	case NeedsLeakage:
		return c.Sums.Leakage != nil && c.Sums.Leakage.State == diag.Tested
	case NeedsPlugs:
		return c.Sums.Plugs != nil && c.Sums.Plugs.State == diag.Tested
	case NeedsRotors:
		return c.Sums.Rotors != nil && c.Sums.Rotors.State == diag.Tested
	case NeedsFuel:
		return c.Sums.Fuel != nil && c.Sums.Fuel.State == diag.Tested
	case NeedsEarlier:
		return len(c.Earlier) > 0
	case NeedsSight:
		return len(c.Borescope)+len(c.Bores) > 0 || slices.ContainsFunc(c.Works(), func(w Work) bool { return w.sight != "" && !w.putRight && (len(w.Cylinders) > 0 || w.inside) })
	}
	return c.Measured(string(n)) != nil
}

// Noticed reports whether a rule gave a notice so far.
func (c *Case) Noticed(rule string) bool {
	return slices.ContainsFunc(c.Sums.Notices, func(n diag.Notice) bool { return n.Rule == rule })
}

// NoticeOf is the first notice of a rule so far, nil for none.
func (c *Case) NoticeOf(rule string) *diag.Notice {
	for i := range c.Sums.Notices {
		if n := &c.Sums.Notices[i]; n.Rule == rule {
			return n
		}
	}
	return nil
}

// Place is where the first of some cylinders stands in the engine.
func (c *Case) Place(names []string) int {
	if len(names) == 0 {
		return -1
	}
	if i := slices.Index(c.Every(), names[0]); i >= 0 {
		return i
	}
	return len(c.Every())
}

// Whole gives a test that rules can read without asking what is there: one
// without an engine has an engine without cylinders.
func Whole(t *diag.Test) *diag.Test {
	if t == nil {
		t = &diag.Test{}
	}
	if t.Engine == nil {
		t = new(*t)
		t.Engine = &engine.Engine{}
	}
	return t
}
