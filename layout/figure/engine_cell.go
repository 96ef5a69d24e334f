package figure

import (
	"slices"
	"strings"

	"gaugesheet/layout"
)

// A cell is one cylinder of a plan with the text around it, all relative to
// the middle of the bore.
type cell struct {
	half  layout.Size // of the bore, its gasket outline included
	texts []cellText  // number and grade; the small values
}

// A cellText is a block of lines beside a bore.
type cellText struct {
	area  layout.Rect // relative to the bore
	side  Direction   // which side of the bore it is on
	lines []cellLine
}

// A cellLine is a line of a cellText: words with a mark before them, or a box
// to write in.
type cellLine struct {
	mark Mark
	runs []layout.Run
	box  bool
	two  bool // another box before it, for the number
	w, h layout.Length
}

// The size of a box for handwriting: 9 mm by 7 mm.
const (
	penBoxW = 9 * layout.MM
	penBoxH = 7 * layout.MM
)

// rects are the areas that a cell keeps free of others.
func (c cell) rects() []layout.Rect {
	all := []layout.Rect{{X: -c.half.W, Y: -c.half.H, W: 2 * c.half.W, H: 2 * c.half.H}}
	for _, t := range c.texts {
		all = append(all, t.area)
	}
	return all
}

// extent is the smallest area around all of a cell.
func (c cell) extent() layout.Rect { return union(c.rects()...) }

func union(all ...layout.Rect) layout.Rect {
	u := all[0]
	for _, r := range all[1:] {
		x, y := min(u.X, r.X), min(u.Y, r.Y)
		u = layout.Rect{X: x, Y: y, W: max(u.Right(), r.Right()) - x, H: max(u.Bottom(), r.Bottom()) - y}
	}
	return u
}

// cellWriter sets the texts of the cells of one plan.
type cellWriter struct {
	t        layout.Theme
	plan     EnginePlan
	notes    bool          // show the small values
	width    layout.Length // texts are wrapped to it
	valueOut bool          // the value stands beside the bore, not in it
	boxOut   bool          // the same for the box to write the value in
	joined   bool          // number and grade on one line

	words []cellWords // by cylinder
}

// cellWords are the lines beside a cylinder: its number and grade, and the
// small values.
type cellWords struct{ main, notes []cellLine }

// lineGap is the distance between two texts under one another.
func (w cellWriter) lineGap() layout.Length {
	if w.joined && !w.boxOut {
		return closeGap
	}
	return lineGap
}

// write sets the lines of every cylinder; ok is false where a word would have
// to be broken.
func (w *cellWriter) write() (ok bool) {
	for _, c := range w.plan.Cylinders {
		words := cellWords{w.number(c), w.smallValues(c)}
		if w.breaksWord(c) || w.joined && words.main[0].w > w.width {
			return false
		}
		w.words = append(w.words, words)
	}
	return true
}

// lineWidths is the sum of the widths of all lines: two writers that agree in
// it have broken their lines alike.
func (w *cellWriter) lineWidths() (sum layout.Length) {
	for _, c := range w.words {
		for _, l := range slices.Concat(c.main, c.notes) {
			sum += l.w
		}
	}
	return sum
}

func (w cellWriter) number(c Cylinder) []cellLine {
	t := w.t
	var lines []cellLine
	if w.joined && w.boxOut {
		return append(lines, w.numberedBox(c))
	}
	if w.joined && !w.boxOut {
		if line := w.joinedLine(c); line.w <= w.width {
			return append(lines, line)
		}
		word := c.Word
		c.Word = ""
		return w.wrapped(append(lines, w.joinedLine(c)), NoMark, word, t.Face(layout.Note), t.Ink)
	}
	if c.Number != "" {
		lines = w.wrapped(lines, NoMark, c.Number, t.Face(layout.Strong), t.Accent)
	} else if w.plan.Pen {
		lines = append(lines, penBox())
	}
	if w.valueOut || w.plan.Pen {
		lines = w.faces(lines, c)
	}
	if w.valueOut && c.Value != "" {
		lines = w.wrapped(lines, NoMark, c.Value, t.Face(layout.Strong), t.Ink)
	}
	if w.boxOut {
		lines = append(lines, penBox())
	}
	if c.Word != "" || c.Mark != NoMark {
		lines = w.wrapped(lines, c.Mark, c.Word, t.Face(layout.Note), t.Ink)
	}
	return lines
}

