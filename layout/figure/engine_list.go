package figure

import (
	"cmp"
	"math"
	"slices"

	"gaugesheet/layout"
)

// byHeight puts rows in the order in which they stand on the page.
func byHeight(rows []barRow) []barRow {
	slices.SortStableFunc(rows, func(a, b barRow) int { return cmp.Compare(a.y, b.y) })
	return rows
}

// A listing is an engine whose rows do not stand beside their cylinders: the
// plan at the left, the rows in plan order at the right, in one block or more.
type listing struct {
	g          *engineDrawing
	pitch      layout.Length
	each       int         // rows of a block
	unit       layout.Size // of the plan: a cylinder pitch
	half       layout.Size
	out        bool
	plan       layout.Size // with the ends of the engine
	sets       []*rowSet
	edges      []layout.Length
	top, under layout.Length
}

// planBorder is what stands around the cylinders of a plan, on both sides.
const planBorder = 2 * (wallOf + endDepth)

// blockRows are the most rows that stand under one another, by detail.
var blockRows = [...]int{layout.Full: 16, layout.Compact: 9, layout.Brief: 6}

// list is the arrangement that suits every engine.
func (g *engineDrawing) list() layout.Frame {
	n := len(g.d.Cylinders)
	blocks := (n + blockRows[g.level] - 1) / blockRows[g.level]
	first := g.layList(g.pitch(float64((n+blocks-1)/blocks)), blocks, layout.Size{})
	for blocks > 1 && first.blockWidth() < g.leastRow(g.scales(), first.out)+wide {
		blocks--
		first = g.layList(g.pitch(float64((n+blocks-1)/blocks)), blocks, layout.Size{})
	}
	if first.blockWidth() < g.leastRow(g.scales(), first.out) {
		return g.stackedList(first)
	}
	rows := layout.Length(first.each)
	f := layout.Frame{
		Height:  first.top + max(rows*first.pitch+first.under, first.plan.H-first.sets[0].above()),
		Stretch: max(0, (g.mostPitch()*0.7-first.pitch)*rows),
	}
	f.Draw = func(sf layout.Surface, area layout.Rect) {
		l := first
		if more := min(area.H-f.Height, f.Stretch); more > 1 {
			l = g.layList(first.pitch+more/rows, blocks, first.unit)
		}
		l.drawPlanIn(sf, area, layout.Rect{X: area.X, Y: area.Y + g.topLine(false), W: l.plan.W, H: area.H - g.topLine(false)})
		for k, set := range l.sets {
			set.draw(sf, area.X+l.edges[k], area.Y+l.top)
		}
	}
	return f
}

// stackedList is the plan over the rows, where the width does not hold them
// side by side. The plan then has the whole width for long names.
func (g *engineDrawing) stackedList(l *listing) layout.Frame {
	pitch := g.pitch(float64(len(g.d.Cylinders)))
	_, _, w, _ := g.extent()
	if named := min(g.tabWidth+4, (g.width-planBorder)/(layout.Length(w)+1)); named > l.unit.W {
		l = g.layList(pitch, 1, layout.Size{W: named, H: l.unit.H})
	}
	set := newRowSet(g, g.listRows(g.planOrder(), pitch), pitch*layout.Length(len(g.d.Cylinders)), g.width,
		rowPlan{scales: g.scales(), sign: 1, out: l.out, pitch: pitch})
	evenLengths([]*rowSet{set})
	plan := layout.Frame{Height: g.topLine(false) + l.plan.H, Draw: func(sf layout.Surface, area layout.Rect) {
		room := layout.Rect{X: area.X, Y: area.Y + g.topLine(false), W: l.plan.W, H: l.plan.H}
		l.drawPlanIn(sf, area, room)
	}}
	rows := layout.Frame{Height: set.above() + set.height + set.below(), Draw: func(sf layout.Surface, area layout.Rect) {
		set.draw(sf, area.X, area.Y+set.above())
	}}
	return stack(tight, plan, rows)
}

func (g *engineDrawing) listRows(order []int, pitch layout.Length) []barRow {
	rows := make([]barRow, len(order))
	for i, c := range order {
		rows[i] = barRow{c, -1, (layout.Length(i) + 0.5) * pitch}
	}
	return rows
}

// blockWidth is the width of one block of rows.
func (l *listing) blockWidth() layout.Length { return l.sets[0].width }

// extent is how far the places of the cylinders reach, in pitches.
func (g *engineDrawing) extent() (x, y, w, h float64) {
	x, y = math.Inf(1), math.Inf(1)
	right, bottom := math.Inf(-1), math.Inf(-1)
	for i := range g.d.Cylinders {
		c := &g.d.Cylinders[i]
		x, y, right, bottom = min(x, c.X), min(y, c.Y), max(right, c.X), max(bottom, c.Y)
	}
	return x, y, right - x, bottom - y
}

