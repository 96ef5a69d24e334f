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
	low     layout.Length // of where the value may lie as well
	high    layout.Length
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
var mostLanes = [...]int{layout.Full: 3, layout.Compact: 2, layout.Brief: 1}

// arrange finds each end its lane.
func (r *Ruler) arrange() {
	r.pitch = leastEnd + gap
	for i, b := range r.Bars {
		x := r.x(b.Value)
		r.ends = append(r.ends, end{bar: i, at: x, x: x, w: b.width(), low: min(r.x(b.Low), x), high: max(r.x(b.High), x)})
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
	if r.atZero(r.Bars[e.bar].Value) {
		return 1
	}
	return 2
}

// railRoom is about the height of all bars together, by detail; leastRail and
// mostRail are the least and the most of a thin one with its distance.
var railRoom = [...]layout.Length{layout.Full: 14, layout.Compact: 9, layout.Brief: 5}

const (
	leastRail layout.Length = 0.6
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
		for e.lane = 0; e.lane < most && taken[e.lane]+gap > min(e.left(), e.low); {
			e.lane++
		}
		if e.lane == most {
			return i
		}
		taken[e.lane] = max(e.right(), e.high)
		r.lanes = max(r.lanes, e.lane+1)
	}
	for _, c := range r.crowds {
		r.lanes = max(r.lanes, c.rows)
	}
	return -1
}

// gather makes a crowd of an end and of all that stand in one row with it, then
// of those that the crowd itself leaves no room. It is as low as lets it keep to
// its zone.
func (r *Ruler) gather(i int) {
	var c crowd
	for rows := min(2, mostLanes[r.detail]); rows <= mostRows; rows++ {
		if c = r.crowdOf(i, rows); r.inZone(c) {
			break
		}
	}
	r.setCrowd(&c)
	r.crowds = slices.DeleteFunc(r.crowds, func(o crowd) bool { return o.first >= c.first && o.last <= c.last })
	r.crowds = append(r.crowds, c)
}

// mostRows is how many rows a crowd has at most while it may be wider.
const mostRows = 5

// inZone reports a crowd that stands within the zone of its values.
func (r *Ruler) inZone(c crowd) bool {
	zone := r.zoneOf(r.Bars[r.ends[c.first].bar].Value)
	if zone < 0 {
		return true
	}
	from, to := r.zoneEnds(zone)
	return zone == r.zoneOf(r.Bars[r.ends[c.last].bar].Value) && c.left >= from && c.right <= to
}

// crowdOf is the crowd about an end in a number of rows.
func (r *Ruler) crowdOf(i, rows int) crowd {
	c := crowd{first: i, last: i, rows: rows}
	for c.first > 0 && r.ownRight(c.first-1)+gap > r.ownLeft(c.first) {
		c.first--
	}
	for c.last+1 < len(r.ends) && r.ownRight(c.last)+gap > r.ownLeft(c.last+1) {
		c.last++
	}
	for {
		r.part(&c)
		before := c
		for c.first > 0 && r.ownRight(c.first-1)+gap > c.left {
			c.first--
		}
		for c.last+1 < len(r.ends) && r.ownLeft(c.last+1) < c.right+gap {
			c.last++
		}
		for _, o := range r.crowds {
			if o.left < c.right+gap+2*crowdEdge && c.left < o.right+gap+2*crowdEdge {
				c.first, c.last = min(c.first, o.first), max(c.last, o.last)
			}
		}
		if c == before {
			return c
		}
	}
}

// ownLeft and ownRight are where an end would begin and stop in its own place.
func (r *Ruler) ownLeft(i int) layout.Length  { return r.ends[i].at - r.ends[i].w/2 }
func (r *Ruler) ownRight(i int) layout.Length { return r.ends[i].at + r.ends[i].w/2 }

// columns are the widths of a crowd's columns.
func (r *Ruler) columns(c crowd) (columns []layout.Length, whole layout.Length) {
	for i, e := range r.ends[c.first : c.last+1] {
		if i%c.rows == 0 {
			columns = append(columns, 0)
			whole += gap
		}
		column := &columns[len(columns)-1]
		whole += max(e.w-*column, 0)
		*column = max(*column, e.w)
	}
	return columns, whole - gap
}

// part gives a crowd its place about the middle of its values, in as many rows
// more as it takes to stay on the ruler.
func (r *Ruler) part(c *crowd) {
	_, whole := r.columns(*c)
	for whole > r.width-2*crowdEdge && c.rows <= c.last-c.first {
		c.rows++
		_, whole = r.columns(*c)
	}
	middle := (r.ends[c.first].at + r.ends[c.last].at) / 2
	c.left = max(min(middle-whole/2, r.width-whole-crowdEdge), crowdEdge)
	c.right = c.left + whole
}

// crowdEdge is the ground of a crowd around its ends, with its outline.
const crowdEdge layout.Length = 2

// setCrowd sets the ends of a crowd in its columns.
func (r *Ruler) setCrowd(c *crowd) {
	columns, _ := r.columns(*c)
	x := c.left
	for i := range r.ends[c.first : c.last+1] {
		e := &r.ends[c.first+i]
		column := i / c.rows
		if i > 0 && i%c.rows == 0 {
			x += columns[column-1] + gap
		}
		e.crowded, e.lane, e.x = true, i%c.rows, x+columns[column]/2
	}
}
