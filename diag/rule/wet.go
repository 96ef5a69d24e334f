package rule

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/air"
	"gaugesheet/diag/engine"
	"gaugesheet/diag/known"
	"gaugesheet/diag/quantity"
)

// wetRules read the test repeated with a little oil in the cylinder.
var wetRules = []Rule{
	{
		Name: "no-oil-in-diesel", Title: "Oil was put into a diesel's cylinder", Class: TestItself, About: diag.AboutTest,
		Why: "A diesel's chamber is small and the engine fires on what it compresses: oil can lock the piston or ignite and run the engine away. " +
			"Its readings with oil are not used, and no wet test is ever proposed.",
		Source:  "common practice, no source (a light diesel's instructions: no oil in the cylinder)",
		Asks:    "a wet test is recorded on a diesel",
		Notices: noOilInDiesel,
	},
	{
		Name: "wet-dose-too-large", Title: "Too much oil in the wet test", Class: TestItself, About: diag.AboutTest, Needs: []known.Need{known.NeedsWet},
		Why: "Oil takes up room above the piston. A large dose raises the ratio, and with it the reading, whatever the rings are like. Cylinders that need no oil should hardly rise; " +
			"where they do, the rise of the low one says little.",
		Source:   "common practice, no source; the effect of the dose follows from the chamber's volume",
		Asks:     "a cylinder that is not low rose by more than 10 % with oil (15 % where the dose is written down and right for the engine), or a wet reading is above what the engine's geometry can give, or the dose is more than a tenth of the chamber",
		Variants: []string{"above-geometry", "dose"},
		Notices:  wetDoseTooLarge, Kind: OfTest, For: speaks(Known, "too-much-oil-used"),
		Doubt: "wet-dose-too-large", Doubts: []known.Need{known.NeedsWet}, RepeatOf: wetRepeat,
		Alone: func(c *known.Case, _ diag.Notice) bool { return c.Minimum() == nil },
	},
	{
		Name: "wet-rise-everywhere", Title: "Every cylinder rose alike with oil", Class: Information, About: diag.AboutEngine, Needs: []known.Need{known.NeedsWet},
		Why: "Oil fills room and seals dry bores, and so lifts every cylinder somewhat. A rise that all share comes from the dose, or from bores dry or worn all over, " +
			"and tells nothing of one cylinder against another.",
		Source: "common practice, no source",
		Of:     wetTested, When: known.All(known.Not(known.Diesel), riseAlike),
		Kind: OfCompression, Say: wetEverywhere,
	},
	{
		Name: "wet-rise-nowhere", Title: "All low, and oil lifts none of them", Class: Information, About: diag.AboutEngine, Needs: []known.Need{known.NeedsWet},
		Why: "Oil seals worn rings and dry bores for a few strokes. Where every cylinder is low and none gains anything by it, what they share is not their rings: " +
			"the valve timing, the air that they get, or the way they were tested.",
		Source: "common practice, no source (all low with no rise: valve timing)",
		Of:     wetTested, When: noneRises,
		Kind: OfCompression, Say: wetEverywhere,
	},
	{
		Name: "wet-rise", Title: "A low cylinder comes up with oil", Class: Single, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsWet},
		Why: "Oil lies on the piston and seals the rings for a few strokes. Pressure that comes back with it was escaping past the rings; " +
			"a leak at a valve or the gasket, above the oil, would still be there.",
		Source: "US Army TM 5-4210-230-14&P-1, Addendum No. 2; US Army TM 10-3930-647-14&P, para 4-40; the thresholds: common practice, no source",
		Of:     eachCylinder, When: known.OilRises,
		Kind: OfCompression, Weigh: wetRose, Say: wetSays, Headline: "one-low",
	},
	{
		Name: "wet-partial", Title: "A low cylinder comes up only in part", Class: Single, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsWet},
		Why: "Some rise comes from the oil's own volume. A cylinder that gains some and stays far below the rest may leak past rings and valves both, or only show the dose; " +
			"the wet test leaves it open.",
		Source: "common practice, no source", Variants: []string{"inconclusive"},
		Of: eachCylinder, When: known.Any(oilPartly, oilUnclear),
		Kind: OfCompression, Say: wetSays, Headline: "one-low",
	},
	{
		Name: "wet-no-rise", Title: "A low cylinder stays low with oil", Class: Single, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsWet},
		Why: "Oil seals the rings and nothing else. What stays low with it leaks above the piston: at a valve, at the head gasket, through a crack; " +
			"or past rings so broken, or a piston so holed, that oil cannot seal them.",
		Source:   "US Army TM 5-4210-230-14&P-1, Addendum No. 2; US Army TM 10-3930-647-14&P, para 4-40; the threshold: common practice, no source",
		Variants: []string{"two-stroke"},
		Of:       eachCylinder, When: known.OilFlat,
		Kind: OfCompression, Weigh: wetStayed, Say: wetSays, Headline: "one-low",
	},
}

