package figure

import (
	"math"

	"gaugesheet/layout"
)

// headRoom is between the headings and the line under them.
const headRoom layout.Length = 1.5

// header is the headings, each at the foot of its lines, so that it stands
// over its numbers.
func (s *tableSetting) header() layout.Frame {
	var frames []layout.Frame
	var at []layout.Length
	var highest layout.Length
	for i, c := range s.d.Columns {
		if c.Joins {
			continue
		}
		last := s.lastJoined(i)
		width := s.x(last) + s.widths[last] - s.x(i)
		f := s.tab(c.Heading)
		if !c.HeadTab {
			f = paragraph(s.t, width, s.alignment(s.d.Columns[last]), run(s.t, layout.Note, s.t.Ink, c.Heading))
		}
		f = layout.Tag{Kind: layout.HeadAbove, Span: last - i + 1}.Frame(f)
		frames, at = append(frames, f), append(at, s.x(i))
		highest = max(highest, f.Height)
	}
	whole := layout.Frame{Height: highest, Draw: func(surface layout.Surface, a layout.Rect) {
		for i, f := range frames {
			f.Draw(surface, layout.Rect{X: a.X + at[i], Y: a.Y + highest - f.Height, W: a.W, H: f.Height})
		}
	}}
	if highest == 0 {
		return empty()
	}
	return heard(layout.TableRow, inset(whole, 0, 0, headRoom, 0))
}

func (s *tableSetting) alignment(c Column) layout.Align {
	if c.Numbers {
		return layout.Right
	}
	return layout.Left
}

// row is one row, as high as its highest cell.
func (s *tableSetting) row(r TableRow) layout.Frame {
	cells := make([]layout.Frame, len(s.d.Columns))
	var height layout.Length
	for i := range s.d.Columns {
		cells[i] = empty()
		if i < len(r.Cells) && !r.Cells[i].empty() {
			cells[i] = s.cell(i, r.Cells[i], s.cellRoom(r, i))
		}
		height = max(height, cells[i].Height)
	}
	line := lineHeight(s.t.Face(s.role))
	height = max(height, line)
	pad := max(s.pad, (s.least-height)/2)
	return layout.Frame{Height: height + 2*pad, Draw: func(surface layout.Surface, a layout.Rect) {
		if r.Shade { // by lines: a fax breaks a tint up into dots, through which nobody reads
			for _, y := range []layout.Length{a.Y, a.Bottom()} {
				surface.Stroke(layout.Polyline(layout.Point{X: a.X, Y: y}, layout.Point{X: a.X + s.own(), Y: y}), layout.Pen{Width: outline, Color: s.t.Ink})
			}
		}
		layout.Tag{Kind: layout.TableRow}.Draw(surface, func() {
			for i := 0; i < len(cells); {
				tag := layout.Tag{Kind: layout.DataCell, Span: s.lastHeard(r, i) - i + 1}
				if i == 0 {
					tag.Kind = layout.HeadLeft
				}
				f := cells[i]
				tag.Draw(surface, func() {
					f.Draw(surface, layout.Rect{X: a.X + s.x(i), Y: a.Y + pad, W: s.widths[i], H: f.Height})
				})
				i += tag.Span
			}
		})
	}}
}

// runsOver reports a cell that runs over empty ones behind it.
func (s *tableSetting) runsOver(r TableRow, i int) bool {
	return r.Cells[i].Runs && i+1 < len(s.d.Columns) && r.emptyAt(i+1)
}

// cellRoom is the width that a cell has: its column's, and those of the empty
// ones behind it where it runs over them.
func (s *tableSetting) cellRoom(r TableRow, i int) layout.Length {
	last := s.lastOver(r, i)
	return s.x(last) + s.widths[last] - s.x(i)
}

// lastOver is the last column that a cell reaches over.
func (s *tableSetting) lastOver(r TableRow, i int) int {
	if i >= len(r.Cells) || !s.runsOver(r, i) {
		return i
	}
	last := i
	for last+1 < len(s.d.Columns) && r.emptyAt(last+1) {
		last++
	}
	return last
}

// lastHeard is lastOver for who hears the table: what is empty under one heading
// with a cell is one with it.
func (s *tableSetting) lastHeard(r TableRow, i int) int {
	last := s.lastOver(r, i)
	for last+1 < len(s.d.Columns) && s.d.Columns[last+1].Joins && r.emptyAt(last+1) {
		last++
	}
	return last
}

