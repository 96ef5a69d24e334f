package sheet_test

import (
	"strings"
	"testing"

	"gaugesheet/layout/face"
	"gaugesheet/layout/record"
	"gaugesheet/report/sheet"
)

// A negative number has a minus on the page, wherever it comes from, a range with
// its unit has a dash; a part number keeps its hyphen.
func TestMinus(t *testing.T) {
	const text = `job: {number: W-1}
vehicle: {description: type 12-3}
engine: {layout: V6, fuel: petrol, numbering: bank by bank, first-bank: left}
compression: {unit: psi, dry: [150, 155, 148, 138, 149, 151]}
crankcase: {unit: inH2O, ventilation: connected, readings: {idle: -1.0}, limits: {idle: -2 to -0.5}}
trims: {idle: {bank 1: {short: -4, long: -14}, bank 2: {short: 3, long: 12}}}
oil-pressure: {unit: psi, idle: {reading: 24, at: 650 rpm}, limits: {idle: 20-60}}
`
	j := readJob(t, "job.yaml", []byte(text))
	for _, kind := range []string{"customer", "workshop", "invoice", "pre-purchase"} {
		s, err := sheet.New(j, diagnosed(j), sheet.Options{Kind: kind, Paper: "letter", Version: "test"})
		if err != nil {
			t.Fatal(err)
		}
		rec := record.New(face.Metrics())
		s.Draw(rec)
		page := strings.Join(strings.Fields(pageText(rec)), " ")
		for _, want := range []string{"\u22121.0 inH2O", "\u22122 to \u22120.5", "\u22124 %", "\u221214 %", "20-60", "12-3"} {
			if !strings.Contains(page, want) {
				t.Errorf("%s: %q is not on the page", kind, want)
			}
		}
		for _, broken := range []string{" -1", " -4", " -2"} {
			if strings.Contains(page, broken) {
				t.Errorf("%s: a hyphen stands for a minus in %q", kind, broken)
			}
		}
	}
}
