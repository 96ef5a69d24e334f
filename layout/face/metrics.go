package face

import (
	"sort"

	"gaugesheet/layout"
)

// Metrics measures the faces. It is safe for concurrent use and its advances
// are those that a document's tables of widths hold: whole thousandths of an
// em, never kerned.
func Metrics() layout.Measurer { return metrics{} }

type metrics struct{}

// missingAdvance is how wide a character is taken to be that the faces lack.
// Has says which they are; none should come this far.
const missingAdvance = 600

func (metrics) Width(text string, f layout.Face) layout.Length {
	sum := 0
	for _, r := range text {
		regular, bold, ok := advance(r)
		switch {
		case !ok:
			sum += missingAdvance
		case f.Weight == layout.Bold:
			sum += bold
		default:
			sum += regular
		}
	}
	return perMille(sum, f)
}

func (metrics) Ascent(f layout.Face) layout.Length    { return perMille(Ascent, f) }
func (metrics) Descent(f layout.Face) layout.Length   { return perMille(Descent, f) }
func (metrics) CapHeight(f layout.Face) layout.Length { return perMille(CapHeight, f) }

func (metrics) Has(r rune) bool {
	_, _, ok := advance(r)
	return ok
}

func perMille(n int, f layout.Face) layout.Length {
	return layout.Length(n) * f.Size.Round() / 1000
}

// A span is a run of characters whose advances stand from at on.
type span struct {
	first, last rune
	at          int
}

// advance gives the advances of a character in thousandths of an em. It is
// not ok for a character that the faces lack.
func advance(r rune) (regular, bold int, ok bool) {
	if r >= spans[0].first && r <= spans[0].last {
		i := int(r - spans[0].first)
		return int(regularAdvances[i]), int(boldAdvances[i]), true
	}
	n := sort.Search(len(spans), func(i int) bool { return spans[i].last >= r })
	if n == len(spans) || r < spans[n].first {
		return 0, 0, false
	}
	i := spans[n].at + int(r-spans[n].first)
	return int(regularAdvances[i]), int(boldAdvances[i]), true
}
