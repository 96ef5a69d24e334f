package cause

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// rodInDoubt is an engine that drew in water, or one with a cylinder that is short of some
// pressure and holds its air.
func rodInDoubt(c *known.Case, cylinders []string) bool {
	if len(cylinders) == 0 {
		cylinders = c.Every()
	}
	return known.DrewWater.HoldsIn(c) || slices.ContainsFunc(cylinders, c.RodInDoubt)
}

// liftFound is an engine of which the lift of a valve of these cylinders, or of any
// where none are named, was measured and found too little.
func liftFound(c *known.Case, cylinders []string) bool {
	if len(cylinders) == 0 {
		cylinders = c.Every()
	}
	return c.Has(known.NeedsTest(known.Clearance)) && slices.ContainsFunc(c.ByItself(cylinders), func(s known.Subject) bool { return known.LiftsLittle.Holds(c, s) })
}

// exhaustBacksUp is an exhaust of which a gauge has shown that it does not let the
// gas out.
var exhaustBacksUp = known.Any(known.VacuumFalls, known.BackPressureHigh, known.BackPressureOverRules)

// breathingInDoubt is an engine with valves of which compression with the engine running
// would tell something: not a cylinder so low on the starter that it does not burn,
// nor an exhaust whose gauge has shown already that it backs up, nor a valve whose lift
// was measured.
func breathingInDoubt(c *known.Case, cylinders []string) bool {
	if len(cylinders) == 0 && exhaustBacksUp.HoldsIn(c) || len(cylinders) > 0 && liftFound(c, cylinders) {
		return false
	}
	return !c.Flies() && c.HasValves() && (len(cylinders) == 0 || !c.AnyFar(cylinders))
}

// camMayStand is an engine with valves of which some cylinder has no pressure,
// so that its camshaft, or a part of it, may not turn; not where its valves were seen to
// move, or the drive is new and some cylinder makes something.
func camMayStand(c *known.Case, _ []string) bool {
	return c.HasValves() && !valvesMove(c) && (len(c.Graded(diag.NoPressure)) > 0 || known.DriveToldGone.HoldsIn(c)) && !(c.RenewedAfterFailing() && c.Cranking().Highest > 0)
}

// valvesMove is an engine of which somebody has seen that its valves move as they should, so
// that its camshaft turns.
func valvesMove(c *known.Case) bool {
	return c.WorkDone("all move alike", "valves seen moving", "valves move alike", "valves all move")
}

// turns is an engine that may be turned: not one whose camshaft stands still with valves open
// in the way of its pistons.
func turns(c *known.Case) bool { return !c.DriveBroken() || c.Spec.Interference == diag.No }

// pushrodLift is an engine with pushrods of which a valve was found to lift too little: rocker
// and pushrod lie open where that was measured, and are looked at before a lifter comes out.
func pushrodLift(c *known.Case, cylinders []string) bool {
	pushrods := c.Spec.ValveGear == "overhead valves" || c.Engine.IsTwoBank() && c.OneCamshaft()
	return pushrods && liftFound(c, cylinders)
}

// lobeTakes is longer where the lifters lie under the intake manifold, between two banks:
// common practice, no source.
func lobeTakes(c *known.Case, _ []string) int {
	if c.Engine.IsTwoBank() && c.Spec.Camshafts == "one" {
		return 180
	}
	return 60
}

// lashTakes is the time of feeling the clearances of a few cylinders, or of the
// engine: a cover or two on a small one, and on one cooled by air whose valves are
// set by hand, where clips hold the covers and it is routine.
func lashTakes(c *known.Case, cylinders []string) int {
	few := len(cylinders) > 0 && len(cylinders) <= 2
	switch {
	case len(c.Every()) <= 2, few && c.Spec.Lifters == "solid" && c.AirCooled():
		return 10
	case few && c.Spec.Lifters == "solid":
		return 15
	}
	return 20
}

// exhaustOpens is an engine whose exhaust has a joint to be loosened ahead of what may block it: not
// a two-stroke of ports, which is looked at through them, nor one that hangs on a boat.
func exhaustOpens(c *known.Case, _ []string) bool { return !c.Ported() && !c.Outboard() }

