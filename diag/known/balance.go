package known

import (
	"math"
	"slices"

	"gaugesheet/diag"
)

const (
	pullsHalf    = 0.5  // part of the drop of those that pull under which a cylinder does less: common practice, no source
	balanceAlike = 0.7  // part of the median drop that each has at least where all pull alike: judgement, no source
	balanceU     = 10.0 // rpm, a counted speed
	speedApart   = 20.0 // rpm between the two readings with all working
)

// Drop is by how much the speed fell with a cylinder off, in rpm, and the median
// of all; false where fewer than three were read.
func (c *Case) Drop(name string) (drop, median float64, ok bool) {
	drops := c.byCylinder(Balance, "drop")
	if r := c.Measured(Balance); len(drops) == 0 && r != nil {
		at := r.Reading("at")
		for n, v := range c.byCylinder(Balance, "speed") {
			if at != nil {
				drops[n] = at.Value - v
			}
		}
	}
	v, read := drops[name]
	if !read || len(drops) < 3 {
		return 0, 0, false
	}
	return v, medianOf(drops), true
}

// FullDrop is by how much the speed falls without those that pull most: the median of the upper
// half of all that were read, as half of an engine may do little at once; 0 where fewer than three
// were read.
func (c *Case) FullDrop() float64 {
	var drops []float64
	for _, n := range c.Every() {
		if d, _, ok := c.Drop(n); ok {
			drops = append(drops, d)
		}
	}
	if len(drops) == 0 {
		return 0
	}
	slices.Sort(drops)
	upper := drops[len(drops)/2:]
	return (upper[(len(upper)-1)/2] + upper[len(upper)/2]) / 2
}

// hardlyMissed reports a cylinder without which the speed falls by little or nothing.
func (c *Case) hardlyMissed(name string) bool {
	return PullsNothing.HoldsOf(c, name) || PullsLittle.HoldsOf(c, name)
}

// plainlyMissed is a fall of the speed, in rpm, that no idle control made up for: twice what
// the speed may move by itself. Judgement, no source.
const plainlyMissed = 2 * speedApart

// WeakBank are the cylinders of a bank, two at least, without any of which the speed falls clearly less than
// without any of the other bank's, and falls all the same; nil for none. They have something in
// common. Not where one coil fires just these.
func (c *Case) WeakBank() []string {
	full := c.FullDrop()
	if !c.Engine.IsTwoBank() || full <= 0 || BalanceInvalid.HoldsIn(c) {
		return nil
	}
	weak := c.Those(func(n string) bool { d, _, ok := c.Drop(n); return ok && d > balanceU && d+balanceU <= weakBank*full })
	strong := c.Those(func(n string) bool { d, _, ok := c.Drop(n); return ok && d >= balanceAlike*full })
	if len(weak) < 2 || len(weak)+len(strong) < len(c.Every()) {
		return nil
	}
	of := c.Engine.BankOf(weak[0])
	if slices.ContainsFunc(weak, func(n string) bool { return c.Engine.BankOf(n) != of }) || slices.ContainsFunc(strong, func(n string) bool { return c.Engine.BankOf(n) == of }) {
		return nil
	}
	if slices.ContainsFunc(c.Spec.SharedCoils, func(set []string) bool {
		return len(set) == len(weak) && slices.Contains(set, weak[0]) && slices.Contains(set, weak[1])
	}) {
		return nil
	}
	return weak
}

// weakBank is the part of the drop of those that pull up to which all of a bank do clearly less:
// judgement, no source.
const weakBank = 0.65

// notMissed reports a cylinder without which the speed does not fall, while it falls plainly
// without each of the others, or of most of them, and nobody says that the idle control was
// at work: had it been, it would have made up for these as well.
func (c *Case) notMissed(name string) bool {
	if d, _, ok := c.Drop(name); !ok || d > balanceU || c.Measured(Balance).Word("idle-control") == "working" {
		return false
	}
	plain, none := 0, 0
	for _, n := range c.Every() {
		switch d, _, ok := c.Drop(n); {
		case ok && d > plainlyMissed:
			plain++
		case ok && d > balanceU: // that may be the control's
			return false
		case ok:
			none++
		}
	}
	return plain > 1 && plain > none
}

// otherGroup is what the cylinders on the other side of their median come to, where none
// lies near it: two groups have nothing typical between them.
func otherGroup(values map[string]float64, own, median float64) (float64, bool) {
	rest := map[string]float64{}
	for n, v := range values {
		if math.Abs(v-median) <= nearMedian*math.Abs(median) {
			return 0, false
		}
		if (v > median) != (own > median) {
			rest[n] = v
		}
	}
	if len(rest) == 0 {
		return 0, false
	}
	return medianOf(rest), true
}

// nearMedian is how near a median, as a part of it, a value makes it typical: judgement, no
// source.
const nearMedian = 0.25

