package rule

import (
	"math"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// fuelHoldRules read what is left of the pressure after switching off.
var fuelHoldRules = []Rule{
	{
		Name: "falls-off-fast", Title: "The pressure falls off fast after switching off",
		Why: "After switching off, the pump's check valve, the regulator and the injectors close the rail. Closing feed and return in turn tells which of the three lets go. " +
			"It falls from the higher of the pressures with the key on and at idle; with the hose off it stood higher than it does when the hose is on again.",
		Source: "common practice, no source: a fall of more than 5 psi in about 5 minutes is a fault", Class: Single, About: diag.AboutFuel, Needs: []known.Need{known.NeedsFuel},
		Of: eachCircuit, When: notHeld, Felt: []string{"hard start", "rich running"}, // as it runs, the pump keeps the rail full
		Kind: OfFuel, Weigh: fallVoices,
		Say: fallsOffFast, Headline: "fuel-not-held", Variants: []string{"no-limit"},
	},
	{
		Name: "falls-off-slowly", Title: "The pressure falls off slowly after switching off",
		Why:    "Some fall is normal: fuel shrinks as it cools, and some systems are built to let the pressure go. It matters only where the engine is slow to restart warm.",
		Source: "common practice, no source", Class: Information, About: diag.AboutFuel, Needs: []known.Need{known.NeedsFuel},
		Of: eachCircuit, When: known.OfCircuit("more than 5 psi lost, but not within 5 minutes, or on a throttle body, a carburettor or a lift pump, and no limit that says otherwise",
			func(k known.Circuit) bool { return k.FallsSlowly() != nil }),
		Kind: OfFuel, Weigh: func(_ *known.Case, s known.Subject) []Voice {
			if s.Circuit.Lets() {
				return append(common("by-design", "fuel-contracts", "pump-check-valve"), Voice{Cause: "by-design", Weight: Known})
			}
			return common("fuel-contracts", "by-design", "pump-check-valve")
		},
		Say: func(_ *known.Case, s known.Subject) diag.Finding {
			f := diag.Finding{Urgency: diag.NoAction, Confidence: diag.Fair, Facts: holdFacts(*s.Circuit, s.Circuit.FallsSlowly())}
			if s.Circuit.Lets() {
				f.Variant = "by-design"
			}
			return f
		},
		Variants: []string{"by-design"},
	},
	{
		Name: "rises-after-key-off", Title: "The pressure rises after switching off",
		Why: "A warm engine heats the fuel that is shut in, and the pressure rises for a while. That is normal, and shows that the rail is closed. Over a limit of its own the regulator " +
			"or the return does not let the surplus go.",
		Source: "common practice, no source", Class: Information, About: diag.AboutFuel, Needs: []known.Need{known.NeedsFuel},
		Of: eachCircuit, When: known.OfCircuit("a held pressure over the one at switching off, or over a limit of its own", func(k known.Circuit) bool { return k.Rises() != nil || k.HeldHigh() != nil }),
		Kind: OfFuel, Weigh: func(_ *known.Case, s known.Subject) []Voice {
			if s.Circuit.HeldHigh() != nil {
				return common("regulator-stuck", "return-blocked", "heat-soak")
			}
			return common("heat-soak")
		},
		Say: risesAfterKeyOff, Headline: "regulator", Variants: []string{"over-limit"},
	},
	{
		Name: "not-held-tested", Title: "The pressure held after switching off was not read",
		Why:    "Right pressure with the key on, at idle and with the hose off does not clear an injector that drips: only the pressure held afterwards would show it.",
		Source: "common practice, no source", Class: TestItself, About: diag.AboutTest, Needs: []known.Need{known.NeedsFuel},
		Variants: []string{"rich"}, Asks: "pressures of an injection system, and none after switching off",
		Notices: notHeldTested,
	},
}

// fallVoices are the three valves that close a rail. A rich mixture makes the
// injectors the likelier of them; fuel in the hose shows the way it takes.
func fallVoices(c *known.Case, s known.Subject) []Voice {
	if s.Circuit.In.FuelInHose == "yes" {
		return speaks(DryUp, "regulator-diaphragm")
	}
	if c.FuelSystem() == known.DirectLow { // its injectors lie behind another pump
		voices := common("pump-check-valve", "high-pressure-pump")
		if kind := kindOfSign(c.RichSign()); kind != "" {
			voices = append(voices, Voice{Cause: "high-pressure-pump", Weight: DryUp, Kind: kind})
		}
		return voices
	}
	voices := common("pump-check-valve", "regulator-open", "leaking-injector")
	if c.Spec.Diesel() || c.FuelSystem() == known.Carburettor { // the line lets go where it lets air in
		return common("pump-check-valve", "air-in-fuel", "regulator-open")
	}
	if !s.Circuit.HasReturn() {
		voices = common("pump-check-valve", "leaking-injector", "regulator-open")
	}
	if kind := kindOfSign(c.RichSign()); kind != "" {
		voices = append(voices, Voice{Cause: "leaking-injector", Weight: DryUp, Kind: kind})
	}
	return voices
}

func fallsOffFast(_ *known.Case, s known.Subject) diag.Finding {
	fall := s.Circuit.FallsFast()
	f := diag.Finding{Urgency: diag.ActSoon, Confidence: diag.Fair, Facts: holdFacts(*s.Circuit, fall)}
	switch {
	case !fall.Limited:
		f.Variant, f.Urgency, f.Confidence, f.Doubts = "no-limit", diag.CheckAgain, diag.Weak, []diag.Phrase{{Key: "no-hold-limit"}}
	case !fall.Clear:
		f.Urgency, f.Confidence, f.Doubts = diag.CheckAgain, diag.Weak, []diag.Phrase{{Key: "fuel-near-limit"}}
	}
	return f
}

func risesAfterKeyOff(_ *known.Case, s known.Subject) diag.Finding {
	k := s.Circuit
	f := diag.Finding{Urgency: diag.NoAction, Confidence: diag.Fair}
	high := k.HeldHigh()
	if high == nil {
		f.Facts = holdFacts(*k, k.Rises())
		return f
	}
	f.Variant, f.Urgency, f.Facts = "over-limit", diag.CheckAgain, holdFacts(*k, high)
	f.Facts["limit"] = high.At.LimitEntered
	if !high.Clear {
		f.Confidence, f.Doubts = diag.Weak, []diag.Phrase{{Key: "fuel-near-limit"}}
	}
	return f
}

func holdFacts(k known.Circuit, fall *known.Fall) diag.Facts {
	c, h := k.Case, fall.At
	facts := diag.Facts{"from": c.FuelNumber(fall.From), "held": c.FuelNumber(h.Value), "fall": c.FuelNumber(math.Abs(fall.From - h.Value)),
		"minutes": minutes(h.Minutes), "limit": "", "known": fall.Known, "direct": c.FuelSystem() == known.DirectLow}
	switch {
	case h.LimitEntered != "":
		facts["limit"] = h.LimitEntered
	case h.LimitLow != nil:
		facts["limit"] = atLeast + c.FuelNumber(*h.LimitLow).String()
	}
	return facts
}

func minutes(m float64) diag.Number {
	n := diag.Number{Value: m, Unit: "min"}
	if m != math.Trunc(m) {
		n.Decimals = 1
	}
	return n
}

func notHeldTested(c *known.Case) []diag.Notice {
	for _, k := range c.Circuits() {
		if len(k.Hold) > 0 || len(k.Steady()) == 0 || k.Lets() || k.PumpDead() != nil {
			continue
		}
		n := diag.Notice{Rule: "not-held-tested", Facts: diag.Facts{"circuit": k.Name}}
		if c.RichSign() != "" || c.Complains("hard start") {
			n.Variant = "rich"
		}
		return []diag.Notice{n}
	}
	return nil
}
