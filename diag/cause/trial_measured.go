package cause

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
)

// section gives a copy of a further test to change; one that was not made
// begins here.
func (t *Trial) section(name string) *diag.Measured {
	t.Measured = slices.Clone(t.Measured)
	for i := range t.Measured {
		if m := &t.Measured[i]; m.Name == name {
			m.State, m.Readings, m.Words = diag.Tested, slices.Clone(m.Readings), slices.Clone(m.Words)
			return m
		}
	}
	t.Measured = append(t.Measured, diag.Measured{Name: name, State: diag.Tested})
	return &t.Measured[len(t.Measured)-1]
}

// tick enters what was seen in a further test, in place of what was said before.
func (t *Trial) tick(section, name, value string) {
	m := t.section(section)
	m.Words = slices.DeleteFunc(m.Words, func(w diag.Word) bool { return w.Name == name && w.Cylinder == "" })
	m.Words = append(m.Words, diag.Word{Name: name, Value: value})
}

// measure enters a reading of a further test, in place of one read before.
func (t *Trial) measure(section, name, cylinder string, value float64, unit quantity.Unit) {
	m := t.section(section)
	m.Readings = slices.DeleteFunc(m.Readings, func(r diag.Measurement) bool { return r.Name == name && r.Cylinder == cylinder })
	m.Readings = append(m.Readings, diag.Measurement{Name: name, Cylinder: cylinder, Unit: unit, Reading: reading(value)})
}

// measureEach enters a reading of every cylinder that is as usual, but for the first, of
// which it is a part.
func (t *Trial) measureEach(section, name string, usual, part float64, unit quantity.Unit) {
	for i, cylinder := range t.Engine.Names() {
		value := usual
		if i == 0 {
			value *= part
		}
		t.measure(section, name, cylinder, value, unit)
	}
}
