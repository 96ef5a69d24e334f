package known

import (
	"slices"

	"gaugesheet/diag"
)

// What a reading of the job's own is of, by the name that it was given.
var (
	cableWords  = []string{"voltage drop", "volt drop", "volts dropped"}
	cableParts  = []string{"cable", "earth", "ground", "strap", "lead", "starter", "solenoid", "positive side", "negative side"}
	chargeWords = []string{"alternator", "charging", "lamp", "coil", "pump", "sensor"}
	railWords   = []string{"rail", "common rail"}
	lowSide     = []string{"low side", "feed", "return"}
)

// namedPast is a reading of the job's own that is past its limit on one side and is called so.
func namedPast(c *Case, over bool, is func(name string) bool) bool {
	r := c.Measured(diag.OtherReadings)
	return r != nil && slices.ContainsFunc(r.Readings, func(m diag.MeasuredReading) bool {
		past, _ := Past(&m)
		return past && m.AboveLimit() == over && is(m.Name)
	})
}

// CableDrops and RailLow are readings that nothing but their name tells of: what drops the
// volts between battery and starter, and what a diesel's injectors are fed by.
var (
	CableDrops = OfEngine("a drop of voltage along a cable of the starter over its limit", func(c *Case) bool {
		return namedPast(c, true, func(n string) bool { return Calls(n, cableWords) && Calls(n, cableParts) && !Calls(n, chargeWords) })
	})
	RailLow = OfEngine("a diesel's rail pressure under its limit", func(c *Case) bool {
		return c.Spec.Diesel() && namedPast(c, false, func(n string) bool { return Calls(n, railWords) && !Calls(n, lowSide) })
	})
)
