package sheet

import (
	"math"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
	"gaugesheet/layout"
	"gaugesheet/layout/figure"
)

// A readingColumn is one column of the table of readings: its heading's key
// and what it says of a cylinder.
type readingColumn struct {
	key   string
	value func(v *view, name string) string
	words bool // not a number
}

// readingColumns are in bench order. A column that says nothing of any
// cylinder is left out.
var readingColumns = []readingColumn{
	{key: "first", value: func(v *view, name string) string {
		return v.ofCylinder(name, func(r *diag.CylinderResult) string { return v.reading(r.First) })
	}},
	{key: "dry", value: (*view).dryEntered},
	{key: "again", value: func(v *view, name string) string {
		return v.ofCylinder(name, func(r *diag.CylinderResult) string { return v.reading(r.Again) })
	}},
	{key: "of-highest", value: func(v *view, name string) string {
		return v.ofCylinder(name, func(r *diag.CylinderResult) string { return one(r.PercentOfHighest) })
	}},
	{key: "from-median", value: func(v *view, name string) string {
		return v.ofCylinder(name, func(r *diag.CylinderResult) string { return signed(r.PercentFromMedian, 1) })
	}},
	{key: "grade", words: true, value: func(v *view, name string) string {
		return v.ofCylinder(name, func(r *diag.CylinderResult) string { return string(r.Grade) })
	}},
	{key: "wet", value: func(v *view, name string) string {
		return v.ofCylinder(name, func(r *diag.CylinderResult) string { return v.reading(r.Wet) })
	}},
	{key: "wet-rise", value: func(v *view, name string) string {
		return v.ofCylinder(name, func(r *diag.CylinderResult) string {
			if r.WetRise == nil {
				return ""
			}
			return joined(" ", signed(r.WetRise, v.compression().Decimals), "("+signed(r.WetRisePercent, 0)+"\u00a0%)")
		})
	}},
	{key: "change", value: func(v *view, name string) string {
		return v.ofCylinder(name, func(r *diag.CylinderResult) string { return signed(r.Change, v.compression().Decimals) })
	}},
	{key: "running", value: (*view).runningWords},
	{key: "leakage", value: func(v *view, name string) string {
		return v.ofLeak(name, func(r *diag.LeakResult) string {
			if r.Loss == nil {
				return stateWords(r.State, r.Reason)
			}
			return v.loss(r)
		})
	}},
	{key: "leak-entered", value: func(v *view, name string) string {
		return v.ofLeak(name, func(r *diag.LeakResult) string {
			if strings.Contains(r.Entered, "/") || strings.Contains(r.Entered, "of") {
				return r.Entered
			}
			return ""
		})
	}, words: true},
	{key: "leak-at", words: true, value: func(v *view, name string) string {
		return v.ofLeak(name, func(r *diag.LeakResult) string { return strings.Join(r.At, ", ") })
	}},
	{key: "plug", words: true, value: func(v *view, name string) string {
		if p := v.plug(name); p != nil {
			return joined(" ", p.Look, p.GapText)
		}
		return ""
	}},
}

func (v *view) ofCylinder(name string, say func(*diag.CylinderResult) string) string {
	if v.compression() == nil {
		return ""
	}
	if r := v.compression().Cylinder(name); r != nil {
		return say(r)
	}
	return ""
}

func (v *view) ofLeak(name string, say func(*diag.LeakResult) string) string {
	if v.leakage() == nil {
		return ""
	}
	if r := v.leakage().Cylinder(name); r != nil {
		return say(r)
	}
	return ""
}

func (v *view) reading(value *float64) string {
	if value == nil {
		return ""
	}
	return v.pressure(*value)
}

func one(value *float64) string {
	if value == nil {
		return ""
	}
	return quantity.Format(*value, 1)
}

func signed(value *float64, decimals int) string {
	if value == nil {
		return ""
	}
	s := quantity.Format(math.Abs(*value), decimals)
	switch {
	case strings.Trim(s, "0.") == "":
		return s
	case *value < 0:
		return "\u2212" + s
	}
	return "+" + s
}

