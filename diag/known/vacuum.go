package known

import (
	"gaugesheet/diag"
	"gaugesheet/diag/air"
	"gaugesheet/diag/quantity"
)

// Vacuum is the section of the manifold's vacuum.
const Vacuum = "vacuum"

// Figures for the vacuum of a warm engine at idle. The band is that of sound
// petrol engines at sea level (common practice, no source); it is lowered by
// what the air lacks, since a gauge reads the difference to it.
const (
	vacuumLow, vacuumHigh = 17.0, 21.0 // inHg
	floatsLow, floatsHigh = 12.0, 16.0
	heldFalls             = 3.0 // inHg that it falls while held before the exhaust is suspected: judgement, no source
	recovers              = 2.0 // inHg over idle that a shutting throttle gives at least: judgement, no source
	leastCranking         = 4.0
	overBand              = 2.0 // inHg over the band from which it is told: judgement, no source
	shortOfBand           = 2.0 // inHg under the band up to which ignition comes before air and cam
)

// A VacuumBand is what the vacuum at idle is held against, in inHg.
type VacuumBand struct {
	Low, High float64
	Lowered   float64 // by the altitude
	Stated    bool    // by the job and not by custom
}

// VacuumBand gives the job's limit on the vacuum at idle, else the usual band at
// this altitude.
func (c *Case) VacuumBand() VacuumBand {
	b := VacuumBand{Low: vacuumLow, High: vacuumHigh}
	r := c.Measured(Vacuum)
	if m := r.Reading("idle"); m != nil && m.LimitLow != nil {
		b.Stated = true
		b.Low = inHg(*m.LimitLow, m.Unit)
		b.High = airless
		if m.LimitHigh != nil {
			b.High = inHg(*m.LimitHigh, m.Unit)
		}
		return b
	}
	b.Lowered = c.ThinAir()
	b.Low, b.High = b.Low-b.Lowered, b.High-b.Lowered
	return b
}

// LowByHeight reports a vacuum that the thin air of a place up to two thousand meters high
// explains, of a job that says neither how high it lies nor what the barometer read.
func (c *Case) LowByHeight() bool {
	v, u, ok := c.idleVacuum()
	b := c.VacuumBand()
	return ok && !b.Stated && c.Conditions.BarometerKPa == nil && c.Conditions.AltitudeM == nil && v+u < b.Low && v+u >= b.Low-highPlace
}

// highPlace is what the air lacks two thousand meters up, in inHg: the standard atmosphere.
const highPlace = 6.0

// airless is more than any vacuum, in inHg.
const airless = 30.0

// ThinAir is by how much the air's pressure is under that at sea level, in inHg.
func (c *Case) ThinAir() float64 {
	kpa := 0.0
	switch {
	case c.Conditions.BarometerKPa != nil:
		kpa = air.StandardPressure - *c.Conditions.BarometerKPa
	case c.Conditions.AltitudeM != nil:
		if ratio, err := air.PressureRatio(*c.Conditions.AltitudeM); err == nil {
			kpa = air.StandardPressure * (1 - ratio)
		}
	}
	return inHg(kpa, quantity.KPa)
}

func inHg(v float64, unit quantity.Unit) float64 {
	out, _ := quantity.Convert(v, unit, quantity.InHg)
	return out
}

// idleVacuum is the vacuum at idle and its uncertainty in inHg; false where it
// was not read, or means nothing: a diesel has no throttle.
func (c *Case) idleVacuum() (v, u float64, ok bool) {
	m := c.Measured(Vacuum).Reading("idle")
	if m == nil || c.Spec.Diesel() {
		return 0, 0, false
	}
	return inHg(m.Value, m.Unit), inHg(m.Uncertainty, m.Unit), true
}

// needleOf is what the needle did at idle.
func needleOf(r *diag.MeasuredResult) string { return r.Word("idle needle") }

// steadyLow reports a steady vacuum under its band by more than the gauge can be
// off; short is by how much.
func (c *Case) steadyLow() (short float64, low bool) { return c.lowBy("steady") }

// lowBy reports a vacuum under its band of which this was noted of the needle.
func (c *Case) lowBy(needle string) (short float64, low bool) {
	v, u, ok := c.idleVacuum()
	b := c.VacuumBand()
	if !ok || needleOf(c.Measured(Vacuum)) != needle || v+u >= b.Low {
		return 0, false
	}
	return b.Low - v, true
}

// VacuumShort is by how much a low vacuum lies under its band, in inHg, where the needle
// was steady or nothing was noted of it.
func (c *Case) VacuumShort() float64 {
	short, _ := c.steadyLow()
	unread, _ := c.lowBy("")
	return max(short, unread)
}

// FarShort reports a vacuum so far under its band that air or the cam comes
// before the ignition.
func (c *Case) FarShort() bool { return c.VacuumShort() > shortOfBand }

// HeldFall is by how much the vacuum fell while the speed was held, in inHg; 0
// where it did not, or was not watched.
func (c *Case) HeldFall() float64 {
	r := c.Measured(Vacuum)
	held, later, idle := r.Reading("held"), r.Reading("held later"), r.Reading("idle")
	if held == nil || c.Spec.Diesel() {
		return 0
	}
	fall := 0.0
	if later != nil {
		fall = inHg(held.Value, held.Unit) - inHg(later.Value, later.Unit)
	}
	if idle != nil && later != nil && later.Value < idle.Value-idle.Uncertainty {
		fall = max(fall, inHg(idle.Value, idle.Unit)-inHg(later.Value, later.Unit)+heldFalls)
	}
	return max(fall, 0)
}

