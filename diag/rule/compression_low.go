package rule

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
)

// lowByMostBooks is the percent of the reference under which most books call a
// cylinder low: US Army TM 5-4210-230-14&P-1, Addendum No. 2.
const lowByMostBooks = 75

// urgencyOf gives how soon low cylinders should be seen to.
func (c *Case) urgencyOf(names []string) diag.Urgency {
	urgency := diag.CheckAgain
	if c.nothingRead() {
		return diag.DoNotRun
	}
	for _, name := range names {
		r := c.Cylinder(name)
		switch {
		case r.Grade == diag.NoPressure:
			return diag.DoNotRun
		case r.Grade == diag.VeryLow, r.Grade == diag.Low && r.PercentOfRef < lowByMostBooks && !c.relativeLimitsKept():
			urgency = diag.ActSoon
		}
	}
	return urgency
}

// lowFacts are the numbers of low cylinders beside the others.
func (c *Case) lowFacts(names []string) diag.Facts {
	low, high := c.spread(names)
	worst := c.Cylinder(names[0])
	for _, n := range names {
		if r := c.Cylinder(n); r.PercentOfRef < worst.PercentOfRef {
			worst = r
		}
	}
	facts := diag.Facts{
		"read": c.span(low, high), "others": "", "reference": c.pressure(c.Sums.Compression.Reference),
		"percent": percent(worst.PercentOfRef, 0), "u": percent(worst.UPercent, 1), "worst": worst.Name, "pair": len(c.others(names)) == 1,
	}
	others := slices.DeleteFunc(c.others(names), func(n string) bool { return c.Grade(n).IsLow() })
	if len(others) == 0 {
		others = c.others(names)
	}
	if len(others) > 0 {
		facts["others"] = c.span(c.spread(others))
	}
	return facts
}

// span prints a range of pressures, or one where both print the same.
func (c *Case) span(low, high float64) string {
	l, h := c.pressure(low), c.pressure(high)
	if l.String() == h.String() {
		return h.String()
	}
	return quantity.Format(low, l.Decimals) + "–" + h.String()
}

// lowFinding is what findings of low cylinders have in common: urgency,
// confidence, causes weighed by what else is known, and what speaks against
// the first of them.
func (c *Case) lowFinding(rule string, names []string, w *causes) diag.Finding {
	f := c.finding(rule, names, c.lowFacts(names))
	f.Urgency = c.urgencyOf(names)
	for _, n := range names {
		if r := c.Cylinder(n); r.Kind == diag.Estimate || r.Kind == diag.Band {
			f.Confidence = diag.Weak
			f.Doubts = phrases("estimated")
		}
	}
	f.Causes = w.top()
	if len(f.Causes) > 0 {
		f.Against = c.against(f.Causes[0].Key, names)
	}
	return f
}

// wetIsOfUse reports whether a wet test would tell anything here.
func (c *Case) wetIsOfUse(names []string) bool {
	if noWetTest(c) || len(c.Engine.Cylinders) < 2 || c.Compression.WetInWords != "" {
		return false
	}
	wet := slices.ContainsFunc(names, func(n string) bool { return c.Cylinder(n).Wet != nil })
	return !wet && slices.ContainsFunc(names, func(n string) bool { return !c.far(n) })
}

// leakageKnown reports that all of these cylinders were tested for leakage.
func (c *Case) leakageKnown(names []string) bool {
	return !slices.ContainsFunc(names, func(n string) bool { return c.Leak(n) == nil })
}

