package known

import (
	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
	"math"
)

// The systems of the job file.
const (
	Carburettor  = "carburettor"
	ThrottleBody = "throttle body"
	PortReturn   = "port, return line"
	PortNoReturn = "port, no return"
	DirectLow    = "direct, low side"
	DieselLift   = "diesel, lift pump"
)

// A Circuit is one rail, tank or pump: its readings and the sums on them.
type Circuit struct {
	*diag.CircuitResult
	In   *diag.Circuit
	Case *Case
}

func (c *Case) Circuits() []Circuit {
	if c.Sums.Fuel == nil || c.Fuel == nil {
		return nil
	}
	var list []Circuit
	for i := range c.Sums.Fuel.Circuits {
		sums := &c.Sums.Fuel.Circuits[i]
		for j := range c.Fuel.Circuits {
			if in := &c.Fuel.Circuits[j]; in.Name == sums.Name {
				list = append(list, Circuit{CircuitResult: sums, In: in, Case: c})
			}
		}
	}
	return list
}

// Psi gives a pressure of the trade's in the section's unit.
func (c *Case) Psi(v float64) float64 {
	in, err := quantity.Convert(v, quantity.PSI, c.Sums.Fuel.Unit)
	if err != nil {
		return v
	}
	return in
}

// FuelNumber is a pressure in the section's unit. A reading taken between two
// marks of the gauge keeps its decimal: it is the reader's own number.
func (c *Case) FuelNumber(v float64) diag.Number {
	decimals := c.Sums.Fuel.Decimals
	if scaled := v * math.Pow10(decimals); math.Abs(scaled-math.Round(scaled)) > 0.05 {
		decimals++
	}
	return diag.Number{Value: v, Decimals: decimals, Unit: c.Sums.Fuel.Unit}
}

// Below reports a reading under its lower limit; clear where that is Beyond
// the uncertainty. above is the same for the upper one.
func Below(r *diag.FuelReading) (past, clear bool) {
	past = r != nil && r.LimitLow != nil && r.Value < *r.LimitLow && (r.Verdict == diag.Outside || r.Verdict == diag.TooClose)
	return past, past && r.Verdict == diag.Outside
}

func Above(r *diag.FuelReading) (past, clear bool) {
	past = r != nil && r.LimitHigh != nil && r.Value > *r.LimitHigh && (r.Verdict == diag.Outside || r.Verdict == diag.TooClose)
	return past, past && r.Verdict == diag.Outside
}

// Steady are the readings at no load, the most telling first. The hose comes
// off only where a hose to the manifold is.
func (k Circuit) Steady() []*diag.FuelReading {
	names := []string{"key-on", "idle"}
	if k.MayBeReferenced() {
		names = append(names, "hose-off")
	}
	var list []*diag.FuelReading
	for _, name := range names {
		if r := k.Reading(name); r != nil {
			list = append(list, r)
		}
	}
	return list
}

// Worst gives the first steady reading that is past its limit, one that is
// clear of uncertainty before one that is not.
func (k Circuit) Worst(Beyond func(*diag.FuelReading) (past, clear bool)) (r *diag.FuelReading, clear bool) {
	for _, s := range k.Steady() {
		past, sure := Beyond(s)
		if past && (r == nil || sure && !clear) {
			r, clear = s, sure
		}
	}
	return r, clear
}

// Referenced reports a regulator with a hose to the manifold; mayBeReferenced
// also where the system was not recorded.
func (k Circuit) Referenced() bool { return k.Case.Fuel.System == PortReturn }

func (k Circuit) MayBeReferenced() bool { return k.Referenced() || k.Case.Fuel.System == "" }

func (k Circuit) HasReturn() bool { return k.MayBeReferenced() || k.Case.Fuel.System == ThrottleBody }

// lowest steady pressure that still counts as some: common practice, no source.
func (c *Case) NoFuel(v float64) bool { return v < c.Psi(1) }

// PumpDead reports that whatever was read of a Circuit had no pressure.
func (k Circuit) PumpDead() *diag.FuelReading {
	var dead *diag.FuelReading
	for _, s := range k.Steady() {
		if !k.Case.NoFuel(s.Value) {
			return nil
		}
		if dead == nil {
			dead = s
		}
	}
	return dead
}

