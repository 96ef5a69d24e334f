package rule

import (
	"math"
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
	"gaugesheet/diag/quantity"
)

// figureRules are on figures that cannot well be.
var figureRules = []Rule{
	{
		Name: "unit-suspect", Title: "A figure that does not suit its unit", Class: TestItself, About: diag.AboutTest,
		Why: "Twelve is a sound engine in bar and a dead one in psi. Printouts with the wrong unit exist, and so do dots that were meant as dashes. " +
			"Nothing is converted by guessing; the sheet says that the figures look like another unit.",
		Source: "common practice, no source",
		Asks: "readings lie far outside what an engine of this kind gives in the unit stated, or are written in a way that can be read as something else; not where " +
			"none reaches 25 psi (170 kPa) and one is 0, which is nothing in any unit, nor of a sound cylinder beside dead ones, nor of one without pressure where another " +
			"test of it agrees, the manifold's vacuum falls regularly, what drives the valves broke, or, of a figure lost, a second cylinder reads as little",
		Variants: []string{"improbable", "range-with-dot", "digit"},
		Notices:  unitSuspect, Kind: OfTest, Weigh: voicesOf(otherUnit), Headline: "unit-suspect",
		Doubt: "unit-suspect", Doubts: append(slices.Clone(onGauges), known.NeedsLeakage), Repeat: "look-at-the-gauge", Slip: true,
		Alone: func(c *known.Case, n diag.Notice) bool { return c.WholeSection(n) != "" },
	},
	{
		Name: "reading-beyond-gauge", Title: "A reading that the gauge's scale does not reach", Class: TestItself, About: diag.AboutTest,
		Why: "A needle cannot show what lies beyond its scale: at its stop it tells no pressure, and past it either a digit was added in writing, or the gauge is not the one that is named. " +
			"The reading is shown and not judged, and it makes no other cylinder look low.",
		Source:  "follows from the gauge's range",
		Asks:    "a reading is above the top of its gauge's scale, or at it",
		Notices: noted("reading-beyond-gauge"), Kind: OfTest, Headline: "test-beyond",
		Doubt: "reading-beyond-gauge", Doubts: onGauges, Repeat: "look-at-the-gauge", RepeatOf: longerScale,
		Alone:     always,
		Unsettles: func(diag.Notice) bool { return true },
	},
	{
		Name: "units-contradict", Title: "Two units that do not say the same", Class: TestItself, About: diag.AboutTest,
		Why:     "When the same reading is written in two units, one of them was converted by somebody, and not always well. The sheet shows what was entered and says that they differ.",
		Source:  "NIST SP 811 (2008), appendix B.8, for the conversion",
		Asks:    "a value is given in two units that differ by more than 2 %",
		Notices: noted("units-contradict"),
	},
	{
		Name: "written-twice", Title: "One figure written twice, and not alike", Class: TestItself, About: diag.AboutTest,
		Why: "The cranking speed and the battery's voltage have a test of their own and are noted beside the compression test; the vacuum at idle has one and is noted beside the fuel pressure. " +
			"The test of its own is used. Where the two differ, one of them is another day's, or a slip.",
		Source:  "follows from the readings; how far they may differ is judgement: 20 rpm, 0.3 V, 2 inHg",
		Asks:    "the starting test and the conditions differ on the cranking speed by more than 20 rpm or on the battery by more than 0.3 V, or the vacuum test and the fuel pressure on the manifold's vacuum by more than 2 inHg",
		Notices: noted("written-twice"),
	},
	{
		Name: "limit-implausible", Title: "The stated minimum does not suit the engine", Class: TestItself, About: diag.AboutTest,
		Why: "Published minimums lie at 70 to 89 % of the standard values beside them. A minimum above that condemns sound engines, and one far below lets everything through: a standard value taken " +
			"for the minimum, another engine's figure, or another unit. The limit is judged as stated and the sheet says that it should be looked up again.",
		Source: "polytropic compression from inlet closing (Heywood, Internal Combustion Engine Fundamentals, from memory); minimum as a share of standard: common practice, no source",
		Asks: "the stated minimum is more than 89 % of the cranking pressure that the engine's ratio makes likely, or under 35 % of it; not asked with variable valve timing, " +
			"for a two-stroke or with a decompressor; where the inlet closing is not known 60 degrees after bottom dead centre is taken; or, the ratio not known, it is over 200 psi (250 psi on gas or ethanol, " +
			"450 psi on a diesel); or a limit lets cylinders differ by half their pressure; or one on leakage is under 4 % or over 60 %, or under what the tester is said to read on a sound cylinder, by which it is not judged then",
		Variants: []string{"low", "high", "apart", "leakage", "tester"},
		Notices:  limitImplausible, Kind: OfTest, Weigh: voicesOf(limitTooHigh), RepeatOf: lookUpLimit, Headline: "test-limit",
	},
}

