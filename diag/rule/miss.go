package rule

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// byUnburnt is where it comes from that a cylinder which does not fire reads lean.
const byUnburnt = "common practice, no source; how little pressure makes an engine miss is judgement"

// missRules tie what a cylinder that does not fire does to other readings to that cylinder:
// its air comes out unburnt, which an oxygen sensor and a gas tester take for too much air,
// and the manifold's vacuum falls at its stroke.
var missRules = []Rule{
	{
		Name: "lean-by-low-cylinder", Title: "An engine that misfires and reads lean, and a cylinder too low to fire",
		Why: "A cylinder with too little pressure to fire sends its air out unburnt, and the oxygen in it reads as too much air for the fuel: the computer adds fuel for all, and the gas is that of a miss. " +
			"The cylinder is why, until it was put right and the trims were read again.",
		Source: byUnburnt, Class: Single, About: diag.AboutCylinders, Ties: []diag.About{diag.AboutMixture}, Needs: []known.Need{known.NeedsCompression},
		Of: oneSet("the cylinders that hold three quarters of the others' pressure at most, where the engine misfires and no code names others", (*known.Case).MissingByPressure), When: readsAsMiss,
		Kind: OfGas, Against: denies(Known, "miss-reads-lean", append([]string{"own-spark", "ignition"}, leanCauses...)...),
		Say: missReads, Headline: "one-low", Keeps: true, SaysBetterThan: leanFindings,
	},
	{
		Name: "lean-by-missing-plug", Title: "An engine that misfires and reads lean, and one plug or a few that do not burn what they get",
		Why: "A cylinder that gets its fuel and does not fire leaves its plug wet or black and sends its air out unburnt: the oxygen in it reads as too much air for the fuel. A supply that falls short would leave " +
			"no plug wet. That cylinder is why, until it fires and the trims were read again.",
		Source: byUnburnt, Class: Single, About: diag.AboutCylinders, Ties: []diag.About{diag.AboutMixture}, Needs: []known.Need{known.NeedsPlugs},
		Of: oneSet("plugs that are wet with fuel or sooty, half of those read at most and of no bank all, where the engine misfires, no code names others and no cylinder is low", (*known.Case).MissingByPlug), When: readsAsMiss,
		Kind: OfTrims, For: speaks(DryUp, "own-spark"), Against: denies(Known, "miss-reads-lean", append([]string{"ignition"}, leanCauses...)...),
		Say: missReads, Headline: "misses-by-plug", Keeps: true, SaysBetterThan: leanFindings,
	},
	{
		Name: "lean-by-idle-cylinder", Title: "An engine that misfires and reads lean, and a cylinder that was measured to do no work",
		Why: "A cylinder that is not missed when it is off, or whose valve hardly opens, sends out air that it did not burn, and the oxygen in it reads as too much air for the fuel. What was measured there is followed " +
			"before what all cylinders share, and the trims are read again after it.",
		Source: byUnburnt, Class: Single, About: diag.AboutCylinders, Ties: []diag.About{diag.AboutMixture}, TiesSystems: []string{known.Balance, known.Clearance},
		Of: oneSet("the cylinders that are not missed when they are off, or of which a valve opens too little by a tenth, less than half of all and none low, where the engine misfires and no code names others", (*known.Case).MissingByWork), When: readsAsMiss,
		Kind: OfTrims, Weigh: missesByWork,
		Say: missReads, Headline: "misses-by-work", Keeps: true, SaysBetterThan: leanFindings,
	},
	{
		Name: "lean-by-dead-injector", Title: "An engine that reads lean, and an injector there that gives nothing",
		Why: "A cylinder that gets no fuel sends its air out as it came in, and the sensor of its bank takes it for too much air: the computer adds fuel to the others. What was measured on that injector is why, " +
			"until it was put right and the trims were read again.",
		Source: byUnburnt, Class: Single, About: diag.AboutCylinders, Ties: []diag.About{diag.AboutMixture}, TiesSystems: []string{known.Injectors}, Needs: needsTest(known.Injectors),
		Of: oneSet("the cylinders whose injector's coil is open or that gives next to nothing, less than half of all and none low", deadInjectors), When: leanThere,
		Kind: OfTrims, For: speaks(Heard, "own-injector"), Against: denies(Heard, "injector-explains", append([]string{"bank-sensor", "bank-exhaust-leak", "cam-phaser", "manifold-gasket", "injector-seals", "own-spark", "ignition", "plug-age"}, leanCauses...)...),
		Say: missReads, Headline: "lean-by-injector", Keeps: true, SaysBetterThan: leanFindings,
	},
	{
		Name: "beat-and-plug", Title: "A needle that drops regularly, and one plug that does not burn what it gets",
		Why:    "The beat of the needle is one cylinder that does not pull, and one plug of several is wet or black. It is that one until shown otherwise.",
		Source: byNeedle, Class: Single, About: diag.AboutCylinders, TiesSystems: []string{known.Vacuum}, Needs: []known.Need{known.NeedsPlugs, known.NeedsTest(known.Vacuum)},
		Of: oneSet("the one plug of several that is wet with fuel or sooty, where no cylinder is low and no code names others", (*known.Case).PlugApart), When: known.VacuumDrops,
		Kind: OfVacuum, For: speaks(Hint, "own-spark"), Say: vacuumAt(diag.CheckAgain), Headline: "misses-by-plug", Keeps: true, SaysBetterThan: []string{"vacuum-drops-regularly"},
	},
}

