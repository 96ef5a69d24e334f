package job

import (
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
		w.r.report(n.pos, "such as "+own.example, "'%s' is %s, expected %s", to.label, describe(n), own.expected)
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
