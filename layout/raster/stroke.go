package raster

import (
	"math"

	"gaugesheet/layout"
)

// A stroke is the union of a bar along each straight line and a piece at each
// corner, all turning the same way round, which a rasteriser that adds areas
// up fills as one.

// sharpest is how far the point of a mitred corner may reach, in widths of
// the pen, before it is cut off: the PDF's own limit (ISO 32000-2, 8.4.3.5).
const sharpest = 10.0

// stroke adds what a pen of that many pixels leaves along a line.
func (out *outline) stroke(l polyline, width float64, round bool) {
	p := l.points
	if l.closed && len(p) > 2 && p[0].minus(p[len(p)-1]).length() < 1e-6 {
		p = p[:len(p)-1]
	}
	n := len(p)
	if n < 2 {
		return
	}
	half := width / 2
	bars := n - 1
	if l.closed {
		bars = n
	}
	for i := range bars {
		out.bar(p[i], p[(i+1)%n], half)
	}
	for i := range p {
		if l.closed || i > 0 && i < n-1 {
			out.corner(p[(i+n-1)%n], p[i], p[(i+1)%n], half, round)
		} else if round {
			out.disc(p[i], half)
		}
	}
}

// side is half a pen's width to the right of the way from a to b.
func side(a, b point, half float64) point {
	d := b.minus(a)
	return point{-d.y, d.x}.times(half / d.length())
}

func (out *outline) bar(a, b point, half float64) {
	s := side(a, b, half)
	out.polygon(a.minus(s), b.minus(s), b.plus(s), a.plus(s))
}

// corner fills the gap that two bars leave on the outer side of a corner.
func (out *outline) corner(before, at, after point, half float64, round bool) {
	if round {
		out.disc(at, half)
		return
	}
	s, t := side(before, at, half), side(at, after, half)
	turn := s.cross(t)
	if turn > 0 { // to the right: the outer side is the left one
		s, t = s.times(-1), t.times(-1)
	}
	// The tip lies along s + t, further out the sharper the corner.
	tip := s.plus(t)
	if reach := 1 + s.dot(t)/(half*half); reach > 2/(sharpest*sharpest) {
		out.polygon(at, at.plus(s), at.plus(tip.times(1/reach)), at.plus(t))
	} else {
		out.polygon(at, at.plus(s), at.plus(t))
	}
}

// disc adds a circle.
func (out *outline) disc(at point, radius float64) {
	n := int(max(8, math.Ceil(4*radius)))
	p := make([]point, n)
	for i := range p {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		p[i] = at.plus(point{radius * cos, radius * sin})
	}
	out.polygon(p...)
}

// polygon adds a closed part that turns clockwise.
func (out *outline) polygon(p ...point) {
	area := 0.0
	for i := range p {
		area += p[i].cross(p[(i+1)%len(p)])
	}
	for i := range p {
		k := i
		if area < 0 {
			k = len(p) - 1 - i
		}
		op := layout.Line
		if i == 0 {
			op = layout.Move
		}
		*out = append(*out, step{op: op, n: 1, p: [3]point{p[k]}})
	}
	*out = append(*out, step{op: layout.Close})
}

// dashed cuts a line into the parts that a pen's dashes leave, lengths on and
// off in turn in points of the page; an odd number of them goes on the other
// way round, as in a PDF.
func dashed(l polyline, dash []layout.Length, scale float64) []polyline {
	total := 0.0
	for _, d := range dash {
		total += float64(d.Round()) * scale
	}
	if total <= 0 {
		return []polyline{l}
	}
	points := l.points
	if l.closed {
		points = append(append([]point{}, points...), points[0])
	}
	var parts []polyline
	part := polyline{points: []point{points[0]}}
	i, on := 0, true
	left := float64(dash[0].Round()) * scale
	for k := 1; k < len(points); k++ {
		from, to := points[k-1], points[k]
		for {
			long := to.minus(from).length()
			if long <= left {
				left -= long
				part.add(to)
				break
			}
			from = from.between(to, left/long)
			part.add(from)
			if on && len(part.points) > 1 {
				parts = append(parts, part)
			}
			part, on = polyline{points: []point{from}}, !on
			i = (i + 1) % len(dash)
			left = float64(dash[i].Round()) * scale
		}
	}
	if on && len(part.points) > 1 {
		parts = append(parts, part)
	}
	return parts
}
