package rule

import (
	"math"

	"gaugesheet/diag"
)

var fuelLevelRules = []Rule{
	{
		Name: "no-fuel-pressure", Title: "No fuel pressure",
		Trigger: "every steady reading of a circuit under 1 psi",
		Why: "With no pressure at all, something stops the pump from running or the fuel from arriving: relay, fuse, cut-off switch, wiring, an empty tank, the pump itself. " +
			"Most of these cost less than a pump and are looked at first.",
		Source: "common practice, no source", Class: Single, Needs: []Need{NeedsFuel},
		Findings: eachCircuit(noFuelPressure),
	},
	{
		Name: "fuel-pressure-low", Title: "Fuel pressure under its limit",
		Trigger: "key-on, idle or hose-off pressure under its lower limit; too close to call and under it as read: check again",
		Why: "Low pressure gives less fuel in each injection, so the engine runs lean and weak. A filter, a weak pump, low voltage at it, or a regulator that lets too much back " +
			"all do it; closing the return for a moment tells the regulator from the rest.",
		Source: "common practice, no source; limits: the job's own", Class: Single, Needs: []Need{NeedsFuel},
		YieldsTo: []string{"rich-but-pressure-low", "lean-and-pressure-low"},
		Findings: eachCircuit(fuelPressureLow),
	},
	{
		Name: "fuel-pressure-high", Title: "Fuel pressure over its limit",
		Trigger: "key-on, idle or hose-off pressure over its upper limit; too close to call and over it as read: check again",
		Why: "Pressure is high where the fuel cannot get back to the tank, where the regulator sticks, or where the hose that tells it the manifold's pressure is off or split. " +
			"The engine then runs rich.",
		Source: "common practice, no source; limits: the job's own", Class: Single, Needs: []Need{NeedsFuel},
		YieldsTo: []string{"rich-and-pressure-high"},
		Findings: eachCircuit(fuelPressureHigh),
	},
	{
		Name: "sags-under-load", Title: "Fuel pressure sags when the throttle is opened",
		Trigger: "the snap reading under its limit, or more than 10 % under the idle reading where it has none, while the steady pressure is not low",
		Why:     "A pump loses volume before it loses pressure: at rest it still reaches the figure, under load it cannot keep up. Filter, pickup strainer and voltage do the same.",
		Source:  "common practice, no source", Class: Single, Needs: []Need{NeedsFuel},
		YieldsTo: []string{"rich-but-pressure-low", "lean-and-pressure-low"},
		Findings: eachCircuit(sagsUnderLoad),
	},
	{
		Name: "pump-volume-low", Title: "The pump delivers little",
		Trigger: "the volume delivered in the measured time under its limit, or under 946 ml a minute where none is given",
		Why:     "Pressure can be right while little flows: a clogged filter or a tired pump still fills a closed line. The volume shows what is left for full load.",
		Source:  "common practice: one US pint (473 ml) in 30 seconds", Class: Single, Needs: []Need{NeedsFuel},
		Variants: []string{"no-limit"},
		Findings: eachCircuit(pumpVolumeLow),
	},
	{
		Name: "fuel-needle-flutters", Title: "The needle flutters",
		Trigger: "the needle is said to flutter and fuel pressure was tested",
		Why:     "A needle that will not stand still shows air in the fuel, a strainer that is blocked, or a regulator on its way out. A clear hose or the pump's current shows which.",
		Source:  "common practice, no source", Class: Single, Needs: []Need{NeedsFuel},
		Findings: needleFlutters,
	},
	{
		Name: "fuel-pressure-right", Title: "Fuel pressure within its limits",
		Trigger: "every steady reading that has a limit is within it; some too close to call but inside it as read",
		Why: "Pressure that is right clears tank, pump, filter and regulator of the engine's complaint as far as pressure goes. It does not clear an injector that drips: " +
			"only the pressure held after switching off does.",
		Source: "limits: the job's own", Class: Sound, Needs: []Need{NeedsFuel},
		Variants: []string{"close"}, YieldsTo: []string{"lean-pressure-right"},
		Findings: eachCircuit(fuelPressureRight),
	},
	{
		Name: "fuel-limit-missing", Title: "No limit for the fuel pressure",
		Trigger: "a steady pressure and no limit for any of them; the usual range of the system is named, never judged by",
		Why: "Systems differ so much that a figure without the maker's limit cannot be judged. The usual range of such systems only tells whether the figure is " +
			"of the right kind, or perhaps in another unit.",
		Source: "ranges: common practice, no source (carburettor 4 to 8 psi, throttle body 9 to 15, port 35 to 60, without return 50 to 75, direct low side 50 to 90, diesel lift pump 6 to 8)",
		Class:  TestItself, Needs: []Need{NeedsFuel}, Variants: []string{"unusual", "system-unknown"},
		Notices: fuelLimitMissing,
	},
}

