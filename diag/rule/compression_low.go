package rule

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// lowRules recognise cylinders that are low beside the others: a bank, a run of
// neighbours, some, one.
var lowRules = []Rule{
	{
		Name: "bank-low", Title: "One bank is low as a whole",
		Why: "Three or four separate faults do not choose one side of an engine. What one bank has to itself is its intake, its head and gasket, how well the gauge could be fitted, and, where it has a camshaft " +
			"of its own, that camshaft's timing. Late timing lowers every cylinder of it by about the same and comes suddenly. One camshaft for both banks cannot be late for one of them.",
		Source: "common practice, no source", Class: Group, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsCompression},
		Of: oneSet("all cylinders read of one of two banks (two at least in each)", func(c *known.Case) []string { return c.GroupLow().Bank }),
		When: known.Is("every one under every one of the other bank by more than two readings can differ by chance, none of them even, and half of them low; or all a little low and the banks 7 % of the median apart",
			func(c *known.Case, s known.Subject) bool { return len(s.Cylinders) > 0 }),
		Kind: OfCompression, Weigh: weighBank, Say: bankLow, Headline: "bank-low", Variants: []string{"without-pressure", "a-little"},
	},
	{
		Name: "neighbours-low", Title: "Neighbours are low",
		Why: "Two low cylinders side by side share the strip of gasket between them and the piece of head above it. Either can leak, by a burnt gasket or by a head that warped or cracked; " +
			"and two neighbours can each have a fault of their own. Pressure alone does not tell these apart.",
		Source: "US Army Ordnance subcourse OD1001, p. 91-92, and US Army TM 10-3930-647-14&P, para 4-40 (two adjacent cylinders low: head gasket)", Class: Group, About: diag.AboutCylinders,
		Needs: []known.Need{known.NeedsCompression},
		Of:    sets("two cylinders or more side by side under one head gasket, not all of them dead", func(c *known.Case) [][]string { return c.GroupLow().Runs }),
		When:  known.Low, Kind: OfCompression, Weigh: weighSomeDead, Say: neighboursLow, Headline: "neighbours-low", Variants: []string{"several"},
	},
	{
		Name: "most-low", Title: "Most of the engine's cylinders are low",
		Why: "One gasket or one valve does not lower most of an engine. Where more than half of the cylinders are low and none is dead, the few that read well are the odd ones: what the others share, " +
			"wear, washed or dry bores, how the test was made, comes before a fault of each, and before the gaskets between them.",
		Source: "US Army Ordnance subcourse OD1001, p. 91-92 (all or several low: rings or valves worn)", Class: Group, About: diag.AboutEngine, Ties: []diag.About{diag.AboutCylinders},
		Needs: []known.Need{known.NeedsCompression},
		Of:    oneSet("the low cylinders", (*known.Case).LowSet),
		When: known.All(known.OfEngine("more than half of the engine's cylinders low, three at least", func(c *known.Case) bool { return c.MostLow() && len(c.LowSet()) > 2 }),
			known.OfEngine("none of them dead", func(c *known.Case) bool { return !hasDead(c, c.LowSet()) }),
			known.OfEngine("not one bank as a whole", func(c *known.Case) bool { return c.GroupLow().Bank == nil })),
		Kind: OfCompression, Weigh: weighMost, Say: lowFinding, Headline: "most-low",
		SaysBetterThan: []string{"neighbours-low", "scattered-low", "one-low"},
	},
	{
		Name: "scattered-low", Title: "Low cylinders that are no neighbours",
		Why: "Cylinders apart from each other share no gasket. They have a fault each, or something that reaches them by their place: the ends of a row far from oil and coolant, the lean runners of one manifold. " +
			"The leakage test on each says which.",
		Source: "common practice, no source", Class: Group, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsCompression},
		Of: oneSet("two cylinders or more, none beside another low one under the same gasket", func(c *known.Case) []string {
			if g := c.GroupLow(); len(g.Single) > 1 {
				return g.Single
			}
			return nil
		}),
		When: known.Low, Kind: OfCompression, Weigh: weighScattered, Say: lowFinding, Headline: "scattered-low",
	},
	{
		Name: "one-low", Title: "One cylinder is low",
		Why: "Pressure escapes past the valves, past the rings, or through the gasket to coolant or the outside; or less air came in because a valve does not open as it should. " +
			"Of these a leaking exhaust valve is the commonest. What oil changes, and where air is heard, tells them apart.",
		Source: "US Army TM 10-3930-647-14&P, para 4-40 (below normal: leak at head gasket, rings or valves)", Class: Single, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsCompression},
		Of: oneSet("one cylinder without a low neighbour", oneSingle), When: known.All(known.Low, known.Not(outOfTightPack)),
		Kind: OfCompression, Weigh: weighOne, Say: oneLow, Headline: "one-low", Variants: []string{"bounded"},
	},
	{
		Name: "low-by-every-repeat", Title: "A cylinder whose repeats disagree, and which is low by each of them",
		Why:    "Repeats that lie far apart are not averaged, and the figure stays open. Where the best of them is low as well, that the cylinder is low is not: it is followed up as such.",
		Source: "common practice, no source", Class: Single, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsCompression},
		Of: eachCylinder, When: known.ReadsLowByEvery,
		Kind: OfCompression, Weigh: func(c *known.Case, _ known.Subject) []Voice { return append(ofOne(c), common("sticking-valve")...) },
		Say: lowByEvery, Headline: "one-low",
	},
	{
		Name: "low-by-itself", Title: "The only cylinder read is under what nearly any engine of its kind gives",
		Why: "One reading says nothing of the rest, but it can say enough of itself: hardly any engine of its kind gives so little. It is followed up, and the others are read beside it, " +
			"since what lowers all of them looks the same on one.",
		Source: "common practice, no source (the floor: see all-low)", Class: Single, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsCompression},
		Of: oneSet("the only cylinder read of several", (*known.Case).Read), When: known.OfEngine("under what nearly any engine of its kind gives, a complaint of misfiring, low power, hard starting or oil use, no minimum stated, the throttle not shut", func(c *known.Case) bool { return c.LoneUnderFloor() != nil }),
		Kind: OfCompression, Weigh: weighOne, Say: lowByItself, Headline: "low-by-itself", Absolute: true,
	},
	{
		Name: "one-out-of-tight-pack", Title: "One is apart from an otherwise even set, inside the limit",
		Why:    "A limit of 25 % is wide. Where all but one agree closely, the one that does not has changed, even if the maker still allows it. It is no fault by the maker's rule; it is worth a second look.",
		Source: "common practice, no source", Class: Single, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsCompression},
		Of: oneSet("one cylinder without a low neighbour", oneSingle), When: outOfTightPack,
		Kind: OfCompression, Weigh: weighOne, Say: tightPack, Headline: "one-out",
	},
}

