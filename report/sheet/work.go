package sheet

import (
	"gaugesheet/layout"
	"gaugesheet/layout/figure"
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
	if words == "" {
		words = v.label("disclaimer.default")
	}
	return figure.NewList("disclaimer", figure.List{Title: v.label("heading.disclaimer"), Items: []string{onPage(words)}, Short: v.short(), Run: true})
}
