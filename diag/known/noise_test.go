package known

import (
	"slices"
	"testing"
)

// TestHear holds what is read of where a noise is to what was said of each place.
func TestHear(t *testing.T) {
	for _, row := range []struct{ said, loud, quiet string }{
		{"stethoscope: block quiet, bell housing loud", NoiseAtPlate, NoiseAtBlock},
		{"knock loudest at the bell housing with a stethoscope; timing cover, heads and block quiet", NoiseAtPlate, NoiseAtDrive + NoiseAtHead + NoiseAtBlock},
		{"stethoscope: quiet at the block, loud at the bell housing", NoiseAtPlate, NoiseAtBlock},
		{"stethoscope: loud at the bell housing and the block quiet", NoiseAtPlate, NoiseAtBlock},
		{"bell housing loud and block quiet by stethoscope", NoiseAtPlate, NoiseAtBlock},
		{"knock is not at the block but at the front cover", NoiseAtDrive, NoiseAtBlock},
		{"nothing heard at the sump, knock comes from the valve cover", NoiseAtHead, NoiseAtBlock},
		{"noise source: loudest at the block", NoiseAtBlock, ""},
		{"noise source: at the block", NoiseAtBlock, ""},
		{"stethoscope on the oil pan: loud", NoiseAtBlock, ""},
		{"knock loudest at the block, quiet with injector 3 off", NoiseAtBlock, ""},
		{"stethoscope: no knock at the head, loud at the sump", NoiseAtBlock, NoiseAtHead},
		{"finding the noise: loudest elsewhere", "", ""},
		{"knock does not change with any cylinder off", "", ""},
	} {
		var h heard
		h.hear(row.said, slices.ContainsFunc(listened, func(x string) bool { return has(row.said, x) }))
		join := func(list []string) (all string) {
			for _, one := range list {
				all += one
			}
			return all
		}
		if join(h.loud) != row.loud || join(h.quiet) != row.quiet {
			t.Errorf("%q: loud %q quiet %q, want %q and %q", row.said, h.loud, h.quiet, row.loud, row.quiet)
		}
	}
}