func oneSingle(c *known.Case) []string {
	if g := c.GroupLow(); len(g.Single) == 1 {
		return g.Single
	}
	return nil
}

// outOfTightPack is one that is low, but not very, in a set that keeps every
// limit between cylinders that the job states.
var outOfTightPack = known.OfAll("50 to 85 % of the reference, the only low one, the others (two at least) within 10 % of each other, and every limit between cylinders that the job states kept",
	func(c *known.Case, n string) bool {
		others := c.Others([]string{n})
		if c.Grade(n) != diag.Low || len(c.LowSet()) != 1 || !c.RelativeLimitsKept() || len(others) < 2 {
			return false
		}
		low, high := c.Spread(others)
		return high > 0 && low >= 0.9*high
	})

// weighOne starts from what one low cylinder commonly comes from. One of a set
// that is shut down at light load may have a lifter that stayed slack.
func weighOne(c *known.Case, s known.Subject) []Voice {
	return slices.Concat(ofOne(c), where(slices.Contains(c.Spec.Deactivates, s.Name()), as(OfHistory, speaks(Known, "deactivation-lifter"))))
}

func oneLow(c *known.Case, s known.Subject) diag.Finding {
	f := lowFinding(c, s)
	if c.Cylinder(s.Name()).AtMost {
		f.Variant = "bounded"
	}
	return f
}

