package rule

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

const (
	byTrims = "common practice, no source: within 5 % normal, beyond 10 % a fault; 8 points between banks is judgement"
	byGas   = "limits: the job's own; without one lambda 0.97 to 1.03 (Directive 2014/45/EU annex I 8.2.1.2, from memory); what else the gases show: common practice, no source"
)

// sparkLit is an engine whose mixture a throttle sets: a diesel runs lean
// whatever its state, and has no ignition to time.
var sparkLit = known.Not(known.Diesel)

// onMixture makes rules on a further test rules about the mixture.
func onMixture(section string, kind Kind, source string, list []Rule) []Rule {
	list = systemRule(section, kind, source, list)
	for i := range list {
		list[i].About, list[i].Of = diag.AboutMixture, theEngine
	}
	return list
}

// trimRules are on what the computer adds and takes away: they judge the mixture
// as it is now, where a plug's colour shows the past.
var trimRules = onMixture(known.Trims, OfTrims, byTrims, []Rule{
	{
		Name: "trim-lean-at-idle-only", Title: "Trims add much at idle and little at speed",
		Why:  "Air that gets in past the meter is a large part of the little that an engine breathes at idle, and a small part of what it breathes at speed.",
		When: known.TrimAir, For: speaks(Heard, "air-leak", "manifold-gasket", "injector-seals"), Against: denies(Known, "trims-say-air", "fuel-filter", "pump", "supply-restricted"), Say: trimPair((*known.Case).AirAtIdle), Headline: "trim-air",
	},
	{
		Name: "trim-lean-at-speed", Title: "Trims add the more the faster it turns",
		Why:  "A supply that falls short, or a meter that reads too little air, shows with the demand.",
		When: known.TrimLean, For: []Voice{{Cause: "fuel-filter", Weight: Known}, {Cause: "pump", Weight: Known - rarer}, {Cause: "air-meter", Weight: Known - 2*rarer}, {Cause: "supply-restricted", Weight: DryUp}}, Against: denies(DryUp, "trims-say-supply", "air-leak", "manifold-gasket"), Say: trimPair((*known.Case).LeanAtSpeed), Headline: "trim-lean",
	},
	{
		Name: "trim-lean-throughout", Title: "Trims add much at idle and at speed",
		Why:  "What is short at idle and at speed by about as much is mostly what measures the air, or a supply that falls short already at idle; air that leaks in falls off faster.",
		When: known.TrimLeanAll, For: []Voice{{Cause: "air-meter", Weight: Known}, {Cause: "fuel-filter", Weight: Known - rarer}, {Cause: "air-leak", Weight: DryUp}, {Cause: "pump", Weight: DryUp - rarer}, {Cause: "dirty-injectors", Weight: Hint}}, Say: trimPair((*known.Case).LeanThroughout), Headline: "trim-lean-throughout",
	},
	{
		Name: "trim-lean-read-once", Title: "Trims add much at the one speed at which they were read",
		Why: "A correction of more than ten percent is a fault at whatever speed it was read. Where it comes from the other speed tells: air that leaks in is most at idle, a supply that falls short most at speed. " +
			"Until that is read, idle speaks for air, and speed for fuel.",
		When: known.All(known.TrimLeanOnce, known.Not(known.TrimAir), known.Not(known.TrimLean), known.Not(known.TrimLeanAll)), Weigh: weighOnce, Say: func(c *known.Case, _ known.Subject) diag.Finding {
			t, _ := c.LeanOnce()
			f := trimmed(c, t)
			f.Facts["value"] = known.Percent(t.Sum, 0).String()
			return f
		}, Headline: "trim-lean-once",
	},
	{
		Name: "trim-rich", Title: "Trims take much fuel out",
		Why:  "Fuel that the computer did not ask for: a regulator or an injector that leaks, the purge valve, or a meter that reads too much air.",
		When: known.All(known.TrimRich, known.Not(known.TrimsCross)), For: []Voice{{Cause: "regulator-diaphragm", Weight: DryUp}, {Cause: "leaking-injector", Weight: DryUp}, {Cause: "purge-valve", Weight: DryUp - rarer}, {Cause: "air-meter", Weight: Hint}, {Cause: "fuel-in-oil", Weight: rarer}}, Say: trimsTakeOut, Headline: "trim-rich",
	},
	{
		Name: "trims-apart", Title: "The trims of the banks are apart",
		Why:  "What one bank has and the other has not is its sensor, its exhaust, an injector or its cam.",
		When: known.TrimsDiffer, For: speaks(DryUp, "bank-sensor", "bank-exhaust-leak", "own-injector", "cam-phaser"), Weigh: oneBankRight, Say: func(c *known.Case, _ known.Subject) diag.Finding {
			a, b, _ := c.BanksApart()
			return diag.Finding{Urgency: diag.CheckAgain, Confidence: diag.Fair, Facts: diag.Facts{"value": known.Percent(a.Sum, 0).String(), "bank": a.Bank, "other": known.Percent(b.Sum, 0).String(), "otherBank": b.Bank, "at": a.Speed}}
		}, Headline: "trims-apart",
	},
	{
		Name: "banks-opposed", Title: "The computer adds much fuel to one bank and takes much out of the other",
		Why: "What both banks share, the pump, the regulator, the air meter, the purge valve, moves both one way. Opposite ways they go where each sensor reports the other bank, or where one bank cannot breathe out: " +
			"it draws less air than its fuel is meant for, and the other draws the rest. The first is so at every speed, the second grows with it.",
		When: known.TrimsCross, Weigh: opposedVoices, Say: banksOpposed, Headline: "banks-opposed", SaysBetterThan: []string{"trims-apart", "trim-lean-at-idle-only", "trim-lean-at-speed", "trim-lean-throughout", "trim-lean-read-once"},
	},
	{
		Name: "trims-unlearned", Title: "Trims of a computer that was cleared",
		Why:   "A long-term trim is learned over miles. One of about nothing right after the memory was cleared says that nothing was learned yet, and not that nothing is wrong.",
		Class: Information, When: known.TrimsUnlearned, Say: calm, Headline: "see-findings",
	},
	{
		Name: "trims-right", Title: "The trims are near zero",
		Why:   "Trims within ten percent say that the mixture needs no correction worth the name now, whatever colour old soot has.",
		Class: Information, When: known.TrimsGood, Against: denies(Known, "trims-are-right", "rich-mixture", "lean-mixture", "air-leak", "purge-valve", "regulator-diaphragm", "air-meter"), Say: calm, Headline: "see-findings",
	},
})

