package diag_test

import (
	"math"
	"slices"
	"testing"

	. "gaugesheet/diag"
	"gaugesheet/diag/engine"
	"gaugesheet/diag/quantity"
)

func lost(percent ...float64) Leak { return Leak{Reading: read(percent...)} }

func TestLeakage(t *testing.T) {
	test := &Test{Engine: inline(t, 4), Leakage: &Leakage{State: Tested, Limit: new(25.0), Dry: map[string]Leak{
		"1": lost(10), "2": {Reading: read(25), At: []string{"exhaust"}}, "3": lost(40), "4": {Reading: Reading{State: CouldNot, Reason: "plug seized"}},
	}, Wet: map[string]Leak{"3": lost(20)}}}
	l := Assess(test).Leakage
	if l.State != Tested || l.Complete || l.N != 3 || l.Median != 25 {
		t.Errorf("%+v", l)
	}
	// FAA AC 43.13-1B, para 8-14: a loss in excess of 25 percent is suspect;
	// 60/80 is 25 percent and not in excess. With the tester's uncertainty it
	// cannot be told: 2 sqrt(1 + (3 percent of 25 / sqrt 3)^2) = 2.18 points.
	if c := l.Cylinder("2"); c.Verdict != TooClose || c.PastAsRead || !near(c.Uncertainty, 2.18, 0.005) || c.At[0] != "exhaust" {
		t.Errorf("60/80: %+v", c)
	}
	if c := l.Cylinder("1"); c.Verdict != Within || *c.Loss != 10 {
		t.Errorf("72/80: %+v", c)
	}
	if c := l.Cylinder("3"); c.Verdict != Outside || !c.PastAsRead || *c.Wet != 20 {
		t.Errorf("48/80: %+v", c)
	}
	if c := l.Cylinder("4"); c.State != CouldNot || c.Reason != "plug seized" || c.Loss != nil || c.Verdict != NotJudged {
		t.Errorf("could not test: %+v", c)
	}
	test.Leakage.Limit = nil
	if c := Assess(test).Leakage.Cylinder("3"); c.Verdict != NotJudged || c.Loss == nil {
		t.Errorf("no limit: %+v", c)
	}
	test.Leakage.Dry["1"] = lost(10, 16)
	if c := Assess(test).Leakage.Cylinder("1"); c.Loss != nil || c.State != Tested {
		t.Errorf("repeats 6 points apart: %+v", c)
	}
}

func TestPlugs(t *testing.T) {
	test := &Test{Engine: inline(t, 4), Plugs: &Plugs{State: Tested, GapMM: 1.1, GapTolMM: 0.1, ByCylinder: map[string]Plug{
		"1": {State: Tested, Look: "normal", GapMM: new(1.2)},
		"2": {State: Tested, Look: "oil-wet", GapMM: new(1.25), Photo: "P4", Note: "loose"},
		"3": {State: CouldNot, Reason: "seized"},
		"4": {State: Tested, Look: "sooty"},
	}}}
	p := Assess(test).Plugs
	if p.State != Tested || p.Complete || p.N != 3 {
		t.Errorf("%+v", p)
	}
	for i, want := range []PlugResult{
		{Gap: Within, GapText: "1.2\u00a0mm"}, {Gap: Outside, GapText: "1.25\u00a0mm"}, {Gap: NotJudged}, {Gap: NotJudged},
	} {
		if got := p.Cylinders[i]; got.Gap != want.Gap || got.GapText != want.GapText {
			t.Errorf("%+v", got)
		}
	}
	if c := p.Cylinders[2]; c.State != CouldNot || c.Reason != "seized" {
		t.Errorf("%+v", c)
	}
	test.Plugs.GapTolMM = 0 // 0.1 mm, common practice
	if got := Assess(test).Plugs.Cylinders[0].Gap; got != Within {
		t.Errorf("no tolerance: %s", got)
	}
	test.Plugs.GapMM = 0
	if got := Assess(test).Plugs.Cylinders[1].Gap; got != NotJudged {
		t.Errorf("no book gap: %s", got)
	}
}

