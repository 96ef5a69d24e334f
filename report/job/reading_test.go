package job

import (
	"math"
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
)

// near compares floating-point numbers to a millionth.
var near = cmp.Options{cmpopts.EquateApprox(1e-6, 1e-9), cmpopts.EquateEmpty()}

// withoutUnit compares readings by what they say in the section's unit.
var withoutUnit = cmpopts.IgnoreFields(diag.Reading{}, "Unit")

func mustRead(t *testing.T, text string) *Job {
	t.Helper()
	j, problems := Read("job.yaml", []byte(text), nil)
	if len(problems) > 0 {
		t.Fatalf("%s\n%v", text, problems)
	}
	return j
}

func TestReadingForms(t *testing.T) {
	tests := []struct {
		text string
		want diag.Reading
	}{
		{"160", diag.Reading{Values: []float64{160}}},
		{`"160"`, diag.Reading{Values: []float64{160}, Entered: "160"}},
		{"0", diag.Reading{Values: []float64{0}}},
		{"no pressure", diag.Reading{Values: []float64{0}}},
		{"[158, 160]", diag.Reading{Values: []float64{158, 160}}},
		{"[158, about 160]", diag.Reading{Values: []float64{158, 160}, Kind: diag.Estimate}},
		{"about 155", diag.Reading{Values: []float64{155}, Kind: diag.Estimate}},
		{"~155", diag.Reading{Values: []float64{155}, Kind: diag.Estimate}},
		{"~ 155 psi", diag.Reading{Values: []float64{155}, Kind: diag.Estimate}},
		{"150-155", diag.Reading{Values: []float64{152.5}, Kind: diag.Band, HalfWidth: 2.5}},
		{"150–155", diag.Reading{Values: []float64{152.5}, Kind: diag.Band, HalfWidth: 2.5}},
		{"145..155 psi", diag.Reading{Values: []float64{150}, Kind: diag.Band, HalfWidth: 5}},
		{"145 psi - 155 psi", diag.Reading{Values: []float64{150}, Kind: diag.Band, HalfWidth: 5}},
		{"11.2-11.4", diag.Reading{Values: []float64{11.3}, Kind: diag.Band, HalfWidth: 0.1}},
		{"over 300", diag.Reading{Values: []float64{300}, Kind: diag.AtLeast}},
		{"300+", diag.Reading{Values: []float64{300}, Kind: diag.AtLeast}},
		{"300+ psi", diag.Reading{Values: []float64{300}, Kind: diag.AtLeast}},
		{"300 psi+", diag.Reading{Values: []float64{300}, Kind: diag.AtLeast}},
		{"not tested", diag.Reading{State: diag.NotTested}},
		{"Not tested.", diag.Reading{State: diag.NotTested}},
		{"could not test (plug seized)", diag.Reading{State: diag.CouldNot, Reason: "plug seized"}},
		{`"could not test: plug seized"`, diag.Reading{State: diag.CouldNot, Reason: "plug seized", Entered: "could not test: plug seized"}},
		{"declined by the owner", diag.Reading{State: diag.Declined, Reason: "declined by the owner"}},
		{"not applicable", diag.Reading{State: diag.NotApplicable}},
		// Exact by definition, NIST SP 811 (2008), appendix B.8.
		{"11 bar", diag.Reading{Values: []float64{159.541511}}},
		{"1 100 kPa", diag.Reading{Values: []float64{159.541511}}},
		{"5 1/2 bar", diag.Reading{Values: []float64{79.7707557}}},
		{"5½ bar", diag.Reading{Values: []float64{79.7707557}}},
		{"13 1/2-14 1/2 bar", diag.Reading{Values: []float64{203.0528322}, Kind: diag.Band, HalfWidth: 7.2518869}},
		{"11.2 kgf/cm2", diag.Reading{Values: []float64{159.301445}}},
		{"24 bar (348 psi)", diag.Reading{Values: []float64{348.0905695}}},
	}
	for _, tt := range tests {
		j := mustRead(t, "engine: {layout: inline-4}\ncompression:\n  unit: psi\n  dry:\n    1: "+tt.text+"\n    others: 160\n")
		if tt.want.State == "" {
			tt.want.State = diag.Tested
		}
		if tt.want.Entered == "" {
			tt.want.Entered = tt.text
		}
		got := j.Test().Compression.Dry["1"]
		if diff := cmp.Diff(tt.want, got, near, withoutUnit); diff != "" {
			t.Errorf("%s (-want +got):\n%s", tt.text, diff)
		}
	}
}

