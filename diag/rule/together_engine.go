package rule

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
)

var engineTogether = []Rule{
	{
		Name: "washed-and-low", Title: "All low, and every plug wet with fuel",
		Trigger: "every plug looked at is fuel-wet, and every cylinder is low: under the minimum or what else all are judged by, or under 100 psi on a petrol four-stroke",
		Why:     "Fuel washes the oil film from the bores, and an engine that was flooded reads low in every cylinder without being worn. It is dried, oiled and tested again before it is judged.",
		Source:  "common practice, no source", Class: Together, Needs: []Need{NeedsCompression, NeedsPlugs},
		Findings: washedAndLow,
	},
	{
		Name: "low-everywhere-but-tight", Title: "Low in every cylinder, yet they hold their air",
		Trigger: "every cylinder is low (as in all-low), and every loss that was read is 10 % at most",
		Why: "The cylinders seal, so the low pressure is not wear. Too little air gets in while cranking: the throttle, slow cranking or the gauge, and else the valve timing, " +
			"for which low pressure with low leakage is the classic sign.",
		Source: "common practice, no source", Class: Together, Needs: []Need{NeedsCompression, NeedsLeakage},
		Findings: lowEverywhereButTight,
	},
	{
		Name: "bank-low-with-cam-code", Title: "One bank low, and a code on its cam timing",
		Trigger: "bank-low, and a stored code P0016 to P0019 (crankshaft and camshaft do not agree)",
		Why:     "The pressure says that one bank breathes badly, and the engine's own sensors say that a camshaft does not stand where it should. Two signs from different sides point to the timing.",
		Source:  "SAE J2012 (names of the codes), from memory", Class: Together, Needs: []Need{NeedsCompression},
		Findings: bankLowWithCamCode,
	},
	{
		Name: "leaks-but-serviceable", Title: "Good compression, some loss past the rings",
		Trigger: "compression even, 20 to 30 % lost to the crankcase, no complaint of oil use and no oily plug there",
		Why:     "Rings with gaps lose some air at rest and still make good pressure at speed. Without oil use this is watched, and is not by itself a reason for a rebuild.",
		Source:  "common practice, no source", Class: Together, Needs: []Need{NeedsCompression, NeedsLeakage},
		Variants: []string{"over-limit"},
		Findings: leaksButServiceable,
	},
	{
		Name: "combustion-gas-in-coolant", Title: "Combustion gas in the coolant",
		Trigger: "the test of the coolant for combustion gas was positive",
		Why:     "Combustion gas reaches the coolant only through the gasket, the head or a bore. Even compression does not clear an engine of that: the leak may open only when it is hot.",
		Source:  "common practice, no source", Class: Group,
		Findings: gasInCoolant,
	},
	{
		Name: "stood-engine", Title: "The engine stood for long",
		Trigger: "it stood for more than 6 months, whatever the readings",
		Why:     "In an engine that stood the bores run dry, rings stick and seats rust. It reads low at first and often recovers with oil and use, so low readings are provisional until it has run.",
		Source:  "common practice, no source", Class: Information,
		Variants: []string{"low"},
		Findings: stoodEngine,
	},
	{
		Name: "no-start-not-explained", Title: "It does not start, and one low cylinder is not why",
		Trigger: "a complaint of no start, three cylinders or more all read, one of them low or without pressure and the others not; nothing found in the fuel pressure",
		Why: "An engine of several cylinders starts on the others. One low cylinder is a fault of its own; why the engine does not start is looked for beside it, in spark and fuel, " +
			"so that the one is not repaired for the other.",
		Source: "common practice, no source", Class: Elsewhere, Needs: []Need{NeedsCompression},
		Findings: startNotExplained,
	},
	{
		Name: "sealing-sound-look-elsewhere", Title: "The engine seals; the complaint has another cause",
		Trigger: "compression even in every cylinder and no limit passed, no high leakage where that was read, and a complaint of running or starting or a stored misfire code",
		Why:     "What was tested is sound, so more mechanical work would be guesswork. Spark, fuel, air and sensors come next. A valve that moves too little can hide here: running compression shows it.",
		Source:  "common practice, no source", Class: Elsewhere, Needs: []Need{NeedsCompression},
		Variants: []string{"coolant"},
		Findings: soundLookElsewhere,
	},
}

