package known

import "slices"

// CoolantShows reports that something speaks of coolant in these cylinders, or
// of gas in the coolant: a complaint, smoke, a plug, what was seen, bubbles, or
// the test for gas.
func (c *Case) CoolantShows(cylinders []string) bool {
	if c.CoolantGas == "positive" || c.Complains("coolant loss", "overheating") || c.History.Smoke.Colour == "white" {
		return true
	}
	return slices.ContainsFunc(cylinders, func(n string) bool {
		return c.Looks(n, "coolant") || c.LeaksAt(n, AtCoolant) || c.Seen(n, WashedCrown...)
	})
}
