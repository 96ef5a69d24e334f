package known_test

import (
	"testing"

	"gaugesheet/diag/known"
	"gaugesheet/diag/rule/sample"
)

// TestCoolantSeenBelow: the line is quoted that tells of coolant, and none of what else drips.
func TestCoolantSeenBelow(t *testing.T) {
	const coolant = "Coolant drips off the foot of the liner of 5"
	for _, x := range []struct {
		findings []string
		want     string
	}{
		{[]string{"diesel drips into the oil pan from injector 2", coolant}, coolant},
		{[]string{coolant, "diesel drips into the oil pan from injector 2"}, coolant},
		{[]string{"diesel drips into the oil pan from injector 2", "coolant low"}, ""},
	} {
		if got := known.New(sample.Of("inline-6", sample.Diesel, sample.Found(x.findings...))).CoolantSeenBelow(); got != x.want {
			t.Errorf("%q: quoted %q, want %q", x.findings, got, x.want)
		}
	}
}

// Exhaust that people breathe is known by what is told of it; an engine that rattles is not one.
func TestTellsOfExhaust(t *testing.T) {
	for text, tells := range map[string]bool{
		"headaches in the cab": true, "driver felt ill": true, "co alarm went off": true, "carbon monoxide alarm sounded": true, "fumes in the cabin": true,
		"smell of exhaust inside the car": true, "runs in the cellar": true, "used in a closed shed, operated in a closed hall": true, "operator got a headache": true,
		"still rattles when cold": false, "will not hold its idle": false, "a hole in the piston": false,
	} {
		if known.TellsOfExhaust(text) != tells {
			t.Errorf("%q: tells of exhaust that people breathe: %t, want %t", text, !tells, tells)
		}
	}
}
