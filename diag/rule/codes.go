package rule

import (
	"fmt"
	"slices"
	"strconv"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// A code is what some stored trouble codes name, and what that speaks for. What
// the codes mean is SAE J2012, from memory; what they speak for is common
// practice, no source.
type code struct {
	names  string // what they name, in words
	of     []string
	fuel   bool            // they speak in the story of the fuel supply too
	valves bool            // they speak of the valves, and so of the pressure of all cylinders, and not of the mixture
	when   known.Condition // what has to hold beside them; none where empty
	causes []Voice
}

// span lists the codes of two numbers and all between them.
func span(first, last int) []string {
	var list []string
	for n := first; n <= last; n++ {
		list = append(list, fmt.Sprintf("P%04d", n))
	}
	return list
}

// codes are the codes that order causes. A code says that a value was not what
// the computer expected; it names a circuit and proves no part, so that it weighs
// at most as much as what is known of how an engine was tested.
var codes = []code{
	{names: "of the coolant temperature sensor", of: span(115, 119), fuel: true, causes: speaks(Known, "temperature-signal")},
	{names: "of the air meter", of: span(100, 104), fuel: true, causes: speaks(Known, "air-meter")},
	{names: "of the manifold pressure sensor", of: span(105, 109), fuel: true, causes: speaks(DryUp, "sensor-or-air-leak", "air-leak")},
	{names: "of the throttle's place", of: span(120, 124), causes: speaks(Hint, "sensor-or-air-leak")},
	{names: "of a fuel pressure that is too low", of: span(87, 87), fuel: true, causes: append(speaks(Known, "low-fuel-pressure"), speaks(Hint, "diesel-injector", "high-pressure-pump", "pump", "fuel-filter", "supply-restricted", "regulator-open", "pump-voltage")...)},
	{names: "of a fuel pressure that is too high", of: span(88, 88), fuel: true, causes: speaks(Hint, "regulator-stuck", "return-blocked")},
	{names: "of the fuel pressure sensor", of: span(190, 194), fuel: true, causes: speaks(Hint, "sensor-or-air-leak", "low-fuel-pressure")},
	{names: "of the fuel pump's circuit", of: span(230, 233), fuel: true, causes: append(speaks(DryUp, "pump-circuit"), speaks(Hint, "pump-voltage")...)},
	{names: "of the purge valve standing open", of: span(496, 496), fuel: true, causes: speaks(Known, "purge-valve")},
	{names: "of the purge valve", of: []string{"P0441", "P0443"}, fuel: true, causes: speaks(DryUp, "purge-valve")},
	{names: "of too much exhaust gas led back", of: []string{"P0402"}, causes: speaks(Known, "egr-open")},
	{names: "of the valve that leads exhaust gas back", of: []string{"P0403", "P0404", "P0405", "P0406"}, causes: speaks(Hint, "egr-open")},
	{names: "of a mixture too lean", of: []string{"P0171", "P0174"}, fuel: true, when: known.Not(oneBankCoded), causes: speaks(Hint, "air-leak", "low-fuel-pressure", "air-meter", "fuel-filter")},
	{names: "of a mixture too rich", of: []string{"P0172", "P0175"}, fuel: true, when: known.Not(oneBankCoded), causes: speaks(Hint, "leaking-injector", "purge-valve", "regulator-diaphragm", "temperature-signal", "air-meter")},
	{names: "of the mixture of one bank", of: mixtureCodes, when: oneBankCoded, causes: speaks(Hint, "bank-sensor", "bank-exhaust-leak", "manifold-gasket", "injector-seals", "own-injector")},
	{names: "of the knock sensor", of: span(325, 334), causes: speaks(Hint, "knock", "early-ignition", "ignition")},
	{names: "of the crankshaft or camshaft sensor", of: span(335, 349), when: known.Complaint("no start", "hard start"), causes: speaks(Known, "ignition")},
	{names: "of the crankshaft or camshaft sensor", of: span(335, 349), when: known.Not(known.Complaint("no start", "hard start")), causes: speaks(Hint, "ignition", "cam-timing")},
	{names: "of the camshaft's place", of: stepCodes, valves: true, causes: append(speaks(Known, "cam-timing"), speaks(DryUp, "cam-phaser", "timing-drive")...)},
	{names: "of a camshaft's adjuster", of: slices.Concat(span(10, 15), span(20, 25)), valves: true, causes: append(speaks(Known, "cam-phaser"), speaks(Hint, "cam-timing", "worn-chain")...)},
	{names: "of the catalyst", of: []string{"P0420", "P0430"}, when: known.Complaint("low power", "hard start", "no start", "overheating", "misfire"), causes: speaks(Hint, "restricted-exhaust")},
	{names: "of coolant that stays too cold", of: []string{"P0125", "P0128"}, causes: append(speaks(Known, "thermostat"), speaks(Hint, "temperature-signal")...)},
	{names: "of too little boost", of: span(299, 299), causes: speaks(Known, "boost-leak")},
	{names: "of the oil pressure sensor", of: span(520, 523), causes: speaks(Known, "oil-sender")},
	{names: "of oil pressure that is too low", of: span(524, 524), causes: append(speaks(Known, "too-little-oil"), speaks(DryUp, "oil-sender", "worn-bearings", "oil-pump")...)},
	{names: "of the glow plugs", of: slices.Concat(span(380, 384), span(670, 678)), causes: append(speaks(Known, "glow-plug"), speaks(DryUp, "glow-feed")...)},
	{names: "of an injector's circuit", of: span(201, 212), when: known.Complaint("no start", "hard start"), causes: speaks(Known, "injection")},
	{names: "of an injector's circuit", of: span(201, 212), when: known.Not(known.Complaint("no start", "hard start")), causes: speaks(Known, "own-injector")},
	{names: "of a particulate filter that is full", of: known.FullFilterCodes, causes: speaks(Known, "exhaust-filter")},
	{names: "of an ignition coil's circuit", of: span(350, 362), causes: append(speaks(Known, "ignition"), speaks(Hint, "coil-or-lead", "shared-coil")...)},
}

// stepCodes say that the crankshaft and a camshaft do not agree: by bank and camshaft
// P0016 to P0019, by bank as a whole P0008 and P0009.
var stepCodes = append(span(8, 9), span(16, 19)...)

// codeRules are on what stored codes say of the engine by themselves.
var codeRules = []Rule{{
	Name: "cam-out-of-step", Title: "The computer sees a camshaft out of step with the crankshaft",
	Why: "Two sensors watch where crankshaft and camshaft stand. Where they do not agree a belt or chain has jumped, a chain and its tensioner have worn long, or the adjuster of the camshaft hangs. " +
		"Cranking pressure may still look right: the adjuster stands at its rest while the starter turns.",
	Source: "SAE J2012 (names of the codes), from memory; what they come from: common practice, no source", Class: Together, About: diag.AboutEngine, Ties: []diag.About{diag.AboutSystem}, TiesSystems: []string{known.Vacuum, known.Timing},
	Of: theEngine, When: known.All(known.Valves, known.OfEngine("a stored code P0008, P0009 or P0016 to P0019", func(c *known.Case) bool { return c.Coded(stepCodes...) }),
		known.OfEngine("no bank low as a whole", func(c *known.Case) bool { return c.GroupLow().Bank == nil })),
	Kind: OfCodes, Weigh: outOfStep, Say: func(c *known.Case, _ known.Subject) diag.Finding {
		f := diag.Finding{Urgency: diag.ActSoon, Confidence: diag.Fair, Facts: diag.Facts{"codes": diag.Names(slices.DeleteFunc(slices.Clone(stepCodes), func(code string) bool { return !c.Coded(code) })), "rattles": chainNoisy(c), "chain": c.Spec.TimingDrive == "chain"}}
		switch {
		case timingSlipped(c):
			f.Urgency = diag.DoNotRun
		case c.Spec.Interference == diag.No: // what it may come to bends nothing
			f.Urgency = diag.CheckAgain
		}
		return f
	}, Headline: "cam-out-of-step", InsteadOf: []string{"sealing-sound-look-elsewhere", "vacuum-low-sealing-sound"},
}}

// outOfStep is what puts a camshaft out of step: of a chain that is heard its wear,
// and of one whose cylinders read as they should more likely that than a tooth.
func outOfStep(c *known.Case, _ known.Subject) []Voice {
	jumped := as(OfHistory, where(c.CameSuddenly() || c.TimingTouched(), speaks(Known, "cam-timing")))
	belt := c.Spec.TimingDrive == "belt"
	return slices.Concat(jumped, where(!belt, speaks(Known, "worn-chain")), where(chainNoisy(c), as(OfSight, speaks(Known, "worn-chain"))), where(c.AllLow() == nil && !belt, speaks(Hint, "worn-chain")),
		where(c.Spec.VariableTiming == diag.Yes, speaks(Hint, "cam-phaser")), where(c.Spec.VariableTiming == diag.No, denies(Known, "no-adjuster", "cam-phaser")))
}

// chainNoisy is an engine with a chain, as far as is known, that makes a noise or of
// which the technician found the chain slack or heard it.
func chainNoisy(c *known.Case) bool {
	if d := c.Spec.TimingDrive; d != "" && d != "chain" {
		return false
	}
	return c.Complains("noise") || known.FaultFound("chain").HoldsIn(c)
}

var mixtureCodes = []string{"P0171", "P0172", "P0174", "P0175"}

// oneBankCoded is an engine of two banks of which the codes of the mixture name
// one: P0171 and P0172 the bank of cylinder 1, P0174 and P0175 the other.
var oneBankCoded = known.OfEngine("a stored code of the mixture of one bank of two, and none of the other", func(c *known.Case) bool {
	return c.Engine.IsTwoBank() && c.Coded("P0171", "P0172") != c.Coded("P0174", "P0175")
})

// ofCylinder are the codes that name a cylinder by their last two digits, with
// what they speak for in its story.
var ofCylinder = []struct {
	names  string
	from   int // the code of cylinder 1
	causes []Voice
	beside known.Condition // what has to hold beside it; none where empty
}{
	{names: "of its injector's circuit", from: 201, causes: speaks(DryUp, "own-injector")},
	{names: "of its ignition coil's circuit", from: 351, causes: speaks(DryUp, "own-spark", "coil-or-lead", "shared-coil")},
	{names: "of its misfiring, as of the other cylinder of its coil", from: 301, causes: speaks(DryUp, "shared-coil"), beside: known.All(known.MateCoded, known.Not(known.Low))},
	// That it misfires says as much of its spark as of its fuel, where nothing says why it should.
	{names: "of its misfiring", from: 301, causes: speaks(DryUp, "own-spark", "own-injector"),
		beside: known.All(known.Any(known.Plug("fuel-wet"), known.All(known.PullsNothing, known.BalanceTells)), known.Not(known.Low), known.Not(known.LiftsLittle), known.Not(known.Plug("tracked")))},
}

// codeSigns lets each code speak where causes of its kind are weighed: the
// mixture, the fuel, and the engine whose cylinders seal. What lowers the
// pressure of all cylinders no code of a sensor explains.
var codeSigns = func() []Sign {
	var list []Sign
	for _, k := range codes {
		stored := known.OfEngine("a stored code "+k.names+" ("+k.of[0]+andOthers(k.of)+")", func(c *known.Case) bool { return c.Coded(k.of...) })
		when := known.All(stored, k.when)
		on := func(about diag.About, when known.Condition) {
			list = append(list, Sign{When: when, Kind: OfCodes, About: string(about), For: k.causes})
		}
		if k.valves {
			on(diag.AboutEngine, when)
			continue
		}
		on(diag.AboutEngine, known.All(when, soundAndIll))
		on(diag.AboutMixture, when)
		if k.fuel {
			on(diag.AboutFuel, when)
		}
	}
	for _, k := range ofCylinder {
		stored := known.OfAll("a stored code "+k.names, func(c *known.Case, name string) bool {
			n, err := strconv.Atoi(name)
			return err == nil && n > 0 && n <= 12 && c.Coded(span(k.from+n-1, k.from+n-1)...)
		})
		list = append(list, Sign{When: known.All(stored, k.beside), Kind: OfCodes, About: string(diag.AboutCylinders), For: k.causes})
	}
	return list
}()

// OfCode is what a stored code commonly comes from, the likeliest first, and last what the
// maker's own plan for it finds.
func OfCode(c *known.Case, stored string) []string {
	var list []string
	note := func(of []string, voices []Voice) {
		if !slices.Contains(of, stored) {
			return
		}
		for _, v := range voices {
			if !slices.Contains(list, v.Cause) {
				list = append(list, v.Cause)
			}
		}
	}
	for _, k := range codes {
		if k.when.String() == "" || k.when.HoldsIn(c) {
			note(k.of, k.causes)
		}
	}
	for _, k := range ofCylinder {
		note(span(k.from, k.from+11), k.causes)
	}
	return append(list, "coded-part")
}

// StoredFor lists the stored codes that speak for one of some causes.
func StoredFor(c *known.Case, causes []string) []string {
	var list []string
	note := func(of []string, voices []Voice) {
		if !slices.ContainsFunc(voices, func(v Voice) bool { return slices.Contains(causes, v.Cause) }) {
			return
		}
		for _, name := range of {
			if c.Coded(name) && !slices.Contains(list, name) {
				list = append(list, name)
			}
		}
	}
	for _, k := range codes {
		if k.when.String() == "" || k.when.HoldsIn(c) {
			note(k.of, k.causes)
		}
	}
	for _, k := range ofCylinder {
		note(span(k.from, k.from+11), k.causes)
	}
	slices.Sort(list)
	return list
}

// andOthers says that there are codes after the first.
func andOthers(of []string) string {
	switch len(of) {
	case 1:
		return ""
	case 2:
		return ", " + of[1]
	}
	return " to " + of[len(of)-1]
}

// soundAndIll is an engine with a complaint and no cylinder that was found low.
var soundAndIll = known.OfEngine("a complaint, and no cylinder found low", func(c *known.Case) bool {
	return len(c.Complaints()) > 0 && noneFoundLow.HoldsIn(c)
})

var noneFoundLow = known.OfEngine("no cylinder found low", func(c *known.Case) bool { return len(c.LowSet()) == 0 && c.AllLow() == nil })
