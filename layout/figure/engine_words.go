package figure

import "gaugesheet/layout"

// An arrowWord is an arrow with what lies in its direction.
type arrowWord struct {
	to      Direction
	vehicle bool
	text    string
}

// arrowSide is the side of an arrow.
const arrowSide layout.Length = 7

// arrows are those of the vehicle and of the engine; one where the words for
// the engine are none.
func (g *engineDrawing) arrows() []arrowWord {
	var all []arrowWord
	if g.d.Vehicle != Nowhere {
		all = append(all, arrowWord{g.d.Vehicle, true, g.d.VehicleAt})
	}
	if g.d.Engine != Nowhere && g.d.EngineAt != "" {
		all = append(all, arrowWord{g.d.Engine, false, g.d.EngineAt})
	}
	return all
}

func (g *engineDrawing) arrowWidth(a arrowWord) layout.Length {
	return arrowSide + small + g.t.Measurer.Width(a.text, g.label)
}

// draw draws an arrow and its words from the left end of their middle line. It
// has a stem, as no mark has; its head is filled for the vehicle and open for
// the engine.
func (a arrowWord) draw(sf layout.Surface, g *engineDrawing, at layout.Point) {
	drawArrow(sf, g.t, at.Add(arrowSide/2, 0), arrowSide/2-thin, a.to, a.vehicle)
	layout.TextMiddle(sf, at.Add(arrowSide+small, 0), layout.Left, a.text, g.label, g.t.Ink)
}

// drawArrow draws an arrow of half a length about its middle, its head filled
// or open.
func drawArrow(s layout.Surface, t layout.Theme, middle layout.Point, r layout.Length, to Direction, filled bool) {
	turn := [...]float64{Nowhere: 0, Up: 0, Right: 90, Down: 180, Left: 270}[to]
	pen := layout.Pen{Width: outline, Color: t.Ink}
	s.Rotate(turn, middle, func() {
		s.Stroke(layout.Polyline(middle.Add(0, r), middle.Add(0, -0.7*r)), pen)
		if filled {
			s.Fill(layout.Polygon(middle.Add(0, -r), middle.Add(0.8*r, 0.1*r), middle.Add(-0.8*r, 0.1*r)), t.Ink)
			return
		}
		s.Stroke(layout.Polyline(middle.Add(-0.7*r, 0), middle.Add(0, -0.8*r), middle.Add(0.7*r, 0)), pen)
	})
}

// topLine is the height of the words over an engine: the arrows, and the names
// of two banks that stand left and right of the middle.
func (g *engineDrawing) topLine(banks bool) layout.Length {
	lines := g.topWords(banks)
	h := layout.Length(len(lines.arrows)) * lineHeight(g.label)
	if names := max(len(lines.left), len(lines.right)); names > 0 {
		if lines.beside && h > 0 {
			names--
		}
		h += layout.Length(names) * lineHeight(g.label)
	}
	return h
}

// topLines are the words over an engine: arrows on a line, the banks' names at
// both sides of it or, where they have no room there, on the next.
type topLines struct {
	arrows      [][]arrowWord
	left, right []string
	beside      bool
}

func (g *engineDrawing) topWords(banks bool) topLines {
	var l topLines
	room := g.width
	if banks {
		room = g.width / 2
	}
	used := layout.Length(0)
	arrows := g.arrows()
	if g.arrowsInHeading {
		arrows = nil
	}
	for _, a := range arrows {
		w := g.arrowWidth(a)
		if len(l.arrows) == 0 || used+wide+w > room-small {
			l.arrows, used = append(l.arrows, nil), -wide
		}
		last := len(l.arrows) - 1
		l.arrows[last] = append(l.arrows[last], a)
		used += wide + w
	}
	if !banks {
		return l
	}
	left, right := g.bankNames()
	m := g.t.Measurer
	l.beside = len(l.arrows) < 2 && m.Width(left, g.label) <= room-wide-arrowSide && m.Width(right, g.label) <= room-max(used, 0)-2*wide
	if l.beside {
		l.left, l.right = []string{left}, []string{right}
		return l
	}
	l.left, l.right = breakLines(m, left, g.label, room-medium), breakLines(m, right, g.label, room-medium)
	return l
}

// bankNames are the names of the left and the right bank.
func (g *engineDrawing) bankNames() (left, right string) {
	a, b := g.d.Banks[0], g.d.Banks[1]
	if g.d.Cylinders[a.Cylinders[0]].X > g.d.Cylinders[b.Cylinders[0]].X {
		a, b = b, a
	}
	return a.Text, b.Text
}

// drawTopLine draws the words over an engine whose middle is at x.
func (g *engineDrawing) drawTopLine(sf layout.Surface, area layout.Rect, x layout.Length, banks bool) {
	l := g.topWords(banks)
	y, end := area.Y+lineHeight(g.label)/2, x+wide
	for i, line := range l.arrows {
		if i > 0 {
			y += lineHeight(g.label)
		}
		w := -wide
		for _, a := range line {
			w += wide + g.arrowWidth(a)
		}
		end = max(area.X, min(x-arrowSide/2, area.Right()-w))
		for _, a := range line {
			a.draw(sf, g, layout.Point{X: end, Y: y})
			end += g.arrowWidth(a) + wide
		}
	}
	from, to := x-medium, x+medium
	switch {
	case l.beside:
		from, to = x-wide, max(end, x+wide)
	case len(l.arrows) > 0:
		y += lineHeight(g.label)
	}
	for i, line := range l.left {
		layout.TextMiddle(sf, layout.Point{X: from, Y: y + layout.Length(i)*lineHeight(g.label)}, layout.Right, line, g.label, g.t.Ink)
	}
	for i, line := range l.right {
		layout.TextMiddle(sf, layout.Point{X: to, Y: y + layout.Length(i)*lineHeight(g.label)}, layout.Left, line, g.label, g.t.Ink)
	}
}

// A plugText is the word for a plug as it is set: its mark and its lines.
type plugText struct {
	mark  Mark
	face  layout.Face
	lines []string
	width layout.Length
}

// plugWords sets the word for a plug in a width.
func (g *engineDrawing) plugWords(c *Cylinder, width layout.Length) plugText {
	p := plugText{mark: c.Plug.Mark, face: g.plugFace(c)}
	if p.mark != NoMark {
		width -= markSize(g.t, g.label) + small
	}
	p.lines = breakLines(g.t.Measurer, c.Plug.Text, p.face, max(width, p.face.Size))
	for _, l := range p.lines {
		p.width = max(p.width, g.t.Measurer.Width(l, p.face))
	}
	if p.mark != NoMark {
		p.width += markSize(g.t, g.label)
		if len(p.lines) > 0 {
			p.width += small
		}
	}
	return p
}

// draw draws the words from a point on their middle line: to the right of it
// where way is 1, to the left where it is -1, about it where it is 0.
func (p plugText) draw(sf layout.Surface, t layout.Theme, at layout.Point, way layout.Length) {
	switch way {
	case -1:
		at.X -= p.width
	case 0:
		at.X -= p.width / 2
	}
	at.Y -= layout.Length(max(len(p.lines), 1)-1) * lineHeight(p.face) / 2
	if p.mark != NoMark {
		size := markSize(t, p.face)
		DrawMark(sf, t, p.mark, at.Add(size/2, 0), size)
		at.X += size + small
	}
	for i, l := range p.lines {
		layout.TextMiddle(sf, at.Add(0, layout.Length(i)*lineHeight(p.face)), layout.Left, l, p.face, t.Ink)
	}
}
