package job

import (
	"cmp"
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
	s.bareAt, s.zero = Pos{}, k.zero
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
	l := diag.Range{Low: out.Low, High: out.High, Unit: s.unit, Entered: n.text, Source: sec.scalarText("source"), FromSeaLevel: sec.word("from").Given(), Of: of}
	if k.speeds {
		l.For, l.At = k.name, e.key
		w.out.Limits = append(w.out.Limits, l)
		return
	}
	for one := range strings.SplitSeq(cmp.Or(k.limits, e.key), ", ") {
		l.For = one
		w.out.Limits = append(w.out.Limits, l)
	}
}

// plainQuantity tells whether a text is one number with a unit.
func plainQuantity(text string) bool {
	_, err := quantity.Parse(text)
	return err == nil
}
