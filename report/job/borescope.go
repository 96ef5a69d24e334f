package job

import (
	"slices"
	"strings"

	"gaugesheet/diag"
)

// boreSeen is what the borescope showed of one cylinder.
type boreSeen struct {
	text   string
	parts  *diag.Bore // nil where it was said in free words
	state  diag.State // "" where it was seen
	reason string
}

// borescope reads what was seen by cylinder, in free words and in the list's,
// and where nothing was looked at.
func (r *reader) borescope(top *section) (map[string]string, map[string]diag.Bore, []diag.Untested) {
	n := top.get("borescope")
	if n == nil {
		return nil, nil, nil
	}
	if state, reason, ok := r.stated(top, "borescope"); ok {
		return nil, nil, []diag.Untested{{Test: testBorescope, State: state, Reason: reason}}
	}
	seen := byCylinder(r, n, "borescope", r.bore)
	var words map[string]string
	var parts map[string]diag.Bore
	var not []diag.Untested
	for _, name := range r.cylinderNames {
		one, ok := seen[name]
		if !ok {
			continue
		}
		if one.state != "" {
			not = addUntested(not, name, one)
			continue
		}
		if words == nil {
			words = map[string]string{}
		}
		words[name] = one.text
		if one.parts != nil {
			if parts == nil {
				parts = map[string]diag.Bore{}
			}
			parts[name] = *one.parts
		}
	}
	return words, parts, not
}

func addUntested(list []diag.Untested, cylinder string, one boreSeen) []diag.Untested {
	i := slices.IndexFunc(list, func(u diag.Untested) bool { return u.State == one.state && u.Reason == one.reason })
	if i < 0 {
		return append(list, diag.Untested{Test: testBorescope, State: one.state, Reason: one.reason, Cylinders: []string{cylinder}})
	}
	list[i].Cylinders = append(list[i].Cylinders, cylinder)
	return list
}

func (r *reader) bore(n *node, label, _ string) (boreSeen, bool) {
	if n.kind == mapping {
		return r.boreParts(n, label)
	}
	if isEmpty(n) {
		r.report(n.pos, "write what was seen, or leave the "+r.cylinderWord+" out", "'%s' has no value", label)
		return boreSeen{}, false
	}
	if n = r.scalar(n, label, "what was seen"); n == nil {
		return boreSeen{}, false
	}
	if state, reason, ok := parseState(n.text); ok {
		return boreSeen{state: state, reason: reason}, true
	}
	return boreSeen{text: n.text}, true
}

// boreParts reads what was seen by part, and says it in words as well.
func (r *reader) boreParts(n *node, label string) (boreSeen, bool) {
	before := r.faults
	s := r.section(n, label, boreKeys)
	bore := diag.Bore{Wall: s.word("wall").Value, Crown: s.word("crown").Value, Valves: s.word("valves").Value,
		Seat: s.word("seat").Value, Note: s.scalarText("note")}
	if r.faults > before {
		return boreSeen{}, false
	}
	if bore == (diag.Bore{}) {
		r.report(n.pos, "such as {wall: scored, note: at the front}", "'%s' says nothing, expected one of %s", label, allOf(keyNames(boreKeys)))
		return boreSeen{}, false
	}
	var said []string
	for _, part := range []struct{ name, word string }{{"wall", bore.Wall}, {"crown", bore.Crown}, {"valves", bore.Valves}, {"seat", bore.Seat}} {
		if part.word != "" {
			said = append(said, part.name+" "+part.word)
		}
	}
	if bore.Note != "" {
		said = append(said, bore.Note)
	}
	return boreSeen{text: strings.Join(said, "; "), parts: &bore}, true
}
