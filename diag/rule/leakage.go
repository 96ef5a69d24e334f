package rule

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

var leakageRules = slices.Concat(leakPlaceRules, leakLevelRules)

// leakPlaceRules say where a cylinder's air goes.
var leakPlaceRules = []Rule{
	{
		Name: "valves-leak-together", Title: "Cylinders with a camshaft in common all leak at a valve",
		Why: "Valves of one bank, or of a whole engine, seldom burn at the same time. What they have in common is the camshaft and what drives it: timing that has slipped holds valves " +
			"open when the piston is up, or has let them meet the pistons. Valves that nobody set for long, or that all sink into their seats, do it too.",
		Source: "common practice, no source", Class: Group, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsLeakage},
		Of:   sets("all that was read of a bank while the other holds its air, or of an engine (three at least)", func(c *known.Case) [][]string { return c.ValveSets() }),
		When: known.OfAll("air at one of its valves (not at both), more than 20 % lost or no figure", func(c *known.Case, n string) bool { return c.LeaksAtValve(n) }),
		Kind: OfLeakage, Weigh: sharedValves, Say: valvesTogether, Headline: "valves-leak-together", Variants: []string{bankVariant},
		SaysBetterThan: []string{"leaks-at-exhaust", "leaks-at-inlet", "exhaust-valve-agrees", "inlet-valve-agrees", "scattered-low", "bank-low"},
	},
	{
		Name: "leaks-to-neighbour", Title: "Air escapes into the cylinder beside it",
		Why: "Two cylinders side by side have only the gasket and the metal between their bores to keep them apart. Air that enters one and comes " +
			"out at the other's plug hole has passed there; no valve and no ring lies on that way. Where the crankcase pumps, as in a two-stroke, it can also be the seal between two chambers.",
		Source: "common practice, no source", Class: Group, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsLeakage},
		Of: sets("cylinders side by side, or one", func(c *known.Case) [][]string {
			return c.Engine.NeighbourRuns(c.Those(func(n string) bool { return c.LeaksAt(n, known.AtNeighbour) }))
		}),
		When: known.AirAt(known.AtNeighbour),
		Kind: OfLeakage, For: append(speaks(Heard, "head-gasket"), speaks(Known, "warped-or-cracked-head", "crankcase-seal")...),
		Say: leakAt(true, false), Headline: "leaks-to-neighbour",
	},
	{
		Name: "leaks-to-coolant", Title: "Air escapes into the coolant",
		Why: "Coolant is kept from the cylinders by the gasket, the head and the bore. Bubbles during the test show that one of them lets air through, " +
			"and what lets air out lets coolant in. A small leak matters here: an engine that holds pressure well can still lose its coolant this way.",
		Source: "common practice, no source: bubbles in the radiator point to the head gasket or a cracked head or block", Class: Single, About: diag.AboutCylinders,
		Needs: []known.Need{known.NeedsLeakage},
		Of:    eachCylinder, When: known.All(known.AirAt(known.AtCoolant), known.Not(known.AirCooled)),
		Kind: OfLeakage, For: pathToCoolant(Heard, Known),
		Say: leaksToCoolant, Headline: "leaks-to-coolant",
	},
	{
		Name: "leaks-at-exhaust", Title: "Air escapes at the exhaust",
		Why: "With the piston at the top of its compression stroke both valves are closed, so air at the exhaust has passed the exhaust valve. Hot gas passing " +
			"a valve burns it further, which makes this the leak that most often gets worse. A clearance that is too small, or a crumb of carbon on the seat, gives the same sound. " +
			"The exhaust port of a two-stroke lies behind its piston: there the air has passed the rings.",
		Source: "TM 5-3805-260-24, cylinder leakage: air at the exhaust, exhaust valve; the threshold is common practice, no source", Class: Single, About: diag.AboutCylinders,
		Needs: []known.Need{known.NeedsLeakage},
		Of:    eachCylinder, When: known.AirAt(known.AtExhaust),
		Kind: OfLeakage, Weigh: exhaustLeak, Say: leakAt(false, true), Headline: "leaks-at-valve", Variants: []string{twoStrokeVariant},
	},
	{
		Name: "leaks-at-inlet", Title: "Air escapes at the air inlet",
		Why: "Air at the inlet has passed the inlet valve. Carbon on the seat or a clearance that is too small does the same as a bent or burnt valve, " +
			"and is looked at first because it costs little. In a two-stroke it has passed the piston's skirt, or the reed valve does not close.",
		Source: "TM 5-3805-260-24, cylinder leakage: air at the air cleaner, intake valve; the threshold is common practice, no source", Class: Single, About: diag.AboutCylinders,
		Needs: []known.Need{known.NeedsLeakage},
		Of:    eachCylinder, When: known.AirAt(known.AtInlet),
		Kind: OfLeakage, Weigh: inletLeak, Say: leakAt(false, true), Headline: "leaks-at-valve", Variants: []string{twoStrokeVariant, airBoxVariant},
	},
	{
		Name: "leaks-to-crankcase", Title: "Air escapes into the crankcase",
		Why: "Air that gets into the crankcase has passed the piston rings. A little always does: rings have gaps. So the amount matters, and whether one cylinder " +
			"differs from the others; gaps that happen to stand in line give a bad figure once and a good one after the engine has turned. More than rings let through is a hole.",
		Source: "common practice, no source: oil filler, dipstick, breather point to rings, piston or bore", Class: Single, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsLeakage},
		Of: eachCylinder, When: known.All(known.AirAt(known.AtCrankcase), known.Not(commonLoss), known.Not(soundLeak), known.Not(serviceable)),
		Kind: OfLeakage, Weigh: crankcaseLeak, Say: crankcaseSays, Headline: "leaks-past-rings",
	},
	{
		Name: "crankcase-loss-common", Title: "Some air past the rings, as is common on a used engine",
		Why: "Rings have gaps, and a used engine commonly loses up to a fifth of its air past them. By itself that asks for nothing; it is kept to be compared with a later test " +
			"by the same tester.",
		Source: "common practice, no source", Class: Information, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsLeakage},
		Of: eachCylinder, When: commonLoss,
		Kind: OfLeakage, Say: lossFound(diag.NoAction), Headline: "leakage-serviceable", Implies: []string{"leaks-to-crankcase"},
	},
	{
		Name: "leaks-outside", Title: "Air escapes to the outside",
		Why: "The plug's or the adapter's thread is the likeliest place, and a fault of the test rather than of the engine. Soapy water shows whether it is " +
			"the thread or the edge of the head gasket.",
		Source: "common practice, no source", Class: Single, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsLeakage},
		Of: eachCylinder, When: known.AirAt(known.AtOutside),
		Kind: OfLeakage, For: append(speaks(Sight, "plug-or-adapter-thread"), common("head-gasket")...), Weigh: pastJoint, // the gasket under what counts as a test that agrees
		Say: lostOutside, Headline: "leakage-high",
	},
}

