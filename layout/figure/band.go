package figure

import (
	"math"

	"gaugesheet/layout"
)

// NewPressures is the block "fuel": a row for each reading with its value, the
// range allowed for it, the gauge's whisker and the marker, all circuits on one
// scale. Where there is width for it the rows stand in two columns, each over
// that scale.
func NewPressures(d Pressures) layout.Block {
	return block{"fuel", func(t layout.Theme, width layout.Length, level layout.Detail) layout.Frame {
		if level == layout.Brief && d.RunsOn {
			frame := d.runOn(t, width)
			frame.Richer = richer(frame, func() layout.Frame { return d.rows(t, width, level) })
			return frame
		}
		return d.rows(t, width, level)
	}}
}

// rows is a row to a reading.
func (d Pressures) rows(t layout.Theme, width layout.Length, level layout.Detail) layout.Frame {
	columns := 1
	if width >= twoBands && d.count() >= rowsForTwo {
		columns = 2
	}
	const gap = 2 * wide
	b := newBand(t, d, (width-gap*layout.Length(columns-1))/layout.Length(columns), level)
	sub := ""
	if d.Sub != nil {
		sub = d.Sub(b.start())
	}
	frames := []layout.Frame{heading(t, d.Title, sub, width)}
	switch {
	case columns == 2:
		left, right := b.halves()
		frames = append(frames, pictured(d.Alt, beside(gap, column{b.width, left.frame()}, column{b.width, right.frame()})))
	case len(b.rows) > 0:
		frames = append(frames, pictured(d.Alt, b.frame()))
	}
	return stack(tight, append(frames, captionLines(t, d.captions(), width, level))...)
}

// From this width rows stand in two columns, where there are so many.
const (
	twoBands   = layout.Length(400)
	rowsForTwo = 4
)

func (d Pressures) count() (n int) {
	for _, c := range d.Circuits {
		n += len(c.Readings)
	}
	return n
}

func (d Pressures) captions() (all []string) {
	for _, c := range d.Circuits {
		all = append(all, c.Captions...)
	}
	return all
}

// halves divides the rows in two, about equally high. A circuit's name stays
// with its first reading.
func (b *band) halves() (left, right *band) {
	half, at := b.rowsHeight()/2, 0
	for height := layout.Length(0); at < len(b.rows) && height < half; at++ {
		height += b.rows[at].height
	}
	if at > 0 && b.rows[at-1].circuit != "" {
		at--
	}
	first, second := *b, *b
	first.rows, second.rows = b.rows[:at], b.rows[at:]
	first.least = second.rowsHeight()
	second.least = first.rowsHeight()
	return &first, &second
}

// A band is rows on one scale.
type band struct {
	t         layout.Theme
	width     layout.Length
	line      layout.Length // from line to line
	least     layout.Length // of the rows' height together
	rows      []bandRow
	low, high float64   // ends of the scale
	marks     []float64 // values of the ticks
	texts     []string
	name      layout.Length // widths of the columns
	mark      layout.Length
	value     layout.Length
	left      layout.Length // where the scale begins
	scale     layout.Length
}

// A bandRow is a reading, or the name of a circuit over its readings.
type bandRow struct {
	Reading
	circuit string
	names   []string // the name in lines
	values  []string
	height  layout.Length
	limit   bandText
}

// A bandText is the words of what is allowed, in the row or in lines under it.
type bandText struct {
	lines []string
	x     layout.Length // from the scale's left; of words in the row
	under bool
}

// bandRowHeights are the least heights of a row, by detail.
var bandRowHeights = [...]layout.Length{layout.Full: 12, layout.Compact: 10.5, layout.Brief: 9}

func newBand(t layout.Theme, d Pressures, width layout.Length, level layout.Detail) *band {
	b := &band{t: t, width: width}
	// The letters of neighbouring rows still stand apart where rows are low.
	b.line = min(lineHeight(b.face()), max(bandRowHeights[level], t.Measurer.Ascent(b.face())+t.Measurer.Descent(b.face())))
	for _, c := range d.Circuits {
		if c.Name != "" && len(c.Readings) > 0 {
			b.rows = append(b.rows, bandRow{circuit: c.Name})
		}
		for _, r := range c.Readings {
			b.rows = append(b.rows, bandRow{Reading: r})
		}
	}
	b.columns(width)
	least, room := -1, 0.0
	for steps := range mostSteps + 1 {
		b.chooseScale(float64(steps))
		under := 0
		for i := range b.rows {
			b.layRow(&b.rows[i], width, bandRowHeights[level])
			if b.rows[i].limit.under {
				under++
			}
		}
		if least < 0 || under < least {
			least, room = under, float64(steps)
		}
		if least == 0 {
			return b
		}
	}
	b.chooseScale(room)
	for i := range b.rows {
		b.layRow(&b.rows[i], width, bandRowHeights[level])
	}
	return b
}

// mostSteps is by how many steps a scale goes on at most for the words of limits
// to have room on it.
const mostSteps = 2

// columns divides the width: names, marks, values, the scale.
func (b *band) columns(width layout.Length) {
	m := b.t.Measurer
	for _, r := range b.rows {
		b.name = max(b.name, m.Width(r.Name, b.face()))
		b.value = max(b.value, m.Width(r.Text, b.valueFace()))
		if r.Mark != NoMark {
			b.mark = markSize(b.t, b.face()) + small
		}
	}
	b.name = min(b.name, width*0.34)
	b.value = min(b.value, width*0.24)
	b.left = b.name + medium + b.mark + b.value + medium
	b.scale = min(width-b.left-lastHalf, widestScale)
}

