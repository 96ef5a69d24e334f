package loop_test

import (
	"regexp"
	"slices"
)

// Checks by what they ask of an engine.
var (
	// The starter turns it or it runs. Key-on and volume only run the pump.
	withStarter = []string{"complete-set", "repeat-wet", "repeat-with-charger", "charge-and-repeat", "repeat-method", "second-gauge", "warm-retest", "wet-test", "compression-test", "running-compression",
		"face-peaks", "dry-and-repeat", "dry-chambers", "cap-and-cool", "run-and-retest", "swap-coil", "smoke-on-overrun", "fuel-trims", "bank-trims", "sensor-banks", "purge-pinch", "injector-balance", "coolant-gas-test",
		"fuel-pressure-test", "repeat-hose-test", "vacuum-at-hose", "renew-plugs", "set-gap", "spark-test", "oil-consumption", "renew-regulator", "set-and-retest", "exhaust-restriction", "noise-source", "belt-off"}
	// It must run for them to tell anything.
	running   = []string{"warm-retest", "run-and-retest", "running-compression", "smoke-on-overrun", "swap-coil", "fuel-trims", "bank-trims", "sensor-banks", "purge-pinch", "vacuum-at-hose", "repeat-hose-test", "coolant-gas-test", "oil-consumption", "exhaust-restriction", "noise-source", "belt-off"}
	oils      = []string{"wet-test", "repeat-wet"}
	onValves  = []string{"valve-lash", "seat-and-retest", "set-and-retest", "watch-valve-gear", "lobe-look", "rocker-and-pushrod", "cam-timing-marks", "chain-slack", "turn-engine-check-cam"}
	onCoolant = []string{"coolant-gas-test", "cooling-pressure-test"}
	onSpark   = []string{"swap-coil", "renew-plugs", "set-gap", "spark-test", "plug-type"}
	pinches   = []string{"restrict-return", "pinch-feed-and-return", "return-to-can"}
	onHose    = []string{"hose-for-fuel", "vacuum-at-hose", "repeat-hose-test"}
	byTrims   = []string{"fuel-trims", "bank-trims"}
	onInjects = []string{"injector-balance", "injector-drip", "temperature-reading"}
	onPump    = []string{"pump-volts", "pump-listen"}
	onFuel    = []string{"fuel-pressure-test", "held-pressure", "fuel-volume", "second-fuel-gauge", "pump-and-regulator-look", "fuel-filter-look", "shut-off-tee"}
)

// oilIn finds words that put oil into a cylinder.
var oilIn = regexp.MustCompile(`(?i)\boil the cylinder|\blittle oil|\boil into|\bml of oil`)

// unfit says why a check does not fit the engine, "" where it does. urgency is
// the sheet's.
func (b *bench) unfit(c *nextCheck, urgency string) string {
	in := func(list []string) bool { return slices.Contains(list, c.Name) }
	switch {
	case urgency == doNotRun && in(withStarter):
		return "uses the starter at do-not-run"
	case b.diesel() && (in(oils) || oilIn.MatchString(c.Do)):
		return "oil into a diesel"
	case in(oils) && !b.oilTells():
		return "oil tells nothing here"
	case in(onValves) && !b.valves():
		return "no such valves"
	case c.Name == "valve-lash" && b.lifter == "hydraulic" && b.tellsFact && known()["lifters"]:
		return "hydraulic lifters"
	case in(onCoolant) && b.air && b.tellsFact && known()["cooling"]:
		return "cooled by air"
	case in(onSpark) && b.diesel():
		return "no spark in a diesel"
	case magnetoAnswers[c.Name] != nil && !b.flies:
		return "no magnetos"
	case c.Name == "swap-coil" && b.cylinders == 1:
		return "no second coil"
	case c.Name == "bank-trims" && !b.twoBanks():
		return "one bank"
	case in(byTrims) && (b.diesel() || b.twoStroke || b.system == carburettor && b.told()):
		return "no trims to read"
	case in(onInjects) && (b.twoStroke || (b.system == carburettor || b.system == throttleBody && c.Name == "injector-balance") && b.told()):
		return "no injectors to compare"
	case c.Name == "purge-pinch" && (b.diesel() || b.twoStroke || b.system == carburettor && b.told()):
		return "no purge valve"
	case in(pinches) && b.system != portReturn && b.system != throttleBody && (b.told() || b.diesel()):
		return "no return line to close"
	case in(onHose) && !b.fuel.reference && (b.told() || b.diesel()):
		return "no hose on the regulator"
	case c.Name == "carburettor-look" && b.system != carburettor && b.told():
		return "no carburettor"
	case in(onPump) && b.fuel.mechanical && b.told():
		return "no electric pump"
	case (c.Name == "held-pressure" || c.Name == "shut-off-tee" || c.Name == "key-on-again") && b.fuel.mechanical && b.told():
		return "no pressure that could be held"
	case in(onFuel) && b.fuel.usual == 0 && b.told():
		return "no fuel pressure to read"
	case (c.Name == "leak-down-pair") && len(b.pairs()) == 0:
		return "no neighbour under its head"
	case (c.Name == "face-peaks" || c.Name == "dry-chambers" || c.Name == "ports-look") && !b.rotary(), c.Name == "compression-test" && b.rotary():
		return "another kind of engine"
	case (c.Name == "crankcase-hold" || c.Name == "mix-check") && !b.twoStroke, c.Name == "oil-consumption" && b.twoStroke:
		return "another kind of engine"
	case in(running) && !b.starts:
		return "it does not run"
	}
	return ""
}

// told reports that the job says what fuel system it has.
func (b *bench) told() bool {
	return b.job.noFuel || len(b.job.fuel)+len(b.job.hold) > 0 || b.job.inHose != "" || b.job.volume > 0
}

// asksOfFuel reports a check for which one goes to the fuel system.
func asksOfFuel(name string) bool {
	return fuelAnswers[name] != nil
}
