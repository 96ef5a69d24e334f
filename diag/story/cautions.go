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
	liquid := len(c.LiquidPossible()) > 0 || caused("coolant-or-fuel-in-bore") || !c.AirCooled() && caused("head-gasket") && d.Urgency == diag.DoNotRun
	byHand := liquid || c.Stood() && !cranked || c.Engine.Kind == engine.Radial || c.Spec.Inverted == diag.Yes
	coolant := !c.AirCooled() && (caused("head-gasket", "cracked-bore", "coolant-seal", "cracked-housing") || proposed(named("coolant-gas-test", "cooling-pressure-test")))
	opened := proposed(func(k *cause.Check) bool { return k.Fuel })
	mayRun := d.Urgency != diag.DoNotRun
	unburnt := caused("flooding", "washed-bore", "leaking-injector", "own-spark", "shared-coil", "coil-or-lead", "ignition") || c.Has(known.NeedsWet) || proposed(func(k *cause.Check) bool { return k.Is(cause.Oils) })

	add(!mayRun, "do-not-run")
	add(c.Spec.Hybrid == diag.Yes, "hybrid")
	add(byHand && !c.Spec.Diesel(), "liquid-lock")
	add(byHand && c.Spec.Diesel(), "injectors-out")
	add(c.Spec.Diesel(), "diesel-no-oil")
	add(mayBeDiesel(c), "fuel-unknown-no-oil")
	add(c.Spec.Diesel() || strings.HasPrefix(c.FuelSystem(), "direct"), "high-pressure-fuel")
	add(c.Has(known.NeedsFuel) || cranked && !c.Spec.Diesel(), "fuel-vapour")
	add(opened, "fuel-open")
	add(caused("fuel-in-oil", "regulator-diaphragm", "flooding", "leaking-injector"), "fuel-in-oil")
	add(unburnt && !c.Spec.Diesel() && !c.Spec.TwoStroke, "catalyst")
	add(leakage, "crank-turns")
	add(coolant || leakage && !c.LeakageCold() && !c.AirCooled(), "hot-coolant")
	add(mayRun && proposed(func(k *cause.Check) bool { return k.Is(cause.Starter) }), "starter-turns")
	add(mayRun && proposed(func(k *cause.Check) bool { return k.Is(cause.Runs) }), "running-engine")
	add(heldOf80(c), "not-airworthiness")
	add(true, "makers-procedure")
	add(true, "that-day-only")
	if byHand {
		turnedFirst(d)
	}
}

// turnedFirst has every proposed check that uses the starter, or runs the
// engine, say that it is turned by hand first, as far as it does not have it
// turned by hand anyway: the caution alone would be contradicted by it.
func turnedFirst(d *diag.Diagnosis) {
	for i := range d.Stories {
		if next := d.Stories[i].Next; next != nil {
			if k := cause.CheckNamed(next.Key); k != nil && k.Is(cause.Starter|cause.Runs) && !k.Is(cause.Hand) {
				next.Facts["handFirst"] = true
			}
		}
	}
}

// mayBeDiesel reports an engine of a fuel that was not recorded, which nothing
// tells to be no diesel: no spark plug was looked at, and it is no rotary.
func mayBeDiesel(c *known.Case) bool {
	return c.Spec.Fuel == "" && !c.Rotary() && !c.Has(known.NeedsPlugs)
}

// heldOf80 reports leakage written as aircraft mechanics write it, held of a
// supply of 80.
func heldOf80(c *known.Case) bool {
	return slices.ContainsFunc(c.Leaks(), func(l *diag.LeakResult) bool {
		entered := strings.ReplaceAll(l.Entered, " ", "")
		return strings.HasSuffix(entered, "/80") || strings.Contains(entered, "of:80")
	})
}
