package rule

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// noneRules recognise cylinders without pressure.
var noneRules = []Rule{
	{
		Name: "none-anywhere", Title: "No pressure in any cylinder",
		Why: "Nothing wears out every cylinder of an engine at once. Without any pressure at all the camshaft mostly does not turn with the crankshaft, a decompressor or throttle holds the air back, " +
			"or the gauge does not read. Where the plugs are soaked with fuel the bores are only washed: that engine is dried, oiled and tested again first.",
		Source: "common practice, no source", Class: Group, About: diag.AboutEngine, Needs: []known.Need{known.NeedsCompression},
		Of: everyRead,
		When: known.OfEngine("none reaches 25 psi (170 kPa), more than half of the engine and two at least were read, or its only cylinder is soaked with fuel; no automatic decompressor",
			func(c *known.Case) bool { return c.Dead() && (c.Cranking().N > 1 || loneFlooded(c)) }),
		Kind: OfCompression, Weigh: weighNone, Say: noneAnywhere, Headline: "none-anywhere", Variants: []string{"flooded", "unit", "shut"},
		InsteadOf: []string{"below-minimum", "near-minimum"},
	},
	{
		Name: "neighbours-without-pressure", Title: "Neighbours without pressure",
		Why: "When the gasket burns through between two bores each blows into the other, and since they compress at different times both read nothing. " +
			"The same sight comes from a cracked or warped head and, after the engine stood, from valves stuck open. Zero on two is a reading, and worth repeating once.",
		Source: "US Army Ordnance subcourse OD1001, p. 91-92 (two adjacent cylinders low: head gasket)", Class: Group, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsCompression},
		Of:   sets("two cylinders side by side under one head gasket, no more of the engine dead than these", func(c *known.Case) [][]string { return c.GroupLow().DeadRuns }),
		When: known.Dead, Kind: OfCompression, Weigh: weighDeadPair, Say: lowFinding, Headline: "neighbours-without-pressure",
	},
	{
		Name: "several-without-pressure", Title: "Several cylinders without pressure",
		Why: "Cylinders that die together share the drive of their valves: a belt or chain that failed or jumped, valves bent by it, a camshaft broken so that everything behind the break stands still. " +
			"One gasket kills two neighbours, not three, and not two that do not touch. Turning such an engine on can bend more.",
		Source: "US Army Ordnance subcourse OD1001, p. 91-92 (slipped valve timing, from memory)", Class: Group, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsCompression},
		Of:   oneSet("more than two cylinders without pressure, or two that have no low neighbour", func(c *known.Case) []string { return c.GroupLow().Dead }),
		When: known.Dead, Kind: OfCompression, Weigh: weighSeveral, Say: severalWithoutPressure, Headline: "several-without-pressure", Variants: []string{"in-a-row"},
	},
	{
		Name: "deactivated-set-dead", Title: "The cylinders that are shut down at light load have no pressure",
		Why: "An engine that shuts cylinders down does it by letting their valve lifters go slack, with oil that a solenoid sends. Where the low cylinders are just those, their lifters or that solenoid hold " +
			"the valves still. Gaskets do not choose these cylinders.",
		Source: "common practice, no source", Class: Together, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsCompression},
		Of:   oneSet("two low cylinders at least, all of them of the set that the job says is shut down together, and none other low", func(c *known.Case) []string { return c.GroupLow().Set }),
		When: known.Low, Kind: OfCompression,
		For: append(as(OfHistory, speaks(Heard, "deactivation-lifter")), common("valve-motion")...),
		Say: deactivatedSet, Headline: "deactivated-set",
	},
	{
		Name: "one-without-pressure", Title: "One cylinder without pressure",
		Why: "A worn cylinder still builds something. One that builds nothing stands open: a valve that does not close, a spring or rocker that let go, a hole in the piston, a gasket blown through; " +
			"or the adapter was not tight. On an engine with set lash a valve set too tight does the same. It is so whether or not the others were read.",
		Source: "common practice, no source", Class: Single, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsCompression},
		Of:   oneSet("one cylinder without a low neighbour, or the only one read", oneDead),
		When: known.Dead, Kind: OfCompression, Weigh: weighDead, Say: oneWithoutPressure, Headline: "one-without-pressure", Variants: []string{"single", "alone"},
	},
}

