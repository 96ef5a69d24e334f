package figure

import (
	"slices"

	"gaugesheet/layout"
)

// Boxes for a pen: 9 mm by 7 mm is what a hand in a workshop needs for a
// number, 12 mm by 9 mm for a reading (common practice, no source).
const (
	numberBoxW = 9 * layout.MM
	numberBoxH = 7 * layout.MM
	faceBoxW   = 12 * layout.MM
	faceBoxH   = 9 * layout.MM
)

// benchPitches are how far apart the cylinders of a bench plan stand, by
// detail, where the width does not say.
var benchPitches = [...]layout.Length{layout.Full: 30, layout.Compact: 26, layout.Brief: 22}

// NewBenchPlan is the block "engine" of a bench sheet: the engine seen from
// above with empty bores to write in, and each cylinder's number in a tab, or
// a box for it where the numbering is not known. A width of 60 to 75 mm is
// enough.
func NewBenchPlan(d EnginePlan) layout.Block {
	d = upright(d)
	return block{"engine", func(t layout.Theme, width layout.Length, level layout.Detail) layout.Frame {
		if len(d.Cylinders) == 0 {
			return empty()
		}
		g := newEngineDrawing(t, &d, width, level)
		return stack(tight, heading(t, d.Title, d.Sub, width), g.bench(), captionLines(t, d.Captions, width, level))
	}}
}

// upright turns a single row of cylinders that lies across the page by a
// quarter, so that a box to write in goes beside each.
func upright(d EnginePlan) EnginePlan {
	if d.Build == Ring || d.Build == Rotors || len(d.Cylinders) < 2 {
		return d
	}
	for _, c := range d.Cylinders {
		if c.Y != d.Cylinders[0].Y || len(d.Banks) == 2 {
			return d
		}
	}
	d.Cylinders = slices.Clone(d.Cylinders)
	for i := range d.Cylinders {
		c := &d.Cylinders[i]
		c.X, c.Y = -c.Y, c.X
	}
	d.Vehicle, d.Engine = turned(d.Vehicle), turned(d.Engine)
	return d
}

// turned is a direction after a quarter turn to the right.
func turned(d Direction) Direction {
	return [...]Direction{Nowhere: Nowhere, Up: Right, Right: Down, Down: Left, Left: Up}[d]
}

// A benchTab is where the tab or the box of a cylinder's number stands, from
// the middle of its bore.
type benchPlace struct{ bore, tab layout.Point }

// bench draws the engine to write on.
func (g *engineDrawing) bench() layout.Frame {
	if g.d.Build == Rotors {
		return g.benchRotors()
	}
	body, places, height := g.benchBody()
	return layout.Frame{Height: height, Draw: func(sf layout.Surface, area layout.Rect) {
		drawn := *body
		drawn.at = make([]layout.Point, len(places))
		top := area.Y + g.topLine(g.shape() == banksAbreast)
		for i, p := range places {
			drawn.at[i] = layout.Point{X: area.X + p.bore.X, Y: top + p.bore.Y}
		}
		drawn.middle = area.X + body.middle
		if drawn.lying {
			drawn.middle = top + body.middle
		}
		if g.d.Build == Ring {
			drawn.drawCrankcase(sf)
			for i := range drawn.at {
				drawn.drawBore(sf, i, g.word)
			}
		} else {
			drawn.draw(sf)
		}
		for i, p := range places {
			g.benchNumber(sf, i, layout.Point{X: area.X + p.tab.X, Y: top + p.tab.Y})
		}
		x := area.X + body.middle
		if drawn.lying {
			x = area.X + g.width/2
			g.benchBankNames(sf, area, &drawn)
		}
		g.drawTopLine(sf, area, x, g.shape() == banksAbreast)
	}}
}

