package diag_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	. "gaugesheet/diag"
)

// Blank, zero, could not test and declined are four different things: each
// state that the job gives is listed, with its reason.
func TestPartsUntestedKeepTheirStatesAndReasons(t *testing.T) {
	e := inline(t, 4)
	hoseOff := Reading{State: CouldNot, Reason: "no hose"}
	keyOn := Reading{State: Tested, Values: []float64{41}}
	test := &Test{
		Engine: e,
		Compression: &Compression{State: Tested, Dry: map[string]Reading{
			"1": {State: Tested, Values: []float64{150}},
			"2": {State: CouldNot, Reason: "plug seized"},
			"3": {State: CouldNot, Reason: "plug seized"},
			"4": {State: Declined},
		}},
		Fuel:     &FuelPressure{State: Tested, Circuits: []Circuit{{KeyOn: &keyOn, HoseOff: &hoseOff}}},
		Untested: []Untested{{Test: "leakage", State: NotTested}},
	}
	want := []Untested{
		{Test: "leakage", State: NotTested},
		{Test: "compression", State: CouldNot, Reason: "plug seized", Cylinders: []string{"2", "3"}},
		{Test: "compression", State: Declined, Cylinders: []string{"4"}},
		{Test: "fuel pressure", State: CouldNot, Reason: "no hose", Reading: "hose-off"},
	}
	if diff := cmp.Diff(want, Assess(test).NotTested); diff != "" {
		t.Errorf("mismatch (-want +got):\n%s", diff)
	}
}
