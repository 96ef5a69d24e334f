package layout

import (
	"slices"
	"strings"
	"sync"
	"unicode/utf8"
)

// Wrap breaks text into lines no wider than width: at spaces, else after a
// hyphen, dash or slash, else, where a word alone is too wide, inside the
// word. A line feed breaks a line; U+00A0 and U+202F never do, nor does the
// space between a number and its unit. A separator (·) falls away where a line
// ends at it or the text does; nothing else is left out. A run goes on where
// the one before it ended, without a space.
//
// A last line of one short word takes the last word of the line before it along.
func Wrap(m Measurer, width Length, runs ...Run) Text {
	w := wrappers.Get().(*wrapper)
	defer wrappers.Put(w)
	atoms, room := w.cut(m, runs)
	*w = wrapper{m: m, full: width, width: width, narrow: -1, runs: runs, atoms: room, line: w.line[:0]}
	w.lay(atoms, 0)
	w.keepCompany(atoms)
	w.text.H = w.top
	text := w.text
	w.m, w.runs, w.text = nil, nil, Text{}
	return text
}

// lay puts atoms into lines, from one on.
func (w *wrapper) lay(atoms []atom, from int) {
	for i := from; i < len(atoms); {
		if atoms[i].kind == lineFeed {
			w.flush()
			w.empty = w.runs[atoms[i].run]
			i++
			continue
		}
		start := i
		for i < len(atoms) && atoms[i].kind == spaces {
			i++
		}
		text := i
		for i < len(atoms) && atoms[i].kind != lineFeed && (i == text || atoms[i].sticks || i > text && atoms[i-1].kind == spaces) {
			i++
		}
		if text < i {
			w.next = text
			w.place(atoms[start:text], atoms[text:i])
		}
	}
	w.flush()
}

// A last line is lonely where it is one word that takes less than lonelyWord of the
// width; the line before it keeps leastBefore of the width at least.
const (
	lonelyWord  = 0.16
	leastBefore = 0.6
)

// keepCompany lays the last two lines anew where the last is lonely, so that it takes
// the last word of the line before it along.
func (w *wrapper) keepCompany(atoms []atom) {
	n := len(w.text.Lines)
	if n < 2 || !lonely(w.text, w.full) {
		return
	}
	from := w.begun[0]
	if from.atom == w.begun[1].atom || slices.ContainsFunc(atoms[from.atom:], func(a atom) bool { return a.kind == lineFeed }) {
		return // a word that goes over lines, or a text of several
	}
	was, pair, top := w.text, slices.Clone(w.text.Lines[n-2:]), w.top
	w.text.Lines, w.text.W, w.top = was.Lines[:n-2], 0, from.top
	for _, l := range w.text.Lines {
		w.text.W = max(w.text.W, l.Width)
	}
	w.narrow, w.narrowTo = n-2, pair[0].Width-2*slack
	w.begin()
	w.lay(atoms, from.atom)
	if len(w.text.Lines) != n || w.text.Lines[n-2].Width < leastBefore*w.full {
		copy(was.Lines[n-2:], pair)
		w.text, w.top = was, top
	}
}

func lonely(t Text, width Length) bool {
	last, before := t.Lines[len(t.Lines)-1], t.Lines[len(t.Lines)-2]
	if last.Joins || before.Joins || last.Width > lonelyWord*width || last.Width == 0 || before.Width < leastBefore*width {
		return false
	}
	for _, p := range last.Pieces {
		if strings.ContainsRune(p.Text, ' ') {
			return false
		}
	}
	return true
}

// wrappers keeps the room of atoms and lines for the next text: a page is
// thousands of lines until it fits.
var wrappers = sync.Pool{New: func() any { return new(wrapper) }}

type wrapper struct {
	m        Measurer
	width    Length // of the line that is being filled
	full     Length // of all lines, but for one
	narrow   int    // the line that is narrower; -1 for none
	narrowTo Length
	runs     []Run
	atoms    []atom
	text     Text
	next     int          // the atom that is placed next
	begun    [2]lineBegin // of the last two lines
	begins   lineBegin    // of the line that is being filled
	line     []atom
	used     Length
	top      Length
	empty    Run  // gives an empty line its height
	joins    bool // the line begins inside a word
}

// A lineBegin is where a line begins: at which atom, and how far down.
type lineBegin struct {
	atom int
	top  Length
}

