package loop_test

var mixtureAnswers = map[string]func(b *bench, on []int) answer{
	"lead-order":     func(*bench, []int) answer { return yes(false, "", "each in its place") },
	"fuel-sample":    func(*bench, []int) answer { return yes(false, "", "clear and right") },
	"fresh-fuel":     func(*bench, []int) answer { return yes(false, "", "no sign of firing") },
	"coil-feed-test": func(*bench, []int) answer { return yes(false, "", "it flashes") },
	"swap-coil":      func(b *bench, _ []int) answer { return yes(b.truth.coil >= 0, "it moves|moves", "it stays|stays") },
	"spark-test":     func(b *bench, _ []int) answer { return yes(b.truth.coil >= 0, "no spark", "good spark") },
	"plugs-look": func(b *bench, _ []int) answer { // what no fuel reaches stays dry
		if b.truth.volts && b.fuel.keyOn == 0 {
			return answer{true, []string{"bone dry"}}
		}
		b.takePlugs()
		return inReadings
	},
	"injector-balance": func(b *bench, _ []int) answer {
		return yes(b.truth.injector >= 0, "one differs|one gives", "all alike|same")
	},
	"injector-drip":       func(b *bench, _ []int) answer { return yes(b.truth.drips, "one drips", "none drips") },
	"renew-plugs":         func(b *bench, _ []int) answer { return yes(false, "", "no change") },
	"set-gap":             func(b *bench, _ []int) answer { return yes(false, "", "no change") },
	"plug-type":           func(b *bench, _ []int) answer { return yes(false, "", "the right plug") },
	"timing-and-cooling":  func(b *bench, _ []int) answer { return yes(false, "", "all right") },
	"mix-check":           func(b *bench, _ []int) answer { return yes(false, "", "right") },
	"temperature-reading": func(b *bench, _ []int) answer { return yes(false, "", "reads right") },
	"air-meter-reading":   func(*bench, []int) answer { return yes(false, "", "what it should") },
	"carburettor-look":    func(b *bench, _ []int) answer { return yes(false, "", "all right") },
	"air-filter-look":     func(b *bench, _ []int) answer { return yes(b.truth.restricted, "clogged", "clean") },
	"vent-hose-pinch":     func(*bench, []int) answer { return yes(false, "", "no change") },
	"vent-valve-look":     func(*bench, []int) answer { return yes(false, "", "it closes") },
	"intake-joint-wetted": func(b *bench, _ []int) answer { return yes(b.truth.airLeak, "it leaks|leaks", "it is tight|tight") },
	"smoke-test": func(b *bench, _ []int) answer {
		return yes(b.truth.airLeak || b.truth.crankSeal, "smoke comes out|comes out", "none comes out|none")
	},
	"fuel-trims": func(b *bench, _ []int) answer {
		t := &b.truth
		switch {
		case t.airLeak:
			return answer{true, []string{"adds at idle only", "far"}}
		case t.filter || t.pump || t.volts || t.regulatorOpen:
			return answer{true, []string{"adds at speed", "far"}}
		case t.richEngine || t.drips:
			return answer{true, []string{"takes fuel out", "far"}}
		}
		return answer{t.crossed, []string{"near zero"}}
	},
	"bank-trims": func(b *bench, _ []int) answer { return yes(b.truth.crossed, "opposite ways|opposite", "alike") },
	"sensor-banks": func(b *bench, _ []int) answer {
		return yes(b.truth.crossed, "the other answers|other bank", "its own answers")
	},
	"purge-pinch": func(b *bench, _ []int) answer { return yes(b.truth.purge, "runs cleaner|cleaner", "no change") },
}