// numberedBox is a number, or a box for it, with a box to write in behind it.
func (w cellWriter) numberedBox(c Cylinder) cellLine {
	line := penBox()
	if c.Number == "" {
		line.two, line.w = true, 2*penBoxW+small
		return line
	}
	line.w = 0
	line.add(w.t, c.Number, w.t.Face(layout.Strong), w.t.Accent)
	line.w += small + penBoxW
	return line
}

// joinedLine is number and grade on one line, with the mark before them and
// the value between them where it has no place in the bore.
func (w cellWriter) joinedLine(c Cylinder) cellLine {
	strong, note := w.t.Face(layout.Strong), w.t.Face(layout.Note)
	line := cellLine{mark: c.Mark, h: lineHeight(strong)}
	line.add(w.t, c.Number, strong, w.t.Accent)
	if w.valueOut {
		line.add(w.t, c.Value, strong, w.t.Ink)
		for _, f := range c.Faces {
			line.add(w.t, f.Name, note, w.t.Muted)
			line.add(w.t, f.Value, note, w.t.Ink)
		}
	}
	line.add(w.t, c.Word, note, w.t.Ink)
	if c.Mark != NoMark {
		line.w += markSize(w.t, note) + tight
	}
	return line
}

// faces sets what was read at a rotor's faces, for want of room in it.
func (w cellWriter) faces(lines []cellLine, c Cylinder) []cellLine {
	for _, f := range c.Faces {
		lines = w.wrapped(lines, NoMark, strings.TrimSpace(f.Name+" "+f.Value), w.t.Face(layout.Note), w.t.Ink)
		if w.plan.Pen && f.Value == "" {
			lines = append(lines, penBox())
		}
	}
	return lines
}

func (w cellWriter) smallValues(c Cylinder) []cellLine {
	if !w.notes {
		return nil
	}
	t := w.t
	face := t.Face(layout.Note)
	var lines []cellLine
	for _, n := range c.Notes {
		if n.Value == "" && w.plan.Pen {
			lines = w.wrapped(lines, NoMark, n.Name, face, t.Muted)
			lines = append(lines, penBox())
			continue
		}
		line := cellLine{h: lineHeight(face)}
		line.add(t, n.Name, face, t.Muted)
		line.add(t, n.Value, face, t.Ink)
		if line.w <= w.width || n.Name == "" || n.Value == "" {
			if line.w <= w.width {
				lines = append(lines, line)
				continue
			}
		}
		lines = w.wrapped(lines, NoMark, n.Name, face, t.Muted)
		lines = w.wrapped(lines, NoMark, n.Value, face, t.Ink)
	}
	return lines
}

func penBox() cellLine { return cellLine{box: true, w: penBoxW, h: penBoxH + tight} }

// add puts words behind those already on the line.
func (l *cellLine) add(t layout.Theme, text string, f layout.Face, c layout.Color) {
	if text == "" {
		return
	}
	if len(l.runs) > 0 {
		l.w += t.Measurer.Width(" ", f)
	}
	l.runs = append(l.runs, layout.Run{Text: text, Face: f, Color: c})
	l.w += t.Measurer.Width(text, f)
}

