package rule

import (
	"slices"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/engine"
)

// A checkKind is what is known of a check beside its words: roughly how long
// it takes, when it tells nothing, and how one sees that it was made.
type checkKind struct {
	minutes int
	unfit   func(*Case) bool
	// words say in the job's list of work done that this was done already.
	words []string
	// made reports that the readings of the job hold its outcome, for all of
	// these cylinders (for any, where none are named).
	made func(c *Case, cylinders []string) bool
	// separates are the causes that the check speaks for, against all others.
	separates []string
}

// checkKinds are the checks by name. Times are common practice, no source.
var checkKinds = map[string]checkKind{
	// The test itself.
	"complete-set":          {minutes: 15},
	"repeat-wet":            {minutes: 20},
	"repeat-with-charger":   {minutes: 10},
	"repeat-method":         {minutes: 20},
	"second-gauge":          {minutes: 10, words: []string{"second gauge", "other gauge"}},
	"dry-and-repeat":        {minutes: 60},
	"warm-retest":           {minutes: 60},
	"turn-by-hand":          {minutes: 10},
	"turn-engine-check-cam": {minutes: 10},
	"face-peaks":            {minutes: 15},

	// Sealing.
	"wet-test": {minutes: 10, unfit: noWetTest, words: []string{"wet test", "wet compression"}, made: madeWet,
		separates: []string{"rings", "scored-bore", "stuck-rings", "washed-bore", "wear"}},
	"leak-down": {minutes: 15, words: []string{"leak-down", "leakdown", "leak down", "leakage test"}, made: madeLeakDown,
		separates: []string{"rings", "scored-bore", "piston", "wear", "holed-piston"}},
	"leak-down-again": {minutes: 15},
	"leak-down-pair": {minutes: 20, words: []string{"leak-down between"}, made: madeLeakDown,
		separates: []string{"head-gasket", "warped-or-cracked-head"}},
	"compression-test": {minutes: 40, made: func(c *Case, _ []string) bool { return c.dryRead() }},
	"running-compression": {minutes: 15, words: []string{"running compression"}, separates: []string{"valve-motion", "restricted-inlet", "restricted-exhaust"},
		made: func(c *Case, _ []string) bool { return c.Compression != nil && len(c.Compression.Running) > 0 }},
	"valve-lash": {minutes: 40, unfit: noValves, words: []string{"valve lash", "lash set", "lash checked", "valve clearance", "valves adjusted", "valves set"},
		separates: []string{"valve-lash"}},
	"watch-valve-gear": {minutes: 20, unfit: noValves, words: []string{"valve gear watched", "valve lift measured", "lift measured", "both valves seen moving"},
		separates: []string{"valve-motion", "stuck-valve", "valve-lash"}},
	"cam-timing-marks": {minutes: 60, unfit: noValves, words: []string{"cam timing checked", "timing marks checked", "timing checked", "cam marks"},
		separates: []string{"cam-timing", "timing-drive", "cam-phaser"}},
	"coolant-gas-test": {minutes: 10, unfit: airCooled, words: []string{"coolant gas test", "block test", "combustion gas test"},
		made: func(c *Case, _ []string) bool { return c.CoolantGas == "positive" || c.CoolantGas == "negative" }},
	"cooling-pressure-test": {minutes: 15, unfit: airCooled, words: []string{"cooling system pressure", "cooling pressure test", "coolant pressure test"}},
	"borescope": {minutes: 15, words: []string{"borescope"}, made: madeBorescope,
		separates: []string{"scored-bore", "holed-piston", "bent-valve", "piston", "carbon", "cracked-bore"}},
	"soap-joints":            {minutes: 5},
	"run-and-retest":         {minutes: 600},
	"smoke-on-overrun":       {minutes: 10},
	"breather-and-oil-level": {minutes: 10, words: []string{"breather", "pcv"}},

	// Spark and mixture.
	"swap-coil":          {minutes: 15, words: []string{"coil on", "coils swapped", "coil swapped", "swapped coil", "coil moved"}, unfit: dieselTest},
	"injector-balance":   {minutes: 20, words: []string{"injector balance", "injectors swapped", "injector swapped"}},
	"renew-plugs":        {minutes: 30, words: []string{"new plugs", "plugs renewed", "plugs replaced", "new spark plugs"}},
	"timing-and-cooling": {minutes: 20},
	"smoke-test":         {minutes: 20, words: []string{"smoke test"}},
	"fuel-trims":         {minutes: 10, words: []string{"fuel trims"}},
	"bank-trims":         {minutes: 10, words: []string{"bank trims", "trims compared"}},
	"purge-pinch":        {minutes: 5, words: []string{"purge"}},

	// Fuel pressure.
	"fuel-pressure-test":    {minutes: 15, made: func(c *Case, _ []string) bool { return c.Has(NeedsFuel) }},
	"held-pressure":         {minutes: 10, made: madeHold},
	"hose-for-fuel":         {minutes: 2, unfit: noVacuumHose, words: []string{"hose for fuel", "regulator renewed", "regulator replaced", "new regulator", "new fuel-pressure regulator"}, made: anyCircuit(func(k *diag.Circuit) bool { return k.FuelInHose == "yes" || k.FuelInHose == "no" })},
	"repeat-hose-test":      {minutes: 5},
	"vacuum-at-hose":        {minutes: 5, words: []string{"vacuum at hose"}},
	"oil-for-fuel":          {minutes: 5},
	"renew-regulator":       {minutes: 30, words: []string{"regulator renewed", "regulator replaced", "new regulator", "new fuel-pressure regulator"}},
	"restrict-return":       {minutes: 5, words: []string{"return pinched", "return restricted"}, made: anyCircuit(func(k *diag.Circuit) bool { return k.ReturnPinched != nil })},
	"return-to-can":         {minutes: 15, words: []string{"return to a can", "return line checked"}},
	"pump-volts":            {minutes: 10, words: []string{"pump volt", "voltage at the pump", "volts at pump", "volts at the pump"}},
	"fuel-volume":           {minutes: 10, words: []string{"fuel volume", "pump volume"}, made: anyCircuit(func(k *diag.Circuit) bool { return k.VolumeML > 0 })},
	"clear-hose":            {minutes: 15, words: []string{"clear hose"}},
	"second-fuel-gauge":     {minutes: 10, words: []string{"second fuel gauge"}},
	"pinch-feed-and-return": {minutes: 10, words: []string{"feed pinched", "pinched feed"}},
}

