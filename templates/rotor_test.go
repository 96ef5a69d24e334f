package templates

import (
	"testing"

	"gaugesheet/diag"
)

// Rotors that go by their place are never called cylinders.
func TestRotorsAreNoCylinders(t *testing.T) {
	for _, one := range []struct {
		names diag.Names
		want  string
	}{
		{diag.Names{"rear"}, "the rear rotor"},
		{diag.Names{"front", "rear"}, "the front and\u00a0rear rotors"},
		{diag.Names{"2"}, "cylinder\u00a02"},
		{diag.Names{"1", "3"}, "cylinders\u00a01 and\u00a03"},
	} {
		if got := cylinders(one.names); got != one.want {
			t.Errorf("%v: %q, want %q", one.names, got, one.want)
		}
	}
}
