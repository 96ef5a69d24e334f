package cause

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

func cranked(c *known.Case, _ []string) bool { return c.DryRead() || c.Has(known.NeedsRotors) }

// gaugeInDoubt is an engine whose gauge may be what reads low: not one whose own computer
// names the cylinder that reads so far under the others on the same gauge.
func gaugeInDoubt(c *known.Case, cylinders []string) bool {
	coded := c.MisfireOf()
	named := len(cylinders) > 0 && len(coded) > 0 && c.BeyondMethod(cylinders) && !slices.ContainsFunc(cylinders, func(n string) bool { return !slices.Contains(coded, n) })
	return cranked(c, nil) && !named
}

// crankedInDoubt is an engine whose cranking test may be what misleads: not one
// whose pressure is all good, while it is the air lost that is in question.
func crankedInDoubt(c *known.Case, _ []string) bool {
	return cranked(c, nil) && !(c.Sound() && c.Has(known.NeedsLeakage))
}

// methodInDoubt is such an engine but one of which the job says that it was tested by the book: made so
// once more it says no more of some that are low beside others that are even.
func methodInDoubt(c *known.Case, cylinders []string) bool {
	k := c.Conditions
	byTheBook := (k.Throttle == "open" || c.Spec.Diesel()) && !c.ChokeShut() && k.PlugsOut == "all" && k.Strokes > 0 && known.Warmth(k) == "hot" &&
		!slices.ContainsFunc([]string{"slow-cranking", "battery-sags", "not-standard-method", "strokes-differ", "falls-in-test-order", "repeats-disagree", "lower-bound"}, c.Noticed)
	return crankedInDoubt(c, cylinders) && !(byTheBook && c.AllLow() == nil && c.AnyLow(c.Read()) && len(c.Graded(diag.Even)) > 1)
}

// crankedAndTired is an engine of which something was read that a charger may bring up: its
// pressure, with a battery that may have been too weak for it.
func crankedAndTired(c *known.Case, _ []string) bool {
	return cranked(c, nil) && !known.SlowByResistance.HoldsIn(c) && !known.SlowByDrag.HoldsIn(c)
}

func pistons(c *known.Case, _ []string) bool { return !c.Rotary() }
func valves(c *known.Case, _ []string) bool  { return c.HasValves() }

// notWarm is an engine that was not warm in its tests, as far as is known.
func notWarm(c *known.Case, _ []string) bool {
	return c.LeakageCold() || known.Warmth(c.Conditions) != "hot"
}

// afterOil is an engine whose leakage test may have been made on rings that the oil
// of the wet test sealed.
func afterOil(c *known.Case) bool { return len(c.OilBefore()) > 0 }

// leakageRead is an engine with pistons whose leakage was tested, so that it can be again:
// not one that is good throughout, with nothing low and nothing that doubts it.
func leakageRead(c *known.Case, _ []string) bool {
	if c.Rotary() || c.Leakage == nil || c.Leakage.State != diag.Tested {
		return false
	}
	doubted := slices.ContainsFunc([]string{"leakage-reads-nothing", "leak-down-after-oil", "leaks-at-both-valves", "all-leak-to-crankcase", "reading-left-open"}, c.Noticed)
	return doubted || c.AnyLow(c.Read()) || c.AllLow() != nil || slices.ContainsFunc(c.Leaks(), func(l *diag.LeakResult) bool { return *l.Loss > known.GoodLoss }) || len(c.Leaks()) == 0
}

// aircraft is an engine tested as aircraft are: where it leaks it is run, its valves are
// staked and its rings have turned before it is read again.
func aircraft(c *known.Case) bool    { return c.TestedAsAircraft() }
func notAircraft(c *known.Case) bool { return !aircraft(c) }

// toReadAgain is an aircraft engine whose losses were read once: they are read again,
// after a run, before anything is set for them.
func toReadAgain(c *known.Case) bool {
	return aircraft(c) && c.Starts() && len(c.LiquidPossible()) == 0 && !c.WorkDone("leak-down again", "leak-down repeated", "leakage repeated")
}