var fuelAnswers = map[string]func(b *bench, on []int) answer{
	"fuel-pressure-test": func(b *bench, _ []int) answer {
		b.takeFuel()
		return inReadings
	},
	"look-up-fuel-limit": func(b *bench, _ []int) answer { // it stands in the job from then on
		b.job.fuelless = false
		return inReadings
	},
	"run-on-petrol":   func(*bench, []int) answer { return yes(false, "", "the same on both") }, // none of its faults is in a gas supply
	"gas-supply-look": func(*bench, []int) answer { return yes(false, "", "as the maker asks") },
	"held-pressure": func(b *bench, _ []int) answer {
		b.takeHold()
		return inReadings
	},
	"hose-for-fuel": func(b *bench, _ []int) answer {
		b.takeHose()
		return inReadings
	},
	"repeat-hose-test": func(b *bench, _ []int) answer {
		b.job.fuel["idle"], b.job.fuel["hose-off"] = b.fuel.idle*b.noise(0.01), b.fuel.hoseOff*b.noise(0.01)
		return yes(b.fuel.hoseOff > b.fuel.idle+1, "rises", "falls again|falls")
	},
	"vacuum-at-hose": func(b *bench, _ []int) answer { return answer{true, []string{"vacuum"}} },
	"oil-for-fuel":   func(b *bench, _ []int) answer { return yes(b.truth.torn, "fuel in the oil|fuel", "none") },
	"renew-regulator": func(b *bench, _ []int) answer {
		return yes(b.truth.torn || b.truth.regulatorStuck || b.truth.regulatorOpen, "right now|right", "no change|still")
	},
	"regulating-valve-look": func(b *bench, _ []int) answer {
		return yes(b.truth.regulatorOpen, "lets go early", "sound")
	},
	"restrict-return": func(b *bench, _ []int) answer {
		b.job.fuel["return-pinched"] = b.fuel.pinched * b.noise(0.01)
		return inReadings
	},
	"return-line-look": func(b *bench, _ []int) answer { // what blocks it is inside the line
		return yes(false, "", "open along its length")
	},
	"return-to-can": func(b *bench, _ []int) answer { return yes(b.truth.returnBlocked, "right", "still high") },
	"pump-volts":    func(b *bench, _ []int) answer { return yes(b.truth.volts, "low|more than", "right") },
	"fuel-volume": func(b *bench, _ []int) answer {
		b.job.volume = max(1, b.fuel.volume*b.noise(0.03))
		return inReadings
	},
	"key-on-again": func(b *bench, _ []int) answer {
		switch f := &b.fuel; {
		case f.keyOn < 0.8*f.usual:
			return answer{false, []string{"stays low"}}
		case f.held5 < 0.6:
			return answer{false, []string{"comes up and falls"}}
		}
		return answer{true, []string{"comes up and stays"}}
	},
	"cap-and-cool":            func(b *bench, _ []int) answer { return yes(false, "", "stays down") },
	"pump-and-regulator-look": func(b *bench, _ []int) answer { return answer{false, []string{"as it should be"}} },
	"pump-listen":             func(b *bench, _ []int) answer { return yes(b.fuel.keyOn == 0, "silent", "it runs") },
	"fuel-filter-look":        func(b *bench, _ []int) answer { return yes(b.truth.filter, "clogged", "clear") },
	"feed-from-can":           func(b *bench, _ []int) answer { return yes(b.truth.filter, "stays high", "pulls well from the can") },
	"shut-off-tee": func(b *bench, _ []int) answer {
		return yes(b.truth.checkValve, "holds when shut off", "still falls")
	},
	"clear-hose":        func(b *bench, _ []int) answer { return answer{false, []string{"none"}} },
	"second-fuel-gauge": func(b *bench, _ []int) answer { return answer{false, []string{"reads the same", "agrees"}} },
	"pinch-feed-and-return": func(b *bench, _ []int) answer {
		switch {
		case b.truth.checkValve:
			return answer{true, []string{"holds with the feed closed", "feed"}}
		case b.truth.torn || b.truth.regulatorOpen:
			return answer{true, []string{"holds with the return closed", "return"}}
		}
		return answer{false, []string{"falls with both closed", "both"}}
	},
}
