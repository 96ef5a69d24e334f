package rule

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// leakTestRules are on how a leakage test was made.
var leakTestRules = []Rule{
	{
		Name: "leaks-at-both-valves", Title: "Air at inlet and exhaust together", Class: TestItself, About: diag.AboutTest, Needs: []known.Need{known.NeedsLeakage},
		Why:    "Both valves of a cylinder seldom fail together, but near the top of the exhaust stroke both stand open. The piston was probably on the wrong stroke, or the crankshaft rolled.",
		Source: "common practice, no source",
		Asks:   "in a leakage test air was heard at inlet and exhaust of one cylinder of an engine with valves, or a cylinder of good compression lost more than 80 %, or more than 65 % at a valve", Variants: []string{"loses-all"},
		Notices: leaksAtBothValves, Kind: OfTest, Headline: "leakage-doubtful",
		Doubt: "leaks-at-both-valves", Doubts: []known.Need{known.NeedsLeakage}, Repeat: "leak-down-again",
		Unsettles: func(diag.Notice) bool { return true },
	},
	{
		Name: "leakage-reads-nothing", Title: "No leakage at all", Class: TestItself, About: diag.AboutTest, Needs: []known.Need{known.NeedsLeakage},
		Why:     "Every engine loses some air past the ring gaps. Nothing at all mostly means that no air reached the cylinder: a valve shut, the gauge's check valve left in the hose, a blocked orifice.",
		Source:  "FAA AC 43.13-1B, para 8-14 (some loss past the rings is normal)",
		Asks:    "a leakage test reads 0 % on a cylinder whose compression is not low",
		Notices: leakageReadsNothing, Kind: OfTest, Headline: "leakage-reads-nothing",
		Doubt: "leakage-reads-nothing", Doubts: []known.Need{known.NeedsLeakage}, Repeat: "leak-down-again",
		Alone: func(c *known.Case, n diag.Notice) bool { return len(n.Cylinders) == len(c.Leaks()) }, // the whole test says nothing
	},
	{
		Name: "all-leak-to-crankcase", Title: "Every cylinder leaks to the crankcase, with good compression", Class: TestItself, About: diag.AboutTest, Needs: []known.Need{known.NeedsLeakage, known.NeedsCompression},
		Why: "Rings worn enough to lose this much everywhere would show in the compression. Leakage testers differ in orifice and supply, and a cold engine leaks more, " +
			"so the tester and the temperature come before the rings.",
		Source:  "common practice, no source",
		Asks:    "every cylinder that was read loses 20 % or more with air in the crankcase, two at least, none is low on compression, all of them together are not, and no other test of the rings says the same",
		Notices: allLeakToCrankcase, Kind: OfTest, For: speaks(Known, "tester-scale"),
		Doubt: "all-leak-to-crankcase", Doubts: []known.Need{known.NeedsLeakage}, Repeat: "leak-down-again",
	},
	{
		Name: "leak-down-after-oil", Title: "Oil on the rings hides a leak", Class: TestItself, About: diag.AboutTest, Needs: []known.Need{known.NeedsLeakage, known.NeedsWet},
		Why: "Oil from a wet test seals the rings for as long as it lies on them. A leakage test made after it finds a cylinder tight that leaks past its rings; " +
			"so air comes first and oil last, or the oil is cranked out before.",
		Source:  "common practice, no source",
		Asks:    "a low cylinder that came up with oil loses under 20 % in the leakage test, and the job does not say that the air came first",
		Notices: leakDownAfterOil, Kind: OfTest, Headline: "leakage-doubtful",
		Doubt: "leak-down-after-oil", Doubts: []known.Need{known.NeedsLeakage}, Repeat: "leak-down-again",
	},
}

// losesAll is the loss in percent at which a cylinder of good compression was
// not shut when it was tested.
const losesAll = 80

// valveLoses is the loss at a valve in percent that takes pressure from the cylinder on
// the starter too: judgement, no source.
const valveLoses = 65

// holdsAtValve is a cylinder that lost so much at a valve and makes as good a pressure
// as the others: the valve was open in that test, and not leaking.
func holdsAtValve(c *known.Case, l *diag.LeakResult) bool {
	return c.HasValves() && l.Loss != nil && *l.Loss > valveLoses && (slices.Contains(l.At, known.AtInlet) || slices.Contains(l.At, known.AtExhaust)) &&
		slices.Contains([]diag.Grade{diag.Even, diag.High}, c.Grade(l.Name)) && c.AllLow() == nil
}

func leaksAtBothValves(c *known.Case) []diag.Notice {
	var both, all []string
	for _, l := range c.Sums.Leakage.Cylinders {
		switch {
		case c.HasValves() && slices.Contains(l.At, known.AtInlet) && slices.Contains(l.At, known.AtExhaust):
			both = append(both, l.Name)
		case l.Loss != nil && *l.Loss > losesAll && c.Grade(l.Name).IsGood() && c.AllLow() == nil, holdsAtValve(c, &l):
			all = append(all, l.Name)
		}
	}
	var list []diag.Notice
	if len(both) > 0 {
		list = append(list, notice("leaks-at-both-valves", "", both, nil)...)
	}
	if len(all) > 0 {
		list = append(list, notice("leaks-at-both-valves", "loses-all", all, nil)...)
	}
	return list
}

func leakageReadsNothing(c *known.Case) []diag.Notice {
	var none []string
	for _, l := range c.Sums.Leakage.Cylinders {
		if l.Loss != nil && *l.Loss == 0 && !c.Grade(l.Name).IsLow() {
			none = append(none, l.Name)
		}
	}
	if len(none) == 0 {
		return nil
	}
	return notice("leakage-reads-nothing", "", none, nil)
}

// allLeakToCrankcase wonders at the tester; where all are under their minimum,
// no cylinder makes what nearly any engine does, or another test of the rings agrees, the
// rings explain both.
func allLeakToCrankcase(c *known.Case) []diag.Notice {
	if len(c.LowSet()) > 0 || c.AllLow() != nil || len(c.UnderMinimum()) > 0 || c.RingsAgree() {
		return nil
	}
	least, n := 100.0, 0
	for _, l := range c.Sums.Leakage.Cylinders {
		if l.Loss == nil {
			continue
		}
		if *l.Loss < known.WornLoss || !slices.Contains(l.At, known.AtCrankcase) {
			return nil
		}
		least = min(least, *l.Loss)
		n++
	}
	if n < 2 {
		return nil
	}
	return notice("all-leak-to-crankcase", "", nil, diag.Facts{"least": known.Percent(least, 0)})
}

func leakDownAfterOil(c *known.Case) []diag.Notice {
	names := c.OilBefore()
	if len(names) == 0 {
		return nil
	}
	return notice("leak-down-after-oil", "", names, nil)
}
