package job

import (
	"cmp"
	"slices"
	"strings"

	"gaugesheet/diag/engine"
	"gaugesheet/diag/quantity"
)

// ownHint answers a key of a section that its name alone tells what to do with;
// "" for any other.
func (r *reader) ownHint(n *node, e entry, section string, keys []key) string {
	plain := strings.NewReplacer(" ", "-", "_", "-").Replace(fold(e.key))
	value := "..."
	if e.value.kind == scalar && !isEmpty(e.value) {
		value = short(e.value.text)
	}
	first := r.firstName()
	if limits := keyOf(keys, "limits"); keyOf(limits.keys, plain).name != "" && e.value.kind == scalar && below(e, section, plain) == "" { // minimum: 128
		return "write 'limits: {" + plain + ": " + value + "}'"
	}
	if base := keyOf(keys, strings.Trim(strings.TrimRight(plain, "0123456789"), "-")); base.name != "" && base.name != plain && base.form == asReadings { // dry2
		return "readings of one " + r.cylinderWord + " that were taken again stand together: '" + base.name + ": {" + first + ": [150, 151], ...}'"
	}
	if section == "trims" && (strings.Contains(plain, "bank") || strings.Contains(plain, "b1") || strings.Contains(plain, "b2")) { // bank 1 idle
		return "the speed comes first, then the bank, then which trim it is: 'idle: {bank 1: {short: 4, long: 14}}'"
	}
	if slices.ContainsFunc(keys, func(k key) bool { return k.speeds }) && (strings.HasSuffix(plain, "idle") || strings.HasPrefix(plain, "fast") || strings.HasPrefix(plain, "high")) { // fast idle
		return "write the speed in its place, such as '2500 rpm: ...'"
	}
	if slices.Contains([]string{"lambda", "afr", "air-fuel-ratio"}, plain) && keyOf(keys, "co2").name != "" {
		return "lambda is worked out from co, hc, co2 and o2: leave it out; what the analyser itself shows goes under 'other-readings: {lambda: " + value + "}'"
	}
	if two := keysIn(e.key, keys); len(two) == 2 { // dry wet
		of := "{" + first + ": ...}"
		if keyOf(keys, two[0]).form == asAmount { // bore x stroke
			of = "..."
		}
		return "each has a line of its own: '" + two[0] + ": " + of + "' and '" + two[1] + ": " + of + "'"
	}
	if section == "plugs" && (plain == "gaps" || plain == "gap") && e.value.kind == mapping {
		return "the gap of a plug stands with its look: 'looks: {" + first + ": {look: normal, gap: 1.1 mm}, ...}'"
	}
	for _, k := range keys {
		switch {
		case (k.form == asAtTimes || k.name == "hold") && timeIn(e.key) != "": // after 5 min
			return "write '" + k.name + ": {" + timeIn(e.key) + ": " + value + "}'"
		case section == "leakage" && plain == "at":
			return "the place stands with what was lost there: 'dry: {" + first + ": {loss: 34 %, at: [exhaust]}}'"
		}
	}
	if section == "compression" && n.get("dry") != nil && slices.Contains(keysCalled(e.key), "dry") { // cold: and hot:
		return "'dry' is there already: a test made again in another state is a job file of its own, which 'earlier:' names"
	}
	return ""
}

// keysIn are the keys that the words of a key name, each one.
func keysIn(name string, keys []key) []string {
	var out []string
	words := strings.FieldsFunc(fold(name), func(c rune) bool { return strings.ContainsRune(" /,&+", c) })
	for _, w := range words {
		if w == "and" || w == "x" {
			continue
		}
		if form := keyOf(keys, w).form; form != asReadings && form != asAmount {
			return nil
		}
		out = append(out, w)
	}
	return out
}

// timeIn is the time that a key names, 'after 5 min' and '5 minutes'; "" for none.
func timeIn(name string) string {
	plain := fold(name)
	for _, before := range []string{"after ", "hold ", "held ", "at "} {
		plain = strings.TrimPrefix(plain, before)
	}
	v, err := quantity.Parse(plain)
	if err != nil || quantity.DimensionOf(v.Unit) != quantity.Time {
		return ""
	}
	return plainNumber(v.Number) + " " + string(v.Unit)
}

// distanceUnits are what people call the clock of a vehicle by what it counts.
var distanceUnits = map[string]string{"hours": "h", "engine hours": "h", "run hours": "h", "tach": "h", "tach time": "h", "hobbs": "h", "hobbs time": "h", "hour meter": "h", "hourmeter": "h", "total time": "h", "ttaf": "h", "smoh": "h", "miles": "mi", "mi": "mi", "km": "km", "kms": "km", "kilometers": "km", "kilometres": "km"}

// clockKey answers a figure under a name of the odometer, and has it read in the
// unit that the name tells. It is false where it is none.
func (r *reader) clockKey(n *node, i int, meant, where string) bool {
	e := n.entries[i]
	if meant != "odometer" && distanceUnits[fold(e.key)] == "" || e.value.kind != scalar {
		return false
	}
	unit := distanceUnits[fold(e.key)]
	if figure, rest, _ := strings.Cut(e.value.text, " "); rest != "" && unit != "" && isFigures(figure) { // engine hours: 1840 since overhaul
		r.report(e.pos, "write 'odometer: "+figure+" "+unit+"'; '"+short(rest)+"' goes into 'notes'", "unknown key '%s'%s", short(e.key), where)
		return true
	}
	if !isFigures(strings.ReplaceAll(e.value.text, ",", "")) {
		return false
	}
	hint := "write 'odometer: " + short(e.value.text) + " " + cmp.Or(unit, "mi") + "'"
	if n.get("layout") != nil {
		hint = "it stands under 'vehicle': write 'vehicle: {odometer: " + short(e.value.text) + " " + cmp.Or(unit, "mi") + "}'"
	}
	if unit == "" {
		hint += ", km or h, whichever it shows"
	}
	r.report(e.pos, hint, "unknown key '%s'%s", short(e.key), where)
	if unit != "" {
		value := *e.value
		value.text += " " + unit
		n.entries[i] = entry{meant, e.pos, &node{kind: mapping, pos: value.pos, entries: []entry{{"reading", e.pos, &value}}}}
	}
	return true
}

