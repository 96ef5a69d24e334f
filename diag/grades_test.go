package diag_test

import (
	"testing"

	. "gaugesheet/diag"
)

func grades(c *CompressionResult) []Grade {
	var g []Grade
	for _, r := range c.Cylinders {
		g = append(g, r.Grade)
	}
	return g
}

func TestGrades(t *testing.T) {
	for _, row := range []struct {
		what   string
		values []float64
		want   []Grade
	}{
		{"bands", []float64{200, 180, 179, 170, 169, 150, 100, 99, 30, 29, 0, 181},
			[]Grade{Even, Even, Watch, Watch, Low, Low, Low, VeryLow, VeryLow, NoPressure, NoPressure, Even}},
		{"two high ones of eight are not the reference", []float64{150, 148, 178, 145, 149, 151, 176, 147}, []Grade{Even, Even, High, Even, Even, Even, High, Even}},
		{"two of six may be the good ones", []float64{120, 118, 150, 121, 119, 152}, []Grade{Low, Low, Even, Low, Low, Even}},
		{"two of eight, the others under 60 %: they are low", []float64{85, 84, 150, 86, 85, 84, 152, 86}, []Grade{Low, Low, Even, Low, Low, Low, Even, Low}},
		{"two high of eight, the others uneven", []float64{150, 128, 178, 145, 149, 151, 176, 147}, []Grade{Low, Low, Even, Low, Low, Low, Even, Low}},
		{"a high one is not the reference", []float64{150, 148, 200, 145}, []Grade{Even, Even, High, Even}},
		{"10 percent above is not high", []float64{150, 150, 165, 150}, []Grade{Even, Even, Even, Even}},
		{"the others uneven: nobody is high", []float64{150, 130, 200, 145}, []Grade{Low, Low, Even, Low}},
		{"two readings: nobody is high", []float64{150, 200}, []Grade{Low, Even}},
		{"the only one with pressure is not high", []float64{0, 0, 120, 0}, []Grade{NoPressure, NoPressure, Even, NoPressure}},
		{"the only one with pressure is not high", []float64{2, 2, 120, 2}, []Grade{NoPressure, NoPressure, Even, NoPressure}},
		{"none where the best is next to nothing", []float64{0, 0, 3, 0}, []Grade{NoPressure, NoPressure, NoPressure, NoPressure}},
		{"nor where all are alike", []float64{24, 24, 23, 24}, []Grade{NoPressure, NoPressure, NoPressure, NoPressure}},
		{"25 psi is something", []float64{25, 25, 25, 25}, []Grade{Even, Even, Even, Even}},
		{"not tested", []float64{150, -1, 152, 151}, []Grade{Even, GradeNotTested, Even, Even}},
		{"a lone reading", []float64{150, -1}, []Grade{GradeNotJudged, GradeNotTested}},
		{"a lone reading of nothing", []float64{0, -1, -1, -1}, []Grade{NoPressure, GradeNotTested, GradeNotTested, GradeNotTested}},
		{"a lone reading of next to nothing", []float64{24, -1}, []Grade{NoPressure, GradeNotTested}},
		{"next to nothing beside little", []float64{24, 60, 58, 62}, []Grade{NoPressure, Even, Even, Even}},
		{"a single cylinder", []float64{150}, []Grade{GradeNotJudged}},
		{"a single cylinder without pressure", []float64{8}, []Grade{NoPressure}},
	} {
		got := grades(Assess(cranked(t, row.values...)).Compression)
		for i := range row.want {
			if got[i] != row.want[i] {
				t.Errorf("%s: %v: cylinder %d is %s, want %s", row.what, row.values, i+1, got[i], row.want[i])
			}
		}
	}
}

func TestSpoiltTests(t *testing.T) {
	for _, row := range []struct {
		what, reason string
		set          func(*Test)
	}{
		{"decompressor at work", "decompressor", func(s *Test) { s.Spec.Decompressor = "automatic" }},
		{"throttle closed", "throttle-closed", func(s *Test) { s.Conditions.Throttle = "closed" }},
		{"throttle closed on a diesel", "", func(s *Test) { s.Conditions.Throttle, s.Spec.Fuel = "closed", "diesel" }},
		{"decompressor held off", "", func(s *Test) { s.Spec.Decompressor = "held off" }},
		{"throttle not sure", "", func(s *Test) { s.Conditions.Throttle = "not sure" }},
	} {
		test := limited(cranked(t, 150, 152, 149, 120), psi(Minimum, 100), percent(Spread, 10, OfHighest))
		row.set(test)
		c := Assess(test).Compression
		for _, l := range c.Limits {
			if l.Reason != row.reason || (l.Verdict == NotJudged) != (row.reason != "") {
				t.Errorf("%s: %s %s (%s)", row.what, l.Rule, l.Verdict, l.Reason)
			}
		}
		if got := c.Cylinder("4").Grade; (got == GradeNotJudged) != (row.reason != "") {
			t.Errorf("%s: grade %s", row.what, got)
		}
		if c.Highest != 152 {
			t.Errorf("%s: the readings are still shown: %+v", row.what, c)
		}
	}
}

