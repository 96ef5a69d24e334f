package sheet

import (
	"slices"
	"strconv"
	"strings"

	"gaugesheet/diag/engine"
	"gaugesheet/diag/known"
	"gaugesheet/layout"
	"gaugesheet/layout/figure"
)

// bench is the engine as the bench sheet asks for it.
func (v *view) bench() bench {
	if v.known == nil {
		v.known = known.New(v.test)
	}
	return bench{v.known}
}

// benchHeadBlock names the engine, and how to work through the sheet.
func (v *view) benchHeadBlock() layout.Block {
	b := v.bench()
	all := b.letters()
	said := []any{"first", all[:1], "last", all[len(all)-1:], "oil", b.oils(), "diesel", b.diesel()}
	return figure.NewPenMasthead(figure.PenMasthead{
		Title: v.label("bench.title", "engine", v.benchEngine()),
		Sub:   v.label("bench.sub", said...),
		Brief: v.label("bench.sub-brief", said...),
		Shop:  v.job.Shop.Name.Value,
	})
}

// benchEngine is the engine in a few words: its layout, or what a custom one
// has, and what tells its tests apart from those of others.
func (v *view) benchEngine() string {
	b := v.bench()
	shape := v.layoutWords(v.engine)
	for _, k := range []struct {
		key string
		is  bool
	}{{"bench.diesel", b.diesel()}, {"bench.two-stroke", b.Spec.TwoStroke}, {"bench.air-cooled", b.AirCooled()}} {
		if k.is {
			shape = joined(", ", shape, v.label(k.key))
		}
	}
	return shape
}

// letters are those of steps. I and O are left out: in handwriting they are
// read as figures.
const letters = "ABCDEFGHJKLMNPQRSTUVWXYZ"

// steps are all steps that the engine has, in their order.
func (b bench) steps() []benchStep {
	var steps []benchStep
	for _, list := range [][]benchStep{benchRunning, benchStill, benchEnd} {
		for _, s := range list {
			if b.fitting(s.fits) {
				steps = append(steps, s)
			}
		}
	}
	return steps
}

// letters are those of the engine's steps.
func (b bench) letters() string { return letters[:len(b.steps())] }

// letter is that of a step, or of what a diesel has in its place; "" where the
// engine has none of it.
func (b bench) letter(key string) string {
	for i, s := range b.steps() {
		if s.key == key || s.key == key+"-diesel" {
			return letters[i : i+1]
		}
	}
	return ""
}

// penSteps are steps of a list that the engine has, with their words and boxes.
func (v *view) penSteps(lists ...[]benchStep) []figure.PenStep {
	b := v.bench()
	var steps []figure.PenStep
	for _, list := range lists {
		apart := len(steps) > 0
		for _, s := range list {
			if !b.fitting(s.fits) {
				continue
			}
			said := words(v.label("bench.step."+s.key, "dose", b.doseWords()))
			step := figure.PenStep{Letter: b.letter(s.key), Name: said[0], When: said[1], Joins: s.joins, Apart: apart}
			apart = false
			for _, box := range s.boxes {
				if b.fitting(box.fits) {
					made := v.penBox(box.key, "")
					made.Share = box.share
					step.Boxes = append(step.Boxes, made)
				}
			}
			steps = append(steps, step)
		}
	}
	return steps
}

// penBox makes a box of its words: the label, and behind bars its choices, or
// its unit after an underscore; with what is known already.
func (v *view) penBox(key, value string) figure.PenBox {
	said := words(v.label("bench.box." + key))
	box := figure.PenBox{Label: said[0], Value: value}
	for _, word := range said[1:] {
		if unit, is := strings.CutPrefix(word, "_"); is {
			box.Unit = strings.TrimSpace(unit)
			continue
		}
		box.Choices = append(box.Choices, word)
	}
	if value != "" {
		box.Choices, box.Unit = nil, ""
	}
	return box
}

// words are the parts of a label that lists several, between bars.
func words(label string) []string {
	parts := strings.Split(label, "|")
	for i := range parts {
		parts[i] = strings.TrimSpace(parts[i])
	}
	return parts
}

// benchStepsBlock is all that is done before the table of the cylinders is
// filled in, or while it is.
func (v *view) benchStepsBlock() layout.Block {
	return figure.NewPenForm(figure.PenForm{Name: "bench-steps", Steps: v.penSteps(benchRunning, benchStill), With: v.penSteps(benchEnd)})
}

