package sheet

import (
	"math"
	"slices"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
	"gaugesheet/layout"
	"gaugesheet/layout/figure"
	"gaugesheet/report/readings"
)

// fewCylinders is up to how many cylinders have a column of their own in the
// table of what was tested.
const fewCylinders = 4

// testedBlock is a row to a test: how many cylinders were read and what they
// read, or why they were not, against the limit; so that a blank is not taken
// for sound.
func (v *view) testedBlock() layout.Block {
	d := figure.Table{Name: "tested", Title: v.label("heading.tested"), Lines: true, Columns: []figure.Column{
		{Heading: v.label("column.test"), Strong: true}, {Heading: v.label("column.read")},
	}}
	names := v.names()
	few := len(names) <= fewCylinders
	switch {
	case !v.anyResult(): // each row says in words why not
		d.Columns[1].Share = 1
	case few:
		for _, name := range names {
			d.Columns = append(d.Columns, figure.Column{Heading: name, HeadTab: true})
		}
	default:
		d.Columns = append(d.Columns, figure.Column{Heading: v.label("column.readings"), Share: 1})
	}
	if len(d.Columns) > 2 {
		d.Columns = append(d.Columns, figure.Column{Heading: v.label("column.against"), Share: 1})
	}
	for _, r := range v.results() {
		d.Rows = append(d.Rows, v.testedRow(r, names, few))
	}
	d.Rows = append(d.Rows, v.furtherTested()...)
	for _, u := range v.d.NotTested {
		if !v.isResult(u.Test) {
			d.Rows = append(d.Rows, untestedRow(capital(v.optional("kind."+u.Test, u.Test)), stateMark(u.State), v.stateBecause(u.State, u.Reason)))
		}
	}
	d.Rows = append(d.Rows, untestedRow(v.label("work.declined"), figure.NoMark, onPage(v.declinedWords())),
		untestedRow(v.label("tested.never"), figure.NoMark, v.beyondWords()))
	return figure.NewTable(d)
}

// anyResult reports a test that was made of those that have a row of figures.
func (v *view) anyResult() bool {
	return slices.ContainsFunc(v.results(), func(r result) bool { return r.state == diag.Tested })
}

// declinedWords are what the owner declined in the shop's words, else the tests
// that were declined.
func (v *view) declinedWords() string {
	if said := joined("; ", values(v.job.Declined)...); said != "" {
		return said
	}
	var tests []string
	for _, r := range v.results() {
		if r.state == diag.Declined {
			tests = append(tests, r.name)
		}
	}
	for _, u := range v.d.NotTested {
		if !v.isResult(u.Test) && u.State == diag.Declined {
			tests = append(tests, v.optional("kind."+u.Test, u.Test))
		}
	}
	if len(tests) == 0 {
		return v.label("tested.nothing-declined")
	}
	return joined("; ", tests...)
}

// untestedRow is a row of a test that was not made, in words.
func untestedRow(name string, mark figure.Mark, words string) figure.TableRow {
	return figure.TableRow{Cells: []figure.TableCell{{Text: name}, {Mark: mark, Text: words, Runs: true}}}
}

// manyFurther is from how many further tests on those that ask for nothing share a
// row.
const manyFurther = 5

// furtherTested are the rows of the further tests, whose readings stand in a table
// of their own.
func (v *view) furtherTested() []figure.TableRow {
	var rows []figure.TableRow
	var kept diag.Names
	var keptCounts furtherCounts
	made := 0
	for i := range v.d.Measured {
		if v.d.Measured[i].State == diag.Tested {
			made++
		}
	}
	for i := range v.d.Measured {
		r := &v.d.Measured[i]
		if r.State != diag.Tested {
			continue
		}
		c := countFurther(r)
		if made >= manyFurther && c.outside+c.close == 0 {
			kept = append(kept, v.label("kind."+r.Name))
			keptCounts = furtherCounts{all: keptCounts.all + c.all, within: keptCounts.within + c.within}
			continue
		}
		row := untestedRow(capital(v.label("kind."+r.Name)), figure.NoMark, v.countWords(c))
		if m := v.systemMark(r.Name); m != figure.LookAgain {
			row.Cells[1].Mark = m
		}
		rows = append(rows, row)
	}
	if len(kept) > 0 {
		words := v.label("tested.further", "tests", kept, "counts", v.countWords(keptCounts))
		rows = append(rows, untestedRow(v.label("tested.further-tests", "rest", len(rows) > 0), figure.NoMark, words))
	}
	return rows
}

