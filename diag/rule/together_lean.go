package rule

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

var leanTogether = []Rule{
	{
		Name: "lean-and-pressure-low", Title: "Runs lean, and the fuel pressure is low",
		Why:    "Too little pressure gives too little fuel, and white plugs show it. Filter, pump and voltage come before injectors and sensors.",
		Source: "TM 10-3930-653-14&P, para 4-7-9 (white plugs: low fuel pressure among the causes)", Class: Together, About: diag.AboutMixture, Ties: []diag.About{diag.AboutFuel},
		Needs: []known.Need{known.NeedsFuel},
		Of:    eachCircuit, When: known.All(runsLean, known.Any(pressureLow, sags), someFuel),
		Kind: OfFuel, Weigh: leanLowVoices, Against: denies(Known, "pressure-explains", "lean-mixture", "air-leak", "too-hot", "wrong-heat-range"),
		Say: leanAndLow, Headline: "lean-and-pressure-low",
		SaysBetterThan: []string{"fuel-pressure-low", "sags-under-load", "lean-all"},
	},
	{
		Name: "lean-pressure-right", Title: "Runs lean, and the fuel pressure is right",
		Why:    "The fuel arrives with the right pressure, so either air comes in that was not measured, or the injectors let too little through, or the air meter reads low.",
		Source: "common practice, no source", Class: Together, About: diag.AboutMixture, Ties: []diag.About{diag.AboutFuel}, Needs: []known.Need{known.NeedsFuel},
		Of: rightCircuit, When: runsLean,
		Kind: OfFuel, For: falling(Known, "air-leak", "carburettor", "air-meter", "dirty-injectors", "manifold-gasket"), Weigh: enoughUnderLoad,
		Say: leanPressureRight, Headline: "lean-pressure-right",
		SaysBetterThan: []string{"fuel-pressure-right", "lean-all"},
	},
	{
		Name: "lean-one-bank", Title: "Lean on one bank only",
		Why:    "What a bank has to itself is its side of the manifold with its gaskets, its injectors with their seals, its exhaust and its sensor.",
		Source: "common practice, no source", Class: Together, About: diag.AboutMixture, Needs: []known.Need{known.NeedsPlugs},
		Of:   oneSet("the white plugs of one bank alone", leanBank),
		When: known.OfEngine("two plugs at least looked at in each bank", func(c *known.Case) bool { return leanBank(c) != nil }),
		Kind: OfPlugs, For: falling(Known, "manifold-gasket", "injector-seals", "bank-exhaust-leak", "carburettor"), Weigh: crossed,
		Against: denies(Heard, "other-bank-shares", "pump", "fuel-filter", "low-fuel-pressure", "regulator-open"),
		Say: func(c *known.Case, s known.Subject) diag.Finding {
			f := ofPlugs(c, s.Cylinders)
			f.Confidence = diag.Weak
			return f
		},
		Headline: "one-bank-mixture", TellsAll: true,
	},
	{
		Name: "vacuum-floats-by-mixture", Title: "A needle that floats, and a mixture that was read to be lean, or rich",
		Why:    "The idle hunts where the mixture is off. Which way it is off the computer's corrections or the exhaust gas say, and then the needle has nothing of its own to tell: it is the same matter.",
		Source: "common practice, no source", Class: Group, About: diag.AboutMixture, TiesSystems: []string{known.Vacuum}, Needs: []known.Need{known.NeedsTest(known.Vacuum)},
		Of: theEngine, When: known.All(known.VacuumFloats, known.OfEngine("trims or exhaust gas of a lean mixture, or of a rich one, and not of both", func(c *known.Case) bool { return c.MixtureRead(true) != c.MixtureRead(false) })),
		Kind: OfVacuum, Weigh: weighFloats, Say: func(c *known.Case, s known.Subject) diag.Finding {
			f := vacuumAt(diag.CheckAgain)(c, s)
			f.Facts["lean"] = c.MixtureRead(true)
			return f
		}, Headline: "vacuum-floats-by-mixture", SaysBetterThan: []string{"vacuum-floats"},
	},
}

