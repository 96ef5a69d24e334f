package rule_test

import (
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/rule/sample"
)

// TestPartsSeen: what was written of a look into a cylinder is read by part and damage, and
// what cannot be made out is no all-clear: common practice, no source.
func TestPartsSeen(t *testing.T) {
	low3 := []float64{150, 150, 90, 150}
	seen := func(words string) *diag.Test { return sample.Dry("inline-4", evenFour, sample.Seen("2", words)) }
	seenLow := func(words string) *diag.Test { return sample.Dry("inline-4", low3, sample.Seen("3", words)) }
	two := func(words string) *diag.Test {
		return sample.Dry("inline-2", []float64{120, 121}, sample.TwoStroke, sample.Seen("2", words))
	}
	found := func(line string) *diag.Test {
		return sample.Dry("inline-4", evenFour, sample.Known(func(h *diag.History) { h.Findings = []string{line} }))
	}
	const anyDamage = "seen-broken-ring seen-stuck-ring seen-cracked-piston seen-cracked-head seen-cracked-wall seen-broken-valve seen-leaky-valve seen-blown-gasket seen-broken-plug seen-pin-clip seen-loose-thing seen-wet seen-worn seen-pitted-wall seen-not-judged seen-somewhere"
	runSealing(t, []sealingCase{
		{name: "a broken ring", test: seenLow("second ring broken at the rear"), fires: "seen-broken-ring 3", first: "rings", soon: diag.ActSoon},
		{name: "a ring's piece", test: seen("bit of ring sticking out of the groove"), fires: "seen-broken-ring 2", soon: diag.DoNotRun},
		{name: "a land", test: seenLow("top land broken away"), fires: "seen-broken-ring 3", first: "broken-ring-land"},
		{name: "a broken ring among ports", test: two("ring broken, catches in the port"), fires: "seen-broken-ring 2", soon: diag.DoNotRun},
		{name: "no broken ring", test: seen("no ring broken, lands intact"), not: anyDamage},
		{name: "a stuck ring", test: seenLow("top ring stuck in its groove"), fires: "seen-stuck-ring 3", first: "stuck-rings", soon: diag.ActSoon},
		{name: "rings free", test: seen("rings free, not stuck"), not: anyDamage},
		{name: "a cracked piston", test: seen("hairline crack across the crown"), fires: "seen-cracked-piston 2", first: "piston", soon: diag.DoNotRun},
		{name: "a crack in the head", test: seen("crack between valve seat and plug hole"), fires: "seen-cracked-head 2", not: "seen-burnt-valve", first: "warped-or-cracked-head", soon: diag.ActSoon},
		{name: "in an aircraft's", test: sample.Dry("flat-4", evenFour, airCooled, sample.Known(func(h *diag.History) { h.Vehicle = "light aircraft" }), sample.Seen("3", "crack in the head from the plug hole to the exhaust seat")), fires: "seen-cracked-head 3", soon: diag.DoNotRun},
		{name: "no crack", test: seen("no cracks in the head, none at the seats"), not: anyDamage},
		{name: "pinholes", test: seen("pinholes in the liner"), fires: "seen-cracked-wall 2", first: "cracked-bore", soon: diag.DoNotRun},
		{name: "a barrel of an engine cooled by air", test: sample.Dry("flat-4", evenFour, airCooled, sample.Seen("2", "barrel cracked near the top")), fires: "seen-cracked-wall 2", first: "cracked-bore"},
		{name: "a valve's head", test: seen("exhaust valve broke, stem only"), fires: "seen-broken-valve 2", first: "broken-valve", soon: diag.DoNotRun},
		{name: "a piece out of its edge", test: seenLow("exhaust valve has a piece out of the edge"), fires: "seen-burnt-valve 3", not: "seen-broken-valve", first: "exhaust-valve"},
		{name: "heat at one side of a valve", test: seen("exhaust valve green on one edge, rest red brown"), fires: "seen-leaky-valve 2", first: "exhaust-valve", soon: diag.CheckAgain},
		{name: "an inlet valve that is pitted, its cylinder low", test: seenLow("intake valve face pitted"), fires: "seen-leaky-valve 3", first: "inlet-valve", soon: diag.ActSoon},
		{name: "colors that are sound", test: seen("exhaust valve evenly red brown, tan in the middle"), not: anyDamage},
		{name: "a blown gasket", test: seenLow("gasket blown toward 2"), fires: "seen-blown-gasket 3", first: "head-gasket", soon: diag.ActSoon},
		{name: "a plug's electrode", test: seen("ground strap of the plug is gone"), fires: "seen-broken-plug 2", soon: diag.DoNotRun},
		{name: "a pin's clip", test: seen("circlip missing"), fires: "seen-pin-clip 2", first: "pin-clip", soon: diag.DoNotRun},
		{name: "a screw", test: seen("screw lying on the piston"), fires: "seen-loose-thing 2", not: "seen-holed", first: "foreign-object", soon: diag.DoNotRun},
		{name: "wet with oil", test: seen("oily all around the crown"), fires: "seen-wet 2", soon: diag.CheckAgain},
		{name: "an oil film", test: seen("light oil film on the wall"), not: anyDamage},
		{name: "worn", test: seen("deep ridge at the top of the wall"), fires: "seen-worn 2", first: "wear", soon: diag.CheckAgain},
		{name: "pits on a wall that leaks", test: seenLow("wall rusty and pitted"), fires: "seen-pitted-wall 3", first: "pitted-bore", soon: diag.ActSoon},
		{name: "rust alone", test: seenLow("light rust on the wall, no pits"), fires: "seen-rust 3", not: "seen-pitted-wall", first: "stuck-rings"},
		{name: "smeared", test: seen("aluminum smeared on the wall at the exhaust port"), fires: "seen-scored 2", soon: diag.ActSoon},
		{name: "light marks", test: seen("light scuffing on the thrust side"), fires: "seen-scored 2", soon: diag.CheckAgain},
		{name: "words that nobody knows", test: seen("frabbled at the back"), fires: "seen-not-judged 2", soon: diag.CheckAgain, next: "second-look"},
		{name: "of a part, beside good ones", test: seen("wall good, exhaust valve frabbled"), fires: "seen-not-judged 2", soon: diag.CheckAgain},
		{name: "not good", test: seen("wall not good"), fires: "seen-not-judged 2", soon: diag.CheckAgain},
		{name: "judged since", test: sample.Dry("inline-4", evenFour, sample.Seen("2", "frabbled at the back"), sample.Done("second look on 2: nothing")), not: "seen-not-judged"},
		{name: "a piece of carbon on a seat", test: seen("carbon chunk on the exhaust seat"), fires: "seen-carbon 2", soon: diag.CheckAgain},
		{name: "carbon on a seat", test: seen("some carbon on the crown"), not: "seen-not-judged"},
		{name: "a spring in an engine without valves", test: two("spring broken"), fires: "seen-not-judged 2"},
		{name: "how it was looked at", test: seen("6 mm camera, poor light, plug hole thread cleaned"), not: anyDamage},
		{name: "sound", test: seen("nothing unusual, fine hone marks all around, valves seat evenly"), not: anyDamage + " seen-scored"},
		{name: "a valve in an engine without", test: two("valve bent"), fires: "seen-not-judged 2"},
		{name: "a finding of damage", test: found("cylinder 2: piston crown damaged at the exhaust side"), fires: "seen-cracked-piston 2"},
		{name: "a finding that is not known", test: found("cylinder 2: seat of the exhaust valve looks odd"), fires: "seen-not-judged 2"},
		{name: "a finding that names no cylinder", test: found("ring land of one piston broken"), fires: "seen-somewhere", not: "seen-broken-ring", soon: diag.ActSoon},
		{name: "a finding of the outside", test: found("bracket of the muffler cracked at cylinder 2"), not: anyDamage},
		{name: "a finding put right", test: found("cylinder 2: cracked head replaced"), not: anyDamage},
	})
}