func minutesFor(check string) int { return checkKinds[check].minutes }

// workDone reports work that the job says was done, by its words.
func (c *Case) workDone(words ...string) bool {
	return slices.ContainsFunc(c.History.WorkDone, func(done string) bool {
		done = strings.ToLower(done)
		return slices.ContainsFunc(words, func(w string) bool { return strings.Contains(done, w) })
	})
}

// doneOn reports whether a check on these cylinders would tell nothing new: the
// job says that it was made, or the readings hold its outcome, or it tells
// nothing on such an engine.
func (c *Case) doneOn(check string, cylinders []string) bool {
	k := checkKinds[check]
	return k.unfit != nil && k.unfit(c) || c.workDone(k.words...) || k.made != nil && k.made(c, cylinders)
}

// noWetTest reports an engine on which oil does not lie on the rings, or may
// not be put in.
func noWetTest(c *Case) bool {
	return c.Spec.Diesel() || c.Spec.TwoStroke || c.Engine.Kind == engine.Flat || c.Engine.Kind == engine.Rotary
}

func noValves(c *Case) bool { return c.Spec.TwoStroke || c.Engine.Kind == engine.Rotary }

// noVacuumHose reports a fuel system whose regulator has no hose to the
// manifold.
func noVacuumHose(c *Case) bool {
	return c.Spec.Diesel() || c.Fuel != nil && c.Fuel.System != "" && c.Fuel.System != portReturn
}

func dieselTest(c *Case) bool { return c.Spec.Diesel() }

// airCooled reports separate barrels, which as a rule have no coolant.
func airCooled(c *Case) bool {
	return len(c.Engine.Heads) > 1 && len(c.Engine.Heads) == len(c.Engine.Cylinders) && !c.Engine.IsTwoBank()
}

func madeWet(c *Case, cylinders []string) bool {
	if c.Compression == nil {
		return false
	}
	return c.Compression.WetInWords != "" || c.madeOn(cylinders, func(n string) bool {
		r := c.Cylinder(n)
		return r != nil && r.Wet != nil
	})
}

func madeLeakDown(c *Case, cylinders []string) bool {
	return c.madeOn(cylinders, func(n string) bool { return c.Leak(n) != nil })
}

func madeBorescope(c *Case, cylinders []string) bool {
	return c.madeOn(cylinders, func(n string) bool { return c.Borescope[n] != "" })
}

// madeOn reports something made on all of these cylinders, or on any of the
// engine's where none are named.
func (c *Case) madeOn(cylinders []string, made func(string) bool) bool {
	if len(cylinders) == 0 {
		return slices.ContainsFunc(c.Engine.Names(), made)
	}
	return !slices.ContainsFunc(cylinders, func(n string) bool { return !made(n) })
}

func madeHold(c *Case, cylinders []string) bool {
	return anyCircuit(func(k *diag.Circuit) bool { return len(k.Hold) > 0 })(c, cylinders)
}

func anyCircuit(is func(*diag.Circuit) bool) func(*Case, []string) bool {
	return func(c *Case, _ []string) bool {
		if c.Fuel == nil {
			return false
		}
		for i := range c.Fuel.Circuits {
			if is(&c.Fuel.Circuits[i]) {
				return true
			}
		}
		return false
	}
}