func (s *tableSetting) cell(i int, c TableCell, width layout.Length) layout.Frame {
	column := s.d.Columns[i]
	if column.Trend {
		return s.trend(i, c.Trend)
	}
	if column.Tab {
		return s.tab(c.Text)
	}
	if left, right, ok := s.split(column, c); ok && right <= s.right[i] && s.left[i]+s.right[i] <= width+0.01 {
		return s.number(column, c, width-s.right[i]-left)
	}
	face := s.face(column, c)
	first := run(s.t, s.role, s.t.Ink, c.Text)
	first.Face = face
	words := paragraph(s.t, width-s.markRoom(c), layout.Left, first, run(s.t, s.role, s.t.Ink, c.Note))
	if c.Mark == NoMark {
		return words
	}
	words.Height = max(words.Height, lineHeight(face))
	size := markSize(s.t, s.t.Face(s.role))
	return behind(inset(words, 0, 0, 0, s.markRoom(c)), func(surface layout.Surface, a layout.Rect) {
		says := c.Mark
		if c.Told {
			says = NoMark
		}
		drawSign(surface, s.t, c.Mark, says, c.Text+" "+c.Note, layout.Point{X: a.X + size/2, Y: s.middle(surface, a.Y)}, size)
	})
}

// middle is half the height of a capital on the first line of a cell.
func (s *tableSetting) middle(m layout.Measurer, top layout.Length) layout.Length {
	face := s.t.Face(s.role)
	return baseline(m, face, top) - m.CapHeight(face)/2
}

func (s *tableSetting) tab(number string) layout.Frame {
	face := s.t.Face(s.role)
	w := TabSize(s.t.Measurer, number, face).W
	return layout.Frame{Height: lineHeight(face), Draw: func(surface layout.Surface, a layout.Rect) {
		DrawTab(surface, s.t, number, layout.Point{X: a.X + w/2, Y: s.middle(surface, a.Y)}, face)
	}}
}

// number is a number whose decimal stands over those of its column.
func (s *tableSetting) number(column Column, c TableCell, x layout.Length) layout.Frame {
	face := s.face(column, c)
	note := s.t.Face(s.role)
	return layout.Frame{Height: lineHeight(face), Draw: func(surface layout.Surface, a layout.Rect) {
		at := layout.Point{X: a.X + x, Y: baseline(surface, face, a.Y)}
		surface.Text(at, c.Text, face, s.t.Ink)
		if c.Note != "" {
			surface.Text(at.Add(surface.Width(c.Text, face), 0), " "+c.Note, note, s.t.Ink)
		}
	}}
}

// trendWidth is the width of a column of curves.
const trendWidth layout.Length = 44

// trend is the course of a value as a small curve that ends in a dot, on one
// scale for the column: from the lowest to the highest value in it.
func (s *tableSetting) trend(i int, values []float64) layout.Frame {
	low, high := math.Inf(1), math.Inf(-1)
	for _, r := range s.d.Rows {
		if i < len(r.Cells) {
			for _, v := range r.Cells[i].Trend {
				if !math.IsNaN(v) {
					low, high = min(low, v), max(high, v)
				}
			}
		}
	}
	height := lineHeight(s.t.Face(s.role))
	return layout.Frame{Height: height, Draw: func(surface layout.Surface, a layout.Rect) {
		const dot = 1.5
		var points []layout.Point
		for k, v := range values {
			if math.IsNaN(v) {
				continue
			}
			up := 0.5
			if high > low {
				up = (v - low) / (high - low)
			}
			points = append(points, layout.Point{
				X: a.X + dot + (trendWidth-2*dot)*layout.Length(float64(k)/float64(max(len(values)-1, 1))),
				Y: a.Y + height - 2 - (height-4)*layout.Length(up),
			})
		}
		layout.Tag{Kind: layout.Decoration}.Draw(surface, func() { // the values stand in the columns before it
			if len(points) > 1 {
				surface.Stroke(layout.Polyline(points...), layout.Pen{Width: thin, Color: s.t.Ink})
			}
			if len(points) > 0 {
				surface.Fill(layout.Circle(points[len(points)-1], dot), s.t.Ink)
			}
		})
	}}
}
