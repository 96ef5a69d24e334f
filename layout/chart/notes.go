package chart

import (
	"slices"

	"gaugesheet/layout"
)

// A note is words beside bars that stand together.
type note struct {
	text string
	x    layout.Length // of its left end
	w    layout.Length
	lane int
}

// A span is a part of a lane that something takes.
type span struct {
	lane        int
	left, right layout.Length
}

// near is how close ends stand that are spoken of together.
const near layout.Length = 44

// together gives the ends in groups: those of the zone at zero are one, the
// others as they stand close.
func (r *Ruler) together() [][]end {
	var groups [][]end
	for i, e := range r.ends {
		zero := r.atZero(r.Bars[e.bar].Value)
		joined := false
		if i > 0 {
			last := r.ends[i-1]
			joined = zero == r.atZero(r.Bars[last.bar].Value) && (zero || e.left()-last.right() < near)
		}
		if !joined {
			groups = append(groups, nil)
		}
		groups[len(groups)-1] = append(groups[len(groups)-1], e)
	}
	return groups
}

// atZero reports a value in the zone at zero.
func (r *Ruler) atZero(v float64) bool { return len(r.Zones) > 0 && r.zoneOf(v) == r.zoneOf(0) }

// zoneOf is the zone in which a value lies, -1 where there are none. A value on
// the line between two lies in the one nearer to zero.
func (r *Ruler) zoneOf(v float64) int {
	const slack = 1e-9
	for i, z := range r.Zones {
		if v < z.To-slack || z.To > 0 && v <= z.To+slack || i == len(r.Zones)-1 {
			return i
		}
	}
	return -1
}

// zoneEnds are where a zone begins and ends on the ruler.
func (r *Ruler) zoneEnds(zone int) (from, to layout.Length) {
	to = r.width
	if zone > 0 {
		from = max(min(r.x(r.Zones[zone-1].To), r.width), 0)
	}
	if zone < len(r.Zones)-1 {
		to = max(from, min(r.x(r.Zones[zone].To), r.width))
	}
	return from, to
}

// noteFace is the face of what is said of bars.
func (r *Ruler) noteFace() layout.Face {
	f := r.theme.Face(layout.Label)
	f.Weight = layout.Bold
	return f
}

// sayNotes finds the words of each group a place that is free of ends, stems
// and limits; where there is none, and room is not short, in a lane of its own
// over all.
func (r *Ruler) sayNotes() {
	if r.Say == nil {
		return
	}
	taken := r.takenSpans()
	for _, group := range r.together() {
		for _, n := range r.notesOf(group, taken) {
			taken = append(taken, span{n.lane, n.x - 2*gap, n.x + n.w + 2*gap})
			r.notes = append(r.notes, n)
			r.lanes = max(r.lanes, n.lane+1)
		}
	}
}

// notesOf is what is said of a group: of each end by itself behind it, where all
// of them have the room and none belongs to the zone at zero; else of all.
func (r *Ruler) notesOf(group []end, taken []span) []note {
	if len(group) > 1 && !r.atZero(r.Bars[group[0].bar].Value) {
		if each, ok := r.noteEach(group, taken); ok {
			return each
		}
	}
	bars := make([]int, len(group))
	for i, e := range group {
		bars[i] = e.bar
	}
	if n, ok := r.setNote(r.Say(bars), group, taken); ok {
		return []note{n}
	}
	return nil
}

// noteOff is how far behind an end its words stand.
const noteOff layout.Length = 4

func (r *Ruler) noteEach(group []end, taken []span) (notes []note, ok bool) {
	for _, e := range group {
		words := r.Say([]int{e.bar})
		if len(words) == 0 || e.crowded {
			return nil, false
		}
		text := words[len(words)-1]
		n := note{text: text, x: e.right() + noteOff, w: r.theme.Measurer.Width(text, r.noteFace()), lane: e.lane}
		if n.x+n.w > r.width || !isFree(taken, span{n.lane, n.x - gap, n.x + n.w + 2*gap}) {
			return nil, false
		}
		notes = append(notes, n)
	}
	return notes, true
}

// takenSpans is what ends, stems, limits and the line at zero take of the lanes.
func (r *Ruler) takenSpans() []span {
	var all []span
	for _, e := range r.ends {
		all = append(all, span{e.lane, e.left(), e.right()})
		if e.crowded {
			continue
		}
		all = append(all, span{e.lane, e.low, e.high})
		for lane := range e.lane { // the stem
			all = append(all, span{lane, e.x - 1, e.x + 1})
		}
	}
	line := func(v float64, lanes int) {
		for lane := range lanes {
			all = append(all, span{lane, r.x(v) - 1, r.x(v) + 1})
		}
	}
	line(0, r.lanes) // over the bars' ends it says nothing more, and words may stand across it
	for _, l := range r.Limits {
		line(usable(l.Value), len(r.ends)+2)
	}
	return all
}

// setNote takes the longest of several words that find room in the zone of the
// group, else the longest that find it anywhere; where none does, and room is not short, the
// shortest in a lane of their own over all.
func (r *Ruler) setNote(words []string, group []end, taken []span) (note, bool) {
	zone := r.zoneOf(r.Bars[group[len(group)-1].bar].Value)
	var n note
	for _, inside := range []bool{true, false} {
		for _, text := range words {
			n = note{text: text, w: r.theme.Measurer.Width(text, r.noteFace())}
			for n.lane = range r.lanes {
				ok := func() bool { return !inside || r.zoneOf(r.valueAt(n.x+n.w)) == zone }
				if r.findRoom(&n, group, taken, ok) {
					return n, true
				}
			}
		}
	}
	if len(words) > 0 && r.detail != layout.Brief {
		n.lane = r.lanes
		return n, r.findRoom(&n, group, taken, func() bool { return true })
	}
	return note{}, false
}

// findRoom tries the places in a note's lane that may be had.
func (r *Ruler) findRoom(n *note, group []end, taken []span, ok func() bool) bool {
	left, right := group[0].left(), group[0].right()
	for _, e := range group {
		left, right = min(left, e.left()), max(right, e.right())
	}
	for _, n.x = range r.besides(n.w, left, right, n.lane == r.lanes) {
		if n.x >= 0 && n.x+n.w <= r.width && ok() && isFree(taken, span{n.lane, n.x - gap, n.x + n.w + gap}) {
			return true
		}
	}
	return false
}

// besides are the places for words of a width near a group: after it, before
// it, and about its middle, moved as little as keeps them on the ruler.
func (r *Ruler) besides(w, left, right layout.Length, alone bool) []layout.Length {
	middle := max(min((left+right-w)/2, r.width-w), 0)
	places := []layout.Length{right + noteOff, left - noteOff - w, middle}
	if !alone {
		return places
	}
	// A lane without bars is searched along its whole length, from the group
	// outwards.
	for d := layout.Length(0); d < r.width; d += 8 {
		places = append(places, middle+d, middle-d)
	}
	return places
}

func isFree(taken []span, s span) bool {
	return !slices.ContainsFunc(taken, func(t span) bool {
		return t.lane == s.lane && t.left < s.right && s.left < t.right
	})
}
