package cause

import (
	"slices"
	"strings"
	"sync"

	"gaugesheet/diag/known"
)

// A Part is something that work renews. Once it was, what wears it out is less
// likely; what it was put together with may be the worse for it.
type Part struct {
	Words  []string // as the work done names it, in plain form
	Causes []string // what is less likely once it is new
	// Among is what it is one part of several of: with one of them new, it is not what is
	// suspected first.
	Among []string
	// Joint: it seals only as well as it was put together, so that it being new
	// says less.
	Joint bool
	// Faces are what a joint seals against, for what is wrong with them: where it is new
	// and what it was put in for is not cured, they are the likelier.
	Faces []string
	// Cleans: once it was cleaned it is as when it was new.
	Cleans bool
}

// RenewedParts are the parts whose renewal speaks against a cause: common practice, no
// source. Timing belts and chains are not among them: one just fitted is looked
// at first, for a tooth; nor are camshafts, of which a new one that was not run in
// wears first.
var RenewedParts = []Part{
	{Words: []string{"exhaust valve", "exhaust valves"}, Causes: []string{"exhaust-valve", "valve-recession"}},
	{Words: []string{"inlet valve", "inlet valves", "intake valve", "intake valves"}, Causes: []string{"inlet-valve"}},
	{Words: []string{"valves", "valve job", "valve grind", "another head", "other head", "new head", "new cylinder head", "head rebuilt", "head reconditioned", "head redone", "head overhauled", "head renewed", "head replaced", "engine rebuilt", "engine overhauled", "rebuilt engine", "engine rebuild"},
		Causes: []string{"exhaust-valve", "inlet-valve", "valve-recession", "carbon-on-seat", "guides-or-seals"}},
	{Words: []string{"another head", "other head", "new head", "new cylinder head", "head renewed", "head replaced"}, Causes: []string{"warped-or-cracked-head"}},
	{Words: []string{"rings", "ring set", "engine rebuilt", "engine overhauled", "rebuilt engine", "engine rebuild"}, Causes: []string{"rings", "oil-control-rings", "stuck-rings", "wear"}},
	{Words: []string{"piston", "pistons", "engine rebuilt", "engine overhauled", "rebuilt engine", "engine rebuild"}, Causes: []string{"piston", "holed-piston", "broken-ring-land"}},
	{Words: []string{"sleeve", "sleeves", "liner", "liners", "barrel", "barrels", "rebored", "rebore", "honed", "engine rebuilt", "engine overhauled", "rebuilt engine", "engine rebuild"}, Causes: []string{"scored-bore", "wear"}},
	{Words: []string{"headgasket", "headgaskets"}, Causes: []string{"head-gasket"}, Joint: true, Faces: []string{"warped-or-cracked-head"}},
	{Words: []string{"lifter", "lifters", "hydraulic lifters", "followers"}, Causes: []string{"collapsed-lifter", "deactivation-lifter"}},
	{Words: []string{"stem seals", "valve seals", "valve stem seals", "valve guides"}, Causes: []string{"guides-or-seals"}},
	{Words: []string{"apex seals", "rotor seals", "rotor housings"}, Causes: []string{"apex-seal", "side-seal", "corner-seal", "rotor-wear"}},
	{Words: []string{"reeds", "reed valve", "reed valves"}, Causes: []string{"reed-valve"}},
	{Words: []string{"crank seals", "crankshaft seals", "crankcase seals"}, Causes: []string{"crankcase-seal"}},
	{Words: []string{"catalyst", "catalytic converter", "silencer", "muffler"}, Causes: []string{"restricted-exhaust"}},
	{Words: []string{"ignition coil", "coil", "coils"}, Causes: []string{"own-spark", "coil-or-lead", "shared-coil"}, Among: []string{"ignition"}},
	{Words: []string{"plugs", "new plug", "plug renewed", "plug replaced", "leads", "plug wires", "distributor cap", "rotor arm"}, Among: []string{"ignition"}},
	{Words: []string{"fuel filter", "petrol filter", "gasoline filter", "diesel filter", "inline filter", "fuel strainer", "fuel and air filter", "air and fuel filter", "all filters"}, Causes: []string{"fuel-filter"}},
	{Words: []string{"fuel pump"}, Causes: []string{"pump", "pump-check-valve"}},
	{Words: []string{"regulator", "pressure regulator", "fuel pressure regulator"}, Causes: []string{"regulator-open", "regulator-stuck", "regulator-diaphragm"}},
	{Words: []string{"injector", "injectors"}, Causes: []string{"own-injector", "leaking-injector", "dirty-injectors"}, Among: []string{"injection"}},
	{Words: []string{"temperature sensor", "coolant temperature sensor", "coolant sensor"}, Causes: []string{"temperature-signal"}},
	{Words: []string{"air meter", "air flow meter", "airflow meter", "mass air flow sensor"}, Causes: []string{"air-meter"}},
	{Words: []string{"oxygen sensor", "oxygen sensors", "lambda sensor", "lambda sensors"}, Causes: []string{"bank-sensor"}},
	{Words: []string{"purge valve"}, Causes: []string{"purge-valve"}},
	{Words: []string{"thermostat"}, Causes: []string{"thermostat"}},
	{Words: []string{"water pump", "coolant pump"}, Among: []string{"coolant-flow"}},
	{Words: []string{"radiator cap", "pressure cap", "coolant cap"}, Causes: []string{"pressure-cap"}},
	{Words: []string{"glow plug"}, Causes: []string{"glow-plug"}},
	{Words: []string{"new oil", "oil and filter", "oil and oil filter", "filter and oil", "engine oil", "oil change", "oil changed", "changed oil", "changed the oil", "fresh oil", "oil renewed", "oil replaced"}, Causes: []string{"thin-oil", "thick-oil"}},
	{Words: []string{"oil pump"}, Causes: []string{"oil-pump"}},
	{Words: []string{"manifold gasket", "inlet manifold gasket", "intake manifold gasket"}, Causes: []string{"manifold-gasket"}, Joint: true},
	{Words: []string{"breather", "crankcase breather", "crankcase ventilation", "crankcase vent", "vent valve", "pcv", "pcv valve", "ventilation"}, Causes: []string{"breather", "vent-valve-open"}, Cleans: true},
	{Words: []string{"air filter", "air cleaner", "air filter element"}, Causes: []string{"air-filter"}, Cleans: true},
	{Words: []string{"carburetor", "carburettor", "carb", "carburetors", "carbs", "jets"}, Causes: []string{"carburettor"}, Cleans: true},
	{Words: []string{"oil cooler"}, Causes: []string{"oil-cooler"}},
	{Words: []string{"turbo", "turbocharger"}, Causes: []string{"turbo-seal"}},
	{Words: []string{"blower", "blower seals", "scavenge blower"}, Causes: []string{"blower-seals"}},
	{Words: []string{"air box drains", "air box drain"}, Causes: []string{"air-box-drains"}, Cleans: true},
	{Words: []string{"egr cooler"}, Causes: []string{"egr-cooler"}},
	{Words: []string{"injector seals"}, Causes: []string{"injector-seals"}, Joint: true},
}

