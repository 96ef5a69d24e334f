package layout

import "slices"

// blocks are all blocks of a row.
func (r Row) blocks() (all []Block) {
	for _, c := range r.Cells {
		all = append(all, c.Blocks...)
	}
	return append(all, r.Flows...)
}

// A laid page is rows with their frames and heights, without places.
type laid struct {
	rows   []laidRow
	height Length
}

type laidRow struct {
	above, gap      Length
	closed          Length // by how much the space above is less than it should be
	foot            bool
	height, stretch Length
	cells           []laidCell
}

type laidCell struct {
	width, gap      Length
	closed          Length // by how much each gap is less than it should be
	height, stretch Length
	blocks          []laidBlock
}

type laidBlock struct {
	name   string
	detail Detail
	frame  Frame
}

// add puts a block at the end of a cell; one without height takes no room.
func (c *laidCell) add(b laidBlock) {
	if b.frame.Height > 0 {
		c.blocks = append(c.blocks, b)
	}
}

// stack is how the cell's blocks stand. Its gaps grow with free height that none of
// its blocks can use, so that cells side by side end about level.
func (c laidCell) stack() Stack { return Stack{Gap: c.gap, Closed: c.closed, Loose: mostAbove} }

// opens is how much higher the row would be with its cells' gaps as they should
// be.
func (r laidRow) opens() (more Length) {
	for _, c := range r.cells {
		more = max(more, c.height+c.closed*Length(max(len(c.blocks)-1, 0))-r.height)
	}
	return more
}

// frame is the cell as one frame.
func (c laidCell) frame() Frame {
	named := make([]Frame, len(c.blocks))
	for i, b := range c.blocks {
		named[i] = b.named()
	}
	return c.stack().Of(named...)
}

// named draws a block as a named part of the page.
func (b laidBlock) named() Frame {
	f := b.frame
	f.Draw = func(s Surface, area Rect) { s.Block(b.name, area, func() { b.frame.Draw(s, area) }) }
	return f
}

// frame is the row as one frame.
func (r laidRow) frame() Frame {
	columns := make([]Column, len(r.cells))
	for i, c := range r.cells {
		columns[i] = Column{c.width, c.frame()}
	}
	return Beside(r.gap, columns...)
}

// measure sums a row up from its cells.
func (r *laidRow) measure() {
	columns := make([]Column, len(r.cells))
	for i := range r.cells {
		c := &r.cells[i]
		columns[i].Frame = c.stack().measure(frames(c.blocks))
		c.height, c.stretch = columns[i].Frame.Height, columns[i].Frame.Stretch
	}
	whole := level(columns)
	r.height, r.stretch = whole.Height, whole.Stretch
}

// row lays out a row's cells with its flows, and where columns may trade width
// and end far apart, with the widths at which the row is lowest.
func (f *fitter) row(i int, levels map[string]Detail) laidRow {
	row := f.page.Rows[i]
	shares := make([]Length, len(row.Cells))
	for c, cell := range row.Cells {
		shares[c] = Length(share(cell))
	}
	f.widen(row, shares)
	last := f.rowOf(i, shares, levels)
	best := last
	for range mostTrades {
		if !f.trade || !trade(row.Cells, shares, last) {
			break
		}
		last = f.rowOf(i, shares, levels)
		if room := f.room(best); room > 0 {
			if last.height < room+slack && last.uneven() < best.uneven()-slack {
				best = last
			}
		} else if last.height < best.height-slack {
			best = last
		}
	}
	return best
}

// room is the height that a row may have where one of its blocks shows as much as
// it has height for: the more level its cells end, the more is there. It is 0
// where no block does.
func (f *fitter) room(r laidRow) (most Length) {
	for _, c := range r.cells {
		for _, b := range c.blocks {
			if h := f.richer[b.name]; h > 0 {
				most = max(most, r.height, c.height-b.frame.Height+h)
			}
		}
	}
	return most
}

// uneven is how far apart the row's cells end.
func (r laidRow) uneven() Length {
	least := r.height
	for _, c := range r.cells {
		least = min(least, c.height)
	}
	return r.height - least
}

