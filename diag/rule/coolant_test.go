package rule_test

import (
	"slices"
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/rule/sample"
	"gaugesheet/diag/story"
)

func white(when string) sample.Change {
	return sample.Known(func(h *diag.History) { h.Smoke = diag.Smoke{Colour: "white", When: []string{when}} })
}

var doesNotRun = sample.Spec(func(s *diag.Spec) { s.Runs = "does not run" })

// Coolant on a plug and any second sign: liquid may lie in the cylinder, and the
// starter would bend a rod. Common practice, no source.
func TestCoolantOnAPlug(t *testing.T) {
	four := func(readings []float64, changes ...sample.Change) *diag.Test {
		looks := []sample.Change{sample.Looks("normal", "normal", "coolant", "normal")}
		return sample.Dry("inline-4", readings, append(looks, changes...)...)
	}
	sound := of4(150)
	enters := "coolant-in-cylinder 3"
	runSealing(t, []sealingCase{
		{name: "alone", test: four(sound), fires: "coolant-washed 3", not: "coolant-in-cylinder", soon: diag.ActSoon},
		{name: "coolant lost", test: four(sound, sample.Complains("coolant loss")), fires: enters, not: "sealing-sound-look-elsewhere", first: "head-gasket", soon: diag.DoNotRun},
		{name: "coolant lost and hard to start", test: four(sound, sample.Complains("coolant loss", "hard start")), fires: enters, not: "sealing-sound-look-elsewhere complaint-not-explained", soon: diag.DoNotRun},
		{name: "coolant lost, no gas found", test: four(sound, sample.Complains("coolant loss", "hard start"), gasIn("negative")), fires: enters, not: "sealing-sound-look-elsewhere", first: "head-gasket", sure: diag.Weak, soon: diag.DoNotRun},
		{name: "white smoke", test: four(sound, white("start")), fires: enters, soon: diag.DoNotRun},
		{name: "it overheats", test: four(sound, sample.Complains("overheating")), fires: enters, soon: diag.DoNotRun},
		{name: "it does not start", test: four(sound, sample.Complains("no start")), fires: enters, soon: diag.DoNotRun},
		{name: "it does not run", test: four(sound, doesNotRun), fires: enters, soon: diag.DoNotRun},
		{name: "low all over", test: four(of4(85)), fires: enters, soon: diag.DoNotRun},
		{name: "a complaint that coolant does not make", test: four(sound, sample.Complains("rich running")), fires: "coolant-washed 3", not: "coolant-in-cylinder"},
		{name: "all plugs alike", test: sample.Dry("inline-4", sound, sample.Looks("coolant", "coolant", "coolant", "coolant"), sample.Complains("no start")), fires: "coolant-washed", not: "coolant-in-cylinder"},
		{name: "cooled by air", test: four(sound, airCooled, sample.Complains("no start")), not: "coolant-in-cylinder coolant-washed"},
		{name: "no plug looked at", test: sample.Dry("inline-4", sound, sample.Complains("coolant loss")), not: "coolant-in-cylinder"},
	})
	for name, test := range map[string]*diag.Test{
		"wet with fuel beside it": sample.Dry("inline-4", of4(85), sample.Looks("fuel-wet", "fuel-wet", "coolant", "fuel-wet"), sample.Complains("coolant loss", "no start"), doesNotRun),
		"sound beside it":         four(sound, sample.Complains("coolant loss", "hard start")),
	} {
		d := story.WithoutPlan(test)
		if !slices.Contains(d.Cautions, "liquid-lock") {
			t.Errorf("%s: no caution to turn it by hand first, only %v", name, d.Cautions)
		}
		if next := d.Stories[0].Next; next == nil || !slices.Contains([]string{"turn-by-hand", "cooling-pressure-test"}, next.Key) {
			t.Errorf("%s: asks for %v first", name, next)
		}
	}
}