// gaugeRules are on the gauge.
var gaugeRules = []Rule{
	{
		Name: "needle-falls-back", Title: "The needle would not hold", Class: TestItself, About: diag.AboutTest, Needs: []known.Need{known.NeedsCompression},
		Why: "The valve at the plug end of the hose keeps each stroke's pressure until the next. When it leaks, the needle falls back and the reading is that of one stroke and not of " +
			"all of them: every cylinder reads low, and first strokes look high beside the last.",
		Source:  "common practice, no source",
		Asks:    "the job says that the gauge's needle fell back between strokes",
		Notices: needleFallsBack, Kind: OfTest, Weigh: voicesOf(needleFell), Headline: "test-gauge",
		Doubt: "needle-falls-back", Doubts: onStarter, Repeat: "second-gauge",
	},
	{
		Name: "gauge-reads-off", Title: "The gauge does not agree with its own check", Class: TestItself, About: diag.AboutTest,
		Why: "A gauge that is known to read wrong makes a sound engine look worn, or hides a worn one. Between the cylinders of one test most of that cancels; against a book figure it does not. " +
			"Nothing is corrected by it: one cylinder tested with another gauge settles it.",
		Source:  "common practice, no source",
		Asks:    "the gauge's check (reads X at Y) differs from the true pressure by more than 5 % of it and by more than the gauge's stated accuracy",
		Notices: gaugeReadsOff, Kind: OfTest, Weigh: voicesOf(gaugeWasLow, gaugeWasHigh), Headline: "test-gauge",
		Doubt: "gauge-reads-off", Doubts: onGauges, RepeatOf: anotherGauge,
	},
	{
		Name: "hose-lowers-readings", Title: "The gauge's hose is large beside the chamber", Class: TestItself, About: diag.AboutTest, Needs: []known.Need{known.NeedsCompression},
		Why: "Where the check valve sits at the gauge, its hose is filled by every stroke as if it were part of the chamber. On a small cylinder of a high ratio that takes a good part off the reading, " +
			"alike in every cylinder: the cylinders can be compared, a book figure taken with a short hose cannot.",
		Source:  "the gas law: r' = (r + a) / (1 + a), with a the hose's part of the chamber",
		Asks:    "the gauge's hose volume was written down, its valve not at the plug end, and it takes 8 % or more off the reading of such a chamber",
		Notices: hoseLowers, Kind: OfTest,
	},
	{
		Name: "gauge-doubted", Title: "Whoever used the gauge doubts it", Class: TestItself, About: diag.AboutTest,
		Why: "Who held the gauge saw more than the figures: a hose that hissed, a needle that stuck, a dial that was dropped. Such a doubt is no figure and corrects none; " +
			"a second gauge on one good cylinder ends it in minutes.",
		Source:  "common practice, no source",
		Asks:    "the job says why the readings of a gauge that was used are doubted",
		Notices: gaugeDoubted, Kind: OfTest, Weigh: voicesOf(gaugeInDoubt, doubtedHigh, gaugeWasLow, gaugeWasHigh), Headline: "test-gauge",
		Doubt: "gauge-doubted", Doubts: append(slices.Clone(onGauges), known.NeedsLeakage), RepeatOf: anotherGauge,
	},
	{
		Name: "adapter-leaked", Title: "The gauge's adapter leaked or would not seat", Class: TestItself, About: diag.AboutTest,
		Why: "Air that hisses out beside the adapter is air that the gauge does not see. A low reading taken so says nothing of the cylinder until it has been taken again with an adapter that seals; " +
			"the thread it would not seat in is looked at on the way.",
		Source:  "common practice, no source",
		Asks:    "the job's method or findings say of the adapter or gauge in a cylinder that it hissed, leaked, was loose or would not seat",
		Notices: adapterLeaked, Kind: OfTest, For: speaks(Heard, "adapter-leak"), Headline: "adapter-leaked",
		Doubt: "adapter-leaked", Doubts: onStarter, Repeat: "second-gauge", Unsettles: func(diag.Notice) bool { return true },
	},
	{
		Name: "repeats-disagree", Title: "Repeats of one reading disagree", Class: TestItself, About: diag.AboutTest,
		Why: "Repeats of a sound test agree within a division or two. Where they do not, the adapter leaked, the strokes differed, a valve or lifter is not doing the same each time, " +
			"or there is liquid in the bore. The mean of two such readings describes neither.",
		Source:  "common practice, no source",
		Asks:    "the repeats on a cylinder, dry or wet, lie more than 5 % of the highest of them apart, and more than 2 psi, which a gauge can hardly tell",
		Notices: repeatsDisagree, Kind: OfTest, For: common("adapter-leak", "sticking-valve"), Headline: "not-judged-some",
		Doubts: onStarter, Alone: always, RepeatOf: func(c *known.Case, n diag.Notice) string {
			if known.ReadsLowByEvery.Holds(c, known.Subject{Cylinders: n.Cylinders}) { // that it is low is beyond doubt
				return ""
			}
			return "repeat-method"
		},
	},
	{
		Name: "reading-left-open", Title: "A reading that says nothing of its limit", Class: TestItself, About: diag.AboutTest,
		Why:      "Two readings of the same that lie far apart are not averaged. Where both are past the limit it is past it; where they say different things nothing is known until it was read again. Nor is it of a figure known only to be more than one that is on the wrong side of its limit.",
		Source:   "common practice, no source",
		Asks:     "the repeats of a fuel pressure, of a leakage or of a further test lie more than 5 % (a leakage 5 points) apart, and not all of them are on one side of its limit, a leakage not all over 10 %; or one is known only to be more than a figure, and its limit, or what a sound cylinder loses, is more",
		Variants: []string{"bound"}, Notices: readingLeftOpen, Kind: OfTest, Weigh: func(c *known.Case, _ known.Subject) []Voice {
			return where(slices.ContainsFunc(c.ReadingsLeftOpen(), func(a known.LeftOpen) bool { return !a.Bound }), common("reading-wrong"))
		}, Headline: "reading-left-open", Alone: always,
		RepeatOf: func(c *known.Case, n diag.Notice) string {
			if n.Facts["section"] == "leakage" && c.Starts() && !c.Rotary() { // which warms it up; a rotor is read again as it is
				return "leak-down-again"
			}
			return "read-again"
		},
	},
}

