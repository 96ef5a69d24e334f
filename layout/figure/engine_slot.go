package figure

import (
	"math"

	"gaugesheet/layout"
)

// A slot is the place of a scale on the page: bars side by side that grow one
// way from a common zero.
type slot struct {
	scale  *EngineScale
	top    float64       // value at the far end
	across bool          // bars run across the page, else up and down
	sign   layout.Length // 1 to the right or down, -1 to the left or up
	zero   layout.Length // where the bars begin
	length layout.Length // of the scale
	from   layout.Length // extent of the grid at right angles to the bars
	to     layout.Length
}

// topOf is the value at the far end of a scale: a little beyond the highest
// that is drawn on it.
func topOf(d *EnginePlan, scale int) float64 {
	top := finite(d.Scales[scale].Least)
	for _, l := range d.Scales[scale].Limits {
		top = max(top, finite(l.Value))
	}
	for i := range d.Cylinders {
		for _, b := range barsOf(&d.Cylinders[i], scale) {
			top = max(top, finite(b.Value), finite(b.Upto))
			for _, m := range b.Marks {
				top = max(top, finite(m.Value))
			}
		}
	}
	if top <= 0 {
		return 1
	}
	return top * 1.02
}

// barsOf are a cylinder's bars on a scale: one, or one for each face.
func barsOf(c *Cylinder, scale int) []CylinderBar {
	if scale == 0 && len(c.Faces) > 0 {
		bars := make([]CylinderBar, len(c.Faces))
		for i, f := range c.Faces {
			bars[i] = f.Bar
		}
		return bars
	}
	if scale < len(c.Bars) {
		return c.Bars[scale : scale+1]
	}
	return nil
}

// finite is a value that can be drawn: never below zero, and zero where it is
// no number.
func finite(v float64) float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) || v < 0 {
		return 0
	}
	return v
}

// part is how far along the scale a value lies.
func (s *slot) part(v float64) layout.Length { return layout.Length(finite(v) / s.top) }

func (s *slot) at(v float64) layout.Length { return s.zero + s.sign*s.part(v)*s.length }

// point is the place at a distance along the bars and one at right angles.
func (s *slot) point(along, beside layout.Length) layout.Point {
	if s.across {
		return layout.Point{X: along, Y: beside}
	}
	return layout.Point{X: beside, Y: along}
}

// box is the area between two distances along the bars, about a middle.
func (s *slot) box(a, b, middle, thick layout.Length) layout.Rect {
	if a > b {
		a, b = b, a
	}
	if s.across {
		return layout.Rect{X: a, Y: middle - thick/2, W: b - a, H: thick}
	}
	return layout.Rect{X: middle - thick/2, Y: a, W: thick, H: b - a}
}

// farEnd is how far out a bar is drawn, in parts of the scale, with the limits
// beyond its end that its words must not stand on.
func (s *slot) farEnd(b *CylinderBar) layout.Length {
	end := max(s.part(b.Value), s.part(b.Upto))
	far := end
	for _, l := range s.limits() {
		if p := s.part(l.Value); p > end {
			far = max(far, p)
		}
	}
	return far
}

// limits are those that are drawn: two lines are told apart, more are not.
func (s *slot) limits() []EngineLimit {
	return s.scale.Limits[:min(2, len(s.scale.Limits))]
}

// limitDashes are the two lines, in their order.
var limitDashes = [2][]layout.Length{{4, 2}, {1.2, 1.4}}

func limitPen(t layout.Theme, i int) layout.Pen {
	return layout.Pen{Width: 1.1, Color: t.Accent, Dash: limitDashes[i]}
}

// A need is room beyond a place on the scale that words take.
type need struct {
	part  layout.Length // of the scale's length
	extra layout.Length
}

// scaleLength is how long a scale can be in a room so that each need has its
// place.
func scaleLength(room layout.Length, needs []need) layout.Length {
	length := room
	for _, n := range needs {
		if n.part > 0 {
			length = min(length, (room-n.extra)/n.part)
		}
	}
	return max(length, 0)
}

// tickFace is the type of the numbers along a scale.
func tickFace(t layout.Theme) layout.Face { return t.Face(layout.Note) }

func limitFace(t layout.Theme) layout.Face {
	f := t.Face(layout.Note)
	f.Weight = layout.Bold
	return f
}

// mostTicks is how many round values a scale has at most, about.
const mostTicks = 4

