package known

// heaterMost is the resistance, in ohm, over which a glow plug heats no more:
// plugs of every voltage read a few ohm at most. Common practice, no source.
const heaterMost = 50.0

// glowOpen reports a glow plug without a path for the current, in words or by
// what the meter shows of one.
func (c *Case) glowOpen(name string) bool {
	if c.wordOfCylinder(DieselTests, "glow", name) == "open" {
		return true
	}
	r := c.Measured(DieselTests)
	if r == nil {
		return false
	}
	m := r.Of("glow", name)
	return m != nil && m.Value > heaterMost
}
