package job

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/air"
	"gaugesheet/diag/quantity"
)

var losses = bounds{[]quantity.Unit{quantity.Percent}, 0, 100, [2]float64{0, 100}}

func (r *reader) leakage(top *section) *diag.Leakage {
	if state, reason, ok := r.stated(top, "leakage"); ok {
		return &diag.Leakage{State: state, Reason: reason}
	}
	sec := top.group("leakage")
	if sec == nil {
		return nil
	}
	l := &diag.Leakage{Engine: sec.word("engine").Value, Limit: sec.amount("limit", losses)}
	if l.Limit != nil {
		l.LimitEntered = sec.scalarText("limit")
	}
	r.supplies = nil
	l.Dry, l.Wet = r.leaks(sec, "dry"), r.leaks(sec, "wet")
	r.otherSupply()
	r.lossOnly(sec, l)
	state := func(one diag.Leak) whyNot { return whyNot{one.State, one.Reason} }
	l.State, l.Reason = stateOf(append(partsOf(r, l.Dry, state), partsOf(r, l.Wet, state)...))
	return l
}

// lossOnly reads 'loss', where bare numbers can only be losses.
func (r *reader) lossOnly(sec *section, l *diag.Leakage) {
	losses := r.percent()
	all := map[string]diag.Leak{}
	if n := sec.get("loss"); n != nil {
		all = byCylinder(r, n, sec.label("loss"), func(n *node, label, cylinder string) (diag.Leak, bool) {
			figure, said := n, leakSaid{}
			if n.kind == scalar {
				var text string
				text, said = leakParts(n.text)
				figure = &node{pos: n.pos, text: text, plain: n.plain, tag: n.tag}
			}
			reading, ok := losses.reading(figure, label)
			if n.kind == scalar {
				reading.Entered = n.text
			}
			return diag.Leak{Reading: reading, At: said.at}, ok
		})
	}
	if losses.shares() {
		first := losses.samples[0]
		r.report(sec.get("loss").pos, "did you mean "+plainNumber(100*first.number)+" %? losses are in percent", "'%s' has losses that are all below 1 %%, as tightly as no engine seals", sec.label("loss"))
		return
	}
	for name, reading := range all {
		if _, twice := l.Dry[name]; twice {
			r.report(sec.get("loss").keyPos(name), "keep one of the two", "%s %s has a loss under 'dry' and under 'loss'", r.cylinderWord, name)
			continue
		}
		if l.Dry == nil {
			l.Dry = map[string]diag.Leak{}
		}
		l.Dry[name] = reading
	}
}

// shares reports losses that were written as parts of one.
func (s *scale) shares() bool {
	below := func(x sample) bool { return x.own || x.number <= 0 || x.number >= 1 }
	return len(s.samples) > 1 && !slices.ContainsFunc(s.samples, below)
}

// percent is the scale of losses.
func (r *reader) percent() *scale {
	return &scale{r: r, pressures: pressures{name: "leakage"}, label: "leakage", unit: quantity.Percent, given: true}
}

func (r *reader) leaks(sec *section, key string) map[string]diag.Leak {
	n := sec.get(key)
	if n == nil {
		return nil
	}
	if n.kind == scalar { // 72/80 70/80
		for _, all := range typedLists(evenly(n.text)) {
			if len(all) == len(r.cylinderNames) && !slices.ContainsFunc(all, func(t typed) bool { return !isHeld(t.text) }) {
				whole := n
				n = &node{kind: list, pos: whole.pos}
				for _, t := range all {
					n.items = append(n.items, r.piece(whole, t))
				}
				break
			}
		}
	}
	r.percentsLost = percentsLost(n)
	return byCylinder(r, n, sec.label(key), r.leak)
}

// heldByNone is what no engine of several cylinders holds in most of them, in percent: figures
// with a percent sign that lie under it are losses. Common practice, no source.
const heldByNone = 40

// percentsLost reports figures with a percent sign, two at least, that can only be losses: by
// their size, or because another of the same test is written as one.
func percentsLost(n *node) bool {
	var all []*node
	for _, e := range n.entries {
		all = append(all, e.value)
	}
	all = append(all, n.items...)
	var figures []float64
	said := false
	for _, one := range all {
		said = said || one.kind == mapping && one.get("loss") != nil
		if number, _, is := strings.Cut(one.text, "%"); is && one.kind == scalar {
			if v, err := strconv.ParseFloat(strings.TrimSpace(number), 64); err == nil {
				figures = append(figures, v)
			}
		}
	}
	slices.Sort(figures)
	return said || len(figures) > 1 && figures[len(figures)/2] <= heldByNone
}

