package sheet

import (
	"gaugesheet/layout"
	"gaugesheet/layout/figure"
)

// independenceBlock says who asked, who paid, and what interest there is.
func (v *view) independenceBlock() layout.Block {
	words := v.job.Independence.Value
	if words == "" {
		words = v.label("independence.not-stated")
	}
	return figure.NewList("independence", figure.List{Items: []string{v.label("independence.is", "words", words)}, Run: true})
}

// testedBlock is the state of every test, so that a blank is not taken for sound.
func (v *view) testedBlock() layout.Block {
	return v.resultTable("tested", v.label("heading.tested"))
}

// scopeBlock says what was looked at and what was not, in both directions.
func (v *view) scopeBlock() layout.Block {
	items := []string{v.label("scope.was"), v.label("scope.was-not")}
	return figure.NewList("scope", figure.List{Title: v.label("heading.scope"), Items: items})
}

// photosBlock lists the photos that belong to the sheet.
func (v *view) photosBlock() layout.Block {
	items := v.photoWords()
	if len(items) == 0 {
		return nil
	}
	return figure.NewList("photos", figure.List{Title: v.label("heading.photos"), Items: items})
}

// validityBlock says until when the sheet describes the engine.
func (v *view) validityBlock() layout.Block {
	valid := v.job.Valid
	words := v.label("validity.none")
	switch {
	case valid.Days > 0 && valid.Distance.Given():
		words = v.label("validity.both", "days", valid.Days, "distance", valid.Distance.Value)
	case valid.Days > 0:
		words = v.label("validity.days", "days", valid.Days)
	case valid.Distance.Given():
		words = v.label("validity.distance", "distance", valid.Distance.Value)
	}
	if valid.Days > 0 && !v.job.Date.IsZero() {
		until := v.job.Date
		until.Time = until.AddDate(0, 0, valid.Days)
		words = joined(" ", words, v.label("validity.until", "date", v.date(until)))
	}
	return figure.NewList("validity", figure.List{Title: v.label("heading.validity"), Items: []string{words}})
}
