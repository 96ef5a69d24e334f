package rule

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// testRules judge the test before the engine. They are notices: they stand
// above the findings and make them provisional, and suppress none. What a
// notice says of the test speaks in the story of an engine that is low
// throughout as well: a known fault of the test is the first cause there.
var testRules = slices.Concat(decideRules, figureRules, turningRules, methodRules, gaugeRules, leakTestRules, recordRules)

// The readings that hang on how an engine was cranked.
var (
	onStarter    = []known.Need{known.NeedsCompression, known.NeedsWet, known.NeedsFirst}
	onAnyStarter = []known.Need{known.NeedsCompression, known.NeedsWet, known.NeedsFirst, known.NeedsRotors, known.NeedsEarlier}
	onGauges     = append(slices.Clone(onAnyStarter), known.NeedsFuel)
)

// turningRules are on how the engine was turned.
var turningRules = []Rule{
	{
		Name: "falls-in-test-order", Title: "Readings fall in the order in which they were taken", Class: TestItself, About: diag.AboutTest, Needs: []known.Need{known.NeedsCompression},
		Why: "A battery that runs down cranks more slowly with each cylinder, and a gauge whose valve begins to leak holds less each time. Either makes the cylinders tested last " +
			"look worn. No fault of an engine goes by the order in which somebody happened to test it; the first cylinder tested again with a charger on settles it.",
		Source: "common practice, no source",
		Asks: "in the order tested no reading is higher than one before (four at least; of six or seven one by 1 %, of eight or more one pair in ten; no step more than 60 % of the whole fall), by more in all than two readings can differ " +
			"by chance and by 5 % at least, of four by 8 % (by number, where the order was not recorded and six at least fall by 8 %), and the first cylinder tested again at the end did not come back to its reading; or, tested again, it reads clearly lower",
		Variants: []string{"confirmed", "by-number"},
		Notices:  fallsInTestOrder, Kind: OfTest, Weigh: voicesOf(tiresInOrder), Headline: "test-tires",
		Doubt: "falls-in-test-order", Doubts: onStarter, Repeat: "repeat-with-charger",
		Alone: always,
		MakesUp: func(c *known.Case, n diag.Notice, names []string) bool {
			order, _ := n.Facts["order"].(diag.Names)
			return c.OnTheFall(order, names)
		},
		Unsettles: func(n diag.Notice) bool {
			sagged, _ := n.Facts["sagged"].(bool)
			return n.Variant == "confirmed" || sagged
		},
	},
	{
		Name: "slow-cranking", Title: "The starter turned slowly", Class: TestItself, About: diag.AboutTest,
		Why: "A piston that comes up slowly gives its air time to leak. Makers state their figures at a speed, mostly 200 to 300 turns a minute, and say how fast a cold diesel has to turn " +
			"before its reading counts. Slow cranking lowers every reading; against each other the cylinders still tell something.",
		Source:  "makers' figures are stated at cranking speeds of 200 rpm and more; the bound: common practice, no source",
		Asks:    "compression or a rotary's faces were read at a cranking speed under 150 rpm",
		Notices: slowCranking, Kind: OfTest, Weigh: voicesOf(turnedSlowly), Repeat: "charge-and-repeat", Headline: "test-tires",
		Alone: crawled,
		Doubt: "slow-cranking", Doubts: onAnyStarter, TurnsSlowly: true, Shifts: true, Unsettles: mayBeAll,
	},
	{
		Name: "battery-sags", Title: "The battery sagged on the starter", Class: TestItself, About: diag.AboutTest,
		Why: "A 12 V battery that falls under 9.6 V while it cranks is discharged or worn out: the starter turns slowly and slower with every cylinder. It lowers all readings, " +
			"the last ones most, and costs a charge to rule out.",
		Source:  "the usual load test ends at 9.6 V (from memory)",
		Asks:    "compression or a rotary's faces were read, and the battery's voltage on the starter was under 9.6 V (of a 6 V or 24 V system in proportion)",
		Notices: batterySags, Kind: OfTest, Weigh: voicesOf(batterySagged), Repeat: "charge-and-repeat", Headline: "test-tires",
		Alone: collapsed,
		Doubt: "battery-sags", Doubts: onAnyStarter, TurnsSlowly: true, Shifts: true, Unsettles: mayBeAll,
	},
	{
		Name: "strokes-differ", Title: "Not every cylinder had the same strokes", Class: TestItself, About: diag.AboutTest, Needs: []known.Need{known.NeedsCompression},
		Why:     "The gauge climbs with every stroke, most on the first ones. A cylinder given fewer strokes reads low for that alone; the same number for each makes them comparable.",
		Source:  "US Army Ordnance subcourse OD1001, p. 91-92 (each cylinder should reach its maximum in about the same number of turns)",
		Asks:    "the job records another number of compression strokes for some cylinders than for the others",
		Notices: strokesDiffer, Kind: OfTest,
		Doubt: "strokes-differ", Doubts: onStarter, Repeat: "repeat-method", Headline: "test-strokes",
		Unsettles: func(n diag.Notice) bool { fewer, _ := n.Facts["fewer"].(bool); return fewer },
	},
}

