package figure

import (
	"math"
	"strconv"
)

// ticks are round values from at or below low to at or above high, about as
// many as asked for, with as many decimals as they need. Steps are 1, 2 or 5
// times a power of ten.
func ticks(low, high float64, about int) (values []float64, texts []string) {
	if !(high > low) || math.IsInf(high-low, 0) {
		high = low + 1
	}
	raw := (high - low) / float64(max(about, 1))
	power := math.Pow(10, math.Floor(math.Log10(raw)))
	step := 10 * power
	for _, k := range []float64{1, 2, 5} {
		if raw <= k*power*(1+1e-9) {
			step = k * power
			break
		}
	}
	decimals := max(0, -int(math.Floor(math.Log10(step)+1e-9)))
	first, last := math.Floor(low/step+1e-9), math.Ceil(high/step-1e-9)
	for k := first; k <= last; k++ {
		values = append(values, k*step)
		texts = append(texts, strconv.FormatFloat(k*step, 'f', decimals, 64))
	}
	return values, texts
}
