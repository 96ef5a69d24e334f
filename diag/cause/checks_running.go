package cause

import (
	"math"
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
	"gaugesheet/diag/quantity"
)

// evenPulls is how many cylinders draw on one manifold evenly enough for a vacuum
// gauge: common practice, no source.
const evenPulls = 3

// drawsEvenly is an engine whose manifold a vacuum gauge can read, and of which
// something is wrong in all cylinders alike or in none that was found. Where the
// valves' drive was just worked on, that is looked at and not argued about.
func drawsEvenly(c *known.Case, _ []string) bool {
	return c.HasValves() && !c.Spec.Diesel() && len(c.Every()) >= evenPulls && !c.DriveDisturbed() && !c.CarburettorEach() &&
		(c.AllLow() != nil || c.Complains(lowPower, overheat) && !c.AnyLow(c.Read()))
}

// pastAllRings is an engine with valves that loses air past the rings in every
// cylinder tested, or is low in all: then what blows by is worth reading.
func pastAllRings(c *known.Case, _ []string) bool {
	leaks := c.Leaks()
	past := len(leaks) > 1 && !slices.ContainsFunc(leaks, func(l *diag.LeakResult) bool { return !slices.Contains(l.At, known.AtCrankcase) })
	return c.HasValves() && !c.LeakageCold() && (c.AllLow() != nil || past && !oneIsTight(leaks))
}

// oneIsTight reports a cylinder that lost no more than a good one, or than one in service,
// beside one that lost more than three times as much: gas in the crankcase is that one's.
func oneIsTight(leaks []*diag.LeakResult) bool {
	least, most := math.Inf(1), 0.0
	for _, l := range leaks {
		if l.Loss != nil {
			least, most = min(least, *l.Loss), max(most, *l.Loss)
		}
	}
	return least <= known.WornLoss && most > 3*least
}

// missesUnknown is a petrol engine that misfires, by its owner or by its gases, and nothing
// says where: no code, no low cylinder and no plug unlike the others.
func missesUnknown(c *known.Case, _ []string) bool {
	return !c.Spec.Diesel() && c.HasValves() && !c.Flies() && !aircraft(c) && len(c.Every()) >= evenPulls && (c.Complains(misfire) || c.MissSpeed() != "") && !c.OneMisfires() && !c.AnyLow(c.Read()) && !c.PlugsDiffer()
}

// balanceWanted is an engine of which a balance would say where it misfires, or
// whose balance the idle control made up for.
func balanceWanted(c *known.Case, cylinders []string) bool {
	return missesUnknown(c, cylinders) || known.BalanceOpen.HoldsIn(c)
}

func balanceMade(c *known.Case, _ []string) bool {
	return c.Has(known.NeedsTest(known.Balance)) && !known.BalanceOpen.HoldsIn(c)
}

func measuredTest(name string) func(*known.Case, []string) bool {
	return func(c *known.Case, _ []string) bool { return c.Has(known.NeedsTest(name)) }
}

// readIn reports a further test of which something was read or ticked under one of
// these names, of each of the cylinders where it is read by cylinder.
func readIn(section string, names ...string) func(*known.Case, []string) bool {
	return func(c *known.Case, cylinders []string) bool {
		r := c.Measured(section)
		if r == nil {
			return false
		}
		of := func(cylinder string, any bool) bool {
			return slices.ContainsFunc(r.Readings, func(m diag.MeasuredReading) bool {
				return slices.Contains(names, m.Name) && (any || m.Cylinder == "" || m.Cylinder == cylinder)
			}) || slices.ContainsFunc(r.Words, func(w diag.Word) bool {
				return slices.Contains(names, w.Name) && (any || w.Cylinder == "" || w.Cylinder == cylinder)
			})
		}
		return len(cylinders) == 0 && of("", true) || len(cylinders) > 0 && !slices.ContainsFunc(cylinders, func(n string) bool { return !of(n, false) })
	}
}

// keptIn is that of a reading which is not past its limit: one that is, is put right
// and read again.
func keptIn(section, name string) func(*known.Case, []string) bool {
	return func(c *known.Case, _ []string) bool {
		m := c.Measured(section).Reading(name)
		past, _ := known.Past(m)
		return m != nil && !past
	}
}

// needle enters what a vacuum gauge showed at idle, in inHg, and what it fell to
// while the speed was held.
func needle(idle, shut, held float64) func(*Trial) {
	return func(t *Trial) {
		t.measure(known.Vacuum, "idle", "", idle, quantity.InHg)
		t.tick(known.Vacuum, "idle needle", "steady")
		t.measure(known.Vacuum, "snap shut", "", shut, quantity.InHg)
		t.measure(known.Vacuum, "held", "", idle, quantity.InHg)
		t.measure(known.Vacuum, "held later", "", held, quantity.InHg)
	}
}

// onePulls enters a balance in which the first cylinder is hardly missed, or in
// which all are missed alike.
func onePulls(part float64) func(*Trial) {
	return func(t *Trial) {
		t.measureEach(known.Balance, "drop", 90, part, quantity.RPM)
		t.tick(known.Balance, "idle-control", "held")
	}
}

// What a look at a boat's exhaust goes by in the work done, and these with its name.
var (
	elbowWords  = []string{"exhaust elbow looked at", "elbow off", "riser off", "riser gasket", "elbow gasket", "exhaust elbow tested", "riser tested", "exhaust manifold tested", "exhaust manifold pressure tested"}
	elbowLooked = append([]string{"exhaust elbow look"}, elbowWords...)
)

