package job

import (
	"strings"
	"testing"

	"gaugesheet/diag"
)

// TestWrittenTwice: what has a test of its own goes before what is noted beside
// another, and the two are said where they differ.
func TestWrittenTwice(t *testing.T) {
	const engine = "engine: {layout: inline-4, fuel: petrol}\ncompression: {unit: psi, dry: [150, 151, 149, 150]}\n"
	for _, tt := range []struct {
		name, job string
		what      string // of the notice, "" for none
		rpm       float64
	}{
		{"the speed twice", "conditions: {cranking: 250 rpm}\nstarting: {cranking: 180 rpm}\n", "conditions-cranking", 180},
		{"the speed twice, alike", "conditions: {cranking: 190 rpm}\nstarting: {cranking: 180 rpm}\n", "", 180},
		{"the speed in the test alone", "starting: {cranking: 180 rpm}\n", "", 180},
		{"the battery twice", "conditions: {cranking: 250 rpm, battery: {cranking: 11.1 V}}\nstarting: {battery: {cranking: 10.2 V}}\n", "conditions-battery", 250},
		{"the vacuum twice", "conditions: {cranking: 250 rpm}\nvacuum: {unit: inHg, idle: 15}\nfuel-pressure: {unit: psi, system: 'port, return line', key-on: 40, manifold-vacuum: 19 inHg}\n", "fuel-vacuum", 250},
		{"the vacuum twice, alike", "conditions: {cranking: 250 rpm}\nvacuum: {unit: inHg, idle: 18}\nfuel-pressure: {unit: psi, system: 'port, return line', key-on: 40, manifold-vacuum: 19 inHg}\n", "", 250},
	} {
		j := mustRead(t, engine+tt.job)
		what := ""
		for _, n := range j.Test().Noted {
			if n.Rule == "written-twice" {
				what, _ = n.Facts["what"].(string)
			}
		}
		if rpm := j.Test().Conditions.CrankingRPM; what != tt.what || rpm == nil || *rpm != tt.rpm {
			t.Errorf("%s: notice of %q, want %q; speed %v, want %v", tt.name, what, tt.what, rpm, tt.rpm)
		}
	}
}

// TestGasTestLongForm: the test for combustion gas as a word, or with how it was
// made.
func TestGasTestLongForm(t *testing.T) {
	for text, want := range map[string]diag.GasTest{
		"negative": {},
		"{result: negative, engine: hot, minutes: 5, fluid: green}": {Engine: "hot", Minutes: 5, Fluid: "green"},
		"{result: negative, engine: warm, minutes: 90 s}":           {Engine: "hot", Minutes: 1.5},
	} {
		j := mustRead(t, "engine: {layout: inline-4}\ncoolant-gas-test: "+text+"\ncompression: {unit: psi, dry: [150, 151, 149, 150]}\n")
		if j.Test().CoolantGas != "negative" || j.Test().GasTest != want {
			t.Errorf("%s: %q, %+v", text, j.Test().CoolantGas, j.Test().GasTest)
		}
	}
	_, problems := Read("job.yaml", []byte("engine: {layout: inline-4}\ncoolant-gas-test: {engine: hot}\ncompression: {unit: psi, dry: [150, 151, 149, 150]}\n"), nil)
	if len(problems) != 1 || !strings.Contains(problems[0].Message, "no result") {
		t.Errorf("a test without a result: %v", problems)
	}
}

// TestHeatRange: the number of the plugs beside the book's.
func TestHeatRange(t *testing.T) {
	j := mustRead(t, "engine: {layout: inline-4}\nplugs: {heat-range: {fitted: 6, book: 5, higher: hotter}, reach: same, looks: {all: white}}\n")
	if got := j.Test().Plugs; got.HeatRange != (diag.HeatRange{Fitted: 6, Book: 5, Higher: "hotter", Given: true}) || got.Reach != "same" {
		t.Errorf("%+v, reach %q", got.HeatRange, got.Reach)
	}
}
