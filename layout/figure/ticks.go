package figure

import (
	"math"
	"strconv"

	"gaugesheet/layout"
)

// ticks are round values from at or below low to at or above high, about as
// many as asked for, with as many decimals as they need.
func ticks(low, high float64, about int) (values []float64, texts []string) {
	if !(high > low) || math.IsInf(high-low, 0) {
		high = low + 1
	}
	step, decimals := layout.RoundStep((high - low) / float64(max(about, 1)))
	first, last := math.Floor(low/step+1e-9), math.Ceil(high/step-1e-9)
	for k := first; k <= last; k++ {
		values = append(values, k*step)
		texts = append(texts, strconv.FormatFloat(k*step, 'f', decimals, 64))
	}
	return values, texts
}
