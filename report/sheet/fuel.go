package sheet

import (
	"math"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
	"gaugesheet/layout"
	"gaugesheet/layout/figure"
)

// fuelBlock is the fuel pressure: a row a reading, all circuits on one scale.
func (v *view) fuelBlock() layout.Block {
	if v.fuelAlone() && v.hasBlock("fuel"+inAnotherPlace) {
		return nil
	}
	return v.pressures()
}

// fuelWideBlock is the fuel pressure across the page, in the engine's place,
// where nothing else was measured.
func (v *view) fuelWideBlock() layout.Block {
	if !v.fuelAlone() {
		return nil
	}
	return v.pressures()
}

// fuelAlone reports a job without any reading of a cylinder.
func (v *view) fuelAlone() bool {
	return v.compression() == nil && v.leakage() == nil && v.plugs() == nil && v.rotors() == nil
}

func (v *view) pressures() layout.Block {
	f := v.fuel()
	if f == nil {
		return nil
	}
	d := figure.Pressures{Title: v.label("heading.fuel"), Unit: onPage(string(f.Unit)), Sub: func(start string) string {
		return v.label("fuel.sub", "unit", string(f.Unit), "start", start)
	}}
	for i := range f.Circuits {
		d.Circuits = append(d.Circuits, v.circuit(f, &f.Circuits[i]))
	}
	d.Alt, d.RunsOn = v.pressuresWords(&d), v.workshop()
	v.besideReadings(&d)
	return figure.NewPressures(d)
}

// besideReadings puts what is allowed and how it was judged in the words that stand
// behind a reading in a line.
func (v *view) besideReadings(d *figure.Pressures) {
	for _, c := range d.Circuits {
		for i := range c.Readings {
			r := &c.Readings[i]
			if r.Allowed != nil && r.Allowed.Text != "" {
				r.Allowed.Beside = v.label("further.brief", "limit", r.Allowed.Text)
			}
			switch r.Mark {
			case figure.Low, figure.High:
				r.Judged = v.term("judged-short", string(diag.Outside))
			case figure.TooClose:
				r.Judged = v.term("judged-short", string(diag.TooClose))
			}
		}
	}
}

func (v *view) circuit(f *diag.FuelResult, c *diag.CircuitResult) figure.Circuit {
	entered := v.enteredCircuit(c.Name)
	d := figure.Circuit{Captions: v.fuelCaptions(f, c, entered)}
	if len(f.Circuits) > 1 {
		d.Name = c.Name
	}
	for _, r := range c.Readings {
		row := v.fuelRow(r.Value, r.Uncertainty, f, enteredReading(entered, r.Name))
		row.Name, row.Mark = v.readingName(r.Name), readingMark(r.Value, r.LimitLow, r.Verdict)
		row.Allowed = v.allowed(r, f)
		d.Readings = append(d.Readings, row)
	}
	for i, h := range c.Hold {
		row := v.fuelRow(h.Value, h.Uncertainty, f, enteredHold(entered, h.Minutes))
		row.Name, row.Mark = v.label("fuel.after", "minutes", minutes(h.Minutes)), readingMark(h.Value, h.LimitLow, h.Verdict)
		if i == limitedHold(c.Hold) {
			row.Allowed = v.allowed(diag.FuelReading{LimitLow: h.LimitLow, LimitHigh: h.LimitHigh}, f)
			if h.LimitMinutes > 0 && h.LimitMinutes != h.Minutes {
				row.Allowed.Text = v.label("fuel.at-another-time", "limit", row.Allowed.Text, "minutes", minutes(h.LimitMinutes))
			}
		}
		d.Readings = append(d.Readings, row)
	}
	return d
}

// minutes prints a time with as many decimals as it has.
func minutes(m float64) string {
	return quantity.Format(m, quantity.DecimalsRead(m, 0))
}

// limitedHold is which of the held pressures the limit stands at: the one at the
// limit's time, else the first that has one; -1 for none.
func limitedHold(hold []diag.HoldPoint) int {
	at := -1
	for i, h := range hold {
		switch {
		case h.LimitLow == nil && h.LimitHigh == nil:
		case h.LimitMinutes == h.Minutes:
			return i
		case at < 0:
			at = i
		}
	}
	return at
}

