package sheet

import (
	"math"
	"slices"
	"strings"
	"unicode/utf8"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
	"gaugesheet/diag/quantity"
	"gaugesheet/layout/figure"
)

// fillScales gives the plan its scales, the pressure first, and each cylinder
// its bars and the word for its plug.
func (v *view) fillScales(d *figure.EnginePlan) {
	k := planKeys{v: v, d: d}
	switch {
	case v.rotors() != nil:
		d.Scales = append(d.Scales, v.rotorScale())
		for i := range d.Cylinders {
			v.rotorBars(&k, &d.Cylinders[i])
		}
		k.plain()
	case v.compression() != nil:
		d.Scales = append(d.Scales, v.compressionScale())
		for i := range d.Cylinders {
			c := &d.Cylinders[i]
			c.Bars = append(c.Bars, v.compressionBar(&k, c.Number))
		}
		k.plain()
	}
	if v.leakage() != nil {
		d.Scales = append(d.Scales, v.leakageScale())
		for i := range d.Cylinders {
			c := &d.Cylinders[i]
			c.Bars = append(c.Bars, v.leakageBar(&k, c.Number))
		}
	}
	if v.plugs() != nil {
		d.Plugs = v.label("plan.plugs")
		for i := range d.Cylinders {
			c := &d.Cylinders[i]
			c.Plug = v.plugWord(c.Number)
		}
	}
	k.list()
	for i := range d.Cylinders {
		whyOnce(&d.Cylinders[i])
	}
}

// whyOnce says a reason once for a cylinder: beside its later readings the
// mark is enough.
func whyOnce(c *figure.Cylinder) {
	said := ""
	for i := range c.Bars {
		b := &c.Bars[i]
		switch {
		case b.Text != "" || len(c.Faces) > 0 && i == 0:
		case b.Word == said:
			b.Word = ""
		default:
			said = b.Word
		}
	}
	if c.Plug.Tone == figure.Open && c.Plug.Text == said {
		c.Plug.Text = ""
	}
}

// shortReason is the most letters of a reason that stand in a figure; a longer
// one is said elsewhere, and here the state.
const shortReason = 16

// unread is why there is no reading, in a word or two.
func (v *view) unread(state diag.State, reason string) figure.CylinderBar {
	b := figure.CylinderBar{Mark: stateMark(state), Word: v.state(state), Tone: figure.Open}
	if reason != "" && utf8.RuneCountInString(reason) <= shortReason {
		b.Word = onPage(reason)
	}
	return b
}

// stateMark is the symbol of a test that was not made.
func stateMark(s diag.State) figure.Mark {
	switch s {
	case diag.CouldNot:
		return figure.CouldNot
	case diag.Declined:
		return figure.Declined
	case diag.NotTested, diag.NotTold:
		return figure.NotTested
	}
	return figure.NoMark
}

func (v *view) compressionBar(k *planKeys, name string) figure.CylinderBar {
	r := v.compression().Cylinder(name)
	if r == nil {
		return v.unread(diag.NotTested, "")
	}
	if r.Dry == nil && !r.Disagree {
		b := v.unread(r.State, r.Reason)
		b.Marks = v.barMarks(k, r)
		return b
	}
	b := figure.CylinderBar{Text: v.dryText(r), Tone: gradeTone(r.Grade), Marks: v.barMarks(k, r), Open: r.Kind == diag.AtLeast}
	switch {
	case r.Disagree:
		b.Value, b.Upto = slices.Min(r.DryReadings), slices.Max(r.DryReadings)
	case r.Kind == diag.Band:
		half := v.test.Compression.Dry[name].HalfWidth
		b.Value, b.Upto = *r.Dry-half, *r.Dry+half
	default:
		b.Value = *r.Dry
	}
	v.gradeWords(k, &b, r.Grade, r.PercentOfHighest)
	notLow := r.Grade == diag.High || r.Grade == diag.Watch || r.Grade == diag.GradeTooClose
	if r.Grade == diag.Even || notLow && v.underLimit(r) == diag.Outside { // the best of a low set is low, and so are those below it
		v.evenWords(k, &b, r)
	}
	return b
}

// evenWords says beyond a bar that is even with the others that it is under a
// limit for all that, or that something else was found of its cylinder.
func (v *view) evenWords(k *planKeys, b *figure.CylinderBar, r *diag.CylinderResult) {
	switch v.underLimit(r) {
	case diag.Outside:
		b.Mark, b.Tone, b.Word = figure.Low, figure.Hatch, v.label("plan.under-limit")
	case diag.TooClose:
		b.Mark, b.Tone, b.Word = figure.TooClose, figure.Faint, v.grade(diag.GradeTooClose)
	default:
		if v.singled("compression", r.Name).Rank() == 0 {
			return
		}
		b.Mark, b.Tone, b.Word = figure.LookAgain, figure.Faint, v.label("plan.look-again")
	}
	k.say(b.Tone, b.Word)
}

