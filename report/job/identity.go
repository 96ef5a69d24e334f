package job

import (
	"cmp"
	"errors"
	"math"
	"slices"
	"strconv"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
	"gaugesheet/diag/quantity"
	"gaugesheet/diag/vin"
)

// identity reads what the job is and whom it is for.
func (r *reader) identity(j *Job, top *section) {
	j.Sheet = top.word("sheet")
	if !j.Sheet.Given() {
		j.Sheet = Text{Value: "customer"}
	}
	s := top.group("job")
	j.Number, j.Technician, j.Reason = s.text("number"), s.text("technician"), s.text("reason")
	j.OrderedBy, j.Invoice, j.Place = s.text("ordered-by"), s.text("invoice"), s.text("place")
	j.Date, j.Started = s.date("date"), s.clock("started")
	j.Complaints, j.said, j.OwnWords = s.complaints()
	j.Reason.Value = strings.Join(slices.DeleteFunc(append([]string{j.Reason.Value}, j.said...), func(t string) bool { return t == "" || slices.Contains(j.OwnWords, t) }), "; ")
	a := s.group("authorised")
	j.Authorised = Authorisation{By: a.text("by"), When: a.text("when"), How: a.text("how")}
	v := s.group("valid")
	j.Valid.Days = v.whole("days", 1, 3650)
	j.Valid.Distance = v.distance("distance")
	j.Customer, j.Seller = person(top.group("customer")), person(top.group("seller"))
	j.Independence = top.text("independence")
	j.Findings, j.Recommended, j.Declined = top.texts("findings"), top.texts("recommended"), top.texts("declined")
	j.Notes = top.text("notes")
	r.vehicle(j, top.group("vehicle"))
}

func person(s *section) Person {
	return Person{Name: s.text("name"), Address: s.text("address"), Phone: s.text("phone"), Email: s.text("email")}
}

func (r *reader) vehicle(j *Job, s *section) {
	v := &j.Vehicle
	v.Description, v.VIN, v.VINReadAt = s.text("description"), s.text("vin"), s.text("vin-read-at")
	v.VIN.Value = vinLabel().ReplaceAllString(v.VIN.Value, "")
	v.Plate, v.EngineNumber, v.VINMatches = s.text("plate"), s.text("engine-number"), s.text("vin-matches")
	v.StateOnArrival, v.DriverSide = s.text("state-on-arrival"), s.word("driver-side")
	v.Codes, v.WorkDone = s.texts("codes"), s.texts("work-done")
	if s.scalar("stood") != nil {
		v.Stood = s.text("stood")
	}
	o := s.group("odometer")
	v.OdometerStatus = o.word("status")
	v.Odometer = o.distance("reading")
	r.checkVIN(v.VIN.Value)
}

// vinLabel is the word that people copy with the number.
var vinLabel = lazily(`(?i)^(?:vin|chassis|frame)(?: ?(?:no|nr|number)\b)?[.:# ]+`)

// distance reads a distance driven or hours run, as entered.
func (s *section) distance(key string) Text {
	n := s.scalar(key)
	if n == nil {
		return Text{}
	}
	if thousands := thousandsSaid(n.text); thousands != "" { // 98k+, 230 thousand km
		s.r.report(n.pos, "write "+thousands, "'%s' is '%s', expected a number of mi, km or h", s.label(key), short(n.text))
		return Text{}
	}
	v, err := quantity.Parse(n.text)
	number, unit, _ := strings.Cut(n.text, " ")
	switch {
	case isThousands(number, ","): // 143,210 mi
		v, err = quantity.Parse(strings.ReplaceAll(n.text, ",", ""))
	case isThousands(number, "."):
		s.r.report(n.pos, "write "+strings.TrimSpace(strings.ReplaceAll(number, ".", "")+" "+unit), "'%s' is '%s', expected a number without a point", s.label(key), short(n.text))
		return Text{}
	}
	switch {
	case err != nil && isWhole(strings.ReplaceAll(number, ",", "")) && mileageUnknown(unit):
		s.r.report(n.pos, "write '"+number+" mi' (or km), and 'status: unknown' beside it: odometer: {reading: "+number+" mi, status: unknown}", "'%s' is '%s', expected a number of mi, km or h", s.label(key), short(n.text))
	case err != nil && isWhole(strings.ReplaceAll(number, ",", "")):
		s.r.report(n.pos, "such as '143210 mi'", "'%s' is '%s', expected a number of mi, km or h", s.label(key), short(n.text))
	case err != nil:
		s.r.unreadable(n, s.label(key), err)
	case v.Unit == quantity.None:
		s.r.report(n.pos, "write '"+short(n.text)+" mi', km or h, whichever it shows", "'%s' is '%s' without a unit, expected mi, km or h", s.label(key), short(n.text))
	case v.Unit != quantity.Mile && v.Unit != quantity.Kilometre && v.Unit != quantity.Hour:
		s.r.report(n.pos, "such as '143210 mi'", "'%s' is '%s', expected a number of mi, km or h", s.label(key), short(n.text))
	case v.Number < 0:
		s.r.report(n.pos, "", "'%s' is '%s', expected 0 or more", s.label(key), short(n.text))
	default:
		return Text{n.text, n.pos}
	}
	return Text{}
}