// A reading keeps the unit that it names, for whoever prints it as entered.
func TestUnitOfAReading(t *testing.T) {
	dry := mustRead(t, "engine: {layout: inline-5}\ncompression: {unit: psi, dry: [160, 11 bar, 1100 kPa-1120 kPa, [160, 11 bar], 160 psi]}\n").Test().Compression.Dry
	for name, want := range map[string]quantity.Unit{"1": quantity.None, "2": quantity.Bar, "3": quantity.KPa, "4": quantity.Bar, "5": quantity.PSI} {
		if got := dry[name].Unit; got != want {
			t.Errorf("cylinder %s: unit '%s', want '%s'", name, got, want)
		}
	}
}

func TestListFollowsTheNumbers(t *testing.T) {
	j := mustRead(t, "engine: {layout: inline-3}\ncompression:\n  unit: kPa\n  dry: [1100, [1080, 1090], not tested]\n")
	got := map[string][]float64{}
	for name, reading := range j.Test().Compression.Dry {
		got[name] = reading.Values
	}
	if diff := cmp.Diff(map[string][]float64{"1": {1100}, "2": {1080, 1090}, "3": nil}, got); diff != "" {
		t.Error(diff)
	}
}

func TestOthersFillWhatIsNotNamed(t *testing.T) {
	j := mustRead(t, "engine: {layout: inline-4}\ncompression:\n  unit: psi\n  dry: {1: 25, 3: 25, others: about 120}\n")
	dry := j.Test().Compression.Dry
	if len(dry) != 4 || dry["4"].Values[0] != 120 || dry["2"].Kind != diag.Estimate || dry["1"].Values[0] != 25 {
		t.Errorf("dry = %v", dry)
	}
}

// The section's unit is that of its readings where none is named.
func TestUnitOfTheReadings(t *testing.T) {
	j := mustRead(t, "engine: {layout: inline-2}\ncompression:\n  dry: {1: 11.2 bar, 2: 160 psi}\n")
	c := j.Test().Compression
	if v, _ := c.Dry["2"].Value(); c.Unit != quantity.Bar || math.Abs(v-11.0316) > 1e-4 {
		t.Errorf("unit %s, cylinder 2 %v", c.Unit, v)
	}
}

// TestLeakageForms: 72 of 80 held is 10 % lost, FAA AC 43.13-1B, section 8-14
// notation.
func TestLeakageForms(t *testing.T) {
	tests := []struct {
		text    string
		loss    float64
		entered string
	}{
		{"72/80", 10, "72/80"},
		{"72/80 psi", 10, "72/80 psi"},
		{"72 of 80", 10, "72 of 80"},
		{"{held: 72, of: 80}", 10, "72/80"},
		{"{held: 72 psi, of: 80 psi}", 10, "72 psi/80 psi"},
		{"{held: 0, of: 80}", 100, "0/80"},
		{"80/80", 0, "80/80"},
		{"{loss: 34 %}", 34, "34 %"},
		{"{loss: 34}", 34, "34"},
		{"{loss: about 34 %, at: [exhaust]}", 34, "about 34 %"},
		{"{loss: 30-40 %}", 35, "30-40 %"},
	}
	for _, tt := range tests {
		j := mustRead(t, "engine: {layout: inline-2}\nleakage:\n  dry:\n    1: "+tt.text+"\n")
		got := j.Test().Leakage.Dry["1"]
		if v, ok := got.Value(); !ok || math.Abs(v-tt.loss) > 1e-9 || got.Entered != tt.entered {
			t.Errorf("%s: %v %q, want %v", tt.text, v, got.Entered, tt.loss)
		}
	}
}

func TestSpellingsOfUnits(t *testing.T) {
	for text, want := range map[string]quantity.Unit{"psi": quantity.PSI, "PSI": quantity.PSI, "kg/cm2": quantity.KgfPerCm2, "kpa": quantity.KPa, "Bar": quantity.Bar} {
		if got := mustRead(t, "engine: {layout: single}\ncompression: {unit: "+text+", dry: {1: 11}}\n").Test().Compression.Unit; got != want {
			t.Errorf("%s: %s", text, got)
		}
	}
}

