package figure

import (
	"slices"
	"strings"

	"gaugesheet/layout"
)

// A Table is a table of words and numbers.
type Table struct {
	Name, Title, Sub string
	Columns          []Column
	Rows             [][]string
	Captions         []string
	Pen              bool   // rows for handwriting: at least 7 mm high
	RunOn            bool   // at compact the rows run on as a paragraph
	Sum              string // what the rows come to, in place of them at brief
}

// A Column is a column of a table.
type Column struct {
	Head    string
	Numbers bool    // aligned at the right
	Share   float64 // of the width; 0 as wide as its words need
}

// NewTable is a block "table:" with the table's name. It gets closer at
// compact and at brief; one that may runs on as a paragraph, and at brief only
// says what its rows come to.
func NewTable(d Table) layout.Block {
	return block{"table:" + d.Name, func(t layout.Theme, width layout.Length, level layout.Detail) layout.Frame {
		if d.RunOn && level != layout.Full {
			if d.Sum != "" && level == layout.Brief {
				return stack(0, heading(t, d.Title, d.Sum, width), captionLines(t, d.Captions, width, level))
			}
			return stack(0, heading(t, d.Title, d.Sub, width), rowsRunOn(t, d, width), captionLines(t, d.Captions, width, level))
		}
		set := newTableSetting(t, d, width, level)
		frames := []layout.Frame{set.header(), rule(layout.Pen{Width: outline, Color: t.Ink})}
		for _, r := range d.Rows {
			frames = append(frames, set.row(r), rule(layout.Pen{Width: hairline, Color: t.Line}))
		}
		gap := [...]layout.Length{layout.Full: small - 1, layout.Compact: tight, layout.Brief: 0}[level]
		return stack(gap, heading(t, d.Title, d.Sub, width), set.columnLines(stack(0, frames...)), captionLines(t, d.Captions, width, level))
	}}
}

// rowsRunOn sets each row as a name with its values behind it.
func rowsRunOn(t layout.Theme, d Table, width layout.Length) layout.Frame {
	var runs []layout.Run
	for i, r := range d.Rows {
		values := strings.Join(slices.DeleteFunc(slices.Clone(r[min(len(r), 1):]), func(s string) bool { return s == "" }), " ")
		if i < len(d.Rows)-1 {
			values += runOnDot
		}
		runs = append(runs, run(t, layout.Note, t.Muted, r[0]+":"), run(t, layout.Note, t.Ink, values))
	}
	return paragraph(t, width, layout.Left, runs...)
}

// A tableSetting is a table with the widths of its columns.
type tableSetting struct {
	t      layout.Theme
	d      Table
	widths []layout.Length
	role   layout.Role
	pad    layout.Length // above and below the words of a row
	least  layout.Length // height of a row
}

const cellGap = medium

func newTableSetting(t layout.Theme, d Table, width layout.Length, level layout.Detail) tableSetting {
	s := tableSetting{t: t, d: d, role: layout.Label}
	s.pad = [...]layout.Length{layout.Full: 2.5, layout.Compact: 1.2, layout.Brief: 0.4}[level]
	if level == layout.Brief {
		s.role = layout.Note
		if t.Close {
			s.pad = 0
		}
	}
	if d.Pen {
		s.least = [...]layout.Length{layout.Full: 7.8 * layout.MM, layout.Compact: 7.4 * layout.MM, layout.Brief: 7.05 * layout.MM}[level]
	}
	s.widths = columnWidths(t, d, width, s.role)
	return s
}

