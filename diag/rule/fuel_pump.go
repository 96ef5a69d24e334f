package rule

import (
	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// fuelPumpRules look at what the pump can do: under load, against a closed
// return, in a measured time.
var fuelPumpRules = []Rule{
	{
		Name: "sags-under-load", Title: "Fuel pressure sags when the throttle is opened",
		Why:    "A pump loses volume before it loses pressure: at rest it still reaches the figure, under load it cannot keep up. Filter, pickup strainer and voltage do the same.",
		Source: "common practice, no source", Class: Single, About: diag.AboutFuel, Needs: []known.Need{known.NeedsFuel},
		Of: eachCircuit, When: sags,
		Kind: OfFuel, For: common("fuel-filter", "pump", "pump-voltage", "supply-restricted"),
		Say: sagsUnderLoad, Headline: "fuel-sags",
	},
	{
		Name: "pump-pressure-low", Title: "The pump reaches little with the return closed",
		Why: "With the return closed the pump works against a shut line and shows all that it can. Under its limit there, it is worn, turned too slowly, or its own relief valve lets go; " +
			"the regulator has no part in it.",
		Source: "common practice, no source; limits: the job's own", Class: Single, About: diag.AboutFuel, Needs: []known.Need{known.NeedsFuel},
		Of: eachCircuit, When: known.All(known.OfCircuit("the pressure with the return closed under its lower limit", pinchedLow), someFuel),
		Kind: OfFuel, For: []Voice{{Cause: "pump", Weight: Known}, {Cause: "pump-voltage", Weight: commonest}, {Cause: "fuel-filter", Weight: commonest - rarer}},
		Say: pinched(known.Below), Headline: "fuel-sags",
	},
	{
		Name: "pump-pressure-high", Title: "The pump reaches more than it may with the return closed",
		Why:    "A pump has a relief valve that opens before the lines suffer. More than the book allows against a closed return is a pump of another engine, a relief valve that sticks, or the gauge.",
		Source: "common practice, no source; limits: the job's own", Class: Single, About: diag.AboutFuel, Needs: []known.Need{known.NeedsFuel},
		Of: eachCircuit, When: known.OfCircuit("the pressure with the return closed over its upper limit", pinchedHigh),
		Kind: OfFuel, For: common("wrong-pump", "fuel-gauge-reads-high"),
		Say: func(c *known.Case, s known.Subject) diag.Finding {
			f := pinched(known.Above)(c, s)
			f.Urgency = diag.CheckAgain
			return f
		},
		Headline: "fuel-pressure-high",
	},
	{
		Name: "pump-volume-low", Title: "The pump delivers little",
		Why:    "Pressure can be right while little flows: a clogged filter or a tired pump still fills a closed line. The volume shows what is left for full load.",
		Source: "common practice, no source: one US pint (473 ml) in 30 seconds for injection; carburettors, throttle bodies and lift pumps go by figures of their own", Class: Single, About: diag.AboutFuel,
		Needs: []known.Need{known.NeedsFuel},
		Of:    eachCircuit, When: known.OfCircuit("the volume delivered under its limit, or with injection and without a limit under 946 ml a minute", known.Circuit.VolumeShort),
		Kind: OfFuel, For: common("fuel-filter", "pump", "pump-voltage", "supply-restricted"),
		Say: volumeLow, Headline: "fuel-sags", Variants: []string{"no-limit"},
	},
	{
		Name: "pump-volume-high", Title: "The pump delivers more than it may",
		Why:    "More than the book allows is a pump of another engine, or a measured time or vessel that was wrong. The return and the regulator may not carry it.",
		Source: "common practice, no source; limits: the job's own", Class: Single, About: diag.AboutFuel, Needs: []known.Need{known.NeedsFuel},
		Of: eachCircuit, When: known.OfCircuit("the volume delivered over its upper limit", known.Circuit.VolumeHigh),
		Kind: OfFuel, For: common("wrong-pump"),
		Say: func(_ *known.Case, s known.Subject) diag.Finding {
			return diag.Finding{Urgency: diag.CheckAgain, Confidence: diag.Fair, Facts: volumeFacts(*s.Circuit)}
		},
		Headline: "see-findings",
	},
	{
		Name: "fuel-needle-flutters", Title: "The needle flutters",
		Why:    "A needle that will not stand still shows air in the fuel, a strainer that is blocked, or a regulator on its way out. A clear hose or the pump's current shows which.",
		Source: "common practice, no source", Class: Single, About: diag.AboutFuel, Needs: []known.Need{known.NeedsFuel},
		Of: theEngine, When: needleOfFuelFlutters,
		Kind: OfFuel, For: []Voice{{Cause: "air-in-fuel", Weight: Sight}, {Cause: "supply-restricted", Weight: DryUp}, {Cause: "regulator-stuck", Weight: DryUp}},
		Say: needleFlutters, Headline: "fuel-needle",
	},
}

var needleOfFuelFlutters = known.OfEngine("the needle is said to flutter and fuel pressure was tested", func(c *known.Case) bool {
	return c.Conditions.Needle == "flutters" && len(c.Circuits()) > 0
})

func pinchedLow(k known.Circuit) bool {
	past, _ := known.Below(k.Reading("return-pinched"))
	return past
}

func pinchedHigh(k known.Circuit) bool {
	past, _ := known.Above(k.Reading("return-pinched"))
	return past
}

func pinched(beyond func(*diag.FuelReading) (past, clear bool)) func(*known.Case, known.Subject) diag.Finding {
	return func(_ *known.Case, s known.Subject) diag.Finding {
		r := s.Circuit.Reading("return-pinched")
		_, clear := beyond(r)
		return fuelFinding(*s.Circuit, r, clear)
	}
}

// sagsUnderLoad is to be checked again where the snap has no limit of its own.
func sagsUnderLoad(c *known.Case, s known.Subject) diag.Finding {
	k := s.Circuit
	snap := k.Sags()
	_, clear := known.Below(snap)
	f := fuelFinding(*k, snap, clear || snap.LimitLow == nil)
	from := k.SnapFrom()
	if from != nil {
		f.Facts["from"], f.Facts["against"] = c.FuelNumber(from.Value).String(), from.Name
	}
	if snap.LimitLow == nil {
		f.Urgency, f.Doubts = diag.CheckAgain, []diag.Phrase{{Key: "no-snap-limit"}}
	}
	return f
}

func volumeLow(_ *known.Case, s known.Subject) diag.Finding {
	f := diag.Finding{Urgency: diag.ActSoon, Confidence: diag.Fair, Facts: volumeFacts(*s.Circuit)}
	if s.Circuit.Volume.LimitLow == nil {
		f.Variant, f.Urgency, f.Confidence, f.Doubts = "no-limit", diag.CheckAgain, diag.Weak, []diag.Phrase{{Key: "no-volume-limit"}}
	}
	return f
}

// volumeFacts are the volume as entered and its limit as entered and, where
// these are of different times, the volume in the time of the limit.
func volumeFacts(k known.Circuit) diag.Facts {
	v := k.Volume
	facts := diag.Facts{"volume": diag.Number{Value: v.PerMinute, Unit: "ml"}, "entered": v.Entered, "limit": v.LimitEntered, "delivered": v.Entered, "scaled": nil, "scaledIn": nil}
	minutes := k.In.VolumeSeconds / 60
	ml := func(value float64) diag.Number { return diag.Number{Value: value, Unit: "ml"} }
	seconds := func(minutes float64) diag.Number { return diag.Number{Value: 60 * minutes, Unit: "s"} }
	if v.Entered == "" {
		facts["delivered"] = ml(k.In.VolumeML).String() + " / " + seconds(minutes).String()
	}
	if v.LimitMinutes > 0 && v.LimitMinutes != minutes {
		facts["scaled"], facts["scaledIn"] = ml(v.PerMinute*v.LimitMinutes), seconds(v.LimitMinutes)
	}
	return facts
}

// needleFlutters doubts which gauge it was where two were read.
func needleFlutters(c *known.Case, _ known.Subject) diag.Finding {
	f := diag.Finding{Urgency: diag.CheckAgain, Confidence: diag.Fair}
	if c.Has(known.NeedsCompression) {
		f.Confidence, f.Doubts = diag.Weak, []diag.Phrase{{Key: "which-needle"}}
	}
	return f
}
