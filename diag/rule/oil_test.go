package rule_test

import (
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
	"gaugesheet/diag/rule/sample"
)

// oil is an oil-pressure test in psi.
func oil(parts ...func(*diag.Measured)) sample.Change {
	return sample.Test("oil-pressure", quantity.PSI, parts...)
}

// TestOilPressure: what oil pressure says of an engine. That 10 psi for each 1000 rpm is
// a rule of thumb and no limit, that oil comes before bearings, and the bottom
// end before the top: common practice, no source.
func TestOilPressure(t *testing.T) {
	even := []float64{150, 151, 149, 150}
	idle := sample.Permits("idle", "", 10, sample.NoMost)
	fast := sample.Permits("at-speed", "3000 rpm", 44, 78)
	own := sample.Ticked("gauge", "screwed in")
	hot := func(idling, at2000 float64) func(*diag.Measured) {
		return func(m *diag.Measured) {
			sample.At("idle", "750 rpm", idling)(m)
			sample.At("at-speed", "2000 rpm", at2000)(m)
		}
	}
	runSealing(t, []sealingCase{
		{name: "none", test: sample.Of("inline-4", oil(own, sample.At("idle", "750 rpm", 0))), fires: "no-oil-pressure", not: "oil-pressure-low oil-pressure-right", soon: diag.DoNotRun},
		{name: "none by the dash", test: sample.Of("inline-4", oil(sample.Ticked("gauge", "dash"), hot(0, 0), sample.Ticked("oil level", "right"))), fires: "no-oil-pressure", first: "oil-sender", soon: diag.DoNotRun, next: "oil-gauge-hand"},
		{name: "nothing while cranking is nothing to go by", test: sample.Of("inline-4", oil(own, sample.At("cranking", "", 0), hot(16, 34), idle)), fires: "oil-pressure-right", not: "no-oil-pressure"},
		{name: "right, and the light says otherwise", test: sample.Of("inline-4", sample.Found("oil light flickers when hot"), oil(own, hot(16, 34), idle)), fires: "oil-shown-low", first: "dash-reads-low", soon: diag.CheckAgain, next: "oil-gauge-hand"},
		{name: "low, and the light says so", test: sample.Of("inline-4", sample.Found("oil light flickers when hot"), oil(own, hot(5, 20), idle)), fires: "oil-pressure-low", not: "oil-shown-low"},
		{name: "under its limit", test: sample.Of("inline-4", oil(own, hot(5, 20), idle)), fires: "oil-pressure-low", not: "oil-pressure-right no-oil-pressure oil-pressure-by-dash-only", soon: diag.ActSoon},
		{name: "by the dash it is only to be read again", test: sample.Of("inline-4", oil(sample.Ticked("gauge", "dash"), hot(9, 20), idle)), fires: "oil-pressure-by-dash-only", soon: diag.CheckAgain},
		{name: "next to nothing by the dash", test: sample.Of("inline-4", oil(sample.Ticked("gauge", "dash"), hot(5, 20), idle, sample.Ticked("oil level", "right"))), fires: "oil-pressure-by-dash-only", soon: diag.ActSoon, next: "own-oil-gauge"},
		{name: "no limit, under half of the rule of thumb", test: sample.Of("inline-4", oil(own, hot(4, 5))), fires: "oil-pressure-under-the-rule-of-thumb", first: "worn-bearings", soon: diag.DoNotRun},
		{name: "nearer to its limit than the gauge can tell", test: sample.Of("inline-4", oil(own, hot(9, 30), idle)), fires: "oil-pressure-low", soon: diag.CheckAgain},
		{name: "no limit, under the rule of thumb", test: sample.Of("inline-4", oil(own, hot(12, 12))), fires: "oil-pressure-under-the-rule-of-thumb", not: "oil-pressure-low", soon: diag.CheckAgain},
		{name: "just over the rule of thumb, and the light comes on", test: sample.Of("inline-4", sample.Found("oil light flickers when hot"), oil(own, hot(9, 23))), fires: "oil-pressure-near", soon: diag.ActSoon},
		{name: "just over it, and nothing tells of it", test: sample.Of("inline-4", oil(own, hot(9, 23))), not: "oil-pressure-near"},
		{name: "no limit, over the rule of thumb", test: sample.Of("inline-4", oil(own, hot(16, 34))), not: "oil-pressure-under-the-rule-of-thumb oil-pressure-right oil-pressure-low"},
		{name: "flat with the speed", test: sample.Of("inline-4", oil(own, sample.At("at-speed", "1000 rpm", 20), sample.At("at-speed", "3000 rpm", 21), fast)), fires: "oil-pressure-does-not-rise", first: "oil-relief-valve"},
		{name: "flat and high is the relief valve at work", test: sample.Of("inline-4", oil(own, sample.At("at-speed", "1500 rpm", 62), sample.At("at-speed", "3000 rpm", 63), fast)), fires: "oil-pressure-right", not: "oil-pressure-does-not-rise"},
		{name: "flat at what its limit asks", test: sample.Of("inline-4", oil(own, sample.At("at-speed", "1500 rpm", 47), sample.At("at-speed", "3000 rpm", 48), fast)), not: "oil-pressure-does-not-rise oil-pressure-falls-with-speed"},
		{name: "flat where the relief valve works, beyond any limit", test: sample.Of("inline-4", oil(own, sample.At("at-speed", "2000 rpm", 62), sample.At("at-speed", "5000 rpm", 58))), not: "oil-pressure-does-not-rise oil-pressure-falls-with-speed"},
		{name: "rises and falls", test: sample.Of("inline-4", oil(own, sample.At("idle", "700 rpm", 20), sample.At("at-speed", "2000 rpm", 44), sample.At("at-speed", "3000 rpm", 30), sample.Ticked("oil level", "right"), fast)), fires: "oil-pressure-falls-with-speed", not: "oil-pressure-does-not-rise", first: "oil-pick-up", soon: diag.ActSoon, next: "strainer-look"},
		{name: "rises and falls a little", test: sample.Of("inline-4", oil(own, sample.At("idle", "700 rpm", 20), sample.At("at-speed", "2000 rpm", 62), sample.At("at-speed", "3000 rpm", 50), fast)), not: "oil-pressure-falls-with-speed oil-pressure-does-not-rise"},
		{name: "half of its limit at idle, and short at speed", test: sample.Of("inline-4", oil(own, sample.At("idle", "700 rpm", 5), sample.At("at-speed", "3000 rpm", 24), sample.Permits("idle", "", 10, sample.NoMost), fast)), fires: "oil-pressure-low", soon: diag.DoNotRun},
		{name: "over half of its limit at idle, and short at speed", test: sample.Of("inline-4", oil(own, sample.At("idle", "700 rpm", 6), sample.At("at-speed", "3000 rpm", 24), sample.Permits("idle", "", 10, sample.NoMost), fast)), fires: "oil-pressure-low", soon: diag.ActSoon},
		{name: "falls hot", test: sample.Of("inline-4", oil(own, sample.At("cold-idle", "", 50), hot(5, 20), idle)), fires: "oil-pressure-falls-hot"},
		{name: "falls hot, and is enough", test: sample.Of("inline-4", oil(own, sample.At("cold-idle", "", 60), hot(18, 40), idle)), not: "oil-pressure-falls-hot"},
		{name: "above what nearly any engine has", test: sample.Of("V8", oil(own, sample.At("at-speed", "3000 rpm", 125))), fires: "oil-pressure-above-usual", not: "oil-pressure-high oil-pressure-low", soon: diag.CheckAgain, next: "oil-grade-look"},
		{name: "strong and no more", test: sample.Of("V8", oil(own, sample.At("idle", "", 70), sample.At("at-speed", "3000 rpm", 92))), not: "oil-pressure-above-usual"},
		{name: "high", test: sample.Of("inline-4", oil(own, sample.At("at-speed", "3000 rpm", 95), fast)), fires: "oil-pressure-high", not: "oil-pressure-low oil-pressure-right", soon: diag.CheckAgain},
		{name: "over full", test: sample.Of("inline-4", oil(own, hot(16, 34), sample.Ticked("oil level", "over full"))), fires: "oil-over-full", first: "coolant-in-oil", soon: diag.DoNotRun},
		{name: "over full of fuel", test: sample.Of("inline-4", oil(own, hot(16, 34), sample.Ticked("oil level", "over full"), sample.Ticked("oil smell", "fuel"))), fires: "oil-over-full", first: "fuel-in-oil", soon: diag.DoNotRun},
		{name: "right", test: sample.Of("inline-4", oil(own, hot(16, 34), idle)), fires: "oil-pressure-right", soon: diag.NoAction},
		{name: "low below and a low cylinder above", test: sample.Dry("inline-4", []float64{150, 151, 100, 149}, oil(own, hot(5, 20), idle)), fires: "bottom-end-first", soon: diag.ActSoon},
		{name: "low below by the dash and a low cylinder above", test: sample.Dry("inline-4", []float64{150, 151, 100, 149}, oil(sample.Ticked("gauge", "dash"), hot(3, 12), idle)), fires: "bottom-end-first", soon: diag.DoNotRun},
		{name: "low below and one that leaks above", test: sample.Of("inline-4", sample.Leak("3", 45, "crankcase"), oil(own, hot(5, 20), idle)), fires: "bottom-end-first", soon: diag.ActSoon},
		{name: "low below and one that loses little above", test: sample.Of("inline-4", sample.Leak("3", 6, ""), oil(own, hot(5, 20), idle)), fires: "oil-pressure-low", not: "bottom-end-first"},
		{name: "a low cylinder over a good bottom end", test: sample.Dry("inline-4", []float64{150, 151, 100, 149}, oil(own, hot(16, 34), idle)), fires: "one-low 3", not: "bottom-end-first"},
		{name: "sound above, low below", test: sample.Dry("inline-4", even, oil(own, hot(5, 20), idle)), fires: "sound-above-low-below", not: "bottom-end-first"},
		{name: "smells of fuel, and its pressure is right", test: sample.Of("inline-4", oil(own, hot(16, 34), idle, sample.Ticked("oil smell", "fuel"))), fires: "oil-smells-of-fuel", first: "fuel-in-oil", soon: diag.CheckAgain, next: "fresh-oil"},
		{name: "over full of fuel, low and soaked", test: sample.Dry("inline-4", of4(75), sample.Plug("fuel-wet", "1", "2", "3", "4"), oil(sample.Ticked("oil level", "over full"), sample.Ticked("oil smell", "fuel"))), fires: "flooded-into-the-oil; oil-over-full", first: "washed-bore", soon: diag.DoNotRun},
		{name: "smells of fuel, low and soaked", test: sample.Dry("inline-4", of4(75), sample.Plug("fuel-wet", "1", "2", "3", "4"), oil(sample.Ticked("oil smell", "fuel"))), fires: "flooded-into-the-oil", first: "washed-bore", soon: diag.CheckAgain, next: "dry-and-repeat"},
		{name: "smells of fuel, low and not soaked", test: sample.Dry("inline-4", of4(75), oil(sample.Ticked("oil smell", "fuel"))), fires: "oil-smells-of-fuel", not: "flooded-into-the-oil", soon: diag.CheckAgain},
		{name: "stands low", test: sample.Of("inline-4", oil(own, hot(16, 34), idle, sample.Ticked("oil level", "low"))), fires: "oil-level-low", first: "too-little-oil", soon: diag.CheckAgain, next: "fill-to-the-mark"},
		{name: "low, and metal in it", test: sample.Of("inline-4", oil(own, hot(5, 20), idle), sample.Found("bronze glitter in the drained oil")), fires: "metal-and-low-pressure; metal-in-oil", first: "worn-bearings", soon: diag.DoNotRun},
		{name: "right, and metal in it", test: sample.Of("inline-4", oil(own, hot(16, 34), idle), sample.Found("bronze glitter in the drained oil")), fires: "metal-in-oil", not: "metal-and-low-pressure", soon: diag.DoNotRun},
		{name: "stands low, and its pressure says so", test: sample.Of("inline-4", oil(own, hot(5, 20), idle, sample.Ticked("oil level", "low"))), fires: "oil-pressure-low", not: "oil-level-low"},
		{name: "smells of nothing", test: sample.Of("inline-4", oil(own, hot(16, 34), idle, sample.Ticked("oil smell", "none"))), fires: "oil-pressure-right", not: "oil-smells-of-fuel", soon: diag.NoAction},
		{name: "thinned by fuel", test: sample.Of("inline-4", oil(own, hot(5, 20), idle, sample.Ticked("oil smell", "fuel"))), fires: "oil-thinned-by-fuel", first: "fuel-in-oil"},
	})
}
