package figure

import "gaugesheet/layout"

// Sizes of an arrow with its words.
const (
	arrowSize layout.Length = 7
	arrowGap  layout.Length = 4
)

// An arrowWords is an arrow with the words that say what lies there.
type arrowWords struct {
	at      Direction
	lines   []string
	width   layout.Length // of the lines
	vehicle bool
}

// arrows is a strip with the arrows of some directions: left at the left end,
// right at the right end, up and down in the middle; under one another where
// they are too long for one line.
func (p planDrawing) arrows(width layout.Length, ds ...Direction) layout.Frame {
	var all []arrowWords
	for _, d := range ds {
		if a, ok := p.arrowAt(d, width); ok {
			all = append(all, a)
		}
	}
	if len(all) == 0 {
		return empty()
	}
	if !oneLine(all, width) {
		var rows []layout.Frame
		for _, a := range all {
			rows = append(rows, p.arrowRow(width, a))
		}
		return inset(stack(tight, rows...), 0, 0, tight, 0)
	}
	return inset(p.arrowRow(width, all...), 0, 0, tight, 0)
}

// arrowAt gives the arrow of a direction; ok is false where there is none.
func (p planDrawing) arrowAt(d Direction, width layout.Length) (a arrowWords, ok bool) {
	vehicle, engine := p.plan.Vehicle == d, p.plan.Engine == d
	words := ""
	switch {
	case vehicle && engine:
		words = join(p.plan.VehicleAt, p.plan.EngineAt)
	case vehicle:
		words = p.plan.VehicleAt
	case engine:
		words = p.plan.EngineAt
	default:
		return a, false
	}
	face := p.t.Face(layout.Label)
	a = arrowWords{at: d, vehicle: vehicle, lines: breakLines(p.t.Measurer, words, face, width-arrowSize-arrowGap)}
	for _, l := range a.lines {
		a.width = max(a.width, p.t.Measurer.Width(l, face))
	}
	return a, true
}

// left is where the arrow or its words begin in a strip.
func (a arrowWords) left(width layout.Length) layout.Length {
	free := width - a.width - arrowSize - arrowGap
	switch a.at {
	case Left:
		return 0
	case Right:
		return free
	}
	return free / 2
}

// oneLine reports whether the arrows go beside one another.
func oneLine(all []arrowWords, width layout.Length) bool {
	for i, a := range all {
		for _, b := range all[:i] {
			x, y := a.left(width), b.left(width)
			if x < y+b.width+arrowSize+arrowGap+medium && y < x+a.width+arrowSize+arrowGap+medium {
				return false
			}
		}
	}
	return true
}

func (p planDrawing) arrowRow(width layout.Length, all ...arrowWords) layout.Frame {
	face := p.t.Face(layout.Label)
	most := 1
	for _, a := range all {
		most = max(most, len(a.lines))
	}
	return layout.Frame{Height: layout.Length(most) * lineHeight(face), Draw: func(s layout.Surface, area layout.Rect) {
		for _, a := range all {
			head, text := area.X+a.left(width), area.X+a.left(width)+arrowSize+arrowGap
			if a.at == Right {
				text, head = head, head+a.width+arrowGap
			}
			middle := baseline(s, face, area.Y) - s.CapHeight(face)/2
			drawArrow(s, p.t, layout.Point{X: head + arrowSize/2, Y: middle}, arrowSize, a.at, a.vehicle)
			for i, l := range a.lines {
				s.Text(layout.Point{X: text, Y: baseline(s, face, area.Y+layout.Length(i)*lineHeight(face))}, l, face, p.t.Ink)
			}
		}
	}}
}

// drawArrow draws an arrow head, filled for the vehicle and outlined for the
// engine.
func drawArrow(s layout.Surface, t layout.Theme, at layout.Point, size layout.Length, d Direction, filled bool) {
	turn := map[Direction]float64{Up: 0, Right: 90, Down: 180, Left: 270}[d]
	r := size/2 - thin
	head := layout.Polygon(at.Add(0, -r), at.Add(0.85*r, r), at.Add(0, 0.55*r), at.Add(-0.85*r, r))
	s.Rotate(turn, at, func() {
		if filled {
			s.Fill(head, t.Ink)
			return
		}
		s.Stroke(head, layout.Pen{Width: thin, Color: t.Ink})
	})
}