// Renewed lists the parts that the job says were renewed in these cylinders.
func Renewed(c *known.Case, cylinders []string) []*Part {
	var list []*Part
	places := c.Renewed(cylinders, partNames())
	for _, place := range c.Cleaned(partNames()) {
		if RenewedParts[place].Cleans && !slices.Contains(places, place) {
			places = append(places, place)
		}
	}
	for _, place := range places {
		list = append(list, &RenewedParts[place])
	}
	return list
}

// onNewParts reports a check that does nothing but look at, clean or replace parts of which the job
// says that it was done: what is left over may have been looked at otherwise.
func (k *Check) onNewParts(c *known.Case, cylinders []string) bool {
	if len(k.Mends) == 0 || !c.SomethingDone() {
		return false
	}
	var done []string
	for _, p := range Renewed(c, cylinders) {
		if !p.Joint {
			done = append(done, p.Causes...)
		}
	}
	if slices.Contains(done, "thin-oil") && !known.OilSmells.HoldsIn(c) { // or it would, fresh as it is
		done = append(done, "fuel-in-oil")
	}
	if oilLevelRead(c) {
		done = append(done, "too-much-oil")
	}
	return len(done) > 0 && !slices.ContainsFunc(k.Mends, func(name string) bool { return !slices.Contains(done, name) })
}

// partNames are the names that each part goes by.
var partNames = sync.OnceValue(func() *known.Vocabulary {
	names := make([]known.Phrases, len(RenewedParts))
	for i := range RenewedParts {
		for _, word := range RenewedParts[i].Words {
			names[i] = append(names[i], word)
			if !strings.HasSuffix(word, "s") { // "new fuel filters"
				names[i] = append(names[i], word+"s")
			}
		}
	}
	return known.NewVocabulary(names)
})
