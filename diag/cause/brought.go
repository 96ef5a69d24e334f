package cause

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// A brought is a reading that faults of the engine put past a limit by themselves: common
// practice, no source.
type brought struct {
	reading string   // of a further test, with its section; "" for one of the other readings
	words   []string // of which the name of such a one has one, and none of but
	but     []string
	over    bool // the limit that it is past is the most, and not the least, that is allowed
	by      []string
	felt    []string // with all causes that explain one of these complaints
	fits    func(*known.Case) bool
}

// feedsRail are what lets a diesel's rail have too little pressure.
var feedsRail = []string{"diesel-injector", "high-pressure-pump", "fuel-filter", "supply-restricted", "air-in-fuel", "pump", "pump-circuit", "pump-voltage", "regulator-open", "regulator-stuck", "bad-fuel"}

var broughtPast = []brought{
	{reading: "exhaust-gas gas hc", over: true, felt: []string{misfire, rich, lean, oilUse}},
	{reading: "exhaust-gas gas co", over: true, felt: []string{rich}},
	{reading: "exhaust-gas gas co2", felt: []string{misfire, rich, lean}},
	{reading: "exhaust-gas gas o2", over: true, felt: []string{misfire, lean}},
	{reading: "exhaust-gas gas nox", over: true, by: []string{"early-ignition", "knock", "carbon", "too-hot"}, felt: []string{lean, overheat}},
	{reading: "exhaust-gas lambda", over: true, felt: []string{misfire, lean}},
	{reading: "exhaust-gas lambda", felt: []string{rich}},
	{reading: "diesel smoke", over: true, by: []string{"boost-leak", "air-filter"}, felt: []string{rich, oilUse}},
	{reading: "injectors before", by: []string{"own-injector", "dirty-injectors"}},
	{reading: "injectors before", over: true, by: []string{"own-injector", "leaking-injector"}},
	{words: []string{"hydrocarbon", "hydrocarbons", "hc"}, over: true, felt: []string{misfire, rich, lean, oilUse}},
	{words: []string{"carbon monoxide", "co"}, over: true, felt: []string{rich}},
	{words: []string{"misfire", "misfires", "misfire count"}, over: true, felt: []string{misfire}},
	{words: []string{"voltage drop", "volt drop", "volts dropped"}, but: []string{"alternator", "charging", "lamp", "coil", "pump", "sensor"}, over: true, by: []string{"starter-cables"}},
	{words: []string{"rail", "common rail"}, but: []string{"low side", "feed", "return"}, by: feedsRail},
	{words: []string{"dilution", "fuel in oil", "fuel in the oil"}, over: true, by: []string{"fuel-in-oil", "diesel-injector", "filter-regeneration", "short-trips", "light-load"}, felt: []string{rich}},
	{words: []string{"dilution", "fuel in oil", "fuel in the oil"}, over: true, by: []string{"exhaust-filter", "restricted-exhaust"}, fits: regenerates}, // a full filter is burned clean again and again
	{words: []string{"oil use", "oil used", "oil consumption", "oil burned"}, over: true, felt: []string{oilUse}},
	{words: []string{"opacity", "smoke"}, over: true, by: []string{"boost-leak", "air-filter"}, felt: []string{rich, oilUse}},
	{words: []string{"coolant temperature", "water temperature", "engine temperature", "head temperature"}, over: true, felt: []string{overheat}},
	{words: []string{"coolant temperature", "water temperature", "engine temperature"}, by: []string{"thermostat"}},
	{words: []string{"exhaust temperature", "exhaust gas temperature", "egt"}, over: true, by: []string{"late-ignition", "advance", "restricted-exhaust", "exhaust-filter", "boost-leak", "diesel-injector", "air-filter"}, felt: []string{lean}},
	{words: []string{"power", "torque", "horsepower", "static rpm", "full throttle rpm", "wot rpm", "top speed", "pull"}, but: []string{"steering", "take-off", "take off"}, felt: []string{lowPower}},
	{words: []string{"idle speed", "idle rpm"}, felt: []string{misfire}},
	{words: []string{"idle speed", "idle rpm"}, over: true, by: []string{"air-leak", "manifold-gasket", "injector-seals", "vacuum-hose", "crankcase-seal", "clutch-side-seal", "reed-valve"}},
	{words: []string{"blow-by", "blowby", "crankcase pressure"}, over: true, by: []string{"rings", "stuck-rings", "broken-ring-land", "piston", "holed-piston", "scored-bore", "wear", "not-run-in", "breather"}},
	{words: []string{"back-pressure", "backpressure", "exhaust pressure"}, over: true, by: []string{"exhaust-filter", "restricted-exhaust"}},
	{words: []string{"oil pressure"}, by: []string{"too-little-oil", "thin-oil", "worn-bearings", "bottom-end", "oil-pump", "oil-pick-up", "oil-relief-valve", "fuel-in-oil"}},
}

// BringsPast reports a fault that puts a reading of a further test past its limit by itself,
// so that it is part of what the fault does and no matter of its own.
func BringsPast(c *known.Case, name, section string, m *diag.MeasuredReading) bool {
	k := Named(name)
	if k == nil || k.Test {
		return false
	}
	return slices.ContainsFunc(broughtPast, func(b brought) bool {
		return b.over == m.AboveLimit() && b.is(section, m) && (b.fits == nil || b.fits(c)) && (slices.Contains(b.by, name) || slices.ContainsFunc(b.felt, func(x string) bool { return Explained(name, x) }))
	})
}

// heatsExhaust are faults that make an exhaust glow, beside those that send fuel into it.
var heatsExhaust = []string{"restricted-exhaust", "exhaust-filter", "late-ignition", "advance", "cam-timing", "exhaust-valve", "boost-leak", "air-filter"}

// HeatsExhaust reports a fault that makes an exhaust glow by itself.
func HeatsExhaust(name string) bool {
	return slices.Contains(heatsExhaust, name) || Explained(name, misfire) && Explained(name, noStart) || Explained(name, rich) || Explained(name, lean)
}

// is reports that a reading is the one meant.
func (b *brought) is(section string, m *diag.MeasuredReading) bool {
	if section != diag.OtherReadings {
		return b.reading == section+" "+m.Name
	}
	return known.Calls(m.Name, b.words) && !known.Calls(m.Name, b.but)
}
