package figure

import (
	"math"
	"slices"
	"strconv"

	"gaugesheet/layout"
)

// holdFrame is the small chart of how the pressure holds after switching off:
// minutes to the right, pressure upwards from zero, the limit as a short line
// where it is to be met. Points whose words have no free place are listed
// under it.
func holdFrame(t layout.Theme, d PressureBand, width, least layout.Length) layout.Frame {
	h := holdChart{t: t, d: d}
	_, h.listed = h.labels(layout.Rect{W: width, H: least})
	chart := layout.Frame{Height: least, Stretch: 20, Draw: h.draw}
	return stack(0, textFrame(t, d.HoldName, layout.Note, t.Muted, width), chart, captionLines(t, h.listed, width, layout.Brief))
}

type holdChart struct {
	t layout.Theme
	d PressureBand

	listed []string // words that stand under the chart
}

type holdLabel struct {
	text string
	area layout.Rect
	ink  layout.Color
}

// A holdScale turns minutes and pressure into places.
type holdScale struct {
	plot         layout.Rect
	minutes, top float64
	yMarks       []float64
	yTexts       []string
}

func (h holdChart) scale(area layout.Rect) holdScale {
	var c holdScale
	points := h.d.Hold
	if h.d.HoldLimit != nil {
		points = append(append([]HoldPoint{}, points...), *h.d.HoldLimit)
	}
	for _, p := range points {
		c.minutes, c.top = max(c.minutes, p.Minutes), max(c.top, p.Value)
	}
	note := h.t.Face(layout.Note)
	c.yMarks, c.yTexts = ticks(0, c.top*1.15, max(1, min(3, int(area.H/20))))
	c.top = c.yMarks[len(c.yMarks)-1]
	if c.minutes <= 0 {
		c.minutes = 1
	}
	var wide layout.Length
	for _, s := range c.yTexts {
		wide = max(wide, h.t.Measurer.Width(s, note))
	}
	left, foot, head := wide+small, lineHeight(note)+small-1, h.t.Measurer.CapHeight(note)+3
	c.plot = layout.Rect{X: area.X + left, Y: area.Y + head, W: area.W - left - medium, H: area.H - foot - head}
	return c
}

func (c holdScale) at(p HoldPoint) layout.Point {
	return layout.Point{
		X: c.plot.X + layout.Length(p.Minutes/c.minutes)*c.plot.W,
		Y: c.plot.Bottom() - layout.Length(p.Value/c.top)*c.plot.H,
	}
}

// labels finds each point's words a place that covers neither other words nor
// the curve: right above, above, below, to the left.
func (h holdChart) labels(area layout.Rect) (placed []holdLabel, listed []string) {
	c := h.scale(area)
	note := h.t.Face(layout.Note)
	var taken []layout.Rect
	for i, p := range h.d.Hold {
		at := c.at(p)
		taken = append(taken, layout.Rect{X: at.X - 2.5, Y: at.Y - 2.5, W: 5, H: 5})
		if i > 0 {
			taken = append(taken, along(c.at(h.d.Hold[i-1]), at)...)
		}
	}
	var limitAt layout.Point
	if h.d.HoldLimit != nil {
		limitAt = c.at(*h.d.HoldLimit)
		taken = append(taken, layout.Rect{X: c.plot.X, Y: limitAt.Y - 0.7, W: limitAt.X - c.plot.X, H: 1.4})
	}
	room := layout.Rect{X: c.plot.X, Y: area.Y, W: area.Right() - c.plot.X, H: c.plot.Bottom() - area.Y}
	place := func(text string, at layout.Point, ink layout.Color) {
		if text == "" {
			return
		}
		w, height := h.t.Measurer.Width(text, note), h.t.Measurer.CapHeight(note)+2
		for _, r := range []layout.Rect{
			{X: at.X - w/2, Y: at.Y - 3 - height}, {X: at.X + 1, Y: at.Y - 3 - height}, {X: at.X + 4, Y: at.Y - height/2}, {X: at.X - w/2, Y: at.Y + 3},
			{X: at.X - w, Y: at.Y - 3 - height}, {X: at.X - w, Y: at.Y + 3}, {X: at.X, Y: at.Y + 3},
		} {
			r.W, r.H = w, height
			if room.Contains(r) && free(r, taken) {
				taken = append(taken, r)
				placed = append(placed, holdLabel{text, r, ink})
				return
			}
		}
		listed = append(listed, text)
	}
	for _, p := range h.d.Hold {
		place(p.Text, c.at(p), h.t.Ink)
	}
	if h.d.HoldLimit != nil {
		place(h.d.HoldLimit.Text, limitAt, h.t.Accent)
	}
	return placed, listed
}

