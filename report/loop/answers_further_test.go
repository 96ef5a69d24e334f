package loop_test

import "slices"

// taken makes a further test that the sheet asks for; its outcome stands in the
// readings.
func taken(section string) func(*bench, []int) answer {
	return func(b *bench, _ []int) answer {
		b.takeFurther(section)
		return inReadings
	}
}

var furtherAnswers = map[string]func(b *bench, on []int) answer{
	"oil-level":         taken("oil-pressure"),
	"oil-pressure-test": taken("oil-pressure"),
	"egr-shut": func(b *bench, _ []int) answer {
		return yes(b.truth.further.egr, "smooth with it shut off", "no change")
	},
	"vacuum-test":      taken("vacuum"),
	"drive-plate-look": func(*bench, []int) answer { return yes(false, "", "sound and tight") },
	"belt-off":         func(*bench, []int) answer { return yes(false, "", "still there") },
	"crankcase-pressure-test": func(b *bench, _ []int) answer {
		return yes(b.blowBy() > 0.15, "over its limit", "within its limit")
	},
	"cylinder-balance": taken("balance"),
	"own-oil-gauge": func(b *bench, _ []int) answer {
		return yes(b.truth.further.sender, "reads right", "reads the same")
	},
	"maker-oil-figure": func(*bench, []int) answer { return yes(false, "", "more than was read") },
	"oil-gauge-hand": func(b *bench, _ []int) answer {
		return yes(b.truth.further.sender, "the sender is wrong", "the sender is right")
	},
	"fill-to-the-mark": func(b *bench, _ []int) answer {
		return yes(b.truth.further.oilLow, "pressure comes back", "it stays low")
	},
	"oil-grade-look": func(*bench, []int) answer { return yes(false, "", "as the book has it") },
	"fresh-oil":      func(*bench, []int) answer { return yes(false, "", "stays low") },
	"relief-valve-look": func(b *bench, _ []int) answer {
		return yes(b.truth.further.relief, "stuck or worn", "moves freely")
	},
	"sump-off": func(b *bench, _ []int) answer {
		return yes(b.truth.further.bearings, "bearings worn", "bearings good")
	},
	"compressor-unloaded": func(*bench, []int) answer { return yes(false, "", "it stays") },
	"crank-run-out":       func(*bench, []int) answer { return yes(false, "", "runs true") },
	"turbo-look":          func(*bench, []int) answer { return yes(false, "", "dry and firm") },
	"fuel-pump-off":       func(*bench, []int) answer { return yes(false, "", "dry") },
	"strainer-look":       func(*bench, []int) answer { return yes(false, "", "it is clear") },
	"filter-cut": func(b *bench, _ []int) answer {
		return yes(b.truth.further.bearings, "metal in it", "no metal")
	},
	"oil-analysis":            func(*bench, []int) answer { return yes(false, "", "only oil") },
	"read-again":              func(*bench, []int) answer { return yes(false, "", "it stands") },
	"exhaust-filter-readings": func(*bench, []int) answer { return yes(false, "", "lets the gas through") }, // none of its engines has one
	"exhaust-joint": func(b *bench, _ []int) answer {
		return yes(b.truth.further.exhaustBlocked, "pulls better", "no change")
	},
	"starter-circuit": func(b *bench, _ []int) answer {
		return yes(b.truth.further.slow, "the battery falls", "both are good")
	},
	"starter-circuit-by-hand": func(*bench, []int) answer { return yes(false, "", "turns freely") },
	"timing-light": func(b *bench, _ []int) answer {
		return yes(b.truth.further.lateSpark, "it was late", "it was right")
	},
	"work-it-hard": func(*bench, []int) answer { return yes(false, "", "no change") },
	"true-tdc":     func(*bench, []int) answer { return yes(false, "", "the mark is right") },
	"points-set": func(b *bench, _ []int) answer {
		return yes(b.truth.further.lateSpark, "only the timing was off", "both were right")
	},
	"leak-mended-and-pumped": func(b *bench, _ []int) answer {
		return yes(b.truth.further.outsideLeak, "it holds now", "it still falls")
	},
	"rocker-and-pushrod": func(*bench, []int) answer { return yes(false, "", "both are good") },
	"joint-dried-and-pumped": func(b *bench, _ []int) answer {
		return yes(b.truth.further.outsideLeak, "from above", "it stays dry")
	},
	"new-cap": func(b *bench, _ []int) answer {
		return yes(b.truth.further.capWeak, "opens at its mark", "opens as before")
	},
	"thermostat-in-water": func(*bench, []int) answer { return yes(false, "", "no change") },
	"egr-cooler-look":     func(*bench, []int) answer { return yes(false, "", "dry") },
	"pan-off-and-pumped":  func(*bench, []int) answer { return yes(false, "", "nothing drips") },
	"blower-look":         func(*bench, []int) answer { return yes(false, "", "dry and clear") },
	"carbon-cleaned": func(b *bench, _ []int) answer {
		return yes(b.anyOf(nil, func(c *bore) bool { return c.crown == "carbon" }), "readings and pinging go down", "no change")
	},
	"oil-cooler-test": func(*bench, []int) answer { return yes(false, "", "it is tight") },
	"breather-clear": func(b *bench, _ []int) answer {
		return yes(b.truth.further.breather, "it falls", "stays high")
	},
	"guides-look":          func(b *bench, _ []int) answer { return yes(b.truth.guides, "loose or hard", "firm and soft") },
	"listen-under-cover":   func(*bench, []int) answer { return yes(false, "", "at the dipstick") },
	"head-off":             func(*bench, []int) answer { return yes(false, "", "both whole") },
	"code-again":           func(*bench, []int) answer { return yes(false, "", "it stays away") },
	"cold-start-and-drive": func(*bench, []int) answer { return yes(false, "", "nothing shows") },
	"injector-bench":       func(*bench, []int) answer { return yes(false, "", "within limits") },
	"glow-plug-test":       func(b *bench, _ []int) answer { return yes(b.truth.further.glow >= 0, "one is open", "all sound") },
	"renew-glow-plug":      func(*bench, []int) answer { return yes(false, "", "no change") },
	"clean-and-flow":       func(*bench, []int) answer { return yes(false, "", "still apart") }, // the simulator cleans none
	"refit-and-run":        func(*bench, []int) answer { return yes(false, "", "no change") },
	"springs-and-guides": func(b *bench, _ []int) answer {
		return yes(b.truth.further.springs, "weak or broken", "springs good")
	},
}

// charged repeats the test with a charger, the first cylinder tested last.
func (b *bench) charged([]int) answer {
	b.test.battery, b.job.charger, b.job.crankVolts = false, true, 0
	if b.truth.further.slow {
		b.job.cranking, b.truth.further.slow = 230, false
		b.takeFurther("starting")
		return yes(true, "readings come up", "")
	}
	a := b.again("readings come up|come up", "they stay|stay")
	if len(b.job.order) > 0 {
		first := b.job.order[0]
		b.job.again = map[int]float64{first: b.dryReading(first, 0)}
	}
	return a
}

// oilAndAgain tells whether readings recover once the bores have oil again, or
// carbon has gone; the figures of the first test are left as they were.
func (b *bench) oilAndAgain([]int) answer {
	recovers := b.truth.dryBores || b.truth.flooded || slices.ContainsFunc(b.bores, func(c bore) bool { return c.held && c.exhaust+c.inlet < 2 })
	return yes(recovers, "recovers|recover", "stays low|stay")
}
