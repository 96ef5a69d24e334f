package cause

import (
	"maps"
	"math"
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// Facts are what the words of a check use: of how the engine is built, of what was found on
// it, and of the cylinders that the check is about.
func (k *Check) Facts(c *known.Case, cylinders []string, at diag.Urgency) diag.Facts {
	facts := make(diag.Facts, manyFacts) // so that it need not grow
	maps.Copy(facts, builtFacts(c))
	maps.Copy(facts, foundFacts(c))
	maps.Copy(facts, cylinderFacts(c, cylinders))
	facts["lowOfTight"] = lowOfTight(c, cylinders)
	facts["byHand"] = at == diag.DoNotRun
	facts["minutes"] = k.MinutesFor(c, cylinders)
	facts["rest"] = diag.Names(restOf(k, c))
	facts["beside"], facts["opened"] = diag.Names(nil), false // what the story knows: its cylinders, whatever the check is made on, and that they come apart
	return facts
}

// manyFacts is about how many there are.
const manyFacts = 90

// builtFacts are of how the engine is built and what drives it.
func builtFacts(c *known.Case) diag.Facts {
	return diag.Facts{
		"several": c.Several(), "diesel": c.Spec.Diesel(), "rotary": c.Rotary(), "twoStroke": c.Ported(), "blown": blown(c), "turbo": mayBeCharged(c), "baseRight": known.BaseRight.HoldsIn(c), "coolsRight": known.CoolingRight.HoldsIn(c), "rangeRight": known.HeatRangeRight.HoldsIn(c), "roads": c.Drives(),
		"hangs": hangs(c), "airCooled": c.AirCooled(), "rawWater": c.RawWaterCooled(), "wetExhaust": c.WetExhaust(),
		"aircraft": aircraft(c), "prop": c.Flies(), "rope": c.FlywheelMagneto(),
		"distributor": c.Distributor(), "injected": c.Injected(), "carburetted": c.Carburetted(), "direct": direct(c), "meterOpen": c.MeterOpen(), "drivenPump": drivenPump(c),
		"lash": c.LashCanBeSet(), "pcv": c.MayHavePCV(), "braked": c.BrakesByAir(), "drive": c.DriveNamed(),
		"oil": c.OilTells(), "dose": dose(c),
	}
}

// airBank is the bank into which air leaks by its trims, where the other is right.
func airBank(c *known.Case) string {
	idle, _, _ := c.AirAtIdle()
	if c.OtherBankToo(idle) {
		return ""
	}
	return idle.Bank
}

// chokedBank is the bank that breathes less than the other, by its trims and the vacuum that sinks.
func chokedBank(c *known.Case) string {
	rich, _, ok := c.OpposedFast()
	if !ok || !known.VacuumFalls.HoldsIn(c) {
		return ""
	}
	return rich.Bank
}

// faultFound is the first fault that the technician found, by its name, and not only what one does;
// carbon seen on intake valves is one.
func faultFound(c *known.Case) string {
	faults, _ := c.FaultsFound()
	for _, at := range faults {
		if !known.Faults[at].Sign {
			return known.Faults[at].Name
		}
	}
	if len(c.DepositsSeen()) > 0 {
		return "intake-deposits"
	}
	return ""
}

// foundFacts are of what was tested, found and told.
func foundFacts(c *known.Case) diag.Facts {
	_, lines := c.FaultsFound()
	return diag.Facts{
		"fault": faultFound(c), "found": known.InShort(lines),
		"ails": c.Ails(), "noSmoke": c.History.Smoke.Colour == "none", "starts": c.Starts(), "stood": c.Stood(), "coded": diag.Names(c.MissesUnread()),
		"hose":       c.MadeLowByHose(),
		"methodOpen": c.Noticed("battery-sags") || c.Noticed("slow-cranking") || c.Noticed("not-standard-method"),
		"plugsIn":    c.Conditions.PlugsOut == "one at a time" && c.Several(), "choked": c.ChokeShut(), "unheld": unheld(c),
		"airBank": airBank(c), "airAt": diag.Names(c.AirAtOne()), "behindCat": c.BlockedBehindCatalyst(), "chokedBank": chokedBank(c),
		"oiled": c.Has(known.NeedsWet), "afterOil": afterOil(c), "alike": c.LosesAlikeThroughout(), "leftOpen": c.Noticed("reading-left-open"), "allLow": c.AllLow() != nil, "driveTold": known.DriveToldGone.HoldsIn(c),
		"oilRead": oiled(c, nil), "levelRead": oilLevelRead(c), "ownGauge": oiled(c, nil) && !doubtedGauge(c, nil), "oilShort": known.OilShort.HoldsIn(c),
		"regenerates": regenerates(c), "resists": known.SlowByResistance.HoldsIn(c),
		"oilSmells": known.FuelInTheOil.HoldsIn(c), "oilMixed": c.OilMixed(), "noGas": c.CoolantGas == "negative", "gasFound": c.CoolantGas == "positive",
		"cutOut": known.CutOutInTurn.HoldsIn(c), "gasInside": known.CrankcaseHigh.HoldsIn(c), "worse": c.WorseMagneto(), "sinks": c.SeatsSink(), "cold": c.Conditions.Engine == "cold",
		"met":     c.HasValves() && (known.MetByTheStory.HoldsIn(c) || c.ValvesMayHaveMet()),
		"tracked": diag.Names(c.PlugsLooking("tracked")), "scored": c.AnySeen(c.Every(), known.ScoredWords),
		"watered": slices.ContainsFunc(c.Every(), func(n string) bool { return c.WaterIn(n) || c.LiquidIn(n) != "" && !c.HangsBelow(n) }),
	}
}

// cylinderFacts are of the cylinders that a check is about.
func cylinderFacts(c *known.Case, cylinders []string) diag.Facts {
	some := func(is func(string) bool) bool { return slices.ContainsFunc(cylinders, is) }
	return diag.Facts{
		"Cylinders": diag.Names(cylinders), "all": len(cylinders) > 0 && len(cylinders) == len(c.Every()),
		"coolantIn": some(c.CoolantIn), "lies": c.LiquidLies(cylinders), "valveAir": c.AirMayPassValves(cylinders),
		"reach":     some(c.OutOfReach),
		"hotValve":  some(func(n string) bool { return c.Seen(n, known.HotValve...) }),
		"mateFires": MatesFire(c, cylinders), "ownCarb": OwnCarburettor(c, cylinders), "governed": governed(c) && c.Complains(known.Hunting, known.HangingRevs), "thin": diag.Names(c.Those(func(n string) bool { return c.CarburettorEach() && c.HasValves() && known.WeakAndWhite.HoldsOf(c, n) })),
		"looked":   !slices.ContainsFunc(enters(c, cylinders), func(n string) bool { return !c.Looked(n) }),
		"short":    c.AllLow() != nil || c.AnyLow(c.Read()) || !c.DryRead(),
		"moved":    valvesMove(c),
		"seized":   some(c.SeizedShut),
		"tight":    c.AllTight(cylinders),
		"wide":     some(func(n string) bool { return known.ClearanceWide.HoldsOf(c, n) }),
		"itTracks": some(func(n string) bool { return c.Looks(n, "tracked") }),
		"heldOpen": !c.AnyLow(cylinders) && some(c.LeaksHeldOpen),
		"wasSet":   some(func(n string) bool { return c.LashSet(n).Set }),
	}
}

// unheld is an engine that was cranked with its throttle shut, or nobody is sure of it: one
// that has no throttle is not asked.
func unheld(c *known.Case) bool {
	return !c.Spec.Diesel() && (c.ThrottleShut() || c.Conditions.Throttle == "not sure")
}

// hangs is an engine some of whose cylinders hang below its crankshaft.
func hangs(c *known.Case) bool { return slices.ContainsFunc(c.Every(), c.HangsBelow) }

// dose is the dose of oil in words' numbers: "5 ml", "" where it cannot be told.
func dose(c *known.Case) string {
	ml := c.OilDose()
	if ml <= 0 {
		return ""
	}
	decimals := 0
	if ml != math.Trunc(ml) {
		decimals = 1
	}
	return diag.Number{Value: ml, Decimals: decimals, Unit: "ml"}.String()
}

// lowOfTight are those of some cylinders to be set that read low, where others of them do not.
func lowOfTight(c *known.Case, cylinders []string) diag.Names {
	low := slices.DeleteFunc(slices.Clone(cylinders), func(n string) bool { return !known.Low.HoldsOf(c, n) })
	if len(low) == len(cylinders) {
		return nil
	}
	return low
}

// regenerates is a diesel that burns a filter of its exhaust clean.
func regenerates(c *known.Case) bool {
	_, there := c.ExhaustFilter()
	return there && c.Spec.Diesel()
}

// enters are the cylinders into which liquid may get; those that a check is about, or all,
// where it may get into none.
func enters(c *known.Case, cylinders []string) []string {
	if wet := c.LiquidPossible(); len(wet) > 0 {
		return wet
	}
	if len(cylinders) > 0 {
		return cylinders
	}
	return c.Every()
}

// MatesFire reports cylinders each of which shares its coil with one that it fires: not the coil's,
// the plug and its wire are left.
func MatesFire(c *known.Case, cylinders []string) bool {
	return len(cylinders) > 0 && !slices.ContainsFunc(cylinders, func(n string) bool { return !known.MateFires.HoldsOf(c, n) })
}

// OwnCarburettor reports some cylinders of a four-stroke that has a carburettor for each.
func OwnCarburettor(c *known.Case, cylinders []string) bool {
	return c.HasValves() && c.CarburettorEach() && len(cylinders) > 0 && len(cylinders) < len(c.Every())
}
