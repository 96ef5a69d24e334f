package known

import (
	"math"
	"slices"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
)

// The sections of the further tests.
const (
	Starting     = "starting"
	Balance      = "balance"
	Injectors    = "injectors"
	Trims        = "trims"
	Gas          = "exhaust-gas"
	Crankcase    = "crankcase"
	BackPressure = "back-pressure"
	Cooling      = "cooling"
	Clearance    = "valves"
	Timing       = "timing"
	DieselTests  = "diesel"
)

// Figures for the cooling system. All but the limits are judgement, no source.
const (
	heldFor         = 5.0  // minutes
	fallsBy         = 1.0  // psi that it falls in that time before it leaks
	fallsPart       = 0.05 // or that part of what it was pumped to
	seepsPart       = 0.10 // or, watched for longer, that part for each
	seepsIn         = 30.0 // minutes: what seeps is lost slowly
	fallsMost       = 0.4  // and in whatever time, a night in which it cools among them
	capLow, capHigh = 0.9, 1.1
	thermostatApart = 3.0  // C from what it is marked
	thermostatOpen  = 12.0 // C over that by which it is fully open
	gasTestLeast    = 5.0  // minutes
)

// TurnsUnderLimit is the battery's voltage while the starter turns, or the speed, that is
// under its limit, nil for none.
func TurnsUnderLimit(r *diag.MeasuredResult) (*diag.MeasuredReading, bool) {
	for _, name := range []string{"battery cranking", "cranking"} {
		if m := r.Reading(name); m != nil {
			if under, clear := Under(m); under {
				return m, clear
			}
		}
	}
	return nil, false
}

// HeldCooling gives what the cooling system was pumped to and what it still held
// after a time; nil where it was not watched, or did not fall by more than it may.
func HeldCooling(r *diag.MeasuredResult) (from, to *diag.MeasuredReading) {
	from = r.Reading("pressure-test pumped-to")
	if from == nil {
		return nil, nil
	}
	allowed := math.Max(inPSI(fallsBy, from.Unit), fallsPart*from.Value)
	seeps := math.Max(inPSI(fallsBy, from.Unit), seepsPart*from.Value)
	for i := range r.Readings {
		m := &r.Readings[i]
		if m.Name != "pressure-test hold" {
			continue
		}
		minutes := minutesOf(m.At)
		most := allowed
		if minutes > heldFor {
			most = math.Min(seeps*math.Max(1, minutes/seepsIn), math.Max(allowed, fallsMost*from.Value))
		}
		if minutes > 0 && from.Value-m.Value > most+1e-9 {
			to = m
			return from, to
		}
	}
	return nil, nil
}

// CoolingSeeps reports a system of which no fall is a fast one: what is lost goes slowly, or at
// the tester's own joint.
func CoolingSeeps(r *diag.MeasuredResult) bool {
	from, to := HeldCooling(r)
	return to != nil && from.Value-to.Value <= math.Max(inPSI(fallsBy, from.Unit), fallsPart*from.Value)*math.Max(1, minutesOf(to.At)/heldFor)
}

// inPSI converts from psi to a unit.
func inPSI(v float64, unit quantity.Unit) float64 {
	out, _ := quantity.Convert(v, quantity.PSI, unit)
	return out
}

func minutesOf(at string) float64 {
	v, err := quantity.Parse(at)
	if err != nil {
		return 0
	}
	out, err := v.In(quantity.Minute)
	if err != nil {
		return 0
	}
	return out
}

// WetCylinders are the cylinders that were wet with coolant under pressure.
func (c *Case) WetCylinders() []string {
	r := c.Measured(Cooling)
	if r == nil || wetAt(r) != "inside" {
		return nil
	}
	return c.namedIn(strings.ToLower(r.Word("pressure-test seen")))
}

// CapOff is the pressure at which the cap opens beside what it is marked; nil
// where it opens where it should.
func CapOff(r *diag.MeasuredResult) (rated, opens *diag.MeasuredReading) {
	rated, opens = r.Reading("cap rated"), r.Reading("cap opens")
	if rated == nil || opens == nil {
		return nil, nil
	}
	v, _ := quantity.Convert(opens.Value, opens.Unit, rated.Unit)
	if v >= capLow*rated.Value && v <= capHigh*rated.Value {
		return nil, nil
	}
	return rated, opens
}

