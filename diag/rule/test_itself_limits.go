package rule

import (
	"slices"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/air"
	"gaugesheet/diag/quantity"
)

// A stated minimum outside these parts of the likely pressure is doubted.
const (
	mostOfLikely  = 0.89
	leastOfLikely = 0.35
)

// likelyExponent is the middle of the exponents of compression at starter
// speed (general texts: 1.2 to 1.3).
const likelyExponent = 1.25

// usualInletClosing stands in where the inlet's closing is not recorded, in
// degrees after bottom dead centre: common practice, no source.
const usualInletClosing = 60

func limitImplausible(c *Case) []diag.Notice {
	s := c.Spec
	if c.Compression == nil || s.Ratio == 0 || s.VariableTiming == diag.Yes || s.TwoStroke || s.Decompressor == "automatic" {
		return nil
	}
	for _, l := range c.Compression.Limits {
		if l.Kind != diag.Minimum {
			continue
		}
		likely, ok := c.likelyPressure(l)
		if !ok {
			return nil
		}
		variant := ""
		switch part := l.Value / likely; {
		case part > mostOfLikely:
		case part < leastOfLikely:
			variant = "low"
		default:
			continue
		}
		decimals := quantity.DefaultDecimals(l.Unit)
		return notice("limit-implausible", variant, nil, diag.Facts{
			"limit": l.Entered, "ratio": diag.Number{Value: s.Ratio, Decimals: 1},
			"likely": diag.Number{Value: likely, Decimals: decimals, Unit: l.Unit}})
	}
	return nil
}

// likelyPressure is the cranking pressure that the ratio makes likely,
// in the limit's unit and at the air pressure that the limit is for.
func (c *Case) likelyPressure(l diag.Limit) (float64, bool) {
	s := c.Spec
	g := air.Geometry{Stroke: s.StrokeMM, Rod: s.RodMM, InletCloses: s.InletClosesDeg, Ratio: s.Ratio}
	if g.InletCloses == 0 {
		g.InletCloses = usualInletClosing
	}
	kPa := air.StandardPressure
	if !l.FromSeaLevel {
		kPa *= c.airPressureRatio()
	}
	atmosphere, err := quantity.Convert(kPa, quantity.KPa, l.Unit)
	if err != nil {
		return 0, false
	}
	band, err := air.Expected(g, atmosphere)
	if err != nil {
		return 0, false
	}
	return air.CrankingPressure(band.EffectiveRatio, likelyExponent, atmosphere), true
}

// airPressureRatio is the air pressure at the test beside the standard one; 1
// where neither barometer nor altitude was recorded.
func (c *Case) airPressureRatio() float64 {
	switch {
	case c.Conditions.BarometerKPa != nil:
		return *c.Conditions.BarometerKPa / air.StandardPressure
	case c.Conditions.AltitudeM != nil:
		if ratio, err := air.PressureRatio(*c.Conditions.AltitudeM); err == nil {
			return ratio
		}
	}
	return 1
}

// losesAll is the loss in percent at which a cylinder of good compression was
// not shut when it was tested.
const losesAll = 80

func leaksAtBothValves(c *Case) []diag.Notice {
	var both, all []string
	for _, l := range c.Sums.Leakage.Cylinders {
		switch {
		case slices.Contains(l.At, "inlet") && slices.Contains(l.At, "exhaust"):
			both = append(both, l.Name)
		case l.Loss != nil && *l.Loss > losesAll && slices.Contains([]diag.Grade{diag.Even, diag.Watch, diag.High}, c.Grade(l.Name)):
			all = append(all, l.Name)
		}
	}
	var list []diag.Notice
	if len(both) > 0 {
		list = append(list, notice("leaks-at-both-valves", "", both, nil)...)
	}
	if len(all) > 0 {
		list = append(list, notice("leaks-at-both-valves", "loses-all", all, nil)...)
	}
	return list
}

func leakageReadsNothing(c *Case) []diag.Notice {
	var none []string
	for _, l := range c.Sums.Leakage.Cylinders {
		if l.Loss != nil && *l.Loss == 0 && !c.Grade(l.Name).IsLow() {
			none = append(none, l.Name)
		}
	}
	if len(none) == 0 {
		return nil
	}
	return notice("leakage-reads-nothing", "", none, nil)
}

