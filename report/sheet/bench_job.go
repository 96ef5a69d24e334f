package sheet

import (
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
	"gaugesheet/layout"
	"gaugesheet/layout/figure"
)

// benchIdentityBlock is what is written down on arrival; what the job has is
// filled in.
func (v *view) benchIdentityBlock() layout.Block {
	j, vehicle := v.job, v.job.Vehicle
	date := ""
	if !j.Date.IsZero() {
		date = v.date(j.Date)
	}
	firing := ""
	if v.engine.Numbered {
		firing = strings.Join(v.engine.FiringOrder, "-")
	}
	type entry struct {
		key, value string
		share      float64
	}
	rows := [][]entry{
		{{"job-number", j.Number.Value, 1}, {"date", date, 1}, {"customer", j.Customer.Name.Value, 2}, {"telephone", j.Customer.Phone.Value, 1.6}},
		{{"vehicle", vehicle.Description.Value, 2.4}, {"vin", joined(" · ", vehicle.VIN.Value, vehicle.EngineNumber.Value), 2}, {"odometer", v.odometerWords(), 1}, {"plate", vehicle.Plate.Value, 1}},
		{{"displacement", j.Entered("engine", "displacement"), 1}, {"fuel", v.term("fuel-kind", v.test.Spec.Fuel), 0}, {"firing-order", firing, 1.6}, {"told", v.toldWords(), 3}},
	}
	if len(v.engine.Cylinders) == 1 {
		rows[2] = append(rows[2][:2:2], rows[2][3])
	}
	d := figure.PenForm{Name: "bench-identity"}
	for _, row := range rows {
		var step figure.PenStep
		for _, e := range row {
			box := v.penBox(e.key, e.value)
			box.Share = e.share
			step.Boxes = append(step.Boxes, box)
		}
		d.Steps = append(d.Steps, step)
	}
	return figure.NewPenForm(d)
}

// toldWords are what the customer told and asked for.
func (v *view) toldWords() string {
	return joined("; ", joined(", ", v.complaints()...), v.job.Reason.Value)
}

// limitBoxes are the limits from the book; those that the job has are filled
// in.
func (v *view) limitBoxes() []figure.PenBox {
	j := v.job
	section := "compression"
	if v.bench().Rotary() {
		section = "rotors"
	}
	limit := func(keys ...string) string {
		for _, key := range keys {
			if said := j.Entered(section, "limits", key); said != "" {
				unit := j.Entered(section, "unit")
				if key == "spread" || key == "lowest" {
					unit = string(quantity.Percent)
				}
				return onPage(withUnit(said, unit))
			}
		}
		return ""
	}
	var boxes []figure.PenBox
	add := func(key, value string, share float64) {
		box := v.penBox(key, value)
		box.Share = share
		boxes = append(boxes, box)
	}
	add("limit-pressure", limit("minimum"), 1)
	if v.bench().Several() || v.bench().Rotary() {
		add("limit-apart", limit("spread", "difference", "lowest", "between-faces"), 1)
	}
	if v.bench().pistons() {
		add("limit-lost", onPage(withUnit(j.Entered("leakage", "limit"), string(quantity.Percent))), 1)
	}
	add("limit-fuel", onPage(withUnit(j.Entered("fuel-pressure", "limits", "key-on"), j.Entered("fuel-pressure", "unit"))), 1)
	if v.bench().sump() {
		add("limit-oil", "", 1)
	}
	add("limit-source", limit("source"), 2)
	return boxes
}

// withUnit gives a limit that was entered as a bare number, or as two with a dash,
// the unit of its test.
func withUnit(entered, unit string) string {
	if entered == "" || unit == "" || strings.Trim(entered, "0123456789.-") != "" {
		return entered
	}
	return entered + " " + unit
}

// notesBoxes are the room for notes and the signature.
func (v *view) notesBoxes(key string) []figure.PenBox {
	notes := v.penBox(key, "")
	notes.Share, notes.Room = 3, 60*layout.MM
	signed := v.penBox("signed", "")
	if name := v.job.Technician.Value; name != "" {
		signed.Label = v.label("bench.signed-by", "name", name)
	}
	return []figure.PenBox{notes, signed}
}

// mostBelow is the most cylinders for which limits and notes stand under the
// table; with more they stand beside it, under the engine.
const mostBelow = 12

func (v *view) besideTable() bool { return len(v.names()) > mostBelow }

func (v *view) benchLimitsBlock() layout.Block {
	if v.besideTable() {
		return nil
	}
	step := figure.PenStep{Name: v.label("bench.limits"), When: v.label("bench.limits-when"), Boxes: v.limitBoxes()}
	return figure.NewPenForm(figure.PenForm{Name: "bench-limits", Steps: []figure.PenStep{step}, With: v.penSteps(benchRunning, benchStill, benchEnd)})
}

func (v *view) benchNotesBlock() layout.Block {
	if v.besideTable() {
		return nil
	}
	return figure.NewPenForm(figure.PenForm{Name: "bench-notes", Steps: []figure.PenStep{{Boxes: v.notesBoxes("notes")}}})
}

// benchSideBlock is limits and notes where they stand under the engine.
func (v *view) benchSideBlock() layout.Block {
	if !v.besideTable() {
		return nil
	}
	steps := []figure.PenStep{{Boxes: v.limitBoxes()}}
	for _, box := range v.notesBoxes("notes-beside") {
		steps = append(steps, figure.PenStep{Boxes: []figure.PenBox{box}})
	}
	return figure.NewPenForm(figure.PenForm{Name: "bench-side", Steps: steps})
}

// benchCautionsBlock is the cautions for what the sheet asks for.
func (v *view) benchCautionsBlock() layout.Block {
	b := v.bench()
	var items []string
	for _, c := range []struct {
		key  string
		fits bool
	}{
		{"hybrid", b.Spec.Hybrid == diag.Yes}, {"liquid", true}, {"fuel", b.sparked()}, {"high-pressure", b.diesel()}, {"running", true},
		{"air", b.pistons()}, {"coolant", b.liquid()}, {"diesel", !b.sparked() || b.oils() && b.Spec.Fuel == ""}, {"maker", true},
	} {
		if c.fits {
			items = append(items, v.label("bench.caution."+c.key))
		}
	}
	return figure.NewCautions(figure.List{Title: v.label("heading.cautions"), Items: items, Run: true})
}
