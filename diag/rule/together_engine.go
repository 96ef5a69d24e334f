package rule

import (
	"math"
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// engineTogether look at several kinds of readings of the engine as a whole.
var engineTogether = []Rule{
	{
		Name: "repeats-and-needle", Title: "One cylinder's repeats lie far apart, and the needle drops now and then", About: diag.AboutCylinders, Class: Together, Needs: append(needsTest(known.Vacuum), known.NeedsCompression),
		Why: "A gauge that leaks reads low each time, and on whatever cylinder. One cylinder that reads as its fellows at one time and far less at another, while the needle drops now and then, " +
			"has a valve that shuts at one time and hangs at another.",
		Source: "common practice, no source", TiesSystems: []string{known.Vacuum},
		Of: eachCylinder, When: known.All(known.VacuumStrays, known.RepeatsScatter), Kind: OfCompression, For: speaks(Sight, "sticking-valve"), Say: seen(diag.CheckAgain), Headline: "repeats-and-needle",
		SaysBetterThan: []string{"vacuum-drops-now-and-then", "vacuum-steadies"},
	},
	{
		Name: "washed-and-low", Title: "All low, and every plug wet with fuel",
		Why:    "Fuel washes the oil film from the bores, and an engine that was flooded reads low in every cylinder without being worn. It is dried, oiled and tested again before it is judged.",
		Source: "common practice, no source", Class: Together, About: diag.AboutEngine, Ties: []diag.About{diag.AboutMixture, diag.AboutCylinders}, Needs: []known.Need{known.NeedsCompression, known.NeedsPlugs},
		Of: everyRead, When: known.All(known.Any(known.UnderFloor, onlyShort), known.OfEngine("every plug looked at wet with fuel (two at least where there are two)", allSoaked)),
		Kind: OfPlugs, For: append(speaks(Heard, "washed-bore"), speaks(Known, "flooding")...), Say: washedAndLow, Headline: "washed-and-low",
		SaysBetterThan: []string{"all-low", "below-minimum", "fuel-wet", "all-fuel-wet", "one-low", "scattered-low", "neighbours-low", "wet-rise", "a-little-low"},
	},
	{
		Name: "flooded-into-the-oil", Title: "Low throughout, with fuel in the oil and bores that fuel has washed",
		Why: "Fuel that floods the cylinders washes the oil from their walls and runs down past the rings into the sump: low pressure that oil brings back, and oil that smells of fuel, are one matter. " +
			"Until the oil was changed and the engine tested again the bores are dry and not worn. What let the fuel in is put right with it.",
		Source: "common practice, no source", Class: Together, About: diag.AboutEngine, Ties: []diag.About{diag.AboutMixture, diag.AboutCylinders}, TiesSystems: []string{known.Oil}, Needs: []known.Need{known.NeedsCompression},
		Of: everyRead, When: floodedOil,
		Kind: OfOil, Weigh: func(c *known.Case, s known.Subject) []Voice {
			return slices.Concat(speaks(2*Heard, "washed-bore"), speaks(Known, "flooding"), drivenPumpLeaks(c), hoseLeaks(c))
		}, Say: floodedIntoOil, Headline: "flooded-into-the-oil", Variants: []string{"over-full"},
		SaysBetterThan: []string{"oil-over-full", "oil-smells-of-fuel", "fuel-in-oil-found", "washed-and-low", "all-low", "below-minimum", "fuel-wet", "all-fuel-wet", "one-low", "scattered-low", "neighbours-low", "wet-rise", "wet-rise-everywhere", "a-little-low"},
	},
	{
		Name: "rotors-low-and-wet", Title: "All rotors low, and every plug wet with fuel",
		Why: "Raw fuel washes the oil off the seals of a rotor as it does off a bore, and a flooded rotary reads low on every face without being worn. Its chambers are dried, a little oil is put in, " +
			"and it is tested again before it is judged.",
		Source: "common practice, no source", Class: Together, About: diag.AboutCylinders, Ties: []diag.About{diag.AboutMixture}, Needs: []known.Need{known.NeedsRotors, known.NeedsPlugs},
		Of: oneSet("the rotors read", func(c *known.Case) []string {
			var names []string
			for _, r := range c.Rotors() {
				names = append(names, r.Name)
			}
			return names
		}),
		When: known.All(ofRotor("every face low on each, under the minimum or without one under the floor, none without pressure", func(r known.Rotor) bool {
			return (r.Even() || r.UnderFloor()) && len(r.DeadFaces()) == 0
		}), known.OfEngine("every plug looked at wet with fuel (two at least where there are two)", allSoaked)),
		Kind: OfPlugs, For: speaks(Heard, "flooding"), Say: rotorsLowAndWet, Headline: "washed-and-low",
		SaysBetterThan: []string{"rotor-low", "fuel-wet", "all-fuel-wet"},
	},
	{
		Name: "low-everywhere-but-tight", Title: "Low in every cylinder, yet they hold their air",
		Why: "The cylinders seal, so the low pressure is not wear. Too little air gets in while cranking: the throttle, slow cranking or the gauge, and else the valve timing, " +
			"for which low pressure with low leakage is the classic sign.",
		Source: "common practice, no source", Class: Together, About: diag.AboutEngine, Needs: []known.Need{known.NeedsCompression, known.NeedsLeakage},
		Of: everyRead, When: known.All(known.UnderFloor, known.OfEngine("every loss that was read 10 % at most, of half the cylinders at least", allHold),
			known.OfEngine("oil did not raise all of them", func(c *known.Case) bool { return !c.RisesEverywhere() })),
		Kind: OfLeakage, Weigh: func(c *known.Case, _ known.Subject) []Voice {
			if known.VacuumRight.HoldsIn(c) { // which valves that move late do not leave right
				gauge := "gauge-reads-low"
				if known.NeedleFallsBack.HoldsIn(c) {
					gauge = "gauge-valve-leaks"
				}
				return append(speaks(Known, gauge), speaks(DryUp, "throttle-or-choke")...)
			}
			cam := speaks(Known, "cam-timing")
			if known.CamRight.HoldsIn(c) { // then the inlet, the test and what lets the gauge read low are left
				cam = speaks(Known, "restricted-inlet")
			}
			return slices.Concat(cam, speaks(DryUp, "gauge-reads-low", "throttle-or-choke"), where(!c.Several(), speaks(Known, "valve-motion")))
		}, Against: denies(Heard+Known, "holds-air", "wear", "washed-bore", "fault-in-each"),
		Say: lowYetTight, Keeps: true, Headline: "low-but-tight-everywhere",
		SaysBetterThan: []string{"all-low", "low-but-tight"},
	},
	{
		Name: "bank-low-with-cam-code", Title: "One bank low, and a code on its cam timing",
		Why:    "The pressure says that one bank breathes badly, and the engine's own sensors say that a camshaft does not stand where it should. Two signs from different sides point to the timing.",
		Source: "SAE J2012 (names of the codes), from memory", Class: Together, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsCompression},
		Of:   oneSet("all cylinders of a bank that is low as a whole", func(c *known.Case) []string { return c.GroupLow().Bank }),
		When: known.All(known.OfEngine("a stored code P0008, P0009 or P0016 to P0019 (crankshaft and camshaft do not agree)", func(c *known.Case) bool { code, _ := camCode(c); return code != "" }), known.Not(known.OneCamshaft)),
		Kind: OfCodes, Weigh: weighCamCode, Say: bankWithCode, Headline: "bank-timing",
		SaysBetterThan: []string{"bank-low", "low-but-tight"},
	},
	{
		Name: "no-start-not-explained", Title: "It does not start, and one low cylinder is not why",
		Why: "An engine of several cylinders starts on the others. One low cylinder is a fault of its own; why the engine does not start is looked for beside it, in spark and fuel, " +
			"so that the one is not repaired for the other.",
		Source: "common practice, no source", Class: Elsewhere, About: diag.AboutMixture, Needs: []known.Need{known.NeedsCompression},
		Of: theEngine,
		When: known.All(known.Complaint("no start"),
			known.OfEngine("three cylinders or more, all read, one of them low or without pressure and the others not", oneOfSeveral),
			known.OfEngine("pressure enough in the others, as far as is known", func(c *known.Case) bool { return c.AllLow() == nil }),
			known.OfEngine("fuel pressure not found low", func(c *known.Case) bool { return !fuelLacking(c) })),
		Kind: OfCompression, For: common("ignition", "injection"), Say: startNotExplained, Headline: "no-start-not-explained",
	},
	{
		Name: "sealing-sound-look-elsewhere", Title: "The engine seals; the complaint has another cause",
		Why:    "What was tested is sound, so more mechanical work would be guesswork. Spark, fuel, air and sensors come next. A valve that moves too little can hide here: running compression shows it.",
		Source: "common practice, no source", Class: Elsewhere, About: diag.AboutEngine, Needs: []known.Need{known.NeedsCompression},
		Of: theEngine, When: known.All(
			known.OfEngine("every cylinder read and even, and no limit passed", func(c *known.Case) bool { return c.Sound() }),
			known.Not(known.UnderFloor), known.Not(known.CoolantEntering), known.OfEngine("no high leakage", func(c *known.Case) bool { return !leaky(c) }),
			known.OfEngine("no cylinder that breathes poorly when it runs", func(c *known.Case) bool { return !breathesPoorly(c) }),
			known.Any(
				known.All(known.OfEngine("pressure known to be enough, by a minimum, an expected band or what nearly any engine of the kind gives", func(c *known.Case) bool { return c.PressureEnough() }),
					known.OfEngine("none of the job's main tests declined or left out", func(c *known.Case) bool { return c.MainTestsMade() }),
					running),
				known.All(known.Complaint("coolant loss", "overheating"), known.Not(running), known.Not(known.GasFound), known.Not(known.AirCooled), known.Not(known.All(known.NoGasFound, known.CoolingHolds))))),
		Kind: OfCompression, Weigh: weighElsewhere, Say: soundLookElsewhere, Headline: "look-elsewhere", Variants: []string{"coolant", "matched"}, Open: true,
		SaysBetterThan: []string{"even-above-minimum", "even-no-minimum"},
	},
}

