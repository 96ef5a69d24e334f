package cases_test

import (
	"regexp"
	"slices"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/templates"
)

// neverSaid are words that no sheet uses.
var neverSaid = []string{"is blown", "blown head gasket", "passed", "guarantee", "perfect", "safe to buy", "nil", "<no value>", "%!", "  ", ".."}

// startsSmall finds a sentence that does not begin with a capital or a number.
var startsSmall = regexp.MustCompile(`(^|[.?!] )[a-z]`)

// The longest that a finding may be for an owner, in letters.
const (
	longestSays    = 115
	longestBecause = 300
)

// forAnOwner checks that a finding is short and without the trade's shorthand.
func (k *outcome) forAnOwner(rule string, said templates.Said) {
	if len([]rune(said.Says)) > longestSays || len([]rune(said.Because)) > longestBecause {
		k.Errorf("%s is long: %d and %d letters: %s. %s", rule, len([]rune(said.Says)), len([]rune(said.Because)), said.Says, said.Because)
	}
	for _, unwanted := range []string{"\"", " U ", "leak-down", "cross-leak", "borescope", "phaser"} {
		if strings.Contains(said.Says+" "+said.Because, unwanted) {
			k.Errorf("%s says %q to an owner: %s. %s", rule, unwanted, said.Says, said.Because)
		}
	}
}

// alwaysTrue checks what holds for every case: all of it can be said to both
// readers, causes are ranked and few, and no check proposes what was done.
func (k *outcome) alwaysTrue() {
	words, err := templates.Words("en")
	if err != nil {
		k.Fatal(err)
	}
	words = words.Of(k.d.Chambers)
	say := func(text string, err error) {
		if err != nil {
			k.Error(err)
		}
		for _, unwanted := range neverSaid {
			if strings.Contains(text, unwanted) {
				k.Errorf("%q in %q", unwanted, text)
			}
		}
		if small := startsSmall.FindString(text); small != "" {
			k.Errorf("%q begins a sentence with a small letter: %q", small, text)
		}
	}
	for _, reader := range []templates.Audience{templates.Customer, templates.Workshop} {
		for _, f := range k.said() {
			said, err := words.Finding(f, reader)
			say(said.Says, err)
			say(said.Because, nil)
			if reader == templates.Customer {
				k.forAnOwner(f.Rule, said)
			}
		}
		for _, n := range k.d.Notices {
			say(words.Notice(n, reader))
		}
		say(words.Verdict(k.d.Verdict, reader))
		if k.d.Advice.Key != "" {
			say(words.Verdict(k.d.Advice, reader))
		}
		if k.d.Next != nil {
			said, err := words.Check(*k.d.Next, reader)
			say(said.Do, err)
		}
	}
	for _, f := range k.said() {
		k.proposesNothingDone(f.Next)
		causes := keys(f.Causes)
		if slices.Sort(causes); len(causes) > 3 || len(slices.Compact(causes)) != len(f.Causes) {
			k.Errorf("%s: causes %v", f.Rule, keys(f.Causes))
		}
		if slices.Equal(causes, []string{"head-gasket"}) {
			k.Errorf("%s names the gasket alone", f.Rule)
		}
	}
	k.proposesNothingDone(k.d.Next)
}

// proposesNothingDone checks that a proposed check was not made already, by
// the readings of the job on the cylinders that it is for.
func (k *outcome) proposesNothingDone(check *diag.Check) {
	if check == nil {
		return
	}
	cylinders, _ := check.Facts["Cylinders"].(diag.Names)
	made := map[string]func(string) bool{
		"wet-test":  func(n string) bool { return k.test.Compression != nil && len(k.test.Compression.Wet[n].Values) > 0 },
		"leak-down": func(n string) bool { return k.test.Leakage != nil && len(k.test.Leakage.Dry[n].Values) > 0 },
		"borescope": func(n string) bool { return k.test.Borescope[n] != "" },
	}
	made["leak-down-pair"] = made["leak-down"]
	if on := made[check.Key]; on != nil && len(cylinders) > 0 && !slices.ContainsFunc(cylinders, func(n string) bool { return !on(n) }) {
		k.Errorf("%s is proposed on %v, where it was made", check.Key, cylinders)
	}
	how := k.test.GasTest // one made cold or short is made again
	if check.Key == "coolant-gas-test" && how.Engine != "cold" && (how.Minutes == 0 || how.Minutes >= 5) && (k.test.CoolantGas == "positive" || k.test.CoolantGas == "negative") {
		k.Error("the coolant gas test is proposed again")
	}
	if (k.test.Spec.Diesel() || k.test.Spec.TwoStroke) && check.Key == "wet-test" {
		k.Error("a wet test is proposed on a diesel or a two-stroke")
	}
}
