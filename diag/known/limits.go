package known

import (
	"math"
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
)

// Minimum is the first stated minimum as judged, nil where none is stated.
func (c *Case) Minimum() *diag.LimitResult {
	for i := range c.Cranking().Limits {
		if l := &c.Cranking().Limits[i]; l.Rule == string(diag.Minimum) {
			return l
		}
	}
	return nil
}

// Under lists the cylinders whose reading is under a limit.
func (c *Case) Under(l *diag.LimitResult) []string {
	s := c.Cranking()
	return c.CylindersThat(func(r *diag.CylinderResult) bool {
		if r.Dry == nil || r.Grade == diag.GradeNotJudged && len(c.Engine.Cylinders) > 1 && s.N > 1 {
			return false
		}
		v, err := quantity.Convert(*r.Dry, s.Unit, l.Unit)
		return err == nil && v < l.Limit
	})
}

// RelativeLimitsKept reports that the job states limits between cylinders and
// that every one of them is kept.
func (c *Case) RelativeLimitsKept() bool {
	s := c.Cranking()
	relative := 0
	for _, l := range s.Limits {
		if l.Rule == string(diag.Minimum) {
			continue
		}
		if l.Verdict != diag.Within {
			return false
		}
		relative++
	}
	return relative > 0 && !s.DefaultLimit
}

// CloseLimit is the first limit of the job that a set is nearer to than the
// gauge can tell, nil for none. The usual 10 % is no maker's: what is too close
// to that one alone asks for nothing.
func (c *Case) CloseLimit() *diag.LimitResult {
	s := c.Cranking()
	for i := range s.Limits {
		if l := &s.Limits[i]; l.Verdict == diag.TooClose && !s.DefaultLimit && !c.AboveByCheck(l) {
			return l
		}
	}
	return nil
}

// PassedLimits lists the limits between cylinders that the job states and that
// are passed clear of the uncertainty, in the job's order.
func (c *Case) PassedLimits() []*diag.LimitResult {
	return c.relative(func(l *diag.LimitResult) bool { return l.Verdict == diag.Outside })
}

// PassedAsRead is the first limit between cylinders that the job states and that
// is passed as read, by less than the gauge can tell; nil for none.
func (c *Case) PassedAsRead() *diag.LimitResult {
	if list := c.relative(func(l *diag.LimitResult) bool { return l.Verdict == diag.TooClose && l.PastAsRead }); len(list) > 0 {
		return list[0]
	}
	return nil
}

func (c *Case) relative(is func(*diag.LimitResult) bool) []*diag.LimitResult {
	s := c.Cranking()
	if s.DefaultLimit {
		return nil
	}
	var list []*diag.LimitResult
	for i := range s.Limits {
		if l := &s.Limits[i]; l.Rule != string(diag.Minimum) && is(l) {
			list = append(list, l)
		}
	}
	return list
}

// UsualPassed is the usual limit, where the job states none and the set is past
// it clear of the uncertainty; nil else. It is custom and no limit of the
// maker's, so that a reading too close to tell is not held against it.
func (c *Case) UsualPassed() *diag.LimitResult {
	s := c.Cranking()
	if !s.DefaultLimit || len(s.Limits) == 0 {
		return nil
	}
	if l := &s.Limits[0]; l.Verdict == diag.Outside {
		return l
	}
	return nil
}

// LowUnder is the percent of the reference under which a cylinder is low.
const LowUnder = 85

// apart is how far the lowest is below the next lowest before it stands apart
// from its set, in percent of the median: common practice, no source.
const apart = 7

// NearGrade reports cylinders of which one is called low, or a little low, by
// less than readings can differ by chance, or is spared that by as little: a psi or
// two more would give it another grade.
func (c *Case) NearGrade(names []string) bool {
	return slices.ContainsFunc(names, func(name string) bool {
		r := c.Cylinder(name)
		if r == nil || r.Dry == nil {
			return false
		}
		near := func(line float64) bool { return math.Abs(r.PercentOfRef-line) <= r.UPercent }
		return r.Grade == diag.Low && near(diag.WatchFrom) || r.Grade == diag.Watch && (near(diag.WatchFrom) || near(diag.EvenFrom))
	})
}

