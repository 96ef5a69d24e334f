package cause

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// pinchable reports a fuel system whose soft return hose may be closed for a
// moment: one with a return line, and said to be so. Lines of returnless,
// direct-injection and diesel systems are never pinched.
func pinchable(c *known.Case, _ []string) bool {
	return c.FuelSystem() == known.PortReturn && !c.Spec.Diesel()
}

func returns(c *known.Case, _ []string) bool {
	s := c.FuelSystem()
	return (s == known.PortReturn || s == known.ThrottleBody) && !c.Spec.Diesel()
}

// liftsToAValve is the low side of a diesel: what holds its pressure is a valve with a spring,
// which comes out of the filter head, the pump or the end of the return.
func liftsToAValve(c *known.Case, _ []string) bool {
	return c.Spec.Diesel() && c.FuelSystem() == known.DieselLift
}

func hosed(c *known.Case, _ []string) bool { return c.MayHaveHose() }

// twoFuels is an engine of gas that may run on petrol as well: not one with cylinders as
// large as those of trucks, buses and stations.
func twoFuels(c *known.Case, _ []string) bool {
	const most = 800 // ml a cylinder: judgement, no source
	return c.GasFuel() && c.CylinderML() < most
}

func gasFuelled(c *known.Case, _ []string) bool { return c.GasFuel() }

func electric(c *known.Case, _ []string) bool { return c.MayBeElectricPump() }

// filterAtHand is the look at a filter that nobody has renewed, which on an engine with a
// return line or a carburettor lies open in the line: it costs little and wears out by
// itself, so that it comes before a meter. Behind a returnless pump it is in the tank.
func filterAtHand(c *known.Case) string {
	if c.Spec.Diesel() || !slices.Contains([]string{known.PortReturn, known.ThrottleBody, known.Carburettor}, c.FuelSystem()) ||
		slices.ContainsFunc(Renewed(c, nil), func(p *Part) bool { return slices.Contains(p.Causes, "fuel-filter") }) {
		return ""
	}
	return "fuel-filter-look"
}

// tightnessAsked leaves out a supply whose pressure falls away under load, of which nothing else
// says that it leaks: what stands in a closed line does not tell what the pump delivers.
func tightnessAsked(c *known.Case, _ []string) bool {
	return !c.SomeCircuit(func(k known.Circuit) bool { return k.Sags() != nil }) || c.Complains(hardStart, rich) || c.RichSign() != ""
}

func keyed(c *known.Case, _ []string) bool {
	return c.Primes()
}

// some is a fit for engines of which something holds of one fuel circuit: what
// a check would tell depends on what the pressure does.
func some(is func(known.Circuit) bool) func(*known.Case, []string) bool {
	return func(c *known.Case, _ []string) bool { return c.SomeCircuit(is) }
}

func both(a, b func(*known.Case, []string) bool) func(*known.Case, []string) bool {
	return func(c *known.Case, cylinders []string) bool { return a(c, cylinders) && b(c, cylinders) }
}

// fallsShort is too little pressure at rest or under load, standsHigh too much.
func fallsShort(k known.Circuit) bool {
	low, _ := k.Worst(known.Below)
	return low != nil || k.Sags() != nil
}

func standsHigh(k known.Circuit) bool {
	high, _ := k.TooHigh()
	return high != nil || k.HeldHigh() != nil
}

// more is a pump that makes more pressure than it may, at rest or against a
// closed return.
func more(k known.Circuit) bool {
	closed := k.Reading("return-pinched")
	return standsHigh(k) || closed != nil && closed.LimitHigh != nil && closed.Value > *closed.LimitHigh
}

// letsGo is pressure that is not held after switching off, and that does not go
// through a torn diaphragm.
func letsGo(k known.Circuit) bool { return k.FallsFast() != nil && k.In.FuelInHose != "yes" }

// weakResponse is a regulator that hardly answers to its hose.
func weakResponse(k known.Circuit) bool {
	rise, _, full, ok := k.Rise()
	low, _ := k.Worst(known.Below) // which leaves the regulator nothing to let go
	return ok && rise < full && !k.Falls() && low == nil
}

// silentOrUnread is a supply of which no pressure was read, or none is there.
func silentOrUnread(c *known.Case, _ []string) bool {
	return !c.SomeCircuit(func(k known.Circuit) bool { return len(k.Steady()) > 0 && k.PumpDead() == nil })
}