// readingLeftOpen is what repeats, or a bound, leave open of a test other than compression:
// nothing is right by it, and nothing wrong.
func readingLeftOpen(c *known.Case) []diag.Notice {
	type of struct {
		section string
		bound   bool
	}
	bySort := map[of][]known.LeftOpen{}
	var order []of
	for _, a := range c.ReadingsLeftOpen() {
		sort := of{a.Section, a.Bound}
		if len(bySort[sort]) == 0 {
			order = append(order, sort)
		}
		bySort[sort] = append(bySort[sort], a)
	}
	var list []diag.Notice
	for _, sort := range order {
		var names []string
		for _, a := range bySort[sort] {
			if a.Cylinder != "" && !slices.Contains(names, a.Cylinder) {
				names = append(names, a.Cylinder)
			}
		}
		variant := ""
		if sort.bound {
			variant = "bound"
		}
		list = append(list, notice("reading-left-open", variant, names, diag.Facts{"section": sort.section, "entered": known.EntriesLeftOpen(bySort[sort])})...)
	}
	return list
}

// anotherGauge is the check that reads again with another gauge of the kind
// that was used.
func anotherGauge(_ *known.Case, n diag.Notice) string {
	switch n.Facts["section"] {
	case "fuel-pressure":
		return "second-fuel-gauge"
	case "leakage":
		return "leak-down-again"
	}
	return "second-gauge"
}

// lookUpLimit is asked for where the limit condemns something.
func lookUpLimit(_ *known.Case, n diag.Notice) string {
	if n.Variant != "" && n.Variant != "high" {
		return ""
	}
	return "look-up-limit"
}

// unitSuspect passes on what reading the job found, but for a compression of
// next to nothing with a reading of 0 among it, since nothing is nothing in any
// unit, and for a sound cylinder that stands out only because others are dead.
func unitSuspect(c *known.Case) []diag.Notice {
	s := c.Cranking()
	nothing := s.WithoutPressure() && s.Lowest <= 0
	return slices.DeleteFunc(noted("unit-suspect")(c), func(n diag.Notice) bool {
		if n.Facts["section"] != "compression" {
			return false
		}
		sound := len(n.Cylinders) > 0 && n.Variant != "range-with-dot" && !slices.ContainsFunc(n.Cylinders, func(name string) bool { return !c.Grade(name).IsGood() })
		return nothing || sound && len(c.LowSet()) > 0 || c.Test.UnitReadOff() || c.NoSlip(n)
	})
}

