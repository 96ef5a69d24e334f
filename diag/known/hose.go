package known

import (
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/air"
	"gaugesheet/diag/quantity"
)

// usualHose is what the hose of a gauge holds ahead of its check valve, in ml,
// where neither its volume nor the valve's place was recorded: common practice,
// no source.
const usualHose = 4.0

// hoseShare is what the gauge reads as a part of the pressure in the cylinder
// alone: its hose adds to the chamber, little to that of a car and much to the small
// one of a motorcycle. 1 where the size of a cylinder is not known.
func (c *Case) hoseShare(e *diag.Expected) float64 {
	n := len(c.Every())
	if c.Spec.DisplacementML <= 0 || n == 0 || c.Spec.Ratio <= 1 {
		return 1
	}
	hose := usualHose
	if g := c.Gauges.Compression; g != nil {
		switch {
		case g.HoseVolumeML > 0:
			hose = g.HoseVolumeML
		case strings.Contains(strings.ToLower(g.Valve), "plug"):
			return 1
		}
	}
	chamber := c.Spec.DisplacementML / float64(n) / (c.Spec.Ratio - 1)
	return air.HoseShare(e.Working.EffectiveLow, e.Working.ExponentLow, hose/chamber)
}

// Ratios that are taken to reckon what a hose takes where none was given: low ones of each
// kind, so that it takes no less. Common practice, no source.
const hoseRatioPorted, hoseRatioDiesel = 6.0, 16.0

// portedStroke is the part of the stroke of a two-stroke of ports that is left when its
// exhaust port has closed, and trappedMost the ratio up to which one is given from there and
// not from the whole stroke: common practice, no source.
const portedStroke, trappedMost = 0.6, 9.0

// HoseRatio is the ratio by which it is reckoned what a hose takes, and whether it was given.
func (c *Case) HoseRatio() (ratio float64, given bool) {
	switch {
	case c.Spec.Ratio > 1:
		return c.Spec.Ratio, true
	case c.Spec.Diesel():
		return hoseRatioDiesel, false
	case c.Spec.TwoStroke:
		return hoseRatioPorted, false
	case c.MayBeOfLowRatio():
		return lowRatio, false
	}
	return floorRatio, false
}

// HoseTakes is the part of a reading that the hose of the gauge takes off at least, 0 where
// its volume was not written down or the size of a cylinder is not known.
func (c *Case) HoseTakes() float64 {
	g, n := c.Gauges.Compression, len(c.Every())
	if g == nil || g.HoseVolumeML <= 0 || strings.Contains(strings.ToLower(g.Valve), "plug") || n == 0 || c.Spec.DisplacementML <= 0 || c.Rotary() {
		return 0
	}
	if e := c.Cranking().Expected; e != nil {
		return 1 - c.hoseShare(e)
	}
	ratio, _ := c.HoseRatio()
	swept := c.Spec.DisplacementML / float64(n)
	effective := ratio
	switch {
	case !c.HasValves() && ratio <= trappedMost:
		swept *= portedStroke
	case !c.HasValves():
		effective = 1 + portedStroke*(ratio-1)
	default:
		closes := c.Spec.InletClosesDeg
		if closes <= 0 {
			closes = usualInletClosing
		}
		found, err := air.EffectiveRatio(air.Geometry{Ratio: ratio, InletCloses: closes})
		if err != nil {
			return 0
		}
		effective = found
	}
	return 1 - air.HoseShare(effective, likelyExponent, g.HoseVolumeML*(ratio-1)/swept)
}

// MadeLowByHose reports pressures that are low as read, under the minimum or what nearly any
// engine gives, of which the hose of the gauge takes off what they lack.
func (c *Case) MadeLowByHose() bool {
	takes, s := c.HoseTakes(), c.Cranking()
	if takes <= 0 || takes >= 1 || s.N == 0 || s.Lowest <= 0 {
		return false
	}
	figure := 0.0
	switch basis, m := c.AllLow(), c.Minimum(); {
	case basis != nil && fallen(basis.Variant):
		return false
	case basis != nil:
		figure = s.Highest / basis.Share
	case m != nil && m.Verdict != diag.NotJudged && m.Verdict != diag.Within:
		limit, err := quantity.Convert(m.Limit, m.Unit, s.Unit)
		if err != nil {
			return false
		}
		figure = limit
	default:
		return false
	}
	return s.Lowest < figure && s.Lowest/(1-takes) >= figure
}

// fallen is low by what the same engine read before, by much the same hose, or by other tests,
// which no hose makes.
func fallen(variant string) bool {
	return variant == "earlier" || variant == "worked" || variant == "agreed" || variant == "standard"
}
