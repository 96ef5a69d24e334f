// Package quantity reads, converts and prints numbers with units, as they are
// written at a test bench (pressures, volumes, lengths, temperatures and the few
// others that an engine test needs), and knows nothing of what was measured.
//
// A value keeps the unit in which it was entered. Nothing is converted until
// somebody asks, and no ambiguous spelling is guessed: it becomes an error
// that offers what may have been meant.
package quantity

import (
	"fmt"
	"math"
	"strings"
)

// Unit is a unit of measurement, spelled as it is printed. The empty Unit is
// that of a bare number.
type Unit string

// The units that Parse reads and Convert knows.
const (
	None Unit = ""

	PSI       Unit = "psi"
	KPa       Unit = "kPa"
	Bar       Unit = "bar"
	MPa       Unit = "MPa"
	KgfPerCm2 Unit = "kgf/cm2"
	InHg      Unit = "inHg"
	HPa       Unit = "hPa"
	InH2O     Unit = "inH2O"
	MmH2O     Unit = "mmH2O"
	MmHg      Unit = "mmHg"

	Millilitre   Unit = "ml"
	Litre        Unit = "L"
	USFluidOunce Unit = "US fl oz"
	USPint       Unit = "US pint"
	USQuart      Unit = "US quart"
	CubicInch    Unit = "cu in"

	Millimetre Unit = "mm"
	Centimetre Unit = "cm"
	Metre      Unit = "m"
	Kilometre  Unit = "km"
	Inch       Unit = "in"
	Foot       Unit = "ft"
	Mile       Unit = "mi"

	Celsius    Unit = "C"
	Fahrenheit Unit = "F"
	Kelvin     Unit = "K"

	RPM     Unit = "rpm"
	Second  Unit = "s"
	Minute  Unit = "min"
	Hour    Unit = "h"
	Degree  Unit = "deg"
	Percent Unit = "%"
	Volt    Unit = "V"
	Ampere  Unit = "A"
	Ohm     Unit = "ohm"

	MlPerMin     Unit = "ml/min"
	LPerMin      Unit = "L/min"
	M3PerHour    Unit = "m3/h"
	CuFtPerMin   Unit = "cu ft/min"
	PartsMillion Unit = "ppm"
	PerMetre     Unit = "per m"
)

// Dimension is the kind of quantity that a unit measures.
type Dimension string

// The dimensions of the units above.
const (
	Dimensionless Dimension = ""
	Pressure      Dimension = "pressure"
	Volume        Dimension = "volume"
	Length        Dimension = "length"
	Temperature   Dimension = "temperature"
	Rotation      Dimension = "speed of rotation"
	Time          Dimension = "time"
	Angle         Dimension = "angle"
	Ratio         Dimension = "percentage"
	Voltage       Dimension = "voltage"
	Current       Dimension = "electric current"
	Resistance    Dimension = "resistance"
	Flow          Dimension = "flow"
	Fraction      Dimension = "parts in a million"
	Absorption    Dimension = "light absorption"
)

// Factors that more than one entry below needs, exact by definition: NIST SP
// 811 (2008), appendix B.8.
const (
	poundForce   = 0.45359237 * 9.80665
	inch         = 0.0254
	psiInPascals = poundForce / (inch * inch)
	cubicInch    = 16.387064
	usGallon     = 231 * cubicInch
)

type definition struct {
	unit      Unit
	dimension Dimension
	// An amount in the dimension's base unit is (value + offset) * scale.
	// Bases: Pa, ml, mm, K, rpm, s, deg, %, V, A, ohm, ml/min, ppm, 1/m.
	scale, offset float64
	decimals      int
	// Further spellings, as normalised by foldSpelling.
	spellings []string
}

