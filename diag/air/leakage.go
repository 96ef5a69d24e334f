package air

import (
	"fmt"
	"math"
)

// LeakagePercent gives the loss of a leakage test in percent of the supply:
//
//	100 (supply - held) / supply
//
// (FAA AC 43.13-1B, chapter 8, para 8-14). Both pressures are gauge, in one
// unit. More held than supplied is an error: the figures are the wrong way
// round, or the gauges disagree.
func LeakagePercent(held, supply float64) (float64, error) {
	if !(supply > 0) || math.IsInf(supply, 0) {
		return 0, &InputError{"supply pressure", fmt.Sprint(supply), "more than 0"}
	}
	if !(held >= 0 && held <= supply) {
		return 0, &InputError{"pressure held", fmt.Sprint(held), fmt.Sprintf("0 to the supply's %v", supply)}
	}
	return 100 * (supply - held) / supply, nil
}
