package cause

import (
	"slices"

	"gaugesheet/diag/known"
)

func injection(c *known.Case, _ []string) bool { return c.Injected() }

// coiled is an engine of several coils or leads that can be changed about, where
// a cylinder is suspected: without one there is none to change with another's.
func coiled(c *known.Case, cylinders []string) bool {
	some := len(cylinders) > 0 && len(cylinders) < len(c.Every())
	return !c.Spec.Diesel() && c.Several() && (some || len(cylinders) == 0 && c.OneMisfires())
}

// jointReached is a four-stroke with a carburettor of which some cylinders are suspected: what joins
// each of these to it is bent by hand and wetted as it idles. Nobody stands behind a propeller for it.
func jointReached(c *known.Case, cylinders []string) bool {
	return carburetted(c) && c.HasValves() && !c.Flies() && !c.TestedAsAircraft() && len(cylinders) > 0 && len(cylinders) < len(c.Every())
}

// coilsPaired are cylinders that share a coil, as the job says, and are dead together.
func coilsPaired(c *known.Case, cylinders []string) bool {
	return slices.ContainsFunc(c.Spec.SharedCoils, func(pair []string) bool {
		return len(cylinders) > 1 && !slices.ContainsFunc(cylinders, func(n string) bool { return !slices.Contains(pair, n) })
	})
}

// sparkOpen is an engine whose spark is looked at by itself: there is no good
// cylinder's to put in its place, or it does not start, or starts badly.
func sparkOpen(c *known.Case, cylinders []string) bool {
	return !c.Spec.Diesel() && (len(cylinders) == len(c.Every()) || len(cylinders) == 0 && c.Rotary() || !c.Several() && c.Complains(misfire) || !c.Starts() || c.Complains(hardStart))
}

func sparking(c *known.Case, _ []string) bool { return !c.Spec.Diesel() }

// comparable is an engine that has several injectors to compare.
func comparable(c *known.Case, _ []string) bool {
	return c.Injected() && c.Several() && c.FuelSystem() != known.ThrottleBody
}

// mixtureInDoubt is an injection engine that runs as one does whose mixture is
// off: what its computer corrects tells nothing of others, and less than the
// fuel pressure where that is out, or than the two banks compared where one is.
func mixtureInDoubt(c *known.Case, _ []string) bool {
	if c.SomeCircuit(func(k known.Circuit) bool { return fallsShort(k) || standsHigh(k) || k.FallsFast() != nil }) || oneBank(c, "sooty", "fuel-wet") || oneBank(c, "white") || c.InjectorFound() { // one injector that was found poor by itself is not looked for with the mixture of all
		return false
	}
	return c.Injected() && !c.OneMisfires() && (known.TrimLeanOnce.HoldsIn(c) || c.RichSign() != "" || c.LeanSign() != "" || c.Has(known.NeedsPlugs) || c.Complains(misfire, lowPower))
}

