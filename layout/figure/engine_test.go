package figure

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"gaugesheet/layout"
	"gaugesheet/layout/face"
	"gaugesheet/layout/record"
)

// many is how many random descriptions are drawn: few of them with -short.
func many(n uint64) uint64 {
	if testing.Short() {
		return max(n/10, 1)
	}
	return n
}

// vEight is an engine of two banks, cylinders 3 and 5 low.
func vEight() EnginePlan {
	d := EnginePlan{Title: "What each cylinder held", Sub: "psi", Build: Leaning,
		Vehicle: Up, Engine: Up, VehicleAt: "front of vehicle and engine",
		Heads:     [][]int{{0, 2, 4, 6}, {1, 3, 5, 7}},
		Banks:     []BankLabel{{"vehicle left", []int{0, 2, 4, 6}}, {"vehicle right", []int{1, 3, 5, 7}}},
		Scales:    []EngineScale{{Title: "pressure, psi", Limits: []EngineLimit{{116, "116", "116 psi: the least that is allowed"}}}},
		Ties:      []Tie{{[2]int{2, 4}, "3 and 5 share a wall and a gasket"}},
		ShapeKeys: [2]string{"after a little oil", "a year ago"},
	}
	for i := range 8 {
		b := CylinderBar{Text: fmt.Sprint(149 + i), Value: float64(149 + i)}
		if i == 2 || i == 4 {
			b = CylinderBar{Text: fmt.Sprint(91 + i), Value: float64(91 + i), Tone: Hatch, Mark: Low, Word: "low, 60 %",
				Marks: []BarMark{{Wedge, 98, "98"}}}
		}
		d.Cylinders = append(d.Cylinders, Cylinder{X: float64(i%2) * 1.8, Y: float64(i / 2), Number: fmt.Sprint(i + 1), Bars: []CylinderBar{b}})
	}
	return d
}

// placesOf are the ways in which n cylinders stand, each with its build and
// its banks.
func placesOf(r *rand.Rand, n int) (d EnginePlan) {
	var banks [2][]int
	kind := r.IntN(8)
	for i := range n {
		var c Cylinder
		switch kind {
		case 0: // one row
			c.Y = float64(i)
		case 1, 2: // two banks, as in a V and in a flat engine
			d.Build = [...]Build{1: Leaning, 2: Lying}[kind]
			c.X, c.Y = float64(i%2)*[...]float64{1: 1.8, 2: 2.6}[kind], float64(i/2)
		case 3: // a narrow V
			c.X, c.Y = float64(i%2)*0.866, float64(i)/2
		case 4: // a W: two banks, each of two rows
			c.X, c.Y = float64(i%2)*2.4+float64(i/2%2)*0.866, float64(i/2)/2
		case 5:
			d.Build = Ring
			radius := 0.5 / math.Sin(math.Pi/float64(max(n, 3)))
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			c.X, c.Y = radius*sin, -radius*cos
		case 6: // anywhere
			c.X, c.Y = float64(i%4)*1.1+r.Float64()*0.1, float64(i/4)*1.1+r.Float64()*0.1
		case 7: // a staggered V, unequal
			d.Build = Leaning
			c.X, c.Y = float64(i%2)*1.8, float64(i/2)+float64(i%2)*0.4
		}
		banks[i%2] = append(banks[i%2], i)
		d.Cylinders = append(d.Cylinders, c)
	}
	if n > 1 && slices.Contains([]int{1, 2, 4, 7}, kind) {
		d.Heads = [][]int{banks[0], banks[1]}
		d.Banks = []BankLabel{{oneOf(r, "vehicle left", "front bank, under the windscreen"), banks[0]}, {"vehicle right (driver side)", banks[1]}}
	}
	if d.Build != Ring && r.IntN(2) == 0 { // across the vehicle
		for i := range d.Cylinders {
			c := &d.Cylinders[i]
			c.X, c.Y = c.Y, c.X
		}
	}
	return d
}