// benchNumber draws a cylinder's number in its tab, or a box to write it in.
func (g *engineDrawing) benchNumber(sf layout.Surface, i int, at layout.Point) {
	c := &g.d.Cylinders[i]
	if c.Number != "" {
		DrawTab(sf, g.t, c.Number, at, g.tab)
		return
	}
	w := min(numberBoxW, g.benchRoom())
	box := layout.Rect{X: at.X - w/2, Y: at.Y - numberBoxH/2, W: w, H: numberBoxH}
	sf.Fill(layout.RoundRect(box, 3), g.t.Paper)
	sf.Stroke(layout.RoundRect(box, 3), layout.Pen{Width: 1.2, Color: g.t.Ink})
}

// benchRoom is how wide a box for a number may be where boxes stand beside
// one another.
func (g *engineDrawing) benchRoom() layout.Length {
	if g.shape() != banksBehind {
		return numberBoxW
	}
	return g.benchColumn() - tight
}

// benchColumn is the distance of columns of two banks that lie.
func (g *engineDrawing) benchColumn() layout.Length {
	_, _, w, _ := g.extent()
	return min((g.width-2*(endDepth+wallOf))/layout.Length(w+1), 40)
}

// benchTabSize is what a number takes beside its bore.
func (g *engineDrawing) benchTabSize() layout.Size {
	for i := range g.d.Cylinders {
		if g.d.Cylinders[i].Number == "" {
			return layout.Size{W: min(numberBoxW, g.benchRoom()), H: numberBoxH}
		}
	}
	return layout.Size{W: g.tabWidth, H: TabSize(g.t.Measurer, "0", g.tab).H}
}

// benchBody places the bores and the tabs, from the top left under the words
// over the engine.
func (g *engineDrawing) benchBody() (*engineBody, []benchPlace, layout.Length) {
	switch g.shape() {
	case oneColumn, banksAbreast:
		return g.benchStanding()
	case banksBehind:
		return g.benchLying()
	}
	return g.benchScattered()
}

func (g *engineDrawing) benchStanding() (*engineBody, []benchPlace, layout.Length) {
	low, high := g.span()
	tab := g.benchTabSize()
	pitch := max(benchPitches[g.level], tab.H+tight)
	if most := [...]layout.Length{260, 220, 190}[g.level] / layout.Length(high-low+1); most < pitch {
		pitch = max(most, tab.H+tight)
	}
	body := &engineBody{g: g, half: g.boreSize(boreHalf(pitch), false), wall: wallOf, pen: true, middle: g.width / 2}
	head := body.half.W + wallOf
	apart := max(body.half.W*0.45, 6)
	if g.d.Build == Lying {
		apart = max(body.half.H*0.9, 9)
	}
	banks := g.leftAndRight()
	places := make([]benchPlace, len(g.d.Cylinders))
	for k, bank := range banks {
		x, tabX := g.width/2, g.width/2-head-medium-tab.W/2
		if len(banks) == 2 {
			way := layout.Length(2*k - 1)
			x = g.width/2 + way*(apart+head)
			tabX = x + way*(head+medium+tab.W/2)
		}
		for _, i := range bank {
			y := endDepth + wallOf + pitch*layout.Length(g.d.Cylinders[i].Y-low) + pitch/2
			places[i] = benchPlace{layout.Point{X: x, Y: y}, layout.Point{X: tabX, Y: y}}
		}
	}
	return body, places, g.topLine(g.shape() == banksAbreast) + pitch*layout.Length(high-low+1) + 2*(endDepth+wallOf)
}

func (g *engineDrawing) benchLying() (*engineBody, []benchPlace, layout.Length) {
	low, _, w, _ := g.extent()
	pitch, tab := g.benchColumn(), g.benchTabSize()
	body := &engineBody{g: g, half: g.boreSize(min(pitch*0.4, 20), true), wall: wallOf, pen: true, lying: true}
	head, apart := body.half.H+wallOf, max(body.half.H*0.9, 10)
	names := lineHeight(g.label)
	top := names + tab.H + small + head
	under := top + 2*head + apart
	from := (g.width - pitch*layout.Length(w+1)) / 2
	places := make([]benchPlace, len(g.d.Cylinders))
	for k, bank := range g.frontAndRear() {
		y, tabY := top, top-head-small-tab.H/2
		if k == 1 {
			y, tabY = under, under+head+small+tab.H/2
		}
		for _, i := range bank {
			x := from + pitch*layout.Length(g.d.Cylinders[i].X-low+0.5)
			places[i] = benchPlace{layout.Point{X: x, Y: y}, layout.Point{X: x, Y: tabY}}
		}
	}
	body.middle = (top + under) / 2
	return body, places, g.topLine(g.shape() == banksAbreast) + under + head + small + tab.H + names
}

