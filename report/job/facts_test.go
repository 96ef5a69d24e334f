package job

import (
	"math"
	"strings"
	"testing"
	"time"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"

	"github.com/google/go-cmp/cmp"
)

// TestFacts holds what the newer keys come to.
func TestFacts(t *testing.T) {
	test := readFile(t, "facts.yaml").Test()
	spec := diag.Spec{Fuel: "petrol", Camshafts: "one per bank", Lifters: "hydraulic",
		ValveGear: "overhead valves", TimingDrive: "chain", Interference: diag.Yes,
		Cooling: "liquid", Deactivates: []string{"1", "4", "6", "7"}, SharedCoils: [][]string{{"1", "6"}, {"4", "7"}},
		Inverted: diag.No, Hybrid: diag.No, Runs: "rough"}
	history := diag.History{Onset: "slow over months", OilUse: "1 l in 1000 km", Smoke: diag.Smoke{Colour: "blue", When: []string{"start", "overrun"}}}
	tested := diag.Reading{State: diag.Tested}
	c, l := test.Compression, test.Leakage
	for name, pair := range map[string][2]any{
		"spec": {spec, test.Spec}, "history": {history, test.History},
		"not told":             {diag.Reading{State: diag.NotTold, Entered: "read, not told"}, c.Dry["3"]},
		"not told, by whom":    {diag.Reading{State: diag.NotTold, Reason: "by the last shop", Entered: "read, not told (by the last shop)"}, c.Dry["7"]},
		"not told in a list":   {diag.NotTold, c.Wet["2"].State},
		"after it in the list": {[]float64{168}, c.Wet["3"].Values},
		"standard":             {&diag.Standard{Low: 170, High: 190, Unit: quantity.PSI, Entered: "170-190 psi"}, c.Standard},
		"places":               {diag.Leak{Reading: tested, At: []string{"crankcase", "exhaust"}, Most: "crankcase"}, l.Dry["3"]},
		"only where most":      {diag.Leak{Reading: tested, At: []string{"exhaust"}, Most: "exhaust"}, l.Dry["5"]},
		"a bound":              {diag.Leak{Reading: diag.Reading{State: diag.Tested, Values: []float64{20}, Kind: diag.AtLeast, Entered: "over 20 %"}, At: []string{"exhaust"}}, l.Dry["6"]},
		"pump":                 {"electric", test.Fuel.Pump}, "pump heard": {diag.No, test.Fuel.PumpHeard},
		"key on": {&diag.Reading{State: diag.NotTold, Entered: "read, not told"}, test.Fuel.Circuits[0].KeyOn},
		"bores": {map[string]diag.Bore{"3": {Wall: "scored", Crown: "carbon", Valves: "good", Seat: "burnt", Note: "at the front"}, "5": {Valves: "bent"}},
			test.Bores},
		"seen": {map[string]string{"1": "clean", "3": "wall scored; crown carbon; valves good; seat burnt; at the front", "5": "valves bent"}, test.Borescope},
		"not looked": {[]diag.Untested{{Test: "borescope", State: diag.CouldNot, Reason: "no camera", Cylinders: []string{"7"}},
			{Test: "plugs", State: diag.NotTested}}, test.Untested},
		"doubt":     {"reads about 15 % low", test.Gauges.Compression.Doubt},
		"no limits": {0, len(c.Limits)},
	} {
		if diff := cmp.Diff(pair[0], pair[1], near); diff != "" {
			t.Errorf("%s (-want +got):\n%s", name, diff)
		}
	}
	if l.State != diag.Tested || c.State != diag.Tested {
		t.Errorf("leakage %s, compression %s", l.State, c.State)
	}
}

