package figure

import (
	"math"

	"gaugesheet/layout"
)

// NewPressureBands is the block "fuel": for each circuit a pressure scale with
// a row for each reading, so that readings close together never cover one
// another, and the curve of how the pressure holds where it was timed.
func NewPressureBands(ds ...PressureBand) layout.Block {
	return block{"fuel", func(t layout.Theme, width layout.Length, level layout.Detail) layout.Frame {
		var frames []layout.Frame
		for _, d := range ds {
			frames = append(frames, bandFrame(t, d, width, level))
		}
		return stack(medium, frames...)
	}}
}

// leastForHold is the width from which the hold curve stands beside the scale
// instead of under it.
const leastForHold layout.Length = 360

func bandFrame(t layout.Theme, d PressureBand, width layout.Length, level layout.Detail) layout.Frame {
	const gap = 18
	left := width
	var hold layout.Frame
	under := empty()
	if len(d.Hold) > 0 && width >= leastForHold {
		w := min(width*0.3, 170)
		left = width - w - gap
		least := [...]layout.Length{layout.Full: 68, layout.Compact: 52, layout.Brief: 40}[level]
		hold = holdFrame(t, d, w, least)
	} else if len(d.Hold) > 0 {
		under = holdFrame(t, d, width, 66)
	}
	rows := newBandRows(t, d, left, level).frame()
	figure := rows
	if hold.Draw != nil {
		figure = beside(gap, column{left, rows}, column{width - left - gap, hold})
	}
	return stack([...]layout.Length{layout.Full: small, layout.Compact: tight, layout.Brief: 1}[level], heading(t, d.Title, d.Sub, width), figure, under, captionLines(t, d.Captions, width, level))
}

// A bandRow is one reading with the ranges allowed for it.
type bandRow struct {
	reading Reading
	has     bool // the reading was taken
	allowed []Allowed
}

// bandRows are the rows of one circuit and their common scale.
type bandRows struct {
	t         layout.Theme
	rows      []bandRow
	everyRow  []Allowed
	unit      string
	low, high float64
	marks     []float64 // values of the ticks
	texts     []string
	rowHeight layout.Length
	name      layout.Length // widths of the columns
	value     layout.Length
	scale     layout.Length
	limit     layout.Length
}

const bandGap = medium // between the columns

func newBandRows(t layout.Theme, d PressureBand, width layout.Length, level layout.Detail) bandRows {
	b := bandRows{t: t, unit: d.Unit}
	byName := map[string]int{}
	row := func(name string) *bandRow {
		i, ok := byName[name]
		if !ok {
			i = len(b.rows)
			byName[name] = i
			b.rows = append(b.rows, bandRow{reading: Reading{Name: name}})
		}
		return &b.rows[i]
	}
	for _, r := range d.Readings {
		at := row(r.Name)
		if at.has { // a name used twice gets a row of its own
			b.rows = append(b.rows, bandRow{reading: r, has: true})
			continue
		}
		at.reading, at.has = r, true
	}
	for _, a := range d.Allowed {
		if a.For == "" {
			b.everyRow = append(b.everyRow, a)
			continue
		}
		at := row(a.For)
		at.allowed = append(at.allowed, a)
	}
	b.low, b.high = bandRange(d)
	b.columns(width)
	least := lineHeight(t.Face(layout.Label))
	b.rowHeight = max([...]layout.Length{layout.Full: 13, layout.Compact: 11, layout.Brief: 8}[level], least)
	b.chooseTicks()
	return b
}

// chooseTicks takes as many ticks as have room for their values.
func (b *bandRows) chooseTicks() {
	low, high, note := b.low, b.high, b.t.Face(layout.Note)
	for about := 8; about > 0; about-- {
		b.marks, b.texts = ticks(low, high, about)
		b.low, b.high = b.marks[0], b.marks[len(b.marks)-1]
		var widest layout.Length
		for _, text := range b.texts {
			widest = max(widest, b.t.Measurer.Width(text, note))
		}
		if b.scale/layout.Length(len(b.marks)-1) >= max(widest+medium, 30) {
			return
		}
	}
}

