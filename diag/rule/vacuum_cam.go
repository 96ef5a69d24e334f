package rule

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// lateCam ties a low needle to valves that were measured late.
var lateCam = systemRule(known.Vacuum, OfVacuum, byNeedle, []Rule{
	{
		Name: "late-cam-agrees", Title: "Low and steady vacuum, and a camshaft or its chain measured off",
		Why:   "Valves that open and shut late pull less vacuum in every cylinder alike. The marks or the slack of the chain have shown them late: that is put right first, and the vacuum read again before any air is looked for.",
		Class: Together, TiesSystems: []string{known.Timing}, Needs: needsTest(known.Timing), When: known.All(known.VacuumLow, known.CamLate, known.Not(known.LateBase), known.Not(known.UnderFloor)),
		Weigh: func(c *known.Case, _ known.Subject) []Voice {
			return append(where(known.ChainSlack(c.Measured(known.Timing)), speaks(Known, "worn-chain")), speaks(DryUp, "cam-timing")...)
		}, Say: vacuumAt(diag.CheckAgain), Headline: "late-timing", Keeps: true, SaysBetterThan: []string{"vacuum-low-and-steady", "vacuum-low-sealing-sound"},
	},
	{
		Name: "low-vacuum-on-the-mark", Title: "Low and steady vacuum, and an ignition that is right by its mark",
		Why: "What lowers the vacuum of all cylinders alike is most often a late spark. Where the light shows it right, the mark is doubted before the engine: the outer ring of a damper slips on its rubber, and a pulley or a pointer may be of another engine. " +
			"Top dead center by a piston stop says it. After that come the marks of the camshaft, then air and the carburetor.",
		Class: Together, TiesSystems: []string{known.Timing}, Needs: needsTest(known.Timing), When: known.All(known.VacuumLow, known.BaseRight, sparkLit, known.Valves, known.Not(known.CamLate), known.Not(known.UnderFloor)),
		Weigh: weighMark, Say: onTheMark, Headline: "mark-in-doubt", SaysBetterThan: []string{"vacuum-low-and-steady", "vacuum-low-sealing-sound"}, Variants: []string{"advanced"},
	},
})

// weighMark: an engine that nothing but its distributor times is set by its mark; one whose
// computer sets the spark by a sensor shows the mark to the light alone.
func weighMark(c *known.Case, s known.Subject) []Voice {
	seen := where(known.PullsAdvanced.Holds(c, s), as(OfSight, speaks(Sight, "timing-mark")))
	if c.Injected() {
		return append(seen, speaks(DryUp, "timing-mark", "cam-timing")...)
	}
	return slices.Concat(seen, speaks(Heard, "timing-mark"), speaks(Known+rarer, "cam-timing"))
}

func onTheMark(c *known.Case, s known.Subject) diag.Finding {
	f := vacuumAt(diag.CheckAgain)(c, s)
	f.Facts["base"] = diag.AsWritten(c.Measured(known.Timing).Reading("base").Entered)
	if known.PullsAdvanced.Holds(c, s) {
		f.Variant = "advanced"
	}
	return f
}

// markRules are on what the spark is set by.
var markRules = systemRule(known.Timing, OfSight, "common practice, no source", []Rule{{
	Name: "timing-mark-off", Title: "A timing mark that was found off its place",
	Why:  "A spark that is set by a mark that has moved is wrong by as much as the mark is, whatever the light shows. True top dead center is found by a piston stop and marked anew, and the ignition set by that.",
	When: known.All(sparkLit, known.MarkOff), For: speaks(Heard, "timing-mark"), Say: func(c *known.Case, _ known.Subject) diag.Finding {
		return diag.Finding{Urgency: diag.ActSoon, Confidence: diag.Fair, Facts: diag.Facts{"base": diag.AsWritten(c.Measured(known.Timing).Reading("base").Entered)}}
	}, Headline: "mark-off",
}})

// lateSpark is as urgent as the late timing by itself, and sure where the light
// shows it clearly.
func lateSpark(c *known.Case, s known.Subject) diag.Finding {
	f := timed("base", diag.ActSoon)(c, s)
	if len(f.Doubts) == 0 {
		f.Confidence = diag.Strong
	}
	f.Facts["vacuum"] = c.Measured(known.Vacuum).Reading("idle").Told()
	return f
}

