package rule

import (
	"math"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// fuelHoseRules look at the hose by which a regulator follows the manifold.
var fuelHoseRules = []Rule{
	{
		Name: "regulator-responds", Title: "The regulator follows the manifold",
		Why:    "The regulator keeps the pressure across the injectors the same, so it keeps the rail lower by the vacuum of the manifold. With the hose off the rail must rise by just that.",
		Source: "common practice, no source: hose-on and hose-off pairs from 7 to 14 psi apart; 1 inHg is 0.491 psi (NIST SP 811, appendix B.8)", Class: Information, About: diag.AboutFuel,
		Needs: []known.Need{known.NeedsFuel},
		Of:    eachCircuit, When: known.OfCircuit("the pressure rises when the regulator's hose is taken off, by 2 psi at least; less than most of what the manifold's vacuum makes, or than 4 psi where that was not read, is a weak response",
			func(k known.Circuit) bool {
				rise, none, _, ok := k.Rise()
				return ok && rise >= none
			}),
		Kind: OfFuel, Weigh: func(_ *known.Case, s known.Subject) []Voice {
			if regulatorFollows(*s.Circuit) {
				return nil
			}
			return speaks(DryUp, "no-vacuum-signal", "regulator-stuck")
		},
		Say: regulatorResponds, Headline: "regulator", Variants: []string{"partly"},
	},
	{
		Name: "regulator-no-response", Title: "The regulator does not follow the manifold",
		Why: "No change may mean a regulator that is stuck, a hose that brings no vacuum, or a system whose regulator was never meant to follow the manifold. " +
			"The hose and the system are asked about before the regulator is blamed.",
		Source: "common practice, no source", Class: Single, About: diag.AboutFuel, Needs: []known.Need{known.NeedsFuel},
		Of: eachCircuit, When: known.OfCircuit("the pressure changes by less than 2 psi when the hose is taken off a regulator that has, or may have, one, and is not under its limit", func(k known.Circuit) bool {
			rise, none, _, ok := k.Rise()
			low, _ := k.Worst(known.Below) // which leaves the regulator nothing to let go
			return ok && rise < none && !k.Falls() && low == nil
		}),
		// A return that is blocked holds the pressure up whatever the hose does.
		Kind: OfFuel, For: common("not-referenced", "no-vacuum-signal", "regulator-stuck", "return-blocked"),
		Say: hoseFinding, Headline: "regulator",
	},
	{
		Name: "regulator-off-vacuum", Title: "The regulator does not make of the vacuum what it should",
		Why: "The rail has to rise by just the vacuum that its hose took away: 0.491 psi for each inch of mercury. Less is a hose that leaks or sits at the wrong port, or a regulator that sticks; " +
			"more is a reading that belongs to another speed or another port.",
		Source: "1 inHg is 0.491 psi (NIST SP 811, appendix B.8); meanings: common practice, no source", Class: Single, About: diag.AboutFuel, Needs: []known.Need{known.NeedsFuel, known.NeedsTest(known.Vacuum)},
		Of: eachCircuit, When: known.OfCircuit("the rise with the hose off differs from 0.491 psi for each inHg of the vacuum at idle, read in a test of its own, by more than the gauges can be off", func(k known.Circuit) bool {
			_, off := k.OffVacuum()
			return off
		}),
		Kind: OfFuel, Weigh: func(_ *known.Case, s known.Subject) []Voice {
			if short, _ := s.Circuit.OffVacuum(); short < 0 {
				return common("reading-wrong")
			}
			return common("vacuum-hose", "no-vacuum-signal", "regulator-stuck")
		},
		Say: func(c *known.Case, s known.Subject) diag.Finding {
			f := hoseFinding(c, s)
			short, _ := s.Circuit.OffVacuum()
			f.Facts["short"] = short > 0
			return f
		}, Headline: "regulator", InsteadOf: []string{"regulator-responds"},
	},
	{
		Name: "hose-off-falls", Title: "The pressure fell when the hose came off",
		Why:    "Taking the hose off can only raise the pressure or leave it. A fall says that two readings were swapped, or that the pump cannot keep up.",
		Source: "common practice, no source", Class: TestItself, About: diag.AboutFuel, Needs: []known.Need{known.NeedsFuel},
		Of: eachCircuit, When: known.All(mayHaveHose, known.OfCircuit("hose-off pressure under the idle pressure, beyond uncertainty", known.Circuit.Falls)),
		Kind: OfFuel, For: common("readings-swapped", "pump"),
		Say: func(c *known.Case, s known.Subject) diag.Finding {
			f := hoseFinding(c, s)
			f.Confidence = diag.Weak
			return f
		},
		Headline: "regulator",
	},
	{
		Name: "fuel-in-hose", Title: "Fuel in the regulator's vacuum hose",
		Why: "That hose holds air; a torn diaphragm is the way for fuel into it. From there the manifold draws it in, unmeasured: the engine runs rich while the pressure may read low. " +
			"No gauge is needed to see it.",
		Source: "common practice, no source", Class: Together, About: diag.AboutFuel,
		Of: eachCircuit, When: known.OfCircuit("fuel was found in the hose, whatever the pressure", func(k known.Circuit) bool { return k.In.FuelInHose == "yes" }),
		Kind: OfSight, For: speaks(Heard, "regulator-diaphragm"), Weigh: hoseAgrees,
		Say: fuelInHose, Headline: "fuel-in-hose",
	},
	{
		Name: "hose-fills-the-oil", Title: "Fuel in the regulator's hose and in the oil",
		Why: "What a torn diaphragm lets into the manifold washes down past the pistons into the sump. The level is what stops the engine and the diaphragm is why it stands so high: " +
			"the regulator is replaced first, then oil and filter, or the new oil fills up like the old.",
		Source: "common practice, no source", Class: Together, About: diag.AboutFuel, TiesSystems: []string{known.Oil},
		Of: eachCircuit, When: known.All(known.OfCircuit("fuel was found in the hose, whatever the pressure", func(k known.Circuit) bool { return k.In.FuelInHose == "yes" }), known.FuelInTheOil),
		Kind: OfSight, For: speaks(Heard, "regulator-diaphragm"), Weigh: hoseAgrees,
		Say: func(c *known.Case, s known.Subject) diag.Finding {
			f := fuelInHose(c, s)
			f.Facts["raised"] = known.FuelRaisesOil.Holds(c, s)
			if known.FuelRaisesOil.Holds(c, s) {
				f.Urgency = diag.DoNotRun
			}
			return f
		}, Headline: "hose-fills-the-oil", SaysBetterThan: []string{"fuel-in-hose", "oil-over-full", "oil-smells-of-fuel", "oil-thinned-by-fuel"},
	},
}

func hoseFinding(c *known.Case, s known.Subject) diag.Finding {
	k := s.Circuit
	idle, off := k.Reading("idle"), k.Reading("hose-off")
	f := diag.Finding{Urgency: diag.CheckAgain, Confidence: diag.Fair, Facts: diag.Facts{
		"on": c.FuelNumber(idle.Value), "off": c.FuelNumber(off.Value), "rise": c.FuelNumber(math.Abs(off.Value - idle.Value)), "expected": ""}}
	if k.ExpectedRise != nil {
		f.Facts["expected"] = c.FuelNumber(*k.ExpectedRise).String()
	}
	if !k.Referenced() {
		f.Confidence, f.Doubts = diag.Weak, []diag.Phrase{{Key: "system-not-recorded"}}
	}
	return f
}

func regulatorResponds(c *known.Case, s known.Subject) diag.Finding {
	f := hoseFinding(c, s)
	if regulatorFollows(*s.Circuit) {
		f.Urgency = diag.NoAction
		return f
	}
	f.Variant, f.Confidence = "partly", diag.Weak
	if s.Circuit.ExpectedRise == nil {
		f.Doubts = append(f.Doubts, diag.Phrase{Key: "vacuum-not-recorded"})
	}
	return f
}

// hoseAgrees adds what shows the torn diaphragm beside the fuel that was seen:
// the pressure that it lets go, the mixture that it makes.
func hoseAgrees(c *known.Case, s known.Subject) []Voice {
	var voices []Voice
	low, _ := s.Circuit.Worst(known.Below)
	if low != nil || s.Circuit.FallsFast() != nil {
		voices = append(voices, Voice{Cause: "regulator-diaphragm", Weight: Known, Kind: OfFuel})
	}
	if kind := kindOfSign(c.RichSign()); kind != "" {
		voices = append(voices, Voice{Cause: "regulator-diaphragm", Weight: Known, Kind: kind})
	}
	return voices
}

// fuelInHose is strong where the mixture or the gauge shows it too, so that it
// agrees with another kind of test.
func fuelInHose(c *known.Case, s known.Subject) diag.Finding {
	f := diag.Finding{Urgency: diag.ActSoon, Confidence: diag.Fair, Facts: diag.Facts{"sooty": diag.Names(nil), "new": c.WorkDone(known.NewRegulator...)}}
	if sooty := c.Looking("sooty"); c.Has(known.NeedsPlugs) {
		f.Facts["sooty"] = diag.Names(sooty)
	}
	if low, _ := s.Circuit.Worst(known.Below); low != nil || s.Circuit.FallsFast() != nil || c.RichSign() != "" {
		f.Confidence = diag.Strong
	}
	return f
}
