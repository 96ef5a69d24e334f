package sheet_test

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"gaugesheet/layout/record"
)

var update = flag.Bool("update", false, "write the drawings in testdata anew")

// TestDrawings compares every text of each example's own sheet, with its block,
// place and size, with what was looked at and found good.
func TestDrawings(t *testing.T) {
	for _, path := range examples(t) {
		name := strings.TrimSuffix(filepath.Base(path), ".yaml")
		t.Run(name, func(t *testing.T) {
			j := readExample(t, path)
			kind := j.Sheet.Value
			if kind == "" {
				kind = "customer"
			}
			got := textLines(drawn(t, j, kind, ""))
			file := filepath.Join("testdata", name+".txt")
			if *update {
				if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
					t.Fatal(err)
				}
				return
			}
			want, err := os.ReadFile(file)
			if err != nil {
				t.Fatalf("%v (go test ./report/sheet -update writes it)", err)
			}
			if diff := cmp.Diff(strings.Split(string(want), "\n"), strings.Split(got, "\n")); diff != "" {
				t.Errorf("the drawing changed (-want +got); look at the page, then go test ./report/sheet -update:\n%s", diff)
			}
		})
	}
}

// textLines are the texts of a page in the order in which they are drawn:
// block, left end, baseline's line box, size, words.
func textLines(rec *record.Recorder) string {
	var b strings.Builder
	for _, text := range rec.Texts() {
		fmt.Fprintf(&b, "%-12s %6.1f %6.1f %5.2f %s\n", text.Block, text.Rect.X, text.Rect.Y, text.Face.Size, text.String)
	}
	return b.String()
}
