package engine

import (
	"math"
	"slices"
	"testing"
)

func placeOf(p Plan, name string) Place {
	for _, q := range p.Places {
		if q.Name == name {
			return q
		}
	}
	return Place{X: math.NaN()}
}

// The bank said to be at a side of the vehicle has to be drawn there with the
// vehicle's front up, whichever way the engine lies.
func TestPlanShowsBanksOnTheirSides(t *testing.T) {
	tests := []struct {
		mount, first string
		engineFront  Direction
		cylinderOne  Place // X and Y relative to cylinder 2, opposite: sign only
		next         Place // where cylinder 3 lies from cylinder 1: sign only
	}{
		{FrontLengthwise, "left", Up, Place{X: -1}, Place{Y: 1}},
		{FrontLengthwise, "right", Up, Place{X: 1}, Place{Y: 1}},
		{FrontCrosswiseLeft, "front", ToLeft, Place{Y: -1}, Place{X: 1}},
		{FrontCrosswiseLeft, "rear", ToLeft, Place{Y: 1}, Place{X: 1}},
		{FrontCrosswiseRight, "front", ToRight, Place{Y: -1}, Place{X: -1}},
		{FrontCrosswiseRight, "rear", ToRight, Place{Y: 1}, Place{X: -1}},
		{"", "front", NotShown, Place{Y: -1}, Place{X: 1}},
		{Mid, "left", Up, Place{X: -1}, Place{Y: 1}},
	}
	for _, tt := range tests {
		t.Run(tt.mount+" "+tt.first, func(t *testing.T) {
			p := mustNew(t, Spec{Layout: "V6", Numbering: AcrossBanks, FirstBank: tt.first, Mount: tt.mount}).Plan()
			if p.EngineFront != tt.engineFront {
				t.Errorf("engine front %v, want %v", p.EngineFront, tt.engineFront)
			}
			checkDirection(t, placeOf(p, "2"), placeOf(p, "1"), tt.cylinderOne)
			checkDirection(t, placeOf(p, "1"), placeOf(p, "3"), tt.next)
		})
	}
}

func checkDirection(t *testing.T, from, to, want Place) {
	t.Helper()
	sign := func(v float64) float64 {
		switch {
		case v > 1e-9:
			return 1
		case v < -1e-9:
			return -1
		}
		return 0
	}
	if sign(to.X-from.X) != want.X || sign(to.Y-from.Y) != want.Y {
		t.Errorf("%s lies at (%g, %g) from %s, want the signs (%g, %g)", to.Name, to.X-from.X, to.Y-from.Y, from.Name, want.X, want.Y)
	}
}

func TestPlanSaysWhatIsNotRecorded(t *testing.T) {
	tests := []struct {
		spec    Spec
		vehicle Direction
		engine  Direction
		open    []Open
	}{
		{Spec{Layout: "inline-4", Mount: FrontLengthwise}, Up, Up, nil},
		{Spec{Layout: "inline-4", Mount: FrontCrosswiseRight}, Up, ToRight, nil},
		{Spec{Layout: "inline-4", Mount: OnStand}, NotShown, Up, nil},
		{Spec{Layout: "inline-4", Mount: Rear}, NotShown, Up, []Open{{What: OpenFront}}},
		{Spec{Layout: "inline-4"}, NotShown, Up, []Open{{What: OpenFront}}},
		{Spec{Layout: "V2", FirstBank: "front"}, Up, NotShown, nil},
		{Spec{Layout: "V4", FirstBank: "front", Numbering: AcrossBanks}, Up, NotShown,
			[]Open{{What: OpenFrontCrosswise}}},
		{Spec{Layout: "narrow-V4", Mount: OnStand}, NotShown, Up, []Open{{OpenRow, "1"}}},
		{Spec{Layout: "narrow-V4", Mount: OnStand, FirstBank: "right"}, NotShown, Up, nil},
		{Spec{Layout: "radial-5", Mount: FrontLengthwise}, NotShown, NotShown, nil},
	}
	for _, tt := range tests {
		p := mustNew(t, tt.spec).Plan()
		if p.VehicleFront != tt.vehicle || p.EngineFront != tt.engine || !slices.Equal(p.Open, tt.open) {
			t.Errorf("%+v: vehicle %v, engine %v, open %v; want %v, %v, %v", tt.spec,
				p.VehicleFront, p.EngineFront, p.Open, tt.vehicle, tt.engine, tt.open)
		}
	}
}

// Radials: cylinder 1 at the top, numbers clockwise seen from the rear
// (aviation dictionary, "cylinder numbering").
func TestRadialRunsClockwiseFromTheTop(t *testing.T) {
	p := mustNew(t, Spec{Layout: "radial-7"}).Plan()
	one := placeOf(p, "1")
	if one.Y != 0 || math.Abs(one.X-p.Width/2) > 1e-9 {
		t.Errorf("cylinder 1 at (%g, %g), want the middle of the top of %g", one.X, one.Y, p.Width)
	}
	checkDirection(t, one, placeOf(p, "2"), Place{X: 1, Y: 1})
	checkDirection(t, one, placeOf(p, "7"), Place{X: -1, Y: 1})
	if p.View != "seen from the rear" {
		t.Errorf("view %q", p.View)
	}
}

// No two cylinders may be drawn on top of each other, in any layout.
func TestPlanKeepsCylindersApart(t *testing.T) {
	for _, preset := range Known() {
		p := mustNew(t, preset.Spec).Plan()
		for i, a := range p.Places {
			for _, b := range p.Places[:i] {
				if d := math.Hypot(a.X-b.X, a.Y-b.Y); d < 1-1e-9 {
					t.Errorf("%s: %s and %s are %.2f pitches apart", preset.Name, a.Name, b.Name, d)
				}
			}
			if a.X < 0 || a.Y < 0 || a.X > p.Width+1e-9 || a.Y > p.Height+1e-9 {
				t.Errorf("%s: %s is outside the plan", preset.Name, a.Name)
			}
		}
	}
}

func TestRotors(t *testing.T) {
	e := mustNew(t, Spec{Layout: "rotary-2", Names: []string{"front", "rear"}, FiringOrder: []string{"front", "rear"}})
	if len(e.Cylinders) != 0 || len(e.Rotors) != 2 || e.Rotors[1].Name != "rear" || len(e.Plan().Places) != 2 {
		t.Errorf("rotors %+v, cylinders %v", e.Rotors, e.Cylinders)
	}
	if e.Rotors[0].Faces != [3]string{"A", "B", "C"} {
		t.Errorf("faces %v", e.Rotors[0].Faces)
	}
}
