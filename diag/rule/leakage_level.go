package rule

import (
	"slices"

	"gaugesheet/diag"
)

var leakageHigh = Rule{
	Name:    "leakage-high",
	Title:   "A cylinder loses too much air, and the place was not written down",
	Trigger: "a loss over the limit given, or over 20 % where none is given, or more than 10 points over the median, with no place",
	Why: "How much air a cylinder loses is half of the test; where it goes is the other half. A percentage without a place does not tell a valve " +
		"from a ring, and it compares only with figures of the same tester.",
	Source: "FAA AC 43.13-1B, para 8-14: a loss of more than 25 % makes a cylinder suspect; the bands here are common practice, no source",
	Class:  Single, Needs: []Need{NeedsLeakage},
	YieldsTo: []string{"sound-but-leaks"},
	Findings: func(c *Case) []diag.Finding {
		var names []string
		for _, l := range c.leaks() {
			if c.leakTooHigh(l) && !c.placed(l) {
				names = append(names, l.Name)
			}
		}
		if len(names) == 0 {
			return nil
		}
		f := diag.Finding{Rule: "leakage-high", Cylinders: names, Facts: c.leakFacts(names),
			Urgency: diag.CheckAgain, Causes: phrases("leak-place-unknown"), Next: c.next(names, "leak-down-again")}
		if worst := c.worstLeak(names); worst.Verdict == diag.Outside || beyond(*worst.Loss, actLoss) && c.Sums.Leakage.Limit == nil {
			f.Urgency = diag.ActSoon
		}
		if c.leakingBank(names) >= 0 && !c.Spec.TwoStroke {
			f.Causes, f.Next = phrases("cam-timing", "bent-valve", "leak-place-unknown"), c.next(names, "leak-down-again", "cam-timing-marks")
		}
		c.judgeLeak(&f)
		return []diag.Finding{f}
	},
}

// leakTooHigh reports a loss over the limit, or that stands out without one.
func (c *Case) leakTooHigh(l *diag.LeakResult) bool {
	if c.Sums.Leakage.N > 0 && *l.Loss > c.Sums.Leakage.Median+overMedian {
		return true
	}
	if c.Sums.Leakage.Limit != nil {
		return l.Verdict == diag.Outside || c.pastLimit(l)
	}
	return *l.Loss > wornLoss
}

// placed reports whether a rule for one of its places speaks of a leak.
func (c *Case) placed(l *diag.LeakResult) bool {
	return slices.ContainsFunc(leakPlaces, func(p leakPlace) bool { return c.leaksAt(l.Name, p) })
}

// holdsWell reports good compression: even with the others, and not under a
// minimum that the job gives.
func (c *Case) holdsWell(name string) bool {
	grade := c.Grade(name)
	return (grade == diag.Even || grade == diag.High) && !slices.Contains(c.underMinimum(), name)
}

// underMinimum lists the cylinders whose compression is under a minimum of the
// job, clear of uncertainty, in the engine's order.
func (c *Case) underMinimum() []string {
	if c.Sums.Compression == nil {
		return nil
	}
	for _, limit := range c.Sums.Compression.Limits {
		if limit.Rule == string(diag.Minimum) && limit.Verdict == diag.Outside {
			return c.cylindersThat(func(r *diag.CylinderResult) bool {
				return r.Dry != nil && *r.Dry+limit.Uncertainty < limit.Limit
			})
		}
	}
	return nil
}

// ringLoss reports a high loss past the rings, or at no place that was named.
func (c *Case) ringLoss(l *diag.LeakResult) bool {
	elsewhere := slices.ContainsFunc(l.At, func(at string) bool { return at != atCrankcase.at && at != "nowhere" })
	return c.leakTooHigh(l) && *l.Loss > goodLoss && !elsewhere
}

var soundButLeaks = Rule{
	Name:    "sound-but-leaks",
	Title:   "Good compression, and yet a high leakage past the rings",
	Trigger: "compression even and not under the minimum, and a high loss at the crankcase or at no named place",
	Why: "The two tests look at the same seal in different ways: cranking is quick and the oil on the rings helps; the leakage test stands still for as long as one " +
		"likes. Ring gaps in line, a cold engine or the tester's own scale give a high figure on a sound engine, so the test is repeated before anything is dismantled.",
	Source: "common practice, no source", Class: Together, Needs: []Need{NeedsCompression, NeedsLeakage},
	YieldsTo: []string{"leaks-but-serviceable", "rings-agree"},
	Findings: func(c *Case) []diag.Finding {
		var names []string
		for _, l := range c.leaks() {
			if c.holdsWell(l.Name) && c.ringLoss(l) {
				names = append(names, l.Name)
			}
		}
		if len(names) == 0 {
			return nil
		}
		f := diag.Finding{Rule: "sound-but-leaks", Cylinders: names, Facts: c.leakFacts(names), Urgency: diag.CheckAgain,
			Causes: phrases("rings", "tester-scale"), Next: c.next(names, "leak-down-again", "run-and-retest")}
		c.judgeLeak(&f)
		f.Confidence = atMost(f.Confidence, diag.Fair)
		return []diag.Finding{f}
	},
}

