package sample

import "gaugesheet/diag"

var even4 = []float64{150, 152, 148, 151}

// leakageRows are tests in which leakage has the word.
func leakageRows() []Row {
	return []Row{
		{Name: "air at the exhaust inside the limit", Test: Dry("inline-4", even4, Leak("1", 4), Leak("2", 5), Leak("3", 14, "exhaust"), Leak("4", 6), LeakLimit(20)),
			Fires: []string{"leaks-at-exhaust"}, Not: []string{"leaks-at-inlet", "leakage-high", "leakage-good", "exhaust-valve-agrees"}},
		{Name: "9 % at the exhaust is not said", Test: Of("inline-4", Leak("1", 4), Leak("2", 5), Leak("3", 9, "exhaust"), Leak("4", 6)),
			Fires: []string{"leakage-good"}, Not: []string{"leaks-at-exhaust"}},
		{Name: "losses that disagree", Test: Of("inline-4", Leak("1", 4), Leak("2", 5), func(t *diag.Test) {
			t.Leakage.Dry["3"] = diag.Leak{Reading: diag.Reading{State: diag.Tested, Values: []float64{6, 30}, Entered: "6, 30"}}
		}, Leak("4", 6)),
			Fires: []string{"reading-left-open"}, Not: []string{"leakage-high", "leakage-good"}},
		{Name: "air at the inlet", Test: Dry("inline-4", even4, Leak("1", 5), Leak("2", 24, "inlet"), Leak("3", 6), Leak("4", 6)),
			Fires: []string{"leaks-at-inlet"}, Not: []string{"leaks-at-exhaust", "leakage-high", "sound-but-leaks"}},
		{Name: "a whole bank at the exhaust", Test: Of("V6", Leak("1", 60, "exhaust"), Leak("3", 55, "exhaust"), Leak("5", 58, "exhaust"), Leak("2", 6), Leak("4", 7), Leak("6", 8)),
			Fires: []string{"leaks-at-exhaust"}, Not: []string{"leakage-good", "leakage-high"}},
		{Name: "a whole bank at the inlet", Test: Of("V6", Leak("1", 60, "inlet"), Leak("3", 55, "inlet"), Leak("5", 58, "inlet"), Leak("2", 6), Leak("4", 7), Leak("6", 8)),
			Fires: []string{"leaks-at-inlet"}, Not: []string{"leakage-good", "leakage-high"}},
		{Name: "rings of a two-stroke", Test: Dry("inline-3", []float64{120, 121, 119}, TwoStroke, Leak("1", 8), Leak("2", 30, "exhaust"), Leak("3", 9)),
			Fires: []string{"leaks-at-exhaust"}, Not: []string{"exhaust-valve-agrees", "leaks-to-crankcase"}},
		{Name: "inlet of a two-stroke", Test: Of("inline-3", TwoStroke, Leak("1", 8), Leak("2", 22, "inlet"), Leak("3", 9)), Fires: []string{"leaks-at-inlet"}},
		{Name: "past the rings, compression not tested", Test: Of("inline-4", Leak("1", 8), Leak("2", 28, "crankcase"), Leak("3", 7), Leak("4", 9)),
			Fires: []string{"leaks-to-crankcase"}, Not: []string{"sound-but-leaks", "leaks-but-serviceable", "leakage-high", "leakage-good"}},
		{Name: "a little to the coolant", Test: Dry("inline-4", even4, Leak("1", 3), Leak("2", 4, "coolant"), Leak("3", 3), Leak("4", 3)),
			Fires: []string{"leaks-to-coolant"}, Not: []string{"leakage-good", "coolant-in-cylinder"}},
		{Name: "into the neighbour", Test: Of("inline-4", Leak("1", 5), Leak("2", 8, "neighbour"), Leak("3", 9, "neighbour"), Leak("4", 4)),
			Fires: []string{"leaks-to-neighbour"}, Not: []string{"gasket-agrees", "leakage-good"}},
		{Name: "at the adapter", Test: Of("inline-4", Leak("1", 5), Leak("2", 18, "outside"), Leak("3", 6), Leak("4", 4)), Fires: []string{"leaks-outside"}},
		// 80/60 is 25.0 % and not in excess of 25 %; 80/59 is 26.25 % (FAA AC 43.13-1B, para 8-14).
		{Name: "60 of 80 is not over 25 %", Test: DryOf(flatBarrels, nil, Leak("1", 25), Leak("2", 22), Leak("3", 21), Leak("4", 23), Leak("5", 22), Leak("6", 24), LeakLimit(25)),
			Not: []string{"leakage-high", "leaks-at-exhaust", "sound-but-leaks"}},
		{Name: "no place written down", Test: Of("inline-4", Leak("1", 5), Leak("2", 34), Leak("3", 6), Leak("4", 4), LeakLimit(20)),
			Fires: []string{"leakage-high"}, Not: []string{"leaks-to-crankcase", "leakage-good"}},
		{Name: "high loss, good compression", Test: Dry("inline-4", even4, Leak("1", 5), Leak("2", 38, "crankcase"), Leak("3", 6), Leak("4", 4)),
			Fires: []string{"sound-but-leaks"}, Not: []string{"leaks-to-crankcase", "leaks-but-serviceable", "leakage-high"}},
		{Name: "high loss, good compression, no place written down", Test: Dry("inline-4", even4, Leak("1", 5), Leak("2", 38), Leak("3", 6), Leak("4", 4)),
			Fires: []string{"sound-but-leaks/unplaced"}, Not: []string{"leakage-high", "leaks-to-crankcase"}},
		{Name: "low but tight", Test: Dry("inline-4", []float64{150, 152, 90, 151}, Leak("3", 6), Leak("1", 5)),
			Fires: []string{"low-but-tight"}, Not: []string{"exhaust-valve-agrees", "rings-agree", "leakage-good"}},
		{Name: "low, and as tight as the sound ones of a tester that reads high", Test: Dry("inline-4", []float64{150, 152, 90, 151}, Leak("1", 12, "crankcase"), Leak("2", 13, "crankcase"), Leak("3", 14, "crankcase")),
			Fires: []string{"low-but-tight"}, Not: []string{"rings-agree", "leaks-to-crankcase"}},
		{Name: "low, and less tight than the sound ones", Test: Dry("inline-4", []float64{150, 152, 90, 151}, Leak("1", 5), Leak("2", 6), Leak("3", 14, "crankcase")),
			Fires: []string{"rings-agree"}, Not: []string{"low-but-tight"}},
		{Name: "low, and as tight as one other", Test: Dry("inline-4", []float64{150, 152, 90, 151}, Leak("1", 13, "crankcase"), Leak("3", 14, "crankcase")),
			Fires: []string{"rings-agree"}, Not: []string{"low-but-tight"}},
		{Name: "no pressure, and little lost past the rings", Test: Dry("inline-4", []float64{150, 152, 5, 151}, Leak("1", 12), Leak("2", 14), Leak("3", 26, "crankcase"), Leak("4", 13)),
			Fires: []string{"loss-explains-little", "leaks-to-crankcase"}, Not: []string{"rings-agree", "low-but-tight"}},
		{Name: "no pressure, and much lost past the rings", Test: Dry("inline-4", []float64{150, 152, 5, 151}, Leak("1", 12), Leak("2", 14), Leak("3", 75, "crankcase"), Leak("4", 13)),
			Fires: []string{"rings-agree"}, Not: []string{"loss-explains-little"}},
		{Name: "no pressure, and a little lost at a valve that may hang as it turns", Test: Dry("inline-4", []float64{150, 152, 5, 151}, Leak("1", 12), Leak("2", 14), Leak("3", 35, "exhaust"), Leak("4", 13)),
			Fires: []string{"exhaust-valve-agrees"}, Not: []string{"loss-explains-little"}},
		{Name: "low and tight, two-stroke", Test: Dry("inline-2", []float64{120, 80}, TwoStroke, Leak("2", 6), Leak("1", 5)), Fires: []string{"low-but-tight"}},
		{Name: "all lose some, within the limit, past the rings", Test: Of("inline-4", Leak("1", 12, "crankcase"), Leak("2", 9), Leak("3", 16, "crankcase"), Leak("4", 8), LeakLimit(30)), Fires: []string{"leakage-good", "crankcase-loss-common"}, Not: []string{"leakage-high"}},
		{Name: "all lose little", Test: Of("inline-4", Leak("1", 4), Leak("2", 5), Leak("3", 6), Leak("4", 7)), Fires: []string{"leakage-good"}, Not: []string{"leakage-high"}},
		{Name: "all lose as a used engine does", Test: Of("inline-4", Leak("1", 12), Leak("2", 15), Leak("3", 14), Leak("4", 13)),
			Fires: []string{"leakage-good"}, Not: []string{"leakage-high", "leaks-to-crankcase"}},
		{Name: "cold leakage is provisional", Test: Of("inline-4", Method(func(k *diag.Conditions) { k.Engine = "cold" }),
			Leak("1", 8), Leak("2", 45, "crankcase"), Leak("3", 7), Leak("4", 9)), Fires: []string{"leaks-to-crankcase"}},
	}
}