// washedPSI is the pressure under which every cylinder of a petrol engine
// counts as low when its plugs are soaked, where no figure is given: common
// practice, no source.
const washedPSI = 100

func washedAndLow(c *Case) []diag.Finding {
	wet := c.plugsLooking("fuel-wet")
	if len(wet) == 0 || len(wet) < c.Sums.Plugs.N || len(c.Engine.Names()) > 1 && len(wet) < 2 {
		return nil
	}
	s := c.Sums.Compression
	floor, err := quantity.Convert(washedPSI, quantity.PSI, s.Unit)
	soaked := err == nil && s.Highest < floor && !c.Spec.TwoStroke && !c.Spec.Diesel()
	if c.allLow() == nil && !soaked {
		return nil
	}
	f := c.agreed("washed-and-low", c.Read(), diag.Facts{"read": c.span(s.Lowest, s.Highest)}, "washed-bore", "flooding")
	f.Urgency, f.Confidence = diag.CheckAgain, diag.Fair
	f.Next = c.next(f.Cylinders, "dry-and-repeat", "leak-down")
	return []diag.Finding{f}
}

func lowEverywhereButTight(c *Case) []diag.Finding {
	leaks := c.leaks()
	high := slices.ContainsFunc(leaks, func(l *diag.LeakResult) bool { return *l.Loss > goodLoss || c.placed(l) })
	if c.allLow() == nil || len(leaks) == 0 || high {
		return nil
	}
	var names []string
	for _, l := range leaks {
		names = append(names, l.Name)
	}
	s := c.Sums.Compression
	f := c.agreed("low-everywhere-but-tight", c.Read(), diag.Facts{"read": c.span(s.Lowest, s.Highest), "loss": percent(*c.worstLeak(names).Loss, 0)},
		"throttle-or-choke", "cam-timing", "gauge-reads-low")
	f.Confidence = diag.Fair
	if s.LowestPercentOfHighest < evenTogether {
		f.Causes = phrases("cam-timing", "throttle-or-choke")
	}
	if c.Conditions.Throttle == "open" {
		f.Confidence, f.Causes = diag.Strong, phrases("cam-timing", "gauge-reads-low")
	}
	f.Next = c.next(f.Cylinders, "second-gauge", "cam-timing-marks")
	return []diag.Finding{f}
}

// camCodes are the codes on a camshaft that does not agree with the
// crankshaft, for bank 1 (that of cylinder 1) and bank 2.
var camCodes = [2][]string{{"P0016", "P0017"}, {"P0018", "P0019"}}

func bankLowWithCamCode(c *Case) []diag.Finding {
	low := c.lowBank()
	if low < 0 {
		return nil
	}
	first := 0
	if b := c.Engine.BankOf("1"); b >= 0 {
		first = b
	}
	number := 0 // 0 for bank 1, 1 for bank 2
	if low != first {
		number = 1
	}
	var code string
	same := false
	for n, codes := range camCodes {
		for _, k := range codes {
			if c.coded(k) && (code == "" || n == number && !same) {
				code, same = k, n == number
			}
		}
	}
	if code == "" {
		return nil
	}
	f := c.agreed("bank-low-with-cam-code", c.groupLow().bank, diag.Facts{"code": code, "bank": c.bankLabel(low)}, "cam-timing", "cam-phaser", "timing-drive")
	if !same {
		f.Confidence, f.Against = diag.Weak, phrases("code-other-bank")
	}
	f.Next = c.next(f.Cylinders, "cam-timing-marks", "leak-down")
	return []diag.Finding{f}
}

func leaksButServiceable(c *Case) []diag.Finding {
	if c.complains("oil use") {
		return nil
	}
	var names []string
	over := false
	for _, l := range c.leaks() {
		inBand := *l.Loss >= wornLoss && *l.Loss <= actLoss
		if c.holdsWell(l.Name) && inBand && slices.Equal(l.At, []string{atCrankcase.at}) && !c.looks(l.Name, "oil-wet") {
			names = append(names, l.Name)
			over = over || l.Verdict == diag.Outside || c.pastLimit(l)
		}
	}
	if len(names) == 0 {
		return nil
	}
	f := c.agreed("leaks-but-serviceable", names, c.leakFacts(names), "rings")
	f.Urgency, f.Confidence = diag.CheckAgain, diag.Fair
	if over {
		f.Variant = "over-limit"
	}
	f.Next = c.next(names, "leak-down-again", "run-and-retest")
	c.coldLeak(&f)
	return []diag.Finding{f}
}

