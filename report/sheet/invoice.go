package sheet

import (
	"slices"
	"strings"

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
	asked := append([]string{v.job.Reason.Value}, v.complaintsBeside(v.job.Reason.Value)...)
	add("asked", sentences(capital(joined("; ", asked...)), v.prefixed("work.authorised-by", v.authorisedWords()))...)
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
			if r.test == "plugs" && slices.ContainsFunc(v.plugs().Cylinders, func(c diag.PlugResult) bool { return c.Look == "normal" }) {
				r.word = "" // the looks say which stand out
			}
			read := v.fuelRead()
			if len(v.columnsOf(r.test)) > 0 {
				read = v.readWords(r.test)
			}
			said = append(said, v.label("work.came-to", "test", r.name, "unit", v.unitShownOf(r.test), "read", read, "value", onPage(r.value), "word", r.word))
		}
	}
	said = append(said, v.furtherResults()...)
	if gas := v.coolantGasWords(); gas != "" {
		said = append(said, ended(gas))
	}
	return said
}

// mostNamed is how many readings of further tests past their limits are named among
// the results; more are counted.
const mostNamed = 3

// furtherResults are what the further tests with limits came to: the readings that
// are not within theirs, then the tests that keep all of theirs.
func (v *view) furtherResults() []string {
	var said []string
	var kept diag.Names
	var total furtherCounts
	for i := range v.d.Measured {
		r := &v.d.Measured[i]
		c := countFurther(r)
		if r.State != diag.Tested || c.within+c.outside+c.close == 0 {
			continue
		}
		if c.outside+c.close == 0 {
			kept = append(kept, v.label("kind."+r.Name))
			continue
		}
		total.outside, total.close = total.outside+c.outside, total.close+c.close
		said = append(said, v.label("work.further", "test", capital(v.label("kind."+r.Name)), "read", strings.Join(v.pastLimits(r), "; ")))
	}
	if total.outside+total.close > mostNamed {
		said = []string{v.label("work.further-many", "outside", total.outside, "close", total.close)}
	}
	if len(kept) > 0 {
		said = append(said, v.label("work.further-kept", "tests", kept))
	}
	return said
}

// pastLimits are the readings of a further test that are not within their limits.
func (v *view) pastLimits(r *diag.MeasuredResult) []string {
	var said []string
	for i := range r.Readings {
		m := &r.Readings[i]
		if !m.Limited() || m.Verdict == diag.Within || m.Verdict == diag.NotJudged {
			continue
		}
		at := ""
		if m.At != "" {
			at = v.label("further.at", "at", v.speedWords(m.At))
		}
		b := v.brief(r, "measured", m.Name, joined(" ", v.furtherValue(m), at), m)
		if m.Cylinder != "" {
			b.Name = v.label("work.further-at", "name", b.Name, "cylinder", m.Cylinder)
		}
		said = append(said, joined(", ", joined(" ", b.Name, b.Says, b.Limit), b.Judged))
	}
	return said
}

// unitShownOf is the unit of a test's figures, "" for words.
func (v *view) unitShownOf(test string) string { return unitWords(v.unitOf(test)) }

// isResult reports a test that has a line among the results.
func (v *view) isResult(test string) bool {
	switch test {
	case "compression", "rotors", "leakage", "plugs", "fuel pressure":
		return true
	}
	return false
}
