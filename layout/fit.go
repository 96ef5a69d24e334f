package layout

import (
	"fmt"
	"math"
	"sort"
)

// TooFull says that a page does not hold its blocks, with every concession
// made.
type TooFull struct {
	Block   string // the block that is highest
	Missing Length // height that the page lacks
}

// Error names the missing millimetres and the block that takes most of them.
func (e *TooFull) Error() string {
	return fmt.Sprintf("the page is %.1f mm too full; %s takes the most room", math.Ceil(e.Missing.MM()*10)/10, e.Block)
}

// scaleStep is by how much type steps down where every other step was taken.
const scaleStep = 0.02

// Fit lays a page's blocks out, all of them with full detail where that fits.
// Where it does not, the page's steps are taken in their order until it does;
// then columns that may give width to their neighbours do, and what turns out
// not to be needed is taken back, the last first, or as much of a step as
// the free height allows. Before a block is left out or a step says so, or after
// the last step, spaces and lines close up to the page's least space; then type is
// scaled down to the page's least scale. Height that is left over goes first to
// blocks that can show more with it. A page that is still too full is refused
// with a *TooFull.
func Fit(p Page, t Theme) (*Fitted, error) {
	t.Measurer = remembering(t.Measurer)
	f := &fitter{page: p, theme: t, space: 1, frames: map[frameKey]Frame{}, richer: map[string]Length{}, more: map[richKey]Frame{}, natures: map[string]Length{}, rows: make([]rowRecord, len(p.Rows))}
	for i, row := range p.Rows {
		f.rows[i] = rowRecord{blocks: row.blocks(), ahead: make([]bool, len(row.Flows)), laid: map[string]laidRow{}}
	}
	if f.theme.Scale <= 0 {
		f.theme.Scale = 1
	}
	full := f.theme.Scale
	taken := make([]bool, len(p.GivesWay))
	fits := func() bool { return f.lay(taken).height <= p.Area.H+slack }
	take := func(n int) bool {
		for i := range taken {
			taken[i] = i < n
		}
		return fits()
	}
	closely := firstClosely(p.GivesWay)
	if !take(0) {
		from, to := 0, closely
		if !take(to) && !f.closeSpaces(fits) {
			from, to = to, len(taken)
		}
		f.steps(take, from, to)
	}
	f.trade = true
	if !fits() && !f.closeUp(fits) {
		l := f.lay(taken)
		return nil, &TooFull{Block: l.highest(), Missing: l.height - p.Area.H}
	}
	f.takeBack(taken, closely, len(taken))
	if f.theme.Close && f.theme.Scale >= full {
		f.closeTo(spaceWays[decentWay:], fits)
	}
	f.takeBack(taken, 0, closely)
	return f.done(taken), nil
}

// takeBack takes back what the page does not need of the steps from one up to
// another, the last first. What came back before does not go again for it: a block
// in less width shows less in the same height.
func (f *fitter) takeBack(taken []bool, from, to int) {
	lacks := -1
	for i := to - 1; i >= from; i-- {
		if !taken[i] {
			continue
		}
		if lacks < 0 {
			lacks = f.lay(taken).lacks()
		}
		taken[i] = false
		l := f.lay(taken)
		if l.height <= f.page.Area.H+slack && l.lacks() <= lacks {
			lacks = l.lacks()
			continue
		}
		taken[i] = true
		if f.takeBackPart(f.page.GivesWay[i].Block, taken) {
			lacks = -1
		}
	}
}

// lacks is how much the page's blocks leave out that a higher frame would show.
func (l laid) lacks() (n int) {
	for _, r := range l.rows {
		for _, c := range r.cells {
			for _, b := range c.blocks {
				n += b.frame.Lacks
			}
		}
	}
	return n
}

// takeBackPart lets a block that had to step down use the free height where it
// can show more with it, and more than is free in its column where flows make
// room for that in another. It tells whether the block could show more at all.
func (f *fitter) takeBackPart(name string, taken []bool) (tried bool) {
	l := f.lay(taken)
	free := f.page.Area.H - l.height
	row, cell, b := l.find(name)
	if b.frame.Richer == nil {
		return false
	}
	height := b.frame.Height + free + row.height - cell.height
	try := func(h Length) bool {
		before, had := f.richer[name]
		f.richer[name] = h
		if l = f.lay(taken); l.height <= f.page.Area.H+slack {
			_, _, b = l.find(name)
			return true
		}
		if f.richer[name] = before; !had { // flows that go elsewhere now make more of it
			delete(f.richer, name)
		}
		return false
	}
	try(height)
	for more := mostMore; len(row.cells) > 1 && b.frame.Richer != nil && more >= leastMore; more /= 2 {
		if try(height + more) {
			height += more
		}
	}
	return true
}

// find is where a block stands that can show more.
func (l laid) find(name string) (row laidRow, cell laidCell, found laidBlock) {
	for _, r := range l.rows {
		for _, c := range r.cells {
			for _, b := range c.blocks {
				if b.name == name && b.frame.Richer != nil {
					return r, c, b
				}
			}
		}
	}
	return row, cell, found
}

// mostMore and leastMore bound the steps in which a block tries for more height
// than is free in its column.
const (
	mostMore  Length = 128
	leastMore Length = 4
)

