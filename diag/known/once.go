package known

import (
	"math"
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/engine"
)

// What makes a reading stand apart, and what bears it out: judgement, no source.
const (
	apartOnce = 0.10 // of itself to the nearest other reading: it stands by itself
	apartPack = 0.05 // the same beside others that lie close together, all of them
	packs     = 3    // times closer to each other than it is to them
	bornOut   = 0.10 // of the others' median: another reading of the cylinder is off the same way
	oilBrings = 1.6  // times the dry reading, that oil may bring up what was rightly read
)

// againWords are what a job says of a test that was made again.
var againWords = []string{"read again", "tested again", "retested", "test repeated", "compression repeated", "other gauge", "another gauge", "second gauge"}

// ReadOnce lists the cylinders that are called low or high, or make others look
// so, by one figure: it was read once, and no other reading of that cylinder
// bears it out. A digit miswritten would do the same. Where more than half of an
// engine is low it is no slip that made it so.
func (c *Case) ReadOnce() []string {
	cylinders := c.Cranking().Cylinders
	if c.supposed || !slices.ContainsFunc(cylinders, func(r diag.CylinderResult) bool { return r.Dry != nil && len(r.DryReadings) == 1 }) ||
		!slices.ContainsFunc(cylinders, func(r diag.CylinderResult) bool { return r.Grade != diag.Even }) && c.Minimum() == nil { // as most engines are
		return nil
	}
	read := c.CylindersThat(func(r *diag.CylinderResult) bool { return r.Dry != nil && r.Kind != diag.AtLeast })
	if len(read) < 2 || c.NotJudged() != "" {
		return nil
	}
	passed := len(c.PassedLimits()) > 0 // of the book: what a rule of thumb calls a little low is left alone
	behind := c.CylindersThat(func(r *diag.CylinderResult) bool { return r.Grade.IsLow() || r.Grade == diag.Watch && passed })
	for _, name := range c.UnderMinimum() {
		if !slices.Contains(behind, name) {
			behind = append(behind, name)
		}
	}
	few := 2*len(behind) <= len(read)
	once := slices.DeleteFunc(read, func(name string) bool {
		r := c.Cylinder(name)
		if len(r.DryReadings) != 1 {
			return true
		}
		accused := few && slices.Contains(behind, name) || c.StandsHigh(name) || len(behind) > 0 && c.byItself(r)
		return !accused || c.bornOut(r) || c.asItsBank(r, behind)
	})
	if len(once) == 0 || c.WorkDone(againWords...) {
		return nil
	}
	return once
}

// NoSlip reports a notice of one figure whose cylinder is without pressure by more than that
// figure: another test of it agrees, the manifold's vacuum falls at each of its strokes, or
// what drives the valves broke; and of a figure that was lost, where a second cylinder reads
// as little, since nobody drops a figure twice.
func (c *Case) NoSlip(n diag.Notice) bool {
	if n.Variant == "range-with-dot" || len(n.Cylinders) != 1 {
		return false
	}
	r := c.Cylinder(n.Cylinders[0])
	if r == nil || r.Dry == nil || r.Grade != diag.NoPressure {
		return false
	}
	dead := c.CylindersThat(func(r *diag.CylinderResult) bool { return r.Grade == diag.NoPressure })
	return n.Variant == "digit" && len(dead) > 1 || c.bornOut(r) || VacuumDrops.HoldsIn(c) || c.mayMeet() && c.DriveFailed()
}

// asItsBank reports a cylinder behind the others with its whole bank, of which another reads
// as little as it does, or as good as nothing as well: no slip of the pen picks a bank.
func (c *Case) asItsBank(r *diag.CylinderResult, behind []string) bool {
	if len(c.Engine.Banks) < 2 {
		return false
	}
	return slices.ContainsFunc(c.Engine.Banks, func(b engine.Bank) bool {
		if !slices.Contains(b.Cylinders, r.Name) || slices.ContainsFunc(b.Cylinders, func(n string) bool { return !slices.Contains(behind, n) }) {
			return false
		}
		return slices.ContainsFunc(b.Cylinders, func(n string) bool {
			other := c.Cylinder(n)
			return n != r.Name && (alike(*other.Dry, *r.Dry) || other.Grade == diag.NoPressure && r.Grade == diag.NoPressure)
		})
	})
}

// FacesOnce lists the rotors of which one face stands far under the other two, each
// of which a rotor gives once.
func (c *Case) FacesOnce() []string {
	if c.supposed || c.Sums.Rotors == nil || c.WorkDone(againWords...) {
		return nil
	}
	var names []string
	for _, r := range c.Sums.Rotors.Rotors {
		if len(r.Apart) == 1 {
			names = append(names, r.Name)
		}
	}
	return names
}

