package rule_test

import (
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/rule/sample"
	"gaugesheet/diag/story"
)

var (
	wasted = sample.Spec(func(s *diag.Spec) { s.SharedCoils = [][]string{{"1", "4"}, {"2", "3"}} })
	gapOf  = sample.Gap
)

func looks(layout string, list []string, changes ...sample.Change) *diag.Test {
	return sample.Of(layout, append([]sample.Change{sample.Looks(list...)}, changes...)...)
}

func four(look string) []string { return []string{look, look, look, look} }

func saw(name string, b diag.Bore) sample.Change {
	return func(t *diag.Test) {
		if t.Bores == nil {
			t.Bores = map[string]diag.Bore{}
		}
		t.Bores[name] = b
	}
}

func TestPlugColours(t *testing.T) {
	n := "normal"
	runSealing(t, []sealingCase{
		{name: "soot on all", test: looks("inline-4", four("sooty")), fires: "all-sooty 1,2,3,4", not: "one-sooty some-sooty plugs-normal", first: "temperature-signal", sure: diag.Weak, soon: diag.CheckAgain},
		{name: "soot on both of the two looked at", test: looks("V8", []string{"sooty", "sooty"}), fires: "some-sooty 1,2", not: "one-sooty all-sooty"},
		{name: "soot on the one looked at", test: looks("inline-4", []string{"", "sooty"}), fires: "one-sooty 2", first: "own-spark", sure: diag.Weak},
		{name: "soot on one of a two-stroke", test: looks("inline-2", []string{"sooty", n}, sample.TwoStroke), fires: "one-sooty 1"},
		{name: "soot on a low one is its pressure's", test: sample.Dry("inline-4", []float64{150, 150, 110, 150}, sample.Looks(n, n, "sooty", n)), fires: "sooty-and-low 3", not: "one-sooty some-sooty"},
		{name: "soot on a low one and on another", test: sample.Dry("inline-4", []float64{150, 150, 110, 150}, sample.Looks(n, "sooty", "sooty", n)), fires: "one-sooty 2; sooty-and-low 3", not: "some-sooty"},
		{name: "soot on a bank", test: looks("V6", []string{"sooty", n, "sooty", n, "sooty", n}), fires: "bank-sooty 1,3,5", not: "some-sooty all-sooty"},
		{name: "soot at the ends", test: looks("inline-6", []string{"sooty", n, n, n, n, "sooty"}), fires: "some-sooty 1,6", first: "manifold-distribution"},
		{name: "soot on a shared coil", test: looks("inline-4", []string{"sooty", n, n, "sooty"}, wasted), fires: "shared-coil 1,4; some-sooty 1,4", first: "shared-coil", sure: diag.Weak},
		{name: "fuel on a shared coil", test: looks("inline-4", []string{n, "fuel-wet", "fuel-wet", n}, wasted), fires: "shared-coil 2,3", first: "shared-coil"},
		{name: "fuel on a shared coil, all sound", test: sample.Dry("inline-4", evenFour, sample.Looks("fuel-wet", n, n, "fuel-wet"), wasted), fires: "shared-coil 1,4", first: "shared-coil", sure: diag.Weak},
		{name: "one of a shared coil", test: looks("inline-4", []string{"sooty", n, n, n}, wasted), fires: "one-sooty 1", not: "shared-coil"},
		{name: "a shared coil, all plugs sooty", test: looks("inline-4", four("sooty"), wasted), fires: "all-sooty", not: "shared-coil"},
		{name: "white on all", test: looks("inline-4", four("white")), fires: "lean-all 1,2,3,4", not: "white-on-gas", first: "air-leak"},
		{name: "white on all, new plugs", test: looks("inline-4", four("white"), sample.Fitted("2 weeks ago")), fires: "lean-all", first: "wrong-heat-range"},
		{name: "white on gas", test: looks("inline-4", four("white"), onGas), fires: "white-on-gas 1,2,3,4", not: "lean-all", first: "gas-fuel", soon: diag.NoAction},
		{name: "one white among others on gas", test: looks("inline-4", []string{n, "white", n, n}, onGas), fires: "one-white 2", not: "white-on-gas"},
		{name: "a dead cylinder's plug says nothing of the mixture", test: sample.Dry("inline-4", []float64{150, 150, 5, 150}, sample.Looks(n, n, "white", n)), fires: "one-without-pressure", not: "one-white lean-all some-white"},
	})
	for _, look := range []string{"sooty", "white", "fuel-wet", "normal", "worn", "ash", "blistered", "tracked", "bridged", "detonation"} {
		if d := story.WithoutPlan(looks("inline-4", four(look), sample.Diesel)); len(d.Findings) > 0 {
			t.Errorf("a diesel's plugs %s: %s", look, d.Findings[0].Rule)
		}
	}
}

