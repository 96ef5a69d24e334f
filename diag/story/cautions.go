package story

import (
	"slices"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/cause"
	"gaugesheet/diag/engine"
	"gaugesheet/diag/known"
)

// A caution is said where it holds.
type caution struct {
	key   string
	holds func(*sheetAsks) bool
}

// allCautions are all there are, in the order in which they are said: first what
// this engine's stories ask for, then what the tests made and the checks proposed
// ask for, and last what holds for every sheet.
var allCautions = []caution{
	{"do-not-run", func(s *sheetAsks) bool { return !s.mayRun() }},
	{"valves-meet", func(s *sheetAsks) bool { return s.valvesMeet() && s.mayRun() }},
	{"valves-meet-by-hand", func(s *sheetAsks) bool { return s.valvesMeet() && !s.mayRun() }},
	{"hybrid", func(s *sheetAsks) bool { return s.Spec.Hybrid == diag.Yes }},
	{"liquid-lock", func(s *sheetAsks) bool { return s.byHand() && !s.Spec.Diesel() }},
	{"injectors-out", func(s *sheetAsks) bool { return s.byHand() && s.Spec.Diesel() }},
	{"diesel-no-oil", func(s *sheetAsks) bool { return s.Spec.Diesel() }},
	{"fuel-unknown-no-oil", func(s *sheetAsks) bool { return mayBeDiesel(s.Case) }},
	{"high-pressure-fuel", func(s *sheetAsks) bool { return s.Spec.Diesel() || strings.HasPrefix(s.FuelSystem(), "direct") }},
	{"fuel-vapour", func(s *sheetAsks) bool { return s.Has(known.NeedsFuel) || s.cranked() && !s.Spec.Diesel() }},
	{"bilge", func(s *sheetAsks) bool {
		return s.mayRun() && s.BilgeGathers() && (s.Has(known.NeedsFuel) || s.cranked() || s.proposed(is(cause.Starter|cause.Runs)))
	}},
	{"bilge-vapour", func(s *sheetAsks) bool {
		return !s.mayRun() && s.BilgeGathers() && (s.Has(known.NeedsFuel) || s.cranked())
	}},
	{"fuel-open", func(s *sheetAsks) bool { return s.proposed(func(k *cause.Check) bool { return k.Fuel }) }},
	{"fuel-in-oil", func(s *sheetAsks) bool {
		burnsItsOil := s.Spec.TwoStroke && !s.Spec.Diesel() // there is none to change
		return s.caused("fuel-in-oil", "regulator-diaphragm", "flooding", "leaking-injector") && !burnsItsOil
	}},
	{"oil-runaway", func(s *sheetAsks) bool { return known.OilRunaway.HoldsIn(s.Case) }},
	{"oil-short", func(s *sheetAsks) bool {
		level := ""
		if r := s.Measured(known.Oil); r != nil {
			level = r.Word("oil level")
		}
		return (level == "" || level == "low") && known.OilShort.HoldsIn(s.Case)
	}},
	{"exhaust-made-ill", func(s *sheetAsks) bool { return known.ExhaustMadeIll.HoldsIn(s.Case) }},
	{"exhaust-breathed", func(s *sheetAsks) bool {
		return known.ExhaustBreathed.HoldsIn(s.Case) && !known.ExhaustMadeIll.HoldsIn(s.Case)
	}},
	{"exhaust-glows", func(s *sheetAsks) bool { return known.ExhaustGlows.HoldsIn(s.Case) }},
	{"fuel-in-the-air", func(s *sheetAsks) bool { return known.FuelInTheAir.HoldsIn(s.Case) }},
	{"catalyst", func(s *sheetAsks) bool { return s.mayRun() && s.unburnt() && s.MayHaveCatalyst() }},
	{"live-magneto", func(s *sheetAsks) bool { return known.MagnetoLive.HoldsIn(s.Case) }},
	{"crank-turns", func(s *sheetAsks) bool { return s.leakage() }},
	{"propeller", func(s *sheetAsks) bool {
		live := known.MagnetoLive.HoldsIn(s.Case) // which says more of it
		return s.Flies() && !live && (s.leakage() || s.cranked() || s.proposed(is(cause.Starter|cause.Runs|cause.Hand)))
	}},
	{"hot-coolant", func(s *sheetAsks) bool { return !s.AirCooled() && (s.coolant() || s.leakage() && !s.LeakageCold()) }},
	{"stop-when-hot", func(s *sheetAsks) bool { return s.mayRun() && s.RunsHot() }},
	{"starter-turns", func(s *sheetAsks) bool { return s.mayRun() && s.proposed(is(cause.Starter)) && !s.PulledOver() }},
	{"pull-turns", func(s *sheetAsks) bool { return s.mayRun() && s.proposed(is(cause.Starter)) && s.PulledOver() }},
	{"running-engine", func(s *sheetAsks) bool { return s.mayRun() && s.proposed(is(cause.Runs)) }},
	{"not-airworthiness", func(s *sheetAsks) bool { return s.HeldOf80() }},
	{"makers-procedure", func(*sheetAsks) bool { return true }},
	{"that-day-only", func(*sheetAsks) bool { return true }},
}

