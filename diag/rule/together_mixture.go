package rule

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// mixtureTogether look at the mixture, by plugs, complaint or code, and at the
// fuel pressure behind it.
var mixtureTogether = slices.Concat(richTogether, leanTogether)

var richTogether = []Rule{
	{
		Name: "rich-but-pressure-low", Title: "Runs rich, yet the fuel pressure is low",
		Why: "Low pressure makes an engine lean, never rich, so the pressure is not the cause. Something brings fuel past the metering, and two of these also let the pressure fall: " +
			"a torn regulator diaphragm and an injector that drips. Then come the purge valve, fuel in the oil, and a sensor that reports cold or lean.",
		Source: "common practice, no source: low rail pressure leans the mixture and does not explain soot", Class: Together, About: diag.AboutMixture, Ties: []diag.About{diag.AboutFuel},
		Needs: []known.Need{known.NeedsFuel},
		Of:    eachCircuit, When: known.All(runsRich, pressureLow, someFuel),
		Kind: OfFuel, For: falling(Sight, "regulator-diaphragm", "leaking-injector", "carburettor", "high-pressure-pump", "purge-valve", "fuel-in-oil", "temperature-signal", "fuel-gauge-reads-low"),
		Against: denies(Heard, "low-leans", append([]string{"regulator-open"}, supplyCauses...)...),
		Say:     richButLow, Headline: "rich-but-pressure-low",
		SaysBetterThan: []string{"fuel-pressure-low", "sags-under-load", "all-sooty"},
	},
	{
		Name: "rich-and-pressure-high", Title: "Runs rich, and the fuel pressure is high",
		Why:    "Too much pressure gives too much fuel with each injection, on every cylinder alike. Plugs or complaint and gauge agree: return line, regulator or its hose.",
		Source: "common practice, no source", Class: Together, About: diag.AboutMixture, Ties: []diag.About{diag.AboutFuel}, Needs: []known.Need{known.NeedsFuel},
		Of: eachCircuit, When: known.All(runsRich, pressureHigh),
		Kind: OfFuel, Weigh: func(c *known.Case, s known.Subject) []Voice { return echoed(highVoices(*s.Circuit), c.RichSign()) },
		Against: denies(Known, "pressure-explains", "rich-mixture", "weak-spark", "short-trips", "air-filter", "temperature-signal"),
		Say: func(c *known.Case, s known.Subject) diag.Finding {
			r, clear := s.Circuit.TooHigh()
			return mixture(*s.Circuit, r, clear, false)
		},
		Headline:       "rich-and-pressure-high",
		SaysBetterThan: []string{"fuel-pressure-high", "all-sooty"},
	},
	{
		Name: "rich-pressure-right", Title: "Runs rich, and the fuel pressure is right",
		Why: "Pressure that is right while it is read does not clear what adds fuel past the metering: a diaphragm that leaks into its hose, an injector that drips, fuel from the oil or the tank's vapours. " +
			"The hose and the pressure held after switching off tell the first two; a sensor that reports a cold engine comes next.",
		Source: "common practice, no source", Class: Together, About: diag.AboutMixture, Ties: []diag.About{diag.AboutFuel}, Needs: []known.Need{known.NeedsFuel},
		Of: rightCircuit, When: known.All(runsRich, known.Not(sootyAll), known.Not(inHose), known.OfCircuit("held, or not read after switching off", func(k known.Circuit) bool { return k.FallsFast() == nil }),
			known.OfEngine("not one bank alone rich", func(c *known.Case) bool { return richBank(c) == nil })),
		Kind: OfFuel, For: unmetered,
		Say: richPressureRight, Headline: "rich-pressure-right",
		SaysBetterThan: []string{"fuel-pressure-right"},
	},
	{
		Name: "rich-pressure-open", Title: "Runs rich, and no limit tells whether the fuel pressure is right",
		Why: "A pressure without the maker's limit neither explains a rich mixture nor clears the supply. What adds fuel past the metering needs no limit to be seen: fuel in the regulator's hose, " +
			"pressure that is not held after switching off.",
		Source: "common practice, no source", Class: Together, About: diag.AboutMixture, Ties: []diag.About{diag.AboutFuel}, Needs: []known.Need{known.NeedsFuel},
		Of: eachCircuit, When: known.All(runsRich, known.Not(sootyAll), known.Not(inHose), someFuel, known.OfCircuit("a steady pressure, none of which has a limit, and held or not read after switching off", func(k known.Circuit) bool {
			return len(k.Steady()) > 0 && !k.Limited() && k.FallsFast() == nil
		}), known.OfEngine("not one bank alone rich", func(c *known.Case) bool { return richBank(c) == nil })),
		Kind: OfFuel, For: slices.Concat(unmetered, speaks(DryUp+rarer, "regulator-stuck"), speaks(DryUp, "return-blocked"), speaks(Hint, "vacuum-hose")), // it may as well be too high
		Say: richPressureOpen, Headline: "rich-pressure-open",
	},
	{
		Name: "injector-agrees", Title: "A wet or sooty plug, and a rail that does not hold its pressure",
		Why: "A rail that loses its pressure lets it go back through the pump, back through the regulator, or into a cylinder. Where one plug alone is wet with fuel or black, the fuel went there: " +
			"the injector of that cylinder drips.",
		Source: "common practice, no source", Class: Together, About: diag.AboutCylinders, Ties: []diag.About{diag.AboutFuel, diag.AboutMixture},
		Needs: []known.Need{known.NeedsFuel, known.NeedsPlugs},
		Of:    wetAndNotHeld, When: known.All(known.BurningPlug("fuel-wet", "sooty"), known.Not(known.Low), notHeld, known.Not(inHose), known.Not(lowSideOnly)),
		Kind: OfPlugs, For: []Voice{{Cause: "leaking-injector", Weight: Sight}, {Cause: "leaking-injector", Weight: Known, Kind: OfFuel}},
		Say: injectorAgrees, Headline: "injector-agrees",
		SaysBetterThan: []string{"fuel-wet", "one-sooty", "wet-with-fuel-and-sealing", "falls-off-fast"},
	},
	injectorFills,
	{
		Name: "rich-one-bank", Title: "Rich on one bank only",
		Why: "Both banks have the same pump, tank and regulator, so these are not the cause. What the bank has to itself is its sensor, its exhaust ahead of it, its injectors, its cam timing. " +
			"White plugs on the other bank make it likely that the two sensors were swapped over.",
		Source: "common practice, no source", Class: Together, About: diag.AboutMixture, Needs: []known.Need{known.NeedsPlugs},
		Of:   oneSet("the sooty or fuel-wet plugs of one bank alone", richBank),
		When: known.All(known.Not(inHose), known.Any(toldRich, known.OfEngine("a fuel-pressure test that both banks share", func(c *known.Case) bool { return c.Has(known.NeedsFuel) }))),
		Kind: OfPlugs, For: falling(Known, "bank-exhaust-leak", "bank-sensor", "own-injector", "manifold-distribution", "carburettor"), Weigh: crossed,
		Against: denies(Heard, "other-bank-shares", "pump", "fuel-filter", "regulator-stuck", "regulator-diaphragm", "return-blocked"),
		Say:     richOneBank, Headline: "one-bank-mixture", TellsAll: true, Variants: []string{"crossed"},
		SaysBetterThan: []string{"bank-sooty", "trim-rich", "trims-apart"},
	},
	{
		Name: "rich-everywhere", Title: "Rich on every cylinder",
		Why:    "Every cylinder alike means something that all share: a sensor that reports a cold engine or too little air, the purge valve, the air filter, an injector rail that drips.",
		Source: "TM 10-3930-653-14&P (sooty plugs: mixture); the pattern on every plug: common practice, no source", Class: Together, About: diag.AboutMixture, Ties: []diag.About{diag.AboutFuel},
		Needs: []known.Need{known.NeedsPlugs},
		Of:    theEngine, When: known.All(sootyAll, known.Any(toldRich, pressureIsRight), known.Not(pastAny)),
		Kind: OfPlugs, Weigh: everywhereVoices,
		Say: ofLastRun(richEverywhere), Headline: "plugs-sooty", Look: "sooty",
		SaysBetterThan: []string{"fuel-pressure-right"},
	},
}

