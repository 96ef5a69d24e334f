package rule

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// strokeRules read how a cylinder builds up from its first stroke to its last.
var strokeRules = []Rule{
	{
		Name: "builds-slowly", Title: "Low at the first stroke, then builds",
		Why: "Past worn rings some air escapes on each stroke and the oil seals a little better with each: the gauge creeps up and never arrives. " +
			"The share is compared with the other cylinders of the same test, since the gauge's own volume sets it.",
		Source: "common practice, no source (low on the first stroke, builds up, does not reach normal: rings)", Class: Single, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsCompression, known.NeedsFirst},
		Of: eachCylinder, When: known.Strokes("builds-slowly", "low, and its first stroke under 80 % of the part of the last that it is in the others (two at least)"),
		Kind: OfCompression, For: speaks(Hint, "rings", "scored-bore"), Say: strokes, Headline: "one-low",
	},
	{
		Name: "does-not-build", Title: "Low at the first stroke, and does not build",
		Why:    "Through a valve or gasket that leaks, each stroke loses what it brings, and more strokes add little.",
		Source: "common practice, no source (low on the first stroke, does not build up: valves)", Class: Single, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsCompression, known.NeedsFirst},
		Of: eachCylinder, When: known.Strokes("does-not-build", "low, its first stroke under 85 % of the others' and no smaller a part of the last than in these (two at least)"),
		Kind: OfCompression, For: speaks(Hint, "exhaust-valve", "inlet-valve", "head-gasket"), Say: strokes, Headline: "one-low",
	},
	{
		Name: "first-stroke-high", Title: "The first stroke is nearly the last",
		Why: "A leak that opens only under pressure, a crack or a gasket that lifts, lets the first strokes through and holds the rest back. Where every cylinder does it, it is the gauge: " +
			"a small one is full at once, and a leaking valve in its hose loses what later strokes bring.",
		Source: "common practice, no source", Class: Single, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsCompression, known.NeedsFirst},
		Of: eachCylinder,
		When: known.Any(known.Strokes("first-stroke-high", "low, its first stroke as good as the others' and over 120 % of the part of the last that it is in these (two at least)"),
			known.All(fullAtOnce, known.OfAll("first and last stroke read", func(c *known.Case, n string) bool { return slices.Contains(c.WithStrokes(), n) }))),
		Kind: OfCompression, Weigh: weighFirstHigh, Say: firstHigh, Headline: "one-low", Variants: []string{"gauge"},
	},
}

// fullAtOnce is a gauge that a first stroke fills on every cylinder. A small one
// is full at once, and a leaking valve in its hose loses what later strokes bring.
var fullAtOnce = known.OfEngine("every first stroke 90 % of the last or more (two at least): the gauge", func(c *known.Case) bool {
	names := c.WithStrokes()
	return len(names) > 1 && !c.NothingRead() && !slices.ContainsFunc(names, func(n string) bool {
		r := c.Cylinder(n)
		return *r.First < known.GaugeFullAtOnce**r.Dry
	})
})

func weighFirstHigh(c *known.Case, s known.Subject) []Voice {
	if fullAtOnce.Holds(c, s) {
		return speaks(Hint, "gauge-valve-leaks")
	}
	return speaks(Hint, "warped-or-cracked-head", "head-gasket")
}

func firstHigh(c *known.Case, s known.Subject) diag.Finding {
	if fullAtOnce.Holds(c, s) {
		return diag.Finding{Variant: "gauge", Urgency: diag.NoAction, Confidence: diag.Weak, Facts: diag.Facts{}}
	}
	return strokes(c, s)
}

func strokes(c *known.Case, s known.Subject) diag.Finding {
	var first, last, share, usual [2]float64
	for i, n := range s.Cylinders {
		r := c.Cylinder(n)
		_, others, _ := c.OtherShares(n)
		for j, v := range []float64{*r.First, *r.Dry, c.Part(*r.First, *r.Dry).Value, 100 * others} {
			span := []*[2]float64{&first, &last, &share, &usual}[j]
			if i == 0 {
				*span = [2]float64{v, v}
			}
			*span = [2]float64{min(span[0], v), max(span[1], v)}
		}
	}
	return diag.Finding{Urgency: diag.CheckAgain, Confidence: diag.Weak, Doubts: []diag.Phrase{{Key: "indirect-sign"}}, Facts: diag.Facts{
		"first": c.Span(first[0], first[1]), "last": c.Span(last[0], last[1]), "share": known.Percents(share[0], share[1]), "usual": known.Percents(usual[0], usual[1])}}
}
