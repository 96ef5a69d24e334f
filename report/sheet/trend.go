package sheet

import (
	"math"
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
	"gaugesheet/layout"
	"gaugesheet/layout/figure"
	"gaugesheet/report/job"
)

// mostEarlier is how many earlier tests a trend shows, the latest of them.
const mostEarlier = 4

// A pastTest is an earlier test, or the readings before the work.
type pastTest struct {
	heading string
	value   func(cylinder string) (float64, bool) // in this test's unit
}

// trendBlock is the earlier readings beside those of this test, a row to a
// cylinder. The table of readings has a single earlier test that compares.
func (v *view) trendBlock() layout.Block {
	c, past := v.trendPast()
	if len(past) == 0 {
		return nil
	}
	d := figure.Table{Name: "trend", Title: v.label("heading.trend"), Sub: onPage(string(c.Unit)), Columns: []figure.Column{{Heading: v.label("column.cylinder"), Tab: true}}}
	for _, p := range past {
		d.Columns = append(d.Columns, figure.Column{Heading: p.heading, Numbers: true})
	}
	d.Columns = append(d.Columns, figure.Column{Heading: v.label("trend.this"), Numbers: true, Strong: true}, figure.Column{Trend: true})
	names, groups := v.inDiagramOrder()
	for i, name := range names {
		row := figure.TableRow{Cells: []figure.TableCell{{Text: name}}, Shade: v.standsOut(name), Break: i > 0 && groups[i] != groups[i-1]}
		var trend []float64
		for _, p := range past {
			value, read := p.value(name)
			text := v.label("trend.none")
			if read {
				text = v.pressure(value)
			} else {
				value = math.NaN()
			}
			row.Cells, trend = append(row.Cells, figure.TableCell{Text: text}), append(trend, value)
		}
		now, value := "", math.NaN()
		if r := c.Cylinder(name); r != nil && r.Dry != nil {
			now, value = v.dryText(r), *r.Dry
		}
		row.Cells = append(row.Cells, figure.TableCell{Text: now}, figure.TableCell{Trend: append(trend, value)})
		d.Rows = append(d.Rows, row)
	}
	d.Captions = v.trendCaptions(c)
	return figure.NewTable(d)
}

// trendPast are the earlier tests that the table of them has, and the compression
// that they are set beside.
func (v *view) trendPast() (*diag.CompressionResult, []pastTest) {
	c := v.compression()
	if c == nil {
		return nil, nil
	}
	past := v.pastTests(c)
	if len(past) == 1 && c.ComparedWith != "" && v.test.Before == nil && v.hasBlock("readings") {
		return c, nil
	}
	return c, past
}

// beforeInTable reports a sheet whose table of earlier tests has what cranking gave
// before the work.
func (v *view) beforeInTable() bool {
	_, past := v.trendPast()
	return len(past) > 0 && v.hasBlock("trend")
}

// pastTests are the earlier tests with readings of the compression, oldest
// first, and last those before the work.
func (v *view) pastTests(c *diag.CompressionResult) []pastTest {
	var past []pastTest
	add := func(head string, t *diag.Test) {
		if t != nil && t.Compression != nil && len(t.Compression.Dry) > 0 {
			past = append(past, pastTest{head, func(name string) (float64, bool) {
				value, read := t.Compression.Dry[name].Value()
				converted, err := quantity.Convert(value, t.Compression.Unit, c.Unit)
				return converted, read && err == nil
			}})
		}
	}
	for _, e := range v.test.Earlier {
		add(v.earlierName(e), e.Test)
	}
	past = past[max(0, len(past)-mostEarlier):]
	if b := v.test.Before; b != nil {
		head := v.label("trend.before")
		if !b.Date.IsZero() {
			head = v.label("trend.before-on", "date", v.date(job.Date{Time: b.Date}))
		}
		add(head, b.Test)
	}
	return past
}

// trendCaptions say what was done between, where nothing else does, and why an earlier test was not
// compared.
func (v *view) trendCaptions(c *diag.CompressionResult) []string {
	var captions []string
	if b := v.test.Before; b != nil && b.Done != "" && len(v.beforeTests()) == 0 {
		captions = append(captions, v.label("trend.done", "done", b.Done))
	}
	if c.NotComparable != "" {
		captions = append(captions, v.optional("not-comparable."+c.NotComparable, c.NotComparable))
	}
	return slices.Clip(captions)
}
