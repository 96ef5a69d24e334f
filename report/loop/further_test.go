package loop_test

import (
	"fmt"
	"strings"
)

// furtherTruths are what is wrong where only a further test looks.
type furtherTruths struct {
	bearings, oilLow, relief, sender bool
	exhaustBlocked, lateSpark        bool
	springs                          bool
	capWeak, outsideLeak             bool
	breather                         bool
	egr, reed, slow                  bool
	returns, glow                    int // a diesel's cylinder, -1 none
	magneto                          magnetoTruth
}

// A furtherTest is one that the simulator can make beside the first four, as
// the value of its section in the job file.
type furtherTest struct {
	section string
	fits    func(*bench) bool
	take    func(*bench) string
}

func runningEngine(b *bench) bool { return b.starts && b.valves() }

// furtherTests stand in the order of the bench. Ordinary figures are common
// practice, no source.
var furtherTests = []furtherTest{
	{"oil-pressure", runningEngine, (*bench).oilPressure},
	{"starting", func(b *bench) bool { return b.valves() && b.cylinders > 2 && !b.test.battery }, (*bench).startingCurrent},
	{"vacuum", func(b *bench) bool { return runningEngine(b) && !b.diesel() && b.cylinders > 2 }, (*bench).vacuum},
	{"balance", func(b *bench) bool { return runningEngine(b) && !b.diesel() && !b.flies && b.cylinders > 2 }, (*bench).balance},
	{"magnetos", func(b *bench) bool { return b.flies && b.starts }, (*bench).magnetos},
	{"heads", func(b *bench) bool { return b.flies && b.starts }, (*bench).headsRead},
	{"trims", func(b *bench) bool {
		return runningEngine(b) && (b.system == portReturn || b.system == portNoReturn || b.system == directLow)
	}, (*bench).trims},
	{"crankcase", runningEngine, (*bench).crankcase},
	{"back-pressure", func(b *bench) bool { return runningEngine(b) && b.cylinders > 2 }, (*bench).backPressure},
	{"timing", func(b *bench) bool { return runningEngine(b) && b.system == carburettor }, (*bench).timingLight},
	{"cooling", func(b *bench) bool { return b.valves() && !b.air }, (*bench).cooling},
	{"valves", func(b *bench) bool { return b.valves() && b.lifter == "solid" }, (*bench).clearances},
	{"diesel", func(b *bench) bool { return b.diesel() }, (*bench).dieselTests},
}

// takeFurther makes a further test and writes it into the job.
func (b *bench) takeFurther(section string) bool {
	for _, t := range furtherTests {
		if t.section == section && t.fits(b) {
			b.job.further[section] = t.take(b)
			return true
		}
	}
	return false
}

func (b *bench) oilPressure() string {
	idle, fast := 24.0, 48.0
	level, gauge := "right", "screwed in"
	f := &b.truth.further
	switch {
	case f.bearings:
		idle, fast = 5, 19
	case f.oilLow:
		idle, fast, level = 7, 30, "low"
	case f.relief:
		idle, fast = 8, 12
	case f.sender:
		idle, fast, gauge = 4, 9, "dash"
	}
	return fmt.Sprintf("{unit: psi, gauge: %s, oil: {level: %s, smell: none}, idle: %.0f, at-speed: {2000 rpm: %.0f}, limits: {idle: at least 10 psi, 2000 rpm: at least 30 psi, source: \"service manual, p. 3\"}}",
		gauge, level, idle*b.noise(0.05), fast*b.noise(0.05))
}

// startingCurrent gives the peaks of the starter's current, which go with the
// pressure that each cylinder holds.
func (b *bench) startingCurrent() string {
	peaks := map[int]float64{}
	for i := range b.bores {
		c := &b.bores[i]
		peaks[i] = 180 * c.scatter * c.breath * c.filled * lost(c.leak()) * b.noise(0.02)
	}
	speed, volts := 215, 10.6
	if b.truth.further.slow {
		speed, volts = 115, 9.2
	}
	return fmt.Sprintf("{cranking: %d rpm, battery: {rest: 12.6 V, cranking: %.1f V}, peaks: %s}", speed, volts, byCylinder(b.machine, peaks, func(v float64) string { return fmt.Sprintf("%.0f", v) }))
}

