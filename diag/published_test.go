package diag_test

import (
	"math"
	"strings"
	"testing"

	. "gaugesheet/diag"
	"gaugesheet/diag/quantity"
)

func rule(t *testing.T, test *Test, name, source string) PublishedRule {
	t.Helper()
	for _, p := range Assess(test).Compression.Published {
		if strings.HasPrefix(p.Name, name) && strings.HasPrefix(p.Source, source) {
			return p
		}
	}
	t.Fatalf("no published rule %q of %q", name, source)
	return PublishedRule{}
}

func TestPublishedRules(t *testing.T) {
	for _, row := range []struct {
		values       []float64
		name, source string
		value        float64
		want         Verdict
	}{
		// Printed example of the 75 percent table, common practice: 196 and 155
		// are within, since 155 is more than 147.
		{[]float64{196, 155}, "lowest at least 75 %", "TM 5-4210-230-14&P-1", 79.1, Within},
		{[]float64{140, 105}, "lowest at least 75 %", "TM 5-4210-230-14&P-1", 75, Within},
		{[]float64{140, 104}, "lowest at least 75 %", "TM 5-4210-230-14&P-1", 74.3, Outside},
		// Common practice: highest 150 psi, lowest allowed 105.
		{[]float64{150, 105}, "lowest at least 70 %", "common practice", 70, Within},
		{[]float64{150, 104.9}, "lowest at least 70 %", "common practice", 69.9, Outside},
		{[]float64{150, 100}, "at least 100 psi", "common practice", 100, Within},
		{[]float64{150, 85}, "at least 85 psi", "OD1001", 85, Within},
		{[]float64{150, 84}, "at least 85 psi", "OD1001", 84, Outside},
		{[]float64{150, 125}, "within 25 psi", "OD1001", 25, Within},
		{[]float64{150, 124}, "within 25 psi", "OD1001", 26, Outside},
		{[]float64{125, 115}, "within 10 psi", "TM 10-3930-618-20", 10, Within},
		{[]float64{126, 115}, "within 10 psi", "TM 10-3930-618-20", 11, Outside},
		{[]float64{150, 150, 150, 110}, "no more than 20 % below the mean", "TM 1-1500-204-23-1", 21.4, Outside},
		{[]float64{150, 150, 150, 115}, "no more than 20 % below the mean", "TM 1-1500-204-23-1", 18.6, Within},
	} {
		p := rule(t, cranked(t, row.values...), row.name, row.source)
		if p.Verdict != row.want || !near(p.Value, row.value, 0.05) {
			t.Errorf("%v, %s (%s): %+v", row.values, row.name, row.source, p)
		}
	}
}

// Worked example of TM 5-3895-359-14&P, table 1 and the text to it: 445, 440,
// 405 and 435 psi; cylinder 3 must be examined, since the variation is over 25
// psi, though it is 91.0 percent of the highest.
func TestTwoStrokeDieselExample(t *testing.T) {
	test := cranked(t, 445, 440, 405, 435)
	test.Spec = Spec{Fuel: "diesel", TwoStroke: true}
	c := Assess(test).Compression
	if c.Difference != 40 || c.LowestAt != "3" || !near(c.LowestPercentOfHighest, 91.0, 0.05) {
		t.Errorf("%+v", c)
	}
	if p := rule(t, test, "within 25 psi", "TM 5-3895-359-14&P"); p.Verdict != Outside || p.Value != 40 {
		t.Errorf("%+v", p)
	}
	if l := only(t, limited(test, psi(Difference, 25))); l.Verdict != Outside || l.Cylinder != "3" {
		t.Errorf("%+v", l)
	}
	// TM 5-2420-230-24-2, p. 14-22: within 100 psi of each other.
	if p := rule(t, test, "within 100 psi", "TM 5-2420-230-24-2"); p.Verdict != Within {
		t.Errorf("%+v", p)
	}
	// The same figures in kPa as the sheet prints them, and no petrol rule.
	test = cranked(t, 3066, 3032, 2792, 2997)
	test.Spec, test.Compression.Unit = Spec{Fuel: "diesel", TwoStroke: true}, quantity.KPa
	if p := rule(t, test, "within 25 psi", "TM 5-3895-359-14&P"); p.Verdict != Outside || !near(p.Limit, 172, 0.5) || p.Unit != quantity.KPa {
		t.Errorf("%+v", p)
	}
	for _, p := range Assess(test).Compression.Published {
		if strings.HasPrefix(p.Source, "OD1001") {
			t.Errorf("a rule for spark ignition on a diesel: %+v", p)
		}
	}
}

// Rows of the 75 percent table that many books print (common practice). Its
// rounding of halves goes both ways, so that a row is right within half a psi.
func TestTableOf75Percent(t *testing.T) {
	for highest, lowest := range map[float64]float64{
		134: 101, 136: 102, 138: 104, 140: 105, 142: 107, 144: 108, 146: 110, 148: 111, 150: 113, 152: 114, 154: 115, 156: 117, 158: 118,
		174: 131, 176: 132, 178: 133, 180: 135, 182: 136, 184: 138, 186: 140, 188: 141, 190: 142, 192: 144, 194: 145, 196: 147, 198: 148,
		214: 160, 216: 162, 218: 163, 220: 165, 222: 166, 224: 168, 226: 169, 228: 171, 230: 172, 232: 174, 234: 175, 236: 177,
	} {
		for _, off := range []struct {
			psi  float64
			want Verdict
		}{{0.51, Within}, {-0.51, Outside}} {
			p := rule(t, cranked(t, highest, lowest+off.psi), "lowest at least 75 %", "TM")
			if p.Verdict != off.want {
				t.Errorf("%v and %v: %+v", highest, lowest+off.psi, p)
			}
		}
	}
}

// A difference of 1 kgf/cm2 is within in whatever unit it was read.
func TestPublishedEqualityInEveryUnit(t *testing.T) {
	for _, unit := range []quantity.Unit{quantity.KgfPerCm2, quantity.PSI, quantity.KPa, quantity.Bar, quantity.MPa} {
		high, err1 := quantity.Convert(11.3, quantity.KgfPerCm2, unit)
		low, err2 := quantity.Convert(10.3, quantity.KgfPerCm2, unit)
		if err1 != nil || err2 != nil {
			t.Fatal(err1, err2)
		}
		test := cranked(t, high, low)
		test.Compression.Unit = unit
		if p := rule(t, test, "within 1 kgf/cm2", "common practice"); p.Verdict != Within {
			t.Errorf("%s: %+v, over by %g", unit, p, p.Value-p.Limit)
		}
	}
}

func TestPublishedRulesWithoutComparison(t *testing.T) {
	for _, p := range Assess(cranked(t, 150)).Compression.Published {
		absolute := strings.HasPrefix(p.Name, "at least ")
		if (p.Verdict == NotJudged) == absolute {
			t.Errorf("single cylinder: %+v", p)
		}
		if math.IsNaN(p.Value) {
			t.Errorf("%+v", p)
		}
	}
}