// fuelRow is a value with the text that was entered for it.
func (v *view) fuelRow(value, u float64, f *diag.FuelResult, entered *diag.Reading) figure.Reading {
	row := figure.Reading{Value: value, From: value, To: value, Text: read(value, f.Decimals), Low: max(0, value-u), High: value + u}
	if entered == nil {
		return row
	}
	switch {
	case entered.Unit != quantity.None && entered.Unit != f.Unit:
		row.Text = onPage(entered.Entered)
	case entered.Kind == diag.Band:
		row.From, row.To = value-entered.HalfWidth, value+entered.HalfWidth
		row.Text = v.label("fuel.between", "low", read(row.From, f.Decimals), "high", read(row.To, f.Decimals))
	case entered.Kind == diag.AtLeast:
		row.More, row.Text = true, v.label("fuel.over", "value", row.Text)
	case entered.Kind == diag.Estimate:
		row.Text = v.label("fuel.about", "value", row.Text)
	case len(entered.Values) > 1 && !allSame(entered.Values):
		var all []string
		for _, one := range entered.Values {
			all = append(all, read(one, f.Decimals))
		}
		row.Text = strings.Join(all, ", ")
	}
	return row
}

func allSame(values []float64) bool {
	for _, v := range values {
		if v != values[0] {
			return false
		}
	}
	return true
}

// enteredCircuit is a circuit as the job has it, nil where it has none of the
// name.
func (v *view) enteredCircuit(name string) *diag.Circuit {
	if v.test.Fuel == nil {
		return nil
	}
	for i := range v.test.Fuel.Circuits {
		if c := &v.test.Fuel.Circuits[i]; c.Name == name {
			return c
		}
	}
	return nil
}

// enteredReading is a reading of a circuit as entered.
func enteredReading(c *diag.Circuit, name string) *diag.Reading {
	if c == nil {
		return nil
	}
	return map[string]*diag.Reading{
		"key-on": c.KeyOn, "idle": c.Idle, "hose-off": c.HoseOff, "snap": c.Snap, "return-pinched": c.ReturnPinched,
	}[name]
}

// enteredHold is a held pressure as entered.
func enteredHold(c *diag.Circuit, minutes float64) *diag.Reading {
	if c == nil {
		return nil
	}
	for i := range c.Hold {
		if c.Hold[i].Minutes == minutes {
			return &c.Hold[i].Reading
		}
	}
	return nil
}

// readingMark is the symbol of a reading that is outside its limit or too close to
// it; one that is within has none, nor has one without a limit.
func readingMark(value float64, low *float64, verdict diag.Verdict) figure.Mark {
	return limitMark(verdict, !under(value, low))
}

// allowed is the permitted range of a reading, nil where it has none.
func (v *view) allowed(r diag.FuelReading, f *diag.FuelResult) *figure.Allowed {
	if r.LimitLow == nil && r.LimitHigh == nil {
		return nil
	}
	a := &figure.Allowed{Low: math.Inf(-1), High: math.Inf(1), Text: v.fuelLimit(r, f)}
	if r.LimitLow != nil {
		a.Low = *r.LimitLow
	}
	if r.LimitHigh != nil {
		a.High = *r.LimitHigh
	}
	return a
}

// fuelCaptions are what was found beside the pressures, a circuit's name before
// them where there are several.
func (v *view) fuelCaptions(f *diag.FuelResult, c *diag.CircuitResult, entered *diag.Circuit) []string {
	var captions []string
	if c.RegulatorRise != nil {
		rise := number(*c.RegulatorRise, quantity.DecimalsRead(*c.RegulatorRise, f.Decimals), f.Unit)
		if c.ExpectedRise != nil {
			captions = append(captions, v.label("fuel.rise-expected", "rise", rise, "expected", number(*c.ExpectedRise, f.Decimals, f.Unit)))
		} else {
			captions = append(captions, v.label("fuel.rise", "rise", rise))
		}
	}
	if flow := c.InjectorFlowPercent; flow != nil && *flow >= 1 && math.Abs(*flow-100) >= 1 {
		captions = append(captions, v.label("fuel.flow", "percent", percent(*c.InjectorFlowPercent)))
	}
	if entered != nil && entered.FuelInHose != "" {
		captions = append(captions, v.label("fuel.hose-"+entered.FuelInHose))
	}
	switch {
	case c.Volume != nil && c.Volume.LimitEntered != "":
		captions = append(captions, v.label("fuel.volume-limit", "volume", c.Volume.Entered, "limit", c.Volume.LimitEntered))
	case entered != nil && entered.VolumeEntered != "":
		captions = append(captions, v.label("fuel.volume", "volume", entered.VolumeEntered))
	}
	if len(f.Circuits) > 1 && len(captions) > 0 {
		captions = []string{v.label("fuel.of-circuit", "circuit", c.Name, "words", joined("; ", captions...))}
	}
	return captions
}
