package job

import (
	"strings"
)

// leakLine writes losses with their places that stand in one text, '1 8, 2 7, 3 34 ex' and
// '3 leaks 34% at exhaust', as the keys of leakage; "" for any other text.
func (r *reader) leakLine(text string) string {
	var pieces []typed
	for _, p := range separate(text, ",;") { // 45%, air at dipstick
		if last := len(pieces) - 1; last >= 0 && !strings.ContainsAny(p.text, "0123456789") {
			pieces[last].text += " " + strings.TrimPrefix(fold(p.text), "air ")
			continue
		}
		p.text = strings.TrimPrefix(p.text, "all ")
		pieces = append(pieces, p)
	}
	var all []string
	for i, p := range pieces {
		name, rest, ok := r.leadingCylinder(p.text)
		if !ok && len(pieces) == 1 && (len(r.cylinderNames) == 1 || !strings.ContainsAny(p.text, "0123456789")) {
			name, rest, ok = r.firstName(), p.text, true
		}
		if !ok && len(pieces) == len(r.cylinderNames) && len(pieces) > 1 {
			name, rest, ok = r.cylinderNames[i], p.text, true
		}
		leak := leakWritten(rest)
		if !ok || leak == "" {
			return ""
		}
		all = append(all, name+": "+leak)
	}
	if len(all) == 0 {
		return ""
	}
	return "write 'leakage: {dry: {" + strings.Join(all, ", ") + "}}', where the figures are percent lost"
}

// leakWritten is what was lost in one cylinder, as its keys have it; "" where the text says
// neither how much nor where.
func leakWritten(text string) string {
	figure, said := leakParts(text)
	var parts []string
	switch held, of, isOf := strings.Cut(figure, "/"); {
	case isOf && isFigures(held) && isFigures(of):
		if len(said.at) == 0 {
			return figure
		}
		parts = append(parts, "held: "+held, "of: "+of)
	case isFigures(strings.TrimRight(figure, " %")):
		parts = append(parts, "loss: "+strings.TrimRight(figure, " %")+" %")
	default:
		places := vocabularyOf("place of a leak")
		for _, word := range []string{"hiss", "hisses", "hissing", "air", "leaks", "blows", "bubbles"} {
			figure = strings.TrimSpace(strings.TrimPrefix(fold(figure), word))
		}
		if place, _ := places.find(figure, places.Words); place != "" && len(said.at) == 0 {
			said.at = []string{place}
		} else if figure != "" {
			return ""
		}
	}
	if len(said.at) > 0 {
		parts = append(parts, "at: ["+strings.Join(said.at, ", ")+"]")
	}
	if len(parts) == 0 {
		return ""
	}
	return "{" + strings.Join(parts, ", ") + "}"
}

// leakLines are the leaks of cylinders that stand in the place of keys, with the places
// that are named, {3: hiss in exhaust}; "" where no place is.
func leakLines(n *node, isOne func(string) bool) string {
	var all []string
	placed := false
	for _, e := range n.entries {
		if !isOne(e.key) {
			continue
		}
		leak := ""
		if e.value.kind == scalar {
			leak = leakWritten(e.value.text)
		}
		if leak == "" {
			return ""
		}
		placed = placed || strings.HasPrefix(leak, "{at:")
		all = append(all, cylinderWord(e.key)+": "+leak)
	}
	if !placed {
		return ""
	}
	return strings.Join(all, ", ")
}
