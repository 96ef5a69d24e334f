package known

import (
	"slices"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
)

// GlazedSeen are the cylinders in which a glazed wall was seen.
func (c *Case) GlazedSeen() []string {
	return c.Those(func(n string) bool { return c.Seen(n, Glazed...) })
}

// OilyPlugs are the cylinders whose plugs are wet with oil.
func (c *Case) OilyPlugs() []string { return c.PlugsLooking("oil-wet") }

// GlazedDiesel is a diesel whose walls were seen to be glazed, and which uses oil, smokes or is
// short of power with no cylinder low: what a diesel comes to that never works hard.
var GlazedDiesel = OfEngine("a diesel with a glazed wall seen and no cylinder low, and oil use, white or blue smoke or low power told", func(c *Case) bool {
	return c.Spec.Diesel() && len(c.GlazedSeen()) > 0 && !c.AnyLow(c.Read()) && c.AllLow() == nil &&
		(c.UsesOil() || c.Complains("low power") || c.Smokes("white") || c.Smokes("blue"))
})

// GlazedAndOily is any other engine so seen that uses oil.
var GlazedAndOily = OfEngine("no diesel, a glazed wall seen and no cylinder low, and oil use told", func(c *Case) bool {
	return !c.Spec.Diesel() && len(c.GlazedSeen()) > 0 && !c.AnyLow(c.Read()) && c.AllLow() == nil && c.UsesOil()
})

// chargerParts are what none but a turbocharged engine has, in the words of a description or of
// findings.
var chargerParts = []string{"turbo", "intercooler", "boost hose", "boost pipe", "charge hose", "charge pipe", "charge air"}

// withCharger is a test of an engine of which it is not said whether it is charged, and of whose
// turbocharger the job tells all the same: it is so described, its boost was read, or a part
// of it was looked at.
func (c *Case) withCharger() *diag.Test {
	if c.Spec.Charging != "" {
		return c.Test
	}
	boost := c.Measured(diag.OtherReadings)
	told := c.History.Vehicle != "" && SpeaksOf(plainWords(c.History.Vehicle), "turbo") || c.findingSays(func(text string) bool { return SpeaksOf(text, chargerParts...) }) ||
		boost != nil && slices.ContainsFunc(boost.Readings, func(m diag.MeasuredReading) bool { return ofBoost(&m) })
	if !told {
		return c.Test
	}
	t := *c.Test
	t.Spec.Charging = "turbo"
	return &t
}

// BoostShort is the pressure of a charger that was read under its limit among the other
// readings, nil for none.
func (c *Case) BoostShort() (m *diag.MeasuredReading, clear bool) {
	if c.Spec.Charging != "turbo" {
		return nil, false
	}
	return WorstOf(c.Measured(diag.OtherReadings), boostUnder)
}

func boostUnder(m *diag.MeasuredReading) (bool, bool) {
	name := strings.ToLower(m.Name)
	if !ofBoost(m) && (!SpeaksOf(name, "manifold pressure") || quantity.DimensionOf(m.Unit) != quantity.Pressure) {
		return false, false
	}
	return Under(m)
}

// ofBoost is a reading of the pressure that a charger makes.
func ofBoost(m *diag.MeasuredReading) bool {
	name := strings.ToLower(m.Name)
	return quantity.DimensionOf(m.Unit) == quantity.Pressure && SpeaksOf(name, "boost", "charge pressure", "charging pressure") && !SpeaksOf(name, "leak", "actuator")
}

// BoostLow is that as a condition.
var BoostLow = OfEngine("a boost pressure under its limit among the other readings of a turbocharged engine", func(c *Case) bool { m, _ := c.BoostShort(); return m != nil })

// OilRunaway is a diesel whose oil stands over full, thinned by fuel: it may draw it in and run
// on it.
var OilRunaway = OfEngine("a diesel whose oil is over full of fuel", func(c *Case) bool {
	return c.Spec.Diesel() && (FuelRaisesOil.HoldsIn(c) || OilOverFull.HoldsIn(c))
})

// OilFeedsIdle is a petrol engine with fuel in its oil whose computer takes fuel out at idle,
// and much less at speed: the vapor comes by the crankcase's vent.
var OilFeedsIdle = OfEngine("fuel in the oil of an engine whose trims are under -10 % at idle and much nearer right at speed", func(c *Case) bool {
	return !c.Spec.Diesel() && FuelInTheOil.HoldsIn(c) && TrimRichIdle.HoldsIn(c)
})

// breatherCures is an engine that was found to need no correction with its crankcase shut off
// from what it draws in.
var breatherCures = pairs("breather|breather hose|pcv|vent hose|crankcase vent",
	"trim came back|trims came back|trim went to|trims went to|trim fell|trims fell|trim is right|trims are right|trims right|trim about 0|trims about 0")

// VentCleared is an engine whose crankcase ventilation was cleaned or renewed before the test.
var VentCleared = OfEngine("a crankcase ventilation that was cleaned or renewed", func(c *Case) bool {
	return len(c.History.WorkDone) > 0 && slices.ContainsFunc(c.Works(), func(w Work) bool { return SpeaksOf(w.Text, ventCleared...) })
})

// ventCleared are words of that.
var ventCleared = append(pairs("breather|ventilation|crankcase vent|pcv", "clean|cleaned|cleared|renewed|replaced"), "new breather", "new crankcase breather", "new pcv")

// BreatherCures is that.
var BreatherCures = FoundSo("trims that came right with the breather off", breatherCures)

// boosts reports the reading of the boost that its own rule speaks of.
func (c *Case) boosts(m *diag.MeasuredReading) bool {
	short, _ := c.BoostShort()
	return short == m
}
