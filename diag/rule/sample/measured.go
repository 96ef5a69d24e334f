package sample

import (
	"math"
	"strconv"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
)

// Test gives an engine a further test, readings in the unit of the section.
func Test(section string, unit quantity.Unit, parts ...func(*diag.Measured)) Change {
	return func(t *diag.Test) {
		m := diag.Measured{Name: section, State: diag.Tested, Unit: unit}
		for _, p := range parts {
			p(&m)
		}
		t.Measured = append(t.Measured, m)
	}
}

// At is a reading of a further test, at a speed, time or bank; "" for none.
func At(name, at string, value float64) func(*diag.Measured) {
	return func(m *diag.Measured) {
		m.Readings = append(m.Readings, diag.Measurement{Name: name, At: at, Unit: m.Unit, Reading: entered(value)})
	}
}

// InUnit is a reading of a further test in a unit of its own.
func InUnit(name, at string, value float64, unit quantity.Unit) func(*diag.Measured) {
	return func(m *diag.Measured) {
		m.Readings = append(m.Readings, diag.Measurement{Name: name, At: at, Unit: unit, Reading: entered(value)})
	}
}

// Each gives a reading of each cylinder, in the order of their numbers from 1.
func Each(name string, values ...float64) func(*diag.Measured) {
	return func(m *diag.Measured) {
		for i, v := range values {
			m.Readings = append(m.Readings, diag.Measurement{Name: name, Cylinder: quantity.Format(float64(i+1), 0), Unit: m.Unit, Reading: entered(v)})
		}
	}
}

func entered(v float64) diag.Reading {
	r := Read(v)
	r.Entered = strconv.FormatFloat(v, 'f', -1, 64)
	return r
}

// Ticked is what was seen or ticked in a further test.
func Ticked(name, value string) func(*diag.Measured) { return TickedOf(name, "", value) }

// TickedOf is what was seen of one cylinder.
func TickedOf(name, cylinder, value string) func(*diag.Measured) {
	return func(m *diag.Measured) {
		m.Words = append(m.Words, diag.Word{Name: name, Cylinder: cylinder, Value: value})
	}
}

// Permits is a limit of a further test; an end that is open is infinite.
func Permits(of, at string, low, high float64) func(*diag.Measured) {
	return func(m *diag.Measured) {
		m.Limits = append(m.Limits, diag.Range{For: of, At: at, Low: low, High: high, Unit: m.Unit, Entered: "as the book has it"})
	}
}

// NoLimit are the open ends of a range.
var (
	NoLeast = math.Inf(-1)
	NoMost  = math.Inf(1)
)
