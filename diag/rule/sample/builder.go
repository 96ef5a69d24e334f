// Package sample holds tests of invented engines, at least one for each
// pattern of compression, oil, rotors and method, with the names of the rules that
// must see it and of those that must not; it knows no rule itself. The rules' own tests and those of the words run
// over them.
package sample

import (
	"strconv"

	"gaugesheet/diag"
	"gaugesheet/diag/engine"
	"gaugesheet/diag/gauge"
	"gaugesheet/diag/quantity"
)

// A Change alters a test that is being built.
type Change func(*diag.Test)

// Dry is a test in psi of an engine with these dry readings in the order of its
// cylinders, made by the book: warm, throttle open, six strokes, a gauge with
// divisions of 5 psi. Engines of two banks are numbered across them.
func Dry(layout string, readings []float64, changes ...Change) *diag.Test {
	spec := engine.Spec{Layout: layout}
	if l, problem := engine.ParseLayout(layout); problem == nil && l.Kind.TwoBanks() {
		spec.Numbering, spec.FirstBank = engine.AcrossBanks, "left"
	}
	return DryOf(spec, readings, changes...)
}

// DryOf is Dry for an engine described in full.
func DryOf(spec engine.Spec, readings []float64, changes ...Change) *diag.Test {
	e, _ := engine.New(spec)
	t := &diag.Test{
		Engine:     e,
		Spec:       diag.Spec{Fuel: "petrol", Decompressor: "none"},
		Conditions: diag.Conditions{Engine: "warm", Throttle: "open", PlugsOut: "all", Strokes: 6},
		Gauges:     diag.Gauges{Compression: &diag.Gauge{Name: "dial A", High: 1000, Division: 5}},
		Compression: &diag.Compression{
			State: diag.Tested, Unit: quantity.PSI, Dry: map[string]diag.Reading{}, First: map[string]diag.Reading{},
			Wet: map[string]diag.Reading{}, Again: map[string]diag.Reading{},
		},
	}
	for i, name := range e.Names() {
		if i < len(readings) {
			t.Compression.Dry[name] = Read(readings[i])
		}
	}
	return build(t, changes)
}

// Faces is a test in kgf/cm2 of a rotary engine with three faces a rotor.
func Faces(rotors [][3]float64, changes ...Change) *diag.Test {
	e, _ := engine.New(engine.Spec{Layout: "rotary-" + strconv.Itoa(len(rotors))})
	t := &diag.Test{
		Engine:     e,
		Spec:       diag.Spec{Fuel: "petrol"},
		Conditions: diag.Conditions{Engine: "warm", Throttle: "open"},
		Gauges:     diag.Gauges{Compression: &diag.Gauge{Name: "face tester", High: 15, Division: 0.1}},
		Rotors:     &diag.Rotors{State: diag.Tested, Unit: quantity.KgfPerCm2, CrankingRPM: 250},
	}
	for i, r := range e.Rotors {
		rotor := diag.Rotor{Name: r.Name, State: diag.Tested}
		for _, v := range rotors[i] {
			rotor.Faces = append(rotor.Faces, Read(v))
		}
		t.Rotors.Rotors = append(t.Rotors.Rotors, rotor)
	}
	return build(t, changes)
}

func build(t *diag.Test, changes []Change) *diag.Test {
	for _, change := range changes {
		change(t)
	}
	return t
}

// Read is a reading that was taken, with its repeats.
func Read(values ...float64) diag.Reading {
	return diag.Reading{State: diag.Tested, Values: values, Entered: "as read"}
}

// Repeats replaces a cylinder's reading.
func Repeats(name string, values ...float64) Change {
	return func(t *diag.Test) { t.Compression.Dry[name] = Read(values...) }
}

// Over makes cylinders' readings lower bounds.
func Over(names ...string) Change {
	return func(t *diag.Test) {
		for _, n := range names {
			r := t.Compression.Dry[n]
			r.Kind = diag.AtLeast
			t.Compression.Dry[n] = r
		}
	}
}

// Unread takes cylinders' readings away.
func Unread(names ...string) Change {
	return func(t *diag.Test) {
		for _, n := range names {
			t.Compression.Dry[n] = diag.Reading{State: diag.CouldNot, Reason: "plug seized"}
		}
	}
}

// Wet adds readings with oil, by cylinder name and value in turn.
func Wet(readings map[string]float64) Change {
	return func(t *diag.Test) {
		for name, v := range readings {
			t.Compression.Wet[name] = Read(v)
		}
	}
}

