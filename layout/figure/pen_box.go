package figure

import "gaugesheet/layout"

// choiceGap is between a choice and the next, tickGap between a box to tick
// and its word.
const (
	choiceGap = 2.4 * layout.MM
	tickGap   = 1.2 * layout.MM
)

// need is the width that a box asks for: its label on one line, its choices
// beside one another, room to write beside its unit, and a value known already
// in a few lines.
func (p penSetting) need(b PenBox) layout.Length {
	m := p.t.Measurer
	label := p.t.Face(layout.Note)
	w := max(penLeast, m.Width(b.Label, label)+2*penPad)
	if len(b.Choices) > 0 {
		row := 2*penPad - choiceGap
		for _, c := range b.Choices {
			row += p.choiceWidth(c) + choiceGap
		}
		w = max(w, row)
	}
	if b.Unit != "" {
		w = max(w, m.Width(b.Unit, label)+penLeast+penPad)
	}
	if b.Value != "" {
		w = max(w, min(m.Width(b.Value, p.valueFace()), 60*layout.MM)+2*penPad)
	}
	return w + 0.01
}

// choiceWidth is the width of a box to tick with its word.
func (p penSetting) choiceWidth(word string) layout.Length {
	return penTick + tickGap + p.t.Measurer.Width(word, p.t.Face(layout.Label))
}

// A filledBox is a box with its words in lines.
type filledBox struct {
	PenBox
	width        layout.Length
	label, value []string
	ticks        [][]int // choices by line
}

// fill sets a box's words in its width.
func (p penSetting) fill(b PenBox, width layout.Length) filledBox {
	room := width - 2*penPad
	made := filledBox{PenBox: b, width: width}
	made.label = breakLines(p.t.Measurer, b.Label, p.t.Face(layout.Note), room)
	made.value = breakLines(p.t.Measurer, b.Value, p.valueFace(), room)
	x := room
	for i, c := range b.Choices {
		w := p.choiceWidth(c)
		if x+w > room+0.01 {
			made.ticks, x = append(made.ticks, nil), 0
		}
		last := len(made.ticks) - 1
		made.ticks[last] = append(made.ticks[last], i)
		x += w + choiceGap
	}
	return made
}

// height is how high a box must be.
func (p penSetting) height(b filledBox) layout.Length {
	note := p.t.Face(layout.Note)
	h := p.inside()
	if n := len(b.label); n > 0 {
		h += p.t.Measurer.CapHeight(note) + layout.Length(n-1)*lineHeight(note)
	}
	switch {
	case len(b.ticks) > 0:
		h += layout.Length(len(b.ticks))*(penTick+tight) - tight + p.inside() + 1
	case len(b.value) > 0:
		h += p.inside() + layout.Length(len(b.value))*lineHeight(p.valueFace()) + 1
	case len(b.label) > 1 || b.Unit != "" && p.unitLower(b):
		h += lineHeight(note) + tight
	}
	return max(penRows[p.level], h)
}

// unitLower reports a unit that does not fit beside the label's line.
func (p penSetting) unitLower(b filledBox) bool {
	note := p.t.Face(layout.Note)
	return p.t.Measurer.Width(b.Label, note)+p.t.Measurer.Width(b.Unit, note)+3*penPad > b.width
}

// line sets boxes side by side, all as high as the highest.
func (p penSetting) line(boxes []PenBox, widths []layout.Length) layout.Frame {
	var height, room layout.Length
	filled := make([]filledBox, len(boxes))
	for i, b := range boxes {
		filled[i] = p.fill(b, widths[i])
		height = max(height, p.height(filled[i]))
		room = max(room, b.Room)
	}
	return layout.Frame{Height: height, Stretch: penStretch + room, Draw: func(s layout.Surface, a layout.Rect) {
		x := a.X
		for _, b := range filled {
			r := layout.Rect{X: x, Y: a.Y, W: b.width, H: a.H}
			s.Stroke(layout.RectPath(r), layout.Pen{Width: thin, Color: p.t.Ink})
			layout.Tag{Kind: layout.Paragraph}.Draw(s, func() { p.box(s, b, r) })
			x += b.width
		}
	}}
}

// valueFace is the type of what is known already.
func (p penSetting) valueFace() layout.Face {
	if p.level != layout.Brief {
		return p.t.Face(layout.Body)
	}
	f := p.t.Face(layout.Label)
	f.Close = true
	return f
}

// inside is the room between the edge of a box and its label or its ticks.
func (p penSetting) inside() layout.Length {
	return [...]layout.Length{layout.Full: 2.2, layout.Compact: 1.8, layout.Brief: 1.4}[p.level]
}

// box draws what is in a box: its label, and under it its value, its choices or
// its unit.
func (p penSetting) box(s layout.Surface, b filledBox, r layout.Rect) {
	t := p.t
	note, value := t.Face(layout.Note), p.valueFace()
	left := r.X + penPad
	y := r.Y + p.inside() + s.CapHeight(note)
	for i, l := range b.label {
		s.Text(layout.Point{X: left, Y: y + layout.Length(i)*lineHeight(note)}, l, note, t.Ink)
	}
	if n := layout.Length(len(b.ticks)); n > 0 {
		high := n*(penTick+tight) - tight
		top := r.Bottom() - p.inside() - high
		if len(b.label) == 0 {
			top = r.Center().Y - high/2
		}
		for i, line := range b.ticks {
			p.choices(s, b, line, layout.Point{X: left, Y: top + layout.Length(i)*(penTick+tight)})
		}
		return
	}
	for i, l := range b.value {
		up := layout.Length(len(b.value)-1-i) * lineHeight(value)
		s.Text(layout.Point{X: left, Y: r.Bottom() - 3 - up}, l, value, t.Ink)
	}
	if b.Unit != "" && len(b.value) == 0 {
		layout.TextAt(s, layout.Point{X: r.Right() - penPad, Y: r.Bottom() - 3}, layout.Right, b.Unit, note, t.Ink)
	}
}

// choices draws a line of boxes to tick, each with its word behind it.
func (p penSetting) choices(s layout.Surface, b filledBox, line []int, at layout.Point) {
	t := p.t
	word := t.Face(layout.Label)
	for _, i := range line {
		box := layout.Rect{X: at.X, Y: at.Y, W: penTick, H: penTick}
		s.Stroke(layout.RectPath(box), layout.Pen{Width: outline, Color: t.Ink})
		if i < len(b.Ticked) && b.Ticked[i] {
			drawSign(s, t, Within, Ticked, "", box.Center(), penTick*0.8)
		}
		layout.TextMiddle(s, layout.Point{X: at.X + penTick + tickGap, Y: box.Center().Y}, layout.Left, b.Choices[i], word, t.Ink)
		at.X += p.choiceWidth(b.Choices[i]) + choiceGap
	}
}
