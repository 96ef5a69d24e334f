package rule

import (
	"maps"
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
	"gaugesheet/diag/quantity"
)

// Sources of what a vacuum gauge says: training texts agree on the patterns and
// differ on the figures.
const byNeedle = "common practice, no source: what the needle does; 17 to 21 inHg at sea level"

// systemRule fills in what the rules on one further test have in common.
func systemRule(section string, kind Kind, source string, list []Rule) []Rule {
	for i := range list {
		r := &list[i]
		r.About, r.Kind = diag.AboutSystem, kind
		if r.Of.Of == nil {
			r.Of = ofSystem(section)
		}
		r.Needs = append([]known.Need{known.NeedsTest(section)}, r.Needs...)
		if r.Source == "" {
			r.Source = source
		}
		if r.Class == TestItself {
			r.Class = Single
		}
	}
	return list
}

// vacuumRules are on the manifold's vacuum at idle, held at a speed, on a quick
// opening of the throttle and on the starter.
var vacuumRules = systemRule(known.Vacuum, OfVacuum, byNeedle, []Rule{
	{
		Name: "vacuum-right", Title: "Vacuum steady and in its band",
		Why:   "A steady needle in the band says that all cylinders pull alike and that the exhaust lets go. It is no proof of sealing: even wear and a small leak do not move it.",
		Class: Information, When: known.VacuumRight,
		Against: denies(DryUp, "vacuum-is-right", "cam-timing", "restricted-exhaust", "air-leak", "manifold-gasket"), Say: vacuumAt(diag.NoAction), Headline: "vacuum-right",
	},
	{
		Name: "vacuum-low-and-steady", Title: "Vacuum low, the needle steady",
		Why: "A steady needle says that whatever is wrong is wrong in all cylinders alike. Up to two inches short it is late ignition, valve timing or clearance; further down an air leak or late valve timing, which low and even compression decides. " +
			"Even wear of the rings does it only together with low compression.",
		When: known.Any(known.VacuumLow, known.VacuumLowUnread), Weigh: weighVacuum, Against: denies(Known, "vacuum-is-low", "restricted-inlet", "air-filter"), // what chokes the inlet raises it
		Say: lowVacuum, Headline: "vacuum-low", Variants: []string{"unread"},
	},
	{
		Name: "vacuum-high", Title: "Vacuum above what a sound engine draws",
		Why:  "A throttled engine at idle hardly draws more than 21 inHg at sea level. More is a gauge that reads high, or an inlet that is choked ahead of the gauge: a filter, a collapsed hose, a choke that stays shut.",
		When: known.VacuumHigh, For: append(speaks(Known, "reading-wrong"), speaks(Hint, "restricted-inlet", "air-filter")...), Say: vacuumAt(diag.CheckAgain), Headline: "vacuum-high",
	},
	{
		Name: "vacuum-drops-regularly", Title: "The needle drops at a regular beat",
		Why:  "A beat in step with the engine is one cylinder, or some, that does not pull: no spark, a valve that leaks, a gasket.",
		When: known.VacuumDrops, Weigh: weighDrops, Say: vacuumAt(diag.CheckAgain), Headline: "vacuum-drops",
	},
	{
		Name: "vacuum-drops-now-and-then", Title: "The needle drops now and then",
		Why:  "A drop that comes without a beat is a valve that sticks, or a spark that fails at times.",
		When: known.VacuumStrays, For: []Voice{{Cause: "sticking-valve", Weight: Hint}, {Cause: "weak-spark", Weight: Hint}, {Cause: "ignition", Weight: Hint - rarer}}, Say: vacuumAt(diag.CheckAgain), Headline: "vacuum-drops",
	},
	{
		Name: "vacuum-floats", Title: "The needle floats between 12 and 16",
		Why:  "A slow drift up and down is the mixture: too rich or too lean, and the idle hunts.",
		When: known.VacuumFloats, Weigh: weighFloats, Say: vacuumAt(diag.CheckAgain), Headline: "vacuum-floats",
	},
	{
		Name: "vacuum-quivers", Title: "The needle quivers at idle",
		Why:  "A quick, small tremble is air that gets past the stems of worn valve guides at each stroke, or springs that are tired. With a camshaft of long overlap it is usual.",
		When: known.VacuumQuivers, For: []Voice{{Cause: "guides-or-seals", Weight: Hint}, {Cause: "valve-springs", Weight: Hint - rarer}, {Cause: "ignition", Weight: rarer}}, Say: thisSure(diag.Weak, vacuumAt(diag.CheckAgain)), Headline: "vacuum-quivers",
	},
	{
		Name: "vacuum-swings-quicker", Title: "The needle's swing narrows and quickens as the speed rises",
		Why:  "A leak at one branch of the inlet is felt at each of its strokes: as the engine turns faster the needle follows faster and less far.",
		When: known.VacuumQuickens, For: append(speaks(Known, "air-leak", "manifold-gasket"), speaks(DryUp, "shared-runner")...), Say: vacuumAt(diag.CheckAgain), Headline: "vacuum-quicker",
	},
	{
		Name: "vacuum-swings-wider", Title: "The needle swings wider as the speed rises",
		Why:  "A valve spring that is weak or broken lets its valve float, the more the faster it turns.",
		When: known.All(known.VacuumSwings, known.Valves), For: []Voice{{Cause: "valve-springs", Weight: Known}, {Cause: "valve-motion", Weight: DryUp}}, Say: vacuumAt(diag.CheckAgain), Headline: "vacuum-swings", SaysBetterThan: []string{"vacuum-quivers"},
	},
	{
		Name: "vacuum-steadies", Title: "The needle steadies as the speed rises",
		Why:  "What is uneven at idle and gone at speed is spark or mixture, or, some texts say, worn valve guides; oily plugs decide for these.",
		When: known.VacuumSteadies, For: []Voice{{Cause: "ignition", Weight: Hint}, {Cause: "lean-mixture", Weight: Hint - rarer}, {Cause: "egr-open", Weight: rarer}, {Cause: "guides-or-seals", Weight: rarer}}, Say: vacuumAt(diag.CheckAgain), Headline: "vacuum-steadies", SaysBetterThan: []string{"vacuum-quivers"},
	},
	{
		Name: "vacuum-falls-when-held", Title: "Vacuum that falls while the speed is held",
		Why:  "An exhaust that is blocked backs up: the needle starts where it should and sinks while the speed is held. An exhaust-gas valve that stays open does the same.",
		When: known.VacuumFalls, Weigh: func(c *known.Case, _ known.Subject) []Voice {
			return append(speaks(Known, "restricted-exhaust"), where(!known.IdleAsRead.HoldsIn(c), speaks(Hint, "egr-open"))...)
		}, Say: heldVacuum, Headline: "exhaust-blocked",
	},
	{
		Name: "snap-does-not-recover", Title: "Vacuum that does not rise as the throttle shuts",
		Why:  "An engine that seals pulls far more than its idle vacuum as the throttle shuts from a rev. One that does not is short of rings or has a leak.",
		When: known.VacuumRecovers, For: []Voice{{Cause: "rings", Weight: Hint}, {Cause: "wear", Weight: Hint - rarer}, {Cause: "air-leak", Weight: Hint - 2*rarer}}, Say: snapVacuum, Headline: "vacuum-low",
	},
	{
		Name: "cranking-vacuum-low", Title: "Little vacuum on the starter",
		Why:  "With the throttle shut and the starter turning as it should, an engine pulls some inches. Little is a throttle that does not shut, an air leak, or valve timing.",
		When: known.VacuumCranksLow, For: []Voice{{Cause: "air-leak", Weight: Hint}, {Cause: "cam-timing", Weight: Hint - rarer}, {Cause: "timing-drive", Weight: rarer}}, Say: crankingVacuum, Headline: "vacuum-low",
	},
	{
		Name: "vacuum-low-sealing-sound", Title: "Vacuum low and steady, the cylinders even",
		Why: "Compression that is even and as high as it should be, with a low and steady needle, says that the inside of the engine is not the reason: late ignition or air. " +
			"Even alone does not: valves that open late, and wear, lower all cylinders alike, and there has to be a figure to see that by.",
		Class: Together, Needs: []known.Need{known.NeedsCompression}, When: known.All(known.VacuumLow, pressureSound, known.Not(known.UnderFloor)),
		For: speaks(Hint, "late-ignition", "air-leak"), Weigh: weighEvenAndLow, Say: evenAndLow, Headline: "vacuum-low", Keeps: true, Variants: []string{"matched"},
	},
	{
		Name: "vacuum-drop-without-low-cylinder", Title: "The needle drops at a beat, the cylinders even",
		Why: "A cylinder that does not pull although all seal alike lacks its spark or its fuel. The balance says which. Where the needle swings wider as the speed rises it is no spark or fuel, " +
			"which such an engine misses less the faster it turns: a weak spring lets its valve float, and the starter turns too slowly to show it.",
		Class: Together, Needs: []known.Need{known.NeedsCompression}, When: known.All(known.VacuumDrops, pressureSound, known.Not(oneBreathes)),
		Weigh: weighDropsEven, Against: denies(Known, "pressure-is-even", "exhaust-valve", "inlet-valve", "head-gasket"), Say: vacuumAt(diag.CheckAgain), Headline: "vacuum-drops", Keeps: true,
	},
	{
		Name: "late-ignition-agrees", Title: "Low and steady vacuum, and a base timing that is late",
		Why:   "A late spark pulls less vacuum in every cylinder alike. The light has shown it late: it is set first, and the vacuum read again before air or valve timing are looked for.",
		Class: Together, TiesSystems: []string{known.Timing}, Needs: needsTest(known.Timing), When: known.All(known.VacuumLow, known.LateBase, known.Not(known.UnderFloor)),
		For: speaks(Known, "late-ignition"), Say: lateSpark, Headline: "timing-late", SaysBetterThan: []string{"timing-late", "vacuum-low-and-steady", "vacuum-low-sealing-sound"},
	},
	{
		Name: "air-leak-agrees", Title: "Low and steady vacuum, and trims that add much at idle alone",
		Why:   "Air that gets in behind the throttle lowers the vacuum, and the computer adds fuel for it at idle, where it counts most. Two tests that do not depend on each other say the same.",
		Class: Together, Ties: []diag.About{diag.AboutMixture}, Needs: needsTest(known.Trims), When: known.All(known.VacuumLow, known.TrimAir, known.Not(known.UnderFloor)),
		For: speaks(Known, "air-leak", "manifold-gasket"), Say: thisSure(diag.Strong, airAndTrims), Headline: "trim-air", SaysBetterThan: []string{"trim-lean-at-idle-only", "vacuum-low-and-steady", "vacuum-low-sealing-sound"},
	},
	{
		Name: "back-pressure-and-vacuum", Title: "A high back-pressure, and a low and steady vacuum",
		Why: "Burnt gas that does not get out leaves less room for what the engine would draw in: an exhaust that backs up lowers the vacuum in all cylinders alike. What was measured to be past every figure is followed " +
			"before what lowers the vacuum as well and was not measured.",
		Class: Together, TiesSystems: []string{known.BackPressure}, Needs: needsTest(known.BackPressure),
		When:    known.All(known.VacuumLow, known.Any(known.BackPressureHigh, known.BackPressureOverRules), known.Not(known.VacuumFalls), known.Not(known.VacuumHolds)),
		For:     []Voice{{Cause: "restricted-exhaust", Weight: Known}, {Cause: "restricted-exhaust", Weight: Known, Kind: OfExhaust}},
		Against: denies(Known, "exhaust-backs-up", "late-ignition", "air-leak", "manifold-gasket", "cam-timing", "valve-lash", "egr-open"),
		Say:     backAndVacuum, Headline: "exhaust-blocked", SaysBetterThan: []string{"exhaust-blocked", "back-pressure-over-rules", "vacuum-low-and-steady", "vacuum-low-sealing-sound"},
	},
	{
		Name: "bank-exhaust-blocked", Title: "Vacuum that falls when held, and trims of the banks that go opposite ways",
		Why: "A bank that cannot breathe out draws less air than its fuel is meant for, so that the computer takes fuel out there; the other bank draws the rest, and it adds fuel to that. " +
			"The needle that sinks while the speed is held sees the same gas back up: it is the exhaust of the bank from which fuel is taken.",
		Class: Together, Ties: []diag.About{diag.AboutMixture}, Needs: needsTest(known.Trims), When: known.All(known.VacuumFalls, known.TrimsCrossFast, known.Not(known.ExhaustOpen)),
		For: append(speaks(Heard, "restricted-exhaust"), Voice{Cause: "restricted-exhaust", Weight: Known, Kind: OfTrims}), Against: denies(DryUp, "backs-up", "sensors-crossed"),
		Say: bankBlocked, Headline: "exhaust-blocked", SaysBetterThan: []string{"banks-opposed", "trims-apart", "vacuum-falls-when-held"},
	},
	{
		Name: "blocked-exhaust-agrees", Title: "Vacuum that falls when held, and another sign of a blocked exhaust",
		Why:   "Two tests that do not depend on each other see the exhaust back up.",
		Class: Together, TiesSystems: []string{known.BackPressure}, When: known.All(known.VacuumFalls, known.Any(known.KeepsItsGas, known.BackPressureHigh, known.BackPressureOverRules)), Weigh: weighBlocked, Say: blockedTwice, Headline: "exhaust-blocked", SaysBetterThan: []string{"vacuum-falls-when-held", "exhaust-blocked", "back-pressure-over-rules"},
	},
})

