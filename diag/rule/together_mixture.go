package rule

import (
	"slices"

	"gaugesheet/diag"
)

const rich, lean = "rich running", "lean running"

var mixtureTogether = []Rule{
	{
		Name: "rich-but-pressure-low", Title: "Runs rich, yet the fuel pressure is low",
		Trigger: "a complaint of rich running, a code for it or soot on every plug, and fuel pressure under its limit",
		Why: "Low pressure makes an engine lean, never rich, so the pressure is not the cause. Something brings fuel past the metering, and two of these also let the pressure fall: " +
			"a torn regulator diaphragm and an injector that drips. Then come the purge valve, fuel in the oil, and a sensor that reports cold or lean.",
		Source: "common practice, no source: low rail pressure leans the mixture and does not explain soot", Class: Together, Needs: []Need{NeedsFuel},
		Findings: eachCircuit(richButLow),
	},
	{
		Name: "rich-and-pressure-high", Title: "Runs rich, and the fuel pressure is high",
		Trigger: "a complaint of rich running, a code for it or soot on every plug, and fuel pressure over its limit",
		Why:     "Too much pressure gives too much fuel with each injection, on every cylinder alike. Plugs or complaint and gauge agree: return line, regulator or its hose.",
		Source:  "common practice, no source", Class: Together, Needs: []Need{NeedsFuel},
		Findings: eachCircuit(richAndHigh),
	},
	{
		Name: "lean-and-pressure-low", Title: "Runs lean, and the fuel pressure is low",
		Trigger: "a complaint of lean running, a code for it or every plug white, and fuel pressure under its limit or sagging under load",
		Why:     "Too little pressure gives too little fuel, and white plugs show it. Filter, pump and voltage come before injectors and sensors.",
		Source:  "TM 10-3930-653-14&P, para 4-7-9 (white plugs: low fuel pressure among the causes)", Class: Together, Needs: []Need{NeedsFuel},
		Findings: eachCircuit(leanAndLow),
	},
	{
		Name: "lean-pressure-right", Title: "Runs lean, and the fuel pressure is right",
		Trigger: "a complaint of lean running, a code for it or every plug white, fuel pressure within its limits and no sag",
		Why:     "The fuel arrives with the right pressure, so either air comes in that was not measured, or the injectors let too little through, or the air meter reads low.",
		Source:  "common practice, no source", Class: Together, Needs: []Need{NeedsFuel},
		Findings: leanPressureRight,
	},
	{
		Name: "rich-one-bank", Title: "Rich on one bank only",
		Trigger: "the plugs of one bank alone are sooty or fuel-wet, and a complaint or code of rich running, or a fuel-pressure test that both banks share",
		Why: "Both banks have the same pump, tank and regulator, so these are not the cause. What the bank has to itself is its sensor, its exhaust ahead of it, its injectors, its cam timing. " +
			"White plugs on the other bank make it likely that the two sensors were exchanged.",
		Source: "common practice, no source", Class: Together, Needs: []Need{NeedsPlugs},
		Variants: []string{"crossed"},
		Findings: richOneBank,
	},
	{
		Name: "rich-everywhere", Title: "Rich on every cylinder",
		Trigger: "soot on every plug, and a complaint or code of rich running or a fuel pressure that is right",
		Why:     "Every cylinder alike means something that all share: a sensor that reports a cold engine or too little air, the purge valve, the air filter, an injector rail that drips.",
		Source:  plugManual + plugPattern, Class: Together, Needs: []Need{NeedsPlugs},
		Findings: richEverywhere,
	},
	{
		Name: "lean-one-bank", Title: "Lean on one bank only",
		Trigger: "the plugs of one bank alone are white, two at least looked at in each",
		Why:     "What a bank has to itself is its side of the manifold with its gaskets, its injectors with their seals, its exhaust and its sensor.",
		Source:  "common practice, no source", Class: Together, Needs: []Need{NeedsPlugs},
		Findings: leanOneBank,
	},
}

