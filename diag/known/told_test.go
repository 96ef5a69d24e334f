package known_test

import (
	"strings"
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

// Smoke that is there since something was put right is there; smoke that was put right is not.
func TestSmokeTold(t *testing.T) {
	for text, want := range map[string]string{
		"smokes blue": known.BlueSmoke, "smokes blue since the valve seals were replaced": known.BlueSmoke, "still smokes blue, rings replaced": known.BlueSmoke,
		"smoked blue, smoke put right": "", "blue smoke: valve seals replaced": "", "smoke tester used, blue dye": "",
	} {
		if got := strings.Join(known.SmokeTold(text), ""); got != want {
			t.Errorf("%q tells of %q, want %q", text, got, want)
		}
	}
}
