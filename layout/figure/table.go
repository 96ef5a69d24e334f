package figure

import (
	"math"
	"slices"
	"strings"

	"gaugesheet/layout"
)

// A Table is a table of words and numbers. It is as wide as its words are and
// no wider, so that a number stands near the cylinder that it is of.
type Table struct {
	Name, Title, Sub string
	Columns          []Column
	Rows             []TableRow
	Captions         []string
	Lines            bool          // a hairline under every row, for rows of words
	RunOn            layout.Detail // from this level on the rows run on as a paragraph; Full for never
	Sum              string        // what the rows come to, in place of them at brief
	Folds            bool          // many rows stand in two columns where the page is wide
}

// A Column is a column of a table.
type Column struct {
	Heading string  // over it; a line feed breaks it
	Numbers bool    // aligned on the decimal; words among them stand at the left
	HeadTab bool    // the heading is a cylinder's number, in its tab
	Tab     bool    // numbers of cylinders, each in its tab
	Strong  bool    // bold throughout
	Trend   bool    // a small curve of each row's Trend
	Joins   bool    // close behind the column before it, under the heading of that
	Plain   bool    // its cells are read without the heading where rows run on
	Share   float64 // of the width that the others leave; 0 as wide as its words need
}

// A TableRow is a row of a table.
type TableRow struct {
	Cells []TableCell
	Shade bool // shaded: what stands out
	Break bool // a hairline above it: what follows is of another bank
	Keep  bool // it stays where only what the rows come to is said
	Brief RowBrief
	Each  []TableCell // of a row in a Further: the name, and what was read of each cylinder
}

// A RowBrief is what a row says where rows run on, in fewer words than its cells
// say it; empty where it has none.
type RowBrief struct {
	Lead   string // of what test it is, said before the first of its rows: "Oil pressure, psi"
	Name   string // "cranking"; rows of one name that follow one another say it once
	Says   string // "8"
	Limit  string // "(at least 5)"
	Judged string // "outside"
}

// A TableCell is what a row says in a column.
type TableCell struct {
	Mark Mark
	Text string
	Note string // quieter, behind the text
	Bold bool
	Runs bool // over the empty cells behind it
	Told bool // the text says what the mark does

	// Trend is a value's course, oldest first; NaN where one is missing.
	Trend []float64
}

func (c TableCell) empty() bool {
	return c.Mark == NoMark && c.Text == "" && c.Note == "" && len(c.Trend) == 0
}

// emptyAt reports a column in which the row has nothing.
func (r TableRow) emptyAt(i int) bool { return i >= len(r.Cells) || r.Cells[i].empty() }

// TextRow is a row of plain texts.
func TextRow(texts ...string) TableRow {
	r := TableRow{Cells: make([]TableCell, len(texts))}
	for i, text := range texts {
		r.Cells[i].Text = text
	}
	return r
}

// NewTable is a block "table:" with the table's name. It gets closer at
// compact and at brief; one that may runs on as a paragraph, and at brief only
// says what its rows come to. In less width than its columns need it runs on
// too, and says that it is too narrow.
func NewTable(d Table) layout.Block {
	return tableBlock{block{"table:" + d.Name, func(t layout.Theme, width layout.Length, level layout.Detail) layout.Frame {
		captions := captionLines(t, d.Captions, width, level)
		switch {
		case d.Sum != "" && level == layout.Brief:
			f := headed(t, width, run(t, layout.Heading, t.Ink, d.Title), run(t, layout.Label, t.Ink, d.Sum))
			f.Richer = richer(f, ruled(t, d, width), tableRunOn(t, d, width, captions))
			return f
		case d.RunOn != layout.Full && level >= d.RunOn:
			f := tableRunOn(t, d, width, captions)()
			f.Richer = richer(f, ruled(t, d, width))
			return f
		}
		f, ok := tableFrame(t, d, width, level)
		if !ok {
			f = tableRunOn(t, d, width, captions)()
			f.Narrow = true
		}
		return f
	}}, d}
}

