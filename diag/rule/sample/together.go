package sample

import "gaugesheet/diag"

// togetherRows are tests in which two kinds of readings meet.
func togetherRows() []Row {
	low3 := []float64{150, 152, 90, 151}
	pair := []float64{150, 90, 92, 151}
	limits := []diag.FuelLimit{Range("key-on", 38, 44)}
	lowFuel := Fuel(returnLine, diag.Circuit{KeyOn: PSI(31), Limits: limits})
	rightFuel := Fuel(returnLine, diag.Circuit{KeyOn: PSI(41), Limits: limits})
	highFuel := Fuel(returnLine, diag.Circuit{KeyOn: PSI(60), Limits: limits})
	soot, white := Looks("sooty", "sooty", "sooty", "sooty"), Looks("white", "white", "white", "white")
	banks := func(left, right string) Change {
		return Looks(left, right, left, right, left, right, left, right)
	}
	oneBank := []float64{150, 100, 152, 98, 149, 101, 151, 99}
	return []Row{
		{Name: "wet rise and an oily plug", Test: Dry("inline-4", low3, Wet(map[string]float64{"3": 140, "1": 155}), Looks("normal", "normal", "oil-wet", "normal")),
			Fires: []string{"rings-agree"}, Not: []string{"one-low", "wet-rise", "oil-wet", "exhaust-valve-agrees"}},
		{Name: "low with air at the crankcase", Test: Dry("inline-4", low3, Leak("3", 40, "crankcase"), Leak("1", 6)), Fires: []string{"rings-agree"}, Not: []string{"leaks-to-crankcase", "sound-but-leaks"}},
		{Name: "crankcase air that oil does not stop", Test: Dry("inline-4", low3, Wet(map[string]float64{"3": 91, "1": 152}), Leak("3", 70, "crankcase"), Looks("normal", "normal", "oil-wet", "normal")),
			Fires: []string{"rings-agree"}},
		{Name: "the set that is shut down fouls", Test: Dry("V8", []float64{170, 172, 168, 171, 170, 169, 172, 170}, Spec(func(s *diag.Spec) { s.Deactivates = []string{"1", "4", "6", "7"} }),
			Looks("oil-wet", "normal", "normal", "oil-wet", "normal", "ash", "oil-wet", "normal")), Fires: []string{"deactivated-set-fouls"}, Not: []string{"guides-or-breather", "ash-deposits"}},
		{Name: "one of that set and one beside it foul", Test: Dry("V8", []float64{170, 172, 168, 171, 170, 169, 172, 170}, Spec(func(s *diag.Spec) { s.Deactivates = []string{"1", "4", "6", "7"} }),
			Looks("oil-wet", "normal", "oil-wet", "normal", "normal", "normal", "normal", "normal")), Not: []string{"deactivated-set-fouls"}},
		{Name: "an oily plug alone on a low cylinder", Test: Dry("inline-4", low3, Looks("normal", "normal", "oil-wet", "normal")), Fires: []string{"one-low", "oil-wet"}, Not: []string{"rings-agree", "guides-or-breather"}},
		{Name: "oil with good compression", Test: Dry("inline-4", even4, Looks("normal", "oil-wet", "normal", "normal")), Fires: []string{"guides-or-breather"}, Not: []string{"oil-wet", "rings-agree"}},
		{Name: "exhaust hiss, no wet rise", Test: Dry("inline-4", low3, Wet(map[string]float64{"3": 91, "1": 152}), Leak("3", 34, "exhaust"), Leak("1", 6)),
			Fires: []string{"exhaust-valve-agrees"}, Not: []string{"one-low", "wet-no-rise", "leaks-at-exhaust", "rings-agree"}},
		{Name: "hiss at the inlet", Test: Dry("inline-4", low3, Leak("3", 34, "inlet")), Fires: []string{"inlet-valve-agrees"}, Not: []string{"one-low", "leaks-at-inlet", "exhaust-valve-agrees"}},
		{Name: "hiss at inlet and exhaust", Test: Dry("inline-4", low3, Leak("3", 34, "inlet", "exhaust")), Not: []string{"inlet-valve-agrees"}},
		{Name: "exhaust hiss, lash set already", Test: Dry("inline-4", low3, Done("valve lash set"), Leak("3", 34, "exhaust")), Fires: []string{"exhaust-valve-agrees"}},
		{Name: "exhaust hiss, but oil lifts it", Test: Dry("inline-4", low3, Wet(map[string]float64{"3": 140, "1": 152}), Leak("3", 34, "exhaust")), Fires: []string{"leaks-at-exhaust"}, Not: []string{"exhaust-valve-agrees"}},
		{Name: "two-stroke with air at the port", Test: Dry("inline-3", []float64{120, 121, 60}, TwoStroke, Leak("3", 40, "exhaust")), Fires: []string{"rings-agree"}, Not: []string{"exhaust-valve-agrees"}},
		{Name: "neighbours that leak into each other", Test: Dry("inline-4", pair, Wet(map[string]float64{"2": 91, "3": 93, "1": 152}), Leak("2", 40, "neighbour")),
			Fires: []string{"gasket-agrees"}, Not: []string{"neighbours-low", "leaks-to-neighbour", "wet-no-rise"}},
		{Name: "neighbours low, no cross-leak", Test: Dry("inline-4", pair, Leak("2", 40, "exhaust"), Leak("3", 35, "crankcase")), Fires: []string{"exhaust-valve-agrees", "rings-agree"}, Not: []string{"gasket-agrees"}},
		{Name: "coolant plug in a low cylinder", Test: Dry("inline-4", low3, Looks("normal", "normal", "coolant", "normal"), Leak("3", 30, "coolant")),
			Fires: []string{"coolant-in-cylinder"}, Not: []string{"coolant-washed", "leaks-to-coolant", "one-low"}},
		{Name: "coolant plug and gas in the coolant", Test: Dry("inline-4", even4, Looks("normal", "normal", "coolant", "normal"), gas("positive")), Fires: []string{"coolant-in-cylinder"}},
		{Name: "gas in the coolant, even compression", Test: Dry("flat-4", []float64{125, 125, 125, 125}, gas("positive"), Complains("overheating")),
			Fires: []string{"combustion-gas-in-coolant"}, Not: []string{"coolant-in-cylinder", "sealing-sound-look-elsewhere"}},
		{Name: "even compression, coolant goes", Test: Dry("flat-4", []float64{125, 125, 125, 125}, Complains("coolant loss")), Fires: []string{"sealing-sound-look-elsewhere"}},
		{Name: "closed gap in a low cylinder", Test: Dry("inline-4", low3, Gap("3", 0.1)), Fires: []string{"piston-contact"}, Not: []string{"gap-out"}},
		{Name: "soot in a low cylinder", Test: Dry("inline-4", low3, Looks("normal", "normal", "sooty", "normal")), Fires: []string{"sooty-and-low", "one-low"}, Not: []string{"one-sooty"}},
		// The low cylinder is not the one with the odd plug: two findings.
		{Name: "soot elsewhere than the low one", Test: Dry("inline-4", []float64{90, 150, 151, 149}, Looks("normal", "normal", "normal", "sooty")), Fires: []string{"one-low", "one-sooty"}, Not: []string{"sooty-and-low"}},
		{Name: "fuel-wet and sealing", Test: Dry("inline-4", even4, Looks("normal", "fuel-wet", "normal", "normal")), Fires: []string{"wet-with-fuel-and-sealing"}, Not: []string{"fuel-wet"}},
		{Name: "flooded and low", Test: Dry("inline-4", []float64{70, 72, 68, 71}, Looks("fuel-wet", "fuel-wet", "fuel-wet", "fuel-wet")), Fires: []string{"washed-and-low"}, Not: []string{"fuel-wet"}},
		{Name: "flooded and under the minimum", Test: Dry("inline-4", []float64{105, 108, 104, 106}, Minimum(128), Looks("fuel-wet", "fuel-wet", "fuel-wet", "fuel-wet")), Fires: []string{"washed-and-low"}, Not: []string{"all-low"}},
		{Name: "all low and tight", Test: Dry("inline-4", []float64{100, 102, 98, 101}, Minimum(128), Leak("1", 5), Leak("2", 6), Leak("3", 4), Leak("4", 5)),
			Fires: []string{"low-everywhere-but-tight"}, Not: []string{"all-low", "low-but-tight", "leakage-good"}},
		{Name: "low and tight by a needle that falls back", Test: Dry("inline-4", low3, Leak("3", 6), Method(func(c *diag.Conditions) { c.Needle = "falls back" })), Fires: []string{"low-by-the-gauge-alone"}, Not: []string{"low-but-tight"}},
		{Name: "low and tight by a needle that falls back, and it misses", Test: Dry("inline-4", low3, Leak("3", 6), Complains("misfire"), Method(func(c *diag.Conditions) { c.Needle = "falls back" })), Fires: []string{"low-but-tight"}, Not: []string{"low-by-the-gauge-alone"}},
		{Name: "some loss past the rings", Test: Dry("V8", []float64{190, 192, 195, 200, 194, 196, 193, 191}, Leak("1", 8), Leak("4", 24, "crankcase"), Leak("5", 9)),
			Fires: []string{"leaks-but-serviceable"}, Not: []string{"sound-but-leaks", "leaks-to-crankcase", "rings-agree"}},
		{Name: "some loss over the limit", Test: Dry("inline-4", even4, Leak("1", 8), Leak("4", 28, "crankcase"), Leak("2", 9), LeakLimit(20)), Fires: []string{"leaks-but-serviceable"}},
		{Name: "some loss and oil use", Test: Dry("inline-4", even4, Complains("oil use"), Leak("1", 8), Leak("4", 24, "crankcase"), Leak("2", 9)), Fires: []string{"sound-but-leaks"}, Not: []string{"leaks-but-serviceable"}},
		{Name: "one bank low with its code", Test: Dry("V8", oneBank, Codes("P0018")), Fires: []string{"bank-low-with-cam-code"}, Not: []string{"bank-low"}},
		{Name: "one bank low with the other's code", Test: Dry("V8", oneBank, Codes("P0016")), Fires: []string{"bank-low-with-cam-code"}},
		{Name: "one bank low without a code", Test: Dry("V8", oneBank, Codes("P0300")), Fires: []string{"bank-low"}, Not: []string{"bank-low-with-cam-code"}},
		{Name: "stood and even", Test: Dry("inline-4", even4, Stood(8)), Fires: []string{"stood-engine"}},
		{Name: "stood and low", Test: Dry("inline-4", []float64{95, 165, 70, 70}, Stood(24)), Fires: []string{"stood-engine"}},
		{Name: "stood and does not start", Test: Dry("inline-4", even4, Stood(8), Complains("no start")), Fires: []string{"fuel-stood"}},
		{Name: "stood and starts", Test: Dry("inline-4", even4, Stood(8), Complains("oil use")), Not: []string{"fuel-stood"}},
		{Name: "stood half a year", Test: Dry("inline-4", even4, Stood(6)), Not: []string{"stood-engine"}},
		{Name: "misfires and seals", Test: Dry("inline-4", even4, Complains("misfire"), Leak("1", 5), Leak("2", 6), Leak("3", 5), Leak("4", 4)), Fires: []string{"sealing-sound-look-elsewhere"}, Not: []string{"leakage-good"}},
		{Name: "no start and seals", Test: Dry("inline-4", even4, Complains("no start")), Fires: []string{"sealing-sound-look-elsewhere"}},
		{Name: "no start, and one low", Test: Dry("inline-4", low3, Complains("no start")), Fires: []string{"no-start-not-explained", "one-low"}, Not: []string{"sealing-sound-look-elsewhere"}},
		{Name: "low power and seals", Test: Dry("inline-4", even4, Complains("low power")), Fires: []string{"sealing-sound-look-elsewhere"}},
		{Name: "misfires and one is low", Test: Dry("inline-4", low3, Complains("misfire")), Fires: []string{"one-low"}, Not: []string{"sealing-sound-look-elsewhere"}},

		{Name: "rich but pressure low", Test: Of("inline-4", Complains("rich running"), lowFuel), Fires: []string{"rich-but-pressure-low"}, Not: []string{"fuel-pressure-low", "rich-and-pressure-high"}},
		{Name: "soot everywhere but pressure low", Test: Of("inline-4", soot, lowFuel), Fires: []string{"rich-but-pressure-low"}, Not: []string{"all-sooty", "rich-everywhere", "fuel-pressure-low"}},
		{Name: "rich, pressure low, hose dry, pressure held", Test: Of("inline-4", Complains("rich running"), Fuel(returnLine, diag.Circuit{KeyOn: PSI(31), FuelInHose: "no",
			Hold: []diag.HoldReading{Held(5, 30)}, Limits: append(limits, diag.FuelLimit{For: "hold", Low: 25, High: 1e9, Minutes: 5})})), Fires: []string{"rich-but-pressure-low"}},
		{Name: "rich and pressure high", Test: Of("inline-4", soot, highFuel), Fires: []string{"rich-and-pressure-high"}, Not: []string{"fuel-pressure-high", "all-sooty", "rich-everywhere"}},
		{Name: "lean and pressure low", Test: Of("inline-4", white, lowFuel), Fires: []string{"lean-and-pressure-low"}, Not: []string{"fuel-pressure-low", "lean-all"}},
		{Name: "lean and it sags", Test: Of("inline-4", white, Fuel(returnLine, diag.Circuit{KeyOn: PSI(41), Idle: PSI(33), Snap: PSI(25), Limits: limits})), Fires: []string{"lean-and-pressure-low"}, Not: []string{"sags-under-load", "lean-pressure-right"}},
		{Name: "lean by a code, pressure right", Test: Of("inline-4", Codes("P0171"), rightFuel), Fires: []string{"lean-pressure-right"}, Not: []string{"lean-and-pressure-low", "fuel-pressure-right"}},
		{Name: "rich on one bank", Test: Of("V8", Complains("rich running"), banks("sooty", "normal")), Fires: []string{"rich-one-bank"}, Not: []string{"bank-sooty", "rich-everywhere"}},
		{Name: "sensors exchanged", Test: Of("V8", Complains("rich running"), banks("sooty", "white")), Fires: []string{"rich-one-bank", "lean-one-bank"}, Not: []string{"bank-sooty"}},
		{Name: "lean on one bank", Test: Of("V8", banks("normal", "white")), Fires: []string{"lean-one-bank"}, Not: []string{"lean-all", "some-white"}},
		{Name: "rich everywhere, pressure right", Test: Of("inline-4", soot, rightFuel), Fires: []string{"rich-everywhere"}, Not: []string{"all-sooty", "rich-but-pressure-low"}},
		{Name: "rich everywhere by complaint", Test: Of("inline-4", soot, Complains("rich running")), Fires: []string{"rich-everywhere"}, Not: []string{"all-sooty"}},
	}
}

// gas is the outcome of the coolant's test for combustion gas.
func gas(outcome string) Change { return func(t *diag.Test) { t.CoolantGas = outcome } }