// watched is how long a pressure is watched: shorter with the gauge on already.
func watched(c *known.Case, _ []string) int {
	if c.Has(known.NeedsFuel) {
		return 5
	}
	return 10
}

// oldRegulator is one that was not renewed: what was in its hose is gone.
func oldRegulator(c *known.Case, _ []string) bool { return !c.WorkDone(known.NewRegulator...) }

// underUsual is a pressure far under what such systems have, of which the book's figure is the
// first that is asked for.
func underUsual(c *known.Case) bool {
	return c.SomeCircuit(func(k known.Circuit) bool { return k.UnderUsual() != nil })
}

// withoutFigure is a fuel pressure that was read with the pump at work, without
// any figure to hold it against.
func withoutFigure(c *known.Case, cylinders []string) bool {
	if len(cylinders) > 0 && len(cylinders) < len(c.Every()) {
		return false // what is wrong with some of them the pressure of all does not tell
	}
	if c.SomeCircuit(func(k known.Circuit) bool { return k.FallsFast() != nil }) && !c.Complains(rich, lean, lowPower, noStart) && c.RichSign() == "" && c.LeanSign() == "" {
		return false // it is the pressure held that is in question, which the figure does not tell
	}
	settled := c.SomeCircuit(func(k known.Circuit) bool { return k.Limited() || k.Falls() }) // one that falls with its hose off is read again first
	return !settled && c.SomeCircuit(func(k known.Circuit) bool { return len(k.Steady()) > 0 && k.PumpDead() == nil })
}

// pumping is a supply whose pump is not known to stand still.
func pumping(c *known.Case, _ []string) bool { return c.PumpHeard() != diag.No }

func anyCircuit(c *known.Case, is func(*diag.Circuit) bool) bool {
	if c.Fuel == nil {
		return false
	}
	for i := range c.Fuel.Circuits {
		if is(&c.Fuel.Circuits[i]) {
			return true
		}
	}
	return false
}

func madeIn(is func(*diag.Circuit) bool) func(*known.Case, []string) bool {
	return func(c *known.Case, _ []string) bool { return anyCircuit(c, is) }
}

