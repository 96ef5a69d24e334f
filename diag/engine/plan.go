package engine

import "math"

// Direction is where an arrow points on the page.
type Direction int

// The directions. NotShown means that the direction is not recorded, or that
// the view has no such direction: draw no arrow.
const (
	NotShown Direction = iota
	Up
	Down
	ToLeft
	ToRight
)

func (d Direction) String() string {
	return [...]string{"not shown", "up", "down", "left", "right"}[d]
}

// Place is where a cylinder or rotor is drawn, in pitches from the top left
// corner of the box around all centres; X to the right, Y down.
type Place struct {
	Name string
	Bank int // index into Engine.Banks, or -1
	Head int // index into Engine.Heads, or -1
	X, Y float64
}

// Plan is the engine as drawn on a page.
type Plan struct {
	Places        []Place // in the order of Engine.Cylinders or Engine.Rotors
	Width, Height float64 // of the box around the centres, in pitches
	View          string  // "seen from above" or "seen from the rear"
	VehicleFront  Direction
	EngineFront   Direction
	Open          []Open // what the drawing had to leave open
}

// Open is something that the drawing had to leave open.
type Open struct {
	What     Unrecorded
	Cylinder string // that it is about, "" for none
}

// Unrecorded is what is not known of an engine's place in the vehicle.
type Unrecorded string

// What may be left open. The crosswise front is drawn to the vehicle's left.
const (
	OpenFront          Unrecorded = "engine's front"
	OpenFrontCrosswise Unrecorded = "engine's front crosswise"
	OpenRow            Unrecorded = "row"
)

// Plan gives the engine as drawn: with the vehicle's front up where the mount
// is known. For mid and rear engines, on a stand, and without a mount, the
// direction of the engine's front in the vehicle is not recorded: then the
// engine's own front is up, only its arrow is given, and Open says so.
func (e *Engine) Plan() Plan {
	p := Plan{View: "seen from above"}
	turn := e.orient(&p)
	for _, c := range e.Cylinders {
		x, y := turn(c.X, c.Y)
		p.Places = append(p.Places, Place{c.Name, c.Bank, c.Head, x, y})
	}
	for _, r := range e.Rotors {
		x, y := turn(r.X, r.Y)
		p.Places = append(p.Places, Place{r.Name, -1, -1, x, y})
	}
	p.moveToOrigin()
	return p
}

// orient sets the arrows and what is open, and gives the turn of the page.
func (e *Engine) orient(p *Plan) (turn func(x, y float64) (float64, float64)) {
	upright := func(x, y float64) (float64, float64) { return x, y }
	toLeft := func(x, y float64) (float64, float64) { return y, -x }
	toRight := func(x, y float64) (float64, float64) { return -y, x }
	if e.Kind == Radial {
		p.View = "seen from the rear"
		return upright
	}
	turn = upright
	switch {
	case e.Mount == FrontLengthwise:
		p.VehicleFront, p.EngineFront = Up, Up
	case e.Mount == FrontCrosswiseLeft:
		p.VehicleFront, p.EngineFront = Up, ToLeft
		turn = toLeft
	case e.Mount == FrontCrosswiseRight:
		p.VehicleFront, p.EngineFront = Up, ToRight
		turn = toRight
	case e.IsTwoBank() && (e.Banks[0].Name == front || e.Banks[0].Name == rear):
		// The banks tell the vehicle's front; the engine's own is open.
		if e.Mount != OnStand {
			p.VehicleFront = Up
		}
		turn = toLeft
		if len(e.Cylinders) > 2 {
			p.Open = append(p.Open, Open{What: OpenFrontCrosswise})
		}
	default:
		p.EngineFront = Up
		if e.Mount != OnStand {
			p.Open = append(p.Open, Open{What: OpenFront})
		}
	}
	if e.Kind == NarrowV && !e.firstRowGiven {
		p.Open = append(p.Open, Open{What: OpenRow, Cylinder: e.Banks[0].Cylinders[0]})
	}
	return turn
}

func (p *Plan) moveToOrigin() {
	if len(p.Places) == 0 {
		return
	}
	minX, minY := math.Inf(1), math.Inf(1)
	maxX, maxY := math.Inf(-1), math.Inf(-1)
	for _, q := range p.Places {
		minX, maxX = min(minX, q.X), max(maxX, q.X)
		minY, maxY = min(minY, q.Y), max(maxY, q.Y)
	}
	for i := range p.Places {
		p.Places[i].X -= minX
		p.Places[i].Y -= minY
	}
	p.Width, p.Height = maxX-minX, maxY-minY
}
