package figure

import (
	"slices"

	"gaugesheet/layout"
)

// A lyingEngine is one or two banks across the page, with columns over them
// and, for two, under them; what does not go into the columns of two stands in
// rows at the right.
type lyingEngine struct {
	g            *engineDrawing
	pitch        layout.Length
	left, right  layout.Length // margins of the columns
	half         layout.Size
	sets         []*columnSet     // over the engine, under it
	rows         *rowSet          // at the right; nil for none
	rowsAt       layout.Length    // where they begin
	banks        []layout.Length  // middles of the banks from the top
	engine       [2]layout.Length // top and bottom of the heads
	height       layout.Length
	out, hasRows bool
}

const (
	mostPitch  layout.Length = 84 // of cylinders across the page
	leastRows  layout.Length = 150
	rowsShare                = 0.36
	titleWidth layout.Length = 58
)

// lying is an engine that lies across the page; ok is false where the words
// of its cylinders are too wide to stand over one another.
func (g *engineDrawing) lying() (layout.Frame, bool) {
	first, ok := g.layLying(1, -1)
	if !ok {
		return layout.Frame{}, false
	}
	f := layout.Frame{Height: first.height}
	bars := layout.Length(0)
	for _, set := range first.sets {
		for _, s := range set.slots {
			bars += s.length
		}
	}
	f.Stretch = bars * 0.5
	out := 0
	if first.out {
		out = 1
	}
	f.Draw = func(sf layout.Surface, area layout.Rect) {
		l := first
		if more := min(area.H-f.Height, f.Stretch); more > 1 && bars > 0 {
			if larger, ok := g.layLying(1+more/bars, out); ok {
				l = larger
			}
		}
		l.draw(sf, area)
	}
	return f, true
}

// layLying lays the engine out with its bars grown by a factor.
func (g *engineDrawing) layLying(grown layout.Length, out int) (*lyingEngine, bool) {
	two := g.shape() == banksBehind
	l := &lyingEngine{g: g, hasRows: two && (len(g.d.Scales) > 1 || g.d.Plugs != "")}
	l.margins()
	width := g.width
	if l.hasRows {
		width -= max(g.width*rowsShare, leastRows) + wide
		l.rowsAt = width + wide
	}
	if l.hasRows && g.width-l.rowsAt < g.leastRow(g.scales()[min(1, len(g.d.Scales)):], true) {
		return nil, false
	}
	_, _, w, _ := g.extent()
	columns := layout.Length(w) + 1
	l.pitch = min((width-l.left-l.right)/columns, mostPitch)
	if l.pitch < 16 {
		return nil, false
	}
	most := [...]layout.Length{layout.Full: 17, layout.Compact: 13.5, layout.Brief: 11}[g.level]
	l.half = g.boreSize(min(l.pitch*0.36, most), true)
	_, fits := g.valuesFit(l.half)
	l.out = !fits
	if out >= 0 {
		l.out = out == 1
	}
	return l, l.placeSets(grown, two)
}

// margins are what stands beside the columns: titles, names and ticks at the
// left, the values of limits at the right.
func (l *lyingEngine) margins() {
	g, m := l.g, l.g.t.Measurer
	ticksWide, titles := layout.Length(0), len(g.d.Scales) > 1 || g.d.Plugs != ""
	l.right = endDepth + wallOf
	for k := range g.d.Scales {
		_, texts := ticks(0, g.tops[k], 4)
		ticksWide = max(ticksWide, m.Width(texts[len(texts)-1], tickFace(g.t))+small)
		for _, limit := range g.d.Scales[k].Limits {
			l.right = max(l.right, m.Width(limit.Label, limitFace(g.t))+overshoot+2*tight)
		}
	}
	l.left = max(ticksWide+tight, endDepth+wallOf)
	if titles && g.shape() == oneRow || g.shape() == banksBehind {
		l.left = max(l.left, titleWidth+ticksWide+small)
	}
}

// placeSets lays out the columns and the rows, from the top of the page down.
func (l *lyingEngine) placeSets(grown layout.Length, two bool) bool {
	g := l.g
	all := make([]int, len(g.d.Cylinders))
	for i := range all {
		all[i] = i
	}
	sides := [][]int{all}
	plan := rowPlan{scales: g.scales(), out: l.out && len(g.d.Scales) > 0, pitch: l.pitch, sign: -1}
	if two {
		sides = g.frontAndRear()
		plan.scales = plan.scales[:min(1, len(plan.scales))]
		grown *= 0.75
	}
	for k, some := range sides {
		plan.sign = layout.Length(2*k - 1)
		set, ok := newColumnSet(g, some, plan, grown, !two && g.d.Plugs != "")
		if !ok {
			return false
		}
		l.sets = append(l.sets, set)
	}
	head := 2 * (l.half.H + wallOf)
	y := g.topLine(false) + tight + l.sets[0].height
	l.engine[0] = y
	l.banks = []layout.Length{y + head/2}
	y += head
	if two {
		apart := max(l.half.H*0.7, 9)
		if g.d.Build == Lying {
			apart = max(l.half.W*1.5, 18)
		}
		l.banks = append(l.banks, y+apart+head/2)
		y += apart + head
		l.engine[1] = y
		y += l.sets[1].height
	} else {
		l.engine[1] = y
	}
	l.height = y + tight
	if l.hasRows {
		l.placeRows()
	}
	g.tiesKeyed = len(g.d.Ties) > 0
	return true
}

