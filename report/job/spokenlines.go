package job

import (
	"cmp"
	"slices"
	"strings"

	"gaugesheet/diag/quantity"
)

// What people say of a test in one line is written with its keys.

// inWordsOfTest writes what was said of a test in the place of its keys; "" for any other
// text.
func inWordsOfTest(section, text string, keys []key) string {
	return cmp.Or(needleSaid(section, text, keys), trimsSaid(section, text, keys), gasSaid(section, text, keys), twoEnds(section, text, keys))
}

// needleSaid writes a reading with what its needle did in other words than its own, '15
// inches at idle, needle jumps 3 in'; "" where nothing is said of a needle.
func needleSaid(section, text string, keys []key) string {
	under := aloneUnder[section]
	k := keyOf(keys, under)
	needle := keyOf(k.keys, "needle")
	figure, words := leadingFigure(text, aloneUnits[section])
	if needle.name == "" || figure == "" {
		return ""
	}
	said := strings.Contains(fold(words), "needle")
	words = strings.NewReplacer("at idle", "", "idle", "", "the needle", "", "needle", "", " n ", " and ", " by ", " ").Replace(" " + fold(words) + " ")
	words, by := strings.Trim(words, " ,;:()"), ""
	if at := strings.IndexAny(words, "0123456789"); at > 0 {
		if moved, rest := leadingFigure(words[at:], aloneUnits[section]); moved != "" && rest == "" {
			words, by = strings.TrimSpace(words[:at]), ", by: "+moved
		}
	}
	word, _ := vocabularyOf(needle.says).find(words, needle.words)
	switch {
	case word != "":
		return "write '" + section + ": {" + under + ": {reading: " + figure + ", needle: " + word + by + "}}'"
	case said || by != "":
		return "write '" + section + ": {" + under + ": {reading: " + figure + ", needle: ..." + by + "}}', and in the place of '...' what it did: " + anyOf(needle.words)
	}
	return ""
}

// trimsSaid writes fuel trims that stand in one line, 'stft +4 ltft +14' and 'b1 st 4 lt 14
// b2 st 2 lt 3', by their banks; "" for any other text.
func trimsSaid(section, text string, keys []key) string {
	inner := keys
	for _, k := range keys {
		if k.speeds && k.form == asByBank {
			inner = k.keys
		}
	}
	if keyOf(inner, "short").name == "" || keyOf(inner, "long").name == "" || keyOf(inner, "cranking").name != "" {
		return ""
	}
	speed := ""
	text = bankSaid().ReplaceAllString(fold(strings.ReplaceAll(text, "@", " at ")), " bank$1 ")
	var order []string
	by := map[string][]string{}
	bank, name := "bank 1", ""
	fields := strings.FieldsFunc(text, func(c rune) bool { return strings.ContainsRune(" ,;:=/%", c) })
	for i, f := range fields {
		called := keysCalled(f)
		switch {
		case strings.HasPrefix(f, "bank") && isWhole(f[len("bank"):]):
			bank = "bank " + f[len("bank"):]
		case f == "short" || slices.Contains(called, "short"):
			name = "short"
		case f == "long" || slices.Contains(called, "long"):
			name = "long"
		case f == "idle":
			speed = "idle"
		case i > 0 && fields[i-1] == "at" && isWhole(f):
			speed = f + " rpm"
		case slices.Contains([]string{"at", "rpm", "and", "term", "trim", "fuel"}, f):
		case name != "" && isFigures(strings.TrimLeft(f, "+-")):
			if by[bank] == nil {
				order = append(order, bank)
			}
			by[bank] = append(by[bank], name+": "+strings.TrimLeft(f, "+"))
			name = ""
		default:
			return ""
		}
	}
	for i, b := range order {
		order[i] = b + ": {" + strings.Join(by[b], ", ") + "}"
	}
	if len(order) == 0 {
		return ""
	}
	return atSpeedSaid(section, cmp.Or(speed, "idle"), "{"+strings.Join(order, ", ")+"}", len(inner) != len(keys) || section == "trims", speed == "")
}

var bankSaid = lazily(`\b(?:bank ?|b)([12])\b`)

// atSpeedSaid writes what was read at a speed, as a whole section or as that of the speed.
func atSpeedSaid(section, speed, values string, whole, doubt bool) string {
	if !whole {
		return "write '" + section + ": " + values + "'"
	}
	hint := "write '" + section + ": {" + speed + ": " + values + "}'"
	if doubt {
		hint += ", if that was at idle; else with its speed, such as '2500 rpm: ...'"
	}
	return hint
}

// gasSaid writes what the exhaust held, 'co 3.5% hc 450 ppm', as its keys; "" for any other
// text. Lambda is worked out from these.
func gasSaid(section, text string, keys []key) string {
	inner, whole := keys, false
	for _, k := range keys {
		if k.speeds && len(k.keys) > 0 && keyOf(k.keys, "co").name != "" {
			inner, whole = k.keys, true
		}
	}
	if keyOf(inner, "co").name == "" || keyOf(inner, "hc").name == "" {
		return ""
	}
	var texts []string
	speed, lambda := "", false
	for _, clause := range clauses(text) {
		fields := strings.Fields(clause)
		if at := slices.Index(fields, "at"); at >= 0 && at+1 < len(fields) {
			speed, fields = strings.TrimSuffix(fields[at+1], "rpm"), fields[:at]
			if speed = fold(speed); isWhole(speed) {
				speed += " rpm"
			}
		}
		if fold(clause) == "idle" {
			speed = "idle"
			continue
		}
		if len(fields) < 2 {
			return ""
		}
		name := fold(strings.TrimRight(fields[0], ":="))
		if name == "idle" && len(fields) > 2 {
			speed, fields = "idle", fields[1:]
			name = fold(strings.TrimRight(fields[0], ":="))
		}
		figure := strings.Join(fields[1:], " ")
		if v, err := quantity.Parse(figure); err != nil || v.Number < 0 {
			return ""
		}
		switch {
		case name == "lambda" || name == "afr":
			lambda = true
		case keyOf(inner, name).name != name:
			return ""
		default:
			texts = append(texts, name+": "+figure)
		}
	}
	if len(texts) == 0 {
		return ""
	}
	hint := atSpeedSaid(section, cmp.Or(speed, "idle"), "{"+strings.Join(texts, ", ")+"}", whole, whole && speed == "")
	if lambda {
		hint += "; lambda is worked out from these"
	}
	return hint
}

// twoEnds writes 'from to' in the place of a group of just two readings, snap: 2 to 24, as
// its keys; "" for any other.
func twoEnds(section, text string, keys []key) string {
	last := section[strings.LastIndexByte(section, '.')+1:]
	names := keyNames(keys)
	p, err := quantity.ScanAs(text, quantity.Pressure)
	if len(names) != 2 || !takesFigure(keys[0]) || !takesFigure(keys[1]) || err != nil || len(p.Parts) != 2 || !p.Only(quantity.To) && !p.Only(quantity.Slash) {
		return ""
	}
	return "write '" + last + ": {" + names[0] + ": " + p.Parts[0].Text + ", " + names[1] + ": " + p.Parts[1].Text + "}'"
}

func takesFigure(k key) bool { return slices.Contains([]form{asReading, asMeasured, asAmount}, k.form) }