// widen gives cells whose blocks have a width of their own what they lack for
// it, as far as they may be wider.
func (f *fitter) widen(row Row, shares []Length) {
	if len(shares) < 2 {
		return
	}
	var sum Length
	for _, s := range shares {
		sum += s
	}
	room := f.page.Area.W - row.Gap*Length(len(shares)-1)
	for c, cell := range row.Cells {
		if cell.Most <= 0 {
			continue
		}
		more := min(f.natural(cell)/room*sum, Length(cell.Most)) - shares[c]
		if more <= 0 {
			continue
		}
		rest := sum - shares[c]
		for o := range shares {
			if o != c {
				shares[o] -= more * shares[o] / rest
			}
		}
		shares[c] += more
	}
}

// natural is the widest that a block of a cell would like to be.
func (f *fitter) natural(c Cell) (widest Length) {
	for _, b := range c.Blocks {
		w, ok := b.(Wider)
		if !ok {
			continue
		}
		own, known := f.natures[b.Name()]
		if !known {
			own = w.Natural(f.theme)
			f.natures[b.Name()] = own
		}
		widest = max(widest, own)
	}
	return widest
}

// unlevel is how far apart the ends of columns must be for width to be traded,
// mostTrades how often it is, and tradeStep how much of the row's width: twice
// that where they are far apart.
const (
	unlevel    = 5 * MM
	farApart   = 24 * MM
	mostTrades = 4
	tradeStep  = 0.04
)

// trade gives width of the lowest column to the highest, as far as it may give
// some. It is false where columns end about level.
func trade(cells []Cell, shares []Length, row laidRow) bool {
	if len(row.cells) != len(cells) || len(cells) < 2 {
		return false
	}
	low, high := 0, 0
	var sum Length
	for c := range cells {
		if row.cells[c].height < row.cells[low].height {
			low = c
		}
		if row.cells[c].height > row.cells[high].height {
			high = c
		}
		sum += shares[c]
	}
	apart := row.cells[high].height - row.cells[low].height
	step := sum * tradeStep
	if apart > farApart {
		step *= 2
	}
	if cells[low].Least <= 0 {
		return false
	}
	step = min(step, shares[low]-Length(cells[low].Least))
	if apart < unlevel || step < sum*tradeStep/2 {
		return false
	}
	shares[low] -= step
	shares[high] += step
	return true
}

// rowOf lays out a row with given shares of its width, once more without cells
// that turn out empty, whose width the others have.
func (f *fitter) rowOf(i int, shares []Length, levels map[string]Detail) laidRow {
	row := f.page.Rows[i]
	used := slices.Clone(shares)
	cells := f.cells(i, used, levels)
	var kept []laidCell
	k := 0
	for c := range used {
		if used[c] <= 0 {
			continue
		}
		if len(cells[k].blocks) > 0 {
			kept = append(kept, cells[k])
		} else {
			used[c] = 0
		}
		k++
	}
	if len(kept) > 0 && len(kept) < len(cells) {
		kept = f.cells(i, used, levels)
	}
	above, closed := f.closed(row.Above)
	r := laidRow{above: above, closed: closed, gap: row.Gap, foot: row.Foot, cells: f.flow(i, kept, levels)}
	r.measure()
	return r
}

// cells lays out the cells of a row that have a share of its width.
func (f *fitter) cells(i int, shares []Length, levels map[string]Detail) []laidCell {
	row := f.page.Rows[i]
	var sum Length
	n := 0
	for _, s := range shares {
		if s > 0 {
			sum += s
			n++
		}
	}
	room := f.page.Area.W - row.Gap*Length(n-1)
	var cells []laidCell
	for c, cell := range row.Cells {
		if shares[c] <= 0 {
			continue
		}
		l := laidCell{width: room * shares[c] / sum}
		l.gap, l.closed = f.closed(cell.Gap)
		for b, block := range cell.Blocks {
			l.add(f.block(frameKey{row: i, cell: c, block: b}, l.width, block, levels))
		}
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