// gradeWords says beyond a bar how the cylinder stands beside the others,
// where it is not even with them.
func (v *view) gradeWords(k *planKeys, b *figure.CylinderBar, g diag.Grade, part *float64) {
	switch g {
	case diag.Even:
		return
	case diag.GradeNotJudged, diag.GradeNotTested:
		if b.Tone == figure.Open && b.Text != "" {
			b.Tone = figure.Plain
		}
		return
	}
	b.Mark, b.Word = gradeMark(g), v.grade(g)
	k.say(b.Tone, b.Word)
	if part != nil && g != diag.NoPressure && g != diag.GradeTooClose && g != diag.High {
		b.Word = v.label("plan.call-out", "grade", b.Word, "part", percent(*part))
	}
}

// barMarks are the reading after oil, and that of an earlier test where the
// two differ by more than the gauge.
func (v *view) barMarks(k *planKeys, r *diag.CylinderResult) []figure.BarMark {
	var marks []figure.BarMark
	if r.Wet != nil {
		marks = append(marks, figure.BarMark{Shape: figure.Wedge, Value: *r.Wet, Text: v.pressure(*r.Wet)})
		k.d.ShapeKeys[figure.Wedge] = v.label("plan.wet", "dose", v.oilDose())
	}
	if r.Change != nil && r.Dry != nil && math.Abs(*r.Change) > r.ChangeU {
		then := *r.Dry - *r.Change
		marks = append(marks, figure.BarMark{Shape: figure.Diamond, Value: then, Text: v.pressure(then)})
		k.d.ShapeKeys[figure.Diamond] = v.label("plan.earlier", "when", v.comparedWith())
	}
	return marks
}

// oilDose is how much oil was put in, "" where it was not recorded.
func (v *view) oilDose() string {
	if ml := v.test.Compression.OilML; ml > 0 {
		return number(ml, quantity.DecimalsRead(ml, 0), "ml").String()
	}
	return ""
}

// dryText is a dry reading as the plan and the tables show it: as read, with
// the signs for an estimate and for a lower bound.
func (v *view) dryText(r *diag.CylinderResult) string {
	if r.Disagree {
		return v.repeats(r, "/")
	}
	if r.Dry == nil {
		return ""
	}
	s := v.pressure(*r.Dry)
	switch r.Kind {
	case diag.Band:
		half := v.test.Compression.Dry[r.Name].HalfWidth
		return v.pressure(*r.Dry-half) + "–" + v.pressure(*r.Dry+half)
	case diag.Estimate:
		return "~" + s
	case diag.AtLeast:
		return s + "+"
	}
	return s
}

// repeats are all the readings of one cylinder.
func (v *view) repeats(r *diag.CylinderResult, separator string) string {
	var said []string
	for _, value := range r.DryReadings {
		said = append(said, v.pressure(value))
	}
	return strings.Join(said, separator)
}

func (v *view) rotorBars(k *planKeys, c *figure.Cylinder) {
	rotors := v.rotors()
	c.Bars = []figure.CylinderBar{v.unread(diag.NotTested, "")}
	for i := range rotors.Rotors {
		r := &rotors.Rotors[i]
		if r.Name != c.Number {
			continue
		}
		if r.State != diag.Tested || len(r.Values) == 0 {
			c.Bars[0] = v.unread(r.State, r.Reason)
			return
		}
		for face, value := range r.Values {
			b := figure.CylinderBar{Text: read(value, rotors.Decimals), Value: value}
			if slices.Contains(r.LowFaces, face) {
				b.Tone, b.Mark, b.Word = figure.Hatch, figure.Low, v.grade(diag.Low)
				k.say(b.Tone, b.Word)
			}
			c.Faces = append(c.Faces, figure.Face{Name: faceName(face), Bar: b})
		}
	}
}

