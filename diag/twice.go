package diag

import (
	"math"

	"gaugesheet/diag/quantity"
)

// How far a figure may lie from the same figure written in another section
// before the two contradict each other: judgement, no source.
const (
	vacuumTwice = 2.0  // inHg
	speedTwice  = 20.0 // rpm
	voltsTwice  = 0.3
)

// SettleTwice lets what was measured in a test of its own go before what was
// noted beside another: the starting test before the conditions of the
// compression test. It gives a notice of each figure that the job has twice and
// not alike; the vacuum at idle, which goes before what was noted at the rail,
// among them.
func (t *Test) SettleTwice() []Notice {
	var list []Notice
	if c := t.settle("starting", "cranking", quantity.RPM, &t.Conditions.CrankingRPM, speedTwice, "conditions-cranking"); c != nil {
		list = append(list, *c)
	}
	if c := t.settle("starting", "battery cranking", quantity.Volt, &t.Conditions.Battery.CrankingV, voltsTwice, "conditions-battery"); c != nil {
		list = append(list, *c)
	}
	if c := t.settle("starting", "battery rest", quantity.Volt, &t.Conditions.Battery.RestV, voltsTwice, "conditions-battery-rest"); c != nil {
		list = append(list, *c)
	}
	if t.Fuel == nil {
		return list
	}
	for i := range t.Fuel.Circuits {
		noted := t.Fuel.Circuits[i].ManifoldVacuum
		if noted == nil {
			continue
		}
		v, err := quantity.Convert(*noted, quantity.KPa, quantity.InHg)
		if err != nil {
			continue
		}
		if c := t.settle("vacuum", "idle", quantity.InHg, &[]*float64{&v}[0], vacuumTwice, "fuel-vacuum"); c != nil {
			return append(list, *c)
		}
	}
	return list
}

// settle puts the measured figure in the place of the noted one, and gives a
// notice where the two are too far apart.
func (t *Test) settle(section, name string, unit quantity.Unit, noted **float64, apart float64, where string) *Notice {
	m := t.MeasuredTest(section)
	if m == nil {
		return nil
	}
	for _, r := range m.Readings {
		v, ok := r.last(telling{})
		if !ok || r.Name != name {
			continue
		}
		v, ok = inUnit(v, r.Unit, unit)
		if !ok {
			return nil
		}
		was := *noted
		*noted = &v
		if was == nil || math.Abs(*was-v) <= apart+tiny {
			return nil
		}
		return &Notice{Rule: "written-twice", Facts: Facts{"what": where,
			"value": Number{Value: v, Decimals: quantity.DecimalsRead(v, 0), Unit: unit}, "other": Number{Value: *was, Decimals: quantity.DecimalsRead(*was, 1), Unit: unit}}}
	}
	return nil
}