// lateTiming is on the engine as a whole, tied to its vacuum.
var lateTiming = []Rule{{
	Name: "late-timing-agrees", Title: "Low and even compression with a low and steady vacuum",
	Why:    "Valves that open and shut late lose pressure in every cylinder alike and pull less vacuum, and nothing leaks. Two tests that do not depend on each other say the same.",
	Source: byNeedle, Class: Together, About: diag.AboutEngine, Ties: []diag.About{diag.AboutSystem}, TiesSystems: []string{known.Timing}, Needs: []known.Need{known.NeedsCompression, known.NeedsTest(known.Vacuum)}, Of: ofSystem(known.Vacuum),
	When: known.All(known.VacuumLow, known.OfEngine("all cylinders low and even", evenlyLow), known.Not(known.OfEngine("air lost past the rings, or a rise with oil", passesRings))),
	Kind: OfVacuum, Weigh: weighLate, Say: lateTimed, Headline: "late-timing", Variants: []string{"likely"},
}}

// beatAndLow ties the needle's beat to the few cylinders that are low.
var beatAndLow = []Rule{{
	Name: "beat-agrees", Title: "A needle that drops regularly, and low cylinders",
	Why:    "The beat of the needle is a cylinder or more that does not pull, and of some it is known that they hold little pressure. It is these until shown otherwise.",
	Source: byNeedle, Class: Together, About: diag.AboutCylinders, TiesSystems: []string{known.Vacuum}, Needs: []known.Need{known.NeedsCompression, known.NeedsTest(known.Vacuum)},
	Of: oneSet("the low cylinders, where they are not more than half of the engine's", fewLow), When: known.VacuumDrops,
	Kind: OfVacuum, Weigh: beatOfLow, Say: vacuumAt(diag.CheckAgain), Headline: "one-low", Keeps: true, SaysBetterThan: []string{"vacuum-drops-regularly"},
}, {
	Name: "valve-agrees", Title: "One low cylinder that oil does not lift, and a needle that drops regularly",
	Why: "What oil does not lift leaks above the piston, and a valve that leaks is one of the things that make the needle drop once in each turn of the camshaft. That is one more voice for a valve. " +
		"It makes nothing surer by itself: the needle does not show which cylinder it drops for, and a gasket or a spark drops it too.",
	Source: "common practice, no source; that it makes nothing surer is judgement", Class: Together, About: diag.AboutCylinders, TiesSystems: []string{known.Vacuum}, Needs: []known.Need{known.NeedsCompression, known.NeedsTest(known.Vacuum)},
	Of: oneSet("the only low cylinder", func(c *known.Case) []string { return only(c.LowSet()) }), When: valveByNeedle,
	Kind: OfVacuum, For: speaks(Hint, "exhaust-valve", "inlet-valve"), Say: vacuumAt(diag.CheckAgain), Headline: "one-low", Keeps: true, SaysBetterThan: []string{"beat-agrees", "vacuum-drops-regularly"},
}}

