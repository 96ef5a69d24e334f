package sheet

import (
	"math"
	"slices"

	"gaugesheet/diag"
	"gaugesheet/layout"
	"gaugesheet/layout/figure"
	"gaugesheet/report/job"
	"gaugesheet/report/readings"
)

// readingsBlock is every reading, a row to a cylinder or rotor: as entered and
// as judged.
func (v *view) readingsBlock() layout.Block {
	columns := v.readingColumns()
	if len(columns) == 0 {
		return nil
	}
	names, groups := v.inDiagramOrder()
	first := "column.cylinder"
	if v.rotors() != nil {
		names, groups, first = v.names(), nil, "column.rotor"
	}
	d := figure.Table{
		Name: "readings", Title: v.label("heading.readings"), Sub: v.readingsSub(),
		Columns: []figure.Column{{Heading: v.label(first), Tab: true}},
	}
	for i := range columns {
		d.Columns = append(d.Columns, v.readingColumn(columns, i))
	}
	for i, name := range names {
		row := figure.TableRow{
			Cells: []figure.TableCell{{Text: name}}, Shade: v.standsOut(name),
			Break: i > 0 && groups != nil && groups[i] != groups[i-1],
		}
		for _, c := range columns {
			row.Cells = append(row.Cells, v.readingCell(c, name))
		}
		stateFirst(columns, row.Cells[1:])
		d.Rows = append(d.Rows, row)
	}
	return figure.NewTable(d)
}

// readingsSub says what the figures are: the unit, the gauge, how often each
// cylinder was turned.
func (v *view) readingsSub() string {
	switch {
	case v.rotors() != nil:
		return onPage(string(v.rotors().Unit))
	case v.compression() == nil:
		return ""
	}
	gauge := ""
	if g := v.test.Gauges.Compression; g != nil {
		gauge = g.Name
	}
	return v.label("readings.sub", "unit", string(v.compression().Unit), "gauge", gauge, "strokes", v.test.Conditions.Strokes)
}

// fewAgain is how many readings taken once more ask for a column of their own.
const fewAgain = 3

// readingColumns are the columns that this job has something for, in bench
// order, the grade last.
func (v *view) readingColumns() []readings.Column {
	var all, grade []readings.Column
	if r := v.rotors(); r != nil {
		all = append(all, readings.Rotors(r)...)
	}
	if c := v.compression(); c != nil {
		for _, column := range readings.Compression(v.test, c) {
			switch {
			case column.Key == "grade":
				grade = append(grade, column)
			case column.Key == "again" && v.againInSums():
			default:
				all = append(all, column)
			}
		}
	}
	if l := v.leakage(); l != nil {
		all = append(all, readings.Leakage(v.test, l)...)
	}
	if p := v.plugs(); p != nil {
		all = append(all, readings.Plugs(p)...)
	}
	all = slices.DeleteFunc(append(all, grade...), func(c readings.Column) bool {
		return c.Key == "leak-limit" || c.Key == "plug-note" // the table of limits has the one, what else was seen the other
	})
	return readings.Used(all, v.names())
}

// againInSums reports so few readings taken once more that they need no
// column.
func (v *view) againInSums() bool {
	n := 0
	for _, r := range v.compression().Cylinders {
		if r.Again != nil {
			n++
		}
	}
	return n < fewAgain && n < len(v.names())
}

// joins are the columns that stand under the heading of the one before them.
var joins = map[string]string{"wet-rise": "wet", "leak-at": "leakage", "change": "earlier", "gap": "plug", "snap": "idle"}

// readingColumn is how a column of readings is set.
func (v *view) readingColumn(columns []readings.Column, i int) figure.Column {
	key := columns[i].Key
	has := func(at int, key string) bool { return at >= 0 && at < len(columns) && columns[at].Key == key }
	d := figure.Column{Numbers: columns[i].Numbers, Strong: key == "dry"}
	if joins[key] != "" && has(i-1, joins[key]) {
		d.Joins = true
		return d
	}
	head := "column." + key
	switch {
	case key == "dry" && !has(i-1, "entered"):
		head = "column.dry-only"
	case i+1 < len(columns) && joins[columns[i+1].Key] == key && v.words.Has("labels", head+"-with"):
		head += "-with"
	}
	d.Heading = v.label(head, "when", v.comparedWith())
	return d
}

