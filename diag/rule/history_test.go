package rule_test

import (
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/rule/sample"
	"gaugesheet/diag/story"
)

// TestLiquid: where liquid may lie it comes before whatever else makes a
// reading high, and the engine is not run. Oil in the lower cylinders of radial
// engines: common practice, no source.
func TestLiquid(t *testing.T) { runSealing(t, liquidCases()) }

func liquidCases() []sealingCase {
	high := []float64{150, 148, 182, 151}
	seven := func(changes ...sample.Change) *diag.Test { return sample.Of("radial-7", changes...) }
	return []sealingCase{
		{name: "high with a washed plug", test: sample.Dry("inline-4", high, sample.Plug("coolant", "3")), fires: "liquid-in-cylinder 3", first: "coolant-or-fuel-in-bore", soon: diag.DoNotRun},
		{name: "high with an oily plug", test: sample.Dry("inline-4", high, sample.Plug("oil-wet", "3")), fires: "liquid-in-cylinder 3", first: "oil-in-bore", soon: diag.DoNotRun},
		{name: "high in an engine that loses coolant", test: sample.Dry("V6", []float64{150, 148, 182, 151, 149, 150}, sample.Complains("coolant loss")), fires: "liquid-in-cylinder 3", soon: diag.DoNotRun},
		{name: "high, and nothing speaks of liquid", test: sample.Dry("inline-4", high), fires: "one-high 3", not: "liquid-in-cylinder"},
		{name: "seen", test: sample.Dry("inline-4", []float64{150, 148, 149, 151}, sample.Seen("2", "coolant standing on the crown")), fires: "liquid-in-cylinder 2", soon: diag.DoNotRun},
		{name: "none seen", test: sample.Dry("inline-4", []float64{150, 148, 149, 151}, sample.Seen("2", "no coolant, bore good")), fires: "even-no-minimum", not: "liquid-in-cylinder"},
		{name: "a lower cylinder of a radial engine, oily", test: seven(sample.Plug("oil-wet", "4"), sample.Plug("normal", "1", "2", "3", "5", "6", "7")), fires: "liquid-in-cylinder 4", first: "oil-in-bore", soon: diag.DoNotRun},
		{name: "an upper one", test: seven(sample.Plug("oil-wet", "1"), sample.Plug("normal", "4")), fires: "oil-wet 1", not: "liquid-in-cylinder"},
		{name: "an engine that hangs", test: sample.Of("inline-4", sample.Plug("oil-wet", "2"), sample.Plug("normal", "1", "3", "4"), sample.Spec(func(s *diag.Spec) { s.Inverted = diag.Yes })), fires: "liquid-in-cylinder 2", soon: diag.DoNotRun},
		{name: "two reasons in one engine are each said", test: seven(sample.Plug("oil-wet", "4", "5"), sample.Seen("1", "full of fuel")), fires: "liquid-in-cylinder"},
	}
}

// TestStoodAndTold: what is told of the engine tips the causes.
func TestStoodAndTold(t *testing.T) {
	one := []float64{150, 110, 149, 151}
	told := func(alter func(*diag.History)) sample.Change { return sample.Known(alter) }
	runSealing(t, toldCases())
	weight := func(cause string, changes ...sample.Change) int {
		sum := 0
		d := story.WithoutPlan(sample.Dry("inline-4", one, changes...))
		s, _ := storyWith(d, "one-low")
		for _, e := range s.Ledger {
			if e.Cause == cause {
				sum += e.Weight
			}
		}
		return sum
	}
	for _, tt := range []struct {
		name, cause string
		change      sample.Change
		more        bool
	}{
		{"stood", "stuck-valve", sample.Stood(48), true},
		{"it came at once at full load", "head-gasket", told(func(h *diag.History) { h.Onset = "sudden at full load" }), true},
		{"it came over months", "rings", told(func(h *diag.History) { h.Onset = "slow over months" }), true},
		{"it uses oil", "rings", sample.Complains("oil use"), true},
		{"blue smoke under load", "rings", told(func(h *diag.History) { h.Smoke = diag.Smoke{Colour: "blue", When: []string{"load"}} }), true},
		{"blue smoke at the start", "rings", told(func(h *diag.History) { h.Smoke = diag.Smoke{Colour: "blue", When: []string{"start"}} }), false},
		{"it loses coolant", "head-gasket", sample.Complains("coolant loss"), true},
	} {
		if more := weight(tt.cause, tt.change) > weight(tt.cause); more != tt.more {
			t.Errorf("%s speaks more for %s: %v, expected %v", tt.name, tt.cause, more, tt.more)
		}
	}
}