// wetSigns are what oil did where no figures were taken, and to an engine all
// of whose cylinders are low.
var wetSigns = []Sign{
	// The gauge was screwed in anew for it.
	{When: known.All(known.Low, known.OfAll("low with oil in it too", lowWithOil)), Kind: OfCompression, About: "cylinders", Against: denies(Known, "read-low-twice", "adapter-leak")},
	{When: known.All(toldInWords, known.OilRises), Kind: OfCompression, About: "cylinders", For: speaks(Hint, "rings", "scored-bore"),
		Against: denies(Hint, "rose-with-oil", aboveThePiston...)},
	{When: known.All(toldInWords, known.OilFlat), Kind: OfCompression, About: "cylinders", For: speaks(Hint, aboveThePiston...),
		Against: denies(Hint, "no-wet-rise", sealedByOil...)},
	{When: allRise, Kind: OfCompression, About: "engine",
		For:     append(speaks(Wet, "wear"), speaks(Wet-rarer, "washed-bore", "dry-bores", "stuck-rings")...), // oil does not tell these apart
		Against: denies(DryUp, "rose-with-oil", append([]string{"cam-timing", "timing-drive", "throttle-or-choke", "restricted-inlet"}, aboveThePiston...)...)},
	{When: noneRises, Kind: OfCompression, About: "engine",
		For:     []Voice{{Cause: "cam-timing", Weight: DryUp}, {Cause: "throttle-or-choke", Weight: Hint}, {Cause: "restricted-inlet", Weight: Hint}},
		Against: denies(Wet, "no-wet-rise", "wear", "washed-bore", "dry-bores", "stuck-rings")},
}

// What oil cannot seal, and what it does.
var (
	aboveThePiston = []string{"exhaust-valve", "inlet-valve", "valve-lash", "carbon-on-seat", "valve-recession", "head-gasket", "warped-or-cracked-head"}
	sealedByOil    = []string{"rings", "scored-bore", "wear", "stuck-rings", "washed-bore", "dry-bores"}
)

var (
	wetTested   = oneSet("the cylinders tested with oil", (*known.Case).WetTested)
	toldInWords = known.OfEngine("the wet test is told in words", func(c *known.Case) bool { return !c.Has(known.NeedsWet) })
	riseAlike   = known.OfEngine("each up by 5 % of the median or more and all within 10 points, one that is not low or the whole engine among them",
		func(c *known.Case) bool { return c.RisesEverywhere() })
	allRise    = known.OfEngine("all low, and every one up by 15 % or more with oil", func(c *known.Case) bool { return c.WetOfAll() == known.WetRises })
	noneRises  = known.OfEngine("all low, and none up by 5 % with oil", func(c *known.Case) bool { return c.WetOfAll() == known.WetFlat })
	oilPartly  = known.OfAll("up clearly with oil, by less than half of what it lacks", func(c *known.Case, n string) bool { return c.WetOutcome(n) == known.WetPartly })
	oilUnclear = known.OfAll("up with oil by 5 to 15 % more than the control (5 to 25 % without one)", func(c *known.Case, n string) bool { return c.WetOutcome(n) == known.WetUnclear })
)

