package loop_test

import (
	"maps"
	"slices"
	"strings"
)

// An answer is the outcome of a check that no reading of the job file holds:
// the first or the second of the sheet's own outcomes, and words by which one
// of several is known. An answer without words stands in the readings.
type answer struct {
	so    bool
	words []string
}

var inReadings = answer{}

// answers make a check on some cylinders (none named: all) and give its
// outcome.
var answers = map[string]func(b *bench, on []int) answer{}

func init() {
	maps.Copy(answers, sealingAnswers)
	maps.Copy(answers, testAnswers)
	maps.Copy(answers, mixtureAnswers)
	maps.Copy(answers, fuelAnswers)
	maps.Copy(answers, furtherAnswers)
	maps.Copy(answers, magnetoAnswers)
}

// carryOut makes the check that the sheet asks for and enters its outcome. It
// reports false where the simulator does not know the check.
func (b *bench) carryOut(c *nextCheck) bool {
	check, knows := answers[c.Name]
	a := answer{}
	if !b.told() && (asksOfFuel(c.Name) || slices.Contains(onInjects, c.Name) || slices.Contains(byTrims, c.Name)) {
		b.takeFuel() // whoever goes there sees what system it has
	}
	if knows {
		a = check(b, b.cylindersOf(c))
	} else {
		a.words = []string{"no difference"}
	}
	if a.words != nil {
		b.job.workDone = append(b.job.workDone, c.Name+" done"+b.where(c)+": "+a.written(c, b.copies))
	}
	return knows
}

// where names the cylinders of a check.
func (b *bench) where(c *nextCheck) string {
	if len(c.Cylinders) == 0 || len(c.Cylinders) == b.cylinders {
		return ""
	}
	return " on " + strings.Join(c.Cylinders, " and ")
}

func (b *bench) cylindersOf(c *nextCheck) []int {
	var on []int
	for _, i := range b.all() {
		if slices.Contains(c.Cylinders, b.cylinderName(i)) {
			on = append(on, i)
		}
	}
	return on
}

// written is the outcome as the mechanic notes it: by its name, or in the page's own
// words.
func (a answer) written(c *nextCheck, copies bool) string {
	name := a.said(c)
	for _, o := range c.Outcomes {
		if copies && o.Name == name {
			return strings.ToLower(o.If)
		}
	}
	return name
}

// said is the outcome as the sheet names it: the outcome nearest to the
// answer's words, else the first words of what the sheet says of it.
func (a answer) said(c *nextCheck) string {
	for _, w := range a.words {
		for _, o := range c.Outcomes {
			if o.Name == w {
				return o.Name
			}
		}
	}
	for _, w := range a.words {
		for _, o := range c.Outcomes {
			if o.Name != "" && (strings.Contains(o.Name, w) || strings.Contains(strings.ToLower(o.If), w)) {
				return o.Name
			}
		}
	}
	if len(c.Outcomes) > 1 {
		o := c.Outcomes[0]
		if !a.so {
			o = c.Outcomes[len(c.Outcomes)-1]
		}
		if o.Name != "" {
			return o.Name
		}
	}
	text := c.IfNot
	if a.so {
		text = c.IfSo
	}
	first, _, _ := strings.Cut(text, ":")
	return first
}

// anyOf reports that one of some cylinders is so; none named is all.
func (b *bench) anyOf(on []int, is func(*bore) bool) bool {
	if len(on) == 0 {
		on = b.all()
	}
	return slices.ContainsFunc(on, func(i int) bool { return is(&b.bores[i]) })
}

// suspects are the cylinders named, else those that read low, else all.
func (b *bench) suspects(on []int) []int {
	if len(on) == 0 {
		on = b.lowOnes()
	}
	if len(on) == 0 {
		on = b.all()
	}
	return on
}

func yes(so bool, soWords, notWords string) answer {
	if so {
		return answer{true, strings.Split(soWords, "|")}
	}
	return answer{false, strings.Split(notWords, "|")}
}

