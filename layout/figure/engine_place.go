package figure

import (
	"cmp"
	"math"
	"slices"

	"gaugesheet/layout"
)

// A scale is how many points a cylinder pitch is in each direction.
type scale struct{ x, y layout.Length }

// A placing is a plan with its cells and the scale at which none of them
// touch.
type placing struct {
	cells  []cell
	at     []layout.Point // in pitches, far gaps drawn in
	scale  scale
	apart  layout.Length // how much further the banks stand from each other
	bore   layout.Size   // of one bore or housing
	writer cellWriter
	extent layout.Rect
}

func (p *placing) place(i int) layout.Point {
	at := layout.Point{X: p.at[i].X * p.scale.x, Y: p.at[i].Y * p.scale.y}
	if lying, ok := bankAxis(p.writer.plan); ok && p.apart > 0 && beyondAxis(p.writer.plan, i, lying) {
		if lying {
			at.Y += p.apart
		} else {
			at.X += p.apart
		}
	}
	return at
}

func (p *placing) measure() {
	areas := make([]layout.Rect, len(p.cells))
	for i, c := range p.cells {
		areas[i] = moved(c.extent(), p.place(i))
	}
	p.extent = union(areas...)
}

func moved(r layout.Rect, by layout.Point) layout.Rect {
	r.X += by.X
	r.Y += by.Y
	return r
}

// Free distances between cells.
const (
	boreGap   layout.Length = 3   // between the edges of two bores of a head
	gasketGap layout.Length = 3.5 // from a bore's edge to the outline of its head
	textGap   layout.Length = 6   // beside a text, to another cylinder
	lineGap   layout.Length = 4.5 // between two texts under one another, of several lines
	closeGap  layout.Length = 1   // between two texts of one line
	crankGap  layout.Length = 12  // between the banks, for the crankshaft's centre line
)

// boreGap is the distance between two bores of a head; small bores stand closer.
func (p *placing) boreGap() layout.Length { return min(boreGap, p.bore.H/5) }

// A clash is a condition between an area of one cell and one of another, in
// points: clear where the cells are apart by dx, by dy or more, or by back or
// less, since the area of the lower cell may lie over that of the upper one.
type clash struct {
	x, y         float64 // how far apart the cells are, in pitches, not negative
	dx, dy, back layout.Length
	round        bool // both are round: apart by dx in any direction
	across       bool // the crankshaft runs between the cells: only its own way counts
}

// clears is the overlap in points that is none.
const clears = 1e-3

// clashes lists what keeps the cells apart, the same only once. The list is
// good until the book is used again.
func (p *placing) clashes(b *clashBook) []clash {
	seen, across, all := b.seen, b.across, b.all[:0]
	clear(seen)
	clear(across)
	add := func(c clash) {
		c.x, c.y = math.Round(c.x*1e6)/1e6, math.Round(c.y*1e6)/1e6
		if c.across {
			// Of those at one distance the widest and the highest decide.
			at := [2]float64{c.x, c.y}
			if i, twice := across[at]; twice {
				all[i].dx, all[i].dy = max(all[i].dx, c.dx), max(all[i].dy, c.dy)
				return
			}
			across[at] = len(all)
			all = append(all, c)
			return
		}
		// Areas that clear each other at any scale keep nothing apart.
		if c.dy <= clears || c.dx <= clears && !c.round || seen[c] {
			return
		}
		seen[c] = true
		all = append(all, c)
	}
	areas := make([][]layout.Rect, len(p.cells))
	for i, c := range p.cells {
		areas[i] = c.rects()
	}
	lying, banks := bankAxis(p.writer.plan)
	for i := range p.cells {
		for j := range i {
			p.clashesOf(i, j, areas, banks && acrossAxis(p.writer.plan, i, j), lying, add)
		}
	}
	b.all = all
	return all
}

// A clashBook is the room in which clashes are noted, used again from one
// placing to the next: a search tries hundreds.
type clashBook struct {
	seen   map[clash]bool
	across map[[2]float64]int // by distance: where the widest stands in all
	all    []clash
}

func newClashBook() *clashBook {
	return &clashBook{seen: map[clash]bool{}, across: map[[2]float64]int{}}
}

// clashesOf lists what keeps two cells apart; banks says whether the
// crankshaft runs between them, and lying how.
func (p *placing) clashesOf(i, j int, areas [][]layout.Rect, banks, lying bool, add func(clash)) {
	x, y := float64(p.at[j].X-p.at[i].X), float64(p.at[j].Y-p.at[i].Y)
	if x < 0 {
		i, j, x, y = j, i, -x, -y
	}
	together := slices.Contains(headOf(p.writer.plan, i), j)
	for k, a := range areas[i] {
		for l, b := range areas[j] {
			above := tight
			if k > 0 && l > 0 {
				above = p.writer.lineGap()
			}
			c := clash{x: x, y: y, dx: a.Right() - b.X + textGap, dy: a.Bottom() - b.Y + above, back: a.Y - b.Bottom() - above}
			if y < 0 {
				c.dy, c.back = b.Bottom()-a.Y+above, b.Y-a.Bottom()-above
			}
			if k == 0 && l == 0 {
				gap := p.boreGap()
				if !together {
					gap += 2 * gasketGap
				}
				c.dx, c.dy, c.round = p.bore.W+gap, p.bore.H+gap, p.bore.W == p.bore.H
			}
			c.y = math.Abs(y)
			if banks {
				c.across, c.dx = true, a.Right()-b.X+crankGap
				if c.dy += crankGap - above; lying && k == 0 && l == 0 {
					c.dy = p.bore.H + 2*gasketGap + crankGap
				}
			}
			add(c)
		}
	}
}

