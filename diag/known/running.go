package known

import (
	"math"
	"slices"

	"gaugesheet/diag"
)

// What compression with the engine running is judged by: points of the
// cylinder's own cranking reading. Judgement, no source; that idle gives about
// half the cranking reading and a quick opening of the throttle about four
// fifths is common practice.
const (
	ApartRunning = 15.0 // from the median of the others: breathes otherwise
	AlikeRunning = 10.0 // within this of them: breathes alike
	usualIdle    = 50.0
	usualSnap    = 80.0
)

// Running gives the shares of the cylinders that were read running too.
func (c *Case) Running() []diag.RunningShare { return diag.RunningShares(c.Test, c.Cranking()) }

// breathesInPoorly reports a cylinder that gets too little air on the snap: under the
// median of the others, and under what is usual.
func (c *Case) breathesInPoorly(name string) bool {
	points, middle, apart := c.RunningOver(name, diag.OnSnap)
	return points != nil && *points < -apart && *points+*middle < usualSnap
}

// RunningOver is diag.OverOthers with the points by which a share stands apart. Of two that
// were read, one that its balance or a code has shown to do less is held against the other,
// which does its work: by twice as much, since one reading alone stands for the rest.
func (c *Case) RunningOver(name string, of func(diag.RunningShare) *float64) (points, middle *float64, apart float64) {
	list := c.Running()
	if points, middle = diag.OverOthers(list, name, of); points != nil || len(list) != 2 {
		return points, middle, ApartRunning
	}
	own, other := &list[0], &list[1]
	if own.Name != name {
		own, other = other, own
	}
	a, b := of(*own), of(*other)
	if a == nil || b == nil || own.Name != name || !c.doesLess(own.Name) || c.doesLess(other.Name) {
		return nil, nil, 0
	}
	over := *a - *b
	return &over, b, 2 * ApartRunning
}

// doesLess reports a cylinder that its balance, or a code, has shown to do less than the
// others.
func (c *Case) doesLess(name string) bool {
	return slices.Contains(c.MisfireOf(), name) || BalanceTells.HoldsOf(c, name) && c.hardlyMissed(name)
}

// breathesOutPoorly reports a cylinder that keeps what it should let go: its
// share over the median of the others', and over what is usual.
func (c *Case) breathesOutPoorly(name string) bool {
	over := func(of func(diag.RunningShare) *float64, usual float64) bool {
		points, middle, apart := c.RunningOver(name, of)
		return points != nil && *points > apart && *points+*middle > usual+ApartRunning/2
	}
	return over(diag.OnSnap, usualSnap) || over(diag.AtIdle, usualIdle)
}

// breathesAlike reports a cylinder that reads running as the others do, on the
// snap and, where that was read, at idle.
func (c *Case) breathesAlike(name string) bool {
	list := c.Running()
	alike := func(of func(diag.RunningShare) *float64) (read, alike bool) {
		points, _ := diag.OverOthers(list, name, of)
		if points == nil && c.Grade(name).IsLow() {
			points = c.besideGood(list, name, of)
		}
		return points != nil, points != nil && math.Abs(*points) <= AlikeRunning
	}
	snapRead, snap := alike(diag.OnSnap)
	idleRead, idle := alike(diag.AtIdle)
	return snapRead && snap && (idle || !idleRead)
}

// besideGood is by how many points the share of one of two cylinders stands above that of
// the other, which is good; nil where there are more or it is not.
func (c *Case) besideGood(list []diag.RunningShare, name string, of func(diag.RunningShare) *float64) *float64 {
	if len(list) != 2 {
		return nil
	}
	own, other := list[0], list[1]
	if own.Name != name {
		own, other = other, own
	}
	a, b := of(own), of(other)
	if a == nil || b == nil || own.Name != name || c.Grade(other.Name) != diag.Even {
		return nil
	}
	over := *a - *b
	return &over
}

// Conditions on compression with the engine running.
var (
	BreathesInPoorly = OfAll("its share of its own cranking reading on the snap more than 15 points under the median of the others (three read at least; or 30 under the only other, where its balance or a code says that it does less and the other does not) and under 80 %",
		func(c *Case, n string) bool { return c.breathesInPoorly(n) })
	BreathesOutPoorly = OfAll("its share of its own cranking reading on the snap or at idle more than 15 points over the median of the others (three read at least; or 30 over the only other, where its balance or a code says that it does less and the other does not) and over what is usual",
		func(c *Case, n string) bool { return c.breathesOutPoorly(n) })
	BreathesAlike = OfAll("its shares on the snap and at idle within 10 points of the median of the others, or those of a low one of two within 10 points of the good one's",
		func(c *Case, n string) bool { return c.breathesAlike(n) })
	// KeepsItsGas is most of an engine that reads on the snap about what it reads
	// on the starter, and at idle less: a gauge that held its highest reading
	// shows that much at idle too. What blows air in may do the same.
	KeepsItsGas = OfEngine("the median share on the snap over 95 % and at idle, where read, under 80 %; not a diesel, nothing blows air in", func(c *Case) bool {
		list := c.Running()
		snap, n := diag.MedianShare(list, diag.OnSnap)
		idle, m := diag.MedianShare(list, diag.AtIdle)
		charged := c.Spec.Charging != "" && c.Spec.Charging != "natural"
		return n > 0 && snap > usualSnap+ApartRunning && (m == 0 || idle < usualSnap) && !c.Spec.Diesel() && !charged
	})
	// AllBreatheAlike is every cylinder that was read running, three at least,
	// alike, and not because all keep their gas.
	AllBreatheAlike = OfEngine("three cylinders or more read running, each with its shares within 10 points of the median of the others, and not all high", func(c *Case) bool {
		list := c.Running()
		for _, s := range list {
			if !c.breathesAlike(s.Name) {
				return false
			}
		}
		return len(list) >= diag.LeastForShares && !KeepsItsGas.HoldsIn(c)
	})
)
