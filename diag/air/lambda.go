package air

import (
	"fmt"
	"math"
)

// An ExhaustGas is the dry gas of a petrol engine's exhaust: parts of its volume
// in percent, hydrocarbons in parts in a million as hexane.
type ExhaustGas struct {
	CO, CO2, O2 float64 // percent
	HC          float64 // ppm hexane
}

// Constants of the formula for petrol: hydrogen and oxygen to carbon in the
// fuel, and the factor that makes hydrocarbons as hexane percent of carbon
// (OIML R 99 / ISO 3930, from memory).
const (
	hydrogenToCarbon = 1.7261
	oxygenToCarbon   = 0.0176
	hexaneToCarbon   = 6e-4
)

// Bounds within which a lambda from the gases says something: a sample with
// less carbon is thinned by air (40 CFR 85.2213 (a)(3): void under 6 %), and
// with more hydrocarbons the infrared reading of them is too far off (judgement,
// no source).
const (
	LeastCarbon     = 6.0    // percent CO and CO2 together
	MostHydrocarbon = 2000.0 // ppm
)

// Lambda gives the air that was there over the air that the fuel needed, from
// the gases of its exhaust (Brettschneider 1979; as in OIML R 99 / ISO 3930),
// nitrogen oxides left out. A sample that was thinned, or has too many
// hydrocarbons, is an error.
func Lambda(g ExhaustGas) (float64, error) {
	for name, v := range map[string]float64{"CO": g.CO, "CO2": g.CO2, "O2": g.O2, "HC": g.HC} {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return 0, &InputError{name, fmt.Sprint(v), "a number"}
		}
	}
	carbon := g.CO2 + g.CO
	switch {
	case carbon < LeastCarbon || g.CO2 <= 0:
		return 0, &InputError{"CO and CO2 together", fmt.Sprintf("%.4g %%", carbon), fmt.Sprintf("at least %v %%", LeastCarbon)}
	case g.HC > MostHydrocarbon || g.HC < 0:
		return 0, &InputError{"HC", fmt.Sprintf("%.4g ppm", g.HC), fmt.Sprintf("0 to %v ppm", MostHydrocarbon)}
	}
	water := hydrogenToCarbon / 4 * 3.5 / (3.5 + g.CO/g.CO2)
	had := g.CO2 + g.CO/2 + g.O2 + (water-oxygenToCarbon/2)*carbon
	needed := (1 + hydrogenToCarbon/4 - oxygenToCarbon/2) * (carbon + hexaneToCarbon*g.HC)
	return had / needed, nil
}