// saidThousands is a distance in thousands.
var saidThousands = lazily(`(?i)^(?:about |approx\.? |ca\.? |over |~ ?)?(\d+(?:[.,]\d)?) ?(?:k|thou|thousand|tausend|tkm)\+? ?(mi|miles|km|kms|kilometers|kilometres|h|hours)?\+?$`)

// thousandsSaid writes such a distance in figures; "" for any other text.
func thousandsSaid(text string) string {
	m := saidThousands().FindStringSubmatch(strings.TrimSpace(text))
	if m == nil {
		return ""
	}
	number, err := strconv.ParseFloat(strings.Replace(m[1], ",", ".", 1), 64)
	if err != nil {
		return ""
	}
	return strconv.Itoa(int(number*1000+0.5)) + " " + cmp.Or(m[2], "mi, or km")
}

// mileageUnknown reports words behind a distance by which nobody vouches for it.
func mileageUnknown(words string) bool {
	if unit, behind, _ := strings.Cut(words, " "); distanceUnits[fold(unit)] != "" {
		words = behind
	}
	word, _ := vocabularyOf("odometer status").find(words, []string{"unknown"})
	return word != ""
}

// isThousands reports figures in groups of three with a sign between them.
func isThousands(number, between string) bool {
	groups := strings.Split(number, between)
	for i, g := range groups {
		if !isWhole(g) || len(g) > 3 || i > 0 && len(g) != 3 {
			return false
		}
	}
	return len(groups) > 1
}

// checkVIN notes a check digit that is wrong where one is required.
func (r *reader) checkVIN(number string) {
	if number == "" {
		return
	}
	result, err := vin.Check(number)
	switch {
	case err != nil:
		r.notice("vin-check-digit", "character", nil, diag.Facts{"vin": number, "problem": vinProblem(err)})
	case result.Applies && !result.Matches():
		r.notice("vin-check-digit", "", nil, diag.Facts{"vin": number, "found": result.Found, "expected": result.Expected})
	}
}

// vinProblem is the character that a VIN cannot contain, as it stands.
func vinProblem(err error) string {
	var c *vin.CharacterError
	if errors.As(err, &c) {
		return string(c.Found)
	}
	return ""
}

// timesElsewhere are times of other languages.
var timesElsewhere = map[string]string{"monate": "months", "monat": "months", "jahre": "years", "jahr": "years", "wochen": "weeks", "tage": "days", "mois": "months", "ans": "years", "années": "years", "semaines": "weeks", "jours": "days",
	"meses": "months", "mes": "months", "años": "years", "semanas": "weeks", "días": "days", "mesi": "months", "anni": "years"}

// stoodFor is a time that stands among other words.
var stoodFor = lazily(`\b\d[\d.]* (?:days?|weeks?|months?|years?)\b`)