// softly is a weight of the wet test: a hint where oil does not lie on the
// rings, or where no good cylinder shows what the oil alone does.
func softly(c *known.Case, weight int, needsControl bool) int {
	if c.WetIsIndirect() || needsControl && !c.HasControl() {
		return min(weight, Hint)
	}
	return weight
}

// wetRose speaks for the rings, and where fuel stands on the plug as much for the
// fuel: it washes the oil off a bore, and what oil brings back was never worn. An
// injector that lets the pressure go, or oil that smells, says where it came from.
func wetRose(c *known.Case, s known.Subject) []Voice {
	washed := slices.ContainsFunc(s.Cylinders, func(n string) bool { return c.Looks(n, "fuel-wet") })
	runs := washed && (known.OilSmells.Holds(c, s) || c.SomeCircuit(func(k known.Circuit) bool { return k.FallsFast() != nil }))
	return slices.Concat(
		where(washed, as(OfPlugs, speaks(softly(c, Wet, false), "washed-bore"))),
		where(runs, as(OfFuel, speaks(Hint, "washed-bore", "own-injector"))),
		speaks(softly(c, Wet, false), "rings"), speaks(softly(c, DryUp, false), "scored-bore"), speaks(softly(c, Hint, false), "stuck-rings"),
		denies(softly(c, DryUp, false), "rose-with-oil", aboveThePiston...))
}

// wetStayed speaks for what oil cannot seal. Without pressure that is also a
// valve that hangs open or a hole; a broken ring land is never against it. Where the
// air was heard in the crankcase alone, it is what lets it past the piston and is too
// wide for oil.
func wetStayed(c *known.Case, s known.Subject) []Voice {
	weight := softly(c, DryUp, true)
	list := denies(weight, "no-wet-rise", sealedByOil...)
	switch {
	case pastPistonAlone.Holds(c, s) && !c.Ported():
		return slices.Concat(list, denies(weight, "no-wet-rise", "rings"), speaks(3*weight, "broken-ring-land"), speaks(weight, "piston", "holed-piston"),
			where(c.PushrodChamber(), speaks(3*weight, "head-gasket")), where(!c.PushrodChamber() && c.ValveTrainBelow(), speaks(weight, "head-gasket")))
	case hasDead(c, s.Cylinders):
		list = append(list, speaks(weight, "stuck-valve", "holed-piston", "bent-valve", "valve-motion")...)
	case c.Ported():
		return append(list, speaks(weight, "head-gasket")...)
	}
	return append(list, speaks(weight, aboveThePiston...)...)
}

// wetSays gives the arithmetic of the wet test on some cylinders: one number
// each, or the least and the most.
func wetSays(c *known.Case, s known.Subject) diag.Finding {
	f := diag.Finding{Urgency: diag.CheckAgain, Confidence: diag.Fair}
	var dry, wet, rise, net []float64
	for _, name := range s.Cylinders {
		at := []float64{*c.Cylinder(name).Dry}
		if ends := c.Cranking().EndsOf(name); ends != nil { // known only not to be more: from end to end
			at = ends[:]
		}
		for _, v := range at {
			r := *c.Cylinder(name)
			r.Dry = &v
			_, n := c.WetNet(&r)
			dry, wet = append(dry, v), append(wet, *r.Wet)
			rise, net = append(rise, *r.Wet-v), append(net, n)
		}
	}
	between := func(v []float64) string { return c.Span(slices.Min(v), slices.Max(v)) }
	f.Facts = diag.Facts{"dry": between(dry), "wet": between(wet), "rise": between(rise), "net": known.Percents(slices.Min(net), slices.Max(net)),
		"healthy": c.Pressure(c.Healthy()), "control": c.HasControl(), "ported": c.Ported(), "dead": hasDead(c, s.Cylinders)}
	switch {
	case oilUnclear.Holds(c, s):
		f.Variant = "inconclusive"
	case c.Ported() && known.OilFlat.Holds(c, s):
		f.Variant = "two-stroke"
	}
	doubtWet(c, &f)
	return f
}