// readAgainTakes is the time of reading a leakage again: an aircraft engine is run before.
func readAgainTakes(c *known.Case, _ []string) int {
	if aircraft(c) {
		return 30
	}
	return 15
}

// ReadAgainFirst reports cylinders of such an engine that lost too much, though not so much
// that it had better not run, and none of whose plugs says so: nothing else is done to them
// before.
func ReadAgainFirst(c *known.Case, cylinders []string) bool {
	return toReadAgain(c) && len(cylinders) > 0 && !slices.ContainsFunc(cylinders, func(n string) bool {
		loss, read := c.Loss(n)
		return !read || c.PlugTellsOfHarm(n) || !c.HighLoss(n) || loss > known.TorrentLoss || c.Grade(n) == diag.NoPressure
	})
}

// leakHeard are cylinders that were found to lose too much, and where: what they read on
// the starter tells nothing more.
func leakHeard(c *known.Case, cylinders []string) bool {
	return len(cylinders) > 0 && !slices.ContainsFunc(cylinders, func(n string) bool { return !c.HighLoss(n) || !c.PlaceNoted(n) })
}

// repeatedCharged is a test that was made again with a charger on, which says the same.
func repeatedCharged(c *known.Case, _ []string) bool {
	return c.WorkDone("repeat with charger", "repeated with charger", "repeated with a charger")
}

