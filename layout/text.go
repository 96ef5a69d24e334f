package layout

import "strings"

// slack lets what is laid out be as large as its room in spite of rounding.
const slack Length = 0.005

// A Run is a stretch of text in one face and ink.
type Run struct {
	Text  string
	Face  Face
	Color Color
	Whole bool // its words are never parted at a hyphen
}

// A TextLine is a line of a Text: pieces from left to right, with the place
// of the baseline below the text's top.
type TextLine struct {
	Pieces   []Piece
	Width    Length // without spaces at the end
	Baseline Length
	Joins    bool // begins in the word in which the line before it ended
}

// A Piece is part of a line, X from the line's left end.
type Piece struct {
	Run
	X Length
}

// A Text is text laid out for a width, once, to be drawn as it is.
type Text struct {
	Lines []TextLine
	W, H  Length // the widest line, all lines with their leading
}

// Leading is the distance from baseline to baseline: wider in proportion for
// small type, where lines are long for their size, than for a display line.
// Close lines still clear each other's ascenders and descenders.
func Leading(f Face) Length {
	if f.Close {
		return f.Size * 1.12
	}
	switch {
	case f.Size >= 13:
		return f.Size * 1.2
	case f.Size >= 10:
		return f.Size * 1.26
	}
	return f.Size * 1.3
}

// Baseline is how far below the top of a line of the face its baseline lies:
// the leading's spare room is shared between above and below.
func Baseline(m Measurer, f Face) Length {
	return (Leading(f)-m.Ascent(f)-m.Descent(f))/2 + m.Ascent(f)
}

// String is the text with a line feed after each line but the last.
func (t Text) String() string {
	lines := make([]string, len(t.Lines))
	for i, l := range t.Lines {
		for _, p := range l.Pieces {
			lines[i] += p.Text
		}
	}
	return strings.Join(lines, "\n")
}

// An Align says where in a width lines stand.
type Align uint8

// The alignments.
const (
	Left Align = iota
	Center
	Right
)

// Draw sets the text with its top left corner at a point.
func (t Text) Draw(s Surface, at Point) { t.DrawAligned(s, at, t.W, Left) }

// DrawAligned sets the text with each line aligned in a width from the point.
func (t Text) DrawAligned(s Surface, at Point, width Length, a Align) {
	for _, l := range t.Lines {
		start := at.Add(aligned(width, l.Width, a), l.Baseline)
		for i, p := range l.Pieces {
			if i > 0 || l.Joins {
				join(s)
			}
			s.Text(start.Add(p.X, 0), p.Text, p.Face, p.Color)
		}
	}
}

// Lead divides a text behind the pieces in a face that it begins with: what
// stands before the rest on its line, and the rest.
func (t Text) Lead(f Face) (lead, rest Text) {
	lead, rest = t, t
	lead.Lines, rest.Lines = nil, nil
	for i, l := range t.Lines {
		n := 0
		for n < len(l.Pieces) && l.Pieces[n].Face == f {
			n++
		}
		first, behind := l, l
		first.Pieces, behind.Pieces = l.Pieces[:n], l.Pieces[n:]
		lead.Lines = append(lead.Lines, first)
		if n < len(l.Pieces) {
			behind.Joins = n == 0 && l.Joins
			rest.Lines = append(append(rest.Lines, behind), t.Lines[i+1:]...)
			break
		}
	}
	return lead, rest
}

func aligned(room, width Length, a Align) Length {
	switch a {
	case Center:
		return (room - width) / 2
	case Right:
		return room - width
	}
	return 0
}

// TextAt sets one line whose baseline begins at, is centred on, or ends at a
// point, as aligned, and gives the area it covers.
func TextAt(s Surface, at Point, a Align, text string, f Face, c Color) Rect {
	w := s.Width(text, f)
	start := at.Add(aligned(0, w, a), 0)
	s.Text(start, text, f, c)
	return Rect{start.X, at.Y - s.CapHeight(f), w, s.CapHeight(f) + s.Descent(f)}
}

// TextMiddle is TextAt with the middle of a capital letter's height at the
// point: beside a tick, inside a circle.
func TextMiddle(s Surface, at Point, a Align, text string, f Face, c Color) Rect {
	return TextAt(s, at.Add(0, s.CapHeight(f)/2), a, text, f, c)
}
