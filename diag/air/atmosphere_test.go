package air

import (
	"errors"
	"math"
	"testing"

	"gaugesheet/diag/quantity"
)

func near(got, want, tolerance float64) bool { return math.Abs(got-want) <= tolerance }

// refused checks that err is an *InputError that says what it expected.
func refused(t *testing.T, what string, err error) {
	t.Helper()
	var input *InputError
	if !errors.As(err, &input) || input.Name == "" || input.Found == "" || input.Expected == "" {
		t.Errorf("%s: %v; want an *InputError", what, err)
	}
}

// Aeronautical Engineer's Data Book, table 3.5, and the U.S. Standard
// Atmosphere, 1976: ratios as printed, to four figures.
func TestStandardAtmosphere(t *testing.T) {
	for _, row := range []struct{ feet, pressure, density float64 }{
		{0, 1, 1},
		{500, .9821, .9855},
		{1000, .9644, .9711},
		{1500, .9470, .9568},
		{2000, .9298, .9428},
		{3000, .8962, .9151},
		{4000, .8637, .8881},
		{5000, .8320, .8617},
		{6000, .8014, .8359},
		{7000, .7716, .8106},
		{8000, .7428, .7860},
		{9000, .7148, .7620},
		{10000, .6877, .7385},
	} {
		metres := row.feet * 0.3048
		p, errP := PressureRatio(metres)
		d, errD := DensityRatio(metres)
		if errP != nil || errD != nil || !near(p, row.pressure, 7e-5) || !near(d, row.density, 7e-5) {
			t.Errorf("%v ft: %.5f %.5f (%v, %v), want %.4f %.4f", row.feet, p, d, errP, errD, row.pressure, row.density)
		}
	}
	for _, metres := range []float64{-1001, 11001, math.NaN(), math.Inf(1)} {
		_, err := PressureRatio(metres)
		refused(t, "PressureRatio", err)
		_, err = DensityRatio(metres)
		refused(t, "DensityRatio", err)
	}
}

func TestStationRatio(t *testing.T) {
	// U.S. Standard Atmosphere, 1976: 24.896 inHg is 5000 ft, p/p0 .8320.
	got, err := StationRatio(quantity.Value{Number: 24.896, Unit: quantity.InHg})
	if err != nil || !near(got, .8320, 7e-5) {
		t.Errorf("24.896 inHg: %v, %v, want .8320", got, err)
	}
	_, err = StationRatio(quantity.Value{Number: 251, Unit: quantity.InHg})
	refused(t, "251 inHg", err)
	if _, err := StationRatio(quantity.Value{Number: 4, Unit: quantity.Millilitre}); err == nil {
		t.Error("4 ml was taken for a pressure")
	}
}
