package job

import (
	"slices"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
)

// A measured section is one of the further tests: its keys, the units of most
// of its readings, and whom it fits. What stands under a key follows from the
// key's form, so that a further test is a list of keys and no code.
type measuredSection struct {
	name   string
	doc    string
	units  []quantity.Unit // that 'unit' may name; none where each reading has its own
	keys   []key
	gauge  string            // its key under 'gauges', "" for none
	bare   string            // the key under which cylinders go that stand in the section itself, "" for none
	paired func(*node) *node // takes cylinders that stand in the section itself apart, nil for no such way
	said   saidAs            // how it is told in one line, nil for no such way
}

// measuredTests reads the further tests, in bench order.
func (r *reader) measuredTests(top *section) []diag.Measured {
	var out []diag.Measured
	for _, def := range measuredSections {
		if m := r.measuredTest(top, def); m != nil {
			out = append(out, *m)
		}
	}
	return out
}

func (r *reader) measuredTest(top *section, def measuredSection) *diag.Measured {
	if state, reason, ok := r.stated(top, def.name); ok {
		return &diag.Measured{Name: def.name, State: state, Reason: reason}
	}
	sec := top.group(def.name)
	if sec == nil {
		return nil
	}
	out := &diag.Measured{Name: def.name}
	w := &measuring{r: r, out: out}
	w.scale = r.measuredScale(sec, def.units)
	r.measured[def.name] = append(r.measured[def.name], w.scale)
	out.Unit = w.scale.unit
	w.keys(sec, "", "", "")
	w.scale.finish()
	w.overItsSpeed()
	var parts []whyNot
	for _, m := range out.Readings {
		parts = append(parts, whyNot{m.State, m.Reason})
	}
	out.State, out.Reason = stateOf(parts)
	if len(out.Words) > 0 {
		out.State, out.Reason = diag.Tested, ""
	}
	return out
}

// measuring is a section of a further test being read.
type measuring struct {
	r     *reader
	out   *diag.Measured
	scale *scale // of the section, or of the group being read
}

// measuredScale is the scale of a section's readings. Bare numbers are in its
// 'unit'; without one each reading names its own. What is said of a reading names
// the test, also where the unit is that of a group within it.
func (r *reader) measuredScale(sec *section, units []quantity.Unit) *scale {
	test, _, _ := strings.Cut(sec.name, ".")
	s := &scale{r: r, pressures: pressures{name: test}, label: sec.name, units: units, signed: true}
	switch {
	case len(units) == 0:
		s.units, s.given = []quantity.Unit{quantity.None}, true
	case len(units) == 1:
		r.unitAmong(sec, units) // which may name none but this
		s.unit, s.given = units[0], true
	default:
		s.unit = units[0]
		if sec.get("unit") != nil {
			s.unit, s.given = r.unitAmong(sec, units)
			if !s.given {
				s.bareAt = reported
			}
		}
	}
	return s
}

// unitAmong reads a section's 'unit'.
func (r *reader) unitAmong(sec *section, units []quantity.Unit) (quantity.Unit, bool) {
	n := sec.scalar("unit")
	if n == nil {
		return units[0], false
	}
	if v, err := quantity.ParseAs("1 "+n.text, quantity.DimensionOf(units[0])); err == nil && slices.Contains(units, v.Unit) {
		if v.Number == 1 {
			return v.Unit, true
		}
		r.report(n.pos, "write the readings as '6 "+short(n.text)+"', each with its unit, or as 0.006 with 'unit: "+string(v.Unit)+"'", "'%s' is '%s', expected %s", sec.label("unit"), short(n.text), anyOf(unitNames(units)))
		return units[0], false
	}
	hint := meant(n.text, unitNames(units))
	if words := strings.Fields(fold(n.text)); len(words) > 1 && strings.HasPrefix(words[len(words)-1], "abs") { // kPa abs
		hint = "a vacuum is what is missing to the air's pressure: at 101 kPa 35 kPa absolute are a vacuum of 66; write the readings so, and 'unit: " + string(units[min(1, len(units)-1)]) + "'"
	}
	r.report(n.pos, hint, "'%s' is '%s', expected %s", sec.label("unit"), short(n.text), anyOf(unitNames(units)))
	return units[0], false
}

// keys reads what stands under a section's keys. The name before them is that
// of the group that they stand in.
func (w *measuring) keys(sec *section, name, at, cylinder string) {
	limits := strings.HasSuffix(sec.name, ".limits")
	for _, e := range sec.node.entries {
		k := keyOf(sec.keys, e.key)
		if limits && k.form != asPermitted { // read with each limit
			continue
		}
		if k.name == "" || isEmpty(e.value) || e.key == "unit" {
			continue
		}
		one := place{name: joinName(name, e.key), at: at, cylinder: cylinder, label: sec.label(e.key)}
		if k.speeds {
			one.name, one.at = joinName(name, k.name), e.key
		}
		w.key(sec, k, e, one)
	}
}

