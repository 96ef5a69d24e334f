package known

import (
	"math"

	"gaugesheet/diag"
)

const (
	pullsHalf    = 0.5  // part of the median drop under which a cylinder does less: common practice, no source
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

// plainlyMissed is a fall of the speed, in rpm, that no idle control made up for: twice what
// the speed may move by itself. Judgement, no source.
const plainlyMissed = 2 * speedApart

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

// NotMissed are the cylinders that a balance names though it was not valid.
func (c *Case) NotMissed() []string { return c.Those(c.notMissed) }

// Conditions on the balance.
var (
	PullsNothing = OfAll("the speed falls by no more than can be counted with it off", func(c *Case, n string) bool {
		d, m, ok := c.Drop(n)
		return ok && d <= balanceU && m > 2*balanceU
	})
	PullsLittle = OfAll("the speed falls by less than half the median with it off", func(c *Case, n string) bool {
		d, m, ok := c.Drop(n)
		return ok && d > balanceU && d+balanceU < pullsHalf*m
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
