package rule

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// highRules recognise pressure above the others or above what is plausible.
var highRules = []Rule{
	{
		Name: "one-high", Title: "One cylinder, or a few of many, is high",
		Why: "What takes up room in the chamber raises the pressure: oil that leaks in, carbon, or liquid, which is ruled out before the starter turns it again. A cylinder with another piston or gasket reads " +
			"differently too. The others are judged among themselves: one high cylinder must not make good ones look low.",
		Source: "US Army TM 10-3930-647-14&P, para 4-40 (more than 10 psi above normal: carbon or lead deposits)", Class: Single, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsCompression},
		Of:   oneSet("one cylinder, or a few of eight or more", func(c *known.Case) []string { return c.Graded(diag.High) }),
		When: known.ReadsHigh, Kind: OfCompression, Weigh: weighHigh, Say: oneHigh, Headline: "one-high",
	},
	{
		Name: "all-high", Title: "Every cylinder is high",
		Why:    "Deposits everywhere, a skimmed head, other pistons or a gauge that reads high lift all alike. It is no fault by itself: a stated figure is mostly a minimum.",
		Source: "US Army TM 10-3930-647-14&P, para 4-40 (above normal: carbon or lead deposits)", Class: Information, About: diag.AboutEngine, Needs: []known.Need{known.NeedsCompression},
		Of: everyRead, When: known.OfEngine("the lowest reading above the pressure that geometry makes plausible by more than the gauge may err, by a twentieth more where only the ratio is known, or above the book's usual figure by more than that and 15 % (5 % where the work done raised the compression); not with variable valve timing", allAbove),
		Kind: OfCompression, Weigh: weighAllHigh, Say: allHigh, Headline: "even-high", Variants: []string{"standard"},
	},
}

// A cylinder that is high by more than farAbove, as a part of the next, is
// hardly so by what takes up room in it (common practice, no source). Below
// that, betweenCommon puts others that are low third among the causes.
const (
	farAbove      = 0.25
	betweenCommon = 42
)

// weighHigh puts liquid first where anything speaks of it, since it alone can
// break the engine at the next turn.
func weighHigh(c *known.Case, s known.Subject) []Voice {
	_, next := c.Spread(c.Others(s.Cylinders))
	least, _ := c.Spread(s.Cylinders)
	liquid := mayHoldLiquid(c, s.Cylinders)
	return slices.Concat(common("oil-in-bore", "carbon", "coolant-or-fuel-in-bore", "different-parts"),
		where(liquid, as(OfPlugs, speaks(Heard, "coolant-or-fuel-in-bore"))),
		where(slices.ContainsFunc(s.Cylinders, func(n string) bool { return c.Looks(n, "oil-wet") }), as(OfPlugs, speaks(Heard, "oil-in-bore"))),
		where(c.OthersMayBeLow(), speaks(betweenCommon, "others-low")),
		where(c.OthersMayBeLow() && !liquid && least-next > farAbove*next, speaks(Hint, "others-low")))
}

func mayHoldLiquid(c *known.Case, names []string) bool {
	return slices.ContainsFunc(names, func(n string) bool { return c.LiquidIn(n) != "" })
}

func oneHigh(c *known.Case, s known.Subject) diag.Finding {
	low, high := c.Spread(c.Others(s.Cylinders))
	least, most := c.Spread(s.Cylinders)
	var value any = c.Pressure(least)
	if least != most {
		value = c.Span(least, most)
	}
	urgency := diag.CheckAgain
	if c.OthersMayBeLow() && 100*high < lowByMostBooks*least {
		urgency = diag.ActSoon // the others would be low by most books
	}
	return diag.Finding{Urgency: urgency, Confidence: diag.Fair, Facts: diag.Facts{
		"value": value, "others": c.Span(low, high), "above": known.Percent(100*(least-high)/high, 0), "othersLow": c.OthersMayBeLow()}}
}

func allAbove(c *known.Case) bool {
	s := c.Cranking()
	if c.Spec.VariableTiming == diag.Yes {
		return false
	}
	if c.FarAboveStandard() {
		return true
	}
	if s.Expected == nil {
		return false
	}
	most := s.Expected.High + s.HighestU
	if s.Expected.ByRatio {
		most += earlierClosing * s.Expected.High
	}
	return s.Lowest > most
}

// earlierClosing is the part by which an inlet that closes earlier than usual, as
// many old engines' do, lifts the pressure over the band of the ratio alone:
// judgement, no source.
const earlierClosing = 0.05

// weighAllHigh puts the gauge, or another engine's figure, first where the book says
// what is usual: carbon takes long to lift every cylinder as far.
func weighAllHigh(c *known.Case, _ known.Subject) []Voice {
	if c.BroughtHigher() { // a skimmed head, a thinner gasket, other pistons
		return append(as(OfHistory, speaks(Heard, "different-parts")), common("gauge-reads-high", "carbon")...)
	}
	if c.FarAboveStandard() {
		return append(common("gauge-reads-high", "carbon", "different-parts", "limit-wrong"), where(c.Complains("noise"), as(OfHistory, speaks(Hint, "carbon")))...)
	}
	return common("carbon", "different-parts", "gauge-reads-high")
}

func allHigh(c *known.Case, _ known.Subject) diag.Finding {
	s := c.Cranking()
	f := diag.Finding{Urgency: diag.NoAction, Confidence: diag.Weak, Facts: diag.Facts{"read": c.Span(s.Lowest, s.Highest), "expected": "", "range": false}}
	if c.FarAboveStandard() { // what reads high against the book may hide what is low against it
		f.Variant, f.Urgency, f.Facts["expected"] = "standard", diag.CheckAgain, s.Standard.Entered
		f.Facts["range"] = s.Standard.Low < s.Standard.High
		return f
	}
	f.Facts["expected"] = c.Span(s.Expected.Low, s.Expected.High)
	if c.Complains("noise") { // more pressure than it was made for knocks
		f.Urgency = diag.CheckAgain
	}
	return f
}
