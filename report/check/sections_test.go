package check

import (
	"bytes"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

const withFacts = `engine: {layout: inline-4, fuel: petrol}
compression: {unit: psi, dry: [160, "read, not told", 158, 161], limits: {standard: 170-190 psi}}
leakage: {dry: {1: {at: [crankcase, exhaust], most: crankcase}, 2: {loss: over 20 %, at: [exhaust]}}}
`

func TestSectionsOfTheNewerKeys(t *testing.T) {
	got := result(t, withFacts)
	for path, want := range map[string]any{
		"compression.standard":             map[string]any{"low": 170.0, "high": 190.0, "unit": "psi", "as_entered": "170-190 psi"},
		"compression.cylinders.1.state":    "read, not told",
		"leakage.state":                    "tested",
		"leakage.complete":                 false,
		"leakage.cylinders.0.state":        "tested",
		"leakage.cylinders.0.loss_percent": nil,
		"leakage.cylinders.0.at":           []any{"crankcase", "exhaust"},
		"leakage.cylinders.0.most":         "crankcase",
		"leakage.cylinders.1.loss_percent": 20.0,
		"leakage.cylinders.1.entered":      "over 20 %",
		"leakage.cylinders.1.most":         "",
		"job.leakage.dry.1.most":           "crankcase",
	} {
		if diff := cmp.Diff(want, at(t, got, path)); diff != "" {
			t.Errorf("%s (-want +got):\n%s", path, diff)
		}
	}
	found := false
	for _, u := range at(t, got, "not_tested").([]any) {
		u := u.(map[string]any)
		found = found || u["test"] == "compression" && u["state"] == "read, not told" && cmp.Equal(u["cylinders"], []any{"2"})
	}
	if !found {
		t.Errorf("not_tested %v", at(t, got, "not_tested"))
	}
	plain := result(t, "engine: {layout: single}\ncompression: {unit: psi, dry: {1: 120}}\n")
	if _, given := at(t, plain, "compression").(map[string]any)["standard"]; given {
		t.Error("a usual figure that the job does not give")
	}
}

func TestTextOfTheNewerKeys(t *testing.T) {
	var b bytes.Buffer
	j, d := read(t, withFacts)
	if err := Text(&b, j, d); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"usual by the book: 170-190 psi", "crankcase, exhaust", "compression 2: read, not told"} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("no '%s' in\n%s", want, b.String())
		}
	}
}

// TestTemperatureInItsOwnUnit: beside pressures, and in another unit than theirs.
func TestTemperatureInItsOwnUnit(t *testing.T) {
	j, d := read(t, "engine: {layout: inline-4, fuel: petrol, cooling: liquid}\ncooling: {cap: {rated: 15 psi}, thermostat: {rated: 180 F, open: 96 C}}\n")
	var out strings.Builder
	if err := Text(&out, j, d); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"180 F", "96 C", "15 psi"} {
		if !strings.Contains(strings.ReplaceAll(out.String(), "\u00a0", " "), want) {
			t.Errorf("%q is not said:\n%s", want, out.String())
		}
	}
}
