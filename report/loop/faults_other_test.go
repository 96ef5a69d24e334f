package loop_test

// all lists every cylinder.
func (b *bench) all() []int {
	list := make([]int, b.cylinders)
	for i := range list {
		list[i] = i
	}
	return list
}

// soot gives plugs a look.
func (b *bench) soot(look string, of []int) {
	for _, i := range of {
		b.bores[i].look = look
	}
	b.hit = append(b.hit, of...)
}

var testFaults = []fault{
	{name: "weak-battery", fits: func(m *machine) bool { return piston(m) && m.cylinders >= 4 }, causes: []string{"weak-cranking", "battery"}, notices: []string{"falls-in-test-order"}, inTest: true, complaints: []string{"hard start", ""},
		spoil: func(b *bench) { b.test.battery = true }},
	{name: "throttle-shut", fits: both(piston, spark), causes: []string{"throttle-or-choke"}, notices: []string{"not-standard-method", "all-low-check-the-test", "method-incomplete"}, inTest: true, complaints: []string{""},
		spoil: func(b *bench) { b.test.shut = true }},
	{name: "gauge-low", fits: piston, causes: []string{"gauge-reads-low"}, notices: []string{"gauge-reads-off", "all-low-check-the-test"}, inTest: true, complaints: []string{""},
		spoil: func(b *bench) { b.test.gauge = b.draw(0.62, 0.72) }},
	{name: "gauge-valve", fits: piston, causes: []string{"gauge-valve-leaks"}, notices: []string{"needle-falls-back", "all-low-check-the-test"}, inTest: true, complaints: []string{""},
		spoil: func(b *bench) { b.test.falls = true }},
	{name: "wrong-unit", fits: piston, causes: []string{"other-unit"}, notices: []string{"unit-suspect", "units-contradict"}, inTest: true, complaints: []string{""},
		spoil: func(b *bench) { b.test.unit = true }},
	{name: "decompressor", fits: func(m *machine) bool { return m.decompress }, causes: []string{"decompressor"}, notices: []string{"not-standard-method"}, inTest: true, complaints: []string{""},
		spoil: func(b *bench) { b.test.released, b.released = true, true }},
}

var mixtureFaults = []fault{
	{name: "coil", fits: both(several, spark), causes: []string{"own-spark", "coil-or-lead", "shared-coil", "weak-spark", "ignition"}, complaints: []string{"misfire"}, reads: []string{"plugs"},
		spoil: func(b *bench) {
			b.one().look = pick(b.rng, []string{"sooty", "fuel-wet"})
			b.truth.coil = b.hit[0]
		}},
	{name: "injector-poor", fits: func(m *machine) bool { return several(m) && ports(m) }, causes: []string{"own-injector", "dirty-injectors"}, complaints: []string{"misfire", "lean running"}, reads: []string{"plugs"},
		spoil: func(b *bench) {
			b.one().look = "white"
			b.truth.injector = b.hit[0]
		}},
	{name: "air-leak", fits: func(m *machine) bool { return valved(m) && spark(m) && m.fuel == "petrol" }, causes: []string{"air-leak", "manifold-gasket", "injector-seals"}, complaints: []string{"lean running", "hard start"}, reads: []string{"plugs", "fuel"},
		spoil: func(b *bench) {
			b.truth.airLeak = true
			b.soot("white", b.all())
		}},
	{name: "sensors-crossed", fits: func(m *machine) bool { return evenBanks(m) && ports(m) }, causes: []string{"sensors-crossed"}, complaints: []string{"rich running", "misfire"}, reads: []string{"plugs"},
		spoil: func(b *bench) {
			b.truth.crossed = true
			b.soot("sooty", b.banks[0])
			b.soot("white", b.banks[1])
		}},
	{name: "purge-valve", fits: func(m *machine) bool { return valved(m) && ports(m) && spark(m) }, causes: []string{"purge-valve"}, complaints: []string{"rich running"}, reads: []string{"plugs", "fuel"},
		spoil: func(b *bench) {
			b.truth.purge, b.truth.richEngine = true, true
			b.soot("sooty", b.all())
		}},
}