// cut gives the atoms of runs, and the room that the wrapper has for the next.
func (w *wrapper) cut(m Measurer, runs []Run) (atoms, room []atom) {
	if known, ok := m.(*memory); ok {
		return known.cut(runs), w.atoms
	}
	atoms = cut(m, runs, w.atoms)
	return atoms, atoms
}

func total(atoms []atom) (sum Length) {
	for _, a := range atoms {
		sum += a.width
	}
	return sum
}

// place puts what is not to be parted on the line, or on the next.
func (w *wrapper) place(before, text []atom) {
	need := total(text)
	if len(w.line) > 0 {
		if w.used+total(before)+need <= w.width+slack {
			w.append(before...)
			w.append(text...)
			return
		}
		w.flush()
		w.joins = len(before) == 0
		if w.isSeparator(text[0]) && len(text) > 2 {
			text = text[2:] // and the space behind it
			w.next += 2
			need = total(text)
		}
	}
	if need <= w.width+slack {
		w.append(text...)
		return
	}
	for i, a := range text {
		if a.kind == spaces { // more than a line holds: parted after all
			w.place(nil, text[:i])
			w.next += i + 1
			w.place(text[i:i+1], text[i+1:])
			return
		}
	}
	for _, a := range text {
		w.split(a)
	}
}

func (w *wrapper) isSeparator(a atom) bool {
	return w.runs[a.run].Text[a.from:a.to] == separator
}

// split sets an atom that is wider than a line, broken where the line is full.
func (w *wrapper) split(a atom) {
	run := w.runs[a.run]
	for a.from < a.to {
		end := a.from
		var width Length
		for end < a.to {
			_, n := utf8.DecodeRuneInString(run.Text[end:])
			size := int32(n)
			wider := w.m.Width(run.Text[a.from:end+size], run.Face)
			if w.used+wider > w.width+slack && (end > a.from || len(w.line) > 0) {
				break
			}
			end, width = end+size, wider
		}
		if end > a.from {
			w.append(atom{run: a.run, from: a.from, to: end, width: width})
			a.from = end
		}
		if a.from < a.to {
			w.flush()
			w.joins = true
		}
	}
}

func (w *wrapper) append(atoms ...atom) {
	if len(w.line) == 0 {
		w.begins = lineBegin{w.next, w.top}
	}
	w.line = append(w.line, atoms...)
	w.used += total(atoms)
}

// flush ends the line.
func (w *wrapper) flush() {
	if len(w.line) == 0 {
		if w.empty.Face.Size > 0 {
			w.top += Leading(w.empty.Face)
			w.text.Lines = append(w.text.Lines, TextLine{Baseline: w.top})
		}
		w.empty = Run{}
		w.begin()
		return
	}
	w.begun = [2]lineBegin{w.begun[1], w.begins}
	line := TextLine{Pieces: w.pieces(), Width: w.used, Joins: w.joins}
	var leading, base Length
	for _, p := range line.Pieces {
		leading = max(leading, Leading(p.Face))
		base = max(base, Baseline(w.m, p.Face))
	}
	line.Baseline = w.top + base
	w.top += leading
	w.text.Lines = append(w.text.Lines, line)
	w.text.W = max(w.text.W, line.Width)
	w.line, w.used, w.empty, w.joins = w.line[:0], 0, Run{}, false
	w.begin()
}

// begin gives the next line its width.
func (w *wrapper) begin() {
	if w.width = w.full; len(w.text.Lines) == w.narrow {
		w.width = w.narrowTo
	}
}

// pieces are the line's atoms put together: what follows in a run is one
// piece, and so is what looks the same.
func (w *wrapper) pieces() []Piece {
	var pieces []Piece
	var x Length
	for i := 0; i < len(w.line); {
		first := w.line[i]
		run, at := w.runs[first.run], x
		to := first.to
		x += first.width
		for i++; i < len(w.line) && w.line[i].run == first.run && w.line[i].from == to; i++ {
			to = w.line[i].to
			x += w.line[i].width
		}
		text := plainSpaces(run.Text[first.from:to])
		if n := len(pieces); n > 0 && pieces[n-1].Face == run.Face && pieces[n-1].Color == run.Color {
			pieces[n-1].Text += text
			continue
		}
		pieces = append(pieces, Piece{Run{Text: text, Face: run.Face, Color: run.Color}, at})
	}
	return pieces
}