// tableFrame is a table in rows and columns; it is false where the width is
// too little for them.
func tableFrame(t layout.Theme, d Table, width layout.Length, level layout.Detail) (layout.Frame, bool) {
	set := newTableSetting(t, d, width, level)
	if set.tooNarrow {
		return layout.Frame{}, false
	}
	body := set.body()
	if d.Folds && width >= twoColumns && len(d.Rows) >= leastFolded {
		if f, ok := folded(t, d, width, level); ok && f.Height < body.Height {
			body = f
		}
	}
	gap := [...]layout.Length{layout.Full: small - 1, layout.Compact: tight, layout.Brief: 0}[level]
	return stack(gap, heading(t, d.Title, d.Sub, width), body, captionLines(t, d.Captions, width, level)), true
}

// leastFolded is from how many rows on two columns of them are worth a second heading.
const leastFolded = 4

// folded is a table's rows in two columns that end about level.
func folded(t layout.Theme, d Table, width layout.Length, level layout.Detail) (layout.Frame, bool) {
	half := (width - columnGap) / 2
	part := func(rows []TableRow) *tableSetting {
		d := d
		d.Rows = rows
		return newTableSetting(t, d, half, level)
	}
	whole := part(d.Rows)
	if whole.tooNarrow {
		return layout.Frame{}, false
	}
	var height, first layout.Length
	for _, r := range d.Rows {
		height += whole.row(r).Height
	}
	n := 0
	for n < len(d.Rows)-1 && first < height/2 {
		first += whole.row(d.Rows[n]).Height
		n++
	}
	left, right := part(d.Rows[:n]), part(d.Rows[n:])
	if left.tooNarrow || right.tooNarrow {
		return layout.Frame{}, false
	}
	return beside(columnGap, column{half, left.body()}, column{half, right.body()}), true
}

// ruled is a close table for a block whose rows run on otherwise; no height
// holds one that the width does not.
func ruled(t layout.Theme, d Table, width layout.Length) func() layout.Frame {
	return func() layout.Frame {
		f, ok := tableFrame(t, d, width, layout.Brief)
		if !ok {
			f.Height = layout.Length(math.Inf(1))
		}
		return f
	}
}

// tableRunOn is a table whose rows run on as a paragraph.
func tableRunOn(t layout.Theme, d Table, width layout.Length, captions layout.Frame) func() layout.Frame {
	return func() layout.Frame {
		return stack(0, heading(t, d.Title, d.Sub, width), rowsRunOn(t, d, width), captions)
	}
}

// tableBlock is a table, which knows the width that it would like.
type tableBlock struct {
	block
	d Table
}

// withoutShares is a table whose columns are all as wide as their words.
func (d Table) withoutShares() Table {
	d.Columns = slices.Clone(d.Columns)
	for i := range d.Columns {
		d.Columns[i].Share = 0
	}
	return d
}

// Natural is the width at which none of the table's words wraps.
func (b tableBlock) Natural(t layout.Theme) layout.Length {
	const wide = 1e4
	return newTableSetting(t, b.d.withoutShares(), wide, layout.Full).own()
}

// rowsRunOn sets each row as a name with its values behind it.
func rowsRunOn(t layout.Theme, d Table, width layout.Length) layout.Frame {
	if len(d.Rows) > 0 && d.Rows[0].Brief.Says != "" {
		return paragraph(t, width, layout.Left, briefRuns(t, d.Rows)...)
	}
	var runs []layout.Run
	for i, r := range d.Rows {
		if len(r.Cells) == 0 {
			continue
		}
		again := i > 0 && !r.Break && len(d.Rows[i-1].Cells) > 0 && r.Cells[0].Text == d.Rows[i-1].Cells[0].Text
		name := r.Cells[0].Text + ":"
		if r.Break && len(runs) > 0 { // what is of another kind begins a line
			name = "\n" + name
		}
		if !again { // more of the same is not named again
			if len(runs) > 0 {
				runs = append(runs, run(t, layout.Note, t.Ink, strings.TrimSpace(runOnDot)))
			}
			runs = append(runs, run(t, layout.Note, t.Ink, name))
		} else if len(runs) > 0 {
			runs[len(runs)-1].Text += ";"
		}
		from := len(runs)
		for c, cell := range r.Cells[1:] {
			if cell.Text == "" && cell.Note == "" {
				continue
			}
			if len(runs) > from {
				runs[len(runs)-1].Text += ","
			}
			value := run(t, layout.Note, t.Ink, join2(" ", runOnHead(d, c+1), cell.Text))
			if cell.Bold || c == 0 && c+1 < len(d.Columns) && d.Columns[c+1].Plain { // what was read
				value.Face.Weight = layout.Bold
			}
			runs = append(runs, value)
			if cell.Note != "" {
				runs = append(runs, run(t, layout.Note, t.Ink, cell.Note))
			}
		}
	}
	return paragraph(t, width, layout.Left, runs...)
}

