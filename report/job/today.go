package job

import (
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
