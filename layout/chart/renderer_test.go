package chart

import (
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	chart "github.com/wcharczuk/go-chart/v2"
	"github.com/wcharczuk/go-chart/v2/drawing"

	"gaugesheet/layout"
	"gaugesheet/layout/face"
	"gaugesheet/layout/record"
)

func TestRendererPaths(t *testing.T) {
	rec := record.New(face.Metrics())
	r := &renderer{surface: rec, origin: layout.Point{X: 100, Y: 100}}
	r.SetStrokeColor(drawing.ColorBlack)
	r.SetStrokeWidth(2)
	r.SetStrokeDashArray([]float64{4, 2})
	r.LineTo(0, 0) // begins the outline
	// The middle of a quadratic curve is (start + 2 control + end) / 4.
	r.QuadCurveTo(100, 0, 100, 100)
	r.Stroke()
	r.Stroke() // nothing is left to draw
	r.ArcTo(0, 0, 10, 10, 0, math.Pi/2)
	r.Stroke()
	r.SetFillColor(drawing.ColorWhite)
	r.Circle(10, 0, 0)
	lines := rec.Lines()
	if len(lines) != 4 {
		t.Fatalf("%d actions, want 4:\n%s", len(lines), strings.Join(lines, "\n"))
	}
	if want := "stroke M100,100 C133.33,100 150,116.67 150,150 1 #000000 dash 2,1"; lines[0] != want {
		t.Errorf("curve: %s, want %s", lines[0], want)
	}
	// A quarter turn from three o'clock with y down ends below the middle.
	if !strings.HasPrefix(lines[1], "stroke M105,100 C") || !strings.Contains(lines[1], " 100,105 1 #000000") {
		t.Errorf("arc: %s", lines[1])
	}
	if !strings.HasPrefix(lines[2], "fill M105,100") || !strings.HasPrefix(lines[3], "stroke M105,100") {
		t.Errorf("circle: %v", lines[2:])
	}
}

func TestRendererText(t *testing.T) {
	rec := record.New(face.Metrics())
	r := &renderer{surface: rec, origin: layout.Point{X: 100, Y: 100}}
	r.SetFontSize(8)
	r.SetFontColor(drawing.ColorBlack)
	box := r.MeasureText("150")
	// Three digits of 556/1000 em and capitals of 688/1000 em at 8 pt, in
	// units of half a point, rounded up.
	if diff := cmp.Diff(chart.Box{Right: 27, Bottom: 12}, box); diff != "" {
		t.Errorf("box (-want +got):\n%s", diff)
	}
	r.Text("150", 10, 20)
	r.SetTextRotation(math.Pi / 2)
	r.Text("150", 10, 20)
	want := []string{
		`text 105,110 "150" regular 8 #000000`,
		`rotate 90 about 105,110 {`, `  text 105,110 "150" regular 8 #000000`, `}`,
	}
	if diff := cmp.Diff(want, rec.Lines()); diff != "" {
		t.Errorf("lines (-want +got):\n%s", diff)
	}
}
