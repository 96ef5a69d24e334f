package sheet_test

import (
	"os"
	"strings"
	"testing"

	"gaugesheet/templates"
)

// A job with every test is one page: every sheet names each story, and the
// workshop sheet has each reading of the further tests too.
func TestEveryTestOnOnePage(t *testing.T) {
	for _, engine := range []string{"v8", "v12"} {
		data, err := os.ReadFile("testdata/every-test-" + engine + ".yaml")
		if err != nil {
			t.Fatal(err)
		}
		j := readJob(t, engine, data)
		for kind := range smallestType {
			for _, paper := range []string{"letter", "a4"} {
				t.Run(engine+"/"+kind+"/"+paper, func(t *testing.T) {
					rec := drawn(t, j, kind, paper)
					checkPage(t, rec, kind, paper)
					page := squeezed(pageText(rec))
					if strings.Contains(page, squeezed("more findings,")) {
						t.Error("findings are left out")
					}
					if kind != "workshop" {
						return
					}
					if strings.Contains(page, squeezed("other lines of readings")) {
						t.Error("readings are left out")
					}
					for _, st := range diagnosed(j).Stories {
						said, err := words(t).Story(st, templates.Workshop)
						if err != nil {
							t.Fatal(err)
						}
						if !strings.Contains(page, strings.TrimRight(squeezed(said.Says), ".:;")) {
							t.Errorf("%q is not named", said.Says)
						}
					}
				})
			}
		}
	}
}
