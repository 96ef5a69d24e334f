package rule

import (
	"maps"
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// wholeRules judge the set as a whole and against figures that were not read on
// the same gauge.
var wholeRules = []Rule{
	{
		Name: "all-low", Title: "Every cylinder is low",
		Why: "Cylinders that are low together need something outside themselves to be seen by: they look even beside each other. Without the maker's figure there is what nearly any engine of the kind gives, and what " +
			"its ratio makes likely. First comes what is known of the test, since most engines that read low all over were cranked too slowly, could not breathe, or had a gauge that reads low; then valve timing, which lowers " +
			"all alike; then wear, since bores seldom wear alike.",
		Source: "US Army Ordnance subcourse OD1001, p. 91-92 (all or several low: rings or valves worn; slipped timing, low cranking speed, closed throttle); the floors: common practice, no source",
		Class:  Together, About: diag.AboutEngine, Needs: []known.Need{known.NeedsCompression},
		Of: everyRead, When: known.UnderFloor, Kind: OfCompression, Weigh: weighAllLow, Say: allLow, Headline: "all-low", Variants: []string{"by-gauge", "floor", "usual", "expected", "ratio", "earlier", "worked", "standard", "agreed"},
		SaysBetterThan: []string{"below-minimum"},
	},
	{
		Name: "below-minimum", Title: "Under the stated minimum",
		Why: "The maker's minimum is the one figure that says how an engine stands by itself and not beside itself. A book figure is compared with the gauge's own error in mind, " +
			"since every gauge has one; between cylinders it cancels, against the book it does not.",
		Source: "JCGM 106:2012, 8.3 (guard band); ILAC-G8:09/2019, 4.1", Class: Single, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsCompression},
		Of:       sets("the cylinders under a stated minimum", underMinimums),
		When:     known.OfEngine("the lowest under it clear of the uncertainty, or as read by less than that (then weak)", func(*known.Case) bool { return true }),
		Absolute: true, Kind: OfCompression, Weigh: weighBelow, Say: belowMinimum, Headline: "below-minimum", Variants: []string{"too-close"},
	},
	{
		Name: "near-minimum", Title: "Above the minimum by less than the gauge can tell",
		Why:    "A reading just above the limit may stand for a pressure just under it. A better gauge, or a warm engine, decides; this reading does not.",
		Source: "JCGM 106:2012, 8.3 (guard band)", Class: Single, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsCompression},
		Of: oneSet("the lowest cylinder", func(c *known.Case) []string {
			if l := nearestMinimum(c); l != nil {
				return readAlike(c, l.Cylinder)
			}
			return nil
		}),
		When:     known.OfEngine("above a stated minimum by less than the uncertainty", func(c *known.Case) bool { return nearestMinimum(c) != nil }),
		Absolute: true, Kind: OfCompression, Weigh: func(c *known.Case, s known.Subject) []Voice {
			if c.AnyLow(s.Cylinders) { // no gauge, and no cold, lowers one beside the others
				return nil
			}
			return slices.Concat(common("gauge-reads-low", "cold-engine", "wear"), byGauge(c))
		}, Say: nearMinimum, Headline: "too-close",
	},
	{
		Name: "outside-limit", Title: "The cylinders differ by more than a limit allows",
		Why: "Makers' limits on the difference are often tighter than the share at which a cylinder is called low. A set of which all are good by that share can still be outside the book, " +
			"and the cylinder that puts it there is worth looking at. The usual 10 % is custom and no limit: past that one it is looked at only where it stands apart.",
		Source: "US Army TM 5-3895-359-14&P (a set at 91 % of the highest that its 25 psi limit sends for examination)", Class: Single, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsCompression},
		Of:   sets("a cylinder that decides a limit on the spread, the difference or the distance from the mean, passed clear of the uncertainty or (none low) as read; without any limit 10 % of the highest, where that cylinder stands apart", decidingLimits),
		When: known.All(known.NoneDead, known.Not(known.Low), known.Not(known.ReadsHigh), known.Not(inLowBank)),
		Kind: OfCompression, Weigh: func(c *known.Case, _ known.Subject) []Voice { return ofOne(c) }, Say: outsideLimit, Headline: "outside-limit", Variants: []string{"too-close"},
	},
	{
		Name: "a-little-low", Title: "A little under the others",
		Why:    "Between even and low there is a strip where a second reading often settles it: warm, repeated, after some running. It is written down so that the next test has something to compare with.",
		Source: "common practice, no source", Class: Single, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsCompression},
		Of: oneSet("cylinders at 85 to 90 % of the reference, or too close to tell from low", func(c *known.Case) []string {
			return slices.DeleteFunc(c.Graded(diag.Watch, diag.GradeTooClose), func(n string) bool { return slices.Contains(c.GroupLow().Bank, n) })
		}),
		When: known.All(known.NoneDead, known.Not(known.UnderFloor), known.OfEngine("no limit passed, and not nearly even", func(c *known.Case) bool { return len(decidingLimits(c)) == 0 && !nearlyEven(c) })),
		Kind: OfCompression, Weigh: weighLittle, Say: aLittleLow, Headline: "a-little-low",
	},
	{
		Name: "even-above-minimum", Title: "Even, and above the stated minimum",
		Why:    "Cylinders that agree and stand clear of the maker's figure hold their pressure on the starter. How far the valves open, and what happens when it runs, this test does not show.",
		Source: "common practice, no source; the minimum is the job's", Class: Sound, About: diag.AboutEngine, Needs: []known.Need{known.NeedsCompression},
		Of: everyRead, When: known.All(
			known.OfEngine("every cylinder read and at 90 % of the reference or more, or the only one; every limit kept", func(c *known.Case) bool { return c.Sound() || aloneWhole(c) }),
			known.OfEngine("a minimum stated and kept, clear of the uncertainty", minimumsKept)),
		Kind: OfCompression, Weigh: weighClose, Say: evenAboveMinimum, Headline: "even-above-minimum", Variants: []string{"single", "under-standard", "too-close"},
	},
	{
		Name: "nearly-even", Title: "Nearly even, with nothing that stands apart",
		Why: "Sound engines scatter: with eight or twelve cylinders some are more than 10 % under the best by chance alone. Where none is under 85 % and none stands apart from the rest, " +
			"no limit of the maker's is passed and nothing asks for work.",
		Source: "common practice, no source (the usual 10 % is custom, not a limit)", Class: Sound, About: diag.AboutEngine, Needs: []known.Need{known.NeedsCompression},
		Of: everyRead, When: known.All(known.OfEngine("every cylinder read and at 85 % of the reference or more, some under 90 %, none more than 7 % of the median below the next, no limit of the job passed, no bank low", nearlyEven), known.Not(known.UnderFloor)),
		Kind: OfCompression, Say: sayNearlyEven, Headline: "nearly-even", Variants: []string{"above-minimum"},
	},
	{
		Name: "even-no-minimum", Title: "Even, with no minimum to compare with",
		Why:    "Cylinders that match each other need not be good: rings worn alike read alike. Without the maker's figure the sheet can say that the cylinders match and no more.",
		Source: "common practice, no source (the lowest within 10 % of the highest is a sound set)", Class: Sound, About: diag.AboutEngine, Needs: []known.Need{known.NeedsCompression},
		Of: everyRead, When: known.All(known.OfEngine("every cylinder read and at 90 % of the reference or more, two at least", func(c *known.Case) bool { return c.Sound() && c.Cranking().N > 1 }),
			known.OfEngine("no minimum stated", func(c *known.Case) bool { return c.Minimum() == nil }), known.Not(known.UnderFloor)),
		Kind: OfCompression, Weigh: weighClose, Say: evenNoMinimum, Headline: "even-no-minimum", Variants: []string{"expected", "ratio", "under-standard", "too-close"},
	},
}