const (
	twoStrokeVariant = "two-stroke"
	airBoxVariant    = "air-box"
	bankVariant      = "bank"
)

// loud is how much air at a place says: where most of it goes, or nowhere else,
// it was heard there; beside such a place it is a hint, and so is the crankcase
// beside any other, since a little always passes the rings.
func loud(c *known.Case, s known.Subject, at string) int {
	for _, n := range s.Cylinders {
		most := c.LostAt(n)
		if most == at || most == "" && at != known.AtCrankcase {
			return Heard
		}
	}
	return Hint
}

// bothValves reports air at both valves of a cylinder: the piston did not stand
// at the top of its compression, unless it makes no pressure either.
func bothValves(c *known.Case, s known.Subject) bool {
	return slices.ContainsFunc(s.Cylinders, func(n string) bool {
		return c.LeaksAt(n, known.AtExhaust) && c.LeaksAt(n, known.AtInlet) && c.LostAt(n) == ""
	})
}

// valveLoud is loud for a valve: less where the test itself is in doubt, or
// where more than one cylinder has the same for a cause in common.
func valveLoud(c *known.Case, s known.Subject, at string) int {
	weight := loud(c, s, at)
	switch {
	case bothValves(c, s):
		return min(weight, Hint)
	case slices.ContainsFunc(c.ValveSets(), func(set []string) bool { return slices.Contains(set, s.Name()) }):
		return min(weight, Known)
	case withinLimit(c, s.Cylinders):
		return min(weight, Known)
	}
	return weight
}

