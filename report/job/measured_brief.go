package job

import (
	"strings"

	"gaugesheet/diag/quantity"
)

// A saidAs takes a section that was told in one line apart into its keys, nil where the
// line does not say so much.
type saidAs func(*node) *node

// underItsKeys gives a section its keys where it was written without: told in one line,
// or with its cylinders in the place of keys, in a list or in the section itself.
func (k key) underItsKeys(n *node) *node {
	switch {
	case n.kind == scalar && k.said != nil:
		if section := k.said(n); section != nil {
			return section
		}
	case n.kind == mapping && k.paired != nil:
		return k.paired(n)
	case n.kind == list && k.bare != "":
		return &node{kind: mapping, pos: n.pos, entries: []entry{{k.bare, n.pos, n}}}
	case n.kind == mapping && k.bare != "":
		return k.gatherBare(n)
	}
	return n
}

// gatherBare puts what stands in a section under no key of it, nor under one that looks
// like such, below the key for cylinders.
func (k key) gatherBare(n *node) *node {
	out := &node{kind: mapping, pos: n.pos}
	cylinders := &node{kind: mapping}
	for _, e := range n.entries {
		name := fold(e.key)
		if keyOf(k.keys, name).name != "" || !startsWithFigure(name) && nearest(name, keyNames(k.keys)) != "" {
			out.entries = append(out.entries, e)
			continue
		}
		if len(cylinders.entries) == 0 {
			cylinders.pos = e.pos
		}
		cylinders.entries = append(cylinders.entries, e)
	}
	if len(cylinders.entries) == 0 || out.get(k.bare) != nil {
		return n
	}
	out.entries = append(out.entries, entry{k.bare, cylinders.pos, cylinders})
	return out
}

// unitAsWritten is a folded pressure with its unit in the letters that it is printed in:
// '12 inHg' for '12 inhg'.
func unitAsWritten(text string) string {
	v, err := quantity.ParseAs(text, quantity.Pressure)
	unit := string(v.Unit)
	if err != nil || unit == "" || len(text) < len(unit) || !strings.EqualFold(text[len(text)-len(unit):], unit) {
		return text
	}
	return text[:len(text)-len(unit)] + unit
}

// fellTo takes a pressure that was watched apart: '6 psi to 5.5 in 10 min'. The figure
// without a unit has that of the other.
func fellTo(n *node) *node {
	text, empty := withoutSuction(strings.TrimSpace(fold(n.text)))
	for _, word := range []string{"fell", "falls", "pumped to", "from"} {
		text = strings.TrimSpace(strings.TrimPrefix(text, word))
	}
	if held := heldFor().FindStringSubmatch(text); held != nil { // 15 psi held 10 min
		text = held[1] + " to " + held[1] + " in " + held[2]
	}
	from, rest, ok := strings.Cut(text, " to ")
	for _, word := range []string{" dropped", " drops", " fell", " falls", " went down", " went", " down", " leaked down", " bled down"} { // 6 psi dropped to 2
		from = strings.TrimRight(strings.TrimSuffix(from, word), " ,;")
	}
	if !ok {
		return nil
	}
	var to, time string
	for _, word := range []string{" in ", " after ", " within ", " over "} {
		if to, time, ok = strings.Cut(rest, word); ok {
			break
		}
	}
	if !ok || !isTime(time) || leadingNumber(from) == "" || leadingNumber(to) == "" {
		return nil
	}
	from, to = unitAsWritten(withUnitOf(from, to)), unitAsWritten(withUnitOf(to, from))
	at := func(text string) *node { return &node{kind: scalar, pos: n.pos, text: text} }
	out := &node{kind: mapping, pos: n.pos, entries: []entry{{"pumped-to", n.pos, at(from)},
		{"hold", n.pos, &node{kind: mapping, pos: n.pos, entries: []entry{{strings.TrimSpace(time), n.pos, at(to)}}}}}}
	if v, err := quantity.ParseAs(from, quantity.Pressure); err == nil && v.Unit != quantity.None { // it is shown in the unit that it was written in
		out.entries = append([]entry{{"unit", n.pos, at(string(v.Unit))}}, out.entries...)
	}
	if empty {
		out.entries = append(out.entries, entry{"under", n.pos, at("vacuum")})
	}
	return out
}

// heldFor is a pressure that did not fall, and how long it was watched.
var heldFor = lazily(`^(\d[\d.,]* ?[a-z]*),?(?: it)? (?:held|holds|steady|no drop|stayed)(?: steady| there)?(?: for| in| after| over)? (\d+ ?[a-z]+)$`)

// withoutSuction is a text without its words or signs of a vacuum, and whether it had any.
func withoutSuction(text string) (plain string, had bool) {
	if !strings.HasPrefix(text, "-") && !strings.Contains(text, "vacuum") && !strings.Contains(text, "suction") {
		return text, false
	}
	for _, word := range []string{"under vacuum", "of vacuum", "vacuum", "of suction", "suction"} {
		text = strings.ReplaceAll(text, word, " ")
	}
	text = strings.ReplaceAll(strings.TrimPrefix(strings.TrimSpace(text), "-"), "to -", "to ")
	return strings.Join(strings.Fields(strings.Trim(text, " :,")), " "), true
}

// withUnitOf is a figure with the unit of another where it has none of its own.
func withUnitOf(figure, other string) string {
	figure = strings.TrimSpace(figure)
	v, err := quantity.ParseAs(figure, quantity.Pressure)
	o, also := quantity.ParseAs(strings.TrimSpace(other), quantity.Pressure)
	if err == nil && also == nil && v.Unit == quantity.None && o.Unit != quantity.None {
		return figure + " " + string(o.Unit)
	}
	return figure
}

// bothDrops takes what two magnetos lose apart: '90/48', the left one first, or 'left 90,
// right 48'.
func bothDrops(n *node) *node {
	text := strings.NewReplacer("left", "", "right", "", "rpm", "", "l ", "", "r ", "").Replace(fold(n.text))
	parts := strings.FieldsFunc(text, func(r rune) bool { return r == '/' || r == ',' || r == ' ' })
	turned := strings.Index(fold(n.text), "right") == 0
	if len(parts) != 2 || !isFigures(parts[0]) || !isFigures(parts[1]) {
		return nil
	}
	if turned {
		parts[0], parts[1] = parts[1], parts[0]
	}
	out := &node{kind: mapping, pos: n.pos}
	for i, side := range []string{"left", "right"} {
		out.entries = append(out.entries, entry{side, n.pos, &node{kind: scalar, pos: n.pos, text: parts[i]}})
	}
	return out
}
