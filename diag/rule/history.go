package rule

import (
	"slices"
	"strconv"

	"gaugesheet/diag"
	"gaugesheet/diag/engine"
	"gaugesheet/diag/known"
	"gaugesheet/diag/quantity"
)

// historyRules are on what is told of the engine: that it stood, that liquid
// may lie in it, what was refused, and the complaints that nothing explains.
var historyRules = []Rule{
	{
		Name: "liquid-in-cylinder", Title: "Signs of liquid in a cylinder", Class: TestItself, About: diag.AboutCylinders,
		Why: "Liquid takes up room that the air should have and raises the reading. Enough of it stops the piston on its way up, and the starter then bends what is in between. " +
			"The plugs come out and the engine is turned by hand before anything else.",
		Source: "US Army TM 10-3930-647-14&P, para 4-40 (a high reading: deposits); liquid, and oil in the lower cylinders of a radial engine: common practice, no source",
		Of:     eachCylinder, When: known.Any(liquidSeen, highAndWet, highAndCoolant, oilyBelow),
		Kind: OfSight, Weigh: liquidVoices, Say: liquidSays, Headline: "liquid-in-cylinder", Variants: []string{"coolant", "below", "ran-down", "seen"}, Warns: true,
		SaysBetterThan: []string{"one-high", "coolant-washed", "oil-wet", "fuel-wet"},
		InsteadOf:      []string{"guides-or-breather", "wet-with-fuel-and-sealing"}, // both say that the cylinder seals well
	},
	{
		Name: "stood-engine", Title: "The engine stood for long", Class: TestItself, About: diag.AboutCylinders,
		Why:    "In an engine that stood the bores run dry, rings stick and seats rust. It reads low at first and often recovers with use, so low readings are provisional until it has run. Where it runs again, and was warm as it was tested, a few that are low among many are judged as they read: what standing does it does to all, but for a ring or a valve that stuck.",
		Source: "common practice, no source", Variants: []string{"low", "ran"},
		Of: lowOrEngine, When: known.StoodLong,
		Kind: OfHistory, Weigh: stoodVoices, Say: stoodEngine, Headline: "stood",
	},
	{
		Name: "stood-and-sound", Title: "It stood, and nothing stuck", Class: Information, About: diag.AboutEngine,
		Why:    "That an engine stood is how it came here, and no trouble by itself. What sticks as it stands, rings and valves, loses air and pressure; where every cylinder was read and holds them, nothing has stuck.",
		Source: "follows from how the engine works",
		Of:     theEngine, When: known.All(known.StoodShort, known.Not(known.StoodLong)), Kind: OfHistory, Say: func(c *known.Case, _ known.Subject) diag.Finding {
			return diag.Finding{Urgency: diag.NoAction, Confidence: diag.Fair, Facts: diag.Facts{"months": monthsStood(c), "leakage": c.Has(known.NeedsLeakage)}}
		}, Headline: "see-findings",
	},
	{
		Name: "tests-declined", Title: "The main tests were refused or not made", Class: TestItself, About: diag.AboutEngine,
		Why:    "Whether an engine seals is told by its compression or its leakage. Where the job says that neither was made, whatever else was looked at cannot stand in for them.",
		Source: "follows from what was not read", Variants: []string{"not-told", "beside"},
		Of: theEngine, Repeat: "compression-test", When: known.OfEngine("the job says that compression or leakage was declined, could not be tested, was not tested or not told, and neither was read", func(c *known.Case) bool { return c.MainRefused() != nil }),
		Kind: OfHistory, Say: testsDeclined, Headline: "tests-declined",
	},
	{
		Name: "came-in-cleared", Title: "Codes cleared before it came, or hot when a buyer came", Class: Elsewhere, About: diag.AboutEngine,
		Why: "A computer whose memory was cleared has nothing to tell until its monitors have run, and an engine that is warm already hides how it starts, smokes and knocks cold. Sound readings stand; " +
			"what was not there to be seen is seen in one cold start and one drive.",
		Source: "common practice, no source",
		Of:     theEngine, Repeat: "cold-start-and-drive", When: known.All(known.Any(known.MemoryCleared, known.HotForBuyer), known.Not(known.Diesel), known.OfEngine("an engine that starts", (*known.Case).Starts)),
		Kind: OfHistory, Say: func(c *known.Case, s known.Subject) diag.Finding {
			return diag.Finding{Urgency: diag.CheckAgain, Confidence: diag.Fair, Facts: diag.Facts{"cleared": known.MemoryCleared.Holds(c, s), "hot": known.HotForBuyer.Holds(c, s), "buyer": c.History.ForBuyer}}
		}, Headline: "came-in-cleared",
	},
	{
		Name: "gas-test-not-proof", Title: "No gas found in the coolant, by a test that proves little", Class: Single, About: diag.AboutSystem,
		Why: "A leak that opens only hot, or under load, passes no gas into the coolant of a cold engine in a minute. An engine that loses coolant is not cleared by such a test: it is repeated hot, " +
			"for 5 minutes at least, or after a drive.",
		Source: "common practice, no source; 5 minutes: judgement",
		Of:     ofSystem(known.Cooling), When: known.All(known.NoGasWeak, losesCoolant, known.Not(known.AirCooled)),
		Kind: OfCoolant, For: pathToCoolant(Hint, Hint-rarer), Say: func(c *known.Case, _ known.Subject) diag.Finding {
			minutes := ""
			if m := c.GasTest.Minutes; m > 0 {
				minutes = diag.Number{Value: m, Decimals: quantity.DecimalsRead(m, 0)}.String()
			}
			return diag.Finding{Urgency: diag.CheckAgain, Confidence: diag.Weak, Facts: diag.Facts{"cold": c.GasTest.Engine == "cold", "minutes": minutes}}
		}, Headline: "gas-not-proof",
	},
	{
		Name: "cranked-too-slowly", Title: "An engine that starts badly turned too slowly, or its readings came up with a charger on", Class: Single, About: diag.AboutEngine,
		Why: "What lowers a compression test that way turns the engine too slowly on the road as well: a battery that is flat or worn out, a cable that resists, a starter that drags. " +
			"It answers a complaint of hard starting before anything inside the engine does.",
		Source: "common practice, no source",
		Of:     theEngine, TiesSystems: []string{known.Starting}, When: known.Any(known.CameUpWithCharger, known.SlowAndStartsBadly), Kind: OfHistory, Weigh: turnedTooSlowly,
		Say: func(c *known.Case, s known.Subject) diag.Finding {
			f := diag.Finding{Urgency: diag.CheckAgain, Confidence: diag.Fair, Facts: diag.Facts{}}
			if !known.CameUpWithCharger.Holds(c, s) {
				f.Variant = "seen"
				f.Facts["rpm"], f.Facts["volts"], f.Facts["drags"] = "", "", known.SlowByDrag.Holds(c, s)
				f.Facts["read"] = c.Has(known.NeedsCompression) || c.Has(known.NeedsRotors)
				if known.SlowByDrag.Holds(c, s) {
					f.Headline = "starter-drags"
				}
				if c.TurnsSlowly() {
					f.Facts["rpm"] = diag.Number{Value: c.CrankingSpeed(), Unit: "rpm"}.String()
				}
				if _, sags := c.BatterySags(); sags {
					f.Facts["volts"] = diag.Number{Value: *c.Conditions.Battery.CrankingV, Decimals: 1, Unit: "V"}.String()
				}
			}
			return f
		},
		Headline: "cranked-too-slowly", Variants: []string{"seen"},
	},
	{
		Name: "stopped-by-a-blow", Title: "The blade or propeller hit something", Class: Single, About: diag.AboutEngine, Ties: []diag.About{diag.AboutMixture},
		Why: "What stops a blade or a propeller dead twists the crankshaft, shears the key that holds the flywheel to it and loosens what it carries. An engine that still runs can throw its blade, or break its crankshaft, at full speed. " +
			"It is looked at by hand before it runs, whether or not it starts.",
		Source: "common practice, no source",
		Of:     theEngine, When: known.StruckDead, Kind: OfHistory, For: append(speaks(Heard, "flywheel-key"), speaks(Known, "bent-crank")...),
		Say: func(c *known.Case, _ known.Subject) diag.Finding {
			return diag.Finding{Urgency: diag.DoNotRun, Confidence: diag.Fair, Facts: diag.Facts{"flies": c.Flies(), "key": c.FlywheelMagneto()}}
		},
		Headline: "stopped-by-a-blow", StopsFor: []string{"flywheel-key-look", "crank-run-out"}, InsteadOf: []string{"sealing-sound-look-elsewhere"},
	},
	{
		Name: "noise-below", Title: "A noise that is loudest at the block", Class: Single, About: diag.AboutEngine,
		Why: "A knock from below is a bearing or a piston, and what it costs grows with every mile. The oil pressure, read hot on a gauge, is the one look at the bearings that takes nothing apart; " +
			"until it was read the engine is driven as little as can be.",
		Source: "common practice, no source",
		Of:     theEngine, When: known.NoiseBelow, Kind: OfHistory, For: append(speaks(Known, "bottom-end"), speaks(Hint, "piston", "too-little-oil")...),
		Say: func(*known.Case, known.Subject) diag.Finding {
			return diag.Finding{Urgency: diag.ActSoon, Confidence: diag.Fair, Facts: diag.Facts{}}
		},
		Headline: "noise-below",
	},
	{
		Name: "noise-beside", Title: "A noise that comes from beside the cylinders", Class: Single, About: diag.AboutEngine,
		Why: "A cracked drive plate, a loose bolt of the converter, an idler or an alternator knocks and rattles as a bearing does, and engines have been taken apart for it. " +
			"What is loudest there, or stays as it is with each cylinder cut out, is looked for outside before anything is opened.",
		Source: "common practice, no source",
		Of:     theEngine, When: known.Any(known.NoiseAtSide, known.All(known.NoiseUnmoved, known.NoiseNowhere)), Kind: OfHistory, Weigh: besideVoices,
		Say: func(c *known.Case, _ known.Subject) diag.Finding {
			loud := c.NoiseLoudest()
			urgency := diag.CheckAgain
			if slices.Contains(loud, known.NoiseAtPlate) { // which lets go at speed
				urgency = diag.ActSoon
			}
			return diag.Finding{Urgency: urgency, Confidence: diag.Fair,
				Facts: diag.Facts{"plate": slices.Contains(loud, known.NoiseAtPlate), "driven": slices.Contains(loud, known.NoiseAtDriven), "heard": len(loud) > 0, "unmoved": known.NoiseUnmoved.HoldsIn(c)}}
		},
		Headline: "noise-beside", InsteadOf: []string{"sealing-sound-look-elsewhere"},
	},
	{
		Name: "blue-from-above", Title: "Blue smoke at the start or on the overrun, and cylinders that seal", Class: Single, About: diag.AboutEngine,
		Why: "Oil that runs down the valve stems while the engine stands burns as one blue puff at the start, and what the closed throttle draws down on the overrun burns as the throttle opens again. " +
			"Worn rings smoke under load. Where no cylinder is low such an engine has hard stem seals or worn guides, and can be driven with them.",
		Source: "common practice, no source",
		Of:     theEngine, When: known.All(known.Valves, known.Not(puffAlone), smoke("blue smoke at the start or on the overrun", "blue", "start", "overrun"), known.Not(smoke("blue smoke under load or always", "blue", "load", "always")),
			known.OfEngine("compression or leakage read, and no cylinder low", func(c *known.Case) bool { return c.SealingRead() && len(c.LowSet()) == 0 && c.AllLow() == nil }),
			known.OfEngine("no plug wet with oil", func(c *known.Case) bool { return len(c.PlugsLooking("oil-wet")) == 0 })),
		Kind: OfRunning, Weigh: oilFromAbove,
		Say: func(c *known.Case, _ known.Subject) diag.Finding {
			return diag.Finding{Urgency: diag.CheckAgain, Confidence: diag.Fair, Facts: diag.Facts{"start": c.Smokes("blue", "start"), "charged": c.Spec.Charging == "turbo"}}
		}, Headline: "blue-from-above",
	},
	{
		Name: "puff-at-start", Title: "A puff of blue smoke as a flat or radial engine starts", Class: Information, About: diag.AboutEngine,
		Why: "While a flat or radial engine stands, oil runs past the rings into cylinders that lie or hang, and is burnt as it starts. A puff that clears within a minute is usual there and says nothing of wear; " +
			"smoke under load or as it slows is another matter.",
		Source: "common practice, no source",
		Of:     theEngine, When: puffAlone,
		Kind: OfHistory, Say: func(c *known.Case, _ known.Subject) diag.Finding {
			return diag.Finding{Urgency: diag.NoAction, Confidence: diag.Fair, Facts: diag.Facts{"hangs": c.Engine.Kind != engine.Flat, "oil": c.UsesOil()}}
		}, Headline: "see-findings",
	},
	{
		Name: "steam-at-start", Title: "White smoke as a cold engine starts, and at no other time", Class: Information, About: diag.AboutEngine,
		Why: "What burns makes water, and a cold exhaust holds it until the next start blows it out as steam. It is gone as the exhaust gets warm and says nothing of the engine; white smoke that stays, or coolant that is missed, is another matter. " +
			"A diesel that starts in the frost blows out the fuel that its first cold strokes do not light; where it starts well and clears within a minute or two that is usual.",
		Source: "follows from how the engine works",
		Of:     theEngine, When: known.OfEngine("white smoke at the start and at no other time, no coolant missed and not too hot, of a diesel also nothing else complained of, in the frost, and said to clear", (*known.Case).SteamAtStart),
		Kind: OfHistory, Say: func(c *known.Case, _ known.Subject) diag.Finding {
			return diag.Finding{Urgency: diag.NoAction, Confidence: diag.Fair, Facts: diag.Facts{"diesel": c.Spec.Diesel()}}
		}, Headline: "see-findings",
	},
	{
		Name: "complaint-not-explained", Title: "A complaint that these tests do not explain", Class: Elsewhere, About: diag.AboutEngine,
		Why: "Whoever came with a complaint wants it answered. Where no cause that was found explains it, the sheet says so by name, and what would: " +
			"silence would read as if all were well.",
		Source: "common practice, no source",
		Of:     Scope{Words: "a complaint of the job, or a stored misfire, that no cause found explains", Of: func(*known.Case) []known.Subject { return nil }},
		Kind:   OfHistory, Say: complaintsOpen, Headline: "not-explained", Unexplained: true,
	},
}

