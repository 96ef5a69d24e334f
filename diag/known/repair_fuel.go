package known

import (
	"math"

	"gaugesheet/diag"
)

// Repaired gives what came of the work on a fuel circuit: the steady reading
// that says most, with its limit, and what it was before the work; "" where no
// reading that has a limit was taken before and after it.
func (k Circuit) Repaired() (what Repair, now *diag.FuelReading, then float64) {
	before := k.beforeWork()
	if before == nil {
		return "", nil, 0
	}
	for _, r := range k.Steady() {
		was := before.Reading(r.Name)
		if was == nil || r.LimitLow == nil && r.LimitHigh == nil {
			continue
		}
		result := k.repairOf(was.Value, r)
		if result == "" {
			continue
		}
		if what == "" || result == Worse || result == Unchanged && what != Worse {
			what, now, then = result, r, was.Value
		}
	}
	return what, now, then
}

// beforeWork is the same circuit before the work, nil where it was not read in
// the same unit.
func (k Circuit) beforeWork() *diag.CircuitResult {
	before := k.Case.beforeWork()
	if before == nil || before.Fuel == nil || before.Fuel.Unit != k.Case.Fuel.Unit {
		return nil
	}
	sums := diag.Assess(before).Fuel
	for i := range sums.Circuits {
		if sums.Circuits[i].Name == k.Name {
			return &sums.Circuits[i]
		}
	}
	return nil
}

// repairOf judges one reading before and after the work by its limit now.
func (k Circuit) repairOf(was float64, r *diag.FuelReading) Repair {
	past := func(v float64) float64 { // how far out of its limits
		switch {
		case r.LimitLow != nil && v < *r.LimitLow:
			return *r.LimitLow - v
		case r.LimitHigh != nil && v > *r.LimitHigh:
			return v - *r.LimitHigh
		}
		return 0
	}
	changed := math.Abs(r.Value-was) > k.Repeatability()
	switch then, now := past(was), past(r.Value); {
	case then == 0 && now > 0 && changed, then > 0 && now > then && changed:
		return Worse
	case then > 0 && now > 0 && !changed:
		return Unchanged
	case then > 0 && now == 0 && changed && r.Verdict == diag.Within:
		return Proved
	case then > 0 && now < then && changed:
		return Better
	}
	return ""
}
