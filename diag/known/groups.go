package known

import (
	"slices"

	"gaugesheet/diag"
)

// Groups are the cylinders short of pressure, put together by what they share:
// a bank, a head gasket, or nothing.
type Groups struct {
	Bank        []string   // all of one bank, nil where no bank is low as a whole
	BankIndex   int        // in the engine's banks
	Set         []string   // low or without pressure, and all of the set that is shut down at light load
	Dead        []string   // without pressure together: more than two, or two that are no neighbours
	Runs        [][]string // neighbours under one gasket, some pressure in one of them at least
	DeadRuns    [][]string // two neighbours under one gasket, neither with pressure
	Single      []string   // low without a low neighbour
	DeadSingles []string   // one without pressure and without a low neighbour
}

// Dead reports an engine without pressure: more than half of its cylinders
// were read and none of these has any.
func (c *Case) Dead() bool {
	return c.NothingRead() && 2*c.Cranking().N > len(c.Engine.Cylinders)
}

// NothingRead reports that no cylinder that was read has pressure.
func (c *Case) NothingRead() bool {
	if c.Spec.Decompressor == "automatic" { // which leaves some pressure in each
		return c.Cranking().N > 0 && len(c.Graded(diag.NoPressure)) == c.Cranking().N
	}
	return c.Cranking().WithoutPressure()
}

// MostLow reports that more than half of the cylinders are low: one gasket
// does not do that.
func (c *Case) MostLow() bool { return 2*len(c.LowSet()) > len(c.Engine.Cylinders) }

// GroupLow puts the low cylinders in groups, the widest first: a bank, a set
// that is shut down together, those that died together, then runs of neighbours,
// then what is left over. More than two that are dead share the drive of their
// valves rather than gaskets, also where they stand in a row.
func (c *Case) GroupLow() Groups { return remembered(&c.groups, c.groupLow) }

func (c *Case) groupLow() Groups {
	var g Groups
	if c.Dead() {
		return g
	}
	low := c.LowSet()
	rest := func(taken []string) []string {
		return slices.DeleteFunc(low, func(name string) bool { return slices.Contains(taken, name) })
	}
	if bank := c.LowBank(); bank >= 0 {
		g.BankIndex = bank
		for _, name := range c.Read() {
			if c.Engine.BankOf(name) == bank {
				g.Bank = append(g.Bank, name)
			}
		}
		low = rest(g.Bank)
	}
	if c.deactivated(low) {
		g.Set, low = low, nil
		return g
	}
	dead := slices.DeleteFunc(slices.Clone(low), func(n string) bool { return !c.isDead(n) })
	if len(dead) > 2 || len(dead) == 2 && c.apartFromLow(dead, low) {
		g.Dead = dead
		low = rest(dead)
	}
	for _, run := range c.Engine.NeighbourRuns(low) {
		dead := !slices.ContainsFunc(run, func(n string) bool { return !c.isDead(n) })
		switch {
		case len(run) > 1 && dead:
			g.DeadRuns = append(g.DeadRuns, run)
		case len(run) > 1:
			g.Runs = append(g.Runs, run)
		case dead:
			g.DeadSingles = append(g.DeadSingles, run[0])
		default:
			g.Single = append(g.Single, run[0])
		}
	}
	c.InOrder(g.Single)
	c.InOrder(g.DeadSingles)
	return g
}

func (c *Case) isDead(name string) bool { return c.Grade(name) == diag.NoPressure }

// apartFromLow reports that none of some cylinders has a low neighbour.
func (c *Case) apartFromLow(names, low []string) bool {
	return !slices.ContainsFunc(names, func(n string) bool {
		return slices.ContainsFunc(c.NeighboursOf(n), func(m string) bool { return slices.Contains(low, m) })
	})
}

// deactivated reports two low cylinders at least, each of them of the set that
// is shut down together at light load, and some outside it that was read.
func (c *Case) deactivated(low []string) bool {
	set := c.Spec.Deactivates
	return len(low) > 1 && !slices.ContainsFunc(low, func(n string) bool { return !slices.Contains(set, n) }) &&
		slices.ContainsFunc(c.Read(), func(n string) bool { return !slices.Contains(set, n) })
}

