package gauge

import "math"

// Verdict is what can be said of a value against a limit.
type Verdict string

// The verdicts, as they are printed.
const (
	Within    Verdict = "within"
	Outside   Verdict = "outside"
	TooClose  Verdict = "too close to call"
	NotJudged Verdict = "not judged"
)

// Side tells on which side of a limit a value should be.
type Side int

// The sides.
const (
	AtLeast Side = iota // a lower limit
	AtMost              // an upper limit
)

// roundOff is the share of the figures by which floating point may miss a
// value that is equal to its limit on paper.
const roundOff = 1e-12

// Judge decides with a guard band of the expanded uncertainty u on both sides
// of the limit (JCGM 106:2012, 8.3; ILAC-G8:09/2019, 4.1): within or outside
// only where the value is clear of the limit by u, else too close to call. A
// value at the edge of the guard band is within, so that with u = 0 the limit
// itself is within. It is not judged where a figure is not finite or u is
// negative. All are in one unit.
func Judge(value, limit, u float64, side Side) Verdict {
	if !(u >= 0) || !finite(value) || !finite(limit) || !finite(u) {
		return NotJudged
	}
	margin := value - limit
	if side == AtMost {
		margin = -margin
	}
	slack := roundOff * max(math.Abs(value), math.Abs(limit), u)
	switch {
	case margin >= u-slack:
		return Within
	case margin < -u-slack:
		return Outside
	}
	return TooClose
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