// isHeld reports '72/80', held of supplied.
func isHeld(text string) bool {
	p, err := quantity.ScanAs(text, quantity.Pressure)
	return err == nil && len(p.Parts) == 2 && p.Only(quantity.Slash)
}

// leak reads one cylinder: {loss: 34 %}, {held: 72, of: 80}, or 72/80.
func (r *reader) leak(n *node, label, _ string) (diag.Leak, bool) {
	if n.kind == mapping {
		return r.leakKeys(n, label)
	}
	if n.kind == list {
		r.report(n.pos, "repeats are {loss: [12 %, 13 %]}", "'%s' is a list, expected a loss, or what was held of what was supplied", label)
		return diag.Leak{}, false
	}
	if isEmpty(n) {
		r.report(n.pos, emptyReading, "'%s' has no value", label)
		return diag.Leak{}, false
	}
	if state, reason, ok := parseState(n.text); ok {
		return diag.Leak{Reading: diag.Reading{State: state, Reason: reason, Entered: n.text}}, true
	}
	return r.leakWords(n, label)
}

// leakWords reads a leakage in one text: '72/80', or '34 % lost', which may say
// where it went. A figure that may be a loss or what was held is reported.
func (r *reader) leakWords(n *node, label string) (diag.Leak, bool) {
	figure, words := leakParts(n.text)
	p, err := quantity.ScanAs(figure, quantity.Pressure)
	if err != nil || len(p.Parts) > 2 {
		hint := "such as {loss: 34 %}, {held: 72, of: 80} or 72/80"
		if _, said := leakParts("? " + n.text); len(said.at) > 0 { // hissing at the tailpipe
			hint = "where no figure was read write {at: [" + strings.Join(said.at, ", ") + "]}"
		}
		if h := cmp.Or(r.percent().answer(n.text), leakWithin(n.text)); h != "" {
			hint = h
		}
		r.report(n.pos, hint, "'%s' is '%s', expected a loss, or what was held of what was supplied", label, short(n.text))
		return diag.Leak{}, false
	}
	at, most := strings.Join(words.at, ", "), ""
	if at != "" {
		most = ", at: [" + at + "]"
	}
	if len(p.Parts) == 2 && p.Bound == quantity.Exact && p.Only(quantity.Slash, quantity.Of) {
		held, supplied, _ := p.Pair(p.Joins[0])
		value, ok := r.lossOf(n, label, held.Value, supplied.Value)
		return diag.Leak{Reading: diag.Reading{State: diag.Tested, Values: []float64{value}, Entered: n.text}, At: words.at}, ok
	}
	words.lost = words.lost || r.percentsLost && p.Parts[len(p.Parts)-1].Value.Unit == quantity.Percent
	if words.lost && (p.Parts[0].Value.Unit == quantity.Percent || p.Parts[len(p.Parts)-1].Value.Unit == quantity.Percent || p.Parts[0].Value.Unit == quantity.None) {
		out, ok := r.percent().reading(&node{pos: n.pos, text: figure}, label)
		out.Entered = n.text
		return diag.Leak{Reading: out, At: words.at}, ok
	}
	if u := p.Parts[len(p.Parts)-1].Value.Unit; u != quantity.Percent && u != quantity.None {
		r.report(n.pos, "how much was supplied? write "+figure+" of it, such as 72/80", "'%s' is '%s', expected a loss, or what was held of what was supplied", label, short(n.text))
		return diag.Leak{}, false
	}
	r.report(n.pos, lostOrHeld(p, figure, most), "'%s' is '%s', which may be a loss or what was held", label, short(n.text))
	return diag.Leak{}, false
}

// lostOrHeld offers a figure as a loss, with the places that were named, and as
// what was held.
func lostOrHeld(p quantity.Phrase, figure, places string) string {
	first := p.Parts[0].Value.Number
	last := p.Parts[len(p.Parts)-1].Value.Number
	percent := strings.TrimSpace(strings.TrimRight(figure, "%abcdefghijklmnopqrstuvwxyz. "))
	switch {
	case last > 100:
		return "no more than 100 % can be lost; what was held of what was supplied is such as 72/80"
	case len(p.Parts) == 2 && first < last:
		return "for what was held of what was supplied write " + plainNumber(first) + "/" + plainNumber(last) + ", for a loss between the two {loss: " + percent + " %" + places + "}"
	}
	return "write {loss: " + percent + " %" + places + "} for what was lost, or " + plainNumber(first) + "/100 for what was held of 100"
}