// ThermostatOff gives the marked temperature and the one that is off.
func ThermostatOff(r *diag.MeasuredResult) (rated, off *diag.MeasuredReading) {
	rated = r.Reading("thermostat rated")
	if rated == nil {
		return nil, nil
	}
	if m := r.Reading("thermostat starts"); m != nil && math.Abs(celsius(m)-celsius(rated)) > thermostatApart+tinyDegree {
		return rated, m
	}
	if m := r.Reading("thermostat open"); m != nil && celsius(m) > celsius(rated)+thermostatOpen+wholeDegree {
		return rated, m
	}
	return nil, nil
}

// wholeDegree is what a thermometer is read to in a pan of water.
const wholeDegree = 1.0

// tinyDegree is the rounding of degrees written in another unit.
const tinyDegree = 0.3

func celsius(m *diag.MeasuredReading) float64 {
	v, _ := quantity.Convert(m.Value, m.Unit, quantity.Celsius)
	return v
}

// Conditions on the cooling system.
var (
	CoolingFalls = OfTest(Cooling, "the pumped-up system fell by more than 1 psi and 5 % in 5 minutes, 1 psi and 10 % in half an hour or 40 % in any time, and nothing was wet outside", func(r *diag.MeasuredResult) bool {
		_, to := HeldCooling(r)
		return to != nil && (wetAt(r) == "dry" || wetAt(r) == "")
	})
	WarmClimbs   = OfTest(Cooling, "warmed up, and then ever hotter", func(r *diag.MeasuredResult) bool { return r.Word("warm then") == "climbs" })
	NeverWarm    = OfTest(Cooling, "never warm", func(r *diag.MeasuredResult) bool { return r.Word("warm then") == "never warm" })
	CoolantRusty = OfTest(Cooling, "rust in the coolant", func(r *diag.MeasuredResult) bool { return r.Word("coolant look") == "rust" })
	CoolingDry   = OfTest(Cooling, "dry outside under pressure", func(r *diag.MeasuredResult) bool { return wetAt(r) == "dry" })
	CoolingHolds = OfTest(Cooling, "the pumped-up system held", func(r *diag.MeasuredResult) bool {
		_, to := HeldCooling(r)
		return to == nil && r.Reading("pressure-test pumped-to") != nil && r.Reading("pressure-test hold") != nil && !slices.Contains([]string{"inside", "outside", "below", "oil"}, wetAt(r))
	})
	CoolingOutside = OfTest(Cooling, "wet outside under pressure", func(r *diag.MeasuredResult) bool { return wetAt(r) == "outside" })
	CoolingInside  = OfEngine("a cylinder was wet with coolant under pressure", func(c *Case) bool { return len(c.WetCylinders()) > 0 })
	CoolingOil     = OfTest(Cooling, "oil in the coolant", func(r *diag.MeasuredResult) bool { return wetAt(r) == "oil" || r.Word("coolant look") == "oil" })
	CoolingBubbles = OfTest(Cooling, "gas bubbles in the coolant", func(r *diag.MeasuredResult) bool { return r.Word("coolant look") == "gas bubbles" })
	CoolingRight   = OfTest(Cooling, "warmed up and then steady, and no thermostat that is off", func(r *diag.MeasuredResult) bool {
		_, off := ThermostatOff(r)
		return r.Word("warm then") == "steady" && off == nil
	})
	CapWeak        = OfTest(Cooling, "the cap opens under 90 % or over 110 % of what it is marked", func(r *diag.MeasuredResult) bool { _, off := CapOff(r); return off != nil })
	ThermostatGood = OfTest(Cooling, "the thermostat starts within 3 C of what it is marked, and is open by 12 C over it where that was read", func(r *diag.MeasuredResult) bool {
		_, off := ThermostatOff(r)
		return off == nil && r.Reading("thermostat rated") != nil && r.Reading("thermostat starts") != nil
	})
	ThermostatEarly = OfTest(Cooling, "the thermostat starts more than 3 C under what it is marked", func(r *diag.MeasuredResult) bool {
		rated, off := ThermostatOff(r)
		return off != nil && celsius(off) < celsius(rated)
	})
	ThermostatBad = OfTest(Cooling, "the thermostat starts more than 3 C from what it is marked, or is not open by 12 C over it", func(r *diag.MeasuredResult) bool { _, off := ThermostatOff(r); return off != nil })
)
