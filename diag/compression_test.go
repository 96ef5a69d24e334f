package diag_test

import (
	"math"
	"testing"

	. "gaugesheet/diag"
	"gaugesheet/diag/quantity"
)

func TestSpreadOnEveryBasis(t *testing.T) {
	// The same set judged by 10 percent of one thing and another: the figures
	// are plain arithmetic on 150/135/148/152.
	c := Assess(cranked(t, 150, 135, 148, 152)).Compression
	for _, row := range []struct {
		what                 string
		got, want, tolerance float64
	}{
		{"highest", c.Highest, 152, 0},
		{"lowest", c.Lowest, 135, 0},
		{"difference", c.Difference, 17, 0},
		{"mean", c.Mean, 146.25, 1e-9},
		{"median", c.Median, 149, 0},
		{"of highest", c.SpreadPercentOfHighest, 11.2, 0.05},
		{"of lowest", c.SpreadPercentOfLowest, 12.6, 0.05},
		{"of mean", c.SpreadPercentOfMean, 11.6, 0.05},
		{"lowest of highest", c.LowestPercentOfHighest, 88.8, 0.05},
		{"below mean", c.LowestPercentBelowMean, 7.7, 0.05},
		{"below median", c.LowestPercentBelowMedian, 9.4, 0.05},
	} {
		if !near(row.got, row.want, row.tolerance) {
			t.Errorf("%s: %v, want %v", row.what, row.got, row.want)
		}
	}
	if c.HighestAt != "4" || c.LowestAt != "2" || c.N != 4 || !c.Complete {
		t.Errorf("highest at %s, lowest at %s of %d", c.HighestAt, c.LowestAt, c.N)
	}
	if r := c.Cylinder("2"); !near(*r.PercentOfHighest, 88.8, 0.05) || !near(*r.PercentFromMedian, -9.4, 0.05) {
		t.Errorf("cylinder 2: %v %v", *r.PercentOfHighest, *r.PercentFromMedian)
	}
}

func TestZerosAreReadings(t *testing.T) {
	c := Assess(cranked(t, 0, 120, 118, 121)).Compression
	if c.N != 4 || c.Lowest != 0 || !math.IsInf(c.SpreadPercentOfLowest, 1) || c.Cylinder("1").Grade != NoPressure {
		t.Errorf("one without pressure: %+v", c)
	}
	c = Assess(cranked(t, 0, 0, 0, 0)).Compression
	for _, r := range c.Cylinders {
		if r.Grade != NoPressure {
			t.Errorf("none anywhere: cylinder %s is %s", r.Name, r.Grade)
		}
	}
	if c.Limits[0].Verdict != NotJudged || c.Limits[0].Reason != "no-pressure" || c.LowestPercentOfHighest != 0 {
		t.Errorf("none anywhere: %+v", c.Limits[0])
	}
}

func TestUncertaintyOfReadings(t *testing.T) {
	for _, row := range []struct {
		what string
		set  func(*Test)
		want float64 // standard uncertainty of cylinder 1 in psi
	}{
		{"nothing known: 1 psi, common practice", func(*Test) {}, 1},
		{"division 5, JCGM 100:2008, F.2.2.1", func(s *Test) { s.Gauges.Compression = &Gauge{Division: 5} }, 5 / math.Sqrt(12)},
		{"repeats 158 and 160", func(s *Test) { s.Compression.Dry["2"] = read(158, 160) }, math.Sqrt2},
		{"an estimate, three times", func(s *Test) {
			s.Compression.Dry["1"] = Reading{State: Tested, Kind: Estimate, Values: []float64{155}}
		}, 3},
		{"a band of 150-155", func(s *Test) {
			s.Compression.Dry["1"] = Reading{State: Tested, Kind: Band, Values: []float64{152.5}, HalfWidth: 2.5}
		}, 2.5},
		{"repeats that disagree are no scatter", func(s *Test) { s.Compression.Dry["2"] = read(120, 160) }, 1},
	} {
		test := cranked(t, 155, 160, 158, 157)
		row.set(test)
		if got := Assess(test).Compression.Cylinder("1").U / 2; !near(got, row.want, 1e-9) {
			t.Errorf("%s: u = %v, want %v", row.what, got, row.want)
		}
	}
	kPa := cranked(t, 1000, 1050)
	kPa.Compression.Unit = quantity.KPa
	// NIST SP 811, appendix B.8: 1 psi = 6.894757 kPa.
	if got := Assess(kPa).Compression.URepeat; !near(got, 6.894757, 1e-6) {
		t.Errorf("1 psi in kPa: %v", got)
	}
}