// The readings before the work stand beside the test: its engine, its gauges
// in their own unit, their conditions.
func TestBefore(t *testing.T) {
	now := readFile(t, "facts.yaml").Test()
	b := now.Before
	if b.Done != "new rings on 3" || b.Date.Format(time.DateOnly) != "2026-04-02" {
		t.Errorf("before %+v", b)
	}
	then := b.Test
	if then.Engine != now.Engine || then.Spec.Lifters != "hydraulic" || then.Conditions.Engine != "cold" || now.Conditions.Engine != "" {
		t.Errorf("engine or conditions %+v", then)
	}
	if c := then.Compression; c.Unit != quantity.Bar || c.Dry["3"].Values[0] != 6.2 || len(c.Dry) != 2 {
		t.Errorf("compression %+v", c)
	}
	// 300 psi is 20.684 bar, NIST SP 811 (2008), appendix B.8.
	if g := then.Gauges.Compression; math.Abs(g.High-20.684) > 0.001 || now.Gauges.Compression.High != 300 {
		t.Errorf("gauges %+v, now %+v", g, now.Gauges.Compression)
	}
	if then.Leakage.Dry["3"].Values[0] != 40 || then.Plugs.ByCylinder["3"].Look != "oil-wet" || then.Fuel.Unit != quantity.KPa || then.Rotors != nil {
		t.Errorf("sections %+v %+v %+v", then.Leakage, then.Plugs, then.Fuel)
	}
	rotary := mustRead(t, "engine: {layout: rotary-1}\nrotors: {unit: psi, faces: {1: [100, 101, 99]}}\nbefore: {rotors: {unit: psi, faces: {1: [60, 61, 62]}}}\n").Test()
	if r := rotary.Before.Test.Rotors; r == nil || len(r.Rotors) != 1 || rotary.Before.Test.Compression != nil {
		t.Errorf("rotors %+v", r)
	}
}

// What is noted of the readings before the work is theirs alone.
func TestNoticesBefore(t *testing.T) {
	test := mustRead(t, `engine: {layout: inline-4, fuel: petrol}
compression: {unit: psi, dry: [160, 158, 161, 159]}
before: {compression: {unit: psi, dry: [12, 11.5, 12, "11 psi (1 bar)"]}}
`).Test()
	var rules []string
	for _, n := range test.Before.Test.Noted {
		rules = append(rules, n.Rule)
	}
	if got := strings.Join(rules, " "); got != "units-contradict unit-suspect" || len(test.Noted) != 0 {
		t.Errorf("noted before %s, now %v", got, test.Noted)
	}
}

func TestWordsForFuels(t *testing.T) {
	for word, want := range map[string]string{"petrol": "petrol", "Gasoline": "petrol", "gas": "petrol", "diesel": "diesel", "LPG": "lpg", "cng": "cng",
		"ethanol": "ethanol", "E85": "ethanol", "ethanol (E85)": "ethanol", "two-stroke mix": "two-stroke mix"} {
		spec := mustRead(t, "engine: {layout: inline-2, fuel: "+word+"}\ncompression: {unit: psi, dry: [120, 121]}\n").Test().Spec
		if spec.Fuel != want || spec.TwoStroke != (want == "two-stroke mix") {
			t.Errorf("%s: %+v", word, spec)
		}
	}
	mix := mustRead(t, "engine: {layout: single, fuel: two-stroke mix, cycle: four-stroke}\ncompression: {unit: psi, dry: {1: 120}}\n").Test().Spec
	if mix.TwoStroke {
		t.Error("a four-stroke that burns a mix was read as a two-stroke")
	}
}

func TestCamshafts(t *testing.T) {
	for engine, want := range map[string]string{
		"layout: inline-4, camshafts: one":                                                  "one",
		"layout: inline-4, camshafts: 2":                                                    "two per bank",
		"layout: inline-4, camshafts: two per bank":                                         "two per bank",
		"layout: V6, numbering: across banks, first-bank: left, camshafts: 1":               "one",
		"layout: V6, numbering: across banks, first-bank: left, camshafts: four":            "two per bank",
		"layout: V6, numbering: across banks, first-bank: left, camshafts: one per bank":    "one per bank",
		"layout: V6, numbering: across banks, first-bank: left, camshafts: One  per   Bank": "one per bank",
	} {
		if got := mustRead(t, "engine: {"+engine+"}\ncompression: {unit: psi, dry: {1: 120}}\n").Test().Spec.Camshafts; got != want {
			t.Errorf("%s: '%s', want '%s'", engine, got, want)
		}
	}
}

