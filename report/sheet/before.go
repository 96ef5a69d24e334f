package sheet

import (
	"slices"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
	"gaugesheet/layout"
	"gaugesheet/layout/figure"
	"gaugesheet/report/job"
	"gaugesheet/report/readings"
)

// What was read before the work stands on every sheet beside what came of it: a
// sentence to a test, and behind it which way its readings went since. The table of
// earlier tests has the compression of cranking where a sheet has one.

// beforeBlock is what was read before the work, in words; on a full page only what came
// of it.
func (v *view) beforeBlock() layout.Block {
	tests := v.beforeTests()
	if len(tests) == 0 {
		return nil
	}
	b, date := v.test.Before, ""
	if !b.Date.IsZero() {
		date = v.date(job.Date{Time: b.Date})
	}
	title := figure.Remark{Title: v.label("entry.before", "done", b.Done, "date", date), Texts: []string{v.label("before.key")}}
	d := figure.Remarks{Name: "before", Items: append([]figure.Remark{title}, tests...), Least: []figure.Remark{title}}
	for _, r := range tests {
		if len(r.Texts) > 1 {
			d.Least = append(d.Least, figure.Remark{Title: r.Title, Texts: r.Texts[1:]})
		}
	}
	left := v.label("work.in-full")
	if v.workshop() {
		left = v.label("before.in-file")
	}
	last := &d.Least[len(d.Least)-1]
	last.Texts = append(slices.Clone(last.Texts), left)
	return figure.NewRemarks(d)
}

// beforeTests are the tests that were made before the work, each with what was read
// and how that has changed.
func (v *view) beforeTests() []figure.Remark {
	b := v.test.Before
	if b == nil || b.Test == nil {
		return nil
	}
	then := *v
	then.test, then.d = b.Test, diag.Assess(b.Test)
	moves := known.New(v.test).Moves()
	var tests []figure.Remark
	add := func(test, name, read string, names func(known.Move) string) {
		if read != "" {
			tests = append(tests, figure.Remark{Title: v.label("before.test", "test", name), Texts: bothSaid(ended(onPage(read)), v.sinceWords(moves[test], names))})
		}
	}
	ofCylinder := func(m known.Move) string { return m.Cylinder }
	add("compression", then.testName("test.compression", "compression"), then.compressionBefore(v.beforeInTable()), ofCylinder)
	add("rotors", then.testName("test.rotors", "rotors"), then.rotorsBefore(), ofCylinder)
	add("leakage", then.testName("test.leakage", "leakage"), then.leakageBefore(), ofCylinder)
	add("plugs", v.label("test.plugs"), then.plugsBefore(), ofCylinder)
	add("fuel pressure", then.testName("test.fuel", "fuel pressure"), then.fuelBefore(), v.fuelMoved)
	for i := range then.d.Measured {
		r := &then.d.Measured[i]
		lead, read := then.furtherBefore(r)
		add(r.Name, lead, read, func(m known.Move) string { return v.furtherMoved(r, m) })
	}
	if gas := b.Test.CoolantGas; gas != "" && gas != "not tested" {
		add("coolant gas", v.label("before.coolant-gas"), v.term("coolant-gas", gas), ofCylinder)
	}
	v.keep("", then.err)
	return tests
}

// testName is a test with the unit of its readings.
func (v *view) testName(label, test string) string {
	return joined(", ", v.label(label), v.unitShownOf(test))
}

// sinceWords say which way readings went since the work, named as the test names
// them.
func (v *view) sinceWords(moves []known.Move, name func(known.Move) string) string {
	went := map[known.Way]diag.Names{}
	for _, m := range moves {
		went[m.Way] = append(went[m.Way], name(m))
	}
	if len(moves) == 0 {
		return ""
	}
	return v.label("before.since", "up", went[known.Up], "down", went[known.Down], "other", went[known.Other], "same", went[known.Same],
		"all", len(went) == 1, "many", len(moves) > 1)
}

