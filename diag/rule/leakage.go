package rule

import (
	"slices"
	"strings"

	"gaugesheet/diag"
)

// Bands of leakage for display where no limit of the maker or of the tester is
// given, in percent of the supply: common practice, no source. There is no
// standard orifice outside aviation, so figures compare only with the same
// tester's.
const (
	goodLoss   = 10.0
	wornLoss   = 20.0
	actLoss    = 30.0
	overMedian = 10.0 // points; a cylinder that far from the others stands out
)

// A leakPlace is a place where air escapes and what it means there.
type leakPlace struct {
	rule, at       string
	always         bool // worth saying however small the loss
	together       bool // cylinders in a row leak into each other: one finding
	valve          bool // a valve seldom gets better: sooner than a piston ring
	causes, checks []string
	twoStroke      []string // causes in an engine whose piston opens the port
}

var (
	atExhaust = leakPlace{rule: "leaks-at-exhaust", at: "exhaust", valve: true,
		causes: []string{"exhaust-valve", "valve-lash", "carbon-on-seat"}, twoStroke: []string{"rings", "stuck-rings", "scored-bore"},
		checks: []string{"valve-lash", "leak-down-again", "borescope"}}
	atInlet = leakPlace{rule: "leaks-at-inlet", at: "inlet", valve: true,
		causes: []string{"inlet-valve", "carbon-on-seat", "valve-lash"}, twoStroke: []string{"rings", "scored-bore", "piston"},
		checks: []string{"valve-lash", "leak-down-again", "borescope"}}
	atCrankcase = leakPlace{rule: "leaks-to-crankcase", at: "crankcase",
		causes: []string{"rings", "scored-bore", "piston"}, twoStroke: []string{"rings", "scored-bore", "piston"},
		checks: []string{"leak-down-again", "borescope", "run-and-retest"}}
	atCoolant = leakPlace{rule: "leaks-to-coolant", at: "coolant", always: true, valve: true,
		causes: []string{"head-gasket", "warped-or-cracked-head", "cracked-bore"}, twoStroke: []string{"head-gasket", "warped-or-cracked-head"},
		checks: []string{"coolant-gas-test", "cooling-pressure-test", "borescope"}}
	atNeighbour = leakPlace{rule: "leaks-to-neighbour", at: "neighbour", always: true, together: true, valve: true,
		causes: []string{"head-gasket", "warped-or-cracked-head"}, twoStroke: []string{"head-gasket", "warped-or-cracked-head"},
		checks: []string{"leak-down-pair", "coolant-gas-test", "borescope"}}
	atOutside = leakPlace{rule: "leaks-outside", at: "outside",
		causes: []string{"plug-or-adapter-thread", "head-gasket"}, twoStroke: []string{"plug-or-adapter-thread", "head-gasket"},
		checks: []string{"soap-joints", "leak-down-again"}}

	leakPlaces = []leakPlace{atExhaust, atInlet, atCrankcase, atCoolant, atNeighbour, atOutside}
)

var leakageRules = []Rule{
	{
		Name:    atNeighbour.rule,
		Title:   "Air escapes into the cylinder beside it",
		Trigger: "air heard or felt at a neighbour's plug hole, whatever the loss",
		Why: "Two cylinders side by side have only the gasket and the metal between their bores to keep them apart. Air that enters one and comes " +
			"out at the other's plug hole has passed there; no valve and no ring lies on that way.",
		Source: "common practice, no source", Class: Group, Needs: []Need{NeedsLeakage},
		Findings: atNeighbour.find,
	},
	{
		Name:    atCoolant.rule,
		Title:   "Air escapes into the coolant",
		Trigger: "bubbles in the radiator or the expansion bottle during the test, whatever the loss",
		Why: "Coolant is kept from the cylinders by the gasket, the head and the bore. Bubbles during the test show that one of them lets air through, " +
			"and what lets air out lets coolant in. A small leak matters here: an engine that holds pressure well can still lose its coolant this way.",
		Source: "common practice: bubbles in the radiator point to the head gasket or a cracked head or block", Class: Single, Needs: []Need{NeedsLeakage},
		Findings: atCoolant.find,
	},
	{
		Name:    atExhaust.rule,
		Title:   "Air escapes at the exhaust",
		Trigger: "air heard at the exhaust and a loss over 10 %, even inside a limit; on a two-stroke it points to the rings, whose port it is; in every cylinder of one bank and none of the other, to what that bank shares",
		Why: "With the piston at the top of its compression stroke both valves are closed, so air at the exhaust has passed the exhaust valve. Hot gas passing " +
			"a valve burns it further, which makes this the leak that most often gets worse. Lash that is too small, or a crumb of carbon on the seat, gives the same sound.",
		Source: "TM 5-3805-260-24, cylinder leakage: air at the exhaust, exhaust valve; the threshold is common practice, no source", Class: Single, Needs: []Need{NeedsLeakage},
		Variants: []string{twoStrokeVariant, bankVariant},
		Findings: atExhaust.find,
	},
	{
		Name:    atInlet.rule,
		Title:   "Air escapes at the air inlet",
		Trigger: "air heard at the throttle or the air cleaner and a loss over 10 %, even inside a limit",
		Why: "Air at the inlet has passed the inlet valve. Carbon on the seat or a lash that is too small does the same as a bent or burnt valve, " +
			"and is looked at first because it costs little.",
		Source: "TM 5-3805-260-24, cylinder leakage: air at the air cleaner, intake valve; the threshold is common practice, no source", Class: Single, Needs: []Need{NeedsLeakage},
		Variants: []string{twoStrokeVariant, bankVariant},
		Findings: atInlet.find,
	},
	{
		Name:    atCrankcase.rule,
		Title:   "Air escapes into the crankcase",
		Trigger: "air heard at the oil filler, the dipstick or the breather and a loss over 10 %, even inside a limit",
		Why: "Air that gets into the crankcase has passed the piston rings. A little always does: rings have gaps. So the amount matters, and whether one cylinder " +
			"differs from the others; gaps that happen to stand in line give a bad figure once and a good one after the engine has turned.",
		Source: "common practice: oil filler, dipstick, breather point to rings, piston or bore", Class: Single, Needs: []Need{NeedsLeakage},
		YieldsTo: []string{"sound-but-leaks", "leaks-but-serviceable"},
		Findings: atCrankcase.find,
	},
	{
		Name:    atOutside.rule,
		Title:   "Air escapes to the outside",
		Trigger: "air heard at an outer joint or at a thread and a loss over 10 %",
		Why: "The plug's or the adapter's thread is the likeliest place, and a fault of the test rather than of the engine. Soapy water shows whether it is " +
			"the thread or the edge of the head gasket.",
		Source: "common practice, no source", Class: Single, Needs: []Need{NeedsLeakage},
		Findings: atOutside.find,
	},
	leakageHigh,
	soundButLeaks,
	lowButTight,
	leakageGood,
}

