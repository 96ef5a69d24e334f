package story_test

import (
	"slices"
	"strings"
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/cause"
	"gaugesheet/diag/known"
	"gaugesheet/diag/rule/sample"
	"gaugesheet/diag/story"
)

// TestRenewedParts: a part that is new has not worn out: common practice, no
// source. A gasket that was just renewed stays in question where coolant goes.
func TestRenewedParts(t *testing.T) {
	low, pair := []float64{150, 151, 149, 80}, []float64{150, 80, 82, 151}
	for _, tt := range []struct {
		name     string
		test     *diag.Test
		in, out  string // among the causes shown, and not
		leads    string // the cause that leads; "" is not asked
		headline string
	}{
		{name: "nothing done", test: sample.Dry("inline-4", low), in: "exhaust-valve"},
		{name: "valves renewed", test: sample.Dry("inline-4", low, sample.Done("valve job")), in: "rings", out: "exhaust-valve"},
		{name: "rings renewed", test: sample.Dry("inline-4", low, sample.Done("new rings")), in: "exhaust-valve", out: "rings"},
		{name: "rings of another cylinder", test: sample.Dry("inline-4", low, sample.Done("new rings on 2")), in: "rings"},
		{name: "rings looked at", test: sample.Dry("inline-4", low, sample.Done("rings looked at")), in: "rings"},
		{name: "rings renewed, and air at the filler", test: sample.Dry("inline-4", low, sample.Leak("4", 40, "crankcase"), sample.Done("new rings")), in: "rings"},
		{name: "gasket renewed, coolant goes", test: sample.Dry("inline-4", low, sample.Done("head gasket renewed a week ago"), sample.Complains("coolant loss", "overheating")), leads: "head-gasket"},
		{name: "gasket renewed, neighbours low", test: sample.Dry("inline-4", pair, sample.Done("head gasket renewed")), leads: "head-gasket"},
		{name: "the same after rings and valves", headline: "same-after-repair", out: "exhaust-valve",
			test: sample.Dry("inline-4", low, func(t *diag.Test) {
				then := sample.Dry("inline-4", []float64{150, 152, 148, 79})
				t.Before = &diag.Before{Done: "rings and valve job", Test: then}
			})},
	} {
		d := story.WithoutPlan(tt.test)
		s := d.Stories[0]
		shown := keys(s.Causes)
		switch {
		case tt.in != "" && !slices.Contains(shown, tt.in):
			t.Errorf("%s: %v, want %s among them", tt.name, shown, tt.in)
		case tt.out != "" && slices.Contains(shown, tt.out):
			t.Errorf("%s: %v, want no %s", tt.name, shown, tt.out)
		case tt.leads != "" && (len(shown) == 0 || shown[0] != tt.leads):
			t.Errorf("%s: %v, want %s first", tt.name, shown, tt.leads)
		case tt.headline != "" && d.Verdict.Key != tt.headline:
			t.Errorf("%s: headline %s, want %s", tt.name, d.Verdict.Key, tt.headline)
		}
	}
}

// Every cause that a part's renewal speaks against is one.
func TestPartsAreOfCauses(t *testing.T) {
	for _, p := range cause.RenewedParts {
		for _, name := range p.Causes {
			if cause.Named(name) == nil {
				t.Errorf("%s: no cause %s", p.Words[0], name)
			}
		}
	}
}

// A check that was made is no new part, by any of its names, unless it puts parts in.
func TestChecksRenewNothing(t *testing.T) {
	for i := range cause.Checks {
		k := &cause.Checks[i]
		if k.Is(cause.Parts) {
			continue
		}
		for _, name := range append([]string{strings.ReplaceAll(k.Name, "-", " ")}, k.Titles...) {
			for _, o := range k.Outcomes {
				line := name + " on 4: " + o.Name
				c := known.New(sample.Dry("inline-4", []float64{150, 151, 149, 80}, sample.Done(line)))
				for _, p := range cause.Renewed(c, []string{"4"}) {
					t.Errorf("%q is taken for a new %s", line, p.Words[0])
				}
			}
		}
	}
}