// lowByEvery is as urgent as the best of the repeats is low.
func lowByEvery(c *known.Case, s known.Subject) diag.Finding {
	f := diag.Finding{Urgency: diag.ActSoon, Confidence: diag.Weak, Doubts: []diag.Phrase{{Key: "repeats-disagree"}}}
	var repeats, parts []float64
	best := 0.0
	for _, n := range s.Cylinders {
		low, high, _ := c.LowByEvery(n)
		repeats, parts, best = append(repeats, c.Cylinder(n).DryReadings...), append(parts, low, high), max(best, high)
	}
	if best >= lowByMostBooks {
		f.Urgency = diag.CheckAgain
	}
	f.Facts = diag.Facts{"read": c.Span(slices.Min(repeats), slices.Max(repeats)), "percent": known.Percents(slices.Min(parts), slices.Max(parts)), "reference": c.Pressure(c.Cranking().Reference).String()}
	return f
}

func lowByItself(c *known.Case, _ known.Subject) diag.Finding {
	basis := c.LoneUnderFloor()
	f := diag.Finding{Urgency: diag.CheckAgain, Confidence: diag.Weak, Facts: basis.Facts, Doubts: []diag.Phrase{{Key: "no-maker-figure"}}}
	f.Facts["read"] = c.Pressure(c.Cranking().Highest).String()
	if basis.Far {
		f.Urgency = diag.ActSoon
	}
	return f
}

func tightPack(c *known.Case, s known.Subject) diag.Finding {
	f := lowFinding(c, s)
	f.Urgency = diag.CheckAgain
	return f
}

func weighScattered(c *known.Case, s known.Subject) []Voice {
	return slices.Concat(common("fault-in-each", "shared-by-place", "exhaust-valve", "rings", "wear"),
		where(c.MostLow() && !c.Stood() && !hasDead(c, s.Cylinders), speaks(Known, "wear")),
		where(c.AllWet(s.Cylinders, known.WetRises), as(OfCompression, speaks(Wet, "rings"))),
		where(c.Stood(), as(OfHistory, append(speaks(Known, "stuck-valve"), speaks(Hint, "stuck-rings")...))))
}

// asGoodAgain is how many times what one of two makes is more than what a leak between them would
// leave it: judgement, no source.
const asGoodAgain = 2

// unequalLow reports two neighbours of which one makes far more than another, and none was heard to
// lose its air to the other: what leaks between two takes about as much from both.
func unequalLow(c *known.Case, run []string) bool {
	low, high := 0.0, 0.0
	for i, n := range run {
		r := c.Cylinder(n)
		if r == nil || r.Dry == nil || c.LeaksAt(n, known.AtNeighbour) {
			return false
		}
		if high = max(high, *r.Dry); i == 0 || *r.Dry < low {
			low = *r.Dry
		}
	}
	return len(run) == 2 && high > asGoodAgain*low
}

// weighNeighbours starts from what low neighbours commonly come from, and adds
// what all of them show.
func weighNeighbours(c *known.Case, s known.Subject) []Voice {
	run := s.Cylinders
	return slices.Concat(common("head-gasket", "warped-or-cracked-head", "fault-in-each", "exhaust-valve", "rings"),
		where(c.MostLow() && !c.Stood() && !hasDead(c, run), speaks(Known, "wear")),
		where(c.AllWet(run, known.WetRises), as(OfCompression, append(speaks(Heard, "rings"), denies(Known, "rose-with-oil", "head-gasket", "warped-or-cracked-head")...))),
		where(c.AllWet(run, known.WetFlat), speaks(DryUp, "head-gasket", "warped-or-cracked-head")),
		where(unequalLow(c, run), denies(DryUp, "unequal-low", "head-gasket", "warped-or-cracked-head")),
		where(c.LeakApart(run), as(OfLeakage, append(speaks(Heard, "fault-in-each"), denies(Known, "leak-apart", "head-gasket", "warped-or-cracked-head")...))),
		where(c.Stood(), as(OfHistory, append(speaks(Known, "stuck-valve"), speaks(Hint, "stuck-rings")...))))
}