// sign says what speaks of a mixture: "plugs", "complaint", "code" or "".
func (c *Case) sign(look, complaint string, codes ...string) string {
	switch {
	case c.Has(NeedsPlugs) && c.patternOf(c.looking(look)) == onAll:
		return "plugs"
	case c.complains(complaint):
		return "complaint"
	case c.coded(codes...):
		return "code"
	}
	return ""
}

// The codes are those of SAE J2012 for a mixture too rich or too lean, from
// memory.
func (c *Case) richSign() string { return c.sign("sooty", rich, "P0172", "P0175") }
func (c *Case) leanSign() string { return c.sign("white", lean, "P0171", "P0174") }

// mixture is a finding that a sign of the mixture and the fuel pressure make
// together. A complaint is not a measurement: it does not make a finding strong.
func (k circuit) mixture(rule string, r *diag.FuelReading, clear bool, sign string) *diag.Finding {
	f := k.fuelFinding(rule, r, clear)
	f.Facts["sign"], f.Facts["pinched"], f.Facts["snap"] = sign, "", r.Name == "snap"
	if clear && sign == "plugs" && !k.c.plugsNew() {
		f.Confidence = diag.Strong
	}
	if sign != "plugs" {
		f.Doubts = append(f.Doubts, phrases("by-complaint")...)
	}
	return f
}

func richButLow(k circuit) *diag.Finding {
	r, clear := k.worst(below)
	sign := k.c.richSign()
	if r == nil || sign == "" || k.pumpDead() != nil {
		return nil
	}
	f := k.mixture("rich-but-pressure-low", r, clear, sign)
	f.Confidence = atMost(f.Confidence, diag.Fair)
	causes := []string{"regulator-diaphragm", "leaking-injector", "purge-valve", "fuel-in-oil", "temperature-signal", "gauge-reads-low"}
	if k.in.FuelInHose == "no" || !k.mayBeReferenced() {
		causes = without(causes, "regulator-diaphragm")
	}
	if k.in.FuelInHose == "no" {
		f.Against = append(f.Against, phrases("hose-dry")...)
	}
	if worst, limited := k.holdPast(); limited && worst == nil {
		causes = without(causes, "leaking-injector")
		f.Against = append(f.Against, phrases("pressure-held")...)
	}
	f.Causes = phrases(causes[:shownCauses]...)
	f.Facts["hose"] = k.in.FuelInHose == "yes"
	if k.in.FuelInHose == "yes" {
		if clear {
			f.Confidence = diag.Strong // the hose and the gauge agree
		}
		f.Causes = phrases("regulator-diaphragm")
		f.Next = k.c.next(nil, "renew-regulator", "oil-for-fuel")
		return f
	}
	if fallsOffFast(k) != nil {
		f.Next = k.c.next(nil, "pinch-feed-and-return", "injector-balance")
		return f
	}
	checks := []string{"held-pressure", "purge-pinch", "fuel-trims", "second-fuel-gauge"}
	if k.mayBeReferenced() {
		checks = append([]string{"hose-for-fuel"}, checks...)
	}
	f.Next = k.c.next(nil, checks...)
	return f
}

func without(list []string, key string) []string {
	return slices.DeleteFunc(list, func(k string) bool { return k == key })
}

func richAndHigh(k circuit) *diag.Finding {
	r, clear := k.worst(above)
	sign := k.c.richSign()
	if r == nil || sign == "" {
		return nil
	}
	f := k.mixture("rich-and-pressure-high", r, clear, sign)
	k.highCauses(f)
	return f
}

func leanAndLow(k circuit) *diag.Finding {
	sign := k.c.leanSign()
	if sign == "" || k.pumpDead() != nil {
		return nil
	}
	r, clear := k.worst(below)
	if r == nil && sagsUnderLoad(k) != nil {
		r = k.Reading("snap")
		clear = r.Verdict != diag.TooClose
	}
	if r == nil {
		return nil
	}
	f := k.mixture("lean-and-pressure-low", r, clear, sign)
	k.lowCauses(f)
	if r.Name == "snap" { // the regulator holds the steady pressure
		f.Causes = phrases("fuel-filter", "pump", "pump-voltage")
		f.Next = k.c.next(nil, "fuel-volume", "pump-volts")
	}
	return f
}

