package known_test

import (
	"testing"

	"gaugesheet/diag/known"
	"gaugesheet/diag/rule/sample"
)

// TestDustDrawnIn: dust is known by the trade's words for where it got past the filter, and
// neither by a filter that kept it out nor by what else is dirty.
func TestDustDrawnIn(t *testing.T) {
	for _, x := range []struct {
		finding string
		holds   bool
	}{
		{"Dust streak inside the hose between air cleaner and inlet manifold", true},
		{"dust in the hose between air cleaner and inlet manifold", true},
		{"air cleaner hose split, dirt drawn in", true},
		{"intake boot torn, it draws dust", true},
		{"hose split, dirt drawn in", true},
		{"grit on the turbo inlet", true},
		{"compressor wheel worn by grit", true},
		{"dusted engine", true},
		{"Engine has been dusted", true},
		{"dust in the inlet hose", true},
		{"sand in the intake tube", true},
		{"dust on the clean side", true},
		{"dirt past the element", true},
		{"air cleaner hose split behind the clamp, dust inside", true},
		{"dust in the air cleaner, clean side clean", false},
		{"dust in the air cleaner, none behind the element", false},
		{"inlet hose clean, dust on the fan cowl", false},
		{"no dust behind the filter", false},
		{"throttle body dirty, cleaned, more dirty in the throttle bore", false},
		{"two thousand km since the intake hose was changed", false},
		{"dust on the outside of the intake hose", false},
		{"engine not dusted", false},
		{"coolant hose split, dirt on the block", false},
		{"dust in the radiator fins", false},
	} {
		c := known.New(sample.Of("inline-4", sample.Found(x.finding)))
		if known.DustDrawnIn.HoldsIn(c) != x.holds {
			t.Errorf("%q: dust drawn in %v, want %v", x.finding, !x.holds, x.holds)
		}
	}
}