// weighSomeDead is weighNeighbours for a run of which some may be dead: where the whole
// engine stopped, what drives its valves comes before the gasket.
func weighSomeDead(c *known.Case, s known.Subject) []Voice {
	return append(weighNeighbours(c, s), where(hasDead(c, s.Cylinders) && c.DriveMayHaveLetGo(), valvesHit(c))...)
}

// weighMost starts from what lowers most of an engine unevenly.
func weighMost(c *known.Case, s known.Subject) []Voice {
	return slices.Concat(common("wear", "fault-in-each", "cam-timing", "exhaust-valve"), timingTouched(c),
		where(c.Stood(), as(OfHistory, append(speaks(Known, "dry-bores", "stuck-rings"), speaks(DryUp, "stuck-valve")...))),
		where(c.Flooded() || c.Complains("no start", "rich running"), as(OfHistory, speaks(DryUp, "washed-bore"))),
		where(c.AllWet(s.Cylinders, known.WetRises), as(OfCompression, speaks(Wet, "wear", "washed-bore"))))
}

// underHalf is the percent of the reference under which two that were hot lose their charge to
// each other: judgement, no source.
const underHalf = 50

// blownAcross reports neighbours under one gasket that make less than half of what the others
// do, in an engine that overheated: what blows across the gasket cuts the metal with each mile.
func blownAcross(c *known.Case, names []string) bool {
	return c.CoolantHot() && c.HasValves() && c.ShareHead(names) && !slices.ContainsFunc(names, func(n string) bool {
		r := c.Cylinder(n)
		elsewhere := c.Leak(n) != nil && !c.LeaksAt(n, known.AtNeighbour)
		return r == nil || r.Dry == nil || r.PercentOfRef >= underHalf || elsewhere
	})
}

func neighboursLow(c *known.Case, s known.Subject) diag.Finding {
	f := lowFinding(c, s)
	if len(s.Cylinders) > 2 {
		f.Variant = "several"
	}
	f.Facts["torched"] = false
	stopIfTorched(c, s, &f)
	return f
}

// stopIfTorched stops an engine for neighbours whose charge blows across the gasket, whatever
// else agrees that it does.
func stopIfTorched(c *known.Case, s known.Subject, f *diag.Finding) {
	if blownAcross(c, s.Cylinders) {
		f.Urgency, f.Facts["torched"] = diag.DoNotRun, true
	}
}

