package figure

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"gaugesheet/layout"
	"gaugesheet/layout/face"
	"gaugesheet/layout/record"
)

func samplePressures() Pressures {
	c := Circuit{Captions: []string{"Regulator: rises 9 psi.", "Gauge good to 2 psi."}}
	for i, name := range []string{"key on", "idle", "hose off", "snap", "after 5 min"} {
		v := 38 + 0.7*float64(i) // five readings within 3 psi
		c.Readings = append(c.Readings, Reading{Name: name, Value: v, From: v, To: v, Text: fmt.Sprintf("%.1f", v), Low: v - 2, High: v + 2})
	}
	c.Readings[0].Allowed = &Allowed{40, 44, "40 to 44", ""}
	c.Readings[4].Allowed = &Allowed{20, math.Inf(1), "20 or more", ""}
	return Pressures{Title: "Fuel pressure", Unit: "psi", Sub: startOf, Circuits: []Circuit{c}}
}

func startOf(start string) string {
	if start == "" {
		return "psi"
	}
	return "psi; the scale starts at " + start
}

func randomPressures(r *rand.Rand) Pressures {
	d := Pressures{Title: "Fuel pressure", Sub: startOf, Unit: "psi"}
	n := 1 + r.IntN(3)
	for i := range n {
		c := Circuit{Captions: []string{randomText(r, 30)}}
		if n > 1 {
			c.Name = oneOf(r, "front tank", "rear tank", "the tank under the floor, by the spare wheel") + fmt.Sprint(i)
		}
		base := oneOf(r, 3.0, 40, 300)
		for k := range r.IntN(8) {
			v := base * oneOf(r, 0.2, 0.97+0.06*r.Float64()) // several within a few psi
			row := Reading{Name: oneOf(r, "key on", "idle", "hose off", "held after ten minutes, engine hot"), Value: v, From: v, To: v,
				Text: fmt.Sprintf("%.1f", v) + strings.Repeat(" ", k%2) + oneOf(r, "", "", " over"), Low: v - base*0.03, High: v + base*0.03, Mark: Mark(r.IntN(9)), More: r.IntN(9) == 0}
			if r.IntN(6) == 0 {
				row.From, row.To = v*0.95, v*1.05
			}
			if r.IntN(2) == 0 {
				row.Allowed = &Allowed{oneOf(r, base*0.9, math.Inf(-1)), oneOf(r, base*(1+0.1*r.Float64()), math.Inf(1)), oneOf(r, "40 to 44", "at least 30", "at least 300.5 at 10 min"), ""}
			}
			c.Readings = append(c.Readings, row)
		}
		d.Circuits = append(d.Circuits, c)
	}
	return d
}

// pointers is a surface that notes the middles of the readings' markers and the
// places of vertical edges.
type pointers struct {
	*record.Recorder
	middles []layout.Point
}

func (p *pointers) Fill(path layout.Path, c layout.Color) {
	if box := path.Bounds(); c == (layout.Color{}) && len(path) == 5 && math.Abs(float64(box.W-2*pointer)) < 0.01 && math.Abs(float64(box.H-2*pointer)) < 0.01 {
		p.middles = append(p.middles, box.Center())
	}
	p.Recorder.Fill(path, c)
}