// running are complaints of how it runs or starts, which spark, fuel and air
// explain where the cylinders seal.
var running = known.Complaint("misfire", "no start", "hard start", "rich running", "lean running", "low power")

// onlyShort is an engine's only cylinder under its minimum.
var onlyShort = known.OfEngine("an engine's only cylinder under its minimum", func(c *known.Case) bool {
	return !c.Several() && len(c.Read()) == 1 && c.ShortOfPressure(c.Cylinder(c.Read()[0]))
})

func allSoaked(c *known.Case) bool {
	wet := c.PlugsLooking("fuel-wet")
	return len(wet) > 0 && len(wet) == c.Sums.Plugs.N && (len(c.Every()) == 1 || len(wet) > 1)
}

// washedAndLow asks only that it be tested again, dry: until then nobody knows
// what the engine would read, but where oil brought every cylinder over the minimum.
func washedAndLow(c *known.Case, _ known.Subject) diag.Finding {
	f := diag.Finding{Urgency: diag.CheckAgain, Confidence: diag.Fair, Facts: diag.Facts{"read": c.Span(c.Spread(c.Read())), "single": !c.Several()}}
	if least := c.SingleMinimum(); least > 0 && !slices.ContainsFunc(c.Read(), func(n string) bool { r := c.Cylinder(n); return r.Wet == nil || *r.Wet < least }) {
		f.Confidence = diag.Strong
	}
	return f
}

