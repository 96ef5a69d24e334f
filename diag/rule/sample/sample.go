package sample

import "gaugesheet/diag"

// A Case is a test, the rules that must fire on it, and those that must not.
// Rules named in neither list may or may not fire.
type Case struct {
	Name  string
	Test  *diag.Test
	Fires []string
	Not   []string
}

// Cases are all samples, in a fixed order. Each call builds them anew.
func Cases() []Case {
	var all []Case
	for _, family := range []func() []Case{methodCases, wholeCases, lowCases, noneCases, wetCases, strokeCases, rotorCases, earlierCases,
		leakageCases, plugCases, fuelCases, supplyCases, togetherCases, runningCases} {
		all = append(all, family()...)
	}
	return all
}