// First adds first strokes in the order of the engine's cylinders.
func First(readings ...float64) Change {
	return func(t *diag.Test) {
		for i, name := range t.Engine.Names() {
			if i < len(readings) {
				t.Compression.First[name] = Read(readings[i])
			}
		}
	}
}

// Minimum states a minimum in psi.
func Minimum(psi float64) Change {
	return Limit(diag.Limit{Kind: diag.Minimum, Value: psi, Unit: quantity.PSI})
}

// SpreadOfHighest states a limit on the spread in percent of the highest.
func SpreadOfHighest(percent float64) Change {
	return Limit(diag.Limit{Kind: diag.Spread, Of: diag.OfHighest, Value: percent, Unit: quantity.Percent})
}

// Limit states a limit.
func Limit(l diag.Limit) Change {
	return func(t *diag.Test) {
		l.Entered = quantity.Format(l.Value, 0) + " " + string(l.Unit)
		l.Source = "workshop manual"
		t.Compression.Limits = append(t.Compression.Limits, l)
	}
}

// Leak adds a leakage reading in percent lost, and where the air goes.
func Leak(name string, loss float64, at ...string) Change {
	return func(t *diag.Test) {
		if t.Leakage == nil {
			t.Leakage = &diag.Leakage{State: diag.Tested, Dry: map[string]diag.Leak{}}
		}
		t.Leakage.Dry[name] = diag.Leak{Reading: Read(loss), At: at}
	}
}

// Plug adds a plug's look.
func Plug(look string, names ...string) Change {
	return func(t *diag.Test) {
		if t.Plugs == nil {
			t.Plugs = &diag.Plugs{State: diag.Tested, ByCylinder: map[string]diag.Plug{}}
		}
		for _, n := range names {
			t.Plugs.ByCylinder[n] = diag.Plug{State: diag.Tested, Look: look}
		}
	}
}

// Seen adds what the borescope showed in a cylinder.
func Seen(name, what string) Change {
	return func(t *diag.Test) {
		if t.Borescope == nil {
			t.Borescope = map[string]string{}
		}
		t.Borescope[name] = what
	}
}

// Spec alters the engine's description.
func Spec(alter func(*diag.Spec)) Change { return func(t *diag.Test) { alter(&t.Spec) } }

// Diesel makes the engine a diesel.
var Diesel = Spec(func(s *diag.Spec) { s.Fuel = "diesel" })

// TwoStroke makes the engine a two-stroke.
var TwoStroke = Spec(func(s *diag.Spec) { s.TwoStroke, s.Fuel = true, "two-stroke mix" })

// Method alters how the test was made.
func Method(alter func(*diag.Conditions)) Change {
	return func(t *diag.Test) { alter(&t.Conditions) }
}

// Order says in which order the cylinders were tested.
func Order(names ...string) Change {
	return func(t *diag.Test) { t.Compression.Order = names }
}

// Again adds the first cylinder tested again at the end.
func Again(name string, v float64) Change {
	return func(t *diag.Test) { t.Compression.Again[name] = Read(v) }
}

// Stood says for how many months the engine stood.
func Stood(months float64) Change {
	return func(t *diag.Test) { t.History.StoodMonths = months }
}

// After adds an earlier test of the same engine.
func After(label string, earlier *diag.Test) Change {
	return func(t *diag.Test) {
		t.Earlier = append(t.Earlier, diag.Earlier{Label: label, Test: earlier})
	}
}

// Worked puts the readings before some work beside those of a test.
func Worked(done string, before *diag.Test) Change {
	return func(t *diag.Test) { t.Before = &diag.Before{Done: done, Test: before} }
}

// Noted adds a notice that reading a job gave rise to.
func Noted(n diag.Notice) Change {
	return func(t *diag.Test) { t.Noted = append(t.Noted, n) }
}

// OtherUnit notes that all readings of the compression look like another unit.
var OtherUnit = Noted(diag.Notice{Rule: "unit-suspect", Facts: diag.Facts{
	"section": "compression", "looks": "bar", "value": diag.Number{Value: 12, Unit: quantity.PSI}, "unit": "psi"}})

// accuracy is a gauge's, which is well written here.
func accuracy(text string) *gauge.Accuracy {
	a, _ := gauge.ParseAccuracy(text)
	return &a
}
