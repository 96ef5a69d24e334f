package diag

import (
	"slices"
	"strings"

	"gaugesheet/diag/air"
	"gaugesheet/diag/quantity"
)

// A Measured is one of the further tests of an engine (oil pressure, manifold
// vacuum, cooling, ...) as it was made: what was read, what was seen or ticked,
// and the limits, in the order of the section. All of these tests have this one
// shape; what they mean is for the rules.
type Measured struct {
	Name   string // the key of its section, "oil-pressure"
	State  State
	Reason string
	Unit   quantity.Unit // of most of its readings; None where each has its own
	Gauge  *Gauge        // nil where not recorded

	Readings []Measurement
	Words    []Word
	Limits   []Range
}

// OtherReadings is the section of what was measured besides, each by a name of
// the job's own.
const OtherReadings = "other-readings"

// A Measurement is one reading of such a test: what it is of, and, where that
// was said, at which speed, time or bank, and of which cylinder.
type Measurement struct {
	Name     string        // "idle", "at-speed", "exhaust"
	At       string        // "2000 rpm", "5 min", "bank 1"; "" for none
	Cylinder string        // "" for none
	Unit     quantity.Unit // that its values are in
	Reading
}

// A Word is what was seen or ticked: the needle "floats", the oil level "low".
type Word struct{ Name, Cylinder, Value string }

// A Range is the permitted range of a measurement. Low or High may be infinite.
type Range struct {
	For, At   string
	Low, High float64
	Unit      quantity.Unit
	Entered   string
	Source    string
	Of        string // what a percentage is of: "highest"; "" for none
	// FromSeaLevel: it holds at sea level.
	FromSeaLevel bool
}

// covers reports a range that is for a measurement.
func (l Range) covers(m Measurement) bool {
	return (l.For == m.Name || l.For == "") && (l.At == "" || sameAt(l.At, m.At)) && (l.For != "" || l.At != "")
}

// sameAt compares two speeds or times however they are written; other words
// as they are.
func sameAt(a, b string) bool {
	x, errX := quantity.Parse(a)
	y, errY := quantity.Parse(b)
	if errX != nil || errY != nil {
		return a == b
	}
	v, err := x.In(y.Unit)
	return err == nil && same(v, y.Number)
}

// Measured gives a further test by the key of its section, nil where the job
// has none.
func (t *Test) MeasuredTest(name string) *Measured {
	for i := range t.Measured {
		if t.Measured[i].Name == name {
			return &t.Measured[i]
		}
	}
	return nil
}

// Word is what was ticked under a name, of the whole engine; "" for nothing.
func (m *Measured) Word(name string) string { return m.WordOf(name, "") }

// WordOf is what was ticked of one cylinder.
func (m *Measured) WordOf(name, cylinder string) string {
	if m == nil {
		return ""
	}
	for _, w := range m.Words {
		if w.Name == name && w.Cylinder == cylinder {
			return w.Value
		}
	}
	return ""
}

// A MeasuredResult is a further test with its sums: what was read beside what
// is permitted.
type MeasuredResult struct {
	Name     string
	State    State
	Reason   string
	Unit     quantity.Unit
	Readings []MeasuredReading // those that were read, in the order of the section
	Words    []Word
	// Published are the rules in circulation on such a test, by bare arithmetic.
	Published []PublishedRule
}

// A MeasuredReading is one reading against its limit.
type MeasuredReading struct {
	Name, At, Cylinder  string
	Value               float64
	Kind                Kind
	UpTo                bool // known only not to be more than the end of what was entered
	Entered             string
	Unit                quantity.Unit
	Decimals            int
	LimitLow, LimitHigh *float64
	LimitEntered        string
	Source              string
	Uncertainty         float64 // expanded, against a book figure
	Verdict             Verdict
	PastAsRead          bool // past the limit as read, whatever the uncertainty says
	Disagree            bool // the repeats are too far apart to be averaged; Value is the last
}

// Limited reports a reading that a limit of the job is for.
func (r *MeasuredReading) Limited() bool { return r.LimitLow != nil || r.LimitHigh != nil }

// BelowLimit reports a value under the least that is permitted, as read.
func (r *MeasuredReading) BelowLimit() bool { return r.LimitLow != nil && r.Value < *r.LimitLow }

// AboveLimit reports a value over the most that is permitted, as read.
func (r *MeasuredReading) AboveLimit() bool { return r.LimitHigh != nil && r.Value > *r.LimitHigh }

