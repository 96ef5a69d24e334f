package sample

import (
	"gaugesheet/diag"
	"gaugesheet/diag/engine"
	"gaugesheet/diag/quantity"
)

func separate(layout string) engine.Spec { return engine.Spec{Layout: layout, SeparateBarrels: true} }

func wetRows() []Row {
	low := []float64{150, 151, 100, 149}
	return []Row{
		{Name: "comes up with oil", Test: Dry("inline-4", low, Wet(map[string]float64{"1": 154, "3": 140})), Fires: []string{"wet-rise", "one-low"}, Not: []string{"wet-no-rise", "wet-partial", "wet-dose-too-large"}},
		{Name: "comes up with oil, no control", Test: Dry("inline-4", low, Wet(map[string]float64{"3": 135})), Fires: []string{"wet-rise"}},
		{Name: "rises in part, no control", Test: Dry("inline-4", []float64{150, 151, 65, 149}, Wet(map[string]float64{"3": 90})), Fires: []string{"wet-partial"}, Not: []string{"wet-rise", "wet-no-rise"}},
		{Name: "rises in part, with control", Test: Dry("inline-4", []float64{160, 159, 62, 157}, Wet(map[string]float64{"1": 164, "3": 90})), Fires: []string{"wet-partial"}},
		{Name: "changes too little to tell", Test: Dry("inline-4", low, Wet(map[string]float64{"1": 152, "3": 111})), Fires: []string{"wet-partial"}, Not: []string{"wet-rise", "wet-no-rise"}},
		{Name: "stays low with oil", Test: Dry("inline-4", low, Wet(map[string]float64{"1": 154, "3": 104})), Fires: []string{"wet-no-rise"}, Not: []string{"wet-rise", "wet-partial"}},
		{Name: "zero dry and wet", Test: Dry("inline-4", []float64{145, 140, 150, 0}, Wet(map[string]float64{"4": 0}), Plug("damaged", "4")), Fires: []string{"wet-no-rise", "one-without-pressure"}},
		{Name: "all rise alike", Test: Dry("inline-4", []float64{137, 133, 119, 133}, Wet(map[string]float64{"1": 158, "2": 148, "3": 133, "4": 145})), Fires: []string{"wet-rise-everywhere", "wet-dose-too-large"}, Not: []string{"wet-rise"}},
		{Name: "all rise alike, one of them low", Test: Dry("inline-4", []float64{150, 150, 100, 150}, Wet(map[string]float64{"1": 163, "2": 163, "3": 120, "4": 163})), Fires: []string{"wet-rise-everywhere"}, Not: []string{"wet-rise", "wet-partial", "wet-no-rise"}},
		{Name: "a rise on a cylinder that is not low", Test: Dry("inline-4", []float64{150, 151, 148, 149}, Wet(map[string]float64{"3": 160})), Not: []string{"wet-rise", "wet-partial", "wet-no-rise"}},
		{Name: "oil in a diesel", Test: Dry("inline-4", []float64{400, 402, 250, 398}, Diesel, Wet(map[string]float64{"3": 380})), Fires: []string{"no-oil-in-diesel"}, Not: []string{"wet-rise", "wet-rise-everywhere"}},
		{Name: "a diesel without oil", Test: Dry("inline-4", []float64{400, 402, 250, 398}, Diesel), Not: []string{"no-oil-in-diesel"}},
		{Name: "a flat engine with oil", Test: Dry("flat-4", low, Wet(map[string]float64{"1": 154, "3": 140})), Fires: []string{"wet-rise"}},
		{Name: "a two-stroke with oil", Test: Dry("inline-4", low, TwoStroke, Wet(map[string]float64{"1": 152, "3": 102})), Fires: []string{"wet-no-rise"}},
		{Name: "a single under its minimum comes up", Test: Dry("single", []float64{60}, Minimum(90), Wet(map[string]float64{"1": 85})), Fires: []string{"wet-rise", "below-minimum"}},
		{Name: "a single without a minimum cannot be short", Test: Dry("single", []float64{60}, Wet(map[string]float64{"1": 85})), Not: []string{"wet-rise", "wet-partial", "wet-no-rise"}},
		{Name: "wet above the geometry", Test: Dry("inline-4", []float64{178, 176, 120, 175}, geometry, Wet(map[string]float64{"3": 260})), Fires: []string{"wet-dose-too-large"}},
		{Name: "dose too large for the chamber", Test: Dry("inline-4", low, Wet(map[string]float64{"3": 140}), func(t *diag.Test) {
			t.Spec.DisplacementML, t.Spec.Ratio, t.Compression.OilML = 2000, 9.5, 10
		}), Fires: []string{"wet-dose-too-large"}},
		{Name: "a dose that fits", Test: Dry("inline-4", low, Wet(map[string]float64{"3": 140}), func(t *diag.Test) {
			t.Spec.DisplacementML, t.Spec.Ratio, t.Compression.OilML = 2000, 9.5, 5
		}), Not: []string{"wet-dose-too-large"}},
	}
}

