package air

import (
	"math"
	"testing"

	"gaugesheet/diag/quantity"
)

func TestLeakagePercent(t *testing.T) {
	// FAA AC 43.13-1B, chapter 8, para 8-14: the difference of the gauges at
	// 80 psi, suspect in excess of 25 percent; 60/80 is exactly that.
	for _, tt := range []struct{ held, supply, want float64 }{
		{80, 80, 0}, {78, 80, 2.5}, {72, 80, 10}, {64, 80, 20}, {60, 80, 25}, {59, 80, 26.25}, {85, 100, 15}, {0, 80, 100},
	} {
		if got, err := LeakagePercent(tt.held, tt.supply); err != nil || got != tt.want {
			t.Errorf("%v/%v: %v, %v, want %v", tt.held, tt.supply, got, err, tt.want)
		}
	}
	for _, bad := range [][2]float64{{81, 80}, {-1, 80}, {0, 0}, {60, math.NaN()}, {math.NaN(), 80}} {
		_, err := LeakagePercent(bad[0], bad[1])
		refused(t, "LeakagePercent", err)
	}
}

func TestInjectorFlowPercent(t *testing.T) {
	// Common practice, no source: half as much again gives 22.5 percent more,
	// 30 percent less gives about 16 less, double gives 1.41 times.
	for _, tt := range []struct{ actual, wanted, want float64 }{
		{150, 100, 122.474}, {70, 100, 83.666}, {2, 1, 141.421}, {58.0, 43.5, 115.470}, {0, 40, 0},
	} {
		if got, err := InjectorFlowPercent(tt.actual, tt.wanted); err != nil || !near(got, tt.want, 1e-3) {
			t.Errorf("%v of %v: %v, %v, want %v", tt.actual, tt.wanted, got, err, tt.want)
		}
	}
	for _, bad := range [][2]float64{{40, 0}, {-1, 40}, {math.NaN(), 40}, {40, math.Inf(1)}} {
		_, err := InjectorFlowPercent(bad[0], bad[1])
		refused(t, "InjectorFlowPercent", err)
	}
}

func TestRegulatorRise(t *testing.T) {
	// NIST SP 811, appendix B.8: 1 inHg = 3.386389 kPa, 1 psi = 6.894757 kPa.
	for _, tt := range []struct {
		inHg, psi, kPa float64
	}{
		{10, 4.91, 33.86}, {14, 6.88, 47.41}, {18, 8.84, 60.95}, {20, 9.82, 67.73}, {21, 10.31, 71.11},
	} {
		vacuum := quantity.Value{Number: tt.inHg, Unit: quantity.InHg}
		psi, errPSI := RegulatorRise(vacuum, quantity.PSI)
		kPa, errKPa := RegulatorRise(vacuum, quantity.KPa)
		if errPSI != nil || errKPa != nil || !near(psi, tt.psi, 5.1e-3) || !near(kPa, tt.kPa, 5.1e-3) {
			t.Errorf("%v inHg: %v psi, %v kPa (%v, %v)", tt.inHg, psi, kPa, errPSI, errKPa)
		}
	}
	_, err := RegulatorRise(quantity.Value{Number: -18, Unit: quantity.InHg}, quantity.PSI)
	refused(t, "negative vacuum", err)
	if _, err := RegulatorRise(quantity.Value{Number: 18, Unit: quantity.InHg}, quantity.Volt); err == nil {
		t.Error("a rise in volts gave no error")
	}
}