// The inch of mercury is the conventional one, 25.4 times 133.322387415 Pa;
// the values at 32 F and 60 F differ from it in the sixth and third figure. The
// conventional inch and millimetre of water are 249.0889 Pa and 9.80665 Pa (the
// same appendix); a cubic foot is 28 316.846592 ml.
var definitions = []definition{
	{PSI, Pressure, psiInPascals, 0, 0, []string{"psig", "psis", "lb/in2", "lbs/in2", "lbf/in2", "lbs/sqin", "lb/sqin", "lbf/sqin"}},
	{KPa, Pressure, 1e3, 0, 0, []string{"kilopascal", "kilopascals", "kpas"}},
	{Bar, Pressure, 1e5, 0, 1, []string{"bars", "barg"}},
	{MPa, Pressure, 1e6, 0, 2, []string{"n/mm2", "mn/m2", "megapascal", "megapascals"}},
	{KgfPerCm2, Pressure, 98066.5, 0, 1, []string{"kg/cm2", "kp/cm2", "ksc", "kgcm2"}},
	{InHg, Pressure, 3386.388640341, 0, 1, []string{"inchesofmercury", "incheshg", "inchhg", "inofhg", "inmercury"}},
	{HPa, Pressure, 100, 0, 0, []string{"mbar", "millibar"}},
	{InH2O, Pressure, 249.08891, 0, 1, []string{"inwc", "inh20", "inwg", "inchesofwater", "inofwater", "inwater", "inchesh2o", "incheswater", "inchh2o", "inchwater"}},
	{MmH2O, Pressure, 9.80665, 0, 0, []string{"mmwc", "mmh20", "mmwg", "mmwater", "mmofwater"}},
	{MmHg, Pressure, 133.322387415, 0, 0, nil},

	{Millilitre, Volume, 1, 0, 0, []string{"cc", "ccm", "cm3", "cubiccentimetres", "cubiccentimeters", "millilitre", "milliliter", "millilitres", "milliliters"}},
	{Litre, Volume, 1000, 0, 1, []string{"litre", "liter", "litres", "liters", "ltr", "ltrs"}},
	{USFluidOunce, Volume, usGallon / 128, 0, 0, []string{"floz", "oz", "ounce", "ounces"}},
	{USPint, Volume, usGallon / 8, 0, 1, []string{"pint", "pints", "pt"}},
	{USQuart, Volume, usGallon / 4, 0, 1, []string{"quart", "quarts", "qt"}},
	{CubicInch, Volume, cubicInch, 0, 0, []string{"in3", "ci", "cid", "cubicinch", "cubicinches", "cuins", "cubes", "cubicins"}},

	{Millimetre, Length, 1, 0, 1, nil},
	{Centimetre, Length, 10, 0, 1, nil},
	{Metre, Length, 1e3, 0, 0, []string{"metre", "meter", "metres", "meters"}},
	{Kilometre, Length, 1e6, 0, 0, []string{"kms", "kilometres", "kilometers", "kilometre", "kilometer"}},
	{Inch, Length, 25.4, 0, 3, []string{"inch", "inches"}},
	{Foot, Length, 304.8, 0, 0, []string{"foot", "feet", "'"}},
	{Mile, Length, 1609344, 0, 0, []string{"mile", "miles"}},

	{Celsius, Temperature, 1, 273.15, 0, []string{"degc", "degreesc", "degreec", "celsius", "centigrade", "degreescelsius"}},
	{Fahrenheit, Temperature, 5.0 / 9.0, 459.67, 0, []string{"degf", "degreesf", "degreef", "fahrenheit", "degreesfahrenheit"}},
	{Kelvin, Temperature, 1, 0, 0, nil},

	{RPM, Rotation, 1, 0, 0, []string{"r/min", "rev/min", "revs", "revs/min", "revsperminute", "u/min", "1/min", "tr/min"}},
	{Second, Time, 1, 0, 0, []string{"sec", "secs", "second", "seconds"}},
	{Minute, Time, 60, 0, 0, []string{"mins", "minute", "minutes"}},
	{Hour, Time, 3600, 0, 0, []string{"hr", "hrs", "hour", "hours"}},
	{Degree, Angle, 1, 0, 0, []string{"degree", "degrees"}},
	{Percent, Ratio, 1, 0, 0, []string{"percent", "pct", "percents"}},
	{Volt, Voltage, 1, 0, 1, []string{"volt", "volts", "vdc"}},
	{Ampere, Current, 1, 0, 0, []string{"amp", "amps", "ampere", "amperes"}},
	{Ohm, Resistance, 1, 0, 1, []string{"ohms", "ω"}},

	{MlPerMin, Flow, 1, 0, 0, []string{"cc/min", "cm3/min"}},
	{LPerMin, Flow, 1000, 0, 1, []string{"lpm"}},
	{M3PerHour, Flow, 1e6 / 60, 0, 1, nil},
	{CuFtPerMin, Flow, 28316.846592, 0, 1, []string{"cfm", "ft3/min"}},
	{PartsMillion, Fraction, 1, 0, 0, nil},
	{PerMetre, Absorption, 1, 0, 2, []string{"1/m", "/m", "m-1"}},
}

var (
	byUnit     = make(map[Unit]definition)
	bySpelling = make(map[string]Unit)
)

func init() {
	for _, d := range definitions {
		byUnit[d.unit] = d
		bySpelling[foldSpelling(string(d.unit))] = d.unit
		for _, s := range d.spellings {
			bySpelling[s] = d.unit
		}
	}
}

var spellingFolder = strings.NewReplacer(
	" ", "", ".", "", "^", "", "²", "2", "³", "3", "°", "deg", "º", "deg", `"`, "in", "″", "in")

// foldSpelling reduces the ways of writing one unit to one: case, spaces and
// points do not matter, raised figures and the degree sign are spelled out.
func foldSpelling(s string) string {
	return strings.ToLower(spellingFolder.Replace(s))
}

// DimensionOf tells what a unit measures; Dimensionless for the empty and for
// an unknown unit.
func DimensionOf(u Unit) Dimension { return byUnit[u].dimension }

// ConversionError reports a conversion that has no meaning.
type ConversionError struct {
	Value    float64
	From, To Unit
	Reason   string
}

func (e *ConversionError) Error() string {
	return fmt.Sprintf("cannot convert %v %s to %s: %s", e.Value, e.From, e.To, e.Reason)
}

// Convert expresses v, given in from, in to. Factors are exact by definition
// as in NIST SP 811 (2008), appendix B.8, with the conventional inch of
// mercury (3386.388640341 Pa). Temperatures are points on the scale, not
// differences. It fails for units of different dimensions, unknown units, and
// numbers that are not finite.
func Convert(v float64, from, to Unit) (float64, error) {
	fail := func(reason string) (float64, error) {
		return 0, &ConversionError{Value: v, From: from, To: to, Reason: reason}
	}
	if !finite(v) {
		return fail("not a finite number")
	}
	if from == to {
		return v, nil
	}
	a, knownFrom := byUnit[from]
	b, knownTo := byUnit[to]
	switch {
	case !knownFrom || !knownTo:
		return fail("unknown unit")
	case a.dimension != b.dimension:
		return fail(fmt.Sprintf("found a %s, expected a %s", a.dimension, b.dimension))
	}
	out := (v+a.offset)*a.scale/b.scale - b.offset
	if !finite(out) {
		return fail("the result is too large")
	}
	return out, nil
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
