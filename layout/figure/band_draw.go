package figure

import (
	"math"

	"gaugesheet/layout"
)

// frame is the rows with the scale under them.
func (b *band) frame() layout.Frame {
	total := max(b.rowsHeight(), b.least)
	axis := lineHeight(b.t.Face(layout.Note)) + small - 1
	return layout.Frame{
		Height:  total + axis,
		Stretch: layout.Length(len(b.rows)) * mostExtra,
		Draw: func(s layout.Surface, a layout.Rect) {
			extra := min(max(a.H-total-axis, 0)/layout.Length(max(len(b.rows), 1)), mostExtra)
			bottom := a.Y + total + extra*layout.Length(len(b.rows))
			b.grid(s, a, bottom, extra)
			y := a.Y
			for _, r := range b.rows {
				b.drawRow(s, r, layout.Rect{X: a.X, Y: y, W: a.W, H: r.height + extra})
				y += r.height + extra
			}
			left := a.X + b.left
			s.Stroke(layout.Polyline(layout.Point{X: left, Y: bottom}, layout.Point{X: left + b.scale, Y: bottom}),
				layout.Pen{Width: outline, Color: b.t.Ink})
		},
	}
}

// mostExtra is how much higher a row is drawn at most where there is room.
const mostExtra layout.Length = 3

// grid draws the ticks through the rows of readings, with their values under
// the scale.
func (b *band) grid(s layout.Surface, a layout.Rect, bottom, extra layout.Length) {
	note := b.t.Face(layout.Note)
	end := layout.Length(-100)
	for i, v := range b.marks {
		x := a.X + b.left + b.x(v)
		y := a.Y
		for _, r := range b.rows {
			h := r.height + extra
			if r.circuit == "" {
				s.Stroke(layout.Polyline(layout.Point{X: x, Y: y}, layout.Point{X: x, Y: y + h}), layout.Pen{Width: hairline, Color: b.t.Line})
			}
			y += h
		}
		s.Stroke(layout.Polyline(layout.Point{X: x, Y: bottom}, layout.Point{X: x, Y: bottom + 2.5}), layout.Pen{Width: thin, Color: b.t.Ink})
		w := s.Width(b.texts[i], note)
		at := min(x-w/2, a.Right()-w)
		if at < end+tight {
			continue
		}
		s.Text(layout.Point{X: at, Y: baseline(s, note, bottom+small-1)}, b.texts[i], note, b.t.Ink)
		end = at + w
	}
}

func (b *band) rowsHeight() (h layout.Length) {
	for _, r := range b.rows {
		h += r.height
	}
	return h
}

// drawRow draws a reading's name, mark and value, then its place on the scale.
func (b *band) drawRow(s layout.Surface, r bandRow, area layout.Rect) {
	if r.circuit != "" {
		b.lines(s, r.names, area, b.valueFace(), b.t.Ink, false)
		return
	}
	row := area
	if r.limit.under {
		row.H -= layout.Length(len(r.limit.lines)) * b.line
	}
	name, rest := row.SplitLeft(b.name)
	mark, rest := rest.SplitLeft(medium + b.mark)
	value, _ := rest.SplitLeft(b.value)
	b.lines(s, r.names, name, b.face(), b.t.Ink, false)
	b.lines(s, r.values, value, b.valueFace(), b.t.Ink, true)
	size := markSize(b.t, b.face())
	DrawMark(s, b.t, r.Mark, layout.Point{X: mark.Right() - small - size/2, Y: row.Center().Y}, size)

	scale := layout.Rect{X: area.X + b.left, Y: row.Y, W: b.scale, H: row.H}
	b.allowed(s, r, scale)
	b.reading(s, r, scale)
	if r.limit.under {
		under := layout.Rect{X: scale.X, Y: row.Bottom(), W: b.scale, H: area.Bottom() - row.Bottom()}
		s.Fill(layout.RectPath(under), b.t.Paper)
		b.lines(s, r.limit.lines, under, b.face(), b.t.Ink, false)
	}
}