// againChecks test again, or test what was left out.
var againChecks = []Check{
	{Name: "complete-set", Rest: true, Titles: []string{"testing the rest"}, Minutes: 15, MinutesOf: restMinutes, Fits: func(c *known.Case, _ []string) bool { return c.Several() }, Whole: true, Way: Starter, Again: true, Words: []string{"all cylinders tested"},
		Outcomes: []Outcome{{Name: "alike", Enter: readRest(1)}, {Name: "apart", Else: true, Enter: readRest(0.6)}}},
	{Name: "look-at-the-gauge", Then: "second-gauge", Minutes: 1, Whole: true, Again: true, Words: []string{"unit read off", "unit checked"},
		Outcomes: []Outcome{{Name: "another unit", For: []string{"other-unit"}}, {Name: "the same unit", Else: true, After: []string{"as it is written"}}}},
	{Name: "look-up-limit", Titles: []string{"looking up the book's figure", "the book's figure"}, Minutes: 2, Whole: true, Again: true, Fits: func(c *known.Case, _ []string) bool { return !c.FarAboveStandard() }, Words: []string{"limit looked up", "limit checked"},
		Outcomes: []Outcome{{Name: "sea level", For: []string{"altitude"}}, {Name: "another figure", For: []string{"limit-wrong"}}, {Name: "it stands", Else: true}}},
	{Name: "look-up-ratio", Titles: []string{"looking up the ratio", "the engine's compression ratio"}, Minutes: 5, Whole: true, Again: true, Words: []string{"ratio looked up", "compression ratio looked up"}, Fits: func(c *known.Case, _ []string) bool { return c.MayBeOfLowRatio() },
		Outcomes: []Outcome{
			{Name: "a low ratio", For: []string{"low-ratio"}, Words: []string{"low"}, After: []string{"6 to 1 or less"}},
			{Name: "8 to 1 or more", Else: true, Enter: func(t *Trial) { t.Spec.Ratio = 8 }, Words: []string{"higher"}, After: []string{"more than that"}}}},
	{Name: "charge-and-repeat", Titles: []string{"charging and repeating"}, OfTest: true, Minutes: 20, Mends: []string{"weak-cranking"}, Whole: true, Way: Starter, Again: true, Made: repeatedCharged, Words: []string{"battery charged and repeated"},
		Outcomes: []Outcome{{Name: "readings come up", For: []string{"weak-cranking"}, Words: []string{"come up", "came up", "up"}}, {Name: "they stay", Else: true, Words: []string{"stay", "stayed", "same"}}}},
	{Name: "repeat-with-charger", Titles: []string{"again, with a charger", "repeating with a charger"}, Minutes: 10, Whole: true, Way: Starter, Again: true, Fits: crankedAndTired, Words: []string{"repeated with charger", "repeated with a charger"},
		Outcomes: []Outcome{
			{Name: "readings come up", For: []string{"weak-cranking"}, Words: []string{"come up", "came up", "up"}},
			{Name: "the first falls again", For: []string{"gauge-valve-leaks"}, Fits: func(c *known.Case) bool { return c.Several() }, Words: []string{"falls again", "fell again"}, After: []string{"the first one reads less at the end again"}},
			{Name: "they stay", Else: true, Words: []string{"stay", "stayed", "same"}, After: []string{"each reads as before, the first one at the end too"}}}},
	{Name: "repeat-method", Titles: []string{"repeating the test by the book", "the test once more"}, Minutes: 15, Mends: []string{"throttle-or-choke"}, Whole: true, Way: Starter, Again: true, Fits: methodInDoubt, Words: []string{"test repeated", "compression repeated"},
		Outcomes: []Outcome{
			{Name: "readings come up", For: []string{"throttle-or-choke", "weak-cranking", "cold-engine", "adapter-leak"}, Words: []string{"come up", "came up", "up"}},
			{Name: "they stay", Else: true, Enter: byTheBook, Words: []string{"stay", "stayed", "same"}}}},
	{Name: "look-for-decompressor", Titles: []string{"decompressor or not", "looking for a decompressor"}, Minutes: 5, Whole: true, Way: Hand, Words: []string{"decompressor looked for", "compression release looked for"},
		Fits: func(c *known.Case, _ []string) bool {
			return c.MayHaveDecompressor() && c.Spec.Decompressor == "" && !c.ReadHigherBefore()
		},
		Outcomes: []Outcome{
			{Name: "one is fitted", For: []string{"decompressor"}, Words: []string{"fitted", "found", "has one"}},
			{Name: "there is none", Else: true, Enter: func(t *Trial) { t.Spec.Decompressor = "none" }, Words: []string{"none"}}}},
	{Name: "second-gauge", OfTest: true, Gauge: true, Minutes: 10, Mends: []string{"gauge-reads-low", "gauge-valve-leaks"}, Way: Starter, Again: true, Fits: gaugeInDoubt, Answers: (*known.Case).FarAboveStandard, Words: []string{"other gauge", "another gauge"},
		Outcomes: []Outcome{
			{Name: "reads higher", For: []string{"gauge-reads-low", "gauge-valve-leaks", "adapter-leak"}, Words: []string{"higher"}, Fits: func(c *known.Case) bool { return known.GaugeOff(c.Gauges.Compression) <= 0 }},
			{Name: "reads lower", For: []string{"gauge-reads-high"}, Words: []string{"lower"}, Fits: func(c *known.Case) bool { return known.GaugeOff(c.Gauges.Compression) >= 0 }},
			{Name: "reads the same", Else: true, Words: []string{"same", "agrees"}}}},
	{Name: "repeat-wet", Titles: []string{"oil test once more", "repeating the test with oil"}, OfTest: true, Minutes: 20, Way: Starter | Oils, Again: true,
		Fits: func(c *known.Case, cylinders []string) bool {
			return c.OilTells() && c.Has(known.NeedsWet) && !c.WetClear(cylinders) && !oilLeftIt(c, cylinders) && !c.WetWellMade() && c.WetOfAll() != known.WetRises
		},
		Outcomes: []Outcome{
			{Name: "rises", For: []string{"rings", "scored-bore", "stuck-rings", "broken-ring-land", "wear", "dry-bores"}, Words: []string{"rose"}},
			{Name: "tells nothing", Else: true, Mute: true, Words: []string{"nothing"}, After: []string{"both rise alike, or neither", "it hardly rises"}}}},
	{Name: "dry-and-repeat", Titles: []string{"drying and repeating"}, Minutes: 30, Mends: []string{"washed-bore", "flooding"}, Whole: true, Way: Starter, Again: true, Words: []string{"dried and repeated", "cylinders dried"},
		Fits: func(c *known.Case, _ []string) bool {
			return !c.Spec.Diesel() && !c.Rotary() && c.DryRead() && (c.AllLow() != nil || c.Dead() || c.AnyLow(c.Read())) // what may come up
		},
		Outcomes: []Outcome{
			{Name: "recovers", Well: true, For: []string{"washed-bore", "flooding", "dry-bores", "stuck-seals"}, Words: []string{"recovered", "came up"}, After: []string{"the readings come up"}},
			{Name: "stays low", Else: true, Words: []string{"stays", "stayed", "low"}}}},
	{Name: "dry-chambers", Titles: []string{"drying the chambers"}, Minutes: 45, Mends: []string{"flooding"}, Whole: true, Way: Starter, Again: true, Words: []string{"chambers dried", "dried and repeated", "deflooded"},
		Fits: func(c *known.Case, _ []string) bool { return c.Rotary() && !c.Spec.Diesel() },
		Outcomes: []Outcome{
			{Name: "comes up", Well: true, For: []string{"flooding"}, Words: []string{"recovered", "came up"}, After: []string{"the readings come up"}},
			{Name: "stays low", Else: true, Words: []string{"stays", "stayed", "low"}}}},
	{Name: "warm-retest", Titles: []string{"testing again warm"}, Minutes: 60, Whole: true, Way: Runs | Starter, Again: true, Fits: notWarm, Words: []string{"tested warm", "retested warm"},
		Outcomes: []Outcome{
			{Name: "evens out", For: []string{"cold-engine", "carbon-on-seat", "stuck-rings"}, Sure: 0.6, Words: []string{"even"}, After: []string{"the reading comes up"}},
			{Name: "stays apart", Else: true, Words: []string{"stays", "stayed"}, After: []string{"they stay apart"}}}},
	{Name: "compression-test", First: true, Minutes: 40, Whole: true, Way: Starter, Fits: func(c *known.Case, cylinders []string) bool {
		return (pistons(c, nil) || c.Rotary() && c.MainRefused() != nil) && !leakHeard(c, cylinders)
	}, Made: func(c *known.Case, _ []string) bool { return c.DryRead() || c.Has(known.NeedsRotors) },
		Outcomes: []Outcome{
			{Name: "low", For: []string{"low-compression", "rings", "wear", "exhaust-valve", "cam-timing", "washed-bore", "fault-in-each"}},
			{Name: "even", Else: true, After: []string{"high enough"}}}},
	{Name: "leak-down-again", Titles: []string{"leak-down test again", "repeating the leak-down test"}, Minutes: 15, Labour: 15, MinutesOf: readAgainTakes, Mends: []string{"tester-scale", "leak-place-unknown", "plug-or-adapter-thread", "ring-gaps"}, Way: Hand | Runs | Air, Again: true, Fits: leakageRead, Words: []string{"leak-down repeated", "leakage repeated"},
		Answers: func(c *known.Case) bool { return afterOil(c) || aircraft(c) },
		Outcomes: []Outcome{
			{Name: "loses more", For: []string{"rings", "scored-bore", "stuck-rings", "piston", "broken-ring-land", "washed-bore"}, Fits: afterOil, Words: []string{"more"}},
			{Name: "loses less", For: []string{"tester-scale", "ring-gaps", "plug-or-adapter-thread", "cold-engine"}, Fits: notAircraft, Sure: 0.7, Words: []string{"less"}},
			{Name: "holds now", For: []string{"carbon-on-seat", "sticking-valve", "ring-gaps", "tester-scale", "plug-or-adapter-thread", "cold-engine"}, Fits: aircraft, Sure: 0.7, Words: []string{"less", "holds"}},
			{Name: "stays", Else: true, Words: []string{"same", "stayed"}, After: []string{"it loses as much again"}}}},
	{Name: "second-fuel-gauge", Gas: true, Minutes: 10, Whole: true, Way: Runs, Again: true, Words: []string{"another fuel gauge"},
		Outcomes: []Outcome{{Name: "reads otherwise", For: []string{"fuel-gauge-reads-low", "fuel-gauge-reads-high"}, Words: []string{"differs"}}, {Name: "reads the same", Else: true, Words: []string{"same", "agrees"}}}},
	{Name: "ports-look", Titles: []string{"a look at the seals", "look at the seals through the port"}, Minutes: 40, Way: Hand | Opens, Fits: func(c *known.Case, _ []string) bool { return c.Rotary() }, Words: []string{"looked in at the port", "apex seals looked at", "seals looked at"},
		Outcomes: []Outcome{
			{Name: "a seal is broken or stuck", For: []string{"apex-seal", "stuck-seals"}, Words: []string{"broken", "stuck", "chipped"}},
			{Name: "the housing is scored", For: []string{"rotor-wear"}, Words: []string{"scored", "worn"}},
			{Name: "the seals spring back", For: []string{"side-seal", "corner-seal", "flooding"}, Else: true, Words: []string{"spring back", "good"}}}},
	{Name: "mend-found", Minutes: 30, Whole: true, Way: Starter, Mends: faultsPutRight, Fits: mendable, Words: []string{"put right what was found"},
		Outcomes: []Outcome{
			{Name: "gone", For: faultsPutRight, Words: []string{"gone", "cured"}},
			{Name: "still there", Else: true, Words: []string{"still", "no change"}}}},
	{Name: "face-peaks", First: true, Titles: []string{"each face by itself", "reading every face apart"}, Minutes: 15, Way: Starter, Again: true, Made: facesMeasured, Fits: func(c *known.Case, _ []string) bool { return c.Rotary() }, Words: []string{"faces tested again"},
		Outcomes: []Outcome{
			{Name: "same faces low", For: []string{"apex-seal", "side-seal", "corner-seal", "rotor-wear"}, Words: []string{"same"}},
			{Name: "faces agree", Else: true, Words: []string{"agree"}}}},
}