// randomPlan is an engine of 1 to 16 cylinders with any tests.
func randomPlan(r *rand.Rand) EnginePlan {
	n := 1 + r.IntN(16)
	d := placesOf(r, n)
	d.Title, d.Sub = "What each cylinder held", oneOf(r, "", "pressure in psi while the starter turns the engine; cold, throttle open, all plugs out")
	d.Vehicle, d.Engine = oneOf(r, Nowhere, Up), Direction(r.IntN(5))
	d.VehicleAt, d.EngineAt = oneOf(r, "front of vehicle", "vehicle's front, where the driver sits"), oneOf(r, "front of engine", "")
	for _, title := range [][]string{{}, {"pressure, psi"}, {"air lost, %"}, {"pressure, kPa", "air lost, %"}}[r.IntN(4)] {
		s := EngineScale{Title: title, Tones: [Open + 1]string{Hatch: "low", Dense: "very low"}}
		for k := range r.IntN(3) {
			s.Limits = append(s.Limits, EngineLimit{Value: 100 + float64(k)*oneOf(r, 3.0, 30), Label: oneOf(r, "116", "9.8", "20"),
				Key: "116 psi: the least that is allowed, engine handbook p. 112"})
		}
		d.Scales = append(d.Scales, s)
	}
	if len(d.Scales) == 0 || r.IntN(2) == 0 {
		d.Plugs = "spark plug"
	}
	if n <= 4 && r.IntN(4) == 0 {
		d.Build, d.Heads, d.Banks = Rotors, nil, nil
		for i := range d.Cylinders {
			d.Cylinders[i].X, d.Cylinders[i].Y = 0, float64(i)
		}
	}
	long := oneOf(r, false, false, true)
	for i := range d.Cylinders {
		c := &d.Cylinders[i]
		c.Number = fmt.Sprint(i + 1)
		if long {
			c.Number = oneOf(r, "left", "rear left", "R4", "front") + strings.Repeat("*", i)[:min(i, 3)]
		}
		fillRandom(r, &d, c)
	}
	for i := range d.Cylinders[1:] {
		if r.IntN(6) == 0 {
			d.Ties = append(d.Ties, Tie{[2]int{i, min(i+oneOf(r, 1, 2), n-1)}, "3 and 5 share a wall and a gasket"})
		}
	}
	d.ShapeKeys = [2]string{"after a little oil (10 ml)", "earlier, 2 October 2025, where it differs"}
	d.ShapeLists = [2]string{oneOf(r, "", "after a little oil (10 ml):"), ""}
	d.Tabled, d.TabledTitle = r.IntN(4) == 0, d.Title
	d.Captions = []string{oneOf(r, "", "seen from the rear")}
	return d
}

func fillRandom(r *rand.Rand, d *EnginePlan, c *Cylinder) {
	for range d.Scales {
		c.Bars = append(c.Bars, randomBar(r))
	}
	if d.Build == Rotors && len(d.Scales) > 0 && r.IntN(5) > 0 {
		for _, name := range []string{"A", "B", "C"} {
			c.Faces = append(c.Faces, Face{name, randomBar(r)})
		}
	}
	if d.Plugs != "" {
		c.Plug = oneOf(r, PlugWord{Text: "normal"}, PlugWord{Text: "oil-wet", Tone: Hatch}, PlugWord{Text: "detonation", Tone: Faint},
			PlugWord{Text: "gap 1.4 mm", Tone: Faint}, PlugWord{Text: "not tested", Mark: NotTested, Tone: Open}, PlugWord{})
	}
}

func randomBar(r *rand.Rand) CylinderBar {
	if r.IntN(6) == 0 {
		return CylinderBar{Mark: oneOf(r, NotTested, CouldNot, Declined), Word: oneOf(r, "not tested", "plug seized", "could not test", "declined"), Tone: Open}
	}
	v := oneOf(r, 0, 152, 10.5, 96, 1034, math.NaN(), math.Inf(1), -3)
	b := CylinderBar{Text: oneOf(r, "152", "10.5", "1034", "0", "148–152", "150+", "96/120", "7"), Value: v, Open: r.IntN(8) == 0}
	if r.IntN(8) == 0 {
		b.Upto = v + 30
	}
	if r.IntN(3) == 0 {
		b.Tone, b.Mark = Tone(r.IntN(6)), oneOf(r, Low, High, TooClose, LookAgain)
		b.Word = oneOf(r, "low, 62 %", "very low, 9 %", "too close to call", "exhaust, next cylinder", "high", "")
	}
	for shape := range MarkShape(2) {
		if r.IntN(5) == 0 {
			b.Marks = append(b.Marks, BarMark{shape, oneOf(r, 98, 160, 0, 1100, math.NaN()), oneOf(r, "98", "1100")})
		}
	}
	return b
}