// breaksWord reports whether a word beside the cylinder is wider than a line.
func (w cellWriter) breaksWord(c Cylinder) bool {
	m, note, strong := w.t.Measurer, w.t.Face(layout.Note), w.t.Face(layout.Strong)
	room := w.width
	if c.Mark != NoMark {
		room -= markSize(w.t, note) + tight
	}
	broken := wider(m, c.Number, strong, w.width) || wider(m, c.Word, note, room)
	if w.valueOut {
		broken = broken || wider(m, c.Value, strong, w.width)
	}
	for _, n := range slices.Concat(c.Faces, c.Notes) {
		broken = broken || w.notes && (wider(m, n.Name, note, w.width) || wider(m, n.Value, note, w.width))
	}
	return broken
}

// wider reports whether a word of a text is wider than a line.
func wider(m layout.Measurer, text string, f layout.Face, width layout.Length) bool {
	return slices.ContainsFunc(strings.Fields(text), func(word string) bool { return m.Width(word, f) > width })
}

// wrapped appends text as lines no wider than the writer's width, the first
// with a mark before it.
func (w cellWriter) wrapped(lines []cellLine, m Mark, text string, f layout.Face, c layout.Color) []cellLine {
	room := w.width
	var indent layout.Length
	if m != NoMark {
		indent = markSize(w.t, f) + tight
		room -= indent
	}
	all := breakLines(w.t.Measurer, text, f, max(room, f.Size))
	if len(all) == 0 {
		all = []string{""}
	}
	for i, s := range all {
		line := cellLine{h: lineHeight(f)}
		line.add(w.t, s, f, c)
		if i == 0 && m != NoMark {
			line.mark = m
			line.w += indent
		}
		lines = append(lines, line)
	}
	return lines
}

// textAt places lines on a side of a bore of the given half size.
func textAt(lines []cellLine, half layout.Size, side Direction) cellText {
	const gap, clear = 3, 2.5
	var w, h layout.Length
	for _, l := range lines {
		w, h = max(w, l.w), h+l.h
	}
	area := layout.Rect{X: -w / 2, Y: -h / 2, W: w, H: h}
	switch side {
	case Left:
		area.X = -half.W - gap - w
	case Right:
		area.X = half.W + gap
	case Up:
		area.Y = -half.H - clear - h
	case Down:
		area.Y = half.H + clear
	}
	return cellText{area, side, lines}
}

func (ct cellText) draw(s layout.Surface, t layout.Theme, at layout.Point) {
	y := at.Y + ct.area.Y
	for _, l := range ct.lines {
		x := at.X + ct.area.X
		switch ct.side {
		case Left:
			x += ct.area.W - l.w
		case Up, Down:
			x += (ct.area.W - l.w) / 2
		}
		l.draw(s, t, layout.Point{X: x, Y: y})
		y += l.h
	}
}

func (l cellLine) draw(s layout.Surface, t layout.Theme, at layout.Point) {
	if l.box {
		box := layout.Rect{X: at.X + l.w - penBoxW, Y: at.Y + tight/2, W: penBoxW, H: penBoxH}
		s.Stroke(layout.RectPath(box), layout.Pen{Width: thin, Color: t.Muted})
		if l.two {
			box.X = at.X
			s.Stroke(layout.RectPath(box), layout.Pen{Width: thin, Color: t.Muted, Dash: []layout.Length{2, 1.5}})
		}
		for _, r := range l.runs {
			layout.TextMiddle(s, layout.Point{X: at.X, Y: box.Center().Y}, layout.Left, r.Text, r.Face, r.Color)
		}
		return
	}
	face := t.Face(layout.Note)
	if len(l.runs) > 0 {
		face = l.runs[0].Face
	}
	base := baseline(t.Measurer, face, at.Y)
	x := at.X
	if l.mark != NoMark {
		size := markSize(t, t.Face(layout.Note))
		DrawMark(s, t, l.mark, layout.Point{X: x + size/2, Y: base - t.Measurer.CapHeight(face)/2}, size)
		x += size + tight
	}
	for _, r := range l.runs {
		s.Text(layout.Point{X: x, Y: base}, r.Text, r.Face, r.Color)
		x += t.Measurer.Width(r.Text, r.Face) + t.Measurer.Width(" ", r.Face)
	}
}