func TestStandardOfOneFigure(t *testing.T) {
	s := mustRead(t, "engine: {layout: single}\ncompression: {unit: bar, dry: {1: 11}, limits: {standard: 12.1 bar, minimum: 9}}\n").Test().Compression
	if s.Standard.Low != 12.1 || s.Standard.High != 12.1 || s.Standard.Entered != "12.1 bar" || len(s.Limits) != 1 {
		t.Errorf("%+v, limits %v", s.Standard, s.Limits)
	}
}

// A comma ends a value within braces; 'read, not told' is one all the same.
func TestNotTold(t *testing.T) {
	for _, text := range []string{
		"compression: {unit: psi, dry: {1: read, not told, 2: 160}}",
		"compression: {unit: psi, dry: [read, not told, 160]}",
		"compression: {unit: psi, dry: {1: 'Read, not told', 2: 160}}",
		"compression:\n  unit: psi\n  dry:\n    1: read, not told\n    2: 160",
		"compression: {unit: psi, dry: {1: read but not told, 2: 160}}",
		"compression: {unit: psi, dry: {2: 160, 1: read, not told}}",
	} {
		dry := mustRead(t, "engine: {layout: inline-2}\n"+text+"\n").Test().Compression.Dry
		if len(dry) != 2 || dry["1"].State != diag.NotTold || dry["2"].State != diag.Tested {
			t.Errorf("%s: %v", text, dry)
		}
	}
	test := mustRead(t, `engine: {layout: rotary-2}
rotors: {unit: psi, faces: {1: [100, 101, 99], 2: read, not told}}
plugs: {looks: {1: sooty, 2: read, not told}}
leakage: read, not told
not-tested: {fuel-pressure: read, not told}
`).Test()
	if test.Rotors.Rotors[1].State != diag.NotTold || test.Plugs.ByCylinder["2"].State != diag.NotTold || test.Leakage.State != diag.NotTold ||
		test.Fuel.State != diag.NotTold {
		t.Errorf("rotors %+v, plugs %+v, leakage %+v, fuel %+v", test.Rotors, test.Plugs, test.Leakage, test.Fuel)
	}
}

func TestBorescopeNotUsed(t *testing.T) {
	test := mustRead(t, "engine: {layout: inline-2}\ncompression: {unit: psi, dry: [160, 158]}\nborescope: could not test (no camera)\n").Test()
	if len(test.Borescope) != 0 || test.Untested[0].Test != "borescope" || test.Untested[0].Reason != "no camera" {
		t.Errorf("%v %v", test.Borescope, test.Untested)
	}
}

// TestDatesOfTheFuture: a job is read on a day that it is told, never by the
// clock.
func TestDatesOfTheFuture(t *testing.T) {
	today := time.Date(2026, 5, 14, 23, 0, 0, 0, time.FixedZone("east", 12*3600))
	for _, tt := range []struct{ date, want string }{
		{"2026-05-14", ""},
		{"2025-12-31", ""},
		{"2026-05-15", "job.yaml:1:13: 'job.date' is '2026-05-15', in the future: today is 2026-05-14\n  hint: did you mean 2025-05-15?\n"},
		{"2026-12-04", "job.yaml:1:13: 'job.date' is '2026-12-04', in the future: today is 2026-05-14\n  hint: did you mean 2026-04-12?\n"},
		{"2027-05-02", "job.yaml:1:13: 'job.date' is '2027-05-02', in the future: today is 2026-05-14\n  hint: did you mean 2026-05-02?\n"},
		{"2028-02-29", "job.yaml:1:13: 'job.date' is '2028-02-29', in the future: today is 2026-05-14\n  hint: nothing was tested after today\n"},
	} {
		text := "job: {date: " + tt.date + "}\nengine: {layout: single}\ncompression: {unit: psi, dry: {1: 160}}\n"
		_, problems := Reader{Today: today}.Read("job.yaml", []byte(text))
		var b strings.Builder
		if err := problems.Print(&b, false); err != nil || b.String() != tt.want {
			t.Errorf("%s:\n%swant\n%s%v", tt.date, b.String(), tt.want, err)
		}
		mustRead(t, text) // without a day nothing is held against it
	}
	_, problems := Reader{Today: today}.Read("job.yaml", []byte(`engine: {layout: single}
gauges: {compression: {checked: 2026-06-01}}
compression: {unit: psi, dry: {1: 160}}
before: {date: 2026-07-01, compression: {unit: psi, dry: {1: 90}}}
`))
	if len(problems) != 2 {
		t.Errorf("%v", problems)
	}
}

