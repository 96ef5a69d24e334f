package rule_test

import (
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
	"gaugesheet/diag/quantity"
	"gaugesheet/diag/rule/sample"
)

// TestMagnetos: two magnetos read alone, and the heads that they warm. Handbooks permit at
// most 125, 150 or 175 rpm on either and 50 between them, and a magneto on which the speed
// does not fall is at fault (common practice, no source); the FAA's powerplant training
// text has 25 to 75 rpm, even on both.
func TestMagnetos(t *testing.T) {
	mags := func(left, right float64, parts ...func(*diag.Measured)) sample.Change {
		return sample.Test("magnetos", quantity.RPM, append([]func(*diag.Measured){sample.At("at", "", 1800), sample.At("left", "", left), sample.At("right", "", right)}, parts...)...)
	}
	limits := []func(*diag.Measured){sample.Permits("left", "", sample.NoLeast, 150), sample.Permits("right", "", sample.NoLeast, 150), sample.Permits("difference", "", sample.NoLeast, 50)}
	heads := func(unit quantity.Unit, on string, degrees ...float64) sample.Change {
		return sample.Test("heads", unit, sample.Ticked("magneto", on), sample.Each("temperature", degrees...))
	}
	runs := sample.Complains("misfire")
	runSealing(t, []sealingCase{
		{name: "90 and 48 of 150, 50 apart at most", test: sample.Of("flat-4", mags(90, 48, limits...)), not: "magneto-drop-uneven magneto-no-drop"},
		{name: "over the job's limit", test: sample.Of("flat-4", mags(210, 175, limits...)), fires: "magneto-drop-uneven", first: "magneto-plug", soon: diag.ActSoon, next: "burn-plugs-clean"},
		{name: "apart by more than the job's limit", test: sample.Of("flat-6", mags(60, 130, limits...)), fires: "magneto-drop-uneven", not: "magneto-no-drop", soon: diag.ActSoon},
		{name: "nearer its limit than a count can tell", test: sample.Of("flat-4", mags(155, 140, limits...)), fires: "magneto-drop-uneven", soon: diag.CheckAgain, sure: diag.Weak},
		{name: "no limit, over what handbooks permit", test: sample.Of("flat-4", mags(240, 220)), fires: "magneto-drop-uneven", soon: diag.CheckAgain},
		{name: "no limit, apart by more than handbooks permit", test: sample.Of("radial-7", mags(40, 120)), fires: "magneto-drop-uneven", soon: diag.CheckAgain},
		{name: "no limit, within what some handbooks permit", test: sample.Of("flat-4", mags(160, 140)), not: "magneto-drop-uneven"},
		{name: "the job's limit goes before what handbooks permit", test: sample.Of("flat-4", mags(240, 180, sample.Permits("left", "", sample.NoLeast, 300), sample.Permits("right", "", sample.NoLeast, 300), sample.Permits("difference", "", sample.NoLeast, 100))), not: "magneto-drop-uneven"},
		{name: "no drop on one", test: sample.Of("flat-4", mags(0, 60, limits...)), fires: "magneto-no-drop", not: "magneto-drop-uneven", first: "magneto-ground", soon: diag.ActSoon, next: "magneto-ground-test"},
		{name: "no drop on either", test: sample.Of("radial-9", mags(0, 0)), fires: "magneto-no-drop", first: "magneto-ground", next: "magneto-ground-test"},
		{name: "no drop on one, far too much on the other", test: sample.Of("flat-4", mags(0, 300, limits...)), fires: "magneto-no-drop; magneto-drop-uneven"},
		{name: "little and alike", test: sample.Of("flat-4", mags(25, 30)), not: "magneto-no-drop magneto-drop-uneven"},
		{name: "a diesel has none", test: sample.Of("inline-4", sample.Diesel, mags(0, 60)), fires: "fuel-contradicted"},

		{name: "a cold head, the magnetos alike", test: sample.Of("flat-4", runs, mags(80, 70), heads(quantity.Fahrenheit, "left", 331, 328, 205, 325)), fires: "head-cold 3", not: "cold-head-agrees", first: "own-injector"},
		{name: "a cold head", test: sample.Of("flat-4", runs, sample.Known(func(h *diag.History) { h.Vehicle = "light airplane" }), heads(quantity.Fahrenheit, "left", 331, 328, 205, 325)), fires: "head-cold 3", not: "cold-head-agrees", first: "magneto-plug"},
		{name: "an oily plug, and one magneto drops more", test: sample.Of("flat-4", mags(240, 60, limits...), sample.Looks("normal", "oil-wet", "normal", "normal")), fires: "fouled-plug-and-drop 2", first: "magneto-plug", soon: diag.ActSoon},
		{name: "an oily plug, and the magnetos alike", test: sample.Of("flat-4", mags(70, 60), sample.Looks("normal", "oil-wet", "normal", "normal")), fires: "oil-wet 2", not: "fouled-plug-and-drop"},
		{name: "every plug oily, and one magneto drops more", test: sample.Of("flat-4", mags(240, 60, limits...), sample.Looks("oil-wet", "oil-wet", "oil-wet", "oil-wet")), fires: "magneto-drop-uneven", not: "fouled-plug-and-drop"},
		{name: "a cold head on the magneto that loses more", test: sample.Of("flat-4", runs, mags(240, 60, limits...), heads(quantity.Fahrenheit, "left", 331, 328, 205, 325)), fires: "cold-head-agrees 3", first: "magneto-plug", soon: diag.ActSoon},
		{name: "a cold head on the other one", test: sample.Of("flat-4", runs, mags(240, 60, limits...), heads(quantity.Fahrenheit, "right", 331, 328, 205, 325)), fires: "head-cold 3; magneto-drop-uneven", not: "cold-head-agrees"},
		{name: "cold on both", test: sample.Of("flat-4", runs, mags(70, 60), sample.Fuel("port, no return", diag.Circuit{}), heads(quantity.Fahrenheit, "both", 331, 328, 205, 325)), fires: "head-cold 3", first: "own-injector"},
		{name: "a fifth colder and no more, the others far apart", test: sample.Of("radial-7", mags(60, 60), heads(quantity.Fahrenheit, "left", 330, 330, 264.5, 330, 290, 325, 340)), not: "head-cold"},
		{name: "less than a fifth colder, and apart from all others", test: sample.Of("radial-7", mags(60, 60), heads(quantity.Fahrenheit, "left", 330, 330, 271, 330, 320, 325, 340)), fires: "head-cold 3"},
		{name: "a little more than a fifth", test: sample.Of("radial-7", mags(60, 60), heads(quantity.Fahrenheit, "left", 330, 330, 262, 330, 320, 325, 340)), fires: "head-cold 3"},
		{name: "the same engine in Celsius", test: sample.Of("radial-7", mags(60, 60), heads(quantity.Celsius, "left", 165.6, 165.6, 127.8, 165.6, 160, 162.8, 171.1)), fires: "head-cold 3"},
		{name: "a fifth of the figure in Celsius is less", test: sample.Of("radial-7", mags(60, 60), heads(quantity.Celsius, "left", 166, 166, 131, 166, 143, 163, 171)), not: "head-cold"},
		{name: "two heads have no median", test: sample.Of("V2", heads(quantity.Fahrenheit, "left", 331, 205)), not: "head-cold"},
		{name: "a cold head that is low", test: sample.Dry("inline-4", []float64{150, 151, 90, 149}, heads(quantity.Fahrenheit, "both", 331, 328, 205, 325)), fires: "head-cold 3; one-low 3", first: "exhaust-valve"},
	})
}

