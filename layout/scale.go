package layout

import "math"

// RoundStep is the distance between the ticks of a scale: the lowest of 1, 2
// and 5 times a power of ten that is at least the raw step, with the decimals
// that its multiples need. The raw step is above zero.
func RoundStep(raw float64) (step float64, decimals int) {
	const slack = 1 + 1e-9
	power := math.Pow(10, math.Floor(math.Log10(raw)))
	step = 10 * power
	for _, k := range []float64{1, 2, 5} {
		if raw <= k*power*slack {
			step = k * power
			break
		}
	}
	return step, max(0, -int(math.Floor(math.Log10(step)+1e-9)))
}