// weighBank starts from what a bank has to itself: the timing of its camshaft
// where that is its own, its inlet, its gasket where its cylinders share one, and
// how well the gauge could be fitted there.
func weighBank(c *known.Case, s known.Subject) []Voice {
	own := c.HasValves() && !c.OneCamshaft()
	dead := known.Dead.Holds(c, s)
	weight := rarer // one gasket seldom spoils a whole bank, and often two neighbours
	if len(s.Cylinders) == 2 {
		weight = commonest - rarer
	}
	gasket := where(c.ShareHead(s.Cylinders), speaks(weight, "head-gasket", "warped-or-cracked-head"))
	list := slices.Concat(common("restricted-inlet", "wear"), gasket, speaks(Hint/2, "adapter-leak"))
	switch {
	case dead && own:
		list = append(common("timing-drive", "bent-valve", "cam-timing", "valve-motion"), gasket...)
	case dead:
		list = append(common("valve-motion", "bent-valve", "fault-in-each"), gasket...)
	case c.Ported():
		list = append(common("restricted-inlet", "crankcase-seal", "wear"), gasket...)
	case own:
		list = slices.Concat(common("cam-timing", "restricted-inlet", "wear"), gasket, speaks(Hint/2, "adapter-leak"))
	}
	return slices.Concat(list, where(own && dead, valvesHit(c)),
		where(own && c.Spec.VariableTiming == diag.Yes, as(OfHistory, speaks(commonest-rarer, "cam-phaser"))),
		where(own, timingTouched(c)),
		where(own && fellAlone(c, s.Cylinders), as(OfEarlier, speaks(Heard, "cam-timing"))),
		where(own && known.SuddenOnset.Holds(c, s), as(OfHistory, speaks(Hint, "cam-timing", "timing-drive"))),
		where(!dead && testedLast(c, s.Cylinders), as(OfTest, speaks(DryUp, "weak-cranking"))),
		where(c.OneCamshaft(), as(OfHistory, denies(Heard, "one-camshaft", "cam-timing", "cam-phaser"))),
		where(c.AllTight(s.Cylinders) && own, as(OfLeakage, speaks(Heard, "cam-timing"))),
		where(c.AllTight(s.Cylinders), as(OfLeakage, denies(Heard, "holds-air", "head-gasket", "warped-or-cracked-head", "wear"))),
		where(c.LosesAt(s.Cylinders, known.AtNeighbour) || c.LosesAt(s.Cylinders, known.AtCoolant), as(OfLeakage, speaks(Heard, "head-gasket"))),
		where(c.AllWet(s.Cylinders, known.WetRises), as(OfCompression, append(speaks(Wet, "rings", "wear"), denies(Known, "rose-with-oil", "cam-timing", "head-gasket")...))))
}

// testedLast reports cylinders tested after all the others, without a charger
// and no voltage read: a battery that runs down lowers just these.
func testedLast(c *known.Case, names []string) bool {
	order := c.Compression.Order
	if len(order) < len(names) || c.Conditions.Battery.Charger == diag.Yes || c.Conditions.Battery.CrankingV != nil {
		return false
	}
	last := order[len(order)-len(names):]
	return !slices.ContainsFunc(names, func(n string) bool { return !slices.Contains(last, n) })
}

// fellAlone reports cylinders that all fell since an earlier test while none of
// the others did.
func fellAlone(c *known.Case, names []string) bool {
	fell := func(n string) bool { r := c.Cylinder(n); return r.Change != nil && *r.Change < -r.ChangeU }
	return !slices.ContainsFunc(names, func(n string) bool { return !fell(n) }) && !slices.ContainsFunc(c.Others(names), fell)
}

// bankSlipped reports a bank with camshafts of its own, low since something happened to
// what drives them, in an engine whose valves can meet its pistons: the next tooth bends
// them.
func bankSlipped(c *known.Case) bool {
	return c.HasValves() && c.Spec.Interference == diag.Yes && !c.OneCamshaft() && (c.TimingTouched() || known.SuddenOnset.HoldsIn(c))
}

func bankLow(c *known.Case, s known.Subject) diag.Finding {
	f := lowFinding(c, s)
	switch {
	case !c.AnyLow(s.Cylinders):
		f.Variant = "a-little"
	case bankSlipped(c):
		f.Urgency = diag.DoNotRun
	case f.Urgency == diag.CheckAgain:
		f.Urgency = diag.ActSoon
	}
	if known.Dead.Holds(c, s) {
		f.Variant, f.Headline = "without-pressure", "bank-without-pressure"
	}
	f.Facts["bank"] = c.BankLabel(c.GroupLow().BankIndex)
	return f
}

// onTheFall reports cylinders that read what a battery that runs down, or a gauge that begins
// to leak, makes of sound ones: nothing that they share is looked for until the test was made
// again.
func onTheFall(c *known.Case, names []string) bool {
	n := c.NoticeOf("falls-in-test-order")
	if n == nil {
		return false
	}
	order, _ := n.Facts["order"].(diag.Names)
	return c.OnTheFall(order, names)
}