// runOnHead is a column's heading where it is needed to read a value that has
// no column to stand in.
func runOnHead(d Table, column int) string {
	if column >= len(d.Columns) || len(d.Columns) < 3 || d.Columns[column].Plain {
		return ""
	}
	return strings.ReplaceAll(d.Columns[column].Heading, "\n", " ")
}

// join2 puts a separator between two texts where both are there.
func join2(separator, a, b string) string {
	if a == "" || b == "" {
		return a + b
	}
	return a + separator + b
}

// A tableSetting is a table with the widths of its columns.
type tableSetting struct {
	t      layout.Theme
	d      Table
	width  layout.Length
	widths []layout.Length
	left   []layout.Length // of columns of numbers: the widest part before the decimal
	right  []layout.Length // and from the decimal on
	role   layout.Role
	gap    layout.Length // between columns
	pad    layout.Length // above and below the words of a row
	least  layout.Length // height of a row

	tooNarrow bool // for its columns
}

func newTableSetting(t layout.Theme, d Table, width layout.Length, level layout.Detail) *tableSetting {
	s := &tableSetting{t: t, d: d, width: width, role: layout.Label}
	s.gap = [...]layout.Length{layout.Full: 10, layout.Compact: 9, layout.Brief: 8}[level]
	s.pad = [...]layout.Length{layout.Full: 1.5, layout.Compact: 0.9, layout.Brief: 0.3}[level]
	if d.Lines {
		if level == layout.Full {
			s.role = layout.Body
		}
		s.pad += [...]layout.Length{layout.Full: 1.6, layout.Compact: 0.6, layout.Brief: 0.2}[level]
	}
	if level == layout.Brief {
		s.role = layout.Note
		if t.Close {
			s.pad = 0.3
		}
	}
	if slices.ContainsFunc(d.Columns, func(c Column) bool { return c.Tab }) {
		s.least = max(s.least, TabSize(t.Measurer, "0", t.Face(s.role)).H+s.pad/2)
	}
	s.setWidths()
	return s
}

// body is the headings and the rows under them.
func (s *tableSetting) body() layout.Frame {
	var frames []layout.Frame
	if head := s.header(); head.Height > 0 {
		frames = append(frames, head, s.rule(layout.Pen{Width: outline, Color: s.t.Ink}))
	}
	for i, r := range s.d.Rows {
		if r.Break && i > 0 && !s.d.Lines {
			frames = append(frames, s.rule(layout.Pen{Width: thin, Color: s.t.Line}))
		}
		frames = append(frames, s.row(r))
		if s.d.Lines && i < len(s.d.Rows)-1 {
			frames = append(frames, s.rule(layout.Pen{Width: hairline, Color: s.t.Line}))
		}
	}
	if len(s.d.Rows) > 0 {
		frames = append(frames, s.rule(layout.Pen{Width: thin, Color: s.t.Ink}))
	}
	return heard(layout.Table, stack(0, frames...))
}

// own is how wide the table itself is.
func (s *tableSetting) own() layout.Length {
	if len(s.widths) == 0 {
		return 0
	}
	return s.x(len(s.widths)-1) + s.widths[len(s.widths)-1]
}

// x is where a column begins.
func (s *tableSetting) x(column int) layout.Length {
	var x layout.Length
	for i := 1; i <= column; i++ {
		x += s.widths[i-1] + s.gapBefore(i)
	}
	return x
}

// gapBefore is between a column and the one before it: closer under a common
// heading.
func (s *tableSetting) gapBefore(column int) layout.Length {
	if s.d.Columns[column].Joins {
		return s.gap / 2
	}
	return s.gap
}

// rule is a line as long as the table is wide.
func (s *tableSetting) rule(pen layout.Pen) layout.Frame {
	return layout.Frame{Height: pen.Width, Draw: func(surface layout.Surface, a layout.Rect) {
		y := a.Y + pen.Width/2
		surface.Stroke(layout.Polyline(layout.Point{X: a.X, Y: y}, layout.Point{X: a.X + s.own(), Y: y}), pen)
	}}
}