func rotors(t *testing.T, unit quantity.Unit, faces ...[]float64) *Test {
	t.Helper()
	section := &Rotors{State: Tested, Unit: unit}
	for i, values := range faces {
		r := Rotor{Name: []string{"front", "rear"}[i], State: Tested}
		for _, v := range values {
			r.Faces = append(r.Faces, read(v))
		}
		section.Rotors = append(section.Rotors, r)
	}
	return &Test{Engine: made(t, engine.Spec{Layout: "rotary-2"}), Spec: Spec{Fuel: "petrol"}, Rotors: section}
}

func TestRotors(t *testing.T) {
	kgf := func(v float64) *Limit { return &Limit{Value: v, Unit: quantity.KgfPerCm2} }
	test := rotors(t, quantity.KgfPerCm2, []float64{7.4, 7.2, 7.3}, []float64{7.0, 6.9, 5.1})
	r := Assess(test).Rotors
	if r.State != Tested || !r.Complete || len(r.Limits) != 0 || len(r.Rotors[0].LowFaces) != 0 || !slices.Equal(r.Rotors[1].LowFaces, []int{2}) {
		t.Errorf("%+v", r)
	}
	if rear := r.Rotors[1]; rear.Best != 7.0 || !near(rear.Difference, 1.9, 1e-9) || !near(rear.Mean, 19.0/3, 1e-9) || rear.Grade[2] != Low || rear.Grade[1] != Even {
		t.Errorf("%+v", rear)
	}
	// Limits of one maker, common practice: 6.9 kgf/cm2, 1.5 and 1.0.
	test.Rotors.Minimum, test.Rotors.Faces, test.Rotors.Apart = kgf(6.9), kgf(1.5), kgf(1.0)
	test.Rotors.Minimum.Kind = Minimum
	r = Assess(test).Rotors
	for i, want := range []LimitResult{
		{Rule: "minimum", Value: 5.1, Cylinder: "rear", Verdict: Outside},
		{Rule: "between faces", Value: 1.9, Cylinder: "rear", Verdict: Outside},
		{Rule: "between rotors", Value: 7.3 - 19.0/3, Cylinder: "rear", Verdict: TooClose},
	} {
		if got := r.Limits[i]; got.Rule != want.Rule || !near(got.Value, want.Value, 1e-9) || got.Cylinder != want.Cylinder || got.Verdict != want.Verdict {
			t.Errorf("%+v", got)
		}
	}
	// 6.9 is at the minimum, 5.1 under it.
	if !slices.Equal(r.Rotors[1].LowFaces, []int{2}) {
		t.Errorf("low faces %v", r.Rotors[1].LowFaces)
	}
}

func TestWornRotors(t *testing.T) {
	// Even in each rotor and all far under the minimum of 680 kPa: every face
	// is low, none by its rotor's best.
	test := rotors(t, quantity.KPa, []float64{581, 556, 554}, []float64{393, 392, 347})
	test.Rotors.Minimum = &Limit{Kind: Minimum, Value: 680, Unit: quantity.KPa}
	test.Rotors.Faces = &Limit{Value: 150, Unit: quantity.KPa}
	test.Rotors.Apart = &Limit{Value: 100, Unit: quantity.KPa}
	r := Assess(test).Rotors
	if len(r.Rotors[0].LowFaces) != 3 || len(r.Rotors[1].LowFaces) != 3 || r.Rotors[0].Grade[2] != Even {
		t.Errorf("%+v", r.Rotors)
	}
	if l := r.Limits[2]; !near(l.Value, 186.3, 0.05) || l.Verdict != Outside {
		t.Errorf("between rotors: %+v", l)
	}
	if l := r.Limits[1]; l.Value != 46 || l.Verdict != Within {
		t.Errorf("between faces: %+v", l)
	}
}

