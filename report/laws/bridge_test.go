package laws_test

import (
	"slices"

	"gaugesheet/diag"
)

// nameOfToday fills in names that the JSON does not give yet, from the
// diagnosis, so that laws on names can be put to the test before. Where the
// JSON has them this does nothing; the file goes when it has them everywhere.
func nameOfToday(o *outcome, d *diag.Diagnosis) {
	all := slices.Concat(d.Findings, d.Folded)
	slices.SortStableFunc(all, func(a, b diag.Finding) int { return b.Urgency.Rank() - a.Urgency.Rank() })
	if len(all) != len(o.Findings) {
		return
	}
	for i := range o.Findings {
		f := &o.Findings[i]
		if f.Rule != all[i].Rule {
			continue
		}
		nameCheck(f.NextCheck, all[i].Next)
		if f.CauseNames == nil {
			for _, c := range all[i].Causes {
				f.CauseNames = append(f.CauseNames, c.Key)
			}
		}
	}
	nameCheck(o.Verdict.NextCheck, d.Next)
}

func nameCheck(c *nextCheck, from *diag.Check) {
	if c == nil || from == nil || c.Name != "" {
		return
	}
	c.Name, c.Minutes = from.Key, float64(from.Minutes)
	names, _ := from.Facts["Cylinders"].(diag.Names)
	c.Cylinders = slices.Clone(names)
}