// A place is where a reading belongs.
type place struct{ name, at, cylinder, label string }

func joinName(group, name string) string { return strings.TrimSpace(group + " " + name) }

// key reads one key by its form.
func (w *measuring) key(sec *section, k key, e entry, to place) {
	switch k.form {
	case asWord:
		w.word(to, sec.r.wordAt(e.value, to.label, k))
	case asText:
		if n := w.r.scalar(e.value, to.label, "one value"); n != nil {
			w.text(to, n)
		}
	case asYesNo:
		if v := sec.yesNo(e.key); v != diag.Unknown {
			w.word(to, map[diag.Tri]string{diag.Yes: "yes", diag.No: "no"}[v])
		}
	case asMeasured:
		w.measured(k, e.value, to)
	case asReadings:
		w.byCylinder(k, e.value, to)
	case asAllTexts:
		w.texts(k, e.value, to)
	case asAtSpeeds:
		w.byKey(k, e.value, to, speedKeys)
	case asAtTimes:
		w.byKey(k, e.value, to, timeKeys)
	case asByBank:
		w.byKey(k, e.value, to, bankKeys)
	case asGroup:
		w.group(k, e.value, to)
	case asPermitted:
		w.limit(sec, k, e, to)
	}
}

func (w *measuring) word(to place, value string) {
	if value != "" {
		w.out.Words = append(w.out.Words, diag.Word{Name: to.name, Cylinder: to.cylinder, Value: value})
	}
}

// text is a free text; one that says that the thing was not done is passed over.
func (w *measuring) text(to place, n *node) {
	if _, _, ok := parseState(n.text); !ok {
		w.word(to, n.text)
	}
}

// scaleOf is the scale of a key's readings: the section's, or one of its own.
func (w *measuring) scaleOf(k key, n *node) *scale {
	if len(k.units) == 0 {
		return w.scale
	}
	return &scale{r: w.r, pressures: pressures{name: w.scale.name}, label: w.scale.label, units: k.units, unit: unitIn(n, k.units),
		given: len(k.units) == 1, signed: k.signed}
}

// unitIn is the first of some units that a value names: it is kept in the unit
// that it was read in. Without any it is the first of these.
func unitIn(n *node, units []quantity.Unit) quantity.Unit {
	all := append([]*node{n}, n.items...)
	for _, e := range n.entries {
		all = append(all, e.value)
	}
	for _, one := range all {
		if v, err := quantity.Parse(one.text); err == nil && slices.Contains(units, v.Unit) {
			return v.Unit
		}
	}
	return units[0]
}

// measured reads a reading, alone or with what belongs to it.
func (w *measuring) measured(k key, n *node, to place) {
	if n.kind == mapping {
		if len(n.entries) == 0 {
			w.r.report(n.pos, "leave the key out where nothing was read", "'%s' is empty", to.label)
			return
		}
		sec := w.r.section(n, to.label, k.keys)
		if sec == nil {
			return
		}
		if at := sec.scalar("at"); at != nil {
			to.at = at.text
		}
		if value := sec.get("reading"); value != nil {
			w.add(k, value, to)
		}
		sec.node = without(without(n, "reading"), "at")
		w.keys(sec, to.name, to.at, to.cylinder)
		return
	}
	if hint := laterSaid(to.label[strings.LastIndexByte(to.label, '.')+1:], n.text, k.keys); n.kind == scalar && hint != "" {
		w.r.report(n.pos, hint, "'%s' is '%s', expected one number", to.label, short(n.text))
		return
	}
	if n.kind == scalar {
		if value, at, ok := strings.Cut(strings.ReplaceAll(n.text, "@", " at "), " at "); ok && slices.Contains(keyNames(k.keys), "at") {
			if to.at = strings.TrimSpace(at); isWhole(to.at) { // 10@700
				to.at += " rpm"
			}
			n = &node{kind: scalar, pos: n.pos, text: strings.TrimSpace(value), plain: n.plain, tag: n.tag}
		}
	}
	w.add(k, n, to)
}

// add reads one reading and keeps it.
func (w *measuring) add(k key, n *node, to place) {
	s := w.scaleOf(k, n)
	from := len(s.written)
	if reading, ok := w.directed(s, k, n, to.label); ok && w.believe(s, from, k, to) {
		w.keep(s, reading, to)
	}
	if s != w.scale {
		s.finish()
	}
}

func (w *measuring) keep(s *scale, reading diag.Reading, to place) {
	w.out.Readings = append(w.out.Readings, diag.Measurement{Name: to.name, At: to.at, Cylinder: to.cylinder, Unit: s.unit, Reading: reading})
}

