package rule

import (
	"math"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
	"gaugesheet/diag/quantity"
)

// The kinds of tests that magnetos and heads are.
const (
	OfMagnetos Kind = "magneto check"
	OfHeads    Kind = "head temperatures"
)

// Sources of a magneto check and of the temperatures of heads. That a fifth of the median
// makes a head cold is judgement.
const (
	byMagnetos = "limits: the job's own; without one 175 rpm on either and 50 rpm between them, the most that handbooks in circulation permit: common practice, no source (the FAA's powerplant training text: 25 to 75 rpm on each, even on both)"
	byHeads    = "US Army TM 1-1500-204-23-1 and FAA AC 43.13-1B, para 8-2a, for the comparison; 20 % of the median, or 15 % where it lies apart from all others, in degrees Fahrenheit is judgement"
)

// magnetoRules are on two magnetos, each read alone.
var magnetoRules = systemRule(known.Magnetos, OfMagnetos, byMagnetos, []Rule{
	{
		Name: "magneto-drop-uneven", Title: "One magneto loses too much speed, or more than the other",
		Why:  "On one magneto each cylinder has one spark in place of two, and the speed falls a little. It falls far where a plug on that magneto is fouled or its lead leaks, so that a cylinder does not fire, or where the magneto itself is weak or fires at another time.",
		When: known.MagnetosUneven, For: common("magneto-plug", "magneto-lead", "magneto"), Say: magnetosApart, Headline: "magnetos-uneven",
	},
	{
		Name: "magneto-no-drop", Title: "The speed does not fall on one magneto alone",
		Why: "A magneto is switched off by grounding it. Where the speed stays as it was, the one that should be off fires on: its ground lead or the switch is open, and a propeller that is moved by hand can start the engine. " +
			"That is found with a meter, and never by turning the propeller.",
		Source: "common practice, no source; less than 10 rpm is no drop that a count of the speed can tell: judgement",
		Before: true, // nobody works on such an engine until it is known
		When:   known.MagnetoLive, For: append(speaks(Heard, "magneto-ground"), speaks(Hint, "magneto")...), Say: magnetoFires, Headline: "magneto-live",
	},
})

// fouledRules tie the few plugs that are fouled to the magneto on which the engine loses speed.
var fouledRules = []Rule{{
	Name: "fouled-plug-and-drop", Title: "One magneto loses too much speed, and few plugs are fouled",
	Why: "On the magneto that loses too much a cylinder does not fire, and a plug that is wet or sooty is one that does not. It is burnt clean or taken out first, which costs minutes, whatever fouled it: " +
		"oil runs to the lower plugs of sound engines, and a rich mixture on the ground blackens them.",
	Source: byMagnetos, Class: Together, About: diag.AboutCylinders, TiesSystems: []string{known.Magnetos}, Needs: []known.Need{known.NeedsPlugs, known.NeedsTest(known.Magnetos)},
	Of:   oneSet("the plugs wet with oil or fuel, sooty, with ash or bridged, where they are fewer than half and none is of a low cylinder", fewFouled),
	When: known.All(known.MagnetosUneven, known.OfEngine("the speed falls more on one magneto", func(c *known.Case) bool { return c.WorseMagneto() != "" })),
	Kind: OfMagnetos, For: []Voice{{Cause: "magneto-plug", Weight: Heard}, {Cause: "magneto-plug", Weight: Known, Kind: OfPlugs}, {Cause: "magneto-lead", Weight: Hint}},
	Say: fouledAndDrop, Headline: "fouled-plug-and-drop", SaysBetterThan: []string{"magneto-drop-uneven", "oil-wet", "fuel-wet", "one-sooty", "some-sooty", "ash-deposits", "wet-with-fuel-and-sealing"},
}}

// fewFouled are the fouled plugs, where the others are clean and no pressure lacks.
func fewFouled(c *known.Case) []string {
	list := c.PlugsLooking("oil-wet", "fuel-wet", "sooty", "ash", "bridged")
	if 2*len(list) >= c.Sums.Plugs.N || c.AnyLow(list) {
		return nil
	}
	return list
}

// fouledAndDrop is as urgent as the magneto check by itself.
func fouledAndDrop(c *known.Case, s known.Subject) diag.Finding {
	f := magnetosApart(c, s)
	f.Facts["oily"] = len(c.PlugsLooking("oil-wet")) > 0
	return f
}