// valveByNeedle is a cylinder that oil does not lift on an engine whose needle drops
// regularly, with no air heard that gets out at another place than a valve.
var valveByNeedle = known.All(known.OilFlat, known.VacuumDrops, known.InletValved, known.Not(known.Any(known.AirAt(known.AtCrankcase), known.AirAt(known.AtNeighbour), known.AirAt(known.AtCoolant), known.AirAt(known.AtOutside))))

// fewLow are the low cylinders, where the needle's beat may be theirs.
func fewLow(c *known.Case) []string {
	if low := c.LowSet(); len(low) == 1 || 2*len(low) <= len(c.Every()) {
		return low
	}
	return nil
}

// only is a set of one, and nil for a greater one.
func only(names []string) []string {
	if len(names) != 1 {
		return nil
	}
	return names
}

// beatOfLow is what lets a cylinder miss its part of the vacuum, and two that share a
// gasket as well. Where oil did not lift it, the valves have their voice by that.
func beatOfLow(c *known.Case, s known.Subject) []Voice {
	if len(s.Cylinders) == 1 && valveByNeedle.Holds(c, s) {
		return nil
	}
	shared := len(s.Cylinders) > 1 && len(c.Engine.NeighbourRuns(s.Cylinders)) < len(s.Cylinders)
	return append(where(shared, speaks(Hint, "head-gasket")), speaks(Hint, "exhaust-valve", "rings", "inlet-valve")...)
}