// floodedOil is an engine low throughout, whose bores fuel has washed and whose oil has it.
var floodedOil = known.All(known.Any(known.UnderFloor, onlyShort), known.FuelInTheOil, fourStrokePetrol,
	known.OfEngine("every plug looked at wet with fuel (two at least where there are two), or oil raised every cylinder and no plug is wet with oil", washedByFuel))

// fourStrokePetrol is an engine with pistons whose oil is its own and whose fuel is no oil.
var fourStrokePetrol = known.OfEngine("a gasoline four-stroke with pistons", func(c *known.Case) bool {
	return !c.Spec.Diesel() && !c.Rotary() && !c.Ported()
})

// washedByFuel reports an engine all of whose plugs are wet with fuel, or all of whose
// cylinders oil brought up while no plug shows that it burns oil.
func washedByFuel(c *known.Case) bool {
	return allSoaked(c) || (c.RisesEverywhere() || c.WetOfAll() == known.WetRises) && len(c.PlugsLooking("oil-wet")) == 0 && !c.UsesOil()
}

// floodedIntoOil is as urgent as the oil is: over full with fuel it carries no bearing.
func floodedIntoOil(c *known.Case, s known.Subject) diag.Finding {
	f := washedAndLow(c, s)
	f.Facts["soaked"], f.Facts["rose"] = allSoaked(c), c.RisesEverywhere() || c.WetOfAll() == known.WetRises
	switch {
	case known.FuelRaisesOil.Holds(c, s):
		f.Urgency, f.Variant, f.Headline = diag.DoNotRun, "over-full", "flooded-and-over-full"
	case !known.OilSmells.Holds(c, s): // it was found to be there by more than its smell
		f.Urgency = diag.ActSoon
	}
	return f
}