// headRules compare the cylinders by the temperature of their heads.
var headRules = onEach(known.Heads, OfHeads, byHeads, []Rule{
	{
		Name: "head-cold", Title: "A cylinder head much colder than the others",
		Why: "A cylinder that fires heats its head. One that stays cold on a magneto lacks that magneto's plug or lead, or its fuel. " +
			"Figures in degrees Fahrenheit are compared, whatever unit they were read in: a part of a temperature hangs on where its scale begins, and the published temperatures of this check are in Fahrenheit.",
		When: known.HeadCold, Weigh: weighCold, Say: coldHead, Headline: "head-cold",
	},
	{
		Name: "cold-head-agrees", Title: "A cold head on the magneto that loses too much speed",
		Why:  "The magneto check says which magneto a cylinder does not fire on, the cold head which cylinder it is. The magneto itself would leave them all alike.",
		When: known.HeadColdOnWorse, Needs: needsTest(known.Magnetos), TiesSystems: []string{known.Magnetos},
		For: []Voice{{Cause: "magneto-plug", Weight: Known, Kind: OfMagnetos}, {Cause: "magneto-lead", Weight: Known - rarer, Kind: OfMagnetos}}, Against: denies(Known, "others-fire-on-it", "magneto"),
		Say: coldOnWorse, Headline: "head-cold", SaysBetterThan: []string{"head-cold", "magneto-drop-uneven"},
	},
})

// crankcaseHoldRules are on a two-stroke's crankcase that was pumped up.
var crankcaseHoldRules = systemRule(known.CrankcaseHold, OfCrankcase, "limits: the job's own; without one 0.5 psi in 10 minutes, one tuner's figure: common practice, no source", []Rule{
	{
		Name: "crankcase-hold-falls", Title: "A two-stroke's crankcase does not hold its pressure",
		Why:  "A two-stroke pumps its mixture through its crankcase. Where that leaks, air gets in that the carburetor has not seen: the idle hangs, the mixture is lean, and the piston seizes. Crankshaft seals and the gasket of the halves are soaped to find the place.",
		When: known.CrankcaseLets, Weigh: func(c *known.Case, _ known.Subject) []Voice {
			drawn := known.UnderVacuum(c.Measured(known.CrankcaseHold)) // which pulls reeds shut and lifts the lips of seals
			return append(speaks(Heard, "crankcase-seal"), where(!drawn, speaks(Hint, "reed-valve"))...)
		}, Say: crankcaseFell, Headline: "crankcase-leaks", StopsFor: []string{"crankcase-soap"},
		Ties: []diag.About{diag.AboutMixture}, SaysBetterThan: []string{"lean-all", "one-white"},
	},
	{
		Name: "crankcase-hold-right", Title: "A two-stroke's crankcase holds its pressure",
		Why:   "Gaskets and joints of the crankcase are tight: air that the engine should not have comes from elsewhere, or past a seal of the crankshaft whose lip pressure holds down and vacuum lifts. Both are pumped.",
		Class: Information, When: known.All(known.CrankcaseHolds, known.TwoStroke), Weigh: crankcaseCleared, Say: crankcaseHeld, Headline: "see-findings",
	},
})

// magnetoSigns are what magnetos, heads and a pumped-up crankcase say in other stories.
var magnetoSigns = []Sign{
	// Every plug and lead fires alone in this check: what is wrong is not with them.
	{Needs: needsTest(known.Magnetos), When: known.MagnetosEven, Kind: OfMagnetos, About: "any", Against: denies(Known, "magnetos-are-even", "ignition", "weak-spark", "own-spark", "coil-or-lead", "magneto", "magneto-plug", "magneto-lead")},
	{Needs: needsTest(known.Magnetos), When: known.MagnetosUneven, Kind: OfMagnetos, About: "mixture", For: speaks(Known, "magneto-plug")},
	{Needs: needsTest(known.Heads), When: known.HeadsEven, Kind: OfHeads, About: "system", Against: denies(Known, "heads-are-alike", "magneto-plug", "magneto-lead", "own-spark", "own-injector")},
	{Needs: needsTest(known.CrankcaseHold), When: known.All(known.CrankcaseHolds, known.CrankcaseEmptied), Kind: OfCrankcase, About: "any", Against: denies(Known, "crankcase-held", "crankcase-seal")},
	{Needs: needsTest(known.CrankcaseHold), When: known.All(known.CrankcaseHolds, known.Not(known.CrankcaseEmptied)), Kind: OfCrankcase, About: "any", Against: denies(Hint, "crankcase-held", "crankcase-seal")}, // which shows no lip that a vacuum lifts
	{Needs: needsTest(known.CrankcaseHold), When: known.CrankcaseLets, Kind: OfCrankcase, About: "mixture", For: speaks(Heard, "crankcase-seal")},
	{Needs: needsTest(known.CrankcaseHold), When: known.CrankcaseLets, Kind: OfCrankcase, About: "engine", For: speaks(Known, "crankcase-seal")},
}

// magnetosApart is what both magnetos lose beside what they may. A figure of common
// practice asks for no more than to check again.
func magnetosApart(c *known.Case, _ known.Subject) diag.Finding {
	m, most, clear := c.MagnetoPast()
	f := measuredFinding(m, clear, diag.ActSoon)
	f.Facts["limit"] = m.LimitEntered
	if most != nil {
		f.Confidence, f.Doubts = diag.Fair, nil // it was past by more than can be miscounted
		f.Facts["limit"] = diag.Number{Value: *most, Unit: quantity.RPM}.String()
	}
	if c.FaltersInTheAir() { // it is known before the next flight
		f.Urgency = diag.ActSoon
	}
	f.Facts["practice"], f.Facts["apart"], f.Facts["worse"] = most != nil, m.Name == diag.MagnetoDifference, c.WorseMagneto()
	for key, fact := range magnetoFacts(c) {
		f.Facts[key] = fact
	}
	return f
}

