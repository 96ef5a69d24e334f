package job

import (
	"strings"
	"testing"
)

// TestSeenAndNotSeen: carbon is seen on valves as on a seat, and that there is no
// smoke is an answer.
func TestSeenAndNotSeen(t *testing.T) {
	mustRead(t, "engine: {layout: inline-4}\nborescope: {1: {valves: carbon, seat: carbon}}\n")
	if j := mustRead(t, "engine: {layout: inline-4}\nsmoke: {colour: none}\ncompression: {unit: psi, dry: [150, 151, 149, 150]}\n"); j.Test().History.Smoke.Colour != "none" {
		t.Errorf("smoke %q, expected none", j.Test().History.Smoke.Colour)
	}
	_, problems := Read("job.yaml", []byte("engine: {layout: inline-4}\ncompression: {unit: psi, dry: [150, almost nothing, 149, 151]}\n"), nil)
	if len(problems) != 1 || !strings.Contains(problems[0].Hint, "'no pressure'") {
		t.Errorf("almost nothing: %v, expected one with a hint that offers 'no pressure'", problems)
	}
}
