package ask

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"gaugesheet/diag/quantity"
)

// A value is what was typed for one name: a cylinder, a speed.
type value struct{ name, text string }

// notRecorded stands for a value that nobody has.
const notRecorded = "-"

var (
	pairMark   = lazily(`(?i)(?:^|[\s,;])((?:bank|left|right|front|rear|cylinder|rotor) [0-9]{1,2}|[0-9.]+ (?:rpm|r/min|min|s|h)|[^\s=,;]+)\s*=\s*`)
	comma      = lazily(`\s*[,;]\s*`)
	commaSpace = lazily(`[,;]\s|;`)
)

// glued are words that belong to what follows them.
var glued = []string{"about", "over", "~", "no", "not", "could", "read,", "read"}

// list takes a line of values apart: at commas, or where it has none, at
// spaces, but for words that belong together.
func list(line string) []string {
	line = strings.TrimSpace(line)
	if strings.HasPrefix(line, "[") && strings.HasSuffix(line, "]") && strings.Count(line, "[") == 1 && strings.Count(line, ",") > 1 {
		line = strings.Trim(line, "[]")
	}
	if !strings.ContainsAny(line, "[(") && (commaSpace().MatchString(line) || strings.Contains(line, ",") && !strings.Contains(line, " ")) {
		return slices.DeleteFunc(comma().Split(strings.Trim(line, ",; "), -1), func(s string) bool { return s == "" })
	}
	var out []string
	for _, word := range strings.Fields(line) {
		if last := len(out) - 1; last >= 0 && (open(out[last]) || belongs(out[last], word)) {
			out[last] += " " + word
			continue
		}
		out = append(out, word)
	}
	for i := range out {
		out[i] = strings.Trim(out[i], ",;")
	}
	return out
}

// open tells whether a bracket in the text is not closed yet.
func open(text string) bool {
	return strings.Count(text, "(") > strings.Count(text, ")") || strings.Count(text, "[") > strings.Count(text, "]")
}

// belongs tells whether a word goes on what stands before it: 'about 155',
// 'not tested', 'could not test (seized)'.
func belongs(before, word string) bool {
	words := strings.Fields(before)
	last := strings.ToLower(words[len(words)-1])
	switch {
	case slices.Contains(glued, last):
		return true
	case strings.HasPrefix(word, "(") && !isNumber(word[1:]):
		return true
	case isNumber(last) && strings.Trim(word, "0123456789.,") != "": // 12.6 V
		v, err := quantity.Parse(last + " " + word)
		return err == nil && v.Unit != quantity.None
	}
	return len(words) > 1 && last == "not" && strings.EqualFold(word, "test")
}

// bankPlace is a cylinder by its place on a bank: L2, 'left 2'.
var bankPlace = lazily(`(?i)\b(left|right|front|rear|l|r|f)[ .-]?([0-9]{1,2})\b`)

// dashed is a cylinder with a dash or a colon before what was read, '3 - 98'.
var dashed = lazily(`^([^\s=:,]+)\s*(?:\s-\s|:\s?)\s*(\S.*)$`)

// equated writes '3 - 98, 5: 102' with the signs of '3=98 5=102', where every part
// names a cylinder of its own.
func (s *Session) equated(line string) string {
	parts := comma().Split(strings.TrimSpace(line), -1)
	var named []string
	for i, part := range parts {
		m := dashed().FindStringSubmatch(part)
		if m == nil || !slices.Contains(s.engine.Names(), m[1]) || slices.Contains(named, m[1]) {
			return line
		}
		named = append(named, m[1])
		parts[i] = m[1] + "=" + m[2]
	}
	return strings.Join(parts, ", ")
}

// placed writes cylinders that are named by their places on a bank, L2 or
// 'left 2', and as #3 or 'cylinder 3', by their names.
func (s *Session) placed(line string) string {
	return s.equated(s.byPlaces(cylinderWord().ReplaceAllString(line, "$1")))
}