func TestRotorWithoutPressure(t *testing.T) {
	r := Assess(rotors(t, quantity.PSI, []float64{117, 110, 112}, []float64{102, 100, 0})).Rotors
	if rear := r.Rotors[1]; rear.Grade[2] != NoPressure || !slices.Equal(rear.LowFaces, []int{2}) {
		t.Errorf("%+v", rear)
	}
	test := rotors(t, quantity.PSI, []float64{117, 110, 112}, nil)
	test.Rotors.Rotors[1].State, test.Rotors.Rotors[1].Reason = CouldNot, "starter failed"
	test.Rotors.Apart = &Limit{Value: 15, Unit: quantity.PSI}
	r = Assess(test).Rotors
	if r.Complete || r.Rotors[1].State != CouldNot || r.Rotors[1].Reason != "starter failed" || r.Limits[0].Reason != "single-rotor" {
		t.Errorf("%+v", r)
	}
}

func TestFacesThatCannotBeJudged(t *testing.T) {
	test := rotors(t, quantity.PSI, []float64{117, 90, 112}, []float64{102, 100, 101})
	test.Rotors.Rotors[0].Faces[1] = read(90, 110)
	test.Rotors.Rotors[1].Faces[0] = Reading{State: Tested, Kind: AtLeast, Values: []float64{60}}
	test.Rotors.Faces = &Limit{Value: 20, Unit: quantity.PSI}
	r := Assess(test).Rotors
	for i, rotor := range r.Rotors {
		if len(rotor.Values) != 3 || len(rotor.LowFaces) != 0 || rotor.Grade[1-i] != GradeNotJudged || rotor.Grade[2] != Even {
			t.Errorf("%+v", rotor)
		}
	}
	if l := r.Limits[0]; l.Verdict != Within || l.Value != 5 || l.Cylinder != "front" {
		t.Errorf("%+v", l)
	}
	test.Conditions.Throttle = "closed"
	test.Rotors.Minimum = &Limit{Kind: Minimum, Value: 110, Unit: quantity.PSI}
	r = Assess(test).Rotors
	if len(r.Rotors[1].LowFaces) != 0 || r.Limits[0].Reason != "throttle-closed" || r.Rotors[0].Grade[0] != GradeNotJudged {
		t.Errorf("throttle closed: %+v", r)
	}
}

func fuelled(c Circuit) *Test {
	return &Test{Spec: Spec{Fuel: "petrol"}, Fuel: &FuelPressure{State: Tested, Unit: quantity.PSI, System: "port, return line", Circuits: []Circuit{c}}}
}

func pressure(v ...float64) *Reading { r := read(v...); return &r }

func TestFuelPressure(t *testing.T) {
	test := fuelled(Circuit{KeyOn: pressure(31), Limits: []FuelLimit{{For: "key-on", Low: 38, High: 44, Entered: "38-44 psi", Source: "workshop manual"}}})
	test.Gauges.Fuel = gradeB(t)
	test.Gauges.Fuel.High = 100
	f := Assess(test).Fuel
	c := f.Circuits[0]
	// Grade B on 0-100 psi, middle half: 2 psi; 2 sqrt(0.25^2 + (2/sqrt 3)^2) = 2.36.
	r := c.Reading("key-on")
	if f.State != Tested || r.Verdict != Outside || !r.PastAsRead || !near(r.Uncertainty, 2.36, 0.005) || *r.LimitLow != 38 || *r.LimitHigh != 44 || r.Source != "workshop manual" {
		t.Errorf("%+v", r)
	}
	// 100 sqrt(31/41), the root law of an orifice, common practice.
	if c.InjectorFlowPercent == nil || !near(*c.InjectorFlowPercent, 87.0, 0.05) || c.AcrossInjector || c.RegulatorRise != nil {
		t.Errorf("%+v", c)
	}
	if c.Reading("idle") != nil {
		t.Error("idle was not read")
	}
}

