package chart

import (
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	chart "github.com/wcharczuk/go-chart/v2"
	"github.com/wcharczuk/go-chart/v2/drawing"

	"gaugesheet/layout"
	"gaugesheet/layout/face"
	"gaugesheet/layout/pdf"
	"gaugesheet/layout/record"
)

func theme() layout.Theme {
	t := layout.Theme{
		Measurer: face.Metrics(), Scale: 1, Smallest: 7.5,
		Ink: layout.Color{R: 0x1b, G: 0x22, B: 0x2c}, Muted: layout.Color{R: 0x52, G: 0x5d, B: 0x69},
		Accent: layout.Color{R: 0x12, G: 0x4c, B: 0x66}, Line: layout.Color{R: 0xb3, G: 0xbb, B: 0xc3},
		Fill: layout.Color{R: 0xc4, G: 0xce, B: 0xd6}, Paper: layout.Color{R: 255, G: 255, B: 255},
	}
	for role, size := range map[layout.Role]layout.Length{
		layout.Display: 14, layout.Title: 16, layout.Heading: 11, layout.Strong: 9.5, layout.Body: 9.5, layout.Label: 8, layout.Note: 7.5,
	} {
		t.Sizes[role] = size
	}
	return t
}

// bars are bars of values with a whisker of the same half-width.
func bars(half float64, values ...float64) []Bar {
	var all []Bar
	high, low := 0, 0
	for i, v := range values {
		all = append(all, Bar{Label: fmt.Sprint(i + 1), Value: v, Text: fmt.Sprint(v), Low: v - half, High: v + half})
		if v > values[high] {
			high = i
		}
		if v < values[low] {
			low = i
		}
	}
	if len(values) > 1 {
		all[high].Highest, all[low].Lowest = true, true
	}
	return all
}

func with(all []Bar, change func(i int, b *Bar)) []Bar {
	for i := range all {
		change(i, &all[i])
	}
	return all
}

func none(n int, why string) []Bar {
	return with(make([]Bar, n), func(i int, b *Bar) { b.Label, b.Missing = fmt.Sprint(i+1), why })
}

// gallery is what the charts of sheets look like, from one bar to sixteen.
var gallery = []struct {
	name string
	Chart
}{
	{"V8 with limit", Chart{Bars: with(bars(3, 152, 96, 91, 150, 155, 151, 154, 149), func(i int, b *Bar) { b.Group = i / 4 }),
		Limits: []Limit{{116.25, "116 psi = 75 % of the highest, common practice"}}}},
	{"ghosts", Chart{Bars: with(bars(3, 152, 96, 91, 150), func(i int, b *Bar) {
		b.HasGhost, b.Ghost, b.GhostText = true, b.Value+float64(30-10*i), fmt.Sprint(b.Value+float64(30-10*i))
	}), Limits: []Limit{{100, "100 psi, minimum by the engine's manual"}, {116, "116 psi = 75 % of the highest"}}}},
	{"long names", Chart{Bars: with(bars(3, 140, 90), func(i int, b *Bar) { b.Label = []string{"left hand outboard", "right hand outboard"}[i] }),
		Limits: []Limit{{126, "126 psi = 10 % below the highest"}}}},
	{"sixteen", Chart{Bars: with(bars(20, 1180, 1165, 1190, 1205, 1200, 1175, 1180, 950, 1160, 1188, 1192, 1204, 1210, 1170, 1168, 1185), func(i int, b *Bar) { b.Group = i / 8 }),
		Limits: []Limit{{1029, "1029 kPa = 85 % of the highest"}}}},
	{"twelve in psi", Chart{Bars: with(bars(4, 152, 148, 150, 151, 147, 149, 150, 152, 153, 148, 150, 151), func(i int, b *Bar) { b.Group = i / 6 })}},
	{"diesel bar", Chart{Bars: bars(0.5, 32.5, 31, 29.5, 33), Limits: []Limit{{29.7, "29.7 bar = 90 % of the highest"}}}},
	{"kgf/cm2", Chart{Bars: bars(0.1, 3.2, 2.8, 3.1)}},
	{"one", Chart{Bars: bars(3, 128)}},
	{"two", Chart{Bars: bars(3, 500, 480)}},
	{"zero", Chart{Bars: bars(0, 0, 152, 150, 0)}},
	{"some missing", Chart{Bars: with(bars(3, 152, 149, 150, 151, 148, 150), func(i int, b *Bar) {
		if i == 1 || i == 4 {
			*b = Bar{Label: b.Label, Missing: "could not test"}
		}
	})}},
	{"all missing", Chart{Bars: none(4, "not tested")}},
	{"at least", Chart{Bars: with(bars(0, 300, 280, 300), func(i int, b *Bar) {
		if i != 1 {
			b.AtLeast, b.Text = true, "over 300"
		}
	})}},
	{"limit through the text", Chart{Bars: bars(2, 110, 100, 112, 96), Limits: []Limit{{107, "107 psi, minimum"}, {118, "118 psi, lowest of new engines in this series, as printed in the engine's manual on the page of tightening torques"}}}},
	{"rotors", Chart{Bars: with(bars(0.1, 7.2, 7.1, 7.3, 6.4, 5.1, 6.6), func(i int, b *Bar) {
		b.Group, b.Label = i/3, []string{"A", "B", "C"}[i%3]
	})}},
}

var galleryArea = layout.Rect{X: 30, Y: 30, W: 258, H: 168}

