package rule

import (
	"math"
	"slices"

	"gaugesheet/diag"
)

// testRules judge the test before the engine. They are notices: they stand
// above the findings and make them provisional, and suppress none.
var testRules = []Rule{
	{
		Name: "method-incomplete", Title: "Not recorded how the test was made", Class: TestItself,
		Trigger: "compression or a rotary engine's faces were read, and the gauge, the engine's temperature, the throttle or the strokes " +
			"(a rotary: the cranking speed) were not recorded; or the gauge's accuracy is one of its span and its range was not, or a limit holds at sea level " +
			"and neither altitude nor barometer was; a diesel is not asked for its throttle",
		Why: "A cranking reading depends on how it was taken: a shut throttle, a cold engine or two strokes fewer move it by more than many faults do, " +
			"and nobody can tell afterwards. What was not written down cannot be held against the engine, so the findings stay weak.",
		Source:  "US Army TM 5-4210-230-14&P-1, Addendum No. 2, which asks for warm engine, open throttle and a note of the strokes",
		Doubt:   "method-incomplete",
		Doubts:  []Need{NeedsCompression, NeedsWet, NeedsFirst, NeedsRotors, NeedsEarlier, NeedsFuel},
		Notices: methodIncomplete,
	},
	{
		Name: "not-standard-method", Title: "The test was not made in the usual way", Class: TestItself,
		Trigger: "the job describes something unusual in the method, or says that the throttle was closed, that the other plugs stayed in, or that a decompressor was at work",
		Why: "Published figures are for an engine cranked with the throttle open and every plug out. Whatever is done otherwise moves all readings together, " +
			"usually down, so that only the comparison between cylinders is left, and with a decompressor at work not even that.",
		Source:   "US Army TM 5-4210-230-14&P-1, Addendum No. 2 (plugs out, throttle blocked open)",
		Variants: []string{"throttle-closed", "plugs-in", "decompressor"},
		Notices:  notStandard,
	},
	{
		Name: "falls-in-test-order", Title: "Readings fall in the order in which they were taken", Class: TestItself, Needs: []Need{NeedsCompression},
		Trigger: "in the order tested every reading is lower than the one before (four at least, no step more than 60 % of the whole fall), by more in all than two readings can differ " +
			"by chance and by 3 % at least, and the first cylinder tested again at the end did not come back to its reading; or, tested again, it reads clearly lower",
		Why: "A battery that runs down cranks more slowly with each cylinder, and a gauge whose valve begins to leak holds less each time. Either makes the cylinders tested last " +
			"look worn. No fault of an engine goes by the order in which somebody happened to test it; the first cylinder tested again with a charger on settles it.",
		Source:   "common practice",
		Variants: []string{"confirmed"},
		Doubt:    "falls-in-test-order", Doubts: []Need{NeedsCompression, NeedsWet, NeedsFirst}, Repeat: "repeat-with-charger",
		Notices: fallsInTestOrder,
	},
	{
		Name: "all-low-check-the-test", Title: "All low together: the test comes first", Class: TestItself, Needs: []Need{NeedsCompression},
		Trigger: "every cylinder is under the minimum (or under the expected pressure, or lower than in an earlier test), and the lowest is at least 85 % of the highest",
		Why: "Wear seldom takes the same from every cylinder. What lowers all alike is mostly outside them: a throttle or choke not fully open, slow cranking, a cold engine, thin air, " +
			"a gauge that reads low. These are cheap to rule out and come before the timing, and the timing before the rings.",
		Source:  "common practice",
		Notices: allLowCheckTheTest,
	},
	{
		Name: "repeats-disagree", Title: "Repeats of one reading disagree", Class: TestItself,
		Trigger: "the repeats on a cylinder, dry or wet, lie more than 5 % of the highest of them apart, and more than 2 psi, which a gauge can hardly tell",
		Why: "Repeats of a sound test agree within a division or two. Where they do not, the adapter leaked, the strokes differed, a valve or lifter is not doing the same each time, " +
			"or there is liquid in the bore. The mean of two such readings describes neither.",
		Source:  "common practice",
		Notices: repeatsDisagree,
	},
	{
		Name: "strokes-differ", Title: "Not every cylinder had the same strokes", Class: TestItself, Needs: []Need{NeedsCompression},
		Trigger: "the job records another number of compression strokes for some cylinders than for the others",
		Why:     "The gauge climbs with every stroke, most on the first ones. A cylinder given fewer strokes reads low for that alone; the same number for each makes them comparable.",
		Source:  "US Army Ordnance subcourse OD1001, p. 91-92 (each cylinder should reach its maximum in about the same number of turns)",
		Doubt:   "strokes-differ", Doubts: []Need{NeedsCompression, NeedsWet, NeedsFirst}, Repeat: "repeat-method",
		Notices: strokesDiffer,
	},
	{
		Name: "needle-falls-back", Title: "The needle would not hold", Class: TestItself, Needs: []Need{NeedsCompression},
		Trigger: "the job says that the gauge's needle fell back between strokes",
		Why: "The valve at the plug end of the hose keeps each stroke's pressure until the next. When it leaks, the needle falls back and the reading is that of one stroke and not of " +
			"all of them: every cylinder reads low, and first strokes look high beside the last.",
		Source: "common practice",
		Doubt:  "needle-falls-back", Doubts: []Need{NeedsCompression, NeedsWet, NeedsFirst}, Repeat: "second-gauge",
		Notices: needleFallsBack,
	},
	{
		Name: "gauge-reads-off", Title: "The gauge does not agree with its own check", Class: TestItself,
		Trigger: "the gauge's check (reads X at Y) differs from the true pressure by more than 5 % of it and by more than the gauge's stated accuracy",
		Why: "A gauge that is known to read wrong makes a sound engine look worn, or hides a worn one. Between the cylinders of one test most of that cancels; against a book figure it does not. " +
			"Nothing is corrected by it: one cylinder tested with another gauge settles it.",
		Source:  "common practice",
		Doubt:   "gauge-reads-off",
		Doubts:  []Need{NeedsCompression, NeedsWet, NeedsFirst, NeedsRotors, NeedsEarlier, NeedsFuel},
		Repeat:  "second-gauge",
		Notices: gaugeReadsOff,
	},
	{
		Name: "too-few-cylinders", Title: "Cylinders were left out", Class: TestItself,
		Trigger: "compression (or rotors, or leakage alone) was tested on an engine of several and some were not read",
		Why: "Cylinders are judged beside each other. One that was not read may be the best, and then those called even are low, or the worst. Nothing can be said of the engine's sealing " +
			"as a whole until it has been read.",
		Source: "common practice", Variants: []string{"rotors"},
		Notices: tooFewCylinders,
	},
	{
		Name: "lower-bound", Title: "Known only to read more", Class: TestItself,
		Trigger: "a reading is written as a lower bound, such as 'over 300' or '300+'",
		Why: "A needle at its stop says that there is more, and not how much more. Such a reading can clear a minimum that it is above. It cannot be compared with the other cylinders, " +
			"and one under the minimum decides nothing.",
		Source:  "common practice",
		Notices: lowerBound,
	},
	{
		Name: "unit-suspect", Title: "A figure that does not suit its unit", Class: TestItself,
		Trigger: "readings lie far outside what an engine of this kind gives in the unit stated, or are written in a way that can be read as something else; not where " +
			"none reaches 25 psi (170 kPa) and one is 0, which is nothing in any unit",
		Why: "Twelve is a sound engine in bar and a dead one in psi. Printouts with the wrong unit exist, and so do dots that were meant as dashes. " +
			"Nothing is converted by guessing; the sheet says that the figures look like another unit.",
		Source: "common practice", Variants: []string{"improbable", "range-with-dot"},
		Doubt: "unit-suspect", Doubts: []Need{NeedsCompression, NeedsWet, NeedsFirst, NeedsEarlier, NeedsRotors, NeedsLeakage, NeedsFuel},
		Notices: unitSuspect,
	},
	{
		Name: "units-contradict", Title: "Two units that do not say the same", Class: TestItself,
		Trigger: "a value is given in two units that differ by more than 2 %",
		Why:     "When the same reading is written in two units, one of them was converted by somebody, and not always well. The sheet shows what was entered and says that they differ.",
		Source:  "NIST SP 811 (2008), appendix B.8, for the conversion",
		Notices: noted("units-contradict"),
	},
	{
		Name: "vin-check-digit", Title: "The check digit of the VIN does not match", Class: TestItself,
		Trigger: "the VIN has 17 characters, begins with 1 to 5, and its ninth character is not the check digit",
		Why:     "One character of the number was misread or mistyped. The readings are not touched by it, but the sheet may name the wrong vehicle.",
		Source:  "49 CFR 565.15(c)", Variants: []string{"character"},
		Notices: noted("vin-check-digit"),
	},
	{
		Name: "limit-implausible", Title: "The stated minimum does not suit the engine", Class: TestItself,
		Trigger: "the stated minimum is more than 89 % of the cranking pressure that the engine's ratio makes likely, or under 35 % of it; not asked with variable valve timing, " +
			"for a two-stroke or with a decompressor; where the inlet closing is not known 60 degrees after bottom dead centre is taken",
		Why: "Published minimums lie at 70 to 89 % of the standard values beside them. A minimum above that condemns sound engines, and one far below lets everything through: a standard value taken " +
			"for the minimum, another engine's figure, or another unit. The limit is judged as stated and the sheet says that it should be looked up again.",
		Source:   "polytropic compression from inlet closing (Heywood, Internal Combustion Engine Fundamentals, from memory); minimum as a share of standard: common practice",
		Variants: []string{"low"},
		Notices:  limitImplausible,
	},
	{
		Name: "leaks-at-both-valves", Title: "Air at inlet and exhaust together", Class: TestItself, Needs: []Need{NeedsLeakage},
		Trigger: "in a leakage test air was heard at inlet and exhaust of one cylinder, or a cylinder of good compression lost more than 80 %",
		Why:     "Both valves of a cylinder seldom fail together, but near the top of the exhaust stroke both stand open. The piston was probably on the wrong stroke, or the crankshaft rolled.",
		Source:  "common practice", Variants: []string{"loses-all"},
		Doubt: "leaks-at-both-valves", Doubts: []Need{NeedsLeakage}, Repeat: "leak-down-again",
		Notices: leaksAtBothValves,
	},
	{
		Name: "leakage-reads-nothing", Title: "No leakage at all", Class: TestItself, Needs: []Need{NeedsLeakage},
		Trigger: "a leakage test reads 0 % on a cylinder whose compression is not low",
		Why:     "Every engine loses some air past the ring gaps. Nothing at all mostly means that no air reached the cylinder: a valve shut, the gauge's check valve left in the hose, a blocked orifice.",
		Source:  "FAA AC 43.13-1B, para 8-14 (some loss past the rings is normal)",
		Doubt:   "leakage-reads-nothing", Doubts: []Need{NeedsLeakage}, Repeat: "leak-down-again",
		Notices: leakageReadsNothing,
	},
	{
		Name: "all-leak-to-crankcase", Title: "Every cylinder leaks to the crankcase, with good compression", Class: TestItself, Needs: []Need{NeedsLeakage, NeedsCompression},
		Trigger: "every cylinder that was read loses 20 % or more with air in the crankcase, two at least, and none is low on compression",
		Why: "Rings worn enough to lose this much everywhere would show in the compression. Leakage testers differ in orifice and supply, and a cold engine leaks more, " +
			"so the tester and the temperature come before the rings.",
		Source: "common practice",
		Doubt:  "all-leak-to-crankcase", Doubts: []Need{NeedsLeakage}, Repeat: "leak-down-again",
		Notices: allLeakToCrankcase,
	},
	{
		Name: "wet-dose-too-large", Title: "Too much oil in the wet test", Class: TestItself, Needs: []Need{NeedsWet},
		Trigger: "a cylinder that is not low rose by more than 10 % with oil, or a wet reading is above what the engine's geometry can give, or the dose is more than a tenth of the chamber",
		Why: "Oil takes up room above the piston. A large dose raises the ratio, and with it the reading, whatever the rings are like. Cylinders that need no oil should hardly rise; " +
			"where they do, the rise of the low one says little.",
		Source:   "common practice; the effect of the dose follows from the chamber's volume",
		Variants: []string{"above-geometry", "dose"},
		Doubt:    "wet-dose-too-large", Doubts: []Need{NeedsWet}, Repeat: "repeat-wet",
		Notices: wetDoseTooLarge,
	},
	{
		Name: "liquid-in-cylinder", Title: "Signs of liquid in a cylinder", Class: TestItself, Needs: []Need{NeedsCompression},
		Trigger: "a cylinder reads high and its plug is wet with coolant or fuel, or what was seen in the bore speaks of liquid",
		Why: "Liquid takes up room that the air should have and raises the reading. Enough of it stops the piston on its way up, and the starter then bends what is in between. " +
			"The plugs come out and the engine is turned by hand before anything else.",
		Source:   "US Army TM 10-3930-647-14&P, para 4-40 (a high reading: deposits); liquid: common practice",
		Findings: liquidInCylinder,
	},
}

