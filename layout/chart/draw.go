package chart

import (
	chart "github.com/wcharczuk/go-chart/v2"

	"gaugesheet/layout"
)

// A ground is where bars are drawn: the frame that the library left, and the
// range that it gave.
type ground struct {
	*Ruler
	s     layout.Surface
	frame layout.Rect
	rng   chart.Range
}

// draw draws the zones, the limits across them, then the bars.
func (r *Ruler) draw(s layout.Surface, frame layout.Rect, rng chart.Range) {
	g := ground{r, s, frame, rng}
	g.zones()
	for _, h := range r.head {
		if h.limit {
			x := frame.X + h.line
			s.Stroke(layout.Polyline(layout.Point{X: x, Y: frame.Y - r.lineTop(h)}, layout.Point{X: x, Y: g.floor()}), r.limitPen())
		}
	}
	g.base()
	for _, c := range r.crowds {
		g.crowd(c)
	}
	g.bodies()
	for _, e := range r.ends {
		g.end(e)
	}
	for _, n := range r.notes {
		g.note(n)
	}
}

// limitPen draws a limit.
func (r *Ruler) limitPen() layout.Pen {
	return layout.Pen{Width: 1.3, Color: r.theme.Accent, Dash: []layout.Length{4, 2.2}}
}

// x is the place of a value in the frame.
func (g ground) x(v float64) layout.Length {
	return g.frame.X + layout.Length((v-g.rng.GetMin())/g.rng.GetDelta())*g.frame.W
}

// floor is the upper edge of the axis.
func (g ground) floor() layout.Length { return g.frame.Bottom() - axisPen/2 }

// y is the middle of a lane.
func (g ground) y(lane int) layout.Length {
	free := max(g.frame.H-g.BodyHeight(), 0) / layout.Length(g.lanes)
	pitch := g.pitch + min(free, g.pitch/2)
	return g.frame.Bottom() - g.railHeight() - (layout.Length(lane)+0.5)*pitch
}

// hatchPen draws a hatched ground: as thin as gray would look, in ink, which a fax
// and a printer of one color do not break up.
const hatchPen layout.Length = 0.25

// hatchStep is the distance between the lines of a hatched ground.
const hatchStep layout.Length = 6

func (g ground) zones() {
	for i, z := range g.Zones {
		from, to := g.zoneEnds(i)
		area := layout.Rect{X: g.frame.X + from, Y: g.frame.Y, W: to - from, H: g.floor() - g.frame.Y}
		if area.W <= 0 {
			continue
		}
		switch z.Look {
		case Tinted:
			g.s.Fill(layout.RectPath(area), g.theme.Tint)
		case Hatched:
			g.hatch(area)
		}
		if i > 0 && !g.isLimit(area.X) {
			g.s.Stroke(layout.Polyline(layout.Point{X: area.X, Y: g.frame.Y - g.edgeTop(area.X)}, layout.Point{X: area.X, Y: g.floor()}),
				layout.Pen{Width: 0.7, Color: g.theme.Ink})
		}
	}
}

// edgeTop is how far the line between two zones goes up beside its word.
func (g ground) edgeTop(x layout.Length) layout.Length {
	for _, h := range g.head {
		if !h.limit && h.row == 0 && x <= g.frame.X+h.x && g.frame.X+h.x-x <= gap+0.01 {
			return g.headRow()
		}
	}
	return 0
}

// isLimit reports a place at which a limit's line stands.
func (g ground) isLimit(x layout.Length) bool {
	for _, l := range g.Limits {
		if d := g.x(usable(l.Value)) - x; d > -0.5 && d < 0.5 {
			return true
		}
	}
	return false
}

func (g ground) hatch(area layout.Rect) {
	g.s.Clip(layout.RectPath(area), func() {
		g.s.Stroke(layout.Hatching(area, hatchStep, 1), layout.Pen{Width: hatchPen, Color: g.theme.Ink})
	})
}

// base is the line from which bars grow.
func (g ground) base() {
	x := g.x(0)
	g.s.Stroke(layout.Polyline(layout.Point{X: x, Y: g.frame.Y}, layout.Point{X: x, Y: g.floor()}), layout.Pen{Width: 0.7, Color: g.theme.Ink})
}

