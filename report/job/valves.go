package job

import (
	"slices"
	"strconv"
	"strings"
)

// What was read of both valves of a cylinder is often written beside each other, a cylinder
// to a line: 0.10/0.28, the inlet valve's first, or in/ex with their names.

// valveNames are what the valves are called in short.
var valveNames = map[string]string{"in": "inlet", "int": "inlet", "inlet": "inlet", "intake": "inlet", "i": "inlet", "ex": "exhaust",
	"exh": "exhaust", "exhaust": "exhaust", "e": "exhaust", "out": "exhaust", "outlet": "exhaust"}

// clearanceKeys are keys under which people put both.
var clearanceKeys = []string{"clearance", "clearances", "lash", "valve lash", "valve clearance", "gap", "gaps", "dry", "readings"}

// bothValves takes cylinders that stand in the section of the valves, or below a key of
// theirs, apart. Where the larger figure comes first nobody can tell which valve is meant,
// and the section is left as it was.
func bothValves(n *node) *node {
	out := &node{kind: mapping, pos: n.pos}
	inlet, exhaust := &node{kind: mapping}, &node{kind: mapping}
	for _, e := range n.entries {
		name := fold(e.key)
		switch {
		case slices.Contains(clearanceKeys, strings.ReplaceAll(name, "-", " ")) && e.value.kind == mapping:
			for _, one := range e.value.entries {
				if !putBoth(one, inlet, exhaust) {
					return n
				}
			}
		case startsWithFigure(name) || name == "others" || strings.HasPrefix(name, "cyl"):
			if !putBoth(e, inlet, exhaust) {
				return n
			}
		default:
			if valve := valveNames[name]; valve != "" {
				e.key = valve
			}
			out.entries = append(out.entries, e)
		}
	}
	if len(inlet.entries)+len(exhaust.entries) == 0 {
		return out
	}
	if out.get("inlet") != nil || out.get("exhaust") != nil {
		return n
	}
	for _, valve := range []struct {
		name string
		of   *node
	}{{"inlet", inlet}, {"exhaust", exhaust}} {
		if len(valve.of.entries) > 0 {
			valve.of.pos = valve.of.entries[0].pos
			out.entries = append(out.entries, entry{valve.name, valve.of.pos, valve.of})
		}
	}
	return out
}

// putBoth puts what was read of a cylinder's valves where it belongs, and reports that it
// can be told.
func putBoth(e entry, inlet, exhaust *node) bool {
	key := cylinderWord(e.key)
	if e.value.kind == mapping {
		for _, one := range e.value.entries {
			switch valveNames[fold(one.key)] {
			case "inlet":
				inlet.entries = append(inlet.entries, entry{key, e.pos, one.value})
			case "exhaust":
				exhaust.entries = append(exhaust.entries, entry{key, e.pos, one.value})
			default:
				return false
			}
		}
		return len(e.value.entries) > 0
	}
	first, second := valvesOf(e.value)
	if first == nil || second == nil || !inletFirst(first, second) {
		return false
	}
	inlet.entries = append(inlet.entries, entry{key, e.pos, first})
	exhaust.entries = append(exhaust.entries, entry{key, e.pos, second})
	return true
}

// valvesOf are the two halves of what was read of a cylinder: '0.10/0.28', '[0.10, 0.28]',
// '0.10, 0.11 / 0.28, 0.28' with two valves to each.
func valvesOf(n *node) (first, second *node) {
	if n.kind == list {
		if len(n.items) != 2 || n.items[0].kind == mapping || n.items[1].kind == mapping {
			return nil, nil
		}
		return n.items[0], n.items[1]
	}
	a, b, ok := strings.Cut(n.text, "/")
	if n.kind != scalar || !ok || strings.Contains(b, "/") {
		return nil, nil
	}
	return oneSide(n, a), oneSide(n, b)
}

// oneSide is what was read of one valve, or of the two at one side.
func oneSide(n *node, text string) *node {
	words := strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == ',' })
	if len(words) > 1 && valveNames[fold(words[0])] != "" { // in 0.10
		words = words[1:]
	}
	of := func(text string) *node { return &node{kind: scalar, pos: n.pos, text: text, plain: true} }
	if len(words) == 2 && isFigures(words[0]) && isFigures(words[1]) {
		return &node{kind: list, pos: n.pos, items: []*node{of(words[0]), of(words[1])}}
	}
	return of(strings.Join(words, " "))
}

// inletFirst reports a pair of which the first can be the inlet valve's: that has no more
// clearance than the exhaust valve, on nearly every engine.
func inletFirst(first, second *node) bool {
	a, b := leastOf(first), leastOf(second)
	return a < 0 || b < 0 || a <= b
}

// turnedPair answers a pair of which nobody can tell which valve is which, "" for none.
func turnedPair(n *node) string {
	for _, e := range n.entries {
		if first, second := valvesOf(e.value); first != nil && second != nil && !inletFirst(first, second) && leastOf(second) >= 0 {
			c, a, b := cylinderWord(e.key), short(halfAsWritten(first)), short(halfAsWritten(second))
			return "which valve is which? write 'inlet: {" + c + ": " + b + "}' and 'exhaust: {" + c + ": " + a + "}', or the other way round"
		}
	}
	return ""
}

// noClearance answers what was written in the place of one valve's clearance: that of two,
// or a word.
func (r *reader) noClearance(n *node, label string) bool {
	if n.kind != scalar {
		return false
	}
	hint := ""
	if first, second := valvesOf(n); first != nil && second != nil {
		a, b := short(halfAsWritten(first)), short(halfAsWritten(second))
		hint = "two such valves of one cylinder are [" + a + ", " + b + "]; the inlet valve's and the exhaust valve's stand in 'valves' itself: 'valves: {unit: mm, 1: " + a + "/" + b + "}'"
	}
	if text := fold(n.text); hint == "" && (text == "tight" || text == "shut" || text == "no gap" || text == "zero" || text == "no clearance" || text == "no lash") {
		hint = "write none where no feeler goes in, else the thickest that does, or '0-0.05' for less than the thinnest"
	}
	if hint == "" {
		return false
	}
	r.report(n.pos, hint, "'%s' is '%s', expected the clearance of one valve", label, short(n.text))
	return true
}

// halfAsWritten is a half of a pair as it was written.
func halfAsWritten(n *node) string {
	if n.kind != list {
		return n.text
	}
	texts := make([]string, len(n.items))
	for i, one := range n.items {
		texts[i] = one.text
	}
	return "[" + strings.Join(texts, ", ") + "]"
}

// leastOf is the least figure of a reading, -1 for none.
func leastOf(n *node) float64 {
	if n.kind == list {
		least := -1.0
		for _, one := range n.items {
			if v := leastOf(one); v >= 0 && (least < 0 || v < least) {
				least = v
			}
		}
		return least
	}
	v, err := strconv.ParseFloat(leadingNumber(n.text), 64)
	if err != nil {
		return -1
	}
	return v
}
