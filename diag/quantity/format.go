package quantity

import (
	"math"
	"strconv"
)

// mostDecimals is the most that Format prints and DecimalsFor asks for; no
// gauge on a bench is divided finer.
const mostDecimals = 4

// Format prints v with a fixed number of decimals (0 to 4), a half rounded
// away from zero as it is by hand, and never as minus zero.
func Format(v float64, decimals int) string {
	decimals = min(max(decimals, 0), mostDecimals)
	scale := math.Pow10(decimals)
	if rounded := math.Round(v*scale) / scale; finite(rounded) {
		v = rounded
	}
	if v == 0 {
		v = 0 // drops the sign of minus zero
	}
	return strconv.FormatFloat(v, 'f', decimals, 64)
}

// DecimalsRead gives the decimals to print a value that was read: the usual
// ones, or one more where it is the reader's own number between two marks, the
// mean of repeats or the middle of a band, and that one more writes it exactly.
func DecimalsRead(v float64, usual int) int {
	scale := math.Pow10(usual)
	if !finite(v) || whole(v*scale) || !whole(v*scale*10) {
		return usual
	}
	return usual + 1
}

// whole reports a number without a fraction, but for rounding.
func whole(v float64) bool { return math.Abs(v-math.Round(v)) <= 1e-9*math.Max(1, math.Abs(v)) }

// DecimalsFor gives the decimals needed to write readings of a gauge with this
// smallest division: 0 for 5 or 1, 1 for 0.5 or 0.2, 2 for 0.25. It is 0 where
// the division is not a positive number.
func DecimalsFor(division float64) int {
	if !finite(division) || division <= 0 {
		return 0
	}
	for decimals := range mostDecimals {
		scaled := division * math.Pow10(decimals)
		if scaled >= 1-1e-9 && math.Abs(scaled-math.Round(scaled)) < 1e-9*scaled {
			return decimals
		}
	}
	// A division that no few decimals write exactly, such as a third: enough
	// to tell two marks apart.
	return min(max(int(math.Ceil(-math.Log10(division))), 0), mostDecimals)
}

// DefaultDecimals gives the decimals to print in a unit when the gauge's
// division is not known: common practice, no source.
func DefaultDecimals(u Unit) int { return byUnit[u].decimals }
