package cause

import (
	"slices"

	"gaugesheet/diag/known"
)

// Complaints as the job file has them.
const (
	misfire, noStart, hardStart   = "misfire", "no start", "hard start"
	rich, lean, lowPower          = "rich running", "lean running", "low power"
	oilUse, coolantLoss, overheat = "oil use", "coolant loss", "overheating"
	noise, stood                  = "noise", "stood"

	whiteSmoke, blackSmoke, oilLight = known.WhiteSmoke, known.BlackSmoke, known.OilLight // told by other keys
)

var (
	roughly  = []string{misfire, lowPower}                          // one cylinder does less
	deadly   = []string{misfire, lowPower, hardStart}               // one cylinder does nothing
	wholly   = []string{lowPower, hardStart, noStart}               // all cylinders do less
	leanly   = []string{lean, misfire, lowPower, hardStart}         // too little fuel
	richly   = []string{rich, misfire, hardStart, lowPower}         // too much fuel
	coolants = []string{coolantLoss, overheat, misfire, whiteSmoke} // coolant and gas meet
	oily     = []string{oilUse, misfire}                            // oil is burnt
	sparkly  = []string{misfire, lowPower, hardStart, noStart}      // no spark
)

// A symptom is brought about by what explains one of some complaints, and by other causes too.
type symptom struct{ like, by []string }

// symptoms are those that owners tell in sentences.
var symptoms = map[string]symptom{
	known.Hunting: {like: []string{lean, rich, misfire}, by: []string{"governor"}},
	known.SpittingBack: {like: []string{lean}, by: []string{"inlet-valve", "valve-lash", "valve-recession", "valve-stretch", "carbon-on-seat", "bent-valve", "broken-valve", "stuck-valve", "sticking-valve", "valve-motion", "valve-springs", "collapsed-lifter",
		"cam-timing", "cam-phaser", "timing-drive", "worn-chain", "broken-camshaft", "late-ignition", "early-ignition", "timing-mark", "flywheel-key", "leads-crossed", "reed-valve", "head-gasket", "restricted-exhaust"}},
	known.HangingRevs: {by: []string{"air-leak", "manifold-gasket", "injector-seals", "shared-runner", "crankcase-seal", "clutch-side-seal", "sensor-or-air-leak", "carburettor", "lean-mixture", "vent-valve-open", "purge-valve", "throttle-deposits", "late-ignition", "governor"}},
	known.OilOutside:  {by: []string{"breather", "too-much-oil", "air-compressor", "turbo-seal", "rings", "stuck-rings", "wear", "piston", "holed-piston", "broken-ring-land", "scored-bore", "pitted-bore", "oil-cooler"}},
}

// ofComplaint is what commonly causes a complaint that no reading explains, the
// commonest first.
var ofComplaint = map[string][]string{
	misfire:     {"ignition", "injection", "sensor-or-air-leak", "valve-motion"},
	noStart:     {"ignition", "injection", "flooding", "timing-drive"},
	hardStart:   {"injection", "ignition", "temperature-signal", "pump-check-valve"},
	rich:        {"regulator-diaphragm", "leaking-injector", "temperature-signal", "purge-valve", "air-filter"},
	lean:        {"air-leak", "low-fuel-pressure", "air-meter"},
	lowPower:    {"low-fuel-pressure", "ignition", "restricted-exhaust", "air-filter", "cam-timing", "air-meter"},
	oilUse:      {"guides-or-seals", "breather", "oil-control-rings", "oil-burning", "too-much-oil"},
	coolantLoss: {"coolant-leak-outside", "head-gasket", "coolant-seal", "other-than-sealing"},
	overheat:    {"coolant-flow", "coolant-leak-outside", "thermostat", "head-gasket", "coolant-seal", "too-hot", "lean-mixture"},
	noise:       {"valve-motion", "valve-lash", "bottom-end", "too-little-oil", "worn-chain", "apex-seal", "piston", "early-ignition", "carbon"},
	oilLight:    {"too-little-oil", "oil-sender", "worn-bearings", "oil-pump", "thin-oil"},
	stood:       {"stuck-rings", "stuck-valve", "stuck-seals"},
	whiteSmoke:  {"head-gasket", "warped-or-cracked-head", "coolant-seal", "cracked-housing"},

	known.Hunting:      {"air-leak", "throttle-deposits", "sensor-or-air-leak", "low-fuel-pressure"},
	known.SpittingBack: {"air-leak", "low-fuel-pressure", "inlet-valve", "cam-timing"},
	known.HangingRevs:  {"air-leak", "throttle-deposits", "vent-valve-open"},
	known.OilOutside:   {"breather", "too-much-oil"},
}

