package diag

import (
	"math"
	"slices"

	"gaugesheet/diag/quantity"
)

// Assess does the sums on a test and adds what rules in circulation make of its
// readings, on which no diagnosis rests.
func Assess(t *Test) *Diagnosis {
	d := Sums(t)
	if t == nil {
		return d
	}
	if r := d.Compression; r != nil && r.State == Tested {
		r.Published = newCranking(t).published()
	}
	for i := range d.Measured {
		d.Measured[i].Published = d.Measured[i].published(t.Spec)
	}
	return d
}

// Sums are statistics, grades and the verdict on every limit. It fills the
// sections and NotTested of the diagnosis and leaves findings, notices and the
// verdict to package rule. It takes any test, also one without an engine or
// without a reading.
func Sums(t *Test) *Diagnosis {
	d := &Diagnosis{NextFor: -1}
	if t == nil {
		return d
	}
	d.Compression = assessCompression(t)
	d.Leakage = assessLeakage(t)
	d.Plugs = assessPlugs(t)
	d.Rotors = assessRotors(t)
	d.Fuel = assessFuel(t)
	d.Measured = assessMeasured(t)
	d.NotTested = slices.Concat(t.Untested, t.partsUntested())
	return d
}

// SumsAfter is Sums for a test that differs from another, whose sums are done, in
// some sections, in what its decompressor is or in words on the work: sections
// that are the same ones keep their sums.
func SumsAfter(t, was *Test, done *Diagnosis) *Diagnosis {
	d := &Diagnosis{Compression: done.Compression, Leakage: done.Leakage, Plugs: done.Plugs, Rotors: done.Rotors, Fuel: done.Fuel, NextFor: -1}
	if t.Compression != was.Compression || t.Spec.Decompressor != was.Spec.Decompressor || t.UnitReadOff() != was.UnitReadOff() {
		d.Compression = assessCompression(t)
	}
	if t.Leakage != was.Leakage {
		d.Leakage = assessLeakage(t)
	}
	if t.Plugs != was.Plugs {
		d.Plugs = assessPlugs(t)
	}
	if t.Rotors != was.Rotors {
		d.Rotors = assessRotors(t)
	}
	if t.Fuel != was.Fuel {
		d.Fuel = assessFuel(t)
	}
	d.Measured = assessMeasured(t)
	d.NotTested = slices.Concat(t.Untested, t.partsUntested())
	return d
}

// cylinders lists the names that readings go by, in the engine's order.
func (t *Test) cylinders() []string {
	if t.Engine == nil {
		return nil
	}
	return t.Engine.Names()
}

// sectionState is the state of a test whose readings have these states: tested
// where one was read; else what the section says; else what all of its readings
// say; else not tested.
func sectionState(given State, readings []State) State {
	switch {
	case slices.Contains(readings, Tested):
		return Tested
	case given != "" && given != Tested:
		return given
	case len(readings) > 0 && readings[0] != "" && !slices.ContainsFunc(readings, func(s State) bool { return s != readings[0] }):
		return readings[0]
	}
	return NotTested
}

// stateOr is a reading's own state and reason, or those of its section where
// it has none.
func stateOr(state State, reason string, section State, why string) (State, string) {
	switch {
	case state != "":
		return state, reason
	case section != "" && section != Tested:
		return section, why
	}
	return NotTested, ""
}

// repeatsApart is how far repeats of one reading may lie apart, as a part of
// the highest of them, before they are two readings and no longer one: common
// practice, no source.
const repeatsApart = 0.05

// crankingTellsPSI is what a gauge for cranking pressures can tell apart:
// repeats no further apart than that agree, also next to nothing (common
// practice, no source).
const crankingTellsPSI = 2.0

// A telling is what repeats may differ by and still say the same, in the unit of the
// readings: what the gauge can tell apart, and under what they are next to nothing.
type telling struct{ apart, nothing float64 }

// isNothing reports a reading that is next to nothing, where any is.
func (t telling) isNothing(v float64) bool { return t.nothing > 0 && v < t.nothing }

// crankingTells is that of cranking pressures.
func (t *Test) crankingTells(unit quantity.Unit) telling {
	return telling{inReadings(crankingTellsPSI, unit), inReadings(t.nothingPSI(), unit)}
}

// disagree reports repeats too far apart to be averaged: by more than the
// gauge can tell, in the unit of the readings, and by more than a part of the
// highest of them. Those that are all next to nothing say the same.
func disagree(values []float64, t telling) bool {
	if len(values) < 2 {
		return false
	}
	low, high := slices.Min(values), slices.Max(values)
	return !t.isNothing(high) && high-low > max(repeatsApart*high, t.apart)+tiny
}

// settled gives the mean of a reading's repeats; false where nothing was read
// or the repeats disagree.
func (r Reading) settled(tells telling) (float64, bool) {
	v, ok := r.Value()
	return v, ok && finite(v) && !disagree(r.Values, tells)
}

// tiny is the share by which floating point may miss equality on paper.
const tiny = 1e-9

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

func ref(v float64) *float64 { return &v }

// percentOf gives 100 part/whole, 0 where the whole is 0.
func percentOf(part, whole float64) float64 {
	if whole == 0 {
		return 0
	}
	return 100 * part / whole
}

// median is 0 for no values.
func median(values []float64) float64 {
	n := len(values)
	if n == 0 {
		return 0
	}
	sorted := slices.Sorted(slices.Values(values))
	return (sorted[(n-1)/2] + sorted[n/2]) / 2
}

// inUnit converts a pressure; a bare number is in the unit already, and what
// cannot be converted is given back as false.
func inUnit(v float64, from, to quantity.Unit) (float64, bool) {
	got, err := quantity.Value{Number: v, Unit: from}.In(to)
	return got, err == nil
}

// decimals are those that the gauge's division supports, or where it is not
// known the unit's usual ones.
func decimals(g *Gauge, unit quantity.Unit) int {
	if g != nil && g.Division > 0 {
		return quantity.DecimalsFor(g.Division)
	}
	return quantity.DefaultDecimals(unit)
}

// severity orders verdicts, the worst highest.
func severity(v Verdict) int { return slices.Index(bySeverity, v) }

var bySeverity = []Verdict{NotJudged, Within, TooClose, Outside}
