package job

import (
	"cmp"
	"fmt"
	"math"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
)

// permitted is what a single figure among the limits permits.
type permitted uint8

const (
	atLeast permitted = iota
	atMost
)

// limit reads a permitted range: '44-78 psi', 'at least 10 psi', or a figure,
// which is the least or the most by its key.
func (w *measuring) limit(sec *section, k key, e entry, to place) {
	n := w.r.scalar(e.value, to.label, "a range")
	if n == nil {
		return
	}
	s := *w.scaleOf(k, n)
	s.bareAt = Pos{}
	out := diag.FuelLimit{Low: math.Inf(-1), High: math.Inf(1)}
	text, of, _ := strings.Cut(n.text, " of ")
	for _, side := range sides {
		if side.sign > 0 {
			text = strings.TrimSuffix(text, " "+side.word)
		}
	}
	p, ok := s.scan(&node{kind: scalar, pos: n.pos, text: text, plain: n.plain, tag: n.tag}, to.label)
	if !ok {
		return
	}
	switch {
	case len(p.Parts) == 1 && p.Bound == quantity.Exact:
		v, ok := s.limitValue(n, p.Parts[0], to.label)
		if !ok {
			return
		}
		if k.permits == atMost && k.signed {
			out.Low = -v
		}
		if k.permits == atMost {
			out.High = v
		} else {
			out.Low = v
		}
	case !w.r.ends(&s, n, p, to.label, &out):
		return
	}
	if s.bareAt != (Pos{}) && !s.given {
		w.scale.bareAt = s.bareAt
	}
	l := diag.Range{For: cmp.Or(k.limits, e.key), Low: out.Low, High: out.High, Unit: s.unit, Entered: n.text, Source: sec.scalarText("source"), FromSeaLevel: sec.word("from").Given(), Of: of}
	if k.speeds {
		l.For, l.At = k.name, e.key
	}
	w.out.Limits = append(w.out.Limits, l)
}

// plainQuantity tells whether a text is one number with a unit.
func plainQuantity(text string) bool {
	_, err := quantity.Parse(text)
	return err == nil
}

// otherReadings reads what was measured besides, a test of one reading each.
func (r *reader) otherReadings(top *section) []diag.Measured {
	out := diag.Measured{Name: diag.OtherReadings, State: diag.Tested}
	for i, n := range top.list("other-readings", "[{name: charging voltage, reading: 14.2 V}]") {
		sec := r.section(n, fmt.Sprintf("other-readings[%d]", i+1), otherReadingKeys)
		name, reading := sec.text("name"), sec.scalar("reading")
		if sec == nil || reading == nil {
			continue
		}
		if name.Value == "" {
			r.report(n.pos, "such as {name: charging voltage, reading: 14.2 V}", "'%s' has no name", sec.name)
			continue
		}
		w := &measuring{r: r, out: &out, scale: r.anyScale(sec, reading)}
		w.measured(key{name: "reading", form: asMeasured}, reading, place{name: name.Value, label: sec.label("reading")})
		if limit := sec.scalar("limit"); limit != nil {
			w.limit(sec, key{name: "limit", form: asPermitted}, entry{key: name.Value, pos: limit.pos, value: limit}, place{name: name.Value, label: sec.label("limit")})
		}
		w.word(place{name: name.Value}, sec.scalarText("note"))
	}
	if len(out.Readings) == 0 {
		return nil
	}
	return []diag.Measured{out}
}

// anyScale is a scale of the unit that a reading names, and of that in brackets
// behind it.
func (r *reader) anyScale(sec *section, reading *node) *scale {
	first, other, _ := strings.Cut(reading.text, "(")
	unit := unitNamed(first)
	units := []quantity.Unit{unit}
	if u := unitNamed(strings.TrimSuffix(strings.TrimSpace(other), ")")); quantity.DimensionOf(u) == quantity.DimensionOf(unit) {
		units = append(units, u)
	}
	return &scale{r: r, pressures: pressures{name: diag.OtherReadings}, label: sec.name, units: units, unit: unit, given: true, signed: true}
}

// unitNamed is the unit behind the last number of a text, which may be a range or
// a bound: "4-5 bar", "over 300 psi", "300+ psi".
func unitNamed(text string) quantity.Unit {
	v, err := quantity.Parse("1 " + text[strings.LastIndexAny(text, "0123456789+")+1:])
	if err != nil {
		return quantity.None
	}
	return v.Unit
}
