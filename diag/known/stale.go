package known

// staleMonths is how long gasoline stands before it lights badly and leaves gum in jets:
// common practice, no source.
const staleMonths = 3

// freshFuel are words of fuel that was renewed before the test.
var freshFuel = []string{"fresh fuel", "fresh gas", "fresh gasoline", "fresh petrol", "fresh mix", "new fuel", "fuel drained", "fuel changed", "fuel renewed", "tank drained"}

// noSpark are words of a spark that was found missing or weak.
var noSpark = []string{"no spark", "weak spark", "yellow spark", "spark is weak", "spark weak", "spark missing"}

// FuelOld is an engine whose fuel stood in it for long, and that has a complaint which did not come suddenly.
var FuelOld = OfEngine("an engine lit by a spark on liquid fuel that stood 3 months or more, or whose trouble began as it had stood; not suddenly, nor where the fuel is said to be new", func(c *Case) bool {
	stood := c.History.StoodMonths >= staleMonths || c.History.StoodMonths == 0 && CameOfStanding.HoldsIn(c)
	return stood && !c.Spec.Diesel() && !c.GasFuel() && (c.SparkLit() || c.FlywheelMagneto()) && !c.CameSuddenly() && !c.WorkDone(freshFuel...)
})

// FuelStood is such an engine that does not start, or badly, while nothing of what was read is why.
var FuelStood = All(FuelOld, Complaint("no start", "hard start", "lean running", Hunting), OfEngine("no spark found missing or weak, not every plug wet with fuel, no cylinder low beside others, and, where it was read, pressure enough to fire", func(c *Case) bool {
	return !c.WorkDone(noSpark...) && !c.EveryPlugWet() && len(c.LowSet()) == 0 && (!c.DryRead() || c.MayFire())
}))

// firesFrom is the part of what nearly any four-stroke gives from which one still fires: judgement,
// no source. A two-stroke has to have what its kind usually gives.
const firesFrom = 0.6

// MayFire reports an engine that was read and has pressure enough to fire, or what its
// decompressor leaves of it; Fires is that pressure, "" for none.
func (c *Case) MayFire() bool {
	s, floor := c.Cranking(), c.lowestFloor()
	if !c.DryRead() || s.N == 0 || floor == nil || c.Dead() || c.UnitSuspect() || c.ThrottleShut() {
		return false
	}
	switch {
	case c.Spec.TwoStroke:
		return s.Highest >= floor.Enough
	case c.Spec.Decompressor == "automatic":
		return s.Highest >= c.Released()
	}
	return s.Highest >= firesFrom*floor.Low
}

// Fires is the pressure of such an engine that is held against it by an owner who asks why it does
// not start.
func (c *Case) Fires() string {
	if !c.MayFire() || !c.WillNotStart() {
		return ""
	}
	return c.Span(c.Cranking().Lowest, c.Cranking().Highest)
}