// inLowBank is a cylinder of a bank that is low as a whole.
var inLowBank = known.OfAll("one of a bank that is low as a whole", func(c *known.Case, n string) bool { return slices.Contains(c.GroupLow().Bank, n) })

func allLow(c *known.Case, _ known.Subject) diag.Finding {
	basis, s := c.AllLow(), c.Cranking()
	f := diag.Finding{Variant: basis.Variant, Urgency: diag.CheckAgain, Confidence: diag.Fair, Facts: maps.Clone(basis.Facts)}
	f.Facts["read"], f.Facts["even"] = c.Span(s.Lowest, s.Highest), s.LowestPercentOfHighest >= known.EvenTogether
	f.Facts["count"], f.Facts["of"], f.Facts["throttle"] = s.N, len(c.Engine.Cylinders), c.ThrottleShut()
	switch {
	case basis.Variant == "expected" || basis.Variant == "ratio" || basis.Variant == "usual" || basis.Variant == "agreed":
		f.Confidence, f.Doubts = diag.Weak, []diag.Phrase{{Key: "no-maker-figure"}}
	case !basis.Clear:
		f.Confidence, f.Doubts = diag.Weak, []diag.Phrase{{Key: "near-limit"}}
	case basis.Variant == "floor":
		f.Doubts = []diag.Phrase{{Key: "no-maker-figure"}}
	}
	f.Facts["checked"] = c.CheckedSpan(s.Lowest, s.Highest)
	switch {
	case basis.Variant == "" && c.MadeLowByGauge():
		f.Variant = "by-gauge"
	case !s.Complete || s.HighestBound > 0:
		f.Headline = "all-low-so-far"
	case basis.Facts["ratioOpen"] == true:
		f.Headline = "all-low-ratio-open"
	case basis.Variant == "floor":
		f.Headline = "all-low-floor"
	}
	doubted := c.Noticed("method-incomplete") || c.Noticed("not-standard-method")
	mayBe := basis.Variant == "floor" && (c.LeftByDecompressor() || !c.Ails() && known.MayBeReleased.HoldsIn(c))
	released := known.DecompressorUnknown.HoldsIn(c) && (runsAllTheSame(c) || mayBe) // as it may be built
	if basis.Far && !released && !c.ThrottleShut() && (!doubted || basis.Variant == "floor") {
		f.Urgency = diag.ActSoon
	}
	leftByHose(c, &f)
	switch {
	case timingSlipped(c):
		f.Urgency = diag.DoNotRun
	case mayBeMistimed(c):
		f.Urgency = diag.ActSoon
	}
	return f
}