// faultsPutRight are the causes that are put right as what the technician found is.
var faultsPutRight = []string{"inlet-deposits", "ignition", "coil-or-lead", "own-spark", "moisture-at-plug", "injection", "own-injector", "leaking-injector", "restricted-exhaust", "egr-open", "air-leak", "manifold-gasket", "air-filter", "fuel-filter", "pump-circuit", "bad-fuel",
	"supply-restricted", "temperature-signal", "air-meter", "purge-valve", "carburettor", "breather", "battery", "reed-valve", "power-valve", "coolant-flow", "thermostat", "too-hot", "glow-plug", "boost-leak", "throttle-deposits", "return-blocked", "air-in-fuel", "late-ignition", "early-ignition", "drive-plate", "driven-part", "hung-on", "injector-seat"}

// mendable is an engine on which the technician found something of these kinds, and
// no cylinder that is low.
func mendable(c *known.Case, _ []string) bool {
	return (c.FaultToMend() || len(c.DepositsSeen()) > 0) && !c.AnyLow(c.Read()) && c.AllLow() == nil
}

// facesMeasured reports faces read apart, all of them, at a speed that was
// recorded: a rotary tester did that.
func facesMeasured(c *known.Case, _ []string) bool {
	return c.Has(known.NeedsRotors) && c.Sums.Rotors.Complete && c.Test.Rotors.CrankingRPM > 0
}

// restMinutes is longer where what is in the way comes off first: judgement, no source.
func restMinutes(c *known.Case, cylinders []string) int {
	if slices.ContainsFunc(cylinders, func(n string) bool { return c.OutOfReach(n) || c.SeizedShut(n) }) {
		return 60
	}
	return 15
}
