package figure

import "gaugesheet/layout"

// An Identity describes what names the engine: fields under their names, in
// one row as far as they go, then the rest run on; and what was said, in the
// row where it holds all.
type Identity struct {
	Fields []Field
	Said   []Field // what the customer said, was done and was read before
}

// NewIdentity is the block "identity": named fields. At compact what is not
// said in the row stands closer, at brief all of them run on in small type.
func NewIdentity(d Identity) layout.Block {
	return block{"identity", func(t layout.Theme, width layout.Length, level layout.Detail) layout.Frame {
		all, row := append(append([]Field{}, d.Fields...), d.Said...), 0
		if level != layout.Brief {
			row = fieldsInRow(t, all, width)
			if row < len(all) {
				row = min(row, len(d.Fields))
			}
		}
		value := layout.Body
		if level == layout.Brief {
			value = layout.Label
		}
		gap := [...]layout.Length{layout.Full: small, layout.Compact: tight, layout.Brief: 0}[level]
		return stack(gap, fieldRow(t, all[:row], width), fieldsRunOn(t, all[row:], width, value))
	}}
}

// fieldWidth is the width of a field whose name and value have a line each.
func fieldWidth(t layout.Theme, f Field) layout.Length {
	return max(t.Measurer.Width(f.Name, t.Face(layout.Label)), t.Measurer.Width(f.Value, t.Face(layout.Body))) + 1
}

// fieldsInRow is how many fields, from the first, stand in one row at their
// natural widths.
func fieldsInRow(t layout.Theme, fields []Field, width layout.Length) int {
	var used layout.Length
	for i, f := range fields {
		used += fieldWidth(t, f)
		if used > width {
			return i
		}
		used += 2 * wide
	}
	return len(fields)
}

// fieldRow sets fields side by side, each as wide as it is, with the room that
// is left shared among them.
func fieldRow(t layout.Theme, fields []Field, width layout.Length) layout.Frame {
	if len(fields) == 0 {
		return empty()
	}
	free := width
	for _, f := range fields {
		free -= fieldWidth(t, f)
	}
	var row []column
	for _, f := range fields {
		w := fieldWidth(t, f) + free/layout.Length(len(fields))
		row = append(row, column{w, heard(layout.Paragraph, stack(0, textFrame(t, f.Name, layout.Label, t.Ink, w), textFrame(t, f.Value, layout.Body, t.Ink, w)))})
	}
	return beside(0, row...)
}

// fieldsRunOn sets fields one after another, each name before its value and
// each field whole on a line where it can be.
func fieldsRunOn(t layout.Theme, fields []Field, width layout.Length, value layout.Role) layout.Frame {
	const gap = wide
	var lines []layout.Frame
	var line []column
	var used layout.Length
	for _, f := range fields {
		runs := []layout.Run{run(t, layout.Label, t.Ink, f.Lead), run(t, value, t.Ink, f.Value)}
		w := min(textWidth(t, runs)+1, width)
		if len(line) > 0 && used+w > width {
			lines = append(lines, beside(gap, line...))
			line, used = nil, 0
		}
		line = append(line, column{w, paragraph(t, w, layout.Left, runs...)})
		used += w + gap
	}
	if len(line) > 0 {
		lines = append(lines, beside(gap, line...))
	}
	return stack(0, lines...)
}

// textWidth is how far runs go on one line, with a space between them.
func textWidth(t layout.Theme, runs []layout.Run) (w layout.Length) {
	for i, r := range runs {
		if i > 0 {
			r.Text = " " + r.Text
		}
		w += t.Measurer.Width(r.Text, r.Face)
	}
	return w
}
