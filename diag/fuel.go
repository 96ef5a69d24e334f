package diag

import (
	"math"

	"gaugesheet/diag/air"
	"gaugesheet/diag/gauge"
	"gaugesheet/diag/quantity"
)

// Readings of a circuit, as FuelReading.Name and FuelLimit.For have them.
const (
	keyOn         = "key-on"
	idle          = "idle"
	hoseOff       = "hose-off"
	snap          = "snap"
	returnPinched = "return-pinched"
	hold          = "hold"
	volume        = "volume"
)

type namedReading struct {
	name    string
	reading *Reading
}

// readings lists what was read of a circuit, in the order of the test.
func (c *Circuit) readings() []namedReading {
	all := []namedReading{{keyOn, c.KeyOn}, {idle, c.Idle}, {hoseOff, c.HoseOff}, {snap, c.Snap}, {returnPinched, c.ReturnPinched}}
	var taken []namedReading
	for _, r := range all {
		if r.reading != nil {
			taken = append(taken, r)
		}
	}
	return taken
}

func assessFuel(t *Test) *FuelResult {
	section := t.Fuel
	if section == nil {
		return nil
	}
	vacuum := t.idleVacuumKPa()
	var readings []Reading
	var states []State
	for i := range section.Circuits {
		c := &section.Circuits[i]
		for _, r := range c.readings() {
			readings = append(readings, *r.reading)
		}
		for _, h := range c.Hold {
			readings = append(readings, h.Reading)
		}
		// A look into the regulator's hose is a test without a number.
		if c.VolumeML > 0 || c.FuelInHose == "yes" || c.FuelInHose == "no" {
			states = append(states, Tested)
		}
	}
	for _, r := range readings {
		states = append(states, r.State)
	}
	tool := newInstrument(t.Gauges.Fuel, readings, inReadings(gauge.DefaultFuel, section.Unit), telling{})
	r := &FuelResult{
		State:    sectionState(section.State, states),
		Unit:     section.Unit,
		Decimals: decimals(t.Gauges.Fuel, section.Unit),
	}
	for i := range section.Circuits {
		c := section.Circuits[i]
		if vacuum != nil { // read on a gauge of its own, and not noted beside the rail
			c.ManifoldVacuum = vacuum
		}
		r.Circuits = append(r.Circuits, assessCircuit(t, &c, tool))
	}
	return r
}

func assessCircuit(t *Test, c *Circuit, tool instrument) CircuitResult {
	r := CircuitResult{Name: c.Name}
	for _, n := range c.readings() {
		if value, ok := n.reading.last(telling{}); ok {
			one := fuelReading(n, value, c, tool)
			if t.Gauges.Fuel.beyond(*n.reading) {
				one.BeyondGauge, one.Verdict, one.PastAsRead = true, NotJudged, false
			}
			r.Readings = append(r.Readings, one)
		}
	}
	for _, h := range c.Hold {
		if value, ok := h.last(telling{}); ok {
			point := holdPoint(h, value, c, tool)
			if t.Gauges.Fuel.beyond(h.Reading) {
				point.Verdict, point.PastAsRead = NotJudged, false
			}
			r.Hold = append(r.Hold, point)
		}
	}
	r.regulator(c, t.Fuel.Unit, tool)
	r.flow(c, t)
	r.Volume = c.volume()
	return r
}

// last is the reading's settled value, or the last of repeats that disagree.
func (r Reading) last(tells telling) (float64, bool) {
	if v, ok := r.settled(tells); ok {
		return v, true
	}
	if r.State != Tested || len(r.Values) == 0 {
		return 0, false
	}
	v := r.Values[len(r.Values)-1]
	return v, finite(v)
}

func fuelReading(n namedReading, value float64, c *Circuit, tool instrument) FuelReading {
	r := FuelReading{
		Name: n.name, Value: value, Entered: n.reading.Entered, Verdict: NotJudged, Disagree: disagree(n.reading.Values, telling{}), Bound: n.reading.Kind == AtLeast,
		Uncertainty: tool.againstBook(value, tool.standard(*n.reading)),
	}
	l := c.limit(func(l FuelLimit) bool { return l.For == n.name })
	if l == nil {
		return r
	}
	r.LimitLow, r.LimitHigh = finiteOrNil(l.Low), finiteOrNil(l.High)
	r.LimitEntered, r.Source = l.Entered, l.Source
	r.Verdict, r.PastAsRead = judgeRepeats(*n.reading, value, l.Low, l.High, r.Uncertainty)
	return r
}

// holdPoint holds a timed pressure against the limit that holdLimit gives.
func holdPoint(h HoldReading, value float64, c *Circuit, tool instrument) HoldPoint {
	p := HoldPoint{
		Minutes: h.Minutes, Value: value, Entered: h.Entered, Verdict: NotJudged,
		Uncertainty: tool.againstBook(value, tool.standard(h.Reading)),
	}
	l := c.holdLimit(h.Minutes)
	if l == nil {
		return p
	}
	p.LimitLow, p.LimitHigh, p.LimitEntered, p.LimitMinutes = finiteOrNil(l.Low), finiteOrNil(l.High), l.Entered, l.Minutes
	p.Verdict, p.PastAsRead = judgeRepeats(h.Reading, value, l.Low, l.High, p.Uncertainty)
	early, late := p.Minutes < l.Minutes-tiny, l.Minutes > 0 && p.Minutes > l.Minutes+tiny
	if early && !p.PastAsRead || late && p.Verdict != Within {
		p.Verdict, p.PastAsRead = NotJudged, false
	}
	return p
}