// columnWidths gives columns with a share their part of the width and the
// others what their words need; a table of needs alone is spread over the
// width, and one that needs too much gives way where it is widest.
func columnWidths(t layout.Theme, d Table, width layout.Length, role layout.Role) []layout.Length {
	room := width - cellGap*layout.Length(max(len(d.Columns)-1, 0))
	widths := make([]layout.Length, len(d.Columns))
	var shares float64
	var needed layout.Length
	for i, c := range d.Columns {
		if c.Share > 0 {
			shares += c.Share
			continue
		}
		widths[i] = t.Measurer.Width(c.Head, t.Face(layout.Note))
		for _, r := range d.Rows {
			if i < len(r) {
				widths[i] = max(widths[i], t.Measurer.Width(r[i], t.Face(role)))
			}
		}
		needed += widths[i]
	}
	limit := room
	if shares > 0 {
		limit = room * 0.6
	}
	for needed > limit+0.01 {
		needed = narrowWidest(widths, needed-limit)
	}
	for i, c := range d.Columns {
		switch {
		case shares > 0 && c.Share > 0:
			widths[i] = (room - needed) * layout.Length(c.Share/shares)
		case shares == 0 && needed > 0:
			widths[i] += (room - needed) / layout.Length(len(widths))
		case shares == 0:
			widths[i] = room / layout.Length(len(widths))
		}
	}
	widenForHeads(t, d, widths)
	return widths
}

// widenForHeads gives columns too narrow for a word of their heading what
// others can spare.
func widenForHeads(t layout.Theme, d Table, widths []layout.Length) {
	least := make([]layout.Length, len(widths))
	var lack, spare layout.Length
	for i, c := range d.Columns {
		for _, word := range strings.Fields(c.Head) {
			least[i] = max(least[i], t.Measurer.Width(word, t.Face(layout.Note))+0.1)
		}
		lack += max(0, least[i]-widths[i])
		if c.Share > 0 {
			spare += max(0, widths[i]-least[i])
		}
	}
	if lack == 0 || spare < lack {
		return
	}
	for i, c := range d.Columns {
		switch {
		case widths[i] < least[i]:
			widths[i] = least[i]
		case c.Share > 0:
			widths[i] -= lack * (widths[i] - least[i]) / spare
		}
	}
}

// narrowWidest takes up to a length off the widest column, down to the next
// widest, and gives the new sum.
func narrowWidest(widths []layout.Length, off layout.Length) (sum layout.Length) {
	first, next := 0, layout.Length(0)
	for i, w := range widths {
		if w > widths[first] {
			first = i
		}
	}
	for i, w := range widths {
		if i != first {
			next = max(next, w)
		}
	}
	step := min(off, max(widths[first]-next, off/layout.Length(len(widths))))
	widths[first] -= step
	for _, w := range widths {
		sum += w
	}
	return sum
}

func (s tableSetting) header() layout.Frame {
	heads := make([]string, len(s.d.Columns))
	for i, c := range s.d.Columns {
		heads[i] = c.Head
	}
	return s.cells(heads, layout.Note, s.t.Muted, s.pad)
}

func (s tableSetting) row(texts []string) layout.Frame {
	f := s.cells(texts, s.role, s.t.Ink, s.pad)
	if f.Height < s.least {
		top := (s.least - f.Height) / 2
		f = inset(f, top, 0, s.least-f.Height-top, 0)
	}
	return f
}

func (s tableSetting) cells(texts []string, role layout.Role, c layout.Color, pad layout.Length) layout.Frame {
	columns := make([]column, len(s.d.Columns))
	for i, col := range s.d.Columns {
		text := ""
		if i < len(texts) {
			text = texts[i]
		}
		frame := textFrame(s.t, text, role, c, s.widths[i])
		if col.Numbers && !s.d.Pen {
			frame = alignRight(s.t, text, role, c, s.widths[i])
		}
		columns[i] = column{s.widths[i], frame}
	}
	return inset(beside(cellGap, columns...), pad, 0, pad, 0)
}

// columnLines draws lines between the columns of a table to be written in.
func (s tableSetting) columnLines(f layout.Frame) layout.Frame {
	if !s.d.Pen {
		return f
	}
	return behind(f, func(surface layout.Surface, a layout.Rect) {
		x := a.X
		for _, w := range s.widths[:max(len(s.widths)-1, 0)] {
			x += w + cellGap
			line := layout.Polyline(layout.Point{X: x - cellGap/2, Y: a.Y}, layout.Point{X: x - cellGap/2, Y: a.Bottom()})
			surface.Stroke(line, layout.Pen{Width: hairline, Color: s.t.Line})
		}
	})
}