func toldCases() []sealingCase {
	one := []float64{150, 110, 149, 151}
	refused := func(reason string, changes ...sample.Change) *diag.Test {
		t := sample.Of("inline-4", changes...)
		t.Compression = &diag.Compression{State: diag.Declined, Reason: reason}
		return t
	}
	return []sealingCase{
		{name: "stood and even", test: sample.Dry("inline-4", even4, sample.Stood(9)), fires: "stood-engine", soon: diag.NoAction},
		{name: "stood and one low", test: sample.Dry("inline-4", one, sample.Stood(48)), fires: "stood-engine"},
		{name: "stood for nobody knows how long", test: sample.Dry("inline-4", one, sample.Complains("stood")), fires: "stood-engine"},
		{name: "stood half a year", test: sample.Dry("inline-4", one, sample.Stood(6)), fires: "one-low 2", not: "stood-engine"},
		{name: "a complaint that it stood, and it seals", test: sample.Dry("inline-4", even4, sample.Minimum(120), sample.Stood(3), sample.Complains("stood")), fires: "stood-and-sound", not: "complaint-not-explained; stood-engine", soon: diag.NoAction},
		{name: "a complaint that it stood, and it holds its air", test: sample.Of("inline-4", sample.Leak("1", 4), sample.Leak("2", 6), sample.Leak("3", 5), sample.Leak("4", 7), sample.Stood(3), sample.Complains("stood")), fires: "stood-and-sound", not: "complaint-not-explained", soon: diag.NoAction},
		{name: "a complaint that it stood, and one loses its air", test: sample.Of("inline-4", sample.Leak("1", 4), sample.Leak("2", 45, "exhaust"), sample.Leak("3", 5), sample.Leak("4", 7), sample.Stood(3), sample.Complains("stood")), fires: "leaks-at-exhaust 2", not: "stood-and-sound"},
		{name: "a complaint that it stood, and one is low", test: sample.Dry("inline-4", one, sample.Stood(3), sample.Complains("stood")), fires: "one-low 2", not: "stood-and-sound"},
		{name: "stood three months, and nobody complains", test: sample.Dry("inline-4", even4, sample.Stood(3)), not: "stood-and-sound; stood-engine"},
		{name: "came up with a charger, and starts badly", test: sample.Dry("inline-4", even4, sample.Minimum(120), sample.Complains("hard start"), sample.Done("repeat-with-charger done: readings come up")), fires: "cranked-too-slowly", first: "weak-cranking"},
		{name: "turned slowly, and starts badly", test: sample.Dry("inline-4", even4, sample.Minimum(120), sample.Complains("hard start"), turnedAt(75)), fires: "cranked-too-slowly", first: "weak-cranking"},
		{name: "turned slowly, and nobody complains", test: sample.Dry("inline-4", even4, sample.Minimum(120), turnedAt(75)), not: "cranked-too-slowly"},
		{name: "turned fast enough, and starts badly", test: sample.Dry("inline-4", even4, sample.Minimum(120), sample.Complains("hard start"), turnedAt(220)), not: "cranked-too-slowly"},
		{name: "a knock at the block", test: sample.Dry("inline-4", even4, sample.Minimum(120), sample.Complains("noise"), sample.Done("noise source: at the block")), fires: "noise-below", first: "bottom-end", soon: diag.ActSoon},
		{name: "a knock at the bell housing and a quiet block", test: sample.Dry("inline-4", even4, sample.Minimum(120), sample.Complains("noise"), sample.Found("stethoscope: block quiet, bell housing loud")), fires: "noise-beside", not: "noise-below", first: "drive-plate", soon: diag.ActSoon},
		{name: "a noise at the head", test: sample.Dry("inline-4", even4, sample.Minimum(120), sample.Complains("noise"), sample.Done("noise source: at the head")), not: "noise-below"},
		{name: "came up with a charger, and nobody complains", test: sample.Dry("inline-4", even4, sample.Minimum(120), sample.Done("repeat-with-charger done: readings come up")), not: "cranked-too-slowly"},
		{name: "stayed with a charger, and starts badly", test: sample.Dry("inline-4", even4, sample.Minimum(120), sample.Complains("hard start"), sample.Done("repeat-with-charger done: they stay")), fires: "sealing-sound-look-elsewhere", not: "cranked-too-slowly"},
		{name: "nothing was allowed", test: refused("too dear"), fires: "tests-declined", soon: diag.CheckAgain},
		{name: "nothing was allowed, by the list", test: sample.Of("V8", func(t *diag.Test) { t.Untested = []diag.Untested{{Test: "compression", State: diag.Declined}} }), fires: "tests-declined"},
		{name: "one of the two was made", test: refused("", sample.Leak("1", 6)), fires: "too-few-cylinders", not: "tests-declined"},
		{name: "nothing but the plugs was allowed, and they are normal", test: refused("", sample.Plug("normal", "1", "2", "3", "4")), fires: "tests-declined", soon: diag.CheckAgain},
		{name: "nothing but the plugs was allowed", test: refused("", sample.Plug("sooty", "1", "2", "3", "4")), fires: "tests-declined; all-sooty"},
		{name: "a complaint of which no word is known", test: sample.Dry("inline-4", even4, sample.Minimum(120), sample.Tells("the heater stays cold")), fires: "told-in-own-words", not: "complaint-not-explained", soon: diag.CheckAgain},
		{name: "a timing belt that frays", test: sample.Dry("inline-4", even4, sample.Minimum(120), sample.Known(func(h *diag.History) { h.Findings = []string{"timing belt frayed"} })), fires: "seen-grave", not: "seen-elsewhere", soon: diag.DoNotRun},
		{name: "a timing belt without damage", test: sample.Dry("inline-4", even4, sample.Minimum(120), sample.Known(func(h *diag.History) { h.Findings = []string{"timing belt not frayed, none of its teeth missing"} })), not: "seen-grave seen-elsewhere"},
		{name: "damage that nothing judges", test: sample.Dry("inline-4", even4, sample.Minimum(120), sample.Known(func(h *diag.History) { h.Findings = []string{"air horn cracked"} })), fires: "seen-elsewhere", not: "seen-grave", soon: diag.CheckAgain},
		{name: "an oil light in the customer's words", test: sample.Dry("inline-4", even4, sample.Minimum(120), sample.Tells("oil light flickers at idle")), fires: "complaint-not-explained", not: "told-in-own-words"},
		{name: "a noise that nothing explains", test: sample.Dry("inline-4", even4, sample.Minimum(120), sample.Complains("noise")), fires: "complaint-not-explained"},
		{name: "nothing is said of any", test: sample.Of("inline-4", sample.Plug("normal", "1", "2", "3", "4")), fires: "plugs-normal", not: "tests-declined"},
	}
}

