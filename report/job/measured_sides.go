package job

import (
	"slices"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
)

// A side is such a word, and the sign that it gives the angle.
type side struct {
	word string
	sign float64
}

// sides are the words by which an angle is before or after a mark, and the sign
// that each gives it.
var sides = []side{
	{"before", 1}, {"btdc", 1}, {"before tdc", 1}, {"before top dead center", 1}, {"before top dead centre", 1}, {"early", 1}, {"advanced", 1}, {"advance", 1},
	{"after", -1}, {"atdc", -1}, {"after tdc", -1}, {"after top dead center", -1}, {"after top dead centre", -1}, {"late", -1}, {"retarded", -1}, {"retard", -1},
}

// isSide reports such a word.
func isSide(word string) bool {
	return slices.ContainsFunc(sides, func(s side) bool { return s.word == fold(word) })
}

// directed reads a reading that a word behind it may give its direction: '4 deg
// late' is below zero, '6 deg before' above it.
func (w *measuring) directed(s *scale, k key, n *node, label string) (diag.Reading, bool) {
	if !slices.Contains(k.units, quantity.Degree) || n.kind != scalar {
		return s.reading(n, label)
	}
	for _, side := range sides {
		figure, ok := strings.CutSuffix(strings.ToLower(n.text), " "+side.word)
		if !ok {
			continue
		}
		reading, sound := s.reading(&node{kind: scalar, pos: n.pos, text: figure}, label)
		for i := range reading.Values {
			reading.Values[i] *= side.sign
		}
		reading.Entered = n.text
		return reading, sound
	}
	return s.reading(n, label)
}
