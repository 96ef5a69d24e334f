package job

import (
	"strconv"
	"strings"
	"time"
)

var countWords = map[string]string{"one": "1", "two": "2", "three": "3", "four": "4", "five": "5", "six": "6", "seven": "7", "eight": "8",
	"nine": "9", "ten": "10", "twelve": "12", "sixteen": "16", "twin": "2", "triple": "3"}

var kindWords = map[string]string{"straight": "inline", "slant": "inline", "parallel": "inline", "inline": "inline", "in-line": "inline", "i": "inline", "l": "inline",
	"boxer": "flat", "flat": "flat", "opposed": "flat", "v": "V", "wankel": "rotary", "rotary": "rotary"}

var layoutForm = lazily(`^([a-z]+(?:-[a-z]+)?)(?:[ -]*([0-9]+)|[ -]([a-z]+))$`)

// layoutMeant gives the layout that other usual words name, such as 'straight
// six' and 'v-twin'; the text itself where it is none of these. Rotors is how
// many rotors the job has readings of.
func layoutMeant(text string, rotors int) string {
	plain := strings.TrimSuffix(fold(text), " engine")
	switch plain {
	case "thumper", "single cylinder", "one cylinder", "one-lunger", "1 cyl", "1 cylinder":
		return "single"
	case "twin":
		return text
	case "wankel", "rotary":
		if rotors > 0 {
			return "rotary-" + strconv.Itoa(rotors)
		}
		return text
	}
	m := layoutForm().FindStringSubmatch(plain)
	if m == nil {
		return text
	}
	kind, known := kindWords[m[1]]
	count := m[2] + m[3]
	if word, spelled := countWords[count]; spelled {
		count = word
	}
	if _, err := strconv.Atoi(count); err != nil || !known {
		return text
	}
	if kind == "V" {
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
	n := fold(m[1])
	if word, spelled := countWords[n]; spelled {
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
