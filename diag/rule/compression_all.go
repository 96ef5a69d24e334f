package rule

import (
	"slices"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// weighAllLow weighs what makes every cylinder low: first what is known of the
// test, then the valve timing, then wear. What is merely not recorded of the test
// weighs less than what is.
func weighAllLow(c *known.Case, s known.Subject) []Voice {
	if c.AllLow().Variant == "" && c.MadeLowByGauge() { // no part is suspected for what the gauge takes off
		return byGauge(c)
	}
	even := c.Cranking().LowestPercentOfHighest >= known.EvenTogether
	small := mayBeReleased(c) // then its decompressor comes first
	var list []Voice
	switch {
	case c.Ported():
		list = slices.Concat(common("wear", "crankcase-seal", "reed-valve", "restricted-exhaust"),
			where(c.Several() && !even, speaks(DryUp, "wear", "rings")), // what all breathe through lowers them alike
			where(c.MayHaveDecompressor() && c.Spec.Decompressor == "" && !c.ReadHigherBefore(), speaks(Hint, "decompressor")))
	case !c.Several() && !c.DriveMaySlip(): // a valve that hangs open, before gears that do not jump
		list = append(common("wear", "exhaust-valve", "head-gasket", "stuck-valve"), speaks(Hint, "cam-timing", "restricted-inlet")...)
	case !c.Several(): // what befalls one of many is as likely as what befalls all
		list = common("wear", "exhaust-valve", "cam-timing", "restricted-inlet")
	case c.Spec.Diesel() && even:
		list = common("wear", "cam-timing", "restricted-inlet", "valve-lash")
	case even:
		list = append(common("cam-timing", "wear"), append(speaks(commonest/2, "timing-drive"), speaks(Hint, "restricted-inlet")...)...)
	default:
		list = common("wear", "cam-timing", "fault-in-each")
	}
	if mayBeWashed(c) {
		list = append(list, speaks(commonest/2, "washed-bore")...)
	}
	raised := c.WetOfAll() == known.WetRises // which no clearance does
	lash := tightLash(c)
	if small && len(lash) > 0 { // its decompressor is asked for first
		lash = as(OfHistory, speaks(DryUp, "valve-lash"))
	}
	return slices.Concat(list, where(!raised, slices.Concat(lash, justSet(c))), weighTest(c), weighTiming(c, s), weighWear(c, s), where(c.AllLow().Variant == "" || c.MadeLowByHose(), byGauge(c)))
}

// byGauge is what the check of the gauge, or its hose, says of pressures that it reads under, or near, a
// minimum: that it makes them so, that it does not by itself, or that they are less still.
func byGauge(c *known.Case) []Voice {
	switch off, stands := known.GaugeOff(c.Gauges.Compression), c.ByCheck(); {
	case c.MadeLowByGauge():
		return as(OfTest, speaks(Heard, "gauge-reads-low"))
	case c.MadeLowByHose():
		return as(OfTest, speaks(Heard+Known, "gauge-reads-low"))
	case off < 0 && stands == diag.Outside:
		return as(OfTest, denies(Heard+Known, "gauge-not-enough", "gauge-reads-low"))
	case off > 0:
		return as(OfTest, denies(Heard, "gauge-was-high", "gauge-reads-low"))
	}
	return nil
}

// mayBeWashed reports something that speaks of fuel in the bores: a wet plug, a
// mixture that is rich, an engine that was flooded or did not start.
func mayBeWashed(c *known.Case) bool {
	return !c.Spec.Diesel() && (c.SaidFlooded() || len(c.PlugsLooking("fuel-wet")) > 0 || c.ToldRich() || c.Complains("no start"))
}

// weighTest is what of the test itself commonly makes an engine read low, where
// the job does not rule it out. What the job says of the test, the signs of the
// rules on the test weigh.
func weighTest(c *known.Case) []Voice {
	k := c.Conditions
	basis := c.AllLow()
	even := c.Cranking().LowestPercentOfHighest >= known.EvenTogether
	return slices.Concat(
		where(even && k.Throttle != "open" && !c.Spec.Diesel() && !shortOfAnyThrottle(c), speaks(commonest-3*rarer, "throttle-or-choke")),
		where(even && k.Throttle != "open" && !c.Spec.Diesel() && c.Noticed("method-incomplete"), speaks(commonest/2, "throttle-or-choke")),
		where(k.Throttle == "open" && !c.ChokeShut(), as(OfTest, denies(Known, "throttle-open", "throttle-or-choke"))),
		where(even && k.CrankingRPM == nil && k.Battery.CrankingV == nil, speaks(Hint, "weak-cranking")),
		where(basis != nil && basis.Share >= nearlyEnough, speaks(commonest-rarer, "gauge-reads-low")),
		where(even && basis != nil && basis.Variant == "" && basis.Share >= farOff && basis.Share < nearlyEnough, speaks(commonest-4*rarer, "gauge-reads-low")),
		where(known.SpeaksOf(strings.ToLower(k.Method), "by hand", "kick", "pull start", "rope", "drill", "tow"), as(OfTest, speaks(Known, "weak-cranking"))),
		where(runsAllTheSame(c), as(OfTest, speaks(Known, "gauge-reads-low"))),
		lowByRatio(c),
		where(mayBeReleased(c), speaks(Known, "decompressor")),
		where(known.MayBeReleased.HoldsIn(c), speaks(Hint, "decompressor")), // as most that are pulled over by hand have
		where(known.MayBeReleased.HoldsIn(c) && c.AllTight(c.Read()), as(OfLeakage, speaks(Heard, "decompressor"))))
}

// mayBeReleased reports a small engine that may have a decompressor, and reads what one leaves:
// with valves under the floor of its kind.
func mayBeReleased(c *known.Case) bool {
	basis := c.AllLow()
	return known.DecompressorUnknown.HoldsIn(c) && (c.Ported() || basis == nil || basis.Variant != "usual")
}

// lowByRatio is the ratio of an engine of a kind that may have a low one: what holds its air
// in every cylinder that was tried, and what runs well, reads as it was built.
func lowByRatio(c *known.Case) []Voice {
	basis := c.AllLow()
	if basis == nil || basis.Facts["ratioOpen"] != true {
		return nil
	}
	return slices.Concat(speaks(Known, "low-ratio"), where(c.AllTight(leakTried(c)), as(OfLeakage, speaks(Heard, "low-ratio"))), where(runsAllTheSame(c), as(OfTest, speaks(Known, "low-ratio"))),
		where(runsAllTheSame(c) && known.VacuumRight.HoldsIn(c), as(OfVacuum, speaks(Known, "low-ratio"))))
}

// shortOfAnyThrottle reports an engine that will not start and has less than half of what its
// kind gives at least: it lets that out, however little a shut throttle lets in.
func shortOfAnyThrottle(c *known.Case) bool {
	basis := c.AllLow()
	return c.WillNotStart() && basis != nil && basis.Share < 0.5 && !c.ThrottleShut()
}

// runsAllTheSame is an engine that runs well and of which nobody complains: one
// as low as this would be hard to start and short of power.
func runsAllTheSame(c *known.Case) bool {
	return c.Spec.Runs == "well" && !c.Complains("misfire", "no start", "hard start", "low power", "oil use")
}

// nearlyEnough is the part of a figure from which a gauge that reads low may be
// all that is wrong.
const nearlyEnough = 0.90

// farOff is the part of a stated minimum under which no gauge is likely to be
// that far out.
const farOff = 0.65

// weighTiming weighs late valve timing: sudden, driven by belt or chain, with
// cylinders that hold their air and that oil does not help.
func weighTiming(c *known.Case, s known.Subject) []Voice {
	sudden := known.SuddenOnset.Holds(c, s)
	slips := c.DriveMaySlip()
	driven := c.DriveNamed() != ""
	flat := len(c.WetTested()) > 0 && c.AllWet(c.WetTested(), known.WetFlat)
	return slices.Concat(
		where(sudden && slips, as(OfHistory, speaks(Known, "cam-timing", "timing-drive"))),
		where(sudden && driven, as(OfHistory, speaks(Hint, "timing-drive"))),
		where(stoppedFarLow(c) && slips, as(OfHistory, speaks(Known, "cam-timing", "timing-drive"))),
		where((stoppedFarLow(c) || sudden) && !slips && !c.Several(), as(OfHistory, append(speaks(DryUp, "stuck-valve"), speaks(Hint, "valve-lash")...))),
		timingTouched(c),
		where(len(timingTouched(c)) > 0 && c.Cranking().LowestPercentOfHighest >= known.EvenTogether, as(OfHistory, speaks(DryUp, "cam-timing"))), // all alike since
		where(c.AllTight(c.Read()), as(OfLeakage, append(speaks(Heard, "cam-timing"), speaks(Known, "restricted-inlet")...))),
		where(flat, speaks(Known, "cam-timing")))
}

// stoppedFarLow reports an engine that will not start and of which every cylinder is
// far under what any engine needs: worn ones are brought in long before they are as
// low, one whose valve timing has slipped stops as it does.
func stoppedFarLow(c *known.Case) bool {
	basis := c.AllLow()
	worn := c.UsesOil() || c.History.Smoke.Colour == "blue" || c.OnsetSays("slow", "gradual", "month", "year")
	return c.HasValves() && c.WillNotStart() && !c.Stood() && !c.Flooded() && !worn && basis != nil && (basis.Share < farOff || c.DriveMayHaveLetGo())
}

// stoppedMistimed reports such an engine whose cylinders are low alike and of which nobody says that its
// valves miss its pistons, or that gears drive them, where nothing is known of the test, of its
// gauge or of its rings that would make it so: it is not cranked on before its marks were seen.
func stoppedMistimed(c *known.Case) bool {
	ofTest := slices.ContainsFunc([]string{"slow-cranking", "battery-sags", "not-standard-method", "gauge-doubted"}, c.Noticed) || mayBeReleased(c) || known.MayBeReleased.HoldsIn(c) || c.MadeLowByHose() || c.UnitSuspect()
	return stoppedFarLow(c) && lowAlike(c) && c.DriveMaySlip() && !c.Flies() && c.Spec.Interference != diag.No && !ofTest && !broughtBack(c)
}

// justSet speaks for a clearance that was just set, in an engine all of which is low:
// set too tight, it holds the valves open.
func justSet(c *known.Case) []Voice {
	set := c.LashCanBeSet() && c.WorkDone("valves adjusted", "valves set", "lash set", "clearance set", "clearances set", "valve adjustment")
	return where(set, as(OfHistory, speaks(Known, "valve-lash")))
}

// timingTouched speaks for valve timing that was just worked on: what was taken
// apart last is looked at first.
func timingTouched(c *known.Case) []Voice {
	return where(c.DriveDisturbed(), as(OfHistory, speaks(Known, "cam-timing")))
}

// weighWear weighs worn rings and bores: oil use and blue smoke, months of
// decline, oil that lifts them all, air at the crankcase of them all.
func weighWear(c *known.Case, s known.Subject) []Voice {
	smokes := c.History.Smoke.Colour == "blue"
	blue := smokes && (len(c.History.Smoke.When) == 0 || c.Smokes("blue", "load", "always")) // at the start alone it comes from above
	oily := c.UsesOil()
	slowly := c.OnsetSays("slow", "gradual", "month", "year")
	tight := c.AllTight(c.Read())
	flat := len(c.WetTested()) > 0 && c.AllWet(c.WetTested(), known.WetFlat)
	past := c.LosesAt(c.Read(), known.AtCrankcase) && !tight && !allHold(c)
	return slices.Concat(
		where(blue, as(OfRunning, speaks(Known, "wear"))),
		where(oily && !smokes, as(OfHistory, speaks(Known, "wear"))),
		where(slowly, as(OfHistory, speaks(Known, "wear"))),
		where(c.RisesEverywhere() && c.WetOfAll() != known.WetRises && !c.Noticed("wet-dose-too-large"), speaks(Wet, "wear")), // else the sign says it
		where(c.RisesEverywhere() && mayBeWashed(c), speaks(Hint, "washed-bore")),
		where(past, as(OfLeakage, speaks(Heard, "wear"))),
		where(tight, as(OfLeakage, denies(Heard, "holds-air", "wear", "washed-bore", "fault-in-each"))),
		where(flat, denies(DryUp, "no-wet-rise", "wear", "washed-bore")),
		where(known.RingsNotRunIn.Holds(c, s), as(OfHistory, append(denies(Known, "new-rings", "wear"), speaks(commonest/2, "not-run-in")...))),
		where(c.Flooded(), as(OfPlugs, speaks(Known, "washed-bore"))),
		where(c.Complains("rich running"), as(OfHistory, speaks(Hint, "washed-bore"))),
		where(c.Stood(), as(OfHistory, speaks(Known, "stuck-rings", "dry-bores"))))
}

// compressionSigns tip the balance for low cylinders by what is known of the
// engine.
var compressionSigns = []Sign{
	// Washed bores read low, not nothing: where fuel takes all pressure it is taken in every cylinder.
	{When: known.All(known.Low, known.Not(known.Dead), known.OfAll("its plug soaked with fuel", func(c *known.Case, n string) bool { p := c.Plug(n); return p != nil && p.Look == "fuel-wet" }),
		known.OfEngine("most plugs soaked with fuel in an engine that does not start", func(c *known.Case) bool { return c.Flooded() && !c.Starts() })), Kind: OfPlugs, About: "cylinders", For: speaks(Heard, "washed-bore")},
	{When: known.All(known.Low, known.OneCamshaft), Kind: OfHistory, About: "cylinders", Against: denies(Hint, "one-camshaft", "cam-phaser")},
	{When: known.All(known.Low, known.OfAll("of the set that is shut down at light load", func(c *known.Case, n string) bool { return slices.Contains(c.Spec.Deactivates, n) })),
		Kind: OfHistory, About: "cylinders", For: speaks(Hint, "deactivation-lifter")},
	{When: known.OfEngine("the throttle held open", func(c *known.Case) bool { return c.Conditions.Throttle == "open" && c.Dead() }), Kind: OfHistory, About: "engine",
		Against: denies(DryUp, "throttle-open", "throttle-or-choke")},
	{When: known.OfEngine("a belt or chain drives the valves, it came on suddenly, and no cylinder has pressure", func(c *known.Case) bool {
		return c.Dead() && c.DriveNamed() != "" && strings.Contains(strings.ToLower(c.History.Onset), "sudden")
	}), Kind: OfHistory, About: "engine", For: speaks(Known, "timing-drive")},
}