// lowAlike reports an engine with valves that is clearly low in every cylinder alike, its
// throttle open: as one reads whose camshaft turns out of step.
func lowAlike(c *known.Case) bool {
	basis := c.AllLow()
	return basis != nil && basis.Clear && c.HasValves() && c.Cranking().LowestPercentOfHighest >= known.EvenTogether && !c.ThrottleShut()
}

// lowSinceWork reports that of one whose drive of the valves came off for the work done, while
// oil brings none of the pressure back.
func lowSinceWork(c *known.Case) bool {
	return lowAlike(c) && c.DriveDisturbed() && !broughtBack(c)
}

// mayBeMistimed reports that of one of which nobody says that its valves miss its pistons.
func mayBeMistimed(c *known.Case) bool {
	return c.TimingTouched() && c.Spec.Interference != diag.No && lowSinceWork(c)
}

// timingSlipped reports an engine that reads so since something happened, or since such work,
// and whose valves can meet its pistons, as behind a belt they mostly can: the next tooth
// bends them.
func timingSlipped(c *known.Case) bool {
	met := c.Spec.Interference == diag.Yes && (known.SuddenOnset.HoldsIn(c) && lowAlike(c) || lowSinceWork(c))
	return (met || c.Spec.TimingDrive == "belt" && mayBeMistimed(c) || stoppedMistimed(c)) && !known.MarksRight.HoldsIn(c)
}

