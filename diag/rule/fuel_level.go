package rule

import (
	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// fuelLevelRules hold the steady pressures against their limits.
var fuelLevelRules = []Rule{
	{
		Name: "no-fuel-pressure", Title: "No fuel pressure",
		Why: "With no pressure at all, something stops the pump from running or the fuel from arriving: relay, fuse, cut-off switch, wiring, an empty tank, the pump itself. " +
			"Most of these cost less than a pump and are looked at first. A pump driven by the engine has no relay, but a diaphragm, a filter and a tank.",
		Source: "common practice, no source", Class: Single, About: diag.AboutFuel, Needs: []known.Need{known.NeedsFuel},
		Of: eachCircuit, When: noFuel,
		Kind: OfFuel, Weigh: noFuelVoices,
		Say: func(_ *known.Case, s known.Subject) diag.Finding {
			return fuelFinding(*s.Circuit, s.Circuit.PumpDead(), true)
		},
		Headline: "no-fuel-pressure",
	},
	{
		Name: "fuel-pressure-low", Title: "Fuel pressure under its limit",
		Why: "Low pressure gives less fuel in each injection, so the engine runs lean and weak. A filter, a weak pump, low voltage at it, or a regulator that lets too much back " +
			"all do it; closing the return for a moment tells the regulator from the rest.",
		Source: "common practice, no source; limits: the job's own", Class: Single, About: diag.AboutFuel, Needs: []known.Need{known.NeedsFuel},
		Of: eachCircuit, When: known.All(pressureLow, someFuel),
		Kind: OfFuel, Weigh: lowVoices,
		Say: func(_ *known.Case, s known.Subject) diag.Finding {
			r, clear := s.Circuit.Worst(known.Below)
			return fuelFinding(*s.Circuit, r, clear)
		},
		Headline: "fuel-pressure-low",
	},
	{
		Name: "fuel-pressure-under-usual", Title: "Fuel pressure far under what such systems have",
		Why: "Without the maker's figure nobody can say that a pressure is right, but each kind of system has a range that nearly all of its kind keep. What lies far under it is a reason to look the figure up before anything is tested further, " +
			"and to think of the filter, the pump and its voltage.",
		Source: "ranges: common practice, no source", Class: Single, About: diag.AboutFuel, Needs: []known.Need{known.NeedsFuel},
		Of: eachCircuit, When: known.OfCircuit("no limit of a steady pressure given, and the highest clear under 30 psi at the ports, 7 at a throttle body, 2.5 at a carburetor, 40 on the low side of direct injection", func(k known.Circuit) bool { return k.UnderUsual() != nil }),
		Kind: OfFuel, Weigh: func(c *known.Case, s known.Subject) []Voice {
			return append(lowVoices(c, s), speaks(commonest-rarer, "maker-asks-less")...)
		},
		Say: func(_ *known.Case, s known.Subject) diag.Finding {
			f := fuelFinding(*s.Circuit, s.Circuit.UnderUsual(), true)
			f.Urgency, f.Confidence = diag.CheckAgain, diag.Weak
			return f
		},
		Headline: "fuel-pressure-low",
	},
	{
		Name: "fuel-pressure-high", Title: "Fuel pressure over its limit",
		Why: "Pressure is high where the fuel cannot get back to the tank, where the regulator sticks, or where the hose that tells it the manifold's pressure is off or split. " +
			"The engine then runs rich.",
		Source: "common practice, no source; limits: the job's own", Class: Single, About: diag.AboutFuel, Needs: []known.Need{known.NeedsFuel},
		Of: eachCircuit, When: pressureHigh,
		Kind: OfFuel, Weigh: func(_ *known.Case, s known.Subject) []Voice { return highVoices(*s.Circuit) },
		Say: func(_ *known.Case, s known.Subject) diag.Finding {
			r, clear := s.Circuit.TooHigh()
			return fuelFinding(*s.Circuit, r, clear)
		},
		Headline: "fuel-pressure-high",
	},
	{
		Name: "key-on-under-idle", Title: "Far less pressure with the key on than at idle",
		Why: "With the key on the pump fills the rail before the engine turns. Where it reaches far less than while the engine runs, the pump is driven otherwise then (priming relay, " +
			"voltage), the rail has run empty and one priming does not fill it (the pump's check valve), or air was left in the gauge's hose. Pump and filter that reach the pressure at idle can do it.",
		Source: "common practice, no source", Class: Single, About: diag.AboutFuel, Needs: []known.Need{known.NeedsFuel},
		Of: eachCircuit, When: known.All(
			known.OfCircuit("key-on pressure under the idle pressure by more than 15 % and 2 psi, and not within a limit of its own, with an electric pump", known.Circuit.KeyOnShort), someFuel),
		Kind: OfFuel, For: common("pump-voltage", "pump-check-valve", "gauge-not-bled", "pump-circuit"),
		Against: denies(Known, "runs-at-pressure", "fuel-filter", "pump", "supply-restricted", "regulator-open"),
		Say:     keyOnUnderIdle, Headline: "fuel-priming",
	},
	{
		Name: "fuel-falls-when-hot", Title: "Fuel pressure falls when hot",
		Why:    "A pressure that is there cold and gone hot is lost to heat: fuel that boils in a line or in a pump near the engine, a tank whose cap lets no air in, or a pump that tires when it is warm.",
		Source: "common practice, no source", Class: Single, About: diag.AboutFuel, Needs: []known.Need{known.NeedsFuel},
		Of: Scope{Words: "circuits read cold and hot", Of: func(c *known.Case) []known.Subject {
			hot, _, _, ok := c.HotShort()
			if !ok {
				return nil
			}
			return []known.Subject{{Circuit: &hot}}
		}},
		When: known.OfEngine("the hot one under 80 % of the cold one, or under a limit that the cold one keeps", func(c *known.Case) bool {
			_, _, _, ok := c.HotShort()
			return ok
		}),
		Kind: OfFuel, For: []Voice{{Cause: "vapour-lock", Weight: Heard}, {Cause: "supply-restricted", Weight: DryUp}, {Cause: "pump", Weight: DryUp}},
		Against: denies(Known, "cold-is-right", "fuel-filter", "pump-circuit"),
		Say:     fallsWhenHot, Headline: "fuel-hot",
	},
	{
		Name: "fuel-pressure-right", Title: "Fuel pressure within its limits",
		Why: "Pressure that is right clears tank, pump, filter and regulator of the engine's complaint as far as pressure goes. It does not clear an injector that drips: " +
			"only the pressure held after switching off does. It is said only where no limit on any reading of the circuit is passed.",
		Source: "limits: the job's own", Class: Sound, About: diag.AboutFuel, Needs: []known.Need{known.NeedsFuel},
		Of: eachCircuit, When: known.OfCircuit("a steady reading within its limit, and nothing that was read of the circuit past a limit or short", func(k known.Circuit) bool { return k.Right() != nil }),
		Kind: OfFuel, Weigh: rightVoices,
		Say: pressureRight, Headline: "fuel-right", Variants: []string{"close"},
	},
	{
		Name: "fuel-limit-missing", Title: "No limit for the fuel pressure",
		Why: "Systems differ so much that a figure without the maker's limit cannot be judged. The usual range of such systems only tells whether the figure is " +
			"of the right kind, or perhaps in another unit.",
		Source: "ranges: common practice, no source (carburettor 4 to 8 psi, throttle body 9 to 15, port 35 to 60, without return 50 to 75, direct low side 50 to 90, diesel lift pump 6 to 8)",
		Class:  TestItself, About: diag.AboutTest, Needs: []known.Need{known.NeedsFuel}, Variants: []string{"unusual", "system-unknown"},
		Asks:    "a steady pressure and no limit for any of them; the usual range of the system is named, never judged by",
		Notices: fuelLimitMissing,
	},
}

// noFuelVoices asks first for what costs little: an electric pump's circuit
// before the pump, unless it was heard to run.
func noFuelVoices(c *known.Case, _ known.Subject) []Voice {
	switch {
	case !c.MayBeElectricPump():
		return common("pump", "supply-restricted", "fuel-filter")
	case c.PumpHeard() == diag.Yes:
		return append(common("supply-restricted", "pump", "fuel-filter"), Voice{Cause: "pump-circuit", Weight: Hint})
	case c.PumpHeard() == diag.No:
		voices := append(common("pump-circuit", "pump", "pump-voltage"), Voice{Cause: "pump-circuit", Weight: Known, Kind: OfSight})
		return append(voices, denies(Known, "pump-silent", "supply-restricted", "fuel-filter", "air-in-fuel")...)
	case c.FuelSystem() == known.Carburettor && c.Fuel.Pump == "":
		return common("pump", "supply-restricted", "fuel-filter", "pump-circuit")
	}
	return common("pump-circuit", "pump", "supply-restricted")
}

// lowVoices are what low pressure comes from: the regulator alone where the
// closed return showed that the pump can, and nothing showed that it delivers too little: what
// is reached while nothing flows is no proof of that.
func lowVoices(c *known.Case, s known.Subject) []Voice {
	k := s.Circuit
	switch {
	case climbsAndDelivers(*k) || climbs(*k) && k.VolumeEnough():
		return speaks(Heard, "regulator-open")
	case climbs(*k) && k.VolumeShort():
		return speaks(commonest-rarer, "regulator-open")
	case climbs(*k):
		return speaks(Known, "regulator-open")
	}
	voices := common("fuel-filter", "pump", "regulator-open", "pump-voltage", "supply-restricted")
	if !k.HasReturn() {
		voices = common("fuel-filter", "pump", "pump-voltage", "supply-restricted", "regulator-open")
	}
	if c.PumpHeard() == diag.No {
		voices = append(voices, Voice{Cause: "pump-circuit", Weight: Known, Kind: OfSight})
	}
	return append(voices, as(OfSight, drivenPumpLeaks(c))...)
}

// highVoices are what high pressure comes from. The hose plays a part only
// while the engine runs with it on.
func highVoices(k known.Circuit) []Voice {
	r, _ := k.TooHigh()
	if k.Case.FuelSystem() == known.Carburettor {
		return common("wrong-pump", "regulator-stuck", "fuel-gauge-reads-high", "return-blocked")
	}
	voices := common("return-blocked", "regulator-stuck")
	if !k.HasReturn() {
		voices = common("regulator-stuck", "return-blocked", "wrong-pump", "fuel-gauge-reads-high")
	}
	if r != nil && r.Name == "idle" && k.MayBeReferenced() {
		voices = append(voices, Voice{Cause: "vacuum-hose", Weight: commonest - 2*rarer})
		if on := k.Reading("key-on"); on != nil && on.Verdict == diag.Within {
			voices = append(voices, Voice{Cause: "vacuum-hose", Weight: Known}) // without vacuum it is right
		}
	}
	return voices
}

func keyOnUnderIdle(_ *known.Case, s known.Subject) diag.Finding {
	k := s.Circuit
	f := fuelFinding(*k, k.Reading("key-on"), true)
	f.Urgency = diag.CheckAgain
	return f
}

func fallsWhenHot(c *known.Case, s known.Subject) diag.Finding {
	_, hot, cold, _ := c.HotShort()
	f := fuelFinding(*s.Circuit, hot, true)
	f.Facts["cold"] = c.FuelNumber(cold.Value)
	return f
}

// rightVoices clear the supply, the surer where the pump was tried too. What a lift pump
// was measured to pull against is there whatever the pressure behind it.
func rightVoices(c *known.Case, s known.Subject) []Voice {
	k := s.Circuit
	_, close := k.LimitsKept()
	weight := DryUp
	if snap := k.Reading("snap"); k.VolumeEnough() || snap != nil && snap.Verdict == diag.Within {
		weight = Known
	}
	if close {
		weight = Hint
	}
	voices := denies(weight, "fuel-pressure-within", "pump", "pump-circuit", "pump-voltage", "low-fuel-pressure", "regulator-open", "regulator-stuck", "return-blocked")
	return append(voices, where(!known.SuctionHigh.HoldsIn(c), denies(weight, "fuel-pressure-within", "fuel-filter", "supply-restricted"))...)
}

func pressureRight(_ *known.Case, s known.Subject) diag.Finding {
	k := s.Circuit
	r := k.Right()
	f := fuelFinding(*k, r, true)
	f.Urgency = diag.NoAction
	if r.Verdict == diag.TooClose {
		f.Variant, f.Confidence, f.Doubts = "close", diag.Weak, []diag.Phrase{{Key: "fuel-near-limit"}}
	}
	return f
}

// usualPSI are the ranges in which such systems usually work, in psi.
var usualPSI = map[string][2]float64{
	known.Carburettor: {4, 8}, known.ThrottleBody: {9, 15}, known.PortReturn: {35, 60}, known.PortNoReturn: {50, 75}, known.DirectLow: {50, 90}, known.DieselLift: {6, 8},
}

// hoseOn is how much lower a regulator with its hose on keeps the pressure at
// idle, at most: 20 inHg of manifold vacuum.
const hoseOn = 9.8

func fuelLimitMissing(c *known.Case) []diag.Notice {
	var list []diag.Notice
	for _, k := range c.Circuits() {
		if steady := k.Steady(); len(steady) > 0 && !k.Limited() {
			list = append(list, limitMissing(k, steady[0]))
		}
	}
	return list
}

// limitMissing names the usual range of the system. Nothing at all is no
// question of the unit or the range.
func limitMissing(k known.Circuit, r *diag.FuelReading) diag.Notice {
	c := k.Case
	n := diag.Notice{Rule: "fuel-limit-missing", Facts: diag.Facts{"value": c.FuelNumber(r.Value), "reading": r.Name,
		"system": c.FuelSystem(), "circuit": k.Name, "low": "", "high": ""}}
	usual, recorded := usualPSI[c.FuelSystem()]
	n.Facts["low"], n.Facts["high"] = c.FuelNumber(c.Psi(usual[0])), c.FuelNumber(c.Psi(usual[1]))
	low, high := usualOf(k, r)
	switch {
	case !recorded, c.NoFuel(r.Value):
		n.Variant = "system-unknown"
	case r.Value < low || r.Value > high:
		n.Variant = "unusual"
	}
	return n
}

// usualOf is what such a system usually has at a steady reading, in its unit.
func usualOf(k known.Circuit, r *diag.FuelReading) (low, high float64) {
	usual := usualPSI[k.Case.FuelSystem()]
	low, high = k.Case.Psi(usual[0]), k.Case.Psi(usual[1])
	if r.Name == "idle" && k.Referenced() {
		low -= k.Case.Psi(hoseOn)
	}
	return low, high
}

// unusualSteady is a circuit without limits whose most telling steady reading is not what its kind of
// system usually has: under it, or over it.
func unusualSteady(under bool) func(known.Circuit) bool {
	return func(k known.Circuit) bool {
		steady := k.Steady()
		if _, recorded := usualPSI[k.Case.FuelSystem()]; !recorded || len(steady) == 0 || k.Limited() || k.PumpDead() != nil {
			return false
		}
		low, high := usualOf(k, steady[0])
		return under && steady[0].Value < low || !under && steady[0].Value > high
	}
}

var (
	underUsual = someCircuit("a steady pressure without a limit that is under what such systems usually have", unusualSteady(true))
	overUsual  = someCircuit("a steady pressure without a limit that is over what such systems usually have", unusualSteady(false))
	readsLean  = known.Any(runsLean, known.GasLean, known.TrimLean, known.TrimLeanAll, known.TrimLeanOnce)
	readsRich  = known.Any(runsRich, known.GasRich, known.TrimRich)
)
