package rule

import (
	"testing"

	"gaugesheet/diag/rule/sample"
)

// TestEveryCombinationIsSampled asks of the families on leakage, plugs, fuel
// and combinations that each rule and each of its variants is said by a sample.
func TestEveryCombinationIsSampled(t *testing.T) {
	said := map[string]bool{}
	for _, c := range sample.Cases() {
		d := Diagnose(c.Test)
		for _, f := range d.Findings {
			said[f.Rule+"/"+f.Variant] = true
		}
		for _, n := range d.Notices {
			said[n.Rule+"/"+n.Variant] = true
		}
	}
	for _, family := range [][]Rule{leakageRules, plugRules, fuelRules, togetherRules} {
		for _, r := range family {
			for _, v := range append([]string{""}, r.Variants...) {
				if !said[r.Name+"/"+v] {
					t.Errorf("no sample says %s, variant %q", r.Name, v)
				}
			}
		}
	}
}
