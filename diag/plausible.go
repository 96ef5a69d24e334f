package diag

import (
	"math"
	"slices"
	"strings"

	"gaugesheet/diag/engine"
	"gaugesheet/diag/quantity"
)

// Usual is what pressures of one kind happen to be, to tell a figure that
// cannot be, and one that stands in another unit than it is said to. The
// figures are common practice, with a wide margin, except for Most.
type Usual struct {
	// Most is the pressure in psi beyond which none of the kind is believed;
	// +Inf where that is not known.
	Most      float64
	low, high float64 // kPa: what happens at all
	likely    [2]float64
	units     []quantity.Unit // in the order in which they are offered
	cranking  bool            // cylinders or rotors, which read much alike
}

// Bounds of belief, in psi: common practice, no source. A diesel of 25:1 cranks
// to some 500 psi, a spark-ignition engine of 15:1 to some 300; injection at
// the ports works under 75 psi and its pumps give up under 120.
const (
	mostBySpark   = 350
	mostDiesel    = 700
	mostFuelPorts = 120
)

var usualUnits = []quantity.Unit{quantity.PSI, quantity.Bar, quantity.KPa, quantity.KgfPerCm2, quantity.MPa}

// UsualCompression is what cylinders crank to. Spark tells that the engine is
// known to have spark plugs, whatever it burns.
func UsualCompression(s Spec, spark bool) Usual {
	if s.Diesel() {
		return Usual{mostDiesel, 250, 8000, [2]float64{1000, 5000}, usualUnits, true}
	}
	u := Usual{mostDiesel, 250, 3000, [2]float64{330, 2000}, usualUnits, true}
	if spark || s.Fuel != "" {
		u.Most = mostBySpark
	}
	return u
}

// UsualRotors is what the faces of a rotary engine crank to.
func UsualRotors() Usual {
	return Usual{mostBySpark, 100, 1800, [2]float64{350, 1200},
		[]quantity.Unit{quantity.KgfPerCm2, quantity.PSI, quantity.KPa, quantity.Bar, quantity.MPa}, true}
}

// usualFuel is by system; low and high in kPa.
var usualFuel = map[string]Usual{
	"carburettor":       {low: 4, high: 120, likely: [2]float64{14, 60}},
	"throttle body":     {low: 15, high: 350, likely: [2]float64{60, 250}},
	"port, return line": {low: 50, high: 900, likely: [2]float64{170, 500}},
	"port, no return":   {low: 50, high: 900, likely: [2]float64{250, 600}},
	"direct, low side":  {low: 50, high: 1500, likely: [2]float64{250, 800}},
}

// petrolSystems are the fuel systems that only petrol and the like run in, at
// low pressure.
var petrolSystems = []string{"carburettor", "throttle body", "port, return line", "port, no return"}

// UsualFuel is what a fuel system runs at. Gas and diesel go by pressures of
// their own, and so does the high side of direct injection.
func UsualFuel(s Spec, system string) Usual {
	u, known := usualFuel[system]
	if !known {
		u = Usual{low: 4, high: 400_000, likely: [2]float64{150, 700}}
	}
	u.units, u.Most = usualUnits, math.Inf(1)
	switch s.Fuel {
	case "petrol", "ethanol", "two-stroke mix":
		if !strings.HasPrefix(system, "direct") {
			u.Most = mostFuelPorts
		}
	case "":
		if slices.Contains(petrolSystems, system) {
			u.Most = mostFuelPorts
		}
	}
	return u
}

// UnitsLike gives the units in which a number would be likely, best first.
func (u Usual) UnitsLike(number float64) []quantity.Unit {
	var out []quantity.Unit
	for _, unit := range u.units {
		if kpa, err := quantity.Convert(number, unit, quantity.KPa); err == nil && kpa >= u.likely[0] && kpa <= u.likely[1] {
			out = append(out, unit)
		}
	}
	return out
}

// Suspects gives notices of the readings that do not suit their unit or their
// gauge: "unit-suspect" where no such engine reads so, or one reading stands
// far from the others; "reading-beyond-gauge" where the gauge's scale ends
// below the reading. All are taken as written.
func (t *Test) Suspects() []Notice {
	var out []Notice
	if c := t.Compression; c != nil {
		s := t.crankingEntries(c)
		out = append(out, s.unitSuspects(UsualCompression(t.Spec, t.hasPlugs()))...)
		out = append(out, s.beyond(t.Gauges.Compression)...)
	}
	if r := t.Rotors; r != nil {
		s := &entries{section: "rotors", unit: r.Unit}
		for _, rotor := range r.Rotors {
			for _, face := range rotor.Faces {
				s.add(entry{cylinder: rotor.Name, reading: "faces"}, face)
			}
		}
		out = append(out, s.unitSuspects(UsualRotors())...)
		out = append(out, s.beyond(t.Gauges.Compression)...)
	}
	if f := t.Fuel; f != nil {
		s := fuelEntries(f)
		out = append(out, s.unitSuspects(UsualFuel(t.Spec, f.System))...)
		out = append(out, s.beyond(t.Gauges.Fuel)...)
	}
	return out
}

// hasPlugs reports that spark plugs were looked at, or that the engine is one
// that cannot do without.
func (t *Test) hasPlugs() bool {
	return t.Plugs != nil && t.Plugs.State == Tested || t.Engine != nil && t.Engine.Kind == engine.Rotary
}

// crankingEntries sets first strokes and a running engine aside: they read far
// lower than a full cranking test.
func (t *Test) crankingEntries(c *Compression) *entries {
	s := &entries{section: "compression", unit: c.Unit}
	if i := slices.IndexFunc(c.Limits, func(l Limit) bool { return l.Kind == Minimum }); i >= 0 {
		s.minimum = &c.Limits[i]
	}
	for _, set := range []struct {
		reading string
		of      map[string]Reading
		aside   bool
	}{{"dry", c.Dry, false}, {"again", c.Again, false}, {"wet", c.Wet, false}, {"first", c.First, true}} {
		for _, name := range t.cylinders() {
			s.add(entry{cylinder: name, reading: set.reading, aside: set.aside}, set.of[name])
		}
	}
	for _, name := range t.cylinders() {
		for _, r := range []*Reading{c.Running[name].Idle, c.Running[name].Snap} {
			if r != nil {
				s.add(entry{cylinder: name, reading: "running", aside: true}, *r)
			}
		}
	}
	return s
}

// fuelEntries sets pressures aside that may have bled off.
func fuelEntries(f *FuelPressure) *entries {
	s := &entries{section: "fuel-pressure", unit: f.Unit}
	for i := range f.Circuits {
		c := &f.Circuits[i]
		for _, r := range c.readings() {
			s.add(entry{circuit: c.Name, reading: r.name}, *r.reading)
		}
		for _, h := range c.Hold {
			s.add(entry{circuit: c.Name, reading: hold, aside: true}, h.Reading)
		}
	}
	return s
}
