package sheet_test

import (
	"os"
	"path/filepath"
	"runtime"
	"testing"

	"github.com/go-pdf/fpdf"

	"gaugesheet/layout"
	"gaugesheet/layout/pdf"
)

// untaggedSheet does what writeSheet does without tags, and carries no file.
func untaggedSheet(tb testing.TB, path string, data []byte) {
	s := sheetOf(tb, path, data)
	doc := pdf.New(pdf.Options{Paper: layout.Size{W: 612, H: 792}})
	doc.Tag(layout.Tag{Kind: layout.Picture, Alt: "x"}, func() { // one mark for all, where each part would be marked as none
		s.Draw(struct{ layout.Surface }{doc}) // which keeps no tags
	})
	if _, err := doc.Bytes(); err != nil {
		tb.Fatal(err)
	}
}

// overBare is how many times as long a sheet as it is handed over takes as the
// bare drawing: without tags, files that it carries, and what a file of nothing says
// of itself and its colors beyond that of the library alone. The words for
// pictures are in both; they take a hundredth.
func overBare(tb testing.TB, name string, times int) float64 {
	path := filepath.Join(examplesDir, name)
	data, err := os.ReadFile(path)
	if err != nil {
		tb.Fatal(err)
	}
	steps := []func(){
		func() { writeSheet(tb, path, data) },
		func() { untaggedSheet(tb, path, data) },
		func() {
			if _, err := pdf.New(pdf.Options{Paper: layout.Size{W: 612, H: 792}, Title: "x", Author: "x", Subject: "x", Creator: "x", Lang: "en", Keywords: "x"}).Bytes(); err != nil {
				tb.Fatal(err)
			}
		},
		func() {
			f := fpdf.New("P", "pt", "Letter", "")
			f.AddPage()
			if err := f.Output(discard{}); err != nil {
				tb.Fatal(err)
			}
		},
	}
	const together = 4 // what is measured is no finer
	least := make([]float64, len(steps))
	for range times {
		for i, step := range steps {
			runtime.GC() // what others left is not taken away on this one's time
			start := spent()
			for range together {
				step()
			}
			if took := float64(spent() - start); least[i] == 0 || took < least[i] { // a busy machine only adds
				least[i] = took
			}
		}
	}
	return least[0] / (least[1] - (least[2] - least[3]))
}

// mostOverBare is how many times as long as a bare drawing a sheet may take.
const mostOverBare = 1.15

// BenchmarkHandOver guards what a sheet takes to be read in ten years: what it
// carries, its tags, and what it says of itself.
func BenchmarkHandOver(b *testing.B) {
	for _, name := range []string{speedExample, heavyExample} {
		b.Run(name, func(b *testing.B) {
			ratio := 0.0
			for b.Loop() {
				ratio = overBare(b, name, 30)
			}
			b.ReportMetric(ratio, "of-bare")
			if ratio > mostOverBare {
				b.Errorf("a sheet takes %.2f times as long as its drawing, at most %.2f is wanted", ratio, mostOverBare)
			}
		})
	}
}

// The same, with room for a machine that has much else to do.
func TestHandOver(t *testing.T) {
	if testing.Short() {
		t.Skip("draws a sheet over and over, to measure it")
	}
	const room = 1.2
	if ratio := overBare(t, speedExample, 9); ratio > room*mostOverBare {
		t.Errorf("a sheet takes %.2f times as long as its drawing", ratio)
	}
}
