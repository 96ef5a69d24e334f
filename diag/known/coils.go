package known

import (
	"slices"

	"gaugesheet/diag/engine"
)

// withMates reports a cylinder that is so with all others of its coil, and of all others none.
func (c *Case) withMates(name string, so func(string) bool) bool {
	return c.alikeIn(c.Spec.SharedCoils, name, so)
}

func (c *Case) alikeIn(coils [][]string, name string, so func(string) bool) bool {
	for _, coil := range coils {
		if len(coil) > 1 && slices.Contains(coil, name) {
			return !slices.ContainsFunc(c.Every(), func(n string) bool { return so(n) != slices.Contains(coil, n) })
		}
	}
	return false
}

// likelyCoils are the pairs that one coil fires where coils are shared and nobody said so: of
// those that come up together, the inner and the outer two of four in a row, and so on inwards.
// nil for an engine that has a distributor or magnetos, and where the pairs depend on its banks.
func (c *Case) likelyCoils() [][]string {
	n := len(c.Engine.Cylinders)
	old := c.Carburetted() && !c.MeterOpen() || c.VehicleYear() > 0 && c.VehicleYear() < sharedSince
	if len(c.Spec.SharedCoils) > 0 || c.Spec.Diesel() || c.Ported() || c.Engine.Kind != engine.Inline || n < 4 || n%2 != 0 || old || c.TestedAsAircraft() {
		return nil
	}
	every := c.Every()
	var pairs [][]string
	for i := range n / 2 {
		pairs = append(pairs, []string{every[i], every[n-1-i]})
	}
	return pairs
}

// sharedSince is the first year from which coils for two cylinders are common on cars: common
// practice, no source.
const sharedSince = 1986

// MateLikely tells of two cylinders that one coil may fire, of which nobody said whether it does.
var MateLikely = OfAll("coils not recorded, and of all cylinders it and the one that comes up with it alone have sooty or fuel-wet plugs, are hardly missed, or have misfires stored", func(c *Case, n string) bool {
	coils := c.likelyCoils()
	if coils == nil {
		return false
	}
	coded := c.MisfireOf()
	for _, so := range []func(string) bool{
		func(x string) bool { return c.Looks(x, "sooty", "fuel-wet") },
		func(x string) bool { return PullsNothing.HoldsOf(c, x) || PullsLittle.HoldsOf(c, x) },
		func(x string) bool { return slices.Contains(coded, x) },
	} {
		if c.alikeIn(coils, n, so) {
			return true
		}
	}
	return false
})