// widestScale is how long the scale is at most: beyond that it tells no more.
const widestScale layout.Length = 280

// lastHalf is the room right of the scale for half of the last tick's number.
const lastHalf layout.Length = 8.5

func (b *band) face() layout.Face { return b.t.Face(layout.Label) }

// valueFace is the face of the values: a label's size, bold.
func (b *band) valueFace() layout.Face {
	return layout.Face{Weight: layout.Bold, Size: b.face().Size}
}

// farFromZero is how much of the scale would be empty for the scale to begin
// above zero.
const farFromZero = 0.4

// chooseScale is from zero, or from a round value lower down where every value
// is far from zero, to a little over the highest value and some steps further,
// with as many ticks as have room.
func (b *band) chooseScale(steps float64) {
	low, high := b.extremes()
	if low > farFromZero*high && low > 0 {
		low -= (high - low) * endRoom
	} else {
		low = min(low, 0)
	}
	high += (high - low) * (endRoom + steps*stepRoom)
	note := b.t.Face(layout.Note)
	for about := 8; about > 0; about-- {
		b.marks, b.texts = ticks(low, high, about)
		b.low, b.high = b.marks[0], max(high, b.marks[min(1, len(b.marks)-1)])
		var widest layout.Length
		for i, v := range b.marks {
			if v > b.high {
				b.marks, b.texts = b.marks[:i], b.texts[:i]
				break
			}
			widest = max(widest, b.t.Measurer.Width(b.texts[i], note))
		}
		if pitch := b.x(b.marks[1]); pitch >= max(widest+medium, 18) {
			return
		}
	}
}

// Parts of the scale that stay free beyond the values, and more for each step by
// which it goes on.
const (
	endRoom  = 0.04
	stepRoom = 0.13
)

// extremes are the lowest and the highest of what has to be on the scale.
func (b *band) extremes() (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	take := func(values ...float64) {
		for _, v := range values {
			if !math.IsInf(v, 0) && !math.IsNaN(v) {
				low, high = min(low, v), max(high, v)
			}
		}
	}
	for _, r := range b.rows {
		if r.circuit != "" {
			continue
		}
		take(r.Value, r.Low, r.High, r.From, r.To)
		if r.Allowed != nil {
			take(r.Allowed.Low, r.Allowed.High)
		}
	}
	if high < low {
		return 0, 1
	}
	return low, high
}

// start is where the scale begins, "" for zero.
func (b *band) start() string {
	if b.low == 0 || len(b.rows) == 0 {
		return ""
	}
	return b.texts[0]
}

// x is the place of a value from the left of the scale.
func (b *band) x(v float64) layout.Length {
	v = min(max(v, b.low), b.high)
	return layout.Length((v-b.low)/(b.high-b.low)) * b.scale
}

// layRow breaks a row's words into lines and finds those of its limit a place.
func (b *band) layRow(r *bandRow, width, least layout.Length) {
	m, line := b.t.Measurer, b.line
	if r.circuit != "" {
		r.names = breakLines(m, r.circuit, b.valueFace(), width)
		r.height = max(layout.Length(len(r.names))*line, least)
		return
	}
	r.names = breakLines(m, r.Name, b.face(), b.name)
	r.values = breakLines(m, r.Text, b.valueFace(), b.value)
	lines := max(len(r.names), len(r.values), 1)
	r.height = max(least, layout.Length(lines)*line)
	if r.Allowed == nil || r.Allowed.Text == "" {
		return
	}
	if r.limit = b.placeLimit(r); r.limit.under {
		r.height += layout.Length(len(r.limit.lines)) * line
	}
}

// placeLimit puts the words of a limit where they meet neither the edge of the
// range nor the reading: behind the range, before it, in it; else under it. Beyond
// the reading they stand only where it lies on the range, or they would seem to be
// about what is beside them.
func (b *band) placeLimit(r *bandRow) bandText {
	w := b.t.Measurer.Width(r.Allowed.Text, b.face())
	from, to := b.x(r.Allowed.Low), b.x(r.Allowed.High)
	left, right := b.readingSpan(r)
	const off = small
	places := []layout.Length{to + off, from - off - w, to - off - w, from + off}
	if left < to && right > from {
		places = append(places, right+off, left-off-w)
	}
	for _, x := range places {
		free := x >= right+small || x+w <= left-small
		inside := x >= from+tight && x+w <= to-tight
		outside := x >= to+tight || x+w <= from-tight
		if free && (inside || outside) && x >= 0 && x+w <= b.scale {
			return bandText{lines: []string{r.Allowed.Text}, x: x}
		}
	}
	return bandText{lines: breakLines(b.t.Measurer, r.Allowed.Text, b.face(), b.scale), under: true}
}

// readingSpan is what the whisker and the marker of a row take of the scale.
func (b *band) readingSpan(r *bandRow) (left, right layout.Length) {
	at := b.x(r.Value)
	left, right = min(at-pointer-1, b.x(r.Low), b.x(r.From)), max(at+pointer+1, b.x(r.High), b.x(r.To))
	if r.More {
		right += pointer + tight
	}
	return left, right
}

// pointer is half the width of a reading's marker.
const pointer layout.Length = 3.4
