package sample

import (
	"math"

	"gaugesheet/diag"
	"gaugesheet/diag/engine"
	"gaugesheet/diag/quantity"
)

// Of is a test of an engine without any readings, made warm. Engines of two
// banks are numbered across them.
func Of(layout string, changes ...Change) *diag.Test {
	t := Dry(layout, nil, changes...)
	if len(t.Compression.Dry) == 0 {
		t.Compression = nil
	}
	return t
}

// Looks gives every cylinder its plug's look, in the order of the engine's
// cylinders; "" was not looked at.
func Looks(looks ...string) Change {
	return func(t *diag.Test) {
		for i, name := range t.Engine.Names() {
			if i < len(looks) && looks[i] != "" {
				Plug(looks[i], name)(t)
			}
		}
	}
}

// Gap gives a plug's gap in mm, where the book says 1.1 mm +/- 0.1.
func Gap(name string, mm float64) Change {
	return func(t *diag.Test) {
		if t.Plugs == nil {
			t.Plugs = &diag.Plugs{State: diag.Tested, ByCylinder: map[string]diag.Plug{}}
		}
		t.Plugs.GapMM, t.Plugs.GapTolMM, t.Plugs.GapEntered = 1.1, 0.1, "1.1 mm +/- 0.1"
		p := t.Plugs.ByCylinder[name]
		p.State, p.GapMM = diag.Tested, &mm
		t.Plugs.ByCylinder[name] = p
	}
}

// Fitted says when the plugs were fitted.
func Fitted(when string) Change { return func(t *diag.Test) { t.Plugs.Fitted = when } }

// LeakLimit states a limit on the leakage in percent.
func LeakLimit(percent float64) Change {
	return func(t *diag.Test) { t.Leakage.Limit = &percent }
}

// Known alters what is known of the vehicle.
func Known(alter func(*diag.History)) Change { return func(t *diag.Test) { alter(&t.History) } }

// Complains adds complaints.
func Complains(of ...string) Change {
	return Known(func(h *diag.History) { h.Complaints = append(h.Complaints, of...) })
}

// Tells adds what is wrong in words of the customer's own.
func Tells(words ...string) Change {
	return Known(func(h *diag.History) { h.Said, h.OwnWords = append(h.Said, words...), append(h.OwnWords, words...) })
}

// Codes adds trouble codes.
func Codes(codes ...string) Change {
	return Known(func(h *diag.History) { h.Codes = append(h.Codes, codes...) })
}

// Done adds work that was done before.
func Done(work ...string) Change {
	return Known(func(h *diag.History) { h.WorkDone = append(h.WorkDone, work...) })
}

// Found adds what the technician found.
func Found(lines ...string) Change {
	return Known(func(h *diag.History) { h.Findings = append(h.Findings, lines...) })
}

// Running adds compression read with the engine running.
func Running(readings map[string]diag.Running) Change {
	return func(t *diag.Test) { t.Compression.Running = readings }
}

// Fuel adds a circuit of a fuel-pressure test in psi, on a gauge accurate to
// 2 % of the reading, with divisions of 1 psi.
func Fuel(system string, k diag.Circuit) Change {
	return func(t *diag.Test) {
		if t.Fuel == nil {
			t.Fuel = &diag.FuelPressure{State: diag.Tested, Unit: quantity.PSI, System: system}
			t.Gauges.Fuel = &diag.Gauge{High: 100, Division: 1}
		}
		t.Fuel.Circuits = append(t.Fuel.Circuits, k)
	}
}

// PSI is a fuel pressure that was read.
func PSI(v float64) *diag.Reading {
	r := Read(v)
	return &r
}

// Held is the pressure some minutes after switching off.
func Held(minutes, psi float64) diag.HoldReading {
	return diag.HoldReading{Minutes: minutes, Reading: Read(psi)}
}

// Range is a limit on a fuel reading, from and to in psi; 0 is no bound.
func Range(of string, low, high float64) diag.FuelLimit {
	l := diag.FuelLimit{For: of, Low: low, High: high}
	if low == 0 {
		l.Low = math.Inf(-1)
	}
	if high == 0 {
		l.High = math.Inf(1)
	}
	return l
}

// vacuum is a manifold vacuum of so many inHg, in kPa.
func vacuum(inHg float64) *float64 {
	v := inHg * 3.386389 // NIST SP 811, appendix B.8
	return &v
}

// flatBarrels is a flat six with separate barrels.
var flatBarrels = engine.Spec{Layout: "flat-6", Numbering: engine.AcrossBanks, FirstBank: "left", SeparateBarrels: true}
