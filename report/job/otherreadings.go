package job

import (
	"fmt"
	"slices"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
)

// otherReadings reads what was measured besides, a test of one reading each.
func (r *reader) otherReadings(top *section) []diag.Measured {
	const example = "[{name: charging voltage, reading: 14.2 V}]"
	out := diag.Measured{Name: diag.OtherReadings, State: diag.Tested}
	spread := itemsOf(top.get(diag.OtherReadings))
	if spread == nil {
		spread = top.list(diag.OtherReadings, example)
	}
	for i, item := range spread {
		label := fmt.Sprintf("%s[%d]", diag.OtherReadings, i+1)
		n := r.otherReading(item)
		if n == nil {
			if figure, rest := onlyFigure(item.text, ""); figure != "" && rest != "" {
				r.report(item.pos, "write '"+diag.OtherReadings+": {"+rest+": "+figure+"}'", "'%s' is '%s', expected a name and a reading", label, short(item.text))
				continue
			}
			r.report(item.pos, "write what was read and its reading, such as 'charging voltage: 14.2 V'; what was only seen goes into 'findings'", "'%s' is '%s', expected a name and a reading", label, short(item.text))
			continue
		}
		sec := r.section(n, label, otherReadingKeys)
		name, reading := sec.text("name"), sec.scalar("reading")
		if sec == nil || reading == nil {
			continue
		}
		if name.Value == "" {
			r.report(n.pos, "such as {name: charging voltage, reading: 14.2 V}", "'%s' has no name", sec.name)
			continue
		}
		w := &measuring{r: r, out: &out, scale: r.anyScale(sec, reading)}
		to := place{name: name.Value, label: sec.label("reading")}
		limit := sec.scalar("limit")
		if limit == nil && saidInWords(reading.text) {
			w.text(to, reading)
		} else {
			w.measured(key{name: "reading", form: asMeasured}, reading, to)
		}
		if limit != nil {
			w.limit(sec, key{name: "limit", form: asPermitted}, entry{key: name.Value, pos: limit.pos, value: limit}, place{name: name.Value, label: sec.label("limit")})
		}
		w.word(place{name: name.Value}, sec.scalarText("note"))
	}
	if len(out.Readings) == 0 && len(out.Words) == 0 {
		return nil
	}
	return []diag.Measured{out}
}

// itemsOf takes for a list what was written without one: one reading, or each
// under its name. It is nil for anything else.
func itemsOf(n *node) []*node {
	if n == nil || isEmpty(n) {
		return nil
	}
	switch n.kind {
	case scalar:
		if _, _, stated := parseState(n.text); stated {
			return nil
		}
		return severalReadings(n)
	case mapping:
		if slices.ContainsFunc(n.entries, func(e entry) bool { return keyOf(otherReadingKeys, e.key).name != "" }) {
			return []*node{n}
		}
		var out []*node
		for _, e := range n.entries {
			out = append(out, &node{kind: mapping, pos: e.pos, entries: []entry{e}})
		}
		return out
	}
	return nil
}

// severalReadings takes readings apart that stand between commas, 'alternator 14.1 V, coil 1.5 ohms', where each has its
// figure.
func severalReadings(n *node) []*node {
	pieces := separate(n.text, ",;")
	out := make([]*node, len(pieces))
	for i, t := range pieces {
		if !strings.ContainsAny(t.text, "0123456789") || startsWithFigure(t.text) {
			return []*node{n}
		}
		pos := n.pos
		pos.Col += t.at
		out[i] = &node{pos: pos, text: t.text, plain: n.plain, tag: "!!str"}
	}
	if len(out) < 2 {
		return []*node{n}
	}
	return out
}

// otherReading gives a reading its keys: one written as 'blow-by: heavy', as
// 'oil 80 C', or under its name. It is nil for a text without a reading.
func (r *reader) otherReading(n *node) *node {
	made := func(name string, at Pos, reading *node) *node {
		said := &node{pos: at, text: strings.TrimSpace(name), tag: "!!str"}
		return &node{kind: mapping, pos: n.pos, entries: []entry{{"name", at, said}, {"reading", reading.pos, reading}}}
	}
	switch {
	case n.kind == mapping && len(n.entries) == 1 && keyOf(otherReadingKeys, n.entries[0].key).name == "":
		e := n.entries[0]
		if e.value.kind != mapping {
			return made(e.key, e.pos, e.value)
		}
		named := *e.value
		named.entries = append([]entry{{"name", e.pos, &node{pos: e.pos, text: e.key, tag: "!!str"}}}, e.value.entries...)
		return &named
	case n.kind != scalar || isEmpty(n):
		return n
	}
	part := func(at int) *node {
		text := []rune(n.text)
		for at < len(text) && text[at] == ' ' {
			at++
		}
		return &node{pos: r.within(n, at), text: string(text[at:]), plain: n.plain, tag: "!!str"}
	}
	for _, sign := range []string{": ", " = ", "="} {
		if name, reading, ok := strings.Cut(n.text, sign); ok && strings.TrimSpace(name) != "" && strings.TrimSpace(reading) != "" {
			return made(name, n.pos, part(len([]rune(name+sign))))
		}
	}
	words := separate(n.text, " ")
	for i := 1; i < len(words); i++ { // the longest reading at the end
		if reading := part(words[i].at); isOneReading(reading.text) {
			if strings.ContainsAny(string([]rune(n.text)[:words[i].at]), ",;") && strings.ContainsAny(string([]rune(n.text)[:words[i].at]), "0123456789") {
				return nil // several
			}
			return made(string([]rune(n.text)[:words[i].at]), n.pos, reading)
		}
	}
	return nil
}

// isOneReading reports one number, or a range, with or without its unit.
func isOneReading(text string) bool {
	p, err := quantity.Scan(text)
	return err == nil && (len(p.Parts) == 1 || p.Only(quantity.To, quantity.PlusMinus, quantity.Bracket))
}

// saidInWords reports a reading that is no number: words, or several of them behind a
// number, of which one would be a unit.
func saidInWords(text string) bool {
	p, err := quantity.Scan(text)
	if err == nil && len(p.Parts) > 0 {
		return false
	}
	fields := strings.Fields(text)
	return len(fields) > 0 && !startsWithFigure(text) && !strings.ContainsAny(fields[0], "0123456789") || len(fields) > 2
}

// anyScale is a scale of the unit that a reading names, and of that in brackets
// behind it.
func (r *reader) anyScale(sec *section, reading *node) *scale {
	first, other, _ := strings.Cut(reading.text, "(")
	unit := unitNamed(first)
	units := []quantity.Unit{unit}
	if u := unitNamed(strings.TrimSuffix(strings.TrimSpace(other), ")")); quantity.DimensionOf(u) == quantity.DimensionOf(unit) {
		units = append(units, u)
	}
	return &scale{r: r, pressures: pressures{name: diag.OtherReadings}, label: sec.name, units: units, unit: unit, given: true, signed: true}
}

// unitNamed is the unit behind the last number of a text, which may be a range or
// a bound: "4-5 bar", "over 300 psi", "300+ psi".
func unitNamed(text string) quantity.Unit {
	v, err := quantity.Parse("1 " + text[strings.LastIndexAny(text, "0123456789+")+1:])
	if err != nil {
		return quantity.None
	}
	return v.Unit
}