// byItself reports a reading that no other lies near, of three at least: far off
// by itself, or beside others that lie closer together than that.
func (c *Case) byItself(r *diag.CylinderResult) bool {
	nearest, others := math.Inf(1), 0
	low, high := math.Inf(1), 0.0
	for i := range c.Cranking().Cylinders {
		if other := &c.Cranking().Cylinders[i]; other.Name != r.Name && other.Dry != nil {
			nearest, others = min(nearest, math.Abs(*other.Dry-*r.Dry)), others+1
			low, high = min(low, *other.Dry), max(high, *other.Dry)
		}
	}
	pack := others > 2 && nearest > apartPack**r.Dry && nearest >= packs*(high-low)
	return others >= 2 && (nearest > apartOnce**r.Dry || pack)
}

// bornOut reports a cylinder of which something else was found that goes with
// its reading: read again at the end, air lost, oil that did not bring it up, a first
// stroke as far off, its part in running the engine, an earlier test, damage that lets its
// pressure out; and where it has some pressure, a plug, a code, or somebody who looked inside.
func (c *Case) bornOut(r *diag.CylinderResult) bool {
	if r.Again != nil && alike(*r.Again, *r.Dry) {
		return true
	}
	var rest []float64
	for _, name := range c.Others([]string{r.Name}) {
		if other := c.Cylinder(name); other != nil && other.Dry != nil {
			rest = append(rest, *other.Dry)
		}
	}
	middle := Median(rest)
	low := *r.Dry < middle
	first, _, firsts := c.OtherShares(r.Name)
	leak := c.Leak(r.Name)
	switch {
	case low && leak != nil && c.LeakTooHigh(leak) && (r.Grade != diag.NoPressure || *leak.Loss >= TorrentLoss): // what takes all pressure lets nearly all air through
		return true
	case r.First != nil && firsts > 0 && *r.First <= (1+bornOut)**r.Dry && (low && *r.First < (1-bornOut)*first || !low && *r.First > (1+bornOut)*first):
		return true
	case low && r.Wet != nil && *r.Wet < (1-bornOut)*middle && *r.Wet <= oilBrings**r.Dry:
		return true
	}
	return low && (c.OpenSeen(r.Name) || c.Seen(r.Name, BentRod...)) || r.Grade != diag.NoPressure && c.signOf(r.Name, low) || low && (c.pullsLess(r.Name) || c.wasLow(r))
}

// OpenSeen reports a cylinder in which damage was seen that lets its pressure out.
func (c *Case) OpenSeen(name string) bool {
	return c.Seen(name, openWords...)
}

var openWords = slices.Concat(GonePiston, BurntValve, BentValve, StuckOpen)

// alike reports two readings of one cylinder that agree.
func alike(a, b float64) bool { return math.Abs(a-b) <= bornOut*max(a, b) }

// signOf reports a sign on a cylinder that is no figure.
func (c *Case) signOf(name string, low bool) bool {
	return c.plugOwn(name) || c.Looked(name) || c.LiquidIn(name) != "" || low && slices.Contains(c.MisfireOf(), name)
}

// plugOwn reports a plug with a look that no cylinder has which reads otherwise:
// soot on a whole bank says nothing of the one of it that reads far less.
func (c *Case) plugOwn(name string) bool {
	plug := c.Plug(name)
	if plug == nil || plug.Look == "" || plug.Look == "normal" || plug.Look == "worn" {
		return false
	}
	own := c.Cylinder(name)
	return !slices.ContainsFunc(c.Others([]string{name}), func(n string) bool {
		other := c.Plug(n)
		return other != nil && other.Look == plug.Look && !alike(*c.Cylinder(n).Dry, *own.Dry)
	})
}

// wasLow reports a cylinder that read as little in an earlier test.
func (c *Case) wasLow(r *diag.CylinderResult) bool {
	return slices.ContainsFunc(c.Earlier, func(e diag.Earlier) bool {
		then := c.Then(e.Test).Cylinder(r.Name)
		return then != nil && then.Dry != nil && alike(*then.Dry, *r.Dry)
	})
}

// pullsLess reports a cylinder that does less than the others by another test.
func (c *Case) pullsLess(name string) bool {
	drop, _, read := c.Drop(name)
	peak, turned := c.Peak(name)
	_, _, little := c.Contributes(name)
	return read && drop < pullsHalf*c.FullDrop() || turned && peak < 100*(1-bornOut) || little
}