// pressureRight gives a circuit whose pressure is within its limits, and its
// reading; every circuit must be.
func (c *Case) pressureRight() (circuit, *diag.FuelReading) {
	var at circuit
	var right *diag.FuelReading
	for _, k := range c.circuits() {
		low, _ := k.worst(below)
		high, _ := k.worst(above)
		if low != nil || high != nil || sagsUnderLoad(k) != nil {
			return circuit{}, nil
		}
		for _, r := range k.steady() {
			if r.Verdict == diag.Within && right == nil {
				at, right = k, r
			}
		}
	}
	return at, right
}

func leanPressureRight(c *Case) []diag.Finding {
	sign := c.leanSign()
	k, r := c.pressureRight()
	if sign == "" || r == nil {
		return nil
	}
	f := k.mixture("lean-pressure-right", r, true, sign)
	f.Confidence, f.Urgency = atMost(f.Confidence, diag.Fair), diag.CheckAgain
	f.Causes = phrases("air-leak", "air-meter", "dirty-injectors")
	f.Next = c.next(nil, "smoke-test", "fuel-trims")
	return []diag.Finding{*f}
}

func richOneBank(c *Case) []diag.Finding {
	set := c.looking("sooty", "fuel-wet")
	if len(set) == 0 {
		return nil
	}
	bank := c.bankOfAll(set)
	if bank < 0 || !c.complains(rich) && !c.coded("P0172", "P0175") && !c.Has(NeedsFuel) {
		return nil
	}
	f := c.plugFinding("rich-one-bank", set, diag.CheckAgain, true)
	f.Confidence = diag.Fair
	if c.plugsNew() {
		f.Confidence = diag.Weak
	}
	f.Causes = phrases("bank-exhaust-leak", "bank-sensor", "own-injector")
	f.Next = c.next(set, "bank-trims", "smoke-test", "compression-test")
	whites := c.looking("white")
	if len(whites) > 1 && c.bankOfAll(whites) == 1-bank {
		f.Variant, f.Causes = "crossed", phrases("sensors-crossed", "bank-exhaust-leak", "bank-sensor")
	}
	return []diag.Finding{f}
}

func richEverywhere(c *Case) []diag.Finding {
	right := false
	if c.Has(NeedsFuel) {
		_, r := c.pressureRight()
		right = r != nil
	}
	told := c.complains(rich) || c.coded("P0172", "P0175")
	if c.patternOf(c.looking("sooty")) != onAll || !told && !right {
		return nil
	}
	f := c.plugFinding("rich-everywhere", c.looking("sooty"), diag.CheckAgain, true)
	f.Facts["right"] = right
	f.Confidence = diag.Fair
	f.Causes = phrases("temperature-signal", "air-meter", "purge-valve")
	if !right {
		f.Causes = phrases("regulator-stuck", "temperature-signal", "air-filter")
	}
	f.Next = c.next(f.Cylinders, "fuel-pressure-test", "hose-for-fuel", "held-pressure", "fuel-trims")
	return []diag.Finding{f}
}

func leanOneBank(c *Case) []diag.Finding {
	set := c.looking("white")
	if len(set) == 0 || c.bankOfAll(set) < 0 {
		return nil
	}
	f := c.plugFinding("lean-one-bank", set, diag.CheckAgain, true)
	f.Causes = phrases("manifold-gasket", "injector-seals", "bank-exhaust-leak")
	f.Next = c.next(set, "smoke-test", "bank-trims")
	if sooty := c.looking("sooty", "fuel-wet"); len(sooty) > 0 && c.bankOfAll(sooty) >= 0 {
		f.Causes = phrases("sensors-crossed", "manifold-gasket", "bank-exhaust-leak")
		f.Next = c.next(set, "bank-trims")
	}
	return []diag.Finding{f}
}