// rotorsLowAndWet says the least and the most of all faces.
func rotorsLowAndWet(c *known.Case, _ known.Subject) diag.Finding {
	low, high := math.Inf(1), 0.0
	for _, r := range c.Rotors() {
		low, high = min(low, slices.Min(r.Values)), max(high, r.Best)
	}
	return diag.Finding{Urgency: diag.CheckAgain, Confidence: diag.Fair, Facts: diag.Facts{"lowest": c.FacePressure(low), "highest": c.FacePressure(high)}}
}

func allHold(c *known.Case) bool {
	leaks, read := c.Leaks(), c.Cranking().N
	return 2*len(leaks) >= read && len(leaks) >= min(2, read) && !slices.ContainsFunc(leaks, func(l *diag.LeakResult) bool { return known.Beyond(*l.Loss, known.GoodLoss) || airPlaced(c, l.Name) })
}

func lowYetTight(c *known.Case, s known.Subject) diag.Finding {
	f := allLow(c, s)
	out := diag.Finding{Urgency: f.Urgency, Confidence: diag.Fair, Facts: diag.Facts{"read": f.Facts["read"], "single": !c.Several(), "loss": known.Percent(*c.WorstLeak(leakTried(c)).Loss, 0)}}
	if known.CamRight.HoldsIn(c) { // no timing is to be checked that was just measured
		out.Headline = "low-but-tight-on-time"
	}
	return out
}

// camCodes are the codes on a camshaft that does not agree with the crankshaft,
// for bank 1 (that of cylinder 1) and bank 2.
var camCodes = [2][]string{{"P0016", "P0017", "P0008"}, {"P0018", "P0019", "P0009"}}

// camCode is a stored code on a camshaft while a bank is low, "" for none; same
// where it names that bank.
func camCode(c *known.Case) (code string, same bool) {
	low := c.LowBank()
	if low < 0 {
		return "", false
	}
	number := 0 // 0 for bank 1, 1 for bank 2
	if low != max(c.Engine.BankOf("1"), 0) {
		number = 1
	}
	for n, codes := range camCodes {
		for _, k := range codes {
			if c.Coded(k) && (code == "" || n == number && !same) {
				code, same = k, n == number
			}
		}
	}
	return code, same
}

// weighCamCode gives a code that names the other bank little weight.
func weighCamCode(c *known.Case, _ known.Subject) []Voice {
	if _, same := camCode(c); same {
		return append(speaks(Heard, "cam-timing"), speaks(Known, "cam-phaser", "timing-drive")...)
	}
	return append(speaks(Hint, "cam-timing", "timing-drive"), denies(Hint, "code-other-bank", "cam-timing")...)
}