// lossesInLine reads one loss for each cylinder between commas, with the places that
// some have beside them: 74/80, 72/80, 40/80 exhaust, 75/80.
func (r *reader) lossesInLine(n *node, label string) *node {
	losses := separate(n.text, ",;")
	if sectionOf(label) != "leakage" || len(losses) != len(r.cylinderNames) || len(losses) < 2 {
		return nil
	}
	out := &node{kind: list, pos: n.pos}
	for _, t := range losses {
		if !startsWithFigure(t.text) {
			return nil
		}
		out.items = append(out.items, r.piece(n, t))
	}
	return out
}

// heldOfAll writes what was held in each cylinder of a pressure that is named once for
// all of them, 72 74 40 75 over 80; "" for any other text.
func (r *reader) heldOfAll(text, label string) string {
	fields := strings.Fields(text)
	last := len(fields) - 1
	if sectionOf(label) != "leakage" || last < 2 || !isFigures(fields[last]) || !slices.Contains([]string{"over", "of", "/", "from"}, fold(fields[last-1])) {
		return ""
	}
	held := fields[:last-1]
	if held[len(held)-1] == "out" { // 72 74 40 75 out of 80
		held = held[:len(held)-1]
	}
	for i, figure := range held {
		if held[i] = strings.TrimRight(figure, ",") + "/" + fields[last]; !isFigures(strings.TrimRight(figure, ",")) {
			return ""
		}
	}
	if len(held) != len(r.cylinderNames) {
		return ""
	}
	return "write [" + strings.Join(held, ", ") + "]"
}

// leakSaid is what the words beside a figure say.
type leakSaid struct {
	lost bool
	at   []string
}

// leakParts takes '34 % lost at exhaust' apart: its figure, and what the words
// behind it say. Words that say nothing known stay with the figure.
func leakParts(text string) (figure string, said leakSaid) {
	fields := strings.Fields(strings.NewReplacer("(", " ", ")", " ", ";", " ").Replace(betweenWords(text)))
	vocabulary := vocabularyOf("place of a leak")
	for len(fields) > 1 {
		taken := false
		for size := min(4, len(fields)-1); size > 0 && !taken; size-- {
			words := strings.ToLower(strings.Join(fields[len(fields)-size:], " "))
			place, _ := vocabulary.find(words, vocabulary.Words)
			switch {
			case slices.Contains([]string{"loss", "lost", "leak", "leaks", "leakage", "leaking", "leakdown", "gone"}, words):
				said.lost, taken = true, true
			case slices.Contains([]string{"at", "the", "out the", "at the", "to", "to the", "into", "into the", "out", "out of", "out of the", "from", "from the", "through", "and", "&", "past", "past the", "in the", "back", "with", "coming", "coming out", "coming out of", "blowing", "blowing out", "blows", "whistling", "air", "hiss", "hisses", "hissing", "hiss at", "hissing at", "hisses at", "air at", "air out of"}, words):
				taken = true
			case words == "in" && len(said.at) > 0 && !strings.Contains(strings.ToLower(text), "in,"): // in exhaust, which is not in, exhaust
				taken = true
			case isWhole(cylinderWord(words)) && !isWhole(words): // into cyl 4
				said.at, taken = append([]string{"neighbour"}, said.at...), true
			case place != "":
				said.at, taken = append([]string{place}, said.at...), true
			}
			if taken {
				fields = fields[:len(fields)-size]
			}
		}
		if !taken {
			break
		}
	}
	figure = strings.Join(fields, " ")
	for _, begin := range []string{"loss ", "lost ", "leaks ", "leak ", "leakage ", "loss: ", "leaking "} {
		if len(figure) > len(begin) && strings.EqualFold(figure[:len(begin)], begin) {
			figure, said.lost = figure[len(begin):], true
		}
	}
	said.at = distinct(said.at)
	return figure, said
}

// betweenWords takes the commas out of a text that are no decimal ones.
func betweenWords(text string) string {
	isFigure := func(i int) bool { return i >= 0 && i < len(text) && text[i] >= '0' && text[i] <= '9' }
	out := []byte(text)
	for i := range out {
		if out[i] == ',' && !(isFigure(i-1) && isFigure(i+1)) {
			out[i] = ' '
		}
	}
	return string(out)
}

// A supplyOf is what a cylinder was supplied with.
type supplyOf struct {
	cylinder string
	quantity.Value
}

// suppliedOff is how far one supply may be from that of all others, as a part: a
// regulator drifts by less.
const suppliedOff = 0.10