func (g *engineDrawing) layList(pitch layout.Length, blocks int, unit layout.Size) *listing {
	l := &listing{g: g, pitch: pitch, each: (len(g.d.Cylinders) + blocks - 1) / blocks}
	_, _, w, h := g.extent()
	across, along := layout.Length(w)+1, layout.Length(h)+1
	height := pitch * layout.Length(l.each)
	const border = planBorder
	if l.unit = unit; unit.W == 0 {
		even := min((height-border/2)/along, (g.width*0.36-border)/across, 46)
		// A tab stands in its circle; a long name draws the plan wide, and as wide as
		// the rows can spare rather than without it.
		tab := TabSize(g.t.Measurer, "0", g.tab)
		even = max(even, min(tab.H*1.42+4, (g.width*0.5-border)/across))
		named := max(min(g.tabWidth+4, (g.width*0.5-border)/across), min(g.tabWidth+1, (g.width*0.62-border)/across))
		l.unit = layout.Size{W: max(even, named), H: even}
		if g.d.Build == Ring {
			l.unit.H = l.unit.W
		}
		l.unit.H = g.apart(l.unit, layout.Size{W: g.tabWidth + 1, H: tab.H + 1})
	}
	l.half = layout.Size{W: max(l.unit.W/2-max(1.2, l.unit.W*0.06), 1), H: max(l.unit.H/2-max(1.2, l.unit.H*0.06), 1)}
	l.out = !l.valuesIn()
	l.plan = layout.Size{W: across*l.unit.W + border, H: along*l.unit.H + border}
	left := max(l.plan.W, 60) + wide
	width := (g.width - left - wide*layout.Length(blocks-1)) / layout.Length(blocks)
	order := g.planOrder()
	for k := range blocks {
		rows := g.listRows(order[min(k*l.each, len(order)):min((k+1)*l.each, len(order))], pitch)
		set := newRowSet(g, rows, height, width, rowPlan{scales: g.scales(), sign: 1, out: l.out, pitch: pitch})
		l.sets, l.edges = append(l.sets, set), append(l.edges, left+layout.Length(k)*(width+wide))
		l.top, l.under = max(l.top, set.above()), max(l.under, set.below())
	}
	evenLengths(l.sets)
	l.top += g.topLine(false)
	g.tiesKeyed = len(g.d.Ties) > 0
	return l
}

// apart is how high a pitch is drawn, so that tabs of a size keep clear of one
// another where cylinders stand staggered.
func (g *engineDrawing) apart(unit, tab layout.Size) layout.Length {
	h := unit.H
	for i := range g.d.Cylinders {
		for j := range i {
			a, b := &g.d.Cylinders[i], &g.d.Cylinders[j]
			dx, dy := layout.Length(math.Abs(a.X-b.X)), layout.Length(math.Abs(a.Y-b.Y))
			if dx*unit.W < tab.W && dy > 0.3 {
				h = max(h, tab.H/dy)
			}
		}
	}
	return h
}

// valuesIn reports whether each reading has room in its bore, under the tab.
func (l *listing) valuesIn() bool {
	g := l.g
	if len(g.d.Scales) == 0 {
		return true
	}
	low := l.valueDrop() + g.t.Measurer.CapHeight(g.word)/2
	if low >= l.half.H {
		return false
	}
	chord := 2 * layout.Length(math.Sqrt(float64(l.half.H*l.half.H-low*low))) * l.half.W / l.half.H
	return g.valueWidths[0]+tight <= chord && g.tabWidth <= chord*1.1
}

// valueDrop is by how much the middle of a value stands under that of its
// bore, and the middle of the tab over it.
func (l *listing) valueDrop() layout.Length {
	return TabSize(l.g.t.Measurer, "0", l.g.tab).H/2 + 1
}

// lengthwise reports whether the crankshaft runs along the page: as the
// engine's front says or, where that is not known, as its longer side does.
func (g *engineDrawing) lengthwise() bool {
	switch g.d.Engine {
	case Up, Down:
		return true
	case Left, Right:
		return false
	}
	_, _, w, h := g.extent()
	return w <= h
}

