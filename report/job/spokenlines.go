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
	if len(text) > longestSaid {
		return ""
	}
	return cmp.Or(smokesSaid(section, text, keys), coolingSaid(section, text), needleSaid(section, text, keys), laterSaid(section, text, keys), plugsSaid(section, text), lampSaid(section, text), trimsSaid(section, text, keys), gasSaid(section, text, keys), twoEnds(section, text, keys))
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
	words, by := strings.TrimPrefix(strings.Trim(words, " ,;:()"), "and "), ""
	notes := ""
	if first, rest, ok := strings.Cut(words, ","); ok {
		if known, _ := vocabularyOf(needle.says).find(first, needle.words); known != "" { // steady, late timing?
			words, notes = first, "; '"+short(strings.TrimSpace(rest))+"' goes into 'notes'"
		}
	}
	if at := strings.IndexAny(words, "0123456789"); at > 0 {
		if moved, rest := leadingFigure(words[at:], aloneUnits[section]); moved != "" && rest == "" {
			words, by = strings.TrimSpace(words[:at]), ", by: "+moved
		}
	}
	word, _ := vocabularyOf(needle.says).find(words, needle.words)
	switch {
	case word != "":
		return "write '" + section + ": {" + under + ": {reading: " + figure + ", needle: " + word + by + "}}'" + notes
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
	text = signsSaid.Replace(text)
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
			return whichTrim(section, text, keys)
		}
	}
	for i, b := range order {
		order[i] = b + ": {" + strings.Join(by[b], ", ") + "}"
	}
	if len(order) == 0 {
		return whichTrim(section, text, keys)
	}
	return atSpeedSaid(section, cmp.Or(speed, "idle"), "{"+strings.Join(order, ", ")+"}", len(inner) != len(keys) || section == "trims", speed == "")
}

