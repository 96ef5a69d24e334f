package known

import (
	"slices"

	"gaugesheet/diag"
)

// seenOfAll are words of what is seen of an engine as a whole, whoever tells it.
var seenOfAll = slices.Concat(CoolantInOil, CoolantBurnt, GasInCoolant, CombustionGas, metalInOil, FuelInOil, fuelOutside)

// tellsSight reports a sentence that says what was seen and not how the engine runs.
func tellsSight(text string) bool {
	plain := plainWords(text)
	return SpeaksOf(plain, seenOfAll...) || metalInFilter.in(plain) || fuelGetsOut.in(plain) || slices.ContainsFunc(grave, func(d saying) bool { return d.in(plain) })
}

// tellsFault reports one that says which part is bad; what a part is heard to do stays told.
func tellsFault(text string) bool {
	plain := foundIn(stillSo(plainWords(text)))
	return SpeaksOf(plain, TurboWorn...) || slices.ContainsFunc(Faults, func(f Fault) bool { return !f.Sign && f.With == "" && f.in(plain) })
}

// withSightsTold is a test among whose findings stand the sentences in which its owner says what
// was seen: it is as true from there.
func withSightsTold(t *diag.Test) *diag.Test {
	own := func(text string) bool { return slices.Contains(t.History.OwnWords, text) }
	sights := slices.DeleteFunc(slices.Clone(t.History.Said), func(text string) bool {
		return slices.Contains(t.History.Findings, text) || !tellsSight(text) && !(own(text) && tellsFault(text))
	})
	if len(sights) == 0 {
		return t
	}
	told := *t
	told.History.Findings = slices.Concat(t.History.Findings, sights)
	told.History.OwnWords = slices.DeleteFunc(slices.Clone(t.History.OwnWords), func(text string) bool { return slices.Contains(sights, text) })
	return &told
}
