package check

import (
	"encoding/json"
	"errors"
	"io"
	"strconv"
	"strings"
	"testing"
	"unicode"

	"github.com/google/go-cmp/cmp"

	"gaugesheet/diag"
	"gaugesheet/diag/rule"
	"gaugesheet/diag/story"
	"gaugesheet/report/job"
)

func read(t *testing.T, text string) (*job.Job, *diag.Diagnosis) {
	t.Helper()
	j, problems := job.Read("job.yaml", []byte(text), nil)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	return j, story.Diagnose(j.Test())
}

// result is a job's result as another program has it.
func result(t *testing.T, text string) any {
	t.Helper()
	r, err := Of(read(t, text))
	if err != nil {
		t.Fatal(err)
	}
	data, err := JSON(r)
	if err != nil {
		t.Fatal(err)
	}
	var v any
	if err := json.Unmarshal(data, &v); err != nil {
		t.Fatal(err)
	}
	return v
}

// at gives the value at a path such as "compression.limits.0.verdict".
func at(t *testing.T, v any, path string) any {
	t.Helper()
	for _, step := range strings.Split(path, ".") {
		switch node := v.(type) {
		case map[string]any:
			next, ok := node[step]
			if !ok {
				t.Fatalf("%s: there is no %q", path, step)
			}
			v = next
		case []any:
			i, err := strconv.Atoi(step)
			if err != nil || i >= len(node) {
				t.Fatalf("%s: there is no %q", path, step)
			}
			v = node[i]
		default:
			t.Fatalf("%s: nothing has %q", path, step)
		}
	}
	return v
}

const everything = `job: {number: W-1, date: 2026-05-14}
engine: {layout: V8, numbering: across banks, first-bank: left, firing-order: 1-8-4-3-6-5-7-2}
gauges: {compression: {range: 0-300 psi, accuracy: 2 % of span, division: 5 psi}}
compression:
  unit: psi
  first: {1: 90}
  dry: {1: [159, 161], 2: 158, 3: 62, 4: about 155, 5: 150-155, 6: not tested, 7: could not test (plug seized), 8: 157}
  wet: {3: 90, 1: 172}
  limits: {minimum: 128 psi, spread: 10 % of highest}
leakage: {limit: 20 %, dry: {3: {loss: 34 %, at: [exhaust]}, 5: 72/80}}
plugs: {looks: {1: normal, 3: {look: oil-wet, gap: 1.3 mm}}}
fuel-pressure: {unit: psi, key-on: 31, idle: 30, hose-off: 38, hold: {5 min: 21}, limits: {key-on: 38-44 psi}}
`