// compressionBefore is every reading of a compression test but those that the table
// of earlier tests has.
func (v *view) compressionBefore(inTable bool) string {
	c := v.compression()
	if c == nil {
		return ""
	}
	var said []string
	columns := readings.Compression(v.test, c)
	if !inTable {
		said = append(said, v.cylindersRead("", columns, "dry", "entered"))
	}
	for _, key := range []string{"first", "again", "wet", "idle", "snap"} {
		said = append(said, v.cylindersRead("before.column."+key, columns, key))
	}
	return joined("; ", append(said, v.test.Compression.WetInWords)...)
}

// cylindersRead are the values of a column of each cylinder, with what further
// columns say behind them.
func (v *view) cylindersRead(label string, columns []readings.Column, keys ...string) string {
	picked := pick(columns, keys...)
	var of []cylinderValue
	for _, name := range v.names() {
		cell, _ := v.testedCell(picked, name)
		text := cell.Text
		if cell.Note != "" {
			text = v.label("before.note", "value", text, "note", cell.Note)
		}
		if text != "" {
			of = append(of, cylinderValue{name, text})
		}
	}
	if len(of) == 0 {
		return ""
	}
	said := v.ofCylinders(of)
	if label == "" {
		return said
	}
	return v.label(label, "values", said)
}

func (v *view) rotorsBefore() string {
	if v.rotors() == nil {
		return ""
	}
	return v.cylindersRead("", readings.Rotors(v.rotors()), "face-A", "face-B", "face-C")
}

func (v *view) leakageBefore() string {
	l := v.leakage()
	if l == nil {
		return ""
	}
	columns := readings.Leakage(v.test, l)
	return joined("; ", v.cylindersRead("", columns, "leakage", "leak-entered", "leak-at"), v.cylindersRead("before.column.wet", columns, "leak-wet", "leak-wet-at"))
}

func (v *view) plugsBefore() string {
	p := v.plugs()
	if p == nil {
		return ""
	}
	return v.cylindersRead("", readings.Plugs(p), "plug", "gap", "plug-note")
}

// fuelBefore are the pressures of each circuit, what was held, and what was found
// beside them.
func (v *view) fuelBefore() string {
	f := v.fuel()
	var said []string
	for i := range circuits(f) {
		c := v.circuit(f, &f.Circuits[i])
		var of []string
		for _, r := range c.Readings {
			of = append(of, v.label("tested.fuel", "name", r.Name, "value", r.Text))
		}
		said = append(said, joined(": ", c.Name, joined("; ", append([]string{joined(", ", of...)}, c.Captions...)...)))
	}
	return joined("; ", said...)
}

// fuelMoved names a reading of a circuit.
func (v *view) fuelMoved(m known.Move) string {
	name := v.label("before.held")
	if m.Name != "hold" {
		name = v.readingName(m.Name)
	}
	return joined(" ", m.At, name)
}

// furtherBefore is a further test's name with its unit, and its readings in a line.
func (v *view) furtherBefore(r *diag.MeasuredResult) (lead, read string) {
	var said []string
	for _, row := range v.furtherRows(r) {
		lead = row.Brief.Lead
		said = append(said, joined(" ", row.Brief.Name, row.Brief.Says))
	}
	return lead, strings.Join(said, "; ")
}

// furtherMoved names a reading of a further test: by its cylinder, else by what it
// is and where it was taken.
func (v *view) furtherMoved(r *diag.MeasuredResult, m known.Move) string {
	list := "measured"
	if m.Ticked {
		list = "ticked"
	}
	name := v.brief(r, list, m.Name, "", nil).Name
	if m.Cylinder != "" {
		name = v.label("work.further-at", "name", name, "cylinder", m.Cylinder)
		return strings.TrimSuffix(name, ":")
	}
	at := ""
	if m.At != "" {
		at = v.label("further.at", "at", v.speedWords(m.At))
	}
	return joined(" ", name, at)
}

// bothSaid are what was read and what came of it, as far as there is any.
func bothSaid(read, since string) []string {
	if since == "" {
		return []string{read}
	}
	return []string{read, since}
}
