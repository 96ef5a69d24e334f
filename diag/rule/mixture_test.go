package rule_test

import (
	"math"
	"slices"
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
	"gaugesheet/diag/rule/sample"
	"gaugesheet/diag/story"
)

// What follows is common practice, no source; that low rail pressure leans the
// mixture and never makes it rich is the physics of it.
func TestRichAndPressure(t *testing.T) {
	book := limits(between("key-on", 38, 44))
	rich := sample.Complains("rich running")
	sooty := sample.Looks(four("sooty")...)
	runSupply(t, []supplyCase{
		{name: "low: the hose is looked at first", test: rail(returns, diag.Circuit{KeyOn: psi(30), Idle: psi(24), Limits: book}, rich, sooty), fires: "rich-but-pressure-low fuel-pressure-low",
			not: "rich-everywhere rich-pressure-right", first: "regulator-diaphragm leaking-injector purge-valve", none: "fuel-filter pump regulator-open", next: "hose-for-fuel", soon: diag.ActSoon},
		{name: "low, no hose there", test: rail(returnless, diag.Circuit{KeyOn: psi(40), Limits: limits(between("key-on", 55, 62))}, rich), fires: "rich-but-pressure-low", first: "leaking-injector purge-valve",
			none: "regulator-diaphragm fuel-filter pump", never: "hose-for-fuel restrict-return"},
		{name: "low, hose dry", test: rail(returns, diag.Circuit{KeyOn: psi(30), FuelInHose: "no", Limits: book}, sample.Codes("P0172")), fires: "rich-but-pressure-low", none: "regulator-diaphragm", never: "hose-for-fuel"},
		{name: "low, hose dry, held", test: rail(returns, diag.Circuit{KeyOn: psi(30), FuelInHose: "no", Hold: held(5, 29), Limits: book}, rich), fires: "rich-but-pressure-low", none: "regulator-diaphragm leaking-injector"},
		{name: "low, fuel in the hose", test: rail(returns, diag.Circuit{KeyOn: psi(30), FuelInHose: "yes", Hold: held(5, 12), Limits: book}, rich, sooty), fires: "rich-but-pressure-low fuel-in-hose", first: "regulator-diaphragm",
			sure: diag.Strong, never: "hose-for-fuel purge-pinch pinch-feed-and-return"},
		{name: "low, a carburettor", test: rail(carb, diag.Circuit{Idle: psi(2), Limits: limits(between("idle", 4, 6))}, rich), fires: "rich-but-pressure-low", none: "leaking-injector purge-valve temperature-signal regulator-diaphragm", never: "fuel-trims purge-pinch"},
		{name: "one black plug beside fuel in the hose", test: rail(returns, diag.Circuit{KeyOn: psi(41), FuelInHose: "yes", Limits: book}, rich, sample.Looks("sooty", "normal", "normal", "normal")), fires: "fuel-in-hose", not: "one-sooty", first: "regulator-diaphragm"},
		{name: "one black plug and a dry hose", test: rail(returns, diag.Circuit{KeyOn: psi(41), FuelInHose: "no", Limits: book}, rich, sample.Looks("sooty", "normal", "normal", "normal")), fires: "one-sooty", not: "fuel-in-hose"},
		{name: "one black bank beside fuel in the hose", test: sample.Of("V6", sample.Fuel(returns, diag.Circuit{KeyOn: psi(41), FuelInHose: "yes", Limits: book}), rich, sample.Plug("sooty", "1", "3", "5"), sample.Plug("normal", "2", "4", "6")), fires: "fuel-in-hose", not: "rich-one-bank bank-sooty"},
		{name: "one black bank and a dry hose", test: sample.Of("V6", sample.Fuel(returns, diag.Circuit{KeyOn: psi(41), FuelInHose: "no", Limits: book}), rich, sample.Plug("sooty", "1", "3", "5"), sample.Plug("normal", "2", "4", "6")), fires: "rich-one-bank"},
		{name: "high, and sooty", test: rail(returns, diag.Circuit{KeyOn: psi(62), Idle: psi(54), Hold: held(5, 60), Limits: book}, rich, sooty), fires: "rich-and-pressure-high fuel-pressure-high",
			not: "rich-everywhere rich-but-pressure-low", first: "return-blocked regulator-stuck", sure: diag.Strong, next: "return-line-look return-to-can"},
		{name: "high, and told", test: rail(returnless, diag.Circuit{KeyOn: psi(80), Limits: limits(between("key-on", 55, 62))}, rich), fires: "rich-and-pressure-high", first: "regulator-stuck", none: "return-blocked"},
		{name: "right, held not read", test: rail(returns, diag.Circuit{KeyOn: psi(40), Limits: book}, rich), fires: "rich-pressure-right fuel-pressure-right not-held-tested/rich", first: "regulator-diaphragm leaking-injector", next: "hose-for-fuel", soon: diag.CheckAgain},
		{name: "right, hose dry, held not read", test: rail(returns, diag.Circuit{KeyOn: psi(40), FuelInHose: "no", Limits: book}, rich), fires: "rich-pressure-right", first: "leaking-injector", next: "held-pressure", none: "regulator-diaphragm"},
		{name: "right and held, no hose", test: rail(returnless, diag.Circuit{KeyOn: psi(58), Hold: held(5, 56), Limits: limits(between("key-on", 55, 62))}, rich), fires: "rich-pressure-right", none: "leaking-injector regulator-diaphragm", never: "hose-for-fuel held-pressure"},
		{name: "right, a carburettor", test: rail(carb, diag.Circuit{Idle: psi(5), Limits: limits(between("idle", 4, 6))}, rich), fires: "rich-pressure-right", first: "carburettor", none: "leaking-injector purge-valve", not: "not-held-tested"},
		{name: "every plug black, pressure right", test: rail(returns, diag.Circuit{KeyOn: psi(41), Limits: book}, rich, sooty), fires: "rich-everywhere all-sooty", not: "rich-one-bank rich-pressure-right", first: "regulator-diaphragm temperature-signal", next: "hose-for-fuel held-pressure"},
		{name: "every plug black, pressure right, hose dry, held", test: rail(returns, diag.Circuit{KeyOn: psi(41), FuelInHose: "no", Hold: held(5, 40), Limits: book}, rich, sooty), fires: "rich-everywhere", first: "temperature-signal", none: "regulator-diaphragm leaking-injector"},
		{name: "every plug black, carburettor not tested", test: sample.Of("inline-4", rich, sooty, sample.Spec(func(s *diag.Spec) { s.Fuel, s.TwoStroke = "two-stroke mix", true })), fires: "rich-everywhere", none: "temperature-signal purge-valve regulator-stuck"},
		{name: "no complaint, nothing tested", test: sample.Of("inline-4", sooty), not: "rich-everywhere"},
		{name: "no limit, new regulator", test: rail(returns, diag.Circuit{KeyOn: psi(40)}, rich, sample.Done("fuel-pressure regulator renewed")), fires: "rich-pressure-open not-held-tested/rich", first: "leaking-injector", none: "regulator-diaphragm", next: "held-pressure", never: "hose-for-fuel"},
		{name: "no sign of it", test: rail(returns, diag.Circuit{KeyOn: psi(30), Limits: book}), not: "rich-but-pressure-low lean-and-pressure-low"},
		{name: "none at all", test: rail(returns, diag.Circuit{KeyOn: psi(0), Limits: book}, rich), not: "rich-but-pressure-low"},
	})
}

