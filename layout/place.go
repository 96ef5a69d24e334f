package layout

import "maps"

// A Placed block has its area on the page.
type Placed struct {
	Name   string
	Area   Rect
	Detail Detail
	frame  Frame
}

// Fitted is a page whose blocks have their places.
type Fitted struct {
	Blocks []Placed          // in the order of rows, cells and blocks
	Scale  float64           // of type
	Levels map[string]Detail // of the blocks that had to give way
}

// mostAbove is how much the space above a row may grow: more would tear the
// page apart.
const mostAbove = 12 * Pt

func (f *fitter) done(taken []bool) *Fitted {
	l := f.lay(taken)
	fitted := &Fitted{Scale: f.theme.Scale, Levels: maps.Clone(f.levels(taken))}
	free := enrich(l.rows, max(0, f.page.Area.H-l.height))
	grow(l.rows, free)
	y := f.page.Area.Y
	for _, row := range l.rows {
		y += row.above
		x := f.page.Area.X
		for _, cell := range row.cells {
			fitted.Blocks = append(fitted.Blocks, cell.place(Rect{x, y, cell.width, row.height})...)
			x += cell.width + row.gap
		}
		y += row.height
	}
	return fitted
}

// enrich gives free height to blocks that can show more with it, in the order
// of the page, and returns what is left.
func enrich(rows []laidRow, free Length) Length {
	for r := range rows {
		row := &rows[r]
		for c := range row.cells {
			for b := range row.cells[c].blocks {
				block := &row.cells[c].blocks[b]
				if block.frame.Richer == nil {
					continue
				}
				before := row.height
				block.frame = block.frame.Richer(block.frame.Height + free + row.height - row.cells[c].height)
				row.measure()
				free -= row.height - before
			}
		}
	}
	return max(free, 0)
}

// grow shares the free height out: first to the rows that can use it, in
// proportion to how much they can use; then evenly to the spaces above the
// rows; what is left goes above the last row, which ends at the page's foot.
func grow(rows []laidRow, free Length) {
	var stretch Length
	for _, row := range rows {
		stretch += row.stretch
	}
	if used := min(free, stretch); used > 0 {
		for i := range rows {
			rows[i].height += used * rows[i].stretch / stretch
		}
		free -= used
	}
	if len(rows) < 2 {
		return
	}
	each := min(mostAbove, free/Length(len(rows)-1))
	for i := range rows[1:] {
		rows[i+1].above += each
		free -= each
	}
	rows[len(rows)-1].above += free
}

// place puts a cell's blocks under one another. Those that can use free height
// get it, in proportion; what is left stands above the last block, so that the
// cells of a row end level.
func (c laidCell) place(area Rect) []Placed {
	left := area.H - c.height
	free := max(0, min(left, c.stretch))
	var placed []Placed
	y := area.Y
	for i, b := range c.blocks {
		h := b.frame.Height
		if c.stretch > 0 {
			h += free * b.frame.Stretch / c.stretch
		}
		if i > 0 && i == len(c.blocks)-1 {
			y += max(0, left-free)
		}
		placed = append(placed, Placed{b.name, Rect{area.X, y, area.W, h}, b.detail, b.frame})
		y += h + c.gap
	}
	return placed
}

// Draw draws every block in its place.
func (f *Fitted) Draw(s Surface) {
	for _, b := range f.Blocks {
		s.Block(b.Name, b.Area, func() { b.frame.Draw(s, b.Area) })
	}
}

// Boxes gives a surface that draws a thin outline around every block, with its
// name where names is set, over what the block draws.
func Boxes(s Surface, names bool) Surface { return boxes{s, names} }

type boxes struct {
	Surface
	names bool
}

func (b boxes) Block(name string, area Rect, draw func()) {
	b.Surface.Block(name, area, func() {
		draw()
		ink := Color{200, 0, 120}
		b.Stroke(RectPath(area), Pen{Width: 0.3, Color: ink})
		if b.names {
			b.Text(Point{area.X + 1, area.Y + 5}, name, Face{Size: 5}, ink)
		}
	})
}