func noFuelPressure(k circuit) *diag.Finding {
	dead := k.pumpDead()
	if dead == nil {
		return nil
	}
	f := k.fuelFinding("no-fuel-pressure", dead, true)
	f.Causes = phrases("pump-circuit", "pump", "supply-restricted")
	f.Next = k.c.next(nil, "pump-volts", "fuel-volume")
	return f
}

func fuelPressureLow(k circuit) *diag.Finding {
	r, clear := k.worst(below)
	if r == nil || k.pumpDead() != nil {
		return nil
	}
	f := k.fuelFinding("fuel-pressure-low", r, clear)
	k.lowCauses(f)
	return f
}

// lowCauses names what gives low pressure, and the check that tells regulator
// from supply where that was not made.
func (k circuit) lowCauses(f *diag.Finding) {
	climbs, known := k.climbs()
	f.Facts["pinched"] = ""
	if known {
		f.Facts["pinched"] = k.c.fuelNumber(k.Reading("return-pinched").Value).String()
	}
	switch {
	case known && climbs:
		f.Causes = phrases("regulator-open")
		f.Next = k.c.next(nil, "hose-for-fuel", "pump-volts")
	case known:
		f.Causes = phrases("fuel-filter", "pump", "pump-voltage")
		f.Next = k.c.next(nil, "pump-volts", "fuel-volume")
	case k.hasReturn():
		f.Causes = phrases("fuel-filter", "pump", "regulator-open")
		f.Next = k.c.next(nil, "restrict-return", "pump-volts", "fuel-volume")
	default:
		f.Causes = phrases("fuel-filter", "pump", "pump-voltage")
		f.Next = k.c.next(nil, "pump-volts", "fuel-volume")
	}
}

func fuelPressureHigh(k circuit) *diag.Finding {
	r, clear := k.worst(above)
	if r == nil {
		return nil
	}
	f := k.fuelFinding("fuel-pressure-high", r, clear)
	k.highCauses(f)
	return f
}

func (k circuit) highCauses(f *diag.Finding) {
	switch {
	case k.mayBeReferenced():
		f.Causes = phrases("return-blocked", "regulator-stuck", "vacuum-hose")
		f.Next = k.c.next(nil, "return-to-can")
	case k.c.Fuel.System == carburettor:
		f.Causes = phrases("wrong-pump", "return-blocked")
		f.Next = k.c.next(nil, "second-fuel-gauge")
	default:
		f.Causes = phrases("regulator-stuck", "return-blocked")
		f.Next = k.c.next(nil, "second-fuel-gauge")
	}
}

// sagPart is how far the pressure may fall when the throttle opens: common
// practice, no source.
const sagPart = 0.10

func sagsUnderLoad(k circuit) *diag.Finding {
	snap, idle := k.Reading("snap"), k.Reading("idle")
	if low, _ := k.worst(below); snap == nil || low != nil || k.pumpDead() != nil {
		return nil
	}
	past, clear := below(snap)
	byIdle := snap.LimitLow == nil && idle != nil && idle.Value-snap.Value > math.Max(sagPart*idle.Value, snap.Uncertainty)
	if !past && !byIdle {
		return nil
	}
	f := k.fuelFinding("sags-under-load", snap, clear || byIdle)
	f.Facts["idle"] = ""
	if idle != nil {
		f.Facts["idle"] = k.c.fuelNumber(idle.Value).String()
	}
	if byIdle {
		f.Confidence, f.Doubts = diag.Fair, phrases("no-snap-limit")
		f.Urgency = diag.CheckAgain
	}
	f.Causes = phrases("fuel-filter", "pump", "pump-voltage")
	f.Next = k.c.next(nil, "fuel-volume", "pump-volts")
	return f
}

