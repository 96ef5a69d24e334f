package known

import (
	"math"
	"slices"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
)

// Pressure is a number in the compression section's unit, with its decimals or
// those that a reading has of its own.
func (c *Case) Pressure(v float64) diag.Number {
	s := c.Cranking()
	return diag.Number{Value: v, Decimals: quantity.DecimalsRead(v, s.Decimals), Unit: s.Unit}
}

// Part is one pressure as a percentage of another, both as they are printed:
// who divides what the page says gets the same. It is 0 of nothing.
func (c *Case) Part(of, whole float64) diag.Number {
	all := c.Pressure(whole).Printed()
	if all == 0 {
		return Percent(0, 0)
	}
	return Percent(100*c.Pressure(of).Printed()/all, 0)
}

// Percent is a number of percent, whole where it is read as one.
func Percent(v float64, decimals int) diag.Number {
	return diag.Number{Value: v, Decimals: decimals, Unit: quantity.Percent}
}

// PartOfReference is a cylinder's reading as a percentage of what its set is
// compared with, as printed.
func (c *Case) PartOfReference(r *diag.CylinderResult) diag.Number {
	switch {
	case r.Dry == nil:
		return Percent(r.PercentOfRef, 0)
	case r.AtMost:
		return c.Part(*r.Dry, c.Cranking().HighestBound)
	}
	return c.Part(*r.Dry, c.Cranking().Reference)
}

// AtItsEnd is a cylinder as it is with the figure that it is known not to read more than for
// its reading; the cylinder itself where it was read.
func (c *Case) AtItsEnd(r *diag.CylinderResult) *diag.CylinderResult {
	s := c.Cranking()
	if s.EndsOf(r.Name) == nil {
		return r
	}
	return s.Ends[1].Cylinder(r.Name)
}

// Percents prints a range of whole percent, or one where both print the same.
func Percents(low, high float64) string {
	to := Percent(high, 0).String()
	if Percent(low, 0).String() == to {
		return to
	}
	if low < 0 { // a dash before or after a minus sign reads as another one
		return quantity.Format(low, 0) + " to " + to
	}
	return quantity.Format(low, 0) + "–" + to
}

// Span prints a range of pressures, or one where both print the same.
func (c *Case) Span(low, high float64) string {
	l, h := c.Pressure(low), c.Pressure(high)
	if l.String() == h.String() {
		return h.String()
	}
	return quantity.Format(low, l.Decimals) + "–" + h.String()
}

// AtLeast prints a pressure known only not to be less, as it is entered: 150+.
func (c *Case) AtLeast(v float64) string {
	p := c.Pressure(v)
	return quantity.Format(v, p.Decimals) + "+\u00a0" + string(p.Unit)
}

// CrankingPSI gives a pressure of the trade's, in psi, in the unit of the
// compression readings.
func (c *Case) CrankingPSI(psi float64) float64 { return inUnit(psi, c.Cranking().Unit) }

// TradeFigure prints a pressure that the trade knows and nobody read or stated:
// in the unit of the readings and in another, so that it can be told from these.
func (c *Case) TradeFigure(v float64) string {
	own := c.Pressure(v)
	other := quantity.PSI
	if own.Unit == other {
		other = quantity.Bar
	}
	in, err := quantity.Convert(v, own.Unit, other)
	if err != nil {
		return own.String()
	}
	return own.String() + " (" + diag.Number{Value: in, Decimals: quantity.DefaultDecimals(other), Unit: other}.String() + ")"
}

// LimitFacts are the numbers of a limit that was judged.
func (c *Case) LimitFacts(l *diag.LimitResult) diag.Facts {
	decimals := 1
	if l.Unit == c.Cranking().Unit {
		decimals = c.Cranking().Decimals
	} else if l.Unit != quantity.Percent {
		decimals = quantity.DefaultDecimals(l.Unit)
	}
	number := func(v float64) diag.Number { return diag.Number{Value: v, Decimals: decimals, Unit: l.Unit} }
	var value any = number(l.Value)
	if l.Ends != nil {
		value = quantity.Format(min(l.Ends[0], l.Ends[1]), decimals) + "–" + number(max(l.Ends[0], l.Ends[1])).String()
	}
	kind, basis, _ := strings.Cut(l.Rule, " of ")
	limit := number(l.Limit)
	if limit.Value == math.Trunc(limit.Value) {
		limit.Decimals = 0
	}
	return diag.Facts{
		"kind": kind, "basis": basis, "limit": limit, "value": value, "u": number(l.Uncertainty), "rule": l.Rule,
		"entered": l.AsEntered, "source": l.Source, "corrected": l.Corrected, "cylinder": l.Cylinder,
		"checked": c.checkedValue(l),
	}
}

// checkedValue is what a limit on the pressure itself was judged by, on a gauge that agreed
// with its own check; "" where it does agree, or the limit is on something else.
func (c *Case) checkedValue(l *diag.LimitResult) string {
	if l.Rule != string(diag.Minimum) || l.Unit != c.Cranking().Unit {
		return ""
	}
	return c.CheckedSpan(l.Value, l.Value)
}

// FacePressure is a pressure in the unit of the rotors' faces, as it is printed.
func (c *Case) FacePressure(v float64) diag.Number {
	r := c.Sums.Rotors
	return diag.Number{Value: v, Decimals: quantity.DecimalsRead(v, r.Decimals), Unit: r.Unit}
}

// CrankingNumber is a cranking pressure, of a piston engine or of a rotary.
func (c *Case) CrankingNumber(v float64) diag.Number {
	if c.Has(NeedsRotors) {
		return c.FacePressure(v)
	}
	return c.Pressure(v)
}

// Median is the middle of values in any unit, NaN where there are none.
func Median(v []float64) float64 {
	v = slices.Clone(v)
	slices.Sort(v)
	n := len(v)
	if n == 0 {
		return math.NaN()
	}
	return (v[(n-1)/2] + v[n/2]) / 2
}