// motionChecks tell whether the valves move as they should.
var motionChecks = []Check{
	{Name: "valve-lash", Minutes: 30, Way: Hand | Covers, DeadFirst: true, Mends: []string{"valve-lash", "valve-loose"}, MinutesOf: lashTakes,
		Words: []string{"lash set", "lash checked", "valve clearance", "exhaust clearance", "inlet clearance", "intake clearance", "valves adjusted", "valves set", "clearance set"},
		Fits: func(c *known.Case, cylinders []string) bool {
			return c.LashCanBeSet() && !c.ClearanceKnown(cylinders) && !ReadAgainFirst(c, cylinders)
		},
		Outcomes: []Outcome{
			{Name: "tight", For: []string{"valve-lash", "valve-recession"}, Words: known.TooTight},
			{Name: "wide", For: []string{"valve-loose"}, Fits: func(c *known.Case) bool { return known.ReleasesItself.HoldsIn(c) && len(c.LowSet()) == 0 }, Words: []string{"wide", "too wide", "loose", "too much"}},
			{Name: "right", Else: true, Clears: true, Words: []string{"in spec", "ok", "good", "correct", "no change"}, After: []string{"as the book asks"}}}},
	{Name: "set-and-retest", Titles: []string{"set the valve lash", "set the valve lash and test again"}, Minutes: 20, Way: Starter | Covers, Mends: []string{"valve-lash", "valve-loose"},
		Words: []string{"set and tested again", "clearance set and compression repeated", "clearance set and leak-down repeated"},
		Fits: func(c *known.Case, cylinders []string) bool {
			allLow := len(cylinders) == 0 && c.AllLow() != nil && len(c.Those(func(n string) bool { return len(c.NoClearance(n)) > 0 || slices.Contains(c.ExhaustTight(), n) })) > 0
			return c.LashCanBeSet() && !slices.ContainsFunc(cylinders, c.ClosedAgain) && !c.OnlyWide(cylinders) && (c.LashFoundTight(cylinders) || allLow || slices.ContainsFunc(cylinders, c.LeaksHeldOpen) ||
				c.ClearanceFoundOff(cylinders) && (c.AnyLow(cylinders) || slices.ContainsFunc(cylinders, func(n string) bool { r := c.Cylinder(n); return r != nil && c.ShortOfPressure(r) })))
		},
		Outcomes: []Outcome{
			{Name: "it comes back", Well: true, For: []string{"valve-lash", "valve-loose"}, Words: []string{"comes back", "came back", "came up", "recovered", "holds its air"}},
			{Name: "it stays low", Else: true, Words: []string{"stays", "stayed", "no change", "leaks as before"}}}},
	{Name: "set-and-look-again", Titles: []string{"set the valve lash", "set the valve lash and look again"}, Minutes: 20, Way: Hand | Covers, Mends: []string{"valve-lash", "valve-loose"}, Words: []string{"clearance set and looked at again"},
		Fits: func(c *known.Case, cylinders []string) bool {
			return c.LashCanBeSet() && c.ClearanceFoundOff(cylinders) && !c.AnyLow(cylinders) && !slices.ContainsFunc(cylinders, c.ClosedAgain) && !slices.ContainsFunc(cylinders, c.LeaksHeldOpen)
		},
		Outcomes: []Outcome{
			{Name: "it closes up again", For: []string{"valve-recession"}, Words: []string{"closes", "closed up", "tight again"}},
			{Name: "it stays", Else: true, Words: []string{"stays", "stayed"}}}},
	{Name: "watch-valve-gear", Further: true, Titles: []string{"watching the valves"}, Minutes: 20, MinutesOf: func(c *known.Case, _ []string) int {
		if !c.Several() {
			return 10
		}
		return 20
	}, Way: Hand | Opens, Fits: func(c *known.Case, cylinders []string) bool {
		if len(cylinders) == 0 && known.VacuumSwings.HoldsIn(c) { // springs that are soft all alike are measured, which no thumb tells
			return false
		}
		return c.HasValves() && !(len(cylinders) > 0 && liftFound(c, cylinders))
	}, DeadFirst: true, Made: readIn(known.Clearance, "lift inlet", "lift exhaust"), Words: []string{"valve gear watched", "valve lift measured", "lift measured", "both valves seen moving", "valves seen moving"},
		Outcomes: []Outcome{
			{Name: "one moves less", For: []string{"valve-motion", "collapsed-lifter", "deactivation-lifter", "stuck-valve"}, Words: []string{"less", "not at all", "stuck"}},
			{Name: "a spring is broken or soft", For: []string{"valve-springs"}, Sure: 0.7, Words: []string{"spring", "broken", "soft"}},
			{Name: "all move alike", Else: true, Clears: true, Words: []string{"alike", "moving", "all move"}}}},
	{Name: "decompressor-look", Titles: []string{"the decompressor", "a look at the decompressor"}, Minutes: 15, Way: Hand | Covers,
		Fits: func(c *known.Case, cylinders []string) bool {
			return known.ReleasesItself.HoldsIn(c) && c.AnyLow(cylinders) || known.ReleasesTooMuch.HoldsIn(c)
		},
		Words: []string{"decompressor looked at", "decompressor checked", "compression release looked at", "compression release checked"},
		Outcomes: []Outcome{
			{Name: "it hangs", For: []string{"decompressor-stuck"}, Words: []string{"hangs", "stuck", "stays in", "does not let go", "spring broken"}},
			{Name: "it lets go", Else: true, Clears: true, Words: []string{"free", "freely", "lets go", "let go", "right", "good", "ok", "works"}}}},
	{Name: "rocker-and-pushrod", Titles: []string{"rocker and pushrod"}, Minutes: 15, Way: Hand, Fits: pushrodLift, Words: []string{"pushrods rolled", "pushrod rolled", "rocker and pushrod looked at", "rockers and pushrods looked at"},
		Outcomes: []Outcome{
			{Name: "rocker or pushrod is bad", For: []string{"valve-motion"}, Sure: 0.4, Words: []string{"bent", "rocker worn", "rocker loose", "stud pulled"}},
			{Name: "the lifter gives", For: []string{"collapsed-lifter", "deactivation-lifter"}, Fits: hydraulic, Sure: 0.7, Words: []string{"gives", "soft", "sinks"}},
			{Name: "both are good", Else: true, Words: []string{"good", "straight"}}}},
	{Name: "lobe-look", Titles: []string{"lobe and follower"}, Minutes: 60, MinutesOf: lobeTakes, Way: Hand | Opens, Fits: liftFound, Words: []string{"lifter taken out", "lobe looked at", "follower looked at", "lifters looked at"},
		Outcomes: []Outcome{
			{Name: "the lobe or its follower is worn", For: []string{"valve-motion"}, Words: []string{"worn", "wiped", "flat", "round"}},
			{Name: "the lifter gives", For: []string{"collapsed-lifter", "deactivation-lifter"}, Words: []string{"gives", "soft", "collapsed"}},
			{Name: "both are good", Else: true, Words: []string{"good"}}}},
	{Name: "guide-play", Titles: []string{"play of the valve guides"}, Minutes: 60, Whole: true, Way: Opens, Fits: func(c *known.Case, _ []string) bool {
		return c.Flies() && c.HasValves() && c.Complains(misfire, known.RoughRunning) && !c.AnyLow(c.Read())
	}, Answers: known.RoughCold.HoldsIn,
		Words: []string{"guide play measured", "valve wobble measured", "wobble test"},
		Outcomes: []Outcome{
			{Name: "one binds", For: []string{"sticking-valve"}, Words: []string{"binds", "tight", "too little"}},
			{Name: "all move freely", Else: true, Words: []string{"free", "freely", "within"}}}},
	{Name: "guide-oil", Titles: []string{"oil at the valve guides"}, Minutes: 15, Whole: true, Way: Runs | Opens, Mends: []string{"sticking-valve"}, Fits: func(c *known.Case, _ []string) bool {
		return c.HasValves() && !c.Spec.Diesel() && known.VacuumStrays.HoldsIn(c)
	}, Answers: func(c *known.Case) bool { // which shows it while it does
		return known.VacuumStrays.HoldsIn(c) && len(c.Those(func(n string) bool { return known.RepeatsScatter.HoldsOf(c, n) })) > 0
	}, Words: []string{"oil at the guides", "penetrating oil at the guides", "guides oiled"},
		Outcomes: []Outcome{
			{Name: "the needle steadies", For: []string{"sticking-valve"}, Sure: 0.8, Words: []string{"steadies", "steadied", "gone"}},
			{Name: "no change", Else: true, Words: []string{"same", "still"}}}},
	{Name: "cam-timing-marks", Further: true, Titles: []string{"camshaft timing"}, Minutes: 30, Whole: true, Way: Hand | Covers, Fits: func(c *known.Case, _ []string) bool { return valves(c, nil) && !c.DriveBroken() }, Answers: func(c *known.Case) bool {
		return c.DriveMayHaveLetGo() || c.AllLow() != nil && (c.WillNotStart() || known.SuddenOnset.HoldsIn(c) || c.DriveDisturbed()) || c.DriveDisturbed() && !c.PressureByFigure() && (known.VacuumLow.HoldsIn(c) || known.SinceDriveRenewed.HoldsIn(c)) || c.Coded("P0008", "P0009", "P0016", "P0017", "P0018", "P0019")
	}, Made: readIn(known.Timing, "cam"), Words: []string{"cam timing checked", "timing marks checked", "timing marks compared", "timing marks", "timing checked", "cam marks"},
		Outcomes: []Outcome{
			{Name: "off", For: []string{"cam-timing", "timing-drive", "cam-phaser"}, Words: []string{"late", "jumped", "out"}},
			{Name: "a little late", For: []string{"worn-chain", "cam-phaser"}, Fits: chained, Words: []string{"stretched", "slack", "tensioner far out"}},
			{Name: "right", Else: true, Words: []string{"ok", "good", "correct", "agree", "line up", "lined up"}, After: []string{"the marks agree"}}}},
	{Name: "chain-slack", Titles: []string{"slack of the timing chain"}, Minutes: 60, Whole: true, Way: Opens, Fits: func(c *known.Case, _ []string) bool { return chained(c) },
		Made: func(c *known.Case, _ []string) bool {
			r := c.Measured(known.Timing)
			return r != nil && r.Reading("chain-slack") != nil
		},
		Words: []string{"chain slack measured", "chain slack", "tensioner looked at", "tensioner checked"},
		Outcomes: []Outcome{
			{Name: "slack", For: []string{"worn-chain"}, Words: []string{"stretched", "far out", "past its limit", "loose"}},
			{Name: "taut", Else: true, Words: []string{"right", "good", "ok"}}}},
	{Name: "turn-engine-check-cam", Titles: []string{"camshaft drive"}, Minutes: 5, Whole: true, Way: Hand, Fits: camMayStand, Answers: (*known.Case).DriveMayHaveLetGo, Words: []string{"cam turns", "camshaft turns"},
		Outcomes: []Outcome{
			{Name: "stands still", For: []string{"timing-drive", "broken-camshaft"}, Sure: 0.5, Words: []string{"does not turn"}},
			{Name: "turns", Else: true}}},
	{Name: "running-compression", Titles: []string{"compression with the engine running"}, Minutes: 15, MinutesOf: eachTakes(5), Way: Runs, Fits: breathingInDoubt,
		Made: func(c *known.Case, cylinders []string) bool {
			return c.Compression != nil && madeOn(c, cylinders, func(n string) bool { _, ran := c.Compression.Running[n]; return ran })
		},
		Outcomes: []Outcome{
			{Name: "low on the snap", For: []string{"valve-motion", "collapsed-lifter", "deactivation-lifter", "restricted-inlet", "reed-valve"}, Enter: running("low on the snap", 0.6), Words: []string{"low"}},
			{Name: "high on the snap", For: []string{"restricted-exhaust", "valve-motion"}, Sure: 0.7, Enter: running("high on the snap", 1.25), Words: []string{"high"}},
			{Name: "like the others", Else: true, Clears: true, Enter: running("like the others", 1), Words: []string{"alike", "even", "same"}, After: []string{"about half the cranking figure at idle, more on the snap"}}}},
	{Name: "exhaust-restriction", Titles: []string{"a look for a blocked exhaust", "blocked exhaust or not"}, Baseline: true, Minutes: 10, Whole: true, Way: Runs, Fits: exhaustOpens, Made: backPressureRead, Words: []string{"exhaust back pressure", "back pressure"},
		Outcomes: []Outcome{
			{Name: "restricted", For: []string{"restricted-exhaust"}, Words: []string{"blocked", "pulls better", "better", "high"}},
			{Name: "free", Else: true, Words: []string{"no change", "low", "same", "clear"}}}},
}
