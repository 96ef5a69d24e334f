package sheet

import (
	"slices"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/engine"
	"gaugesheet/diag/quantity"
	"gaugesheet/layout"
	"gaugesheet/layout/figure"
)

// engineBlock is the engine in plan with each cylinder's value; nil where no
// cylinder was looked at.
func (v *view) engineBlock() layout.Block {
	if v.d != nil && v.compression() == nil && v.leakage() == nil && v.plugs() == nil && v.rotors() == nil {
		return nil
	}
	plan := v.engine.Plan()
	d := figure.EnginePlan{
		Title:     v.planTitle(),
		Heads:     v.headGroups(),
		Vehicle:   direction(plan.VehicleFront),
		Engine:    direction(plan.EngineFront),
		VehicleAt: v.label("plan.vehicle-front"),
		EngineAt:  v.label("plan.engine-front"),
		Rotary:    v.engine.Kind == engine.Rotary,
		Ring:      v.engine.Kind == engine.Radial,
		Banks:     v.bankLabels(),
	}
	if d.Vehicle == d.Engine && d.Vehicle != figure.Nowhere {
		d.Engine = figure.Nowhere
		d.VehicleAt = v.label("plan.both-fronts")
	}
	for _, place := range plan.Places {
		c := figure.Cylinder{X: place.X, Y: place.Y, Number: place.Name}
		if v.d == nil {
			d.Pen = true
			if !v.engine.Numbered {
				c.Number = ""
			}
		} else {
			v.fillCylinder(&c, place.Name)
		}
		d.Cylinders = append(d.Cylinders, c)
	}
	d.Sub = v.planSub()
	d.Captions = v.planCaptions(plan, len(d.Heads) > 0)
	if v.d != nil {
		d.NotesLeft = v.notesLeft()
	}
	return figure.NewEnginePlan(d)
}

func direction(d engine.Direction) figure.Direction {
	return map[engine.Direction]figure.Direction{
		engine.Up: figure.Up, engine.Down: figure.Down, engine.ToLeft: figure.Left, engine.ToRight: figure.Right,
	}[d]
}

// headGroups are the cylinders under each head gasket, by index in the plan;
// none where every cylinder has a head of its own, since nothing is shared.
func (v *view) headGroups() [][]int {
	var groups [][]int
	shared := false
	for _, head := range v.engine.Heads {
		var group []int
		for _, name := range head {
			group = append(group, v.engine.Index(name))
		}
		shared = shared || len(group) > 1
		groups = append(groups, group)
	}
	if !shared {
		return nil
	}
	return groups
}

func (v *view) bankLabels() []figure.BankLabel {
	if !v.engine.IsTwoBank() {
		return nil
	}
	var labels []figure.BankLabel
	for i, bank := range v.engine.Banks {
		l := figure.BankLabel{Text: v.bankName(i)}
		for _, name := range bank.Cylinders {
			l.Cylinders = append(l.Cylinders, v.engine.Index(name))
		}
		labels = append(labels, l)
	}
	return labels
}

// bankName is a bank by vehicle side, with the driver's side where the job
// says on which side the wheel is.
func (v *view) bankName(bank int) string {
	side := v.engine.SideLabel(bank)
	if driver := v.job.Vehicle.DriverSide; driver.Given() && side == "vehicle "+driver.Value {
		return v.label("plan.driver-side", "side", side)
	}
	return side
}

// fillCylinder writes one cylinder's readings into the plan: the dry value
// large, or the leakage or the plug where that is all there is.
func (v *view) fillCylinder(c *figure.Cylinder, name string) {
	switch {
	case v.rotors() != nil:
		v.fillRotor(c, name)
	case v.compression() != nil:
		v.fillCompression(c, name)
	case v.leakage() != nil:
		v.fillLeakage(c, name)
	default:
		v.fillPlug(c, name)
	}
}

func (v *view) fillCompression(c *figure.Cylinder, name string) {
	r := v.compression().Cylinder(name)
	if r == nil {
		return
	}
	c.Mark, c.Tone, c.Word = gradeMark(r.Grade), gradeTone(r.Grade), string(r.Grade)
	if r.State != diag.Tested {
		c.Word = string(r.State)
	}
	c.Mark, c.Tone = withConcern(c.Mark, c.Tone, v.concern("compression", name))
	c.Value = v.dryText(r)
	if r.Wet != nil {
		c.Notes = append(c.Notes, figure.Label{Name: v.label("plan.wet"), Value: v.pressure(*r.Wet)})
	}
	c.Notes = append(c.Notes, v.leakNote(name)...)
	c.Notes = append(c.Notes, v.plugNote(name)...)
}

// dryText is a dry reading as the plan and the chart show it: as read, with
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

func (v *view) leakNote(name string) []figure.Label {
	l := v.leakage()
	if l == nil {
		return nil
	}
	r := l.Cylinder(name)
	if r == nil || r.Loss == nil {
		return nil
	}
	return []figure.Label{{Name: v.label("plan.leak"), Value: v.lossPercent(r)}}
}

// loss is a share of air lost without its unit: a bound with the sign for one.
func (v *view) loss(r *diag.LeakResult) string {
	s := read(*r.Loss, 0)
	if v.test.Leakage != nil && v.test.Leakage.Dry[r.Name].Kind == diag.AtLeast {
		return s + "+"
	}
	return s
}

