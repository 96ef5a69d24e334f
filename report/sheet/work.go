package sheet

import (
	"slices"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/layout"
	"gaugesheet/layout/figure"
	"gaugesheet/report/job"
)

// What the shop wrote has a place on every sheet: recommended, declined and its
// terms here; what was seen and the photos among what else was seen; notes with
// the method; codes and what was done before with what names the engine.

// firstWords is how many words of each of these stay on a page that is too full
// for all of them.
const firstWords = 9

// short is how they give way. They stand whole on the workshop sheet.
func (v *view) short() figure.Short {
	if v.workshop() {
		return figure.Short{}
	}
	return figure.Short{Words: firstWords, Left: v.label("work.in-full")}
}

// mostPlain is how many words a reason has that says no more than that a test was
// declined, and by whom.
const mostPlain = 4

// saidDeclined reports a test that was declined, and that the shop names among what
// was: it is said there, and not again among what was not tested.
func (v *view) saidDeclined(u diag.Untested) bool {
	if u.State != diag.Declined || len(u.Cylinders) > 0 || u.Reading != "" || u.Circuit != "" {
		return false
	}
	if u.Reason != "" && !(v.says(u.Reason, u.State) && len(strings.Fields(u.Reason)) <= mostPlain) {
		return false // the reason is worth its words
	}
	return slices.ContainsFunc(v.job.Declined, func(said job.Text) bool { return job.TestCalled(said.Value) == u.Test })
}

// workBlock is the work recommended and declined, where no table of results has
// them.
func (v *view) workBlock() layout.Block {
	recommended, declined := allOnPage(values(v.job.Recommended)), allOnPage(values(v.job.Declined))
	if v.hasBlock("tested") { // that table has a row of what was declined
		declined = nil
	}
	if len(recommended)+len(declined) == 0 || v.hasBlock("results") {
		return nil
	}
	return figure.NewRemarks(figure.Remarks{Name: "work", Short: v.short(), Items: []figure.Remark{
		{Title: v.label("entry.recommended"), Texts: recommended},
		{Mark: figure.Declined, Title: v.label("entry.declined"), Texts: declined},
	}})
}

// photoWords are the photos that belong to the sheet, by name.
func (v *view) photoWords() []string {
	var items []string
	for _, p := range v.job.Photos {
		items = append(items, v.label("photos.line", "name", p.Name.Value, "shows", joined(", ", p.Shows.Value, p.File.Value)))
	}
	return items
}

// disclaimerBlock is the shop's own words. A sheet for a buyer has neutral ones
// where the shop has none.
func (v *view) disclaimerBlock() layout.Block {
	words := v.job.Shop.Disclaimer.Value
	if words == "" && !v.sheet.Terms {
		return nil
	}
	short := v.short()
	if words == "" { // which stand on no other sheet
		words, short = v.label("disclaimer.default"), figure.Short{}
	}
	return figure.NewList("disclaimer", figure.List{Title: v.label("heading.disclaimer"), Items: []string{onPage(words)}, Short: short, Run: true})
}