// missesByWork speaks against what all cylinders share, and where a valve opens too little
// against a spark that fires into what little there is.
func missesByWork(c *known.Case, s known.Subject) []Voice {
	list := denies(Known, "miss-reads-lean", append([]string{"ignition"}, leanCauses...)...)
	if !slices.ContainsFunc(s.Cylinders, func(n string) bool { return !c.LiftFar(n) }) {
		list = append(list, denies(Known, "lift-explains", "own-spark", "own-injector", "coil-or-lead")...)
	}
	return list
}

// leanFindings are the findings on the mixture that one cylinder which does not fire makes.
var leanFindings = []string{"trim-lean-throughout", "trim-lean-at-speed", "trim-lean-read-once", "trims-apart", "gas-miss", "gas-lean"}

// leanCauses are what makes all cylinders lean.
var leanCauses = []string{"air-meter", "fuel-filter", "pump", "supply-restricted", "dirty-injectors", "lean-mixture", "air-leak", "bank-exhaust-leak"}

// readsAsMiss is an engine that reads lean, or whose gas is that of a miss, on no bank but
// that of the cylinders that do not fire, with nothing that was measured to be short of fuel.
var readsAsMiss = known.All(sparkLit, known.Any(known.TrimLean, known.TrimLeanAll, known.TrimLeanOnce, known.GasMiss), known.OfAll("no bank lean but its own", (*known.Case).LeanOnlyThere), known.Not(pastAny),
	known.OfEngine("no white plug", func(c *known.Case) bool { return len(c.Looking("white")) == 0 }))

// leanThere is an engine that reads lean on no bank but that of the cylinders asked of.
var leanThere = known.All(sparkLit, known.Any(known.TrimLean, known.TrimLeanAll, known.TrimLeanOnce), known.OfAll("no bank lean but its own", (*known.Case).LeanOnlyThere), known.Not(pastAny))

// deadInjectors are the cylinders that get next to no fuel by what was measured of their injectors.
func deadInjectors(c *known.Case) []string {
	var dead []string
	for _, n := range c.Every() {
		if known.Any(known.InjectorOpen, known.InjectorDead).HoldsOf(c, n) {
			dead = append(dead, n)
		}
	}
	if 2*len(dead) >= len(c.Every()) || slices.ContainsFunc(dead, func(n string) bool { return c.Grade(n).IsLow() }) {
		return nil
	}
	return dead
}

// missReads says what the engine reads as.
func missReads(c *known.Case, _ known.Subject) diag.Finding {
	f := diag.Finding{Urgency: diag.CheckAgain, Confidence: diag.Fair, Facts: diag.Facts{"trim": "", "at": "", "gas": c.MissSpeed() != ""}}
	_, t, lean := c.LeanAtSpeed()
	if !lean {
		_, t, lean = c.LeanThroughout()
	}
	if !lean {
		t, lean = c.LeanOnce()
	}
	if lean {
		f.Facts["trim"], f.Facts["at"] = known.Percent(t.Sum, 0).String(), t.Speed
	}
	return f
}
