package figure

import (
	"math"
	"slices"

	"gaugesheet/layout"
)

// endHeight is the height of the ends of the block: the one that drives the
// pulleys and the one at the gearbox.
const endHeight = 3 * layout.MM

// above is what stands over the bores: the arrow to the front, the names of
// the banks, the pulley end.
func (p penPlan) above(width layout.Length) layout.Frame {
	face := p.t.Face(layout.Note)
	var rows []layout.Frame
	switch {
	case p.d.Front == "":
	case p.d.Ring:
		rows = append(rows, balanced(p.t, p.d.Front, layout.Label, p.t.Ink, width))
	default:
		at := Up
		if p.turned {
			at = Left
		}
		rows = append(rows, p.arrow(p.d.Front, at, width))
	}
	if p.d.VehicleAt != Nowhere && p.d.Vehicle != "" {
		rows = append(rows, p.arrow(p.d.Vehicle, p.d.VehicleAt, width))
	}
	if len(p.d.Banks) == 2 && !p.turned {
		banks := slices.Clone(p.d.Banks)
		slices.SortStableFunc(banks, func(a, b BankLabel) int {
			return int(math.Copysign(1, p.middleOf(a.Cylinders)-p.middleOf(b.Cylinders)))
		})
		half := (width - small) / 2
		left, right := breakLines(p.t.Measurer, banks[0].Text, face, half), breakLines(p.t.Measurer, banks[1].Text, face, half)
		n := max(len(left), len(right))
		rows = append(rows, layout.Frame{Height: layout.Length(n) * lineHeight(face), Draw: func(s layout.Surface, a layout.Rect) {
			for i := range n {
				y := baseline(s, face, a.Y+layout.Length(i)*lineHeight(face))
				if i < len(left) {
					s.Text(layout.Point{X: a.X, Y: y}, left[i], face, p.t.Ink)
				}
				if i < len(right) {
					layout.TextAt(s, layout.Point{X: a.X + width, Y: y}, layout.Right, right[i], face, p.t.Ink)
				}
			}
		}})
	}
	return stack(0, append(rows, space(p.below()))...)
}

// below is the room for an end of the block.
func (p penPlan) below() layout.Length {
	if p.d.Ring {
		return tight
	}
	return endHeight
}

// arrow is words behind an arrow, in the middle.
func (p penPlan) arrow(words string, d Direction, width layout.Length) layout.Frame {
	face := p.t.Face(layout.Label)
	const size, gap = 8, 3
	lines := breakLines(p.t.Measurer, words, face, width-size-gap)
	return layout.Frame{Height: layout.Length(len(lines)) * lineHeight(face), Draw: func(s layout.Surface, a layout.Rect) {
		x := a.X + (width-size-gap-s.Width(lines[0], face))/2
		for i, l := range lines {
			y := baseline(s, face, a.Y+layout.Length(i)*lineHeight(face))
			s.Text(layout.Point{X: x + size + gap, Y: y}, l, face, p.t.Ink)
		}
		penArrow(s, p.t, layout.Point{X: x + size/2, Y: baseline(s, face, a.Y) - s.CapHeight(face)/2}, size, d)
	}}
}

// penArrow is a filled arrow head.
func penArrow(s layout.Surface, t layout.Theme, at layout.Point, size layout.Length, d Direction) {
	r := size / 2
	head := layout.Polygon(at.Add(0, -r), at.Add(0.9*r, 0.8*r), at.Add(-0.9*r, 0.8*r))
	s.Rotate(map[Direction]float64{Up: 0, Right: 90, Down: 180, Left: 270}[d], at, func() { s.Fill(head, t.Ink) })
}

// middleOf is the x of the middle of some cylinders.
func (p penPlan) middleOf(some []int) (x float64) {
	for _, i := range some {
		x += p.d.Cylinders[i].X / float64(len(some))
	}
	return x
}

