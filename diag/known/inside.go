package known

import (
	"regexp"
	"strings"
)

// otherValves are valves that are none of a cylinder's: what is said of them was not seen
// inside it.
var otherValves = regexp.MustCompile(`\b(?:relief|pcv|egr|recirculation|purge|check|non return|one way|idle|idle air|air|control|bypass|by pass|expansion|wastegate|waste gate|blow off|dump|diverter|` +
	`thermostat|thermostatic|throttle|power|needle|float|decompression|decompressor|release|solenoid|shut off|shutoff|drain|metering|suction|delivery|breather|ventilation|vent|evap|canister|` +
	`schrader|adapter|tester|gauge|hose|heater|oil|fuel|regulator|regulating|pump|pressure|vacuum|delay|timing|governor|brake|service|stop) valves?\b`)

// covers are parts that are named after what they cover or hold, and lie outside.
var covers = regexp.MustCompile(`\b(?:(?:valve|rocker|cam|head|tappet) (?:cover|covers|box|lid|cover gasket)|valve (?:stem )?caps?|(?:head|cylinder head|manifold) (?:bolt|stud|nut)s?|plug (?:lead|boot|cap|wire|well)s?|tire valves?|tyre valves?|(?:jacket|core|freeze|drain|filler) plugs?)\b`)

// otherThings are things that have pistons, rods, springs and seats of their own, or none at all.
var otherThings = regexp.MustCompile(`\b(?:brakes?|clutch|gearbox|transmission|calipers?|linkage|dipstick|tailgate|tractor|hydraulics?|governor|steering|master cylinder|slave cylinder|alternator|generator|seat belt|tool ?box|recoil|pedal|cable|washer fluid|windscreen|windshield|wipers?)\b`)

// outerParts are parts beside a cylinder, of which a finding that names the cylinder may speak.
var outerParts = regexp.MustCompile(`\b(?:mounts?|studs?|bolts?|nuts?|brackets?|clamps?|clips?|straps?|hoses?|pipes?|tubes?|lines?|leads?|boots?|caps?|coils?|coil packs?|wires?|wiring|connectors?|sensors?|shields?|fins?|fans?|shrouds?|cowls?|covers?|` +
	`manifolds?|mufflers?|silencers?|tanks?|pan|sump|pumps?|pulleys?|belts?|radiators?|screws?|jackets?|block|adapters?|hangers?|starter|deck|blades?|prop|propeller|lamp|engine mount|threads?)\b`)

// partsWithin are parts of a cylinder, and words for its room.
var partsWithin = regexp.MustCompile(`\b(?:pistons?|crowns?|bores?|walls?|barrels?|liners?|sleeves?|chambers?|valves?|seats?|guides?|rockers?|push ?rods?|springs?|lobes?|cams?|camshaft|rings?|ring land|lands?|rods?|conrods?|roof|inside|borescoped?|endoscope|camera|ports?|electrodes?|porcelain|lifters?|tappets?|plug holes?|scor\w*|scuff\w*|` +
	`in(?:to)? (?:the )?(?:cylinders?|pot|hole)|in(?:to)? (?:no )?\d+)\b`)

// ofOther begins what belongs to a thing, such as the guide of the dipstick.
var ofOther = regexp.MustCompile(`\bof (?:the |its |a )?(\w+)`)

// ofInside is a text about a cylinder without the names of valves and covers that are none
// of its inside; "" where it speaks of what lies beside the cylinder alone.
func ofInside(text string) string {
	if strings.Contains(text, "valve") {
		text = otherValves.ReplaceAllString(text, "fitting")
	}
	text = covers.ReplaceAllString(text, "cover")
	if otherThings.MatchString(text) || outerParts.MatchString(text) && !namesInside(text) {
		return ""
	}
	return text
}

// namesInside reports that a text names a part of a cylinder's inside, and not only as the part
// of something that lies beside it.
func namesInside(text string) bool {
	for _, m := range ofOther.FindAllStringSubmatch(text, -1) {
		if outerParts.MatchString(m[1]) {
			return false
		}
	}
	return partsWithin.MatchString(outerParts.ReplaceAllString(text, "part"))
}

// elsewhere is what lies in or belongs to a part that is not the cylinder: what is said
// of an engine of one cylinder is about that one unless it is about such a part.
var elsewhere = regexp.MustCompile(`\b(?:in|into|from|at|on) (?:the |its |a )?(?:oil|sump|fuel|petrol|gas|gasoline|diesel|tank|carb|float|bowl|filter|radiator|coolant|line|hose|air|belt|starter|gearbox|crankcase|muffler|silencer|exhaust)|\b(?:recoil|governor|throttle|choke|starter|return|clutch|brake) (?:\w+ )?(?:spring|rope|cable)`)
