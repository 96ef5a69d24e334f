package job

import (
	"slices"
	"strings"
	"unicode"

	"gaugesheet/diag/engine"
	"gaugesheet/diag/quantity"
)

// spell brings the keys of a tree to the spelling that they are known by, and
// puts what stands by itself in the place of a section into its key, so that
// who writes 'Fuel Pressure:' or 'engine: V8' is understood.
func (r *reader) spell(n *node, keys []key) {
	if n == nil || n.kind != mapping {
		return
	}
	oneSpelling(n, keyNames(keys))
	for i, e := range n.entries {
		k := keyOf(keys, e.key)
		if k.name == "" || len(k.keys) == 0 || e.value == nil {
			continue
		}
		switch {
		case k.form == asGroup || k.form == asTestSection:
			n.entries[i].value = k.underItsKeys(inOne(e.value))
			e.value = n.entries[i].value
			if words := inOne(&node{braced: true, items: e.value.items}); single[k.name] != "" && e.value.kind == list && onlyTexts(e.value) {
				n.entries[i].value = words
				e.value = words
			}
			if e.value.kind == scalar {
				if section := alone(k, e.value); section != nil {
					n.entries[i].value = section
				}
			}
			if k.name == "plugs" && e.value.kind == list {
				n.entries[i].value = &node{kind: mapping, pos: e.value.pos, entries: []entry{{"looks", e.value.pos, e.value}}}
			}
			r.spell(n.entries[i].value, k.keys)
			if k.name == "engine" {
				besideLayout(k, n.entries[i].value)
			}
		case k.name == "before":
			r.spell(e.value, k.keys)
		case e.value.kind == mapping: // by name or by cylinder
			for _, one := range e.value.entries {
				r.spell(one.value, k.keys)
			}
		}
	}
}

// inOne gives a list that was written within braces, where keys are expected, as the
// text that it is: {inline-4, gas}.
func inOne(n *node) *node {
	if !n.braced || len(n.items) == 0 {
		return n
	}
	return &node{pos: n.items[0].pos, text: strings.Join(textsOf(n), ", "), plain: true, tag: "!!str"}
}

func onlyTexts(n *node) bool {
	return len(n.items) > 0 && !slices.ContainsFunc(n.items, func(item *node) bool { return item.kind != scalar })
}

// single are the keys for which a value stands that is given in the place of
// their section.
var single = map[string]string{"engine": "layout", "odometer": "reading", "customer": "name", "seller": "name", "vehicle": "description", "authorised": "by", "job": "number", "battery": "rest"}

// longestSaid is how long a text may be that is taken apart into the words of a
// section.
const longestSaid = 400

// alone makes a section of a value that stands in its place: words that only one
// of its keys takes go to that key, and another value to the key that it usually
// is. It is nil where that is not known.
func alone(k key, n *node) *node {
	if isEmpty(n) || len(n.text) > longestSaid {
		return nil
	}
	if _, _, stated := parseState(n.text); stated {
		return nil
	}
	if parts, apart := saidApart(k, n); apart {
		return parts
	}
	out := &node{kind: mapping, pos: n.pos}
	put := func(name, text string, at int) bool {
		if out.get(name) != nil {
			return false
		}
		pos := n.pos
		pos.Col += at
		out.entries = append(out.entries, entry{name, pos, &node{pos: pos, text: text, plain: n.plain, tag: n.tag}})
		return true
	}
	rest, at := words(k, n.text, put)
	name := single[k.name]
	switch {
	case rest == "" && len(out.entries) > 0:
		return out
	case name == "" || k.name != "engine" && k.name != "battery" && len(out.entries) > 0:
		return nil
	}
	put(name, rest, at)
	return out
}

// saidApart takes a text apart whose parts are told by more than their words: a limit, the
// looks of plugs, a vehicle, a person. It is false for any other.
func saidApart(k key, n *node) (parts *node, apart bool) {
	switch k.name {
	case "limits":
		return limitAlone(k, n), true
	case "plugs":
		return looksAlone(n), true
	case "vehicle":
		parts = vehicleApart(k, n)
	case "customer", "seller":
		parts = personApart(n)
	case "battery":
		parts = voltsApart(n)
	case "job":
		return nil, !isJobNumber(n.text)
	}
	return parts, parts != nil
}

