package figure

import (
	"math"

	"gaugesheet/layout"
)

// An engineBody is the engine as drawn: bores in their places under their
// heads, a block, and two ends that are told apart without reading: a pulley
// at the front, the flare of the gearbox at the rear.
type engineBody struct {
	g      *engineDrawing
	at     []layout.Point // middles of the bores
	half   layout.Size    // half a bore
	wall   layout.Length  // from a bore to its head's edge
	lying  bool           // the crankshaft runs across the page
	middle layout.Length  // where it runs, of two banks
	values bool           // the readings stand in the bores
	pen    bool           // to be written in: no tones, no values
}

// endDepth is how far each end reaches beyond the heads.
const endDepth layout.Length = 9

// boreHalf is half a bore's length along the crankshaft for a distance to the
// next.
func boreHalf(pitch layout.Length) layout.Length {
	return min(pitch/2-max(1.4, pitch*0.09), 21)
}

// boreSize is half a bore as it is seen from above: at a slant in a V, which is
// less where the readings have room in it then, a barrel from its side in a flat engine.
func (g *engineDrawing) boreSize(along layout.Length, lying bool) layout.Size {
	seen := func(across layout.Length) layout.Size {
		if lying {
			return layout.Size{W: along, H: across}
		}
		return layout.Size{W: across, H: along}
	}
	switch g.d.Build {
	case Leaning:
		for _, slant := range []layout.Length{0.84, 0.9, 0.96} {
			if half := seen(along * slant); g.valuesStand(half) {
				return half
			}
		}
		return seen(along * 0.84)
	case Lying:
		return seen(along * 1.25)
	}
	return seen(along)
}

// valuesStand reports whether each reading has room in a bore.
func (g *engineDrawing) valuesStand(half layout.Size) bool {
	_, fits := g.valuesFit(half)
	return fits
}

// valuesFit reports whether each reading has room in a bore in type of a
// label, and gives the type in which they stand there.
func (g *engineDrawing) valuesFit(half layout.Size) (layout.Face, bool) {
	face := g.word
	if len(g.d.Scales) == 0 || g.valueWidths[0] == 0 {
		return face, true
	}
	size := g.sizeInBore(half)
	most := min(half.H*0.95, g.t.Face(layout.Title).Size)
	fits := size >= g.label.Size && half.H*1.5 >= face.Size
	face.Size = max(min(size, most), g.label.Size)
	return face, fits
}

// sizeInBore is the size in which the widest value stands in a bore clear of its
// outline, which in a round one is the corners of its figures.
func (g *engineDrawing) sizeInBore(half layout.Size) layout.Length {
	const clear = 2.0 // of the middle of the outline, which may be heavy
	w := g.valueWidths[0] / 2 / g.word.Size
	h := g.t.Measurer.CapHeight(g.word) / 2 / g.word.Size
	size := 0.8 * half.W / w
	if g.d.Build == Lying && len(g.d.Banks) == 2 {
		return size
	}
	return min(size, 1/layout.Length(math.Hypot(float64(w/(half.W-clear)), float64(h/(half.H-clear)))))
}

// head is the outline around the bores of some cylinders.
func (b *engineBody) head(of []int) layout.Rect {
	low, high := b.at[of[0]], b.at[of[0]]
	for _, i := range of {
		low = layout.Point{X: min(low.X, b.at[i].X), Y: min(low.Y, b.at[i].Y)}
		high = layout.Point{X: max(high.X, b.at[i].X), Y: max(high.Y, b.at[i].Y)}
	}
	dx, dy := b.half.W+b.wall, b.half.H+b.wall
	return layout.Rect{X: low.X - dx, Y: low.Y - dy, W: high.X - low.X + 2*dx, H: high.Y - low.Y + 2*dy}
}

// heads are the engine's, each cylinder alone where none are given.
func (b *engineBody) heads() [][]int {
	if len(b.g.d.Heads) > 0 {
		return b.g.d.Heads
	}
	alone := make([][]int, len(b.at))
	for i := range b.at {
		alone[i] = []int{i}
	}
	return alone
}

