package diag

import (
	"cmp"
	"slices"
	"strings"

	"gaugesheet/diag/quantity"
)

// Grades by percent of the reference: common practice, no source. 75 percent of
// the highest, which most published limits name, lies inside 'low'.
const (
	EvenFrom    = 90 // from here a cylinder is even
	WatchFrom   = 85 // and from here to be watched; under it low
	lowFrom     = 50
	veryLowFrom = 15

	// One cylinder is high where the others lie this close together and it
	// stands this far above the highest of them.
	othersWithin = 10 // percent of the highest of the others
	highAbove    = 10
	highNeeds    = 3 // readings
	// Of many readings a few may stand out, one in four at most.
	highMany = 8
	highPart = 4
)

// Reasons why a grade or a limit is not judged.
const (
	reasonDecompressor = "decompressor"
	reasonThrottle     = "throttle-closed"
	reasonSingle       = "single-cylinder"
	reasonLone         = "lone-reading"
	reasonNoReading    = "no-reading"
	reasonNoPressure   = "no-pressure"
	reasonUnit         = "limit-unit"
	reasonSingleRotor  = "single-rotor"
	reasonLowerBound   = "lower-bound"
)

// spoilt gives the reason why the test says nothing of the engine at all: the
// pressure was let out, or the air kept out. A diesel is not asked for its
// throttle.
func (t *Test) spoilt() string {
	switch {
	case t.Spec.Decompressor == decompressing:
		return reasonDecompressor
	case t.Conditions.Throttle == "closed" && t.Spec.Throttled():
		return reasonThrottle
	}
	return ""
}

// incomparable gives the reason why cylinders cannot be compared with each
// other by their readings, "" where they can.
func (c *cranking) incomparable() string {
	switch spoilt := c.test.spoilt(); {
	case spoilt != "" && !c.apartUnderRelease():
		return spoilt
	case len(c.names) < 2:
		return reasonSingle
	case len(c.samples) == 0 && len(c.bounds) > 0:
		return reasonLowerBound
	case len(c.samples) == 0:
		return reasonNoReading
	case len(c.samples) < 2:
		return reasonLone
	}
	return ""
}

// releasedApart is the part of the highest reading, in percent, under which a cylinder stands
// out although each has a decompressor at work, which lowers them all but not all by the same:
// judgement, no source.
const releasedApart = 70

// apartUnderRelease reports cylinders that differ by more than automatic decompressors do which
// all let go alike: no more than half of those read, and the throttle was not shut as well.
func (c *cranking) apartUnderRelease() bool {
	if c.test.Spec.Decompressor != decompressing || c.test.Conditions.Throttle == "closed" || len(c.samples) < 2 {
		return false
	}
	top, _ := c.samples.extremes()
	low := 0
	for _, s := range c.samples {
		if s.value < c.samples[top].value*releasedApart/100 {
			low++
		}
	}
	return low > 0 && 2*low <= len(c.samples)
}

// reference gives the index of the sample that the others are graded by, the
// highest, and none; or the highest of the others and those that stand out above
// an otherwise even set: one, or of many a few.
func (s set) reference() (reference int, high []int) {
	top, _ := s.extremes()
	if len(s) < highNeeds {
		return top, nil
	}
	order := make([]int, len(s))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(s[b].value, s[a].value) })
	for few := 1; few == 1 || len(s) >= highMany && few*highPart <= len(s); few++ {
		if rest := order[few:]; s.standsOut(order[few-1], rest) {
			others := make(set, len(rest))
			for i, at := range rest {
				others[i] = s[at]
			}
			h, _ := others.extremes()
			return rest[h], order[:few]
		}
	}
	return top, nil
}

// standsOut reports a sample above the rest, which come after it in order, where
// these agree.
func (s set) standsOut(one int, rest []int) bool {
	next, bottom := s[rest[0]].value, s[rest[len(rest)-1]].value
	uneven := bottom < next*(100-othersWithin)/100-tiny*next
	above := s[one].value > next*(100+highAbove)/100+tiny*next
	// Others without pressure are even among themselves and no reference.
	dead := next < s[one].value*veryLowFrom/100
	return !uneven && above && !dead
}

// NoPressurePSI is the pressure under which a cylinder has none to speak of,
// whatever the others read and whether they were read or not: common practice,
// no source.
const NoPressurePSI = 25

// releasedPSI is the pressure that any decompressor leaves at work, and under which
// a cylinder has none whatever it lets out: judgement, no source.
const releasedPSI = 5

// nothingPSI is the pressure under which a cylinder of this engine has none.
func (t *Test) nothingPSI() float64 {
	if t.Spec.Decompressor == decompressing {
		return releasedPSI
	}
	return NoPressurePSI
}

