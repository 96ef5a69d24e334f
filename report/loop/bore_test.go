package loop_test

import (
	"math"
	"math/rand/v2"
	"slices"
)

// A bore is the state of one cylinder. A leak is its flow beside that of the
// tester's orifice: 1 loses half of the air.
type bore struct {
	rings   float64 // past rings, bore and piston, that oil seals
	hole    float64 // into the crankcase, that oil does not seal
	exhaust float64
	inlet   float64
	coolant float64
	across  float64 // to the cylinder beside it
	outside float64
	dry     float64 // past rings for want of oil
	breath  float64 // share of its charge that it takes in
	filled  float64 // pressure with carbon or liquid in the chamber beside that without
	scatter float64 // its own difference from the usual
	look    string  // its plug
	held    bool    // its leak at a valve is something on the seat, and goes when turned
	wall    string  // what a camera shows, "" good
	crown   string
	valves  string
	seat    string
	tight   bool // lash
	motion  bool // a valve moves less
	liquid  bool
	short   bool // its rod is bent, and its piston comes up less high
}

const tightLeak = 0.06 // a sound cylinder loses about 6 %

// leak is all that a cylinder loses, held still.
func (b *bore) leak() float64 {
	return tightLeak + b.rings + b.hole + b.exhaust + b.inlet + b.coolant + b.across + b.outside + b.dry
}

// An engine on the bench: its state, and what was done to the test.
type bench struct {
	*machine
	rng   *rand.Rand
	fault *fault
	bores []bore
	faces [][3]float64 // rotary: share of the usual pressure
	fuel  fuelState
	test  testState
	truth truths
	job   *jobFile
	hit   []int // the cylinders that the fault is on
	// copies: what a check showed is noted in the words of the page.
	copies bool
}

// testState is what is wrong with the test itself.
type testState struct {
	shut     bool    // throttle or choke
	battery  bool    // fades with every cylinder
	gauge    float64 // what the gauge reads of the true pressure
	falls    bool    // the gauge's valve leaks
	released bool    // decompressor at work
	unit     bool    // figures in another unit than the job says
}

// truths are the answers of checks that readings do not give.
type truths struct {
	camOff, camStill                      bool
	gasInCoolant                          bool
	coil, injector                        int // cylinder, -1 none
	airLeak, crossed, purge, guides       bool
	drips                                 bool // an injector
	flooded, dryBores, crankSeal          bool
	apexSeal, rotorWorn                   bool
	restricted                            bool
	filter, pump, volts                   bool
	regulatorOpen, regulatorStuck, torn   bool
	returnBlocked, checkValve, richEngine bool

	further furtherTruths
}

func newBench(r *rand.Rand, m *machine, f *fault) *bench {
	b := &bench{machine: m, rng: r, fault: f, bores: make([]bore, m.cylinders), test: testState{gauge: 1}, truth: truths{coil: -1, injector: -1, further: furtherTruths{returns: -1, glow: -1}}}
	level := between(r, 0.95, 1.03) // of this engine, beside the usual one
	for i := range b.bores {
		b.bores[i] = bore{breath: 1, filled: 1, scatter: level * (1 + 0.018*r.NormFloat64()), look: "normal", rings: max(0, 0.02*r.NormFloat64())}
	}
	if m.rotary() {
		b.faces = make([][3]float64, m.cylinders)
		for i := range b.faces {
			for k := range b.faces[i] {
				b.faces[i][k] = level * (1 + 0.015*r.NormFloat64())
			}
		}
	}
	b.copies = int(m.eachML)%3 == 0
	b.fuel = newFuel(m)
	m.well = f.name == sound.name || f.inTest
	f.spoil(b)
	slices.Sort(b.hit)
	return b
}

// lost is the share of the pressure that a leak leaves when cranking.
func lost(leak float64) float64 { return 1 / (1 + 0.95*max(0, leak-tightLeak)) }