func TestInjectorThatDrips(t *testing.T) {
	hold := append(limits(between("key-on", 38, 44)), diag.FuelLimit{For: "hold", Low: 30, High: math.Inf(1), Minutes: 5})
	wet := sample.Looks("normal", "normal", "fuel-wet", "normal")
	runSupply(t, []supplyCase{
		{name: "wet plug, not held, rich", test: rail(returns, diag.Circuit{KeyOn: psi(41), Hold: held(5, 10), Limits: hold}, wet, sample.Complains("rich running")), fires: "injector-agrees falls-off-fast", first: "leaking-injector",
			sure: diag.Strong, soon: diag.ActSoon, next: "injector-drip injector-balance pinch-feed-and-return"},
		{name: "sooty plug, not held, no return", test: rail(returnless, diag.Circuit{KeyOn: psi(58), Hold: held(5, 20), Limits: limits(between("key-on", 55, 62))}, sample.Looks("normal", "sooty", "normal", "normal")), fires: "injector-agrees", first: "leaking-injector"},
		{name: "wet plug, seals well, not held", test: sample.Dry("inline-4", []float64{150, 152, 149, 151}, sample.Fuel(returns, diag.Circuit{KeyOn: psi(41), Hold: held(5, 10), Limits: hold}), wet), fires: "injector-agrees", first: "leaking-injector"},
		{name: "wet plug, held", test: rail(returns, diag.Circuit{KeyOn: psi(41), Hold: held(5, 38), Limits: hold}, wet), not: "injector-agrees"},
		{name: "every plug wet", test: rail(returns, diag.Circuit{KeyOn: psi(41), Hold: held(5, 10), Limits: hold}, sample.Looks(four("fuel-wet")...)), not: "injector-agrees"},
		{name: "fuel went by the hose", test: rail(returns, diag.Circuit{KeyOn: psi(41), FuelInHose: "yes", Hold: held(5, 10), Limits: hold}, wet), not: "injector-agrees", fires: "fuel-in-hose", first: "regulator-diaphragm"},
		{name: "a carburettor does not hold", test: rail(carb, diag.Circuit{Idle: psi(5), Hold: held(5, 0)}, wet), not: "injector-agrees"},
		{name: "low compression soots its plug", test: sample.Dry("inline-4", []float64{150, 90, 149, 151}, sample.Fuel(returns, diag.Circuit{KeyOn: psi(41), Hold: held(5, 10), Limits: hold}), sample.Looks("normal", "sooty", "normal", "normal")), not: "injector-agrees"},
	})
}