// fills is a surface that notes what is filled in an ink.
type fills struct {
	layout.Surface
	ink   layout.Color
	areas []layout.Rect
}

func (f *fills) Fill(p layout.Path, c layout.Color) {
	if c == f.ink {
		f.areas = append(f.areas, p.Bounds())
	}
	f.Surface.Fill(p, c)
}

func TestEnginePlansKeepTheirWords(t *testing.T) {
	for seed := range many(1500) {
		r := rand.New(rand.NewPCG(seed, 1))
		d := randomPlan(r)
		width := oneOf[layout.Length](r, 240, 300, 360, 425, 541)
		level := oneOf(r, everyLevel...)
		what := fmt.Sprintf("seed %d, %d cylinders, %s, %.0f pt", seed, len(d.Cylinders), level, width)
		rec, area := drawn(t, NewEnginePlan(d), width, level, layout.Length(r.IntN(120)))
		checkDrawn(t, what, rec, area)
		checkNumbersAndReadings(t, what, d, level, rec)
		for _, line := range rec.Lines() {
			if strings.Contains(line, "NaN") || strings.Contains(line, "Inf") {
				t.Errorf("%s: %s", what, line)
			}
		}
		if t.Failed() && !testing.Verbose() {
			break
		}
	}
}

// checkNumbersAndReadings reports a number outside a tab, a reading in one,
// and either that is not drawn. White type stands in tabs only.
func checkNumbersAndReadings(t *testing.T, what string, d EnginePlan, level layout.Detail, rec *record.Recorder) {
	t.Helper()
	paper := DefaultTheme(face.Metrics()).Paper
	inTabs, outside := map[string]int{}, map[string]int{}
	for _, text := range rec.Texts() {
		if text.Color == paper {
			inTabs[text.String]++
		} else {
			outside[text.String]++
		}
	}
	if d.Tabled && level == layout.Brief && len(d.Scales) > 0 {
		d.Scales = d.Scales[:1]
	}
	want := map[string]int{}
	for i := range d.Cylinders {
		c := &d.Cylinders[i]
		if inTabs[c.Number] == 0 {
			t.Errorf("%s: %q stands in no tab", what, c.Number)
		}
		for k := range d.Scales {
			for _, b := range barsOf(c, k) {
				if b.Text != "" {
					want[b.Text]++
				}
			}
		}
	}
	for text, n := range want {
		if outside[text] < n {
			t.Errorf("%s: %q is drawn %d times, want %d", what, text, outside[text], n)
		}
	}
	said := textOf(rec)
	for i := range d.Cylinders {
		for k := range d.Scales {
			for _, b := range barsOf(&d.Cylinders[i], k) {
				if b.Text == "" && (k == 0 || len(d.Cylinders[i].Faces) == 0) && !strings.Contains(said, strings.ReplaceAll(b.Word, " ", "")) {
					t.Errorf("%s: why %s was not read is not said: %q", what, d.Cylinders[i].Number, b.Word)
				}
			}
		}
	}
	for text := range inTabs {
		if !slices.ContainsFunc(d.Cylinders, func(c Cylinder) bool { return c.Number == text }) {
			t.Errorf("%s: %q stands in a tab", what, text)
		}
	}
}

// Bars are as long as their values say, on one scale for all cylinders of a
// figure, and none where the value is zero.
func TestBarsAreProportional(t *testing.T) {
	for seed := range many(300) {
		r := rand.New(rand.NewPCG(seed, 7))
		n := 1 + r.IntN(16)
		d := placesOf(r, n)
		d.Scales = []EngineScale{{Title: "pressure, psi"}}
		var values []float64
		for i := range d.Cylinders {
			v := float64(r.IntN(6)) * 40
			d.Cylinders[i].Number = fmt.Sprint(i + 1)
			d.Cylinders[i].Bars = []CylinderBar{{Text: fmt.Sprint(v), Value: v}}
			if v > 0 {
				values = append(values, v)
			}
		}
		th := DefaultTheme(face.Metrics())
		f := NewEnginePlan(d).Lay(th, 541, oneOf(r, everyLevel...))
		s := &fills{Surface: record.New(face.Metrics()), ink: th.Fill}
		f.Draw(s, layout.Rect{W: 541, H: f.Height + min(layout.Length(r.IntN(60)), f.Stretch)})
		if !barsFit(s.areas, values) {
			t.Errorf("seed %d: bars %v are not in proportion to %v", seed, s.areas, values)
		}
	}
}