// broughtBack reports oil that brought back what cylinders lack, which no camshaft lost:
// each that was oiled rose by more than the dose alone does.
func broughtBack(c *known.Case) bool {
	least, _, tested := c.WetSpan()
	return len(tested) > 0 && least >= known.NetRise
}

// underMinimums gives, for each stated minimum that is not kept, the cylinders
// under it.
func underMinimums(c *known.Case) [][]string {
	var list [][]string
	for _, l := range passedMinimums(c) {
		list = append(list, underOf(c, l))
	}
	return list
}

func passedMinimums(c *known.Case) []*diag.LimitResult {
	var list []*diag.LimitResult
	for i := range c.Cranking().Limits {
		l := &c.Cranking().Limits[i]
		if l.Rule == string(diag.Minimum) && (l.Verdict == diag.Outside || l.Verdict == diag.TooClose && l.PastAsRead) {
			list = append(list, l)
		}
	}
	return list
}

func underOf(c *known.Case, l *diag.LimitResult) []string {
	if names := c.Under(l); len(names) > 0 {
		return names
	}
	return readAlike(c, l.Cylinder)
}

// weighBelow adds little where the cylinder is low beside the others as well:
// what that comes from is weighed by the rule that says so.
func weighBelow(c *known.Case, s known.Subject) []Voice {
	switch {
	case c.AllLow() != nil || c.AnyLow(s.Cylinders):
		return nil
	case c.MadeLowByGauge() && c.ByCheck() == diag.Within:
		return byGauge(c)
	case c.Ported():
		return append(common("wear", "head-gasket", "gauge-reads-low", "rings"), byGauge(c)...)
	case len(s.Cylinders) == 1:
		return slices.Concat(common("wear", "exhaust-valve", "gauge-reads-low", "rings", "inlet-valve", "valve-lash"), tightLash(c), weighTest(c), byGauge(c))
	}
	return slices.Concat(common("wear", "gauge-reads-low", "cam-timing", "exhaust-valve", "restricted-inlet"), weighTest(c), byGauge(c))
}

func belowMinimum(c *known.Case, s known.Subject) diag.Finding {
	limits := passedMinimums(c)
	l := limits[0]
	for _, other := range limits {
		if slices.Equal(underOf(c, other), s.Cylinders) {
			l = other
			break
		}
	}
	f := diag.Finding{Urgency: diag.ActSoon, Confidence: diag.Fair, Facts: c.LimitFacts(l)}
	f.Facts["decides"] = diag.Names(nil)
	if r := c.Cylinder(l.Cylinder); r != nil && r.Dry != nil && slices.ContainsFunc(s.Cylinders, func(n string) bool { return *c.Cylinder(n).Dry < *r.Dry }) {
		f.Facts["decides"] = diag.Names{l.Cylinder} // a lower one was read less surely
	}
	if c.Conditions.Throttle == "not sure" {
		f.Urgency = diag.CheckAgain
	}
	if !c.AnyLow(s.Cylinders) {
		leftByHose(c, &f)
	}
	if l.Verdict == diag.TooClose {
		f.Variant, f.Urgency, f.Confidence, f.Doubts = "too-close", diag.CheckAgain, diag.Weak, []diag.Phrase{{Key: "near-limit"}}
	}
	return f
}

// nearestMinimum: what a gauge reads above a minimum that read low at its own check, as
// high as that, is no nearer to it than it reads.
func nearestMinimum(c *known.Case) *diag.LimitResult {
	if known.GaugeOff(c.Gauges.Compression) < 0 {
		return nil
	}
	for i := range c.Cranking().Limits {
		if l := &c.Cranking().Limits[i]; l.Rule == string(diag.Minimum) && l.Verdict == diag.TooClose && !l.PastAsRead {
			return l
		}
	}
	return nil
}

