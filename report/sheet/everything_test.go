package sheet_test

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"gaugesheet/templates"
)

// degrees has temperatures without their sign, as words have them before they stand
// on a page.
var degrees = strings.NewReplacer("°F", "F", "°C", "C")

// A job with every test is one page: every sheet names each story, and the
// workshop sheet has the reasons of each, and each reading of the further tests too.
func TestEveryTestOnOnePage(t *testing.T) {
	for i, engine := range []string{"v8", "v12", "wrong-v12", "radial-9"} {
		if testing.Short() && i%2 == 0 { // the others have as much to say
			continue
		}
		data, err := os.ReadFile("testdata/every-test-" + engine + ".yaml")
		if err != nil {
			t.Fatal(err)
		}
		j := readJob(t, engine, data)
		for kind := range smallestType {
			for _, paper := range papersOf(engine)[:min(2, len(papersOf(engine)))] {
				t.Run(engine+"/"+kind+"/"+paper, func(t *testing.T) {
					rec := drawn(t, j, kind, paper)
					checkPage(t, rec, kind, paper)
					page := squeezed(pageText(rec))
					if full := engine == "wrong-v12" && kind == "pre-purchase"; !full && strings.Contains(page, squeezed("more findings,")) {
						t.Error("findings are left out")
					}
					if kind != "workshop" {
						return
					}
					if strings.Contains(page, squeezed("other lines of readings")) {
						t.Error("readings are left out")
					}
					if engine != "wrong-v12" && strings.Contains(page, squeezed("the reasons")) {
						t.Error("reasons are left out")
					}
					for _, st := range diagnosed(j).Stories {
						said, err := words(t).Story(st, templates.Workshop)
						if err != nil {
							t.Fatal(err)
						}
						if !strings.Contains(degrees.Replace(page), strings.TrimRight(squeezed(said.Says), ".:;")) {
							t.Errorf("%q is not named", said.Says)
						}
					}
				})
			}
		}
	}
}

// A page that is full takes two tests more: what has no room is counted on it.
func TestTwoTestsMoreThanFit(t *testing.T) {
	data, err := os.ReadFile("testdata/every-test-v12.yaml")
	if err != nil {
		t.Fatal(err)
	}
	heads := "{unit: F, magneto: left, 1: 331"
	for i := 2; i <= 12; i++ {
		heads += fmt.Sprintf(", %d: %d", i, 320+i)
	}
	j := readJob(t, "v12 and magnetos", append(data, "magnetos: {at: 1800 rpm, left: 240, right: 60, limits: {drop: 150, difference: 50, source: handbook}}\nheads: "+heads+"}\n"...))
	for kind := range smallestType {
		rec := drawn(t, j, kind, "letter")
		checkPage(t, rec, kind, "letter")
		page := squeezed(pageText(rec))
		if kind != "workshop" {
			continue
		}
		if !strings.Contains(page, squeezed("left drops 240 rpm")) && !strings.Contains(page, squeezed("other lines of readings")) {
			t.Error("readings are left out, and nothing says so")
		}
		if !strings.Contains(page, squeezed("Magnetos: left 240 rpm")) {
			t.Error("the finding on the magnetos is left out")
		}
	}
}
