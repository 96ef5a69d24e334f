package rule

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// rodRules are on a connecting rod that is bent, or may be.
var rodRules = []Rule{
	{
		Name: "seen-bent-rod", Title: "A connecting rod was found bent, or its piston to come up less high than the others",
		Why: "A piston that meets water, fuel or oil in its cylinder stops, and its rod bends. It comes up less high from then on, compresses less and leaks nothing. " +
			"A rod that is bent breaks at any time and goes through the block, so the engine is not run again before it is opened.",
		Source: byEye, Class: Single, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsSight},
		Of: eachCylinder, When: known.All(known.SeenThere("a bent connecting rod, or a piston that comes up less high than the others", known.BentRod), known.Not(rotorEngine)),
		Kind: OfSight, For: speaks(2*Heard, "bent-rod"), Say: seen(diag.DoNotRun), Headline: "seen-bent-rod",
		SaysBetterThan: slices.Concat(lowAlone, []string{"low-but-tight", "water-drawn-in", "low-since-noise"}),
	},
	{
		Name: "low-since-noise", Title: "A low cylinder whose air goes nowhere, in an engine that knocks since it came suddenly",
		Why: "What comes at once and is heard has broken or bent: a rod bent by liquid in the cylinder, a rocker, pushrod, spring or lifter, a piston. A rod that is bent lets its piston come up less high, so that the cylinder compresses less, while starting and running, and holds its air as the others do. " +
			"Each of these does more harm with every turn, so the engine is looked into by hand before it runs again.",
		Source: "common practice, no source", Class: Together, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsCompression},
		Of: eachCylinder, When: known.All(known.SuddenNoise, known.Any(short, known.TightAsOthers), known.Not(known.Dead), known.Not(rotorEngine), known.Not(placed), known.Not(known.RodsAlike),
			known.Not(known.OfAny("loses more than is allowed", (*known.Case).HighLoss))),
		Kind: OfHistory, Weigh: rodVoices, Say: lowSinceNoise, Headline: "low-since-noise", Variants: []string{"tight"},
		SaysBetterThan: []string{"one-low", "one-out-of-tight-pack", "scattered-low", "low-but-tight", "outside-limit"},
	},
}

// rodVoices: where it is not known whether the cylinder holds its air, a rod is one of many.
func rodVoices(c *known.Case, s known.Subject) []Voice {
	switch {
	case known.RodMayBeBent.Holds(c, s) && !(c.Has(known.NeedsTest(known.Clearance)) && known.LiftsLittle.Holds(c, s)):
		return speaks(Heard+Known, "bent-rod")
	case known.TightAsOthers.Holds(c, s):
		return speaks(DryUp, "valve-motion")
	}
	return speaks(DryUp, "bent-rod", "valve-motion", "piston")
}

func lowSinceNoise(c *known.Case, s known.Subject) diag.Finding {
	f := agreed(diag.DoNotRun, diag.Fair)(c, s)
	f.Facts["several"], f.Facts["rod"] = c.Several(), known.RodMayBeBent.Holds(c, s)
	if known.TightAsOthers.Holds(c, s) {
		f.Variant = "tight"
		if worst := c.WorstLeak(s.Cylinders); worst != nil {
			f.Facts["lost"] = known.Percent(*worst.Loss, 0)
		}
	}
	return f
}

// rodSigns are what speaks of a rod beside a pattern that another rule recognises.
var rodSigns = []Sign{
	// A piston that comes up less high compresses less at any speed.
	{When: known.All(known.RodMayBeBent, known.BreathesAlike), Kind: OfRunning, About: "cylinders", For: speaks(Known, "bent-rod"), Against: denies(Known, "breathes-alike", "adapter-leak")},
	{When: known.All(known.RodMayBeBent, known.DrewWater), Kind: OfHistory, About: "cylinders", For: speaks(Known, "bent-rod")},
}
