package sheet

import (
	"math"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
	"gaugesheet/layout"
	"gaugesheet/layout/figure"
)

// fuelBlock is the pressure scale with its readings; one under another where
// there are several circuits.
func (v *view) fuelBlock() layout.Block {
	f := v.fuel()
	if f == nil {
		return nil
	}
	var bands []figure.PressureBand
	for i := range f.Circuits {
		bands = append(bands, v.band(f, &f.Circuits[i], i == 0))
	}
	return figure.NewPressureBands(bands...)
}

func (v *view) band(f *diag.FuelResult, c *diag.CircuitResult, first bool) figure.PressureBand {
	d := figure.PressureBand{Title: v.label("heading.fuel"), Unit: onPage(string(f.Unit))}
	if c.Name != "" {
		d.Title = v.label("heading.fuel-circuit", "circuit", c.Name)
	}
	system := v.test.Fuel.System
	d.Sub = joined("; ", onPage(string(f.Unit)), system)
	if !first {
		d.Sub = ""
	}
	for _, r := range c.Readings {
		d.Readings = append(d.Readings, figure.Reading{
			Name: v.readingName(r.Name), Value: r.Value, Text: read(r.Value, f.Decimals),
			Low: max(0, r.Value-r.Uncertainty), High: r.Value + r.Uncertainty, Mark: fuelMark(r),
		})
		if r.LimitLow != nil || r.LimitHigh != nil {
			d.Allowed = append(d.Allowed, v.allowed(r, f))
		}
	}
	for _, h := range c.Hold {
		d.Hold = append(d.Hold, figure.HoldPoint{Minutes: h.Minutes, Value: h.Value, Text: read(h.Value, f.Decimals)})
		if h.LimitLow != nil {
			d.HoldLimit = &figure.HoldPoint{Minutes: h.Minutes, Value: *h.LimitLow, Text: v.label("fuel.at-least", "low", read(*h.LimitLow, f.Decimals))}
		}
	}
	d.Captions = v.fuelCaptions(f, c)
	return d
}

// fuelMark is the symbol of a reading: none where it has no limit.
func fuelMark(r diag.FuelReading) figure.Mark {
	if r.LimitLow == nil && r.LimitHigh == nil {
		return figure.NoMark
	}
	return verdictMark(r.Verdict)
}

func (v *view) allowed(r diag.FuelReading, f *diag.FuelResult) figure.Allowed {
	a := figure.Allowed{For: v.readingName(r.Name), Low: math.Inf(-1), High: math.Inf(1)}
	if r.LimitLow != nil {
		a.Low = *r.LimitLow
	}
	if r.LimitHigh != nil {
		a.High = *r.LimitHigh
	}
	a.Text = v.label("fuel.allowed", "name", a.For, "limit", v.fuelLimit(r, f))
	return a
}

func (v *view) fuelCaptions(f *diag.FuelResult, c *diag.CircuitResult) []string {
	var captions []string
	if c.RegulatorRise != nil {
		rise := number(*c.RegulatorRise, quantity.DecimalsRead(*c.RegulatorRise, f.Decimals), f.Unit)
		if c.ExpectedRise != nil {
			captions = append(captions, v.label("fuel.rise-expected", "rise", rise, "expected", number(*c.ExpectedRise, f.Decimals, f.Unit)))
		} else {
			captions = append(captions, v.label("fuel.rise", "rise", rise))
		}
	}
	if c.InjectorFlowPercent != nil && math.Abs(*c.InjectorFlowPercent-100) >= 1 {
		captions = append(captions, v.label("fuel.flow", "percent", percent(*c.InjectorFlowPercent)))
	}
	for _, circuit := range v.test.Fuel.Circuits {
		if circuit.Name != c.Name {
			continue
		}
		if circuit.FuelInHose != "" {
			captions = append(captions, v.label("fuel.hose-"+circuit.FuelInHose))
		}
		if circuit.VolumeEntered != "" {
			captions = append(captions, v.label("fuel.volume", "volume", circuit.VolumeEntered))
		}
	}
	return captions
}
