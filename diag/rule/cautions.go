package rule

import (
	"slices"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/engine"
)

// cautions sets d.Cautions: first what this engine's findings ask for, then
// what the tests made and the next check ask for, and last what holds for
// every sheet.
func cautions(c *Case, d *diag.Diagnosis) {
	add := func(is bool, key string) {
		if is && !slices.Contains(d.Cautions, key) {
			d.Cautions = append(d.Cautions, key)
		}
	}
	nextIs := func(keys ...string) bool { return d.Next != nil && slices.Contains(keys, d.Next.Key) }
	found := func(rules ...string) bool {
		return slices.ContainsFunc(d.Findings, func(f diag.Finding) bool { return slices.Contains(rules, f.Rule) })
	}
	leakage := c.Has(NeedsLeakage) || nextIs("leak-down", "leak-down-again", "leak-down-pair")
	fuel := c.Has(NeedsFuel) || nextIs("fuel-pressure-test", "fuel-volume", "restrict-return", "pinch-feed-and-return", "return-to-can", "hose-for-fuel", "held-pressure")
	cranked := c.Has(NeedsCompression) || c.Has(NeedsRotors)
	coolant := found("coolant-in-cylinder", "coolant-washed", "leaks-to-coolant", "combustion-gas-in-coolant", "liquid-in-cylinder")

	add(d.Urgency == diag.DoNotRun, "do-not-run")
	add(coolant || c.noticed("liquid-in-cylinder") || c.stood() || c.Engine.Kind == engine.Radial, "liquid-lock")
	add(c.Spec.Diesel(), "diesel-no-oil")
	add(c.Spec.Diesel() || c.Fuel != nil && strings.HasPrefix(c.Fuel.System, "direct"), "high-pressure-fuel")
	add(fuel || cranked && !c.Spec.Diesel(), "fuel-vapour")
	add(leakage, "crank-turns")
	add(coolant || nextIs("coolant-gas-test", "cooling-pressure-test") || leakage && !c.leakageCold(), "hot-coolant")
	add(nextIs("running-compression", "swap-coil", "smoke-on-overrun", "fuel-trims", "bank-trims", "injector-balance", "run-and-retest", "purge-pinch", "vacuum-at-hose"), "running-engine")
	add(heldOf80(c), "not-airworthiness")
	add(true, "makers-procedure")
	add(true, "that-day-only")
}

// heldOf80 reports leakage written as aircraft mechanics write it, held of a
// supply of 80.
func heldOf80(c *Case) bool {
	return slices.ContainsFunc(c.leaks(), func(l *diag.LeakResult) bool {
		entered := strings.ReplaceAll(l.Entered, " ", "")
		return strings.HasSuffix(entered, "/80") || strings.Contains(entered, "of:80")
	})
}