var lowButTight = Rule{
	Name:    "low-but-tight",
	Title:   "Low compression in a cylinder that loses hardly any air",
	Trigger: "graded low, and a loss under 10 %",
	Why: "With the valves closed the cylinder holds its air, so rings, valves and gasket seal. What is left is that too little air gets in, or that it is let out again: " +
		"a worn cam lobe, a rocker or lifter that does not move its valve in full, valve timing, a blocked port, or the compression test itself.",
	Source: "common practice, no source", Class: Together, Needs: []Need{NeedsCompression, NeedsLeakage},
	Variants: []string{twoStrokeVariant}, YieldsTo: []string{"low-everywhere-but-tight"},
	Findings: func(c *Case) []diag.Finding {
		var names []string
		for _, l := range c.leaks() {
			if c.Grade(l.Name).IsLow() && *l.Loss < goodLoss && !c.placed(l) {
				names = append(names, l.Name)
			}
		}
		if len(names) == 0 {
			return nil
		}
		facts := c.leakFacts(names)
		facts["percent"] = percent(c.Cylinder(names[0]).PercentOfRef, 0)
		f := diag.Finding{Rule: "low-but-tight", Cylinders: names, Facts: facts, Urgency: diag.ActSoon,
			Causes: phrases("valve-motion", "cam-timing", "adapter-leak"),
			Next:   c.next(names, "watch-valve-gear", "running-compression", "cam-timing-marks")}
		if bank := c.lowBank(); bank >= 0 && len(names) > 1 && !slices.ContainsFunc(names, func(n string) bool { return c.Engine.BankOf(n) != bank }) {
			f.Causes, f.Next = phrases("cam-timing", "valve-motion", "restricted-inlet"), c.next(names, "cam-timing-marks", "watch-valve-gear")
		}
		if c.Spec.TwoStroke {
			f.Variant = twoStrokeVariant
			f.Causes, f.Next = phrases("adapter-leak", "restricted-inlet", "restricted-exhaust"), c.next(names, "second-gauge")
		}
		c.judgeLeak(&f)
		f.Confidence = atMost(f.Confidence, diag.Fair)
		return []diag.Finding{f}
	},
}

var leakageGood = Rule{
	Name:    "leakage-good",
	Title:   "Every cylinder read holds its air well",
	Trigger: "every loss within its limit, or at most 10 % where none is given (to 20 %: serviceable); none at a place that is worth saying",
	Why: "A small loss that is alike in every cylinder is what ring gaps alone give. It says that rings, valves and gasket seal with the engine at rest; " +
		"it says nothing of how the valves move.",
	Source: "common practice, no source", Class: Sound, Needs: []Need{NeedsLeakage},
	YieldsTo: []string{"low-everywhere-but-tight", "leakage-reads-nothing", "sealing-sound-look-elsewhere"},
	Variants: []string{"serviceable", "close"},
	Findings: func(c *Case) []diag.Finding {
		var names []string
		for _, l := range c.leaks() {
			lowerBound := l.Verdict == diag.NotJudged && c.Sums.Leakage.Limit != nil
			if c.leakTooHigh(l) || c.placed(l) || lowerBound {
				return nil
			}
			names = append(names, l.Name)
		}
		if len(names) == 0 || len(c.LowSet()) > 0 {
			return nil
		}
		f := diag.Finding{Rule: "leakage-good", Cylinders: names, Facts: c.leakFacts(names), Urgency: diag.NoAction}
		if c.Sums.Leakage.Limit == nil && *c.worstLeak(names).Loss > goodLoss {
			f.Variant = "serviceable"
		}
		c.judgeLeak(&f)
		if slices.ContainsFunc(c.leaks(), func(l *diag.LeakResult) bool { return l.Verdict == diag.TooClose }) {
			f.Variant, f.Confidence = "close", diag.Weak
			f.Doubts = append(f.Doubts, phrases("leakage-near-limit")...)
		}
		return []diag.Finding{f}
	},
}
