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
	if w+medium+t.Measurer.Width(sub, note) > width {
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
