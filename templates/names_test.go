package templates

import (
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
		names             diag.Names
		cylinders, rotors string
	}{
		{diag.Names{"rear"}, "the rear cylinder", "the rear rotor"},
		{diag.Names{"front", "rear"}, "the front and\u00a0rear cylinders", "the front and\u00a0rear rotors"},
		{diag.Names{"2"}, "cylinder\u00a02", "rotor\u00a02"},
		{diag.Names{"1", "3"}, "cylinders\u00a01 and\u00a03", "rotors\u00a01 and\u00a03"},
	} {
		for rotary, want := range map[bool]string{false: one.cylinders, true: one.rotors} {
			said := text{source: &source{body: "{{cyl .Cylinders}}"}}
			if got, err := c.Of(rotary).say(said, diag.Facts{"Cylinders": one.names}); err != nil || got != want {
				t.Errorf("%v of a rotary %t: %q %v, want %q", one.names, rotary, got, err, want)
			}
		}
	}
}