// TestComplaintsAreAnswered: a complaint that no cause explains is named.
func TestComplaintsAreAnswered(t *testing.T) {
	for complaint, open := range map[string]bool{"oil use": true, "noise": true, "stood": false} {
		d := story.WithoutPlan(sample.Dry("inline-4", even4, sample.Minimum(120), sample.Complains(complaint)))
		if s, _ := storyWith(d, "complaint-not-explained"); (s != nil) != open {
			t.Errorf("%s is said to be open: %v", complaint, s != nil)
		}
	}
	d := story.WithoutPlan(sample.Dry("inline-4", []float64{150, 100, 149, 151}, sample.Leak("2", 40, "exhaust"), sample.Complains("misfire")))
	if s, _ := storyWith(d, "complaint-not-explained"); s != nil {
		t.Error("a burnt valve explains a misfire")
	}
}

// TestBlueFromAbove: oil that burns at the start of an engine that seals came down
// the valve stems: common practice, no source.
func TestBlueFromAbove(t *testing.T) {
	smokes := func(colour string, when ...string) sample.Change {
		return sample.Known(func(h *diag.History) { h.Smoke = diag.Smoke{Colour: colour, When: when} })
	}
	runSealing(t, []sealingCase{
		{name: "at the start", test: sample.Dry("inline-4", evenFour, sample.Complains("oil use"), smokes("blue", "start")), fires: "blue-from-above", not: "complaint-not-explained", first: "guides-or-seals", soon: diag.CheckAgain},
		{name: "on the overrun", test: sample.Dry("inline-4", evenFour, smokes("blue", "overrun")), fires: "blue-from-above", first: "guides-or-seals"},
		{name: "at the start and under load", test: sample.Dry("inline-4", evenFour, sample.Complains("oil use"), smokes("blue", "start", "load")), not: "blue-from-above"},
		{name: "white at the start", test: sample.Dry("inline-4", evenFour, sample.Complains("oil use"), smokes("white", "start")), not: "blue-from-above"},
		{name: "and a plug wet with oil, which says more", test: sample.Dry("inline-4", evenFour, smokes("blue", "start"), sample.Plug("oil-wet", "2"), sample.Plug("normal", "1", "3", "4")), not: "blue-from-above"},
		{name: "and a low cylinder", test: sample.Dry("inline-4", []float64{150, 152, 95, 151}, smokes("blue", "start")), not: "blue-from-above"},
	})
}

