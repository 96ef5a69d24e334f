package rule

import (
	"slices"
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/rule/sample"
)

func TestCautions(t *testing.T) {
	even := []float64{150, 152, 148, 151}
	always := []string{"makers-procedure", "that-day-only"}
	tests := []struct {
		name       string
		test       *diag.Test
		has, lacks []string
	}{
		{"compression", sample.Dry("inline-4", even), append(always, "fuel-vapour"), []string{"diesel-no-oil", "crank-turns", "do-not-run", "liquid-lock", "not-airworthiness"}},
		// Add no oil to a diesel's cylinder: common practice, no source.
		{"diesel", sample.Dry("inline-4", []float64{400, 405, 398, 402}, sample.Diesel), []string{"diesel-no-oil", "high-pressure-fuel"}, []string{"fuel-vapour"}},
		// The air of a leakage test can turn the crank (FAA AC 43.13-1B, para 8-14).
		{"leakage", sample.Of("inline-4", sample.Leak("1", 5)), []string{"crank-turns"}, []string{"fuel-vapour"}},
		{"fuel pressure", sample.Of("inline-4", sample.Fuel("direct, low side", diag.Circuit{KeyOn: sample.PSI(60)})), []string{"fuel-vapour", "high-pressure-fuel"}, nil},
		{"coolant in a cylinder", sample.Dry("inline-4", []float64{150, 152, 90, 151}, sample.Plug("coolant", "3")), []string{"do-not-run", "liquid-lock", "hot-coolant"}, nil},
		{"held of 80", sample.Of("flat-4", func(t *diag.Test) {
			t.Leakage = &diag.Leakage{State: diag.Tested, Dry: map[string]diag.Leak{"1": {Reading: diag.Reading{State: diag.Tested, Values: []float64{10}, Entered: "72/80"}}}}
		}), []string{"not-airworthiness"}, nil},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got := Diagnose(tt.test).Cautions
			for _, key := range tt.has {
				if !slices.Contains(got, key) {
					t.Errorf("%s is missing in %v", key, got)
				}
			}
			for _, key := range tt.lacks {
				if slices.Contains(got, key) {
					t.Errorf("%s does not belong in %v", key, got)
				}
			}
		})
	}
}
