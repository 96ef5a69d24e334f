package figure

import "gaugesheet/layout"

// tickSide is the side of a box to tick, writeIn the least length of a line to
// write on.
const (
	tickSide = 3.6 * layout.MM
	writeIn  = 28 * layout.MM
)

// NewCheckBoxes is a block "list:" with the name: questions with boxes to
// tick, in as many columns as hold each question on one line.
func NewCheckBoxes(d CheckBoxes) layout.Block {
	return block{"list:" + d.Name, func(t layout.Theme, width layout.Length, level layout.Detail) layout.Frame {
		const most = 3
		columns, w, label := 1, width, layout.Length(0)
		for n := most; n >= 1; n-- {
			columns, w = n, (width-2*wide*layout.Length(n-1))/layout.Length(n)
			if label = labelColumn(t, d.Groups); groupsFit(t, d.Groups, w-label-medium) {
				break
			}
		}
		label = min(label, w*0.3)
		gap := [...]layout.Length{layout.Full: small, layout.Compact: tight + 1, layout.Brief: tight}[level]
		frames := []layout.Frame{heading(t, d.Title, "", width)}
		for start := 0; start < len(d.Groups); start += columns {
			var row []column
			for _, g := range d.Groups[start:min(start+columns, len(d.Groups))] {
				row = append(row, column{w, beside(medium,
					column{label, inset(textFrame(t, g.Label, layout.Label, t.Muted, label), 1, 0, 0, 0)},
					column{w - label - medium, choices(t, g, w-label-medium)})})
			}
			frames = append(frames, beside(2*wide, row...))
		}
		return stack(gap, frames...)
	}}
}

// labelColumn is the width of the longest question.
func labelColumn(t layout.Theme, groups []CheckGroup) (w layout.Length) {
	for _, g := range groups {
		w = max(w, t.Measurer.Width(g.Label, t.Face(layout.Label)))
	}
	return w
}

// groupsFit reports whether every group's answers go on a line of the width.
func groupsFit(t layout.Theme, groups []CheckGroup, width layout.Length) bool {
	face := t.Face(layout.Label)
	for _, g := range groups {
		var need layout.Length
		for _, c := range g.Choices {
			need += tickSide + small + t.Measurer.Width(c, face) + wide
		}
		if g.WriteIn != "" {
			need += t.Measurer.Width(g.WriteIn, face) + small + writeIn + wide
		}
		if need-wide > width {
			return false
		}
	}
	return true
}

// A tickItem is a box with its words, or a line to write on.
type tickItem struct {
	at     layout.Point
	text   []string
	ticked bool
	line   layout.Length // length of the line to write on; 0 for a box
}

// choices sets the boxes of a group one after another, on as many lines as
// they need.
func choices(t layout.Theme, g CheckGroup, width layout.Length) layout.Frame {
	face := t.Face(layout.Label)
	pitch := max(lineHeight(face), tickSide+tight)
	var items []tickItem
	var x, y layout.Length
	place := func(need layout.Length, lines int) layout.Point {
		if x > 0 && x+need > width {
			x, y = 0, y+pitch
		}
		at := layout.Point{X: x, Y: y}
		x += need + wide
		if lines > 1 {
			x, y = 0, y+layout.Length(lines-1)*lineHeight(face)+pitch
		}
		return at
	}
	for i, c := range g.Choices {
		lines := breakLines(t.Measurer, c, face, width-tickSide-small)
		need := tickSide + small
		for _, l := range lines {
			need = max(need, tickSide+small+t.Measurer.Width(l, face))
		}
		items = append(items, tickItem{at: place(need, len(lines)), text: lines, ticked: i < len(g.Ticked) && g.Ticked[i]})
	}
	if g.WriteIn != "" {
		lines := breakLines(t.Measurer, g.WriteIn, face, width*0.6)
		w := t.Measurer.Width(lines[0], face)
		at := place(w+small+writeIn, len(lines))
		items = append(items, tickItem{at: at, text: lines, line: width - at.X - w - small})
		x = max(x, 1)
	}
	height := y + pitch
	if x == 0 && y > 0 {
		height = y
	}
	return layout.Frame{Height: height, Draw: func(s layout.Surface, a layout.Rect) {
		for _, it := range items {
			it.draw(s, t, a.TopLeft().Add(it.at.X, it.at.Y))
		}
	}}
}