// DeactivatedFoul are the cylinders that are shut down at light load, where they and no
// others that were looked at have plugs with oil or its ash.
func (c *Case) DeactivatedFoul() []string {
	set := c.Spec.Deactivates
	if len(set) < 2 {
		return nil
	}
	looked := 0
	for _, n := range c.Every() {
		foul := c.Looks(n, "oil-wet", "ash")
		if foul != slices.Contains(set, n) {
			return nil
		}
		if p := c.Plug(n); p != nil && p.Look != "" && !foul {
			looked++
		}
	}
	if looked < 2 {
		return nil
	}
	return set
}

// outerInner are the sets that eight-cylinder engines of two banks, numbered
// across them, commonly shut down: the outer two of one bank and the inner two
// of the other. Common practice, no source.
var outerInner = [][]string{{"1", "4", "6", "7"}, {"2", "3", "5", "8"}}

// MayBeDeactivated is a set of low cylinders that many engines shut down
// together at light load, where the job does not say whether this one does.
var MayBeDeactivated = OfEngine("the low ones are a set that many engines shut down at light load, and whether this one does is not said", func(c *Case) bool {
	if c.Spec.Deactivates != nil || c.Spec.Lifters == "solid" || !c.HasValves() || len(c.Engine.Cylinders) != 8 || !c.Engine.IsTwoBank() {
		return false
	}
	return slices.ContainsFunc(outerInner, func(set []string) bool {
		return slices.Equal(c.LowSet(), set) && c.Engine.BankOf("1") != c.Engine.BankOf("2")
	})
})

// ShareHead reports that two of some cylinders stand side by side under one
// head gasket.
func (c *Case) ShareHead(names []string) bool { return len(c.Engine.NeighbourRuns(names)) < len(names) }

// OwnHeads reports several cylinders of which no two stand under one head: what
// seals the one is nothing to the other.
func (c *Case) OwnHeads(names []string) bool {
	heads := map[int]bool{}
	for _, n := range names {
		if i := c.Engine.Index(n); i >= 0 {
			heads[c.Engine.Cylinders[i].Head] = true
		}
	}
	return len(names) > 1 && len(heads) == len(names)
}

// LowBank gives the bank that is low as a whole, -1 for none: two cylinders
// read in each, all of one bank under every one of the other by more than two
// readings can differ by chance, and none of them even. Where a few of them are
// low and the rest are not, these have something of their own. A cylinder known
// only to read more than a figure counts with that figure where it is good.
func (c *Case) LowBank() int {
	if !c.Engine.IsTwoBank() {
		return -1
	}
	var read [2][]*diag.CylinderResult
	for i := range c.Cranking().Cylinders {
		r := &c.Cranking().Cylinders[i]
		if b := c.Engine.BankOf(r.Name); b >= 0 && r.Dry != nil {
			read[b] = append(read[b], r)
		}
	}
	if len(read[0]) < 2 || len(read[1]) < 2 {
		return -1
	}
	for b := range read {
		lowest := *slices.MinFunc(read[1-b], byDry).Dry
		highest := *slices.MaxFunc(read[b], byDry).Dry
		low, even := 0, 0
		for _, r := range read[b] {
			switch {
			case r.Grade.IsLow():
				low++
			case r.Grade != diag.Watch && r.Grade != diag.GradeTooClose:
				even++
			}
		}
		gap := c.ClearDifference()
		if low == 0 { // a little low only where the bank stands apart as one cylinder would
			gap = max(gap, apart*c.Cranking().Median/100)
		}
		if lowest-highest > gap && even == 0 && (low == 0 || 2*low >= len(read[b])) {
			return b
		}
	}
	return -1
}

func byDry(a, b *diag.CylinderResult) int {
	switch {
	case *a.Dry < *b.Dry:
		return -1
	case *a.Dry > *b.Dry:
		return 1
	}
	return 0
}
