package rule

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// ofFault is what each of known.Faults is, the likeliest first.
var ofFault = map[string][]string{
	"intake-deposits": {"inlet-deposits"},
	"lead":            {"coil-or-lead", "own-spark"},
	"spark":           {"ignition", "coil-or-lead", "own-spark"},
	"wells":           {"moisture-at-plug", "coil-or-lead"},
	"injector-dead":   {"injection", "own-injector", "diesel-injector"},
	"injector-drips":  {"leaking-injector"},
	"exhaust":         {"restricted-exhaust"},
	"injector-seat":   {"injector-seat"},
	"head-joint":      {"head-gasket", "warped-or-cracked-head"},
	"valve-noise":     {"valve-motion", "valve-lash", "collapsed-lifter"},
	"egr":             {"egr-open"},
	"egr-cooler":      {"egr-cooler"},
	"air-leak":        {"air-leak", "manifold-gasket"},
	"boost":           {"boost-leak"},
	"choked-inlet":    {"air-filter", "restricted-inlet"},
	"fuel-filter":     {"fuel-filter"},
	"pump-supply":     {"pump-circuit"},
	"bad-fuel":        {"bad-fuel"},
	"fuel-line":       {"supply-restricted"},
	"tank-draws":      {"supply-restricted"},
	"fuel-return":     {"return-blocked"},
	"air-in-fuel":     {"air-in-fuel"},
	"pump-timing":     {"injection"},
	"distributor":     {"late-ignition", "early-ignition"},
	"throttle":        {"throttle-deposits"},
	"cam-off":         {"cam-timing"},
	"chain":           {"worn-chain"},
	"valve-gear":      {"valve-motion"},
	"lifter":          {"collapsed-lifter"},
	"temperature":     {"temperature-signal"},
	"air-meter":       {"air-meter"},
	"purge":           {"purge-valve"},
	"carburettor":     {"carburettor"},
	"guides":          {"guides-or-seals"},
	"breather":        {"breather"},
	"magneto":         {"ignition", "own-spark"},
	"reeds":           {"reed-valve"},
	"spits-back":      {"reed-valve", "inlet-valve", "carburettor", "air-leak", "valve-motion"},
	"power-valve":     {"power-valve"},
	"port-carbon":     {"restricted-exhaust"},
	"battery":         {"battery", "weak-cranking"},
	"crank-signal":    {"ignition"},
	"drive-plate":     {"drive-plate"},
	"driven-part":     {"driven-part"},
	"hung-on":         {"hung-on"},
	"coolant-flow":    {"coolant-flow"},
	"fins":            {"too-hot"},
	"thermostat":      {"thermostat"},
	"glow-plug":       {"glow-plug"},
	"oil-strainer":    {"oil-pick-up"},
	"oil-sludge":      {"oil-pick-up"},
	"strainer":        {"fuel-filter"},
	"oil-relief":      {"oil-relief-valve"},
	"oil-pump":        {"oil-pump"},
	"bearings":        {"worn-bearings"},
	"bottom-end":      {"bottom-end"},
	"coolant-outside": {"coolant-leak-outside"},
	"intake-coolant":  {"intake-coolant-gasket"},
}

// ofSupply are the faults that lie in the fuel supply, and so speak in its story
// too.
var ofSupply = []string{"fuel-filter", "strainer", "pump-supply", "bad-fuel", "fuel-line", "tank-draws", "fuel-return", "air-in-fuel"}

// faultRules are on what the technician found by eye, ear or hand on an engine of
// which no cylinder is low.
var faultRules = []Rule{{
	Name: "fault-found", Title: "The technician found a fault by eye, ear or hand",
	Why: "Who has the engine in hand sees a split hose, a burnt lead, a coked port. Where no cylinder reads low and there is a complaint, what was found comes before whatever else a complaint can come from: " +
		"it is put right, and then it is seen whether the complaint is gone. Where nobody complains it is put right all the same; what a fault only does says nothing by itself then.",
	Source: byEye, Class: Together, About: diag.AboutEngine, Ties: []diag.About{diag.AboutMixture}, TiesSystems: []string{known.Vacuum},
	Of: theEngine, When: known.All(known.OfEngine("a fault that is known by its words among the technician's findings", func(c *known.Case) bool { faults, _ := c.FaultsFound(); return len(faults) > 0 }),
		known.Any(soundAndIll, known.All(known.OfEngine("a fault itself among them", (*known.Case).FaultToMend), noneFoundLow)),
		known.OfEngine("none of what is left of them in a story of its own", faultOfEngine)),
	Kind: OfSight, Weigh: faultVoices, Say: func(c *known.Case, _ known.Subject) diag.Finding {
		_, lines := c.FaultsFound()
		urgency := diag.CheckAgain
		if c.RunsHot() {
			urgency = diag.ActSoon
		}
		headline := "fault-found"
		if len(c.Complaints()) == 0 {
			headline = "fault-seen"
		}
		return diag.Finding{Urgency: urgency, Headline: headline, Confidence: diag.Fair, Facts: diag.Facts{"found": diag.Names(lines), "read": c.DryRead(), "ill": len(c.Complaints()) > 0}}
	}, Headline: "fault-found", InsteadOf: []string{"sealing-sound-look-elsewhere"},
}}