func stateWords(state diag.State, reason string) string {
	if reason == "" {
		return string(state)
	}
	return string(state) + " (" + reason + ")"
}

// dryEntered is the dry reading with its repeats, as entered.
func (v *view) dryEntered(name string) string {
	return v.ofCylinder(name, func(r *diag.CylinderResult) string {
		if r.Disagree {
			return v.dryText(r)
		}
		if r.Dry == nil {
			return stateWords(r.State, r.Reason)
		}
		if len(r.DryReadings) > 1 && r.Kind != diag.Band {
			return v.dryText(r) + " (" + v.repeats(r, ", ") + ")"
		}
		if r.Entered != "" && len(r.Entered) <= 20 {
			return onPage(r.Entered)
		}
		return v.dryText(r)
	})
}

func (v *view) runningWords(name string) string {
	if v.test.Compression == nil {
		return ""
	}
	running, ok := v.test.Compression.Running[name]
	if !ok {
		return ""
	}
	side := func(r *diag.Reading) string {
		if r == nil {
			return "\u2013"
		}
		value, read := r.Value()
		if !read {
			return string(r.State)
		}
		return v.pressure(value)
	}
	return side(running.Idle) + " / " + side(running.Snap)
}

// readingsBlock is every reading, a row to a cylinder.
func (v *view) readingsBlock() layout.Block {
	if v.rotors() != nil {
		return v.facesTable()
	}
	if v.compression() == nil && v.leakage() == nil && v.plugs() == nil {
		return nil
	}
	names, _ := v.inDiagramOrder()
	d := figure.Table{Name: "readings", Title: v.label("heading.readings"), Columns: []figure.Column{{Head: v.label("column.cylinder")}}}
	rows := make([][]string, len(names))
	for i, name := range names {
		rows[i] = []string{name}
	}
	for _, column := range readingColumns {
		cells := make([]string, len(names))
		said := false
		for i, name := range names {
			cells[i] = column.value(v, name)
			said = said || cells[i] != ""
		}
		if !said {
			continue
		}
		d.Columns = append(d.Columns, figure.Column{Head: v.label("column." + column.key), Numbers: !column.words})
		for i := range rows {
			rows[i] = append(rows[i], cells[i])
		}
	}
	d.Rows = rows
	if c := v.compression(); c != nil {
		d.Sub = v.label("readings.sub", "unit", string(c.Unit), "repeat", number(c.URepeat, v.repeatDecimals(c), c.Unit))
	}
	return figure.NewTable(d)
}

// repeatDecimals gives the repeatability one decimal more than the readings.
func (v *view) repeatDecimals(c *diag.CompressionResult) int { return c.Decimals + 1 }

func (v *view) facesTable() layout.Block {
	r := v.rotors()
	d := figure.Table{Name: "readings", Title: v.label("heading.readings"), Sub: onPage(string(r.Unit)), Columns: []figure.Column{{Head: v.label("column.rotor")}}}
	for face := range 3 {
		d.Columns = append(d.Columns, figure.Column{Head: v.label("column.face", "face", faceName(face)), Numbers: true})
	}
	d.Columns = append(d.Columns, figure.Column{Head: v.label("column.difference"), Numbers: true})
	for _, rotor := range r.Rotors {
		row := []string{rotor.Name}
		for face := range 3 {
			cell := string(rotor.State)
			if face < len(rotor.Values) {
				cell = read(rotor.Values[face], r.Decimals)
			}
			row = append(row, cell)
		}
		d.Rows = append(d.Rows, append(row, read(rotor.Difference, r.Decimals)))
	}
	return figure.NewTable(d)
}

// sumsBlock is the arithmetic with the numbers put in.
func (v *view) sumsBlock() layout.Block {
	var items []string
	if c := v.compression(); c != nil && c.N > 1 {
		items = append(items, v.compressionSums(c)...)
	}
	for _, circuit := range circuits(v.fuel()) {
		if circuit.InjectorFlowPercent != nil {
			items = append(items, v.label("sum.flow", "percent", percentOf(*circuit.InjectorFlowPercent)))
		}
	}
	if len(items) == 0 {
		return nil
	}
	return figure.NewList("sums", figure.List{Title: v.label("heading.sums"), Items: items})
}

