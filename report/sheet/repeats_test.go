package sheet_test

import (
	"strings"
	"testing"
)

// What the head has, and what a story quotes of the technician, stands nowhere else.
func TestNothingOfTheShopsStandsTwice(t *testing.T) {
	const job = `
job: {number: HM-77104, date: 2026-05-14, technician: A. Lindqvist, complaints: [misfire]}
engine: {layout: inline-6, fuel: petrol}
leakage: {dry: {1: 7 % lost, 2: 8 % lost, 3: 9 % lost, 4: 7 % lost, 5: 8 % lost, 6: 6 % lost}}
findings: [left magneto drops 160 rpm and runs rough]
`
	for _, kind := range []string{"customer", "invoice", "pre-purchase", "workshop"} {
		for _, said := range []string{"HM-77104", "left magneto drops 160 rpm"} {
			page := squeezed(pageText(drawn(t, readJob(t, "job", []byte(job)), kind, "letter")))
			if n := strings.Count(page, squeezed(said)); n != 1 {
				t.Errorf("%s: %q stands %d times, expected once", kind, said, n)
			}
		}
	}
}

// A test that was made of no cylinder says of each why, where the reasons differ.
func TestReasonsNameTheirCylinders(t *testing.T) {
	const job = `
job: {number: "1", complaints: [no start]}
engine: {layout: inline-4, fuel: petrol}
plugs: {looks: {1: normal}}
compression: {unit: psi, dry: {1: not tested, 2: declined, 3: declined, 4: could not test (plug seized)}}
`
	for kind := range smallestType {
		if kind != "customer" && kind != "invoice" { // the others have tables, or boxes
			continue
		}
		page := squeezed(pageText(drawn(t, readJob(t, "job", []byte(job)), kind, "letter")))
		for _, said := range []string{"2 and 3 declined", "4 could not test (plug seized)"} {
			if !strings.Contains(page, squeezed(said)) {
				t.Errorf("%s does not say %q", kind, said)
			}
		}
	}
}
