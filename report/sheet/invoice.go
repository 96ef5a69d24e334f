package sheet

import (
	"gaugesheet/diag"
	"gaugesheet/layout"
	"gaugesheet/layout/figure"
)

// resultsBlock is a line per test: what was done and what it came to.
func (v *view) resultsBlock() layout.Block {
	return v.resultTable("results", v.label("heading.results"))
}

func (v *view) resultTable(name, title string) layout.Block {
	d := figure.Table{Name: name, Title: title, Columns: []figure.Column{
		{Head: v.label("column.test")}, {Head: v.label("column.state")}, {Head: v.label("column.result")}, {Head: v.label("column.value"), Share: 1},
	}}
	for _, r := range v.results() {
		row := []string{r.name, v.state(r.state), r.word, r.value}
		if r.state != diag.Tested {
			row = []string{r.name, v.state(r.state), "", r.value}
		}
		d.Rows = append(d.Rows, figure.TextRow(row...))
	}
	for _, u := range v.d.NotTested {
		if !v.isResult(u.Test) {
			d.Rows = append(d.Rows, figure.TextRow(capital(v.optional("test.name."+u.Test, u.Test)), v.state(u.State), "", u.Reason))
		}
	}
	return figure.NewTable(d)
}

// isResult reports a test that has a line among the results.
func (v *view) isResult(test string) bool {
	switch test {
	case "compression", "rotors", "leakage", "plugs", "fuel pressure":
		return true
	}
	return false
}
