package job

import (
	"strings"
	"testing"
)

// TestCannotBe: law by law, what no test of an engine can read is answered with
// what was probably meant, in every section, and what it can read is taken.
func TestCannotBe(t *testing.T) {
	const head = "engine: {layout: inline-4, fuel: petrol}\n"
	for _, tt := range []struct{ text, hint string }{
		{"oil-pressure: {unit: psi, idle: 160, at-speed: {2000 rpm: 600}}", "did you mean 60"},
		{"oil-pressure: {unit: psi, idle: 300}", "did you mean 30 or 300 kPa?"},
		{"oil-pressure: {unit: bar, idle: -1}", "did you mean 1? it is written without a sign"},
		{"vacuum: {unit: inHg, idle: 185}", "did you mean 18.5"},
		{"crankcase-hold: {unit: psi, pumped-to: -7}", "of a vacuum say 'under: vacuum'"},
		{"vacuum: {unit: inHg, idle: -18}", "did you mean 18? it is written without a sign"},
		{"vacuum: {unit: kPa, idle: 600}", "did you mean 60 or 600 hPa?"},
		{"cooling: {cap: {rated: 150 psi}}", "did you mean 15"},
		{"cooling: {thermostat: {rated: 1800 F}}", "did you mean 180?"},
		{"valves: {unit: mm, inlet: {1: 20, 2: 0.2, 3: 0.2, 4: 0.2}}", "did you mean 0.2?"},
		{"valves: {unit: mm, inlet: {1: 2.0, 2: 0.2, 3: 0.2, 4: 0.2}}", "did you mean 0.2?"},
		{"valves: {unit: in, inlet: {1: 8, others: 0.008}}", "did you mean 0.008"},
		{"balance: {at: 10000 rpm, speed: {1: 930}}", ""},
		{"balance: {at: 1000 rpm, speed: [930, 9300, 940, 935]}", "did you mean 930?"},
		{"injectors: {unit: ml/min, before: [210, 2110, 208, 206]}", "did you mean 211?"},
		{"trims: {idle: {bank 1: {short: 120}}}", "did you mean 12?"},
		{"exhaust-gas: {idle: {co: 40 %, co2: 146 %}}", "did you mean 4?"},
		{"crankcase: {unit: inH2O, readings: {idle: 1500}}", "did you mean 15?"},
		{"starting: {battery: {rest: 126 V}}", "did you mean 12.6?"},
		{"starting: {draw: 16500 A}", "did you mean 165"},
		{"back-pressure: {unit: psi, idle: 160}", "did you mean 1.6"},
		{"timing: {base: 100 deg before}", "did you mean 10?"},
		{"timing: {points-gap: 16 in}", "did you mean 0.016?"},
		{"diesel: {nozzles: {opening: {1: 18000 bar}}}", "did you mean 180?"},
		{"gauges: {oil: {range: 0-100 psi}}\noil-pressure: {unit: psi, idle: 120}", "write 'over 100 psi' where the needle went past the end"},
		{"leakage: {loss: [8, 9, 150, 8]}", "did you mean 15 %?"},
		{"conditions: {battery: {rest: 126 V}}", "did you mean 12.6 V?"},
		{"conditions: {cranking: 2100 rpm}", "did you mean 210 rpm?"},
		{"magnetos: {at: 1800 rpm, left: 9000, right: 48}", "did you mean 90"},
		{"magnetos: {at: 1800 rpm, left: -90}", "did you mean 90?"},
		{"magnetos: {at: 180 rpm, left: 190, right: 60}", "look at both figures again"},
		{"balance: {at: 1000 rpm, drop: {1: 70, 2: 90, 3: 1010}}", "look at both figures again"},
		{"heads: {unit: F, 1: 3310, 2: 325, 3: 320, 4: 328}", "did you mean 331?"},
		{"heads: {unit: C, 1: 1660, 2: 165, 3: 160, 4: 164}", "did you mean 166?"},
		{"crankcase-hold: 600 psi to 5.5 in 10 min", "did you mean 6 or 600 hPa?"},
		{"heads: {unit: F, 1: 331, 2: 70, 3: 320, 4: 328}", ""}, // dead, and may be true
		{"magnetos: {at: 1800 rpm, left: 1800, right: 60}", ""}, // it stopped
		{"oil-pressure: {unit: psi, idle: 16, cold-idle: 95, at-speed: {3000 rpm: 120}}", ""},
		{"vacuum: {unit: inHg, idle: 29}", ""},
		{"exhaust-gas: {idle: {co: 9 %, hc: 9000 ppm}}", ""},
		{"valves: {unit: mm, inlet: [0.2, 0.9, 0.2, 0.2]}", ""}, // loose, and may be true
		{"diesel: {return: {unit: ml, cylinders: [5, 60, 6, 5]}}", ""},
	} {
		_, problems := Read("job.yaml", []byte(head+"compression: {unit: psi, dry: [150, 150, 150, 150]}\n"+tt.text+"\n"), nil)
		switch {
		case tt.hint == "" && len(problems) > 0:
			t.Errorf("%s: %v", tt.text, problems)
		case tt.hint != "" && (len(problems) == 0 || !strings.Contains(problems[len(problems)-1].Hint+problems[0].Hint, tt.hint)):
			t.Errorf("%s: want the hint %q, got %+v", tt.text, tt.hint, problems)
		}
	}
}
