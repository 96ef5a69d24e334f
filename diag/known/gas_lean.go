package known

import "slices"

// LeanOnce is a trim that adds much fuel at the one speed at which that bank's was read: what
// it does at another is not known. False where the banks are told apart by it.
func (c *Case) LeanOnce() (Trim, bool) {
	if _, _, apart := c.BanksApart(); apart {
		return Trim{}, false
	}
	for _, t := range c.Trims() {
		other := slices.ContainsFunc(c.Trims(), func(o Trim) bool { return o.Bank == t.Bank && o.Speed != t.Speed })
		if t.Sum > trimFar && !other {
			return t, true
		}
	}
	return Trim{}, false
}

// AddsMost is the trim that adds most fuel, of those that add much; false for none.
func (c *Case) AddsMost() (most Trim, ok bool) {
	for _, t := range c.Trims() {
		if t.Sum > max(trimFar, most.Sum) {
			most, ok = t, true
		}
	}
	return most, ok
}

// SootyWhereLean are the sooty plugs of an engine to which the computer adds much fuel and from
// which it takes none: most of those looked at, of both banks where there are two.
func (c *Case) SootyWhereLean() []string {
	_, adds := c.AddsMost()
	_, takes := c.TakesOut()
	such := c.Looking("sooty")
	if !adds || takes || len(such) < 2 || 2*len(such) <= len(c.PlugsRead()) || !c.PlugsSpeakForAll() || c.Engine.IsTwoBank() && c.BankOfAll(such) >= 0 {
		return nil
	}
	return such
}

// RicherInFact reports soot on the plugs of the bank alone from which such trims take fuel: what its
// sensor reports is its own.
func (c *Case) RicherInFact() bool {
	rich, _, opposed := c.opposed(func(Trim) bool { return true })
	sooty := c.Looking("sooty", "fuel-wet")
	return opposed && len(sooty) > 0 && c.BankOfAll(sooty) == c.bankOfTrim(rich)
}
