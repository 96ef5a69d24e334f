package figure

import (
	"math"
	"slices"

	"gaugesheet/layout"
)

// above is what stands over the bores: the arrow to the front, the names of
// the banks, the pulley end.
func (p penPlan) above(width layout.Length) layout.Frame {
	face := p.t.Face(layout.Note)
	var rows []layout.Frame
	switch {
	case p.d.Front == "":
	case p.d.Build == Ring:
		rows = append(rows, balanced(p.t, p.d.Front, layout.Label, p.t.Ink, width))
	default:
		at := Up
		if p.turned {
			at = Left
		}
		rows = append(rows, p.arrow(p.d.Front, at, false, width))
	}
	if p.d.VehicleAt != Nowhere && p.d.Vehicle != "" {
		rows = append(rows, p.arrow(p.d.Vehicle, p.d.VehicleAt, true, width))
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
	if p.d.Build == Ring {
		return tight
	}
	return endDepth
}

// arrow is words behind an arrow, in the middle; the arrow is that of the figure
// of the readings.
func (p penPlan) arrow(words string, d Direction, vehicle bool, width layout.Length) layout.Frame {
	face := p.t.Face(layout.Label)
	const size, gap = 8, 3
	lines := breakLines(p.t.Measurer, words, face, width-size-gap)
	return layout.Frame{Height: layout.Length(len(lines)) * lineHeight(face), Draw: func(s layout.Surface, a layout.Rect) {
		x := a.X + (width-size-gap-s.Width(lines[0], face))/2
		for i, l := range lines {
			y := baseline(s, face, a.Y+layout.Length(i)*lineHeight(face))
			s.Text(layout.Point{X: x + size + gap, Y: y}, l, face, p.t.Ink)
		}
		drawArrow(s, p.t, layout.Point{X: x + size/2, Y: baseline(s, face, a.Y) - s.CapHeight(face)/2}, size/2, d, vehicle)
	}}
}

// middleOf is the x of the middle of some cylinders.
func (p penPlan) middleOf(some []int) (x float64) {
	for _, i := range some {
		x += p.d.Cylinders[i].X / float64(len(some))
	}
	return x
}

func (p penPlan) draw(s layout.Surface, at layout.Point, room layout.Size) {
	body := p.body()
	for _, bore := range p.placed.bores {
		body.at = append(body.at, at.Add(bore.X, bore.Y))
	}
	body.middle = at.X + room.W/2
	switch p.d.Build {
	case Rotors:
		body.drawRotors(s, p.placed.bore/2)
	case Ring:
		body.drawCrankcase(s)
		for i := range body.at {
			body.drawBore(s, i, p.t.Face(layout.Label))
		}
	default:
		body.draw(s)
	}
	for i, tab := range p.tabs {
		tab.draw(s, p.t, at.Add(p.placed.tabs[i].X, p.placed.tabs[i].Y))
	}
}

// body is the engine as every sheet draws it, empty, and in black and white.
func (p penPlan) body() *engineBody {
	t := p.t
	t.Tint = t.Paper
	d := &EnginePlan{Build: p.d.Build, Heads: p.d.Heads, Banks: p.d.Banks, Engine: Up, Cylinders: make([]Cylinder, len(p.d.Cylinders))}
	if p.turned {
		d.Build, d.Banks, d.Engine = Upright, nil, Left
	}
	return &engineBody{g: &engineDrawing{t: t, d: d}, half: p.placed.half, wall: penHeadWall, pen: true, lying: p.turned}
}

// outlinePen is the line of what the engine is drawn with on a bench sheet.
const outlinePen = 1.2
