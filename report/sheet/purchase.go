package sheet

import (
	"gaugesheet/layout"
	"gaugesheet/layout/figure"
	"gaugesheet/layout/pdf"
)

// independenceBlock says who asked, who paid, what interest there is, and who
// allowed it.
func (v *view) independenceBlock() layout.Block {
	words := v.job.Independence.Value
	if words == "" {
		words = v.label("independence.not-stated")
	}
	return figure.NewList("independence", figure.List{Items: []string{v.label("independence.is", "words", words)}, Run: true})
}

// photosBlock is the photos that belong to the sheet, drawn small where the job
// names their files.
func (v *view) photosBlock() layout.Block {
	if len(v.job.Photos) == 0 {
		return nil
	}
	d := figure.Photos{Title: v.label("heading.photos")}
	for _, p := range v.job.Photos {
		one := figure.Photo{Name: p.Name.Value, Shows: p.Shows.Value}
		if len(p.Data) > 0 {
			img, err := pdf.LoadPicture(p.File.Value, p.Data)
			if err != nil {
				v.errorf("photo %s: %w", p.File.Value, err)
				return nil
			}
			one.Image = &img
		}
		if one.Name == "" {
			one.Name = p.File.Value
		}
		one.Alt = v.label("spoken.photo", "name", one.Name, "shows", one.Shows)
		d.Items = append(d.Items, one)
	}
	return figure.NewPhotos(d)
}

// validityBlock says until when the sheet describes the engine.
func (v *view) validityBlock() layout.Block {
	valid, words := v.job.Valid, ""
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
	if words == "" { // the foot says that it describes the engine on that day
		return nil
	}
	return figure.NewList("validity", figure.List{Title: v.label("heading.validity"), Items: []string{words}, Run: true})
}