// lines sets lines in the middle of a row's height, at its left or right edge.
func (b *band) lines(s layout.Surface, lines []string, r layout.Rect, f layout.Face, c layout.Color, right bool) {
	y := r.Y + (r.H-layout.Length(len(lines))*b.line)/2
	for _, line := range lines {
		x := r.X
		if right {
			x = r.Right() - s.Width(line, f)
		}
		layout.TextMiddle(s, layout.Point{X: x, Y: y + b.line/2}, layout.Left, line, f, c)
		y += b.line
	}
}

// allowed draws the permitted range, open where it has no end, and its words.
func (b *band) allowed(s layout.Surface, r bandRow, scale layout.Rect) {
	if r.Allowed == nil {
		return
	}
	from, to := scale.X+b.x(r.Allowed.Low), scale.X+b.x(r.Allowed.High)
	box := layout.Rect{X: from, Y: scale.Y + 0.7, W: to - from, H: scale.H - 1.4}
	s.Fill(layout.RectPath(box), b.t.Fill)
	pen := layout.Pen{Width: thin, Color: b.t.Ink}
	for _, y := range []layout.Length{box.Y, box.Bottom()} {
		s.Stroke(layout.Polyline(layout.Point{X: from, Y: y}, layout.Point{X: to, Y: y}), pen)
	}
	for _, end := range []struct{ value float64 }{{r.Allowed.Low}, {r.Allowed.High}} {
		if x := scale.X + b.x(end.value); !math.IsInf(end.value, 0) {
			s.Stroke(layout.Polyline(layout.Point{X: x, Y: box.Y}, layout.Point{X: x, Y: box.Bottom()}), pen)
		}
	}
	if len(r.limit.lines) == 0 || r.limit.under {
		return
	}
	at := layout.Point{X: scale.X + r.limit.x, Y: scale.Center().Y}
	// Grid and grey would be read into the words on a fax.
	w := s.Width(r.limit.lines[0], b.face())
	s.Fill(layout.RectPath(layout.Rect{X: at.X - 1.5, Y: box.Y + thin, W: w + 3, H: box.H - 2*thin}), b.t.Paper)
	layout.TextMiddle(s, at, layout.Left, r.limit.lines[0], b.face(), b.t.Ink)
}

// reading draws the whisker, the range that was entered and the marker.
func (b *band) reading(s layout.Surface, r bandRow, scale layout.Rect) {
	y := scale.Center().Y
	if r.Low < r.High {
		drawWhisker(s, b.t, scale.X+b.x(r.Low), scale.X+b.x(r.High), y)
	}
	if from, to := scale.X+b.x(r.From), scale.X+b.x(r.To); to > from {
		s.Stroke(layout.Polyline(layout.Point{X: from, Y: y}, layout.Point{X: to, Y: y}), layout.Pen{Width: 3, Color: b.t.Ink})
		return
	}
	at := layout.Point{X: scale.X + b.x(r.Value), Y: y}
	drawPointer(s, b.t, at, pointer)
	if r.More {
		s.Fill(layout.Polygon(at.Add(pointer+tight, -2.4), at.Add(2*pointer+tight, 0), at.Add(pointer+tight, 2.4)), b.t.Ink)
	}
}

func drawWhisker(s layout.Surface, t layout.Theme, from, to, y layout.Length) {
	s.Stroke(layout.Whisker(from, to, y, 2.6), layout.Pen{Width: outline, Color: t.Ink})
}

// drawPointer is the marker of a reading: a filled rhomb with a white edge, to
// be seen on a filled band.
func drawPointer(s layout.Surface, t layout.Theme, at layout.Point, r layout.Length) {
	rhomb := func(r layout.Length) layout.Path {
		return layout.Polygon(at.Add(0, -r), at.Add(r, 0), at.Add(0, r), at.Add(-r, 0))
	}
	s.Fill(rhomb(r+1), t.Paper)
	s.Fill(rhomb(r), t.Ink)
}
