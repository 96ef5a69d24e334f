package figure

import (
	"strings"

	"gaugesheet/layout"
)

// lineHeight is the distance from one line of a face to the next.
func lineHeight(f layout.Face) layout.Length { return f.Size * 1.22 }

// baseline is where a line whose top is at y stands.
func baseline(m layout.Measurer, f layout.Face, y layout.Length) layout.Length {
	ascent, descent := m.Ascent(f), m.Descent(f)
	return y + (lineHeight(f)-ascent-descent)/2 + ascent
}

// breakLines breaks text into lines no wider than width, between words where
// it can and inside a word that is wider than a line.
func breakLines(m layout.Measurer, text string, f layout.Face, width layout.Length) []string {
	var lines []string
	line := ""
	for _, word := range words(text) {
		if line != "" && m.Width(line+" "+word, f) <= width {
			line += " " + word
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		line = word
		for m.Width(line, f) > width {
			n := fitting(m, line, f, width)
			lines = append(lines, line[:n])
			line = line[n:]
		}
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}

// fitting is how many bytes of a word fit a width, one character at least.
func fitting(m layout.Measurer, word string, f layout.Face, width layout.Length) int {
	n := 0
	for i, r := range word {
		end := i + len(string(r))
		if n > 0 && m.Width(word[:end], f) > width {
			break
		}
		n = end
	}
	return n
}

// A span is a piece of a line in one face and ink.
type span struct {
	text  string
	face  layout.Face
	color layout.Color
}

// A placed span is a span with its distance from the start of its line.
type placedSpan struct {
	span
	x layout.Length
}

// breakSpans breaks running text of several faces into lines no wider than
// width. Between spans there is a space.
func breakSpans(m layout.Measurer, spans []span, width layout.Length) [][]placedSpan {
	var lines [][]placedSpan
	var line []placedSpan
	var x layout.Length
	flush := func() {
		if len(line) > 0 {
			lines = append(lines, line)
		}
		line, x = nil, 0
	}
	for _, s := range spans {
		for _, word := range words(s.text) {
			gap := m.Width(" ", s.face)
			if len(line) == 0 {
				gap = 0
			}
			if x+gap+m.Width(word, s.face) > width {
				flush()
				gap = 0
			}
			for m.Width(word, s.face) > width {
				n := fitting(m, word, s.face, width)
				lines = append(lines, []placedSpan{{span{word[:n], s.face, s.color}, 0}})
				word = word[n:]
			}
			if k := len(line) - 1; k >= 0 && line[k].face == s.face && line[k].color == s.color {
				line[k].text += " " + word
			} else {
				line = append(line, placedSpan{span{word, s.face, s.color}, x + gap})
			}
			x += gap + m.Width(word, s.face)
		}
	}
	flush()
	return lines
}

// spanFrame is a paragraph of several faces.
func spanFrame(t layout.Theme, width layout.Length, spans ...span) layout.Frame {
	if len(spans) == 0 {
		return empty()
	}
	lines := breakSpans(t.Measurer, spans, width)
	face := spans[len(spans)-1].face
	return layout.Frame{Height: layout.Length(len(lines)) * lineHeight(face), Draw: func(s layout.Surface, a layout.Rect) {
		for i, line := range lines {
			y := baseline(s, face, a.Y+layout.Length(i)*lineHeight(face))
			for _, p := range line {
				s.Text(layout.Point{X: a.X + p.x, Y: y}, p.text, p.face, p.color)
			}
		}
	}}
}

// in is text as a span of a role.
func in(t layout.Theme, role layout.Role, c layout.Color, text string) span {
	return span{text, t.Face(role), c}
}

// words are the parts of a text between which a line may break: not at a
// no-break space.
func words(text string) []string {
	return strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == '\n' || r == '\t' })
}
