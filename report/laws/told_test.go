package laws_test

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// An engineMade is an engine of a kind, with the tests that can be made on it and found in order.
type engineMade struct {
	name, text string
	cylinders  int
	fuel       string // the section on its fuel pressure, "" for none
}

var enginesMade = []engineMade{
	{"injected four", "engine: {layout: inline-4, fuel: petrol}\n", 4, `fuel-pressure: {unit: psi, system: "port, return line", key-on: 41, idle: 33, limits: {key-on: 38-44 psi, idle: 30-36 psi}}`},
	{"V8 with a carburetor", "engine: {layout: V8, numbering: across banks, first-bank: left, fuel: petrol}\n", 8, `fuel-pressure: {unit: psi, system: carburettor, idle: 5.5, limits: {idle: 5-6 psi}}`},
	{"diesel", "engine: {layout: inline-4, fuel: diesel}\n", 4, `fuel-pressure: {unit: psi, system: "diesel, lift pump", idle: 8, limits: {idle: 6-10 psi}}`},
	{"two-stroke", "engine: {layout: inline-2, fuel: two-stroke mix, cooling: air}\n", 2, ""},
	{"rotary", "engine: {layout: rotary-2, fuel: petrol}\n", 2, `fuel-pressure: {unit: psi, system: "port, return line", key-on: 41, limits: {key-on: 38-44 psi}}`},
	{"air-cooled single", "engine: {layout: single, fuel: petrol, cooling: air}\n", 1, `fuel-pressure: {unit: psi, system: carburettor, idle: 3, limits: {idle: 2.5-3.5 psi}}`},
	{"radial", "engine: {layout: radial-5, fuel: petrol, cooling: air}\n", 5, `fuel-pressure: {unit: psi, system: carburettor, idle: 5.5, limits: {idle: 5-6 psi}}`},
	{"turbo diesel truck", "engine: {layout: inline-6, fuel: turbo diesel, displacement: 12 L}\nvehicle: {description: truck}\n", 6, ""},
	{"gas engine", "engine: {layout: inline-4, fuel: lpg}\n", 4, ""},
}