var sealingAnswers = map[string]func(b *bench, on []int) answer{
	"wet-test":        (*bench).takeWet,
	"repeat-wet":      (*bench).takeWetAgain,
	"leak-down":       (*bench).takeLeakDown,
	"leak-down-pair":  (*bench).takeLeakDown,
	"leak-down-again": (*bench).takeLeakDownAgain,
	"leak-place":      (*bench).takeLeakDown,
	"borescope":       (*bench).look,
	"scope-the-rest":  func(b *bench, _ []int) answer { return b.look(b.all()) },
	"second-look":     (*bench).look,
	"piston-height": func(b *bench, on []int) answer {
		return yes(b.anyOf(on, func(c *bore) bool { return c.short }), "one comes up less|less", map[bool]string{true: "water comes out|water", false: "all come up alike|alike"}[b.anyOf(on, func(c *bore) bool { return c.liquid })])
	},
	"soap-joints": func(b *bench, on []int) answer {
		return yes(b.anyOf(on, func(c *bore) bool { return c.outside > 0 }), "edge", "none")
	},
	"compression-test": func(b *bench, _ []int) answer {
		b.takeCompression(true)
		return inReadings
	},
	"complete-set": func(b *bench, _ []int) answer {
		for _, i := range b.all() {
			if b.job.untold[i] {
				b.job.dry[i] = b.dryReading(i, b.cylinders-1)
			}
		}
		clear(b.job.untold)
		return inReadings
	},
	"running-compression": func(b *bench, on []int) answer {
		for _, i := range b.all() {
			idle, snap := b.runningReading(i)
			b.job.running[i] = [2]float64{idle, snap}
		}
		return inReadings
	},
	"valve-lash": func(b *bench, on []int) answer {
		return yes(b.anyOf(on, func(c *bore) bool { return c.tight }), "tight", "right")
	},
	"set-and-retest": func(b *bench, on []int) answer {
		return yes(b.anyOf(on, func(c *bore) bool { return c.tight }), "it comes back", "it stays low")
	},
	"set-and-look-again": func(*bench, []int) answer { return yes(false, "it closes up again", "it stays") },
	"seat-and-retest": func(b *bench, on []int) answer {
		if b.anyOf(on, func(c *bore) bool { return c.motion && c.exhaust+c.inlet > 0 }) { // a spring, and no lobe
			return answer{false, []string{"it does not snap shut"}}
		}
		return yes(b.anyOf(on, func(c *bore) bool { return c.held }), "it seals", "it leaks as before")
	},
	"noise-source": func(b *bench, _ []int) answer {
		if b.truth.further.bearings {
			return answer{true, []string{"at the block"}}
		}
		if b.anyOf(nil, func(c *bore) bool { return c.filled > 1 && c.crown == "carbon" }) { // it pings as the engine pulls
			return answer{true, []string{"under load alone"}}
		}
		return yes(b.anyOf(nil, func(c *bore) bool { return c.motion || c.tight }), "at the head", "elsewhere")
	},
	"exhaust-restriction": func(b *bench, _ []int) answer { return yes(b.truth.further.exhaustBlocked, "restricted", "free") },
	"watch-valve-gear": func(b *bench, on []int) answer {
		return yes(b.anyOf(on, func(c *bore) bool { return c.motion || c.held && c.exhaust+c.inlet > 4 }), "one moves less", "all move alike")
	},
	"decompressor-look":     func(*bench, []int) answer { return yes(false, "", "it lets go") },
	"cam-timing-marks":      func(b *bench, _ []int) answer { return yes(b.truth.camOff, "off", "right") },
	"chain-slack":           func(*bench, []int) answer { return yes(false, "", "taut") },
	"turn-engine-check-cam": func(b *bench, _ []int) answer { return yes(!b.truth.camStill, "turns", "stands still") },
	"coolant-gas-test": func(b *bench, _ []int) answer {
		b.job.coolantGas = map[bool]string{true: "positive", false: "negative"}[b.truth.gasInCoolant]
		return inReadings
	},
	"cooling-pressure-test": func(b *bench, on []int) answer {
		return yes(b.anyOf(on, func(c *bore) bool { return c.coolant > 0 }), "coolant comes in|appears", "it holds")
	},
	"turn-by-hand": func(b *bench, on []int) answer {
		return yes(!b.anyOf(nil, func(c *bore) bool { return c.liquid }), "it turns freely|turns freely", "liquid comes out|liquid")
	},
	"smoke-on-overrun": func(b *bench, _ []int) answer {
		if !b.truth.guides && b.anyOf(nil, func(c *bore) bool { return c.rings > 0.3 }) {
			return answer{false, []string{"steady under load"}}
		}
		return yes(b.truth.guides, "a puff|then", "none")
	},
	"oil-consumption": func(b *bench, _ []int) answer {
		return yes(b.truth.guides || b.anyOf(nil, func(c *bore) bool { return c.rings > 0.3 }), "high", "low")
	},
	"exhaust-port-look": func(b *bench, on []int) answer {
		if b.truth.further.exhaustBlocked {
			return answer{true, []string{"narrowed by carbon"}}
		}
		return yes(b.anyOf(on, func(c *bore) bool { return c.rings > 0.3 }), "marks on piston or rings", "open and clean")
	},
	"exhaust-elbow-look": func(*bench, []int) answer { return yes(false, "", "dry and tight") },      // nor is any afloat
	"flywheel-key-look":  func(*bench, []int) answer { return yes(false, "", "whole and in place") }, // no engine of the simulator hit anything
	"reed-look":          func(b *bench, _ []int) answer { return yes(b.truth.further.reed, "one stands off", "all lie flat") },
	"crankcase-soap": func(b *bench, _ []int) answer {
		return yes(b.truth.crankSeal, "bubbles at a seal or joint", "none there")
	},
	"crankcase-hold": func(b *bench, _ []int) answer {
		return yes(b.truth.crankSeal || b.truth.further.reed, "falls", "holds")
	},
	"crankcase-vacuum": func(b *bench, _ []int) answer { return yes(b.truth.crankSeal, "vacuum falls", "vacuum holds") },
	"breather-and-oil-level": func(b *bench, _ []int) answer {
		return yes(b.truth.further.breather, "over-full or blocked", "both right")
	},
	"mend-found":       func(*bench, []int) answer { return yes(false, "", "still there") }, // the simulator finds nothing by eye
	"boost-hoses-look": func(*bench, []int) answer { return yes(false, "", "all are sound") },
	"guide-oil":        func(*bench, []int) answer { return yes(false, "", "no change") },
	"guide-play":       func(*bench, []int) answer { return yes(false, "", "all move freely") },
	"lobe-look": func(b *bench, on []int) answer {
		return yes(b.anyOf(on, func(c *bore) bool { return c.motion && c.exhaust+c.inlet == 0 }), "the lobe or its follower is worn", "both are good")
	},
	"look-up-ratio":      func(*bench, []int) answer { return yes(false, "", "8 to 1 or more") }, // the simulator has none of a low ratio
	"own-fuel-look":      func(*bench, []int) answer { return yes(false, "", "it was fed") },
	"flow-look":          func(*bench, []int) answer { return yes(false, "", "nothing is wrong there") },
	"exhaust-look":       func(*bench, []int) answer { return yes(false, "", "tight to its end") },    // nobody breathes what its engines give off
	"fins-look":          func(*bench, []int) answer { return yes(false, "", "clean and whole") },     // none of its engines is cooled by air alone and clogged
	"cooling-look":       func(*bench, []int) answer { return yes(false, "", "all as it should be") }, // no fault of the simulator's is in the cooling
	"timing-and-cooling": func(b *bench, _ []int) answer { return answer{false, []string{"all right", "right"}} },
}