func TestCompressionLimits(t *testing.T) {
	j := mustRead(t, `engine: {layout: inline-2}
compression:
  unit: psi
  dry: [160, 158]
  limits:
    from-mean: 50 psi
    minimum: 10 bar
    spread: 10 % of lowest
    lowest: 75 %
    below-mean: 20 %
    difference: 25
    from: sea level
    cranking: 250 rpm
    source: manual
`)
	limit := func(kind diag.LimitKind, of diag.Basis, value float64, unit quantity.Unit, entered string) diag.Limit {
		return diag.Limit{Kind: kind, Of: of, Value: value, Unit: unit, Entered: entered, Source: "manual",
			FromSeaLevel: unit != quantity.Percent, CrankingRPM: 250}
	}
	want := []diag.Limit{
		limit(diag.FromMean, "", 50, quantity.PSI, "50 psi"),
		limit(diag.Minimum, "", 145.0377377, quantity.PSI, "10 bar"),
		limit(diag.Spread, diag.OfLowest, 10, quantity.Percent, "10 % of lowest"),
		limit(diag.Lowest, diag.OfHighest, 75, quantity.Percent, "75 %"),
		limit(diag.BelowMean, diag.OfMean, 20, quantity.Percent, "20 %"),
		limit(diag.Difference, "", 25, quantity.PSI, "25"),
	}
	if diff := cmp.Diff(want, j.Test().Compression.Limits, near); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
}

func TestFuelLimits(t *testing.T) {
	j := mustRead(t, `engine: {layout: inline-4}
fuel-pressure:
  unit: psi
  key-on: 41
  limits:
    key-on: 35-45 psi
    hose-off: 39 psi +/- 3
    idle: at most 2.5 bar
    snap: over 30
    return-pinched: 0-90
    hold: [at least 35 after 1 min, at least 30 psi after 300 s]
    volume: at least 500 ml in 30 s
    source: manual
`)
	inf := math.Inf(1)
	want := []diag.FuelLimit{
		{For: "key-on", Low: 35, High: 45, Entered: "35-45 psi"},
		{For: "hose-off", Low: 36, High: 42, Entered: "39 psi +/- 3"},
		{For: "idle", Low: -inf, High: 36.2594344, Entered: "at most 2.5 bar"},
		{For: "snap", Low: 30, High: inf, Entered: "over 30"},
		{For: "return-pinched", Low: 0, High: 90, Entered: "0-90"},
		{For: "hold", Low: 35, High: inf, Minutes: 1, Entered: "at least 35 after 1 min"},
		{For: "hold", Low: 30, High: inf, Minutes: 5, Entered: "at least 30 psi after 300 s"},
		{For: "volume", Low: 1000, High: inf, Minutes: 0.5, Entered: "at least 500 ml in 30 s"},
	}
	for i := range want {
		want[i].Source = "manual"
	}
	if diff := cmp.Diff(want, j.Test().Fuel.Circuits[0].Limits, near); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
}

func TestPlugGap(t *testing.T) {
	for text, want := range map[string][2]float64{
		"1.1 mm":            {1.1, 0},
		"1.1 mm +/- 0.1":    {1.1, 0.1},
		"1.1 ± 0.1 mm":      {1.1, 0.1},
		"1.0-1.2 mm":        {1.1, 0.1},
		"0.040 in":          {1.016, 0},
		"0.040-0.044 in":    {1.0668, 0.0508},
		"0.9 mm - 1.1 mm":   {1, 0.1},
		"0.040 in +/- 0.0":  {1.016, 0},
		"0.040 in +/- .002": {1.016, 0.0508},
	} {
		j := mustRead(t, "engine: {layout: inline-2}\nplugs:\n  gap: "+text+"\n  looks: {1: sooty}\n")
		p := j.Test().Plugs
		if math.Abs(p.GapMM-want[0]) > 1e-9 || math.Abs(p.GapTolMM-want[1]) > 1e-9 {
			t.Errorf("%s: %v +/- %v, want %v", text, p.GapMM, p.GapTolMM, want)
		}
	}
}
