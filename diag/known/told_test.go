package known_test

import (
	"slices"
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

// TestExhaustWords: each text that tells of exhaust that people breathe has one of the words
// that a schema looks for; an engine that rattles, and will not hold its idle, has none.
func TestExhaustWords(t *testing.T) {
	has := func(text string) bool {
		return slices.ContainsFunc(known.ExhaustWords(), func(word string) bool { return strings.Contains(text, word) })
	}
	for _, text := range []string{
		"headaches in the cab", "driver felt ill", "co alarm went off", "carbon monoxide alarm sounded", "fumes in the cabin",
		"smell of exhaust inside the car", "runs in the cellar", "used in a closed shed, operated in a closed hall", "operator got a headache",
	} {
		if !known.TellsOfExhaust(text) {
			t.Errorf("%q: tells of no exhaust that people breathe", text)
		}
		if !has(text) {
			t.Errorf("%q: has none of the words", text)
		}
	}
	for _, text := range []string{"still rattles when cold", "will not hold its idle", "a hole in the piston"} {
		if has(text) {
			t.Errorf("%q: has one of the words", text)
		}
	}
}