// trimsTakeOut says the trim that takes most out; where that is at speed, that of the idle
// beside it.
func trimsTakeOut(c *known.Case, _ known.Subject) diag.Finding {
	most, _ := c.TakesOut()
	f := diag.Finding{Urgency: diag.ActSoon, Confidence: diag.Fair, Facts: diag.Facts{"idle": "", "turbo": c.Spec.Charging == "turbo"}}
	if idle, fast, atSpeed := c.RichAtSpeed(); atSpeed {
		f.Headline, f.Facts["idle"], most = "trim-rich-at-speed", known.Percent(idle.Sum, 0).String(), fast
	}
	f.Facts["value"], f.Facts["at"], f.Facts["bank"] = known.Percent(most.Sum, 0).String(), most.Speed, most.Bank
	return f
}

// opposedVoices: sensors that were exchanged are so at idle too.
func opposedVoices(c *known.Case, s known.Subject) []Voice {
	if known.SootOfLeaned.Holds(c, s) { // that bank burns richer, whatever the speed
		return as(OfPlugs, speaks(Known, "restricted-exhaust", "own-injector"))
	}
	if !known.TrimsCrossFast.Holds(c, s) {
		return nil
	}
	idle := slices.ContainsFunc(c.Trims(), func(t known.Trim) bool { return t.Speed == "idle" })
	return append(speaks(Known, "restricted-exhaust"), where(idle, denies(Known, "idle-is-alike", "sensors-crossed"))...)
}

func banksOpposed(c *known.Case, _ known.Subject) diag.Finding {
	rich, lean := c.OpposedTrims()
	f := diag.Finding{Urgency: diag.ActSoon, Confidence: diag.Fair, Facts: opposedFacts(rich, lean)}
	f.Facts["soot"] = c.RicherInFact()
	return f
}