// StandsApart is the cylinder that stands apart below all others, "" for none.
func (c *Case) StandsApart() string {
	names := slices.Clone(c.Read())
	if len(names) < 2 {
		return ""
	}
	slices.SortStableFunc(names, func(a, b string) int { return byDry(c.Cylinder(a), c.Cylinder(b)) })
	low, next := c.Cylinder(names[0]), c.Cylinder(names[1])
	if *next.Dry-*low.Dry > apart*c.Cranking().Median/100 {
		return low.Name
	}
	return ""
}

// Sound reports every cylinder read and even, none dead, and no limit of any
// kind passed or too close to call.
func (c *Case) Sound() bool {
	s := c.Cranking()
	if !s.Complete || c.Dead() || len(c.Graded(diag.Even)) != len(c.Engine.Cylinders) {
		return false
	}
	return s.DefaultLimit || !slices.ContainsFunc(s.Limits, func(l diag.LimitResult) bool {
		return l.Verdict == diag.Outside || l.Verdict == diag.TooClose && (l.PastAsRead || l.Rule == string(diag.Minimum)) && !c.AboveByCheck(&l)
	})
}

// HasEarlierOrLimit reports a minimum or an earlier test to judge the level by.
func (c *Case) HasEarlierOrLimit() bool {
	return c.Minimum() != nil || c.Cranking().ComparedWith != ""
}

// UnderMinimum lists the cylinders whose compression is under a minimum of the
// job, clear of uncertainty, in the engine's order.
func (c *Case) UnderMinimum() []string {
	for _, limit := range c.Cranking().Limits {
		if limit.Rule == string(diag.Minimum) && limit.Verdict == diag.Outside {
			return c.CylindersThat(func(r *diag.CylinderResult) bool {
				return r.Dry != nil && *r.Dry+limit.Uncertainty < limit.Limit
			})
		}
	}
	return nil
}

// HoldsWell reports good compression: even with the others, not under a
// minimum that the job gives, and not low together with all others.
func (c *Case) HoldsWell(name string) bool {
	grade := c.Grade(name)
	return (grade == diag.Even || grade == diag.High) && !slices.Contains(c.UnderMinimum(), name) && c.AllLow() == nil
}

// SaysNothing reports a compression test that says nothing of the engine: one
// that is not judged, or of which nothing is known but that some reading was
// more than a figure, which leaves open whether it is low.
func (c *Case) SaysNothing() bool {
	m := c.Minimum()
	return c.NotJudged() != "" || c.Cranking().N == 0 && c.DryRead() && (m == nil || m.Verdict != diag.Within)
}

// InBandAlone reports an engine's only cylinder, without any figure of the book,
// that reads what its ratio makes likely.
func (c *Case) InBandAlone() bool {
	s := c.Cranking()
	e := s.Expected
	return e != nil && s.N == 1 && c.NotJudged() == "not-judged-single-cylinder" && s.Lowest >= e.Low && s.Highest <= e.High
}

// releasedAlike is the part of the higher of two cylinders that the lower has at least where their
// decompressors let off alike: judgement, no source.
const releasedAlike = 0.75

// ReleasedAsBuilt reports an engine that was cranked with its automatic decompressor at work, reads
// what one leaves in every cylinder, is under no figure of the book by it and has nothing complained
// of: it reads as it is built, and only who means to buy it has a reason to ask how it seals.
func (c *Case) ReleasedAsBuilt() bool {
	least := c.Released()
	if c.NotJudged() != "not-judged-decompressor" || least == 0 || c.Cranking().Lowest < least || !c.Cranking().Complete || c.Cranking().Lowest < releasedAlike*c.Cranking().Highest {
		return false
	}
	m := c.Minimum()
	book := m == nil || m.Unit == c.Cranking().Unit && m.Limit <= c.Cranking().Lowest
	return book && !c.Ails() && !c.Stood() && !c.History.ForBuyer && c.Before == nil
}

// NotJudged names the verdict for a compression test that says nothing of the
// engine, "" where something could be judged.
func (c *Case) NotJudged() string {
	s := c.Cranking()
	if s.N == 0 || c.Has(NeedsLeakage) {
		return ""
	}
	if len(c.Graded(diag.GradeNotJudged, diag.GradeNotTested)) < len(s.Cylinders) {
		return ""
	}
	if slices.ContainsFunc(s.Limits, func(l diag.LimitResult) bool { return l.Verdict != diag.NotJudged }) {
		return ""
	}
	for _, l := range s.Limits {
		switch l.Reason {
		case "decompressor", "throttle-closed", "single-cylinder", "lone-reading":
			return "not-judged-" + l.Reason
		}
	}
	return "not-judged"
}
