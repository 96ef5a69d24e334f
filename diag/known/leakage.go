package known

import (
	"gaugesheet/diag"
	"slices"
)

// Bands of leakage for display where no limit of the maker or of the tester is
// given, in percent of the supply: common practice, no source. There is no
// standard orifice outside aviation, so figures compare only with the same
// tester's.
const (
	GoodLoss   = 10.0
	WornLoss   = 20.0
	ActLoss    = 30.0
	OverMedian = 10.0 // points; a cylinder that far from the others stands out
)

// Leak gives a cylinder's leakage, nil where it was not read.
func (c *Case) Leak(name string) *diag.LeakResult {
	if c.Sums.Leakage == nil {
		return nil
	}
	if l := c.Sums.Leakage.Cylinder(name); l != nil && l.Loss != nil {
		return l
	}
	return nil
}

// Leaks lists the cylinders whose leakage was read, in the engine's order.
func (c *Case) Leaks() []*diag.LeakResult {
	var read []*diag.LeakResult
	if c.Sums.Leakage == nil {
		return nil
	}
	for i := range c.Sums.Leakage.Cylinders {
		if l := &c.Sums.Leakage.Cylinders[i]; l.Loss != nil {
			read = append(read, l)
		}
	}
	return read
}

// LeaksAt reports air at a place that is worth saying: coolant and neighbour
// always, elsewhere where more than 10 % is lost or how much was not noted.
func (c *Case) LeaksAt(name, at string) bool {
	l := c.leakAt(name)
	if l == nil || !slices.Contains(l.At, at) {
		return false
	}
	return at == AtCoolant || at == AtNeighbour || l.Loss == nil || *l.Loss > GoodLoss
}

// The places where air escapes, as the job file has them.
const (
	AtExhaust   = "exhaust"
	AtInlet     = "inlet"
	AtCrankcase = "crankcase"
	AtCoolant   = "coolant"
	AtNeighbour = "neighbour"
	AtOutside   = "outside"
)

var places = []string{AtExhaust, AtInlet, AtCrankcase, AtCoolant, AtNeighbour, AtOutside}

// LostAt is where most of a cylinder's air goes: the place that the job names
// so, the only one, or "" where it cannot be told.
func (c *Case) LostAt(name string) string {
	l := c.leakAt(name)
	switch {
	case l == nil:
		return ""
	case len(l.At) == 1:
		return l.At[0]
	}
	if c.Leakage != nil {
		return c.Leakage.Dry[name].Most
	}
	return ""
}

// leakAt is what the leakage test noted of a cylinder, with or without a figure.
func (c *Case) leakAt(name string) *diag.LeakResult {
	if c.Sums.Leakage == nil {
		return nil
	}
	return c.Sums.Leakage.Cylinder(name)
}

// Loss is a cylinder's loss in percent; false where none was noted.
func (c *Case) Loss(name string) (float64, bool) {
	if l := c.Leak(name); l != nil && l.Loss != nil {
		return *l.Loss, true
	}
	return 0, false
}

// Beyond reports a loss over a bound by more than arithmetic can miss.
func Beyond(loss, bound float64) bool { return loss > bound+1e-6 }

// LeakingBank gives the bank that loses air in every cylinder read while the
// other, two of it at least, loses none to speak of; -1 for none. The other
// bank was tested in the same state and with the same tester.
func (c *Case) LeakingBank(names []string) int {
	if !c.Engine.IsTwoBank() || len(names) < 2 {
		return -1
	}
	bank := c.Engine.BankOf(names[0])
	sound := 0
	for _, l := range c.Leaks() {
		switch inSet := slices.Contains(names, l.Name); {
		case inSet != (c.Engine.BankOf(l.Name) == bank):
			return -1
		case inSet && !c.LeakTooHigh(l):
			return -1
		case !inSet && *l.Loss > WornLoss:
			return -1
		case !inSet:
			sound++
		}
	}
	if sound < 2 {
		return -1
	}
	return bank
}

func (c *Case) LeakageCold() bool {
	if c.Leakage == nil {
		return false
	}
	if c.Leakage.Engine != "" {
		return c.Leakage.Engine == "cold"
	}
	return c.Conditions.Engine == "cold"
}