// dryReading is a cranking reading in psi; place is when it is tested, from 0.
func (b *bench) dryReading(i, place int) float64 {
	c := &b.bores[i]
	v := b.usual * c.scatter * c.breath * c.filled * lost(c.leak()) * b.method(place) * b.noise(0.008)
	if !b.diesel() {
		v = min(v, 300) // the end of the gauge's scale
	}
	return v
}

// wetReading is the same with oil: it seals what passes the rings for the most
// part, and takes a little of the chamber.
func (b *bench) wetReading(i int) float64 {
	c := b.bores[i]
	dose := between(b.rng, 1.01, 1.06)
	if b.oilTells() {
		c.rings *= 0.2
		c.dry *= 0.1
	}
	return b.usual * c.scatter * c.breath * c.filled * dose * lost(c.leak()) * b.method(0) * b.noise(0.01)
}

// firstReading is the first stroke's: a leak past the rings builds slowly, a
// leak at a valve is nearly all there is at once.
func (b *bench) firstReading(i int, final float64) float64 {
	c := &b.bores[i]
	share := 0.58
	past, valve := c.rings+c.dry, c.exhaust+c.inlet+c.across+c.hole+c.coolant
	share *= 1 - 0.4*math.Min(1, past)
	share += (0.92 - share) * math.Min(1, valve)
	if b.test.falls {
		share = 0.88
	}
	return final * share * b.noise(0.03)
}

// method is what the way of testing takes from a reading.
func (b *bench) method(place int) float64 {
	f := b.test.gauge
	if b.test.shut {
		f *= 0.68
	}
	if b.test.battery {
		f *= 0.99 - 0.035*float64(place)*min(1, 6/float64(b.cylinders))
	}
	if b.test.falls {
		f *= 0.66
	}
	if b.test.released {
		f *= 0.42
	}
	return f
}

// noise is a factor near 1.
func (b *bench) noise(share float64) float64 { return 1 + share*b.rng.NormFloat64() }

// loss is a leak-down reading: percent, and where the air is heard.
func (b *bench) loss(i int) (float64, []string) {
	c := &b.bores[i]
	leak := c.leak()
	percent := 100 * leak / (1 + leak) * b.noise(0.06)
	type place struct {
		name string
		leak float64
	}
	crankcase := c.rings + c.dry + c.hole
	places := []place{{"crankcase", crankcase}, {"exhaust", c.exhaust}, {"inlet", c.inlet}, {"coolant", c.coolant}, {"neighbour", c.across}, {"outside", c.outside}}
	if b.twoStroke { // the port lies behind the piston's rings, and opens into the exhaust
		places[0].name = "exhaust"
	}
	var heard []string
	for _, p := range places {
		if p.leak > 0.05 && p.leak > 0.15*(leak-tightLeak) && !slices.Contains(heard, p.name) {
			heard = append(heard, p.name)
		}
	}
	if heard == nil {
		heard = []string{places[0].name} // some is always heard past the rings
	}
	return min(99, max(1, percent)), heard
}

// runningReading gives the compression at idle and at a snap of the throttle.
// At idle about half the cranking figure, at a snap about 80 % (common
// practice, no source).
func (b *bench) runningReading(i int) (idle, snap float64) {
	c := &b.bores[i]
	full := b.usual * c.scatter * c.filled * lost(c.leak())
	idle, snap = 0.5*full*c.breath, 0.8*full*c.breath
	if b.truth.restricted || c.motion { // it tells where much air is wanted
		snap *= 0.75
	}
	return idle * b.noise(0.04), snap * b.noise(0.04)
}

// lowOnes are the cylinders that read under 85 % of the best, as entered.
func (b *bench) lowOnes() []int {
	best := 0.0
	for _, v := range b.job.dry {
		best = max(best, v)
	}
	var low []int
	for i := range b.bores {
		if v, read := b.job.dry[i]; read && v < 0.85*best {
			low = append(low, i)
		}
	}
	return low
}
