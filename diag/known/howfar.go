package known

import (
	"math"

	"gaugesheet/diag"
)

// Excess is how far a reading is past its limit, as a part of that limit; 0 where it
// keeps it or has none.
func Excess(m *diag.MeasuredReading) float64 {
	past, limit := 0.0, 0.0
	switch {
	case m == nil:
	case m.BelowLimit():
		past, limit = *m.LimitLow-m.Value, *m.LimitLow
	case m.AboveLimit():
		past, limit = m.Value-*m.LimitHigh, *m.LimitHigh
	}
	if past == 0 {
		return 0
	}
	return past / math.Max(math.Abs(limit), math.Max(m.Uncertainty, 1e-9))
}

// HowFar is how far the worst of some cylinders stands from what it should read in one
// kind of test, to be compared within that kind alone: the part that it lacks of the
// reference pressure, the air that it loses, how far a reading is past its limit or,
// without one, from the median of all.
func (c *Case) HowFar(of Need, names []string) float64 {
	most := 0.0
	for _, n := range names {
		most = math.Max(most, c.howFar(of, n))
	}
	return most
}

func (c *Case) howFar(of Need, name string) float64 {
	switch of {
	case NeedsCompression:
		if r := c.Cylinder(name); r != nil && r.Dry != nil && r.PercentOfRef > 0 {
			return 1 - r.PercentOfRef/100
		}
		return 0
	case NeedsLeakage:
		loss, _ := c.Loss(name)
		return loss / 100
	}
	r := c.Measured(string(of))
	if r == nil {
		return 0
	}
	most := 0.0
	for i := range r.Readings {
		// A glow plug heats or it does not, however many ohms say so.
		if m := &r.Readings[i]; m.Cylinder == name && !(r.Name == DieselTests && m.Name == "glow") {
			most = math.Max(most, math.Max(Excess(m), c.apart(string(of), m)))
		}
	}
	return most
}

// apart is how far a reading without a limit is from the median of all cylinders, three
// at least, as a part of that.
func (c *Case) apart(section string, m *diag.MeasuredReading) float64 {
	if m.Limited() {
		return 0
	}
	values := c.byCylinder(section, m.Name)
	if len(values) < 3 {
		return 0
	}
	middle := medianOf(values)
	if middle == 0 {
		return 0
	}
	return math.Abs(m.Value-middle) / math.Abs(middle)
}
