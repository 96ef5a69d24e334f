package sheet

import (
	"strings"

	"gaugesheet/diag/engine"
	"gaugesheet/layout"
	"gaugesheet/layout/figure"
)

// benchIdentityBlock is what is written down on arrival; what the job has is
// filled in.
func (v *view) benchIdentityBlock() layout.Block {
	vehicle := v.job.Vehicle
	filled := []struct{ key, value string }{
		{"vehicle", vehicle.Description.Value},
		{"vin", vehicle.VIN.Value},
		{"engine-number", vehicle.EngineNumber.Value},
		{"plate", vehicle.Plate.Value},
		{"odometer", v.odometerWords()},
		{"ordered-by", v.job.OrderedBy.Value},
		{"reason", v.job.Reason.Value},
		{"arrival", vehicle.StateOnArrival.Value},
		{"codes", strings.Join(values(vehicle.Codes), ", ")},
		{"fluids", ""},
	}
	d := figure.FieldLines{Name: "bench-identity", Title: v.label("bench.arrival"), Columns: 2}
	for _, f := range filled {
		d.Fields = append(d.Fields, figure.Field{Name: v.label("field." + f.key), Value: f.value})
	}
	return figure.NewFieldLines(d)
}

// benchFuelBlock is the fuel-pressure test, the first at the bench.
func (v *view) benchFuelBlock() layout.Block {
	d := figure.Table{Name: "bench-fuel", Title: v.label("bench.fuel"), Sub: v.label("bench.fuel-sub"), Pen: true}
	for _, head := range words(v.label("bench.fuel-columns")) {
		d.Columns = append(d.Columns, figure.Column{Head: head, Share: 1})
	}
	d.Rows = [][]string{make([]string, len(d.Columns))}
	return figure.NewTable(d)
}

// words are the parts of a label that lists several, between bars.
func words(label string) []string {
	parts := strings.Split(label, "|")
	for i := range parts {
		parts[i] = strings.TrimSpace(parts[i])
	}
	return parts
}

// benchMethodBlock is how the test is set up: boxes to tick and short lines.
func (v *view) benchMethodBlock() layout.Block {
	d := figure.CheckBoxes{Name: "bench-method", Title: v.label("bench.method")}
	groups := []string{"engine", "coolant", "throttle", "choke", "plugs", "battery", "cranking", "strokes", "gauge", "disabled", "air"}
	for _, group := range groups {
		if v.test.Spec.Diesel() && (group == "throttle" || group == "choke") {
			continue
		}
		parts := words(v.label("bench.method." + group))
		g := figure.CheckGroup{Label: parts[0]}
		for _, part := range parts[1:] {
			if line, isLine := strings.CutPrefix(part, "_"); isLine {
				g.WriteIn = strings.TrimSpace(line)
				continue
			}
			g.Choices = append(g.Choices, part)
		}
		d.Groups = append(d.Groups, g)
	}
	return figure.NewCheckBoxes(d)
}

// benchReadingsBlock is a row to a cylinder with its boxes in bench order.
func (v *view) benchReadingsBlock() layout.Block {
	key := "bench.columns"
	switch {
	case v.engine.Kind == engine.Rotary:
		key = "bench.columns-rotary"
	case v.test.Spec.Diesel():
		key = "bench.columns-diesel"
	}
	d := figure.Table{Name: "bench-readings", Title: v.label("bench.readings"), Sub: v.label("bench.readings-sub"), Pen: true}
	if v.engine.Kind == engine.Rotary {
		d.Title, d.Sub = v.label("bench.readings-rotary"), v.label("bench.readings-sub-rotary")
	}
	for i, head := range words(v.label(key)) {
		column := figure.Column{Head: head, Share: 1}
		if i == 0 {
			column.Share = 0
		}
		d.Columns = append(d.Columns, column)
	}
	for _, name := range v.names() {
		row := make([]string, len(d.Columns))
		if v.engine.Kind == engine.Rotary || v.engine.Numbered {
			row[0] = name
		}
		d.Rows = append(d.Rows, row)
	}
	if v.engine.Kind != engine.Rotary && len(v.engine.Cylinders) > 1 {
		again := make([]string, len(d.Columns))
		again[0] = v.label("bench.again")
		d.Rows = append(d.Rows, again)
	}
	return figure.NewTable(d)
}

// benchEndBlock is what is done before the vehicle leaves the bench.
func (v *view) benchEndBlock() layout.Block {
	d := figure.CheckBoxes{Name: "bench-end", Title: v.label("bench.end")}
	for _, group := range words(v.label("bench.end-groups")) {
		d.Groups = append(d.Groups, figure.CheckGroup{Label: group, Choices: words(v.label("bench.yes-no"))})
	}
	d.Groups = append(d.Groups, figure.CheckGroup{Label: v.label("bench.not-tested"), WriteIn: v.label("bench.what")})
	return figure.NewCheckBoxes(d)
}