const (
	twoStrokeVariant = "two-stroke"
	bankVariant      = "bank" // every cylinder of one bank, none of the other
)

var leakageVocabulary = map[string][]string{
	"causes": leakCauses(),
	"doubts": {"leakage-cold", "leakage-near-limit"},
}

func leakCauses() []string {
	causes := []string{"leak-place-unknown", "tester-scale", "valve-motion", "cam-timing", "adapter-leak", "restricted-inlet", "restricted-exhaust", "bent-valve"}
	for _, p := range leakPlaces {
		causes = append(append(causes, p.causes...), p.twoStroke...)
	}
	return causes
}

// leaks lists the cylinders whose leakage was read, in the engine's order.
func (c *Case) leaks() []*diag.LeakResult {
	var read []*diag.LeakResult
	if c.Sums.Leakage == nil {
		return nil
	}
	for i := range c.Sums.Leakage.Cylinders {
		if l := &c.Sums.Leakage.Cylinders[i]; l.Loss != nil {
			read = append(read, l)
		}
	}
	return read
}

// leaksAt reports air at a place that is worth saying.
func (c *Case) leaksAt(name string, p leakPlace) bool {
	l := c.Leak(name)
	return l != nil && slices.Contains(l.At, p.at) && (p.always || *l.Loss > goodLoss)
}

func (p leakPlace) find(c *Case) []diag.Finding {
	var low, rest []string
	for _, l := range c.leaks() {
		switch {
		case !c.leaksAt(l.Name, p):
		case c.Grade(l.Name).IsLow():
			low = append(low, l.Name)
		default:
			rest = append(rest, l.Name)
		}
	}
	var sets [][]string
	switch {
	case p.together:
		sets = c.Engine.NeighbourRuns(append(low, rest...))
	default:
		for _, name := range low {
			sets = append(sets, []string{name})
		}
		if len(rest) > 0 {
			sets = append(sets, rest)
		}
	}
	var found []diag.Finding
	for _, names := range sets {
		found = append(found, p.finding(c, names))
	}
	return found
}

func (p leakPlace) finding(c *Case, names []string) diag.Finding {
	f := diag.Finding{Rule: p.rule, Cylinders: names, Facts: c.leakFacts(names)}
	causes := p.causes
	if p.valve && !p.always && !c.Spec.TwoStroke && c.leakingBank(names) >= 0 {
		f.Variant, causes = bankVariant, append([]string{"cam-timing", "bent-valve"}, p.causes[0])
	}
	if c.Spec.TwoStroke {
		causes = p.twoStroke
		if p.valve && !p.always {
			f.Variant = twoStrokeVariant
		}
	}
	f.Causes = phrases(causes...)
	f.Urgency = p.urgency(c, names)
	c.judgeLeak(&f)
	f.Next = c.next(names, p.checks...)
	if f.Variant == bankVariant {
		f.Next = c.next(names, "cam-timing-marks", "borescope")
	}
	return f
}

// beyond reports a loss over a bound by more than arithmetic can miss.
func beyond(loss, bound float64) bool { return loss > bound+1e-6 }

