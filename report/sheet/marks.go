package sheet

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/layout/figure"
)

// storyMark is the symbol of what a story found. What is acted on soon was not too
// close to call, though one of its cylinders was.
func (v *view) storyMark(st *diag.Story) figure.Mark {
	m := v.foundMark(st)
	if m == figure.TooClose && (st.About == diag.AboutEngine || st.About == diag.AboutCylinders) && st.Urgency.Rank() > diag.CheckAgain.Rank() {
		return figure.LookAgain
	}
	return m
}

// foundMark is the symbol of what stands out most among the readings that a story is
// about.
func (v *view) foundMark(st *diag.Story) figure.Mark {
	switch st.About {
	case diag.AboutFuel:
		return v.supplyMark(st.Circuit)
	case diag.AboutCylinders:
		return v.pressureMark(st.Cylinders)
	case diag.AboutEngine:
		return v.engineMark(st)
	case diag.AboutSystem:
		return v.systemMark(st.System)
	}
	return figure.LookAgain
}

// engineMark is the symbol of a story about the engine as a whole: that of the
// pressures, but for those of cylinders that other stories are about.
func (v *view) engineMark(st *diag.Story) figure.Mark {
	names := st.Cylinders
	if len(names) > 0 {
		return v.pressureMark(names)
	}
	for _, name := range v.names() {
		if !slices.ContainsFunc(v.d.Stories, func(o diag.Story) bool {
			return o.About == diag.AboutCylinders && slices.Contains(o.Cylinders, name)
		}) {
			names = append(names, name)
		}
	}
	switch len(names) {
	case 0:
		return figure.LookAgain
	case len(v.names()):
		return v.pressureMark(nil)
	}
	return v.pressureMark(names)
}

// systemMark is the symbol of a further test: that of the first reading outside
// its limit, else of one too close.
func (v *view) systemMark(system string) figure.Mark {
	var marks []figure.Mark
	for i := range v.d.Measured {
		if r := &v.d.Measured[i]; r.Name == system {
			for _, m := range r.Readings {
				marks = append(marks, readingMark(m.Value, m.LimitLow, m.Verdict))
			}
		}
	}
	return worstMark(marks)
}

// worstMark is the first symbol of something outside its limit, else that of
// what is too close to one, else a dot.
func worstMark(marks []figure.Mark) figure.Mark {
	found := figure.LookAgain
	for _, m := range marks {
		switch m {
		case figure.Low, figure.High:
			return m
		case figure.TooClose:
			found = m
		}
	}
	return found
}

// pressureMark is the symbol of the pressure of some cylinders or rotors, of
// all of them where none is named.
func (v *view) pressureMark(names []string) figure.Mark {
	of := func(name string) bool { return len(names) == 0 || slices.Contains(names, name) }
	mark := figure.LookAgain
	if c := v.compression(); c != nil {
		for _, r := range c.Cylinders {
			if of(r.Name) && c.LowByEvery(&r) {
				mark = figure.Low
			}
			if m := gradeMark(r.Grade); of(r.Name) && (m == figure.Low || m == figure.High || m == figure.TooClose) && mark != figure.Low {
				mark = m
			}
		}
		if len(names) == 0 && mark == figure.LookAgain {
			mark = limitsMark(c.Limits)
		}
	}
	if r := v.rotors(); r != nil {
		mark = limitsMark(r.Limits)
		for _, rotor := range r.Rotors {
			if of(rotor.Name) && slices.ContainsFunc(rotor.Grade, diag.Grade.IsLow) {
				return figure.Low
			}
		}
	}
	return mark
}

// limitsMark is the symbol of what a set came to by its limits, and a dot
// where that is nothing to speak of.
func limitsMark(limits []diag.LimitResult) figure.Mark {
	verdicts := make([]diag.Verdict, len(limits))
	for i, l := range limits {
		verdicts[i] = l.Verdict
	}
	if verdict, _ := worst(verdicts); verdict == diag.Outside || verdict == diag.TooClose {
		return verdictMark(verdict, false) // too far apart: the lower are what is looked at
	}
	return figure.LookAgain
}

// supplyMark is the symbol of the fuel pressure of a circuit, of any where none
// is named.
func (v *view) supplyMark(circuit string) figure.Mark {
	var marks []figure.Mark
	for _, c := range circuits(v.fuel()) {
		if circuit != "" && c.Name != circuit {
			continue
		}
		for _, r := range c.Readings {
			marks = append(marks, readingMark(r.Value, r.LimitLow, r.Verdict))
		}
		for _, h := range c.Hold {
			marks = append(marks, readingMark(h.Value, h.LimitLow, h.Verdict))
		}
	}
	return worstMark(marks)
}