// lowByLow ties a vacuum that is short to the cylinders that do not pull their part of it.
var lowByLow = []Rule{{
	Name: "vacuum-short-of-cylinders", Title: "Vacuum low and steady, and cylinders that are low or do not pull",
	Why: "Each cylinder draws its part of the vacuum, and one that holds little pressure, or that pulls nothing, is missed in it. Where the needle is short by no more than these cylinders' part, they are the reason, " +
		"and nothing that all cylinders have in common is looked for until they were put right and the vacuum was read again.",
	Source: "common practice, no source; that the part of the vacuum is that of the cylinders is judgement", Class: Together, About: diag.AboutCylinders, TiesSystems: []string{known.Vacuum}, Needs: []known.Need{known.NeedsTest(known.Vacuum)},
	Of: oneSet("the cylinders that are low or that pull nothing, where others are not", missedInVacuum), When: known.VacuumLow,
	Kind: OfVacuum, Say: vacuumAt(diag.CheckAgain), Headline: "one-low", Keeps: true, SaysBetterThan: []string{"vacuum-low-and-steady"},
}}

// missedInVacuum are the cylinders that are low or pull nothing, where the vacuum is short by
// no more than they would draw.
func missedInVacuum(c *known.Case) []string {
	names := c.Those(func(n string) bool {
		return c.Grade(n).IsLow() || known.PullsNothing.HoldsOf(c, n)
	})
	if len(names) == 0 || len(names) == len(c.Every()) || c.AllLow() != nil || c.VacuumShort() > usualVacuum*float64(len(names))/float64(len(c.Every())) {
		return nil
	}
	return names
}