// weighFloats is which way the mixture of an idle that hunts is off: as it was read or told,
// either where nothing says.
func weighFloats(c *known.Case, _ known.Subject) []Voice {
	lean, rich := c.MixtureRead(true), c.MixtureRead(false)
	if lean == rich { // what was read goes before what is told
		lean, rich = c.LeanSign() != "", c.RichSign() != ""
	}
	leanly := []Voice{{Cause: "lean-mixture", Weight: Hint - rarer}, {Cause: "air-leak", Weight: rarer}}
	richly := []Voice{{Cause: "rich-mixture", Weight: Hint}}
	either := []Voice{{Cause: "carburettor", Weight: Hint}, {Cause: "egr-open", Weight: rarer}}
	switch {
	case lean && !rich:
		return slices.Concat(speaks(Hint, "air-leak"), leanly[:1], either)
	case rich && !lean:
		return append(richly, either...)
	}
	return slices.Concat(richly, leanly, either)
}

// mixtureSigns are what a complaint or a code of the mixture adds to one
// cylinder.
var mixtureSigns = []Sign{
	{When: known.All(runsRich, known.Plug("fuel-wet", "sooty")), Kind: OfHistory, About: "cylinders", For: speaks(Hint, "leaking-injector", "own-injector")},
	{When: known.All(runsLean, known.Plug("white", "blistered")), Kind: OfHistory, About: "cylinders", For: speaks(Hint, "injector-seals", "own-injector", "lean-mixture")},
	{When: known.All(runsLean, known.OfAll("a misfire code that names it", func(c *known.Case, n string) bool {
		_, named := c.MisfireCodes()
		for _, x := range named {
			if x == n {
				return true
			}
		}
		return false
	})), Kind: OfCodes, About: "cylinders", For: speaks(Hint, "own-injector", "injector-seals")},
	{When: pressureIsRight, Kind: OfFuel, About: "any", Against: denies(DryUp, "fuel-pressure-within", "low-fuel-pressure")},
}

var runsLean = known.OfEngine("a complaint of lean running, a code for it, or every plug white", func(c *known.Case) bool { return c.LeanSign() != "" })

// enoughUnderLoad speaks against the supply where its pressure was right; of an engine that
// lacks power not before it was read as the throttle opens, or what is delivered was measured:
// through a filter that is nearly shut the pressure is right at idle.
func enoughUnderLoad(c *known.Case, _ known.Subject) []Voice {
	if c.Complains("low power") && !c.SomeCircuit(func(k known.Circuit) bool { return k.Reading("snap") != nil || k.VolumeEnough() }) {
		return falling(DryUp, "fuel-filter", "supply-restricted")
	}
	return denies(Known, "fuel-pressure-within", supplyCauses...)
}

// leanLowVoices let the sign of a lean mixture agree with the low pressure; on
// a quick opening the regulator has no part in it.
func leanLowVoices(c *known.Case, s known.Subject) []Voice {
	if low, _ := s.Circuit.Worst(known.Below); low == nil {
		return echoed(common("fuel-filter", "pump", "pump-voltage"), c.LeanSign())
	}
	if climbs(*s.Circuit) {
		return echoed(common("regulator-open"), c.LeanSign())
	}
	return echoed(lowVoices(c, s), c.LeanSign())
}

func leanAndLow(c *known.Case, s known.Subject) diag.Finding {
	k := s.Circuit
	r, clear := k.Worst(known.Below)
	if r == nil {
		r = k.Sags()
		clear = r.Verdict != diag.TooClose
	}
	return mixture(*k, r, clear, true)
}

func leanPressureRight(c *known.Case, s known.Subject) diag.Finding {
	f := mixture(*s.Circuit, s.Circuit.Right(), true, true)
	f.Urgency, f.Confidence = diag.CheckAgain, diag.Fair
	return f
}

// leanBank is the cylinders of the one bank that is lean by its plugs.
func leanBank(c *known.Case) []string {
	set := c.Looking("white")
	if !c.Has(known.NeedsPlugs) || len(set) == 0 || c.BankOfAll(set) < 0 {
		return nil
	}
	return set
}
