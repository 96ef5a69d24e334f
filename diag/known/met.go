package known

import (
	"slices"
	"strings"

	"gaugesheet/diag"
)

// DriveFailed reports that the drive of the valves broke or jumped, by what the
// job says of how the trouble came on and of what was found.
func (c *Case) DriveFailed() bool {
	if c.History.Onset == "" && len(c.History.Findings) == 0 {
		return false
	}
	told := strings.ToLower(strings.Join(append([]string{c.History.Onset}, c.History.Findings...), "; "))
	for _, drive := range []string{"belt", "chain"} {
		if SpeaksOf(told, drive+" broke", drive+" snapped", drive+" stripped", drive+" failed", drive+" jumped", drive+" slipped", drive+" let go",
			"broken "+drive, "snapped "+drive, "stripped "+drive, "failed "+drive, "jumped "+drive) {
			return !SpeaksOf(told, "drive belt", "fan belt", "alternator belt")
		}
	}
	return false
}

// Interferes reports an engine whose valves meet its pistons where their drive
// fails: one of which the job says so, and a diesel of which it says nothing,
// since its small chamber leaves them no room.
func (c *Case) Interferes() bool {
	return c.HasValves() && (c.Spec.Interference == diag.Yes || c.Spec.Interference != diag.No && c.Spec.Diesel())
}

// ValvesMayHaveMet reports an engine whose valves may have met its pistons: that
// is not ruled out, and their drive failed, or what a belt or chain drives was
// suddenly at fault.
func (c *Case) ValvesMayHaveMet() bool {
	driven := slices.Contains([]string{"belt", "chain"}, c.Spec.TimingDrive)
	return c.HasValves() && c.Spec.Interference != diag.No && (c.DriveFailed() || driven && c.CameSuddenly())
}