// decideRules are on a test of which so much was not right that it is made again.
var decideRules = []Rule{{
	Name: "test-decides-nothing", Title: "Several things were not right in a test that found nothing", Class: TestItself, About: diag.AboutTest, Needs: []known.Need{known.NeedsCompression},
	Why: "Each fault of a test moves its readings, and two or three of them hide as much as they make. A test that found nothing, and was made like that, clears nothing either: " +
		"before a complaint is followed elsewhere it is made again, properly, which costs minutes.",
	Source:  "common practice, no source",
	Asks:    "compression was read and no cylinder is low, there is a complaint, and of these at least two: the battery sagged or cranked slowly; the throttle or choke was closed, or nobody is sure; the other plugs stayed in; the gauge was pushed in by hand; the strokes differ",
	Notices: decidesNothing, Kind: OfTest, Repeat: "repeat-method", Headline: "test-decides-nothing", Alone: always, ComplaintsWait: true, Doubts: onStarter, Shifts: true,
}}

// decidesNothing: a shut throttle alone has its own words.
func decidesNothing(c *known.Case) []diag.Notice {
	if !c.DryRead() || len(c.Complaints()) == 0 || c.SaysNothing() || readsLow(c) {
		return nil
	}
	var faults []string
	add := func(is bool, what string) {
		if is {
			faults = append(faults, what)
		}
	}
	add(sagged(c) || c.TurnsSlowly(), "cranking")
	add(c.ThrottleShut() || c.ChokeShut() || c.Conditions.Throttle == "not sure" && !c.Spec.Diesel(), "throttle")
	add(c.Conditions.PlugsOut == "one at a time" && c.Several(), "plugs")
	add(c.HeldByHand(), "pushed-in")
	add(c.Compression != nil && strokesDiffer(c) != nil, "strokes")
	if len(faults) < 2 {
		return nil
	}
	return notice("test-decides-nothing", "", nil, diag.Facts{"faults": diag.Names(faults)})
}

// methodRules are on what was done otherwise than figures are made for.
var methodRules = []Rule{
	{
		Name: "not-standard-method", Title: "The test was not made in the usual way", Class: TestItself, About: diag.AboutTest,
		Why: "Published figures are for an engine cranked with the throttle open and every plug out. Whatever is done otherwise moves all readings together, " +
			"usually down, so that only the comparison between cylinders is left, and with a decompressor at work not even that.",
		Source: "US Army TM 5-4210-230-14&P-1, Addendum No. 2 (plugs out, throttle blocked open)",
		Asks: "the job describes something unusual in the method, or says that the throttle was closed, that the choke was on, that the other plugs stayed in, " +
			"or that a decompressor was at work",
		Variants: []string{"throttle-closed", "choke-closed", "plugs-in", "decompressor"},
		Notices:  notStandard, Kind: OfTest, Weigh: voicesOf(chokedOff, letOut, plugsStayedIn),
		Doubts: onAnyStarter, RepeatOf: methodRepeat, HeadlineOf: notJudged, Alone: whereNotJudged, Shifts: true,
	},
	{
		Name: "fuel-contradicted", Title: "Something was read that only an engine of another fuel has", Class: TestItself, About: diag.AboutTest,
		Why: "A petrol engine has no glow plugs, and a diesel no dwell, no magnetos and no fuel trims. Either the fuel is written wrongly or the reading belongs to another engine: floors, causes and what may be put into a cylinder all hang on the fuel, " +
			"so that no oil is asked for until it is known.",
		Source:  "follows from how the engines work",
		Asks:    "the fuel is one lit by a spark and the job has tests of a diesel; or it is diesel, and the job has fuel trims, a dwell, the gap of points or a check of magnetos",
		Notices: fuelContradicted, Kind: OfTest,
	},
	{
		Name: "all-low-check-the-test", Title: "All low together: the test comes first", Class: TestItself, About: diag.AboutTest, Needs: []known.Need{known.NeedsCompression},
		Why: "Wear seldom takes the same from every cylinder. What lowers all alike is mostly outside them: a throttle or choke not fully open, slow cranking, a cold engine, thin air, " +
			"a gauge that reads low. These are cheap to rule out and come before the timing, and the timing before the rings.",
		Source: "common practice, no source",
		Asks: "every cylinder is under the minimum (or under the expected pressure, or lower than in an earlier test), and the lowest is at least 85 % of the highest; " +
			"not where a test with another gauge agrees: low vacuum, air lost past the rings, or more than is allowed in every cylinder; nor where it came suddenly and valves can meet pistons",
		Notices: allLowCheckTheTest, Kind: OfTest,
	},
	{
		Name: "altitude-not-corrected", Title: "Thin air, and a limit that may be one for sea level", Class: TestItself, About: diag.AboutTest, Needs: []known.Need{known.NeedsCompression},
		Why: "A gauge reads what the engine makes of the air around it, and 1500 m up that is a sixth less. Printed limits mostly hold at sea level without saying so. " +
			"Where the job does not say which, the book is looked at again before the engine is called low.",
		Source:  "US Standard Atmosphere 1976; that limits hold at sea level: common practice, no source",
		Asks:    "a cylinder is under a minimum that is not said to be one for sea level, the place lies 500 m up or higher (or the barometer is that low), and brought to that height the minimum would be met",
		Notices: altitudeNotCorrected, Kind: OfTest, For: speaks(Heard, "altitude"), Headline: "test-limit",
		Doubt: "altitude-not-corrected", Doubts: []known.Need{known.NeedsCompression}, Repeat: "look-up-limit", Shifts: true,
		Unsettles: func(diag.Notice) bool { return true },
	},
}