// OtherDrops is by how much the speed falls without the cylinders of the other of two groups;
// false where they are not two.
func (c *Case) OtherDrops(name string) (float64, bool) {
	drop, median, ok := c.Drop(name)
	if !ok {
		return 0, false
	}
	drops := map[string]float64{}
	for _, n := range c.Every() {
		if d, _, ok := c.Drop(n); ok {
			drops[n] = d
		}
	}
	return otherGroup(drops, drop, median)
}

// NotMissed are the cylinders that a balance names though it was not valid.
func (c *Case) NotMissed() []string { return c.Those(c.notMissed) }

// scatterFrom is the part of the highest repeat of a cylinder under which the lowest lies
// where no gauge explains it: judgement, no source.
const scatterFrom = 0.85

// RepeatsScatter is a cylinder that read as the others at one time and far less at another.
var RepeatsScatter = OfAll("repeats of which the highest is as good as the others and the lowest under 85 % of it", func(c *Case, n string) bool {
	r := c.Cylinder(n)
	if r == nil || !r.Disagree || len(r.DryReadings) < 2 || c.Cranking().Highest <= 0 {
		return false
	}
	most := slices.Max(r.DryReadings)
	return slices.Min(r.DryReadings) < scatterFrom*most && most >= diag.EvenFrom*c.Cranking().Highest/100
})

// Conditions on the balance.
var (
	PullsNothing = OfAll("the speed falls by no more than can be counted with it off", func(c *Case, n string) bool {
		d, _, ok := c.Drop(n)
		return ok && d <= balanceU && c.FullDrop() > 2*balanceU
	})
	PullsLittle = OfAll("the speed falls by less than half as much with it off as with those that pull most", func(c *Case, n string) bool {
		d, _, ok := c.Drop(n)
		return ok && d > balanceU && d+balanceU < pullsHalf*c.FullDrop()
	})
	// OfWeakBank is a cylinder that is no weaker than the rest of its bank.
	OfWeakBank = OfAll("all others of its bank pull about as little, and all of the other bank pull", func(c *Case, n string) bool { return slices.Contains(c.WeakBank(), n) })
	// WeakAndWhite is a cylinder that burns, too lean: a plug that does not fire is left wet or black.
	WeakAndWhite = All(Any(PullsLittle, PullsNothing), BalanceTells, OfAll("its plug white, of those looked at fewer than half so, and none of a cylinder that pulls", func(c *Case, n string) bool {
		white := c.Looking("white")
		return slices.Contains(white, n) && 2*len(white) <= len(c.PlugsRead()) && !slices.ContainsFunc(white, func(x string) bool { return !c.hardlyMissed(x) })
	}))
	// MateIdle and MateCoded tell of what two cylinders have in common, which is their coil.
	MateIdle = OfAll("the other cylinder of its coil pulls as little as it does, and none beside these", func(c *Case, n string) bool {
		return c.withMates(n, c.hardlyMissed)
	})
	// SetIdle tells of what the cylinders have in common that are shut down at light load:
	// the oil that lets their lifters go slack.
	SetIdle = OfAll("it and all others of the set that is shut down at light load pull little or nothing, and none beside these", func(c *Case, n string) bool {
		set := c.Spec.Deactivates
		return c.alikeIn([][]string{set}, n, c.hardlyMissed)
	})
	MateCoded = OfAll("a stored misfire of it and of the other cylinder of its coil, and of none beside these", func(c *Case, n string) bool {
		of := c.MisfireOf()
		return c.withMates(n, func(x string) bool { return slices.Contains(of, x) })
	})
	BalanceEven = All(OfEngine("the speed falls alike with each cylinder off, with none less than 70 % of the median (three at least)", func(c *Case) bool {
		all := true
		for _, n := range c.Every() {
			d, m, ok := c.Drop(n)
			all = all && ok && d >= balanceAlike*m && d > balanceU
		}
		return all
	}), Not(BalanceInvalid))
	BalanceInvalid = OfTest(Balance, "the idle control was working, or not known to be held; or the speed with all working moved by more than 20 rpm", func(r *diag.MeasuredResult) bool {
		at, again := r.Reading("at"), r.Reading("again")
		return r.Word("idle-control") == "working" || r.Word("idle-control") == "not sure" || at != nil && again != nil && math.Abs(at.Value-again.Value) > speedApart
	})
	// BalanceOpen is such a balance that names no cylinder all the same, BalanceTells a
	// cylinder of which it tells.
	BalanceOpen  = All(BalanceInvalid, OfEngine("not one cylinder without which the speed does not fall while it falls by more than 40 rpm without the others", func(c *Case) bool { return len(c.NotMissed()) == 0 }))
	BalanceTells = Any(Not(BalanceInvalid), OfAll("the idle control not known to work, and the speed does not fall with it off and falls by more than 40 rpm without the others", (*Case).notMissed))
)