// oilFromAbove: a turbocharger whose seal lets go smokes as the throttle closes too; and as it
// idles, when little presses its oil back. A diesel, which has no throttle, draws none down its stems.
func oilFromAbove(c *known.Case, _ known.Subject) []Voice {
	turbo := Known - rarer
	if c.Smokes("blue", "idle") || c.Spec.Diesel() && c.Smokes("blue", "overrun") {
		turbo = Known + DryUp + rarer
	}
	return slices.Concat(speaks(Known, "guides-or-seals"), where(c.Spec.Charging == "turbo", speaks(turbo, "turbo-seal")), speaks(Hint, "breather"))
}

// puffAlone is oil that ran down while the engine stood.
var puffAlone = known.OfEngine("a flat, radial or inverted engine that smokes blue at the start and at no other time, no cylinder low and no scored wall seen", func(c *known.Case) bool {
	return c.PuffAtStart() && !readsLow(c) && !c.AnySeen(c.Every(), known.ScoredWords)
})

var (
	liquidSeen     = liquid("liquid seen in it", known.LiquidSeen)
	highAndWet     = liquid("graded high, and its plug wet or washed", known.LiquidWetPlug)
	highAndCoolant = liquid("graded high, in an engine that loses coolant", known.LiquidCoolant)
	liquidLies     = known.Any(liquidSeen, highAndWet, highAndCoolant, oilyBelow)
	oilyBelow      = liquid("an oily plug in a cylinder that hangs below the crankshaft", known.LiquidBelow)
)