// ofCarburetted and ofDiesel are that for engines without a computer that meters
// petrol, where they differ.
var (
	ofCarburetted = map[string][]string{
		misfire:   {"ignition", "carburettor", "valve-motion"},
		noStart:   {"ignition", "carburettor", "flooding", "timing-drive"},
		hardStart: {"carburettor", "ignition", "flooding"},
		rich:      {"carburettor", "air-filter"},
		lean:      {"carburettor", "air-leak"},
		lowPower:  {"carburettor", "late-ignition", "ignition", "restricted-exhaust", "air-filter", "cam-timing"},

		known.Hunting:      {"carburettor", "governor", "air-leak"},
		known.SpittingBack: {"carburettor", "air-leak", "inlet-valve", "late-ignition"},
		known.HangingRevs:  {"air-leak", "carburettor", "governor"},
	}
	// ofAirCooled is that for engines that only air cools.
	ofAirCooled = map[string][]string{
		overheat:   {"clogged-fins", "late-ignition", "early-ignition", "lean-mixture", "head-gasket"},
		whiteSmoke: {"guides-or-seals", "oil-control-rings", "breather", "too-much-oil"}, // without water it is oil, or fuel that does not burn
	}
	// ofPorted is that for two-strokes, which draw through their crankcase and choke
	// their exhaust with the oil that they burn.
	ofPorted = map[string][]string{
		misfire:    {"ignition", "carburettor", "crankcase-seal"},
		noStart:    {"ignition", "flooding", "carburettor", "crankcase-seal"},
		hardStart:  {"ignition", "carburettor", "reed-valve", "crankcase-seal", "flooding"},
		rich:       {"carburettor", "air-filter", "wrong-mix"},
		lean:       {"crankcase-seal", "carburettor", "air-leak"},
		lowPower:   {"restricted-exhaust", "carburettor", "ignition", "reed-valve", "crankcase-seal", "power-valve", "air-filter"},
		oilUse:     {"wrong-mix", "too-much-oil", "crankcase-seal"},
		whiteSmoke: {"wrong-mix", "clutch-side-seal", "head-gasket", "crankcase-seal"},
		noise:      {"piston", "bottom-end", "rings"},

		known.Hunting:      {"carburettor", "crankcase-seal", "air-leak"},
		known.SpittingBack: {"reed-valve", "carburettor", "crankcase-seal"},
		known.HangingRevs:  {"crankcase-seal", "air-leak", "carburettor"},
		known.OilOutside:   {"crankcase-seal", "wrong-mix"},
	}
	ofDiesel = map[string][]string{
		misfire:    {"diesel-injector", "air-in-fuel", "valve-motion"},
		noStart:    {"air-in-fuel", "fuel-filter", "glow-plug", "timing-drive"},
		hardStart:  {"glow-plug", "air-in-fuel", "diesel-injector"},
		lowPower:   {"fuel-filter", "air-filter", "boost-leak", "diesel-injector", "restricted-exhaust"},
		blackSmoke: {"air-filter", "boost-leak", "diesel-injector", "egr-open"},
		whiteSmoke: {"diesel-injector", "air-in-fuel", "head-gasket"},
		noise:      {"diesel-injector", "valve-motion", "valve-lash", "bottom-end", "too-little-oil", "worn-chain", "piston"},

		known.Hunting:      {"air-in-fuel", "fuel-filter", "injection"},
		known.SpittingBack: {"inlet-valve", "cam-timing"},
		known.HangingRevs:  {"injection"},
	}
)

// OfComplaint is what commonly causes a complaint that no reading explains, the
// commonest first.
func OfComplaint(c *known.Case, complaint string) []string {
	complaint = known.AsComplaint(complaint)
	list := ofComplaint[complaint]
	of := map[string][]string(nil)
	switch {
	case c.Spec.Diesel():
		of = ofDiesel
	case c.Ported():
		of = ofPorted
	case c.Carburetted():
		of = ofCarburetted
	}
	if own, ok := ofAirCooled[complaint]; ok && c.AirCooled() {
		list = own
	}
	if own, ok := of[complaint]; ok {
		list = own
	}
	if complaint == whiteSmoke && c.Spec.Diesel() && !c.Smokes("white", "load", "always") { // it goes as it warms up
		list = append([]string{"glow-plug"}, list...)
	}
	if complaint == hardStart {
		list = append(decompressorLash(c), list...)
	}
	if complaint == misfire && c.Flies() && valved(c) { // whose valves lead and heat gum up in their guides
		list = slices.Insert(slices.Clone(list), min(2, len(list)), "sticking-valve")
	}
	if slices.Contains([]string{noStart, hardStart}, complaint) && known.KeyMayBeSheared.HoldsIn(c) {
		list = append([]string{"flywheel-key"}, list...)
	}
	if c.Ported() && c.DryRead() && !c.PressureByFigure() && slices.Contains([]string{hardStart, noStart}, complaint) { // which its pressure has not cleared
		list = append([]string{"rings"}, list...)
	}
	if (complaint == lowPower || complaint == rich) && charged(c) && !slices.Contains(list, "boost-leak") {
		list = append([]string{"boost-leak"}, list...)
	}
	if complaint == oilUse && charged(c) {
		list = append([]string{"turbo-seal"}, list...)
	}
	if complaint == oilUse && blown(c) {
		list = append([]string{"blower-seals", "air-box-drains"}, list...)
	}
	if complaint == oilUse && (quietCrankcase(c) || known.CrankcaseDraws.HoldsIn(c)) {
		list = slices.DeleteFunc(slices.Clone(list), func(name string) bool { return name == "breather" })
	}
	return list
}

// decompressorLash is what is wrong with the clearance of an engine whose decompressor lifts a
// valve by it: too wide it is not lifted, and too tight it never shuts, which a test of its
// leakage would tell.
func decompressorLash(c *known.Case) []string {
	switch {
	case c.Spec.Decompressor != "automatic" || c.ClearancesRight():
		return nil
	case c.SealsAtRest():
		return []string{"valve-loose"}
	}
	return []string{"valve-lash", "valve-loose"}
}

// quietCrankcase is an engine whose crankcase was found not to press.
func quietCrankcase(c *known.Case) bool { return known.CrankcaseQuiet.HoldsIn(c) }

// quietVent is such an engine of which nothing speaks for its vent: little gas under a pressure
// that is over its limit all the same is a vent that does not let it out.
func quietVent(c *known.Case) bool { return quietCrankcase(c) && !known.VentHolds.HoldsIn(c) }
