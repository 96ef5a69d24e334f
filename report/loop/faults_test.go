package loop_test

import (
	"slices"
)

// A fault is what is wrong with an engine, with what it does to it.
type fault struct {
	name   string
	fits   func(*machine) bool
	spoil  func(*bench)
	causes []string // any of these names it
	// notices are rules on the test itself: with one of them on the sheet, a
	// next check that repeats the test names the fault too.
	notices []string
	// inTest: the fault is in the test, and a sheet that asks for nothing once
	// the test was made properly has done its work.
	inTest     bool
	complaints []string // the customer says one of these, or nothing where ""
	onset      string
	reads      []string // sections that are surely read at first
	among      []family // the engines that have it, nil for those of the road
}

var faults = slices.Concat([]fault{sound}, ringFaults, valveFaults, gasketFaults, wholeFaults, testFaults, mixtureFaults, fuelFaults, rotaryFaults, twoStrokeFaults, furtherFaults, magnetoFaults)

// sound has no fault: the sheet should ask for nothing.
var sound = fault{name: "sound", spoil: func(*bench) {}}

func piston(m *machine) bool  { return !m.rotary() }
func valved(m *machine) bool  { return m.valves() }
func liquid(m *machine) bool  { return piston(m) && !m.air }
func spark(m *machine) bool   { return !m.diesel() }
func several(m *machine) bool { return piston(m) && m.cylinders > 1 }
func ports(m *machine) bool {
	return m.system == portReturn || m.system == portNoReturn || m.system == directLow
}
func returning(m *machine) bool { return m.system == portReturn }
func pumped(m *machine) bool {
	return m.system != "" && m.system != carburettor && m.system != dieselLift
}
func fuelled(m *machine) bool    { return m.system != "" && !m.twoStroke && !m.rotary() }
func evenBanks(m *machine) bool  { return m.twoBanks() && len(m.banks[0]) >= 2 && m.valves() }
func neighbours(m *machine) bool { return piston(m) && len(m.pairs()) > 0 }

func both(a, b func(*machine) bool) func(*machine) bool {
	return func(m *machine) bool { return a(m) && b(m) }
}

// one picks a cylinder for the fault.
func (b *bench) one() *bore {
	i := b.rng.IntN(b.cylinders)
	b.hit = append(b.hit, i)
	return &b.bores[i]
}

func (b *bench) draw(from, to float64) float64 { return between(b.rng, from, to) }

func (b *bench) chance(of float64) bool { return b.rng.Float64() < of }

var ringFaults = []fault{
	{name: "rings-one", fits: valved, causes: []string{"rings", "broken-ring-land", "scored-bore", "piston"}, complaints: []string{"misfire", "oil use", "low power"},
		spoil: func(b *bench) {
			c := b.one()
			c.rings = b.draw(0.35, 1.5)
			c.look = pick(b.rng, []string{"oil-wet", "oil-wet", "normal"})
			if b.chance(0.4) {
				c.wall = "scored"
			}
		}},
	{name: "rings-all", fits: valved, causes: []string{"wear", "rings", "scored-bore", "oil-control-rings"}, complaints: []string{"oil use", "low power", "hard start"}, onset: "slow over months",
		spoil: func(b *bench) {
			for i := range b.bores {
				b.bores[i].rings = b.draw(0.4, 0.75)
				b.bores[i].look = pick(b.rng, []string{"oil-wet", "ash", "normal"})
				b.hit = append(b.hit, i)
			}
		}},
	{name: "holed-piston", fits: piston, causes: []string{"holed-piston", "piston"}, complaints: []string{"misfire", "oil use", "noise"}, onset: "sudden at full load",
		spoil: func(b *bench) {
			c := b.one()
			c.hole, c.crown = b.draw(6, 25), "holed"
			c.look = pick(b.rng, []string{"oil-wet", "damaged", "melted"})
			b.starts = b.cylinders > 1
		}},
	{name: "bent-rod", fits: several, causes: []string{"bent-rod"}, complaints: []string{"noise", "misfire", "noise"}, onset: "sudden",
		spoil: func(b *bench) {
			c := b.one()
			c.short, c.filled = true, b.draw(0.64, 0.82)
		}},
	{name: "dry-bores", fits: valved, causes: []string{"dry-bores", "stuck-rings"}, complaints: []string{"hard start", "no start", "stood"},
		spoil: func(b *bench) {
			b.truth.dryBores = true
			for i := range b.bores {
				b.bores[i].dry = b.draw(0.3, 0.9)
				b.hit = append(b.hit, i)
			}
			b.starts = b.chance(0.4)
		}},
	{name: "washed", fits: both(valved, spark), causes: []string{"washed-bore", "flooding"}, complaints: []string{"no start"}, reads: []string{"plugs"},
		spoil: func(b *bench) {
			b.truth.flooded = true
			for i := range b.bores {
				b.bores[i].dry, b.bores[i].look = b.draw(0.4, 0.9), "fuel-wet"
				b.hit = append(b.hit, i)
			}
			b.starts = false
		}},
	{name: "guides", fits: both(valved, spark), causes: []string{"guides-or-seals"}, complaints: []string{"oil use"}, reads: []string{"plugs"},
		spoil: func(b *bench) {
			b.truth.guides = true
			for range min(b.cylinders, 1+b.rng.IntN(b.cylinders)) {
				b.one().look = "oil-wet"
			}
		}},
}

