package diag

import (
	"math"
	"strings"

	"gaugesheet/diag/quantity"
)

// repeatOf is the standard uncertainty of a reading from repeatability where
// nothing is known of it: that of its last digit as entered, 1/sqrt 12 of it
// (JCGM 100:2008, F.2.2.1).
func (m *Measured) repeatOf(one Measurement) float64 {
	step := stepRead(one)
	if ofEachValve[m.Name] { // the blades that its limits are written for: who writes 0.2 beside 0.15-0.25 has felt 0.20
		for _, l := range m.Limits {
			if l.covers(one) && l.Unit == one.Unit {
				step = min(step, math.Pow(10, -float64(decimalsIn(l.Entered))))
			}
		}
	}
	return step / math.Sqrt(12)
}

// stepRead is the last place of a reading as it was written, in its unit: of 12 thou a
// thousandth of an inch, also where that is told in millimetres.
func stepRead(one Measurement) float64 {
	step := math.Pow(10, -float64(decimalsIn(one.Entered)))
	v, err := quantity.ParseAs(one.Entered, quantity.DimensionOf(one.Unit))
	if err != nil || v.Unit == quantity.None {
		return step
	}
	if v.Unit == quantity.Inch && strings.Contains(strings.ToLower(one.Entered), "thou") {
		step /= 1000
	}
	if in, err := quantity.Convert(step, v.Unit, one.Unit); err == nil && v.Unit != one.Unit && quantity.DimensionOf(v.Unit) == quantity.Length {
		return in
	}
	return step
}

// decimalsRead are the decimals that show the last place of a reading.
func decimalsRead(one Measurement) int {
	return max(0, int(math.Ceil(-math.Log10(stepRead(one))-1e-9)))
}