func notice(rule, variant string, cylinders []string, facts diag.Facts) []diag.Notice {
	if facts == nil {
		facts = diag.Facts{}
	}
	return []diag.Notice{{Rule: rule, Variant: variant, Cylinders: cylinders, Facts: facts}}
}

// noted passes on the notices that reading the job gave rise to.
func noted(rule string) func(*Case) []diag.Notice {
	return func(c *Case) []diag.Notice {
		return slices.DeleteFunc(slices.Clone(c.Noted), func(n diag.Notice) bool { return n.Rule != rule })
	}
}

func notStandard(c *Case) []diag.Notice {
	if !c.Has(NeedsCompression) && !c.Has(NeedsRotors) {
		return nil
	}
	var list []diag.Notice
	add := func(is bool, variant string, facts diag.Facts) {
		if is {
			list = append(list, notice("not-standard-method", variant, nil, facts)...)
		}
	}
	add(c.Spec.Decompressor == "automatic", "decompressor", nil)
	add(c.Conditions.Throttle == "closed" && !c.Spec.Diesel(), "throttle-closed", nil)
	add(c.Conditions.PlugsOut == "one at a time", "plugs-in", nil)
	add(c.Conditions.Method != "", "", diag.Facts{"method": c.Conditions.Method})
	return list
}