// usualVacuum is what a sound engine draws at idle, in inHg.
const usualVacuum = 19

// beatAndBreath ties the needle's beat to the one cylinder that breathes poorly.
var beatAndBreath = []Rule{{
	Name: "beat-and-breath", Title: "A needle that drops regularly, and one cylinder that does not breathe as the others",
	Why:    "The beat of the needle is one cylinder that does not pull, and one is known whose valves do not let it breathe. It is the same one until shown otherwise.",
	Source: byNeedle, Class: Together, About: diag.AboutCylinders, TiesSystems: []string{known.Vacuum}, Needs: []known.Need{known.NeedsCompression, known.NeedsTest(known.Vacuum)},
	Of: oneSet("the only cylinder that breathes otherwise than the others", breathers), When: known.All(known.VacuumDrops, oneBreathes),
	Kind: OfVacuum, For: speaks(Hint, "valve-motion"), Say: vacuumAt(diag.CheckAgain), Headline: "breathes-poorly", Keeps: true, SaysBetterThan: []string{"vacuum-drops-regularly"},
}}

// weighVacuum: how far it is short decides between ignition, and air or cam.
func weighVacuum(c *known.Case, _ known.Subject) []Voice {
	if missed := missedInVacuum(c); len(missed) > 0 { // what those have in common says the rest
		return where(slices.Equal(missed, c.GroupLow().Bank), speaks(Hint, "cam-timing"))
	}
	list := common("late-ignition", "cam-timing", "valve-lash", "air-leak")
	if c.FarShort() {
		list = common("air-leak", "manifold-gasket", "cam-timing", "late-ignition")
	}
	list = append(list, speaks(commonest-3*rarer, "egr-open")...) // burned gas at idle does what air does
	if evenlyLow(c) {
		list = append(list, speaks(Known, "cam-timing")...)
		list = append(list, speaks(Hint, "wear")...)
	}
	return list
}

