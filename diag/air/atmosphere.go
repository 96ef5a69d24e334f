// Package air holds the physics of the air in an engine test: the standard
// atmosphere, the pressure that a sound cylinder should show on the starter,
// what hose and oil do to that reading, cylinder leakage, and the pressures
// around a fuel rail that follow the manifold's; it knows numbers, and nothing of
// tests or of what is wrong with an engine.
//
// Everything here says what is plausible. None of it is a limit.
package air

import (
	"fmt"
	"math"

	"gaugesheet/diag/quantity"
)

// StandardPressure is the sea-level pressure of the standard atmosphere in kPa
// (ISO 2533:1975; U.S. Standard Atmosphere, 1976).
const StandardPressure = 101.325

// Constants of the standard atmosphere up to 11 km, from the same documents.
const (
	standardTemperature = 288.15    // K
	lapseRate           = 0.0065    // K per m
	gravity             = 9.80665   // m/s2
	gasConstant         = 287.05287 // J/(kg K)

	lowestAltitude  = -1000 // m, below any road
	highestAltitude = 11000 // m, where the lapse rate changes
)

// InputError reports a figure that a formula cannot take.
type InputError struct {
	Name     string // what the figure is
	Found    string // with its unit
	Expected string
}

func (e *InputError) Error() string {
	return fmt.Sprintf("%s: found %s, expected %s", e.Name, e.Found, e.Expected)
}

// PressureRatio gives p/p0 of the standard atmosphere at a geopotential
// altitude in metres, -1000 to 11 000:
//
//	p/p0 = (1 - L h / T0) ^ (g / (R L)), the exponent being 5.25588
//
// (U.S. Standard Atmosphere, 1976; ISO 2533:1975). With ratio and exponent of
// compression fixed, the gauge reading is p_atm (r^n - 1): it follows this
// ratio and not the density, which many printed compression tables follow.
func PressureRatio(metres float64) (float64, error) {
	theta, err := temperatureRatio(metres)
	return math.Pow(theta, gravity/(gasConstant*lapseRate)), err
}

// DensityRatio gives rho/rho0 of the standard atmosphere at a geopotential
// altitude in metres, -1000 to 11 000: the same base as PressureRatio to the
// power 4.25588. It is there to show what the printed tables would say.
func DensityRatio(metres float64) (float64, error) {
	theta, err := temperatureRatio(metres)
	return math.Pow(theta, gravity/(gasConstant*lapseRate)-1), err
}

func temperatureRatio(metres float64) (float64, error) {
	if !(metres >= lowestAltitude && metres <= highestAltitude) {
		return math.NaN(), &InputError{"altitude", fmt.Sprintf("%v m", metres), "-1000 to 11 000 m"}
	}
	return 1 - lapseRate*metres/standardTemperature, nil
}

// StationRatio gives p/p0 from a barometer's station pressure: the absolute
// pressure at the place itself, not the sea-level figure of a weather report,
// which the altitude has been taken out of. It accepts 40 to 110 kPa (12 to
// 32 inHg).
func StationRatio(pressure quantity.Value) (float64, error) {
	kPa, err := pressure.In(quantity.KPa)
	if err != nil {
		return 0, err
	}
	if !(kPa >= 40 && kPa <= 110) {
		return 0, &InputError{"station pressure", fmt.Sprintf("%v %s", pressure.Number, pressure.Unit), "40 to 110 kPa (12 to 32 inHg) absolute"}
	}
	return kPa / StandardPressure, nil
}
