package known

import (
	"slices"

	"gaugesheet/diag"
)

const (
	// farBelow is the part of the best of the others under which neither the strokes nor
	// the warmth nor the throttle, which were the same for all, put one cylinder: judgement,
	// no source.
	farBelow = 75
	// beyondMethod is that part where nothing else was tested: nor does it come of fewer
	// strokes or a colder cylinder than the others had; judgement, no source.
	beyondMethod = 60
	// farUnder is the part of a stated minimum under which a gauge that was in order for
	// anything is not what is wrong: judgement, no source.
	farUnder = 0.85
	// farOver is likewise the part from which it is met by any gauge that was in order.
	farOver = 1.1
)

// FarBelowOthers reports cylinders that read so much less than at least two others, by
// the same gauge in the same test, that how it was used explains none of it.
func (c *Case) FarBelowOthers(names []string) bool { return c.belowOthers(names, farBelow) }

// BeyondMethod reports cylinders that read so much less than at least two others that it
// is so whatever was not written down of the test, and by this test alone.
func (c *Case) BeyondMethod(names []string) bool { return c.belowOthers(names, beyondMethod) }

func (c *Case) belowOthers(names []string, part float64) bool {
	good := len(c.Graded(diag.Even)) + len(c.Graded(diag.Watch))
	return len(names) > 0 && good >= 2 && !slices.ContainsFunc(names, func(n string) bool {
		r := c.Cylinder(n)
		return r == nil || r.PercentOfHighest == nil || *r.PercentOfHighest >= part || !r.Grade.IsLow()
	})
}

// ClearOfMinimum reports readings all of which stand above every minimum by more than a
// gauge that nobody named is likely to be off, or that no minimum was stated for.
func (c *Case) ClearOfMinimum() bool {
	return !slices.ContainsFunc(c.Cranking().Limits, func(l diag.LimitResult) bool {
		return l.Rule == string(diag.Minimum) && l.Value < farOver*l.Limit
	})
}

// FarUnderLimit reports readings that are far under a stated minimum, where of the test
// only the gauge was not recorded.
func (c *Case) FarUnderLimit(n diag.Notice) bool {
	missing, _ := n.Facts["missing"].(diag.Names)
	if slices.ContainsFunc(missing, func(what string) bool { return what != "gauge" && what != RangeMissing }) {
		return false
	}
	if c.Sums.Rotors == nil {
		low := c.AllLow()
		return low != nil && low.Variant == "" && low.Share <= farUnder
	}
	return slices.ContainsFunc(c.Sums.Rotors.Limits, func(l diag.LimitResult) bool {
		return l.Rule == string(diag.Minimum) && l.Verdict == diag.Outside && l.Value <= farUnder*l.Limit
	})
}
