package chart

import (
	"fmt"
	"math"
	"strconv"

	chart "github.com/wcharczuk/go-chart/v2"

	"gaugesheet/layout"
)

// A scale is the range of the axis as the chart library knows it. It rounds to
// the library's grid where the library's own range goes up, and keeps its ends,
// which the library would take from the outermost ticks.
type scale struct {
	min, max float64
	domain   int
}

var _ chart.Range = (*scale)(nil)

// GetMin is the value at the left end.
func (s *scale) GetMin() float64 { return s.min }

// GetMax is the value at the right end.
func (s *scale) GetMax() float64 { return s.max }

// GetDelta is the length of the range; it is never zero.
func (s *scale) GetDelta() float64 { return s.max - s.min }

// GetDomain is the length in units of the library's grid.
func (s *scale) GetDomain() int { return s.domain }

// SetDomain takes the length in units of the library's grid.
func (s *scale) SetDomain(units int) { s.domain = units }

// SetMin does nothing: the ends are given.
func (s *scale) SetMin(float64) {}

// SetMax does nothing: the ends are given.
func (s *scale) SetMax(float64) {}

// IsZero is false: the ends are given.
func (s *scale) IsZero() bool { return false }

// IsDescending is false: values grow to the right.
func (s *scale) IsDescending() bool { return false }

func (s *scale) String() string { return fmt.Sprintf("%g to %g", s.min, s.max) }

// Translate is where a value lies on the library's grid.
func (s *scale) Translate(v float64) int {
	return int(math.Round((v - s.min) / s.GetDelta() * float64(s.domain)))
}

// newScale is a scale that holds every value and line, with room at either end
// for half of what stands about the outermost one.
func (r *Ruler) newScale() scale {
	low, high := 0.0, r.Least
	for _, b := range r.Bars {
		low, high = min(low, b.Value, b.Low), max(high, b.Value, b.High)
	}
	for _, l := range r.Limits {
		low, high = min(low, usable(l.Value)), max(high, usable(l.Value))
	}
	if r.Most > 0 {
		high = min(high, r.Most)
	}
	if high <= low {
		high = low + 1
	}
	left := r.side(low, high)
	right := left + r.lastNote(high)
	perValue := float64(r.width-left-right) / (high - low)
	return scale{min: low - float64(left)/perValue, max: high + float64(right)/perValue}
}

// side is the room left and right of the outermost values: half of the widest of
// what stands about them.
func (r *Ruler) side(low, high float64) layout.Length {
	half := layout.Length(0)
	for _, v := range []float64{low, 0, high} {
		half = max(half, r.theme.Measurer.Width(r.number(math.Round(v), 0), r.axisFace())/2)
	}
	for _, b := range r.Bars {
		half = max(half, b.width()/2)
	}
	return min(half+1, r.width*0.45)
}

// lastNote is the room for what is said of the longest bar behind its end, where
// that is what reaches furthest.
func (r *Ruler) lastNote(high float64) layout.Length {
	for _, b := range r.Bars {
		if r.Say != nil && b.Value == high && !r.atZero(b.Value) {
			return min(r.theme.Measurer.Width(r.number(high, 1), r.noteFace())+noteOff, r.width*0.1)
		}
	}
	return 0
}

// x is the place of a value in an area as wide as the ruler.
func (r *Ruler) x(v float64) layout.Length { return r.Length(v - r.scale.min) }

// valueAt is the value at a place.
func (r *Ruler) valueAt(x layout.Length) float64 {
	return r.scale.min + float64(x/r.width)*r.scale.GetDelta()
}

// A tick is a value on the axis with its words.
type tick struct {
	value float64
	text  string
}

// tickPitch is about how far ticks stand apart.
const tickPitch layout.Length = 56

// ticks are round values, zero among them with its word, wide enough apart for
// their numbers.
func (r *Ruler) ticks() []tick {
	for about := max(1, math.Round(float64(r.width/tickPitch))); ; about = math.Floor(about * 0.7) {
		all := r.ticksAbout(max(about, 1))
		if about <= 1 || r.clear(all) {
			return all
		}
	}
}

func (r *Ruler) ticksAbout(n float64) []tick {
	step, decimals := layout.RoundStep(r.scale.GetDelta() / n)
	var all []tick
	for k := math.Ceil(r.scale.min / step); k*step <= r.scale.max; k++ {
		t := tick{k * step, r.number(k*step, decimals)}
		half := r.theme.Measurer.Width(t.text, r.axisFace()) / 2
		if x := r.x(t.value); k == 0 || x-half >= unit && x+half <= r.width-unit { // the library's grid may move them by a unit
			all = append(all, t)
		}
	}
	return all
}

// number is a value as it stands on the axis. Values left of zero have a sign:
// they lie over it, not below.
func (r *Ruler) number(v float64, decimals int) string {
	switch {
	case v == 0 && r.Zero != "":
		return r.Zero
	case v == 0:
		v = 0 // drops the sign of minus zero
	case v < 0:
		return "+" + strconv.FormatFloat(-v, 'f', decimals, 64) + r.Unit
	}
	return strconv.FormatFloat(v, 'f', decimals, 64) + r.Unit
}

// clear reports ticks whose words stand apart.
func (r *Ruler) clear(all []tick) bool {
	right := layout.Length(-100)
	for _, t := range all {
		half := r.theme.Measurer.Width(t.text, r.axisFace()) / 2
		x := r.x(t.value)
		if x-half < right+3*gap {
			return false
		}
		right = x + half
	}
	return true
}