// vacuum is what the manifold's gauge shows at idle, on a closing throttle and
// held at a speed.
func (b *bench) vacuum() string {
	idle, shut, needle, held, extra := 19.2, 24.0, "steady", 19.5, ""
	if b.truth.camOff {
		idle -= 5.5 * float64(len(b.hit)) / float64(b.cylinders)
	}
	if b.truth.airLeak {
		idle -= 5
	}
	if b.truth.further.lateSpark {
		idle -= 3.5
	}
	if b.truth.further.egr {
		idle, held = idle-5, held-4
	}
	worn := 0.0
	for i := range b.bores {
		worn += b.bores[i].rings / float64(b.cylinders)
	}
	idle -= 4 * min(1, worn)
	if worn > 0.3 {
		shut = idle + 1
	}
	later := held
	if b.truth.further.exhaustBlocked {
		later = 10.5
	}
	if b.misses() >= 0 {
		needle, extra = "drops regularly", ", by: 4"
	}
	swings := ""
	if b.truth.further.springs {
		swings = ", with-speed: swings wider"
	}
	return fmt.Sprintf("{unit: inHg, engine: warm, idle: {reading: %.1f, at: 750 rpm, needle: %s%s}, snap: {open: 1, shut: %.0f}, held: {at: 2500 rpm, reading: %.1f, later: %.1f, after: 20 s}%s}",
		idle*b.noise(0.02), needle, extra, shut, held, later, swings)
}

// misses is a cylinder that pulls less than the others, -1 for none.
func (b *bench) misses() int {
	if b.truth.coil >= 0 {
		return b.truth.coil
	}
	if len(b.hit) == b.cylinders {
		return -1
	}
	for i := range b.bores {
		if c := &b.bores[i]; c.leak() > 0.4 || c.breath < 0.75 {
			return i
		}
	}
	return -1
}

// pull is the share of its work that a cylinder does.
func (b *bench) pull(i int) float64 {
	c := &b.bores[i]
	share := lost(c.leak()) * c.breath
	switch {
	case b.truth.coil == i:
		share = 0.02
	case b.truth.injector == i && !b.truth.drips:
		share = 0.45
	}
	return share
}

func (b *bench) balance() string {
	drops := map[int]float64{}
	for i := range b.bores {
		drops[i] = max(0, 90*b.pull(i)*b.noise(0.06))
	}
	return fmt.Sprintf("{at: 1000 rpm, off-by: coil, idle-control: held, drop: %s}", byCylinder(b.machine, drops, func(v float64) string { return fmt.Sprintf("%.0f", v) }))
}

// trims are what the computer adds at idle and at speed, in percent, by bank.
func (b *bench) trims() string {
	t := &b.truth
	idle, speed := 1.0, 1.0
	switch {
	case t.airLeak:
		idle, speed = 18, 3
	case t.filter || t.pump || t.volts || t.regulatorOpen:
		idle, speed = 7, 17
	case t.richEngine || t.drips:
		idle, speed = -17, -12
	}
	banks := []float64{idle}
	fast := []float64{speed}
	if b.twoBanks() {
		banks, fast = []float64{idle, idle}, []float64{speed, speed}
		if t.crossed { // each is corrected by what the other burns: the bank that gets more is the sooty one
			banks, fast = []float64{18, -19}, []float64{17, -16}
		}
	}
	write := func(of []float64) string {
		parts := make([]string, len(of))
		for i, v := range of {
			parts[i] = fmt.Sprintf("bank %d: {short: %.0f, long: %.0f}", i+1, v*0.25, v*0.75+b.draw(-1, 1))
		}
		return "{" + strings.Join(parts, ", ") + "}"
	}
	return "{idle: " + write(banks) + ", 2500 rpm: " + write(fast) + "}"
}

