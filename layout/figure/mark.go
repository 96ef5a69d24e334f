package figure

import "gaugesheet/layout"

// markSize is the side of a mark beside text of a face: a little over the
// height of its capitals.
func markSize(t layout.Theme, f layout.Face) layout.Length {
	return t.Measurer.CapHeight(f) * 1.25
}

// DrawMark draws a mark in a square of the given side about a point. The
// marks differ in outline and in how much of them is ink, so that neither a
// grey printer nor any eye mixes them up.
func DrawMark(s layout.Surface, t layout.Theme, m Mark, at layout.Point, size layout.Length) {
	r := size / 2
	line := layout.Pen{Width: max(size*0.15, thin), Color: t.Ink, Round: true}
	fine := layout.Pen{Width: max(size*0.11, thin), Color: t.Ink, Round: true}
	switch m {
	case Good:
		s.Stroke(layout.Polyline(at.Add(-0.80*r, 0.05*r), at.Add(-0.25*r, 0.70*r), at.Add(0.85*r, -0.72*r)), line)
	case Notice:
		s.Fill(layout.Circle(at, 0.62*r), t.Ink)
	case Act:
		s.Fill(triangle(at, r, 1), t.Ink)
	case High:
		s.Stroke(triangle(at, 0.86*r, -1), fine)
	case Stop:
		s.Fill(octagon(at, r), t.Ink)
		s.Fill(layout.RectPath(layout.Rect{X: at.X - 0.58*r, Y: at.Y - 0.17*r, W: 1.16 * r, H: 0.34 * r}), t.Paper)
	case Edge:
		s.Stroke(wave(at.Add(0, -0.34*r), r), line)
		s.Stroke(wave(at.Add(0, 0.34*r), r), line)
	case NotTested:
		s.Stroke(layout.Circle(at, 0.68*r), fine)
	case NotJudged:
		drawNotJudged(s, t, at, r, fine)
	}
}

// triangle points down where way is 1 and up where it is -1.
func triangle(at layout.Point, r, way layout.Length) layout.Path {
	return layout.Polygon(at.Add(-0.92*r, -0.72*r*way), at.Add(0.92*r, -0.72*r*way), at.Add(0, 0.88*r*way))
}

func octagon(at layout.Point, r layout.Length) layout.Path {
	k := r * 0.4142 // tan 22.5 degrees
	return layout.Polygon(
		at.Add(-k, -r), at.Add(k, -r), at.Add(r, -k), at.Add(r, k),
		at.Add(k, r), at.Add(-k, r), at.Add(-r, k), at.Add(-r, -k))
}

func wave(at layout.Point, r layout.Length) layout.Path {
	h := 0.46 * r
	return layout.Path{}.MoveTo(at.Add(-0.85*r, h/3)).
		CubicTo(at.Add(-0.45*r, -h), at.Add(-0.30*r, -h), at).
		CubicTo(at.Add(0.30*r, h), at.Add(0.45*r, h), at.Add(0.85*r, -h/3))
}

// drawNotJudged draws an open square with a question mark in it.
func drawNotJudged(s layout.Surface, t layout.Theme, at layout.Point, r layout.Length, pen layout.Pen) {
	side := 0.84 * r
	s.Stroke(layout.RectPath(layout.Rect{X: at.X - side, Y: at.Y - side, W: 2 * side, H: 2 * side}), pen)
	hook := layout.Arc(at.Add(0, -0.22*r), 0.27*r, 180, 225)
	hook = hook.LineTo(at.Add(0, 0.24*r))
	s.Stroke(hook, layout.Pen{Width: pen.Width * 0.9, Color: t.Ink, Round: true})
	s.Fill(layout.Circle(at.Add(0, 0.52*r), max(pen.Width*0.6, 0.4)), t.Ink)
}
