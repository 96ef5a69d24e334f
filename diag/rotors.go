package diag

import (
	"gaugesheet/diag/gauge"
	"gaugesheet/diag/quantity"
)

// rotary is a rotary engine's test made ready for the sums.
type rotary struct {
	test  *Test
	tool  instrument
	shown [][]shownFace // by rotor, the faces that were read
	faces []set         // by rotor, those of them that can be judged
}

// A shownFace is one face that was read. Judged is its index among the faces
// that can be judged, -1 for a lower bound and for repeats that disagree.
type shownFace struct {
	value   float64
	entered string
	judged  int
}

func assessRotors(t *Test) *RotorsResult {
	section := t.Rotors
	if section == nil {
		return nil
	}
	c := newRotary(t)
	r := &RotorsResult{Unit: section.Unit, Decimals: decimals(t.Gauges.Compression, section.Unit), Complete: len(section.Rotors) > 0}
	var states []State
	for i, rotor := range section.Rotors {
		result := c.rotor(i)
		for _, face := range rotor.Faces {
			states = append(states, face.State)
		}
		r.Complete = r.Complete && len(result.Values) > 0 && len(result.Values) == len(rotor.Faces)
		r.Rotors = append(r.Rotors, result)
	}
	if len(states) == 0 {
		for _, rotor := range r.Rotors {
			states = append(states, rotor.State)
		}
	}
	r.State = sectionState(section.State, states)
	if r.State == Tested {
		r.Limits = c.limits()
	}
	return r
}

func newRotary(t *Test) *rotary {
	c := &rotary{test: t}
	var readings []Reading
	for _, rotor := range t.Rotors.Rotors {
		readings = append(readings, rotor.Faces...)
	}
	tells := t.crankingTells(t.Rotors.Unit)
	c.tool = newInstrument(t.Gauges.Compression, readings, inReadings(gauge.DefaultCompression, t.Rotors.Unit), tells)
	for _, rotor := range t.Rotors.Rotors {
		var shown []shownFace
		var faces set
		for _, face := range rotor.Faces {
			v, ok := face.last(tells)
			if !ok {
				continue
			}
			s := shownFace{value: v, entered: face.Entered, judged: -1}
			if face.Kind != AtLeast && !disagree(face.Values, tells) && !t.Gauges.Compression.beyond(face) {
				s.judged = len(faces)
				faces = append(faces, sample{name: rotor.Name, value: v, u: c.tool.standard(face)})
			}
			shown = append(shown, s)
		}
		c.shown, c.faces = append(c.shown, shown), append(c.faces, faces)
	}
	return c
}

// rotor fills one rotor. Values, Entered, Grade and LowFaces go by the faces
// read; best, mean and difference by those that can be judged.
func (c *rotary) rotor(i int) RotorResult {
	rotor, faces := c.test.Rotors.Rotors[i], c.faces[i]
	r := RotorResult{Name: rotor.Name}
	state := rotor.State
	if len(c.shown[i]) > 0 {
		state = Tested
	}
	r.State, r.Reason = stateOr(state, rotor.Reason, c.test.Rotors.State, c.test.Rotors.Reason)
	if len(faces) > 0 {
		best, worst := faces.extremes()
		r.Best, r.Difference = faces[best].value, faces[best].value-faces[worst].value
		r.Mean, _ = faces.sum(faces.meanWeights())
	}
	for at, face := range c.shown[i] {
		grade := GradeNotJudged
		if face.judged >= 0 {
			grade = c.gradeFace(faces, face.judged)
			if c.lowFace(face.value, r.Best, grade) {
				r.LowFaces = append(r.LowFaces, at)
			}
			if c.apartFace(face.value, r.Best, grade) {
				r.Apart = append(r.Apart, at)
			}
		}
		r.Values, r.Entered, r.Grade = append(r.Values, face.value), append(r.Entered, face.entered), append(r.Grade, grade)
	}
	return r
}

// lowFace reports a face past a limit as read; where no limit between the
// faces is given, also one that is low by its rotor's best.
func (c *rotary) lowFace(value, best float64, grade Grade) bool {
	if c.test.spoilt() != "" {
		return false
	}
	if grade == NoPressure {
		return true
	}
	if minimum := c.limitValue(c.test.Rotors.Minimum); minimum != nil && past(value, *minimum, gauge.AtLeast) {
		return true
	}
	if between := c.limitValue(c.test.Rotors.Faces); between != nil {
		return past(best-value, *between, gauge.AtMost)
	}
	return grade.IsLow()
}

