package known

import (
	"slices"
	"strings"

	"gaugesheet/diag"
)

// Words of what is seen of an engine as a whole, beside its cylinders.
var (
	CoolantInOil = slices.Concat(pairs("oil|dipstick", "coffee with milk|milky coffee|milk coffee|latte|chocolate milk|like milk|cream colored|emulsified"), pairs("grey sludge|gray sludge|white sludge|beige sludge|tan sludge|creamy sludge|milky sludge|grey slime|gray slime|white slime|mayonnaise|mayo", "dipstick|sump|oil pan|drain"), []string{"coolant in the oil", "coolant in oil", "water in the oil", "water in oil", "milky oil", "oil is milky", "oil milky", "oil was milky", "oil looks milky", "dipstick is milky",
		"dipstick milky", "milky dipstick", "milky on the dipstick", "creamy oil", "oil is creamy", "oil like chocolate milk", "chocolate milk on the dipstick", "mayonnaise on the dipstick",
		"oil looks like mayonnaise", "oil like mayonnaise", "oil is like mayonnaise", "oil turned to mayonnaise",
		"mayonnaise in the oil", "mayonnaise in the sump", "mayonnaise in the oil pan", "emulsion on the dipstick", "oil emulsified", "oil is grey", "oil is gray", "oil grey and creamy", "milk in the oil",
		"coolant in the sump", "water in the sump", "water drips from the sump", "water drips from the drain", "water from the drain plug", "water at the drain plug", "water out of the drain plug", "water from the sump plug", "water at the sump plug", "water drips from the oil pan", "coolant in the oil pan", "water in the oil pan", "emulsion in the sump", "emulsion in the oil",
		"oil in the coolant", "oil in coolant", "oil in the radiator", "oil in the expansion", "oil in the water"})
	CoolantBurnt = []string{"rust in the manifold", "rust in the exhaust", "rust in exhaust", "rusty exhaust port", "rust in the port", "rust in port", "rusty port", "water in the exhaust", "coolant in the exhaust",
		"steam from the exhaust", "steam at the exhaust", "white steam", "sweet smell", "smells sweet", "smells of coolant", "smell of coolant"}
	GasInCoolant = append([]string{"hoses hard cold", "hoses go hard", "hoses hard at once", "coolant pushed out", "pushes coolant out", "pushes its coolant out", "blows coolant out"},
		pairs("coolant|radiator|"+coolantTanks, "bubble|bubbles|bubbling")...)
	// CombustionGas is what a test of the coolant for combustion gas finds, in words.
	CombustionGas = slices.Concat(pairs("combustion gas|combustion gases|exhaust gas in|exhaust gases in|hydrocarbons in", "coolant|radiator|cooling system|"+coolantTanks),
		pairs("block test|gas test|combustion test|chemical test|sniff test|test fluid", "positive|yellow|turned|changed color|changed colour|gas found"))
	metalInOil = append([]string{"metal in the oil", "metal in oil", "metal in the filter", "metal in the oil filter", "glitter in the oil", "glittery oil", "bearing metal", "shavings in the oil", "swarf in the oil", "swarf in the sump", "metal in the sump"},
		pairs("oil|sump|the pan|drain plug|dipstick", "babbitt|white metal|copper dust|bearing shell|metal in|glitter|sparkl|gold flakes|gold specks|flakes of gold|silver specks|shavings|filings|swarf|metal flakes|flakes of metal|metal particles|particles of metal|metal specks|specks of metal|brass flakes|bronze flakes|copper flakes|bearing material")...)
	FuelInOil  = append([]string{"fuel in the oil", "fuel in oil", "petrol in the oil", "gasoline in the oil", "diesel in the oil"}, pairs("oil|oil level|dipstick", "smells of|smells like|stinks of|thinned with|full of fuel|full of petrol|full of diesel")...)
	BrokenGear = append([]string{"spring broken", "broken spring", "lobe worn", "worn lobe", "cam lobe worn", "worn cam lobe", "lobe flat", "flat lobe"}, slices.Concat(
		pairs("rocker", "broken|loose|off|fallen|does not move|cracked"), pairs("pushrod", "bent|out|off|broken|fallen|beside|loose"), pairs("valve spring", "broken|cracked"), pairs("lobe", "worn|flat|gone"))...)
	StuckOpen = append([]string{"sticking valve"}, slices.Concat(pairs("valve", "stuck|hangs|sticks|seized|does not move|does not close|does not shut"), pairs("guide|valve guide", "come loose|came loose|loose|moved|dropped"), pairs("seat|valve seat", "come loose|came loose|loose|moved|dropped|fallen"))...)
	// TurboWorn is a turbocharger whose shaft is loose or that lets oil out; a film of
	// oil behind it is usual.
	TurboWorn = slices.Concat(pairs("turbo", "play|loose|wobbl|worn|rubs|rubbing|touch|scrape|leaks oil|full of oil|wet with oil|pools"), pairs("compressor outlet|compressor wheel|compressor housing|turbine wheel|turbine housing", "play|loose|wobbl|rubs|rubbing|touch|scrape|oil"),
		pairs("intercooler|boost pipe|boost hose|charge pipe|charge hose|turbo hose|turbo pipe", "oil"))
	OilFilm = []string{"film", "trace", "mist", "damp", "a little oil", "slight", "light oil", "some oil"}
	// InjectorTar is what gas past an injector's seat leaves around it, or sounds like.
	InjectorTar = pairs("injector|injectors", "tar|black around|carbon around|soot around|chuff|blowing past|blows past|blow by|gas around|wet around")
	// CrankcaseLeaks is a crankcase of a two-stroke that does not hold air.
	CrankcaseLeaks = slices.Concat(pairs("crankcase|crank case", "falls|fell|leaks|leaking|drops|dropped|does not hold|would not hold|lost"), pairs("crank seal|crankshaft seal|oil seal|main seal", "leaks|leaking|bubbles|torn|hard|blown|pushed out"),
		pairs("shaft seal|seal on|seal at|flywheel side|magneto side|clutch side|drive side|base gasket|case joint|crankcase joint|case halves|crankcase halves", "bubble|bubbles|bubbling"))
	ChokedInlet = []string{"nest in the air", "air filter blocked", "air filter clogged", "blocked air filter", "clogged air filter", "air filter choked", "rag in the intake", "rag in the inlet", "inlet blocked", "intake blocked"}
	HoseOff     = []string{"vacuum hose off", "vacuum hose split", "vacuum hose cracked", "split vacuum hose", "cracked vacuum hose", "hose off the manifold", "manifold loose", "manifold gasket blown", "inlet gasket leaks", "intake gasket leaks"}
	NotTurning  = append([]string{"will not turn over", "does not turn over", "won't turn over"},
		pairs("engine|crankshaft|crank|motor", "will not turn|does not turn|won't turn|seized|is locked|locked up|locked solid|stuck solid")...)
	OilyWells   = []string{"oil in the plug well", "oil in the plug wells", "oil in plug well", "oil in the spark plug well", "water in the plug well", "water in the plug wells", "oil in the wells"}
	BlownOutlet = append(pairs("exhaust manifold|exhaust gasket|exhaust joint|front pipe", "blows|blowing|puffs"), "exhaust blows", "exhaust blowing", "exhaust manifold cracked", "cracked exhaust manifold", "exhaust leaks at", "manifold gasket blows")
)

