package rule

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"gaugesheet/diag"
	"gaugesheet/diag/rule/sample"
)

// TestFuelPressureLow follows what closing the return tells: pressure that
// climbs clears the pump, pressure that does not clears the regulator (common
// practice, no source).
func TestFuelPressureLow(t *testing.T) {
	limits := []diag.FuelLimit{sample.Range("key-on", 38, 44)}
	tests := []struct {
		name       string
		circuit    diag.Circuit
		system     string
		urgency    diag.Urgency
		confidence diag.Confidence
		causes     []string
	}{
		{"clear", diag.Circuit{KeyOn: sample.PSI(31), Limits: limits}, "port, return line", diag.ActSoon, diag.Fair, []string{"fuel-filter", "pump", "regulator-open"}},
		{"too close", diag.Circuit{KeyOn: sample.PSI(37.5), Limits: limits}, "port, return line", diag.CheckAgain, diag.Weak, []string{"fuel-filter", "pump", "regulator-open"}},
		{"no return", diag.Circuit{KeyOn: sample.PSI(31), Limits: limits}, "port, no return", diag.ActSoon, diag.Fair, []string{"fuel-filter", "pump", "pump-voltage"}},
		{"climbs", diag.Circuit{KeyOn: sample.PSI(31), ReturnPinched: sample.PSI(75), Limits: limits}, "port, return line", diag.ActSoon, diag.Fair, []string{"regulator-open"}},
		{"does not climb", diag.Circuit{KeyOn: sample.PSI(31), ReturnPinched: sample.PSI(33), Limits: limits}, "port, return line", diag.ActSoon, diag.Fair, []string{"fuel-filter", "pump", "pump-voltage"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			f := of(Diagnose(sample.Of("inline-4", sample.Fuel(tt.system, tt.circuit))), "fuel-pressure-low")
			if f == nil {
				t.Fatal("did not fire")
			}
			if diff := cmp.Diff(tt.causes, keys(f.Causes)); f.Urgency != tt.urgency || f.Confidence != tt.confidence || diff != "" {
				t.Errorf("%s, %s; want %s, %s; causes (-want +got):\n%s", f.Urgency, f.Confidence, tt.urgency, tt.confidence, diff)
			}
		})
	}
}

// TestRichButLow asks that low pressure is never named as the cause of a rich
// mixture, and that what the readings rule out leaves the list.
func TestRichButLow(t *testing.T) {
	limits := []diag.FuelLimit{sample.Range("key-on", 38, 44), {For: "hold", Low: 25, High: 1e9, Minutes: 5}}
	tests := []struct {
		name    string
		circuit diag.Circuit
		causes  []string
	}{
		{"nothing else known", diag.Circuit{}, []string{"regulator-diaphragm", "leaking-injector", "purge-valve"}},
		{"fuel in the hose", diag.Circuit{FuelInHose: "yes"}, []string{"regulator-diaphragm"}},
		{"hose dry", diag.Circuit{FuelInHose: "no"}, []string{"leaking-injector", "purge-valve", "fuel-in-oil"}},
		{"hose dry, pressure held", diag.Circuit{FuelInHose: "no", Hold: []diag.HoldReading{sample.Held(5, 31)}}, []string{"purge-valve", "fuel-in-oil", "temperature-signal"}},
		{"pressure not held", diag.Circuit{FuelInHose: "no", Hold: []diag.HoldReading{sample.Held(5, 12)}}, []string{"leaking-injector", "purge-valve", "fuel-in-oil"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			tt.circuit.KeyOn, tt.circuit.Limits = sample.PSI(31), limits
			f := of(Diagnose(sample.Of("inline-4", sample.Complains("rich running"), sample.Fuel("port, return line", tt.circuit))), "rich-but-pressure-low")
			if f == nil {
				t.Fatal("did not fire")
			}
			if diff := cmp.Diff(tt.causes, keys(f.Causes)); diff != "" {
				t.Errorf("causes (-want +got):\n%s", diff)
			}
		})
	}
}

// TestUnitsOfFuel asks that a test in kPa is judged as the same test in psi.
func TestUnitsOfFuel(t *testing.T) {
	for _, off := range []struct {
		psi  float64
		want string
	}{{43, "regulator-responds"}, {36.4, "regulator-no-response"}} {
		test := sample.Of("inline-4", sample.Fuel("port, return line", diag.Circuit{Idle: sample.PSI(36 * 6.894757), HoseOff: sample.PSI(off.psi * 6.894757)}))
		test.Fuel.Unit, test.Gauges.Fuel.High, test.Gauges.Fuel.Division = "kPa", 700, 5
		if d := Diagnose(test); of(d, off.want) == nil {
			t.Errorf("%v psi in kPa: %s did not fire; found %v", off.psi, off.want, found(d))
		}
	}
}