func TestRepeatsThatDisagree(t *testing.T) {
	test := cranked(t, 160, 150, 158, 157)
	test.Compression.Dry["2"] = read(130, 150)
	c := Assess(test).Compression
	r := c.Cylinder("2")
	if r.Dry != nil || !r.Disagree || len(r.DryReadings) != 2 || r.Grade != GradeNotJudged || r.State != Tested {
		t.Errorf("cylinder 2: %+v", r)
	}
	if c.N != 3 || c.Lowest != 157 || c.Limits[0].Verdict != Within || c.Limits[0].Cylinder != "4" || !c.Complete {
		t.Errorf("the others: %+v", c)
	}
	test.Compression.Dry["2"] = read(152, 160) // exactly 5 percent of the higher
	if r := Assess(test).Compression.Cylinder("2"); r.Dry == nil || *r.Dry != 156 {
		t.Errorf("5 percent apart: %+v", r)
	}
}

func TestLowerBound(t *testing.T) {
	test := limited(cranked(t, 300, 290, 295, 285), percent(Spread, 10, OfHighest), psi(Minimum, 250))
	test.Compression.Dry["1"] = Reading{State: Tested, Kind: AtLeast, Values: []float64{300}, Entered: "300+"}
	c := Assess(test).Compression
	if r := c.Cylinder("1"); *r.Dry != 300 || r.Grade != GradeNotJudged || r.PercentOfHighest != nil || r.Entered != "300+" {
		t.Errorf("300+: %+v", r)
	}
	if c.N != 3 || c.Highest != 295 || c.Limits[0].Verdict != Within || c.Limits[1].Verdict != Within {
		t.Errorf("the others: %+v", c)
	}
	// Known only to be over 300, a cylinder cannot be told to be under 320.
	test = limited(test, psi(Minimum, 320))
	test.Compression.Dry = map[string]Reading{"1": test.Compression.Dry["1"]}
	if l := Assess(test).Compression.Limits[0]; l.Verdict != NotJudged || l.Reason != "lower-bound" || l.PastAsRead {
		t.Errorf("300+ against 320: %+v", l)
	}
	// The others decide.
	test = limited(cranked(t, 100, 150, 152, 118), psi(Minimum, 120))
	test.Compression.Dry["1"] = Reading{State: Tested, Kind: AtLeast, Values: []float64{100}, Entered: "over 100"}
	if l := Assess(test).Compression.Limits[0]; l.Cylinder != "4" || l.Value != 118 {
		t.Errorf("over 100 beside others: %+v", l)
	}
}

