package diag

import (
	"math"
	"testing"
)

// The ratio of two readings of one test, worked out by hand from JCGM 100:2008,
// 5.1.2: 148/165 = .8970, U = .8970 sqrt((2/148)^2 + (2/165)^2) = .01628.
func TestQuotientOfTwoReadings(t *testing.T) {
	read := func(low, high float64) set {
		return set{{name: "1", value: low, u: 1}, {name: "2", value: high, u: 1}}
	}
	for _, tt := range []struct {
		low, high, percent, expanded float64
	}{
		{148, 165, 89.697, 1.628},
		{0, 165, 0, 200.0 / 165}, // a dead cylinder
	} {
		s := read(tt.low, tt.high)
		percent, expanded, ok := s.quotient(s.at(0), s.at(1))
		if !ok || math.Abs(percent-tt.percent) > 5e-4 || math.Abs(expanded-tt.expanded) > 5e-4 {
			t.Errorf("%v of %v: %v %% by %v, %v; want %v by %v", tt.low, tt.high, percent, expanded, ok, tt.percent, tt.expanded)
		}
	}
	s := read(0, 0)
	if _, _, ok := s.quotient(s.at(0), s.at(1)); ok {
		t.Error("a part of nothing was worked out")
	}
}
