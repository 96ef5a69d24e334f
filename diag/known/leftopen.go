package known

import (
	"slices"
	"strings"

	"gaugesheet/diag"
)

// A LeftOpen is a reading, other than of compression, of which nothing can be said: its
// repeats are too far apart to be averaged and do not all say the same, or it is known only
// to be more than a figure, which its limit leaves open.
type LeftOpen struct {
	Section  string
	Cylinder string // "" for none
	Entered  string // as it was written
	Bound    bool   // known only to be more
}

// ReadingsLeftOpen are these, in the order of the tests.
func (c *Case) ReadingsLeftOpen() []LeftOpen {
	var list []LeftOpen
	add := func(section, cylinder, entered string, v diag.Verdict, disagree, bound bool) {
		if v == diag.NotJudged && (disagree || bound) {
			list = append(list, LeftOpen{section, cylinder, diag.AsWritten(entered), !disagree})
		}
	}
	for _, circuit := range c.Circuits() {
		for i := range circuit.Readings {
			r := &circuit.Readings[i]
			add("fuel-pressure", "", r.Entered, r.Verdict, r.Disagree, r.Bound && r.Limited())
		}
	}
	for i := range c.Sums.Measured {
		for j := range c.Sums.Measured[i].Readings {
			r := &c.Sums.Measured[i].Readings[j]
			add(c.Sums.Measured[i].Name, r.Cylinder, r.Entered, r.Verdict, r.Disagree, r.Kind == diag.AtLeast && r.Limited())
		}
	}
	for _, n := range c.Those(c.LossLeftOpen) {
		list = append(list, LeftOpen{"leakage", n, diag.AsWritten(c.Leakage.Dry[n].Entered), c.LossIsBound(n)})
	}
	return list
}

// LossLeftOpen reports a cylinder whose leakage was read more than once, so far apart that
// no loss follows from it, or is known only to be more than what is good, or than less than
// its limit.
func (c *Case) LossLeftOpen(name string) bool {
	if c.Leakage == nil || c.Leakage.Dry[name].State != diag.Tested {
		return false
	}
	l := c.Leak(name)
	if l == nil {
		return len(c.Leakage.Dry[name].Values) > 1
	}
	return l.Bound && l.Verdict == diag.NotJudged && !c.LeakTooHigh(l) // as little as it lost once condemns nothing, and as much as it lost once may
}

// EntriesLeftOpen are some readings as they were written.
func EntriesLeftOpen(list []LeftOpen) string {
	var entries []string
	for _, a := range list {
		if !slices.Contains(entries, a.Entered) {
			entries = append(entries, a.Entered)
		}
	}
	return strings.Join(entries, "; ")
}