// doubtWet weakens a wet test where oil does not lie on the rings, or where no
// control tells what the oil alone does.
func doubtWet(c *known.Case, f *diag.Finding) {
	weaken := func(is bool, key string) {
		if is {
			f.Confidence = diag.Weak
			f.Doubts = append(f.Doubts, diag.Phrase{Key: key})
		}
	}
	weaken(c.Engine.Kind == engine.Flat, "flat-engine")
	weaken(c.Ported(), "two-stroke")
	weaken(!c.HasControl(), "no-control")
}

func wetEverywhere(c *known.Case, _ known.Subject) diag.Finding {
	least, most, _ := c.WetSpan()
	return diag.Finding{Urgency: diag.NoAction, Confidence: diag.Fair,
		Facts: diag.Facts{"least": known.Percent(least, 0), "most": known.Percent(most, 0)}}
}

// wetRepeat repeats a wet test with less oil, or where oil tells nothing the
// test itself if that was not made in the usual way.
func wetRepeat(c *known.Case, _ diag.Notice) string {
	switch {
	case c.OilTells() && c.DoseRight(): // less would tell nothing either
		return ""
	case c.OilTells():
		return "repeat-wet"
	case c.Noticed("not-standard-method"):
		return "repeat-method"
	}
	return ""
}

func noOilInDiesel(c *known.Case) []diag.Notice {
	if !c.Spec.Diesel() || c.Compression == nil {
		return nil
	}
	var oiled []string
	for _, name := range c.Every() {
		if len(c.Compression.Wet[name].Values) > 0 {
			oiled = append(oiled, name)
		}
	}
	if len(oiled) == 0 && c.Compression.OilML == 0 && c.Compression.WetInWords == "" {
		return nil
	}
	return notice("no-oil-in-diesel", "", oiled, nil)
}

// lowWithOil reports a cylinder that read low once more as it was tested with oil.
func lowWithOil(c *known.Case, n string) bool {
	r := c.Cylinder(n)
	return r != nil && r.Wet != nil && 100**r.Wet < known.EvenTogether*c.Cranking().Highest
}

// doseOfVolume is the largest part of the chamber that a dose should fill:
// common practice, no source.
const doseOfVolume = 0.10

func wetDoseTooLarge(c *known.Case) []diag.Notice {
	s := c.Cranking()
	tells := diag.Names(c.CylindersThat(c.BeyondControl))
	worn := c.AllLow() != nil && c.AllLow().Variant == "agreed" // then no cylinder is a control, and the rise is its own
	if control := c.WetControls(); len(control) > 0 && c.ControlRose() && !worn {
		return notice("wet-dose-too-large", "", nil, diag.Facts{"tells": tells, "control": diag.Names(control), "rise": known.Percent(*s.WetControl, 0), "most": known.Percent(c.ControlMost(), 0)})
	}
	if s.Expected != nil && !s.Expected.ByRatio {
		for i := range s.Cylinders {
			if r := &s.Cylinders[i]; r.Wet != nil && *r.Wet > s.Expected.High {
				return notice("wet-dose-too-large", "above-geometry", nil, diag.Facts{
					"tells":    tells,
					"cylinder": r.Name, "wet": c.Pressure(*r.Wet), "most": c.Pressure(s.Expected.High)})
			}
		}
	}
	chamber, err := air.ClearanceVolume(c.CylinderML(), c.Spec.Ratio)
	if err != nil || c.Compression.OilML <= doseOfVolume*chamber {
		return nil
	}
	return notice("wet-dose-too-large", "dose", nil, diag.Facts{
		"tells":   tells,
		"dose":    diag.Number{Value: c.Compression.OilML, Unit: quantity.Millilitre},
		"chamber": diag.Number{Value: chamber, Unit: quantity.Millilitre}})
}