// withinLimit reports cylinders that lose no more than a limit of the job's allows.
func withinLimit(c *known.Case, names []string) bool {
	worst := c.WorstLeak(names)
	return worst != nil && worst.Verdict == diag.Within
}

// lowToo reports one of the cylinders to be low as well.
func lowToo(c *known.Case, s known.Subject) bool { return c.AnyLow(s.Cylinders) }

func exhaustLeak(c *known.Case, s known.Subject) []Voice {
	if c.Ported() {
		weight := loud(c, s, known.AtExhaust)
		return append(speaks(weight, "rings"), speaks(weight*2/5, "stuck-rings", "scored-bore", "piston")...)
	}
	weight := valveLoud(c, s, known.AtExhaust)
	voices := append(speaks(weight, "exhaust-valve"), speaks(weight*3/5, "valve-lash")...)
	voices = append(voices, speaks(weight*2/5, "carbon-on-seat")...)
	if c.TestedAsAircraft() { // lead and heat gum up the guides
		voices = append(voices, speaks(weight*3/10, "sticking-valve")...)
	}
	if c.GasFuel() { // gas does not cool or cushion the seats, so that valves sink into them
		voices = append(voices, speaks(weight*4/5, "valve-recession")...)
	}
	if bothValves(c, s) && lowToo(c, s) {
		voices = append(voices, speaks(Known, "bent-valve")...)
	}
	return append(voices, bentByPiston(c, s, weight)...)
}

// bentByPiston speaks for a bent valve where a valve leaks that may have met its
// piston: by the air that was heard, and as much by what is known of how it came
// on. A bent valve leaves a gap, so that its cylinder has no pressure, or loses
// more than worn parts let through.
func bentByPiston(c *known.Case, s known.Subject, heard int) []Voice {
	if !metPiston(c, s.Cylinders) {
		return nil
	}
	return append(speaks(heard, "bent-valve"), as(OfHistory, speaks(Heard, "bent-valve"))...)
}

func metPiston(c *known.Case, names []string) bool {
	return (hasDead(c, names) || losesATorrent(c, names)) && c.ValvesMayHaveMet()
}

// losesATorrent reports a cylinder that loses more than worn parts let through,
// however cold it is.
func losesATorrent(c *known.Case, names []string) bool {
	return slices.ContainsFunc(names, func(n string) bool {
		lost, measured := c.Loss(n)
		return measured && lost > known.TorrentLoss
	})
}

func inletLeak(c *known.Case, s known.Subject) []Voice {
	if c.Ported() {
		weight := loud(c, s, known.AtInlet)
		return append(speaks(weight, "reed-valve", "piston"), speaks(weight*3/5, "rings")...)
	}
	if !c.InletValves() { // into the air box, through the ports
		weight := loud(c, s, known.AtInlet)
		return append(speaks(weight, "rings"), speaks(weight*2/5, "scored-bore", "piston")...)
	}
	weight := valveLoud(c, s, known.AtInlet)
	return slices.Concat(speaks(weight, "inlet-valve"), speaks(weight*3/5, "carbon-on-seat"), speaks(weight*2/5, "valve-lash"), bentByPiston(c, s, weight))
}

// crankcaseLeak speaks for the rings; where oil on them stopped none of it, for what is too
// wide for oil, or lies on another way there, as it does after compression that oil did not raise.
func crankcaseLeak(c *known.Case, s known.Subject) []Voice {
	weight := loud(c, s, known.AtCrankcase)
	voices := append(speaks(weight, "rings"), speaks(weight*2/5, "scored-bore", "piston")...)
	switch {
	case leaksAsMuchOiled.Holds(c, s) && !oilOffRings.HoldsIn(c):
		voices = slices.Concat(speaks(weight*2/5, "rings", "scored-bore"), speaks(weight*7/10, "broken-ring-land"), speaks(weight*3/5, "piston"), speaks(weight/2, "holed-piston"),
			where(c.PushrodChamber(), speaks(weight, "head-gasket")), where(!c.PushrodChamber() && c.ValveTrainBelow(), speaks(weight/2, "head-gasket")))
	case mayPassGasket.Holds(c, s): // which oil did not raise, or that was heard where a gasket lets it out before the rings do
		if known.OilFlat.Holds(c, s) && c.PushrodChamber() {
			voices = append(speaks(weight/2, "rings", "broken-ring-land"), speaks(weight*2/5, "scored-bore", "piston")...)
		}
		voices = append(voices, where(c.PushrodChamber(), speaks(weight+rarer, "head-gasket"))...)
		voices = append(voices, where(!c.PushrodChamber(), speaks(weight/2, "head-gasket"))...)
	case c.PushrodChamber() && !known.OilRises.Holds(c, s) && !losesATorrent(c, s.Cylinders):
		voices = append(voices, speaks(weight/2, "head-gasket")...)
	}
	if losesATorrent(c, s.Cylinders) {
		if c.PushrodChamber() {
			voices = append(voices, speaks(Heard, "head-gasket")...)
		}
		voices = append(voices, speaks(weight*4/5, "holed-piston", "broken-ring-land")...)
	}
	if lowToo(c, s) { // the others were as cold
		return voices
	}
	return slices.Concat(voices, testerAtFault(c), where(c.TestedAsAircraft() && !losesATorrent(c, s.Cylinders), speaks(Known, "ring-gaps")))
}