// A reading a little above its gauge's scale is a notice.
func TestNoticeBeyondTheGauge(t *testing.T) {
	test := mustRead(t, "engine: {layout: inline-2, fuel: diesel}\ngauges: {compression: {range: 0-300 psi}}\ncompression: {unit: psi, dry: [290, 320]}\n").Test()
	if len(test.Noted) != 1 || test.Noted[0].Rule != "reading-beyond-gauge" || test.Noted[0].Cylinders[0] != "2" || test.Noted[0].Facts["range"] != "0-300\u00a0psi" {
		t.Errorf("%v", test.Noted)
	}
}

func TestSchemaTakesTheNewerWords(t *testing.T) {
	s := compile(t, "")
	for _, text := range []string{
		"engine: {layout: inline-4, fuel: gasoline}\ncompression: read, not told",
		"engine: {layout: inline-4}\nborescope: {1: clean, 2: {wall: scored}}",
		"engine: {layout: inline-4}\nleakage: {dry: {3: {at: [oil filler], most: tailpipe}}}",
		"engine: {layout: inline-4}\nbefore: {done: rings, leakage: declined, compression: {unit: psi, dry: [1, 2, 3, 4]}}",
	} {
		if err := s.Validate(value(t, exampleValue(text+"\nplugs: {looks: {all: normal}}"))); err != nil {
			t.Errorf("%s: %v", text, err)
		}
	}
	for _, text := range []string{
		"engine: {layout: inline-4, fuel: kerosene}",
		"engine: {layout: inline-4, shared-coils: [[1], [2, 3]]}",
		"engine: {layout: inline-4}\nborescope: {1: {wall: worn}}",
		"engine: {layout: inline-4}\nbefore: {work: rings}",
		"engine: {layout: inline-4}\nsmoke: {colour: grey}",
	} {
		if s.Validate(value(t, exampleValue(text+"\nplugs: {looks: {all: normal}}"))) == nil {
			t.Errorf("%s: taken", text)
		}
	}
}

// TestFuelShown: a supply or tests that only a diesel has tell the fuel, where the
// job does not.
func TestFuelShown(t *testing.T) {
	const readings = "\ncompression: {unit: psi, dry: [250, 252, 249, 251]}\n"
	for text, want := range map[string]string{
		"engine: {layout: inline-4}\nfuel-pressure: {unit: psi, system: lift pump, idle: 12}":           "diesel",
		"engine: {layout: inline-4}\ndiesel: {glow: {1: 0.6, 2: 0.7, 3: 0.6, 4: 0.6}}":                  "diesel",
		"engine: {layout: inline-4}\nfuel-pressure: {unit: psi, system: 'port, return line', idle: 42}": "",
		"engine: {layout: inline-4, fuel: petrol}\ndiesel: {glow: {1: 0.6, 2: 0.7, 3: 0.6, 4: 0.6}}":    "petrol",
		"engine: {layout: inline-4}\ndiesel: not tested":                                                "",
	} {
		if got := mustRead(t, text+readings).Test().Spec.Fuel; got != want {
			t.Errorf("%s: the fuel is %q, expected %q", text, got, want)
		}
	}
}
