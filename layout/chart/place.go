package chart

import (
	"cmp"
	"math"
	"slices"

	"gaugesheet/layout"
)

// An end is the end of a bar in its place. Ends whose places are closer than
// they are wide stand in lanes over one another, each over its own value.
type end struct {
	bar     int
	at      layout.Length // of the value, from the ruler's left
	x       layout.Length // of its middle: at, but in a crowd
	w       layout.Length
	lane    int
	rail    layout.Length // height of its bar with the distance to the next
	above   layout.Length // of the bar's middle over the lowest
	crowded bool
}

// width is the room of a bar's end with the arrows of a bound.
func (b Bar) width() layout.Length {
	if b.Less || b.More {
		return b.End.W + 2*(arrow+1)
	}
	return b.End.W
}

func (e end) left() layout.Length  { return e.x - e.w/2 }
func (e end) right() layout.Length { return e.x + e.w/2 }

// A crowd is ends that are too many for their place even over one another.
// They stand in rows, in order of value, and a foot shows between which values
// all of them lie. It fills every lane.
type crowd struct {
	first, last int // in the order of the ends
	left, right layout.Length
	rows        int
}

// mostLanes is how many lanes there are at most, by detail.
var mostLanes = [...]int{layout.Full: 4, layout.Compact: 3, layout.Brief: 2}

// place finds each end its lane.
func (r *Ruler) place() {
	r.pitch = leastEnd + gap
	for i, b := range r.Bars {
		x := r.x(b.Value)
		r.ends = append(r.ends, end{bar: i, at: x, x: x, w: b.width()})
		r.pitch = max(r.pitch, b.End.H+gap)
	}
	slices.SortStableFunc(r.ends, func(a, b end) int { return cmp.Compare(a.x, b.x) })
	r.rails()
	for {
		full := r.intoLanes(mostLanes[r.detail])
		if full < 0 {
			return
		}
		r.gather(full)
	}
}

// rails gives each bar its height over the axis, the longest lowest, so that no
// stem from a bar's end up to its number meets another bar. Bars that reach out
// of the zone at zero are twice as thick as those that stay in it.
func (r *Ruler) rails() {
	order := make([]int, len(r.ends))
	parts := layout.Length(0)
	for i, e := range r.ends {
		order[i] = i
		parts += r.thickness(e)
	}
	reach := func(i int) float64 { return math.Abs(r.Bars[r.ends[i].bar].Value) }
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(reach(b), reach(a)) })
	unit := min(max(railRoom[r.detail]/max(parts, 1), leastRail), mostRail)
	for _, i := range order {
		e := &r.ends[i]
		e.rail = r.thickness(*e) * unit
		e.above = r.railsHeight + e.rail/2
		r.railsHeight += e.rail
	}
}

func (r *Ruler) thickness(e end) layout.Length {
	if r.zoneOf(r.Bars[e.bar].Value) != r.zoneOf(0) {
		return 2
	}
	return 1
}

// railRoom is about the height of all bars together, by detail; leastRail and
// mostRail are the least and the most of a thin one with its distance.
var railRoom = [...]layout.Length{layout.Full: 14, layout.Compact: 11, layout.Brief: 7}

const (
	leastRail layout.Length = 0.9
	mostRail  layout.Length = 2
)

// intoLanes puts each end into the lowest lane that is free at its place. It
// gives the first end for which most lanes are too few, -1 for none.
func (r *Ruler) intoLanes(most int) (full int) {
	r.lanes = 1
	taken := make([]layout.Length, most) // up to where each lane is taken
	for i := range taken {
		taken[i] = -r.width
	}
	for i := range r.ends {
		e := &r.ends[i]
		if e.crowded {
			continue
		}
		for e.lane = 0; e.lane < most && taken[e.lane]+gap > e.left(); {
			e.lane++
		}
		if e.lane == most {
			return i
		}
		taken[e.lane] = e.right()
		r.lanes = max(r.lanes, e.lane+1)
	}
	for _, c := range r.crowds {
		r.lanes = max(r.lanes, c.rows)
	}
	return -1
}

// gather makes a crowd of an end and of all that stand in one row with it, then
// of those that the crowd itself leaves no room.
func (r *Ruler) gather(i int) {
	c := crowd{first: i, last: i}
	for c.first > 0 && r.ends[c.first-1].right()+gap > r.ends[c.first].left() {
		c.first--
	}
	for c.last+1 < len(r.ends) && r.ends[c.last].right()+gap > r.ends[c.last+1].left() {
		c.last++
	}
	for {
		r.setCrowd(&c)
		before := c
		for c.first > 0 && r.ends[c.first-1].right()+gap > c.left {
			c.first--
		}
		for c.last+1 < len(r.ends) && r.ends[c.last+1].left() < c.right+gap {
			c.last++
		}
		if c == before {
			break
		}
	}
	r.crowds = slices.DeleteFunc(r.crowds, func(o crowd) bool { return o.first >= c.first && o.last <= c.last })
	r.crowds = append(r.crowds, c)
}

// setCrowd sets the ends of a crowd in columns about the middle of their
// values, as many rows as it takes to stay on the ruler.
func (r *Ruler) setCrowd(c *crowd) {
	all := r.ends[c.first : c.last+1]
	widths := func(rows int) (columns []layout.Length, whole layout.Length) {
		for i, e := range all {
			if i%rows == 0 {
				columns = append(columns, 0)
				whole += gap
			}
			column := &columns[len(columns)-1]
			whole += max(e.w-*column, 0)
			*column = max(*column, e.w)
		}
		return columns, whole - gap
	}
	c.rows = mostLanes[r.detail]
	columns, whole := widths(c.rows)
	for whole > r.width && c.rows < len(all) {
		c.rows++
		columns, whole = widths(c.rows)
	}
	middle := (all[0].at + all[len(all)-1].at) / 2
	c.left = max(min(middle-whole/2, r.width-whole), 0)
	c.right = c.left + whole
	x := c.left
	for i := range all {
		column := i / c.rows
		if i > 0 && i%c.rows == 0 {
			x += columns[column-1] + gap
		}
		all[i].crowded, all[i].lane, all[i].x = true, i%c.rows, x+columns[column]/2
	}
}