func (it tickItem) draw(s layout.Surface, t layout.Theme, at layout.Point) {
	face := t.Face(layout.Label)
	top := at.Y + max(0, (tickSide-lineHeight(face))/2) + 1
	x := at.X
	if it.line == 0 {
		box := layout.Rect{X: at.X + 0.5, Y: at.Y + 1, W: tickSide, H: tickSide}
		s.Stroke(layout.RectPath(box), layout.Pen{Width: thin, Color: t.Ink})
		if it.ticked {
			DrawMark(s, t, Good, box.Center(), tickSide*0.8)
		}
		x += tickSide + small
	}
	for i, l := range it.text {
		s.Text(layout.Point{X: x, Y: baseline(s, face, top+layout.Length(i)*lineHeight(face))}, l, face, t.Ink)
	}
	if it.line > 0 {
		from := x + s.Width(it.text[0], face) + small
		y := baseline(s, face, top) + 1.5
		s.Stroke(layout.Polyline(layout.Point{X: from, Y: y}, layout.Point{X: from + it.line, Y: y}), layout.Pen{Width: thin, Color: t.Muted})
	}
}

// NewFieldLines is a block "list:" with the name: labels with a line to write
// on behind each.
func NewFieldLines(d FieldLines) layout.Block {
	return block{"list:" + d.Name, func(t layout.Theme, width layout.Length, level layout.Detail) layout.Frame {
		columns := max(d.Columns, 1)
		if d.Columns == 0 {
			columns = 2
		}
		if level == layout.Brief {
			columns++
		}
		w := (width - wide*layout.Length(columns-1)) / layout.Length(columns)
		pitch := [...]layout.Length{layout.Full: 7.6, layout.Compact: 7.3, layout.Brief: 7}[level] * layout.MM
		frames := []layout.Frame{heading(t, d.Title, "", width)}
		for start := 0; start < len(d.Fields); start += columns {
			var row []column
			for _, f := range d.Fields[start:min(start+columns, len(d.Fields))] {
				row = append(row, column{w, fieldLine(t, f, w, pitch)})
			}
			frames = append(frames, beside(wide, row...))
		}
		return stack(0, frames...)
	}}
}

// fieldLine is a label with a line behind it, the value on the line if there
// is one. At least two fifths of the width are line.
func fieldLine(t layout.Theme, f Field, width, pitch layout.Length) layout.Frame {
	label, value := t.Face(layout.Label), t.Face(layout.Body)
	names := breakLines(t.Measurer, f.Name, label, width*0.6-small)
	var named layout.Length
	for _, n := range names {
		named = max(named, t.Measurer.Width(n, label))
	}
	values := breakLines(t.Measurer, f.Value, value, width-named-small)
	height := max(pitch, layout.Length(len(names))*lineHeight(label)+small, layout.Length(len(values))*lineHeight(value)+small)
	return layout.Frame{Height: height, Draw: func(s layout.Surface, a layout.Rect) {
		line := a.Y + height - 2
		y := line - layout.Length(len(names))*lineHeight(label)
		for _, n := range names {
			s.Text(layout.Point{X: a.X, Y: baseline(s, label, y)}, n, label, t.Muted)
			y += lineHeight(label)
		}
		from := a.X + named + small
		y = line - layout.Length(len(values))*lineHeight(value)
		for _, v := range values {
			s.Text(layout.Point{X: from, Y: baseline(s, value, y)}, v, value, t.Ink)
			y += lineHeight(value)
		}
		s.Stroke(layout.Polyline(layout.Point{X: from, Y: line}, layout.Point{X: a.X + width, Y: line}), layout.Pen{Width: thin, Color: t.Muted})
	}}
}
