package templates_test

import (
	"slices"
	"strings"
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/rule"
	"gaugesheet/diag/rule/sample"
	"gaugesheet/diag/story"
	"gaugesheet/templates"
)

// leaksAndLooks are tests in which leakage, plugs and a look into the cylinder
// say all that they can say.
func leaksAndLooks() []*diag.Test {
	of, leak, looks, gap := sample.Of, sample.Leak, sample.Looks, sample.Gap
	even, low3 := []float64{150, 152, 148, 151}, []float64{150, 152, 90, 151}
	n := "normal"
	all := func(look string) sample.Change { return looks(look, look, look, look) }
	spec := func(alter func(*diag.Spec)) sample.Change { return sample.Spec(alter) }
	lpg := spec(func(s *diag.Spec) { s.Fuel = "lpg" })
	wasted := spec(func(s *diag.Spec) { s.SharedCoils = [][]string{{"1", "4"}, {"2", "3"}} })
	airCooled := spec(func(s *diag.Spec) { s.Cooling = "air" })
	seen := func(b diag.Bore) sample.Change {
		return func(t *diag.Test) { t.Bores = map[string]diag.Bore{"3": b} }
	}
	heard := func(name string, at ...string) sample.Change {
		return func(t *diag.Test) {
			leak(name, 0, at...)(t)
			t.Leakage.Dry[name] = diag.Leak{Reading: diag.Reading{State: diag.Tested}, At: at}
		}
	}
	over := func(name string) sample.Change {
		return func(t *diag.Test) {
			leak(name, 20)(t)
			l := t.Leakage.Dry[name]
			l.Kind = diag.AtLeast
			t.Leakage.Dry[name] = l
		}
	}
	list := []*diag.Test{
		of("V6", leak("1", 60, "exhaust"), leak("3", 55, "inlet"), heard("5", "exhaust"), leak("2", 6), leak("4", 7), leak("6", 8)),
		of("inline-4", heard("1", "inlet"), heard("2", "exhaust"), heard("3", "exhaust"), heard("4", "inlet")),
		of("inline-2", sample.TwoStroke, leak("1", 35, "exhaust"), heard("2", "inlet")),
		of("inline-3", sample.TwoStroke, sample.Diesel, leak("2", 42, "inlet"), leak("1", 8), leak("3", 9)),
		of("inline-2", sample.TwoStroke, heard("1", "exhaust"), leak("2", 22, "inlet")),
		of("inline-4", heard("1", "crankcase"), heard("2", "coolant"), heard("3", "outside"), heard("4", "neighbour")),
		of("inline-4", leak("1", 32, "crankcase"), leak("2", 18, "outside"), leak("3", 9, "neighbour"), leak("4", 3, "coolant"), sample.LeakLimit(20)),
		of("inline-4", leak("1", 14, "crankcase"), leak("2", 9), leak("3", 12), leak("4", 8), sample.LeakLimit(30)),
		of("inline-4", leak("1", 14, "crankcase"), leak("2", 16, "crankcase"), leak("3", 5), leak("4", 6)),
		of("inline-4", over("1"), leak("2", 34), leak("3", 5)), of("rotary-2", leak("1", 57, "exhaust"), leak("2", 8)),
		sample.Dry("inline-4", []float64{82, 80, 84, 78}, sample.Minimum(120), leak("1", 38, "crankcase"), leak("2", 42, "crankcase")),
		sample.Dry("inline-4", even, leak("1", 5), leak("2", 45, "crankcase"), leak("3", 24, "crankcase")),
		sample.Dry("inline-4", even, leak("3", 24, "crankcase"), sample.LeakLimit(15)), sample.Dry("inline-4", even, leak("1", 5), leak("2", 38)),
		sample.Dry("inline-4", low3, leak("3", 6)), sample.Dry("inline-2", []float64{120, 80}, sample.TwoStroke, leak("2", 6)),
		of("flat-4", leak("1", 4), leak("2", 5), leak("3", 6), leak("4", 7)), of("inline-2", leak("1", 12), leak("2", 15)), of("single", leak("1", 25), sample.LeakLimit(25)),
		sample.Dry("inline-4", even, func(t *diag.Test) { t.CoolantGas = "positive" }),
		of("inline-4", looks("sooty", "sooty", n, "sooty"), sample.Complains("rich running")), of("inline-4", looks("white", "white", n, "white"), sample.Complains("lean running")), of("inline-3", sample.TwoStroke, looks("white", "white", n)),
		of("inline-4", all("sooty")), of("inline-4", looks("sooty", "sooty")), of("V6", looks("sooty", n, "sooty", n, "sooty", n)), of("inline-4", looks(n, "sooty", n, n)), of("inline-4", looks("", "sooty")),
		sample.Dry("inline-4", low3, looks(n, "sooty", "sooty", n)), of("inline-6", looks("sooty", n, n, "sooty", n, n)), of("inline-4", looks("sooty", n, n, "sooty")), of("inline-4", looks(n, "sooty", "sooty", n)),
		of("inline-4", looks("sooty", n, n, "sooty"), wasted), of("inline-4", all("white")), of("inline-4", all("white"), lpg), of("inline-4", looks(n, "white", n, n)), of("inline-4", looks("", "white")),
		sample.Dry("inline-4", []float64{150, 152, 5, 151}, looks(n, "white", "white", n)), of("inline-6", looks("white", n, n, "white", n, n)), of("inline-4", looks("white", n, n, "white")), of("inline-4", looks(n, "white", "white", n)),
		of("inline-4", looks(n, "oil-wet", n, n)), sample.Dry("inline-4", low3, looks(n, n, "oil-wet", n)), of("inline-4", all("oil-wet")), of("inline-2", looks("oil-wet", n), sample.TwoStroke), of("inline-4", looks(n, "oil-wet"), sample.Diesel),
		of("inline-4", looks(n, "fuel-wet", n, n)), sample.Dry("inline-4", []float64{150, 152, 115, 151}, looks(n, n, "fuel-wet", n)), of("inline-4", all("fuel-wet")), of("inline-2", looks("fuel-wet", "fuel-wet")),
		of("inline-4", looks("ash", n, n, n)), of("inline-4", all("ash")), of("inline-4", all("worn")), of("inline-4", all(n)), of("inline-4", all(n), sample.Fitted("new")),
		of("inline-4", gap("1", 1.5), gap("2", 0.7), gap("3", 0.2)), of("inline-4", looks("melted", "damaged", "detonation", "blistered")), of("inline-4", looks("melted", "damaged"), sample.Diesel),
		of("inline-4", looks("coolant", "bridged", "tracked", n)), of("inline-4", all("coolant")),
	}
	for _, b := range []diag.Bore{{Wall: "scored"}, {Wall: "glazed"}, {Crown: "holed"}, {Crown: "melted"}, {Crown: "marked"}, {Crown: "washed"}, {Crown: "carbon"}, {Valves: "bent"}, {Valves: "burnt"}} {
		list = append(list, sample.Dry("inline-4", low3, seen(b)), of("flat-4", airCooled, seen(b)))
	}
	for _, words := range []string{"ring broken", "ring land broken", "ring stuck", "crack across the crown", "crack in the head", "pinholes in the liner", "valve head missing", "exhaust valve green on one edge", "seat pitted",
		"gasket blown", "plug electrode missing", "electrode melted", "circlip missing", "screw on the piston", "oily crown", "wet with fuel", "damp", "ridge at the top of the wall", "rust pits", "frabbled", "valve brunt"} {
		list = append(list, sample.Dry("inline-4", low3, sample.Seen("3", words)), of("flat-4", airCooled, sample.Seen("3", words)), of("inline-2", sample.TwoStroke, sample.Seen("2", words)), sample.Dry("inline-3", []float64{27, 26, 27}, sample.TwoStroke, sample.Diesel, sample.Seen("2", words)))
	}
	list = append(list, sample.Dry("inline-4", even, sample.Known(func(h *diag.History) { h.Findings = []string{"ring land of one piston broken"} })))
	return list
}

