package diag_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"

	. "gaugesheet/diag"
	"gaugesheet/diag/engine"
	"gaugesheet/diag/gauge"
	"gaugesheet/diag/quantity"
)

func near(got, want, tolerance float64) bool { return math.Abs(got-want) <= tolerance }

func inline(t testing.TB, n int) *engine.Engine {
	t.Helper()
	layout := fmt.Sprintf("inline-%d", n)
	if n == 1 {
		layout = "single"
	}
	return made(t, engine.Spec{Layout: layout})
}

func made(t testing.TB, spec engine.Spec) *engine.Engine {
	t.Helper()
	e, problems := engine.New(spec)
	if e == nil || len(problems) > 0 {
		t.Fatalf("engine %+v: %v", spec, problems)
	}
	return e
}

func read(values ...float64) Reading { return Reading{State: Tested, Values: values} }

// cranked is a compression test of an engine in line, in psi, warm and with an
// open throttle; a negative value stands for a cylinder that was not tested.
func cranked(t testing.TB, values ...float64) *Test {
	t.Helper()
	dry := map[string]Reading{}
	for i, v := range values {
		name := fmt.Sprint(i + 1)
		if v < 0 {
			dry[name] = Reading{State: NotTested}
			continue
		}
		dry[name] = read(v)
	}
	return &Test{
		Engine:      inline(t, len(values)),
		Spec:        Spec{Fuel: "petrol"},
		Conditions:  Conditions{Engine: "warm", Throttle: "open"},
		Compression: &Compression{State: Tested, Unit: quantity.PSI, Dry: dry},
	}
}

func limited(test *Test, limits ...Limit) *Test {
	test.Compression.Limits = limits
	return test
}

func psi(kind LimitKind, v float64) Limit {
	return Limit{Kind: kind, Value: v, Unit: quantity.PSI, Entered: fmt.Sprint(v, " psi"), Source: "workshop manual"}
}

func percent(kind LimitKind, v float64, of Basis) Limit {
	return Limit{Kind: kind, Of: of, Value: v, Unit: quantity.Percent, Entered: fmt.Sprint(v, " %"), Source: "workshop manual"}
}

// gradeB is an ASME B40.100 grade B gauge of 0-300 psi.
func gradeB(t testing.TB) *Gauge {
	t.Helper()
	a, err := gauge.ParseAccuracy("grade B")
	if err != nil {
		t.Fatal(err)
	}
	return &Gauge{Name: "dial A", High: 300, Accuracy: &a}
}

func TestAssessTakesAnyTest(t *testing.T) {
	nan := math.NaN()
	odd := map[string]Reading{"1": {State: Tested}, "2": read(nan), "3": read(math.Inf(1)), "4": {State: Tested, Kind: Band, Values: []float64{0, 0}}, "none": read(5)}
	everything := func(e *engine.Engine) *Test {
		return &Test{
			Engine:      e,
			Compression: &Compression{Dry: odd, Wet: odd, First: odd, Again: odd, Limits: []Limit{{}, {Kind: Minimum}, {Kind: Spread}, {Kind: FromMean, Unit: "stone"}}},
			Leakage:     &Leakage{Limit: &nan, Dry: map[string]Leak{"1": {Reading: read(nan)}}},
			Plugs:       &Plugs{GapMM: 1, ByCylinder: map[string]Plug{"1": {GapMM: &nan}, "2": {}}},
			Rotors:      &Rotors{Rotors: []Rotor{{}, {Name: "rear", Faces: []Reading{read(0), {}}}}, Minimum: &Limit{}, Faces: &Limit{}, Apart: &Limit{}},
			Fuel: &FuelPressure{Circuits: []Circuit{{}, {KeyOn: &Reading{}, Idle: &Reading{State: Tested}, ManifoldVacuum: &nan, VolumeML: nan,
				Limits: []FuelLimit{{For: "key-on", Low: nan, High: nan}}, Hold: []HoldReading{{Minutes: nan}}}}},
			Conditions: Conditions{AltitudeM: &nan, BarometerKPa: &nan},
			Earlier:    []Earlier{{}, {Test: &Test{}}, {Test: &Test{Compression: &Compression{}}}},
		}
	}
	sections := &Test{Compression: &Compression{}, Leakage: &Leakage{}, Plugs: &Plugs{}, Rotors: &Rotors{}, Fuel: &FuelPressure{}}
	for name, test := range map[string]*Test{
		"nothing": nil, "empty": {}, "no engine": sections, "odd without engine": everything(nil), "odd": everything(inline(t, 4)),
	} {
		if Assess(test) == nil {
			t.Errorf("%s: no diagnosis", name)
		}
	}
	d := Assess(sections)
	for what, state := range map[string]State{
		"compression": d.Compression.State, "leakage": d.Leakage.State, "plugs": d.Plugs.State, "rotors": d.Rotors.State, "fuel": d.Fuel.State,
	} {
		if state != NotTested {
			t.Errorf("an empty section of %s is %q", what, state)
		}
	}
}

func TestStates(t *testing.T) {
	test := cranked(t, -1, -1)
	test.Compression.Dry["1"] = Reading{State: CouldNot, Reason: "plug seized"}
	c := Assess(test).Compression
	if c.State != NotTested || c.Complete || c.N != 0 || len(c.Limits) != 0 {
		t.Errorf("nothing read: %+v", c)
	}
	if r := c.Cylinder("1"); r.State != CouldNot || r.Reason != "plug seized" || r.Grade != GradeNotTested || r.Dry != nil {
		t.Errorf("could not test: %+v", r)
	}
	test = cranked(t, 150, 155, -1, 148)
	c = Assess(test).Compression
	if c.State != Tested || c.Complete || c.N != 3 || c.Cylinder("3").State != NotTested {
		t.Errorf("one cylinder left out: %+v", c)
	}
	test = &Test{Engine: inline(t, 2), Compression: &Compression{State: Declined, Reason: "cost"}, Untested: []Untested{{Test: "leakage", State: Declined}}}
	d := Assess(test)
	if d.Compression.State != Declined || d.Compression.Cylinders[1].State != Declined || d.Compression.Cylinders[1].Reason != "cost" {
		t.Errorf("declined: %+v", d.Compression)
	}
	if len(d.NotTested) != 1 || !cmp.Equal(d.NotTested[0], test.Untested[0]) {
		t.Errorf("not tested: %+v", d.NotTested)
	}
}

func BenchmarkAssess(b *testing.B) {
	test := cranked(b, 150, 155, 148, 152, 149, 151, 150, 90, 150, 155, 148, 152)
	for b.Loop() {
		Assess(test)
	}
}
