package known

import (
	"slices"
	"strings"
)

// A Fault is something that a technician finds by eye, ear or hand on an engine
// whose cylinders press: what it is called, and the words by which it is known.
type Fault struct {
	Name  string
	Sign  bool   // what a fault does, and not the fault
	With  string // the complaint that it goes with, where it explains no other; "" for any
	words []string
	not   []string // of what its words say something else
}

// Faults are those that are looked for among the technician's findings.
var Faults = []Fault{
	{Name: "intake-deposits", words: pairs("inlet valve|intake valve|inlet port|intake port", "carbon|deposit|coked|caked")},
	{Name: "lead", words: append(slices.Concat(pairs("coil", "crack|arc|track|dead|burn|open circuit|fails"), pairs("lead|plug wire", "arc|burn|chafed|open circuit"), pairs("boot", "burn|split|crack|track|arc")),
		"sparks to the", "sparks outside", "spark jumps", "sparks jump")},
	{Name: "spark", words: append(pairs("distributor cap|rotor arm", "crack|track|burn"), "no spark", "weak spark", "yellow spark")},
	{Name: "wells", words: append(pairs("plug well|plug tube", "oil|water|wet|coolant"), OilyWells...)},
	{Name: "injector-dead", words: pairs("injector", "dead|no pulse|not click|silent|open circuit|blocked|clogged|unplugged|stuck shut")},
	{Name: "injector-drips", words: pairs("injector", "drip|leaking|leaks|dribbl|stuck open")},
	{Name: "exhaust", words: slices.Concat(pairs("catalyst|catalytic converter", "rattl|melt|block|clog|broken"), pairs("exhaust", "crush|blocked|collaps"), pairs("muffler|silencer", "rattl|blocked"), pairs("tailpipe", "blocked|crush"))},
	{Name: "injector-seat", words: InjectorTar},
	{Name: "head-joint", Sign: true, words: headJointGas},
	{Name: "valve-noise", Sign: true, words: pairs("valve cover|cam cover|rocker box|valve gear|valve train|rocker|tappet", "clatter|tick|tapping|knock|rattl|nois")},
	{Name: "egr", words: pairs("egr|exhaust gas valve", "open|not shut|sticks")},
	{Name: "egr-cooler", words: pairs("egr cooler|exhaust gas cooler|gas cooler", "coolant|wet|leak|crack|water|split")},
	{Name: "air-leak", words: slices.Concat(pairs("vacuum hose|vacuum line", "off|split|crack|perish|disconnect|unplugged"), pairs("pcv hose|breather hose|intake hose|inlet hose|intake boot|inlet boot|air duct|inlet rubber|intake rubber|carb rubber|carburetor rubber|carburettor rubber|manifold rubber|intake flange|inlet flange|rubber flange", "split|crack|torn|perish|loose"),
		pairs("manifold gasket", "leak|blown"), pairs("manifold bolts|inlet manifold|intake manifold", "loose|hiss"), pairs("idle|revs|speed|rpm", "spray|propane"), HoseOff)},
	{Name: "boost", words: pairs("boost hose|boost pipe|charge hose|charge pipe|turbo hose|turbo pipe|intercooler hose|intercooler pipe|intercooler|charge air hose|charge air pipe", "off|split|loose|hole|leak|blown off|popped|crack")},
	{Name: "choked-inlet", words: append(pairs("air filter|air cleaner", "block|clog|black|full of|chok"), ChokedInlet...)},
	{Name: "fuel-filter", words: slices.Concat(pairs("fuel filter", "clog|block|black|dirt|full of|rust|chok"), pairs("strainer|tank sock", "clog|blocked"))},
	{Name: "pump-supply", words: slices.Concat(pairs("pump relay|pump fuse", "burn|dead|fault|blown"), pairs("fuel pump", "no power|no voltage"), pairs("pump connector|pump plug", "burn|melt"), pairs("inertia switch", "tripped"))},
	{Name: "bad-fuel", words: append(pairs("fuel|petrol|gasoline", "stale|varnish"), "water in the fuel", "water in the petrol", "water in the gas", "water in the tank", "old fuel", "wrong fuel", "diesel in the petrol")},
	{Name: "fuel-line", words: slices.Concat(pairs("fuel line|fuel hose", "kink|pinched|crush|collaps"), pairs("tank vent|tank cap", "blocked|not vent|runs again|starts again|picks up again"))},
	{Name: "tank-draws", Sign: true, words: pairs("tank cap|fuel cap|gas cap", "hiss|sucks|suction|rush of air|air rushes")},
	{Name: "fuel-return", words: pairs("return line|return hose|return pipe|fuel return", "kink|pinched|crush|blocked")},
	{Name: "air-in-fuel", words: pairs("fuel line|fuel hose|fuel pipe|return line|return hose|clear line|clear hose|fuel filter|supply line", "bubble|air in|froth|foam")},
	{Name: "cam-off", words: append(slices.Concat(pairs("tooth|teeth", "off|out|late|early|retard|advanced|jump"), pairs("timing mark", "off|out|not line"), pairs("cam timing", "out|late")), "cam off its mark"), not: slices.Concat(pumpDrive, []string{"distributor"})},
	{Name: "pump-timing", words: pairs(strings.Join(pumpDrive, "|"), "late|early|retard|advanced|off|out|tooth|wrong")},
	{Name: "distributor", words: pairs("distributor", "tooth|teeth|turned|loose|wrong|late|early")},
	{Name: "chain", words: slices.Concat(pairs("chain", "rattl|slack|slap|loose|stretch|worn"), pairs("chain tensioner|timing tensioner|tensioner", "collaps|slack|worn|weak|end of its travel|fully out"), pairs("timing cover", "rattl|noise"), pairs("chain guide", "broken"))},
	{Name: "valve-gear", words: slices.Concat(pairs("lobe", "worn|flat|wiped|round"), BrokenGear)},
	{Name: "lifter", words: pairs("lifter", "tick|noisy|collaps|soft|spongy|stuck|pumped down|bled down")},
	{Name: "temperature", words: pairs("temperature sensor|coolant sensor", "reads|open circuit|dead|unplugged")},
	{Name: "air-meter", words: pairs("air meter|air flow meter|airflow meter|mass air flow|maf", "dirty|unplugged|dead")},
	{Name: "purge", words: pairs("purge valve", "stuck|open|leak|passes|lets vapo|lets through")},
	{Name: "carburettor", words: append(slices.Concat(pairs("float", "high|sunk|sticks|full of|heavy"), pairs("needle valve", "leak|dirt|worn"), pairs("choke", "stuck|stays shut|stays closed|stays on|not open"), pairs("carburetor|carburettor", "flood"), pairs("jet", "blocked|dirt")), "fuel drips from the carb")},
	{Name: "throttle", words: pairs("throttle plate|throttle body|throttle bore|throttle valve|throttle blade|butterfly", "black|dirt|deposit|carbon|coked|gum|varnish")},
	{Name: "guides", words: slices.Concat(pairs("stem seal|valve seal", "hard|brittle|crack|off"), pairs("valve guide", "worn|play"))},
	{Name: "magneto", Sign: true, words: pairs("magneto|mag", "drops|drop|rough|dead|cuts out|misses")},
	{Name: "reeds", words: pairs("reed|reeds", "chip|crack|broken|stands|stand off|gap|frayed|not close|not shut|not lie flat|not flat|bent")},
	{Name: "spits-back", Sign: true, words: pairs("spits|spitting|blows back|spit back", "carb|air box|airbox|air cleaner|air filter|intake|inlet")},
	{Name: "power-valve", words: pairs("power valve|exhaust valve flap", "stuck|sticks|gummed|seized|not move")},
	{Name: "port-carbon", words: pairs("exhaust port|exhaust ports|silencer|muffler|expansion chamber", "carbon|coked|narrowed|closed up")},
	{Name: "breather", words: pairs("pcv|breather", "stuck|blocked|clog|frozen|full of sludge|full of ice")},
	{Name: "battery", words: slices.Concat(pairs("terminal", "corroded|loose"), pairs("battery", "dead|flat|failed"), pairs("earth strap|ground strap", "off|broken"))},
	{Name: "coolant-flow", words: slices.Concat(pairs("impeller|water pump|seawater pump|raw water pump", "worn|broken|blade|slip|loose|rough|play"), pairs("radiator|heat exchanger|exchanger|strainer for sea", "block|clog|silted|furred|scale|full of"),
		pairs("fan|fan belt|fan clutch|viscous", "broken|slip|not run|not turn|not come on|not start|turns free|loose|unplugged"), pairs("radiator", "stays cold|cold spots"), pairs("water", "less than usual|less water"), []string{"less water", "little water", "radiator cold"})},
	{Name: "coolant-outside", words: append(pairs("coolant|antifreeze", "hose|radiator|water pump|thermostat housing|core plug|freeze plug|expansion tank|heater|on the floor|puddle"),
		pairs("radiator|radiator hose|heater hose|water pump|core plug|freeze plug|thermostat housing|expansion tank", "leak|weep|drip|split|crack|wet|crust|stain")...)},
	{Name: "intake-coolant", words: pairs("coolant|antifreeze", strings.Join(intakeJoint, "|"))},
	{Name: "drive-plate", With: "noise", words: append(pairs("flexplate|flex plate|drive plate|driveplate|flywheel|flywheel bolt|converter bolt|converter bolts|converter nut|converter nuts|torque converter",
		"crack|loose|broken|missing|backed out|worn oval"), pairs("bell housing", "bolt loose|bolts loose|loose bolt")...)},
	{Name: "driven-part", With: "noise", words: append(pairs("alternator|generator|dynamo|idler|pulley|steering pump|compressor|belt tensioner|accessory|water pump",
		"noise|noisy|rattl|knock|rumbl|grind|whine|squeal|bearing|loose|play|seized|rough|tick"),
		pairs("noise|knock|rattle|tick|gone|quiet|stops|stopped", "belt off|belt removed|without the belt|without belt|belt taken off")...)},
	{Name: "hung-on", With: "noise", words: append(pairs("heat shield|exhaust bracket|engine mount|motor mount|mount|bracket", "loose|broken|rattl|torn|collaps|crack"), BlownOutlet...)},
	{Name: "crank-signal", words: append(pairs("crank sensor|crankshaft sensor", "dead|no signal"), "no crank signal")},
}

