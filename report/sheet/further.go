package sheet

import (
	"slices"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
	"gaugesheet/diag/quantity"
	"gaugesheet/layout"
	"gaugesheet/layout/figure"
)

// mostFurtherBeside is how many rows of further tests stand in a column beside
// others; more have the width of the page.
const mostFurtherBeside = 12

// furtherBlock is what the further tests read, beside other blocks.
func (v *view) furtherBlock() layout.Block {
	if d := v.further(); len(d.Rows) > 0 && len(d.Rows) <= mostFurtherBeside {
		return figure.NewFurther(d)
	}
	return nil
}

// furtherWideBlock is what many further tests read, across the page.
func (v *view) furtherWideBlock() layout.Block {
	if d := v.further(); len(d.Rows) > mostFurtherBeside {
		return figure.NewFurther(d)
	}
	return nil
}

// shown is a diagnosis as a sheet shows it: what was measured as nothing stands among
// the readings of its test.
func shown(d *diag.Diagnosis, t *diag.Test) *diag.Diagnosis {
	out := *d
	out.Measured = make([]diag.MeasuredResult, len(d.Measured))
	for i := range d.Measured {
		out.Measured[i] = d.Measured[i].WithNothingMeasured(t.MeasuredTest(d.Measured[i].Name))
	}
	return &out
}

// further is what the further tests read, one table for all of them: a row to a
// reading with its limit and the verdict, of cylinders a row to what was read of
// each.
func (v *view) further() figure.Further {
	d := figure.Further{Key: v.label("further.key"), Heads: [3]string{v.label("column.reading"), v.label("column.limit"), v.label("column.judged")}}
	d.Table = figure.Table{Name: "further-tests", Title: v.label("heading.further"), Columns: []figure.Column{
		{Heading: d.Heads[0]}, {Heading: v.label("column.found"), Plain: true}, {Heading: d.Heads[1]}, {Heading: d.Heads[2], Plain: true},
	}}
	for i := range v.d.Measured {
		d.Rows = append(d.Rows, v.furtherRows(&v.d.Measured[i])...)
	}
	d.Sum = v.furtherSum(d.Rows)
	if v.withoutLimits(d.Rows) {
		d.Key = ""
		d.Columns = d.Columns[:2]
		for i := range d.Rows {
			d.Rows[i].Cells = d.Rows[i].Cells[:2]
		}
	}
	v.eachApart(&d)
	return d
}

// furtherSum says what the rows come to, for a page that has no room for them.
func (v *view) furtherSum(rows []figure.TableRow) string {
	counts := map[diag.Verdict]int{}
	for i := range v.d.Measured {
		for _, m := range v.d.Measured[i].Readings {
			if m.Limited() {
				counts[m.Verdict]++
			}
		}
	}
	key := "further.sum"
	if v.workshop() {
		key = "further.sum-workshop"
	}
	left := 0
	for _, r := range rows {
		if !r.Keep {
			left++
		}
	}
	return v.label(key, "count", left, "outside", counts[diag.Outside], "close", counts[diag.TooClose])
}

func (v *view) withoutLimits(rows []figure.TableRow) bool {
	for _, r := range rows {
		if r.Cells[2].Text != "" || r.Cells[3].Text != "" {
			return false
		}
	}
	return true
}

// furtherRows are the rows of one further test.
func (v *view) furtherRows(r *diag.MeasuredResult) []figure.TableRow {
	if r.State != diag.Tested {
		return nil
	}
	var rows []figure.TableRow
	said := map[string]bool{}
	common := v.commonUnit(r)
	var before *diag.MeasuredReading
	for _, m := range byName(r.Readings) {
		switch {
		case m.Cylinder == "":
			rows = append(rows, v.furtherRow(r, m, before, common))
			before = m
		case !said[m.Name]:
			said[m.Name] = true
			rows = append(rows, v.eachRow(r, m.Name))
		}
	}
	for _, w := range r.Words {
		if !said["word "+w.Name] {
			said["word "+w.Name] = true
			rows = append(rows, v.tickedRow(r, w.Name))
		}
	}
	if len(rows) > 0 {
		rows[0].Break = true
	}
	lead := v.furtherLead(r, common)
	for i := range rows {
		rows[i].Brief.Lead = lead
	}
	limitsOnce(rows)
	return rows
}

// byName are readings with those of one name together, in the order in which the
// names come first: each kind of gas at every speed, then the next.
func byName(readings []diag.MeasuredReading) []*diag.MeasuredReading {
	first := map[string]int{}
	all := make([]*diag.MeasuredReading, len(readings))
	for i := range readings {
		all[i] = &readings[i]
		if _, known := first[all[i].Name]; !known {
			first[all[i].Name] = i
		}
	}
	slices.SortStableFunc(all, func(a, b *diag.MeasuredReading) int { return first[a.Name] - first[b.Name] })
	return all
}

// readingWords are what a reading is of, in words or by the job's own name.
func (v *view) readingWords(section, name string) string {
	if section == diag.OtherReadings {
		return onPage(name)
	}
	return v.label("measured."+section+" "+name, "empty", v.pumpedEmpty(section))
}

// pumpedEmpty reports a crankcase that was tested under vacuum.
func (v *view) pumpedEmpty(section string) bool {
	return section == known.CrankcaseHold && slices.ContainsFunc(v.d.Measured, func(r diag.MeasuredResult) bool { return r.Name == section && known.UnderVacuum(&r) })
}

