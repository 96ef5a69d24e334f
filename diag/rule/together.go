package rule

import (
	"slices"
	"strconv"
	"strings"

	"gaugesheet/diag"
)

// togetherRules look at two kinds of readings at once: where these agree, or
// contradict each other, more can be said than from either.
var togetherRules = slices.Concat(sealingTogether, mixtureTogether)

// overriddenBy names, for rules on one kind of reading, the rules here that
// say the same better. Unlike with YieldsTo such a finding goes only where
// every one of its cylinders is spoken for, so that none is lost.
var overriddenBy = map[string][]string{
	"one-low": {
		"rings-agree", "exhaust-valve-agrees", "coolant-in-cylinder", "piston-contact", "low-but-tight", "low-hot-only"},
	"one-out-of-tight-pack": {
		"rings-agree", "exhaust-valve-agrees", "coolant-in-cylinder", "piston-contact", "low-but-tight", "low-hot-only"},
	"scattered-low": {
		"rings-agree", "exhaust-valve-agrees", "coolant-in-cylinder", "piston-contact", "low-but-tight"},
	"neighbours-low":              {"gasket-agrees", "rings-agree", "exhaust-valve-agrees"},
	"neighbours-without-pressure": {"gasket-agrees"},
	"bank-low":                    {"bank-low-with-cam-code"},
	"all-low":                     {"low-everywhere-but-tight", "washed-and-low"},
	"below-minimum":               {"all-low"},
	"wet-rise":                    {"rings-agree"},
	"wet-no-rise":                 {"exhaust-valve-agrees", "gasket-agrees"},
	"builds-slowly":               {"rings-agree"},
	"does-not-build":              {"exhaust-valve-agrees", "gasket-agrees"},
	"leaks-at-exhaust":            {"exhaust-valve-agrees", "rings-agree"},
	"leaks-to-crankcase":          {"rings-agree"},
	"leaks-to-neighbour":          {"gasket-agrees"},
	"leaks-to-coolant":            {"coolant-in-cylinder"},
	"combustion-gas-in-coolant":   {"coolant-in-cylinder", "leaks-to-coolant"},
	"oil-wet":                     {"rings-agree", "guides-or-breather"},
	"fuel-wet":                    {"wet-with-fuel-and-sealing", "washed-and-low"},
	"one-sooty":                   {"sooty-and-low"},
	"some-sooty":                  {"sooty-and-low"},
	"all-sooty":                   {"rich-but-pressure-low", "rich-and-pressure-high", "rich-everywhere"},
	"bank-sooty":                  {"rich-one-bank", "sooty-and-low"},
	"lean-all":                    {"lean-and-pressure-low", "lean-pressure-right"},
	"coolant-washed":              {"coolant-in-cylinder"},
	"plug-damaged":                {"piston-contact"},
	"gap-out":                     {"piston-contact"},
	"rich-everywhere":             {"rich-but-pressure-low", "rich-and-pressure-high"},
	"low-but-tight":               {"bank-low-with-cam-code"},
}

// override gives the rule that speaks for all of a finding's cylinders, the
// first of several that do so together, and "" where one is not spoken for.
func override(f *diag.Finding, said map[string][][]string) string {
	better := overriddenBy[f.Rule]
	first := ""
	open := slices.Clone(f.Cylinders)
	for _, name := range better {
		for _, cylinders := range said[name] {
			if len(f.Cylinders) == 0 || len(cylinders) == 0 {
				return name
			}
			before := len(open)
			open = slices.DeleteFunc(open, func(n string) bool { return slices.Contains(cylinders, n) })
			if first == "" && len(open) < before {
				first = name
			}
		}
	}
	if len(open) > 0 {
		return ""
	}
	return first
}

var togetherVocabulary = map[string][]string{
	"causes": {
		"rings", "scored-bore", "piston", "guides-or-seals", "breather", "oil-control-rings", "exhaust-valve", "valve-lash", "carbon-on-seat", "head-gasket",
		"warped-or-cracked-head", "cracked-bore", "regulator-diaphragm", "leaking-injector", "purge-valve", "fuel-in-oil", "temperature-signal", "air-meter",
		"gauge-reads-low", "air-filter", "air-leak", "dirty-injectors", "low-fuel-pressure", "bank-sensor", "bank-exhaust-leak", "own-injector", "sensors-crossed", "injector-seals",
		"manifold-gasket", "low-compression", "own-spark", "flooding", "washed-bore", "cam-timing", "cam-phaser", "timing-drive", "throttle-or-choke", "stuck-rings", "stuck-valve",
		"dry-bores", "piston-contact", "foreign-object", "wrong-plug-reach", "ignition", "injection", "sensor-or-air-leak", "other-than-sealing", "fuel-filter", "pump",
	},
	"against": {"no-wet-rise", "no-gas-in-coolant", "hose-dry", "pressure-held", "code-other-bank"},
	"doubts":  {"fuel-near-limit", "colour-only", "plugs-new", "by-complaint", "leakage-cold"},
}

// complains reports one of the job's complaints; a stored misfire code is one
// too.
func (c *Case) complains(of ...string) bool {
	if misfires, _ := c.misfireCodes(); misfires && slices.Contains(of, "misfire") {
		return true
	}
	return slices.ContainsFunc(c.History.Complaints, func(x string) bool { return slices.Contains(of, x) })
}

// misfireCodes reports a stored code of misfiring, P0300 to P0312, and the
// cylinders that such codes name (SAE J2012, from memory), in the engine's
// order.
func (c *Case) misfireCodes() (stored bool, cylinders []string) {
	for _, code := range c.History.Codes {
		number, is := strings.CutPrefix(code, "P03")
		n, err := strconv.Atoi(number)
		if !is || err != nil || n > 12 {
			continue
		}
		stored = true
		if name := strconv.Itoa(n); c.Engine.Index(name) >= 0 {
			cylinders = append(cylinders, name)
		}
	}
	c.inOrder(cylinders)
	return stored, slices.Compact(cylinders)
}

// coded reports one of these trouble codes.
func (c *Case) coded(codes ...string) bool {
	return slices.ContainsFunc(c.History.Codes, func(x string) bool { return slices.Contains(codes, x) })
}

// agreed is a finding on which two kinds of readings agree.
func (c *Case) agreed(rule string, names []string, facts diag.Facts, causes ...string) diag.Finding {
	if facts == nil {
		facts = diag.Facts{}
	}
	f := diag.Finding{Rule: rule, Cylinders: names, Urgency: diag.ActSoon, Confidence: diag.Strong, Facts: facts, Causes: phrases(causes...)}
	if slices.ContainsFunc(names, func(n string) bool { return c.Grade(n) == diag.NoPressure }) {
		f.Urgency = diag.DoNotRun
	}
	return f
}

// comparison are the facts on one low cylinder: its reading and its part of
// the reference.
func (c *Case) comparison(name string) diag.Facts {
	facts := diag.Facts{"value": "", "percent": "", "loss": "", "wet": ""}
	if r := c.Cylinder(name); r != nil && r.Dry != nil {
		facts["value"] = c.pressure(*r.Dry).String()
		facts["percent"] = percent(r.PercentOfRef, 0).String()
		if r.Wet != nil {
			facts["wet"] = c.pressure(*r.Wet).String()
		}
	}
	if l := c.Leak(name); l != nil {
		facts["loss"] = percent(*l.Loss, 0).String()
	}
	return facts
}