// byHeight is a low vacuum where the place may be all that lowers it and nobody complains: of an
// engine that is said to run well and is short by what a few hundred meters take it asks nothing.
func byHeight(c *known.Case, f diag.Finding) diag.Finding {
	if !c.LowByHeight() || c.Ails() || f.Urgency != diag.CheckAgain {
		return f
	}
	f.Confidence = diag.Weak
	if c.Spec.Runs == "well" && !c.FarShort() && !c.DriveDisturbed() {
		f.Urgency = diag.NoAction
	}
	return f
}

// lateTimed is surest where it was seen that nothing leaks.
func lateTimed(c *known.Case, s known.Subject) diag.Finding {
	f := vacuumAt(allLow(c, s).Urgency)(c, s)
	if c.Minimum() != nil && c.AllLow().Clear && f.Urgency == diag.CheckAgain { // a second test bears it out: it is no longer the gauge's
		f.Urgency = diag.ActSoon
	}
	if !tightThroughout(c) && !flatThroughout(c) {
		f.Variant = "likely"
		return f
	}
	f.Confidence = diag.Strong
	if c.Spec.Interference == diag.Yes && c.CameSuddenly() {
		f.Urgency = diag.DoNotRun // the next tooth bends the valves
	}
	return f
}

func weighLate(c *known.Case, _ known.Subject) []Voice {
	if tightThroughout(c) || flatThroughout(c) {
		return speaks(Heard, "cam-timing")
	}
	return speaks(Known, "cam-timing")
}

// passesRings is an engine of which it was found that its low pressure goes past
// the rings. A small rise of all with oil is what the oil itself takes of the chamber,
// where hardly any air is lost.
func passesRings(c *known.Case) bool {
	return !tightThroughout(c) && (c.LosesAt(c.Read(), known.AtCrankcase) || c.RisesEverywhere())
}

func evenlyLow(c *known.Case) bool {
	return c.AllLow() != nil && len(c.Graded(diag.Even)) == len(c.Read()) && len(c.Read()) > 1
}

func tightThroughout(c *known.Case) bool {
	l := c.Sums.Leakage
	if l == nil || l.State != diag.Tested {
		return false
	}
	for _, r := range l.Cylinders {
		if r.Loss != nil && known.Beyond(*r.Loss, known.GoodLoss) {
			return false
		}
	}
	return true
}

func flatThroughout(c *known.Case) bool {
	tried := false
	for _, s := range c.EachCylinder() {
		tried = tried || known.OilFlat.Holds(c, s)
		if known.OilRises.Holds(c, s) {
			return false
		}
	}
	return tried
}

// lateAndLow ties pressure that is low in every cylinder alike to valves that were measured off.
var lateAndLow = []Rule{{
	Name: "late-cam-and-low", Title: "Low in every cylinder alike, and the camshaft or its chain measured off",
	Why: "Valves that shut late let a part of every stroke out again, alike in all cylinders. Where the marks, or the slack of the chain, have shown them late, that is what the sheet is about: " +
		"neither the gauge nor wear is looked for before they are put right and the pressure was read again.",
	Source: "common practice, no source", Class: Together, About: diag.AboutEngine, Ties: []diag.About{diag.AboutSystem}, TiesSystems: []string{known.Timing, known.Vacuum},
	Needs: []known.Need{known.NeedsCompression, known.NeedsTest(known.Timing)}, Of: ofSystem(known.Timing),
	When: known.All(known.CamLate, known.OfEngine("not off to the early side", func(c *known.Case) bool {
		cam := c.Measured(known.Timing).Reading("cam")
		return cam == nil || cam.Value <= 0
	}), known.OfEngine("all cylinders low and even", evenlyLow), known.Not(known.OfEngine("air lost past the rings, or a rise with oil", passesRings))),
	Kind: OfTiming, For: append(speaks(Heard, "cam-timing"), Voice{Cause: "cam-timing", Weight: Known, Kind: OfCompression}), Say: lateAndLowSays, Headline: "late-timing",
	SaysBetterThan: []string{"all-low", "below-minimum", "cam-late", "late-timing-agrees", "vacuum-low-and-steady"},
}}

// lateAndLowSays is as urgent as the more urgent of the two by itself.
func lateAndLowSays(c *known.Case, s known.Subject) diag.Finding {
	low, off := allLow(c, s), camOff(c, s)
	f := diag.Finding{Urgency: low.Urgency, Confidence: diag.Strong, Facts: off.Facts}
	if off.Urgency.Rank() > low.Urgency.Rank() {
		f.Urgency = off.Urgency
	}
	f.Facts["read"], f.Facts["slack"] = c.Span(c.Cranking().Lowest, c.Cranking().Highest), known.ChainSlack(c.Measured(known.Timing))
	return f
}
