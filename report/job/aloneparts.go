package job

import (
	"slices"
	"strings"

	"gaugesheet/diag/quantity"
)

// What is said of a vehicle, of a person and of a job in one text is taken apart at its
// commas, where each part can be told by what it is.

// textPieces are the parts of a text between its commas, those within thousands left.
func textPieces(text string) []typed {
	var out []typed
	from := 0
	for i := 0; i <= len(text); i++ {
		if i < len(text) && text[i] != ';' && (text[i] != ',' || i > 0 && isDigit(text[i-1]) && i+3 < len(text) && isWhole(text[i+1:i+4]) && (i+4 == len(text) || !isDigit(text[i+4]))) {
			continue
		}
		piece := strings.TrimSpace(text[from:i])
		if piece != "" {
			out = append(out, typed{piece, len([]rune(text[:from])) + len([]rune(text[from:i])) - len([]rune(strings.TrimLeft(text[from:i], " ")))})
		}
		from = i + 1
	}
	return out
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

// clockReading is what a vehicle has run, with its unit or with the name of what shows it.
var clockReading = lazily(`(?i)^(?:(hour ?meter|hours?|hobbs(?: time)?|tach(?: time)?|total time|smoh|ttaf|odo(?:meter)?|mileage|clock):? )?(\d[\d,.]*k?) ?(km|kms|mi|miles|h|hr|hrs|hours)?$`)

// vehicleApart takes what is said of a vehicle apart: its clock, its plate and numbers,
// its codes; the rest describes it. It is nil where there is nothing of these.
func vehicleApart(k key, n *node) *node {
	out := &node{kind: mapping, pos: n.pos}
	put := func(name string, t typed, skip int, text string) bool {
		if out.get(name) != nil || text == "" {
			return false
		}
		pos := n.pos
		pos.Col += t.at + skip
		out.entries = append(out.entries, entry{name, pos, &node{pos: pos, text: text, plain: n.plain, tag: n.tag}})
		return true
	}
	var left []string
	for _, t := range textPieces(n.text) {
		if m := clockReading().FindStringSubmatch(t.text); m != nil && (m[1] != "" || m[3] != "") {
			unit := m[3]
			if unit == "" {
				unit = distanceUnits[fold(m[1])]
			}
			if put("odometer", t, 0, strings.TrimSpace(m[2]+" "+unit)) {
				continue
			}
		}
		if name, skip := textKeyBefore(k, t.text); name != "" && put(name, t, skip, strings.TrimSpace(t.text[skip:])) {
			continue
		}
		if codesIn(&node{text: t.text}) != nil && put("codes", t, 0, t.text) {
			continue
		}
		left = append(left, t.text)
	}
	if len(out.entries) == 0 {
		return nil
	}
	put("description", typed{}, 0, strings.Join(left, ", "))
	return out
}

// textKeyBefore is the key of a text that a piece begins with, 'plate HM 4410', and where
// its value begins; "" for none.
func textKeyBefore(k key, text string) (name string, at int) {
	fields := separate(text, " ")
	for size := min(2, len(fields)-1); size > 0; size-- {
		words := strings.TrimRight(listedWords(fields[:size]), ":")
		plain := strings.ReplaceAll(fold(words), " ", "-")
		for _, called := range append([]string{plain}, keysCalled(words)...) {
			if one := keyOf(k.keys, called); one.name != "" && one.form == asText && one.name != "description" && strings.ContainsAny(text, "0123456789") {
				return one.name, fields[size].at
			}
		}
	}
	return "", 0
}

// personApart takes a name with a telephone number or an address of mail behind it apart;
// nil for any other text.
func personApart(n *node) *node {
	pieces := textPieces(n.text)
	if len(pieces) < 2 {
		return nil
	}
	out := &node{kind: mapping, pos: n.pos}
	put := func(name string, t typed) {
		pos := n.pos
		pos.Col += t.at
		out.entries = append(out.entries, entry{name, pos, &node{pos: pos, text: t.text, plain: n.plain, tag: n.tag}})
	}
	var address []string
	for i, t := range pieces {
		digits := 0
		for _, c := range t.text {
			if c >= '0' && c <= '9' {
				digits++
			}
		}
		switch {
		case i == 0:
			put("name", t)
		case digits >= 6 && strings.Trim(t.text, "0123456789 +-()./") == "" && out.get("phone") == nil:
			put("phone", t)
		case strings.Contains(t.text, "@") && !strings.Contains(t.text, " ") && out.get("email") == nil:
			put("email", t)
		default:
			address = append(address, t.text)
		}
	}
	if len(out.entries) < 2 {
		return nil
	}
	if len(address) > 0 {
		put("address", typed{strings.Join(address, ", "), 0})
	}
	return out
}

// isJobNumber reports a text that may be the number of a job and nothing else.
func isJobNumber(text string) bool {
	return len(textPieces(text)) == 1 && len(strings.Fields(text)) < 4 && (strings.ContainsAny(text, "0123456789") || !strings.Contains(text, " ")) && dateHint(text) == usualDate && len(complaintsIn(text)) == 0
}

// jobHint writes what is said of a job in one text with its keys.
func jobHint(text string) string {
	var parts, wrong, rest []string
	given := map[string]bool{}
	either := ""
	put := func(name, value string) {
		given[name] = true
		parts = append(parts, name+": "+value)
	}
	complaint := vocabularyOf("complaint")
	for _, t := range textPieces(text) {
		if word, answer := complaint.find(t.text, complaint.Words); word == "" && answer != "" { // white smoke
			either += "; '" + short(t.text) + "': " + answer
			continue
		}
		date := strings.TrimPrefix(dateHint(t.text), "write ")
		switch {
		case date != usualDate && !given["date"]:
			first, other, two := strings.Cut(date, " or ")
			if put("date", first); two {
				either += "; or is its date " + other + "?"
			}
		case len(complaintsIn(t.text)) > 0 || complaint.answers(t.text, complaint.Words):
			wrong = append(wrong, short(t.text))
		case strings.ContainsAny(t.text, "0123456789") && !given["number"] && len(strings.Fields(t.text)) < 3:
			put("number", short(t.text))
		case !given["technician"] && len(strings.Fields(t.text)) < 4 && strings.Trim(t.text, "ABCDEFGHIJKLMNOPQRSTUVWXYZ. ") != t.text:
			put("technician", short(t.text))
		default:
			rest = append(rest, short(t.text))
		}
	}
	if len(wrong) > 0 {
		put("complaints", "["+strings.Join(wrong, ", ")+"]")
	}
	if len(rest) > 0 {
		put("reason", `"`+strings.Join(rest, ", ")+`"`)
	}
	return "write 'job: {" + strings.Join(parts, ", ") + "}', if that is what they are" + either
}

// voltsAt is a voltage with what the battery did, before or behind it.
var voltsAt = lazily(`(?i)^(?:(\d[\d.,]*) ?(?:v|volts?)?,? (?:at |while |when |on |with )?(rest|resting|standing|static|off|engine off|key off|crank|cranking)|(rest|resting|standing|static|engine off|key off|crank|cranking) ?[:=]? ?(\d[\d.,]*) ?(?:v|volts?)?)(?:[ ,;/]+|$)`)

// voltsApart takes the two voltages of a battery apart, '12.6 rest 10.2 cranking'; nil for
// any other text.
func voltsApart(n *node) *node {
	out := &node{kind: mapping, pos: n.pos}
	for rest := strings.TrimSpace(n.text); rest != ""; {
		m := voltsAt().FindStringSubmatch(rest)
		if m == nil {
			return nil
		}
		name, figure := "rest", m[1]+m[4]
		if strings.HasPrefix(fold(m[2]+m[3]), "crank") {
			name = "cranking"
		}
		if out.get(name) != nil {
			return nil
		}
		pos := n.pos
		pos.Col += len([]rune(n.text)) - len([]rune(rest))
		out.entries = append(out.entries, entry{name, pos, &node{pos: pos, text: strings.TrimRight(figure, ",.") + " V", plain: n.plain, tag: "!!str"}})
		rest = strings.TrimSpace(rest[len(m[0]):])
	}
	if len(out.entries) < 2 {
		return nil
	}
	return out
}

// voltsSaid takes the voltages out of what is said of a test, batteries 12.5 V, cranking
// 9.8 V, as what stands for its battery; the rest is what is left.
func voltsSaid(pieces []typed) (battery typed, rest []typed) {
	for _, t := range pieces {
		fields := strings.Fields(fold(t.text))
		figure := ""
		for i := range fields {
			if v, err := quantity.Parse(strings.Join(fields[i:min(i+2, len(fields))], " ")); err == nil && v.Unit == quantity.Volt {
				figure = plainNumber(v.Number) + " V"
			}
		}
		if len(fields) == 2 && figure == "" && strings.HasPrefix(fields[0], "batter") && isFigures(fields[1]) { // battery 12.1
			figure = fields[1]
		}
		cranked := strings.Contains(fold(t.text), "crank")
		if figure == "" || !cranked && battery.text != "" || len(fields) > 4 {
			rest = append(rest, t)
			continue
		}
		if battery.text != "" {
			figure = battery.text + ", " + figure
		}
		if cranked {
			figure += " cranking"
		}
		if battery.text == "" {
			battery.at = t.at
		}
		battery.text = figure
	}
	return battery, rest
}

// named gives the key of a section that a word and the key's name behind it belong to, 'warm engine', and the word; "" for
// none.
func named(section key, text string) (name, value string) {
	at := strings.LastIndexByte(text, ' ')
	if at < 1 || section.name == "engine" {
		return "", ""
	}
	word, called := text[:at], fold(text[at+1:])
	for _, k := range section.keys {
		if k.form != asWord || k.name != called && !slices.Contains(keysCalled(called), k.name) {
			continue
		}
		if said, _ := vocabularyOf(k.says).find(word, k.words); said != "" {
			return k.name, word
		}
	}
	return "", ""
}
