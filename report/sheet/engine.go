package sheet

import (
	"slices"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/engine"
	"gaugesheet/layout"
	"gaugesheet/layout/figure"
)

// engineBlock is the engine in plan with each cylinder's value and bars; nil
// where no cylinder was looked at.
func (v *view) engineBlock() layout.Block {
	if v.d == nil {
		return v.benchEngineBlock()
	}
	if v.compression() == nil && v.leakage() == nil && v.plugs() == nil && v.rotors() == nil {
		return nil
	}
	d := v.plan()
	d.Title, d.Sub = v.planHeading(v.leakage() != nil)
	d.TabledTitle, d.TabledSub = v.planHeading(false)
	v.fillScales(&d)
	d.Ties = v.ties()
	d.Tabled = v.hasBlock("readings")
	if v.workshop() && len(v.engine.FiringOrder) > 0 {
		d.Captions = append(d.Captions, v.label("plan.firing-order", "order", strings.Join(v.engine.FiringOrder, "-")))
	}
	d.RepeatsAt, d.RepeatsBrief, d.Repeats = v.label("plan.repeats"), v.label("plan.repeats-brief"), v.means()
	d.Alt = v.planWords(&d)
	return figure.NewEnginePlan(d)
}

// means are what was read more than once of each cylinder whose mean stands on the
// figure, where no table on the page has each of them.
func (v *view) means() (all []figure.Repeat) {
	c := v.compression()
	tabled := v.hasBlock("readings") || v.hasBlock("tested") && len(v.names()) <= fewCylinders || v.lead() != nil && v.d.Urgency == diag.NoAction && v.again() != nil
	if c == nil || tabled {
		return nil
	}
	for _, r := range c.Cylinders {
		if r.Dry == nil || len(r.DryReadings) < 2 || r.Kind == diag.Band {
			continue
		}
		all = append(all, figure.Repeat{Number: r.Name, Text: v.repeats(&r, ", ")})
	}
	return all
}

// plan is the engine without readings: places, heads, banks, arrows.
func (v *view) plan() figure.EnginePlan {
	plan := v.engine.Plan()
	d := figure.EnginePlan{
		Build:     build(v.engine.Kind),
		Heads:     v.headGroups(),
		Banks:     v.bankLabels(),
		Vehicle:   direction(plan.VehicleFront),
		Engine:    direction(plan.EngineFront),
		VehicleAt: v.label("plan.vehicle-front"),
		EngineAt:  v.label("plan.engine-front"),
		Captions:  v.planOpen(plan),
	}
	if d.Vehicle == d.Engine { // one arrow for both
		d.VehicleAt, d.EngineAt = v.label("plan.both-fronts"), ""
	}
	if v.engine.Kind == engine.Radial {
		d.Captions = append(d.Captions, v.term("view", plan.View))
	}
	for _, place := range plan.Places {
		d.Cylinders = append(d.Cylinders, figure.Cylinder{X: place.X, Y: place.Y, Number: place.Name})
	}
	return d
}

// build is how the cylinders of a kind of engine stand.
func build(k engine.Kind) figure.Build {
	switch k {
	case engine.V:
		return figure.Leaning
	case engine.Flat:
		return figure.Lying
	case engine.Radial:
		return figure.Ring
	case engine.Rotary:
		return figure.Rotors
	}
	return figure.Upright
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
	side := v.sideWords(bank)
	if driver := v.job.Vehicle.DriverSide; driver.Given() && v.engine.Banks[bank].Name == driver.Value {
		return v.label("plan.driver-side", "side", side)
	}
	return side
}

// pressureUnit is the unit of what cranking gave, "" where it was not read.
func (v *view) pressureUnit() string {
	switch {
	case v.rotors() != nil:
		return string(v.rotors().Unit)
	case v.compression() != nil:
		return string(v.compression().Unit)
	}
	return ""
}

// planHeading says what the figure shows and in which units; how it was read stands
// with the method. Where pressures are, the air lost stands beside them, or is left to a table.
func (v *view) planHeading(leakage bool) (title, sub string) {
	pressure := v.rotors() != nil || v.compression() != nil
	unit, key := v.pressureUnit(), "plugs"
	switch {
	case v.rotors() != nil:
		key = "rotors"
	case pressure && leakage:
		key = "both"
	case pressure:
		key = "pressure"
	case v.leakage() != nil:
		key = "leakage"
	}
	return v.label("plan.title-"+key, "single", len(v.names()) == 1), v.label("plan.sub-"+key, "unit", unit, "single", len(v.names()) == 1)
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

// singled is the most urgent of the stories that rest on a test and are about
// a cylinder beside others.
func (v *view) singled(test, name string) diag.Urgency {
	u := diag.NoAction
	for i := range v.d.Stories {
		s := &v.d.Stories[i]
		some := len(s.Cylinders) < len(v.names()) && slices.Contains(s.Cylinders, name)
		if some && slices.Contains(s.Tests, test) && s.Urgency.Rank() > u.Rank() {
			u = s.Urgency
		}
	}
	return u
}

// withConcern takes a tick away where something found asks for more.
func withConcern(m figure.Mark, u diag.Urgency) figure.Mark {
	if m == figure.Within && u.Rank() > 0 {
		return figure.LookAgain
	}
	return m
}

// gasketCauses are those by which what two neighbours have in common is the
// point.
var gasketCauses = []string{"head-gasket", "warped-or-cracked-head"}

// ties are the neighbours under one gasket of which a story suspects it.
func (v *view) ties() []figure.Tie {
	var ties []figure.Tie
	for i := range v.d.Stories {
		s := &v.d.Stories[i]
		suspected := slices.ContainsFunc(s.Causes, func(p diag.Phrase) bool { return slices.Contains(gasketCauses, p.Key) })
		if !suspected || len(s.Cylinders) == len(v.names()) && len(s.Cylinders) > 2 {
			continue
		}
		for k, a := range s.Cylinders {
			for _, b := range s.Cylinders[:k] {
				x, y := v.engine.Index(a), v.engine.Index(b)
				if v.engine.AreNeighbours(a, b) && v.engine.Cylinders[x].Head == v.engine.Cylinders[y].Head {
					ties = append(ties, figure.Tie{Cylinders: [2]int{y, x}, Text: v.label("plan.tie", "one", b, "other", a)})
				}
			}
		}
	}
	return ties
}

// faceName counts the faces of a rotor in the order read.
func faceName(i int) string { return string(rune('A' + i)) }
