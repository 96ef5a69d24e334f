package figure

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"gaugesheet/layout"
	"gaugesheet/layout/face"
	"gaugesheet/layout/record"
)

// randomForm has steps with and without names, and boxes of every kind.
func randomForm(r *rand.Rand) PenForm {
	d := PenForm{Name: "f"}
	named := r.IntN(2) == 0
	for range 1 + r.IntN(5) {
		var s PenStep
		if named {
			s = PenStep{Letter: oneOf(r, "A", "Q", ""), Name: randomText(r, 2), When: randomText(r, 3), Apart: r.IntN(4) == 0}
			s.Joins = len(d.Steps) > 0 && r.IntN(5) == 0
		}
		for range 1 + r.IntN(6) {
			b := PenBox{Label: randomText(r, 3), Unit: oneOf(r, "", "rpm", "ml in 30 s")}
			switch r.IntN(3) {
			case 0:
				b.Choices, b.Ticked = []string{"psi", "one at a time", oneOf(r, "in a cylinder", "")}[:1+r.IntN(3)], []bool{true}
			case 1:
				b.Value = randomText(r, 15)
			}
			s.Boxes = append(s.Boxes, b)
		}
		d.Steps = append(d.Steps, s)
	}
	return d
}

func randomPenTable(r *rand.Rand) PenTable {
	d := PenTable{Name: "t", Tabs: PenColumn{Head: "cyl."}, Tall: r.IntN(3) == 0}
	for i := range 1 + r.IntN(4) {
		d.Columns = append(d.Columns, PenColumn{Letter: oneOf(r, "", "F"), Head: oneOf(r, "gap", "lost %"), Least: layout.Length(10 + i)})
	}
	for range 1 + r.IntN(16) {
		d.Rows = append(d.Rows, oneOf(r, "", "1", "16", "left", "front left, under the screen", "Donaudampfschifffahrtsgesellschaft"))
	}
	return d
}

// randomPenPlan is an engine of 1 to 16 cylinders in one of the ways they stand.
func randomPenPlan(r *rand.Rand) PenPlan {
	plan := placesOf(r, 1+r.IntN(16))
	d := PenPlan{Build: plan.Build, Heads: plan.Heads, Banks: plan.Banks, Front: oneOf(r, "front of engine", ""), Vehicle: "front of vehicle", VehicleAt: Direction(r.IntN(5))}
	if len(plan.Cylinders) < 5 && r.IntN(3) == 0 {
		d.Build, d.Heads, d.Banks = Rotors, nil, nil
		for i := range plan.Cylinders {
			plan.Cylinders[i].X, plan.Cylinders[i].Y = 0, 1.5*float64(i)
		}
	}
	numbered := r.IntN(2) == 0
	for i, c := range plan.Cylinders {
		bore := PenBore{X: c.X, Y: c.Y}
		if numbered {
			bore.Number = fmt.Sprint(i + 1)
		}
		d.Cylinders = append(d.Cylinders, bore)
	}
	return d
}

func TestPenBlocksKeepTheirWords(t *testing.T) {
	for seed := range many(40) {
		r := rand.New(rand.NewPCG(seed, 8))
		for _, b := range []layout.Block{
			NewPenMasthead(PenMasthead{Title: randomText(r, 5), Sub: randomText(r, 20), Brief: randomText(r, 6), Shop: randomText(r, 3)}),
			NewPenForm(randomForm(r)), NewPenTable(randomPenTable(r)),
		} {
			for _, level := range everyLevel {
				width := oneOf[layout.Length](r, 200, 262, 541)
				rec, area := drawn(t, b, width, level, layout.Length(r.IntN(60)))
				checkDrawn(t, fmt.Sprintf("seed %d, %s, %s, %.0f pt", seed, b.Name(), level, width), rec, area)
			}
		}
	}
}

// A boxSpy notes the boxes that are drawn.
type boxSpy struct {
	*record.Recorder
	boxes []layout.Rect
}

func (s *boxSpy) Stroke(p layout.Path, pen layout.Pen) {
	if len(p) == 5 && p[4].Op == layout.Close {
		s.boxes = append(s.boxes, p.Bounds())
	}
	s.Recorder.Stroke(p, pen)
}

// Every box of a form is high and wide enough for a pen, every box to tick is
// of its size and lies in one, and all words stand in a box or before all.
func TestPenBoxesAreLargeEnough(t *testing.T) {
	const least = 7 * layout.MM
	for seed := range many(80) {
		r := rand.New(rand.NewPCG(seed, 9))
		d, level, width := randomForm(r), oneOf(r, everyLevel...), oneOf[layout.Length](r, 262, 541)
		f := NewPenForm(d).Lay(DefaultTheme(face.Metrics()), width, level)
		spy := &boxSpy{Recorder: record.New(face.Metrics())}
		f.Draw(spy, layout.Rect{X: 50, Y: 50, W: width, H: f.Height})
		var boxes, ticks []layout.Rect
		for _, b := range spy.boxes {
			if b.W < penTick+0.01 {
				ticks = append(ticks, b)
				continue
			}
			boxes = append(boxes, b)
			if b.H < least-0.01 || b.W < least-0.01 {
				t.Errorf("seed %d: a box of %.1f x %.1f mm", seed, b.W.MM(), b.H.MM())
			}
		}
		in := func(r layout.Rect) bool {
			return slices.ContainsFunc(boxes, func(b layout.Rect) bool { return b.Contains(r) })
		}
		choices, asked := 0, 0
		for _, s := range d.Steps {
			asked += len(s.Boxes)
			for _, b := range s.Boxes {
				choices += len(b.Choices)
			}
		}
		if len(boxes) != asked || len(ticks) != choices {
			t.Errorf("seed %d: %d boxes and %d ticks drawn, asked for %d and %d", seed, len(boxes), len(ticks), asked, choices)
		}
		for _, tick := range ticks {
			if tick.H < 3.5*layout.MM-0.01 || !in(tick) {
				t.Errorf("seed %d: a box to tick of %.1f mm in no box", seed, tick.H.MM())
			}
		}
		for i, a := range boxes {
			for _, b := range boxes[:i] {
				if a.Overlaps(b) {
					t.Errorf("seed %d: boxes %v and %v overlap", seed, a, b)
				}
			}
		}
	}
}

// Bores and tabs of a plan keep clear of one another in every height that the
// page may give it.
func TestPenPlansKeepClear(t *testing.T) {
	for seed := range many(60) {
		r := rand.New(rand.NewPCG(seed, 10))
		d := randomPenPlan(r)
		rec, area := drawn(t, NewPenPlan(d), oneOf[layout.Length](r, 140, 160), oneOf(r, everyLevel...), layout.Length(r.IntN(200)))
		what := fmt.Sprintf("seed %d, %d cylinders", seed, len(d.Cylinders))
		checkDrawn(t, what, rec, area)
		p, least := arrangedPlan(DefaultTheme(face.Metrics()), d, area.W)
		for h := layout.Length(0); h < 150; h += 10 {
			if places := p.placeIn(layout.Size{W: area.W, H: least + h}, least); len(places.bores) == 0 || p.clash(places) {
				t.Errorf("%s: bores do not keep clear %v pt above the least height", what, h)
			}
		}
	}
}