// leakingBank gives the bank that loses air in every cylinder read while the
// other, two of it at least, loses none to speak of; -1 for none. The other
// bank was tested in the same state and with the same tester.
func (c *Case) leakingBank(names []string) int {
	if !c.Engine.IsTwoBank() || len(names) < 2 {
		return -1
	}
	bank := c.Engine.BankOf(names[0])
	sound := 0
	for _, l := range c.leaks() {
		switch inSet := slices.Contains(names, l.Name); {
		case inSet != (c.Engine.BankOf(l.Name) == bank):
			return -1
		case inSet && !c.leakTooHigh(l):
			return -1
		case !inSet && *l.Loss > wornLoss:
			return -1
		case !inSet:
			sound++
		}
	}
	if sound < 2 {
		return -1
	}
	return bank
}

// seenLeaking reports that what was seen in the bore agrees with the place of
// the leak, on every one of these cylinders.
func (c *Case) seenLeaking(f *diag.Finding) bool {
	var words []string
	switch f.Rule {
	case atExhaust.rule, atInlet.rule:
		words = []string{"valve burn", "valve is burn", "burnt valve", "burned valve", "valve crack", "valve chip", "valve is chip", "valve is crack", "bent valve", "valve bent"}
	case atCrankcase.rule:
		words = []string{"scor", "scratch", "groove", "broken ring", "hole in", "holed"}
	}
	return len(f.Cylinders) > 0 && !slices.ContainsFunc(f.Cylinders, func(n string) bool {
		return !speaksOf(strings.ToLower(c.Borescope[n]), words...)
	})
}

// urgency of a leak by its amount: a limit decides where there is one, the
// bands of common practice otherwise.
func (p leakPlace) urgency(c *Case, names []string) diag.Urgency {
	worst := c.worstLeak(names)
	switch {
	case p.always, worst.Verdict == diag.Outside, c.anyLow(names):
		return diag.ActSoon
	case c.pastLimit(worst):
		return diag.CheckAgain
	case beyond(*worst.Loss, actLoss):
		return diag.ActSoon
	case p.valve, *worst.Loss > wornLoss, *worst.Loss > c.Sums.Leakage.Median+overMedian:
		return diag.CheckAgain
	}
	return diag.NoAction
}

// judgeLeak sets how sure a finding on leakage is. A figure taken cold is
// provisional: the same cylinder may hold three times as much when warm.
func (c *Case) judgeLeak(f *diag.Finding) {
	worst := c.worstLeak(f.Cylinders)
	switch {
	case c.seenLeaking(f):
		f.Confidence = diag.Strong // a look into the bore says so as well
	case c.leakageCold() && c.leakingBank(f.Cylinders) < 0 && worst != nil && !c.leaksAt(worst.Name, atCoolant) && !c.leaksAt(worst.Name, atNeighbour):
		f.Confidence = diag.Weak
		f.Doubts = append(f.Doubts, phrases("leakage-cold")...)
		if f.Urgency == diag.ActSoon && !c.anyLow(f.Cylinders) {
			f.Urgency = diag.CheckAgain
		}
	case worst != nil && c.pastLimit(worst):
		f.Confidence = diag.Weak
		f.Doubts = append(f.Doubts, phrases("leakage-near-limit")...)
	case c.anyLow(f.Cylinders):
		f.Confidence = diag.Strong // the compression test says so as well
	default:
		f.Confidence = diag.Fair
	}
}

func (c *Case) leakageCold() bool {
	if c.Leakage == nil {
		return false
	}
	if c.Leakage.Engine != "" {
		return c.Leakage.Engine == "cold"
	}
	return c.Conditions.Engine == "cold"
}

// pastLimit reports a loss that as read is over its limit and yet too close to
// call.
func (c *Case) pastLimit(l *diag.LeakResult) bool {
	return l.Verdict == diag.TooClose && c.Sums.Leakage.Limit != nil && *l.Loss > *c.Sums.Leakage.Limit
}

func (c *Case) anyLow(names []string) bool {
	return slices.ContainsFunc(names, func(n string) bool { return c.Grade(n).IsLow() })
}

// worstLeak is the read cylinder of the greatest loss among some, nil for none.
func (c *Case) worstLeak(names []string) *diag.LeakResult {
	var worst *diag.LeakResult
	for _, name := range names {
		if l := c.Leak(name); l != nil && (worst == nil || *l.Loss > *worst.Loss) {
			worst = l
		}
	}
	return worst
}

// leakFacts are what the words on leakage use: the worst loss, each loss, the
// median of all, and the limit with its verdict where there is one.
func (c *Case) leakFacts(names []string) diag.Facts {
	facts := diag.Facts{"limit": "", "verdict": "", "low": c.anyLow(names), "read": len(c.leaks()),
		"median": percent(c.Sums.Leakage.Median, 0)}
	var each diag.Names
	for _, name := range names {
		if l := c.Leak(name); l != nil {
			each = append(each, name+": "+percent(*l.Loss, 0).String())
		}
	}
	facts["each"] = each
	if worst := c.worstLeak(names); worst != nil {
		facts["loss"] = percent(*worst.Loss, 0)
		if c.Sums.Leakage.Limit != nil {
			facts["limit"] = percent(*c.Sums.Leakage.Limit, 0).String()
			facts["verdict"] = string(worst.Verdict)
		}
	}
	return facts
}
