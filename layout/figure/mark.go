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
	case Within:
		s.Stroke(layout.Polyline(at.Add(-0.80*r, 0.05*r), at.Add(-0.25*r, 0.70*r), at.Add(0.85*r, -0.72*r)), line)
	case Low:
		s.Fill(triangle(at, r, 1), t.Ink)
	case High:
		s.Fill(triangle(at, r, -1), t.Ink)
	case TooClose:
		s.Stroke(wave(at.Add(0, -0.34*r), r), line)
		s.Stroke(wave(at.Add(0, 0.34*r), r), line)
	case LookAgain:
		s.Fill(layout.Circle(at, 0.68*r), t.Ink)
	case NotTested:
		s.Stroke(layout.Circle(at, 0.68*r), fine)
	case CouldNot:
		s.Stroke(layout.Circle(at, 0.68*r), fine)
		s.Stroke(layout.Polyline(at.Add(-0.48*r, 0.48*r), at.Add(0.48*r, -0.48*r)), fine)
	case Declined:
		s.Stroke(layout.Polyline(at.Add(-0.8*r, 0), at.Add(0.8*r, 0)), line)
	}
}

// triangle points down where way is 1 and up where it is -1.
func triangle(at layout.Point, r, way layout.Length) layout.Path {
	return layout.Polygon(at.Add(-0.92*r, -0.72*r*way), at.Add(0.92*r, -0.72*r*way), at.Add(0, 0.88*r*way))
}

func wave(at layout.Point, r layout.Length) layout.Path {
	h := 0.46 * r
	return layout.Path{}.MoveTo(at.Add(-0.85*r, h/3)).
		CubicTo(at.Add(-0.45*r, -h), at.Add(-0.30*r, -h), at).
		CubicTo(at.Add(0.30*r, h), at.Add(0.45*r, h), at.Add(0.85*r, -h/3))
}