// WithoutPressure reports readings of which the highest is next to nothing,
// under 25 psi (170 kPa), and none is known to read more.
func (c *CompressionResult) WithoutPressure() bool {
	limit, ok := inUnit(NoPressurePSI, quantity.PSI, c.Unit)
	return ok && c.N > 0 && max(c.Highest, c.HighestBound) < limit
}

// LowByEvery reports a cylinder whose repeats are too far apart to be averaged, and each of
// which is low beside the reference.
func (c *CompressionResult) LowByEvery(r *CylinderResult) bool {
	return r.Disagree && c.Reference > 0 && 100*slices.Max(r.DryReadings) < WatchFrom*c.Reference
}

// UnitReadOff reports that somebody looked at the gauge for its unit, and the
// job's work done says that it is the one that was written.
func (t *Test) UnitReadOff() bool {
	return slices.ContainsFunc(t.History.WorkDone, func(text string) bool {
		text = strings.ReplaceAll(strings.ToLower(text), "-", " ")
		looked := strings.Contains(text, "look at the gauge") || strings.Contains(text, "unit")
		return looked && (strings.Contains(text, "the same unit") || strings.Contains(text, "unit is right"))
	})
}

// NotStarting reports an engine that is said not to start: next to nothing in
// its cylinders is believed then.
func (t *Test) NotStarting() bool {
	return t.Spec.Runs == "does not run" || slices.Contains(t.History.Complaints, "no start")
}

// RunsOnOne reports an engine of one cylinder that is said to run: it has pressure,
// whatever its reading says.
func (t *Test) RunsOnOne() bool {
	return (t.Spec.Runs == "well" || t.Spec.Runs == "rough") && !t.NotStarting() && len(t.cylinders()) == 1
}

// suspectUnit reports a notice that the compression of the whole engine may
// stand in another unit than is written: then next to nothing is no grade.
func (t *Test) suspectUnit() bool {
	return !t.UnitReadOff() && !t.NotStarting() && slices.ContainsFunc(t.Noted, func(n Notice) bool {
		return n.Rule == "unit-suspect" && len(n.Cylinders) == 0 && n.Facts["section"] == "compression" && n.Facts["looks"] != nil
	})
}

// grade compares the cylinders with the reference. One that reads next to
// nothing has no pressure, whatever the reference is; where all of several do and
// the unit is in doubt as well, they are not judged. A cylinder known only to read more
// than a figure stands for that figure where this makes another one low.
func (c *cranking) grade(r *CompressionResult) {
	if len(c.samples) == 0 {
		return
	}
	reference, high := c.samples.reference()
	if len(high) > 0 && (c.boundsUneven(high) || slices.ContainsFunc(high, func(one int) bool { return c.othersLow(one, high, r.Expected) })) {
		reference, high = high[0], nil
	}
	bound, bounded := c.boundAbove()
	judged := c.incomparable() == ""
	bounded = bounded && c.test.spoilt() == "" && c.lowBeside(bound)
	if bounded {
		reference, _ = c.samples.extremes()
		high = nil
	}
	r.Reference = c.samples[reference].value
	if bounded && !judged {
		r.Reference = bound.value
	}
	nothing, _ := inUnit(c.test.nothingPSI(), quantity.PSI, r.Unit)
	otherUnit := (r.N > 1 || c.test.RunsOnOne()) && r.Lowest > 0 && c.test.suspectUnit() // then a bound in psi says nothing
	unread := otherUnit && r.WithoutPressure()
	for i, s := range c.samples {
		cylinder := r.Cylinder(s.name)
		if r.Reference > 0 {
			share, u, _ := c.samples.quotient(c.samples.at(i), c.samples.at(reference))
			cylinder.PercentOfRef, cylinder.UPercent = share, u
		}
		switch {
		case s.value < nothing && !otherUnit:
			cylinder.Grade = NoPressure
		case !judged || unread:
		case slices.Contains(high, i):
			cylinder.Grade = High
		default:
			cylinder.Grade = gradeOf(beside(s, c.samples[reference]))
		}
		if !bounded {
			continue
		}
		share, u := beside(s, bound)
		if g := gradeOf(share, u); depth(g) > 0 && depth(g) >= depth(cylinder.Grade) || g.IsLow() && !judged {
			cylinder.PercentOfRef, cylinder.UPercent, cylinder.AtMost = share, u, true
			if depth(g) > depth(cylinder.Grade) {
				cylinder.Grade = g
			}
		}
	}
	c.keepOrder(r)
}