// clearDifference is what two readings of this test may differ by and still be
// the same: 2 sqrt(2) times the standard uncertainty of one.
func (c *Case) clearDifference() float64 { return 2 * math.Sqrt2 * c.Sums.Compression.URepeat }

func fallsInTestOrder(c *Case) []diag.Notice {
	order := slices.DeleteFunc(slices.Clone(c.Compression.Order), func(name string) bool {
		r := c.Cylinder(name)
		return r == nil || r.Dry == nil || r.Kind != diag.Exact
	})
	if len(order) < 2 {
		return nil
	}
	first := c.Cylinder(order[0])
	if first.Again != nil {
		if drop := *first.Dry - *first.Again; drop > max(c.clearDifference(), 0.03**first.Dry) {
			return notice("falls-in-test-order", "confirmed", nil, diag.Facts{
				"first": first.Name, "value": c.pressure(*first.Dry), "again": c.pressure(*first.Again)})
		}
		return nil // it came back: what fell is in the cylinders
	}
	notLow := slices.DeleteFunc(slices.Clone(order), func(name string) bool { return c.Grade(name).IsLow() })
	for _, names := range [][]string{order, notLow} {
		if c.fallsSteadily(names) {
			from, to := c.Cylinder(names[0]), c.Cylinder(names[len(names)-1])
			return notice("falls-in-test-order", "", nil, diag.Facts{
				"order": diag.Names(names), "first": from.Name, "last": to.Name,
				"value": c.pressure(*from.Dry), "to": c.pressure(*to.Dry)})
		}
	}
	return nil
}

