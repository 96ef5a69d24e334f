package air

import (
	"math"
	"testing"
)

const standardPSI = 14.6959487755

// TestHoseShare: a hose of 4 ml ahead of the check valve, inlet closing 60 degrees
// after bottom dead centre; the shares are worked out by hand from volumes
// (250 ml, ratio 12.5: chamber 21.7 ml, effective ratio 10.3, with the hose 8.8).
func TestHoseShare(t *testing.T) {
	for _, x := range []struct{ cylinder, ratio, low, high float64 }{{500, 9.5, 0.91, 0.94}, {400, 10, 0.88, 0.92}, {250, 12.5, 0.80, 0.84}, {150, 12, 0.72, 0.77}} {
		r, err := EffectiveRatio(Geometry{InletCloses: 60, Ratio: x.ratio})
		if err != nil {
			t.Fatal(err)
		}
		if got := HoseShare(r, typicalExponent, 4/(x.cylinder/(x.ratio-1))); got < x.low || got > x.high {
			t.Errorf("%v ml at %v:1: got %.3f, want %v to %v", x.cylinder, x.ratio, got, x.low, x.high)
		}
	}
	if HoseShare(8, 1.25, 0) != 1 || HoseShare(1, 1.25, 0.1) != 1 {
		t.Error("no hose, or no compression, changes nothing")
	}
}

func TestPistonFromTDC(t *testing.T) {
	for _, tt := range []struct {
		source                     string
		stroke, rod, degrees, want float64
	}{
		// Pulkrabek, Engineering Fundamentals of the Internal Combustion
		// Engine, example 2-1, from memory: 0.3247 cm at 20 degrees.
		{"3.0 L square V6, rod 166 mm", 86.0, 166, 20, 3.247},
		// The same problem in its 3.1 L form; result worked out by hand.
		{"3.1 L square V6, rod 172 mm", 86.97, 172, 20, 3.267},
		{"bottom dead centre is a full stroke away", 90, 150, 180, 90},
		{"top dead centre", 90, 150, 0, 0},
	} {
		got, err := PistonFromTDC(tt.stroke, tt.rod, tt.degrees)
		if err != nil || !near(got, tt.want, 2e-3) {
			t.Errorf("%s: %v, %v, want %v", tt.source, got, err, tt.want)
		}
	}
	for _, bad := range [][3]float64{{0, 150, 20}, {-90, 150, 20}, {90, 45, 20}, {90, math.NaN(), 20}, {90, 150, math.Inf(1)}, {math.Inf(1), math.Inf(1), 0}} {
		_, err := PistonFromTDC(bad[0], bad[1], bad[2])
		refused(t, "PistonFromTDC", err)
	}
}

// Worked examples of polytropic compression: absolute outlet pressure from
// absolute inlet pressure, ratio and exponent.
func TestCompressionWorkedExamples(t *testing.T) {
	for _, tt := range []struct {
		source                            string
		inlet, ratio, exponent, want, tol float64
	}{
		{"encyclopaedia text on compression ratio: effective 7.5, n 1.3, 14.7 psi gives 201.8 psia", 14.7, 7.5, 1.3, 201.8, 0.05},
		{"Cengel and Boles, Otto cycle with polytropic compression, result recomputed", 100, 10, 1.3, 1995.26, 0.01},
		{"ME410, example of day 15, result recomputed", 101.3, 22, 1.4, 7674, 0.6},
		{"Pulkrabek, example 3-1, from memory", 100, 8.6, 1.35, 1826, 0.6},
	} {
		got := CrankingPressure(tt.ratio, tt.exponent, tt.inlet) + tt.inlet
		if !near(got, tt.want, tt.tol) {
			t.Errorf("%s: %.2f, want %v", tt.source, got, tt.want)
		}
	}
}