func (c *Case) snapStays() bool {
	r := c.Measured(Vacuum)
	shut, idle := r.Reading("snap shut"), r.Reading("idle")
	return shut != nil && idle != nil && !c.Spec.Diesel() && inHg(shut.Value, shut.Unit) < inHg(idle.Value, idle.Unit)+recovers
}

func (c *Case) cranksLow() bool {
	r := c.Measured(Vacuum)
	m := r.Reading("cranking")
	speed := c.Conditions.CrankingRPM
	if own := c.Measured(Starting).Reading("cranking"); own != nil {
		speed = &own.Value
	}
	return m != nil && !c.Spec.Diesel() && speed != nil && *speed >= SlowestCranking && inHg(m.Value, m.Unit)+inHg(m.Uncertainty, m.Unit) < leastCranking
}

// SlowestCranking is the cranking speed from which a test on the starter counts.
const SlowestCranking = 150.0

// needle is a condition on what the needle did at idle.
func needle(word string) Condition {
	return OfTest(Vacuum, "the vacuum's needle at idle: "+word, func(r *diag.MeasuredResult) bool { return needleOf(r) == word })
}

func withSpeed(word string) Condition {
	return OfTest(Vacuum, "the needle with rising speed: "+word, func(r *diag.MeasuredResult) bool { return r.Word("with-speed") == word })
}

// Conditions on the vacuum.
var (
	VacuumSteady = needle("steady")
	VacuumDrops  = needle("drops regularly")
	VacuumStrays = needle("drops now and then")
	VacuumFloats = All(needle("floats"), OfEngine("between 12 and 16 inHg, lowered by the altitude", func(c *Case) bool {
		v, u, ok := c.idleVacuum()
		return ok && v+u >= floatsLow-c.ThinAir() && v-u <= floatsHigh-c.ThinAir()
	}))
	VacuumQuivers   = needle("quivers")
	VacuumQuickens  = withSpeed("swings quicker and smaller")
	VacuumSwings    = withSpeed("swings wider")
	VacuumSteadies  = All(withSpeed("steadies"), Not(VacuumSteady))
	VacuumLow       = OfEngine("steady, and under its band by more than the gauge can be off (17 to 21 inHg at sea level, lowered by what the air lacks, where the job gives no limit)", func(c *Case) bool { _, low := c.steadyLow(); return low })
	VacuumLowUnread = OfEngine("under its band by more than the gauge can be off, and nothing noted of the needle", func(c *Case) bool { _, low := c.lowBy(""); return low })
	// IdleShort asks nothing of the needle but that no one cylinder beats in it.
	IdleShort = OfEngine("at idle under its band by more than the gauge can be off, and not by a regular drop", func(c *Case) bool {
		v, u, ok := c.idleVacuum()
		return ok && v+u < c.VacuumBand().Low && !VacuumDrops.HoldsIn(c)
	})
	VacuumHigh = OfEngine("above its band by more than 2 inHg and what the gauge can be off (17 to 21 inHg at sea level, lowered by what the air lacks), where the job gives no limit", func(c *Case) bool {
		v, u, ok := c.idleVacuum()
		b := c.VacuumBand()
		return ok && !b.Stated && v-u > b.High+overBand
	})
	VacuumRight = OfEngine("steady and in its band, and not falling where it was held", func(c *Case) bool {
		v, u, ok := c.idleVacuum()
		b := c.VacuumBand()
		return ok && needleOf(c.Measured(Vacuum)) == "steady" && v-u >= b.Low && v+u <= b.High && c.HeldFall() <= heldFalls
	})
	VacuumHolds = OfTest(Vacuum, "read twice while the speed was held, and not fallen", func(r *diag.MeasuredResult) bool {
		held, later := r.Reading("held"), r.Reading("held later")
		return held != nil && later != nil && held.Value-later.Value <= held.Uncertainty
	})
	// IdleRight asks for nothing but the idle: what is wrong at speed alone is not
	// what is wrong at idle.
	IdleRight = OfEngine("at idle steady and in its band", func(c *Case) bool {
		v, u, ok := c.idleVacuum()
		b := c.VacuumBand()
		return ok && needleOf(c.Measured(Vacuum)) == "steady" && v-u >= b.Low
	})
	// IdleAsRead is one that a valve for exhaust gas does not spoil, to the last of what the gauge tells.
	IdleAsRead = OfEngine("at idle steady, and in its band as read", func(c *Case) bool {
		v, _, ok := c.idleVacuum()
		return ok && needleOf(c.Measured(Vacuum)) == "steady" && v >= c.VacuumBand().Low
	})
	IdleAlone = OfEngine("at idle under its band or not steady, and held at a speed steady in it", func(c *Case) bool {
		held := c.Measured(Vacuum).Reading("held")
		v, _, ok := c.idleVacuum()
		low := c.VacuumBand().Low
		return ok && held != nil && (v < low || needleOf(c.Measured(Vacuum)) != "steady") &&
			inHg(held.Value, held.Unit)-inHg(held.Uncertainty, held.Unit) >= low && c.HeldFall() <= heldFalls
	})
	VacuumFalls     = OfEngine("held at a speed it fell by more than 3 inHg, or below what it is at idle", func(c *Case) bool { return c.HeldFall() > heldFalls })
	VacuumRecovers  = OfEngine("as the throttle shut it rose less than 2 inHg above idle", (*Case).snapStays)
	VacuumCranksLow = OfEngine("on the starter under 4 inHg, at a cranking speed of 150 rpm or more", (*Case).cranksLow)
)