func needleFallsBack(c *known.Case) []diag.Notice {
	if !known.NeedleFallsBack.HoldsIn(c) {
		return nil
	}
	return notice("needle-falls-back", "", nil, nil)
}

// A usedGauge is a gauge with the section that it was used in.
type usedGauge struct {
	section string
	gauge   *diag.Gauge
	number  func(float64) diag.Number
}

// usedGauges are the gauges by which something was read.
func usedGauges(c *known.Case) []usedGauge {
	cranking := "compression"
	if c.Has(known.NeedsRotors) {
		cranking = "rotors"
	}
	var list []usedGauge
	for _, used := range []struct {
		usedGauge
		read bool
	}{
		{usedGauge{cranking, c.Gauges.Compression, c.CrankingNumber}, c.DryRead() || c.Has(known.NeedsRotors)},
		{usedGauge{"leakage", c.Gauges.Leakage, nil}, c.Has(known.NeedsLeakage)},
		{usedGauge{"fuel-pressure", c.Gauges.Fuel, c.FuelNumber}, c.Has(known.NeedsFuel)},
	} {
		if used.read && used.gauge != nil {
			list = append(list, used.usedGauge)
		}
	}
	return list
}

func gaugeReadsOff(c *known.Case) []diag.Notice {
	var list []diag.Notice
	for _, used := range usedGauges(c) {
		if used.number != nil && known.ReadsOff(used.gauge) {
			reads, at := used.gauge.ReadsAt[0], used.gauge.ReadsAt[1]
			would := ""
			if used.gauge == c.Gauges.Compression && !c.Has(known.NeedsRotors) {
				would = c.CheckedSpan(c.Cranking().Lowest, c.Cranking().Highest)
			}
			list = append(list, notice("gauge-reads-off", "", nil, diag.Facts{
				"would":   would,
				"section": used.section, "reads": used.number(reads), "at": used.number(at), "off": known.Percent(100*math.Abs(reads-at)/at, 0)})...)
		}
	}
	return list
}

func hoseLowers(c *known.Case) []diag.Notice {
	if share := c.HoseTakes(); share >= hoseTold {
		g, taken := c.Gauges.Compression, ""
		if ratio, given := c.HoseRatio(); !given {
			taken = quantity.Format(ratio, 0)
		}
		return notice("hose-lowers-readings", "", nil, diag.Facts{"ratio": taken, "hose": diag.Number{Value: g.HoseVolumeML, Decimals: 0, Unit: quantity.Millilitre}, "off": known.Percent(100*share, 0)})
	}
	return nil
}

// leftByHose asks only that pressures which the hose of the gauge makes low are read again.
func leftByHose(c *known.Case, f *diag.Finding) {
	if c.MadeLowByHose() {
		f.Urgency, f.Headline = diag.CheckAgain, "made-low-by-hose"
	}
}

// hoseTold is the part of a reading that a hose takes off from which it is told:
// judgement, no source.
const hoseTold = 0.08

func gaugeDoubted(c *known.Case) []diag.Notice {
	var list []diag.Notice
	for _, used := range usedGauges(c) {
		if used.gauge.Doubt != "" {
			list = append(list, notice("gauge-doubted", "", nil, diag.Facts{"section": used.section, "doubt": used.gauge.Doubt, "gauge": used.gauge.Name})...)
		}
	}
	return list
}

func adapterLeaked(c *known.Case) []diag.Notice {
	if names := c.AdapterLeaked(); len(names) > 0 {
		return notice("adapter-leaked", "", names, nil)
	}
	return nil
}

func repeatsDisagree(c *known.Case) []diag.Notice {
	var list []diag.Notice
	for i := range c.Cranking().Cylinders {
		r := &c.Cranking().Cylinders[i]
		v := r.DryReadings
		if !r.Disagree {
			v = c.Compression.Wet[r.Name].Values
		}
		if r.Disagree || r.WetDisagree {
			low, high := slices.Min(v), slices.Max(v)
			list = append(list, notice("repeats-disagree", "", []string{r.Name}, diag.Facts{
				"low": c.Pressure(low), "high": c.Pressure(high), "percent": known.Percent(100*(high-low)/high, 0)})...)
		}
	}
	return list
}

// longerScale is the check of a reading that its gauge could not show: another gauge where
// the needle stood at its stop, else what was written.
func longerScale(_ *known.Case, n diag.Notice) string {
	if stop, _ := n.Facts["stop"].(bool); stop {
		return "second-gauge"
	}
	return "look-at-the-gauge"
}
