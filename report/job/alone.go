package job

import (
	"slices"
	"strings"

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
			if e.value.kind == scalar {
				if section := alone(k, e.value); section != nil {
					n.entries[i].value = section
				}
			}
			r.spell(n.entries[i].value, k.keys)
		case k.name == "before":
			r.spell(e.value, k.keys)
		case e.value.kind == mapping: // by name or by cylinder
			for _, one := range e.value.entries {
				r.spell(one.value, k.keys)
			}
		}
	}
}

// single are the keys for which a value stands that is given in the place of
// their section.
var single = map[string]string{"engine": "layout", "odometer": "reading", "customer": "name", "seller": "name", "vehicle": "description", "authorised": "by", "job": "number", "battery": "rest"}

// alone makes a section of a value that stands in its place: words that only one
// of its keys takes go to that key, and another value to the key that it usually
// is. It is nil where that is not known.
func alone(k key, n *node) *node {
	if isEmpty(n) {
		return nil
	}
	if _, _, stated := parseState(n.text); stated {
		return nil
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
	if k.name == "plugs" {
		look := keyOf(plugKeys, "look")
		if word, _ := vocabularyOf(look.says).find(strings.TrimPrefix(fold(n.text), "all "), look.words); word != "" {
			all := &node{kind: mapping, pos: n.pos, entries: []entry{{"all", n.pos, &node{pos: n.pos, text: word, plain: true, tag: "!!str"}}}}
			out.entries = []entry{{"looks", n.pos, all}}
			return out
		}
		return nil
	}
	rest, at := words(k, n.text, put)
	name := single[k.name]
	switch {
	case rest == "" && len(out.entries) > 0:
		return out
	case name == "" || k.name != "engine" && len(out.entries) > 0:
		return nil
	}
	put(name, rest, at)
	return out
}

// words puts the words of a text to the keys that take them, in front of and
// behind commas, and gives what is left and where it begins. For an engine the
// words at the end of it and a displacement are taken as well: '4.7 L V8 petrol'.
func words(k key, text string, put func(name, text string, at int) bool) (rest string, at int) {
	var left []typed
	for _, piece := range separate(text, ",;") {
		if name := keyTaking(k, piece.text); name != "" && put(name, piece.text, piece.at) {
			continue
		}
		left = append(left, piece)
	}
	if len(left) != 1 {
		if len(left) == 0 {
			return "", 0
		}
		return text, 0
	}
	if k.name != "engine" {
		return left[0].text, left[0].at
	}
	fields := strings.Fields(left[0].text)
	for len(fields) > 1 {
		last := fields[len(fields)-1]
		if name := keyTaking(k, last); name == "" || name == "layout" || !put(name, last, left[0].at) {
			break
		}
		fields = fields[:len(fields)-1]
	}
	for _, size := range []int{1, 2} { // 4.7L, 4.7 L
		if len(fields) <= size {
			continue
		}
		size := strings.Join(fields[:size], " ")
		if v, err := quantity.Parse(size); err == nil && quantity.DimensionOf(v.Unit) == quantity.Volume && put("displacement", size, left[0].at) {
			fields = strings.Fields(strings.TrimPrefix(strings.Join(fields, " "), size))
			break
		}
	}
	return strings.Join(fields, " "), left[0].at
}

// keyTaking gives the key of a section that takes a word; "" for none and for
// several.
func keyTaking(section key, text string) string {
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
