package diag

import "slices"

// NothingMeasured is the word of a job for a reading of nothing at all: a valve that
// has no clearance.
const NothingMeasured = "none"

// WithNothingMeasured gives a further test with what was measured as nothing among its
// readings, beside its limit: such a word is not a figure that rules can do sums with,
// but it stands in the row of its name and keeps no limit that asks for something.
func (r *MeasuredResult) WithNothingMeasured(m *Measured) MeasuredResult {
	out := *r
	if m == nil || !ofEachValve[r.Name] {
		return out
	}
	out.Readings, out.Words = slices.Clone(r.Readings), nil
	for _, w := range r.Words {
		if w.Value != NothingMeasured || w.Cylinder == "" {
			out.Words = append(out.Words, w)
			continue
		}
		unit := m.Unit
		if same := r.Reading(w.Name); same != nil {
			unit = same.Unit
		}
		one := m.judge(Measurement{Name: w.Name, Cylinder: w.Cylinder, Unit: unit, Reading: Reading{State: Tested, Values: []float64{0}}}, 0)
		one.Entered = w.Value
		if one.LimitLow != nil && *one.LimitLow > 0 { // none is none, however coarse the gauge
			one.Verdict, one.PastAsRead = Outside, true
		}
		out.Readings = append(out.Readings, one)
	}
	return out
}
