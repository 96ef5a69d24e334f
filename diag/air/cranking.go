package air

import (
	"fmt"
	"math"
)

// Exponents of compression at starter speed. The heat that the walls take
// keeps them under the 1.4 of dry air (general texts: 1.2 to 1.3).
const (
	lowExponent     = 1.20
	typicalExponent = 1.25
	highExponent    = 1.30
)

// typicalRodRatio is rod over stroke where one of them is not known: common
// practice, no source. Between 1.5 and 2.0 the effective stroke at 60 degrees
// differs by two percent.
const typicalRodRatio = 1.7

// Geometry is what the cranking pressure depends on.
type Geometry struct {
	Stroke, Rod float64 // mm, rod between centres; 0 where not known
	// InletCloses is in degrees of crank after bottom dead centre, at the
	// seat: 0 to under 180. Figures at a checking lift give too much pressure.
	InletCloses float64
	Ratio       float64 // compression ratio as published, more than 1 to 30
}

// PistonFromTDC gives the piston's distance from top dead centre in the unit
// of stroke and rod, at a crank angle in degrees from top dead centre:
//
//	x = a + l - (a cos t + sqrt(l^2 - a^2 sin^2 t)), a = stroke/2
//
// (Heywood, Internal Combustion Engine Fundamentals, eq. 2.5, from memory).
func PistonFromTDC(stroke, rod, degrees float64) (float64, error) {
	if !(stroke > 0) || math.IsInf(stroke, 0) {
		return 0, &InputError{"stroke", fmt.Sprint(stroke), "more than 0"}
	}
	if !(rod > stroke/2) || math.IsInf(rod, 0) {
		return 0, &InputError{"rod", fmt.Sprint(rod), fmt.Sprintf("more than half the stroke, %v", stroke/2)}
	}
	if math.IsNaN(degrees) || math.IsInf(degrees, 0) {
		return 0, &InputError{"crank angle", fmt.Sprint(degrees), "a number of degrees"}
	}
	a := stroke / 2
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	return a + rod - (a*cos + math.Sqrt(rod*rod-a*a*sin*sin)), nil
}

// EffectiveRatio gives the ratio of compression from the closing of the inlet:
//
//	r = 1 + e (R - 1), e = x/stroke at inlet closing
//
// Where stroke or rod is not known it takes a typical rod of 1.7 strokes.
func EffectiveRatio(g Geometry) (float64, error) {
	if !(g.Ratio > 1 && g.Ratio <= 30) {
		return 0, &InputError{"compression ratio", fmt.Sprint(g.Ratio), "more than 1, at most 30"}
	}
	if !(g.InletCloses >= 0 && g.InletCloses < 180) {
		return 0, &InputError{"inlet closing", fmt.Sprintf("%v deg after bottom dead centre", g.InletCloses), "0 to less than 180 deg"}
	}
	stroke, rod := g.Stroke, g.Rod
	if stroke < 0 || rod < 0 {
		return 0, &InputError{"stroke and rod", fmt.Sprintf("%v and %v mm", stroke, rod), "lengths of more than 0"}
	}
	if stroke == 0 || rod == 0 {
		stroke, rod = 1, typicalRodRatio
	}
	x, err := PistonFromTDC(stroke, rod, 180-g.InletCloses)
	if err != nil {
		return 0, err
	}
	return 1 + x/stroke*(g.Ratio-1), nil
}

// CrankingPressure gives the gauge pressure of polytropic compression, in the
// unit of the absolute atmosphere: atmosphere (r^n - 1).
func CrankingPressure(effectiveRatio, exponent, atmosphere float64) float64 {
	return atmosphere * (math.Pow(effectiveRatio, exponent) - 1)
}

// HoseShare gives what a gauge reads with a hose that adds to the chamber, as a
// part of what it would read without: the air fills chamber and hose alike. added
// is the hose's volume ahead of the check valve as a part of the chamber's.
//
//	r' = (r + a) / (1 + a)
func HoseShare(effectiveRatio, exponent, added float64) float64 {
	if !(effectiveRatio > 1) || !(added > 0) {
		return 1
	}
	with := (effectiveRatio + added) / (1 + added)
	return CrankingPressure(with, exponent, 1) / CrankingPressure(effectiveRatio, exponent, 1)
}