func gasInCoolant(c *Case) []diag.Finding {
	if c.CoolantGas != "positive" {
		return nil
	}
	f := c.agreed("combustion-gas-in-coolant", nil, nil, "head-gasket", "warped-or-cracked-head", "cracked-bore")
	f.Confidence = diag.Fair
	f.Next = c.next(nil, "cooling-pressure-test", "leak-down")
	return []diag.Finding{f}
}

func stoodEngine(c *Case) []diag.Finding {
	if !c.stood() {
		return nil
	}
	f := diag.Finding{Rule: "stood-engine", Urgency: diag.NoAction, Confidence: diag.Fair,
		Facts: diag.Facts{"months": diag.Number{Value: c.History.StoodMonths}.String(), "low": diag.Names(nil)}}
	if !c.Has(NeedsCompression) {
		return []diag.Finding{f}
	}
	low := c.LowSet()
	if len(low) > 0 || c.allLow() != nil || c.dead() {
		f.Variant, f.Urgency = "low", diag.CheckAgain
		f.Facts["low"] = diag.Names(low)
		f.Causes = phrases("dry-bores", "stuck-rings", "stuck-valve")
		f.Next = c.next(low, "run-and-retest", "wet-test", "leak-down")
	}
	return []diag.Finding{f}
}

func soundLookElsewhere(c *Case) []diag.Finding {
	coolant := c.complains("coolant loss", "overheating")
	running := c.complains("misfire", "no start", "hard start", "rich running", "lean running", "low power")
	leaky := slices.ContainsFunc(c.leaks(), func(l *diag.LeakResult) bool { return c.leakTooHigh(l) || c.placed(l) })
	if !c.sound() || leaky || !coolant && !running || c.allLow() != nil {
		return nil
	}
	f := c.agreed("sealing-sound-look-elsewhere", nil, diag.Facts{"leakage": len(c.leaks()) > 0,
		"percent": percent(c.Sums.Compression.LowestPercentOfHighest, 0), "complaint": c.complaint()})
	f.Urgency, f.Confidence = diag.CheckAgain, diag.Fair
	if len(c.leaks()) > 0 {
		f.Confidence = diag.Strong
	}
	switch {
	case !running:
		if c.CoolantGas == "positive" {
			return nil
		}
		f.Variant, f.Confidence, f.Causes = "coolant", diag.Weak, phrases("head-gasket", "other-than-sealing")
		f.Next = c.next(nil, "coolant-gas-test", "cooling-pressure-test")
	case c.complains("misfire"):
		f.Causes = phrases("ignition", "injection", "sensor-or-air-leak")
		_, named := c.misfireCodes()
		f.Next = c.next(named, "swap-coil", "injector-balance", "running-compression")
	case c.complains("no start", "hard start"):
		f.Causes = phrases("ignition", "injection", "temperature-signal")
		f.Next = c.next(nil, "fuel-pressure-test", "held-pressure", "swap-coil")
	default:
		f.Causes = phrases("injection", "sensor-or-air-leak", "ignition")
		f.Next = c.next(nil, "fuel-pressure-test", "fuel-trims", "smoke-test")
	}
	return []diag.Finding{f}
}

func startNotExplained(c *Case) []diag.Finding {
	s := c.Sums.Compression
	read := c.Read()
	if !c.complains("no start") || len(read) < 3 || !s.Complete || len(c.LowSet()) != 1 || c.allLow() != nil || c.dead() {
		return nil
	}
	for _, k := range c.circuits() {
		if low, _ := k.worst(below); low != nil || k.pumpDead() != nil {
			return nil
		}
	}
	f := c.agreed("no-start-not-explained", nil, diag.Facts{"low": diag.Names(c.LowSet())}, "ignition", "injection")
	f.Urgency, f.Confidence = diag.CheckAgain, diag.Fair
	f.Next = c.next(nil, "fuel-pressure-test", "swap-coil")
	return []diag.Finding{f}
}

// complaint is the first complaint that the sealing could have explained.
func (c *Case) complaint() string {
	for _, x := range c.History.Complaints {
		if x != "stood" && x != "noise" && x != "oil use" {
			return x
		}
	}
	if misfires, _ := c.misfireCodes(); misfires {
		return "misfire"
	}
	return ""
}
