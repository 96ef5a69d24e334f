package sample

// plugRows are tests in which the plugs have the word.
func plugRows() []Row {
	v8 := func(left, right string) Change {
		return Looks(left, right, left, right, left, right, left, right) // numbered across the banks
	}
	return []Row{
		{Name: "soot everywhere", Test: Of("inline-4", Looks("sooty", "sooty", "sooty", "sooty")),
			Fires: []string{"all-sooty"}, Not: []string{"one-sooty", "some-sooty", "bank-sooty", "rich-everywhere"}},
		{Name: "soot on one bank", Test: Of("V8", v8("sooty", "normal")), Fires: []string{"bank-sooty"}, Not: []string{"all-sooty", "some-sooty", "rich-one-bank"}},
		{Name: "soot on one", Test: Of("inline-4", Looks("normal", "normal", "normal", "sooty")), Fires: []string{"one-sooty"}, Not: []string{"all-sooty", "some-sooty", "plugs-normal"}},
		{Name: "soot on two apart", Test: Of("inline-6", Looks("normal", "sooty", "normal", "normal", "sooty", "normal")), Fires: []string{"some-sooty"}, Not: []string{"bank-sooty", "one-sooty"}},
		{Name: "soot at the ends", Test: Of("inline-4", Looks("sooty", "normal", "normal", "sooty")), Fires: []string{"some-sooty"}},
		{Name: "soot on neighbours", Test: Of("inline-4", Looks("normal", "sooty", "sooty", "normal")), Fires: []string{"some-sooty"}},
		// A cylinder that does not compress does not burn: its plug says nothing of the mixture.
		{Name: "soot on a dead cylinder", Test: Dry("inline-4", []float64{150, 150, 5, 150}, Looks("normal", "normal", "sooty", "normal")),
			Fires: []string{"one-without-pressure", "sooty-and-low"}, Not: []string{"one-sooty"}},
		{Name: "oil on one", Test: Of("inline-4", Looks("normal", "oil-wet", "normal", "normal")), Fires: []string{"oil-wet"}, Not: []string{"guides-or-breather", "rings-agree"}},
		{Name: "oil on all", Test: Of("inline-4", Looks("oil-wet", "oil-wet", "oil-wet", "oil-wet")), Fires: []string{"oil-wet"}},
		{Name: "oil in a two-stroke", Test: Of("inline-2", TwoStroke, Looks("oil-wet", "normal")), Fires: []string{"oil-wet"}, Not: []string{"guides-or-breather"}},
		{Name: "fuel on one", Test: Of("inline-4", Looks("normal", "fuel-wet", "normal", "normal")), Fires: []string{"fuel-wet"}, Not: []string{"wet-with-fuel-and-sealing"}},
		{Name: "fuel on all", Test: Of("inline-4", Looks("fuel-wet", "fuel-wet", "fuel-wet", "fuel-wet")), Fires: []string{"fuel-wet"}, Not: []string{"washed-and-low"}},
		{Name: "fuel on a low one", Test: Dry("inline-4", []float64{150, 150, 115, 150}, Looks("normal", "normal", "fuel-wet", "normal")),
			Fires: []string{"fuel-wet", "one-low"}, Not: []string{"wet-with-fuel-and-sealing"}},
		{Name: "white everywhere", Test: Of("inline-4", Looks("white", "white", "white", "white")), Fires: []string{"lean-all"}, Not: []string{"one-white", "some-white", "lean-and-pressure-low"}},
		{Name: "one white", Test: Of("inline-4", Looks("normal", "white", "normal", "normal")), Fires: []string{"one-white"}, Not: []string{"lean-all"}},
		{Name: "two white apart", Test: Of("inline-6", Looks("normal", "white", "normal", "normal", "white", "normal")), Fires: []string{"some-white"}, Not: []string{"lean-all", "lean-one-bank"}},
		{Name: "white at the ends", Test: Of("inline-4", Looks("white", "normal", "normal", "white")), Fires: []string{"some-white"}},
		{Name: "white neighbours", Test: Of("inline-4", Looks("normal", "white", "white", "normal")), Fires: []string{"some-white"}},
		{Name: "ash", Test: Of("inline-4", Looks("ash", "normal", "normal", "normal")), Fires: []string{"ash-deposits"}, Not: []string{"plugs-normal"}},
		{Name: "worn", Test: Of("inline-4", Looks("worn", "worn", "worn", "worn")), Fires: []string{"plugs-worn"}, Not: []string{"plugs-normal"}},
		{Name: "normal", Test: Of("inline-4", Looks("normal", "normal", "normal", "normal")), Fires: []string{"plugs-normal"}, Not: []string{"gap-out"}},
		{Name: "new plugs", Test: Of("inline-4", Looks("normal", "sooty", "normal", "normal"), Fitted("2 weeks ago")), Fires: []string{"one-sooty"}},
		{Name: "melted", Test: Of("inline-4", Looks("normal", "melted", "normal", "normal")), Fires: []string{"plug-melted"}, Not: []string{"plug-damaged"}},
		{Name: "damaged", Test: Of("inline-4", Looks("normal", "damaged", "normal", "normal")), Fires: []string{"plug-damaged"}, Not: []string{"piston-contact", "plug-melted"}},
		{Name: "detonation", Test: Of("inline-4", Looks("normal", "detonation", "normal", "normal")), Fires: []string{"detonation-signs"}},
		{Name: "blistered", Test: Of("inline-4", Looks("normal", "blistered", "normal", "normal")), Fires: []string{"overheated"}},
		{Name: "coolant on one", Test: Of("inline-4", Looks("normal", "coolant", "normal", "normal")), Fires: []string{"coolant-washed"}, Not: []string{"coolant-in-cylinder"}},
		{Name: "all the same red tint", Test: Of("inline-4", Looks("coolant", "coolant", "coolant", "coolant")), Fires: []string{"coolant-washed"}},
		{Name: "bridged", Test: Of("inline-4", Looks("normal", "bridged", "normal", "normal")), Fires: []string{"plug-bridged"}},
		{Name: "tracked", Test: Of("inline-4", Looks("normal", "tracked", "normal", "normal")), Fires: []string{"plug-tracked"}},
		{Name: "a wide gap", Test: Of("inline-4", Looks("normal", "normal", "normal", "normal"), Gap("3", 1.3)), Fires: []string{"gap-out"}, Not: []string{"plugs-normal", "piston-contact"}},
		{Name: "a gap on its limit", Test: Of("inline-4", Looks("normal", "normal", "normal", "normal"), Gap("3", 1.2)), Fires: []string{"plugs-normal"}, Not: []string{"gap-out"}},
		{Name: "a closed gap", Test: Of("inline-4", Looks("normal", "normal", "normal", "normal"), Gap("3", 0.1)), Fires: []string{"gap-out"}, Not: []string{"piston-contact"}},
	}
}