// A decompressor lowers all cylinders alike: one that is far from the others is low all the same.
func TestApartUnderRelease(t *testing.T) {
	for _, row := range []struct {
		values []float64
		want   Grade // of the last
	}{
		{[]float64{150, 152, 149, 90}, Low}, {[]float64{165, 70}, VeryLow}, {[]float64{88, 68}, GradeNotJudged}, {[]float64{150, 80, 80}, GradeNotJudged}, {[]float64{60}, GradeNotJudged},
	} {
		test := cranked(t, row.values...)
		test.Spec.Decompressor = "automatic"
		cylinders := Assess(test).Compression.Cylinders
		if got := cylinders[len(cylinders)-1].Grade; got != row.want {
			t.Errorf("%v: the last is %s, want %s", row.values, got, row.want)
		}
	}
}

func TestTooCloseToGrade(t *testing.T) {
	about := func(v float64) Reading { return Reading{State: Tested, Kind: Estimate, Values: []float64{v}} }
	for _, row := range []struct {
		what string
		r    Reading
		want Grade
	}{
		// Reference 160, u 1 psi: U of a reading near it is 1.7 points, of an
		// estimate of 3 psi 3.9 points.
		{"84.4 %, +-1.6: low or watch, not even", read(135), Low},
		{"89.4 %, +-1.7: even or watch, not low", read(143), Watch},
		{"86.9 %, +-3.9: 83.0 to 90.8", about(139), GradeTooClose},
		{"83.1 %, +-3.9: not even", about(133), Low},
		{"91.9 %, +-3.9: not low", about(147), Even},
		{"75 % as a band of 95-145, +-31", Reading{State: Tested, Kind: Band, Values: []float64{120}, HalfWidth: 25}, GradeTooClose},
		{"gross readings never are", Reading{State: Tested, Kind: Band, Values: []float64{70}, HalfWidth: 50}, VeryLow},
	} {
		test := cranked(t, 160, 100, 158, 159)
		test.Compression.Dry["2"] = row.r
		r := Assess(test).Compression.Cylinder("2")
		if r.Grade != row.want {
			t.Errorf("%s: %s (%.1f %% +- %.1f)", row.what, r.Grade, r.PercentOfRef, r.UPercent)
		}
	}
}

// Equal entries are graded alike, also where each is as unsure as the other and
// one of them is the best.
func TestEqualEntriesEqualGrades(t *testing.T) {
	for _, half := range []float64{2, 5, 10, 20} {
		band := func(v float64) Reading {
			return Reading{State: Tested, Kind: Band, Values: []float64{v}, HalfWidth: half}
		}
		test := cranked(t, 150, 150, 141, 141)
		for n, v := range map[string]float64{"1": 150, "2": 150, "3": 141, "4": 141} {
			test.Compression.Dry[n] = band(v)
		}
		g := grades(Assess(test).Compression)
		if g[0] != g[1] || g[2] != g[3] {
			t.Errorf("bands of +-%v: %v", half, g)
		}
	}
}

// TestNextToNothingInADoubtfulUnit: 12 may be bar, so that it is no grade.
func TestNextToNothingInADoubtfulUnit(t *testing.T) {
	test := cranked(t, 12, 11.5, 12, 12.5)
	test.Noted = []Notice{{Rule: "unit-suspect", Facts: Facts{"section": "compression", "looks": "bar"}}}
	for _, got := range grades(Assess(test).Compression) {
		if got != GradeNotJudged {
			t.Errorf("graded %s, want not judged", got)
		}
	}
	test.Compression.Dry["1"] = read(0) // nothing in any unit
	for _, got := range grades(Assess(test).Compression) {
		if got != NoPressure {
			t.Errorf("graded %s beside a reading of 0, want no pressure", got)
		}
	}
}
