package known

import (
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/engine"
)

// TestRenewed: what people write of a part that was renewed, and of one that was
// only looked at, set, or renewed elsewhere or long ago.
func TestRenewed(t *testing.T) {
	for _, tt := range []struct {
		said, part, on string
		renewed        bool
	}{
		{"new rings", "rings", "3", true},
		{"rings renewed", "rings", "3", true},
		{"rings and valve job", "rings", "3", true},
		{"rings and valve job", "valve job", "3", true},
		{"new sleeves and pistons", "pistons", "1", true},
		{"head gasket", "headgasket", "1", true},
		{"head gasket renewed a week ago", "headgasket", "1", true},
		{"new head gasket", "new head", "1", false},
		{"new head bolts", "new head", "1", false},
		{"exhaust valve 3 renewed", "exhaust valve", "3", true},
		{"exhaust valve 3 renewed", "exhaust valve", "2", false},
		{"exhaust valves checked", "exhaust valves", "3", false},
		{"valves adjusted", "valves", "3", false},
		{"valves not renewed", "valves", "3", false},
		{"rings worn", "rings", "3", false},
		{"oil and filter changed, rings looked at", "rings", "3", false},
		{"new rings recommended", "rings", "3", false},
		{"rings renewed 20 years ago", "rings", "3", false},
		{"rings renewed two years ago", "rings", "3", true},
		{"injectors swapped", "injectors", "3", false},
	} {
		c := caseOf(t, engine.Spec{Layout: "inline-4"}, diag.History{WorkDone: []string{tt.said}})
		if got := wasRenewed(c, tt.on, tt.part); got != tt.renewed {
			t.Errorf("%q: %s renewed on %s: %v", tt.said, tt.part, tt.on, got)
		}
	}
	found := caseOf(t, engine.Spec{Layout: "inline-4"}, diag.History{Findings: []string{"new rings"}})
	if wasRenewed(found, "1", "rings") {
		t.Error("what was found is taken for work")
	}
	before := caseOf(t, engine.Spec{Layout: "inline-4"}, diag.History{})
	before.Before = &diag.Before{Done: "rings and valve job"}
	if !wasRenewed(before, "1", "rings") {
		t.Error("the work that the readings were taken for is not heard")
	}
}

func wasRenewed(c *Case, cylinder, part string) bool {
	return len(c.Renewed([]string{cylinder}, NewVocabulary([]Phrases{{part}}))) > 0
}
