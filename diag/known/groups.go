package known

import (
	"gaugesheet/diag"
	"slices"
)

// Groups are the cylinders short of pressure, put together by what they share:
// a bank, a head gasket, or nothing.
type Groups struct {
	Bank        []string   // all of one bank, nil where no bank is low as a whole
	BankIndex   int        // in the engine's banks
	Runs        [][]string // neighbours under one gasket, some pressure in one of them at least
	DeadRuns    [][]string // neighbours under one gasket, none with pressure
	Single      []string   // low without a low neighbour
	DeadSingles []string   // without pressure and without a low neighbour
}

// Dead reports an engine without pressure: more than half of its cylinders
// were read and none of these has any.
func (c *Case) Dead() bool {
	return c.NothingRead() && 2*c.Cranking().N > len(c.Engine.Cylinders)
}

// NothingRead reports that no cylinder that was read has pressure.
func (c *Case) NothingRead() bool {
	return c.Spec.Decompressor != "automatic" && c.Cranking().WithoutPressure()
}

// LowOrDead lists the low cylinders; where none that was read has pressure
// there is no best to grade them by, and it is all of them.
func (c *Case) LowOrDead() []string {
	if c.Cranking().N > 1 && c.NothingRead() {
		return c.Read()
	}
	return c.LowSet()
}

// MostLow reports that more than half of the cylinders are low: one gasket
// does not do that.
func (c *Case) MostLow() bool { return 2*len(c.LowSet()) > len(c.Engine.Cylinders) }

// GroupLow puts the low cylinders in groups, the widest first: a bank, then
// runs of neighbours, then what is left over.
func (c *Case) GroupLow() Groups {
	var g Groups
	if c.Dead() {
		return g
	}
	low := c.LowOrDead()
	if bank := c.LowBank(); bank >= 0 {
		g.BankIndex = bank
		for _, name := range c.Read() {
			if c.Engine.BankOf(name) == bank {
				g.Bank = append(g.Bank, name)
			}
		}
		low = slices.DeleteFunc(low, func(name string) bool { return slices.Contains(g.Bank, name) })
	}
	for _, run := range c.Engine.NeighbourRuns(low) {
		dead := !slices.ContainsFunc(run, func(name string) bool { return c.Grade(name) != diag.NoPressure }) || c.NothingRead()
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

// LowBank gives the bank that is low as a whole, -1 for none: two cylinders
// read in each, all of one bank under every one of the other by more than two
// readings can differ by chance, and none of them even. Where a few of them are
// low and the rest are not, these have something of their own.
func (c *Case) LowBank() int {
	if !c.Engine.IsTwoBank() {
		return -1
	}
	var read [2][]*diag.CylinderResult
	for _, name := range c.Read() {
		if b := c.Engine.BankOf(name); b >= 0 {
			read[b] = append(read[b], c.Cylinder(name))
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
		if lowest-highest > c.ClearDifference() && even == 0 && (low == 0 || 2*low >= len(read[b])) {
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
