package known

import (
	"math"
	"slices"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
)

// Bands of leakage for display where no limit of the maker or of the tester is
// given, in percent of the supply: common practice, no source. There is no
// standard orifice outside aviation, so figures compare only with the same
// tester's.
const (
	GoodLoss   = diag.GoodLoss
	WornLoss   = 20.0
	ActLoss    = 30.0
	OverMedian = 10.0 // points; a cylinder that far from the others stands out
	// AircraftLoss is where a warm cylinder of an aircraft engine is suspect, which is
	// read with 80 psi and a standard orifice: FAA AC 43.13-1B, para 8-14.
	AircraftLoss = 25.0
	TorrentLoss  = 60.0 // more than worn rings let through: common practice, no source
)

// FewestForMedian is how many cylinders are read before one of them is compared
// with the middle of all.
const FewestForMedian = 3

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
// always, elsewhere where more than 10 % or more than the limit is lost, or
// where how much was not noted. An engine cooled by air has no coolant, and
// what places mean in a rotary is another matter.
func (c *Case) LeaksAt(name, at string) bool {
	l := c.leakAt(name)
	if l == nil || !slices.Contains(l.At, at) || at == AtCoolant && c.AirCooled() || c.Rotary() {
		return false
	}
	if at == AtCrankcase && c.asTightAsSound(name) {
		return false
	}
	return at == AtCoolant || at == AtNeighbour || l.Loss == nil || *l.Loss > c.goodLoss() || c.overLimit(l) || c.LossIsBound(name)
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
	return l.Most
}

// LossIsBound reports a loss known only to be more than its figure.
func (c *Case) LossIsBound(name string) bool {
	l := c.Leak(name)
	return l != nil && l.Bound
}

