package gauge

import "math"

// Repeatability assumed where neither the division of the gauge nor repeats
// are known, as a standard uncertainty: common practice, no source.
const (
	DefaultCompression = 1.0  // psi
	DefaultFuel        = 0.25 // psi
	DefaultLeakage     = 1.0  // points of percent
)

// coverage is the factor k of an expanded uncertainty, about 95 percent.
const coverage = 2

// Repeatability gives the standard uncertainty of one reading apart from the
// scale's error: the larger of division/sqrt 12 (JCGM 100:2008, F.2.2.1) and
// the pooled standard deviation of repeats. A zero is a figure that is not
// known or says nothing; where both are, it is fallback. All are in one unit.
func Repeatability(division, pooled, fallback float64) float64 {
	if u := max(division/math.Sqrt(12), pooled); u > 0 {
		return u
	}
	return fallback
}

// PooledDeviation gives the standard deviation of repeats within groups, each
// group being the repeats of one cylinder:
//
//	sqrt( sum (x - mean)^2 / sum (n - 1) )
//
// It is 0 where no group has two readings.
func PooledDeviation(groups [][]float64) float64 {
	squares, freedom := 0.0, 0
	for _, group := range groups {
		if len(group) < 2 {
			continue
		}
		sum := 0.0
		for _, x := range group {
			sum += x
		}
		mean := sum / float64(len(group))
		for _, x := range group {
			squares += (x - mean) * (x - mean)
		}
		freedom += len(group) - 1
	}
	if freedom == 0 {
		return 0
	}
	return math.Sqrt(squares / float64(freedom))
}

// Expanded gives U = 2 sqrt(sum u^2) from independent standard uncertainties.
//
// Of one reading with its repeatability it is the whisker of a chart; of two,
// the uncertainty of the difference of two readings of one test, where the
// scale's error is in both and cancels; of repeatability and gauge, that
// against a book figure, where it does not; of two repeatabilities and two
// gauges, that against an earlier test taken with another gauge.
func Expanded(standard ...float64) float64 {
	sum := 0.0
	for _, u := range standard {
		sum += u * u
	}
	return coverage * math.Sqrt(sum)
}

// ExpandedAgainstEarlier gives U of the difference from an earlier test of the
// same cylinder. The two gauges' standard uncertainties count unless it was
// the same gauge, whose error is then in both readings.
func ExpandedAgainstEarlier(uNow, uEarlier, gaugeNow, gaugeEarlier float64, sameGauge bool) float64 {
	if sameGauge {
		return Expanded(uNow, uEarlier)
	}
	return Expanded(uNow, uEarlier, gaugeNow, gaugeEarlier)
}
