package layout

import (
	"fmt"
	"math"
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
// a step that turns out not to be needed beside a later one is taken back, or
// as much of it as the free height allows.
// After the last step spaces and lines close up to the page's least space,
// then type is scaled down to the page's least scale. Height that is left over
// goes first to blocks that can show more with it. A page that is still too
// full is refused with a *TooFull.
func Fit(p Page, t Theme) (*Fitted, error) {
	f := &fitter{page: p, theme: t, space: 1, frames: map[frameKey]Frame{}, richer: map[string]Length{}}
	if f.theme.Scale <= 0 {
		f.theme.Scale = 1
	}
	taken := make([]bool, len(p.GivesWay))
	fits := func() bool { return f.lay(taken).height <= p.Area.H+slack }
	for i := 0; !fits() && i < len(taken); i++ {
		taken[i] = true
	}
	if !fits() && !f.closeUp(fits) {
		l := f.lay(taken)
		return nil, &TooFull{Block: l.highest(), Missing: l.height - p.Area.H}
	}
	for i := len(taken) - 1; i >= 0; i-- {
		if taken[i] {
			taken[i] = false
			if taken[i] = !fits(); taken[i] {
				f.takeBackPart(p.GivesWay[i].Block, f.lay(taken))
				if !fits() { // flows that go elsewhere now make more of it
					delete(f.richer, p.GivesWay[i].Block)
				}
			}
		}
	}
	return f.done(taken), nil
}

// takeBackPart lets a block that had to step down use the free height where it
// can show more with it.
func (f *fitter) takeBackPart(name string, l laid) {
	free := f.page.Area.H - l.height
	for _, row := range l.rows {
		for _, cell := range row.cells {
			for _, b := range cell.blocks {
				if b.name == name && b.frame.Richer != nil {
					f.richer[name] = b.frame.Height + free + row.height - cell.height
				}
			}
		}
	}
}

// closeUp takes what is left when every step was taken: closer spaces and
// lines, then smaller type.
func (f *fitter) closeUp(fits func() bool) bool {
	if least := f.page.LeastSpace; least > 0 {
		for _, part := range []float64{2.0 / 3, 1.0 / 3, 0} {
			f.space = least + (1-least)*part
			if fits() {
				return true
			}
		}
		if f.theme.Close = true; fits() {
			return true
		}
	}
	full := f.theme.Scale
	for k := 1; f.page.LeastScale > 0 && f.theme.Scale > f.page.LeastScale; k++ {
		f.theme.Scale = max(full*(1-scaleStep*float64(k)), f.page.LeastScale)
		if fits() {
			return true
		}
	}
	return false
}

// A fitter lays blocks out and keeps what it has laid out.
type fitter struct {
	page   Page
	theme  Theme
	space  float64 // part of the spaces between blocks that is kept
	frames map[frameKey]Frame
	richer map[string]Length // heights up to which blocks may show more
}

// frameKey names a frame: the block by its place on the page.
type frameKey struct {
	row, cell, block int // a flow is of cell -1
	width            Length
	detail           Detail
	scale            float64
	close            bool
}

// A laid page is rows with their frames and heights, without places.
type laid struct {
	rows   []laidRow
	height Length
}

type laidRow struct {
	above, gap      Length
	height, stretch Length
	cells           []laidCell
}

type laidCell struct {
	width, gap      Length
	height, stretch Length
	blocks          []laidBlock
}

type laidBlock struct {
	name   string
	detail Detail
	frame  Frame
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
	var l laid
	for i := range f.page.Rows {
		row := f.row(i, levels)
		if row.height <= 0 {
			continue
		}
		if len(l.rows) == 0 {
			row.above = 0
		}
		l.rows = append(l.rows, row)
		l.height += row.above + row.height
	}
	return l
}

// row lays out a row's cells, and once more without those that are empty.
func (f *fitter) row(i int, levels map[string]Detail) laidRow {
	row := f.page.Rows[i]
	used := make([]bool, len(row.Cells))
	for c := range used {
		used[c] = true
	}
	cells := f.cells(i, used, levels)
	var kept []laidCell
	k := 0
	for c := range used {
		if used[c] = cells[k].height > 0; used[c] {
			kept = append(kept, cells[k])
		}
		k++
	}
	if len(kept) > 0 && len(kept) < len(cells) {
		kept = f.cells(i, used, levels)
	}
	kept = f.flow(i, kept, levels)
	r := laidRow{above: row.Above * Length(f.space), gap: row.Gap, cells: kept}
	r.measure()
	return r
}

// flow puts the row's flows under its cells, each under the one that ends
// highest; without cells they stand under one another across the row.
func (f *fitter) flow(i int, cells []laidCell, levels map[string]Detail) []laidCell {
	row := f.page.Rows[i]
	if len(row.Flows) == 0 {
		return cells
	}
	if len(cells) == 0 {
		gap := Length(0)
		if len(row.Cells) > 0 {
			gap = row.Cells[0].Gap * Length(f.space)
		}
		cells = []laidCell{{width: f.page.Area.W, gap: gap}}
	}
	for b, block := range row.Flows {
		at := 0
		for c := range cells {
			if cells[c].height < cells[at].height-slack {
				at = c
			}
		}
		f.add(&cells[at], frameKey{row: i, cell: -1, block: b}, block, levels)
		cells[at].measure()
	}
	return cells
}

// add lays a block out at the end of a cell.
func (f *fitter) add(c *laidCell, at frameKey, block Block, levels map[string]Detail) {
	at.width, at.detail, at.scale, at.close = c.width, levels[block.Name()], f.theme.Scale, f.theme.Close
	frame := f.frame(at, block)
	if frame.Height <= 0 {
		return
	}
	if h := f.richer[block.Name()]; frame.Richer != nil && h > frame.Height {
		frame = frame.Richer(h)
	}
	c.blocks = append(c.blocks, laidBlock{block.Name(), at.detail, frame})
}

// measure sums a row up from its cells.
func (r *laidRow) measure() {
	r.height, r.stretch = 0, 0
	for i := range r.cells {
		r.cells[i].measure()
		r.height = max(r.height, r.cells[i].height)
	}
	for _, c := range r.cells {
		r.stretch = max(r.stretch, c.height+c.stretch-r.height)
	}
}

// measure sums a cell up from its blocks.
func (c *laidCell) measure() {
	c.height, c.stretch = c.gap*Length(max(len(c.blocks)-1, 0)), 0
	for _, b := range c.blocks {
		c.height += b.frame.Height
		c.stretch += b.frame.Stretch
	}
}

// cells lays out the used cells of a row, which share its width.
func (f *fitter) cells(i int, used []bool, levels map[string]Detail) []laidCell {
	row := f.page.Rows[i]
	var shares float64
	n := 0
	for c, cell := range row.Cells {
		if used[c] {
			shares += share(cell)
			n++
		}
	}
	room := f.page.Area.W - row.Gap*Length(n-1)
	var cells []laidCell
	for c, cell := range row.Cells {
		if !used[c] {
			continue
		}
		l := laidCell{width: room * Length(share(cell)/shares), gap: cell.Gap * Length(f.space)}
		for b, block := range cell.Blocks {
			f.add(&l, frameKey{row: i, cell: c, block: b}, block, levels)
		}
		l.measure()
		cells = append(cells, l)
	}
	return cells
}

func share(c Cell) float64 {
	if c.Share <= 0 {
		return 1
	}
	return c.Share
}

func (f *fitter) frame(k frameKey, b Block) Frame {
	frame, ok := f.frames[k]
	if !ok {
		frame = b.Lay(f.theme, k.width, k.detail)
		f.frames[k] = frame
	}
	return frame
}

// highest names the block that takes the most height.
func (l laid) highest() string {
	var name string
	var most Length
	for _, row := range l.rows {
		for _, cell := range row.cells {
			for _, b := range cell.blocks {
				if b.frame.Height > most {
					name, most = b.name, b.frame.Height
				}
			}
		}
	}
	return name
}