// otherSupply notes a supply that is not that of all the other cylinders, which
// have one: a figure slipped, or the regulator was turned.
func (r *reader) otherSupply() {
	for i, one := range r.supplies {
		rest := slices.Delete(slices.Clone(r.supplies), i, i+1)
		if len(rest) < 2 || slices.ContainsFunc(rest, func(o supplyOf) bool { return o.Value != rest[0].Value }) || one.Unit != rest[0].Unit {
			continue
		}
		if usual := rest[0].Number; abs(one.Number-usual) > suppliedOff*usual {
			r.notice("unit-suspect", "digit", []string{one.cylinder}, diag.Facts{"section": "leakage", "unit": string(one.Unit),
				"value": diag.Number{Value: one.Number, Unit: one.Unit}, "meant": diag.Number{Value: usual, Unit: one.Unit}})
		}
	}
}

// lossOf is the loss in percent of what was held of a supply.
func (r *reader) lossOf(n *node, label string, held, supplied quantity.Value) (float64, bool) {
	back, err := held.In(supplied.Unit)
	switch {
	case err != nil || supplied.Unit != quantity.None && quantity.DimensionOf(supplied.Unit) != quantity.Pressure:
		r.report(n.pos, "such as 72/80", "'%s' is '%s', expected two pressures", label, short(entered(n)))
	case supplied.Number <= 0 || held.Number < 0:
		r.report(n.pos, "", "'%s' has a supply of %s, expected more than 0, and nothing below 0 held", label, plainNumber(supplied.Number))
	case back > supplied.Number:
		r.report(n.pos, "what was held stands first: "+plainNumber(supplied.Number)+"/"+plainNumber(back),
			"'%s' holds %s of %s supplied, more than there was", label, plainNumber(back), plainNumber(supplied.Number))
	default:
		r.supplies = append(r.supplies, supplyOf{label[strings.LastIndexByte(label, '.')+1:], supplied})
		loss, err := air.LeakagePercent(back, supplied.Number)
		return loss, err == nil
	}
	return 0, false
}

func (r *reader) leakKeys(n *node, label string) (diag.Leak, bool) {
	before := r.faults
	s := r.section(n, label, leakKeys)
	out := diag.Leak{At: s.wordList("at"), Most: s.word("most").Value}
	if out.Most != "" && !slices.Contains(out.At, out.Most) {
		out.At = append(out.At, out.Most)
	}
	loss, held, of := s.node.get("loss"), s.node.get("held"), s.node.get("of")
	switch {
	case loss != nil && (held != nil || of != nil):
		r.report(n.pos, "keep one of the two", "'%s' gives a loss and what was held, expected one of the two", label)
	case loss != nil:
		if isEmpty(loss) {
			return out, false // reported with the section's keys
		}
		var ok bool
		out.Reading, ok = r.percent().reading(loss, label+".loss")
		return out, ok
	case held == nil && of == nil && len(out.At) > 0:
		out.Reading = diag.Reading{State: diag.Tested} // the place was noted, and no figure
		return out, true
	case held == nil && of == nil && r.faults > before: // a place that is not one
	case held == nil:
		r.report(n.pos, "such as {loss: 34 %} or {held: 72, of: 80}", "'%s' has no 'loss', no 'held' and no 'at'", label)
	case of == nil && held.kind == scalar && strings.Contains(held.text, "/"): // {held: 72/80}
		return r.heldOf(s, held, label, out)
	case of == nil:
		r.report(n.pos, "such as {held: 72, of: 80}", "'%s' has 'held' but not 'of' how much was supplied", label)
	default:
		h, okH := r.pressureKey(s, "held")
		o, okO := r.pressureKey(s, "of")
		if !okH || !okO {
			return out, false
		}
		value, ok := r.lossOf(held, label, h, o)
		out.Reading = diag.Reading{State: diag.Tested, Values: []float64{value}, Entered: held.text + "/" + of.text}
		return out, ok
	}
	return out, false
}

// heldOf reads what was held with its supply behind a stroke.
func (r *reader) heldOf(s *section, n *node, label string, out diag.Leak) (diag.Leak, bool) {
	first, second, _ := strings.Cut(s.scalar("held").text, "/")
	held, err := quantity.Parse(strings.TrimSpace(first))
	of, errOf := quantity.Parse(strings.TrimSpace(second))
	if err := cmp.Or(err, errOf); err != nil {
		r.unreadable(n, label, err)
		return out, false
	}
	value, ok := r.lossOf(n, label, held, of)
	out.Reading = diag.Reading{State: diag.Tested, Values: []float64{value}, Entered: entered(n)}
	return out, ok
}

func (r *reader) pressureKey(s *section, key string) (quantity.Value, bool) {
	n := s.scalar(key)
	if n == nil {
		return quantity.Value{}, false
	}
	v, err := quantity.Parse(n.text)
	if err != nil {
		r.unreadable(n, s.label(key), err)
		return v, false
	}
	return v, true
}
