package job

import (
	"slices"
	"time"
)

// checkDate reports a date after the day on which the job is read.
func (r *reader) checkDate(n *node, label string, d time.Time) bool {
	if r.options.Today.IsZero() {
		return true
	}
	year, month, day := r.options.Today.Date()
	today := time.Date(year, month, day, 0, 0, 0, 0, time.UTC)
	if !d.After(today) {
		return true
	}
	hint := "nothing was tested after today"
	if near, ok := dateMeant(d, today); ok {
		hint = "did you mean " + near.Format(time.DateOnly) + "?"
	}
	r.report(n.pos, hint, "'%s' is '%s', in the future: today is %s", label, short(n.text), today.Format(time.DateOnly))
	return false
}

// dayHint gives the date of today or yesterday.
func (r *reader) dayHint(text string) string {
	days := map[string]int{"today": 0, "now": 0, "yesterday": -1}
	back, known := days[plainWords(text)]
	if !known || r.options.Today.IsZero() {
		return ""
	}
	return "write " + r.options.Today.AddDate(0, 0, back).Format(time.DateOnly)
}

// usualDate is what is said of a date that cannot be made out.
const usualDate = "year-month-day, such as 2026-05-14"

// weekdays and clock are what people write beside a date.
var (
	weekdays  = lazily(`(?i)\b(?:mon|tues?|wed(?:nes)?|thur?s?|fri|sat(?:ur)?|sun)(?:day)?\b[., ]*`)
	clockTime = lazily(`(?i)[ T]+(?:at )?[0-9]{1,2}[:.h][0-9]{2}(?::[0-9]{2})?(?: ?[ap]m)?$`)
	compact   = lazily(`^[0-9]{6}$`)
	yearless  = lazily(`^([0-9]{1,2})[./-]([0-9]{1,2})[./-]?$`)
)

// dateAnswer says how a date is written that was typed in another form.
func (r *reader) dateAnswer(text string) string {
	if day := r.dayHint(text); day != "" {
		return day
	}
	plain := clockTime().ReplaceAllString(weekdays().ReplaceAllString(text, ""), "")
	if d, err := time.Parse(time.DateOnly, plain); err == nil {
		return "write " + d.Format(time.DateOnly)
	}
	if isoDate().MatchString(plain) {
		if month, err := time.Parse("2006-01", plain[:7]); err == nil {
			return month.Format("January 2006") + " has " + month.AddDate(0, 1, -1).Format("2") + " days"
		}
	}
	if compact().MatchString(plain) {
		return r.compactAnswer(plain)
	}
	if hint := dateHint(plain); hint != usualDate {
		return hint
	}
	if r.options.Today.IsZero() {
		return usualDate
	}
	year := r.options.Today.Format("2006")
	if m := yearless().FindStringSubmatch(plain); m != nil { // 14/5
		return dateHint(m[1] + "/" + m[2] + "/" + year)
	}
	return dateHint(plain + " " + year) // 14 May
}

// compactAnswer offers what a date of six figures may be, 140526, of those of the
// last two years.
func (r *reader) compactAnswer(text string) string {
	var meant []string
	for _, form := range []string{"020106", "010206", "060102"} {
		d, err := time.Parse(form, text)
		lately := r.options.Today.IsZero() || !d.After(r.options.Today) && d.Year() >= r.options.Today.Year()-1
		if iso := d.Format(time.DateOnly); err == nil && lately && !slices.Contains(meant, iso) {
			meant = append(meant, iso)
		}
	}
	if len(meant) == 0 {
		return usualDate
	}
	return "write " + anyOf(meant)
}

// dateMeant gives what a date of the future was probably meant to be: day and
// month in the other order, or the last year that has it.
func dateMeant(d, today time.Time) (time.Time, bool) {
	if d.Day() <= 12 && d.Year() == today.Year() {
		if swapped := time.Date(d.Year(), time.Month(d.Day()), int(d.Month()), 0, 0, 0, 0, time.UTC); !swapped.After(today) {
			return swapped, true
		}
	}
	for _, year := range []int{today.Year(), today.Year() - 1} {
		same := time.Date(year, d.Month(), d.Day(), 0, 0, 0, 0, time.UTC)
		if !same.After(today) && same.Month() == d.Month() {
			return same, true
		}
	}
	return time.Time{}, false
}