// limitAlone is a minimum that stands in the place of limits: at least 100 psi, 100 psi min.
func limitAlone(k key, n *node) *node {
	if figure, ok := strings.CutSuffix(fold(n.text), " min"); ok && isFigures(figure) { // which are no minutes
		least := *n
		least.text = figure
		return &node{kind: mapping, pos: n.pos, entries: []entry{{"minimum", n.pos, &least}}}
	}
	p, err := quantity.ScanAs(n.text, quantity.Pressure)
	if _, one := p.Single(); err != nil || !one || p.Bound != quantity.AtLeast || keyOf(k.keys, "minimum").name == "" {
		return nil
	}
	return &node{kind: mapping, pos: n.pos, entries: []entry{{"minimum", n.pos, n}}}
}

// looksAlone are the looks of plugs where only these are told: 'good', and 'left tan,
// right oily'.
func looksAlone(n *node) *node {
	look := keyOf(plugKeys, "look")
	isLook := func(text string) bool {
		return vocabularyOf(look.says).answers(text, look.words)
	}
	if all := headedWords(n.text); len(all) > 1 && !slices.ContainsFunc(all, func(h headedWord) bool { return !isLook(h.word) }) { // 1,2,4 fine. 3 black
		return &node{kind: mapping, pos: n.pos, entries: []entry{{"looks", n.pos, n}}}
	}
	for _, t := range separate(evenly(n.text), ",;") {
		fields := strings.Fields(strings.NewReplacer("(", "", ")", "").Replace(t.text))
		if len(fields) > 2 && bankSide(strings.Join(fields[:2], " ")) != "" && isLook(strings.TrimPrefix(strings.Join(fields[2:], " "), "all ")) { // left side all sooty
			continue
		}
		if len(fields) == 0 || !isLook(t.text) && !isLook(strings.Join(fields[1:], " ")) && !isLook(fields[len(fields)-1]) {
			return nil
		}
	}
	return &node{kind: mapping, pos: n.pos, entries: []entry{{"looks", n.pos, n}}}
}

var commaInNumber = lazily(`\b(\d{1,2}),(\d{1,2})\b`)

// withPoints writes the decimal commas of what is said of an engine as points: 1,6
// benzin.
func withPoints(k key, text string) string {
	if k.name != "engine" {
		return text
	}
	return commaInNumber().ReplaceAllString(text, "$1.$2")
}

// words puts the words of a text to the keys that take them, in front of and
// behind commas, and gives what is left and where it begins.
func words(k key, text string, put func(name, text string, at int) bool) (rest string, at int) {
	var left []typed
	pieces := separate(withPoints(k, text), ",;")
	if k.name == "conditions" {
		battery, others := voltsSaid(pieces)
		if battery.text != "" && put("battery", battery.text, battery.at) {
			pieces = others
		}
	}
	for _, piece := range pieces {
		if k.name == "engine" && (isLayout(piece.text) || isCount(piece.text)) { // single, which is also how many camshafts
			left = append(left, piece)
			continue
		}
		if name := keyTaking(k, piece.text); name != "" && put(name, piece.text, piece.at) {
			continue
		}
		if name, value := named(k, piece.text); name != "" && put(name, value, piece.at) {
			continue
		}
		if name, value := counted(k, piece.text); name != "" && put(name, value, piece.at) {
			continue
		}
		if name, value := led(k, piece.text); name != "" && put(name, value, piece.at) {
			continue
		}
		left = append(left, piece)
	}
	switch {
	case len(left) == 0:
		return "", 0
	case k.name == "engine":
		return engineWords(k, left, put)
	case len(left) > 1:
		return text, 0
	}
	fields := strings.Fields(left[0].text)
	for i := 1; i < len(fields); i++ { // blue on startup
		behind := slices.DeleteFunc(slices.Clone(fields[i:]), func(w string) bool { return slices.Contains([]string{"on", "at", "when", "in", "during", "under"}, w) })
		first, second := keyTaking(k, strings.Join(fields[:i], " ")), keyTaking(k, strings.Join(behind, " "))
		if first != "" && second != "" && first != second && put(first, strings.Join(fields[:i], " "), left[0].at) && put(second, strings.Join(behind, " "), left[0].at) {
			return "", 0
		}
	}
	return left[0].text, left[0].at
}