// furtherCounts count what a further test read, and the verdicts on it.
type furtherCounts struct{ all, within, outside, close int }

func countFurther(r *diag.MeasuredResult) furtherCounts {
	c := furtherCounts{all: len(r.Readings)}
	if c.all == 0 { // all that was noted is in words
		c.all = len(r.Words)
	}
	for _, m := range r.Readings {
		switch {
		case !m.Limited():
		case m.Verdict == diag.Within:
			c.within++
		case m.Verdict == diag.Outside:
			c.outside++
		case m.Verdict == diag.TooClose:
			c.close++
		}
	}
	return c
}

func (v *view) countWords(c furtherCounts) string {
	return v.label("further.row", "count", c.all, "within", c.within, "outside", c.outside, "close", c.close)
}

// testedRow is what a test came to.
func (v *view) testedRow(r result, names []string, few bool) figure.TableRow {
	name := r.name
	if unit := v.unitOf(r.test); unit != quantity.None {
		name += ", " + onPage(string(unit))
	}
	if r.state != diag.Tested {
		return untestedRow(r.name, stateMark(r.state), v.stateBecause(r.state, r.value))
	}
	row := figure.TableRow{Cells: []figure.TableCell{{Text: name}}}
	columns := v.columnsOf(r.test)
	if len(columns) == 0 { // of the engine, not of a cylinder
		row.Cells = append(row.Cells, figure.TableCell{Text: v.label("tested.read")}, figure.TableCell{Text: v.fuelRead(), Runs: true})
		for len(row.Cells) < 2+len(names) && few {
			row.Cells = append(row.Cells, figure.TableCell{})
		}
		return v.against(row, r)
	}
	read := 0
	var cells []figure.TableCell
	for _, name := range names {
		cell, was := v.testedCell(columns, name)
		if was {
			read++
		}
		cells = append(cells, cell)
	}
	row.Cells = append(row.Cells, figure.TableCell{Text: v.label("tested.count", "read", read, "of", len(names))})
	if few {
		row.Cells = append(row.Cells, cells...)
	} else {
		row.Cells = append(row.Cells, figure.TableCell{Text: v.readWords(r.test)})
	}
	return v.against(row, r)
}

// against adds what a test came to against its limit.
func (v *view) against(row figure.TableRow, r result) figure.TableRow {
	cell := figure.TableCell{Text: joined(": ", r.value, r.word), Bold: r.mark == figure.Low || r.mark == figure.High}
	if r.mark != figure.Within && r.word != v.judged(diag.Within) {
		cell.Mark = r.mark
	}
	row.Cells = append(row.Cells, cell)
	return row
}

func (v *view) unitOf(test string) quantity.Unit {
	switch {
	case test == "compression" && v.compression() != nil:
		return v.compression().Unit
	case test == "rotors" && v.rotors() != nil:
		return v.rotors().Unit
	case test == "leakage" && v.leakage() != nil:
		return quantity.Percent
	case test == "fuel pressure" && v.fuel() != nil:
		return v.fuel().Unit
	}
	return quantity.None
}

// columnsOf are the columns that say of a cylinder what a test read: the value
// and what stands behind it.
func (v *view) columnsOf(test string) []readings.Column {
	switch test {
	case "compression":
		return pick(readings.Compression(v.test, v.compression()), "dry", "entered", "wet")
	case "rotors":
		return pick(readings.Rotors(v.rotors()), "face-A", "face-B", "face-C")
	case "leakage":
		return pick(readings.Leakage(v.test, v.leakage()), "leakage", "leak-at")
	case "plugs":
		return pick(readings.Plugs(v.plugs()), "plug", "gap")
	}
	return nil
}

func pick(columns []readings.Column, keys ...string) []readings.Column {
	var picked []readings.Column
	for _, key := range keys {
		for _, c := range columns {
			if c.Key == key {
				picked = append(picked, c)
			}
		}
	}
	return picked
}