// runningChecks are those of the further tests that are proposed where they
// tell much for a few minutes, with nothing taken apart.
// elbowOnceCranked is where water comes from by a wet exhaust, of an engine in which no liquid was
// seen, only its rust, and that its starter has turned since: what lay in its cylinders is out, by
// the reading or by the camera.
func elbowOnceCranked(c *known.Case) string {
	if !c.WetExhaust() || slices.ContainsFunc(c.Every(), func(n string) bool {
		r := c.Cylinder(n)
		return c.LiquidIn(n) != "" || c.Looks(n, "coolant") || c.WaterIn(n) && (r == nil || r.Dry == nil || c.Grade(n) == diag.High || c.Conditions.PlugsOut != "all" && !c.Looked(n))
	}) {
		return ""
	}
	return "exhaust-elbow-look"
}

var runningChecks = []Check{
	{Name: "flywheel-key-look", Titles: []string{"the flywheel's key", "look at the flywheel key"}, Minutes: 30, Whole: true, Way: Hand | Opens, Fits: func(c *known.Case, _ []string) bool { return c.FlywheelMagneto() },
		Answers: known.KeyMayBeSheared.HoldsIn, Words: []string{"flywheel key looked at", "flywheel off", "flywheel pulled"},
		Outcomes: []Outcome{
			{Name: "sheared or bent", For: []string{"flywheel-key"}, Words: []string{"sheared", "bent", "half through", "chewed"}},
			{Name: "runs out of true", For: []string{"bent-crank"}, Fits: known.StruckDead.HoldsIn, Words: []string{"wobbles", "crankshaft bent", "out of true", "runs out"}, After: []string{"key whole, crankshaft or blade out of true"}},
			{Name: "whole and in place", Else: true, Words: []string{"whole", "good", "in place"}}}},
	{Name: "crank-run-out", Titles: []string{"the crankshaft's end", "run-out of the crankshaft"}, Minutes: 15, Whole: true, Way: Hand, Fits: func(c *known.Case, _ []string) bool {
		return !c.FlywheelMagneto() && known.StruckDead.HoldsIn(c)
	},
		Answers: func(c *known.Case) bool { return true }, Words: []string{"crankshaft run-out measured", "crank run out measured", "propeller flange measured"},
		Outcomes: []Outcome{
			{Name: "runs out", For: []string{"bent-crank"}, Sure: 0.8, Words: []string{"wobbles", "bent", "out of true"}},
			{Name: "runs true", Else: true, Words: []string{"true", "straight"}}}},
	{Name: "exhaust-elbow-look", Titles: []string{"the water-cooled exhaust", "exhaust elbow, riser, manifold"}, Minutes: 30, Whole: true, Way: Opens, Fits: func(c *known.Case, _ []string) bool { return c.WetExhaust() },
		Answers: func(c *known.Case) bool { return c.WetExhaust() }, Words: elbowWords,
		Outcomes: []Outcome{
			{Name: "leaks or rusted through", For: []string{"wet-exhaust"}, Words: []string{"leaks", "rusted through", "holed", "cracked", "fell", "wet"}, After: []string{"it leaks, or is rusted through"}},
			{Name: "dry and tight", Else: true, Words: []string{"dry", "tight", "sound", "holds"}, After: []string{"dry ports, and it holds pressure"}}}},
	{Name: "vacuum-test", Baseline: true, Minutes: 15, Whole: true, Way: Runs, Fits: drawsEvenly, Made: measuredTest(known.Vacuum), Words: []string{"vacuum gauge", "vacuum read", "manifold vacuum"},
		Outcomes: []Outcome{
			{Name: "low and steady", For: []string{"cam-timing", "timing-drive", "cam-phaser", "late-ignition", "air-leak", "manifold-gasket", "egr-open"}, Sure: 0.6, Enter: needle(13.5, 22, 13.5), Words: []string{"low"}},
			{Name: "does not rise as the throttle shuts", For: []string{"rings", "wear"}, Sure: 0.4, Enter: needle(16, 17, 16), Words: []string{"does not rise"}, After: []string{"it hardly rises as the throttle shuts"}},
			{Name: "sinks while held", For: []string{"restricted-exhaust"}, Sure: 0.8, Enter: needle(18.5, 24, 9), Words: []string{"sinks", "falls"}},
			{Name: "steady and right", Else: true, Enter: needle(19, 24, 19), Words: []string{"right"}, After: []string{"it is steady, 17 to 21 inhg near sea level"}}}},
	{Name: "crankcase-pressure-test", Titles: []string{"pressure in the crankcase"}, Baseline: true, Minutes: 20, Whole: true, Way: Runs, Fits: pastAllRings, Made: measuredTest(known.Crankcase), Words: []string{"blow-by measured", "blow-by read", "gas in the crankcase measured"},
		Outcomes: []Outcome{
			{Name: "over its limit", For: []string{"rings", "wear", "stuck-rings", "scored-bore", "piston", "holed-piston", "breather"}, Sure: 0.8, Words: []string{"over", "high"}},
			{Name: "within its limit", Else: true, Words: []string{"within", "little"}}}},
	{Name: "cylinder-balance", Titles: []string{"which cylinder does less"}, Baseline: true, Minutes: 10, Whole: true, Way: Runs, Fits: balanceWanted, Made: balanceMade, Words: []string{"power balance", "balance test", "cylinders cut out"},
		Outcomes: []Outcome{
			{Name: "one is hardly missed", For: []string{"ignition", "injection", "own-spark", "own-injector", "coil-or-lead", "weak-spark", "shared-coil"}, Sure: 0.7, Enter: onePulls(0.05), Words: []string{"hardly", "dead"}},
			{Name: "all alike", Else: true, Enter: onePulls(1), Words: []string{"alike", "even"}}}},
}