func opposedFacts(rich, lean known.Trim) diag.Facts {
	return diag.Facts{"rich": known.Percent(rich.Sum, 0).String(), "bank": rich.Bank, "lean": known.Percent(lean.Sum, 0).String(), "otherBank": lean.Bank, "speed": rich.Speed}
}

// oneBankRight: where the computer has little to correct on one bank, nothing that both are
// fed by is at fault.
func oneBankRight(c *known.Case, _ known.Subject) []Voice {
	return where(c.OneBankRight(), denies(Heard, "other-bank-right", "air-meter", "fuel-filter", "pump", "low-fuel-pressure", "regulator-open", "regulator-stuck", "temperature-signal", "pump-voltage"))
}

// oldSoot is soot on the plugs of an engine whose mixture is right now.
var oldSoot = []Rule{{
	Name: "old-soot", Title: "Soot on the plugs, and a mixture that is right now",
	Why: "A plug shows the past and the exhaust gas the present. Soot under a lambda that is right was made cold, on short trips or by a fault that is gone: " +
		"the plugs are cleaned or replaced, and looked at again after a long drive.",
	Source: "common practice, no source", Class: Together, About: diag.AboutMixture, Needs: []known.Need{known.NeedsPlugs, known.NeedsTest(known.Gas)},
	Of: plugsOf("sooty", "the sooty plugs, on every cylinder or on some", known.OnAll, known.OnSome, known.OnEnds, known.OnNeighbours), When: known.All(sparkPlugs, known.GasRight, known.Not(known.GasMiss), known.Not(known.TrimRich)),
	Kind: OfGas, For: speaks(Known, "short-trips"), Against: denies(Heard, "gas-is-right", "rich-mixture", "temperature-signal", "air-filter", "leaking-injector", "regulator-diaphragm"),
	Say: func(c *known.Case, _ known.Subject) diag.Finding {
		m := c.Measured(known.Gas).Reading(diag.LambdaReading)
		return diag.Finding{Urgency: diag.CheckAgain, Confidence: diag.Fair, Facts: diag.Facts{"value": diag.Number{Value: m.Value, Decimals: 2}.String(), "at": m.At}}
	}, Headline: "old-soot", SaysBetterThan: []string{"all-sooty", "gas-right", "trims-right"},
}}

// sootyAndRich is on cylinders: the trims say that too much fuel comes, the plugs say
// where.
var sootyAndRich = []Rule{{
	Name: "sooty-where-trims-are-rich", Title: "The computer takes fuel out, and few plugs there are sooty",
	Why: "One injector that drips makes its own plug black and drives the correction of its whole bank, or of the engine where there is one, down. A plug that does not fire sends air to the sensor, and the computer would add fuel. " +
		"What all share, a regulator or the purge valve, makes all plugs black.",
	Source: "common practice, no source", Class: Together, About: diag.AboutCylinders, Ties: []diag.About{diag.AboutMixture}, Needs: []known.Need{known.NeedsPlugs, known.NeedsTest(known.Trims)},
	Of: oneSet("the sooty plugs, not more than half of those of the bank that the trims call rich, and none elsewhere", (*known.Case).SootyWhereRich), When: known.All(sparkPlugs, known.TrimRich),
	Kind: OfTrims, For: append(speaks(Heard, "own-injector"), speaks(Known, "leaking-injector")...), Against: denies(Known, "trims-say-fuel", "own-spark", "ignition", "regulator-diaphragm", "purge-valve", "air-meter", "bank-sensor"),
	Say: func(c *known.Case, _ known.Subject) diag.Finding {
		t, _ := c.TakesOut()
		return diag.Finding{Urgency: diag.ActSoon, Confidence: diag.Fair, Facts: diag.Facts{"value": known.Percent(t.Sum, 0).String(), "at": t.Speed, "bank": t.Bank}}
	}, Headline: "sooty-and-rich", SaysBetterThan: []string{"one-sooty", "some-sooty", "trim-rich", "trims-apart"},
}}