func TestPlugStates(t *testing.T) {
	n := "normal"
	runSealing(t, []sealingCase{
		{name: "oil on one", test: looks("inline-4", []string{n, "oil-wet", n, n}), fires: "oil-wet 2", first: "rings", sure: diag.Weak, soon: diag.ActSoon},
		{name: "oil on all", test: looks("V8", append(four("oil-wet"), four("oil-wet")...)), fires: "oil-wet", first: "breather", soon: diag.ActSoon},
		{name: "oil on all, with good compression and oil use", test: sample.Dry("inline-4", evenFour, sample.Looks(four("oil-wet")...), sample.Complains("oil use")), fires: "oil-wet", not: "plugs-normal", soon: diag.CheckAgain},
		{name: "oil in a two-stroke", test: looks("inline-2", []string{"oil-wet", "oil-wet"}, sample.TwoStroke), fires: "oil-wet 1,2", first: "wrong-mix", soon: diag.CheckAgain},
		{name: "fuel on one", test: looks("inline-3", []string{n, "fuel-wet", n}), fires: "fuel-wet 2", not: "all-fuel-wet", first: "own-spark"},
		{name: "fuel on all", test: looks("inline-4", four("fuel-wet")), fires: "all-fuel-wet 1,2,3,4; fuel-wet 1,2,3,4", first: "flooding"},
		{name: "fuel on a low one", test: sample.Dry("inline-4", []float64{150, 150, 115, 150}, sample.Looks(n, n, "fuel-wet", n)), fires: "fuel-wet 3"},
		{name: "ash on one", test: looks("inline-4", []string{"ash", n, n, n}), fires: "ash-deposits 1", soon: diag.NoAction},
		{name: "ash on one, oil use", test: looks("inline-4", []string{"ash", n, n, n}, sample.Complains("oil use")), fires: "ash-deposits 1", first: "guides-or-seals", soon: diag.CheckAgain},
		{name: "ash on all", test: looks("inline-6", append(four("ash"), "ash", "ash")), fires: "ash-deposits", soon: diag.CheckAgain},
		{name: "worn", test: looks("inline-4", four("worn")), fires: "plugs-worn 1,2,3,4", first: "plug-age"},
		{name: "a wide gap", test: looks("inline-4", four(n), gapOf("3", 1.4)), fires: "gap-out 3", not: "gap-closed plugs-normal", first: "plug-age", soon: diag.CheckAgain},
		{name: "a narrow gap is not age", test: looks("inline-4", four(n), gapOf("3", 0.8)), fires: "gap-out 3", not: "gap-closed", first: "gap-not-set"},
		{name: "a closed gap", test: looks("V6", append(four(n), n, n), gapOf("3", 0.2)), fires: "gap-closed 3; gap-out 3", not: "plugs-normal", first: "foreign-object", soon: diag.DoNotRun},
		{name: "a closed gap and a wide one", test: looks("inline-4", four(n), gapOf("3", 0.2), gapOf("1", 1.5)), fires: "gap-closed 3; gap-out", soon: diag.DoNotRun},
		{name: "a closed gap in a low cylinder", test: sample.Dry("inline-4", []float64{150, 150, 90, 150}, gapOf("3", 0.2)), fires: "piston-contact 3; gap-closed 3", soon: diag.DoNotRun},
		{name: "all normal", test: looks("inline-4", four(n)), fires: "plugs-normal", not: "gap-out", first: "-", soon: diag.NoAction},
		{name: "one not looked at", test: looks("inline-4", []string{n, n, n}), fires: "plugs-normal 1,2,3"},
		{name: "melted", test: looks("inline-4", []string{n, "melted", n, n}), fires: "plug-melted 2", first: "early-ignition", soon: diag.DoNotRun},
		{name: "a glow plug melted", test: looks("inline-4", []string{"", "melted"}, sample.Diesel), fires: "plug-melted 2", soon: diag.DoNotRun},
		{name: "tracked over a wide gap", test: looks("inline-4", []string{n, n, "tracked", n}, gapOf("1", 1.4), gapOf("2", 1.5), gapOf("3", 1.5), gapOf("4", 1.4)), fires: "tracked-over-a-wide-gap 1,2,3,4; gap-out; plug-tracked 3", first: "plug-age", next: "renew-plugs"},
		{name: "tracked, the gap right", test: looks("inline-4", []string{n, n, "tracked", n}, gapOf("3", 1.1)), fires: "plug-tracked 3", not: "tracked-over-a-wide-gap", first: "coil-or-lead"},
		{name: "damaged", test: looks("flat-4", []string{n, "damaged", n, n}), fires: "plug-damaged 2", first: "foreign-object", soon: diag.DoNotRun},
		{name: "knock", test: looks("inline-4", []string{n, "detonation", n, n}), fires: "detonation-signs 2", first: "knock", soon: diag.ActSoon},
		{name: "blistered, old plugs", test: looks("inline-4", []string{n, "blistered", n, n}), fires: "overheated 2", first: "early-ignition", soon: diag.ActSoon},
		{name: "blistered, new plugs", test: looks("inline-4", four("blistered"), sample.Fitted("new")), fires: "overheated", first: "wrong-heat-range", soon: diag.ActSoon},
		{name: "too hot by the number, and white", test: looks("inline-4", four("white"), heat(6, 5, "hotter")), fires: "plug-wrong-heat", first: "wrong-heat-range"},
		{name: "too hot, the maker's way not recorded", test: looks("inline-4", four("white"), heat(6, 5, "")), fires: "plug-wrong-heat", first: "wrong-heat-range"},
		{name: "too cold by the number, and sooty", test: looks("inline-4", four("sooty"), heat(6, 5, "colder")), fires: "plug-wrong-heat", first: "wrong-heat-range"},
		{name: "too hot, and sooty: not by the plug", test: looks("inline-4", four("sooty"), heat(6, 5, "hotter")), fires: "all-sooty", not: "plug-wrong-heat"},
		{name: "the book's, and white", test: looks("inline-4", four("white"), heat(5, 5, "")), fires: "lean-all", not: "plug-wrong-heat"},
		{name: "another number, and normal", test: looks("inline-4", four(n), heat(6, 5, "")), not: "plug-wrong-heat"},
		{name: "washed", test: looks("inline-4", []string{n, "coolant", n, n}), fires: "coolant-washed 2", first: "head-gasket", soon: diag.ActSoon},
		{name: "all washed are the fuel's or new", test: looks("inline-4", four("coolant")), fires: "coolant-washed 1,2,3,4", first: "oil-additive", soon: diag.CheckAgain},
	})
	if d := story.WithoutPlan(looks("flat-4", []string{n, "coolant", n, n}, airCooled)); len(d.Findings) > 0 {
		t.Errorf("coolant in an engine cooled by air: %s", d.Findings[0].Rule)
	}
}