// pumpDrive is what turns a diesel's injection pump, or says when it delivers.
var pumpDrive = []string{"injection pump", "pump timing", "injection timing"}

// FaultToMend reports that a fault itself was found, and not only what one does.
func (c *Case) FaultToMend() bool {
	faults, _ := c.FaultsFound()
	return slices.ContainsFunc(faults, func(at int) bool { return !Faults[at].Sign })
}

// faultsFound are the places in Faults of those that were found, and the lines
// that say so; and whether the engine drew in water.
type faultsFound struct {
	faults []int
	lines  []string
	water  bool
}

// adapterLeaks are words for a gauge that was not tight in a plug hole.
var adapterLeaks = pairs("adapter|adaptor|gauge|tester|cone|o ring", "hiss|leak|not seat|not seal|loose|cross thread|slipp|blew out|blowing past")

// AdapterLeaked lists the cylinders that were read of which the method or the
// findings say that the gauge was not tight there.
func (c *Case) AdapterLeaked() []string {
	method := strings.ToLower(c.Conditions.Method)
	var named []string
	if method != "" && SpeaksOf(plainWords(method), adapterLeaks...) {
		named = c.namedIn(method)
	}
	return c.Those(func(n string) bool {
		return slices.Contains(c.Read(), n) && (slices.Contains(named, n) || c.Seen(n, adapterLeaks...))
	})
}

