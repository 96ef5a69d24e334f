package figure

import "gaugesheet/layout"

// A columnSet is bars that stand on one side of an engine that lies across
// the page, one to a cylinder: its tab at the engine, its bar away from it.
// Distances count from the engine's edge.
type columnSet struct {
	g         *engineDrawing
	cylinders []int
	sign      layout.Length // -1 up, 1 down
	pitch     layout.Length
	thick     layout.Length
	valued    bool  // marks have their values
	out       bool  // the values of the first scale stand at the tabs
	wordLines []int // lines of the words beyond the bars, by slot
	slots     []columnSlot
	plug      layout.Length // where the words for plugs begin; 0 for none
	plugLines int
	height    layout.Length
}

// A columnSlot is a scale in a columnSet.
type columnSlot struct {
	slot
	index      int
	base, room layout.Length // zero, and the height of the bars with their words
}

// barHeights are how high the scale of the first and of a second test is, by
// detail.
var barHeights = [...][2]layout.Length{
	layout.Full:    {62, 30},
	layout.Compact: {42, 22},
	layout.Brief:   {24, 14},
}

// newColumnSet lays columns out; ok is false where words are too wide for the
// distance of the columns.
func newColumnSet(g *engineDrawing, cylinders []int, p rowPlan, grown layout.Length, plugs bool) (*columnSet, bool) {
	c := &columnSet{g: g, cylinders: cylinders, sign: p.sign, pitch: p.pitch, out: p.out}
	c.thick = min(p.pitch*0.46, 34)
	if !c.measureWords(p) {
		return nil, false
	}
	d := TabSize(g.t.Measurer, "0", g.tab).H + 2*tight
	for k, i := range p.scales {
		if k > 0 {
			d += small
		}
		if c.valuesAt(i) {
			d += lineHeight(g.word)
		}
		s := columnSlot{index: i, base: d}
		s.slot = slot{scale: &g.d.Scales[i], top: g.tops[i], sign: p.sign, length: barHeights[g.level][min(k, 1)] * grown}
		for _, n := range c.needs(&s) {
			s.room = max(s.room, n.part*s.length+n.extra)
		}
		c.slots = append(c.slots, s)
		d += s.room
	}
	if plugs {
		c.plug = d + small
		d = c.plug + layout.Length(c.plugLines)*lineHeight(g.label)
	}
	c.height = d
	g.marksListed = g.marksListed || g.marked && !c.valued
	return c, true
}

// measureWords finds on how many lines the words of the columns go; false
// where some are too wide for their columns.
func (c *columnSet) measureWords(p rowPlan) bool {
	g, m := c.g, c.g.t.Measurer
	room := p.pitch - small
	c.valued = g.marked
	c.wordLines = make([]int, len(p.scales))
	for _, i := range c.cylinders {
		cylinder := &g.d.Cylinders[i]
		if TabSize(m, cylinder.Number, g.tab).W > room {
			return false
		}
		for k, s := range p.scales {
			b := g.bar(barRow{i, -1, 0}, s)
			if b == nil {
				continue
			}
			if (k > 0 || p.out) && m.Width(b.Text, g.word) > room {
				return false
			}
			for _, mark := range b.Marks {
				c.valued = c.valued && c.thick/2+markRoom(g.t, mark.Text)+markRadius <= p.pitch/2
			}
			if b.Text == "" && !c.whyFits(b) {
				g.leaveUnsaid(b)
			}
			if b.Text == "" || g.wordWidth(b) == 0 {
				continue
			}
			n := c.linesOf(b, room)
			if n == 0 {
				return false
			}
			c.wordLines[k] = max(c.wordLines[k], n)
		}
		plug := g.plugWords(cylinder, room)
		if plug.width > room || len(plug.lines) > 2 {
			return false
		}
		c.plugLines = max(c.plugLines, len(plug.lines))
	}
	return true
}

