package figure

import (
	"math"
	"slices"

	"gaugesheet/layout"
)

// Measures of the plan on a bench sheet.
const (
	penBoreLeast = 4.2 * layout.MM // diameter of a bore
	penBoreMost  = 15 * layout.MM
	penPitchMost = 21 * layout.MM // from a bore to the next of its row
	penTabGap    = 2              // between a bore's head and its tab
	penHeadWall  = 1.2 * layout.MM
)

// NewPenPlan is the block "engine" of a sheet to be written on. It is as low as
// its bores allow and uses more height for larger ones.
func NewPenPlan(d PenPlan) layout.Block {
	return block{"engine", func(t layout.Theme, width layout.Length, _ layout.Detail) layout.Frame {
		p, least := arrangedPlan(t, d, width)
		top, bottom := p.above(width), p.below()
		more := max(0, p.height(width, penBoreMost)-least)
		return pictured(d.Alt, layout.Frame{Height: top.Height + least + bottom, Stretch: more, Draw: func(s layout.Surface, a layout.Rect) {
			room := layout.Size{W: width, H: a.H - top.Height - bottom}
			p.placed = p.placeIn(room, least)
			top.Draw(s, a)
			p.draw(s, layout.Point{X: a.X, Y: a.Y + top.Height}, room)
		}})
	}}
}

// A penPlan is a plan with the places of its bores and tabs.
type penPlan struct {
	t      layout.Theme
	d      PenPlan
	tabs   []penTab
	inside bool // tabs stand in the bores
	turned bool // the front is at the left
	placed penPlaces
}

// arrangedPlan is a plan with tabs beside the bores or, where the engine is too
// wide for that, in them; one that is wider still lies with its front at the
// left. It gives the least height too.
func arrangedPlan(t layout.Theme, d PenPlan, width layout.Length) (p penPlan, least layout.Length) {
	for k := range 4 {
		p = penPlan{t: t, d: d, tabs: penTabs(t, d.Cylinders), inside: k%2 == 1, turned: k > 1}
		if p.turned {
			p.turn()
		}
		if least = p.height(width, penBoreLeast); least < highestPlan {
			break
		}
	}
	return p, least
}

// highestPlan is the height at which no more is tried.
const highestPlan = 200 * layout.MM

// turn turns the plan so that its front is at the left.
func (p *penPlan) turn() {
	p.d.Cylinders = slices.Clone(p.d.Cylinders)
	for i, c := range p.d.Cylinders {
		p.d.Cylinders[i].X, p.d.Cylinders[i].Y = c.Y, -c.X
	}
	round := []Direction{Up, Left, Down, Right}
	if k := slices.Index(round, p.d.VehicleAt); k >= 0 {
		p.d.VehicleAt = round[(k+1)%len(round)]
	}
}

// penPlaces are where bores and tabs stand, from the top left of the plan.
type penPlaces struct {
	bore  layout.Length // its diameter along the crankshaft
	half  layout.Size   // half of it as it is seen
	bores []layout.Point
	tabs  []layout.Point
}

// penTabs are the tabs of cylinders.
func penTabs(t layout.Theme, cylinders []PenBore) []penTab {
	tabs := make([]penTab, len(cylinders))
	for i, c := range cylinders {
		tabs[i] = newPenTab(t, c.Number)
	}
	return tabs
}

// height is the least height that bores of a diameter need, or the largest
// that the width has room for.
func (p penPlan) height(width, bore layout.Length) layout.Length {
	widest, ok := p.place(layout.Size{W: width, H: highestPlan})
	if !ok {
		return highestPlan
	}
	bore = min(bore, widest.bore)
	h := bore
	for ; h < highestPlan; h += 1 * layout.MM {
		if placed, ok := p.place(layout.Size{W: width, H: h}); ok && placed.bore >= bore-0.01 {
			break
		}
	}
	return h
}

// placeIn fills a room, or where bores would touch then, as much of its height
// as they can; at least they have the least height.
func (p penPlan) placeIn(room layout.Size, least layout.Length) penPlaces {
	for h := room.H; h > least; h -= 1 * layout.MM {
		if places, ok := p.place(layout.Size{W: room.W, H: h}); ok {
			return places
		}
	}
	places, _ := p.place(layout.Size{W: room.W, H: least})
	return places
}

// place finds the largest bores for which nothing touches in a room.
func (p penPlan) place(room layout.Size) (penPlaces, bool) {
	least := penBoreLeast
	if p.inside {
		for _, tab := range p.tabs {
			least = max(least, tab.size.W+tight, tab.size.H+tight)
		}
	}
	for d := max(penBoreMost, least); d >= least; d -= 0.5 * layout.MM {
		if places, ok := p.placeWith(d, room); ok {
			return places, true
		}
	}
	return penPlaces{}, false
}

