package figure

import (
	"math"

	"gaugesheet/layout"
)

// wallOf is how far a head reaches beyond its bores.
const wallOf layout.Length = 4

// wall is how far a head reaches beyond its bores where they stand at a
// distance: those of separate heads do not touch.
func (g *engineDrawing) wall(pitch, half layout.Length) layout.Length {
	for _, head := range g.d.Heads {
		if len(head) > 1 {
			return wallOf
		}
	}
	return min(wallOf, max(pitch/2-half-1, 0.6))
}

// A standing engine is one or two banks along the page, with rows beside it.
type standing struct {
	g          *engineDrawing
	pitch      layout.Length
	low, high  float64 // places of the first and the last cylinder
	half       layout.Size
	left       layout.Length // middle of the left bank from the left edge
	right      layout.Length // of the right bank; the same for one
	sets       []*rowSet
	edges      []layout.Length // where the rows begin
	top, under layout.Length   // heights over and under the rows
	out        bool
	sideways   bool // the crankshaft of the only cylinder runs across the page
}

// span is from the first to the last cylinder along the page.
func (g *engineDrawing) span() (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for i := range g.d.Cylinders {
		low, high = min(low, g.d.Cylinders[i].Y), max(high, g.d.Cylinders[i].Y)
	}
	return low, high
}

// sides is two banks that stand along the page, each with its bars at its own
// side; ok is false where the width is too small.
func (g *engineDrawing) sides() (layout.Frame, bool) {
	low, high := g.span()
	first := g.layStanding(g.pitch(high-low+1), -1)
	if !first.fits() {
		return layout.Frame{}, false
	}
	return g.standingFrame(first), true
}

// column is one bank that stands along the page, with its bars to the right;
// ok is false where the width is too small.
func (g *engineDrawing) column() (layout.Frame, bool) {
	low, high := g.span()
	first := g.layStanding(g.pitch((high-low+1)*g.rowsEach()), -1)
	if !first.fits() && g.d.Build != Rotors {
		return layout.Frame{}, false
	}
	return g.standingFrame(first), true
}

// larger is the engine with its rows farther apart; as it is, where its larger
// bores leave the rows less room than their words need.
func (s *standing) larger(pitch layout.Length, out int) *standing {
	keyed := s.g.tiesKeyed
	l := s.g.layStanding(pitch, out)
	good := l.fits() && l.top+l.under <= s.top+s.under && s.g.tiesKeyed == keyed
	for i := range l.sets[0].slots {
		good = good && l.sets[0].slots[i].worded == s.sets[0].slots[i].worded
	}
	s.g.tiesKeyed = keyed
	if good {
		return l
	}
	return s
}

// fits reports whether the rows have the width that they need.
func (s *standing) fits() bool {
	return s.sets[0].width >= s.g.leastRow(s.g.scales(), s.out)
}

// rowsEach is how many rows a cylinder has: one, or one for each face.
func (g *engineDrawing) rowsEach() float64 {
	most := 1
	for i := range g.d.Cylinders {
		most = max(most, len(g.d.Cylinders[i].Faces))
	}
	return float64(most)
}

// standingFrame is the engine with its rows. Free height moves the rows apart.
func (g *engineDrawing) standingFrame(s *standing) layout.Frame {
	rows := layout.Length((s.high - s.low + 1) * g.rowsEach())
	f := layout.Frame{
		Height:  s.top + rows*s.pitch + s.under,
		Stretch: max(0, (g.mostPitch()-s.pitch)*rows),
	}
	out := 0
	if s.out {
		out = 1
	}
	f.Draw = func(sf layout.Surface, area layout.Rect) {
		drawn := s
		if more := min(area.H-f.Height, f.Stretch); more > 1 {
			drawn = s.larger(s.pitch+more/rows, out)
		}
		drawn.draw(sf, area)
	}
	return f
}

// layStanding lays a standing engine out for a pitch of its rows. Whether the
// values stand beside the tabs is found where out is negative, else as it says.
func (g *engineDrawing) layStanding(pitch layout.Length, out int) *standing {
	s := &standing{g: g, pitch: pitch}
	s.low, s.high = g.span()
	s.half = g.boreSize(boreHalf(pitch), false)
	_, fits := g.valuesFit(s.half)
	s.out = !fits
	if out >= 0 {
		s.out = out == 1
	}
	plan := rowPlan{scales: g.scales(), sign: 1, out: s.out, pitch: pitch, ties: pitch >= tieHeight(g)}
	ends := endDepth
	if g.d.Build == Rotors {
		s.placeRotors(plan)
	} else {
		ends += max(0, s.half.H+g.wall(pitch, s.half.H)-pitch/2)
		s.placeBanks(plan)
		ends += s.drop()
	}
	for _, set := range s.sets {
		s.top, s.under = max(s.top, set.above()), max(s.under, set.below())
	}
	s.top, s.under = max(s.top, ends)+g.topLine(len(s.sets) == 2), max(s.under, ends)
	if !plan.ties && len(g.d.Ties) > 0 {
		g.tiesKeyed = true
	}
	return s
}

// drop is how far the bores stand above the middles of their rows, beside their bars.
func (s *standing) drop() layout.Length {
	if s.g.d.Build == Rotors {
		return 0
	}
	most := layout.Length(0)
	for _, set := range s.sets {
		most = max(most, set.drop)
	}
	return most
}

// height is that of all rows.
func (s *standing) height() layout.Length {
	return s.pitch * layout.Length((s.high-s.low+1)*s.g.rowsEach())
}