// counted gives the key of a section that a number and a word belong to, '6
// cranks' and '210 rpm', and its value; "" for none.
func counted(section key, text string) (name, value string) {
	number, word, ok := strings.Cut(fold(text), " ")
	word = strings.TrimSuffix(strings.TrimSuffix(word, " each"), " per cylinder")
	if !ok || !isFigures(number) {
		return "", ""
	}
	if last := strings.LastIndexByte(text, ' '); plainQuantity(text[:last]) { // 10.1 V cranking
		if k := keyOf(section.keys, fold(text[last+1:])); k.form == asAmount && k.name != "" {
			return k.name, text[:last]
		}
	}
	for _, k := range section.keys {
		switch called := k.name == word || slices.Contains(keysCalled(word), k.name); {
		case called && k.form == asWhole:
			return k.name, number
		case called && k.form == asAmount:
			return k.name, text
		}
	}
	return "", ""
}

// led gives the key of a section whose name a text begins with, 'throttle open' and
// 'charger on', and its value, where it takes that; "" for none.
func led(section key, text string) (name, value string) {
	fields := strings.Fields(text)
	for size := min(len(fields)-1, 3); size > 0; size-- {
		word, rest := fold(strings.Join(fields[:size], " ")), strings.Join(fields[size:], " ")
		for _, k := range section.keys {
			if k.name != strings.ReplaceAll(word, " ", "-") && !slices.Contains(keysCalled(word), k.name) {
				continue
			}
			vocabulary, words := vocabularyOf(k.says), k.words
			if k.form == asYesNo {
				vocabulary = vocabularyOf("yes or no")
				words = vocabulary.Words
			}
			said, _ := vocabulary.find(rest, words)
			if said != "" || k.form == asWhole && isWhole(rest) || k.form == asAmount && startsWithFigure(rest) && fits(k.name, &node{text: rest}) {
				return k.name, rest
			}
		}
	}
	return "", ""
}

// engineWords takes a displacement and the words that other keys of the engine
// take from what is said of it, '4.7 L V8 petrol', and gives what is left.
func engineWords(k key, pieces []typed, put func(name, text string, at int) bool) (rest string, at int) {
	var fields []typed
	for _, p := range pieces {
		for _, f := range separate(p.text, " ") {
			fields = append(fields, typed{f.text, p.at + f.at})
		}
	}
	for i := range fields { // 4.7L, 4.7 L, 360 cu in
		for _, size := range []int{3, 2, 1} {
			if i+size > len(fields) {
				continue
			}
			text := listedWords(fields[i : i+size])
			if v, err := quantity.Parse(text); err == nil && quantity.DimensionOf(v.Unit) == quantity.Volume && put("displacement", text, fields[i].at) {
				return engineWords(k, slices.Concat(fields[:i], fields[i+size:]), put)
			}
		}
	}
	if i := slices.IndexFunc(fields, isLitres); i >= 0 && layoutWithin(strings.Fields(listedWords(fields))) != "" && put("displacement", fields[i].text+" L", fields[i].at) { // 2.0 inline 4
		return engineWords(k, slices.Concat(fields[:i], fields[i+1:]), put)
	}
	for _, size := range []int{2, 1} { // water cooled, turbo
		for i := len(fields) - size; i >= 0 && len(fields) > size; i-- {
			text := listedWords(fields[i : i+size])
			if size == 2 { // turbo diesel
				first, second := engineKeyTaking(k, fields[i].text, true), engineKeyTaking(k, fields[i+1].text, true)
				if first != "" && second != "" && first != second {
					continue
				}
			}
			if name := engineKeyTaking(k, text, i+size == len(fields)); name != "" && put(name, text, fields[i].at) {
				fields = slices.Delete(fields, i, i+size)
				i = min(i, len(fields)-size+1)
			}
		}
	}
	if len(fields) == 0 {
		return "", 0
	}
	return listedWords(fields), fields[0].at
}

