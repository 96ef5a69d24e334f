package known

import (
	"math"
	"slices"

	"gaugesheet/diag"
)

// camOnMark is how far from its mark a camshaft is where no book permits more: common
// practice, no source, a third of the least tooth.
const camOnMark = 3.0

// Kept is a condition that these readings of a section have limits, and keep them.
func Kept(section, what string, names ...string) Condition {
	return OfTest(section, what+" with a limit, and within it", func(r *diag.MeasuredResult) bool { return keptOf(r, names) })
}

func keptOf(r *diag.MeasuredResult, names []string) bool {
	some := false
	for i := range r.Readings {
		m := &r.Readings[i]
		if !slices.Contains(names, m.Name) || !m.Limited() {
			continue
		}
		if m.Verdict != diag.Within {
			return false
		}
		some = true
	}
	return some
}

// What a reading within its limit clears.
var (
	CamRight = All(OfTest(Timing, "cam timing within its limit, or without one within 3 degrees of its mark", func(r *diag.MeasuredResult) bool {
		m := r.Reading("cam")
		if m == nil || m.Limited() {
			return m != nil && m.Verdict == diag.Within
		}
		return math.Abs(m.Value) <= camOnMark
	}), Not(CamLate))
	ChainTaut    = Kept(Timing, "the slack of the timing chain", "chain-slack")
	AdvanceRight = Kept(Timing, "the advance", "advance")
	PointsRight  = Kept(Timing, "the dwell or the gap of the points", "dwell", "points-gap")
	TurnsFast    = Kept(Starting, "the cranking speed", "cranking")
	BatteryHolds = Kept(Starting, "the battery while the starter turns", "battery cranking")
	GlowRight    = All(Kept(DieselTests, "the resistance of the glow plugs", "glow"),
		OfEngine("no glow plug that is open", func(c *Case) bool { return !slices.ContainsFunc(c.Every(), c.glowOpen) }))
	NozzlesRight = All(Kept(DieselTests, "the pressure at which the nozzles open", "nozzles opening"), Not(NozzlesDrip))
	ReturnsRight = Kept(DieselTests, "what the injectors give back", "return cylinders")
	SuctionRight = Kept(DieselTests, "the vacuum ahead of the lift pump", "inlet-vacuum")
	CapRight     = OfTest(Cooling, "the cap opens where it is marked", func(r *diag.MeasuredResult) bool {
		_, off := CapOff(r)
		return off == nil && r.Reading("cap rated") != nil && r.Reading("cap opens") != nil
	})
)