// coolantTanks are what the coolant stands in where it can be seen.
const coolantTanks = "header tank|expansion tank|expansion bottle|overflow tank|coolant reservoir|degas bottle|filler neck"

// OilClogged is what clogs the strainer of an oil pump, found in the oil.
var OilClogged = FoundSo("belt rubber, sludge or sealant in the oil", slices.Concat(pairs("belt|rubber|strands|fibers|fibres|sealant|silicone|gasket maker|sludge|gelled|jelly", "oil|sump|oil pan|filler|oil filter|strainer"), pairs("strainer|pick up", "clog|block|sludge")))

// Found reports that the technician's findings speak of one of these, of whatever
// cylinder, as something that is still so.
func (c *Case) Found(words ...string) bool {
	return c.findingSays(func(text string) bool { return SpeaksOf(stillSo(text), words...) })
}

// findingSays reports that one line of the technician's findings is so, in plain words.
func (c *Case) findingSays(so func(text string) bool) bool {
	if len(c.History.Findings) == 0 {
		return false
	}
	c.Works() // reads them
	return slices.ContainsFunc(c.History.Findings, func(line string) bool { return so(c.parsed[line].Text) })
}

// withGasHeard is a test with the combustion gas in its coolant of which the job tells in
// words alone.
func (c *Case) withGasHeard() *diag.Test {
	spoken := len(c.History.WorkDone)+len(c.History.Findings) > 0
	heard := spoken && c.CoolantGas == "" && !c.AirCooled() && slices.ContainsFunc(c.Works(), func(w Work) bool { return !w.putRight && SpeaksOf(w.Text, CombustionGas...) })
	if !heard {
		return c.Test
	}
	t := *c.Test
	t.CoolantGas = "positive"
	return &t
}