// placeWith places bores of a diameter so that they fill the room.
func (p penPlan) placeWith(d layout.Length, room layout.Size) (penPlaces, bool) {
	half := p.half(d)
	wall := layout.Size{W: half.W + penHeadWall + outlinePen/2, H: half.H + penHeadWall + outlinePen/2}
	left, right, up, down := wall.W, wall.W, wall.H, wall.H
	var spanX, spanY float64
	away := make([]layout.Point, len(p.d.Cylinders))
	for i, c := range p.d.Cylinders {
		spanX, spanY = max(spanX, c.X-p.least().X), max(spanY, c.Y-p.least().Y)
		away[i] = p.away(i, wall)
		tab := layout.Size{W: (p.tabs[i].size.W + outlinePen) / 2, H: (p.tabs[i].size.H + outlinePen) / 2}
		left, right = max(left, tab.W-away[i].X), max(right, tab.W+away[i].X)
		up, down = max(up, tab.H-away[i].Y), max(down, tab.H+away[i].Y)
	}
	scale := layout.Point{X: penScale(room.W-left-right, spanX, wall.W), Y: penScale(room.H-up-down, spanY, wall.H)}
	scale.X = min(scale.X, 4*wall.W) // banks of small bores stand no wider apart than theirs
	if p.d.Build == Ring {
		scale.X = min(scale.X, scale.Y)
		scale.Y = scale.X
	}
	places := penPlaces{bore: d, half: half}
	free := layout.Point{X: room.W - left - right - layout.Length(spanX)*scale.X, Y: room.H - up - down - layout.Length(spanY)*scale.Y}
	if free.X < -0.01 || free.Y < -0.01 {
		return places, false
	}
	for i, c := range p.d.Cylinders {
		at := layout.Point{X: left + free.X/2 + layout.Length(c.X-p.least().X)*scale.X, Y: up + free.Y/2 + layout.Length(c.Y-p.least().Y)*scale.Y}
		places.bores = append(places.bores, at)
		places.tabs = append(places.tabs, at.Add(away[i].X, away[i].Y))
	}
	return places, !p.clash(places)
}

// penScale is how far apart a pitch is drawn so that the outermost bores stand
// at the edges; a row of few keeps its proportions.
func penScale(room layout.Length, span float64, wall layout.Length) layout.Length {
	if span <= 0 {
		return 0
	}
	return min(max(room, 0)/layout.Length(span), max(penPitchMost, 2*wall+2))
}

// least is the first corner of the places.
func (p penPlan) least() (corner struct{ X, Y float64 }) {
	corner.X, corner.Y = math.Inf(1), math.Inf(1)
	for _, c := range p.d.Cylinders {
		corner.X, corner.Y = min(corner.X, c.X), min(corner.Y, c.Y)
	}
	return corner
}

// half is half a bore of a diameter as it is seen: at a slant, or from its side.
func (p penPlan) half(d layout.Length) layout.Size {
	if p.turned {
		return layout.Size{W: d / 2, H: d / 2}
	}
	g := engineDrawing{d: &EnginePlan{Build: p.d.Build}}
	return g.boreSize(d/2, false)
}

// away is where a bore's tab stands, from the middle of the bore: outside, or
// at the left where there is no outside.
func (p penPlan) away(i int, wall layout.Size) layout.Point {
	var middle struct{ X, Y float64 }
	for _, c := range p.d.Cylinders {
		middle.X += c.X / float64(len(p.d.Cylinders))
		middle.Y += c.Y / float64(len(p.d.Cylinders))
	}
	if p.inside {
		return layout.Point{}
	}
	c := p.d.Cylinders[i]
	reach := wall.W + penTabGap
	if p.d.Build == Ring {
		x, y := c.X-middle.X, c.Y-middle.Y
		if r := math.Hypot(x, y); r > 0 {
			reach += max(p.tabs[i].size.W, p.tabs[i].size.H) / 2
			return layout.Point{X: reach * layout.Length(x/r), Y: reach * layout.Length(y/r)}
		}
	}
	reach += p.tabs[i].size.W / 2
	if c.X > middle.X+0.01 {
		return layout.Point{X: reach}
	}
	return layout.Point{X: -reach}
}

// clash reports bores or tabs that touch those of another cylinder.
func (p penPlan) clash(places penPlaces) bool {
	around := func(at layout.Point, w, h layout.Length) layout.Rect {
		return layout.Rect{X: at.X - w/2, Y: at.Y - h/2, W: w, H: h}
	}
	w, h := 2*places.half.W+1.6*layout.MM, 2*places.half.H+1.6*layout.MM
	for i := range p.d.Cylinders {
		tab := around(places.tabs[i], p.tabs[i].size.W+2, p.tabs[i].size.H+2)
		for k := range p.d.Cylinders {
			if k == i {
				continue
			}
			dx, dy := (places.bores[i].X-places.bores[k].X)/w, (places.bores[i].Y-places.bores[k].Y)/h
			if math.Hypot(float64(dx), float64(dy)) < 1 || !p.inside && (tab.Overlaps(around(places.bores[k], w, h)) ||
				tab.Overlaps(around(places.tabs[k], p.tabs[k].size.W, p.tabs[k].size.H))) {
				return true
			}
		}
	}
	return false
}