func liquid(words string, why known.Liquid) known.Condition {
	return known.OfAll(words, func(c *known.Case, n string) bool { return c.LiquidIn(n) == why })
}

// liquidVoices name the liquid by what was seen of it: oil where the plug is
// oily or the cylinder hangs, coolant or fuel else.
func liquidVoices(c *known.Case, s known.Subject) []Voice {
	if ranDown(c, s.Cylinders) { // as it does in every such engine: nothing is suspected for it but that it fouls its plug
		return where(c.Complains("misfire", known.RoughRunning), as(OfPlugs, speaks(Sight, "oil-in-bore")))
	}
	weight, kind := Sight, OfPlugs
	switch c.LiquidIn(s.Name()) {
	case known.LiquidCoolant:
		weight, kind = Known, OfCompression
	case known.LiquidSeen:
		kind = OfSight
	}
	if c.Looks(s.Name(), "oil-wet") || c.Seen(s.Name(), "full of oil", "oil standing") {
		list := append(speaks(weight, "oil-in-bore"), speaks(Hint, "coolant-or-fuel-in-bore")...)
		if !slices.ContainsFunc(s.Cylinders, func(n string) bool { return !c.OilRunsDown(n) }) && !readsLow(c) && !c.UsesOil() {
			list = append(list, denies(Known, "ran-down", "rings", "oil-control-rings", "guides-or-seals", "wear", "turbo-seal")...)
		}
		return as(kind, list)
	}
	list := append(speaks(weight, "coolant-or-fuel-in-bore"), speaks(Hint, "oil-in-bore")...)
	if c.ExhaustMayLetIn() && c.WaterIn(s.Name()) {
		list = append(list, Voice{Cause: "wet-exhaust", Weight: 2 * Heard})
	}
	if c.Looks(s.Name(), "coolant") || c.LosesCoolant() {
		list = append(list, speaks(DryUp, "head-gasket", "warped-or-cracked-head")...)
	}
	list = as(kind, list)
	for i := range list { // which nobody saw: it is the commonest way for water into an engine afloat
		if list[i].Cause == "wet-exhaust" {
			list[i].Kind = OfHistory
		}
	}
	return list
}

