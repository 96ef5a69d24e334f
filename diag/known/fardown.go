package known

import (
	"slices"

	"gaugesheet/diag"
)

// farDown is the part of the best reading, or of what is the least for such an engine, under
// which a cylinder has lost more than wear takes: judgement, no source.
const farDown = 0.6

// asBent is the lowest as a percent of the highest from which a set is more alike than bent
// valves leave it: judgement, no source.
const asBent = 70

// FarDown lists the cylinders far under the best of them, a stated minimum and what nearly
// any engine gives, whichever is most.
func (c *Case) FarDown() []string {
	s := c.Cranking()
	good := s.Highest
	if m := c.Minimum(); m != nil {
		good = max(good, m.Limit)
	}
	if floor := c.Floor(); floor != nil {
		good = max(good, floor.Low)
	}
	return c.CylindersThat(func(r *diag.CylinderResult) bool {
		return r.Dry != nil && r.Kind != diag.AtLeast && *r.Dry < farDown*good
	})
}

// LeakAtValves lists those of some cylinders that lose much air past a valve.
func (c *Case) LeakAtValves(names []string) []string {
	return slices.DeleteFunc(slices.Clone(names), func(n string) bool {
		return !c.LeaksAt(n, AtInlet) && !c.LeaksAt(n, AtExhaust)
	})
}

// FellTogether is an engine that will not start and most of whose cylinders are far down, as
// valves leave them that the pistons met when what drives them let go: none of what else
// lowers most of an engine, wear, washed or dry bores, comes from one day to the next.
var FellTogether = OfEngine("it will not start, three cylinders or more, and three quarters of those read, are under 60 % of the best, of a stated minimum or of what nearly any engine gives; its valves may meet its pistons, its drive is no gears, nobody tells that it stood, was flooded or came slowly, that its starter hardly turned, that oil lifts them; they read less alike than 70 %, some have pressure, and of those that leak two thirds leak at a valve; where all are low two leak there, or it came suddenly", func(c *Case) bool {
	far := c.FarDown()
	if len(far) < 3 || 4*len(far) < 3*len(c.Read()) || !c.WillNotStart() || !c.mayMeet() || c.Ported() || c.Flies() || !c.DriveMaySlip() {
		return false
	}
	if c.Stood() || CameOfStanding.HoldsIn(c) || c.Flooded() || c.CameSlowly() || c.UsesOil() || c.TurnsSlowly() || c.ThrottleShut() || c.UnitSuspect() || c.Dead() || c.Cranking().LowestPercentOfHighest >= asBent {
		return false
	}
	if slices.ContainsFunc(far, func(n string) bool { return c.WetEvidence(n) == WetRises }) {
		return false
	}
	leaks := slices.DeleteFunc(slices.Clone(far), func(n string) bool { l := c.Leak(n); return l == nil || len(l.At) == 0 })
	at := len(c.LeakAtValves(leaks))
	if c.AllLow() != nil && at < 2 && !c.CameSuddenly() { // which the test, wear or water may do as well
		return false
	}
	return 3*at >= 2*len(leaks)
})