// barsFit reports whether the areas hold a bar for each value, all lying or
// all standing, with lengths in proportion. Bores may be filled alike; they
// are as wide as they are high, or narrower.
func barsFit(areas []layout.Rect, values []float64) bool {
	for _, length := range []func(layout.Rect) layout.Length{
		func(r layout.Rect) layout.Length { return r.W }, func(r layout.Rect) layout.Length { return r.H },
	} {
		slices.Sort(values)
		for _, unit := range areas {
			if len(values) == 0 {
				return true
			}
			scale := float64(length(unit)) / values[len(values)-1]
			left := slices.Clone(areas)
			ok := true
			for _, v := range values {
				i := slices.IndexFunc(left, func(a layout.Rect) bool { return math.Abs(float64(length(a))-v*scale) < 0.05 })
				if i < 0 {
					ok = false
					break
				}
				left = slices.Delete(left, i, i+1)
			}
			if ok {
				return true
			}
		}
	}
	return len(values) == 0
}

// On a page-wide figure a V8 has each cylinder's bar at the height of its
// bore, away from the engine.
func TestBarsGrowFromTheirOwnCylinders(t *testing.T) {
	d := vEight()
	rec, _ := drawn(t, NewEnginePlan(d), 541, layout.Full, 0)
	for i, c := range d.Cylinders {
		tabs := rec.Find(c.Number)
		value := rec.Find(c.Bars[0].Text)
		if len(value) == 0 {
			t.Fatalf("cylinder %s has no value", c.Number)
		}
		found := slices.ContainsFunc(tabs, func(tab record.Text) bool {
			level := math.Abs(float64(tab.Ink.Center().Y-value[0].Ink.Center().Y)) < 3
			return level && (tab.Ink.X < value[0].Ink.X) == (i%2 == 0)
		})
		if !found {
			t.Errorf("cylinder %s: no tab beside its value, on the outer side", c.Number)
		}
	}
	if tie := rec.Find("share"); len(tie) == 0 {
		t.Error("nothing says what 3 and 5 share")
	}
}

// strokes is a surface that notes the bounds of what is stroked.
type strokes struct {
	layout.Surface
	bounds []layout.Rect
}

func (s *strokes) Stroke(p layout.Path, pen layout.Pen) {
	s.bounds = append(s.bounds, p.Bounds())
	s.Surface.Stroke(p, pen)
}

// nowhere is a surface that keeps nothing.
type nowhere struct{ layout.Measurer }

func (nowhere) Fill(layout.Path, layout.Color)                       {}
func (nowhere) Stroke(layout.Path, layout.Pen)                       {}
func (nowhere) Text(layout.Point, string, layout.Face, layout.Color) {}
func (nowhere) Picture(layout.Rect, layout.Image)                    {}
func (nowhere) Clip(_ layout.Path, draw func())                      { draw() }
func (nowhere) Rotate(_ float64, _ layout.Point, draw func())        { draw() }
func (nowhere) Block(_ string, _ layout.Rect, draw func())           { draw() }

// BenchmarkEngine lays out and draws a V12 with every test.
func BenchmarkEngine(b *testing.B) {
	d := EnginePlan{Title: "What each cylinder made and kept", Build: Leaning, Vehicle: Up, Engine: Up, VehicleAt: "front", Plugs: "spark plug",
		Scales: []EngineScale{{Title: "pressure, psi", Limits: []EngineLimit{{125, "125", "the least"}}}, {Title: "air lost, %"}},
		Banks:  []BankLabel{{"left", nil}, {"right", nil}}}
	for i := range 12 {
		d.Banks[i%2].Cylinders = append(d.Banks[i%2].Cylinders, i)
		d.Cylinders = append(d.Cylinders, Cylinder{X: float64(i%2) * 1.8, Y: float64(i / 2), Number: fmt.Sprint(i + 1), Plug: PlugWord{Text: "normal"},
			Bars: []CylinderBar{{Text: "152", Value: 152, Marks: []BarMark{{Wedge, 160, "160"}}}, {Text: "8", Value: 8}}})
	}
	th := DefaultTheme(face.Metrics())
	for b.Loop() {
		f := NewEnginePlan(d).Lay(th, 541, layout.Full)
		f.Draw(nowhere{face.Metrics()}, layout.Rect{W: 541, H: f.Height})
	}
}
