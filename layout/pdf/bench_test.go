package pdf

import (
	"fmt"
	"testing"

	"github.com/go-pdf/fpdf"

	"gaugesheet/layout"
	"gaugesheet/layout/face"
)

// A page of about 400 texts and 300 lines, as a full sheet has.
const benchTexts, benchLines = 400, 300

func drawBenchPage(s layout.Surface) {
	for i := range benchTexts {
		f := layout.Face{Weight: layout.Weight(i % 2), Size: layout.Length(7 + i%3)}
		p := layout.Point{X: layout.Length(40 + 130*(i%4)), Y: layout.Length(40 + 7*(i/4))}
		s.Text(p, fmt.Sprintf("cylinder %d: %d psi", i%8+1, 100+i), f, layout.Color{R: 20, G: 30, B: 40})
	}
	for i := range benchLines {
		y := layout.Length(40 + 2*i)
		s.Stroke(layout.Polyline(layout.Point{X: 40, Y: y}, layout.Point{X: 560, Y: y}), layout.Pen{Width: 0.5})
	}
}

func BenchmarkPage(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		d := New(Options{Paper: layout.Size{W: 612, H: 792}, Title: "t"})
		drawBenchPage(d)
		if _, err := d.Bytes(); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkLibraryAlone is the floor: the PDF library writing the same page.
func BenchmarkLibraryAlone(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		f := fpdf.New("P", "pt", "Letter", "")
		f.AddUTF8FontFromBytes("sans", "", face.Regular)
		f.AddUTF8FontFromBytes("sans", "B", face.Bold)
		f.AddPage()
		for i := range benchTexts {
			f.SetFont("sans", []string{"", "B"}[i%2], float64(7+i%3))
			f.Text(float64(40+130*(i%4)), float64(40+7*(i/4)), fmt.Sprintf("cylinder %d: %d psi", i%8+1, 100+i))
		}
		f.SetLineWidth(0.5)
		for i := range benchLines {
			f.Line(40, float64(40+2*i), 560, float64(40+2*i))
		}
		if err := f.Output(discard{}); err != nil {
			b.Fatal(err)
		}
	}
}

type discard struct{}

func (discard) Write(p []byte) (int, error) { return len(p), nil }