func bankWithCode(c *known.Case, s known.Subject) diag.Finding {
	f := bankLow(c, s)
	code, same := camCode(c)
	out := diag.Finding{Urgency: f.Urgency, Confidence: diag.Strong, Facts: diag.Facts{"code": code, "bank": f.Facts["bank"]}}
	if !same {
		out.Confidence = diag.Weak
	}
	if same && valvesNear(c, s.Cylinders) {
		out.Urgency = diag.DoNotRun
	}
	return out
}

// jumpedShare is the percent of the reference under which valve timing that shows
// in the pressure is off by more than a worn chain: a tooth or more. Judgement,
// no source.
const jumpedShare = 75

// valvesNear reports an engine whose valves can meet its pistons and whose timing
// has slipped by a step: the next tooth bends them.
func valvesNear(c *known.Case, low []string) bool {
	return c.Spec.Interference == diag.Yes && (c.CameSuddenly() || !slices.ContainsFunc(low, func(n string) bool {
		r := c.Cylinder(n)
		return r == nil || r.Dry == nil || c.PartOfReference(r).Value >= jumpedShare
	}))
}

func oneOfSeveral(c *known.Case) bool {
	return c.Cranking().Complete && len(c.Read()) >= 3 && len(c.LowSet()) == 1 && !c.Dead()
}

// fuelLacking reports a fuel pressure under its limit, or none at all.
func fuelLacking(c *known.Case) bool {
	return slices.ContainsFunc(c.Circuits(), func(k known.Circuit) bool {
		low, _ := k.Worst(known.Below)
		return low != nil || k.PumpDead() != nil
	})
}

func startNotExplained(c *known.Case, _ known.Subject) diag.Finding {
	return diag.Finding{Urgency: diag.CheckAgain, Confidence: diag.Fair, Facts: diag.Facts{"low": diag.Names(c.LowSet()), "diesel": c.Spec.Diesel()}}
}

// airPlaced reports air heard at a place that is worth saying.
func airPlaced(c *known.Case, name string) bool {
	return placed.HoldsOf(c, name)
}

func leaky(c *known.Case) bool {
	return slices.ContainsFunc(c.Leaks(), func(l *diag.LeakResult) bool { return c.LeakTooHigh(l) || airPlaced(c, l.Name) })
}

// weighElsewhere starts from what commonly causes the complaint where the
// cylinders are sound.
func weighElsewhere(c *known.Case, s known.Subject) []Voice {
	list := elsewhere(c, s)
	if !c.Carburetted() || c.MeterOpen() {
		return list
	}
	for i := range list { // what has no computer has neither injectors nor sensors
		switch list[i].Cause {
		case "injection":
			list[i].Cause = "carburettor"
		case "sensor-or-air-leak":
			list[i].Cause = "air-leak"
		}
	}
	return list
}