// placeRotors puts the rotors at the left, and a row for each face.
func (s *standing) placeRotors(plan rowPlan) {
	plan.out, plan.ties = true, false
	half := s.rotorHalf()
	s.left, s.right = half+1, half+1
	s.edges = []layout.Length{2*half + 1 + small}
	s.sets = []*rowSet{newRowSet(s.g, s.faceRows(), s.height(), s.g.width-s.edges[0], plan)}
	evenLengths(s.sets)
}

// placeBanks puts one bank at the left and its rows beside it, or two in the
// middle with rows at both sides.
func (s *standing) placeBanks(plan rowPlan) {
	g := s.g
	banks := g.leftAndRight()
	head := s.half.W + g.wall(s.pitch, s.half.H)
	if len(banks) == 1 {
		s.left = max(head+1, 14)
		if s.sideways = len(g.d.Cylinders) == 1 && (g.d.Engine == Left || g.d.Engine == Right); s.sideways {
			s.left += endDepth
			head += endDepth
		}
		s.right = s.left
		s.edges = []layout.Length{s.left + head + small}
		s.sets = []*rowSet{newRowSet(g, s.rowsOf(banks[0]), s.height(), g.width-s.edges[0], plan)}
		evenLengths(s.sets)
		return
	}
	apart := max(s.half.W*0.45, 6)
	if g.d.Build == Lying {
		apart = max(s.half.H*0.9, 9)
	}
	s.left, s.right = g.width/2-apart-head, g.width/2+apart+head
	s.edges = []layout.Length{s.left - head - small, s.right + head + small}
	for k, bank := range banks {
		plan.sign = layout.Length(2*k - 1)
		s.sets = append(s.sets, newRowSet(g, s.rowsOf(bank), s.height(), s.edges[0], plan))
	}
	evenLengths(s.sets)
}

// evenLengths gives rows that are compared with one another one scale.
func evenLengths(sets []*rowSet) {
	for i := range sets[0].slots {
		length, worded := sets[0].slots[i].length, sets[0].slots[i].worded
		for _, set := range sets {
			length, worded = min(length, set.slots[i].length), worded && set.slots[i].worded
		}
		for range sets { // words that fitted before a limit go beyond it on a shorter scale
			for _, set := range sets {
				if worded {
					length = set.wordedLength(&set.slots[i], length)
				}
			}
		}
		for _, set := range sets {
			set.slots[i].length, set.slots[i].worded = length, worded
			set.leaveUnsaid(&set.slots[i])
		}
	}
}

// scales are all scales of the figure by index.
func (g *engineDrawing) scales() []int {
	all := make([]int, min(2, len(g.d.Scales)))
	for i := range all {
		all[i] = i
	}
	return all
}

// leftAndRight are the cylinders of the bank at the left and of that at the
// right, or all of one bank.
func (g *engineDrawing) leftAndRight() [][]int {
	d := g.d
	if g.shape() != banksAbreast {
		all := make([]int, len(d.Cylinders))
		for i := range all {
			all[i] = i
		}
		return [][]int{all}
	}
	a, b := d.Banks[0].Cylinders, d.Banks[1].Cylinders
	if d.Cylinders[a[0]].X > d.Cylinders[b[0]].X {
		a, b = b, a
	}
	return [][]int{a, b}
}

func (s *standing) rowsOf(bank []int) []barRow {
	rows := make([]barRow, len(bank))
	for k, i := range bank {
		rows[k] = barRow{i, -1, layout.Length(s.g.d.Cylinders[i].Y-s.low+0.5) * s.pitch}
	}
	return byHeight(rows)
}

// faceRows are a row for each face of each rotor.
func (s *standing) faceRows() []barRow {
	var rows []barRow
	each := s.pitch * layout.Length(s.g.rowsEach())
	for i := range s.g.d.Cylinders {
		c := &s.g.d.Cylinders[i]
		top := layout.Length(c.Y-s.low) * each
		if len(c.Faces) == 0 {
			rows = append(rows, barRow{i, -1, top + each/2})
			continue
		}
		step := each / layout.Length(len(c.Faces))
		for f := range c.Faces {
			rows = append(rows, barRow{i, f, top + (layout.Length(f)+0.5)*step})
		}
	}
	return byHeight(rows)
}

func (s *standing) rotorHalf() layout.Length {
	each := s.pitch * layout.Length(s.g.rowsEach())
	return min(each*0.46, 34)
}

// draw draws the engine, the rows, and the line over them.
func (s *standing) draw(sf layout.Surface, area layout.Rect) {
	g := s.g
	y := area.Y + s.top
	place := func(i int) layout.Point {
		c := &g.d.Cylinders[i]
		x := s.left
		if len(s.sets) == 2 && s.inRight(i) {
			x = s.right
		}
		each := s.pitch * layout.Length(g.rowsEach())
		return layout.Point{X: area.X + x, Y: y - s.drop() + layout.Length(c.Y-s.low+0.5)*each}
	}
	body := &engineBody{g: g, half: s.half, wall: g.wall(s.pitch, s.half.H), values: !s.out, middle: area.X + (s.left+s.right)/2, lying: s.sideways}
	for i := range g.d.Cylinders {
		body.at = append(body.at, place(i))
	}
	if g.d.Build == Rotors {
		body.drawRotors(sf, s.rotorHalf())
	} else {
		body.draw(sf)
	}
	for k, set := range s.sets {
		set.draw(sf, area.X+s.edges[k], y)
		if !g.tiesKeyed {
			set.drawTies(sf, area.X+s.edges[k], place)
		}
	}
	g.drawTopLine(sf, area, body.middle, len(s.sets) == 2)
}

func (s *standing) inRight(i int) bool {
	for _, row := range s.sets[1].rows {
		if row.cylinder == i {
			return true
		}
	}
	return false
}