// apartFace reports a face that stands far under the best of its rotor: past
// the limit between the faces, without one low by its grade, or without
// pressure while the best has some.
func (c *rotary) apartFace(value, best float64, grade Grade) bool {
	if c.test.spoilt() != "" || best < c.noPressure() {
		return false
	}
	if grade == NoPressure {
		return true
	}
	if between := c.limitValue(c.test.Rotors.Faces); between != nil {
		return past(best-value, *between, gauge.AtMost)
	}
	return grade.IsLow()
}

// deadFacePSI is the cranking pressure in psi under which a face has none to
// speak of, whatever the others have: common practice, no source.
const deadFacePSI = 25

func (c *rotary) noPressure() float64 {
	v, err := quantity.Convert(deadFacePSI, quantity.PSI, c.test.Rotors.Unit)
	if err != nil {
		return 0
	}
	return v
}

func past(value, limit float64, side gauge.Side) bool {
	return gauge.Judge(value, limit, 0, side) == gauge.Outside
}

// gradeFace grades a face by its rotor's best, in the bands of cylinders; one
// without pressure to speak of has none, whatever the best has.
func (c *rotary) gradeFace(faces set, f int) Grade {
	switch {
	case c.test.spoilt() != "":
		return GradeNotJudged
	case faces[f].value < c.noPressure():
		return NoPressure
	case len(faces) < 2:
		return GradeNotJudged
	}
	best, _ := faces.extremes()
	if faces[f].value >= faces[best].value { // none is better, whatever the gauge
		return Even
	}
	share, u, ok := faces.quotient(faces.at(f), faces.at(best))
	if !ok {
		return NoPressure
	}
	return gradeOf(share, u)
}

// limitValue gives a limit in the unit of the readings and the air of the
// test; nil where there is none or its unit does not fit.
func (c *rotary) limitValue(l *Limit) *float64 {
	if l == nil {
		return nil
	}
	r, ok := limitHere(*l, c.test.Rotors.Unit, atmosphereOf(c.test.Conditions))
	if !ok || r.Unit == quantity.Percent {
		return nil
	}
	return &r.Limit
}

func (c *rotary) limits() []LimitResult {
	section := c.test.Rotors
	var list []LimitResult
	judge := func(l *Limit, rule string, side gauge.Side, values []measured, without string) {
		if l == nil {
			return
		}
		r, ok := limitHere(*l, section.Unit, atmosphereOf(c.test.Conditions))
		r.Rule = rule
		switch spoilt := c.test.spoilt(); {
		case spoilt != "":
			r.Reason = spoilt
		case !ok || r.Unit == quantity.Percent:
			r.Reason = reasonUnit
		case len(values) == 0:
			r.Reason = without
		default:
			r.decide(values, side)
		}
		list = append(list, r)
	}
	judge(section.Minimum, string(Minimum), gauge.AtLeast, c.againstMinimum(), reasonNoReading)
	judge(section.Faces, ruleBetweenFaces, gauge.AtMost, c.betweenFaces(), reasonLone)
	judge(section.Apart, ruleBetweenRotors, gauge.AtMost, c.betweenRotors(), reasonSingleRotor)
	return list
}

func (c *rotary) againstMinimum() []measured {
	var list []measured
	for _, faces := range c.faces {
		for _, f := range faces {
			list = append(list, measured{cylinder: f.name, value: f.value, u: c.tool.againstBook(f.value, f.u)})
		}
	}
	return list
}

func (c *rotary) betweenFaces() []measured {
	var list []measured
	for _, faces := range c.faces {
		if len(faces) < 2 {
			continue
		}
		best, worst := faces.extremes()
		v, u := faces.sum(faces.at(best).less(faces.at(worst)))
		list = append(list, measured{cylinder: faces[worst].name, value: v, u: u})
	}
	return list
}

// betweenRotors compares each rotor's mean with the best rotor's.
func (c *rotary) betweenRotors() []measured {
	var rotors set
	for _, faces := range c.faces {
		if len(faces) > 0 {
			mean, expanded := faces.sum(faces.meanWeights())
			rotors = append(rotors, sample{name: faces[0].name, value: mean, u: expanded / 2})
		}
	}
	if len(rotors) < 2 {
		return nil
	}
	best, worst := rotors.extremes()
	v, u := rotors.sum(rotors.at(best).less(rotors.at(worst)))
	return []measured{{cylinder: rotors[worst].name, value: v, u: u}}
}