// weighEvenAndLow: a figure that is kept clears what lowers all cylinders alike; that they
// match says less, least where the drive of the valves was off, and nothing against a camshaft
// that was measured late: alike and low is what that makes them.
func weighEvenAndLow(c *known.Case, _ known.Subject) []Voice {
	if known.CamLate.HoldsIn(c) {
		return where(c.UnderStandard(), speaks(DryUp, "cam-timing"))
	}
	if c.PressureByFigure() {
		return denies(Known, "pressure-is-even", "cam-timing", "wear", "rings")
	}
	if c.DriveDisturbed() {
		return append(denies(DryUp, "pressure-is-even", "wear", "rings"), as(OfHistory, speaks(Known, "cam-timing"))...)
	}
	return denies(DryUp, "pressure-is-even", "cam-timing", "wear", "rings")
}

func evenAndLow(c *known.Case, s known.Subject) diag.Finding {
	f := byHeight(c, vacuumAt(diag.CheckAgain)(c, s))
	if !c.PressureByFigure() {
		f.Variant = "matched"
		f.Facts["touched"] = c.DriveDisturbed()
	}
	return f
}

// weighDrops: a cylinder that is known to be low is the one that does not pull, and the
// beat is heard once: where it may be theirs it speaks with the low ones.
func weighDrops(c *known.Case, _ known.Subject) []Voice {
	if len(fewLow(c)) > 0 {
		return nil
	}
	if len(c.LowSet()) > 0 { // why it does not pull is known, and not what lets its pressure out
		return speaks(Hint, "exhaust-valve", "rings", "inlet-valve", "head-gasket")
	}
	if len(breathers(c)) == 1 { // nor is it air that gets out of one that does not get it
		return speaks(Hint, "valve-motion")
	}
	if len(c.PlugApart()) > 0 { // it is that one's, and the plug says why
		return nil
	}
	if valvesFloat(c) { // nor does a spark that fails at idle fail more at speed
		return speaks(Hint, "own-spark", "exhaust-valve", "own-injector")
	}
	return common("own-spark", "exhaust-valve", "own-injector", "head-gasket")
}

// valvesFloat reports a needle that swings wider with the speed, which is said of weak springs.
func valvesFloat(c *known.Case) bool { return known.VacuumSwings.HoldsIn(c) && c.HasValves() }

// weighDropsEven is what lets a cylinder that seals not pull: its spark or its fuel, less so
// where the springs are to blame.
func weighDropsEven(c *known.Case, _ known.Subject) []Voice {
	if valvesFloat(c) {
		return speaks(Hint, "own-spark", "own-injector")
	}
	return speaks(Known, "own-spark", "own-injector")
}

func weighBlocked(c *known.Case, s known.Subject) []Voice {
	list := speaks(Known, "restricted-exhaust")
	if known.KeepsItsGas.Holds(c, s) {
		list = append(list, Voice{Cause: "restricted-exhaust", Weight: Known, Kind: OfRunning})
	}
	if known.BackPressureHigh.Holds(c, s) {
		list = append(list, Voice{Cause: "restricted-exhaust", Weight: Heard, Kind: OfExhaust})
	}
	if known.BackPressureOverRules.Holds(c, s) {
		list = append(list, Voice{Cause: "restricted-exhaust", Weight: Known, Kind: OfExhaust})
	}
	return list
}