// waterToTurnOut reports water that was seen in a cylinder into which oil may go
// against rust.
func waterToTurnOut(c *known.Case, names []string) bool {
	return c.OilAllowed() && slices.ContainsFunc(names, func(n string) bool { return c.LiquidIn(n) == known.LiquidSeen && c.WaterIn(n) })
}

// liquidVariants are the wordings by why liquid may lie there.
var liquidVariants = map[known.Liquid]string{known.LiquidSeen: "seen", known.LiquidCoolant: "coolant", known.LiquidBelow: "below"}

// bestOfLow reports cylinders that read more than the others and are low all the same,
// with a plug that is wet.
func bestOfLow(c *known.Case, names []string) bool {
	return c.AllLow() != nil && !slices.ContainsFunc(names, func(n string) bool { return c.LiquidIn(n) != known.LiquidWetPlug })
}

func liquidSays(c *known.Case, s known.Subject) diag.Finding {
	f := diag.Finding{Urgency: diag.DoNotRun, Confidence: diag.Weak, Facts: diag.Facts{"diesel": c.Spec.Diesel(), "inverted": c.Spec.Inverted == diag.Yes, "water": waterToTurnOut(c, s.Cylinders), "best": bestOfLow(c, s.Cylinders), "hangs": !slices.ContainsFunc(s.Cylinders, func(n string) bool { return !c.HangsBelow(n) })}}
	f.Variant = liquidVariants[c.LiquidIn(s.Name())]
	for _, n := range s.Cylinders[1:] {
		if liquidVariants[c.LiquidIn(n)] != f.Variant {
			f.Variant = ""
		}
	}
	switch {
	case f.Variant == "seen":
		f.Confidence, f.Headline = diag.Fair, "liquid-seen"
	case ranDown(c, s.Cylinders):
		f.Variant, f.Urgency, f.Headline = "ran-down", diag.NoAction, "see-findings"
		if c.Complains("misfire", known.RoughRunning) {
			f.Urgency = diag.CheckAgain
		}
	}
	return f
}