// sootyAndLean is soot on plugs of an engine to which the computer adds fuel: the two
// contradict each other, and agree in nothing.
var sootyAndLean = []Rule{{
	Name: "sooty-where-trims-are-lean", Title: "The computer adds fuel, and most plugs are sooty",
	Why: "Soot is too much fuel, and a computer that adds fuel is told of too little: both cannot be so. A sensor that reads lean, or air that gets into the exhaust ahead of it, has the computer make the engine rich. " +
		"What feeds too little whitens the plugs, and what feeds too much has the computer take fuel out. A spark that fails in all leaves soot and unburnt air as well; old soot is of a time before.",
	Source: "common practice, no source", Class: Together, About: diag.AboutMixture, Ties: []diag.About{diag.AboutFuel}, Needs: []known.Need{known.NeedsPlugs, known.NeedsTest(known.Trims)},
	Of:   oneSet("the sooty plugs, more than half of those looked at and not of one bank alone, where a trim is over +10 % and none under -10 %", (*known.Case).SootyWhereLean),
	When: known.All(sparkPlugs, known.Not(known.GasRight), known.Not(known.GasLean), known.Not(known.GasMiss)),
	Kind: OfTrims, For: speaks(Heard, "bank-exhaust-leak", "bank-sensor"), Weigh: func(c *known.Case, _ known.Subject) []Voice {
		return append(where(c.LambdaPast(false) == nil, speaks(Hint, "short-trips")), where(c.Complains("misfire"), speaks(Known, "weak-spark"))...)
	}, Against: slices.Concat(denies(Heard, "soot-where-fuel-is-added", append([]string{"manifold-gasket", "injector-seals", "low-fuel-pressure", "pump-voltage", "regulator-open", "gas-supply"}, leanCauses[:7]...)...),
		denies(Heard, "fuel-is-added", "rich-mixture", "regulator-stuck", "regulator-diaphragm", "return-blocked", "temperature-signal", "purge-valve", "leaking-injector", "fuel-in-oil", "air-filter", "boost-leak")),
	Say: func(c *known.Case, s known.Subject) diag.Finding {
		t, _ := c.AddsMost()
		f := trimmed(c, t)
		f.Facts["value"], f.Facts["sooty"], f.Facts["read"], f.Facts["gas"] = known.Percent(t.Sum, 0).String(), len(s.Cylinders), len(c.PlugsRead()), c.LambdaPast(false) != nil
		return f
	}, Headline: "soot-and-trim", SaysBetterThan: []string{"all-sooty", "some-sooty", "rich-everywhere", "gas-rich", "gas-and-trim-disagree",
		"trim-lean-at-idle-only", "trim-lean-at-speed", "trim-lean-throughout", "trim-lean-read-once"},
}}

// whiteAndLean is the other way round: a plug that is alone in being white.
var whiteAndLean = []Rule{{
	Name: "white-where-trims-are-lean", Title: "The computer adds fuel at speed, and few plugs there are white",
	Why: "One injector that gives too little leaves its own plug white and drives the correction of its whole bank up. A supply that falls short or an air meter that reads too little makes all plugs white, " +
		"and air that gets in at one runner shows at idle and hardly at speed.",
	Source: "common practice, no source", Class: Together, About: diag.AboutCylinders, Ties: []diag.About{diag.AboutMixture}, Needs: []known.Need{known.NeedsPlugs, known.NeedsTest(known.Trims)},
	Of: oneSet("the white plugs, not more than half of those of the bank to which the trims add fuel at speed, and none elsewhere", (*known.Case).WhiteWhereLean), When: known.All(sparkPlugs, known.Any(known.TrimLean, known.TrimLeanAll), known.Not(known.GasRight)),
	Kind: OfTrims, For: append(speaks(Heard, "own-injector"), speaks(DryUp, "injector-seals", "shared-runner")...), Against: denies(Known, "trims-say-one", "air-meter", "fuel-filter", "pump", "supply-restricted", "air-leak", "wrong-heat-range"),
	Say: func(c *known.Case, _ known.Subject) diag.Finding {
		_, t, lean := c.LeanAtSpeed()
		if !lean {
			_, t, _ = c.LeanThroughout()
		}
		return diag.Finding{Urgency: diag.ActSoon, Confidence: diag.Fair, Facts: diag.Facts{"value": known.Percent(t.Sum, 0).String(), "at": t.Speed, "bank": t.Bank}}
	}, Headline: "white-and-lean", SaysBetterThan: []string{"one-white", "some-white", "trim-lean-at-speed", "trim-lean-throughout", "trims-apart"},
}, {
	Name: "air-at-one-runner", Title: "The computer adds fuel at idle alone, and few cylinders there are lean or weak",
	Why: "Air that gets in past the meter shows at idle. What gets in behind the throttle for all leans all; what gets in at one runner leans the cylinder behind it, whose plug turns white and which pulls less at idle. " +
		"An injector that gives too little would be short at speed as well.",
	Source: "common practice, no source", Class: Together, About: diag.AboutCylinders, Ties: []diag.About{diag.AboutMixture}, Needs: []known.Need{known.NeedsTest(known.Trims)},
	Of: oneSet("the white plugs, or where none is the cylinders that hardly pull, not more than half of those of the bank to which the trims add fuel at idle alone, and none elsewhere", (*known.Case).AirAtOne), When: known.All(sparkPlugs, known.Not(gasFuel), known.Not(known.GasRight)),
	Kind: OfTrims, For: append(speaks(Heard, "air-leak"), speaks(Known, "injector-seals", "manifold-gasket")...), Against: append(denies(Known, "trims-say-air", "own-injector", "wrong-heat-range"), denies(DryUp, "trims-say-air", "own-spark", "coil-or-lead")...),
	Say: func(c *known.Case, _ known.Subject) diag.Finding {
		idle, fast, _ := c.AirAtIdle()
		return diag.Finding{Urgency: diag.ActSoon, Confidence: diag.Fair, Facts: diag.Facts{"value": known.Percent(idle.Sum, 0).String(), "fast": known.Percent(fast.Sum, 0).String(), "at": fast.Speed, "bank": idle.Bank, "white": len(c.Looking("white")) > 0}}
	}, Headline: "white-and-air", SaysBetterThan: []string{"one-white", "some-white", "trim-lean-at-idle-only", "trims-apart", "pulls-little-and-white", "pulls-little"},
}}

