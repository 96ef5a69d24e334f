package diag

import (
	"cmp"
	"math"
	"slices"

	"gaugesheet/diag/gauge"
	"gaugesheet/diag/quantity"
)

// commonLimit is what a set is held against where the job gives no limit.
var commonLimit = Limit{
	Kind: Spread, Of: OfHighest, Value: 10, Unit: quantity.Percent, Entered: "10 %", Source: CommonPractice,
}

// CommonPractice is the source of what is usual and no document owns.
const CommonPractice = "common practice"

// Rules of limits on a rotary engine's faces, as LimitResult.Rule has them.
const (
	ruleBetweenFaces  = "between faces"
	ruleBetweenRotors = "between rotors"
)

// limits judges each limit on its own, in the job's order.
func (c *cranking) limits(r *CompressionResult) {
	limits := c.test.Compression.Limits
	if len(limits) == 0 {
		limits, r.DefaultLimit = []Limit{commonLimit}, true
	}
	air := atmosphereOf(c.test.Conditions)
	for _, l := range limits {
		r.Limits = append(r.Limits, c.judge(l, air))
		if l.FromSeaLevel {
			r.AltitudeFactor, r.DensityFactor = air.pressure, air.density
		}
	}
}

func (c *cranking) judge(l Limit, air atmosphere) LimitResult {
	r, ok := limitHere(l, c.test.Compression.Unit, air)
	r.Rule = l.rule()
	switch {
	case !ok:
		r.Reason = reasonUnit
	case l.Kind == Minimum:
		r.Reason = c.test.spoilt()
		if r.Reason == "" && len(c.samples)+len(c.bounds) == 0 {
			r.Reason = reasonNoReading
		}
	}
	if r.Reason != "" {
		return r
	}
	if l.Kind == Minimum {
		r.decide(c.againstMinimum(), gauge.AtLeast)
		if r.Verdict == NotJudged {
			r.Reason = reasonLowerBound
		}
		return r
	}
	if bounded := c.judgeBounded(l, r); bounded.Verdict == Outside {
		return bounded
	}
	if r.Reason = c.incomparable(); r.Reason != "" {
		return r
	}
	readings, ok := c.relative(l.Kind, l.basis(), r.Unit == quantity.Percent)
	if !ok {
		r.Reason = reasonNoPressure
		return r
	}
	r.decide(readings, l.side())
	return r
}

// judgeBounded judges a limit on the distance from the highest with the
// cylinder that is known only to read more than a figure as the highest. What is
// outside then is outside whatever that cylinder reads; nothing else is said.
func (c *cranking) judgeBounded(l Limit, r LimitResult) LimitResult {
	fromHighest := (l.Kind == Lowest || l.Kind == Spread) && l.basis() == OfHighest || l.Kind == Difference
	if !fromHighest || len(c.samples) == 0 || c.test.spoilt() != "" {
		return r
	}
	bound, above := c.boundAbove()
	if !above {
		return r
	}
	with := &cranking{test: c.test, names: c.names, tool: c.tool, samples: append(slices.Clone(c.samples), bound)}
	readings, ok := with.relative(l.Kind, l.basis(), r.Unit == quantity.Percent)
	if !ok {
		return r
	}
	r.decide(readings[:len(c.samples)], l.side())
	r.Bounded = true
	return r
}

// rule is the limit's name with its basis, as LimitResult.Rule has it.
func (l Limit) rule() string {
	if l.Kind == Lowest || l.Kind == Spread {
		return string(l.Kind) + " of " + string(l.basis())
	}
	return string(l.Kind)
}

func (l Limit) basis() Basis {
	if l.Of == "" {
		return OfHighest
	}
	return l.Of
}

// side tells on which side of the limit a value should be.
func (l Limit) side() gauge.Side {
	if l.Kind == Minimum || l.Kind == Lowest {
		return gauge.AtLeast
	}
	return gauge.AtMost
}

// takes reports whether a limit of this kind may be a percentage, and whether
// it may be a pressure.
func (k LimitKind) takes() (percent, pressure bool) {
	switch k {
	case Lowest, Spread:
		return true, false
	case BelowMean, FromMean:
		return true, true
	}
	return false, true
}