func needleFlutters(c *Case) []diag.Finding {
	if c.Conditions.Needle != "flutters" || len(c.circuits()) == 0 {
		return nil
	}
	f := diag.Finding{Rule: "fuel-needle-flutters", Urgency: diag.CheckAgain, Confidence: diag.Fair,
		Causes: phrases("air-in-fuel", "supply-restricted", "regulator-stuck"), Next: c.next(nil, "clear-hose", "fuel-volume")}
	if c.Has(NeedsCompression) {
		f.Confidence, f.Doubts = diag.Weak, phrases("which-needle")
	}
	return []diag.Finding{f}
}

func fuelPressureRight(k circuit) *diag.Finding {
	var first *diag.FuelReading
	close := false
	for _, r := range k.steady() {
		low, _ := below(r)
		high, _ := above(r)
		switch {
		case low || high:
			return nil
		case r.Verdict == diag.Within || r.Verdict == diag.TooClose:
			close = close || r.Verdict == diag.TooClose
			if first == nil || r.Verdict == diag.TooClose {
				first = r
			}
		}
	}
	if first == nil {
		return nil
	}
	f := k.fuelFinding("fuel-pressure-right", first, !close)
	f.Urgency = diag.NoAction
	if close {
		f.Variant = "close"
	}
	return f
}

// usualPSI are the ranges in which such systems usually work, in psi.
var usualPSI = map[string][2]float64{
	carburettor: {4, 8}, throttleBody: {9, 15}, portReturn: {35, 60}, portNoReturn: {50, 75}, directLow: {50, 90}, dieselLift: {6, 8},
}

// hoseOn is how much lower a regulator with its hose on keeps the pressure at
// idle, at most: 20 inHg of manifold vacuum.
const hoseOn = 9.8

func fuelLimitMissing(c *Case) []diag.Notice {
	var list []diag.Notice
	for _, k := range c.circuits() {
		steady := k.steady()
		limited := false
		for _, r := range steady {
			limited = limited || r.LimitLow != nil || r.LimitHigh != nil
		}
		if len(steady) == 0 || limited {
			continue
		}
		r := steady[0]
		n := diag.Notice{Rule: "fuel-limit-missing", Facts: diag.Facts{"value": c.fuelNumber(r.Value), "reading": readingInWords[r.Name],
			"system": c.Fuel.System, "circuit": k.Name, "low": "", "high": ""}}
		usual, known := usualPSI[c.Fuel.System]
		low, high := c.psi(usual[0]), c.psi(usual[1])
		n.Facts["low"], n.Facts["high"] = c.fuelNumber(low), c.fuelNumber(high)
		if r.Name == "idle" && k.referenced() {
			low -= c.psi(hoseOn)
		}
		switch {
		case !known:
			n.Variant = "system-unknown"
		case r.Value < low || r.Value > high:
			n.Variant = "unusual"
		}
		list = append(list, n)
	}
	return list
}

// usualVolume is what a pump of an injection system delivers at least, in ml a
// minute: one US pint in 30 seconds, common practice.
const usualVolume = 946

func pumpVolumeLow(k circuit) *diag.Finding {
	v := k.Volume
	if v == nil || k.pumpDead() != nil {
		return nil
	}
	f := &diag.Finding{Rule: "pump-volume-low", Urgency: diag.ActSoon, Confidence: diag.Fair, Facts: diag.Facts{
		"volume": diag.Number{Value: v.PerMinute, Unit: "ml"}, "entered": v.Entered, "limit": v.LimitEntered}}
	switch {
	case v.LimitLow != nil && v.PerMinute < *v.LimitLow && v.Verdict == diag.Outside:
	case v.LimitLow == nil && v.LimitHigh == nil && v.PerMinute < usualVolume && !k.lets():
		f.Variant, f.Urgency, f.Confidence, f.Doubts = "no-limit", diag.CheckAgain, diag.Weak, phrases("no-volume-limit")
	default:
		return nil
	}
	f.Causes = phrases("fuel-filter", "pump", "pump-voltage")
	f.Next = k.c.next(nil, "pump-volts", "clear-hose")
	return f
}