// block is the area of the crankcase: between the middles of two banks, or
// under the heads of one.
func (b *engineBody) block() layout.Rect {
	all := make([]int, len(b.at))
	for i := range all {
		all[i] = i
	}
	r := b.head(all)
	if len(b.g.d.Banks) != 2 || b.g.d.Build == Upright {
		return r
	}
	dx, dy := 2*b.half.W+2*b.wall, 2*b.half.H+2*b.wall
	if b.g.d.Build == Leaning {
		dx, dy = dx*0.55, dy*0.55
	}
	if b.lying {
		return r.InsetXY(0, dy)
	}
	return r.InsetXY(dx, 0)
}

// edge is the place at a side of an area: part of the way along it, and out
// from it.
func edge(r layout.Rect, side Direction, part, out layout.Length) layout.Point {
	switch side {
	case Up:
		return layout.Point{X: r.X + part*r.W, Y: r.Y - out}
	case Down:
		return layout.Point{X: r.X + part*r.W, Y: r.Bottom() + out}
	case Left:
		return layout.Point{X: r.X - out, Y: r.Y + part*r.H}
	}
	return layout.Point{X: r.Right() + out, Y: r.Y + part*r.H}
}

// opposite is the direction the other way.
func opposite(d Direction) Direction {
	return [...]Direction{Nowhere: Nowhere, Up: Down, Down: Up, Left: Right, Right: Left}[d]
}

// drawEnds draws the pulley end and the gearbox end. Where the engine's front
// is not known they are not told apart.
func (b *engineBody) drawEnds(sf layout.Surface, r layout.Rect) {
	t := b.g.t
	pen := layout.Pen{Width: outline, Color: t.Ink}
	taper := func(side Direction, near, far, from, to layout.Length) {
		p := layout.Polygon(edge(r, side, 0.5-near, from), edge(r, side, 0.5-far, to), edge(r, side, 0.5+far, to), edge(r, side, 0.5+near, from))
		sf.Fill(p, t.Tint)
		sf.Stroke(p, pen)
	}
	front := b.g.d.Engine
	if front != Nowhere && b.lying != (front == Left || front == Right) {
		return // they are over and under the cylinders
	}
	if front == Nowhere {
		a, z := Up, Down
		if b.lying {
			a, z = Left, Right
		}
		taper(a, 0.36, 0.28, 0, endDepth*0.5)
		taper(z, 0.36, 0.28, 0, endDepth*0.5)
		return
	}
	taper(front, 0.38, 0.26, 0, endDepth*0.5)
	taper(front, 0.2, 0.2, endDepth*0.5, endDepth-outline)
	taper(opposite(front), 0.22, 0.42, 0, endDepth-outline)
}

// draw draws the engine.
func (b *engineBody) draw(sf layout.Surface) {
	t, d := b.g.t, b.g.d
	block := b.block()
	b.drawEnds(sf, block)
	path := layout.RoundRect(block, 2)
	sf.Fill(path, t.Tint)
	sf.Stroke(path, layout.Pen{Width: outline, Color: t.Ink})
	for _, head := range b.heads() {
		if len(head) > 0 {
			b.drawHead(sf, b.head(head))
		}
	}
	if len(d.Banks) == 2 {
		b.drawCrank(sf, block)
	}
	face, _ := b.g.valuesFit(b.half)
	for i := range d.Cylinders {
		b.drawBore(sf, i, face)
	}
}

func (b *engineBody) drawHead(sf layout.Surface, r layout.Rect) {
	t := b.g.t
	path := layout.RoundRect(r, min(5, b.wall+2))
	sf.Fill(path, t.Paper)
	sf.Stroke(path, layout.Pen{Width: 1.2, Color: t.Ink})
	if b.g.d.Build == Upright || len(b.g.d.Banks) != 2 {
		return
	}
	// A head that leans shows its side toward the middle, one that lies its
	// cover at the outer end.
	side := Right
	if b.lying {
		side = Down
	}
	beyond := b.lying && r.Center().Y > b.middle || !b.lying && r.Center().X > b.middle
	if beyond != (b.g.d.Build == Lying) {
		side = opposite(side)
	}
	in := -b.wall * 0.75
	sf.Stroke(layout.Polyline(edge(r, side, 0.06, in), edge(r, side, 0.94, in)), layout.Pen{Width: thin, Color: t.Ink})
}