// TestCrankcaseHold: a two-stroke's crankcase pumped up. That it may fall by half a psi in
// ten minutes is one tuner's figure: common practice, no source.
func TestCrankcaseHold(t *testing.T) {
	held := func(after float64, at string, parts ...func(*diag.Measured)) sample.Change {
		return sample.Test("crankcase-hold", quantity.PSI, append([]func(*diag.Measured){sample.At("pumped-to", "", 6), sample.At("hold", at, after)}, parts...)...)
	}
	limit := sample.Permits("fall", "", sample.NoLeast, 0.5)
	lean := sample.Complains("lean running")
	runSealing(t, []sealingCase{
		{name: "6 psi to 5.5 in 10 min", test: sample.Of("inline-2", sample.TwoStroke, held(5.5, "10 min")), fires: "crankcase-hold-right", not: "crankcase-hold-falls"},
		{name: "to nothing in a minute", test: sample.Of("inline-2", sample.TwoStroke, lean, held(1, "1 min")), fires: "crankcase-hold-falls", first: "crankcase-seal", soon: diag.DoNotRun},
		{name: "past the job's limit", test: sample.Of("single", sample.TwoStroke, lean, held(3, "10 min", limit)), fires: "crankcase-hold-falls", first: "crankcase-seal", soon: diag.ActSoon},
		{name: "twice the fall in twice the time", test: sample.Of("single", sample.TwoStroke, held(5, "20 min")), not: "crankcase-hold-falls"},
		{name: "a four-stroke's is not pumped up", test: sample.Of("inline-4", held(1, "1 min")), not: "crankcase-hold-falls crankcase-hold-right"},
	})
}

// TestTwoMagnetos: whom the checks of magnetos fit: who flies and burns petrol, or lists them.
func TestTwoMagnetos(t *testing.T) {
	airplane := sample.Known(func(h *diag.History) { h.Vehicle = "light airplane" })
	for _, tt := range []struct {
		name string
		test *diag.Test
		want bool
	}{
		{"a car", sample.Of("flat-4"), false},
		{"an airplane", sample.Of("flat-4", airplane), true},
		{"a diesel airplane", sample.Of("inline-4", sample.Diesel, airplane), false},
		{"who lists them", sample.Of("inline-4", sample.Test("magnetos", quantity.RPM, sample.At("left", "", 60))), true},
	} {
		if got := known.New(tt.test).TwoMagnetos(); got != tt.want {
			t.Errorf("%s: %v", tt.name, got)
		}
	}
}
