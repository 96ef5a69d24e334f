package sheet

import (
	"slices"
	"strings"
	"time"

	"gaugesheet/diag"
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
	d := figure.Masthead{
		Shop:   shop.Name.Value,
		Lines:  headLines(shop),
		Kind:   v.kindTitle(),
		Number: v.headNumber(),
	}
	switch {
	case !v.job.Date.IsZero():
		d.Date = v.date(v.job.Date)
	case v.d != nil:
		d.Date = v.label("head.no-date")
	}
	if shop.Registration.Given() {
		d.Lines = append(d.Lines, v.label("head.registration", "number", shop.Registration.Value))
	}
	if len(shop.LogoData) > 0 {
		logo, err := pdf.LoadPicture(shop.Logo.Value, shop.LogoData)
		if err != nil {
			v.errorf("logo %s: %w", shop.Logo.Value, err)
			return nil
		}
		d.Logo, d.Sign = &logo, v.logoWords(shop.Name.Value)
	}
	return figure.NewMasthead(d)
}

// headNumber is the number that the sheet is filed by: an invoice's where it
// is stapled to one.
func (v *view) headNumber() string {
	if v.sheet.ByInvoice && v.job.Invoice.Given() {
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
	return v.keep(v.words.Date(d.Time))
}

// dated is a text of the job's that may be a day, which is then written as all
// others are.
func (v *view) dated(text string) string {
	day, err := time.Parse(time.DateOnly, text)
	if err != nil {
		return text
	}
	return v.date(job.Date{Time: day})
}

// identityBlock names the engine that the sheet is about: first what tells it
// from another, then for whom, and what was said and done before.
func (v *view) identityBlock() layout.Block {
	d := figure.Identity{}
	add := func(to *[]figure.Field, key, value string) {
		if value != "" {
			*to = append(*to, figure.Field{Name: together(v.label("field." + key)), Value: onPage(value), Lead: together(v.label("field.lead", "name", v.label("field."+key)))})
		}
	}
	vehicle := v.job.Vehicle
	add(&d.Fields, "vehicle", vehicle.Description.Value)
	add(&d.Fields, "engine", v.engineWords())
	add(&d.Fields, "vin", v.vinWords())
	add(&d.Fields, v.odometerField(), v.odometerWords())
	add(&d.Fields, "plate", vehicle.Plate.Value)
	add(&d.Fields, "engine-number", vehicle.EngineNumber.Value)
	chosen := func(to *[]figure.Field, key, value string) {
		if v.sheet.Has(key) {
			add(to, key, value)
		}
	}
	chosen(&d.Fields, "vin-matches", vehicle.VINMatches.Value)
	chosen(&d.Fields, "seller", v.job.Seller.Name.Value)
	chosen(&d.Fields, "arrival", vehicle.StateOnArrival.Value)
	chosen(&d.Fields, "when", joined(", ", v.job.Place.Value, v.job.Started.Value))
	add(&d.Said, "customer", v.job.Customer.Name.Value)
	if v.job.OrderedBy.Value != v.job.Customer.Name.Value {
		add(&d.Said, "ordered-by", v.job.OrderedBy.Value)
	}
	if v.headNumber() != v.job.Number.Value { // else the head has it
		chosen(&d.Said, "job-number", v.job.Number.Value)
	}
	chosen(&d.Said, "authorised", v.authorisedWords())
	chosen(&d.Said, "complaints", joined(", ", v.complaintsBeside(v.reasonNamed())...))
	if v.sheet.Has("complaints") { // and what goes with them
		history := &v.test.History
		add(&d.Said, "onset", history.Onset)
		add(&d.Said, "oil-use", history.OilUse)
		add(&d.Said, "smoke", v.smokeWords(history.Smoke))
	}
	chosen(&d.Said, "reason", v.job.Reason.Value)
	add(&d.Said, "stood", vehicle.Stood.Value)
	chosen(&d.Said, "work-done", joined(", ", values(vehicle.WorkDone)...))
	add(&d.Said, "codes", joined(", ", values(vehicle.Codes)...))
	if len(d.Fields)+len(d.Said) == 0 {
		return nil
	}
	return figure.NewIdentity(d)
}

// complaints are what the customer complained of, in words.
func (v *view) complaints() []string {
	said := make([]string, len(v.job.Complaints))
	for i, c := range v.job.Complaints {
		said[i] = v.term("complaint", c)
	}
	return append(said, v.job.OwnWords...)
}

// complaintsBeside are the complaints but for those that a reason, which the sheet
// has too, tells of.
func (v *view) complaintsBeside(reason string) []string {
	return slices.DeleteFunc(v.complaints(), func(c string) bool { return strings.Contains(strings.ToLower(reason), c) })
}

// reasonNamed is why the engine was tested, where the sheet names it beside the engine.
func (v *view) reasonNamed() string {
	if v.sheet.Has("reason") {
		return v.job.Reason.Value
	}
	return ""
}

// smokeWords say the colour of the smoke and when it was seen.
func (v *view) smokeWords(s diag.Smoke) string {
	if s.Colour == "" {
		return ""
	}
	said := []string{v.label("smoke." + s.Colour)}
	for _, when := range s.When {
		said = append(said, v.label("smoke-when."+when))
	}
	return joined(", ", said...)
}

func (v *view) vinWords() string {
	vehicle := v.job.Vehicle
	if v.sheet.Record && vehicle.VIN.Given() && vehicle.VINReadAt.Given() {
		return v.label("field.vin-read", "vin", vehicle.VIN.Value, "where", vehicle.VINReadAt.Value)
	}
	return vehicle.VIN.Value
}

// odometerField is what a reading of distance or of hours is called.
func (v *view) odometerField() string {
	if read := strings.Fields(v.job.Vehicle.Odometer.Value); len(read) > 1 && strings.HasPrefix(strings.ToLower(read[len(read)-1]), "h") {
		return "hours"
	}
	return "odometer"
}

func (v *view) odometerWords() string {
	vehicle := v.job.Vehicle
	if !vehicle.Odometer.Given() {
		return ""
	}
	return joined(", ", grouped(vehicle.Odometer.Value), v.optional("odometer."+vehicle.OdometerStatus.Value, vehicle.OdometerStatus.Value))
}

func (v *view) authorisedWords() string {
	a := v.job.Authorised
	return joined(", ", a.By.Value, v.dated(a.When.Value), a.How.Value)
}

// engineWords describe the engine in a line: size, fuel, layout; for the next
// mechanic also its compression ratio and numbering.
func (v *view) engineWords() string {
	fuel, behind := "", ""
	if kind := v.test.Spec.Fuel; kind != "" {
		fuel = v.optional("fuel-kind."+kind, kind)
	}
	switch {
	case v.test.Spec.Fuel == "two-stroke mix":
		fuel, behind = "", fuel
	case v.test.Spec.TwoStroke:
		behind = v.label("engine.two-stroke")
	}
	parts := []string{joined(" ", together(v.job.Entered("engine", "displacement")), fuel, v.layoutWords(v.engine)), behind}
	if c := v.test.Spec.Charging; c != "" && c != "natural" {
		parts = append(parts, v.optional("charging."+c, c))
	}
	if !v.sheet.Record {
		return joined(", ", parts...)
	}
	if v.test.Spec.Ratio > 0 {
		parts = append(parts, v.label("engine.ratio", "ratio", quantity.Format(v.test.Spec.Ratio, 1)))
	}
	if n := v.job.Entered("engine", "numbering"); n != "" {
		parts = append(parts, v.label("engine.numbering", "numbering", v.optional("numbering."+n, n)))
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