// mixtureChecks tell what is wrong with spark, air or metering.
var mixtureChecks = []Check{
	{Name: "swap-coil", Titles: []string{"swapping the plug wire"}, Minutes: 15, Way: Runs, Fits: coiled, Words: []string{"plug wire swapped", "plug wires swapped", "lead swapped", "leads swapped", "coil on", "coils swapped", "coil swapped", "swapped coil", "coil moved", "coil"},
		Outcomes: []Outcome{
			{Name: "it moves", For: []string{"own-spark", "coil-or-lead", "shared-coil", "ignition", "weak-spark"}, Words: []string{"moves", "moved with", "moved to", "fault moved", "misfire moved", "followed"}, After: []string{"moved"}},
			{Name: "the cap is bad", For: []string{"coil-or-lead", "ignition"}, Fits: func(c *known.Case) bool { return c.Distributor() }, Words: []string{"cap cracked", "cap tracked", "cap burned", "rotor burned", "rotor cracked"}, After: []string{"the cap or the rotor is cracked, tracked or burned"}},
			{Name: "it stays", Else: true, Words: []string{"stays", "stayed", "no change"}}}},
	{Name: "coil-feed-test", Titles: []string{"what feeds the coil"}, Minutes: 15, Way: Starter, Fits: coilsPaired, Words: []string{"test light on the coil", "coil feed tested", "coil primary tested", "trigger tested"},
		Outcomes: []Outcome{
			{Name: "it does not flash", For: []string{"coil-feed"}, Words: []string{"does not flash", "stays dark", "stays lit", "no trigger"}, After: []string{"it does not flash"}},
			{Name: "it flashes", Else: true, Words: []string{"flashes", "flash"}}}},
	{Name: "lead-order", Titles: []string{"order of the plug wires", "the order of the plug wires"}, Minutes: 5, Whole: true, Mends: []string{"leads-crossed"}, Words: []string{"plug wire order", "lead order", "firing order checked", "leads traced"},
		Fits: holds(known.LeadsTouched),
		Outcomes: []Outcome{
			{Name: "two are crossed", For: []string{"leads-crossed"}, Words: []string{"crossed", "swapped", "wrong"}, After: []string{"two have changed places"}},
			{Name: "each in its place", Else: true, Words: []string{"right", "in order", "in place"}, After: []string{"each is in its place"}}}},
	{Name: "spark-test", Minutes: 10, Way: Starter, Fits: sparkOpen, Words: []string{"spark tested", "spark seen", "strong spark", "strong blue spark", "blue spark", "good spark", "fat spark", "weak spark", "yellow spark", "no spark at"},
		Outcomes: []Outcome{
			{Name: "no spark", For: []string{"own-spark", "coil-or-lead", "shared-coil", "ignition", "weak-spark"}, Words: []string{"none", "weak", "yellow", "no spark at"}},
			{Name: "good spark", Else: true, Words: []string{"good", "strong", "blue", "fat"}, After: []string{"a strong spark"}}}},
	{Name: "injector-balance", Further: true, Titles: []string{"comparing the injectors"}, Minutes: 20, Way: Runs, Fits: comparable, Made: readIn(known.Injectors, "before", "after", "pressure-drop to"), Words: []string{"injectors swapped", "injector swapped", "injectors tested"},
		Outcomes: []Outcome{
			{Name: "one differs", For: []string{"own-injector", "injection"}, Words: []string{"differs"}, After: []string{"one gives more or less than the others", "it gives too much or too little"}},
			{Name: "all alike", Else: true, Clears: true, Words: []string{"alike", "same"}, After: []string{"it gives what it should"}}}},
	{Name: "plugs-look", First: true, Titles: []string{"a look at the spark plugs"}, Minutes: 15, Whole: true, Way: Starter, Words: []string{"plugs looked at", "spark plugs looked at", "plugs out and looked at"},
		Fits: func(c *known.Case, _ []string) bool {
			return sparking(c, nil) && (c.WillNotStart() || c.Complains(rich) && c.AnyLow(c.Read())) && !c.Dead() && !c.Has(known.NeedsRotors) &&
				!c.SomeCircuit(func(k known.Circuit) bool { low, _ := k.Worst(known.Below); return low != nil }) // it is known that little arrives
		}, Made: func(c *known.Case, _ []string) bool { return c.Has(known.NeedsPlugs) },
		Outcomes: []Outcome{
			{Name: "wet with fuel", For: []string{"flooding", "ignition", "washed-bore", "coil-or-lead", "weak-spark"}, Enter: looks("fuel-wet"), Words: []string{"wet", "soaked"}},
			{Name: "oily", For: []string{"rings", "scored-bore", "piston", "broken-ring-land", "guides-or-seals"}, Fits: (*known.Case).Starts, Enter: looks("oil-wet"), Words: []string{"oil on one", "oily"}},
			{Name: "bone dry", Fits: (*known.Case).WillNotStart, For: []string{"injection", "low-fuel-pressure", "pump", "pump-circuit", "pump-voltage", "fuel-filter", "supply-restricted", "bad-fuel"}, Words: []string{"dry", "no fuel"}},
			{Name: "damp and clean", Else: true, Enter: looks("normal"), Words: []string{"normal", "clean"}, After: []string{"all dry"}}}},
	{Name: "set-gap", Titles: []string{"setting the plug gap"}, Minutes: 15, Way: Runs, Mends: []string{"gap-not-set"}, Fits: sparking, Words: []string{"gap set", "gaps set"},
		Outcomes: []Outcome{{Name: "runs well", For: []string{"gap-not-set", "dropped-plug"}, Words: []string{"well"}}, {Name: "no change", Else: true, Clears: true}}},
	{Name: "renew-plugs", Minutes: 30, Mends: []string{"plug-age", "wrong-heat-range"}, Way: Parts | Runs, Fits: sparking, Words: []string{"new plugs", "plugs renewed", "plugs replaced", "new spark plugs"},
		Outcomes: []Outcome{{Name: "runs well", For: []string{"plug-age", "gap-not-set", "moisture-at-plug", "wrong-heat-range"}, Words: []string{"well"}}, {Name: "no change", Else: true, After: []string{"it runs worse"}}}},
	{Name: "carbon-cleaned", Titles: []string{"cleaning the carbon off"}, Minutes: 90, Whole: true, Way: Runs | Starter, Mends: []string{"carbon"}, Fits: func(c *known.Case, _ []string) bool {
		return sparked(c) && c.HasValves() && !c.Flies() && len(c.Those(func(n string) bool { return c.Seen(n, known.CarbonWords...) })) > 0 && (c.Complains(noise) || len(c.PlugsLooking("detonation")) > 0)
	}, Words: []string{"carbon cleaned off", "decarbonised", "decarbonized", "decoked", "carbon removed"},
		Outcomes: []Outcome{
			{Name: "readings and pinging go down", Well: true, For: []string{"carbon"}, Words: []string{"come down", "came down", "pings no more", "reads lower", "stopped"}, After: []string{"it pings no more, or reads lower"}},
			{Name: "no change", Else: true, Clears: true, Words: []string{"same", "as before"}}}},
	{Name: "timing-and-cooling", Titles: []string{"ignition timing and cooling", "timing and cooling", "cooling and heat range", "what heats the plugs"}, Minutes: 20, Whole: true, Way: Runs, Fits: func(c *known.Case, cylinders []string) bool {
		return sparking(c, cylinders) && !known.EarlyBase.HoldsIn(c) && !known.MuchAdvance.HoldsIn(c) && !(known.BaseRight.HoldsIn(c) && known.CoolingRight.HoldsIn(c) && known.HeatRangeRight.HoldsIn(c))
	}, Words: []string{"ignition timing"},
		Outcomes: []Outcome{{Name: "one is off", For: []string{"early-ignition", "too-hot", "wrong-heat-range", "knock"}, Words: []string{"off"}}, {Name: "all right", Else: true, Clears: true, Words: []string{"right"}}}},
	{Name: "plug-type", Titles: []string{"the plugs' number"}, Minutes: 2, Fits: func(c *known.Case, cylinders []string) bool {
		overheated := slices.ContainsFunc(cylinders, func(n string) bool { return c.Looks(n, "melted", "blistered") }) // new or not
		some := len(cylinders) > 0 && c.ColourOthers(cylinders) > 0                                                    // beside others that were fitted with them and do not show it
		return !c.Spec.Diesel() && c.Plugs != nil && (c.PlugsNew() && !some || overheated) && !c.Plugs.HeatRange.Given
	}, Words: []string{"heat range checked", "plug type checked"},
		Outcomes: []Outcome{{Name: "the wrong plug", For: []string{"wrong-heat-range", "wrong-plug-reach", "wrong-plug"}, Words: []string{"wrong"}}, {Name: "the right plug", Else: true, Words: []string{"right"}}}},
	{Name: "intake-joint-wetted", Titles: []string{"the intake joint"}, Minutes: 10, Way: Runs, Fits: jointReached, Words: []string{"intake joint wetted", "intake rubber wetted", "rubber sprayed", "rubbers sprayed", "manifold sprayed", "intake joint sprayed"},
		Outcomes: []Outcome{
			{Name: "it leaks", For: []string{"air-leak", "manifold-gasket", "shared-runner"}, Sure: 0.9, Words: []string{"cracked", "loose", "idle changes", "idle changed", "leaks"}, After: []string{"it is cracked or loose, or the idle changes as it is wetted", "one is cracked or loose"}},
			{Name: "it is tight", Else: true, Words: []string{"tight", "sound", "no change"}, After: []string{"it is sound, and the idle stays as it is"}}}},
	{Name: "smoke-test", Minutes: 20, Whole: true,
		Outcomes: []Outcome{
			{Name: "smoke comes out", For: []string{"air-leak", "manifold-gasket", "intake-coolant-gasket", "injector-seals", "bank-exhaust-leak", "shared-runner", "sensor-or-air-leak"}, Words: []string{"leak", "comes out"}},
			{Name: "none comes out", Else: true, Clears: true, Words: []string{"none", "no leak"}}}},
	{Name: "fuel-trims", Baseline: true, Minutes: 10, Whole: true, Way: Runs, Fits: mixtureInDoubt, Made: func(c *known.Case, _ []string) bool {
		return c.Has(known.NeedsTest(known.Trims)) && !known.TrimLeanOnce.HoldsIn(c)
	}, Answers: known.TrimLeanOnce.HoldsIn, Words: []string{"trims"},
		Outcomes: []Outcome{
			{Name: "adds at idle only", For: []string{"air-leak", "manifold-gasket", "injector-seals", "sensor-or-air-leak"}, Words: []string{"idle"}},
			{Name: "adds at speed", For: []string{"low-fuel-pressure", "fuel-filter", "pump", "pump-voltage", "supply-restricted", "regulator-open", "air-meter", "dirty-injectors"}, Words: []string{"speed"}, After: []string{"well above zero at 2500 rpm"}},
			{Name: "takes fuel out", For: []string{"purge-valve", "leaking-injector", "regulator-stuck", "regulator-diaphragm", "return-blocked", "vacuum-hose", "fuel-in-oil", "rich-mixture"}, Fits: func(c *known.Case) bool { return !known.TrimLeanOnce.HoldsIn(c) }, Words: []string{"below zero", "negative"}},
			{Name: "near zero", Else: true}}},
	{Name: "bank-trims", Titles: []string{"fuel trims of the two banks", "fuel trims, both banks"}, Minutes: 10, Whole: true, Way: Runs, Fits: func(c *known.Case, cylinders []string) bool { return richOnOneBank(c, cylinders) && !c.BothTrimsRead() }, Words: []string{"trims compared"},
		Outcomes: []Outcome{
			{Name: "opposite ways", For: []string{"sensors-crossed"}, Words: []string{"opposite"}},
			{Name: "one is off", For: []string{"bank-sensor", "bank-exhaust-leak", "own-injector", "injector-seals", "manifold-gasket"}, Words: []string{"off"}},
			{Name: "alike", Else: true}}},
	{Name: "sensor-banks", Titles: []string{"which sensor is of which bank", "the oxygen sensors of the two banks"}, Minutes: 10, Whole: true, Way: Runs, Fits: holds(known.TrimsCross), YieldsTo: func(c *known.Case) string {
		if chokedBank(c) != "" {
			return "exhaust-joint"
		}
		return ""
	}, Words: []string{"sensors compared by bank", "injector unplugged to see which sensor answers"},
		Outcomes: []Outcome{
			{Name: "the other answers", For: []string{"sensors-crossed"}, Words: []string{"other bank", "crossed", "swapped"}, After: []string{"the sensor of the other bank answers"}},
			{Name: "its own answers", Else: true, Words: []string{"own", "right"}, After: []string{"the sensor of that bank answers"}}}},
	{Name: "egr-shut", Titles: []string{"exhaust-gas valve (egr) shut off"}, Minutes: 10, Whole: true, Way: Runs, Fits: func(c *known.Case, _ []string) bool {
		return c.Injected() && c.MayRecirculate() && !c.GasFuel() // older ones hardly have one
	}, Words: []string{"egr valve", "egr", "exhaust gas recirculation"},
		Outcomes: []Outcome{
			{Name: "smooth with it shut off", For: []string{"egr-open"}, Sure: 0.9, Words: []string{"smooth", "stuck open", "open", "better"}, After: []string{"the idle smooths and the vacuum comes up"}},
			{Name: "no change", Else: true, Words: []string{"same", "shut"}, After: []string{"nothing changes, or it has none"}}}},
	{Name: "vent-hose-pinch", Titles: []string{"the crankcase vent shut off"}, Minutes: 5, Whole: true, Way: Runs, Fits: func(c *known.Case, _ []string) bool {
		return !c.Spec.Diesel() && known.CrankcaseSucks.HoldsIn(c)
	},
		Answers: known.CrankcaseSucks.HoldsIn, Words: []string{"vent hose pinched", "vent hose clamped", "breather hose clamped", "pcv hose pinched"},
		Outcomes: []Outcome{
			{Name: "it settles", For: []string{"vent-valve-open"}, Words: []string{"settles", "settled", "whistle stops", "trims fall"}, After: []string{"idle and trims settle"}},
			{Name: "no change", Else: true, Words: []string{"same"}, After: []string{"nothing changes"}}}},
	{Name: "vent-valve-look", Titles: []string{"a look at the crankcase vent valve"}, Minutes: 10, Whole: true, Fits: func(c *known.Case, _ []string) bool {
		return !c.Starts() && known.CrankcaseSucks.HoldsIn(c) // on one that runs its hose is shut off
	}, Words: []string{"vent valve looked at", "pcv valve looked at", "vent diaphragm looked at"},
		Outcomes: []Outcome{
			{Name: "it stays open", For: []string{"vent-valve-open"}, Words: []string{"stays open", "torn", "stuck open"}, After: []string{"it stays open or its diaphragm is torn"}},
			{Name: "it closes", Else: true, Words: []string{"closes", "whole"}, After: []string{"it closes and its diaphragm is whole"}}}},
	{Name: "purge-pinch", Minutes: 5, Whole: true, Way: Runs, Fits: injection, Words: []string{"purge"},
		Outcomes: []Outcome{{Name: "runs cleaner", For: []string{"purge-valve"}, Words: []string{"cleaner"}}, {Name: "no change", Else: true}}},
	{Name: "temperature-reading", Titles: []string{"the temperature signal", "the temperature that the computer sees"}, Minutes: 5, Whole: true, Fits: injection, Words: []string{"coolant temperature read", "temperature sensor checked"},
		Outcomes: []Outcome{{Name: "reads wrong", For: []string{"temperature-signal"}, Words: []string{"wrong", "cold"}, After: []string{"they differ by more than a few degrees"}}, {Name: "reads right", Else: true, Words: []string{"right"}, After: []string{"they agree"}}}},
	{Name: "air-meter-reading", Titles: []string{"what the air meter reads", "the air meter's reading"}, Minutes: 10, Whole: true, Way: Runs, Fits: func(c *known.Case, _ []string) bool {
		return injection(c, nil) && (!c.OneMisfires() || known.TrimLean.Holds(c, known.Subject{}) || known.TrimLeanAll.Holds(c, known.Subject{}))
	}, Words: []string{"air meter read", "air meter checked", "air flow read", "maf read", "maf checked"},
		Outcomes: []Outcome{
			{Name: "too little air", For: []string{"air-meter"}, Sure: 0.8, Words: []string{"too little", "less", "low"}, After: []string{"less than the engine draws"}},
			{Name: "what it should", Else: true, Words: []string{"right", "as it should"}, After: []string{"about what the engine draws"}}}},
	{Name: "carburettor-look", Titles: []string{"carburetor", "carburetor look"}, Minutes: 20, Whole: true, Way: Opens, Fits: func(c *known.Case, _ []string) bool { return carburetted(c) }, Words: []string{"choke and float checked", "float level checked"},
		Outcomes: []Outcome{{Name: "one is wrong", For: []string{"carburettor"}, Words: []string{"wrong"}},
			{Name: "governor binds", Fits: func(c *known.Case) bool { return governed(c) && c.Complains(known.Hunting, known.HangingRevs) }, For: []string{"governor"}, Sure: 0.8, Words: []string{"governor", "linkage"}},
			{Name: "all right", Else: true, Clears: true, Words: []string{"right"}}}},
	{Name: "air-filter-look", Minutes: 5, Mends: []string{"air-filter"}, Whole: true, Words: []string{"air filter"},
		Fits: func(c *known.Case, cylinders []string) bool { // one filter serves all, and one that lowers cranking pressure is felt
			whole := len(cylinders) == 0 || len(cylinders) == len(c.Every())
			return whole && c.AirFiltered() && (c.Complains(lowPower, rich) || c.History.Smoke.Colour == "black" || c.RichSign() != "")
		},
		Outcomes: []Outcome{{Name: "clogged", For: []string{"air-filter", "restricted-inlet"}, Words: []string{"dirty", "blocked"}}, {Name: "clean", Else: true, Clears: true}}},
	{Name: "oil-for-fuel", Further: true, Titles: []string{"oil smell and level", "the oil's smell and level"}, Minutes: 5, Whole: true, Fits: func(c *known.Case, _ []string) bool {
		return !known.OilOverFull.HoldsIn(c) && !known.RailLow.HoldsIn(c) // what a diesel's pump lets past itself goes back to the tank; or where coolant may have raised it as well, and the oil is looked at
	}, Made: func(c *known.Case, _ []string) bool {
		r := c.Measured(known.Oil)
		return r != nil && r.Word("oil smell") != "" || c.Found(known.FuelInOil...)
	}, Words: []string{"oil smelled", "oil checked for fuel"},
		Outcomes: []Outcome{{Name: "fuel in the oil", For: []string{"fuel-in-oil", "high-pressure-pump"}, Words: []string{"fuel", "smells"}}, {Name: "none", Else: true, Words: []string{"clean"}, After: []string{"it does not"}}}},
	{Name: "mix-check", Titles: []string{"oil in the fuel"}, Minutes: 5, Whole: true, Fits: mixedForAll, Words: []string{"mix checked", "oil pump checked"},
		Outcomes: []Outcome{{Name: "too much oil", For: []string{"wrong-mix"}, Words: []string{"wrong"}}, {Name: "right", Else: true, Clears: true, After: []string{"as the book asks"}}}},
}

// mixedForAll is a two-stroke of which no plug stands apart in its oil: all draw the same
// mix.
func mixedForAll(c *known.Case, _ []string) bool {
	oily := len(c.PlugsLooking("oil-wet"))
	return c.Ported() && (oily == 0 || oily == len(c.PlugsRead()))
}

// oneBank reports plugs of these looks on one bank alone.
func oneBank(c *known.Case, looks ...string) bool {
	set := c.Looking(looks...)
	return c.Has(known.NeedsPlugs) && len(set) > 0 && c.BankOfAll(set) >= 0
}

// richOnOneBank is an injection engine one of whose banks runs richer: what the
// computer corrects on each then tells whether their sensors were exchanged.
func richOnOneBank(c *known.Case, _ []string) bool {
	return c.Injected() && oneBank(c, "sooty", "fuel-wet")
}
