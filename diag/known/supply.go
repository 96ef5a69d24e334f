package known

import (
	"math"
	"strings"

	"gaugesheet/diag"
)

// MayBeElectricPump reports a fuel pump that has a relay, a fuse and a voltage:
// not one that is said to be driven by the engine, nor a diesel's lift pump
// that is not said to be electric.
func (c *Case) MayBeElectricPump() bool {
	if c.Fuel == nil || c.Fuel.Pump == "" {
		return c.FuelSystem() != DieselLift
	}
	return c.Fuel.Pump == "electric"
}

// Primes reports a pump that fills the rail as soon as the key is on: an
// electric one of an injection system.
func (c *Case) Primes() bool {
	return c.MayBeElectricPump() && c.FuelSystem() != Carburettor && !c.Spec.Diesel()
}

// PumpHeard is what was heard of the fuel pump.
func (c *Case) PumpHeard() diag.Tri {
	if c.Fuel == nil {
		return diag.Unknown
	}
	return c.Fuel.PumpHeard
}

// MayHaveHose reports a regulator that has, or may have, a hose to the
// manifold, and one in whose hose fuel was found.
func (c *Case) MayHaveHose() bool {
	system := c.FuelSystem()
	return c.FuelInHose("yes") || c.Injected() && (system == PortReturn || system == "")
}

// FuelInHose reports what was found in the hose of a circuit's regulator.
func (c *Case) FuelInHose(found string) bool {
	if c.Fuel == nil {
		return false
	}
	for i := range c.Fuel.Circuits {
		if c.Fuel.Circuits[i].FuelInHose == found {
			return true
		}
	}
	return false
}

// NewRegulator are words of a regulator that was renewed.
var NewRegulator = []string{"regulator renewed", "regulator replaced", "new regulator", "new fuel-pressure regulator"}

// keyOnPart and keyOnPSI are how far the pressure with the key on may stay
// under that of idling: common practice, no source.
const (
	keyOnPart = 0.15
	keyOnPSI  = 2
)

// KeyOnShort reports a pressure with the key on that is far under that of
// idling, though a pump that primes makes the same or, against a hose, more.
func (k Circuit) KeyOnShort() bool {
	on, idle := k.Reading("key-on"), k.Reading("idle")
	if on == nil || idle == nil || !k.Case.Primes() || on.Verdict == diag.Within || on.Disagree || idle.Disagree {
		return false
	}
	return idle.Value-on.Value > math.Max(keyOnPart*idle.Value, math.Max(k.Repeatability(), k.Case.Psi(keyOnPSI)))
}

// leastUsual is the pressure in psi that a system of a kind hardly ever has less than: what
// texts of the trade give as its range, from 35 at the ports, 9 at a throttle body, 4 at a
// carburetor and 50 on the low side of direct injection, less some for the kinds apart from it.
var leastUsual = map[string]float64{PortReturn: 30, PortNoReturn: 30, ThrottleBody: 7, Carburettor: 2.5, DirectLow: 40}

// UnderUsual is the highest steady pressure of a circuit without any limit, where that is
// clear under what its kind of system hardly ever has less than; nil for none.
func (k Circuit) UnderUsual() *diag.FuelReading {
	least, usual := leastUsual[k.Case.FuelSystem()]
	var most *diag.FuelReading
	for _, r := range k.Steady() {
		if r.LimitLow != nil || r.LimitHigh != nil || r.Bound || r.Disagree {
			return nil
		}
		if most == nil || r.Value > most.Value {
			most = r
		}
	}
	if !usual || most == nil || k.PumpDead() != nil || most.Value+most.Uncertainty >= k.Case.Psi(least) {
		return nil
	}
	return most
}

// UsualVolume is what the pump of an injection system delivers at least, in ml
// a minute: one US pint in 30 seconds, common practice.
const UsualVolume = 946

// VolumeShort reports a pump that delivers less than its limit or, with
// injection and without a limit, than is usual.
func (k Circuit) VolumeShort() bool {
	v := k.Volume
	switch {
	case v == nil || k.PumpDead() != nil:
		return false
	case v.LimitLow != nil || v.LimitHigh != nil:
		return v.LimitLow != nil && v.Verdict == diag.Outside && v.PerMinute < *v.LimitLow
	}
	return k.injects() && v.PerMinute < UsualVolume
}

// VolumeEnough reports a pump that delivers what it should.
func (k Circuit) VolumeEnough() bool {
	v := k.Volume
	switch {
	case v == nil:
		return false
	case v.LimitLow != nil:
		return v.Verdict == diag.Within
	}
	return v.LimitHigh == nil && k.injects() && v.PerMinute >= UsualVolume
}

// VolumeHigh reports a pump that delivers more than it may.
func (k Circuit) VolumeHigh() bool {
	v := k.Volume
	return v != nil && v.LimitHigh != nil && v.Verdict == diag.Outside && v.PerMinute > *v.LimitHigh
}

// injects reports a system that is known to inject at the ports or into the
// cylinders.
func (k Circuit) injects() bool {
	switch k.Case.FuelSystem() {
	case PortReturn, PortNoReturn, DirectLow:
		return true
	}
	return false
}

// hotPart is the part of its cold pressure under which a hot one has fallen:
// common practice, no source.
const hotPart = 0.8

// HotShort gives the circuit read hot where the job has the same one cold and
// hot, as circuits of those names, and the hot one falls short; with the
// reading of both. ok is false where that is not so.
func (c *Case) HotShort() (hot Circuit, at, cold *diag.FuelReading, ok bool) {
	var warm, cool *Circuit
	for _, k := range c.Circuits() {
		switch strings.ToLower(k.Name) {
		case "hot", "warm":
			warm = &k
		case "cold":
			cool = &k
		}
	}
	if warm == nil || cool == nil {
		return Circuit{}, nil, nil, false
	}
	for _, h := range warm.Steady() {
		k := cool.Reading(h.Name)
		if k == nil {
			continue
		}
		under, _ := Below(h)
		coldUnder, _ := Below(k)
		if k.Value-h.Value > warm.Repeatability() && (h.Value < hotPart*k.Value || under && !coldUnder) {
			return *warm, h, k, true
		}
	}
	return Circuit{}, nil, nil, false
}

// PressurePast reports a circuit with a steady pressure past a limit.
func (c *Case) PressurePast() bool {
	for _, k := range c.Circuits() {
		low, _ := k.Worst(Below)
		high, _ := k.Worst(Above)
		if low != nil || high != nil {
			return true
		}
	}
	return false
}

// EveryCircuit reports that there is a circuit and that something holds of all.
func (c *Case) EveryCircuit(is func(Circuit) bool) bool {
	list := c.Circuits()
	for _, k := range list {
		if !is(k) {
			return false
		}
	}
	return len(list) > 0
}

// SomeCircuit reports that something holds of one circuit at least.
func (c *Case) SomeCircuit(is func(Circuit) bool) bool {
	for _, k := range c.Circuits() {
		if is(k) {
			return true
		}
	}
	return false
}

// HoldRead reports that the pressure held after switching off was read.
func (c *Case) HoldRead() bool {
	return c.SomeCircuit(func(k Circuit) bool { return len(k.Hold) > 0 })
}
