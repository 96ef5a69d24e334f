package job

import (
	"strconv"
	"strings"
	"time"
)

// layoutMeant gives the layout that other usual words name, such as 'straight
// six' and 'v-twin'; the text itself where it is none of these. Rotors is how
// many rotors the job has readings of.
func layoutMeant(text string, rotors int) string {
	plain := plainWords(text)
	for _, end := range []string{" engine", " cylinders", " cylinder", " cyl"} {
		plain = strings.TrimSuffix(plain, end)
	}
	kinds := vocabularyOf("engine")
	switch kind, _ := kinds.find(plain, kinds.Words); {
	case kind == "single":
		return kind
	case kind == "rotary" && rotors > 0:
		return "rotary-" + strconv.Itoa(rotors)
	case kind != "":
		return text
	}
	word, count := plain, ""
	if i := strings.LastIndexFunc(plain, func(c rune) bool { return c < '0' || c > '9' }); i+1 < len(plain) { // v8, v 8
		word, count = strings.TrimSpace(plain[:i+1]), plain[i+1:]
	} else if i := strings.LastIndexByte(plain, ' '); i > 0 { // straight six
		word, count = plain[:i], plain[i+1:]
	}
	kind, _ := kinds.find(word, kinds.Words)
	counts := vocabularyOf("number of cylinders")
	count, _ = counts.find(count, counts.Words)
	switch {
	case kind == "" || count == "" || kind == "single":
		return text
	case kind == "V":
		return kind + count
	}
	return kind + "-" + count
}

var cylindersOnly = lazily(`(?i)^([0-9]+|one|two|three|four|five|six|eight|ten|twelve|twin)[ -]?(?:cyl(?:inders?)?\.?)?$`)

// standHint answers a layout that is only a number of cylinders.
func standHint(text string) string {
	m := cylindersOnly().FindStringSubmatch(strings.TrimSpace(text))
	if m == nil {
		return ""
	}
	counts := vocabularyOf("number of cylinders")
	n := fold(m[1])
	if word, _ := counts.find(n, counts.Words); word != "" {
		n = word
	}
	return "say how they stand: inline-" + n + ", V" + n + " or flat-" + n
}

// dateHint gives a date in the form that is taken, both where day and month
// could be either way round.
func dateHint(text string) string {
	const usual = "year-month-day, such as 2026-05-14"
	for _, form := range []string{"2 January 2006", "2 Jan 2006", "January 2, 2006", "Jan 2, 2006", "2006/1/2", "2006.1.2", "2006-1-2"} {
		if d, err := time.Parse(form, text); err == nil {
			return "write " + d.Format(time.DateOnly)
		}
	}
	var meant []string
	for _, form := range []string{"1/2/2006", "1/2/06", "2/1/2006", "2/1/06", "2.1.2006", "2.1.06", "1-2-2006", "2-1-2006"} {
		if d, err := time.Parse(form, text); err == nil {
			if iso := d.Format(time.DateOnly); len(meant) == 0 || meant[0] != iso {
				meant = append(meant, iso)
			}
		}
	}
	switch len(meant) {
	case 0:
		return usual
	case 1:
		return "write " + meant[0]
	}
	return "write " + meant[0] + " or " + meant[1] + ": day and month could be either way round"
}