var fuelFaults = []fault{
	{name: "fuel-filter", fits: both(fuelled, pumped), causes: []string{"fuel-filter", "supply-restricted"}, complaints: []string{"lean running", "low power"}, reads: []string{"fuel"},
		spoil: func(b *bench) {
			b.truth.filter = true
			b.fuel.times(b.draw(0.72, 0.84), b.draw(0.55, 0.75))
			b.fuel.volume = b.draw(220, 340)
			b.lean()
		}},
	{name: "fuel-pump", fits: both(fuelled, pumped), causes: []string{"pump", "wrong-pump"}, complaints: []string{"lean running", "low power", "hard start"}, reads: []string{"fuel"},
		spoil: func(b *bench) {
			b.truth.pump = true
			b.fuel.times(b.draw(0.55, 0.75), 0.9)
			b.fuel.volume = b.draw(180, 330)
			b.lean()
		}},
	{name: "pump-voltage", fits: both(fuelled, pumped), causes: []string{"pump-voltage", "pump-circuit"}, complaints: []string{"lean running", "low power"}, reads: []string{"fuel"},
		spoil: func(b *bench) {
			b.truth.volts = true
			b.fuel.times(b.draw(0.6, 0.78), 0.9)
			b.fuel.volume = b.draw(220, 350)
			b.lean()
		}},
	{name: "no-pump", fits: both(fuelled, pumped), causes: []string{"pump-circuit", "pump-voltage"}, complaints: []string{"no start"}, reads: []string{"fuel"},
		spoil: func(b *bench) {
			b.truth.volts = true
			b.fuel.times(0, 1)
			b.fuel.volume, b.starts = 0, false
		}},
	{name: "regulator-open", fits: both(valved, returning), causes: []string{"regulator-open"}, complaints: []string{"lean running", "low power"}, reads: []string{"fuel"},
		spoil: func(b *bench) {
			b.truth.regulatorOpen = true
			pinched := b.fuel.pinched
			b.fuel.times(b.draw(0.55, 0.75), 0.98)
			b.fuel.pinched = pinched
			b.lean()
		}},
	{name: "regulator-stuck", fits: both(valved, returning), causes: []string{"regulator-stuck"}, complaints: []string{"rich running"}, reads: []string{"fuel"},
		spoil: func(b *bench) {
			b.truth.regulatorStuck, b.truth.richEngine = true, true
			high := b.fuel.usual * b.draw(1.3, 1.6)
			b.fuel.stands(high)
			b.soot("sooty", b.all())
		}},
	{name: "return-blocked", fits: both(valved, returning), causes: []string{"return-blocked"}, complaints: []string{"rich running"}, reads: []string{"fuel"},
		spoil: func(b *bench) {
			b.truth.returnBlocked, b.truth.richEngine = true, true
			high := b.fuel.usual * b.draw(1.4, 1.8)
			b.fuel.stands(high)
			b.soot("sooty", b.all())
		}},
	{name: "diaphragm-torn", fits: both(valved, returning), causes: []string{"regulator-diaphragm"}, complaints: []string{"rich running", "hard start"}, reads: []string{"fuel", "hose"},
		spoil: func(b *bench) {
			b.truth.torn, b.truth.richEngine, b.fuel.fuelInHose = true, true, true
			b.fuel.times(b.draw(0.88, 0.97), 1)
			b.fuel.pinched = 2 * b.fuel.usual
			b.fuel.held1, b.fuel.held5, b.fuel.held10 = 0.7, 0.4, 0.2
			b.soot("sooty", b.all())
		}},
	{name: "injector-leaking", fits: func(m *machine) bool { return several(m) && valved(m) && ports(m) }, causes: []string{"leaking-injector", "own-injector"}, complaints: []string{"hard start", "rich running"}, reads: []string{"fuel", "hold", "plugs"},
		spoil: func(b *bench) {
			b.fuel.held1, b.fuel.held5, b.fuel.held10 = b.draw(0.6, 0.8), b.draw(0.3, 0.5), 0.15
			b.one().look = pick(b.rng, []string{"fuel-wet", "sooty"})
			b.truth.injector, b.truth.drips = b.hit[0], true
		}},
	{name: "pump-check-valve", fits: both(valved, ports), causes: []string{"pump-check-valve"}, complaints: []string{"hard start"}, reads: []string{"fuel", "hold"},
		spoil: func(b *bench) {
			b.truth.checkValve = true
			b.fuel.held1, b.fuel.held5, b.fuel.held10 = b.draw(0.05, 0.4), b.draw(0, 0.1), 0
		}},
}

// lean whitens the plugs, as they look where fuel is short.
func (b *bench) lean() {
	if b.chance(0.7) {
		for i := range b.bores {
			b.bores[i].look = "white"
		}
	}
}

func isRotary(m *machine) bool    { return m.rotary() }
func isTwoStroke(m *machine) bool { return m.twoStroke }

// face lowers some faces of one rotor.
func (b *bench) face(n int, share float64) {
	r, first := b.rng.IntN(b.cylinders), b.rng.IntN(3)
	b.hit = append(b.hit, r)
	for k := range n {
		b.faces[r][(first+k)%3] *= share * b.draw(0.96, 1.04)
	}
}

var rotaryFaults = []fault{
	{name: "apex-seal", fits: isRotary, causes: []string{"apex-seal", "corner-seal"}, complaints: []string{"misfire", "hard start"},
		spoil: func(b *bench) {
			b.truth.apexSeal = true
			b.face(2, b.draw(0.25, 0.65))
		}},
	{name: "side-seal", fits: isRotary, causes: []string{"side-seal", "corner-seal"}, complaints: []string{"misfire", "hard start"},
		spoil: func(b *bench) { b.face(1, b.draw(0.5, 0.75)) }},
	{name: "rotor-worn", fits: isRotary, causes: []string{"rotor-wear"}, complaints: []string{"hard start", "low power"}, onset: "slow over months",
		spoil: func(b *bench) {
			b.truth.rotorWorn = true
			b.face(3, b.draw(0.62, 0.78))
		}},
	{name: "rotary-flooded", fits: isRotary, causes: []string{"flooding", "washed-bore"}, complaints: []string{"no start"}, reads: []string{"plugs"},
		spoil: func(b *bench) {
			b.truth.flooded, b.starts = true, false
			for i := range b.faces {
				for k := range b.faces[i] {
					b.faces[i][k] *= b.draw(0.5, 0.65)
				}
				b.bores[i].look = "fuel-wet"
			}
		}},
}

var twoStrokeFaults = []fault{
	{name: "two-stroke-rings", fits: isTwoStroke, causes: []string{"rings", "scored-bore", "piston", "wear", "broken-ring-land"}, complaints: []string{"hard start", "low power"},
		spoil: func(b *bench) { b.one().rings = b.draw(0.5, 2) }},
	{name: "two-stroke-crank-seal", fits: isTwoStroke, causes: []string{"crankcase-seal", "air-leak"}, complaints: []string{"lean running", "hard start"}, reads: []string{"plugs"},
		spoil: func(b *bench) {
			b.truth.crankSeal = true
			b.one().look = "white"
		}},
	{name: "two-stroke-gasket", fits: isTwoStroke, causes: []string{"head-gasket", "warped-or-cracked-head"}, complaints: []string{"hard start", "low power", "noise"},
		spoil: func(b *bench) { b.one().outside = b.draw(0.5, 2) }},
}
