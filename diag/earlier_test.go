package diag_test

import (
	"math"
	"testing"

	. "gaugesheet/diag"
	"gaugesheet/diag/quantity"
)

func TestEarlier(t *testing.T) {
	older := cranked(t, 170, 172, 171)
	hot := cranked(t, 150, 150, 150)
	hot.Conditions.Engine = "hot"
	test := cranked(t, 160, 172, -1)
	test.Earlier = []Earlier{{Label: "2024", Test: older}, {Label: "2025", Test: hot}}
	c := Assess(test).Compression
	if c.ComparedWith != "2024" || c.NotComparable != "" {
		t.Fatalf("compared with %q, not comparable %q", c.ComparedWith, c.NotComparable)
	}
	r := c.Cylinder("1")
	// No gauge is named in either test: both count, 3 percent of the reading each.
	gauges := math.Hypot(0.03*160, 0.03*170) / math.Sqrt(3)
	if *r.Change != -10 || !near(r.ChangeU, 2*math.Sqrt(2+gauges*gauges), 1e-9) {
		t.Errorf("%v +- %v", *r.Change, r.ChangeU)
	}
	if c.Cylinder("3").Change != nil {
		t.Error("cylinder 3 was not tested now")
	}
	older.Gauges.Compression, test.Gauges.Compression = &Gauge{Name: "dial A"}, &Gauge{Name: "dial A"}
	if r := Assess(test).Compression.Cylinder("1"); !near(r.ChangeU, 2*math.Sqrt2, 1e-9) {
		t.Errorf("the same gauge: +- %v", r.ChangeU)
	}
}

func TestEarlierThatDoesNotCompare(t *testing.T) {
	for _, row := range []struct {
		want string
		set  func(now, then *Test)
	}{
		{"gauge", func(_, then *Test) { then.Gauges.Compression = &Gauge{Name: "dial B"} }},
		{"temperature", func(_, then *Test) { then.Conditions.Engine = "cold" }},
		{"throttle", func(_, then *Test) { then.Conditions.Throttle = "not sure" }},
		{"unit", func(_, then *Test) { then.Compression.Unit = quantity.Millilitre }},
		{"", func(now, then *Test) { now.Conditions.Throttle, then.Conditions.Throttle = "not sure", "" }},
		{"", func(now, then *Test) { now.Spec.Fuel, then.Conditions.Throttle = "diesel", "" }},
		{"", func(_, then *Test) { then.Compression = nil }},
	} {
		test, then := cranked(t, 160, 172), cranked(t, 160, 172)
		row.set(test, then)
		test.Earlier = []Earlier{{Label: "2024", Test: then}}
		c := Assess(test).Compression
		compared := c.ComparedWith != ""
		if c.NotComparable != row.want || compared != (row.want == "" && then.Compression != nil) {
			t.Errorf("%s: compared with %q, not comparable %q", row.want, c.ComparedWith, c.NotComparable)
		}
	}
}

func TestEarlierInAnotherUnit(t *testing.T) {
	then := cranked(t, 1000, 1000)
	then.Compression.Unit = quantity.KPa
	test := cranked(t, 150, 140)
	test.Earlier = []Earlier{{Label: "2024", Test: then}}
	// NIST SP 811, appendix B.8: 1000 kPa = 145.0377 psi.
	if got := *Assess(test).Compression.Cylinder("1").Change; !near(got, 150-145.0377, 1e-4) {
		t.Errorf("change %v", got)
	}
}
