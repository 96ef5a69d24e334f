package job

import (
	"slices"
	"strings"

	"gaugesheet/diag/quantity"
)

// leakLine writes losses with their places that stand in one text, '1 8, 2 7, 3 34 ex' and
// '3 leaks 34% at exhaust', as the keys of leakage; "" for any other text.
func (r *reader) leakLine(text string) string {
	if len(text) > longestSaid {
		return ""
	}
	if held := r.heldRow(text); held != "" {
		return held
	}
	if !strings.ContainsAny(text, ",;") { // 1 8 percent 2 9 percent
		text = r.atCylinders(text)
	}
	var pieces []typed
	text, places := r.leakPlaces(holeSaid().ReplaceAllString(strings.ReplaceAll(text, "=", " "), "neighbour"))
	for _, p := range separate(text, ",;") { // 45%, air at dipstick
		if last := len(pieces) - 1; last >= 0 && !strings.ContainsAny(p.text, "0123456789") {
			pieces[last].text += " " + strings.TrimPrefix(fold(p.text), "air ")
			continue
		}
		pieces = append(pieces, p)
	}
	var all []string
	for i, p := range pieces {
		if most := mostOfOthers(p.text); most != "" { // the rest under 10
			all = append(all, others+": {loss: "+most+" %}")
			continue
		}
		p.text = strings.TrimPrefix(p.text, "all ")
		name, rest, ok := r.leadingCylinder(p.text)
		rest = strings.TrimPrefix(rest, "- ")
		if !ok && len(pieces) == 1 && (len(r.cylinderNames) == 1 || !strings.ContainsAny(p.text, "0123456789")) {
			name, rest, ok = r.firstName(), p.text, true
		}
		if !ok && len(pieces) == len(r.cylinderNames) && len(pieces) > 1 {
			name, rest, ok = r.cylinderNames[i], p.text, true
		}
		leak := leakWritten(strings.TrimSpace(rest + " " + places[name]))
		if !ok || leak == "" {
			return ""
		}
		all = append(all, name+": "+leak)
	}
	if len(all) == 0 {
		return ""
	}
	line := "write 'leakage: {dry: {" + strings.Join(all, ", ") + "}}'"
	if strings.Contains(line, "loss: ") {
		line += ", where the figures are percent lost"
	}
	return line
}

// holeSaid is the plug hole of another cylinder, 4's plug hole.
var holeSaid = lazily(`(?i)\b(?:cyl(?:inder)?\.? ?|no\.? ?)?\d{1,2}(?:'s|’s|s)? (?:spark )?(?:plug )?hole\b`)

// underSaid is what was lost at most in all cylinders, or in all others.
var underSaid = lazily(`(?i)^(?:and )?(?:all|(?:all )?(?:the )?(?:rest|others?))(?: are| were| is| of them)? (?:under|below|less than|<) ?(\d+(?:\.\d+)?) ?(?:%|percent)?$`)

// mostOfOthers is that as a range from nothing; "" for any other text.
func mostOfOthers(text string) string {
	if m := underSaid().FindStringSubmatch(strings.TrimSpace(text)); m != nil {
		return "0-" + m[1]
	}
	return ""
}

// heldRow writes pressures that were held of what was supplied, 72/80 74/80, also where the
// one that was supplied stands first; "" for any other text.
func (r *reader) heldRow(text string) string {
	p, err := quantity.ScanAs(text, quantity.Pressure)
	if err != nil || len(p.Parts) < 4 || len(p.Parts) != 2*len(r.cylinderNames) {
		return ""
	}
	var all []string
	turned := p.Parts[0].Value.Number > p.Parts[1].Value.Number
	for i := 0; i < len(p.Parts); i += 2 {
		held, of := p.Parts[i], p.Parts[i+1]
		if turned {
			held, of = of, held
		}
		if supplied := map[bool]int{false: 1, true: 0}[turned]; p.Joins[i] != quantity.Slash || of.Value.Number != p.Parts[supplied].Value.Number || held.Value.Number > of.Value.Number {
			return ""
		}
		all = append(all, held.Text+"/"+of.Text)
	}
	return "write 'leakage: {dry: [" + strings.Join(all, ", ") + "]}', what was held before what was supplied"
}

// leakPlaces takes the places off that stand behind a row with a loss for each cylinder, '8 9
// 45 10, 3 hiss at tailpipe', by cylinder.
func (r *reader) leakPlaces(text string) (row string, places map[string]string) {
	row, behind, ok := strings.Cut(text, ", ")
	losses := asList(row, len(r.cylinderNames))
	if !ok || len(losses) < 2 || len(losses) != len(r.cylinderNames) {
		return text, nil
	}
	places = map[string]string{}
	for _, p := range separate(behind, ",;") {
		name, place, named := r.leadingCylinder(p.text)
		if !named || strings.ContainsAny(place, "0123456789") {
			return text, nil
		}
		places[name] = place
	}
	return strings.Trim(listed(losses), "[]"), places
}

// leakWritten is what was lost in one cylinder, as its keys have it; "" where the text says
// neither how much nor where.
func leakWritten(text string) string {
	figure, said := leakParts(text)
	figure = strings.TrimSpace(strings.TrimSuffix(strings.TrimSuffix(figure, "percent"), "per cent"))
	if slices.Contains([]string{"good", "ok", "okay", "fine", "bad", "poor", "some", "a lot", "little", "high", "low"}, fold(figure)) { // how much?
		figure = "..."
	}
	var parts []string
	switch held, of, isOf := strings.Cut(figure, "/"); {
	case isOf && isFigures(held) && isFigures(of):
		if len(said.at) == 0 {
			return figure
		}
		parts = append(parts, "held: "+held, "of: "+of)
	case figure == "...":
		parts = append(parts, "loss: ...")
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

// leakWithin writes a loss with a place that stands among other words, 40 % hissing at the dipstick tube; "" for any other
// text.
func leakWithin(text string) string {
	figure, words := leadingFigure(text, "")
	place := wordWithin(keyOf(leakKeys, "at"), words)
	if figure == "" || place == "" {
		return ""
	}
	if isFigures(figure) {
		figure += " %"
	}
	return "write {loss: " + figure + ", at: [" + place + "]}, if that is what was lost, and where"
}

// leaksAsKeys answers leaks of cylinders that stand in the place of a key, of which the first
// is given; "" where they are losses that say that they are.
func leaksAsKeys(n *node, line string, first entry, bare bool, isOne func(string) bool) string {
	leaks := leakLines(n, isOne)
	switch {
	case strings.Contains(leaks, "..."):
		return "write 'dry: {" + leaks + "}', and in the place of '...' what was lost, in percent"
	case leaks != "":
		return "write 'dry: {" + leaks + "}'"
	case strings.ContainsAny(line, "/") || strings.Contains(line, " of "):
		return "write 'dry: " + strings.ReplaceAll(line, " of ", "/") + "'"
	case bare:
		return "write 'loss: " + line + "' if they are percent lost; what was held of what was supplied is 'dry: {" + cylinderWord(first.key) + ": " + short(first.value.text) + "/" + heldOf(n) + ", ...}'"
	}
	return ""
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
		placed = placed || strings.HasPrefix(leak, "{at:") || strings.Contains(leak, "...")
		all = append(all, cylinderWord(e.key)+": "+leak)
	}
	if !placed {
		return ""
	}
	return strings.Join(all, ", ")
}
