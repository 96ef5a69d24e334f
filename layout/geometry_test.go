package layout_test

import (
	"math"
	"testing"

	"gaugesheet/layout"
)

func TestSplits(t *testing.T) {
	r := layout.Rect{X: 10, Y: 20, W: 100, H: 50}
	left, rest := r.SplitLeft(30)
	if left != (layout.Rect{X: 10, Y: 20, W: 30, H: 50}) || rest != (layout.Rect{X: 40, Y: 20, W: 70, H: 50}) {
		t.Errorf("left %v, rest %v", left, rest)
	}
	columns := r.Columns(3, 5)
	if len(columns) != 3 || columns[0].W != 30 || columns[2].Right() != r.Right() {
		t.Errorf("columns %v", columns)
	}
}

func TestMillimetres(t *testing.T) {
	// 1 inch = 25.4 mm = 72 pt: ISO 80000-3 and the PDF's unit (ISO 32000-2, 8.3.2.3).
	if got := (72 * layout.Pt).MM(); math.Abs(got-25.4) > 1e-12 {
		t.Errorf("72 pt are %v mm", got)
	}
}

// bezier is a point of a cubic curve.
func bezier(p0, p1, p2, p3 layout.Point, u float64) (x, y float64) {
	v := 1 - u
	a, b, c, d := v*v*v, 3*v*v*u, 3*v*u*u, u*u*u
	return a*float64(p0.X) + b*float64(p1.X) + c*float64(p2.X) + d*float64(p3.X),
		a*float64(p0.Y) + b*float64(p1.Y) + c*float64(p2.Y) + d*float64(p3.Y)
}

// Every point of an arc must lie on the circle, to 0.001 % of its radius.
func TestArcLiesOnTheCircle(t *testing.T) {
	center := layout.Point{X: 50, Y: 60}
	for _, sweep := range []float64{20, 90, -120, 360, -360} {
		var at layout.Point
		for _, s := range layout.Arc(center, 40, 30, sweep) {
			if s.Op == layout.Move {
				at = s.P[0]
				continue
			}
			for u := 0.0; u <= 1; u += 0.05 {
				x, y := bezier(at, s.P[0], s.P[1], s.P[2], u)
				if r := math.Hypot(x-50, y-60); math.Abs(r-40) > 40e-5 {
					t.Errorf("sweep %v: a point %v from the middle, want 40", sweep, r)
				}
			}
			at = s.P[2]
		}
		sin, cos := math.Sincos((30 + sweep) * math.Pi / 180)
		if math.Hypot(float64(at.X)-50-40*cos, float64(at.Y)-60-40*sin) > 1e-9 {
			t.Errorf("sweep %v ends at %v", sweep, at)
		}
	}
}