func nearMinimum(c *known.Case, _ known.Subject) diag.Finding {
	return diag.Finding{Urgency: diag.CheckAgain, Confidence: diag.Weak, Doubts: []diag.Phrase{{Key: "near-limit"}}, Facts: c.LimitFacts(nearestMinimum(c))}
}

// decidingLimits gives the cylinders that decide the limits between cylinders
// that are passed, each once: those of the job clear of the uncertainty, else the
// first passed as read where no cylinder is low or high, else the usual one where
// something stands apart.
func decidingLimits(c *known.Case) [][]string {
	var list [][]string
	for _, l := range c.PassedLimits() {
		if !slices.ContainsFunc(list, func(names []string) bool { return slices.Contains(names, l.Cylinder) }) {
			list = append(list, readAlike(c, l.Cylinder))
		}
	}
	if len(list) > 0 || len(c.LowSet())+len(c.Graded(diag.High)) > 0 {
		return list
	}
	if l := c.PassedAsRead(); l != nil {
		return [][]string{readAlike(c, l.Cylinder)}
	}
	if l := c.UsualPassed(); l != nil && remarkable(c) {
		return [][]string{readAlike(c, l.Cylinder)}
	}
	return nil
}

// readAlike is a cylinder with all that read the very same, in the engine's
// order: which of them decides a limit is chance, and so it is of a range and what stands in
// its middle.
func readAlike(c *known.Case, name string) []string {
	of := c.Cylinder(name)
	if of == nil || of.Dry == nil {
		return []string{name}
	}
	return c.CylindersThat(func(r *diag.CylinderResult) bool {
		return r.Dry != nil && *r.Dry == *of.Dry && (r.Kind == diag.AtLeast) == (of.Kind == diag.AtLeast)
	})
}

// remarkable reports a set without low cylinders in which one stands apart all
// the same, or is low as read.
func remarkable(c *known.Case) bool {
	return c.StandsApart() != "" || c.AnyCylinder(func(r *diag.CylinderResult) bool {
		return r.Grade == diag.GradeTooClose && r.PercentOfRef < known.LowUnder
	})
}

// limitDecidedBy is the passed limit that one of some cylinders decides.
func limitDecidedBy(c *known.Case, names []string) *diag.LimitResult {
	for _, l := range append(c.PassedLimits(), c.PassedAsRead(), c.UsualPassed()) {
		if l != nil && slices.Contains(names, l.Cylinder) {
			return l
		}
	}
	return nil
}

func outsideLimit(c *known.Case, s known.Subject) diag.Finding {
	l := limitDecidedBy(c, s.Cylinders)
	f := diag.Finding{Urgency: diag.CheckAgain, Confidence: diag.Fair, Facts: c.LimitFacts(l)}
	f.Facts["usual"] = c.Cranking().DefaultLimit
	if l.Verdict == diag.TooClose {
		f.Variant, f.Confidence, f.Doubts = "too-close", diag.Weak, []diag.Phrase{{Key: "near-limit"}}
	}
	if c.Cranking().DefaultLimit && c.AllTight(s.Cylinders) { // custom is no limit, and it holds its air
		f.Urgency = diag.NoAction
	}
	return f
}

func weighLittle(c *known.Case, s known.Subject) []Voice {
	return where(!c.RelativeLimitsKept() && remarkable(c), ofOne(c))
}

// aLittleLow asks for something only where no limit of the job clears the set
// and one of it stands apart.
func aLittleLow(c *known.Case, s known.Subject) diag.Finding {
	f := lowFinding(c, s)
	f.Urgency = diag.NoAction
	if !c.RelativeLimitsKept() && remarkable(c) {
		f.Urgency = diag.CheckAgain
	}
	if slices.ContainsFunc(s.Cylinders, func(n string) bool { return c.Grade(n) == diag.GradeTooClose }) {
		f.Confidence, f.Doubts = diag.Weak, []diag.Phrase{{Key: "near-limit"}}
	}
	return f
}

