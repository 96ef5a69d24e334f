package layout

import "maps"

// Fitted is a page whose blocks have their places.
type Fitted struct {
	Scale  float64           // of type
	Levels map[string]Detail // of the blocks that had to give way

	area Rect
	rows []laidRow
}

// mostAbove is how much the space above a row, or between the blocks of a
// column, may grow: more would tear the page apart.
const mostAbove = 12 * Pt

func (f *fitter) done(taken []bool) *Fitted {
	l := f.lay(taken)
	free := enrich(l.rows, max(0, f.page.Area.H-l.height))
	grow(l.rows, free)
	return &Fitted{Scale: f.theme.Scale, Levels: maps.Clone(f.levels(taken)), area: f.page.Area, rows: l.rows}
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

// grow shares the free height out: first to the spaces that closed up; then to
// the rows that can use it, in proportion to how much they can use; then evenly
// to the spaces above the rows; what is left goes above the rows at the foot,
// which end the page.
func grow(rows []laidRow, free Length) {
	free = open(rows, free)
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
	foot := len(rows) - 1
	for foot > 1 && rows[foot].foot && rows[foot-1].foot {
		foot--
	}
	rows[foot].above += free
}

// open gives free height back to spaces that closed up, in proportion, and
// returns what is left.
func open(rows []laidRow, free Length) Length {
	var closed Length
	for _, row := range rows {
		closed += row.closed + row.opens()
	}
	if closed <= 0 {
		return free
	}
	part := min(1, free/closed)
	for i := range rows {
		row := &rows[i]
		row.above += part * row.closed
		row.height += part * row.opens()
	}
	return free - part*closed
}

// Draw draws every block in its place.
func (f *Fitted) Draw(s Surface) {
	y := f.area.Y
	for _, row := range f.rows {
		y += row.above
		row.frame().Draw(s, Rect{f.area.X, y, f.area.W, row.height})
		y += row.height
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
			Tag{Kind: Decoration}.Draw(b.Surface, func() { b.Text(Point{area.X + 1, area.Y + 5}, name, Face{Size: 5}, ink) })
		}
	})
}

// Tag keeps what the surface under it keeps.
func (b boxes) Tag(t Tag, draw func()) { t.Draw(b.Surface, draw) }

// Join keeps what the surface under it keeps.
func (b boxes) Join() { join(b.Surface) }
