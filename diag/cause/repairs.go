package cause

import (
	"slices"

	"gaugesheet/diag/known"
)

// repairs are what is done about causes that are as good as known, by the key of its
// words; of what stands under none there is more to be found out before it is done.
var repairs = map[string][]string{
	"head":       {"exhaust-valve", "inlet-valve", "bent-valve", "broken-valve", "valve-recession", "valve-stretch"},
	"gasket":     {"head-gasket", "warped-or-cracked-head", "cracked-bore"},
	"bore":       {"rings", "broken-ring-land", "scored-bore", "holed-piston", "piston", "bent-rod", "pitted-bore", "pin-clip"},
	"valves":     {"valve-motion", "broken-camshaft", "collapsed-lifter", "deactivation-lifter", "valve-springs"},
	"liner":      {"liner-seal"},
	"timing":     {"cam-timing", "timing-drive", "worn-chain"},
	"rotor":      {"apex-seal", "side-seal", "corner-seal", "coolant-seal", "cracked-housing", "rotor-wear"},
	"bottom":     {"worn-bearings", "oil-pump", "bottom-end"},
	"injector":   {"diesel-injector", "own-injector", "leaking-injector"},
	"pick-up":    {"oil-pick-up", "oil-relief-valve"},
	"oil":        {"fuel-in-oil"},
	"wear":       {"wear"},
	"filter":     {"exhaust-filter"},
	"fuel-tight": {"fuel-leak-outside"},
	"crankcase":  {"crankcase-seal", "clutch-side-seal", "reed-valve"},
	"part": {"fuel-filter", "pump-circuit", "pump-voltage", "pump-diaphragm", "regulator-diaphragm", "regulator-open", "regulator-stuck", "return-blocked", "wrong-pump", "glow-plug", "thermostat", "pressure-cap", "coolant-leak-outside",
		"boost-leak", "turbo-seal", "air-compressor", "late-ignition", "timing-mark", "points", "magneto-plug", "magneto-lead", "magneto", "magneto-ground", "flywheel-key",
		"starter-cables", "battery", "starter", "restricted-exhaust", "coolant-flow", "air-leak", "manifold-gasket", "air-filter", "purge-valve", "temperature-signal", "carburettor",
		"gas-supply", "injector-seat", "leads-crossed", "bad-fuel", "wrong-plug", "wrong-plug-reach", "shared-coil", "wet-exhaust"},
}

var repairOf = func() map[string]string {
	index := map[string]string{}
	for key, causes := range repairs {
		for _, name := range causes {
			index[name] = key
		}
	}
	return index
}()

// RepairOf is what is done about a cause, by the key of its words, "" where nothing is
// without more being known; of cylinders that come off one by one with their heads it is
// of the cylinder.
func RepairOf(c *known.Case, name string) string {
	key := repairOf[name]
	if (name == "washed-bore" || name == "flooding") && known.FuelInTheOil.HoldsIn(c) && !c.Spec.Diesel() { // nothing is judged before the fuel is out of the oil
		return "oil"
	}
	if slices.Contains(fillsOil, name) && known.FuelInTheOil.HoldsIn(c) {
		return "fuel-in"
	}
	if name == "stuck-rings" && len(c.Those(func(n string) bool { return c.Seen(n, known.RustOnWall...) })) > 0 {
		key = "bore"
	}
	if (key == "head" || key == "bore") && c.OwnHeads(c.Every()) && c.AirCooled() && c.Several() {
		return "barrel"
	}
	if key == "gasket" && c.HeadScrewedOn() {
		return "barrel"
	}
	switch {
	case key == "wear" && known.DustDrawnIn.HoldsIn(c): // which wears what is new as well
		return "wear-dust"
	case key == "bore" && known.DustDrawnIn.HoldsIn(c):
		return "bore-dust"
	case key == "gasket" && gasketNew(c):
		return "gasket-again"
	case key == "gasket" && len(c.Those(c.CoolantIn)) > 0: // which rusts the bore while it waits
		return "gasket-wet"
	}
	return key
}

// fillsOil are causes that let fuel into the oil, which is changed once they are put right.
var fillsOil = []string{"regulator-diaphragm", "leaking-injector", "pump-diaphragm", "high-pressure-pump", "diesel-injector"}

// opened are the repairs for which cylinders come apart.
var opened = []string{"head", "bore", "bore-dust", "barrel", "rotor", "liner"}

// withBore are repairs beside which a cylinder that was damaged is measured as well.
var withBore = []string{"crankcase", "gasket", "head", "injector"}

// BesideBore is that of a repair by which a damaged cylinder is measured as well; any other as
// it is.
func BesideBore(repair string) string {
	if slices.Contains(withBore, repair) {
		return repair + "-bore"
	}
	return repair
}

// Bore reports a cause in rings, piston or wall, which are told apart once they are measured.
func Bore(name string) bool { return repairOf[name] == "bore" || name == "wear" }

// BackByItself reports a cause that oil, running or drying puts right: what has it is not
// taken apart for it.
func BackByItself(name string) bool {
	return slices.Contains([]string{"washed-bore", "dry-bores", "stuck-rings", "flooding", "not-run-in"}, name)
}

// Opened reports a cause that is put right by one of these.
func Opened(c *known.Case, name string) bool { return slices.Contains(opened, RepairOf(c, name)) }

// gasketNew is an engine whose head gasket was renewed before it leaked as it does.
func gasketNew(c *known.Case) bool {
	return slices.ContainsFunc(Renewed(c, nil), func(p *Part) bool { return slices.Contains(p.Causes, "head-gasket") })
}
