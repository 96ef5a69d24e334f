package job

import (
	"encoding/json"
	"os"
	"reflect"
	"strings"
	"testing"
	"time"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"

	"github.com/google/go-cmp/cmp"
)

func readFile(t *testing.T, name string) *Job {
	t.Helper()
	data, err := os.ReadFile("testdata/ok/" + name)
	if err != nil {
		t.Fatal(err)
	}
	j, problems := Read(name, data, beside("testdata/ok"))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	return j
}

func TestIdentity(t *testing.T) {
	j := readFile(t, "full.yaml")
	got := map[string]string{
		"sheet": j.Sheet.Value, "paper": j.Paper.Value, "number": j.Number.Value, "technician": j.Technician.Value,
		"date": j.Date.Format(time.DateOnly), "started": j.Started.Value, "by": j.Authorised.By.Value, "distance": j.Valid.Distance.Value,
		"shop": j.Shop.Name.Value, "accent": j.Shop.Accent.Value, "customer": j.Customer.Phone.Value, "seller": j.Seller.Name.Value,
		"odometer": j.Vehicle.Odometer.Value, "status": j.Vehicle.OdometerStatus.Value, "photo": j.Photos[0].Shows.Value,
		"finding": j.Findings[0].Value, "declined": j.Declined[0].Value, "notes": j.Notes.Value, "displacement": j.Entered("engine", "displacement"),
		"complaints": strings.Join(j.Complaints, "+"),
	}
	want := map[string]string{
		"sheet": "workshop", "paper": "letter", "number": "W-2041", "technician": "R. Okafor",
		"date": "2026-05-14", "started": "09:40", "by": "A. Lindqvist", "distance": "2000 km",
		"shop": "Harrow Mills Engine Works", "accent": "#2e6b57", "customer": "555 0199", "seller": "Ferry Road Vans",
		"odometer": "143210 mi", "status": "actual", "photo": "plug 3",
		"finding": "play in the fan bearing", "declined": "fan bearing", "notes": "Cranked on the shop battery.\nSecond line.", "displacement": "4.7 L",
		"complaints": "misfire+oil use",
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
	if j.Valid.Days != 60 || len(j.Photos[0].Data) == 0 || len(j.Shop.LogoData) == 0 {
		t.Errorf("days %d, photo %d bytes, logo %d bytes", j.Valid.Days, len(j.Photos[0].Data), len(j.Shop.LogoData))
	}
	if got := j.at([]string{"compression", "dry", "3"}).pos; got != (Pos{81, 35}) {
		t.Errorf("compression.dry.3 stands at %v", got)
	}
}

// TestFullTest holds the parts of the test that no other test looks at.
func TestFullTest(t *testing.T) {
	test := readFile(t, "full.yaml").Test()
	f := func(v float64) *float64 { return &v }
	conditions := diag.Conditions{Engine: "cold", CoolantC: f(18), Throttle: "open", PlugsOut: "all", Strokes: 6, CrankingRPM: f(210),
		Battery: diag.Battery{RestV: f(12.6), CrankingV: f(10.8), Charger: diag.Yes}, AltitudeM: f(121.92), Choke: "open", Needle: "holds",
		Method: "engine turned by hand first", IgnitionDisabled: "coil feed unplugged", FuelDisabled: "pump relay out"}
	spec := diag.Spec{Fuel: "petrol", Charging: "natural", DisplacementML: 4700, Ratio: 9.2, BoreMM: 94, StrokeMM: 84, RodMM: 155,
		InletClosesDeg: 62, VariableTiming: diag.No, Decompressor: "none"}
	history := diag.History{Vehicle: "2009 panel van, long wheelbase", Complaints: []string{"misfire", "oil use"}, Codes: []string{"P0303"}, StoodMonths: 8, Distance: "143210 mi",
		ForBuyer: true, Arrival: "cold, no warning lights; codes not cleared", WorkDone: []string{"new plugs", "coil on 3 swapped with 2"}, Findings: []string{"play in the fan bearing"}}
	for name, pair := range map[string][2]any{
		"conditions": {conditions, test.Conditions}, "spec": {spec, test.Spec}, "history": {history, test.History},
		"strokes": {map[string]int{"3": 8}, test.Compression.Strokes},
		"running": {&diag.Reading{State: diag.Tested, Values: []float64{130}, Entered: "130"}, test.Compression.Running["1"].Snap},
		"plug": {diag.Plug{State: diag.Tested, Look: "oil-wet", GapMM: f(1.3), Photo: "P4", Note: "wet to the insulator"},
			test.Plugs.ByCylinder["3"]},
		"untested": {[]diag.Untested{{Test: "wet test", State: diag.NotTested, Reason: "no time for the other cylinders"}}, test.Untested},
	} {
		if diff := cmp.Diff(pair[0], pair[1], near); diff != "" {
			t.Errorf("%s (-want +got):\n%s", name, diff)
		}
	}
	c := test.Fuel.Circuits[0]
	if *c.ManifoldVacuum < 60.95 || *c.ManifoldVacuum > 60.96 || c.VolumeML != 500 || c.VolumeSeconds != 30 || c.FuelInHose != "no" ||
		len(c.Hold) != 2 || c.Hold[0].Minutes != 1 || c.Hold[1].Values[0] != 36 || c.ReturnPinched.Kind != diag.AtLeast {
		t.Errorf("circuit %+v", c)
	}
	if len(test.Noted) != 0 {
		t.Errorf("noted %v", test.Noted)
	}
}

func TestGauges(t *testing.T) {
	g := readFile(t, "full.yaml").Test().Gauges
	dial := g.Compression
	if dial.Name != "dial A" || dial.High != 300 || dial.Division != 5 || dial.ReadsAt != [2]float64{120, 121} || dial.HoseVolumeML != 4 ||
		dial.Valve != "at plug" || dial.Checked.Format(time.DateOnly) != "2026-01-10" || dial.AccuracyText != "2 % of span" || dial.Accuracy == nil {
		t.Errorf("compression gauge %+v", dial)
	}
	if l := g.Leakage; l.Supply != 100 || l.SupplyUnit != quantity.PSI || l.OrificeMM != 1.016 {
		t.Errorf("leakage tester %+v", l)
	}
	if f := g.Fuel; f.High < 101.5 || f.High > 101.6 { // 700 kPa in psi
		t.Errorf("fuel gauge %+v", f)
	}
}

func TestFilesForTheArchive(t *testing.T) {
	j := readFile(t, "full.yaml")
	var got []string
	for _, f := range j.Files {
		got = append(got, f.Role+" "+f.Name)
	}
	want := []string{"shop files/shop.yaml", "logo files/logo.png", "photo files/plug3.jpg", "earlier files/2025-11-02.yaml"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
	earlier := j.Test().Earlier
	if len(earlier) != 1 || earlier[0].Label != "2025-11-02" || earlier[0].Test.Gauges.Compression.Name != "dial A" {
		t.Errorf("earlier %+v", earlier)
	}
	// What is kept is enough to read the job again.
	kept := map[string][]byte{}
	for _, f := range j.Files {
		kept[f.Name] = f.Data
	}
	if _, problems := Read(j.Name, j.Raw, func(name string) ([]byte, error) {
		if data, ok := kept[name]; ok {
			return data, nil
		}
		return nil, os.ErrNotExist
	}); len(problems) > 0 {
		t.Error(problems)
	}
}

// The job's own language goes before the shop's, and both before the one that
// goes with the paper.
func TestLanguage(t *testing.T) {
	const engine = "engine: {layout: single}\ncompression: {unit: psi, dry: [150]}\n"
	for text, want := range map[string]string{
		"":                            "en",
		"paper: a4\n":                 "en-GB",
		"paper: legal\n":              "en",
		"shop: {paper: a4}\n":         "en-GB",
		"language: EN-gb\n":           "en-GB",
		"language: American\n":        "en",
		"paper: a4\nlanguage: en\n":   "en",
		"shop: {language: en-GB}\n":   "en-GB",
		"shop: {language: british}\n": "en-GB",
		"shop: {language: en-GB, paper: letter}\nlanguage: en\n": "en",
	} {
		if got := mustRead(t, text+engine).Language.Value; got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}

// Both Englishes are read, and mean the same.
func TestBothEnglishes(t *testing.T) {
	british := mustRead(t, "job: {authorised: {by: A. Lindqvist}}\nengine: {layout: inline-4, fuel: petrol, inlet-closes: 62 deg}\nsmoke: {colour: blue, when: [start]}\n"+
		"leakage: {limit: 20 %, dry: {3: {loss: 30 %, at: [inlet, neighbour]}}}\nborescope: {3: {valves: burnt}}\nfuel-pressure: {unit: psi, system: carburettor, idle: 5}\n")
	american := mustRead(t, "job: {authorized: {by: A. Lindqvist}}\nengine: {layout: inline-4, fuel: gasoline, intake-closes: 62 deg}\nsmoke: {color: blue, when: [start]}\n"+
		"leakage: {limit: 20 %, dry: {3: {loss: 30 %, at: [intake, neighbor]}}}\nborescope: {3: {valves: burned}}\nfuel-pressure: {unit: psi, system: carburetor, idle: 5}\n")
	if american.Authorised.By.Value != british.Authorised.By.Value {
		t.Errorf("authorised by %q", american.Authorised.By.Value)
	}
	if !reflect.DeepEqual(british.Test(), american.Test()) {
		t.Errorf("British %+v\nAmerican %+v", british.Test(), american.Test())
	}
}

func TestPaperOfTheShop(t *testing.T) {
	data := "shop: {paper: a4}\nengine: {layout: single}\ncompression: {unit: psi, dry: {1: 160}}\n"
	if got := mustRead(t, data).Paper.Value; got != "a4" {
		t.Errorf("paper %s", got)
	}
	if got := mustRead(t, "paper: legal\n"+data).Paper.Value; got != "legal" {
		t.Errorf("paper %s", got)
	}
}

// The digest of "abc" is in FIPS 180-2, appendix B.1.
func TestFingerprint(t *testing.T) {
	j := Job{Raw: []byte("abc")}
	if got := j.Fingerprint(); got != "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad" {
		t.Error(got)
	}
}

func TestAsGiven(t *testing.T) {
	j := mustRead(t, `engine: {layout: inline-2}
job: {number: "0042", date: 2026-05-14}
compression:
  unit: psi
  dry: {2: 85.90, 1: [158, about 160]}
leakage: {loss: {1: .5}}
`)
	data, err := json.Marshal(j.AsGiven())
	if err != nil {
		t.Fatal(err)
	}
	want := `{"engine":{"layout":"inline-2"},"job":{"number":"0042","date":"2026-05-14"},` +
		`"compression":{"unit":"psi","dry":{"2":85.90,"1":[158,"about 160"]}},"leakage":{"loss":{"1":".5"}}}`
	if string(data) != want {
		t.Errorf("got  %s\nwant %s", data, want)
	}
}

// 25.1 inHg is 85.0 kPa by the conventional inch of mercury, NIST SP 811
// (2008), appendix B.8.
func TestLessUsualKeys(t *testing.T) {
	test := readFile(t, "more.yaml").Test()
	if b := test.Conditions.BarometerKPa; b == nil || *b < 84.998 || *b > 84.999 {
		t.Errorf("barometer %v", b)
	}
	if c := test.Compression; c.WetInWords != "slightly better on all" || c.Unit != quantity.MPa || c.Dry["4"].Kind != diag.Estimate {
		t.Errorf("compression %+v", c)
	}
	if !test.Spec.TwoStroke || test.Spec.Fuel != "two-stroke mix" {
		t.Errorf("spec %+v", test.Spec)
	}
	if f := test.Fuel; f.Unit != quantity.Bar || len(f.Circuits[0].Limits) != 2 {
		t.Errorf("fuel pressure %+v", f)
	}
}

// Limits beside the circuits hold for each that has none of its own for the
// same reading.
func TestLimitsOfEveryCircuit(t *testing.T) {
	f := mustRead(t, `engine: {layout: inline-4, fuel: petrol}
fuel-pressure:
  unit: psi
  limits: {key-on: 35-45 psi, hold: at least 30 psi after 5 min, source: the book}
  circuits:
    front: {key-on: 41}
    rear: {key-on: 40, limits: {key-on: 38-42 psi}}
`).Test().Fuel
	var got []string
	for _, c := range f.Circuits {
		for _, l := range c.Limits {
			got = append(got, c.Name+" "+l.For+" "+l.Entered+" "+l.Source)
		}
	}
	want := []string{"front key-on 35-45 psi the book", "front hold at least 30 psi after 5 min the book",
		"rear key-on 38-42 psi ", "rear hold at least 30 psi after 5 min the book"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
}

// A gap that is closed is a finding.
func TestClosedGap(t *testing.T) {
	plugs := mustRead(t, "engine: {layout: inline-4}\nplugs: {gap: 1.1 mm, looks: {1: {gap: 0}, 2: {gap: 0 mm}, 3: {gap: 0.0 in}}}\n").Test().Plugs
	bare := mustRead(t, "engine: {layout: single}\nplugs: {looks: {1: {gap: 0}}}\n").Test().Plugs
	for _, p := range []diag.Plug{plugs.ByCylinder["1"], plugs.ByCylinder["2"], plugs.ByCylinder["3"], bare.ByCylinder["1"]} {
		if p.GapMM == nil || *p.GapMM != 0 {
			t.Errorf("plug %+v", p)
		}
	}
}

// Rotors go by the names that their faces are given under.
func TestRotors(t *testing.T) {
	r := readFile(t, "rotary.yaml").Test().Rotors
	if len(r.Rotors) != 2 || r.Rotors[0].Name != "front" || r.Rotors[1].State != diag.NotTested || len(r.Rotors[0].Faces) != 3 {
		t.Fatalf("rotors %+v", r.Rotors)
	}
	// 147 kPa is 1.5 kgf/cm2, NIST SP 811 (2008), appendix B.8.
	if v := r.Faces.Value; r.Unit != quantity.KgfPerCm2 || v < 1.498 || v > 1.5 || r.Minimum.Value != 6.9 || r.Apart.Value != 1 {
		t.Errorf("limits %+v %+v %+v", r.Minimum, r.Faces, r.Apart)
	}
}

// Each cylinder keeps its own state and reason; the section has the one that
// they share, or else all of them.
func TestStatesOfSections(t *testing.T) {
	state := func(text string) (string, *diag.Test) {
		test := mustRead(t, "engine: {layout: inline-2}\nborescope: {1: clean}\n"+text+"\n").Test()
		var out []string
		if c := test.Compression; c != nil {
			out = append(out, "compression "+string(c.State)+" "+c.Reason)
		}
		if l := test.Leakage; l != nil {
			out = append(out, "leakage "+string(l.State)+" "+l.Reason)
		}
		if p := test.Plugs; p != nil {
			out = append(out, "plugs "+string(p.State)+" "+p.Reason)
		}
		if f := test.Fuel; f != nil {
			out = append(out, "fuel "+string(f.State)+" "+f.Reason)
		}
		return strings.TrimSpace(strings.Join(out, ", ")), test
	}
	for _, tt := range []struct{ text, want string }{
		{"compression: {dry: [declined, declined]}", "compression declined"},
		{"compression: {dry: [could not test (plug seized), could not test]}", "compression could not test plug seized"},
		{"compression: {dry: {1: could not test (plug seized), 2: could not test (no thread)}}", "compression could not test plug seized; no thread"},
		{"compression: {dry: {2: declined, 1: could not test (plug seized)}}", "compression not tested could not test (plug seized); declined"},
		{"compression: {dry: [declined, not tested]}", "compression not tested declined"},
		{"compression: {unit: psi, dry: {1: 160, 2: declined}}", "compression tested"},
		{"leakage: {dry: {1: declined by the owner, 2: not applicable}}", "leakage not tested declined by the owner; not applicable"},
		{"plugs: {looks: {all: could not test (no socket)}}", "plugs could not test no socket"},
		{"fuel-pressure: {key-on: could not test (no port), idle: could not test (no port)}", "fuel could not test no port"},
		{"not-tested: {leakage: declined by the customer}", "leakage declined declined by the customer"},
		{"not-tested: {compression: not applicable, plugs: could not test (seized), fuel-pressure: declined}",
			"compression not applicable , plugs could not test seized, fuel declined"},
		{"not-tested: {leakage: no time}", ""}, // as any test that the job lacks
	} {
		if got, _ := state(tt.text); got != tt.want {
			t.Errorf("%s: %s, want %s", tt.text, got, tt.want)
		}
	}
	_, test := state("compression: {dry: {1: declined, 2: could not test (plug seized)}}")
	want := map[string]diag.Reading{"1": {State: diag.Declined, Entered: "declined"},
		"2": {State: diag.CouldNot, Reason: "plug seized", Entered: "could not test (plug seized)"}}
	if diff := cmp.Diff(want, test.Compression.Dry); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
}

func TestUntested(t *testing.T) {
	say := func(test string, state diag.State, reason string) diag.Untested {
		return diag.Untested{Test: test, State: state, Reason: reason}
	}
	for _, tt := range []struct {
		text string
		want []diag.Untested
	}{
		{"engine: {layout: inline-4, fuel: petrol}\ncompression: {unit: psi, dry: {1: 160}}\n",
			[]diag.Untested{say("leakage", diag.NotTested, ""), say("plugs", diag.NotTested, ""), say("fuel pressure", diag.NotTested, "")}},
		{"engine: {layout: inline-4, fuel: diesel}\ncompression: {unit: bar, dry: {1: 25}}\nleakage: declined\n",
			[]diag.Untested{say("leakage", diag.Declined, ""), say("fuel pressure", diag.NotTested, "")}},
		{"engine: {layout: rotary-1}\nplugs: {looks: {1: normal}}\nrotors: could not test (no adapter)\n",
			[]diag.Untested{say("rotors", diag.CouldNot, "no adapter"), say("fuel pressure", diag.NotTested, "")}},
		{"engine: {layout: inline-2}\ncompression: {unit: psi, dry: {1: 160}}\nnot-tested: {fuel-pressure: declined by the customer, wet test: no oil, leakage: could not test (no air), plugs: not applicable}\n",
			[]diag.Untested{say("fuel pressure", diag.Declined, "declined by the customer"), say("wet test", diag.NotTested, "no oil"),
				say("leakage", diag.CouldNot, "no air"), say("plugs", diag.NotApplicable, "")}},
	} {
		if diff := cmp.Diff(tt.want, mustRead(t, tt.text).Test().Untested); diff != "" {
			t.Errorf("%s(-want +got):\n%s", tt.text, diff)
		}
	}
}