// fuelChecks tell what is wrong with the fuel supply.
var fuelChecks = []Check{
	{Name: "fuel-sample", Titles: []string{"a sample of the fuel", "sample of the fuel"}, Fuel: true, Minutes: 10, Whole: true, Words: []string{"fuel sampled", "fuel looked at in a jar"}, Answers: known.CameAfterFilling.HoldsIn,
		Fits: func(c *known.Case, _ []string) bool { return !c.GasFuel() },
		Outcomes: []Outcome{
			{Name: "water or another fuel", For: []string{"bad-fuel"}, Sure: 0.9, Words: []string{"water", "layers", "diesel in it", "stale"}},
			{Name: "clear and right", Else: true, Words: []string{"clear", "right"}}}},
	{Name: "fresh-fuel", Titles: []string{"fresh fuel", "fresh fuel and a clean bowl"}, Fuel: true, Minutes: 20, Whole: true, Way: Starter, Mends: []string{"bad-fuel"}, Words: []string{"tried on fresh fuel", "fresh fuel tried"}, Fits: holds(known.FuelStood), Answers: known.FuelStood.HoldsIn,
		Outcomes: []Outcome{
			{Name: "runs well on it", For: []string{"bad-fuel"}, Words: []string{"runs well", "runs fine", "starts and runs", "cured"}, After: []string{"it starts and runs as it should"}},
			{Name: "fires and dies", For: []string{"carburettor", "pump", "fuel-filter", "dirty-injectors", "injection"}, Sure: 0.8, Words: []string{"dies", "on the choke", "only on choke", "stays dry", "dry"}, After: []string{"it fires and dies, runs only choked, or its plug stays dry"}},
			{Name: "no sign of firing", For: []string{"ignition"}, Else: true, Words: []string{"nothing", "no difference", "no change", "the same"}, After: []string{"it does as before"}}}},
	{Name: "fuel-pressure-test", First: true, Still: true, Minutes: 15, Whole: true, Fuel: true, Way: Runs, Fits: func(c *known.Case, _ []string) bool {
		return !suctionHigh(c) && !c.OneMisfires() && !c.FeedsByItself() && !(c.Ported() && c.Carburetted() && c.Fuel == nil)
	}, Made: func(c *known.Case, _ []string) bool { return c.Has(known.NeedsFuel) },
		Outcomes: []Outcome{
			{Name: "low", For: []string{"low-fuel-pressure", "injection", "fuel-filter", "pump", "lean-mixture"}},
			{Name: "high", For: []string{"rich-mixture", "regulator-stuck", "return-blocked"}},
			{Name: "right", Else: true, Clears: true, After: []string{"within the maker's limits"}}}},
	{Name: "run-on-petrol", Titles: []string{"the other fuel"}, Minutes: 5, Whole: true, Fuel: true, Gas: true, Way: Runs, Fits: twoFuels, Words: []string{"run on petrol", "run on gasoline", "switched to petrol", "switched to gasoline"},
		Outcomes: []Outcome{
			{Name: "right on petrol", For: []string{"gas-supply", "own-injector"}, Words: []string{"runs right on", "runs well on", "gone on", "only on gas"}, After: []string{"it runs right on gasoline"}},
			{Name: "the same on both", Else: true, Words: []string{"same"}},
			{Name: "it has only gas", Mute: true, Words: []string{"only gas", "no petrol", "no gasoline", "gas only"}, After: []string{"on gas alone"}}}},
	{Name: "gas-supply-look", Titles: []string{"the gas supply"}, Minutes: 30, Whole: true, Fuel: true, Gas: true, Way: Runs, Mends: []string{"gas-supply"}, Fits: gasFuelled, Words: []string{"gas side looked at", "gas regulator checked", "vaporizer checked", "vaporiser checked", "gas filter renewed"},
		Outcomes: []Outcome{
			{Name: "one is wrong", For: []string{"gas-supply", "own-injector"}, Words: []string{"wrong", "iced", "blocked", "low", "torn"}},
			{Name: "as the maker asks", Else: true, Words: []string{"right", "as the maker", "good"}}}},
	{Name: "look-up-fuel-limit", Gas: true, Titles: []string{"the maker's figure", "the maker's fuel pressure"}, Minutes: 2, Whole: true, Fuel: true, Words: []string{"fuel figure looked up", "fuel limit looked up", "fuel pressure looked up"}, Fits: withoutFigure, Answers: underUsual,
		Outcomes: []Outcome{
			{Name: "read less than the book", For: []string{"low-fuel-pressure", "lean-mixture", "fuel-filter", "pump", "pump-voltage", "supply-restricted", "regulator-open"}, Sure: 0.5, Words: []string{"less", "low", "under"}, After: []string{"the book gives more than was read"}},
			{Name: "read more than the book", For: []string{"rich-mixture", "regulator-stuck", "return-blocked", "no-vacuum-signal", "vacuum-hose", "wrong-pump"}, Words: []string{"more", "high", "over"}, After: []string{"the book gives less than was read"}},
			{Name: "as the book has it", For: []string{"maker-asks-less"}, Else: true, Words: []string{"right", "within"}, After: []string{"the readings are as the book has them"}}}},
	{Name: "held-pressure", Titles: []string{"held fuel pressure"}, Minutes: 10, MinutesOf: watched, Whole: true, Fuel: true, Way: Runs, Fits: both(keyed, tightnessAsked), Made: madeIn(func(k *diag.Circuit) bool { return len(k.Hold) > 0 }),
		Outcomes: []Outcome{
			{Name: "falls", For: []string{"leaking-injector", "pump-check-valve", "regulator-open"}, Fits: notDirect, Enter: held(0.2)},
			{Name: "the low side falls", For: []string{"pump-check-valve", "high-pressure-pump"}, Fits: direct, Enter: held(0.2), Words: []string{"falls"}},
			{Name: "holds", Else: true, Enter: held(0.97)}}},
	{Name: "hose-for-fuel", Titles: []string{"the regulator's hose"}, Minutes: 2, Whole: true, Fuel: true, Fits: both(hosed, oldRegulator), Made: madeIn(func(k *diag.Circuit) bool { return k.FuelInHose == "yes" || k.FuelInHose == "no" }),
		Outcomes: []Outcome{
			{Name: "fuel is there", For: []string{"regulator-diaphragm"}, Enter: hose("yes"), Words: []string{"fuel", "wet"}},
			{Name: "dry", Else: true, Clears: true, Enter: hose("no")}}},
	{Name: "repeat-hose-test", Titles: []string{"hose on and off again"}, Minutes: 5, Whole: true, Fuel: true, Way: Runs, Again: true, Fits: both(hosed, some(known.Circuit.Falls)), Words: []string{"hose test repeated"},
		Outcomes: []Outcome{{Name: "rises", For: []string{"readings-swapped"}}, {Name: "falls again", Else: true, Words: []string{"falls"}}}},
	{Name: "vacuum-at-hose", Titles: []string{"vacuum at the regulator", "vacuum in the regulator's hose"}, Minutes: 5, Whole: true, Fuel: true, Way: Runs, Fits: both(hosed, some(weakResponse)),
		Outcomes: []Outcome{
			{Name: "no vacuum", For: []string{"no-vacuum-signal", "vacuum-hose"}, Words: []string{"none"}},
			{Name: "no such hose", For: []string{"not-referenced"}, Words: []string{"no hose"}},
			{Name: "vacuum", For: []string{"regulator-stuck", "return-blocked"}, Else: true}}},
	{Name: "renew-regulator", Minutes: 30, Mends: []string{"regulator-diaphragm", "regulator-open"}, Whole: true, Fuel: true, Way: Parts | Opens | Runs, Fits: func(c *known.Case, _ []string) bool { return hosed(c, nil) || returns(c, nil) }, Words: known.NewRegulator,
		Outcomes: []Outcome{{Name: "right now", For: []string{"regulator-diaphragm", "regulator-open", "regulator-stuck"}, Words: []string{"right"}}, {Name: "no change", Else: true}}},
	{Name: "regulating-valve-look", Titles: []string{"the regulating valve", "the low side's regulating valve"}, Minutes: 20, Mends: []string{"regulator-open"}, Whole: true, Fuel: true, Way: Opens, Fits: liftsToAValve, Words: []string{"regulating valve", "overflow valve", "regulator spring", "regulator taken apart"},
		Outcomes: []Outcome{
			{Name: "lets go early", For: []string{"regulator-open"}, Words: []string{"weak", "broken", "dirt", "worn", "sticks", "chip"}, After: []string{"its spring is weak or broken, its seat worn, or dirt holds it open"}},
			{Name: "sound", Else: true, Words: []string{"clean", "good"}}}},
	{Name: "restrict-return", Titles: []string{"pinching the return"}, Minutes: 5, Whole: true, Fuel: true, Way: Runs, Fits: both(pinchable, some(fallsShort)), Words: []string{"return pinched", "return restricted"}, Made: madeIn(func(k *diag.Circuit) bool { return k.ReturnPinched != nil }),
		Outcomes: []Outcome{
			{Name: "climbs", For: []string{"regulator-open"}, Enter: pinched(1.6)},
			{Name: "does not climb", Else: true, Enter: pinched(1.02), After: []string{"it does not"}}}},
	{Name: "return-line-look", Titles: []string{"look along the return line", "the return line"}, Minutes: 5, Whole: true, Fuel: true, Fits: both(func(c *known.Case, _ []string) bool { return returning(c) }, some(func(k known.Circuit) bool { return standsHigh(k) || weakResponse(k) })), Words: []string{"return line looked along", "return line followed"},
		Outcomes: []Outcome{{Name: "kinked or crushed", For: []string{"return-blocked"}, Sure: 0.4, Words: []string{"kinked", "crushed", "pinched", "blocked"}}, {Name: "open along its length", Else: true, Words: []string{"open", "clear"}}}},
	{Name: "return-to-can", Titles: []string{"the return into a can"}, Minutes: 15, Whole: true, Fuel: true, Way: Runs | Opens, Fits: both(returns, some(func(k known.Circuit) bool { return standsHigh(k) || weakResponse(k) })), Words: []string{"return to a can", "return line checked"},
		Outcomes: []Outcome{{Name: "right", For: []string{"return-blocked"}}, {Name: "still high", Else: true, Words: []string{"high"}}}},
	{Name: "pump-and-regulator-look", Titles: []string{"pump and regulator type", "which pump and regulator belong here"}, Minutes: 10, Whole: true, Fuel: true, Fits: some(more), Words: []string{"pump compared", "pump looked up", "pump part number"},
		Outcomes: []Outcome{
			{Name: "made for more", For: []string{"wrong-pump"}, Words: []string{"wrong pump", "another pump", "too strong", "no regulator"}},
			{Name: "as it should be", Else: true, Words: []string{"right", "belongs", "belong"}}}},
	{Name: "pump-listen", Titles: []string{"listening for the pump"}, Minutes: 2, Whole: true, Fuel: true, Fits: both(electric, silentOrUnread), Words: []string{"pump heard", "pump listened"}, Made: func(c *known.Case, _ []string) bool { return c.Fuel != nil && c.Fuel.PumpHeard != diag.Unknown },
		Outcomes: []Outcome{
			{Name: "silent", For: []string{"pump-circuit", "pump-voltage"}, Words: []string{"not heard"}},
			{Name: "it runs", Else: true, Words: []string{"runs", "heard"}, After: []string{"it hums"}}}},
	{Name: "pump-volts", Minutes: 10, Whole: true, Fuel: true, Fits: electric, Made: holds(known.PumpVoltsRead), YieldsTo: filterAtHand, Words: []string{"pump volt", "pump voltage", "voltage at the pump", "volts at pump", "volts at the pump"},
		Outcomes: []Outcome{
			{Name: "low", For: []string{"pump-voltage", "pump-circuit"}, After: []string{"more than 0.5 v below the battery"}},
			{Name: "right", Else: true, After: []string{"within 0.5 v"}}}},
	{Name: "fuel-volume", Minutes: 10, Way: Opens, Whole: true, Fuel: true, Pumps: true, Fits: both(pumping, func(c *known.Case, _ []string) bool { return !suctionHigh(c) }), Words: []string{"pump volume"}, Made: madeIn(func(k *diag.Circuit) bool { return k.VolumeML > 0 }),
		Outcomes: []Outcome{
			{Name: "too little", For: []string{"fuel-filter", "pump", "supply-restricted", "pump-voltage", "low-fuel-pressure"}, Enter: delivered(0.4), Words: []string{"little", "low"}},
			{Name: "enough", Else: true, Enter: delivered(1.25)}}},
	{Name: "key-on-again", Titles: []string{"key on once more"}, Minutes: 3, Whole: true, Fuel: true, Again: true, Fits: some(known.Circuit.KeyOnShort), Words: []string{"gauge bled", "key-on repeated", "key on repeated"},
		Outcomes: []Outcome{
			{Name: "comes up and stays", For: []string{"gauge-not-bled"}, Words: []string{"comes up", "came up"}},
			{Name: "comes up and falls", For: []string{"pump-check-valve", "regulator-open", "leaking-injector", "high-pressure-pump"}, Words: []string{"falls"}},
			{Name: "stays low", For: []string{"pump-circuit", "pump-voltage"}, Else: true, Words: []string{"low", "same"}}}},
	{Name: "cap-and-cool", Titles: []string{"cap off, lines cooled"}, Minutes: 10, Whole: true, Fuel: true, Way: Runs, Fits: func(c *known.Case, _ []string) bool { _, _, _, hot := c.HotShort(); return hot }, Words: []string{"tank cap"},
		Outcomes: []Outcome{
			{Name: "back with the cap off", For: []string{"supply-restricted"}, Words: []string{"cap"}},
			{Name: "back when cooled", For: []string{"vapour-lock"}, Words: []string{"cooled"}},
			{Name: "stays down", For: []string{"pump", "fuel-filter"}, Else: true, Words: []string{"stays"}}}},
	{Name: "fuel-pump-off", Titles: []string{"the fuel pump's diaphragm"}, Minutes: 20, Mends: []string{"pump-diaphragm"}, Whole: true, Fuel: true, Way: Opens | Parts, Words: []string{"fuel pump off", "pump diaphragm looked at", "fuel pump renewed"},
		Fits: func(c *known.Case, _ []string) bool {
			return drivenPump(c) && known.OilSmells.HoldsIn(c)
		},
		Outcomes: []Outcome{{Name: "fuel below the diaphragm", For: []string{"pump-diaphragm"}, Words: []string{"split", "wet below", "weeps"}, After: []string{"there is fuel under the diaphragm"}}, {Name: "dry", Else: true}}},
	{Name: "fuel-filter-look", Minutes: 20, Mends: []string{"fuel-filter"}, Whole: true, Fuel: true, Way: Opens | Parts, Words: []string{"fuel filter", "fuel filters", "petrol filter", "gasoline filter", "inline filter", "fuel strainer", "filter in the fuel line", "filter in the line", "filter at the pump", "tank strainer"},
		Outcomes: []Outcome{{Name: "clogged", For: []string{"fuel-filter", "supply-restricted"}, Words: []string{"blocked", "dirty"}}, {Name: "clear", Else: true, Clears: true, Words: []string{"clean"}}}},
	{Name: "feed-from-can", Titles: []string{"fed from a can", "cap off, then fed from a can", "a can and a short hose"}, Minutes: 15, Whole: true, Fuel: true, Way: Runs | Opens, Words: []string{"from a can", "from a separate can", "can with a short hose", "with the tank cap off"},
		Fits: holds(known.SuctionHigh),
		Outcomes: []Outcome{
			{Name: "right with the cap off", For: []string{"supply-restricted"}, Sure: 0.4, Words: []string{"cap"}},
			{Name: "pulls well from the can", For: []string{"supply-restricted"}, Sure: 0.6, Words: []string{"well", "full power", "vacuum falls", "vacuum gone"}},
			{Name: "stays high", For: []string{"fuel-filter"}, Else: true, Words: []string{"stays", "no better", "no change"}}}},
	{Name: "clear-hose", Minutes: 10, Whole: true, Fuel: true, Way: Runs | Opens,
		Fits:     func(c *known.Case, _ []string) bool { return c.FuelSystem() != known.DirectLow },
		Outcomes: []Outcome{{Name: "bubbles", For: []string{"air-in-fuel"}}, {Name: "none", Else: true, Clears: true, Words: []string{"clear"}}}},
	{Name: "pinch-feed-and-return", Titles: []string{"closing feed and return in turn", "feed and return closed"}, Minutes: 10, Way: Runs, Whole: true, Fuel: true, Fits: both(pinchable, some(letsGo)), Words: []string{"feed pinched", "pinched feed", "pinched the feed", "feed line pinched", "feed hose pinched", "feed clamped", "clamped the feed", "feed line clamped", "feed hose clamped", "feed closed", "feed line closed"},
		Outcomes: []Outcome{
			{Name: "holds with the feed closed", For: []string{"pump-check-valve"}, Words: []string{"feed"}, After: []string{"it holds", "it held", "holds", "held"}},
			{Name: "holds with the return closed", For: []string{"regulator-open", "regulator-diaphragm"}, Words: []string{"return"}},
			{Name: "falls with both closed", For: []string{"leaking-injector"}, Words: []string{"both", "injector"}, Else: true}}},
	{Name: "shut-off-tee", Titles: []string{"a shut-off in the tee", "a shut-off in the test tee"}, Minutes: 15, Way: Runs, Whole: true, Fuel: true, Words: []string{"shut-off fitted"},
		Fits: func(c *known.Case, _ []string) bool {
			return keyed(c, nil) && !pinchable(c, nil) && c.SomeCircuit(letsGo)
		},
		Outcomes: []Outcome{
			{Name: "holds when shut off", For: []string{"pump-check-valve", "regulator-open"}, Words: []string{"holds"}},
			{Name: "still falls", For: []string{"leaking-injector"}, Fits: notDirect, Words: []string{"falls"}, Else: true},
			{Name: "the low side still falls", For: []string{"high-pressure-pump"}, Fits: direct, Words: []string{"falls"}, Else: true}}},
	{Name: "injector-drip", Further: true, Titles: []string{"watching the injectors"}, Minutes: 20, Whole: true, Fuel: true, Way: Opens, Fits: both(injection, func(c *known.Case, _ []string) bool { return !direct(c) && portInjected(c) && !injectorsOut(c) }), Made: readIn(known.Injectors, "leak"), Words: []string{"injectors watched", "rail lifted"},
		Outcomes: []Outcome{{Name: "one drips", For: []string{"leaking-injector", "own-injector"}, Words: []string{"drips"}}, {Name: "none drips", Else: true, Clears: true, Words: []string{"none", "dry"}}}},
}

// suctionHigh reports that what a lift pump pulls against was measured: what it delivers
// and at what pressure is the result of that, and tells nothing new.
func suctionHigh(c *known.Case) bool { return known.SuctionHigh.HoldsIn(c) }

// delivered enters what the pump delivers in 30 seconds, as a part of what its
// limit asks, or of what is usual.
func delivered(part float64) func(*Trial) {
	return func(t *Trial) {
		most := float64(known.UsualVolume)
		for _, k := range t.Case.Circuits() {
			for _, l := range k.In.Limits {
				if l.For == "volume" && l.Low > 0 {
					most = l.Low
				}
			}
		}
		t.circuits(func(k *diag.Circuit) { k.VolumeML, k.VolumeSeconds = part*most/2, 30 })
	}
}