func TestBoundsThatDecide(t *testing.T) {
	over := func(v float64) Reading {
		return Reading{State: Tested, Kind: AtLeast, Values: []float64{v}, Entered: "over"}
	}
	// -1 and less is a bound of that much.
	for _, row := range []struct {
		what   string
		values []float64
		want   []Grade
		atMost float64 // percent of the first; 0 where its percentage is not of a bound
	}{
		{"one beside bounds", []float64{120, -150, -150, -150}, []Grade{Low, GradeNotJudged, GradeNotJudged, GradeNotJudged}, 80},
		{"nearly none beside bounds", []float64{3, -150, -150, -150}, []Grade{NoPressure, GradeNotJudged, GradeNotJudged, GradeNotJudged}, 2},
		{"two beside bounds", []float64{120, 130, -180, -180}, []Grade{Low, Low, GradeNotJudged, GradeNotJudged}, 66.7},
		{"low among the read, very low beside the bound", []float64{60, 80, -200, -200}, []Grade{VeryLow, VeryLow, GradeNotJudged, GradeNotJudged}, 30},
		{"a bound that decides nothing", []float64{148, -150, -150, -150}, []Grade{GradeNotJudged, GradeNotJudged, GradeNotJudged, GradeNotJudged}, 0},
		{"a bound under the readings", []float64{148, 149, -100, 147}, []Grade{Even, Even, GradeNotJudged, Even}, 0},
		{"nothing is high where a bound makes the others uneven", []float64{77, 77, -102, 140}, []Grade{Low, Low, GradeNotJudged, Even}, 0},
		{"nothing is high where others read more", []float64{120, 121, 122, 160, -180}, []Grade{Low, Low, Low, Watch, GradeNotJudged}, 66.7},
	} {
		test := cranked(t, row.values...)
		for i, v := range row.values {
			if v < 0 {
				test.Compression.Dry[test.Engine.Names()[i]] = over(-v)
			}
		}
		c := Assess(test).Compression
		for i, g := range grades(c) {
			if g != row.want[i] {
				t.Errorf("%s: cylinder %d is %s, want %s", row.what, i+1, g, row.want[i])
			}
		}
		if r := c.Cylinders[0]; r.AtMost != (row.atMost > 0) || r.AtMost != (r.PercentOfHighest == nil) || row.atMost > 0 && !near(r.PercentOfRef, row.atMost, 0.1) {
			t.Errorf("%s: %.1f %%, at most %v", row.what, r.PercentOfRef, r.AtMost)
		}
	}
	test := limited(cranked(t, 100, 150, 150, 150), percent(Lowest, 75, OfHighest), percent(Spread, 40, OfHighest), psi(Difference, 25))
	for _, n := range []string{"2", "3", "4"} {
		test.Compression.Dry[n] = over(150)
	}
	for i, want := range []Verdict{Outside, NotJudged, Outside} {
		if l := Assess(test).Compression.Limits[i]; l.Verdict != want || l.Bounded != (want == Outside) {
			t.Errorf("100 beside 150+, %s: %s %+v", l.Rule, l.Verdict, l)
		}
	}
}

func TestRepeatsOfNextToNothingAgree(t *testing.T) {
	test := cranked(t, 150, 151, 0, 149)
	for _, row := range []struct {
		values   []float64
		disagree bool
	}{{[]float64{2, 0}, false}, {[]float64{3, 0}, false}, {[]float64{0, 24}, false}, {[]float64{20, 30}, true}, {[]float64{30, 32}, false}, {[]float64{140, 158}, true}} {
		test.Compression.Dry["3"] = read(row.values...)
		if r := Assess(test).Compression.Cylinder("3"); r.Disagree != row.disagree || (r.Dry == nil) != row.disagree {
			t.Errorf("%v: %+v", row.values, r)
		}
	}
}

func TestDecimals(t *testing.T) {
	for _, row := range []struct {
		unit     quantity.Unit
		division float64
		want     int
	}{
		{quantity.PSI, 5, 0}, {quantity.PSI, 0, 0}, {quantity.Bar, 0.5, 1}, {quantity.Bar, 0, 1}, {quantity.Bar, 0.25, 2}, {quantity.KPa, 20, 0},
	} {
		test := cranked(t, 10, 10)
		test.Compression.Unit = row.unit
		test.Gauges.Compression = &Gauge{Division: row.division}
		if got := Assess(test).Compression.Decimals; got != row.want {
			t.Errorf("%+v: %d decimals", row, got)
		}
	}
}