// FaultsFound are the places in Faults of those of which the technician's findings
// speak as something that is still so, with the lines that say it.
func (c *Case) FaultsFound() (faults []int, lines []string) {
	found := c.foundFaults()
	return found.faults, found.lines
}

// foundFaults reads them once: no check adds to what a technician found.
func (c *Case) foundFaults() *faultsFound {
	if c.faults == nil {
		faults, lines := c.readFaults()
		c.faults = &faultsFound{faults, lines, c.saidToDrinkWater()}
	}
	return c.faults
}

func (c *Case) readFaults() (faults []int, lines []string) {
	if len(c.History.Findings) == 0 {
		return nil, nil
	}
	c.Works() // reads them
	for _, line := range c.History.Findings {
		text := c.parsed[line].Text
		if text == "" || mended(text) {
			continue
		}
		told := false
		for i := range Faults {
			f := &Faults[i]
			if !SpeaksOf(text, f.words...) || f.With != "" && !c.Complains(f.With) || SpeaksOf(text, f.not...) {
				continue
			}
			told = true
			if !slices.Contains(faults, i) {
				faults = append(faults, i)
			}
		}
		if told {
			lines = append(lines, line)
		}
	}
	slices.Sort(faults)
	return faults, lines
}

// SpitsBack is an engine whose mixture comes back out of its intake.
var SpitsBack = FaultFound("spits-back")

// FaultAt is the place of a fault in Faults, by its name; -1 for none.
func FaultAt(name string) int {
	return slices.IndexFunc(Faults, func(f Fault) bool { return f.Name == name })
}

// FaultFound is a condition of one of them, by its name.
func FaultFound(name string) Condition {
	at := FaultAt(name)
	return OfEngine("the fault '"+name+"' among the technician's findings", func(c *Case) bool {
		faults, _ := c.FaultsFound()
		return slices.Contains(faults, at)
	})
}
