package layout

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// A Run is a stretch of text in one face and ink.
type Run struct {
	Text  string
	Face  Face
	Color Color
}

// A TextLine is a line of a Text: pieces from left to right, with the place
// of the baseline below the text's top.
type TextLine struct {
	Pieces   []Piece
	Width    Length // without spaces at the end
	Baseline Length
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

// Wrap breaks text into lines no wider than width: at spaces, else after a
// hyphen, dash or slash, else, where a word alone is too wide, inside the
// word. A line feed breaks a line; U+00A0 and U+202F never do. Nothing is
// left out. A run goes on where the one before it ended, without a space.
func Wrap(m Measurer, width Length, runs ...Run) Text {
	w := wrapper{m: m, width: width}
	for _, word := range words(runs) {
		w.place(word)
	}
	w.flush()
	return w.done()
}

// A word is what is not broken while it fits a line: pieces that may differ in
// face, and the spaces before it.
type word struct {
	space  []Run // nothing where the word may follow without one
	text   []Run
	breaks bool // a line feed stands before it
}

// words cuts runs at spaces, line feeds and after hyphens and slashes.
func words(runs []Run) []word {
	most := 1
	for _, run := range runs {
		most += 1 + strings.Count(run.Text, " ")
	}
	all := make([]word, 0, most)
	current := word{}
	next := func() {
		if len(current.text) > 0 || len(current.space) > 0 || current.breaks {
			all = append(all, current)
		}
		current = word{}
	}
	// A stretch of one run is cut from it whole, not put together letter by
	// letter: text is laid out many times before a page fits.
	var stretch struct {
		to         *[]Run
		run        int
		start, end int
	}
	add := func(to *[]Run, i, at, size int) {
		run, n := runs[i], len(*to)
		if n > 0 && stretch.to == to && stretch.run == i && stretch.end == at {
			stretch.end += size
			(*to)[n-1].Text = run.Text[stretch.start:stretch.end]
			return
		}
		piece := run.Text[at : at+size]
		if n > 0 && (*to)[n-1].Face == run.Face && (*to)[n-1].Color == run.Color {
			(*to)[n-1].Text += piece
			stretch.to = nil
			return
		}
		*to = append(*to, Run{piece, run.Face, run.Color})
		stretch.to, stretch.run, stretch.start, stretch.end = to, i, at, at+size
	}
	var before rune
	for i, run := range runs {
		for at, r := range run.Text {
			_, size := utf8.DecodeRuneInString(run.Text[at:])
			switch {
			case r == '\n':
				next()
				current.breaks = true
				// An empty line has the height of the run it stands in.
				current.space = []Run{{"", run.Face, run.Color}}
			case unicode.IsSpace(r) && !fixedSpace(r):
				if len(current.text) > 0 {
					next()
				}
				if r != ' ' {
					current.space = append(current.space, Run{" ", run.Face, run.Color})
					break
				}
				add(&current.space, i, at, size)
			default:
				// Signs, ranges and fractions (-4, 40-44, 72/80) stay in one piece.
				if len(current.text) > 0 && mayBreakAfter(before) && !unicode.IsDigit(r) && r != '.' {
					next()
				}
				add(&current.text, i, at, size)
			}
			before = r
		}
	}
	next()
	return all
}

func fixedSpace(r rune) bool { return r == '\u00A0' || r == '\u202F' || r == '\u2007' }

func mayBreakAfter(r rune) bool {
	return r == '-' || r == '/' || r == '\u2010' || r == '\u2013' || r == '\u2014'
}

type wrapper struct {
	m     Measurer
	width Length
	text  Text
	line  []Run
	used  Length
	top   Length
	empty Run // gives an empty line its height
}

func (w *wrapper) measure(runs []Run) (sum Length) {
	for _, r := range runs {
		sum += w.m.Width(r.Text, r.Face)
	}
	return sum
}

// slack lets a line be as wide as its width in spite of rounding.
const slack Length = 0.005

func (w *wrapper) place(next word) {
	if next.breaks {
		w.flush()
		w.empty = next.space[0]
	}
	if len(next.text) == 0 {
		return // spaces at the end
	}
	need := w.measure(next.text)
	if len(w.line) > 0 {
		if w.used+w.measure(next.space)+need <= w.width+slack {
			w.append(next.space)
			w.append(next.text)
			return
		}
		w.flush()
	}
	if need <= w.width+slack {
		w.append(next.text)
		return
	}
	w.split(next.text)
}

// split sets a word that is wider than a line, broken where the line is full.
func (w *wrapper) split(runs []Run) {
	for _, run := range runs {
		rest := run.Text
		for rest != "" {
			n := 0
			for n < len(rest) {
				_, size := utf8.DecodeRuneInString(rest[n:])
				if w.used+w.m.Width(rest[:n+size], run.Face) > w.width+slack && (n > 0 || len(w.line) > 0) {
					break
				}
				n += size
			}
			if n > 0 {
				w.append([]Run{{rest[:n], run.Face, run.Color}})
				rest = rest[n:]
			}
			if rest != "" {
				w.flush()
			}
		}
	}
}

func (w *wrapper) append(runs []Run) {
	for _, r := range runs {
		w.used += w.m.Width(r.Text, r.Face)
		if n := len(w.line); n > 0 && w.line[n-1].Face == r.Face && w.line[n-1].Color == r.Color {
			w.line[n-1].Text += r.Text
			continue
		}
		w.line = append(w.line, r)
	}
}

// flush ends the line.
func (w *wrapper) flush() {
	if len(w.line) == 0 {
		if w.empty.Face.Size > 0 {
			w.top += Leading(w.empty.Face)
			w.text.Lines = append(w.text.Lines, TextLine{Baseline: w.top})
		}
		w.empty = Run{}
		return
	}
	line := TextLine{}
	var leading, base Length
	for _, r := range w.line {
		line.Pieces = append(line.Pieces, Piece{r, line.Width})
		line.Width += w.m.Width(r.Text, r.Face)
		leading = max(leading, Leading(r.Face))
		base = max(base, Baseline(w.m, r.Face))
	}
	line.Baseline = w.top + base
	w.top += leading
	w.text.Lines = append(w.text.Lines, line)
	w.text.W = max(w.text.W, line.Width)
	w.line, w.used, w.empty = nil, 0, Run{}
}

func (w *wrapper) done() Text {
	w.text.H = w.top
	return w.text
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
		for _, p := range l.Pieces {
			s.Text(start.Add(p.X, 0), p.Text, p.Face, p.Color)
		}
	}
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