// months reads how long an engine stood.
func (r *reader) months(n *node) float64 {
	number, unit, _ := strings.Cut(fold(n.text), " ")
	if i := strings.IndexFunc(number, func(c rune) bool { return (c < '0' || c > '9') && c != '.' }); i > 0 && unit == "" {
		number, unit = number[:i], number[i:]
	}
	other := timesElsewhere[unit]
	switch fold(n.text) {
	case "half a year":
		number, other = "6", "months"
	case "a year", "a month", "a week":
		number, other = "1", unit
	}
	if other != "" {
		r.report(n.pos, "write '"+number+" "+other+"'", "'vehicle.stood' is '%s', expected a number of days, weeks, months or years", short(n.text))
		return 0
	}
	perMonth := map[string]float64{"month": 1, "year": 12, "week": 12 * 7 / 365.25, "day": 12 / 365.25}
	factor, known := perMonth[strings.TrimSuffix(unit, "s")]
	v, err := quantity.Parse(number)
	if !known || err != nil || v.Unit != quantity.None || v.Number < 0 || v.Number > 10_000 {
		hint := "such as '8 months'"
		if m := stoodFor().FindString(figuresFor(fold(n.text))); m != "" {
			hint = "write '" + m + "'"
		}
		counts := vocabularyOf("number of cylinders")
		if words, _ := counts.find(number, counts.Words); words != "" && known {
			hint = "write '" + words + " " + unit + "'"
		}
		r.report(n.pos, hint, "'vehicle.stood' is '%s', expected a number of days, weeks, months or years", short(n.text))
		return 0
	}
	return math.Round(v.Number*factor*100) / 100
}

func (r *reader) history(j *Job, top *section) diag.History {
	complaint, smoke := top.group("job"), top.group("smoke")
	h := diag.History{Vehicle: j.Vehicle.Description.Value, Arrival: j.Vehicle.StateOnArrival.Value, ForBuyer: j.Sheet.Value == "pre-purchase" || j.Seller.Name.Given(), Complaints: j.Complaints, Said: j.said, OwnWords: j.OwnWords, Onset: complaint.scalarText("onset"), OilUse: complaint.scalarText("oil-use"),
		Smoke: diag.Smoke{Colour: smoke.word("colour").Value, When: smoke.wordList("when")}}
	h.ForSale = (j.Sheet.Value == "pre-purchase" || j.Seller.Name.Given()) && !j.Authorised.By.Given() && !j.Authorised.How.Given()
	if j.Vehicle.OdometerStatus.Value != "not actual" && j.Vehicle.OdometerStatus.Value != "unknown" {
		h.Distance = strings.ReplaceAll(j.Vehicle.Odometer.Value, ",", "")
	}
	for _, f := range j.Findings {
		h.Findings = append(h.Findings, f.Value)
	}
	for _, c := range j.Vehicle.Codes {
		h.Codes = append(h.Codes, strings.ToUpper(c.Value))
	}
	for _, w := range j.Vehicle.WorkDone {
		h.WorkDone = append(h.WorkDone, w.Value)
	}
	if j.Vehicle.Stood.Given() {
		h.StoodMonths = r.months(&node{pos: j.Vehicle.Stood.Pos, text: j.Vehicle.Stood.Value})
	}
	for _, text := range append([]string{h.Onset, h.Arrival}, h.Findings...) {
		h.Heard = appendNew(h.Heard, append(complaintsIn(text), known.SmokeTold(text)...)...)
	}
	for _, text := range h.Said {
		if h.Smoke.Colour == "" {
			h.Smoke = known.SmokeSaid(text)
		}
	}
	h.Heard = slices.DeleteFunc(h.Heard, func(x string) bool { return x == "stood" || x == known.OilOutside }) // of which a word of the arrival is no complaint
	return h
}

// photos reads the photos and the files that they name.
func (r *reader) photos(j *Job, top *section) {
	for i, item := range top.list("photos", "[{name: P1, shows: plug 1}]") {
		s := r.section(item, "photos", photoKeys)
		if s == nil {
			continue
		}
		p := Photo{Name: s.text("name"), Shows: s.text("shows"), File: s.text("file")}
		if !p.Name.Given() && !p.File.Given() {
			r.report(item.pos, "", "photo %d has neither 'name' nor 'file'", i+1)
		}
		if p.File.Given() && r.depth == 0 {
			p.Data = r.picture(p.File, RolePhoto, mostPhotoBytes)
		}
		j.Photos = append(j.Photos, p)
	}
}
