package rule

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
	"gaugesheet/diag/quantity"
)

// compressionRules read the dry cranking compression: what is without pressure,
// all together, groups, single cylinders, how they build up.
var compressionRules = slices.Concat(noneRules, wholeRules, lowRules, highRules, strokeRules)

// lowByMostBooks is the percent of the reference under which most books call a
// cylinder low: US Army TM 5-4210-230-14&P-1, Addendum No. 2.
const lowByMostBooks = 75

// urgencyOf is how soon low cylinders should be seen to.
func urgencyOf(c *known.Case, names []string) diag.Urgency {
	urgency := diag.CheckAgain
	for _, name := range names {
		r := c.Cylinder(name)
		switch {
		case r == nil:
		case r.Grade == diag.NoPressure:
			return diag.DoNotRun
		case r.Grade == diag.VeryLow, r.Grade == diag.Low && r.PercentOfRef < lowByMostBooks && !c.RelativeLimitsKept():
			urgency = diag.ActSoon
		}
	}
	return urgency
}

// lowFinding is what findings of low cylinders have in common.
func lowFinding(c *known.Case, s known.Subject) diag.Finding {
	f := diag.Finding{Urgency: urgencyOf(c, s.Cylinders), Confidence: diag.Fair, Facts: lowFacts(c, s.Cylinders)}
	f.Facts["onTheFall"] = onTheFall(c, s.Cylinders)
	for _, n := range s.Cylinders {
		if r := c.Cylinder(n); r != nil && (r.Kind == diag.Estimate || r.Kind == diag.Band) {
			f.Confidence, f.Doubts = diag.Weak, []diag.Phrase{{Key: "estimated"}}
		}
	}
	return f
}

// lowFacts are the numbers of low cylinders beside the others. What is known
// only to read more than a figure stands for it where that is the best.
func lowFacts(c *known.Case, names []string) diag.Facts {
	s := c.Cranking()
	worst := c.Cylinder(names[0])
	for _, n := range names {
		if r := c.Cylinder(n); r.PercentOfRef < worst.PercentOfRef {
			worst = r
		}
	}
	others, count := othersOf(c, names)
	facts := diag.Facts{
		"read": c.Span(spreadRead(c, names)), "others": others, "reference": c.Pressure(s.Reference).String(), "percent": partRead(c, worst),
		"u": known.Percent(c.AtItsEnd(worst).UPercent, 1), "worst": worst.Name, "pair": count == 1, "some": count > 0 && count < len(c.Others(names)), "nothing": c.TradeFigure(nothing(c)),
	}
	if worst.AtMost {
		facts["reference"] = c.AtLeast(s.HighestBound)
	}
	return facts
}

// partRead is a reading as a part of what its set is compared with, from end to end where it
// is known only not to be more than a figure.
func partRead(c *known.Case, r *diag.CylinderResult) string {
	if ends := c.Cranking().EndsOf(r.Name); ends != nil && !r.AtMost {
		return known.Percents(c.Part(ends[0], c.Cranking().Reference).Value, c.Part(ends[1], c.Cranking().Reference).Value)
	}
	return c.PartOfReference(r).String()
}

// spreadRead is the least and the most that was read of some cylinders, of a range
// its ends.
func spreadRead(c *known.Case, names []string) (low, high float64) {
	low, high = c.Spread(names)
	for _, n := range names {
		r := c.Test.Compression.Dry[n]
		if own := r.Unit == quantity.None || r.Unit == c.Test.Compression.Unit; own && r.Kind == diag.Band && len(r.Values) == 1 {
			low, high = min(low, r.Values[0]-r.HalfWidth), max(high, r.Values[0]+r.HalfWidth)
		}
	}
	return low, high
}

// nothing is the pressure under which a cylinder has none, in the unit of the
// readings.
func nothing(c *known.Case) float64 { return c.CrankingPSI(diag.NoPressurePSI) }

// othersOf words what the cylinders beside some read, those that are low too
// left out where others are not, and gives how many they are; "" for none.
func othersOf(c *known.Case, names []string) (read string, count int) {
	others := slices.DeleteFunc(c.Others(names), func(n string) bool { return c.Grade(n).IsLow() })
	bounds := slices.DeleteFunc(c.BoundsOnly(), func(n string) bool { return c.Cylinder(n).Dry == nil || *c.Cylinder(n).Dry < c.Cranking().Reference })
	if len(others)+len(bounds) == 0 {
		others = c.Others(names)
	}
	switch {
	case len(others) == 0 && len(bounds) == 0:
		return "", 0
	case len(bounds) == 0:
		return c.Span(c.Spread(others)), len(others)
	case len(others) == 0:
		low, _ := c.Spread(bounds)
		return c.AtLeast(low), len(bounds)
	}
	low, _ := c.Spread(others)
	return c.AtLeast(low), len(others) + len(bounds)
}

// ofOne is what one low cylinder commonly comes from, by the kind of engine:
// the commonest first.
func ofOne(c *known.Case) []Voice {
	switch {
	case c.Ported():
		return common("rings", "piston", "scored-bore", "head-gasket", "reed-valve", "crankcase-seal", "restricted-exhaust")
	case c.Spec.Diesel():
		return append(common("exhaust-valve", "rings", "inlet-valve", "valve-lash", "head-gasket", "scored-bore"), tightLash(c)...)
	}
	return append(common("exhaust-valve", "rings", "inlet-valve", "valve-lash", "valve-motion", "head-gasket", "warped-or-cracked-head", "scored-bore"), tightLash(c)...)
}

// tightLash is the clearance of valves that are set by hand: it closes up with
// use, and it is looked at in minutes. On a small engine, and on one cooled by air, it is
// the first thought: common practice, no source.
func tightLash(c *known.Case) []Voice {
	switch {
	case c.Spec.Lifters != "solid":
		return nil
	case c.SmallEngine():
		return as(OfHistory, speaks(Known, "valve-lash"))
	case c.AirCooled():
		return as(OfHistory, speaks(DryUp, "valve-lash"))
	}
	return as(OfHistory, speaks(Hint, "valve-lash"))
}

// where gives voices where something holds, and none else.
func where(is bool, voices []Voice) []Voice {
	if is {
		return voices
	}
	return nil
}

// as gives voices another kind of test.
func as(kind Kind, voices []Voice) []Voice {
	for i := range voices {
		voices[i].Kind = kind
	}
	return voices
}

func minimumsKept(c *known.Case) bool {
	return c.Minimum() != nil && !slices.ContainsFunc(c.Cranking().Limits, func(l diag.LimitResult) bool {
		return l.Rule == string(diag.Minimum) && l.Verdict != diag.Within && !c.AboveByCheck(&l)
	})
}

// weighClose gives what a second careful test would show where a limit of the
// job is too close to call.
func weighClose(c *known.Case, _ known.Subject) []Voice {
	return where(c.CloseLimit() != nil, common("weak-cranking", "carbon-on-seat", "exhaust-valve", "rings"))
}