// No published example was found that goes from inlet closing to pressure;
// these were worked out apart from this code, from the formulas in the doc
// comments.
func TestExpected(t *testing.T) {
	for _, tt := range []struct {
		g                Geometry
		ratio, low, high float64
	}{
		{Geometry{90, 150, 60, 10}, 8.26509, 170.61, 214.19},
		{Geometry{88.392, 144.78, 60, 9}, 7.46619, 149.33, 185.86},
		{Geometry{84, 140, 50, 10.5}, 9.22702, 196.79, 249.41},
		{Geometry{86, 145, 40, 11}, 10.13938, 222.12, 283.85},
		{Geometry{90, 150, 0, 10}, 10, 218.22, 278.53},
	} {
		got, err := Expected(tt.g, standardPSI)
		if err != nil || !near(got.EffectiveRatio, tt.ratio, 1e-5) || !near(got.Low, tt.low, 0.01) || !near(got.High, tt.high, 0.01) {
			t.Errorf("%+v: %+v, %v", tt.g, got, err)
		}
		if got.Working.TypicalRod != 0 {
			t.Errorf("%+v: %+v takes a typical rod", tt.g, got.Working)
		}
	}
}

func TestExpectedWithTypicalRod(t *testing.T) {
	want, err := Expected(Geometry{Stroke: 100, Rod: 170, InletCloses: 60, Ratio: 9.5}, standardPSI)
	if err != nil {
		t.Fatal(err)
	}
	for _, g := range []Geometry{
		{InletCloses: 60, Ratio: 9.5},
		{Stroke: 84, InletCloses: 60, Ratio: 9.5},
		{Rod: 150, InletCloses: 60, Ratio: 9.5},
	} {
		got, err := Expected(g, standardPSI)
		if err != nil || !near(got.Low, want.Low, 1e-9) || got.Working.TypicalRod != 1.7 {
			t.Errorf("%+v: %+v, %v", g, got, err)
		}
	}
}

// Gauge pressure follows the atmosphere: 120 psi at sea level is about 100 at
// 5000 ft (common practice; 120 x .8320 = 99.8).
func TestExpectedFollowsAtmosphere(t *testing.T) {
	ratio, err := PressureRatio(1524)
	if err != nil {
		t.Fatal(err)
	}
	sea := CrankingPressure(6, 1.25, standardPSI)
	here := CrankingPressure(6, 1.25, standardPSI*ratio)
	if !near(120*here/sea, 99.8, 0.1) {
		t.Errorf("120 psi becomes %.2f at 5000 ft, want 99.8", 120*here/sea)
	}
}

func TestExpectedRefuses(t *testing.T) {
	for _, g := range []Geometry{
		{90, 150, 60, 1},
		{90, 150, 60, 31},
		{90, 150, 60, math.NaN()},
		{90, 150, 180, 10},
		{90, 150, -1, 10},
		{90, 150, math.NaN(), 10},
		{90, 45, 60, 10},
		{-90, 150, 60, 10},
		{0, -150, 60, 10},
		{90, math.NaN(), 60, 10},
	} {
		_, err := Expected(g, standardPSI)
		refused(t, "Expected", err)
	}
	for _, atmosphere := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		_, err := Expected(Geometry{90, 150, 60, 10}, atmosphere)
		refused(t, "Expected", err)
	}
}

func TestClearanceVolume(t *testing.T) {
	// Pulkrabek, example 2-1, from memory: 3.0 L V6, ratio 9.5, 58.8 cm3.
	got, err := ClearanceVolume(500, 9.5)
	if err != nil || !near(got, 58.8, 0.05) {
		t.Errorf("got %v, %v, want 58.8", got, err)
	}
	_, err = ClearanceVolume(0, 9.5)
	refused(t, "no displacement", err)
	_, err = ClearanceVolume(500, 1)
	refused(t, "ratio 1", err)
}

// TestRatioShare: (6^1.25 - 1) / (8^1.25 - 1) = 8.3905 / 12.4543 = .6737, worked
// out apart from this program.
func TestRatioShare(t *testing.T) {
	for _, row := range []struct{ ratio, of, want float64 }{{6, 8, 0.6737}, {8, 8, 1}, {7, 8, 0.8339}} {
		if got := RatioShare(row.ratio, row.of); math.Abs(got-row.want) > 0.0005 {
			t.Errorf("%v of %v: %.4f, want %.4f", row.ratio, row.of, got, row.want)
		}
	}
}