func (b *bench) takeWet(on []int) answer {
	low := b.suspects(on)
	b.job.oilML = max(2, float64(int(b.eachML/100)))
	for _, i := range low {
		b.job.wet[i] = b.wetReading(i)
	}
	for i := range b.bores { // one good one as well
		if !slices.Contains(low, i) {
			b.job.wet[i] = b.wetReading(i)
			break
		}
	}
	return inReadings
}

// takeWetAgain uses half as much oil, and one cylinder that reads well with it.
func (b *bench) takeWetAgain(on []int) answer {
	b.takeWet(on)
	b.job.oilML = max(1, b.job.oilML/2)
	low := b.suspects(on)
	for _, i := range low {
		if b.job.wet[i] > 1.1*b.job.dry[i] && len(low) < b.cylinders {
			return yes(true, "rises", "")
		}
	}
	return yes(false, "", "tells nothing")
}

func (b *bench) takeLeakDown(on []int) answer {
	if len(on) == 0 { // asked of the engine
		on = b.all()
	}
	for _, i := range on {
		loss, at := b.loss(i)
		b.job.leaks[i] = leakEntry{loss, at}
	}
	return inReadings
}

// takeLeakDownAgain turns the engine first, which moves what lies on a seat;
// the first figures stay as they were.
func (b *bench) takeLeakDownAgain(on []int) answer {
	if b.anyOf(b.suspects(on), func(c *bore) bool { return c.held }) {
		return yes(true, "loses less|less", "")
	}
	b.takeLeakDown(on)
	return yes(false, "", "stays")
}