// linesOf is on how many lines the words of a bar go, its mark before the
// first; 0 where they do not.
func (c *columnSet) linesOf(b *CylinderBar, room layout.Length) int {
	if c.g.wordWidth(b) <= room {
		return 1
	}
	text := c.wrapped(b, room)
	if len(text.Lines) > 2 || text.W > room-markSize(c.g.t, c.g.word)-small {
		return 0
	}
	return len(text.Lines)
}

func (c *columnSet) wrapped(b *CylinderBar, room layout.Length) layout.Text {
	if b.Mark != NoMark {
		room -= markSize(c.g.t, c.g.word) + small
	}
	return layout.Wrap(c.g.t.Measurer, max(room, c.g.word.Size), layout.Run{Text: b.Word, Face: c.g.word, Color: c.g.t.Ink})
}

// valuesAt reports whether the readings of a scale stand between it and the
// engine: those of the first may stand in the bores.
func (c *columnSet) valuesAt(scale int) bool { return scale > 0 || c.out }

// needs is the room beyond the bars of a slot for their words.
func (c *columnSet) needs(s *columnSlot) []need {
	needs := []need{{1, tight}}
	for _, l := range s.limits() { // their values may have moved apart
		needs = append(needs, need{s.part(l.Value), c.g.t.Measurer.CapHeight(limitFace(c.g.t)) + tight})
	}
	line := lineHeight(c.g.word)
	lines := layout.Length(c.wordLines[len(c.slots)])
	for _, i := range c.cylinders {
		b := c.g.bar(barRow{i, -1, 0}, s.index)
		if b != nil && b.Text != "" && c.g.wordWidth(b) > 0 {
			needs = append(needs, need{c.wordsAt(s, b), lines*line + tight + markRadius})
		}
	}
	return needs
}

// wordsAt is beyond what the words of a bar stand, in parts of the scale: its
// end, the limits past it, and the marks at its side.
func (c *columnSet) wordsAt(s *columnSlot, b *CylinderBar) layout.Length {
	far := s.farEnd(b)
	for _, m := range b.Marks {
		far = max(far, s.part(m.Value))
	}
	return far
}

// draw draws the columns at an edge of the engine; x is the middle of each.
func (c *columnSet) draw(sf layout.Surface, edge, from, to layout.Length, x func(cylinder int) layout.Length) {
	g := c.g
	for k := range c.slots {
		s := &c.slots[k]
		s.zero, s.from, s.to = edge+c.sign*s.base, from, to
		s.drawGrid(sf, g.t)
		for _, i := range c.cylinders {
			if b := g.bar(barRow{i, -1, 0}, s.index); b != nil {
				s.drawBar(sf, g.t, b, x(i), c.thick)
			}
		}
		s.drawLimits(sf, g.t)
		for _, i := range c.cylinders {
			if b := g.bar(barRow{i, -1, 0}, s.index); b != nil {
				c.drawColumnWords(sf, s, b, x(i))
			}
		}
	}
	for _, i := range c.cylinders {
		c.drawFoot(sf, edge, i, x(i))
	}
}

// drawFoot draws what stands at a column's foot and at its end: the tab, the
// values, the word for the plug.
func (c *columnSet) drawFoot(sf layout.Surface, edge layout.Length, i int, x layout.Length) {
	g := c.g
	cylinder := &g.d.Cylinders[i]
	DrawTab(sf, g.t, cylinder.Number, layout.Point{X: x, Y: edge + c.sign*(tight+TabSize(sf, "0", g.tab).H/2)}, g.tab)
	for k := range c.slots {
		s := &c.slots[k]
		if b := g.bar(barRow{i, -1, 0}, s.index); b != nil && c.valuesAt(s.index) {
			layout.TextMiddle(sf, layout.Point{X: x, Y: s.zero - c.sign*lineHeight(g.word)/2}, layout.Center, b.Text, g.word, g.t.Ink)
		}
	}
	if c.plug > 0 {
		middle := c.plug + layout.Length(c.plugLines)*lineHeight(g.label)/2
		g.plugWords(cylinder, c.pitch-small).draw(sf, g.t, layout.Point{X: x, Y: edge + c.sign*middle}, 0)
	}
}

