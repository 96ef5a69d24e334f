package sheet

import (
	"gaugesheet/layout"
	"gaugesheet/layout/figure"
)

// signOffBlock is the lines to sign on. A name that the job has stands under
// its line.
func (v *view) signOffBlock() layout.Block {
	names := map[string]string{
		"tested-by": v.job.Technician.Value, "inspector": v.job.Technician.Value,
		"received": v.job.Customer.Name.Value, "client": v.job.OrderedBy.Value,
	}
	var lines []string
	for _, key := range v.sheet.Signatures {
		lines = append(lines, v.label("sign."+key, "name", names[key]))
	}
	return figure.NewSignOff(figure.SignOff{Lines: lines})
}

// footBlock says what the sheet describes, what it carries and how it can be
// told from another.
func (v *view) footBlock() layout.Block {
	d := figure.Foot{}
	if v.d != nil {
		date := ""
		if !v.job.Date.IsZero() {
			date = v.date(v.job.Date)
		}
		describes := "foot.describes"
		if v.workshop() {
			describes = "foot.describes-short"
		}
		if v.job.Shop.Disclaimer.Value != "" || !v.sheet.Terms { // the terms of a shop that has none say so
			d.Says = append(d.Says, v.label(describes, "date", date))
		}
	}
	if v.job.Raw != nil {
		f := v.job.Fingerprint()
		key := "foot.carries"
		if v.options.NoAttach {
			key = "foot.fingerprint"
		}
		d.Marks = append(d.Marks, v.label(key, "first", together(f[:4]+" "+f[4:8])))
	}
	d.Marks = append(d.Marks, v.label("foot.page"))
	return figure.NewFoot(d)
}