// oneDead is the one cylinder without pressure that belongs to no group.
func oneDead(c *known.Case) []string {
	switch {
	case loneFlooded(c):
		return nil // none-anywhere speaks of it
	case c.Dead() && len(c.Engine.Cylinders) == 1:
		return c.Read()
	}
	if g := c.GroupLow(); len(g.DeadSingles) == 1 {
		return g.DeadSingles
	}
	return nil
}

// loneFlooded reports the only cylinder of an engine soaked with fuel, which is
// dried before it is judged, as all of a larger engine are.
func loneFlooded(c *known.Case) bool {
	return len(c.Engine.Cylinders) == 1 && c.Flooded() && !valvesStill(c)
}

// weighNone weighs what takes the pressure of a whole engine. Soaked with fuel
// it is mostly washed bores. A shut throttle leaves
// more than nothing.
func weighNone(c *known.Case, _ known.Subject) []Voice {
	if c.UnitSuspect() {
		return as(OfTest, speaks(Heard, "other-unit"))
	}
	list := common("timing-drive", "throttle-or-choke", "gauge-reads-low", "cam-timing")
	if c.Ported() {
		list = common("throttle-or-choke", "gauge-reads-low", "washed-bore", "crankcase-seal")
	}
	if c.HasValves() && c.Cranking().Highest == 0 {
		list = common("timing-drive", "gauge-reads-low", "cam-timing")
	}
	return slices.Concat(list, timingTouched(c), where(c.HasValves() && !c.Flooded(), valvesHit(c)),
		where(c.UnitNoted(), as(OfTest, speaks(Hint, "other-unit"))),
		where(littleLostAnywhere(c), as(OfLeakage, slices.Concat(speaks(Heard, "timing-drive"), denies(Heard, "loss-too-small", "rings", "scored-bore", "piston", "wear")))),
		where(valvesStill(c), as(OfHistory, speaks(Known, "timing-drive"))),
		where(c.Flooded() && !valvesStill(c), as(OfPlugs, speaks(Heard, "washed-bore", "flooding"))),
		where(c.Spec.Decompressor == "", speaks(Known-Hint, "decompressor")))
}

// littleLostAnywhere reports a leakage test of two cylinders at least in which none lost
// enough to make no pressure for it.
func littleLostAnywhere(c *known.Case) bool {
	leaks := c.Leaks()
	return len(leaks) > 1 && !slices.ContainsFunc(leaks, func(l *diag.LeakResult) bool { return !c.LossTooSmall(l.Name) })
}

// valvesStill reports an engine with valves of which every cylinder reads nothing
// at all, and that came on suddenly or that a still camshaft would bend: soaked
// plugs do not make it safe to crank.
func valvesStill(c *known.Case) bool {
	return c.HasValves() && c.Cranking().Highest == 0 && (c.Spec.Interference == diag.Yes || known.SuddenOnset.HoldsIn(c))
}

func noneAnywhere(c *known.Case, _ known.Subject) diag.Finding {
	f := diag.Finding{Urgency: diag.DoNotRun, Confidence: diag.Fair, Facts: diag.Facts{"highest": c.Pressure(c.Cranking().Highest), "nothing": c.TradeFigure(nothing(c)), "of": len(c.Engine.Cylinders)}}
	switch {
	case c.UnitSuspect():
		f.Variant, f.Urgency, f.Confidence = "unit", diag.CheckAgain, diag.Weak
	case c.Flooded() && !valvesStill(c):
		f.Variant, f.Urgency = "flooded", diag.CheckAgain // it is dried before it is judged
	case c.ThrottleShut() && c.Spec.Runs == "well" && c.Starts(): // what came in running well has pressure, and got no air
		f.Variant, f.Urgency, f.Confidence = "shut", diag.CheckAgain, diag.Weak
	}
	return f
}

// weighDeadPair starts from the gasket between two dead neighbours; valves that
// stuck while it stood, or that were bent when a belt or chain let go, come
// before it where that is known.
func weighDeadPair(c *known.Case, s known.Subject) []Voice {
	return slices.Concat(weighNeighbours(c, s), where(c.HasValves() && known.SuddenOnset.Holds(c, s), speaks(commonest, "valve-motion")), valvesHit(c)) // a camshaft that broke ahead of them
}

