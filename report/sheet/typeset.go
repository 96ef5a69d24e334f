package sheet

import (
	"regexp"
	"strconv"
	"strings"

	"gaugesheet/diag/quantity"
	"gaugesheet/templates"
)

// Texts as print has them: raised figures, and nothing that belongs together
// parted by a line's end.

// forPage gives print its raised figures, where job files and JSON keep to
// plain characters, and keeps a percent sign on the line of its number.
var forPage = strings.NewReplacer(string(quantity.KgfPerCm2), "kgf/cm\u00b2", " %", "\u00a0%")

// degrees is a temperature without its sign.
var degrees = regexp.MustCompile("(\\d[ \u00a0])([CF])\\b")

// negative is a hyphen that stands for the minus of a number.
var negative = regexp.MustCompile("(^|[ \u00a0(])-(\\d)")

// span is a range of readings with its unit, as a job file has it.
var span = regexp.MustCompile("(^|[ \u00a0(])(\\d+(?:\\.\\d+)?)-(\\d+(?:\\.\\d+)?[ \u00a0](?:%|psi|bar|kPa|kgf|inHg|in|mm|ml|ohm|deg|V|rpm)(?:$|[^A-Za-z]))")

// onPage is a text as it stands on the page. Few texts have anything to replace,
// and every text of a page comes here.
func onPage(s string) string {
	if strings.Contains(s, " %") || strings.Contains(s, string(quantity.KgfPerCm2)) {
		s = forPage.Replace(s)
	}
	if anywhere(s, func(before, c, next byte) bool { return c == '-' && digit(next) }) {
		s = span.ReplaceAllString(negative.ReplaceAllString(s, "${1}\u2212${2}"), "${1}${2}\u2013${3}")
	}
	const noBreakEnds = 0xa0 // the last byte of a no-break space
	if anywhere(s, func(before, c, next byte) bool {
		return (c == 'C' || c == 'F') && (before == ' ' || before == noBreakEnds)
	}) {
		s = degrees.ReplaceAllString(s, "${1}°${2}")
	}
	return s
}

// anywhere reports whether a byte of a text, with those beside it (0 for none),
// is as it is asked for.
func anywhere(s string, is func(before, c, next byte) bool) bool {
	var before byte
	for i := range len(s) {
		var next byte
		if i+1 < len(s) {
			next = s[i+1]
		}
		if is(before, s[i], next) {
			return true
		}
		before = s[i]
	}
	return false
}

func digit(c byte) bool { return '0' <= c && c <= '9' }

// together is a text that no line's end parts.
func together(s string) string { return strings.ReplaceAll(s, " ", "\u00a0") }

// longNumber is a whole number of five figures or more.
var longNumber = regexp.MustCompile(`\d{5,}`)

// grouped parts the figures of long numbers by threes: 98 400.
func grouped(s string) string {
	return longNumber.ReplaceAllStringFunc(s, func(n string) string {
		var parts []string
		for ; len(n) > 3; n = n[:len(n)-3] {
			parts = append([]string{n[len(n)-3:]}, parts...)
		}
		return strings.Join(append([]string{n}, parts...), "\u202f")
	})
}

// percents are percentages with their decimals, and ranges of them; percentFigure is a figure of one.
var (
	percents      = regexp.MustCompile(`(?:\d+(?:\.\d+)?–)?\d+(?:\.\d+)?[ \x{00a0}]%`)
	percentFigure = regexp.MustCompile(`\d+(?:\.\d+)?`)
)

// wholePercents leaves the decimals of percentages away for an owner, at both ends of a range,
// where that makes no two of a text the same; those that are kept stay as they are.
func wholePercents(s string, kept map[string]bool) string {
	exact := map[string]string{}
	for _, number := range percentFigure.FindAllString(strings.Join(percents.FindAllString(s, -1), " "), -1) {
		value, err := strconv.ParseFloat(number, 64)
		if err != nil {
			return s
		}
		whole, plain := quantity.Format(value, 0), strconv.FormatFloat(value, 'f', -1, 64)
		if other, taken := exact[whole]; taken && other != plain {
			return s
		}
		exact[whole] = plain
	}
	return percents.ReplaceAllStringFunc(s, func(m string) string {
		return percentFigure.ReplaceAllStringFunc(m, func(number string) string {
			if kept[number] {
				return number
			}
			value, _ := strconv.ParseFloat(number, 64)
			return quantity.Format(value, 0)
		})
	})
}

// forOwner is a text as a lay reader's page has it.
func (v *view) forOwner(s string) string {
	if v.sheet.Audience == templates.Customer {
		s = wholePercents(s, v.percentsEntered())
	}
	return onPage(s)
}

// percentsEntered are the percentages of the further tests, such as those of exhaust gas:
// they stand in a table as they were read, and so in a sentence beside it.
func (v *view) percentsEntered() map[string]bool {
	kept := map[string]bool{}
	if v.d == nil {
		return kept
	}
	for i := range v.d.Measured {
		for _, m := range v.d.Measured[i].Readings {
			if m.Unit == quantity.Percent && m.Decimals > 0 {
				kept[quantity.Format(m.Value, m.Decimals)] = true
			}
		}
	}
	return kept
}

// leastTold is how many words a sentence has at least that is not said twice; a
// shorter one goes with the sentence before it.
const leastTold = 6

// sentenceEnd is where one sentence ends and the next begins.
var sentenceEnd = regexp.MustCompile("[.!?][ \n]+")

// once leaves away the sentences of a text that stand on a lay reader's page
// already.
func (v *view) once(s string) string {
	if v.sheet.Audience != templates.Customer || s == "" {
		return s
	}
	if v.told == nil {
		v.told = map[string]bool{}
	}
	var kept []string
	told, before := false, "" // the sentence before was told; what leads the next that is said
	for s != "" {
		end := len(s)
		if at := sentenceEnd.FindStringIndex(s); at != nil {
			end = at[0] + 1
		}
		own := lead.FindString(s)
		said := s[len(own):max(end, len(own))]
		s = strings.TrimSpace(s[max(end, len(own)):])
		if own != "" {
			before = own
		}
		key := toldAs(said)
		if told = v.told[key] && (told || strings.Count(key, " ")+1 >= leastTold); told {
			continue
		}
		v.told[key] = true
		kept, before = append(kept, before+said), ""
	}
	return strings.Join(kept, " ")
}

// lead is a word before sentences that run on from it, "Also:". It stays with the first
// of them that is said.
var lead = regexp.MustCompile(`^\pL+: `)

// toldAs is a sentence as it is compared with others.
func toldAs(s string) string {
	return strings.ToLower(strings.Join(strings.FieldsFunc(strings.TrimRight(s, ".!?"), func(r rune) bool { return r == ' ' || r == '\u00a0' }), " "))
}
