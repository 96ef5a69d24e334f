package chart

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"gaugesheet/layout"
	"gaugesheet/layout/face"
	"gaugesheet/layout/pdf"
	"gaugesheet/layout/record"
)

func theme() layout.Theme {
	t := layout.Theme{
		Measurer: face.Metrics(), Scale: 1, Smallest: 7.5,
		Ink:    layout.Color{R: 0x1b, G: 0x22, B: 0x2c},
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

// end is the size of a number's tab in these tests: of one or two digits.
func endOf(number int) layout.Size {
	if number > 9 {
		return layout.Size{W: 15, H: 10.5}
	}
	return layout.Size{W: 10.5, H: 10.5}
}

// bars are bars of exact values, numbered from 1.
func bars(values ...float64) []Bar {
	var all []Bar
	for i, v := range values {
		all = append(all, Bar{Value: v, Low: v, High: v, End: endOf(i + 1)})
	}
	return all
}

func with(all []Bar, change func(i int, b *Bar)) []Bar {
	for i := range all {
		change(i, &all[i])
	}
	return all
}

// grades are zones as a sheet has them.
func grades() []Zone {
	return []Zone{{10, "even", Tinted}, {15, "watch", Clear}, {100, "low", Hatched}}
}

// ruler is a chart as a sheet has it: in percent below the best.
func ruler(bars []Bar, limits ...Limit) Chart {
	return Chart{Bars: bars, Zones: grades(), Limits: limits, Zero: "best", Unit: "\u00a0%", Least: 18, Most: 100,
		Say: func(of []int) []string {
			low, high := bars[of[0]].Value, bars[of[len(of)-1]].Value
			short := fmt.Sprintf("%d: %.0f to %.0f %%", len(of), low, high)
			return []string{short + ", closer together than the gauge can tell", short}
		}}
}

// gallery is what the rulers of sheets look like, from two bars to sixteen.
var gallery = []struct {
	name string
	Chart
}{
	{"V8 with limit", ruler(bars(1.9, 0, 38.1, 2.6, 41.3, 0.6, 3.2, 3.9), Limit{25, "limit 25 %"})},
	{"all even", ruler(bars(0, 0.6, 1.4, 2.2), Limit{15.7, "limit 28 psi, 16 %"})},
	{"a bank", ruler(bars(29.5, 31.1, 29.5, 0, 1.6, 0), Limit{8.2, "limit 1 bar, 8 %"}, Limit{19.7, "minimum 9.8 bar"})},
	{"limits close together", ruler(bars(0, 12, 14.8), Limit{9.4, "limit 14 psi, 9 %"}, Limit{10, "minimum 134 psi"})},
	{"limits of many words", ruler(bars(0, 12, 14.8), Limit{9.4, "limit: 10 % below the mean of all that were read"}, Limit{10, "minimum 134 psi as the service data have it"})},
	{"two", ruler(bars(0, 100))},
	{"sixteen beside a dead one", ruler(bars(0, 0.2, 0.4, 0.5, 0.9, 1, 1.1, 1.2, 1.3, 1.4, 1.5, 1.6, 1.9, 2, 2, 100))},
	{"twelve alike", ruler(bars(0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0))},
	{"one above", Chart{Bars: bars(0, 1, 2, -30), Zones: append([]Zone{{0, "above the others", Clear}}, grades()...),
		Zero: "best of the others", Unit: "\u00a0%", Least: 18, Most: 100, Say: func([]int) []string { return []string{"words"} }}},
	{"bounds and ranges", ruler(with(bars(0, 3, 20, 30), func(i int, b *Bar) {
		b.Less, b.More = i == 1, i == 2
		if i == 3 {
			b.Low, b.High = 22, 38
		}
	}))},
	{"places by name", ruler(with(bars(0, 12, 13), func(_ int, b *Bar) { b.End.W = 88 }))},
	{"air lost", Chart{Bars: bars(5, 7, 6, 34), Zones: []Zone{{20, "within the limit", Tinted}, {100, "", Hatched}},
		Limits: []Limit{{20, "limit 20 %"}}, Unit: "\u00a0%", Least: 10, Most: 100}},
	{"in a unit", Chart{Bars: bars(0, 0.2, 0.1, 0, 1.9, 2.1), Limits: []Limit{{1.5, "limit 1.5 kgf/cm²"}}, Zero: "best", Unit: "\u00a0kgf/cm²", Least: 1.9}},
}

var (
	widths       = []layout.Length{LeastWidth, 220, 258, 400, 541}
	everyDetail  = []layout.Detail{layout.Full, layout.Compact, layout.Brief}
	rulerCorner  = layout.Point{X: 30, Y: 30}
	labelPattern = regexp.MustCompile(`^([+]?)([0-9.]+)\x{a0}`)
)

// A drawn is a ruler as it was drawn: where the ends stand, and the record.
type drawn struct {
	*Ruler
	*record.Recorder
	ends map[int]layout.Rect
	area layout.Rect
}

func draw(c Chart, width layout.Length, d layout.Detail, extra layout.Length) drawn {
	out := drawn{Recorder: record.New(face.Metrics()), ends: map[int]layout.Rect{}}
	c.PaintEnd = func(s layout.Surface, at layout.Point, i int) {
		e := c.Bars[i].End
		out.ends[i] = layout.Rect{X: at.X - e.W/2, Y: at.Y - e.H/2, W: e.W, H: e.H}
		s.Fill(layout.RectPath(out.ends[i]), layout.Color{})
		layout.TextMiddle(s, at, layout.Center, fmt.Sprint(i+1), layout.Face{Weight: layout.Bold, Size: 8}, layout.Color{R: 255, G: 255, B: 255})
	}
	out.Ruler = New(theme(), width, d, c)
	out.area = layout.Rect{X: rulerCorner.X, Y: rulerCorner.Y, W: width, H: out.Height() + extra}
	out.Draw(out.Recorder, out.area)
	return out
}

// axis gives the value at a place, from the numbers printed on the axis alone;
// false where fewer than two are.
func (d drawn) axis() (func(x layout.Length) float64, bool) {
	var xs, vs []float64
	for _, text := range d.Texts() {
		found := labelPattern.FindStringSubmatch(text.String)
		if found == nil || text.Face.Weight == layout.Bold || text.Ink.Y < d.Body(d.area).Bottom() {
			continue
		}
		v, err := strconv.ParseFloat(found[2], 64)
		if err != nil {
			continue
		}
		if found[1] != "" {
			v = -v
		}
		xs, vs = append(xs, float64(text.Rect.Center().X)), append(vs, v)
	}
	if len(xs) < 2 {
		return nil, false
	}
	last := len(xs) - 1
	return func(x layout.Length) float64 {
		return vs[0] + (float64(x)-xs[0])*(vs[last]-vs[0])/(xs[last]-xs[0])
	}, true
}

func (d drawn) check(t *testing.T, what string) {
	t.Helper()
	for _, pair := range d.Overlaps() {
		t.Errorf("%s: %q overlaps %q", what, pair[0].String, pair[1].String)
	}
	for _, out := range d.Outside(d.area) {
		t.Errorf("%s: out of its area: %s", what, out)
	}
	for i, a := range d.ends {
		for j, b := range d.ends {
			if i < j && a.Overlaps(b) {
				t.Errorf("%s: the ends of %d and %d overlap", what, i+1, j+1)
			}
		}
		for _, text := range d.Texts() {
			if text.Ink.Overlaps(a) && text.String != fmt.Sprint(i+1) {
				t.Errorf("%s: %q stands on the end of %d", what, text.String, i+1)
			}
		}
	}
	for _, text := range d.Texts() {
		if text.Face.Size < theme().Smallest {
			t.Errorf("%s: %q is set in %v pt", what, text.String, text.Face.Size)
		}
	}
	if len(d.ends) != len(d.Bars) {
		t.Errorf("%s: %d ends of %d are drawn", what, len(d.ends), len(d.Bars))
	}
	d.checkPlaces(t, what)
}

// checkPlaces fails where an end does not stand at its value by the numbers on
// the axis; ends in a crowd must stand in order of value.
func (d drawn) checkPlaces(t *testing.T, what string) {
	t.Helper()
	value, ok := d.axis()
	for _, e := range d.Ruler.ends {
		if e.crowded || !ok {
			continue
		}
		at := d.ends[e.bar].Center().X
		// Axis numbers stand on the library's grid, half a unit off at most, and
		// so does each of the two by which they are read.
		slack := 3 * float64(unit) * d.scale.GetDelta() / float64(d.width)
		if got, want := value(at), d.Bars[e.bar].Value; math.Abs(got-want) > slack {
			t.Errorf("%s: bar %d stands at %.2f by the axis, want %.2f", what, e.bar+1, got, want)
		}
	}
	for _, c := range d.crowds {
		for i := c.first; i < c.last; i++ {
			a, b := d.Ruler.ends[i], d.Ruler.ends[i+1]
			if a.at > b.at || a.x > b.x {
				t.Errorf("%s: bars %d and %d of a crowd are out of order", what, a.bar+1, b.bar+1)
			}
		}
	}
}

// Nothing may touch, nothing may leave its area, whatever the chart.
func TestGalleryIsClean(t *testing.T) {
	for _, g := range gallery {
		for _, w := range widths {
			if slices.ContainsFunc(g.Limits, func(l Limit) bool { return len(l.Text) > 30 }) && w < 220 {
				continue // wider than the ruler
			}
			for _, d := range everyDetail {
				draw(g.Chart, w, d, 0).check(t, fmt.Sprintf("%s, %v wide, %s", g.name, w, d))
			}
		}
	}
}

func TestRandomRulersAreClean(t *testing.T) {
	for seed := range uint64(400) {
		r := rand.New(rand.NewPCG(seed, 5))
		values := make([]float64, 2+r.IntN(15))
		for i := range values {
			switch r.IntN(6) {
			case 0:
				values[i] = 100 * r.Float64()
			case 1:
				values[i] = 25 * r.Float64()
			default:
				values[i] = 4 * r.Float64()
			}
		}
		values[0] = 0
		c := ruler(with(bars(values...), func(_ int, b *Bar) { b.Less = r.IntN(12) == 0 }))
		for range r.IntN(3) {
			c.Limits = append(c.Limits, Limit{5 + 25*r.Float64(), []string{"limit 25 %", "minimum 118 psi"}[r.IntN(2)]})
		}
		draw(c, widths[r.IntN(len(widths))], everyDetail[r.IntN(3)], layout.Length(r.IntN(20))).check(t, fmt.Sprintf("seed %d", seed))
	}
}

// Bars must be as long as their values are, from zero, measured on the page
// against plain arithmetic, not on the library's grid.
func TestBarsAreInProportion(t *testing.T) {
	values := []float64{10, 20, 33, 99}
	d := draw(ruler(bars(values...)), 541, layout.Full, 0)
	zero := d.ends[0].Center().X - (d.ends[1].Center().X - d.ends[0].Center().X)
	for i, v := range values {
		got := float64(d.ends[i].Center().X - zero)
		if want := float64(d.ends[3].Center().X-zero) * v / 99; math.Abs(got-want) > 1e-6 {
			t.Errorf("the bar of %v is %v long, want %v", v, got, want)
		}
	}
	if got, want := d.Length(50), d.ends[3].Center().X-zero; math.Abs(float64(got/want)-50.0/99) > 1e-9 {
		t.Errorf("a distance of 50 is %v long where 99 is %v", got, want)
	}
}

func TestTicks(t *testing.T) {
	for _, c := range []struct {
		top   float64
		width layout.Length
		want  string
	}{
		{18, 541, "best 2 4 6 8 10 12 14 16 18"},
		{41.3, 541, "best 5 10 15 20 25 30 35 40"},
		{41.3, 262, "best 10 20 30 40"},
		{100, 541, "best 20 40 60 80 100"},
		{100, LeastWidth, "best 100"},
	} {
		var got []string
		for _, tick := range New(theme(), c.width, layout.Full, ruler(bars(0, c.top))).ticks() {
			got = append(got, strings.TrimSuffix(tick.text, "\u00a0%"))
		}
		if s := strings.Join(got, " "); s != c.want {
			t.Errorf("ticks to %v in %v pt: %s, want %s", c.top, c.width, s, c.want)
		}
	}
}

// The ruler holds all of the data and never goes past the most that it may.
func TestReach(t *testing.T) {
	for _, c := range []struct{ worst, limit, want float64 }{{0, 0, 18}, {3, 25, 25}, {41, 25, 41}, {100, 0, 100}} {
		chart := ruler(bars(0, c.worst))
		if c.limit > 0 {
			chart.Limits = []Limit{{c.limit, "limit"}}
		}
		r := New(theme(), 541, layout.Full, chart)
		side := float64(r.side(0, c.want)+r.lastNote(c.want)) / float64(r.width) * r.Reach()
		if got := r.scale.GetMax() - side; math.Abs(got-c.want) > 1e-9 {
			t.Errorf("worst %v, limit %v: the ruler goes to %v, want %v", c.worst, c.limit, got, c.want)
		}
	}
}

// What cannot be drawn must not bring the program down.
func TestOddValues(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range []Chart{
		{},
		{Bars: []Bar{{}}},
		{Bars: []Bar{{Value: nan, Low: nan, High: inf}}, Limits: []Limit{{Value: inf}, {Value: -3}}, Zones: []Zone{{To: nan}, {To: -inf}}},
		ruler(bars(-5, 1e-12, 1e12)),
	} {
		for _, width := range []layout.Length{541, LeastWidth, 10} {
			for _, d := range everyDetail {
				r := New(theme(), width, d, c)
				r.Draw(record.New(face.Metrics()), layout.Rect{W: width, H: r.Height()})
			}
		}
	}
}

// TestGalleryFile writes the gallery as a file to look at.
func TestGalleryFile(t *testing.T) {
	name := os.Getenv("CHART_GALLERY")
	if name == "" {
		t.Skip("set CHART_GALLERY to a file name to see the rulers")
	}
	doc := pdf.New(pdf.Options{Paper: layout.Size{W: 600, H: 1300}, Title: "rulers"})
	y := layout.Length(30)
	for _, g := range gallery {
		c := g.Chart
		c.PaintEnd = func(s layout.Surface, at layout.Point, i int) {
			e := c.Bars[i].End
			s.Fill(layout.RectPath(layout.Rect{X: at.X - e.W/2, Y: at.Y - e.H/2, W: e.W, H: e.H}), layout.Color{})
			layout.TextMiddle(s, at, layout.Center, fmt.Sprint(i+1), layout.Face{Weight: layout.Bold, Size: 8}, layout.Color{R: 255, G: 255, B: 255})
		}
		r := New(theme(), 541, layout.Full, c)
		layout.TextAt(doc, layout.Point{X: 30, Y: y}, layout.Left, g.name, layout.Face{Size: 8}, theme().Ink)
		r.Draw(doc, layout.Rect{X: 30, Y: y + 5, W: 541, H: r.Height()})
		y += r.Height() + 20
	}
	b, err := doc.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(name, b, 0o644); err != nil {
		t.Fatal(err)
	}
}

func BenchmarkRuler(b *testing.B) {
	c := ruler(bars(0, 1, 1.3, 2.6, 2.6, 0.6, 2, 1.9, 3.2, 1, 22.1, 29.2), Limit{15.1, "limit 23 psi, 15 %"}, Limit{18.8, "minimum 125 psi"})
	surface := record.New(face.Metrics())
	b.Run("lay", func(b *testing.B) {
		for range b.N {
			New(theme(), 541, layout.Full, c)
		}
	})
	b.Run("draw", func(b *testing.B) {
		r := New(theme(), 541, layout.Full, c)
		for range b.N {
			r.Draw(silent{surface}, layout.Rect{W: 541, H: r.Height()})
		}
	})
}

// silent is a surface that draws nothing, to measure the library alone.
type silent struct{ layout.Surface }

func (silent) Fill(layout.Path, layout.Color)                       {}
func (silent) Stroke(layout.Path, layout.Pen)                       {}
func (silent) Text(layout.Point, string, layout.Face, layout.Color) {}
func (silent) Clip(_ layout.Path, draw func())                      { draw() }

// A zone that has room for its word has it, however little height there is.
func TestZonesAreNamed(t *testing.T) {
	for _, d := range everyDetail {
		r := draw(ruler(bars(0, 1, 2, 17)), 541, d, 0)
		for _, z := range grades() {
			if !slices.ContainsFunc(r.Ruler.head, func(h headWord) bool { return h.text == z.Word }) {
				t.Errorf("%s: the zone %q has no word", d, z.Word)
			}
		}
	}
}

// What is said of a crowd stands in the zone of its bars, not beyond a limit, where it
// could be read of others.
func TestWordsOfACrowdStandInItsZone(t *testing.T) {
	c := ruler(bars(0, 0.2, 0.4, 0.5, 0.9, 1, 1.1, 1.2, 1.3, 1.4, 1.5, 45, 47, 100), Limit{15, "limit 15 %"}, Limit{24, "minimum 100 psi"})
	r := draw(c, 541, layout.Compact, 0)
	for _, n := range r.Ruler.notes {
		if strings.HasPrefix(n.text, "11:") && n.x+n.w > r.Ruler.x(15) {
			t.Errorf("%q ends at %v, behind the limit at %v", n.text, n.x+n.w, r.Ruler.x(15))
		}
	}
}
