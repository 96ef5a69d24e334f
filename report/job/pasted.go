package job

import (
	"bytes"
	"cmp"
	"slices"
	"strings"

	"gaugesheet/diag/quantity"
)

// curlyText is a text between the quotes of a word processor that are where a file's
// own would be: around a whole value.
var curlyText = lazily(`([:\[{,] *|^ *- +)(?:[“„”]([^“”„"\\\n]*)[”“]|[‘‚’]([^‘’‚'\n]*)[’‘])( *(?:[,\]}]|: |:?$| #))`)

// straightQuotes puts straight quotes in the place of those, so that a comma between
// them ends nothing. Every character stays where it stands.
func straightQuotes(data []byte) []byte {
	if !bytes.ContainsAny(data, "“”„‘’‚") {
		return data
	}
	lines := strings.Split(string(data), "\n")
	for i, line := range lines {
		if len(line) > longestLine || strings.ContainsAny(line, `"`) {
			continue
		}
		for range 2 { // a comma that ends one begins the next
			line = curlyText().ReplaceAllStringFunc(line, func(found string) string {
				m := curlyText().FindStringSubmatch(found)
				quote := `"`
				if m[2] == "" {
					quote = "'"
				}
				return m[1] + quote + m[2] + m[3] + quote + m[4]
			})
		}
		lines[i] = line
	}
	return []byte(strings.Join(lines, "\n"))
}

// markFault finds a line that begins with a mark of the message that it was
// copied from: a fence, a quotation, a point of a list.
func (l line) markFault() (fault, bool) {
	for _, fence := range []string{"```", "~~~"} {
		if strings.HasPrefix(l.text, fence) {
			return l.fault(0, "a mark of a message around the job", "delete the line '"+fence+"', above and below the job")
		}
	}
	if rest, ok := strings.CutPrefix(l.text, ">"); ok && (rest == "" || rest[0] == ' ') {
		return l.fault(0, "the line begins with the sign '>' of a quoted message", "delete the '>' and the space behind it, before each line")
	}
	if rest, ok := strings.CutPrefix(l.text, "* "); ok {
		return l.fault(0, "the line begins with the sign '*'", "leave it out: '"+short(strings.TrimSpace(rest))+"'")
	}
	return fault{}, false
}

// earlyQuoteFault finds a quote that is closed before its value ends: 'it's
// rough', "rough" at idle.
func (l line) earlyQuoteFault() (fault, bool) {
	quote := l.value[:1]
	closed := 0
	for i := 1; i < len(l.value) && closed == 0; i++ {
		switch {
		case l.value[i] == '\\' && quote == `"`:
			i++
		case l.value[i] != quote[0]:
		case quote == "'" && strings.HasPrefix(l.value[i+1:], "'"):
			i++
		default:
			closed = i
		}
	}
	rest := strings.TrimSpace(l.value[closed+1:])
	if closed == 0 || rest == "" || rest[0] == '#' {
		return fault{}, false
	}
	text, other := l.value, `"`
	if last := len(text) - 1; text[last] == quote[0] {
		text = text[1:last]
	}
	if strings.Contains(text, `"`) {
		other, text = "'", strings.ReplaceAll(text, "'", "''")
	}
	return l.fault(strings.LastIndex(l.text, l.value)+closed, "a quote is closed before the value ends", "write "+l.key+": "+other+short(text)+other)
}

// unitInKey takes a unit of pressure off a key, 'compression (psi)'.
func unitInKey(key string) (rest string, unit quantity.Unit) {
	words := strings.FieldsFunc(key, func(c rune) bool { return strings.ContainsRune(" ()[],", c) })
	if len(words) == 0 || len(key) > longestSaid {
		return "", quantity.None
	}
	last := len(words) - 1
	v, err := quantity.ParseAs("1 "+words[last], quantity.Pressure)
	if err != nil || quantity.DimensionOf(v.Unit) != quantity.Pressure {
		return "", quantity.None
	}
	return strings.Join(words[:last], " "), v.Unit
}

// unitKey answers a key with its unit in it, or a unit in the place of the key of
// the readings, and has both read where they belong.
func (r *reader) unitKey(n *node, i int, name, where string, keys []key) bool {
	e := n.entries[i]
	rest, unit := unitInKey(e.key)
	if unit == quantity.None {
		return false
	}
	is := meantKey{name: rest}
	if keyOf(keys, fold(rest)).name == "" {
		is = keyMeant(entry{cmp.Or(rest, "dry"), e.pos, e.value}, name, keyNames(keys))
	}
	if rest == "" && keyOf(keys, "dry").name != "" {
		is.name = "dry"
	}
	k := keyOf(keys, fold(is.name))
	to, line := n, "'unit: "+string(unit)+"' and '"+k.name+": ...'"
	if keyOf(k.keys, "unit").name != "" {
		to, line = e.value, "'"+k.name+":', and below it 'unit: "+string(unit)+"'"
	} else if keyOf(keys, "unit").name == "" {
		return false
	}
	if is.section != "" || k.name == "" || n.get(k.name) != nil || to.kind != mapping {
		return false
	}
	r.report(e.pos, "the unit has a line of its own: write "+line, "unknown key '%s'%s", short(e.key), where)
	n.entries[i] = entry{k.name, e.pos, e.value}
	if to.get("unit") == nil {
		to.entries = append(to.entries, entry{"unit", e.pos, &node{pos: e.pos, text: string(unit), plain: true, tag: "!!str"}})
	}
	return true
}

