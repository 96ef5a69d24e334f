package figure

import (
	"strings"

	"gaugesheet/layout"
)

// A barRow is one row of bars: a cylinder, or a face of a rotor.
type barRow struct {
	cylinder, face int           // face is -1 for a cylinder
	y              layout.Length // of its middle, from the top of the rows
}

// A rowSet is rows of bars that grow one way, to the right or to the left,
// from an edge: a tab each, the value where it has no place in a bore, a bar
// on each scale, a word for the plug. Distances count from the edge.
type rowSet struct {
	g      *engineDrawing
	rows   []barRow
	sign   layout.Length // 1 to the right, -1 to the left
	width  layout.Length
	height layout.Length // of all rows
	thick  layout.Length // of a bar
	drop   layout.Length // by how much a bar stands over its row's middle, for the marks under it
	valued bool          // marks have their values
	tab    layout.Length // middle of the tabs
	face   layout.Length // where the names of faces begin
	slots  []rowSlot
	plug   layout.Length // where the words for plugs begin
	heads  []columnHeading
}

// A rowSlot is a scale in a rowSet.
type rowSlot struct {
	slot
	index  int           // of the scale
	value  layout.Length // where its values end, before zero; 0 where they stand in the bores
	base   layout.Length // zero, from the edge
	room   layout.Length // for the scale and the words beyond it
	worded bool          // words beyond the bars, not only their marks
	needs  []need        // of all but those words
}

// A columnHeading is what stands over a column.
type columnHeading struct {
	from, to layout.Length // from the edge
	lines    []string
}

// A rowPlan is what a rowSet shows.
type rowPlan struct {
	scales []int
	sign   layout.Length
	out    bool // the values of the first scale stand beside the tabs
	pitch  layout.Length
	ties   bool
}

const (
	scaleGap layout.Length = 10 // between what belongs to one scale and the next
	leastBar layout.Length = 30 // of a scale's length that is worth drawing
	airShare               = 0.3
)

// newRowSet lays rows out in a width.
func newRowSet(g *engineDrawing, rows []barRow, height, width layout.Length, p rowPlan) *rowSet {
	r := &rowSet{g: g, rows: rows, sign: p.sign, width: width, height: height}
	r.setThickness(p.pitch)
	d := g.tabWidth
	r.tab = d / 2
	if g.faceWidth > 0 {
		r.face = d + tight
		d += tight + g.faceWidth
	}
	plugWidth := layout.Length(0)
	if g.d.Plugs != "" {
		plugWidth = g.plugWidth
		r.plug = width - plugWidth
		if len(p.scales) == 0 {
			r.plug = d + medium
		}
	}
	end := width
	if plugWidth > 0 {
		end -= plugWidth + scaleGap
	}
	r.placeSlots(d, end, p)
	r.placeHeads(end)
	g.marksListed = g.marksListed || g.marked && !r.valued
	return r
}

// leastRoom is the least width of a scale: its bars are told apart, and the
// longest word over them fits.
func (g *engineDrawing) leastRoom(scale int) layout.Length {
	w := leastBar
	for _, word := range strings.Fields(g.d.Scales[scale].Title) {
		w = max(w, g.t.Measurer.Width(word, g.head))
	}
	return w + 0.1
}

// leastRow is the least width of rows with everything that they show.
func (g *engineDrawing) leastRow(scales []int, out bool) layout.Length {
	w := g.tabWidth
	if g.faceWidth > 0 {
		w += tight + g.faceWidth
	}
	for k, i := range scales {
		w += small + g.leastRoom(i)
		if k > 0 {
			w += scaleGap
		}
		if i > 0 || out {
			w += g.valueWidth(i) + small
		}
	}
	if g.d.Plugs != "" {
		w += g.plugWidth + scaleGap
	}
	return w
}