func TestLeanAndPressure(t *testing.T) {
	book := limits(between("key-on", 55, 62))
	lean, white := sample.Complains("lean running"), sample.Looks(four("white")...)
	gas := sample.Spec(func(s *diag.Spec) { s.Fuel = "lpg" })
	runSupply(t, []supplyCase{
		{name: "low", test: rail(returnless, diag.Circuit{KeyOn: psi(40), Limits: book}, white), fires: "lean-and-pressure-low fuel-pressure-low", first: "fuel-filter pump", soon: diag.ActSoon},
		{name: "low, and the closed return lifts it", test: rail(returns, diag.Circuit{KeyOn: psi(25), ReturnPinched: psi(70), Limits: limits(between("key-on", 38, 44))}, white), fires: "lean-and-pressure-low", first: "regulator-open", none: "pump fuel-filter"},
		{name: "sags", test: rail(returnless, diag.Circuit{KeyOn: psi(58), Idle: psi(57), Snap: psi(38), Hold: held(5, 56), Limits: book}, white), fires: "lean-and-pressure-low sags-under-load", not: "lean-pressure-right", first: "fuel-filter pump", next: "fuel-volume pump-volts"},
		{name: "right", test: rail(returnless, diag.Circuit{KeyOn: psi(58), Snap: psi(57), Limits: append(book, between("snap", 50, 0))}, sample.Codes("P0171", "P0174")), fires: "lean-pressure-right", first: "air-leak", none: "pump fuel-filter low-fuel-pressure", next: "smoke-test fuel-trims"},
		{name: "snap outside is not right", test: rail(returnless, diag.Circuit{KeyOn: psi(58), Snap: psi(40), Limits: append(book, between("snap", 50, 0))}, lean), fires: "lean-and-pressure-low", not: "lean-pressure-right fuel-pressure-right"},
		{name: "little volume is not right", test: rail(returnless, diag.Circuit{KeyOn: psi(58), VolumeML: 100, VolumeSeconds: 30, Limits: book}, lean), fires: "pump-volume-low", not: "lean-pressure-right"},
		{name: "right, a carburettor", test: rail(carb, diag.Circuit{Idle: psi(5), Limits: limits(between("idle", 4, 6))}, lean), fires: "lean-pressure-right", none: "air-meter dirty-injectors", never: "fuel-trims"},
		{name: "white on gas is as it should be", test: rail("", diag.Circuit{Idle: psi(40), Limits: limits(between("idle", 38, 44))}, white, gas), not: "lean-pressure-right"},
		{name: "no sign", test: rail(returnless, diag.Circuit{KeyOn: psi(58), Limits: book}), not: "lean-pressure-right"},
	})
}

func TestOneBank(t *testing.T) {
	rich := sample.Complains("rich running")
	bank := func(left, right string) sample.Change { return sample.Looks(left, right, left, right, left, right) }
	runSupply(t, []supplyCase{
		{name: "one rich", test: sample.Of("V6", rich, bank("sooty", "normal")), fires: "rich-one-bank", not: "rich-everywhere", first: "bank-exhaust-leak bank-sensor", none: "pump regulator-stuck regulator-diaphragm sensors-crossed", next: "bank-trims"},
		{name: "one rich, the other lean", test: sample.Of("V6", rich, bank("sooty", "white")), fires: "rich-one-bank/crossed lean-one-bank", first: "sensors-crossed", next: "bank-trims"},
		{name: "one lean", test: sample.Of("V6", bank("normal", "white")), fires: "lean-one-bank", not: "lean-all", first: "manifold-gasket injector-seals", next: "smoke-test", none: "sensors-crossed pump"},
		{name: "one rich, carburettors", test: sample.Of("V6", sample.Fuel(carb, diag.Circuit{Idle: psi(5), Limits: limits(between("idle", 4, 6))}), rich, bank("sooty", "normal")), fires: "rich-one-bank", none: "bank-sensor bank-exhaust-leak own-injector", never: "bank-trims"},
		{name: "one row has no banks", test: sample.Of("inline-6", rich, bank("sooty", "normal")), not: "rich-one-bank"},
	})
}

// TestMixtureKnownFromAReading: the mixture of which only the driver speaks leaves a
// doubt that the trims take away.
func TestMixtureKnownFromAReading(t *testing.T) {
	low := diag.Circuit{KeyOn: psi(40), Limits: []diag.FuelLimit{between("key-on", 55, 62)}}
	leans := sample.Test("trims", quantity.Percent, sample.At("trim long", "idle bank 1", 5), sample.At("trim long", "2500 rpm bank 1", 18))
	for _, row := range []struct {
		name   string
		trims  []sample.Change
		doubts bool
	}{{"told", nil, true}, {"read", []sample.Change{leans}, false}} {
		d := story.WithoutPlan(rail(returnless, low, append(row.trims, sample.Complains("lean running"))...))
		doubts := false
		for _, s := range d.Stories {
			doubts = doubts || slices.ContainsFunc(s.Doubts, func(p diag.Phrase) bool { return p.Key == "by-complaint" })
		}
		if doubts != row.doubts {
			t.Errorf("%s: doubted that it is told %t, want %t", row.name, doubts, row.doubts)
		}
	}
}