// PastLimit reports a loss that as read is over its limit and yet too close to
// call.
func (c *Case) PastLimit(l *diag.LeakResult) bool {
	return l.Verdict == diag.TooClose && c.Sums.Leakage.Limit != nil && *l.Loss > *c.Sums.Leakage.Limit
}

// WorstLeak is the read cylinder of the greatest loss among some, nil for none.
func (c *Case) WorstLeak(names []string) *diag.LeakResult {
	var worst *diag.LeakResult
	for _, name := range names {
		if l := c.Leak(name); l != nil && (worst == nil || *l.Loss > *worst.Loss) {
			worst = l
		}
	}
	return worst
}

// LeakFacts are what the words on leakage use: the worst loss, each loss, the
// Median of all, and the limit with its verdict where there is one.
func (c *Case) LeakFacts(names []string) diag.Facts {
	facts := diag.Facts{"limit": "", "verdict": "", "low": c.AnyLow(names), "read": len(c.Leaks()),
		"median": Percent(c.Sums.Leakage.Median, 0)}
	var each diag.Names
	for _, name := range names {
		if l := c.Leak(name); l != nil {
			each = append(each, name+": "+Percent(*l.Loss, 0).String())
		}
	}
	facts["each"] = each
	if worst := c.WorstLeak(names); worst != nil {
		facts["loss"] = Percent(*worst.Loss, 0)
		if c.Sums.Leakage.Limit != nil {
			facts["limit"] = Percent(*c.Sums.Leakage.Limit, 0).String()
			facts["verdict"] = string(worst.Verdict)
		}
	}
	return facts
}

// LeakTooHigh reports a loss over the limit, or that stands out without one.
func (c *Case) LeakTooHigh(l *diag.LeakResult) bool {
	if c.Sums.Leakage.N > 0 && *l.Loss > c.Sums.Leakage.Median+OverMedian {
		return true
	}
	if c.Sums.Leakage.Limit != nil {
		return l.Verdict == diag.Outside || c.PastLimit(l)
	}
	return *l.Loss > WornLoss
}

// Placed reports whether a rule for one of its places speaks of a leak.
func (c *Case) Placed(l *diag.LeakResult) bool {
	return slices.ContainsFunc(places, func(at string) bool { return c.LeaksAt(l.Name, at) })
}

// RingLoss reports a high loss past the rings, or at no place that was named.
func (c *Case) RingLoss(l *diag.LeakResult) bool {
	elsewhere := slices.ContainsFunc(l.At, func(at string) bool { return at != AtCrankcase && at != "nowhere" })
	return c.LeakTooHigh(l) && *l.Loss > GoodLoss && !elsewhere
}

// tight is the loss in percent under which a cylinder holds its air.
const tight = 10

// AllTight reports that all of these cylinders were tested for leakage and
// hold their air.
func (c *Case) AllTight(names []string) bool {
	return len(names) > 0 && !slices.ContainsFunc(names, func(n string) bool {
		l := c.Leak(n)
		return l == nil || *l.Loss >= tight
	})
}

// LeakageKnown reports that all of these cylinders were tested for leakage.
func (c *Case) LeakageKnown(names []string) bool {
	return !slices.ContainsFunc(names, func(n string) bool { return c.Leak(n) == nil })
}

func (c *Case) LosesAt(names []string, place string) bool {
	return slices.ContainsFunc(names, func(n string) bool {
		l := c.leakAt(n)
		return l != nil && slices.Contains(l.At, place)
	})
}

// LeakApart reports that neighbours lose their air at different places, none
// of them into each other.
func (c *Case) LeakApart(run []string) bool {
	if !c.LeakageKnown(run) || c.LosesAt(run, "neighbour") {
		return false
	}
	first := c.Leak(run[0]).At
	return slices.ContainsFunc(run[1:], func(n string) bool { return !slices.Equal(c.Leak(n).At, first) })
}

// LeakNoted reports a cylinder of which the leakage test noted a loss or a place.
func (c *Case) LeakNoted(name string) bool {
	l := c.leakAt(name)
	return l != nil && (l.Loss != nil || len(l.At) > 0)
}