func (p penPlan) draw(s layout.Surface, at layout.Point, room layout.Size) {
	t := p.t
	wall := p.placed.bore/2 + penHeadWall
	place := func(pt layout.Point) layout.Point { return at.Add(pt.X, pt.Y) }
	if !p.d.Ring {
		p.drawBlock(s, p.around(allOf(p.placed.bores), wall, place))
	} else {
		s.Stroke(layout.Circle(at.Add(room.W/2, room.H/2), 7*layout.MM), layout.Pen{Width: thin, Color: t.Ink})
	}
	for _, head := range p.d.Heads {
		if !p.d.Rotors && !p.d.Ring {
			outline := layout.RoundRect(p.around(head, wall, place), wall*0.5)
			s.Fill(outline, t.Paper)
			s.Stroke(outline, layout.Pen{Width: outlinePen, Color: t.Ink})
		}
	}
	for i, c := range p.d.Cylinders {
		middle := place(p.placed.bores[i])
		if p.d.Rotors {
			penRotor(s, t, middle, p.placed.bore/2)
		} else {
			s.Fill(layout.Circle(middle, p.placed.bore/2), t.Paper)
			s.Stroke(layout.Circle(middle, p.placed.bore/2), layout.Pen{Width: outlinePen, Color: t.Ink})
		}
		penTab(s, t, c.Number, place(p.placed.tabs[i]), p.tabs[i])
	}
}

// outlinePen is the line of what the engine is drawn with on a bench sheet.
const outlinePen = 1.2

// allOf are the indices of a list.
func allOf[T any](list []T) []int {
	all := make([]int, len(list))
	for i := range all {
		all[i] = i
	}
	return all
}

// around is the area of some bores with a wall around them.
func (p penPlan) around(some []int, wall layout.Length, place func(layout.Point) layout.Point) layout.Rect {
	first := place(p.placed.bores[some[0]])
	x0, y0, x1, y1 := first.X, first.Y, first.X, first.Y
	for _, i := range some {
		at := place(p.placed.bores[i])
		x0, y0, x1, y1 = min(x0, at.X), min(y0, at.Y), max(x1, at.X), max(y1, at.Y)
	}
	return layout.Rect{X: x0 - wall, Y: y0 - wall, W: x1 - x0 + 2*wall, H: y1 - y0 + 2*wall}
}

// drawBlock draws the block under the heads: its pulley end up, its gearbox end
// down.
func (p penPlan) drawBlock(s layout.Surface, r layout.Rect) {
	t := p.t
	pen := layout.Pen{Width: outline, Color: t.Ink}
	s.Fill(layout.RectPath(r), t.Paper)
	s.Stroke(layout.RectPath(r), pen)
	if p.turned {
		return
	}
	front, rear := r.W*0.22, r.W*0.1
	pulley := layout.Rect{X: r.X + r.W*0.36, Y: r.Y - endHeight + 0.6, W: r.W * 0.28, H: endHeight * 0.45}
	nose := layout.Polygon(layout.Point{X: r.X, Y: r.Y}, layout.Point{X: r.X + front, Y: pulley.Bottom()},
		layout.Point{X: r.Right() - front, Y: pulley.Bottom()}, layout.Point{X: r.Right(), Y: r.Y})
	bell := layout.Polygon(layout.Point{X: r.X, Y: r.Bottom()}, layout.Point{X: r.X + rear, Y: r.Bottom() + endHeight - 0.6},
		layout.Point{X: r.Right() - rear, Y: r.Bottom() + endHeight - 0.6}, layout.Point{X: r.Right(), Y: r.Bottom()})
	for _, path := range []layout.Path{nose, bell, layout.RectPath(pulley)} {
		s.Fill(path, t.Paper)
		s.Stroke(path, pen)
	}
}

// penRotor is a rotor in its housing, end on.
func penRotor(s layout.Surface, t layout.Theme, at layout.Point, r layout.Length) {
	s.Fill(layout.Circle(at, r), t.Paper)
	s.Stroke(layout.Circle(at, r), layout.Pen{Width: heavy, Color: t.Ink})
	var corners []layout.Point
	for k := range 3 {
		sin, cos := math.Sincos(float64(k)*2*math.Pi/3 - math.Pi/2)
		corners = append(corners, at.Add(r*0.86*layout.Length(cos), r*0.86*layout.Length(sin)))
	}
	s.Stroke(layout.Polygon(corners...), layout.Pen{Width: outline, Color: t.Ink})
}

// penTab draws a cylinder's number in its tab, or an empty tab.
func penTab(s layout.Surface, t layout.Theme, number string, at layout.Point, size layout.Size) {
	if number != "" {
		DrawTab(s, t, number, at, t.Face(layout.Body))
		return
	}
	box := layout.Rect{X: at.X - size.W/2, Y: at.Y - size.H/2, W: size.W, H: size.H}
	path := layout.RoundRect(box, size.H*0.22)
	s.Fill(path, t.Paper)
	s.Stroke(path, layout.Pen{Width: outlinePen, Color: t.Ink})
}
