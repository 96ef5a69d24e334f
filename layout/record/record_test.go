package record_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"gaugesheet/layout"
	"gaugesheet/layout/record"
)

// plain is a type whose every letter is half an em wide.
type plain struct{}

func (plain) Width(s string, f layout.Face) layout.Length {
	return layout.Length(len([]rune(s))) * f.Size / 2
}
func (plain) Ascent(f layout.Face) layout.Length    { return f.Size * 0.9 }
func (plain) Descent(f layout.Face) layout.Length   { return f.Size * 0.2 }
func (plain) CapHeight(f layout.Face) layout.Length { return f.Size * 0.7 }
func (plain) Has(r rune) bool                       { return r < 0x10000 }

var (
	ten   = layout.Face{Size: 10}
	black = layout.Color{}
)

func pt(x, y layout.Length) layout.Point { return layout.Point{X: x, Y: y} }

func TestLines(t *testing.T) {
	r := record.New(plain{})
	r.Block("head", layout.Rect{X: 10, Y: 10, W: 100, H: 20}, func() {
		r.Fill(layout.Polygon(pt(1, 2), pt(3.004, 4)), layout.Color{R: 255})
		r.Clip(layout.RectPath(layout.Rect{W: 5, H: 5}), func() {
			r.Stroke(layout.Polyline(pt(0, 0), pt(9, 9)), layout.Pen{Width: 0.5, Dash: []layout.Length{3, 2}, Round: true})
			r.Stroke(layout.Polyline(pt(0, 0), pt(9, 9)), layout.Pen{})
		})
		r.Text(pt(10, 20), "a \"b\"", layout.Face{Weight: layout.Bold, Size: 9.5}, black)
	})
	want := []string{
		`block head 10,10 100x20 {`,
		`  fill M1,2 L3,4 Z #ff0000`,
		`  clip M0,0 L5,0 L5,5 L0,5 Z {`,
		`    stroke M0,0 L9,9 0.5 #000000 dash 3,2 round`,
		`  }`,
		`  text 10,20 "a \"b\"" bold 9.5 #000000`,
		`}`,
	}
	if diff := cmp.Diff(want, r.Lines()); diff != "" {
		t.Errorf("lines (-want +got):\n%s", diff)
	}
	if got := r.Texts()[0].Block; got != "head" {
		t.Errorf("block %q", got)
	}
}

func TestTurnedText(t *testing.T) {
	r := record.New(plain{})
	// A quarter turn clockwise about its start makes a line of text run down.
	r.Rotate(90, pt(50, 50), func() { r.Text(pt(50, 50), "abcd", ten, black) })
	got := r.Texts()[0].Rect
	want := layout.Rect{X: 48, Y: 50, W: 11, H: 20}
	if !want.Contains(got) || !got.Contains(want) {
		t.Errorf("turned text covers %v, want %v", got, want)
	}
	// Two turns inside one another add up.
	r = record.New(plain{})
	r.Rotate(45, pt(50, 50), func() {
		r.Rotate(45, pt(50, 50), func() { r.Text(pt(50, 50), "abcd", ten, black) })
	})
	if got := r.Texts()[0].Rect; !want.Contains(got) || !got.Contains(want) {
		t.Errorf("twice turned text covers %v, want %v", got, want)
	}
}

func TestOverlaps(t *testing.T) {
	for _, c := range []struct {
		name string
		b    layout.Point
		text string
		want int
	}{
		{"beside", pt(30.1, 20), "abcd", 0},
		{"into", pt(29, 20), "abcd", 1},
		{"below", pt(10, 30), "abcd", 0},
		{"too close below", pt(10, 26), "abcd", 1},
		{"blank", pt(10, 20), "   ", 0},
	} {
		r := record.New(plain{})
		r.Text(pt(10, 20), "abcd", ten, black)
		r.Text(c.b, c.text, ten, black)
		if got := len(r.Overlaps()); got != c.want {
			t.Errorf("%s: %d overlaps, want %d", c.name, got, c.want)
		}
	}
}

func TestOutside(t *testing.T) {
	area := layout.Rect{X: 0, Y: 0, W: 100, H: 100}
	r := record.New(plain{})
	r.Text(pt(85, 50), "abcd", ten, black)
	r.Stroke(layout.Polyline(pt(-0.2, 50), pt(50, 50)), layout.Pen{Width: 1})
	r.Clip(layout.RectPath(layout.Rect{X: 10, Y: 10, W: 10, H: 10}), func() {
		r.Fill(layout.Circle(pt(0, 0), 50), black)
	})
	r.Fill(layout.RectPath(layout.Rect{X: 10, Y: 10, W: 80, H: 80}), black)
	want := []string{`text "abcd" at 85,43 20x7`, `shape at -0.2,49.5 50.2x1`}
	if diff := cmp.Diff(want, r.Outside(area)); diff != "" {
		t.Errorf("outside (-want +got):\n%s", diff)
	}
}

func TestHidden(t *testing.T) {
	r := record.New(plain{})
	r.Clip(layout.RectPath(layout.Rect{W: 20, H: 20}), func() {
		r.Text(pt(0, 10), "abcd", ten, black)
		r.Text(pt(5, 10), "abcd", ten, black)
	})
	if got := r.Texts(); got[0].Hidden || !got[1].Hidden {
		t.Errorf("hidden: %v and %v, want false and true", got[0].Hidden, got[1].Hidden)
	}
}