func circuits(f *diag.FuelResult) []diag.CircuitResult {
	if f == nil {
		return nil
	}
	return f.Circuits
}

func (v *view) compressionSums(c *diag.CompressionResult) []string {
	n := func(value float64) diag.Number {
		return number(value, quantity.DecimalsRead(value, c.Decimals), quantity.None)
	}
	ofLowest := ""
	if !math.IsInf(c.SpreadPercentOfLowest, 0) { // of nothing there is no part
		ofLowest = percentOf(c.SpreadPercentOfLowest).String()
	}
	items := []string{
		v.label("sum.spread", "highest", n(c.Highest), "lowest", n(c.Lowest), "spread", percentOf(c.SpreadPercentOfHighest),
			"ofLowest", ofLowest, "ofMean", percentOf(c.SpreadPercentOfMean)),
		v.label("sum.mean", "mean", number(c.Mean, c.Decimals+1, quantity.None), "below", percentOf(c.LowestPercentBelowMean),
			"median", number(c.Median, c.Decimals+1, quantity.None), "belowMedian", percentOf(c.LowestPercentBelowMedian)),
		v.label("sum.uncertainty", "repeat", number(c.URepeat, c.Decimals+1, quantity.None), "difference", number(2*math.Sqrt2*c.URepeat, c.Decimals+1, quantity.None)),
	}
	if c.WetControl != nil {
		items = append(items, v.label("sum.control", "control", percentOf(*c.WetControl)))
	}
	if c.AltitudeFactor != nil && c.DensityFactor != nil {
		items = append(items, v.label("sum.altitude", "pressure", number(*c.AltitudeFactor, 3, quantity.None), "density", number(*c.DensityFactor, 3, quantity.None)))
	}
	if c.Expected != nil {
		items = append(items, v.label("sum.expected", "low", n(c.Expected.Low), "high", number(c.Expected.High, c.Decimals, c.Unit), "basis", v.keep(v.words.Expected(c.Expected, v.test.Conditions))))
	}
	if c.NotComparable != "" {
		items = append(items, v.optional("not-comparable."+c.NotComparable, c.NotComparable))
	}
	return items
}

// trendBlock is the earlier tests beside this one, where there are several.
func (v *view) trendBlock() layout.Block {
	c := v.compression()
	if c == nil || len(v.test.Earlier) == 0 {
		return nil
	}
	names, _ := v.inDiagramOrder()
	d := figure.Table{Name: "trend", Title: v.label("heading.trend"), Sub: onPage(string(c.Unit)), Columns: []figure.Column{{Head: v.label("column.test")}}}
	for _, name := range names {
		d.Columns = append(d.Columns, figure.Column{Head: name, Numbers: true, Share: 1})
	}
	for _, e := range v.test.Earlier {
		if e.Test == nil || e.Test.Compression == nil {
			continue
		}
		row := []string{e.Label}
		for _, name := range names {
			row = append(row, v.earlierReading(e.Test.Compression, name))
		}
		d.Rows = append(d.Rows, row)
	}
	if len(d.Rows) == 0 {
		return nil
	}
	row := []string{v.label("trend.this")}
	for _, name := range names {
		row = append(row, v.ofCylinder(name, v.dryText))
	}
	d.Rows = append(d.Rows, row)
	if c.NotComparable != "" {
		d.Captions = []string{v.optional("not-comparable."+c.NotComparable, c.NotComparable)}
	}
	return figure.NewTable(d)
}

func (v *view) earlierReading(c *diag.Compression, name string) string {
	value, read := c.Dry[name].Value()
	if !read {
		return "\u2013"
	}
	converted, err := quantity.Convert(value, c.Unit, v.compression().Unit)
	if err != nil {
		return "\u2013"
	}
	return v.pressure(converted)
}