func strokeRows() []Row {
	return []Row{
		{Name: "builds slowly", Test: Dry("inline-4", []float64{150, 152, 110, 149}, First(90, 91, 40, 90)), Fires: []string{"builds-slowly"}, Not: []string{"does-not-build", "first-stroke-high"}},
		{Name: "does not build", Test: Dry("inline-4", []float64{150, 152, 60, 149}, First(90, 91, 40, 90)), Fires: []string{"does-not-build"}, Not: []string{"builds-slowly", "first-stroke-high"}},
		{Name: "starts well and stops", Test: Dry("inline-4", []float64{150, 152, 105, 149}, First(90, 91, 88, 90)), Fires: []string{"first-stroke-high"}, Not: []string{"builds-slowly", "does-not-build"}},
		{Name: "full at once everywhere", Test: Dry("inline-4", []float64{150, 152, 148, 149}, First(142, 141, 140, 139)), Fires: []string{"first-stroke-high"}},
		{Name: "normal strokes", Test: Dry("inline-4", []float64{150, 152, 148, 149}, First(90, 91, 88, 90)), Not: []string{"builds-slowly", "does-not-build", "first-stroke-high"}},
		{Name: "one first stroke is no comparison", Test: Dry("inline-4", []float64{150, 152, 110, 149}, First(90, 0, 0, 0), func(t *diag.Test) {
			t.Compression.First = map[string]diag.Reading{"3": Read(20)}
		}), Not: []string{"builds-slowly", "does-not-build", "first-stroke-high"}},
	}
}

func rotorRows() []Row {
	limits := func(t *diag.Test) {
		unit := quantity.KgfPerCm2
		t.Rotors.Minimum = &diag.Limit{Kind: diag.Minimum, Value: 6.9, Unit: unit, Entered: "6.9 kgf/cm2"}
		t.Rotors.Faces = &diag.Limit{Kind: diag.Difference, Value: 1.5, Unit: unit, Entered: "1.5 kgf/cm2"}
		t.Rotors.Apart = &diag.Limit{Kind: diag.Difference, Value: 1.0, Unit: unit, Entered: "1.0 kgf/cm2"}
	}
	exact := func(t *diag.Test) { t.Gauges.Compression.Division = 0.01 }
	kPa := func(t *diag.Test) {
		unit := quantity.KPa
		t.Rotors.Unit, t.Gauges.Compression.Division, t.Gauges.Compression.High = unit, 1, 1500
		t.Rotors.Minimum = &diag.Limit{Kind: diag.Minimum, Value: 680, Unit: unit, Entered: "680 kPa"}
		t.Rotors.Faces = &diag.Limit{Kind: diag.Difference, Value: 150, Unit: unit, Entered: "150 kPa"}
		t.Rotors.Apart = &diag.Limit{Kind: diag.Difference, Value: 100, Unit: unit, Entered: "100 kPa"}
	}
	return []Row{
		{Name: "rotors sound", Test: Faces([][3]float64{{8.4, 8.3, 8.4}, {8.2, 8.3, 8.2}}, limits), Not: []string{"one-face-low", "two-faces-low", "rotor-low", "rotors-apart", "read-once", "method-incomplete"}},
		{Name: "one face low", Test: Faces([][3]float64{{8.4, 8.3, 8.4}, {8.2, 8.3, 5.1}}, limits), Fires: []string{"one-face-low", "read-once"}, Not: []string{"two-faces-low", "rotor-low"}},
		{Name: "one face at zero, no limits", Test: Faces([][3]float64{{8.2, 7.7, 7.9}, {7.2, 7.0, 0}}), Fires: []string{"one-face-low"}},
		{Name: "one face low as read", Test: Faces([][3]float64{{8.4, 8.3, 8.4}, {8.2, 8.3, 6.85}}, limits), Fires: []string{"one-face-low"}},
		{Name: "two faces low", Test: Faces([][3]float64{{8.4, 8.3, 8.4}, {8.2, 5.0, 5.1}}, limits), Fires: []string{"two-faces-low"}, Not: []string{"one-face-low", "rotor-low"}},
		{Name: "two faces low as read", Test: Faces([][3]float64{{8.4, 8.3, 8.4}, {8.2, 6.8, 6.85}}, limits), Fires: []string{"two-faces-low"}},
		{Name: "two faces low, no limits", Test: Faces([][3]float64{{8.4, 8.3, 8.4}, {8.2, 5.0, 5.1}}, exact), Fires: []string{"two-faces-low", "rotors-apart"}},
		{Name: "worn evenly", Test: Faces([][3]float64{{581, 556, 554}, {393, 392, 347}}, kPa), Fires: []string{"rotor-low", "rotors-apart"}, Not: []string{"one-face-low", "two-faces-low"}},
		{Name: "a rotor low as read", Test: Faces([][3]float64{{7.6, 7.6, 7.6}, {6.8, 6.85, 6.8}}, limits), Fires: []string{"rotor-low"}, Not: []string{"rotors-apart"}},
		{Name: "rotors apart as read", Test: Faces([][3]float64{{8.4, 8.4, 8.4}, {7.35, 7.4, 7.4}}, limits), Fires: []string{"rotors-apart"}},
		{Name: "cranking speed not recorded", Test: Faces([][3]float64{{5.7, 5.6, 5.5}, {5.4, 5.4, 5.5}}, func(t *diag.Test) { t.Rotors.CrankingRPM = 0 }), Fires: []string{"method-incomplete"}},
		{Name: "a rotor not read", Test: Faces([][3]float64{{8.4, 8.4, 8.4}, {8.4, 8.4, 8.4}}, func(t *diag.Test) {
			t.Rotors.Rotors[1] = diag.Rotor{Name: t.Rotors.Rotors[1].Name, State: diag.NotTested}
		}), Fires: []string{"too-few-cylinders"}},
		{Name: "stood, rotor low", Test: Faces([][3]float64{{8.4, 8.4, 8.4}, {5.4, 5.4, 5.5}}, limits, Stood(24)), Fires: []string{"rotor-low"}},
	}
}