func TestSeenInBore(t *testing.T) {
	low3 := []float64{150, 150, 90, 150}
	runSealing(t, []sealingCase{
		{name: "scored, by the list", test: sample.Dry("inline-4", low3, saw("3", diag.Bore{Wall: "scored"})), fires: "seen-scored 3", first: "scored-bore", soon: diag.ActSoon},
		{name: "scored, in words, nothing else tested", test: sample.Of("V6", sample.Seen("2", "Scored wall, thrust side")), fires: "seen-scored 2", first: "scored-bore"},
		{name: "no scoring", test: sample.Dry("inline-4", low3, sample.Seen("3", "no scoring, crown carboned")), fires: "seen-carbon 3", not: "seen-scored"},
		{name: "holed", test: sample.Dry("inline-4", low3, saw("3", diag.Bore{Crown: "holed"})), fires: "seen-holed 3", first: "holed-piston", soon: diag.DoNotRun},
		{name: "marked", test: sample.Dry("inline-4", low3, saw("3", diag.Bore{Crown: "marked"})), fires: "seen-marked 3", soon: diag.DoNotRun},
		{name: "bent", test: sample.Dry("inline-4", low3, saw("3", diag.Bore{Valves: "bent"})), fires: "seen-bent-valve 3", first: "bent-valve", soon: diag.DoNotRun},
		{name: "burnt, and air at the exhaust", test: sample.Dry("inline-4", low3, saw("3", diag.Bore{Valves: "burnt"}), sample.Leak("3", 40, "exhaust")),
			fires: "seen-burnt-valve 3", first: "exhaust-valve", sure: diag.Strong, soon: diag.ActSoon},
		{name: "a burnt inlet valve", test: sample.Dry("inline-4", low3, sample.Seen("3", "inlet valve burnt at its edge")), fires: "seen-burnt-valve 3", first: "inlet-valve"},
		{name: "a burnt inlet seat", test: sample.Dry("inline-4", low3, sample.Seen("3", "inlet seat burned")), fires: "seen-burnt-valve 3", first: "inlet-valve"},
		{name: "a burnt exhaust seat", test: sample.Dry("inline-4", low3, sample.Seen("3", "exhaust seat burned, inlet seat good")), fires: "seen-burnt-valve 3", first: "exhaust-valve"},
		{name: "no valves in a two-stroke", test: sample.Dry("inline-2", []float64{120, 80}, sample.TwoStroke, saw("2", diag.Bore{Valves: "burnt", Wall: "scored"})), fires: "seen-scored 2", not: "seen-burnt-valve"},
		{name: "melted", test: sample.Dry("inline-4", low3, saw("3", diag.Bore{Crown: "melted"})), fires: "seen-melted 3", not: "seen-holed", first: "piston", soon: diag.DoNotRun},
		{name: "holed, and melted around it", test: sample.Dry("inline-4", low3, saw("3", diag.Bore{Crown: "holed", Note: "piston melted around the hole"})), fires: "seen-holed 3", not: "seen-melted", first: "holed-piston", soon: diag.DoNotRun},
		{name: "washed", test: sample.Dry("inline-4", evenFour, saw("2", diag.Bore{Crown: "washed"})), fires: "seen-washed 2", first: "head-gasket", soon: diag.ActSoon},
		{name: "washed without coolant", test: sample.Dry("flat-4", evenFour, airCooled, saw("2", diag.Bore{Crown: "washed"})), fires: "seen-washed 2", first: "washed-bore"},
		{name: "carbon", test: sample.Dry("inline-4", evenFour, saw("2", diag.Bore{Crown: "carbon"})), fires: "seen-carbon 2", soon: diag.NoAction},
		{name: "carbon on the valves, direct injection", test: sample.Dry("inline-4", evenFour, saw("2", diag.Bore{Valves: "carbon"}), sample.Complains("misfire"), sample.Fuel("direct, low side", diag.Circuit{KeyOn: sample.PSI(72)})),
			fires: "seen-intake-deposits 2", first: "inlet-deposits", soon: diag.ActSoon, next: "mend-found"},
		{name: "carbon on the valves, fuel before them", test: sample.Dry("inline-4", evenFour, saw("2", diag.Bore{Valves: "carbon"}), sample.Complains("misfire"), sample.Fuel("port, return line", diag.Circuit{KeyOn: sample.PSI(44)})),
			fires: "seen-carbon 2", not: "seen-intake-deposits"},
		{name: "carbon in a high one", test: sample.Dry("inline-4", []float64{150, 185, 151, 150}, saw("2", diag.Bore{Crown: "carbon"})), fires: "seen-carbon 2", first: "carbon"},
		{name: "glazed", test: sample.Dry("single", []float64{150}, saw("1", diag.Bore{Wall: "glazed"})), fires: "seen-glazed 1", soon: diag.NoAction},
		{name: "good all round", test: sample.Dry("inline-4", low3, saw("3", diag.Bore{Wall: "good", Crown: "good", Valves: "good", Seat: "good"})), fires: "one-low 3",
			not: "seen-scored seen-holed seen-marked seen-bent-valve seen-burnt-valve seen-washed seen-carbon"},
		{name: "a finding of the technician's counts", test: sample.Dry("inline-4", low3, func(t *diag.Test) { t.History.Findings = []string{"cylinder 3 scored at the front"} }), fires: "seen-scored 3", first: "scored-bore"},
	})
}

// TestSoundPlugsOnAnyEngine asks that sound plugs and tight cylinders ask for
// nothing on any layout.
func TestSoundPlugsOnAnyEngine(t *testing.T) {
	for _, layout := range []string{"single", "inline-2", "inline-3", "inline-6", "V6", "V8", "flat-4", "flat-6", "radial-7"} {
		test := sample.Of(layout)
		for _, name := range test.Engine.Names() {
			sample.Plug("normal", name)(test)
			sample.Leak(name, 6)(test)
		}
		for _, f := range story.WithoutPlan(test).Findings {
			if f.Urgency != diag.NoAction {
				t.Errorf("%s: %s asks for something: %s", layout, f.Rule, f.Urgency)
			}
		}
	}
}

// heat is the number of the plugs fitted and of the book, and what a higher one
// is.
func heat(fitted, book float64, higher string) sample.Change {
	return func(t *diag.Test) {
		t.Plugs.HeatRange = diag.HeatRange{Fitted: fitted, Book: book, Higher: higher, Given: true}
	}
}
