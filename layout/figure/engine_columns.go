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
	valued    bool // marks have their values
	out       bool // the values of the first scale stand at the tabs
	wordLines int  // lines of the words beyond the bars
	slots     []columnSlot
	plug      layout.Length // where the words for plugs begin; 0 for none
	plugLines int
	height    layout.Length
}

// A columnSlot is a scale in a columnSet.
type columnSlot struct {
	slot
	index      int
	base, room layout.Length
}

// barRooms are how high the bars of the first and of a second scale may be,
// by detail, with the words beyond them.
var barRooms = [...][2]layout.Length{
	layout.Full:    {72, 40},
	layout.Compact: {50, 30},
	layout.Brief:   {34, 22},
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
	if c.out {
		d += lineHeight(g.word)
	}
	for k, i := range p.scales {
		if k > 0 {
			d += medium
		}
		room := barRooms[g.level][min(k, 1)] * grown
		s := columnSlot{index: i, base: d, room: room}
		s.slot = slot{scale: &g.d.Scales[i], top: g.tops[i], sign: p.sign}
		s.length = scaleLength(room, c.needs(&s, k))
		c.slots = append(c.slots, s)
		d += room
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
			if k > 0 || b.Text == "" || g.wordWidth(b) == 0 {
				continue
			}
			n := c.linesOf(b, room)
			if n == 0 {
				return false
			}
			c.wordLines = max(c.wordLines, n)
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

// needs is the room beyond the bars: for the words of the first scale, for the
// values of another.
func (c *columnSet) needs(s *columnSlot, k int) []need {
	needs := []need{{1, tight}}
	line := lineHeight(c.g.word)
	for _, i := range c.cylinders {
		b := c.g.bar(barRow{i, -1, 0}, s.index)
		switch {
		case b == nil || b.Text == "":
		case k > 0:
			needs = append(needs, need{s.farEnd(b), line})
		case c.g.wordWidth(b) > 0:
			needs = append(needs, need{c.wordsAt(s, b), layout.Length(c.wordLines)*line + tight + markRadius})
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
				c.drawColumnWords(sf, s, k, b, x(i))
			}
		}
	}
	tab := TabSize(sf, "0", g.tab).H
	for _, i := range c.cylinders {
		cylinder := &g.d.Cylinders[i]
		DrawTab(sf, g.t, cylinder.Number, layout.Point{X: x(i), Y: edge + c.sign*(tight+tab/2)}, g.tab)
		if c.out {
			if b := g.bar(barRow{i, -1, 0}, c.slots[0].index); b != nil {
				layout.TextMiddle(sf, layout.Point{X: x(i), Y: edge + c.sign*(2*tight+tab+lineHeight(g.word)/2)}, layout.Center, b.Text, g.word, g.t.Ink)
			}
		}
		if c.plug > 0 {
			middle := c.plug + layout.Length(c.plugLines)*lineHeight(g.label)/2
			g.plugWords(cylinder, c.pitch-small).draw(sf, g.t, layout.Point{X: x(i), Y: edge + c.sign*middle}, 0)
		}
	}
}

// drawColumnWords draws what stands at a column: the values of marks, the
// words beyond it, and the value of a second scale.
func (c *columnSet) drawColumnWords(sf layout.Surface, s *columnSlot, k int, b *CylinderBar, x layout.Length) {
	g := c.g
	if b.Text == "" {
		c.drawWhy(sf, s, b, x)
		return
	}
	s.drawStandingMarks(sf, g.t, b, x, c.thick, c.valued)
	end := s.zero + c.sign*(s.farEnd(b)*s.length+tight)
	if far := c.wordsAt(s, b); k == 0 && far > s.farEnd(b) {
		end = s.zero + c.sign*(far*s.length+tight+markRadius)
	}
	line := lineHeight(g.word)
	if k > 0 {
		at := layout.Point{X: x, Y: end + c.sign*line/2}
		w := sf.Width(b.Text, g.word)
		patch(sf, g.t, layout.Rect{X: x - w/2, Y: at.Y - sf.CapHeight(g.word)/2, W: w, H: sf.CapHeight(g.word)})
		layout.TextMiddle(sf, at, layout.Center, b.Text, g.word, g.t.Ink)
		return
	}
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
