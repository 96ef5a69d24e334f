package raster

import (
	"image"
	"math"

	"golang.org/x/image/vector"

	"gaugesheet/layout"
)

// A point is a place in pixels, or in ems of a glyph.
type point struct{ x, y float64 }

func (a point) plus(b point) point               { return point{a.x + b.x, a.y + b.y} }
func (a point) minus(b point) point              { return point{a.x - b.x, a.y - b.y} }
func (a point) times(k float64) point            { return point{a.x * k, a.y * k} }
func (a point) length() float64                  { return math.Hypot(a.x, a.y) }
func (a point) cross(b point) float64            { return a.x*b.y - a.y*b.x }
func (a point) dot(b point) float64              { return a.x*b.x + a.y*b.y }
func (a point) between(b point, t float64) point { return a.plus(b.minus(a).times(t)) }

// A step is one step of an outline: a move has one point, a line one, a curve
// two or three, the end of a closed part none.
type step struct {
	op layout.Op
	n  int // points
	p  [3]point
}

// An outline is paths in pixels.
type outline []step

// A matrix takes a place on the page to a place in the picture:
// x' = a x + c y + e, y' = b x + d y + f.
type matrix struct{ a, b, c, d, e, f float64 }

func (m matrix) at(p point) point {
	return point{m.a*p.x + m.c*p.y + m.e, m.b*p.x + m.d*p.y + m.f}
}

// scale is how many pixels a point of the page is long; nothing is sheared.
func (m matrix) scale() float64 { return math.Hypot(m.a, m.b) }

// shifted puts the origin at a place of the page.
func (m matrix) shifted(at layout.Point) matrix {
	o := m.at(point{float64(at.X.Round()), float64(at.Y.Round())})
	return matrix{m.a, m.b, m.c, m.d, o.x, o.y}
}

// sized makes a unit that many points long.
func (m matrix) sized(k float64) matrix {
	return matrix{m.a * k, m.b * k, m.c * k, m.d * k, m.e, m.f}
}

// rotated turns by degrees clockwise about a place of the page.
func (m matrix) rotated(degrees float64, about layout.Point) matrix {
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	x, y := float64(about.X), float64(about.Y)
	e, f := x-cos*x+sin*y, y-sin*x-cos*y
	o := m.at(point{e, f})
	return matrix{
		m.a*cos + m.c*sin, m.b*cos + m.d*sin,
		m.c*cos - m.a*sin, m.d*cos - m.b*sin,
		o.x, o.y,
	}
}

func (m matrix) apply(out outline) outline {
	turned := make(outline, len(out))
	for i, s := range out {
		for k := range s.n {
			s.p[k] = m.at(s.p[k])
		}
		turned[i] = s
	}
	return turned
}

// outline is a path of the page in pixels; to be filled, its open parts are
// closed.
func (m matrix) outline(path layout.Path, closed bool) outline {
	var out outline
	for i, s := range path {
		if s.Op == layout.Move && i > 0 && closed {
			out = append(out, step{op: layout.Close})
		}
		points := s.Points()
		st := step{op: s.Op, n: len(points)}
		for k, pt := range points {
			st.p[k] = m.at(point{float64(pt.X.Round()), float64(pt.Y.Round())})
		}
		out = append(out, st)
	}
	if closed {
		out = append(out, step{op: layout.Close})
	}
	return out
}

// area is the pixels that an outline reaches.
func (out outline) area() image.Rectangle {
	low, high := point{math.Inf(1), math.Inf(1)}, point{math.Inf(-1), math.Inf(-1)}
	for _, s := range out {
		for _, p := range s.p[:s.n] {
			low = point{min(low.x, p.x), min(low.y, p.y)}
			high = point{max(high.x, p.x), max(high.y, p.y)}
		}
	}
	if !(low.x <= high.x && low.y <= high.y) {
		return image.Rectangle{}
	}
	const far = 1 << 20 // a number that is no place on any page stays one of the picture
	edge := func(v float64) int { return int(max(-far, min(far, v))) }
	return image.Rect(edge(math.Floor(low.x)), edge(math.Floor(low.y)), edge(math.Ceil(high.x))+1, edge(math.Ceil(high.y))+1)
}

// trace hands the outline to a rasteriser whose corner is at x, y.
func (out outline) trace(z *vector.Rasterizer, x, y float64) {
	at := func(p point) (float32, float32) { return float32(p.x - x), float32(p.y - y) }
	for _, s := range out {
		ax, ay := at(s.p[0])
		switch s.op {
		case layout.Move:
			z.MoveTo(ax, ay)
		case layout.Line:
			z.LineTo(ax, ay)
		case layout.Cubic:
			bx, by := at(s.p[1])
			if s.n == 2 {
				z.QuadTo(ax, ay, bx, by)
				continue
			}
			cx, cy := at(s.p[2])
			z.CubeTo(ax, ay, bx, by, cx, cy)
		case layout.Close:
			z.ClosePath()
		}
	}
}

// A polyline is straight lines through points.
type polyline struct {
	points []point
	closed bool
}

// flatten makes straight lines of an outline, no further from it than can be
// seen.
func flatten(out outline) []polyline {
	var lines []polyline
	var line polyline
	end := func() {
		if len(line.points) > 1 {
			lines = append(lines, line)
		}
		line = polyline{}
	}
	for _, s := range out {
		switch s.op {
		case layout.Move:
			end()
			line.add(s.p[0])
		case layout.Line:
			line.add(s.p[0])
		case layout.Cubic:
			line.curve(s.p)
		case layout.Close:
			if len(line.points) > 0 {
				start := line.points[0]
				line.closed = true
				end()
				line.add(start)
			}
		}
	}
	end()
	return lines
}

// add goes on to a point; one that is where the line is already adds nothing.
func (l *polyline) add(p point) {
	if n := len(l.points); n > 0 && p.minus(l.points[n-1]).length() < 1e-6 {
		return
	}
	l.points = append(l.points, p)
}

// curve goes on along a cubic curve, in steps of about two pixels.
func (l *polyline) curve(c [3]point) {
	if len(l.points) == 0 {
		return
	}
	from := l.points[len(l.points)-1]
	long := c[0].minus(from).length() + c[1].minus(c[0]).length() + c[2].minus(c[1]).length()
	steps := int(max(4, min(200, math.Ceil(long/2))))
	for i := 1; i <= steps; i++ {
		t := float64(i) / float64(steps)
		ab, bc, cd := from.between(c[0], t), c[0].between(c[1], t), c[1].between(c[2], t)
		l.add(ab.between(bc, t).between(bc.between(cd, t), t))
	}
}
