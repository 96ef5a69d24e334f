package rule

import (
	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// leakTried are the cylinders that were tried for leakage.
func leakTried(c *known.Case) []string {
	var names []string
	for _, l := range c.Leaks() {
		names = append(names, l.Name)
	}
	return names
}

// wearByTests lets each test that says the same of the rings have its voice.
func wearByTests(c *known.Case, _ known.Subject) []Voice {
	list := append([]Voice{{Cause: "wear", Weight: Heard}}, speaks(DryUp, "stuck-rings", "dry-bores")...)
	if c.OilLiftsAll() {
		list = append(list, Voice{Cause: "wear", Weight: Known, Kind: OfCompression})
	}
	if c.BlowsBy() {
		list = append(list, Voice{Cause: "wear", Weight: Known, Kind: OfCrankcase})
	}
	return append(list, denies(Heard, "lost-past-rings", "tester-scale", "cold-engine")...)
}

// leaksAndAgrees is as urgent as what is lost by the cylinder that loses least: so much is
// lost everywhere.
func leaksAndAgrees(c *known.Case, s known.Subject) diag.Finding {
	f := diag.Finding{Cylinders: []string{}, Urgency: diag.CheckAgain, Facts: c.LeakFacts(s.Cylinders)}
	judgeLeak(c, s.Cylinders, &f)
	if f.Confidence == diag.Fair && (c.BlowsBy() || c.DoseRight()) { // two tests agree
		f.Confidence = diag.Strong
	}
	least := 100.0
	for _, l := range c.Leaks() {
		least = min(least, *l.Loss)
	}
	if least > known.ActLoss {
		f.Urgency = diag.ActSoon
	}
	f.Facts["values"], f.Facts["lifts"], f.Facts["blows"], f.Facts["burns"] = c.Span(c.Spread(c.Read())), c.OilLiftsAll(), c.BlowsBy(), c.BurnsOil()
	return f
}

// lowByGaugeAlone is a cylinder that nothing but the gauge calls low: it holds its air, nobody
// complains of how the engine runs, and the needle fell back between strokes, or the engine
// draws, or breathes, as one does of which every cylinder works. A hose or an adapter that
// leaks is read again before a lobe is looked for.
var lowByGaugeAlone = known.All(known.Tight, known.OfAll("low, and by no more than half", func(c *known.Case, n string) bool { return c.Grade(n) == diag.Low }),
	known.OfEngine("nothing complained of, no code, not said to run badly", func(c *known.Case) bool { return !c.Ails() }),
	known.Any(known.NeedleFallsBack, known.VacuumRight, known.AllBreatheAlike, known.BalanceEven))

// byGaugeAlone asks for the reading again, however the gauge has it, and in no hurry where
// the rest of the engine is not low as well.
func byGaugeAlone(c *known.Case, s known.Subject) diag.Finding {
	f := lowButTight(c, s)
	if f.Variant = ""; c.AllLow() == nil {
		f.Urgency = diag.CheckAgain
	}
	f.Facts["needle"] = known.NeedleFallsBack.HoldsIn(c)
	return f
}