// frontAndRear are the cylinders of the bank above and of the bank below.
func (g *engineDrawing) frontAndRear() [][]int {
	a, b := g.d.Banks[0].Cylinders, g.d.Banks[1].Cylinders
	if g.d.Cylinders[a[0]].Y > g.d.Cylinders[b[0]].Y {
		a, b = b, a
	}
	return [][]int{a, b}
}

// placeRows lays out the rows at the right, the banks in two groups.
func (l *lyingEngine) placeRows() {
	g := l.g
	groups := g.frontAndRear()
	const groupGap = 0.5
	n := layout.Length(len(g.d.Cylinders)) + groupGap
	pitch := max(min((l.height-30)/n, 26), g.leastPitch())
	var rows []barRow
	y := layout.Length(0)
	for _, group := range groups {
		for _, i := range g.alongX(group) {
			rows = append(rows, barRow{i, -1, y + pitch/2})
			y += pitch
		}
		y += pitch * groupGap
	}
	y -= pitch * groupGap
	scales := g.scales()[min(1, len(g.d.Scales)):]
	l.rows = newRowSet(g, rows, y, g.width-l.rowsAt, rowPlan{scales: scales, sign: 1, out: true, pitch: pitch})
	evenLengths([]*rowSet{l.rows})
	l.height = max(l.height, l.rows.above()+y+l.rows.below())
}

// alongX is some cylinders from left to right.
func (g *engineDrawing) alongX(some []int) []int {
	sorted := slices.Clone(some)
	slices.SortStableFunc(sorted, func(i, j int) int {
		if g.d.Cylinders[i].X < g.d.Cylinders[j].X {
			return -1
		}
		return 1
	})
	return sorted
}

// draw draws the engine with its columns, and the rows.
func (l *lyingEngine) draw(sf layout.Surface, area layout.Rect) {
	g := l.g
	low, _, w, _ := g.extent()
	width := g.width
	if l.hasRows {
		width = l.rowsAt - wide
	}
	spare := (width - l.left - l.right - l.pitch*layout.Length(w+1)) / 2
	from := area.X + l.left + spare
	x := func(i int) layout.Length {
		return from + l.pitch*layout.Length(g.d.Cylinders[i].X-low+0.5)
	}
	to := from + l.pitch*layout.Length(w+1)
	body := &engineBody{g: g, half: l.half, wall: g.wall(l.pitch, l.half.W), lying: true, values: !l.out}
	body.middle = area.Y + (l.engine[0]+l.engine[1])/2
	for i := range g.d.Cylinders {
		y := l.banks[0]
		if len(l.banks) == 2 && slices.Contains(l.sets[1].cylinders, i) {
			y = l.banks[1]
		}
		body.at = append(body.at, layout.Point{X: x(i), Y: area.Y + y})
	}
	body.draw(sf)
	for k, set := range l.sets {
		set.draw(sf, area.Y+l.engine[k], from, to, x)
	}
	l.drawNames(sf, area, from)
	if l.rows != nil {
		l.rows.draw(sf, area.X+l.rowsAt, area.Y+l.rows.above())
	}
	g.drawTopLine(sf, area, area.X, false)
}

// drawNames names the scales or the two banks at the left of the columns.
func (l *lyingEngine) drawNames(sf layout.Surface, area layout.Rect, from layout.Length) {
	g := l.g
	name := func(text string, f layout.Face, middle layout.Length, beyond layout.Length) {
		t := layout.Wrap(g.t.Measurer, titleWidth, layout.Run{Text: text, Face: f, Color: g.t.Ink})
		t.DrawAligned(sf, layout.Point{X: from - beyond - titleWidth, Y: area.Y + middle - t.H/2}, titleWidth, layout.Right)
	}
	if len(l.banks) == 2 {
		for k, bank := range g.banksInOrder() {
			name(bank, g.label, l.banks[k], endDepth+2*wallOf)
		}
		return
	}
	if len(g.d.Scales) < 2 && g.d.Plugs == "" {
		return
	}
	set := l.sets[0]
	ticksWide := l.left - titleWidth
	for i := range set.slots {
		s := &set.slots[i]
		name(s.scale.Title, g.head, l.engine[0]-s.base-s.length/2, ticksWide)
	}
	if set.plug > 0 {
		name(g.d.Plugs, g.head, l.engine[0]-set.plug-layout.Length(set.plugLines)*lineHeight(g.label)/2, ticksWide)
	}
}

// banksInOrder are the names of the bank above and of the bank below.
func (g *engineDrawing) banksInOrder() [2]string {
	a, b := g.d.Banks[0], g.d.Banks[1]
	if g.d.Cylinders[a.Cylinders[0]].Y > g.d.Cylinders[b.Cylinders[0]].Y {
		a, b = b, a
	}
	return [2]string{a.Text, b.Text}
}