// holdLimit gives the limit for a time, or one that names none; else the first
// for another time. Pressure that is shut in falls: what is under a limit
// before its time is under it then, and what is above it after its time was so
// before; nothing else can be said across times.
func (c *Circuit) holdLimit(minutes float64) *FuelLimit {
	for _, fits := range []func(float64) bool{
		func(m float64) bool { return math.Abs(m-minutes) < tiny },
		func(m float64) bool { return m == 0 },
		func(m float64) bool { return m > minutes && minutes > 0 },
		func(m float64) bool { return minutes > 0 },
	} {
		if l := c.limit(func(l FuelLimit) bool { return l.For == hold && fits(l.Minutes) }); l != nil {
			return l
		}
	}
	return nil
}

// limit gives the first limit that fits, nil where none does.
func (c *Circuit) limit(fits func(FuelLimit) bool) *FuelLimit {
	for i := range c.Limits {
		if fits(c.Limits[i]) {
			return &c.Limits[i]
		}
	}
	return nil
}

func finiteOrNil(v float64) *float64 {
	if !finite(v) {
		return nil
	}
	return &v
}

// reliable reports a reading that sums may be made with.
func (r *FuelReading) reliable() bool { return !r.Disagree && !r.BeyondGauge }

// regulator fills how much the pressure rose when the hose came off, and how
// much the manifold's vacuum should make it rise.
func (r *CircuitResult) regulator(c *Circuit, unit quantity.Unit, tool instrument) {
	on, off := r.Reading(idle), r.Reading(hoseOff)
	if on != nil && off != nil && on.reliable() && off.reliable() {
		r.RegulatorRise = ref(off.Value - on.Value)
		r.RegulatorRiseU = gauge.Expanded(tool.standard(*c.Idle), tool.standard(*c.HoseOff))
	}
	if v, ok := c.vacuum(unit); ok {
		r.ExpectedRise = &v
	}
}

// vacuum is the manifold's, in the unit of the rail pressure.
func (c *Circuit) vacuum(unit quantity.Unit) (float64, bool) {
	if c.ManifoldVacuum == nil {
		return 0, false
	}
	v, err := air.RegulatorRise(quantity.Value{Number: *c.ManifoldVacuum, Unit: quantity.KPa}, unit)
	return v, err == nil
}

// flow fills what an injector delivers in percent of what it would at the
// middle of the key-on limit. The rail pressure with the engine off is the
// pressure across the injector; at idle that is rail plus manifold vacuum, and
// it is used where both were read.
func (r *CircuitResult) flow(c *Circuit, t *Test) {
	l := c.limit(func(l FuelLimit) bool { return l.For == keyOn })
	if l == nil || !feedsInjectors(t) {
		return
	}
	wanted := (l.Low + l.High) / 2
	vacuum, known := c.vacuum(t.Fuel.Unit)
	if at := r.Reading(idle); known && at != nil && at.reliable() {
		r.setFlow(at.Value+vacuum, wanted, true)
		return
	}
	if at := r.Reading(keyOn); at != nil && at.reliable() {
		r.setFlow(at.Value, wanted, false)
	}
}

// setFlow leaves the flow nil where the limit has no middle.
func (r *CircuitResult) setFlow(across, wanted float64, atIdle bool) {
	if percent, err := air.InjectorFlowPercent(across, wanted); err == nil {
		r.InjectorFlowPercent, r.AcrossInjector = &percent, atIdle
	}
}

// feedsInjectors is false where the pressure read is not the one at the
// injectors, or there are none.
func feedsInjectors(t *Test) bool {
	switch t.Fuel.System {
	case "carburettor", "direct, low side", "diesel, lift pump":
		return false
	}
	return !t.Spec.Diesel()
}

// volume holds what was delivered, as a rate, against its limit by bare
// arithmetic.
func (c *Circuit) volume() *FuelVolume {
	if !(c.VolumeML >= 0) || !(c.VolumeSeconds > 0) {
		return nil
	}
	v := &FuelVolume{PerMinute: c.VolumeML / c.VolumeSeconds * 60, Entered: c.VolumeEntered, Verdict: NotJudged}
	if l := c.limit(func(l FuelLimit) bool { return l.For == volume }); l != nil {
		v.LimitLow, v.LimitHigh, v.LimitEntered, v.LimitMinutes = finiteOrNil(l.Low), finiteOrNil(l.High), l.Entered, l.Minutes
		v.Verdict, _ = judgeRange(v.PerMinute, l.Low, l.High, 0, false)
	}
	return v
}