// gasRules are on the exhaust gas and the lambda that follows from it.
var gasRules = onMixture(known.Gas, OfGas, byGas, []Rule{
	{
		Name: "gas-diluted", Title: "A sample thinned by air", Source: "40 CFR 85.2213 (a)(3): void under 6 %",
		Why:   "With so little carbon in the gas the probe sat too far out, or the exhaust draws air. The figures are not judged.",
		Class: Information, When: known.GasThinned, Say: func(c *known.Case, _ known.Subject) diag.Finding {
			return diag.Finding{Urgency: diag.NoAction, Confidence: diag.Weak, Facts: diag.Facts{"at": c.Diluted()}}
		}, Headline: "gas-diluted",
	},
	{
		Name: "gas-rich", Title: "Lambda from the gases rich",
		Why:  "More fuel than the air burns.",
		When: known.All(sparkLit, known.GasRich), For: append(speaks(Known, "rich-mixture"), falling(DryUp+rarer, "temperature-signal", "carburettor", "regulator-diaphragm", "leaking-injector", "purge-valve", "air-meter", "air-filter")...), Say: lambdaAt(false), Headline: "gas-rich",
	},
	{
		Name: "gas-lean", Title: "Lambda from the gases lean",
		Why:  "More air than the fuel needs: a lean mixture, or air that gets into the exhaust before the probe.",
		When: known.All(sparkLit, known.GasLean, known.Not(airOfDead)), For: speaks(Known, "lean-mixture", "air-leak", "bank-exhaust-leak"), Say: lambdaAt(true), Headline: "gas-lean", Brought: WithMiss,
	},
	{
		Name: "gas-miss", Title: "The gas of a cylinder that does not burn",
		Why:  "Fuel and air that both come out unburnt, with little carbon monoxide, are a cylinder that misses. The balance says which.",
		When: known.All(sparkLit, known.GasMiss), For: speaks(Known, "own-spark", "ignition", "lean-mixture"), Say: func(c *known.Case, _ known.Subject) diag.Finding {
			return diag.Finding{Urgency: diag.ActSoon, Confidence: diag.Fair, Facts: diag.Facts{"at": c.MissSpeed()}}
		}, Headline: "gas-miss", Brought: ByMiss, SaysBetterThan: []string{"gas-lean"},
	},
	{
		Name: "gas-and-trim-disagree", Title: "Gas and trims that contradict each other",
		Why:  "Lean gas while the trims take fuel out, or rich gas while they add it: air enters behind the sensor or at the probe, or the sensor reads wrong.",
		When: known.Any(known.All(known.GasLean, known.TrimRich), known.All(known.GasRich, known.Any(known.TrimAir, known.TrimLean, known.TrimLeanAll, known.TrimLeanOnce))), Needs: needsTest(known.Trims),
		For: speaks(Heard, "bank-exhaust-leak", "bank-sensor"), Say: func(c *known.Case, _ known.Subject) diag.Finding {
			return diag.Finding{Urgency: diag.ActSoon, Confidence: diag.Fair, Facts: diag.Facts{"lean": c.LambdaPast(true) != nil}}
		}, Headline: "gas-and-trim", SaysBetterThan: []string{"gas-lean", "gas-rich", "trim-rich", "trim-lean-at-idle-only", "trim-lean-at-speed", "trim-lean-throughout", "trim-lean-read-once"},
	},
	{
		Name: "gas-right", Title: "The gas burns as it should",
		Why:   "Lambda within its band and no limit passed: the mixture is right now. Soot on a plug is then old.",
		Class: Information, When: known.All(sparkLit, known.GasRight), Against: denies(Known, "gas-is-right", "rich-mixture", "lean-mixture"), Say: func(c *known.Case, _ known.Subject) diag.Finding {
			m := c.Measured(known.Gas).Reading(diag.LambdaReading)
			return diag.Finding{Urgency: diag.NoAction, Confidence: diag.Fair, Facts: diag.Facts{"value": diag.Number{Value: m.Value, Decimals: 2}.String(), "at": m.At}}
		}, Headline: "see-findings",
	},
})

