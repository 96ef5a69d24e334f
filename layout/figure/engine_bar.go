package figure

import "gaugesheet/layout"

// drawBar draws a bar about a middle. A reading of zero is a thick line at
// zero, and never longer than one above it.
func (s *slot) drawBar(sf layout.Surface, t layout.Theme, b *CylinderBar, middle, thick layout.Length) {
	if b.Text == "" || s.length <= 0 {
		return
	}
	end := s.at(b.Value)
	if end != s.zero {
		paintBar(sf, t, b, s, s.box(s.zero, end, middle, thick))
	} else {
		sf.Stroke(layout.Polyline(s.point(s.zero, middle-thick/2), s.point(s.zero, middle+thick/2)), layout.Pen{Width: 2.4, Color: t.Ink})
	}
	if b.Upto > b.Value {
		open := layout.RectPath(s.box(end, s.at(b.Upto), middle, thick))
		sf.Stroke(open, layout.Pen{Width: outline, Color: t.Ink, Dash: []layout.Length{2, 1.5}})
	}
	if b.Open {
		s.drawOpenEnd(sf, t, end, middle, thick)
	}
}

// paintBar paints the bar. An open one has no line at its end.
func paintBar(sf layout.Surface, t layout.Theme, b *CylinderBar, s *slot, box layout.Rect) {
	path := layout.RectPath(box)
	if !b.Open {
		PaintTone(sf, t, b.Tone, path)
		return
	}
	sf.Fill(path, toneBody(t, b.Tone))
	paintPattern(sf, t, b.Tone, path)
	end, middle, half := s.at(b.Value), box.Center().X, box.W/2
	if s.across {
		middle, half = box.Center().Y, box.H/2
	}
	for _, side := range []layout.Length{-half, half} {
		sf.Stroke(layout.Polyline(s.point(s.zero, middle+side), s.point(end, middle+side)), tonePen(t, b.Tone))
	}
}

// drawOpenEnd draws an arrow head at the end of a bar that may go on.
func (s *slot) drawOpenEnd(sf layout.Surface, t layout.Theme, end, middle, thick layout.Length) {
	h := min(thick/2, 4)
	head := layout.Polyline(s.point(end-s.sign*h, middle-thick/2), s.point(end, middle), s.point(end-s.sign*h, middle+thick/2))
	sf.Stroke(head, layout.Pen{Width: outline, Color: t.Ink})
}

// markRadius is half the height of a mark on a bar.
const markRadius layout.Length = 2.6

// drawMarkShape draws one of the open marks about a point.
func drawMarkShape(sf layout.Surface, t layout.Theme, shape MarkShape, at layout.Point) {
	r := markRadius
	path := layout.Polygon(at.Add(0, -r), at.Add(1.15*r, 0.85*r), at.Add(-1.15*r, 0.85*r))
	if shape == Diamond {
		path = layout.Polygon(at.Add(0, -1.2*r), at.Add(r, 0), at.Add(0, 1.2*r), at.Add(-r, 0))
	}
	sf.Fill(path, t.Paper)
	sf.Stroke(path, layout.Pen{Width: 0.8, Color: t.Ink})
}

// markStrip is the room beside a bar that a mark takes with its value.
func markStrip(t layout.Theme) layout.Length {
	return t.Measurer.CapHeight(tickFace(t)) + 2.6
}

// markRoom is the room that a mark takes with its value along bars that run
// across.
func markRoom(t layout.Theme, text string) layout.Length {
	return markRadius*1.15 + tight + t.Measurer.Width(text, tickFace(t)) + tight
}

// drawMarks draws the marks on a bar that runs across, under it; with their
// values where there is room.
func (s *slot) drawMarks(sf layout.Surface, t layout.Theme, b *CylinderBar, middle, thick layout.Length, valued bool) {
	if s.length <= 0 {
		return
	}
	y := middle + thick/2 + 0.5
	if valued {
		y = middle + thick/2 + markStrip(t)/2 + 0.3
	}
	for i, m := range b.Marks {
		at := layout.Point{X: s.at(m.Value), Y: y}
		if out := s.outward(b.Marks, i); valued && (out || s.part(m.Value)*s.length >= markRoom(t, m.Text)) {
			s.drawMarkValue(sf, t, m.Text, at, out)
		}
		drawMarkShape(sf, t, m.Shape, at)
	}
}

// outward reports whether the value of a mark stands away from zero: that of
// the farthest does, that of another one toward zero.
func (s *slot) outward(all []BarMark, i int) bool {
	here := s.part(all[i].Value)
	for j, m := range all {
		if there := s.part(m.Value); there > here || there == here && j < i {
			return false
		}
	}
	return true
}

func (s *slot) drawMarkValue(sf layout.Surface, t layout.Theme, text string, at layout.Point, outward bool) {
	face := tickFace(t)
	way := s.sign
	if !outward {
		way = -way
	}
	x, w := at.X+way*(markRadius*1.15+tight), sf.Width(text, face)
	if way < 0 {
		x -= w
	}
	patch(sf, t, layout.Rect{X: x, Y: at.Y - sf.CapHeight(face)/2, W: w, H: sf.CapHeight(face)})
	layout.TextMiddle(sf, layout.Point{X: x, Y: at.Y}, layout.Left, text, face, t.Ink)
}

// patch clears the paper under words that stand on a grid.
func patch(sf layout.Surface, t layout.Theme, area layout.Rect) {
	sf.Fill(layout.RectPath(area.InsetXY(-1, -0.8)), t.Paper)
}
