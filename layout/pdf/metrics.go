package pdf

import (
	"gaugesheet/layout"
	"gaugesheet/layout/pdf/fonts"
)

// Metrics measures the faces that documents are set in. It is safe for
// concurrent use and its advances are those that a document's tables of widths
// hold: whole thousandths of an em, never kerned.
func Metrics() layout.Measurer { return metrics{} }

type metrics struct{}

// missingAdvance is how wide a character is taken to be that the faces lack.
// Has says which they are; none should come this far.
const missingAdvance = 600

func (metrics) Width(text string, f layout.Face) layout.Length {
	sum := 0
	for _, r := range text {
		regular, bold, ok := fonts.Advance(r)
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

func (metrics) Ascent(f layout.Face) layout.Length    { return perMille(fonts.Ascent, f) }
func (metrics) Descent(f layout.Face) layout.Length   { return perMille(fonts.Descent, f) }
func (metrics) CapHeight(f layout.Face) layout.Length { return perMille(fonts.CapHeight, f) }

func (metrics) Has(r rune) bool {
	_, _, ok := fonts.Advance(r)
	return ok
}

func perMille(n int, f layout.Face) layout.Length {
	return layout.Length(n) * f.Size.Round() / 1000
}
