package cause

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
	"gaugesheet/diag/quantity"
)

// oilCauses are what lets oil pressure be wrong.
var oilCauses = []Cause{
	{Name: "too-little-oil", Explains: []string{noise, oilUse, oilLight}, Advice: "advice-oil"},
	{Name: "thin-oil", Explains: []string{oilLight}, Advice: "advice-oil"},
	{Name: "thick-oil", Advice: "advice-oil"},
	{Name: "worn-bearings", Explains: []string{noise, oilLight}, Advice: "advice-bottom-end"},
	{Name: "oil-pump", Explains: []string{noise, oilLight}, Advice: "advice-bottom-end"},
	{Name: "oil-pick-up", Explains: []string{noise, oilLight}, Advice: "advice-oil"},
	{Name: "oil-relief-valve", Explains: []string{oilLight}, Advice: "advice-oil"},
	{Name: "oil-sender", Explains: []string{oilLight}, Advice: "advice-repeat", Test: true},
	{Name: "maker-asks-less", Advice: "advice-maker-figure", Test: true},
	{Name: "dash-reads-low", Explains: []string{oilLight}},
	{Name: "coolant-in-oil", Fits: wet, Explains: coolants, Advice: "advice-gasket"},
}

func oiled(c *known.Case, _ []string) bool { return c.Has(known.NeedsTest(known.Oil)) }

// oilLevelRead is an engine whose oil level the job has.
func oilLevelRead(c *known.Case) bool {
	r := c.Measured(known.Oil)
	return r != nil && r.Word("oil level") != ""
}

// oilSound is an engine whose oil is not known to be thinned by fuel: that is
// changed before anything is taken apart for its pressure.
func oilSound(c *known.Case, _ []string) bool {
	return oiled(c, nil) && !known.OilSmells.HoldsIn(c)
}

// knocks is an engine with a sump that makes a noise, of which nobody said that it comes
// from above, or whose oil light comes on.
func knocks(c *known.Case, _ []string) bool {
	return c.HasValves() && (c.Complains(noise) && !c.AnyLow(c.Read()) || slices.Contains(c.Complaints(), oilLight))
}

// knocksWithoutOil is an engine that makes a noise under oil pressure that is low on a
// gauge of one's own: metal in the oil or its filter says more of the bearings than
// anything that is taken apart for the pressure.
func knocksWithoutOil(c *known.Case) bool {
	return (c.Complains(noise) || known.NoiseBelow.HoldsIn(c)) && known.OilLowAtAll.HoldsIn(c) && known.OilByOwnGauge.HoldsIn(c)
}

// shortThroughout is oil pressure that is short though it rises as it should: the oil is cheaper than
// the bearings, and told from them by changing it.
var shortThroughout = known.All(known.OilUnderLimit, known.OilClimbs, known.OilByOwnGauge, known.Not(known.OilFallsFast))

// oilAt enters pressures on a gauge of one's own, at idle and at 2500 rpm, in psi.
func oilAt(idle, fast float64) func(*Trial) {
	return func(t *Trial) {
		t.tick(known.Oil, "gauge", "screwed in")
		m := t.section(known.Oil)
		m.Readings = append(m.Readings,
			diag.Measurement{Name: "idle", At: "750 rpm", Unit: quantity.PSI, Reading: reading(idle)},
			diag.Measurement{Name: "at-speed", At: "2500 rpm", Unit: quantity.PSI, Reading: reading(fast)})
	}
}

// doubtedGauge is oil pressure that was read on what the vehicle shows.
func doubtedGauge(c *known.Case, _ []string) bool {
	r := c.Measured(known.Oil)
	return r != nil && !known.OnOwnGauge(r)
}

// senderDoubted is such a gauge, or one that a gauge of one's own has contradicted.
func senderDoubted(c *known.Case, _ []string) bool {
	return doubtedGauge(c, nil) || oiled(c, nil) && known.OilShownLow.HoldsIn(c)
}

