package known

import "slices"

// told reports that the job says one of these of how the trouble came on, of how the vehicle
// came in, or among the technician's findings.
func (c *Case) told(words ...string) bool {
	for _, text := range append([]string{c.History.Onset, c.History.Arrival}, c.History.Said...) {
		if text != "" && SpeaksOf(c.workOf(text).Text, words...) {
			return true
		}
	}
	return c.Found(words...)
}

// Ails reports an engine of which something is complained, by word or by a stored code, or
// that runs roughly or not at all.
func (c *Case) Ails() bool {
	return len(c.Complaints()) > 0 || len(c.History.Complaints) > 0 || len(c.History.OwnWords) > 0 || len(c.History.Codes) > 0 || c.Spec.Runs == "rough" || c.Spec.Runs == "does not run"
}

// flashes are words of the engine light that flashes: the computer's own sign that what a
// cylinder leaves unburned overheats the catalyst.
var flashes = pairs("light|lamp|mil|cel|check engine", "flash|blink")

// LightFlashes is an engine light that was seen to flash.
var LightFlashes = OfEngine("the engine light is said to flash", func(c *Case) bool { return c.told(flashes...) })

// misfiresByLight is an engine that its own light calls one that misfires: it flashes for
// nothing else.
func (c *Case) misfiresByLight() bool { return !c.Spec.Diesel() && LightFlashes.HoldsIn(c) }

// SendsRaw reports a cylinder that a code names and whose fuel does not burn: its plug is
// wet with it, or the speed does not fall without it.
func (c *Case) SendsRaw(name string) bool {
	_, named := c.MisfireCodes()
	return slices.Contains(named, name) && (c.Looks(name, "fuel-wet") || PullsNothing.HoldsOf(c, name) && BalanceTells.HoldsOf(c, name))
}

// MissesByPressure reports a cylinder that is low in an engine that misfires, where no code
// names others: what is complained of was found, and goes on until it is mended.
func (c *Case) MissesByPressure(name string) bool {
	_, named := c.MisfireCodes()
	return c.Complains("misfire") && c.Starts() && c.Grade(name).IsLow() && (len(named) == 0 || slices.Contains(named, name))
}

// SendsFuelRaw is an engine with injection and a catalyst that runs and of which a cylinder
// sends its fuel unburned into it.
var SendsFuelRaw = OfEngine("an engine with injection and a catalyst that runs and misfires, whose light flashes, or of which a cylinder that a misfire code names has a plug wet with fuel or is not missed with its spark off", func(c *Case) bool {
	if !c.Injected() || !c.MayHaveCatalyst() || !c.Starts() || !c.Complains("misfire") {
		return false
	}
	return LightFlashes.HoldsIn(c) || len(c.Those(c.SendsRaw)) > 0
})

// tooLowToFire is the part of the others' pressure, in percent, from which down a cylinder may
// not fire at all: judgement, no source.
const tooLowToFire = 75

// MissingByPressure are the cylinders of an engine that misfires that hold too little pressure
// to fire, where not more than half of the engine is low and no code names others.
func (c *Case) MissingByPressure() []string {
	low := c.LowSet()
	if 2*len(low) > len(c.Every()) || c.AllLow() != nil {
		return nil
	}
	var names []string
	for _, n := range low {
		if r := c.Cylinder(n); c.MissesByPressure(n) && c.PartOfReference(r).Value <= tooLowToFire {
			names = append(names, n)
		}
	}
	return names
}

// PlugApart is the one plug of several that is wet with fuel or sooty, where no cylinder is
// low and no code of misfiring names others; none where it is not one alone.
func (c *Case) PlugApart() []string {
	_, named := c.MisfireCodes()
	such := c.Looking("fuel-wet", "sooty")
	if c.PatternOf(such) != OnOne || len(c.PlugsRead()) < 2 || len(c.LowSet()) > 0 || c.AllLow() != nil || len(named) > 0 && !slices.Equal(named, such) {
		return nil
	}
	return such
}

// MissingByWork are the cylinders of an engine that runs and misfires that are not missed when
// they are off, or of which a valve was measured to open too little, less than half of all and
// none of the engine low; no code of misfiring names others.
func (c *Case) MissingByWork() []string {
	if !c.Complains("misfire") || !c.Starts() || c.Measured(Balance) == nil && c.Measured(Clearance) == nil || c.AnyLow(c.Read()) {
		return nil
	}
	_, named := c.MisfireCodes()
	idle := c.Those(func(n string) bool { return PullsNothing.HoldsOf(c, n) && BalanceTells.HoldsOf(c, n) || c.LiftFar(n) })
	if 2*len(idle) >= len(c.Every()) || slices.ContainsFunc(named, func(n string) bool { return !slices.Contains(idle, n) }) {
		return nil
	}
	return idle
}

// MissingByPlug are the plugs of an engine that runs and misfires that are wet with fuel or
// sooty, half of those read at most and in no bank all of them: what all the cylinders of a
// sensor share makes it read lean, and these sooty. No cylinder is low, and no code of misfiring
// names others.
func (c *Case) MissingByPlug() []string {
	if !c.Complains("misfire") || !c.Starts() {
		return nil
	}
	if one := c.PlugApart(); one != nil {
		return one
	}
	_, named := c.MisfireCodes()
	such := c.Looking("fuel-wet", "sooty")
	if 2*len(such) > len(c.PlugsRead()) || len(c.LowSet()) > 0 || c.AllLow() != nil || slices.ContainsFunc(named, func(n string) bool { return !slices.Contains(such, n) }) {
		return nil
	}
	for _, n := range such {
		beside := slices.ContainsFunc(c.PlugsRead(), func(m string) bool { return c.Engine.BankOf(m) == c.Engine.BankOf(n) && !slices.Contains(such, m) })
		if !beside {
			return nil
		}
	}
	return such
}

// LeanOnlyThere reports a cylinder to whose bank alone, or to the only one, the computer adds
// much fuel.
func (c *Case) LeanOnlyThere(name string) bool {
	return !slices.ContainsFunc(c.Trims(), func(t Trim) bool {
		return t.Sum > trimFar && c.Engine.IsTwoBank() && c.bankOfTrim(t) != c.Engine.BankOf(name)
	})
}