// ranDown reports cylinders into which oil runs while the engine stands, and that were
// tested since, none of them low: what is complained of puts no liquid into them.
func ranDown(c *known.Case, names []string) bool {
	return !readsLow(c) && !slices.ContainsFunc(names, func(n string) bool { return !c.OilRanDown(n) })
}

// readsLow reports an engine of which something that was read is low.
func readsLow(c *known.Case) bool { return len(c.LowSet()) > 0 || c.AllLow() != nil || c.Dead() }

// actOnLow is the percent of the reference under which most books call a
// cylinder low.
const actOnLow = 75

func stoodEngine(c *known.Case, _ known.Subject) diag.Finding {
	months := monthsStood(c)
	f := diag.Finding{Urgency: diag.NoAction, Confidence: diag.Fair, Facts: diag.Facts{"months": months, "low": diag.Names(nil)}}
	if !readsLow(c) {
		return f
	}
	f.Facts["low"] = diag.Names(c.LowSet())
	if known.RanSinceItStood.HoldsIn(c) {
		f.Variant = "ran"
		return f
	}
	f.Variant, f.Urgency = "low", diag.CheckAgain
	// Where a cylinder is so low that it would be acted on by itself, that it
	// stood is said as soon.
	for _, n := range c.LowSet() {
		if c.Cylinder(n).PercentOfRef < actOnLow {
			f.Urgency = diag.ActSoon
		}
	}
	return f
}

