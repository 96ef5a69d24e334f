package rule

import (
	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// testSigns are what is known of a test that bears on every reading at once:
// in the story of an engine that reads low, or high, throughout it speaks for a
// fault of the test. The notices speak with the same voices, whatever was read.
var testSigns = throughout(tiresInOrder, turnedSlowly, batterySagged, chokedOff, letOut, mayLetOut, plugsStayedIn, testedCold, throttleUnsure, fewStrokes,
	needleFell, gaugeWasLow, gaugeWasHigh, gaugeInDoubt, doubtedHigh, otherUnit, limitTooHigh, airIsThin, airMayBeThin)

// throughout keeps signs to engines of which every cylinder is out.
func throughout(signs ...Sign) []Sign {
	out := known.Any(known.UnderFloor,
		known.OfEngine("no cylinder with pressure", func(c *known.Case) bool { return c.Dead() }),
		known.OfEngine("every cylinder above what the engine can give", allAbove))
	list := make([]Sign, len(signs))
	for i, g := range signs {
		g.When = known.All(out, g.When)
		list[i] = g
	}
	return list
}

var (
	tiresInOrder  = ofTest(noticed("falls-in-test-order"), Voice{Cause: "weak-cranking", Weight: Known}, Voice{Cause: "gauge-valve-leaks", Weight: DryUp})
	turnedSlowly  = ofTest(known.OfEngine("a cranking speed under 150 rpm", func(c *known.Case) bool { return c.TurnsSlowly() }), Voice{Cause: "weak-cranking", Weight: Known})
	batterySagged = ofTest(known.OfEngine("a battery under 9.6 V on the starter", func(c *known.Case) bool { _, sags := c.BatterySags(); return sags }),
		Voice{Cause: "weak-cranking", Weight: Known})
	chokedOff = ofTest(known.OfEngine("cranked with the throttle closed or the choke on", func(c *known.Case) bool { return c.ThrottleShut() || c.ChokeShut() }),
		Voice{Cause: "throttle-or-choke", Weight: Heard})
	letOut    = ofTest(known.ReleasesItself, Voice{Cause: "decompressor", Weight: Heard})
	mayLetOut = ofTest(known.OfEngine("one or two cylinders, and not recorded whether there is a decompressor", func(c *known.Case) bool {
		return c.SmallEngine() && c.Spec.Decompressor == ""
	}), Voice{Cause: "decompressor", Weight: Hint})
	plugsStayedIn  = ofTest(known.OfEngine("one plug out at a time", func(c *known.Case) bool { return c.Conditions.PlugsOut == "one at a time" }), Voice{Cause: "weak-cranking", Weight: Hint})
	testedCold     = ofTest(known.OfEngine("tested cold", func(c *known.Case) bool { return known.Warmth(c.Conditions) == "cold" }), Voice{Cause: "cold-engine", Weight: Hint})
	throttleUnsure = ofTest(known.OfEngine("not recorded that the throttle was open", func(c *known.Case) bool { return !c.Spec.Diesel() && c.Conditions.Throttle != "open" }),
		Voice{Cause: "throttle-or-choke", Weight: Hint})
	fewStrokes  = ofTest(known.OfEngine("fewer than four strokes", func(c *known.Case) bool { return c.Conditions.Strokes > 0 && c.Conditions.Strokes < 4 }), Voice{Cause: "weak-cranking", Weight: Hint})
	needleFell  = ofTest(known.NeedleFallsBack, Voice{Cause: "gauge-valve-leaks", Weight: Heard})
	gaugeWasLow = ofTest(known.OfEngine("a gauge that read low at its check", func(c *known.Case) bool { return known.GaugeOff(c.Gauges.Compression) < 0 }), Voice{Cause: "gauge-reads-low", Weight: Heard},
		Voice{Cause: "gauge-reads-high", Weight: -Heard, Says: "gauge-was-low"})
	gaugeWasHigh = ofTest(known.OfEngine("a gauge that read high at its check", func(c *known.Case) bool { return known.GaugeOff(c.Gauges.Compression) > 0 }), Voice{Cause: "gauge-reads-high", Weight: Heard},
		Voice{Cause: "gauge-reads-low", Weight: -Heard, Says: "gauge-was-high"})
	gaugeInDoubt = ofTest(known.OfEngine("a gauge whose readings are doubted", func(c *known.Case) bool { return c.Gauges.Compression != nil && c.Gauges.Compression.Doubt != "" }),
		Voice{Cause: "gauge-reads-low", Weight: Known}, Voice{Cause: "gauge-valve-leaks", Weight: Hint})
	doubtedHigh = ofTest(known.OfEngine("such a gauge, and not every cylinder low by it", func(c *known.Case) bool {
		return c.Gauges.Compression != nil && c.Gauges.Compression.Doubt != "" && c.AllLow() == nil
	}), Voice{Cause: "gauge-reads-high", Weight: DryUp})
	otherUnit    = ofTest(known.OfEngine("figures that look like another unit", func(c *known.Case) bool { return c.UnitSuspect() }), Voice{Cause: "other-unit", Weight: Heard})
	limitTooHigh = ofTest(known.OfEngine("a minimum that is high for the engine's ratio", func(c *known.Case) bool {
		n := c.NoticeOf("limit-implausible")
		return n != nil && n.Variant == ""
	}), Voice{Cause: "limit-wrong", Weight: Heard})
	airIsThin    = ofTest(noticed("altitude-not-corrected"), Voice{Cause: "altitude", Weight: Heard})
	airMayBeThin = ofTest(known.OfEngine("a limit for sea level at a height that was not recorded, or thin air that explains a part", func(c *known.Case) bool {
		matters, explains := c.AltitudeTells()
		uncorrected := c.Minimum() != nil && c.Minimum().Uncorrected
		return (matters || uncorrected) && !explains
	}), Voice{Cause: "altitude", Weight: Hint})
)

// ofTest is what is known of a test as a sign in the story of the engine.
func ofTest(when known.Condition, voices ...Voice) Sign {
	return Sign{When: when, Kind: OfTest, About: string(diag.AboutEngine), For: voices}
}

// noticed is a notice that was given.
func noticed(rule string) known.Condition {
	return known.OfEngine("the notice "+rule, func(c *known.Case) bool { return c.Noticed(rule) })
}

// voicesOf lets a notice speak with the voices of signs that hold.
func voicesOf(signs ...Sign) func(*known.Case, known.Subject) []Voice {
	return func(c *known.Case, s known.Subject) []Voice {
		var list []Voice
		for _, g := range signs {
			if g.When.Holds(c, s) {
				list = append(list, g.For...)
			}
		}
		return list
	}
}
