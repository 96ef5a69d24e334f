package known

import (
	"slices"
	"strings"

	"gaugesheet/diag"
)

// DriveFailed reports that the drive of the valves broke or jumped, by what the
// job says of how the trouble came on and of what was found.
func (c *Case) DriveFailed() bool {
	if c.History.Onset == "" && len(c.History.Findings)+len(c.History.WorkDone) == 0 {
		return false
	}
	return remembered(&c.driveFailed, func() bool {
		told := c.toldOfDrive()
		names := func(drive string) bool { return strings.Contains(told, drive) }
		return slices.ContainsFunc(drives, names) && SpeaksOf(told, driveFailures...) && !SpeaksOf(told, "drive belt", "fan belt", "alternator belt")
	})
}

// DriveBroken reports a belt or chain that is gone, so that no marks are left to compare.
func (c *Case) DriveBroken() bool {
	if !c.DriveFailed() {
		return false
	}
	done := strings.ToLower(strings.Join(c.History.WorkDone, "; "))
	return SpeaksOf(c.toldOfDrive(), "snapped", "broke", "broken", "shredded", "come off", "came off", "stripped", "lost its teeth") &&
		!SpeaksOf(done, "renewed", "replaced", "changed", "fitted", "new belt", "new chain", "new timing", "new cam")
}

// DriveToldGone is an engine that does not start, of which it is told that what drives its
// valves broke or jumped, and not that it was renewed since; not one whose cylinders read
// as they do with a drive that works.
var DriveToldGone = OfEngine("it does not start, what drives its valves is told to have broken or jumped and not to have been renewed, and its cylinders were not read or are not good", func(c *Case) bool {
	good := c.DryRead() && len(c.Graded(diag.Even)) > 0 && c.AllLow() == nil && len(c.LowSet()) == 0 && len(c.Engine.Cylinders) > 1
	return c.HasValves() && c.WillNotStart() && c.DriveFailed() && !c.TimingTouched() && !good
})

// toldOfDrive is all that may tell of the drive of the valves, as one text.
func (c *Case) toldOfDrive() string {
	return strings.ToLower(strings.Join(slices.Concat([]string{c.History.Onset}, c.History.Findings, c.History.WorkDone), "; "))
}

// drives are what drives the valves.
var drives = []string{"belt", "cambelt", "chain", "timing gear", "timing gears"}

// driveFailures are words for a belt or chain that no longer drives the valves as
// it did.
var driveFailures = func() []string {
	var list []string
	for _, drive := range drives {
		for _, is := range []string{" ", " had ", " has ", " was ", " is ", " found "} {
			for _, failed := range []string{"broke", "snapped", "stripped", "failed", "jumped", "slipped", "let go", "shredded", "come off", "came off", "torn", "lost its teeth", "lost teeth"} {
				list = append(list, drive+is+failed)
			}
		}
		for _, failed := range []string{"broken ", "snapped ", "stripped ", "failed ", "jumped ", "shredded ", "torn "} {
			list = append(list, failed+drive, failed+"timing "+drive, failed+"cam "+drive)
		}
	}
	return list
}()

// overSped are words of an engine that was turned faster than its valves follow.
var overSped = append([]string{"over rev", "overrev", "over speed", "overspeed", "money shift", "bounced off the limiter"}, pairs("missed|wrong|botched|fluffed", "gear|shift|change|downshift")...)

// mayMeet reports an engine whose valves may meet its pistons: nobody says that they cannot.
func (c *Case) mayMeet() bool { return c.HasValves() && c.Spec.Interference != diag.No }

// OverSped reports an engine with valves that its pistons may meet, which was turned too
// fast by how the trouble came on or by what was found: a valve that floats is hit.
func (c *Case) OverSped() bool {
	return c.mayMeet() && c.told(overSped...)
}

// MetByTheStory is an engine whose valves its pistons may have met by what is told of it: it
// was over-revved, or what drives them broke.
var MetByTheStory = OfEngine("turned too fast (a missed gear), or a belt or chain that drives the valves broke or jumped, and not said that valves and pistons cannot meet", func(c *Case) bool {
	return c.OverSped() || c.mayMeet() && c.DriveFailed()
})

// RenewedAfterFailing is an engine that does not run, or whose trouble came suddenly,
// although the belt or chain that drives its valves is new: what made that
// necessary may have bent them. Where none has any pressure it is the new one that
// drives none of them.
func (c *Case) RenewedAfterFailing() bool {
	return c.TimingTouched() && !c.Dead() && (c.Complains("no start") || c.Spec.Runs == "does not run" || c.CameSuddenly() || c.DriveFailed())
}

// Interferes reports an engine whose valves meet its pistons where their drive
// fails: one of which the job says so, and a diesel of which it says nothing,
// since its small chamber leaves them no room.
func (c *Case) Interferes() bool {
	return c.mayMeet() && (c.Spec.Interference == diag.Yes || c.Spec.Diesel())
}

// ValvesMayHaveMet reports an engine whose valves may have met its pistons: that
// is not ruled out, and their drive failed, or what a belt or chain drives was
// suddenly at fault.
func (c *Case) ValvesMayHaveMet() bool {
	return c.mayMeet() && (c.DriveFailed() || c.DriveNamed() != "" && c.CameSuddenly() || c.RenewedAfterFailing())
}
