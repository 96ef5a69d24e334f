package diag

import (
	"math"

	"gaugesheet/diag/air"
	"gaugesheet/diag/quantity"
)

// An atmosphere is the air at the test against the standard one at sea level.
// A nil ratio is not known.
type atmosphere struct {
	pressure *float64 // what limits from sea level are multiplied by
	density  *float64 // what most printed tables would multiply them by
}

// atmosphereOf takes the barometer at the place itself where it was read, and
// else the altitude. A gauge reading is p_atm (r^n - 1) and so follows the
// pressure; the density is given for comparison, by altitude alone.
func atmosphereOf(c Conditions) atmosphere {
	a := atmosphere{}
	if c.AltitudeM != nil {
		if p, err := air.PressureRatio(*c.AltitudeM); err == nil {
			a.pressure = &p
		}
		if d, err := air.DensityRatio(*c.AltitudeM); err == nil {
			a.density = &d
		}
	}
	if c.BarometerKPa != nil {
		if p, err := air.StationRatio(quantity.Value{Number: *c.BarometerKPa, Unit: quantity.KPa}); err == nil {
			a.pressure = &p
		}
	}
	return a
}

// expectedBand is the band of cranking pressures that the engine's geometry
// makes plausible, or, where the inlet's closing is not known, its ratio alone;
// nil where the ratio is not known, or where a variable valve timing, ports or a
// decompressor decide instead.
func expectedBand(t *Test, unit quantity.Unit) *Expected {
	s := t.Spec
	if s.VariableTiming == Yes || s.TwoStroke || s.Decompressor == decompressing || s.Ratio <= 0 {
		return nil
	}
	a := atmosphereOf(t.Conditions)
	local := air.StandardPressure
	if a.pressure != nil {
		local *= *a.pressure
	}
	absolute, ok := inUnit(local, quantity.KPa, unit)
	if !ok {
		return nil
	}
	expected := air.Expected
	if s.InletClosesDeg <= 0 {
		expected = air.ExpectedOfAny
	}
	band, err := expected(air.Geometry{
		Stroke: strokeMM(t), Rod: s.RodMM, InletCloses: s.InletClosesDeg, Ratio: s.Ratio,
	}, absolute)
	if err != nil {
		return nil
	}
	return &Expected{Low: band.Low, High: band.High, Working: band.Working, ByRatio: s.InletClosesDeg <= 0}
}

// strokeMM is the stroke as recorded, or from displacement and bore; 0 where
// it cannot be had.
func strokeMM(t *Test) float64 {
	s, n := t.Spec, len(t.cylinders())
	if s.StrokeMM > 0 || s.DisplacementML <= 0 || s.BoreMM <= 0 || n == 0 {
		return s.StrokeMM
	}
	return s.DisplacementML * 1000 / float64(n) / (math.Pi / 4 * s.BoreMM * s.BoreMM)
}