// steadyStep is the largest part of the whole fall that one step of a steady
// fall takes; one dead cylinder at the end is no steady fall.
const steadyStep = 0.6

func (c *Case) fallsSteadily(names []string) bool {
	if len(names) < 4 {
		return false
	}
	first, last := *c.Cylinder(names[0]).Dry, *c.Cylinder(names[len(names)-1]).Dry
	fall := first - last
	if fall <= c.clearDifference() || fall < 0.03*first {
		return false
	}
	for i := 1; i < len(names); i++ {
		step := *c.Cylinder(names[i-1]).Dry - *c.Cylinder(names[i]).Dry
		if step < 0 || step > steadyStep*fall {
			return false
		}
	}
	return true
}

// evenTogether is the lowest as a percent of the highest from which a set that
// is low is low evenly.
const evenTogether = 85

func allLowCheckTheTest(c *Case) []diag.Notice {
	if c.allLow() == nil || c.Sums.Compression.LowestPercentOfHighest < evenTogether {
		return nil
	}
	return notice("all-low-check-the-test", "", nil, nil)
}

func repeatsDisagree(c *Case) []diag.Notice {
	if c.Sums.Compression == nil {
		return nil
	}
	var list []diag.Notice
	for i := range c.Sums.Compression.Cylinders {
		r := &c.Sums.Compression.Cylinders[i]
		v := r.DryReadings
		if !r.Disagree {
			v = c.Compression.Wet[r.Name].Values
		}
		if r.Disagree || r.WetDisagree {
			low, high := slices.Min(v), slices.Max(v)
			list = append(list, notice("repeats-disagree", "", []string{r.Name}, diag.Facts{
				"low": c.pressure(low), "high": c.pressure(high), "percent": percent(100*(high-low)/high, 0)})...)
		}
	}
	return list
}

func strokesDiffer(c *Case) []diag.Notice {
	usual, different := c.Conditions.Strokes, []string(nil)
	for _, name := range c.Engine.Names() {
		n, given := c.Compression.Strokes[name]
		if !given {
			continue
		}
		if usual == 0 {
			usual = n
		}
		if n != usual {
			different = append(different, name)
		}
	}
	if len(different) == 0 {
		return nil
	}
	return notice("strokes-differ", "", different, diag.Facts{"strokes": c.Compression.Strokes[different[0]], "usual": usual})
}

func needleFallsBack(c *Case) []diag.Notice {
	if c.Conditions.Needle != "falls back" {
		return nil
	}
	return notice("needle-falls-back", "", nil, nil)
}