// drawColumnWords draws what stands at a column: the values of marks, and the
// words beyond it.
func (c *columnSet) drawColumnWords(sf layout.Surface, s *columnSlot, b *CylinderBar, x layout.Length) {
	g := c.g
	if b.Text == "" {
		c.drawWhy(sf, s, b, x)
		return
	}
	s.drawStandingMarks(sf, g.t, b, x, c.thick, c.valued)
	end := s.zero + c.sign*(s.farEnd(b)*s.length+tight)
	if far := c.wordsAt(s, b); far > s.farEnd(b) {
		end = s.zero + c.sign*(far*s.length+tight+markRadius)
	}
	line := lineHeight(g.word)
	if g.wordWidth(b) == 0 {
		return
	}
	room := c.pitch - small
	if g.wordWidth(b) <= room {
		at := layout.Point{X: x - g.wordWidth(b)/2, Y: end + c.sign*line/2}
		patch(sf, g.t, layout.Rect{X: at.X, Y: at.Y - line/2 + 1, W: g.wordWidth(b), H: line - 2})
		g.drawWord(sf, b, at)
		return
	}
	text := c.wrapped(b, room)
	w := text.W
	lead := layout.Length(0)
	if b.Mark != NoMark {
		lead = markSize(g.t, g.word) + small
	}
	at := layout.Point{X: x - (w+lead)/2, Y: end}
	if c.sign < 0 {
		at.Y -= text.H
	}
	patch(sf, g.t, layout.Rect{X: at.X, Y: at.Y, W: w + lead, H: text.H})
	if b.Mark != NoMark {
		DrawMark(sf, g.t, b.Mark, at.Add((lead-small)/2, line/2), lead-small)
	}
	text.Draw(sf, at.Add(lead, 0))
}

// drawWhy says at the foot of a column why nothing was read; with its mark
// only, where the words are too wide.
func (c *columnSet) drawWhy(sf layout.Surface, s *columnSlot, b *CylinderBar, x layout.Length) {
	g := c.g
	y := s.zero + c.sign*(lineHeight(g.label)/2+tight)
	if c.whyFits(b) {
		w := g.wordWidth(b)
		patch(sf, g.t, layout.Rect{X: x - w/2, Y: y - lineHeight(g.label)/2 + 1, W: w, H: lineHeight(g.label) - 2})
		g.drawWord(sf, b, layout.Point{X: x - w/2, Y: y})
		return
	}
	DrawMark(sf, g.t, b.Mark, layout.Point{X: x, Y: y}, markSize(g.t, g.label))
}

func (c *columnSet) whyFits(b *CylinderBar) bool { return c.g.wordWidth(b) <= c.pitch-small }

// drawStandingMarks draws the marks on a bar that stands, at its right edge.
func (s *columnSlot) drawStandingMarks(sf layout.Surface, t layout.Theme, b *CylinderBar, middle, thick layout.Length, valued bool) {
	face := tickFace(t)
	var at [2]layout.Length
	for i, m := range b.Marks[:min(2, len(b.Marks))] {
		at[i] = s.at(m.Value)
	}
	beside := middle + thick/2
	if valued {
		words := at
		if len(b.Marks) > 1 {
			moveApart(&words, sf.CapHeight(face)+tight)
		}
		for i, m := range b.Marks[:min(2, len(b.Marks))] {
			x := beside + 2.3*markRadius + tight
			patch(sf, t, layout.Rect{X: x, Y: words[i] - sf.CapHeight(face)/2, W: sf.Width(m.Text, face), H: sf.CapHeight(face)})
			layout.TextMiddle(sf, layout.Point{X: x, Y: words[i]}, layout.Left, m.Text, face, t.Ink)
		}
		beside += 1.15 * markRadius
	}
	for i, m := range b.Marks[:min(2, len(b.Marks))] {
		drawMarkShape(sf, t, m.Shape, layout.Point{X: beside, Y: at[i]})
	}
}