// oilUseChecks tell by which way an engine that uses oil loses it.
var oilUseChecks = []Check{
	{Name: "smoke-on-overrun", First: true, Titles: []string{"watching the smoke"}, Minutes: 10, Whole: true, Way: Runs,
		Fits: func(c *known.Case, cylinders []string) bool {
			return c.HasValves() && !c.AnyLow(cylinders) && !aircraft(c)
		}, Words: []string{"smoke watched"},
		Made: func(c *known.Case, _ []string) bool { return len(c.History.Smoke.When) > 0 },
		Outcomes: []Outcome{
			{Name: "a puff", For: []string{"guides-or-seals"}, Sure: 0.7, Words: []string{"puff", "overrun"}},
			{Name: "steady under load", For: []string{"rings", "oil-control-rings", "wear", "turbo-seal"}, Sure: 0.3, Words: []string{"steady", "load"}},
			{Name: "none", Else: true, After: []string{"no blue smoke"}}}},
	{Name: "breather-and-oil-level", Titles: []string{"crankcase vent and oil level", "vent and oil level"}, Minutes: 10, Mends: []string{"breather", "too-much-oil"}, Whole: true, Words: []string{"breather", "pcv"}, Fits: func(c *known.Case, _ []string) bool { return !quietVent(c) },
		Outcomes: []Outcome{{Name: "over-full or blocked", For: []string{"breather", "too-much-oil"}, Words: []string{"blocked", "over-full"}}, {Name: "both right", Else: true, Clears: true, Words: []string{"right", "clear"}}}},
	{Name: "guides-look", Titles: []string{"valve guides and seals"}, Minutes: 90, Whole: true, Way: Hand | Opens, Fits: func(c *known.Case, _ []string) bool {
		return c.HasValves() && (c.UsesOil() || c.Smokes("blue")) && !c.AnyLow(c.Read())
	}, Words: []string{"valve seals looked at", "stem seals looked at", "valve stems rocked"},
		Outcomes: []Outcome{
			{Name: "loose or hard", For: []string{"guides-or-seals"}, Sure: 0.8, Words: []string{"loose", "hard", "split", "worn"}},
			{Name: "firm and soft", Else: true, Words: []string{"firm", "soft", "good"}}}},
	{Name: "oil-consumption", Titles: []string{"measuring the oil use"}, Minutes: 30, Whole: true, Way: Runs, Fits: sealsForMiles,
		Made: func(c *known.Case, _ []string) bool { return c.History.OilUse != "" }, Words: []string{"oil use measured"},
		Outcomes: []Outcome{{Name: "high", Mute: true, Sure: 0.4, For: []string{"oil-control-rings", "guides-or-seals", "rings", "wear", "oil-burning"}, After: []string{"more than the book allows"}}, {Name: "low", Else: true, After: []string{"within the book"}}}},
}

// sealsForMiles is an engine with valves that may be driven for days: no cylinder of it lets
// more past its piston than worn rings do.
func sealsForMiles(c *known.Case, cylinders []string) bool {
	if c.Flies() && slices.ContainsFunc(c.Every(), c.HighLoss) { // which is settled before the next flight, and not flown to see
		return false
	}
	return valves(c, cylinders) && !slices.ContainsFunc(c.Leaks(), func(l *diag.LeakResult) bool {
		return l.Loss != nil && *l.Loss > known.ActLoss && slices.Contains(l.At, known.AtCrankcase) && c.LeakTooHigh(l)
	})
}

