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

// A figure that somebody took and kept is none, wherever it was taken.
func TestReadNotToldIsListed(t *testing.T) {
	kept := Reading{State: NotTold}
	one := func(r Reading) map[string]Reading { return map[string]Reading{"1": read(150), "2": r} }
	test := &Test{
		Engine: inline(t, 2),
		Compression: &Compression{State: Tested, Dry: one(kept), First: one(kept), Again: one(kept), Wet: one(kept),
			Running: map[string]Running{"2": {Idle: &kept, Snap: &kept}}},
		Leakage: &Leakage{State: Tested, Dry: map[string]Leak{"1": lost(8), "2": {Reading: kept}}, Wet: map[string]Leak{"2": {Reading: kept}}},
		Fuel:    &FuelPressure{State: Tested, Circuits: []Circuit{{KeyOn: pressure(41), Hold: []HoldReading{{Minutes: 5, Reading: kept}}}}},
	}
	two := []string{"2"}
	want := []Untested{
		{Test: "compression", State: NotTold, Cylinders: two},
		{Test: "first stroke", State: NotTold, Cylinders: two},
		{Test: "compression again", State: NotTold, Cylinders: two},
		{Test: "wet test", State: NotTold, Cylinders: two},
		{Test: "running compression", State: NotTold, Cylinders: two},
		{Test: "leakage", State: NotTold, Cylinders: two},
		{Test: "wet leakage", State: NotTold, Cylinders: two},
		{Test: "fuel pressure", State: NotTold, Reading: "hold"},
	}
	if diff := cmp.Diff(want, Assess(test).NotTested); diff != "" {
		t.Errorf("mismatch (-want +got):\n%s", diff)
	}
	rotary := rotors(t, "kgf/cm2", []float64{7, 7, 7}, []float64{7, 7, 7})
	rotary.Rotors.Rotors[1].Faces[2] = kept
	if diff := cmp.Diff([]Untested{{Test: "rotor faces", State: NotTold, Cylinders: []string{"rear"}}}, Assess(rotary).NotTested); diff != "" {
		t.Errorf("rotors (-want +got):\n%s", diff)
	}
}