func (b *bench) look(on []int) answer {
	for _, i := range b.suspects(on) {
		c := &b.bores[i]
		b.job.views[i] = view{c.wall, c.crown, c.valves, c.seat}
	}
	return inReadings
}

// again reads the compression anew and tells whether some cylinder came up: a
// battery that fades lets the first ones read as they should.
func (b *bench) again(up, stay string) answer {
	before := b.read()
	b.takeCompression(true)
	if len(b.job.first) > 0 {
		b.takeFirst()
	}
	after := b.read()
	for i, v := range before {
		if v > 0 && after[i] > 1.07*v {
			return yes(true, up, stay)
		}
	}
	return yes(false, up, stay)
}

// read is all that was read of the compression.
func (b *bench) read() []float64 {
	var list []float64
	for _, i := range b.all() {
		list = append(list, b.job.dry[i])
	}
	for _, f := range b.job.faces {
		list = append(list, f[:]...)
	}
	return list
}

// properly makes the test by the book: what was wrong with its method goes,
// and what is wrong with the gauge stays.
func (b *bench) properly() {
	b.test.shut, b.test.battery = false, false
	j := b.job
	j.charger, j.plugsOut, j.strokes, j.cranking = true, "all", 6, 240
	j.crankVolts = 0
	if !b.diesel() {
		j.throttle = "open"
	}
	if b.starts {
		j.engine = "warm"
	}
}

var testAnswers = map[string]func(b *bench, on []int) answer{
	"repeat-with-charger": (*bench).charged,
	"charge-and-repeat":   (*bench).charged,
	"look-up-ratio":       func(b *bench, _ []int) answer { return yes(b.cr < 7, "a low ratio", "8 to 1 or more") },
	"repeat-method": func(b *bench, _ []int) answer {
		b.properly()
		return b.again("readings come up|come up", "they stay|stay")
	},
	"warm-retest": func(b *bench, _ []int) answer {
		if b.starts {
			b.job.engine = "warm"
		}
		return b.again("evens out|even", "stays apart|stay")
	},
	"second-gauge": func(b *bench, _ []int) answer {
		b.test.gauge, b.test.falls, b.test.unit = 1, false, false
		b.job.gauge, b.job.said = "dial B", ""
		if b.job.needle != "" {
			b.job.needle = "holds"
		}
		return b.again("reads higher|higher", "reads the same|same")
	},
	"look-at-the-gauge": func(b *bench, _ []int) answer {
		a := yes(b.test.unit, "another unit", "the same unit")
		b.test.unit, b.job.said = false, ""
		return a
	},
	"look-up-limit": func(b *bench, _ []int) answer { return yes(false, "", "it stands") },
	"look-for-decompressor": func(b *bench, _ []int) answer {
		b.job.decompressor = map[bool]string{true: "automatic", false: "none"}[b.released]
		return yes(b.released, "one is fitted", "there is none")
	},
	"dry-and-repeat": (*bench).oilAndAgain,
	"dry-chambers":   func(b *bench, _ []int) answer { return yes(b.truth.flooded, "comes up", "stays low") },
	"ports-look": func(b *bench, _ []int) answer {
		if b.truth.rotorWorn {
			return answer{false, []string{"the housing is scored"}}
		}
		return yes(b.truth.apexSeal, "a seal is broken or stuck", "the seals spring back")
	},
	"run-and-retest": (*bench).oilAndAgain,
	"face-peaks": func(b *bench, _ []int) answer {
		b.takeFaces()
		return yes(true, "same faces low|same face", "faces agree|agree")
	},
}