// magnetoFacts are what was read on each magneto, and at which speed.
func magnetoFacts(c *known.Case) diag.Facts {
	r, facts := c.Measured(known.Magnetos), diag.Facts{"left": "", "right": "", "speed": ""}
	for _, side := range known.MagnetoSides {
		if m := r.Reading(side); m != nil {
			facts[side] = m.Told()
		}
	}
	if m := r.Reading("at"); m != nil {
		facts["speed"] = m.Told()
	}
	return facts
}

func magnetoFires(c *known.Case, _ known.Subject) diag.Finding {
	f := diag.Finding{Urgency: diag.ActSoon, Confidence: diag.Fair, Facts: magnetoFacts(c)}
	sides := c.MagnetosWithoutDrop()
	f.Facts["on"] = sides[0]
	f.Facts["both"] = len(sides) > 1
	return f
}

// weighCold: on one magneto it is the plug or the lead of that one, or the fuel; on both
// it is the fuel, or pressure, since two plugs hardly fail at once. A cylinder that is
// known to be low stays cold by that.
func weighCold(c *known.Case, s known.Subject) []Voice {
	switch on := c.ColdOn(); {
	case known.Low.Holds(c, s):
		return speaks(Hint, "exhaust-valve", "rings", "head-gasket")
	case on == "both":
		return common(ownInjector(c), "low-compression", "shared-runner")
	case !c.TwoMagnetos():
		return common("own-spark", ownInjector(c), "coil-or-lead")
	}
	return append(common("magneto-plug", "magneto-lead"), speaks(commonest-3*rarer, ownInjector(c))...)
}

// coldHead is a head's temperature beside the median, in degrees as they were read.
func coldHead(c *known.Case, s known.Subject) diag.Finding {
	_, median, _ := c.Head(s.Name())
	read := c.Measured(known.Heads).Of("temperature", s.Name()).Number()
	middle, _ := quantity.Convert(median, quantity.Fahrenheit, read.Unit)
	middle = math.Round(10*middle) / 10 // of two in the middle it is half a degree
	return diag.Finding{Urgency: diag.CheckAgain, Confidence: diag.Fair, Facts: diag.Facts{"value": read.String(), "median": diag.Number{Value: middle, Decimals: quantity.DecimalsRead(middle, read.Decimals), Unit: read.Unit}.String(), "on": c.ColdOn(), "few": c.Few(), "worse": c.WorseMagneto()}}
}

// coldOnWorse is as urgent as the magneto check by itself, and sure.
func coldOnWorse(c *known.Case, s known.Subject) diag.Finding {
	f, apart := coldHead(c, s), magnetosApart(c, s)
	f.Urgency = apart.Urgency
	if len(apart.Doubts) == 0 {
		f.Confidence = diag.Strong
	}
	return f
}

// crankcaseFell is how far a crankcase fell beside what it may.
func crankcaseFell(c *known.Case, _ known.Subject) diag.Finding {
	m, clear := c.CrankcaseFall()
	f := measuredFinding(m, clear, diag.ActSoon)
	if !m.Limited() {
		f.Confidence, f.Doubts = diag.Fair, nil
	}
	from := c.Measured(known.CrankcaseHold).Reading("pumped-to")
	f.Facts["from"], f.Facts["vacuum"] = from.Told(), known.UnderVacuum(c.Measured(known.CrankcaseHold))
	if m.Value >= mostOfPumped*from.Value && (clear || !m.Limited()) {
		f.Urgency = diag.DoNotRun
	}
	return f
}

// mostOfPumped is the part of what a crankcase was pumped to that none loses while it is
// watched which may be run until it is sealed: judgement, no source.
const mostOfPumped = 0.6

func crankcaseHeld(c *known.Case, _ known.Subject) diag.Finding {
	m := c.Measured(known.CrankcaseHold).Reading(diag.HeldFall)
	f := diag.Finding{Urgency: diag.NoAction, Confidence: diag.Fair, Facts: measuredFacts(m)}
	empty := known.UnderVacuum(c.Measured(known.CrankcaseHold))
	f.Facts["from"] = c.Measured(known.CrankcaseHold).Reading("pumped-to").Told()
	f.Facts["vacuum"], f.Facts["both"] = empty, !empty && known.CrankcaseEmptied.HoldsIn(c)
	return f
}

// crankcaseCleared speaks against its seals by as much as pressure alone, or both ways, tell.
func crankcaseCleared(c *known.Case, _ known.Subject) []Voice {
	if known.CrankcaseEmptied.HoldsIn(c) {
		return denies(Known, "crankcase-held", "crankcase-seal")
	}
	return denies(Hint, "crankcase-held", "crankcase-seal")
}
