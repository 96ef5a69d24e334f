package sheet

import (
	"strings"

	"gaugesheet/diag/quantity"
	"gaugesheet/layout"
	"gaugesheet/layout/figure"
	"gaugesheet/layout/pdf"
	"gaugesheet/report/job"
)

// kindTitle is what kind of sheet it is.
func (v *view) kindTitle() string { return v.optional(v.sheet.Title, v.sheet.Title) }

func (v *view) headBlock() layout.Block {
	shop := v.job.Shop
	d := figure.Head{
		Shop:   shop.Name.Value,
		Lines:  headLines(shop),
		Kind:   v.kindTitle(),
		Number: v.headNumber(),
	}
	if !v.job.Date.IsZero() {
		d.Date = v.date(v.job.Date)
	}
	if shop.Registration.Given() {
		d.Lines = append(d.Lines, v.label("head.registration", "number", shop.Registration.Value))
	}
	if d.Shop == "" && v.d != nil {
		d.Shop = v.label("head.no-shop")
	}
	if len(shop.LogoData) > 0 {
		logo, err := pdf.LoadPicture(shop.Logo.Value, shop.LogoData)
		if err != nil {
			v.errorf("logo %s: %w", shop.Logo.Value, err)
			return nil
		}
		d.Logo = &logo
	}
	return figure.NewHead(d)
}

// headNumber is the number that the sheet is filed by: an invoice's where it
// is stapled to one.
func (v *view) headNumber() string {
	if v.sheet.Name == "invoice" && v.job.Invoice.Given() {
		return v.label("head.invoice", "number", v.job.Invoice.Value)
	}
	return v.job.Number.Value
}

func headLines(shop job.Shop) []string {
	var lines []string
	for _, line := range []string{shop.Address.Value, joined(" · ", shop.Phone.Value, shop.Email.Value)} {
		if line != "" {
			lines = append(lines, line)
		}
	}
	return lines
}

// date is a date as people write it, with the month in words.
func (v *view) date(d job.Date) string {
	months := strings.Split(v.label("date.months"), " ")
	return v.label("date.form", "day", d.Day(), "month", months[d.Month()-1], "year", d.Year())
}

// identityBlock names the engine that the sheet is about.
func (v *view) identityBlock() layout.Block {
	var fields []figure.Field
	add := func(key, value string) {
		if value != "" {
			fields = append(fields, figure.Field{Name: v.label("field." + key), Value: value})
		}
	}
	vehicle := v.job.Vehicle
	add("vehicle", vehicle.Description.Value)
	add("engine", v.engineWords())
	add("engine-number", vehicle.EngineNumber.Value)
	add("vin", v.vinWords())
	add("plate", vehicle.Plate.Value)
	add("odometer", v.odometerWords())
	if v.sheet.Name == "pre-purchase" {
		add("vin-matches", vehicle.VINMatches.Value)
		add("seller", v.job.Seller.Name.Value)
		add("arrival", vehicle.StateOnArrival.Value)
		add("when", joined(", ", v.job.Place.Value, v.job.Started.Value))
	}
	add("customer", v.job.Customer.Name.Value)
	add("ordered-by", v.job.OrderedBy.Value)
	if v.sheet.Name == "invoice" {
		add("job-number", v.job.Number.Value)
	}
	if v.sheet.Name != "customer" && v.sheet.Name != "invoice" {
		add("authorised", v.authorisedWords())
	}
	add("codes", joined(", ", values(vehicle.Codes)...))
	add("stood", vehicle.Stood.Value)
	add("work-done", joined(", ", values(vehicle.WorkDone)...))
	add("complaints", joined(", ", v.job.Complaints...))
	if v.sheet.Name != "invoice" { // an invoice's work block has it
		add("reason", v.job.Reason.Value)
	}
	if len(fields) == 0 {
		return nil
	}
	return figure.NewIdentity(figure.Identity{Fields: fields})
}

func (v *view) vinWords() string {
	vehicle := v.job.Vehicle
	if vehicle.VIN.Given() && vehicle.VINReadAt.Given() {
		return v.label("field.vin-read", "vin", vehicle.VIN.Value, "where", vehicle.VINReadAt.Value)
	}
	return vehicle.VIN.Value
}

func (v *view) odometerWords() string {
	vehicle := v.job.Vehicle
	if !vehicle.Odometer.Given() {
		return ""
	}
	return joined(", ", vehicle.Odometer.Value, v.optional("odometer."+vehicle.OdometerStatus.Value, vehicle.OdometerStatus.Value))
}

func (v *view) authorisedWords() string {
	a := v.job.Authorised
	return joined(", ", a.By.Value, a.When.Value, a.How.Value)
}

// engineWords describe the engine in a line: size, layout, fuel, numbering.
func (v *view) engineWords() string {
	shape := v.engine.Layout
	if shape == "custom" {
		shape = v.label("engine.custom", "count", len(v.engine.Cylinders))
	}
	parts := []string{joined(" ", v.job.Entered("engine", "displacement"), shape)}
	if fuel := v.test.Spec.Fuel; fuel != "" {
		parts = append(parts, fuel)
	}
	if v.test.Spec.TwoStroke && !strings.Contains(v.test.Spec.Fuel, "two-stroke") {
		parts = append(parts, v.label("engine.two-stroke"))
	}
	if c := v.test.Spec.Charging; c != "" && c != "natural" {
		parts = append(parts, c)
	}
	if v.test.Spec.Ratio > 0 {
		parts = append(parts, v.label("engine.ratio", "ratio", quantity.Format(v.test.Spec.Ratio, 1)))
	}
	if n := v.job.Entered("engine", "numbering"); n != "" {
		parts = append(parts, v.label("engine.numbering", "numbering", n))
	}
	return joined(", ", parts...)
}

func values(texts []job.Text) []string {
	var s []string
	for _, t := range texts {
		s = append(s, t.Value)
	}
	return s
}

// signOffBlock is the lines to sign on.
func (v *view) signOffBlock() layout.Block {
	tester := figure.SignLine{Label: v.label("sign.tested-by"), Over: v.job.Technician.Value}
	lines := []figure.SignLine{tester}
	switch v.sheet.Name {
	case "workshop", "blank":
	case "pre-purchase":
		lines = []figure.SignLine{
			{Label: v.label("sign.inspector"), Over: v.job.Technician.Value},
			{Label: v.label("sign.client")},
		}
	default:
		lines = append(lines, figure.SignLine{Label: v.label("sign.received")})
	}
	lines = append(lines, figure.SignLine{Label: v.label("sign.date")})
	return figure.NewSignOff(figure.SignOff{Lines: lines})
}

// footBlock says what the sheet describes, what it carries and how it can be
// told from another.
func (v *view) footBlock() layout.Block {
	d := figure.Foot{}
	if v.d != nil {
		d.Left = append(d.Left, v.label("foot.describes"))
	}
	if v.job.Raw != nil {
		f := v.job.Fingerprint()
		d.Right = append(d.Right, v.label("foot.fingerprint", "first", f[:4]+"\u00a0"+f[4:8]))
		if !v.options.NoAttach {
			d.Left = append(d.Left, v.label("foot.attached"))
		}
	}
	d.Right = append(d.Right, v.label("foot.page"))
	return figure.NewFoot(d)
}
