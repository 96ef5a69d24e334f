package figure

// upright turns a single row of cylinders that lies across the page by a
// quarter, so that a box to write in goes beside each.
func upright(d EnginePlan) EnginePlan {
	if d.Ring || d.Rotary || len(d.Cylinders) < 2 || spanOf(d, true) > 0.05 {
		return d
	}
	turned := make([]Cylinder, len(d.Cylinders))
	for i, c := range d.Cylinders {
		c.X, c.Y = -c.Y, c.X
		turned[i] = c
	}
	d.Cylinders = turned
	d.Vehicle, d.Engine = turn(d.Vehicle), turn(d.Engine)
	return d
}

// turn is a direction after a quarter turn to the right.
func turn(d Direction) Direction {
	switch d {
	case Up:
		return Right
	case Right:
		return Down
	case Down:
		return Left
	case Left:
		return Up
	}
	return d
}
