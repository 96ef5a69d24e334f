package figure

import (
	"strings"

	"gaugesheet/layout"
)

// lineHeight is the distance from one line of a face to the next.
func lineHeight(f layout.Face) layout.Length { return layout.Leading(f) }

// baseline is where a line whose top is at y stands.
func baseline(m layout.Measurer, f layout.Face, y layout.Length) layout.Length {
	return y + layout.Baseline(m, f)
}

// breakLines breaks text into lines no wider than width; none for no text.
func breakLines(m layout.Measurer, text string, f layout.Face, width layout.Length) []string {
	if text == "" {
		return nil
	}
	return strings.Split(layout.Wrap(m, width, layout.Run{Text: text, Face: f}).String(), "\n")
}

// run is text in the face of a role.
func run(t layout.Theme, role layout.Role, c layout.Color, text string) layout.Run {
	return layout.Run{Text: text, Face: t.Face(role), Color: c}
}

// paragraph is running text of one or more faces, with a space between runs.
// Runs without text are passed over; without any it is an empty frame.
func paragraph(t layout.Theme, width layout.Length, a layout.Align, runs ...layout.Run) layout.Frame {
	text := runningText(t, width, runs)
	if len(text.Lines) == 0 {
		return empty()
	}
	return layout.Frame{Height: text.H, Draw: func(s layout.Surface, area layout.Rect) {
		layout.Tag{Kind: layout.Paragraph}.Draw(s, func() { text.DrawAligned(s, area.TopLeft(), width, a) })
	}}
}

// headed is a paragraph that begins with its heading, in a face of its own.
func headed(t layout.Theme, width layout.Length, title layout.Run, runs ...layout.Run) layout.Frame {
	if title.Text == "" {
		return paragraph(t, width, layout.Left, runs...)
	}
	text := runningText(t, width, append([]layout.Run{title}, runs...))
	head, rest := text.Lead(title.Face)
	return layout.Frame{Height: text.H, Draw: func(s layout.Surface, area layout.Rect) {
		layout.Tag{Kind: layout.Heading2}.Draw(s, func() { head.Draw(s, area.TopLeft()) })
		layout.Tag{Kind: layout.Paragraph}.Draw(s, func() { rest.Draw(s, area.TopLeft()) })
	}}
}

// runningText lays runs out, with a space between them.
func runningText(t layout.Theme, width layout.Length, runs []layout.Run) layout.Text {
	var kept []layout.Run
	for _, r := range runs {
		if r.Text == "" {
			continue
		}
		if len(kept) > 0 {
			r.Text = " " + r.Text
		}
		kept = append(kept, r)
	}
	if len(kept) == 0 {
		return layout.Text{}
	}
	return layout.Wrap(t.Measurer, width, kept...)
}

// runOnDot stands between the parts of a paragraph that run on; no line ends
// in it (layout.Wrap).
const runOnDot = " ·"

// textFrame is a paragraph in one face.
func textFrame(t layout.Theme, text string, role layout.Role, c layout.Color, width layout.Length) layout.Frame {
	return paragraph(t, width, layout.Left, run(t, role, c, text))
}

// balanced is a paragraph whose lines are about equally long, so that none
// holds a word alone: it is set in the least width, down to a part of its own,
// in which it has no more lines.
func balanced(t layout.Theme, text string, role layout.Role, c layout.Color, width layout.Length) layout.Frame {
	return evenLines(t, run(t, role, c, text), width, layout.Left)
}

// evenLines is balanced for a run in a face of its own, aligned in the width.
// One line needs it no more than a paragraph of many does.
func evenLines(t layout.Theme, text layout.Run, width layout.Length, a layout.Align) layout.Frame {
	const near, narrowest, many = 6, 0.72, 4
	best, w := paragraph(t, width, a, text), width
	if one := lineHeight(text.Face); best.Height <= one+1 || best.Height >= many*one-1 {
		return best
	}
	for low := width * narrowest; w-low > near; {
		middle := (low + w) / 2
		if next := paragraph(t, middle, a, text); next.Height <= best.Height {
			best, w = next, middle
		} else {
			low = middle
		}
	}
	if a == layout.Center {
		return inset(best, 0, (width-w)/2, 0, (width-w)/2)
	}
	return best
}

// alignRight is a paragraph set against the right edge.
func alignRight(t layout.Theme, text string, role layout.Role, c layout.Color, width layout.Length) layout.Frame {
	return paragraph(t, width, layout.Right, run(t, role, c, text))
}