// testerAtFault is what makes sound rings seem to leak: a cold engine, and a
// tester that reads high, which is likely where it does so everywhere and no
// compression speaks against it.
func testerAtFault(c *known.Case) []Voice {
	var voices []Voice
	if c.LeakageCold() {
		voices = speaks(Sight, "cold-engine")
	}
	if allPastRings.HoldsIn(c) && !c.Has(known.NeedsCompression) {
		voices = append(voices, speaks(Sight, "tester-scale")...)
	}
	return voices
}

// sharedValves are what valves have in common that leak together.
func sharedValves(c *known.Case, s known.Subject) []Voice {
	if c.LeakingBank(s.Cylinders) < 0 {
		return slices.Concat(speaks(Sight, "bent-valve"), speaks(Known, "cam-timing", "timing-drive"), speaks(DryUp, "valve-lash"))
	}
	if c.OneCamshaft() { // it would reach both banks
		return append(speaks(Known, "valve-lash"), speaks(DryUp, "valve-recession", "warped-or-cracked-head")...)
	}
	return slices.Concat(speaks(Heard, "cam-timing"), speaks(Sight, "bent-valve"), speaks(Known, "timing-drive"))
}

func valvesTogether(c *known.Case, s known.Subject) diag.Finding {
	f := diag.Finding{Urgency: diag.ActSoon, Facts: c.LeakFacts(s.Cylinders)}
	f.Facts["bank"] = ""
	if bank := c.LeakingBank(s.Cylinders); bank >= 0 {
		f.Variant, f.Facts["bank"] = bankVariant, c.BankLabel(bank)
	}
	if hasDead(c, s.Cylinders) {
		f.Urgency = diag.DoNotRun
	}
	return f
}

// pastInjector: where injectors are seated in the head their washers let gas out, which leaves
// tar around them; where that was found, that is where.
func pastInjector(c *known.Case, _ known.Subject) []Voice {
	return append(speaks(Known, "injector-seat"), where(c.Found(known.InjectorTar...), as(OfSight, speaks(Heard, "injector-seat")))...)
}

// pastJoint is the joint of a head that is screwed on its barrel, and a crack there, or an
// injector's seat.
func pastJoint(c *known.Case, s known.Subject) []Voice {
	return append(pastInjector(c, s), where(c.HeadScrewedOn(), speaks(Known, "warped-or-cracked-head"))...)
}

// lostOutside keeps what flies on the ground where nearly all of its air goes there, or gas was seen
// to come out at the joint of its head. It presses where that was seen of others, where the cylinder misfires too, or the trouble came suddenly with a
// noise: then the plug hole's own thread may have given way.
func lostOutside(c *known.Case, s known.Subject) diag.Finding {
	f := lossFound(diag.CheckAgain)(c, s)
	joint := known.HeadJointBlows.HoldsIn(c) && c.HighLoss(s.Name())
	if grounded(c, s.Cylinders) || joint && c.Flies() {
		f.Urgency = diag.DoNotRun
		return f
	}
	named := joint || slices.ContainsFunc(s.Cylinders, func(n string) bool { return slices.Contains(c.MisfireOf(), n) })
	if c.HighLoss(s.Name()) && (named || c.Complains("noise") && c.CameSuddenly() || c.Found(known.InjectorTar...)) {
		f.Urgency = diag.ActSoon
	}
	return f
}