// IdleHangs is an engine whose speed stays up as the throttle shuts, as one does that gets
// air which nobody meters.
var IdleHangs = FoundSo("an idle that hangs or races", hangingIdle)

var hangingIdle = pairs("idle|idles|idling|revs|rpm|speed", "hang|slow to fall|slow to drop|slow to come down|races|racing|does not fall|does not come down|will not come down|stays up|stay up|drop slowly|drops slowly|fall slowly|falls slowly|come down slowly|comes down slowly")

// FoundSo is a condition of that, with what it stands for.
func FoundSo(what string, words []string) Condition {
	return OfEngine(what+" among the technician's findings", func(c *Case) bool { return c.Found(words...) })
}

// CoolantSigns counts the signs that coolant gets into where the engine burns or
// gas into the coolant, each of its own kind: that it is missed, smoke, what was
// found, and that an engine with gas in its coolant overheats. One alone may be a
// hose.
func (c *Case) CoolantSigns() int {
	if c.AirCooled() {
		return 0
	}
	n := 0
	// The chambers of a rotary lie low: what leaks past its coolant seals as it stands
	// is steam at the start.
	steams := c.Rotary() && c.Complains("coolant loss") && c.Smokes("white", "start")
	for _, sign := range []bool{c.Complains("coolant loss"), steams || c.Smokes("white", "load", "always", "idle"), c.Found(CoolantBurnt...), c.Found(GasInCoolant...), c.CoolantHot() && c.Found(GasInCoolant...)} {
		if sign {
			n++
		}
	}
	return n
}

// FuelInTheOil is oil that smells of fuel, or in which fuel was found.
var FuelInTheOil = Any(OilSmells, FoundSo("fuel in the oil", FuelInOil))

// FuelRaisesOil is so much of it that the oil stands over its mark.
var FuelRaisesOil = All(FuelInTheOil, Any(OilOverFull, FoundSo("a level over its mark", []string{"over full", "overfull", "over the mark", "above the mark", "above full", "fingers over", "too high"})))

// otherOil is oil, or a filter, that is not the engine's.
var otherOil = []string{"gearbox", "gear oil", "transmission", "transaxle", "differential", "axle", "final drive", "fuel filter", "primary"}

// MetalLookedFor is an engine of which the findings say whether there is metal in its oil,
// that there is or that there is none.
var MetalLookedFor = Any(MetalInOil, OfEngine("no metal in the oil or its filter among the technician's findings", func(c *Case) bool {
	denied := func(text, word string) bool { return strings.Contains(text, word) && !SpeaksOf(text, word) }
	return c.findingSays(func(text string) bool {
		ofOil := strings.Contains(text, "oil") || strings.Contains(text, "sump")
		return ofOil && !SpeaksOf(text, otherOil...) && (denied(text, "metal") || denied(text, "glitter") || denied(text, "swarf") || denied(text, "shavings"))
	})
}))

// MetalInOil is metal that was found in the engine's oil or its filter.
var MetalInOil = OfEngine("metal in the oil or its filter among the technician's findings", func(c *Case) bool {
	return c.findingSays(func(text string) bool {
		return saysMetal(foundIn(stillSo(text)))
	})
})

func saysMetal(text string) bool {
	return (SpeaksOf(text, metalInOil...) || metalInFilter.in(text)) && !SpeaksOf(text, otherOil...)
}
