package figure

import (
	"slices"

	"gaugesheet/layout"
)

// CheckBoxes describes boxes to tick, in groups of one answer each.
type CheckBoxes struct {
	Name, Title string
	Groups      []CheckGroup
}

// A CheckGroup is a question with its answers and perhaps a line to write on.
type CheckGroup struct {
	Label   string
	Choices []string
	Ticked  []bool // by choice; nil for none
	WriteIn string // what a short line after the choices is for: "V at rest"; empty for no line
}

// FieldLines describes labels with a line to write on behind each.
type FieldLines struct {
	Name, Title string
	Fields      []Field // a field with a value shows it on the line
	Columns     int     // 0 is 2
}

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
		if level == layout.Brief {
			return stack(tight, heading(t, d.Title, "", width), groupsRunOn(t, d.Groups, width))
		}
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
					column{label, inset(textFrame(t, g.Label, layout.Label, t.Muted, label), tickTop(t), 0, 0, 0)},
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
	return !slices.ContainsFunc(groups, func(g CheckGroup) bool { return groupWidth(t, g, false) > width })
}

// groupsRunOn sets the groups one after another, each on one line if it can.
func groupsRunOn(t layout.Theme, groups []CheckGroup, width layout.Length) layout.Frame {
	set := tickSetter{t: t, width: width}
	for _, g := range groups {
		if need := groupWidth(t, g, true); set.x > 0 && set.x+need > width {
			set.newLine()
		}
		set.label(g.Label)
		set.group(g, g.WriteIn != "" && len(g.Choices) > 0)
		set.x += medium
	}
	return set.frame()
}

// groupWidth is how long a group is on one line.
func groupWidth(t layout.Theme, g CheckGroup, labelled bool) (need layout.Length) {
	face := t.Face(layout.Label)
	if labelled {
		need = t.Measurer.Width(g.Label, face) + medium
	}
	for _, c := range g.Choices {
		need += tickSide + small + t.Measurer.Width(c, face) + wide
	}
	if g.WriteIn != "" {
		need += t.Measurer.Width(g.WriteIn, face) + small + writeIn + wide
	}
	return need - wide
}

// tickTop is how far below the top of its line the words beside a box begin.
func tickTop(t layout.Theme) layout.Length {
	return max(0, (tickSide-lineHeight(t.Face(layout.Label)))/2) + 1
}

// A tickItem is a box with its words, or a line to write on, or words alone.
type tickItem struct {
	at     layout.Point
	text   []string
	box    bool
	ticked bool
	line   layout.Length // length of the line to write on
}

// choices sets the boxes of a group one after another, on as many lines as
// they need.
func choices(t layout.Theme, g CheckGroup, width layout.Length) layout.Frame {
	set := tickSetter{t: t, width: width}
	set.group(g, false)
	return set.frame()
}

// A tickSetter sets boxes and lines to write on from left to right.
type tickSetter struct {
	t     layout.Theme
	width layout.Length
	x, y  layout.Length
	items []tickItem
}

func (b *tickSetter) pitch() layout.Length {
	return max(lineHeight(b.t.Face(layout.Label)), tickSide+tight)
}

func (b *tickSetter) newLine() { b.x, b.y = 0, b.y+b.pitch() }

// label sets quiet words before a group; those too long for a line have lines
// of their own.
func (b *tickSetter) label(text string) {
	face := b.t.Face(layout.Label)
	lines := breakLines(b.t.Measurer, text, face, b.width)
	if len(lines) == 0 {
		return
	}
	if b.x > 0 && b.x+b.t.Measurer.Width(text, face) > b.width {
		b.newLine()
	}
	b.items = append(b.items, tickItem{at: layout.Point{X: b.x, Y: b.y}, text: lines})
	if len(lines) > 1 {
		b.y += layout.Length(len(lines)-1) * lineHeight(face)
		b.newLine()
		return
	}
	b.x += b.t.Measurer.Width(text, face) + medium
}

// place finds room for an item of a width and a number of lines.
func (b *tickSetter) place(need layout.Length, lines int) layout.Point {
	if b.x > 0 && b.x+need > b.width {
		b.newLine()
	}
	at := layout.Point{X: b.x, Y: b.y}
	b.x += need + wide
	if lines > 1 {
		b.y += layout.Length(lines-1) * lineHeight(b.t.Face(layout.Label))
		b.newLine()
	}
	return at
}

// group sets a group's boxes and its line to write on, which runs to the right
// edge, or where it is short only as far as it must.
func (b *tickSetter) group(g CheckGroup, short bool) {
	face := b.t.Face(layout.Label)
	m := b.t.Measurer
	for i, c := range g.Choices {
		lines := breakLines(m, c, face, b.width-tickSide-small)
		need := tickSide + small
		for _, l := range lines {
			need = max(need, tickSide+small+m.Width(l, face))
		}
		b.items = append(b.items, tickItem{at: b.place(need, len(lines)), text: lines, box: true, ticked: i < len(g.Ticked) && g.Ticked[i]})
	}
	if g.WriteIn == "" {
		return
	}
	lines := breakLines(m, g.WriteIn, face, b.width*0.6)
	w := m.Width(lines[0], face)
	at := b.place(w+small+writeIn, len(lines))
	line := b.width - at.X - w - small
	if short {
		line = min(line, writeIn)
	} else {
		b.x = b.width
	}
	b.items = append(b.items, tickItem{at: at, text: lines, line: line})
}

func (b *tickSetter) frame() layout.Frame {
	height := b.y + b.pitch()
	if b.x == 0 && b.y > 0 {
		height = b.y
	}
	items, t := b.items, b.t
	return layout.Frame{Height: height, Draw: func(s layout.Surface, a layout.Rect) {
		for _, it := range items {
			it.draw(s, t, a.TopLeft().Add(it.at.X, it.at.Y))
		}
	}}
}

func (it tickItem) draw(s layout.Surface, t layout.Theme, at layout.Point) {
	face := t.Face(layout.Label)
	top := at.Y + tickTop(t)
	x := at.X
	ink := t.Ink
	if !it.box && it.line == 0 {
		ink = t.Muted
	}
	if it.box {
		box := layout.Rect{X: at.X + 0.5, Y: at.Y + 1, W: tickSide, H: tickSide}
		s.Stroke(layout.RectPath(box), layout.Pen{Width: thin, Color: t.Ink})
		if it.ticked {
			DrawMark(s, t, Within, box.Center(), tickSide*0.8)
		}
		x += tickSide + small
	}
	for i, l := range it.text {
		s.Text(layout.Point{X: x, Y: baseline(s, face, top+layout.Length(i)*lineHeight(face))}, l, face, ink)
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
		var row []column
		used := 0
		for _, f := range d.Fields {
			need := 1
			if used+2 <= columns && !fieldFits(t, f, w) {
				need = 2
			}
			span := w*layout.Length(need) + wide*layout.Length(need-1)
			row = append(row, column{span, fieldLine(t, f, span, pitch)})
			if used += need; used >= columns {
				frames = append(frames, beside(wide, row...))
				row, used = nil, 0
			}
		}
		if len(row) > 0 {
			frames = append(frames, beside(wide, row...))
		}
		return stack(0, frames...)
	}}
}

// fieldFits reports whether a field goes on one line.
func fieldFits(t layout.Theme, f Field, width layout.Length) bool {
	m := t.Measurer
	return m.Width(f.Name, t.Face(layout.Label))+small+m.Width(f.Value, t.Face(layout.Body)) <= width
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