// A rotary has neither head nor bore: what parts its chambers from the coolant
// are seals in the housings. Common practice, no source.
func TestCoolantInRotary(t *testing.T) {
	type f = [3]float64
	book := rotorLimits(6.0, 1.5, 1.5)
	faces := func(rear f, changes ...sample.Change) *diag.Test {
		return sample.Faces([][3]float64{{7.3, 7.4, 7.2}, rear}, append([]sample.Change{book}, changes...)...)
	}
	rear := rotorNames(2)[1]
	good, low := f{7.2, 7.1, 7.3}, f{5.0, 4.9, 5.1}
	none := "head-gasket warped-or-cracked-head cracked-bore"
	runSupply(t, []supplyCase{
		{name: "gas, both rotors good", test: faces(good, gasIn("positive"), sample.Complains("coolant loss")), fires: "combustion-gas-in-coolant", not: "coolant-in-cylinder", first: "coolant-seal cracked-housing", none: none, soon: diag.DoNotRun, next: "cooling-pressure-test"},
		{name: "gas and a low rotor", test: faces(low, gasIn("positive"), sample.Complains("coolant loss", "hard start")), fires: "coolant-in-cylinder rotor-low combustion-gas-in-coolant", first: "coolant-seal cracked-housing", none: none, soon: diag.DoNotRun, next: "cooling-pressure-test turn-by-hand"},
		{name: "a washed plug and a low rotor that does not start", test: faces(low, sample.Plug("coolant", rear), sample.Complains("coolant loss", "no start")), fires: "coolant-in-cylinder rotor-low", first: "coolant-seal", none: none + " flooding", soon: diag.DoNotRun, never: "dry-chambers"},
		{name: "a washed plug alone", test: faces(good, sample.Plug("coolant", rear)), fires: "coolant-washed", not: "coolant-in-cylinder", first: "coolant-seal", none: none, soon: diag.ActSoon},
		{name: "a low rotor that does not start, and no coolant", test: faces(low, sample.Complains("no start")), fires: "rotor-low", not: "coolant-in-cylinder", first: "flooding", none: "coolant-seal cracked-housing", soon: diag.ActSoon},
		{name: "a low rotor, no gas found", test: faces(low, gasIn("negative")), fires: "rotor-low", not: "coolant-in-cylinder", first: "rotor-wear", soon: diag.ActSoon},
	})
	d := story.WithoutPlan(faces(low, gasIn("positive"), sample.Complains("coolant loss")))
	if len(d.Stories) != 1 || !slices.Contains(d.Cautions, "liquid-lock") {
		t.Errorf("one leak to the coolant is told in %d stories, with the cautions %v", len(d.Stories), d.Cautions)
	}
	pistons := story.WithoutPlan(sample.Dry("inline-4", of4(150), gasIn("positive")))
	for _, s := range pistons.Stories {
		if slices.ContainsFunc(s.Causes, func(p diag.Phrase) bool { return p.Key == "coolant-seal" || p.Key == "cracked-housing" }) {
			t.Errorf("an engine with pistons has %v", s.Causes)
		}
	}
}

// TestGasTestProves: that a test made cold or short clears little is common
// practice, no source.
func TestGasTestProves(t *testing.T) {
	sound := []float64{150, 151, 149, 150}
	none := func(how diag.GasTest) sample.Change {
		return func(t *diag.Test) { t.CoolantGas, t.GasTest = "negative", how }
	}
	loses := sample.Complains("coolant loss")
	runSealing(t, []sealingCase{
		{name: "cold", test: sample.Dry("inline-4", sound, loses, none(diag.GasTest{Engine: "cold", Minutes: 5})), fires: "gas-test-not-proof", soon: diag.CheckAgain},
		{name: "short", test: sample.Dry("inline-4", sound, loses, none(diag.GasTest{Engine: "hot", Minutes: 1})), fires: "gas-test-not-proof"},
		{name: "hot and long", test: sample.Dry("inline-4", sound, loses, none(diag.GasTest{Engine: "hot", Minutes: 5})), not: "gas-test-not-proof"},
		{name: "not recorded how", test: sample.Dry("inline-4", sound, loses, none(diag.GasTest{})), not: "gas-test-not-proof"},
		{name: "nothing lost", test: sample.Dry("inline-4", sound, none(diag.GasTest{Engine: "cold", Minutes: 1})), not: "gas-test-not-proof"},
	})
}