// One scale serves all circuits: every marker stands at its value by the numbers
// printed under it, and none is left out.
func TestReadingsStandAtTheirValues(t *testing.T) {
	th := DefaultTheme(face.Metrics())
	for seed := range many(150) {
		r := rand.New(rand.NewPCG(seed, 6))
		d := randomPressures(r)
		width := oneOf[layout.Length](r, 200, 213, 262, 541)
		f := NewPressures(d).Lay(th, width, oneOf(r, everyLevel...))
		p := &pointers{Recorder: record.New(face.Metrics())}
		area := layout.Rect{X: 50, Y: 50, W: width, H: f.Height}
		f.Draw(p, area)
		checkDrawn(t, fmt.Sprintf("seed %d", seed), p.Recorder, area)
		columns := []layout.Rect{area}
		if width >= twoBands && d.count() >= rowsForTwo {
			columns = area.Columns(2, 2*wide)
		}
		var want []float64
		for _, c := range d.Circuits {
			for _, row := range c.Readings {
				if len(p.Find(strings.Fields(row.Text)[0])) == 0 {
					t.Errorf("seed %d: the value %q is not printed", seed, row.Text)
				}
				if row.From == row.To {
					want = append(want, row.Value)
				}
			}
		}
		if len(p.middles) != len(want) {
			t.Fatalf("seed %d: %d markers, want %d", seed, len(p.middles), len(want))
		}
		for i := range want {
			value, ok := scaleOf(p.Recorder, columns, p.middles[i])
			if got := value(p.middles[i].X); ok && math.Abs(got-want[i]) > 0.002*math.Abs(want[i])+0.002 {
				t.Errorf("seed %d: a reading of %.2f is marked at %.2f by the scale", seed, want[i], got)
			}
		}
	}
}

// scaleOf gives the value at a place from the numbers under the scale of its
// column alone.
func scaleOf(r *record.Recorder, columns []layout.Rect, at layout.Point) (func(layout.Length) float64, bool) {
	column := columns[0]
	for _, c := range columns {
		if at.X > c.X {
			column = c
		}
	}
	var xs, vs []float64
	bottom := layout.Length(0)
	for _, text := range r.Texts() {
		v, err := strconv.ParseFloat(text.String, 64)
		if err != nil || !column.Contains(text.Ink) || text.Face.Weight == layout.Bold || text.Face.Size > 7.6 || text.Rect.Y < bottom {
			continue
		}
		if text.Rect.Y > bottom+1 {
			xs, vs, bottom = nil, nil, text.Rect.Y
		}
		xs, vs = append(xs, float64(text.Rect.Center().X)), append(vs, v)
	}
	if len(xs) < 2 {
		return func(layout.Length) float64 { return 0 }, false
	}
	last := len(xs) - 1
	return func(x layout.Length) float64 {
		return vs[0] + (float64(x)-xs[0])*(vs[last]-vs[0])/(xs[last]-xs[0])
	}, true
}

func TestScaleSaysWhereItStarts(t *testing.T) {
	for _, test := range []struct {
		values []float64
		want   string
	}{
		{[]float64{39, 31, 40, 36}, "psi; the scale starts at 30"},
		{[]float64{33, 27, 14}, "psi"},
		{[]float64{0, 40}, "psi"},
		{[]float64{301, 305}, "psi; the scale starts at 300"},
	} {
		var c Circuit
		for i, v := range test.values {
			c.Readings = append(c.Readings, Reading{Name: fmt.Sprint("row", i), Value: v, From: v, To: v, Low: v, High: v, Text: fmt.Sprint(v)})
		}
		rec, _ := drawn(t, NewPressures(Pressures{Title: "Fuel pressure", Sub: startOf, Circuits: []Circuit{c}}), 220, layout.Full, 0)
		if got := rec.Find("psi"); len(got) != 1 || !strings.HasPrefix(got[0].String, test.want) {
			t.Errorf("%v: says %v, want %q", test.values, got, test.want)
		}
	}
}

func TestCloseReadingsEachHaveARow(t *testing.T) {
	rec, area := drawn(t, NewPressures(samplePressures()), 220, layout.Brief, 0)
	checkDrawn(t, "five readings within 3 psi", rec, area)
	for _, r := range samplePressures().Circuits[0].Readings {
		name, value := rec.Find(r.Name), rec.Find(r.Text)
		if len(name) != 1 || len(value) != 1 {
			t.Fatalf("%s: drawn %d times, its value %d times", r.Name, len(name), len(value))
		}
		if a, b := name[0].Rect.Center().Y, value[0].Rect.Center().Y; math.Abs(float64(a-b)) > 1 {
			t.Errorf("%s: its value stands %.1f pt from its line", r.Name, b-a)
		}
	}
}
