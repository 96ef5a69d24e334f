package figure

import "gaugesheet/layout"

// penTall is the height of a row of larger boxes, tallStretch by how much rows
// may grow on a page with room.
const (
	penTall     = 14 * layout.MM
	tallStretch = 4 * layout.MM
)

// NewPenTable is a block "form:" with the name: a row of boxes to each
// cylinder, under the letters of the steps that they are filled in at.
func NewPenTable(d PenTable) layout.Block {
	return block{"form:" + d.Name, func(t layout.Theme, width layout.Length, level layout.Detail) layout.Frame {
		p := penGrid{t: t, columns: append([]PenColumn{d.Tabs}, d.Columns...), rows: d.Rows, brief: level == layout.Brief}
		p.row = penRows[level]
		if d.Tall {
			p.row = max(p.row, penTall)
		}
		for _, number := range d.Rows {
			p.row = max(p.row, newPenTab(t, number).size.H+2*tight)
		}
		p.head = p.heads()
		p.widths = p.share(width)
		n := layout.Length(len(d.Rows))
		return heard(layout.Table, layout.Frame{Height: p.head + n*p.row, Stretch: n * tallStretch, Draw: p.draw})
	}}
}

// A penGrid is a table of boxes with its measures.
type penGrid struct {
	t         layout.Theme
	columns   []PenColumn
	rows      []string
	widths    []layout.Length
	head, row layout.Length
	brief     bool // letters in the line of the names
}

// heads is the height of the headings: the letters over the names or, where
// room is short, before them.
func (p penGrid) heads() layout.Length {
	height := lineHeight(p.headFace()) + 1
	if p.brief {
		return max(height, p.t.Measurer.CapHeight(p.letterFace())+tight+small)
	}
	for _, c := range p.columns {
		if c.Letter != "" {
			return height + p.t.Measurer.CapHeight(p.letterFace()) + small
		}
	}
	return height
}

// share gives each column its least width and an equal part of what is over.
func (p penGrid) share(width layout.Length) []layout.Length {
	widths := make([]layout.Length, len(p.columns))
	free := width
	for _, number := range p.rows {
		widths[0] = max(widths[0], newPenTab(p.t, number).size.W+2*tight)
	}
	for i, c := range p.columns {
		widths[i] = max(widths[i], c.Least, penLeast, p.letterWidth(c)+p.t.Measurer.Width(c.Head, p.headFace())+2*tight)
		free -= widths[i]
	}
	for i := range widths[1:] {
		widths[i+1] += free / layout.Length(len(widths)-1)
	}
	return widths
}

// letterWidth is the room of a letter before the name of its column.
func (p penGrid) letterWidth(c PenColumn) layout.Length {
	if c.Letter == "" || !p.brief {
		return 0
	}
	return p.t.Measurer.Width(c.Letter, p.letterFace()) + tight
}

func (p penGrid) headFace() layout.Face {
	f := p.t.Face(layout.Note)
	f.Weight = layout.Bold
	return f
}

// letterFace is that of the letters of steps: where room is short, in the line
// of the names, smaller.
func (p penGrid) letterFace() layout.Face {
	if p.brief {
		return p.t.Face(layout.Heading)
	}
	return p.t.Face(layout.Title)
}

func (p penGrid) draw(s layout.Surface, a layout.Rect) {
	heads, grid := a.SplitTop(p.head)
	row := grid.H / layout.Length(len(p.rows))
	x := a.X
	layout.Tag{Kind: layout.TableRow}.Draw(s, func() {
		for i, c := range p.columns {
			layout.Tag{Kind: layout.HeadAbove}.Draw(s, func() { p.heading(s, c, x, heads) })
			x += p.widths[i]
		}
	})
	x = a.X
	for i, c := range p.columns {
		pen := layout.Pen{Width: thin, Color: p.t.Ink}
		if i == 0 || c.Letter != "" {
			pen.Width = heavy
		}
		s.Stroke(layout.Polyline(layout.Point{X: x + inkInset(i), Y: grid.Y}, layout.Point{X: x + inkInset(i), Y: grid.Bottom()}), pen)
		x += p.widths[i]
	}
	frame := layout.Rect{X: a.X, Y: grid.Y, W: x - a.X, H: grid.H}.Inset(heavy / 2)
	s.Stroke(layout.RectPath(frame), layout.Pen{Width: heavy, Color: p.t.Ink})
	for i, number := range p.rows {
		y := grid.Y + layout.Length(i)*row
		if i > 0 {
			s.Stroke(layout.Polyline(layout.Point{X: a.X, Y: y}, layout.Point{X: x, Y: y}), layout.Pen{Width: thin, Color: p.t.Ink})
		}
		layout.Tag{Kind: layout.TableRow}.Draw(s, func() {
			layout.Tag{Kind: layout.HeadLeft}.Draw(s, func() {
				newPenTab(p.t, number).draw(s, p.t, layout.Point{X: a.X + p.widths[0]/2, Y: y + row/2})
			})
			layout.Tag{Kind: layout.DataCell, Span: len(p.columns) - 1}.Draw(s, func() {}) // to be written in
		})
	}
}

// inkInset keeps the line at the left edge inside the table.
func inkInset(column int) layout.Length {
	if column == 0 {
		return heavy / 2
	}
	return 0
}

func (p penGrid) heading(s layout.Surface, c PenColumn, x layout.Length, heads layout.Rect) {
	face, letter := p.headFace(), p.letterFace()
	at := layout.Point{X: x + tight, Y: heads.Bottom() - s.Descent(face) - 1}
	above := at
	if !p.brief {
		above.Y -= s.CapHeight(face) + small
	}
	if c.Letter != "" {
		s.Text(above, c.Letter, letter, p.t.Ink)
	}
	s.Text(at.Add(p.letterWidth(c), 0), c.Head, face, p.t.Ink)
}