// Nothing may touch, nothing may leave its area, whatever the chart.
func TestGalleryIsClean(t *testing.T) {
	for _, g := range gallery {
		for _, w := range []layout.Length{220, 258, 400, 540} {
			area := galleryArea
			area.W = w
			r := record.New(face.Metrics())
			Bars(r, area, theme(), g.Chart)
			for _, pair := range r.Overlaps() {
				t.Errorf("%s at %v: %q overlaps %q", g.name, w, pair[0].String, pair[1].String)
			}
			for _, out := range r.Outside(area) {
				t.Errorf("%s at %v: out of its area: %s", g.name, w, out)
			}
			for _, text := range r.Texts() {
				if text.Face.Size < theme().Smallest {
					t.Errorf("%s: %q is set in %v pt", g.name, text.String, text.Face.Size)
				}
			}
		}
	}
}

// Every word of the description must be on the page.
func TestNothingIsLeftOut(t *testing.T) {
	for _, g := range gallery {
		r := record.New(face.Metrics())
		Bars(r, galleryArea, theme(), g.Chart)
		var all []string
		for _, text := range r.Texts() {
			all = append(all, text.String)
		}
		page := strings.Join(all, " ")
		for _, b := range g.Bars {
			for _, want := range []string{b.Label, b.Text, b.GhostText, b.Missing} {
				if !strings.Contains(page, want) {
					t.Errorf("%s: %q is not on the page", g.name, want)
				}
			}
		}
		for _, l := range g.Limits {
			if !strings.Contains(page, l.Text) && !strings.Contains(page, strings.Fields(l.Text)[0]) {
				t.Errorf("%s: limit %q is not on the page", g.name, l.Text)
			}
		}
	}
}

// Heights must be in proportion to values, from zero: measured on the page
// against plain arithmetic, not on the library's grid.
func TestBarsAreInProportion(t *testing.T) {
	for _, top := range []float64{3.2, 35, 155, 500, 3400} {
		var got []layout.Rect
		c := Chart{Bars: with(bars(0, top, top/2, top/3, top*0.99), func(_ int, b *Bar) { b.Text = "" }), Paint: func(_ layout.Surface, bar layout.Rect, i int) {
			if i != len(got) {
				t.Errorf("bar %d painted out of order", i)
			}
			got = append(got, bar)
		}}
		Bars(record.New(face.Metrics()), galleryArea, theme(), c)
		if len(got) != 4 {
			t.Fatalf("%d bars painted, want 4", len(got))
		}
		for i, share := range []float64{1, 0.5, 1.0 / 3, 0.99} {
			if r := float64(got[i].H / got[0].H); math.Abs(r-share) > 1e-9 {
				t.Errorf("top %v: bar %d is %v of the highest, want %v", top, i, r, share)
			}
			if d := got[i].Bottom() - got[0].Bottom(); math.Abs(float64(d)) > 1e-9 {
				t.Errorf("top %v: bar %d does not stand on the base line", top, i)
			}
		}
		if got[0].H < galleryArea.H/2 {
			t.Errorf("top %v: the highest bar is only %v high", top, got[0].H)
		}
	}
}

func TestTicks(t *testing.T) {
	for _, c := range []struct {
		top    float64
		height layout.Length
		want   string
	}{
		{155, 120, "0 50 100 150 +"},
		{150, 120, "0 50 100 150"},
		{3.2, 120, "0 1 2 3 +"},
		{0.9, 120, "0.0 0.2 0.4 0.6 0.8 +"},
		{35, 120, "0 10 20 30 +"},
		{500, 120, "0 100 200 300 400 500"},
		{3400, 120, "0 1000 2000 3000 +"},
		{155, 10, "0 +"},
		{0, 120, "0 +"},
	} {
		var got []string
		for _, tick := range ticks(c.top, c.height) {
			if tick.text == "" {
				tick.text = "+"
			}
			got = append(got, tick.text)
		}
		if s := strings.Join(got, " "); s != c.want {
			t.Errorf("ticks to %v in %v pt: %s, want %s", c.top, c.height, s, c.want)
		}
	}
}

// What cannot be drawn must not bring the program down.
func TestOddValues(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range []Chart{
		{},
		{Bars: []Bar{{}}},
		{Bars: []Bar{{Value: nan, Low: nan, High: inf, HasGhost: true, Ghost: -inf}}, Limits: []Limit{{Value: inf}, {Value: -3}}},
		{Bars: bars(0, -5, 1e-12, 1e12)},
	} {
		for _, area := range []layout.Rect{galleryArea, {W: 10, H: 10}, {}} {
			Bars(record.New(face.Metrics()), area, theme(), c)
		}
	}
}

// TestGalleryFile writes the gallery as a file to look at.
func TestGalleryFile(t *testing.T) {
	name := os.Getenv("CHART_GALLERY")
	if name == "" {
		t.Skip("set CHART_GALLERY to a file name to see the charts")
	}
	d := pdf.New(pdf.Options{Paper: layout.Size{W: 860, H: 1000}, Title: "charts"})
	for i, g := range gallery {
		area := galleryArea
		area.X += layout.Length(i%3) * (area.W + 22)
		area.Y += layout.Length(i/3) * (area.H + 22)
		layout.TextAt(d, area.TopLeft().Add(0, -3), layout.Left, g.name, layout.Face{Size: 8}, theme().Muted)
		Bars(d, area, theme(), g.Chart)
	}
	b, err := d.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(name, b, 0o644); err != nil {
		t.Fatal(err)
	}
}

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
