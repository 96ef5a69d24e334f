package rule

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
)

// unitLeads reports that the unit of all readings of a cranking test is in
// doubt, and that nothing more urgent was found from other readings: then it is
// what the sheet says first.
func (c *Case) unitLeads(d *diag.Diagnosis) bool {
	for _, n := range d.Notices {
		section := c.wholeSection(n)
		if section != "compression" && section != "rotors" {
			continue
		}
		top := topFinding(d)
		if top < 0 || d.Findings[top].Urgency.Rank() <= diag.CheckAgain.Rank() && c.concerns(d, top, sections[section]...) {
			return true
		}
	}
	return false
}

// onlyWet reports a compression test of which nothing but readings after oil
// is there.
func (c *Case) onlyWet() bool {
	return !c.dryRead() && c.anyCylinder(func(r *diag.CylinderResult) bool { return r.Wet != nil || r.WetDisagree })
}

// boundsVerdict names the verdict, and the line under it, of a set of which
// some or all readings are only lower bounds.
func (c *Case) boundsVerdict() (verdict, advice string) {
	s := c.Sums.Compression
	cleared, stated := true, false
	for _, l := range s.Limits {
		if l.Rule == string(diag.Minimum) {
			stated, cleared = true, cleared && l.Verdict == diag.Within
		}
	}
	switch {
	case s.N > 0:
		return "lower-bound-some", "advice-lower-bound"
	case stated && cleared && s.Complete && len(c.boundsOpen()) == 0:
		return "above-minimum", "advice-none"
	}
	return "lower-bound", "advice-lower-bound"
}

// boundsOpen lists the lower bounds that leave open whether a cylinder is low:
// under a stated minimum, or under what is even beside the others.
func (c *Case) boundsOpen() []string {
	s := c.Sums.Compression
	return slices.DeleteFunc(c.boundsOnly(), func(name string) bool {
		r := c.Cylinder(name)
		if r.Dry == nil {
			return false
		}
		if *r.Dry < evenShare*s.Reference {
			return false
		}
		return !slices.ContainsFunc(s.Limits, func(l diag.LimitResult) bool {
			least, err := quantity.Convert(*r.Dry, s.Unit, l.Unit)
			return l.Rule == string(diag.Minimum) && err == nil && least < l.Limit
		})
	})
}

// evenShare is the part of the reference from which a cylinder is even.
const evenShare = 0.9