func TestRegulator(t *testing.T) {
	vacuum := 18 * 3.386389 // kPa; NIST SP 811, appendix B.8
	test := fuelled(Circuit{KeyOn: pressure(41), Idle: pressure(33), HoseOff: pressure(42), ManifoldVacuum: &vacuum,
		Limits: []FuelLimit{{For: "key-on", Low: 38, High: 44}, {For: "hose-off", Low: 36, High: 42}, {For: "idle", Low: 20, High: math.Inf(1)}}})
	c := Assess(test).Fuel.Circuits[0]
	if *c.RegulatorRise != 9 || !near(c.RegulatorRiseU, 2*math.Sqrt2*0.25, 1e-9) || !near(*c.ExpectedRise, 8.84, 0.005) {
		t.Errorf("%+v", c)
	}
	// At idle the pressure across the injector is rail plus vacuum, 41.84 psi.
	if !c.AcrossInjector || !near(*c.InjectorFlowPercent, 100*math.Sqrt(41.84/41), 0.01) {
		t.Errorf("flow %v, across %v", *c.InjectorFlowPercent, c.AcrossInjector)
	}
	if r := c.Reading("hose-off"); r.Verdict != TooClose || r.PastAsRead {
		t.Errorf("at the limit: %+v", r)
	}
	if r := c.Reading("idle"); r.Verdict != Within || r.LimitHigh != nil {
		t.Errorf("only a lower limit: %+v", r)
	}
	test.Fuel.System = "carburettor"
	if got := Assess(test).Fuel.Circuits[0].InjectorFlowPercent; got != nil {
		t.Errorf("a carburettor has no injectors: %v", *got)
	}
}

func TestInjectorFlowNeedsAMiddle(t *testing.T) {
	for _, limits := range [][]FuelLimit{nil, {{For: "key-on", Low: 38, High: math.Inf(1)}}, {{For: "key-on", Low: math.Inf(-1), High: 44}}} {
		if got := Assess(fuelled(Circuit{KeyOn: pressure(41), Limits: limits})).Fuel.Circuits[0].InjectorFlowPercent; got != nil {
			t.Errorf("%+v: %v", limits, *got)
		}
	}
}

func TestHold(t *testing.T) {
	at := func(minutes, v float64) HoldReading { return HoldReading{Minutes: minutes, Reading: read(v)} }
	// Common practice: still more than 36 psi after 5 min.
	c := Assess(fuelled(Circuit{Hold: []HoldReading{at(1, 30), at(5, 30), at(10, 60)},
		Limits: []FuelLimit{{For: "hold", Low: 36, High: math.Inf(1), Minutes: 5, Entered: "at least 36 psi after 5 min"}}})).Fuel.Circuits[0]
	// Pressure that is shut in falls: what is under the limit before its time is
	// so at its time, and what is above it later was so then.
	for i, want := range []Verdict{Outside, Outside, Within} {
		if got := c.Hold[i]; got.Verdict != want || got.LimitLow == nil || got.LimitMinutes != 5 {
			t.Errorf("after %v min: %+v", got.Minutes, got)
		}
	}
	c = Assess(fuelled(Circuit{Hold: []HoldReading{at(1, 50), at(10, 30)}, Limits: []FuelLimit{{For: "hold", Low: 36, High: math.Inf(1), Minutes: 5}}})).Fuel.Circuits[0]
	for _, got := range c.Hold {
		if got.Verdict != NotJudged || got.PastAsRead || got.LimitLow == nil {
			t.Errorf("what says nothing of another time: %+v", got)
		}
	}
	c = Assess(fuelled(Circuit{Hold: []HoldReading{at(1, 50), at(5, 30)}, Limits: []FuelLimit{{For: "hold", Low: 36, High: math.Inf(1)}}})).Fuel.Circuits[0]
	if c.Hold[0].Verdict != Within || c.Hold[1].Verdict != Outside {
		t.Errorf("a limit without a time holds at any: %+v", c.Hold)
	}
}

