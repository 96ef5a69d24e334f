package story

import (
	"slices"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/cause"
	"gaugesheet/diag/engine"
	"gaugesheet/diag/known"
)

// cautions sets d.Cautions: first what this engine's stories ask for, then what
// the tests made and the checks proposed ask for, and last what holds for every
// sheet.
func cautions(c *known.Case, d *diag.Diagnosis) {
	add := func(is bool, key string) {
		if is && !slices.Contains(d.Cautions, key) {
			d.Cautions = append(d.Cautions, key)
		}
	}
	caused := func(names ...string) bool {
		return slices.ContainsFunc(d.Stories, func(s diag.Story) bool {
			return s.Urgency != diag.NoAction && slices.ContainsFunc(s.Causes, func(p diag.Phrase) bool { return slices.Contains(names, p.Key) })
		})
	}
	proposed := func(is func(*cause.Check) bool) bool {
		return slices.ContainsFunc(d.Stories, func(s diag.Story) bool {
			if s.Next == nil {
				return false
			}
			k := cause.CheckNamed(s.Next.Key)
			return k != nil && is(k)
		})
	}
	named := func(names ...string) func(*cause.Check) bool {
		return func(k *cause.Check) bool { return slices.Contains(names, k.Name) }
	}
	cranked := c.Has(known.NeedsCompression) || c.Has(known.NeedsRotors)
	leakage := c.Has(known.NeedsLeakage) || proposed(named("leak-down", "leak-down-again", "leak-down-pair"))
	liquid := caused("coolant-or-fuel-in-bore") || !c.AirCooled() && caused("head-gasket") && d.Urgency == diag.DoNotRun
	coolant := !c.AirCooled() && (caused("head-gasket", "cracked-bore") || proposed(named("coolant-gas-test", "cooling-pressure-test")))

	add(d.Urgency == diag.DoNotRun, "do-not-run")
	add(c.Spec.Hybrid == diag.Yes, "hybrid")
	add(liquid || c.Stood() || c.Engine.Kind == engine.Radial || c.Spec.Inverted == diag.Yes, "liquid-lock")
	add(c.Spec.Diesel(), "diesel-no-oil")
	add(c.Spec.Diesel() || strings.HasPrefix(c.FuelSystem(), "direct"), "high-pressure-fuel")
	add(c.Has(known.NeedsFuel) || proposed(func(k *cause.Check) bool { return k.Fuel }) || cranked && !c.Spec.Diesel(), "fuel-vapour")
	add(caused("fuel-in-oil", "regulator-diaphragm", "flooding"), "fuel-in-oil")
	add(caused("flooding", "washed-bore", "leaking-injector", "own-spark") && !c.Spec.Diesel() && !c.Spec.TwoStroke, "catalyst")
	add(leakage, "crank-turns")
	add(coolant || leakage && !c.LeakageCold() && !c.AirCooled(), "hot-coolant")
	add(d.Urgency != diag.DoNotRun && proposed(func(k *cause.Check) bool { return k.Is(cause.Runs) }), "running-engine")
	add(heldOf80(c), "not-airworthiness")
	add(true, "makers-procedure")
	add(true, "that-day-only")
}

// heldOf80 reports leakage written as aircraft mechanics write it, held of a
// supply of 80.
func heldOf80(c *known.Case) bool {
	return slices.ContainsFunc(c.Leaks(), func(l *diag.LeakResult) bool {
		entered := strings.ReplaceAll(l.Entered, " ", "")
		return strings.HasSuffix(entered, "/80") || strings.Contains(entered, "of:80")
	})
}
