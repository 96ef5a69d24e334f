package job

import (
	"regexp"
	"slices"
	"strings"
	"sync"

	"gaugesheet/diag"
	"gaugesheet/diag/engine"
)

// A told is a fact of the engine by the words in which its vehicle is described: 'diesel
// tractor', 'hybrid hatchback', 'two-stroke outboard'. It is taken where the job leaves
// open the keys that would say it or deny it.
type told struct {
	key   string // of the engine, which goes before the description
	words *regexp.Regexp
	set   func(*diag.Spec, *engine.Engine)
}

// phrases are words of which one stands in a text by itself, hyphens taken for spaces.
func phrases(words string) *regexp.Regexp { return regexp.MustCompile(`\b(?:` + words + `)\b`) }

// toldBy are those facts. What is told of one key is told by the first that fits.
var toldBy = sync.OnceValue(func() []told {
	return []told{
		{"hybrid", phrases(`hybrid`), func(s *diag.Spec, _ *engine.Engine) { s.Hybrid = diag.Yes }},
		{"fuel", phrases(`(?:turbo ?)?diesel`), func(s *diag.Spec, _ *engine.Engine) { s.Fuel, s.FuelShown = "diesel", true }},
		{"fuel", phrases(`lpg|autogas|propane`), func(s *diag.Spec, _ *engine.Engine) { s.Fuel = "lpg" }},
		{"fuel", phrases(`cng|natural gas`), func(s *diag.Spec, _ *engine.Engine) { s.Fuel = "cng" }},
		{"fuel", phrases(`petrol|gasoline`), func(s *diag.Spec, _ *engine.Engine) { s.Fuel = "petrol" }},
		{"cycle", phrases(`four stroke|4 stroke`), func(*diag.Spec, *engine.Engine) {}},
		{"cycle", phrases(`(?:two|2) stroke`), func(s *diag.Spec, _ *engine.Engine) { s.TwoStroke = true }},
		{"cooling", phrases(`air cooled|aircooled`), func(s *diag.Spec, _ *engine.Engine) { s.Cooling = "air" }},
		{"cooling", phrases(`(?:water|liquid|raw water|sea ?water) cooled`), func(s *diag.Spec, _ *engine.Engine) { s.Cooling = "liquid" }},
		{"charging", phrases(`supercharged|supercharger`), func(s *diag.Spec, _ *engine.Engine) { s.Charging = "supercharged" }},
		{"charging", phrases(`(?:twin |bi ?)?turbo(?:charged|charger|s| ?diesel)?`), func(s *diag.Spec, _ *engine.Engine) { s.Charging = "turbo" }},
		{"valve-gear", phrases(`flat ?head|side ?valves?`), func(s *diag.Spec, _ *engine.Engine) { s.ValveGear = "side valves" }},
		{"valve-gear", phrases(`overhead valves?|ohv|push ?rod`), func(s *diag.Spec, _ *engine.Engine) { s.ValveGear = "overhead valves" }},
		{"camshafts", phrases(`ohv|push ?rod|flat ?head|side ?valves?`), func(s *diag.Spec, _ *engine.Engine) { s.Camshafts = "one" }},
		{"camshafts", phrases(`dohc|double overhead`), func(s *diag.Spec, _ *engine.Engine) { s.Camshafts = "two per bank" }},
		{"camshafts", phrases(`sohc|single overhead`), func(s *diag.Spec, e *engine.Engine) {
			s.Camshafts = "one"
			if e.IsTwoBank() {
				s.Camshafts = "one per bank"
			}
		}},
		{"lifters", phrases(`hydraulic (?:lifters|tappets)`), func(s *diag.Spec, _ *engine.Engine) { s.Lifters = "hydraulic" }},
		{"lifters", phrases(`solid (?:lifters|tappets)`), func(s *diag.Spec, _ *engine.Engine) { s.Lifters = "solid" }},
		{"inverted", phrases(`inverted`), func(s *diag.Spec, _ *engine.Engine) { s.Inverted = diag.Yes }},
	}
})

// alsoGas are words of an engine that burns gas beside what its key says.
var alsoGas = sync.OnceValue(func() *regexp.Regexp { return phrases(`lpg|autogas|propane|cng|bi ?fuel|dual fuel`) })

// Words before and behind a fact of a description by which it is not, or no more, so, and
// which make it another thing.
var (
	denied = sync.OnceValue(func() *regexp.Regexp {
		return regexp.MustCompile(`\b(?:no|not|non|without|ex|former|formerly|once|from|was|instead of|for)(?: an?)?$`)
	})
	undone = sync.OnceValue(func() *regexp.Regexp {
		return regexp.MustCompile(`^(?:removed|deleted|delete|taken off|off|not fitted|disconnected|tank removed|swapped|changed|(?:converted )?to (?:petrol|gasoline|diesel|electric))\b`)
	})
	another = sync.OnceValue(func() *regexp.Regexp {
		return regexp.MustCompile(`^(?:exhaust|manifolds?|risers?|elbow|intercooler|oil|heater)\b`)
	})
)

// described takes from the words in which the vehicle is described what the engine's own
// keys leave open.
func described(text string, keys *section, e *engine.Engine, spec *diag.Spec) {
	text = plainWords(text)
	if text == "" || e == nil {
		return
	}
	var done []string
	for _, t := range toldBy() {
		rotary := e.Kind == engine.Rotary && (slices.Contains(valveKeys, t.key) || t.key == "cycle")
		open := keys.node.get(t.key) == nil && !slices.Contains(done, t.key) && !rotary
		if !open || t.key == "fuel" && spec.Fuel != "" || t.key == "cycle" && spec.TwoStroke || !tells(text, t.words) {
			continue
		}
		t.set(spec, e)
		done = append(done, t.key)
	}
	if spec.Fuel == "petrol" || spec.Fuel == "" {
		spec.AlsoGas = tells(text, alsoGas())
	}
}

// tells reports a fact that a text states of the engine.
func tells(text string, words *regexp.Regexp) bool {
	return slices.ContainsFunc(words.FindAllStringIndex(text, -1), func(at []int) bool {
		before, behind := strings.TrimRight(text[:at[0]], " ,"), strings.TrimLeft(text[at[1]:], " ,")
		return !denied().MatchString(before) && !undone().MatchString(behind) && !another().MatchString(behind)
	})
}
