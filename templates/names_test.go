package templates

import (
	"fmt"
	"testing"

	"gaugesheet/diag"
)

// A cylinder may go by its place as a rotor may, and neither is called the other.
func TestRotorsAreNoCylinders(t *testing.T) {
	c, err := Words("en")
	if err != nil {
		t.Fatal(err)
	}
	for _, one := range []struct {
		names                  diag.Names
		cylinders, one, rotors string
	}{
		{diag.Names{"rear"}, "the rear cylinder", "the cylinder", "the rear rotor"},
		{diag.Names{"front", "rear"}, "the front and\u00a0rear cylinders", "the front and\u00a0rear cylinders", "the front and\u00a0rear rotors"},
		{diag.Names{"2"}, "cylinder\u00a02", "the cylinder", "rotor\u00a02"},
		{diag.Names{"1", "3"}, "cylinders\u00a01 and\u00a03", "cylinders\u00a01 and\u00a03", "rotors\u00a01 and\u00a03"},
	} {
		for of, want := range map[diag.Chambers]string{diag.OfCylinders: one.cylinders, diag.OfOneCylinder: one.one, diag.OfRotors: one.rotors} {
			said := text{source: &source{body: "{{cyl .Cylinders}}"}}
			if got, err := c.Of(of).say(said, diag.Facts{"Cylinders": one.names}); err != nil || got != want {
				t.Errorf("%v of chambers %d: %q %v, want %q", one.names, of, got, err, want)
			}
		}
	}
}

// Owners read whole percent, unless that would hide which side of a limit a
// figure is on.
func TestWholePercent(t *testing.T) {
	percent := func(v float64) diag.Number { return diag.Number{Value: v, Decimals: 1, Unit: "%"} }
	for _, one := range []struct {
		value any
		limit diag.Number
		want  string
	}{
		{percent(12.4), percent(10), "12\u00a0%"},
		{percent(10.3), percent(10), "10.3\u00a0%"},
		{percent(9.6), percent(10), "9.6\u00a0%"},
		{percent(10), percent(10), "10\u00a0%"},
		{percent(0.3), percent(10), "0.3\u00a0%"},
		{diag.Number{Value: 8.5, Decimals: 1, Unit: "bar"}, percent(10), "8.5\u00a0bar"},
		{"over 8.5 %", percent(10), "over 8.5 %"},
	} {
		if got := fmt.Sprint(Whole(one.value, one.limit)); got != one.want {
			t.Errorf("%v beside %v is %q, want %q", one.value, one.limit, got, one.want)
		}
	}
}
