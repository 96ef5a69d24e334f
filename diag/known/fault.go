package known

import (
	"slices"
	"strings"
)

// A Fault is something that a technician finds by eye, ear or hand on an engine
// whose cylinders press: what it is called, and the words by which it is known.
type Fault struct {
	Name string
	Sign bool   // what a fault does, and not the fault
	With string // the complaint that it goes with, where it explains no other; "" for any
	saying
}

// What is bad of a part, whatever part it is: it lets nothing through, it has come apart or leaks,
// it does not move as it should.
const (
	letsNothing = "block|clog|plugged|choked|chock|full of|packed|caked|coked|furred|silted|scaled|gummed|varnish|sludge|matted|bunged|stuffed|stopped up|dirt|debris|rust|carbon|sealant|solid with|black"
	cameApart   = "split|torn|tore|crack|perish|broken|broke|snapped|sheared|burst|collaps|holed|hole in|hole worn|chafed|rubbed through|missing|gone|in pieces|fell apart|fallen apart|shattered|disintegrat|crumbl|eaten away|come off|came off|fell off|fallen off|popped off|blown|disconnect|unplugged|adrift|hangs off|hanging off|loose|leak|hiss|off its"
	notMoving   = "stuck|sticks|sticking|seized|jammed|frozen|hangs|does not move|does not open|does not close|does not shut|will not open|will not close|would not open|would not close|stays open|stays shut|stays closed"
	shutInside  = "rattl|melt|block|clog|plugged|broken|broke up|breaking up|collaps|crush|crumbl|disintegrat|in pieces|fell apart|fallen apart|flattened|dented flat|choked|loose inside|come loose"
)

