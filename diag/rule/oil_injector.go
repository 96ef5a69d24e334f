package rule

import (
	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// injectorFills is an injector that drips in an engine that has fuel in its oil: one leak,
// seen at both of its ends.
var injectorFills = Rule{
	Name: "injector-fills-the-oil", Title: "An injector that drips, and fuel in the oil",
	Why: "What an injector lets into its cylinder after switching off runs down past the rings into the sump. The level or the smell is what may stop the engine, and the injector is why: " +
		"it is watched and put right first, then oil and filter, or the new oil fills up like the old.",
	Source: "common practice, no source", Class: Together, About: diag.AboutCylinders, Ties: []diag.About{diag.AboutFuel, diag.AboutMixture}, TiesSystems: []string{known.Oil, known.Injectors},
	Of:   drippers,
	When: known.All(known.FuelInTheOil, known.Not(inHose), known.Any(known.InjectorDrips, wetOfNotHeld)),
	Kind: OfOil, For: speaks(Heard, "leaking-injector"), Say: injectorFillsOil, Headline: "injector-fills-the-oil",
	SaysBetterThan: []string{"injector-agrees", "injector-leaks", "fuel-wet", "one-sooty", "wet-with-fuel-and-sealing", "falls-off-fast", "oil-over-full", "oil-smells-of-fuel", "oil-thinned-by-fuel"},
}

// wetOfNotHeld is a wet or black plug of a cylinder that seals, on a rail that lets go.
var wetOfNotHeld = known.All(known.BurningPlug("fuel-wet", "sooty"), known.Not(known.Low), notHeld, known.Not(lowSideOnly))

// drippers are the cylinders whose injectors were seen to drip; where none was watched, the
// one whose plug and the rail say so.
var drippers = Scope{Words: "the cylinders whose injectors drip, else the one wet or sooty plug with a fuel circuit", Of: func(c *known.Case) []known.Subject {
	var set []string
	if c.Has(known.NeedsTest(known.Injectors)) {
		for _, n := range c.Every() {
			if known.InjectorDrips.HoldsOf(c, n) {
				set = append(set, n)
			}
		}
	}
	if len(set) > 0 {
		return []known.Subject{{Cylinders: set}}
	}
	if !c.Has(known.NeedsFuel) || !c.Has(known.NeedsPlugs) {
		return nil
	}
	return wetAndNotHeld.Of(c)
}}

// injectorFillsOil is as urgent as the oil is: over full with fuel it carries no bearing.
func injectorFillsOil(c *known.Case, s known.Subject) diag.Finding {
	f := diag.Finding{Urgency: diag.ActSoon, Confidence: diag.Strong, Facts: diag.Facts{
		"seen": s.Circuit == nil, "wet": c.Looks(s.Name(), "fuel-wet"), "raised": known.FuelRaisesOil.Holds(c, s), "low": known.OilLowAtAll.Holds(c, s)}}
	if s.Circuit != nil {
		fall := holdFacts(*s.Circuit, s.Circuit.FallsFast())
		f.Facts["held"], f.Facts["minutes"] = fall["held"], fall["minutes"]
		if !s.Circuit.FallsFast().Clear || c.PlugsNew() {
			f.Confidence = diag.Fair
		}
	}
	if known.FuelRaisesOil.Holds(c, s) {
		f.Urgency = diag.DoNotRun
	}
	return f
}

// injectorLeaks speaks for the injector that is seen at both ends of its leak: it comes
// before the oil that it thinned.
func injectorLeaks(c *known.Case) []Voice {
	for _, s := range injectorFills.Of.Of(c) {
		if injectorFills.When.Holds(c, s) {
			return speaks(Sight+rarer, "leaking-injector")
		}
	}
	return nil
}

// byInjector is fuel in the oil of which it is known that an injector lets it in.
var byInjector = known.OfEngine("an injector that drips into it", func(c *known.Case) bool { return len(injectorLeaks(c)) > 0 })