// turnedAt is a test made at this cranking speed in rpm.
func turnedAt(rpm float64) sample.Change {
	return func(t *diag.Test) { t.Conditions.CrankingRPM = &rpm }
}

// TestOilUseInAFigure: what is usual is common practice, no source.
func TestOilUseInAFigure(t *testing.T) {
	told := func(figure string) sample.Change {
		return sample.Known(func(h *diag.History) { h.OilUse = figure })
	}
	called := func(vehicle string) sample.Change {
		return sample.Known(func(h *diag.History) { h.Vehicle = vehicle })
	}
	complains, evenFour := sample.Complains("oil use"), []float64{178, 180, 175, 179}
	runSealing(t, []sealingCase{
		{name: "usual", test: sample.Dry("inline-4", evenFour, sample.Minimum(128), complains, told("0.3 l in 1000 km")), fires: "oil-use-usual", not: "oil-runs-short", soon: diag.NoAction},
		{name: "usual by quarts", test: sample.Dry("inline-4", evenFour, sample.Minimum(128), complains, told("1/2 qt per 1,000 miles")), fires: "oil-use-usual", soon: diag.NoAction},
		{name: "more than usual", test: sample.Dry("inline-4", evenFour, sample.Minimum(128), complains, told("0,8 litres per 1.000 km")), not: "oil-use-usual oil-runs-short", soon: diag.CheckAgain},
		{name: "runs short", test: sample.Dry("inline-4", evenFour, sample.Minimum(128), complains, told("1 l in 300 km")), fires: "oil-runs-short", not: "oil-use-usual", soon: diag.ActSoon},
		{name: "no figure", test: sample.Dry("inline-4", evenFour, sample.Minimum(128), complains, told("a lot")), not: "oil-use-usual oil-runs-short", soon: diag.CheckAgain},
		{name: "usual of an aircraft", test: sample.Dry("flat-4", evenFour, sample.Minimum(128), called("light aircraft"), complains, told("1 quart in 5 hours")), fires: "oil-use-usual"},
		{name: "not usual of a pump", test: sample.Dry("inline-4", evenFour, sample.Minimum(128), complains, told("1 quart in 5 hours")), not: "oil-use-usual"},
		{name: "usual, and an oily plug", test: sample.Dry("inline-4", evenFour, sample.Minimum(128), sample.Plug("oil-wet", "2"), complains, told("0.1 l in 1000 km")), not: "oil-use-usual", soon: diag.CheckAgain},
	})
}
