package sheet_test

import (
	"strings"
	"testing"
)

// A book that several limits are from is named once where their sources are listed, with
// each of its pages.
func TestBooksAreNamedOnce(t *testing.T) {
	const text = `job: {number: W-1}
engine: {layout: inline-4, fuel: petrol}
compression: {unit: psi, dry: [150, 155, 148, 149]}
crankcase: {unit: inH2O, ventilation: blocked, readings: {idle: 1.0}, limits: {idle: at most 2, source: "works book, p. 61"}}
oil-pressure: {unit: psi, idle: {reading: 24, at: 650 rpm}, limits: {idle: 20-60, source: "works book, p. 12"}}
`
	page := pageText(drawn(t, readJob(t, "job", []byte(text)), "pre-purchase", "letter"))
	if n := strings.Count(page, "works book"); n != 1 {
		t.Errorf("the book is named %d times, expected once", n)
	}
	if plain := squeezed(page); !strings.Contains(plain, squeezed("p. 12, 61")) && !strings.Contains(plain, squeezed("p. 61, 12")) {
		t.Errorf("the pages of the book are not both there: %s", page)
	}
}