// keepOrder makes one that is too close to tell as low as any that reads higher: by itself it
// might be even, but not beside a lower one that is even and a higher one that is low.
func (c *cranking) keepOrder(r *CompressionResult) {
	for _, s := range c.samples {
		cylinder := r.Cylinder(s.name)
		if cylinder.Grade != GradeTooClose {
			continue
		}
		for _, other := range c.samples {
			if g := r.Cylinder(other.name).Grade; g.IsLow() && g != NoPressure && s.value <= other.value && depth(g) > depth(cylinder.Grade) {
				cylinder.Grade = g
			}
		}
	}
}

// depth orders the grades under even, the lowest highest; 0 for all others.
func depth(g Grade) int { return slices.Index([]Grade{Watch, Low, VeryLow, NoPressure}, g) + 1 }

// beside gives a reading in percent of another and its expanded uncertainty in
// points, as of two readings: the best one is not surer of itself than an equal
// one is of it.
func beside(s, reference sample) (percent, u float64) {
	pair := set{s, reference}
	percent, u, _ = pair.quotient(pair.at(0), pair.at(1))
	return percent, u
}

// boundAbove gives the highest of the cylinders known only to read more than a
// figure, where that figure is above every reading.
func (c *cranking) boundAbove() (sample, bool) {
	if len(c.bounds) == 0 {
		return sample{}, false
	}
	b, _ := set(c.bounds).extremes()
	top, _ := c.samples.extremes()
	return c.bounds[b], c.bounds[b].value > c.samples[top].value
}

// boundsUneven reports that the cylinders beside a high one are not even among
// themselves, since one known to read more than a figure makes another low.
func (c *cranking) boundsUneven(high []int) bool {
	return slices.ContainsFunc(c.bounds, func(b sample) bool {
		return slices.ContainsFunc(c.samples, func(s sample) bool {
			return !slices.ContainsFunc(high, func(i int) bool { return s.name == c.samples[i].name }) && s.value < b.value*(100-othersWithin)/100-tiny*b.value
		})
	})
}

// What takes up room in a chamber hardly makes one cylinder read so much more
// than the others, in percent of it, while it gives no more than a sound one may,
// in psi. Two others are outvoted sooner than three: common practice, no source.
const (
	farUnderHigh     = 60
	twoFarUnderHigh  = 70
	soundMostBySpark = 220
	soundMostDiesel  = 500
)

// othersLow reports that the cylinders beside a high one are low, and it is not
// high: they are under what the engine's geometry gives and it is not over that,
// or it is over the book's minimum and they are under it, or they read so much less
// that nothing in its chamber explains it, and it gives what a sound engine may. With a wet plug it may still hold liquid.
func (c *cranking) othersLow(one int, high []int, expected *Expected) bool {
	top := c.samples[one]
	most := float64(soundMostBySpark)
	if c.test.Spec.Diesel() {
		most = soundMostDiesel
	}
	limit, ok := inUnit(most, quantity.PSI, c.test.Compression.Unit)
	wet := c.test.Plugs != nil && slices.Contains([]string{"oil-wet", "fuel-wet", "coolant"}, c.test.Plugs.ByCylinder[top.name].Look)
	if !ok || wet {
		return false
	}
	if expected != nil && top.value <= expected.High && c.othersUnder(high, expected.Low) {
		return true
	}
	air := atmosphereOf(c.test.Conditions)
	for _, l := range c.test.Compression.Limits { // the book says which of the two is right
		if r, ok := limitHere(l, c.test.Compression.Unit, air); ok && l.Kind == Minimum && top.value >= r.Limit && c.othersUnder(high, r.Limit) {
			return true
		}
	}
	share := float64(farUnderHigh)
	if len(c.samples) == highNeeds {
		share = twoFarUnderHigh
	}
	return top.value <= limit && c.othersUnder(high, top.value*share/100)
}

func (c *cranking) othersUnder(high []int, value float64) bool {
	for i, s := range c.samples {
		if !slices.Contains(high, i) && s.value >= value {
			return false
		}
	}
	return true
}

// lowBeside reports a reading that is low beside a cylinder known to read more
// than a figure.
func (c *cranking) lowBeside(bound sample) bool {
	return slices.ContainsFunc(c.samples, func(s sample) bool { return gradeOf(beside(s, bound)).IsLow() })
}

// gradeOf grades a percentage of the reference. It is too close to call where
// the percentage could as well be even as low: where the interval of +-u reaches
// from under 85 to 90 or more. An interval across one of the two only cannot
// take even for low, and watch is the word for what lies between. Very low and
// no pressure are too far off for it.
func gradeOf(percent, u float64) Grade {
	switch {
	case percent < veryLowFrom-tiny:
		return NoPressure
	case percent < lowFrom-tiny:
		return VeryLow
	case percent+u >= EvenFrom-tiny && percent-u < WatchFrom-tiny:
		return GradeTooClose
	case percent < WatchFrom-tiny:
		return Low
	case percent < EvenFrom-tiny:
		return Watch
	}
	return Even
}
