package job

import (
	"slices"
	"testing"
)

// What customers say of an engine, as they say it: common practice, no source.
func TestComplaintsInTheCustomersWords(t *testing.T) {
	for _, row := range []struct {
		said string
		want []string // nil where the reader asks
	}{
		{"it misses at idle and on the hill", []string{"misfire"}},
		{"rough idle", []string{"misfire"}},
		{"uses a bit of oil", []string{"oil use"}},
		{"hard start when hot", []string{"hard start"}},
		{"will not start hot", []string{"hard start"}},
		{"won't start since the rebuild", []string{"no start"}},
		{"deep knock under load", []string{"noise"}},
		{"rattle at start", []string{"noise"}},
		{"won't plane", []string{"low power"}},
		{"smells of petrol when parked", []string{"rich running"}},
		{"loses coolant and overheats on the motorway", []string{"coolant loss", "overheating"}},
		{"gutless above half throttle", []string{"low power"}},
		{"hard start, but no misfire", []string{"hard start"}},
		{"hunts at the lights and nearly stalls, fine on the motorway", []string{"misfire", "hunting"}},
		{"races at idle when warm and will not come down", []string{"hanging revs"}},
		{"no smoke but she rattles", []string{"noise"}},
		{"stumbles when cold, gone once warm", []string{"misfire"}},
		{"top up the bottle every week", []string{"coolant loss"}},
		{"she labours up hills and the smoke is black", []string{}},
		{"nothing wrong, just a yearly look", []string{}},
		{"misfire, gone since new coils", []string{}},
		{"overheated once, fixed since", []string{}},
		{"it used to overheat", []string{}},
		{"coolant loss said to be none", []string{}},
		{"knocked off a curb", nil},
		{"sticky door", []string{}},
		{"heater stays cold in the morning", []string{}},
		{"shudders at 40 miles an hour", []string{}},
		{"overheats on the highway, fine in town; no coolant loss", []string{"overheating"}},
		{"starts hard cold, white smoke till warm, then pulls fine", []string{"hard start"}},
		{"knocks cold, no warning lights", []string{"noise"}},
		{"no heat in the cab", []string{}},
		{"about 120", nil},
		{"misfirez", nil},
		{"blue smoke after coasting", []string{}},
		{"oil light flickers at idle", []string{}},
		{"none", []string{}},
		{"no complaints", []string{}},
	} {
		text := "engine: {layout: inline-4}\njob: {number: 1, date: 2026-05-14, reason: yearly look, complaints: [\"" + row.said + "\"]}\ncompression: {unit: psi, dry: {1: 150, 2: 150, 3: 150, 4: 150}}\n"
		j, err := Read("job.yaml", []byte(text), nil)
		switch {
		case row.want == nil:
			if len(err) == 0 {
				t.Errorf("%q was read as %v", row.said, j.Complaints)
			}
		case len(err) > 0:
			t.Errorf("%q: %v", row.said, err)
		case len(row.want) == 0 && len(j.said) == 0 && !slices.Contains(noComplaint, row.said):
			t.Errorf("%q is lost", row.said)
		case !slices.Equal(j.Complaints, row.want) && len(j.Complaints)+len(row.want) > 0:
			t.Errorf("%q was read as %v, want %v", row.said, j.Complaints, row.want)
		case len(j.said) > len(j.OwnWords) && j.Reason.Value != "yearly look; "+row.said:
			t.Errorf("%q is not kept beside the reason: %q", row.said, j.Reason.Value)
		}
	}
}
