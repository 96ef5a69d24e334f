package sheet

import (
	"gaugesheet/diag"
	"gaugesheet/layout"
	"gaugesheet/layout/figure"
)

// resultsBlock is what was asked, done and found, recommended, declined and not
// tested, a row to each: what somebody wants to know who holds an invoice
// beside it. No prices.
func (v *view) resultsBlock() layout.Block {
	d := figure.Table{
		Name: "results", Title: v.label("heading.results"), Lines: true,
		Columns: []figure.Column{{Strong: true}, {Share: 1}},
	}
	add := func(key string, values ...string) {
		if words := joined(" ", values...); words != "" {
			d.Rows = append(d.Rows, figure.TextRow(v.label("work."+key), onPage(words)))
		}
	}
	asked := joined("; ", append([]string{v.job.Reason.Value}, v.complaints()...)...)
	add("asked", sentences(capital(asked), v.prefixed("work.authorised-by", v.authorisedWords()))...)
	add("done", v.doneWords()...)
	add("result", v.resultWords()...)
	add("recommended", listed(values(v.job.Recommended)))
	add("declined", listed(values(v.job.Declined)))
	if untested := v.untestedGroups(); len(untested) > 0 {
		add("not-tested", ended(capital(joined("; ", untested...))), v.label("entry.beyond"), v.beyondWords())
	} else {
		d.Rows = append(d.Rows, figure.TextRow(v.label("tested.never"), onPage(capital(v.beyondWords()))))
	}
	return figure.NewTable(d)
}

// listed are the shop's own texts, one behind the other: sentences where they begin
// as such.
func listed(texts []string) string {
	said := ""
	for _, text := range allOnPage(texts) {
		switch {
		case said == "":
			said = text
		case text == capital(text):
			said = ended(said) + " " + text
		default:
			said += "; " + text
		}
	}
	return ended(said)
}

// sentences end each text that has no end of its own, so that several run on.
func sentences(texts ...string) []string {
	said := make([]string, len(texts))
	for i, text := range texts {
		said[i] = ended(onPage(text))
	}
	return said
}

// doneWords are the tests that were made, with how many were read.
func (v *view) doneWords() []string {
	var made []string
	for _, r := range v.results() {
		if r.state != diag.Tested {
			continue
		}
		count := ""
		if columns := v.columnsOf(r.test); len(columns) > 0 {
			read := 0
			for _, name := range v.names() {
				if _, was := v.testedCell(columns, name); was {
					read++
				}
			}
			count = v.label("tested.count", "read", read, "of", len(v.names()))
		}
		made = append(made, v.label("work.made", "test", r.name, "count", count))
	}
	for i := range v.d.Measured {
		if r := &v.d.Measured[i]; r.State == diag.Tested {
			made = append(made, capital(v.label("kind."+r.Name)))
		}
	}
	done := ""
	if len(made) > 0 {
		done = ended(capital(joined("; ", made...)))
	}
	return []string{done, v.prefixed("work.before", joined(", ", values(v.job.Vehicle.WorkDone)...))}
}

// resultWords are what each test came to.
func (v *view) resultWords() []string {
	var said []string
	for _, r := range v.results() {
		if r.state == diag.Tested {
			read := v.fuelRead()
			if len(v.columnsOf(r.test)) > 0 {
				read = v.readWords(r.test)
			}
			said = append(said, v.label("work.came-to", "test", r.name, "unit", v.unitShownOf(r.test), "read", read, "value", onPage(r.value), "word", r.word))
		}
	}
	return said
}

// unitShownOf is the unit of a test's figures, "" for words.
func (v *view) unitShownOf(test string) string { return onPage(string(v.unitOf(test))) }

// isResult reports a test that has a line among the results.
func (v *view) isResult(test string) bool {
	switch test {
	case "compression", "rotors", "leakage", "plugs", "fuel pressure":
		return true
	}
	return false
}
