package known_test

import (
	"testing"

	"gaugesheet/diag/known"
	"gaugesheet/diag/rule/sample"
)

// TestDustDrawnIn: dust is known by the trade's words for where it got past the filter, and
// neither by a filter that kept it out nor by what else is dirty.
func TestDustDrawnIn(t *testing.T) {
	for _, finding := range []string{
		"Dust streak inside the hose between air cleaner and inlet manifold",
		"dust in the hose between air cleaner and inlet manifold",
		"air cleaner hose split, dirt drawn in",
		"intake boot torn, it draws dust",
		"hose split, dirt drawn in",
		"grit on the turbo inlet",
		"compressor wheel worn by grit",
		"dusted engine",
		"Engine has been dusted",
		"dust in the inlet hose",
		"sand in the intake tube",
		"dust on the clean side",
		"dirt past the element",
		"air cleaner hose split behind the clamp, dust inside",
	} {
		if !drawnIn(finding) {
			t.Errorf("%q: no dust drawn in", finding)
		}
	}
	for _, finding := range []string{
		"dust in the air cleaner, clean side clean",
		"dust in the air cleaner, none behind the element",
		"inlet hose clean, dust on the fan cowl",
		"no dust behind the filter",
		"throttle body dirty, cleaned, more dirty in the throttle bore",
		"two thousand km since the intake hose was changed",
		"dust on the outside of the intake hose",
		"engine not dusted",
		"coolant hose split, dirt on the block",
		"dust in the radiator fins",
	} {
		if drawnIn(finding) {
			t.Errorf("%q: dust drawn in", finding)
		}
	}
}

func drawnIn(finding string) bool {
	return known.DustDrawnIn.HoldsIn(known.New(sample.Of("inline-4", sample.Found(finding))))
}