// Climbs reports that the pressure rose well above the steady one with the
// return closed, so that the pump can do more than the regulator lets it;
// known is false where that was not tried.
func (k Circuit) Climbs() (climbs, known bool) {
	pinched := k.Reading("return-pinched")
	steady := k.Steady()
	if pinched == nil || len(steady) == 0 {
		return false, false
	}
	over := steady[0].Value
	if steady[0].LimitHigh != nil {
		over = *steady[0].LimitHigh
	}
	return pinched.Value > 1.2*over, true
}

// Repeatability is the expanded uncertainty of a difference of two readings of
// one gauge, in which its scale error cancels: 2 sqrt(2) of 0.25 psi where the
// gauge's division is not recorded.
func (k Circuit) Repeatability() float64 {
	u := k.Case.Psi(0.25)
	if g := k.Case.Gauges.Fuel; g != nil && g.Division > 0 {
		u = math.Max(u, g.Division/math.Sqrt(12))
	}
	return 2 * math.Sqrt2 * u
}

func (k Circuit) Falls() bool {
	idle, off := k.Reading("idle"), k.Reading("hose-off")
	return idle != nil && off != nil && idle.Value-off.Value > math.Max(k.Repeatability(), k.Case.Psi(1))
}

// Thresholds of the regulator's response, in psi, and as parts of the rise
// that the manifold's vacuum makes: common practice, no source.
const (
	noResponse       = 2.0
	fullResponse     = 4.0
	noResponsePart   = 0.25
	fullResponsePart = 0.60
)

// Rise gives how much the pressure rose with the hose off, and the bounds of
// no and of full response; ok is false where it was not tried, or where there
// is no such hose.
func (k Circuit) Rise() (rise, none, full float64, ok bool) {
	idle, off := k.Reading("idle"), k.Reading("hose-off")
	if idle == nil || off == nil || !k.MayBeReferenced() || k.PumpDead() != nil {
		return 0, 0, 0, false
	}
	none, full = k.Case.Psi(noResponse), k.Case.Psi(fullResponse)
	if k.ExpectedRise != nil {
		if *k.ExpectedRise < none {
			return 0, 0, 0, false // too little vacuum to see a response
		}
		none, full = math.Min(none, noResponsePart**k.ExpectedRise), fullResponsePart**k.ExpectedRise
	}
	return off.Value - idle.Value, none, full, true
}

// PressureRight gives a Circuit whose pressure is within its limits, and its
// reading; every Circuit must be.
func (c *Case) PressureRight() (Circuit, *diag.FuelReading) {
	var at Circuit
	var right *diag.FuelReading
	for _, k := range c.Circuits() {
		low, _ := k.Worst(Below)
		high, _ := k.Worst(Above)
		if low != nil || high != nil || k.Sags() != nil {
			return Circuit{}, nil
		}
		for _, r := range k.Steady() {
			if r.Verdict == diag.Within && right == nil {
				at, right = k, r
			}
		}
	}
	return at, right
}

// sagPart is how far the pressure may fall when the throttle opens: common
// practice, no source.
const sagPart = 0.10

// Sags gives the snap reading where it falls short while the steady pressure
// does not: under its own limit, or without one more than 10 % under what the
// regulator should then hold. A regulator with a hose raises the pressure as
// the throttle opens, so there the hose-off reading is what it must reach.
func (k Circuit) Sags() *diag.FuelReading {
	snap := k.Reading("snap")
	if low, _ := k.Worst(Below); snap == nil || low != nil || k.PumpDead() != nil {
		return nil
	}
	if past, _ := Below(snap); past {
		return snap
	}
	from := k.SnapFrom()
	if snap.LimitLow == nil && from != nil && from.Value-snap.Value > math.Max(sagPart*from.Value, snap.Uncertainty) {
		return snap
	}
	return nil
}

// SnapFrom is the reading that a snap is compared with where it has no limit,
// nil where none was taken.
func (k Circuit) SnapFrom() *diag.FuelReading {
	if r := k.Reading("hose-off"); r != nil && k.Referenced() {
		return r
	}
	return k.Reading("idle")
}
