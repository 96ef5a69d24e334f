package known

import (
	"slices"

	"gaugesheet/diag"
)

// tellsSight reports a sentence that says what was seen and not how the engine runs, of which
// a rule speaks by itself.
func tellsSight(text string) bool {
	plain := stillSo(plainWords(text))
	return saysMixed(plain) || saysMetal(plain) || SpeaksOf(plain, waterDrawn...) || SpeaksOf(plain, CombustionGas...) || SpeaksOf(plain, FuelInOil...) || SpeaksOf(plain, fuelOutside...) || fuelGetsOut.in(plain) || ruinedBelow(foundIn(plain)) != "" || slices.ContainsFunc(grave, func(d saying) bool { return d.in(plain) })
}

// coolantSign reports one of a sign of coolant that goes, of which several make a finding.
func coolantSign(text string) bool {
	plain := stillSo(plainWords(text))
	return SpeaksOf(plain, CoolantBurnt...) || SpeaksOf(plain, GasInCoolant...)
}

// answered reports a sentence of what was seen, of which the sheet speaks among its findings.
func (c *Case) answered(text string) bool {
	return tellsSight(text) && !(c.AirCooled() && saysMixed(plainWords(text))) || coolantSign(text) && c.CoolantSigns() > 1 || tellsFault(text) && len(c.LowSet()) == 0 && c.AllLow() == nil
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
		return slices.Contains(t.History.Findings, text) || !tellsSight(text) && !coolantSign(text) && !(own(text) && tellsFault(text))
	})
	if len(sights) == 0 {
		return t
	}
	told := *t
	told.History.Findings = slices.Concat(t.History.Findings, sights)
	return &told
}
