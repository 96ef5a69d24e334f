package job

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"gaugesheet/diag/quantity"
)

// What is told of cylinders in one text, 'first 150, second 148', '1 and 2 were 150, 3 only made 70' and 'good bar 3
// which is oily', is taken apart in every way that it may be meant. It is understood where that is one way and nothing
// is left over; what else is in it is answered by its own words.

// wholly gives the ways in which all of a text is told, two at most.
func (t *teller) wholly() [][]saying {
	t.rows = false
	ways := t.allWays()
	if len(ways) == 0 {
		t.rows = true
		ways = t.allWays()
	}
	return ways
}

func (t *teller) allWays() [][]saying {
	var out [][]saying
	seen := map[string]bool{}
	t.tries = 0
	var from func(at int, before []saying)
	from = func(at int, before []saying) {
		t.tries++
		at, excepts := t.between(at)
		if len(out) > 1 || t.tries > mostTries {
			return
		}
		if at == len(t.words) {
			if all, _, ok := t.assigned(before); ok && !seen[writtenTold(all)] {
				seen[writtenTold(all)] = true
				out = append(out, all)
			}
			return
		}
		for _, c := range t.clausesAt(at) {
			c.excepts = excepts
			from(c.end, append(slices.Clone(before), c))
		}
	}
	from(0, nil)
	if t.tries > mostTries {
		return nil
	}
	return out
}

// assigned gives each cylinder what is told of it: once, but where one is excepted from others. Else it is
// false, with the cylinder that is named twice, "" where none is.
func (t *teller) assigned(all []saying) (each []saying, twice string, ok bool) {
	var out []saying
	plain := len(all) == 1
	for i, c := range all {
		plain = plain && c.plain
		for j, name := range c.names {
			at := slices.IndexFunc(out, func(o saying) bool { return o.names[0] == name })
			if at >= 0 && out[at].value.text == "" && out[at].row == nil && c.value.text != "" { // except 3 and 6, 3 is 100
				out = slices.Delete(out, at, at+1)
				at = -1
			}
			if at >= 0 && (!c.excepts || i == 0 || name == others) {
				return nil, name, false
			}
			if at >= 0 {
				out = slices.Delete(out, at, at+1)
			}
			one := c
			if one.names = []string{name}; c.row != nil {
				one.value = c.row[j].value
			}
			out = append(out, one)
		}
	}
	return out, "", len(out) > 0 && !plain
}

// writtenTold writes what is told by cylinder, as braces have it.
func writtenTold(all []saying) string {
	texts := make([]string, len(all))
	for i, c := range all {
		texts[i] = c.names[0] + ": " + cmp.Or(c.value.text, "...")
	}
	return "{" + strings.Join(texts, ", ") + "}"
}

// namedAt reports a cylinder that is named at a word so that it can be nothing else.
func (t *teller) namedAt(at int) bool {
	return slices.ContainsFunc(t.headsAt(at), func(h heads) bool { return !h.plain || t.free })
}

// A way is what may be told at a word, and what that and all behind it costs.
type way struct {
	cost int
	step saying
	next int
}

// What is left over costs most, words that are no value less, each of them a little.
const costRaw, costWord, costLoose = 4, 1, 10

// partly gives what can be made out of a text with the least that is left over: what is told of cylinders in
// words that are no value, and words that belong to nothing.
func (t *teller) partly() (all []saying, loose []typed) {
	n := len(t.words)
	best := make([]way, n+1)
	for at := n - 1; at >= 0; at-- {
		w := way{costLoose + best[at+1].cost, saying{end: at + 1}, at + 1}
		if end, excepts := t.between(at); end > at {
			w = way{best[end].cost, saying{end: end, excepts: excepts}, end}
		}
		for _, c := range t.clausesAt(at) {
			if cost := best[c.end].cost; cost < w.cost {
				w = way{cost, c, c.end}
			}
		}
		best[at] = t.rawAt(at, best, w)
	}
	excepts := false
	for at := 0; at < n; at = best[at].next {
		step := best[at].step
		switch end, _ := t.between(at); {
		case len(step.names) > 0:
			step.excepts = excepts
			all, excepts = append(all, step), false
		case end > at:
			excepts = step.excepts
		case len(loose) > 0 && at > 0 && loose[len(loose)-1].at+len([]rune(loose[len(loose)-1].text))+1 >= t.words[at].at:
			last := &loose[len(loose)-1]
			last.text = string(t.whole[last.at:t.words[at].end])
		default:
			loose = append(loose, typed{t.words[at].text, t.words[at].at})
		}
	}
	return all, loose
}

// noFigure reports words without figures.
func (t *teller) noFigure(from, to int) bool {
	return !slices.ContainsFunc(t.words[from:to], func(w toldWord) bool { return strings.ContainsAny(w.low, "0123456789") })
}