// nextForLow is the check that tells the causes of a low cylinder apart: the
// cheap ones first, and none that was made.
func (c *Case) nextForLow(names []string) *diag.Check {
	var keys []string
	add := func(is bool, more ...string) {
		if is {
			keys = append(keys, more...)
		}
	}
	known := c.leakageKnown(names)
	switch {
	case c.allTight(names):
		add(!c.Spec.TwoStroke, "watch-valve-gear", "running-compression", "cam-timing-marks")
	case known:
		add(c.losesAt(names, "exhaust") && !c.Spec.TwoStroke, "valve-lash")
		add(c.losesAt(names, "coolant"), "cooling-pressure-test", "coolant-gas-test")
		add(true, "borescope")
	default:
		add(c.Spec.Diesel(), "valve-lash")
		add(c.stood() && len(c.wetTested()) == 0 && !c.anyFar(names), "run-and-retest")
		add(c.wetIsOfUse(names), "wet-test")
		add(true, "leak-down", "borescope")
	}
	return c.next(names, keys...)
}

// anyFar reports a cylinder so far down that the engine is not run to see
// whether it recovers.
func (c *Case) anyFar(names []string) bool { return slices.ContainsFunc(names, c.far) }

func (c *Case) far(name string) bool {
	g := c.Grade(name)
	return g == diag.VeryLow || g == diag.NoPressure
}

func (c *Case) losesAt(names []string, place string) bool {
	return slices.ContainsFunc(names, func(n string) bool {
		l := c.Leak(n)
		return l != nil && slices.Contains(l.At, place)
	})
}

// weighSingle starts from what one low cylinder commonly comes from.
func (c *Case) weighSingle() *causes {
	switch {
	case c.Spec.TwoStroke:
		return weigh("rings", "piston", "head-gasket", "scored-bore")
	case c.Spec.Diesel():
		return weigh("valve-lash", "exhaust-valve", "rings", "head-gasket")
	}
	return weigh("exhaust-valve", "rings", "inlet-valve", "valve-lash", "valve-motion", "head-gasket", "warped-or-cracked-head")
}

func oneLow(c *Case) []diag.Finding {
	g := c.groupLow()
	if len(g.single) != 1 {
		return nil
	}
	w := c.weighSingle()
	c.evidence(w, g.single[0])
	f := c.lowFinding("one-low", g.single, w)
	f.Next = c.nextForLow(g.single)
	return []diag.Finding{f}
}

func scatteredLow(c *Case) []diag.Finding {
	g := c.groupLow()
	if len(g.single) < 2 {
		return nil
	}
	w := weigh("fault-in-each", "shared-by-place", "wear")
	w.addIf(c.mostLow() && !c.stood(), known, "wear")
	w.addIf(c.all(g.single, wetRises), wet, "rings")
	w.addIf(c.stood(), known, "stuck-valve")
	w.addIf(c.stood(), hint, "stuck-rings")
	f := c.lowFinding("scattered-low", g.single, w)
	f.Next = c.nextForLow(g.single)
	return []diag.Finding{f}
}

// all reports that oil did the same to all of these cylinders.
func (c *Case) all(names []string, outcome wetOutcome) bool {
	return !slices.ContainsFunc(names, func(n string) bool { return c.wetEvidence(n) != outcome })
}

// weighNeighbours starts from what low neighbours commonly come from, and adds
// what both of them show.
func (c *Case) weighNeighbours(run []string) *causes {
	w := weigh("head-gasket", "warped-or-cracked-head", "fault-in-each")
	w.addIf(c.mostLow() && !c.stood(), known, "wear")
	w.addIf(c.all(run, wetRises), heard, "rings")
	w.addIf(c.all(run, wetFlat), dryUp, "head-gasket", "warped-or-cracked-head")
	w.addIf(c.losesAt(run, "neighbour"), heard, "head-gasket", "warped-or-cracked-head")
	w.addIf(c.losesAt(run, "coolant"), known, "head-gasket", "warped-or-cracked-head")
	w.addIf(c.leakApart(run), heard, "fault-in-each")
	w.addIf(c.stood() && !c.Spec.TwoStroke, known, "stuck-valve")
	w.addIf(c.CoolantGas == "positive", known, "head-gasket")
	return w
}