// leakAndLookRules are the rules on leakage, plugs and what was seen.
var leakAndLookRules = []string{
	"valves-leak-together", "leaks-to-neighbour", "leaks-to-coolant", "leaks-at-exhaust", "leaks-at-inlet", "leaks-to-crankcase", "crankcase-loss-common", "leaks-outside",
	"low-everywhere-and-leaks", "low-but-tight", "leaks-but-serviceable", "sound-but-leaks", "leakage-high", "rotor-leaks", "combustion-gas-in-coolant", "leakage-good",
	"all-sooty", "bank-sooty", "one-sooty", "some-sooty", "shared-coil", "lean-all", "white-on-gas", "one-white", "some-white",
	"oil-wet", "fuel-wet", "all-fuel-wet", "ash-deposits", "plugs-worn", "gap-out", "plugs-normal",
	"plug-melted", "plug-damaged", "gap-closed", "detonation-signs", "overheated", "coolant-washed", "plug-bridged", "plug-tracked",
	"seen-holed", "seen-melted", "seen-marked", "seen-bent-valve", "seen-burnt-valve", "seen-scored", "seen-washed", "seen-carbon", "seen-glazed",
	"seen-broken-ring", "seen-stuck-ring", "seen-cracked-piston", "seen-cracked-head", "seen-cracked-wall", "seen-broken-valve", "seen-leaky-valve", "seen-blown-gasket", "seen-broken-plug", "seen-pin-clip", "seen-loose-thing", "seen-wet", "seen-worn", "seen-pitted-wall", "seen-not-judged", "seen-somewhere",
}

