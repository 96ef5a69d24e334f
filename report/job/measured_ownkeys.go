package job

import (
	"cmp"
	"strings"

	"gaugesheet/diag/quantity"
)

// A kind of names that the user writes in the place of keys.
type ownKeys struct {
	is       func(string) bool
	expected string
	example  string
}

var (
	speedKeys = ownKeys{isSpeed, "readings by speed", "{2000 rpm: 34}"}
	timeKeys  = ownKeys{isTime, "readings by time", "{5 min: 36}"}
	bankKeys  = ownKeys{func(string) bool { return true }, "values by bank", "{bank 1: ...}"}
)

// hint answers a reading that stands with its speed or time in a line: '40 at 2000'.
func (o ownKeys) hint(text string) string {
	text = figuresFor(text)
	var all []string
	for _, t := range separate(strings.ReplaceAll(strings.ReplaceAll(text, " then ", ", "), " and ", ", "), ",;") {
		one, ok := strings.CutPrefix(o.hintOfOne(t.text), "write {")
		if !ok || strings.Contains(one, "...") {
			return o.hintOfOne(text)
		}
		all = append(all, strings.TrimSuffix(one, "}"))
	}
	return "write {" + strings.Join(all, ", ") + "}"
}

// hintOfOne answers one reading with its speed or time.
func (o ownKeys) hintOfOne(text string) string {
	for _, word := range []string{" at ", "@", " after ", " in ", " for "} {
		value, at, ok := strings.Cut(fold(text), word)
		at = strings.TrimSpace(at)
		if isFigures(at) && o.is("2000 rpm") {
			at += " rpm"
		}
		if ok && o.is(at) && startsWithFigure(strings.TrimSpace(value)) {
			return "write {" + at + ": " + short(strings.TrimSpace(value)) + "}"
		}
	}
	if o.is(text) { // the time alone
		return "write what it showed then: {" + short(strings.TrimSpace(text)) + ": ...}"
	}
	return "such as " + o.example
}

// withoutBank answers readings that stand where the banks should.
func withoutBank(k key, n *node) string {
	if len(k.keys) == 0 {
		return ""
	}
	var said []string
	for _, e := range n.entries {
		name := fold(e.key)
		for _, called := range keysCalled(e.key) { // STFT
			if keyOf(k.keys, called).name != "" {
				name = called
			}
		}
		if keyOf(k.keys, name).name == "" || e.value.kind != scalar {
			return ""
		}
		said = append(said, name+": "+short(e.value.text))
	}
	return "name the bank: {bank 1: {" + strings.Join(said, ", ") + "}}"
}

// isSpeed takes a speed of the engine and the word idle.
func isSpeed(s string) bool {
	v, err := quantity.Parse(s)
	return fold(s) == "idle" || err == nil && v.Unit == quantity.RPM && v.Number > 0
}

func isTime(s string) bool {
	v, err := quantity.Parse(s)
	return err == nil && quantity.DimensionOf(v.Unit) == quantity.Time && v.Number >= 0
}

// byKey reads a reading, or a set of keys, for each speed, time or bank.
func (w *measuring) byKey(k key, n *node, to place, own ownKeys) {
	if n.kind != mapping || len(n.entries) == 0 {
		hint := ""
		if n.kind == scalar && k.form == asByBank {
			name := to.label[strings.LastIndexByte(to.label, '.')+1:]
			hint = trimsSaid(name, n.text, k.keys)
			if figure, _ := onlyFigure(n.text, ""); hint == "" && figure != "" {
				hint = "write '" + name + ": {bank 1: {long: " + strings.TrimSpace(strings.TrimRight(figure, "% percnt")) + "}}' if it is the long-term one of that bank, 'short' in the place of 'long' if not"
			}
		}
		w.r.report(n.pos, cmp.Or(hint, own.hint(n.text)), "'%s' is %s, expected %s", to.label, describe(n), own.expected)
		return
	}
	if hint := withoutBank(k, n); hint != "" && own.is("anything") {
		w.r.report(n.entries[0].pos, hint, "'%s' has '%s', expected %s", to.label, short(n.entries[0].key), own.expected)
		return
	}
	for _, e := range n.entries {
		one := place{to.name, strings.TrimSpace(to.at + " " + e.key), to.cylinder, to.label + "." + short(e.key)}
		switch {
		case !own.is(e.key):
			w.r.report(e.pos, "such as "+own.example, "'%s' has '%s', expected %s", to.label, short(e.key), own.expected)
		case isEmpty(e.value):
			w.r.report(e.pos, emptyReading, "'%s' has no value", one.label)
		case len(k.keys) > 0:
			if sec := w.r.section(e.value, one.label, k.keys); sec != nil {
				w.keys(sec, one.name, one.at, one.cylinder)
			}
		default:
			w.add(k, e.value, one)
		}
	}
}