// benchEndBlock is what is done before the engine leaves the bench.
func (v *view) benchEndBlock() layout.Block {
	return figure.NewPenForm(figure.PenForm{Name: "bench-end", Steps: v.penSteps(benchEnd), With: v.penSteps(benchRunning, benchStill)})
}

// benchNumbersBlock is the boxes to tick for the numbering of an engine of two
// banks, ticked where it is known; none where the cylinders have names.
func (v *view) benchNumbersBlock() layout.Block {
	_, err := strconv.Atoi(v.names()[0])
	if named := err != nil && v.engine.Numbered; named || !v.engine.IsTwoBank() {
		return nil
	}
	box := v.penBox("first-bank", "")
	if len(v.engine.Cylinders) > 2 {
		box = v.penBox("numbering", "")
		said := v.job.Entered("engine", "numbering")
		box.Ticked = []bool{
			said == engine.BankByBank || v.engine.Numbered && v.numberedByBank(),
			said == engine.AcrossBanks || v.engine.Numbered && !v.numberedByBank(),
		}
	}
	return figure.NewPenForm(figure.PenForm{Name: "bench-numbers", Steps: []figure.PenStep{{Boxes: []figure.PenBox{box}}}})
}

// numberedByBank reports a bank whose first two cylinders have numbers that
// follow one another.
func (v *view) numberedByBank() bool {
	bank, names := v.engine.Banks[0].Cylinders, v.names()
	return len(bank) > 1 && v.engine.Index(bank[1])-v.engine.Index(bank[0]) == 1 && len(names) > 1
}

// benchReadingsBlock is a row of boxes to each cylinder.
func (v *view) benchReadingsBlock() layout.Block {
	b := v.bench()
	tabs := "cylinder"
	if b.Rotary() {
		tabs = "rotor"
	}
	d := figure.PenTable{Name: "bench-readings", Tabs: figure.PenColumn{Head: v.label("bench.column." + tabs)}, Tall: b.Rotary()}
	last := ""
	for _, c := range benchColumns {
		if !b.fitting(c.fits) {
			continue
		}
		column := figure.PenColumn{Head: v.label("bench.column." + c.key)}
		if letter := b.letter(c.step); letter != last {
			column.Letter, last = letter, letter
		}
		if c.wide {
			column.Least = 18 * layout.MM
		}
		d.Columns = append(d.Columns, column)
	}
	for _, name := range v.names() {
		if !v.engine.Numbered {
			name = ""
		}
		d.Rows = append(d.Rows, name)
	}
	return figure.NewPenTable(d)
}

// benchEngineBlock is the engine with empty bores, its front up.
func (v *view) benchEngineBlock() layout.Block {
	plan := v.engine.Plan()
	d := figure.PenPlan{
		Heads: v.headGroups(), Banks: v.bankLabels(),
		Build: build(v.engine.Kind),
		Front: v.label("plan.engine-front"),
	}
	if v.engine.Kind == engine.Radial {
		d.Front = v.label("bench.ring")
	}
	if plan.VehicleFront != engine.NotShown && plan.EngineFront != engine.NotShown && plan.VehicleFront != plan.EngineFront {
		d.Vehicle, d.VehicleAt = v.label("plan.vehicle-front"), turnedUp(direction(plan.EngineFront), direction(plan.VehicleFront))
	}
	for i, name := range v.names() {
		bore := figure.PenBore{Number: name}
		if v.engine.Kind == engine.Rotary {
			bore.X, bore.Y = v.engine.Rotors[i].X, v.engine.Rotors[i].Y
		} else {
			bore.X, bore.Y = v.engine.Cylinders[i].X, v.engine.Cylinders[i].Y
		}
		if !v.engine.Numbered {
			bore.Number = ""
		}
		d.Cylinders = append(d.Cylinders, bore)
	}
	d.Alt = v.emptyPlanWords(&d)
	return figure.NewPenPlan(d)
}

// turnedUp is a direction on a drawing that is turned until another is up.
func turnedUp(up, d figure.Direction) figure.Direction {
	round := []figure.Direction{figure.Up, figure.Right, figure.Down, figure.Left}
	turn := slices.Index(round, d) - slices.Index(round, up)
	return round[(turn+len(round))%len(round)]
}
