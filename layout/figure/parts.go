package figure

import "gaugesheet/layout"

// heading is a block's title with a quieter line behind it, or under it where
// both do not fit on one line.
func heading(t layout.Theme, title, sub string, width layout.Length) layout.Frame {
	if title == "" {
		return textFrame(t, sub, layout.Label, t.Muted, width)
	}
	head, note := t.Face(layout.Heading), t.Face(layout.Label)
	w := t.Measurer.Width(title, head)
	if w+medium+t.Measurer.Width(sub, note) > width {
		return stack(0, textFrame(t, title, layout.Heading, t.Ink, width), textFrame(t, sub, layout.Label, t.Muted, width))
	}
	return layout.Frame{Height: lineHeight(head), Draw: func(s layout.Surface, a layout.Rect) {
		y := baseline(s, head, a.Y)
		s.Text(layout.Point{X: a.X, Y: y}, title, head, t.Ink)
		if sub != "" {
			s.Text(layout.Point{X: a.X + w + medium, Y: y}, sub, note, t.Muted)
		}
	}}
}

// textFrame is a paragraph in one face.
func textFrame(t layout.Theme, text string, role layout.Role, c layout.Color, width layout.Length) layout.Frame {
	face := t.Face(role)
	lines := breakLines(t.Measurer, text, face, width)
	return layout.Frame{Height: layout.Length(len(lines)) * lineHeight(face), Draw: func(s layout.Surface, a layout.Rect) {
		for i, line := range lines {
			s.Text(layout.Point{X: a.X, Y: baseline(s, face, a.Y+layout.Length(i)*lineHeight(face))}, line, face, c)
		}
	}}
}

// captionLines are the lines under a figure.
func captionLines(t layout.Theme, lines []string, width layout.Length) layout.Frame {
	var frames []layout.Frame
	for _, l := range lines {
		frames = append(frames, textFrame(t, l, layout.Note, t.Muted, width))
	}
	return stack(0, frames...)
}

// alignRight is a paragraph set against the right edge.
func alignRight(t layout.Theme, text string, role layout.Role, c layout.Color, width layout.Length) layout.Frame {
	face := t.Face(role)
	lines := breakLines(t.Measurer, text, face, width)
	return layout.Frame{Height: layout.Length(len(lines)) * lineHeight(face), Draw: func(s layout.Surface, a layout.Rect) {
		for i, line := range lines {
			y := baseline(s, face, a.Y+layout.Length(i)*lineHeight(face))
			s.Text(layout.Point{X: a.X + width - s.Width(line, face), Y: y}, line, face, c)
		}
	}}
}
