package job

import (
	"slices"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
)

var gaps = bounds{millimetres[:2], 0.2, 2.5, [2]float64{0.3, 2.2}}

func (r *reader) plugs(top *section) *diag.Plugs {
	if state, reason, ok := r.stated(top, "plugs"); ok {
		return &diag.Plugs{State: state, Reason: reason}
	}
	sec := top.group("plugs")
	if sec == nil {
		return nil
	}
	p := &diag.Plugs{Fitted: sec.scalarText("fitted")}
	r.gapUnit = quantity.None
	if n := sec.scalar("gap"); n != nil {
		r.gap(n, sec.label("gap"), p)
	}
	p.HeatRange, p.Reach = r.heatRange(sec.group("heat-range")), sec.word("reach").Value
	p.ByCylinder = r.looks(sec)
	p.State, p.Reason = stateOf(partsOf(r, p.ByCylinder, func(one diag.Plug) whyNot { return whyNot{one.State, one.Reason} }))
	return p
}

func (r *reader) looks(sec *section) map[string]diag.Plug {
	n := sec.get("looks")
	if n == nil {
		return nil
	}
	if text := r.oneText(n); text != nil {
		n = text
	}
	if n.kind == scalar {
		if typed := r.typedLooks(n); typed != nil {
			n = typed
		}
	}
	all := n.get("all")
	if all == nil || slices.Contains(r.cylinderNames, "all") {
		return byCylinder(r, n, sec.label("looks"), r.plug)
	}
	if len(n.entries) > 1 && n.get(others) == nil { // all but those that are named
		rest := *n
		rest.entries = slices.Clone(n.entries)
		for i := range rest.entries {
			if rest.entries[i].key == "all" {
				rest.entries[i].key = others
			}
		}
		return byCylinder(r, &rest, sec.label("looks"), r.plug)
	}
	if len(n.entries) > 1 {
		r.report(n.keyPos("all"), "for the cylinders not named write 'others'", "'plugs.looks' has 'all' and single plugs")
		return nil
	}
	plug, ok := r.plug(all, "plugs.looks.all", "")
	out := map[string]diag.Plug{}
	if ok {
		for _, name := range r.cylinderNames {
			out[name] = plug
		}
	}
	return out
}

// typedLooks reads looks that stand in one text: one for all plugs, or one for
// each, 'tan, tan, oily, tan'; nil for any other text.
func (r *reader) typedLooks(n *node) *node {
	if len(n.text) > longestSaid {
		return nil
	}
	vocabulary := vocabularyOf("look of a plug")
	known := func(text string) bool {
		word, answer := vocabulary.find(text, vocabulary.Words)
		_, _, stated := parseState(text)
		return word != "" || answer != "" || stated
	}
	plain := strings.TrimPrefix(fold(n.text), "all ")
	if word, _ := vocabulary.find(plain, vocabulary.Words); word != "" {
		one := *n
		one.text = word
		return &node{kind: mapping, pos: n.pos, entries: []entry{{"all", n.pos, &one}}}
	}
	for _, looks := range typedLists(evenly(n.text)) {
		if len(looks) != len(r.cylinderNames) || slices.ContainsFunc(looks, func(t typed) bool { return !known(t.text) }) {
			continue
		}
		out := &node{kind: list, pos: n.pos}
		for _, t := range looks {
			out.items = append(out.items, r.piece(n, t))
		}
		return out
	}
	return nil
}

// atCylinders puts a comma in the place of the space before each cylinder.
func (r *reader) atCylinders(text string) string {
	fields := strings.Split(text, " ")
	for i := 1; i < len(fields); i++ {
		if slices.Contains(r.cylinderNames, fields[i]) && isWhole(fields[i]) {
			fields[i-1] += ","
		}
	}
	return strings.Join(fields, " ")
}

func (r *reader) plug(n *node, label, _ string) (diag.Plug, bool) {
	if n.kind == list && onlyTexts(n) { // [oily, sooty]
		n = inOne(&node{braced: true, items: n.items})
	}
	if n.kind == scalar {
		if isEmpty(n) {
			r.report(n.pos, "say which you mean: how the plug looks, not tested, or could not test (why)", "'%s' has no value", label)
			return diag.Plug{}, false
		}
		if state, reason, ok := parseState(n.text); ok {
			return diag.Plug{State: state, Reason: reason}, true
		}
		if fold(n.text) == "wet" {
			r.report(n.pos, "wet with what? write oil-wet, fuel-wet or coolant", "'%s' is 'wet', expected what it is wet with", label)
			return diag.Plug{}, false
		}
		look := r.wordOf(n, label, keyOf(plugKeys, "look"))
		return diag.Plug{State: diag.Tested, Look: look.Value}, look.Given()
	}
	s := r.section(n, label, plugKeys)
	if s == nil {
		return diag.Plug{}, false
	}
	return diag.Plug{State: diag.Tested, Look: s.word("look").Value, GapMM: r.measuredGap(s),
		Photo: s.scalarText("photo"), Note: s.scalarText("note")}, true
}

// measuredGap reads one plug's gap. A bare number takes the unit of the gap by
// the book, the section's only other length.
func (r *reader) measuredGap(s *section) *float64 {
	n := s.scalar("gap")
	if n == nil {
		return nil
	}
	found := gaps
	found.low, found.high = 0, 3.5 // closed, and burnt away
	if v, err := quantity.Parse(n.text); err == nil && v.Unit == quantity.None && r.gapUnit != quantity.None {
		n = &node{pos: n.pos, text: n.text + " " + string(r.gapUnit)}
	} else if err == nil && v.Unit == quantity.None && v.Number == 0 {
		n = &node{pos: n.pos, text: "0 mm"} // the same in any unit
	}
	return r.amount(n, s.label("gap"), "1.1 mm", found)
}

// gap reads the gap by the book: '1.1 mm', '1.1 mm +/- 0.1', '1.0-1.1 mm'.
func (r *reader) gap(n *node, label string, p *diag.Plugs) {
	phrase, ok := r.phrase(n, label, "1.1 mm", quantity.Length)
	if !ok {
		return
	}
	middle, off, tolerance := phrase.Pair(quantity.PlusMinus)
	low, high, band := phrase.Pair(quantity.To)
	switch {
	case len(phrase.Parts) == 1:
		low = phrase.Parts[0]
	case tolerance:
		low = middle
	case !band:
		r.report(n.pos, "such as '1.1 mm +/- 0.1' or '1.0-1.1 mm'", "'%s' is '%s', expected a gap", label, short(n.text))
		return
	}
	first := r.value(n, n.pos, low.Value, label, "1.1 mm", gaps)
	if first == nil {
		return
	}
	p.GapMM, p.GapEntered, r.gapUnit = *first, n.text, low.Value.Unit
	wide := gaps
	wide.low = 0
	switch {
	case tolerance:
		if second := r.value(n, r.within(n, off.At), off.Value, label, "1.1 mm +/- 0.1", wide); second != nil {
			p.GapTolMM = *second
		}
	case band:
		second := r.value(n, r.within(n, high.At), high.Value, label, "1.1 mm +/- 0.1", gaps)
		switch {
		case second == nil:
		case *second <= *first:
			r.report(n.pos, "the smaller gap goes first", "'%s' is '%s', which does not rise", label, short(n.text))
		default:
			p.GapMM, p.GapTolMM = (*first+*second)/2, (*second-*first)/2
		}
	}
}