// leakApart reports that neighbours lose their air at different places, none
// of them into each other.
func (c *Case) leakApart(run []string) bool {
	if !c.leakageKnown(run) || c.losesAt(run, "neighbour") {
		return false
	}
	first := c.Leak(run[0]).At
	return slices.ContainsFunc(run[1:], func(n string) bool { return !slices.Equal(c.Leak(n).At, first) })
}

func neighboursLow(c *Case) []diag.Finding {
	var list []diag.Finding
	for _, run := range c.groupLow().runs {
		f := c.lowFinding("neighbours-low", run, c.weighNeighbours(run))
		if len(run) > 2 {
			f.Variant = "several"
		}
		f.Next = c.nextForPair(run)
		list = append(list, f)
	}
	return list
}

// nextForPair is the check that tells a leak between neighbours from a fault
// in each: air into one, heard at the other.
func (c *Case) nextForPair(run []string) *diag.Check {
	if c.leakageKnown(run) {
		return c.next(run, "coolant-gas-test", "borescope")
	}
	if c.stood() && !c.anyFar(run) && len(c.wetTested()) == 0 {
		return c.next(run, "run-and-retest", "leak-down-pair")
	}
	if c.mostLow() && c.wetIsOfUse(run) {
		return c.next(run, "wet-test", "leak-down")
	}
	return c.next(run, "leak-down-pair", "coolant-gas-test", "borescope")
}

func bankLow(c *Case) []diag.Finding {
	g := c.groupLow()
	if g.bank == nil {
		return nil
	}
	w := weigh("cam-timing", "restricted-inlet", "head-gasket")
	if c.Spec.TwoStroke {
		w = weigh("restricted-inlet", "head-gasket", "wear")
	}
	w.addIf(c.allTight(g.bank) && !c.Spec.TwoStroke, heard, "cam-timing")
	w.addIf(c.losesAt(g.bank, "neighbour") || c.losesAt(g.bank, "coolant"), heard, "head-gasket")
	w.addIf(c.all(g.bank, wetRises), wet, "rings")
	f := c.lowFinding("bank-low", g.bank, w)
	low := slices.ContainsFunc(g.bank, func(n string) bool { return c.Grade(n).IsLow() })
	switch {
	case !low:
		f.Variant = "a-little"
	case f.Urgency == diag.CheckAgain:
		f.Urgency = diag.ActSoon
	}
	f.Facts["others"] = c.span(c.spread(c.others(g.bank)))
	f.Facts["bank"] = c.bankLabel(g.bankIndex)
	if !slices.ContainsFunc(g.bank, func(n string) bool { return c.Grade(n) != diag.NoPressure }) {
		f.Variant, f.Causes = "without-pressure", phrases("timing-drive", "bent-valve", "cam-timing")
	}
	f.Next = c.next(g.bank, "cam-timing-marks", "leak-down")
	if c.Spec.TwoStroke {
		f.Next = c.next(g.bank, "leak-down", "borescope")
	}
	return []diag.Finding{f}
}

func outOfTightPack(c *Case) []diag.Finding {
	low := c.LowSet()
	if len(low) != 1 || c.dead() || !c.relativeLimitsKept() {
		return nil
	}
	others := c.others(low)
	if len(others) < 2 {
		return nil
	}
	if l, h := c.spread(others); h <= 0 || l < 0.9*h {
		return nil
	}
	w := c.weighSingle()
	c.evidence(w, low[0])
	f := c.lowFinding("one-out-of-tight-pack", low, w)
	f.Urgency = diag.CheckAgain
	f.Next = c.nextForLow(low)
	return []diag.Finding{f}
}

// relativeLimitsKept reports that the job states limits between cylinders and
// that every one of them is kept.
func (c *Case) relativeLimitsKept() bool {
	s := c.Sums.Compression
	relative := 0
	for _, l := range s.Limits {
		if l.Rule == string(diag.Minimum) {
			continue
		}
		if l.Verdict != diag.Within {
			return false
		}
		relative++
	}
	return relative > 0 && !s.DefaultLimit
}
