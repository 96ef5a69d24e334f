package figure

import (
	"math"
	"slices"

	"gaugesheet/layout"
)

// NewEnginePlan is the block "engine": the engine seen from above with a value
// on each cylinder, and each cylinder's bars beside its own place.
func NewEnginePlan(d EnginePlan) layout.Block {
	return block{"engine", func(t layout.Theme, width layout.Length, level layout.Detail) layout.Frame {
		if len(d.Cylinders) == 0 {
			return empty()
		}
		d := d
		if level == layout.Brief && d.Tabled && len(d.Scales) > 0 {
			d.Scales, d.Plugs, d.Title, d.Sub = d.Scales[:1], "", d.TabledTitle, d.TabledSub
			if !headingOnLine(t, d.Title, d.Sub, width) { // the table says it
				d.Sub = ""
			}
		}
		g := newEngineDrawing(t, &d, width, level)
		gap := [...]layout.Length{layout.Full: small, layout.Compact: tight, layout.Brief: 1}[level]
		head := g.heading()
		body := pictured(d.Alt, g.lay())
		return stack(gap, head, body, g.keys(d.Captions...))
	}}
}

// heading is the title with its words; at brief with the arrows at its end,
// where they have room there and need not stand over the middle of two banks.
func (g *engineDrawing) heading() layout.Frame {
	f := heading(g.t, g.d.Title, g.d.Sub, g.width)
	used := g.t.Measurer.Width(g.d.Title, g.t.Face(layout.Heading)) + medium + g.t.Measurer.Width(g.d.Sub, g.label)
	arrows := g.arrows()
	w := layout.Length(0)
	for _, a := range arrows {
		w += wide + g.arrowWidth(a)
	}
	if g.level != layout.Brief || g.shape() == banksAbreast || used+w > g.width {
		return f
	}
	g.arrowsInHeading = true
	return behind(f, func(sf layout.Surface, area layout.Rect) {
		x := area.Right() - w
		for _, a := range arrows {
			head := g.t.Face(layout.Heading)
			y := baseline(sf, head, area.Y) - sf.CapHeight(g.label)/2
			layout.Tag{Kind: layout.Decoration}.Draw(sf, func() { a.draw(sf, g, layout.Point{X: x + wide, Y: y}) }) // the picture's words have it
			x += wide + g.arrowWidth(a)
		}
	})
}

// An engineDrawing is an engine laid out for a width: what is measured once.
type engineDrawing struct {
	t     layout.Theme
	d     *EnginePlan
	width layout.Length
	level layout.Detail

	tab, head, label, word layout.Face
	tops                   []float64
	tabWidth, faceWidth    layout.Length
	plugWidth              layout.Length
	valueWidths            []layout.Length // by scale
	marked                 bool            // some bar has marks
	marksListed            bool            // the values of marks stand under the figure
	arrowsInHeading        bool            // not over the engine
	tiesKeyed              bool            // what neighbours share stands under the figure
	banksKeyed             bool            // so do the names of the banks
	unsaid                 []CylinderBar   // marks whose words stand under the figure
}

func newEngineDrawing(t layout.Theme, d *EnginePlan, width layout.Length, level layout.Detail) *engineDrawing {
	g := &engineDrawing{t: t, d: d, width: width, level: level, label: t.Face(layout.Label)}
	g.word, g.head, g.tab = g.label, g.label, g.label
	if level == layout.Brief {
		g.tab = t.Face(layout.Note)
	}
	g.word.Weight, g.head.Weight, g.tab.Weight = layout.Bold, layout.Bold, layout.Bold
	g.valueWidths = make([]layout.Length, len(d.Scales))
	for i := range d.Scales {
		g.tops = append(g.tops, topOf(d, i))
	}
	m := t.Measurer
	if d.Plugs != "" {
		g.plugWidth = m.Width(d.Plugs, g.head)
	}
	for i := range d.Cylinders {
		c := &d.Cylinders[i]
		g.tabWidth = max(g.tabWidth, TabSize(m, c.Number, g.tab).W)
		g.plugWidth = max(g.plugWidth, g.plugWordWidth(c))
		for _, f := range c.Faces {
			g.faceWidth = max(g.faceWidth, m.Width(f.Name, g.word))
		}
		for k := range d.Scales {
			for _, b := range barsOf(c, k) {
				g.valueWidths[k] = max(g.valueWidths[k], m.Width(b.Text, g.word))
				g.marked = g.marked || len(b.Marks) > 0
			}
		}
	}
	return g
}

// bar is what a row shows on a scale; nil for nothing. What was read of a
// rotor as a whole stands at the middle one of its faces.
func (g *engineDrawing) bar(row barRow, scale int) *CylinderBar {
	c := &g.d.Cylinders[row.cylinder]
	if scale == 0 && row.face >= 0 {
		return &c.Faces[row.face].Bar
	}
	if scale >= len(c.Bars) || !g.isMiddle(row) {
		return nil
	}
	return &c.Bars[scale]
}

func (g *engineDrawing) isMiddle(row barRow) bool {
	return row.face < 0 || row.face == len(g.d.Cylinders[row.cylinder].Faces)/2
}

func (g *engineDrawing) valueWidth(scale int) layout.Length { return g.valueWidths[scale] }

// leaveUnsaid puts why nothing was read under the figure, where beside the
// bars there is room for the mark only.
func (g *engineDrawing) leaveUnsaid(b *CylinderBar) {
	said := func(c CylinderBar) bool { return c.Mark == b.Mark && c.Word == b.Word }
	if b.Text == "" && b.Word != "" && !slices.ContainsFunc(g.unsaid, said) {
		g.unsaid = append(g.unsaid, *b)
	}
}