func elsewhere(c *known.Case, s known.Subject) []Voice {
	switch {
	case !running.Holds(c, s):
		if c.CoolantHot() {
			return common("coolant-flow", "head-gasket", "coolant-leak-outside", "thermostat")
		}
		return common("head-gasket", "coolant-leak-outside", "other-than-sealing")
	case c.Spec.Diesel() && c.Complains("low power"):
		return slices.Concat(common("fuel-filter", "air-filter", "injection", "restricted-exhaust"), where(c.Spec.Charging == "turbo", speaks(commonest, "boost-leak")), where(c.Complains("misfire"), speaks(commonest-rarer, "air-in-fuel")))
	case c.OneMisfires(): // what all cylinders share does not choose one
		return common("ignition", "injection", "valve-motion")
	case c.Complains("misfire"):
		return slices.Concat(common("ignition", "injection", "sensor-or-air-leak"), speaks(Hint, "valve-motion"), // cranking does not clear it
			where(carbonOnMost(c), as(OfSight, speaks(commonest-rarer+1, "carbon-on-seat"))))
	case c.Complains("no start", "hard start") && c.Spec.Diesel():
		return common("injection", "fuel-filter", "air-in-fuel", "glow-plug")
	case c.Ported() && c.Complains("no start", "hard start", "low power"): // the crankcase pumps, which compression does not show
		return common("ignition", "carburettor", "crankcase-seal", "reed-valve", "restricted-exhaust")
	case c.Complains("no start", "hard start"):
		return common("ignition", "injection")
	case c.Complains("low power"): // late valves and a choked exhaust read even on the starter, and what lets no gas in or out is not felt as a miss
		return slices.Concat(lowPowerElsewhere(c),
			where(c.Spec.Charging == "turbo", speaks(commonest, "boost-leak")), where(c.Carburetted(), speaks(commonest-rarer, "late-ignition")), where(pressureUnjudged(c), speaks(commonest-rarer, "low-fuel-pressure")))
	case c.Complains("lean running") && pressureUnjudged(c):
		return common("low-fuel-pressure", "injection", "sensor-or-air-leak", "ignition")
	}
	return common("injection", "sensor-or-air-leak", "ignition")
}

// lowPowerElsewhere is what lets an engine that seals pull badly: of what burns gas first the
// device that gives it, and of what is said to be fed as it should be the fuel last.
func lowPowerElsewhere(c *known.Case) []Voice {
	switch {
	case c.GasFuel():
		return common("injection", "ignition", "sensor-or-air-leak", "air-filter", "restricted-exhaust", "cam-timing")
	case !c.Carburetted() && c.SomeCircuit(func(k known.Circuit) bool { return k.Right() != nil }): // a jet clogs behind the right pressure
		return common("restricted-exhaust", "air-filter", "ignition", "sensor-or-air-leak", "cam-timing", "injection")
	}
	return common("injection", "restricted-exhaust", "air-filter", "ignition", "sensor-or-air-leak", "cam-timing")
}

// pressureUnjudged reports fuel pressure that was read, and no figure to hold it against:
// whether it is enough nobody has said.
func pressureUnjudged(c *known.Case) bool {
	return c.SomeCircuit(func(k known.Circuit) bool { return len(k.Steady()) > 0 && !k.Limited() })
}

// carbonOnMost reports carbon seen on the valves or seats of half the cylinders
// at least: it soaks up the fuel of a cold engine though all seal.
func carbonOnMost(c *known.Case) bool {
	with := c.Those(func(n string) bool { return c.Seen(n, known.CarbonOnSeat...) })
	return c.HasValves() && 2*len(with) >= len(c.Every())
}

func soundLookElsewhere(c *known.Case, s known.Subject) diag.Finding {
	tested := len(c.Leaks()) > 0
	f := diag.Finding{Urgency: diag.CheckAgain, Confidence: diag.Fair, Facts: diag.Facts{"leakage": tested, "diesel": c.Spec.Diesel(),
		"percent": known.Percent(c.Cranking().LowestPercentOfHighest, 0), "complaint": c.Complaint(), "ran": known.AllBreatheAlike.Holds(c, s), "undone": c.Undone()}}
	switch {
	case !running.Holds(c, s):
		f.Variant, f.Confidence, f.Headline = "coolant", diag.Weak, "even-but-coolant"
		if c.RunsHot() {
			f.Urgency = diag.ActSoon
		}
	case !c.PressureByFigure() && !c.SealsAtRest(): // cylinders worn alike read alike
		f.Variant, f.Headline = "matched", "look-elsewhere-first"
	case tested:
		f.Confidence = diag.Strong
	}
	if fuelLimitPassed(c) { // that they seal is no headline over a reading that is out
		f.Headline = "not-explained"
	}
	return f
}

// fuelLimitPassed reports a limit of some fuel circuit that is not kept.
func fuelLimitPassed(c *known.Case) bool {
	return slices.ContainsFunc(c.Circuits(), func(k known.Circuit) bool { kept, _ := k.LimitsKept(); return !kept })
}