// limitsHint writes limits that are given in words as keys: 'min 128 psi, max diff
// 25'. It is "" where a part of them is not known.
func limitsHint(text string, keys []key) string {
	var parts []string
	standard := ""
	if first, rest, _ := strings.Cut(text, " "); keyOf(keys, fold(first)).form != 0 && startsWithFigure(rest) && !strings.Contains(rest, ",") { // lowest 75% of highest
		return "write 'limits: {" + fold(first) + ": " + rest + "}'"
	}
	for _, t := range limitPieces(text) {
		fields := strings.Fields(t.text)
		if len(fields) > 1 && slices.Contains([]string{"spec", "book", "limit", "limits", "manual", "specs"}, fold(strings.Trim(fields[0], ":="))) { // spec 360 min
			fields = fields[1:]
		}
		if len(fields) > 1 && fold(fields[0]) == "says" {
			fields = fields[1:]
		}
		i := slices.IndexFunc(fields, startsWithFigure)
		if last := len(fields) - 1; i == 0 && last > 0 && slices.Contains([]string{"min", "minimum", "least"}, fold(fields[last])) { // 350 min
			fields = append([]string{fields[last]}, fields[:last]...)
			i = 1
		}
		if i == 0 && strings.Contains(text, ",") && keyOf(keys, "standard").name != "" && len(fields) < 3 { // 170 psi, min 128
			standard = ", if " + strings.Join(fields, " ") + " is the book's usual figure"
			parts = append(parts, "standard: "+strings.Join(fields, " "))
			continue
		}
		if i < 1 {
			return ""
		}
		words, figure := fold(strings.Trim(strings.Join(fields[:i], " "), ":=")), strings.Join(fields[i:], " ")
		name := ""
		switch {
		case slices.Contains([]string{"min", "minimum", "at least", "no less than", "not under", "no less than", "above"}, words):
			name = "minimum"
		case strings.Contains(words, "diff") || words == "no more than" && strings.Contains(text, ",") || strings.Contains(words, "variation") || words == "within" || words == "all within" || strings.Contains(words, "between"):
			name = "difference"
			if strings.Contains(figure, "%") {
				name = "spread"
			}
		}
		if _, err := quantity.ScanAs(figure, quantity.Pressure); name == "" || err != nil || keyOf(keys, name).name == "" {
			return ""
		}
		parts = append(parts, name+": "+figure)
	}
	if len(parts) == 0 || standard != "" && len(parts) == 1 {
		return ""
	}
	return "write 'limits: {" + strings.Join(parts, ", ") + "}'" + standard
}

// rowsOf are the readings of cylinders that stand each with their own keys, {1:
// {dry: 150, wet: 155}}, as they are written by key; "" where there are none.
func rowsOf(entries []entry, named func(string) string) string {
	var order []string
	by := map[string][]string{}
	for _, e := range entries {
		if e.value.kind != mapping {
			continue
		}
		for _, one := range e.value.entries {
			if one.value.kind != scalar || isEmpty(one.value) {
				continue
			}
			if by[one.key] == nil {
				order = append(order, one.key)
			}
			by[one.key] = append(by[one.key], named(e.key)+": "+short(one.value.text))
		}
	}
	for i, name := range order {
		order[i] = name + ": {" + strings.Join(by[name], ", ") + "}"
	}
	return strings.Join(order, ", ")
}

// inKeys says how to write an engine that was given in one text, 'engine: V8 gas',
// where a key is missing that such a text has no room for.
func inKeys(s *section, p engine.Problem) string {
	entries := s.node.entries
	if p.Field != "numbering" || len(entries) == 0 || entries[0].pos != entries[0].value.pos {
		return ""
	}
	texts := make([]string, len(entries))
	for i, e := range entries {
		texts[i] = e.key + ": " + short(e.value.text)
	}
	return "write 'engine: {" + strings.Join(texts, ", ") + ", ...}', and in the place of '...' "
}

// orderHint answers a firing order in the place of a numbering.
func orderHint(p engine.Problem, numbering string, cylinders int) string {
	fields := strings.FieldsFunc(numbering, func(c rune) bool { return strings.ContainsRune(" -,>", c) })
	if p.Field != "numbering" || cylinders < 4 || len(fields) != cylinders || len(distinct(fields)) != cylinders || slices.ContainsFunc(fields, func(f string) bool { return !isWhole(f) }) {
		return ""
	}
	return "a firing order stands by itself: 'firing-order: " + strings.Join(fields, "-") + "'; "
}

// limitPieces are limits that stand beside each other, with commas between or before the next
// word: min 100 psi max diff 25 psi.
func limitPieces(text string) []typed {
	text = strings.NewReplacer("calls for ", "", "wants ", "", " and ", ", ", " of each other", "", " between them", "", " apart", "").Replace(text)
	return separate(nextLimit().ReplaceAllString(text, "$1, $2"), ",;")
}

var nextLimit = lazily(`(?i)(\d ?(?:psi|bar|kpa|%)?) ((?:min|minimum|max|maximum|diff|difference|within|variation)(?: [a-z]+)? ?\d)`)
