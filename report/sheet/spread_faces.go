package sheet

import (
	"math"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
	"gaugesheet/layout/figure"
)

// faceSpread is a rotary's faces, each below the best of its own rotor, as the
// diagnosis grades them: in the pressure's unit where the maker gives a limit
// between faces, which is then one line for all rotors; else in percent.
func (v *view) faceSpread() figure.Spread {
	r := v.rotors()
	limit := betweenFaces(r)
	d := figure.Spread{Title: v.label("heading.spread"), Zero: v.label("spread.best")}
	var said []diag.Number
	for i, rotor := range r.Rotors {
		if len(rotor.Values) == 0 {
			d.Unread = addUnread(d.Unread, figure.Unread{Mark: stateMark(rotor.State), Numbers: []string{rotor.Name}, Why: v.stateBecause(rotor.State, rotor.Reason)})
			continue
		}
		best := printed(rotor.Best, r.Decimals)
		for face, value := range rotor.Values {
			name := rotor.Name + "\u00a0" + faceName(face)
			if v.faceBound(i, face) || !(best > 0) || value > rotor.Best {
				d.Unread = addUnread(d.Unread, figure.Unread{Numbers: []string{name}, Why: v.label("spread.face", "reading", read(value, r.Decimals), "none", !(best > 0))})
				continue
			}
			below := best - printed(value, r.Decimals)
			n := number(below, quantity.DecimalsRead(below, r.Decimals), r.Unit)
			if limit == nil {
				below = 100 * below / best
				n = v.percentFor(below)
			}
			d.Bars = append(d.Bars, figure.SpreadBar{Number: name, Value: below, Low: below, High: below})
			said = append(said, n)
		}
	}
	d.Say = v.sayFaces(said)
	if limit != nil {
		d.Sub = v.label("spread.sub-faces-unit", "unit", string(r.Unit))
		d.Least = limit.Limit * 1.25
		d.Lines = []figure.RuleLine{{Value: limit.Limit, Text: v.label("spread.limit-other", "rule", onPage(number(limit.Limit, quantity.DecimalsRead(limit.Limit, r.Decimals), r.Unit).String()))}}
		d.Zones = []figure.SpreadZone{{To: limit.Limit, Word: v.label("spread.within"), Tone: figure.Plain}, {To: math.Inf(1), Tone: figure.Hatch}}
		return d
	}
	d.Sub, d.Unit, d.Least, d.Most = v.label("spread.sub-faces"), onPage(" "+string(quantity.Percent)), leastReach, 100
	d.Zones = v.gradeZones()
	return d
}

// betweenFaces is the limit between the faces of a rotor; nil where there is
// none or it was not judged.
func betweenFaces(r *diag.RotorsResult) *diag.LimitResult {
	for i := range r.Limits {
		if l := &r.Limits[i]; l.Rule == "between faces" && l.Verdict != diag.NotJudged && l.Limit > 0 {
			return l
		}
	}
	return nil
}

// faceBound reports a face of which is known only that it reads more.
func (v *view) faceBound(rotor, face int) bool {
	read := 0
	for _, f := range v.test.Rotors.Rotors[rotor].Faces {
		if f.State != diag.Tested || len(f.Values) == 0 {
			continue
		}
		if read == face {
			return f.Kind == diag.AtLeast
		}
		read++
	}
	return false
}

// sayFaces says the faces that stand together; of the best alone nothing.
func (v *view) sayFaces(values []diag.Number) func([]int) []string {
	say := v.sayAll(values, nil)
	return func(bars []int) []string {
		if values[bars[len(bars)-1]].Value == 0 {
			return nil
		}
		return say(bars)
	}
}

// sayAll says from where to where bars that stand together reach, and where the
// last of them may reach further.
func (v *view) sayAll(values []diag.Number, more map[int]bool) func([]int) []string {
	return func(bars []int) []string {
		last := bars[len(bars)-1]
		return []string{v.label("spread.span", "low", values[bars[0]], "high", values[last], "more", more[last])}
	}
}

func (v *view) leakageSpread() figure.Spread {
	l := v.leakage()
	d := figure.Spread{
		Title: v.label("heading.leakage"), Sub: v.label("spread.sub-leakage"), Unit: onPage(" " + string(quantity.Percent)),
		Least: 10, Most: 100,
	}
	var said []diag.Number
	more := map[int]bool{}
	names, _ := v.inDiagramOrder()
	for _, name := range names {
		r := l.Cylinder(name)
		if r == nil {
			continue
		}
		if r.Loss == nil {
			d.Unread = addUnread(d.Unread, figure.Unread{Mark: stateMark(r.State), Numbers: []string{name}, Why: v.stateBecause(r.State, r.Reason)})
			continue
		}
		bound := r.Bound
		more[len(d.Bars)] = bound
		d.Bars = append(d.Bars, figure.SpreadBar{Number: name, Value: *r.Loss, Low: *r.Loss, High: *r.Loss, More: bound})
		said = append(said, v.number(*r.Loss, 0, quantity.Percent))
	}
	d.Say = v.sayAll(said, more)
	if l.Limit != nil {
		d.Lines = []figure.RuleLine{{Value: *l.Limit, Text: v.label("spread.limit", "percent", number(*l.Limit, v.places(*l.Limit), quantity.Percent))}}
		d.Zones = []figure.SpreadZone{{To: *l.Limit, Word: v.label("spread.within"), Tone: figure.Plain}, {To: 100, Tone: figure.Hatch}}
	}
	return d
}