// lossPercent is loss with its unit.
func (v *view) lossPercent(r *diag.LeakResult) string {
	return v.loss(r) + "\u00a0" + string(quantity.Percent)
}

func (v *view) plugNote(name string) []figure.Label {
	p := v.plug(name)
	if p == nil || p.Look == "" {
		return nil
	}
	return []figure.Label{{Name: v.label("plan.plug"), Value: p.Look}}
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

func (v *view) fillLeakage(c *figure.Cylinder, name string) {
	r := v.leakage().Cylinder(name)
	if r == nil {
		return
	}
	if r.Loss == nil {
		c.Mark, c.Tone, c.Word = figure.NotTested, figure.Open, string(r.State)
		return
	}
	c.Value = v.lossPercent(r)
	c.Mark, c.Tone = v.leakLook(r)
	c.Word = joined(", ", r.At...)
	c.Notes = v.plugNote(name)
}

// leakLook is the symbol and fill of a leakage reading: by its verdict, or by
// what was found of the cylinder where no limit was given.
func (v *view) leakLook(r *diag.LeakResult) (figure.Mark, figure.Tone) {
	switch r.Verdict {
	case diag.Outside:
		return figure.Low, figure.Hatch
	case diag.TooClose:
		return figure.TooClose, figure.Faint
	}
	switch v.concern("leakage", r.Name).Rank() {
	case 0:
		return figure.Within, figure.Plain
	case 1:
		return figure.LookAgain, figure.Faint
	}
	return figure.Low, figure.Hatch
}

// concern is the most urgent of the stories that rest on a test and are about
// a cylinder or the engine as a whole; of any cylinder where none is named.
func (v *view) concern(test, name string) diag.Urgency {
	u := diag.NoAction
	for i := range v.d.Stories {
		s := &v.d.Stories[i]
		about := name == "" || len(s.Cylinders) == 0 || slices.Contains(s.Cylinders, name)
		if about && slices.Contains(s.Tests, test) && s.Urgency.Rank() > u.Rank() {
			u = s.Urgency
		}
	}
	return u
}

// withConcern takes a tick away where something found asks for more.
func withConcern(m figure.Mark, t figure.Tone, u diag.Urgency) (figure.Mark, figure.Tone) {
	if m == figure.Within && u.Rank() > 0 {
		return urgencyMark(u), figure.Faint
	}
	return m, t
}

func (v *view) fillPlug(c *figure.Cylinder, name string) {
	p := v.plug(name)
	if p == nil || p.Look == "" {
		c.Mark, c.Tone, c.Word = figure.NotTested, figure.Open, string(diag.NotTested)
		return
	}
	c.Word = p.Look
	switch v.concern("plugs", name).Rank() {
	case 0:
		c.Mark, c.Tone = figure.Within, figure.Plain
	case 1:
		c.Mark, c.Tone = figure.LookAgain, figure.Faint
	default:
		c.Mark, c.Tone = figure.Low, figure.Hatch
	}
}

func (v *view) fillRotor(c *figure.Cylinder, name string) {
	rotors := v.rotors()
	for _, r := range rotors.Rotors {
		if r.Name != name {
			continue
		}
		c.Notes = append(v.leakNote(name), v.plugNote(name)...)
		if r.State != diag.Tested || len(r.Values) == 0 {
			c.Mark, c.Tone, c.Word = figure.NotTested, figure.Open, string(r.State)
			return
		}
		for i, value := range r.Values {
			c.Faces = append(c.Faces, figure.Label{Name: faceName(i), Value: read(value, rotors.Decimals)})
		}
		u := v.concern("rotors", name)
		c.Mark, c.Tone, c.Word = urgencyMark(u), figure.Plain, string(diag.Even)
		if u.Rank() > 0 {
			c.Tone, c.Word = figure.Faint, string(diag.Watch)
		}
		if len(r.LowFaces) > 0 || u.Rank() > 1 {
			c.Tone, c.Word = figure.Hatch, string(diag.Low)
		}
		return
	}
}

// faceName counts the faces of a rotor in the order read.
func faceName(i int) string { return string(rune('A' + i)) }

func (v *view) planTitle() string {
	if v.engine.Kind == engine.Rotary {
		return v.label("heading.engine-rotary")
	}
	return v.label("heading.engine")
}

// planSub says what the numbers in the plan are.
func (v *view) planSub() string {
	switch {
	case v.d == nil && v.engine.Kind == engine.Rotary:
		return ""
	case v.d == nil && !v.engine.Numbered:
		return v.label("plan.sub-unnumbered")
	case v.d == nil:
		return v.label("plan.sub-blank")
	case v.rotors() != nil:
		return v.label("plan.sub-rotors", "unit", string(v.rotors().Unit))
	case v.compression() != nil:
		return v.label("plan.sub-compression", "unit", string(v.compression().Unit))
	case v.leakage() != nil:
		return v.label("plan.sub-leakage")
	}
	return v.label("plan.sub-plugs")
}

func (v *view) planCaptions(plan engine.Plan, outlines bool) []string {
	var captions []string
	if outlines {
		captions = append(captions, v.label("plan.outline"))
	}
	if len(v.engine.FiringOrder) > 0 {
		captions = append(captions, v.label("plan.firing-order", "order", strings.Join(v.engine.FiringOrder, "-")))
	}
	captions = append(captions, v.planOpen(plan)...)
	if v.engine.Kind == engine.Radial {
		captions = append(captions, plan.View)
	}
	return captions
}