// cautions sets d.Cautions.
func cautions(c *known.Case, d *diag.Diagnosis) {
	s := &sheetAsks{c, d}
	for _, one := range allCautions {
		if one.holds(s) {
			d.Cautions = append(d.Cautions, one.key)
		}
	}
	if s.byHand() {
		turnedFirst(d)
	}
	if known.MagnetoLive.HoldsIn(c) {
		sparkless(d)
	}
}

// sheetAsks is what a sheet says and asks for, as far as cautions depend on it.
type sheetAsks struct {
	*known.Case
	d *diag.Diagnosis
}

func (s *sheetAsks) mayRun() bool { return s.d.Urgency != diag.DoNotRun }

func (s *sheetAsks) cranked() bool {
	return s.Has(known.NeedsCompression) || s.Has(known.NeedsRotors)
}

// caused reports a story with one of these causes that asks for something.
func (s *sheetAsks) caused(names ...string) bool {
	return slices.ContainsFunc(s.d.Stories, func(x diag.Story) bool {
		return x.Urgency != diag.NoAction && slices.ContainsFunc(x.Causes, func(p diag.Phrase) bool { return slices.Contains(names, p.Key) })
	})
}

// valvesMeet reports valves that may meet the pistons where their drive slips on.
func (s *sheetAsks) valvesMeet() bool {
	return s.Spec.Interference != diag.No && s.HasValves() && s.driveFirst()
}

// driveFirst reports a story that presses and whose first cause is in what drives the
// camshaft.
func (s *sheetAsks) driveFirst() bool {
	return slices.ContainsFunc(s.d.Stories, func(x diag.Story) bool {
		return x.Urgency.Rank() > diag.CheckAgain.Rank() && len(x.Causes) > 0 && cause.OneWork([]string{x.Causes[0].Key, "cam-timing"})
	})
}

// proposed reports a next check of this kind.
func (s *sheetAsks) proposed(kind func(*cause.Check) bool) bool {
	return slices.ContainsFunc(s.d.Stories, func(x diag.Story) bool {
		if x.Next == nil {
			return false
		}
		k := cause.CheckNamed(x.Next.Key)
		return k != nil && kind(k)
	})
}

func is(way cause.Way) func(*cause.Check) bool {
	return func(k *cause.Check) bool { return k.Is(way) }
}

func named(names ...string) func(*cause.Check) bool {
	return func(k *cause.Check) bool { return slices.Contains(names, k.Name) }
}

// leakage reports air let into cylinders, or to be let in.
func (s *sheetAsks) leakage() bool {
	return s.Has(known.NeedsLeakage) || s.proposed(named("leak-down", "leak-down-again", "leak-down-pair"))
}

// byHand reports an engine that is turned by hand first: liquid may stand on a
// piston, or it stood for so long that something may have stuck.
func (s *sheetAsks) byHand() bool {
	liquid := len(s.LiquidPossible()) > 0 || s.caused("coolant-or-fuel-in-bore") || !s.AirCooled() && s.caused("head-gasket") && !s.mayRun()
	return liquid || s.Stood() && !s.cranked() || s.Engine.Kind == engine.Radial || s.Spec.Inverted == diag.Yes
}

// coolant reports work on what holds coolant.
func (s *sheetAsks) coolant() bool {
	return s.RunsHot() || s.Complains("coolant loss") || s.caused("head-gasket", "cracked-bore", "coolant-seal", "cracked-housing", "coolant-flow", "thermostat", "coolant-leak-outside", "pressure-cap", "liner-seal", "intake-coolant-gasket") || s.proposed(named("coolant-gas-test", "cooling-pressure-test"))
}

// unburnt reports fuel or oil that may reach the exhaust.
func (s *sheetAsks) unburnt() bool {
	return s.caused("flooding", "washed-bore", "leaking-injector", "own-spark", "shared-coil", "coil-or-lead", "ignition") || s.Has(known.NeedsWet) || s.proposed(is(cause.Oils))
}

// turnedFirst has every proposed check that uses the starter, or runs the
// engine, say that it is turned by hand first, as far as it does not have it
// turned by hand anyway: the caution alone would be contradicted by it.
func turnedFirst(d *diag.Diagnosis) {
	for i := range d.Stories {
		if next := d.Stories[i].Next; next != nil {
			if k := cause.CheckNamed(next.Key); k != nil && k.Is(cause.Starter|cause.Runs) && (!k.Is(cause.Hand) || k.Is(cause.Air)) { // by hand to where the air goes in, after it ran
				next.Facts["handFirst"] = true
			}
		}
	}
}

// sparkless has every proposed check that moves the crankshaft of an engine whose magneto
// may fire with its switch off say that the wires come off the plugs before that; so it has
// a test on the starter that is made again, before which hands are at the plugs.
func sparkless(d *diag.Diagnosis) {
	for i := range d.Stories {
		if next := d.Stories[i].Next; next != nil {
			if k := cause.CheckNamed(next.Key); k != nil && (k.Is(cause.Hand|cause.Air|cause.Opens) || k.Again && k.Is(cause.Starter) || next.Facts["handFirst"] == true) {
				next.Facts["live"] = true
			}
		}
	}
}

// mayBeDiesel reports an engine of a fuel that was not recorded, which nothing
// tells to be no diesel: no spark plug was looked at, and it is no rotary.
func mayBeDiesel(c *known.Case) bool {
	return c.Spec.Fuel == "" && !c.Rotary() && !c.Has(known.NeedsPlugs)
}