// leakageBar is the share of the test air that a cylinder lost, with where it
// went where that is more than it should be.
func (v *view) leakageBar(k *planKeys, name string) figure.CylinderBar {
	r := v.leakage().Cylinder(name)
	if r == nil {
		return v.unread(diag.NotTested, "")
	}
	if r.Loss == nil {
		b := v.unread(r.State, r.Reason)
		if r.State == diag.Tested {
			b.Mark, b.Word = figure.NoMark, v.airAt(r.Heard(r.At))
		}
		return b
	}
	mark, tone := v.leakLook(r)
	b := figure.CylinderBar{Text: v.loss(r), Value: *r.Loss, Tone: tone, Open: strings.HasSuffix(v.loss(r), "+")}
	if tone != figure.Plain {
		b.Mark, b.Word = mark, v.airAt(leakPlaces(r))
		k.say(tone, v.label("plan.loses-"+map[figure.Tone]string{figure.Hatch: "much", figure.Faint: "more"}[tone]))
	}
	return b
}

// leakPlaces are where most of the air goes, or wherever some goes.
func leakPlaces(r *diag.LeakResult) []string {
	if r.Most != "" {
		return r.Heard([]string{r.Most})
	}
	return r.Heard(r.At)
}

// loss is a share of air lost without its unit: a bound with the sign for one.
func (v *view) loss(r *diag.LeakResult) string {
	s := read(*r.Loss, 0)
	if r.Bound {
		return s + "+"
	}
	return s
}

// lossPercent is loss with its unit.
func (v *view) lossPercent(r *diag.LeakResult) string {
	return v.loss(r) + "\u00a0" + string(quantity.Percent)
}

// lost is how much of the test air a cylinder lost, "" where that was not read.
func (v *view) lost(name string) string {
	if v.leakage() == nil {
		return ""
	}
	if r := v.leakage().Cylinder(name); r != nil && r.Loss != nil {
		return v.lossPercent(r)
	}
	return ""
}

// lostByThoseLeftAlone is the most air in percent that a cylinder loses of which nothing was
// found, 0 for none.
func (v *view) lostByThoseLeftAlone() (most float64) {
	for i := range v.leakage().Cylinders {
		if r := &v.leakage().Cylinders[i]; r.Loss != nil && v.concern("leakage", r.Name).Rank() == 0 {
			most = max(most, *r.Loss)
		}
	}
	return most
}

// leakLook is the symbol and fill of a leakage reading: by its verdict, or by
// what was found of the cylinder where no limit was given.
func (v *view) leakLook(r *diag.LeakResult) (figure.Mark, figure.Tone) {
	switch r.Verdict {
	case diag.Outside:
		return figure.High, figure.Hatch
	case diag.TooClose:
		return figure.TooClose, figure.Faint
	}
	switch concern := v.singled("leakage", r.Name).Rank(); {
	case concern == 0 || r.Loss == nil || *r.Loss <= known.GoodLoss:
		return figure.Within, figure.Plain
	case r.Verdict == diag.Within && *r.Loss <= v.leakage().Median: // as the others do, and as is allowed
		return figure.Within, figure.Plain
	case r.Verdict == diag.NotJudged && *r.Loss <= v.lostByThoseLeftAlone(): // what was found of it is not that it leaks
		return figure.Within, figure.Plain
	case concern == 1 || r.Verdict == diag.Within:
		return figure.LookAgain, figure.Faint
	}
	return figure.High, figure.Hatch
}

func (v *view) plug(name string) *diag.PlugResult {
	if v.plugs() == nil {
		return nil
	}
	for i := range v.plugs().Cylinders {
		if p := &v.plugs().Cylinders[i]; p.Name == name {
			return p
		}
	}
	return nil
}

// plugWord is how a plug looked, or the gap of one that only has a wrong gap.
func (v *view) plugWord(name string) figure.PlugWord {
	p := v.plug(name)
	if p == nil {
		return figure.PlugWord{Text: v.state(diag.NotTested), Mark: figure.NotTested, Tone: figure.Open}
	}
	gap := ""
	if p.GapMM != nil && p.Gap == diag.Outside {
		gap = v.label("plan.gap", "gap", number(*p.GapMM, quantity.DecimalsRead(*p.GapMM, 1), "mm"))
	}
	switch {
	case p.Look == "" && gap == "":
		why := v.unread(p.State, p.Reason)
		if p.State == diag.Tested {
			return figure.PlugWord{}
		}
		return figure.PlugWord{Text: why.Word, Mark: why.Mark, Tone: figure.Open}
	case gap != "" && (p.Look == "" || p.Look == "normal"):
		return figure.PlugWord{Text: gap, Tone: figure.Faint}
	case p.Look == "normal":
		return figure.PlugWord{Text: v.look(p.Look)}
	}
	tone := figure.Plain
	switch v.concern("plugs", name).Rank() {
	case 0:
	case 1:
		tone = figure.Faint
	default:
		tone = figure.Hatch
	}
	return figure.PlugWord{Text: v.look(p.Look), Tone: tone}
}
