package known

import (
	"strings"

	"gaugesheet/diag"
)

// An Apart is a reading, other than of compression, whose repeats are too far apart to be
// averaged, and of which they do not all say the same.
type Apart struct {
	Section  string
	Cylinder string // "" for none
	Entered  string // the repeats as they were written
}

// ReadingsApart are these, in the order of the tests.
func (c *Case) ReadingsApart() []Apart {
	var list []Apart
	for _, circuit := range c.Circuits() {
		for i := range circuit.Readings {
			if r := &circuit.Readings[i]; r.Disagree && r.Verdict == diag.NotJudged {
				list = append(list, Apart{"fuel-pressure", "", r.Entered})
			}
		}
	}
	for i := range c.Sums.Measured {
		for j := range c.Sums.Measured[i].Readings {
			if r := &c.Sums.Measured[i].Readings[j]; r.Disagree && r.Verdict == diag.NotJudged {
				list = append(list, Apart{c.Sums.Measured[i].Name, r.Cylinder, r.Entered})
			}
		}
	}
	for _, n := range c.Those(c.LossApart) {
		list = append(list, Apart{"leakage", n, c.Leakage.Dry[n].Entered})
	}
	return list
}

// LossApart reports a cylinder whose leakage was read more than once, so far apart that no
// loss follows from it.
func (c *Case) LossApart(name string) bool {
	return c.Leakage != nil && c.Leakage.Dry[name].State == diag.Tested && len(c.Leakage.Dry[name].Values) > 1 && c.Leak(name) == nil
}

// EntriesApart is the repeats of some readings in print.
func EntriesApart(list []Apart) string {
	var entries []string
	for _, a := range list {
		entries = append(entries, diag.AsWritten(a.Entered))
	}
	return strings.Join(entries, "; ")
}