func notice(rule, variant string, cylinders []string, facts diag.Facts) []diag.Notice {
	if facts == nil {
		facts = diag.Facts{}
	}
	return []diag.Notice{{Rule: rule, Variant: variant, Cylinders: cylinders, Facts: facts}}
}

// always asks for the check of a notice whether or not anything was found.
func always(*known.Case, diag.Notice) bool { return true }

// mayBeAll reports a fault of the test that may be all that lowers the readings.
func mayBeAll(n diag.Notice) bool { far, _ := n.Facts["far"].(bool); return !far }

// farLow reports an engine so far under its figure that no slow starter explains it.
func farLow(c *known.Case) bool {
	low := c.AllLow()
	return low != nil && (low.Share < farOff || low.Variant == "floor" && low.Far)
}

// noted passes on the notices that reading the job gave rise to.
func noted(rule string) func(*known.Case) []diag.Notice {
	return func(c *known.Case) []diag.Notice {
		return slices.DeleteFunc(slices.Clone(c.Noted), func(n diag.Notice) bool { return n.Rule != rule })
	}
}

// cranked reports that the starter turned the engine for a reading.
func cranked(c *known.Case) bool {
	return c.DryRead() || c.Has(known.NeedsRotors)
}

func fallsInTestOrder(c *known.Case) []diag.Notice {
	exact := func(names []string) []string {
		return slices.DeleteFunc(slices.Clone(names), func(name string) bool {
			r := c.Cylinder(name)
			return r == nil || r.Dry == nil || r.Kind != diag.Exact
		})
	}
	if len(c.Compression.Order) == 0 {
		return fallsByNumber(c, exact(c.Engine.Names()))
	}
	order := exact(c.Compression.Order)
	if len(order) < 2 {
		return nil
	}
	first := c.Cylinder(order[0])
	if first.Again != nil {
		if drop := *first.Dry - *first.Again; drop > max(c.ClearDifference(), 0.03**first.Dry) {
			return notice("falls-in-test-order", "confirmed", nil, diag.Facts{
				"order": diag.Names(order), "first": first.Name, "value": c.Pressure(*first.Dry), "again": c.Pressure(*first.Again)})
		}
		return nil // it came back: what fell is in the cylinders
	}
	notLow := slices.DeleteFunc(slices.Clone(order), func(name string) bool { return c.Grade(name).IsLow() })
	for _, names := range [][]string{order, notLow} {
		if c.FallsSteadily(names) {
			from, to := c.Cylinder(names[0]), c.Cylinder(names[len(names)-1])
			return notice("falls-in-test-order", "", nil, diag.Facts{
				"order": diag.Names(names), "first": from.Name, "last": to.Name, "sagged": sagged(c),
				"value": c.Pressure(*from.Dry), "to": c.Pressure(*to.Dry)})
		}
	}
	return nil
}

// manyInOrder is how many cylinders fall from one to the next by chance in fewer
// than one set of seven hundred, and leastByNumber the part by which they do where
// nobody wrote down in which order they were tested: judgement, no source.
const (
	manyInOrder   = 6
	leastByNumber = 0.08
)

