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
	if v.sheet.Name == "workshop" {
		return figure.Short{}
	}
	return figure.Short{Words: firstWords, Left: v.label("work.in-full")}
}

// workBlock is the work recommended and declined; on an invoice also what was
// asked for and by whom. No prices.
func (v *view) workBlock() layout.Block {
	if v.sheet.Name == "invoice" {
		return v.invoiceWork()
	}
	recommended, declined := allOnPage(values(v.job.Recommended)), allOnPage(values(v.job.Declined))
	if len(recommended)+len(declined) == 0 {
		return nil
	}
	return figure.NewRemarks(figure.Remarks{Name: "work", Short: v.short(), Items: []figure.Remark{
		{Title: v.label("entry.recommended"), Texts: recommended},
		{Mark: figure.Declined, Title: v.label("entry.declined"), Texts: declined},
	}})
}

// invoiceWork is the work line by line.
func (v *view) invoiceWork() layout.Block {
	d := figure.Entries{Name: "work", Title: v.label("heading.work"), Short: v.short(), Note: v.label("work.prices")}
	add := func(key string, values ...string) {
		for _, value := range values {
			if value != "" {
				d.Lines = append(d.Lines, figure.Field{Name: v.label("work." + key), Value: onPage(value)})
			}
		}
	}
	add("asked", v.job.Reason.Value)
	add("authorised", v.authorisedWords())
	add("recommended", values(v.job.Recommended)...)
	add("declined", values(v.job.Declined)...)
	return figure.NewEntries(d)
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
	if words == "" && v.sheet.Name != "pre-purchase" {
		return nil
	}
	if words == "" {
		words = v.label("disclaimer.default")
	}
	return figure.NewList("disclaimer", figure.List{Title: v.label("heading.disclaimer"), Items: []string{onPage(words)}, Short: v.short(), Run: true})
}