// furtherRow is a reading of the engine, behind the one before it.
func (v *view) furtherRow(r *diag.MeasuredResult, m, before *diag.MeasuredReading, common quantity.Unit) figure.TableRow {
	row := figure.TextRow(capital(v.readingWords(r.Name, m.Name)), v.furtherValue(m), spanned(m.LimitEntered), "")
	if m.At != "" {
		row.Cells[1].Note = v.label("further.at", "at", v.speedWords(m.At))
	}
	v.judge(&row, m)
	value := row.Cells[1].Text
	if takesUnit(m) && m.Unit == common {
		value = onPage(diag.AsWritten(m.Entered))
	}
	at := row.Cells[1].Note
	if where := sameSpeed(before, m); where != m.At {
		at = onPage(where)
	}
	if takenWith(r, m) {
		at = ""
	}
	row.Brief = v.brief(r, "measured", m.Name, joined(" ", value, at), m)
	return row
}

// takenWith reports a reading that says more of another, and was taken where that
// was: what the vacuum that was held came to later.
func takenWith(r *diag.MeasuredResult, m *diag.MeasuredReading) bool {
	other, _, more := strings.Cut(m.Name, " ")
	return more && slices.ContainsFunc(r.Readings, func(o diag.MeasuredReading) bool { return o.Name == other && o.At == m.At })
}

// furtherValue is a reading as it was entered, with its unit.
func (v *view) furtherValue(m *diag.MeasuredReading) string {
	if m.Entered == "" { // it was worked out
		return m.Number().String()
	}
	if takesUnit(m) {
		return onPage(diag.AsWritten(m.Entered) + "\u00a0" + string(m.Unit))
	}
	return v.bareValue(m)
}

// bareValue is a reading as it was entered, and the word for nothing in the page's own
// language.
func (v *view) bareValue(m *diag.MeasuredReading) string {
	if m.Entered == diag.NothingMeasured {
		return v.label("tick." + m.Entered)
	}
	return onPage(diag.AsWritten(m.Entered))
}

// takesUnit reports a reading that was entered as a bare number.
func takesUnit(m *diag.MeasuredReading) bool {
	return m.Entered != "" && m.Unit != "" && strings.Trim(m.Entered, "[]0123456789., +-–~") == ""
}

func (v *view) judge(row *figure.TableRow, m *diag.MeasuredReading) {
	if !m.Limited() {
		return
	}
	row.Cells[3] = figure.TableCell{Mark: readingMark(m.Value, m.LimitLow, m.Verdict), Text: v.term("judged-short", string(m.Verdict)), Bold: m.Verdict == diag.Outside}
	row.Shade = m.Verdict == diag.Outside
	row.Keep = v.workshop() && m.Verdict != diag.Within
}

// eachRow is what was read of each cylinder under one name, with the verdict on
// the worst of them.
func (v *view) eachRow(r *diag.MeasuredResult, name string) figure.TableRow {
	var of []*diag.MeasuredReading
	var worst *diag.MeasuredReading
	for i := range r.Readings {
		m := &r.Readings[i]
		if m.Name != name || m.Cylinder == "" {
			continue
		}
		of = append(of, m)
		if worst == nil || furtherRank(m.Verdict) > furtherRank(worst.Verdict) {
			worst = m
		}
	}
	names := v.names()
	slices.SortStableFunc(of, func(a, b *diag.MeasuredReading) int {
		return slices.Index(names, a.Cylinder) - slices.Index(names, b.Cylinder)
	})
	var values []cylinderValue
	shared := sharesUnit(of) && of[len(of)-1].Entered != diag.NothingMeasured // which has no unit
	for _, m := range of {
		value := v.furtherValue(m)
		if shared { // the unit is said once, behind the last
			value = v.bareValue(m)
		}
		if last := len(values) - 1; last >= 0 && values[last].cylinder == m.Cylinder { // its second valve
			values[last].value = joined(", ", values[last].value, value)
			continue
		}
		values = append(values, cylinderValue{m.Cylinder, value})
	}
	found := v.ofCylinders(values)
	if shared {
		found += "\u00a0" + unitWords(of[0].Unit)
	}
	words := capital(v.readingWords(r.Name, name))
	row := figure.TextRow(words, found, spanned(worst.LimitEntered), "")
	row.Each = v.eachCells(words, of)
	v.judge(&row, worst)
	row.Brief = v.brief(r, "measured", name, row.Cells[1].Text, worst)
	return row
}

// furtherRank orders verdicts, the worst highest.
func furtherRank(v diag.Verdict) int {
	return map[diag.Verdict]int{diag.Within: 1, diag.TooClose: 2, diag.Outside: 3}[v]
}

// tickedRow is what was seen or ticked under one name, of the engine or of each
// cylinder.
func (v *view) tickedRow(r *diag.MeasuredResult, name string) figure.TableRow {
	var values []string
	var of []cylinderValue
	for _, w := range r.Words {
		if w.Name != name {
			continue
		}
		value := v.optional("tick."+w.Value, onPage(w.Value))
		switch {
		case w.Cylinder != "":
			of = append(of, cylinderValue{w.Cylinder, value})
		case !slices.Contains(values, value):
			values = append(values, value)
		}
	}
	if len(of) > 0 {
		values = append(values, v.ofCylinders(of))
	}
	words := onPage(name)
	if r.Name != diag.OtherReadings {
		words = v.label("ticked." + r.Name + " " + name)
	}
	row := figure.TextRow(capital(words), strings.Join(values, ", "), "", "")
	row.Brief = v.brief(r, "ticked", name, row.Cells[1].Text, nil)
	return row
}

// speedWords are a speed, time or bank as the job has it, idle in the sheet's own
// word.
func (v *view) speedWords(at string) string {
	if rest, ok := strings.CutPrefix(at, "idle"); ok {
		at = v.label("speed.idle") + rest
	}
	return strings.ReplaceAll(onPage(at), " bank ", " bank\u00a0")
}