// limitHere gives the limit in the unit of the readings, not judged yet, and
// brought to the air of the test where it holds at sea level. Percentages need
// no correction: the air is the same for all cylinders. It is false where the
// limit's unit does not fit its kind.
func limitHere(l Limit, unit quantity.Unit, air atmosphere) (LimitResult, bool) {
	r := LimitResult{AsEntered: l.Entered, Source: l.Source, Limit: l.Value, Unit: l.Unit, Verdict: NotJudged}
	percent, pressure := l.Kind.takes()
	if l.Unit == quantity.Percent || percent && !pressure && l.Unit == quantity.None {
		r.Unit = quantity.Percent
		return r, percent
	}
	value, ok := inUnit(l.Value, l.Unit, unit)
	if !ok || !pressure {
		return r, false
	}
	r.Limit, r.Unit = value, unit
	if !l.FromSeaLevel {
		return r, true
	}
	if air.density != nil {
		r.ByDensity = value * *air.density
	}
	if air.pressure == nil {
		r.Uncorrected = true
		return r, true
	}
	r.Limit, r.Corrected = value**air.pressure, true
	return r, true
}

// A measured value is one cylinder's value for one limit.
type measured struct {
	cylinder string
	value, u float64 // u is expanded
	bound    bool    // known only not to be less than value
}

// decide takes the cylinder with the worst verdict; of those with the same the
// one furthest on the bad side, of equals the least certain, then the first. A
// lower bound that does not clear the limit decides nothing: where there is no
// other value the limit stays not judged.
func (r *LimitResult) decide(values []measured, side gauge.Side) {
	worst := math.Inf(-1)
	for _, m := range values {
		verdict := Verdict(gauge.Judge(m.value, r.Limit, m.u, side))
		past := gauge.Judge(m.value, r.Limit, 0, side) == gauge.Outside
		if m.bound && verdict != Within {
			continue // it may well be above: nothing is known of this cylinder
		}
		excess := m.value - r.Limit
		if side == gauge.AtLeast {
			excess = -excess
		}
		slack := tiny * (math.Abs(m.value) + math.Abs(r.Limit))
		equal := math.Abs(excess-worst) <= slack
		switch {
		case severity(verdict) > severity(r.Verdict):
		case severity(verdict) < severity(r.Verdict), !equal && excess < worst, equal && m.u <= r.Uncertainty+slack:
			continue
		}
		worst = excess
		r.Verdict, r.Cylinder, r.Value, r.Uncertainty, r.PastAsRead = verdict, m.cylinder, m.value, m.u, past
	}
}

// againstMinimum compares with a figure that was not read on this gauge, so
// that the scale's error counts.
func (c *cranking) againstMinimum() []measured {
	var list []measured
	for _, s := range c.samples {
		list = append(list, measured{cylinder: s.name, value: s.value, u: c.tool.againstBook(s.value, s.u)})
	}
	for _, s := range c.bounds {
		list = append(list, measured{cylinder: s.name, value: s.value, u: c.tool.againstBook(s.value, s.u), bound: true})
	}
	return list
}

// relative gives each cylinder's value for a limit between cylinders, in
// percent of the basis or in the unit; false where the basis is no pressure.
func (c *cranking) relative(kind LimitKind, of Basis, percent bool) ([]measured, bool) {
	s := c.samples
	h, _ := s.extremes()
	highest, mean := s.at(h), s.meanWeights()
	basis := s.basisWeights(of)
	if kind == BelowMean || kind == FromMean {
		basis = mean
	}
	list := make([]measured, 0, len(s))
	for _, i := range s.lowestFirst() {
		var part weights
		switch kind {
		case Lowest:
			part = s.at(i)
		case Spread, Difference:
			part = highest.less(s.at(i))
		default:
			part = mean.less(s.at(i))
		}
		m := measured{cylinder: s[i].name}
		if percent {
			var ok bool
			if m.value, m.u, ok = s.quotient(part, basis); !ok {
				return nil, false
			}
		} else {
			m.value, m.u = s.sum(part)
		}
		if kind == FromMean {
			m.value = math.Abs(m.value)
		}
		list = append(list, m)
	}
	return list, true
}

// lowestFirst gives the places of the samples, so that of two that are as far from
// the mean it is the lower one that decides, whatever it is called.
func (s set) lowestFirst() []int {
	order := make([]int, len(s))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		if x, y := s[a].value, s[b].value; math.Abs(x-y) > tiny*(math.Abs(x)+math.Abs(y)) { // in any unit
			return cmp.Compare(x, y)
		}
		return 0
	})
	return order
}

func (s set) basisWeights(of Basis) weights {
	h, l := s.extremes()
	switch of {
	case OfLowest:
		return s.at(l)
	case OfMean:
		return s.meanWeights()
	case OfMedian:
		return s.medianWeights()
	}
	return s.at(h)
}