// unmetered is what makes an engine rich past a pressure that is not high.
var unmetered = []Voice{
	{Cause: "regulator-diaphragm", Weight: Sight}, {Cause: "leaking-injector", Weight: Sight - rarer}, {Cause: "carburettor", Weight: Known}, {Cause: "temperature-signal", Weight: DryUp + rarer},
	{Cause: "high-pressure-pump", Weight: DryUp}, {Cause: "purge-valve", Weight: DryUp}, {Cause: "fuel-in-oil", Weight: Hint + rarer}, {Cause: "air-filter", Weight: Hint},
}

// wetAndNotHeld is the one cylinder whose plug is wet or black, with the
// circuit that loses its pressure.
var wetAndNotHeld = Scope{Words: "one plug alone and a fuel circuit", Of: func(c *known.Case) []known.Subject {
	set := c.Looking("fuel-wet", "sooty")
	if c.PatternOf(set) != known.OnOne || len(c.PlugsRead()) < 2 {
		return nil
	}
	var list []known.Subject
	for _, k := range c.Circuits() {
		list = append(list, known.Subject{Cylinders: set, Circuit: &k})
	}
	return list
}}

// rightCircuit is a circuit whose pressure is right, where that of no other is
// wrong.
var rightCircuit = Scope{Words: "a fuel circuit within its limits, and none that is not", Of: func(c *known.Case) []known.Subject {
	k, r := c.PressureRight()
	if r == nil {
		return nil
	}
	return []known.Subject{{Circuit: &k}}
}}