// columns divides the width: names, values, the scale, the limits in words.
func (b *bandRows) columns(width layout.Length) {
	label, strong := b.t.Face(layout.Label), b.valueFace()
	m := b.t.Measurer
	for _, r := range b.rows {
		b.name = max(b.name, m.Width(r.reading.Name, label))
		b.value = max(b.value, m.Width(r.reading.Text, strong)+markSize(b.t, label)+small)
		for _, a := range r.allowed {
			b.limit = max(b.limit, m.Width(a.Text, label))
		}
	}
	for _, a := range b.everyRow {
		b.limit = max(b.limit, m.Width(a.Text, label))
	}
	b.name = min(max(b.name, m.Width(b.unit, label)+small), width*0.24)
	b.value = min(b.value, width*0.2)
	b.limit = min(b.limit, width*0.26)
	b.scale = width - b.name - b.value - 2*bandGap
	if b.limit > 0 {
		b.scale -= b.limit + bandGap
	} else {
		b.scale -= wide // half of the last tick's value
	}
}

// valueFace is the face of the values: a label's size, bold.
func (b *bandRows) valueFace() layout.Face {
	return layout.Face{Weight: layout.Bold, Size: b.t.Face(layout.Label).Size}
}

// bandRange is from zero to the highest value, or from lower down where every
// value is far from zero.
func bandRange(d PressureBand) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	take := func(values ...float64) {
		for _, v := range values {
			if !math.IsInf(v, 0) && !math.IsNaN(v) {
				low, high = min(low, v), max(high, v)
			}
		}
	}
	for _, r := range d.Readings {
		take(r.Value, r.Low, r.High)
	}
	for _, a := range d.Allowed {
		take(a.Low, a.High)
	}
	if high < low {
		return 0, 1
	}
	room := max((high-low)*0.15, high*0.05)
	if low > 0.7*high && low > 0 {
		return low - room, high + room
	}
	return min(low, 0), high + room
}

func (b bandRows) x(v float64, left layout.Length) layout.Length {
	v = min(max(v, b.low), b.high)
	return left + layout.Length((v-b.low)/(b.high-b.low))*b.scale
}

func (b bandRows) frame() layout.Frame {
	label := b.t.Face(layout.Label)
	names := make([][]string, len(b.rows))
	limits := make([][]string, len(b.rows))
	values := make([][]string, len(b.rows))
	heights := make([]layout.Length, len(b.rows))
	total := layout.Length(0)
	strong := b.valueFace()
	for i, r := range b.rows {
		names[i] = breakLines(b.t.Measurer, r.reading.Name, label, b.name)
		values[i] = breakLines(b.t.Measurer, r.reading.Text, strong, max(b.value-markSize(b.t, label)-small, strong.Size))
		for _, a := range append(append([]Allowed{}, r.allowed...), b.everyRow...) {
			limits[i] = append(limits[i], breakLines(b.t.Measurer, a.Text, label, b.limit)...)
		}
		lines := layout.Length(max(len(names[i]), len(limits[i]), 1))
		heights[i] = max(b.rowHeight, lines*lineHeight(label), layout.Length(len(values[i]))*lineHeight(strong))
		total += heights[i]
	}
	axis := lineHeight(b.t.Face(layout.Note)) + small - 1
	return layout.Frame{
		Height:  total + axis,
		Stretch: layout.Length(len(b.rows)) * 4,
		Draw: func(s layout.Surface, a layout.Rect) {
			left := a.X + b.name + b.value + 2*bandGap
			extra := max(a.H-total-axis, 0) / layout.Length(max(len(b.rows), 1))
			extra = min(extra, 6)
			bottom := a.Y + total + extra*layout.Length(len(b.rows))
			b.grid(s, left, a.Y, bottom)
			y := a.Y
			for i, r := range b.rows {
				h := heights[i] + extra
				b.drawRow(s, r, layout.Rect{X: left, Y: y, W: b.scale, H: h})
				b.lines(s, names[i], layout.Rect{X: a.X, Y: y, W: b.name, H: h}, label, b.t.Ink, false)
				mark := markSize(b.t, label) * 1.1
				DrawMark(s, b.t, r.reading.Mark, layout.Point{X: a.X + b.name + bandGap + mark/2, Y: y + h/2}, mark)
				b.lines(s, values[i], layout.Rect{X: a.X + b.name + bandGap, Y: y, W: b.value, H: h}, strong, b.t.Ink, true)
				b.lines(s, limits[i], layout.Rect{X: left + b.scale + bandGap, Y: y, W: b.limit, H: h}, label, b.t.Muted, false)
				y += h
			}
			b.axis(s, left, bottom)
		},
	}
}