// testedCell is what was read of one cylinder, and whether anything was.
func (v *view) testedCell(columns []readings.Column, name string) (figure.TableCell, bool) {
	value := columns[0].Of(name)
	if s := value.State(); s != "" {
		return figure.TableCell{Mark: stateMark(s), Text: v.stateShort(s, value.Reason)}, false
	}
	var notes []string
	for _, c := range columns[1:] {
		words := v.valueWords(c.Of(name))
		if c.Key == "wet" && words != "" {
			words = v.label("tested.wet", "value", words)
		}
		if words != "" {
			notes = append(notes, words)
		}
	}
	text, note := v.valueWords(value), strings.Join(notes, ", ")
	if columns[0].Key == "face-A" {
		text, note = joined(", ", append([]string{text}, notes...)...), ""
	}
	if text == "" {
		text, note = note, ""
	}
	return figure.TableCell{Text: text, Note: note, Bold: true}, text != ""
}

// readWords are what was read of each cylinder where these are few or words,
// else the lowest and the highest.
func (v *view) readWords(test string) string {
	low, high := v.extremes(test)
	if !v.ranged(test) {
		return v.byValue(func(name string) string {
			cell, read := v.testedCell(v.columnsOf(test), name)
			if !read {
				return ""
			}
			return cell.Text
		})
	}
	return v.label("tested.range", "low", v.numberRead(test, low), "lowAt", low, "high", v.numberRead(test, high), "highAt", high)
}

// ranged reports a test of which only the least and the most are said.
func (v *view) ranged(test string) bool {
	low, high := v.extremes(test)
	return low != high && len(v.names()) > fewCylinders
}

func (v *view) numberRead(test, name string) string {
	cell, _ := v.testedCell(v.columnsOf(test), name)
	return cell.Text
}

// extremes are the cylinders that read the least and the most; the same one for
// tests without figures.
func (v *view) extremes(test string) (low, high string) {
	switch {
	case test == "compression" && v.compression().N > 1:
		return v.compression().LowestAt, v.compression().HighestAt
	case test == "leakage":
		least, most := math.Inf(1), math.Inf(-1)
		for _, c := range v.leakage().Cylinders {
			if c.Loss != nil && *c.Loss < least {
				least, low = *c.Loss, c.Name
			}
			if c.Loss != nil && *c.Loss > most {
				most, high = *c.Loss, c.Name
			}
		}
	}
	return low, high
}

// fuelRead are the fuel pressures as read.
func (v *view) fuelRead() string {
	var said []string
	for _, c := range circuits(v.fuel()) {
		var of []string
		for _, r := range c.Readings {
			of = append(of, v.label("tested.fuel", "name", v.readingName(r.Name), "value", read(r.Value, v.fuel().Decimals)))
		}
		words := joined(", ", of...)
		if c.Name != "" && words != "" {
			words = v.label("fuel.of-circuit", "circuit", c.Name, "words", words)
		}
		said = append(said, words)
	}
	return joined("; ", said...)
}

// byValue gives each value with the cylinders that have it, in the order of the
// cylinders: "oil-wet (3), the others normal". The value that most have comes
// last where it is every other's.
func (v *view) byValue(value func(name string) string) string {
	var order []string
	by := map[string]diag.Names{}
	read := 0
	for _, name := range v.names() {
		if s := value(name); s != "" {
			if by[s] == nil {
				order = append(order, s)
			}
			by[s] = append(by[s], name)
			read++
		}
	}
	if read == 0 {
		return ""
	}
	all := read == len(v.names())
	if len(v.names()) == 1 {
		return order[0]
	}
	if len(order) == 1 && all && read > 1 {
		return v.label("tested.all", "value", order[0])
	}
	common := slices.MaxFunc(order, func(a, b string) int { return len(by[a]) - len(by[b]) })
	last := all && len(by[common]) > 2
	var entries []string
	for _, s := range order {
		if s != common || !last {
			entries = append(entries, v.label("tested.one", "value", s, "cylinders", strings.Join(by[s], ",\u00a0")))
		}
	}
	if last {
		entries = append(entries, v.label("tested.others", "value", common))
	}
	if slices.ContainsFunc(order, func(s string) bool { return strings.Contains(s, ", ") }) {
		return strings.Join(entries, "; ") // a value that lists repeats is told from the next
	}
	return strings.Join(entries, ", ")
}