func TestWet(t *testing.T) {
	test := cranked(t, 160, 60, 100, 155)
	test.Compression.Wet = map[string]Reading{"1": read(168), "2": read(90), "4": read(158.1)}
	c := Assess(test).Compression
	r := c.Cylinder("2")
	if *r.WetRise != 30 || *r.WetRisePercent != 50 {
		t.Errorf("cylinder 2: %v, %v %%", *r.WetRise, *r.WetRisePercent)
	}
	// 5 percent of 160 and 2 percent of 155; the low one is no control.
	if c.WetControl == nil || !near(*c.WetControl, 3.5, 1e-9) {
		t.Errorf("control: %v", c.WetControl)
	}
	if c.Cylinder("3").WetRise != nil {
		t.Error("cylinder 3 was not tested wet")
	}
	test.Compression.Wet = map[string]Reading{"2": read(90)}
	if c := Assess(test).Compression; c.WetControl != nil {
		t.Errorf("a low cylinder as its own control: %v", *c.WetControl)
	}
}

// TestExpectedOfTheRatioAlone: where the inlet's closing is not known the band
// is that of 50 to 70 degrees after bottom dead centre. Worked out apart from
// this program for a ratio of 10 and a rod of 1.7 strokes: the piston is at .7372
// and .8651 of its stroke, the effective ratios are 7.635 and 8.786, and
// 14.696 (7.635^1.20 - 1) = 153.8 psi, 14.696 (8.786^1.30 - 1) = 233.1 psi.
func TestExpectedOfTheRatioAlone(t *testing.T) {
	test := cranked(t, 170, 172, 169, 171)
	test.Spec = Spec{Fuel: "petrol", Ratio: 10}
	e := Assess(test).Compression.Expected
	if e == nil || !near(e.Low, 153.8, 0.05) || !near(e.High, 233.1, 0.05) || !e.ByRatio || e.Working.ClosesLow != 50 || e.Working.ClosesHigh != 70 {
		t.Fatalf("expected: %+v", e)
	}
	for what, spoil := range map[string]func(*Spec){
		"variable timing": func(s *Spec) { s.VariableTiming = Yes },
		"two-stroke":      func(s *Spec) { s.TwoStroke = true },
		"decompressor":    func(s *Spec) { s.Decompressor = "automatic" },
	} {
		spoilt := cranked(t, 170, 172, 169, 171)
		spoilt.Spec = Spec{Fuel: "petrol", Ratio: 10}
		spoil(&spoilt.Spec)
		if e := Assess(spoilt).Compression.Expected; e != nil {
			t.Errorf("%s: %+v", what, e)
		}
	}
}

func TestExpected(t *testing.T) {
	full := func() *Test {
		test := cranked(t, 170, 172, 169, 171)
		test.Spec = Spec{Fuel: "petrol", Ratio: 10, StrokeMM: 90, RodMM: 150, InletClosesDeg: 60}
		return test
	}
	// Worked out apart from this program from the slider-crank and polytropic
	// formulas: 170.61 to 214.19 psi at sea level.
	e := Assess(full()).Compression.Expected
	if e == nil || !near(e.Low, 170.61, 0.01) || !near(e.High, 214.19, 0.01) || e.Working.EffectiveLow == 0 {
		t.Fatalf("expected: %+v", e)
	}
	high := full()
	high.Conditions.AltitudeM = new(1524.0)
	// U.S. Standard Atmosphere, 1976: p/p0 = .8320 at 5000 ft.
	if e := Assess(high).Compression.Expected; !near(e.Low, 170.61*0.8320, 0.02) {
		t.Errorf("at 5000 ft: %+v", e)
	}
	bore := full()
	bore.Spec.StrokeMM, bore.Spec.BoreMM, bore.Spec.DisplacementML = 0, 80, 4*math.Pi/4*80*80*90/1000
	if e := Assess(bore).Compression.Expected; !near(e.Low, 170.61, 0.01) {
		t.Errorf("stroke from displacement and bore: %+v", e)
	}
	for what, spoil := range map[string]func(*Spec){
		"variable timing": func(s *Spec) { s.VariableTiming = Yes },
		"two-stroke":      func(s *Spec) { s.TwoStroke = true },
		"decompressor":    func(s *Spec) { s.Decompressor = "automatic" },
		"no ratio":        func(s *Spec) { s.Ratio = 0 },
	} {
		test := full()
		spoil(&test.Spec)
		if e := Assess(test).Compression.Expected; e != nil {
			t.Errorf("%s: %+v", what, e)
		}
	}
}
