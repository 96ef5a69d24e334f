package sheet_test

import (
	"errors"
	"fmt"
	"maps"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"gaugesheet/layout"
	"gaugesheet/layout/face"
	"gaugesheet/layout/record"
	"gaugesheet/report/sheet"
	"gaugesheet/templates"
)

const templatesDir = "../../templates/sheets"

// The program's own templates name blocks that can be made, and no other.
func TestBuiltInTemplates(t *testing.T) {
	for _, kind := range templates.Kinds() {
		data, err := os.ReadFile(filepath.Join(templatesDir, kind+".yaml"))
		if err != nil {
			t.Fatal(err)
		}
		if _, problems := sheet.ReadTemplate(data); len(problems) > 0 {
			t.Errorf("%s: %v", kind, problems)
		}
	}
}

// ownBlocks are the names of all blocks that the program's own templates of
// jobs place.
func ownBlocks(t *testing.T) []string {
	t.Helper()
	names := map[string]bool{}
	for _, kind := range templates.Kinds() {
		own, err := templates.BuiltIn(kind)
		if err != nil {
			t.Fatal(err)
		}
		for _, row := range own.Rows {
			for _, name := range row.Blocks() {
				names[name] = true
			}
		}
	}
	return slices.Sorted(maps.Keys(names))
}

// Blocks can be put on a page in any order and company: what a template of the
// user's places is drawn, or the page is refused as too full.
func TestTemplatesOfAnyBlocks(t *testing.T) {
	blocks, paths := ownBlocks(t), examples(t)
	rng := rand.New(rand.NewPCG(7, 1))
	drawn := 0
	for i := range int(many(60)) {
		path := paths[i%len(paths)]
		j := readExample(t, path)
		template := randomTemplate(rng, blocks)
		s, err := sheet.New(j, diagnosed(j), sheet.Options{Template: []byte(template), TemplateName: "mine.yaml", Version: "test"})
		var full *layout.TooFull
		if errors.As(err, &full) {
			continue
		}
		if err != nil {
			t.Fatalf("%s: %v\n%s", path, err, template)
		}
		rec := record.New(face.Metrics())
		s.Draw(rec)
		drawn++
	}
	if 3*drawn < int(many(60)) {
		t.Errorf("only %d pages were not too full", drawn)
	}
}

func randomTemplate(rng *rand.Rand, blocks []string) string {
	var b strings.Builder
	fmt.Fprintf(&b, "sheet: mine\naudience: %s\n", []string{"customer", "workshop"}[rng.IntN(2)])
	b.WriteString("type: {display: 14, title: 15, heading: 10.5, strong: 9.5, body: 9.2, label: 8, note: 7.5, smallest: 7.5, least-scale: 0.9}\nrows:\n")
	names := slices.Clone(blocks)
	rng.Shuffle(len(names), func(i, k int) { names[i], names[k] = names[k], names[i] })
	names = names[:1+rng.IntN(8)]
	var steps []string
	for len(names) > 0 {
		n := 1 + rng.IntN(min(3, len(names)))
		switch row := strings.Join(names[:n], ", "); rng.IntN(3) {
		case 0:
			fmt.Fprintf(&b, "  - [%s]\n", row)
		case 1:
			fmt.Fprintf(&b, "  - {above: 6, columns: [{blocks: [%s]}, {share: 2, blocks: [%s]}]}\n", names[0], strings.Join(names[1:n], ", "))
		case 2:
			fmt.Fprintf(&b, "  - {above: 6, columns: [{blocks: [%s]}, {blocks: []}], flows: [%s]}\n", names[0], strings.Join(names[1:n], ", "))
		}
		for _, name := range names[:n] {
			steps = append(steps, fmt.Sprintf("  - {block: %s, to: %s}\n", name, []string{"compact", "brief"}[rng.IntN(2)]))
		}
		names = names[n:]
	}
	return b.String() + "gives-way:\n" + strings.Join(steps, "")
}