// faultOfEngine reports that one at least of the faults found is not of the fuel
// supply where too little fuel was read, which has its own story; nor what a fault does
// where it was measured which cylinder does not breathe or loses its air.
func faultOfEngine(c *known.Case) bool {
	faults, _ := c.FaultsFound()
	breathes := len(breathers(c)) == 0 && !slices.ContainsFunc(c.Every(), c.HighLoss)
	return slices.ContainsFunc(faults, func(at int) bool {
		f := &known.Faults[at]
		return (!c.SomeCircuit(readsShort) || !slices.Contains(ofSupply, f.Name)) && (breathes || !f.Sign)
	})
}

// readsShort is a circuit that was read to have, or to deliver, too little.
func readsShort(k known.Circuit) bool {
	low, _ := k.Worst(known.Below)
	return low != nil || k.PumpDead() != nil || k.UnderUsual() != nil || k.Sags() != nil || k.VolumeShort() || pinchedLow(k)
}

// faultVoices speak for what the faults found are, the likeliest of each more than
// the others.
func faultVoices(c *known.Case, _ known.Subject) []Voice {
	var list []Voice
	faults, _ := c.FaultsFound()
	for _, at := range faults {
		list = append(list, voicesOfFault(at)...)
	}
	return list
}

// voicesOfFault are those of one, by its place; what a fault does says less than the fault.
func voicesOfFault(at int) []Voice {
	var list []Voice
	f := &known.Faults[at]
	for i, of := range ofFault[f.Name] {
		weight := max(Heard-i*4*rarer, Known)
		if f.Sign {
			weight = Known - i*2*rarer
		}
		list = append(list, Voice{Cause: of, Weight: weight})
	}
	return list
}

// FoundAs reports a cause that is what the technician found, of a part and what is wrong with it.
func FoundAs(c *known.Case, name string) bool {
	faults, _ := c.FaultsFound()
	return slices.ContainsFunc(faults, func(at int) bool {
		f := &known.Faults[at]
		return !f.Sign && len(ofFault[f.Name]) > 0 && ofFault[f.Name][0] == name
	})
}

// ofOil are what low oil pressure comes from: what was found of its pump and its bearings is told
// with that.
var ofOil = []string{"oil-strainer", "oil-sludge", "oil-relief", "oil-pump", "bearings"}

// faultSigns let what was found speak wherever its cause is suspected, above what is guessed; in
// the story of the fuel supply and of low oil pressure also where it is not; and for valve
// timing in that of an engine or a bank that is low.
var faultSigns = func() []Sign {
	var list []Sign
	on := func(name string, about diag.About, beside ...known.Condition) {
		list = append(list, Sign{When: known.All(append(beside, known.FaultFound(name))...), Kind: OfSight, About: string(about), For: voicesOfFault(known.FaultAt(name))})
	}
	for i := range known.Faults {
		f := &known.Faults[i]
		if of := ofFault[f.Name]; !f.Sign && len(of) > 0 {
			among := of[:1]
			if slices.Contains(ofOil, f.Name) {
				among = []string{"thin-oil", "worn-bearings", "oil-pump", "too-little-oil"}
			}
			list = append(list, Sign{When: known.FaultFound(f.Name), Kind: OfSight, About: "any", Among: among, For: speaks(2*Heard, of[0])})
		}
	}
	for _, name := range ofSupply {
		on(name, diag.AboutFuel)
		on(name, diag.AboutMixture)
	}
	for _, name := range []string{"cam-off", "chain", "valve-gear", "choked-inlet"} {
		on(name, diag.AboutEngine, known.UnderFloor)
	}
	on("cam-off", diag.AboutCylinders, inLowBank)
	on("spits-back", diag.AboutCylinders, known.TwoStroke, known.Plug("fuel-wet")) // what comes back wets the plug
	on("reeds", diag.AboutCylinders, known.TwoStroke, known.Plug("fuel-wet"))
	return list
}()

// ownInjector is the injector of one cylinder: a diesel's is another part.
func ownInjector(c *known.Case) string {
	if c.Spec.Diesel() {
		return "diesel-injector"
	}
	return "own-injector"
}