func TestFuelVolume(t *testing.T) {
	// Common practice: one US pint, 473 ml, in 30 s is 946 ml per minute.
	c := Assess(fuelled(Circuit{VolumeML: 473.2, VolumeSeconds: 30, Limits: []FuelLimit{{For: "volume", Low: 1000, High: math.Inf(1)}}})).Fuel.Circuits[0]
	if c.Volume == nil || !near(c.Volume.PerMinute, 946, 0.5) || c.Volume.Verdict != Outside {
		t.Errorf("%+v", c.Volume)
	}
	if c := Assess(fuelled(Circuit{KeyOn: pressure(40)})).Fuel.Circuits[0]; c.Volume != nil {
		t.Errorf("not taken: %+v", c.Volume)
	}
}

func TestFuelCircuitsAreJudgedApart(t *testing.T) {
	test := fuelled(Circuit{Name: "front tank", KeyOn: pressure(41), Limits: []FuelLimit{{For: "key-on", Low: 35, High: 47}}})
	test.Fuel.Circuits = append(test.Fuel.Circuits, Circuit{Name: "rear tank", KeyOn: pressure(20), Limits: []FuelLimit{{For: "key-on", Low: 35, High: 47}}},
		Circuit{Name: "spare", KeyOn: pressure(30, 45), Limits: []FuelLimit{{For: "key-on", Low: 35, High: 47}}})
	f := Assess(test).Fuel
	for i, want := range []Verdict{Within, Outside, NotJudged} {
		if got := f.Circuits[i].Readings[0]; got.Verdict != want || got.Disagree != (i == 2) {
			t.Errorf("%s: %+v", f.Circuits[i].Name, got)
		}
	}
}

func TestLowerBoundOfFuelPressure(t *testing.T) {
	for _, row := range []struct {
		value, low, high float64
		want             Verdict
	}{{30, 38, 44, NotJudged}, {42, 38, 44, NotJudged}, {60, 38, 44, Outside}, {60, 38, math.Inf(1), Within}, {30, 38, math.Inf(1), NotJudged}} {
		at := pressure(row.value)
		at.Kind = AtLeast
		c := Assess(fuelled(Circuit{KeyOn: at, Limits: []FuelLimit{{For: "key-on", Low: row.low, High: row.high}}})).Fuel.Circuits[0]
		if got := c.Reading("key-on").Verdict; got != row.want {
			t.Errorf("over %v against %v to %v: %s, want %s", row.value, row.low, row.high, got, row.want)
		}
	}
}

// The place of the air without a figure is a test made, though not a complete
// one.
func TestLeakagePlacesWithoutAFigure(t *testing.T) {
	test := &Test{Engine: inline(t, 2), Leakage: &Leakage{State: Tested, Dry: map[string]Leak{
		"1": {Reading: Reading{State: Tested}, At: []string{"crankcase", "exhaust"}, Most: "crankcase"},
	}}}
	l := Assess(test).Leakage
	one := l.Cylinder("1")
	if l.State != Tested || l.Complete || l.N != 0 || one.State != Tested || one.Loss != nil || len(one.At) != 2 || one.Most != "crankcase" || one.Verdict != NotJudged {
		t.Errorf("%+v", l)
	}
	test.Leakage = &Leakage{Wet: map[string]Leak{"2": {Reading: Reading{State: Tested}, At: []string{"inlet"}}}}
	if got := Assess(test).Leakage.State; got != Tested {
		t.Errorf("a place heard with oil in: %s", got)
	}
}

// The book's usual figure is handed on, and no limit.
func TestStandardIsNoLimit(t *testing.T) {
	test := cranked(t, 150, 151, 149, 150)
	test.Compression.Standard = &Standard{Low: 170, High: 190, Unit: quantity.PSI, Entered: "170-190 psi"}
	if c := Assess(test).Compression; c.Standard != test.Compression.Standard || !c.DefaultLimit || len(c.Limits) != 1 || c.Limits[0].Verdict != Within {
		t.Errorf("%+v", c)
	}
}