func TestResult(t *testing.T) {
	tests := []struct {
		name, job string
		want      map[string]any
	}{
		{
			// US Army TM 5-3895-359-14&P, table 1-2 with its worked example: every
			// cylinder is over the minimum, number 3 has to be looked at, for the
			// readings may differ by no more than 25 psi.
			name: "worked example of a two-stroke diesel",
			job: `engine: {layout: inline-4, fuel: diesel, cycle: two-stroke}
compression: {unit: psi, dry: [445, 440, 405, 435], limits: {difference: 25 psi}}
`,
			want: map[string]any{
				"engine.layout": "inline-4", "compression.state": "tested", "compression.unit": "psi",
				"compression.highest": 445.0, "compression.lowest": 405.0, "compression.lowest_at": "3", "compression.difference": 40.0,
				"compression.lowest_percent_of_highest": 91.0, "compression.limits.0.rule": "difference",
				"compression.limits.0.limit": 25.0, "compression.limits.0.value": 40.0, "compression.limits.0.verdict": "outside",
				"compression.limits.0.cylinder": "3", "compression.limits.0.limit_as_entered": "25 psi", "compression.altitude_factor": nil,
				"leakage": map[string]any{"state": "not tested"}, "fuel_pressure": map[string]any{"state": "not tested"},
				"plugs": map[string]any{"state": "not tested"}, "rotors": map[string]any{"state": "not tested"},
			},
		},
		{
			name: "what was read before the work",
			job: `engine: {layout: inline-4, fuel: petrol}
compression: {unit: psi, dry: [160, 158, 161, 159]}
before: {done: new rings in 3, date: 2026-04-01, compression: {unit: psi, dry: [161, 159, 96, 160]}, leakage: declined, oil-pressure: {unit: psi, idle: 12}}
`,
			want: map[string]any{
				"before.state": "tested", "before.done": "new rings in 3", "before.date": "2026-04-01", "before.compression.lowest": 96.0,
				"before.compression.cylinders.2.grade": "low", "before.leakage.state": "declined", "before.plugs.state": "not tested",
				"before.oil_pressure.readings.0.value": 12.0, "compression.lowest": 158.0,
			},
		},
		{
			name: "two magnetos, the heads and a section that the job lacks",
			job: `engine: {layout: flat-4, numbering: across banks, first-bank: right, fuel: petrol}
magnetos: {at: 1800 rpm, left: 90, right: 48, limits: {drop: 150, difference: 50}}
heads: {unit: F, magneto: left, 1: 331, 2: 325, 3: 205, 4: 328}
`,
			want: map[string]any{
				"magnetos.state": "tested", "magnetos.readings.1.name": "left", "magnetos.readings.1.value": 90.0, "magnetos.readings.1.limit_high": 150.0, "magnetos.readings.1.verdict": "within",
				"magnetos.readings.3.name": "difference", "magnetos.readings.3.value": 42.0, "magnetos.readings.3.limit_high": 50.0, "magnetos.readings.3.verdict": "within",
				"heads.unit": "F", "heads.words.magneto": "left", "heads.cylinders.2.cylinder": "3", "heads.cylinders.2.temperature": 205.0,
				"crankcase_hold": map[string]any{"state": "not tested"},
			},
		},
		{
			name: "one cylinder has no value for a rule between cylinders",
			job: `engine: {layout: single}
compression: {unit: psi, dry: {1: 120}}
`,
			want: map[string]any{
				"compression.published_rules.0.name": "lowest at least 75 % of highest", "compression.published_rules.0.verdict": "not judged",
				"compression.published_rules.0.value": nil, "compression.published_rules.1.name": "at least 85 psi",
				"compression.published_rules.1.verdict": "within", "compression.published_rules.1.value": 120.0, "compression.limits.0.value": nil,
			},
		},
		{
			name: "a held pressure under the limit before its time",
			job: `engine: {layout: inline-4}
fuel-pressure: {unit: psi, system: "port, return line", key-on: 41, hold: {3 min: 25}, limits: {hold: at least 30 psi after 5 min}}
`,
			want: map[string]any{
				"fuel_pressure.hold.0.limit_low": 30.0, "fuel_pressure.hold.0.verdict": "outside",
			},
		},
		{
			name: "tests that were not made",
			job: `engine: {layout: inline-2}
compression: {dry: {1: declined, 2: could not test (plug seized)}}
borescope: {1: clean}
plugs: not applicable
not-tested: {leakage: declined by the customer, fuel-pressure: could not test (no port)}
`,
			want: map[string]any{
				"leakage":       map[string]any{"state": "declined", "reason": "declined by the customer"},
				"plugs":         map[string]any{"state": "not applicable"},
				"fuel_pressure": map[string]any{"state": "could not test", "reason": "no port"},
				"rotors":        map[string]any{"state": "not tested"},

				"compression.state": "not tested", "compression.cylinders.0.state": "declined",
				"compression.cylinders.1.state": "could not test", "compression.cylinders.1.reason": "plug seized",
			},
		},
		{
			name: "the same readings on every basis", // arithmetic
			job:  "engine: {layout: inline-4}\ncompression: {unit: psi, dry: [150, 135, 148, 152]}\n",
			want: map[string]any{
				"compression.mean": 146.3, "compression.median": 149.0, "compression.spread_percent_of_highest": 11.2,
				"compression.lowest_percent_of_highest": 88.8, "compression.lowest_percent_below_mean": 7.7,
				"compression.limits.0.rule": "spread of highest", "compression.limits.0.limit": 10.0, "compression.limits.0.unit": "%",
				"compression.cylinders.1.percent_of_highest": 88.8, "compression.cylinders.1.wet": nil,
			},
		},
		{
			name: "every kind of reading", job: everything,
			want: map[string]any{
				"engine.banks.1.name": "right", "engine.banks.1.cylinders": []any{"2", "4", "6", "8"},
				"engine.neighbours.0": []any{"1", "3"}, "engine.heads.0": []any{"1", "3", "5", "7"},
				"compression.cylinders.0.entered": "[159, 161]", "compression.cylinders.0.dry": 160.0,
				"compression.cylinders.0.dry_readings": []any{159.0, 161.0}, "compression.cylinders.0.first": 90.0,
				"compression.cylinders.2.wet_rise": 28.0, "compression.cylinders.3.kind": "estimate",
				"compression.cylinders.4.kind": "band", "compression.cylinders.4.dry": 152.5,
				"compression.cylinders.5.state": "not tested", "compression.cylinders.5.dry": nil, "compression.cylinders.5.dry_readings": []any{},
				"compression.cylinders.6.state": "could not test", "compression.cylinders.6.reason": "plug seized",
				"compression.complete":             false,
				"leakage.cylinders.2.loss_percent": 34.0, "leakage.cylinders.2.at": []any{"exhaust"},
				"leakage.cylinders.4.loss_percent": 10.0, "leakage.cylinders.4.entered": "72/80", "leakage.cylinders.4.at": []any{},
				"plugs.cylinders.2.look": "oil-wet", "plugs.cylinders.2.gap_mm": 1.3,
				"fuel_pressure.readings.0.name": "key-on", "fuel_pressure.readings.0.circuit": "", "fuel_pressure.readings.0.limit_low": 38.0,
				"fuel_pressure.readings.0.limit_high": 44.0, "fuel_pressure.readings.0.verdict": "outside",
				"fuel_pressure.injector_flow_percent": 87.0, // 100 sqrt(31/41)
				"fuel_pressure.regulator_rise":        8.0, "fuel_pressure.hold.0.minutes": 5.0, "fuel_pressure.hold.0.value": 21.0,
				"fuel_pressure.circuits.0.name": "",
			},
		},
		{
			name: "a rotary",
			job:  "engine: {layout: rotary-2}\nrotors: {unit: kgf/cm2, cranking: 250 rpm, faces: {front: [7.4, 7.2, 7.3], rear: [7.0, 6.9, 5.1]}}\n",
			want: map[string]any{
				"rotors.state": "tested", "rotors.unit": "kgf/cm2", "rotors.faces.1.rotor": "rear",
				"rotors.faces.1.values": []any{7.0, 6.9, 5.1}, "rotors.faces.1.difference": 1.9,
				"engine.rotors": []any{"front", "rear"}, "compression": map[string]any{"state": "not tested"},
			},
		},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got := result(t, tt.job)
			for path, want := range tt.want {
				if diff := cmp.Diff(want, at(t, got, path)); diff != "" {
					t.Errorf("%s (-want +got):\n%s", path, diff)
				}
			}
		})
	}
}