// drawCrank draws the line of the crankshaft between two banks: long and short
// strokes in turn.
func (b *engineBody) drawCrank(sf layout.Surface, block layout.Rect) {
	from, to := edge(block, Up, 0.5, endDepth-2), edge(block, Down, 0.5, endDepth-2)
	if b.lying {
		from, to = edge(block, Left, 0.5, endDepth-2), edge(block, Right, 0.5, endDepth-2)
	}
	sf.Stroke(layout.Polyline(from, to), layout.Pen{Width: hairline, Color: b.g.t.Ink, Dash: []layout.Length{9, 2, 1.5, 2}})
}

// look is the tone of a cylinder: that of its first reading, or of its plug.
func look(c *Cylinder, scales int) (Tone, Mark) {
	switch {
	case len(c.Faces) > 0:
		return Plain, NoMark
	case scales == 0:
		return c.Plug.Tone, NoMark
	case len(c.Bars) == 0:
		return Open, NotTested
	}
	first := &c.Bars[0]
	if first.Text == "" {
		return Open, first.Mark
	}
	return first.Tone, NoMark
}

// drawBore draws a cylinder: its value on white within an outline that is
// heavy where it calls for a look, and dashed where there is no reading. Where
// the values stand elsewhere the bore shows the tone.
func (b *engineBody) drawBore(sf layout.Surface, i int, f layout.Face) {
	t, c := b.g.t, &b.g.d.Cylinders[i]
	tone, mark := look(c, len(b.g.d.Scales))
	path := b.borePath(b.at[i])
	switch {
	case b.pen:
		sf.Fill(path, t.Paper)
		sf.Stroke(path, layout.Pen{Width: outlinePen, Color: t.Ink})
		return
	case !b.values:
		PaintTone(sf, t, tone, path)
	case tone == Hatch || tone == Dense:
		sf.Fill(path, t.Paper)
		sf.Stroke(path, layout.Pen{Width: 2.2, Color: t.Ink})
	default:
		sf.Fill(path, t.Paper)
		sf.Stroke(path, tonePen(t, tone))
	}
	if mark != NoMark {
		DrawMark(sf, t, mark, b.at[i], min(b.half.H, b.half.W, 10))
		return
	}
	if b.values && len(c.Bars) > 0 && len(b.g.d.Scales) > 0 {
		layout.TextMiddle(sf, b.at[i], layout.Center, c.Bars[0].Text, f, t.Ink)
	}
}

func (b *engineBody) borePath(at layout.Point) layout.Path {
	if b.g.d.Build == Lying && len(b.g.d.Banks) == 2 {
		return layout.RoundRect(layout.Rect{X: at.X - b.half.W, Y: at.Y - b.half.H, W: 2 * b.half.W, H: 2 * b.half.H}, 2)
	}
	return ellipse(at, b.half)
}

// ellipse is the outline of a circle seen at a slant; within 0.03 % of it.
func ellipse(at layout.Point, half layout.Size) layout.Path {
	if half.W == half.H {
		return layout.Circle(at, half.W)
	}
	k := layout.Length(4.0 / 3 * (math.Sqrt2 - 1))
	x, y := half.W, half.H
	return layout.Path{}.MoveTo(at.Add(x, 0)).
		CubicTo(at.Add(x, k*y), at.Add(k*x, y), at.Add(0, y)).
		CubicTo(at.Add(-k*x, y), at.Add(-x, k*y), at.Add(-x, 0)).
		CubicTo(at.Add(-x, -k*y), at.Add(-k*x, -y), at.Add(0, -y)).
		CubicTo(at.Add(k*x, -y), at.Add(x, -k*y), at.Add(x, 0)).Close()
}