// Number is the value as it is printed: a temperature in the degrees that it was
// entered in.
func (r *MeasuredReading) Number() Number {
	if quantity.DimensionOf(r.Unit) == quantity.Temperature {
		if v, err := quantity.ParseAs(r.Entered, quantity.Temperature); err == nil && v.Unit != quantity.None {
			return Number{Value: v.Number, Decimals: quantity.DecimalsRead(v.Number, r.Decimals), Unit: v.Unit}
		}
	}
	return Number{Value: r.Value, Decimals: quantity.DecimalsRead(r.Value, r.Decimals), Unit: r.Unit}
}

// Told is the reading with its unit, and as it was entered where it is known only not to be
// more than a figure.
func (r *MeasuredReading) Told() string {
	if !r.UpTo {
		return r.Number().String()
	}
	entered := strings.ReplaceAll(AsWritten(r.Entered), "-", "–")
	if strings.Trim(entered, "0123456789., –") != "" { // with a unit of its own
		return entered
	}
	return entered + "\u00a0" + string(r.Unit)
}

// Reading gives the first reading of a name, at any speed; nil where it was
// not read.
func (r *MeasuredResult) Reading(name string) *MeasuredReading {
	return r.find(func(m *MeasuredReading) bool { return m.Name == name })
}

// Of gives the reading of one cylinder.
func (r *MeasuredResult) Of(name, cylinder string) *MeasuredReading {
	return r.find(func(m *MeasuredReading) bool { return m.Name == name && m.Cylinder == cylinder })
}

// ReadingAt gives the reading of a name at a speed, time or bank.
func (r *MeasuredResult) ReadingAt(name, at string) *MeasuredReading {
	return r.find(func(m *MeasuredReading) bool { return m.Name == name && sameAt(m.At, at) })
}

// Speeds are the speeds, times or banks at which something was read, in the
// order of the section.
func (r *MeasuredResult) Speeds() []string {
	var all []string
	for _, m := range r.Readings {
		if m.At != "" && !slices.Contains(all, m.At) {
			all = append(all, m.At)
		}
	}
	return all
}

// Same gives the reading of the same name, place and cylinder in the same unit.
func (r *MeasuredResult) Same(as *MeasuredReading) *MeasuredReading {
	return r.find(func(m *MeasuredReading) bool {
		return m.Name == as.Name && m.Cylinder == as.Cylinder && sameAt(m.At, as.At) && m.Unit == as.Unit
	})
}

func (r *MeasuredResult) find(is func(*MeasuredReading) bool) *MeasuredReading {
	if r == nil {
		return nil
	}
	for i := range r.Readings {
		if is(&r.Readings[i]) {
			return &r.Readings[i]
		}
	}
	return nil
}

// Word is what was ticked under a name, of the whole engine; "" for nothing.
func (r *MeasuredResult) Word(name string) string {
	if r == nil {
		return ""
	}
	return (&Measured{Words: r.Words}).Word(name)
}

// MeasuredTest gives a further test with its sums, nil where it was not made.
func (d *Diagnosis) MeasuredTest(name string) *MeasuredResult {
	for i := range d.Measured {
		if r := &d.Measured[i]; r.Name == name && r.State == Tested {
			return r
		}
	}
	return nil
}

// assessMeasured does the sums on the further tests.
func assessMeasured(t *Test) []MeasuredResult {
	var out []MeasuredResult
	a := atmosphereOf(t.Conditions)
	for _, m := range t.Measured {
		m = m.atAltitude(a)
		out = append(out, m.assess())
	}
	return out
}

func (m *Measured) assess() MeasuredResult {
	r := MeasuredResult{Name: m.Name, Reason: m.Reason, Unit: m.Unit, Words: m.Words}
	var states []State
	for _, one := range m.Readings {
		states = append(states, one.State)
	}
	if len(m.Words) > 0 {
		states = append(states, Tested)
	}
	r.State = sectionState(m.State, states)
	for _, one := range m.Readings {
		if value, ok := one.last(telling{}); ok {
			r.Readings = append(r.Readings, m.judge(one, value))
		}
	}
	if add := workedOut[m.Name]; add != nil {
		add(&r, m)
	}
	return r
}

// ofEachValve are the tests in which several values of a cylinder are those of its valves,
// and no repeats.
var ofEachValve = map[string]bool{"valves": true}

// worstValve is the reading of that of a cylinder's valves which is worst by its limit, and
// of equals the least: a valve that is too tight burns, one that opens too little starves.
func (m *Measured) worstValve(one Measurement) MeasuredReading {
	var worst MeasuredReading
	for i, v := range slices.Sorted(slices.Values(one.Values)) {
		valve := one
		valve.Values = []float64{v}
		r := m.judge(valve, v)
		if i == 0 || severity(r.Verdict) > severity(worst.Verdict) {
			worst = r
		}
	}
	return worst
}