// benchBankNames names two banks that lie, over the one and under the other.
func (g *engineDrawing) benchBankNames(sf layout.Surface, area layout.Rect, b *engineBody) {
	if g.shape() != banksBehind {
		return
	}
	names, half := g.banksInOrder(), lineHeight(g.label)/2
	x := area.X + g.width/2
	layout.TextMiddle(sf, layout.Point{X: x, Y: area.Y + g.topLine(g.shape() == banksAbreast) + half}, layout.Center, names[0], g.label, g.t.Ink)
	layout.TextMiddle(sf, layout.Point{X: x, Y: area.Bottom() - half}, layout.Center, names[1], g.label, g.t.Ink)
}

// benchScattered draws the numbers in the bores, over what is written there.
func (g *engineDrawing) benchScattered() (*engineBody, []benchPlace, layout.Length) {
	x, y, w, h := g.extent()
	tab := g.benchTabSize()
	border := 2 * (wallOf + endDepth)
	unit := min((g.width-border)/layout.Length(w+1), [...]layout.Length{240, 200, 170}[g.level]/layout.Length(h+1), 44)
	half := max(unit/2-max(1.2, unit*0.06), 1)
	body := &engineBody{g: g, half: layout.Size{W: half, H: half}, wall: wallOf, pen: true, middle: g.width / 2, lying: w > h}
	places := make([]benchPlace, len(g.d.Cylinders))
	for i := range g.d.Cylinders {
		c := &g.d.Cylinders[i]
		at := layout.Point{
			X: g.width/2 + unit*layout.Length(c.X-x-w/2),
			Y: border/2 + unit*layout.Length(c.Y-y+0.5),
		}
		places[i] = benchPlace{at, at.Add(0, -max(0, half-tab.H/2-tight))}
	}
	if body.lying {
		body.middle = border/2 + unit*layout.Length(h+1)/2
	}
	return body, places, g.topLine(g.shape() == banksAbreast) + border + unit*layout.Length(h+1)
}

// benchRotors draws the housings under one another, each with a box for each
// face of its rotor.
func (g *engineDrawing) benchRotors() layout.Frame {
	const half, gap = 30, 6
	pitch := max(2*layout.Length(half)+gap, faceBoxH+lineHeight(g.label)+gap)
	height := g.topLine(g.shape() == banksAbreast) + 2*endDepth + pitch*layout.Length(len(g.d.Cylinders))
	return layout.Frame{Height: height, Draw: func(sf layout.Surface, area layout.Rect) {
		body := &engineBody{g: g, pen: true}
		top := area.Y + g.topLine(g.shape() == banksAbreast) + endDepth
		for i := range g.d.Cylinders {
			body.at = append(body.at, layout.Point{X: area.X + half + 1, Y: top + (layout.Length(i)+0.5)*pitch})
		}
		body.drawRotors(sf, half)
		for i := range g.d.Cylinders {
			for k, f := range g.d.Cylinders[i].Faces {
				x := area.X + 2*half + wide + 1 + layout.Length(k)*(faceBoxW+gap)
				middle := body.at[i].Y + lineHeight(g.label)/2
				layout.TextAt(sf, layout.Point{X: x + faceBoxW/2, Y: middle - faceBoxH/2 - tight}, layout.Center, f.Name, g.word, g.t.Ink)
				box := layout.Rect{X: x, Y: middle - faceBoxH/2, W: faceBoxW, H: faceBoxH}
				sf.Stroke(layout.RectPath(box), layout.Pen{Width: outline, Color: g.t.Ink})
			}
		}
		g.drawTopLine(sf, area, area.X+half, false)
	}}
}