func (s *Session) byPlaces(line string) string {
	if s.leftOpen(s.draft) { // which one it is the file tells once its numbering stands in it
		return line
	}
	return bankPlace().ReplaceAllStringFunc(line, func(found string) string {
		m := bankPlace().FindStringSubmatch(found)
		place, err := strconv.Atoi(m[2])
		for _, b := range s.engine.Banks {
			if err == nil && strings.HasPrefix(b.Name, strings.ToLower(m[1])) && place >= 1 && place <= len(b.Cylinders) && !slices.Contains(s.engine.Names(), found) {
				return b.Cylinders[place-1]
			}
		}
		return found
	})
}

// cylinderWord is a cylinder with a word or sign before its number.
var cylinderWord = lazily(`(?i)(?:#|\bno\. ?|\bcyl(?:inder|\.)? ?)([0-9])`)

func isNumber(s string) bool {
	v, err := quantity.Parse(strings.TrimRight(s, ")],;"))
	return err == nil && v.Unit == quantity.None
}

// pairs takes a line such as '1=150 3=could not test (seized)' apart; what
// stands before the first is for all others. It is nil where there is none.
func pairs(line string) []value {
	marks := pairMark().FindAllStringSubmatchIndex(line, -1)
	if marks == nil {
		return nil
	}
	var out []value
	if before := strings.Trim(line[:marks[0][0]], " ,;"); before != "" {
		out = append(out, value{others, before})
	}
	for i, m := range marks {
		end := len(line)
		if i+1 < len(marks) {
			end = marks[i+1][0]
		}
		out = append(out, value{line[m[2]:m[3]], strings.Trim(line[m[1]:end], " ,;")})
	}
	return out
}

// others stands for the cylinders that are not named.
const others = "others"

// byName gives each name what was typed for it: a value for all in their order,
// 'name=value', or one value for all. Where the line has another number of
// values than there are names, they come without names.
func byName(line string, names []string, alone bool) ([]value, error) {
	line = strings.TrimSpace(line)
	if strings.HasPrefix(line, "{") && strings.HasSuffix(line, "}") {
		line = strings.ReplaceAll(strings.Trim(line, "{}"), ":", "=")
	}
	if found := pairs(line); found != nil {
		return found, nil
	}
	values := list(line)
	if alone && len(values) == 1 && len(names) > 1 {
		return []value{{others, values[0]}}, nil
	}
	if len(values) != len(names) {
		return nil, fmt.Errorf("found %s, expected %d in the order %s; for one that was not read write %s, or name those that were: %s=%s",
			counted(len(values)), len(names), strings.Join(names, " "), notRecorded, names[len(names)-1], first(values))
	}
	var out []value
	for i, v := range values {
		if v != notRecorded {
			out = append(out, value{names[i], v})
		}
	}
	return out, nil
}

func first(values []string) string {
	if len(values) == 0 {
		return "..."
	}
	return values[0]
}

// trailingUnit takes the unit off the end of a line of several values; "" where
// it has none of these units.
func trailingUnit(line string, units []string) (rest, unit string) {
	line = strings.TrimSpace(line)
	cut := strings.LastIndexAny(line, " \t")
	if cut < 0 {
		return line, ""
	}
	last := line[cut+1:]
	if !strings.ContainsAny(last[:1], "0123456789") {
		if u := unitNamed(last, units); u != "" {
			return strings.TrimRight(line[:cut], " \t,"), u
		}
	}
	return line, ""
}

// unitNamed gives the unit of the list that a spelling names, or begins.
func unitNamed(spelled string, units []string) string {
	if v, err := quantity.Parse("1 " + spelled); err == nil && slices.Contains(units, string(v.Unit)) {
		return string(v.Unit)
	}
	var begun []string
	for _, u := range units {
		if strings.HasPrefix(strings.ToLower(u), strings.ToLower(spelled)) {
			begun = append(begun, u)
		}
	}
	if len(begun) == 1 && spelled != "" {
		return begun[0]
	}
	return ""
}

func counted(n int) string {
	if n == 1 {
		return "1 value"
	}
	return fmt.Sprintf("%d values", n)
}
