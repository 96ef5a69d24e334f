package sight

import (
	"regexp"
	"slices"
	"strings"
)

// The parts of an engine's bottom end, of what oils it and of what turns with it, by what may
// come to them. A text that Bottom read has these in the place of their names.
const (
	Bearing   = "bearingpart" // what runs in oil: shells, journals, pins, washers
	Shaft     = "shaftpart"   // crankshaft, rods, balance shafts
	Camshaft  = "camshaftpart"
	OilPump   = "oilpumppart"
	OilPickUp = "pickuppart"
	OilPlug   = "oilplugpart" // what closes an oil way
	Plate     = "platepart"   // what the crankshaft drives by
	CapBolt   = "capboltpart"
	Guide     = "guidepart" // of the timing chain
	otherPart = "otherthing"
)

// ofRod may stand behind a bearing: "the journal of rod 2".
const ofRod = `(?: (?:of|on|in|from) (?:the )?(?:con ?|connecting )?rods?)?`

// bearingNamed is a bearing, by its names, with the rod that it is of.
var bearingNamed = regexp.MustCompile(`\b(?:(?:main|rod|con ?rod|connecting rod|big end|little end|small end|bottom end|lower end|crank(?:shaft)?|center|centre|thrust|balancer? shaft|cam(?:shaft)?|needle|shell)(?: (?:bearing|shell|bush|bushing|journal|cap)s?)+|` +
	`bearings?(?: (?:shell|cap|halve|half)s?)?|shells?|journals?|crank ?pins?|(?:big|little|small) ends?|(?:bottom|lower) end|thrust (?:washer|face|collar)s?|white metal|babbitt)` + ofRod + `\b`)

// bottomNames are their names, each kind by its own; the first are things that are named after
// them, or like them.
var bottomNames = []struct {
	kind  string
	named *regexp.Regexp
}{
	{otherPart, regexp.MustCompile(`\b(?:(?:crank(?:shaft)?|cam(?:shaft)?|flywheel|flex ?plate) (?:position |speed |angle |front |rear |timing |oil )*(?:sensors?|pulleys?|seals?|dampers?|signal|code|case|covers?|trigger|pick ?up|ring gear|teeth|key|keyway|screen|housing|side|breather|guard|shield|magnets?|marks?)|` +
		`(?:wheel|alternator|generator|dynamo|idler|pulley|pump|tensioner|clutch|release|throwout|pilot|spigot|fan|gearbox|transmission|turbo|turbocharger|starter|propshaft|steering|axle|supercharger|blower|compressor|magneto|distributor|carrier|differential|pto|spindle|blade|throttle|rocker|strut|pedal|hub) (?:shaft )?bearings?|` +
		`(?:tie|track|control|throttle|governor|linkage|steering|shift|selector|rack|welding|listening|push|pull|radius|clutch|brake|choke|pump|stop|metering|actuator|wastegate|measuring|steel|brass|wooden|roll) rods?|(?:with|through|by|using) an? (?:\w+ )?rod|` +
		`(?:muffler|exhaust|heat|catalyst|converter|silencer|filter) shells?|shells? of (?:the )?(?:muffler|exhaust|catalyst|converter|silencer|filter|pump)|pin (?:clips?|retainers?|circlips?|buttons?)|oil pump (?:gaskets?|seals?|o rings?|relief|pressure|cover gasket)|(?:valve|stem|dipstick|plug|seat ?belt) guides?)\b`)},
	{CapBolt, regexp.MustCompile(`\b(?:(?:con |connecting )?rod|conrod|big end|main|main bearing|rod bearing|bearing)(?: cap)? (?:bolts?|nuts?|studs?)\b`)},
	{Bearing, bearingNamed},
	{Bearing, regexp.MustCompile(`\b(?:piston|gudgeon|wrist) pins?\b`)},
	{OilPickUp, regexp.MustCompile(`\b(?:oil (?:pump )?(?:pick ?up|strainer|screen|gauze)|pick ?up (?:tube|pipe|screen|strainer))(?: (?:tube|pipe|screen|strainer))?s?\b`)},
	{OilPump, regexp.MustCompile(`\boil pump(?: (?:drive|gear|chain|shaft|rotor|sprocket)s?)*\b`)},
	{OilPlug, regexp.MustCompile(`\b(?:(?:oil )?gallery|oil ?way) plugs?\b`)},
	{Plate, regexp.MustCompile(`\b(?:(?:flex ?plate|drive ?plate|flywheel)(?: (?:bolt|nut)s?)?|converter (?:bolts?|nuts?))\b`)},
	{Shaft, regexp.MustCompile(`\b(?:crankshafts?(?: webs?)?|crank webs?|(?:con |connecting )?rods?|conrods?|balancer? shafts?)\b`)},
	{Camshaft, regexp.MustCompile(`\bcamshafts?(?: (?:sprocket|gear)s?)?\b`)},
}

// crankSaid is the shaft called a crank: the word is more often what a starter does.
var crankSaid = regexp.MustCompile(`\b(?:(broken|bent|cracked|snapped|scored) crank\b|crank (?:(?:is|was|has|found) )?(bent|broken|cracked|snapped|scored|blue|blued|twisted|burnt|burned)\b)`)

// chainGuide is a guide where a chain or what tensions it is told of.
var chainGuide, chainSaid = regexp.MustCompile(`\b(?:guides?(?: rails?)?|(?:tensioner|chain) rails?)\b`), regexp.MustCompile(`\b(?:chain|tensioner)`)

// stems are what every name of these parts has in it: most texts have none.
var stems = []string{"rod", "bearing", "shell", "journal", "crank", " end", "pin", "thrust", "metal", "babbitt", "pick", "strainer", "screen", "gauze", "pump", "way plug", "oilway", "gallery", "plate", "flywheel", "converter", "shaft", "camshaft", "guide", "rail", "main"}

// Bottom is a text in plain words in which parts of the bottom end stand by their kinds.
func Bottom(text string) string {
	if !slices.ContainsFunc(stems, func(stem string) bool { return strings.Contains(text, stem) }) {
		return text
	}
	text = crankSaid.ReplaceAllString(text, Shaft+" $1$2")
	for _, of := range bottomNames {
		text = of.named.ReplaceAllString(text, of.kind)
	}
	if chainSaid.MatchString(text) {
		text = chainGuide.ReplaceAllString(text, Guide)
	}
	return text
}