// oilChecks tell why oil pressure is wrong, the cheap and harmless first.
var oilChecks = []Check{
	{Name: "oil-pressure-test", Baseline: true, Titles: []string{"oil pressure test"}, Minutes: 15, Whole: true, Way: Runs, Fits: knocks, Made: oiled, Words: []string{"oil pressure read", "oil pressure measured", "oil pressure checked"},
		Outcomes: []Outcome{
			{Name: "low", For: []string{"worn-bearings", "bottom-end", "oil-pump", "oil-relief-valve", "too-little-oil", "thin-oil"}, Sure: 0.7, Enter: oilAt(5, 14), After: []string{"under 10 psi for every 1000 rpm"}},
			{Name: "right", Else: true, Enter: oilAt(20, 48), Words: []string{"good", "within", "ok"}, After: []string{"10 psi or more for every 1000 rpm"}}}},
	{Name: "oil-level", Baseline: true, Minutes: 2, Whole: true, Words: []string{"oil level checked", "dipstick"},
		Fits: func(c *known.Case, _ []string) bool { // what a quiet crankcase leaves of the vent and oil level
			return oiled(c, nil) || knocks(c, nil) || quietCrankcase(c)
		},
		Made: func(c *known.Case, _ []string) bool { return oilLevelRead(c) },
		Outcomes: []Outcome{
			{Name: "low", For: []string{"too-little-oil"}, Enter: oilWord("oil level", "low")},
			{Name: "over full", For: []string{"fuel-in-oil", "coolant-in-oil", "too-much-oil"}, Enter: oilWord("oil level", "over full"), Words: []string{"over full"}},
			{Name: "right", Else: true, Enter: oilWord("oil level", "right")}}},
	{Name: "own-oil-gauge", OfTest: true, Minutes: 15, Whole: true, Way: Runs, Again: true, Fits: doubtedGauge, Words: []string{"own oil gauge", "gauge at the gallery", "mechanical gauge"},
		Outcomes: []Outcome{
			{Name: "reads right", For: []string{"oil-sender"}, Words: []string{"reads right", "good"}, After: []string{"it reads within the limit"}},
			{Name: "reads the same", Else: true, Enter: oilWord("gauge", "screwed in"), Words: []string{"same", "low"}}}},
	{Name: "maker-oil-figure", Titles: []string{"the maker's oil pressure"}, OfTest: true, Minutes: 2, Whole: true, Again: true,
		Fits: func(c *known.Case, _ []string) bool {
			return known.OilUnderRule.HoldsIn(c) || known.OilNear.HoldsIn(c) && known.OilByOwnGauge.HoldsIn(c) && !known.OilNearLeast(c.Measured(known.Oil)).Limited()
		}, Words: []string{"oil pressure looked up", "maker's oil pressure looked up"},
		Outcomes: []Outcome{
			{Name: "as much as was read", For: []string{"maker-asks-less"}, Words: []string{"no more", "less"}, After: []string{"no more than was read"}},
			{Name: "more than was read", Else: true, Words: []string{"more"}, After: []string{"more than was read"}}}},
	{Name: "oil-gauge-hand", Titles: []string{"sender and its wire"}, OfTest: true, Minutes: 20, Whole: true, Again: true, Fits: senderDoubted, Words: []string{"sender checked"},
		Outcomes: []Outcome{
			{Name: "the sender is wrong", For: []string{"oil-sender", "dash-reads-low"}, Words: []string{"wrong", "faulty"}},
			{Name: "the sender is right", For: []string{"dash-reads-low"}, Else: true, Enter: oilWord("gauge", "screwed in"), Words: []string{"right"}}}},
	{Name: "fill-to-the-mark", Titles: []string{"oil to the mark"}, Minutes: 8, Whole: true, Way: Runs, Mends: []string{"too-little-oil"}, Words: []string{"oil topped up", "topped up", "oil filled up", "filled to the mark"},
		Fits: func(c *known.Case, _ []string) bool {
			return oiled(c, nil) && c.Measured(known.Oil).Word("oil level") == "low"
		},
		Outcomes: []Outcome{
			{Name: "pressure comes back", For: []string{"too-little-oil"}, Words: []string{"comes back", "came back", "right"}, After: []string{"the level stays there"}},
			{Name: "it stays low", Else: true, Words: []string{"stays", "stayed", "low"}, After: []string{"the level has fallen again"}}}},
	{Name: "oil-grade-look", Titles: []string{"the oil's grade"}, Minutes: 2, Whole: true, Fits: func(c *known.Case, _ []string) bool {
		return oiled(c, nil) && (known.OilOverLimit.HoldsIn(c) || known.OilOverUsual.HoldsIn(c))
	}, Words: []string{"oil grade looked up", "grade looked up"},
		Outcomes: []Outcome{
			{Name: "thicker than the book", For: []string{"thick-oil"}, Words: []string{"thicker", "too thick"}},
			{Name: "as the book has it", Else: true, Words: []string{"right", "as the book"}}}},
	{Name: "fresh-oil", Minutes: 60, Labour: 40, Whole: true, Way: Parts | Runs, Mends: []string{"thin-oil", "thick-oil", "fuel-in-oil"}, Fits: oiled, Answers: shortThroughout.HoldsIn, Words: []string{"oil changed", "fresh oil", "oil and filter changed"},
		Outcomes: []Outcome{
			{Name: "pressure is right", For: []string{"thin-oil", "thick-oil", "fuel-in-oil"}, Words: []string{"recovers", "right"}},
			{Name: "stays low", Else: true, Words: []string{"stays", "stayed", "low"}}}},
	{Name: "relief-valve-look", Titles: []string{"relief valve"}, Minutes: 40, Whole: true, Way: Opens, Mends: []string{"oil-relief-valve"}, Fits: oilSound, Words: []string{"relief valve out", "relief valve looked at"},
		Outcomes: []Outcome{
			{Name: "stuck or worn", For: []string{"oil-relief-valve"}, Words: []string{"stuck", "worn", "broken"}},
			{Name: "moves freely", Else: true, Words: []string{"free", "freely"}}}},
	{Name: "sump-off", Minutes: 180, Whole: true, Way: Opens, Fits: func(c *known.Case, _ []string) bool { return oilSound(c, nil) || known.MetalInOil.HoldsIn(c) }, Words: []string{"sump off", "oil pan off", "bearings looked at", "bearings measured"},
		Outcomes: []Outcome{
			{Name: "bearings worn", For: []string{"worn-bearings", "bottom-end"}, Words: []string{"worn", "scored"}},
			{Name: "pick-up or pump", For: []string{"oil-pump", "oil-pick-up"}, Words: []string{"pick up", "pump"}},
			{Name: "bearings good", Else: true, Words: []string{"good"}, After: []string{"bearings and pump are good"}}}},
	{Name: "strainer-look", Titles: []string{"oil strainer", "look at the oil strainer"}, Minutes: 90, Whole: true, Way: Opens, Mends: []string{"oil-pick-up"}, Words: []string{"oil pan off", "sump off", "strainer looked at", "pick-up looked at"},
		Fits: holds(known.Any(known.OilClogged, known.OilFallsFast)), Answers: known.Any(known.OilClogged, known.OilFallsFast).HoldsIn,
		Outcomes: []Outcome{
			{Name: "it draws air", For: []string{"oil-pick-up"}, Words: []string{"air", "joint", "o-ring", "cracked", "loose"}, After: []string{"its joint or its pipe lets air in"}},
			{Name: "it is clogged", For: []string{"oil-pick-up"}, Words: []string{"clogged", "blocked", "full of"}},
			{Name: "it is clear", Else: true, Words: []string{"clear", "clean"}}}},
	{Name: "filter-cut", Minutes: 40, Whole: true, Way: Opens, Mends: []string{"fuel-in-oil", "thin-oil"}, Fits: func(c *known.Case, _ []string) bool {
		ran := !c.WillNotStart() || c.Complains(noise) // bearings that never turned on it have not suffered
		return ran && known.OilOverFull.HoldsIn(c) && known.OilSmells.HoldsIn(c) || known.OilNone.HoldsIn(c) || known.OilStarves.HoldsIn(c) || knocksWithoutOil(c)
	}, Answers: knocksWithoutOil, Made: holds(known.MetalLookedFor), Words: []string{"filter cut", "filter cut open", "oil drained"},
		Outcomes: []Outcome{
			{Name: "metal in it", For: []string{"worn-bearings", "bottom-end"}, Sure: 0.8, Words: []string{"metal", "glitter"}},
			{Name: "no metal", Else: true, Words: []string{"none", "clean"}}}},
	{Name: "oil-analysis", Titles: []string{"looking at the oil"}, Minutes: 15, Labour: 15, Whole: true, Fits: func(c *known.Case, _ []string) bool {
		return known.OilOverFull.HoldsIn(c) && !known.OilSmells.HoldsIn(c) // that smells of fuel is known
	}, Words: []string{"oil analysed", "oil looked at"},
		Outcomes: []Outcome{
			{Name: "fuel in it", For: []string{"fuel-in-oil"}, Words: []string{"fuel"}},
			{Name: "coolant in it", Fits: func(c *known.Case) bool { return !c.AirCooled() }, For: []string{"coolant-in-oil"}, Words: []string{"coolant", "water"}},
			{Name: "only oil", Else: true, Words: []string{"oil only", "clean"}, After: []string{"nothing but oil"}}}},
}

// oilWord enters what was ticked of the oil.
func oilWord(name, value string) func(*Trial) {
	return func(t *Trial) { t.tick(known.Oil, name, value) }
}
