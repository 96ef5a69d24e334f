package layout_test

import (
	"math"
	"testing"

	"gaugesheet/layout"
)

func TestRoundStep(t *testing.T) {
	for _, c := range []struct {
		raw, step float64
		decimals  int
	}{{1, 1, 0}, {1.01, 2, 0}, {4, 5, 0}, {5.1, 10, 0}, {0.03, 0.05, 2}, {0.2, 0.2, 1}, {310, 500, 0}} {
		step, decimals := layout.RoundStep(c.raw)
		if math.Abs(step-c.step) > 1e-9*c.step || decimals != c.decimals {
			t.Errorf("RoundStep(%v) = %v, %d; want %v, %d", c.raw, step, decimals, c.step, c.decimals)
		}
	}
}