// wordWidth is how wide the words beyond a bar are with their mark; 0 for
// none.
func (g *engineDrawing) wordWidth(b *CylinderBar) layout.Length {
	w := layout.Length(0)
	if b.Mark != NoMark {
		w = markSize(g.t, g.word)
	}
	if b.Word != "" {
		if w > 0 {
			w += small
		}
		w += g.t.Measurer.Width(b.Word, g.wordFace(b))
	}
	return w
}

// wordFace is bold for what was found, and not for why nothing was read.
func (g *engineDrawing) wordFace(b *CylinderBar) layout.Face {
	if b.Text == "" {
		return g.label
	}
	return g.word
}

// drawWord draws the words of a bar with their mark, from the left end of
// their middle line.
func (g *engineDrawing) drawWord(sf layout.Surface, b *CylinderBar, at layout.Point) {
	if b.Mark != NoMark {
		size := markSize(g.t, g.word)
		DrawMark(sf, g.t, b.Mark, at.Add(size/2, 0), size)
		at.X += size + small
	}
	if b.Word != "" {
		layout.TextMiddle(sf, at, layout.Left, b.Word, g.wordFace(b), g.t.Ink)
	}
}

// plugFace is bold for a plug that looks as it should not.
func (g *engineDrawing) plugFace(c *Cylinder) layout.Face {
	if c.Plug.Tone == Plain || c.Plug.Tone == Open {
		return g.label
	}
	return g.word
}

func (g *engineDrawing) plugWordWidth(c *Cylinder) layout.Length {
	w := g.t.Measurer.Width(c.Plug.Text, g.plugFace(c))
	if c.Plug.Mark != NoMark {
		w += markSize(g.t, g.label) + small
	}
	return w
}

// pitches are how far apart rows stand, by detail: what the drawing shares
// among its rows, and the most that one row takes.
var pitches = [...]struct{ all, most layout.Length }{
	layout.Full:    {150, 44},
	layout.Compact: {104, 32},
	layout.Brief:   {50, 20},
}

// mostForWords is the most that a row takes that has no bars.
const mostForWords layout.Length = 27

// leastPitch is the least distance of two rows: tabs do not touch.
func (g *engineDrawing) leastPitch() layout.Length {
	return TabSize(g.t.Measurer, "0", g.tab).H + 0.8
}

// pitch is how far apart rows stand that reach over a span of so many.
func (g *engineDrawing) pitch(rows float64) layout.Length {
	p := pitches[g.level]
	return max(min(p.all/layout.Length(rows), p.most, g.mostPitch()), g.leastPitch())
}

// mostPitch is how far apart rows stand at most, where the page has height to spare.
func (g *engineDrawing) mostPitch() layout.Length {
	if len(g.d.Scales) == 0 { // a word to a row needs no more
		return mostForWords
	}
	return pitches[layout.Full].most
}

// lay picks the arrangement that suits the engine and the width.
func (g *engineDrawing) lay() layout.Frame {
	switch g.shape() {
	case oneColumn:
		if f, ok := g.column(); ok {
			return f
		}
	case banksAbreast:
		if f, ok := g.sides(); ok {
			return f
		}
	case oneRow, banksBehind:
		if f, ok := g.lying(); ok {
			return f
		}
	}
	g.banksKeyed = true
	return g.list()
}

// An engineShape is how cylinders stand on the page, as far as it decides
// where their bars go.
type engineShape uint8

const (
	scattered    engineShape = iota
	oneColumn                // under one another, evenly
	oneRow                   // beside one another, evenly
	banksAbreast             // a bank left and a bank right
	banksBehind              // a bank above and a bank below
)

func (g *engineDrawing) shape() engineShape {
	d := g.d
	if d.Build == Ring {
		return scattered
	}
	if d.Build == Rotors {
		return oneColumn
	}
	all := make([]int, len(d.Cylinders))
	for i := range all {
		all[i] = i
	}
	switch {
	case g.stands(all):
		return oneColumn
	case g.liesFlat(all):
		return oneRow
	case len(d.Banks) == 2 && g.stands(d.Banks[0].Cylinders) && g.stands(d.Banks[1].Cylinders) && g.complete():
		return banksAbreast
	case len(d.Banks) == 2 && g.liesFlat(d.Banks[0].Cylinders) && g.liesFlat(d.Banks[1].Cylinders) && g.complete():
		return banksBehind
	}
	return scattered
}

// complete reports whether each cylinder is in one of the banks.
func (g *engineDrawing) complete() bool {
	return len(g.d.Banks[0].Cylinders)+len(g.d.Banks[1].Cylinders) == len(g.d.Cylinders)
}

// stands reports whether some cylinders stand in a column, none far from the
// next.
func (g *engineDrawing) stands(some []int) bool {
	return inLine(g.d, some, func(c *Cylinder) (along, across float64) { return c.Y, c.X })
}

func (g *engineDrawing) liesFlat(some []int) bool {
	return inLine(g.d, some, func(c *Cylinder) (along, across float64) { return c.X, c.Y })
}

// inLine reports whether cylinders stand in a line, one about a pitch from the
// next.
func inLine(d *EnginePlan, some []int, place func(*Cylinder) (along, across float64)) bool {
	const straight, near, far = 0.05, 0.95, 1.6
	if len(some) == 0 {
		return false
	}
	_, first := place(&d.Cylinders[some[0]])
	for _, i := range some {
		along, across := place(&d.Cylinders[i])
		if math.Abs(across-first) > straight {
			return false
		}
		next := math.Inf(1)
		for _, j := range some {
			if other, _ := place(&d.Cylinders[j]); j != i && other >= along {
				next = min(next, other-along)
			}
		}
		if next < near || next > far && !math.IsInf(next, 1) {
			return false
		}
	}
	return true
}