// rawAt gives the cheapest way at a word, where cylinders are named with words behind them that are no value, or with
// nothing.
func (t *teller) rawAt(at int, best []way, w way) way {
	n := len(t.words)
	if at == 0 || t.words[at-1].breaks {
		for j := at + 1; j < n && !t.words[j].breaks && !t.free; j++ {
			on := t.phrase(j, t.behind)
			for _, h := range t.headsAt(on) {
				if cost := costRaw + costWord*(j-at) + best[h.end].cost; on > j && (h.end == n || t.words[h.end].breaks) && cost < w.cost && t.noFigure(at, j) {
					w = way{cost, saying{names: h.names, value: typed{t.text(at, j), t.words[at].at}, end: h.end, raw: true, from: at}, h.end}
				}
			}
		}
	}
	for _, h := range t.headsAt(at) {
		begin := t.link(h.end)
		if h.plain && begin == h.end && at > 0 && !t.words[at-1].breaks && !slices.Contains(apartFrom, t.words[at-1].low) {
			continue
		}
		if cost := costRaw + costWord + best[begin].cost; (begin == n || t.words[begin].breaks) && cost < w.cost { // all good bar 3
			w = way{cost, saying{names: h.names, value: typed{"", t.words[at].at}, end: begin, raw: true, from: at}, begin}
		}
		if begin < n && (t.namedAt(begin) || !t.soft && len(t.valuesAt(begin)) > 0) {
			continue
		}
		for end := begin + 1; end <= n && (!t.words[end-1].breaks || t.free && t.words[end-1].low == "," && end < n && !t.namedAt(end)) && (end == begin+1 || !t.namedAt(end-1)); end++ {
			if cost := costRaw + costWord*(end-begin) + best[end].cost; cost < w.cost {
				w = way{cost, saying{names: h.names, value: typed{t.text(begin, end), t.words[begin].at}, end: end, raw: true, plain: h.plain, linked: begin > h.end, from: at}, end}
			}
		}
	}
	return w
}

// toldWhole reads what is told of cylinders in one text as values by cylinder, where all of it is understood in one
// way; nil where it is not.
func (r *reader) toldWhole(n *node, label string) *node {
	t := r.tellerOf(n.text, label)
	if t == nil {
		return nil
	}
	if placed := t.inPlaces(n); placed != nil {
		return placed
	}
	if ways := t.wholly(); len(ways) == 1 {
		return t.node(n, ways[0])
	}
	return nil
}

func (r *reader) tellerOf(text, label string) *teller {
	reads := valuesOf(label)
	if reads == nil {
		return nil
	}
	text = countedUnit().ReplaceAllStringFunc(text, func(said string) string { // eight thou
		word, unit, _ := strings.Cut(said, " ")
		if n := numberWords[strings.ToLower(word)]; n > 0 {
			return strconv.Itoa(n) + " " + unit
		}
		return said
	})
	t := r.teller(text, reads, linksOf(label)...)
	if t != nil {
		t.soft, t.free = !isReadingsKey(label), isFree(label)
	}
	return t
}

// countedUnit is a word in front of a unit, which may be a number.
var countedUnit = lazily(`(?i)\b[a-z]+ (?:thou|psi|bar|kpa|percent|mm)\b`)

// toldPartly reads what can be made out of a text that tells of cylinders, so that each value that is none is answered in
// its place; what belongs to nothing is answered here, and so is a text of which nothing is made out.
func (r *reader) toldPartly(n *node, label string) *node {
	key := label[strings.LastIndexByte(label, '.')+1:]
	if cut, _ := r.cutOff(n); strings.HasSuffix(n.text, ",") && cut != "" || r.cylinderNames == nil && strings.ContainsAny(n.text, "0123456789") {
		return nil // which is answered where it is cut, and with the engine
	}
	if t := r.tellerOf(n.text, label); t != nil {
		if hint := t.placed(); hint != "" {
			r.report(n.pos, hint, "'%s' is '%s', expected values by %s", label, short(n.text), r.cylinderWord)
			return nil
		}
		if ways := t.wholly(); len(ways) > 1 {
			r.report(n.pos, "write "+key+": "+writtenTold(ways[0])+" or "+key+": "+writtenTold(ways[1]), "'%s' is '%s', which may be read in two ways", label, short(n.text))
			return nil
		}
		said, loose := t.partly()
		all, twice, sound := t.assigned(said)
		switch {
		case twice != "" && twice != others && slices.ContainsFunc(said, func(c saying) bool { return len(c.names) > 1 && slices.Contains(c.names, twice) }):
			r.report(n.pos, "name each once, such as "+key+": {"+twice+": ..., "+others+": ...}", "'%s' has %s %s twice", label, r.cylinderWord, twice)
			return nil
		case sound && len(loose) == 0 && t.stand(all):
			return r.rowOfTold(t, n, label, all)
		case sound && len(loose) > 0 && r.looseOfTold(n, label, all, loose):
			return nil
		}
	}
	if row, words := r.rowWithWords(n.text); row != "" && isReadingsKey(label) {
		r.report(n.pos, "write "+key+": "+row+", if they are in the order of the numbers; '"+short(words)+"' goes into 'findings' or 'notes'", "'%s' has '%s' in it, which is not understood", label, short(words))
		return nil
	}
	r.report(n.pos, "such as "+key+": {1: ..., 2: ...}, or a list in numerical order", "'%s' is '%s', expected values by %s", label, short(n.text), r.cylinderWord)
	return nil
}