// whichTrim asks which trim it was that is told by its speed alone, +22% at idle; "" for any
// other text.
func whichTrim(section, text string, keys []key) string {
	var all []string
	for _, clause := range clauses(text) {
		figure, words := leadingFigure(strings.TrimLeft(clause, "+"), "")
		speed, ok := strings.CutPrefix(words, "at ")
		if speed = strings.TrimSpace(strings.TrimSuffix(speed, "rpm")); figure == "" || !ok || speed != "idle" && !isWhole(speed) {
			return ""
		}
		if speed != "idle" {
			speed += " rpm"
		}
		all = append(all, speed+": {bank 1: {long: "+strings.TrimSpace(strings.TrimRight(figure, "% "))+"}}")
	}
	if len(all) == 0 || section != "trims" || len(keys) == 0 {
		return ""
	}
	return "write 'trims: {" + strings.Join(all, ", ") + "}' if it is the long-term one, 'short' in the place of 'long' if not"
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
	if m := speedFirst().FindStringSubmatch(text); m != nil {
		speed, text = m[1]+" rpm", m[2]
	}
	text = strings.NewReplacer(" is ", " ", " was ", " ").Replace(text)
	for _, clause := range clauses(slashBetween().ReplaceAllString(text, "$1, $2")) {
		name, figure, at := gasClause(clause)
		speed = cmp.Or(at, speed)
		switch {
		case name == "" && at != "":
		case name == "lambda" || name == "afr":
			lambda = true
		case name == "" || keyOf(inner, name).name != name:
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

// speedFirst is the speed at which all that follows was read.
var speedFirst = lazily(`(?i)^at (\d{3,4}) ?(?:rpm)?[ ,:]+(.*)$`)

// gasClause is one gas with its figure and the speed that is said beside it; the name is ""
// for any other clause.
func gasClause(clause string) (name, figure, speed string) {
	fields := strings.Fields(clause)
	if at := slices.Index(fields, "at"); at >= 0 && at+1 < len(fields) {
		if speed = fold(strings.TrimSuffix(fields[at+1], "rpm")); isWhole(speed) {
			speed += " rpm"
		}
		fields = fields[:at]
	}
	if len(fields) > 0 && fold(fields[0]) == "idle" {
		speed, fields = "idle", fields[1:]
	} else if last := len(fields) - 1; last > 0 && fold(fields[last]) == "idle" {
		speed, fields = "idle", fields[:last]
	}
	if len(fields) < 2 {
		return "", "", speed
	}
	figure = strings.Join(fields[1:], " ")
	if v, err := quantity.Parse(figure); err != nil || v.Number < 0 {
		return "", "", ""
	}
	return fold(strings.TrimRight(fields[0], ":=")), figure, speed
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

// smokesSaid answers smoke of several colours, of which a job has room for one, blue at start
// and white when cold; "" for any other text.
func smokesSaid(section, text string, keys []key) string {
	colour := keyOf(keys, "colour")
	if section != "smoke" || colour.name == "" {
		return ""
	}
	if one := oneSmoke(text, keys); one != "" {
		return one
	}
	var colours []string
	times := map[string][]string{}
	for _, piece := range strings.FieldsFunc(strings.NewReplacer(" and ", ",", " then ", ",", " & ", ",", ";", ",").Replace(fold(text)), func(c rune) bool { return c == ',' }) {
		first, when, _ := strings.Cut(strings.TrimSpace(piece), " ")
		word, _ := vocabularyOf(colour.says).find(first, colour.words)
		if word == "" && len(colours) > 0 { // and at idle
			word, when = colours[len(colours)-1], strings.TrimSpace(piece)
		}
		if word == "" {
			return ""
		}
		if !slices.Contains(colours, word) {
			colours = append(colours, word)
		}
		for _, before := range []string{"at ", "on ", "when ", "under "} {
			when = strings.TrimPrefix(when, before)
		}
		at, _ := vocabularyOf(keyOf(keys, "when").says).find(when, keyOf(keys, "when").words)
		if at == "" && len(colours) == 1 && word == colours[0] && times[word] != nil {
			return ""
		}
		if at != "" {
			times[word] = appendNew(times[word], at)
		}
	}
	all := make([]string, len(colours))
	for i, word := range colours {
		all[i] = "smoke: {colour: " + word + "}"
		if times[word] != nil {
			all[i] = "smoke: {colour: " + word + ", when: [" + strings.Join(times[word], ", ") + "]}"
		}
	}
	switch {
	case len(all) > 1:
		return "write the one that is complained of, " + strings.Join(quoted(all), " or ") + ", and the other under 'findings'"
	case len(all) == 1 && len(times[colours[0]]) > 1:
		return "write '" + all[0] + "'"
	}
	return ""
}

// laterSaid writes a vacuum that was held and what it came to, '19 then 10 after 20 sec', with
// the keys for them; "" for any other text.
func laterSaid(section, text string, keys []key) string {
	m := thenRead().FindStringSubmatch(fold(text))
	if m == nil || keyOf(keys, "later").name == "" || keyOf(keys, "after").name == "" {
		return ""
	}
	at := "..."
	if m[4] != "" {
		at = m[4] + " rpm"
	}
	return "write '" + section + ": {at: " + at + ", reading: " + m[1] + ", later: " + m[2] + ", after: " + m[3] + "}'"
}

var thenRead = lazily(`^(\d[\d.]*(?: ?inhg| ?in)?),? (?:then|fell to|dropped to|falls to|drops to|down to|to) (\d[\d.]*(?: ?inhg| ?in)?) (?:after|in|within) (\d+ ?[a-z]+)(?:,? (?:at|@) (\d+)(?: ?rpm)?)?$`)

// lampSaid answers what a lamp of the dashboard shows in the place of a pressure; "" for any
// other text.
func lampSaid(section, text string) string {
	plain := fold(text)
	if section != "oil-pressure" || !strings.Contains(plain, "light") && !strings.Contains(plain, "lamp") || strings.ContainsAny(plain, "0123456789") {
		return ""
	}
	return "what a lamp does is seen, not read: write 'findings: [oil light " + short(strings.TrimSpace(strings.NewReplacer("oil ", "", "light ", "", "lamp ", "").Replace(plain+" "))) + "]', and here what a gauge showed"
}

// gaugeSaid writes the scale of a gauge with what it is sure to, 0-300 psi 2%, as the keys of
// the gauge of compression; "" for any other text.
func gaugeSaid(section, text string) string {
	m := scaleSaid().FindStringSubmatch(fold(text))
	if section != "gauges" || m == nil {
		return ""
	}
	sure := ""
	if m[2] != "" {
		sure = ", accuracy: " + m[2] + " % of span"
	}
	return "it is named by its test: write 'gauges: {compression: {range: " + m[1] + sure + "}}' for the gauge of compression, 'fuel' for that of fuel"
}

var scaleSaid = lazily(`^(\d+ ?(?:-|to) ?\d+ ?(?:psi|bar|kpa|kg/cm2))(?:[ ,;(]+(?:\+/- ?|± ?)?(\d[\d.]*) ?%(?: of span| fs| full scale)?\)?)?$`)

// oneSmoke writes smoke of one colour that is told in a sentence, puffs of blue smoke when
// started; "" for any other text, and where it tells of several.
func oneSmoke(text string, keys []key) string {
	colour, when := keyOf(keys, "colour"), keyOf(keys, "when")
	colours, times := []string{}, []string{}
	fields := strings.Fields(plainWords(strings.NewReplacer(",", " ", ";", " ").Replace(text)))
	for i, f := range fields {
		if slices.Contains(deniers, f) {
			return ""
		}
		if word, _ := vocabularyOf(colour.says).find(f, smokeColors); word != "" {
			colours = appendNew(colours, word)
		}
		for size := min(3, len(fields)-i); size > 0; size-- {
			if at, _ := vocabularyOf(when.says).find(strings.Join(fields[i:i+size], " "), when.words); at != "" {
				times = appendNew(times, at)
				break
			}
		}
	}
	if len(colours) != 1 || len(fields) < 3 {
		return ""
	}
	line := "colour: " + colours[0]
	if len(times) > 0 {
		line += ", when: [" + strings.Join(times, ", ") + "]"
	}
	return "write 'smoke: {" + line + "}'"
}

var capSaid = lazily(`^(?:cap )?(\d+ ?(?:psi|bar|kpa)) (?:pressure |rad |radiator )?cap\b.*$|^(?:pressure |rad |radiator )?cap (\d+ ?(?:psi|bar|kpa))\b.*$`)

var heldSaid = lazily(`^(?:it |system )?(?:held|holds) (\d+ ?(?:psi|bar|kpa)),? (?:for |in |over )?(\d+ ?[a-z]+)$`)

// coolingSaid writes the cap of a cooling system, and what it held, that are told in one line;
// "" for any other text.
func coolingSaid(section, text string) string {
	if section != "cooling" {
		return ""
	}
	var parts, left []string
	for _, t := range separate(fold(text), ",;") {
		if m := capSaid().FindStringSubmatch(t.text); m != nil {
			parts = append(parts, "cap: {rated: "+cmp.Or(m[1], m[2])+"}")
		} else if m := heldSaid().FindStringSubmatch(t.text); m != nil {
			parts = append(parts, "pressure-test: {pumped-to: "+m[1]+", hold: {"+m[2]+": "+m[1]+"}}")
		} else {
			left = append(left, t.text)
		}
	}
	if len(parts) == 0 {
		return ""
	}
	hint := "write 'cooling: {" + strings.Join(parts, ", ") + "}'"
	if len(left) > 0 {
		hint += "; " + allOf(quoted(left)) + " goes into 'notes'"
	}
	return hint
}

// slashBetween is a slash before the name of the next gas: 4%/HC 800 ppm.
var slashBetween = lazily(`([\d%a-z]) ?/ ?([A-Z][A-Za-z0-9]* ?\d)`)
