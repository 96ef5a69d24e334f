package figure

import (
	"slices"
	"strings"

	"gaugesheet/layout"
)

// heading is a block's title with a quieter line behind it, or under it where
// both do not fit on one line.
func heading(t layout.Theme, title, sub string, width layout.Length) layout.Frame {
	if title == "" {
		return textFrame(t, sub, layout.Label, t.Ink, width)
	}
	head, note := t.Face(layout.Heading), t.Face(layout.Label)
	w := t.Measurer.Width(title, head)
	if !headingOnLine(t, title, sub, width) {
		return stack(0, heard(layout.Heading2, textFrame(t, title, layout.Heading, t.Ink, width)), balanced(t, sub, layout.Label, t.Ink, width))
	}
	return layout.Frame{Height: lineHeight(head), Draw: func(s layout.Surface, a layout.Rect) {
		y := baseline(s, head, a.Y)
		layout.Tag{Kind: layout.Heading2}.Draw(s, func() { s.Text(layout.Point{X: a.X, Y: y}, title, head, t.Ink) })
		if sub != "" {
			s.Text(layout.Point{X: a.X + w + medium, Y: y}, sub, note, t.Ink)
		}
	}}
}

// headingOnLine reports a title that has room on one line with what stands behind it.
func headingOnLine(t layout.Theme, title, sub string, width layout.Length) bool {
	return t.Measurer.Width(title, t.Face(layout.Heading))+medium+t.Measurer.Width(sub, t.Face(layout.Label)) <= width
}

// captionLines are the lines under a figure, running on where room is short.
func captionLines(t layout.Theme, lines []string, width layout.Length, level layout.Detail) layout.Frame {
	if level != layout.Full {
		lines = []string{strings.Join(slices.DeleteFunc(slices.Clone(lines), func(l string) bool { return l == "" }), runOnDot+" ")}
	}
	var frames []layout.Frame
	for _, l := range lines {
		frames = append(frames, balanced(t, l, layout.Note, t.Ink, width))
	}
	return stack(0, frames...)
}