// testsMade are tests, each in order by a limit of its own; @ stands for a reading of each cylinder.
var testsMade = []struct {
	name, text string
	but        string // engines that do not have it
}{
	{"compression", "compression: {unit: psi, dry: @160, limits: {minimum: 120 psi}}", "diesel|truck|rotary"},
	{"compression", "compression: {unit: psi, dry: @400, limits: {minimum: 300 psi}}", "four|V8|two|rotary|single|radial|gas"},
	{"rotors", "rotors: {unit: psi, faces: {1: [110, 111, 110], 2: [111, 110, 110]}, limits: {minimum: 85 psi}}", "four|V8|diesel|two|single|radial|truck|gas"},
	{"leakage", "leakage: {dry: @6 % loss, limit: 20 %}", "rotary"},
	{"plugs", "plugs: {looks: {all: normal}}", "diesel|truck|rotary"},
	{"oil-pressure", "oil-pressure: {unit: psi, gauge: screwed in, oil: {level: right}, idle: {reading: 22, at: 750 rpm}, at-speed: {3000 rpm: 55}, limits: {idle: at least 10, 3000 rpm: 44-78}}", "two"},
	{"starting", "starting: {battery: {rest: 12.6 V, cranking: 10.8 V}, cranking: 215 rpm, draw: 190 A, limits: {draw: 180-220 A, battery: at least 9.6 V, cranking: at least 200 rpm}}", ""},
	{"vacuum", "vacuum: {unit: inHg, idle: {reading: 19, needle: steady}, limits: {idle: 17-21 inHg}}", "diesel|truck|two|rotary"},
	{"balance", "balance: {at: 1000 rpm, idle-control: held, drop: @90}", "two|single|rotary"},
	{"magnetos", "magnetos: {at: 1800 rpm, left: 90, right: 80, limits: {drop: 150, difference: 50}}", "four|V8|diesel|two|rotary|single|truck|gas"},
	{"injectors", "injectors: {unit: ml/min, before: @210, limits: {before: 200-220}}", "V8|diesel|two|rotary|single|radial|truck|gas"},
	{"trims", "trims: {idle: {bank 1: {short: 1, long: 2}}, 2500 rpm: {bank 1: {short: 1, long: 1}}}", "V8|diesel|two|single|radial|truck|gas"},
	{"exhaust-gas", "exhaust-gas: {idle: {co: 0.4 %, hc: 80 ppm, co2: 14.8 %, o2: 0.6 %}, limits: {co: 1.2 %, hc: 220 ppm}}", "diesel|truck|two"},
	{"crankcase", "crankcase: {unit: inH2O, ventilation: blocked, readings: {2500 rpm: 1.5}, limits: {2500 rpm: at most 4}}", "two|rotary"},
	{"crankcase-hold", "crankcase-hold: {unit: psi, pumped-to: 6, hold: {10 min: 5.9}, limits: {fall: at most 0.5 psi}}", "four|V8|diesel|rotary|single|radial|truck|gas"},
	{"back-pressure", "back-pressure: {unit: psi, 2500 rpm: 0.8, limits: {2500 rpm: at most 3 psi}}", "two"},
	{"timing", "timing: {base: 6 deg before at 700 rpm, limits: {base: 5-7 deg}}", "diesel|truck|two|rotary"},
	{"diesel", "diesel: {return: {unit: ml, cylinders: @12}, limits: {return: at most 40}}", "four|V8|two|rotary|single|radial|gas"},
	{"glow plugs", "diesel: {glow: @0.6, limits: {glow: 0.4-0.9}}", "four|V8|two|rotary|single|radial|gas"},
	{"cooling", "cooling: {pressure-test: {unit: psi, pumped-to: 15, hold: {10 min: 15}, seen: dry}}", "two|single|radial"},
	{"thermostat", "cooling: {thermostat: {rated: 180 F, starts: 181 F, open: 200 F}}", "two|single|radial"},
	{"coolant-gas-test", "coolant-gas-test: {result: negative, engine: hot, minutes: 10}", "two|single|radial"},
	{"valves", "valves: {unit: mm, inlet: @0.20, exhaust: @0.30, limits: {inlet: 0.15-0.25, exhaust: 0.25-0.35}}", "two|rotary"},
	{"borescope", "borescope: @{wall: good, crown: good, valves: good}", "two|rotary"},
	{"other-readings", "other-readings: [{name: charging voltage, reading: 14.2 V, limit: 13.8-14.6 V}]", ""},
}

// A telling is a way of telling that something is wrong, with a word by which it is answered.
type telling struct {
	text, answer string
	but          string // engines that cannot have it
	usual        string // engines of which it is usual, so that it is answered and asks for nothing
}

var tellings = func() []telling {
	list := []telling{
		{text: "job: {oil-use: 1 l in 1000 km}", answer: "oil use"}, {text: "engine.runs: rough", answer: "rough"}, {text: "engine.runs: does not run", answer: "start"},
		{text: `findings: ["knock at the block"]`, answer: "noise"}, {text: `findings: ["smells of fuel"]`, answer: "rich"}, {text: `findings: ["engine light flashes"]`, answer: "misfir", but: "diesel|truck"},
		{text: `findings: ["oil light comes on at idle"]`, answer: "oil pressure light", but: "two|rotary"}, {text: `findings: ["overheats on the hill"]`, answer: "overheat"}, {text: `findings: ["misfires under load"]`, answer: "misfir"},
		{text: `findings: ["blue smoke on the overrun"]`, answer: "blue smoke"}, {text: `vehicle: {state-on-arrival: "smokes white, loses coolant"}`, answer: "coolant"}, {text: `job: {onset: "began to knock on the motorway"}`, answer: "noise"},
		{text: "vehicle: {codes: [P0217]}", answer: "overheat"}, {text: "vehicle: {codes: [P0524]}", answer: "oil pressure light", but: "two|rotary"}, {text: "vehicle: {codes: [P0301]}", answer: "misfir"},
	}
	for _, code := range []string{"P0016", "P0087", "P0128", "P0171", "P0172", "P0201", "P0299", "P0335", "P0351", "P0401", "P0420", "P0562", "P0671", "P1234"} {
		list = append(list, telling{text: "vehicle: {codes: [" + code + "]}", answer: code, but: "two|single|radial"})
	}
	for colour, usual := range map[string]string{"blue": "radial", "white": "four|V8|two|rotary|single|radial|gas", "black": ""} {
		list = append(list, telling{text: "smoke: {colour: " + colour + "}", answer: "smoke|rich"})
		for _, when := range []string{"start", "idle", "load", "overrun", "always"} {
			one := telling{text: fmt.Sprintf("smoke: {colour: %s, when: [%s]}", colour, when), answer: "smoke|rich"}
			if when == "start" {
				one.usual = usual
			}
			list = append(list, one)
		}
	}
	for c := range answers {
		if c != "stood" {
			list = append(list, telling{text: fmt.Sprintf("job: {complaints: [%s]}", c), answer: c, but: map[string]string{"coolant loss": "two|single|radial"}[c]})
		}
	}
	return list
}()