// lowOrEngine asks of each low cylinder where some are low and others are not,
// else of the engine as a whole: what stood is one story with what reads low.
var lowOrEngine = Scope{Words: "each low cylinder, or the engine", Each: true, Of: func(c *known.Case) []known.Subject {
	low := c.LowSet()
	if len(low) == 0 || len(low) == len(c.Every()) {
		return wholeEngine
	}
	return each(low)
}}

func stoodVoices(c *known.Case, _ known.Subject) []Voice {
	if !readsLow(c) {
		return nil
	}
	if c.Rotary() {
		return speaks(Known, "stuck-seals")
	}
	if known.RanSinceItStood.HoldsIn(c) {
		return []Voice{{Cause: "stuck-rings", Weight: DryUp}, {Cause: "stuck-valve", Weight: commonest - rarer}}
	}
	return []Voice{{Cause: "dry-bores", Weight: Known}, {Cause: "stuck-rings", Weight: Known - rarer}, {Cause: "stuck-valve", Weight: commonest - rarer}}
}

func testsDeclined(c *known.Case, _ known.Subject) diag.Finding {
	refused := c.MainRefused()
	state := refused.States[0]
	facts := diag.Facts{"tests": diag.Names(refused.Tests), "state": string(state), "reason": refused.Reason, "each": []known.Refusal(nil)}
	if !refused.Alike() {
		facts["each"] = refused.Each
	}
	f := diag.Finding{Urgency: diag.CheckAgain, Confidence: diag.Fair, Facts: facts, Headline: refused.Verdict()}
	switch {
	case state == diag.NotTold:
		f.Variant = "not-told"
	case c.AnythingRead(): // then what was read says what to do
		f.Variant, f.Urgency = "beside", diag.NoAction
	}
	return f
}

// fires is the pressure of an engine of one or two cylinders that does not start, where it has enough
// to fire: whoever pulls it over asks that first. "" for none.
func fires(c *known.Case) string {
	if len(c.Every()) > 2 {
		return ""
	}
	return c.Fires()
}

// aloneUnjudged reports an engine of one cylinder whose pressure there is no figure to
// hold against: it clears nothing and accuses nothing.
func aloneUnjudged(c *known.Case) bool {
	return !c.Several() && len(c.Read()) == 1 && c.AllLow() == nil && !c.Dead() && !c.PressureByFigure() && c.Minimum() == nil
}

// sealed is what is lost in a leakage test that shows an engine of one cylinder not worn,
// "" for nothing of that.
func sealed(c *known.Case) string {
	if c.Several() || c.Ported() || !c.SealsAtRest() {
		return ""
	}
	return c.LossAsNoted(c.Every()[0])
}

// monthsStood is how many months it stood, to the hundredth, for words that make weeks or
// years of them; "" where nobody says.
func monthsStood(c *known.Case) string {
	if c.History.StoodMonths <= 0 {
		return ""
	}
	return strconv.FormatFloat(c.History.StoodMonths, 'f', -1, 64)
}

// besideVoices speak for what lies where a noise was heard beside the cylinders, or for all
// that lies there where nobody says which.
func besideVoices(c *known.Case, _ known.Subject) []Voice {
	var list []Voice
	loud := c.NoiseLoudest()
	for _, at := range []struct{ heard, cause string }{{known.NoiseAtPlate, "drive-plate"}, {known.NoiseAtDriven, "driven-part"}, {known.NoiseBeside, "hung-on"}} {
		if slices.Contains(loud, at.heard) {
			list = append(list, Voice{Cause: at.cause, Weight: Heard})
		}
	}
	if len(list) == 0 {
		list = append(speaks(Known, "drive-plate", "driven-part"), speaks(DryUp, "worn-chain", "hung-on")...)
	}
	return list
}
