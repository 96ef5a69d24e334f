package templates

import (
	"testing"

	"gaugesheet/diag"
)

// Rotors that go by their place are never called cylinders.
func TestRotorsAreNoCylinders(t *testing.T) {
	c, err := Words("en")
	if err != nil {
		t.Fatal(err)
	}
	for _, one := range []struct {
		names diag.Names
		want  string
	}{
		{diag.Names{"rear"}, "the rear rotor"},
		{diag.Names{"front", "rear"}, "the front and\u00a0rear rotors"},
		{diag.Names{"2"}, "cylinder\u00a02"},
		{diag.Names{"1", "3"}, "cylinders\u00a01 and\u00a03"},
	} {
		if got, err := c.cylinders(one.names); got != one.want || err != nil {
			t.Errorf("%v: %q, %v, want %q", one.names, got, err, one.want)
		}
	}
}