// mainPlaces is where a cylinder's air goes as far as it counts: where most
// goes; else the places that were noted, without the crankcase beside others,
// which a little always reaches past the rings.
func (c *Case) mainPlaces(name string) []string {
	l := c.leakAt(name)
	if l == nil {
		return nil
	}
	if most := c.LostAt(name); most != "" {
		return []string{most}
	}
	return slices.DeleteFunc(slices.Clone(l.At), func(at string) bool { return at == AtCrankcase })
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

// LeaksAtValve reports a cylinder whose air clearly goes out past one of its
// valves: too much of it, or how much was not noted. Air at both valves says that
// the piston did not stand at the top of its compression.
func (c *Case) LeaksAtValve(name string) bool {
	inlet, exhaust := c.LeaksAt(name, AtInlet), c.LeaksAt(name, AtExhaust)
	if !c.HasValves() || inlet == exhaust {
		return false
	}
	l := c.Leak(name)
	return l == nil || c.LeakTooHigh(l) || *l.Loss > WornLoss
}

// ValveSets lists sets of cylinders with a camshaft in common all of which
// lose their air past a valve: a bank while the other holds its air, or all
// that were read of an engine, three at least.
func (c *Case) ValveSets() [][]string {
	var leaking, others []string
	for _, name := range c.Every() {
		switch {
		case c.LeaksAtValve(name):
			leaking = append(leaking, name)
		case c.LeakNoted(name):
			others = append(others, name)
		}
	}
	switch {
	case len(others) == 0 && len(leaking) >= fewestAlike:
		return [][]string{leaking}
	case len(leaking) > 1 && len(others) > 1 && c.holdAir(others) && c.LeakingBank(leaking) >= 0:
		return [][]string{leaking}
	}
	return nil
}

// fewestAlike is how many cylinders with the same fault have a cause in common
// sooner than one each: common practice, no source.
const fewestAlike = 3

// holdAir reports cylinders that lose no more than is serviceable.
func (c *Case) holdAir(names []string) bool {
	return !slices.ContainsFunc(names, func(n string) bool {
		l := c.Leak(n)
		return l == nil || *l.Loss > WornLoss
	})
}

// LeakingBank gives the bank that these cylinders are all that was read of,
// while others were read on the other; -1 for none.
func (c *Case) LeakingBank(names []string) int {
	if !c.Engine.IsTwoBank() || len(names) < 2 {
		return -1
	}
	bank, other := c.Engine.BankOf(names[0]), false
	for _, name := range c.Every() {
		if !c.LeakNoted(name) {
			continue
		}
		if slices.Contains(names, name) != (c.Engine.BankOf(name) == bank) {
			return -1
		}
		other = other || c.Engine.BankOf(name) != bank
	}
	if !other {
		return -1
	}
	return bank
}

// LeakageCold reports that leakage was tested on a cold engine.
func (c *Case) LeakageCold() bool {
	if c.Leakage == nil {
		return false
	}
	if c.Leakage.Engine != "" {
		return c.Leakage.Engine == "cold"
	}
	return c.Conditions.Engine == "cold"
}

// LeakageWarm reports that leakage was tested on an engine said to be warm.
func (c *Case) LeakageWarm() bool {
	state := c.Conditions.Engine
	if c.Leakage != nil && c.Leakage.Engine != "" {
		state = c.Leakage.Engine
	}
	return state == "warm" || state == "hot"
}

// overLimit reports a loss over its limit, clear of uncertainty or as read.
func (c *Case) overLimit(l *diag.LeakResult) bool { return l.Verdict == diag.Outside || c.PastLimit(l) }

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

// LeakFacts are what the words on leakage use: the loss, from and to, and each
// loss as far as they were noted, the median where three at least were read, and the
// limit with its verdict where there is one; none of a trial, of which nobody says
// them.
func (c *Case) LeakFacts(names []string) diag.Facts {
	if c.supposed {
		return diag.Facts{}
	}
	facts := diag.Facts{"limit": "", "verdict": "", "low": c.AnyLow(names), "read": len(c.Leaks()), "median": "", "loss": "",
		"usable": Percent(c.suspectLoss(), 0).String(), "good": Percent(c.goodLoss(), 0).String(), "suspect": "", "orifice": "", "tester": ""}
	facts["orifice"], facts["tester"] = c.testerSays()
	if c.Sums.Leakage != nil && c.Sums.Leakage.N > FewestForMedian { // three beside each
		facts["median"] = loss(c.Sums.Leakage.Median)
	}
	each, apart := diag.Names{}, diag.Names{}
	for _, name := range names {
		switch {
		case c.Leak(name) != nil:
			each = append(each, name+": "+c.LossAsNoted(name))
		case len(c.Leakage.Dry[name].Values) > 1:
			apart = append(apart, diag.AsWritten(c.Leakage.Dry[name].Entered))
		}
	}
	facts["each"], facts["apart"] = each, apart
	if worst := c.WorstLeak(names); worst != nil {
		facts["loss"] = c.lossSpan(names, worst)
		if c.TestedAsAircraft() && c.Sums.Leakage.Limit == nil && c.LeakageWarm() && Beyond(*worst.Loss, AircraftLoss) {
			facts["suspect"] = facts["usable"]
		}
		if c.Sums.Leakage.Limit != nil {
			facts["limit"] = loss(*c.Sums.Leakage.Limit).String()
			facts["verdict"] = string(worst.Verdict)
		}
	}
	return facts
}

// loss is a number of percent with the decimal that it has.
func loss(v float64) diag.Number {
	if math.Abs(v-math.Round(v)) < 0.05 {
		return Percent(v, 0)
	}
	return Percent(v, 1)
}

// lossSpan prints the losses of some cylinders, from and to, of which one is
// the worst.
func (c *Case) lossSpan(names []string, worst *diag.LeakResult) string {
	least := worst
	for _, name := range names {
		if l := c.Leak(name); l != nil && *l.Loss < *least.Loss {
			least = l
		}
	}
	from, to := c.LossAsNoted(least.Name), c.LossAsNoted(worst.Name)
	alike := math.Round(*least.Loss) == math.Round(*worst.Loss) // on a page that prints no tenths
	if from == to || alike || c.LossIsBound(least.Name) {
		return to
	}
	return strings.TrimSuffix(from, "\u00a0"+string(quantity.Percent)) + "–" + to
}

// LossAsNoted is a cylinder's loss in print; a bound stays one. "" where none
// was noted.
func (c *Case) LossAsNoted(name string) string {
	l := c.Leak(name)
	switch {
	case l == nil:
		return ""
	case c.LossIsBound(name):
		return quantity.Format(*l.Loss, loss(*l.Loss).Decimals) + "+\u00a0" + string(quantity.Percent)
	}
	return loss(*l.Loss).String()
}

// LeakTooHigh reports a loss over the limit, or that stands out without one.
func (c *Case) LeakTooHigh(l *diag.LeakResult) bool {
	s := c.Sums.Leakage
	switch {
	case l.Loss == nil:
		return false
	case s.Orifice: // by the makers who count it, it is the limit of each, whatever the others read
		return c.overLimit(l)
	case s.N >= FewestForMedian && Beyond(*l.Loss, s.Median+OverMedian):
		return true
	case s.Limit != nil:
		return c.overLimit(l)
	}
	suspect := c.suspectLoss()
	return Beyond(*l.Loss, suspect) || c.LossIsBound(l.Name) && *l.Loss >= suspect
}

// PlaceNoted reports whether a rule for one of its places speaks of a
// cylinder's leak.
func (c *Case) PlaceNoted(name string) bool {
	return slices.ContainsFunc(places, func(at string) bool { return c.LeaksAt(name, at) })
}

// RingLoss reports a high loss past the rings, or at no place that was named.
func (c *Case) RingLoss(l *diag.LeakResult) bool {
	elsewhere := slices.ContainsFunc(l.At, func(at string) bool { return at != AtCrankcase && at != "nowhere" })
	return c.LeakTooHigh(l) && *l.Loss > GoodLoss && !elsewhere
}

// HighLoss reports a cylinder that loses too much air.
func (c *Case) HighLoss(name string) bool {
	l := c.Leak(name)
	return l != nil && c.LeakTooHigh(l)
}

// LosesAt reports that one of these cylinders loses air at a place, by the job
// file's name of it.
func (c *Case) LosesAt(names []string, place string) bool {
	return slices.ContainsFunc(names, func(n string) bool {
		l := c.leakAt(n)
		return l != nil && slices.Contains(l.At, place)
	})
}

// LeakApart reports that neighbours lose their air at different places, none
// of them into each other.
func (c *Case) LeakApart(run []string) bool {
	if len(run) < 2 || c.LosesAt(run, AtNeighbour) {
		return false
	}
	first := c.mainPlaces(run[0])
	apart := false
	for _, name := range run {
		places := c.mainPlaces(name)
		if len(places) == 0 {
			return false
		}
		apart = apart || !slices.ContainsFunc(places, func(at string) bool { return slices.Contains(first, at) })
	}
	return apart
}

// LeakNoted reports a cylinder of which the leakage test noted a loss or a place.
func (c *Case) LeakNoted(name string) bool {
	l := c.leakAt(name)
	return l != nil && (l.Loss != nil || len(l.At) > 0)
}