// lines sets lines in the middle of a row's height, at its left or right edge.
func (b bandRows) lines(s layout.Surface, lines []string, r layout.Rect, f layout.Face, c layout.Color, right bool) {
	y := r.Y + (r.H-layout.Length(len(lines))*lineHeight(f))/2
	for _, line := range lines {
		x := r.X
		if right {
			x = r.Right() - s.Width(line, f)
		}
		s.Text(layout.Point{X: x, Y: baseline(s, f, y)}, line, f, c)
		y += lineHeight(f)
	}
}

// grid draws the ticks from top to bottom, with their values under the scale
// and the unit before them.
func (b bandRows) grid(s layout.Surface, left, top, bottom layout.Length) {
	note := b.t.Face(layout.Note)
	end := layout.Length(0)
	for i, v := range b.marks {
		x := b.x(v, left)
		s.Stroke(layout.Polyline(layout.Point{X: x, Y: top}, layout.Point{X: x, Y: bottom}), layout.Pen{Width: hairline, Color: b.t.Line})
		s.Stroke(layout.Polyline(layout.Point{X: x, Y: bottom}, layout.Point{X: x, Y: bottom + 3}), layout.Pen{Width: thin, Color: b.t.Ink})
		w := s.Width(b.texts[i], note)
		if i > 0 && x-w/2 < end+tight {
			continue
		}
		s.Text(layout.Point{X: x - w/2, Y: baseline(s, note, bottom+small)}, b.texts[i], note, b.t.Muted)
		end = x + w/2
	}
	// Under the values, clear of the first tick's.
	x := left - max(bandGap, s.Width(b.texts[0], note)/2+small) - s.Width(b.unit, note)
	s.Text(layout.Point{X: x, Y: baseline(s, note, bottom+small)}, b.unit, note, b.t.Muted)
}

func (b bandRows) axis(s layout.Surface, left, bottom layout.Length) {
	s.Stroke(layout.Polyline(layout.Point{X: left, Y: bottom}, layout.Point{X: left + b.scale, Y: bottom}), layout.Pen{Width: outline, Color: b.t.Ink})
}

// drawRow draws the allowed range, the whisker and the marker of a row. A
// second range for the same reading is an outline, so that both can be seen.
func (b bandRows) drawRow(s layout.Surface, r bandRow, area layout.Rect) {
	middle := area.Y + area.H/2
	for k, a := range append(append([]Allowed{}, r.allowed...), b.everyRow...) {
		from, to := b.x(a.Low, area.X), b.x(a.High, area.X)
		band := layout.RectPath(layout.Rect{X: from, Y: area.Y + 2, W: to - from, H: area.H - 4})
		if k == 0 {
			s.Fill(band, b.t.Fill)
		}
		pen := layout.Pen{Width: thin, Color: b.t.Muted}
		if k > 0 {
			pen.Dash = []layout.Length{2.5, 1.8}
		}
		s.Stroke(band, pen)
	}
	s.Stroke(layout.Polyline(layout.Point{X: area.X, Y: area.Bottom()}, layout.Point{X: area.Right(), Y: area.Bottom()}),
		layout.Pen{Width: hairline, Color: b.t.Line})
	if !r.has {
		return
	}
	at := layout.Point{X: b.x(r.reading.Value, area.X), Y: middle}
	if r.reading.Low < r.reading.High {
		drawWhisker(s, b.t, b.x(r.reading.Low, area.X), b.x(r.reading.High, area.X), middle)
	}
	drawPointer(s, b.t, at, 3.6)
}

func drawWhisker(s layout.Surface, t layout.Theme, from, to, y layout.Length) {
	const cap = 2.6
	path := layout.Polyline(layout.Point{X: from, Y: y}, layout.Point{X: to, Y: y})
	for _, x := range []layout.Length{from, to} {
		path = path.MoveTo(layout.Point{X: x, Y: y - cap}).LineTo(layout.Point{X: x, Y: y + cap})
	}
	s.Stroke(path, layout.Pen{Width: outline, Color: t.Ink})
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