// steps takes as few steps from one to another as the page fits with, all of
// them where it does not. They make a page lower one after the other: a few looks
// find where it first fits, without laying blocks out that nobody will see.
func (f *fitter) steps(take func(n int) bool, from, to int) {
	if from < to && take(to) {
		take(from + 1 + sort.Search(to-from-1, func(i int) bool { return take(from + 1 + i) }))
	}
}

// firstClosely is the first step before which spaces and lines close up.
func firstClosely(steps []Step) int {
	for i, s := range steps {
		if s.Closely || s.To == Out {
			return i
		}
	}
	return len(steps)
}

// closeUp takes what is left when every step was taken: closer spaces and
// lines, then smaller type.
func (f *fitter) closeUp(fits func() bool) bool {
	return f.closeSpaces(fits) || f.scaleDown(fits)
}

// A spaceWay is how close blocks and lines stand: which part is left of the space
// that may go, and whether lines stand close too.
type spaceWay struct {
	part  float64
	close bool
}

// spaceWays are from open to as close as may be: blocks come closer, then lines,
// then blocks again. Detail that was ranked below space comes back before blocks
// stand wider than at decentWay.
var spaceWays = []spaceWay{{1, false}, {2.0 / 3, false}, {1.0 / 3, false}, {2.0 / 3, true}, {1.0 / 3, true}, {0, true}}

const decentWay = 2

// closeSpaces brings blocks and lines no closer than the page needs.
func (f *fitter) closeSpaces(fits func() bool) bool { return f.closeTo(spaceWays, fits) }

// closeTo takes the first of several ways with which the page fits.
func (f *fitter) closeTo(ways []spaceWay, fits func() bool) bool {
	least := f.page.LeastSpace
	if least <= 0 {
		return false
	}
	for _, way := range ways {
		f.space, f.theme.Close = least+(1-least)*way.part, way.close
		if fits() {
			return true
		}
	}
	return false
}

// closed is what is left of a space, and what was taken of it.
func (f *fitter) closed(space Length) (kept, taken Length) {
	kept = space * Length(f.space)
	return kept, space - kept
}

// scaleDown makes type smaller, by as little as the page fits with.
func (f *fitter) scaleDown(fits func() bool) bool {
	full, least := f.theme.Scale, f.page.LeastScale
	if least <= 0 || full <= least {
		return false
	}
	scaled := func(k int) bool {
		f.theme.Scale = max(full*(1-scaleStep*float64(k)), least)
		return fits()
	}
	most := int(math.Ceil((1 - least/full) / scaleStep))
	return scaled(1 + sort.Search(most-1, func(i int) bool { return scaled(1 + i) }))
}

// A fitter lays blocks out and keeps what it has laid out.
type fitter struct {
	page    Page
	theme   Theme
	space   float64 // part of the spaces between blocks that is kept
	trade   bool    // columns give width to one another, and take flows of later rows
	frames  map[frameKey]Frame
	richer  map[string]Length // heights up to which blocks may show more
	more    map[richKey]Frame
	natures map[string]Length // widths that blocks have of their own
	rows    []rowRecord
}

// frameKey names a frame: the block by its place on the page.
type frameKey struct {
	row, cell, block int // a flow is of cell -1
	width            Length
	detail           Detail
	scale            float64
	close            bool
}

// richKey names a frame that shows more than its own, in a height.
type richKey struct {
	frameKey
	height Length
}

// levels are the blocks' levels of detail with the steps that were taken.
func (f *fitter) levels(taken []bool) map[string]Detail {
	levels := map[string]Detail{}
	for i, step := range f.page.GivesWay {
		if taken[i] {
			levels[step.Block] = max(levels[step.Block], step.To)
			if step.With != "" {
				levels[step.With] = max(levels[step.With], step.To)
			}
		}
	}
	return levels
}

func (f *fitter) lay(taken []bool) laid {
	levels := f.levels(taken)
	for i := range f.rows {
		clear(f.rows[i].ahead)
	}
	var l laid
	for i := range f.page.Rows {
		row := f.sameRow(i, levels)
		if row.height <= 0 {
			continue
		}
		row = f.fill(i, row, levels)
		if len(l.rows) == 0 {
			row.above, row.closed = 0, 0
		}
		l.rows = append(l.rows, row)
		l.height += row.above + row.height
	}
	return l
}

// block lays a block out in a width.
func (f *fitter) block(at frameKey, width Length, block Block, levels map[string]Detail) laidBlock {
	if levels[block.Name()] == Out {
		return laidBlock{name: block.Name(), detail: Out}
	}
	at.width, at.detail, at.scale, at.close = width, levels[block.Name()], f.theme.Scale, f.theme.Close
	frame, ok := f.frames[at]
	if !ok {
		frame = block.Lay(f.theme, width, at.detail)
		f.frames[at] = frame
	}
	if h := f.richer[block.Name()]; frame.Richer != nil && h > frame.Height {
		key := richKey{at, h}
		more, ok := f.more[key]
		if !ok {
			more = frame.Richer(h)
			f.more[key] = more
		}
		frame = more
	}
	return laidBlock{block.Name(), at.detail, frame}
}
