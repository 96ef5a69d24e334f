package figure

import (
	"strings"

	"gaugesheet/layout"
)

// A Head describes the top of the sheet: the shop at the left, the kind of
// sheet, job number and date at the right.
type Head struct {
	Shop   string
	Lines  []string      // address, phone, registration
	Logo   *layout.Image // nil for none
	Kind   string        // "Engine test sheet"
	Number string        // job number
	Date   string
}

// An Identity describes the named fields under the head. A value too long for
// its column takes more columns.
type Identity struct {
	Fields  []Field
	Columns int // 3 or 4; 0 lets the width decide
}

// NewHead is the block "head": whose sheet it is, which one, and of when.
func NewHead(d Head) layout.Block {
	return block{"head", func(t layout.Theme, width layout.Length, level layout.Detail) layout.Frame {
		title, number := layout.Title, layout.Display
		if level == layout.Brief {
			title, number = layout.Heading, layout.Strong
		}
		right := max(t.Measurer.Width(d.Kind, t.Face(title)), t.Measurer.Width(join(d.Number, d.Date), t.Face(number))) + 1
		right = min(right, width*0.45)
		left := width - right - 2*wide
		logo := logoFrame(d.Logo)
		if logo.width > 0 {
			left -= logo.width + wide
		}
		shop := []layout.Frame{textFrame(t, d.Shop, title, t.Ink, left)}
		lines := d.Lines
		if level != layout.Full {
			lines = []string{strings.Join(lines, " · ")}
		}
		for _, l := range lines {
			shop = append(shop, textFrame(t, l, layout.Label, t.Muted, left))
		}
		between := tight
		if level != layout.Full {
			between = 0
		}
		kind := stack(between,
			alignRight(t, d.Kind, title, t.Accent, right),
			alignRight(t, join(d.Number, d.Date), number, t.Ink, right))
		columns := []column{{left + wide, stack(0, shop...)}, {right, kind}}
		if logo.width > 0 {
			columns = append([]column{logo}, columns...)
		}
		return stack([...]layout.Length{layout.Full: small + tight, layout.Compact: small, layout.Brief: tight}[level], beside(wide, columns...), rule(layout.Pen{Width: 1.2, Color: t.Ink}))
	}}
}

// join puts a middle dot between two texts where both are there.
func join(a, b string) string {
	if a == "" || b == "" {
		return a + b
	}
	return a + " · " + b
}

// logoFrame is the shop's sign, in its own proportions, no higher than the
// lines beside it and no wider than twice that.
func logoFrame(img *layout.Image) column {
	const high, widest layout.Length = 38, 90
	if img == nil || img.W <= 0 || img.H <= 0 {
		return column{}
	}
	size := layout.Size{W: high * layout.Length(img.W) / layout.Length(img.H), H: high}
	if size.W > widest {
		size = layout.Size{W: widest, H: widest * layout.Length(img.H) / layout.Length(img.W)}
	}
	return column{size.W, layout.Frame{Height: size.H, Draw: func(s layout.Surface, a layout.Rect) {
		s.Picture(layout.Rect{X: a.X, Y: a.Y, W: size.W, H: size.H}, *img)
	}}}
}

// NewIdentity is the block "identity": named fields in columns.
func NewIdentity(d Identity) layout.Block {
	return block{"identity", func(t layout.Theme, width layout.Length, level layout.Detail) layout.Frame {
		columns := d.Columns
		if columns < 1 {
			columns = 4
		}
		if level == layout.Brief {
			return fieldsRunOn(t, d.Fields, width)
		}
		return fieldGrid(t, d.Fields, width, columns, level)
	}}
}

// fieldsRunOn sets fields as one paragraph.
func fieldsRunOn(t layout.Theme, fields []Field, width layout.Length) layout.Frame {
	var runs []layout.Run
	for i, f := range fields {
		value := f.Value
		if i < len(fields)-1 {
			value += runOnDot
		}
		runs = append(runs, run(t, layout.Label, t.Muted, f.Name), run(t, layout.Body, t.Ink, value))
	}
	return paragraph(t, width, layout.Left, runs...)
}

// fieldGrid sets fields in rows of a grid; a field takes as many columns as
// its value needs for two lines.
func fieldGrid(t layout.Theme, fields []Field, width layout.Length, columns int, level layout.Detail) layout.Frame {
	one := (width - wide*layout.Length(columns-1)) / layout.Length(columns)
	var rows []layout.Frame
	var row []column
	used := 0
	flush := func() {
		if len(row) > 0 {
			rows = append(rows, beside(wide, row...))
		}
		row, used = nil, 0
	}
	for _, f := range fields {
		need := fieldColumns(t, f, one, columns)
		if used+need > columns {
			flush()
		}
		w := one*layout.Length(need) + wide*layout.Length(need-1)
		row = append(row, column{w, field(t, f, w, level)})
		used += need
	}
	flush()
	gap := tight
	if level == layout.Full {
		gap = small
	}
	return stack(gap, rows...)
}

// field is a value under its name or, at brief, behind it.
func field(t layout.Theme, f Field, width layout.Length, level layout.Detail) layout.Frame {
	name, value := run(t, layout.Label, t.Muted, f.Name), run(t, layout.Body, t.Ink, f.Value)
	if level == layout.Brief {
		return paragraph(t, width, layout.Left, name, value)
	}
	return stack(0, paragraph(t, width, layout.Left, name), paragraph(t, width, layout.Left, value))
}

func fieldColumns(t layout.Theme, f Field, one layout.Length, columns int) int {
	for n := 1; n < columns; n++ {
		w := one*layout.Length(n) + wide*layout.Length(n-1)
		if len(breakLines(t.Measurer, f.Value, t.Face(layout.Body), w)) <= n {
			return n
		}
	}
	return columns
}