// Band is a range of plausible cranking pressures. It is never a limit.
type Band struct {
	Low, High      float64 // gauge, in the unit of the atmosphere given
	EffectiveRatio float64
	Working        Working
}

// Working is what a band was worked out from.
type Working struct {
	Ratio         float64
	ClosesLow     float64 // of the inlet, degrees after bottom dead centre
	ClosesHigh    float64 // more than ClosesLow where it is not known
	EffectiveLow  float64 // the ratio from the closing of the inlet
	EffectiveHigh float64
	ExponentLow   float64
	ExponentHigh  float64
	TypicalRod    float64 // in strokes, taken because rod or stroke is not known; 0 where it is
}

// Expected gives the cranking pressures that the geometry makes plausible, for
// exponents of 1.20 to 1.30. The atmosphere is absolute, in the unit wanted
// back. It has no meaning where the valve timing is variable: the caller must
// not ask then.
func Expected(g Geometry, atmosphere float64) (Band, error) {
	if !(atmosphere > 0) || math.IsInf(atmosphere, 0) {
		return Band{}, &InputError{"atmospheric pressure", fmt.Sprint(atmosphere), "more than 0, absolute"}
	}
	ratio, err := EffectiveRatio(g)
	if err != nil {
		return Band{}, err
	}
	w := Working{Ratio: g.Ratio, ClosesLow: g.InletCloses, ClosesHigh: g.InletCloses, EffectiveLow: ratio, EffectiveHigh: ratio,
		ExponentLow: lowExponent, ExponentHigh: highExponent}
	if g.Stroke == 0 || g.Rod == 0 {
		w.TypicalRod = typicalRodRatio
	}
	return Band{
		Low:            CrankingPressure(ratio, lowExponent, atmosphere),
		High:           CrankingPressure(ratio, highExponent, atmosphere),
		EffectiveRatio: ratio,
		Working:        w,
	}, nil
}

// The closings of the inlet that most engines lie between, in degrees after
// bottom dead centre: common practice, no source.
const (
	earlyClosing = 50
	lateClosing  = 70
)

// ExpectedOfAny is Expected where the inlet's closing is not known: the band
// reaches from the late one of usual closings to the early one. The closing in
// the geometry is not looked at.
func ExpectedOfAny(g Geometry, atmosphere float64) (Band, error) {
	g.InletCloses = lateClosing
	late, err := Expected(g, atmosphere)
	if err != nil {
		return Band{}, err
	}
	g.InletCloses = earlyClosing
	early, err := Expected(g, atmosphere)
	if err != nil {
		return Band{}, err
	}
	w := Working{Ratio: g.Ratio, ClosesLow: earlyClosing, ClosesHigh: lateClosing,
		EffectiveLow: late.EffectiveRatio, EffectiveHigh: early.EffectiveRatio, ExponentLow: lowExponent, ExponentHigh: highExponent}
	return Band{Low: late.Low, High: early.High, EffectiveRatio: (late.EffectiveRatio + early.EffectiveRatio) / 2, Working: w}, nil
}

// RatioShare gives the cranking pressure of one compression ratio as a part of
// that of another, by polytropic compression from bottom dead centre with an
// exponent of 1.25: (r^n - 1) / (s^n - 1). Both are more than 1.
func RatioShare(ratio, of float64) float64 {
	return CrankingPressure(ratio, typicalExponent, 1) / CrankingPressure(of, typicalExponent, 1)
}

// ClearanceVolume gives the volume of the chamber above the piston at top dead
// centre, in the unit of the displacement of one cylinder: V / (ratio - 1).
func ClearanceVolume(displacement, ratio float64) (float64, error) {
	if !(displacement > 0) || math.IsInf(displacement, 0) {
		return 0, &InputError{"displacement of one cylinder", fmt.Sprint(displacement), "more than 0"}
	}
	if !(ratio > 1 && ratio <= 30) {
		return 0, &InputError{"compression ratio", fmt.Sprint(ratio), "more than 1, at most 30"}
	}
	return displacement / (ratio - 1), nil
}