var (
	runsRich = known.OfEngine("a complaint of rich running, a code for it, or soot on every plug", func(c *known.Case) bool { return c.RichSign() != "" })
	sootyAll = known.OfEngine("soot on every plug", func(c *known.Case) bool {
		return c.Has(known.NeedsPlugs) && c.PatternOf(c.Looking("sooty")) == known.OnAll
	})
	toldRich        = known.OfEngine("a complaint, a code or black smoke of rich running", func(c *known.Case) bool { return c.ToldRich() })
	lowSideOnly     = known.OfEngine("direct injection, of which the low side was read", func(c *known.Case) bool { return c.FuelSystem() == known.DirectLow })
	held            = known.OfEngine("the pressure held after switching off", func(c *known.Case) bool { return c.EveryCircuit(known.Circuit.Holds) })
	inHose          = known.OfEngine("fuel in the regulator's hose", func(c *known.Case) bool { return c.FuelInHose("yes") })
	pressureIsRight = known.OfEngine("fuel pressure within its limits", func(c *known.Case) bool { return right(c) })
	pastAny         = known.OfEngine("a steady fuel pressure past a limit", func(c *known.Case) bool { return c.PressurePast() })
)

func right(c *known.Case) bool {
	_, r := c.PressureRight()
	return r != nil
}

// falling is what a pattern comes from, the likeliest first, each a little less
// likely than the one before.
func falling(from int, causes ...string) []Voice {
	list := make([]Voice, len(causes))
	for i, k := range causes {
		list[i] = Voice{Cause: k, Weight: max(from-rarer*i, rarer)}
	}
	return list
}

// kindOfSign is the kind of test that a sign of the mixture comes from.
func kindOfSign(sign string) Kind {
	switch sign {
	case "plugs":
		return OfPlugs
	case "code":
		return OfCodes
	case "complaint":
		return OfHistory
	}
	return ""
}

// echoed lets a sign of the mixture agree with what the pressure says: the
// same causes in the same order, from another kind of test.
func echoed(voices []Voice, sign string) []Voice {
	var list []Voice
	seen := map[string]bool{}
	for _, v := range voices {
		if v.Weight <= 0 || seen[v.Cause] {
			continue
		}
		seen[v.Cause] = true
		list = append(list, Voice{Cause: v.Cause, Weight: max(Known-rarer*(len(seen)-1), rarer), Kind: kindOfSign(sign)}, Voice{Cause: v.Cause, Weight: Hint, Kind: OfFuel})
	}
	return list
}

// mixture is a finding that a sign of the mixture and the fuel pressure make
// together. A complaint is not a measurement: it does not make a finding strong.
func mixture(k known.Circuit, r *diag.FuelReading, clear, lean bool) diag.Finding {
	sign := k.Case.RichSign()
	if lean {
		sign = k.Case.LeanSign()
	}
	f := fuelFinding(k, r, clear)
	f.Headline = ""
	f.Facts["sign"], f.Facts["snap"] = sign, r.Name == "snap"
	if clear && sign == "plugs" && !k.Case.PlugsNew() {
		f.Confidence = diag.Strong
	}
	if sign != "plugs" && !k.Case.MixtureRead(lean) {
		f.Doubts = append(f.Doubts, diag.Phrase{Key: "by-complaint"})
	}
	return f
}

// richButLow is surest where the hose and the gauge agree.
func richButLow(c *known.Case, s known.Subject) diag.Finding {
	k := s.Circuit
	r, clear := k.Worst(known.Below)
	f := mixture(*k, r, clear, false)
	if f.Confidence == diag.Strong {
		f.Confidence = diag.Fair
	}
	hose := k.In.FuelInHose == "yes"
	f.Facts["hose"], f.Facts["injected"] = hose, c.Injected()
	if hose && clear {
		f.Confidence = diag.Strong
	}
	return f
}