func earlierRows() []Row {
	cold := Method(func(c *diag.Conditions) { c.Engine = "cold" })
	good, low := []float64{160, 158, 159, 157}, []float64{160, 158, 120, 157}
	return []Row{
		{Name: "fell since", Test: Dry("inline-4", low, After("2025-11-02", Dry("inline-4", good))), Fires: []string{"changed-since-earlier", "one-low"}},
		{Name: "rose since", Test: Dry("inline-4", good, After("2025-11-02", Dry("inline-4", low))), Fires: []string{"changed-since-earlier"}},
		{Name: "the same as before", Test: Dry("inline-4", good, After("2025-11-02", Dry("inline-4", good))), Not: []string{"changed-since-earlier", "all-low"}},
		{Name: "all fell since", Test: Dry("inline-4", []float64{120, 118, 119, 117}, After("2025-11-02", Dry("inline-4", good))), Fires: []string{"changed-since-earlier", "all-low"}},
		{Name: "all lower than the good ones before the work", Test: Dry("inline-4", []float64{146, 144, 147, 145}, Worked("head gasket, timing belt", Dry("inline-4", []float64{176, 62, 60, 178}))), Fires: []string{"all-low", "better-after-repair"}, Not: []string{"worse-after-repair", "repaired-and-proved"}},
		{Name: "one lower than before the work", Test: Dry("inline-4", []float64{176, 144, 175, 177}, Worked("timing belt", Dry("inline-4", []float64{178, 176, 174, 178}))), Fires: []string{"worse-after-repair"}, Not: []string{"all-low"}},
		{Name: "as good as the good ones before the work", Test: Dry("inline-4", []float64{172, 170, 174, 171}, Worked("head gasket, timing belt", Dry("inline-4", []float64{176, 62, 60, 178}))), Fires: []string{"repaired-and-proved"}, Not: []string{"all-low"}},
		{Name: "low cold, earlier warm", Test: Dry("inline-4", low, cold, After("2025-11-02", Dry("inline-4", good))), Fires: []string{"low-cold-only"}, Not: []string{"low-hot-only", "changed-since-earlier"}},
		{Name: "warm, earlier low cold", Test: Dry("inline-4", good, After("2025-11-02", Dry("inline-4", low, cold))), Fires: []string{"low-cold-only"}},
		{Name: "low warm, earlier cold", Test: Dry("inline-4", low, After("2025-11-02", Dry("inline-4", good, cold))), Fires: []string{"low-hot-only"}, Not: []string{"low-cold-only"}},
		{Name: "low in both", Test: Dry("inline-4", low, After("2025-11-02", Dry("inline-4", low, cold))), Not: []string{"low-hot-only", "low-cold-only"}},
	}
}