// outside answers the keys of one section that stand in the file by themselves,
// once for all of them, and has them read in their place.
func (r *reader) outside(n *node, i int, section string, keys []key) {
	var names, texts []string
	var all []int
	for j, e := range n.entries {
		if keyOf(keys, e.key).name != "" {
			continue
		}
		is := keyMeant(e, "", keyNames(keys))
		if is.section != section || e.value.kind != scalar || is.name == "" {
			continue
		}
		if j < i {
			return // said with the first, and read
		}
		all = append(all, j)
		names, texts = append(names, short(e.key)), append(texts, is.name+": "+short(e.value.text))
	}
	e := n.entries[i]
	is := keyMeant(e, "", keyNames(keys))
	if len(all) < 2 {
		r.report(e.pos, cmp.Or(besideInLine(n.get(section), section, is.name, e.value), is.hint), "unknown key '%s'", short(e.key))
		r.moved(n, e, is)
		return
	}
	r.report(e.pos, "they stand under '"+section+"': write '"+section+": {"+strings.Join(texts, ", ")+"}'", "unknown keys %s", allOf(quoted(names)))
	for _, j := range all {
		r.moved(n, n.entries[j], keyMeant(n.entries[j], "", keyNames(keys)))
	}
}

// besideInLine puts a key beside what its section says in one line, 'engine: inline 4'; ""
// where the section is not there, or has keys of its own.
func besideInLine(section *node, called, name string, value *node) string {
	if section == nil || section.kind != mapping || len(section.entries) == 0 || section.entries[0].pos != section.entries[0].value.pos || value.kind != scalar || isEmpty(value) || section.get(name) != nil {
		return ""
	}
	var texts []string
	for _, e := range section.entries {
		if e.value.kind != scalar {
			return ""
		}
		texts = append(texts, e.key+": "+short(e.value.text))
	}
	return "it stands under '" + called + "': write '" + called + ": {" + strings.Join(append(texts, name+": "+short(value.text)), ", ") + "}'"
}

// wetBeside says where a second reading of compression belongs that stands in
// brackets, 150 (165).
func (s *scale) wetBeside(second string) string {
	if s.label != "compression" || s.cylinder == "" {
		return ""
	}
	return "a reading with oil stands under 'wet: {" + s.cylinder + ": " + second + "}'; "
}

// firstBeside says where the first stroke belongs that stands before the last, 90 then
// 150.
func (s *scale) firstBeside(text, first string) string {
	if s.label != "compression" || s.cylinder == "" || !slices.Contains(strings.Fields(text), "then") {
		return ""
	}
	return "; what the first stroke gave stands under 'first: {" + s.cylinder + ": " + first + "}'"
}

// spoons are what oil is dosed with where nothing better is at hand.
var spoons = []struct{ name, holds string }{{"tablespoon", "15 ml"}, {"tbsp", "15 ml"}, {"teaspoon", "5 ml"}, {"tsp", "5 ml"}}

// doseHint answers a reading with oil that has its dose beside it; "" for any other.
func (s *scale) doseHint(text string) string {
	number, words, _ := strings.Cut(fold(text), " ")
	if !isFigures(number) {
		return ""
	}
	for _, spoon := range spoons {
		if strings.Contains(words, spoon.name) {
			return "write " + number + "; the dose has a line of its own: 'oil: " + spoon.holds + "', if it was one " + spoon.name
		}
	}
	return ""
}

// oilHint answers a reading with oil that stands beside or in place of one
// without: 150 dry 165 wet.
func (s *scale) oilHint(text string) string {
	if dose := s.doseHint(text); dose != "" {
		return dose
	}
	plain := fold(text)
	if strings.HasSuffix(s.label, "wet") || !strings.Contains(plain, "wet") && !strings.Contains(plain, "oil") {
		return ""
	}
	for _, word := range strings.FieldsFunc(plain, func(c rune) bool { return c < 'a' || c > 'z' }) { // a wet plug is another matter
		if !slices.Contains([]string{"wet", "dry", "oil", "with", "without", "after", "and", "then", "of", "psi", "bar"}, word) {
			return ""
		}
	}
	figures := strings.FieldsFunc(plain, func(c rune) bool { return (c < '0' || c > '9') && c != '.' })
	wet := func(text string) string { return "'wet: {" + cmp.Or(s.cylinder, "1") + ": " + text + "}'" }
	switch {
	case len(figures) == 1:
		return "a reading with oil stands under " + wet(figures[0])
	case len(figures) == 2 && strings.Index(plain, "dry") > strings.Index(plain, figures[0])+len(figures[0])+1:
		return "write " + figures[1] + " here, and the reading with oil under " + wet(figures[0])
	case len(figures) == 2:
		return "write " + figures[0] + " here, and the reading with oil under " + wet(figures[1])
	}
	return ""
}
