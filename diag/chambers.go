package diag

import "gaugesheet/diag/engine"

// Chambers is what one speaks of on an engine: its cylinders, its only one, or its rotors.
type Chambers int

// The kinds of chambers.
const (
	OfCylinders Chambers = iota
	OfOneCylinder
	OfRotors
	chambers
)

// KindsOfChambers is how many kinds there are.
const KindsOfChambers = int(chambers)

// ChambersOf is what one speaks of on an engine.
func ChambersOf(e *engine.Engine) Chambers {
	switch {
	case e == nil:
		return OfCylinders
	case e.Kind == engine.Rotary:
		return OfRotors
	case len(e.Cylinders) == 1:
		return OfOneCylinder
	}
	return OfCylinders
}