// mayBeNull are the entries that are a number or a check, or nothing.
var mayBeNull = map[string]bool{
	"first": true, "dry": true, "again": true, "wet": true, "wet_rise": true, "wet_rise_percent": true, "percent_of_highest": true,
	"percent_from_median": true, "expected": true, "altitude_factor": true, "limit": true, "loss_percent": true, "wet_loss_percent": true,
	"gap_mm": true, "limit_low": true, "limit_high": true, "next_check": true, "value": true, "uncertainty": true,
	"injector_flow_percent": true, "regulator_rise": true, "about": true, "next": true,
}

func TestListsAreNeverNull(t *testing.T) {
	var walk func(path string, v any)
	walk = func(path string, v any) {
		switch node := v.(type) {
		case map[string]any:
			for key, value := range node {
				if value == nil && !mayBeNull[key] {
					t.Errorf("%s.%s is null", path, key)
				}
				walk(path+"."+key, value)
			}
		case []any:
			for i, value := range node {
				walk(path+"."+strconv.Itoa(i), value)
			}
		case string:
			if strings.Contains(node, "\u00a0") {
				t.Errorf("%s has a space that no keyboard has: %q", path, node)
			}
		}
	}
	walk("", result(t, everything))
	walk("", result(t, "engine: {layout: single}\nleakage: {dry: {1: not tested}}\nplugs: {looks: {1: normal}}\n"))
}

func TestText(t *testing.T) {
	j, d := read(t, everything)
	var b strings.Builder
	if err := Text(&b, j, d); err != nil {
		t.Fatal(err)
	}
	text := b.String()
	for _, want := range []string{
		"W-1, 2026-05-14, V8\n", "urgency: " + string(d.Urgency) + "\n", "159, 161", "could not test (plug seized)",
		"\nLeakage, % of the supply lost\n", "72/80", "\nPlugs\n", "oil-wet", "\nFuel pressure, psi\n", "38-44 psi", "regulator rise 8 psi",
		"injector flow 87 %", "\nFindings\n", "\nNext check\n", "\nCautions\n",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("the text lacks %q:\n%s", want, text)
		}
	}
	for i, line := range strings.Split(text, "\n") {
		if strings.ContainsFunc(line, unicode.IsControl) || strings.HasSuffix(line, " ") {
			t.Errorf("line %d has a control character or ends in a space: %q", i+1, line)
		}
	}
}

func TestExplain(t *testing.T) {
	j, _ := read(t, everything)
	var b strings.Builder
	if err := Explain(&b, j, ""); err != nil {
		t.Fatal(err)
	}
	for _, r := range rule.All() {
		if !strings.Contains(b.String(), r.Name) {
			t.Errorf("nothing is said of the rule %s", r.Name)
		}
	}
	var unknown *UnknownCylinder
	if err := Explain(io.Discard, j, "9"); !errors.As(err, &unknown) || unknown.Name != "9" {
		t.Errorf("the error for cylinder 9 is %v", err)
	}
}

func TestNumbers(t *testing.T) {
	tests := []struct {
		got  *float64
		want float64
	}{
		{number(0.1 + 0.2), 0.3}, {number(162.44312345678), 162.4431235}, {number(0), 0}, {number(-12.5), -12.5},
		{percent(11.184), 11.2}, {percent(-0.04), 0}, {decimals(0.83195, 4), 0.832},
	}
	for i, tt := range tests {
		if tt.got == nil || *tt.got != tt.want {
			t.Errorf("number %d is %v, want %v", i, tt.got, tt.want)
		}
	}
}
