package diag

import (
	"math"
	"slices"

	"gaugesheet/diag/gauge"
	"gaugesheet/diag/quantity"
)

// An instrument is a gauge as it was used in one section: its scale, and how
// well it repeats.
type instrument struct {
	scale  gauge.Gauge
	repeat float64 // standard uncertainty of one exact reading from repeatability
	exact  bool    // leave the scale's error out, for bare arithmetic
}

// estimateFactor is how much less sure 'about 120' is than a reading: common
// practice, no source.
const estimateFactor = 3

// newInstrument takes the repeatability from the gauge's division and from the
// scatter of repeats; fallback stands where neither is known. Repeats that
// disagree, further apart than tells and a part of themselves, are a fault of the
// test and not the scatter of the gauge; those next to nothing tell nothing of it.
func newInstrument(g *Gauge, readings []Reading, fallback float64, tells telling) instrument {
	var i instrument
	if g != nil {
		i.scale = gauge.Gauge{Low: g.Low, High: g.High, Division: g.Division, Offset: g.ReadsAt[0] - g.ReadsAt[1]}
		if g.Accuracy != nil {
			i.scale.Accuracy = *g.Accuracy
		}
	}
	var groups [][]float64
	for _, r := range readings {
		if v, ok := r.settled(tells); ok && !tells.isNothing(v) {
			groups = append(groups, r.Values)
		}
	}
	i.repeat = gauge.Repeatability(i.scale.Division, gauge.PooledDeviation(groups), fallback)
	return i
}

// inReadings converts a default given in psi to the unit of the readings.
func inReadings(psi float64, unit quantity.Unit) float64 {
	if v, ok := inUnit(psi, quantity.PSI, unit); ok {
		return v
	}
	return psi
}

// standard is the standard uncertainty of a reading from repeatability. A
// band's half width is its own, never less than that of an exact reading.
func (i instrument) standard(r Reading) float64 {
	switch r.Kind {
	case Estimate:
		return estimateFactor * i.repeat
	case Band:
		return max(r.HalfWidth, i.repeat)
	}
	return i.repeat
}

// againstBook is the expanded uncertainty of a value compared with a figure
// that was not read on this gauge: repeatability and scale both count.
func (i instrument) againstBook(value, u float64) float64 {
	if i.exact {
		return gauge.Expanded(u)
	}
	return gauge.Expanded(u, i.scale.Standard(value))
}

// A sample is one reading that can be judged, with its standard uncertainty.
type sample struct {
	name     string
	value, u float64
}

// A set is the samples of one test in the engine's order. What is worked out
// from them is a combination of the readings, or a quotient of two; a scale
// error in proportion to the readings cancels in it.
type set []sample

// weights says how much of each sample goes into a combination.
type weights []float64

func (s set) at(i int) weights {
	w := make(weights, len(s))
	w[i] = 1
	return w
}

func (s set) meanWeights() weights {
	w := make(weights, len(s))
	for i := range w {
		w[i] = 1 / float64(len(s))
	}
	return w
}

// medianWeights shares a place in the middle among the samples that are equal
// there, so that their order does not matter.
func (s set) medianWeights() weights {
	sorted := slices.Sorted(slices.Values(s.values()))
	w := make(weights, len(s))
	for _, middle := range []float64{sorted[(len(s)-1)/2], sorted[len(s)/2]} {
		var at []int
		for i, x := range s {
			if same(x.value, middle) {
				at = append(at, i)
			}
		}
		for _, i := range at {
			w[i] += 0.5 / float64(len(at))
		}
	}
	return w
}

// same reports equality on paper.
func same(a, b float64) bool { return math.Abs(a-b) <= tiny*max(math.Abs(a), math.Abs(b)) }

func (w weights) less(v weights) weights {
	d := slices.Clone(w)
	for i := range d {
		d[i] -= v[i]
	}
	return d
}

// sum gives the combination's value and its expanded uncertainty,
// U = 2 sqrt( sum (w u)^2 ) (JCGM 100:2008, 5.1.2). For the difference of two
// readings that is 2 sqrt(2) u.
func (s set) sum(w weights) (value, expanded float64) {
	squares := 0.0
	for i, x := range s {
		value += w[i] * x.value
		squares += w[i] * x.u * w[i] * x.u
	}
	return value, gauge.Expanded(math.Sqrt(squares))
}

// quotient gives 100 numerator/denominator and its expanded uncertainty in
// points, by the same law; false where the denominator is not positive. For the
// ratio of two readings of one test that is U = R sqrt((2 uL/L)^2 + (2 uH/H)^2):
// a scale error in proportion to the reading cancels.
func (s set) quotient(numerator, denominator weights) (percent, expanded float64, ok bool) {
	n, _ := s.sum(numerator)
	d, _ := s.sum(denominator)
	if !(d > 0) {
		return 0, 0, false
	}
	slope := slices.Clone(numerator)
	for i := range slope {
		slope[i] = 100 * (numerator[i] - n/d*denominator[i]) / d
	}
	_, expanded = s.sum(slope)
	return 100 * n / d, expanded, true
}

// extremes gives the indices of the highest and the lowest sample: of equals
// the one best known, then the first. The set is not empty.
func (s set) extremes() (highest, lowest int) {
	for i, x := range s {
		if h := s[highest]; same(x.value, h.value) && x.u < h.u || x.value > h.value && !same(x.value, h.value) {
			highest = i
		}
		if l := s[lowest]; same(x.value, l.value) && x.u < l.u || x.value < l.value && !same(x.value, l.value) {
			lowest = i
		}
	}
	return highest, lowest
}

func (s set) index(name string) int {
	return slices.IndexFunc(s, func(x sample) bool { return x.name == name })
}

func (s set) values() []float64 {
	v := make([]float64, len(s))
	for i, x := range s {
		v[i] = x.value
	}
	return v
}