// setThickness shares the pitch of the rows between a bar and the values of
// the marks under it.
func (r *rowSet) setThickness(pitch layout.Length) {
	strip := markStrip(r.g.t)
	r.thick = min(pitch*0.56, 22)
	if !r.g.marked {
		return
	}
	if (pitch-r.thick)/2 >= strip+1 {
		r.valued = true
		return
	}
	if rest := pitch - strip - 3; rest >= 9 && r.g.level != layout.Brief {
		r.valued = true
		r.thick = min(r.thick, rest)
		r.drop = max(0, min((pitch-r.thick)/2-1, strip+1-(pitch-r.thick)/2))
	}
}

// placeSlots shares the width between the scales: each has a column of values
// before it, except the first where its values stand in the bores.
func (r *rowSet) placeSlots(d, end layout.Length, p rowPlan) {
	g := r.g
	fixed := d
	for k, i := range p.scales {
		fixed += small
		if k > 0 {
			fixed += scaleGap
		}
		if i > 0 || p.out {
			fixed += g.valueWidth(i) + small
		}
	}
	free := end - fixed
	rooms := []layout.Length{free}
	if len(p.scales) == 2 {
		air := min(max(free*airShare, g.leastRoom(1)), 100)
		rooms = []layout.Length{free - air, air}
	}
	for k, i := range p.scales {
		s := rowSlot{index: i}
		if k > 0 {
			d += scaleGap
		}
		if i > 0 || p.out {
			d += small + g.valueWidth(i)
			s.value = d
		}
		d += small
		s.base, s.room = d, max(rooms[k], 0)
		d += s.room
		s.slot = slot{scale: &g.d.Scales[i], top: g.tops[i], across: true, sign: r.sign}
		r.setLength(&s, p)
		r.slots = append(r.slots, s)
	}
}

func (r *rowSet) eachBar(s *rowSlot, do func(row barRow, b *CylinderBar)) {
	for _, row := range r.rows {
		if b := r.g.bar(row, s.index); b != nil {
			do(row, b)
		}
	}
}

// placeHeads puts the titles over their columns: over the only scale none,
// since the figure's own heading says what it is.
func (r *rowSet) placeHeads(end layout.Length) {
	g := r.g
	if len(g.d.Scales) < 2 && g.d.Plugs == "" || len(g.d.Scales) == 0 {
		return
	}
	add := func(from, to layout.Length, text string) {
		lines := breakLines(g.t.Measurer, text, g.head, to-from)
		r.heads = append(r.heads, columnHeading{from, to, lines})
	}
	for k, s := range r.slots {
		from, to := s.base, end
		if k > 0 {
			from = s.value - g.valueWidth(s.index)
		}
		if k+1 < len(r.slots) {
			next := r.slots[k+1]
			to = next.value - g.valueWidth(next.index) - small
		}
		add(from, to, s.scale.Title)
	}
	if r.plug > 0 {
		add(r.plug, r.width, g.d.Plugs)
	}
}

// above is the height of what stands over the rows: titles, then the values
// of the limits.
func (r *rowSet) above() layout.Length {
	lines, limits := 0, layout.Length(0)
	for _, h := range r.heads {
		lines = max(lines, len(h.lines))
	}
	for i := range r.slots {
		if r.slots[i].length > 0 && len(r.slots[i].limits()) > 0 {
			limits = r.g.t.Measurer.CapHeight(limitFace(r.g.t)) + overshoot + 2*tight
		}
	}
	return layout.Length(lines)*lineHeight(r.g.head) + limits
}

// below is the height of the numbers along the scales.
func (r *rowSet) below() layout.Length {
	for i := range r.slots {
		if r.slots[i].length > 0 {
			return tight + r.g.t.Measurer.CapHeight(tickFace(r.g.t)) + 1.5
		}
	}
	return 0
}