// byCylinder reads a reading for each cylinder, in the engine's order.
func (w *measuring) byCylinder(k key, n *node, to place) {
	s := w.scaleOf(k, n)
	if n.kind == mapping && n.get("unit") != nil && len(k.units) > 0 { // that of these readings
		sec := &section{r: w.r, name: to.label, node: n, keys: []key{unitKey(k.units)}}
		s.unit, s.given = w.r.unitAmong(sec, k.units)
		n = without(n, "unit")
	}
	from := len(s.written)
	read := byCylinder(w.r, n, to.label, func(n *node, label, cylinder string) (diag.Reading, bool) {
		n, word := k.wordIn(n)
		w.word(place{name: to.name, cylinder: cylinder}, word)
		if n == nil || w.out.Name == "valves" && w.r.noClearance(n, label) || w.r.noFigure(n, label, k) {
			return diag.Reading{}, false
		}
		return s.reading(n, label)
	})
	if w.believe(s, from, k, to) && !k.apart {
		w.slipped(s, from)
	}
	for _, name := range w.r.cylinderNames {
		if reading, ok := read[name]; ok {
			w.keep(s, reading, place{name: to.name, at: to.at, cylinder: name})
		}
	}
	if s != w.scale {
		s.finish()
	}
}

// wordIn takes the word that a reading may be, or one of several, and leaves the rest: of
// two valves, one has no clearance.
func (k key) wordIn(n *node) (rest *node, word string) {
	isWord := func(one *node) bool { return one.kind == scalar && slices.Contains(k.words, fold(one.text)) }
	if isWord(n) {
		return nil, fold(n.text)
	}
	i := slices.IndexFunc(n.items, isWord)
	if n.kind != list || i < 0 {
		return n, ""
	}
	out := *n
	out.items = slices.DeleteFunc(slices.Clone(n.items), isWord)
	if len(out.items) == 0 {
		return nil, fold(n.items[i].text)
	}
	return &out, fold(n.items[i].text)
}

// noFigure answers a word in the place of a reading that is a figure or one of a key's own
// words: OL, for a plug without continuity.
func (r *reader) noFigure(n *node, label string, k key) bool {
	if _, _, stated := parseState(n.text); stated || len(k.words) == 0 || n.kind != scalar || n.text == "" || strings.ContainsAny(n.text, "0123456789") {
		return false
	}
	r.report(n.pos, "write the figure, '"+strings.Join(k.words, "' or '")+"' where it has none, or 'not tested'", "'%s' is '%s', expected a figure or '%s'", label, short(n.text), strings.Join(k.words, "', '"))
	return true
}

// without is a mapping without one of its keys.
func without(n *node, key string) *node {
	out := *n
	out.entries = slices.DeleteFunc(slices.Clone(n.entries), func(e entry) bool { return e.key == key })
	return &out
}

// texts reads a word or a text for each cylinder.
func (w *measuring) texts(k key, n *node, to place) {
	read := byCylinder(w.r, n, to.label, func(n *node, label, _ string) (string, bool) {
		if len(k.words) > 0 {
			word := w.r.wordAt(n, label, k)
			return word, word != ""
		}
		n = w.r.scalar(n, label, "a text")
		if n == nil {
			return "", false
		}
		_, _, unmade := parseState(n.text)
		return n.text, !unmade
	})
	for _, name := range w.r.cylinderNames {
		w.word(place{name: to.name, cylinder: name}, read[name])
	}
}

// group reads further keys, which may have a unit of their own.
func (w *measuring) group(k key, n *node, to place) {
	sec := w.r.section(n, to.label, k.keys)
	if sec == nil {
		return
	}
	if len(k.units) > 0 {
		outer := w.scale
		w.scale = w.r.measuredScale(sec, k.units)
		w.r.measured[w.out.Name] = append(w.r.measured[w.out.Name], w.scale)
		defer func() { w.scale = outer }()
		defer w.scale.finish()
	}
	name := to.name
	if k.name == "limits" {
		name = ""
	}
	w.keys(sec, name, to.at, to.cylinder)
}

// wordAt takes one of a key's words from a node, and reports another.
func (r *reader) wordAt(n *node, label string, k key) string {
	n = r.scalar(n, label, "one word")
	if n == nil {
		return ""
	}
	if _, _, unmade := parseState(n.text); unmade {
		return ""
	}
	return r.wordOf(n, label, k).Value
}

// MeasuredNames are the keys of the further tests, in bench order.
func MeasuredNames() []string {
	var names []string
	for _, s := range measuredSections {
		names = append(names, s.name)
	}
	return names
}

func isMeasured(name string) bool { return slices.Contains(MeasuredNames(), name) }

// GaugeOf is the key of a further test's gauge, "" for none.
func GaugeOf(name string) string {
	for _, s := range measuredSections {
		if s.name == name {
			return s.gauge
		}
	}
	return ""
}
