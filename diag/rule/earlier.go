package rule

import (
	"math"
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// earlierRules compare with an earlier test of the same engine, or with the
// readings before the work that this test proves.
var earlierRules = slices.Concat(changeRules, warmthRules, repairRules)

// changeRules set each cylinder beside an earlier test.
var changeRules = []Rule{
	{
		Name: "changed-since-earlier", Title: "Changed since the earlier test", Class: Single, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsCompression, known.NeedsEarlier},
		Why: "An engine is best compared with itself. A cylinder that fell since the last test is getting worse, even inside every limit; one that rose tells that a repair, or some running, did it good. " +
			"The comparison goes cylinder by cylinder, since a mean hides what one of them lost. Less than a tenth comes and goes in sound engines.",
		Source: "JCGM 100:2008 (the uncertainty of a difference); SAE 2011-01-2427, from memory (small changes cannot be seen)", Variants: []string{"risen"},
		Of: eachCylinder, When: known.All(known.Any(fallen, risen), known.Not(known.OfEngine("no cylinder has pressure", func(c *known.Case) bool { return c.Dead() }))),
		Kind: OfEarlier, Weigh: fallenVoices, Say: changed, Headline: "changed",
	},
	{
		Name: "leakage-changed", Title: "Loses more air than in the earlier test", Class: Single, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsLeakage, known.NeedsEarlier},
		Why: "Testers differ, and one tester on one engine agrees with itself within a few points. A cylinder that now loses ten points more than it did is getting worse; " +
			"less than that comes and goes with the ring gaps and the temperature.",
		Source: "SAE 2011-01-2427, from memory (small changes cannot be seen); the bound: common practice, no source", Variants: []string{"less"},
		Of: eachCylinder, When: known.OfAll("more than 10 points from the loss in the earlier test with the same tester", func(c *known.Case, n string) bool { return lossMoved(c, n) != 0 }),
		Kind: OfEarlier, Say: leakageChanged, Headline: "changed",
	},
	{
		Name: "no-change-shown", Title: "No change that these tests can show", Class: Information, About: diag.AboutEngine, Needs: []known.Need{known.NeedsCompression, known.NeedsEarlier},
		Why: "Two tests of a sound engine differ by some percent, by the gauge and by the day. Where no cylinder differs by more, the two tests agree; " +
			"what is less than that is not worth a thought.",
		Source: "SAE 2011-01-2427, from memory (small changes cannot be seen)",
		Of:     theEngine, When: known.OfEngine("compared with an earlier test, and no cylinder has changed by more than 10 % and more than the two readings' uncertainty", unchanged),
		Kind: OfEarlier, Say: noChange,
	},
}

// warmthRules compare a cold test with a warm one.
var warmthRules = []Rule{
	{
		Name: "low-cold-only", Title: "Low cold, and not low warm", Class: Together, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsCompression, known.NeedsEarlier},
		Why:    "Metal grows and oil thins as the engine warms. Rings that seal only when warm, or carbon on a seat, show in the cold test alone. The warm test is the one that published figures are for, and it decides.",
		Source: "common practice, no source",
		Of:     eachCylinder, When: known.OfAll("of two tests, one cold and one warm or hot, low in the cold one and not in the other", func(c *known.Case, n string) bool { return lowOnly(c, n, "cold") != nil }),
		Kind: OfEarlier, For: append(speaks(Known, "rings"), speaks(DryUp, "carbon-on-seat", "stuck-rings", "cold-engine")...),
		Against: denies(Known, "sound-when-warm", "head-gasket", "bent-valve", "holed-piston"),
		Say:     lowInOne("cold"), Headline: "low-cold-only",
		SaysBetterThan: []string{"one-low", "one-out-of-tight-pack", "scattered-low"},
	},
	{
		Name: "low-hot-only", Title: "Low warm, and not low cold", Class: Together, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsCompression, known.NeedsEarlier},
		Why:    "A valve with too little clearance stands open when its stem has grown; a valve may stick in a hot guide and a crack may open. A cold engine hides all of these.",
		Source: "common practice, no source",
		Of:     eachCylinder, When: known.OfAll("of two tests, one cold and one warm or hot, low in the warm one and not in the other", func(c *known.Case, n string) bool { return lowOnly(c, n, "hot") != nil }),
		Kind: OfEarlier, For: append(speaks(Heard, "valve-lash"), speaks(Known, "sticking-valve", "warped-or-cracked-head")...),
		Against: denies(DryUp, "sound-when-cold", "rings", "scored-bore", "exhaust-valve", "inlet-valve"),
		Say:     lowInOne("hot"), Headline: "low-hot-only",
		SaysBetterThan: []string{"one-low", "one-out-of-tight-pack", "scattered-low"},
	},
}

var (
	fallen = known.OfAll("lower than in an earlier test made alike, by more than both readings' uncertainty and more than 10 %", func(c *known.Case, n string) bool { return slices.Contains(c.MovedSinceEarlier(-1), n) })
	risen  = known.OfAll("higher than then by as much", func(c *known.Case, n string) bool { return slices.Contains(c.MovedSinceEarlier(1), n) })
)