// bodies draws the bars from zero, each with the stem from its end up to its
// number.
func (g ground) bodies() {
	zero := g.x(0)
	for _, e := range g.ends {
		v := g.Bars[e.bar].Value
		x, y, height := g.x(v), g.floor()-railGap-e.above, e.rail*barShare
		if x != zero {
			g.s.Fill(layout.RectPath(layout.Rect{X: min(zero, x), Y: y - height/2, W: max(zero, x) - min(zero, x), H: height}), g.theme.Ink)
		}
		if !e.crowded {
			g.s.Stroke(layout.Polyline(layout.Point{X: x, Y: g.y(e.lane)}, layout.Point{X: x, Y: y + height/2}), layout.Pen{Width: 0.7, Color: g.theme.Ink})
		}
	}
}

// arrow is the length of the arrow head on a bound.
const arrow layout.Length = 4

// end draws how far a value may lie either way, then the end of its bar.
func (g ground) end(e end) {
	b := g.Bars[e.bar]
	at := layout.Point{X: g.frame.X + e.x, Y: g.y(e.lane)}
	low, high := g.x(b.Low), g.x(b.High)
	if !e.crowded && (low < at.X-e.w/2 || high > at.X+e.w/2) {
		g.s.Stroke(layout.Whisker(low, high, at.Y, 2.5), layout.Pen{Width: 0.9, Color: g.theme.Ink})
	}
	if b.Less {
		g.arrow(at.Add(-b.End.W/2-1, 0), -1)
	}
	if b.More {
		g.arrow(at.Add(b.End.W/2+1, 0), 1)
	}
	if g.PaintEnd != nil {
		g.PaintEnd(g.s, at, e.bar)
	}
}

// arrow says that a value may lie further on: to the right where way is 1.
func (g ground) arrow(at layout.Point, way layout.Length) {
	g.s.Fill(layout.Polygon(at.Add(0, -arrow*0.7), at.Add(way*arrow, 0), at.Add(0, arrow*0.7)), g.theme.Ink)
}

// crowd draws the ground of a crowd: a sheet of paper with a foot to the ends of
// its bars, so that nobody looks for its numbers' places under them.
func (g ground) crowd(c crowd) {
	from, to := g.frame.X+g.ends[c.first].at, g.frame.X+g.ends[c.last].at
	top, bottom := g.y(c.rows-1)-g.pitch/2, g.frame.Bottom()-g.railHeight()
	edge := crowdEdge - 0.5
	left, right := g.frame.X+c.left-edge, g.frame.X+c.right+edge
	from, to = max(from, left), min(to, right)
	sheet := layout.Polygon(layout.Point{X: left, Y: top}, layout.Point{X: right, Y: top}, layout.Point{X: right, Y: bottom},
		layout.Point{X: to, Y: bottom + stemRoom}, layout.Point{X: from, Y: bottom + stemRoom}, layout.Point{X: left, Y: bottom})
	g.s.Fill(sheet, g.theme.Paper)
	g.s.Stroke(sheet, layout.Pen{Width: 0.6, Color: g.theme.Ink})
}

// note sets words on a ground of their own where lines would run through them.
func (g ground) note(n note) {
	face := g.noteFace()
	x, y := g.frame.X+n.x, g.y(n.lane)
	left, right := max(x-gap, g.frame.X), min(x+n.w+gap, g.frame.Right())
	area := layout.Rect{X: left, Y: y - g.pitch/2 + 0.5, W: right - left, H: g.pitch - 1}
	if g.crossed(area) {
		g.s.Fill(layout.RectPath(area), g.theme.Paper)
	}
	layout.TextMiddle(g.s, layout.Point{X: x, Y: y}, layout.Left, n.text, face, g.theme.Ink)
}

// crossed reports an area in which a zone is patterned or tinted, which a fax turns
// into dots, or through which the end of one runs.
func (g ground) crossed(area layout.Rect) bool {
	for i, z := range g.Zones {
		from, to := g.zoneEnds(i)
		if area.X >= g.frame.X+from && area.Right() <= g.frame.X+to && z.Look != Hatched && z.Look != Tinted {
			return false
		}
	}
	return len(g.Zones) > 0
}