// fallsByNumber: most go through an engine by number.
func fallsByNumber(c *known.Case, names []string) []diag.Notice {
	if len(names) < manyInOrder || !c.FallsSteadily(names) {
		return nil
	}
	from, to := c.Cylinder(names[0]), c.Cylinder(names[len(names)-1])
	if *from.Dry-*to.Dry < leastByNumber**from.Dry {
		return nil
	}
	return notice("falls-in-test-order", "by-number", nil, diag.Facts{"first": from.Name, "last": to.Name, "value": c.Pressure(*from.Dry), "to": c.Pressure(*to.Dry)})
}

// sagged reports a battery that was seen to sag while the readings were taken.
func sagged(c *known.Case) bool {
	_, sags := c.BatterySags()
	return sags
}

// crawling is the cranking speed in rpm under which what cylinders read says little even
// against each other: common practice, no source.
const crawling = 100

// crawled reports a starter that is work of its own, whatever the cylinders read.
func crawled(c *known.Case, _ diag.Notice) bool { return c.CrankingSpeed() < crawling }

// collapsed is the share of the least voltage under which a battery or its starter is
// at fault, and not only the test: common practice, no source.
func collapsed(c *known.Case, _ diag.Notice) bool {
	least, _ := c.BatterySags()
	return *c.Conditions.Battery.CrankingV < 0.9*least
}

func slowCranking(c *known.Case) []diag.Notice {
	if !cranked(c) || !c.TurnsSlowly() {
		return nil
	}
	return notice("slow-cranking", "", nil, diag.Facts{"rpm": diag.Number{Value: c.CrankingSpeed()}, "far": farLow(c)})
}

func batterySags(c *known.Case) []diag.Notice {
	least, sags := c.BatterySags()
	if !cranked(c) || !sags {
		return nil
	}
	return notice("battery-sags", "", nil, diag.Facts{
		"volts": diag.Number{Value: *c.Conditions.Battery.CrankingV, Decimals: 1, Unit: "V"}, "least": diag.Number{Value: least, Decimals: 1, Unit: "V"}, "far": farLow(c)})
}

func strokesDiffer(c *known.Case) []diag.Notice {
	usual, different, fewer := c.Conditions.Strokes, []string(nil), true
	for _, name := range c.Every() {
		n, given := c.Compression.Strokes[name]
		if !given {
			continue
		}
		if usual == 0 {
			usual = n
		}
		if n != usual {
			different, fewer = append(different, name), fewer && n < usual
		}
	}
	if len(different) == 0 {
		return nil
	}
	return notice("strokes-differ", "", different, diag.Facts{"strokes": c.Compression.Strokes[different[0]], "usual": usual, "fewer": fewer})
}

func notStandard(c *known.Case) []diag.Notice {
	if !cranked(c) {
		return nil
	}
	var list []diag.Notice
	add := func(variant string, facts diag.Facts) {
		list = append(list, notice("not-standard-method", variant, nil, facts)...)
	}
	if known.ReleasesItself.HoldsIn(c) {
		add("decompressor", diag.Facts{"sealed": c.SealsAtRest(), "leaked": len(c.Leaks()) > 0, "apart": diag.Names(c.LowSet()), "asBuilt": c.ReleasedAsBuilt(), "leaves": c.TradeFigure(c.Released())})
	}
	if c.ThrottleShut() {
		add("throttle-closed", diag.Facts{"apart": diag.Names(farBelow(c))})
	}
	if c.ChokeShut() {
		add("choke-closed", diag.Facts{"apart": diag.Names(farBelow(c))})
	}
	if c.Conditions.PlugsOut == "one at a time" {
		add("plugs-in", diag.Facts{"diesel": c.Spec.Diesel()})
	}
	if c.Conditions.Method != "" {
		add("", diag.Facts{"method": c.Conditions.Method})
	}
	return list
}

// farApart is the part of the highest reading under which a cylinder stands out even
// where all were short of air: judgement, no source.
const farApart = 0.75

// farBelow are the cylinders, no more than half of two at least, that read so much less
// than the highest, and not as readings that fall in the order of the test make sound ones do.
func farBelow(c *known.Case) []string {
	highest := c.Cranking().Highest
	low := c.Those(func(n string) bool {
		r := c.Cylinder(n)
		return r != nil && r.Dry != nil && *r.Dry < farApart*highest
	})
	if len(c.Read()) < 2 || 2*len(low) > len(c.Read()) {
		return nil
	}
	for _, n := range fallsInTestOrder(c) {
		order, _ := n.Facts["order"].(diag.Names)
		low = slices.DeleteFunc(low, func(name string) bool { return c.OnTheFall(order, []string{name}) })
	}
	return low
}