// fallenVoices speak for what gets worse little by little.
func fallenVoices(c *known.Case, s known.Subject) []Voice {
	if !fallen.Holds(c, s) {
		return nil
	}
	return speaks(Hint, "exhaust-valve", "rings", "valve-lash", "wear")
}

func changed(c *known.Case, s known.Subject) diag.Finding {
	f := diag.Finding{Urgency: diag.CheckAgain, Confidence: diag.Fair, Facts: changeFacts(c, s.Cylinders)}
	if risen.Holds(c, s) {
		f.Variant, f.Urgency = "risen", diag.NoAction
	}
	return f
}

// changeFacts are the numbers of the largest change among some cylinders.
func changeFacts(c *known.Case, names []string) diag.Facts {
	var most diag.Change
	for _, ch := range c.SinceEarlier() {
		if slices.Contains(names, ch.Name) && (most.Name == "" || math.Abs(ch.Now-ch.Then) > math.Abs(most.Now-most.Then)) {
			most = ch
		}
	}
	then, now := c.Pressure(most.Then), c.Pressure(most.Now)
	return diag.Facts{
		"cylinder": most.Name, "now": now, "then": then, "change": difference(then, now), "percent": known.Percent(100*math.Abs(most.Now-most.Then)/math.Max(most.Then, 1e-9), 0),
		"u": c.Pressure(most.U), "earlier": c.EarlierWhen(c.Cranking().ComparedWith),
	}
}

// difference is that of two numbers as they are printed, so that it follows
// from what stands on the page.
func difference(a, b diag.Number) diag.Number {
	scale := math.Pow10(a.Decimals)
	a.Value = math.Abs(math.Round(a.Value*scale)-math.Round(b.Value*scale)) / scale
	return a
}

func unchanged(c *known.Case) bool {
	return len(c.SinceEarlier()) > 0 && len(c.MovedSinceEarlier(1))+len(c.MovedSinceEarlier(-1)) == 0
}

func noChange(c *known.Case, _ known.Subject) diag.Finding {
	var names []string
	for _, ch := range c.SinceEarlier() {
		names = append(names, ch.Name)
	}
	return diag.Finding{Urgency: diag.NoAction, Confidence: diag.Fair, Facts: changeFacts(c, names)}
}

// lossMoved is which way a cylinder's loss went since an earlier test: 1 more.
func lossMoved(c *known.Case, name string) int {
	list, _ := c.LossesSinceEarlier()
	for _, ch := range list {
		if ch.Name == name {
			return known.MovedPoints(ch)
		}
	}
	return 0
}

func leakageChanged(c *known.Case, s known.Subject) diag.Finding {
	list, label := c.LossesSinceEarlier()
	var most diag.Change
	for _, ch := range list {
		if slices.Contains(s.Cylinders, ch.Name) && math.Abs(ch.Now-ch.Then) > math.Abs(most.Now-most.Then) {
			most = ch
		}
	}
	then, now := known.Percent(most.Then, 0), known.Percent(most.Now, 0)
	f := diag.Finding{Urgency: diag.CheckAgain, Confidence: diag.Fair, Facts: diag.Facts{"cylinder": most.Name, "then": then, "now": now,
		"change": diag.Number{Value: difference(then, now).Value}, "earlier": c.EarlierWhen(label)}}
	if most.Now < most.Then {
		f.Variant, f.Urgency = "less", diag.NoAction
	}
	return f
}

// A pair is a cold and a warm test of one engine.
type pair struct {
	low, good *known.Case
	label     string
}

// lowOnly gives the pair of tests in which a cylinder is low in the one that
// was made cold, or hot, and sound in the other; nil for none.
func lowOnly(c *known.Case, name, when string) *pair {
	now := known.Warmth(c.Conditions)
	for _, earlier := range slices.Backward(c.Earlier) {
		if now == "" || earlier.Test == nil || earlier.Test.Compression == nil {
			continue
		}
		then := known.Warmth(earlier.Test.Conditions)
		if then == "" || then == now {
			continue
		}
		other := c.Then(earlier.Test)
		if !other.Has(known.NeedsCompression) {
			continue
		}
		p := &pair{low: c, good: other, label: earlier.Label}
		if now != when {
			p.low, p.good = other, c
		}
		if p.low.Grade(name).IsLow() && p.good.Grade(name).IsGood() {
			return p
		}
		return nil
	}
	return nil
}

func lowInOne(when string) func(*known.Case, known.Subject) diag.Finding {
	return func(c *known.Case, s known.Subject) diag.Finding {
		p := lowOnly(c, s.Name(), when)
		a, b := p.low.Cylinder(s.Name()), p.good.Cylinder(s.Name())
		f := diag.Finding{Urgency: diag.CheckAgain, Confidence: diag.Fair, Facts: diag.Facts{
			"earlier": c.EarlierWhen(p.label), "cylinder": s.Name(), "low": p.low.Pressure(*a.Dry), "good": p.good.Pressure(*b.Dry),
			"lowPercent": known.Percent(a.PercentOfRef, 0), "goodPercent": known.Percent(b.PercentOfRef, 0)}}
		switch {
		case when == "hot":
			f.Urgency = diag.ActSoon
		case p.low != c: // it was low then, cold; warm it is sound
			f.Urgency = diag.NoAction
		}
		return f
	}
}