// placed answers a cylinder that is named by its place, where that may be of two.
func (t *teller) placed() string {
	for i, w := range t.words {
		if t.endNamed(i) && t.r.placeHint(w.low+" "+t.words[i+1].low) != "" {
			return t.r.placeHint(w.low + " " + t.words[i+1].low)
		}
		if hint := t.r.sideHint(w.low); hint != "" {
			return hint
		}
		if _, _, ok := t.r.bankPlace(w.low); ok && t.r.cylinderMeant(w.text) == w.text {
			return t.r.placeHint(w.text)
		}
	}
	return ""
}

// endNamed reports a side at a word with an end of it behind it, left rear.
func (t *teller) endNamed(at int) bool {
	return at+1 < len(t.words) && sideNamed(t.words[at].low+" "+t.words[at+1].low) && slices.Contains([]string{"front", "rear", "back", "middle", "end"}, t.words[at+1].low)
}

// stand reports cylinders each of which is named where something new begins, if what is told of it is not
// understood.
func (t *teller) stand(all []saying) bool {
	for _, c := range all {
		if c.raw && !c.linked && c.from > 0 && !t.words[c.from-1].breaks && !slices.Contains(joinsTold, t.words[c.from-1].low) && !slices.Contains(apartFrom, t.words[c.from-1].low) {
			return false
		}
	}
	return true
}

// rowOfTold gives what is told of cylinders as values, or asks for those that are not told.
func (r *reader) rowOfTold(t *teller, n *node, label string, all []saying) *node {
	key := label[strings.LastIndexByte(label, '.')+1:]
	nothing := slices.IndexFunc(all, func(c saying) bool { return c.value.text == "" })
	switch {
	case nothing >= 0:
		r.report(r.within(n, all[nothing].value.at), "write "+key+": "+writtenTold(all)+", and what was read of it in the place of '...'", "'%s' names %s %s and nothing of it", label, r.cylinderWord, all[nothing].names[0])
	case t.free && slices.ContainsFunc(all, func(c saying) bool { return c.plain }):
		r.report(n.pos, "write "+key+": "+writtenTold(all), "'%s' is '%s', expected values by %s", label, short(n.text), r.cylinderWord)
	default:
		return t.node(n, all)
	}
	return nil
}

// looseOfTold answers words that belong to nothing beside what is told of cylinders; it is false where these tell
// too much, or deny it.
func (r *reader) looseOfTold(n *node, label string, all []saying, loose []typed) bool {
	key := label[strings.LastIndexByte(label, '.')+1:]
	known := slices.ContainsFunc(all, func(c saying) bool { return !c.raw })
	words := make([]string, len(loose))
	figures := false
	for i, l := range loose {
		words[i] = "'" + short(l.text) + "'"
		figures = figures || strings.ContainsAny(l.text, "0123456789")
		if denials(wordsOf(l.text), nil) > 0 {
			return false
		}
	}
	switch {
	case figures && len(loose) == 1 && loose[0].at == 0 && isFigureAlone(loose[0].text) && !r.isCylinder(loose[0].text) && all[0].names[0] != r.firstName():
		all = append([]saying{{names: []string{r.firstName()}, value: loose[0]}}, all...)
		r.report(r.within(n, loose[0].at), "write "+key+": "+writtenTold(all)+r.ifOfThat(), "'%s' has '%s' without its %s", label, loose[0].text, r.cylinderWord)
	case known && !figures && len(loose) <= len(all):
		r.report(r.within(n, loose[0].at), "write "+key+": "+writtenTold(all)+"; "+allOf(words)+" goes into 'findings' or 'notes'", "'%s' has %s in it, which is not understood", label, allOf(words))
	default:
		return false
	}
	return true
}

// noUnit stands for several.
const noUnit = quantity.Unit("several")

// node writes what is told as values by cylinder.
func (t *teller) node(n *node, all []saying) *node {
	out := &node{kind: mapping, pos: n.pos}
	unit := quantity.None
	for _, c := range all {
		v, err := quantity.ParseAs(c.value.text, quantity.Pressure)
		switch {
		case err != nil || v.Unit == quantity.None:
		case unit != quantity.None && unit != v.Unit:
			unit = noUnit
		default:
			unit = v.Unit
		}
	}
	for _, c := range all {
		if unit != quantity.None && unit != noUnit && isFigures(c.value.text) { // 180 bar, last one 140
			c.value.text += " " + string(unit)
		}
		out.entries = append(out.entries, entry{c.names[0], t.r.within(n, c.value.at), t.r.piece(n, c.value)})
	}
	return out
}
