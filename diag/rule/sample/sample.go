package sample

import "gaugesheet/diag"

// A Row is a test, the rules that must fire on it, and those that must not.
// Rules named in neither list may or may not fire.
type Row struct {
	Name  string
	Test  *diag.Test
	Fires []string
	Not   []string
}

// Rows are all samples, in a fixed order. Each call builds them anew.
func Rows() []Row {
	var all []Row
	for _, family := range []func() []Row{methodRows, wholeRows, lowRows, noneRows, wetRows, strokeRows, rotorRows, earlierRows,
		leakageRows, plugRows, fuelRows, supplyRows, togetherRows, runningRows} {
		all = append(all, family()...)
	}
	return all
}
