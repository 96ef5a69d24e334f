package figure

import (
	"math"
	"slices"

	"gaugesheet/layout"
)

// A planDrawing is a placing with everything that is drawn around it.
type planDrawing struct {
	t       layout.Theme
	plan    EnginePlan
	placing placing
	keyed   bool
	labels  []bankText
	area    layout.Rect // that the outlines must not leave, once it is known
}

// A bankText is a bank's name where it stands, relative to the plan's extent.
type bankText struct {
	middle layout.Length
	above  bool
	lines  []string
}

// penBore is the smallest bore with room for a box to write in.
const penBore layout.Length = 36

// ringWidth is how much of a bore shows its tone, around the value.
func ringWidth(bore layout.Size) layout.Length { return max(bore.W*0.13-0.6, 1.8) }

// valueFace is the face in which every value of the plan goes into a bore; ok
// is false where the smallest type does not.
func valueFace(t layout.Theme, d EnginePlan, bore layout.Size) (layout.Face, bool) {
	if d.Rotary {
		return rotorFace(t, d, bore)
	}
	inner := float64(bore.W/2 - ringWidth(bore) - 0.25)
	largest := min(bore.W*0.33, t.Face(layout.Title).Size)
	for size := largest; ; size -= 0.5 {
		face := layout.Face{Weight: layout.Bold, Size: max(size, t.Smallest)}
		half := float64(t.Measurer.CapHeight(face) / 2)
		chord := layout.Length(2 * math.Sqrt(max(inner*inner-half*half, 0)))
		if widestValue(t, d, face) <= chord {
			return face, true
		}
		if size <= t.Smallest {
			return face, false
		}
	}
}

func widestValue(t layout.Theme, d EnginePlan, f layout.Face) layout.Length {
	var w layout.Length
	for _, c := range d.Cylinders {
		w = max(w, t.Measurer.Width(c.Value, f))
	}
	return w
}

func (p planDrawing) labelHeight(above bool) layout.Length {
	most := 0
	for _, l := range p.labels {
		if l.above == above {
			most = max(most, len(l.lines))
		}
	}
	if most == 0 {
		return 0
	}
	return layout.Length(most)*lineHeight(p.t.Face(layout.Label)) + tight
}

func (p planDrawing) frame(width layout.Length) layout.Frame {
	top, bottom := p.arrows(width, Left, Up, Right), p.arrows(width, Down)
	above, below := p.labelHeight(true), p.labelHeight(false)
	if above > 0 && p.labelsBesideArrows(width) {
		above = 0 // on the arrows' line
	}
	margin := gasketGap
	f := layout.Frame{Height: top.Height + above + margin + p.placing.extent.H + margin + below + bottom.Height}
	if tall := p.placing.at; len(tall) > 1 && p.placing.stretches() {
		f.Stretch = p.placing.extent.H * rowsApart
	}
	f.Draw = func(s layout.Surface, area layout.Rect) {
		strip, rest := area.SplitTop(top.Height)
		top.Draw(s, strip)
		rest, foot := rest.SplitBottom(bottom.Height)
		bottom.Draw(s, foot)
		over, rest := rest.SplitTop(above)
		if above == 0 {
			over = strip
		}
		rest, under := rest.SplitBottom(below)
		q := p
		q.placing.stretch(rest.H - 2*margin)
		origin := layout.Point{
			X: rest.X + (rest.W-q.placing.extent.W)/2 - q.placing.extent.X,
			Y: rest.Y + (rest.H-q.placing.extent.H)/2 - q.placing.extent.Y,
		}
		q.area = area
		q.drawAt(s, origin)
		q.drawLabels(s, over, under, origin)
	}
	return f
}

// rowsApart is by how much of its height a plan may be drawn apart.
const rowsApart = 0.25

func (p *placing) spanY() layout.Length {
	low, high := p.at[0].Y, p.at[0].Y
	for _, a := range p.at {
		low, high = min(low, a.Y), max(high, a.Y)
	}
	return high - low
}

// stretches reports whether the rows may be moved apart: not in a ring, and
// not where a text lies over the bore of a lower row.
func (p *placing) stretches() bool {
	if p.writer.plan.Ring || p.spanY() == 0 {
		return false
	}
	const eps = 1e-3
	return !slices.ContainsFunc(p.clashes(newClashBook()), func(c clash) bool {
		return c.y > eps && layout.Length(c.y)*p.scale.y <= c.back+eps
	})
}