// methodRepeats are the checks that make good what was done otherwise.
var methodRepeats = map[string]string{"throttle-closed": "repeat-method", "choke-closed": "repeat-method", "plugs-in": "repeat-method", "decompressor": "leak-down"}

// methodRepeat asks for no test with every plug out of an engine of which the rest could
// not be reached or was declined.
func methodRepeat(c *known.Case, n diag.Notice) string {
	if n.Variant == "plugs-in" && c.RestRefused() {
		return ""
	}
	return methodRepeats[n.Variant]
}

// notJudged is the verdict of a test that says nothing of the engine.
func notJudged(c *known.Case, _ diag.Notice) string { return c.NotJudged() }

// whereNotJudged asks for the check where nothing of the engine could be judged, unless it reads as
// its decompressor leaves it and nobody complains.
func whereNotJudged(c *known.Case, n diag.Notice) bool {
	return c.SaysNothing() && methodRepeats[n.Variant] != "" && !(n.Variant == "decompressor" && c.ReleasedAsBuilt())
}

func fuelContradicted(c *known.Case) []diag.Notice {
	of := c.OfAnotherFuel()
	if of == "" {
		return nil
	}
	return notice("fuel-contradicted", "", nil, diag.Facts{"of": of})
}

func allLowCheckTheTest(c *known.Case) []diag.Notice {
	if c.AllLow() == nil || c.Cranking().LowestPercentOfHighest < known.EvenTogether || lowByAnother(c) || timingSlipped(c) {
		return nil
	}
	return notice("all-low-check-the-test", "", nil, diag.Facts{"diesel": c.Spec.Diesel(), "single": !c.Several()})
}

// comesBackAndPasses is an engine that oil brings back and whose rings let something
// by: it burns oil, or its crankcase is pressed.
func comesBackAndPasses(c *known.Case) bool {
	back := c.RisesEverywhere() || c.WetOfAll() == known.WetRises || oilDoubles(c) || c.Spec.Diesel() && known.CrankcaseHigh.HoldsIn(c) // into which no oil goes
	return back && (c.UsesOil() || c.Smokes("blue") || known.CrankcaseHigh.HoldsIn(c))
}

// oilDoubles is an engine of one cylinder that oil lifts far.
func oilDoubles(c *known.Case) bool { return len(c.Every()) == 1 && c.OilLiftsFar(c.Every()) }

// lowByAnother is an engine low throughout of which a test with another gauge, or
// an eye, says that it is: the manifold draws too little, it loses air past its
// rings, oil brings it back and it burns oil, every cylinder loses more than is allowed, wherever that goes, or in
// every cylinder there is what lets its pressure out.
func lowByAnother(c *known.Case) bool {
	return known.VacuumLow.HoldsIn(c) || comesBackAndPasses(c) || c.LosesAt(c.Read(), known.AtCrankcase) && !tightThroughout(c) || allLose(c) || openThroughout(c)
}

// openThroughout reports damage seen in every cylinder that was read, or a valve
// without clearance, that lets its pressure out; of an only cylinder that lets gas into the coolant too.
func openThroughout(c *known.Case) bool {
	if !c.Several() && (known.GasFound.HoldsIn(c) || known.Plug("coolant").Holds(c, known.Subject{Cylinders: c.Read()})) {
		return true
	}
	return !slices.ContainsFunc(c.Read(), func(n string) bool {
		return !c.Seen(n, known.GonePiston...) && !c.Seen(n, known.BurntValve...) && !c.Seen(n, known.BentValve...) && !c.Seen(n, known.ScoredWords...) && len(c.NoClearance(n)) == 0
	})
}

func allLose(c *known.Case) bool {
	return !slices.ContainsFunc(c.Read(), func(n string) bool {
		l := c.Leak(n)
		return l == nil || !c.LeakTooHigh(l)
	})
}

func altitudeNotCorrected(c *known.Case) []diag.Notice {
	if _, explains := c.AltitudeTells(); !explains {
		return nil
	}
	m := c.Minimum()
	facts := c.LimitFacts(m)
	facts["lower"] = diag.Number{Value: m.Limit * c.AirPressureRatio(), Decimals: facts["limit"].(diag.Number).Decimals, Unit: m.Unit}
	facts["part"] = known.Percent(100*c.AirPressureRatio(), 0)
	return notice("altitude-not-corrected", "", nil, facts)
}