// draw draws the rows with their edge at x and their top at y, the heads over
// them.
func (r *rowSet) draw(sf layout.Surface, x, y layout.Length) {
	r.drawHeads(sf, x, y-r.above())
	for i := range r.slots {
		s := &r.slots[i]
		s.zero, s.from, s.to = x+r.sign*s.base, y, y+r.height
		s.drawGrid(sf, r.g.t)
		r.eachBar(s, func(row barRow, b *CylinderBar) {
			s.drawBar(sf, r.g.t, b, y+row.y-r.drop, r.thick)
		})
		s.drawLimits(sf, r.g.t)
		r.eachBar(s, func(row barRow, b *CylinderBar) {
			r.drawWords(sf, s, b, x, y+row.y)
		})
	}
	for _, row := range r.rows {
		r.drawEnds(sf, row, x, y+row.y)
	}
}

func (r *rowSet) drawHeads(sf layout.Surface, x, y layout.Length) {
	for _, h := range r.heads {
		for i, line := range h.lines {
			r.text(sf, x, y+layout.Baseline(sf, r.g.head)+layout.Length(i)*lineHeight(r.g.head), h.from, line, r.g.head, r.g.t.Ink)
		}
	}
}

// text sets a line that begins (toward the edge) at a distance.
func (r *rowSet) text(sf layout.Surface, x, y, from layout.Length, line string, f layout.Face, c layout.Color) {
	left := x + from
	if r.sign < 0 {
		left = x - from - sf.Width(line, f)
	}
	sf.Text(layout.Point{X: left, Y: y}, line, f, c)
}

// drawEnds draws what stands at the ends of a row: its tab and the word for
// its plug.
func (r *rowSet) drawEnds(sf layout.Surface, row barRow, x, y layout.Length) {
	g := r.g
	c := &g.d.Cylinders[row.cylinder]
	DrawTab(sf, g.t, c.Number, layout.Point{X: x + r.sign*r.tab, Y: y - r.drop}, g.tab)
	middle := y - r.drop + sf.CapHeight(g.label)/2
	if row.face >= 0 {
		bold := g.label
		bold.Weight = layout.Bold
		r.text(sf, x, middle, r.face, c.Faces[row.face].Name, bold, g.t.Ink)
	}
	if r.plug > 0 && g.isMiddle(row) {
		g.plugWords(c, r.width-r.plug).draw(sf, g.t, layout.Point{X: r.plugLeft(x), Y: y - r.drop}, r.sign)
	}
}

// plugLeft is where the words for plugs begin, or end where the rows run left.
func (r *rowSet) plugLeft(x layout.Length) layout.Length { return x + r.sign*r.plug }

// drawWords draws the value of a reading where it has no place in a bore, the
// marks on its bar, and the words beyond it.
func (r *rowSet) drawWords(sf layout.Surface, s *rowSlot, b *CylinderBar, x, y layout.Length) {
	g := r.g
	y -= r.drop
	if s.value > 0 && b.Text != "" {
		a := layout.Right
		if r.sign < 0 {
			a = layout.Left
		}
		layout.TextMiddle(sf, layout.Point{X: x + r.sign*s.value, Y: y}, a, b.Text, g.word, g.t.Ink)
	}
	s.drawMarks(sf, g.t, b, y, r.thick, r.valued)
	if b.Mark == NoMark && b.Word == "" {
		return
	}
	far := r.wordsBegin(s, b)
	begin := s.base + far.part*s.length + far.extra
	if b.Text == "" {
		begin = s.base + tight
	}
	size := markSize(g.t, g.word)
	if !s.worded {
		if s.length > 0 && b.Text != "" {
			begin = min(begin, s.base+s.room-size)
		}
		if b.Text == "" && s.value > 0 { // where its value would stand, clear of the limits
			begin = s.value - size
		}
		if b.Mark != NoMark && s.room >= size {
			DrawMark(sf, g.t, b.Mark, layout.Point{X: x + r.sign*(begin+size/2), Y: y}, size)
		}
		return
	}
	left := x + begin
	if r.sign < 0 {
		left = x - begin - g.wordWidth(b)
	}
	h := sf.CapHeight(g.word)
	patch(sf, g.t, layout.Rect{X: left, Y: y - h/2 - 1, W: g.wordWidth(b), H: h + 2.5})
	g.drawWord(sf, b, layout.Point{X: left, Y: y})
}