// nearlyEven reports a whole set without a low cylinder, some of it under even,
// of which nothing stands apart and no limit of the job is passed.
func nearlyEven(c *known.Case) bool {
	s := c.Cranking()
	little := len(c.Graded(diag.Watch, diag.GradeTooClose))
	if !s.Complete || c.Dead() || little == 0 || little+len(c.Graded(diag.Even)) < len(c.Engine.Cylinders) || remarkable(c) || c.LowBank() >= 0 {
		return false
	}
	return len(c.PassedLimits()) == 0 && c.PassedAsRead() == nil && (c.Minimum() == nil || minimumsKept(c))
}

func sayNearlyEven(c *known.Case, _ known.Subject) diag.Finding {
	f := diag.Finding{Urgency: diag.NoAction, Confidence: diag.Fair, Facts: diag.Facts{}}
	evenFacts(c, &f)
	f.Facts["median"] = c.Cranking().N > known.FewestForMedian
	f.Variant, f.Urgency, f.Confidence, f.Headline = "", diag.NoAction, diag.Fair, ""
	if m := c.Minimum(); m != nil {
		f.Variant = "above-minimum"
		f.Facts["minimum"] = c.LimitFacts(m)["limit"]
	}
	return f
}

// aloneWhole reports the reading of an engine of one cylinder.
func aloneWhole(c *known.Case) bool { return len(c.Engine.Cylinders) == 1 && c.Cranking().N == 1 }

func evenAboveMinimum(c *known.Case, _ known.Subject) diag.Finding {
	f := diag.Finding{Urgency: diag.NoAction, Confidence: diag.Fair, Facts: c.LimitFacts(c.Minimum())}
	f.Facts["higher"] = c.AboveByCheck(c.Minimum())
	if aloneWhole(c) {
		f.Variant = "single"
	}
	evenFacts(c, &f)
	if f.Variant == "" && c.UnderStandard() {
		f.Variant, f.Facts["standard"] = "under-standard", c.Cranking().Standard.Entered
	}
	return f
}

func evenNoMinimum(c *known.Case, _ known.Subject) diag.Finding {
	s := c.Cranking()
	f := diag.Finding{Urgency: diag.NoAction, Confidence: diag.Fair, Facts: diag.Facts{"standard": "", "expected": "", "leakage": c.Has(known.NeedsLeakage)}}
	evenFacts(c, &f)
	e := s.Expected
	switch {
	case f.Variant != "":
	case c.UnderStandard():
		f.Variant, f.Facts["standard"] = "under-standard", s.Standard.Entered
	case e != nil && s.Lowest >= e.Low && s.Highest <= e.High:
		f.Variant, f.Facts["expected"] = "expected", c.Span(e.Low, e.High)
		if e.ByRatio {
			f.Variant = "ratio"
		}
	}
	return f
}

// evenFacts are the numbers of an even set. Where a limit of the job is nearer
// than the gauge can tell it is tested once more.
func evenFacts(c *known.Case, f *diag.Finding) {
	s := c.Cranking()
	f.Facts["read"] = c.Span(s.Lowest, s.Highest)
	f.Facts["percent"] = known.Percent(s.LowestPercentOfHighest, 0)
	f.Facts["count"] = s.N
	if !c.HasEarlierOrLimit() {
		f.Doubts = []diag.Phrase{{Key: "no-maker-figure"}}
	}
	if l := c.CloseLimit(); l != nil {
		f.Variant, f.Urgency, f.Confidence, f.Headline = "too-close", diag.CheckAgain, diag.Weak, "too-close"
		f.Doubts = append(f.Doubts, diag.Phrase{Key: "near-limit"})
		maps.Copy(f.Facts, c.LimitFacts(l))
	}
}