// comparedWith names the earlier test that this one is compared with, by its
// date where that is known.
func (v *view) comparedWith() string {
	if v.compression() == nil {
		return ""
	}
	for _, e := range v.test.Earlier {
		if e.Label == v.compression().ComparedWith {
			return v.earlierName(e)
		}
	}
	return v.compression().ComparedWith
}

// earlierName names an earlier test.
func (v *view) earlierName(e diag.Earlier) string {
	if e.Date.IsZero() {
		return e.Label
	}
	return v.date(job.Date{Time: e.Date})
}

// readingCell is what a column says of one cylinder.
func (v *view) readingCell(c readings.Column, name string) figure.TableCell {
	value := c.Of(name)
	if s := value.State(); s != "" {
		return figure.TableCell{Mark: stateMark(s), Text: v.stateShort(s, value.Reason), Runs: true}
	}
	cell := figure.TableCell{Text: v.valueWords(value), Bold: v.cellStandsOut(c.Key, name)}
	if c.Key == "grade" && len(value.Terms) > 0 {
		if m := gradeMark(diag.Grade(value.Terms[0])); m != figure.Within {
			cell.Mark, cell.Told = m, true
		}
	}
	return cell
}

// stateFirst lets the word for a reading that was not taken begin in the empty
// cell for its entry, where it has more room.
func stateFirst(columns []readings.Column, cells []figure.TableCell) {
	for i := 1; i < len(cells); i++ {
		entry := columns[i-1].Key == "entered" || columns[i-1].Key == "leak-entered"
		if entry && cells[i].Runs && cells[i-1].Text == "" {
			cells[i-1], cells[i] = cells[i], cells[i-1]
		}
	}
}

// valueWords are a value's words as a page has them.
func (v *view) valueWords(value readings.Value) string {
	if len(value.Terms) == 0 {
		return onPage(value.Text)
	}
	said := make([]string, len(value.Terms))
	for i, t := range value.Terms {
		said[i] = v.term(value.List, t)
	}
	return joined(", ", said...)
}

// stateShort is the reason behind its symbol, or the state where the job gives
// none.
func (v *view) stateShort(s diag.State, reason string) string {
	if reason != "" {
		return onPage(reason)
	}
	return v.state(s)
}

// standsOut reports a cylinder that is low, or that leaks past a limit.
func (v *view) standsOut(name string) bool {
	for _, key := range []string{"grade", "leakage", "face"} {
		if v.cellStandsOut(key, name) {
			return true
		}
	}
	return false
}

// cellStandsOut reports a value that is to be seen at a glance.
func (v *view) cellStandsOut(key, name string) bool {
	switch key {
	case "of-highest", "wet-rise", "grade":
		r := v.cylinder(name)
		return r != nil && (r.Grade.IsLow() || r.Grade == diag.High)
	case "earlier", "change":
		r := v.cylinder(name)
		return r != nil && r.Change != nil && math.Abs(*r.Change) > r.ChangeU && *r.Change < 0 && key == "change"
	case "leakage", "leak-at":
		r := v.leak(name)
		return r != nil && r.Loss != nil && (r.Verdict == diag.Outside || r.Verdict == diag.NotJudged && v.concern("leakage", name).Rank() > 1)
	case "plug":
		p := v.plug(name)
		return p != nil && p.Look != "" && p.Look != "normal" && p.Look != "worn"
	case "gap":
		p := v.plug(name)
		return p != nil && p.Gap == diag.Outside
	case "face":
		i := slices.IndexFunc(v.rotorResults(), func(r diag.RotorResult) bool { return r.Name == name })
		return i >= 0 && len(v.rotorResults()[i].LowFaces) > 0
	}
	return false
}

func (v *view) cylinder(name string) *diag.CylinderResult {
	if v.compression() == nil {
		return nil
	}
	return v.compression().Cylinder(name)
}

func (v *view) leak(name string) *diag.LeakResult {
	if v.leakage() == nil {
		return nil
	}
	return v.leakage().Cylinder(name)
}

func (v *view) rotorResults() []diag.RotorResult {
	if v.rotors() == nil {
		return nil
	}
	return v.rotors().Rotors
}
