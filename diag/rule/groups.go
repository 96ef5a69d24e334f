package rule

import (
	"slices"

	"gaugesheet/diag"
)

// groups are the cylinders short of pressure, put together by what they share:
// a bank, a head gasket, or nothing.
type groups struct {
	bank        []string   // all of one bank, nil where no bank is low as a whole
	bankIndex   int        // in the engine's banks
	runs        [][]string // neighbours under one gasket, some pressure in one of them at least
	deadRuns    [][]string // neighbours under one gasket, none with pressure
	single      []string   // low without a low neighbour
	deadSingles []string   // without pressure and without a low neighbour
}

// dead reports an engine without pressure: more than half of its cylinders
// were read and none of these has any.
func (c *Case) dead() bool {
	return c.nothingRead() && 2*c.Sums.Compression.N > len(c.Engine.Cylinders)
}

// nothingRead reports that no cylinder that was read has pressure.
func (c *Case) nothingRead() bool {
	return c.Spec.Decompressor != "automatic" && c.Sums.Compression.WithoutPressure()
}

// lowOrDead lists the low cylinders; where none that was read has pressure
// there is no best to grade them by, and it is all of them.
func (c *Case) lowOrDead() []string {
	if c.Sums.Compression.N > 1 && c.nothingRead() {
		return c.Read()
	}
	return c.LowSet()
}

// mostLow reports that more than half of the cylinders are low: one gasket
// does not do that.
func (c *Case) mostLow() bool { return 2*len(c.LowSet()) > len(c.Engine.Cylinders) }

// groupLow puts the low cylinders in groups, the widest first: a bank, then
// runs of neighbours, then what is left over.
func (c *Case) groupLow() groups {
	var g groups
	if c.dead() {
		return g
	}
	low := c.lowOrDead()
	if bank := c.lowBank(); bank >= 0 {
		g.bankIndex = bank
		for _, name := range c.Read() {
			if c.Engine.BankOf(name) == bank {
				g.bank = append(g.bank, name)
			}
		}
		low = slices.DeleteFunc(low, func(name string) bool { return slices.Contains(g.bank, name) })
	}
	for _, run := range c.Engine.NeighbourRuns(low) {
		dead := !slices.ContainsFunc(run, func(name string) bool { return c.Grade(name) != diag.NoPressure }) || c.nothingRead()
		switch {
		case len(run) > 1 && dead:
			g.deadRuns = append(g.deadRuns, run)
		case len(run) > 1:
			g.runs = append(g.runs, run)
		case dead:
			g.deadSingles = append(g.deadSingles, run[0])
		default:
			g.single = append(g.single, run[0])
		}
	}
	c.inOrder(g.single)
	c.inOrder(g.deadSingles)
	return g
}

// inOrder sorts cylinders as the engine lists them.
func (c *Case) inOrder(names []string) {
	slices.SortFunc(names, func(a, b string) int { return c.Engine.Index(a) - c.Engine.Index(b) })
}

// lowBank gives the bank that is low as a whole, -1 for none: two cylinders
// read in each, all of one bank under every one of the other by more than two
// readings can differ by chance, and none of them even. Where a few of them are
// low and the rest are not, these have something of their own.
func (c *Case) lowBank() int {
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
		if lowest-highest > c.clearDifference() && even == 0 && (low == 0 || 2*low >= len(read[b])) {
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

// others lists the cylinders that were read and are not among these.
func (c *Case) others(names []string) []string {
	return slices.DeleteFunc(c.Read(), func(name string) bool { return slices.Contains(names, name) })
}

// spread gives the lowest and highest dry reading of some cylinders.
func (c *Case) spread(names []string) (low, high float64) {
	for i, name := range names {
		v := *c.Cylinder(name).Dry
		if i == 0 {
			low, high = v, v
		}
		low, high = min(low, v), max(high, v)
	}
	return low, high
}