// airOfDead is an engine of which a cylinder does no work, so that its air comes out
// unburnt and makes any mixture look lean; not where a limit of the job is passed.
var airOfDead = known.OfEngine("a cylinder that does no work, and no limit of the job passed", func(c *known.Case) bool {
	m := c.LambdaPast(true)
	if m == nil || m.Limited() || !c.Has(known.NeedsTest(known.Balance)) {
		return false
	}
	return slices.ContainsFunc(c.EachCylinder(), func(s known.Subject) bool { return known.PullsNothing.Holds(c, s) })
})

func trimPair(of func(*known.Case) (idle, fast known.Trim, ok bool)) func(*known.Case, known.Subject) diag.Finding {
	return func(c *known.Case, _ known.Subject) diag.Finding {
		idle, fast, _ := of(c)
		f := trimmed(c, idle)
		f.Facts["idle"], f.Facts["fast"], f.Facts["at"] = known.Percent(idle.Sum, 0).String(), known.Percent(fast.Sum, 0).String(), fast.Speed
		return f
	}
}

// trimmed is a finding on a trim, of its bank where the other is not off the same way.
func trimmed(c *known.Case, t known.Trim) diag.Finding {
	bank := t.Bank
	if c.OtherBankToo(t) { // then it is what feeds both
		bank = ""
	}
	return diag.Finding{Urgency: diag.ActSoon, Confidence: diag.Fair, Facts: diag.Facts{"at": t.Speed, "bank": bank}}
}

// weighOnce is what a trim that adds much speaks for by the one speed at which it was read.
func weighOnce(c *known.Case, _ known.Subject) []Voice {
	if t, _ := c.LeanOnce(); t.Speed == "idle" {
		return append(falling(Known, "air-leak", "manifold-gasket", "air-meter", "fuel-filter"), speaks(Hint, "injector-seals", "pump", "dirty-injectors")...)
	}
	return append(falling(Known, "fuel-filter", "pump", "air-meter", "supply-restricted"), speaks(Hint, "air-leak", "dirty-injectors")...)
}

func lambdaAt(lean bool) func(*known.Case, known.Subject) diag.Finding {
	return func(c *known.Case, _ known.Subject) diag.Finding {
		m := c.LambdaPast(lean)
		u := diag.CheckAgain
		if m.Limited() && m.Verdict == diag.Outside {
			u = diag.ActSoon // the maker's word, and not only custom
		}
		return diag.Finding{Urgency: u, Confidence: diag.Fair, Facts: diag.Facts{"value": diag.Number{Value: m.Value, Decimals: 2}.String(), "at": m.At}}
	}
}
