package job_test

import (
	"testing"

	"gaugesheet/diag"
	"gaugesheet/report/job"
)

// What the description of a vehicle tells of its engine is taken where the engine's own
// keys leave it open, and nothing that it denies, or says of something else.
func TestDescriptionTellsOfTheEngine(t *testing.T) {
	tests := []struct {
		described, engine string
		is                func(diag.Spec) bool
	}{
		{"2012 hybrid hatchback", "", func(s diag.Spec) bool { return s.Hybrid == diag.Yes }},
		{"2012 hybrid hatchback", "hybrid: no", func(s diag.Spec) bool { return s.Hybrid == diag.No }},
		{"hatchback, not a hybrid", "", func(s diag.Spec) bool { return s.Hybrid == diag.Unknown }},
		{"two-stroke outboard, 25 hp", "", func(s diag.Spec) bool { return s.TwoStroke }},
		{"outboard for two stroke oil", "", func(s diag.Spec) bool { return !s.TwoStroke }},
		{"two-stroke outboard", "cycle: four-stroke", func(s diag.Spec) bool { return !s.TwoStroke }},
		{"diesel tractor", "", func(s diag.Spec) bool { return s.Diesel() }},
		{"2004 turbodiesel van", "", func(s diag.Spec) bool { return s.Diesel() && s.Charging == "turbo" }},
		{"diesel pickup, once: now V8", "fuel: petrol", func(s diag.Spec) bool { return s.Fuel == "petrol" }},
		{"former diesel van", "", func(s diag.Spec) bool { return s.Fuel == "" }},
		{"van, converted from diesel to petrol", "", func(s diag.Spec) bool { return s.Fuel == "petrol" }},
		{"camper with a diesel heater", "", func(s diag.Spec) bool { return s.Fuel == "" }},
		{"fork lift on LPG", "", func(s diag.Spec) bool { return s.Fuel == "lpg" }},
		{"van, converted to LPG", "fuel: petrol", func(s diag.Spec) bool { return s.Fuel == "petrol" && s.AlsoGas }},
		{"van, LPG removed", "fuel: petrol", func(s diag.Spec) bool { return !s.AlsoGas }},
		{"air-cooled motorcycle", "", func(s diag.Spec) bool { return s.Cooling == "air" }},
		{"van with an air-cooled intercooler", "", func(s diag.Spec) bool { return s.Cooling == "" }},
		{"water-cooled motorcycle", "", func(s diag.Spec) bool { return s.Cooling == "liquid" }},
		{"boat, water-cooled exhaust", "", func(s diag.Spec) bool { return s.Cooling == "" }},
		{"turbo hatchback", "", func(s diag.Spec) bool { return s.Charging == "turbo" }},
		{"non-turbo hatchback", "", func(s diag.Spec) bool { return s.Charging == "" }},
		{"1938 flathead saloon", "", func(s diag.Spec) bool { return s.ValveGear == "side valves" && s.Camshafts == "one" }},
		{"1999 DOHC saloon", "", func(s diag.Spec) bool { return s.Camshafts == "two per bank" }},
		{"1999 saloon", "", func(s diag.Spec) bool {
			return s.Fuel == "" && s.Cooling == "" && s.Charging == "" && s.Camshafts == "" && s.Hybrid == diag.Unknown && !s.TwoStroke
		}},
	}
	for _, tt := range tests {
		text := "vehicle: {description: \"" + tt.described + "\"}\nengine:\n  layout: inline-4\n"
		if tt.engine != "" {
			text += "  " + tt.engine + "\n"
		}
		j, problems := job.Read("job.yaml", []byte(text+"compression: {unit: psi, dry: [150, 151, 149, 150]}\n"), nil)
		if len(problems) > 0 {
			t.Errorf("%q, %s: %v", tt.described, tt.engine, problems)
			continue
		}
		if s := j.Test().Spec; !tt.is(s) {
			t.Errorf("%q, %s: %+v", tt.described, tt.engine, s)
		}
	}
}