// Faults are those that are looked for among the technician's findings.
var Faults = []Fault{
	{Name: "intake-deposits", saying: saying{words: pairs("inlet valve|intake valve|inlet port|intake port", "carbon|deposit|coked|caked")}},
	{Name: "lead", saying: saying{words: append(slices.Concat(pairs("coil", "crack|arc|track|dead|burn|open circuit|fails"), pairs("lead|plug wire", "arc|burn|chafed|open circuit"), pairs("boot", "burn|split|crack|track|arc"), pairs("miss|misfire", "went with it|moved with it|followed it|followed the coil|followed the lead")),
		"sparks to the", "sparks outside", "spark jumps", "sparks jump"), not: []string{"injector"}}},
	{Name: "spark", saying: saying{words: append(pairs("distributor cap|rotor arm", "crack|track|burn"), "no spark", "weak spark", "yellow spark")}},
	{Name: "wells", saying: saying{words: append(pairs("plug well|plug tube", "oil|water|wet|coolant"), OilyWells...)}},
	{Name: "injector-dead", saying: saying{words: pairs("injector", "dead|no pulse|not click|silent|open circuit|blocked|clogged|unplugged|stuck shut")}},
	{Name: "injector-drips", saying: saying{words: pairs("injector", "drip|leaking|leaks|dribbl|stuck open")}},
	{Name: "exhaust", saying: saying{words: slices.Concat(pairs("catalyst|catalytic converter|cat core|cat brick|cat cut|cat off|cat out|honeycomb|monolith|brick|substrate|muffler|silencer|resonator|baffle|spark arrestor|spark arrester|arrestor screen", shutInside), pairs("exhaust|front pipe|downpipe|down pipe|tailpipe|flex pipe", "crush|blocked|plugged|collaps|flattened|dented flat|full of"),
		pairs("double wall|inner pipe|inner wall|inner liner", "collaps")), not: []string{"paint", "bracket", "hanger"}}},
	{Name: "injector-seat", saying: saying{words: InjectorTar}},
	{Name: "head-joint", Sign: true, saying: saying{words: headJointGas}},
	{Name: "valve-noise", Sign: true, saying: saying{words: pairs("valve cover|cam cover|rocker box|valve gear|valve train|rocker|tappet", "clatter|tick|tapping|knock|rattl|nois")}},
	{Name: "egr", saying: saying{words: pairs("egr|exhaust gas valve", "open|not shut|"+notMoving), not: []string{"cooler"}}},
	{Name: "egr-cooler", saying: saying{words: pairs("egr cooler|exhaust gas cooler|gas cooler", "coolant|wet|leak|crack|water|split")}},
	{Name: "air-leak", saying: saying{words: slices.Concat(pairs("vacuum hose|vacuum line|vacuum pipe|vacuum tube|servo hose|brake servo|servo pipe|booster hose|brake booster|booster line|pcv hose|pcv pipe|breather hose|breather pipe|intake hose|inlet hose|intake boot|inlet boot|air duct|intake duct|intake pipe|inlet pipe|inlet rubber|intake rubber|carb rubber|carburetor rubber|carburettor rubber|manifold rubber|intake flange|inlet flange|rubber flange|snorkel|intake snorkel", "off|"+cameApart),
		pairs("manifold gasket|inlet gasket|intake gasket|carb gasket|carburetor gasket|carburettor gasket|insulator block|throttle body gasket|plenum gasket|runner gasket", cameApart), pairs("manifold bolts|inlet manifold|intake manifold|plenum", "loose|hiss|crack"), pairs("idle|revs|speed|rpm", "spray|propane"), HoseOff), not: []string{"exhaust manifold", "coolant", "antifreeze"}}},
	{Name: "boost", saying: saying{words: pairs("boost hose|boost pipe|charge hose|charge pipe|charge air|turbo hose|turbo pipe|intercooler hose|intercooler pipe|intercooler", "off|hole|popped|"+cameApart)}},
	{Name: "choked-inlet", saying: saying{words: append(pairs("air filter|air cleaner|air cleaner element|air element", "block|clog|plugged|chok|full of|packed|caked|matted|stuffed|black|solid with"), ChokedInlet...)}},
	{Name: "fuel-filter", saying: saying{words: pairs("fuel filter|fuel strainer|tank strainer|tank sock|pump sock|pickup sock|fuel sock|sock in the tank|sediment bowl|fuel screen|tank screen|inlet screen|fuel bowl|water separator|fuel water separator|pre filter|prefilter|petcock|fuel tap|fuel cock", letsNothing), not: []string{"oil"}}},
	{Name: "strainer", saying: saying{words: pairs("strainer", letsNothing), not: []string{"oil", "sea", "sump", "pan ", "fuel", "tank", "sludge", "belt", "rubber", "sealant"}}},
	{Name: "pump-supply", saying: saying{words: slices.Concat(pairs("pump relay|pump fuse", "burn|dead|fault|blown|corrod|melt"), pairs("fuel pump", "no power|no voltage"), pairs("pump connector|pump plug", "burn|melt|corrod"), pairs("inertia switch", "tripped"))}},
	{Name: "bad-fuel", saying: saying{words: append(pairs("fuel|petrol|gasoline", "stale|varnish"), "water in the fuel", "water in the petrol", "water in the gas", "water in the tank", "old fuel", "wrong fuel", "diesel in the petrol")}},
	{Name: "fuel-line", saying: saying{words: slices.Concat(pairs("fuel line|fuel hose|fuel pipe|feed line|feed hose|suction hose|suction line|fuel pickup", "kink|pinched|crush|collaps|flattened|swollen|"+letsNothing), pairs("tank vent|tank cap|vent of the tank|breather of the tank", "not vent|runs again|starts again|picks up again|"+letsNothing))}},
	{Name: "tank-draws", Sign: true, saying: saying{words: pairs("tank cap|fuel cap|gas cap", "hiss|sucks|suction|rush of air|air rushes")}},
	{Name: "fuel-return", saying: saying{words: pairs("return line|return hose|return pipe|fuel return", "kink|pinched|crush|blocked")}},
	{Name: "air-in-fuel", saying: saying{words: pairs("fuel line|fuel hose|fuel pipe|return line|return hose|clear line|clear hose|fuel filter|supply line", "bubble|air in|froth|foam")}},
	{Name: "cam-off", saying: saying{words: append(slices.Concat(pairs("tooth|teeth", "off|out|late|early|retard|advanced|jump"), pairs("timing mark", "off|out|not line"), pairs("cam timing", "out|late")), "cam off its mark"), about: slices.Concat(pumpDrive, []string{"distributor"})}},
	{Name: "pump-timing", saying: saying{words: pairs(strings.Join(pumpDrive, "|"), "late|early|retard|advanced|off|out|tooth|wrong")}},
	{Name: "distributor", saying: saying{words: pairs("distributor", "tooth|teeth|turned|loose|wrong|late|early")}},
	{Name: "chain", saying: saying{words: slices.Concat(pairs("chain", "rattl|slack|slap|loose|stretch|worn"), pairs("chain tensioner|timing tensioner|tensioner", "collaps|slack|worn|weak|end of its travel|fully out|"+notMoving), pairs("timing cover", "rattl|noise"), pairs("chain guide|guide rail|tensioner rail", "broken|worn through|in pieces|snapped")), not: []string{"belt tensioner", "accessory"}}},
	{Name: "valve-gear", saying: saying{words: slices.Concat(pairs("lobe", "worn|flat|wiped|round"), BrokenGear), about: []string{"relief valve", "oil pump", "throttle", "return spring", "injector"}}},
	{Name: "lifter", saying: saying{words: pairs("lifter", "tick|noisy|collaps|soft|spongy|stuck|pumped down|bled down")}},
	{Name: "temperature", saying: saying{words: pairs("temperature sensor|coolant sensor", "reads|open circuit|dead|unplugged")}},
	{Name: "air-meter", saying: saying{words: pairs("air meter|air flow meter|airflow meter|mass air flow|maf", "dirty|unplugged|dead")}},
	{Name: "purge", saying: saying{words: pairs("purge valve", "stuck|open|leak|passes|lets vapo|lets through")}},
	{Name: "carburettor", saying: saying{words: append(slices.Concat(pairs("float", "high|sunk|sticks|heavy|"+letsNothing), pairs("needle valve", "leak|dirt|worn"), pairs("choke", "stuck|stays shut|stays closed|stays on|not open|jammed|seized"), pairs("carburetor|carburettor|carb", "flood|full of|gummed|varnish|packed|corrod"),
		pairs("jet|jets|main jet|pilot jet|idle jet|emulsion tube|metering screen|carb screen|idle circuit", letsNothing), pairs("carb diaphragm|metering diaphragm|carburetor diaphragm|slide diaphragm|vacuum slide", "hard|stiff|"+cameApart)), "fuel drips from the carb"), not: []string{"oil jet", "cooling jet", "piston jet"}}},
	{Name: "throttle", saying: saying{words: pairs("throttle plate|throttle body|throttle bore|throttle valve|throttle blade|butterfly", "black|dirt|deposit|carbon|coked|gum|varnish")}},
	{Name: "guides", saying: saying{words: slices.Concat(pairs("stem seal|valve seal", "hard|brittle|crack|off"), pairs("valve guide", "worn|play"))}},
	{Name: "magneto", Sign: true, saying: saying{words: pairs("magneto|mag", "drops|drop|rough|dead|cuts out|misses")}},
	{Name: "reeds", saying: saying{words: pairs("reed|reeds", "chip|crack|broken|stands|stand off|gap|frayed|not close|not shut|not lie flat|not flat|bent")}},
	{Name: "spits-back", Sign: true, saying: saying{words: pairs("spits|spitting|blows back|spit back", "carb|air box|airbox|air cleaner|air filter|intake|inlet")}},
	{Name: "power-valve", saying: saying{words: pairs("power valve|exhaust valve flap", "gummed|not move|coked|"+notMoving)}},
	{Name: "port-carbon", saying: saying{words: pairs("exhaust port|exhaust ports|silencer|muffler|expansion chamber", "carbon|coked|narrowed|closed up")}},
	{Name: "breather", saying: saying{words: pairs("pcv|breather|crankcase vent", notMoving+"|"+letsNothing)}},
	{Name: "battery", saying: saying{words: slices.Concat(pairs("terminal", "corroded|loose"), pairs("battery", "dead|flat|failed"), pairs("earth strap|ground strap", "off|broken"))}},
	{Name: "coolant-flow", saying: saying{words: slices.Concat(pairs("impeller|water pump|coolant pump|seawater pump|raw water pump|vane|vanes", "worn|blade|slip|rough|play|rumbl|grind|eroded|corroded away|"+cameApart), pairs("radiator|radiator core|heat exchanger|exchanger|strainer for sea|sea strainer|water intake|cooling passage", letsNothing+"|chaff|leaves"),
		pairs("fan|fan belt|viscous|fan clutch|fan motor|fan relay|water pump belt", "slip|not run|not turn|not come on|not start|turns free|burn|"+notMoving+"|"+cameApart), pairs("lower hose|bottom hose|radiator hose|water hose", "sucks flat|sucked flat|goes flat|flat at|collaps|soft inside|delaminat|kink"), pairs("radiator", "stays cold|cold spots"), pairs("water", "less than usual|less water"), []string{"less water", "little water", "radiator cold"}), not: []string{"belt tensioner", "weep hole"}}},
	{Name: "fins", saying: saying{words: pairs("cooling fin|cooling fins|fins|cooling shroud|fan housing|blower housing|flywheel screen", letsNothing+"|grass|chaff|leaves|nest|"+cameApart), not: []string{"radiator", "intercooler", "cooler"}}},
	{Name: "thermostat", saying: saying{words: pairs("thermostat", "shut|corroded|"+notMoving+"|"+cameApart), not: []string{"housing"}}},
	{Name: "glow-plug", saying: saying{words: pairs("glow plug|glow plugs|glow relay|glow plug relay|glow fuse|glow circuit", "dead|burn|open circuit|no current|no volts|no power|no voltage|"+cameApart)}},
	{Name: "oil-strainer", saying: saying{words: pairs("oil strainer|oil pump strainer|strainer of the oil pump|oil screen|oil pump screen|oil gauze|oil pump gauze|gauze of the oil pump|sump strainer|pan strainer|oil pickup|oil pick up|pickup screen|pick up screen|pickup tube|pick up tube|pickup pipe|pick up pipe|pickup strainer|pick up strainer|suction screen|suction strainer", letsNothing+"|"+cameApart), not: []string{"fuel", "tank"}}},
	{Name: "oil-sludge", saying: saying{words: pairs("strainer|screen", "sludge|belt|rubber|sealant|silicone"), not: []string{"fuel", "tank", "water"}}},
	{Name: "oil-relief", saying: saying{words: pairs("relief valve|pressure valve|relief plunger|relief piston|relief spring", "open|weak|worn|scored|"+notMoving+"|"+cameApart), not: []string{"fuel", "boost", "turbo"}}},
	{Name: "oil-pump", saying: saying{words: pairs("oil pump|oil pump gear|oil pump gears|oil pump rotor|oil pump drive|oil pump shaft|oil pump chain|pump rotor", "worn|scored|sheared|stripped|end float|"+cameApart), not: []string{"strainer", "screen", "gauze", "pickup", "pick up", "relief", "fuel", "injection", "gasket", "o ring"}}},
	{Name: "bearings", saying: saying{words: pairs("shell|shells|main bearing|main bearings|big end bearing|big end bearings|rod bearing|rod bearings|bearing shell|bearing shells|cam bearing|cam bearings|journal|journals", "copper|wiped|spun|melted|worn|picked up|flaked|flaking|scored|fatigue|delaminat"), not: []string{"wiped clean", "wiped down"}}},
	{Name: "bottom-end"}, // by the words of a ruined bottom end alone
	{Name: "coolant-outside", saying: saying{words: append(pairs("coolant|antifreeze", "hose|radiator|water pump|thermostat housing|core plug|freeze plug|expansion tank|heater|on the floor|puddle"),
		pairs("radiator|radiator hose|heater hose|water pump|core plug|freeze plug|thermostat housing|expansion tank", "leak|weep|drip|split|crack|wet|crust|stain")...)}},
	{Name: "intake-coolant", saying: saying{words: pairs("coolant|antifreeze", strings.Join(intakeJoint, "|"))}},
	{Name: "drive-plate", With: "noise", saying: saying{words: append(pairs("flexplate|flex plate|drive plate|driveplate|flywheel|flywheel bolt|converter bolt|converter bolts|converter nut|converter nuts|torque converter",
		"crack|loose|broken|missing|backed out|worn oval"), pairs("bell housing", "bolt loose|bolts loose|loose bolt")...)}},
	{Name: "driven-part", With: "noise", saying: saying{words: append(pairs("alternator|generator|dynamo|idler|pulley|steering pump|compressor|belt tensioner|accessory|water pump",
		"noise|noisy|rattl|knock|rumbl|grind|whine|squeal|bearing|loose|play|seized|rough|tick"),
		pairs("noise|knock|rattle|tick|gone|quiet|stops|stopped", "belt off|belt removed|without the belt|without belt|belt taken off")...)}},
	{Name: "hung-on", With: "noise", saying: saying{words: append(pairs("heat shield|exhaust bracket|engine mount|motor mount|mount|bracket", "loose|broken|rattl|torn|collaps|crack"), BlownOutlet...)}},
	{Name: "crank-signal", saying: saying{words: append(pairs("crank sensor|crankshaft sensor", "dead|no signal"), "no crank signal")}},
}

// pumpDrive is what turns a diesel's injection pump, or says when it delivers.
var pumpDrive = []string{"injection pump", "pump timing", "injection timing"}

// FaultToMend reports that a fault itself was found, and not only what one does.
func (c *Case) FaultToMend() bool {
	faults, _ := c.FaultsFound()
	return slices.ContainsFunc(faults, func(at int) bool { return !Faults[at].Sign })
}

// faultsFound are the places in Faults of those that were found, and the lines
// that say so; whether the engine drew in water; and the lines on its bottom end that
// nobody understands.
type faultsFound struct {
	faults []int
	lines  []string
	water  bool
	below  []string
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
		c.faults = &faultsFound{faults, lines, c.saidToDrinkWater(), c.unreadBelow(lines)}
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
		text = foundIn(stillSo(text))
		if text == "" {
			continue
		}
		told, below := false, ""
		if !c.tellsBentRod(line, text) {
			below = ruinedBelow(text)
		}
		for i := range Faults {
			if Faults[i].Name != below && !Faults[i].in(text) || Faults[i].With != "" && !c.Complains(Faults[i].With) {
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
