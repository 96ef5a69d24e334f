package figure

import (
	"slices"

	"gaugesheet/layout"
)

// A Further is what the further tests read: a row to a reading of the engine or to
// what was read of each cylinder. Rows with Each stand together, with a column to a
// cylinder.
type Further struct {
	Table
	Numbers []string  // of the cylinders that have columns; none for no such rows
	Heads   [3]string // over these columns' neighbours: reading, limit, judged
	Key     string    // how the rows are read where they run on
}

// NewFurther is the block "table:" with the table's name. At compact the rows run
// on as a paragraph, with the readings of each cylinder as a table under it where
// there is height for that; at brief they only say what they come to, with those
// that stay. Where the page has more height they are rows again.
func NewFurther(d Further) layout.Block {
	return block{"table:" + d.Name, func(t layout.Theme, width layout.Length, level layout.Detail) layout.Frame {
		f := furtherSetting{t, &d, width}
		ruled, runOn := f.ruled(layout.Brief), f.runOn
		switch level {
		case layout.Full:
			if frame := f.ruled(layout.Full)(); frame.Height < unending {
				return frame
			}
			frame := runOn()
			frame.Narrow = true
			return frame
		case layout.Compact:
			frame := runOn()
			frame.Richer = richer(frame, ruled, f.tabled)
			return frame
		}
		frame := stack(0, heading(t, d.Title, d.Sum, width), rowsRunOn(t, d.kept(), width))
		frame.Richer = richer(frame, ruled, f.tabled, runOn)
		return frame
	}}
}

// unending is the height of what a width does not hold.
const unending layout.Length = 1e6

// A furtherSetting is a Further in a width.
type furtherSetting struct {
	t     layout.Theme
	d     *Further
	width layout.Length
}

// ruled is all rows as tables.
func (f furtherSetting) ruled(level layout.Detail) func() layout.Frame {
	return func() layout.Frame {
		d := f.d.rest()
		d.Folds = true
		rest, ok := tableFrame(f.t, d, f.width, level)
		each, fits := f.each(level)
		if !ok || !fits {
			return layout.Frame{Height: unending}
		}
		return stack(small, rest, each)
	}
}

// tabled is the readings of the engine run on, those of each cylinder as a table.
func (f furtherSetting) tabled() layout.Frame {
	each, ok := f.each(layout.Brief)
	if !ok || len(f.d.Numbers) == 0 {
		return layout.Frame{Height: unending}
	}
	d := f.d.rest()
	return stack(tight, stack(0, heading(f.t, d.Title, f.d.Key, f.width), rowsRunOn(f.t, d, f.width)), each)
}

// runOn is all rows run on, or those of each cylinder as a table where that is
// no higher.
func (f furtherSetting) runOn() layout.Frame {
	whole := stack(0, heading(f.t, f.d.Title, f.d.Key, f.width), rowsRunOn(f.t, f.d.Table, f.width))
	if with := f.tabled(); with.Height <= whole.Height {
		return with
	}
	return whole
}

// each is the table of what was read of each cylinder; false where the width is
// too little for it.
func (f furtherSetting) each(level layout.Detail) (layout.Frame, bool) {
	if len(f.d.Numbers) == 0 {
		return empty(), true
	}
	d := Table{Columns: []Column{{Heading: f.d.Heads[0]}}}
	for _, n := range f.d.Numbers {
		d.Columns = append(d.Columns, Column{Heading: n, HeadTab: true, Numbers: true})
	}
	d.Columns = append(d.Columns, Column{Heading: f.d.Heads[1]}, Column{Heading: f.d.Heads[2]})
	for _, r := range f.d.Rows {
		if len(r.Each) == 0 {
			continue
		}
		cells := slices.Clone(r.Each)
		if n := len(r.Cells); n > 3 {
			cells = append(cells, r.Cells[n-2], r.Cells[n-1])
		}
		d.Rows = append(d.Rows, TableRow{Cells: cells, Shade: r.Shade})
	}
	return tableFrame(f.t, d.used(), f.width, level)
}

// used is a table without the columns at its end in which no row has anything.
func (d Table) used() Table {
	for n := len(d.Columns) - 1; n > 0; n-- {
		if slices.ContainsFunc(d.Rows, func(r TableRow) bool { return !r.emptyAt(n) }) {
			break
		}
		d.Columns = d.Columns[:n]
	}
	return d
}

// rest is the table without the rows that have columns for the cylinders.
func (d *Further) rest() Table {
	rest := d.Table
	rest.Rows = slices.DeleteFunc(slices.Clone(d.Rows), func(r TableRow) bool { return len(r.Each) > 0 })
	return rest
}

// kept is the table with the rows alone that stay beside what they come to.
func (d *Further) kept() Table {
	kept := d.Table
	kept.Rows = slices.DeleteFunc(slices.Clone(d.Rows), func(r TableRow) bool { return !r.Keep })
	return kept
}

// briefRuns are rows run on in few words: the test, then what was read in it.
func briefRuns(t layout.Theme, rows []TableRow) []layout.Run {
	var runs []layout.Run
	behind := func(mark string) {
		if len(runs) > 0 {
			runs[len(runs)-1].Text += mark
		}
	}
	for i, r := range rows {
		first := i == 0 || rows[i-1].Brief.Lead != r.Brief.Lead
		again := !first && r.Brief.Name != "" && rows[i-1].Brief.Name == r.Brief.Name
		switch {
		case first:
			behind(".")
			lead := run(t, layout.Note, t.Ink, r.Brief.Lead+":")
			lead.Face.Weight = layout.Bold
			runs = append(runs, lead)
		case again:
			behind(",")
		default:
			behind(";")
		}
		if again {
			r.Brief.Name = ""
		}
		says := run(t, layout.Note, t.Ink, join2(" ", join2(" ", r.Brief.Name, r.Brief.Says), r.Brief.Limit))
		if r.Brief.Judged != "" {
			says.Text += ","
			runs = append(runs, says)
			says = run(t, layout.Note, t.Ink, r.Brief.Judged)
			if r.Shade {
				says.Face.Weight = layout.Bold
			}
		}
		runs = append(runs, says)
	}
	behind(".")
	return runs
}
