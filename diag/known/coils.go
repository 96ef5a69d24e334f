package known

import (
	"slices"

	"gaugesheet/diag/engine"
)

// withMates reports a cylinder that is so with all others of its coil, and of all others none.
func (c *Case) withMates(name string, so func(string) bool) bool {
	return c.alikeIn(c.Spec.SharedCoils, name, so)
}

// alikeIn reports that of one of some sets, such as the cylinders of a coil: it is so with all
// others of its own, and with none beside them.
func (c *Case) alikeIn(sets [][]string, name string, so func(string) bool) bool {
	for _, set := range sets {
		if len(set) > 1 && slices.Contains(set, name) {
			return !slices.ContainsFunc(c.Every(), func(n string) bool { return so(n) != slices.Contains(set, n) })
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
	if len(c.Spec.SharedCoils) > 0 || c.Spec.Diesel() || c.Ported() || c.Engine.Kind != engine.Inline || n < 4 || n%2 != 0 || old || c.Distributor() || c.TestedAsAircraft() {
		return nil
	}
	every := c.Every()
	var pairs [][]string
	for i := range n / 2 {
		pairs = append(pairs, []string{every[i], every[n-1-i]})
	}
	return pairs
}

// Words of one coil whose spark a distributor sends to the plugs in turn, and of coils that
// stand each for its own.
var (
	distributorWords = []string{"distributor", "distributor cap", "rotor arm", "cap and rotor", "ignition points", "contact points", "contact breaker", "breaker points", "points ignition"}
	coilWords        = []string{"distributorless", "coil on plug", "coils on plugs", "coil over plug", "coil pack", "coil packs", "wasted spark", "magneto", "magnetos", "motorcycle", "motorbike", "bike"}
)

// Distributor reports an engine that is lit by one coil and a distributor: of which a job
// speaks, whose points were read, or of a vehicle of the years in which nearly all were, or fed
// by a carburettor as those are, that nothing says to have other coils. Common practice, no source.
func (c *Case) Distributor() bool { return remembered(&c.lit, c.distributor) }

func (c *Case) distributor() bool {
	if c.Spec.Diesel() || c.Rotary() || c.Ported() || len(c.Every()) < 3 || len(c.Spec.SharedCoils) > 0 || c.Flies() || c.described(coilWords) {
		return false
	}
	if r := c.Measured(Timing); r != nil && (r.Reading("dwell") != nil || r.Reading("points-gap") != nil || r.Word("vacuum-line") != "") {
		return true
	}
	if c.described(distributorWords) || c.Found(distributorWords...) || c.WorkDone(distributorWords...) {
		return true
	}
	if coils := c.Measured(Balance); coils != nil && coils.Word("off-by") == "coil" {
		return false
	}
	year := c.VehicleYear()
	return year > 0 && year < sharedSince || year == 0 && !c.AirCooled() && c.Carburetted() && !c.MeterOpen()
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
		c.hardlyMissed,
		func(x string) bool { return slices.Contains(coded, x) },
	} {
		if c.alikeIn(coils, n, so) {
			return true
		}
	}
	return false
})

// MateFires clears the coil of a cylinder: what it sends to two plugs it sends to both, and the
// other one burns. What is left is what each has to itself, its plug and its plug wire.
var MateFires = OfAll("its coil fires another cylinder too, and each other that it fires pulls as it should, or has a plug that burns clean beside its own that does not, or no misfire stored beside its own", func(c *Case, n string) bool {
	coded := c.MisfireOf()
	wet := func(x string) bool { return c.Looks(x, "fuel-wet", "sooty") }
	for _, set := range c.Spec.SharedCoils {
		if len(set) < 2 || !slices.Contains(set, n) {
			continue
		}
		return !slices.ContainsFunc(set, func(mate string) bool {
			_, _, read := c.Drop(mate)
			switch {
			case mate == n:
				return false
			case read:
				return c.hardlyMissed(mate) || !c.hardlyMissed(n)
			case slices.Contains(coded, n):
				return slices.Contains(coded, mate)
			}
			return !wet(n) || !c.Looks(mate, "normal")
		})
	}
	return false
})