// crankcase is its pressure with the ventilation connected: what passes the
// rings of all cylinders is more than it draws off.
func (b *bench) crankcase() string {
	blow := b.blowBy()
	idle, fast := -1.5+4*blow, -1+9*blow
	if b.truth.further.breather {
		idle, fast = 1.8, 5
	}
	return fmt.Sprintf("{unit: inH2O, ventilation: connected, readings: {idle: %.1f, 2500 rpm: %.1f}, limits: {2500 rpm: at most 1, source: \"service manual, p. 21\"}}", min(12, idle), min(20, fast))
}

// blowBy is what passes the rings of a cylinder, on the average.
func (b *bench) blowBy() float64 {
	sum := 0.0
	for i := range b.bores {
		sum += b.bores[i].rings + b.bores[i].hole + b.bores[i].dry
	}
	return sum / float64(b.cylinders)
}

func (b *bench) backPressure() string {
	idle, fast := 0.3, 1.1
	if b.truth.further.exhaustBlocked {
		idle, fast = 1.6, 7
	}
	return fmt.Sprintf("{unit: psi, at: before catalyst, idle: %.1f, 2500 rpm: %.1f, limits: {2500 rpm: at most 3 psi, source: \"service manual, p. 60\"}}", idle, fast*b.noise(0.1))
}

func (b *bench) timingLight() string {
	base := 8.0
	if b.truth.further.lateSpark {
		base = -4
	}
	side := "before"
	if base < 0 {
		base, side = -base, "after"
	}
	return fmt.Sprintf("{base: %.0f deg %s at 700 rpm, vacuum-line: off, limits: {base: 6-10 deg before, source: \"service manual, p. 31\"}}", base, side)
}

// cooling is the cold system pumped up and watched.
func (b *bench) cooling() string {
	leak, wet := 0.0, ""
	for i := range b.bores {
		if c := &b.bores[i]; c.coolant > leak {
			leak = c.coolant
			if c.coolant > 0.25 {
				wet = b.cylinderName(i)
			}
		}
	}
	held, seen := 15.0, "dry"
	switch {
	case b.truth.further.outsideLeak:
		held, seen = 8, "outside at the pump"
	case leak > 0:
		held = 15 - min(9, 4+12*leak)
		if wet != "" {
			seen = "wet in " + wet
		}
	}
	opens := 14.8
	if b.truth.further.capWeak {
		opens = 8
	}
	return fmt.Sprintf("{cap: {rated: 15 psi, opens: %.1f psi}, pressure-test: {unit: psi, pumped-to: 15, hold: {5 min: %.0f}, plugs-out: yes, seen: %s}}", opens, held, seen)
}

func (b *bench) clearances() string {
	inlet, exhaust := map[int]string{}, map[int]string{}
	for i := range b.bores {
		inlet[i], exhaust[i] = fmt.Sprintf("%.2f", b.draw(0.17, 0.23)), fmt.Sprintf("%.2f", b.draw(0.27, 0.33))
		if c := &b.bores[i]; c.tight && c.exhaust >= c.inlet {
			exhaust[i] = "none"
		} else if c.tight {
			inlet[i] = "none"
		}
	}
	same := func(s string) string { return s }
	return fmt.Sprintf("{unit: mm, engine: cold, inlet: %s, exhaust: %s, limits: {inlet: 0.15-0.25, exhaust: 0.25-0.35, source: \"service manual, p. 15\"}}", byCylinder(b.machine, inlet, same), byCylinder(b.machine, exhaust, same))
}

func (b *bench) dieselTests() string {
	back, glow := map[int]float64{}, map[int]string{}
	for i := range b.bores {
		back[i], glow[i] = 11*b.noise(0.08), fmt.Sprintf("%.1f", b.draw(0.6, 0.8))
		if b.truth.further.returns == i {
			back[i] = 48
		}
		if b.truth.further.glow == i {
			glow[i] = "open"
		}
	}
	return fmt.Sprintf("{return: {unit: ml, in: 15 s, at: cranking, cylinders: %s}, glow: %s}", byCylinder(b.machine, back, func(v float64) string { return fmt.Sprintf("%.0f", v) }), byCylinder(b.machine, glow, func(s string) string { return s }))
}