var valveFaults = []fault{
	{name: "exhaust-valve", fits: valved, causes: []string{"exhaust-valve"}, complaints: []string{"misfire", "low power", "misfire"},
		spoil: func(b *bench) {
			c := b.one()
			c.exhaust, c.valves = b.draw(0.4, 3), "burnt"
			c.look = pick(b.rng, []string{"normal", "sooty"})
		}},
	{name: "inlet-valve", fits: valved, causes: []string{"inlet-valve"}, complaints: []string{"misfire", "low power"},
		spoil: func(b *bench) {
			c := b.one()
			c.inlet, c.look = b.draw(0.4, 2), pick(b.rng, []string{"normal", "sooty"})
		}},
	{name: "lash-tight", fits: func(m *machine) bool { return m.valves() && m.lifter == "solid" }, causes: []string{"valve-lash"}, complaints: []string{"misfire", "hard start", "low power"},
		spoil: func(b *bench) {
			c := b.one()
			c.tight = true
			if b.chance(0.7) {
				c.exhaust = b.draw(0.35, 1.2)
			} else {
				c.inlet = b.draw(0.35, 1)
			}
		}},
	{name: "valve-held", fits: valved, causes: []string{"carbon-on-seat", "stuck-valve", "sticking-valve"}, complaints: []string{"misfire", "hard start", "stood"},
		spoil: func(b *bench) {
			c := b.one()
			c.held, c.seat = true, "carbon"
			if b.chance(0.5) {
				c.exhaust = b.draw(0.5, 8)
			} else {
				c.inlet = b.draw(0.5, 8)
			}
		}},
	{name: "worn-lobe", fits: valved, causes: []string{"valve-motion", "collapsed-lifter", "worn-lobe"}, complaints: []string{"misfire", "low power", "noise"},
		spoil: func(b *bench) {
			c := b.one()
			c.motion, c.breath = true, b.draw(0.35, 0.75)
		}},
	{name: "valve-spring", fits: valved, causes: []string{"valve-motion", "valve-spring", "sticking-valve"}, complaints: []string{"misfire", "noise"}, onset: "sudden",
		spoil: func(b *bench) {
			c := b.one()
			c.motion, c.breath = true, b.draw(0.6, 0.85)
			if b.chance(0.5) {
				c.exhaust = b.draw(0.15, 0.5)
			} else {
				c.inlet = b.draw(0.15, 0.5)
			}
		}},
	{name: "bent-after-belt", fits: func(m *machine) bool { return m.valves() && m.cylinders > 2 }, causes: []string{"bent-valve", "timing-drive"}, complaints: []string{"no start"}, onset: "sudden",
		spoil: func(b *bench) {
			bank := pick(b.rng, b.banks)
			n := 2 + b.rng.IntN(max(1, len(bank)-1))
			for _, k := range b.rng.Perm(len(bank))[:min(n, len(bank))] {
				c := &b.bores[bank[k]]
				c.inlet, c.exhaust, c.valves, c.crown = b.draw(5, 25), b.draw(0, 15), "bent", "marked"
				b.hit = append(b.hit, bank[k])
			}
			b.starts, b.meets, b.timing = false, true, "belt"
			b.truth.camOff = true
			b.truth.camStill = b.chance(0.5)
		}},
}

