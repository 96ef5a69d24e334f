package loop_test

import "slices"

// firstReadings are what a mechanic takes before the sheet is first made.
func (b *bench) firstReadings(further float64) {
	j := newJobFile(b.machine)
	b.job = j
	f := b.fault
	if c := pick(b.rng, f.complaints); c != "" {
		j.complaints = []string{c}
	}
	if !b.starts {
		j.complaints = []string{"no start"}
	}
	if b.chance(0.6) {
		j.onset = f.onset
	}
	if slices.Contains(j.complaints, "oil use") && b.chance(0.5) {
		j.oilUse = "1 l in 1000 km"
	}
	if b.truth.guides && b.chance(0.5) {
		j.smoke = "{colour: blue, when: [start, overrun]}"
	}
	if b.truth.dryBores || slices.Contains(j.complaints, "stood") {
		j.stood = pick(b.rng, []string{"9 months", "18 months", "3 years"})
	}
	b.conditions()
	b.minimum()
	fuelFault := slices.Contains(f.reads, "fuel")
	if !fuelFault || b.chance(0.75) {
		b.takeCompression(f.name == sound.name || b.chance(0.92))
	}
	if b.chance(0.3) && !b.rotary() {
		b.takeFirst()
	}
	if b.chance(0.6) || slices.Contains(f.reads, "plugs") {
		b.takePlugs()
	}
	if b.system != "" && (fuelFault || b.chance(0.2)) {
		b.takeFuel()
		if slices.Contains(f.reads, "hold") || b.chance(0.3) {
			b.takeHold()
		}
		if b.fuel.reference && (slices.Contains(f.reads, "hose") && b.chance(0.5) || b.chance(0.2)) {
			b.takeHose()
		}
	}
	j.fuelless = b.chance(0.12)
	for _, t := range furtherTests { // last, so that the engines are the same with and without
		if further >= 0 && slices.Contains(f.reads, t.section) || b.rng.Float64() < further {
			b.takeFurther(t.section)
		}
	}
}

// conditions are written down as a rule, each of them sometimes not.
func (b *bench) conditions() {
	j := b.job
	set := func(field *string, value string) {
		if b.chance(0.9) {
			*field = value
		}
	}
	set(&j.engine, "warm")
	if !b.starts {
		j.engine = "cold"
	}
	set(&j.plugsOut, "all")
	if !b.diesel() {
		set(&j.throttle, "open")
		if b.test.shut {
			j.throttle = pick(b.rng, []string{"closed", "not sure", ""})
		}
	}
	if b.test.falls && b.chance(0.7) {
		j.needle = "falls back"
	} else if !b.test.falls && b.chance(0.4) {
		j.needle = "holds"
	}
	if b.chance(0.9) {
		j.strokes = 6
	}
	if b.chance(0.5) {
		j.cranking = 220 + b.rng.IntN(40)
	}
	if b.truth.further.slow {
		j.cranking = 90 + b.rng.IntN(40)
	}
	if b.test.battery {
		j.cranking = 0
		if b.chance(0.3) {
			j.crankVolts = 8.9
		}
	} else if b.chance(0.5) {
		j.crankVolts = b.draw(10.2, 11.2)
		j.charger = b.chance(0.5)
	}
	if b.chance(0.25) && b.usual < 280 {
		j.unit = "bar"
	}
}

// minimum is the book's least pressure, for most jobs.
func (b *bench) minimum() {
	if b.chance(0.65) {
		b.job.minimum = float64(int(0.75*b.usual/5)) * 5
	}
}

// takeCompression reads every cylinder, or all but one.
func (b *bench) takeCompression(all bool) {
	j := b.job
	if b.rotary() {
		b.takeFaces()
		return
	}
	j.order = nil
	j.dry, j.untold = map[int]float64{}, map[int]bool{}
	for _, bank := range b.banks {
		j.order = append(j.order, bank...)
	}
	skip := -1
	if !all && b.cylinders > 3 {
		skip = b.rng.IntN(b.cylinders)
	}
	for place, i := range j.order {
		if i == skip {
			j.untold[i] = true
			continue
		}
		j.dry[i] = b.dryReading(i, place)
	}
	if b.test.unit { // the figures are bar, and the job says psi
		j.unit, j.said = "bar", "psi"
	}
}

// takeFirst reads the first strokes of what was read.
func (b *bench) takeFirst() {
	for _, i := range b.all() {
		if v, read := b.job.dry[i]; read {
			b.job.first[i] = b.firstReading(i, v)
		}
	}
}

func (b *bench) takeFaces() {
	j := b.job
	j.facesCranking = 245 + b.rng.IntN(10)
	j.faces = make([][3]float64, b.cylinders)
	for i, f := range b.faces {
		for k := range f {
			j.faces[i][k] = f[k] * b.usual / 14.223 * b.noise(0.008)
		}
	}
}

func (b *bench) takePlugs() {
	if b.diesel() {
		return
	}
	for i := range b.bores {
		b.job.looks[i] = b.bores[i].look
	}
}

// takeFuel reads the pressures that the system and the engine allow.
func (b *bench) takeFuel() {
	j, f := b.job, &b.fuel
	if b.system == "" {
		j.noFuel = true
		return
	}
	if !f.mechanical && b.system != dieselLift {
		j.fuel["key-on"] = f.keyOn * b.noise(0.01)
	}
	if !b.starts {
		return
	}
	j.fuel["idle"] = f.idle * b.noise(0.01)
	if f.reference {
		j.fuel["hose-off"] = f.hoseOff * b.noise(0.01)
	}
	if b.system != dieselLift && b.chance(0.6) {
		j.fuel["snap"] = f.snap * b.noise(0.01)
	}
}

func (b *bench) takeHold() {
	j, f := b.job, &b.fuel
	if f.mechanical || b.system == "" || b.system == dieselLift {
		b.takeFuel() // which says what system it has
		return
	}
	base := f.keyOn
	if b.starts && f.reference {
		base = f.hoseOff
	}
	j.hold["1 min"], j.hold["5 min"] = base*f.held1*b.noise(0.01), base*f.held5*b.noise(0.01)
	if b.chance(0.5) {
		j.hold["10 min"] = base * f.held10 * b.noise(0.01)
	}
}

func (b *bench) takeHose() {
	if !b.fuel.reference {
		b.takeFuel()
		return
	}
	b.job.inHose = "no"
	if b.fuel.fuelInHose {
		b.job.inHose = "yes"
	}
}
