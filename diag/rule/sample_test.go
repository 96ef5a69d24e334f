package rule

import (
	"slices"
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/rule/sample"
)

// found lists the rules that said something.
func found(d *diag.Diagnosis) []string {
	var names []string
	for _, n := range d.Notices {
		names = append(names, n.Rule)
	}
	for _, f := range d.Findings {
		names = append(names, f.Rule)
	}
	return names
}

func TestSamples(t *testing.T) {
	for _, c := range sample.Cases() {
		t.Run(c.Name, func(t *testing.T) {
			got := found(Diagnose(c.Test))
			for _, want := range c.Fires {
				if !slices.Contains(got, want) {
					t.Errorf("%s did not fire; fired: %v", want, got)
				}
			}
			for _, not := range c.Not {
				if slices.Contains(got, not) {
					t.Errorf("%s fired; all that fired: %v", not, got)
				}
			}
		})
	}
}