// TestLeaksAndLooksCanBeSaid says every wording of leakage, plugs and what was
// seen, to both readers.
func TestLeaksAndLooksCanBeSaid(t *testing.T) {
	c := words(t)
	said := map[string]bool{}
	for _, test := range leaksAndLooks() {
		d := story.WithoutPlan(test)
		for name, a := range audiences {
			if text, err := c.Verdict(d.Verdict, a); err != nil || text == "" {
				t.Errorf("verdict %s to the %s: %q, %v", d.Verdict.Key, name, text, err)
			}
		}
		for i := range d.Stories {
			for _, f := range d.Stories[i].Members {
				key := f.Rule
				if f.Variant != "" {
					key += "/" + f.Variant
				}
				said[key] = true
				sayLeakOrLook(t, c, f)
			}
		}
	}
	for _, name := range leakAndLookRules {
		r := rule.Named(name)
		for _, v := range r.Variants {
			if !said[name+"/"+v] {
				t.Errorf("%s/%s was never said", name, v)
			}
		}
		if !said[name] && name != "gap-out" { // that is wide or narrow
			t.Errorf("%s was never said", name)
		}
	}
}

func sayLeakOrLook(t *testing.T, c *templates.Catalogue, f diag.Finding) {
	f.Causes, f.Against, f.Doubts, f.Next = nil, nil, nil, nil
	if !slices.Contains(leakAndLookRules, f.Rule) {
		return
	}
	for name, a := range audiences {
		s, err := c.Finding(f, a)
		if err != nil {
			t.Errorf("%s/%s to the %s: %v", f.Rule, f.Variant, name, err)
			continue
		}
		for _, text := range []string{s.Says, s.Because} {
			if text == "" || strings.Contains(text, "  ") || strings.Contains(text, "..") || strings.Contains(text, "<no") || strings.HasPrefix(text, ";") {
				t.Errorf("%s/%s to the %s is badly said: %q", f.Rule, f.Variant, name, text)
			}
		}
		if a == templates.Customer && (len([]rune(s.Says)) > 100 || len([]rune(s.Because)) > 250 || strings.HasSuffix(s.Says, ".")) {
			t.Errorf("%s/%s is too long for its line: %q, %q", f.Rule, f.Variant, s.Says, s.Because)
		}
	}
}