// ticks are the round values along the scale that have room beside one
// another, without zero: as many as have, since a bar on a scale of which only zero is
// said cannot be read.
func (s *slot) ticks(m layout.Measurer, f layout.Face) (values []float64, texts []string) {
	size := f.Size * 1.7
	if s.across {
		_, wide := ticks(0, s.top, mostTicks)
		size = m.Width(wide[len(wide)-1], f) + medium
	}
	for about := mostTicks; about > 0; about-- {
		all, said := ticks(0, s.top, about)
		if len(all) < 2 || s.part(all[1]-all[0])*s.length < size {
			continue
		}
		for i, v := range all {
			if v > 0 && v <= s.top {
				values, texts = append(values, v), append(texts, said[i])
			}
		}
		return values, texts
	}
	return nil, nil
}

// drawGrid draws zero and the round values, with their numbers below bars that
// run across, and to the left of those that stand.
func (s *slot) drawGrid(sf layout.Surface, t layout.Theme) {
	if s.length <= 0 {
		return
	}
	face := tickFace(t)
	values, texts := s.ticks(sf, face)
	for i, v := range values {
		x := s.at(v)
		sf.Stroke(layout.Polyline(s.point(x, s.from), s.point(x, s.to)), layout.Pen{Width: hairline, Color: t.Line})
		s.tickText(sf, t, face, x, texts[i])
	}
	sf.Stroke(layout.Polyline(s.point(s.zero, s.from), s.point(s.zero, s.to)), layout.Pen{Width: outline, Color: t.Ink})
	s.tickText(sf, t, face, s.zero, "0")
}

func (s *slot) tickText(sf layout.Surface, t layout.Theme, f layout.Face, along layout.Length, text string) {
	if s.across {
		sf.Text(layout.Point{X: along - sf.Width(text, f)/2, Y: s.to + tight + sf.CapHeight(f)}, text, f, t.Ink)
		return
	}
	layout.TextMiddle(sf, layout.Point{X: s.from - small, Y: along}, layout.Right, text, f, t.Ink)
}

// overshoot is how far a limit's line reaches beyond the grid, toward its value.
// At the numbers of the scale it ends with the grid, or it would strike one out.
const overshoot layout.Length = 2

// drawLimits draws the limits across the bars, with their values at the far
// side from the numbers of the scale. Where two stand close, their values
// move apart.
func (s *slot) drawLimits(sf layout.Surface, t layout.Theme) {
	if s.length <= 0 {
		return
	}
	face := limitFace(t)
	var at [2]layout.Length
	limits := s.limits()
	for i, l := range limits {
		at[i] = s.at(l.Value)
		from, to := s.from, s.to+overshoot
		if s.across {
			from, to = s.from-overshoot, s.to
		}
		sf.Stroke(layout.Polyline(s.point(at[i], from), s.point(at[i], to)), limitPen(t, i))
	}
	if len(limits) == 2 {
		apart := sf.CapHeight(face) + tight
		if s.across {
			apart = (sf.Width(limits[0].Label, face)+sf.Width(limits[1].Label, face))/2 + small
		}
		moveApart(&at, apart)
	}
	for i, l := range limits {
		if s.across {
			sf.Text(layout.Point{X: at[i] - sf.Width(l.Label, face)/2, Y: s.from - overshoot - tight}, l.Label, face, t.Ink)
			continue
		}
		layout.TextMiddle(sf, layout.Point{X: s.to + overshoot + tight, Y: at[i]}, layout.Left, l.Label, face, t.Ink)
	}
}

// moveApart moves two places apart about their middle.
func moveApart(at *[2]layout.Length, apart layout.Length) {
	low, high := 0, 1
	if at[0] > at[1] {
		low, high = 1, 0
	}
	if more := apart - (at[high] - at[low]); more > 0 {
		at[low] -= more / 2
		at[high] += more / 2
	}
}

// limitNeeds is the room that the limits' values take at bars that run across.
func (s *slot) limitNeeds(t layout.Theme) []need {
	var needs []need
	face := limitFace(t)
	both := layout.Length(0)
	for _, l := range s.limits() {
		w := t.Measurer.Width(l.Label, face)
		both += w
		needs = append(needs, need{s.part(l.Value), w/2 + tight})
	}
	if len(needs) == 2 {
		for i := range needs {
			needs[i].extra = both/2 + small
		}
	}
	return needs
}
