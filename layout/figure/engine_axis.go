package figure

import (
	"math"
	"slices"

	"gaugesheet/layout"
)

// bankAxis says how two banks stand: one left and one right of the
// crankshaft, or, lying, one behind the other. ok is false where they do
// neither.
func bankAxis(d EnginePlan) (lying, ok bool) {
	if len(d.Banks) != 2 || d.Ring || d.Rotary {
		return false, false
	}
	for _, lying := range []bool{false, true} {
		a, b := bankSpan(d, 0, lying), bankSpan(d, 1, lying)
		if a[1] < b[0] || b[1] < a[0] {
			return lying, true
		}
	}
	return false, false
}

// bankSpan is from where to where a bank reaches, across x or, lying, y.
func bankSpan(d EnginePlan, k int, lying bool) [2]float64 {
	span := [2]float64{math.Inf(1), math.Inf(-1)}
	for _, i := range d.Banks[k].Cylinders {
		if i >= 0 && i < len(d.Cylinders) {
			v := coordinate(d.Cylinders[i], lying)
			span[0], span[1] = min(span[0], v), max(span[1], v)
		}
	}
	return span
}

// acrossAxis, given two banks that bankAxis knows, reports whether the crankshaft runs between two cylinders.
func acrossAxis(d EnginePlan, i, j int) bool {
	return slices.Contains(d.Banks[0].Cylinders, i) != slices.Contains(d.Banks[0].Cylinders, j)
}

// beyondAxis reports whether a cylinder is of the bank that stands to the right
// of the crankshaft or, lying, below it.
func beyondAxis(d EnginePlan, i int, lying bool) bool {
	second := 1
	if bankSpan(d, 0, lying)[0] > bankSpan(d, 1, lying)[0] {
		second = 0
	}
	return slices.Contains(d.Banks[second].Cylinders, i)
}

// chain is the line of a centre: long and short strokes in turn.
func (p planDrawing) chain() layout.Pen {
	return layout.Pen{Width: hairline, Color: p.t.Muted, Dash: []layout.Length{9, 2, 1.5, 2}}
}

// drawAxis draws the crankshaft's centre line between two banks.
func (p planDrawing) drawAxis(s layout.Surface, origin layout.Point) {
	lying, ok := bankAxis(p.plan)
	if !ok {
		return
	}
	low, high := layout.Length(math.Inf(-1)), layout.Length(math.Inf(1))
	for i := range p.plan.Cylinders {
		area := moved(p.placing.cells[i].extent(), p.placing.place(i))
		from, to := area.X, area.Right()
		if lying {
			from, to = area.Y, area.Bottom()
		}
		if beyondAxis(p.plan, i, lying) {
			high = min(high, from)
		} else {
			low = max(low, to)
		}
	}
	middle, e := (low+high)/2, p.placing.extent
	ends := []layout.Point{{X: middle, Y: e.Y - 1}, {X: middle, Y: e.Bottom() + 1}}
	if lying {
		ends = []layout.Point{{X: e.X, Y: middle}, {X: e.Right(), Y: middle}}
	}
	s.Stroke(layout.Polyline(ends[0].Add(origin.X, origin.Y), ends[1].Add(origin.X, origin.Y)), p.chain())
}

// drawCrankcase draws the middle of a radial engine: the crankcase and a
// centre line out to each cylinder.
func (p planDrawing) drawCrankcase(s layout.Surface, origin layout.Point) {
	if !p.plan.Ring || len(p.plan.Cylinders) < 3 {
		return
	}
	var middle layout.Point
	n := layout.Length(len(p.plan.Cylinders))
	for i := range p.plan.Cylinders {
		at := p.placing.place(i).Add(origin.X, origin.Y)
		middle = middle.Add(at.X/n, at.Y/n)
	}
	nearest := layout.Length(math.Inf(1))
	for i := range p.plan.Cylinders {
		at := p.placing.place(i).Add(origin.X, origin.Y)
		away := layout.Length(math.Hypot(float64(at.X-middle.X), float64(at.Y-middle.Y)))
		nearest = min(nearest, away)
		edge := 1 - (p.placing.bore.W/2+gasketGap)/away
		s.Stroke(layout.Polyline(middle, middle.Add((at.X-middle.X)*edge, (at.Y-middle.Y)*edge)), p.chain())
	}
	if r := (nearest - p.placing.bore.W/2) * 0.5; r > small {
		s.Fill(layout.Circle(middle, r), p.t.Paper)
		s.Stroke(layout.Circle(middle, r), layout.Pen{Width: thin, Color: p.t.Muted})
		s.Fill(layout.Circle(middle, 1.2), p.t.Muted)
	}
}