var gasketFaults = []fault{
	{name: "gasket-between", fits: neighbours, causes: []string{"head-gasket", "warped-or-cracked-head"}, complaints: []string{"misfire", "low power"}, onset: "sudden at full load",
		spoil: func(b *bench) {
			p := pick(b.rng, b.pairs())
			leak := b.draw(1.2, 6)
			for _, i := range p {
				b.bores[i].across = leak * b.draw(0.9, 1.1)
				b.hit = append(b.hit, i)
			}
		}},
	{name: "gasket-coolant", fits: liquid, causes: []string{"head-gasket", "warped-or-cracked-head", "cracked-bore"}, complaints: []string{"coolant loss", "overheating"},
		spoil: func(b *bench) {
			c := b.one()
			c.coolant, c.crown, b.truth.gasInCoolant = b.draw(0.1, 0.7), "washed", true
			if b.chance(0.5) {
				c.look = "coolant"
			}
		}},
	{name: "warped-head", fits: func(m *machine) bool { return liquid(m) && neighbours(m) }, causes: []string{"warped-or-cracked-head", "head-gasket"}, complaints: []string{"overheating", "coolant loss"},
		spoil: func(b *bench) {
			b.truth.gasInCoolant = true
			p := pick(b.rng, b.pairs())
			for _, i := range p {
				b.bores[i].across, b.bores[i].coolant = b.draw(0.15, 0.6), b.draw(0.1, 0.4)
				b.hit = append(b.hit, i)
			}
		}},
	{name: "liquid-in-bore", fits: liquid, causes: []string{"coolant-or-fuel-in-bore", "head-gasket", "warped-or-cracked-head", "cracked-bore"}, complaints: []string{"coolant loss", "no start"}, reads: []string{"plugs"},
		spoil: func(b *bench) {
			c := b.one()
			c.filled, c.liquid, c.crown = b.draw(1.25, 1.6), true, "washed"
			c.coolant = b.draw(0.03, 0.12)
			c.look, b.truth.gasInCoolant = "coolant", true
			b.starts = b.chance(0.6)
		}},
}

var wholeFaults = []fault{
	{name: "cam-timing-all", fits: func(m *machine) bool { return m.valves() && (len(m.banks) == 1 || m.camshaft == "one") }, causes: []string{"cam-timing", "timing-drive", "cam-phaser"}, complaints: []string{"low power", "hard start", "no start"}, onset: "sudden",
		spoil: func(b *bench) {
			b.truth.camOff = true
			share := b.draw(0.6, 0.8)
			for i := range b.bores {
				b.bores[i].breath = share
				b.hit = append(b.hit, i)
			}
			b.starts = share > 0.66
		}},
	{name: "cam-timing-bank", fits: func(m *machine) bool { return evenBanks(m) && m.camshaft != "one" }, causes: []string{"cam-timing", "timing-drive", "cam-phaser"}, complaints: []string{"low power", "misfire"}, onset: "sudden",
		spoil: func(b *bench) {
			b.truth.camOff = true
			share := b.draw(0.6, 0.8)
			for _, i := range pick(b.rng, b.banks) {
				b.bores[i].breath = share
				b.hit = append(b.hit, i)
			}
		}},
	{name: "carbon-high", fits: several, causes: []string{"carbon"}, complaints: []string{"noise", ""},
		spoil: func(b *bench) {
			c := b.one()
			c.filled, c.crown = b.draw(1.17, 1.3), "carbon"
			c.look = pick(b.rng, []string{"sooty", "normal"})
		}},
	{name: "inlet-restricted", fits: valved, causes: []string{"restricted-inlet", "air-filter", "air-filter"}, complaints: []string{"low power"},
		spoil: func(b *bench) {
			b.truth.restricted = true
			for i := range b.bores {
				b.bores[i].breath = 0.74
				b.hit = append(b.hit, i)
			}
		}},
}