// judge holds one reading against the first limit that is for it.
func (m *Measured) judge(one Measurement, value float64) MeasuredReading {
	if ofEachValve[m.Name] && len(one.Values) > 1 {
		return m.worstValve(one)
	}
	u := m.uncertainty(one, value)
	r := MeasuredReading{
		Name: one.Name, At: one.At, Cylinder: one.Cylinder, Value: value, Kind: one.Kind, UpTo: bounded(one.Reading), Entered: one.Entered, Unit: one.Unit,
		Decimals: decimalsRead(one), Uncertainty: u, Verdict: NotJudged, Disagree: disagree(one.Values, telling{}),
	}
	at := slices.IndexFunc(m.Limits, func(l Range) bool {
		return l.covers(one) && quantity.DimensionOf(l.Unit) == quantity.DimensionOf(one.Unit)
	})
	if at < 0 {
		return r
	}
	l := m.Limits[at]
	low, high := inUnitOrOpen(l.Low, l.Unit, one.Unit), inUnitOrOpen(l.High, l.Unit, one.Unit)
	r.LimitLow, r.LimitHigh, r.LimitEntered, r.Source = finiteOrNil(low), finiteOrNil(high), l.Entered, l.Source
	r.Verdict, r.PastAsRead = judgeRepeats(one.Reading, value, low, high, u)
	return r
}

// uncertainty is the expanded uncertainty of a reading against a book figure,
// in its unit: by the section's gauge where it is the gauge of this reading, else
// by what is usual.
func (m *Measured) uncertainty(one Measurement, value float64) float64 {
	one.Values = slices.Clone(one.Values)
	part, err := quantity.Convert(1, m.Unit, one.Unit)
	if m.Gauge == nil || err != nil || quantity.DimensionOf(one.Unit) != quantity.Pressure {
		tool := newInstrument(nil, []Reading{one.Reading}, m.repeatOf(one), telling{})
		if quantity.DimensionOf(one.Unit) != quantity.Pressure {
			tool.exact = true // the gauge's usual error is one of pressures
		}
		return max(tool.againstBook(value, tool.standard(one.Reading)), usualError(m.Name, one, value))
	}
	for i := range one.Values {
		one.Values[i] /= part
	}
	one.HalfWidth /= part
	tool := newInstrument(m.Gauge, []Reading{one.Reading}, m.repeatOf(one)/part, telling{})
	return part * tool.againstBook(value/part, tool.standard(one.Reading))
}

// inUnitOrOpen converts an end of a range, which may be open.
func inUnitOrOpen(v float64, from, to quantity.Unit) float64 {
	if !finite(v) {
		return v
	}
	out, _ := inUnit(v, from, to) // of one dimension, as was asked before
	return out
}

// usualError is how far off a reading may be where its gauge was not recorded,
// in the unit of the reading: judgement, no source. For other pressures it is
// what package gauge takes.
func usualError(section string, one Measurement, value float64) float64 {
	off := func(v float64, unit quantity.Unit) float64 {
		out, err := quantity.Convert(v, unit, one.Unit)
		if err != nil {
			return 0
		}
		return out
	}
	switch dimension := quantity.DimensionOf(one.Unit); {
	case dimension == quantity.Pressure && section == "vacuum":
		return off(1, quantity.InHg)
	case dimension == quantity.Pressure && section == "crankcase":
		return off(0.5, quantity.InH2O)
	case dimension == quantity.Pressure && section == "oil-pressure":
		return off(3, quantity.PSI)
	case dimension == quantity.Rotation:
		return 10
	case dimension == quantity.Flow:
		return 0.02 * value
	case strings.HasPrefix(one.Name, "lift "): // a dial a few degrees out of the valve's line
		return 0.01 * value
	}
	return 0
}

// idleVacuumKPa is the manifold's vacuum at idle by a test of its own, nil where
// there is none.
func (t *Test) idleVacuumKPa() *float64 {
	m := t.MeasuredTest("vacuum")
	if m == nil {
		return nil
	}
	for _, r := range m.Readings {
		if v, ok := r.last(telling{}); ok && r.Name == "idle" {
			if kpa, ok := inUnit(v, r.Unit, quantity.KPa); ok {
				return &kpa
			}
		}
	}
	return nil
}

// atAltitude gives the test with limits from sea level brought to its air: those
// of a vacuum are lowered by what the air lacks, since a gauge shows the
// difference to it.
func (m Measured) atAltitude(a atmosphere) Measured {
	if m.Name != "vacuum" || a.pressure == nil {
		return m
	}
	m.Limits = slices.Clone(m.Limits)
	for i := range m.Limits {
		l := &m.Limits[i]
		if lacks, ok := inUnit(air.StandardPressure*(1-*a.pressure), quantity.KPa, l.Unit); ok && l.FromSeaLevel {
			l.Low, l.High = l.Low-lacks, l.High-lacks
		}
	}
	return m
}
