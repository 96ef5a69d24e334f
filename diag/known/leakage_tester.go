package known

import (
	"slices"

	"gaugesheet/diag/engine"
)

// What the tester and how it is used tell of a leakage test.

// TestedAsAircraft reports an engine with valves, of separate barrels or cooled by air, whose leakage
// was read as aircraft's is. There a quarter lost makes a cylinder suspect, and it is
// run and read again before anything comes off: FAA AC 43.13-1B, para 8-14.
func (c *Case) TestedAsAircraft() bool { return c.burning().aircraft }

func (c *Case) testedAsAircraft() bool {
	e := c.Engine
	barrels := len(e.Heads) > 1 && len(e.Heads) == len(e.Cylinders)
	return c.HasValves() && c.Spec.Cooling != "liquid" && (barrels || c.Spec.Cooling == "air" || e.Kind == engine.Radial) && c.HeldOf80()
}

// suspectLoss is the loss in percent over which a cylinder is suspect where no limit is
// given. A tester that loses much on a sound cylinder finds sound ones beyond the usual
// band.
func (c *Case) suspectLoss() float64 {
	if c.TestedAsAircraft() {
		return AircraftLoss
	}
	return max(WornLoss, c.SoundLoss()+OverMedian)
}

// goodLoss is the loss up to which a cylinder is good where no limit is given: no more
// than the tester reads on a sound one.
func (c *Case) goodLoss() float64 { return max(GoodLoss, c.SoundLoss()) }

// testerSays is what the tester read on its master orifice, where that is the limit, and
// on a sound cylinder, where that moves the bands; "" for each where it does not.
func (c *Case) testerSays() (orifice, sound string) {
	switch {
	case c.Sums.Leakage != nil && c.Sums.Leakage.Orifice:
		return c.Gauges.Leakage.GoodReading, ""
	case c.SoundLoss() > GoodLoss:
		return "", c.Gauges.Leakage.GoodReading
	}
	return "", ""
}

// ActOn is the loss in percent over which it is acted on soon where no limit is given.
func (c *Case) ActOn() float64 {
	if c.TestedAsAircraft() && c.LeakageWarm() {
		return AircraftLoss
	}
	return max(ActLoss, c.suspectLoss())
}

// HeldOf80 reports a leakage test as it is made on aircraft: pressures held of 80.
func (c *Case) HeldOf80() bool { return c.Leakage.HeldOf80() }

// AirMayPassValves reports that one of these cylinders, or of all where none is named,
// lost air at a valve, or at a place that nobody noted.
func (c *Case) AirMayPassValves(names []string) bool {
	if len(names) == 0 {
		names = c.Every()
	}
	return slices.ContainsFunc(names, func(n string) bool {
		l := c.leakAt(n)
		return l == nil || len(l.At) == 0 || slices.Contains(l.At, AtExhaust) || slices.Contains(l.At, AtInlet)
	})
}

// allTogether is within how many points the losses of all cylinders lie where they are the
// tester's: judgement, no source.
const allTogether = 8

// LosesAlikeThroughout reports an engine that has its pressure, and whose cylinders, three or
// more and all of them, lose much test air and all about as much: that is the tester's mark
// before it is theirs. A cold engine, and one that burns oil, may lose so.
func (c *Case) LosesAlikeThroughout() bool {
	leaks := c.Leaks()
	if len(leaks) < FewestForMedian || len(leaks) < len(c.Every()) || c.TestedAsAircraft() || c.LeakageCold() {
		return false
	}
	low, high := *leaks[0].Loss, *leaks[0].Loss
	for _, l := range leaks {
		low, high = min(low, *l.Loss), max(high, *l.Loss)
	}
	return low > c.suspectLoss() && high-low <= allTogether && c.Has(NeedsCompression) && !c.AnyLow(c.Read()) && c.AllLow() == nil &&
		!c.UsesOil() && !c.Smokes("blue") && c.NotJudged() == ""
}

// LosesAlike is that as a condition.
var LosesAlike = OfEngine("all cylinders, three at least, lose over 20 % and all about as much, with good pressure, warm, no oil burnt", (*Case).LosesAlikeThroughout)

// LosesApart reports cylinders that lose too much air where half of the others that were read,
// one at least, do not: what the tester's scale does, it does to all.
func (c *Case) LosesApart(names []string) bool {
	tight, others := 0, 0
	for _, l := range c.Leaks() {
		if slices.Contains(names, l.Name) || l.Loss == nil {
			continue
		}
		others++
		if !c.LeakTooHigh(l) {
			tight++
		}
	}
	return tight > 0 && 2*tight >= others
}
