package sheet_test

import (
	"strings"
	"testing"
)

// shown is all the text of a job's page, a line feed between pieces.
func shown(t *testing.T, source, kind string) string {
	t.Helper()
	var b strings.Builder
	for _, text := range drawn(t, readJob(t, "job.yaml", []byte(source)), kind, "").Texts() {
		b.WriteString(strings.ReplaceAll(text.String, "\u00a0", " ") + "\n")
	}
	return b.String()
}

// TestWordsOfThePage checks words that a page has to have, and some that it
// must not have, whatever else stands on it.
func TestWordsOfThePage(t *testing.T) {
	for _, c := range []struct {
		name, kind, job string
		has, lacks      []string
	}{
		{
			name: "raised figures and the range of the shop's gauge", kind: "workshop",
			job: "shop: {gauges: {dial C: {range: 0-20 kgf/cm2, accuracy: 2 % of span}}}\n" +
				"engine: {layout: inline-4}\ngauges: {compression: dial C}\ncompression: {unit: kgf/cm2, dry: [12.1, 12.0, 11.9, 12.2]}\n",
			has: []string{"kgf/cm²", "0–20 kgf/cm²"}, lacks: []string{"cm2"},
		},
		{
			name: "temperature of the leakage test", kind: "customer",
			job: "engine: {layout: single}\nleakage: {engine: warm, limit: 20 %, dry: {1: {loss: 8 %}}}\n",
			has: []string{"Engine warm for the leakage test"},
		},
		{
			name: "to a buyer, that nothing is set on another's engine", kind: "pre-purchase",
			job: "engine: {layout: inline-4, fuel: petrol, lifters: solid}\ncompression: {unit: psi, dry: [150, 148, 110, 149]}\n" +
				"leakage: {limit: 20 %, dry: {1: {loss: 8 %}, 2: {loss: 8 %}, 3: {loss: 30 %, at: [exhaust]}, 4: {loss: 8 %}}}\n",
			has: []string{"consent"},
		},
		{
			name: "to its owner, nothing of that", kind: "customer",
			job: "engine: {layout: inline-4, fuel: petrol, lifters: solid}\ncompression: {unit: psi, dry: [150, 148, 110, 149]}\n" +
				"leakage: {limit: 20 %, dry: {1: {loss: 8 %}, 2: {loss: 8 %}, 3: {loss: 30 %, at: [exhaust]}, 4: {loss: 8 %}}}\n",
			lacks: []string{"consent"},
		},
		{
			name: "the work of an invoice, each part on its line", kind: "invoice",
			job: "job: {reason: Runs rough}\nengine: {layout: inline-2}\ncompression: {unit: psi, dry: [150, 148]}\n" +
				"recommended: [Set the valves, New plugs]\ndeclined: [Leakage test]\n",
			has: []string{"Asked\nRuns rough.\n", "Recommended\nSet the valves. New plugs.\nDeclined\nLeakage test.\n"},
		},
		{
			name: "an engine of its own layout", kind: "customer",
			job: "engine: {layout: custom, cylinders: [{name: left, x: 0, y: 0, head: 1}, {name: right, x: 1, y: 0, head: 2}]}\n" +
				"compression: {unit: psi, dry: {left: 150, right: 148}}\n",
			has: []string{"Engine\n2 cylinders\n"}, lacks: []string{"custom"},
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			text := shown(t, c.job, c.kind)
			for _, words := range c.has {
				if !strings.Contains(text, words) {
					t.Errorf("the page lacks %q:\n%s", words, text)
				}
			}
			for _, words := range c.lacks {
				if strings.Contains(text, words) {
					t.Errorf("the page has %q:\n%s", words, text)
				}
			}
		})
	}
}

// The paper that a sheet is drawn on says which English it speaks, unless the
// job or its shop names one.
func TestPaperSaysWhichEnglish(t *testing.T) {
	const engine = "engine: {layout: inline-4, fuel: petrol, displacement: 2 L}\ncompression: {unit: psi, dry: {1: 150, 2: 150, 3: 150, 4: 150}}\n"
	for _, c := range []struct{ said, paper, fuel string }{
		{"", "letter", "gasoline"}, {"", "a4", "petrol"}, {"paper: a4\n", "letter", "gasoline"}, {"paper: letter\n", "a4", "petrol"},
		{"language: en\n", "a4", "gasoline"}, {"shop: {language: en-GB}\n", "letter", "petrol"},
	} {
		page := pageText(drawn(t, readJob(t, "job.yaml", []byte(c.said+engine)), "customer", c.paper))
		if !strings.Contains(page, c.fuel) {
			t.Errorf("%q on %s: %q is not on the page", c.said, c.paper, c.fuel)
		}
	}
}