// lowVacuum is weak where nothing was noted of the needle, which tells what all cylinders
// have in common.
func lowVacuum(c *known.Case, s known.Subject) diag.Finding {
	f := byHeight(c, vacuumAt(diag.CheckAgain)(c, s))
	if known.VacuumLowUnread.HoldsIn(c) {
		f.Variant, f.Confidence = "unread", diag.Weak
	}
	return f
}

// vacuumAt gives the vacuum at idle beside its band, in the gauge's unit.
func vacuumAt(u diag.Urgency) func(*known.Case, known.Subject) diag.Finding {
	return func(c *known.Case, _ known.Subject) diag.Finding {
		f := diag.Finding{Urgency: u, Confidence: diag.Fair, Facts: diag.Facts{"height": false, "value": "", "needle": "", "low": "", "high": "", "lowered": "", "stated": false}}
		m := c.Measured(known.Vacuum).Reading("idle")
		if m == nil {
			return f
		}
		b := c.VacuumBand()
		in := func(v float64) diag.Number {
			out, _ := quantity.Convert(v, quantity.InHg, m.Unit)
			return diag.Number{Value: out, Decimals: quantity.DecimalsRead(out, m.Decimals)}
		}
		f.Facts["value"], f.Facts["needle"], f.Facts["stated"] = m.Told(), c.Measured(known.Vacuum).Word("idle needle"), b.Stated
		f.Facts["low"], f.Facts["high"] = in(b.Low).String(), in(b.High).String()
		f.Facts["height"] = c.LowByHeight()
		if b.Lowered > 0.5 {
			f.Facts["lowered"] = in(b.Lowered).String()
		}
		if past, clear := known.Past(m); past && clear && u == diag.CheckAgain {
			f.Urgency = diag.ActSoon // the maker's word, and not only custom
		}
		return f
	}
}

// airAndTrims is as urgent as the trims by themselves.
func airAndTrims(c *known.Case, s known.Subject) diag.Finding {
	f := trimPair((*known.Case).AirAtIdle)(c, s)
	f.Facts["vacuum"] = c.Measured(known.Vacuum).Reading("idle").Told()
	return f
}

// blockedTwice is as urgent as the back-pressure by itself, and sure.
func blockedTwice(c *known.Case, s known.Subject) diag.Finding {
	f := heldVacuum(c, s)
	f.Urgency, f.Confidence = diag.ActSoon, diag.Strong
	return f
}

func bankBlocked(c *known.Case, s known.Subject) diag.Finding {
	f := heldVacuum(c, s)
	f.Urgency = diag.ActSoon
	rich, lean, _ := c.OpposedFast()
	maps.Copy(f.Facts, opposedFacts(rich, lean))
	return f
}

func heldVacuum(c *known.Case, _ known.Subject) diag.Finding {
	r := c.Measured(known.Vacuum)
	later := r.Reading("held later")
	f := diag.Finding{Urgency: diag.CheckAgain, Confidence: diag.Fair, Facts: diag.Facts{
		"from": r.Reading("held").Told(), "value": later.Told(), "at": r.Reading("held").At, "glows": false}}
	if f.Facts["open"] = known.ExhaustOpen.HoldsIn(c); f.Facts["open"] == true { // it is not said to be blocked once more
		f.Headline = "vacuum-falls"
		return f
	}
	if c.Complains("low power") && 2*later.Value <= r.Reading("held").Value { // as good as shut, and felt
		f.Urgency, f.Facts["glows"] = diag.ActSoon, true
	}
	return f
}

func snapVacuum(c *known.Case, _ known.Subject) diag.Finding {
	r := c.Measured(known.Vacuum)
	return diag.Finding{Urgency: diag.CheckAgain, Confidence: diag.Weak, Facts: diag.Facts{"value": r.Reading("snap shut").Told(), "idle": r.Reading("idle").Told()}}
}

func crankingVacuum(c *known.Case, _ known.Subject) diag.Finding {
	return diag.Finding{Urgency: diag.CheckAgain, Confidence: diag.Weak, Facts: diag.Facts{"value": c.Measured(known.Vacuum).Reading("cranking").Told()}}
}
