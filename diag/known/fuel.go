package known

import (
	"math"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
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

// Circuits are the circuits of the job with their sums, in its order; none where
// no fuel pressure was read.
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
func (c *Case) Psi(v float64) float64 { return inUnit(v, c.Sums.Fuel.Unit) }

// inUnit gives a pressure of the trade's, in psi, in another unit.
func inUnit(psi float64, unit quantity.Unit) float64 {
	in, err := quantity.Convert(psi, quantity.PSI, unit)
	if err != nil {
		return psi
	}
	return in
}

// FuelNumber is a pressure in the section's unit. A reading taken between two
// marks of the gauge keeps its decimal: it is the reader's own number.
func (c *Case) FuelNumber(v float64) diag.Number {
	f := c.Sums.Fuel
	return diag.Number{Value: v, Decimals: quantity.DecimalsRead(v, f.Decimals), Unit: f.Unit}
}

// Below reports a reading under its lower limit: past it, or past it and clear
// of the uncertainty.
func Below(r *diag.FuelReading) (past, clear bool) {
	past = r != nil && r.LimitLow != nil && r.Value < *r.LimitLow && (r.Verdict == diag.Outside || r.Verdict == diag.TooClose)
	return past, past && r.Verdict == diag.Outside
}

// Above reports a reading over its upper limit: past it, or past it and clear of
// the uncertainty.
func Above(r *diag.FuelReading) (past, clear bool) {
	past = r != nil && r.LimitHigh != nil && r.Value > *r.LimitHigh && (r.Verdict == diag.Outside || r.Verdict == diag.TooClose)
	return past, past && r.Verdict == diag.Outside
}

// Steady are the readings at no load, the most telling first. The hose comes
// off only where a hose to the manifold is; a reading with a limit counts
// wherever it was taken.
func (k Circuit) Steady() []*diag.FuelReading {
	var list []*diag.FuelReading
	for _, name := range []string{"key-on", "idle", "hose-off"} {
		r := k.Reading(name)
		if r == nil || name == "hose-off" && !k.MayBeReferenced() && r.LimitLow == nil && r.LimitHigh == nil {
			continue
		}
		list = append(list, r)
	}
	return list
}

// Worst gives the first steady reading that is past its limit, one that is
// clear of uncertainty before one that is not.
func (k Circuit) Worst(beyond func(*diag.FuelReading) (past, clear bool)) (r *diag.FuelReading, clear bool) {
	return worstOf(k.Steady(), beyond)
}

// TooHigh is that reading of those over their upper limit, on a quick opening
// of the throttle too: with the return closed more is wanted, not less.
func (k Circuit) TooHigh() (r *diag.FuelReading, clear bool) {
	list := k.Steady()
	if snap := k.Reading("snap"); snap != nil {
		list = append(list, snap)
	}
	return worstOf(list, Above)
}

func worstOf(list []*diag.FuelReading, beyond func(*diag.FuelReading) (past, clear bool)) (r *diag.FuelReading, clear bool) {
	for _, s := range list {
		past, sure := beyond(s)
		if past && (r == nil || sure && !clear) {
			r, clear = s, sure
		}
	}
	return r, clear
}

// LimitsKept reports that no limit on anything read of the circuit is passed,
// at rest, on the snap, with the return closed, held or delivered; close where
// one is kept as read and yet too close to call.
func (k Circuit) LimitsKept() (kept, close bool) {
	kept = true
	judge := func(v diag.Verdict, past bool) {
		kept = kept && v != diag.Outside && !past
		close = close || v == diag.TooClose
	}
	for i := range k.Readings {
		judge(k.Readings[i].Verdict, k.Readings[i].PastAsRead)
	}
	for i := range k.Hold {
		judge(k.Hold[i].Verdict, k.Hold[i].PastAsRead)
	}
	if k.Volume != nil {
		judge(k.Volume.Verdict, false)
	}
	return kept, close
}

// Referenced reports a regulator with a hose to the manifold.
func (k Circuit) Referenced() bool { return k.Case.FuelSystem() == PortReturn }

// MayBeReferenced is Referenced, also where the system was not recorded.
func (k Circuit) MayBeReferenced() bool { return k.Referenced() || k.Case.FuelSystem() == "" }

// HasReturn reports a system with a return line, or one that may have it.
func (k Circuit) HasReturn() bool { return k.MayBeReferenced() || k.Case.FuelSystem() == ThrottleBody }

// NoFuel reports a pressure, in the unit of the section, that counts as none:
// under 1 psi, common practice, no source.
func (c *Case) NoFuel(v float64) bool { return v < c.Psi(1) }

// PumpDead reports that whatever was read of a circuit had no pressure.
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

// Climbs reports that the pressure rose well above the steady one, and above
// its limits, with the return closed: the pump can do more than the regulator
// lets it. A limit of its own decides. Known is false where that was not tried.
func (k Circuit) Climbs() (climbs, known bool) {
	pinched := k.Reading("return-pinched")
	if pinched == nil {
		return false, false
	}
	if past, _ := Below(pinched); past || pinched.LimitLow != nil && pinched.Verdict == diag.Within {
		return !past, true
	}
	over := -1.0
	for _, s := range k.Steady() {
		for _, v := range []*float64{&s.Value, s.LimitLow, s.LimitHigh} {
			if v != nil {
				over = math.Max(over, *v)
			}
		}
	}
	return over >= 0 && pinched.Value > climbPart*math.Max(over, k.Case.Psi(1)), over >= 0
}

// climbPart is how far the pressure climbs at least with the return closed
// where the pump is well: common practice, no source.
const climbPart = 1.2

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

// Falls reports that the pressure fell when the hose to the manifold came off,
// clear of what two readings may differ by, of 1 psi and of a thirtieth.
func (k Circuit) Falls() bool {
	idle, off := k.Reading("idle"), k.Reading("hose-off")
	return idle != nil && off != nil && idle.Value-off.Value > max(k.Repeatability(), k.Case.Psi(1), idle.Value/30)
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

// OffVacuum reports a rise with the hose off that differs from what the vacuum
// at idle, read in a test of its own, makes by more than the gauges can be off;
// short is how much is missing, under 0 where it is too much.
func (k Circuit) OffVacuum() (short float64, off bool) {
	rise, none, _, ok := k.Rise()
	vacuum := k.Case.Measured(Vacuum).Reading("idle")
	if !ok || rise < none || vacuum == nil || k.ExpectedRise == nil {
		return 0, false
	}
	gauge, err := quantity.Convert(vacuum.Uncertainty, vacuum.Unit, k.Case.Fuel.Unit)
	short = *k.ExpectedRise - rise
	read := max(k.RegulatorRiseU, math.Hypot(k.Reading("idle").Uncertainty, k.Reading("hose-off").Uncertainty)) // what the page prints of both
	return short, err == nil && math.Abs(short) > math.Hypot(read, gauge)
}

// Limited reports a steady reading that has a limit.
func (k Circuit) Limited() bool {
	for _, r := range k.Steady() {
		if r.LimitLow != nil || r.LimitHigh != nil {
			return true
		}
	}
	return false
}

// Right gives the steady reading that shows a circuit's pressure to be right,
// one that is too close to call before the others: every limit is kept, and
// nothing without a limit is short. nil where that cannot be said.
func (k Circuit) Right() *diag.FuelReading {
	if kept, _ := k.LimitsKept(); !kept || k.PumpDead() != nil || k.Sags() != nil || k.VolumeShort() || k.KeyOnShort() {
		return nil
	}
	var right *diag.FuelReading
	for _, r := range k.Steady() {
		limited := r.Verdict == diag.Within || r.Verdict == diag.TooClose
		if limited && (right == nil || r.Verdict == diag.TooClose && right.Verdict != diag.TooClose) {
			right = r
		}
	}
	return right
}

// PressureRight gives a circuit whose pressure is right, and its reading, where
// nothing that was read of any circuit is wrong.
func (c *Case) PressureRight() (Circuit, *diag.FuelReading) {
	var at Circuit
	var right *diag.FuelReading
	for _, k := range c.Circuits() {
		kept, _ := k.LimitsKept()
		if !kept || k.PumpDead() != nil || k.Sags() != nil || k.VolumeShort() || k.KeyOnShort() {
			return Circuit{}, nil
		}
		if r := k.Right(); r != nil && right == nil {
			at, right = k, r
		}
	}
	return at, right
}

// sagPart is how far the pressure may fall when the throttle opens: common
// practice, no source.
const sagPart = 0.10

// Sags gives the snap reading where it falls short by more than the steady
// pressure does: under its own limit, or without one more than 10 % under what the
// regulator should then hold. A regulator with a hose raises the pressure as
// the throttle opens, so there the hose-off reading is what it must reach. Where the
// pressure is low at rest its limit is passed on the snap as well, and that it falls from there tells.
func (k Circuit) Sags() *diag.FuelReading {
	snap := k.Reading("snap")
	if snap == nil || k.PumpDead() != nil {
		return nil
	}
	low, _ := k.Worst(Below)
	if past, _ := Below(snap); past && low == nil {
		return snap
	}
	from := k.SnapFrom()
	if (snap.LimitLow == nil || low != nil) && from != nil && from.Value-snap.Value > math.Max(sagPart*from.Value, snap.Uncertainty) && !k.feedsItsFloats(snap) {
		return snap
	}
	return nil
}

// floatsFilled is the pressure at which the float chambers of a carburetor still fill:
// common practice, no source.
const floatsFilled = 3.0 // psi

// feedsItsFloats reports a carburetor that still gets enough: its floats take the
// pressure away, and it need not stay the same.
func (k Circuit) feedsItsFloats(r *diag.FuelReading) bool {
	psi, err := quantity.Convert(r.Value-r.Uncertainty, k.Case.Fuel.Unit, quantity.PSI)
	return err == nil && k.Case.FuelSystem() == Carburettor && psi > floatsFilled
}

// SnapFrom is the reading that a snap is compared with where it has no limit,
// nil where none was taken.
func (k Circuit) SnapFrom() *diag.FuelReading {
	if r := k.Reading("hose-off"); r != nil && k.Referenced() {
		return r
	}
	return k.Reading("idle")
}
