package known

import (
	"math"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
)

// ByItsCheck is what a gauge that was out at its own check would make of a reading were it
// right, from the least to the most: out by as much everywhere, or in proportion. One check
// does not tell which, so that nothing is corrected by it; it does tell to which side.
func ByItsCheck(g *diag.Gauge, v float64) (least, most float64) {
	reads, at := g.ReadsAt[0], g.ReadsAt[1]
	a, b := v+at-reads, v*at/reads
	return min(a, b), max(a, b)
}

// CheckedSpan is what the cranking pressures, from the lowest to the highest, would be on a
// gauge that agreed with its check, in print; "" where it does agree, or nothing was read.
func (c *Case) CheckedSpan(low, high float64) string {
	if GaugeOff(c.Gauges.Compression) == 0 || c.Cranking().N == 0 || !c.Has(NeedsCompression) {
		return ""
	}
	least, _ := ByItsCheck(c.Gauges.Compression, low)
	_, most := ByItsCheck(c.Gauges.Compression, high)
	step := math.Pow10(c.Cranking().Decimals)
	return c.Span(math.Round(least*step)/step, math.Round(most*step)/step)
}

// ByCheck is how cranking pressures would stand to the minimum on a gauge that agreed with
// its check: all within it, all outside, or too close to call; not judged where it does
// agree, or no minimum is stated.
func (c *Case) ByCheck() diag.Verdict {
	s, m := c.Cranking(), c.Minimum()
	if m == nil || s.N == 0 || m.Verdict == diag.NotJudged || GaugeOff(c.Gauges.Compression) == 0 {
		return diag.NotJudged
	}
	limit, err := quantity.Convert(m.Limit, m.Unit, s.Unit)
	if err != nil {
		return diag.NotJudged
	}
	least, _ := ByItsCheck(c.Gauges.Compression, s.Lowest)
	_, most := ByItsCheck(c.Gauges.Compression, s.Highest)
	switch {
	case least >= limit:
		return diag.Within
	case most < limit*(1-checkReads):
		return diag.Outside
	}
	return diag.TooClose
}

// NeedleFallsBack is a gauge whose needle does not stay at what it reached between strokes.
var NeedleFallsBack = OfEngine("a needle that falls back", func(c *Case) bool { return c.Conditions.Needle == "falls back" })

// checkReads is how far a check of a gauge is itself read amiss, as a part of what it read:
// judgement, no source.
const checkReads = 0.03

// MadeLowByGauge reports pressures under the minimum as read, of a gauge that read low at its
// own check by what they lack.
func (c *Case) MadeLowByGauge() bool {
	m := c.Minimum()
	if m == nil || m.Verdict != diag.TooClose || GaugeOff(c.Gauges.Compression) >= 0 {
		return false
	}
	stands := c.ByCheck()
	return stands == diag.Within || stands == diag.TooClose
}

// AboveByCheck reports a minimum that is kept as read on a gauge that read low at its own
// check: what is too close to call is by how much.
func (c *Case) AboveByCheck(l *diag.LimitResult) bool {
	return l.Rule == string(diag.Minimum) && l.Verdict == diag.TooClose && !l.PastAsRead && GaugeOff(c.Gauges.Compression) < 0
}

// Of the fuel gauge: that it read low or high at its own check, and that steady pressures are
// past a limit as read and would be in it by that check.
var (
	FuelGaugeWasLow   = OfEngine("a fuel gauge that read low at its check", func(c *Case) bool { return GaugeOff(c.Gauges.Fuel) < 0 })
	FuelGaugeWasHigh  = OfEngine("a fuel gauge that read high at its check", func(c *Case) bool { return GaugeOff(c.Gauges.Fuel) > 0 })
	FuelGaugeMadeLow  = OfEngine("fuel pressure under its limit by no more than the gauge read low at its check", func(c *Case) bool { return c.madeByFuelGauge(-1) })
	FuelGaugeMadeHigh = OfEngine("fuel pressure over its limit by no more than the gauge read high at its check", func(c *Case) bool { return c.madeByFuelGauge(1) })
)

// madeByFuelGauge reports steady pressures past a limit, under it (-1) or over it (1), all of
// which the gauge's own check takes back into it.
func (c *Case) madeByFuelGauge(side float64) bool {
	g, some := c.Gauges.Fuel, false
	if side*GaugeOff(g) <= 0 {
		return false
	}
	for _, k := range c.Circuits() {
		for _, r := range k.Steady() {
			least, most := ByItsCheck(g, r.Value)
			low, high := r.LimitLow != nil && r.Value < *r.LimitLow, r.LimitHigh != nil && r.Value > *r.LimitHigh
			if side < 0 && high || side > 0 && low || low && most < *r.LimitLow || high && least > *r.LimitHigh {
				return false
			}
			some = some || low || high
		}
	}
	return some
}