// stretch moves the rows apart to use a greater height. Cells that were clear
// of each other stay so.
func (p *placing) stretch(height layout.Length) {
	span := p.spanY()
	if free := height - p.extent.H; free > 0 && p.stretches() {
		p.scale.y += min(free, p.extent.H*rowsApart) / span
		p.measure()
	}
}

func (p planDrawing) drawAt(s layout.Surface, origin layout.Point) {
	p.drawAxis(s, origin)
	p.drawCrankcase(s, origin)
	p.drawHeads(s, origin)
	value, _ := valueFace(p.t, p.plan, p.placing.bore)
	for i, c := range p.plan.Cylinders {
		at := p.placing.place(i).Add(origin.X, origin.Y)
		switch {
		case p.keyed:
			p.drawBore(s, at, c.Tone, c.Number, layout.Face{Weight: layout.Bold, Size: p.t.Smallest})
		case p.plan.Rotary:
			p.drawRotor(s, at, c)
		case p.placing.writer.valueOut:
			p.drawBore(s, at, c.Tone, "", value)
		default:
			p.drawBore(s, at, c.Tone, c.Value, value)
		}
		for _, text := range p.placing.cells[i].texts {
			text.draw(s, p.t, at)
		}
	}
}

// drawBore draws a cylinder: the tone in its wall, the value on white.
func (p planDrawing) drawBore(s layout.Surface, at layout.Point, tone Tone, value string, f layout.Face) {
	bore := p.placing.bore
	r := bore.W / 2
	if p.plan.Pen {
		s.Stroke(layout.Circle(at, r), layout.Pen{Width: outline, Color: p.t.Ink})
		if bore.W >= penBore {
			box := layout.Rect{X: at.X - penBoxW/2, Y: at.Y - penBoxH/2, W: penBoxW, H: penBoxH}
			s.Stroke(layout.RectPath(box), layout.Pen{Width: thin, Color: p.t.Muted})
		}
		return
	}
	PaintTone(s, p.t, tone, layout.Circle(at, r))
	if tone != Open {
		inner := layout.Circle(at, r-ringWidth(bore))
		s.Fill(inner, p.t.Paper)
		s.Stroke(inner, layout.Pen{Width: hairline, Color: p.t.Ink})
	}
	centred(s, value, at, f, p.t.Ink)
}

// centred sets a line about a point.
func centred(s layout.Surface, text string, at layout.Point, f layout.Face, c layout.Color) {
	if text != "" {
		s.Text(at.Add(-s.Width(text, f)/2, s.CapHeight(f)/2), text, f, c)
	}
}

// drawHeads draws a dashed outline around the bores of each head.
func (p planDrawing) drawHeads(s layout.Surface, origin layout.Point) {
	half := layout.Size{W: p.placing.bore.W/2 + gasketGap, H: p.placing.bore.H/2 + gasketGap}
	for _, head := range p.plan.Heads {
		var around []layout.Rect
		for _, i := range head {
			if i < 0 || i >= len(p.plan.Cylinders) {
				continue
			}
			at := p.placing.place(i)
			around = append(around, layout.Rect{X: origin.X + at.X - half.W, Y: origin.Y + at.Y - half.H, W: 2 * half.W, H: 2 * half.H})
		}
		if len(around) == 0 {
			continue
		}
		gasket := layout.RoundRect(within(p.clearOfText(union(around...), origin), p.area.Inset(thin)), 9)
		if len(around) == 1 && half.W == half.H {
			gasket = layout.Circle(around[0].Center(), half.W)
		}
		s.Stroke(gasket, layout.Pen{Width: thin, Color: p.t.Muted, Dash: []layout.Length{3.5, 2.2}})
	}
}

// within cuts a rectangle off at the left and right edges of another.
func within(r, area layout.Rect) layout.Rect {
	left, right := max(r.X, area.X), min(r.Right(), area.Right())
	return layout.Rect{X: left, Y: r.Y, W: right - left, H: r.H}
}

// clearOfText widens an outline so that it does not run through the words
// between its bores.
func (p planDrawing) clearOfText(r layout.Rect, origin layout.Point) layout.Rect {
	for range p.placing.cells { // a wider outline may meet other words
		wider := r
		for i, c := range p.placing.cells {
			for _, text := range c.texts {
				area := moved(text.area, p.placing.place(i).Add(origin.X, origin.Y))
				if wider.Overlaps(area) && !wider.Contains(area) {
					wider = union(wider, area.Inset(-tight))
				}
			}
		}
		if wider == r {
			break
		}
		r = wider
	}
	return r
}
