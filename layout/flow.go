package layout

import "slices"

// mostWays bounds how many ways of putting flows under columns are compared.
const mostWays = 729

// flow puts the row's flows under its cells: so that the row is as low as it
// can be, and a block stands no higher than the one it follows, as far as that
// costs no height to speak of. Without cells they stand under one another
// across the row.
func (f *fitter) flow(i int, cells []laidCell, levels map[string]Detail) []laidCell {
	row := f.page.Rows[i]
	if len(row.Flows) == 0 {
		return cells
	}
	if len(cells) == 0 {
		gap, closed := f.closed(row.flowGap())
		cells = []laidCell{{width: f.page.Area.W, gap: gap, closed: closed}}
	}
	// Each flow as it would be under each cell.
	var flows [][]laidBlock
	var after []bool
	for b, block := range row.Flows {
		if f.rows[i].ahead[b] {
			continue
		}
		under := make([]laidBlock, len(cells))
		for c := range cells {
			under[c] = f.block(frameKey{row: i, cell: -1, block: b}, cells[c].width, block, levels)
		}
		if under[0].frame.Height > 0 {
			after = append(after, len(flows) > 0 && follows(block, flows[len(flows)-1][0].name))
			flows = append(flows, under)
		}
	}
	w := ways{cells: cells, flows: flows, after: after, ends: make([]Length, len(cells)), way: make([]int, len(flows))}
	for c, cell := range cells {
		w.ends[c] = cell.stack().measure(frames(cell.blocks)).Height
	}
	w.try(0, 0, 0)
	for b, c := range w.best {
		cells[c].add(flows[b][c])
	}
	return cells
}

// fill puts flows of later rows where a column of this one ends so far above
// the others that they find room, in their order: those that leave no such
// room behind, or leave their row lower.
func (f *fitter) fill(i int, row laidRow, levels map[string]Detail) laidRow {
	if len(row.cells) < 2 || !f.trade {
		return row
	}
	own := false // the row is not that of the cache any more
	for j := i + 1; j < len(f.page.Rows); j++ {
		for b, block := range f.page.Rows[j].Flows {
			for c := range row.cells {
				cell := &row.cells[c]
				free := row.height - cell.height - cell.gap
				if f.rows[j].ahead[b] || free < unlevel || f.page.Rows[j].goesOn(b) {
					continue
				}
				under := f.block(frameKey{row: j, cell: -1, block: b}, cell.width, block, levels)
				if under.frame.Narrow || under.frame.Height <= 0 || under.frame.Height > free || !f.spares(j, b, levels) {
					continue
				}
				if !own {
					row.cells, own = slices.Clone(row.cells), true
					cell = &row.cells[c]
				}
				cell.blocks = append(slices.Clone(cell.blocks), under)
				row.measure()
			}
		}
	}
	return row
}

// goesOn reports a flow that the next one goes on from, or that goes on from the
// one before it.
func (r Row) goesOn(flow int) bool {
	with := func(i int) bool {
		return i > 0 && i < len(r.Flows) && follows(r.Flows[i], r.Flows[i-1].Name())
	}
	return with(flow) || with(flow+1)
}

// spares takes a flow out of its row, unless the row would only be emptier
// without it.
func (f *fitter) spares(j, b int, levels map[string]Detail) bool {
	before := f.sameRow(j, levels).height
	f.rows[j].ahead[b] = true
	after := f.sameRow(j, levels)
	if after.height < before-slack {
		return true
	}
	for _, c := range after.cells {
		if after.height-c.height > unlevel {
			f.rows[j].ahead[b] = false
			return false
		}
	}
	return true
}

func frames(blocks []laidBlock) []Frame {
	all := make([]Frame, len(blocks))
	for i, b := range blocks {
		all[i] = b.frame
	}
	return all
}

// flowGap is the gap between flows that stand across the row.
func (r Row) flowGap() Length {
	if len(r.Cells) == 0 {
		return 0
	}
	return r.Cells[0].Gap
}

// ways compares the ways of putting flows under cells.
type ways struct {
	cells []laidCell
	flows [][]laidBlock
	after []bool   // flows that go on from the one before them
	ends  []Length // how far down each cell is filled
	way   []int    // the cell of each flow so far
	best  []int
	cost  Length
	tried int
}

// Costs of a way beside the row's height: of a block that stands higher than
// the one before it, of one that is read before what it goes on from, and of a block
// in less width than it wants.
const (
	costOfOrder  = 6 * Pt
	costOfAfter  = 1000 * Pt
	costOfNarrow = 1000 * Pt
)

// follows reports a block that goes on from another.
func follows(b Block, name string) bool {
	f, ok := b.(Follower)
	return ok && f.Follows() == name
}

// try puts the flows from the b-th on under every cell in turn. Above is where
// the flow before it begins; cost is that of the way so far.
func (w *ways) try(b int, above, cost Length) {
	height := cost
	for _, end := range w.ends {
		height = max(height, end+cost)
	}
	if w.best != nil && height >= w.cost-slack { // no better, and flows make no column lower
		return
	}
	if b == len(w.flows) {
		w.best, w.cost = append([]int(nil), w.way...), height
		w.tried++
		return
	}
	for _, c := range w.order() {
		if w.tried >= mostWays {
			return
		}
		frame, end := w.flows[b][c].frame, w.ends[c]
		top := end
		if end > 0 {
			top += w.cells[c].gap
		}
		extra := cost
		if top < above-slack {
			extra += costOfOrder
		}
		if w.after[b] && (top < above-slack || c < w.way[b-1]) {
			extra += costOfAfter
		}
		if frame.Narrow {
			extra += costOfNarrow
		}
		w.ends[c], w.way[b] = top+frame.Height, c
		w.try(b+1, top, extra)
		w.ends[c] = end
	}
}

// order is the cells, that which ends highest first.
func (w *ways) order() []int {
	order := make([]int, 0, len(w.ends))
	for c := range w.ends {
		k := len(order)
		for k > 0 && w.ends[c] < w.ends[order[k-1]]-slack {
			k--
		}
		order = append(order, 0)
		copy(order[k+1:], order[k:])
		order[k] = c
	}
	return order
}