// highEverywhere is the loss in percent that is high for a whole engine: above
// it the schools agree to look further (common practice, no source).
const highEverywhere = 20

func allLeakToCrankcase(c *Case) []diag.Notice {
	if len(c.LowSet()) > 0 {
		return nil
	}
	least, n := 100.0, 0
	for _, l := range c.Sums.Leakage.Cylinders {
		if l.Loss == nil {
			continue
		}
		if *l.Loss < highEverywhere || !slices.Contains(l.At, "crankcase") {
			return nil
		}
		least = min(least, *l.Loss)
		n++
	}
	if n < 2 {
		return nil
	}
	return notice("all-leak-to-crankcase", "", nil, diag.Facts{"least": percent(least, 0)})
}

// The most that a cylinder in no need of oil should rise with it, in percent,
// and the largest part of the chamber that the dose should fill.
const (
	controlRise  = 10
	doseOfVolume = 0.10
)

func wetDoseTooLarge(c *Case) []diag.Notice {
	s := c.Sums.Compression
	if control := c.wetControls(); len(control) > 0 && c.allLow() == nil && s.WetControl != nil && *s.WetControl > controlRise {
		return notice("wet-dose-too-large", "", nil, diag.Facts{"control": diag.Names(control), "rise": percent(*s.WetControl, 0)})
	}
	if s.Expected != nil {
		for i := range s.Cylinders {
			if r := &s.Cylinders[i]; r.Wet != nil && *r.Wet > s.Expected.High {
				return notice("wet-dose-too-large", "above-geometry", nil, diag.Facts{
					"cylinder": r.Name, "wet": c.pressure(*r.Wet), "most": c.pressure(s.Expected.High)})
			}
		}
	}
	each := c.Spec.DisplacementML / float64(max(len(c.Engine.Cylinders), 1))
	chamber, err := air.ClearanceVolume(each, c.Spec.Ratio)
	if err != nil || c.Compression.OilML <= doseOfVolume*chamber {
		return nil
	}
	return notice("wet-dose-too-large", "dose", nil, diag.Facts{
		"dose":    diag.Number{Value: c.Compression.OilML, Unit: quantity.Millilitre},
		"chamber": diag.Number{Value: chamber, Unit: quantity.Millilitre}})
}

// wetControls are the cylinders tested wet that were not low dry.
func (c *Case) wetControls() []string {
	return c.cylindersThat(func(r *diag.CylinderResult) bool {
		return r.Wet != nil && r.Dry != nil && !r.Grade.IsLow() && r.Grade != diag.GradeNotJudged
	})
}

// liquidWords are what a look into the bore says where liquid stands in it.
var liquidWords = []string{"liquid", "water", "coolant", "full of fuel", "pool"}

func liquidInCylinder(c *Case) []diag.Finding {
	var wet []string
	for _, name := range c.Read() {
		seen := strings.ToLower(c.Borescope[name])
		said := slices.ContainsFunc(liquidWords, func(w string) bool {
			return strings.Contains(seen, w) && !strings.Contains(seen, "no "+w)
		})
		if said || c.Grade(name) == diag.High && c.looks(name, "coolant", "fuel-wet") {
			wet = append(wet, name)
		}
	}
	if len(wet) == 0 {
		return nil
	}
	return []diag.Finding{{
		Rule: "liquid-in-cylinder", Cylinders: wet, Urgency: diag.DoNotRun, Confidence: diag.Weak,
		Causes: phrases("coolant-or-fuel-in-bore", "oil-in-bore"),
		Next:   c.next(wet, "turn-by-hand"),
	}}
}

var testVocabulary = map[string][]string{
	"causes": {"coolant-or-fuel-in-bore", "oil-in-bore"},
	"doubts": {"method-incomplete", "unit-suspect", "falls-in-test-order", "strokes-differ", "needle-falls-back", "gauge-reads-off", "leaks-at-both-valves",
		"leakage-reads-nothing", "all-leak-to-crankcase", "wet-dose-too-large"},
	"checks": {"repeat-with-charger", "repeat-method", "second-gauge", "leak-down-again", "repeat-wet", "turn-by-hand"},
}