// isLitres reports a bare number with one or two decimals, as engines are called by
// their litres.
func isLitres(t typed) bool {
	whole, part, ok := strings.Cut(strings.Replace(t.text, ",", ".", 1), ".")
	return ok && isWhole(whole) && (len(whole) == 1 || len(whole) == 2 && whole < "30") && isWhole(part) && len(part) <= 2
}

// besideLayout takes out of a layout what has a key of its own in the engine's
// section and is not given there, '5.7 L V8 gas', where a layout is left.
func besideLayout(k key, section *node) {
	n := section.get("layout")
	if n == nil || n.kind != scalar || len(n.text) > longestSaid {
		return
	}
	if isLayout(n.text) {
		return
	}
	var found []entry
	put := func(name, text string, at int) bool {
		if section.get(name) != nil || slices.ContainsFunc(found, func(e entry) bool { return e.key == name }) {
			return false
		}
		pos := n.pos
		pos.Col += at
		found = append(found, entry{name, pos, &node{pos: pos, text: text, tag: "!!str"}})
		return true
	}
	rest, at := engineWords(k, separate(withPoints(k, n.text), ",;"), put)
	if !isLayout(rest) || len(found) == 0 {
		return
	}
	n.text, n.pos.Col = rest, n.pos.Col+at
	section.entries = append(section.entries, found...)
}

// isLayout reports whether a text says how an engine's cylinders stand, and how many.
func isLayout(text string) bool {
	_, problem := engine.ParseLayout(layoutMeant(text, 0))
	return problem == nil
}

// isCount reports whether a text is a number of cylinders.
func isCount(text string) bool {
	counts := vocabularyOf("number of cylinders")
	number, _ := counts.find(text, counts.Words)
	return number != ""
}

// engineKeyTaking gives the key of the engine that a word in what is said of it
// belongs to, last in the text or not; "" for none. A number is of its cylinders.
func engineKeyTaking(k key, text string, last bool) string {
	fuel := vocabularyOf("fuel")
	if isCount(text) || isLayout(text) {
		return ""
	}
	_, answer := fuel.find(text, fuel.Words)
	if strings.Contains(text, "/") && twoWordsHint(fuel, text, fuel.Words) != "" || answer != "" && (!strings.ContainsAny(text, "0123456789") || strings.ContainsFunc(text, unicode.IsLetter)) { // 50:1 mix
		return "fuel" // which answers it
	}
	name := keyTaking(k, text)
	if name == "layout" || !last && !slices.Contains([]string{"fuel", "charging", "cycle", "cooling"}, name) {
		return ""
	}
	return name
}

// listedWords are fields with a space between.
func listedWords(fields []typed) string {
	texts := make([]string, len(fields))
	for i, f := range fields {
		texts[i] = f.text
	}
	return strings.Join(texts, " ")
}

// keyTaking gives the key of a section that takes a word; "" for none and for
// several.
func keyTaking(section key, text string) string {
	if yes, _ := vocabularyOf("yes or no").find(text, vocabularyOf("yes or no").Words); yes != "" {
		return "" // an answer without its question
	}
	var takes []string
	for _, k := range section.keys {
		if k.form != asWord && k.form != asWordList || k.says == "" {
			continue
		}
		if word, _ := vocabularyOf(k.says).find(text, k.words); word != "" && !slices.Contains(takes, k.name) {
			takes = append(takes, k.name)
		}
	}
	if len(takes) != 1 {
		return ""
	}
	return takes[0]
}
