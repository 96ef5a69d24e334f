package laws_test

import (
	"fmt"
	"slices"
	"strings"
)

// about tells whether a finding is about a limit of the compression or rotor
// test that this cylinder decided.
func about(f finding, cylinder string) bool {
	if fuelRule.MatchString(f.Rule) || plugRule.MatchString(f.Rule) {
		return false
	}
	return cylinder == "" || len(f.Cylinders) == 0 || slices.Contains(f.Cylinders, cylinder)
}

func outsideIsSaid(s *subject, k *tally) {
	need := func(what string, is func(finding) bool) {
		k.saw()
		if !slices.ContainsFunc(s.out.Findings, func(f finding) bool { return rank(f.Urgency) > 0 && is(f) }) {
			k.fail("%s is outside its limit, and no finding above 'no action' is about it", what)
		}
		if rank(s.out.Verdict.Urgency) == 0 {
			k.fail("%s is outside its limit, and the verdict is 'no action'", what)
		}
		// That the cylinders seal well does not go against a plug's gap.
		if tick := s.reassures(); tick != "" && (!strings.HasPrefix(what, "the plug gap") || nothingWords.MatchString(tick)) {
			k.fail("%s is outside its limit, and the sheet says %q", what, tick)
		}
	}
	if s.tree.has("compression", "limits") {
		for _, l := range s.out.Compression.Limits {
			if l.Verdict == "outside" {
				need("compression, "+l.Rule, func(f finding) bool { return about(f, l.Cylinder) })
			}
		}
	}
	for _, l := range s.out.Rotors.Limits {
		if l.Verdict == "outside" && s.tree.has("rotors", "limits") {
			need("rotors, "+l.Rule, func(f finding) bool { return about(f, "") })
		}
	}
	for _, c := range s.out.Leakage.Cylinders {
		if c.Verdict == "outside" {
			need("leakage of "+c.Cylinder, func(f finding) bool {
				return about(f, c.Cylinder) && !strings.HasPrefix(f.Rule, "wet")
			})
		}
	}
	for _, c := range s.out.Plugs.Cylinders {
		if c.GapVerdict == "outside" {
			need("the plug gap of "+c.Cylinder, func(f finding) bool {
				return slices.Contains(f.Cylinders, c.Cylinder) && !fuelRule.MatchString(f.Rule)
			})
		}
	}
	aboutFuel := func(circuit string) func(finding) bool {
		return func(f finding) bool {
			return (f.Circuit == circuit || f.Circuit == "") && (fuelRule.MatchString(f.Rule) || f.Rule == "outside-limit" || strings.Contains(f.Rule, "rich") || strings.Contains(f.Rule, "lean"))
		}
	}
	for _, r := range s.out.FuelPressure.Readings {
		if r.Verdict == "outside" {
			need("fuel pressure, "+r.Circuit+" "+r.Name, aboutFuel(r.Circuit))
		}
	}
	for _, c := range s.out.FuelPressure.Circuits {
		for _, h := range c.Hold {
			if h.Verdict == "outside" {
				need(fmt.Sprint("fuel pressure held, ", c.Name), aboutFuel(c.Name))
			}
		}
		s.volume(c.Name, need, aboutFuel)
	}
}

// volume works out the delivery by hand, which the JSON has no verdict on.
func (s *subject) volume(circuit string, need func(string, func(finding) bool), aboutFuel func(string) func(finding) bool) {
	at := []string{"fuel-pressure"}
	if circuit != "" {
		at = append(at, "circuits", circuit)
	}
	var ml, limit float64
	fmt.Sscanf(s.tree.text(append(slices.Clone(at), "volume")...), "%f ml in 30 s", &ml)
	fmt.Sscanf(s.tree.text(append(at, "limits", "volume")...), "at least %f ml in 30 s", &limit)
	if ml > 0 && ml < limit*0.9 {
		need("the fuel volume "+circuit, aboutFuel(circuit))
	}
}