// isOf tells that an engine is one of those that some words name.
func (e *engineMade) isOf(words string) bool {
	return words != "" && slices.ContainsFunc(strings.Split(words, "|"), func(w string) bool { return strings.Contains(e.name, w) })
}

// with is a job of the engine with one test made on it, of which this is told.
func (e *engineMade) with(test string, told telling) string {
	text := e.text
	if runs, ok := strings.CutPrefix(told.text, "engine.runs: "); ok {
		text = strings.Replace(text, "layout:", "runs: "+runs+", layout:", 1)
	} else if rest, ok := strings.CutPrefix(told.text, "vehicle: {"); ok && strings.Contains(text, "vehicle: {") {
		text = strings.Replace(text, "vehicle: {", "vehicle: {"+strings.TrimSuffix(rest, "}")+", ", 1)
	} else {
		text += told.text + "\n"
	}
	return text + eachOf(test, e.cylinders) + "\n"
}

// eachOf writes what follows an @ in a test for each cylinder.
func eachOf(test string, cylinders int) string {
	before, rest, there := strings.Cut(test, "@")
	if !there {
		return test
	}
	end := strings.IndexAny(rest, ",}")
	if strings.HasPrefix(rest, "{") {
		end = strings.Index(rest, "}") + 1
	}
	if end < 0 {
		end = len(rest)
	}
	var parts []string
	for i := range cylinders {
		parts = append(parts, fmt.Sprintf("%d: %s", i+1, rest[:end]))
	}
	return eachOf(before+"{"+strings.Join(parts, ", ")+"}"+rest[end:], cylinders)
}

// TestToldIsAnswered holds law T8 against every way in which something is told and every test
// that is made alone and finds nothing: the sheet names what was told, asks for something, and
// has a check that begins to answer it.
func TestToldIsAnswered(t *testing.T) {
	n := 0
	for _, e := range enginesMade {
		tests := testsMade
		if e.fuel != "" {
			tests = append(slices.Clone(tests), struct{ name, text, but string }{"fuel-pressure", e.fuel, ""})
		}
		for _, test := range tests {
			if e.isOf(test.but) {
				continue
			}
			for _, told := range tellings {
				if n++; testing.Short() && n%10 != 0 || e.isOf(told.but) {
					continue
				}
				e.answers(t, test.name, e.with(test.text, told), told)
			}
		}
	}
}

// answers holds one job against the law.
func (e *engineMade) answers(t *testing.T, test, text string, told telling) {
	j, problems := reader.Read("job.yaml", []byte(text))
	if len(problems) > 0 {
		t.Fatalf("%v\n%s", problems, text)
	}
	s := &subject{d: judge(j.Test())}
	if err := s.put(j); err != nil {
		t.Fatal(err)
	}
	fail := func(format string, args ...any) {
		t.Helper()
		report(t, "T8 told is answered", "%s, only %s, %s: %s", e.name, test, told.text, fmt.Sprintf(format, args...))
	}
	words := answers[told.answer]
	if words == nil {
		words = regexp.MustCompile("(?i)" + told.answer)
	}
	if !words.MatchString(s.allText()) {
		fail("answered nowhere")
	}
	if e.isOf(told.usual) {
		return
	}
	if rank(s.out.Verdict.Urgency) == 0 {
		fail("%q: %q", s.out.Verdict.Urgency, s.out.Verdict.Sentence)
	}
	if s.out.Verdict.NextCheck == nil && s.repair() == "" && test != "magnetos" { // a flying engine is not flown to see whether a code comes back
		fail("no check begins to answer it: %q", s.out.Verdict.Sentence)
	}
}