// planOrder is the cylinders bank by bank from the engine's front to its rear,
// or around the ring.
func (g *engineDrawing) planOrder() []int {
	order := make([]int, len(g.d.Cylinders))
	bank := make([]float64, len(order))
	for i := range order {
		order[i] = i
	}
	if g.d.Build == Ring {
		return order
	}
	place := func(i int) (along, across float64) {
		c := &g.d.Cylinders[i]
		if g.lengthwise() {
			return c.Y, c.X
		}
		return c.X, c.Y
	}
	if len(g.d.Banks) == 2 && g.complete() {
		for _, b := range g.d.Banks {
			for _, i := range b.Cylinders {
				_, bank[i] = place(b.Cylinders[0])
			}
		}
	}
	slices.SortStableFunc(order, func(i, j int) int {
		x, y := place(i)
		x2, y2 := place(j)
		return cmp.Or(cmp.Compare(bank[i], bank[j]), cmp.Compare(x, x2), cmp.Compare(y, y2))
	})
	return order
}

// drawPlanIn draws the engine in a room, and the words over it.
func (l *listing) drawPlanIn(sf layout.Surface, area, room layout.Rect) {
	g := l.g
	x, y, w, h := g.extent()
	middle := room.Center()
	body := &engineBody{g: g, half: l.half, wall: wallOf, values: !l.out, lying: !g.lengthwise(), middle: middle.X}
	for i := range g.d.Cylinders {
		c := &g.d.Cylinders[i]
		body.at = append(body.at, middle.Add(layout.Length(c.X-x-w/2)*l.unit.W, layout.Length(c.Y-y-h/2)*l.unit.H))
	}
	body.drawPlan(sf, l)
	g.drawTopLine(sf, area, middle.X, false)
}

// drawPlan draws the engine with each number in its bore, and the value under
// it where there is room.
func (b *engineBody) drawPlan(sf layout.Surface, l *listing) {
	t, d := b.g.t, b.g.d
	if d.Build == Ring {
		b.drawCrankcase(sf)
	} else {
		b.drawEnds(sf, b.block())
		sf.Fill(layout.RoundRect(b.block(), 2), t.Tint)
		sf.Stroke(layout.RoundRect(b.block(), 2), layout.Pen{Width: outline, Color: t.Ink})
	}
	for _, head := range b.heads() {
		if len(head) == 0 {
			continue
		}
		path := layout.RoundRect(b.head(head), 5)
		if len(head) == 1 {
			rim := min(wallOf*0.5, l.unit.H*0.06)
			path = ellipse(b.at[head[0]], layout.Size{W: b.half.W + rim, H: b.half.H + rim})
		}
		sf.Fill(path, t.Paper)
		sf.Stroke(path, layout.Pen{Width: 1.2, Color: t.Ink})
	}
	for i := range d.Cylinders {
		b.drawNumbered(sf, i, l)
	}
}

func (b *engineBody) drawNumbered(sf layout.Surface, i int, l *listing) {
	t, c := b.g.t, &b.g.d.Cylinders[i]
	tone, _ := look(c, len(b.g.d.Scales))
	path := ellipse(b.at[i], b.half)
	sf.Fill(path, t.Paper)
	pen := tonePen(t, tone)
	if tone == Hatch || tone == Dense {
		pen.Width = 2.2
	}
	sf.Stroke(path, pen)
	at := b.at[i]
	if b.values && len(b.g.d.Scales) > 0 && len(c.Bars) > 0 && c.Bars[0].Text != "" {
		layout.TextMiddle(sf, at.Add(0, l.valueDrop()), layout.Center, c.Bars[0].Text, b.g.word, t.Ink)
		at = at.Add(0, -l.valueDrop())
	}
	if TabSize(sf, c.Number, b.g.tab).W <= l.unit.W-0.5 {
		DrawTab(sf, t, c.Number, at, b.g.tab)
	}
}

// drawCrankcase draws the middle of a radial engine, and a line out to each of
// its cylinders.
func (b *engineBody) drawCrankcase(sf layout.Surface) {
	t := b.g.t
	var middle layout.Point
	n := layout.Length(len(b.at))
	for _, at := range b.at {
		middle = middle.Add(at.X/n, at.Y/n)
	}
	away := layout.Length(0)
	for _, at := range b.at {
		away = max(away, layout.Length(math.Hypot(float64(at.X-middle.X), float64(at.Y-middle.Y))))
	}
	r := min(away-b.half.H*0.4, away*0.62)
	if r <= small {
		return
	}
	for _, at := range b.at {
		sf.Stroke(layout.Polyline(middle, at), layout.Pen{Width: hairline, Color: t.Ink, Dash: []layout.Length{9, 2, 1.5, 2}})
	}
	sf.Fill(layout.Circle(middle, r), t.Tint)
	sf.Stroke(layout.Circle(middle, r), layout.Pen{Width: outline, Color: t.Ink})
	sf.Fill(layout.Circle(middle, 1.4), t.Ink)
}