// along covers a straight line with small areas.
func along(a, b layout.Point) []layout.Rect {
	const step = 3
	n := int(math.Hypot(float64(b.X-a.X), float64(b.Y-a.Y))/step) + 1
	areas := make([]layout.Rect, 0, n+1)
	for i := range n + 1 {
		part := layout.Length(i) / layout.Length(n)
		areas = append(areas, layout.Rect{X: a.X + (b.X-a.X)*part - 1, Y: a.Y + (b.Y-a.Y)*part - 1, W: 2, H: 2})
	}
	return areas
}

func free(r layout.Rect, taken []layout.Rect) bool {
	for _, t := range taken {
		if r.Overlaps(t) {
			return false
		}
	}
	return true
}

func (h holdChart) draw(s layout.Surface, area layout.Rect) {
	c := h.scale(area)
	h.drawAxes(s, c)
	if l := h.d.HoldLimit; l != nil {
		at := c.at(*l)
		s.Stroke(layout.Polyline(layout.Point{X: c.plot.X, Y: at.Y}, at),
			layout.Pen{Width: outline, Color: h.t.Accent, Dash: []layout.Length{4, 2}})
	}
	var curve []layout.Point
	for _, p := range h.d.Hold {
		curve = append(curve, c.at(p))
	}
	s.Stroke(layout.Polyline(curve...), layout.Pen{Width: outline, Color: h.t.Ink, Round: true})
	for _, at := range curve {
		drawPointer(s, h.t, at, 2.6)
	}
	// The words were placed for the least height; a higher chart has the same
	// or more room, so they are placed again in it.
	placed, _ := h.labels(area)
	note := h.t.Face(layout.Note)
	for _, l := range placed {
		if slices.Contains(h.listed, l.text) {
			continue
		}
		s.Fill(layout.RectPath(l.area), h.t.Paper)
		s.Text(layout.Point{X: l.area.X, Y: l.area.Bottom() - 1}, l.text, note, l.ink)
	}
}

func (h holdChart) drawAxes(s layout.Surface, c holdScale) {
	note := h.t.Face(layout.Note)
	for i, v := range c.yMarks {
		y := c.at(HoldPoint{Value: v}).Y
		if i > 0 {
			s.Stroke(layout.Polyline(layout.Point{X: c.plot.X, Y: y}, layout.Point{X: c.plot.Right(), Y: y}), layout.Pen{Width: hairline, Color: h.t.Line})
		}
		w := s.Width(c.yTexts[i], note)
		s.Text(layout.Point{X: c.plot.X - small - w, Y: y + s.CapHeight(note)/2}, c.yTexts[i], note, h.t.Muted)
	}
	h.drawMinutes(s, c)
	s.Stroke(layout.Polyline(c.plot.TopLeft(), layout.Point{X: c.plot.X, Y: c.plot.Bottom()},
		layout.Point{X: c.plot.Right(), Y: c.plot.Bottom()}), layout.Pen{Width: outline, Color: h.t.Ink})
}

// drawMinutes marks the minutes at which something was read, the last one
// first, and those before it that leave room for their words.
func (h holdChart) drawMinutes(s layout.Surface, c holdScale) {
	note := h.t.Face(layout.Note)
	marks := []float64{0}
	for _, p := range h.d.Hold {
		marks = append(marks, p.Minutes)
	}
	if h.d.HoldLimit != nil {
		marks = append(marks, h.d.HoldLimit.Minutes)
	}
	slices.Sort(marks)
	marks = slices.Compact(marks)
	free := c.plot.Right() + medium
	for i := len(marks) - 1; i >= 0; i-- {
		x := c.at(HoldPoint{Minutes: marks[i]}).X
		s.Stroke(layout.Polyline(layout.Point{X: x, Y: c.plot.Bottom()}, layout.Point{X: x, Y: c.plot.Bottom() + 3}), layout.Pen{Width: thin, Color: h.t.Ink})
		text := strconv.FormatFloat(marks[i], 'g', 4, 64)
		left := x - s.Width(text, note)/2
		if i == len(marks)-1 {
			text += " min"
			left = min(left, free-s.Width(text, note))
		}
		if left+s.Width(text, note) > free {
			continue
		}
		s.Text(layout.Point{X: left, Y: baseline(s, note, c.plot.Bottom()+small)}, text, note, h.t.Muted)
		free = left - small
	}
}