// scaleX is the least x scale at which nothing clashes at y scale sy; ok is
// false where there is none.
func scaleX(all []clash, sy layout.Length) (sx layout.Length, ok bool) {
	const eps = clears
	for _, c := range all {
		if c.across {
			continue
		}
		apart := layout.Length(c.y) * sy
		need := c.dx
		if apart >= c.dy-eps || apart <= c.back+eps {
			continue
		}
		if c.round {
			rest := float64(c.dx*c.dx - apart*apart)
			if rest <= 0 {
				continue
			}
			need = layout.Length(math.Sqrt(rest))
		}
		if need <= eps {
			continue
		}
		if c.x < eps {
			return 0, false
		}
		sx = max(sx, need/layout.Length(c.x))
	}
	return sx, true
}

// moveApart moves the banks from each other until the crankshaft's line has a
// free strip between them.
func (p *placing) moveApart(all []clash) {
	lying, _ := bankAxis(p.writer.plan)
	p.apart = 0
	for _, c := range all {
		switch {
		case !c.across:
		case lying:
			p.apart = max(p.apart, c.dy-layout.Length(c.y)*p.scale.y)
		default:
			p.apart = max(p.apart, c.dx-layout.Length(c.x)*p.scale.x)
		}
	}
}

// solve finds the lowest scale that fits a width and a height, or failing the
// height none. Height 0 is any height. In a ring both directions have one scale.
func (p *placing) solve(b *clashBook, width, height layout.Length, ring bool) bool {
	all := p.clashes(b)
	if ring {
		return p.solveRing(all, width, height)
	}
	found := false
	for _, sy := range p.trials(all) {
		sx, ok := scaleX(all, sy)
		if !ok {
			continue
		}
		next := *p
		next.scale = scale{max(sx, p.bore.W/2), sy}
		next.moveApart(all)
		if !next.fits(width, height) {
			continue
		}
		if !found || next.extent.H < p.extent.H-0.5 {
			*p, found = next, true
		}
	}
	return found
}

func (p *placing) solveRing(all []clash, width, height layout.Length) bool {
	for s := p.bore.W; s < width; s += 0.5 {
		if sx, ok := scaleX(all, s); ok && sx <= s {
			p.scale = scale{s, s}
			return p.fits(width, height)
		}
	}
	return false
}

func (p *placing) fits(width, height layout.Length) bool {
	p.measure()
	return p.extent.W <= width+0.01 && (height == 0 || p.extent.H <= height)
}

// trials are the y scales worth trying: those at which some pair of areas just
// clears.
func (p *placing) trials(all []clash) []layout.Length {
	const most = 40
	seen := map[layout.Length]bool{}
	trials := []layout.Length{p.bore.H}
	for _, c := range all {
		if c.y < 1e-3 || c.dy <= 0 {
			continue
		}
		sy := layout.Length(math.Ceil(float64(c.dy)/c.y*2) / 2)
		if !seen[sy] && sy >= p.bore.H/3 {
			seen[sy] = true
			trials = append(trials, sy)
		}
	}
	slices.Sort(trials)
	if len(trials) > most {
		thinned := make([]layout.Length, 0, most)
		for i := range most {
			thinned = append(thinned, trials[i*(len(trials)-1)/(most-1)])
		}
		trials = thinned
	}
	return trials
}

// closeUp gives the cylinders' places with every gap over two and a half
// pitches drawn in to that: a far one would push the others into one spot.
func closeUp(cylinders []Cylinder) []layout.Point {
	const widest = 2.5
	at := make([]layout.Point, len(cylinders))
	for _, stacked := range []bool{false, true} {
		order := make([]int, len(cylinders))
		for i := range order {
			order[i] = i
		}
		slices.SortStableFunc(order, func(a, b int) int {
			return cmp.Compare(coordinate(cylinders[a], stacked), coordinate(cylinders[b], stacked))
		})
		var here layout.Length
		for k, i := range order {
			if k > 0 {
				here += layout.Length(min(coordinate(cylinders[i], stacked)-coordinate(cylinders[order[k-1]], stacked), widest))
			}
			if stacked {
				at[i].Y = here
			} else {
				at[i].X = here
			}
		}
	}
	return at
}