// valvesHit speaks for bent valves where what is known of the engine and of how
// it came on makes these likely.
func valvesHit(c *known.Case) []Voice {
	sudden := known.SuddenOnset.HoldsIn(c)
	return slices.Concat(
		where(c.DriveMayHaveLetGo(), as(OfHistory, slices.Concat(speaks(Heard, "timing-drive"), speaks(Known, "bent-valve"), denies(Known, "others-low-too", "head-gasket", "warped-or-cracked-head")))),
		where(c.ValvesMayHaveMet() && (c.Interferes() || c.DriveFailed()), as(OfHistory, speaks(Known, "bent-valve", "timing-drive"))),
		where(c.ValvesMayHaveMet() && c.RenewedAfterFailing(), as(OfHistory, speaks(Known, "bent-valve"))),
		where(c.RenewedAfterFailing() && len(c.Graded(diag.Even)) > 0, as(OfHistory, denies(Heard, "drive-renewed", "timing-drive"))), // it drives the others
		where(c.Spec.Interference != diag.No && sudden, as(OfHistory, speaks(Hint, "bent-valve", "timing-drive"))),
		where(c.Spec.Interference == diag.No, as(OfHistory, denies(Known, "no-interference", "bent-valve"))))
}

// weighSeveral starts from the drive of the valves. A set that many engines shut
// down at light load may be that here.
func weighSeveral(c *known.Case, s known.Subject) []Voice {
	list := append(common("timing-drive", "bent-valve", "cam-timing", "valve-motion", "fault-in-each"), where(c.ShareHead(s.Cylinders), speaks(commonest-4*rarer, "head-gasket"))...)
	if c.Ported() {
		list = common("holed-piston", "rings", "fault-in-each", "head-gasket", "crankcase-seal")
	}
	return slices.Concat(list, valvesHit(c),
		where(c.BehindABreak(s.Cylinders), append(speaks(Heard, "broken-camshaft"), denies(Known, "drives-the-others", "timing-drive", "cam-timing")...)),
		where(known.MayBeDeactivated.Holds(c, s), as(OfHistory, speaks(Known, "deactivation-lifter"))),
		where(c.Stood(), as(OfHistory, speaks(Known, "stuck-valve"))))
}

func severalWithoutPressure(c *known.Case, s known.Subject) diag.Finding {
	f := lowFinding(c, s)
	if c.ShareHead(s.Cylinders) {
		f.Variant = "in-a-row"
	}
	return f
}

func deactivatedSet(c *known.Case, s known.Subject) diag.Finding {
	f := lowFinding(c, s)
	if f.Urgency == diag.CheckAgain {
		f.Urgency = diag.ActSoon
	}
	f.Facts["set"] = diag.Names(c.Spec.Deactivates)
	return f
}

// weighDead starts from what leaves one cylinder without any pressure.
func weighDead(c *known.Case, _ known.Subject) []Voice {
	told := slices.Concat(where(c.Stood(), as(OfHistory, speaks(Known, "stuck-valve"))), oneHit(c))
	switch {
	case c.Ported():
		return common("holed-piston", "rings", "head-gasket", "adapter-leak")
	case c.Spec.Diesel():
		return append(common("valve-lash", "stuck-valve", "valve-motion", "holed-piston", "bent-valve", "head-gasket", "adapter-leak"), told...)
	}
	return append(common("stuck-valve", "valve-motion", "holed-piston", "bent-valve", "head-gasket", "adapter-leak", "valve-lash"), told...)
}

// oneHit is valvesHit for one cylinder, of which a valve may be bent after the
// drive was renewed: it does not say that the drive is at fault still.
func oneHit(c *known.Case) []Voice {
	return slices.DeleteFunc(valvesHit(c), func(v Voice) bool { return v.Cause != "bent-valve" || v.Weight > 0 && !c.ValvesMayHaveMet() })
}

func oneWithoutPressure(c *known.Case, s known.Subject) diag.Finding {
	f := lowFinding(c, s)
	f.Urgency = diag.DoNotRun
	f.Facts["seen"] = !slices.ContainsFunc(s.Cylinders, func(n string) bool { return !c.OpenSeen(n) })
	switch {
	case len(c.Engine.Cylinders) == 1:
		f.Variant = "single"
	case f.Facts["others"] == "":
		f.Variant = "alone"
	}
	return f
}
