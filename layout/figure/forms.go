package figure

import "gaugesheet/layout"

// FieldLines describes labels with a line to write on behind each.
type FieldLines struct {
	Name, Title string
	Fields      []Field // a field with a value shows it on the line
	Columns     int     // 0 is 2
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