func richPressureRight(c *known.Case, s known.Subject) diag.Finding {
	f := mixture(*s.Circuit, s.Circuit.Right(), true, false)
	f.Urgency, f.Confidence = diag.CheckAgain, diag.Fair
	f.Facts["held"], f.Facts["mayHold"] = c.HoldRead(), !s.Circuit.Lets()
	return f
}

func richPressureOpen(c *known.Case, s known.Subject) diag.Finding {
	f := mixture(*s.Circuit, s.Circuit.Steady()[0], true, false)
	f.Urgency, f.Confidence = diag.CheckAgain, diag.Weak
	f.Facts["held"], f.Facts["mayHold"] = c.HoldRead(), !s.Circuit.Lets()
	return f
}

// injectorAgrees asks for soon: fuel that drips washes the bore and thins the
// oil.
func injectorAgrees(c *known.Case, s known.Subject) diag.Finding {
	fall := s.Circuit.FallsFast()
	f := diag.Finding{Urgency: diag.ActSoon, Confidence: diag.Strong, Facts: holdFacts(*s.Circuit, fall)}
	f.Facts["wet"], f.Facts["rich"] = c.Looks(s.Name(), "fuel-wet"), c.RichSign() != ""
	if !fall.Clear || c.PlugsNew() {
		f.Confidence = diag.Fair
	}
	return f
}

// richBank is the cylinders of the one bank that is rich by its plugs.
func richBank(c *known.Case) []string {
	set := c.Looking("sooty", "fuel-wet")
	if !c.Has(known.NeedsPlugs) || len(set) == 0 || c.BankOfAll(set) < 0 {
		return nil
	}
	return set
}

// otherBank reports the other bank with plugs of a look, two at least.
func otherBank(c *known.Case, set []string, looks ...string) bool {
	others := c.Looking(looks...)
	return len(others) > 1 && c.BankOfAll(others) == 1-c.BankOfAll(set)
}

// crossed are sensors that were exchanged: one bank rich, the other lean.
func crossed(c *known.Case, s known.Subject) []Voice {
	if otherBank(c, s.Cylinders, "white") || otherBank(c, s.Cylinders, "sooty", "fuel-wet") {
		return speaks(Heard, "sensors-crossed")
	}
	return nil
}

// ofPlugs is a finding on plugs of one look: their colour shows the last
// minutes of running and no more.
func ofPlugs(c *known.Case, set []string) diag.Finding {
	f := diag.Finding{Cylinders: set, Urgency: diag.CheckAgain, Confidence: diag.Fair, Doubts: []diag.Phrase{{Key: "colour-only"}},
		Facts: diag.Facts{"read": len(c.PlugsRead()), "bank": "", "low": c.AnyLow(set)}}
	if bank := c.BankOfAll(set); bank >= 0 {
		f.Facts["bank"] = c.BankLabel(bank)
	}
	if c.PlugsNew() {
		f.Confidence, f.Doubts = diag.Weak, []diag.Phrase{{Key: "plugs-new"}}
	}
	if len(c.PlugsRead()) < len(c.Every()) && !c.Sums.Plugs.Complete {
		f.Doubts = append(f.Doubts, diag.Phrase{Key: "plugs-not-all-read"})
	}
	return f
}

func richOneBank(c *known.Case, s known.Subject) diag.Finding {
	f := ofPlugs(c, s.Cylinders)
	if otherBank(c, s.Cylinders, "white") {
		f.Variant = "crossed"
	}
	if _, _, apart := c.BanksApart(); apart && known.TrimRich.Holds(c, s) { // the computer says so of that bank as well
		f.Urgency, f.Confidence, f.Doubts = diag.ActSoon, diag.Strong, nil
	}
	return f
}

// everywhereVoices are what makes every cylinder rich: past a pressure that is
// right, sensors and what adds fuel beside the injectors.
func everywhereVoices(c *known.Case, _ known.Subject) []Voice {
	lost := speaks(Hint, "boost-leak") // behind the air meter, where there is a charger
	if right(c) {
		return append(falling(Sight, "regulator-diaphragm", "temperature-signal", "carburettor", "air-meter", "purge-valve", "leaking-injector", "fuel-in-oil"), append(lost, Voice{Cause: "air-filter", Weight: Hint})...)
	}
	return append(falling(Sight, "carburettor", "regulator-stuck", "temperature-signal", "regulator-diaphragm", "purge-valve", "air-filter"), lost...)
}

func richEverywhere(c *known.Case, _ known.Subject) diag.Finding {
	f := ofPlugs(c, c.Looking("sooty"))
	f.Facts["right"], f.Facts["injected"] = right(c), c.Injected()
	return f
}
